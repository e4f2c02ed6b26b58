/* furniture.c: what stands around the views: frame, captions, scale bar, legend, dimensions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* In the order of the legend. */
static const char *const look_names[TL_N_LOOKS] = {
  [TL_LOOK_COPPER] = TL_N_ ("copper"),
  [TL_LOOK_ALUMINIUM] = TL_N_ ("aluminium"),
  [TL_LOOK_TIN] = TL_N_ ("tin, solder"),
  [TL_LOOK_STEEL] = TL_N_ ("steel"),
  [TL_LOOK_STAINLESS] = TL_N_ ("stainless steel"),
  [TL_LOOK_ZINC] = TL_N_ ("zinc"),
  [TL_LOOK_NICKEL] = TL_N_ ("nickel"),
  [TL_LOOK_BRASS] = TL_N_ ("brass"),
  [TL_LOOK_POLYMER] = TL_N_ ("sealing sleeve"),
  [TL_LOOK_ADHESIVE] = TL_N_ ("adhesive"),
  [TL_LOOK_INSULATION] = TL_N_ ("insulation"),
  [TL_LOOK_COMPOUND] = TL_N_ ("compound"),
};

void
tl_furniture_frame (TlDrawing *d)
{
  double w = d->options.width, h = d->options.height, inset = 0.5 * d->px, mark = 8.0 * d->px;

  d->view = TL_VIEW_SHEET;
  if (w < 4.0 * mark || h < 4.0 * mark)
    return;
  tl_path_begin (d);
  tl_path_rectangle (d, inset, inset, w - inset, h - inset);
  tl_shape_line (d, TL_INK_HAIR, TL_LINE_HAIR);
  tl_shape_segment (d, TL_INK_INK, TL_LINE_EDGE, w / 2.0, 0.0, w / 2.0, mark);
  tl_shape_segment (d, TL_INK_INK, TL_LINE_EDGE, w / 2.0, h - mark, w / 2.0, h);
  tl_shape_segment (d, TL_INK_INK, TL_LINE_EDGE, 0.0, h / 2.0, mark, h / 2.0);
  tl_shape_segment (d, TL_INK_INK, TL_LINE_EDGE, w - mark, h / 2.0, w, h / 2.0);
}

/* Zoomed in, the drawing runs under what stands around it: that gets paper of its own. */
static void
backdrop (TlDrawing *d, double x0, double y0, double x1, double y1)
{
  if (d->options.zoom <= 0.0)
    return;
  tl_path_begin (d);
  tl_path_rectangle (d, x0, y0, x1, y1);
  tl_shape_fill (d, TL_INK_PAPER);
}

/* A caption that would leave the area is set smaller down to nine tenths, then left out. */
void
tl_furniture_caption (TlDrawing *d, const char *text, double x, double y, double align)
{
  double width = tl_paint_text_width (text, d->text, FALSE), left = x - align * width,
         size = d->text;

  d->view = TL_VIEW_SHEET;
  if (left < 0.0 || left + width > d->options.width)
    {
      size *= 0.92;
      width *= 0.92;
      left = x - align * width;
    }
  if (left < 0.0 || left + width > d->options.width || y > d->options.height || y < size)
    return;
  backdrop (d, left - 4.0 * d->px, y - 1.1 * size, left + width + 4.0 * d->px, y + 0.4 * size);
  tl_shape_text (d, TL_INK_MUTED, text, x, y, size, FALSE, align);
}

char *
tl_furniture_ratio (const TlDrawing *d, double scale)
{
  double           ratio = scale / d->options.unit;
  g_autofree char *figure = NULL;

  if (ratio >= 0.995 || ratio <= 0.0)
    {
      guint decimals = ratio >= 9.95 || fabs (ratio - round (ratio)) < 0.05 ? 0 : 1;

      figure = tl_language_number (d->language, ratio, decimals);
      return g_strdup_printf ("%s : 1", figure);
    }
  ratio = 1.0 / ratio;
  figure = tl_language_number (d->language, ratio, fabs (ratio - round (ratio)) < 0.05 ? 0 : 1);
  return g_strdup_printf ("1 : %s", figure);
}

