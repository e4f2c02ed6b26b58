/* picture-report-figures.c: what the report of an inspection says.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-report-private.h"

#include "base/quantity.h"
#include "draw/sheet-private.h"
#include "rules/wording.h"

#include <string.h>

/* --- adding --- */

/* "IEC 60364-6, edition, clause (seen)"; "" for none. (transfer full) */
static char *
citation (const TlPictureReport *self, const char *source, TlKnownBy known_by)
{
  if (source == NULL || *source == '\0' || tl_stock_source (self->stock, source) == NULL)
    return g_strdup ("");
  return tl_source_citation (self->stock, source, known_by, self->language);
}

/* --- sections --- */

static void
compose_occasion (TlPictureReport *self)
{
  const TlInspection *i = self->inspection;
  g_autofree char    *program =
      g_strdup_printf ("Tinlap %s, %s %s", TL_VERSION, tl_report_text (self, TL_N_ ("data")),
                       tl_stock_version (self->stock));

  tl_report_add (
      self, TL_REPORT_CAUTION,
      tl_report_text (
          self, TL_N_ ("Isolate, prove dead and lock off before anyone reaches in. A picture shows "
                       "what can be seen and never that a joint is "
                       "sound: wrong die, missing compound and low torque leave nothing to see.")));
  tl_report_add_heading (self, TL_N_ ("Occasion"));
  tl_report_add_pair (self, TL_N_ ("Purpose and question"), i->purpose);
  tl_report_add_pair (self, TL_N_ ("Joint, place"),
                      *self->joint->place != '\0' ? self->joint->place : self->joint->name);
  tl_report_add_pair (self, TL_N_ ("Date and time, zone"), i->begun);
  tl_report_add_pair (self, TL_N_ ("Printed"), self->date != NULL ? self->date : "");
  tl_report_add_pair (self, TL_N_ ("Present"), i->present);
  tl_report_add_pair (self, TL_N_ ("Author"), i->author);
  tl_report_add_pair (self, TL_N_ ("Qualification"), i->qualification);
  tl_report_add_pair (self, TL_N_ ("Not inspected, not reachable"), i->not_inspected);
  tl_report_add_pair (self, TL_N_ ("Assumptions"), i->assumptions);
  tl_report_add_pair (
      self, TL_N_ ("Decision rule"),
      tl_report_text (self, TL_N_ ("U is the expanded uncertainty, k = 2 (about 95 %). Within or "
                                   "beyond a limit only with the whole of value ± U; "
                                   "else undecided.")));
  tl_report_add_pair (self, TL_N_ ("Program"), program);
}

/* The word of a verdict, with what it lacks. */
static void
compose_verdicts (TlPictureReport *self)
{
  TlReportBlock *block;

  tl_report_add_heading (self, TL_N_ ("As designed beside as found"));
  block = tl_report_add_first (self, TL_REPORT_VERDICTS,
                               tl_report_text (self, tl_verdict_word (self->as_found->designed)));
  block->cells[1] =
      g_strdup (self->as_found->found != NULL
                    ? tl_report_text (self, tl_verdict_word (self->as_found->found))
                    : tl_report_text (
                        self, TL_N_ ("not computed: nothing was measured that the design names")));
}

/* What is worse than Watch as found; the same sentence of two ends once. */
static void
compose_found_findings (TlPictureReport *self)
{
  g_autoptr (GHashTable) said = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; self->as_found->found != NULL && i < self->as_found->found->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (self->as_found->found->findings, i);
      char            *sentence;

      if (finding->severity < TL_SEVERITY_CHANGE)
        continue;
      sentence = tl_wording_finding (self->as_found->found, finding, self->language);
      if (!g_hash_table_contains (said, sentence))
        {
          g_autofree char *line = g_strdup_printf (
              "%s: %s. %s", tl_report_text (self, TL_N_ ("as found")),
              tl_report_text (self, tl_severity_word (finding->severity)), sentence);

          tl_report_add (self, TL_REPORT_TEXT, line);
        }
      g_hash_table_add (said, sentence);
    }
}

