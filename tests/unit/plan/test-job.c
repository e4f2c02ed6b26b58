/* test-job.c: a folder of joints: register, parts, looks, and what a broken file does to the others.
 *
 * What a job says of a joint is held against what the joint says alone; sums against sums worked here. Intervals of
 * looks stand in the table of thresholds (common practice, no source).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/job.h"
#include "joint/edit.h"
#include "plan-test.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#ifdef TL_TEST_LIBICAL
#include <libical/ical.h>
#endif

#define WATCH "socket-circuit-weaving-floor"
#define UNSAFE "copper-on-aluminium"

typedef struct
{
  char *folder;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("tinlap-job-XXXXXX", &error);
  g_assert_no_error (error);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (fixture->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (fixture->folder, name, NULL);

      /* Files, pipes, links and empty folders alike. */
      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
}

static void
put_text (const Fixture *fixture, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
}

/* An example under another file name, made on @date (%NULL: as it is). */
static void
put (const Fixture *fixture, const char *name, const char *example, const char *date)
{
  g_autoptr (TlJoint) joint = pt_example (example);
  g_autoptr (TlJoint) dated = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  dated = date != NULL ? tl_edit_set_text (joint, "date", date, &error) : tl_joint_ref (joint);
  g_assert_no_error (error);
  text = tl_joint_to_text (dated, NULL);
  put_text (fixture, name, text);
}

static TlJob *
job_of (const char *folder, const char *date, const TlStock *stock)
{
  const TlJobOptions options = { .folder = folder, .date = date };
  g_autoptr (GError) error = NULL;
  TlJob *job = tl_job_new (&options, stock, tl_language_plain (), &error);

  g_assert_no_error (error);
  g_assert_nonnull (job);
  return job;
}

static const TlJobRow *
row_at (const TlJob *job, guint index)
{
  g_assert_cmpuint (index, <, job->rows->len);
  return g_ptr_array_index (job->rows, index);
}

static char *
examples (void)
{
  return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", NULL);
}

/* All examples: each row says what the joint says alone, sheet and all. */
static void
test_same_as_alone (void)
{
  g_autofree char *folder = examples ();
  g_autoptr (GPtrArray) names = pt_example_names ();
  g_autoptr (TlJob) job = job_of (folder, "2026-01-15", pt_stock ());
  guint worse = 0;

  g_assert_cmpstr (job->folder, ==, "examples");
  g_assert_cmpuint (job->rows->len, ==, names->len);
  g_assert_cmpuint (job->n_read, ==, names->len);
  for (guint i = 0; i < names->len; i++)
    {
      const TlJobRow *row = row_at (job, i);
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (g_ptr_array_index (names, i)));
      g_autoptr (TlStepSheet) steps = tl_steps_new (verdict, row->date, tl_language_plain ());
      g_autofree char *alone = tl_steps_to_text (steps, tl_language_plain ());
      g_autofree char *here = tl_steps_to_text (row->steps, tl_language_plain ());

      g_assert_cmpuint (row->number, ==, i + 1);
      g_assert_true (g_str_has_prefix (row->file, g_ptr_array_index (names, i)));
      g_assert_cmpint (row->has_severity, ==, verdict->has_severity);
      g_assert_cmpint (row->severity, ==, verdict->severity);
      g_test_message ("%s", row->file);
      g_assert_true (strcmp (here, alone) == 0);
      worse += !verdict->has_severity || verdict->severity > TL_SEVERITY_WATCH ? 1 : 0;
      /* Only what holds gets a day to look at it. */
      g_assert_cmpint (row->has_look, ==,
                       verdict->has_severity && verdict->severity <= TL_SEVERITY_WATCH);
    }
  g_assert_cmpuint (tl_job_count_worse (job), ==, worse);
}