double
tl_standard_scale (const TlDrawing *d, double scale)
{
  static const double ratios[] = { 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02 };

  if (!d->options.paper)
    return scale;
  for (guint i = 0; i < G_N_ELEMENTS (ratios); i++)
    if (ratios[i] * d->options.unit <= scale * (1.0 + 1e-9))
      return ratios[i] * d->options.unit;
  return scale;
}

double
tl_scale_bar_mm (double most_mm)
{
  static const double steps[] = { 1.0, 2.0, 5.0 };
  double              best = 0.01;

  for (int decade = -2; decade <= 4; decade++)
    for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
      {
        double length = steps[i] * pow (10.0, decade);

        if (length <= most_mm * (1.0 + 1e-9))
          best = length;
      }
  return best;
}

void
tl_furniture_scale_bar (TlDrawing *d)
{
  double scale = d->views[TL_VIEW_SECTION].scale, x = 22.0 * d->px,
         y = d->options.height - 13.0 * d->px;
  double           length_mm, length, height = 4.0 * d->px;
  g_autofree char *figure = NULL, *label = NULL;

  d->view = TL_VIEW_SHEET;
  if (!(scale > 0.0) || d->options.width < 150.0 * d->px || d->options.height < 80.0 * d->px)
    return;
  length_mm = tl_scale_bar_mm (96.0 * d->px / scale);
  length = length_mm * scale;
  figure = tl_language_number (d->language, length_mm,
                               length_mm < 0.095  ? 2
                               : length_mm < 0.95 ? 1
                                                  : 0);
  label = g_strdup_printf ("%s\u00a0mm", figure);
  backdrop (d, x - 14.0 * d->px, y - 26.0 * d->px, x + length + 26.0 * d->px, y + 8.0 * d->px);
  tl_path_begin (d);
  tl_path_rectangle (d, x, y - height, x + length, y);
  tl_shape_fill (d, TL_INK_PAPER);
  for (guint i = 0; i < 5; i += 2)
    {
      tl_path_begin (d);
      tl_path_rectangle (d, x + length * i / 5.0, y - height, x + length * (i + 1) / 5.0, y);
      tl_shape_fill (d, TL_INK_INK);
    }
  tl_path_begin (d);
  tl_path_rectangle (d, x, y - height, x + length, y);
  tl_shape_line (d, TL_INK_INK, TL_LINE_BAR);
  tl_shape_text (d, TL_INK_INK, "0", x, y - height - 4.0 * d->px,
                 MAX (d->text * 0.96, 10.5 * d->px), FALSE, 0.5);
  tl_shape_text (d, TL_INK_INK, label, x + length, y - height - 4.0 * d->px,
                 MAX (d->text * 0.96, 10.5 * d->px), FALSE, 0.5);
}

/* --- legend --- */

static guint
legend_looks (const TlDrawing *d, TlLook *looks)
{
  guint n = 0;

  for (guint i = 0; i < TL_N_LOOKS; i++)
    if ((d->looks_cut[i] || d->looks_seen[i]) && look_names[i] != NULL)
      looks[n++] = (TlLook) i;
  return n;
}

/* Without a sealing sleeve the polymer of a drawing is the insulating body of a terminal. */
static const char *
look_name (const TlDrawing *d, TlLook look)
{
  if (look == TL_LOOK_POLYMER && d->assembly != NULL && d->assembly->seal.seal == NULL
      && d->assembly->terminal.body_material != NULL)
    return TL_N_ ("insulating body");
  return look_names[look];
}

static double
legend_column (const TlDrawing *d, const TlLook *looks, guint n)
{
  double width = 0.0;

  for (guint i = 0; i < n; i++)
    width = MAX (width,
                 tl_paint_text_width (tl_draw_text (d, look_name (d, looks[i])), d->text, FALSE));
  return width + 46.0 * d->px;
}

