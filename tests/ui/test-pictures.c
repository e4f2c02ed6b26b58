/* test-pictures.c: the Pictures page: pictures in, scale, measures, marks, found values, report, closing, what is refused.
 *
 * Sources: GUM (JCGM 100:2008), 5.1.2, first-order propagation, for value and U of a length by a known length:
 * L = L_ref n / n_ref, u(L)/L = sqrt[(u_ref/L_ref)^2 + 2 (q/n_ref)^2 + 2 (q/n)^2], U = 2 u. PNG: ISO/IEC 15948, 5.2.
 * Controls of at least 24 px: WCAG 2.2, success criterion 2.5.8.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/pictures-page-private.h"
#include "joint/joint-file.h"
#include "ui-test.h"
#include "../unit/picture/files.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static const char INSPECTED[] = "sleeve-inspected.tinlap";
static const char DESIGN[] = "socket-circuit-weaving-floor.tinlap";

static TlPicturesPage *
open_page (TlWindow *window)
{
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "pictures");
  g_assert_cmpstr (tl_window_page (window), ==, "pictures");
  ui_test_settle (window);
  return tl_window_pictures (window);
}

static gboolean
is_idle (gpointer page)
{
  return !tl_pictures_page_is_busy (page);
}

static void
wait_idle (TlWindow *window)
{
  ui_test_settle (window);
  ui_test_wait (is_idle, tl_window_pictures (window));
  ui_test_settle (window);
}

/* A grey picture as a PNG file in @folder; (transfer full) */
static char *
write_png (const char *folder, int width, int height)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  char *path = g_build_filename (folder, "grey.png", NULL);
  g_autoptr (GError) error = NULL;

  gdk_pixbuf_fill (pixbuf, 0x808890ff);
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "png", &error, NULL));
  g_assert_no_error (error);
  return path;
}

static void
add (TlWindow *window, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  tl_pictures_page_add_file (tl_window_pictures (window), file);
  wait_idle (window);
}

static void
draw (TlInspector *inspector, TlTool tool, guint detail, const TlPixel *points, guint n)
{
  g_autoptr (GArray) array = g_array_new (FALSE, FALSE, sizeof (TlPixel));

  g_array_append_vals (array, points, n);
  tl_inspector_set_tool (inspector, tool, detail);
  tl_inspector_draw (inspector, array);
}

static void
enter (TlWindow *window, const char *id, const char *slot, const char *text)
{
  TlPictureRow *row =
      tl_inspector_side_row (tl_pictures_page_side (tl_window_pictures (window)), id);

  g_assert_nonnull (row);
  g_assert_nonnull (tl_picture_row_form (row));
  tl_record_form_enter (tl_picture_row_form (row), slot, text);
}

typedef struct
{
  char        *folder;
  char        *png;
  TlWindow    *window;
  TlInspector *inspector;
} Fixture;

/* A window on a design without pictures, and a picture of 1200 x 800 taken in. */
static void
set_up (Fixture *self, gconstpointer data)
{
  self->folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  self->png = write_png (self->folder, 1200, 800);
  self->window = ui_test_window (DESIGN);
  self->inspector = tl_pictures_page_inspector (open_page (self->window));
  g_assert_null (tl_inspector_photo (self->inspector));
  add (self->window, self->png);
  g_assert_nonnull (tl_inspector_photo (self->inspector));
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (self->window));
  g_remove (self->png);
  g_rmdir (self->folder);
  g_free (self->png);
  g_free (self->folder);
}

/* A scale of 50 mm over 1000 px, in whose plane all lies, with no other doubt than clicks of 1 px and 0.05 mm. */
static void
put_scale (Fixture *self)
{
  static const TlPixel ends[] = { { 100, 100 }, { 1100, 100 } };
  g_autofree char     *id = NULL;

  draw (self->inspector, TL_TOOL_SCALE, TL_SCALE_LENGTH, ends, 2);
  g_assert_nonnull (tl_inspector_draft (self->inspector));
  /* Without its true length it is no part of the document. */
  g_assert_null (tl_inspector_scale (self->inspector));
  enter (self->window, "", "length-mm", "5 cm");
  g_assert_null (tl_inspector_draft (self->inspector));
  g_assert_nonnull (tl_inspector_scale (self->inspector));
  id = g_strdup (tl_inspector_scale (self->inspector)->id);
  g_assert_cmpfloat (tl_inspector_scale (self->inspector)->length_mm, ==, 50.0);
  enter (self->window, id, "reference-u-mm", "0.05");
  enter (self->window, id, "tilt-deg", "0");
  enter (self->window, id, "distortion", "0");
  enter (self->window, id, "click-px", "1");
  enter (self->window, id, "plane", "same");
}

