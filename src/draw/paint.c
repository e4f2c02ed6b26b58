/* paint.c: colour and type.
 *
 * Text is laid out at one fixed size without hinting and scaled to the size wanted, so that a line breaks at the
 * same word on screen, in a picture and on paper, and can be measured without a surface.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/paint.h"
#include <math.h>

/* Size at which layouts are made, in units of the layout. */
#define MASTER_SIZE 64.0

void
tl_paint_set_colour (cairo_t *cr, TlColour colour)
{
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
}

/* Files keep text as text, to be searched and read aloud. On pixels the outlines are filled instead: cairo 1.16 puts
 * glyphs on whole pixels, which spoils the spacing of small type. */
static void
show_layout (cairo_t *cr, PangoLayout *layout)
{
  cairo_surface_type_t type = cairo_surface_get_type (cairo_get_target (cr));

  if (type == CAIRO_SURFACE_TYPE_PDF || type == CAIRO_SURFACE_TYPE_SVG
      || type == CAIRO_SURFACE_TYPE_PS)
    pango_cairo_show_layout (cr, layout);
  else
    {
      pango_cairo_layout_path (cr, layout);
      cairo_fill (cr);
    }
}

static PangoLayout *
new_layout (const char *text, gboolean bold)
{
  PangoFontMap         *map = pango_cairo_font_map_get_default ();
  PangoContext         *context = pango_font_map_create_context (map);
  PangoLayout          *layout;
  PangoFontDescription *font = pango_font_description_new ();
  PangoAttrList        *attributes = pango_attr_list_new ();
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 96.0);
  pango_context_set_round_glyph_positions (context, FALSE);
  cairo_font_options_destroy (options);

  layout = pango_layout_new (context);
  g_object_unref (context);
  pango_font_description_set_family_static (font, "Cantarell,Sans");
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, MASTER_SIZE * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

double
tl_paint_text_width (const char *text, double size, gboolean bold)
{
  g_autoptr (PangoLayout) layout = NULL;
  int width, height;

  if (text == NULL || *text == '\0' || !(size > 0.0) || !isfinite (size))
    return 0.0;
  layout = new_layout (text, bold);
  pango_layout_get_size (layout, &width, &height);
  return (double) width / PANGO_SCALE * size / MASTER_SIZE;
}

double
tl_paint_text (cairo_t *cr, const char *text, double x, double y, double size, gboolean bold,
               double align)
{
  g_autoptr (PangoLayout) layout = NULL;
  double ratio = size / MASTER_SIZE, width;
  int    layout_width, layout_height;

  if (text == NULL || *text == '\0' || !(size > 0.0) || !isfinite (x + y + size + align))
    return 0.0;
  layout = new_layout (text, bold);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_get_size (layout, &layout_width, &layout_height);
  width = (double) layout_width / PANGO_SCALE * ratio;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_translate (cr, x - align * width, y);
  cairo_scale (cr, ratio, ratio);
  cairo_move_to (cr, 0.0, -(double) pango_layout_get_baseline (layout) / PANGO_SCALE);
  show_layout (cr, layout);
  cairo_restore (cr);
  cairo_new_path (cr);
  return width;
}

double
tl_paint_paragraph (cairo_t *cr, const char *text, double x, double y, double width, double size,
                    gboolean bold, gboolean draw)
{
  g_autoptr (PangoLayout) layout = NULL;
  double ratio = size / MASTER_SIZE;
  int    layout_width, layout_height;

  if (text == NULL || *text == '\0' || !(size > 0.0) || !(width > 0.0)
      || !isfinite (x + y + width + size))
    return 0.0;
  layout = new_layout (text, bold);
  pango_layout_set_width (layout, (int) MIN (width / ratio * PANGO_SCALE, (double) G_MAXINT / 2));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_get_size (layout, &layout_width, &layout_height);
  if (draw && cr != NULL)
    {
      cairo_save (cr);
      cairo_new_path (cr);
      cairo_translate (cr, x, y);
      cairo_scale (cr, ratio, ratio);
      cairo_move_to (cr, 0.0, 0.0);
      show_layout (cr, layout);
      cairo_restore (cr);
      cairo_new_path (cr);
    }
  return (double) layout_height / PANGO_SCALE * ratio;
}
