/* test-paint.c: palettes, patterns, marks and type.
 *
 * Contrasts are computed by the formula of WCAG 2.1, 1.4.3 (relative luminance), and held against the figures of the
 * drawing key of this program (a design, common practice, no source). Patterns and marks are told apart by pixels.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/paint.h"
#include <math.h>
#include <string.h>

#define SIDE 64
#define UNIT (96.0 / 25.4)

typedef struct
{
  cairo_surface_t *surface;
  cairo_t         *cr;
} Canvas;

static Canvas
canvas_new (const TlPalette *palette, int width, int height)
{
  Canvas canvas = { .surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height) };

  canvas.cr = cairo_create (canvas.surface);
  tl_paint_set_colour (canvas.cr, palette->paper);
  cairo_paint (canvas.cr);
  return canvas;
}

static void
canvas_free (Canvas *canvas)
{
  g_assert_cmpint (cairo_status (canvas->cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (canvas->cr);
  cairo_surface_destroy (canvas->surface);
}

static guint32
pixel (const Canvas *canvas, int x, int y)
{
  const unsigned char *data = cairo_image_surface_get_data (canvas->surface);
  guint32              value;

  memcpy (&value, data + y * cairo_image_surface_get_stride (canvas->surface) + 4 * x, 4);
  return value & 0xffffff;
}

/* Share of pixels that differ by more than an eighth of the range in any channel. */
static double
difference (const Canvas *a, const Canvas *b, int width, int height)
{
  guint count = 0;

  cairo_surface_flush (a->surface);
  cairo_surface_flush (b->surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        guint32 p = pixel (a, x, y), q = pixel (b, x, y);

        for (int shift = 0; shift < 24; shift += 8)
          if (ABS ((int) (p >> shift & 0xff) - (int) (q >> shift & 0xff)) > 32)
            {
              count++;
              break;
            }
      }
  return count / (double) (width * height);
}

/* --- contrast --- */

typedef struct
{
  TlScheme scheme;
  double   ink, muted, dim, select, sound, watch, change, unsafe;
} Contrast;

static const Contrast contrasts[] = {
  { TL_SCHEME_LIGHT, 15.7, 6.9, 10.1, 6.7, 7.0, 7.9, 6.5, 8.0 },
  { TL_SCHEME_DARK, 15.3, 8.4, 11.2, 8.5, 9.7, 9.4, 9.7, 8.5 },
  { TL_SCHEME_CONTRAST, 21.0, 14.8, 21.0, 10.2, 0.0, 0.0, 0.0, 0.0 },
};

static void
assert_contrast (TlColour a, TlColour b, double expected)
{
  /* the key prints one decimal */
  if (expected > 0.0)
    g_assert_cmpfloat_with_epsilon (tl_colour_contrast (a, b), expected, 0.0501);
}

static void
test_contrast (gconstpointer data)
{
  const Contrast  *c = data;
  const TlPalette *p = tl_palette_get (c->scheme);

  assert_contrast (p->ink, p->paper, c->ink);
  assert_contrast (p->muted, p->paper, c->muted);
  assert_contrast (p->dim, p->paper, c->dim);
  assert_contrast (p->select, p->paper, c->select);
  assert_contrast (p->severity[TL_SEVERITY_SOUND], p->paper, c->sound);
  assert_contrast (p->severity[TL_SEVERITY_WATCH], p->paper, c->watch);
  assert_contrast (p->severity[TL_SEVERITY_CHANGE], p->paper, c->change);
  assert_contrast (p->severity[TL_SEVERITY_UNSAFE], p->paper, c->unsafe);
}

/* WCAG 2.1, 1.4.3: text at least 4.5 : 1; the key promises 5.4 as the lowest of all, rounded to one decimal. */
static void
test_lowest_contrast (void)
{
  for (guint s = 0; s < TL_N_SCHEMES; s++)
    {
      const TlPalette *p = tl_palette_get ((TlScheme) s);
      const TlColour   grounds[] = { p->paper, p->panel, p->ground };

      for (guint g = 0; g < G_N_ELEMENTS (grounds); g++)
        {
          g_assert_cmpfloat (tl_colour_contrast (p->ink, grounds[g]), >=, 5.35);
          g_assert_cmpfloat (tl_colour_contrast (p->muted, grounds[g]), >=, 5.35);
          for (guint v = 0; v < 4; v++)
            g_assert_cmpfloat (tl_colour_contrast (p->severity[v], grounds[g]), >=, 5.35);
        }
      for (guint v = 0; v < 4; v++)
        g_assert_cmpfloat (tl_colour_contrast (p->severity[v], p->severity_wash[v]), >=, 5.35);
      g_assert_cmpfloat (tl_colour_contrast (p->on_select, p->select), >=, 5.35);
    }
}