/* 50 mm over 1000 px of the picture: the design has as many px on the screen for a mm as the picture, at each zoom. */
static void
test_design_at_scale (Fixture *self, gconstpointer data)
{
  TlPicturesPage  *page = tl_window_pictures (self->window);
  TlPictureCanvas *canvas = tl_pictures_page_canvas (page);
  TlPartView      *drawing = tl_inspector_side_drawing (tl_pictures_page_side (page));
  double           fitted = tl_part_view_scale (drawing);

  g_assert_cmpfloat (fitted, >, 0.0);
  g_assert_cmpfloat (tl_picture_canvas_px_per_mm (canvas), ==, 0.0);
  put_scale (self);
  for (guint i = 0; i < 3; i++)
    {
      double wanted;

      tl_picture_canvas_zoom (canvas, i == 0 ? "fit" : "in");
      ui_test_settle (self->window);
      wanted = tl_picture_canvas_view (canvas).scale * 1000.0 / 50.0;
      g_assert_cmpfloat_with_epsilon (tl_picture_canvas_px_per_mm (canvas), wanted, 1e-9 * wanted);
      g_assert_cmpfloat_with_epsilon (tl_part_view_scale (drawing), wanted, 1e-9 * wanted);
    }
  tl_inspector_remove (self->inspector, tl_inspector_scale (self->inspector)->id);
  ui_test_settle (self->window);
  g_assert_cmpfloat_with_epsilon (tl_part_view_scale (drawing), fitted, 1e-9 * fitted);
}

static double
left_end (TlPartView *view)
{
  const GArray *items = tl_drawing_items (tl_part_view_drawing (view));
  double        left = HUGE_VAL;

  for (guint i = 0; i < items->len; i++)
    if (g_array_index (items, TlItem, i).kind == TL_ITEM_BODY)
      left = MIN (left, g_array_index (items, TlItem, i).x);
  return left;
}

static void
press (GtkWidget *widget, guint key)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);
      gboolean taken = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        {
          g_signal_emit_by_name (controller, "key-pressed", key, 0, 0, &taken);
          g_assert_true (taken);
        }
    }
}

/* A design larger than its field can be moved by keys until its ends are seen, and no further; fitted it stays. */
static void
test_design_moves (Fixture *self, gconstpointer data)
{
  TlPicturesPage *page = tl_window_pictures (self->window);
  TlPartView     *drawing = tl_inspector_side_drawing (tl_pictures_page_side (page));
  GtkWidget      *widget = GTK_WIDGET (drawing);
  double          middle, scale;

  g_assert_false (tl_part_view_is_cut (drawing));
  g_assert_false (gtk_widget_get_focusable (widget));
  put_scale (self);
  for (guint i = 0; i < 4; i++)
    tl_picture_canvas_zoom (tl_pictures_page_canvas (page), "in");
  ui_test_settle (self->window);
  g_assert_true (tl_part_view_is_cut (drawing));
  g_assert_true (gtk_widget_grab_focus (widget));
  scale = tl_part_view_scale (drawing);
  middle = left_end (drawing);
  g_assert_cmpfloat (middle, <, 0.0);
  press (widget, GDK_KEY_Left);
  g_assert_cmpfloat (left_end (drawing), >, middle);
  press (widget, GDK_KEY_Home);
  g_assert_cmpfloat_with_epsilon (left_end (drawing), middle, 1e-6);
  tl_part_view_move (drawing, 1e6, 0.0);
  g_assert_cmpfloat (left_end (drawing), >=, 0.0);
  g_assert_cmpfloat (left_end (drawing), <, 24.0);
  tl_part_view_move (drawing, -1e6, 0.0);
  g_assert_cmpfloat (left_end (drawing), <, middle);
  g_assert_cmpfloat (tl_part_view_scale (drawing), ==, scale);
  tl_inspector_remove (self->inspector, tl_inspector_scale (self->inspector)->id);
  ui_test_settle (self->window);
  g_assert_false (tl_part_view_is_cut (drawing));
  g_assert_false (gtk_widget_get_focusable (widget));
}

