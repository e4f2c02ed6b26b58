/* picture-canvas-input.c: what pointer and keys do in the picture.
 *
 * Without a tool a click selects, a pull moves what is selected or else the picture. With a tool each click sets a point, and
 * a pull sets two. Keys do the same with a cross.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/picture-canvas-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static const double REACH_PX = 10.0;
/* Two points nearer than this are one: a second click ends an outline. */
static const double SAME_PX = 4.0;
static const double STROKE_PX = 2.0; /* between two points of a stroke */
static const double DIVIDER_PX = 10.0;
static const double DIVIDER_STEP = 0.05;

static guint next_key = 1;

static TlPixel
pixel_at (TlPictureCanvas *self, double x, double y)
{
  TlPictureView view = tl_picture_canvas_view (self);

  return tl_picture_view_pixel (&view, x, y);
}

static gboolean
has_tool (TlPictureCanvas *self, guint *detail)
{
  return tl_inspector_tool (self->inspector, detail) != TL_TOOL_SELECT;
}

static gboolean
is_ready (TlPictureCanvas *self)
{
  return self->inspector != NULL && tl_inspector_photo (self->inspector) != NULL;
}

/* --- pointer --- */

static gboolean
is_on_last (TlPictureCanvas *self, double x, double y)
{
  TlPictureView view = tl_picture_canvas_view (self);
  double        px, py;

  if (self->points->len == 0)
    return FALSE;
  tl_picture_view_map (&view, g_array_index (self->points, TlPixel, self->points->len - 1), &px,
                       &py);
  return hypot (px - x, py - y) < SAME_PX;
}

static void
press_with_tool (TlPictureCanvas *self, double x, double y, guint detail)
{
  guint most;
  guint least = tl_inspector_tool_points (self->inspector, &most);

  if (tl_inspector_tool (self->inspector, NULL) == TL_TOOL_MARK && detail == TL_OUTLINE_FREEHAND)
    {
      g_array_set_size (self->points, 0);
      self->hold = TL_HOLD_STROKE;
      tl_picture_canvas_add_point (self, pixel_at (self, x, y));
      return;
    }
  if (is_on_last (self, x, y))
    {
      if (most == 0)
        tl_picture_canvas_finish (self);
      return;
    }
  /* A pull from the first point sets the second one as well. */
  self->hold = self->points->len == 0 && least >= 2 ? TL_HOLD_SPAN : TL_HOLD_NOTHING;
  tl_picture_canvas_add_point (self, pixel_at (self, x, y));
}

static void
press_without_tool (TlPictureCanvas *self, double x, double y)
{
  const char         *selected = tl_inspector_selected (self->inspector);
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);
  gconstpointer       record = tl_inspector_record (self->inspector, selected);
  TlPictureView       view = tl_picture_canvas_view (self);
  const char         *under = inspection == NULL
                                  ? NULL
                                  : tl_picture_pick (inspection, tl_inspector_photo (self->inspector),
                                                     pixel_at (self, x, y), REACH_PX / view.scale);

  self->handle = tl_picture_canvas_handle_at (self, x, y);
  if (record != NULL && tl_inspector_is_open (self->inspector)
      && (self->handle >= 0 || (under != NULL && g_strcmp0 (under, selected) == 0)))
    {
      self->hold = self->handle >= 0 ? TL_HOLD_HANDLE : TL_HOLD_RECORD;
      self->held = tl_record_copy (record);
      self->hold_key = next_key++;
      return;
    }
  self->hold = TL_HOLD_PAN;
  self->pan_from_x = view.x;
  self->pan_from_y = view.y;
  self->zoom_from = view.scale;
}

