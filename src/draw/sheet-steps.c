/* sheet-steps.c: blocks of the step sheet for the work itself and after it: steps, holds, record, upkeep, label.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

#include <math.h>

#define GAP 4.0
#define NUMBER_COLUMN 15.0
#define TEXT_COLUMN 91.0
#define FIGURES_AT 113.0 /* from the left edge of the column */
#define VALUES_AT 138.0
#define VALUES_NEAR 10.0 /* from the labels */
#define HOLD_TAB 13.0
#define RECORD_COLUMNS 3
#define RECORD_ROW 12.0
#define LABEL_WIDTH 84.0
#define LABEL_HEIGHT 38.0

double
tl_block_steps_head (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("Figures")), TL_SHEET_LEFT + FIGURES_AT, y + 3.6,
               TL_SIZE_LABEL, FALSE, 0.0);
  return tl_pen_heading (self, cr, TL_N_ ("Steps"), TL_SHEET_LEFT, y, TL_SHEET_WIDTH);
}

/* Where the values stand: near where the labels are only numbers in brackets. */
static double
values_at (const TlStep *step)
{
  for (guint i = 0; i < step->figures->len; i++)
    if (*((TlLine *) g_ptr_array_index (step->figures, i))->label != '(')
      return VALUES_AT;
  return FIGURES_AT + VALUES_NEAR;
}

static double
figures (cairo_t *cr, const TlStep *step, double y)
{
  double x = TL_SHEET_LEFT, at = y, values = values_at (step);

  for (guint i = 0; i < step->figures->len; i++)
    {
      const TlLine *line = g_ptr_array_index (step->figures, i);
      double        label, value;

      tl_pen_begin (cr, "P");
      label = tl_pen_paragraph (cr, line->label, x + FIGURES_AT, at + 0.35,
                                values - FIGURES_AT - 1.5, TL_SIZE_LABEL, FALSE);
      value = tl_pen_paragraph (cr, line->value, x + values, at, TL_SHEET_WIDTH - values - 2.0,
                                TL_SIZE_TABLE, TRUE);
      tl_pen_end (cr, "P");
      at += MAX (label + 0.35, value) + 0.5;
    }
  return at - y;
}

static double
plain_step (cairo_t *cr, const TlStep *step, double y)
{
  g_autofree char *number = g_strdup_printf ("%u", step->number);
  double           x = TL_SHEET_LEFT, text, beside, height;

  tl_pen_tick_box (cr, x, y + 1.6);
  tl_pen_begin (cr, "LI");
  tl_pen_text (cr, number, x + 7.9, y + 4.8, 4.0, TRUE, 0.5);
  text = tl_pen_paragraph (cr, step->text, x + NUMBER_COLUMN, y + 1.3, TEXT_COLUMN, TL_SIZE_TEXT,
                           FALSE);
  beside = figures (cr, step, y + 1.4);
  height = MAX (7.4, MAX (text, beside) + 2.8);
  tl_pen_end (cr, "LI");
  tl_pen_line (cr, x, y + height, x + TL_SHEET_WIDTH, y + height, 0.2);
  return height;
}

static void
hold_tab (const TlSheet *self, cairo_t *cr, const TlStep *step, double y, double height)
{
  const char *word = tl_sheet_text (self, TL_N_ ("HOLD"));
  double      middle = TL_SHEET_LEFT + HOLD_TAB / 2.0;
  double      size = MIN (TL_SIZE_LABEL, (HOLD_TAB - 2.0) / tl_paint_text_width (word, 1.0, TRUE));

  if (cr == NULL)
    return;
  cairo_rectangle (cr, TL_SHEET_LEFT, y, HOLD_TAB, height);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  tl_paint_text (cr, word, middle, y + height / 2.0 - 1.0, size, TRUE, 0.5);
  tl_paint_text (cr, step->letter, middle, y + height / 2.0 + 4.2, TL_SIZE_NAME, TRUE, 0.5);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
}

