/* picture-canvas-points.c: the shape in hand, the points that are moved, and what of them is said.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/picture-canvas-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static const double HANDLE_PX = 12.0; /* reach of a handle */

void
tl_picture_canvas_drop_points (TlPictureCanvas *self)
{
  g_array_set_size (self->points, 0);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tl_picture_canvas_finish (TlPictureCanvas *self)
{
  guint most, least = tl_inspector_tool_points (self->inspector, &most);
  g_autoptr (GArray) points = NULL;

  if (self->points->len < least)
    return;
  points = g_array_copy (self->points);
  tl_picture_canvas_drop_points (self);
  self->hold = TL_HOLD_NOTHING;
  tl_inspector_draw (self->inspector, points);
}

char *
tl_picture_canvas_hint (TlPictureCanvas *self)
{
  static const char *const ends[] = { N_ ("Click one end, then the other; Esc leaves."),
                                      N_ ("Now the other end.") };
  static const char *const widths[] = { N_ ("Click two points on one edge, then one on the other."),
                                        N_ ("A second point on the same edge."),
                                        N_ ("Now a point on the other edge.") };
  static const char *const corners[] = { N_ ("Click the four corners in order around."),
                                         N_ ("Second corner."), N_ ("Third corner."),
                                         N_ ("Last corner.") };
  static const char *const angles[] = {
    N_ ("Click a point on one arm, the apex, a point on the other arm."), N_ ("Now the apex."),
    N_ ("Now the other arm.")
  };
  static const char *const rims[] = { N_ ("Click three points on the rim, well apart."),
                                      N_ ("Second point on the rim."),
                                      N_ ("Third point on the rim.") };
  guint                    detail, n = self->points->len;
  TlTool                   tool = tl_inspector_tool (self->inspector, &detail);

  if (tool == TL_TOOL_SELECT)
    return g_strdup ("");
  if (tool == TL_TOOL_SCALE)
    return g_strdup (detail == TL_SCALE_RECTANGLE ? _ (corners[MIN (n, 3)]) : _ (ends[MIN (n, 1)]));
  if (tool == TL_TOOL_MEASURE && detail == TL_MEASURE_WIDTH)
    return g_strdup (_ (widths[MIN (n, 2)]));
  if (tool == TL_TOOL_MEASURE && detail == TL_MEASURE_ANGLE)
    return g_strdup (_ (angles[MIN (n, 2)]));
  if (tool == TL_TOOL_MEASURE && detail == TL_MEASURE_DIAMETER)
    return g_strdup (_ (rims[MIN (n, 2)]));
  if ((tool == TL_TOOL_MEASURE && detail == TL_MEASURE_AREA)
      || (tool == TL_TOOL_MARK && detail == TL_OUTLINE_POLYGON))
    return g_strdup (_ ("Click around it; Enter or a click on the last point ends."));
  if (tool == TL_TOOL_MARK && detail == TL_OUTLINE_FREEHAND)
    return g_strdup (_ ("Draw with the button held down."));
  if (tool == TL_TOOL_MARK && detail == TL_OUTLINE_POINT)
    return g_strdup (_ ("Click the place."));
  if (tool == TL_TOOL_MARK && detail == TL_OUTLINE_BOX)
    return g_strdup (_ ("Draw from corner to corner."));
  return g_strdup (_ (ends[MIN (n, 1)]));
}

static char *
selected_text (TlPictureCanvas *self)
{
  const TlLanguage    *language = tl_document_language (tl_inspector_document (self->inspector));
  const TlInspection  *inspection = tl_inspector_inspection (self->inspector);
  const char          *id = tl_inspector_selected (self->inspector);
  const TlPictureMark *mark =
      inspection == NULL || id == NULL ? NULL : tl_inspection_mark (inspection, id);
  const TlMeasure *measure =
      inspection == NULL || id == NULL ? NULL : tl_inspection_measure (inspection, id);
  TlMeasureResult result;

  if (mark != NULL)
    return g_strdup_printf (_ ("Mark %u selected: %s. %s"), mark->number,
                            tl_language_text (language, tl_grade_label (mark->grade)), mark->seen);
  if (measure != NULL
      && tl_inspections_run (tl_inspector_inspections (self->inspector), inspection, measure,
                             &result, NULL))
    {
      g_autofree char *text = tl_measure_text (measure, &result, language);

      return g_strdup_printf (_ ("Measure selected: %s %s."), measure->what, text);
    }
  return g_strdup (id == NULL ? "" : _ ("Scale selected."));
}

void
tl_picture_canvas_say (TlPictureCanvas *self)
{
  const TlPhoto   *photo = self->inspector == NULL ? NULL : tl_inspector_photo (self->inspector);
  g_autofree char *name = NULL, *hint = NULL, *selected = NULL, *words = NULL;

  if (photo == NULL)
    return;
  name = g_strdup_printf (_ ("Picture %s"), *photo->caption != '\0' ? photo->caption : photo->name);
  hint = tl_picture_canvas_hint (self);
  selected = selected_text (self);
  words = g_strdup_printf ("%s %s", hint, selected);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
}

void
tl_picture_canvas_add_point (TlPictureCanvas *self, TlPixel pixel)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);
  guint          most, width, height;

  tl_inspector_tool_points (self->inspector, &most);
  tl_photo_size (photo, &width, &height);
  pixel.x_px = CLAMP (pixel.x_px, -0.5, width - 0.5);
  pixel.y_px = CLAMP (pixel.y_px, -0.5, height - 0.5);
  g_array_append_val (self->points, pixel);
  if (most != 0 && self->points->len >= most)
    tl_picture_canvas_finish (self);
  else
    tl_picture_canvas_say (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

GArray *
tl_picture_canvas_selected_points (TlPictureCanvas *self, gconstpointer *record)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);

  *record = tl_inspector_record (self->inspector, tl_inspector_selected (self->inspector));
  if (*record == NULL || photo == NULL || strcmp (tl_record_picture (*record), photo->id) != 0)
    return NULL;
  return tl_record_points (*record);
}

