/* box-view-private.h: one view of the box while it is painted: what box-view.c and box-shapes.c share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/box-view.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_t           *cr;
  const TlPalette   *palette;
  const TlAssembly  *assembly;
  const TlBoxLayout *layout;
  const TlLanguage  *language;
  double             unit, size; /* of text */
  double             scale;      /* units for one mm of the box */
  double             x0, x1, y0, y1, z1; /* mm that are shown: the box, and what sticks out */
  double             x, y;       /* units: middle of the view, cover or middle line */
  guint              across;     /* axis that runs downwards: 1 from the cover, 2 from the side */
} TlBoxView;

/* Places along the box, and across it in the direction of the view. */
void tl_box_to_units (const TlBoxView *view, double along_mm, double across_mm, double *x, double *y);
/* Strokes the path; widths in mm of the medium. */
void tl_box_line (const TlBoxView *view, TlColour colour, double width_mm);
/* Path of the inside of the box, @beyond_mm outside of it. */
void tl_box_outline (const TlBoxView *view, double beyond_mm);
void tl_box_lead_point (const TlBoxView *view, const TlBoxThing *thing, double *x, double *y);
void tl_box_paint_walls (const TlBoxView *view);
void tl_box_paint_joint (const TlBoxView *view, const TlBoxThing *thing);
void tl_box_paint_lead (const TlBoxView *view, const TlBoxThing *thing);
void tl_box_paint_device (const TlBoxView *view, const TlBoxThing *thing);
void tl_box_paint_spare (const TlBoxView *view, const TlBoxThing *thing);
/* What does not go in. */
void tl_box_hatch (const TlBoxView *view, const TlBoxThing *thing);
void tl_box_mark_change (const TlBoxView *view, const TlBoxThing *thing);

G_END_DECLS
