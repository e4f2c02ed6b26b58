/* status.c: the window's state as JSON, for tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/status.h"

#include <json-glib/json-glib.h>
#include <stdio.h>

static const char *const LAST = "tl-status-last";

static void
add_rectangle (JsonBuilder *builder, const char *name, GtkWidget *window, double x, double y,
               double width, double height)
{
  double dx, dy;

  gtk_native_get_surface_transform (GTK_NATIVE (window), &dx, &dy);
  json_builder_set_member_name (builder, name);
  json_builder_begin_array (builder);
  json_builder_add_int_value (builder, (gint64) (x + dx));
  json_builder_add_int_value (builder, (gint64) (y + dy));
  json_builder_add_int_value (builder, (gint64) width);
  json_builder_add_int_value (builder, (gint64) height);
  json_builder_end_array (builder);
}

typedef struct
{
  JsonBuilder *builder;
  GtkWidget   *window;
} PartVisit;

static void
add_part (GtkWidget *row, const TlPart *part, gpointer data)
{
  PartVisit      *visit = data;
  graphene_rect_t at;

  if (gtk_widget_compute_bounds (row, visit->window, &at))
    add_rectangle (visit->builder, part->id, visit->window, (double) at.origin.x,
                   (double) at.origin.y, (double) at.size.width, (double) at.size.height);
}

static void
add_items (JsonBuilder *builder, TlBench *bench, GtkWidget *window, TlItemKind kind)
{
  const GArray *items =
      tl_bench_drawing (bench) == NULL ? NULL : tl_drawing_items (tl_bench_drawing (bench));
  graphene_rect_t at;

  if (items == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (bench), window, &at))
    return;
  for (guint i = 0; i < items->len; i++)
    {
      const TlItem    *item = &g_array_index (items, TlItem, i);
      g_autofree char *name =
          item->owner == NULL ? g_strdup_printf ("%u", item->index) : g_strdup (item->owner);

      if (item->kind == kind)
        add_rectangle (builder, name, window, (double) at.origin.x + item->x,
                       (double) at.origin.y + item->y, item->width, item->height);
    }
}

static void
add_text (JsonBuilder *builder, const char *name, const char *text)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text == NULL ? "" : text);
}

static void
add_places (JsonBuilder *builder, TlWindow *window)
{
  TlBench  *bench = tl_build_page_bench (tl_window_build (window));
  PartVisit visit = { builder, GTK_WIDGET (window) };
  const struct
  {
    const char *name;
    TlItemKind  kind;
  } kinds[] = { { "bodies", TL_ITEM_BODY },
                { "contacts", TL_ITEM_CONTACT },
                { "places", TL_ITEM_PLACE } };

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      json_builder_set_member_name (builder, kinds[i].name);
      json_builder_begin_object (builder);
      add_items (builder, bench, GTK_WIDGET (window), kinds[i].kind);
      json_builder_end_object (builder);
    }
  json_builder_set_member_name (builder, "parts");
  json_builder_begin_object (builder);
  tl_parts_pane_foreach (tl_build_page_parts (tl_window_build (window)), add_part, &visit);
  json_builder_end_object (builder);
}

/* Where the picture lies, how large one pixel of it is, and what was drawn in it. */
static void
add_pictures (JsonBuilder *builder, TlWindow *window)
{
  TlPicturesPage     *page = tl_window_pictures (window);
  TlInspector        *inspector = tl_pictures_page_inspector (page);
  const TlInspection *inspection = tl_inspector_inspection (inspector);
  TlPictureCanvas    *canvas = tl_pictures_page_canvas (page);
  TlPictureView       view = tl_picture_canvas_view (canvas);
  const struct
  {
    const char *name;
    gint64      value;
  } counts[] = {
    { "photos", tl_inspector_inspections (inspector)->photos->len },
    { "scales", inspection == NULL ? 0 : inspection->scales->len },
    { "measures", inspection == NULL ? 0 : inspection->measures->len },
    { "marks", inspection == NULL ? 0 : inspection->marks->len },
    { "tool", (gint64) tl_inspector_tool (inspector, NULL) },
  };
  graphene_rect_t at;

  json_builder_set_member_name (builder, "pictures");
  json_builder_begin_object (builder);
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    {
      json_builder_set_member_name (builder, counts[i].name);
      json_builder_add_int_value (builder, counts[i].value);
    }
  add_text (builder, "selected", tl_inspector_selected (inspector));
  if (gtk_widget_get_mapped (GTK_WIDGET (canvas))
      && gtk_widget_compute_bounds (GTK_WIDGET (canvas), GTK_WIDGET (window), &at))
    add_rectangle (builder, "canvas", GTK_WIDGET (window), (double) at.origin.x + view.x,
                   (double) at.origin.y + view.y, view.scale * 1e6, 0.0);
  json_builder_end_object (builder);
}

