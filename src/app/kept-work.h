/* kept-work.h: unsaved work of one window, put by in the person's state folder while it is worked on, and found again after a
 * crash.
 *
 * A lock is held while the window lives: what lies there without one was left behind. Once the work is saved, or given up on
 * purpose, nothing is left. Files are written in a thread.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define TL_TYPE_KEPT_WORK (tl_kept_work_get_type ())
G_DECLARE_FINAL_TYPE (TlKeptWork, tl_kept_work, TL, KEPT_WORK, GObject)

/* @folder: (nullable): %NULL for the state folder of the person. Nothing is written before something is changed. */
TlKeptWork *tl_kept_work_new (TlDocument *document, const char *folder) G_GNUC_WARN_UNUSED_RESULT;
/* Done on purpose: what was put by is taken away. */
void        tl_kept_work_end (TlKeptWork *self);
/* %TRUE while something waits to be written or is being written. */
gboolean    tl_kept_work_is_busy (TlKeptWork *self);

/* --- what was left behind --- */
typedef struct
{
  char *text;     /* path of what was put by */
  char *document; /* (nullable): file it came from */
  char *title;
  char *when;     /* day and time, for people */
} TlLeftWork;

void tl_left_work_free (TlLeftWork *self);
/* Work that no living window holds: (element-type TlLeftWork) (transfer full) */
GPtrArray *tl_left_work_find (const char *folder) G_GNUC_WARN_UNUSED_RESULT;
/* Into a document, as a step after what its file holds, so that it counts as unsaved and can be undone; then it is taken away.
 * @missing: (out) (transfer full): pictures whose original is nowhere */
gboolean   tl_left_work_open (const TlLeftWork *self, TlDocument *document, GPtrArray **missing, GError **error);
void       tl_left_work_discard (const TlLeftWork *self);

G_END_DECLS
