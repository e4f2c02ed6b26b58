/* test-window.c: the window: files good and bad, names for the screen reader, target sizes, facts, first page.
 *
 * Sizes: 12 AWG is 3.31 mm² (ASTM B258, as printed in NFPA 70, 2020, Chapter 9 Table 8). The least target of
 * 24 × 24 px: WCAG 2.2, success criterion 2.5.8; ours is 28 by design, 24 for words in a line.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-picture.h"
#include "app/conductor-choice.h"
#include "app/facts-strip.h"
#include "app/finding-row.h"
#include "app/findings-pane.h"
#include "joint/joint-file.h"
#include "app/kept-work.h"
#include "ui-test.h"

#include <glib/gstdio.h>

static char *
bytes_of (TlWindow *window)
{
  gsize length;

  return tl_joint_to_text (tl_document_joint (tl_window_document (window)), &length);
}

static char *
temporary (const char *name)
{
  return g_build_filename (g_get_tmp_dir (), name, NULL);
}

/* --- files --- */
static void
test_bad_file (void)
{
  static const char *const bad[] = {
    "", "<joint", "<?xml version='1.0'?><other/>",
    "<!DOCTYPE j [<!ENTITY a 'b'>]><joint xmlns='urn:tinlap:joint:1' format='1'/>"
  };
  TlWindow        *window = ui_test_window ("zinc-washer.tinlap");
  g_autofree char *before = bytes_of (window), *path = temporary ("tinlap-bad.tinlap");

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *after = NULL;

      g_assert_true (g_file_set_contents (path, bad[i], -1, NULL));
      g_assert_false (tl_window_open (window, path));
      after = bytes_of (window);
      g_assert_cmpstr (after, ==, before);
      g_assert_nonnull (strstr (tl_window_last_message (window), "tinlap-bad.tinlap"));
      g_assert_null (strchr (tl_window_last_message (window), '\n'));
    }
  g_unlink (path);
  g_assert_false (tl_window_open (window, path));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_save_and_reopen (void)
{
  TlWindow        *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument      *document = tl_window_document (window);
  g_autofree char *path = temporary ("tinlap-saved.tinlap");
  TlSeverity       severity = tl_document_verdict (document)->severity;

  tl_document_select (document, "layer-3");
  gtk_widget_activate_action (GTK_WIDGET (tl_build_page_bench (tl_window_build (window))),
                              "bench.remove", NULL);
  g_assert_true (tl_document_is_modified (document));
  tl_document_undo (document);
  g_assert_false (tl_document_is_modified (document));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.save-to", "s", path);
  g_assert_cmpstr (tl_document_path (document), ==, path);
  g_assert_true (tl_window_open (window, path));
  g_assert_nonnull (tl_document_joint (document)->used);
  g_assert_cmpuint (tl_document_joint (document)->used->parts->len, >, 0);
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, severity);
  g_assert_null (tl_document_judge_anew (document));
  g_assert_false (tl_document_is_stale (document));
  g_assert_true (g_file_set_contents (path, "somebody else", -1, NULL));
  g_assert_true (tl_document_is_stale (document));
  g_unlink (path);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A document whose own figures are older than the data is judged by them until the person says otherwise. */
static void
test_judge_anew (void)
{
  TlWindow   *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument *document = tl_window_document (window);
  g_autoptr (TlUsed) used = tl_verdict_dup_used (tl_document_verdict (document));
  g_autoptr (TlVerdict) anew = NULL;
  TlPart  *part = g_ptr_array_index (used->parts, 0);
  TlFacts *changed =
      tl_facts_with_number (part->facts, TL_FIELD_COATING_THICKNESS, 77.0, TL_KNOWN_SEEN);
  TlJoint *old;

  tl_facts_unref (part->facts);
  part->facts = changed;
  old = tl_edit_set_used (tl_document_joint (document), used);
  tl_document_take (document, old, "old figures", NULL, 0);
  anew = tl_document_judge_anew (document);
  g_assert_nonnull (anew);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_export (void)
{
  TlWindow        *window = ui_test_window ("socket-circuit-weaving-floor.tinlap");
  g_autofree char *path = temporary ("tinlap-sheet.pdf"), *data = NULL;
  gsize            length;

  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "steps");
  g_assert_cmpstr (tl_window_page (window), ==, "steps");
  g_assert_cmpuint (tl_steps_page_pages (tl_window_steps (window)), >=, 1);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.export-to", "s", path);
  g_assert_true (g_file_get_contents (path, &data, &length, NULL));
  g_assert_true (g_str_has_prefix (data, "%PDF-"));
  g_unlink (path);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.export-to", "s",
                              "/nonexistent/folder/sheet.pdf");
  g_assert_nonnull (strstr (tl_window_last_message (window), "/nonexistent/folder"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- names and sizes --- */
static gboolean
has_text (GtkWidget *widget)
{
  GtkWidget *label = ui_test_find (widget, GTK_TYPE_LABEL);

  return label != NULL && *gtk_label_get_text (GTK_LABEL (label)) != '\0';
}

/* Window buttons and the insides of GTK's own widgets are GTK's care. */
static gboolean
is_ours (GtkWidget *widget)
{
  return gtk_widget_get_ancestor (widget, GTK_TYPE_WINDOW_CONTROLS) == NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_DROP_DOWN) == NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_MENU_BUTTON) == NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_ENTRY) == NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_SEARCH_ENTRY) == NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLBAR) == NULL;
}

