/* mark-view.c: marks, numbers, contact lines and edges as a widget.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/mark-view.h"

typedef enum
{
  SHOW_MARK,
  SHOW_NUMBER,
  SHOW_LINE,
  SHOW_EDGE,
} Show;

struct _TlMarkView
{
  GtkWidget parent_instance;

  gint     size;
  Show     show;
  TlMark   mark;
  guint    number;
  gboolean is_selected;
};

G_DEFINE_FINAL_TYPE (TlMarkView, tl_mark_view, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_SIZE,
};

/* Pixels for one millimetre on the screen, by which contact lines are drawn. */
static const double PX_PER_MM = 96.0 / 25.4;

static void
tl_mark_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlMarkView      *self = TL_MARK_VIEW (widget);
  double           width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t  area = GRAPHENE_RECT_INIT (-1, -1, (float) width + 2, (float) height + 2);
  const TlPalette *palette = tl_theme_palette ();
  cairo_t         *cr = gtk_snapshot_append_cairo (snapshot, &area);

  switch (self->show)
    {
    case SHOW_MARK:
      tl_paint_mark (cr, palette, self->mark, width / 2, height / 2, self->size);
      break;
    case SHOW_NUMBER:
      tl_paint_number (cr, palette, self->number, width / 2, height / 2, self->size,
                       self->is_selected);
      break;
    case SHOW_LINE:
      tl_paint_contact (cr, palette, self->mark, PX_PER_MM, 2, height / 2, width - 2, height / 2);
      break;
    case SHOW_EDGE:
      tl_paint_edge (cr, palette, self->mark, 0, 0, width, height);
      break;
    default:
      g_assert_not_reached ();
    }
  cairo_destroy (cr);
}

static void
tl_mark_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  TlMarkView *self = TL_MARK_VIEW (widget);

  *minimum = *natural = self->size;
  if ((self->show == SHOW_EDGE && orientation == GTK_ORIENTATION_VERTICAL)
      || (self->show == SHOW_LINE && orientation == GTK_ORIENTATION_HORIZONTAL))
    *minimum = *natural = 0;
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_mark_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SIZE)
    g_value_set_int (value, TL_MARK_VIEW (object)->size);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tl_mark_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SIZE)
    TL_MARK_VIEW (object)->size = g_value_get_int (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tl_mark_view_class_init (TlMarkViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->get_property = tl_mark_view_get_property;
  G_OBJECT_CLASS (klass)->set_property = tl_mark_view_set_property;
  widget_class->snapshot = tl_mark_view_snapshot;
  widget_class->measure = tl_mark_view_measure;
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), PROP_SIZE,
      g_param_spec_int ("size", NULL, NULL, 4, 64, 16,
                        G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS));
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
tl_mark_view_init (TlMarkView *self)
{
  self->size = 16;
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  tl_theme_watch (GTK_WIDGET (self));
}

GtkWidget *
tl_mark_view_new (gint size)
{
  return g_object_new (TL_TYPE_MARK_VIEW, "size", size, NULL);
}

void
tl_mark_view_show_mark (TlMarkView *self, TlMark mark)
{
  self->show = SHOW_MARK;
  self->mark = mark;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_mark_view_show_number (TlMarkView *self, guint number, gboolean is_selected)
{
  self->show = SHOW_NUMBER;
  self->number = number;
  self->is_selected = is_selected;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_mark_view_show_line (TlMarkView *self, TlMark mark)
{
  self->show = SHOW_LINE;
  self->mark = mark;
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
tl_mark_view_show_edge (TlMarkView *self, TlMark mark)
{
  self->show = SHOW_EDGE;
  self->mark = mark;
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_FILL);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
