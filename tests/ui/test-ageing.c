/* test-ageing.c: the Ageing page: forecast beside the window, what is dropped, what is missing, charts and their ways out.
 *
 * Controls of at least 28 × 28 px are our design; WCAG 2.2, success criterion 2.5.8, asks for 24. A non-text content
 * has a name and a text in its place: WCAG 2.2, success criterion 1.1.1. The first bytes of a PNG: ISO/IEC 15948, 5.2.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-side.h"
#include "app/chart-view.h"
#include "app/margin-cell.h"
#include "app/mark-view.h"
#include "ui-test.h"

#include <glib/gstdio.h>

static gboolean
is_idle (gpointer page)
{
  return !tl_ageing_page_is_busy (page);
}

static TlAgeingPage *
open_page (TlWindow *window)
{
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "ageing");
  g_assert_cmpstr (tl_window_page (window), ==, "ageing");
  g_assert_true (tl_ageing_page_is_busy (tl_window_ageing (window)));
  return tl_window_ageing (window);
}

static void
wait_for_forecast (TlWindow *window)
{
  ui_test_wait (is_idle, tl_window_ageing (window));
  ui_test_settle (window);
}

static void
collect_charts (GtkWidget *widget, gpointer charts)
{
  if (TL_IS_CHART_VIEW (widget) && gtk_widget_get_mapped (widget))
    g_ptr_array_add (charts, widget);
}

static GPtrArray *
charts_of (TlWindow *window)
{
  GPtrArray *charts = g_ptr_array_new ();

  ui_test_walk (GTK_WIDGET (tl_window_ageing (window)), collect_charts, charts);
  return charts;
}

typedef struct
{
  const char *text;
  GtkWidget  *found;
} Search;

static void
find_text (GtkWidget *widget, gpointer data)
{
  Search *search = data;

  if (GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
      && strstr (gtk_label_get_text (GTK_LABEL (widget)), search->text) != NULL)
    search->found = widget;
}

static GtkWidget *
label_with (TlWindow *window, const char *text)
{
  Search search = { text, NULL };

  ui_test_walk (GTK_WIDGET (tl_window_ageing (window)), find_text, &search);
  return search.found;
}

static void
check_control (GtkWidget *widget, gpointer count)
{
  if (!ui_test_check_control (widget, 28))
    return;
  g_assert_nonnull (gtk_widget_get_tooltip_text (widget));
  (*(guint *) count)++;
}

/* --- the forecast --- */

