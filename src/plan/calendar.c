/* calendar.c: a calendar as text, RFC 5545.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/calendar.h"

#include <string.h>

#define FOLD_OCTETS 75 /* RFC 5545, 3.1: without the line end */

struct _TlCalendar
{
  GString *entries;
  guint    count;
};

TlCalendar *
tl_calendar_new (void)
{
  TlCalendar *self = g_new0 (TlCalendar, 1);

  self->entries = g_string_new (NULL);
  return self;
}

void
tl_calendar_free (TlCalendar *self)
{
  if (self == NULL)
    return;
  g_string_free (self->entries, TRUE);
  g_free (self);
}

guint
tl_calendar_count (const TlCalendar *self)
{
  return self->count;
}

/* Adds a content line, folded. The space that begins a folded line counts as one of its octets. */
static void
append_line (GString *out, const char *line)
{
  gsize room = FOLD_OCTETS;

  for (const char *c = line; *c != '\0';)
    {
      const char *next = g_utf8_next_char (c);
      gsize       octets = (gsize) (next - c);

      if (octets > room)
        {
          g_string_append (out, "\r\n ");
          room = FOLD_OCTETS - 1;
        }
      g_string_append_len (out, c, (gssize) octets);
      room -= octets;
      c = next;
    }
  g_string_append (out, "\r\n");
}

/* TEXT as RFC 5545, 3.3.11 wants it; control letters but line ends are no text and are left out. (transfer full) */
static char *
escaped (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString         *out = g_string_new (NULL);

  for (const char *c = valid; *c != '\0'; c++)
    {
      if (*c == '\\' || *c == ';' || *c == ',')
        g_string_append_printf (out, "\\%c", *c);
      else if (*c == '\n')
        g_string_append (out, "\\n");
      else if ((guchar) *c >= 0x20 && (guchar) *c != 0x7f)
        g_string_append_c (out, *c);
    }
  return g_string_free (out, FALSE);
}

static void
append_text (GString *out, const char *property, const char *text)
{
  g_autofree char *value = NULL;
  g_autofree char *line = NULL;

  if (text == NULL || *text == '\0')
    return;
  value = escaped (text);
  line = g_strdup_printf ("%s:%s", property, value);
  append_line (out, line);
}

/* @property with a day in it: @before, the day, @after. */
static void
append_day (GString *out, const char *before, const GDate *day, const char *after)
{
  g_autofree char *line =
      g_strdup_printf ("%s%04d%02d%02d%s", before, g_date_get_year (day),
                       (int) g_date_get_month (day), g_date_get_day (day), after);

  append_line (out, line);
}

static void
append_entry (GString *out, const TlCalendarEntry *entry)
{
  append_text (out, "UID", entry->uid);
  append_day (out, "DTSTAMP:", &entry->stamp, "T000000Z");
  append_text (out, "SUMMARY", entry->summary);
  append_text (out, "LOCATION", entry->location);
  append_text (out, "DESCRIPTION", entry->description);
}

void
tl_calendar_add_event (TlCalendar *self, const TlCalendarEntry *entry)
{
  g_return_if_fail (self != NULL && entry != NULL && entry->uid != NULL);
  g_return_if_fail (g_date_valid (&entry->stamp) && g_date_valid (&entry->day));

  append_line (self->entries, "BEGIN:VEVENT");
  append_entry (self->entries, entry);
  append_day (self->entries, "DTSTART;VALUE=DATE:", &entry->day, "");
  append_line (self->entries, "TRANSP:TRANSPARENT");
  append_line (self->entries, "END:VEVENT");
  self->count++;
}

void
tl_calendar_add_to_do (TlCalendar *self, const TlCalendarEntry *entry)
{
  g_return_if_fail (self != NULL && entry != NULL && entry->uid != NULL);
  g_return_if_fail (g_date_valid (&entry->stamp));

  append_line (self->entries, "BEGIN:VTODO");
  append_entry (self->entries, entry);
  append_line (self->entries, entry->is_urgent ? "PRIORITY:1" : "PRIORITY:5");
  append_line (self->entries, "STATUS:NEEDS-ACTION");
  append_line (self->entries, "END:VTODO");
  self->count++;
}

char *
tl_calendar_to_text (const TlCalendar *self)
{
  GString *out = g_string_new (NULL);

  append_line (out, "BEGIN:VCALENDAR");
  append_line (out, "VERSION:2.0");
  append_line (out, "PRODID:-//Tinlap//Tinlap " TL_VERSION "//EN");
  append_line (out, "CALSCALE:GREGORIAN");
  g_string_append (out, self->entries->str);
  append_line (out, "END:VCALENDAR");
  return g_string_free (out, FALSE);
}

gboolean
tl_calendar_parse_day (const char *text, GDate *day)
{
  g_auto (GStrv) fields = g_strsplit (text, "-", 4);
  guint64 year, month, date;

  if (strlen (text) != 10 || g_strv_length (fields) != 3
      || !g_ascii_string_to_unsigned (fields[0], 10, 1900, 9999, &year, NULL)
      || !g_ascii_string_to_unsigned (fields[1], 10, 1, 12, &month, NULL)
      || !g_ascii_string_to_unsigned (fields[2], 10, 1, 31, &date, NULL)
      || !g_date_valid_dmy ((GDateDay) date, (GDateMonth) month, (GDateYear) year))
    return FALSE;
  g_date_clear (day, 1);
  g_date_set_dmy (day, (GDateDay) date, (GDateMonth) month, (GDateYear) year);
  return TRUE;
}