static void
test_length (Fixture *self, gconstpointer data)
{
  static const TlPixel ends[] = { { 200, 300 }, { 440, 300 } };
  const TlMeasure     *measure;
  TlMeasureResult      result;
  double               relative =
      sqrt (pow (0.05 / 50.0, 2) + 2.0 * pow (1.0 / 1000.0, 2) + 2.0 * pow (1.0 / 240.0, 2));

  put_scale (self);
  draw (self->inspector, TL_TOOL_MEASURE, TL_MEASURE_LENGTH, ends, 2);
  g_assert_cmpuint (tl_inspector_tool (self->inspector, NULL), ==, TL_TOOL_SELECT);
  measure = tl_inspector_record (self->inspector, tl_inspector_selected (self->inspector));
  g_assert_true (((const TlRecord *) measure)->form == &tl_measure_form);
  g_assert_true (tl_inspections_run (tl_inspector_inspections (self->inspector),
                                     tl_inspector_inspection (self->inspector), measure, &result,
                                     NULL));
  g_assert_cmpfloat_with_epsilon (result.value, 12.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (result.expanded, 2.0 * 12.0 * relative, 1e-3);
  g_assert_true (result.plane_assured);
}

/* Inside U nothing is decided; with a limit well away from it something is. */
static void
test_limit (Fixture *self, gconstpointer data)
{
  static const TlPixel ends[] = { { 200, 300 }, { 440, 300 } };
  g_autofree char     *id = NULL;
  static const struct
  {
    const char *limit;
    TlDecision  decision;
  } rows[] = { { "12.1", TL_DECISION_UNDECIDED },
               { "11", TL_DECISION_WITHIN },
               { "13", TL_DECISION_BEYOND } };

  put_scale (self);
  draw (self->inspector, TL_TOOL_MEASURE, TL_MEASURE_GAP, ends, 2);
  id = g_strdup (tl_inspector_selected (self->inspector));
  enter (self->window, id, "limit-kind", "least");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const TlMeasure *measure;
      TlMeasureResult  result;

      enter (self->window, id, "limit", rows[i].limit);
      measure = tl_inspector_record (self->inspector, id);
      g_assert_true (tl_inspections_run (tl_inspector_inspections (self->inspector),
                                         tl_inspector_inspection (self->inspector), measure,
                                         &result, NULL));
      g_assert_cmpint (tl_measure_decide (measure, &result), ==, rows[i].decision);
    }
}

/* A measure needs a scale; the sentence says so, and the document stays. */
static void
test_no_scale (Fixture *self, gconstpointer data)
{
  static const TlPixel ends[] = { { 200, 300 }, { 440, 300 } };
  TlDocument          *document = tl_window_document (self->window);
  const TlJoint       *before = tl_document_joint (document);

  draw (self->inspector, TL_TOOL_MEASURE, TL_MEASURE_LENGTH, ends, 2);
  g_assert_true (tl_document_joint (document) == before);
  g_assert_true (strstr (tl_window_last_message (self->window), "scale") != NULL);
}

/* Four corners on a line give no scale. */
static void
test_flat_corners (Fixture *self, gconstpointer data)
{
  static const TlPixel corners[] = { { 100, 100 }, { 400, 101 }, { 700, 100 }, { 1000, 101 } };

  draw (self->inspector, TL_TOOL_SCALE, TL_SCALE_RECTANGLE, corners, 4);
  enter (self->window, "", "length-mm", "60");
  enter (self->window, "", "height-mm", "20");
  g_assert_null (tl_inspector_scale (self->inspector));
  g_assert_nonnull (tl_inspector_draft (self->inspector));
}

