/* parts-pane.c: the list of parts: model, search, dragging out of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/parts-pane.h"

#include "app/labelled.h"
#include "app/part-row.h"
#include "app/parts-fit.h"
#include "app/parts-list.h"

#include <glib/gi18n.h>

struct _TlPartsPane
{
  GtkWidget parent_instance;

  TlDocument         *document;
  TlBench            *bench;
  GtkSearchEntry     *search;
  GtkListView        *list;
  GtkLabel           *nothing;
  GtkLabel           *sizes;
  GtkButton          *show_all;
  GtkBox             *sizes_box;
  GtkToggleButton    *in_van;
  GtkToggleButton    *fits;
  GtkWidget          *menu; /* (nullable): of a row, while it is open */
  TlPartsList        *parts;
  TlLanguage         *language; /* that @parts was made in; not owned, only compared */
  GtkTreeListModel   *tree;
  GtkSingleSelection *selection;
  GPtrArray          *rows;  /* (element-type TlPartRow) that the list has made */
  char               *words; /* searched for, without outer spaces; "" for none */
  TlFamily
      family; /* of the joint, and whether it had its legs, when a group was last opened for it */
  gboolean has_legs;
  double   thread_mm; /* only parts of this thread, 0: all */
  gboolean shows_all;
  gboolean drags; /* a row is being dragged */
};

G_DEFINE_FINAL_TYPE (TlPartsPane, tl_parts_pane, GTK_TYPE_WIDGET)

/* --- which parts are shown --- */
static void
show_nothing (TlPartsPane *self, guint left_off)
{
  gboolean is_empty = g_list_model_get_n_items (G_LIST_MODEL (self->tree)) == 0,
           in_van = gtk_toggle_button_get_active (self->in_van);
  g_autofree char *text = NULL;

  if (tl_parts_list_is_near (self->parts))
    text = g_strdup (_ ("No part fits every word; these fit all but one."));
  else if (is_empty && tl_parts_list_has_boxes (self->parts))
    text = g_strdup (_ ("A box is chosen below the bench: This joint, Joint, Box."));
  else if (left_off > 0)
    text = g_strdup_printf (_ ("%u more fit; add a word or a size."), left_off);
  else if (*self->words != '\0')
    text = g_strdup_printf (in_van ? _ ("No part called “%s” is in the van.")
                                   : _ ("No part called “%s”. Enter it under My parts."),
                            self->words);
  else
    text = g_strdup (in_van ? _ ("Nothing that fits is marked as in the van. Mark parts with a "
                                 "right click on their row.")
                            : _ ("No part fits here."));
  gtk_label_set_text (self->nothing, text);
  gtk_widget_set_visible (GTK_WIDGET (self->nothing),
                          is_empty || left_off > 0 || tl_parts_list_is_near (self->parts));
}

static void
expand (TlPartsPane *self, gboolean all)
{
  for (guint i = g_list_model_get_n_items (G_LIST_MODEL (self->tree)); i > 0; i--)
    {
      g_autoptr (GtkTreeListRow) row = gtk_tree_list_model_get_row (self->tree, i - 1);

      if (gtk_tree_list_row_get_depth (row) == 0)
        gtk_tree_list_row_set_expanded (row, all);
    }
}

static gboolean
is_narrowed (TlPartsPane *self)
{
  return gtk_toggle_button_get_active (self->in_van) || gtk_toggle_button_get_active (self->fits);
}

static void
filter_again (TlPartsPane *self)
{
  TlSearchFilter   filter;
  g_autofree char *fit = NULL, *tip = NULL;
  guint            left_off;

  tl_search_filter_init_defaults (&filter);
  fit = tl_parts_fit (self->document, &filter);
  tip = g_strdup_printf (_ ("Only what fits the selected place: %s"),
                         fit == NULL ? _ ("select a layer or a conductor first") : fit);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->fits), tip);
  gtk_widget_set_sensitive (GTK_WIDGET (self->fits),
                            fit != NULL || gtk_toggle_button_get_active (self->fits));
  if (!gtk_toggle_button_get_active (self->fits))
    tl_search_filter_init_defaults (&filter);
  filter.only_in_van = gtk_toggle_button_get_active (self->in_van);
  left_off = tl_parts_list_show (self->parts, self->words, &filter,
                                 self->shows_all ? 0.0 : self->thread_mm);
  /* A search goes through all sizes. */
  gtk_widget_set_visible (GTK_WIDGET (self->sizes_box),
                          self->thread_mm > 0.0 && *self->words == '\0');
  show_nothing (self, left_off);
}

