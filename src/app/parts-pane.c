/* parts-pane.c: the list of parts: model, search, dragging out of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/parts-pane.h"

#include "app/labelled.h"
#include "app/part-row.h"

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
  GtkCustomFilter    *filter;
  GtkCustomFilter    *group_filter;
  GtkTreeListModel   *tree;
  GtkSingleSelection *selection;
  GPtrArray          *rows;  /* (element-type TlPartRow) that the list has made */
  GStrv               words; /* searched for, case-folded */
  TlFamily
      family; /* of the joint, and whether it had its legs, when a group was last opened for it */
  gboolean has_legs;
  double   thread_mm; /* only parts of this thread, 0: all */
  gboolean shows_all;
  gboolean drags; /* a row is being dragged */
};

G_DEFINE_FINAL_TYPE (TlPartsPane, tl_parts_pane, GTK_TYPE_WIDGET)

/* --- which parts are shown --- */
static gboolean
is_shown (gpointer object, gpointer data)
{
  TlPartsPane  *self = data;
  const TlPart *part = tl_part_item_part (object);
  double        thread = tl_facts_number (part->facts, TL_FIELD_THREAD, 0.0);

  if (self->words != NULL)
    return tl_part_item_matches (object, (const char *const *) self->words);
  return self->shows_all || self->thread_mm <= 0.0 || thread <= 0.0
         || ABS (thread - self->thread_mm) < 0.01;
}

static gboolean
is_group_shown (gpointer object, gpointer data)
{
  return g_list_model_get_n_items (tl_part_item_parts (object)) > 0;
}

static void
show_nothing (TlPartsPane *self)
{
  gboolean         is_empty = g_list_model_get_n_items (G_LIST_MODEL (self->tree)) == 0;
  g_autofree char *text = g_strdup_printf (_ ("No part called “%s”."),
                                           gtk_editable_get_text (GTK_EDITABLE (self->search)));

  gtk_label_set_text (self->nothing, text);
  gtk_widget_set_visible (GTK_WIDGET (self->nothing), is_empty);
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

static void
filter_again (TlPartsPane *self)
{
  gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
  gtk_filter_changed (GTK_FILTER (self->group_filter), GTK_FILTER_CHANGE_DIFFERENT);
  show_nothing (self);
}

static void
on_search (GtkSearchEntry *search, TlPartsPane *self)
{
  g_autofree char *folded = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (search)), -1);
  gboolean         had = self->words != NULL;

  g_strfreev (self->words);
  self->words = g_strsplit_set (g_strstrip (folded), " ", -1);
  if (self->words[0] == NULL)
    g_clear_pointer (&self->words, g_strfreev);
  filter_again (self);
  if (self->words != NULL)
    expand (self, TRUE);
  else if (had)
    expand (self, FALSE);
}

static void
on_stop_search (GtkSearchEntry *search, TlPartsPane *self)
{
  gtk_editable_set_text (GTK_EDITABLE (search), "");
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
  return tl_document_joint (self->document)->legs->len < 2 ? TL_GROUP_CONDUCTORS : TL_GROUP_SLEEVES;
}

static void
open_group (TlPartsPane *self, TlPartGroup group)
{
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
  if ((assembly->family != self->family || has_legs != self->has_legs) && self->words == NULL)
    {
      self->family = assembly->family;
      self->has_legs = has_legs;
      expand (self, FALSE);
      open_group (self, useful_group (self));
    }
  gtk_widget_set_visible (GTK_WIDGET (self->sizes_box), thread > 0.0);
  gtk_label_set_text (self->sizes, text);
  if (ABS (thread - self->thread_mm) < 0.01)
    return;
  self->thread_mm = thread;
  filter_again (self);
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

static void
on_setup (GtkSignalListItemFactory *factory, GtkListItem *item, TlPartsPane *self)
{
  GtkWidget  *row = tl_part_row_new ();
  GtkGesture *drag = gtk_gesture_drag_new (), *click = gtk_gesture_click_new ();

  g_signal_connect (drag, "drag-update", G_CALLBACK (on_row_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_row_drag_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_row_drag_cancel), self);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (click, "released", G_CALLBACK (on_row_released), self);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (click));
  gtk_gesture_group (drag, click);
  gtk_list_item_set_child (item, row);
  g_ptr_array_add (self->rows, row);
}

