/* part-row.c: a part or a group of parts as a row. The list makes some two hundred of them at once; a row gets its
 * picture and its words when it comes near what is seen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/part-row.h"

#include "app/labelled.h"
#include "app/part-view.h"
#include "app/sight.h"

#include <glib/gi18n.h>

/* px of height of a part's row, two lines of name over one of dimensions, and of a heading */
static const int PART_PX = 50;
static const int GROUP_PX = 29;
/* over and under the words of a row that fills its height */
static const int AIR_PX = 3;
/* The last word of a name may be what tells two parts apart: a narrow pane breaks rather than cuts. */
static const int NAME_LINES = 3;

struct _TlPartRow
{
  GtkWidget parent_instance;

  TlPartItem     *item;
  TlStock        *stock; /* (nullable): of @item */
  GtkTreeListRow *row;
  GtkImage       *arrow;
  TlPartView     *view;
  GtkLabel       *name;
  GtkLabel       *dimensions;
  GtkLabel       *count;
  GtkImage       *own;
  GtkLabel       *mark;
  gboolean        is_made; /* what is inside the row */
};

G_DEFINE_FINAL_TYPE (TlPartRow, tl_part_row, GTK_TYPE_WIDGET)

static void
show_arrow (TlPartRow *self)
{
  gboolean is_open;

  if (!self->is_made)
    return;
  is_open = self->row != NULL && gtk_tree_list_row_get_expanded (self->row);

  gtk_image_set_from_icon_name (self->arrow,
                                is_open ? "tinlap-less-symbolic" : "tinlap-more-symbolic");
  if (is_open && tl_part_item_part (self->item) == NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->name), "name-bold");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->name), "name-bold");
}

static void
show_count (TlPartRow *self)
{
  GListModel      *parts = tl_part_item_parts (self->item);
  g_autofree char *count = parts == NULL || !self->is_made
                               ? NULL
                               : g_strdup_printf ("%u", g_list_model_get_n_items (parts));

  if (self->is_made)
    gtk_label_set_text (self->count, count == NULL ? "" : count);
}

static void
drop (TlPartRow *self)
{
  if (self->row != NULL)
    g_signal_handlers_disconnect_by_data (self->row, self);
  if (self->item != NULL && tl_part_item_parts (self->item) != NULL)
    g_signal_handlers_disconnect_by_data (tl_part_item_parts (self->item), self);
  g_clear_object (&self->row);
  g_clear_object (&self->item);
  g_clear_pointer (&self->stock, tl_stock_unref);
}

static void
tl_part_row_dispose (GObject *object)
{
  drop (TL_PART_ROW (object));
  tl_widget_clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (tl_part_row_parent_class)->dispose (object);
}

/* Of a part whose sizes are all the user's there is nothing to tell but that. */
static const char *
sizes_of (TlPartItem *item)
{
  const char *sizes = tl_part_item_dimensions (item);

  return *sizes == '\0' && tl_part_item_part (item)->is_open ? _ ("sizes as measured") : sizes;
}

static char *
tip_of (TlPartItem *item)
{
  return g_strdup_printf (tl_part_item_is_own (item) ? _ ("%s, %s (my own part)") : "%s, %s",
                          tl_part_item_name (item), sizes_of (item));
}

/* Setting a tooltip asks the display where the pointer is: two hundred rows would ask two hundred times. */
static gboolean
tl_part_row_query_tooltip (GtkWidget *widget, int x, int y, gboolean by_keyboard,
                           GtkTooltip *tooltip)
{
  TlPartRow       *self = TL_PART_ROW (widget);
  g_autofree char *tip = NULL;

  if (self->item == NULL || tl_part_item_part (self->item) == NULL)
    return FALSE;
  tip = tip_of (self->item);
  gtk_tooltip_set_text (tooltip, tip);
  return TRUE;
}