static void        fill (TlPartsPane *self);
static void        open_group (TlPartsPane *self, TlPartGroup group);
static TlPartGroup useful_group (TlPartsPane *self);

static void
on_search (GtkSearchEntry *search, TlPartsPane *self)
{
  gboolean had = *self->words != '\0';

  g_free (self->words);
  self->words = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (search))));
  if (self->document == NULL)
    return;
  filter_again (self);
  if (*self->words == '\0' && had)
    open_group (self, useful_group (self));
}

/* What is narrowed down to a few parts is shown at once, without a click on each group. */
static void
on_narrow (GtkToggleButton *button, TlPartsPane *self)
{
  if (self->document == NULL)
    return;
  filter_again (self);
  if (*self->words != '\0')
    return;
  expand (self, is_narrowed (self));
  if (!is_narrowed (self))
    open_group (self, useful_group (self));
}

static void
on_stop_search (GtkSearchEntry *search, TlPartsPane *self)
{
  gtk_editable_set_text (GTK_EDITABLE (search), "");
}

/* Enter goes on to the best fit; a second one puts it in. */
static void
on_search_enter (GtkSearchEntry *search, TlPartsPane *self)
{
  on_search (search, self);
  if (*self->words == '\0' || g_list_model_get_n_items (G_LIST_MODEL (self->tree)) == 0)
    return;
  gtk_single_selection_set_selected (self->selection, 0);
  gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u", 0);
  gtk_widget_child_focus (GTK_WIDGET (self->list), GTK_DIR_TAB_FORWARD);
}

static void
on_show_all (GtkButton *button, TlPartsPane *self)
{
  self->shows_all = !self->shows_all;
  gtk_button_set_label (button, self->shows_all ? _ ("show fitting") : _ ("show all"));
  filter_again (self);
}

/* The group that this joint is most likely to want next. */
static TlPartGroup
useful_group (TlPartsPane *self)
{
  if (self->family == TL_FAMILY_STACK)
    return TL_GROUP_FASTENERS;
  if (self->family == TL_FAMILY_TERMINAL)
    return TL_GROUP_TERMINALS;
  if (self->family == TL_FAMILY_SPLICE)
    return TL_GROUP_COATINGS;
  return tl_document_joint (self->document)->legs->len < 2 ? TL_GROUP_CONDUCTORS : TL_GROUP_SLEEVES;
}

