/* part-private.h: a part by itself, true in proportion, as shapes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing-private.h"

G_BEGIN_DECLS

/* Length and height of the drawing of a part, mm; both above 0. */
void tl_part_extent (const TlStock *stock, TlPartKind kind, const TlFacts *facts, double *length_mm,
                     double *height_mm);
/* Its shapes about @x, @y; all with @owner. */
void tl_part_shapes (TlDrawing *d, const TlStock *stock, TlPartKind kind, const TlFacts *facts,
                     const char *owner, double x, double y, double scale);
/* A display list without a joint. */
void tl_drawing_init_bare (TlDrawing *d, double width, double height, double unit);
void tl_drawing_clear (TlDrawing *d);

G_END_DECLS