/* Same folder, same bytes, whatever the threads did. */
static void
test_same_bytes (void)
{
  g_autofree char *folder = examples ();

  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (TlJob) one = job_of (folder, "2026-01-15", pt_stock ());
      g_autoptr (TlJob) two = job_of (folder, "2026-01-15", pt_stock ());
      g_autofree char *text_one = tl_job_to_text (one, tl_language_plain ());
      g_autofree char *text_two = tl_job_to_text (two, tl_language_plain ());
      g_autofree char *calendar_one = tl_job_calendar (one, tl_language_plain ());
      g_autofree char *calendar_two = tl_job_calendar (two, tl_language_plain ());

      g_assert_cmpstr (text_one, ==, text_two);
      g_assert_cmpstr (calendar_one, ==, calendar_two);
    }
}

/* One broken file is named with its line; the others are judged. */
static void
test_broken (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TlJob) job = NULL;
  g_autofree char *text = NULL;

  put (fixture, "a.tinlap", WATCH, NULL);
  put_text (fixture, "b.tinlap", "<?xml version=\"1.0\"?>\n\n<joint");
  put_text (fixture, "c.tinlap", "");
  put (fixture, "d.tinlap", UNSAFE, NULL);
  put_text (fixture, "notes.txt", "no joint");
  put_text (fixture, ".hidden.tinlap", "no joint");
  job = job_of (fixture->folder, NULL, pt_stock ());
  text = tl_job_to_text (job, tl_language_plain ());
  g_assert_cmpuint (job->rows->len, ==, 4);
  g_assert_cmpuint (job->n_read, ==, 2);
  g_assert_null (row_at (job, 0)->message);
  g_assert_nonnull (strstr (row_at (job, 1)->message, "b.tinlap:3:"));
  g_assert_nonnull (row_at (job, 2)->message);
  g_assert_cmpint (row_at (job, 3)->severity, ==, TL_SEVERITY_UNSAFE);
  g_assert_cmpuint (tl_job_count_worse (job), ==, 3);
  g_assert_cmpuint (job->effort->joints, ==, 2);
  g_assert_cmpuint (job->effort->without_steps, ==, 1);
  g_assert_nonnull (strstr (text, row_at (job, 1)->message));
  g_assert_nonnull (strstr (text, "Not read"));
}

/* Things that end in .tinlap and are no files: nobody waits for a pipe, nobody enters a folder. */
static void
test_no_files (Fixture *fixture, gconstpointer data)
{
  static const char *const names[] = { "fifo.tinlap", "folder.tinlap", "link.tinlap",
                                       "loop.tinlap" };
  g_autoptr (TlJob) job = NULL;
  g_autofree char *fifo = g_build_filename (fixture->folder, names[0], NULL);
  g_autofree char *folder = g_build_filename (fixture->folder, names[1], NULL);
  g_autofree char *link = g_build_filename (fixture->folder, names[2], NULL);
  g_autofree char *loop = g_build_filename (fixture->folder, names[3], NULL);

  g_assert_cmpint (mkfifo (fifo, 0600), ==, 0);
  g_assert_cmpint (g_mkdir (folder, 0700), ==, 0);
  g_assert_cmpint (symlink ("/no/such/file", link), ==, 0);
  g_assert_cmpint (symlink ("loop.tinlap", loop), ==, 0);
  put (fixture, "z.tinlap", WATCH, NULL);
  put (fixture, "y\n.tinlap", WATCH, NULL);
  job = job_of (fixture->folder, NULL, pt_stock ());
  g_assert_cmpuint (job->rows->len, ==, G_N_ELEMENTS (names) + 2);
  g_assert_cmpuint (job->n_read, ==, 2);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_assert_cmpstr (row_at (job, i)->file, ==, names[i]);
      g_assert_nonnull (strstr (row_at (job, i)->message, names[i]));
    }
  g_assert_null (strchr (row_at (job, 4)->file, '\n'));
}

static void
test_no_folder (Fixture *fixture, gconstpointer data)
{
  TlJobOptions options = { .folder = fixture->folder };
  g_autoptr (GError) empty = NULL;
  g_autoptr (GError) missing = NULL;

  g_assert_null (tl_job_new (&options, pt_stock (), tl_language_plain (), &empty));
  g_assert_error (empty, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (empty->message, ".tinlap"));
  options.folder = "/no/such/folder";
  g_assert_null (tl_job_new (&options, pt_stock (), tl_language_plain (), &missing));
  g_assert_error (missing, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (missing->message, "/no/such/folder"));
}

