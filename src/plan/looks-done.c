/* looks-done.c: looks that were made: the inspections in the document, and what they move.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/pictures.h"
#include "plan/looks.h"
#include "plan/steps-private.h"

#include <string.h>

#define ISO_DAY_LETTERS 10u

/* Day on which an inspection was begun: "2026-03-03" of "2026-03-03T10:30:00+01:00". */
static gboolean
day_begun (const TlInspection *inspection, GDate *day)
{
  g_autofree char *text = g_strndup (inspection->begun, ISO_DAY_LETTERS);

  return tl_calendar_parse_day (text, day);
}

/* A revision has the day of what it revises; of two on one day the later entry says how the joint was found. */
static const TlInspection *
latest_that_counts (const TlInspections *inspections, const GDate *made, const GDate *today,
                    GDate *latest)
{
  const TlInspection *found = NULL;

  for (guint i = 0; i < inspections->inspections->len; i++)
    {
      const TlInspection *inspection = g_ptr_array_index (inspections->inspections, i);
      GDate               day;

      if (!tl_inspection_is_closed (inspection) || !day_begun (inspection, &day)
          || g_date_compare (&day, made) <= 0 || (today != NULL && g_date_compare (&day, today) > 0)
          || (found != NULL && g_date_compare (&day, latest) < 0))
        continue;
      *latest = day;
      found = inspection;
    }
  return found;
}

void
tl_look_rhythm (const TlVerdict *verdict, const GDate *made, const GDate *today,
                TlLookRhythm *rhythm)
{
  const TlPlanner planner = { .verdict = verdict,
                              .assembly = verdict->assembly,
                              .joint = verdict->assembly->joint,
                              .stock = verdict->assembly->stock };
  /* Pages that cannot be read have no looks: the older, earlier day stays. */
  g_autoptr (TlInspections) inspections = tl_joint_inspections (planner.joint, NULL);
  const TlInspection *latest;
  GDate               first_look = *made;
  guint               first_months, then_months;

  tl_upkeep_intervals (&planner, &first_months, &then_months);
  *rhythm =
      (TlLookRhythm){ .from = *made, .wait_months = first_months, .then_months = then_months };
  latest =
      inspections == NULL ? NULL : latest_that_counts (inspections, made, today, &rhythm->from);
  if (latest == NULL)
    return;
  rhythm->has_last = TRUE;
  g_date_add_months (&first_look, first_months);
  rhythm->wait_months = then_months;
  if (g_date_compare (&rhythm->from, &first_look) < 0
      || tl_inspections_grade (inspections, latest, planner.stock) > TL_GRADE_WATCH)
    rhythm->wait_months = MIN (first_months, then_months);
}

GDate
tl_look_rhythm_day (const TlLookRhythm *rhythm, guint index)
{
  GDate day = rhythm->from;

  g_date_add_months (&day, rhythm->wait_months + index * rhythm->then_months);
  return day;
}

char *
tl_look_last_text (const TlLookRhythm *rhythm, const TlLanguage *language)
{
  char day[16];

  if (!rhythm->has_last)
    return NULL;
  g_date_strftime (day, sizeof day, "%Y-%m-%d", &rhythm->from);
  return tl_wording_fill (tl_language_text (language, TL_N_ ("Last looked at on {day}.")), "day",
                          day, NULL);
}
