/* test-range.c: ranges.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/range.h"

#include <math.h>

static void
test_valid (void)
{
  const double bad[] = { NAN, INFINITY, -INFINITY };

  g_assert_true (tl_range_is_valid (tl_range_exact (0.0)));
  g_assert_true (tl_range_is_valid ((TlRange){ -1.0, 0.0, 2.0 }));
  g_assert_false (tl_range_is_valid ((TlRange){ 1.0, 0.0, 2.0 }));
  g_assert_false (tl_range_is_valid ((TlRange){ 0.0, 3.0, 2.0 }));
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_assert_false (tl_range_is_valid ((TlRange){ bad[i], 0.0, 1.0 }));
      g_assert_false (tl_range_is_valid ((TlRange){ 0.0, bad[i], 1.0 }));
      g_assert_false (tl_range_is_valid ((TlRange){ 0.0, 0.5, bad[i] }));
    }
}

static void
test_exact (void)
{
  g_assert_true (tl_range_is_exact (tl_range_exact (3.5)));
  g_assert_false (tl_range_is_exact ((TlRange){ 1.0, 1.0, 1.5 }));
}

/* A scatter of 30 % each way on a preload of 12.5 kN: arithmetic only. */
static void
test_around (void)
{
  TlRange range = tl_range_around (12500.0, 0.3);

  g_assert_cmpfloat_with_epsilon (range.low, 8750.0, 1e-9);
  g_assert_cmpfloat (range.best, ==, 12500.0);
  g_assert_cmpfloat_with_epsilon (range.high, 16250.0, 1e-9);
}

static void
test_union (void)
{
  TlRange range = tl_range_union ((TlRange){ 2.0, 3.0, 4.0 }, (TlRange){ 1.0, 3.5, 3.9 });

  g_assert_cmpfloat (range.low, ==, 1.0);
  g_assert_cmpfloat (range.best, ==, 3.0);
  g_assert_cmpfloat (range.high, ==, 4.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/range/valid", test_valid);
  g_test_add_func ("/range/exact", test_exact);
  g_test_add_func ("/range/around", test_around);
  g_test_add_func ("/range/union", test_union);
  return g_test_run ();
}
