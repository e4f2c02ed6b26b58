/* inspection.c: the value that holds pictures, readings and inspections, and looking things up in it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/inspection-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define AT(type, field) G_STRUCT_OFFSET (type, field)
#define TEXT(type, name, field)                                                                    \
  {                                                                                                \
    name, TL_SLOT_TEXT, AT (type, field), 0, 0, NULL, FALSE                                        \
  }
#define NEEDED(type, name, field)                                                                  \
  {                                                                                                \
    name, TL_SLOT_TEXT, AT (type, field), 0, 0, NULL, TRUE                                         \
  }
#define NUMBER(type, name, field, low, high)                                                       \
  {                                                                                                \
    name, TL_SLOT_NUMBER, AT (type, field), low, high, NULL, FALSE                                 \
  }

static const TlSlot found_slots[] = {
  NEEDED (TlFound, "owner", owner),
  NEEDED (TlFound, "field", field),
  TEXT (TlFound, "measure", measure),
  NUMBER (TlFound, "value", value, -1e9, 1e9),
  NUMBER (TlFound, "expanded", expanded, 0, 1e9),
  NUMBER (TlFound, "tolerance", tolerance, 0, 1e9),
  TEXT (TlFound, "word", word),
  TEXT (TlFound, "note", note),
  { NULL },
};
const TlForm tl_found_form = { "found", sizeof (TlFound), found_slots };

static const TlSlot inspection_slots[] = {
  NEEDED (TlInspection, "id", id),
  TEXT (TlInspection, "number", number),
  { "revision", TL_SLOT_COUNT, AT (TlInspection, revision), 0, 9999, NULL, FALSE },
  TEXT (TlInspection, "of", of),
  TEXT (TlInspection, "previous", previous),
  TEXT (TlInspection, "seal", seal),
  TEXT (TlInspection, "issued", issued),
  TEXT (TlInspection, "begun", begun),
  TEXT (TlInspection, "purpose", purpose),
  TEXT (TlInspection, "present", present),
  TEXT (TlInspection, "author", author),
  TEXT (TlInspection, "qualification", qualification),
  TEXT (TlInspection, "not-inspected", not_inspected),
  TEXT (TlInspection, "assumptions", assumptions),
  TEXT (TlInspection, "conclusion", conclusion),
  { NULL },
};
static void
inspection_clear (gpointer data)
{
  TlInspection *self = data;

  g_clear_pointer (&self->scales, g_ptr_array_unref);
  g_clear_pointer (&self->measures, g_ptr_array_unref);
  g_clear_pointer (&self->marks, g_ptr_array_unref);
  g_clear_pointer (&self->found, g_ptr_array_unref);
}

const TlForm tl_inspection_form = { "inspection", sizeof (TlInspection), inspection_slots,
                                    inspection_clear };

static const TlSlot custody_slots[] = {
  { "number", TL_SLOT_COUNT, AT (TlCustody, number), 1, 1e6, NULL, TRUE },
  TEXT (TlCustody, "when", when),
  TEXT (TlCustody, "who", who),
  NEEDED (TlCustody, "act", act),
  TEXT (TlCustody, "object", object),
  TEXT (TlCustody, "content", content),
  NEEDED (TlCustody, "link", link),
  { NULL },
};
const TlForm tl_custody_form = { "entry", sizeof (TlCustody), custody_slots };

/* --- making --- */

static GPtrArray *
records_new (void)
{
  return g_ptr_array_new_with_free_func (tl_record_unref);
}

static gpointer
share_record (gconstpointer record, gpointer data)
{
  return tl_record_ref (record);
}

static GPtrArray *
share_all (GPtrArray *list)
{
  GPtrArray *copy = g_ptr_array_copy (list, share_record, NULL);

  g_ptr_array_set_free_func (copy, tl_record_unref);
  return copy;
}

TlInspection *
tl_inspection_new (void)
{
  TlInspection *self = tl_record_new (&tl_inspection_form);

  self->scales = records_new ();
  self->measures = records_new ();
  self->marks = records_new ();
  self->found = records_new ();
  return self;
}

TlInspection *
tl_inspection_copy (const TlInspection *self)
{
  TlInspection *copy = tl_record_copy (self);

  copy->scales = share_all (self->scales);
  copy->measures = share_all (self->measures);
  copy->marks = share_all (self->marks);
  copy->found = share_all (self->found);
  return copy;
}

