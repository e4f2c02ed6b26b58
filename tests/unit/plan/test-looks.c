/* test-looks.c: the later looks at one joint: days, figures, checks, and the calendar as others read it.
 *
 * Sources: the intervals are rows of data/tables/thresholds.xml (common practice, no source); that they add up month by
 * month is GLib's calendar, g_date_add_months(). RFC 5545, 3.6.1 and 3.6.2, read by libical where it is there. The figures of a
 * look are those of the forecast at that year (plan/ageing.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/edit.h"
#include "joint/pictures.h"
#include "plan-test.h"
#include "plan/job.h"
#include "plan/looks.h"
#include "../picture/files.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#ifdef TL_TEST_LIBICAL
#include <libical/ical.h>
#endif

typedef struct
{
  TlVerdict *verdict;
  TlAgeing  *ageing;
  TlLooks   *looks;
} Fixture;

/* @data: an example */
static void
set_up (Fixture *f, gconstpointer data)
{
  TlAgeingOptions options;

  tl_ageing_options_init (&options);
  options.n_samples = 64;
  f->verdict = pt_judge (pt_example (data));
  f->ageing = tl_ageing_new (f->verdict->assembly, &options, NULL, NULL);
  g_assert_true (f->ageing->is_computed);
  f->looks = tl_looks_new (f->verdict, f->ageing);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  tl_looks_free (f->looks);
  tl_ageing_free (f->ageing);
  tl_verdict_unref (f->verdict);
}

static const TlLaterLook *
look_at (const Fixture *f, guint index)
{
  return &g_array_index (f->looks->looks, TlLaterLook, index);
}

