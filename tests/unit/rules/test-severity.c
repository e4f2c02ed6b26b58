/* test-severity.c: the one table from figure to severity, cell by cell.
 *
 * Expected cells: the contract of the project's verdicts (beyond at the best estimate; beyond only at the unfavourable
 * end of the band; equal or within the marginal strip; within over the whole band) for classes A, B and I. They are a
 * choice of this project, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/finding.h"

typedef struct
{
  const char *name;
  TlRange     value;
  TlTrust     trust;
  TlSeverity  worst;
  TlSeverity  expected;
} Case;

/* Limit 100, strip 5. */
static const Case cases[] = {
  { "A-beyond-unsafe", { 101, 101, 101 }, TL_TRUST_A, TL_SEVERITY_UNSAFE, TL_SEVERITY_UNSAFE },
  { "A-beyond-change", { 101, 101, 101 }, TL_TRUST_A, TL_SEVERITY_CHANGE, TL_SEVERITY_CHANGE },
  { "A-equal", { 100, 100, 100 }, TL_TRUST_A, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "A-strip", { 96, 96, 96 }, TL_TRUST_A, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "A-strip-edge", { 95, 95, 95 }, TL_TRUST_A, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "A-within", { 94, 94, 94 }, TL_TRUST_A, TL_SEVERITY_UNSAFE, TL_SEVERITY_SOUND },
  { "B-beyond", { 90, 101, 120 }, TL_TRUST_B, TL_SEVERITY_CHANGE, TL_SEVERITY_CHANGE },
  { "B-beyond-at-the-end", { 70, 90, 101 }, TL_TRUST_B, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "B-strip", { 90, 97, 99 }, TL_TRUST_B, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "B-within", { 70, 80, 90 }, TL_TRUST_B, TL_SEVERITY_UNSAFE, TL_SEVERITY_SOUND },
  { "I-beyond", { 110, 120, 130 }, TL_TRUST_I, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "I-beyond-at-the-end", { 70, 80, 130 }, TL_TRUST_I, TL_SEVERITY_UNSAFE, TL_SEVERITY_SOUND },
  { "I-equal", { 100, 100, 100 }, TL_TRUST_I, TL_SEVERITY_UNSAFE, TL_SEVERITY_WATCH },
  { "I-within", { 70, 80, 90 }, TL_TRUST_I, TL_SEVERITY_UNSAFE, TL_SEVERITY_SOUND },
};

static void
test_most (gconstpointer data)
{
  const Case *c = data;

  g_assert_cmpint (tl_severity_of_figure (c->value, 100.0, FALSE, 5.0, c->trust, c->worst), ==, c->expected);
}

/* A figure that has to reach its limit is the same, seen in the mirror. */
static void
test_least (gconstpointer data)
{
  const Case *c = data;
  TlRange mirrored = { 200.0 - c->value.high, 200.0 - c->value.best, 200.0 - c->value.low };

  g_assert_cmpint (tl_severity_of_figure (mirrored, 100.0, TRUE, 5.0, c->trust, c->worst), ==, c->expected);
}

/* 1.10 - 0.50 is above 0.6 in doubles; equal on paper is equal here. */
static void
test_equal_in_doubles (void)
{
  TlRange value = tl_range_exact (1.10 - 0.50);

  g_assert_cmpfloat (value.best, >, 0.6);
  g_assert_cmpint (tl_severity_of_figure (value, 0.6, FALSE, 0.0, TL_TRUST_A, TL_SEVERITY_UNSAFE), ==, TL_SEVERITY_WATCH);
}

static void
test_worse (void)
{
  g_assert_cmpint (tl_severity_worse (TL_SEVERITY_SOUND), ==, TL_SEVERITY_WATCH);
  g_assert_cmpint (tl_severity_worse (TL_SEVERITY_CHANGE), ==, TL_SEVERITY_UNSAFE);
  g_assert_cmpint (tl_severity_worse (TL_SEVERITY_UNSAFE), ==, TL_SEVERITY_UNSAFE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *most = g_strconcat ("/severity/most/", cases[i].name, NULL);
      g_autofree char *least = g_strconcat ("/severity/least/", cases[i].name, NULL);

      g_test_add_data_func (most, &cases[i], test_most);
      g_test_add_data_func (least, &cases[i], test_least);
    }
  g_test_add_func ("/severity/equal-in-doubles", test_equal_in_doubles);
  g_test_add_func ("/severity/worse", test_worse);
  return g_test_run ();
}
