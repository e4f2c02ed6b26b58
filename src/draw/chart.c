/* chart.c: axes, bands and lines of charts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/chart.h"

#include <math.h>

#define TEXT_MM 3.0
#define HAIRLINE_PITCH_MM 1.6
#define MOST_STEPS 6.0

static const double limit_dash[] = { 2.6, 1.3 };

void
tl_chart_ticks (double *low, double *high, double *step)
{
  double span = *high - *low, rough, power, part;

  if (!(span > 1e-12 * MAX (fabs (*low), fabs (*high))) || !isfinite (span))
    {
      double middle = isfinite (*low) ? *low : 0.0;

      span = MAX (fabs (middle) * 0.1, 1.0);
      *low = middle - span / 2.0;
      *high = middle + span / 2.0;
    }
  rough = span / MOST_STEPS;
  power = pow (10.0, floor (log10 (rough)));
  part = rough / power * (1.0 - 1e-9);
  *step = power * (part <= 1.0 ? 1.0 : part <= 2.0 ? 2.0 : part <= 5.0 ? 5.0 : 10.0);
  *low = floor (*low / *step + 1e-9) * *step;
  *high = ceil (*high / *step - 1e-9) * *step;
}

guint
tl_chart_decimals (double step)
{
  guint decimals = 0;

  while (decimals < 6 && fabs (step - round (step)) > 1e-6 * step)
    {
      step *= 10.0;
      decimals++;
    }
  return decimals;
}

void
tl_chart_init (TlChart *self, cairo_t *cr, const TlPalette *palette, double unit,
               const TlLanguage *language)
{
  double ratio = palette->line_ratio * unit;

  *self = (TlChart){ .cr = cr, .palette = palette, .language = language, .unit = unit };
  self->size = TEXT_MM * unit;
  self->thin = 0.13 * ratio;
  self->ink = 0.3 * ratio;
  self->heavy = 0.6 * ratio;
  self->x_high = self->y_high = self->x_step = self->y_step = 1.0;
}

void
tl_chart_place (TlChart *self, const char *title, double width, double height, double right)
{
  double widest = 0.0, pad = self->size;

  for (double value = self->y_low; value <= self->y_high + self->y_step / 2.0;
       value += self->y_step)
    {
      g_autofree char *text =
          tl_language_number (self->language, value, tl_chart_decimals (self->y_step));

      widest = MAX (widest, tl_paint_text_width (text, self->size, FALSE));
    }
  self->x = pad + widest + 0.7 * self->size;
  self->y = pad + 2.2 * self->size;
  self->width = MAX (self->size, width - pad - right - self->x);
  self->height = MAX (self->size, height - pad - 2.6 * self->size - self->y);
  tl_paint_set_colour (self->cr, self->palette->ink);
  tl_paint_text (self->cr, title, self->x, pad + 0.9 * self->size, self->size, TRUE, 0.0);
}

double
tl_chart_x (const TlChart *self, double value)
{
  return self->x + (value - self->x_low) / (self->x_high - self->x_low) * self->width;
}

double
tl_chart_y (const TlChart *self, double value)
{
  return self->y + self->height
         - (value - self->y_low) / (self->y_high - self->y_low) * self->height;
}

/* In one ink a rule is as black as the data: then it is dotted. */
static void
rule (const TlChart *self, double y)
{
  const double dots[] = { 0.15 * self->unit, 0.9 * self->unit };
  gboolean     is_black = tl_colour_contrast (self->palette->hair2, self->palette->paper) > 7.0;

  cairo_save (self->cr);
  tl_paint_set_colour (self->cr, self->palette->hair2);
  cairo_set_line_width (self->cr, self->thin);
  if (is_black)
    cairo_set_dash (self->cr, dots, 2, 0.0);
  cairo_move_to (self->cr, self->x, y);
  cairo_line_to (self->cr, self->x + self->width, y);
  cairo_stroke (self->cr);
  cairo_restore (self->cr);
}

static void
y_figures (const TlChart *self)
{
  for (gint i = 0; self->y_low + i * self->y_step <= self->y_high + self->y_step * 1e-6; i++)
    {
      double           value = self->y_low + i * self->y_step, y = tl_chart_y (self, value);
      g_autofree char *text =
          tl_language_number (self->language, value, tl_chart_decimals (self->y_step));

      if (i > 0)
        rule (self, y);
      tl_paint_set_colour (self->cr, self->palette->muted);
      tl_paint_text (self->cr, text, self->x - 0.7 * self->size, y + 0.35 * self->size, self->size,
                     FALSE, 1.0);
    }
}

static void
x_figures (const TlChart *self, const char *x_first)
{
  double first = ceil (self->x_low / self->x_step - 1e-9) * self->x_step;

  for (gint i = 0; first + i * self->x_step <= self->x_high + self->x_step * 1e-6; i++)
    {
      double           value = first + i * self->x_step, x = tl_chart_x (self, value);
      g_autofree char *text =
          i == 0 && x_first != NULL
              ? g_strdup (x_first)
              : tl_language_number (self->language, value, tl_chart_decimals (self->x_step));

      tl_paint_set_colour (self->cr, self->palette->ink);
      cairo_set_line_width (self->cr, self->ink);
      cairo_move_to (self->cr, x, self->y + self->height);
      cairo_rel_line_to (self->cr, 0.0, 0.35 * self->size);
      cairo_stroke (self->cr);
      tl_paint_set_colour (self->cr, self->palette->muted);
      tl_paint_text (self->cr, text, x, self->y + self->height + 1.45 * self->size, self->size,
                     FALSE, 0.5);
    }
}

