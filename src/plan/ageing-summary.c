/* ageing-summary.c: what the samples tell: bands, what drives them, when to look again.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/ageing-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LOW_SHARE 0.05
#define HIGH_SHARE 0.95
/* Inputs that move less of the spread than this are not told. */
#define LEAST_SHARE 0.005

static int
compare_doubles (const void *a, const void *b)
{
  double one = *(const double *) a, other = *(const double *) b;

  return (one > other) - (one < other);
}

/* Of @sorted, straight between the samples; infinite as soon as a neighbour is. */
static double
quantile (const double *sorted, guint n, double share)
{
  double at = share * (n - 1);
  guint  i = MIN ((guint) at, n - 2);

  if (!isfinite (sorted[i]) || (!isfinite (sorted[i + 1]) && at > i))
    return HUGE_VAL;
  return at > i ? sorted[i] + (sorted[i + 1] - sorted[i]) * (at - i) : sorted[i];
}

/* --- bands --- */

static TlAgeingBand
band_of (const double *values, guint n, double *sorted, double most)
{
  static const double shares[] = { LOW_SHARE, 0.5, HIGH_SHARE };
  TlAgeingBand        band = { 0 };
  double             *ends[] = { &band.value.low, &band.value.best, &band.value.high };

  memcpy (sorted, values, n * sizeof *sorted);
  qsort (sorted, n, sizeof *sorted, compare_doubles);
  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      double at = quantile (sorted, n, shares[i]);

      band.is_open[i] = !isfinite (at);
      *ends[i] = band.is_open[i] ? most : at;
    }
  return band;
}

/* Greatest figure of an output that could be told; of the temperature, what can be told at all. */
static double
most_of (const TlAgeing *ageing, const TlAgeingRun *run, TlAgeingOutput output)
{
  gsize  n = (gsize) ageing->n_years * run->n_samples;
  double most = 0.0;

  if (output == TL_AGEING_HOT)
    return ageing->hottest_C;
  for (gsize i = 0; i < n; i++)
    if (isfinite (run->values[output][i]))
      most = MAX (most, run->values[output][i]);
  return most;
}

/* --- drivers --- */

typedef struct
{
  double value;
  guint  index;
} Ranked;

static int
compare_ranked (const void *a, const void *b)
{
  const Ranked *one = a, *other = b;

  if (one->value < other->value)
    return -1;
  if (one->value > other->value)
    return 1;
  return (one->index > other->index) - (one->index < other->index);
}

/* Ranks from 0, ties shared. */
static void
rank (const double *values, guint step, guint n, Ranked *room, double *ranks)
{
  for (guint i = 0; i < n; i++)
    room[i] = (Ranked){ values[(gsize) i * step], i };
  qsort (room, n, sizeof *room, compare_ranked);
  for (guint i = 0; i < n;)
    {
      guint end = i;

      while (end + 1 < n && room[end + 1].value <= room[i].value)
        end++;
      for (guint k = i; k <= end; k++)
        ranks[room[k].index] = (i + end) / 2.0;
      i = end + 1;
    }
}

static double
correlation (const double *a, const double *b, guint n)
{
  double mean = (n - 1) / 2.0, ab = 0.0, aa = 0.0, bb = 0.0;

  for (guint i = 0; i < n; i++)
    {
      ab += (a[i] - mean) * (b[i] - mean);
      aa += (a[i] - mean) * (a[i] - mean);
      bb += (b[i] - mean) * (b[i] - mean);
    }
  return aa > 0.0 && bb > 0.0 ? ab / sqrt (aa * bb) : 0.0;
}

static const char *
unit_of (TlAgeingInput input)
{
  static const char *const units[] = { "N", "um", "1", "1", "1", "1", "h", "1", "1", "degC", "A" };

  G_STATIC_ASSERT (G_N_ELEMENTS (units) == TL_N_AGEING_INPUTS);
  return units[input];
}

static int
compare_drivers (const void *a, const void *b)
{
  const TlAgeingDriver *one = a, *other = b;

  for (gint k = TL_N_AGEING_OUTPUTS - 1; k >= 0; k--)
    if (one->share[k] > other->share[k] || one->share[k] < other->share[k])
      return one->share[k] > other->share[k] ? -1 : 1;
  return (one->input > other->input) - (one->input < other->input);
}

