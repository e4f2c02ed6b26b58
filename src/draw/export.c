/* export.c: a drawing as PNG, SVG or PDF.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"
#include "draw/picture.h"

typedef struct
{
  const TlVerdict   *verdict;
  const TlLanguage  *language;
  TlOverlay          overlay;
  const TlHeatField *field;
} Export;

static void
paint_drawing (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
               gpointer data)
{
  const Export *self = data;
  g_autoptr (TlDrawing) drawing = NULL;
  TlDrawingOptions options;

  tl_drawing_options_init (&options);
  options.paper = palette->scheme == TL_SCHEME_ONE_INK;
  options.unit = unit;
  options.width = width;
  options.height = height;
  options.overlay = self->overlay;
  options.field = self->field;
  drawing = tl_drawing_new (self->verdict, &options, self->language);
  tl_drawing_paint (drawing, cr, palette);
}

gboolean
tl_drawing_save_overlay (const TlVerdict *verdict, TlOverlay overlay, const TlHeatField *field,
                         TlPictureKind kind, double width_mm, double height_mm, TlScheme scheme,
                         const char *path, const TlLanguage *language, GError **error)
{
  Export self = { verdict, language, overlay, field };

  g_return_val_if_fail (verdict != NULL && language != NULL, FALSE);
  return tl_picture_save (paint_drawing, &self, kind, width_mm, height_mm, scheme, path, language,
                          error);
}

gboolean
tl_drawing_save (const TlVerdict *verdict, TlPictureKind kind, double width_mm, double height_mm,
                 TlScheme scheme, const char *path, const TlLanguage *language, GError **error)
{
  return tl_drawing_save_overlay (verdict, TL_OVERLAY_NONE, NULL, kind, width_mm, height_mm, scheme,
                                  path, language, error);
}