static void
test_bands (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlAgeingPage *page = open_page (window);
  g_autoptr (GPtrArray) charts = NULL;
  guint controls = 0;

  wait_for_forecast (window);
  g_assert_true (tl_forecast_ageing (tl_ageing_page_forecast (page))->is_computed);
  charts = charts_of (window);
  /* Hottest metal, resistance, clamping force. */
  g_assert_cmpuint (charts->len, ==, 3);
  for (guint i = 0; i < charts->len; i++)
    {
      TlChartView *chart = charts->pdata[i];
      GtkWidget   *picture = gtk_widget_get_first_child (
            gtk_widget_get_first_child (gtk_widget_get_first_child (GTK_WIDGET (chart))));

      g_assert_true (tl_chart_view_has_chart (chart));
      gtk_test_accessible_assert_role (picture, GTK_ACCESSIBLE_ROLE_IMG);
      gtk_test_accessible_assert_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                           tl_chart_view_title (chart));
      g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (picture),
                                                       GTK_ACCESSIBLE_PROPERTY_DESCRIPTION));
      g_assert_true (gtk_widget_get_focusable (picture));
    }
  g_assert_nonnull (label_with (window, "read the band, not the line"));
  g_assert_nonnull (label_with (window, "What drives the band"));
  ui_test_walk (GTK_WIDGET (page), check_control, &controls);
  g_assert_cmpuint (controls, >=, 12);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_as_built (void)
{
  TlWindow     *window = ui_test_window ("socket-circuit-weaving-floor.tinlap");
  TlAgeingPage *page = open_page (window);
  g_autoptr (GPtrArray) charts = NULL;

  gtk_widget_activate_action (GTK_WIDGET (page), "ageing.view", "s", "now");
  wait_for_forecast (window);
  charts = charts_of (window);
  g_assert_cmpuint (charts->len, ==, 2);
  for (guint i = 0; i < charts->len; i++)
    g_assert_true (tl_chart_view_has_chart (charts->pdata[i]));
  g_assert_null (label_with (window, "What drives the band"));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
find_cell (GtkWidget *widget, gpointer cells)
{
  if (TL_IS_MARGIN_CELL (widget))
    g_ptr_array_add (cells, widget);
}

/* A margin that stands in a chart leads there by keyboard as well. */
static void
test_from_margins (void)
{
  TlWindow *window = ui_test_window ("zinc-washer.tinlap");
  g_autoptr (GPtrArray) cells = g_ptr_array_new ();

  ui_test_walk (GTK_WIDGET (tl_window_build (window)), find_cell, cells);
  g_assert_cmpuint (cells->len, ==, TL_N_MARGINS);
  for (guint i = 0; i < cells->len; i++)
    g_assert_cmpint (gtk_widget_get_focusable (cells->pdata[i]), ==,
                     i == TL_MARGIN_GALVANIC || i == TL_MARGIN_HEAT);
  gtk_widget_activate_action (cells->pdata[TL_MARGIN_HEAT], "win.chart", NULL);
  g_assert_cmpstr (tl_window_page (window), ==, "ageing");
  wait_for_forecast (window);
  g_assert_nonnull (label_with (window, "This joint as built"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The joint changes twice while its years are reckoned: only the last one's are shown. */
static void
test_stale_is_dropped (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument   *document = tl_window_document (window);
  TlAgeingPage *page = open_page (window);

  tl_document_select (document, "layer-3");
  gtk_widget_activate_action (GTK_WIDGET (tl_build_page_bench (tl_window_build (window))),
                              "bench.remove", NULL);
  g_assert_true (tl_ageing_page_is_busy (page));
  tl_document_undo (document);
  g_assert_true (tl_ageing_page_is_busy (page));
  g_assert_null (tl_ageing_page_forecast (page));
  wait_for_forecast (window);
  g_assert_true (tl_forecast_verdict (tl_ageing_page_forecast (page))
                 == tl_document_verdict (document));
  tl_document_redo (document);
  g_assert_null (tl_ageing_page_forecast (page));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A page that nobody sees reckons nothing, and a window that is closed leaves nothing behind that calls it. */
static void
test_unseen (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument   *document = tl_window_document (window);
  TlAgeingPage *page = open_page (window);

  wait_for_forecast (window);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "build");
  tl_document_select (document, "layer-3");
  gtk_widget_activate_action (GTK_WIDGET (tl_build_page_bench (tl_window_build (window))),
                              "bench.remove", NULL);
  g_assert_false (tl_ageing_page_is_busy (page));
  open_page (window);
  gtk_window_destroy (GTK_WINDOW (window));
  while (g_main_context_pending (NULL))
    g_main_context_iteration (NULL, FALSE);
}

static void
test_cancel (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlAgeingPage *page = open_page (window);

  gtk_widget_activate_action (GTK_WIDGET (page), "ageing.cancel", NULL);
  g_assert_false (tl_ageing_page_is_busy (page));
  g_assert_null (tl_ageing_page_forecast (page));
  ui_test_settle (window);
  g_assert_nonnull (label_with (window, "Cancelled."));
  gtk_widget_activate_action (GTK_WIDGET (page), "ageing.reckon", NULL);
  g_assert_true (tl_ageing_page_is_busy (page));
  wait_for_forecast (window);
  g_assert_true (tl_forecast_ageing (tl_ageing_page_forecast (page))->is_computed);
  g_assert_null (label_with (window, "Cancelled."));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_span (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlAgeingPage *page = open_page (window);
  GtkWidget    *span = ui_test_find (GTK_WIDGET (page), GTK_TYPE_DROP_DOWN);

  wait_for_forecast (window);
  g_assert_cmpfloat (tl_forecast_ageing (tl_ageing_page_forecast (page))->span_years, ==, 20.0);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (span), 0);
  wait_for_forecast (window);
  g_assert_cmpfloat (tl_forecast_ageing (tl_ageing_page_forecast (page))->span_years, ==, 5.0);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- later looks --- */

/* The table has a row for each look of the engine, with its figures; the checks are those of the engine. */
static void
test_looks (void)
{
  TlWindow      *window = ui_test_window ("socket-circuit-weaving-floor.tinlap");
  TlAgeingPage  *page = open_page (window);
  const TlLooks *looks;

  wait_for_forecast (window);
  looks = tl_forecast_looks (tl_ageing_page_forecast (page));
  g_assert_nonnull (label_with (window, "At each look"));
  g_assert_cmpuint (looks->looks->len, >, 2);
  for (guint i = 0; i < looks->looks->len; i++)
    {
      const TlLaterLook *look = &g_array_index (looks->looks, TlLaterLook, i);
      g_autofree char   *when = tl_looks_when_text (look, tl_language_plain ());
      GtkWidget         *label = NULL, *grid;
      int                column, row, width, height;

      /* Found in the grid, whose first two rows are head and limits. */
      grid =
          gtk_widget_get_ancestor (label_with (window, "hottest metal at the load"), GTK_TYPE_GRID);
      label = gtk_grid_get_child_at (GTK_GRID (grid), 0, (int) i + 2);
      g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (label)), ==, when);
      gtk_grid_query_child (GTK_GRID (grid), label, &column, &row, &width, &height);
      for (guint k = 1; k <= 2; k++)
        {
          g_autofree char *expected = tl_looks_expected_text (
              look, k == 1 ? TL_AGEING_HOT : TL_AGEING_GROWTH, tl_language_plain ());

          g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (ui_test_find (
                               gtk_grid_get_child_at (GTK_GRID (grid), (int) k, row),
                               GTK_TYPE_LABEL))),
                           ==, expected);
        }
      if (i + 1 == looks->looks->len)
        g_assert_null (gtk_grid_get_child_at (GTK_GRID (grid), 0, (int) i + 3));
    }
  for (guint i = 0; i < looks->n_checks; i++)
    g_assert_nonnull (label_with (window, looks->checks[i].what));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A figure past its limit has mark and words below it, one within it is a figure alone. */
static void
test_looks_past (void)
{
  TlWindow      *window = ui_test_window ("lugs-bare-copper.tinlap");
  TlAgeingPage  *page = open_page (window);
  const TlLooks *looks;
  GtkWidget     *grid;
  guint          n_past = 0, n_within = 0;

  wait_for_forecast (window);
  looks = tl_forecast_looks (tl_ageing_page_forecast (page));
  grid = gtk_widget_get_ancestor (label_with (window, "hottest metal at the load"), GTK_TYPE_GRID);
  for (guint i = 0; i < looks->looks->len; i++)
    {
      const TlLaterLook *look = &g_array_index (looks->looks, TlLaterLook, i);
      TlLookPast         past = tl_looks_past (looks, look, TL_AGEING_GROWTH);
      GtkWidget         *figure = gtk_grid_get_child_at (GTK_GRID (grid), 2, (int) i + 2);

      if (past == TL_LOOK_WITHIN)
        {
          n_within++;
          g_assert_true (GTK_IS_LABEL (figure));
          continue;
        }
      n_past++;
      g_assert_nonnull (ui_test_find (figure, TL_TYPE_MARK_VIEW));
      g_assert_cmpint (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (figure)), ==,
                       GTK_ACCESSIBLE_ROLE_GROUP);
      g_assert_cmpstr (
          gtk_label_get_text (GTK_LABEL (
              gtk_widget_get_last_child (gtk_widget_get_last_child (figure)))),
          ==, tl_look_past_title (past));
    }
  g_assert_cmpuint (n_past, >, 0);
  g_assert_cmpuint (n_within, >, 0);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* What leaves is what the engine writes; before there are years there is nothing to write. */
static void
test_calendar (void)
{
  TlWindow        *window = ui_test_window ("socket-circuit-weaving-floor.tinlap");
  TlAgeingPage    *page = open_page (window);
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "tinlap-looks.ics", NULL),
                  *text = NULL, *uid = NULL;
  g_autoptr (GError) error = NULL;
  TlAgeingSide *side;
  const char   *at;
  guint         n = 0;

  side = TL_AGEING_SIDE (ui_test_find (GTK_WIDGET (page), TL_TYPE_AGEING_SIDE));
  g_assert_false (tl_ageing_side_save_calendar (side, path, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_STATE);
  wait_for_forecast (window);
  gtk_widget_activate_action (GTK_WIDGET (side), "looks.save-calendar-to", "s", path);
  g_assert_nonnull (strstr (tl_window_last_message (window), path));
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_true (g_str_has_prefix (text, "BEGIN:VCALENDAR\r\n"));
  uid = tl_look_uid (tl_document_joint (tl_window_document (window)));
  g_assert_nonnull (strstr (text, uid));
  for (at = text; (at = strstr (at, "BEGIN:VEVENT")) != NULL; at++)
    n++;
  g_assert_cmpuint (n, >, 0);
  g_assert_cmpuint (n, <=, tl_forecast_looks (tl_ageing_page_forecast (page))->looks->len);
  g_unlink (path);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- what is missing --- */

static void
test_needs_load (void)
{
  TlWindow     *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument   *document = tl_window_document (window);
  TlAgeingPage *page;
  GtkWidget    *head;

  tl_document_take (document,
                    tl_edit_unset_fact (tl_document_joint (document), "duty", TL_FIELD_LOAD, NULL),
                    "no load", NULL, 0);
  page = open_page (window);
  wait_for_forecast (window);
  g_assert_false (tl_forecast_ageing (tl_ageing_page_forecast (page))->is_computed);
  head = label_with (window, "Needs the load and the surroundings.");
  g_assert_nonnull (head);
  g_signal_emit_by_name (ui_test_find (gtk_widget_get_parent (head), GTK_TYPE_BUTTON), "clicked");
  ui_test_settle (window);
  g_assert_cmpstr (tl_window_page (window), ==, "build");
  g_assert_nonnull (gtk_window_get_focus (GTK_WINDOW (window)));
  g_assert_nonnull (
      gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (window)), TL_TYPE_FACTS_STRIP));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Whatever stands in the examples either has its years, or a sentence that says why not. */
static void
test_examples (void)
{
  TlWindow        *window = ui_test_window ("zinc-washer.tinlap");
  g_autofree char *some = ui_test_example ("zinc-washer.tinlap");
  g_autofree char *folder = g_path_get_dirname (some);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint       computed = 0, told = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL), *reason = NULL;
      const TlAgeing  *ageing;

      if (!g_str_has_suffix (name, ".tinlap"))
        continue;
      g_assert_true (tl_window_open (window, path));
      open_page (window);
      wait_for_forecast (window);
      gtk_widget_activate_action (GTK_WIDGET (tl_window_ageing (window)), "ageing.view", "s",
                                  computed % 2 == 0 ? "now" : "years");
      ui_test_settle (window);
      ageing = tl_forecast_ageing (tl_ageing_page_forecast (tl_window_ageing (window)));
      reason = tl_ageing_reason_text (ageing,
                                      tl_document_verdict (tl_window_document (window))->assembly,
                                      tl_language_plain ());
      g_assert_true (ageing->is_computed == (*reason == '\0'));
      computed += ageing->is_computed;
      told += !ageing->is_computed;
      if (!ageing->is_computed)
        g_test_message ("%s: %s", name, reason);
    }
  g_assert_cmpuint (computed, >=, 10);
  g_assert_cmpuint (computed + told, >=, 15);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- ways out of a chart --- */

static void
check_file (TlChartView *chart, const char *ending, const char *first_bytes, gsize n)
{
  g_autofree char *name = g_strconcat ("tinlap-chart", ending, NULL);
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), name, NULL), *data = NULL;
  gsize            length;

  gtk_widget_activate_action (GTK_WIDGET (chart), "chart.save-to", "s", path);
  g_assert_true (g_file_get_contents (path, &data, &length, NULL));
  g_assert_cmpuint (length, >, n);
  g_assert_cmpmem (data, n, first_bytes, n);
  g_unlink (path);
}