static void
compose_found (TlPictureReport *self)
{
  static const double      widths[] = { 62, 34, 38, 44, 0 };
  static const char *const head[] = { TL_N_ ("What"), TL_N_ ("as designed"), TL_N_ ("as found"),
                                      TL_N_ ("Result") };

  if (self->as_found->rows->len > 0)
    tl_report_add_head (self, widths, head);
  for (guint i = 0; i < self->as_found->rows->len; i++)
    {
      const TlFoundRow *row = g_ptr_array_index (self->as_found->rows, i);
      g_autofree char  *owner =
          tl_owner_text (self->as_found->designed, row->found->owner, self->stock, self->language);
      g_autofree char *design = tl_found_row_design_text (row, self->stock, self->language);
      g_autofree char *value = tl_found_row_value_text (row, self->stock, self->language);
      g_autofree char *what = g_strdup_printf (
          "%s: %s", owner,
          row->field < TL_N_FIELDS ? tl_report_text (self, tl_field_info (row->field)->label)
                                   : row->found->field);
      const char *cells[] = { what, design, value,
                              row->error != NULL
                                  ? row->error
                                  : tl_report_text (self, tl_decision_word (row->decision)) };

      tl_report_add_row (self, TL_REPORT_ROW, widths, cells);
    }
  compose_found_findings (self);
}

static void
compose_unchecked (TlPictureReport *self)
{
  g_autoptr (GString) all = g_string_new (NULL);

  if (self->as_found->unchecked->len == 0)
    return;
  tl_report_add_heading (self, TL_N_ ("Assumed as designed: not checked"));
  for (guint i = 0; i < self->as_found->unchecked->len; i++)
    {
      g_autofree char *line =
          tl_unchecked_text (g_ptr_array_index (self->as_found->unchecked, i),
                             self->as_found->designed, self->stock, self->language);

      g_string_append_printf (all, "%s%s", all->len > 0 ? "; " : "", line);
      if (all->len < 900 && i + 1 < self->as_found->unchecked->len)
        continue;
      tl_report_add_first (self, TL_REPORT_TEXT, all->str);
      g_string_truncate (all, 0);
    }
}

/* "box-open.jpg · JPEG · 4000 × 3000 · taken ..." */
static char *
photo_line (const TlPictureReport *self, const TlPhoto *photo, guint number)
{
  g_autofree char *clock =
      photo->has_clock ? g_strdup_printf (
          tl_report_text (self, TL_N_ ("camera clock off by %.0f s")), photo->clock_s)
                       : g_strdup (tl_report_text (self, TL_N_ ("camera clock not checked")));
  guint w, h;

  tl_photo_size (photo, &w, &h);
  return g_strdup_printf (
      "%s %u: %s%s%s. %s, %u × %u px. %s %s%s, %s. %s", tl_report_text (self, TL_N_ ("Picture")),
      number, *photo->caption != '\0' ? photo->caption : photo->name,
      photo->is_rendered ? ". " : "",
      photo->is_rendered ? tl_report_text (self, TL_N_ ("Rendered by a program: no photograph"))
                         : "",
      tl_report_text (self, tl_photo_kind_label (photo->kind)), w, h,
      tl_report_text (self, TL_N_ ("Taken")),
      *photo->taken != '\0' ? photo->taken
                            : tl_report_text (self, TL_N_ ("at a time that it does not say")),
      photo->zone, clock, *photo->camera != '\0' ? photo->camera : "");
}

