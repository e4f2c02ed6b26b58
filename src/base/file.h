/* file.h: saving that leaves the old file or the new one, whole.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"

G_BEGIN_DECLS

/**
 * tl_file_save:
 * Writes beside @path, fsyncs file and folder, renames. A symbolic link is followed (its target is
 * replaced); permissions of an existing file are kept; a target that is a folder, read-only or vanished
 * gives one clear message and nothing is written.
 */
gboolean tl_file_save (const char *path, const char *data, gsize length, GError **error);

/* Reads at most @max_bytes; more is %TL_ERROR_LIMIT before it is read. Only regular files and pipes. */
gboolean tl_file_load (const char *path, gsize max_bytes, char **data, gsize *length, GError **error);

/* Fingerprint (size, mtime ns, inode) to see whether somebody else wrote; %NULL if not there. */
char *tl_file_stamp (const char *path) G_GNUC_WARN_UNUSED_RESULT;

/* A field of a table as CSV (RFC 4180), quoted; what a table program would take for a formula begins with an apostrophe. */
char *tl_file_csv_field (const char *text) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
