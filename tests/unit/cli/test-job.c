/* test-job.c: `job` and `identify` as a person at the terminal meets them: exit codes, messages, files.
 *
 * Codes and messages are the project's own contract: 0 nothing worse than Watch; 1 Change, Unsafe, Unfinished or not read;
 * 2 one line on standard error, nothing written. JSON: RFC 8259. PDF: ISO 32000-1, 7.5.2 and 7.5.5 (head and end).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>
#include <sys/wait.h>

#define WATCH "socket-circuit-weaving-floor"
#define UNSAFE "copper-on-aluminium"

typedef struct
{
  char *folder; /* where the program runs */
  char *joints; /* a folder in it */
  char *output;
  char *errors;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("tinlap-job-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->joints = g_build_filename (fixture->folder, "joints", NULL);
  g_assert_cmpint (g_mkdir (fixture->joints, 0700), ==, 0);
}

static void
forget (Fixture *fixture)
{
  g_clear_pointer (&fixture->output, g_free);
  g_clear_pointer (&fixture->errors, g_free);
}

static void
remove_all (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_all (path);
      else
        g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  forget (fixture);
  remove_all (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->joints);
}

static void
put_text (const Fixture *fixture, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (fixture->joints, name, NULL);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
put (const Fixture *fixture, const char *name, const char *example)
{
  g_autofree char *file = g_strconcat (example, ".tinlap", NULL);
  g_autofree char *path =
      g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", file, NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  put_text (fixture, name, text);
}

/* Runs tinlap-cli with the arguments up to NULL in the fixture's folder; returns its exit code. */
static int
run (Fixture *fixture, ...)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autofree char *program =
      g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  g_autoptr (GError) error = NULL;
  const char *argument;
  int         status;
  va_list     arguments;

  forget (fixture);
  g_ptr_array_add (argv, program);
  va_start (arguments, fixture);
  while ((argument = va_arg (arguments, const char *)) != NULL)
    g_ptr_array_add (argv, (char *) argument);
  va_end (arguments);
  g_ptr_array_add (argv, NULL);
  g_spawn_sync (fixture->folder, (char **) argv->pdata, NULL, G_SPAWN_DEFAULT, NULL, NULL,
                &fixture->output, &fixture->errors, &status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (status));
  return WEXITSTATUS (status);
}

/* Code 2: one line that holds @wanted, nothing on standard output. */
static void
assert_bad (const Fixture *fixture, int code, const char *wanted)
{
  const char *end = strchr (fixture->errors, '\n');

  g_assert_cmpint (code, ==, 2);
  g_assert_cmpstr (fixture->output, ==, "");
  g_assert_true (g_str_has_prefix (fixture->errors, "tinlap-cli: "));
  g_assert_nonnull (end);
  g_assert_cmpstr (end, ==, "\n");
  if (strstr (fixture->errors, wanted) == NULL)
    g_error ("“%s” is not in: %s", wanted, fixture->errors);
}

static gboolean
exists (const Fixture *fixture, const char *name)
{
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static char *
contents (const Fixture *fixture, const char *name, gsize *length)
{
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);
  char            *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, length, NULL));
  return text;
}

static void
test_codes (Fixture *fixture, gconstpointer data)
{
  put (fixture, "a.tinlap", WATCH);
  g_assert_cmpint (run (fixture, "job", "joints", NULL), ==, 0);
  g_assert_cmpstr (fixture->errors, ==, "");
  g_assert_true (g_str_has_prefix (fixture->output, "1 joint in joints;"));
  put_text (fixture, "b.tinlap", "<?xml version=\"1.0\"?>\n<joint");
  g_assert_cmpint (run (fixture, "job", "joints", NULL), ==, 1);
  g_assert_nonnull (strstr (fixture->output, "b.tinlap:2:"));
  g_assert_nonnull (strstr (fixture->output, "Watch"));
  put (fixture, "c.tinlap", UNSAFE);
  g_assert_cmpint (run (fixture, "job", "joints/", NULL), ==, 1);
  g_assert_nonnull (strstr (fixture->output, "Unsafe"));
}

