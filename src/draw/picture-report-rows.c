/* picture-report-rows.c: the lines that every part of a report is made of.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-report-private.h"

#include "draw/sheet-private.h"

#define MOST_LETTERS 1200 /* of one field: paper has an end */

const char *
tl_report_text (const TlPictureReport *self, const char *msgid)
{
  return tl_language_text (self->language, msgid);
}

TlReportBlock *
tl_report_add (TlPictureReport *self, TlReportKind kind, const char *first)
{
  TlReportBlock block = { .kind = kind, .grade = -1, .n = 1 };

  block.cells[0] = tl_pen_shorten (first, MOST_LETTERS);
  g_array_append_val (self->blocks, block);
  return &g_array_index (self->blocks, TlReportBlock, self->blocks->len - 1);
}

TlReportBlock *
tl_report_add_heading (TlPictureReport *self, const char *msgid)
{
  return tl_report_add (self, TL_REPORT_HEADING, tl_report_text (self, msgid));
}

TlReportBlock *
tl_report_add_first (TlPictureReport *self, TlReportKind kind, const char *first)
{
  TlReportBlock *block = tl_report_add (self, kind, first);
  guint          n = self->blocks->len;

  block->keep =
      n > 1 && g_array_index (self->blocks, TlReportBlock, n - 2).kind == TL_REPORT_HEADING;
  return block;
}

void
tl_report_add_pair (TlPictureReport *self, const char *label, const char *value)
{
  TlReportBlock *block = tl_report_add_first (self, TL_REPORT_PAIR, tl_report_text (self, label));

  block->cells[1] = tl_pen_shorten (
      *value != '\0' ? value : tl_report_text (self, TL_N_ ("not stated")), MOST_LETTERS);
  block->n = 2;
}

TlReportBlock *
tl_report_add_row (TlPictureReport *self, TlReportKind kind, const double *widths,
                   const char *const *cells)
{
  TlReportBlock *block = tl_report_add_first (self, kind, cells[0]);
  guint          n = self->blocks->len;

  block->n = 0;
  for (guint i = 0; widths[i] > 0.0; i++)
    {
      if (i > 0)
        block->cells[i] = tl_pen_shorten (cells[i], MOST_LETTERS);
      block->widths[i] = widths[i];
      block->n++;
    }
  block->keep =
      block->keep
      || (n > 1 && g_array_index (self->blocks, TlReportBlock, n - 2).kind == TL_REPORT_HEAD_ROW);
  return block;
}

void
tl_report_add_head (TlPictureReport *self, const double *widths, const char *const *msgids)
{
  const char *cells[TL_REPORT_MOST_CELLS];

  for (guint i = 0; widths[i] > 0.0; i++)
    cells[i] = tl_report_text (self, msgids[i]);
  tl_report_add_row (self, TL_REPORT_HEAD_ROW, widths, cells);
}
