/* picture-paint.c: a picture with marks, measures and scale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-paint.h"

#include "base/file.h"
#include "draw/drawing-private.h"

#include <math.h>
#include <string.h>

#define TEXT_MM 2.6
#define MOST_EDGE 32767u /* of a cairo image */
#define SHOWN_MM 260.0   /* an annotated copy is drawn as if it were printed this wide */

/* --- geometry --- */

TlPictureView
tl_picture_view_fit (const TlPhoto *photo, double width, double height)
{
  guint         w, h;
  TlPictureView view;

  tl_photo_size (photo, &w, &h);
  view.scale = MIN (width / w, height / h);
  view.x = (width - view.scale * w) / 2.0;
  view.y = (height - view.scale * h) / 2.0;
  return view;
}

/* The middle of the first pixel is 0, 0: its corner lies half a pixel before. */
void
tl_picture_view_map (const TlPictureView *view, TlPixel pixel, double *x, double *y)
{
  *x = view->x + (pixel.x_px + 0.5) * view->scale;
  *y = view->y + (pixel.y_px + 0.5) * view->scale;
}

TlPixel
tl_picture_view_pixel (const TlPictureView *view, double x, double y)
{
  return (TlPixel){ (x - view->x) / view->scale - 0.5, (y - view->y) / view->scale - 0.5 };
}

TlMark
tl_picture_grade_mark (TlGrade grade)
{
  static const TlMark marks[] = { TL_MARK_NOT_COMPUTED, TL_MARK_WATCH, TL_MARK_CHANGE,
                                  TL_MARK_UNSAFE };

  return marks[grade];
}

/* --- pixels --- */

cairo_surface_t *
tl_picture_surface (GdkPixbuf *pixbuf)
{
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  int channels = gdk_pixbuf_get_n_channels (pixbuf), stride = gdk_pixbuf_get_rowstride (pixbuf);
  const guint8    *from = gdk_pixbuf_read_pixels (pixbuf);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);

  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS)
    return surface;
  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++)
    {
      const guint8 *p = from + (gsize) y * (gsize) stride;
      guint32      *to =
          (guint32 *) (gpointer) (cairo_image_surface_get_data (surface)
                                  + (gsize) y * (gsize) cairo_image_surface_get_stride (surface));

      for (int x = 0; x < width; x++, p += channels)
        {
          /* What is transparent is shown on white. */
          guint alpha = channels == 4 ? p[3] : 255, white = (255 - alpha) * 255;

          to[x] = (p[0] * alpha + white) / 255 << 16 | (p[1] * alpha + white) / 255 << 8
                  | (p[2] * alpha + white) / 255;
        }
    }
  cairo_surface_mark_dirty (surface);
  return surface;
}

cairo_surface_t *
tl_picture_surface_for_pdf (GdkPixbuf *pixbuf)
{
  cairo_surface_t *surface = tl_picture_surface (pixbuf);
  char            *data;
  gsize            length;

  if (gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, "jpeg", NULL, "quality", "90", NULL)
      && cairo_surface_set_mime_data (surface, CAIRO_MIME_TYPE_JPEG, (unsigned char *) data, length,
                                      g_free, data)
             != CAIRO_STATUS_SUCCESS)
    g_free (data);
  return surface;
}

/* --- two tones --- */

typedef struct
{
  cairo_t              *cr;
  const TlPalette      *palette;
  const TlPicturePaint *options;
  const TlLanguage     *language;
} Pen;

