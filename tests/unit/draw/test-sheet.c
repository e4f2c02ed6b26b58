/* test-sheet.c: the step sheet on paper: places, sizes, text of the PDF, sameness.
 *
 * Sizes of paper: ISO 216 (A4 210 x 297 mm) and ASME Y14.1 (Letter 8.5 x 11 in). The rest is the project's own
 * drawing key. The PDF is read back with the poppler tools; where they are missing those checks are skipped.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"
#include "joint/edit.h"
#include "plan-test.h"

#include <glib/gstdio.h>
#include <string.h>

#define PRESSED "socket-circuit-weaving-floor"
#define BOLTED "bolted-as-it-should-be"
#define REFUSED "copper-on-aluminium"
#define CHANGE "no-spring-washer"
#define DAY "2026-03-03"

static TlSheet *
sheet_of (TlJoint *joint, TlPaper paper)
{
  g_autoptr (TlVerdict) verdict = pt_judge (joint);

  return tl_sheet_new (verdict, paper, DAY, tl_language_plain ());
}

static TlJoint *
with_text (TlJoint *joint, const char *what, const char *value)
{
  g_autoptr (GError) error = NULL;
  TlJoint *edited = tl_edit_set_text (joint, what, value, &error);

  g_assert_no_error (error);
  tl_joint_unref (joint);
  return edited;
}

/* --- layout --- */

/* Nothing hangs over, nothing overlaps, and a hold stands on the page of the step before it. */
static void
assert_layout (const TlSheet *sheet)
{
  double top = tl_sheet_body_top (sheet), bottom = tl_sheet_body_bottom (sheet), y = top;
  guint page = 0, step_page = G_MAXUINT;

  for (guint i = 0; i < sheet->blocks->len; i++)
    {
      const TlBlock *block = &g_array_index (sheet->blocks, TlBlock, i);

      if (block->page != page)
        {
          g_assert_cmpuint (block->page, ==, page + 1);
          page = block->page;
          y = top;
        }
      g_assert_cmpfloat (block->y, >=, y - 1e-9);
      y = block->y + block->height;
      g_assert_cmpfloat (y, <=, bottom + 1e-9);
      if (block->draw != tl_block_step)
        continue;
      if (((TlStep *) g_ptr_array_index (sheet->steps->steps, block->first))->is_hold)
        g_assert_cmpuint (block->page, ==, step_page);
      step_page = block->page;
    }
  g_assert_cmpuint (sheet->ruler_page, <, tl_sheet_pages (sheet));
  g_assert_cmpuint (page, <, tl_sheet_pages (sheet));
}

static void
test_layout (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint i = 0; i < names->len; i++)
    for (TlPaper paper = TL_PAPER_A4; paper <= TL_PAPER_LETTER; paper++)
      {
        g_autoptr (TlSheet) sheet = sheet_of (pt_example (g_ptr_array_index (names, i)), paper);

        assert_layout (sheet);
        g_assert_cmpuint (tl_sheet_pages (sheet), <=, 5);
        if (tl_sheet_steps (sheet)->state == TL_SHEET_REFUSED)
          g_assert_cmpuint (tl_sheet_pages (sheet), <=, 2);
      }
}

/* A page that holds nothing but assumptions is there only if no page before it has the room. */
static void
test_assumed_page (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();
  guint moved = 0;

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlSheet) sheet = sheet_of (pt_example (g_ptr_array_index (names, i)), TL_PAPER_A4);
      double ends[8] = { 0.0 };
      guint  blocks[8] = { 0 };

      g_assert_cmpuint (tl_sheet_pages (sheet), <=, G_N_ELEMENTS (ends));
      for (guint k = 0; k < sheet->blocks->len; k++)
        {
          const TlBlock *block = &g_array_index (sheet->blocks, TlBlock, k);

          ends[block->page] = block->y + block->height;
          blocks[block->page]++;
          moved += block->draw == tl_block_assumed && block->page + 1 < tl_sheet_pages (sheet);
        }
      for (guint k = 0; k < sheet->blocks->len; k++)
        {
          const TlBlock *block = &g_array_index (sheet->blocks, TlBlock, k);

          for (guint page = 0; page < block->page && block->draw == tl_block_assumed && blocks[block->page] == 1; page++)
            g_assert_cmpfloat (ends[page] + block->height, >, tl_sheet_body_bottom (sheet));
        }
    }
  g_assert_cmpuint (moved, >, 0);
}

