/* job-sheet.c: a folder of joints on paper.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/job-sheet.h"

#include "draw/sheet-private.h"

#include <cairo-pdf.h>

/* Columns of the register, from its left edge. */
#define NUMBER_X 9.0
#define MARK_X 13.0
#define WORD_X 16.5
#define NAME_X 40.0
#define PLACE_X 124.0
#define HEAD 15.0
#define FOOT 9.0
#define LINE 4.4
#define GAP 1.6

/* The register in the making: a cursor that goes down the page and begins the next one. */
typedef struct
{
  const TlJob      *job;
  const TlLanguage *language;
  const TlPalette  *palette;
  cairo_t          *cr;
  double            height;
  double            y;
  guint             page; /* from 1 */
} Register;

static const char *
text (const Register *self, const char *msgid)
{
  return tl_language_text (self->language, msgid);
}

/* --- pages --- */

static void
paint_page_frame (Register *self)
{
  double           x = TL_SHEET_LEFT, right = TL_SHEET_LEFT + TL_SHEET_WIDTH;
  double           foot = self->height - TL_SHEET_BOTTOM;
  g_autofree char *page = g_strdup_printf ("%u", self->page);

  cairo_set_source_rgb (self->cr, 0.0, 0.0, 0.0);
  tl_pen_begin (self->cr, self->page == 1 ? "H1" : "P");
  tl_pen_fitted (self->cr, text (self, TL_N_ ("Register of joints")), x, TL_SHEET_TOP + 5.0, 120.0,
                 TL_SIZE_NAME, TRUE);
  tl_pen_end (self->cr, self->page == 1 ? "H1" : "P");
  tl_pen_begin (self->cr, "P");
  tl_pen_fitted (self->cr, self->job->folder, x, TL_SHEET_TOP + 10.5, 130.0, TL_SIZE_TABLE, FALSE);
  tl_pen_text (self->cr, self->job->date != NULL ? self->job->date : "", right, TL_SHEET_TOP + 10.5,
               TL_SIZE_TABLE, FALSE, 1.0);
  tl_pen_text (self->cr, page, right, TL_SHEET_TOP + 5.0, TL_SIZE_TABLE, FALSE, 1.0);
  tl_pen_line (self->cr, x, TL_SHEET_TOP + 13.0, right, TL_SHEET_TOP + 13.0, 0.5);
  tl_pen_line (self->cr, x, foot - 5.0, right, foot - 5.0, 0.35);
  tl_pen_fitted (self->cr,
                 text (self, TL_N_ ("These joints only; the other old joints of the circuits are "
                                    "not judged. The local code and a licensed person have the "
                                    "last word.")),
                 x, foot - 1.2, TL_SHEET_WIDTH, TL_SIZE_LABEL, FALSE);
  tl_pen_end (self->cr, "P");
}

static void
begin_page (Register *self)
{
  self->page++;
  self->y = TL_SHEET_TOP + HEAD + 2.0;
  tl_pen_begin (self->cr, "Sect");
  paint_page_frame (self);
}

static void
end_page (Register *self)
{
  tl_pen_end (self->cr, "Sect");
  cairo_show_page (self->cr);
}

/* A new page if @height does not fit on this one. */
static void
need (Register *self, double height)
{
  if (self->y + height <= self->height - TL_SHEET_BOTTOM - FOOT)
    return;
  end_page (self);
  begin_page (self);
}

static void
heading (Register *self, const char *msgid)
{
  need (self, 16.0);
  self->y += 3.0;
  tl_pen_begin (self->cr, "H2");
  tl_pen_text (self->cr, text (self, msgid), TL_SHEET_LEFT, self->y + 3.6, TL_SIZE_HEAD, TRUE, 0.0);
  tl_pen_end (self->cr, "H2");
  tl_pen_line (self->cr, TL_SHEET_LEFT, self->y + 5.6, TL_SHEET_LEFT + TL_SHEET_WIDTH,
               self->y + 5.6, 0.35);
  self->y += 8.0;
}

static void
paragraph (Register *self, const char *words)
{
  double height = tl_pen_paragraph (NULL, words, 0.0, 0.0, TL_SHEET_WIDTH, TL_SIZE_TABLE, FALSE);

  need (self, height);
  tl_pen_begin (self->cr, "P");
  tl_pen_paragraph (self->cr, words, TL_SHEET_LEFT, self->y, TL_SHEET_WIDTH, TL_SIZE_TABLE, FALSE);
  tl_pen_end (self->cr, "P");
  self->y += height + GAP;
}