static void
on_drag_begin (GtkGestureDrag *gesture, double x, double y, TlPictureCanvas *self)
{
  guint detail;

  if (!is_ready (self))
    return;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  g_clear_pointer (&self->held, tl_record_unref);
  self->hold = TL_HOLD_NOTHING;
  self->from_x = x;
  self->from_y = y;
  if (self->compared != NULL
      && fabs (x - self->divider * gtk_widget_get_width (GTK_WIDGET (self))) < DIVIDER_PX)
    self->hold = TL_HOLD_DIVIDER;
  else if (has_tool (self, &detail))
    press_with_tool (self, x, y, detail);
  else
    press_without_tool (self, x, y);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
add_to_stroke (TlPictureCanvas *self, double x, double y)
{
  TlPictureView view = tl_picture_canvas_view (self);
  double        px, py;

  tl_picture_view_map (&view, g_array_index (self->points, TlPixel, self->points->len - 1), &px,
                       &py);
  if (hypot (px - x, py - y) >= STROKE_PX && self->points->len < 4000)
    tl_picture_canvas_add_point (self, pixel_at (self, x, y));
}

static gboolean
is_past (TlPictureCanvas *self, double dx, double dy)
{
  return gtk_drag_check_threshold (GTK_WIDGET (self), 0, 0, (int) dx, (int) dy);
}

static void
pull (TlPictureCanvas *self, double dx, double dy)
{
  TlPictureView view = tl_picture_canvas_view (self);

  switch (self->hold)
    {
    case TL_HOLD_PAN:
      if (!is_past (self, dx, dy) && self->zoom <= 0.0)
        return;
      self->zoom = self->zoom_from;
      self->pan_x = self->pan_from_x + dx;
      self->pan_y = self->pan_from_y + dy;
      break;
    case TL_HOLD_HANDLE:
    case TL_HOLD_RECORD:
      tl_picture_canvas_move (self, self->held, self->handle, dx / view.scale, dy / view.scale,
                              self->hold_key);
      break;
    case TL_HOLD_STROKE:
      add_to_stroke (self, self->from_x + dx, self->from_y + dy);
      break;
    case TL_HOLD_DIVIDER:
      self->divider =
          CLAMP ((self->from_x + dx) / MAX (gtk_widget_get_width (GTK_WIDGET (self)), 1), 0.0, 1.0);
      break;
    case TL_HOLD_SPAN:
    case TL_HOLD_NOTHING:
    default:
      break;
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_drag_update (GtkGestureDrag *gesture, double dx, double dy, TlPictureCanvas *self)
{
  if (!is_ready (self) || self->hold == TL_HOLD_NOTHING)
    return;
  if (self->hold != TL_HOLD_SPAN)
    pull (self, dx, dy);
  self->cross = pixel_at (self, self->from_x + dx, self->from_y + dy);
  self->has_cross = self->hold == TL_HOLD_SPAN || self->hold == TL_HOLD_HANDLE;
}

static void
select_at (TlPictureCanvas *self, double x, double y)
{
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);
  TlPictureView       view = tl_picture_canvas_view (self);

  tl_inspector_select (self->inspector,
                       inspection == NULL
                           ? NULL
                           : tl_picture_pick (inspection, tl_inspector_photo (self->inspector),
                                              pixel_at (self, x, y), REACH_PX / view.scale));
}

static void
on_drag_end (GtkGestureDrag *gesture, double dx, double dy, TlPictureCanvas *self)
{
  TlHold hold = self->hold;

  if (!is_ready (self))
    return;
  self->hold = TL_HOLD_NOTHING;
  if (hold == TL_HOLD_STROKE)
    {
      tl_picture_canvas_finish (self);
      tl_picture_canvas_drop_points (self);
    }
  else if (hold == TL_HOLD_SPAN && is_past (self, dx, dy))
    tl_picture_canvas_add_point (self, pixel_at (self, self->from_x + dx, self->from_y + dy));
  else if (hold == TL_HOLD_PAN && !is_past (self, dx, dy))
    select_at (self, self->from_x, self->from_y);
  if (hold == TL_HOLD_HANDLE)
    self->has_cross = FALSE;
  g_clear_pointer (&self->held, tl_record_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_motion (GtkEventControllerMotion *controller, double x, double y, TlPictureCanvas *self)
{
  if (!is_ready (self) || !has_tool (self, NULL))
    return;
  self->cross = pixel_at (self, x, y);
  self->has_cross = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_leave (GtkEventControllerMotion *controller, TlPictureCanvas *self)
{
  self->has_cross = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
on_scroll (GtkEventControllerScroll *controller, double dx, double dy, TlPictureCanvas *self)
{
  GdkModifierType state =
      gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));

  if (!is_ready (self))
    return FALSE;
  if ((state & GDK_CONTROL_MASK) != 0)
    {
      if (dy != 0.0)
        tl_picture_canvas_zoom (self, dy < 0.0 ? "in" : "out");
      return TRUE;
    }
  if (self->zoom <= 0.0)
    return FALSE;
  self->pan_x -= dx * 40.0;
  self->pan_y -= dy * 40.0;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return TRUE;
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, TlPictureCanvas *self)
{
  self->zoom_from = tl_picture_canvas_view (self).scale;
}

static void
on_pinch (GtkGestureZoom *gesture, double ratio, TlPictureCanvas *self)
{
  TlPictureView view = tl_picture_canvas_view (self);
  double        x, y;

  if (!is_ready (self) || !gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    return;
  self->zoom = CLAMP (self->zoom_from * ratio, 0.01, 40.0);
  self->pan_x = x - (x - view.x) * self->zoom / view.scale;
  self->pan_y = y - (y - view.y) * self->zoom / view.scale;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_picture_canvas_add_input (TlPictureCanvas *self)
{
  GtkWidget          *widget = GTK_WIDGET (self);
  GtkGesture         *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll =
      gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_drag_end), self);
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
}

/* --- keys --- */

/* Without a cross the keys begin in the middle of what is seen. */
static void
ensure_cross (TlPictureCanvas *self)
{
  if (!self->has_cross)
    self->cross = pixel_at (self, gtk_widget_get_width (GTK_WIDGET (self)) / 2.0,
                            gtk_widget_get_height (GTK_WIDGET (self)) / 2.0);
  self->has_cross = TRUE;
}

/* A step is a pixel on the screen; with Shift ten; with Ctrl a tenth of a pixel of the picture. */
static double
step_of (TlPictureCanvas *self, const char *size)
{
  double scale = tl_picture_canvas_view (self).scale;

  return g_str_equal (size, "fine") ? 0.1 : (g_str_equal (size, "large") ? 10.0 : 1.0) / scale;
}

static gboolean
step_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);
  const char      *size;
  gconstpointer    record;
  double           dx, dy, step;

  if (!is_ready (self))
    return FALSE;
  g_variant_get (args, "(dd&s)", &dx, &dy, &size);
  step = step_of (self, size);
  record = tl_inspector_record (self->inspector, tl_inspector_selected (self->inspector));
  if (has_tool (self, NULL))
    {
      ensure_cross (self);
      self->cross.x_px += dx * step;
      self->cross.y_px += dy * step;
    }
  else if (self->compared != NULL && record == NULL)
    self->divider = CLAMP (self->divider + dx * DIVIDER_STEP, 0.0, 1.0);
  else if (record != NULL && tl_record_points (record) != NULL
           && tl_inspector_is_open (self->inspector))
    tl_picture_canvas_move (self, record, self->handle, dx * step, dy * step,
                            g_str_hash (tl_inspector_selected (self->inspector)) | 1u);
  else
    return FALSE;
  gtk_widget_queue_draw (widget);
  return TRUE;
}

static gboolean
point_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);
  TlPictureView    view = tl_picture_canvas_view (self);
  guint            most;
  double           x, y;

  if (!is_ready (self) || !has_tool (self, NULL))
    return FALSE;
  ensure_cross (self);
  tl_inspector_tool_points (self->inspector, &most);
  tl_picture_view_map (&view, self->cross, &x, &y);
  if (most == 0 && is_on_last (self, x, y))
    tl_picture_canvas_finish (self);
  else
    tl_picture_canvas_add_point (self, self->cross);
  return TRUE;
}

