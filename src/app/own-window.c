/* own-window.c: My parts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-window.h"

#include "app/chooser.h"
#include "app/labelled.h"
#include "app/own-minutes.h"
#include "app/own-texts.h"
#include "app/part-row.h"
#include "stock/search.h"

#include <glib/gi18n.h>

static const guint MAX_HITS = 200;
static const guint AFTER_MENU_ms = 150;

struct _TlOwnWindow
{
  GtkWindow parent_instance;

  TlOwnStock           *own;
  TlDocument           *document;
  GtkSearchEntry       *search;
  GtkListView          *list;
  GtkLabel             *nothing;
  GtkStack             *pages;
  GtkBox               *part_box;
  GtkBox               *minutes_box;
  GtkMenuButton        *add;
  GtkWidget            *undo, *redo;
  GtkWidget            *notice;
  GtkLabel             *notice_text;
  TlOwnPartForm        *form;
  TlOwnMinutes         *minutes;
  GListStore           *parts;
  GtkSingleSelection   *selection;
  TlSearch             *find;    /* (nullable): in the present stock */
  GtkFileChooserNative *chooser; /* while it is open */
  gboolean              is_filling;
};

G_DEFINE_FINAL_TYPE (TlOwnWindow, tl_own_window, GTK_TYPE_WINDOW)

/* --- messages --- */
/* @is_well: what was asked for is done, and nothing was left out. */
static void
say (TlOwnWindow *self, const char *text, gboolean is_well)
{
  gtk_label_set_text (self->notice_text, text);
  gtk_widget_set_visible (self->notice, *text != '\0');
  if (is_well)
    gtk_widget_add_css_class (self->notice, "well");
  else
    gtk_widget_remove_css_class (self->notice, "well");
}

static void
warn (TlOwnWindow *self, const char *text)
{
  say (self, text, FALSE);
}

static void
show_problems (TlOwnWindow *self)
{
  g_autofree char *text = tl_own_problems_text (tl_own_stock_problems (self->own));

  warn (self, text);
}

static void
on_close_notice (GtkButton *button, TlOwnWindow *self)
{
  gtk_widget_set_visible (self->notice, FALSE);
}

/* --- list --- */
static void
add_item (TlOwnWindow *self, GPtrArray *items, const TlPart *part)
{
  if (part != NULL)
    g_ptr_array_add (items, tl_part_item_new (part, tl_own_stock_stock (self->own),
                                              tl_document_language (self->document)));
}

static void
add_noted (TlOwnWindow *self, GPtrArray *items)
{
  const TlPack *pack = tl_own_stock_pack (self->own);
  g_autoptr (GPtrArray) parts = tl_pack_parts (pack);
  g_autoptr (GPtrArray) marks = tl_pack_marks (pack);

  for (guint i = 0; i < parts->len; i++)
    add_item (self, items, g_ptr_array_index (parts, i));
  for (guint i = 0; i < marks->len; i++)
    {
      const TlPackMark *mark = g_ptr_array_index (marks, i);

      if (tl_pack_part (pack, mark->part) == NULL)
        add_item (self, items, tl_stock_part (tl_own_stock_stock (self->own), mark->part));
    }
}

static void
add_found (TlOwnWindow *self, GPtrArray *items, const char *words)
{
  g_autoptr (GArray) hits = NULL;

  if (self->find == NULL)
    self->find =
        tl_search_new (tl_own_stock_stock (self->own), tl_document_language (self->document));
  hits = tl_search_find (self->find, words, NULL);
  for (guint i = 0; i < hits->len && i < MAX_HITS; i++)
    add_item (self, items, g_array_index (hits, TlSearchHit, i).part);
}

static void
select_part (TlOwnWindow *self, const char *id)
{
  guint found = GTK_INVALID_LIST_POSITION;

  for (guint i = 0; id != NULL && i < g_list_model_get_n_items (G_LIST_MODEL (self->parts)); i++)
    {
      g_autoptr (TlPartItem) item = g_list_model_get_item (G_LIST_MODEL (self->parts), i);

      if (g_str_equal (tl_part_item_part (item)->id, id))
        {
          found = i;
          break;
        }
    }
  gtk_single_selection_set_selected (self->selection, found);
}

