/* drawing-paint.c: the display list on a cairo context.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

typedef struct
{
  double width_mm;
  double dash_mm[4];
  int    n_dash;
} Line;

/* Widths in mm on screen; on paper the drawing's mm is 0.7 of that. */
static const Line lines[TL_N_LINES] = {
  [TL_LINE_CUT] = { 0.50, { 0.0 }, 0 },
  [TL_LINE_EDGE] = { 0.35, { 0.0 }, 0 },
  [TL_LINE_DIMENSION] = { 0.25, { 0.0 }, 0 },
  [TL_LINE_THIN] = { 0.20, { 0.0 }, 0 },
  [TL_LINE_CENTRE] = { 0.20, { 4.2, 0.7, 0.7, 0.7 }, 4 },
  [TL_LINE_PLANE] = { 0.70, { 0.0 }, 0 },
  [TL_LINE_PLACE] = { 0.30, { 1.1, 0.8 }, 2 },
  [TL_LINE_HAIR] = { 0.20, { 0.0 }, 0 },
  [TL_LINE_BAR] = { 0.26, { 0.0 }, 0 },
  [TL_LINE_WATER_BED] = { 2.60, { 0.0 }, 0 },
};

static TlColour
ink_colour (const TlPalette *palette, const TlShape *shape)
{
  switch (shape->ink)
    {
    case TL_INK_MUTED:
      return palette->muted;
    case TL_INK_DIM:
      return palette->dim;
    case TL_INK_CENTRE:
      return palette->centre;
    case TL_INK_HAIR:
      return palette->hair;
    case TL_INK_SELECT:
      return palette->select;
    case TL_INK_PAPER:
      return palette->paper;
    case TL_INK_SEVERITY:
      return (guint) shape->mark < 4 ? palette->severity[shape->mark] : palette->ink;
    case TL_INK_INK:
    default:
      return palette->ink;
    }
}

static void
trace (const TlDrawing *d, cairo_t *cr, const TlShape *shape)
{
  cairo_new_path (cr);
  for (guint i = 0; i < shape->count; i++)
    {
      const TlVertex *v = &g_array_index (d->vertices, TlVertex, shape->first + i);

      switch (v->op)
        {
        case 'M':
          cairo_move_to (cr, v->x, v->y);
          break;
        case 'L':
          cairo_line_to (cr, v->x, v->y);
          break;
        case 'C':
          cairo_curve_to (cr, v->x, v->y, v[1].x, v[1].y, v[2].x, v[2].y);
          i += 2;
          break;
        default:
          cairo_close_path (cr);
          break;
        }
    }
}

static void
set_line (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, TlLineStyle style)
{
  const Line *line = &lines[style];
  double      dash[4];

  for (int i = 0; i < line->n_dash; i++)
    dash[i] = line->dash_mm[i] * d->mm;
  /* never under 0.13 mm: a copy of a copy would lose it */
  cairo_set_line_width (cr,
                        MAX (line->width_mm * d->mm * palette->line_ratio, 0.13 * d->options.unit));
  cairo_set_dash (cr, dash, line->n_dash, 0.0);
  cairo_set_line_join (cr, style == TL_LINE_CUT || style == TL_LINE_EDGE ? CAIRO_LINE_JOIN_ROUND
                                                                         : CAIRO_LINE_JOIN_MITER);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

/* Coats too thin to be seen as bodies: a thick line, unbroken for tin and nickel, broken for zinc. */
static void
paint_coat (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, const TlShape *shape)
{
  double dash[2] = { 1.5 * d->mm, 0.9 * d->mm };

  tl_paint_set_colour (cr, palette->ink);
  cairo_set_line_width (cr, 0.75 * d->mm * palette->line_ratio);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, dash, shape->coat == TL_LOOK_ZINC ? 2 : 0, 0.0);
  cairo_stroke_preserve (cr);
}

/* Colours of an overlay in place of the tint; the pattern stays. */
static void
paint_heat (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, const TlShape *shape,
            double pitch)
{
  cairo_pattern_t *fill;
  double           sum = 0.0;

  if (shape->is_plain)
    {
      fill =
          cairo_pattern_create_rgb (palette->paper.red, palette->paper.green, palette->paper.blue);
      tl_paint_look_heat (cr, palette, shape->look, shape->is_cut, d->options.unit, pitch, fill,
                          0.0);
      cairo_pattern_destroy (fill);
      return;
    }
  fill =
      cairo_pattern_create_linear (shape->heat_x0, shape->heat_y0, shape->heat_x1, shape->heat_y1);

  for (guint i = 0; i < shape->heat_count; i++)
    {
      double   value = g_array_index (d->heat, double, shape->heat_first + i);
      TlColour colour = tl_paint_heat_colour (palette, value);

      sum += value;
      cairo_pattern_add_color_stop_rgb (fill, (double) i / MAX (shape->heat_count - 1, 1u),
                                        colour.red, colour.green, colour.blue);
    }
  tl_paint_look_heat (cr, palette, shape->look, shape->is_cut, d->options.unit, pitch, fill,
                      sum / shape->heat_count);
  cairo_pattern_destroy (fill);
}