gint
tl_picture_canvas_handle_at (TlPictureCanvas *self, double x, double y)
{
  TlPictureView view = tl_picture_canvas_view (self);
  gconstpointer record;
  GArray       *points = tl_picture_canvas_selected_points (self, &record);
  double        least = HANDLE_PX;
  gint          found = -1;

  for (guint i = 0; points != NULL && i < points->len; i++)
    {
      double px, py;

      tl_picture_view_map (&view, g_array_index (points, TlPixel, i), &px, &py);
      if (hypot (px - x, py - y) < least)
        {
          least = hypot (px - x, py - y);
          found = (gint) i;
        }
    }
  return found;
}

void
tl_picture_canvas_move (TlPictureCanvas *self, gconstpointer record, gint handle, double dx,
                        double dy, guint merge_key)
{
  gpointer moved = tl_record_copy (record);
  GArray  *points = tl_record_points (moved);
  guint    width, height;
  g_autoptr (GError) error = NULL;

  tl_photo_size (tl_inspector_photo (self->inspector), &width, &height);
  for (guint i = 0; i < points->len; i++)
    if (handle < 0 || handle == (gint) i)
      {
        TlPixel *point = &g_array_index (points, TlPixel, i);

        point->x_px = CLAMP (point->x_px + dx, -0.5, width - 0.5);
        point->y_px = CLAMP (point->y_px + dy, -0.5, height - 0.5);
      }
  if (handle >= 0 && handle < (gint) points->len)
    {
      self->cross = g_array_index (points, TlPixel, handle);
      self->has_cross = TRUE;
    }
  if (record == (gconstpointer) tl_inspector_draft (self->inspector)
      || *tl_inspector_selected (self->inspector) == '\0')
    {
      tl_inspector_set_draft (self->inspector, moved);
      return;
    }
  if (!tl_inspector_put (self->inspector, moved, _ ("Move in the picture"), merge_key, &error))
    tl_document_refuse (tl_inspector_document (self->inspector), error->message);
  tl_record_unref (moved);
}
