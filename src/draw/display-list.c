/* display-list.c: shapes with owners, in units, in the order of painting.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

const char *
tl_draw_text (const TlDrawing *d, const char *msgid)
{
  return tl_language_text (d->language, msgid);
}

void
tl_shape_clear (TlShape *shape)
{
  g_clear_pointer (&shape->text, g_free);
}

/* A coordinate that is no number would spoil the whole picture: it becomes the origin. */
static void
add_vertex (TlDrawing *d, char op, double x, double y)
{
  TlVertex vertex = { op, isfinite (x) ? CLAMP (x, -1e7, 1e7) : 0.0,
                      isfinite (y) ? CLAMP (y, -1e7, 1e7) : 0.0 };

  g_array_append_val (d->vertices, vertex);
}

void
tl_path_begin (TlDrawing *d)
{
  d->path_first = d->vertices->len;
}

void
tl_path_move (TlDrawing *d, double x, double y)
{
  add_vertex (d, 'M', x, y);
}

void
tl_path_line (TlDrawing *d, double x, double y)
{
  add_vertex (d, 'L', x, y);
}

void
tl_path_curve (TlDrawing *d, double x1, double y1, double x2, double y2, double x3, double y3)
{
  add_vertex (d, 'C', x1, y1);
  add_vertex (d, 'C', x2, y2);
  add_vertex (d, 'C', x3, y3);
}

void
tl_path_close (TlDrawing *d)
{
  add_vertex (d, 'Z', 0.0, 0.0);
}

void
tl_path_rectangle (TlDrawing *d, double x0, double y0, double x1, double y1)
{
  tl_path_move (d, x0, y0);
  tl_path_line (d, x1, y0);
  tl_path_line (d, x1, y1);
  tl_path_line (d, x0, y1);
  tl_path_close (d);
}

void
tl_path_arc (TlDrawing *d, double x, double y, double radius, double from_rad, double to_rad,
             gboolean start)
{
  guint  steps = (guint) MAX (1.0, ceil (fabs (to_rad - from_rad) / (G_PI / 2.0) - 1e-9));
  double step = (to_rad - from_rad) / steps;
  double reach = 4.0 / 3.0 * tan (step / 4.0) * radius;

  if (start)
    tl_path_move (d, x + radius * cos (from_rad), y + radius * sin (from_rad));
  else
    tl_path_line (d, x + radius * cos (from_rad), y + radius * sin (from_rad));
  for (guint i = 0; i < steps; i++)
    {
      double a = from_rad + step * i, b = a + step;

      tl_path_curve (d, x + radius * cos (a) - reach * sin (a),
                     y + radius * sin (a) + reach * cos (a), x + radius * cos (b) + reach * sin (b),
                     y + radius * sin (b) - reach * cos (b), x + radius * cos (b),
                     y + radius * sin (b));
    }
}

void
tl_path_circle (TlDrawing *d, double x, double y, double radius)
{
  tl_path_arc (d, x, y, radius, 0.0, 2.0 * G_PI, TRUE);
  tl_path_close (d);
}

static TlShape *
add_shape (TlDrawing *d, TlShapeKind kind)
{
  TlShape shape = { .kind = kind, .contact = -1, .place = -1, .view = d->view };

  if (kind != TL_SHAPE_TEXT && kind != TL_SHAPE_NUMBER && kind != TL_SHAPE_MARK)
    {
      shape.first = d->path_first;
      shape.count = d->vertices->len - d->path_first;
      d->path_first = d->vertices->len;
    }
  g_array_append_val (d->shapes, shape);
  return &g_array_index (d->shapes, TlShape, d->shapes->len - 1);
}

TlShape *
tl_shape_look (TlDrawing *d, const char *owner, TlLook look, gboolean is_cut, TlLineStyle line)
{
  TlShape *shape = add_shape (d, TL_SHAPE_BODY);

  shape->owner = owner;
  shape->look = (guint) look < TL_N_LOOKS ? look : TL_LOOK_AIR;
  shape->is_cut = is_cut;
  shape->line = line;
  shape->ink = TL_INK_INK;
  shape->is_selected = owner != NULL && g_strcmp0 (owner, d->options.selected) == 0;
  shape->is_pale = owner != NULL && g_strcmp0 (owner, d->options.lifted) == 0;
  if (is_cut)
    d->looks_cut[shape->look] = TRUE;
  d->looks_seen[shape->look] = TRUE;
  return shape;
}

TlShape *
tl_shape_body (TlDrawing *d, const TlBody *body, gboolean is_cut, TlLineStyle line)
{
  TlShape          *shape = tl_shape_look (d, body->owner, body->look, is_cut, line);
  const TlMaterial *coat =
      body->coating != NULL ? tl_stock_material (d->assembly->stock, body->coating) : NULL;

  if (coat != NULL && is_cut
      && (body->role == TL_BODY_WASHER || body->role == TL_BODY_BARREL
          || body->role == TL_BODY_TANG))
    {
      shape->has_coat = TRUE;
      shape->coat = coat->look;
    }
  return shape;
}

TlShape *
tl_shape_line (TlDrawing *d, TlInk ink, TlLineStyle line)
{
  TlShape *shape = add_shape (d, TL_SHAPE_LINE);

  shape->ink = ink;
  shape->line = line;
  return shape;
}

