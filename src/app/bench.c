/* bench.c: the bench as a widget: its drawing, its children, their places.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

#include "app/labelled.h"
#include "app/theme.h"

#include <glib/gi18n.h>
#include <math.h>

G_DEFINE_FINAL_TYPE (TlBench, tl_bench, GTK_TYPE_WIDGET)

void
tl_bench_rebuild (TlBench *self)
{
  tl_bench_lay_out (self);
  tl_bench_match_items (self);
  tl_bench_describe_items (self);
}

/* --- widget --- */
static void
allocate_child (GtkWidget *child, double x, double y, double width, double height)
{
  GskTransform *at =
      gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) floor (x), (float) floor (y)));
  int minimum_width, minimum_height;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum_width, NULL, NULL, NULL);
  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, -1, &minimum_height, NULL, NULL, NULL);
  gtk_widget_allocate (child, MAX ((int) ceil (width), minimum_width),
                       MAX ((int) ceil (height), minimum_height), -1, at);
}

/* The card stands beside the open place, inside the bench. */
static void
allocate_card (TlBench *self, const TlItem *place, int width, int height)
{
  GtkRequisition size;
  double         x, y;

  gtk_widget_get_preferred_size (GTK_WIDGET (self->card), NULL, &size);
  x = place->x + place->width + 16;
  if (x + size.width > width - 8)
    x = MAX (8, width - 8 - size.width);
  y = CLAMP (place->y + place->height / 2 - size.height / 2.0, 8,
             MAX (8, height - size.height - 8));
  /* Where there is no room beside it, below it. */
  if (x < place->x + place->width && y < place->y + place->height && y + size.height > place->y)
    y = place->y + place->height + 12 + size.height < height ? place->y + place->height + 12
                                                             : MAX (8, place->y - size.height - 12);
  allocate_child (GTK_WIDGET (self->card), x, y, size.width, size.height);
}

static void
allocate_items (TlBench *self, int width, int height)
{
  const GArray *items = tl_drawing_items (self->drawing);

  for (guint i = 0; i < items->len; i++)
    {
      const TlItem *item = &g_array_index (items, TlItem, i);
      TlBenchItem  *child = NULL;

      if (item->kind == TL_ITEM_BODY || item->kind == TL_ITEM_CONTACT)
        child = tl_bench_find_item (self, item->kind, item->owner, item->index);
      else if (item->kind == TL_ITEM_PLACE && self->drag.is_active
               && (gint) item->index == self->drag.open)
        {
          if (gtk_widget_get_visible (GTK_WIDGET (self->card)))
            allocate_card (self, item, width, height);
          child = gtk_widget_get_visible (GTK_WIDGET (self->gap)) ? self->gap : NULL;
        }
      if (child != NULL)
        allocate_child (GTK_WIDGET (child), item->x, item->y, item->width, item->height);
    }
}

static void
tl_bench_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TlBench       *self = TL_BENCH (widget);
  GtkRequisition size;
  GdkRectangle   readout;

  if (self->document == NULL)
    return;
  if (self->drawing == NULL || width != self->drawn_width || height != self->drawn_height)
    tl_bench_draw_anew (self, width, height);
  /* Whatever the drawing does not show lies in the corner, so that nothing is left without a place. */
  for (guint i = 0; i < self->items->len; i++)
    allocate_child (g_ptr_array_index (self->items, i), 0, 0, 1, 1);
  if (gtk_widget_get_visible (GTK_WIDGET (self->gap)))
    allocate_child (GTK_WIDGET (self->gap), 0, 0, 1, 1);
  if (gtk_widget_get_visible (GTK_WIDGET (self->card)))
    {
      gtk_widget_get_preferred_size (GTK_WIDGET (self->card), NULL, &size);
      allocate_child (GTK_WIDGET (self->card), 8, 8, size.width, size.height);
    }
  allocate_items (self, width, height);
  gtk_widget_get_preferred_size (GTK_WIDGET (self->hint), NULL, &size);
  allocate_child (GTK_WIDGET (self->hint), MAX (0, (width - size.width) / 2), height * 0.7,
                  MIN (width, size.width), size.height);
  if (tl_bench_overlay_place (self, width, height, &readout))
    allocate_child (GTK_WIDGET (self->readout), readout.x, readout.y, readout.width,
                    readout.height);
  if (self->menu != NULL)
    gtk_popover_present (self->menu);
}

static void
tl_bench_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                  int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 280 : 160;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 480;
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_bench_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlBench        *self = TL_BENCH (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                             (float) gtk_widget_get_height (widget));
  cairo_t        *cr;

  if (self->drawing != NULL)
    {
      cr = gtk_snapshot_append_cairo (snapshot, &area);
      tl_drawing_paint (self->drawing, cr, tl_theme_palette ());
      cairo_destroy (cr);
    }
  GTK_WIDGET_CLASS (tl_bench_parent_class)->snapshot (widget, snapshot);
}

