/* bench-verdict.c: time of one verdict, and how it grows with the stack.
 *
 * Without arguments: microseconds of a quick and of a full verdict of a 12-layer stack, with and without heat, with
 * the document's own copies, then the growth from 10 to 200 layers.
 * With "--count DEPTH LAYERS TIMES" it only gives TIMES verdicts: instructions.sh counts their instructions as the
 * difference of two such runs. DEPTH is quick or full; with -cold no heat is reckoned; with -saved the joint has its
 * own copies of what it uses.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench.h"

#include <string.h>

#define LAYERS 12
#define QUICK_TIMES 10000
#define FULL_TIMES 1000

typedef struct
{
  const TlJoint *joint;
  const TlStock *stock;
  TlVerdictDepth depth;
} Case;

static void
judge (gpointer data, guint times)
{
  const Case *self = data;

  for (guint i = 0; i < times; i++)
    tl_verdict_unref (tl_verdict_new (self->joint, self->stock, self->depth));
}

/* Prints what is judged, so that a figure can be read without running the program again. */
static void
describe (const TlJoint *joint, const TlStock *stock)
{
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, stock, TL_VERDICT_QUICK);

  g_print ("verdict.layers %d\nverdict.bodies %u\nverdict.contacts %u\nverdict.findings %u\n",
           LAYERS, verdict->assembly->bodies->len, verdict->assembly->contacts->len,
           verdict->findings->len);
}

static void
print_times (const TlStock *stock)
{
  g_autoptr (TlJoint) joint = bench_stack (stock, LAYERS);
  g_autoptr (TlJoint) cold = bench_without_load (joint);
  g_autoptr (TlJoint) saved = bench_with_copies (cold, stock);
  Case   quick = { joint, stock, TL_VERDICT_QUICK }, quick_cold = { cold, stock, TL_VERDICT_QUICK };
  Case   full = { joint, stock, TL_VERDICT_FULL }, full_cold = { cold, stock, TL_VERDICT_FULL };
  Case   quick_saved = { saved, stock, TL_VERDICT_QUICK };
  double quick_us, cold_us, saved_us;

  describe (joint, stock);
  quick_us = bench_median_us (judge, &quick, FULL_TIMES);
  cold_us = bench_median_us (judge, &quick_cold, QUICK_TIMES);
  saved_us = bench_median_us (judge, &quick_saved, FULL_TIMES);
  g_print (
      "verdict.quick %.2f us\nverdict.quick-cold %.2f us\nverdict.quick-cold-own-copies %.2f us\n",
      quick_us, cold_us, saved_us);
  g_print ("verdict.full %.2f us\n", bench_median_us (judge, &full, FULL_TIMES / 10));
  g_print ("verdict.full-cold %.2f us\n", bench_median_us (judge, &full_cold, FULL_TIMES));
  g_print ("verdict.heat-over-cold %.2f\nverdict.own-copies-over-cold %.2f\n", quick_us / cold_us,
           saved_us / cold_us);
}

static void
print_growth (const TlStock *stock)
{
  static const guint layers[] = { 10, 20, 50, 100, 200 };
  double             n[G_N_ELEMENTS (layers)], us[G_N_ELEMENTS (layers)];

  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    {
      g_autoptr (TlJoint) joint = bench_stack (stock, layers[i]);
      g_autoptr (TlJoint) cold = bench_without_load (joint);
      Case quick = { cold, stock, TL_VERDICT_QUICK };

      n[i] = layers[i];
      us[i] = bench_median_us (judge, &quick, QUICK_TIMES / layers[i]);
      g_print ("verdict.quick-cold-%u-layers %.2f us\n", layers[i], us[i]);
    }
  g_print ("verdict.growth-exponent %.3f\n", bench_log_slope (n, us, G_N_ELEMENTS (layers)));
}

int
main (int argc, char **argv)
{
  g_autoptr (TlStock) stock = bench_stock ();

  if (argc == 5 && strcmp (argv[1], "--count") == 0)
    {
      g_autoptr (TlJoint) joint = bench_stack (stock, (guint) g_ascii_strtoull (argv[3], NULL, 10));
      g_autoptr (TlJoint) cold = bench_without_load (joint);
      const TlJoint *chosen = strstr (argv[2], "-cold") != NULL ? cold : joint;
      g_autoptr (TlJoint) saved = bench_with_copies (chosen, stock);
      Case one = { strstr (argv[2], "-saved") != NULL ? saved : chosen, stock,
                   g_str_has_prefix (argv[2], "full") ? TL_VERDICT_FULL : TL_VERDICT_QUICK };

      judge (&one, (guint) g_ascii_strtoull (argv[4], NULL, 10));
      return 0;
    }
  print_times (stock);
  print_growth (stock);
  return 0;
}
