/* chart.h: what all charts share: axes with round figures, bands, lines, limits, direct labels.
 *
 * A chart is a plot area on a cairo context with two straight scales. Legible with one ink: a band is a wash with
 * upright hairlines between thin edges, a second series is dashed, a limit is a long dash with its name on it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/paint.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_t          *cr;
  const TlPalette  *palette;
  const TlLanguage *language;
  double            unit;            /* units of @cr for one mm on the medium */
  double            size;            /* of text, in units */
  double            thin, ink, heavy;/* line widths */
  double            x, y, width, height; /* plot area */
  double            x_low, x_high, y_low, y_high; /* scales */
  double            x_step, y_step;  /* of the ticks */
} TlChart;

/* Round steps of 1, 2 or 5: the ends are moved out to whole steps; 4 to 6 of them where the range allows. */
void tl_chart_ticks (double *low, double *high, double *step);
/* Decimals that a step needs, 0 to 6. */
guint tl_chart_decimals (double step);

/* Text size and line widths for an area of @height units. */
void tl_chart_init (TlChart *self, cairo_t *cr, const TlPalette *palette, double unit, const TlLanguage *language);
/* Title at the top left of an area of @width by @height, then the plot area below it, with room for the labels of the
 * y scale, which must be set. @right: units kept free at the right. */
void tl_chart_place (TlChart *self, const char *title, double width, double height, double right);
/* Rules at the ticks, the two axes, their figures; @x_unit below the right end; @x_first: (nullable): word in place of
 * the first figure. */
void tl_chart_axes (const TlChart *self, const char *x_unit, const char *x_first);

double tl_chart_x (const TlChart *self, double value);
double tl_chart_y (const TlChart *self, double value);

void tl_chart_band (const TlChart *self, guint n, const double *x, const double *low, const double *high);
/* @dash: (nullable) (array length=n_dash): in mm on the medium. */
void tl_chart_line (const TlChart *self, guint n, const double *x, const double *y, double width, const double *dash, gint n_dash);
/* Dashed over the whole width with @name above it at the left; nothing outside the scale. */
void tl_chart_limit (const TlChart *self, double value, const char *name);
/* Text on a patch of paper, so that rules do not run through it. */
void tl_chart_label (const TlChart *self, const char *text, double x, double y, gboolean bold, double align, TlColour colour);

G_END_DECLS
