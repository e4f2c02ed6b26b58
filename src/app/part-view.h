/* part-view.h: a part or a whole joint drawn small and true in proportion.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/theme.h"
#include "draw/drawing.h"

G_BEGIN_DECLS

#define TL_TYPE_PART_VIEW (tl_part_view_get_type ())
G_DECLARE_FINAL_TYPE (TlPartView, tl_part_view, TL, PART_VIEW, GtkWidget)

GtkWidget *tl_part_view_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* One whose drawing can be moved by dragging, wheel and arrow keys where it is larger than its field, @name for a screen
 * reader. */
GtkWidget *tl_part_view_new_movable (const char *name) G_GNUC_WARN_UNUSED_RESULT;
/* @facts: (nullable): nothing is drawn */
void       tl_part_view_show_part (TlPartView *self, const TlStock *stock, TlPartKind kind, const TlFacts *facts);
/* The joint's section without numbers, dimensions and marks. */
void       tl_part_view_show_joint (TlPartView *self, const TlVerdict *verdict);
/* Screen px for one mm of the joint, its middle in the middle; 0: fitted, as at first. */
void       tl_part_view_set_scale (TlPartView *self, double px_per_mm);
/* What a joint is drawn at; 0 while nothing is. */
double     tl_part_view_scale (TlPartView *self);
/* (nullable) (transfer none): of a joint, as laid out */
const TlDrawing *tl_part_view_drawing (TlPartView *self);
/* Moves the drawing, not further than that its ends are seen; nothing while it has room. */
void       tl_part_view_move (TlPartView *self, double dx_px, double dy_px);
/* Whether it is larger than its field; never of one that cannot be moved. */
gboolean   tl_part_view_is_cut (TlPartView *self);
/* Leaves @top_px free above the drawing of a joint, for what lies over it. */
void       tl_part_view_set_free_top (TlPartView *self, double top_px);

G_END_DECLS
