/* test-own.c: parts of one's own in the window: entered, refused, undone, marked, taken in, and never in place of the
 * shipped ones.
 *
 * What a pack may do is this project's own promise (stock/pack.h); the sizes typed here are those of a washer at hand,
 * 12 × 5.3 × 1.5 mm, and prove nothing but that they arrive. The strict set of figures is a third practice beside two.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/figure-entry.h"
#include "app/labelled.h"
#include "app/own-window.h"
#include "app/part-item.h"
#include "app/parts-list.h"
#include "app/ways-form.h"
#include "plan/steps.h"
#include "ui-test.h"

#include <glib/gstdio.h>

/* Each test begins without packs. */
static void
clear_packs (void)
{
  g_autofree char *folder = g_path_get_dirname (tl_own_stock_file (ui_test_own ()));
  g_autoptr (GDir) directory = g_dir_open (folder, 0, NULL);
  const char *name;

  while (directory != NULL && (name = g_dir_read_name (directory)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_unlink (path);
    }
  g_mkdir_with_parents (folder, 0700);
  tl_own_stock_reload (ui_test_own ());
}

static void
write_pack (const char *name, const char *rows)
{
  g_autofree char *folder = g_path_get_dirname (tl_own_stock_file (ui_test_own ()));
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *text = g_strdup_printf (
      "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"Other\">%s</pack>\n", rows);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static TlWindow *
open_own (TlOwnWindow **own)
{
  TlWindow *window = ui_test_window ("zinc-washer.tinlap");

  gtk_widget_activate_action (GTK_WIDGET (window), "win.own-parts", NULL);
  *own = TL_OWN_WINDOW (tl_window_own_parts (window));
  ui_test_settle (window);
  return window;
}

typedef struct
{
  const char *label;
  GtkWidget  *found;
} Find;

static void
find_entry (GtkWidget *widget, gpointer data)
{
  Find      *find = data;
  GtkWidget *label = TL_IS_FIGURE_ENTRY (widget) ? ui_test_find (widget, GTK_TYPE_LABEL) : NULL;

  if (label != NULL && g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), find->label) == 0)
    find->found = widget;
}

static TlFigureEntry *
entry_called (TlOwnWindow *own, const char *label)
{
  Find find = { label, NULL };

  ui_test_walk (GTK_WIDGET (own), find_entry, &find);
  g_assert_nonnull (find.found);
  return TL_FIGURE_ENTRY (find.found);
}

static void
type_field (TlOwnWindow *own, TlField field, const char *text)
{
  tl_figure_entry_type (
      entry_called (own, tl_language_text (tl_language_plain (), tl_field_info (field)->label)),
      text);
}

static double
figure (const char *part, TlField field)
{
  const TlPart *found = tl_stock_part (tl_own_stock_stock (ui_test_own ()), part);

  g_assert_nonnull (found);
  return tl_facts_number (found->facts, field, -1.0);
}

static void
add_washer (TlOwnWindow *own)
{
  gtk_widget_activate_action (GTK_WIDGET (own), "own.add", "s", "plain-washer");
  g_assert_cmpstr (tl_own_part_form_part (tl_own_window_form (own)), ==, "own-plain-washer-1");
  type_field (own, TL_FIELD_OUTER, "1,2 cm");
  type_field (own, TL_FIELD_BORE, "5.3");
  type_field (own, TL_FIELD_THICKNESS, "1.5 mm");
}

