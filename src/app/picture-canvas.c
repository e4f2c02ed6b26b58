/* picture-canvas.c: what is painted on the picture, and the shape in hand.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/picture-canvas-private.h"

#include "app/theme.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

G_DEFINE_FINAL_TYPE (TlPictureCanvas, tl_picture_canvas, GTK_TYPE_WIDGET)

static const double PX_PER_MM = 96.0 / 25.4;
static const double LOUPE_PX = 64.0; /* its radius */
static const double LOUPE_ZOOM = 4.0;
static const double MARGIN_PX = 8.0;
/* Where the second picture begins at first. */
static const double FIRST_DIVIDER = 0.5;

/* --- painting --- */

static void
two_tones (cairo_t *cr, TlColour colour)
{
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgb (cr, 0.05, 0.07, 0.09);
  cairo_set_line_width (cr, 4.0);
  cairo_stroke_preserve (cr);
  tl_paint_set_colour (cr, colour);
  cairo_set_line_width (cr, 1.8);
  cairo_stroke (cr);
}

static const TlColour in_hand = { 1.0, 0.86, 0.45 };

static void
paint_polyline (cairo_t *cr, const TlPictureView *view, const GArray *points, const TlPixel *to,
                gboolean is_box)
{
  double x, y, x0 = 0.0, y0 = 0.0;

  cairo_new_path (cr);
  for (guint i = 0; i < points->len; i++)
    {
      tl_picture_view_map (view, g_array_index (points, TlPixel, i), &x, &y);
      if (i == 0)
        {
          x0 = x;
          y0 = y;
        }
      if (!is_box)
        cairo_line_to (cr, x, y);
    }
  if (to != NULL)
    tl_picture_view_map (view, *to, &x, &y);
  if (is_box)
    cairo_rectangle (cr, MIN (x0, x), MIN (y0, y), fabs (x - x0), fabs (y - y0));
  else if (to != NULL)
    cairo_line_to (cr, x, y);
  two_tones (cr, in_hand);
}

static void
paint_handles (cairo_t *cr, const TlPalette *palette, const TlPictureView *view,
               const GArray *points, gint chosen)
{
  /* A long outline is moved as a whole: a handle at every point of it would hide it. */
  for (guint i = 0; i < MIN (points->len, 60); i++)
    {
      double x, y, r = (gint) i == chosen ? 6.0 : 4.5;

      tl_picture_view_map (view, g_array_index (points, TlPixel, i), &x, &y);
      cairo_rectangle (cr, x - r, y - r, 2.0 * r, 2.0 * r);
      cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
      cairo_fill_preserve (cr);
      tl_paint_set_colour (cr, tl_palette_get (TL_SCHEME_LIGHT)->select);
      cairo_set_line_width (cr, (gint) i == chosen ? 2.5 : 1.5);
      cairo_stroke (cr);
    }
}

static void
paint_cross (cairo_t *cr, double x, double y)
{
  cairo_new_path (cr);
  cairo_move_to (cr, x - 14.0, y);
  cairo_line_to (cr, x - 3.0, y);
  cairo_move_to (cr, x + 3.0, y);
  cairo_line_to (cr, x + 14.0, y);
  cairo_move_to (cr, x, y - 14.0);
  cairo_line_to (cr, x, y - 3.0);
  cairo_move_to (cr, x, y + 3.0);
  cairo_line_to (cr, x, y + 14.0);
  two_tones (cr, (TlColour){ 1.0, 1.0, 1.0 });
}

/* Beside the point, where it covers neither the point nor leaves the field. */
static void
paint_loupe (TlPictureCanvas *self, cairo_t *cr, const TlPhoto *photo, const TlPictureView *view)
{
  double           x, y, cx, cy, scale = MAX (view->scale * LOUPE_ZOOM, 4.0);
  double           width = gtk_widget_get_width (GTK_WIDGET (self));
  guint            w, h;
  const TlJoint   *joint = tl_document_joint (tl_inspector_document (self->inspector));
  cairo_surface_t *surface =
      tl_picture_levels_get (self->levels, photo, joint->originals, G_MAXUINT);

  if (surface == NULL)
    return;
  tl_photo_size (photo, &w, &h);
  tl_picture_view_map (view, self->cross, &x, &y);
  cx = x + 2.0 * LOUPE_PX + 30.0 < width ? x + LOUPE_PX + 30.0 : x - LOUPE_PX - 30.0;
  cy = MAX (y - LOUPE_PX - 20.0, LOUPE_PX + 4.0);
  cairo_save (cr);
  cairo_arc (cr, cx, cy, LOUPE_PX, 0.0, 2.0 * G_PI);
  cairo_save (cr);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, 0.2, 0.2, 0.2);
  cairo_paint (cr);
  cairo_translate (cr, cx - (self->cross.x_px + 0.5) * scale,
                   cy - (self->cross.y_px + 0.5) * scale);
  cairo_scale (cr, scale * w / cairo_image_surface_get_width (surface),
               scale * h / cairo_image_surface_get_height (surface));
  cairo_set_source_surface (cr, surface, 0.0, 0.0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_restore (cr);
  cairo_arc (cr, cx, cy, LOUPE_PX, 0.0, 2.0 * G_PI);
  two_tones (cr, (TlColour){ 1.0, 1.0, 1.0 });
  paint_cross (cr, cx, cy);
  cairo_restore (cr);
}