void
tl_chart_axes (const TlChart *self, const char *x_unit, const char *x_first)
{
  y_figures (self);
  x_figures (self, x_first);
  tl_paint_set_colour (self->cr, self->palette->muted);
  tl_paint_text (self->cr, x_unit, self->x + self->width, self->y + self->height + 2.6 * self->size,
                 self->size, FALSE, 1.0);
  tl_paint_set_colour (self->cr, self->palette->ink);
  cairo_set_line_width (self->cr, self->ink);
  cairo_set_line_cap (self->cr, CAIRO_LINE_CAP_BUTT);
  cairo_move_to (self->cr, self->x, self->y);
  cairo_rel_line_to (self->cr, 0.0, self->height);
  cairo_rel_line_to (self->cr, self->width, 0.0);
  cairo_stroke (self->cr);
}

/* --- data --- */

static void
trace (const TlChart *self, guint n, const double *x, const double *y, gboolean backwards)
{
  for (guint i = 0; i < n; i++)
    {
      guint k = backwards ? n - 1 - i : i;

      cairo_line_to (self->cr, tl_chart_x (self, x[k]), tl_chart_y (self, y[k]));
    }
}

static void
clip_to_plot (const TlChart *self)
{
  cairo_rectangle (self->cr, self->x, self->y, self->width, self->height);
  cairo_clip (self->cr);
}

void
tl_chart_band (const TlChart *self, guint n, const double *x, const double *low, const double *high)
{
  double pitch = HAIRLINE_PITCH_MM * self->unit;

  if (n < 2)
    return;
  cairo_save (self->cr);
  clip_to_plot (self);
  cairo_new_path (self->cr);
  trace (self, n, x, high, FALSE);
  trace (self, n, x, low, TRUE);
  cairo_close_path (self->cr);
  tl_paint_set_colour (self->cr, self->palette->select_wash);
  cairo_fill_preserve (self->cr);
  cairo_save (self->cr);
  cairo_clip (self->cr);
  tl_paint_set_colour (self->cr, self->palette->select);
  cairo_set_line_width (self->cr, 0.4 * self->thin);
  for (double at = self->x + pitch; at < self->x + self->width; at += pitch)
    {
      cairo_move_to (self->cr, at, self->y);
      cairo_rel_line_to (self->cr, 0.0, self->height);
    }
  cairo_stroke (self->cr);
  cairo_restore (self->cr);
  tl_paint_set_colour (self->cr, self->palette->select);
  cairo_set_line_width (self->cr, 1.6 * self->thin);
  cairo_new_path (self->cr);
  trace (self, n, x, low, FALSE);
  cairo_new_sub_path (self->cr);
  trace (self, n, x, high, FALSE);
  cairo_stroke (self->cr);
  cairo_restore (self->cr);
}

void
tl_chart_line (const TlChart *self, guint n, const double *x, const double *y, double width,
               const double *dash, gint n_dash)
{
  double scaled[4];

  g_return_if_fail (n_dash <= 4);
  if (n < 2)
    return;
  for (gint i = 0; i < n_dash; i++)
    scaled[i] = dash[i] * self->unit;
  cairo_save (self->cr);
  clip_to_plot (self);
  tl_paint_set_colour (self->cr, self->palette->ink);
  cairo_set_line_width (self->cr, width);
  cairo_set_line_join (self->cr, CAIRO_LINE_JOIN_ROUND);
  if (n_dash > 0)
    cairo_set_dash (self->cr, scaled, n_dash, 0.0);
  cairo_new_path (self->cr);
  trace (self, n, x, y, FALSE);
  cairo_stroke (self->cr);
  cairo_restore (self->cr);
}

void
tl_chart_limit (const TlChart *self, double value, const char *name)
{
  const double x[] = { self->x_low, self->x_high }, y[] = { value, value };

  if (value <= self->y_low || value > self->y_high)
    return;
  tl_chart_line (self, 2, x, y, 1.2 * self->ink, limit_dash, G_N_ELEMENTS (limit_dash));
  tl_chart_label (self, name, self->x + 0.5 * self->size,
                  tl_chart_y (self, value) - 0.45 * self->size, FALSE, 0.0, self->palette->ink);
}

void
tl_chart_label (const TlChart *self, const char *text, double x, double y, gboolean bold,
                double align, TlColour colour)
{
  double width = tl_paint_text_width (text, self->size, bold);

  tl_paint_set_colour (self->cr, self->palette->paper);
  cairo_rectangle (self->cr, x - align * width - 0.2 * self->size, y - 0.85 * self->size,
                   width + 0.4 * self->size, 1.1 * self->size);
  cairo_fill (self->cr);
  tl_paint_set_colour (self->cr, colour);
  tl_paint_text (self->cr, text, x, y, self->size, bold, align);
}
