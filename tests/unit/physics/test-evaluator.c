/* The evaluator by itself: names, words, text, ranges, many ranged inputs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "physics/formula.h"
#include <math.h>
#include <string.h>

static void
test_names (void)
{
  TlCall call;

  tl_call_init (&call, "bolt-length");
  g_assert_cmpuint (call.n_inputs, ==, 20);
  g_autofree char *part = tl_call_input_name (&call, 3);
  g_autofree char *nut = tl_call_input_name (&call, 9);
  g_autofree char *last = tl_call_input_name (&call, 19);
  g_assert_cmpstr (part, ==, "part_3");
  g_assert_cmpstr (nut, ==, "nut");
  g_assert_cmpstr (last, ==, "offered_8");
  tl_call_init (&call, "box-fill-nec");
  g_autofree char *size = tl_call_input_name (&call, 2);
  g_assert_cmpstr (size, ==, "conductors_8");
  g_assert_cmpstr (tl_call_input_info (&call, 2)->name, ==, "conductors_");
}

static void
check_text_error (const char *formula, const char *name, const char *text, int code,
                  const char *part)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, formula);
  g_assert_false (tl_call_set_text (&call, name, text, &error));
  g_assert_error (error, TL_ERROR, code);
  if (strstr (error->message, part) == NULL)
    g_error ("\"%s\" does not say \"%s\"", error->message, part);
  for (guint i = 0; i < call.n_inputs; i++)
    g_assert_false (call.given[i]);
}

static void
test_text_errors (void)
{
  check_text_error ("bolt-length", "part_9", "1 mm", TL_ERROR_NAME, "part_1..part_8");
  check_text_error ("bolt-length", "part_0", "1 mm", TL_ERROR_NAME, "part_0");
  check_text_error ("bolt-length", "part_01", "1 mm", TL_ERROR_NAME, "part_01");
  check_text_error ("bolt-length", "part_", "1 mm", TL_ERROR_NAME, "part_");
  check_text_error ("bolt-length", "part_99999999999999999999", "1 mm", TL_ERROR_NAME, "part_999");
  check_text_error ("box-fill-nec", "conductors_7", "1", TL_ERROR_NAME, "conductors_7");
  check_text_error ("hexagon-area", "across", "edges", TL_ERROR_NAME, "flats, corners");
  check_text_error ("hexagon-area", "across", "", TL_ERROR_NAME, "flats, corners");
  check_text_error ("hexagon-area", "width", "8 N", TL_ERROR_UNIT, "width");
  check_text_error ("hexagon-area", "width", "", TL_ERROR_PARSE, "width");
  check_text_error ("hexagon-area", "width", "8..7 mm", TL_ERROR_RANGE, "width");
  check_text_error ("unit-conversion", "value", "35lbf_in", TL_ERROR_UNIT, "space");
  check_text_error ("unit-conversion", "value", "x lbf_in", TL_ERROR_PARSE, "value");
  check_text_error ("unit-conversion", "value", "3 furlong", TL_ERROR_NAME, "from");
}

static void
test_text (void)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, "torque-to-preload");
  g_assert_true (tl_call_set_text (&call, "torque", " 177.0149 lbf_in ", &error));
  g_assert_true (tl_call_set_text (&call, "nut_factor", "0.16..0.2..0.26", &error));
  g_assert_true (tl_call_set_text (&call, "diameter", "8 mm", &error));
  g_assert_true (tl_call_run (&call, &error));
  g_assert_no_error (error);
  /* 20 N m by exact definitions of inch and pound-force; T = K d F. */
  g_assert_cmpfloat_with_epsilon (tl_call_get (&call, "preload").best, 12500.0, 0.01);
  g_assert_cmpfloat_with_epsilon (tl_call_get (&call, "preload").low, 12500.0 * 0.2 / 0.26, 0.01);
  g_assert_cmpfloat_with_epsilon (tl_call_get (&call, "preload").high, 12500.0 * 0.2 / 0.16, 0.01);
}

static void
test_words_over_a_range (void)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, "galvanic-step");
  tl_call_set_exact (&call, "potential_1", 1350);
  tl_call_set (&call, "potential_2", (TlRange){ 700, 790, 900 });
  tl_call_set_exact (&call, "limit", 600);
  tl_call_set_word (&call, "noble", "rising");
  g_assert_true (tl_call_run (&call, &error));
  g_assert_cmpstr (tl_call_get_word (&call, "outcome"), ==, "marginal");
  /* within = 0 .. above = 2 */
  g_assert_cmpfloat (tl_call_get (&call, "outcome").low, ==, 0);
  g_assert_cmpfloat (tl_call_get (&call, "outcome").high, ==, 2);
}

