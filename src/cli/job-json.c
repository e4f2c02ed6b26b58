/* job-json.c: a folder of joints as JSON: ids, figures and English sentences; same input, same bytes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/job-private.h"

#include "base/json.h"

#include <math.h>

static void
write_day (TlJson *json, const char *name, const GDate *day)
{
  g_autofree char *text = g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (day),
                                           (int) g_date_get_month (day), g_date_get_day (day));

  tl_json_string (json, name, text);
}

static void
write_minutes (TlJson *json, const TlEffort *effort)
{
  if (effort->timed_steps == 0)
    {
      tl_json_null (json, "minutes");
      return;
    }
  tl_json_open (json, "minutes", FALSE);
  tl_json_number (json, "value", effort->minutes_min.best);
  tl_json_number (json, "low", effort->minutes_min.low);
  tl_json_number (json, "high", effort->minutes_min.high);
  tl_json_string (json, "unit", "min");
  tl_json_close (json);
}

static void
write_effort (TlJson *json, const TlEffort *effort)
{
  tl_json_open (json, "effort", FALSE);
  write_minutes (json, effort);
  tl_json_number (json, "steps_without_minutes", effort->untimed_steps);
  tl_json_open (json, "prices", TRUE);
  for (guint i = 0; i < effort->sums->len; i++)
    {
      const TlEffortSum *sum = g_ptr_array_index (effort->sums, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_number (json, "price", sum->price);
      tl_json_string (json, "currency", sum->currency);
      tl_json_close (json);
    }
  tl_json_close (json);
  tl_json_number (json, "parts_without_price", effort->unpriced);
  tl_json_close (json);
}

static void
write_counts (TlJson *json, const TlJobRow *row)
{
  tl_json_open (json, "counts", FALSE);
  for (guint i = G_N_ELEMENTS (row->n_findings); i > 0; i--)
    tl_json_number (json, tl_severity_word ((TlSeverity) (i - 1)), row->n_findings[i - 1]);
  tl_json_number (json, "missing", row->n_missing);
  tl_json_close (json);
}

static void
write_row (TlJson *json, const TlJobRow *row)
{
  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "number", row->number);
  tl_json_string (json, "file", row->file);
  tl_json_string (json, "error", row->message);
  if (row->joint != NULL)
    {
      tl_json_string (json, "joint", row->joint->name);
      tl_json_string (json, "place", row->joint->place);
      tl_json_string (json, "practice", row->joint->practice);
      tl_json_string (json, "uid", row->uid);
      tl_json_string (json, "verdict", row->has_severity ? tl_severity_word (row->severity) : NULL);
      write_counts (json, row);
      tl_json_string (json, "text", row->reason);
      tl_json_string (json, "made", row->date);
      if (row->has_look)
        write_day (json, "next_look", &row->look);
      else
        tl_json_null (json, "next_look");
      if (row->has_look && row->rhythm.has_last)
        write_day (json, "last_look", &row->rhythm.from);
      else
        tl_json_null (json, "last_look");
      write_effort (json, row->effort);
    }
  tl_json_close (json);
}

static void
write_part (TlJson *json, const TlEffortPart *part)
{
  tl_json_open (json, NULL, FALSE);
  tl_json_string (json, "part", part->part);
  tl_json_string (json, "kind", tl_part_kind_word (part->kind));
  tl_json_string (json, "name", part->name);
  tl_json_string (json, "size", part->size);
  tl_json_string (json, "is_there", part->is_there ? "yes" : "no");
  tl_json_number (json, "count", part->count);
  tl_json_number (json, "length_m", part->length_m > 0.0 ? part->length_m : (double) NAN);
  tl_json_number (json, "amount_g", part->amount_g > 0.0 ? part->amount_g : (double) NAN);
  tl_json_number (json, "joints", part->joints);
  tl_json_number (json, "price", part->has_price ? part->price : (double) NAN);
  tl_json_string (json, "currency", part->has_price ? part->currency : NULL);
  tl_json_string (json, "in_van", part->in_van ? "yes" : "no");
  tl_json_string (json, "is_short", part->is_short ? "yes" : "no");
  tl_json_close (json);
}

char *
tl_cli_job_json (const TlJob *job, const TlStock *stock)
{
  TlJson *json = tl_json_new ();

  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "format", 1);
  tl_json_string (json, "program", "tinlap " TL_VERSION);
  tl_json_string (json, "data_version", tl_stock_version (stock));
  tl_json_string (json, "date", job->date);
  tl_json_number (json, "worse", tl_job_count_worse (job));
  tl_json_open (json, "joints", TRUE);
  for (guint i = 0; i < job->rows->len; i++)
    write_row (json, g_ptr_array_index (job->rows, i));
  tl_json_close (json);
  tl_json_open (json, "parts", TRUE);
  for (guint i = 0; i < job->effort->parts->len; i++)
    write_part (json, g_ptr_array_index (job->effort->parts, i));
  tl_json_close (json);
  tl_json_open (json, "tools", TRUE);
  for (guint i = 0; i < job->effort->tools->len; i++)
    {
      const TlEffortTool *tool = g_ptr_array_index (job->effort->tools, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "name", tool->name);
      tl_json_number (json, "joints", tool->joints);
      tl_json_close (json);
    }
  tl_json_close (json);
  write_effort (json, job->effort);
  tl_json_close (json);
  return tl_json_finish (json);
}
