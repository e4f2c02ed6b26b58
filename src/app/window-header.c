/* window-header.c: what the window shows of its state: title, undo, verdict, tabs, and which actions are open.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

#include "app/labelled.h"

#include <glib/gi18n.h>

/* px of width below which the pages are a menu, and below which the joint's name gives way to it */
static const int FOLD_TABS_PX = 790;
static const int FOLD_TITLE_PX = 980;
/* Beside the menu of pages the name has room again. */
static const int TITLE_BY_MENU_PX = 600;

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

gboolean
tl_window_is_on_joint (TlWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->outer), "joint") == 0;
}

void
tl_window_update_actions (TlWindow *self)
{
  static const char *const of_a_joint[] = {
    "win.save",         "win.save-as",         "win.save-to",   "win.export-pdf",
    "win.export-to",    "win.print",           "win.find-part", "win.search-part",
    "win.toggle-parts", "win.toggle-findings", "win.zoom",      "win.copy-drawing"
  };
  gboolean is_there = tl_window_is_on_joint (self);

  for (guint i = 0; i < G_N_ELEMENTS (of_a_joint); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), of_a_joint[i], is_there);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.page", self->has_joint);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.undo",
                                 is_there && tl_document_undo_label (self->document) != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.redo",
                                 is_there && tl_document_redo_label (self->document) != NULL);
}

void
tl_window_show_state (TlWindow *self)
{
  tl_window_show_verdict (self);
  show_title (self);
  tl_undo_buttons_show (self->undo, self->redo, tl_document_undo_label (self->document),
                        tl_document_redo_label (self->document));
  tl_window_update_actions (self);
}

GMenu *
tl_window_pages_menu (TlWindow *self)
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

void
tl_window_fold_tabs (TlWindow *self)
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
