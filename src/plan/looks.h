/* looks.h: the later looks at one joint: when, what is checked, what figure to expect, its limit; and as a calendar.
 *
 * The days follow the table of intervals (common practice, no source), the figures the forecast (ageing.h): an indication,
 * trust class I. A clamping force is not among the figures, since nobody can read it off at a look.
 * No clock is read: the day of making and the day on which the calendar is written are given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/ageing.h"
#include "plan/calendar.h"
#include "plan/steps.h"

G_BEGIN_DECLS

#define TL_LOOKS_MOST_CHECKS 8

/* One look. */
typedef struct
{
  guint        months; /* after the joint was made */
  gboolean     has[TL_N_AGEING_OUTPUTS]; /* hottest metal and growth, as far as they were forecast */
  TlAgeingBand bands[TL_N_AGEING_OUTPUTS];
} TlLaterLook;

/* What is looked at each time; msgids. */
typedef struct
{
  const char *id;     /* "insulation" */
  const char *what;
  const char *good;   /* with {load}, {ratio}, {limit} */
  const char *if_not;
} TlLookCheck;

typedef struct
{
  GArray     *looks; /* (element-type TlLaterLook): from the first to the end of the forecast */
  TlLookCheck checks[TL_LOOKS_MOST_CHECKS];
  guint       n_checks;
  double      load_A;          /* 0 if the joint says none */
  gboolean    has_limit;
  double      limit_C;         /* of what touches the hot metal */
  double      resistance_most; /* times its first value: remake */
  /*< private >*/
  const TlAgeing *ageing; /* for days between those of the table */
} TlLooks;

/* How much of a band lies past its limit. */
typedef enum
{
  TL_LOOK_WITHIN, /* none of it, or there is no limit or no figure */
  TL_LOOK_UPPER_END_PAST,
  TL_LOOK_MIDDLE_PAST,
  TL_LOOK_WHOLE_PAST,
} TlLookPast;

/* @ageing: computed; must outlive the looks. (transfer full) */
TlLooks *tl_looks_new (const TlVerdict *verdict, const TlAgeing *ageing) G_GNUC_WARN_UNUSED_RESULT;
void     tl_looks_free (TlLooks *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlLooks, tl_looks_free)

/* --- words; all (transfer full) --- */

/* "1 year", "18 months" */
char *tl_looks_when_text (const TlLaterLook *look, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "54 °C to 75 °C", or "" where it was not forecast */
char *tl_looks_expected_text (const TlLaterLook *look, TlAgeingOutput output, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "70 °C", or "" where there is none */
char *tl_looks_limit_text (const TlLooks *self, TlAgeingOutput output, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Against the limit of the table: temperature of what touches the metal, ratio at which to remake. An open end is past it. */
TlLookPast tl_looks_past (const TlLooks *self, const TlLaterLook *look, TlAgeingOutput output);
/* "upper end past the limit", msgid; "" for none */
const char *tl_look_past_title (TlLookPast past);
/* Of a check: what is good, with its figures. */
char *tl_looks_good_text (const TlLooks *self, const TlLookCheck *check, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_looks_calendar:
 * @made: (nullable): ISO day; without it the joint's own
 * @today: ISO day on which it is written
 *
 * RFC 5545: an event for each look that is not past; the latest one that is past as overdue, on @today. Where the document
 * holds inspections the looks count on from the latest that counts (tl_look_rhythm()), and one more is named even past the
 * end of the forecast, then without figures to expect. A joint that is to be
 * changed first, or not to be made, gives one thing to do instead. The first look has the uid that a job's calendar gives
 * it, so that taking in both leaves one.
 * Returns: (transfer full) (nullable): %NULL with %TL_ERROR_STATE if no day of making is known
 */
char *tl_looks_calendar (const TlLooks *self, const TlVerdict *verdict, const char *made, const char *today, const TlLanguage *language, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- what a job's calendar is made of as well --- */

/* From which day the looks of a joint count. */
typedef struct
{
  GDate    from;        /* of making, or of the latest inspection that counts */
  gboolean has_last;    /* it is that of an inspection */
  guint    wait_months; /* from it to the next look */
  guint    then_months; /* from one look to the next */
} TlLookRhythm;

/**
 * tl_look_rhythm:
 * @made: valid day of making
 * @today: (nullable): a later inspection is left out; without it none is
 * @rhythm: (out caller-allocates):
 *
 * An inspection counts if its report was issued and it was begun after the day of making and not after @today: an open one
 * is not finished, one on the day of making is part of making it. The day is that on which it was begun, since that is when
 * somebody looked; a revision of a report has the day of the look that it revises. The latest such day counts, and after it the
 * ordinary interval. Only where it came before the day of the first look, or its worst grade is Change or Unsafe, the first
 * interval stands again if it is the shorter one: what was seen early has yet to settle, what was mended is as new.
 *
 * Source: intervals from the table of thresholds; how looks count on is common practice, no source
 */
void  tl_look_rhythm (const TlVerdict *verdict, const GDate *made, const GDate *today, TlLookRhythm *rhythm);
/* Day of the look @index from now: 0 the next one. */
GDate tl_look_rhythm_day (const TlLookRhythm *rhythm, guint index);
/* "Last looked at on 2027-03-03."; (nullable) (transfer full) */
char *tl_look_last_text (const TlLookRhythm *rhythm, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* From what the joint holds: the same joint, the same uid. (transfer full) */
char *tl_look_uid (const TlJoint *joint) G_GNUC_WARN_UNUSED_RESULT;
/* %TRUE if it may stay and only wants a look: Sound or Watch. */
gboolean tl_look_holds (const TlStepSheet *steps);
/* The worst finding or the first thing missing, "" if all is Sound. (transfer full) */
char *tl_look_reason (const TlVerdict *verdict, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* @entry with uid, stamp, day and place; @expected: (nullable): more to say */
void tl_look_add_event (TlCalendar *calendar, TlCalendarEntry *entry, const TlStepSheet *steps, gboolean is_overdue, const char *expected, const TlLanguage *language);
void tl_look_add_to_do (TlCalendar *calendar, TlCalendarEntry *entry, const TlStepSheet *steps, const char *reason, const TlLanguage *language);

G_END_DECLS
