/* bench-ageing.c: time of a forecast of 1,000 samples over 40 years, by family of joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench.h"
#include "plan/ageing.h"

#define TIMES 5

static void
forecast (gpointer data, guint times)
{
  TlAgeingOptions options;

  tl_ageing_options_init (&options);
  options.span_years = TL_AGEING_MOST_SPAN;
  for (guint i = 0; i < times; i++)
    {
      g_autoptr (TlAgeing) ageing = tl_ageing_new (data, &options, NULL, NULL);

      g_assert (ageing->is_computed);
    }
}

int
main (void)
{
  static const char *const names[] = { "bolted-as-it-should-be", "stainless-between",
                                       "socket-circuit-weaving-floor" };
  g_autoptr (TlStock) stock = bench_stock ();

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlJoint) joint = bench_example (names[i]);
      g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, stock);

      g_print ("ageing.%s %.1f ms\n", names[i],
               bench_median_us (forecast, assembly, TIMES) / 1000.0);
    }
  return 0;
}