TlInspections *
tl_inspections_new (void)
{
  TlInspections *self = g_new0 (TlInspections, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->photos = records_new ();
  self->readings = records_new ();
  self->inspections = g_ptr_array_new_with_free_func (tl_record_unref);
  self->custody = records_new ();
  self->kept = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
  self->next_id = 1;
  return self;
}

TlInspections *
tl_inspections_fork (const TlInspections *self)
{
  TlInspections *fork = g_new0 (TlInspections, 1);

  g_atomic_ref_count_init (&fork->ref_count);
  fork->photos = share_all (self->photos);
  fork->readings = share_all (self->readings);
  fork->inspections = g_ptr_array_copy (self->inspections, share_record, NULL);
  g_ptr_array_set_free_func (fork->inspections, tl_record_unref);
  fork->custody = share_all (self->custody);
  fork->kept = g_ptr_array_ref (self->kept);
  fork->next_id = self->next_id;
  return fork;
}

TlInspections *
tl_inspections_ref (const TlInspections *self)
{
  TlInspections *shared = (TlInspections *) self;

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
tl_inspections_unref (TlInspections *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_ptr_array_unref (self->photos);
  g_ptr_array_unref (self->readings);
  g_ptr_array_unref (self->inspections);
  g_ptr_array_unref (self->custody);
  g_ptr_array_unref (self->kept);
  g_free (self);
}

/* --- looking up --- */

/* Every record with an id holds it first. */
char **
tl_record_id (gpointer record)
{
  return (char **) (gpointer) ((char *) record + sizeof (TlRecord));
}

static gconstpointer
find (const GPtrArray *list, const char *id)
{
  for (guint i = 0; id != NULL && i < list->len; i++)
    if (strcmp (*tl_record_id (g_ptr_array_index (list, i)), id) == 0)
      return g_ptr_array_index (list, i);
  return NULL;
}

gboolean
tl_inspections_is_empty (const TlInspections *self)
{
  return self->photos->len == 0 && self->readings->len == 0 && self->inspections->len == 0
         && self->custody->len == 0 && self->kept->len == 0;
}

const TlPhoto *
tl_inspections_photo (const TlInspections *self, const char *id)
{
  return find (self->photos, id);
}

const TlInspection *
tl_inspections_get (const TlInspections *self, const char *id)
{
  return find (self->inspections, id);
}

const TlInspection *
tl_inspections_latest (const TlInspections *self)
{
  guint n = self->inspections->len;

  return n > 0 ? g_ptr_array_index (self->inspections, n - 1) : NULL;
}

const TlReading *
tl_inspections_reading (const TlInspections *self, const char *id)
{
  return find (self->readings, id);
}

const TlScale *
tl_inspection_scale (const TlInspection *self, const char *id)
{
  return find (self->scales, id);
}

const TlMeasure *
tl_inspection_measure (const TlInspection *self, const char *id)
{
  return find (self->measures, id);
}

const TlPictureMark *
tl_inspection_mark (const TlInspection *self, const char *id)
{
  return find (self->marks, id);
}

gboolean
tl_inspection_is_closed (const TlInspection *self)
{
  return *self->seal != '\0';
}

TlGrade
tl_inspections_grade (const TlInspections *self, const TlInspection *inspection,
                      const TlStock *stock)
{
  TlGrade worst = TL_GRADE_NOTHING_SEEN;

  for (guint i = 0; i < inspection->marks->len; i++)
    worst = MAX (worst, ((TlPictureMark *) g_ptr_array_index (inspection->marks, i))->grade);
  for (guint i = 0; i < self->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (self->readings, i);
      TlGrade          grade;

      if (strcmp (reading->inspection, inspection->id) == 0
          && tl_reading_grade (reading, stock, &grade))
        worst = MAX (worst, grade);
    }
  return worst;
}

gboolean
tl_inspections_run (const TlInspections *self, const TlInspection *inspection,
                    const TlMeasure *measure, TlMeasureResult *result, GError **error)
{
  const TlScale *scale = tl_inspection_scale (inspection, measure->scale);
  const TlPhoto *photo = tl_inspections_photo (self, measure->picture);
  TlScale       *effective;
  guint          width, height;
  gboolean       is_good;

  if (scale == NULL || photo == NULL || strcmp (scale->picture, measure->picture) != 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("The measure “%s” has no scale in its own picture; set one."), measure->id);
      return FALSE;
    }
  tl_photo_size (photo, &width, &height);
  /* A distance that somebody entered counts; else the camera's own note, which is said to be one. */
  effective = tl_record_ref (scale);
  if (scale->distance_mm <= 0.0)
    {
      tl_record_unref (effective);
      effective = tl_record_copy (scale);
      effective->distance_mm = tl_scale_distance_mm (scale, photo);
    }
  is_good = tl_measure_run (measure, effective, width, height, result, error);
  if (is_good)
    result->is_distance_estimated = scale->distance_mm <= 0.0 && effective->distance_mm > 0.0;
  tl_record_unref (effective);
  return is_good;
}

/* --- from one look to the next --- */

static void
changes_of_marks (const TlInspection *before, const TlInspection *after, const TlLanguage *language,
                  GPtrArray *changes)
{
  for (guint i = 0; i < after->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (after->marks, i), *old = NULL;

      for (guint k = 0; old == NULL && k < before->marks->len; k++)
        {
          const TlPictureMark *other = g_ptr_array_index (before->marks, k);

          if (strcmp (other->tie, mark->tie) == 0 && strcmp (other->defect, mark->defect) == 0
              && (*mark->tie != '\0' || *mark->defect != '\0'))
            old = other;
        }
      if (old == NULL)
        g_ptr_array_add (
            changes,
            g_strdup_printf (tl_language_text (language, TL_N_ ("New: %s (%s).")), mark->seen,
                             tl_language_text (language, tl_grade_label (mark->grade))));
      else if (old->grade != mark->grade)
        g_ptr_array_add (
            changes,
            g_strdup_printf (tl_language_text (language, TL_N_ ("%s: %s, before %s.")), mark->seen,
                             tl_language_text (language, tl_grade_label (mark->grade)),
                             tl_language_text (language, tl_grade_label (old->grade))));
    }
}

static void
changes_of_measures (const TlInspections *self, const TlInspection *before,
                     const TlInspection *after, const TlLanguage *language, GPtrArray *changes)
{
  for (guint i = 0; i < after->measures->len; i++)
    for (guint k = 0; k < before->measures->len; k++)
      {
        const TlMeasure *measure = g_ptr_array_index (after->measures, i),
                        *old = g_ptr_array_index (before->measures, k);
        TlMeasureResult  now, then;
        g_autofree char *now_text = NULL, *then_text = NULL;

        if (measure->kind != old->kind || strcmp (measure->what, old->what) != 0
            || *measure->what == '\0' || !tl_inspections_run (self, after, measure, &now, NULL)
            || !tl_inspections_run (self, before, old, &then, NULL))
          continue;
        now_text = tl_measure_text (measure, &now, language);
        then_text = tl_measure_text (old, &then, language);
        /* Two bands that meet show no change. */
        g_ptr_array_add (
            changes,
            ABS (now.value - then.value) <= now.expanded + then.expanded
                ? g_strdup_printf (
                    tl_language_text (language, TL_N_ ("%s: %s, before %s: no change to be told.")),
                    measure->what, now_text, then_text)
                : g_strdup_printf (
                    tl_language_text (language, TL_N_ ("%s: %s, before %s: changed.")),
                    measure->what, now_text, then_text));
      }
}

static void
changes_of_readings (const TlInspections *self, const TlInspection *before,
                     const TlInspection *after, const TlLanguage *language, GPtrArray *changes)
{
  for (guint i = 0; i < self->readings->len; i++)
    for (guint k = 0; k < self->readings->len; k++)
      {
        const TlReading *now = g_ptr_array_index (self->readings, i),
                        *then = g_ptr_array_index (self->readings, k);
        g_autofree char *now_text = NULL, *then_text = NULL;

        if (strcmp (now->inspection, after->id) != 0 || strcmp (then->inspection, before->id) != 0
            || now->kind != then->kind || strcmp (now->tie, then->tie) != 0)
          continue;
        now_text = tl_reading_text (now, language);
        then_text = tl_reading_text (then, language);
        g_ptr_array_add (
            changes,
            g_strdup_printf (tl_language_text (language, TL_N_ ("%s: %s, before %s.")),
                             tl_language_text (language, tl_reading_kind_label (now->kind)),
                             now_text, then_text));
      }
}

GPtrArray *
tl_inspections_changes (const TlInspections *self, const TlInspection *before,
                        const TlInspection *after, const TlLanguage *language)
{
  GPtrArray *changes = g_ptr_array_new_with_free_func (g_free);

  changes_of_marks (before, after, language, changes);
  changes_of_measures (self, before, after, language, changes);
  changes_of_readings (self, before, after, language, changes);
  return changes;
}