static void
test_bad_calls (Fixture *fixture, gconstpointer data)
{
  assert_bad (fixture, run (fixture, "job", NULL), "folder");
  assert_bad (fixture, run (fixture, "job", "joints", NULL), "There is no joint in");
  assert_bad (fixture, run (fixture, "job", "nowhere", NULL), "nowhere cannot be read");
  put_text (fixture, "a.tinlap", "no joint");
  assert_bad (fixture,
              run (fixture, "job", "joints", "--sheet", "s.pdf", "--calendar", "c.ics", NULL),
              "a.tinlap");
  g_assert_false (exists (fixture, "s.pdf") || exists (fixture, "c.ics"));
  put (fixture, "b.tinlap", WATCH);
  assert_bad (fixture, run (fixture, "job", "joints/b.tinlap", NULL), "cannot be read");
  assert_bad (fixture, run (fixture, "job", "joints", "joints", NULL), "2 folders");
  assert_bad (fixture, run (fixture, "job", "joints", "--date", "31.3.2024", NULL), "2024-03-31");
  assert_bad (fixture, run (fixture, "job", "joints", "--practice", "home-style", NULL),
              "iec-style");
  assert_bad (fixture, run (fixture, "job", "joints", "--paper", "a3", NULL), "letter");
  assert_bad (fixture, run (fixture, "job", "joints", "--pack", "none.xml", NULL), "none.xml");
  assert_bad (fixture, run (fixture, "job", "joints", "--sheet", "joints/b.tinlap", NULL),
              "is a joint of the folder");
  assert_bad (fixture, run (fixture, "job", "joints", "--calendar", "./joints/b.tinlap", NULL),
              "is a joint of the folder");
  assert_bad (fixture, run (fixture, "job", "joints", "--sheet", "x", "--calendar", "./x", NULL),
              "two files");
  g_assert_false (exists (fixture, "x"));
}

static void
test_unwritable (Fixture *fixture, gconstpointer data)
{
  put (fixture, "a.tinlap", WATCH);
  assert_bad (fixture, run (fixture, "job", "joints", "--sheet", "no/such/s.pdf", NULL), "no/such");
  assert_bad (fixture, run (fixture, "job", "joints", "--calendar", "no/such/c.ics", NULL),
              "no/such");
  assert_bad (fixture, run (fixture, "job", "joints", "--calendar", "joints", NULL), "joints");
}

