/* inspector-edits.c: what is done with the inspections of the open joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/inspector-private.h"

#include <glib/gi18n.h>
#include <string.h>

/* --- edits --- */

gboolean
tl_inspector_take (TlInspector *self, TlInspections *after, TlOriginals *added, const char *label,
                   guint merge_key)
{
  g_autoptr (TlInspections) taken = after;
  const TlJoint *joint = tl_document_joint (self->document);

  if (after == NULL)
    return FALSE;
  self->is_taking = TRUE;
  tl_document_take (self->document, tl_edit_set_inspections (joint, after, added), label,
                    tl_document_selected (self->document), merge_key);
  self->is_taking = FALSE;
  tl_inspector_read (self);
  tl_inspector_emit (self, TL_INSPECTOR_CHANGED);
  return TRUE;
}

static void
tell (TlInspector *self, const GError *error)
{
  if (error != NULL)
    tl_document_refuse (self->document, error->message);
}

/* The inspections with an open one to write into; (transfer full) (nullable) */
static TlInspections *
with_open (TlInspector *self, char **id, GError **error)
{
  const TlInspection *inspection = tl_inspector_inspection (self);
  g_autofree char    *who = NULL, *when = NULL;

  if (self->problem != NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE, self->problem);
      return NULL;
    }
  if (inspection != NULL)
    {
      *id = g_strdup (inspection->id);
      return tl_inspections_ref (self->inspections);
    }
  who = tl_inspector_who (self);
  when = tl_inspector_when ();
  return tl_inspections_begin (self->inspections, &(TlActor){ who, when }, id, error);
}

gboolean
tl_inspector_put (TlInspector *self, gconstpointer record, const char *label, guint merge_key,
                  GError **error)
{
  g_autofree char *inspection = NULL, *id = NULL;
  g_autoptr (TlInspections) open = with_open (self, &inspection, error);
  TlInspections *after;

  if (open == NULL)
    return FALSE;
  after = tl_inspections_put (open, inspection, record, &id, error);
  if (!tl_inspector_take (self, after, NULL, label, merge_key))
    return FALSE;
  if (id != NULL)
    tl_inspector_select (self, id);
  return TRUE;
}

void
tl_inspector_remove (TlInspector *self, const char *id)
{
  const TlInspection *inspection = tl_inspector_inspection (self);
  g_autoptr (GError) error = NULL;
  g_autofree char *gone = g_strdup (id);

  if (self->draft != NULL && *gone == '\0')
    {
      tl_inspector_drop_draft (self);
      return;
    }
  if (inspection == NULL)
    return;
  if (tl_inspector_take (self,
                         tl_inspections_remove (self->inspections, inspection->id, gone, &error),
                         NULL, _ ("Remove from the picture"), 0))
    {
      tl_inspector_emit (self, TL_INSPECTOR_SELECTION_CHANGED);
      tl_document_tell (self->document, _ ("Removed."));
    }
  tell (self, error);
}

/* --- drawing --- */

static void
take_points (GArray *to, const GArray *points)
{
  g_array_set_size (to, 0);
  g_array_append_vals (to, points->data, points->len);
}

static void
draw_scale (TlInspector *self, const GArray *points)
{
  TlScale *scale = tl_scale_new ((TlScaleKind) self->detail, tl_document_stock (self->document));
  const TlPhoto   *photo = tl_inspector_photo (self);
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when ();

  take_points (scale->points, points);
  /* The camera's own note serves for the distance until somebody measures it. */
  if (photo->focal_mm > 0.0)
    scale->distance_mm = 0.0;
  tl_record_text (&scale->picture, photo->id);
  tl_record_text (&scale->who, who);
  tl_record_text (&scale->when, when);
  tl_inspector_set_draft (self, scale);
}

static gboolean
draw_measure (TlInspector *self, const GArray *points, GError **error)
{
  const TlScale   *scale = tl_inspector_scale (self);
  const TlPhoto   *photo = tl_inspector_photo (self);
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when ();
  TlMeasure       *measure;
  gboolean         done;

  if (scale == NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                           _ ("This picture has no scale yet: draw a known length first."));
      return FALSE;
    }
  measure = tl_record_new (&tl_measure_form);
  measure->kind = (TlMeasureKind) self->detail;
  take_points (measure->points, points);
  tl_record_text (&measure->picture, photo->id);
  tl_record_text (&measure->scale, scale->id);
  tl_record_text (&measure->who, who);
  tl_record_text (&measure->when, when);
  done = tl_inspector_put (self, measure, _ ("Measure in the picture"), 0, error);
  tl_record_unref (measure);
  return done;
}

static gboolean
draw_mark (TlInspector *self, const GArray *points, GError **error)
{
  TlPictureMark   *mark = tl_record_new (&tl_picture_mark_form);
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when ();
  gboolean         done;

  mark->shape = (TlOutline) self->detail;
  mark->grade = TL_GRADE_WATCH;
  take_points (mark->points, points);
  tl_record_text (&mark->picture, tl_inspector_photo (self)->id);
  tl_record_text (&mark->who, who);
  tl_record_text (&mark->when, when);
  done = tl_inspector_put (self, mark, _ ("Mark in the picture"), 0, error);
  tl_record_unref (mark);
  return done;
}

