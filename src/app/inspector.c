/* inspector.c: the inspections of the open joint, and what is done with them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/inspector-private.h"

#include <glib/gi18n.h>
#include <string.h>

G_DEFINE_FINAL_TYPE (TlInspector, tl_inspector, G_TYPE_OBJECT)

static guint signals[TL_N_INSPECTOR_SIGNALS];

void
tl_inspector_emit (TlInspector *self, TlInspectorSignal which)
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

void
tl_inspector_read (TlInspector *self)
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
  tl_inspector_read (self);
  tl_inspector_emit (self, TL_INSPECTOR_CHANGED);
  if (g_strcmp0 (before, self->selected) != 0)
    tl_inspector_emit (self, TL_INSPECTOR_SELECTION_CHANGED);
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
  static const char *const names[TL_N_INSPECTOR_SIGNALS] = { "changed", "selection-changed",
                                                             "tool-changed" };

  G_OBJECT_CLASS (klass)->dispose = tl_inspector_dispose;
  G_OBJECT_CLASS (klass)->finalize = tl_inspector_finalize;
  for (guint i = 0; i < TL_N_INSPECTOR_SIGNALS; i++)
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
  tl_inspector_read (self);
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
  tl_inspector_emit (self, TL_INSPECTOR_CHANGED);
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
  tl_inspector_emit (self, TL_INSPECTOR_CHANGED);
  tl_inspector_emit (self, TL_INSPECTOR_SELECTION_CHANGED);
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
  tl_inspector_emit (self, TL_INSPECTOR_SELECTION_CHANGED);
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
  tl_inspector_emit (self, TL_INSPECTOR_CHANGED);
  tl_inspector_emit (self, TL_INSPECTOR_SELECTION_CHANGED);
}

void
tl_inspector_drop_draft (TlInspector *self)
{
  if (self->draft == NULL)
    return;
  g_clear_pointer (&self->draft, tl_record_unref);
  settle (self);
  tl_inspector_emit (self, TL_INSPECTOR_CHANGED);
  tl_inspector_emit (self, TL_INSPECTOR_SELECTION_CHANGED);
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
  tl_inspector_emit (self, TL_INSPECTOR_TOOL_CHANGED);
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