static void
test_mark (Fixture *self, gconstpointer data)
{
  static const TlPixel corners[] = { { 300, 300 }, { 420, 360 } }, place = { 700, 500 };
  const TlPictureMark *mark;
  g_autofree char     *first = NULL, *second = NULL;

  draw (self->inspector, TL_TOOL_MARK, TL_OUTLINE_BOX, corners, 2);
  first = g_strdup (tl_inspector_selected (self->inspector));
  draw (self->inspector, TL_TOOL_MARK, TL_OUTLINE_POINT, &place, 1);
  second = g_strdup (tl_inspector_selected (self->inspector));
  enter (self->window, second, "grade", "change");
  enter (self->window, second, "seen", "insulation browned");
  enter (self->window, second, "tie", "leg-1");
  mark = tl_inspector_record (self->inspector, second);
  g_assert_cmpuint (mark->number, ==, 2);
  g_assert_cmpint (mark->grade, ==, TL_GRADE_CHANGE);
  g_assert_cmpstr (mark->tie, ==, "leg-1");
  {
    const TlVerdict *verdict = tl_document_verdict (tl_window_document (self->window));
    /* Of its own: the verdict goes with the next edit. */
    g_autofree char *contact =
        g_strdup (g_array_index (verdict->assembly->contacts, TlContact, 0).id);
    g_autofree char *text =
        tl_owner_text (verdict, contact, ui_test_stock (), tl_language_plain ());
    GtkWidget *list = tl_record_form_input (
        tl_picture_row_form (tl_inspector_side_row (
            tl_pictures_page_side (tl_window_pictures (self->window)), second)),
        "tie");

    g_assert_nonnull (strstr (text, " against "));
    g_assert_cmpuint (g_list_model_get_n_items (gtk_drop_down_get_model (GTK_DROP_DOWN (list))), >,
                      1 + tl_document_joint (tl_window_document (self->window))->legs->len
                          + tl_document_joint (tl_window_document (self->window))->layers->len);
    enter (self->window, second, "tie", contact);
    mark = tl_inspector_record (self->inspector, second);
    g_assert_cmpstr (mark->tie, ==, contact);
  }
  {
    TlPictureRow *row =
        tl_inspector_side_row (tl_pictures_page_side (tl_window_pictures (self->window)), second);
    g_autofree char *day = g_strndup (mark->when, 10),
                    *whose = g_strdup_printf ("by %s, %s", mark->who, day);

    g_assert_cmpuint (strlen (day), ==, 10);
    g_assert_cmpstr (tl_picture_row_whose (row), ==, whose);
  }
  tl_inspector_remove (self->inspector, first);
  mark = tl_inspector_record (self->inspector, second);
  g_assert_cmpuint (mark->number, ==, 1);
  tl_document_undo (tl_window_document (self->window));
  g_assert_nonnull (tl_inspector_record (self->inspector, first));
}

