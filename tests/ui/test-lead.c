/* test-lead.c: Findings leads a new joint on: way of joining, parts beside it, figures one after the other.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-test.h"

#include "app/fact-entry.h"
#include "app/finding-row.h"
#include "app/sheet-view.h"
#include "stock/search.h"

static TlJoint *
two_conductors (void)
{
  static const char *const parts[] = { "cond-al-class1-2.5-pvc", "cond-cu-class5-2.5-pvc" };
  const TlFact             role = { .field = TL_FIELD_ROLE,
                                    .word = (char *) "line",
                                    .known_by = TL_KNOWN_STATED };
  TlJoint                 *joint = tl_joint_new ();

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_auto (TlSeat) seat = tl_seat_none ();
      g_autoptr (GError) error = NULL;
      TlJoint *after =
          tl_edit_add_leg (joint, ui_test_stock (), parts[i], NULL, &seat, NULL, &error);

      g_assert_no_error (error);
      tl_joint_unref (joint);
      joint = tl_edit_set_fact (after, i == 0 ? "leg-1" : "leg-2", &role, &error);
      g_assert_no_error (error);
      tl_joint_unref (after);
    }
  return joint;
}

static TlWindow *
new_window (void)
{
  TlWindow *window = ui_test_window ("zinc-washer.tinlap");
  g_autoptr (TlJoint) joint = two_conductors ();

  tl_document_replace (tl_window_document (window), joint, NULL);
  ui_test_settle (window);
  return window;
}

static GtkWidget *
findings_of (TlWindow *window)
{
  return ui_test_find (GTK_WIDGET (window), TL_TYPE_FINDINGS_PANE);
}

static TlFindingRow *
row_at (TlWindow *window, int index)
{
  GtkWidget *list = ui_test_find (findings_of (window), GTK_TYPE_LIST_BOX);

  return (TlFindingRow *) gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), index);
}

/* The row that says that @owner lies beside the joint. */
static TlFindingRow *
row_beside (TlWindow *window, const char *owner)
{
  g_autofree char *key = g_strdup_printf ("problem %s %u", owner, (guint) TL_N_FIELDS);
  TlFindingRow    *row;

  for (int i = 0; (row = row_at (window, i)) != NULL; i++)
    if (g_str_equal (tl_finding_row_key (row), key))
      return row;
  g_assert_not_reached ();
}

static void
count_sleeves (GtkWidget *row, const TlPart *part, gpointer data)
{
  guint *counts = data;

  counts[part->kind == TL_PART_SLEEVE ? 0 : 1]++;
}

/* The row that asks for a way of joining opens a list of ways, and a way finds its parts for this section. */
static void
test_way (void)
{
  TlWindow     *window = new_window ();
  TlFindingRow *row = row_at (window, 0);
  GtkWidget    *button = ui_test_find (GTK_WIDGET (row), GTK_TYPE_MENU_BUTTON);
  GMenuModel   *menu;
  guint         counts[2] = { 0, 0 };
  g_autoptr (GVariant) words = NULL;

  /* 2.4 mm over the loose strands of the flexible one; twisted it goes into the 2.3 mm of its sleeve */
  g_assert_nonnull (button);
  menu = gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (button));
  g_assert_cmpint (g_menu_model_get_n_items (menu), >=, 4);
  words = g_menu_model_get_item_attribute_value (menu, 0, G_MENU_ATTRIBUTE_TARGET, NULL);
  g_assert_cmpstr (g_variant_get_string (words, NULL), ==, "crimp sleeve 2.5");
  for (int i = 0; i < g_menu_model_get_n_items (menu); i++)
    {
      g_autoptr (GVariant) target =
          g_menu_model_get_item_attribute_value (menu, i, G_MENU_ATTRIBUTE_TARGET, NULL);
      g_autoptr (TlSearch) search = tl_search_new (ui_test_stock (), tl_language_plain ());
      g_autoptr (GArray) hits = tl_search_find (search, g_variant_get_string (target, NULL), NULL);

      g_assert_cmpuint (hits->len, >, 0);
      g_assert_cmpuint (g_array_index (hits, TlSearchHit, 0).missed, ==, 0);
    }
  gtk_widget_activate_action_variant (GTK_WIDGET (row), "findings.find", words);
  ui_test_settle (window);
  tl_parts_pane_foreach (tl_build_page_parts (tl_window_build (window)), count_sleeves, counts);
  g_assert_cmpuint (counts[0], >=, 2);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* One press a conductor, each into a mouth of its own, each one step of undo. */