/* Extremes of the formula itself: WCAG 2.1 gives 21 for black on white and 1 for a colour on itself. */
static void
test_contrast_ends (void)
{
  TlColour black = { 0.0, 0.0, 0.0 }, white = { 1.0, 1.0, 1.0 };

  g_assert_cmpfloat_with_epsilon (tl_colour_contrast (black, white), 21.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (tl_colour_contrast (white, black), 21.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (tl_colour_contrast (white, white), 1.0, 1e-9);
}

static void
test_pattern_contrast (void)
{
  for (guint s = 0; s < TL_N_SCHEMES; s++)
    {
      const TlPalette *p = tl_palette_get ((TlScheme) s);

      for (guint look = 0; look < TL_N_LOOKS; look++)
        {
          double least = s == TL_SCHEME_DARK && look == TL_LOOK_TIN ? 4.1 : 5.0;

          if (look != TL_LOOK_AIR)
            g_assert_cmpfloat (tl_colour_contrast (p->pattern, p->tint[look]), >=, least);
        }
    }
}

static gboolean
is_one_ink (TlColour c)
{
  return (c.red == 0.0 && c.green == 0.0 && c.blue == 0.0)
         || (c.red == 1.0 && c.green == 1.0 && c.blue == 1.0);
}

static void
test_one_ink (void)
{
  const TlPalette *p = tl_palette_get (TL_SCHEME_ONE_INK);
  const TlColour   all[] = { p->ground, p->panel,  p->paper,       p->field,     p->raised,
                             p->ink,    p->muted,  p->dim,         p->centre,    p->hair,
                             p->hair2,  p->select, p->select_wash, p->on_select, p->pattern };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    g_assert_true (is_one_ink (all[i]));
  for (guint i = 0; i < 4; i++)
    g_assert_true (is_one_ink (p->severity[i]) && is_one_ink (p->severity_wash[i]));
  for (guint i = 0; i < TL_N_LOOKS; i++)
    g_assert_true (is_one_ink (p->tint[i]));
}

/* --- patterns --- */

static Canvas
patch (const TlPalette *palette, TlLook look, double pitch)
{
  Canvas canvas = canvas_new (palette, SIDE, SIDE);

  cairo_rectangle (canvas.cr, 0.0, 0.0, SIDE, SIDE);
  tl_paint_look (canvas.cr, palette, look, TRUE, UNIT, pitch);
  return canvas;
}

/* In one ink nothing but the pattern tells the material. */
static void
test_patterns_differ (gconstpointer data)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_ONE_INK);
  double           pitch = GPOINTER_TO_INT (data) / 10.0;

  for (guint a = 0; a < TL_N_LOOKS; a++)
    for (guint b = a + 1; b < TL_N_LOOKS; b++)
      {
        Canvas p = patch (palette, (TlLook) a, pitch), q = patch (palette, (TlLook) b, pitch);

        g_assert_cmpfloat (difference (&p, &q, SIDE, SIDE), >, 0.04);
        canvas_free (&p);
        canvas_free (&q);
      }
}

/* Two bodies side by side show one pattern that runs on. */
static void
test_one_grid (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_ONE_INK);

  for (guint look = 0; look < TL_N_LOOKS; look++)
    {
      Canvas whole = patch (palette, (TlLook) look, 1.0), parts = canvas_new (palette, SIDE, SIDE);

      cairo_rectangle (parts.cr, 0.0, 0.0, SIDE / 2, SIDE);
      tl_paint_look (parts.cr, palette, (TlLook) look, TRUE, UNIT, 1.0);
      cairo_new_path (parts.cr);
      cairo_rectangle (parts.cr, SIDE / 2, 0.0, SIDE / 2, SIDE);
      tl_paint_look (parts.cr, palette, (TlLook) look, TRUE, UNIT, 1.0);
      g_assert_cmpfloat (difference (&whole, &parts, SIDE, SIDE), <, 0.005);
      canvas_free (&whole);
      canvas_free (&parts);
    }
}

