/* marks.c: the marks of a verdict, the edges of rows, the lines on contacts, the numbers in circles.
 *
 * Each severity has its own outline, so that one ink is enough: a square with a crack, a square on its corner with
 * one half solid, a lens with a dot, a ring with a bar.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/paint.h"
#include <math.h>

static TlColour
mark_colour (const TlPalette *palette, TlMark mark)
{
  return (guint) mark < 4 ? palette->severity[mark] : palette->ink;
}

static void
ring (cairo_t *cr, double radius, double width)
{
  cairo_set_line_width (cr, width);
  cairo_new_path (cr);
  cairo_arc (cr, 0.0, 0.0, radius, 0.0, 2.0 * G_PI);
  cairo_stroke (cr);
}

static void
segment (cairo_t *cr, double x0, double y0, double x1, double y1)
{
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
  cairo_stroke (cr);
}

/* All on an edge length of 1. */
static void
paint_unsafe (cairo_t *cr, const TlPalette *palette)
{
  cairo_rectangle (cr, -0.45, -0.45, 0.9, 0.9);
  cairo_fill (cr);
  tl_paint_set_colour (cr, palette->paper);
  cairo_set_line_width (cr, 0.12);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_move_to (cr, 0.16, -0.46);
  cairo_line_to (cr, -0.14, -0.02);
  cairo_line_to (cr, 0.14, 0.02);
  cairo_line_to (cr, -0.16, 0.46);
  cairo_stroke (cr);
}

static void
paint_change (cairo_t *cr)
{
  cairo_move_to (cr, 0.0, -0.5);
  cairo_line_to (cr, 0.5, 0.0);
  cairo_line_to (cr, 0.0, 0.5);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_set_line_width (cr, 0.1);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_move_to (cr, 0.0, -0.45);
  cairo_line_to (cr, 0.45, 0.0);
  cairo_line_to (cr, 0.0, 0.45);
  cairo_line_to (cr, -0.45, 0.0);
  cairo_close_path (cr);
  cairo_stroke (cr);
}

static void
paint_watch (cairo_t *cr)
{
  cairo_set_line_width (cr, 0.1);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_move_to (cr, -0.5, 0.0);
  cairo_curve_to (cr, -0.24, -0.40, 0.24, -0.40, 0.5, 0.0);
  cairo_curve_to (cr, 0.24, 0.40, -0.24, 0.40, -0.5, 0.0);
  cairo_close_path (cr);
  cairo_stroke (cr);
  cairo_arc (cr, 0.0, 0.0, 0.14, 0.0, 2.0 * G_PI);
  cairo_fill (cr);
}

static void
paint_refused (cairo_t *cr)
{
  ring (cr, 0.44, 0.1);
  segment (cr, -0.29, -0.29, 0.29, 0.29);
  segment (cr, -0.29, 0.29, 0.29, -0.29);
}

void
tl_paint_mark (cairo_t *cr, const TlPalette *palette, TlMark mark, double x, double y, double size)
{
  static const double broken[2] = { 0.22, 0.1255 };

  if (!isfinite (x + y + size) || size <= 0.0)
    return;
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, size, size);
  cairo_new_path (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  tl_paint_set_colour (cr, mark_colour (palette, mark));
  switch (mark)
    {
    case TL_MARK_UNSAFE:
      paint_unsafe (cr, palette);
      break;
    case TL_MARK_CHANGE:
      paint_change (cr);
      break;
    case TL_MARK_WATCH:
      paint_watch (cr);
      break;
    case TL_MARK_SOUND:
      ring (cr, 0.44, 0.1);
      segment (cr, -0.23, 0.0, 0.23, 0.0);
      break;
    case TL_MARK_UNFINISHED:
      cairo_set_dash (cr, broken, 2, 0.0);
      ring (cr, 0.44, 0.1);
      break;
    case TL_MARK_NOT_COMPUTED:
      ring (cr, 0.44, 0.1);
      segment (cr, -0.3, 0.3, 0.3, -0.3);
      break;
    case TL_MARK_REFUSED:
    default:
      paint_refused (cr);
      break;
    }
  cairo_restore (cr);
}

