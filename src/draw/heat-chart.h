/* heat-chart.h: temperature along a joint and its conductors, and the table behind it.
 *
 * From a solved network with its profile. Copper is drawn unbroken, aluminium dashed, other metals dotted; between the
 * favourable and the unfavourable contacts, where given, lies the band. Mouths of the joint are dotted uprights, the
 * limit is dashed, a ring marks the hottest place. The axis is mm of the joint as in its drawing, whose parts stand below
 * it between their ends, under the numbers that they have there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/heat-model.h"
#include "draw/chart.h"

G_BEGIN_DECLS

typedef struct
{
  const TlAssembly  *assembly;
  const TlHeatModel *model;
  const TlNetResult *best;      /* with profile, steady */
  const TlNetResult *low;       /* (nullable): favourable contacts, with profile */
  const TlNetResult *high;      /* (nullable): unfavourable ones */
  double             x_low_mm;  /* part of the axis that is shown, as in the drawing above it; */
  double             x_high_mm; /* NAN: the joint and as much again each side */
} TlHeatChart;

/* Nothing given, whole joint. */
void tl_heat_chart_init (TlHeatChart *self);

/* @unit: units for one mm on the medium. */
void tl_heat_chart_paint (cairo_t *cr, const TlPalette *palette, const TlHeatChart *self, double width, double height, double unit, const TlLanguage *language);

/* Lines "metal TAB mm TAB degC" with a head, every cell of the part shown, then "part TAB from TAB to" with theirs;
 * (transfer full) */
char *tl_heat_chart_to_table (const TlHeatChart *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
