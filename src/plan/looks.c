/* looks.c: the later looks at one joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/looks.h"

#include "base/quantity.h"
#include "joint/joint-file.h"
#include "plan/steps-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define MONTHS_A_YEAR 12u
#define UID_LETTERS 32 /* of the fingerprint: more than enough for one folder, and short to read */

/* --- what is looked at --- */

static const TlLookCheck paint_line = {
  "paint-line", TL_N_ ("Line of paint"), TL_N_ ("whole over bolt end, nut and washer"),
  TL_N_ ("If not: cut back and make the joint anew; do not turn the nut further.")
};
static const TlLookCheck sleeve_ends = { "sleeve-ends", TL_N_ ("Sleeve ends"),
                                         TL_N_ ("adhesive all round, nothing dry or lifted"),
                                         TL_N_ ("If not: cut out and remake.") };
static const TlLookCheck insulation = {
  "insulation", TL_N_ ("Insulation"), TL_N_ ("colour even, not browned or stiff"),
  TL_N_ ("If not: cut back to whole insulation, and find the cause.")
};
static const TlLookCheck resistance = { "resistance", TL_N_ ("Resistance, dead"),
                                        TL_N_ ("not over {ratio} times the first"),
                                        TL_N_ ("If not: cut out and remake.") };
static const TlLookCheck heat = { "heat", TL_N_ ("Heat at the load"),
                                  TL_N_ ("metal not above {limit}, cover closed"),
                                  TL_N_ ("If not: do not leave it in service; find the cause.") };
static const TlLookCheck load = { "load", TL_N_ ("Current at the board"),
                                  TL_N_ ("not over {load} in the hottest hour"),
                                  TL_N_ ("If not: share the load out.") };

static void
add_check (TlLooks *self, const TlLookCheck *check)
{
  g_assert (self->n_checks < TL_LOOKS_MOST_CHECKS);
  self->checks[self->n_checks++] = *check;
}

static void
fill_checks (TlLooks *self, const TlAssembly *assembly)
{
  if (assembly->family == TL_FAMILY_STACK)
    add_check (self, &paint_line);
  if (assembly->seal.seal != NULL)
    add_check (self, &sleeve_ends);
  add_check (self, &insulation);
  add_check (self, &resistance);
  if (self->has_limit)
    add_check (self, &heat);
  if (self->load_A > 0.0)
    add_check (self, &load);
}

/* --- when --- */

/* Beyond the end of the forecast there is nothing to expect. */
static void
fill_bands (TlLaterLook *look, const TlAgeing *ageing, double year)
{
  static const TlAgeingOutput figures[] = { TL_AGEING_HOT, TL_AGEING_GROWTH };

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      look->has[figures[i]] = ageing->has[figures[i]] && year <= ageing->span_years;
      if (look->has[figures[i]])
        look->bands[figures[i]] = tl_ageing_band_at (ageing, figures[i], year);
    }
}

static void
fill_looks (TlLooks *self, const TlVerdict *verdict, const TlAgeing *ageing)
{
  const TlPlanner planner = { .verdict = verdict,
                              .assembly = verdict->assembly,
                              .joint = verdict->assembly->joint,
                              .stock = verdict->assembly->stock };
  guint           months, then_months;

  tl_upkeep_intervals (&planner, &months, &then_months);
  for (; (double) months / MONTHS_A_YEAR <= ageing->span_years; months += then_months)
    {
      TlLaterLook look = { .months = months };

      fill_bands (&look, ageing, (double) months / MONTHS_A_YEAR);
      g_array_append_val (self->looks, look);
    }
}

TlLooks *
tl_looks_new (const TlVerdict *verdict, const TlAgeing *ageing)
{
  TlLooks *self;

  g_return_val_if_fail (verdict != NULL && ageing != NULL && ageing->is_computed, NULL);

  self = g_new0 (TlLooks, 1);
  self->looks = g_array_new (FALSE, TRUE, sizeof (TlLaterLook));
  self->ageing = ageing;
  self->load_A = ageing->load_A;
  self->has_limit = ageing->has_limit;
  self->limit_C = ageing->limit_C;
  self->resistance_most = ageing->resistance_most;
  fill_looks (self, verdict, ageing);
  fill_checks (self, verdict->assembly);
  return self;
}

