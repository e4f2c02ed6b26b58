/* drawing.c: from a verdict to a display list, and what a pointer meets in it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/part-private.h"

#define CURVE_STEPS 8

void
tl_drawing_options_init (TlDrawingOptions *options)
{
  *options = (TlDrawingOptions){ .width = 640.0,
                                 .height = 560.0,
                                 .unit = 96.0 / 25.4,
                                 .show_section = TRUE,
                                 .show_end_view = TRUE,
                                 .show_numbers = TRUE,
                                 .show_dimensions = TRUE,
                                 .show_legend = TRUE,
                                 .show_contacts = TRUE,
                                 .show_scale_bar = TRUE,
                                 .show_frame = TRUE,
                                 .selected_contact = -1,
                                 .hovered_contact = -1,
                                 .open_place = -1,
                                 .pointer_x = -1e6,
                                 .pointer_y = -1e6 };
}

void
tl_drawing_init_bare (TlDrawing *d, double width, double height, double unit)
{
  tl_drawing_options_init (&d->options);
  d->options.width = width;
  d->options.height = height;
  d->options.unit = unit;
  d->px = unit * 25.4 / 96.0;
  d->mm = unit;
  d->text = 11.5 * d->px;
  d->view = TL_VIEW_SHEET;
  d->refusal.index = -1;
  d->vertices = g_array_new (FALSE, FALSE, sizeof (TlVertex));
  d->shapes = g_array_new (FALSE, FALSE, sizeof (TlShape));
  d->hits = g_array_new (FALSE, FALSE, sizeof (TlItem));
  d->items = g_array_new (FALSE, FALSE, sizeof (TlItem));
  d->targets = g_array_new (FALSE, FALSE, sizeof (TlTarget));
  d->faces = g_array_new (FALSE, FALSE, sizeof (TlFace));
  d->heat = g_array_new (FALSE, FALSE, sizeof (double));
  g_array_set_clear_func (d->shapes, (GDestroyNotify) tl_shape_clear);
}

void
tl_drawing_clear (TlDrawing *d)
{
  g_clear_pointer (&d->vertices, g_array_unref);
  g_clear_pointer (&d->shapes, g_array_unref);
  g_clear_pointer (&d->hits, g_array_unref);
  g_clear_pointer (&d->items, g_array_unref);
  g_clear_pointer (&d->targets, g_array_unref);
  g_clear_pointer (&d->faces, g_array_unref);
  g_clear_pointer (&d->heat, g_array_unref);
  g_clear_pointer ((TlHeatField **) &d->options.field, tl_heat_field_unref);
  g_clear_pointer (&d->stack, g_ptr_array_unref);
  g_clear_pointer (&d->language, tl_language_unref);
  g_clear_pointer (&d->verdict, tl_verdict_unref);
}

void
tl_drawing_free (TlDrawing *self)
{
  if (self == NULL)
    return;
  tl_drawing_clear (self);
  g_free (self);
}

/* --- meeting --- */

static gboolean
crosses (double x, double y, double x0, double y0, double x1, double y1)
{
  return (y0 > y) != (y1 > y) && x < (x1 - x0) * (y - y0) / (y1 - y0) + x0;
}

/* Even-odd test; curves as short lines. */
static gboolean
shape_holds (const TlDrawing *d, const TlShape *shape, double x, double y)
{
  double   px = 0.0, py = 0.0, start_x = 0.0, start_y = 0.0;
  gboolean inside = FALSE;

  for (guint i = 0; i < shape->count; i++)
    {
      const TlVertex *v = &g_array_index (d->vertices, TlVertex, shape->first + i);

      if (v->op == 'M')
        {
          start_x = px = v->x;
          start_y = py = v->y;
        }
      else if (v->op == 'C')
        {
          double ax = px, ay = py;

          for (guint k = 1; k <= CURVE_STEPS; k++)
            {
              double t = (double) k / CURVE_STEPS, u = 1.0 - t;
              double qx = u * u * u * ax + 3.0 * u * u * t * v[0].x + 3.0 * u * t * t * v[1].x
                          + t * t * t * v[2].x;
              double qy = u * u * u * ay + 3.0 * u * u * t * v[0].y + 3.0 * u * t * t * v[1].y
                          + t * t * t * v[2].y;

              inside ^= crosses (x, y, px, py, qx, qy);
              px = qx;
              py = qy;
            }
          i += 2;
        }
      else
        {
          double qx = v->op == 'Z' ? start_x : v->x, qy = v->op == 'Z' ? start_y : v->y;

          inside ^= crosses (x, y, px, py, qx, qy);
          px = qx;
          py = qy;
        }
    }
  return inside;
}

