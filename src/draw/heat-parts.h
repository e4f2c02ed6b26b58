/* heat-parts.h: where the parts of a joint lie along the axis of its temperature, under the numbers of the drawing.
 *
 * In: a chart whose x scale is mm along the joint. Out: the parts' ends as marks through the plot, and below it each part as
 * a line between its ends with its leader number, so that a place is found again in the drawing of the joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/heat-chart.h"

G_BEGIN_DECLS

typedef struct
{
  guint       number;       /* as in the drawing, from 1 */
  const char *owner;        /* of the assembly */
  double      x0_mm, x1_mm; /* its ends, also where they lie outside the part shown */
  guint       row;          /* 0: next to the plot; parts of one row do not touch */
} TlHeatPart;

/**
 * tl_heat_parts_new:
 * @low_mm: with @high_mm the part of the axis that is shown
 * @number_mm: width of a number with its room, mm on that axis
 *
 * What the heat was reckoned in, and, where the joint lies along the axis, what is pulled over it (sealing sleeve, cap,
 * housing, ferrule). Parts without a number are left out.
 * Returns: (transfer full) (element-type TlHeatPart): by their left ends
 */
GArray *tl_heat_parts_new (const TlHeatChart *chart, double low_mm, double high_mm, double number_mm) G_GNUC_WARN_UNUSED_RESULT;

/* Room that they take below the chart, at text of @size. */
double tl_heat_parts_height (const GArray *self, double size);
/* The marks at their ends, through the plot. */
void   tl_heat_parts_paint_borders (const GArray *self, const TlChart *chart);
/* The parts, row by row down from @top. */
void   tl_heat_parts_paint (const GArray *self, const TlChart *chart, double top);

G_END_DECLS
