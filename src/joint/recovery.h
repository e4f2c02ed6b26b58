/* recovery.h: a joint put by while it is worked on, so that a crash loses nothing: its text, and beside it its originals.
 *
 * Pictures are large and never change, the text is small and changes with each edit: an original is written once, under its
 * hash, into the folder PATH.pictures; then the text is replaced. Whenever it is interrupted, what stands there is the old
 * joint or the new one, each with all of its originals. Not for other programs: what is kept is saved by joint-file.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"

G_BEGIN_DECLS

/* Bytes of originals that are taken back; beyond them they are named as missing and stay in the folder. */
#define TL_RECOVERY_MAX_BYTES (2048ull * 1024ull * 1024ull)

/**
 * tl_recovery_save:
 * @path: file for the text; its folder must exist, and nobody else may write to it
 *
 * Originals that @joint names and does not hold are not written. Those of older texts are taken away once the new one stands.
 * Returns: %FALSE with %TL_ERROR_FILE or %TL_ERROR_LIMIT; the joint put by before is then still whole
 */
gboolean tl_recovery_save (const TlJoint *joint, const char *path, GError **error);

/**
 * tl_recovery_load:
 * @document: (nullable): file the joint came from; it is asked for originals that are missing or damaged
 * @missing: (out) (optional) (transfer full): names of pictures whose original is nowhere
 *
 * A bare joint and a ZIP are read too. Bytes that are not those of the record are taken where there are no better ones:
 * verifying tells it.
 * Returns: (transfer full) (nullable): "FILE:LINE: what; what would be right"
 */
TlJoint *tl_recovery_load (const char *path, const char *document, GPtrArray **missing, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Takes away text and originals; what is not there is no error, nor is what others put into the folder. */
gboolean tl_recovery_remove (const char *path, GError **error);

G_END_DECLS
