/* dimension.c: dimension lines after ISO 129.
 *
 * Slim filled arrows, no gap at the body, overshoot 1 mm, the figure above the line and read from below or from the
 * right; arrows outside where the line is short.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define ARROW_LENGTH_MM 2.1
#define ARROW_WIDTH_MM 0.66
#define OVERSHOOT_MM 1.0
/* Below this length on the medium the arrows stand outside. */
#define SHORT_MM 8.0

char *
tl_dimension_figure (const TlDrawing *d, double value_mm)
{
  double tenths = value_mm * 10.0;
  guint  decimals = fabs (value_mm - round (value_mm)) < 0.005 ? 0
                    : fabs (tenths - round (tenths)) < 0.05    ? 1
                                                               : 2;

  return tl_language_number (d->language, value_mm, decimals);
}

/* Arrow head with its tip at x, y; @along 1 points to growing coordinates. */
static void
arrow (TlDrawing *d, double x, double y, gboolean level, double along)
{
  double length = ARROW_LENGTH_MM * d->mm * along, half = ARROW_WIDTH_MM * d->mm / 2.0;

  tl_path_begin (d);
  tl_path_move (d, x, y);
  tl_path_line (d, level ? x - length : x - half, level ? y - half : y - length);
  tl_path_line (d, level ? x - length : x + half, level ? y + half : y - length);
  tl_path_close (d);
  tl_shape_fill (d, TL_INK_DIM);
}

void
tl_dimension_level (TlDrawing *d, double x0, double x1, double y_from, double y, double share,
                    const char *text)
{
  double   over = y >= y_from ? OVERSHOOT_MM * d->mm : -OVERSHOOT_MM * d->mm;
  double   width = tl_paint_text_width (text, d->text, FALSE), tail = 3.4 * d->mm;
  gboolean outside = x1 - x0<SHORT_MM * d->mm, text_outside = width + 2.0 * d->px> x1 - x0;

  if (!isfinite (x0 + x1 + y) || !(x1 > x0))
    return;
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, x0, y_from, x0, y + over);
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, x1, y_from, x1, y + over);
  if (text_outside)
    outside = TRUE;
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, outside ? x0 - tail : x0, y,
                    outside ? x1 + tail + (text_outside ? width + 4.0 * d->px : 0.0) : x1, y);
  arrow (d, x0, y, TRUE, outside ? 1.0 : -1.0);
  arrow (d, x1, y, TRUE, outside ? -1.0 : 1.0);
  tl_shape_text (d, TL_INK_INK, text,
                 text_outside ? x1 + tail + 2.0 * d->px : x0 + share * (x1 - x0), y - 4.0 * d->px,
                 d->text, FALSE, text_outside ? 0.0 : 0.5);
}

gboolean
tl_dimension_upright_clear (const TlDrawing *d, double y0, double y1, double x, double share,
                            const char *text, double *top)
{
  double   half = tl_paint_text_width (text, d->text, FALSE) / 2.0 + 2.0 * d->px;
  double   mid = y0 + share * (y1 - y0);
  double   left = x - 4.0 * d->px - d->text, right = x;
  gboolean is_clear = TRUE;

  *top = y0;
  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (d->shapes, TlShape, i);
      double         x0, b0, x1, b1;

      if (shape->kind != TL_SHAPE_BODY || shape->view != TL_VIEW_END
          || !tl_shape_bounds (d, shape, &x0, &b0, &x1, &b1) || x0 >= right || x1 <= left)
        continue;
      *top = MIN (*top, b0);
      is_clear = is_clear && (b0 > mid + half || b1 < mid - half);
    }
  return is_clear;
}

void
tl_dimension_upright_above (TlDrawing *d, double y0, double y1, double x_from, double x, double top,
                            const char *text)
{
  double width = tl_paint_text_width (text, d->text, FALSE), foot = MIN (top, y0) - 5.0 * d->px;

  if (!isfinite (top))
    return;
  tl_dimension_upright (d, y0, y1, x_from, x, 0.5, "");
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, x, foot - width, x, y0);
  tl_shape_text (d, TL_INK_INK, text, x - 4.0 * d->px, foot, d->text, FALSE, 0.0)->turn_rad =
      -G_PI / 2.0;
}

void
tl_dimension_upright (TlDrawing *d, double y0, double y1, double x_from, double x, double share,
                      const char *text)
{
  double   over = x >= x_from ? OVERSHOOT_MM * d->mm : -OVERSHOOT_MM * d->mm;
  double   width = tl_paint_text_width (text, d->text, FALSE), tail = 3.4 * d->mm;
  gboolean outside = y1 - y0<SHORT_MM * d->mm, text_outside = width + 2.0 * d->px> y1 - y0;
  TlShape                                                                         *shape;

  if (!isfinite (y0 + y1 + x) || !(y1 > y0))
    return;
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, x_from, y0, x + over, y0);
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, x_from, y1, x + over, y1);
  if (text_outside)
    outside = TRUE;
  tl_shape_segment (d, TL_INK_DIM, TL_LINE_DIMENSION, x, outside ? y0 - tail : y0, x,
                    outside ? y1 + tail + (text_outside ? width + 4.0 * d->px : 0.0) : y1);
  arrow (d, x, y0, FALSE, outside ? 1.0 : -1.0);
  arrow (d, x, y1, FALSE, outside ? -1.0 : 1.0);
  if (*text == '\0')
    return;
  shape = tl_shape_text (d, TL_INK_INK, text, x - 4.0 * d->px,
                         text_outside ? y1 + tail + 2.0 * d->px + width : y0 + share * (y1 - y0),
                         d->text, FALSE, text_outside ? 0.0 : 0.5);
  shape->turn_rad = -G_PI / 2.0;
}
