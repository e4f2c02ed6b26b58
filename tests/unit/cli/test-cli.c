/* test-cli.c: the program as a person at the terminal meets it: exit codes, messages, files.
 *
 * Codes and messages are the project's own contract: 0 nothing worse than Watch; 1 Change, Unsafe, Unfinished;
 * 2 one line on standard error, nothing written.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/wait.h>

#define WATCH "socket-circuit-weaving-floor"
#define CHANGE "no-spring-washer"
#define UNSAFE "copper-on-aluminium"

typedef struct
{
  char *folder; /* empty at the start, and where the program runs */
  char *output;
  char *errors;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("tinlap-cli-XXXXXX", &error);
  g_assert_no_error (error);
}

static void
forget (Fixture *fixture)
{
  g_clear_pointer (&fixture->output, g_free);
  g_clear_pointer (&fixture->errors, g_free);
}

static void
remove_file (const Fixture *fixture, const char *name)
{
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);

  g_assert_cmpint (g_remove (path), ==, 0);
}

/* What a test left behind is an error: rmdir() fails on it. */
static void
tear_down (Fixture *fixture, gconstpointer data)
{
  forget (fixture);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
}

static char *
example (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".tinlap", NULL);

  return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", file, NULL);
}

/* Runs tinlap-cli with @arguments (NULL-terminated) in the fixture's folder; returns its exit code. */
static int
run_with (Fixture *fixture, GPtrArray *arguments)
{
  g_autofree char *program =
      g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  g_autoptr (GError) error = NULL;
  int status;

  forget (fixture);
  g_ptr_array_insert (arguments, 0, program);
  g_spawn_sync (fixture->folder, (char **) arguments->pdata, NULL, G_SPAWN_DEFAULT, NULL, NULL,
                &fixture->output, &fixture->errors, &status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (status));
  return WEXITSTATUS (status);
}

/* The same with the arguments up to NULL. */
static int
run (Fixture *fixture, ...)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  const char *argument;
  va_list     arguments;

  va_start (arguments, fixture);
  do
    {
      argument = va_arg (arguments, const char *);
      g_ptr_array_add (argv, (char *) argument);
    }
  while (argument != NULL);
  va_end (arguments);
  return run_with (fixture, argv);
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

static void
test_exit_codes (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *name;
    int         code;
    const char *word;
  } cases[] = {
    { WATCH, 0, "Watch." },
    { CHANGE, 1, "Change." },
    { UNSAFE, 1, "Unsafe." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = example (cases[i].name);

      g_assert_cmpint (run (fixture, "check", path, NULL), ==, cases[i].code);
      g_assert_cmpstr (fixture->errors, ==, "");
      g_assert_nonnull (strstr (fixture->output, cases[i].word));
      g_assert_cmpint (run (fixture, "check", "--json", path, NULL), ==, cases[i].code);
      g_assert_true (g_str_has_prefix (fixture->output, "{\n  \"format\": 1,"));
    }
}

/* Tinned flexible copper with solid aluminium under 16 mm²: Watch in one practice, Change in the other. */
static void
test_practice (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = example (WATCH);

  g_assert_cmpint (run (fixture, "check", "--practice", "iec-style", path, NULL), ==, 0);
  g_assert_cmpint (run (fixture, "check", "--practice", "nfpa70-style", path, NULL), ==, 1);
  g_assert_cmpint (run (fixture, "check", "--practice", "strict", path, NULL), ==, 1);
  assert_bad (fixture, run (fixture, "check", "--practice", "home-style", path, NULL),
              "iec-style, nfpa70-style, strict");
}

static void
empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        empty (path);
      g_assert_cmpint (g_remove (path), ==, 0);
    }
}

/* A word of a command of the README: what stands in for a file or folder, and paths from the project's root. */
static char *
real_word (const Fixture *fixture, const char *word, gboolean has_pictures)
{
  if (g_str_equal (word, "FILE"))
    return example (has_pictures ? "sleeve-inspected" : WATCH);
  if (g_str_equal (word, "FOLDER"))
    return g_build_filename (fixture->folder, "joints", NULL);
  if (g_str_has_prefix (word, "data/") || g_str_has_prefix (word, "tests/"))
    return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), word, NULL);
  return g_strdup (word);
}

