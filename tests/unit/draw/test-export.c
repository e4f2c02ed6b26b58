/* test-export.c: pictures as files.
 *
 * What a PNG, SVG and PDF begins with is read from the bytes (PNG: ISO/IEC 15948, 5.2; PDF: ISO 32000-1, 7.5.2).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char      *folder;
  TlVerdict *verdict;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("tinlap-draw-XXXXXX", NULL);
  g_assert_nonnull (f->folder);
  f->verdict = pt_judge (pt_example ("zinc-washer"));
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (f->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (f->folder);
  g_free (f->folder);
  tl_verdict_unref (f->verdict);
}

static char *
save (Fixture *f, TlPictureKind kind, const char *name, TlScheme scheme, gsize *length)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);
  g_autoptr (GError) error = NULL;
  char *data = NULL;

  g_assert_true (
      tl_drawing_save (f->verdict, kind, 180.0, 150.0, scheme, path, tl_language_plain (), &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &data, length, NULL));
  return data;
}

static void
test_png (Fixture *f, gconstpointer data)
{
  gsize            length;
  g_autofree char *bytes = save (f, TL_PICTURE_PNG, "a.png", TL_SCHEME_LIGHT, &length);
  g_autofree char *path = g_build_filename (f->folder, "a.png", NULL);
  cairo_surface_t *surface;

  g_assert_cmpmem (bytes, 8, "\x89PNG\r\n\x1a\n", 8);
  surface = cairo_image_surface_create_from_png (path);
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  /* two points for each 1/96 in */
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, (int) ceil (180.0 * 192.0 / 25.4));
  cairo_surface_destroy (surface);
}

static void
test_one_ink_png (Fixture *f, gconstpointer data)
{
  gsize                length;
  g_autofree char     *bytes = save (f, TL_PICTURE_PNG, "ink.png", TL_SCHEME_ONE_INK, &length);
  g_autofree char     *path = g_build_filename (f->folder, "ink.png", NULL);
  cairo_surface_t     *surface = cairo_image_surface_create_from_png (path);
  const unsigned char *pixels = cairo_image_surface_get_data (surface);
  int                  stride = cairo_image_surface_get_stride (surface);

  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      {
        const unsigned char *p = pixels + y * stride + 4 * x;

        g_assert_true (p[0] == p[1] && p[1] == p[2]);
      }
  cairo_surface_destroy (surface);
}

static void
test_svg (Fixture *f, gconstpointer data)
{
  gsize            length;
  g_autofree char *bytes = save (f, TL_PICTURE_SVG, "a.svg", TL_SCHEME_LIGHT, &length);

  g_assert_nonnull (strstr (bytes, "<svg"));
  g_assert_nonnull (strstr (bytes, "</svg>"));
}

static void
test_pdf (Fixture *f, gconstpointer data)
{
  gsize            length, again_length;
  g_autofree char *bytes = save (f, TL_PICTURE_PDF, "a.pdf", TL_SCHEME_ONE_INK, &length);
  g_autofree char *again = save (f, TL_PICTURE_PDF, "b.pdf", TL_SCHEME_ONE_INK, &again_length);

  g_assert_cmpmem (bytes, 5, "%PDF-", 5);
  g_assert_cmpmem (bytes, length, again, again_length);
}

static void
test_pdf_text (Fixture *f, gconstpointer data)
{
  gsize            length;
  g_autofree char *bytes = save (f, TL_PICTURE_PDF, "a.pdf", TL_SCHEME_ONE_INK, &length);
  g_autofree char *path = g_build_filename (f->folder, "a.pdf", NULL);
  g_autofree char *program = g_find_program_in_path ("pdftotext");
  g_autofree char *text = NULL;
  g_autoptr (GSubprocess) process = NULL;
  g_autoptr (GError) error = NULL;

  if (program == NULL)
    {
      g_test_skip ("pdftotext is not installed");
      return;
    }
  process = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, program, path, "-", NULL);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &text, NULL, &error));
  g_assert_nonnull (strstr (text, "Section through the bolt axis"));
  g_assert_nonnull (strstr (text, "aluminium"));
  g_assert_nonnull (strstr (text, "copper"));
}

static void
test_refusals (Fixture *f, gconstpointer data)
{
  const double     odd[] = { 0.0, -3.0, 19.9, 1201.0, NAN, INFINITY };
  g_autofree char *path = g_build_filename (f->folder, "never.png", NULL);
  g_autofree char *nowhere = g_build_filename (f->folder, "no", "folder", "x.png", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (tl_drawing_save (f->verdict, TL_PICTURE_PNG, odd[i], 100.0, TL_SCHEME_LIGHT,
                                       path, tl_language_plain (), &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, "20 to 1200 mm"));
    }
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  {
    g_autoptr (GError) error = NULL;

    g_assert_false (tl_drawing_save (f->verdict, TL_PICTURE_PNG, 100.0, 100.0, TL_SCHEME_LIGHT,
                                     nowhere, tl_language_plain (), &error));
    g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  }
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*run) (Fixture *, gconstpointer);
  } tests[] = {
    { "/export/png", test_png },           { "/export/one-ink", test_one_ink_png },
    { "/export/svg", test_svg },           { "/export/pdf", test_pdf },
    { "/export/pdf-text", test_pdf_text }, { "/export/refusals", test_refusals },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].run, tear_down);
  return g_test_run ();
}