static void
legend_row (TlDrawing *d, TlLook look, double x, double y)
{
  tl_path_begin (d);
  tl_path_rectangle (d, x, y - 7.0 * d->px, x + 24.0 * d->px, y + 7.0 * d->px);
  tl_shape_look (d, NULL, look, d->looks_cut[look], TL_LINE_EDGE);
  tl_shape_text (d, TL_INK_INK, tl_draw_text (d, look_name (d, look)), x + 31.0 * d->px,
                 y + d->text * 0.34, d->text, FALSE, 0.0);
}

double
tl_furniture_legend_height (const TlDrawing *d)
{
  TlLook looks[TL_N_LOOKS];
  guint  n = legend_looks (d, looks), columns;

  if (n == 0)
    return 0.0;
  columns = tl_furniture_legend_columns (d);
  return ((n + columns - 1) / columns) * 21.0 * d->px
         + (d->options.paper || d->legend_is_band ? 4.0 : 22.0) * d->px;
}

guint
tl_furniture_legend_columns (const TlDrawing *d)
{
  TlLook looks[TL_N_LOOKS];
  guint  n = legend_looks (d, looks), columns, rows;
  double column;

  if (n == 0)
    return 1;
  column = legend_column (d, looks, n);
  if (!d->legend_is_band)
    return n > 3 ? 2 : 1;
  columns =
      CLAMP ((guint) MAX ((d->options.width - 17.0 * d->px - d->legend_left) / column, 0.0), 1u, n);
  rows = (n + columns - 1) / columns;
  return (n + rows - 1) / rows;
}

void
tl_furniture_drop_legend (TlDrawing *d)
{
  if (tl_furniture_legend_height (d) > 0.3 * d->options.height
      || tl_furniture_legend_width (d) > d->options.width - d->legend_left - 16.0 * d->px)
    d->options.show_legend = FALSE;
}

void
tl_views_zoom (TlDrawing *d, double x, double y)
{
  double ratio = d->options.zoom / d->views[TL_VIEW_SECTION].scale;

  if (d->options.zoom <= 0.0 || !isfinite (ratio))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (d->views); i++)
    {
      TlView *view = &d->views[i];

      view->x = x + (view->x - x) * ratio + d->options.pan_x;
      view->y = y + (view->y - y) * ratio + d->options.pan_y;
      view->scale *= ratio;
    }
  d->views[TL_VIEW_SECTION].scale = d->options.zoom;
}

double
tl_furniture_legend_width (const TlDrawing *d)
{
  TlLook looks[TL_N_LOOKS];
  guint  n = legend_looks (d, looks);

  return n == 0 ? 0.0
                : legend_column (d, looks, n) * MIN (n, tl_furniture_legend_columns (d))
                      - 15.0 * d->px;
}

/* Bottom right; as a band at the foot where the corner has no room. */
void
tl_furniture_legend (TlDrawing *d)
{
  TlLook looks[TL_N_LOOKS];
  guint  n = legend_looks (d, looks), columns = tl_furniture_legend_columns (d), rows;
  double column, width, x, y;

  d->view = TL_VIEW_SHEET;
  if (n == 0)
    return;
  column = legend_column (d, looks, n);
  width = tl_furniture_legend_width (d);
  rows = (n + columns - 1) / columns;
  x = d->options.width - 16.0 * d->px - width;
  y = d->options.height - 18.0 * d->px - (rows - 1) * 21.0 * d->px;
  if (x < 0.0 || y < 30.0 * d->px)
    return;
  backdrop (d, x - 10.0 * d->px, y - 30.0 * d->px, d->options.width - 4.0 * d->px,
            d->options.height - 4.0 * d->px);
  if (!d->options.paper && !d->legend_is_band)
    tl_furniture_caption (d, tl_draw_text (d, TL_N_ ("In this drawing")), x, y - 15.0 * d->px, 0.0);
  for (guint i = 0; i < n; i++)
    legend_row (d, looks[i], x + (i % columns) * column, y + (i / columns) * 21.0 * d->px);
}