static void
test_put_in (void)
{
  TlWindow      *window = new_window ();
  TlDocument    *document = tl_window_document (window);
  const TlJoint *joint;
  const TlSeat  *first, *second;
  const char    *legs[] = { "leg-1", "leg-2" };

  tl_bench_add_part (tl_build_page_bench (tl_window_build (window)), "terminal-tunnel-brass");
  for (int i = 0; i < 2; i++)
    {
      g_assert_true (tl_finding_row_lead_on (row_beside (window, legs[i])));
      ui_test_settle (window);
    }
  joint = tl_document_joint (document);
  first = tl_joint_seat (joint, "leg-1");
  second = tl_joint_seat (joint, "leg-2");
  g_assert_cmpint (first->kind, ==, TL_SEAT_PORT);
  g_assert_cmpint (second->kind, ==, TL_SEAT_PORT);
  g_assert_false (tl_seat_equal (first, second));
  tl_document_undo (document);
  g_assert_cmpint (tl_joint_seat (tl_document_joint (document), "leg-2")->kind, ==, TL_SEAT_NONE);
  g_assert_cmpint (tl_joint_seat (tl_document_joint (document), "leg-1")->kind, ==, TL_SEAT_PORT);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A conductor in a terminal without sizes waits for the first of them; a bolt asks for its nut. */
static void
test_wanted (void)
{
  TlWindow    *window = new_window ();
  TlDocument  *document = tl_window_document (window);
  TlBuildPage *build = tl_window_build (window);
  GtkWidget   *search;
  const char  *key = "problem  ";

  tl_bench_add_part (tl_build_page_bench (build), "terminal-tunnel-brass");
  g_assert_true (tl_finding_row_lead_on (row_beside (window, "leg-1")));
  g_assert_true (tl_finding_row_lead_on (row_beside (window, "leg-1")));
  g_assert_cmpstr (tl_document_selected (document), ==, "layer-3");
  tl_document_undo (document);
  tl_document_undo (document);
  tl_bench_add_part (tl_build_page_bench (build), "bolt-m5x16-steel");
  for (int i = 0; row_at (window, i) != NULL; i++)
    if (g_str_has_prefix (tl_finding_row_key (row_at (window, i)), key))
      {
        g_assert_true (tl_finding_row_lead_on (row_at (window, i)));
        search = ui_test_find (GTK_WIDGET (tl_build_page_parts (build)), GTK_TYPE_SEARCH_ENTRY);
        g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (search)), ==, "nut M5");
        gtk_window_destroy (GTK_WINDOW (window));
        return;
      }
  g_assert_not_reached ();
}

static TlFactEntry *
focused_entry (TlWindow *window)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (window));
  GtkWidget *entry = focus == NULL ? NULL : gtk_widget_get_ancestor (focus, TL_TYPE_FACT_ENTRY);

  return entry == NULL ? NULL : TL_FACT_ENTRY (entry);
}

static gboolean
asks_another (gpointer data)
{
  TlFactEntry *entry = focused_entry (data);

  return entry != NULL && tl_fact_entry_field (entry) != TL_FIELD_SURROUNDINGS;
}

