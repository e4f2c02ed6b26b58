/* window-actions.c: the window's actions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

#include "app/actions.h"
#include "app/bench-picture.h"
#include "app/own-window.h"

#include <glib/gi18n.h>

static void
first_page_action (GtkWidget *widget, const char *name, GVariant *target)
{
  gtk_stack_set_visible_child_name (TL_WINDOW (widget)->outer, "first");
}

static void
open_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_choose_to_open (TL_WINDOW (widget));
}

static void
open_path_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autofree char *path = g_variant_dup_string (target, NULL);

  tl_window_ask_then (TL_WINDOW (widget), TL_NEXT_OPEN, path, NULL);
}

static void
open_example_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autofree char *path = g_variant_dup_string (target, NULL);

  tl_window_ask_then (TL_WINDOW (widget), TL_NEXT_EXAMPLE, path, NULL);
}

static void
save_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_save_asking (TL_WINDOW (widget));
}

static void
save_as_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_choose_to_save (TL_WINDOW (widget));
}

static void
save_to_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_save (TL_WINDOW (widget), g_variant_get_string (target, NULL));
}

static void
export_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_choose_to_export (TL_WINDOW (widget));
}

static void
export_to_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_export (TL_WINDOW (widget), g_variant_get_string (target, NULL));
}

static void
print_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_steps_page_print (TL_WINDOW (widget)->steps, GTK_WINDOW (widget));
}

static void
undo_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_document_undo (TL_WINDOW (widget)->document);
}

static void
redo_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_document_redo (TL_WINDOW (widget)->document);
}

static void
page_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  gtk_stack_set_visible_child_name (self->outer, "joint");
  gtk_stack_set_visible_child_name (self->pages, g_variant_get_string (target, NULL));
}

/* Build in front, so that a pane can be meant. */
static void
show_build (TlWindow *self)
{
  gtk_stack_set_visible_child_name (self->outer, "joint");
  gtk_stack_set_visible_child_name (self->pages, "build");
}

static void
next_pane_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  if (g_strcmp0 (tl_window_page (self), "build") == 0)
    tl_build_page_next_pane (tl_window_build (self));
  else
    gtk_widget_child_focus (
        gtk_stack_get_visible_child (tl_window_is_on_joint (self) ? self->pages : self->outer),
        GTK_DIR_TAB_FORWARD);
}

static void
find_part_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  show_build (self);
  tl_build_page_find (tl_window_build (self));
}

static void
search_part_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  show_build (self);
  tl_parts_pane_search (tl_build_page_parts (tl_window_build (self)),
                        g_variant_get_string (target, NULL));
}

static void
toggle_parts_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_build_page_toggle_parts (TL_WINDOW (widget)->build);
}

static void
toggle_findings_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_build_page_toggle_findings (TL_WINDOW (widget)->build);
}

static void
zoom_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  if (g_strcmp0 (tl_window_page (self), "steps") == 0)
    gtk_widget_activate_action_variant (GTK_WIDGET (tl_window_steps (self)), "steps.zoom", target);
  else if (g_strcmp0 (tl_window_page (self), "pictures") == 0)
    tl_pictures_page_zoom (tl_window_pictures (self), g_variant_get_string (target, NULL));
  else
    gtk_widget_activate_action_variant (GTK_WIDGET (tl_window_build (self)), "build.zoom", target);
}

static void
shortcuts_action (GtkWidget *widget, const char *name, GVariant *target)
{
  GtkWidget *window = tl_actions_window ();

  gtk_window_set_transient_for (GTK_WINDOW (window), GTK_WINDOW (widget));
  gtk_window_present (GTK_WINDOW (window));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *target)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
copy_drawing_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);
  gboolean  is_svg = g_str_equal (g_variant_get_string (target, NULL), "svg");
  g_autoptr (GError) error = NULL;

  if (!tl_bench_copy (tl_build_page_bench (tl_window_build (self)),
                      is_svg ? TL_PICTURE_SVG : TL_PICTURE_PNG, &error))
    tl_window_show_message (self, error->message);
  else
    adw_toast_overlay_add_toast (
        self->toasts,
        tl_window_toast (
            self, is_svg ? _ ("Drawing copied as SVG.") : _ ("Drawing copied as a picture."), 3));
}

static void
own_parts_action (GtkWidget *widget, const char *name, GVariant *target)
{
  gtk_window_present (GTK_WINDOW (tl_window_own_parts (TL_WINDOW (widget))));
}