static void
compose_pictures (TlPictureReport *self)
{
  tl_report_add_heading (self, TL_N_ ("Pictures"));
  for (guint i = 0; i < self->inspections->photos->len; i++)
    {
      const TlPhoto   *photo = g_ptr_array_index (self->inspections->photos, i);
      g_autofree char *line = photo_line (self, photo, i + 1);
      TlReportBlock   *block = tl_report_add_first (self, TL_REPORT_PICTURE, "");

      block->index = i;
      tl_report_add (self, TL_REPORT_TEXT, line)->keep = TRUE;
      {
        g_autofree char *words = tl_picture_report_words (self, i);

        tl_report_add (self, TL_REPORT_TEXT, words)->keep = TRUE;
      }
      if (g_ptr_array_index (self->surfaces, i) == NULL)
        tl_report_add (
            self, TL_REPORT_TEXT,
            tl_report_text (
                self, TL_N_ ("The original of this picture is missing or cannot be decoded.")))
            ->keep = TRUE;
    }
}

/* "; camera about 240 mm away by its own note", ""; (transfer full) */
static char *
distance_text (const TlPictureReport *self, const TlMeasureResult *result)
{
  g_autofree char *distance = NULL;

  if (!result->is_distance_estimated)
    return g_strdup ("");
  distance = tl_quantity_format (result->distance_mm, "mm", self->language);
  return g_strdup_printf (tl_report_text (self, TL_N_ ("; camera about %s away by its own note")),
                          distance);
}

static void
compose_measures (TlPictureReport *self)
{
  static const double      widths[] = { 52, 32, 32, 26, 36, 0 };
  static const char *const head[] = { TL_N_ ("What"), TL_N_ ("Value ± U"), TL_N_ ("Limit"),
                                      TL_N_ ("Result"), TL_N_ ("Reference, plane") };

  if (self->inspection->measures->len == 0)
    return;
  tl_report_add_heading (self, TL_N_ ("Measured in the pictures"));
  tl_report_add_head (self, widths, head);
  for (guint i = 0; i < self->inspection->measures->len; i++)
    {
      const TlMeasure *measure = g_ptr_array_index (self->inspection->measures, i);
      const TlScale   *scale = tl_inspection_scale (self->inspection, measure->scale);
      g_autofree char *limit = tl_measure_limit_text (measure, self->language);
      g_autofree char *limit_line = g_strdup_printf (
          "%s%s%s", limit, *measure->limit_from != '\0' ? ", " : "", measure->limit_from);
      g_autofree char *value = NULL, *reference = NULL, *distance = NULL;
      g_autoptr (GError) error = NULL;
      TlMeasureResult result;
      const char     *plane = "", *word;

      if (!tl_inspections_run (self->inspections, self->inspection, measure, &result, &error))
        {
          value = g_strdup (tl_report_text (self, TL_N_ ("not computed")));
          word = error->message;
        }
      else
        {
          value = tl_measure_text (measure, &result, self->language);
          word = tl_report_text (self, tl_decision_word (tl_measure_decide (measure, &result)));
          plane = !result.plane_assured ? tl_report_text (self, TL_N_ ("plane not assured"))
                  : result.is_outside
                      ? tl_report_text (self, TL_N_ ("outside the reference: trust it less"))
                      : tl_report_text (self, TL_N_ ("plane stated"));
          distance = distance_text (self, &result);
        }
      reference = g_strdup_printf ("%s; %s%s", scale != NULL ? scale->what : "", plane,
                                   distance != NULL ? distance : "");
      {
        const char *cells[] = { measure->what, value, limit_line, word, reference };

        tl_report_add_row (self, TL_REPORT_ROW, widths, cells);
      }
    }
}

