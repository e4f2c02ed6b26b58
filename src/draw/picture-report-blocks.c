/* picture-report-blocks.c: one block of the report, measured or drawn by the same function.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-report-private.h"
#include "draw/sheet-private.h"

#include <string.h>

#define HEAD 16.0
#define FOOT 10.0
#define PICTURE_HEIGHT 98.0
#define LABEL_WIDTH 42.0
#define CELL_GAP 2.0
#define MARK 5.0

double
tl_picture_report_top (const TlPictureReport *self)
{
  return TL_SHEET_TOP + HEAD;
}

double
tl_picture_report_bottom (const TlPictureReport *self)
{
  return self->height - TL_SHEET_BOTTOM - FOOT;
}

void
tl_picture_report_frame (const TlPictureReport *self, cairo_t *cr, guint page)
{
  const double x = TL_SHEET_LEFT, right = TL_SHEET_LEFT + TL_SHEET_WIDTH,
               foot = self->height - TL_SHEET_BOTTOM;
  g_autofree char *hash = g_strndup (tl_inspections_last_link (self->inspections), 16);
  g_autofree char *pages =
      g_strdup_printf (tl_report_text (self, TL_N_ ("page %u of %u")), page + 1, self->n_pages);
  g_autofree char *number =
      g_strdup_printf (tl_report_text (self, TL_N_ ("Report %s, revision %u")),
                       *self->inspection->number != '\0' ? self->inspection->number : "–",
                       self->inspection->revision);
  g_autofree char *chain =
      g_strdup_printf (tl_report_text (self, TL_N_ ("chain of entries up to %s…")), hash);

  tl_pen_begin (cr, page == 0 ? "H1" : "P");
  tl_pen_fitted (cr, tl_report_text (self, TL_N_ ("Inspection of a joint")), x, TL_SHEET_TOP + 5.0,
                 110.0, TL_SIZE_NAME, TRUE);
  tl_pen_end (cr, page == 0 ? "H1" : "P");
  tl_pen_begin (cr, "P");
  tl_pen_text (cr, number, right, TL_SHEET_TOP + 5.0, TL_SIZE_TABLE, TRUE, 1.0);
  tl_pen_fitted (cr, self->joint->name, x, TL_SHEET_TOP + 10.0, 120.0, TL_SIZE_TABLE, FALSE);
  tl_pen_text (cr, pages, right, TL_SHEET_TOP + 10.0, TL_SIZE_TABLE, FALSE, 1.0);
  tl_pen_line (cr, x, TL_SHEET_TOP + 12.5, right, TL_SHEET_TOP + 12.5, 0.5);
  tl_pen_line (cr, x, foot - 6.5, right, foot - 6.5, 0.35);
  tl_pen_fitted (
      cr,
      tl_report_text (self,
                      TL_N_ ("This joint only. The local code and a licensed inspection decide.")),
      x, foot - 2.6, 120.0, TL_SIZE_LABEL, FALSE);
  tl_pen_text (cr, chain, right, foot - 2.6, TL_SIZE_LABEL, FALSE, 1.0);
  tl_pen_end (cr, "P");
}

static double
paragraph (cairo_t *cr, const char *words, double x, double y, double width, double size,
           gboolean bold)
{
  double height = tl_pen_paragraph (NULL, words, 0.0, 0.0, width, size, bold);

  if (cr != NULL)
    {
      tl_pen_begin (cr, "P");
      tl_pen_paragraph (cr, words, x, y, width, size, bold);
      tl_pen_end (cr, "P");
    }
  return height;
}

static double
heading (cairo_t *cr, const TlReportBlock *block, double y)
{
  tl_pen_begin (cr, "H2");
  tl_pen_text (cr, block->cells[0], TL_SHEET_LEFT, y + 7.0, TL_SIZE_HEAD, TRUE, 0.0);
  tl_pen_end (cr, "H2");
  tl_pen_line (cr, TL_SHEET_LEFT, y + 8.8, TL_SHEET_LEFT + TL_SHEET_WIDTH, y + 8.8, 0.35);
  return 11.0;
}

static double
pair (cairo_t *cr, const TlReportBlock *block, double y)
{
  double left = paragraph (cr, block->cells[0], TL_SHEET_LEFT, y, LABEL_WIDTH - CELL_GAP,
                           TL_SIZE_TABLE, FALSE);
  double right = paragraph (cr, block->cells[1], TL_SHEET_LEFT + LABEL_WIDTH, y,
                            TL_SHEET_WIDTH - LABEL_WIDTH, TL_SIZE_TABLE, FALSE);

  return MAX (left, right) + 1.2;
}

static double
row (const TlPictureReport *self, cairo_t *cr, const TlReportBlock *block, double y)
{
  double   x = TL_SHEET_LEFT + (block->grade >= 0 ? MARK : 0.0), most = 0.0;
  gboolean is_head = block->kind == TL_REPORT_HEAD_ROW;

  if (cr != NULL && block->grade >= 0)
    tl_paint_mark (cr, self->palette, tl_picture_grade_mark ((TlGrade) block->grade),
                   TL_SHEET_LEFT + 2.0, y + 2.0, 3.2);
  tl_pen_begin (cr, "TR");
  for (guint i = 0; i < block->n; i++)
    {
      double width = block->widths[i] - (i == 0 && block->grade >= 0 ? MARK : 0.0);

      tl_pen_begin (cr, is_head ? "TH" : "TD");
      most = MAX (most, tl_pen_paragraph (NULL, block->cells[i], 0.0, 0.0, width - CELL_GAP,
                                          TL_SIZE_TABLE, is_head));
      if (cr != NULL)
        tl_pen_paragraph (cr, block->cells[i], x, y, width - CELL_GAP, TL_SIZE_TABLE, is_head);
      tl_pen_end (cr, is_head ? "TH" : "TD");
      x += width;
    }
  tl_pen_end (cr, "TR");
  tl_pen_line (cr, TL_SHEET_LEFT, y + most + 0.8, TL_SHEET_LEFT + TL_SHEET_WIDTH, y + most + 0.8,
               is_head ? 0.35 : 0.12);
  return most + 2.0;
}

static double
picture (const TlPictureReport *self, cairo_t *cr, const TlReportBlock *block, double y)
{
  const TlPhoto *photo = g_ptr_array_index (self->inspections->photos, block->index);
  TlPicturePaint options = {
    .unit = 1.0, .show_marks = TRUE, .show_measures = TRUE, .show_scale = TRUE, .is_copy = TRUE
  };
  double height;
  guint  w, h;

  tl_photo_size (photo, &w, &h);
  options.view = tl_picture_view_fit (photo, TL_SHEET_WIDTH, PICTURE_HEIGHT);
  height = options.view.scale * h;
  if (cr == NULL)
    return height + 3.0;
  options.view.x += TL_SHEET_LEFT;
  options.view.y = y;
  tl_pen_begin (cr, "Figure");
  tl_picture_paint (cr, self->palette, g_ptr_array_index (self->surfaces, block->index),
                    self->inspections, self->inspection, photo, &options, self->language);
  tl_pen_end (cr, "Figure");
  return height + 3.0;
}

/* A title block of two cells: the only thing in the report with ink rules. */
static double
verdicts (const TlPictureReport *self, cairo_t *cr, const TlReportBlock *block, double y)
{
  const double half = TL_SHEET_WIDTH / 2.0;

  if (cr == NULL)
    return 16.0;
  tl_pen_frame (cr, TL_SHEET_LEFT, y, TL_SHEET_WIDTH, 13.0, 0.5);
  tl_pen_line (cr, TL_SHEET_LEFT + half, y, TL_SHEET_LEFT + half, y + 13.0, 0.35);
  tl_pen_begin (cr, "P");
  for (guint i = 0; i < 2; i++)
    {
      double x = TL_SHEET_LEFT + i * half + 3.0;

      tl_pen_text (cr, tl_report_text (self, i == 0 ? TL_N_ ("as designed") : TL_N_ ("as found")),
                   x, y + 4.6, TL_SIZE_LABEL, FALSE, 0.0);
      tl_pen_fitted (cr, block->cells[i], x, y + 10.2, half - 6.0, TL_SIZE_HEAD, TRUE);
    }
  tl_pen_end (cr, "P");
  return 16.0;
}