static gboolean
back_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);

  if (self->points->len == 0)
    return FALSE;
  g_array_set_size (self->points, self->points->len - 1);
  tl_picture_canvas_say (self);
  gtk_widget_queue_draw (widget);
  return TRUE;
}

/* What is begun goes first, then the draft, the tool, the selection. */
static gboolean
cancel_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);

  if (!is_ready (self))
    return FALSE;
  if (self->points->len > 0)
    tl_picture_canvas_drop_points (self);
  else if (has_tool (self, NULL))
    tl_inspector_set_tool (self->inspector, TL_TOOL_SELECT, 0);
  else if (tl_inspector_draft (self->inspector) != NULL)
    tl_inspector_drop_draft (self->inspector);
  else if (tl_inspector_selected (self->inspector) != NULL)
    tl_inspector_select (self->inspector, NULL);
  else
    return FALSE;
  return TRUE;
}

static gboolean
remove_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);

  if (!is_ready (self) || tl_inspector_selected (self->inspector) == NULL)
    return FALSE;
  tl_inspector_remove (self->inspector, tl_inspector_selected (self->inspector));
  return TRUE;
}

/* All that lies in this picture, in the order of marks, measures, scales. */
static GPtrArray *
ids_here (TlPictureCanvas *self)
{
  GPtrArray          *ids = g_ptr_array_new ();
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);
  const TlPhoto      *photo = tl_inspector_photo (self->inspector);
  const GPtrArray    *lists[3] = { NULL };

  if (inspection == NULL)
    return ids;
  lists[0] = inspection->marks;
  lists[1] = inspection->measures;
  lists[2] = inspection->scales;
  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    for (guint i = 0; i < lists[k]->len; i++)
      {
        gpointer record = g_ptr_array_index (lists[k], i);

        if (strcmp (tl_record_picture (record), photo->id) == 0)
          g_ptr_array_add (ids, k == 0   ? ((TlPictureMark *) record)->id
                                : k == 1 ? ((TlMeasure *) record)->id
                                         : ((TlScale *) record)->id);
      }
  return ids;
}

