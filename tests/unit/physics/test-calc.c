/* The verb calc as a person or another program meets it: what it prints, what it refuses, with which code.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/calc.h"
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct
{
  int   code;
  char *out;
  char *err;
} Result;

static void
result_clear (Result *self)
{
  g_free (self->out);
  g_free (self->err);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Result, result_clear)

/* Runs the verb in this process with both outputs caught in files. */
static void
run (Result *result, const char *tag, const char *const *arguments)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (TlLanguage) language = tl_language_new (tag, TL_UNITS_METRIC);
  char *path[2];
  int   saved[2];

  g_ptr_array_add (argv, (char *) "calc");
  for (guint i = 0; arguments[i] != NULL; i++)
    g_ptr_array_add (argv, (char *) arguments[i]);
  fflush (NULL);
  for (int i = 0; i < 2; i++)
    {
      const int file = g_file_open_tmp ("tinlap-calc-XXXXXX", &path[i], NULL);
      g_assert_cmpint (file, >=, 0);
      saved[i] = dup (i + 1);
      g_assert_cmpint (dup2 (file, i + 1), >=, 0);
      close (file);
    }
  result->code = tl_cli_calc ((int) argv->len, (char **) argv->pdata, language);
  fflush (NULL);
  for (int i = 0; i < 2; i++)
    {
      g_assert_cmpint (dup2 (saved[i], i + 1), >=, 0);
      close (saved[i]);
      g_assert_true (
          g_file_get_contents (path[i], i == 0 ? &result->out : &result->err, NULL, NULL));
      g_unlink (path[i]);
      g_free (path[i]);
    }
}

#define RUN(result, ...) run (result, "en", (const char *const[]){ __VA_ARGS__, NULL })

static void
assert_says (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("\"%s\" does not say \"%s\"", text, part);
}

/* One line on standard error, nothing on standard output, code 2. */
static void
assert_refused (const Result *result, const char *part)
{
  g_assert_cmpint (result->code, ==, 2);
  g_assert_cmpstr (result->out, ==, "");
  assert_says (result->err, part);
  g_assert_true (strchr (result->err, '\n') == result->err + strlen (result->err) - 1);
}

/* T = K d F: 20 N m, 0.2, 8 mm give 12500 N (closed form). */
static void
test_working (void)
{
  g_auto (Result) r = { 0 };

  RUN (&r, "torque-to-preload", "torque=20 N_m", "nut_factor=0.2", "diameter=8 mm");
  g_assert_cmpint (r.code, ==, 0);
  g_assert_cmpstr (r.err, ==, "");
  assert_says (r.out, "preload = 12500 N\n");
  assert_says (r.out, "torque = 20 N");
  assert_says (r.out, "preload = T/(K d)");
  assert_says (r.out, "Source: ");
  assert_says (r.out, "Trust class B");
}

static void
test_working_range (void)
{
  g_auto (Result) r = { 0 }, german = { 0 };

  RUN (&r, "torque-to-preload", "torque=15 N_m", "nut_factor=0.16..0.26", "diameter=8 mm");
  g_assert_cmpint (r.code, ==, 0);
  assert_says (r.out, "from 7211.54 to 11718.8 N");
  /* Decimal comma by the language, not by the process. */
  run (&german, "de",
       (const char *const[]){ "torque-to-preload", "torque=15 N_m", "nut_factor=0.21",
                              "diameter=8 mm", NULL });
  assert_says (german.out, "8928,57");
  g_auto (Result) option = { 0 };
  RUN (&option, "--language", "de", "torque-to-preload", "torque=15 N_m", "nut_factor=0.21",
       "diameter=8 mm");
  g_assert_cmpstr (option.out, ==, german.out);
}

static JsonNode *
json_of (const Result *result)
{
  g_autoptr (GError) error = NULL;
  JsonNode *node = json_from_string (result->out, &error);

  g_assert_no_error (error);
  g_assert_nonnull (node);
  return node;
}

