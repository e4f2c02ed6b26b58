/* test-ageing.c: the verb `ageing` as a person at the terminal meets it.
 *
 * Codes and messages are the project's own contract: 0 nothing worse than Watch; 1 Change, Unsafe, Unfinished or not
 * computed; 2 one line on standard error, nothing written.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "schema-check.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/wait.h>

typedef struct
{
  char *output, *errors;
  int   code;
} Run;

static void
run_clear (Run *self)
{
  g_free (self->output);
  g_free (self->errors);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Run, run_clear)

static char *
example (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".tinlap", NULL);

  if (g_path_is_absolute (name))
    return g_strdup (name);
  return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", file, NULL);
}

/* `tinlap-cli ageing EXAMPLE` with up to four more arguments. */
static Run
ageing (const char *name, const char *a, const char *b, const char *c, const char *d)
{
  g_autofree char *program =
      g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  g_autofree char *path = example (name);
  const char      *argv[] = { program, "ageing", path, a, b, c, d, NULL };
  g_autoptr (GError) error = NULL;
  Run run = { 0 };
  int status;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &run.output, &run.errors,
                &status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (status));
  run.code = WEXITSTATUS (status);
  return run;
}

static void
assert_bad (const char *a, const char *b, const char *wanted)
{
  g_auto (Run) run = ageing ("bolted-as-it-should-be", a, b, NULL, NULL);
  const char *end = strchr (run.errors, '\n');

  g_assert_cmpint (run.code, ==, 2);
  g_assert_cmpstr (run.output, ==, "");
  g_assert_true (end != NULL && end[1] == '\0');
  if (strstr (run.errors, wanted) == NULL)
    g_error ("“%s” is not in: %s", wanted, run.errors);
}

static void
test_text (void)
{
  g_auto (Run) good = ageing ("socket-circuit-weaving-floor", NULL, NULL, NULL, NULL);
  g_auto (Run) change = ageing ("no-spring-washer", "--years", "40", NULL, NULL);

  g_assert_cmpint (good.code, ==, 0);
  g_assert_cmpstr (good.errors, ==, "");
  g_assert_nonnull (strstr (good.output, "Indicative"));
  g_assert_null (strstr (good.output, "Clamping force, cold"));
  g_assert_cmpint (change.code, ==, 1);
  g_assert_nonnull (strstr (change.output, "Clamping force, cold"));
  g_assert_nonnull (strstr (change.output, "Look again"));
}

static void
test_json (void)
{
  g_auto (Run) run = ageing ("bolted-as-it-should-be", "--json", "--samples", "64", NULL);
  g_auto (Run) again = ageing ("bolted-as-it-should-be", "--json", "--samples", "64", NULL);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonObject *root, *bands, *band;
  JsonArray  *years, *drivers;

  g_assert_cmpstr (run.output, ==, again.output);
  json_parser_load_from_data (parser, run.output, -1, &error);
  g_assert_no_error (error);
  root = json_node_get_object (json_parser_get_root (parser));
  g_assert_cmpint (json_object_get_int_member (root, "format"), ==, 1);
  g_assert_cmpstr (json_object_get_string_member (root, "class"), ==, "I");
  g_assert_true (json_object_get_null_member (root, "not_computed"));
  g_assert_cmpint (json_object_get_int_member (root, "samples"), ==, 64);
  bands = json_object_get_object_member (root, "bands");
  g_assert_cmpuint (json_object_get_size (bands), ==, 4);
  years = json_object_get_array_member (json_object_get_object_member (bands, "hot"), "years");
  band = json_array_get_object_element (years, json_array_get_length (years) - 1);
  g_assert_cmpfloat (json_object_get_double_member (band, "low"), <,
                     json_object_get_double_member (band, "middle"));
  g_assert_cmpfloat (json_object_get_double_member (band, "middle"), <,
                     json_object_get_double_member (band, "high"));
  drivers = json_object_get_array_member (root, "drivers");
  g_assert_cmpuint (json_array_get_length (drivers), >, 3);
  g_assert_cmpstr (
      json_object_get_string_member (json_object_get_object_member (root, "look"), "when"), ==,
      "within-year");
}

