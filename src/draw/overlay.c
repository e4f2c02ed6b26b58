/* overlay.c: what the overlays share: their band at the foot, their labels, and the answer to the pointer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define BAND_PX 62.0
#define WET_HEAD_PX 26.0
#define WET_ROW_PX 16.0
/* Of the whole height; in a lower area the band gives way. */
#define MOST_BAND 0.34

double
tl_overlay_band_height (const TlDrawing *d)
{
  double height = BAND_PX * d->px;

  if (d->options.overlay == TL_OVERLAY_NONE)
    return 0.0;
  if (d->options.overlay == TL_OVERLAY_WET)
    height = (WET_HEAD_PX + WET_ROW_PX * tl_overlay_wet_rows (d) + 6.0) * d->px;
  return height > MOST_BAND * d->options.height ? 0.0 : height;
}

static void
band_rule (TlDrawing *d, double y)
{
  d->view = TL_VIEW_SHEET;
  tl_path_begin (d);
  tl_path_rectangle (d, 1.0 * d->px, y, d->options.width - 1.0 * d->px,
                     d->options.height - 1.0 * d->px);
  tl_shape_fill (d, TL_INK_PAPER);
  tl_shape_segment (d, TL_INK_HAIR, TL_LINE_HAIR, 8.0 * d->px, y, d->options.width - 8.0 * d->px,
                    y);
}

/* Why there is nothing to show yet; %FALSE if there is. */
static gboolean
has_reason (TlDrawing *d, double y)
{
  g_autofree char *reason = NULL;

  if (d->options.overlay == TL_OVERLAY_WET || tl_heat_field_is_computed (d->options.field))
    return FALSE;
  if (d->options.field == NULL)
    reason = g_strdup (tl_draw_text (d, TL_N_ ("Heat and current are being reckoned.")));
  else
    {
      g_autofree char *why = tl_heat_field_reason (d->options.field, d->language);

      reason = g_strdup_printf ("%s: %s", tl_draw_text (d, TL_N_ ("not computed")), why);
    }
  if (y < d->options.height)
    tl_overlay_text (d, TL_INK_INK, reason, 22.0 * d->px, y + 26.0 * d->px,
                     d->options.width - 16.0 * d->px, FALSE);
  return TRUE;
}

void
tl_overlay_apply (TlDrawing *d, double y)
{
  d->band_y = y;
  if (y < d->options.height)
    band_rule (d, y);
  if (has_reason (d, y))
    return;
  switch (d->options.overlay)
    {
    case TL_OVERLAY_HEAT:
      tl_overlay_heat (d, y);
      break;
    case TL_OVERLAY_CURRENT:
      tl_overlay_current (d, y);
      break;
    case TL_OVERLAY_WET:
      tl_overlay_wet (d, y);
      break;
    case TL_OVERLAY_NONE:
    case TL_N_OVERLAYS:
    default:
      break;
    }
}

/* --- the pointer --- */

static char *
say_heat (const TlDrawing *d, const TlShape *shape, guint body, double x, double y)
{
  g_autofree char *name = tl_overlay_owner_name (d, shape->owner);
  g_autofree char *figure = NULL;

  figure = tl_overlay_temperature (d, tl_overlay_heat_at (d, body, shape->view, x, y), TRUE);
  return g_strdup_printf ("%s: %s", name, figure);
}

static char *
say_current (const TlDrawing *d, const TlShape *shape, guint body)
{
  double           share = tl_heat_field_body_share (d->options.field, body);
  guint            tenths;
  g_autofree char *name = tl_overlay_owner_name (d, shape->owner);
  g_autofree char *percent = NULL, *load = NULL;

  tl_overlay_tenths (&share, 1, &tenths);
  if (tenths == 0)
    return tl_wording_fill (tl_draw_text (d, TL_N_ ("{part}: no current")), "part", name, NULL);
  percent = tl_overlay_percent (d, tenths);
  load = tl_overlay_number (d, tl_heat_field_load_A (d->options.field) * share);
  return g_strdup_printf ("%s: %s, %s\u202fA", name, percent, load);
}

char *
tl_drawing_overlay_at (const TlDrawing *self, double x, double y)
{
  const TlShape *shape;
  TlItem         item;
  guint          body;

  g_return_val_if_fail (self != NULL, NULL);

  if (self->options.overlay == TL_OVERLAY_NONE || y >= self->band_y)
    return NULL;
  if (self->options.overlay == TL_OVERLAY_WET)
    return tl_drawing_pick (self, x, y, &item) && item.kind == TL_ITEM_CONTACT
               ? tl_overlay_wet_text (self, item.index)
               : NULL;
  shape = tl_drawing_body_at (self, x, y);
  body = shape != NULL && shape->look != TL_LOOK_AIR ? tl_overlay_body_of (self, shape) : G_MAXUINT;
  if (body == G_MAXUINT || !tl_heat_field_is_computed (self->options.field))
    return NULL;
  return self->options.overlay == TL_OVERLAY_HEAT ? say_heat (self, shape, body, x, y)
                                                  : say_current (self, shape, body);
}

/* --- in words --- */

static void
describe_heat (const TlDrawing *d, GString *text)
{
  for (guint i = 0; i < d->assembly->order->len; i++)
    {
      const char      *owner = d->assembly->order->pdata[i];
      g_autofree char *name = NULL, *figure = NULL;
      double           value_C;

      if (!tl_overlay_heat_at_target (d, owner, &value_C))
        continue;
      name = tl_overlay_owner_name (d, owner);
      figure = tl_overlay_temperature (d, value_C, FALSE);
      g_string_append_printf (text, "%s: %s\n", name, figure);
    }
}

char *
tl_drawing_overlay_describe (const TlDrawing *self)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (self != NULL, g_string_free (text, FALSE));

  if (self->options.overlay == TL_OVERLAY_NONE)
    return g_string_free (text, FALSE);
  /* the sentences of the band begin at their left end, the figures of its scale stand about their ticks */
  for (guint i = 0; i < self->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (self->shapes, TlShape, i);

      if (shape->kind == TL_SHAPE_TEXT && shape->y > self->band_y && shape->align <= 0.0)
        g_string_append_printf (text, "%s\n", shape->text);
    }
  if (self->options.overlay == TL_OVERLAY_HEAT && tl_heat_field_is_computed (self->options.field))
    describe_heat (self, text);
  return g_string_free (text, FALSE);
}