static void
paint_body (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, const TlShape *shape)
{
  double x0, y0, x1, y1, pitch = d->options.paper ? 0.6 : 1.0;

  if (!tl_shape_bounds (d, shape, &x0, &y0, &x1, &y1) || x1 < -10.0 || y1 < -10.0
      || x0 > d->options.width + 10.0 || y0 > d->options.height + 10.0)
    return;
  if (MIN (x1 - x0, y1 - y0) < 1.3 * d->options.unit && !d->options.paper)
    pitch = 0.6;
  if (shape->is_pale)
    cairo_push_group (cr);
  trace (d, cr, shape);
  if (shape->heat_count > 0 || shape->is_plain)
    paint_heat (d, cr, palette, shape, pitch);
  else
    tl_paint_look (cr, palette, shape->look, shape->is_cut, d->options.unit, pitch);
  if (shape->has_coat)
    paint_coat (d, cr, palette, shape);
  if (shape->is_selected)
    {
      tl_paint_set_colour (cr, palette->select);
      cairo_set_dash (cr, NULL, 0, 0.0);
      cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
      cairo_set_line_width (cr, (lines[shape->line].width_mm + 0.5) * d->mm * palette->line_ratio);
      cairo_stroke_preserve (cr);
    }
  tl_paint_set_colour (cr, palette->ink);
  set_line (d, cr, palette, shape->line);
  cairo_stroke (cr);
  if (shape->is_pale)
    {
      cairo_pop_group_to_source (cr);
      cairo_paint_with_alpha (cr, 0.35);
    }
}

static void
paint_place (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, const TlShape *shape)
{
  trace (d, cr, shape);
  if (shape->is_selected)
    {
      tl_paint_set_colour (cr, palette->select_wash);
      cairo_fill_preserve (cr);
      cairo_set_dash (cr, NULL, 0, 0.0);
      cairo_set_line_width (cr, 1.6 * d->px * palette->line_ratio);
    }
  else
    set_line (d, cr, palette, TL_LINE_PLACE);
  tl_paint_set_colour (cr, palette->select);
  cairo_stroke (cr);
}

static void
paint_halo (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, const TlShape *shape)
{
  TlColour wash =
      (guint) shape->mark < 4 ? palette->severity_wash[shape->mark] : palette->select_wash;

  cairo_save (cr);
  tl_paint_set_colour (cr, wash);
  cairo_set_dash (cr, NULL, 0, 0.0);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, 12.0 * d->px);
  if (shape->kind == TL_SHAPE_MARK)
    {
      cairo_new_path (cr);
      cairo_arc (cr, shape->x, shape->y, shape->size / 2.0 + 6.0 * d->px, 0.0, 2.0 * G_PI);
      cairo_fill_preserve (cr);
      tl_paint_set_colour (cr, ink_colour (palette, shape));
      cairo_set_line_width (cr, 1.0 * d->px);
    }
  else
    trace (d, cr, shape);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
paint_text (cairo_t *cr, const TlPalette *palette, const TlShape *shape)
{
  cairo_save (cr);
  tl_paint_set_colour (cr, ink_colour (palette, shape));
  cairo_translate (cr, shape->x, shape->y);
  if (shape->turn_rad != 0.0)
    cairo_rotate (cr, shape->turn_rad);
  tl_paint_text (cr, shape->text, 0.0, 0.0, shape->size, shape->is_bold, shape->align);
  cairo_restore (cr);
}

static void
paint_shape (const TlDrawing *d, cairo_t *cr, const TlPalette *palette, const TlShape *shape)
{
  if (shape->is_hovered)
    paint_halo (d, cr, palette, shape);
  switch (shape->kind)
    {
    case TL_SHAPE_BODY:
      paint_body (d, cr, palette, shape);
      break;
    case TL_SHAPE_LINE:
      trace (d, cr, shape);
      tl_paint_set_colour (cr, ink_colour (palette, shape));
      set_line (d, cr, palette, shape->line);
      cairo_stroke (cr);
      break;
    case TL_SHAPE_FILL:
      trace (d, cr, shape);
      tl_paint_set_colour (cr, ink_colour (palette, shape));
      cairo_fill (cr);
      break;
    case TL_SHAPE_PLACE:
      paint_place (d, cr, palette, shape);
      break;
    case TL_SHAPE_TEXT:
      paint_text (cr, palette, shape);
      break;
    case TL_SHAPE_NUMBER:
      tl_paint_number (cr, palette, shape->number, shape->x, shape->y, shape->size,
                       shape->is_selected);
      break;
    case TL_SHAPE_MARK:
      tl_paint_mark (cr, palette, shape->mark, shape->x, shape->y, shape->size);
      break;
    case TL_SHAPE_CONTACT:
    default:
      if (shape->count == 2)
        {
          const TlVertex *v = &g_array_index (d->vertices, TlVertex, shape->first);

          tl_paint_contact (cr, palette, shape->mark, d->mm, v[0].x, v[0].y, v[1].x, v[1].y);
        }
      break;
    }
}

void
tl_drawing_paint (const TlDrawing *self, cairo_t *cr, const TlPalette *palette)
{
  g_return_if_fail (self != NULL && cr != NULL && palette != NULL);

  if (self->shapes->len == 0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, 0.0, 0.0, self->options.width, self->options.height);
  cairo_clip (cr);
  for (guint i = 0; i < self->shapes->len; i++)
    paint_shape (self, cr, palette, &g_array_index (self->shapes, TlShape, i));
  cairo_restore (cr);
}
