/* sheet-signs.c: two safety signs, a pair of scissors and a ruler, drawn here.
 *
 * The signs keep the meaning and number of ISO 7010 and the shapes of ISO 3864-1 in one ink; the artwork is ours
 * and the word stands beside each. The ruler tells whether the printer kept the scale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

#include <math.h>

#define RULER_MM 100

void
tl_sign_electricity (cairo_t *cr, double x, double y, double size)
{
  static const double flash[][2] = { { 0.545, 0.26 }, { 0.385, 0.60 }, { 0.485, 0.60 },
                                     { 0.435, 0.86 }, { 0.625, 0.50 }, { 0.520, 0.50 },
                                     { 0.600, 0.26 } };
  double              height = size * sqrt (3.0) / 2.0;

  if (cr == NULL)
    return;
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cr, size * 0.07);
  cairo_move_to (cr, x + size / 2.0, y + size * 0.05);
  cairo_line_to (cr, x + size * 0.96, y + height);
  cairo_line_to (cr, x + size * 0.04, y + height);
  cairo_close_path (cr);
  cairo_stroke (cr);
  for (guint i = 0; i < G_N_ELEMENTS (flash); i++)
    cairo_line_to (cr, x + flash[i][0] * size, y + flash[i][1] * height);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

void
tl_sign_lock (cairo_t *cr, double x, double y, double size)
{
  double middle = x + size / 2.0;

  if (cr == NULL)
    return;
  cairo_save (cr);
  cairo_arc (cr, middle, y + size / 2.0, size / 2.0, 0.0, 2.0 * G_PI);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_rectangle (cr, x + size * 0.29, y + size * 0.45, size * 0.42, size * 0.33);
  cairo_fill (cr);
  cairo_set_line_width (cr, size * 0.085);
  cairo_move_to (cr, middle - size * 0.13, y + size * 0.47);
  cairo_line_to (cr, middle - size * 0.13, y + size * 0.35);
  cairo_arc (cr, middle, y + size * 0.35, size * 0.13, G_PI, 2.0 * G_PI);
  cairo_line_to (cr, middle + size * 0.13, y + size * 0.47);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_arc (cr, middle, y + size * 0.58, size * 0.05, 0.0, 2.0 * G_PI);
  cairo_fill (cr);
  cairo_rectangle (cr, middle - size * 0.02, y + size * 0.58, size * 0.04, size * 0.11);
  cairo_fill (cr);
  cairo_restore (cr);
}

void
tl_sign_scissors (cairo_t *cr, double x, double y, double size)
{
  if (cr == NULL)
    return;
  cairo_save (cr);
  cairo_set_line_width (cr, size * 0.09);
  for (gint side = -1; side <= 1; side += 2)
    {
      cairo_new_sub_path (cr);
      cairo_arc (cr, x + size * 0.17, y + side * size * 0.2, size * 0.14, 0.0, 2.0 * G_PI);
      cairo_move_to (cr, x + size * 0.29, y + side * size * 0.12);
      cairo_line_to (cr, x + size, y - side * size * 0.18);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* Ticks stand on a line of exactly 100 mm. */
void
tl_sign_ruler (const TlSheet *self, cairo_t *cr, double x, double y)
{
  tl_pen_line (cr, x, y + 4.0, x + RULER_MM, y + 4.0, 0.3);
  for (guint i = 0; i <= RULER_MM; i++)
    {
      double length = i % 10 == 0 ? 3.4 : i % 5 == 0 ? 2.4 : 1.5;

      tl_pen_line (cr, x + i, y + 4.0, x + i, y + 4.0 - length, i % 10 == 0 ? 0.25 : 0.15);
    }
  tl_pen_begin (cr, "P");
  for (guint i = 0; i <= RULER_MM; i += 10)
    {
      g_autofree char *figure = g_strdup_printf ("%u", i);

      tl_pen_text (cr, figure, x + i, y + 7.3, TL_SIZE_LABEL, FALSE, i == 0 ? 0.0 : 0.5);
    }
  tl_pen_text (cr,
               tl_sheet_text (self, TL_N_ ("Scale check: this is 100 mm when printed at 100 %.")),
               x + RULER_MM + 6.0, y + 3.6, TL_SIZE_LABEL, FALSE, 0.0);
  tl_pen_end (cr, "P");
}