static void
test_chart (void)
{
  static const struct
  {
    const char *name, *start;
  } charts[] = { { "chart.png", "\x89PNG" }, { "chart.svg", "<?xml" }, { "chart.pdf", "%PDF" } };
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("tinlap-ageing-XXXXXX", &error);

  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    {
      g_autofree char *path = g_build_filename (folder, charts[i].name, NULL);
      g_autofree char *data = NULL;
      g_auto (Run) run = ageing ("bolted-as-it-should-be", "--chart", path, "--paper", NULL);

      g_assert_cmpint (run.code, ==, 0);
      g_assert_true (g_file_get_contents (path, &data, NULL, NULL));
      g_assert_true (g_str_has_prefix (data, charts[i].start));
      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
test_bad (void)
{
  g_autofree char *self = example ("bolted-as-it-should-be");

  assert_bad ("--samples", "0", "16 to 20000");
  assert_bad ("--samples", "-5", "16 to 20000");
  assert_bad ("--years", "1e9", "1 to 40");
  assert_bad ("--years", "0", "1 to 40");
  assert_bad ("--years", "nan", "1 to 40");
  assert_bad ("--years", "soon", "soon");
  assert_bad ("--chart", "x.gif", ".png, .svg, .pdf");
  assert_bad ("--chart", self, "none of");
  assert_bad ("--chart", "/no/such/folder/x.png", "/no/such/folder");
  assert_bad ("--practice", "home-style", "home-style");
}

static JsonNode *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  JsonNode *node = json_from_string (text, &error);

  g_assert_no_error (error);
  return node;
}

/* Checks the JSON of a joint, and that a key less is noticed; %TRUE if it was computed. */
static gboolean
fits (JsonNode *schema, const char *name)
{
  g_auto (Run) run = ageing (name, "--json", "--samples", "16", NULL);
  g_autoptr (JsonNode) data = parse (run.output);
  g_autofree char *complaint = tl_schema_check (schema, data), *lack = NULL;
  JsonObject      *root = json_node_get_object (data);

  if (complaint != NULL)
    g_error ("%s: %s", name, complaint);
  json_object_remove_member (root, "span_years");
  lack = tl_schema_check (schema, data);
  g_assert_nonnull (lack);
  return json_object_has_member (root, "bands");
}

/* The JSON of every example is what its schema says, and that of a joint of which nothing is known. */
static void
test_schema (void)
{
  static const char empty[] =
      "<joint xmlns=\"urn:tinlap:joint:1\" format=\"1\" minor=\"0\" next-id=\"1\">"
      "<about name=\"\"/><legs/><layers/><site/><duty/></joint>";
  g_autofree char *examples =
      g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "schema",
                                            "ageing.schema.json", NULL);
  g_autofree char *text = NULL, *folder = g_dir_make_tmp ("tinlap-ageing-XXXXXX", NULL),
                  *bare = g_build_filename (folder, "bare.tinlap", NULL);
  g_autoptr (JsonNode) schema = NULL;
  g_autoptr (GDir) dir = g_dir_open (examples, 0, NULL);
  guint computed = 0;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  schema = parse (text);
  for (const char *file; (file = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *name = g_strndup (file, strcspn (file, "."));

      computed += fits (schema, name) ? 1 : 0;
    }
  g_assert_cmpuint (computed, >, 0);
  g_assert_true (g_file_set_contents (bare, empty, -1, NULL));
  g_assert_false (fits (schema, bare));
  g_unlink (bare);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli-ageing/text", test_text);
  g_test_add_func ("/cli-ageing/json", test_json);
  g_test_add_func ("/cli-ageing/chart", test_chart);
  g_test_add_func ("/cli-ageing/bad", test_bad);
  g_test_add_func ("/ageing/schema", test_schema);
  return g_test_run ();
}
