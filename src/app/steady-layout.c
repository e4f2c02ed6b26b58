/* steady-layout.c: a child over the whole widget, in a width that is given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/steady-layout.h"

struct _TlSteadyLayout
{
  GtkLayoutManager parent_instance;

  int px;
};

G_DEFINE_FINAL_TYPE (TlSteadyLayout, tl_steady_layout, GTK_TYPE_LAYOUT_MANAGER)

static GtkSizeRequestMode
tl_steady_layout_get_request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tl_steady_layout_measure (GtkLayoutManager *manager, GtkWidget *widget, GtkOrientation orientation,
                          int for_size, int *minimum, int *natural, int *minimum_baseline,
                          int *natural_baseline)
{
  TlSteadyLayout *self = TL_STEADY_LAYOUT (manager);
  GtkWidget      *child = gtk_widget_get_first_child (widget);

  *minimum = *natural = self->px;
  if (child != NULL && (orientation == GTK_ORIENTATION_VERTICAL || self->px == 0))
    gtk_widget_measure (child, orientation, for_size, minimum, natural, NULL, NULL);
}

static void
tl_steady_layout_allocate (GtkLayoutManager *manager, GtkWidget *widget, int width, int height,
                           int baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);

  if (child != NULL && gtk_widget_should_layout (child))
    gtk_widget_allocate (child, width, height, baseline, NULL);
}

static void
tl_steady_layout_class_init (TlSteadyLayoutClass *klass)
{
  GtkLayoutManagerClass *manager = GTK_LAYOUT_MANAGER_CLASS (klass);

  manager->get_request_mode = tl_steady_layout_get_request_mode;
  manager->measure = tl_steady_layout_measure;
  manager->allocate = tl_steady_layout_allocate;
}

static void
tl_steady_layout_init (TlSteadyLayout *self)
{
}

void
tl_steady_layout_set_width (TlSteadyLayout *self, int px)
{
  self->px = px;
  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}