static gboolean
is_control (GtkWidget *widget)
{
  return GTK_IS_BUTTON (widget) || GTK_IS_TEXT (widget) || GTK_IS_DROP_DOWN (widget)
         || GTK_IS_ENTRY (widget) || GTK_IS_MENU_BUTTON (widget) || GTK_IS_SEARCH_ENTRY (widget);
}

static void
check_name (GtkWidget *widget, gpointer count)
{
  gboolean is_a_container =
      GTK_IS_DROP_DOWN (widget) || GTK_IS_ENTRY (widget) || GTK_IS_SEARCH_ENTRY (widget);
  GtkWidget *parent = gtk_widget_get_parent (widget);

  if (!is_control (widget) || !gtk_widget_get_mapped (widget)
      || (parent != NULL
          && !is_ours (is_a_container || GTK_IS_MENU_BUTTON (widget) ? parent : widget)))
    return;
  if ((GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget)) && has_text (widget))
    return;
  if (!gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    g_error ("%s without a name in %s", G_OBJECT_TYPE_NAME (widget), G_OBJECT_TYPE_NAME (parent));
  (*(guint *) count)++;
}

static void
check_size (GtkWidget *widget, gpointer count)
{
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);

  if (!is_control (widget) || GTK_IS_TEXT (widget) || !gtk_widget_get_mapped (widget)
      || !is_ours (widget))
    return;
  if (width < 24 || height < 24)
    g_error ("%s is %d × %d px", G_OBJECT_TYPE_NAME (widget), width, height);
  (*(guint *) count)++;
}

static void
test_names_and_sizes (void)
{
  TlWindow *window = ui_test_window ("zinc-washer.tinlap");
  guint     named = 0, sized = 0;

  tl_document_select (tl_window_document (window), "layer-3");
  ui_test_settle (window);
  ui_test_walk (GTK_WIDGET (window), check_name, &named);
  ui_test_walk (GTK_WIDGET (window), check_size, &sized);
  tl_document_select (tl_window_document (window), NULL);
  ui_test_settle (window);
  ui_test_walk (GTK_WIDGET (window), check_name, &named);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "steps");
  ui_test_settle (window);
  ui_test_walk (GTK_WIDGET (window), check_name, &named);
  ui_test_walk (GTK_WIDGET (window), check_size, &sized);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.first-page", NULL);
  ui_test_settle (window);
  ui_test_walk (GTK_WIDGET (window), check_name, &named);
  ui_test_walk (GTK_WIDGET (window), check_size, &sized);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.own-part", "s", "washer-plain-m5-steel");
  ui_test_settle (window);
  ui_test_walk (tl_window_own_parts (window), check_name, &named);
  ui_test_walk (tl_window_own_parts (window), check_size, &sized);
  g_assert_cmpuint (named, >, 20);
  g_assert_cmpuint (sized, >, 20);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- facts --- */
typedef struct
{
  const char *label;
  GtkWidget  *found;
} TextSearch;

static void
find_entry (GtkWidget *widget, gpointer data)
{
  TextSearch *search = data;
  GtkWidget  *label;

  if (search->found != NULL || g_strcmp0 (G_OBJECT_TYPE_NAME (widget), "TlFactEntry") != 0)
    return;
  label = ui_test_find (widget, GTK_TYPE_LABEL);
  if (g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), search->label) == 0)
    search->found = ui_test_find (widget, GTK_TYPE_TEXT);
}

