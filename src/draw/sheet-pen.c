/* sheet-pen.c: text and lines of the step sheet, which measure as well as draw.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

#include <string.h>

#define TICK_BOX_MM 3.8
#define ELLIPSIS "…"

const char *
tl_sheet_text (const TlSheet *self, const char *msgid)
{
  return tl_language_text (self->language, msgid);
}

void
tl_pen_text (cairo_t *cr, const char *text, double x, double baseline, double size, gboolean bold,
             double align)
{
  if (cr != NULL)
    tl_paint_text (cr, text, x, baseline, size, bold, align);
}

double
tl_pen_paragraph (cairo_t *cr, const char *text, double x, double y, double width, double size,
                  gboolean bold)
{
  return tl_paint_paragraph (cr, text, x, y, width, size, bold, cr != NULL);
}

char *
tl_pen_shorten (const char *text, glong most)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (text, -1) <= most)
    return g_strdup (text);
  start = g_utf8_substring (text, 0, most - 1);
  return g_strconcat (g_strchomp (start), ELLIPSIS, NULL);
}

void
tl_pen_fitted (cairo_t *cr, const char *text, double x, double baseline, double width, double size,
               gboolean bold)
{
  glong            low = 1, high;
  g_autofree char *shown = NULL;

  if (cr == NULL || *text == '\0')
    return;
  /* No line of paper holds more than this many letters. */
  shown = tl_pen_shorten (text, 200);
  high = g_utf8_strlen (shown, -1);
  if (tl_paint_text_width (shown, size, bold) > width)
    {
      while (low < high)
        {
          glong            middle = (low + high + 1) / 2;
          g_autofree char *trial = tl_pen_shorten (text, middle);

          if (tl_paint_text_width (trial, size, bold) <= width)
            low = middle;
          else
            high = middle - 1;
        }
      g_free (shown);
      shown = tl_pen_shorten (text, low);
    }
  tl_paint_text (cr, shown, x, baseline, size, bold, 0.0);
}

void
tl_pen_line (cairo_t *cr, double x0, double y0, double x1, double y1, double width)
{
  if (cr == NULL)
    return;
  cairo_set_line_width (cr, width);
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
  cairo_stroke (cr);
}

/* The line runs inside the box, so that boxes of one width end on one edge. */
void
tl_pen_frame (cairo_t *cr, double x, double y, double width, double height, double line)
{
  if (cr == NULL)
    return;
  cairo_set_line_width (cr, line);
  cairo_rectangle (cr, x + line / 2.0, y + line / 2.0, width - line, height - line);
  cairo_stroke (cr);
}

void
tl_pen_tick_box (cairo_t *cr, double x, double y)
{
  tl_pen_frame (cr, x, y, TICK_BOX_MM, TICK_BOX_MM, 0.3);
}

void
tl_pen_begin (cairo_t *cr, const char *tag)
{
  if (cr != NULL)
    cairo_tag_begin (cr, tag, NULL);
}

void
tl_pen_end (cairo_t *cr, const char *tag)
{
  if (cr != NULL)
    cairo_tag_end (cr, tag);
}

double
tl_pen_heading (const TlSheet *self, cairo_t *cr, const char *msgid, double x, double y,
                double width)
{
  tl_pen_begin (cr, "H2");
  tl_pen_text (cr, tl_sheet_text (self, msgid), x, y + 3.6, TL_SIZE_HEAD, TRUE, 0.0);
  tl_pen_end (cr, "H2");
  if (width > 0.0)
    tl_pen_line (cr, x, y + 5.6, x + width, y + 5.6, 0.5);
  return 6.2;
}
