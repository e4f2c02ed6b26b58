/* Case files that are malformed, hostile or merely unusual.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "physics/cases.h"
#include <string.h>

#define HEAD "id,formula,inputs,expected,unit,tolerance,source,known_by,note\n"
#define ROW "A,hexagon-area,width=7 mm; across=flats,42.4352,mm2,0.1 %,geometry,closed form,\n"

typedef struct
{
  const char *name;
  const char *text;
  gssize      length; /* -1: to the NUL */
  int         code;
  const char *says; /* part of the message, with file and line */
} Bad;

#define TEXT(s) s, -1

static const Bad bad[] = {
  { "empty", TEXT (""), TL_ERROR_PARSE, "f.csv:1: the file is empty" },
  { "only-bom", TEXT ("\xEF\xBB\xBF"), TL_ERROR_PARSE, "f.csv:1: the file is empty" },
  { "only-lines", TEXT ("\n\r\n\n"), TL_ERROR_PARSE, "f.csv:1: the file is empty" },
  { "nul", "id,for\0mula\n", 12, TL_ERROR_PARSE, "f.csv:1: there is a NUL byte" },
  { "nul-later", HEAD ROW "B\0", sizeof (HEAD ROW "B"), TL_ERROR_PARSE,
    "f.csv:3: there is a NUL byte" },
  { "not-utf8", TEXT (HEAD "\xff\xfe,a\n"), TL_ERROR_PARSE, "f.csv:2: the text is not UTF-8" },
  { "missing-column", TEXT ("id,formula,inputs,expected,unit,tolerance,source,known_by\n"),
    TL_ERROR_PARSE, "f.csv:1: the column note is missing" },
  { "column-twice", TEXT ("id,id,formula,inputs,expected,unit,tolerance,source,known_by,note\n"),
    TL_ERROR_PARSE, "the column id stands twice" },
  { "short-row", TEXT (HEAD ROW "B,hexagon-area\n"), TL_ERROR_PARSE,
    "f.csv:3: the row has 2 fields; it must have 9" },
  { "long-row", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,mm2,exact,g,c,n,extra\n"),
    TL_ERROR_PARSE, "f.csv:2: the row has 10" },
  { "open-quote", TEXT (HEAD "\"A,hexagon-area\nmore\nlines\n"), TL_ERROR_PARSE,
    "f.csv:2: a quoted field is not closed" },
  { "quote-at-end", TEXT (HEAD "\""), TL_ERROR_PARSE, "f.csv:2: a quoted field is not closed" },
  { "text-after-quote", TEXT (HEAD "\"A\"B,c\n"), TL_ERROR_PARSE,
    "f.csv:2: text follows a closing quote" },
  { "quote-inside", TEXT (HEAD "A\"B\",c\n"), TL_ERROR_PARSE, "f.csv:2: a quote stands inside" },
  { "lone-cr", TEXT (HEAD "A\rB\n"), TL_ERROR_PARSE, "f.csv:2: a carriage return stands alone" },
  { "no-id", TEXT (HEAD ",hexagon-area,width=7 mm; across=flats,1,mm2,exact,g,c,\n"),
    TL_ERROR_PARSE, "f.csv:2: the row has no id" },
  { "no-formula", TEXT (HEAD "A,,width=7 mm,1,mm2,exact,g,c,\n"), TL_ERROR_PARSE,
    "f.csv:2: the row has no id or no formula" },
  { "unknown-input", TEXT (HEAD "A,hexagon-area,height=7 mm,1,mm2,exact,g,c,\n"), TL_ERROR_NAME,
    "f.csv:2: hexagon-area: there is no input \"height\"" },
  { "input-without-value", TEXT (HEAD "A,hexagon-area,width,1,mm2,exact,g,c,\n"), TL_ERROR_PARSE,
    "f.csv:2: the input \"width\" has no value" },
  { "input-twice",
    TEXT (HEAD "A,hexagon-area,width=1 mm; width=2 mm; across=flats,1,mm2,exact,g,c,\n"),
    TL_ERROR_NAME, "width is given twice" },
  { "input-hole", TEXT (HEAD "A,hexagon-area,width=1 mm;; across=flats,1,mm2,exact,g,c,\n"),
    TL_ERROR_PARSE, "inputs has an empty entry" },
  { "input-missing", TEXT (HEAD "A,hexagon-area,width=1 mm,1,mm2,exact,g,c,\n"), TL_ERROR_NAME,
    "these inputs are missing: across" },
  { "input-out-of-range", TEXT (HEAD "A,hexagon-area,width=-1 mm; across=flats,1,mm2,exact,g,c,\n"),
    TL_ERROR_RANGE, "f.csv:2: hexagon-area: width is -1 mm" },
  { "input-nan", TEXT (HEAD "A,hexagon-area,width=nan mm; across=flats,1,mm2,exact,g,c,\n"), -1,
    "f.csv:2: hexagon-area: width" },
  { "input-huge", TEXT (HEAD "A,hexagon-area,width=1e999 mm; across=flats,1,mm2,exact,g,c,\n"), -1,
    "f.csv:2: hexagon-area: width" },
  { "unknown-output",
    TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,volume=1,mm2,exact,g,c,\n"), TL_ERROR_NAME,
    "no output \"volume\"" },
  { "nameless-second", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1; 2,mm2,exact,g,c,\n"),
    TL_ERROR_NAME, "f.csv:2" },
  { "no-expected", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,,mm2,exact,g,c,\n"),
    TL_ERROR_PARSE, "0 expected figures" },
  { "no-unit", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,,exact,g,c,\n"),
    TL_ERROR_PARSE, "0 units" },
  { "unit-count",
    TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,area=1,mm2; mm; N,exact,g,c,\n"),
    TL_ERROR_PARSE, "3 units" },
  { "unit-wrong", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,N,exact,g,c,\n"),
    TL_ERROR_UNIT, "area is expected in \"N\"" },
  { "unit-unknown", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,furlong,exact,g,c,\n"),
    TL_ERROR_UNIT, "furlong" },
  { "expected-text", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,big,mm2,exact,g,c,\n"),
    TL_ERROR_PARSE, "f.csv:2" },
  { "expected-nan", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,nan,mm2,exact,g,c,\n"), -1,
    "f.csv:2" },
  { "expected-falls", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,2..1,mm2,exact,g,c,\n"),
    TL_ERROR_RANGE, "falls" },
  { "word-unknown",
    TEXT (HEAD "A,box-length,joint_length=1 mm; lead_1=1 mm; lead_2=1 mm; inner_width=9 "
               "mm,fits=maybe,word,exact,g,c,\n"),
    TL_ERROR_NAME, "no, yes" },
  { "word-unit",
    TEXT (HEAD "A,box-length,joint_length=1 mm; lead_1=1 mm; lead_2=1 mm; inner_width=9 "
               "mm,fits=yes,mm,exact,g,c,\n"),
    TL_ERROR_NAME, "unit word" },
  { "tolerance-text", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,mm2,about,g,c,\n"),
    TL_ERROR_PARSE, "the tolerance is \"about\"" },
  { "tolerance-empty", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,mm2,,g,c,\n"),
    TL_ERROR_PARSE, "the tolerance is \"\"" },
  { "tolerance-negative", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,mm2,-1 %,g,c,\n"),
    TL_ERROR_PARSE, "-1 %" },
  { "tolerance-only-percent", TEXT (HEAD "A,hexagon-area,width=7 mm; across=flats,1,mm2,%,g,c,\n"),
    TL_ERROR_PARSE, "the tolerance" },
  /* The good row before the bad one leaves nothing behind. */
  { "bad-after-good", TEXT (HEAD ROW ROW "B,hexagon-area,width=x; across=flats,1,mm2,exact,g,c,\n"),
    TL_ERROR_PARSE, "f.csv:4" },
};