/* Strokes the path dark and wide, then @colour on it. */
static void
stroke (const Pen *pen, TlColour colour, gboolean is_selected)
{
  double line = (is_selected ? 0.7 : 0.45) * pen->options->unit;

  cairo_set_line_cap (pen->cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (pen->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgb (pen->cr, 0.05, 0.07, 0.09);
  cairo_set_line_width (pen->cr, line * 2.4);
  cairo_stroke_preserve (pen->cr);
  tl_paint_set_colour (pen->cr, colour);
  cairo_set_line_width (pen->cr, line);
  cairo_stroke (pen->cr);
}

static const TlColour white = { 1.0, 1.0, 1.0 };

static TlColour
colour_of (const Pen *pen, const char *word)
{
  static const struct
  {
    const char *word;
    TlColour    colour;
  } colours[] = { { "blue", { 0.45, 0.72, 1.0 } },
                  { "yellow", { 1.0, 0.86, 0.35 } },
                  { "black", { 0.35, 0.35, 0.35 } } };

  for (guint i = 0; i < G_N_ELEMENTS (colours); i++)
    if (strcmp (word, colours[i].word) == 0)
      return colours[i].colour;
  return white;
}

/* A plate with text, and a mark before it if @grade is one; its middle stands at @x, @y. */
static void
plate (const Pen *pen, const char *text, int grade, double x, double y, gboolean is_selected)
{
  double unit = pen->options->unit, size = TEXT_MM * unit, pad = 1.0 * unit,
         mark = grade >= 0 ? size * 1.4 : 0.0;
  double width = tl_paint_text_width (text, size, TRUE) + mark + 2.0 * pad,
         height = size * 1.5 + pad;

  cairo_rectangle (pen->cr, x - width / 2.0, y - height / 2.0, width, height);
  cairo_set_source_rgb (pen->cr, 1.0, 1.0, 1.0);
  cairo_fill_preserve (pen->cr);
  tl_paint_set_colour (pen->cr, is_selected ? pen->palette->select : pen->palette->ink);
  cairo_set_line_width (pen->cr, (is_selected ? 0.6 : 0.3) * unit);
  cairo_stroke (pen->cr);
  if (grade >= 0)
    tl_paint_mark (pen->cr, pen->palette, tl_picture_grade_mark ((TlGrade) grade),
                   x - width / 2.0 + pad + mark * 0.4, y, size * 1.1);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  tl_paint_text (pen->cr, text, x - width / 2.0 + pad + mark, y + size * 0.36, size, TRUE, 0.0);
}

static void
path_of (const Pen *pen, const GArray *points, gboolean is_closed)
{
  cairo_new_path (pen->cr);
  for (guint i = 0; i < points->len; i++)
    {
      double x, y;

      tl_picture_view_map (&pen->options->view, g_array_index (points, TlPixel, i), &x, &y);
      cairo_line_to (pen->cr, x, y);
    }
  if (is_closed)
    cairo_close_path (pen->cr);
}

/* --- marks --- */

static void
arrow_head (const Pen *pen, const GArray *points)
{
  double x0, y0, x1, y1, angle, size = 2.4 * pen->options->unit;

  tl_picture_view_map (&pen->options->view, g_array_index (points, TlPixel, 0), &x0, &y0);
  tl_picture_view_map (&pen->options->view, g_array_index (points, TlPixel, 1), &x1, &y1);
  angle = atan2 (y0 - y1, x0 - x1);
  cairo_move_to (pen->cr, x1 + size * cos (angle + 0.4), y1 + size * sin (angle + 0.4));
  cairo_line_to (pen->cr, x1, y1);
  cairo_line_to (pen->cr, x1 + size * cos (angle - 0.4), y1 + size * sin (angle - 0.4));
}

static void
shape_path (const Pen *pen, const TlPictureMark *mark)
{
  double x0, y0, x1, y1;

  tl_picture_view_map (&pen->options->view, g_array_index (mark->points, TlPixel, 0), &x0, &y0);
  switch (mark->shape)
    {
    case TL_OUTLINE_POINT:
      cairo_new_path (pen->cr);
      cairo_arc (pen->cr, x0, y0, 1.0 * pen->options->unit, 0.0, 2.0 * G_PI);
      break;
    case TL_OUTLINE_BOX:
      tl_picture_view_map (&pen->options->view, g_array_index (mark->points, TlPixel, 1), &x1, &y1);
      cairo_new_path (pen->cr);
      cairo_rectangle (pen->cr, MIN (x0, x1), MIN (y0, y1), fabs (x1 - x0), fabs (y1 - y0));
      break;
    case TL_OUTLINE_ARROW:
      path_of (pen, mark->points, FALSE);
      arrow_head (pen, mark->points);
      break;
    case TL_OUTLINE_LINE:
    case TL_OUTLINE_FREEHAND:
      path_of (pen, mark->points, FALSE);
      break;
    case TL_OUTLINE_POLYGON:
    case TL_N_OUTLINES:
    default:
      path_of (pen, mark->points, TRUE);
      break;
    }
}

/* The number stands off the thing, at the end of a leader; inside the picture. */
static void
paint_mark (const Pen *pen, const TlPictureMark *mark, double width, double height)
{
  const TlPictureView *view = &pen->options->view;
  double               unit = pen->options->unit, x, y, to_x, to_y;
  gboolean             is_selected = g_strcmp0 (pen->options->selected, mark->id) == 0;
  g_autofree char     *number = g_strdup_printf ("%u", mark->number);

  tl_picture_view_map (view, tl_picture_mark_anchor (mark), &x, &y);
  to_x = CLAMP (x - 2.0 * unit + (mark->number % 2 == 0 ? 8.0 : -4.0) * unit, view->x + 6.0 * unit,
                view->x + width - 6.0 * unit);
  to_y = y - 9.0 * unit < view->y + 4.0 * unit ? y + 9.0 * unit : y - 9.0 * unit;
  to_y = CLAMP (to_y, view->y + 4.0 * unit, view->y + height - 4.0 * unit);
  cairo_new_path (pen->cr);
  cairo_move_to (pen->cr, x, y);
  cairo_line_to (pen->cr, to_x, to_y);
  stroke (pen, white, FALSE);
  shape_path (pen, mark);
  stroke (pen, colour_of (pen, mark->colour), is_selected);
  plate (pen, number, mark->grade, to_x, to_y, is_selected);
}

/* --- measures and scales --- */

static void
ends (const Pen *pen, const GArray *points)
{
  for (guint i = 0; i < points->len; i++)
    {
      double x, y;

      tl_picture_view_map (&pen->options->view, g_array_index (points, TlPixel, i), &x, &y);
      cairo_new_path (pen->cr);
      cairo_arc (pen->cr, x, y, 0.6 * pen->options->unit, 0.0, 2.0 * G_PI);
      stroke (pen, white, FALSE);
    }
}

static void
plate_at_middle (const Pen *pen, const GArray *points, const char *text, double lift,
                 gboolean is_selected)
{
  double x = 0.0, y = 0.0;

  for (guint i = 0; i < points->len; i++)
    {
      double px, py;

      tl_picture_view_map (&pen->options->view, g_array_index (points, TlPixel, i), &px, &py);
      x += px / points->len;
      y += py / points->len;
    }
  plate (pen, text, -1, x, y + lift * pen->options->unit, is_selected);
}

/* A plate on a short thing would hide it and its neighbour's plate: it stands below, in one of two rows. */
static double
lift_of (const Pen *pen, const TlMeasure *measure, guint index)
{
  double x0, y0, x1, y1;

  tl_picture_view_map (&pen->options->view, g_array_index (measure->points, TlPixel, 0), &x0, &y0);
  tl_picture_view_map (&pen->options->view, g_array_index (measure->points, TlPixel, 1), &x1, &y1);
  if (hypot (x1 - x0, y1 - y0) > 24.0 * pen->options->unit)
    return -5.0;
  return index % 2 == 0 ? 14.0 : 9.0;
}

static void
paint_measure (const Pen *pen, const TlInspections *inspections, const TlInspection *inspection,
               const TlMeasure *measure, guint index)
{
  gboolean         is_selected = g_strcmp0 (pen->options->selected, measure->id) == 0;
  TlMeasureResult  result;
  g_autofree char *text = NULL;

  path_of (pen, measure->points, measure->kind == TL_MEASURE_AREA);
  stroke (pen, white, is_selected);
  ends (pen, measure->points);
  if (tl_inspections_run (inspections, inspection, measure, &result, NULL))
    text = tl_measure_text (measure, &result, pen->language);
  else
    text = g_strdup (tl_language_text (pen->language, TL_N_ ("not computed")));
  plate_at_middle (pen, measure->points, text, lift_of (pen, measure, index), is_selected);
}

/* Above the reference, or below it at the upper edge of the picture: a plate on a rule or card would hide what it shows. */
static void
plate_beside (const Pen *pen, const GArray *points, const char *text, gboolean is_selected)
{
  double unit = pen->options->unit, x = 0.0, top = G_MAXDOUBLE, bottom = -G_MAXDOUBLE;

  for (guint i = 0; i < points->len; i++)
    {
      double px, py;

      tl_picture_view_map (&pen->options->view, g_array_index (points, TlPixel, i), &px, &py);
      x += px / points->len;
      top = MIN (top, py);
      bottom = MAX (bottom, py);
    }
  plate (pen, text, -1, x,
         top - 8.0 * unit >= pen->options->view.y ? top - 4.0 * unit : bottom + 4.0 * unit,
         is_selected);
}

static void
paint_scale (const Pen *pen, const TlScale *scale)
{
  static const TlColour amber = { 1.0, 0.86, 0.45 };
  gboolean              is_selected = g_strcmp0 (pen->options->selected, scale->id) == 0;
  g_autofree char      *length = tl_language_number (pen->language, scale->length_mm, 1);
  g_autofree char      *height = tl_language_number (pen->language, scale->height_mm, 1);
  g_autofree char      *text =
      scale->kind == TL_SCALE_LENGTH
               ? g_strdup_printf (tl_language_text (pen->language, TL_N_ ("scale %s mm")), length)
               : g_strdup_printf (tl_language_text (pen->language, TL_N_ ("scale %s × %s mm")), length,
                                  height);

  path_of (pen, scale->points, scale->kind == TL_SCALE_RECTANGLE);
  stroke (pen, amber, is_selected);
  plate_beside (pen, scale->points, text, is_selected);
}

/* A bar of a round length at the lower left; true at the middle of the reference, in its plane. */
static void
paint_bar (const Pen *pen, const TlScale *scale, double height)
{
  const TlPictureView *view = &pen->options->view;
  double unit = pen->options->unit, mm_per_px, length_mm, length, x = view->x + 4.0 * unit,
         y = view->y + height - 5.0 * unit;
  TlPixel          middle = { 0.0, 0.0 };
  g_autofree char *figure = NULL, *text = NULL;

  for (guint i = 0; i < scale->points->len; i++)
    {
      middle.x_px += g_array_index (scale->points, TlPixel, i).x_px / scale->points->len;
      middle.y_px += g_array_index (scale->points, TlPixel, i).y_px / scale->points->len;
    }
  if (!tl_scale_mm_per_px (scale, middle, &mm_per_px))
    return;
  length_mm = tl_scale_bar_mm (40.0 * unit / view->scale * mm_per_px);
  length = length_mm / mm_per_px * view->scale;
  figure = tl_language_number (pen->language, length_mm, length_mm < 0.95 ? 1 : 0);
  text = g_strdup_printf ("%s\u00a0mm", figure);
  cairo_new_path (pen->cr);
  cairo_move_to (pen->cr, x, y - 1.2 * unit);
  cairo_line_to (pen->cr, x, y);
  cairo_line_to (pen->cr, x + length, y);
  cairo_line_to (pen->cr, x + length, y - 1.2 * unit);
  stroke (pen, white, FALSE);
  plate (pen, text, -1, x + length / 2.0, y - 4.0 * unit, FALSE);
}

/* --- all of it --- */

static void
paint_pixels (const Pen *pen, cairo_surface_t *surface, double width, double height)
{
  const TlPictureView *view = &pen->options->view;
  cairo_t             *cr = pen->cr;

  cairo_save (cr);
  cairo_rectangle (cr, view->x, view->y, width, height);
  if (surface == NULL)
    {
      cairo_set_source_rgb (cr, 0.75, 0.75, 0.75);
      cairo_fill (cr);
    }
  else
    {
      cairo_clip (cr);
      cairo_translate (cr, view->x, view->y);
      cairo_scale (cr, width / cairo_image_surface_get_width (surface),
                   height / cairo_image_surface_get_height (surface));
      cairo_set_source_surface (cr, surface, 0.0, 0.0);
      cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_GOOD);
      cairo_paint (cr);
    }
  cairo_restore (cr);
}

static gboolean
lies_in (const char *picture, const TlPhoto *photo)
{
  return strcmp (picture, photo->id) == 0;
}

static void
paint_copy_words (const Pen *pen, const TlPhoto *photo, double width)
{
  const TlPictureView *view = &pen->options->view;
  g_autofree char     *hash = g_strndup (photo->sha256, 16);
  g_autofree char     *text = g_strdup_printf (
          tl_language_text (pen->language, TL_N_ ("annotated copy · SHA-256 of the original %s…")),
          hash);
  double half =
      (tl_paint_text_width (text, TEXT_MM * pen->options->unit, TRUE) + 2.0 * pen->options->unit)
      / 2.0;

  plate (pen, text, -1, view->x + MAX (half, width - half - pen->options->unit),
         view->y + 4.0 * pen->options->unit, FALSE);
}

void
tl_picture_paint_notes (cairo_t *cr, const TlPalette *palette, const TlInspections *inspections,
                        const TlInspection *inspection, const TlPhoto *photo,
                        const TlPicturePaint *options, const TlLanguage *language)
{
  const Pen pen = { cr, palette, options, language };
  double    width, height;
  gboolean  has_bar = FALSE;
  guint     w, h;

  tl_photo_size (photo, &w, &h);
  width = options->view.scale * w;
  height = options->view.scale * h;
  cairo_save (cr);
  for (guint i = 0; inspection != NULL && options->show_scale && i < inspection->scales->len; i++)
    {
      const TlScale *scale = g_ptr_array_index (inspection->scales, i);

      if (!lies_in (scale->picture, photo))
        continue;
      paint_scale (&pen, scale);
      if (!has_bar)
        paint_bar (&pen, scale, height);
      has_bar = TRUE;
    }
  /* Marks first: their outlines would hide the figures of what is measured inside them. */
  for (guint i = 0; inspection != NULL && options->show_marks && i < inspection->marks->len; i++)
    if (lies_in (((TlPictureMark *) g_ptr_array_index (inspection->marks, i))->picture, photo))
      paint_mark (&pen, g_ptr_array_index (inspection->marks, i), width, height);
  for (guint i = 0; inspection != NULL && options->show_measures && i < inspection->measures->len;
       i++)
    if (lies_in (((TlMeasure *) g_ptr_array_index (inspection->measures, i))->picture, photo))
      paint_measure (&pen, inspections, inspection, g_ptr_array_index (inspection->measures, i), i);
  if (options->is_copy)
    paint_copy_words (&pen, photo, width);
  cairo_restore (cr);
}

void
tl_picture_paint (cairo_t *cr, const TlPalette *palette, cairo_surface_t *surface,
                  const TlInspections *inspections, const TlInspection *inspection,
                  const TlPhoto *photo, const TlPicturePaint *options, const TlLanguage *language)
{
  const Pen pen = { cr, palette, options, language };
  guint     w, h;

  tl_photo_size (photo, &w, &h);
  paint_pixels (&pen, surface, options->view.scale * w, options->view.scale * h);
  tl_picture_paint_notes (cr, palette, inspections, inspection, photo, options, language);
}

/* --- picking --- */

static void
offer (const char *id, double distance, const char **best, double *least)
{
  if (distance >= *least)
    return;
  *least = distance;
  *best = id;
}

static double
to_points (const GArray *points, TlPixel pixel)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < points->len; i++)
    least = MIN (least, hypot (g_array_index (points, TlPixel, i).x_px - pixel.x_px,
                               g_array_index (points, TlPixel, i).y_px - pixel.y_px));
  return least;
}