static double
hold (const TlSheet *self, cairo_t *cr, const TlStep *step, double y)
{
  double top = y + 1.0, x = TL_SHEET_LEFT, text_x = x + HOLD_TAB + 3.0, width = TEXT_COLUMN - 2.0;
  g_autofree char *if_not =
      g_strconcat (tl_sheet_text (self, TL_N_ ("If not:")), " ", step->if_not, NULL);
  double figures_height = figures (NULL, step, 0.0), text, height;

  text = tl_pen_paragraph (NULL, step->text, 0.0, 0.0, width, TL_SIZE_TEXT, TRUE) + 0.6
         + tl_pen_paragraph (NULL, if_not, 0.0, 0.0, width, TL_SIZE_TABLE, FALSE);
  height = MAX (14.0, MAX (text + 3.0, figures_height + 7.4));
  tl_pen_begin (cr, "LI");
  hold_tab (self, cr, step, top, height);
  if (cr != NULL)
    {
      text = tl_pen_paragraph (cr, step->text, text_x, top + 1.5, width, TL_SIZE_TEXT, TRUE);
      tl_pen_paragraph (cr, if_not, text_x, top + 2.1 + text, width, TL_SIZE_TABLE, FALSE);
      figures (cr, step, top + 1.6);
      tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("measured")), x + FIGURES_AT, top + height - 2.2,
                   TL_SIZE_LABEL, FALSE, 0.0);
    }
  tl_pen_end (cr, "LI");
  tl_pen_line (cr, x + VALUES_AT, top + height - 2.0, x + TL_SHEET_WIDTH - 3.0, top + height - 2.0,
               0.2);
  tl_pen_frame (cr, x, top, TL_SHEET_WIDTH, height, 0.5);
  return height + 2.0;
}

double
tl_block_step (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  const TlStep *step = g_ptr_array_index (self->steps->steps, block->first);

  return step->is_hold ? hold (self, cr, step, y) : plain_step (cr, step, y);
}

double
tl_block_record (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  const GPtrArray *captions = self->steps->record;
  guint            rows = (captions->len + RECORD_COLUMNS - 1) / RECORD_COLUMNS;
  double           column = TL_SHEET_WIDTH / RECORD_COLUMNS, x = TL_SHEET_LEFT;
  double top = y + 3.0 + tl_pen_heading (self, cr, TL_N_ ("Record"), x, y + 3.0, 0.0) - 0.8;

  tl_pen_frame (cr, x, top, TL_SHEET_WIDTH, rows * RECORD_ROW, 0.5);
  for (guint i = 1; i < rows; i++)
    tl_pen_line (cr, x, top + i * RECORD_ROW, x + TL_SHEET_WIDTH, top + i * RECORD_ROW, 0.2);
  for (guint i = 1; i < RECORD_COLUMNS; i++)
    tl_pen_line (cr, x + i * column, top, x + i * column, top + rows * RECORD_ROW, 0.2);
  tl_pen_begin (cr, "Table");
  for (guint i = 0; i < captions->len; i++)
    {
      if (i % RECORD_COLUMNS == 0)
        tl_pen_begin (cr, "TR");
      tl_pen_begin (cr, "TD");
      tl_pen_fitted (cr, g_ptr_array_index (captions, i), x + (i % RECORD_COLUMNS) * column + 2.0,
                     top + (i / RECORD_COLUMNS) * RECORD_ROW + 3.6, column - 4.0, TL_SIZE_LABEL,
                     FALSE);
      tl_pen_end (cr, "TD");
      if (i % RECORD_COLUMNS == RECORD_COLUMNS - 1 || i + 1 == captions->len)
        tl_pen_end (cr, "TR");
    }
  tl_pen_end (cr, "Table");
  return top - y + rows * RECORD_ROW + GAP;
}

static const char *
label_line (const TlSheet *self, guint index)
{
  return index < self->steps->label->len ? g_ptr_array_index (self->steps->label, index) : "";
}

