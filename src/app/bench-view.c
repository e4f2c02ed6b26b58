/* bench-view.c: the drawing that the bench shows, how large, and what the bench tells others.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

enum
{
  EDIT,
  EXPLAIN,
  CONTACT,
  HOVER,
  PREVIEW,
  OVERLAY,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* Pixels for one millimetre on the screen. */
static const double PX_PER_MM = 96.0 / 25.4;
static const double ZOOM_STEP = 1.25;
/* px for one mm of the joint: a 100 mm joint in a narrow window, and 0.1 mm well seen */
static const double ZOOM_LEAST = 1.0;
static const double ZOOM_MOST = 200.0;

/* --- drawing --- */
void
tl_bench_overlay_options (TlBench *self, TlDrawingOptions *options)
{
  options->overlay = self->overlay;
  options->field = self->field;
}

static void
fill_options (TlBench *self, TlDrawingOptions *options, int width, int height)
{
  const TlBenchDrag *drag = &self->drag;

  tl_drawing_options_init (options);
  options->width = width;
  options->height = height;
  options->unit = PX_PER_MM;
  options->zoom = self->zoom;
  options->pan_x = self->pan_x;
  options->pan_y = self->pan_y;
  options->show_section = self->show_section;
  options->show_end_view = self->show_end_view;
  options->show_numbers = options->show_dimensions = options->show_legend = TRUE;
  options->show_contacts = options->show_scale_bar = options->show_frame = TRUE;
  options->selected = tl_document_selected (self->document);
  options->selected_contact = -1;
  options->hovered_contact = self->hovered_contact;
  options->open_place = -1;
  tl_bench_overlay_options (self, options);
  if (!drag->is_active)
    return;
  options->places = drag->places;
  options->place_notes = (const char *const *) drag->notes->pdata;
  options->place_severities = (const TlSeverity *) (void *) drag->severities->data;
  options->open_place = drag->open;
  options->open_thickness_mm =
      self->opening_ratio * tl_facts_number (drag->facts, TL_FIELD_THICKNESS, 1.0);
  options->pointer_x = drag->by_keyboard ? -1e6 : drag->x;
  options->pointer_y = drag->by_keyboard ? -1e6 : drag->y;
  options->lifted = drag->owner;
}

void
tl_bench_draw_anew (TlBench *self, int width, int height)
{
  TlDrawingOptions options;

  g_clear_pointer (&self->drawing, tl_drawing_free);
  if (self->document == NULL)
    return;
  fill_options (self, &options, width, height);
  self->drawing = tl_drawing_new (tl_document_verdict (self->document), &options,
                                  tl_document_language (self->document));
  self->drawn_width = width;
  self->drawn_height = height;
}

void
tl_bench_lay_out (TlBench *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self)),
      height = gtk_widget_get_height (GTK_WIDGET (self));

  /* Before the first allocation any size serves: only the list of items is wanted. */
  tl_bench_draw_anew (self, width > 0 ? width : 640, height > 0 ? height : 480);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

double
tl_bench_scale (TlBench *self)
{
  return self->drawing == NULL ? 0.0 : tl_drawing_scale (self->drawing);
}

void
tl_bench_zoom (TlBench *self, const char *how)
{
  double scale = tl_bench_scale (self);

  if (g_str_equal (how, "fit") || scale <= 0.0)
    self->zoom = self->pan_x = self->pan_y = 0.0;
  else
    {
      double ratio = g_str_equal (how, "in") ? ZOOM_STEP : 1.0 / ZOOM_STEP;

      self->zoom = CLAMP (scale * ratio, ZOOM_LEAST, ZOOM_MOST);
      self->pan_x *= self->zoom / scale;
      self->pan_y *= self->zoom / scale;
    }
  tl_bench_lay_out (self);
}

void
tl_bench_set_hovered_contact (TlBench *self, gint contact)
{
  if (contact == self->hovered_contact)
    return;
  self->hovered_contact = contact;
  tl_bench_lay_out (self);
}

/* --- signals --- */
static guint
new_signal (const char *name, GType type)
{
  return type == G_TYPE_NONE ? g_signal_new (name, TL_TYPE_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                             NULL, G_TYPE_NONE, 0)
                             : g_signal_new (name, TL_TYPE_BENCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                             NULL, G_TYPE_NONE, 1, type);
}

void
tl_bench_install_signals (void)
{
  signals[EDIT] = new_signal ("edit", G_TYPE_NONE);
  signals[EXPLAIN] = new_signal ("explain", G_TYPE_STRING);
  signals[CONTACT] = new_signal ("contact", G_TYPE_UINT);
  signals[HOVER] = new_signal ("hover", G_TYPE_INT);
  signals[PREVIEW] = new_signal ("preview", G_TYPE_POINTER);
  signals[OVERLAY] = new_signal ("overlay", G_TYPE_NONE);
}

void
tl_bench_emit_preview (TlBench *self, const TlVerdict *verdict)
{
  g_signal_emit (self, signals[PREVIEW], 0, verdict);
}

void
tl_bench_emit_overlay (TlBench *self)
{
  g_signal_emit (self, signals[OVERLAY], 0);
}

void
tl_bench_emit_edit (TlBench *self)
{
  g_signal_emit (self, signals[EDIT], 0);
}

void
tl_bench_emit_explain (TlBench *self, const char *owner)
{
  g_signal_emit (self, signals[EXPLAIN], 0, owner);
}

void
tl_bench_emit_contact (TlBench *self, guint contact)
{
  g_signal_emit (self, signals[CONTACT], 0, contact);
}

void
tl_bench_emit_hover (TlBench *self, gint contact)
{
  if (contact == self->hovered_contact)
    return;
  tl_bench_set_hovered_contact (self, contact);
  g_signal_emit (self, signals[HOVER], 0, contact);
}