/* The uid comes from what the joint holds: not from the file's name, and copies are told apart. */
static void
test_uids (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TlJob) job = NULL;
  g_autoptr (TlJob) again = NULL;
  g_autofree char *first = NULL;

  put (fixture, "a.tinlap", WATCH, NULL);
  put (fixture, "b.tinlap", WATCH, NULL);
  put (fixture, "c.tinlap", WATCH, "2020-05-31");
  job = job_of (fixture->folder, "2026-01-15", pt_stock ());
  g_assert_cmpstr (row_at (job, 0)->uid, !=, row_at (job, 1)->uid);
  g_assert_true (g_str_has_suffix (row_at (job, 1)->uid, row_at (job, 0)->uid));
  g_assert_cmpstr (row_at (job, 0)->uid, !=, row_at (job, 2)->uid);
  first = g_strdup (row_at (job, 0)->uid);

  put (fixture, "z.tinlap", UNSAFE, NULL);
  again = job_of (fixture->folder, "2027-01-15", pt_stock ());
  g_assert_cmpstr (row_at (again, 0)->uid, ==, first);
}

/* First look a year after making (threshold upkeep.first-look), the last day of February kept; overdue ones go to the day
 * of the job; a joint without a day takes that of the job. */
static void
test_looks (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TlJob) job = NULL;
  g_autoptr (TlJob) undated = NULL;
  g_autofree char *calendar = NULL;
  g_autofree char *nothing = NULL;
  char             day[16];

  put (fixture, "a.tinlap", WATCH, "2024-02-29");
  put (fixture, "b.tinlap", WATCH, "2026-01-10");
  put (fixture, "c.tinlap", WATCH, "");
  put (fixture, "d.tinlap", UNSAFE, "");
  job = job_of (fixture->folder, "2026-03-01", pt_stock ());
  g_date_strftime (day, sizeof day, "%Y-%m-%d", &row_at (job, 0)->look);
  g_assert_cmpstr (day, ==, "2025-02-28");
  g_assert_true (row_at (job, 0)->is_overdue);
  g_date_strftime (day, sizeof day, "%Y-%m-%d", &row_at (job, 1)->look);
  g_assert_cmpstr (day, ==, "2027-01-10");
  g_assert_false (row_at (job, 1)->is_overdue);
  g_date_strftime (day, sizeof day, "%Y-%m-%d", &row_at (job, 2)->look);
  g_assert_cmpstr (day, ==, "2027-03-01");
  calendar = tl_job_calendar (job, tl_language_plain ());
  g_assert_nonnull (strstr (calendar, "SUMMARY:Overdue: look at the joint: "));
  g_assert_nonnull (strstr (calendar, "DTSTART;VALUE=DATE:20260301\r\n"));
  g_assert_nonnull (strstr (calendar, "DTSTART;VALUE=DATE:20270110\r\n"));
  g_assert_nonnull (strstr (calendar, "PRIORITY:1\r\n"));
  g_assert_cmpuint (tl_job_count_undated (job), ==, 0);

  undated = job_of (fixture->folder, NULL, pt_stock ());
  g_assert_cmpuint (tl_job_count_undated (undated), ==, 2);
  nothing = tl_job_calendar (undated, tl_language_plain ());
  g_assert_null (strstr (nothing, "PRIORITY"));
  g_assert_nonnull (strstr (nothing, "DTSTAMP:20240229T000000Z\r\n"));
}

#ifdef TL_TEST_LIBICAL
/* The calendar of all examples as libical reads it: an event for each joint that holds, a thing to do for each other one,
 * and nothing that its own checks find wrong. */
