/* job.h: a folder of joints: register with verdicts, what they take together, when to look at them.
 *
 * Every file FOLDER/NAME.tinlap is one joint, in the order of the names; folders within are not entered. A file that cannot
 * be read is a row with its message, and the others are judged all the same. Joints are judged on a pool of threads; what
 * comes out does not depend on their number. No clock is read.
 *
 * A joint keeps the day that its file says it was made; the day of the job stands for joints that say none.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/effort.h"
#include "plan/looks.h"
#include "plan/steps.h"

G_BEGIN_DECLS

/* Joints of one job at most. */
#define TL_JOB_MAX_JOINTS 10000

typedef struct
{
  const char *folder;
  const char *practice; /* (nullable): in place of each document's own */
  const char *date;     /* (nullable): ISO day of the job */
} TlJobOptions;

typedef struct
{
  guint        number;       /* 1, 2, ... */
  char        *file;         /* name in the folder, as UTF-8 */
  char        *path;
  char        *message;      /* (nullable): why it could not be read */
  TlJoint     *joint;        /* (nullable): %NULL if it could not be read; all below is then empty */
  char        *uid;          /* from what the joint holds: the same joint, the same uid */
  char        *date;         /* (nullable): ISO day on which it was made */
  TlStepSheet *steps;
  TlEffort    *effort;       /* of this joint alone */
  char        *summary;      /* "1 to change, 2 to watch, 3 sound." */
  char        *reason;       /* worst finding or first thing missing; "" if all is Sound */
  guint        n_findings[TL_SEVERITY_UNSAFE + 1];
  guint        n_missing;
  gboolean     has_severity; /* %FALSE: Unfinished */
  TlSeverity   severity;
  gboolean     has_look;     /* holds, and the day of its next look is known */
  GDate        look;
  TlLookRhythm rhythm;       /* from where it counts */
  gboolean     is_overdue;   /* that day is before the day of the job */
} TlJobRow;

typedef struct
{
  char      *folder;   /* its name, without the way to it */
  char      *date;     /* (nullable) */
  char      *practice; /* (nullable) */
  GPtrArray *rows;     /* (element-type TlJobRow) */
  TlEffort  *effort;   /* of all that were read */
  guint      n_read;
} TlJob;

/**
 * tl_job_new:
 * @stock: with its packs laid; must outlive the job
 * Returns: (transfer full) (nullable): %NULL with %TL_ERROR_FILE if the folder cannot be read or holds no joint,
 *   %TL_ERROR_LIMIT if it holds too many
 */
TlJob *tl_job_new (const TlJobOptions *options, const TlStock *stock, const TlLanguage *language, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void   tl_job_free (TlJob *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlJob, tl_job_free)

/* Rows that could not be read, or are Change, Unsafe or Unfinished. */
guint tl_job_count_worse (const TlJob *self);
/* "Watch", "Unfinished", "Not read": msgid. */
const char *tl_job_row_word (const TlJobRow *row);
/* Name of the joint, or its file; (transfer none) */
const char *tl_job_row_name (const TlJobRow *row);

/* %TRUE if it may stay and only wants a look: Sound or Watch. */
gboolean tl_job_row_holds (const TlJobRow *row);
/* "16 joints in FOLDER; ..."; (transfer full) */
char *tl_job_summary (const TlJob *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* RFC 5545: an event for each joint that holds, on the day of its next look (on the day of the job if that is past), and
 * a thing to do for each joint that does not. (transfer full) */
char *tl_job_calendar (const TlJob *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Joints that the calendar lacks, since neither they nor the job say a day. */
guint tl_job_count_undated (const TlJob *self);

/* --- job-text.c --- */
/* Register, parts, tools and upkeep as plain text; (transfer full) */
char *tl_job_to_text (const TlJob *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