void
tl_inspector_draw (TlInspector *self, const GArray *points)
{
  g_autoptr (GError) error = NULL;

  if (tl_inspector_photo (self) == NULL)
    return;
  if (!tl_inspector_is_open (self))
    {
      tl_document_refuse (
          self->document,
          _ ("This inspection is closed: its report was issued. Begin a revision."));
      return;
    }
  if (self->tool == TL_TOOL_SCALE)
    draw_scale (self, points);
  else if (self->tool == TL_TOOL_MEASURE)
    draw_measure (self, points, &error);
  else if (self->tool == TL_TOOL_MARK)
    draw_mark (self, points, &error);
  tell (self, error);
  if (error == NULL)
    tl_inspector_set_tool (self, TL_TOOL_SELECT, 0);
}

/* --- measured against designed --- */

gboolean
tl_inspector_tie_measure (TlInspector *self, const char *id, const char *target, GError **error)
{
  const TlInspection *inspection = tl_inspector_inspection (self);
  const TlMeasure    *measure = inspection == NULL ? NULL : tl_inspection_measure (inspection, id);
  g_auto (GStrv) words = g_strsplit (target, " ", 2);
  g_autoptr (TlInspections) after = NULL;
  gboolean   is_tied = words[0] != NULL && words[1] != NULL;
  TlMeasure *tied;
  TlFound   *found;

  g_return_val_if_fail (measure != NULL, FALSE);
  after = *measure->owner == '\0'
              ? tl_inspections_ref (self->inspections)
              : tl_inspections_remove_found (self->inspections, inspection->id, measure->owner,
                                             measure->field, NULL);
  if (after == NULL) /* somebody took the found value out already */
    after = tl_inspections_ref (self->inspections);
  tied = tl_record_copy (measure);
  tl_record_text (&tied->owner, is_tied ? words[0] : "");
  tl_record_text (&tied->field, is_tied ? words[1] : "");
  {
    TlInspections *put = tl_inspections_put (after, inspection->id, tied, NULL, error);

    tl_record_unref (tied);
    tl_inspections_unref (after);
    after = put;
  }
  if (after != NULL && is_tied)
    {
      TlInspections *put;

      found = tl_record_new (&tl_found_form);
      tl_record_text (&found->owner, words[0]);
      tl_record_text (&found->field, words[1]);
      tl_record_text (&found->measure, id);
      put = tl_inspections_put (after, inspection->id, found, NULL, error);
      tl_record_unref (found);
      tl_inspections_unref (after);
      after = put;
    }
  return tl_inspector_take (self, g_steal_pointer (&after), NULL, _ ("Compare with the design"), 0);
}

/* --- pictures --- */

gboolean
tl_inspector_add_photo (TlInspector *self, GBytes *bytes, const char *name, GError **error)
{
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when (), *id = NULL;
  g_autoptr (TlOriginals) added = tl_originals_new ();
  TlPhoto       *photo = tl_photo_new (bytes, name, who, when, error);
  TlInspections *after;

  if (photo == NULL)
    return FALSE;
  tl_originals_put (added, photo->sha256, bytes);
  after = tl_inspections_add_photo (self->inspections, photo, &(TlActor){ who, when }, &id, error);
  tl_record_unref (photo);
  if (!tl_inspector_take (self, after, added, _ ("Add a picture"), 0))
    return FALSE;
  tl_inspector_choose_photo (self, id);
  return TRUE;
}

void
tl_inspector_remove_photo (TlInspector *self, const char *id)
{
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when ();
  g_autoptr (GError) error = NULL;
  TlInspections *after =
      tl_inspections_remove_photo (self->inspections, id, &(TlActor){ who, when }, &error);

  if (tl_inspector_take (self, after, NULL, _ ("Remove the picture"), 0))
    tl_document_tell (self->document, _ ("Picture removed, with what was drawn in it."));
  tell (self, error);
}

/* --- inspections --- */

static void
look_at (TlInspector *self, const char *id)
{
  g_free (self->inspection);
  self->inspection = g_strdup (id);
}

void
tl_inspector_begin (TlInspector *self)
{
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when (), *id = NULL;
  g_autoptr (GError) error = NULL;
  TlInspections *after =
      tl_inspections_begin (self->inspections, &(TlActor){ who, when }, &id, &error);

  if (after != NULL)
    look_at (self, id);
  tl_inspector_take (self, after, NULL, _ ("Begin an inspection"), 0);
  tell (self, error);
}

void
tl_inspector_revise (TlInspector *self)
{
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when (), *id = NULL;
  g_autoptr (GError) error = NULL;
  TlInspections *after;

  if (self->inspection == NULL)
    return;
  after = tl_inspections_revise (self->inspections, self->inspection, &(TlActor){ who, when }, &id,
                                 &error);
  if (after != NULL)
    look_at (self, id);
  tl_inspector_take (self, after, NULL, _ ("Begin a revision"), 0);
  tell (self, error);
}

gboolean
tl_inspector_issue (TlInspector *self, GError **error)
{
  g_autofree char *who = tl_inspector_who (self), *when = tl_inspector_when ();

  if (self->inspection == NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                           _ ("Nothing was inspected yet: there is no report to issue."));
      return FALSE;
    }
  if (!tl_inspector_take (self,
                          tl_inspections_issue (self->inspections, self->inspection,
                                                &(TlActor){ who, when }, error),
                          NULL, _ ("Issue the report"), 0))
    return FALSE;
  tl_document_forget_steps (self->document);
  return TRUE;
}
