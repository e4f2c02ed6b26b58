/* picture-report.c: the report of an inspection: its pages, and its PDF.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-report-private.h"

#include "base/file.h"
#include "draw/sheet-private.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>

#define PICTURE_EDGE 1600u /* pixels of a picture in the report */

static void
block_clear (gpointer data)
{
  TlReportBlock *block = data;

  for (guint i = 0; i < TL_REPORT_MOST_CELLS; i++)
    g_free (block->cells[i]);
}

static void
surface_free (gpointer data)
{
  if (data != NULL)
    cairo_surface_destroy (data);
}

/* A picture that is gone or damaged gives none: the report says so and goes on. */
static cairo_surface_t *
load_surface (const TlJoint *joint, const TlPhoto *photo)
{
  g_autoptr (GBytes) bytes =
      joint->originals != NULL ? tl_originals_get (joint->originals, photo->sha256) : NULL;
  g_autoptr (GdkPixbuf) pixbuf =
      bytes != NULL ? tl_photo_decode (photo, bytes, PICTURE_EDGE, NULL, NULL) : NULL;

  return pixbuf != NULL ? tl_picture_surface_for_pdf (pixbuf) : NULL;
}

static void
collect_objections (TlPictureReport *self)
{
  for (guint i = 0; i < self->inspection->marks->len; i++)
    {
      GPtrArray *own = tl_picture_mark_objections_by (
          g_ptr_array_index (self->inspection->marks, i), self->stock, self->language);

      g_ptr_array_extend_and_steal (self->objections, own);
    }
}

/* Blocks never break; a heading goes with what follows it. */
static void
paginate (TlPictureReport *self)
{
  double top = tl_picture_report_top (self), bottom = tl_picture_report_bottom (self), y = top;

  self->n_pages = 1;
  for (guint i = 0; i < self->blocks->len; i++)
    {
      TlReportBlock *block = &g_array_index (self->blocks, TlReportBlock, i);
      double         wanted;

      block->height = tl_picture_report_block (self, NULL, block, 0.0);
      wanted = block->height;
      for (guint k = i + 1;
           k < self->blocks->len && g_array_index (self->blocks, TlReportBlock, k).keep; k++)
        wanted += tl_picture_report_block (self, NULL,
                                           &g_array_index (self->blocks, TlReportBlock, k), 0.0);
      if (wanted > bottom - top || block->keep)
        wanted = block->height;
      if ((y + wanted > bottom || block->on_new_page) && y > top)
        {
          self->n_pages++;
          y = top;
        }
      block->page = self->n_pages - 1;
      block->y = y;
      y += block->height;
    }
}

TlPictureReport *
tl_picture_report_new (const TlJoint *joint, const TlInspections *inspections,
                       const char *inspection, const TlStock *stock, TlPaper paper,
                       const char *date, const TlLanguage *language, GError **error)
{
  g_autoptr (TlDefects) defects = NULL;
  TlPictureReport *self;

  g_return_val_if_fail (joint != NULL && inspections != NULL && stock != NULL && language != NULL,
                        NULL);

  if (tl_inspections_get (inspections, inspection) == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("There is no inspection “%s”."), inspection);
      return NULL;
    }
  defects = tl_defects_load (stock, error);
  if (defects == NULL)
    return NULL;
  self = g_new0 (TlPictureReport, 1);
  self->palette = tl_palette_get (TL_SCHEME_ONE_INK);
  self->language = tl_language_ref (language);
  self->stock = tl_stock_ref ((TlStock *) stock);
  self->defects = g_steal_pointer (&defects);
  self->joint = tl_joint_ref (joint);
  self->inspections = tl_inspections_ref (inspections);
  self->inspection = tl_inspections_get (self->inspections, inspection);
  self->as_found = tl_as_found_new (joint, inspections, self->inspection, stock);
  self->surfaces = g_ptr_array_new_with_free_func (surface_free);
  for (guint i = 0; i < inspections->photos->len; i++)
    g_ptr_array_add (self->surfaces,
                     load_surface (joint, g_ptr_array_index (inspections->photos, i)));
  self->objections = g_ptr_array_new_with_free_func (g_free);
  collect_objections (self);
  self->blocks = g_array_new (FALSE, TRUE, sizeof (TlReportBlock));
  g_array_set_clear_func (self->blocks, block_clear);
  self->date = g_strdup (date);
  tl_paper_size_mm (paper, &self->width, &self->height);
  tl_picture_report_compose (self);
  paginate (self);
  return self;
}

void
tl_picture_report_free (TlPictureReport *self)
{
  tl_as_found_free (self->as_found);
  g_ptr_array_unref (self->surfaces);
  g_ptr_array_unref (self->objections);
  g_array_unref (self->blocks);
  tl_inspections_unref (self->inspections);
  tl_joint_unref (self->joint);
  tl_defects_unref (self->defects);
  tl_stock_unref (self->stock);
  tl_language_unref (self->language);
  g_free (self->date);
  g_free (self);
}

guint
tl_picture_report_pages (const TlPictureReport *self)
{
  return self->n_pages;
}

void
tl_picture_report_size_mm (const TlPictureReport *self, double *width, double *height)
{
  *width = self->width;
  *height = self->height;
}

const TlAsFound *
tl_picture_report_as_found (const TlPictureReport *self)
{
  return self->as_found;
}

const GPtrArray *
tl_picture_report_objections (const TlPictureReport *self)
{
  return self->objections;
}

void
tl_picture_report_paint (const TlPictureReport *self, cairo_t *cr, guint page)
{
  g_return_if_fail (self != NULL && cr != NULL && page < self->n_pages);

  cairo_save (cr);
  tl_pen_begin (cr, "Sect");
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  tl_picture_report_frame (self, cr, page);
  for (guint i = 0; i < self->blocks->len; i++)
    {
      const TlReportBlock *block = &g_array_index (self->blocks, TlReportBlock, i);

      if (block->page != page)
        continue;
      cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
      tl_picture_report_block (self, cr, block, block->y);
    }
  tl_pen_end (cr, "Sect");
  cairo_restore (cr);
}

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
set_metadata (const TlPictureReport *self, cairo_surface_t *surface)
{
  g_autofree char *time =
      g_strconcat (self->date != NULL ? self->date : "2020-01-01", "T00:00:00Z", NULL);
  g_autofree char *name = tl_pen_shorten (self->joint->name, 160);
  g_autofree char *title =
      g_strdup_printf (tl_language_text (self->language, TL_N_ ("Inspection report: %s")), name);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, self->inspection->author);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Tinlap " TL_VERSION);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, time);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, time);
}

gboolean
tl_picture_report_save_pdf (const TlPictureReport *self, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (
      append_bytes, bytes, self->width / TL_POINT_MM, self->height / TL_POINT_MM);
  cairo_t       *cr = cairo_create (surface);
  cairo_status_t status;

  set_metadata (self, surface);
  cairo_scale (cr, 1.0 / TL_POINT_MM, 1.0 / TL_POINT_MM);
  tl_pen_begin (cr, "Document");
  for (guint page = 0; page < self->n_pages; page++)
    {
      tl_picture_report_paint (self, cr, page);
      if (page + 1 < self->n_pages)
        cairo_show_page (cr);
    }
  tl_pen_end (cr, "Document");
  cairo_show_page (cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    return tl_file_save (path, (const char *) bytes->data, bytes->len, error);
  g_set_error (error, TL_ERROR, TL_ERROR_FILE,
               tl_language_text (self->language, TL_N_ ("%s was not written: %s.")), path,
               cairo_status_to_string (status));
  return FALSE;
}
