/* test-calendar.c: calendars as text against RFC 5545, and read back by a library of others where there is one.
 *
 * Rules: RFC 5545, 3.1 (CRLF, folding at 75 octets), 3.3.11 (escapes), 3.6.1 and 3.6.2 (what an event and a thing to do
 * must have). The expected text was written by hand from these.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/calendar.h"

#include <string.h>

#ifdef TL_TEST_LIBICAL
#include <libical/ical.h>
#endif

#define HARD "Box 3; lift, \\ back\nsecond line \xe2\x80\x94 2.5 mm\xc2\xb2"

static GDate
day (const char *text)
{
  GDate date;

  g_assert_true (tl_calendar_parse_day (text, &date));
  return date;
}

static char *
calendar_of (const char *summary, gboolean to_do)
{
  g_autoptr (TlCalendar) calendar = tl_calendar_new ();
  TlCalendarEntry entry = { .uid = "abc@tinlap",
                            .stamp = day ("2024-01-31"),
                            .day = day ("2025-02-28"),
                            .summary = summary,
                            .location = "Fennick Mill",
                            .description = "" };

  if (to_do)
    tl_calendar_add_to_do (calendar, &entry);
  else
    tl_calendar_add_event (calendar, &entry);
  g_assert_cmpuint (tl_calendar_count (calendar), ==, 1);
  return tl_calendar_to_text (calendar);
}

static void
test_text (void)
{
  g_autofree char *text = calendar_of ("A, b; c\\d\ne", FALSE);

  g_assert_cmpstr (text, ==,
                   "BEGIN:VCALENDAR\r\n"
                   "VERSION:2.0\r\n"
                   "PRODID:-//Tinlap//Tinlap " TL_VERSION "//EN\r\n"
                   "CALSCALE:GREGORIAN\r\n"
                   "BEGIN:VEVENT\r\n"
                   "UID:abc@tinlap\r\n"
                   "DTSTAMP:20240131T000000Z\r\n"
                   "SUMMARY:A\\, b\\; c\\\\d\\ne\r\n"
                   "LOCATION:Fennick Mill\r\n"
                   "DTSTART;VALUE=DATE:20250228\r\n"
                   "TRANSP:TRANSPARENT\r\n"
                   "END:VEVENT\r\n"
                   "END:VCALENDAR\r\n");
}

static void
test_to_do (void)
{
  g_autofree char *text = calendar_of ("Change", TRUE);

  g_assert_nonnull (strstr (text, "BEGIN:VTODO\r\nUID:abc@tinlap\r\nDTSTAMP:20240131T000000Z\r\n"));
  g_assert_nonnull (strstr (text, "PRIORITY:5\r\nSTATUS:NEEDS-ACTION\r\nEND:VTODO\r\n"));
  g_assert_null (strstr (text, "DTSTART"));
}

/* Every length around the fold, in letters of one to four octets: short lines, whole letters, nothing lost. */
static void
test_folding (void)
{
  static const char *const letters[] = { "a", "\xc2\xb2", "\xe2\x80\x94", "\xf0\x9f\x94\xa7" };

  for (guint l = 0; l < G_N_ELEMENTS (letters); l++)
    for (guint n = 1; n < 200; n++)
      {
        GString         *summary = g_string_new (NULL);
        g_autofree char *text = NULL;
        g_autofree char *unfolded = NULL;
        g_autofree char *wanted = NULL;
        g_auto (GStrv) lines = NULL;
        g_auto (GStrv) pieces = NULL;

        for (guint i = 0; i < n; i++)
          g_string_append (summary, letters[l]);
        text = calendar_of (summary->str, FALSE);
        lines = g_strsplit (text, "\r\n", -1);
        for (guint i = 0; lines[i] != NULL; i++)
          {
            g_assert_cmpuint (strlen (lines[i]), <=, 75);
            g_assert_true (g_utf8_validate (lines[i], -1, NULL));
            g_assert_null (strchr (lines[i], '\n'));
          }
        pieces = g_strsplit (text, "\r\n ", -1);
        unfolded = g_strjoinv ("", pieces);
        wanted = g_strdup_printf ("\r\nSUMMARY:%s\r\n", summary->str);
        g_assert_nonnull (strstr (unfolded, wanted));
        g_string_free (summary, TRUE);
      }
}

/* Letters that are no text, and bytes that are no UTF-8, do not reach the file. */
static void
test_hostile_text (void)
{
  g_autofree char *text = calendar_of ("a\tb\rc\x01\x7f d\xff e\r\nBEGIN:VALARM", FALSE);

  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_nonnull (strstr (text, "SUMMARY:abc d\xef\xbf\xbd e\\nBEGIN:VALARM\r\n"));
  for (const char *c = text; *c != '\0'; c++)
    g_assert_true ((guchar) *c >= 0x20 || *c == '\r' || *c == '\n');
}

static void
test_days (void)
{
  static const char *const bad[] = { "",           "2024-3-31",  "2024-02-30",
                                     "2023-02-29", "1899-12-31", "2024-13-01",
                                     "2024-01-32", "24-01-31",   "2024-01-31x",
                                     "2024/01/31", "-024-01-31" };
  GDate                    date;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (tl_calendar_parse_day (bad[i], &date));
  g_assert_true (tl_calendar_parse_day ("2024-02-29", &date));
  g_assert_cmpuint (g_date_get_day (&date), ==, 29);
}

#ifdef TL_TEST_LIBICAL
static void
test_read_by_others (void)
{
  g_autofree char    *text = calendar_of (HARD, FALSE);
  icalcomponent      *calendar = icalparser_parse_string (text);
  icalcomponent      *event;
  struct icaltimetype start;

  g_assert_nonnull (calendar);
  g_assert_cmpint (icalcomponent_isa (calendar), ==, ICAL_VCALENDAR_COMPONENT);
  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_ANY_COMPONENT), ==, 1);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  g_assert_true (icalrestriction_check (calendar));
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  event = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);
  g_assert_cmpstr (icalcomponent_get_summary (event), ==, HARD);
  g_assert_cmpstr (icalcomponent_get_uid (event), ==, "abc@tinlap");
  start = icalcomponent_get_dtstart (event);
  g_assert_true (icaltime_is_date (start));
  g_assert_cmpint (start.year, ==, 2025);
  g_assert_cmpint (start.month, ==, 2);
  g_assert_cmpint (start.day, ==, 28);
  icalcomponent_free (calendar);
}
#endif

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calendar/text", test_text);
  g_test_add_func ("/calendar/to-do", test_to_do);
  g_test_add_func ("/calendar/folding", test_folding);
  g_test_add_func ("/calendar/hostile-text", test_hostile_text);
  g_test_add_func ("/calendar/days", test_days);
#ifdef TL_TEST_LIBICAL
  g_test_add_func ("/calendar/read-by-others", test_read_by_others);
#endif
  return g_test_run ();
}