static void
own_part_action (GtkWidget *widget, const char *name, GVariant *target)
{
  GtkWidget *window = tl_window_own_parts (TL_WINDOW (widget));

  tl_own_window_show_part (TL_OWN_WINDOW (window), g_variant_get_string (target, NULL));
  gtk_window_present (GTK_WINDOW (window));
}

static void
mark_van_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow        *self = TL_WINDOW (widget);
  g_autofree char *part = g_variant_dup_string (target, NULL);
  g_autoptr (GError) error = NULL;

  if (!tl_own_stock_set_in_van (self->own, part, !tl_own_stock_is_in_van (self->own, part), &error))
    tl_window_show_message (self, error->message);
}

/* Where a missing figure is entered. */
static void
enter_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow   *self = TL_WINDOW (widget);
  const char *owner;
  guint       field;

  g_variant_get (target, "(&su)", &owner, &field);
  show_build (self);
  tl_build_page_enter (tl_window_build (self), owner, (TlField) field);
}

/* The joint as it is, in charts: potentials, heat along it. */
static void
chart_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  gtk_stack_set_visible_child_name (self->outer, "joint");
  gtk_stack_set_visible_child_name (self->pages, "ageing");
  gtk_widget_activate_action (GTK_WIDGET (tl_window_ageing (self)), "ageing.view", "s", "now");
}

static void
tell_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlWindow *self = TL_WINDOW (widget);

  adw_toast_overlay_add_toast (self->toasts,
                               tl_window_toast (self, g_variant_get_string (target, NULL), 3));
}

static void
warn_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_window_show_message (TL_WINDOW (widget), g_variant_get_string (target, NULL));
}

void
tl_window_install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "win.first-page", NULL, first_page_action);
  gtk_widget_class_install_action (klass, "win.open", NULL, open_action);
  gtk_widget_class_install_action (klass, "win.open-path", "s", open_path_action);
  gtk_widget_class_install_action (klass, "win.open-example", "s", open_example_action);
  gtk_widget_class_install_action (klass, "win.save", NULL, save_action);
  gtk_widget_class_install_action (klass, "win.save-as", NULL, save_as_action);
  gtk_widget_class_install_action (klass, "win.save-to", "s", save_to_action);
  gtk_widget_class_install_action (klass, "win.export-pdf", NULL, export_action);
  gtk_widget_class_install_action (klass, "win.export-to", "s", export_to_action);
  gtk_widget_class_install_action (klass, "win.print", NULL, print_action);
  gtk_widget_class_install_action (klass, "win.undo", NULL, undo_action);
  gtk_widget_class_install_action (klass, "win.redo", NULL, redo_action);
  gtk_widget_class_install_action (klass, "win.page", "s", page_action);
  gtk_widget_class_install_action (klass, "win.next-pane", NULL, next_pane_action);
  gtk_widget_class_install_action (klass, "win.find-part", NULL, find_part_action);
  gtk_widget_class_install_action (klass, "win.search-part", "s", search_part_action);
  gtk_widget_class_install_action (klass, "win.toggle-parts", NULL, toggle_parts_action);
  gtk_widget_class_install_action (klass, "win.toggle-findings", NULL, toggle_findings_action);
  gtk_widget_class_install_action (klass, "win.zoom", "s", zoom_action);
  gtk_widget_class_install_action (klass, "win.shortcuts", NULL, shortcuts_action);
  gtk_widget_class_install_action (klass, "win.close", NULL, close_action);
  gtk_widget_class_install_action (klass, "win.copy-drawing", "s", copy_drawing_action);
  gtk_widget_class_install_action (klass, "win.own-parts", NULL, own_parts_action);
  gtk_widget_class_install_action (klass, "win.own-part", "s", own_part_action);
  gtk_widget_class_install_action (klass, "win.mark-van", "s", mark_van_action);
  gtk_widget_class_install_action (klass, "win.enter", "(su)", enter_action);
  gtk_widget_class_install_action (klass, "win.chart", NULL, chart_action);
  gtk_widget_class_install_action (klass, "win.tell", "s", tell_action);
  gtk_widget_class_install_action (klass, "win.warn", "s", warn_action);
}

GtkWidget *
tl_window_own_parts (TlWindow *self)
{
  if (self->own_window == NULL)
    self->own_window = tl_own_window_new (self->own, self->document, GTK_WINDOW (self));
  return self->own_window;
}