static void
test_working_json (void)
{
  g_auto (Result) r = { 0 };

  RUN (&r, "galvanic-step", "potential_1=1350 mV", "potential_2=700 mV", "limit=600 mV",
       "noble=rising", "--json");
  g_assert_cmpint (r.code, ==, 0);
  g_autoptr (JsonNode) root = json_of (&r);
  JsonObject *outputs = json_object_get_object_member (json_node_get_object (root), "outputs");
  g_assert_cmpfloat (json_object_get_double_member (
                         json_object_get_object_member (outputs, "difference"), "value"),
                     ==, 650.0);
  g_assert_cmpstr (
      json_object_get_string_member (json_object_get_object_member (outputs, "outcome"), "value"),
      ==, "above");
  g_assert_cmpstr (json_object_get_string_member (json_node_get_object (root), "class"), ==, "A");
}

static void
test_list (void)
{
  g_auto (Result) r = { 0 }, json = { 0 };

  RUN (&r, "--list");
  g_assert_cmpint (r.code, ==, 0);
  assert_says (r.out, "galvanic-step: ");
  g_auto (Result) help = { 0 };
  RUN (&help, "--help");
  g_assert_cmpint (help.code, ==, 0);
  assert_says (help.out, "--cases FILE.csv");
  assert_says (r.out, "part_1..part_8 (mm)");
  assert_says (r.out, "across (flats | corners)");
  RUN (&json, "--list", "--json");
  g_autoptr (JsonNode) root = json_of (&json);
  g_assert_cmpuint (json_array_get_length (
                        json_object_get_array_member (json_node_get_object (root), "formulas")),
                    >, 60);
}

static char *
reference_file (const char *name)
{
  return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests", "reference", name, NULL);
}

static void
test_cases (void)
{
  static const char *const files[] = { "mechanics_cases.csv", "galvanic_cases.csv",
                                       "box_fill_cases.csv", "circuit_cases.csv",
                                       "thermal_cases.csv" };
  static const char *const last[] = { "77 passed, 0 failed, 0 left out\n",
                                      "85 passed, 0 failed, 0 left out\n",
                                      "31 passed, 0 failed, 0 left out\n",
                                      "49 passed, 0 failed, 0 left out\n",
                                      "54 passed, 0 failed, 0 left out\n" };

  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_auto (Result) r = { 0 }, json = { 0 };
      g_autofree char *path = reference_file (files[i]);

      RUN (&r, "--cases", path);
      g_assert_cmpint (r.code, ==, 0);
      g_assert_true (g_str_has_suffix (r.out, last[i]));
      RUN (&json, "--json", "--cases", path);
      g_autoptr (JsonNode) root = json_of (&json);
      g_assert_cmpint (json_object_get_int_member (json_node_get_object (root), "failed"), ==, 0);
    }
}

static void
write_cases (const char *text, char **path)
{
  const int file = g_file_open_tmp ("tinlap-cases-XXXXXX", path, NULL);

  g_assert_cmpint (file, >=, 0);
  close (file);
  g_assert_true (g_file_set_contents (*path, text, -1, NULL));
}

#define HEAD "id,formula,inputs,expected,unit,tolerance,source,known_by,note\n"