/* A line of three cells: a short one, a long one, one at the right edge. */
static void
cells (Register *self, const char *left, const char *middle, const char *right)
{
  double x = TL_SHEET_LEFT, edge = TL_SHEET_LEFT + TL_SHEET_WIDTH;

  need (self, LINE);
  tl_pen_begin (self->cr, "P");
  tl_pen_fitted (self->cr, left, x, self->y + 3.2, 38.0, TL_SIZE_TABLE, FALSE);
  tl_pen_fitted (self->cr, middle, x + NAME_X, self->y + 3.2, 108.0, TL_SIZE_TABLE, FALSE);
  tl_pen_text (self->cr, right, edge, self->y + 3.2, TL_SIZE_TABLE, FALSE, 1.0);
  tl_pen_end (self->cr, "P");
  self->y += LINE;
}

/* --- the register --- */

/* Name of the place in the PDF where a joint's sheet begins; (transfer full) */
static char *
destination (const TlJobRow *row)
{
  return g_strdup_printf ("joint-%u", row->number);
}

static TlMark
mark_of (const TlJobRow *row)
{
  static const TlMark marks[] = {
    [TL_SEVERITY_SOUND] = TL_MARK_SOUND,
    [TL_SEVERITY_WATCH] = TL_MARK_WATCH,
    [TL_SEVERITY_CHANGE] = TL_MARK_CHANGE,
    [TL_SEVERITY_UNSAFE] = TL_MARK_UNSAFE,
  };

  if (row->joint == NULL)
    return TL_MARK_REFUSED;
  return row->has_severity ? marks[row->severity] : TL_MARK_UNFINISHED;
}

static void
paint_name (Register *self, const TlJobRow *row, double x, double baseline)
{
  g_autofree char *target = destination (row);
  g_autofree char *link = g_strdup_printf ("dest='%s'", target);

  if (row->joint != NULL)
    cairo_tag_begin (self->cr, CAIRO_TAG_LINK, link);
  tl_pen_fitted (self->cr, tl_job_row_name (row), x + NAME_X, baseline, PLACE_X - NAME_X - 3.0,
                 TL_SIZE_TABLE, TRUE);
  if (row->joint != NULL)
    cairo_tag_end (self->cr, CAIRO_TAG_LINK);
}

static void
paint_row (Register *self, const TlJobRow *row)
{
  const char      *words = row->joint != NULL ? row->reason : row->message;
  double           x = TL_SHEET_LEFT, width = TL_SHEET_WIDTH - NAME_X;
  g_autofree char *number = g_strdup_printf ("%u", row->number);
  g_autofree char *shown = tl_pen_shorten (words, 400);
  double           more =
      *shown != '\0' ? tl_pen_paragraph (NULL, shown, 0.0, 0.0, width, TL_SIZE_TABLE, FALSE) : 0.0;

  need (self, 2.0 * LINE + more + GAP);
  tl_pen_begin (self->cr, "P");
  tl_pen_text (self->cr, number, x + NUMBER_X, self->y + 3.2, TL_SIZE_TABLE, FALSE, 1.0);
  tl_paint_mark (self->cr, self->palette, mark_of (row), x + MARK_X, self->y + 2.2, 3.0);
  tl_pen_fitted (self->cr, text (self, tl_job_row_word (row)), x + WORD_X, self->y + 3.2,
                 NAME_X - WORD_X - 1.0, TL_SIZE_TABLE, TRUE);
  paint_name (self, row, x, self->y + 3.2);
  tl_pen_fitted (self->cr, row->joint != NULL ? row->steps->place : "", x + PLACE_X, self->y + 3.2,
                 TL_SHEET_WIDTH - PLACE_X, TL_SIZE_TABLE, FALSE);
  tl_pen_fitted (self->cr, row->file, x + NAME_X, self->y + LINE + 3.2, width, TL_SIZE_LABEL,
                 FALSE);
  if (more > 0.0)
    tl_pen_paragraph (self->cr, shown, x + NAME_X, self->y + 2.0 * LINE, width, TL_SIZE_TABLE,
                      FALSE);
  tl_pen_end (self->cr, "P");
  self->y += 2.0 * LINE + more + GAP;
  tl_pen_line (self->cr, x, self->y - GAP / 2.0, x + TL_SHEET_WIDTH, self->y - GAP / 2.0, 0.15);
}

static void
paint_part (Register *self, const TlEffortPart *part)
{
  g_autofree char *quantity = tl_effort_quantity (part, self->language);
  g_autofree char *name = g_strdup_printf (
      "%s%s%s%s%s%s", part->name, *part->size != '\0' ? ", " : "", part->size,
      part->is_short ? " (" : "", part->is_short ? text (self, TL_N_ ("more than there is")) : "",
      part->is_short ? ")" : "");
  g_autofree char *price = NULL;
  g_autofree char *figure = NULL;

  if (part->has_price)
    {
      figure = tl_language_number (self->language, part->price, 2);
      price = g_strdup_printf ("%s %s", figure, part->currency);
    }
  if (part->is_there)
    price = g_strdup (text (self, TL_N_ ("there already")));
  cells (self, quantity, name, price != NULL ? price : "");
}