static double
signature (const TlPictureReport *self, cairo_t *cr, double y)
{
  static const char *const labels[] = { TL_N_ ("Place, date"), TL_N_ ("Signature (by hand)"),
                                        TL_N_ ("Name, licence") };
  const double             third = TL_SHEET_WIDTH / 3.0;

  if (cr == NULL)
    return 26.0;
  for (guint i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      double x = TL_SHEET_LEFT + i * third;

      tl_pen_line (cr, x, y + 17.0, x + third - 5.0, y + 17.0, 0.35);
      tl_pen_begin (cr, "P");
      tl_pen_text (cr, tl_report_text (self, labels[i]), x, y + 21.0, TL_SIZE_LABEL, FALSE, 0.0);
      tl_pen_end (cr, "P");
    }
  return 26.0;
}

static double
caution (cairo_t *cr, const TlReportBlock *block, double y)
{
  double height = paragraph (cr, block->cells[0], TL_SHEET_LEFT + 3.0, y + 2.4,
                             TL_SHEET_WIDTH - 6.0, TL_SIZE_TEXT, TRUE)
                  + 5.0;

  tl_pen_frame (cr, TL_SHEET_LEFT, y, TL_SHEET_WIDTH, height, 0.7);
  return height + 2.5;
}

double
tl_picture_report_block (const TlPictureReport *self, cairo_t *cr, const TlReportBlock *block,
                         double y)
{
  switch (block->kind)
    {
    case TL_REPORT_HEADING:
      return heading (cr, block, y);
    case TL_REPORT_TEXT:
      return paragraph (cr, block->cells[0], TL_SHEET_LEFT, y, TL_SHEET_WIDTH, TL_SIZE_TABLE, FALSE)
             + 1.6;
    case TL_REPORT_PAIR:
      return pair (cr, block, y);
    case TL_REPORT_ROW:
    case TL_REPORT_HEAD_ROW:
      return row (self, cr, block, y);
    case TL_REPORT_PICTURE:
      return picture (self, cr, block, y);
    case TL_REPORT_VERDICTS:
      return verdicts (self, cr, block, y);
    case TL_REPORT_SIGNATURE:
      return signature (self, cr, y);
    case TL_REPORT_CAUTION:
      return caution (cr, block, y);
    default:
      g_assert_not_reached ();
    }
}