/* Shares of the squared rank correlations at the end, for inputs that vary. */
static void
find_drivers (TlAgeing *ageing, const TlAgeingRun *run)
{
  guint              n = run->n_samples;
  g_autofree Ranked *room = g_new (Ranked, n);
  g_autofree double *in = g_new (double, n);
  g_autofree double *out = g_new (double, (gsize) n *TL_N_AGEING_OUTPUTS);
  double             sum[TL_N_AGEING_OUTPUTS] = { 0 };
  TlAgeingDriver     all[TL_N_AGEING_INPUTS];

  for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
    rank (run->values[k] + (gsize) (ageing->n_years - 1) * n, 1, n, room, out + (gsize) k * n);
  for (guint i = 0; i < TL_N_AGEING_INPUTS; i++)
    {
      all[i] = (TlAgeingDriver){ .input = i, .range = run->inputs.range[i], .unit = unit_of (i) };
      if (tl_range_is_exact (all[i].range))
        continue;
      rank (run->points + i, TL_N_AGEING_INPUTS, n, room, in);
      for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        {
          double r = ageing->has[k] ? correlation (in, out + (gsize) k * n, n) : 0.0;

          all[i].share[k] = r * r;
          sum[k] += r * r;
        }
    }
  for (guint i = 0; i < TL_N_AGEING_INPUTS; i++)
    {
      double most = 0.0;

      for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        {
          all[i].share[k] = sum[k] > 0.0 ? all[i].share[k] / sum[k] : 0.0;
          most = MAX (most, all[i].share[k]);
        }
      if (most >= LEAST_SHARE)
        ageing->drivers[ageing->n_drivers++] = all[i];
    }
  qsort (ageing->drivers, ageing->n_drivers, sizeof *ageing->drivers, compare_drivers);
}

guint
tl_ageing_drivers_of (const TlAgeing *self, TlAgeingOutput output, guint *order)
{
  guint n = 0;

  for (guint i = 0; i < self->n_drivers; i++)
    {
      guint at = n;

      if (self->drivers[i].share[output] < LEAST_SHARE)
        continue;
      for (; at > 0 && self->drivers[order[at - 1]].share[output] < self->drivers[i].share[output];
           at--)
        order[at] = order[at - 1];
      order[at] = i;
      n++;
    }
  return n;
}

/* --- when to look again --- */

/* Share of the first force that is left, at the unfavourable end or in the middle. */
static double
force_left (const TlAgeingRun *run, guint year, double share, double *sorted)
{
  const double *first = run->values[TL_AGEING_FORCE];
  const double *now = first + (gsize) year * run->n_samples;

  for (guint i = 0; i < run->n_samples; i++)
    sorted[i] = now[i] / first[i];
  qsort (sorted, run->n_samples, sizeof *sorted, compare_doubles);
  return quantile (sorted, run->n_samples, share);
}

static gboolean
is_too_hot (const TlAgeing *ageing, guint year, gboolean unfavourable)
{
  const TlAgeingBand *band = &ageing->bands[TL_AGEING_HOT][year];

  return band->is_open[unfavourable ? 2 : 1]
         || (ageing->has_limit
             && (unfavourable ? band->value.high : band->value.best) > ageing->limit_C);
}

/* First year in which something is beyond its limit at the unfavourable end; n_years if none is. */
static guint
first_beyond (const TlAgeing *ageing, const TlAgeingRun *run, double *sorted, TlAgeingWhy *why)
{
  *why = TL_AGEING_WHY_NOTHING;
  for (guint year = 0; year < ageing->n_years; year++)
    {
      if (is_too_hot (ageing, year, TRUE))
        *why = TL_AGEING_WHY_HEAT;
      else if (ageing->has[TL_AGEING_FORCE]
               && force_left (run, year, LOW_SHARE, sorted) < run->inputs.floor_share)
        *why = TL_AGEING_WHY_FORCE;
      else if (ageing->bands[TL_AGEING_GROWTH][year].is_open[2]
               || ageing->bands[TL_AGEING_GROWTH][year].value.high > ageing->resistance_most)
        *why = TL_AGEING_WHY_RESISTANCE;
      if (*why != TL_AGEING_WHY_NOTHING)
        return year;
    }
  return ageing->n_years;
}

static void
decide_look (TlAgeing *ageing, const TlAgeingRun *run, double *sorted)
{
  guint first = 1, beyond; /* the first step holds the first heat cycles */

  if (is_too_hot (ageing, first, FALSE))
    {
      ageing->look = TL_AGEING_CHANGE_DESIGN;
      ageing->why = TL_AGEING_WHY_HEAT;
      return;
    }
  if (ageing->has[TL_AGEING_FORCE]
      && force_left (run, first, 0.5, sorted) < run->inputs.floor_share)
    {
      ageing->look = TL_AGEING_CHANGE_DESIGN;
      ageing->why = TL_AGEING_WHY_FORCE;
      return;
    }
  beyond = first_beyond (ageing, run, sorted, &ageing->why);
  if (beyond <= first)
    ageing->look = TL_AGEING_FIRST_CYCLES;
  else if (beyond < ageing->n_years && ageing->years[beyond] <= 1.0)
    ageing->look = TL_AGEING_WITHIN_YEAR;
  else if (ageing->has_screw_on_aluminium)
    {
      ageing->look = TL_AGEING_WITHIN_YEAR;
      ageing->why = TL_AGEING_WHY_PRACTICE;
    }
  else
    ageing->look = TL_AGEING_ORDINARY;
}

void
tl_ageing_summarise (TlAgeing *ageing, const TlAgeingRun *run)
{
  g_autofree double *sorted = g_new (double, run->n_samples);

  for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
    {
      double most = most_of (ageing, run, k);

      for (guint year = 0; year < ageing->n_years; year++)
        ageing->bands[k][year] =
            band_of (run->values[k] + (gsize) year * run->n_samples, run->n_samples, sorted, most);
    }
  find_drivers (ageing, run);
  decide_look (ageing, run, sorted);
}
