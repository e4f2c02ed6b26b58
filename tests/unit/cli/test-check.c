/* test-check.c: the JSON of `check` against its schema, and the writer beneath it.
 *
 * JSON: RFC 8259. The keys are the project's own contract (data/schema/check.schema.json).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/check-private.h"
#include "base/json.h"
#include "plan-test.h"
#include "schema-check.h"

#include <math.h>
#include <string.h>

static JsonNode *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  JsonNode *node = json_from_string (text, &error);

  g_assert_no_error (error);
  return node;
}

static JsonNode *
load_schema (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "schema",
                                            "check.schema.json", NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return parse (text);
}

static void
assert_fits (TlJoint *joint)
{
  g_autoptr (JsonNode) schema = load_schema ();
  g_autoptr (TlVerdict) verdict = pt_judge (joint);
  g_autofree char *text = tl_cli_check_json (verdict);
  g_autoptr (JsonNode) data = parse (text);
  g_autofree char *complaint = tl_schema_check (schema, data);
  JsonObject      *object = json_node_get_object (data);

  g_assert_cmpstr (complaint, ==, NULL);
  g_assert_cmpint (json_object_get_int_member (object, "format"), ==, 1);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (object, "findings")), ==,
                    verdict->findings->len);
  g_assert_cmpint (JSON_NODE_HOLDS_NULL (json_object_get_member (object, "verdict")), ==,
                   !verdict->has_severity);
}

static void
test_schema (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint i = 0; i < names->len; i++)
    assert_fits (pt_example (g_ptr_array_index (names, i)));
  assert_fits (pt_unfinished ());
  assert_fits (tl_joint_new ());
}

/* The check itself refuses what it should: a wrong word, a missing and an unknown key, a wrong type. */
static void
test_schema_refuses (void)
{
  static const struct
  {
    const char *before, *after;
  } cases[] = {
    { "\"verdict\": \"Watch\"", "\"verdict\": \"Fine\"" },
    { "\"practice\":", "\"practise\":" },
    { "\"format\": 1", "\"format\": 2" },
    { "\"findings\": [", "\"findings\": [ 7," },
    { "\"unfinished\": []", "\"unfinished\": null" },
  };
  g_autoptr (JsonNode) schema = load_schema ();
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  g_autofree char *text = tl_cli_check_json (verdict);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) parts = g_strsplit (text, cases[i].before, 2);
      g_autofree char *bad = g_strjoinv (cases[i].after, parts);
      g_autoptr (JsonNode) data = parse (bad);
      g_autofree char *complaint = tl_schema_check (schema, data);

      g_assert_cmpuint (g_strv_length (parts), ==, 2);
      g_assert_nonnull (complaint);
    }
}

static void
test_same_bytes (void)
{
  g_autoptr (TlVerdict) a = pt_judge (pt_example ("zinc-washer"));
  g_autoptr (TlVerdict) b = pt_judge (pt_example ("zinc-washer"));
  g_autofree char *text_a = tl_cli_check_json (a);
  g_autofree char *text_b = tl_cli_check_json (b);

  g_assert_cmpstr (text_a, ==, text_b);
}

/* IEC 60950-1 Annex J: aluminium-copper 650 mV, above 600 (table from memory, see the sources of the data). */
static void
test_couple (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("copper-on-aluminium"));
  g_autofree char *text = tl_cli_check_json (verdict);
  g_autoptr (JsonNode) data = parse (text);
  JsonObject *margins = json_object_get_object_member (json_node_get_object (data), "margins");
  JsonObject *galvanic = json_object_get_object_member (margins, "galvanic");

  g_assert_cmpfloat (json_object_get_double_member (galvanic, "value"), ==, 650.0);
  g_assert_cmpfloat (json_object_get_double_member (galvanic, "limit"), ==, 600.0);
  g_assert_cmpstr (json_object_get_string_member (galvanic, "unit"), ==, "mV");
}

static void
test_writer (void)
{
  TlJson          *json = tl_json_new ();
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) node = NULL;
  JsonObject *object;

  tl_json_open (json, NULL, FALSE);
  tl_json_string (json, "quote \"", "line\nend \\ \x01 ü");
  tl_json_number (json, "tenth", 0.1);
  tl_json_number (json, "huge", 1e300);
  tl_json_number (json, "unknown", NAN);
  tl_json_number (json, "endless", HUGE_VAL);
  tl_json_open (json, "empty", TRUE);
  tl_json_close (json);
  tl_json_null (json, "nothing");
  tl_json_close (json);
  text = tl_json_finish (json);
  node = parse (text);
  object = json_node_get_object (node);
  g_assert_cmpstr (json_object_get_string_member (object, "quote \""), ==, "line\nend \\ \x01 ü");
  g_assert_nonnull (strstr (text, "\"tenth\": 0.1,"));
  g_assert_cmpfloat (json_object_get_double_member (object, "huge"), ==, 1e300);
  g_assert_true (json_object_get_null_member (object, "unknown"));
  g_assert_true (json_object_get_null_member (object, "endless"));
  g_assert_true (json_object_get_null_member (object, "nothing"));
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (object, "empty")), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/schema/fits", test_schema);
  g_test_add_func ("/check/schema/refuses", test_schema_refuses);
  g_test_add_func ("/check/same-bytes", test_same_bytes);
  g_test_add_func ("/check/couple", test_couple);
  g_test_add_func ("/check/writer", test_writer);
  return g_test_run ();
}