/* A measure tied to a figure of the design changes the verdict as found. */
static void
test_found (Fixture *self, gconstpointer data)
{
  static const TlPixel ends[] = { { 200, 300 }, { 1000, 300 } };
  const TlJoint       *joint = tl_document_joint (tl_window_document (self->window));
  const TlAsFound     *as_found;
  g_autofree char     *id = NULL, *target = NULL;
  g_autoptr (GError) error = NULL;

  put_scale (self);
  draw (self->inspector, TL_TOOL_MEASURE, TL_MEASURE_LENGTH, ends, 2);
  id = g_strdup (tl_inspector_selected (self->inspector));
  as_found = tl_inspector_as_found (self->inspector);
  g_assert_nonnull (as_found);
  g_assert_cmpuint (as_found->rows->len, ==, 0);
  target = g_strdup_printf ("%s strip", ((TlLeg *) g_ptr_array_index (joint->legs, 0))->id);
  g_assert_true (tl_inspector_tie_measure (self->inspector, id, target, &error));
  g_assert_no_error (error);
  as_found = tl_inspector_as_found (self->inspector);
  g_assert_cmpuint (as_found->rows->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (
      ((TlFoundRow *) g_ptr_array_index (as_found->rows, 0))->value.best, 40.0, 1e-9);
  g_assert_nonnull (as_found->found);
  g_assert_true (tl_inspector_tie_measure (self->inspector, id, "", &error));
  g_assert_cmpuint (tl_inspector_as_found (self->inspector)->rows->len, ==, 0);
}

static void
test_report_and_close (Fixture *self, gconstpointer data)
{
  static const TlPixel place = { 700, 500 };
  TlDocument          *document = tl_window_document (self->window);
  TlPicturesPage      *page = tl_window_pictures (self->window);
  g_autofree char     *pdf = g_build_filename (self->folder, "r.pdf", NULL),
                  *png = g_build_filename (self->folder, "a.png", NULL), *text = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  g_assert_false (tl_pictures_page_save_report (page, pdf, &error));
  g_clear_error (&error);
  draw (self->inspector, TL_TOOL_MARK, TL_OUTLINE_POINT, &place, 1);
  g_assert_true (tl_pictures_page_save_report (page, pdf, &error));
  g_assert_no_error (error);
  g_assert_true (tl_pictures_page_save_annotated (page, png, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (png, &text, &length, NULL));
  g_assert_cmpmem (text, 8, "\x89PNG\r\n\x1a\n", 8);
  for (guint i = 0; i < 2; i++)
    {
      static const char *const names[] = { "f.csv", "f.json" };
      static const char *const begins[] = { "number,picture,severity", "{\n  \"format\": 1" };
      g_autofree char         *path = g_build_filename (self->folder, names[i], NULL), *list = NULL;

      g_assert_true (tl_pictures_page_save_findings (page, path, &error));
      g_assert_true (g_file_get_contents (path, &list, NULL, NULL));
      g_assert_true (g_str_has_prefix (list, begins[i]));
      g_remove (path);
    }
  gtk_widget_activate_action (GTK_WIDGET (page), "pictures.report", NULL);
  ui_test_settle (self->window);
  g_assert_true (tl_inspector_issue (self->inspector, &error));
  g_assert_no_error (error);
  /* Undo covers the open session only. */
  g_assert_null (tl_document_undo_label (document));
  g_assert_true (tl_document_is_modified (document));
  g_assert_false (tl_inspector_is_open (self->inspector));
  draw (self->inspector, TL_TOOL_MARK, TL_OUTLINE_POINT, &place, 1);
  g_assert_cmpuint (tl_inspector_inspection (self->inspector)->marks->len, ==, 1);
  tl_inspector_revise (self->inspector);
  g_assert_true (tl_inspector_is_open (self->inspector));
  g_assert_cmpuint (tl_inspector_inspection (self->inspector)->revision, ==, 1);
  g_remove (pdf);
  g_remove (png);
}

/* --- originals out --- */

static void
assert_sum (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL),
                  *sums_path = g_build_filename (folder, "SHA256SUMS", NULL), *data = NULL,
                  *sums = NULL, *sum = NULL, *line = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &data, &length, NULL));
  g_assert_true (g_file_get_contents (sums_path, &sums, NULL, NULL));
  sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) data, length);
  line = g_strdup_printf ("%s  %s\n", sum, name);
  g_assert_nonnull (strstr (sums, line));
}

/* A picture whose camera knew the place leaves without it; what stands in the folder is not written over. */
static void
test_originals (Fixture *self, gconstpointer data)
{
  static const char *const names[] = { "picture-1.png", "picture-2.jpg", "SHA256SUMS",
                                       "pictures.csv" };
  TlPicturesPage          *page = tl_window_pictures (self->window);
  g_autofree char         *jpeg = g_build_filename (self->folder, "placed.jpg", NULL),
                  *out = g_build_filename (self->folder, "out", NULL),
                  *written = g_build_filename (out, names[1], NULL), *text = NULL;
  g_autoptr (GBytes) bytes = tf_exif_jpeg (40, 30, 1, TRUE), left = NULL;
  g_autoptr (GError) error = NULL;
  TlPhoto *photo;
  gsize    length;

  g_assert_true (g_file_set_contents (jpeg, g_bytes_get_data (bytes, NULL),
                                      (gssize) g_bytes_get_size (bytes), NULL));
  add (self->window, jpeg);
  g_assert_true (tl_inspector_photo (self->inspector)->has_position);
  g_assert_true (tl_pictures_page_save_originals (page, out, &error));
  g_assert_no_error (error);
  assert_sum (out, names[0]);
  assert_sum (out, names[1]);
  g_assert_true (g_file_get_contents (written, &text, &length, NULL));
  left = g_bytes_new (text, length);
  photo = tl_photo_new (left, "left.jpg", "", "", &error);
  g_assert_no_error (error);
  g_assert_false (photo->has_position);
  g_assert_cmpuint (photo->width, ==, 40);
  tl_record_unref (photo);
  /* A second time nothing is touched, not even what was changed since. */
  g_assert_true (g_file_set_contents (written, "mine", 4, NULL));
  g_assert_false (tl_pictures_page_save_originals (page, out, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, names[0]));
  g_free (g_steal_pointer (&text));
  g_assert_true (g_file_get_contents (written, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "mine");
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (out, names[i], NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_rmdir (out);
  g_remove (jpeg);
}

static void
find_originals (GtkWidget *widget, gpointer found)
{
  if (GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget)
      && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)),
                    "pictures.save-originals")
             == 0)
    *(GtkWidget **) found = widget;
}

