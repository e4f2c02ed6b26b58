/* pictures-list.c: an inspection as text, JSON and CSV.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/picture-list.h"

#include "base/file.h"
#include "base/json.h"

#include <math.h>
#include <string.h>

#define FORMAT 1

/* --- text --- */

char *
tl_picture_list_text (const TlPictureList *self, const TlLanguage *language)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < self->inspections->photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (self->inspections->photos, i);
      guint          width, height;

      tl_photo_size (photo, &width, &height);
      g_string_append_printf (
          out, "%s  %s  %s  %u × %u  %s%s\n", photo->id, photo->sha256,
          tl_language_text (language, tl_photo_kind_label (photo->kind)), width, height,
          photo->name,
          photo->is_rendered ? tl_language_text (language, TL_N_ (" (rendered, no photograph)"))
                             : "");
    }
  for (guint i = 0; self->inspection != NULL && i < self->inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (self->inspection->marks, i);

      g_string_append_printf (out, "%u  %s  %s  %s\n", mark->number,
                              tl_language_text (language, tl_grade_label (mark->grade)),
                              mark->picture, mark->seen);
    }
  for (guint i = 0; self->inspection != NULL && i < self->inspection->measures->len; i++)
    {
      const TlMeasure *measure = g_ptr_array_index (self->inspection->measures, i);
      TlMeasureResult  result;
      g_autofree char *value = NULL;

      if (!tl_inspections_run (self->inspections, self->inspection, measure, &result, NULL))
        continue;
      value = tl_measure_text (measure, &result, language);
      g_string_append_printf (
          out, "%s  %s  %s  %s%s\n", measure->id, measure->what, value,
          tl_language_text (language, tl_decision_word (tl_measure_decide (measure, &result))),
          result.plane_assured ? "" : tl_language_text (language, TL_N_ (", plane not assured")));
    }
  if (out->len == 0)
    g_string_append_printf (
        out, "%s\n", tl_language_text (language, TL_N_ ("There is no picture in this document.")));
  return g_string_free (out, FALSE);
}

/* --- JSON --- */

static void
json_flag (TlJson *json, const char *name, gboolean value)
{
  tl_json_string (json, name, value ? "yes" : "no");
}

