/* margin-cell.c: a margin as a cell of the title block, with its bar.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/margin-cell.h"

#include "app/labelled.h"
#include "app/mark-view.h"

#include <glib/gi18n.h>
#include <math.h>

/* The bar alone. Its length shows the figure; the limit stands at two thirds. */
#define TL_TYPE_MARGIN_BAR (tl_margin_bar_get_type ())
G_DECLARE_FINAL_TYPE (TlMarginBar, tl_margin_bar, TL, MARGIN_BAR, GtkWidget)

struct _TlMarginBar
{
  GtkWidget parent_instance;

  gboolean has_bar, has_preview;
  double   share, preview_share; /* of the width */
  TlMark   mark;
};

G_DEFINE_FINAL_TYPE (TlMarginBar, tl_margin_bar, GTK_TYPE_WIDGET)

static const double LIMIT_SHARE = 2.0 / 3.0;

static void
tl_margin_bar_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  static const double dashes[] = { 3, 2 };
  TlMarginBar        *self = TL_MARGIN_BAR (widget);
  double           width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t  area = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  const TlPalette *palette = tl_theme_palette ();
  cairo_t         *cr = gtk_snapshot_append_cairo (snapshot, &area);
  double           top = height / 2 - 3;

  tl_paint_set_colour (cr, palette->hair);
  cairo_set_line_width (cr, 1);
  cairo_rectangle (cr, 0.5, top + 0.5, width - 1, 5);
  cairo_stroke (cr);
  if (self->has_bar)
    {
      tl_paint_edge (cr, palette, self->mark, 1, top + 1, (width - 2) * self->share, 4);
      tl_paint_set_colour (cr, palette->ink);
      cairo_set_line_width (cr, 1.6);
      cairo_move_to (cr, width * LIMIT_SHARE, top - 3);
      cairo_line_to (cr, width * LIMIT_SHARE, top + 9);
      cairo_stroke (cr);
    }
  if (self->has_preview)
    {
      tl_paint_set_colour (cr, palette->select);
      cairo_set_line_width (cr, 1.4);
      cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
      cairo_rectangle (cr, 0.7, top - 1, MAX (6, width * self->preview_share - 1.4), 8);
      cairo_stroke (cr);
    }
  cairo_destroy (cr);
}

static void
tl_margin_bar_class_init (TlMarginBarClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = tl_margin_bar_snapshot;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
tl_margin_bar_init (TlMarginBar *self)
{
  gtk_widget_set_size_request (GTK_WIDGET (self), -1, 14);
  tl_theme_watch (GTK_WIDGET (self));
}

/* --- the cell --- */
struct _TlMarginCell
{
  GtkWidget parent_instance;

  TlMargin     margin;
  TlMarkView  *mark;
  GtkLabel    *figure;
  GtkLabel    *limit;
  TlMarginBar *bar;
};

G_DEFINE_FINAL_TYPE (TlMarginCell, tl_margin_cell, GTK_TYPE_WIDGET)

static const char *const labels[TL_N_MARGINS] = { N_ ("galvanic"), N_ ("heat"), N_ ("grip"),
                                                  N_ ("seal") };

/* Where a figure ends on a bar whose limit stands at two thirds. */
static gboolean
figure_share (const TlFigure *figure, double *share)
{
  if (!isfinite (figure->limit) || figure->limit <= 0.0)
    return FALSE;
  *share = CLAMP (figure->value.best / figure->limit * LIMIT_SHARE, 0.03, 1.0);
  return TRUE;
}

static void
tl_margin_cell_dispose (GObject *object)
{

  tl_widget_clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (tl_margin_cell_parent_class)->dispose (object);
}

/* Two margins are read off a chart of the joint as it is: the ladder of potentials, the heat along it. */
static gboolean
has_chart (TlMarginCell *self)
{
  return self->margin == TL_MARGIN_GALVANIC || self->margin == TL_MARGIN_HEAT;
}

static gboolean
on_open (GtkWidget *widget, GVariant *args, gpointer data)
{
  if (!has_chart (TL_MARGIN_CELL (widget)))
    return FALSE;
  gtk_widget_activate_action (widget, "win.chart", NULL);
  return TRUE;
}

static void
on_click (GtkGestureClick *gesture, int n_press, double x, double y, TlMarginCell *self)
{
  on_open (GTK_WIDGET (self), NULL, NULL);
}

static void
make_link (TlMarginCell *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), _ ("Show it in a chart"));
  gtk_widget_add_css_class (GTK_WIDGET (self), "margin-link");
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "pointer");
  g_signal_connect (click, "released", G_CALLBACK (on_click), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}

