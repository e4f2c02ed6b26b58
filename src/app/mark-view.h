/* mark-view.h: the mark of a verdict, of a state, or a leader number, as a small widget.
 *
 * For the eye only: the word always stands beside it, so it has no part in what a screen reader says.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/theme.h"

G_BEGIN_DECLS

#define TL_TYPE_MARK_VIEW (tl_mark_view_get_type ())
G_DECLARE_FINAL_TYPE (TlMarkView, tl_mark_view, TL, MARK_VIEW, GtkWidget)

/* @size: edge length, px */
GtkWidget *tl_mark_view_new (gint size) G_GNUC_WARN_UNUSED_RESULT;
void       tl_mark_view_show_mark (TlMarkView *self, TlMark mark);
/* @is_selected: filled */
void       tl_mark_view_show_number (TlMarkView *self, guint number, gboolean is_selected);
/* The line that a verdict draws on a contact, as wide as the widget. */
void       tl_mark_view_show_line (TlMarkView *self, TlMark mark);
/* The edge of a finding's row, as high as the widget. */
void       tl_mark_view_show_edge (TlMarkView *self, TlMark mark);

G_END_DECLS
