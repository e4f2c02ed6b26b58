/* sheet-page.c: what every page of the step sheet has: title block, banner, foot, and the words across a fault.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

#include <math.h>

#define NAME_CELL 100.0
#define PLACE_CELL 46.0
#define BANNER 9.0
#define FOOT 8.0

double
tl_sheet_body_top (const TlSheet *self)
{
  return TL_SHEET_TOP + TL_SHEET_HEAD + 3.5 + (*self->steps->banner != '\0' ? BANNER + 2.5 : 0.0);
}

double
tl_sheet_body_bottom (const TlSheet *self)
{
  return self->height - TL_SHEET_BOTTOM - FOOT - 3.0;
}

/* Small label above, value below, on one line each. */
static void
cell (cairo_t *cr, const char *label, const char *value, double x, double y, double width)
{
  tl_pen_fitted (cr, label, x + 2.0, y + 3.7, width - 4.0, TL_SIZE_LABEL, FALSE);
  tl_pen_fitted (cr, value, x + 2.0, y + 8.4, width - 4.0, TL_SIZE_TABLE, FALSE);
}

static TlMark
verdict_mark (const TlStepSheet *steps)
{
  static const TlMark marks[] = {
    [TL_SEVERITY_SOUND] = TL_MARK_SOUND,
    [TL_SEVERITY_WATCH] = TL_MARK_WATCH,
    [TL_SEVERITY_CHANGE] = TL_MARK_CHANGE,
    [TL_SEVERITY_UNSAFE] = TL_MARK_UNSAFE,
  };

  return steps->has_severity ? marks[steps->severity] : TL_MARK_UNFINISHED;
}

static void
paint_title_block (const TlSheet *self, cairo_t *cr, guint page)
{
  const TlStepSheet *steps = self->steps;
  double             x = TL_SHEET_LEFT, y = TL_SHEET_TOP, half = TL_SHEET_HEAD / 2.0;
  double             place = x + NAME_CELL, verdict = place + PLACE_CELL;
  double             verdict_width = TL_SHEET_WIDTH - NAME_CELL - PLACE_CELL;
  g_autofree char   *number = g_strdup_printf ("%u", page + 1);
  g_autofree char   *count = g_strdup_printf ("%u", self->n_pages);
  g_autofree char   *sheet = tl_wording_fill (tl_sheet_text (self, TL_N_ ("{page} of {pages}")),
                                              "page", number, "pages", count, NULL);
  g_autofree char   *who = g_strdup_printf (
        "%s%s%s", steps->prepared_by, *steps->prepared_by != '\0' && *steps->date != '\0' ? ", " : "",
        steps->date);

  tl_pen_frame (cr, x, y, TL_SHEET_WIDTH, TL_SHEET_HEAD, 0.5);
  tl_pen_line (cr, place, y, place, y + TL_SHEET_HEAD, 0.35);
  tl_pen_line (cr, verdict, y, verdict, y + TL_SHEET_HEAD, 0.35);
  tl_pen_line (cr, place, y + half, x + TL_SHEET_WIDTH, y + half, 0.35);

  tl_pen_begin (cr, "P");
  tl_pen_fitted (cr, tl_sheet_text (self, TL_N_ ("Joint")), x + 3.0, y + 4.6, 90.0, TL_SIZE_LABEL,
                 FALSE);
  tl_pen_end (cr, "P");
  tl_pen_begin (cr, page == 0 ? "H1" : "P");
  tl_pen_fitted (cr, steps->name, x + 3.0, y + 11.0, NAME_CELL - 6.0, TL_SIZE_NAME, TRUE);
  tl_pen_end (cr, page == 0 ? "H1" : "P");
  tl_pen_begin (cr, "P");
  tl_pen_fitted (cr, steps->subtitle, x + 3.0, y + 17.2, NAME_CELL - 6.0, TL_SIZE_TABLE, FALSE);
  cell (cr, tl_sheet_text (self, TL_N_ ("Place")), steps->place, place, y, PLACE_CELL);
  cell (cr, tl_sheet_text (self, TL_N_ ("Prepared by, date")), who, place, y + half, PLACE_CELL);
  cell (cr, tl_sheet_text (self, TL_N_ ("Sheet")), sheet, verdict, y, verdict_width);
  tl_pen_fitted (cr, tl_sheet_text (self, TL_N_ ("Verdict")), verdict + 2.0, y + half + 3.7,
                 verdict_width - 4.0, TL_SIZE_LABEL, FALSE);
  tl_pen_fitted (cr, steps->verdict_word, verdict + 7.0, y + half + 8.4, verdict_width - 9.0,
                 TL_SIZE_TABLE, TRUE);
  tl_pen_end (cr, "P");
  tl_paint_mark (cr, self->palette, verdict_mark (steps), verdict + 3.9, y + half + 7.4, 3.2);
}