static void
open_group (TlPartsPane *self, TlPartGroup group)
{
  /* Rows that nobody sees, of a joint that is not there yet, would only be thrown away. */
  if (tl_document_joint (self->document)->legs->len == 0
      && !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  for (guint i = g_list_model_get_n_items (G_LIST_MODEL (self->tree)); i > 0; i--)
    {
      g_autoptr (GtkTreeListRow) row = gtk_tree_list_model_get_row (self->tree, i - 1);
      g_autoptr (TlPartItem) item = gtk_tree_list_row_get_item (row);

      if (gtk_tree_list_row_get_depth (row) == 0 && tl_part_item_group (item) == group)
        gtk_tree_list_row_set_expanded (row, TRUE);
    }
}

/* A bolt on the bench decides which sizes of its kind are of use. */
static void
on_changed (TlPartsPane *self)
{
  const TlAssembly *assembly = tl_document_verdict (self->document)->assembly;
  double            thread = assembly->stack.has_bolt ? assembly->stack.thread_mm : 0.0;
  g_autofree char  *text = g_strdup_printf (_ ("Sizes shown fit M%g"), thread);
  gboolean          has_legs;

  has_legs = tl_document_joint (self->document)->legs->len >= 2;
  if ((assembly->family != self->family || has_legs != self->has_legs) && *self->words == '\0'
      && !is_narrowed (self))
    {
      self->family = assembly->family;
      self->has_legs = has_legs;
      expand (self, FALSE);
      open_group (self, useful_group (self));
    }
  gtk_label_set_text (self->sizes, text);
  if (self->language != tl_document_language (self->document))
    fill (self);
  if (ABS (thread - self->thread_mm) < 0.01)
    return;
  self->thread_mm = thread;
  filter_again (self);
}

static void
on_selection (TlPartsPane *self)
{
  filter_again (self);
}

/* The part chosen stays chosen, and the keyboard with it. */
static void
choose_again (TlPartsPane *self, const char *part, gboolean had_focus)
{
  for (guint i = 0; part != NULL && i < g_list_model_get_n_items (G_LIST_MODEL (self->tree)); i++)
    {
      g_autoptr (GtkTreeListRow) row = gtk_tree_list_model_get_row (self->tree, i);
      g_autoptr (TlPartItem) item = gtk_tree_list_row_get_item (row);

      if (tl_part_item_part (item) == NULL || !g_str_equal (tl_part_item_part (item)->id, part))
        continue;
      gtk_single_selection_set_selected (self->selection, i);
      gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u", i);
      break;
    }
  if (had_focus)
    gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

static void
on_stock (TlPartsPane *self)
{
  g_autofree char *chosen = g_strdup (tl_bench_chosen_part (self->bench));
  gboolean         had_focus = gtk_widget_get_focus_child (GTK_WIDGET (self->list)) != NULL
                       || (self->menu != NULL && gtk_widget_get_visible (self->menu));

  fill (self);
  if (*self->words == '\0' && is_narrowed (self))
    expand (self, TRUE);
  else if (*self->words == '\0')
    open_group (self, useful_group (self));
  choose_again (self, chosen, had_focus);
}

/* --- rows --- */
static void
on_row_drag_update (GtkGestureDrag *gesture, double dx, double dy, TlPartsPane *self)
{
  GtkWidget       *row = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture));
  TlPartItem      *item = tl_part_row_item (TL_PART_ROW (row));
  double           x, y;
  graphene_point_t at;

  if (item == NULL || tl_part_item_part (item) == NULL
      || !gtk_gesture_drag_get_start_point (gesture, &x, &y))
    return;
  if (!self->drags)
    {
      if (!gtk_drag_check_threshold (row, 0, 0, (int) dx, (int) dy))
        return;
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
      self->drags = tl_bench_drag_begin (self->bench, tl_part_item_part (item)->id, NULL);
    }
  if (!self->drags || !tl_bench_is_dragging (self->bench))
    return;
  if (gtk_widget_compute_point (row, GTK_WIDGET (self->bench),
                                &GRAPHENE_POINT_INIT ((float) (x + dx), (float) (y + dy)), &at))
    tl_bench_drag_motion (self->bench, (double) at.x, (double) at.y);
}

static void
on_row_drag_end (GtkGestureDrag *gesture, double dx, double dy, TlPartsPane *self)
{
  if (self->drags && tl_bench_is_dragging (self->bench))
    {
      on_row_drag_update (gesture, dx, dy, self);
      tl_bench_drag_drop (self->bench);
    }
  self->drags = FALSE;
}

static void
on_row_drag_cancel (GtkGesture *gesture, GdkEventSequence *sequence, TlPartsPane *self)
{
  if (self->drags)
    tl_bench_drag_cancel (self->bench);
  self->drags = FALSE;
}

static void
on_row_released (GtkGestureClick *gesture, int n_press, double x, double y, TlPartsPane *self)
{
  TlPartRow  *row = TL_PART_ROW (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture)));
  TlPartItem *item = tl_part_row_item (row);
  GtkTreeListRow *tree_row;

  if (item == NULL || tl_part_item_part (item) != NULL)
    return;
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->tree)); i++)
    {
      g_autoptr (TlPartItem) found = NULL;

      tree_row = gtk_tree_list_model_get_row (self->tree, i);
      found = gtk_tree_list_row_get_item (tree_row);
      if (found == item)
        gtk_tree_list_row_set_expanded (tree_row, !gtk_tree_list_row_get_expanded (tree_row));
      g_object_unref (tree_row);
      if (found == item)
        return;
    }
}

/* --- menu of a row --- */
static void
add_menu_item (GMenu *menu, const char *label, const char *action, const char *part)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target (item, action, "s", part);
  g_menu_append_item (menu, item);
}

