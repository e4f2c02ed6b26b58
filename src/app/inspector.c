/* inspector.c: the inspections of the open joint, and what is done with them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/inspector.h"

#include <glib/gi18n.h>
#include <string.h>

struct _TlInspector
{
  GObject parent_instance;

  TlDocument    *document;
  GSettings     *settings;
  TlInspections *inspections;
  TlDefects     *defects;
  TlAsFound     *as_found; /* NULL until somebody asks */
  char          *problem;
  char          *photo;
  char          *inspection;
  char          *selected;
  TlScale       *draft;
  TlTool         tool;
  guint          detail;
  gboolean       is_taking; /* a change of our own comes back from the document */
};

G_DEFINE_FINAL_TYPE (TlInspector, tl_inspector, G_TYPE_OBJECT)

enum
{
  CHANGED,
  SELECTION_CHANGED,
  TOOL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
emit (TlInspector *self, guint which)
{
  g_signal_emit (self, signals[which], 0);
}

/* --- records --- */

GArray *
tl_record_points (gconstpointer record)
{
  const TlForm *form = ((const TlRecord *) record)->form;

  if (form == &tl_scale_form)
    return ((const TlScale *) record)->points;
  if (form == &tl_measure_form)
    return ((const TlMeasure *) record)->points;
  if (form == &tl_picture_mark_form)
    return ((const TlPictureMark *) record)->points;
  return NULL;
}

const char *
tl_record_picture (gconstpointer record)
{
  const TlForm *form = ((const TlRecord *) record)->form;

  if (form == &tl_scale_form)
    return ((const TlScale *) record)->picture;
  if (form == &tl_measure_form)
    return ((const TlMeasure *) record)->picture;
  if (form == &tl_picture_mark_form)
    return ((const TlPictureMark *) record)->picture;
  if (form == &tl_reading_form)
    return ((const TlReading *) record)->picture;
  return "";
}

gconstpointer
tl_inspector_record (TlInspector *self, const char *id)
{
  const TlInspection *inspection = tl_inspector_inspection (self);
  gconstpointer       found = NULL;

  if (id == NULL)
    return NULL;
  if (self->draft != NULL && *id == '\0')
    return self->draft;
  if (inspection == NULL)
    return NULL;
  found = tl_inspection_mark (inspection, id);
  if (found == NULL)
    found = tl_inspection_measure (inspection, id);
  if (found == NULL)
    found = tl_inspection_scale (inspection, id);
  if (found == NULL)
    found = tl_inspections_reading (self->inspections, id);
  return found;
}

/* --- what is looked at --- */

static const char *
first_photo (TlInspector *self)
{
  return self->inspections->photos->len == 0
             ? NULL
             : ((const TlPhoto *) g_ptr_array_index (self->inspections->photos, 0))->id;
}

/* What was looked at may be gone. */
static void
settle (TlInspector *self)
{
  const TlInspection *latest = tl_inspections_latest (self->inspections);

  if (self->photo == NULL || tl_inspections_photo (self->inspections, self->photo) == NULL)
    {
      g_free (self->photo);
      self->photo = g_strdup (first_photo (self));
    }
  if (self->inspection == NULL || tl_inspections_get (self->inspections, self->inspection) == NULL)
    {
      g_free (self->inspection);
      self->inspection = latest == NULL ? NULL : g_strdup (latest->id);
    }
  if (self->draft != NULL && tl_inspections_photo (self->inspections, self->draft->picture) == NULL)
    g_clear_pointer (&self->draft, tl_record_unref);
  if (self->selected != NULL && tl_inspector_record (self, self->selected) == NULL)
    g_clear_pointer (&self->selected, g_free);
}

static void
read_document (TlInspector *self)
{
  g_autoptr (GError) error = NULL;
  TlInspections *now = tl_joint_inspections (tl_document_joint (self->document), &error);

  g_clear_pointer (&self->problem, g_free);
  if (now == NULL)
    {
      self->problem = g_strdup (error->message);
      now = tl_inspections_new ();
    }
  g_clear_pointer (&self->inspections, tl_inspections_unref);
  self->inspections = now;
  g_clear_pointer (&self->as_found, tl_as_found_free);
  settle (self);
}

static void
on_document (TlInspector *self)
{
  g_autofree char *before = g_strdup (self->selected);

  if (self->is_taking)
    return;
  read_document (self);
  emit (self, CHANGED);
  if (g_strcmp0 (before, self->selected) != 0)
    emit (self, SELECTION_CHANGED);
}

/* --- object --- */

static void
tl_inspector_dispose (GObject *object)
{
  TlInspector *self = TL_INSPECTOR (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  g_clear_object (&self->settings);
  G_OBJECT_CLASS (tl_inspector_parent_class)->dispose (object);
}

static void
tl_inspector_finalize (GObject *object)
{
  TlInspector *self = TL_INSPECTOR (object);

  g_clear_pointer (&self->inspections, tl_inspections_unref);
  g_clear_pointer (&self->defects, tl_defects_unref);
  g_clear_pointer (&self->as_found, tl_as_found_free);
  g_clear_pointer (&self->draft, tl_record_unref);
  g_free (self->problem);
  g_free (self->photo);
  g_free (self->inspection);
  g_free (self->selected);
  G_OBJECT_CLASS (tl_inspector_parent_class)->finalize (object);
}

static void
tl_inspector_class_init (TlInspectorClass *klass)
{
  static const char *const names[N_SIGNALS] = { "changed", "selection-changed", "tool-changed" };

  G_OBJECT_CLASS (klass)->dispose = tl_inspector_dispose;
  G_OBJECT_CLASS (klass)->finalize = tl_inspector_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], TL_TYPE_INSPECTOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
tl_inspector_init (TlInspector *self)
{
}

TlInspector *
tl_inspector_new (TlDocument *document, GSettings *settings)
{
  TlInspector *self = g_object_new (TL_TYPE_INSPECTOR, NULL);

  self->document = g_object_ref (document);
  self->settings = g_object_ref (settings);
  read_document (self);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_document), self);
  return self;
}

