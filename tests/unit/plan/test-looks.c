/* test-looks.c: the later looks at one joint: days, figures, checks, and the calendar as others read it.
 *
 * Sources: the intervals are rows of data/tables/thresholds.xml (common practice, no source); that they add up month by
 * month is GLib's calendar, g_date_add_months(). RFC 5545, 3.6.1 and 3.6.2, read by libical where it is there. The figures of a
 * look are those of the forecast at that year (plan/ageing.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan-test.h"
#include "plan/job.h"
#include "plan/looks.h"

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

#ifdef TL_TEST_LIBICAL
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
  g_test_add_func ("/looks/checks", test_checks);
  WITH ("/looks/past", "socket-circuit-weaving-floor", test_past);
  WITH ("/looks/to-do", "zinc-washer", test_to_do);
#ifdef TL_TEST_LIBICAL
  WITH ("/looks/read-by-others", "socket-circuit-weaving-floor", test_read_by_others);
#endif
  return g_test_run ();
}