static void
open_menu (TlPartsPane *self, GtkWidget *row, double x, double y)
{
  TlPartItem   *item = tl_part_row_item (TL_PART_ROW (row));
  const TlPart *part = item == NULL ? NULL : tl_part_item_part (item);
  g_autoptr (GMenu) menu = NULL;
  graphene_point_t at;

  if (part == NULL
      || !gtk_widget_compute_point (row, GTK_WIDGET (self),
                                    &GRAPHENE_POINT_INIT ((float) x, (float) y), &at))
    return;
  menu = g_menu_new ();
  add_menu_item (
      menu, *tl_part_item_mark (item) == '\0' ? _ ("Put into the van") : _ ("Take out of the van"),
      "win.mark-van", part->id);
  add_menu_item (
      menu, tl_part_item_is_own (item) ? _ ("Change under My parts") : _ ("Show under My parts"),
      "win.own-part", part->id);
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  self->menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
  gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
  gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
  gtk_widget_set_parent (self->menu, GTK_WIDGET (self));
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu),
                               &(GdkRectangle){ (int) at.x, (int) at.y, 1, 1 });
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

static void
on_row_menu (GtkGestureClick *gesture, int n_press, double x, double y, TlPartsPane *self)
{
  open_menu (self, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture)), x, y);
}

/* The same by keyboard, for the row that is chosen. */
static void
menu_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPartsPane *self = TL_PARTS_PANE (widget);
  const char  *chosen = tl_bench_chosen_part (self->bench);

  for (guint i = 0; chosen != NULL && i < self->rows->len; i++)
    {
      GtkWidget    *row = g_ptr_array_index (self->rows, i);
      TlPartItem   *item = tl_part_row_item (TL_PART_ROW (row));
      const TlPart *part = item == NULL ? NULL : tl_part_item_part (item);

      if (part != NULL && g_str_equal (part->id, chosen) && gtk_widget_get_mapped (row))
        {
          open_menu (self, row, 0, gtk_widget_get_height (row));
          return;
        }
    }
}

static void
on_row_destroy (TlPartsPane *self, GtkWidget *row)
{
  if (self->rows != NULL)
    g_ptr_array_remove (self->rows, row);
}

static void
on_setup (GtkSignalListItemFactory *factory, GtkListItem *item, TlPartsPane *self)
{
  GtkWidget  *row = tl_part_row_new ();
  GtkGesture *drag = gtk_gesture_drag_new (), *click = gtk_gesture_click_new (),
             *menu = gtk_gesture_click_new ();

  g_signal_connect (drag, "drag-update", G_CALLBACK (on_row_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_row_drag_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_row_drag_cancel), self);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (click, "released", G_CALLBACK (on_row_released), self);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (click));
  gtk_gesture_group (drag, click);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  g_signal_connect (menu, "pressed", G_CALLBACK (on_row_menu), self);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (menu));
  gtk_list_item_set_child (item, row);
  g_ptr_array_add (self->rows, row);
  g_signal_connect_object (row, "destroy", G_CALLBACK (on_row_destroy), self, G_CONNECT_SWAPPED);
}