static cairo_surface_t *
surface_for (TlPictureCanvas *self, const TlPhoto *photo, const TlPictureView *view)
{
  const TlJoint *joint = tl_document_joint (tl_inspector_document (self->inspector));
  double         edge = MAX (photo->width, photo->height) * view->scale
                * gtk_widget_get_scale_factor (GTK_WIDGET (self));

  return tl_picture_levels_get (self->levels, photo, joint->originals,
                                (guint) CLAMP (edge, 1.0, 1e6));
}

static double
divider_x (TlPictureCanvas *self)
{
  return self->divider * gtk_widget_get_width (GTK_WIDGET (self));
}

static void
paint_photo (TlPictureCanvas *self, cairo_t *cr, const TlPhoto *photo, const TlPictureView *view)
{
  TlPicturePaint options = { .view = *view,
                             .unit = PX_PER_MM,
                             .show_marks = TRUE,
                             .show_measures = TRUE,
                             .show_scale = TRUE,
                             .selected = tl_inspector_selected (self->inspector) };

  tl_picture_paint (cr, tl_palette_get (TL_SCHEME_LIGHT), surface_for (self, photo, view),
                    tl_inspector_inspections (self->inspector),
                    tl_inspector_inspection (self->inspector), photo, &options,
                    tl_document_language (tl_inspector_document (self->inspector)));
}

/* The second picture is fitted on its own: two looks are seldom taken from the same place. */
static void
paint_second (TlPictureCanvas *self, cairo_t *cr)
{
  const TlPhoto *second =
      tl_inspections_photo (tl_inspector_inspections (self->inspector), self->compared);
  double x = divider_x (self), width = gtk_widget_get_width (GTK_WIDGET (self)),
         height = gtk_widget_get_height (GTK_WIDGET (self));
  TlPictureView view;

  if (second == NULL)
    return;
  view = tl_picture_view_fit (second, MAX (width, 1.0), MAX (height, 1.0));
  cairo_save (cr);
  cairo_rectangle (cr, x, 0.0, width - x, height);
  cairo_clip (cr);
  tl_paint_set_colour (cr, tl_theme_palette ()->ground);
  cairo_paint (cr);
  paint_photo (self, cr, second, &view);
  cairo_restore (cr);
  cairo_new_path (cr);
  cairo_move_to (cr, x, 0.0);
  cairo_line_to (cr, x, height);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, height / 2.0, 9.0, 0.0, 2.0 * G_PI);
  two_tones (cr, (TlColour){ 1.0, 1.0, 1.0 });
}

static void
paint_in_hand (TlPictureCanvas *self, cairo_t *cr, const TlPhoto *photo, const TlPictureView *view)
{
  const TlScale *draft = tl_inspector_draft (self->inspector);
  guint          detail;
  TlTool         tool = tl_inspector_tool (self->inspector, &detail);
  gconstpointer  record;
  GArray        *chosen = tl_picture_canvas_selected_points (self, &record);
  double         x, y;

  if (draft != NULL && strcmp (draft->picture, photo->id) == 0)
    paint_polyline (cr, view, draft->points,
                    draft->kind == TL_SCALE_RECTANGLE ? &g_array_index (draft->points, TlPixel, 0)
                                                      : NULL,
                    FALSE);
  if (chosen != NULL && tool == TL_TOOL_SELECT)
    paint_handles (cr, tl_theme_palette (), view, chosen, self->handle);
  if (self->points->len > 0)
    {
      paint_polyline (cr, view, self->points, self->has_cross ? &self->cross : NULL,
                      tool == TL_TOOL_MARK && detail == TL_OUTLINE_BOX);
      paint_handles (cr, tl_theme_palette (), view, self->points, -1);
    }
  if (!self->has_cross)
    return;
  if (tool != TL_TOOL_SELECT)
    {
      tl_picture_view_map (view, self->cross, &x, &y);
      paint_cross (cr, x, y);
    }
  if ((tool != TL_TOOL_SELECT && detail != TL_OUTLINE_FREEHAND) || self->hold == TL_HOLD_HANDLE)
    paint_loupe (self, cr, photo, view);
}