/* Tab comes to the selected layer, and the next Tab leaves: arrows walk inside. */
static gboolean
tl_bench_focus (GtkWidget *widget, GtkDirectionType direction)
{
  TlBench     *self = TL_BENCH (widget);
  GtkWidget   *now = gtk_widget_get_focus_child (widget);
  TlBenchItem *item;

  if (now != NULL || gtk_widget_has_focus (widget))
    return FALSE;
  item = self->document == NULL
             ? NULL
             : tl_bench_find_item (self, TL_ITEM_BODY, tl_document_selected (self->document), 0);
  if (item == NULL && self->items->len > 0)
    item = g_ptr_array_index (self->items, 0);
  return gtk_widget_grab_focus (item == NULL ? widget : GTK_WIDGET (item));
}

static gboolean
tl_bench_grab_focus (GtkWidget *widget)
{
  TlBench     *self = TL_BENCH (widget);
  TlBenchItem *item =
      self->document == NULL
          ? NULL
          : tl_bench_find_item (self, TL_ITEM_BODY, tl_document_selected (self->document), 0);

  if (item != NULL)
    return gtk_widget_grab_focus (GTK_WIDGET (item));
  return GTK_WIDGET_CLASS (tl_bench_parent_class)->grab_focus (widget);
}

static void
tl_bench_dispose (GObject *object)
{
  TlBench *self = TL_BENCH (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  tl_bench_drag_clear (self);
  tl_bench_overlay_clear (self);
  if (self->menu != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->menu));
  self->menu = NULL;
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->items, g_ptr_array_unref);
  g_clear_pointer (&self->drawing, tl_drawing_free);
  g_clear_object (&self->document);
  g_clear_pointer (&self->chosen_part, g_free);
  G_OBJECT_CLASS (tl_bench_parent_class)->dispose (object);
}

static void
tl_bench_class_init (TlBenchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_bench_dispose;
  widget_class->snapshot = tl_bench_snapshot;
  widget_class->measure = tl_bench_measure;
  widget_class->size_allocate = tl_bench_size_allocate;
  widget_class->focus = tl_bench_focus;
  widget_class->grab_focus = tl_bench_grab_focus;
  tl_bench_install_signals ();
  gtk_widget_class_set_css_name (widget_class, "bench");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST);
  tl_bench_install_actions (widget_class);
}

static void
tl_bench_init (TlBench *self)
{
  GtkWidget *widget = GTK_WIDGET (self), *hint;

  self->items = g_ptr_array_new ();
  self->show_section = self->show_end_view = TRUE;
  self->hovered_contact = -1;
  tl_bench_drag_init (self);
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  self->gap = TL_BENCH_ITEM (tl_bench_item_new (TL_ITEM_PLACE, NULL, 0));
  gtk_widget_set_visible (GTK_WIDGET (self->gap), FALSE);
  gtk_widget_set_parent (GTK_WIDGET (self->gap), widget);
  self->card = TL_PLACE_CARD (tl_place_card_new ());
  gtk_widget_set_visible (GTK_WIDGET (self->card), FALSE);
  gtk_widget_set_parent (GTK_WIDGET (self->card), widget);
  hint = gtk_label_new (_ ("Drag a part here, or press Enter on one. First: the two conductors."));
  self->hint = GTK_LABEL (hint);
  gtk_widget_add_css_class (hint, "muted");
  gtk_label_set_wrap (self->hint, TRUE);
  gtk_label_set_justify (self->hint, GTK_JUSTIFY_CENTER);
  gtk_widget_set_can_target (hint, FALSE);
  gtk_widget_set_parent (hint, widget);
  tl_bench_overlay_init (self);
  tl_bench_add_gestures (self);
  tl_theme_watch (widget);
}

/* --- public --- */
static void
on_document_changed (TlBench *self)
{
  if (self->drag.is_active)
    tl_bench_drag_cancel (self);
  self->hovered_contact = -1;
  tl_bench_overlay_renew (self);
  tl_bench_rebuild (self);
}

static void
on_selection_changed (TlBench *self)
{
  tl_bench_lay_out (self);
  tl_bench_describe_items (self);
}

void
tl_bench_set_document (TlBench *self, TlDocument *document)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_document_changed), self);
  g_signal_connect_swapped (document, "selection-changed", G_CALLBACK (on_selection_changed), self);
  tl_bench_rebuild (self);
}

void
tl_bench_set_ghost (TlBench *self, TlGhost *ghost)
{
  self->ghost = ghost;
}

void
tl_bench_set_views (TlBench *self, gboolean section, gboolean end_view)
{
  self->show_section = section;
  self->show_end_view = end_view;
  if (self->document != NULL)
    tl_bench_rebuild (self);
}

const TlDrawing *
tl_bench_drawing (TlBench *self)
{
  return self->drawing;
}