static void
on_teardown (GtkSignalListItemFactory *factory, GtkListItem *item, TlPartsPane *self)
{
  if (self->rows != NULL)
    g_ptr_array_remove (self->rows, gtk_list_item_get_child (item));
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
/* Washers, the usual question, stand before bolts and nuts, sleeves before lugs and ferrules; all else in
 * the order of the stock. */
static int
compare_parts (gconstpointer a, gconstpointer b, gpointer data)
{
  static const gint8 ranks[TL_N_PART_KINDS] = {
    [TL_PART_LARGE_WASHER] = 1, [TL_PART_CONICAL_WASHER] = 2,
    [TL_PART_SPRING_RING] = 3,  [TL_PART_SERRATED_WASHER] = 4,
    [TL_PART_BOLT] = 5,         [TL_PART_NUT] = 6,
    [TL_PART_LUG] = 1,          [TL_PART_FERRULE] = 2
  };
  const TlPart *one = tl_part_item_part ((TlPartItem *) a),
               *other = tl_part_item_part ((TlPartItem *) b);

  return ranks[one->kind] - ranks[other->kind];
}

static GListModel *
children_of (gpointer object, gpointer data)
{
  GListModel *parts = tl_part_item_parts (object);

  return parts == NULL ? NULL : g_object_ref (parts);
}

static void
fill (TlPartsPane *self)
{
  const TlStock      *stock = tl_document_stock (self->document);
  const TlLanguage   *language = tl_document_language (self->document);
  const GPtrArray    *parts = tl_stock_parts (stock);
  GListStore         *groups = g_list_store_new (TL_TYPE_PART_ITEM);
  GtkFilterListModel *shown;

  for (TlPartGroup group = 0; group < TL_GROUP_BOXES; group++)
    {
      GListStore *store = g_list_store_new (TL_TYPE_PART_ITEM);
      g_autoptr (GtkFilterListModel) model = NULL;
      g_autoptr (TlPartItem) head = NULL;

      for (guint i = 0; i < parts->len; i++)
        {
          const TlPart *part = g_ptr_array_index (parts, i);
          g_autoptr (TlPartItem) item = NULL;

          if (tl_part_kind_group (part->kind) != group)
            continue;
          item = tl_part_item_new (part, stock, language);
          g_list_store_append (store, item);
        }
      g_list_store_sort (store, compare_parts, NULL);
      model = gtk_filter_list_model_new (G_LIST_MODEL (store),
                                         g_object_ref (GTK_FILTER (self->filter)));
      head = tl_part_item_new_group (group, G_LIST_MODEL (model), language);
      g_list_store_append (groups, head);
    }
  shown = gtk_filter_list_model_new (G_LIST_MODEL (groups),
                                     g_object_ref (GTK_FILTER (self->group_filter)));
  self->tree =
      gtk_tree_list_model_new (G_LIST_MODEL (shown), FALSE, FALSE, children_of, NULL, NULL);
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
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  if (self->list != NULL)
    gtk_list_view_set_model (self->list, NULL);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_PARTS_PANE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->selection);
  g_clear_object (&self->tree);
  g_clear_object (&self->filter);
  g_clear_object (&self->group_filter);
  g_clear_object (&self->document);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->words, g_strfreev);
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
  gtk_widget_class_bind_template_callback (widget_class, on_search);
  gtk_widget_class_bind_template_callback (widget_class, on_stop_search);
  gtk_widget_class_bind_template_callback (widget_class, on_show_all);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_parts_pane_init (TlPartsPane *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  self->rows = g_ptr_array_new ();
  self->filter = gtk_custom_filter_new (is_shown, self, NULL);
  self->group_filter = gtk_custom_filter_new (is_group_shown, self, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), self);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (on_unbind), self);
  g_signal_connect (factory, "teardown", G_CALLBACK (on_teardown), self);
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
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
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
