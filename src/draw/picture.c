/* picture.c: pictures in files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/file.h"
#include "draw/picture.h"
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>

#define LEAST_MM 20.0
#define MOST_MM 1200.0
/* Picture points for one px of the look: sharp on dense screens and in a page. */
#define PNG_RATIO 2.0
#define POINTS_PER_MM (72.0 / 25.4)

static cairo_status_t
write_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *
new_surface (TlPictureKind kind, double width_mm, double height_mm, GByteArray *bytes,
             double *per_mm)
{
  cairo_surface_t *surface;

  if (kind == TL_PICTURE_PNG)
    {
      *per_mm = 96.0 / 25.4 * PNG_RATIO;
      return cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (width_mm * *per_mm),
                                         (int) ceil (height_mm * *per_mm));
    }
  *per_mm = POINTS_PER_MM;
  if (kind == TL_PICTURE_SVG)
    return cairo_svg_surface_create_for_stream (write_bytes, bytes, width_mm * POINTS_PER_MM,
                                                height_mm * POINTS_PER_MM);
  surface = cairo_pdf_surface_create_for_stream (write_bytes, bytes, width_mm * POINTS_PER_MM,
                                                 height_mm * POINTS_PER_MM);
  /* same joint, same bytes: no clock in the file */
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, "2020-01-01T00:00:00Z");
  return surface;
}

static cairo_status_t
paint (TlPictureFunc func, gpointer data, cairo_surface_t *surface, double width_mm,
       double height_mm, double per_mm, TlScheme scheme)
{
  const TlPalette *palette = tl_palette_get (scheme);
  double           unit = scheme == TL_SCHEME_ONE_INK ? 1.0 : 96.0 / 25.4;
  cairo_t         *cr = cairo_create (surface);
  cairo_status_t   status;

  tl_paint_set_colour (cr, palette->paper);
  cairo_paint (cr);
  cairo_scale (cr, per_mm / unit, per_mm / unit);
  func (cr, palette, width_mm * unit, height_mm * unit, unit, data);
  status = cairo_status (cr);
  cairo_destroy (cr);
  return status;
}

gboolean
tl_picture_kind_of (const char *path, TlPictureKind *kind)
{
  static const char *const endings[] = { ".png", ".svg", ".pdf" };
  g_autofree char         *lower = g_ascii_strdown (path, -1);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (lower, endings[i]))
      {
        *kind = (TlPictureKind) i;
        return TRUE;
      }
  return FALSE;
}

GBytes *
tl_picture_to_bytes (TlPictureFunc func, gpointer data, TlPictureKind kind, double width_mm,
                     double height_mm, TlScheme scheme, const TlLanguage *language, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t   status;
  double           per_mm = 1.0;

  g_return_val_if_fail (func != NULL && language != NULL, NULL);

  if (!(width_mm >= LEAST_MM && width_mm <= MOST_MM && height_mm >= LEAST_MM
        && height_mm <= MOST_MM))
    {
      g_set_error (
          error, TL_ERROR, TL_ERROR_RANGE,
          tl_language_text (
              language,
              TL_N_ ("A picture of %g × %g mm cannot be made: each side has to be %g to %g mm.")),
          width_mm, height_mm, LEAST_MM, MOST_MM);
      return NULL;
    }
  surface = new_surface (kind, width_mm, height_mm, bytes, &per_mm);
  status = paint (func, data, surface, width_mm, height_mm, per_mm, scheme);
  if (status == CAIRO_STATUS_SUCCESS && kind == TL_PICTURE_PNG)
    status = cairo_surface_write_to_png_stream (surface, write_bytes, bytes);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   tl_language_text (language, TL_N_ ("The picture could not be made: %s.")),
                   cairo_status_to_string (status));
      return NULL;
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

gboolean
tl_picture_save (TlPictureFunc func, gpointer data, TlPictureKind kind, double width_mm,
                 double height_mm, TlScheme scheme, const char *path, const TlLanguage *language,
                 GError **error)
{
  g_autoptr (GBytes) bytes = NULL;

  g_return_val_if_fail (path != NULL, FALSE);

  bytes = tl_picture_to_bytes (func, data, kind, width_mm, height_mm, scheme, language, error);
  return bytes != NULL
         && tl_file_save (path, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), error);
}