void
tl_looks_free (TlLooks *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->looks);
  g_free (self);
}

/* --- words --- */

char *
tl_looks_when_text (const TlLaterLook *look, const TlLanguage *language)
{
  return tl_upkeep_span_text (look->months, language);
}

/* Whole degrees, hundredths of a ratio: finer than that no forecast is. (transfer full) */
static char *
rounded_text (double value, TlAgeingOutput output, const TlLanguage *language)
{
  if (output == TL_AGEING_GROWTH)
    return tl_language_number (language, value, 2);
  return tl_quantity_format (round (value), tl_ageing_output_unit (output), language);
}

char *
tl_looks_expected_text (const TlLaterLook *look, TlAgeingOutput output, const TlLanguage *language)
{
  const char         *msgid = TL_N_ ("{low} to {high}");
  const TlAgeingBand *band = &look->bands[output];
  g_autofree char    *low = NULL, *high = NULL;

  if (!look->has[output])
    return g_strdup ("");
  low = rounded_text (band->value.low, output, language);
  high = rounded_text (band->value.high, output, language);
  if (band->is_open[0])
    msgid = TL_N_ ("above {low}");
  else if (band->is_open[2])
    msgid = TL_N_ ("{low} to above {high}");
  else if (strcmp (low, high) == 0)
    return g_steal_pointer (&low);
  return tl_wording_fill (tl_language_text (language, msgid), "low", low, "high", high, NULL);
}

char *
tl_looks_limit_text (const TlLooks *self, TlAgeingOutput output, const TlLanguage *language)
{
  if (output == TL_AGEING_HOT && self->has_limit)
    return tl_quantity_format (self->limit_C, "degC", language);
  if (output == TL_AGEING_GROWTH)
    return tl_quantity_format (self->resistance_most, "1", language);
  return g_strdup ("");
}

TlLookPast
tl_looks_past (const TlLooks *self, const TlLaterLook *look, TlAgeingOutput output)
{
  const TlAgeingBand *band = &look->bands[output];
  const double        parts[] = { band->value.high, band->value.best, band->value.low };
  const gboolean      is_open[] = { band->is_open[2], band->is_open[1], band->is_open[0] };
  const gboolean      is_hot = output == TL_AGEING_HOT;
  TlLookPast          past = TL_LOOK_WITHIN;

  if (!look->has[output] || (is_hot ? !self->has_limit : output != TL_AGEING_GROWTH))
    return TL_LOOK_WITHIN;
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (is_open[i] || parts[i] > (is_hot ? self->limit_C : self->resistance_most))
      past = (TlLookPast) (TL_LOOK_UPPER_END_PAST + i);
  return past;
}

const char *
tl_look_past_title (TlLookPast past)
{
  static const char *const titles[] = {
    [TL_LOOK_WITHIN] = "",
    [TL_LOOK_UPPER_END_PAST] = TL_N_ ("upper end past the limit"),
    [TL_LOOK_MIDDLE_PAST] = TL_N_ ("middle past the limit"),
    [TL_LOOK_WHOLE_PAST] = TL_N_ ("all of it past the limit"),
  };

  g_return_val_if_fail ((guint) past < G_N_ELEMENTS (titles), "");
  return titles[past];
}

char *
tl_looks_good_text (const TlLooks *self, const TlLookCheck *check, const TlLanguage *language)
{
  g_autofree char *load_text = tl_quantity_format (self->load_A, "A", language);
  g_autofree char *limit = tl_looks_limit_text (self, TL_AGEING_HOT, language);
  g_autofree char *ratio = tl_looks_limit_text (self, TL_AGEING_GROWTH, language);

  return tl_wording_fill (tl_language_text (language, check->good), "load", load_text, "limit",
                          limit, "ratio", ratio, NULL);
}