const char *
tl_picture_pick (const TlInspection *inspection, const TlPhoto *photo, TlPixel pixel,
                 double reach_px)
{
  const char *best = NULL;
  double      least = reach_px;

  for (guint i = 0; i < inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (inspection->marks, i);

      if (lies_in (mark->picture, photo))
        offer (mark->id, tl_picture_mark_distance_px (mark, pixel), &best, &least);
    }
  for (guint i = 0; i < inspection->measures->len; i++)
    {
      const TlMeasure *measure = g_ptr_array_index (inspection->measures, i);

      if (lies_in (measure->picture, photo))
        offer (measure->id, to_points (measure->points, pixel), &best, &least);
    }
  for (guint i = 0; i < inspection->scales->len; i++)
    {
      const TlScale *scale = g_ptr_array_index (inspection->scales, i);

      if (lies_in (scale->picture, photo))
        offer (scale->id, to_points (scale->points, pixel), &best, &least);
    }
  return best;
}

/* --- the annotated copy --- */

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
fail_copy (GError **error, const char *path, const char *reason, const TlLanguage *language)
{
  g_set_error (error, TL_ERROR, TL_ERROR_FILE,
               tl_language_text (language, TL_N_ ("%s was not written: %s.")), path, reason);
  return FALSE;
}