/* Calendar and PDF are whole, and the same each time. */
static void
test_files (Fixture *fixture, gconstpointer data)
{
  gsize            length, again;
  g_autofree char *calendar = NULL;
  g_autofree char *sheets = NULL;
  g_autofree char *calendar_again = NULL;
  g_autofree char *sheets_again = NULL;

  put (fixture, "a.tinlap", WATCH);
  put (fixture, "b.tinlap", UNSAFE);
  put_text (fixture, "c.tinlap", "no joint");
  g_assert_cmpint (run (fixture, "job", "joints", "--sheet", "s.pdf", "--calendar", "c.ics",
                        "--date", "2026-01-15", NULL),
                   ==, 1);
  calendar = contents (fixture, "c.ics", NULL);
  sheets = contents (fixture, "s.pdf", &length);
  g_assert_true (g_str_has_prefix (calendar, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"));
  g_assert_true (g_str_has_suffix (calendar, "END:VTODO\r\nEND:VCALENDAR\r\n"));
  g_assert_nonnull (strstr (calendar, "DTSTAMP:20260115T000000Z\r\n"));
  g_assert_true (g_str_has_prefix (sheets, "%PDF-1."));
  g_assert_true (g_str_has_suffix (sheets + length - 6, "%%EOF\n"));

  g_assert_cmpint (run (fixture, "job", "joints", "--sheet", "s.pdf", "--calendar", "c.ics",
                        "--date", "2026-01-15", NULL),
                   ==, 1);
  calendar_again = contents (fixture, "c.ics", NULL);
  sheets_again = contents (fixture, "s.pdf", &again);
  g_assert_cmpstr (calendar, ==, calendar_again);
  g_assert_cmpmem (sheets, length, sheets_again, again);
}

static JsonObject *
parse (JsonParser *parser, const char *text)
{
  g_autoptr (GError) error = NULL;

  json_parser_load_from_data (parser, text, -1, &error);
  g_assert_no_error (error);
  return json_node_get_object (json_parser_get_root (parser));
}

static void
test_json (Fixture *fixture, gconstpointer data)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *object, *first, *second;
  JsonArray  *joints;

  put (fixture, "a.tinlap", UNSAFE);
  put_text (fixture, "b.tinlap", "no joint");
  g_assert_cmpint (run (fixture, "job", "--json", "joints", "--date", "2026-01-15", NULL), ==, 1);
  object = parse (parser, fixture->output);
  joints = json_object_get_array_member (object, "joints");
  g_assert_cmpint (json_object_get_int_member (object, "format"), ==, 1);
  g_assert_cmpint (json_object_get_int_member (object, "worse"), ==, 2);
  g_assert_cmpuint (json_array_get_length (joints), ==, 2);
  first = json_array_get_object_element (joints, 0);
  second = json_array_get_object_element (joints, 1);
  g_assert_cmpstr (json_object_get_string_member (first, "verdict"), ==, "Unsafe");
  g_assert_true (json_object_get_null_member (first, "error"));
  g_assert_true (json_object_get_null_member (first, "next_look"));
  g_assert_true (json_object_get_null_member (first, "last_look"));
  g_assert_nonnull (strstr (json_object_get_string_member (second, "error"), "b.tinlap"));
  g_assert_false (json_object_has_member (second, "verdict"));
}

static void
test_identify (Fixture *fixture, gconstpointer data)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *object;

  /* 12 AWG aluminium: 6.01 lb a thousand feet (wire tables, from memory). */
  g_assert_cmpint (run (fixture, "identify", "--diameter", "12 AWG", "--length", "1 m", "--weight",
                        "8.94 g", "--json", NULL),
                   ==, 0);
  object = parse (parser, fixture->output);
  g_assert_cmpstr (json_object_get_string_member (object, "state"), ==, "decided");
  g_assert_cmpstr (
      json_object_get_string_member (
          json_array_get_object_element (json_object_get_array_member (object, "metals"), 0),
          "metal"),
      ==, "aluminium");
  g_assert_cmpint (run (fixture, "identify", "--surface", "red", NULL), ==, 1);
  g_assert_true (g_str_has_prefix (fixture->output, "Undecided between: "));
  assert_bad (fixture, run (fixture, "identify", "--weight", "2 g", NULL), "length");
  assert_bad (fixture, run (fixture, "identify", "--diameter", "2 kg", NULL), "diameter: ");
  assert_bad (fixture, run (fixture, "identify", "--diameter", "-2 mm", NULL), "diameter is -2");
  assert_bad (fixture, run (fixture, "identify", "--surface", "blue", NULL), "red, silver, dull");
  assert_bad (fixture, run (fixture, "identify", "wire", NULL), "wire");
  assert_bad (fixture, run (fixture, "identify", "--strands", "-3", NULL), "above 0");
  assert_bad (fixture, run (fixture, "identify", "--strands", "7", "--diameter", "2 mm", NULL),
              "--strand-diameter");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/cli-job/codes", Fixture, NULL, set_up, test_codes, tear_down);
  g_test_add ("/cli-job/bad-calls", Fixture, NULL, set_up, test_bad_calls, tear_down);
  g_test_add ("/cli-job/unwritable", Fixture, NULL, set_up, test_unwritable, tear_down);
  g_test_add ("/cli-job/files", Fixture, NULL, set_up, test_files, tear_down);
  g_test_add ("/cli-job/json", Fixture, NULL, set_up, test_json, tear_down);
  g_test_add ("/cli-job/identify", Fixture, NULL, set_up, test_identify, tear_down);
  return g_test_run ();
}
