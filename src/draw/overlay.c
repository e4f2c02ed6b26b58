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

/* --- text --- */

void
tl_overlay_text (TlDrawing *d, TlInk ink, const char *text, double x, double y, double right,
                 gboolean bold)
{
  g_autofree char *cut = g_strdup (text);
  double           size = d->text;

  if (tl_paint_text_width (cut, size, bold) > right - x)
    size *= 0.92;
  for (glong n = g_utf8_strlen (text, -1); tl_paint_text_width (cut, size, bold) > right - x; n--)
    {
      g_autofree char *head = NULL;

      if (n < 4)
        return;
      head = g_utf8_substring (text, 0, n - 1);
      g_free (cut);
      cut = g_strdup_printf ("%s…", g_strchomp (head));
    }
  tl_shape_text (d, ink, cut, x, y, size, bold, 0.0);
}

static gboolean
is_free (const TlDrawing *d, double x0, double y0, double x1, double y1)
{
  double inset = 4.0 * d->px;

  if (x0 < inset || y0 < inset || x1 > d->options.width - inset || y1 > d->band_y - inset / 2.0)
    return FALSE;
  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (d->shapes, TlShape, i);
      double         a0, b0, a1, b1;

      if (shape->kind != TL_SHAPE_TEXT && shape->kind != TL_SHAPE_NUMBER
          && shape->kind != TL_SHAPE_MARK)
        continue;
      if (tl_shape_bounds (d, shape, &a0, &b0, &a1, &b1) && a0 < x1 && a1 > x0 && b0 < y1
          && b1 > y0)
        return FALSE;
    }
  return TRUE;
}

gboolean
tl_overlay_label (TlDrawing *d, const char *text, double x, double y, gboolean bold)
{
  double size = d->text, half = tl_paint_text_width (text, size, bold) / 2.0 + 2.5 * d->px;

  if (!is_free (d, x - half, y - 0.62 * size, x + half, y + 0.62 * size))
    return FALSE;
  d->view = TL_VIEW_SHEET;
  tl_path_begin (d);
  tl_path_rectangle (d, x - half, y - 0.62 * size, x + half, y + 0.62 * size);
  tl_shape_fill (d, TL_INK_PAPER);
  tl_shape_text (d, TL_INK_INK, text, x, y + 0.36 * size, size, bold, 0.5);
  return TRUE;
}

/* --- names --- */

guint
tl_overlay_body_of (const TlDrawing *d, const TlShape *shape)
{
  guint found = G_MAXUINT;

  for (guint i = 0; shape->owner != NULL && i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (g_strcmp0 (body->owner, shape->owner) != 0)
        continue;
      if (body->look == shape->look)
        return i;
      found = found == G_MAXUINT ? i : found;
    }
  return found;
}

char *
tl_overlay_owner_name (const TlDrawing *d, const char *owner)
{
  g_autofree char *name = tl_assembly_owner_name (d->assembly, owner, d->language);
  guint            number = tl_assembly_number (d->assembly, owner);

  return number > 0 ? g_strdup_printf ("%s (%u)", name, number) : g_steal_pointer (&name);
}

char *
tl_overlay_number (const TlDrawing *d, double value)
{
  return tl_language_number (d->language, value, fabs (value - round (value)) < 0.05 ? 0 : 1);
}

char *
tl_overlay_temperature (const TlDrawing *d, double value_C, gboolean fine)
{
  g_autofree char *figure = tl_language_number (d->language, value_C, fine ? 1 : 0);

  return g_strdup_printf ("%s\u202f°C", figure);
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
