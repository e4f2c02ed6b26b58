/* bench-item.c: a transparent child of the bench that can be focused and named.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-item.h"

struct _TlBenchItem
{
  GtkWidget parent_instance;

  TlItemKind kind;
  char      *owner;
  guint      index;
};

G_DEFINE_FINAL_TYPE (TlBenchItem, tl_bench_item, GTK_TYPE_WIDGET)

static void
tl_bench_item_finalize (GObject *object)
{
  g_free (TL_BENCH_ITEM (object)->owner);
  G_OBJECT_CLASS (tl_bench_item_parent_class)->finalize (object);
}

static void
tl_bench_item_class_init (TlBenchItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tl_bench_item_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_LIST_ITEM);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "benchitem");
}

static void
tl_bench_item_init (TlBenchItem *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "bench-item");
}

GtkWidget *
tl_bench_item_new (TlItemKind kind, const char *owner, guint index)
{
  TlBenchItem *self = g_object_new (TL_TYPE_BENCH_ITEM, NULL);

  self->kind = kind;
  self->owner = g_strdup (owner);
  self->index = index;
  return GTK_WIDGET (self);
}

TlItemKind
tl_bench_item_kind (TlBenchItem *self)
{
  return self->kind;
}

const char *
tl_bench_item_owner (TlBenchItem *self)
{
  return self->owner;
}

guint
tl_bench_item_index (TlBenchItem *self)
{
  return self->index;
}

void
tl_bench_item_set_index (TlBenchItem *self, guint index)
{
  self->index = index;
}

void
tl_bench_item_describe (TlBenchItem *self, const char *name, const char *description, guint place,
                        guint count, gboolean is_selected)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_RELATION_POS_IN_SET,
                                  (int) place, GTK_ACCESSIBLE_RELATION_SET_SIZE, (int) count, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, is_selected,
                               -1);
}