/* The potentials cross: the least difference lies between the ends, not at a corner. */
static void
test_between_the_ends (void)
{
  TlCall call;

  tl_call_init (&call, "galvanic-step");
  tl_call_set (&call, "potential_1", (TlRange){ 500, 700, 900 });
  tl_call_set_exact (&call, "potential_2", 700);
  tl_call_set_exact (&call, "limit", 600);
  tl_call_set_word (&call, "noble", "rising");
  g_assert_true (tl_call_run (&call, NULL));
  g_assert_cmpfloat (tl_call_get (&call, "difference").low, ==, 0);
  g_assert_cmpfloat (tl_call_get (&call, "difference").high, ==, 200);
}

/* More ranged inputs than corners can be visited: still a band around the best, and quickly. */
static void
test_many_ranged_inputs (void)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, "bolt-length");
  for (guint i = 0; i < call.n_inputs; i++)
    {
      g_autofree char *name = tl_call_input_name (&call, i);
      tl_call_set (&call, name, (TlRange){ 1.0, 2.0, 3.0 });
    }
  for (guint i = 1; i <= 8; i++)
    {
      g_autofree char *name = g_strdup_printf ("offered_%u", i);
      tl_call_set (&call, name, (TlRange){ 100, 110, 120 });
    }
  g_assert_true (tl_call_run (&call, &error));
  g_assert_no_error (error);
  /* grip: eight parts of 1 to 3 mm; need: nut and protrusion x pitch on top */
  g_assert_cmpfloat (tl_call_get (&call, "grip").low, ==, 8);
  g_assert_cmpfloat (tl_call_get (&call, "grip").best, ==, 16);
  g_assert_cmpfloat (tl_call_get (&call, "grip").high, ==, 24);
  g_assert_cmpfloat (tl_call_get (&call, "need").high, ==, 24 + 3 + 9);
}

static void
test_partly_computable (void)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, "bolt-length");
  tl_call_set_exact (&call, "head", 4);
  tl_call_set (&call, "part_1", (TlRange){ 10, 12, 20 });
  tl_call_set_exact (&call, "nut", 5);
  tl_call_set_exact (&call, "offered_1", 20);
  g_assert_false (tl_call_run (&call, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "length"));
  g_assert_false (tl_call_has (&call, "grip"));
  tl_call_set_exact (&call, "part_1", 30);
  g_assert_true (tl_call_run (&call, NULL));
  g_assert_false (tl_call_has (&call, "length"));
  g_assert_true (tl_call_has (&call, "grip"));
  g_assert_false (tl_call_has (&call, "no-such-output"));
}

/* Optional inputs on which every output hangs: the message names them. */
static void
test_nothing_asked_for (void)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, "bend-strain");
  tl_call_set_exact (&call, "wire_diameter", 2);
  g_assert_false (tl_call_run (&call, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_NAME);
  g_assert_nonnull (strstr (error->message, "inner_radius, strain_limit"));
  g_assert_false (tl_call_run_quick (&call));
}

static void
test_falling_range (void)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  tl_call_init (&call, "hexagon-area");
  tl_call_set (&call, "width", (TlRange){ 8, 7, 9 });
  tl_call_set_word (&call, "across", "flats");
  g_assert_false (tl_call_run (&call, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "width"));
}

static void
test_quick_refuses (void)
{
  TlCall call;

  tl_call_init (&call, "hexagon-area");
  g_assert_false (tl_call_run_quick (&call));
  tl_call_set_word (&call, "across", "flats");
  tl_call_set_exact (&call, "width", (double) NAN);
  g_assert_false (tl_call_run_quick (&call));
  tl_call_set_exact (&call, "width", 7);
  g_assert_true (tl_call_run_quick (&call));
  tl_call_init (&call, "bearing-pressure");
  tl_call_set_exact (&call, "force", 1);
  tl_call_set_exact (&call, "outer_diameter", 1);
  tl_call_set_exact (&call, "hole_diameter", 2);
  g_assert_false (tl_call_run_quick (&call));
}

static void
test_trust_words (void)
{
  g_assert_cmpstr (tl_trust_to_word (TL_TRUST_A), ==, "A");
  g_assert_cmpstr (tl_trust_to_word (TL_TRUST_B), ==, "B");
  g_assert_cmpstr (tl_trust_to_word (TL_TRUST_I), ==, "I");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/evaluator/names", test_names);
  g_test_add_func ("/evaluator/text", test_text);
  g_test_add_func ("/evaluator/text-errors", test_text_errors);
  g_test_add_func ("/evaluator/words-over-a-range", test_words_over_a_range);
  g_test_add_func ("/evaluator/between-the-ends", test_between_the_ends);
  g_test_add_func ("/evaluator/many-ranged-inputs", test_many_ranged_inputs);
  g_test_add_func ("/evaluator/partly-computable", test_partly_computable);
  g_test_add_func ("/evaluator/nothing-asked-for", test_nothing_asked_for);
  g_test_add_func ("/evaluator/falling-range", test_falling_range);
  g_test_add_func ("/evaluator/quick-refuses", test_quick_refuses);
  g_test_add_func ("/evaluator/trust-words", test_trust_words);
  return g_test_run ();
}
