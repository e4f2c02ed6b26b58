/* sheet-lists.c: blocks of the step sheet that prepare the work: cautions, parts and tools, the
 * drawings, refusals.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

#include <math.h>

#define GAP 4.0          /* below a block */
#define COLUMN 86.0      /* parts, tools */
#define MOST_LETTERS 300 /* of a person's own text in one row */

double
tl_block_cautions (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  const GPtrArray *lines = self->steps->cautions;
  double           x = TL_SHEET_LEFT, text = x + 20.0, at = y + 3.0;
  double           height, row;

  tl_pen_begin (cr, "H2");
  tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("First, and before any step")), text, at + 3.2,
               TL_SIZE_HEAD, TRUE, 0.0);
  tl_pen_end (cr, "H2");
  at += 5.8;
  tl_pen_begin (cr, "L");
  for (guint i = 0; i < lines->len; i++)
    {
      tl_pen_tick_box (cr, text, at + 0.2);
      tl_pen_begin (cr, "LI");
      row = tl_pen_paragraph (cr, g_ptr_array_index (lines, i), text + 6.0, at,
                              TL_SHEET_WIDTH - 29.0, TL_SIZE_TEXT, FALSE)
            + 0.6;
      at += MAX (5.0, row);
      tl_pen_end (cr, "LI");
    }
  tl_pen_end (cr, "L");
  height = MAX (at + 1.6 - y, 34.0);
  tl_pen_frame (cr, x, y, TL_SHEET_WIDTH, height, 0.7);
  tl_sign_electricity (cr, x + 3.0, y + 3.4, 14.0);
  tl_sign_lock (cr, x + 5.0, y + 18.6, 10.0);
  return height + GAP;
}

static double
part_row (const TlSheet *self, cairo_t *cr, const TlPartLine *part, double x, double y)
{
  g_autofree char *name = tl_pen_shorten (part->name, MOST_LETTERS);
  g_autofree char *size = tl_pen_shorten (part->size, 40);
  double           size_width = tl_paint_text_width (size, TL_SIZE_TABLE, FALSE);
  double           height;

  if (cr != NULL && part->number > 0)
    tl_paint_number (cr, self->palette, part->number, x + 2.4, y + 2.5, 4.2, FALSE);
  tl_pen_begin (cr, "TR");
  tl_pen_begin (cr, "TD");
  height = tl_pen_paragraph (cr, name, x + 7.0, y + 0.7, COLUMN - 9.0 - size_width, TL_SIZE_TABLE,
                             FALSE);
  tl_pen_end (cr, "TD");
  tl_pen_begin (cr, "TD");
  tl_pen_text (cr, size, x + COLUMN, y + 3.5, TL_SIZE_TABLE, FALSE, 1.0);
  tl_pen_end (cr, "TD");
  tl_pen_end (cr, "TR");
  height = MAX (5.0, height + 1.4);
  tl_pen_line (cr, x, y + height, x + COLUMN, y + height, 0.15);
  return height;
}

static double
tool_row (cairo_t *cr, const TlLine *tool, double x, double y)
{
  double value_width = tl_paint_text_width (tool->value, TL_SIZE_TABLE, FALSE);
  double height;

  tl_pen_begin (cr, "TR");
  tl_pen_begin (cr, "TD");
  height = tl_pen_paragraph (cr, tool->label, x, y + 0.7, COLUMN - 3.0 - value_width, TL_SIZE_TABLE,
                             FALSE);
  tl_pen_end (cr, "TD");
  tl_pen_begin (cr, "TD");
  tl_pen_text (cr, tool->value, x + COLUMN, y + 3.5, TL_SIZE_TABLE, FALSE, 1.0);
  tl_pen_end (cr, "TD");
  tl_pen_end (cr, "TR");
  height = MAX (5.0, height + 1.4);
  tl_pen_line (cr, x, y + height, x + COLUMN, y + height, 0.15);
  return height;
}

/* Rows from .. to of a list under its heading; returns the height. */
static double
parts_table (const TlSheet *self, cairo_t *cr, guint from, guint to, double x, double y)
{
  double at = y;

  if (from >= to)
    return 0.0;
  at += tl_pen_heading (self, cr, TL_N_ ("Parts"), x, at, COLUMN);
  tl_pen_begin (cr, "Table");
  for (guint i = from; i < to; i++)
    at += part_row (self, cr, g_ptr_array_index (self->steps->parts, i), x, at);
  tl_pen_end (cr, "Table");
  return at - y;
}

static double
tools_table (const TlSheet *self, cairo_t *cr, guint from, guint to, double x, double y)
{
  double at = y;

  if (from >= to)
    return 0.0;
  at += tl_pen_heading (self, cr, TL_N_ ("Tools"), x, at, COLUMN);
  tl_pen_begin (cr, "Table");
  for (guint i = from; i < to; i++)
    at += tool_row (cr, g_ptr_array_index (self->steps->tools, i), x, at);
  tl_pen_end (cr, "Table");
  return at - y;
}