static guint
blocks_of (const TlSheet *sheet, TlBlockFunc draw)
{
  guint count = 0;

  for (guint i = 0; i < sheet->blocks->len; i++)
    count += g_array_index (sheet->blocks, TlBlock, i).draw == draw;
  return count;
}

/* The box is drawn where its inner sizes are known; on a refused sheet only where it is the trouble. The half page stands
 * on every sheet that says that no joint can be made, and is no higher than half of the paper. */
static void
test_box_and_half_page (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();
  guint boxes = 0, halves = 0;

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlSheet) sheet = sheet_of (pt_example (g_ptr_array_index (names, i)), TL_PAPER_A4);
      gboolean refused = sheet->steps->state == TL_SHEET_REFUSED, is_tight = sheet->box != NULL && sheet->box->over_mm > 0.0;
      guint box = blocks_of (sheet, tl_block_box), half = blocks_of (sheet, tl_block_instead);

      g_assert_cmpuint (box, ==, sheet->box != NULL && (!refused || is_tight));
      g_assert_cmpuint (half, ==, refused || sheet->steps->no_joint);
      boxes += box;
      halves += half;
      for (guint k = 0; k < sheet->blocks->len; k++)
        if (g_array_index (sheet->blocks, TlBlock, k).draw == tl_block_instead)
          g_assert_cmpfloat (g_array_index (sheet->blocks, TlBlock, k).height, <, 297.0 / 2.0);
    }
  g_assert_cmpuint (boxes, >, 10);
  g_assert_cmpuint (halves, >, 4);
}

static void
test_paper (void)
{
  g_autoptr (TlSheet) a4 = sheet_of (pt_example (BOLTED), TL_PAPER_A4);
  g_autoptr (TlSheet) letter = sheet_of (pt_example (BOLTED), TL_PAPER_LETTER);
  double width, height;

  tl_sheet_size_mm (a4, &width, &height);
  g_assert_cmpfloat (width, ==, 210.0);
  g_assert_cmpfloat (height, ==, 297.0);
  tl_sheet_size_mm (letter, &width, &height);
  g_assert_cmpfloat_with_epsilon (width, 8.5 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (height, 11.0 * 25.4, 1e-9);
}

/* --- ink --- */

static cairo_surface_t *
render (const TlSheet *sheet, guint page, double pixels_per_mm)
{
  double width, height;
  cairo_surface_t *surface;
  cairo_t *cr;

  tl_sheet_size_mm (sheet, &width, &height);
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (width * pixels_per_mm),
                                        (int) (height * pixels_per_mm));
  cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_paint (cr);
  cairo_scale (cr, pixels_per_mm, pixels_per_mm);
  tl_sheet_paint (sheet, cr, page);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  const guchar *data = cairo_image_surface_get_data (surface);
  guint32 value;

  memcpy (&value, data + (gsize) y * cairo_image_surface_get_stride (surface) + (gsize) x * 4, 4);
  return value & 0xffffff;
}

static gboolean
is_dark (cairo_surface_t *surface, int x, int y)
{
  return (pixel (surface, x, y) & 0xff) < 0x80;
}