static void
paint_sentence (TlPictureCanvas *self, cairo_t *cr, const char *text)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)) - 8.0 * MARGIN_PX;

  tl_paint_set_colour (cr, tl_theme_palette ()->ink);
  tl_paint_paragraph (cr, text, 4.0 * MARGIN_PX, 4.0 * MARGIN_PX, MAX (width, 80.0), 14.0, FALSE,
                      TRUE);
}

static void
tl_picture_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);
  graphene_rect_t  area = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                              (float) gtk_widget_get_height (widget));
  const TlPhoto   *photo = self->inspector == NULL ? NULL : tl_inspector_photo (self->inspector);
  const char      *problem;
  TlPictureView    view;
  cairo_t         *cr;

  if (photo == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  view = tl_picture_canvas_view (self);
  tl_picture_canvas_tell_view (self);
  paint_photo (self, cr, photo, &view);
  problem = tl_picture_levels_problem (self->levels, photo);
  if (surface_for (self, photo, &view) == NULL)
    paint_sentence (self, cr, problem != NULL ? problem : _ ("Being opened."));
  paint_in_hand (self, cr, photo, &view);
  if (self->compared != NULL)
    paint_second (self, cr);
  cairo_destroy (cr);
}

/* --- what changes --- */

static void
on_changed (TlPictureCanvas *self)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);

  if (g_strcmp0 (self->shown, photo == NULL ? NULL : photo->id) != 0)
    {
      g_free (self->shown);
      self->shown = photo == NULL ? NULL : g_strdup (photo->id);
      self->zoom = 0.0;
      self->has_cross = FALSE;
      g_array_set_size (self->points, 0);
    }
  tl_picture_canvas_say (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_selection (TlPictureCanvas *self)
{
  self->handle = -1;
  on_changed (self);
}

static void
on_tool (TlPictureCanvas *self)
{
  gboolean is_drawing = tl_inspector_tool (self->inspector, NULL) != TL_TOOL_SELECT;

  tl_picture_canvas_drop_points (self);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), is_drawing ? "crosshair" : NULL);
  if (!is_drawing)
    self->has_cross = FALSE;
  tl_picture_canvas_say (self);
}

static void
tl_picture_canvas_dispose (GObject *object)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (object);

  g_clear_handle_id (&self->telling, g_source_remove);
  g_clear_object (&self->inspector);
  g_clear_object (&self->levels);
  G_OBJECT_CLASS (tl_picture_canvas_parent_class)->dispose (object);
}

static void
tl_picture_canvas_finalize (GObject *object)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (object);

  g_array_unref (self->points);
  g_clear_pointer (&self->held, tl_record_unref);
  g_free (self->shown);
  g_free (self->compared);
  G_OBJECT_CLASS (tl_picture_canvas_parent_class)->finalize (object);
}

static void
tl_picture_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size,
                           int *minimum, int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 220 : 160;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 600 : 420;
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_picture_canvas_class_init (TlPictureCanvasClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_picture_canvas_dispose;
  G_OBJECT_CLASS (klass)->finalize = tl_picture_canvas_finalize;
  widget_class->snapshot = tl_picture_canvas_snapshot;
  widget_class->measure = tl_picture_canvas_measure;
  tl_picture_canvas_install_view (widget_class);
  tl_picture_canvas_install_keys (widget_class);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tl_picture_canvas_init (TlPictureCanvas *self)
{
  self->points = g_array_new (FALSE, FALSE, sizeof (TlPixel));
  self->handle = -1;
  self->divider = FIRST_DIVIDER;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_add_css_class (GTK_WIDGET (self), "picture-canvas");
  tl_picture_canvas_add_input (self);
  tl_theme_watch (GTK_WIDGET (self));
}

void
tl_picture_canvas_set_inspector (TlPictureCanvas *self, TlInspector *inspector,
                                 TlPictureLevels *levels)
{
  g_return_if_fail (self->inspector == NULL);
  self->inspector = g_object_ref (inspector);
  self->levels = g_object_ref (levels);
  g_signal_connect_object (inspector, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (inspector, "selection-changed", G_CALLBACK (on_selection), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (inspector, "tool-changed", G_CALLBACK (on_tool), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (levels, "changed", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  on_changed (self);
}

void
tl_picture_canvas_compare (TlPictureCanvas *self, const char *id)
{
  char *copy = g_strdup (id);

  g_free (self->compared);
  self->compared = copy;
  self->divider = FIRST_DIVIDER;
  if (id != NULL)
    self->zoom = 0.0;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

const char *
tl_picture_canvas_compared (TlPictureCanvas *self)
{
  return self->compared;
}

double
tl_picture_canvas_divider (TlPictureCanvas *self)
{
  return self->divider;
}