static void
test_ways_out (void)
{
  TlWindow *window = ui_test_window ("zinc-washer.tinlap");
  g_autoptr (GPtrArray) charts = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkContentProvider) content = NULL;
  g_autoptr (GdkContentFormats) formats = NULL;
  TlChartView *chart;

  open_page (window);
  wait_for_forecast (window);
  charts = charts_of (window);
  chart = charts->pdata[0];
  g_assert_true (g_str_has_prefix (tl_chart_view_table (chart), tl_chart_view_title (chart)));
  content = tl_chart_view_content (chart, &error);
  g_assert_no_error (error);
  formats = gdk_content_provider_ref_formats (content);
  g_assert_true (gdk_content_formats_contain_gtype (formats, GDK_TYPE_TEXTURE));
  g_assert_true (gdk_content_formats_contain_mime_type (formats, "image/svg+xml"));
  g_assert_true (gdk_content_formats_contain_gtype (formats, G_TYPE_STRING));
  check_file (chart, ".png", "\x89PNG\r\n\x1a\n", 8);
  check_file (chart, ".svg", "<?xml", 5);
  check_file (chart, ".pdf", "%PDF-", 5);
  gtk_widget_activate_action (GTK_WIDGET (chart), "chart.save-to", "s", "/nonexistent/chart.doc");
  g_assert_nonnull (strstr (tl_window_last_message (window), "/nonexistent/chart.doc"));
  g_assert_nonnull (strstr (tl_window_last_message (window), ".svg"));
  gtk_widget_activate_action (GTK_WIDGET (chart), "chart.copy", NULL);
  g_assert_nonnull (strstr (tl_window_last_message (window), "copied"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The program's own style, which a window without its application does not get: sizes are part of it. */
static void
load_style (void)
{
  g_autoptr (GtkCssProvider) style = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (style, "/tinlap/style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (),
                                              GTK_STYLE_PROVIDER (style),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  load_style ();
  g_test_add_func ("/ageing/bands", test_bands);
  g_test_add_func ("/ageing/as-built", test_as_built);
  g_test_add_func ("/ageing/from-margins", test_from_margins);
  g_test_add_func ("/ageing/stale-is-dropped", test_stale_is_dropped);
  g_test_add_func ("/ageing/unseen", test_unseen);
  g_test_add_func ("/ageing/cancel", test_cancel);
  g_test_add_func ("/ageing/span", test_span);
  g_test_add_func ("/ageing/looks", test_looks);
  g_test_add_func ("/ageing/looks-past", test_looks_past);
  g_test_add_func ("/ageing/calendar", test_calendar);
  g_test_add_func ("/ageing/needs-load", test_needs_load);
  g_test_add_func ("/ageing/examples", test_examples);
  g_test_add_func ("/ageing/ways-out", test_ways_out);
  return g_test_run ();
}