static void
test_bad (gconstpointer data)
{
  const Bad *b = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (TlCases) cases = tl_cases_parse (
      b->text, b->length < 0 ? strlen (b->text) : (gsize) b->length, "f.csv", &error);

  g_assert_null (cases);
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_true (error->domain == TL_ERROR);
  if (b->code >= 0)
    g_assert_cmpint (error->code, ==, b->code);
  g_assert_true (g_str_has_prefix (error->message, "f.csv:"));
  g_assert_nonnull (strstr (error->message, b->says));
}

static TlCases *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  TlCases *cases = tl_cases_parse (text, strlen (text), "f.csv", &error);

  g_assert_no_error (error);
  return cases;
}

static void
test_unusual (void)
{
  /* BOM, CR LF, quotes with commas, doubled quotes and a line end, blank lines, other order of columns, a
   * further column, no line end at the end. */
  const char *text = "\xEF\xBB\xBF"
                     "more,note,known_by,source,tolerance,unit,expected,inputs,formula,id\r\n\r\n"
                     "x,\"a \"\"quoted\"\", note\r\nover two lines\",seen,geometry,0.1 "
                     "%,mm2,42.4352,width=7 mm; across=flats;,hexagon-area, A \r\n"
                     "x,,seen,geometry,0.1 %,in2,0.0657747,width=7 mm; across=flats,hexagon-area,B";
  g_autoptr (TlCases) cases = parse (text);
  const TlCase *first = cases->cases->pdata[0], *second = cases->cases->pdata[1];

  g_assert_cmpuint (cases->passed, ==, 2);
  g_assert_cmpstr (first->id, ==, "A");
  g_assert_cmpuint (first->line, ==, 3);
  g_assert_cmpuint (second->line, ==, 5);
}