static GtkWidget *
originals_button (TlPicturesPage *page)
{
  GtkWidget *found = NULL;

  ui_test_walk (GTK_WIDGET (page), find_originals, &found);
  return found;
}

/* Originals are to be had before anything is inspected and there is a report; not where there is no picture. */
static void
test_originals_without_report (Fixture *self, gconstpointer data)
{
  TlPicturesPage *page = tl_window_pictures (self->window);
  GtkWidget      *button = originals_button (page);

  g_assert_null (tl_inspector_inspection (self->inspector));
  g_assert_nonnull (button);
  g_assert_true (gtk_widget_is_sensitive (button));
  g_assert_true (gtk_widget_grab_focus (button));
  g_assert_true (ui_test_check_control (button, 24));
  g_signal_emit_by_name (button, "clicked");
  g_assert_nonnull (page->chooser);
  g_assert_cmpint (gtk_file_chooser_get_action (GTK_FILE_CHOOSER (page->chooser)), ==,
                   GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER);
  gtk_native_dialog_hide (GTK_NATIVE_DIALOG (page->chooser));
  while (tl_document_undo_label (tl_window_document (self->window)) != NULL)
    tl_document_undo (tl_window_document (self->window));
  ui_test_settle (self->window);
  g_assert_null (originals_button (page));
}

/* Undone to the start, the file is the same bytes again; saved with the picture, it opens with it. */
static void
test_undo_and_save (Fixture *self, gconstpointer data)
{
  static const TlPixel place = { 700, 500 };
  TlDocument          *document = tl_window_document (self->window);
  g_autofree char *example = ui_test_example (DESIGN), *saved = NULL, *before = NULL, *after = NULL,
                  *hash = NULL;
  g_autoptr (TlJoint) joint = NULL;
  g_autoptr (TlInspections) again = NULL;
  g_autoptr (GError) error = NULL;

  saved = g_build_filename (self->folder, "s.tinlap", NULL);
  draw (self->inspector, TL_TOOL_MARK, TL_OUTLINE_POINT, &place, 1);
  hash = g_strdup (tl_inspector_photo (self->inspector)->sha256);
  g_assert_true (tl_document_save (document, saved, &error));
  joint = tl_joint_load (saved, &error);
  g_assert_no_error (error);
  again = tl_joint_inspections (joint, &error);
  g_assert_cmpuint (again->photos->len, ==, 1);
  {
    g_autoptr (GBytes) bytes = tl_originals_get (joint->originals, hash);

    g_assert_nonnull (bytes);
  }
  while (tl_document_undo_label (document) != NULL)
    tl_document_undo (document);
  g_assert_null (tl_inspector_photo (self->inspector));
  tl_joint_unref (joint);
  joint = tl_joint_load (example, &error);
  before = tl_joint_to_text (joint, NULL);
  after = tl_joint_to_text (tl_document_joint (document), NULL);
  g_assert_cmpstr (after, ==, before);
  g_remove (saved);
}

/* Every kind of reading has its form, every word of it a label; a temperature alone is kept and not judged. */
static void
test_readings (Fixture *self, gconstpointer data)
{
  for (TlReadingKind kind = 0; kind < TL_N_READING_KINDS; kind++)
    {
      TlReading       *reading = tl_record_new (&tl_reading_form);
      const TlReading *put;
      g_autoptr (GError) error = NULL;
      g_autofree char *id = NULL;
      TlGrade          grade;

      reading->kind = kind;
      g_assert_true (tl_inspector_put (self->inspector, reading, "Add a reading", 0, &error));
      tl_record_unref (reading);
      id = g_strdup (tl_inspector_selected (self->inspector));
      ui_test_settle (self->window);
      enter (self->window, id, "value", "85");
      put = tl_inspector_record (self->inspector, id);
      g_assert_cmpfloat (put->value, ==, 85.0);
      if (kind == TL_READING_SPOT)
        g_assert_false (tl_reading_grade (put, ui_test_stock (), &grade));
    }
  /* Typed in another unit of the same kind. */
  {
    TlReading       *reading = tl_record_new (&tl_reading_form);
    const TlReading *put;
    g_autofree char *id = NULL;

    g_assert_true (tl_inspector_put (self->inspector, reading, "Add a reading", 0, NULL));
    tl_record_unref (reading);
    id = g_strdup (tl_inspector_selected (self->inspector));
    enter (self->window, id, "value", "0.31 mΩ");
    put = tl_inspector_record (self->inspector, id);
    g_assert_cmpfloat_with_epsilon (put->value, 310.0, 1e-9);
    enter (self->window, id, "value", "warm");
    put = tl_inspector_record (self->inspector, id);
    g_assert_cmpfloat_with_epsilon (put->value, 310.0, 1e-9);
  }
}