static void
test_read_by_others (void)
{
  g_autofree char *folder = examples ();
  g_autoptr (TlJob) job = job_of (folder, "2026-01-15", pt_stock ());
  g_autofree char *text = tl_job_calendar (job, tl_language_plain ());
  icalcomponent   *calendar = icalparser_parse_string (text);
  icalcomponent   *event = NULL;
  guint            holds = 0;

  g_assert_nonnull (calendar);
  icalrestriction_check (calendar);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  event = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);
  for (guint i = 0; i < job->rows->len; i++)
    {
      const TlJobRow     *row = row_at (job, i);
      struct icaltimetype start;

      if (!tl_job_row_holds (row))
        continue;
      holds++;
      g_assert_nonnull (event);
      start = icalcomponent_get_dtstart (event);
      g_assert_cmpstr (icalcomponent_get_uid (event), ==, row->uid);
      g_assert_cmpstr (icalcomponent_get_location (event), ==, row->steps->place);
      g_assert_nonnull (strstr (icalcomponent_get_summary (event), row->steps->name));
      g_assert_nonnull (strstr (icalcomponent_get_description (event), row->steps->upkeep));
      g_assert_cmpint (start.year, ==, g_date_get_year (&row->look));
      g_assert_cmpint (start.month, ==, g_date_get_month (&row->look));
      g_assert_cmpint (start.day, ==, g_date_get_day (&row->look));
      event = icalcomponent_get_next_component (calendar, ICAL_VEVENT_COMPONENT);
    }
  g_assert_null (event);
  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_VTODO_COMPONENT), ==,
                   job->rows->len - holds);
  icalcomponent_free (calendar);
}
#endif

/* --- effort --- */

static TlPack *
with_mark (TlPack *pack, const char *part, double price, TlPer per, double quantity)
{
  const TlPackMark mark = { .part = (char *) part,
                            .in_van = TRUE,
                            .has_quantity = TRUE,
                            .quantity = quantity,
                            .has_price = TRUE,
                            .price = price,
                            .per = per };
  g_autoptr (GError) error = NULL;
  TlPack *changed = tl_pack_set_mark (pack, &mark, &error);

  g_assert_no_error (error);
  tl_pack_unref (pack);
  return changed;
}

static TlPack *
with_minutes (TlPack *pack, const char *step, TlRange minutes_min)
{
  g_autoptr (GError) error = NULL;
  TlPack *changed = tl_pack_set_minutes (pack, step, &minutes_min, &error);

  g_assert_no_error (error);
  tl_pack_unref (pack);
  return changed;
}

static const TlEffortPart *
part_of_kind (const TlEffort *effort, TlPartKind kind)
{
  for (guint i = 0; i < effort->parts->len; i++)
    {
      const TlEffortPart *part = g_ptr_array_index (effort->parts, i);

      if (part->kind == kind)
        return part;
    }
  return NULL;
}

static guint
count_steps (const TlStepSheet *steps, const char *id)
{
  guint count = 0;

  for (guint i = 0; i < steps->steps->len; i++)
    count += strcmp (((TlStep *) g_ptr_array_index (steps->steps, i))->id, id) == 0 ? 1 : 0;
  return count;
}