static void
fill (TlOwnWindow *self)
{
  g_autofree char *words =
      g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->search))));
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  if (*words == '\0')
    add_noted (self, items);
  else
    add_found (self, items, words);
  self->is_filling = TRUE;
  g_list_store_splice (self->parts, 0, g_list_model_get_n_items (G_LIST_MODEL (self->parts)),
                       items->pdata, items->len);
  select_part (self, tl_own_part_form_part (self->form));
  self->is_filling = FALSE;
  gtk_label_set_text (self->nothing, *words == '\0'
                                         ? _ ("No part of your own yet. Add one, or search the "
                                              "stock and mark what is in the van.")
                                         : _ ("No part is called so."));
  gtk_widget_set_visible (GTK_WIDGET (self->nothing), items->len == 0);
}

static void
on_search (GtkSearchEntry *search, TlOwnWindow *self)
{
  if (self->own != NULL)
    fill (self);
}

static void
on_selected (GtkSingleSelection *selection, GParamSpec *pspec, TlOwnWindow *self)
{
  TlPartItem *item = gtk_single_selection_get_selected_item (selection);

  if (!self->is_filling && item != NULL)
    tl_own_part_form_show (self->form, tl_part_item_part (item)->id);
}

static void
on_setup (GtkSignalListItemFactory *factory, GtkListItem *item, TlOwnWindow *self)
{
  gtk_list_item_set_child (item, tl_part_row_new ());
}

static void
on_bind (GtkSignalListItemFactory *factory, GtkListItem *list_item, TlOwnWindow *self)
{
  TlPartItem      *item = gtk_list_item_get_item (list_item);
  GtkWidget       *row = gtk_list_item_get_child (list_item);
  g_autofree char *label =
      g_strdup_printf ("%s, %s", tl_part_item_name (item), tl_part_item_dimensions (item));

  tl_part_row_show (TL_PART_ROW (row), item, NULL, tl_own_stock_stock (self->own));
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (row)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static void
on_unbind (GtkSignalListItemFactory *factory, GtkListItem *list_item, TlOwnWindow *self)
{
  tl_part_row_show (TL_PART_ROW (gtk_list_item_get_child (list_item)), NULL, NULL, NULL);
}

/* --- the stock is another one --- */
static void
show_undo (TlOwnWindow *self)
{
  const char *undo = tl_own_stock_undo_label (self->own),
             *redo = tl_own_stock_redo_label (self->own);

  tl_undo_buttons_show (self->undo, self->redo, undo, redo);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "own.undo", undo != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "own.redo", redo != NULL);
}

static void
on_own_changed (TlOwnWindow *self)
{
  g_autofree char *id = g_strdup (tl_own_part_form_part (self->form));

  g_clear_pointer (&self->find, tl_search_free);
  tl_own_part_form_show (self->form, id);
  fill (self);
  show_undo (self);
  show_problems (self);
  if (gtk_widget_get_visible (GTK_WIDGET (self)))
    tl_own_minutes_refresh (self->minutes);
}

/* --- actions --- */
/* Once the menu that asked for it has closed and given the keyboard back. */
static gboolean
begin (gpointer data)
{
  TlOwnWindow *self = data;

  if (self->form != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    tl_own_part_form_begin (self->form);
  return G_SOURCE_REMOVE;
}

static void
begin_part (TlOwnWindow *self, const char *id)
{
  tl_own_window_show_part (self, id);
  g_timeout_add_full (G_PRIORITY_DEFAULT, AFTER_MENU_ms, begin, g_object_ref (self),
                      g_object_unref);
}

static void
add_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow  *self = TL_OWN_WINDOW (widget);
  const TlPack *pack = tl_own_stock_pack (self->own);
  TlPartKind    kind;
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_autofree char *id = NULL;
  g_autoptr (GError) error = NULL;
  TlPart part = { .size = (char *) "", .facts = none };

  if (!tl_part_kind_from_word (g_variant_get_string (target, NULL), &kind))
    return;
  part.kind = kind;
  part.id = id = tl_pack_free_id (pack, tl_own_stock_stock (self->own), kind);
  if (tl_own_stock_take (self->own, tl_pack_add_part (pack, &part, &error), _ ("Add a part"),
                         &error))
    begin_part (self, id);
  else
    warn (self, error->message);
}

static void
show_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_own_window_show_part (TL_OWN_WINDOW (widget), g_variant_get_string (target, NULL));
}

static void
copy_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow     *self = TL_OWN_WINDOW (widget);
  g_autofree char *part = g_strdup (tl_own_part_form_part (self->form));
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL;

  if (part == NULL)
    return;
  id = tl_own_stock_copy_part (self->own, part, &error);
  if (id == NULL)
    {
      warn (self, error->message);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  begin_part (self, id);
}

