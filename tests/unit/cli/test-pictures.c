/* test-pictures.c: tinlap-cli pictures on the inspected example: report, annotated copy, lists, verifying, wrong calls.
 *
 * The lengths of the scene are known by construction: sleeve 44 mm, bare aluminium 4.3 mm. PDF is read by pdftotext and
 * pdfimages, hashes by sha256sum, the archive by unzip.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>

typedef struct
{
  char *folder, *file, *out, *complaint;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("tinlap-pictures-XXXXXX", NULL);
  f->file = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples",
                              "sleeve-inspected.tinlap", NULL);
  f->out = f->complaint = NULL;
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);

  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (f->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (f->folder);
  g_free (f->folder);
  g_free (f->file);
  g_free (f->out);
  g_free (f->complaint);
}

/* A command line, in the fixture's folder; its exit code. */
static int
shell (Fixture *f, const char *command)
{
  g_auto (GStrv) argv = NULL;
  g_autoptr (GError) error = NULL;
  int status;

  g_clear_pointer (&f->out, g_free);
  g_clear_pointer (&f->complaint, g_free);
  g_assert_true (g_shell_parse_argv (command, NULL, &argv, NULL));
  if (!g_spawn_sync (f->folder, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &f->out, &f->complaint,
                     &status, &error))
    g_error ("%s: %s", command, error->message);
  return WEXITSTATUS (status);
}

static int
pictures (Fixture *f, const char *options)
{
  g_autofree char *program =
      g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  g_autofree char *command = g_strdup_printf ("%s pictures %s %s", program, f->file, options);

  return shell (f, command);
}

static void
assert_says (const char *text, const char *const *phrases)
{
  for (guint i = 0; phrases[i] != NULL; i++)
    if (strstr (text, phrases[i]) == NULL)
      g_error ("“%s” is missing in: %s", phrases[i], text);
}

/* Everything that a report has to hold; three pictures; the same bytes again; no position. */
static void
test_report (Fixture *f, gconstpointer data)
{
  static const char *const wanted[] = {
    "Report FM-2027-014, revision 0",
    "page 1 of",
    "Isolate, prove dead and lock off",
    "Purpose and question",
    "Present",
    "2027-03-03T10:05:00+01:00",
    "Qualification",
    "Not inspected, not reachable",
    "Assumptions",
    "k = 2",
    "Tinlap 0.1.0",
    "as designed",
    "as found",
    "Watch",
    "Change",
    "44.2 ± 0.5",
    "4.3",
    "beyond",
    "ANSI/NETA ATS",
    "Findings: facts",
    "Opinion of the author",
    "consistent with",
    "Assumed as designed: not checked",
    "SHA-256",
    "Signature (by hand)",
    "licensed inspection decide",
    "nothing seen here",
    "no photograph",
    "four-wire ohmmeter",
    "imported",
    NULL,
  };
  g_autofree char *first = NULL, *second = NULL;
  gsize            length_a, length_b;
  g_autofree char *a = g_build_filename (f->folder, "a.pdf", NULL),
                  *b = g_build_filename (f->folder, "b.pdf", NULL);

  g_assert_cmpint (pictures (f, "--report a.pdf --date 2027-03-04"), ==, 1);
  g_assert_cmpint (pictures (f, "--report b.pdf --date 2027-03-04"), ==, 1);
  g_assert_true (g_file_get_contents (a, &first, &length_a, NULL));
  g_assert_true (g_file_get_contents (b, &second, &length_b, NULL));
  g_assert_cmpmem (first, length_a, second, length_b);
  g_assert_cmpint (shell (f, "pdftotext -layout a.pdf -"), ==, 0);
  assert_says (f->out, wanted);
  /* A picture alone never says that a joint is sound. */
  g_assert_null (strstr (f->out, "caused by"));
  g_assert_cmpint (shell (f, "pdfimages -list a.pdf"), ==, 0);
  {
    guint images = 0;

    for (const char *p = f->out; (p = strstr (p, " jpeg ")) != NULL; p++)
      images++;
    g_assert_cmpuint (images, ==, 3);
  }
  g_assert_cmpint (shell (f, "pdfinfo a.pdf"), ==, 0);
  assert_says (f->out, (const char *[]){ "Tagged:          yes", "Inspection report", NULL });
}

/* At full resolution, lossless, called a copy, without a word of the camera. */
static void
test_annotated (Fixture *f, gconstpointer data)
{
  g_assert_cmpint (pictures (f, "--annotated copy.png --picture picture-3"), ==, 1);
  g_assert_cmpint (shell (f, "identify copy.png"), ==, 0);
  assert_says (f->out, (const char *[]){ "PNG", "900x600", NULL });
  g_assert_cmpint (pictures (f, "--annotated copy.jpg"), ==, 2);
  g_assert_cmpint (pictures (f, "--annotated copy.png --picture picture-77"), ==, 2);
}

