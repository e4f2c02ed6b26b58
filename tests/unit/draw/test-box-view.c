/* test-box-view.c: the box on paper and on screen: all families, both arrangements, what does not go in is marked.
 *
 * Expectations are the layout's own; the layout is held against geometry in assembly/test-box.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"

#include "draw/box-view.h"
#include "draw/picture.h"
#include "families.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  double   width, height, unit;
  TlScheme scheme;
} Area;

static const Area areas[] = {
  { 178.0, 45.0, 1.0, TL_SCHEME_ONE_INK },
  { 680.0, 560.0, 3.78, TL_SCHEME_LIGHT },
  { 400.0, 700.0, 3.78, TL_SCHEME_CONTRAST_DARK },
  { 20.0, 12.0, 1.0, TL_SCHEME_LIGHT },
};

static TlVerdict *
verdict_of (TlJoint *joint, const char *site)
{
  TlVerdict *verdict;

  build_fact (&joint, "site", site);
  verdict = tl_verdict_new (joint, build_stock (), TL_VERDICT_QUICK);
  tl_joint_unref (joint);
  return verdict;
}

static gboolean
is_near (const guchar *pixel, TlColour colour)
{
  return ABS (pixel[2] - 255.0 * colour.red) < 24.0 && ABS (pixel[1] - 255.0 * colour.green) < 24.0 && ABS (pixel[0] - 255.0 * colour.blue) < 24.0;
}

/* Pixels in a colour of the palette. */
static guint
pixels_of (const TlAssembly *assembly, const TlBoxLayout *layout, const Area *area, TlColour colour)
{
  const TlPalette *palette = tl_palette_get (area->scheme);
  double           scale = area->unit < 2.0 ? 4.0 : 1.0;
  int              width = (int) (scale * area->width), height = (int) (scale * area->height);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t         *cr = cairo_create (surface);
  guint            count = 0;

  tl_paint_set_colour (cr, palette->ground);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  tl_box_view_paint (cr, palette, assembly, layout, area->width, area->height, area->unit, tl_language_plain ());
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      count += is_near (cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x, colour);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return count;
}

static void
test_all (void)
{
  static const char *const sites[] = { "shape=round; inner-width=60 mm; inner-depth=20 mm; same-joints=6; devices=1",
                                       "shape=rectangular; inner-width=80 mm; inner-height=180 mm; inner-depth=70 mm" };

  for (guint f = 0; test_families[f].name != NULL; f++)
    for (guint s = 0; s < G_N_ELEMENTS (sites); s++)
      {
        g_autoptr (TlVerdict) verdict = verdict_of (test_families[f].make (), sites[s]);
        g_autoptr (TlBoxLayout) layout = tl_box_layout_new (verdict->assembly);

        g_assert_nonnull (layout);
        for (guint a = 0; a < G_N_ELEMENTS (areas); a++)
          {
            guint ink = pixels_of (verdict->assembly, layout, &areas[a], tl_palette_get (areas[a].scheme)->ink);

            /* too small an area stays empty */
            g_assert_cmpuint (ink > 200, ==, areas[a].width > 100.0);
          }
      }
}

static void
test_marks (void)
{
  static const char *const sites[] = { "shape=rectangular; inner-width=100 mm; inner-depth=60 mm",
                                       "shape=rectangular; inner-width=30 mm; inner-depth=60 mm" };

  for (guint s = 0; s < G_N_ELEMENTS (sites); s++)
    {
      g_autoptr (TlVerdict) verdict = verdict_of (families_screw (), sites[s]);
      g_autoptr (TlBoxLayout) layout = tl_box_layout_new (verdict->assembly);
      g_autofree char *words = tl_box_view_describe (layout, tl_language_plain ());
      guint change = pixels_of (verdict->assembly, layout, &areas[1], tl_palette_get (TL_SCHEME_LIGHT)->severity[TL_SEVERITY_CHANGE]);

      g_assert_cmpint (layout->fitting, ==, s == 0 ? 1 : 0);
      if (s == 0)
        {
          g_assert_cmpuint (change, ==, 0);
          g_assert_nonnull (strstr (words, "The joint goes in with its bends."));
          g_assert_null (strstr (words, "Too "));
        }
      else
        {
          g_assert_cmpuint (change, >, 100);
          g_assert_nonnull (strstr (words, "The joint does not go in with its bends."));
          g_assert_nonnull (strstr (words, "Too long by"));
        }
    }
}

/* Saved the same twice, without a clock; without inner sizes a sentence says what is missing and no file is left. */
static void
test_save (void)
{
  g_autoptr (TlVerdict) verdict = verdict_of (families_lug (), "shape=round; inner-width=90 mm; inner-depth=60 mm");
  g_autoptr (TlVerdict) bare = NULL;
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *directory = g_dir_make_tmp ("tinlap-box-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (directory, "box.pdf", NULL);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  gsize lengths[2] = { 0, 0 };

  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (tl_box_view_save (verdict, TL_PICTURE_PDF, 180.0, 120.0, TL_SCHEME_LIGHT, path, tl_language_plain (), &error));
      g_assert_no_error (error);
      g_assert_true (g_file_get_contents (path, i == 0 ? &first : &second, &lengths[i], NULL));
      g_remove (path);
    }
  g_assert_cmpmem (first, lengths[0], second, lengths[1]);
  bare = tl_verdict_new (joint, build_stock (), TL_VERDICT_QUICK);
  g_assert_false (tl_box_view_save (bare, TL_PICTURE_PDF, 180.0, 120.0, TL_SCHEME_LIGHT, path, tl_language_plain (), &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "inner width and depth"));
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_rmdir (directory);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/box-view/all", test_all);
  g_test_add_func ("/draw/box-view/marks", test_marks);
  g_test_add_func ("/draw/box-view/save", test_save);
  return g_test_run ();
}