static void
test_states (void)
{
  g_autoptr (TlCases) cases = parse (
      HEAD ROW
      "B,hexagon-area,width=7 mm; across=flats,42.5,mm2,0.1 %,g,c,\n"
      "C,no-such-formula,anything,1,mm2,exact,g,c,\n"
      "D,box-length,joint_length=1 mm; lead_1=1 mm; lead_2=1 mm; inner_width=9 "
      "mm,fits=no,word,exact,g,c,\n"
      "E,bolt-length,head=4 mm; part_1=10 mm; nut=5 mm; offered_1=6 mm,length=16,mm,exact,g,c,\n");

  g_assert_cmpuint (cases->passed, ==, 1);
  g_assert_cmpuint (cases->failed, ==, 3);
  g_assert_cmpuint (cases->left_out, ==, 1);
  g_assert_nonnull (strstr (((const TlCase *) cases->cases->pdata[2])->reason, "no-such-formula"));
  g_assert_false (
      g_array_index (((const TlCase *) cases->cases->pdata[4])->figures, TlCaseFigure, 0)
          .has_computed);
}

/* The edge of a tolerance is within, a hair beyond is not. */
static void
test_tolerance (void)
{
  g_autoptr (TlCases) cases =
      parse (HEAD "A,box-depth,joint_diameter=10 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,9.9,mm,0.1,g,c,\n"
                  "B,box-depth,joint_diameter=10 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,9.899,mm,0.1,g,c,\n"
                  "C,box-depth,joint_diameter=10 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,8,mm,25 %,g,c,\n"
                  "D,box-depth,joint_diameter=10 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,10,mm,exact,g,c,\n"
                  "E,box-depth,joint_diameter=10 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,10.00001,mm,exact,g,c,\n"
                  "F,box-depth,joint_diameter=9..11 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,9..11,mm,exact,g,c,\n"
                  "G,box-depth,joint_diameter=9..11 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,9..12,mm,exact,g,c,\n"
                  "H,box-depth,joint_diameter=0 mm; bend_radius=0 mm; conductor_diameter=0 mm; "
                  "clearance=0 mm,0,mm,exact,g,c,\n");
  static const TlCaseState expected[] = { TL_CASE_IN,  TL_CASE_OUT, TL_CASE_IN,  TL_CASE_IN,
                                          TL_CASE_OUT, TL_CASE_IN,  TL_CASE_OUT, TL_CASE_IN };

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpint (((const TlCase *) cases->cases->pdata[i])->state, ==, expected[i]);
}

static void
test_huge (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *field = g_strnfill (TL_CASES_MAX_FIELD_BYTES + 2, 'x');
  g_autofree char *plain = g_strconcat (HEAD, field, ",y\n", NULL);
  g_autofree char *quoted = g_strconcat (HEAD, "\"", field, NULL);
  g_autofree char *commas = g_strnfill (100000, ',');

  g_assert_null (tl_cases_parse (plain, strlen (plain), "f.csv", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
  g_clear_error (&error);
  g_assert_null (tl_cases_parse (quoted, strlen (quoted), "f.csv", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
  g_clear_error (&error);
  g_assert_null (tl_cases_parse (commas, strlen (commas), "f.csv", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
}

static void
test_no_file (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (tl_cases_read ("/nonexistent/cases.csv", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "/nonexistent/cases.csv"));
  g_clear_error (&error);
  g_assert_null (tl_cases_read ("/", &error));
  g_assert_nonnull (error);
}

/* Every cut of a good file is either read or refused with its place. */
static void
test_cuts (void)
{
  const char *text = HEAD "A,hexagon-area,\"width=7 mm; across=flats\",area=42.4352,mm2,0.1 "
                          "%,\"geo\"\"metry\",closed form,\r\n";

  for (gsize length = 0; length <= strlen (text); length++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (TlCases) cases = tl_cases_parse (text, length, "f.csv", &error);

      g_assert_true ((cases == NULL) == (error != NULL));
      if (error != NULL)
        g_assert_true (g_str_has_prefix (error->message, "f.csv:"));
    }
}

/* Random bytes put into a good file: no crash, and always a place. */
static void
test_noise (void)
{
  const char *text = HEAD ROW ROW;

  for (guint round = 0; round < 3000; round++)
    {
      g_autofree char *noisy = g_strdup (text);
      g_autoptr (GError) error = NULL;
      const gsize length = strlen (text);

      for (guint n = 0; n < 3; n++)
        noisy[g_test_rand_int_range (0, (gint32) length)] = (char) g_test_rand_int_range (0, 256);
      g_autoptr (TlCases) cases = tl_cases_parse (noisy, length, "f.csv", &error);
      g_assert_true ((cases == NULL) == (error != NULL));
      if (error != NULL)
        g_assert_true (g_str_has_prefix (error->message, "f.csv:"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *path = g_strdup_printf ("/case-files/bad/%s", bad[i].name);
      g_test_add_data_func (path, &bad[i], test_bad);
    }
  g_test_add_func ("/case-files/unusual", test_unusual);
  g_test_add_func ("/case-files/states", test_states);
  g_test_add_func ("/case-files/tolerance", test_tolerance);
  g_test_add_func ("/case-files/huge", test_huge);
  g_test_add_func ("/case-files/no-file", test_no_file);
  g_test_add_func ("/case-files/cuts", test_cuts);
  g_test_add_func ("/case-files/noise", test_noise);
  return g_test_run ();
}
