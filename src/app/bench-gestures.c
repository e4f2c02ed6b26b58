/* bench-gestures.c: what the pointer does on the bench: lift, pull, click, hover, zoom.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

#include <glib/gi18n.h>
#include <math.h>

/* A press on a layer lifts it, one on empty paper pulls the sheet; below the threshold either is a click. */
static void
on_drag_begin (GtkGestureDrag *gesture, double x, double y, TlBench *self)
{
  TlItem item;

  self->lifts = self->pans = self->drag_cancelled = FALSE;
  if (self->drawing == NULL)
    return;
  self->pan_from_x = self->pan_x;
  self->pan_from_y = self->pan_y;
  self->lifts = tl_drawing_pick (self->drawing, x, y, &item) && item.kind != TL_ITEM_CONTACT
                && item.owner != NULL;
}

static gboolean
is_past_threshold (TlBench *self, double x, double y, double dx, double dy)
{
  return gtk_drag_check_threshold (GTK_WIDGET (self), (int) x, (int) y, (int) (x + dx),
                                   (int) (y + dy));
}

static void
on_drag_update (GtkGestureDrag *gesture, double dx, double dy, TlBench *self)
{
  double x, y;
  TlItem item;

  if (self->drawing == NULL || self->drag_cancelled
      || !gtk_gesture_drag_get_start_point (gesture, &x, &y))
    return;
  if (!self->pans && !tl_bench_is_dragging (self))
    {
      if (!is_past_threshold (self, x, y, dx, dy))
        return;
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
      if (self->lifts && tl_drawing_pick (self->drawing, x, y, &item))
        {
          g_autofree char *owner = g_strdup (item.owner);

          tl_bench_drag_begin (self, NULL, owner);
        }
      else
        self->pans = TRUE;
    }
  if (self->pans)
    {
      /* A sheet that is fitted has nowhere to go: the first pull fixes its scale. */
      if (self->zoom <= 0.0)
        self->zoom = tl_bench_scale (self);
      self->pan_x = self->pan_from_x + dx;
      self->pan_y = self->pan_from_y + dy;
      tl_bench_lay_out (self);
    }
  else
    tl_bench_drag_motion (self, x + dx, y + dy);
}

static void
click (TlBench *self, double x, double y)
{
  TlItem item;

  if (!tl_drawing_pick (self->drawing, x, y, &item))
    {
      tl_bench_drag_cancel (self);
      gtk_widget_grab_focus (GTK_WIDGET (self));
      tl_document_select (self->document, NULL);
    }
  else if (item.kind == TL_ITEM_CONTACT)
    {
      TlBenchItem *child = tl_bench_find_item (self, TL_ITEM_CONTACT, NULL, item.index);

      if (child != NULL)
        gtk_widget_grab_focus (GTK_WIDGET (child));
      tl_bench_emit_contact (self, item.index);
    }
  else if (item.kind == TL_ITEM_PLACE && self->drag.is_active && self->drag.by_keyboard)
    {
      /* The single-click way: the gap of a part chosen in Parts. */
      tl_bench_open_place (self, (gint) item.index);
      tl_bench_drag_drop (self);
    }
  else if (item.owner != NULL)
    {
      g_autofree char *owner = g_strdup (item.owner);

      tl_document_select (self->document, owner);
      tl_bench_focus_owner (self, owner);
    }
}

static void
on_drag_end (GtkGestureDrag *gesture, double dx, double dy, TlBench *self)
{
  double x = 0, y = 0;

  gtk_gesture_drag_get_start_point (gesture, &x, &y);
  if (self->drag_cancelled || self->drawing == NULL)
    return;
  if (tl_bench_is_dragging (self))
    {
      tl_bench_drag_motion (self, x + dx, y + dy);
      tl_bench_drag_drop (self);
    }
  else if (!self->pans && !is_past_threshold (self, x, y, dx, dy))
    click (self, x, y);
  self->pans = FALSE;
}

static void
on_drag_cancelled (GtkGesture *gesture, GdkEventSequence *sequence, TlBench *self)
{
  self->drag_cancelled = TRUE;
  self->pans = FALSE;
  if (tl_bench_is_dragging (self))
    tl_bench_drag_cancel (self);
}

static void
on_motion (GtkEventControllerMotion *controller, double x, double y, TlBench *self)
{
  TlItem item;
  gint   contact = -1;

  if (self->drawing == NULL || self->drag.is_active || self->pans)
    return;
  if (tl_drawing_pick (self->drawing, x, y, &item) && item.kind == TL_ITEM_CONTACT)
    contact = (gint) item.index;
  tl_bench_emit_hover (self, contact);
  tl_bench_overlay_point (self, x, y);
}

static void
on_leave (GtkEventControllerMotion *controller, TlBench *self)
{
  tl_bench_overlay_point (self, -1.0, -1.0);
  if (!self->drag.is_active)
    tl_bench_emit_hover (self, -1);
}

static gboolean
on_scroll (GtkEventControllerScroll *controller, double dx, double dy, TlBench *self)
{
  GdkModifierType state =
      gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));

  if ((state & GDK_CONTROL_MASK) != 0)
    {
      if (dy != 0.0)
        tl_bench_zoom (self, dy < 0.0 ? "in" : "out");
      return TRUE;
    }
  if (self->zoom <= 0.0)
    return FALSE;
  self->pan_x -= dx * 40.0;
  self->pan_y -= dy * 40.0;
  tl_bench_lay_out (self);
  return TRUE;
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, TlBench *self)
{
  self->zoom_from = tl_bench_scale (self);
}

static void
on_pinch (GtkGestureZoom *gesture, double ratio, TlBench *self)
{
  self->zoom = CLAMP (self->zoom_from * ratio, 1.0, 200.0);
  tl_bench_lay_out (self);
}

static void
on_secondary (GtkGestureClick *gesture, int n_press, double x, double y, TlBench *self)
{
  TlItem item;

  if (self->drawing == NULL || !tl_drawing_pick (self->drawing, x, y, &item) || item.owner == NULL)
    return;
  tl_document_select (self->document, item.owner);
  gtk_widget_activate_action (GTK_WIDGET (self), "bench.menu", NULL);
}

static void
on_primary_press (GtkGestureClick *gesture, int n_press, double x, double y, TlBench *self)
{
  TlItem item;

  if (n_press == 2 && self->drawing != NULL && tl_drawing_pick (self->drawing, x, y, &item)
      && item.owner != NULL)
    tl_bench_emit_edit (self);
}

void
tl_bench_add_gestures (TlBench *self)
{
  GtkWidget  *widget = GTK_WIDGET (self);
  GtkGesture *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new (),
             *secondary = gtk_gesture_click_new (), *primary = gtk_gesture_click_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll =
      gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  gtk_event_controller_set_static_name (GTK_EVENT_CONTROLLER (drag), "bench-drag");
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_drag_end), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_drag_cancelled), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (primary, "pressed", G_CALLBACK (on_primary_press), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (primary));
  gtk_gesture_group (drag, primary);
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (secondary), GDK_BUTTON_SECONDARY);
  g_signal_connect (secondary, "pressed", G_CALLBACK (on_secondary), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (secondary));
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  gtk_widget_add_controller (widget, scroll);
}