/* Enter in the figure that was asked for asks for the next; in any other one it stays. */
static void
test_go_on (void)
{
  TlWindow     *window = new_window ();
  TlDocument   *document = tl_window_document (window);
  TlBuildPage  *build = tl_window_build (window);
  TlFactEntry  *entry;
  GtkWidget    *text;
  const TlFact *fact;

  tl_bench_add_part (tl_build_page_bench (build), "terminal-tunnel-brass");
  gtk_widget_activate_action (findings_of (window), "findings.enter", "(su)", "layer-3",
                              (guint) TL_FIELD_BORE);
  entry = focused_entry (window);
  g_assert_cmpint (tl_fact_entry_field (entry), ==, TL_FIELD_BORE);
  text = ui_test_find (GTK_WIDGET (entry), GTK_TYPE_TEXT);
  gtk_editable_set_text (GTK_EDITABLE (text), "no number");
  g_signal_emit_by_name (text, "activate");
  g_assert_true (focused_entry (window) == entry);
  gtk_editable_set_text (GTK_EDITABLE (text), "3.5");
  g_signal_emit_by_name (text, "activate");
  entry = focused_entry (window);
  g_assert_cmpint (tl_fact_entry_field (entry), !=, TL_FIELD_BORE);
  fact =
      tl_facts_get (tl_joint_layer (tl_document_joint (document), "layer-3")->facts, TL_FIELD_BORE);
  g_assert_cmpfloat (fact->value.best, ==, 3.5);

  /* not asked for: F2 on the layer, Enter stays */
  tl_facts_strip_edit_field (
      TL_FACTS_STRIP (ui_test_find (GTK_WIDGET (build), TL_TYPE_FACTS_STRIP)), "layer-3",
      TL_FIELD_BORE);
  entry = focused_entry (window);
  text = ui_test_find (GTK_WIDGET (entry), GTK_TYPE_TEXT);
  gtk_editable_set_text (GTK_EDITABLE (text), "4");
  g_signal_emit_by_name (text, "activate");
  g_assert_true (focused_entry (window) == entry);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A word that was not known before, and not the first: one edit, and on to what is asked for next. */
static void
test_word (void)
{
  TlWindow    *window = new_window ();
  TlDocument  *document = tl_window_document (window);
  TlFactEntry *entry;
  GtkWidget   *words;

  gtk_widget_activate_action (findings_of (window), "findings.enter", "(su)", "site",
                              (guint) TL_FIELD_SURROUNDINGS);
  entry = focused_entry (window);
  words = ui_test_find (GTK_WIDGET (entry), GTK_TYPE_DROP_DOWN);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (words), 3);
  g_assert_cmpstr (tl_facts_word (tl_document_joint (document)->site, TL_FIELD_SURROUNDINGS, ""),
                   ==, tl_field_info (TL_FIELD_SURROUNDINGS)->words[2]);
  ui_test_wait (asks_another, window);
  tl_document_undo (document);
  g_assert_null (tl_document_undo_label (document));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
count_refused (TlDocument *document, const char *sentence, gpointer data)
{
  (*(guint *) data)++;
}

/* Why nothing was done is no deed: nothing offers to undo what was done before. */
static void
test_refusal (void)
{
  TlWindow   *window = new_window ();
  TlDocument *document = tl_window_document (window);
  TlBench    *bench = tl_build_page_bench (tl_window_build (window));
  guint       refused = 0, done = 0;

  tl_bench_add_part (bench, "terminal-tunnel-brass");
  g_signal_connect (document, "refused", G_CALLBACK (count_refused), &refused);
  g_signal_connect (document, "done", G_CALLBACK (count_refused), &done);
  tl_bench_add_part (bench, "terminal-tunnel-brass");
  g_assert_cmpuint (refused, ==, 1);
  g_assert_cmpuint (done, ==, 0);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The keyboard goes along to a page that is made only now. */
static void
test_page_focus (void)
{
  static const char *const pages[] = { "steps", "ageing", "pictures" };
  TlWindow                *window = new_window ();

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      GtkWidget *focus;

      gtk_widget_grab_focus (GTK_WIDGET (tl_build_page_bench (tl_window_build (window))));
      gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", pages[i]);
      ui_test_settle (window);
      focus = gtk_root_get_focus (GTK_ROOT (window));
      g_assert_nonnull (focus);
      g_assert_nonnull (gtk_widget_get_ancestor (focus, GTK_TYPE_STACK));
      gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "build");
      ui_test_settle (window);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The sheet is read to its end without a mouse. */
static void
test_scroll_sheet (void)
{
  TlWindow      *window = ui_test_window ("bolted-as-it-should-be.tinlap");
  GtkWidget     *steps, *scroller;
  GtkAdjustment *adjustment;
  double         first;

  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "steps");
  ui_test_settle (window);
  steps = GTK_WIDGET (tl_window_steps (window));
  scroller = gtk_widget_get_ancestor (ui_test_find (steps, TL_TYPE_SHEET_VIEW),
                                      GTK_TYPE_SCROLLED_WINDOW);
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  gtk_widget_activate_action (steps, "steps.scroll", "s", "on");
  first = gtk_adjustment_get_value (adjustment);
  g_assert_cmpfloat (first, >, 0.0);
  gtk_widget_activate_action (steps, "steps.scroll", "s", "last");
  g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), >, first);
  gtk_widget_activate_action (steps, "steps.scroll", "s", "first");
  g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), ==, 0.0);
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/lead/way", test_way);
  g_test_add_func ("/lead/put-in", test_put_in);
  g_test_add_func ("/lead/wanted", test_wanted);
  g_test_add_func ("/lead/go-on", test_go_on);
  g_test_add_func ("/lead/word", test_word);
  g_test_add_func ("/lead/refusal", test_refusal);
  g_test_add_func ("/lead/page-focus", test_page_focus);
  g_test_add_func ("/lead/scroll-sheet", test_scroll_sheet);
  return g_test_run ();
}