static void
test_look_keeps_path (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_LIGHT);
  Canvas           canvas = canvas_new (palette, SIDE, SIDE);
  double           x0, y0, x1, y1;

  cairo_rectangle (canvas.cr, 5.0, 6.0, 20.0, 30.0);
  tl_paint_look (canvas.cr, palette, TL_LOOK_COPPER, TRUE, UNIT, 1.0);
  cairo_path_extents (canvas.cr, &x0, &y0, &x1, &y1);
  g_assert_cmpfloat_with_epsilon (x0, 5.0, 0.01);
  g_assert_cmpfloat_with_epsilon (y0, 6.0, 0.01);
  g_assert_cmpfloat_with_epsilon (x1, 25.0, 0.01);
  g_assert_cmpfloat_with_epsilon (y1, 36.0, 0.01);
  canvas_free (&canvas);
}

/* An area of kilometres is drawn without hanging: the pattern is left out, the tint stays. */
static void
test_huge_area (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_LIGHT);
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, NULL);
  cairo_t         *cr = cairo_create (surface);

  for (guint look = 0; look < TL_N_LOOKS; look++)
    {
      cairo_rectangle (cr, -1e6, -1e6, 2e6, 2e6);
      tl_paint_look (cr, palette, (TlLook) look, TRUE, UNIT, 1.0);
      cairo_new_path (cr);
    }
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* --- marks --- */

static void
test_marks_differ (gconstpointer data)
{
  int              size = GPOINTER_TO_INT (data);
  const TlPalette *palette = tl_palette_get (TL_SCHEME_ONE_INK);

  for (guint a = 0; a <= TL_MARK_REFUSED; a++)
    for (guint b = a + 1; b <= TL_MARK_REFUSED; b++)
      {
        Canvas p = canvas_new (palette, size, size), q = canvas_new (palette, size, size);

        tl_paint_mark (p.cr, palette, (TlMark) a, size / 2.0, size / 2.0, size);
        tl_paint_mark (q.cr, palette, (TlMark) b, size / 2.0, size / 2.0, size);
        g_assert_cmpfloat (difference (&p, &q, size, size), >, 0.05);
        canvas_free (&p);
        canvas_free (&q);
      }
}

/* Lines on contacts and edges of rows: one style for each severity, told apart without colour. */
static void
test_lines_differ (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_ONE_INK);

  for (guint a = 0; a < 4; a++)
    for (guint b = a + 1; b < 4; b++)
      {
        Canvas p = canvas_new (palette, SIDE, 16), q = canvas_new (palette, SIDE, 16);
        Canvas r = canvas_new (palette, 6, SIDE), s = canvas_new (palette, 6, SIDE);

        tl_paint_contact (p.cr, palette, (TlMark) a, UNIT, 0.0, 8.0, SIDE, 8.0);
        tl_paint_contact (q.cr, palette, (TlMark) b, UNIT, 0.0, 8.0, SIDE, 8.0);
        g_assert_cmpfloat (difference (&p, &q, SIDE, 16), >, 0.02);
        tl_paint_edge (r.cr, palette, (TlMark) a, 0.0, 0.0, 6.0, SIDE);
        tl_paint_edge (s.cr, palette, (TlMark) b, 0.0, 0.0, 6.0, SIDE);
        g_assert_cmpfloat (difference (&r, &s, 6, SIDE), >, 0.1);
        canvas_free (&p);
        canvas_free (&q);
        canvas_free (&r);
        canvas_free (&s);
      }
}

