/* window.c: header, pages and life of a window.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

#include "app/actions.h"
#include "app/chooser.h"
#include "app/own-window.h"
#include "app/status.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (TlWindow, tl_window, ADW_TYPE_APPLICATION_WINDOW)

/* --- what the header says --- */
static void
show_title (TlWindow *self)
{
  const TlJoint   *joint = tl_document_joint (self->document);
  g_autofree char *title = tl_document_title (self->document);
  g_autofree char *place = NULL, *whole = NULL, *back = NULL;
  const char      *state = tl_document_is_modified (self->document)    ? _ ("changed")
                           : tl_document_path (self->document) != NULL ? _ ("saved")
                                                                       : _ ("not saved yet");

  place = joint->place == NULL || *joint->place == '\0'
              ? g_strdup (state)
              : g_strdup_printf ("%s · %s", joint->place, state);
  whole = self->has_joint ? g_strdup_printf (_ ("%s – Tinlap"), title) : g_strdup (_ ("Tinlap"));
  back = g_strdup_printf (_ ("Back to %s"), title);
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->place, place);
  gtk_widget_set_tooltip_text (self->title_box, title);
  gtk_button_set_label (self->back, back);
  gtk_window_set_title (GTK_WINDOW (self), whole);
}

static void
show_undo (TlWindow *self)
{
  const char *undo = tl_document_undo_label (self->document),
             *redo = tl_document_redo_label (self->document);
  g_autofree char *undo_text =
      undo == NULL ? g_strdup (_ ("Undo")) : g_strdup_printf (_ ("Undo: %s"), undo);
  g_autofree char *redo_text =
      redo == NULL ? g_strdup (_ ("Redo")) : g_strdup_printf (_ ("Redo: %s"), redo);

  gtk_widget_set_tooltip_text (self->undo, undo_text);
  gtk_widget_set_tooltip_text (self->redo, redo_text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->undo), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  undo_text, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->redo), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  redo_text, -1);
}

void
tl_window_show_verdict (TlWindow *self)
{
  const char *page = gtk_stack_get_visible_child_name (self->outer);

  /* A verdict that nobody sees yet is not made. */
  gtk_widget_set_visible (GTK_WIDGET (self->chip),
                          self->is_painted && g_strcmp0 (page, "first") != 0);
  if (self->is_painted)
    tl_verdict_chip_show (self->chip, tl_document_verdict (self->document),
                          tl_document_language (self->document));
}

static void
on_changed (TlWindow *self)
{
  tl_window_show_verdict (self);
  show_title (self);
  show_undo (self);
  tl_window_update_actions (self);
}

static void
on_done (TlDocument *document, const char *sentence, TlWindow *self)
{
  AdwToast *toast = tl_window_toast (self, sentence, 4);

  if (tl_document_undo_label (document) != NULL)
    {
      adw_toast_set_button_label (toast, _ ("Undo"));
      adw_toast_set_action_name (toast, "win.undo");
    }
  adw_toast_overlay_add_toast (self->toasts, toast);
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
/* px of width below which the pages are a menu, and below which the joint's name gives way to it */
static const int FOLD_TABS_PX = 790;
static const int FOLD_TITLE_PX = 980;
/* Beside the menu of pages the name has room again. */
static const int TITLE_BY_MENU_PX = 600;
static const int LEAST_PX = 480;

static GMenu *
pages_model (TlWindow *self)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GListModel) pages = G_LIST_MODEL (gtk_stack_get_pages (self->pages));

  for (guint i = 0; i < g_list_model_get_n_items (pages); i++)
    {
      g_autoptr (GObject) object = g_list_model_get_item (pages, i);
      GtkStackPage *page = GTK_STACK_PAGE (object);
      g_autoptr (GMenuItem) item = g_menu_item_new (gtk_stack_page_get_title (page), NULL);

      g_menu_item_set_action_and_target (item, "win.page", "s", gtk_stack_page_get_name (page));
      g_menu_append_item (menu, item);
    }
  return menu;
}

static void
fold_tabs (TlWindow *self)
{
  GtkWidget    *page = gtk_stack_get_visible_child (self->pages);
  GtkStackPage *shown = page == NULL ? NULL : gtk_stack_get_page (self->pages, page);
  gboolean      is_first = g_strcmp0 (gtk_stack_get_visible_child_name (self->outer), "first") == 0,
           is_narrow = self->width > 0 && self->width < FOLD_TABS_PX;

  gtk_widget_set_visible (GTK_WIDGET (self->tabs), !is_first && !is_narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->pages_menu), !is_first && is_narrow);
  gtk_widget_set_visible (self->title_box,
                          !is_first
                              && (self->width == 0 || self->width >= FOLD_TITLE_PX
                                  || (is_narrow && self->width >= TITLE_BY_MENU_PX)));
  if (shown != NULL)
    gtk_menu_button_set_label (self->pages_menu, gtk_stack_page_get_title (shown));
}

static gboolean
on_fold (gpointer data)
{
  TlWindow *self = data;

  self->fold = 0;
  fold_tabs (self);
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

  fold_tabs (self);
  tl_window_show_verdict (self);
  gtk_widget_set_visible (self->undo, !is_first);
  gtk_widget_set_visible (self->redo, !is_first);
  gtk_widget_set_visible (self->separator, !is_first);
  gtk_widget_set_visible (self->first_head, is_first);
  gtk_widget_set_visible (GTK_WIDGET (self->back), is_first && self->has_joint);
  tl_window_show_page (self);
  tl_window_update_actions (self);
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
  g_signal_connect_swapped (self->outer, "notify::visible-child", G_CALLBACK (on_page), self);
  g_signal_connect_swapped (self->pages, "notify::visible-child", G_CALLBACK (on_page), self);
  menu = pages_model (self);
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
  g_signal_connect_swapped (self->document, "changed", G_CALLBACK (on_changed), self);
  g_signal_connect (self->document, "done", G_CALLBACK (on_done), self);
  g_signal_connect_object (own, "changed", G_CALLBACK (on_own_stock), self, G_CONNECT_SWAPPED);
  gtk_window_set_default_size (GTK_WINDOW (self), g_settings_get_int (settings, "window-width"),
                               g_settings_get_int (settings, "window-height"));
  if (g_settings_get_boolean (settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
  on_changed (self);
  on_page (self);
  tl_status_watch (self);
  return self;
}

gboolean
tl_window_open (TlWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (!tl_document_open (self->document, path, &error))
    {
      tl_window_show_message (self, error->message);
      return FALSE;
    }
  tl_window_show_joint (self);
  return TRUE;
}

TlDocument *
tl_window_document (TlWindow *self)
{
  return self->document;
}

GtkWidget *
tl_window_own_parts (TlWindow *self)
{
  if (self->own_window == NULL)
    self->own_window = tl_own_window_new (self->own, self->document, GTK_WINDOW (self));
  return self->own_window;
}

const char *
tl_window_last_message (TlWindow *self)
{
  return self->last_message;
}