static void
compose_reading (TlPictureReport *self, const TlReading *reading, const double *widths)
{
  g_autoptr (GArray) results = tl_reading_judge (reading, self->stock);
  g_autofree char *value = tl_reading_text (reading, self->language);
  g_autofree char *instrument =
      g_strdup_printf ("%s\n%s %s %s", tl_report_text (self, tl_reading_kind_label (reading->kind)),
                       reading->instrument, reading->serial, reading->calibrated);

  for (guint i = 0; i < results->len; i++)
    {
      const TlReadingResult *result = &g_array_index (results, TlReadingResult, i);
      g_autofree char       *figure = tl_reading_result_text (result, self->language);
      g_autofree char       *source = citation (self, result->source, result->known_by);
      g_autofree char *says = g_strdup_printf ("%s: %s", tl_report_text (self, result->criterion),
                                               tl_report_text (self, result->says));
      const char *cells[] = { i == 0 ? instrument : "", i == 0 ? value : "", says, figure, source };

      tl_report_add_row (self, TL_REPORT_ROW, widths, cells)->grade =
          result->is_computed ? (int) result->grade : -1;
    }
}

static void
compose_readings (TlPictureReport *self)
{
  static const double      widths[] = { 40, 26, 52, 24, 36, 0 };
  static const char *const head[] = { TL_N_ ("Reading, instrument"), TL_N_ ("Value"),
                                      TL_N_ ("Criterion"), TL_N_ ("Figure"), TL_N_ ("Source") };
  gboolean                 has_head = FALSE;

  for (guint i = 0; i < self->inspections->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (self->inspections->readings, i);

      if (strcmp (reading->inspection, self->inspection->id) != 0)
        continue;
      if (!has_head)
        {
          tl_report_add_heading (self, TL_N_ ("Readings"));
          tl_report_add_head (self, widths, head);
        }
      has_head = TRUE;
      compose_reading (self, reading, widths);
    }
}

/* As the catalogue knows it; a source that the author named himself is stated. */
static TlKnownBy
known_by_of (const TlPictureReport *self, const TlPictureMark *mark)
{
  const TlDefect *defect = tl_defects_find (self->defects, mark->defect);

  return defect != NULL && strcmp (defect->source, mark->source) == 0 ? defect->known_by
                                                                      : TL_KNOWN_STATED;
}

static void
compose_findings (TlPictureReport *self)
{
  static const double      widths[] = { 34, 56, 44, 44, 0 };
  static const char *const head[] = { TL_N_ ("Mark, severity"), TL_N_ ("Seen and measured"),
                                      TL_N_ ("Action, by when"), TL_N_ ("Criterion, source") };

  if (self->inspection->marks->len == 0)
    return;
  tl_report_add_heading (self, TL_N_ ("Findings: facts"));
  tl_report_add_head (self, widths, head);
  for (guint i = 0; i < self->inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (self->inspection->marks, i);
      const TlMeasure     *measure = tl_inspection_measure (self->inspection, mark->measure);
      g_autofree char     *tie =
          *mark->tie != '\0'
                  ? tl_owner_text (self->as_found->designed, mark->tie, self->stock, self->language)
                  : g_strdup ("");
      g_autofree char *number = g_strdup_printf (
          "%u %s\n%s", mark->number, tl_report_text (self, tl_grade_label (mark->grade)), tie);
      g_autofree char *action = g_strdup_printf (
          "%s%s%s", mark->action, *mark->deadline != '\0' ? "\n" : "", mark->deadline);
      g_autofree char *source = citation (self, mark->source, known_by_of (self, mark));
      g_autofree char *criterion =
          g_strdup_printf ("%s%s%s", mark->criterion,
                           *mark->criterion != '\0' && *source != '\0' ? "\n" : "", source);
      g_autofree char *measured = NULL, *seen = NULL;
      TlMeasureResult  result;

      if (measure != NULL
          && tl_inspections_run (self->inspections, self->inspection, measure, &result, NULL))
        measured = tl_measure_text (measure, &result, self->language);
      seen = measured != NULL ? g_strdup_printf (
                 "%s\n%s %s", mark->seen, tl_report_text (self, TL_N_ ("measured")), measured)
                              : g_strdup (mark->seen);
      {
        const char *cells[] = { number, seen, action, criterion };

        tl_report_add_row (self, TL_REPORT_ROW, widths, cells)->grade = (int) mark->grade;
      }
    }
}

