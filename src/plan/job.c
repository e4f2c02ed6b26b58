/* job.c: a folder of joints: reading, judging, and the calendar of looks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/job.h"

#include "joint/edit.h"
#include "joint/joint-file.h"
#include "plan/looks.h"
#include "plan/steps-private.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#define ENDING ".tinlap"
#define MAX_THREADS 8

/* What a thread of the pool needs to judge one row; all but the row is shared and immutable. */
typedef struct
{
  const TlStock    *stock;
  const TlLanguage *language;
  const char       *practice;
  const char       *date;
} Work;

/* --- memory --- */

static void
row_free (gpointer data)
{
  TlJobRow *row = data;

  g_free (row->file);
  g_free (row->path);
  g_free (row->message);
  g_free (row->uid);
  g_free (row->date);
  g_free (row->summary);
  g_free (row->reason);
  g_clear_pointer (&row->joint, tl_joint_unref);
  tl_steps_free (row->steps);
  tl_effort_free (row->effort);
  g_free (row);
}

void
tl_job_free (TlJob *self)
{
  if (self == NULL)
    return;
  g_free (self->folder);
  g_free (self->date);
  g_free (self->practice);
  g_ptr_array_unref (self->rows);
  tl_effort_free (self->effort);
  g_free (self);
}

/* --- the folder --- */

static TlJobRow *
row_new (const char *folder, const char *name)
{
  TlJobRow *row = g_new0 (TlJobRow, 1);

  row->file = g_strdelimit (g_filename_display_name (name), "\n\r\t", ' ');
  row->path = g_build_filename (folder, name, NULL);
  row->summary = g_strdup ("");
  row->reason = g_strdup ("");
  return row;
}

/* By the bytes of the path, which all stand in one folder. */
static gint
compare_rows (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(TlJobRow *const *) a)->path, (*(TlJobRow *const *) b)->path);
}

static gboolean
list_folder (TlJob *self, const char *folder, GError **error)
{
  g_autoptr (GError) cause = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &cause);
  g_autofree char *shown = g_filename_display_name (folder);
  const char      *name;

  if (dir == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("%s cannot be read as a folder (%s); give a folder of .tinlap files."), shown,
                   cause->message);
      return FALSE;
    }
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      if (*name == '.' || !g_str_has_suffix (name, ENDING))
        continue;
      if (self->rows->len == TL_JOB_MAX_JOINTS)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
                       _ ("%s holds more than %d joints; a job may have that many at most."), shown,
                       TL_JOB_MAX_JOINTS);
          return FALSE;
        }
      g_ptr_array_add (self->rows, row_new (folder, name));
    }
  if (self->rows->len == 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("There is no joint in %s; give a folder with files that end in .tinlap."),
                   shown);
      return FALSE;
    }
  g_ptr_array_sort (self->rows, compare_rows);
  for (guint i = 0; i < self->rows->len; i++)
    ((TlJobRow *) g_ptr_array_index (self->rows, i))->number = i + 1;
  return TRUE;
}

/* --- one joint --- */

/* Only what is a file is opened: a pipe in the folder would keep its thread waiting for ever. */
static TlJoint *
load (const TlJobRow *row, const Work *work, GError **error)
{
  g_autoptr (TlJoint) joint = NULL;

  if (!g_file_test (row->path, G_FILE_TEST_IS_REGULAR))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("%s is no file; a joint must be one."),
                   row->file);
      return NULL;
    }
  joint = tl_joint_load (row->path, error);
  if (joint == NULL || work->practice == NULL)
    return g_steal_pointer (&joint);
  return tl_edit_set_text (joint, "practice", work->practice, error);
}

gboolean
tl_job_row_holds (const TlJobRow *row)
{
  return row->joint != NULL && tl_look_holds (row->steps);
}

/* Day of the next look after the day of making, or after the latest inspection that counts; a joint that is to be changed
 * first has none. */
static void
find_look (TlJobRow *row, const TlVerdict *verdict, const Work *work)
{
  GDate    made, today;
  gboolean has_today = work->date != NULL && tl_calendar_parse_day (work->date, &today);

  if (!tl_job_row_holds (row) || row->date == NULL || !tl_calendar_parse_day (row->date, &made))
    return;
  tl_look_rhythm (verdict, &made, has_today ? &today : NULL, &row->rhythm);
  row->look = tl_look_rhythm_day (&row->rhythm, 0);
  row->has_look = TRUE;
  row->is_overdue = has_today && g_date_compare (&row->look, &today) < 0;
}

static void
judge (TlJobRow *row, const Work *work)
{
  g_autoptr (TlVerdict) verdict = tl_verdict_new (row->joint, work->stock, TL_VERDICT_FULL);
  const char *made = row->joint->date;
  GDate       day;

  row->uid = tl_look_uid (row->joint);
  row->date = g_strdup (made != NULL && tl_calendar_parse_day (made, &day) ? made : work->date);
  row->steps = tl_steps_new (verdict, row->date, work->language);
  row->effort = tl_effort_new ();
  tl_effort_add (row->effort, verdict, row->steps, work->language);
  g_free (row->summary);
  row->summary = tl_wording_summary (verdict, work->language);
  g_free (row->reason);
  row->reason = tl_look_reason (verdict, work->language);
  for (guint i = 0; i < G_N_ELEMENTS (row->n_findings); i++)
    row->n_findings[i] = tl_verdict_count (verdict, (TlSeverity) i);
  row->n_missing = verdict->unfinished->len;
  row->has_severity = verdict->has_severity;
  row->severity = verdict->severity;
  find_look (row, verdict, work);
}

