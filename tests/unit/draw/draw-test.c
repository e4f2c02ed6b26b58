/* draw-test.c: what to ask of a display list.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"
#include <string.h>

gboolean
dt_has_text (const TlDrawing *drawing, const char *text)
{
  for (guint i = 0; i < drawing->shapes->len; i++)
    if (g_strcmp0 (g_array_index (drawing->shapes, TlShape, i).text, text) == 0)
      return TRUE;
  return FALSE;
}

gboolean
dt_owner_bounds (const TlDrawing *drawing, const char *owner, gint view, double *x0, double *y0,
                 double *x1, double *y1)
{
  *x0 = *y0 = HUGE_VAL;
  *x1 = *y1 = -HUGE_VAL;
  for (guint i = 0; i < drawing->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (drawing->shapes, TlShape, i);
      double         a0, b0, a1, b1;

      if (shape->kind != TL_SHAPE_BODY || shape->view != view
          || g_strcmp0 (shape->owner, owner) != 0
          || !tl_shape_bounds (drawing, shape, &a0, &b0, &a1, &b1))
        continue;
      *x0 = MIN (*x0, a0);
      *y0 = MIN (*y0, b0);
      *x1 = MAX (*x1, a1);
      *y1 = MAX (*y1, b1);
    }
  return *x1 >= *x0;
}

char *
dt_body_lines (const TlDrawing *drawing)
{
  g_autofree char *all = tl_drawing_to_text (drawing);
  g_auto (GStrv) lines = g_strsplit (all, "\n", -1);
  GString *kept = g_string_new (NULL);

  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], "body section "))
      g_string_append_printf (kept, "%s\n", lines[i]);
  return g_string_free (kept, FALSE);
}

void
dt_paint_nowhere (const TlDrawing *drawing)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 100, 100);
  cairo_t         *cr = cairo_create (surface);

  tl_drawing_paint (drawing, cr, tl_palette_get (TL_SCHEME_CONTRAST));
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

guint
dt_part_pixels (const TlStock *stock, TlPartKind kind, const TlFacts *facts, int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t         *cr = cairo_create (surface);
  const TlPalette *palette = tl_palette_get (TL_SCHEME_ONE_INK);
  guint            marked = 0;

  tl_paint_set_colour (cr, palette->paper);
  cairo_paint (cr);
  tl_part_paint (cr, palette, stock, kind, facts, width, height);
  cairo_translate (cr, width / 2.0, height / 2.0);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      marked += cairo_image_surface_get_data (
                    surface)[y * cairo_image_surface_get_stride (surface) + 4 * x]
                < 224;
  tl_part_paint_ghost (cr, palette, stock, kind, facts, 3.0);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return marked;
}