static void
remove_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow *self = TL_OWN_WINDOW (widget);
  const char  *part = tl_own_part_form_part (self->form);
  g_autoptr (GError) error = NULL;

  if (part == NULL || !tl_own_stock_has_part (self->own, part))
    return;
  if (!tl_own_stock_take (self->own,
                          tl_pack_remove_part (tl_own_stock_pack (self->own), part, &error),
                          _ ("Remove a part"), &error))
    warn (self, error->message);
}

static void
undo_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow *self = TL_OWN_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (!tl_own_stock_undo (self->own, &error))
    warn (self, error->message);
}

static void
redo_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow *self = TL_OWN_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (!tl_own_stock_redo (self->own, &error))
    warn (self, error->message);
}

static void
reload_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_own_stock_reload (TL_OWN_WINDOW (widget)->own);
}

static void
warn_action (GtkWidget *widget, const char *name, GVariant *target)
{
  warn (TL_OWN_WINDOW (widget), g_variant_get_string (target, NULL));
}

static guint
count_parts (TlOwnWindow *self)
{
  g_autoptr (GPtrArray) parts = tl_pack_parts (tl_own_stock_pack (self->own));

  return parts->len;
}

static void
import_from_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow *self = TL_OWN_WINDOW (widget);
  const char  *path = g_variant_get_string (target, NULL);
  guint        before = count_parts (self), after;
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (!tl_own_stock_import (self->own, path, problems, &error))
    {
      warn (self, error->message);
      return;
    }
  for (guint i = 0; i < tl_own_stock_problems (self->own)->len; i++)
    {
      const TlPackProblem *problem = g_ptr_array_index (tl_own_stock_problems (self->own), i);
      TlPackProblem       *copy = g_new0 (TlPackProblem, 1);

      copy->message = g_strdup (problem->message);
      g_ptr_array_add (problems, copy);
    }
  after = count_parts (self);
  text = tl_own_import_text (path, after > before ? after - before : 0, problems);
  say (self, text, problems->len == 0);
}

static void
export_to_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow *self = TL_OWN_WINDOW (widget);
  const char  *path = g_variant_get_string (target, NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strdup_printf (_ ("Your parts are written to %s."), path);

  if (tl_own_stock_export (self->own, path, &error))
    say (self, text, TRUE);
  else
    warn (self, error->message);
}

static void
on_chosen (GtkNativeDialog *dialog, int response, TlOwnWindow *self)
{
  gboolean is_import =
      gtk_file_chooser_get_action (GTK_FILE_CHOOSER (dialog)) == GTK_FILE_CHOOSER_ACTION_OPEN;
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, NULL);

  if (path != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), is_import ? "own.import-from" : "own.export-to",
                                "s", path);
}

static void
choose_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlOwnWindow *self = TL_OWN_WINDOW (widget);
  gboolean     is_import = g_str_equal (name, "own.import");

  tl_chooser_new (&self->chooser, widget,
                  is_import ? _ ("Take a pack in") : _ ("Write my parts to a file"),
                  is_import ? GTK_FILE_CHOOSER_ACTION_OPEN : GTK_FILE_CHOOSER_ACTION_SAVE,
                  is_import ? _ ("_Open") : _ ("_Save"));
  tl_chooser_add_kind (self->chooser, "*.xml", _ ("Packs of parts"));
  if (!is_import)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), "my-parts.xml");
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (on_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* --- widget --- */
static void
on_show (TlOwnWindow *self)
{
  tl_own_minutes_refresh (self->minutes);
}

static void
tl_own_window_dispose (GObject *object)
{
  TlOwnWindow *self = TL_OWN_WINDOW (object);

  if (self->own != NULL)
    g_signal_handlers_disconnect_by_data (self->own, self);
  tl_chooser_close (&self->chooser);
  if (self->list != NULL)
    gtk_list_view_set_model (self->list, NULL);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_OWN_WINDOW);
  g_clear_object (&self->selection);
  g_clear_pointer (&self->find, tl_search_free);
  g_clear_object (&self->own);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (tl_own_window_parent_class)->dispose (object);
}