void
tl_paint_edge (cairo_t *cr, const TlPalette *palette, TlMark mark, double x, double y, double width,
               double height)
{
  double step;

  if (!(width > 0.0 && height > 0.0) || !isfinite (x + y + width + height))
    return;
  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  tl_paint_set_colour (cr, mark_colour (palette, mark));
  if (mark == TL_MARK_UNSAFE)
    cairo_paint (cr);
  else if (mark == TL_MARK_CHANGE)
    {
      step = MIN (width, height);
      cairo_set_line_width (cr, 0.42 * step);
      for (double k = x + y - step; k < x + y + width + height + step; k += step)
        {
          cairo_move_to (cr, k - y + step, y - step);
          cairo_line_to (cr, k - y - height - step, y + height + step);
        }
      cairo_stroke (cr);
    }
  else if (mark == TL_MARK_WATCH)
    {
      gboolean upright = height >= width;
      double   thick = MIN (width, height), length = MAX (width, height),
             radius = MIN (0.32 * thick, 0.3 * length);

      /* rows of dots: one along a narrow edge, several across a wide bar */
      step = MAX (2.0 * thick * 0.8, 1e-6);
      for (double at = step / 2.0; at < length; at += step)
        {
          cairo_new_sub_path (cr);
          if (upright)
            cairo_arc (cr, x + thick / 2.0, y + at, radius, 0.0, 2.0 * G_PI);
          else
            cairo_arc (cr, x + at, y + thick / 2.0, radius, 0.0, 2.0 * G_PI);
        }
      cairo_fill (cr);
    }
  else if (height >= width)
    {
      cairo_rectangle (cr, x, y, width * 0.4, height);
      cairo_fill (cr);
    }
  else
    {
      cairo_rectangle (cr, x, y + height * 0.3, width, height * 0.4);
      cairo_fill (cr);
    }
  cairo_restore (cr);
}

static void
barbs (cairo_t *cr, double unit, double length)
{
  double step = 1.2 * unit;
  guint  count = (guint) MAX (1.0, floor (length / step));

  cairo_set_line_width (cr, 0.4 * unit);
  for (guint i = 0; i < MIN (count, 2000u); i++)
    {
      double at = length * ((double) i + 0.5) / (double) count;

      cairo_move_to (cr, at - 0.4 * unit, 0.95 * unit);
      cairo_line_to (cr, at + 0.4 * unit, -0.95 * unit);
    }
  cairo_stroke (cr);
}

void
tl_paint_contact (cairo_t *cr, const TlPalette *palette, TlMark mark, double unit, double x0,
                  double y0, double x1, double y1)
{
  double length = hypot (x1 - x0, y1 - y0);
  double thick = 0.85 * unit * palette->line_ratio;
  double dash[2];

  if (!isfinite (length) || length <= 0.0 || !(unit > 0.0))
    return;
  cairo_save (cr);
  cairo_translate (cr, x0, y0);
  cairo_rotate (cr, atan2 (y1 - y0, x1 - x0));
  cairo_new_path (cr);
  tl_paint_set_colour (cr, mark_colour (palette, mark));
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  if (mark == TL_MARK_UNSAFE)
    barbs (cr, unit * palette->line_ratio, length);
  if (mark == TL_MARK_CHANGE)
    {
      dash[0] = MIN (2.2 * unit, 0.4 * length);
      dash[1] = MIN (1.0 * unit, 0.2 * length);
      cairo_set_dash (cr, dash, 2, 0.0);
    }
  else if (mark == TL_MARK_WATCH)
    {
      dash[0] = 0.0;
      dash[1] = 1.55 * thick;
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      cairo_set_dash (cr, dash, 2, -MIN (0.5 * thick, 0.5 * length));
    }
  else if (mark != TL_MARK_UNSAFE)
    thick = 0.45 * unit * palette->line_ratio;
  cairo_set_line_width (cr, thick);
  segment (cr, 0.0, 0.0, length, 0.0);
  cairo_restore (cr);
}

void
tl_paint_number (cairo_t *cr, const TlPalette *palette, guint number, double x, double y,
                 double diameter, gboolean selected)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  double           size = diameter * (number > 99 ? 0.42 : 0.6);

  if (!isfinite (x + y + diameter) || diameter <= 0.0)
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
  cairo_arc (cr, x, y, diameter / 2.0, 0.0, 2.0 * G_PI);
  tl_paint_set_colour (cr, selected ? palette->select : palette->paper);
  cairo_fill_preserve (cr);
  tl_paint_set_colour (cr, selected ? palette->select : palette->ink);
  cairo_set_line_width (cr, diameter * 0.066 * palette->line_ratio);
  cairo_stroke (cr);
  tl_paint_set_colour (cr, selected ? palette->on_select : palette->ink);
  tl_paint_text (cr, text, x, y + size * 0.355, size, TRUE, 0.5);
  cairo_restore (cr);
}