static void
paint_effort (Register *self)
{
  const TlEffort  *effort = self->job->effort;
  g_autofree char *minutes = tl_effort_minutes_text (effort, self->language);
  g_autofree char *price = tl_effort_price_text (effort, self->language);

  heading (self, TL_N_ ("Parts"));
  for (guint i = 0; i < effort->parts->len; i++)
    paint_part (self, g_ptr_array_index (effort->parts, i));
  if (*price != '\0')
    cells (self, text (self, TL_N_ ("Price of the parts")), price, "");
  if (effort->tools->len > 0)
    heading (self, TL_N_ ("Tools"));
  for (guint i = 0; i < effort->tools->len; i++)
    cells (self, "", ((TlEffortTool *) g_ptr_array_index (effort->tools, i))->name, "");
  if (*minutes != '\0')
    cells (self, text (self, TL_N_ ("Work")), minutes, "");
}

static void
paint_looks (Register *self)
{
  heading (self, TL_N_ ("Look again"));
  for (guint i = 0; i < self->job->rows->len; i++)
    {
      const TlJobRow  *row = g_ptr_array_index (self->job->rows, i);
      g_autofree char *day = NULL;

      if (!tl_job_row_holds (row))
        continue;
      day = row->has_look
                ? g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (&row->look),
                                   (int) g_date_get_month (&row->look), g_date_get_day (&row->look))
                : g_strdup (row->steps->next_look);
      cells (self, day, row->steps->name, row->is_overdue ? text (self, TL_N_ ("overdue")) : "");
    }
}

static void
paint_register (Register *self)
{
  g_autofree char *head = tl_job_summary (self->job, self->language);

  begin_page (self);
  paragraph (self, head);
  for (guint i = 0; i < self->job->rows->len; i++)
    paint_row (self, g_ptr_array_index (self->job->rows, i));
  paint_effort (self);
  paint_looks (self);
  end_page (self);
}

/* --- the sheets --- */

static void
paint_sheet (const Register *self, cairo_surface_t *surface, const TlJobRow *row,
             const TlStock *stock, TlPaper paper)
{
  g_autoptr (TlVerdict) verdict = tl_verdict_new (row->joint, stock, TL_VERDICT_FULL);
  g_autoptr (TlSheet) sheet = tl_sheet_new (verdict, paper, row->date, self->language);
  g_autofree char *target = destination (row);
  g_autofree char *name = g_strdup_printf ("name='%s'", target);
  g_autofree char *link = g_strdup_printf ("dest='%s'", target);
  g_autofree char *entry = tl_pen_shorten (tl_job_row_name (row), 120);

  cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, entry, link, 0);
  for (guint page = 0; page < tl_sheet_pages (sheet); page++)
    {
      if (page == 0)
        {
          cairo_tag_begin (self->cr, CAIRO_TAG_DEST, name);
          cairo_tag_end (self->cr, CAIRO_TAG_DEST);
        }
      tl_sheet_paint (sheet, self->cr, page);
      cairo_show_page (self->cr);
    }
}

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
set_metadata (const Register *self, cairo_surface_t *surface)
{
  const char      *day = self->job->date != NULL ? self->job->date : "2020-01-01";
  g_autofree char *time = g_strconcat (day, "T00:00:00Z", NULL);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE,
                                  text (self, TL_N_ ("Register of joints")));
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, self->job->folder);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Tinlap " TL_VERSION);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, time);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, time);
}

GByteArray *
tl_job_sheet_pdf (const TlJob *job, const TlStock *stock, TlPaper paper, const TlLanguage *language,
                  GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  Register         self = { .job = job, .language = language };
  cairo_surface_t *surface;
  cairo_status_t   status;
  double           width;

  g_return_val_if_fail (job != NULL && stock != NULL && language != NULL, NULL);

  tl_paper_size_mm (paper, &width, &self.height);
  surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, width / TL_POINT_MM,
                                                 self.height / TL_POINT_MM);
  set_metadata (&self, surface);
  self.palette = tl_palette_get (TL_SCHEME_ONE_INK);
  self.cr = cairo_create (surface);
  cairo_scale (self.cr, 1.0 / TL_POINT_MM, 1.0 / TL_POINT_MM);
  tl_pen_begin (self.cr, "Document");
  paint_register (&self);
  for (guint i = 0; i < job->rows->len; i++)
    {
      const TlJobRow *row = g_ptr_array_index (job->rows, i);

      if (row->joint != NULL)
        paint_sheet (&self, surface, row, stock, paper);
    }
  tl_pen_end (self.cr, "Document");
  status = cairo_status (self.cr);
  cairo_destroy (self.cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    return g_steal_pointer (&bytes);
  g_set_error (error, TL_ERROR, TL_ERROR_FILE,
               tl_language_text (language, TL_N_ ("The sheets could not be made: %s.")),
               cairo_status_to_string (status));
  return NULL;
}
