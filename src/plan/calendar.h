/* calendar.h: a calendar as text, RFC 5545.
 *
 * All-day events and things to do without a day. Lines end in CRLF and are folded at 75 octets, never inside a letter; text is escaped. No clock is
 * read: stamps are days that the caller gives, so that the same input gives the same bytes.
 * Not here: which joint is looked at when (job.h).
 *
 * Source: RFC 5545, Internet Calendaring and Scheduling Core Object Specification (2009), 3.1 folding, 3.3.11 text,
 * 3.6.1 event, 3.6.2 to-do, 3.8.1.9 priority, 3.8.4.7 unique identifier, 3.8.7.2 stamp
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct _TlCalendar TlCalendar;

typedef struct
{
  const char *uid;         /* ASCII, the same for the same thing each time */
  GDate       stamp;       /* when what is written here was last known */
  GDate       day;         /* of an event */
  gboolean    is_urgent;   /* of a thing to do */
  const char *summary;     /* UTF-8; "" leaves a property out */
  const char *location;
  const char *description;
} TlCalendarEntry;

TlCalendar *tl_calendar_new (void) G_GNUC_WARN_UNUSED_RESULT;
void        tl_calendar_free (TlCalendar *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlCalendar, tl_calendar_free)

/* @stamp must be a valid day, and @day of an event as well. */
void  tl_calendar_add_event (TlCalendar *self, const TlCalendarEntry *entry);
void  tl_calendar_add_to_do (TlCalendar *self, const TlCalendarEntry *entry);
guint tl_calendar_count (const TlCalendar *self);
/* The whole calendar; (transfer full) */
char *tl_calendar_to_text (const TlCalendar *self) G_GNUC_WARN_UNUSED_RESULT;

/* "2024-03-31" as a day; %FALSE and @day untouched if it is none from 1900 to 9999. */
gboolean tl_calendar_parse_day (const char *text, GDate *day);

G_END_DECLS