/* A number that is none must not put the context into an error. */
static void
test_no_numbers (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_LIGHT);
  const double     odd[] = { NAN, INFINITY, -INFINITY, 0.0, -5.0 };

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      Canvas canvas = canvas_new (palette, SIDE, SIDE);

      tl_paint_mark (canvas.cr, palette, TL_MARK_CHANGE, odd[i], 4.0, odd[i]);
      tl_paint_edge (canvas.cr, palette, TL_MARK_CHANGE, 0.0, 0.0, odd[i], odd[i]);
      tl_paint_contact (canvas.cr, palette, TL_MARK_WATCH, UNIT, odd[i], 0.0, odd[i], 0.0);
      tl_paint_number (canvas.cr, palette, 3, odd[i], odd[i], odd[i], FALSE);
      g_assert_cmpfloat (
          tl_paint_text (canvas.cr, "2.0", odd[i], 0.0, i < 3 ? 12.0 : odd[i], FALSE, 0.5), >=,
          0.0);
      g_assert_cmpfloat (tl_paint_paragraph (canvas.cr, "2.0", 0.0, 0.0, odd[i], 12.0, FALSE, TRUE),
                         ==, 0.0);
      canvas_free (&canvas);
    }
}

/* --- type --- */

static void
test_text_scales (void)
{
  double small = tl_paint_text_width ("aluminium–zinc 0.20 V", 2.6, FALSE),
         large = tl_paint_text_width ("aluminium–zinc 0.20 V", 26.0, FALSE);

  g_assert_cmpfloat (small, >, 0.0);
  g_assert_cmpfloat_with_epsilon (large, 10.0 * small, 1e-6 * large);
  g_assert_cmpfloat (tl_paint_text_width ("Change", 14.0, TRUE), >,
                     tl_paint_text_width ("Change", 14.0, FALSE));
  g_assert_cmpfloat (tl_paint_text_width ("", 14.0, TRUE), ==, 0.0);
  /* tabular figures: a one is as wide as an eight */
  g_assert_cmpfloat_with_epsilon (tl_paint_text_width ("1111", 20.0, FALSE),
                                  tl_paint_text_width ("8888", 20.0, FALSE), 0.01);
}

static void
test_text_measures (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_LIGHT);
  Canvas           canvas = canvas_new (palette, 200, 40);
  double width = tl_paint_text (canvas.cr, "Section lengthwise", 10.0, 20.0, 12.5, FALSE, 0.0);

  g_assert_cmpfloat_with_epsilon (width, tl_paint_text_width ("Section lengthwise", 12.5, FALSE),
                                  1e-9);
  canvas_free (&canvas);
}

static void
test_paragraph (void)
{
  const char *text = "Not here: the lock washer has to bite on the nut.";
  double      one = tl_paint_paragraph (NULL, text, 0.0, 0.0, 1000.0, 12.0, FALSE, FALSE);
  double      narrow = tl_paint_paragraph (NULL, text, 0.0, 0.0, 100.0, 12.0, FALSE, FALSE);

  g_assert_cmpfloat (one, >, 10.0);
  g_assert_cmpfloat (narrow, >, 2.5 * one);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (contrasts); i++)
    {
      g_autofree char *path = g_strdup_printf ("/paint/contrast/%u", i);

      g_test_add_data_func (path, &contrasts[i], test_contrast);
    }
  g_test_add_func ("/paint/contrast/lowest", test_lowest_contrast);
  g_test_add_func ("/paint/contrast/ends", test_contrast_ends);
  g_test_add_func ("/paint/contrast/patterns", test_pattern_contrast);
  g_test_add_func ("/paint/one-ink", test_one_ink);
  g_test_add_data_func ("/paint/patterns/differ", GINT_TO_POINTER (10), test_patterns_differ);
  g_test_add_data_func ("/paint/patterns/differ-fine", GINT_TO_POINTER (6), test_patterns_differ);
  g_test_add_func ("/paint/patterns/one-grid", test_one_grid);
  g_test_add_func ("/paint/patterns/path", test_look_keeps_path);
  g_test_add_func ("/paint/patterns/huge", test_huge_area);
  g_test_add_data_func ("/paint/marks/small", GINT_TO_POINTER (10), test_marks_differ);
  g_test_add_data_func ("/paint/marks/list", GINT_TO_POINTER (14), test_marks_differ);
  g_test_add_data_func ("/paint/marks/projector", GINT_TO_POINTER (30), test_marks_differ);
  g_test_add_func ("/paint/lines", test_lines_differ);
  g_test_add_func ("/paint/no-numbers", test_no_numbers);
  g_test_add_func ("/paint/text/scales", test_text_scales);
  g_test_add_func ("/paint/text/measures", test_text_measures);
  g_test_add_func ("/paint/text/paragraph", test_paragraph);
  return g_test_run ();
}