static gboolean
item_holds (const TlItem *item, double x, double y)
{
  return x >= item->x && y >= item->y && x <= item->x + item->width && y <= item->y + item->height;
}

static const TlItem *
find_item (const TlDrawing *self, TlItemKind kind, double x, double y)
{
  const TlItem *best = NULL;
  double        nearest = HUGE_VAL;

  for (guint i = 0; i < self->hits->len; i++)
    {
      const TlItem *item = &g_array_index (self->hits, TlItem, i);
      double away = hypot (item->x + item->width / 2.0 - x, item->y + item->height / 2.0 - y);

      if (item->kind == kind && item_holds (item, x, y) && away < nearest)
        {
          nearest = away;
          best = item;
        }
    }
  return best;
}

const TlShape *
tl_drawing_body_at (const TlDrawing *d, double x, double y)
{
  for (guint i = d->shapes->len; i-- > 0;)
    {
      const TlShape *shape = &g_array_index (d->shapes, TlShape, i);

      if (shape->kind == TL_SHAPE_BODY && shape->owner != NULL && shape_holds (d, shape, x, y))
        return shape;
    }
  return NULL;
}

gboolean
tl_drawing_pick (const TlDrawing *self, double x, double y, TlItem *item)
{
  static const TlItemKind front_first[] = { TL_ITEM_CONTACT, TL_ITEM_NUMBER };

  g_return_val_if_fail (self != NULL && item != NULL, FALSE);

  for (guint i = 0; i < G_N_ELEMENTS (front_first); i++)
    {
      const TlItem *found = find_item (self, front_first[i], x, y);

      if (found != NULL)
        {
          *item = *found;
          return TRUE;
        }
    }
  for (guint i = self->shapes->len; i-- > 0;)
    {
      const TlShape *shape = &g_array_index (self->shapes, TlShape, i);

      if (shape->kind != TL_SHAPE_BODY || shape->owner == NULL || !shape_holds (self, shape, x, y))
        continue;
      for (guint k = 0; k < self->items->len; k++)
        {
          const TlItem *candidate = &g_array_index (self->items, TlItem, k);

          if (candidate->kind == TL_ITEM_BODY && g_strcmp0 (candidate->owner, shape->owner) == 0)
            {
              *item = *candidate;
              return TRUE;
            }
        }
    }
  return FALSE;
}

gint
tl_drawing_place_at (const TlDrawing *self, double x, double y)
{
  gint   best = -1;
  double nearest = 28.0;

  g_return_val_if_fail (self != NULL, -1);

  nearest *= self->px;
  for (guint i = 0; i < self->hits->len; i++)
    {
      const TlItem *item = &g_array_index (self->hits, TlItem, i);
      double        dx, dy, away;

      if (item->kind != TL_ITEM_PLACE)
        continue;
      dx = MAX (MAX (item->x - x, x - item->x - item->width), 0.0);
      dy = MAX (MAX (item->y - y, y - item->y - item->height), 0.0);
      /* of nested places the smaller wins: a mouth lies inside what goes around */
      away = hypot (dx, dy)
             + 1e-6 * item->width * item->height
                   / MAX (self->options.width * self->options.height, 1.0);
      if (away < nearest)
        {
          nearest = away;
          best = (gint) item->index;
        }
    }
  return best;
}

const GArray *
tl_drawing_items (const TlDrawing *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return self->items;
}

double
tl_drawing_scale (const TlDrawing *self)
{
  g_return_val_if_fail (self != NULL, 0.0);
  return self->views[TL_VIEW_SECTION].scale;
}
