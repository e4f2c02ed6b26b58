/* picture-report-annex.c: the forecast of the joint as found, behind the signature: indicative, no evidence.
 *
 * Figures and sentences are those of the forecast itself (plan/ageing.h): bands, never a line, never a date.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-report-private.h"

#include "base/quantity.h"
#include "plan/ageing.h"

#include <string.h>

/* Columns; the last only where there is a force. */
static const TlAgeingOutput order[] = { TL_AGEING_RESISTANCE, TL_AGEING_GROWTH, TL_AGEING_HOT,
                                        TL_AGEING_FORCE };

static void
add_year (TlPictureReport *self, const TlAgeing *ageing, const double *widths, double year)
{
  g_autofree char *when = year > 0.0 ? tl_quantity_format (year, "y", self->language)
                                     : g_strdup (tl_report_text (self, TL_N_ ("new")));
  char            *told[G_N_ELEMENTS (order)] = { NULL };
  const char      *cells[] = { when, "–", "–", "–", "–" };

  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    if (ageing->has[order[i]])
      {
        TlAgeingBand band = tl_ageing_band_at (ageing, order[i], year);

        cells[1 + i] = told[i] = tl_ageing_band_text (ageing, order[i], &band, self->language);
      }
  tl_report_add_row (self, TL_REPORT_ROW, widths, cells);
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    g_free (told[i]);
}

static void
add_bands (TlPictureReport *self, const TlAgeing *ageing)
{
  static const double with_force[] = { 18, 44, 40, 40, 36, 0 }, without[] = { 18, 60, 50, 50, 0 };
  const double       *widths = ageing->has[TL_AGEING_FORCE] ? with_force : without;
  static const char *const head[] = { TL_N_ ("Year"), TL_N_ ("Resistance of the joint at 20 °C"),
                                      TL_N_ ("times its value when new"),
                                      TL_N_ ("Hottest metal at the load"),
                                      TL_N_ ("Clamping force, cold") };
  static const double      years[] = { 0.0, 1.0, 2.0, 5.0, 10.0, 20.0 };

  tl_report_add_head (self, widths, head);
  for (guint i = 0; i < G_N_ELEMENTS (years) && years[i] <= ageing->span_years; i++)
    add_year (self, ageing, widths, years[i]);
}

/* A reading of the joint stands beside the reckoned resistance: it is not where the forecast starts. */
static void
add_readings (TlPictureReport *self)
{
  for (guint i = 0; i < self->inspections->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (self->inspections->readings, i);
      g_autofree char *value = NULL, *line = NULL;

      if (strcmp (reading->inspection, self->inspection->id) != 0
          || reading->kind != TL_READING_RESISTANCE)
        continue;
      value = tl_reading_text (reading, self->language);
      line = g_strdup_printf (
          tl_report_text (
              self, TL_N_ ("The joint was read as %s. The forecast starts from the resistance "
                           "that is reckoned for it when new, not from that reading; where the "
                           "two differ, the reading counts and the years below do not.")),
          value);
      tl_report_add (self, TL_REPORT_TEXT, line);
    }
}

/* The limit that the look is reckoned from, and the look. */
static void
add_look (TlPictureReport *self, const TlAgeing *ageing)
{
  g_autofree char *look = tl_ageing_look_text (ageing, self->language);
  g_autofree char *line =
      g_strdup_printf ("%s: %s. %s", tl_report_text (self, TL_N_ ("Look again")),
                       tl_report_text (self, tl_ageing_look_title (ageing->look)), look);
  g_autofree char *limit = NULL, *sentence = NULL;

  tl_report_add (self, TL_REPORT_TEXT, line);
  /* An Unsafe joint may well have a calm forecast. */
  tl_report_add (
      self, TL_REPORT_TEXT,
      tl_report_text (self, TL_N_ ("Corrosion, damage and what is marked in the pictures are not "
                                   "in it: the action and the day of a finding go before it.")));
  if (!ageing->has_limit)
    return;
  limit = tl_quantity_format (ageing->limit_C, "degC", self->language);
  sentence = g_strdup_printf (
      tl_report_text (self, TL_N_ ("Limit of what touches the hot metal: %s.")), limit);
  tl_report_add (self, TL_REPORT_TEXT, sentence);
}

void
tl_picture_report_annex (TlPictureReport *self)
{
  gboolean         is_found = self->as_found->found != NULL;
  const TlVerdict *verdict = is_found ? self->as_found->found : self->as_found->designed;
  g_autoptr (TlAgeing) ageing = tl_ageing_new (verdict->assembly, NULL, NULL, NULL);
  g_autofree char *basis = NULL, *reason = NULL;

  tl_report_add_heading (self, TL_N_ ("Annex: forecast, indicative and not evidence"))
      ->on_new_page = TRUE;
  tl_report_add_first (
      self, TL_REPORT_TEXT,
      tl_report_text (
          self, TL_N_ ("This annex is reckoned by the program from the design and the found "
                       "values. It shows nothing of what was seen or measured, no finding above "
                       "rests on it, and the signature does not cover it.")));
  if (ageing == NULL || !ageing->is_computed)
    {
      reason = ageing != NULL ? tl_ageing_reason_text (ageing, verdict->assembly, self->language)
                              : g_strdup ("");
      basis =
          g_strdup_printf (tl_report_text (self, TL_N_ ("No forecast was computed. %s")), reason);
      tl_report_add (self, TL_REPORT_TEXT, basis);
      return;
    }
  tl_report_add (
      self, TL_REPORT_TEXT,
      is_found ? tl_report_text (self, TL_N_ ("Of the joint as found: found values in place of "
                                              "the design's, all else as designed."))
               : tl_report_text (self, TL_N_ ("Of the joint as designed: nothing was measured "
                                              "that the design names.")));
  basis = tl_ageing_basis_text (ageing, self->language);
  tl_report_add (self, TL_REPORT_TEXT, basis);
  tl_report_add (
      self, TL_REPORT_TEXT,
      tl_report_text (self, TL_N_ ("Each figure is the middle of the samples, in brackets the 5 "
                                   "and 95 % of them.")));
  add_readings (self);
  add_bands (self, ageing);
  add_look (self, ageing);
}
