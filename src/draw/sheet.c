/* sheet.c: the step sheet on paper: its pages, and its PDF.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

#include "base/file.h"

#include <cairo-pdf.h>
#include <string.h>

#define MOST_WORDS 400 /* letters of one sentence about the drawing */

static const struct
{
  double width, height;
} papers[] = {
  [TL_PAPER_A4] = { 210.0, 297.0 },
  [TL_PAPER_LETTER] = { 215.9, 279.4 },
};

static TlDrawing *
drawing_new (const TlVerdict *verdict, const TlLanguage *language)
{
  TlDrawingOptions options;

  tl_drawing_options_init (&options);
  options.width = TL_SHEET_WIDTH;
  options.height = TL_SHEET_DRAWING;
  options.unit = 1.0;
  options.paper = TRUE;
  options.show_section = options.show_end_view = options.show_numbers = TRUE;
  options.show_dimensions = options.show_legend = options.show_scale_bar = TRUE;
  options.show_contacts = FALSE;
  options.show_frame = FALSE;
  return tl_drawing_new (verdict, &options, language);
}

static GPtrArray *
drawing_words (const TlVerdict *verdict, const TlLanguage *language)
{
  g_autofree char *text = tl_drawing_describe (verdict, language);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; lines[i] != NULL; i++)
    if (*g_strstrip (lines[i]) != '\0')
      g_ptr_array_add (words, tl_pen_shorten (lines[i], MOST_WORDS));
  return words;
}

TlSheet *
tl_sheet_new (const TlVerdict *verdict, TlPaper paper, const char *date, const TlLanguage *language)
{
  TlSheet *self;

  g_return_val_if_fail (verdict != NULL && language != NULL, NULL);
  g_return_val_if_fail ((guint) paper < G_N_ELEMENTS (papers), NULL);

  self = g_new0 (TlSheet, 1);
  self->verdict = tl_verdict_ref (verdict);
  self->palette = tl_palette_get (TL_SCHEME_ONE_INK);
  self->language = tl_language_ref (language);
  self->steps = tl_steps_new (verdict, date, language);
  self->drawing = drawing_new (verdict, language);
  self->box = tl_box_layout_new (verdict->assembly);
  self->words = drawing_words (verdict, language);
  self->date = g_strdup (date);
  self->width = papers[paper].width;
  self->height = papers[paper].height;
  self->blocks = g_array_new (FALSE, FALSE, sizeof (TlBlock));
  tl_sheet_lay_out (self);
  return self;
}

void
tl_sheet_free (TlSheet *self)
{
  if (self == NULL)
    return;
  tl_drawing_free (self->drawing);
  tl_box_layout_free (self->box);
  tl_steps_free (self->steps);
  g_ptr_array_unref (self->words);
  g_array_unref (self->blocks);
  tl_language_unref (self->language);
  tl_verdict_unref (self->verdict);
  g_free (self->date);
  g_free (self);
}

guint
tl_sheet_pages (const TlSheet *self)
{
  return self->n_pages;
}

void
tl_sheet_size_mm (const TlSheet *self, double *width, double *height)
{
  *width = self->width;
  *height = self->height;
}

void
tl_paper_size_mm (TlPaper paper, double *width, double *height)
{
  g_return_if_fail ((guint) paper < G_N_ELEMENTS (papers));

  *width = papers[paper].width;
  *height = papers[paper].height;
}

const TlStepSheet *
tl_sheet_steps (const TlSheet *self)
{
  return self->steps;
}

void
tl_sheet_paint (const TlSheet *self, cairo_t *cr, guint page)
{
  g_return_if_fail (self != NULL && cr != NULL);
  g_return_if_fail (page < self->n_pages);

  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  tl_pen_begin (cr, "Sect");
  tl_sheet_paint_frame (self, cr, page);
  for (guint i = 0; i < self->blocks->len; i++)
    {
      const TlBlock *block = &g_array_index (self->blocks, TlBlock, i);

      if (block->page == page)
        block->draw (self, cr, block, block->y);
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
set_metadata (const TlSheet *self, cairo_surface_t *surface)
{
  g_autofree char *time =
      g_strconcat (self->date != NULL ? self->date : "2020-01-01", "T00:00:00Z", NULL);
  g_autofree char *title = tl_pen_shorten (self->steps->name, 200);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, self->steps->subtitle);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Tinlap " TL_VERSION);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, time);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, time);
}

gboolean
tl_sheet_save_pdf (const TlSheet *self, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t   status;
  cairo_t         *cr;

  g_return_val_if_fail (self != NULL && path != NULL, FALSE);

  surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, self->width / TL_POINT_MM,
                                                 self->height / TL_POINT_MM);
  set_metadata (self, surface);
  cr = cairo_create (surface);
  cairo_scale (cr, 1.0 / TL_POINT_MM, 1.0 / TL_POINT_MM);
  tl_pen_begin (cr, "Document");
  for (guint page = 0; page < self->n_pages; page++)
    {
      tl_sheet_paint (self, cr, page);
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
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   tl_language_text (self->language, TL_N_ ("%s was not written: %s.")), path,
                   cairo_status_to_string (status));
      return FALSE;
    }
  return tl_file_save (path, (const char *) bytes->data, bytes->len, error);
}
