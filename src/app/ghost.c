/* ghost.c: the dragged part under the pointer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ghost.h"

#include "app/theme.h"

struct _TlGhost
{
  GtkWidget parent_instance;

  TlStock   *stock;
  TlFacts   *facts; /* NULL while nothing is dragged */
  TlPartKind kind;
  double     scale;
  double     x, y;
};

G_DEFINE_FINAL_TYPE (TlGhost, tl_ghost, GTK_TYPE_WIDGET)

static void
tl_ghost_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlGhost        *self = TL_GHOST (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                             (float) gtk_widget_get_height (widget));
  cairo_t        *cr;

  if (self->facts == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  cairo_translate (cr, self->x, self->y);
  tl_part_paint_ghost (cr, tl_theme_palette (), self->stock, self->kind, self->facts, self->scale);
  cairo_destroy (cr);
}

static void
tl_ghost_dispose (GObject *object)
{
  TlGhost *self = TL_GHOST (object);

  g_clear_pointer (&self->facts, tl_facts_unref);
  g_clear_pointer (&self->stock, tl_stock_unref);
  G_OBJECT_CLASS (tl_ghost_parent_class)->dispose (object);
}

static void
tl_ghost_class_init (TlGhostClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_ghost_dispose;
  GTK_WIDGET_CLASS (klass)->snapshot = tl_ghost_snapshot;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
tl_ghost_init (TlGhost *self)
{
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
}

void
tl_ghost_show (TlGhost *self, const TlStock *stock, TlPartKind kind, const TlFacts *facts,
               double scale)
{
  tl_ghost_hide (self);
  self->stock = tl_stock_ref (stock);
  self->facts = tl_facts_ref (facts);
  self->kind = kind;
  self->scale = scale;
}

void
tl_ghost_move (TlGhost *self, GtkWidget *from, double x, double y)
{
  graphene_point_t in = GRAPHENE_POINT_INIT ((float) x, (float) y), out;

  if (!gtk_widget_compute_point (from, GTK_WIDGET (self), &in, &out))
    return;
  self->x = (double) out.x;
  self->y = (double) out.y;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_ghost_hide (TlGhost *self)
{
  g_clear_pointer (&self->facts, tl_facts_unref);
  g_clear_pointer (&self->stock, tl_stock_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