/* Rows first .. first + count: parts beside tools, or, where nothing is to be made, parts in two columns. */
double
tl_block_lists (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  guint  parts = self->steps->parts->len, tools = self->steps->tools->len;
  guint  end = block->first + block->count, half = block->first + (block->count + 1) / 2;
  double right_x = TL_SHEET_LEFT + TL_SHEET_WIDTH - COLUMN;
  double left, right;

  if (self->steps->state == TL_SHEET_REFUSED)
    {
      left = parts_table (self, cr, block->first, MIN (parts, half), TL_SHEET_LEFT, y);
      right = parts_table (self, cr, half, MIN (parts, end), right_x, y);
    }
  else
    {
      left = parts_table (self, cr, block->first, MIN (parts, end), TL_SHEET_LEFT, y);
      right = tools_table (self, cr, block->first, MIN (tools, end), right_x, y);
    }
  return MAX (left, right) + GAP;
}

double
tl_block_drawing (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  double head = tl_pen_heading (self, cr, TL_N_ ("Drawing"), TL_SHEET_LEFT, y, 0.0) - 0.8;

  if (cr != NULL)
    {
      tl_pen_begin (cr, "P");
      tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("pattern shows the material, sizes in mm")),
                   TL_SHEET_LEFT + TL_SHEET_WIDTH, y + 3.6, TL_SIZE_LABEL, FALSE, 1.0);
      tl_pen_end (cr, "P");
      tl_pen_begin (cr, "Figure");
      tl_pen_frame (cr, TL_SHEET_LEFT, y + head, TL_SHEET_WIDTH, TL_SHEET_DRAWING, 0.5);
      cairo_save (cr);
      cairo_translate (cr, TL_SHEET_LEFT, y + head);
      cairo_rectangle (cr, 0.5, 0.5, TL_SHEET_WIDTH - 1.0, TL_SHEET_DRAWING - 1.0);
      cairo_clip (cr);
      tl_drawing_paint (self->drawing, cr, self->palette);
      cairo_restore (cr);
      cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
      tl_pen_end (cr, "Figure");
    }
  return head + TL_SHEET_DRAWING + 2.0;
}

double
tl_block_box (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  double head = tl_pen_heading (self, cr, TL_N_ ("In the box"), TL_SHEET_LEFT, y, 0.0) - 0.8;

  if (cr != NULL)
    {
      tl_pen_begin (cr, "Figure");
      tl_pen_frame (cr, TL_SHEET_LEFT, y + head, TL_SHEET_WIDTH, TL_SHEET_BOX, 0.5);
      cairo_save (cr);
      cairo_translate (cr, TL_SHEET_LEFT, y + head);
      cairo_rectangle (cr, 0.5, 0.5, TL_SHEET_WIDTH - 1.0, TL_SHEET_BOX - 1.0);
      cairo_clip (cr);
      tl_box_view_paint (cr, self->palette, self->verdict->assembly, self->box, TL_SHEET_WIDTH,
                         TL_SHEET_BOX, 1.0, self->language);
      cairo_restore (cr);
      cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
      tl_pen_end (cr, "Figure");
    }
  return head + TL_SHEET_BOX + GAP;
}

/* The drawing in sentences first .. first + count, run on: for whoever cannot see it. */
double
tl_block_words (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  g_autoptr (GString) text = g_string_new (NULL);
  double height;

  for (guint i = block->first; i < block->first + block->count; i++)
    {
      const char *words = g_ptr_array_index (self->words, i);

      if (text->len > 0)
        g_string_append (text, text->str[text->len - 1] == '.' ? " " : "; ");
      g_string_append (text, words);
    }
  tl_pen_begin (cr, "P");
  height = tl_pen_paragraph (cr, text->str, TL_SHEET_LEFT, y, TL_SHEET_WIDTH, TL_SIZE_LABEL, FALSE);
  tl_pen_end (cr, "P");
  return height + GAP;
}

static void
line_mark (const TlSheet *self, cairo_t *cr, const TlLine *line, double x, double y)
{
  static const TlMark marks[] = {
    [TL_SEVERITY_SOUND] = TL_MARK_SOUND,
    [TL_SEVERITY_WATCH] = TL_MARK_WATCH,
    [TL_SEVERITY_CHANGE] = TL_MARK_CHANGE,
    [TL_SEVERITY_UNSAFE] = TL_MARK_UNSAFE,
  };

  if (cr == NULL || line->mark == TL_LINE_PLAIN)
    return;
  tl_paint_mark (cr, self->palette,
                 line->mark >= 0                      ? marks[line->mark]
                 : line->mark == TL_LINE_NOT_COMPUTED ? TL_MARK_NOT_COMPUTED
                                                      : TL_MARK_UNFINISHED,
                 x, y, 3.2);
}