/* On a thread of the pool: @data is a row, which nobody else touches meanwhile. */
static void
do_row (gpointer data, gpointer user_data)
{
  TlJobRow   *row = data;
  const Work *work = user_data;
  g_autoptr (GError) error = NULL;

  row->joint = load (row, work, &error);
  if (row->joint != NULL)
    judge (row, work);
  else
    row->message = g_strdelimit (g_strdup (error->message), "\n\r", ' ');
}

/* Without threads the rows are done one after the other. */
static void
do_rows (TlJob *self, Work *work)
{
  int          threads = CLAMP ((int) g_get_num_processors (), 1, MAX_THREADS);
  GThreadPool *pool = g_thread_pool_new (do_row, work, threads, FALSE, NULL);

  for (guint i = 0; i < self->rows->len; i++)
    if (pool != NULL)
      g_thread_pool_push (pool, g_ptr_array_index (self->rows, i), NULL);
    else
      do_row (g_ptr_array_index (self->rows, i), work);
  if (pool != NULL)
    g_thread_pool_free (pool, FALSE, TRUE);
}

/* --- all of them --- */

/* Copies of one joint get uids of their own, so that a calendar keeps an event for each. */
static void
number_copies (TlJob *self)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < self->rows->len; i++)
    {
      TlJobRow *row = g_ptr_array_index (self->rows, i);
      guint     copies;

      if (row->uid == NULL)
        continue;
      copies = GPOINTER_TO_UINT (g_hash_table_lookup (seen, row->uid)) + 1;
      g_hash_table_replace (seen, g_strdup (row->uid), GUINT_TO_POINTER (copies));
      if (copies > 1)
        {
          char *uid = g_strdup_printf ("%u-%s", copies, row->uid);

          g_free (row->uid);
          row->uid = uid;
        }
    }
}

static void
add_up (TlJob *self, const TlStock *stock)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      TlJobRow *row = g_ptr_array_index (self->rows, i);

      if (row->joint == NULL)
        continue;
      self->n_read++;
      tl_effort_merge (self->effort, row->effort);
      tl_effort_finish (row->effort, stock);
    }
  tl_effort_finish (self->effort, stock);
}

/* Last part of the path, also of "." and "..", so that what is made does not tell where the folder stands. */
static char *
name_of (const char *folder)
{
  g_autofree char *path = g_canonicalize_filename (folder, NULL);
  g_autofree char *name = g_path_get_basename (path);

  return g_filename_display_name (name);
}

TlJob *
tl_job_new (const TlJobOptions *options, const TlStock *stock, const TlLanguage *language,
            GError **error)
{
  g_autoptr (TlJob) self = g_new0 (TlJob, 1);
  Work work = { stock, language, options->practice, options->date };

  g_return_val_if_fail (options->folder != NULL && stock != NULL && language != NULL, NULL);

  self->folder = name_of (options->folder);
  self->date = g_strdup (options->date);
  self->practice = g_strdup (options->practice);
  self->rows = g_ptr_array_new_with_free_func (row_free);
  self->effort = tl_effort_new ();
  if (!list_folder (self, options->folder, error))
    return NULL;
  do_rows (self, &work);
  number_copies (self);
  add_up (self, stock);
  return g_steal_pointer (&self);
}

guint
tl_job_count_worse (const TlJob *self)
{
  guint count = 0;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const TlJobRow *row = g_ptr_array_index (self->rows, i);

      if (!tl_job_row_holds (row))
        count++;
    }
  return count;
}

guint
tl_job_count_undated (const TlJob *self)
{
  guint count = 0;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const TlJobRow *row = g_ptr_array_index (self->rows, i);

      if (row->joint != NULL && row->date == NULL)
        count++;
    }
  return count;
}

const char *
tl_job_row_word (const TlJobRow *row)
{
  if (row->joint == NULL)
    return TL_N_ ("Not read");
  return row->has_severity ? tl_severity_word (row->severity) : TL_N_ ("Unfinished");
}

const char *
tl_job_row_name (const TlJobRow *row)
{
  return row->joint != NULL ? row->steps->name : row->file;
}

/* --- calendar --- */

char *
tl_job_calendar (const TlJob *self, const TlLanguage *language)
{
  g_autoptr (TlCalendar) calendar = tl_calendar_new ();

  for (guint i = 0; i < self->rows->len; i++)
    {
      const TlJobRow *row = g_ptr_array_index (self->rows, i);
      const char     *stamp = self->date != NULL ? self->date : row->date;
      TlCalendarEntry entry = { .uid = row->uid };

      if (row->joint == NULL || stamp == NULL || !tl_calendar_parse_day (stamp, &entry.stamp))
        continue;
      entry.location = row->steps->place;
      entry.day = row->is_overdue ? entry.stamp : row->look;
      if (row->has_look)
        {
          g_autofree char *last = tl_look_last_text (&row->rhythm, language);

          tl_look_add_event (calendar, &entry, row->steps, row->is_overdue, last, language);
        }
      else
        tl_look_add_to_do (calendar, &entry, row->steps, row->reason, language);
    }
  return tl_calendar_to_text (calendar);
}
