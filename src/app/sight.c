/* sight.c: widgets of long lists that wait until they are nearly seen.
 *
 * Each waits on the frame clock's layout: a handler that runs after GTK's own sees the widget where it will be painted,
 * and what it adds is still laid out within the same frame.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/sight.h"

typedef struct
{
  GtkWidget     *widget; /* owns this */
  TlSightFunc    seen;
  gpointer       data;
  GdkFrameClock *clock;   /* (nullable): while it is listened to */
  gulong         handler; /* of @clock */
} Waiting;

static const char *const WAITING = "tl-sight";

static void
deafen (Waiting *self)
{
  if (self->clock != NULL)
    g_signal_handler_disconnect (self->clock, self->handler);
  g_clear_object (&self->clock);
}

static void
waiting_free (gpointer data)
{
  deafen (data);
  g_free (data);
}

static gboolean
is_near (GtkWidget *widget)
{
  GtkWidget      *scroller = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t at;
  float           page;

  if (scroller == NULL || !gtk_widget_get_mapped (widget)
      || !gtk_widget_compute_bounds (widget, scroller, &at))
    return FALSE;
  page = (float) gtk_widget_get_height (scroller);
  return page > 0.0f && at.size.height > 0.0f && at.origin.y + at.size.height > -page
         && at.origin.y < 2.0f * page;
}

static void
on_layout (GdkFrameClock *clock, Waiting *self)
{
  GtkWidget  *widget = self->widget;
  TlSightFunc seen = self->seen;
  gpointer    data = self->data;

  if (!is_near (widget))
    return;
  g_object_set_data (G_OBJECT (widget), WAITING, NULL); /* frees @self */
  seen (widget, data);
}

static void
on_map (GtkWidget *widget)
{
  Waiting *self = g_object_get_data (G_OBJECT (widget), WAITING);

  if (self == NULL || self->clock != NULL)
    return;
  self->clock = g_object_ref (gtk_widget_get_frame_clock (widget));
  self->handler = g_signal_connect_after (self->clock, "layout", G_CALLBACK (on_layout), self);
}

static void
on_unmap (GtkWidget *widget)
{
  Waiting *self = g_object_get_data (G_OBJECT (widget), WAITING);

  if (self != NULL)
    deafen (self);
}

void
tl_sight_await (GtkWidget *widget, TlSightFunc seen, gpointer data)
{
  Waiting *self = g_new0 (Waiting, 1);

  self->widget = widget;
  self->seen = seen;
  self->data = data;
  g_object_set_data_full (G_OBJECT (widget), WAITING, self, waiting_free);
  g_signal_connect (widget, "map", G_CALLBACK (on_map), NULL);
  g_signal_connect (widget, "unmap", G_CALLBACK (on_unmap), NULL);
  if (gtk_widget_get_mapped (widget))
    on_map (widget);
}