static char *
describe (TlWindow *window)
{
  TlDocument *document = tl_window_document (window);
  TlBench    *bench =
      tl_window_has_made (window, "build") ? tl_build_page_bench (tl_window_build (window)) : NULL;
  const TlJoint *joint = tl_document_joint (document);
  GtkWidget     *focus = gtk_root_get_focus (GTK_ROOT (window));
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonNode) root = NULL;

  json_builder_begin_object (builder);
  /* No page is told before it is there: who waits for one may then use it. */
  add_text (builder, "page",
            tl_window_has_made (window, tl_window_page (window)) ? tl_window_page (window) : NULL);
  add_text (builder, "verdict",
            tl_window_has_made (window, tl_window_page (window))
                ? tl_verdict_word (tl_document_verdict (document))
                : NULL);
  json_builder_set_member_name (builder, "layers");
  json_builder_add_int_value (builder, joint->layers->len);
  json_builder_set_member_name (builder, "legs");
  json_builder_add_int_value (builder, joint->legs->len);
  add_text (builder, "selected", tl_document_selected (document));
  add_text (builder, "undo", tl_document_undo_label (document));
  add_text (builder, "redo", tl_document_redo_label (document));
  add_text (builder, "path", tl_document_path (document));
  json_builder_set_member_name (builder, "modified");
  json_builder_add_boolean_value (builder, tl_document_is_modified (document));
  json_builder_set_member_name (builder, "dragging");
  json_builder_add_boolean_value (builder, bench != NULL && tl_bench_is_dragging (bench));
  add_text (builder, "message", tl_window_last_message (window));
  add_text (builder, "preview", bench == NULL ? NULL : tl_bench_preview_word (bench));
  add_text (builder, "chosen", bench == NULL ? NULL : tl_bench_chosen_part (bench));
  add_text (builder, "focus", focus == NULL ? NULL : G_OBJECT_TYPE_NAME (focus));
  json_builder_set_member_name (builder, "examples");
  json_builder_add_int_value (builder,
                              tl_window_has_made (window, "first")
                                  ? (gint64) tl_first_page_example_count (tl_window_first (window))
                                  : 0);
  if (bench != NULL)
    add_places (builder, window);
  if (tl_window_has_made (window, "pictures"))
    add_pictures (builder, window);
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  return json_to_string (root, FALSE);
}

static void
on_frame (GdkFrameClock *clock, TlWindow *window)
{
  g_autofree char *line = describe (window);
  const char      *last = g_object_get_data (G_OBJECT (window), LAST);
  FILE            *file;

  if (g_strcmp0 (line, last) == 0)
    return;
  file = fopen (g_getenv ("TINLAP_STATUS_FILE"), "a");
  if (file == NULL)
    return;
  fprintf (file, "%s\n", line);
  fclose (file);
  g_object_set_data_full (G_OBJECT (window), LAST, g_steal_pointer (&line), g_free);
}

static void
on_realize (TlWindow *window)
{
  g_signal_connect_object (gtk_widget_get_frame_clock (GTK_WIDGET (window)), "after-paint",
                           G_CALLBACK (on_frame), window, 0);
}

void
tl_status_watch (TlWindow *window)
{
  if (g_getenv ("TINLAP_STATUS_FILE") != NULL)
    g_signal_connect (window, "realize", G_CALLBACK (on_realize), NULL);
}