static void
write_pictures (TlJson *json, const TlPictureList *self)
{
  tl_json_open (json, "pictures", TRUE);
  for (guint i = 0; i < self->inspections->photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (self->inspections->photos, i);
      guint          width, height;

      tl_photo_size (photo, &width, &height);
      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "id", photo->id);
      tl_json_string (json, "name", photo->name);
      tl_json_string (json, "sha256", photo->sha256);
      tl_json_string (json, "kind", tl_photo_ending (photo->kind));
      tl_json_number (json, "width_px", width);
      tl_json_number (json, "height_px", height);
      tl_json_string (json, "taken", photo->taken);
      tl_json_string (json, "zone", photo->zone);
      tl_json_string (json, "camera", photo->camera);
      tl_json_string (json, "imported", photo->imported);
      tl_json_string (json, "importer", photo->importer);
      json_flag (json, "rendered", photo->is_rendered);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static const char *
decision_word (TlDecision decision)
{
  static const char *const words[] = { "no-limit", "undecided", "within", "beyond" };

  return words[decision];
}

static void
write_measures (TlJson *json, const TlPictureList *self)
{
  tl_json_open (json, "measures", TRUE);
  for (guint i = 0; i < self->inspection->measures->len; i++)
    {
      const TlMeasure *measure = g_ptr_array_index (self->inspection->measures, i);
      TlMeasureResult  result;

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "id", measure->id);
      tl_json_string (json, "picture", measure->picture);
      tl_json_string (json, "kind", tl_measure_kind_word (measure->kind));
      tl_json_string (json, "what", measure->what);
      if (tl_inspections_run (self->inspections, self->inspection, measure, &result, NULL))
        {
          tl_json_number (json, "value", result.value);
          tl_json_number (json, "expanded_uncertainty", result.expanded);
          tl_json_string (json, "unit", tl_measure_unit (measure->kind));
          tl_json_number (json, "limit",
                          measure->limit_kind != TL_LIMIT_NONE ? measure->limit : (double) NAN);
          tl_json_string (json, "decision", decision_word (tl_measure_decide (measure, &result)));
          json_flag (json, "plane_assured", result.plane_assured);
          json_flag (json, "outside_reference", result.is_outside);
          tl_json_number (json, "distance_mm",
                          result.distance_mm > 0.0 ? result.distance_mm : (double) NAN);
          json_flag (json, "distance_from_camera", result.is_distance_estimated);
        }
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
write_result (TlJson *json, const TlReadingResult *result)
{
  tl_json_open (json, NULL, FALSE);
  tl_json_string (json, "criterion", result->criterion);
  json_flag (json, "computed", result->is_computed);
  tl_json_string (json, "says", result->says);
  if (result->is_computed)
    {
      tl_json_number (json, "low", result->figure.low);
      tl_json_number (json, "value", result->figure.best);
      tl_json_number (json, "high", result->figure.high);
      tl_json_string (json, "unit", result->unit);
      tl_json_number (json, "limit", result->limit);
      tl_json_string (json, "severity", tl_grade_words ()[result->grade]);
      tl_json_string (json, "severity_at_most", tl_grade_words ()[result->grade_most]);
      tl_json_string (json, "row", result->row);
      tl_json_string (json, "source", result->source);
      tl_json_string (json, "known_by", tl_known_by_to_word (result->known_by));
    }
  tl_json_close (json);
}

static void
write_readings (TlJson *json, const TlPictureList *self)
{
  tl_json_open (json, "readings", TRUE);
  for (guint i = 0; i < self->inspections->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (self->inspections->readings, i);
      g_autoptr (GArray) results = NULL;

      if (strcmp (reading->inspection, self->inspection->id) != 0)
        continue;
      results = tl_reading_judge (reading, self->stock);
      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "id", reading->id);
      tl_json_string (json, "kind", tl_reading_kind_word (reading->kind));
      tl_json_number (json, "value", reading->value);
      tl_json_string (json, "unit", tl_reading_unit (reading->kind));
      tl_json_string (json, "instrument", reading->instrument);
      tl_json_string (json, "serial", reading->serial);
      tl_json_string (json, "calibrated", reading->calibrated);
      tl_json_open (json, "results", TRUE);
      for (guint k = 0; k < results->len; k++)
        write_result (json, &g_array_index (results, TlReadingResult, k));
      tl_json_close (json);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
write_findings (TlJson *json, const TlInspection *inspection)
{
  tl_json_open (json, "findings", TRUE);
  for (guint i = 0; i < inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (inspection->marks, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_number (json, "number", mark->number);
      tl_json_string (json, "id", mark->id);
      tl_json_string (json, "picture", mark->picture);
      tl_json_string (json, "shape", tl_outline_word (mark->shape));
      tl_json_string (json, "severity", tl_grade_words ()[mark->grade]);
      tl_json_string (json, "defect", mark->defect);
      tl_json_string (json, "seen", mark->seen);
      tl_json_string (json, "measure", mark->measure);
      tl_json_string (json, "criterion", mark->criterion);
      tl_json_string (json, "source", mark->source);
      tl_json_string (json, "likely_cause", mark->cause);
      tl_json_string (json, "action", mark->action);
      tl_json_string (json, "deadline", mark->deadline);
      tl_json_string (json, "tie", mark->tie);
      tl_json_string (json, "who", mark->who);
      tl_json_string (json, "when", mark->when);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
write_as_found (TlJson *json, const TlPictureList *self)
{
  g_autoptr (TlAsFound) as_found =
      tl_as_found_new (self->joint, self->inspections, self->inspection, self->stock);

  tl_json_string (json, "as_designed", tl_verdict_word (as_found->designed));
  tl_json_string (json, "as_found",
                  as_found->found != NULL ? tl_verdict_word (as_found->found) : NULL);
  tl_json_open (json, "found", TRUE);
  for (guint i = 0; i < as_found->rows->len; i++)
    {
      const TlFoundRow *row = g_ptr_array_index (as_found->rows, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "owner", row->found->owner);
      tl_json_string (json, "field", row->found->field);
      tl_json_number (json, "designed",
                      row->has_design && row->design_word == NULL ? row->design.best
                                                                  : (double) NAN);
      tl_json_number (json, "found",
                      row->error == NULL && row->design_word == NULL ? row->value.best
                                                                     : (double) NAN);
      tl_json_number (json, "expanded_uncertainty",
                      row->error == NULL ? row->value.high - row->value.best : (double) NAN);
      tl_json_string (json, "decision", decision_word (row->decision));
      tl_json_close (json);
    }
  tl_json_close (json);
  tl_json_open (json, "assumed_as_designed", TRUE);
  for (guint i = 0; i < as_found->unchecked->len; i++)
    {
      const TlUnchecked *unchecked = g_ptr_array_index (as_found->unchecked, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "owner", unchecked->owner);
      tl_json_string (json, "field", tl_field_info (unchecked->field)->key);
      tl_json_close (json);
    }
  tl_json_close (json);
}

char *
tl_picture_list_json (const TlPictureList *self)
{
  TlJson *json = tl_json_new ();

  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "format", FORMAT);
  tl_json_string (json, "program", "tinlap " TL_VERSION);
  tl_json_string (json, "data_version", tl_stock_version (self->stock));
  tl_json_string (json, "joint", self->joint->name);
  tl_json_string (json, "last_link", tl_inspections_last_link (self->inspections));
  write_pictures (json, self);
  if (self->inspection != NULL)
    {
      const TlInspection *i = self->inspection;

      tl_json_string (json, "inspection", i->id);
      tl_json_string (json, "report", i->number);
      tl_json_number (json, "revision", i->revision);
      tl_json_string (json, "begun", i->begun);
      tl_json_string (json, "author", i->author);
      json_flag (json, "closed", tl_inspection_is_closed (i));
      write_measures (json, self);
      write_readings (json, self);
      write_findings (json, i);
      write_as_found (json, self);
    }
  tl_json_close (json);
  return tl_json_finish (json);
}

/* --- CSV --- */

static void
append_field (GString *out, const char *text, gboolean is_last)
{
  g_autofree char *quoted = tl_file_csv_field (text);

  g_string_append_printf (out, "%s%s", quoted, is_last ? "\r\n" : ",");
}

static char *
measured_text (const TlPictureList *self, const TlPictureMark *mark)
{
  const TlMeasure *measure = tl_inspection_measure (self->inspection, mark->measure);
  TlMeasureResult  result;

  if (measure == NULL
      || !tl_inspections_run (self->inspections, self->inspection, measure, &result, NULL))
    return g_strdup ("");
  return tl_measure_text (measure, &result, tl_language_plain ());
}

char *
tl_picture_list_csv (const TlPictureList *self)
{
  GString *out = g_string_new ("number,picture,severity,defect,seen,measured,criterion,source,"
                               "likely_cause,action,deadline,tie,who,when\r\n");

  for (guint i = 0; self->inspection != NULL && i < self->inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (self->inspection->marks, i);
      const TlPhoto       *photo = tl_inspections_photo (self->inspections, mark->picture);
      g_autofree char     *number = g_strdup_printf ("%u", mark->number),
                      *measured = measured_text (self, mark);
      const char *cells[] = { number,
                              photo != NULL ? photo->name : "",
                              tl_grade_words ()[mark->grade],
                              mark->defect,
                              mark->seen,
                              measured,
                              mark->criterion,
                              mark->source,
                              mark->cause,
                              mark->action,
                              mark->deadline,
                              mark->tie,
                              mark->who,
                              mark->when };

      for (guint k = 0; k < G_N_ELEMENTS (cells); k++)
        append_field (out, cells[k], k + 1 == G_N_ELEMENTS (cells));
    }
  return g_string_free (out, FALSE);
}
