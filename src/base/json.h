/* json.h: JSON for other programs: same input, same bytes.
 *
 * Two spaces, keys in the order in which they are written, numbers as short as they read back.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct _TlJson TlJson;

TlJson *tl_json_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* The text, closed with a line end; frees @self. (transfer full) */
char *tl_json_finish (TlJson *self) G_GNUC_WARN_UNUSED_RESULT;

/* @name: (nullable): key inside an object, %NULL inside an array and at the top. */
void tl_json_open (TlJson *self, const char *name, gboolean is_array);
void tl_json_close (TlJson *self);
/* %NULL is written as null. */
void tl_json_string (TlJson *self, const char *name, const char *value);
/* NAN is written as null. */
void tl_json_number (TlJson *self, const char *name, double value);
void tl_json_null (TlJson *self, const char *name);

G_END_DECLS