/* Three of one joint: each sum is three times that of one; a price by the piece and one by the metre. */
static void
test_effort (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TlJob) plain = NULL;
  g_autoptr (TlJob) job = NULL;
  g_autoptr (TlPack) pack = NULL;
  g_autoptr (GPtrArray) packs = g_ptr_array_new ();
  g_autoptr (TlStock) stock = NULL;
  const TlEffortPart *sleeve, *seal;
  guint               presses;
  double              wanted;

  put (fixture, "a.tinlap", WATCH, NULL);
  put (fixture, "b.tinlap", WATCH, NULL);
  put (fixture, "c.tinlap", WATCH, NULL);
  put (fixture, "d.tinlap", UNSAFE, NULL);
  plain = job_of (fixture->folder, NULL, pt_stock ());
  sleeve = part_of_kind (plain->effort, TL_PART_SLEEVE);
  seal = part_of_kind (plain->effort, TL_PART_SEAL);
  g_assert_cmpuint (sleeve->count, ==, 3);
  g_assert_cmpuint (sleeve->joints, ==, 3);
  g_assert_cmpuint (plain->effort->sums->len, ==, 0);
  g_assert_cmpuint (plain->effort->timed_steps, ==, 0);
  g_assert_cmpuint (plain->effort->unpriced, >, 0);

  pack = tl_pack_new ("Van");
  pack = with_mark (g_steal_pointer (&pack), sleeve->part, 0.40, TL_PER_PIECE, 2.0);
  pack = with_mark (g_steal_pointer (&pack), seal->part, 5.0, TL_PER_METRE, 10.0);
  pack = with_minutes (g_steal_pointer (&pack), "press", (TlRange){ 2.0, 3.0, 5.0 });
  g_ptr_array_add (packs, pack);
  stock = tl_stock_with_packs (pt_stock (), packs, NULL);
  job = job_of (fixture->folder, NULL, stock);
  sleeve = part_of_kind (job->effort, TL_PART_SLEEVE);
  seal = part_of_kind (job->effort, TL_PART_SEAL);
  g_assert_true (sleeve->has_price && sleeve->in_van);
  g_assert_cmpfloat_with_epsilon (sleeve->price, 1.20, 1e-9);
  /* Three are needed, two are in the van. */
  g_assert_true (sleeve->is_short);
  g_assert_cmpfloat (seal->length_m, >, 0.0);
  g_assert_false (seal->is_short);
  wanted = 1.20 + 5.0 * seal->length_m;
  g_assert_cmpuint (job->effort->sums->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (((TlEffortSum *) g_ptr_array_index (job->effort->sums, 0))->price,
                                  wanted, 1e-9);
  presses = count_steps (row_at (job, 0)->steps, "press");
  g_assert_cmpuint (presses, >, 0);
  g_assert_cmpuint (job->effort->timed_steps, ==, 3 * presses);
  g_assert_cmpfloat_with_epsilon (job->effort->minutes_min.low, 6.0 * presses, 1e-9);
  g_assert_cmpfloat_with_epsilon (job->effort->minutes_min.high, 15.0 * presses, 1e-9);
  g_assert_cmpfloat_with_epsilon (row_at (job, 0)->effort->minutes_min.best, 3.0 * presses, 1e-9);
  g_assert_cmpuint (job->effort->untimed_steps, >, 0);
}

/* A thousand joints: a thousand rows, a thousand sleeves, each with a uid of its own. */
static void
test_thousand (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TlJoint) joint = pt_example (WATCH);
  g_autofree char *text = tl_joint_to_text (joint, NULL);
  g_autoptr (GHashTable) uids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (TlJob) job = NULL;

  for (guint i = 0; i < 1000; i++)
    {
      g_autofree char *name = g_strdup_printf ("joint-%04u.tinlap", i);

      put_text (fixture, name, text);
    }
  job = job_of (fixture->folder, "2026-01-15", pt_stock ());
  g_assert_cmpuint (job->n_read, ==, 1000);
  g_assert_cmpuint (part_of_kind (job->effort, TL_PART_SLEEVE)->count, ==, 1000);
  for (guint i = 0; i < 1000; i++)
    {
      const TlJobRow  *row = row_at (job, i);
      g_autofree char *name = g_strdup_printf ("joint-%04u.tinlap", i);

      g_assert_cmpstr (row->file, ==, name);
      g_assert_true (g_hash_table_add (uids, row->uid));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/same-as-alone", test_same_as_alone);
  g_test_add_func ("/job/same-bytes", test_same_bytes);
  g_test_add ("/job/broken", Fixture, NULL, set_up, test_broken, tear_down);
  g_test_add ("/job/no-files", Fixture, NULL, set_up, test_no_files, tear_down);
  g_test_add ("/job/no-folder", Fixture, NULL, set_up, test_no_folder, tear_down);
  g_test_add ("/job/uids", Fixture, NULL, set_up, test_uids, tear_down);
  g_test_add ("/job/looks", Fixture, NULL, set_up, test_looks, tear_down);
#ifdef TL_TEST_LIBICAL
  g_test_add_func ("/job/read-by-others", test_read_by_others);
#endif
  g_test_add ("/job/effort", Fixture, NULL, set_up, test_effort, tear_down);
  g_test_add ("/job/thousand", Fixture, NULL, set_up, test_thousand, tear_down);
  return g_test_run ();
}