TlDocument *
tl_inspector_document (TlInspector *self)
{
  return self->document;
}

const TlInspections *
tl_inspector_inspections (TlInspector *self)
{
  return self->inspections;
}

const TlInspection *
tl_inspector_inspection (TlInspector *self)
{
  return self->inspection == NULL ? NULL : tl_inspections_get (self->inspections, self->inspection);
}

gboolean
tl_inspector_is_open (TlInspector *self)
{
  const TlInspection *inspection = tl_inspector_inspection (self);

  return self->problem == NULL && (inspection == NULL || !tl_inspection_is_closed (inspection));
}

const TlPhoto *
tl_inspector_photo (TlInspector *self)
{
  return self->photo == NULL ? NULL : tl_inspections_photo (self->inspections, self->photo);
}

const TlScale *
tl_inspector_scale (TlInspector *self)
{
  const TlInspection *inspection = tl_inspector_inspection (self);

  for (guint i = inspection == NULL || self->photo == NULL ? 0 : inspection->scales->len; i > 0;
       i--)
    {
      const TlScale *scale = g_ptr_array_index (inspection->scales, i - 1);

      if (strcmp (scale->picture, self->photo) == 0)
        return scale;
    }
  return NULL;
}

const TlDefects *
tl_inspector_defects (TlInspector *self)
{
  g_autoptr (GError) error = NULL;

  if (self->defects == NULL)
    self->defects = tl_defects_load (tl_document_stock (self->document), &error);
  if (self->defects == NULL)
    g_error ("%s", error->message);
  return self->defects;
}

const TlAsFound *
tl_inspector_as_found (TlInspector *self)
{
  const TlInspection *inspection = tl_inspector_inspection (self);

  if (self->as_found == NULL && inspection != NULL)
    self->as_found = tl_as_found_new (tl_document_joint (self->document), self->inspections,
                                      inspection, tl_document_stock (self->document));
  return self->as_found;
}