/* --- pasted --- */

static gboolean
has_two (gpointer inspector)
{
  return tl_inspector_inspections (inspector)->photos->len == 2;
}

static void
test_paste (Fixture *self, gconstpointer data)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 40, 30);
  g_autoptr (GdkTexture) texture = NULL;
  const TlPhoto *photo;

  gdk_pixbuf_fill (pixbuf, 0xff0000ff);
  texture = gdk_texture_new_for_pixbuf (pixbuf);
  gdk_clipboard_set_texture (gtk_widget_get_clipboard (GTK_WIDGET (self->window)), texture);
  gtk_widget_activate_action (GTK_WIDGET (tl_window_pictures (self->window)), "pictures.paste",
                              NULL);
  ui_test_wait (has_two, self->inspector);
  photo = tl_inspector_photo (self->inspector);
  g_assert_cmpuint (photo->width, ==, 40);
  g_assert_cmpuint (photo->height, ==, 30);
  g_assert_cmpint (photo->kind, ==, TL_PHOTO_PNG);
}

/* --- what is refused --- */

static void
test_refused (Fixture *self, gconstpointer data)
{
  static const char png_60000[] =
      "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\xea\x60\0\0\xea\x60\x08\x02\0\0\0";
  const struct
  {
    const char *name, *bytes;
    gsize       length;
  } files[] = { { "words.jpg", "no picture at all", 17 },
                { "cut.png", png_60000, 20 },
                { "empty.png", "", 0 } };
  TlDocument *document = tl_window_document (self->window);

  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_build_filename (self->folder, files[i].name, NULL);
      const TlJoint   *before = tl_document_joint (document);

      g_assert_true (g_file_set_contents (path, files[i].bytes, (gssize) files[i].length, NULL));
      add (self->window, path);
      g_assert_true (tl_document_joint (document) == before);
      g_assert_true (strstr (tl_window_last_message (self->window), files[i].name) != NULL);
      g_remove (path);
    }
  /* The same bytes twice. */
  add (self->window, self->png);
  g_assert_cmpuint (tl_inspector_inspections (self->inspector)->photos->len, ==, 1);
  /* One that is gone. */
  {
    g_autofree char *gone = g_build_filename (self->folder, "gone.png", NULL);

    add (self->window, gone);
    g_assert_cmpuint (tl_inspector_inspections (self->inspector)->photos->len, ==, 1);
  }
}

/* --- a document that has pictures --- */

static void
check_control (GtkWidget *widget, gpointer count)
{
  if (!ui_test_check_control (widget, 24))
    return;
  (*(guint *) count)++;
}