static void
tl_margin_cell_class_init (TlMarginCellClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_margin_cell_dispose;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Return, 0, on_open, NULL);
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_space, 0, on_open, NULL);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_METER);
}

static GtkLabel *
add_label (GtkWidget *box, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_add_css_class (label, style);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  /* A long figure must not widen the pane. */
  gtk_label_set_max_width_chars (GTK_LABEL (label), 7);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static void
tl_margin_cell_init (TlMarginCell *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1),
            *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);

  gtk_widget_add_css_class (GTK_WIDGET (self), "cell");
  gtk_widget_set_hexpand (box, TRUE);
  gtk_widget_set_parent (box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (box), head);
  gtk_widget_set_hexpand (GTK_WIDGET (add_label (head, "label-text")), TRUE);
  self->mark = TL_MARK_VIEW (tl_mark_view_new (14));
  gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->mark));
  self->figure = add_label (box, "figure");
  gtk_label_set_lines (self->figure, 2);
  self->bar = g_object_new (TL_TYPE_MARGIN_BAR, NULL);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->bar));
  self->limit = add_label (box, "label-text");
  gtk_label_set_wrap (self->limit, TRUE);
  gtk_label_set_lines (self->limit, 3);
}

GtkWidget *
tl_margin_cell_new (TlMargin margin)
{
  TlMarginCell *self = g_object_new (TL_TYPE_MARGIN_CELL, NULL);
  GtkWidget    *head = gtk_widget_get_first_child (gtk_widget_get_first_child (GTK_WIDGET (self)));

  self->margin = margin;
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_first_child (head)), _ (labels[margin]));
  if (has_chart (self))
    make_link (self);
  return GTK_WIDGET (self);
}

void
tl_margin_cell_show (TlMarginCell *self, const TlVerdict *verdict, const TlLanguage *language)
{
  const TlFigure  *figure = &verdict->margins[self->margin];
  gboolean         has = verdict->has_margin[self->margin];
  g_autofree char *value = tl_wording_margin (verdict, self->margin, language);
  g_autofree char *limit = tl_wording_margin_limit (verdict, self->margin, language);
  g_autofree char *text = g_strdup_printf ("%s, %s", value, limit);
  TlMark           mark = has ? tl_theme_mark (TRUE, figure->severity) : TL_MARK_NOT_COMPUTED;

  gtk_label_set_text (self->figure, value);
  /* Words may take two lines; a figure stays whole on one. */
  gtk_label_set_wrap (self->figure, !has);
  if (has)
    gtk_widget_remove_css_class (GTK_WIDGET (self->figure), "figure-words");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->figure), "figure-words");
  gtk_label_set_text (self->limit, limit);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), text);
  tl_mark_view_show_mark (self->mark, mark);
  self->bar->has_bar = has && figure_share (figure, &self->bar->share);
  self->bar->mark = mark;
  gtk_widget_queue_draw (GTK_WIDGET (self->bar));
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (labels[self->margin]),
      GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, 0.0, GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, 1.0,
      GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, self->bar->has_bar ? self->bar->share : 0.0,
      GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, text, -1);
}

void
tl_margin_cell_preview (TlMarginCell *self, const TlVerdict *verdict)
{
  self->bar->has_preview =
      verdict != NULL && verdict->has_margin[self->margin]
      && figure_share (&verdict->margins[self->margin], &self->bar->preview_share);
  gtk_widget_queue_draw (GTK_WIDGET (self->bar));
}