static void
tl_part_row_class_init (TlPartRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_part_row_dispose;
  GTK_WIDGET_CLASS (klass)->query_tooltip = tl_part_row_query_tooltip;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static GtkLabel *
add_label (GtkWidget *box, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static void
make (TlPartRow *self)
{
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1),
            *own = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->arrow = GTK_IMAGE (gtk_image_new ());
  gtk_image_set_pixel_size (self->arrow, 12);
  gtk_widget_set_parent (GTK_WIDGET (self->arrow), GTK_WIDGET (self));
  self->view = TL_PART_VIEW (tl_part_view_new ());
  gtk_widget_set_size_request (GTK_WIDGET (self->view), 52, 36);
  gtk_widget_set_valign (GTK_WIDGET (self->view), GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (GTK_WIDGET (self->view), "paper");
  gtk_widget_set_parent (GTK_WIDGET (self->view), GTK_WIDGET (self));
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_widget_set_valign (texts, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_top (texts, AIR_PX);
  gtk_widget_set_margin_bottom (texts, AIR_PX);
  gtk_widget_set_parent (texts, GTK_WIDGET (self));
  self->name = add_label (texts, "part-name");
  gtk_label_set_wrap (self->name, TRUE);
  gtk_label_set_lines (self->name, NAME_LINES);
  self->dimensions = add_label (texts, "caption-text");
  gtk_label_set_wrap (self->dimensions, TRUE);
  gtk_label_set_lines (self->dimensions, 2);
  self->mark = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_justify (self->mark, GTK_JUSTIFY_RIGHT);
  gtk_widget_add_css_class (GTK_WIDGET (self->mark), "caption-text");
  self->own = GTK_IMAGE (gtk_image_new_from_icon_name ("tinlap-own-part-symbolic"));
  gtk_widget_set_halign (GTK_WIDGET (self->own), GTK_ALIGN_END);
  gtk_image_set_pixel_size (self->own, 14);
  gtk_box_append (GTK_BOX (own), GTK_WIDGET (self->own));
  gtk_box_append (GTK_BOX (own), GTK_WIDGET (self->mark));
  gtk_widget_set_valign (own, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_end (own, 4);
  gtk_widget_set_parent (own, GTK_WIDGET (self));
  self->count = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->count), "caption-text");
  gtk_widget_set_margin_end (GTK_WIDGET (self->count), 8);
  gtk_widget_set_parent (GTK_WIDGET (self->count), GTK_WIDGET (self));
}

static void show (TlPartRow *self);

static void
on_seen (GtkWidget *widget, gpointer data)
{
  TlPartRow *self = TL_PART_ROW (widget);

  make (self);
  self->is_made = TRUE;
  if (self->item != NULL)
    show (self);
}

static void
tl_part_row_init (TlPartRow *self)
{
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                              8);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  tl_sight_await (GTK_WIDGET (self), on_seen, NULL);
}

GtkWidget *
tl_part_row_new (void)
{
  return g_object_new (TL_TYPE_PART_ROW, NULL);
}

static void
show (TlPartRow *self)
{
  const TlPart *part = tl_part_item_part (self->item);

  gtk_widget_set_visible (GTK_WIDGET (self->arrow), part == NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->view), part != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->dimensions), part != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->mark),
                          part != NULL && *tl_part_item_mark (self->item) != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->own), tl_part_item_is_own (self->item));
  /* What is empty leaves its room to the name. */
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->own)),
                          gtk_widget_get_visible (GTK_WIDGET (self->own))
                              || gtk_widget_get_visible (GTK_WIDGET (self->mark)));
  gtk_widget_set_visible (GTK_WIDGET (self->count), part == NULL);
  gtk_label_set_wrap (self->name, part != NULL);
  gtk_label_set_lines (self->name, part == NULL ? -1 : NAME_LINES);
  gtk_label_set_text (self->name, tl_part_item_name (self->item));
  if (part != NULL)
    {
      gtk_label_set_text (self->dimensions, sizes_of (self->item));
      gtk_label_set_text (self->mark, tl_part_item_mark (self->item));
      tl_part_view_show_part (self->view, self->stock, part->kind, part->facts);
    }
  show_arrow (self);
  show_count (self);
}

void
tl_part_row_show (TlPartRow *self, TlPartItem *item, GtkTreeListRow *row, const TlStock *stock)
{
  const TlPart *part = item == NULL ? NULL : tl_part_item_part (item);

  drop (self);
  if (item == NULL)
    return;
  self->item = g_object_ref (item);
  self->row = row == NULL ? NULL : g_object_ref (row);
  self->stock = tl_stock_ref (stock);
  gtk_widget_set_size_request (GTK_WIDGET (self), -1, part == NULL ? GROUP_PX : PART_PX);
  gtk_widget_set_margin_start (GTK_WIDGET (self), part == NULL ? 6 : 4);
  if (part == NULL && row != NULL)
    {
      g_signal_connect_swapped (row, "notify::expanded", G_CALLBACK (show_arrow), self);
      g_signal_connect_swapped (tl_part_item_parts (item), "items-changed", G_CALLBACK (show_count),
                                self);
    }
  if (self->is_made)
    show (self);
}

TlPartItem *
tl_part_row_item (TlPartRow *self)
{
  return self->item;
}
