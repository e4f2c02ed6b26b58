/* bench-picture.c: the drawing for other programs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-picture.h"

#include "app/bench-private.h"

/* A sheet's drawing field in the proportion of a slide. */
static const double WIDTH_MM = 200.0;
static const double HEIGHT_MM = 150.0;
/* Size of the picture under the pointer */
static const int    ICON_PX = 160;

static void
paint (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
       gpointer data)
{
  TlBench *self = data;
  g_autoptr (TlDrawing) drawing = NULL;
  TlDrawingOptions options;

  tl_drawing_options_init (&options);
  options.unit = unit;
  options.width = width;
  options.height = height;
  options.show_section = self->show_section;
  options.show_end_view = self->show_end_view;
  tl_bench_overlay_options (self, &options);
  drawing = tl_drawing_new (tl_document_verdict (self->document), &options,
                            tl_document_language (self->document));
  tl_drawing_paint (drawing, cr, palette);
}

GBytes *
tl_bench_picture (TlBench *self, TlPictureKind kind, GError **error)
{
  return tl_picture_to_bytes (paint, self, kind, WIDTH_MM, HEIGHT_MM, TL_SCHEME_LIGHT,
                              tl_document_language (self->document), error);
}

static GdkContentProvider *
provide_texture (TlBench *self, GError **error)
{
  g_autoptr (GBytes) png = tl_bench_picture (self, TL_PICTURE_PNG, error);
  g_autoptr (GdkTexture) texture = png == NULL ? NULL : gdk_texture_new_from_bytes (png, error);

  return texture == NULL ? NULL : gdk_content_provider_new_typed (GDK_TYPE_TEXTURE, texture);
}

static GdkContentProvider *
provide_svg (TlBench *self, GError **error)
{
  g_autoptr (GBytes) svg = tl_bench_picture (self, TL_PICTURE_SVG, error);

  return svg == NULL ? NULL : gdk_content_provider_new_for_bytes ("image/svg+xml", svg);
}

GdkContentProvider *
tl_bench_content (TlBench *self, GError **error)
{
  g_autofree char    *words = tl_drawing_describe (tl_document_verdict (self->document),
                                                   tl_document_language (self->document));
  GdkContentProvider *provided[3] = { provide_texture (self, error), NULL, NULL };

  if (provided[0] == NULL)
    return NULL;
  provided[1] = provide_svg (self, error);
  if (provided[1] == NULL)
    {
      g_object_unref (provided[0]);
      return NULL;
    }
  provided[2] = gdk_content_provider_new_typed (G_TYPE_STRING, words);
  return gdk_content_provider_new_union (provided, G_N_ELEMENTS (provided));
}

gboolean
tl_bench_copy (TlBench *self, TlPictureKind kind, GError **error)
{
  g_autoptr (GdkContentProvider) content =
      kind == TL_PICTURE_SVG ? provide_svg (self, error) : provide_texture (self, error);

  return content != NULL
         && gdk_clipboard_set_content (gtk_widget_get_clipboard (GTK_WIDGET (self)), content);
}

/* --- dragging out --- */
static GdkContentProvider *
on_prepare (GtkDragSource *source, double x, double y, TlBench *self)
{
  g_autoptr (GError) error = NULL;
  GdkContentProvider *content;

  if (self->document == NULL)
    return NULL;
  content = tl_bench_content (self, &error);
  if (content == NULL)
    tl_document_refuse (self->document, error->message);
  return content;
}

static void
on_begin (GtkDragSource *source, GdkDrag *drag, TlBench *self)
{
  g_autoptr (GBytes) png = tl_bench_picture (self, TL_PICTURE_PNG, NULL);
  g_autoptr (GdkTexture) texture = png == NULL ? NULL : gdk_texture_new_from_bytes (png, NULL);
  GtkWidget *icon = gtk_drag_icon_get_for_drag (drag), *image;

  if (texture == NULL)
    return;
  image = gtk_image_new_from_paintable (GDK_PAINTABLE (texture));
  gtk_image_set_pixel_size (GTK_IMAGE (image), ICON_PX);
  gtk_drag_icon_set_child (GTK_DRAG_ICON (icon), image);
}

void
tl_bench_drag_out (TlBench *self, GtkWidget *handle)
{
  GtkDragSource *source = gtk_drag_source_new ();

  /* Before the button below it takes the press for a click. */
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (source), GTK_PHASE_CAPTURE);
  gtk_drag_source_set_actions (source, GDK_ACTION_COPY);
  g_signal_connect_object (source, "prepare", G_CALLBACK (on_prepare), self, 0);
  g_signal_connect_object (source, "drag-begin", G_CALLBACK (on_begin), self, 0);
  gtk_widget_add_controller (handle, GTK_EVENT_CONTROLLER (source));
}
