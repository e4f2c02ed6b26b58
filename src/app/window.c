/* window.c: header, pages and life of a window.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

#include "app/actions.h"
#include "app/chooser.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (TlWindow, tl_window, ADW_TYPE_APPLICATION_WINDOW)

/* --- the toast about the last edit --- */
static void
on_toast_gone (AdwToast *toast, TlWindow *self)
{
  if (self->edit_toast != toast)
    return;
  g_clear_weak_pointer (&self->edit_toast);
  g_clear_handle_id (&self->toast_end, g_source_remove);
}

static gboolean
on_toast_end (gpointer data)
{
  TlWindow *self = data;

  self->toast_end = 0;
  if (self->edit_toast != NULL)
    adw_toast_dismiss (self->edit_toast);
  return G_SOURCE_REMOVE;
}

/* One toast that takes the next sentence: in a row behind each other they would offer to undo what is no longer the last
 * edit, and many that are dismissed at once crash libadwaita 1.2 when the window closes. */
static void
show_edit_toast (TlWindow *self, const char *sentence, guint seconds, gboolean can_undo)
{
  AdwToast *toast = tl_window_toast (self, sentence, 0);

  if (self->edit_toast != NULL)
    {
      adw_toast_set_title (self->edit_toast, adw_toast_get_title (toast));
      g_object_unref (toast);
    }
  else
    {
      g_set_weak_pointer (&self->edit_toast, toast);
      adw_toast_set_action_name (toast, "win.undo");
      g_signal_connect_object (toast, "dismissed", G_CALLBACK (on_toast_gone), self, 0);
      adw_toast_overlay_add_toast (self->toasts, toast);
    }
  adw_toast_set_button_label (self->edit_toast, can_undo ? _ ("Undo") : NULL);
  g_clear_handle_id (&self->toast_end, g_source_remove);
  self->toast_end = g_timeout_add_seconds (seconds, on_toast_end, self);
}

static void
on_done (TlDocument *document, const char *sentence, TlWindow *self)
{
  show_edit_toast (self, sentence, 4, tl_document_undo_label (document) != NULL);
}

/* What the toast is about is no longer the last edit; its own sentence comes after the change. */
static void
on_edited (TlWindow *self)
{
  if (self->edit_toast != NULL)
    adw_toast_set_button_label (self->edit_toast, NULL);
}

static void
on_refused (TlDocument *document, const char *sentence, TlWindow *self)
{
  show_edit_toast (self, sentence, 6, FALSE);
}

/* Another stock: the joint stays and is judged anew, the lists are made anew. */
static void
on_own_stock (TlWindow *self)
{
  if (self->first != NULL)
    tl_first_page_change_stock (self->first, tl_own_stock_stock (self->own));
  tl_document_set_stock (self->document, tl_own_stock_stock (self->own));
}

/* --- pages --- */
/* px of width of the narrowest window */
static const int LEAST_PX = 480;

static gboolean
on_fold (gpointer data)
{
  TlWindow *self = data;

  self->fold = 0;
  tl_window_fold_tabs (self);
  return G_SOURCE_REMOVE;
}

/* The header folds when there is less room; unfolded, it would not let the window become that narrow. */
static void
tl_window_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                   int *natural, int *minimum_baseline, int *natural_baseline)
{
  GTK_WIDGET_CLASS (tl_window_parent_class)
      ->measure (widget, orientation, for_size, minimum, natural, minimum_baseline,
                 natural_baseline);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = MIN (*minimum, LEAST_PX);
}

static void
tl_window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TlWindow *self = TL_WINDOW (widget);

  GTK_WIDGET_CLASS (tl_window_parent_class)->size_allocate (widget, width, height, baseline);
  if (width == self->width)
    return;
  self->width = width;
  if (self->fold == 0)
    self->fold = g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_fold, self, NULL);
}

static void
on_page (TlWindow *self)
{
  gboolean is_first = g_strcmp0 (gtk_stack_get_visible_child_name (self->outer), "first") == 0;

  tl_window_fold_tabs (self);
  tl_window_show_verdict (self);
  gtk_widget_set_visible (self->undo, !is_first);
  gtk_widget_set_visible (self->redo, !is_first);
  gtk_widget_set_visible (self->separator, !is_first);
  gtk_widget_set_visible (self->first_head, is_first);
  gtk_widget_set_visible (GTK_WIDGET (self->back), is_first && self->has_joint);
  tl_window_show_page (self);
  tl_window_update_actions (self);
}

/* The first page asks for joints once it is made. */
static void
on_made (TlFirstPage *page, gpointer joint, TlWindow *self)
{
  tl_window_ask_then (self, TL_NEXT_JOINT, NULL, joint);
}

static void
on_example (TlFirstPage *page, const char *path, TlWindow *self)
{
  tl_window_ask_then (self, TL_NEXT_EXAMPLE, path, NULL);
}

static void
on_first_page (TlWindow *self)
{
  if (adw_bin_get_child (self->first_place) == NULL)
    return;
  g_signal_connect (self->first, "made", G_CALLBACK (on_made), self);
  g_signal_connect (self->first, "example", G_CALLBACK (on_example), self);
}

static void
on_back (GtkButton *button, TlWindow *self)
{
  gtk_stack_set_visible_child_name (self->outer, "joint");
}

static void
on_close_notice (GtkButton *button, TlWindow *self)
{
  gtk_widget_set_visible (self->notice, FALSE);
}