static void
compose_opinion (TlPictureReport *self)
{
  gboolean is_any = *self->inspection->conclusion != '\0';

  for (guint i = 0; i < self->inspection->marks->len; i++)
    is_any = is_any
             || *((TlPictureMark *) g_ptr_array_index (self->inspection->marks, i))->cause != '\0';
  if (!is_any)
    return;
  tl_report_add_heading (self, TL_N_ ("Opinion of the author"));
  for (guint i = 0; i < self->inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (self->inspection->marks, i);
      g_autofree char     *line = NULL;

      if (*mark->cause == '\0')
        continue;
      line = g_strdup_printf (tl_report_text (self, TL_N_ ("Mark %u is consistent with: %s")),
                              mark->number, mark->cause);
      tl_report_add_first (self, TL_REPORT_TEXT, line);
    }
  if (*self->inspection->conclusion != '\0')
    tl_report_add_first (self, TL_REPORT_TEXT, self->inspection->conclusion);
}

/* What changed since the inspection before this one. */
static void
compose_changes (TlPictureReport *self)
{
  const TlInspection *before = NULL;
  g_autoptr (GPtrArray) changes = NULL;

  for (guint i = 0; i + 1 < self->inspections->inspections->len; i++)
    if (g_ptr_array_index (self->inspections->inspections, i + 1) == self->inspection)
      before = g_ptr_array_index (self->inspections->inspections, i);
  if (before == NULL)
    return;
  changes = tl_inspections_changes (self->inspections, before, self->inspection, self->language);
  tl_report_add_heading (self, TL_N_ ("Since the inspection before"));
  for (guint i = 0; i < changes->len; i++)
    tl_report_add_first (self, TL_REPORT_TEXT, g_ptr_array_index (changes, i));
  if (changes->len == 0)
    tl_report_add_first (self, TL_REPORT_TEXT,
                         tl_report_text (self, TL_N_ ("No change was noted.")));
}

static void
compose_custody (TlPictureReport *self)
{
  static const double widths[] = { 34, 144, 0 };
  gboolean            good;
  g_autoptr (GPtrArray) lines =
      tl_inspections_verify (self->inspections, self->joint->originals, self->language, &good);

  tl_report_add_heading (self, TL_N_ ("Hashes and custody"));
  for (guint i = 0; i < self->inspections->photos->len; i++)
    {
      const TlPhoto   *photo = g_ptr_array_index (self->inspections->photos, i);
      g_autofree char *line = g_strdup_printf ("SHA-256 %s\n%s %s, %s", photo->sha256,
                                               tl_report_text (self, TL_N_ ("imported")),
                                               photo->imported, photo->importer);
      const char      *cells[] = { photo->name, line };

      tl_report_add_row (self, TL_REPORT_ROW, widths, cells);
    }
  for (guint i = 0; i < lines->len; i++)
    {
      const TlCheckLine *line = g_ptr_array_index (lines, i);

      if (line->check != TL_CHECK_GOOD || strcmp (line->object, "custody") == 0)
        tl_report_add (self, TL_REPORT_TEXT, line->text);
    }
  tl_report_add (
      self, TL_REPORT_TEXT,
      tl_report_text (
          self,
          TL_N_ ("A hash shows that bytes are unchanged since it was taken; not that the scene "
                 "was honest, nor when the picture was "
                 "taken. What a camera writes into its files can be edited and is a claim.")));
}

void
tl_picture_report_compose (TlPictureReport *self)
{
  compose_occasion (self);
  compose_verdicts (self);
  compose_found (self);
  compose_findings (self);
  compose_measures (self);
  compose_readings (self);
  compose_pictures (self);
  compose_opinion (self);
  compose_changes (self);
  compose_unchecked (self);
  compose_custody (self);
  tl_report_add_heading (self, TL_N_ ("Signature"));
  tl_report_add_first (self, TL_REPORT_SIGNATURE, "");
  /* After the signature: it covers nothing of this. */
  tl_picture_report_annex (self);
}