static void
install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "own.add", "s", add_action);
  gtk_widget_class_install_action (klass, "own.show", "s", show_action);
  gtk_widget_class_install_action (klass, "own.copy", NULL, copy_action);
  gtk_widget_class_install_action (klass, "own.remove", NULL, remove_action);
  gtk_widget_class_install_action (klass, "own.undo", NULL, undo_action);
  gtk_widget_class_install_action (klass, "own.redo", NULL, redo_action);
  gtk_widget_class_install_action (klass, "own.reload", NULL, reload_action);
  gtk_widget_class_install_action (klass, "own.warn", "s", warn_action);
  gtk_widget_class_install_action (klass, "own.import", NULL, choose_action);
  gtk_widget_class_install_action (klass, "own.import-from", "s", import_from_action);
  gtk_widget_class_install_action (klass, "own.export", NULL, choose_action);
  gtk_widget_class_install_action (klass, "own.export-to", "s", export_to_action);
  gtk_widget_class_add_binding_action (klass, GDK_KEY_z, GDK_CONTROL_MASK, "own.undo", NULL);
  gtk_widget_class_add_binding_action (klass, GDK_KEY_Z, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "own.redo", NULL);
  gtk_widget_class_add_binding_action (klass, GDK_KEY_y, GDK_CONTROL_MASK, "own.redo", NULL);
  gtk_widget_class_add_binding_action (klass, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (klass, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
}

static void
tl_own_window_class_init (TlOwnWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_own_window_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/own-window.ui");
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, search);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, list);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, nothing);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, part_box);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, minutes_box);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, add);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, undo);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, redo);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, notice);
  gtk_widget_class_bind_template_child (widget_class, TlOwnWindow, notice_text);
  gtk_widget_class_bind_template_callback (widget_class, on_search);
  gtk_widget_class_bind_template_callback (widget_class, on_close_notice);
  gtk_widget_class_bind_template_callback (widget_class, on_show);
  install_actions (widget_class);
}

static void
tl_own_window_init (TlOwnWindow *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  self->parts = g_list_store_new (TL_TYPE_PART_ITEM);
  self->selection = gtk_single_selection_new (G_LIST_MODEL (self->parts));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (on_selected), self,
                           0);
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), self);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (on_unbind), self);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
}

/* One entry for each kind of part, as a person calls it. */
static void
fill_add_menu (TlOwnWindow *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autoptr (TlFacts) none = tl_facts_new ();

  for (TlPartKind kind = 0; kind < TL_N_PART_KINDS; kind++)
    {
      g_autofree char *name = tl_part_name (kind, none, tl_own_stock_stock (self->own),
                                            tl_document_language (self->document));
      g_autoptr (GMenuItem) item = g_menu_item_new (name, NULL);

      g_menu_item_set_action_and_target (item, "own.add", "s", tl_part_kind_word (kind));
      g_menu_append_item (menu, item);
    }
  gtk_menu_button_set_menu_model (self->add, G_MENU_MODEL (menu));
}

GtkWidget *
tl_own_window_new (TlOwnStock *own, TlDocument *document, GtkWindow *parent)
{
  TlOwnWindow *self = g_object_new (TL_TYPE_OWN_WINDOW, "transient-for", parent, NULL);

  self->own = g_object_ref (own);
  self->document = g_object_ref (document);
  self->form = TL_OWN_PART_FORM (tl_own_part_form_new (own, tl_document_language (document)));
  gtk_widget_set_hexpand (GTK_WIDGET (self->form), TRUE);
  gtk_box_append (self->part_box, GTK_WIDGET (self->form));
  self->minutes = TL_OWN_MINUTES (tl_own_minutes_new (own, document));
  gtk_widget_set_hexpand (GTK_WIDGET (self->minutes), TRUE);
  gtk_box_append (self->minutes_box, GTK_WIDGET (self->minutes));
  fill_add_menu (self);
  g_signal_connect_swapped (own, "changed", G_CALLBACK (on_own_changed), self);
  on_own_changed (self);
  return GTK_WIDGET (self);
}

void
tl_own_window_show_part (TlOwnWindow *self, const char *id)
{
  g_autofree char *kept = g_strdup (id);

  gtk_stack_set_visible_child_name (self->pages, "parts");
  tl_own_part_form_show (self->form, kept);
  select_part (self, kept);
}

void
tl_own_window_search (TlOwnWindow *self, const char *words)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), words);
  fill (self);
}

TlOwnPartForm *
tl_own_window_form (TlOwnWindow *self)
{
  return self->form;
}

guint
tl_own_window_count (TlOwnWindow *self)
{
  return g_list_model_get_n_items (G_LIST_MODEL (self->parts));
}

const char *
tl_own_window_message (TlOwnWindow *self)
{
  return gtk_widget_get_visible (self->notice) ? gtk_label_get_text (self->notice_text) : "";
}