static void
test_json (Fixture *f, gconstpointer data)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonObject *root, *measure;

  g_assert_cmpint (pictures (f, "--json"), ==, 1);
  json_parser_load_from_data (parser, f->out, -1, &error);
  g_assert_no_error (error);
  root = json_node_get_object (json_parser_get_root (parser));
  g_assert_cmpint (json_object_get_int_member (root, "format"), ==, 1);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "pictures")), ==, 3);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "findings")), ==, 3);
  g_assert_cmpstr (json_object_get_string_member (root, "as_designed"), ==, "Watch");
  g_assert_cmpstr (json_object_get_string_member (root, "as_found"), ==, "Change");
  /* The truth of the scene lies within U. */
  measure = json_array_get_object_element (json_object_get_array_member (root, "measures"), 0);
  g_assert_cmpfloat (ABS (json_object_get_double_member (measure, "value") - 44.0), <=,
                     json_object_get_double_member (measure, "expanded_uncertainty"));
  measure = json_array_get_object_element (json_object_get_array_member (root, "measures"), 1);
  g_assert_cmpfloat (ABS (json_object_get_double_member (measure, "value") - 4.3), <=,
                     json_object_get_double_member (measure, "expanded_uncertainty"));
}

static void
test_csv (Fixture *f, gconstpointer data)
{
  g_auto (GStrv) lines = NULL;

  g_assert_cmpint (pictures (f, "--csv"), ==, 1);
  lines = g_strsplit (f->out, "\r\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 5);
  g_assert_true (g_str_has_prefix (lines[0], "number,picture,severity,"));
  g_assert_true (g_str_has_prefix (lines[1], "\"1\",\"right-end.jpg\",\"unsafe\",\"D79\","));
}

/* Hashes as sha256sum has them; a byte of a picture exchanged is told. */
static void
test_verify (Fixture *f, gconstpointer data)
{
  g_autofree char *sums = g_strdup_printf (
      "sh -c 'for m in $(unzip -Z1 %s \"pictures/*\"); do unzip -p %s $m | sha256sum; done'",
      f->file, f->file);
  g_autofree char *listed = NULL, *copy = NULL,
                  *path = g_build_filename (f->folder, "c.tinlap", NULL), *bytes = NULL;
  g_auto (GStrv) lines = NULL;
  gsize length, at;

  g_assert_cmpint (pictures (f, "--verify"), ==, 0);
  listed = g_strdup (f->out);
  g_assert_cmpint (shell (f, sums), ==, 0);
  lines = g_strsplit (f->out, "\n", -1);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *hash = g_strndup (lines[i], 64);

      g_assert_nonnull (strstr (listed, hash));
    }
  /* The words of the document are deflated; its name in the list is not: a hash exchanged in the name of a member. */
  g_assert_true (g_file_get_contents (f->file, &bytes, &length, NULL));
  for (at = 0; memcmp (bytes + at, "pictures/", 9) != 0; at++)
    g_assert_cmpuint (at, <, length);
  bytes[at + 200] ^= 1;
  g_assert_true (g_file_set_contents (path, bytes, (gssize) length, NULL));
  copy = f->file;
  f->file = g_steal_pointer (&path);
  g_assert_cmpint (pictures (f, "--verify"), !=, 0);
  g_free (f->file);
  f->file = g_steal_pointer (&copy);
}

static void
test_wrong_calls (Fixture *f, gconstpointer data)
{
  g_autofree char *same = g_strdup_printf ("--report %s", f->file);
  const char      *calls[] = { "--json --csv", "--date tomorrow --report a.pdf",
                               "--paper a3",   "--inspection none",
                               same,           "--report /no/such/folder/a.pdf",
                               "second.tinlap" };

  for (guint i = 0; i < G_N_ELEMENTS (calls); i++)
    {
      g_assert_cmpint (pictures (f, calls[i]), ==, 2);
      g_assert_cmpstr (f->out, ==, "");
      /* One line. */
      g_assert_true (strchr (f->complaint, '\n') == f->complaint + strlen (f->complaint) - 1);
    }
}

/* A joint without pictures has none, and nothing to report. */
static void
test_none (Fixture *f, gconstpointer data)
{
  g_free (f->file);
  f->file = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples",
                              "zinc-washer.tinlap", NULL);
  g_assert_cmpint (pictures (f, ""), ==, 0);
  assert_says (f->out, (const char *[]){ "no picture", NULL });
  g_assert_cmpint (pictures (f, "--report a.pdf"), ==, 2);
  g_assert_cmpint (pictures (f, "--verify"), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, func) g_test_add ("/pictures/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("report", test_report);
  ADD ("annotated", test_annotated);
  ADD ("json", test_json);
  ADD ("csv", test_csv);
  ADD ("verify", test_verify);
  ADD ("wrong-calls", test_wrong_calls);
  ADD ("none", test_none);
  return g_test_run ();
}