static void
test_inspected (void)
{
  TlWindow            *window = ui_test_window (INSPECTED);
  TlPicturesPage      *page = open_page (window);
  TlInspector         *inspector = tl_pictures_page_inspector (page);
  const TlInspections *all = tl_inspector_inspections (inspector);
  const TlInspection  *inspection = tl_inspector_inspection (inspector);
  TlInspectorSide     *side = tl_pictures_page_side (page);
  guint                controls = 0;

  wait_idle (window);
  g_assert_cmpuint (all->photos->len, ==, 3);
  g_assert_nonnull (inspection);
  gtk_test_accessible_assert_role (tl_pictures_page_canvas (page), GTK_ACCESSIBLE_ROLE_IMG);
  g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (tl_pictures_page_canvas (page)),
                                                   GTK_ACCESSIBLE_PROPERTY_LABEL));
  /* What is selected brings its picture up and opens its row. */
  for (guint i = 0; i < inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (inspection->marks, i);

      tl_inspector_select (inspector, mark->id);
      g_assert_cmpstr (tl_inspector_photo (inspector)->id, ==, mark->picture);
      g_assert_cmpstr (tl_inspector_side_shown (side), ==, "marks");
      g_assert_nonnull (tl_picture_row_form (tl_inspector_side_row (side, mark->id)));
      ui_test_settle (window);
    }
  for (guint i = 0; i < all->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (all->readings, i);

      tl_inspector_select (inspector, reading->id);
      g_assert_cmpstr (tl_inspector_side_shown (side), ==, "readings");
      ui_test_settle (window);
    }
  for (guint i = 0; i < 5; i++)
    {
      static const char *const lists[] = { "marks", "measures", "readings", "found", "inspection" };

      tl_inspector_side_show (side, lists[i]);
      ui_test_settle (window);
      ui_test_walk (GTK_WIDGET (page), check_control, &controls);
    }
  g_assert_cmpuint (controls, >, 40);
  tl_picture_canvas_compare (tl_pictures_page_canvas (page),
                             ((TlPhoto *) g_ptr_array_index (all->photos, 1))->id);
  tl_inspector_choose_photo (inspector, ((TlPhoto *) g_ptr_array_index (all->photos, 0))->id);
  wait_idle (window);
  g_assert_nonnull (tl_picture_canvas_compared (tl_pictures_page_canvas (page)));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* No list makes the column wider, so that the picture does not jump. */
static void
test_widths (void)
{
  TlWindow        *window = ui_test_window (INSPECTED);
  TlPicturesPage  *page = open_page (window);
  TlInspectorSide *side = tl_pictures_page_side (page);
  TlInspector     *inspector = tl_pictures_page_inspector (page);
  int              width;

  wait_idle (window);
  width = gtk_widget_get_width (GTK_WIDGET (side));
  for (guint i = 0; i < tl_inspector_inspection (inspector)->scales->len; i++)
    {
      tl_inspector_select (
          inspector,
          ((TlScale *) g_ptr_array_index (tl_inspector_inspection (inspector)->scales, i))->id);
      ui_test_settle (window);
      g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (side)), ==, width);
    }
  tl_inspector_side_show (side, "inspection");
  ui_test_settle (window);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (side)), ==, width);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Without a picture neither: the page as a whole fits into the window at 1024. */
static void
test_empty_width (void)
{
  TlWindow                *window = ui_test_window (DESIGN);
  TlInspectorSide         *side = tl_pictures_page_side (open_page (window));
  static const char *const lists[] = { "marks", "measures", "readings", "found", "inspection" };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      int least, natural;

      tl_inspector_side_show (side, lists[i]);
      ui_test_settle (window);
      gtk_widget_measure (ui_test_find (GTK_WIDGET (side), GTK_TYPE_STACK),
                          GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
      g_assert_cmpint (least, <=, 340);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

#define WITH_PICTURE(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/pictures/inspected", test_inspected);
  g_test_add_func ("/pictures/widths", test_widths);
  g_test_add_func ("/pictures/empty-width", test_empty_width);
  WITH_PICTURE ("/pictures/design-at-scale", test_design_at_scale);
  WITH_PICTURE ("/pictures/design-moves", test_design_moves);
  WITH_PICTURE ("/pictures/length", test_length);
  WITH_PICTURE ("/pictures/limit", test_limit);
  WITH_PICTURE ("/pictures/no-scale", test_no_scale);
  WITH_PICTURE ("/pictures/flat-corners", test_flat_corners);
  WITH_PICTURE ("/pictures/mark", test_mark);
  WITH_PICTURE ("/pictures/found", test_found);
  WITH_PICTURE ("/pictures/report", test_report_and_close);
  WITH_PICTURE ("/pictures/originals", test_originals);
  WITH_PICTURE ("/pictures/originals-without-report", test_originals_without_report);
  WITH_PICTURE ("/pictures/undo", test_undo_and_save);
  WITH_PICTURE ("/pictures/readings", test_readings);
  WITH_PICTURE ("/pictures/paste", test_paste);
  WITH_PICTURE ("/pictures/refused", test_refused);
  return g_test_run ();
}