/* From the first interval on in equal steps to the end of the forecast, each with its year of the bands. */
static void
test_table (Fixture *f, gconstpointer data)
{
  guint       n = f->looks->looks->len, step;
  TlThreshold first;

  g_assert_cmpuint (n, >, 2);
  g_assert_true (tl_stock_threshold (f->verdict->assembly->stock, "", "upkeep.first-look", &first));
  g_assert_cmpuint (look_at (f, 0)->months, ==, (guint) lround (12.0 * first.value));
  step = look_at (f, 1)->months - look_at (f, 0)->months;
  for (guint i = 0; i < n; i++)
    {
      const TlLaterLook *look = look_at (f, i);
      double             year = look->months / 12.0;

      g_assert_cmpuint (look->months, ==, look_at (f, 0)->months + i * step);
      g_assert_cmpfloat (year, <=, f->ageing->span_years);
      for (TlAgeingOutput k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        {
          TlAgeingBand band;

          g_assert_true (!look->has[k] || k == TL_AGEING_HOT || k == TL_AGEING_GROWTH);
          if (!look->has[k])
            continue;
          band = tl_ageing_band_at (f->ageing, k, year);
          g_assert_cmpfloat (look->bands[k].value.low, ==, band.value.low);
          g_assert_cmpfloat (look->bands[k].value.high, ==, band.value.high);
        }
    }
  g_assert_cmpfloat ((look_at (f, n - 1)->months + step) / 12.0, >, f->ageing->span_years);
}

/* A bolted stack has its line of paint looked at, a joint in a sealing sleeve its ends; all the insulation. */
static void
test_checks (void)
{
  static const struct
  {
    const char *example, *has, *has_not;
  } cases[] = {
    { "bolted-as-it-should-be", "paint-line", "nothing" },
    { "socket-circuit-weaving-floor", "sleeve-ends", "paint-line" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Fixture  f;
      gboolean has = FALSE, has_insulation = FALSE;

      set_up (&f, cases[i].example);
      for (guint k = 0; k < f.looks->n_checks; k++)
        {
          const TlLookCheck *check = &f.looks->checks[k];
          g_autofree char   *good = tl_looks_good_text (f.looks, check, tl_language_plain ());

          has |= strcmp (check->id, cases[i].has) == 0;
          has_insulation |= strcmp (check->id, "insulation") == 0;
          g_assert_cmpstr (check->id, !=, cases[i].has_not);
          g_assert_null (strchr (good, '{'));
        }
      g_assert_true (has && has_insulation);
      tear_down (&f, NULL);
    }
}

static void
test_texts (Fixture *f, gconstpointer data)
{
  TlLaterLook      look = { .months = 18, .has = { [TL_AGEING_HOT] = TRUE } };
  g_autofree char *when = tl_looks_when_text (&look, tl_language_plain ()), *closed = NULL,
                  *open = NULL, *none = NULL;

  g_assert_cmpstr (when, ==, "18 months");
  look.bands[TL_AGEING_HOT].value = (TlRange){ 54.0, 57.0, 75.0 };
  closed = tl_looks_expected_text (&look, TL_AGEING_HOT, tl_language_plain ());
  g_assert_nonnull (strstr (closed, "54"));
  g_assert_nonnull (strstr (closed, "75"));
  look.bands[TL_AGEING_HOT].is_open[2] = TRUE;
  open = tl_looks_expected_text (&look, TL_AGEING_HOT, tl_language_plain ());
  g_assert_nonnull (strstr (open, "above 75"));
  none = tl_looks_expected_text (&look, TL_AGEING_GROWTH, tl_language_plain ());
  g_assert_cmpstr (none, ==, "");
}

/* A figure is past its limit when it is above it, end by end; what cannot be reckoned any more is past any limit. */
static void
test_past_limit (Fixture *f, gconstpointer data)
{
  static const struct
  {
    TlRange    value;
    gboolean   is_open[3];
    TlLookPast past;
  } cases[] = {
    { { 40, 50, 70 }, { FALSE }, TL_LOOK_WITHIN }, /* at the limit is not past it */
    { { 40, 50, 70.5 }, { FALSE }, TL_LOOK_UPPER_END_PAST },
    { { 40, 71, 80 }, { FALSE }, TL_LOOK_MIDDLE_PAST },
    { { 71, 72, 80 }, { FALSE }, TL_LOOK_WHOLE_PAST },
    { { 40, 50, 60 }, { FALSE, FALSE, TRUE }, TL_LOOK_UPPER_END_PAST },
    { { 40, 50, 60 }, { TRUE, TRUE, TRUE }, TL_LOOK_WHOLE_PAST },
  };
  TlLooks limits = { .has_limit = TRUE, .limit_C = 70.0, .resistance_most = 70.0 };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    for (guint k = 0; k < 2; k++)
      {
        TlAgeingOutput output = k == 0 ? TL_AGEING_HOT : TL_AGEING_GROWTH;
        TlLaterLook    look = { .months = 12 };

        look.bands[output].value = cases[i].value;
        memcpy (look.bands[output].is_open, cases[i].is_open, sizeof cases[i].is_open);
        g_assert_cmpint (tl_looks_past (&limits, &look, output), ==, TL_LOOK_WITHIN);
        look.has[output] = TRUE;
        g_assert_cmpint (tl_looks_past (&limits, &look, output), ==, cases[i].past);
        g_assert_cmpint (*tl_look_past_title (cases[i].past) != '\0', ==,
                         cases[i].past != TL_LOOK_WITHIN);
        limits.has_limit = FALSE;
        if (output == TL_AGEING_HOT)
          g_assert_cmpint (tl_looks_past (&limits, &look, output), ==, TL_LOOK_WITHIN);
        limits.has_limit = TRUE;
      }
  /* The limit of resistance is a row of the table of thresholds, and this joint stays below it at first. */
  g_assert_cmpfloat (f->looks->resistance_most, ==, f->ageing->resistance_most);
  g_assert_cmpint (tl_looks_past (f->looks, look_at (f, 0), TL_AGEING_GROWTH), ==, TL_LOOK_WITHIN);
}

/* --- calendar --- */

/* Of a look that is past only the latest is left, as overdue, on the day of writing. */
static void
test_past (Fixture *f, gconstpointer data)
{
  g_autofree char *text = tl_looks_calendar (f->looks, f->verdict, "2000-01-31", "2010-06-15",
                                             tl_language_plain (), NULL);
  const char      *overdue = strstr (text, "SUMMARY:Overdue");
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (overdue);
  g_assert_true (g_strrstr (text, "SUMMARY:Overdue") == overdue); /* the only one */
  g_assert_nonnull (strstr (overdue, "DTSTART;VALUE=DATE:20100615\r\n"));
  g_assert_null (strstr (text, "DTSTART;VALUE=DATE:2009"));
  g_assert_null (
      tl_looks_calendar (f->looks, f->verdict, "soon", "2010-06-15", tl_language_plain (), &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_STATE);
}

/* A joint that is to be changed first gives a thing to do and no looks. */
static void
test_to_do (Fixture *f, gconstpointer data)
{
  g_autofree char *text = tl_looks_calendar (f->looks, f->verdict, "2024-01-31", "2024-01-31",
                                             tl_language_plain (), NULL);

  g_assert_nonnull (strstr (text, "BEGIN:VTODO\r\n"));
  g_assert_null (strstr (text, "BEGIN:VEVENT"));
}

/* --- looks that were made --- */

#define MADE "2024-01-31"
#define TODAY "2026-06-15"

typedef struct
{
  const char *begun; /* day; NULL ends a list */
  TlGrade     grade; /* of its one mark */
  gboolean    is_issued;
} Made;

/* Takes the new value in place of the old one. */
static void
step (TlInspections **all, TlInspections *next, GError *const *error)
{
  g_assert_no_error (*error);
  tl_inspections_unref (*all);
  *all = next;
}

/* A joint made on MADE with a picture and these inspections. (transfer full) */
static TlJoint *
inspected (const char *example, const Made *looks)
{
  g_autoptr (TlJoint) joint = pt_example (example), dated = NULL;
  g_autoptr (TlInspections) all = tl_inspections_new ();
  g_autoptr (GBytes) bytes = tf_exif_jpeg (40, 30, 1, FALSE);
  g_autoptr (GError) error = NULL;
  const TlActor    first = { "R. Alder", MADE "T08:00:00+01:00" };
  TlPhoto         *photo = tl_photo_new (bytes, "a.jpg", first.who, first.when, &error);
  g_autofree char *picture = NULL;

  g_assert_no_error (error);
  step (&all, tl_inspections_add_photo (all, photo, &first, &picture, &error), &error);
  tl_record_unref (photo);
  for (; looks->begun != NULL; looks++)
    {
      const TlPixel    place = { 1.0, 1.0 };
      g_autofree char *when = g_strconcat (looks->begun, "T10:00:00+01:00", NULL), *id = NULL;
      const TlActor    actor = { "R. Alder", when };
      TlPictureMark   *mark = tl_record_new (&tl_picture_mark_form);

      tl_record_text (&mark->picture, picture);
      tl_record_text (&mark->seen, "the joint");
      g_array_append_val (mark->points, place);
      mark->grade = looks->grade;
      step (&all, tl_inspections_begin (all, &actor, &id, &error), &error);
      step (&all, tl_inspections_put (all, id, mark, NULL, &error), &error);
      tl_record_unref (mark);
      if (looks->is_issued)
        step (&all, tl_inspections_issue (all, id, &actor, &error), &error);
    }
  dated = tl_edit_set_text (joint, "date", MADE, &error);
  g_assert_no_error (error);
  return tl_edit_set_inspections (dated, all, NULL);
}

/* In a damp place: first look after a year, then every two (rows of the table of thresholds). An inspection moves the next
 * look if it counts, and one that is open, of the day of making, or of a day yet to come does not. */
static void
test_made (void)
{
  static const struct
  {
    const char *name;
    Made        looks[3];
    const char *last, *next;
  } cases[] = {
    { "none", { { NULL } }, NULL, "2025-01-31" },
    { "issued", { { "2025-03-10", TL_GRADE_NOTHING_SEEN, TRUE } }, "2025-03-10", "2027-03-10" },
    { "watch", { { "2025-03-10", TL_GRADE_WATCH, TRUE } }, "2025-03-10", "2027-03-10" },
    { "open", { { "2025-03-10", TL_GRADE_NOTHING_SEEN, FALSE } }, NULL, "2025-01-31" },
    { "at-making", { { MADE, TL_GRADE_NOTHING_SEEN, TRUE } }, NULL, "2025-01-31" },
    { "before", { { "2023-06-01", TL_GRADE_NOTHING_SEEN, TRUE } }, NULL, "2025-01-31" },
    { "to-come", { { "2026-06-16", TL_GRADE_NOTHING_SEEN, TRUE } }, NULL, "2025-01-31" },
    { "today", { { TODAY, TL_GRADE_NOTHING_SEEN, TRUE } }, TODAY, "2028-06-15" },
    { "early", { { "2024-08-31", TL_GRADE_NOTHING_SEEN, TRUE } }, "2024-08-31", "2025-08-31" },
    { "change", { { "2025-03-10", TL_GRADE_CHANGE, TRUE } }, "2025-03-10", "2026-03-10" },
    { "latest",
      { { "2026-02-01", TL_GRADE_NOTHING_SEEN, TRUE }, { "2025-03-10", TL_GRADE_UNSAFE, TRUE } },
      "2026-02-01",
      "2028-02-01" },
  };
  GDate made, today;

  g_assert_true (tl_calendar_parse_day (MADE, &made));
  g_assert_true (tl_calendar_parse_day (TODAY, &today));
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlVerdict) verdict =
          pt_judge (inspected ("socket-circuit-weaving-floor", cases[i].looks));
      TlLookRhythm rhythm;
      GDate        next;
      char         day[16];

      g_test_message ("%s", cases[i].name);
      tl_look_rhythm (verdict, &made, &today, &rhythm);
      g_assert_cmpint (rhythm.has_last, ==, cases[i].last != NULL);
      g_date_strftime (day, sizeof day, "%Y-%m-%d", &rhythm.from);
      g_assert_cmpstr (day, ==, cases[i].last != NULL ? cases[i].last : MADE);
      next = tl_look_rhythm_day (&rhythm, 0);
      g_date_strftime (day, sizeof day, "%Y-%m-%d", &next);
      g_assert_cmpstr (day, ==, cases[i].next);
    }
}

#ifdef TL_TEST_LIBICAL
/* What was looked at is not overdue; the looks after it are named, with when the last one was, and the figures of the year in
 * which they fall. An old joint whose forecast has ended still has one look to come. */
static void
test_made_read_by_others (void)
{
  static const Made done[] = { { "2026-03-10", TL_GRADE_NOTHING_SEEN, TRUE }, { NULL } },
                    late[] = { { "2125-05-01", TL_GRADE_NOTHING_SEEN, TRUE }, { NULL } };
  static const struct
  {
    const Made *looks;
    const char *today, *first;
    gboolean    has_figures, is_only;
  } cases[] = {
    { done, TODAY, "20280310", TRUE, FALSE },
    { late, "2125-06-01", "21270501", FALSE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Fixture          f;
      TlAgeingOptions  options;
      g_autofree char *text = NULL, *last = NULL;
      icalcomponent   *calendar, *event;
      int              n;

      tl_ageing_options_init (&options);
      options.n_samples = 64;
      f.verdict = pt_judge (inspected ("socket-circuit-weaving-floor", cases[i].looks));
      f.ageing = tl_ageing_new (f.verdict->assembly, &options, NULL, NULL);
      f.looks = tl_looks_new (f.verdict, f.ageing);
      text =
          tl_looks_calendar (f.looks, f.verdict, NULL, cases[i].today, tl_language_plain (), NULL);
      calendar = icalparser_parse_string (text);
      g_assert_nonnull (calendar);
      icalrestriction_check (calendar);
      g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
      n = icalcomponent_count_components (calendar, ICAL_VEVENT_COMPONENT);
      g_assert_cmpint (n, >=, 1);
      g_assert_cmpint (n == 1, ==, cases[i].is_only);
      event = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);
      g_assert_cmpstr (icaltime_as_ical_string (icalcomponent_get_dtstart (event)), ==,
                       cases[i].first);
      last = g_strdup_printf ("Last looked at on %s.", cases[i].looks[0].begun);
      g_assert_nonnull (strstr (icalcomponent_get_description (event), last));
      g_assert_cmpint (strstr (icalcomponent_get_description (event), "expected") != NULL, ==,
                       cases[i].has_figures);
      g_assert_false (g_str_has_prefix (icalcomponent_get_summary (event), "Overdue"));
      icalcomponent_free (calendar);
      tear_down (&f, NULL);
    }
}

/* Each look is an event on its day; the first is the very one that the calendar of a job has. */
static void
test_read_by_others (Fixture *f, gconstpointer data)
{
  g_autofree char *text = tl_looks_calendar (f->looks, f->verdict, "2024-01-31", "2024-02-01",
                                             tl_language_plain (), NULL);
  g_autofree char *uid = tl_look_uid (f->verdict->assembly->joint);
  g_autoptr (GHashTable) uids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  icalcomponent *calendar = icalparser_parse_string (text);
  icalcomponent *event;
  guint          n = 0;

  g_assert_nonnull (calendar);
  icalrestriction_check (calendar);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_ANY_COMPONENT), ==,
                   f->looks->looks->len);
  for (event = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT); event != NULL;
       event = icalcomponent_get_next_component (calendar, ICAL_VEVENT_COMPONENT), n++)
    {
      struct icaltimetype start = icalcomponent_get_dtstart (event);
      const char         *says = icalcomponent_get_description (event);
      g_autofree char    *expected =
          tl_looks_expected_text (look_at (f, n), TL_AGEING_HOT, tl_language_plain ());
      GDate day;

      if (n == 0)
        g_assert_cmpstr (icalcomponent_get_uid (event), ==, uid);
      g_assert_true (g_hash_table_add (uids, g_strdup (icalcomponent_get_uid (event))));
      g_date_clear (&day, 1);
      g_date_set_dmy (&day, 31, G_DATE_JANUARY, 2024);
      g_date_add_months (&day, look_at (f, n)->months);
      g_assert_true (icaltime_is_date (start));
      g_assert_cmpint (start.year, ==, g_date_get_year (&day));
      g_assert_cmpint (start.month, ==, (int) g_date_get_month (&day));
      g_assert_cmpint (start.day, ==, g_date_get_day (&day));
      g_assert_nonnull (strstr (says, expected));
      g_assert_nonnull (strstr (says, "prove dead"));
    }
  g_assert_cmpuint (n, ==, f->looks->looks->len);
  icalcomponent_free (calendar);
}
#endif

#define WITH(path, example, function)                                                              \
  g_test_add (path, Fixture, example, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  WITH ("/looks/table/sleeve", "socket-circuit-weaving-floor", test_table);
  WITH ("/looks/table/stack", "bolted-as-it-should-be", test_table);
  WITH ("/looks/texts", "socket-circuit-weaving-floor", test_texts);
  WITH ("/looks/past-limit", "bolted-as-it-should-be", test_past_limit);
  g_test_add_func ("/looks/checks", test_checks);
  WITH ("/looks/past", "socket-circuit-weaving-floor", test_past);
  WITH ("/looks/to-do", "zinc-washer", test_to_do);
  g_test_add_func ("/looks/made", test_made);
#ifdef TL_TEST_LIBICAL
  g_test_add_func ("/looks/made/read-by-others", test_made_read_by_others);
  WITH ("/looks/read-by-others", "socket-circuit-weaving-floor", test_read_by_others);
#endif
  return g_test_run ();
}
