/* pane-edge.c: an edge that can be pulled.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/pane-edge.h"

#include <glib/gi18n.h>

struct _TlPaneEdge
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (TlPaneEdge, tl_pane_edge, GTK_TYPE_WIDGET)

static guint     pull_signal;
static const int KEY_STEP_PX = 8;
static const int EDGE_PX = 6;

static void
pull (TlPaneEdge *self, int px)
{
  if (px != 0)
    g_signal_emit (self, pull_signal, 0, px);
}

/* The edge moves under the pointer, so that each offset is against where it now stands. */
static void
on_drag_update (GtkGestureDrag *gesture, double dx, double dy, TlPaneEdge *self)
{
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  pull (self, (int) dx);
}

static void
pull_action (GtkWidget *widget, const char *name, GVariant *target)
{
  pull (TL_PANE_EDGE (widget), g_variant_get_int32 (target));
}

static void
tl_pane_edge_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? EDGE_PX : 0;
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_pane_edge_class_init (TlPaneEdgeClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->measure = tl_pane_edge_measure;
  pull_signal = g_signal_new ("pull", TL_TYPE_PANE_EDGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                              G_TYPE_NONE, 1, G_TYPE_INT);
  gtk_widget_class_install_action (widget_class, "edge.pull", "i", pull_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Left, 0, "edge.pull", "i",
                                       -KEY_STEP_PX);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Right, 0, "edge.pull", "i",
                                       KEY_STEP_PX);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SEPARATOR);
}

static void
tl_pane_edge_init (TlPaneEdge *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();

  gtk_widget_add_css_class (GTK_WIDGET (self), "handle");
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "col-resize");
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Edge of a pane"), -1);
}
