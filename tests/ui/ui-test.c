/* ui-test.c: what the in-process window tests share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-test.h"

#include "app/application.h"

static const gint64 PATIENCE_US = 10 * G_USEC_PER_SEC;

const TlStock *
ui_test_stock (void)
{
  static TlStock *stock;

  if (stock == NULL)
    {
      g_autoptr (GError) error = NULL;

      stock = tl_stock_load (NULL, &error);
      g_assert_no_error (error);
    }
  return stock;
}

TlOwnStock *
ui_test_own (void)
{
  static TlOwnStock *own;

  if (own == NULL)
    own = tl_own_stock_new (ui_test_stock (), NULL);
  return own;
}

char *
ui_test_example (const char *name)
{
  return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", name, NULL);
}

static gboolean
is_drawn (gpointer data)
{
  return gtk_widget_get_mapped (data) && gtk_widget_get_width (data) > 0;
}

void
ui_test_wait (UiTestDone done, gpointer data)
{
  gint64 end = g_get_monotonic_time () + PATIENCE_US;

  while (!done (data))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
    }
}

void
ui_test_settle (TlWindow *window)
{
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  while (g_main_context_pending (NULL))
    g_main_context_iteration (NULL, FALSE);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
}

TlWindow *
ui_test_window (const char *name)
{
  g_autoptr (GSettings) settings = tl_application_settings_new ();
  g_autofree char *path = ui_test_example (name);
  TlWindow        *window = tl_window_new (NULL, ui_test_own (), tl_language_plain (), settings);

  g_assert_true (tl_window_open (window, path));
  gtk_window_present (GTK_WINDOW (window));
  ui_test_wait (is_drawn, tl_build_page_bench (tl_window_build (window)));
  ui_test_settle (window);
  return window;
}

void
ui_test_walk (GtkWidget *widget, UiTestVisit visit, gpointer data)
{
  visit (widget, data);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    ui_test_walk (child, visit, data);
}

GtkWidget *
ui_test_find (GtkWidget *widget, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = ui_test_find (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
ui_test_check_control (GtkWidget *widget, int least)
{
  if (!(GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget) || GTK_IS_DROP_DOWN (widget))
      || !gtk_widget_get_mapped (widget)
      || gtk_widget_get_ancestor (gtk_widget_get_parent (widget), GTK_TYPE_DROP_DOWN) != NULL
      || gtk_widget_get_ancestor (gtk_widget_get_parent (widget), GTK_TYPE_MENU_BUTTON) != NULL)
    return FALSE;
  g_assert_cmpint (gtk_widget_get_width (widget), >=, least);
  g_assert_cmpint (gtk_widget_get_height (widget), >=, least);
  /* A list shows its choice and not its name. */
  g_assert_true (
      gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL)
      || (!GTK_IS_DROP_DOWN (widget) && ui_test_find (widget, GTK_TYPE_LABEL) != NULL));
  return TRUE;
}

gboolean
ui_test_item (TlBench *bench, TlItemKind kind, const char *owner, guint index, double *x, double *y)
{
  const GArray *items = tl_drawing_items (tl_bench_drawing (bench));

  for (guint i = 0; i < items->len; i++)
    {
      const TlItem *item = &g_array_index (items, TlItem, i);

      if (item->kind != kind
          || (owner != NULL ? g_strcmp0 (item->owner, owner) != 0 : item->index != index))
        continue;
      *x = item->x + item->width / 2;
      *y = item->y + item->height / 2;
      return TRUE;
    }
  return FALSE;
}

void
ui_test_init (int *argc, char ***argv)
{
  gtk_test_init (argc, argv);
  adw_init ();
}