/* One ink: every pixel is grey. Nothing stands in the margins. */
static void
assert_ink (const TlSheet *sheet, guint page)
{
  const double scale = 4.0;
  cairo_surface_t *surface = render (sheet, page, scale);
  int width = cairo_image_surface_get_width (surface);
  int height = cairo_image_surface_get_height (surface);
  int left = (int) (TL_SHEET_LEFT * scale) - 1;
  int right = (int) ((TL_SHEET_LEFT + TL_SHEET_WIDTH) * scale) + 1;
  int top = (int) (TL_SHEET_TOP * scale) - 1;
  int bottom = height - (int) (TL_SHEET_BOTTOM * scale) + 4;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        guint32 value = pixel (surface, x, y);

        g_assert_cmpuint (value & 0xff, ==, value >> 8 & 0xff);
        g_assert_cmpuint (value & 0xff, ==, value >> 16 & 0xff);
        if ((x < left || x > right || y < top || y > bottom) && (value & 0xff) < 0x80)
          g_error ("ink at %.1f, %.1f mm of page %u", x / scale, y / scale, page + 1);
      }
  cairo_surface_destroy (surface);
}

static void
test_ink (void)
{
  static const char *const names[] = { PRESSED, BOLTED, REFUSED, CHANGE };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlSheet) sheet = sheet_of (
          pt_example (names[i]), i % 2 == 0 ? TL_PAPER_A4 : TL_PAPER_LETTER);

      for (guint page = 0; page < tl_sheet_pages (sheet); page++)
        assert_ink (sheet, page);
    }
}

/* Length of the run of dark pixels from @x on. */
static int
run_length (cairo_surface_t *surface, int x, int y)
{
  int end = x;

  while (end < cairo_image_surface_get_width (surface) && is_dark (surface, end, y))
    end++;
  return end - x;
}

/* At 10 pixels to the mm the line of the ruler is 1000 pixels long, and no other line on the page is. */
static gboolean
has_ruler (cairo_surface_t *surface)
{
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      {
        int length = is_dark (surface, x, y) ? run_length (surface, x, y) : 0;

        if (length >= 999 && length <= 1003)
          return TRUE;
        x += length;
      }
  return FALSE;
}

static void
test_ruler (void)
{
  for (TlPaper paper = TL_PAPER_A4; paper <= TL_PAPER_LETTER; paper++)
    {
      g_autoptr (TlSheet) sheet = sheet_of (pt_example (BOLTED), paper);
      cairo_surface_t *surface = render (sheet, sheet->ruler_page, 10.0);

      g_assert_true (has_ruler (surface));
      cairo_surface_destroy (surface);
    }
}

/* --- huge texts --- */

static void
test_huge_texts (void)
{
  g_autofree char *word = g_strnfill (60000, 'm');
  g_autoptr (GString) words = g_string_new (NULL);
  TlJoint *joint = pt_example (PRESSED);
  g_autoptr (TlSheet) sheet = NULL;

  for (guint i = 0; i < 12000; i++)
    g_string_append (words, "länger ");
  joint = with_text (joint, "name", words->str);
  joint = with_text (joint, "place", word);
  joint = with_text (joint, "prepared-by", words->str);
  sheet = sheet_of (joint, TL_PAPER_A4);
  assert_layout (sheet);
  for (guint page = 0; page < tl_sheet_pages (sheet); page++)
    assert_ink (sheet, page);
}

/* An assumption with a long note, many of them: boxes stay whole, pages grow. */
static void
test_many_assumptions (void)
{
  g_autofree char *note = g_strnfill (5000, 'w');
  static const TlField fields[] = { TL_FIELD_STRIP, TL_FIELD_FREE_LENGTH, TL_FIELD_BENDS,
                                    TL_FIELD_BEND_RADIUS, TL_FIELD_YEAR };
  TlJoint *joint = pt_example (BOLTED);
  g_autoptr (TlSheet) sheet = NULL;

  for (guint leg = 0; leg < 2; leg++)
    for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
      {
        TlFact fact = { .field = fields[i], .value = tl_range_exact (fields[i] == TL_FIELD_YEAR ? 1970 : 30),
                        .known_by = TL_KNOWN_ASSUMED, .note = note };
        g_autoptr (GError) error = NULL;
        TlJoint *edited = tl_edit_set_fact (joint, leg == 0 ? "leg-1" : "leg-2", &fact, &error);

        g_assert_no_error (error);
        tl_joint_unref (joint);
        joint = edited;
      }
  sheet = sheet_of (joint, TL_PAPER_A4);
  g_assert_cmpuint (tl_sheet_steps (sheet)->assumed->len, >=, 10);
  assert_layout (sheet);
}