const char *
tl_inspector_problem (TlInspector *self)
{
  return self->problem;
}

void
tl_inspector_choose_photo (TlInspector *self, const char *id)
{
  if (g_strcmp0 (id, self->photo) == 0 || tl_inspections_photo (self->inspections, id) == NULL)
    return;
  g_free (self->photo);
  self->photo = g_strdup (id);
  emit (self, CHANGED);
}

void
tl_inspector_choose_inspection (TlInspector *self, const char *id)
{
  if (g_strcmp0 (id, self->inspection) == 0 || tl_inspections_get (self->inspections, id) == NULL)
    return;
  g_free (self->inspection);
  self->inspection = g_strdup (id);
  g_clear_pointer (&self->as_found, tl_as_found_free);
  settle (self);
  emit (self, CHANGED);
  emit (self, SELECTION_CHANGED);
}

/* --- selection --- */

const char *
tl_inspector_selected (TlInspector *self)
{
  return self->selected;
}

void
tl_inspector_select (TlInspector *self, const char *id)
{
  gconstpointer record = tl_inspector_record (self, id);
  char         *copy = record == NULL ? NULL : g_strdup (id);

  if (record != NULL)
    tl_inspector_choose_photo (self, tl_record_picture (record));
  if (g_strcmp0 (copy, self->selected) == 0)
    {
      g_free (copy);
      return;
    }
  g_free (self->selected);
  self->selected = copy;
  emit (self, SELECTION_CHANGED);
}

const TlScale *
tl_inspector_draft (TlInspector *self)
{
  return self->draft;
}

void
tl_inspector_set_draft (TlInspector *self, TlScale *scale)
{
  g_clear_pointer (&self->draft, tl_record_unref);
  self->draft = scale;
  g_free (self->selected);
  self->selected = g_strdup ("");
  emit (self, CHANGED);
  emit (self, SELECTION_CHANGED);
}

void
tl_inspector_drop_draft (TlInspector *self)
{
  if (self->draft == NULL)
    return;
  g_clear_pointer (&self->draft, tl_record_unref);
  settle (self);
  emit (self, CHANGED);
  emit (self, SELECTION_CHANGED);
}

/* --- tool --- */

TlTool
tl_inspector_tool (TlInspector *self, guint *detail)
{
  if (detail != NULL)
    *detail = self->detail;
  return self->tool;
}

void
tl_inspector_set_tool (TlInspector *self, TlTool tool, guint detail)
{
  if (self->tool == tool && self->detail == detail)
    return;
  self->tool = tool;
  self->detail = detail;
  emit (self, TOOL_CHANGED);
}

guint
tl_inspector_tool_points (TlInspector *self, guint *most)
{
  guint points = 0;

  *most = 0;
  switch (self->tool)
    {
    case TL_TOOL_SCALE:
      points = *most = self->detail == TL_SCALE_RECTANGLE ? 4 : 2;
      break;
    case TL_TOOL_MEASURE:
      points = tl_measure_points ((TlMeasureKind) self->detail, most);
      break;
    case TL_TOOL_MARK:
      points = tl_outline_points ((TlOutline) self->detail, most);
      break;
    case TL_TOOL_SELECT:
    default:
      break;
    }
  return points;
}

/* --- who and when --- */

char *
tl_inspector_who (TlInspector *self)
{
  const TlInspection *inspection = tl_inspector_inspection (self);
  g_autofree char    *own = g_settings_get_string (self->settings, "prepared-by");

  if (inspection != NULL && *inspection->author != '\0')
    return g_strdup (inspection->author);
  return *own != '\0' ? g_steal_pointer (&own) : g_strdup (g_get_real_name ());
}

char *
tl_inspector_when (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%S%:z");
}

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
  read_document (self);
  emit (self, CHANGED);
  return TRUE;
}

static void
tell (TlInspector *self, const GError *error)
{
  if (error != NULL)
    tl_document_tell (self->document, error->message);
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
      emit (self, SELECTION_CHANGED);
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
      tl_document_tell (self->document,
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