static gboolean
walk_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);
  g_autoptr (GPtrArray) ids = NULL;
  const char *selected;
  gint        at = -1, step;

  if (!is_ready (self))
    return FALSE;
  ids = ids_here (self);
  if (ids->len == 0)
    return FALSE;
  selected = tl_inspector_selected (self->inspector);
  g_variant_get (args, "(i)", &step);
  for (guint i = 0; selected != NULL && i < ids->len; i++)
    if (strcmp (g_ptr_array_index (ids, i), selected) == 0)
      at = (gint) i;
  at = at < 0 ? (step > 0 ? 0 : (gint) ids->len - 1)
              : (at + step + (gint) ids->len) % (gint) ids->len;
  tl_inspector_select (self->inspector, g_ptr_array_index (ids, at));
  return TRUE;
}

/* Space: the next point of what is selected, after the last one all of it. */
static gboolean
handle_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);
  gconstpointer    record;
  GArray          *points;

  if (!is_ready (self))
    return FALSE;
  if (has_tool (self, NULL))
    return point_key (widget, args, data);
  record = tl_inspector_record (self->inspector, tl_inspector_selected (self->inspector));
  points = record == NULL ? NULL : tl_record_points (record);
  if (points == NULL)
    return FALSE;
  self->handle = self->handle + 1 >= (gint) points->len ? -1 : self->handle + 1;
  gtk_widget_queue_draw (widget);
  return TRUE;
}

/* A letter takes a tool in hand: the canvas has no text to type. */
static gboolean
tool_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  TlPictureCanvas *self = TL_PICTURE_CANVAS (widget);
  guint            tool, detail;

  if (!is_ready (self))
    return FALSE;
  g_variant_get (args, "(uu)", &tool, &detail);
  tl_inspector_set_tool (self->inspector, (TlTool) tool, detail);
  return TRUE;
}

static void
install_tools (GtkWidgetClass *klass)
{
  static const struct
  {
    guint  key;
    TlTool tool;
    guint  detail;
  } tools[] = {
    { GDK_KEY_s, TL_TOOL_SCALE, TL_SCALE_LENGTH },
    { GDK_KEY_q, TL_TOOL_SCALE, TL_SCALE_RECTANGLE },
    { GDK_KEY_l, TL_TOOL_MEASURE, TL_MEASURE_LENGTH },
    { GDK_KEY_w, TL_TOOL_MEASURE, TL_MEASURE_WIDTH },
    { GDK_KEY_g, TL_TOOL_MEASURE, TL_MEASURE_GAP },
    { GDK_KEY_d, TL_TOOL_MEASURE, TL_MEASURE_DIAMETER },
    { GDK_KEY_a, TL_TOOL_MEASURE, TL_MEASURE_ANGLE },
    { GDK_KEY_e, TL_TOOL_MEASURE, TL_MEASURE_AREA },
    { GDK_KEY_m, TL_TOOL_MARK, TL_OUTLINE_POINT },
    { GDK_KEY_b, TL_TOOL_MARK, TL_OUTLINE_BOX },
    { GDK_KEY_f, TL_TOOL_MARK, TL_OUTLINE_FREEHAND },
  };

  for (guint i = 0; i < G_N_ELEMENTS (tools); i++)
    gtk_widget_class_add_binding (klass, tools[i].key, 0, tool_key, "(uu)", (guint) tools[i].tool,
                                  tools[i].detail);
}

void
tl_picture_canvas_install_keys (GtkWidgetClass *klass)
{
  static const struct
  {
    guint  key;
    double dx, dy;
  } arrows[] = {
    { GDK_KEY_Left, -1, 0 }, { GDK_KEY_Right, 1, 0 }, { GDK_KEY_Up, 0, -1 }, { GDK_KEY_Down, 0, 1 }
  };

  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    {
      gtk_widget_class_add_binding (klass, arrows[i].key, 0, step_key, "(dds)", arrows[i].dx,
                                    arrows[i].dy, "step");
      gtk_widget_class_add_binding (klass, arrows[i].key, GDK_SHIFT_MASK, step_key, "(dds)",
                                    arrows[i].dx, arrows[i].dy, "large");
      gtk_widget_class_add_binding (klass, arrows[i].key, GDK_CONTROL_MASK, step_key, "(dds)",
                                    arrows[i].dx, arrows[i].dy, "fine");
    }
  gtk_widget_class_add_binding (klass, GDK_KEY_Return, 0, point_key, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_KP_Enter, 0, point_key, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_space, 0, handle_key, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_BackSpace, 0, back_key, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_Escape, 0, cancel_key, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_Delete, 0, remove_key, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_n, 0, walk_key, "(i)", 1);
  gtk_widget_class_add_binding (klass, GDK_KEY_p, 0, walk_key, "(i)", -1);
  install_tools (klass);
}