static void
paint_banner (const TlSheet *self, cairo_t *cr)
{
  double y = TL_SHEET_TOP + TL_SHEET_HEAD + 2.5;

  if (*self->steps->banner == '\0')
    return;
  cairo_rectangle (cr, TL_SHEET_LEFT, y, TL_SHEET_WIDTH, BANNER);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  tl_pen_begin (cr, "P");
  tl_paint_text (cr, self->steps->banner, TL_SHEET_LEFT + TL_SHEET_WIDTH / 2.0, y + 6.2,
                 TL_SIZE_NAME, TRUE, 0.5);
  tl_pen_end (cr, "P");
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
}

static void
paint_foot (const TlSheet *self, cairo_t *cr, guint page)
{
  double y = self->height - TL_SHEET_BOTTOM - FOOT;

  if (page + 1 < self->n_pages)
    {
      tl_pen_begin (cr, "P");
      tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("goes on overleaf")),
                   TL_SHEET_LEFT + TL_SHEET_WIDTH, y + 1.6, TL_SIZE_LABEL, FALSE, 1.0);
      tl_pen_end (cr, "P");
    }
  /* Once more level: many readers lose words that stand slantwise. */
  if (self->steps->fault_example)
    {
      tl_pen_begin (cr, "P");
      tl_pen_text (cr, tl_sheet_text (self, TL_N_ ("Example of a fault")), TL_SHEET_LEFT, y + 1.6,
                   TL_SIZE_LABEL, TRUE, 0.0);
      tl_pen_end (cr, "P");
    }
  tl_pen_line (cr, TL_SHEET_LEFT, y + 3.4, TL_SHEET_LEFT + TL_SHEET_WIDTH, y + 3.4, 0.35);
  tl_pen_begin (cr, "P");
  tl_pen_fitted (cr, self->steps->foot, TL_SHEET_LEFT, y + 7.2, TL_SHEET_WIDTH, TL_SIZE_LABEL,
                 FALSE);
  tl_pen_end (cr, "P");
}

/* Under everything else, so that the words on it stay black on white or on this grey. */
static void
paint_fault_words (const TlSheet *self, cairo_t *cr)
{
  const char *words = tl_sheet_text (self, TL_N_ ("Example of a fault"));
  double      diagonal = hypot (TL_SHEET_WIDTH, self->height - 60.0);
  double      size = MIN (34.0, 0.86 * diagonal / tl_paint_text_width (words, 1.0, TRUE));

  cairo_save (cr);
  cairo_set_source_rgb (cr, 0.8, 0.8, 0.8);
  cairo_translate (cr, TL_SHEET_LEFT + TL_SHEET_WIDTH / 2.0, self->height / 2.0);
  cairo_rotate (cr, -atan2 (self->height - 60.0, TL_SHEET_WIDTH));
  tl_pen_begin (cr, "P");
  tl_paint_text (cr, words, 0.0, size * 0.35, size, TRUE, 0.5);
  tl_pen_end (cr, "P");
  cairo_restore (cr);
}

void
tl_sheet_paint_frame (const TlSheet *self, cairo_t *cr, guint page)
{
  if (self->steps->fault_example)
    paint_fault_words (self, cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  paint_title_block (self, cr, page);
  paint_banner (self, cr);
  if (page == self->ruler_page)
    tl_sign_ruler (self, cr, TL_SHEET_LEFT,
                   self->height - TL_SHEET_BOTTOM - FOOT - TL_SHEET_RULER + 1.0);
  paint_foot (self, cr, page);
}
