/* overlay-label.c: words and names of the overlays, put where they cover nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

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
