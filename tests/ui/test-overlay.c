/* test-overlay.c: heat, current and wet paths in a window: keys, buttons, the ages, an edit meanwhile.
 *
 * The figures are those of the draw room, checked there; here it is checked that the bench shows them for the present
 * joint and the chosen age, and that the buttons tell which overlay is on.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-item.h"
#include "app/overlay-bar.h"
#include "app/overlay-years.h"
#include "ui-test.h"

#include <string.h>

static TlBench *
bench_of (TlWindow *window)
{
  return tl_build_page_bench (tl_window_build (window));
}

static gboolean
is_ready (gpointer bench)
{
  return tl_bench_overlay_is_ready (bench);
}

static gboolean
says (TlBench *bench, const char *part)
{
  g_autofree char *text = tl_drawing_overlay_describe (tl_bench_drawing (bench));

  return strstr (text, part) != NULL;
}

static void
press (TlBench *bench, const char *overlay)
{
  gtk_widget_activate_action (GTK_WIDGET (bench), "bench.overlay", "s", overlay);
  ui_test_wait (is_ready, bench);
}

static guint
count_items (TlBench *bench)
{
  guint count = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (bench)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count += TL_IS_BENCH_ITEM (child);
  return count;
}

typedef struct
{
  guint on, all;
} Buttons;

static void
count_button (GtkWidget *widget, gpointer data)
{
  Buttons *buttons = data;

  if (!GTK_IS_TOGGLE_BUTTON (widget))
    return;
  buttons->all++;
  buttons->on += gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (widget));
}

static guint
buttons_on (TlWindow *window)
{
  Buttons buttons = { 0, 0 };

  ui_test_walk (ui_test_find (GTK_WIDGET (window), TL_TYPE_OVERLAY_BAR), count_button, &buttons);
  g_assert_cmpuint (buttons.all, ==, 3);
  return buttons.on;
}

/* One at a time; pressed again it goes; layers and contacts keep their widgets. */
static void
test_toggle (void)
{
  TlWindow  *window = ui_test_window ("bolted-as-it-should-be.tinlap");
  TlBench   *bench = bench_of (window);
  GtkWidget *years = ui_test_find (GTK_WIDGET (window), TL_TYPE_OVERLAY_YEARS);
  guint      items = count_items (bench);

  g_assert_cmpuint (buttons_on (window), ==, 0);
  g_assert_false (gtk_widget_get_visible (years));
  press (bench, "heat");
  g_assert_true (says (bench, "Hottest in the joint"));
  g_assert_cmpuint (buttons_on (window), ==, 1);
  g_assert_true (gtk_widget_get_visible (years));
  press (bench, "wet");
  g_assert_cmpint (tl_bench_overlay (bench), ==, TL_OVERLAY_WET);
  g_assert_true (says (bench, "Double wave"));
  g_assert_cmpuint (buttons_on (window), ==, 1);
  g_assert_false (gtk_widget_get_visible (years));
  g_assert_cmpuint (count_items (bench), ==, items);
  press (bench, "wet");
  g_assert_cmpint (tl_bench_overlay (bench), ==, TL_OVERLAY_NONE);
  g_assert_cmpuint (buttons_on (window), ==, 0);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_button (void)
{
  TlWindow  *window = ui_test_window ("bolted-as-it-should-be.tinlap");
  TlBench   *bench = bench_of (window);
  GtkWidget *bar = ui_test_find (GTK_WIDGET (window), TL_TYPE_OVERLAY_BAR);
  GtkWidget *heat = ui_test_find (bar, GTK_TYPE_TOGGLE_BUTTON);

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (heat), TRUE);
  g_assert_cmpint (tl_bench_overlay (bench), ==, TL_OVERLAY_HEAT);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (heat), FALSE);
  g_assert_cmpint (tl_bench_overlay (bench), ==, TL_OVERLAY_NONE);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_years (void)
{
  TlWindow  *window = ui_test_window ("bolted-as-it-should-be.tinlap");
  TlBench   *bench = bench_of (window);
  GtkWidget *years = ui_test_find (GTK_WIDGET (window), TL_TYPE_OVERLAY_YEARS);
  GtkWidget *scale = ui_test_find (years, GTK_TYPE_SCALE);

  press (bench, "heat");
  g_assert_false (says (bench, "Indicative"));
  gtk_range_set_value (GTK_RANGE (scale), 3.0);
  g_assert_cmpfloat (tl_bench_overlay_years (bench), ==, 20.0);
  ui_test_wait (is_ready, bench);
  g_assert_true (says (bench, "After 20 years"));
  g_assert_true (says (bench, "Indicative"));
  press (bench, "current");
  g_assert_true (says (bench, "After 20 years"));
  gtk_range_set_value (GTK_RANGE (scale), 0.0);
  ui_test_wait (is_ready, bench);
  g_assert_false (says (bench, "Indicative"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* An edit makes what was reckoned worthless at once, also while it is still reckoned. */
static void
test_edit (void)
{
  TlWindow   *window = ui_test_window ("bolted-as-it-should-be.tinlap");
  TlBench    *bench = bench_of (window);
  TlDocument *document = tl_window_document (window);

  press (bench, "heat");
  tl_document_select (document, "layer-3");
  gtk_widget_activate_action (GTK_WIDGET (bench), "bench.remove", NULL);
  g_assert_false (tl_bench_overlay_is_ready (bench));
  g_assert_true (says (bench, "being reckoned"));
  tl_document_undo (document);
  tl_document_redo (document);
  ui_test_wait (is_ready, bench);
  g_assert_true (says (bench, "Hottest in the joint"));
  /* closing while a thread is at work */
  tl_document_undo (document);
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/overlay/toggle", test_toggle);
  g_test_add_func ("/overlay/button", test_button);
  g_test_add_func ("/overlay/years", test_years);
  g_test_add_func ("/overlay/edit", test_edit);
  return g_test_run ();
}
