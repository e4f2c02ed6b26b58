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

/* --- items --- */

static void
add_body_item (TlDrawing *d, const char *owner)
{
  double x0 = HUGE_VAL, y0 = HUGE_VAL, x1 = -HUGE_VAL, y1 = -HUGE_VAL;
  gint   view = d->options.show_section ? TL_VIEW_SECTION : TL_VIEW_END;

  for (guint pass = 0; pass < 2 && !(x1 >= x0); pass++)
    for (guint i = 0; i < d->shapes->len; i++)
      {
        const TlShape *shape = &g_array_index (d->shapes, TlShape, i);
        double         a0, b0, a1, b1;

        if (shape->kind != TL_SHAPE_BODY || (pass == 0 && shape->view != view)
            || g_strcmp0 (shape->owner, owner) != 0
            || !tl_shape_bounds (d, shape, &a0, &b0, &a1, &b1))
          continue;
        x0 = MIN (x0, a0);
        y0 = MIN (y0, b0);
        x1 = MAX (x1, a1);
        y1 = MAX (y1, b1);
      }
  if (x1 >= x0)
    {
      TlItem item = { TL_ITEM_BODY, owner, 0, x0, y0, x1 - x0, y1 - y0 };

      g_array_append_val (d->items, item);
    }
}

static gboolean
has_item (const TlDrawing *d, const char *owner)
{
  for (guint i = 0; i < d->items->len; i++)
    if (g_strcmp0 (g_array_index (d->items, TlItem, i).owner, owner) == 0)
      return TRUE;
  return FALSE;
}

/* Contacts come twice or three times (both sides of the axis, the mark): the last is the mark. */
static void
add_unique (TlDrawing *d, const TlItem *item)
{
  for (guint i = 0; i < d->items->len; i++)
    {
      TlItem *other = &g_array_index (d->items, TlItem, i);

      if (other->kind == item->kind
          && (item->kind == TL_ITEM_CONTACT || item->kind == TL_ITEM_PLACE)
          && other->index == item->index)
        {
          *other = *item;
          return;
        }
    }
  g_array_append_val (d->items, *item);
}

static void
collect_items (TlDrawing *d)
{
  for (guint i = 0; i < d->assembly->order->len; i++)
    add_body_item (d, d->assembly->order->pdata[i]);
  for (guint i = 0; i < d->hits->len; i++)
    {
      const TlItem *item = &g_array_index (d->hits, TlItem, i);

      if (item->kind == TL_ITEM_NUMBER && !has_item (d, item->owner))
        add_body_item (d, item->owner);
    }
  for (guint i = 0; i < d->hits->len; i++)
    add_unique (d, &g_array_index (d->hits, TlItem, i));
}

/* --- making --- */

static void
set_units (TlDrawing *d)
{
  TlDrawingOptions *o = &d->options;

  o->unit = isfinite (o->unit) && o->unit > 0.0 ? o->unit : 96.0 / 25.4;
  o->width = isfinite (o->width) ? CLAMP (o->width, 0.0, 1e5) : 0.0;
  o->height = isfinite (o->height) ? CLAMP (o->height, 0.0, 1e5) : 0.0;
  o->zoom = isfinite (o->zoom) && o->zoom > 0.0 ? MIN (o->zoom, 1e5) : 0.0;
  o->pan_x = isfinite (o->pan_x) ? o->pan_x : 0.0;
  o->pan_y = isfinite (o->pan_y) ? o->pan_y : 0.0;
  o->open_thickness_mm =
      isfinite (o->open_thickness_mm) ? CLAMP (o->open_thickness_mm, 0.0, 100.0) : 0.0;
  d->px = o->unit * 25.4 / 96.0 * (o->paper ? 0.8 : 1.0);
  d->mm = o->unit * (o->paper ? 0.7 : 1.0);
  d->text = o->text_size > 0.0 && isfinite (o->text_size) ? o->text_size
            : o->paper                                    ? 2.6 * o->unit
                                                          : 11.5 * d->px;
}

static void
lay_out (TlDrawing *d)
{
  double whole = d->options.height, loose = 0.0, band;

  if (d->assembly->family == TL_FAMILY_NONE || d->assembly->bodies->len == 0)
    {
      tl_loose_empty (d);
      if (d->options.show_scale_bar && d->views[TL_VIEW_SECTION].scale > 0.0)
        tl_furniture_scale_bar (d);
      d->legend_is_band = FALSE;
      if (d->options.show_legend)
        tl_furniture_legend (d);
      return;
    }
  loose = MIN (tl_loose_height (d), 0.3 * whole);
  band = tl_overlay_band_height (d);
  d->options.height -= loose + band;
  if (d->assembly->family == TL_FAMILY_STACK)
    tl_stack_lay_out (d);
  else if (d->assembly->family == TL_FAMILY_TERMINAL)
    tl_terminal_lay_out (d);
  else
    tl_sleeve_lay_out (d);
  if (d->options.show_scale_bar && d->options.show_section)
    tl_furniture_scale_bar (d);
  if (d->options.show_legend)
    tl_furniture_legend (d);
  d->options.height = whole;
  if (d->options.overlay != TL_OVERLAY_NONE)
    tl_overlay_apply (d, whole - loose - band);
  if (loose > 0.0)
    tl_loose_stubs (d, whole - loose);
}

/* A field of another joint is none; overlays and places exclude each other. */
static void
set_overlay (TlDrawing *d)
{
  TlDrawingOptions *o = &d->options;

  if (o->places != NULL || (guint) o->overlay >= TL_N_OVERLAYS)
    o->overlay = TL_OVERLAY_NONE;
  if (o->overlay == TL_OVERLAY_NONE || !tl_heat_field_is_of (o->field, d->verdict))
    o->field = NULL;
  if (o->field != NULL)
    tl_heat_field_ref (o->field);
  if (o->overlay != TL_OVERLAY_NONE)
    o->show_dimensions = FALSE;
}

TlDrawing *
tl_drawing_new (const TlVerdict *verdict, const TlDrawingOptions *options,
                const TlLanguage *language)
{
  TlDrawing *self = g_new0 (TlDrawing, 1);
  double     px;

  g_return_val_if_fail (verdict != NULL && options != NULL && language != NULL, self);

  tl_drawing_init_bare (self, 0.0, 0.0, 1.0);
  self->verdict = tl_verdict_ref (verdict);
  self->assembly = verdict->assembly;
  self->language = tl_language_ref ((TlLanguage *) language);
  self->options = *options;
  if (self->options.places != NULL && self->options.places->len == 0)
    self->options.places = NULL;
  set_overlay (self);
  set_units (self);
  px = self->px;
  if (self->options.width >= 24.0 * px && self->options.height >= 24.0 * px)
    {
      lay_out (self);
      if (self->options.show_frame)
        tl_furniture_frame (self);
      collect_items (self);
    }
  /* what the caller lent is not looked at again */
  self->options.selected = self->options.lifted = NULL;
  self->options.places = NULL;
  self->options.place_notes = NULL;
  self->options.place_severities = NULL;
  return self;
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