gboolean
tl_picture_save_annotated (const TlInspections *inspections, const TlInspection *inspection,
                           const TlPhoto *photo, TlOriginals *originals, const char *path,
                           const TlLanguage *language, GError **error)
{
  g_autoptr (GBytes) bytes = originals != NULL ? tl_originals_get (originals, photo->sha256) : NULL;
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (GByteArray) png = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t   status;
  cairo_t         *cr;
  guint            width, height;
  TlPicturePaint   options = { .view = { 1.0, 0.0, 0.0 },
                               .show_marks = TRUE,
                               .show_measures = TRUE,
                               .show_scale = TRUE,
                               .is_copy = TRUE };

  tl_photo_size (photo, &width, &height);
  if (bytes == NULL || MAX (width, height) > MOST_EDGE)
    return fail_copy (
        error, path,
        tl_language_text (language, bytes == NULL ? TL_N_ ("the original is not in the document")
                                                  : TL_N_ ("the picture is too large for a copy")),
        language);
  pixbuf = tl_photo_decode (photo, bytes, 0, NULL, error);
  if (pixbuf == NULL)
    return FALSE;
  surface = tl_picture_surface (pixbuf);
  cr = cairo_create (surface);
  options.unit = MAX (width, height) / SHOWN_MM;
  tl_picture_paint_notes (cr, tl_palette_get (TL_SCHEME_LIGHT), inspections, inspection, photo,
                          &options, language);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_bytes, png);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS)
    return fail_copy (error, path, cairo_status_to_string (status), language);
  return tl_file_save (path, (const char *) png->data, png->len, error);
}