static GtkWidget *
entry_of (TlWindow *window, TlField field)
{
  TextSearch search = { tl_language_text (tl_language_plain (), tl_field_info (field)->label),
                        NULL };

  ui_test_walk (GTK_WIDGET (window), find_entry, &search);
  g_assert_nonnull (search.found);
  return search.found;
}

static void
type_in (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
}

static void
test_typed_units (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument   *document = tl_window_document (window);
  GtkWidget    *entry;
  const TlFact *fact;

  tl_document_select (document, "leg-1");
  ui_test_settle (window);
  entry = entry_of (window, TL_FIELD_SECTION);
  type_in (entry, "12 AWG");
  fact =
      tl_facts_get (tl_joint_leg (tl_document_joint (document), "leg-1")->facts, TL_FIELD_SECTION);
  g_assert_nonnull (fact);
  g_assert_cmpfloat_with_epsilon (fact->value.best, 3.31, 0.005);
  g_assert_cmpint (fact->known_by, ==, TL_KNOWN_STATED);

  type_in (entry, "twelve");
  gtk_test_accessible_assert_state (entry, GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);
  fact =
      tl_facts_get (tl_joint_leg (tl_document_joint (document), "leg-1")->facts, TL_FIELD_SECTION);
  g_assert_cmpfloat_with_epsilon (fact->value.best, 3.31, 0.005);

  /* An emptied entry goes back to the stock's figure. */
  type_in (entry, "");
  g_assert_null (
      tl_facts_get (tl_joint_leg (tl_document_joint (document), "leg-1")->facts, TL_FIELD_SECTION));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- findings --- */
static GtkWidget *
row_with_mend (GtkWidget *widget)
{
  if (TL_IS_FINDING_ROW (widget) && tl_finding_row_finding (TL_FINDING_ROW (widget)) != NULL
      && tl_finding_row_finding (TL_FINDING_ROW (widget))->mend != NULL)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = row_with_mend (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
test_mend (void)
{
  TlWindow        *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlDocument      *document = tl_window_document (window);
  GtkWidget       *row = row_with_mend (GTK_WIDGET (window));
  g_autofree char *before = bytes_of (window), *mended = NULL, *undone = NULL;

  g_assert_nonnull (row);
  tl_finding_row_set_open (TL_FINDING_ROW (row), TRUE);
  g_assert_true (tl_finding_row_is_open (TL_FINDING_ROW (row)));
  gtk_widget_activate_action (row, "finding.mend", NULL);
  mended = bytes_of (window);
  g_assert_cmpstr (mended, !=, before);
  tl_document_undo (document);
  undone = bytes_of (window);
  g_assert_cmpstr (undone, ==, before);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- first page --- */
static gboolean
has_examples (gpointer window)
{
  return tl_first_page_example_count (tl_window_first (window)) >= 12;
}

static void
test_first_page (void)
{
  TlWindow       *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument     *document = tl_window_document (window);
  TlNewJointForm *form = tl_first_page_form (tl_window_first (window));
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = NULL;

  ui_test_wait (has_examples, window);
  g_assert_null (tl_new_joint_form_make (form, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_STATE);
  g_assert_true (tl_conductor_choice_choose (tl_new_joint_form_conductor (form, 0),
                                             "aluminium/class-1/none", "2.5 mm²"));
  g_assert_true (tl_conductor_choice_choose (tl_new_joint_form_conductor (form, 1),
                                             "copper/class-5/none", "2.5 mm²"));
  g_clear_error (&error);
  joint = tl_new_joint_form_make (form, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (joint->legs->len, ==, 2);
  g_signal_emit_by_name (form, "made", joint);
  g_assert_cmpstr (tl_window_page (window), ==, "build");
  g_assert_false (tl_document_verdict (document)->has_severity);
  g_assert_cmpuint (tl_document_verdict (document)->unfinished->len, >, 0);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- copying --- */
static void
on_texture (GObject *clipboard, GAsyncResult *result, gpointer data)
{
  *(GdkTexture **) data =
      gdk_clipboard_read_texture_finish (GDK_CLIPBOARD (clipboard), result, NULL);
}

static gboolean
is_there (gpointer data)
{
  return *(gpointer *) data != NULL;
}

static void
test_copy_drawing (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (window));
  g_autoptr (GdkTexture) texture = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) svg = NULL;
  g_autoptr (GdkContentProvider) content = NULL;
  g_autoptr (GdkContentFormats) formats = NULL;

  gtk_widget_activate_action (GTK_WIDGET (window), "win.copy-drawing", "s", "png");
  gdk_clipboard_read_texture_async (clipboard, NULL, on_texture, &texture);
  ui_test_wait (is_there, &texture);
  g_assert_cmpint (gdk_texture_get_width (texture), >, gdk_texture_get_height (texture));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.copy-drawing", "s", "svg");
  g_assert_true (gdk_content_formats_contain_mime_type (gdk_clipboard_get_formats (clipboard),
                                                        "image/svg+xml"));
  content = tl_bench_content (tl_build_page_bench (tl_window_build (window)), &error);
  g_assert_no_error (error);
  formats = gdk_content_provider_ref_formats (content);
  g_assert_true (gdk_content_formats_contain_gtype (formats, GDK_TYPE_TEXTURE));
  g_assert_true (gdk_content_formats_contain_gtype (formats, G_TYPE_STRING));
  g_assert_true (gdk_content_formats_contain_mime_type (formats, "image/svg+xml"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- little room --- */
static gboolean
is_low_and_narrow (gpointer window)
{
  GtkWidget *strip = ui_test_find (window, TL_TYPE_FACTS_STRIP);

  return strip != NULL && gtk_widget_get_ancestor (strip, GTK_TYPE_POPOVER) != NULL
         && !gtk_widget_get_mapped (ui_test_find (window, GTK_TYPE_STACK_SWITCHER));
}

static gboolean
is_strip_mapped (gpointer window)
{
  return gtk_widget_get_mapped (ui_test_find (window, TL_TYPE_FACTS_STRIP));
}

/* Nothing is lost below 560 × 640: the pages are a menu, the facts a popover. */
static void
test_little_room (void)
{
  TlWindow *window = ui_test_window ("zinc-washer.tinlap");

  gtk_window_set_default_size (GTK_WINDOW (window), 500, 560);
  ui_test_wait (is_low_and_narrow, window);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <, 560);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.enter", "(su)", "leg-1",
                              (guint) TL_FIELD_SECTION);
  ui_test_wait (is_strip_mapped, window);
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  ui_test_settle (window);
  ui_test_wait (is_strip_mapped, window);
  gtk_window_destroy (GTK_WINDOW (window));
}

static double
left_of (TlWindow *window, GType type)
{
  graphene_rect_t bounds;

  g_assert_true (gtk_widget_compute_bounds (ui_test_find (GTK_WIDGET (window), type),
                                            GTK_WIDGET (window), &bounds));
  return (double) bounds.origin.x;
}

static gboolean
is_page_whole (gpointer window)
{
  GtkWidget *page = GTK_WIDGET (tl_window_build (window));
  int        least;

  gtk_widget_measure (gtk_widget_get_first_child (page), GTK_ORIENTATION_HORIZONTAL, -1, &least,
                      NULL, NULL, NULL);
  return least <= gtk_widget_get_width (page);
}

/* Whatever the width, what the page shows ends where the window does: no text is cut off at its edge. */
static void
test_widths (void)
{
  static const int widths[] = { 1280, 1152, 1148, 1024, 1004, 996, 800, 724, 716, 600, 500 };
  TlWindow        *window = ui_test_window ("zinc-washer.tinlap");

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      g_test_message ("%d px", widths[i]);
      gtk_window_set_default_size (GTK_WINDOW (window), widths[i], 760);
      ui_test_settle (window);
      ui_test_wait (is_page_whole, window);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* From right to left the panes change places and the drawing does not. */
static void
test_right_to_left (void)
{
  TlWindow        *window = ui_test_window ("zinc-washer.tinlap");
  TlBench         *bench = tl_build_page_bench (tl_window_build (window));
  g_autofree char *plain = tl_drawing_to_text (tl_bench_drawing (bench)), *mirrored = NULL;

  g_assert_cmpfloat (left_of (window, TL_TYPE_PARTS_PANE), <,
                     left_of (window, TL_TYPE_FINDINGS_PANE));
  gtk_window_destroy (GTK_WINDOW (window));
  gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  window = ui_test_window ("zinc-washer.tinlap");
  bench = tl_build_page_bench (tl_window_build (window));
  mirrored = tl_drawing_to_text (tl_bench_drawing (bench));
  g_assert_cmpfloat (left_of (window, TL_TYPE_PARTS_PANE), >,
                     left_of (window, TL_TYPE_FINDINGS_PANE));
  g_assert_cmpstr (mirrored, ==, plain);
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- unsaved work --- */

static gboolean
is_kept_idle (gpointer kept)
{
  return !tl_kept_work_is_busy (kept);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
rename_joint (TlDocument *document, const char *name)
{
  g_autoptr (GError) error = NULL;

  tl_document_take (document, tl_edit_set_text (tl_document_joint (document), "name", name, &error),
                    "Set name", NULL, 0);
  g_assert_no_error (error);
}

/* Put by when changed, taken away when undone or given up; what a living window holds is nobody else's. */
static void
test_kept_work (void)
{
  g_autofree char *base = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  g_autofree char *folder = g_build_filename (base, "unsaved", NULL);
  g_autoptr (TlDocument) document = tl_document_new (ui_test_stock (), tl_language_plain ());
  g_autoptr (TlKeptWork) kept = tl_kept_work_new (document, folder);
  g_autoptr (GPtrArray) left = NULL;

  g_assert_cmpuint (count_files (folder), ==, 0);
  rename_joint (document, "Loom feed");
  ui_test_wait (is_kept_idle, kept);
  g_assert_cmpuint (count_files (folder), ==, 3);
  left = tl_left_work_find (folder);
  g_assert_cmpuint (left->len, ==, 0);
  tl_document_undo (document);
  ui_test_wait (is_kept_idle, kept);
  g_assert_cmpuint (count_files (folder), ==, 0);
  rename_joint (document, "Loom feed");
  ui_test_wait (is_kept_idle, kept);
  tl_kept_work_end (kept);
  g_assert_cmpuint (count_files (folder), ==, 0);
  g_rmdir (folder);
  g_rmdir (base);
}

/* A program that died lets go of its lock: its work is found, comes back as a step that can be undone, and is then gone. */
static void
test_left_work (void)
{
  g_autofree char *base = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  g_autofree char *folder = g_build_filename (base, "unsaved", NULL);
  g_autoptr (TlDocument) document = tl_document_new (ui_test_stock (), tl_language_plain ());
  g_autoptr (TlDocument) next = tl_document_new (ui_test_stock (), tl_language_plain ());
  TlKeptWork *kept = tl_kept_work_new (document, folder);
  g_autoptr (GPtrArray) left = NULL;
  g_autoptr (GPtrArray) missing = NULL;
  g_autoptr (GError) error = NULL;

  rename_joint (document, "Loom feed");
  ui_test_wait (is_kept_idle, kept);
  /* Its descriptor is closed and nothing is taken away: as if killed. */
  g_object_unref (kept);
  left = tl_left_work_find (folder);
  g_assert_cmpuint (left->len, ==, 1);
  g_assert_cmpstr (((TlLeftWork *) left->pdata[0])->title, ==, "Loom feed");
  g_assert_true (tl_left_work_open (left->pdata[0], next, &missing, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (tl_document_joint (next)->name, ==, "Loom feed");
  g_assert_true (tl_document_is_modified (next));
  g_assert_nonnull (tl_document_undo_label (next));
  g_assert_cmpuint (count_files (folder), ==, 0);
  /* What is damaged is said to be, and stays. */
  {
    g_autofree char *path = g_build_filename (folder, "1-1.kept", NULL);
    TlLeftWork      *damaged;

    g_assert_true (g_file_set_contents (path, "<joint", -1, NULL));
    g_ptr_array_unref (left);
    left = tl_left_work_find (folder);
    g_assert_cmpuint (left->len, ==, 1);
    damaged = left->pdata[0];
    g_assert_false (tl_left_work_open (damaged, next, NULL, &error));
    g_assert_nonnull (error);
    g_assert_cmpstr (tl_document_joint (next)->name, ==, "Loom feed");
    tl_left_work_discard (damaged);
    g_assert_cmpuint (count_files (folder), ==, 0);
  }
  g_rmdir (folder);
  g_rmdir (base);
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/window/bad-file", test_bad_file);
  g_test_add_func ("/window/save-and-reopen", test_save_and_reopen);
  g_test_add_func ("/window/judge-anew", test_judge_anew);
  g_test_add_func ("/window/export", test_export);
  g_test_add_func ("/window/names-and-sizes", test_names_and_sizes);
  g_test_add_func ("/window/typed-units", test_typed_units);
  g_test_add_func ("/window/mend", test_mend);
  g_test_add_func ("/window/first-page", test_first_page);
  g_test_add_func ("/window/copy-drawing", test_copy_drawing);
  g_test_add_func ("/window/little-room", test_little_room);
  g_test_add_func ("/window/widths", test_widths);
  g_test_add_func ("/window/right-to-left", test_right_to_left);
  g_test_add_func ("/window/kept-work", test_kept_work);
  g_test_add_func ("/window/left-work", test_left_work);
  return g_test_run ();
}
