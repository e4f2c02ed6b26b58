/* picture-canvas-view.c: how the picture lies in its field, and at what scale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/picture-canvas-private.h"

#include <math.h>

static const double ZOOM_STEP = 1.25;
static const double MOST_ZOOM = 40.0;

static guint view_changed_signal;

static TlPictureView
view_of (TlPictureCanvas *self, const TlPhoto *photo)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)),
         height = gtk_widget_get_height (GTK_WIDGET (self));
  TlPictureView view = tl_picture_view_fit (photo, MAX (width, 1.0), MAX (height, 1.0));

  if (self->zoom > 0.0)
    view = (TlPictureView){ self->zoom, self->pan_x, self->pan_y };
  return view;
}

TlPictureView
tl_picture_canvas_view (TlPictureCanvas *self)
{
  const TlPhoto *photo = self->inspector == NULL ? NULL : tl_inspector_photo (self->inspector);

  return photo == NULL ? (TlPictureView){ 1.0, 0.0, 0.0 } : view_of (self, photo);
}

double
tl_picture_canvas_px_per_mm (TlPictureCanvas *self)
{
  const TlScale *scale = self->inspector == NULL ? NULL : tl_inspector_scale (self->inspector);
  TlPixel        middle = { 0.0, 0.0 };
  double         mm_per_px;

  if (scale == NULL)
    return 0.0;
  for (guint i = 0; i < scale->points->len; i++)
    {
      middle.x_px += g_array_index (scale->points, TlPixel, i).x_px / scale->points->len;
      middle.y_px += g_array_index (scale->points, TlPixel, i).y_px / scale->points->len;
    }
  if (!tl_scale_mm_per_px (scale, middle, &mm_per_px) || mm_per_px <= 0.0)
    return 0.0;
  return tl_picture_canvas_view (self).scale / mm_per_px;
}

static gboolean
on_tell (gpointer data)
{
  TlPictureCanvas *self = data;

  self->telling = 0;
  g_signal_emit (self, view_changed_signal, 0);
  return G_SOURCE_REMOVE;
}

void
tl_picture_canvas_tell_view (TlPictureCanvas *self)
{
  double px_per_mm = tl_picture_canvas_px_per_mm (self);

  if (px_per_mm == self->told_px_per_mm)
    return;
  self->told_px_per_mm = px_per_mm;
  if (self->telling == 0)
    self->telling = g_idle_add (on_tell, self);
}

void
tl_picture_canvas_zoom (TlPictureCanvas *self, const char *how)
{
  TlPictureView view = tl_picture_canvas_view (self);
  double        x = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0,
         y = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  double factor = g_str_equal (how, "in") ? ZOOM_STEP : 1.0 / ZOOM_STEP;

  if (g_str_equal (how, "fit"))
    self->zoom = 0.0;
  else
    {
      /* What is being drawn or the cross stays where it is, else the middle. */
      if (self->has_cross)
        tl_picture_view_map (&view, self->cross, &x, &y);
      self->zoom = MIN (view.scale * factor, MOST_ZOOM);
      self->pan_x = x - (x - view.x) * self->zoom / view.scale;
      self->pan_y = y - (y - view.y) * self->zoom / view.scale;
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_picture_canvas_install_view (GtkWidgetClass *klass)
{
  view_changed_signal = g_signal_new ("view-changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                      0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