TlShape *
tl_shape_fill (TlDrawing *d, TlInk ink)
{
  TlShape *shape = add_shape (d, TL_SHAPE_FILL);

  shape->ink = ink;
  return shape;
}

TlShape *
tl_shape_segment (TlDrawing *d, TlInk ink, TlLineStyle line, double x0, double y0, double x1,
                  double y1)
{
  tl_path_begin (d);
  tl_path_move (d, x0, y0);
  tl_path_line (d, x1, y1);
  return tl_shape_line (d, ink, line);
}

TlShape *
tl_shape_dot (TlDrawing *d, TlInk ink, double x, double y, double radius)
{
  tl_path_begin (d);
  tl_path_circle (d, x, y, radius);
  return tl_shape_fill (d, ink);
}

TlShape *
tl_shape_text (TlDrawing *d, TlInk ink, const char *text, double x, double y, double size,
               gboolean bold, double align)
{
  TlShape *shape = add_shape (d, TL_SHAPE_TEXT);

  shape->ink = ink;
  shape->text = g_strdup (text);
  shape->x = isfinite (x) ? x : 0.0;
  shape->y = isfinite (y) ? y : 0.0;
  shape->size = size;
  shape->is_bold = bold;
  shape->align = align;
  return shape;
}

TlShape *
tl_shape_number (TlDrawing *d, const char *owner, guint number, double x, double y)
{
  TlShape *shape = add_shape (d, TL_SHAPE_NUMBER);

  shape->owner = owner;
  shape->number = number;
  shape->x = x;
  shape->y = y;
  shape->size = 20.0 * d->px;
  shape->is_selected = g_strcmp0 (owner, d->options.selected) == 0;
  tl_drawing_add_item (d, TL_ITEM_NUMBER, owner, number, x - shape->size / 2.0,
                       y - shape->size / 2.0, shape->size, shape->size);
  return &g_array_index (d->shapes, TlShape, d->shapes->len - 1);
}

TlShape *
tl_shape_mark (TlDrawing *d, TlMark mark, double x, double y, double size)
{
  TlShape *shape = add_shape (d, TL_SHAPE_MARK);

  shape->mark = mark;
  shape->ink = TL_INK_SEVERITY;
  shape->x = x;
  shape->y = y;
  shape->size = size;
  return shape;
}

TlShape *
tl_shape_contact (TlDrawing *d, TlMark mark, double x0, double y0, double x1, double y1)
{
  TlShape *shape;

  tl_path_begin (d);
  tl_path_move (d, x0, y0);
  tl_path_line (d, x1, y1);
  shape = add_shape (d, TL_SHAPE_CONTACT);
  shape->mark = mark;
  shape->ink = TL_INK_SEVERITY;
  return shape;
}

void
tl_drawing_add_item (TlDrawing *d, TlItemKind kind, const char *owner, guint index, double x,
                     double y, double width, double height)
{
  TlItem item = { kind, owner, index, x, y, width, height };

  if (isfinite (x + y + width + height))
    g_array_append_val (d->hits, item);
}

void
tl_target_add (TlDrawing *d, const char *owner, double x, double y)
{
  TlTarget target = { owner, tl_assembly_number (d->assembly, owner), x, y };

  if (target.number == 0 || !isfinite (x + y))
    return;
  for (guint i = 0; i < d->targets->len; i++)
    if (g_strcmp0 (g_array_index (d->targets, TlTarget, i).owner, owner) == 0)
      return;
  g_array_append_val (d->targets, target);
}

gboolean
tl_shape_bounds (const TlDrawing *d, const TlShape *shape, double *x0, double *y0, double *x1,
                 double *y1)
{
  *x0 = *y0 = HUGE_VAL;
  *x1 = *y1 = -HUGE_VAL;
  if (shape->kind == TL_SHAPE_TEXT)
    {
      double width = tl_paint_text_width (shape->text, shape->size, shape->is_bold);
      double left = -shape->align * width, c = cos (shape->turn_rad), s = sin (shape->turn_rad);
      double corners[4][2] = { { left, -0.78 * shape->size },
                               { left + width, -0.78 * shape->size },
                               { left, 0.22 * shape->size },
                               { left + width, 0.22 * shape->size } };

      for (guint i = 0; i < 4; i++)
        {
          double x = shape->x + c * corners[i][0] - s * corners[i][1],
                 y = shape->y + s * corners[i][0] + c * corners[i][1];

          *x0 = MIN (*x0, x);
          *x1 = MAX (*x1, x);
          *y0 = MIN (*y0, y);
          *y1 = MAX (*y1, y);
        }
      return width > 0.0;
    }
  if (shape->kind == TL_SHAPE_NUMBER || shape->kind == TL_SHAPE_MARK)
    {
      *x0 = shape->x - shape->size / 2.0;
      *x1 = shape->x + shape->size / 2.0;
      *y0 = shape->y - shape->size / 2.0;
      *y1 = shape->y + shape->size / 2.0;
      return TRUE;
    }
  for (guint i = 0; i < shape->count; i++)
    {
      const TlVertex *v = &g_array_index (d->vertices, TlVertex, shape->first + i);

      if (v->op == 'Z')
        continue;
      *x0 = MIN (*x0, v->x);
      *x1 = MAX (*x1, v->x);
      *y0 = MIN (*y0, v->y);
      *y1 = MAX (*y1, v->y);
    }
  return *x1 >= *x0;
}
