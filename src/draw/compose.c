/* compose.c: from an assembly to its drawing: what is shown, in which units, in which layout.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/part-private.h"

#include <string.h>

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
