/* draw-test.h: what to ask of a display list.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing-private.h"
#include "plan-test.h"

G_BEGIN_DECLS

gboolean dt_has_text (const TlDrawing *drawing, const char *text);
/* Bounds of all bodies of an owner in one view. */
gboolean dt_owner_bounds (const TlDrawing *drawing, const char *owner, gint view, double *x0,
                          double *y0, double *x1, double *y1);
/* The lines of bodies of the display list: geometry in mm, no type; (transfer full) */
char    *dt_body_lines (const TlDrawing *drawing);
/* Paints and asserts that the context is still well. */
void     dt_paint_nowhere (const TlDrawing *drawing);
/* Pixels that a part marks in an area. */
guint    dt_part_pixels (const TlStock *stock, TlPartKind kind, const TlFacts *facts, int width,
                         int height);

G_END_DECLS
