/* own-window.h: My parts: the person's own pack beside the shipped stock.
 *
 * Left the parts of one's own and those with a note, or what a search finds; right the one chosen. A second page holds
 * name, currency and minutes. Every edit is saved at once and can be undone; conflicts stand on top with their reason.
 *
 * Actions (own.): add (s: kind), show (s), copy, remove, undo, redo, import, import-from (s), export, export-to (s),
 * reload, warn (s).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/own-part-form.h"
#include "app/document.h"

G_BEGIN_DECLS

#define TL_TYPE_OWN_WINDOW (tl_own_window_get_type ())
G_DECLARE_FINAL_TYPE (TlOwnWindow, tl_own_window, TL, OWN_WINDOW, GtkWindow)

/* Hides when it is closed; destroy it with its parent. */
GtkWidget     *tl_own_window_new (TlOwnStock *own, TlDocument *document, GtkWindow *parent) G_GNUC_WARN_UNUSED_RESULT;
void           tl_own_window_show_part (TlOwnWindow *self, const char *id);
/* As if typed. */
void           tl_own_window_search (TlOwnWindow *self, const char *words);
TlOwnPartForm *tl_own_window_form (TlOwnWindow *self);
/* How many parts the list shows. */
guint          tl_own_window_count (TlOwnWindow *self);
/* What stands on top; "" if nothing does. (transfer none) */
const char    *tl_own_window_message (TlOwnWindow *self);

G_END_DECLS
