/* overlay-bar.c: one overlay at a time, or none.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/overlay-bar.h"

#include "app/labelled.h"

struct _TlOverlayBar
{
  GtkWidget parent_instance;

  TlBench         *bench;
  GtkToggleButton *heat;
  GtkToggleButton *current;
  GtkToggleButton *wet;
};

G_DEFINE_FINAL_TYPE (TlOverlayBar, tl_overlay_bar, GTK_TYPE_WIDGET)

static TlOverlay
overlay_of (const TlOverlayBar *self, const GtkToggleButton *button)
{
  return button == self->heat      ? TL_OVERLAY_HEAT
         : button == self->current ? TL_OVERLAY_CURRENT
                                   : TL_OVERLAY_WET;
}

static void
on_toggled (GtkToggleButton *button, TlOverlayBar *self)
{
  TlOverlay overlay = overlay_of (self, button);

  if (self->bench == NULL)
    return;
  if (gtk_toggle_button_get_active (button))
    tl_bench_set_overlay (self->bench, overlay);
  else if (tl_bench_overlay (self->bench) == overlay)
    tl_bench_set_overlay (self->bench, TL_OVERLAY_NONE);
}

/* By key or by button, the buttons follow the bench. */
static void
on_overlay (TlOverlayBar *self)
{
  TlOverlay overlay = tl_bench_overlay (self->bench);

  gtk_toggle_button_set_active (self->heat, overlay == TL_OVERLAY_HEAT);
  gtk_toggle_button_set_active (self->current, overlay == TL_OVERLAY_CURRENT);
  gtk_toggle_button_set_active (self->wet, overlay == TL_OVERLAY_WET);
}

static void
tl_overlay_bar_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TL_TYPE_OVERLAY_BAR);
  tl_widget_clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (tl_overlay_bar_parent_class)->dispose (object);
}

static void
tl_overlay_bar_class_init (TlOverlayBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_overlay_bar_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/overlay-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, TlOverlayBar, heat);
  gtk_widget_class_bind_template_child (widget_class, TlOverlayBar, current);
  gtk_widget_class_bind_template_child (widget_class, TlOverlayBar, wet);
  gtk_widget_class_bind_template_callback (widget_class, on_toggled);
}

static void
tl_overlay_bar_init (TlOverlayBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                              5);
}

void
tl_overlay_bar_set_bench (TlOverlayBar *self, TlBench *bench)
{
  g_return_if_fail (self->bench == NULL);
  self->bench = bench;
  g_signal_connect_object (bench, "overlay", G_CALLBACK (on_overlay), self, G_CONNECT_SWAPPED);
  on_overlay (self);
}