/* --- window --- */
static gboolean
tl_window_close_request (GtkWindow *window)
{
  TlWindow *self = TL_WINDOW (window);
  int       width, height;

  gtk_window_get_default_size (window, &width, &height);
  g_settings_set_int (self->settings, "window-width", CLAMP (width, 360, 32000));
  g_settings_set_int (self->settings, "window-height", CLAMP (height, 300, 32000));
  g_settings_set_boolean (self->settings, "window-maximized", gtk_window_is_maximized (window));
  if (self->has_joint && tl_document_is_modified (self->document))
    {
      tl_window_ask_then (self, TL_NEXT_CLOSE, NULL, NULL);
      return TRUE;
    }
  return GTK_WINDOW_CLASS (tl_window_parent_class)->close_request (window);
}

static void
on_active (TlWindow *self)
{
  if (gtk_window_is_active (GTK_WINDOW (self)))
    tl_window_check_stale (self);
}

static gboolean
on_drop (GtkDropTarget *target, const GValue *value, double x, double y, TlWindow *self)
{
  GSList          *files = g_value_get_boxed (value);
  g_autofree char *path = files == NULL ? NULL : g_file_get_path (files->data);

  if (path == NULL)
    return FALSE;
  if (self->has_joint && tl_pictures_page_takes (files->data))
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "win.page", "s", "pictures");
      for (; files != NULL; files = files->next)
        tl_pictures_page_add_file (tl_window_pictures (self), files->data);
      return TRUE;
    }
  tl_window_ask_then (self, TL_NEXT_OPEN, path, NULL);
  return TRUE;
}

static void
tl_window_dispose (GObject *object)
{
  TlWindow *self = TL_WINDOW (object);

  g_clear_handle_id (&self->fold, g_source_remove);
  g_clear_handle_id (&self->first_frame, g_source_remove);
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  tl_chooser_close (&self->chooser);
  g_clear_handle_id (&self->toast_end, g_source_remove);
  g_clear_weak_pointer (&self->edit_toast);
  if (self->own_window != NULL)
    gtk_window_destroy (GTK_WINDOW (self->own_window));
  self->own_window = NULL;
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_WINDOW);
  g_clear_object (&self->kept);
  g_clear_pointer (&self->left, g_ptr_array_unref);
  g_clear_object (&self->document);
  g_clear_object (&self->own);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->next_path, g_free);
  g_clear_pointer (&self->next_joint, tl_joint_unref);
  g_clear_pointer (&self->last_message, g_free);
  G_OBJECT_CLASS (tl_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TlWindow, notice);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, notice_text);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, header);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, outer);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, tabs);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, pages_menu);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, title);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, place);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, title_box);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, first_head);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, undo);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, redo);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, separator);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, back);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, chip);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, first_place);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, build_place);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, steps_place);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, ageing_place);
  gtk_widget_class_bind_template_child (widget_class, TlWindow, pictures_place);
}

static void
tl_window_class_init (TlWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = tl_window_close_request;
  widget_class->measure = tl_window_measure;
  widget_class->size_allocate = tl_window_size_allocate;
  g_type_ensure (TL_TYPE_VERDICT_CHIP);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  gtk_widget_class_bind_template_callback (widget_class, on_close_notice);
  tl_window_install_actions (widget_class);
}

static void
tl_window_init (TlWindow *self)
{
  g_autoptr (GMenu) menu = NULL;
  GtkDropTarget *drop = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_add_controller (GTK_WIDGET (self), tl_actions_controller ());
  g_signal_connect (drop, "drop", G_CALLBACK (on_drop), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drop));
  g_signal_connect (self, "notify::is-active", G_CALLBACK (on_active), NULL);
  g_signal_connect (self, "realize", G_CALLBACK (tl_window_await_first_frame), NULL);
  g_signal_connect_swapped (self->first_place, "notify::child", G_CALLBACK (on_first_page), self);
  g_signal_connect_swapped (self->outer, "notify::visible-child", G_CALLBACK (on_page), self);
  g_signal_connect_swapped (self->pages, "notify::visible-child", G_CALLBACK (on_page), self);
  menu = tl_window_pages_menu (self);
  gtk_menu_button_set_menu_model (self->pages_menu, G_MENU_MODEL (menu));
}

TlWindow *
tl_window_new (GtkApplication *application, TlOwnStock *own, const TlLanguage *language,
               GSettings *settings)
{
  TlWindow *self = g_object_new (TL_TYPE_WINDOW, "application", application, NULL);

  self->settings = g_object_ref (settings);
  self->own = g_object_ref (own);
  self->document = tl_document_new (tl_own_stock_stock (own), language);
  g_signal_connect_swapped (self->document, "changed", G_CALLBACK (tl_window_show_state), self);
  g_signal_connect_swapped (self->document, "changed", G_CALLBACK (on_edited), self);
  g_signal_connect (self->document, "done", G_CALLBACK (on_done), self);
  g_signal_connect (self->document, "refused", G_CALLBACK (on_refused), self);
  g_signal_connect_object (own, "changed", G_CALLBACK (on_own_stock), self, G_CONNECT_SWAPPED);
  gtk_window_set_default_size (GTK_WINDOW (self), g_settings_get_int (settings, "window-width"),
                               g_settings_get_int (settings, "window-height"));
  if (g_settings_get_boolean (settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
  tl_window_show_state (self);
  on_page (self);
  return self;
}

TlDocument *
tl_window_document (TlWindow *self)
{
  return self->document;
}

const char *
tl_window_last_message (TlWindow *self)
{
  return self->last_message;
}