static void
test_cases_out (void)
{
  g_auto (Result) r = { 0 }, json = { 0 };
  g_autofree char *path = NULL;

  write_cases (HEAD "A,hexagon-area,width=7 mm; across=flats,43,mm2,0.1 %,g,c,\n"
                    "B,no-such-formula,x=1,1,mm,exact,g,c,\n"
                    "C,box-length,joint_length=1 mm; lead_1=1 mm; lead_2=1 mm; inner_width=9 "
                    "mm,length=3; fits=yes,mm; word,exact,g,c,\n",
               &path);
  RUN (&r, "--cases", path);
  g_assert_cmpint (r.code, ==, 1);
  assert_says (r.out, "A\tarea=42.4352 mm2\tarea=43 mm2\tout\n");
  assert_says (r.out, "B\t-\t-\tleft out: ");
  assert_says (r.out, "C\tlength=3 mm; fits=yes\tlength=3 mm; fits=yes\tin\n");
  g_assert_true (g_str_has_suffix (r.out, "1 passed, 1 failed, 1 left out\n"));
  RUN (&json, "--json", "--cases", path);
  g_assert_cmpint (json.code, ==, 1);
  g_autoptr (JsonNode) root = json_of (&json);
  g_assert_cmpint (json_object_get_int_member (json_node_get_object (root), "left_out"), ==, 1);
  g_unlink (path);
}

static void
test_cases_bad (void)
{
  g_auto (Result) r = { 0 };
  g_autofree char *path = NULL;

  write_cases (HEAD "A,hexagon-area,width=7 mm; across=flats,42.4352,mm2,0.1 "
                    "%,g,c,\nB,hexagon-area,width=0 mm; across=flats,1,mm2,exact,g,c,\n",
               &path);
  g_autofree char *place =
      g_strconcat (path, ":3: hexagon-area: width is 0 mm; it must be above 0 mm", NULL);
  RUN (&r, "--cases", path);
  assert_refused (&r, place);
  g_unlink (path);
}

static void
test_refusals (void)
{
  static const struct
  {
    const char *arguments[6];
    const char *says;
  } calls[] = {
    { { NULL }, "calc needs one of" },
    { { "--json" }, "calc needs one of" },
    { { "--list", "hexagon-area" }, "calc needs one of" },
    { { "--cases" }, "--cases needs" },
    { { "--cases=" }, "--cases needs" },
    { { "--cases", "/nonexistent/x.csv" }, "/nonexistent/x.csv" },
    { { "--frobnicate" }, "--frobnicate" },
    { { "--casesx", "file" }, "--casesx" },
    { { "--language" }, "--language needs" },
    { { "-h" }, "-h" },
    { { "" }, "there is no formula called" },
    { { "no-such-formula" }, "no-such-formula" },
    { { "hexagon-area" }, "width, across" },
    { { "hexagon-area", "width" }, "has no value" },
    { { "hexagon-area", "=7 mm" }, "no input \"\"" },
    { { "hexagon-area", "width=" }, "width" },
    { { "hexagon-area", "width=7 mm", "width=8 mm", "across=flats" }, "given twice" },
    { { "hexagon-area", "width=7 N", "across=flats" }, "width" },
    { { "hexagon-area", "width=-7 mm", "across=flats" }, "-7 mm" },
    { { "hexagon-area", "width=1e9 mm", "across=flats" }, "500 mm" },
    { { "hexagon-area", "width=nan", "across=flats" }, "width" },
    { { "hexagon-area", "width=7 mm", "across=sides" }, "flats, corners" },
    { { "hexagon-area", "wi\ndth=7 mm" }, "wi dth" },
    { { "hexagon-area", "\xff\xfe=7 mm" }, "no input" },
    { { "unit-conversion", "value=1 in", "to=N" }, "unit-conversion" },
    { { "unit-conversion", "value=1", "to=N" }, "unit" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (calls); i++)
    {
      g_auto (Result) r = { 0 };

      run (&r, "en", calls[i].arguments);
      assert_refused (&r, calls[i].says);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc/working", test_working);
  g_test_add_func ("/calc/working-range", test_working_range);
  g_test_add_func ("/calc/working-json", test_working_json);
  g_test_add_func ("/calc/list", test_list);
  g_test_add_func ("/calc/cases", test_cases);
  g_test_add_func ("/calc/cases-out", test_cases_out);
  g_test_add_func ("/calc/cases-bad", test_cases_bad);
  g_test_add_func ("/calc/refusals", test_refusals);
  return g_test_run ();
}