/* Mark, word, sentence. */
static double
marked_row (const TlSheet *self, cairo_t *cr, const TlLine *line, double y)
{
  g_autofree char *text = tl_pen_shorten (line->value, 2 * MOST_LETTERS);
  double           height, sentence;

  line_mark (self, cr, line, TL_SHEET_LEFT + 1.8, y + 3.0);
  tl_pen_begin (cr, "LI");
  height =
      tl_pen_paragraph (cr, line->label, TL_SHEET_LEFT + 6.0, y + 1.2, 24.0, TL_SIZE_TABLE, TRUE);
  sentence = tl_pen_paragraph (cr, text, TL_SHEET_LEFT + 32.0, y + 1.2, TL_SHEET_WIDTH - 32.0,
                               TL_SIZE_TABLE, FALSE);
  tl_pen_end (cr, "LI");
  height = MAX (height, sentence) + 2.4;
  tl_pen_line (cr, TL_SHEET_LEFT, y + height, TL_SHEET_LEFT + TL_SHEET_WIDTH, y + height, 0.15);
  return height;
}

double
tl_block_watch_head (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  return 3.0
         + tl_pen_heading (self, cr,
                           self->steps->state == TL_SHEET_CHANGE
                               ? TL_N_ ("To be changed, and to be watched")
                               : TL_N_ ("To be watched"),
                           TL_SHEET_LEFT, y + 3.0, TL_SHEET_WIDTH);
}

double
tl_block_watch (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  return marked_row (self, cr, g_ptr_array_index (self->steps->findings, block->first), y);
}

double
tl_block_refusal_head (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  if (cr != NULL)
    {
      cairo_rectangle (cr, TL_SHEET_LEFT, y, TL_SHEET_WIDTH, 16.0);
      cairo_fill (cr);
      cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
      tl_pen_begin (cr, "H2");
      tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("Not to be made as drawn")),
                   TL_SHEET_LEFT + TL_SHEET_WIDTH / 2.0, y + 10.2, 20.0 * TL_POINT_MM, TRUE, 0.5);
      tl_pen_end (cr, "H2");
      cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
    }
  return 16.0 + 4.0
         + tl_pen_heading (self, cr, TL_N_ ("Why, and what mends it"), TL_SHEET_LEFT, y + 20.0,
                           TL_SHEET_WIDTH);
}

double
tl_block_refusal (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  return marked_row (self, cr, g_ptr_array_index (self->steps->refusals, block->first), y);
}

/* Lines to fill in by hand at the foot of the half page: a tag says who has the key. */
static double
tag_lines (const TlSheet *self, cairo_t *cr, double x, double y, double width)
{
  static const char *const labels[] = { TL_N_ ("Off, locked and tagged by"), TL_N_ ("Day and hour"),
                                        TL_N_ ("To be called") };
  double                   column = width / G_N_ELEMENTS (labels);

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      tl_pen_begin (cr, "P");
      tl_pen_fitted (cr, tl_sheet_text (self, labels[i]), x + i * column, y + 3.0, column - 4.0,
                     TL_SIZE_LABEL, FALSE);
      tl_pen_end (cr, "P");
      tl_pen_line (cr, x + i * column, y + 11.0, x + (i + 1) * column - 4.0, y + 11.0, 0.2);
    }
  return 13.0;
}

/* Half a page that can be cut off and left at the box. */
double
tl_block_instead (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y)
{
  double at = y + 4.0, inset = self->steps->no_joint ? 4.0 : 0.0, x = TL_SHEET_LEFT + inset,
         width = TL_SHEET_WIDTH - 2.0 * inset;
  double top = at;

  if (self->steps->no_joint)
    {
      at += 3.0;
      tl_pen_begin (cr, "H2");
      tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("No joint recommended")), x, at + 4.2,
                   TL_SIZE_NAME, TRUE, 0.0);
      tl_pen_end (cr, "H2");
      at += 7.4;
    }
  at += tl_pen_heading (self, cr, TL_N_ ("What to do instead"), x, at, width) + 1.0;
  tl_pen_begin (cr, "L");
  for (guint i = 0; i < self->steps->instead->len; i++)
    {
      tl_pen_text (cr, "–", x + 2.0, at + 3.2, TL_SIZE_TEXT, TRUE, 0.0);
      tl_pen_begin (cr, "LI");
      at += tl_pen_paragraph (cr, g_ptr_array_index (self->steps->instead, i), x + 6.0, at,
                              width - 6.0, TL_SIZE_TEXT, FALSE)
            + 1.0;
      tl_pen_end (cr, "LI");
    }
  tl_pen_end (cr, "L");
  if (self->steps->no_joint)
    {
      at += 2.0 + tag_lines (self, cr, x, at + 2.0, width);
      tl_pen_frame (cr, TL_SHEET_LEFT, top, TL_SHEET_WIDTH, at + 1.0 - top, 0.7);
      at += 1.0;
    }
  return at - y + GAP;
}