/* Every command that the README shows is understood and does what it can. */
static void
test_readme (Fixture *fixture, gconstpointer data)
{
  g_autofree char *readme = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "README.md", NULL);
  g_autofree char *folder = g_build_filename (fixture->folder, "joints", NULL),
                  *copy = g_build_filename (folder, "joint.tinlap", NULL), *path = example (WATCH),
                  *text = NULL, *joint = NULL;
  g_auto (GStrv) lines = NULL;
  gsize length;
  guint count = 0;

  g_assert_true (g_file_get_contents (readme, &text, NULL, NULL));
  g_assert_true (g_file_get_contents (path, &joint, &length, NULL));
  g_assert_cmpint (g_mkdir (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (copy, joint, (gssize) length, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_autoptr (GPtrArray) arguments = g_ptr_array_new ();
      g_auto (GStrv) words = NULL;
      g_autoptr (GPtrArray) owned = g_ptr_array_new_with_free_func (g_free);

      if (!g_str_has_prefix (lines[i], "    tinlap-cli "))
        continue;
      g_assert_true (g_shell_parse_argv (lines[i], NULL, &words, NULL));
      for (guint k = 1; words[k] != NULL; k++)
        g_ptr_array_add (owned, real_word (fixture, words[k], g_str_equal (words[1], "pictures")));
      g_ptr_array_extend (arguments, owned, NULL, NULL);
      g_ptr_array_add (arguments, NULL);
      if (run_with (fixture, arguments) == 2)
        g_error ("README: “%s”: %s", lines[i], fixture->errors);
      count++;
    }
  g_assert_cmpuint (count, >=, 10);
  empty (fixture->folder);
}

/* On tin sources disagree: both sides stand in the text, once, though several findings turn on it. */
static void
test_dispute (Fixture *fixture, gconstpointer data)
{
  static const char *const sides[] = { "Disputed, for it: ", "Disputed, against it: " };
  g_autofree char         *path = example (WATCH);
  g_auto (GStrv) lines = NULL;

  g_assert_cmpint (run (fixture, "check", path, NULL), ==, 0);
  lines = g_strsplit (fixture->output, "\n", -1);
  for (guint side = 0; side < G_N_ELEMENTS (sides); side++)
    g_assert_nonnull (strstr (fixture->output, sides[side]));
  for (guint i = 0; lines[i] != NULL; i++)
    for (guint k = i + 1; strstr (lines[i], "Disputed") != NULL && lines[k] != NULL; k++)
      g_assert_cmpstr (lines[i], !=, lines[k]);
}

static void
test_rules (Fixture *fixture, gconstpointer data)
{
  g_assert_cmpint (run (fixture, "check", "--rules", NULL), ==, 0);
  g_assert_nonnull (strstr (fixture->output, "galvanic.step"));
}

static void
test_help (Fixture *fixture, gconstpointer data)
{
  static const char *const verbs[] = { "check", "sheet", "draw", "calc" };

  g_assert_cmpint (run (fixture, "--help", NULL), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    g_assert_nonnull (strstr (fixture->output, verbs[i]));
  g_assert_cmpint (run (fixture, "--version", NULL), ==, 0);
  g_assert_true (g_str_has_prefix (fixture->output, "tinlap "));
  g_assert_cmpint (run (fixture, "sheet", "--help", NULL), ==, 0);
  g_assert_nonnull (strstr (fixture->output, "--output"));
}

static void
test_bad_calls (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = example (WATCH);

  assert_bad (fixture, run (fixture, NULL), "check, sheet, draw, ageing, job, identify, pictures, calc");
  assert_bad (fixture, run (fixture, "weld", path, NULL), "“weld”");
  assert_bad (fixture, run (fixture, "check", NULL), "No joint file named");
  assert_bad (fixture, run (fixture, "check", path, path, NULL), "2 files named");
  assert_bad (fixture, run (fixture, "check", "--loud", path, NULL), "--loud");
  assert_bad (fixture, run (fixture, "sheet", path, NULL), "--output");
  assert_bad (fixture, run (fixture, "sheet", path, "--output", NULL), "--output");
  assert_bad (fixture,
              run (fixture, "sheet", path, "--output", "x.pdf", "--paper", "foolscap", NULL),
              "a4, letter");
  assert_bad (fixture,
              run (fixture, "sheet", path, "--output", "x.pdf", "--date", "2023-02-29", NULL),
              "2023-02-29");
  assert_bad (fixture,
              run (fixture, "sheet", path, "--output", "x.pdf", "--date", "tomorrow", NULL),
              "tomorrow");
  assert_bad (fixture, run (fixture, "sheet", path, "--output", path, NULL), "the joint itself");
}

static void
test_bad_files (Fixture *fixture, gconstpointer data)
{
  static const char *const verbs[] = { "check", "sheet" };
  g_autofree char         *path = example (WATCH);
  g_autofree char         *cut = g_build_filename (fixture->folder, "cut.tinlap", NULL);
  g_autofree char         *text = NULL;
  gsize                    length;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    {
      const char *option = i == 0 ? "--json" : "--output=x.pdf";

      assert_bad (fixture, run (fixture, verbs[i], option, "missing.tinlap", NULL),
                  "missing.tinlap");
      assert_bad (fixture, run (fixture, verbs[i], option, ".", NULL), "folder");
      g_assert_true (g_file_set_contents (cut, text, (gssize) (length / 2), NULL));
      assert_bad (fixture, run (fixture, verbs[i], option, cut, NULL), "cut.tinlap:");
      g_assert_true (g_file_set_contents (cut, "", 0, NULL));
      assert_bad (fixture, run (fixture, verbs[i], option, cut, NULL), "cut.tinlap");
      remove_file (fixture, "cut.tinlap");
    }
}

static void
test_sheet_file (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *name;
    int         code;
  } cases[] = { { WATCH, 0 }, { CHANGE, 1 }, { UNSAFE, 1 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = example (cases[i].name);
      g_autofree char *sheet = g_build_filename (fixture->folder, "sheet.pdf", NULL);
      g_autofree char *bytes = NULL;

      g_assert_cmpint (
          run (fixture, "sheet", path, "--output", "sheet.pdf", "--paper", "letter", NULL), ==,
          cases[i].code);
      g_assert_cmpstr (fixture->errors, ==, "");
      g_assert_cmpstr (fixture->output, ==, "");
      g_assert_true (g_file_get_contents (sheet, &bytes, NULL, NULL));
      g_assert_true (g_str_has_prefix (bytes, "%PDF-"));
      remove_file (fixture, "sheet.pdf");
    }
}

static void
test_sheet_text (Fixture *fixture, gconstpointer data)
{
  g_autofree char *good = example (WATCH);
  g_autofree char *bad = example (UNSAFE);

  g_assert_cmpint (run (fixture, "sheet", "--text", "--date", "2024-02-29", good, NULL), ==, 0);
  g_assert_nonnull (strstr (fixture->output, "[ ] 1 "));
  g_assert_nonnull (strstr (fixture->output, "2024-02-29"));
  g_assert_cmpint (run (fixture, "sheet", "--text", bad, NULL), ==, 1);
  g_assert_null (strstr (fixture->output, "[ ] 1 "));
  g_assert_nonnull (strstr (fixture->output, "Not to be made as drawn"));
}

/* A place that cannot be written: one line, nothing left behind, not even text that was asked for beside. */
static void
test_unwritable (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = example (WATCH);

  assert_bad (fixture,
              run (fixture, "sheet", path, "--text", "--output", "no-such-folder/sheet.pdf", NULL),
              "no-such-folder");
  assert_bad (fixture, run (fixture, "sheet", path, "--output", ".", NULL), "folder");
}

/* Each overlay makes a picture with its words in it; what does not fit together is refused before anything is written. */
static void
test_overlays (Fixture *fixture, gconstpointer data)
{
  static const char *const overlays[] = { "heat", "current", "wet" };
  g_autofree char         *path = example (WATCH);

  for (guint i = 0; i < G_N_ELEMENTS (overlays); i++)
    {
      g_assert_cmpint (
          run (fixture, "draw", path, "--overlay", overlays[i], "--output", "joint.pdf", NULL), ==,
          0);
      remove_file (fixture, "joint.pdf");
    }
  g_assert_cmpint (run (fixture, "draw", path, "--overlay", "heat", "--years", "20", "--output",
                        "joint.svg", NULL),
                   ==, 0);
  remove_file (fixture, "joint.svg");
  assert_bad (fixture,
              run (fixture, "draw", path, "--overlay", "warm", "--output", "joint.svg", NULL),
              "heat, current, wet");
  g_assert_cmpint (run (fixture, "draw", path, "--view", "box", "--output", "box.svg", NULL), ==, 0);
  remove_file (fixture, "box.svg");
  assert_bad (fixture, run (fixture, "draw", path, "--view", "lid", "--output", "joint.svg", NULL), "there are: joint, box");
  assert_bad (fixture, run (fixture, "draw", path, "--view", "box", "--overlay", "heat", "--output", "joint.svg", NULL),
              "--view joint");
  assert_bad (fixture, run (fixture, "draw", path, "--years", "5", "--output", "joint.svg", NULL),
              "--overlay heat");
  assert_bad (fixture,
              run (fixture, "draw", path, "--overlay", "heat", "--years", "41", "--output",
                   "joint.svg", NULL),
              "0 to 40");
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*func) (Fixture *, gconstpointer);
  } tests[] = {
    { "/cli/exit-codes", test_exit_codes },
    { "/cli/practice", test_practice },
    { "/cli/readme", test_readme },
    { "/cli/dispute", test_dispute },
    { "/cli/rules", test_rules },
    { "/cli/help", test_help },
    { "/cli/bad-calls", test_bad_calls },
    { "/cli/bad-files", test_bad_files },
    { "/cli/sheet/file", test_sheet_file },
    { "/cli/sheet/text", test_sheet_text },
    { "/cli/sheet/unwritable", test_unwritable },
    { "/cli/draw/overlays", test_overlays },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].func, tear_down);
  return g_test_run ();
}