/* --- calendar --- */

char *
tl_look_uid (const TlJoint *joint)
{
  gsize            length;
  g_autofree char *text = tl_joint_to_text (joint, &length);
  g_autofree char *sum =
      g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) text, length);

  return g_strdup_printf ("%.*s@tinlap", UID_LETTERS, sum);
}

gboolean
tl_look_holds (const TlStepSheet *steps)
{
  return steps->has_severity && steps->severity <= TL_SEVERITY_WATCH
         && steps->state != TL_SHEET_REFUSED;
}

char *
tl_look_reason (const TlVerdict *verdict, const TlLanguage *language)
{
  const TlFinding *worst =
      verdict->findings->len > 0 ? g_ptr_array_index (verdict->findings, 0) : NULL;

  if (verdict->unfinished->len > 0)
    return tl_wording_problem (verdict->assembly,
                               &g_array_index (verdict->unfinished, TlProblem, 0), language);
  if (worst != NULL && worst->severity > TL_SEVERITY_SOUND)
    return tl_wording_finding (verdict, worst, language);
  return g_strdup ("");
}

void
tl_look_add_event (TlCalendar *calendar, TlCalendarEntry *entry, const TlStepSheet *steps,
                   gboolean is_overdue, const char *expected, const TlLanguage *language)
{
  const char      *msgid = is_overdue ? TL_N_ ("Overdue: look at the joint: {name}")
                                      : TL_N_ ("Look at the joint: {name}");
  g_autofree char *summary =
      tl_wording_fill (tl_language_text (language, msgid), "name", steps->name, NULL);
  g_autofree char *description = g_strdup_printf (
      "%s\n%s%s%s", steps->upkeep,
      tl_language_text (language, TL_N_ ("Isolate and prove dead before opening.")),
      expected != NULL && *expected != '\0' ? "\n" : "", expected != NULL ? expected : "");

  entry->summary = summary;
  entry->description = description;
  tl_calendar_add_event (calendar, entry);
}

void
tl_look_add_to_do (TlCalendar *calendar, TlCalendarEntry *entry, const TlStepSheet *steps,
                   const char *reason, const TlLanguage *language)
{
  const char *word =
      steps->has_severity ? tl_severity_word (steps->severity) : TL_N_ ("Unfinished");
  g_autofree char *summary =
      g_strdup_printf ("%s: %s", tl_language_text (language, word), steps->name);

  entry->is_urgent = steps->has_severity && steps->severity == TL_SEVERITY_UNSAFE;
  entry->summary = summary;
  entry->description = reason;
  tl_calendar_add_to_do (calendar, entry);
}

/* What the forecast expects at one look, a line a figure; "" past its end. (transfer full) */
static char *
expected_of (const TlLooks *self, const TlLaterLook *look, const TlLanguage *language)
{
  static const struct
  {
    TlAgeingOutput output;
    const char    *msgid, *without_limit;
  } figures[] = {
    { TL_AGEING_HOT, TL_N_ ("Hottest metal at the load: {expected} expected, limit {limit}."),
      TL_N_ ("Hottest metal at the load: {expected} expected.") },
    { TL_AGEING_GROWTH,
      TL_N_ ("Resistance, dead, times its first value: {expected} expected, limit {limit}."),
      TL_N_ ("Resistance, dead, times its first value: {expected} expected.") },
  };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      g_autofree char *expected = tl_looks_expected_text (look, figures[i].output, language);
      g_autofree char *limit = tl_looks_limit_text (self, figures[i].output, language);
      g_autofree char *line = NULL;

      if (*expected == '\0')
        continue;
      if (text->len == 0)
        g_string_append (text, tl_language_text (language, TL_N_ ("Indicative:")));
      line = tl_wording_fill (
          tl_language_text (language, *limit != '\0' ? figures[i].msgid : figures[i].without_limit),
          "expected", expected, "limit", limit, NULL);
      g_string_append_printf (text, "\n%s", line);
    }
  return g_string_free (text, FALSE);
}