/* 84 x 38 mm along the dashes. */
static void
paint_label (const TlSheet *self, cairo_t *cr, double x, double y)
{
  static const double dashes[] = { 2.0, 1.2 };
  double              inner = x + 3.0, width = LABEL_WIDTH - 6.0, text = inner + 3.0;

  if (cr == NULL)
    return;
  tl_pen_begin (cr, "P");
  tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("Cut out for the box cover")), x + 6.0, y - 1.2,
               TL_SIZE_LABEL, FALSE, 0.0);
  tl_pen_end (cr, "P");
  cairo_save (cr);
  cairo_set_dash (cr, dashes, 2, 0.0);
  tl_pen_frame (cr, x, y, LABEL_WIDTH, LABEL_HEIGHT, 0.25);
  cairo_restore (cr);
  tl_sign_scissors (cr, x - 2.2, y, 4.6);
  tl_pen_frame (cr, inner, y + 3.0, width, LABEL_HEIGHT - 6.0, 0.6);
  tl_pen_line (cr, inner, y + 11.0, inner + width, y + 11.0, 0.35);
  tl_pen_line (cr, inner, y + 22.6, inner + width, y + 22.6, 0.35);
  tl_pen_begin (cr, "P");
  tl_pen_fitted (cr, label_line (self, 0), text, y + 8.4, width - 6.0, TL_SIZE_HEAD, TRUE);
  tl_pen_fitted (cr, label_line (self, 1), text, y + 15.4, width - 6.0, TL_SIZE_TABLE, FALSE);
  tl_pen_fitted (cr, label_line (self, 2), text, y + 20.4, width - 6.0, TL_SIZE_TABLE, FALSE);
  tl_pen_fitted (cr, label_line (self, 3), text, y + 27.2, width / 2.0 - 4.0, TL_SIZE_TABLE, FALSE);
  tl_pen_fitted (cr, label_line (self, 4), inner + width / 2.0, y + 27.2, width / 2.0 - 2.0,
                 TL_SIZE_TABLE, FALSE);
  tl_pen_fitted (cr, label_line (self, 5), text, y + 32.4, width - 6.0, TL_SIZE_TABLE, TRUE);
  tl_pen_end (cr, "P");
}

double
tl_block_upkeep (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  double x = TL_SHEET_LEFT, at = y + 2.0, width = TL_SHEET_WIDTH - LABEL_WIDTH - 8.0;

  at += tl_pen_heading (self, cr, TL_N_ ("Upkeep"), x, at, 0.0) - 0.4;
  tl_pen_begin (cr, "P");
  at += tl_pen_paragraph (cr, self->steps->upkeep, x, at, width, TL_SIZE_TABLE, FALSE) + 2.0;
  tl_pen_end (cr, "P");
  tl_pen_begin (cr, "P");
  tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("Next look")), x, at + 3.2, TL_SIZE_LABEL, FALSE,
               0.0);
  tl_pen_fitted (cr, self->steps->next_look, x + 20.0, at + 3.2, width - 20.0, TL_SIZE_TEXT, TRUE);
  tl_pen_end (cr, "P");
  at += 5.0;
  paint_label (self, cr, x + TL_SHEET_WIDTH - LABEL_WIDTH, y + 6.0);
  return MAX (at - y, 6.0 + LABEL_HEIGHT) + GAP;
}

/* Lines first .. first + count in one box. */
double
tl_block_assumed (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  double x = TL_SHEET_LEFT, at = y + 2.2;

  tl_pen_begin (cr, "H2");
  tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("Assumed, please check")), x + 3.0, at + 3.0,
               TL_SIZE_TEXT, TRUE, 0.0);
  tl_pen_end (cr, "H2");
  at += 5.2;
  tl_pen_begin (cr, "L");
  for (guint i = block->first; i < block->first + block->count; i++)
    {
      g_autofree char *line = tl_pen_shorten (g_ptr_array_index (self->steps->assumed, i), 300);

      tl_pen_begin (cr, "LI");
      at += tl_pen_paragraph (cr, line, x + 3.0, at, TL_SHEET_WIDTH - 6.0, TL_SIZE_TABLE, FALSE)
            + 0.6;
      tl_pen_end (cr, "LI");
    }
  tl_pen_end (cr, "L");
  at += 1.4;
  tl_pen_frame (cr, x, y, TL_SHEET_WIDTH, at - y, 0.25);
  return at - y + GAP;
}
