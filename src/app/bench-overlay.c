/* bench-overlay.c: heat, current and wet paths on the bench: reckoned in a thread, read out at the pointer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

#include <math.h>

/* px between the pointer and its readout */
static const int READOUT_AWAY_PX = 16;

/* --- reckoning --- */
typedef struct
{
  TlVerdict *verdict;
  double     years;
} Order;

static void
order_free (Order *order)
{
  tl_verdict_unref (order->verdict);
  g_free (order);
}

static void
reckon (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Order *order = data;

  g_task_return_pointer (task, tl_heat_field_new (order->verdict, order->years, cancellable),
                         (GDestroyNotify) tl_heat_field_unref);
}

static void
stop_reckoning (TlBench *self)
{
  if (self->reckoning != NULL)
    g_cancellable_cancel (self->reckoning);
  g_clear_object (&self->reckoning);
}

static void
describe (TlBench *self)
{
  g_autofree char *text =
      self->drawing == NULL ? g_strdup ("") : tl_drawing_overlay_describe (self->drawing);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text,
                                  -1);
}

/* A result of an older joint or age comes from a task that was cancelled: it is dropped. */
static void
on_reckoned (GObject *source, GAsyncResult *result, gpointer data)
{
  TlBench *self = TL_BENCH (source);
  g_autoptr (TlHeatField) field = g_task_propagate_pointer (G_TASK (result), NULL);

  if (field == NULL || g_task_get_cancellable (G_TASK (result)) != self->reckoning
      || self->document == NULL)
    return;
  g_clear_object (&self->reckoning);
  self->field = g_steal_pointer (&field);
  tl_bench_lay_out (self);
  describe (self);
}

static gboolean
needs_field (const TlBench *self)
{
  return self->overlay == TL_OVERLAY_HEAT || self->overlay == TL_OVERLAY_CURRENT;
}

void
tl_bench_overlay_renew (TlBench *self)
{
  g_autoptr (GTask) task = NULL;
  Order *order;

  stop_reckoning (self);
  g_clear_pointer (&self->field, tl_heat_field_unref);
  gtk_widget_set_visible (GTK_WIDGET (self->readout), FALSE);
  if (!needs_field (self) || self->document == NULL)
    return;
  self->reckoning = g_cancellable_new ();
  order = g_new (Order, 1);
  order->verdict = tl_verdict_ref (tl_document_verdict (self->document));
  order->years = self->overlay_years;
  task = g_task_new (self, self->reckoning, on_reckoned, NULL);
  g_task_set_task_data (task, order, (GDestroyNotify) order_free);
  g_task_run_in_thread (task, reckon);
}

/* --- the readout --- */
void
tl_bench_overlay_point (TlBench *self, double x, double y)
{
  g_autofree char *text = NULL;

  if (self->overlay != TL_OVERLAY_NONE && self->drawing != NULL && x >= 0.0 && y >= 0.0)
    text = tl_drawing_overlay_at (self->drawing, x, y);
  self->readout_x = x;
  self->readout_y = y;
  if (text != NULL)
    gtk_label_set_text (self->readout, text);
  gtk_widget_set_visible (GTK_WIDGET (self->readout), text != NULL);
  if (text != NULL)
    gtk_widget_queue_allocate (GTK_WIDGET (self));
}

gboolean
tl_bench_overlay_place (TlBench *self, int width, int height, GdkRectangle *at)
{
  GtkRequisition size;

  if (!gtk_widget_get_visible (GTK_WIDGET (self->readout)))
    return FALSE;
  gtk_widget_get_preferred_size (GTK_WIDGET (self->readout), NULL, &size);
  *at = (GdkRectangle){ (int) self->readout_x + READOUT_AWAY_PX,
                        (int) self->readout_y - size.height - READOUT_AWAY_PX / 2, size.width,
                        size.height };
  if (at->x + at->width > width - 4)
    at->x = MAX (4, (int) self->readout_x - READOUT_AWAY_PX - at->width);
  if (at->x + at->width > width - 4)
    at->x = MAX (4, width - 4 - at->width);
  if (at->y < 4)
    at->y = (int) self->readout_y + READOUT_AWAY_PX;
  at->y = CLAMP (at->y, 4, MAX (4, height - 4 - at->height));
  return TRUE;
}

/* --- state --- */

void
tl_bench_overlay_init (TlBench *self)
{
  self->readout = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->readout), "readout");
  gtk_widget_set_can_target (GTK_WIDGET (self->readout), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->readout), FALSE);
  gtk_widget_set_parent (GTK_WIDGET (self->readout), GTK_WIDGET (self));
}

void
tl_bench_overlay_clear (TlBench *self)
{
  stop_reckoning (self);
  g_clear_pointer (&self->field, tl_heat_field_unref);
}

static void
overlay_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench  *self = TL_BENCH (widget);
  TlOverlay overlay = TL_OVERLAY_NONE;

  if (!tl_overlay_from_word (g_variant_get_string (target, NULL), &overlay))
    return;
  tl_bench_set_overlay (self, overlay == self->overlay ? TL_OVERLAY_NONE : overlay);
}

void
tl_bench_overlay_install (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "bench.overlay", "s", overlay_action);
}

/* --- public --- */
void
tl_bench_set_overlay (TlBench *self, TlOverlay overlay)
{
  gboolean had_field = needs_field (self);

  if (overlay == self->overlay)
    return;
  self->overlay = overlay;
  if (!had_field || !needs_field (self))
    tl_bench_overlay_renew (self);
  gtk_widget_set_visible (GTK_WIDGET (self->readout), FALSE);
  tl_bench_lay_out (self);
  describe (self);
  tl_bench_emit_overlay (self);
}

TlOverlay
tl_bench_overlay (TlBench *self)
{
  return self->overlay;
}

void
tl_bench_set_overlay_years (TlBench *self, double years)
{
  if (fabs (years - self->overlay_years) < 1e-9)
    return;
  self->overlay_years = years;
  tl_bench_overlay_renew (self);
  tl_bench_lay_out (self);
  tl_bench_emit_overlay (self);
}

double
tl_bench_overlay_years (TlBench *self)
{
  return self->overlay_years;
}

gboolean
tl_bench_overlay_is_ready (TlBench *self)
{
  return !needs_field (self) || self->field != NULL;
}