/* When the last look was, and what to expect at the one with @index. (transfer full) */
static char *
more_of (const TlLooks *self, const TlLookRhythm *rhythm, const GDate *made, guint index,
         const TlLanguage *language)
{
  static const double DAYS_A_YEAR = 365.25;
  const double        months = rhythm->wait_months + index * rhythm->then_months;
  const double        age_years = g_date_days_between (made, &rhythm->from) / DAYS_A_YEAR;
  TlLaterLook         look = { 0 };
  g_autofree char    *last = tl_look_last_text (rhythm, language), *expected = NULL;

  fill_bands (&look, self->ageing, age_years + months / MONTHS_A_YEAR);
  expected = expected_of (self, &look, language);
  if (last == NULL || *expected == '\0')
    return g_strdup (last != NULL ? last : expected);
  return g_strdup_printf ("%s\n%s", last, expected);
}

static void
add_looks (const TlLooks *self, TlCalendar *calendar, const TlVerdict *verdict,
           const TlStepSheet *steps, const GDate *made, const GDate *today,
           const TlLanguage *language)
{
  g_autofree char *uid = tl_look_uid (verdict->assembly->joint);
  TlLookRhythm     rhythm;
  GDate            end = *made, day;

  tl_look_rhythm (verdict, made, today, &rhythm);
  g_date_add_months (&end, (guint) floor (self->ageing->span_years * MONTHS_A_YEAR));
  day = tl_look_rhythm_day (&rhythm, 0);
  for (guint i = 0; i == 0 || g_date_compare (&day, &end) <= 0; i++)
    {
      GDate            next = tl_look_rhythm_day (&rhythm, i + 1);
      gboolean         is_past = g_date_compare (&day, today) < 0;
      g_autofree char *own_uid =
          i == 0 ? g_strdup (uid) : g_strdup_printf ("look-%u-%s", i + 1, uid);
      TlCalendarEntry entry = {
        .uid = own_uid, .stamp = *today, .day = is_past ? *today : day, .location = steps->place
      };

      /* Of those that are past only the latest is left. */
      if (!is_past || g_date_compare (&next, today) >= 0 || g_date_compare (&next, &end) > 0)
        {
          g_autofree char *more = more_of (self, &rhythm, made, i, language);

          tl_look_add_event (calendar, &entry, steps, is_past, more, language);
        }
      day = next;
    }
}

char *
tl_looks_calendar (const TlLooks *self, const TlVerdict *verdict, const char *made,
                   const char *today, const TlLanguage *language, GError **error)
{
  const TlJoint *joint = verdict->assembly->joint;
  const char    *day = made != NULL ? made : joint->date;
  g_autoptr (TlCalendar) calendar = tl_calendar_new ();
  g_autoptr (TlStepSheet) steps = NULL;
  GDate made_day, stamp;

  if (day == NULL || !tl_calendar_parse_day (day, &made_day)
      || !tl_calendar_parse_day (today, &stamp))
    {
      g_set_error_literal (
          error, TL_ERROR, TL_ERROR_STATE,
          _ ("The day on which the joint was made is not known; a day like 2024-03-31 is "
             "wanted."));
      return NULL;
    }
  steps = tl_steps_new (verdict, day, language);
  if (tl_look_holds (steps))
    add_looks (self, calendar, verdict, steps, &made_day, &stamp, language);
  else
    {
      g_autofree char *uid = tl_look_uid (joint);
      g_autofree char *reason = tl_look_reason (verdict, language);
      TlCalendarEntry  entry = { .uid = uid, .stamp = stamp, .location = steps->place };

      tl_look_add_to_do (calendar, &entry, steps, reason, language);
    }
  return tl_calendar_to_text (calendar);
}
