/* bench.c: see bench.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench.h"

#include <math.h>
#include <stdlib.h>

#include "joint/joint-file.h"

#define RUNS 9

static gpointer
must (gpointer result, GError *error)
{
  if (result == NULL)
    g_error ("%s", error != NULL ? error->message : "no result");
  return result;
}

TlStock *
bench_stock (void)
{
  GError *error = NULL;

  return must (tl_stock_load (NULL, &error), error);
}

TlJoint *
bench_example (const char *name)
{
  const char      *root = g_getenv ("TINLAP_SOURCE_ROOT");
  g_autofree char *file = g_strconcat (name, ".tinlap", NULL);
  g_autofree char *path =
      g_build_filename (root != NULL ? root : ".", "data", "examples", file, NULL);
  GError *error = NULL;

  return must (tl_joint_load (path, &error), error);
}

static void
take (TlJoint **joint, TlJoint *next, GError *error)
{
  must (next, error);
  tl_joint_unref (*joint);
  *joint = next;
}

static guint
stacked (const TlJoint *joint)
{
  g_autoptr (GPtrArray) stack = tl_joint_stack (joint);

  return stack->len;
}

TlJoint *
bench_stack (const TlStock *stock, guint n_layers)
{
  TlJoint *joint = bench_example ("bolted-as-it-should-be");
  TlFact   length = { .field = TL_FIELD_LENGTH,
                      .value = tl_range_exact (10.0 + 2.0 * n_layers),
                      .known_by = TL_KNOWN_MEASURED };
  GError  *error = NULL;

  if (n_layers < stacked (joint))
    g_error ("a stack of %u layers is wanted; the example alone has %u", n_layers, stacked (joint));
  take (&joint, tl_edit_set_fact (joint, "layer-1", &length, &error), error);
  for (guint i = stacked (joint); i < n_layers; i++)
    {
      g_auto (TlSeat) seat = tl_seat_stack (3);

      take (&joint, tl_edit_add_layer (joint, stock, "washer-plain-m5-steel", &seat, NULL, &error),
            error);
    }
  return joint;
}

TlJoint *
bench_without_load (const TlJoint *joint)
{
  GError *error = NULL;

  return must (tl_edit_unset_fact (joint, "duty", TL_FIELD_LOAD, &error), error);
}

TlJoint *
bench_with_copies (const TlJoint *joint, const TlStock *stock)
{
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, stock, TL_VERDICT_FULL);
  g_autoptr (TlUsed) used = tl_verdict_dup_used (verdict);

  return tl_edit_set_used (joint, used);
}

static int
compare_doubles (const void *a, const void *b)
{
  double one = *(const double *) a, two = *(const double *) b;

  return (one > two) - (one < two);
}

double
bench_median_us (BenchWork work, gpointer data, guint times)
{
  double us[RUNS];

  work (data, MAX (times / 10, 1)); /* caches and allocator warm */
  for (guint i = 0; i < RUNS; i++)
    {
      gint64 start_us = g_get_monotonic_time ();

      work (data, times);
      us[i] = (double) (g_get_monotonic_time () - start_us) / times;
    }
  qsort (us, RUNS, sizeof us[0], compare_doubles);
  return us[RUNS / 2];
}

double
bench_log_slope (const double *x, const double *y, guint n)
{
  double mean_x = 0.0, mean_y = 0.0, square = 0.0, product = 0.0;

  for (guint i = 0; i < n; i++)
    {
      mean_x += log (x[i]) / n;
      mean_y += log (y[i]) / n;
    }
  for (guint i = 0; i < n; i++)
    {
      square += (log (x[i]) - mean_x) * (log (x[i]) - mean_x);
      product += (log (x[i]) - mean_x) * (log (y[i]) - mean_y);
    }
  return product / square;
}
