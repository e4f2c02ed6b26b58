/* part-view.c: a part or a joint drawn small.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/part-view.h"

#include <math.h>

struct _TlPartView
{
  GtkWidget parent_instance;

  TlStock   *stock;
  TlPartKind kind;
  TlFacts   *facts;
  TlVerdict *verdict;
  TlDrawing *drawing;
  int        drawn_width, drawn_height;
  double     free_top_px;
  double     px_per_mm; /* 0: fitted */
  gboolean   is_movable;
  gboolean   is_cut;       /* the drawing is larger than its field */
  double     pan_x, pan_y; /* px from where its middle is in the middle */
  double     pan_from_x, pan_from_y;
};

G_DEFINE_FINAL_TYPE (TlPartView, tl_part_view, GTK_TYPE_WIDGET)

static void
tl_part_view_clear (TlPartView *self)
{
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->facts, tl_facts_unref);
  g_clear_pointer (&self->verdict, tl_verdict_unref);
  g_clear_pointer (&self->drawing, tl_drawing_free);
}

static void
tl_part_view_dispose (GObject *object)
{
  tl_part_view_clear (TL_PART_VIEW (object));
  G_OBJECT_CLASS (tl_part_view_parent_class)->dispose (object);
}

/* How near an end of the drawing may come to the edge of its field; a step of a key; one of the wheel. */
static const double EDGE_PX = 8.0, KEY_PX = 24.0, SCROLL_PX = 40.0;

/* The caption of a view stands in its first line; a small drawing leaves that line empty. */
static const double CAPTION_PX = 26.0;

static void
lay_out_once (TlPartView *self, int width, int height)
{
  TlDrawingOptions options;

  g_clear_pointer (&self->drawing, tl_drawing_free);
  tl_drawing_options_init (&options);
  options.width = width;
  options.height = height - self->free_top_px + CAPTION_PX;
  options.unit = 96.0 / 25.4;
  options.zoom = self->px_per_mm;
  /* At a scale of its own the middle is that of the area, caption and all. */
  options.pan_x = self->pan_x;
  options.pan_y = self->pan_y + (self->px_per_mm > 0.0 ? CAPTION_PX / 2.0 : 0.0);
  options.show_section = TRUE;
  options.show_end_view = options.show_numbers = options.show_dimensions = FALSE;
  options.show_legend = options.show_contacts = options.show_scale_bar = options.show_frame = FALSE;
  options.selected_contact = options.hovered_contact = options.open_place = -1;
  self->drawing = tl_drawing_new (self->verdict, &options, tl_language_plain ());
  self->drawn_width = width;
  self->drawn_height = height;
}

/* What is drawn along one axis, from @low to @high, against a field from 0 to @size: how far it has to be moved so that it
 * fills the field, or %FALSE if it has room. */
static gboolean
is_cut_along (double low, double high, double size, double *move)
{
  *move = low > EDGE_PX ? EDGE_PX - low : high < size - EDGE_PX ? size - EDGE_PX - high : 0.0;
  return high - low > size;
}

/* Ends come no further in than a little from the edge; along an axis with room all of it stays in the middle. */
static gboolean
keep_in_field (TlPartView *self, double width, double height)
{
  const GArray *items = tl_drawing_items (self->drawing);
  double        x0 = HUGE_VAL, x1 = -HUGE_VAL, y0 = HUGE_VAL, y1 = -HUGE_VAL, move_x, move_y;
  gboolean      cut_x, cut_y;

  for (guint i = 0; i < items->len; i++)
    {
      const TlItem *item = &g_array_index (items, TlItem, i);

      if (item->kind != TL_ITEM_BODY)
        continue;
      x0 = MIN (x0, item->x);
      x1 = MAX (x1, item->x + item->width);
      y0 = MIN (y0, item->y - CAPTION_PX);
      y1 = MAX (y1, item->y + item->height - CAPTION_PX);
    }
  cut_x = is_cut_along (x0, x1, width, &move_x);
  cut_y = is_cut_along (y0, y1, height, &move_y);
  self->is_cut = cut_x || cut_y;
  if (!cut_x)
    move_x = -self->pan_x;
  if (!cut_y)
    move_y = -self->pan_y;
  if (!self->is_cut || (self->pan_x == 0.0 && self->pan_y == 0.0)
      || (move_x == 0.0 && move_y == 0.0))
    return TRUE;
  self->pan_x += move_x;
  self->pan_y += move_y;
  return FALSE;
}

static void
lay_out (TlPartView *self, int width, int height)
{
  if (self->verdict == NULL || width < 8 || height < 8 + self->free_top_px)
    {
      g_clear_pointer (&self->drawing, tl_drawing_free);
      return;
    }
  if (self->px_per_mm <= 0.0)
    self->pan_x = self->pan_y = 0.0;
  lay_out_once (self, width, height);
  if (!self->is_movable)
    return;
  self->is_cut = FALSE;
  if (self->px_per_mm > 0.0 && !keep_in_field (self, width, height))
    lay_out_once (self, width, height);
  /* Only what can be moved is a stop for the Tab key. */
  gtk_widget_set_focusable (GTK_WIDGET (self), self->is_cut);
  gtk_widget_set_can_target (GTK_WIDGET (self), self->is_cut);
}

