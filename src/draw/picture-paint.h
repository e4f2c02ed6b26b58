/* picture-paint.h: a picture of a real joint with its numbered marks, measures and scale, on a cairo context.
 *
 * Screen, report and annotated copy share this. The original is never drawn on: what is painted is a decoded copy. Lines have
 * two tones, so that they show on any ground; shape and word carry the severity beside colour.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/paint.h"
#include "joint/pictures.h"

G_BEGIN_DECLS

/* Where the upright picture lies: units for one of its pixels, and its upper left corner. */
typedef struct
{
  double scale;
  double x, y;
} TlPictureView;

typedef struct
{
  TlPictureView view;
  double        unit;         /* units for one mm on the medium: sizes of lines and text */
  gboolean      show_marks, show_measures, show_scale;
  const char   *selected;     /* (nullable): id of a mark, measure or scale */
  gboolean      is_copy;      /* says "annotated copy" on it */
} TlPicturePaint;

/* Fits the whole picture into an area, centred. */
TlPictureView tl_picture_view_fit (const TlPhoto *photo, double width, double height);
void          tl_picture_view_map (const TlPictureView *view, TlPixel pixel, double *x, double *y);
TlPixel       tl_picture_view_pixel (const TlPictureView *view, double x, double y);

/* Pixels for cairo; of any level. (transfer full) */
cairo_surface_t *tl_picture_surface (GdkPixbuf *pixbuf) G_GNUC_WARN_UNUSED_RESULT;
/* The same with its JPEG attached, so that a PDF holds a small picture without notes of the camera. (transfer full) */
cairo_surface_t *tl_picture_surface_for_pdf (GdkPixbuf *pixbuf) G_GNUC_WARN_UNUSED_RESULT;

/* @surface: (nullable): without it a grey field stands for a picture that is gone.
 * @inspection: (nullable) */
void tl_picture_paint (cairo_t *cr, const TlPalette *palette, cairo_surface_t *surface, const TlInspections *inspections, const TlInspection *inspection, const TlPhoto *photo, const TlPicturePaint *options, const TlLanguage *language);

/* The same without the pixels. */
void tl_picture_paint_notes (cairo_t *cr, const TlPalette *palette, const TlInspections *inspections, const TlInspection *inspection, const TlPhoto *photo, const TlPicturePaint *options, const TlLanguage *language);

/* Mark, measure or scale of @photo within @reach_px pixels of @pixel, nearest first; %NULL: none. (transfer none) */
const char *tl_picture_pick (const TlInspection *inspection, const TlPhoto *photo, TlPixel pixel, double reach_px);

/**
 * tl_picture_save_annotated:
 * A lossless copy at full resolution with marks, measures and the words "annotated copy"; without any notes of the camera.
 * Returns: %FALSE with @error if the pixels cannot be had or the file not be written
 */
gboolean tl_picture_save_annotated (const TlInspections *inspections, const TlInspection *inspection, const TlPhoto *photo, TlOriginals *originals, const char *path, const TlLanguage *language, GError **error);

/* The mark of a grade, with a ring for nothing seen. */
TlMark tl_picture_grade_mark (TlGrade grade);

G_END_DECLS
