/* overlay-arrow.c: arrows as wide as their share of the load, and the shares in print.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* mm on the medium. */
#define LEAST_WIDTH_MM 0.4
#define MOST_WIDTH_MM 1.3
#define RIM_MM 0.35

void
tl_overlay_tenths (const double *shares, guint count, guint *tenths)
{
  double sum = 0.0, rest[TL_OVERLAY_MOST_PATHS];
  guint  whole, given = 0;

  g_return_if_fail (count <= TL_OVERLAY_MOST_PATHS);
  for (guint i = 0; i < count; i++)
    {
      double value = MAX (shares[i], 0.0) * 1000.0;

      sum += value;
      tenths[i] = (guint) floor (value + 1e-6);
      rest[i] = value - tenths[i];
      given += tenths[i];
    }
  whole = (guint) lround (sum);
  /* what rounding down left goes to the largest remainders */
  for (; given < whole && count > 0; given++)
    {
      guint largest = 0;

      for (guint i = 1; i < count; i++)
        if (rest[i] > rest[largest])
          largest = i;
      tenths[largest]++;
      rest[largest] -= 1.0;
    }
}

char *
tl_overlay_percent (const TlDrawing *d, guint tenths)
{
  g_autofree char *figure =
      tl_language_number (d->language, tenths / 10.0, tenths % 10 == 0 ? 0 : 1);

  return g_strdup_printf ("%s\u202f%%", figure);
}

static double
width_of (const TlDrawing *d, double share)
{
  return (LEAST_WIDTH_MM + (MOST_WIDTH_MM - LEAST_WIDTH_MM) * CLAMP (share, 0.0, 1.0))
         * d->options.unit * (d->options.paper ? 0.7 : 1.0);
}

static void
quad (TlDrawing *d, TlSheetPoint a, TlSheetPoint b, double half)
{
  double length = hypot (b.x - a.x, b.y - a.y), ux = (b.x - a.x) / length,
         uy = (b.y - a.y) / length;

  tl_path_move (d, a.x - uy * half, a.y + ux * half);
  tl_path_line (d, b.x - uy * half, b.y + ux * half);
  tl_path_line (d, b.x + uy * half, b.y - ux * half);
  tl_path_line (d, a.x + uy * half, a.y - ux * half);
  tl_path_close (d);
}

/* Shaft and head as one path; @rim: grown by so much all round. */
static void
trace_arrow (TlDrawing *d, const TlSheetPoint *points, guint n, double width, double rim)
{
  double half = width / 2.0 + rim, head = MAX (2.4 * width, 1.6 * d->mm),
         wide = MAX (1.15 * width, 0.75 * d->mm);
  TlSheetPoint tip = points[n - 1], before = points[n - 2], neck;
  double length = hypot (tip.x - before.x, tip.y - before.y), ux = (tip.x - before.x) / length,
         uy = (tip.y - before.y) / length;

  head = MIN (head, length);
  neck = (TlSheetPoint){ tip.x - ux * head, tip.y - uy * head };
  tl_path_begin (d);
  for (guint i = 0; i + 1 < n; i++)
    {
      TlSheetPoint a = points[i], b = i + 2 == n ? neck : points[i + 1];
      double       run = hypot (b.x - a.x, b.y - a.y), vx, vy;

      if (run < 1e-6)
        continue;
      vx = (b.x - a.x) / run;
      vy = (b.y - a.y) / run;
      /* corners are filled: each piece begins and ends half a width beyond its corner */
      a = (TlSheetPoint){ a.x - vx * (i == 0 ? rim : half), a.y - vy * (i == 0 ? rim : half) };
      if (i + 2 < n)
        b = (TlSheetPoint){ b.x + vx * half, b.y + vy * half };
      quad (d, a, b, half);
    }
  tl_path_move (d, neck.x - ux * rim - uy * (wide + 1.4 * rim),
                neck.y - uy * rim + ux * (wide + 1.4 * rim));
  tl_path_line (d, tip.x + ux * 2.0 * rim, tip.y + uy * 2.0 * rim);
  tl_path_line (d, neck.x - ux * rim + uy * (wide + 1.4 * rim),
                neck.y - uy * rim - ux * (wide + 1.4 * rim));
  tl_path_close (d);
}

void
tl_overlay_arrow (TlDrawing *d, const TlSheetPoint *points, guint n, double share)
{
  double width = width_of (d, share),
         last = hypot (points[n - 1].x - points[n - 2].x, points[n - 1].y - points[n - 2].y);

  if (n < 2 || !(last > 1.0 * d->px))
    return;
  d->view = TL_VIEW_SECTION;
  trace_arrow (d, points, n, width, RIM_MM * d->mm);
  tl_shape_fill (d, TL_INK_PAPER);
  trace_arrow (d, points, n, width, 0.0);
  tl_shape_fill (d, TL_INK_INK);
}

void
tl_overlay_straight (TlDrawing *d, double x0, double y0, double x1, double y1, double share)
{
  TlSheetPoint points[2] = { { x0, y0 }, { x1, y1 } };

  tl_overlay_arrow (d, points, 2, share);
}

/* A label beside a point where there is room for it. */
static void
label_about (TlDrawing *d, const char *text, double x, double y)
{
  double half = tl_paint_text_width (text, d->text, TRUE) / 2.0, dx = half + 8.0 * d->px,
         dy = 1.2 * d->text;

  (void) (tl_overlay_label (d, text, x + dx, y, TRUE) || tl_overlay_label (d, text, x - dx, y, TRUE)
          || tl_overlay_label (d, text, x, y - dy, TRUE)
          || tl_overlay_label (d, text, x, y + dy, TRUE)
          || tl_overlay_label (d, text, x + dx, y + 1.5 * dy, TRUE)
          || tl_overlay_label (d, text, x - dx, y + 1.5 * dy, TRUE));
}

void
tl_overlay_label_tenths (TlDrawing *d, guint tenths, double x, double y)
{
  g_autofree char *text = tl_overlay_percent (d, tenths);

  label_about (d, text, x, y);
}

/* The load at the end of a lead; returns how much of the lead it takes. */
double
tl_overlay_load_label (TlDrawing *d, double end, double y, int into)
{
  g_autofree char *load = tl_overlay_number (d, tl_heat_field_load_A (d->options.field));
  g_autofree char *text = g_strdup_printf ("%s\u202fA", load);
  double           width = tl_paint_text_width (text, d->text, TRUE) + 8.0 * d->px;

  return tl_overlay_label (d, text, end + into * width / 2.0, y, TRUE) ? width : 0.0;
}