/* --- the PDF --- */

/* Output of a tool, %NULL if it is not installed. */
static char *
tool (const char *const *argv)
{
  g_autofree char *program = g_find_program_in_path (argv[0]);
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status = 0;

  if (program == NULL)
    return NULL;
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL,
                NULL, &output, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return output;
}

/* Runs of white space as one blank, so that lines may break anywhere. */
static char *
one_line (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    {
      gunichar letter = g_utf8_get_char (c);

      if (!g_unichar_isspace (letter))
        g_string_append_unichar (out, letter);
      else if (out->len > 0 && out->str[out->len - 1] != ' ')
        g_string_append_c (out, ' ');
    }
  return g_string_free (out, FALSE);
}

static char *
pdf_of (const TlSheet *sheet, const char *folder)
{
  char *path = g_build_filename (folder, "sheet.pdf", NULL);
  g_autoptr (GError) error = NULL;

  tl_sheet_save_pdf (sheet, path, &error);
  g_assert_no_error (error);
  return path;
}

static char *
page_text (const char *path, guint page)
{
  g_autofree char *number = g_strdup_printf ("%u", page + 1);
  const char *const argv[] = { "pdftotext", "-f", number, "-l", number, path, "-", NULL };
  g_autofree char *text = tool (argv);

  return text != NULL ? one_line (text) : NULL;
}