/* --- moving it --- */

void
tl_part_view_move (TlPartView *self, double dx_px, double dy_px)
{
  if (!self->is_cut)
    return;
  self->pan_x += dx_px;
  self->pan_y += dy_px;
  lay_out (self, gtk_widget_get_width (GTK_WIDGET (self)),
           gtk_widget_get_height (GTK_WIDGET (self)));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
tl_part_view_is_cut (TlPartView *self)
{
  return self->is_cut;
}

static void
on_drag_begin (GtkGestureDrag *gesture, double x, double y, TlPartView *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->pan_from_x = self->pan_x;
  self->pan_from_y = self->pan_y;
}

static void
on_drag_update (GtkGestureDrag *gesture, double dx, double dy, TlPartView *self)
{
  tl_part_view_move (self, self->pan_from_x + dx - self->pan_x,
                     self->pan_from_y + dy - self->pan_y);
}

static gboolean
on_scroll (GtkEventControllerScroll *controller, double dx, double dy, TlPartView *self)
{
  tl_part_view_move (self, -dx * SCROLL_PX, -dy * SCROLL_PX);
  return self->is_cut;
}

/* An arrow shows more of the side that it points to. */
static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        TlPartView *self)
{
  double dx = 0.0, dy = 0.0;

  if (!self->is_cut || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (key)
    {
    case GDK_KEY_Left:
      dx = KEY_PX;
      break;
    case GDK_KEY_Right:
      dx = -KEY_PX;
      break;
    case GDK_KEY_Up:
      dy = KEY_PX;
      break;
    case GDK_KEY_Down:
      dy = -KEY_PX;
      break;
    case GDK_KEY_Home:
      dx = -self->pan_x;
      dy = -self->pan_y;
      break;
    default:
      return FALSE;
    }
  tl_part_view_move (self, dx, dy);
  return TRUE;
}

static void
tl_part_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TlPartView *self = TL_PART_VIEW (widget);

  if (self->drawing == NULL || width != self->drawn_width || height != self->drawn_height)
    lay_out (self, width, height);
}

static void
tl_part_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlPartView     *self = TL_PART_VIEW (widget);
  double          width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  cairo_t        *cr = gtk_snapshot_append_cairo (snapshot, &area);

  if (self->drawing != NULL)
    {
      cairo_rectangle (cr, 0, self->free_top_px, width, height - self->free_top_px);
      cairo_clip (cr);
      cairo_translate (cr, 0, self->free_top_px - CAPTION_PX);
      tl_drawing_paint (self->drawing, cr, tl_theme_palette ());
    }
  else if (self->facts != NULL)
    tl_part_paint (cr, tl_theme_palette (), self->stock, self->kind, self->facts, width, height);
  cairo_destroy (cr);
}

static void
tl_part_view_class_init (TlPartViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_part_view_dispose;
  widget_class->snapshot = tl_part_view_snapshot;
  widget_class->size_allocate = tl_part_view_size_allocate;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
tl_part_view_init (TlPartView *self)
{
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  tl_theme_watch (GTK_WIDGET (self));
}

GtkWidget *
tl_part_view_new (void)
{
  return g_object_new (TL_TYPE_PART_VIEW, NULL);
}

GtkWidget *
tl_part_view_new_movable (const char *name)
{
  TlPartView *self =
      g_object_new (TL_TYPE_PART_VIEW, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);
  GtkGesture         *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new (),
                     *scroll =
                         gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  self->is_movable = TRUE;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grab");
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  return GTK_WIDGET (self);
}

void
tl_part_view_show_part (TlPartView *self, const TlStock *stock, TlPartKind kind,
                        const TlFacts *facts)
{
  tl_part_view_clear (self);
  if (facts != NULL)
    {
      self->stock = tl_stock_ref (stock);
      self->facts = tl_facts_ref (facts);
      self->kind = kind;
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_part_view_set_scale (TlPartView *self, double px_per_mm)
{
  if (self->px_per_mm == px_per_mm)
    return;
  /* The place in the middle stays there. */
  if (self->px_per_mm > 0.0)
    {
      self->pan_x *= px_per_mm / self->px_per_mm;
      self->pan_y *= px_per_mm / self->px_per_mm;
    }
  self->px_per_mm = px_per_mm;
  lay_out (self, gtk_widget_get_width (GTK_WIDGET (self)),
           gtk_widget_get_height (GTK_WIDGET (self)));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

double
tl_part_view_scale (TlPartView *self)
{
  return self->drawing == NULL ? 0.0 : tl_drawing_scale (self->drawing);
}

const TlDrawing *
tl_part_view_drawing (TlPartView *self)
{
  return self->drawing;
}

void
tl_part_view_set_free_top (TlPartView *self, double top_px)
{
  self->free_top_px = top_px;
  lay_out (self, gtk_widget_get_width (GTK_WIDGET (self)),
           gtk_widget_get_height (GTK_WIDGET (self)));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_part_view_show_joint (TlPartView *self, const TlVerdict *verdict)
{
  tl_part_view_clear (self);
  self->verdict = verdict == NULL ? NULL : tl_verdict_ref (verdict);
  lay_out (self, gtk_widget_get_width (GTK_WIDGET (self)),
           gtk_widget_get_height (GTK_WIDGET (self)));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