static void
test_add (void)
{
  TlOwnWindow   *own;
  TlWindow      *window;
  const TlStock *stock;
  g_autoptr (GError) error = NULL;
  g_autoptr (TlPack) saved = NULL;

  clear_packs ();
  window = open_own (&own);
  add_washer (own);
  g_assert_cmpfloat_with_epsilon (figure ("own-plain-washer-1", TL_FIELD_OUTER), 12.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (figure ("own-plain-washer-1", TL_FIELD_BORE), 5.3, 1e-9);
  saved = tl_pack_load (tl_own_stock_file (ui_test_own ()), &error);
  g_assert_no_error (error);
  g_assert_true (tl_pack_equal (saved, tl_own_stock_pack (ui_test_own ())));
  stock = tl_document_stock (tl_window_document (window));
  g_assert_nonnull (tl_stock_part (stock, "own-plain-washer-1"));
  g_assert_cmpuint (tl_document_joint (tl_window_document (window))->legs->len, ==, 2);
  g_assert_false (tl_document_is_modified (tl_window_document (window)));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_refused (void)
{
  TlOwnWindow *own;
  TlWindow    *window;

  clear_packs ();
  window = open_own (&own);
  add_washer (own);
  type_field (own, TL_FIELD_BORE, "13");
  g_assert_cmpstr (
      tl_figure_entry_wrong (entry_called (
          own, tl_language_text (tl_language_plain (), tl_field_info (TL_FIELD_BORE)->label))),
      !=, "");
  g_assert_cmpfloat_with_epsilon (figure ("own-plain-washer-1", TL_FIELD_BORE), 5.3, 1e-9);
  type_field (own, TL_FIELD_BORE, "five");
  g_assert_cmpfloat_with_epsilon (figure ("own-plain-washer-1", TL_FIELD_BORE), 5.3, 1e-9);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* What one figure refused is kept, named as the form names it, and taken once another allows it. */
static void
test_refused_until_allowed (void)
{
  TlOwnWindow   *own;
  TlWindow      *window;
  TlFigureEntry *bore;

  clear_packs ();
  window = open_own (&own);
  add_washer (own);
  bore = entry_called (
      own, tl_language_text (tl_language_plain (), tl_field_info (TL_FIELD_BORE)->label));
  type_field (own, TL_FIELD_BORE, "13");
  g_assert_nonnull (strstr (tl_figure_entry_wrong (bore), "“Bore”"));
  g_assert_nonnull (strstr (tl_figure_entry_wrong (bore), "“Outside”"));
  type_field (own, TL_FIELD_THICKNESS, "2");
  g_assert_cmpstr (tl_figure_entry_wrong (bore), !=, "");
  type_field (own, TL_FIELD_OUTER, "24");
  g_assert_cmpstr (tl_figure_entry_wrong (bore), ==, "");
  g_assert_cmpfloat_with_epsilon (figure ("own-plain-washer-1", TL_FIELD_BORE), 13.0, 1e-9);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Minutes can be given to any kind of step, also beside a joint that is not to be made. */
static void
test_minutes (void)
{
  TlOwnWindow         *own;
  TlWindow            *window;
  const TlPackMinutes *minutes;
  guint                count;
  const TlStepKind    *kinds = tl_step_kinds (&count);

  clear_packs ();
  window = open_own (&own);
  for (guint i = 0; i < count; i++)
    tl_figure_entry_type (entry_called (own, kinds[i].name), "1.5..4");
  for (guint i = 0; i < count; i++)
    {
      minutes = tl_pack_minutes (tl_own_stock_pack (ui_test_own ()), kinds[i].id);
      g_assert_nonnull (minutes);
      g_assert_cmpfloat (minutes->minutes_min.high, ==, 4.0);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_undo (void)
{
  TlOwnWindow *own;
  TlWindow    *window;
  g_autoptr (TlPack) whole = NULL;

  clear_packs ();
  window = open_own (&own);
  add_washer (own);
  whole = tl_pack_ref (tl_own_stock_pack (ui_test_own ()));
  for (guint i = 0; i < 4; i++)
    gtk_widget_activate_action (GTK_WIDGET (own), "own.undo", NULL);
  g_assert_null (tl_own_stock_undo_label (ui_test_own ()));
  g_assert_null (tl_stock_part (tl_own_stock_stock (ui_test_own ()), "own-plain-washer-1"));
  g_assert_cmpuint (tl_own_window_count (own), ==, 0);
  for (guint i = 0; i < 4; i++)
    gtk_widget_activate_action (GTK_WIDGET (own), "own.redo", NULL);
  g_assert_true (tl_pack_equal (whole, tl_own_stock_pack (ui_test_own ())));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* As the lists of parts call it; (transfer full) */
static char *
shown_name (const char *id)
{
  const TlStock *stock = tl_own_stock_stock (ui_test_own ());
  g_autoptr (TlPartItem) item =
      tl_part_item_new (tl_stock_part (stock, id), stock, tl_language_plain ());

  return g_strdup (tl_part_item_name (item));
}

/* A shipped part is copied, never changed. */
static void
test_copy (void)
{
  static const char *const shipped = "washer-plain-m5-steel";
  TlOwnWindow             *own;
  TlWindow                *window;
  g_autofree char         *copy = NULL; /* the form lets go of its own at every edit */
  g_autofree char         *shipped_name = NULL, *told_apart = NULL, *alone = NULL, *wanted = NULL;
  double                   outer_mm;

  clear_packs ();
  window = open_own (&own);
  outer_mm = figure (shipped, TL_FIELD_OUTER);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.own-part", "s", shipped);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.remove", NULL);
  g_assert_nonnull (tl_stock_part (tl_own_stock_stock (ui_test_own ()), shipped));
  gtk_widget_activate_action (GTK_WIDGET (own), "own.copy", NULL);
  copy = g_strdup (tl_own_part_form_part (tl_own_window_form (own)));
  g_assert_cmpstr (copy, ==, "own-plain-washer-1");
  /* Of the same sizes it says whose it is; of others it needs no more than they. */
  shipped_name = shown_name (shipped);
  told_apart = shown_name (copy);
  wanted =
      g_strdup_printf ("%s: %s", tl_pack_name (tl_own_stock_pack (ui_test_own ())), shipped_name);
  g_assert_cmpstr (told_apart, ==, wanted);
  type_field (own, TL_FIELD_OUTER, "14");
  alone = shown_name (copy);
  g_assert_cmpstr (alone, ==, shipped_name);
  g_assert_cmpfloat_with_epsilon (figure (copy, TL_FIELD_OUTER), 14.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (figure (shipped, TL_FIELD_OUTER), outer_mm, 1e-9);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.remove", NULL);
  g_assert_null (tl_own_part_form_part (tl_own_window_form (own)));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- van and search --- */
static guint
count_leaves (GListModel *groups)
{
  guint count = 0;

  for (guint i = 0; i < g_list_model_get_n_items (groups); i++)
    {
      g_autoptr (TlPartItem) item = g_list_model_get_item (groups, i);
      GListModel *parts = tl_part_item_parts (item);

      count += parts == NULL ? 1 : g_list_model_get_n_items (parts);
    }
  return count;
}

static void
test_van (void)
{
  TlOwnWindow   *own;
  TlWindow      *window;
  TlSearchFilter filter;
  g_autoptr (TlPartsList) list = NULL;
  g_autoptr (TlPartItem) item = NULL;
  const TlPackMark *mark;

  clear_packs ();
  window = open_own (&own);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.mark-van", "s", "washer-plain-m5-steel");
  g_assert_true (tl_own_stock_is_in_van (ui_test_own (), "washer-plain-m5-steel"));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.own-part", "s", "washer-plain-m5-steel");
  tl_figure_entry_type (entry_called (own, "How many, or how much"), "25");
  tl_figure_entry_type (entry_called (own, "Price of one"), "0,12");
  tl_figure_entry_type (entry_called (own, "Price of one"), "cheap");
  g_assert_cmpstr (tl_figure_entry_wrong (entry_called (own, "Price of one")), !=, "");
  mark = tl_stock_mark (tl_own_stock_stock (ui_test_own ()), "washer-plain-m5-steel", NULL);
  g_assert_true (mark->in_van && mark->has_quantity && mark->has_price);
  g_assert_cmpfloat_with_epsilon (mark->quantity, 25.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (mark->price, 0.12, 1e-9);

  list = tl_parts_list_new (tl_own_stock_stock (ui_test_own ()), tl_language_plain ());
  tl_search_filter_init_defaults (&filter);
  tl_parts_list_show (list, "", &filter, 0.0);
  g_assert_cmpuint (count_leaves (tl_parts_list_model (list)), >, 100);
  filter.only_in_van = TRUE;
  tl_parts_list_show (list, "", &filter, 0.0);
  g_assert_cmpuint (count_leaves (tl_parts_list_model (list)), ==, 1);
  tl_search_filter_init_defaults (&filter);
  tl_parts_list_show (list, "m5 steel washer", &filter, 0.0);
  item = g_list_model_get_item (tl_parts_list_model (list), 0);
  g_assert_cmpstr (tl_part_item_part (item)->id, ==, "washer-plain-m5-steel");
  g_assert_nonnull (strstr (tl_part_item_mark (item), "25"));
  g_assert_false (tl_parts_list_is_near (list));
  tl_parts_list_show (list, "m5 steel washer xylophone", &filter, 0.0);
  g_assert_true (tl_parts_list_is_near (list));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- other packs --- */
static void
test_conflict (void)
{
  TlOwnWindow *own;
  TlWindow    *window;
  double       outer_mm;

  clear_packs ();
  outer_mm = figure ("washer-plain-m5-steel", TL_FIELD_OUTER);
  write_pack ("a.xml",
              "<part id=\"washer-plain-m5-steel\" kind=\"plain-washer\" "
              "known-by=\"measured\"><fact field=\"outer\" value=\"99\" unit=\"mm\"/></part>"
              "<part id=\"own-good\" kind=\"plain-washer\" known-by=\"measured\">"
              "<fact field=\"outer\" value=\"9\" unit=\"mm\"/></part>");
  write_pack ("b.xml", "<nonsense/>");
  window = open_own (&own);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.reload", NULL);
  g_assert_nonnull (strstr (tl_own_window_message (own), "washer-plain-m5-steel"));
  g_assert_nonnull (strstr (tl_own_window_message (own), "nonsense"));
  g_assert_cmpfloat_with_epsilon (figure ("washer-plain-m5-steel", TL_FIELD_OUTER), outer_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (figure ("own-good", TL_FIELD_OUTER), 9.0, 1e-9);
  gtk_window_destroy (GTK_WINDOW (window));
  clear_packs ();
}

static void
test_broken (void)
{
  TlOwnWindow     *own;
  TlWindow        *window;
  g_autofree char *after = NULL;

  clear_packs ();
  g_assert_true (
      g_file_set_contents (tl_own_stock_file (ui_test_own ()), "half a file <", -1, NULL));
  tl_own_stock_reload (ui_test_own ());
  window = open_own (&own);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.add", "s", "nut");
  g_assert_nonnull (strstr (tl_own_window_message (own), "own.xml"));
  g_assert_true (g_file_get_contents (tl_own_stock_file (ui_test_own ()), &after, NULL, NULL));
  g_assert_cmpstr (after, ==, "half a file <");
  gtk_window_destroy (GTK_WINDOW (window));
  clear_packs ();
}

/* Somebody else's change is not written over. */
static void
test_stale (void)
{
  TlOwnWindow *own;
  TlWindow    *window;

  clear_packs ();
  window = open_own (&own);
  write_pack ("own.xml", "<part id=\"own-theirs\" kind=\"nut\" known-by=\"measured\">"
                         "<fact field=\"thread\" value=\"5\" unit=\"mm\"/></part>");
  gtk_widget_activate_action (GTK_WIDGET (own), "own.add", "s", "nut");
  g_assert_cmpstr (tl_own_window_message (own), !=, "");
  g_assert_cmpfloat_with_epsilon (figure ("own-theirs", TL_FIELD_THREAD), 5.0, 1e-9);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.add", "s", "nut");
  g_assert_true (tl_own_stock_has_part (ui_test_own (), "own-nut-1"));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_give_and_take (void)
{
  TlOwnWindow     *own;
  TlWindow        *window;
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "tinlap-pack.xml", NULL);
  g_autoptr (TlPack) given = NULL;

  clear_packs ();
  window = open_own (&own);
  add_washer (own);
  given = tl_pack_ref (tl_own_stock_pack (ui_test_own ()));
  gtk_widget_activate_action (GTK_WIDGET (own), "own.export-to", "s", path);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.remove", NULL);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.import-from", "s", path);
  g_assert_true (tl_pack_equal (given, tl_own_stock_pack (ui_test_own ())));
  g_assert_cmpstr (tl_own_window_message (own), ==, "1 part was taken in from “tinlap-pack.xml”.");
  gtk_widget_activate_action (GTK_WIDGET (own), "own.show", "s", "own-plain-washer-1");
  type_field (own, TL_FIELD_OUTER, "13");
  gtk_widget_activate_action (GTK_WIDGET (own), "own.import-from", "s", path);
  g_assert_nonnull (strstr (tl_own_window_message (own), "own-plain-washer-1"));
  g_assert_cmpfloat_with_epsilon (figure ("own-plain-washer-1", TL_FIELD_OUTER), 13.0, 1e-9);
  gtk_widget_activate_action (GTK_WIDGET (own), "own.import-from", "s", "/nonexistent/pack.xml");
  g_assert_nonnull (strstr (tl_own_window_message (own), "/nonexistent/pack.xml"));
  g_unlink (path);
  gtk_window_destroy (GTK_WINDOW (window));
  clear_packs ();
}

/* --- practices and what rules forbid --- */
static void
count_practices (GtkWidget *widget, gpointer data)
{
  guint *most = data;

  if (GTK_IS_DROP_DOWN (widget) && tl_choice_ids (GTK_DROP_DOWN (widget)) != NULL
      && g_strv_contains (tl_choice_ids (GTK_DROP_DOWN (widget)), "strict"))
    *most = g_strv_length ((char **) tl_choice_ids (GTK_DROP_DOWN (widget)));
}

static void
test_rules (void)
{
  TlWindow   *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlDocument *document = tl_window_document (window);
  GtkWidget  *form, *tick;
  guint       practices = 0;

  tl_document_select (document, NULL);
  ui_test_settle (window);
  ui_test_walk (GTK_WIDGET (window), count_practices, &practices);
  g_assert_cmpuint (practices, ==, 3);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.enter", "(su)", "site",
                              (guint) TL_FIELD_SURROUNDINGS);
  ui_test_settle (window);
  form = ui_test_find (GTK_WIDGET (window), TL_TYPE_WAYS_FORM);
  g_assert_nonnull (form);
  tick = ui_test_find (GTK_WIDGET (gtk_menu_button_get_popover (
                           GTK_MENU_BUTTON (ui_test_find (form, GTK_TYPE_MENU_BUTTON)))),
                       GTK_TYPE_CHECK_BUTTON);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (tick), TRUE);
  g_assert_cmpstr (tl_document_joint (document)->forbidden, ==, "bolted-stack");
  tl_document_undo (document);
  g_assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (tick)));
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/own/add", test_add);
  g_test_add_func ("/own/refused", test_refused);
  g_test_add_func ("/own/refused-until-allowed", test_refused_until_allowed);
  g_test_add_func ("/own/minutes", test_minutes);
  g_test_add_func ("/own/undo", test_undo);
  g_test_add_func ("/own/copy", test_copy);
  g_test_add_func ("/own/van", test_van);
  g_test_add_func ("/own/conflict", test_conflict);
  g_test_add_func ("/own/broken", test_broken);
  g_test_add_func ("/own/stale", test_stale);
  g_test_add_func ("/own/give-and-take", test_give_and_take);
  g_test_add_func ("/own/rules", test_rules);
  return g_test_run ();
}
