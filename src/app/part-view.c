/* part-view.c: a part or a joint drawn small.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/part-view.h"

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

/* The caption of a view stands in its first line; a small drawing leaves that line empty. */
static const double CAPTION_PX = 26.0;

static void
lay_out (TlPartView *self, int width, int height)
{
  TlDrawingOptions options;

  g_clear_pointer (&self->drawing, tl_drawing_free);
  if (self->verdict == NULL || width < 8 || height < 8 + self->free_top_px)
    return;
  tl_drawing_options_init (&options);
  options.width = width;
  options.height = height - self->free_top_px + CAPTION_PX;
  options.unit = 96.0 / 25.4;
  options.zoom = self->px_per_mm;
  /* At a scale of its own the middle is that of the area, caption and all. */
  options.pan_y = self->px_per_mm > 0.0 ? CAPTION_PX / 2.0 : 0.0;
  options.show_section = TRUE;
  options.show_end_view = options.show_numbers = options.show_dimensions = FALSE;
  options.show_legend = options.show_contacts = options.show_scale_bar = options.show_frame = FALSE;
  options.selected_contact = options.hovered_contact = options.open_place = -1;
  self->drawing = tl_drawing_new (self->verdict, &options, tl_language_plain ());
  self->drawn_width = width;
  self->drawn_height = height;
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