static void
on_bind (GtkSignalListItemFactory *factory, GtkListItem *list_item, TlPartsPane *self)
{
  GtkTreeListRow *tree_row = gtk_list_item_get_item (list_item);
  g_autoptr (TlPartItem) item = gtk_tree_list_row_get_item (tree_row);
  GtkWidget       *row = gtk_list_item_get_child (list_item);
  g_autofree char *label = NULL;

  tl_part_row_show (TL_PART_ROW (row), item, tree_row, tl_document_stock (self->document));
  label =
      tl_part_item_part (item) == NULL
          ? g_strdup_printf (_ ("Group %s"), tl_part_item_name (item))
          : g_strdup_printf ("%s, %s", tl_part_item_name (item), tl_part_item_dimensions (item));
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (row)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static void
on_unbind (GtkSignalListItemFactory *factory, GtkListItem *list_item, TlPartsPane *self)
{
  tl_part_row_show (TL_PART_ROW (gtk_list_item_get_child (list_item)), NULL, NULL, NULL);
}

static void
on_activate (GtkListView *list, guint position, TlPartsPane *self)
{
  g_autoptr (GtkTreeListRow) row = gtk_tree_list_model_get_row (self->tree, position);
  g_autoptr (TlPartItem) item = gtk_tree_list_row_get_item (row);

  if (tl_part_item_part (item) == NULL)
    gtk_tree_list_row_set_expanded (row, !gtk_tree_list_row_get_expanded (row));
  else
    tl_bench_add_part (self->bench, tl_part_item_part (item)->id);
}

static void
on_selected (GtkSingleSelection *selection, GParamSpec *pspec, TlPartsPane *self)
{
  GtkTreeListRow *row = gtk_single_selection_get_selected_item (selection);
  g_autoptr (TlPartItem) item = row == NULL ? NULL : gtk_tree_list_row_get_item (row);
  const TlPart *part = item == NULL ? NULL : tl_part_item_part (item);

  tl_bench_set_chosen_part (self->bench, part == NULL ? NULL : part->id);
}

/* --- model --- */
static GListModel *
children_of (gpointer object, gpointer data)
{
  GListModel *parts = tl_part_item_parts (object);

  return parts == NULL ? NULL : g_object_ref (parts);
}

static void
drop_model (TlPartsPane *self)
{
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  if (self->list != NULL)
    gtk_list_view_set_model (self->list, NULL);
  g_clear_object (&self->selection);
  g_clear_object (&self->tree);
  g_clear_pointer (&self->parts, tl_parts_list_free);
}

/* A model of the present stock in the present language. */
static void
fill (TlPartsPane *self)
{
  drop_model (self);
  tl_bench_set_chosen_part (self->bench, NULL);
  self->language = (TlLanguage *) tl_document_language (self->document);
  self->parts = tl_parts_list_new (tl_document_stock (self->document), self->language);
  self->tree = gtk_tree_list_model_new (g_object_ref (tl_parts_list_model (self->parts)), FALSE,
                                        FALSE, children_of, NULL, NULL);
  filter_again (self);
  self->selection = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->tree)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  g_signal_connect (self->selection, "notify::selected-item", G_CALLBACK (on_selected), self);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
}

/* --- widget --- */
static void
tl_parts_pane_dispose (GObject *object)
{
  TlPartsPane *self = TL_PARTS_PANE (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  drop_model (self);
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_PARTS_PANE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->document);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->words, g_free);
  G_OBJECT_CLASS (tl_parts_pane_parent_class)->dispose (object);
}

static void
tl_parts_pane_class_init (TlPartsPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_parts_pane_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/parts-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, search);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, list);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, nothing);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, sizes);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, sizes_box);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, show_all);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, in_van);
  gtk_widget_class_bind_template_child (widget_class, TlPartsPane, fits);
  gtk_widget_class_bind_template_callback (widget_class, on_narrow);
  gtk_widget_class_bind_template_callback (widget_class, on_search);
  gtk_widget_class_bind_template_callback (widget_class, on_stop_search);
  gtk_widget_class_bind_template_callback (widget_class, on_search_enter);
  gtk_widget_class_bind_template_callback (widget_class, on_show_all);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_install_action (widget_class, "parts.menu", NULL, menu_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Menu, 0, "parts.menu", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F10, GDK_SHIFT_MASK, "parts.menu",
                                       NULL);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_parts_pane_init (TlPartsPane *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  self->rows = g_ptr_array_new ();
  self->words = g_strdup ("");
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), self);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (on_unbind), self);
  gtk_list_view_set_factory (self->list, factory);
  g_object_unref (factory);
}

void
tl_parts_pane_set_document (TlPartsPane *self, TlDocument *document, TlBench *bench)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  self->bench = bench;
  fill (self);
  open_group (self, useful_group (self));
  g_signal_connect_swapped (document, "stock-changed", G_CALLBACK (on_stock), self);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
  g_signal_connect_swapped (document, "selection-changed", G_CALLBACK (on_selection), self);
  on_changed (self);
}

void
tl_parts_pane_find (TlPartsPane *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
  gtk_editable_select_region (GTK_EDITABLE (self->search), 0, -1);
}

void
tl_parts_pane_search (TlPartsPane *self, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), text);
  on_search (self->search, self);
}

void
tl_parts_pane_foreach (TlPartsPane *self, TlPartRowFunc visit, gpointer data)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      TlPartRow  *row = g_ptr_array_index (self->rows, i);
      TlPartItem *item = tl_part_row_item (row);

      if (item != NULL && tl_part_item_part (item) != NULL
          && gtk_widget_get_mapped (GTK_WIDGET (row)))
        visit (GTK_WIDGET (row), tl_part_item_part (item), data);
    }
}