static char *
temporary_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("tinlap-sheet-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

static void
remove_folder (const char *folder, const char *path)
{
  g_assert_cmpint (g_remove (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static char *
whole_text (const TlSheet *sheet, const char *path)
{
  GString *text = g_string_new (NULL);

  for (guint page = 0; page < tl_sheet_pages (sheet); page++)
    {
      g_autofree char *part = page_text (path, page);

      if (part == NULL)
        {
          g_string_free (text, TRUE);
          return NULL;
        }
      g_string_append (text, part);
    }
  return g_string_free (text, FALSE);
}

static void
test_pdf_text (void)
{
  static const char *const names[] = { PRESSED, BOLTED };

  for (guint n = 0; n < G_N_ELEMENTS (names); n++)
    {
      g_autoptr (TlSheet) sheet = sheet_of (pt_example (names[n]), TL_PAPER_A4);
      g_autofree char *folder = temporary_folder ();
      g_autofree char *path = pdf_of (sheet, folder);
      g_autofree char *text = whole_text (sheet, path);

      for (guint i = 0; text != NULL && i < tl_sheet_steps (sheet)->steps->len; i++)
        {
          const TlStep *step = g_ptr_array_index (tl_sheet_steps (sheet)->steps, i);
          g_autofree char *wanted = one_line (step->text);

          if (strstr (text, wanted) == NULL)
            g_error ("“%s” is not found in the PDF", wanted);
        }
      remove_folder (folder, path);
      if (text == NULL)
        g_test_skip ("pdftotext is not installed");
    }
}

/* Every page of @name holds @wanted and none holds @unwanted. */
static void
assert_every_page (const char *name, const char *wanted, const char *unwanted)
{
  g_autoptr (TlSheet) sheet = sheet_of (pt_example (name), TL_PAPER_A4);
  g_autofree char *folder = temporary_folder ();
  g_autofree char *path = pdf_of (sheet, folder);

  for (guint page = 0; page < tl_sheet_pages (sheet); page++)
    {
      g_autofree char *text = page_text (path, page);

      if (text == NULL)
        {
          g_test_skip ("pdftotext is not installed");
          break;
        }
      g_assert_nonnull (strstr (text, wanted));
      g_assert_null (strstr (text, unwanted));
      g_assert_nonnull (strstr (text, "This joint only; the other old joints of the circuit"));
    }
  remove_folder (folder, path);
}

static void
test_pdf_every_page (void)
{
  assert_every_page (CHANGE, "To be changed before it is made", "Not to be made as drawn");
  assert_every_page (BOLTED, "Dryer feed", "To be changed before it is made");
}

static void
test_pdf_refused (void)
{
  g_autoptr (TlSheet) sheet = sheet_of (pt_example (REFUSED), TL_PAPER_A4);
  g_autofree char *folder = temporary_folder ();
  g_autofree char *path = pdf_of (sheet, folder);
  g_autofree char *text = whole_text (sheet, path);

  remove_folder (folder, path);
  if (text == NULL)
    {
      g_test_skip ("pdftotext is not installed");
      return;
    }
  g_assert_nonnull (strstr (text, "Not to be made as drawn"));
  g_assert_nonnull (strstr (text, "Example of a fault"));
  g_assert_null (strstr (text, "HOLD"));
  g_assert_null (strstr (text, "Steps"));
  g_assert_null (strstr (text, "Tools"));
}

static void
test_pdf_info (void)
{
  g_autoptr (TlSheet) sheet = sheet_of (pt_example (BOLTED), TL_PAPER_LETTER);
  g_autofree char *folder = temporary_folder ();
  g_autofree char *path = pdf_of (sheet, folder);
  const char *const argv[] = { "pdfinfo", "-isodates", path, NULL };
  g_autofree char *info = tool (argv);
  g_autofree char *pages = g_strdup_printf ("Pages: %u", tl_sheet_pages (sheet));
  g_autofree char *line = info != NULL ? one_line (info) : NULL;

  remove_folder (folder, path);
  if (info == NULL)
    {
      g_test_skip ("pdfinfo is not installed");
      return;
    }
  g_assert_nonnull (strstr (line, "Title: Dryer feed, Loft 2"));
  g_assert_nonnull (strstr (line, "Tagged: yes"));
  g_assert_nonnull (strstr (line, "CreationDate: " DAY "T00:00:00Z"));
  g_assert_nonnull (strstr (line, "Page size: 612 x 792 pts"));
  g_assert_nonnull (strstr (line, pages));
}

static void
test_same_bytes (void)
{
  char *data[2] = { NULL, NULL };
  gsize length[2];

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (TlSheet) sheet = sheet_of (pt_example (PRESSED), TL_PAPER_A4);
      g_autofree char *folder = temporary_folder ();
      g_autofree char *path = pdf_of (sheet, folder);

      g_assert_true (g_file_get_contents (path, &data[i], &length[i], NULL));
      remove_folder (folder, path);
    }
  g_assert_cmpmem (data[0], length[0], data[1], length[1]);
  /* A four-page sheet in 250 kB: the project's own measure. */
  g_assert_cmpuint (length[0], <, 250000);
  g_free (data[0]);
  g_free (data[1]);
}

static void
test_unwritable (void)
{
  g_autoptr (TlSheet) sheet = sheet_of (pt_example (BOLTED), TL_PAPER_A4);
  g_autoptr (GError) error = NULL;

  g_assert_false (tl_sheet_save_pdf (sheet, "/nonexistent-folder/sheet.pdf", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "sheet.pdf"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/layout", test_layout);
  g_test_add_func ("/sheet/assumed-page", test_assumed_page);
  g_test_add_func ("/sheet/paper", test_paper);
  g_test_add_func ("/sheet/box-and-half-page", test_box_and_half_page);
  g_test_add_func ("/sheet/ink", test_ink);
  g_test_add_func ("/sheet/ruler", test_ruler);
  g_test_add_func ("/sheet/huge/texts", test_huge_texts);
  g_test_add_func ("/sheet/huge/assumptions", test_many_assumptions);
  g_test_add_func ("/sheet/pdf/text", test_pdf_text);
  g_test_add_func ("/sheet/pdf/every-page", test_pdf_every_page);
  g_test_add_func ("/sheet/pdf/refused", test_pdf_refused);
  g_test_add_func ("/sheet/pdf/info", test_pdf_info);
  g_test_add_func ("/sheet/pdf/same-bytes", test_same_bytes);
  g_test_add_func ("/sheet/pdf/unwritable", test_unwritable);
  return g_test_run ();
}
