/* ageing-surface.c: the network, solved once at a few ratios of the contact resistances.
 *
 * The rise of the hottest metal is nearly straight in the ratio, so that few nodes, doubled from one to the next, and
 * a monotone cubic between them (Steffen) leave less than the network's own error. Cooling and load act as factors on
 * the rise, the air as a slope, each taken at every node.
 *
 * Source of the interpolation: M. Steffen, A simple method for monotonic interpolation in one dimension, 1990 (from
 * memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/ageing-private.h"

#include <math.h>

#define EDGE_STEPS 5

typedef struct
{
  const TlHeatModel    *model;
  const TlAgeingInputs *inputs;
  TlNetWorkspace       *workspace;
  double               *ratios; /* (array): the same for all interfaces */
} Solver;

/* Hottest metal of one network; %FALSE without a steady state or above what can be reckoned. */
static gboolean
solve (const Solver *self, double ratio, double cooling, double air_C, double load_A, double *hot_C,
       double *ohm)
{
  g_auto (TlNetResult) result = { 0 };
  TlHeatChange change;
  guint        n = tl_heat_model_interfaces (self->model)->len;

  for (guint i = 0; i < n; i++)
    self->ratios[i] = ratio;
  tl_heat_change_init (&change);
  change.film_ratio = cooling;
  change.ambient_C = air_C;
  change.current_A = load_A;
  change.resistance_ratio = self->ratios;
  if (!tl_heat_model_solve (self->model, &change, self->workspace, &result, NULL)
      || result.status != TL_NET_OK)
    return FALSE;
  *hot_C = result.value[TL_NET_HOT_C];
  *ohm = result.joint_ohm;
  return isfinite (*hot_C) && *hot_C <= self->inputs->hottest_C;
}

/* Resistance of the joint at 20 degC: so small a current that nothing warms. */
static double
cold_ohm (const Solver *self, double ratio)
{
  double hot_C, ohm = 0.0;

  solve (self, ratio, 1.0, 20.0, 0.1, &hot_C, &ohm);
  return ohm;
}

static gboolean
solve_base (const Solver *self, double ratio, double *rise_K)
{
  double air_C = self->inputs->range[TL_AGEING_BY_AIR].best, hot_C, ohm;

  if (!solve (self, ratio, 1.0, air_C, self->inputs->range[TL_AGEING_BY_LOAD].best, &hot_C, &ohm))
    return FALSE;
  *rise_K = MAX (hot_C - air_C, 1e-6);
  return TRUE;
}

/* Factor on the rise at one end of an input; where that end has no steady state, that of the node before. */
static double
effect (const Solver *self, double ratio, double rise_K, double cooling, double load_A,
        double before)
{
  double air_C = self->inputs->range[TL_AGEING_BY_AIR].best, hot_C, ohm;

  if (!solve (self, ratio, cooling, air_C, load_A, &hot_C, &ohm))
    return before;
  return MAX (hot_C - air_C, 1e-6) / rise_K;
}

static double
air_slope (const Solver *self, double ratio, double before)
{
  TlRange air = self->inputs->range[TL_AGEING_BY_AIR];
  double  load_A = self->inputs->range[TL_AGEING_BY_LOAD].best, low_C, high_C, ohm;

  if (tl_range_is_exact (air) || !solve (self, ratio, 1.0, air.low, load_A, &low_C, &ohm)
      || !solve (self, ratio, 1.0, air.high, load_A, &high_C, &ohm))
    return before;
  return MAX (0.0, (high_C - low_C) / (air.high - air.low));
}

static void
add_node (TlAgeingSurface *self, const Solver *solver, double ratio, double rise_K)
{
  guint  i = self->n++;
  double cooling[2] = { self->cooling_range.low, self->cooling_range.high };
  double load[2] = { self->load_range.low, self->load_range.high };

  self->ratio[i] = ratio;
  self->rise_K[i] = i > 0 ? MAX (rise_K, self->rise_K[i - 1]) : rise_K;
  self->joint_ohm[i] = cold_ohm (solver, ratio);
  for (guint k = 0; k < 2; k++)
    {
      self->cooling[k][i] = effect (solver, ratio, rise_K, cooling[k], self->load_range.best,
                                    i > 0 ? self->cooling[k][i - 1] : 1.0);
      self->load[k][i] =
          load[k] == self->load_range.best
              ? 1.0
              : effect (solver, ratio, rise_K, 1.0, load[k], i > 0 ? self->load[k][i - 1] : 1.0);
    }
  self->air[i] = air_slope (solver, ratio, i > 0 ? self->air[i - 1] : 1.0);
}

/* Last ratio before the edge, between one that holds and one that does not. */
static void
find_edge (TlAgeingSurface *self, const Solver *solver, double good, double bad)
{
  double good_K = 0.0;

  for (guint i = 0; i < EDGE_STEPS; i++)
    {
      double middle = sqrt (good * bad), rise_K;

      if (solve_base (solver, middle, &rise_K))
        {
          good = middle;
          good_K = rise_K;
        }
      else
        bad = middle;
    }
  if (good_K > 0.0 && self->n < TL_SURFACE_NODES)
    add_node (self, solver, good, good_K);
}

static double
steffen_slope (const TlAgeingSurface *self, guint i)
{
  double before, after, width, next, middle;

  if (i == 0 || i + 1 == self->n)
    {
      guint k = i == 0 ? 0 : i - 1;

      return self->n < 2
                 ? 0.0
                 : (self->rise_K[k + 1] - self->rise_K[k]) / (self->ratio[k + 1] - self->ratio[k]);
    }
  width = self->ratio[i] - self->ratio[i - 1];
  next = self->ratio[i + 1] - self->ratio[i];
  before = (self->rise_K[i] - self->rise_K[i - 1]) / width;
  after = (self->rise_K[i + 1] - self->rise_K[i]) / next;
  middle = (before * next + after * width) / (width + next);
  return 2.0 * MIN (MIN (before, after), middle / 2.0);
}

gboolean
tl_ageing_surface_read (TlAgeingSurface *self, const TlHeatModel *model,
                        const TlAgeingInputs *inputs, GCancellable *cancellable,
                        const char **reason, GError **error)
{
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();
  g_autofree double *ratios = g_new (double, tl_heat_model_interfaces (model)->len);
  Solver             solver = { model, inputs, workspace, ratios };
  double             ratio = 0.9 * inputs->range[TL_AGEING_BY_CONTACT].low, rise_K;

  *self = (TlAgeingSurface){ .cooling_range = inputs->range[TL_AGEING_BY_COOLING],
                             .load_range = inputs->range[TL_AGEING_BY_LOAD],
                             .air_range = inputs->range[TL_AGEING_BY_AIR],
                             .hottest_C = inputs->hottest_C };
  while (self->n < TL_SURFACE_NODES && !self->is_open)
    {
      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      if (solve_base (&solver, ratio, &rise_K))
        add_node (self, &solver, ratio, rise_K);
      else
        self->is_open = TRUE;
      ratio *= 2.0;
    }
  if (self->n == 0)
    {
      *reason = TL_N_ (
          "The joint has no steady temperature at this load, so that no year can be reckoned.");
      return FALSE;
    }
  if (self->is_open)
    find_edge (self, &solver, self->ratio[self->n - 1], ratio / 2.0);
  for (guint i = 0; i < self->n; i++)
    self->slope[i] = steffen_slope (self, i);
  return TRUE;
}

/* --- asking --- */

static guint
segment (const TlAgeingSurface *self, double ratio)
{
  guint low = 0, high = self->n - 1;

  while (high - low > 1)
    {
      guint middle = (low + high) / 2;

      if (self->ratio[middle] <= ratio)
        low = middle;
      else
        high = middle;
    }
  return low;
}

static double
rise_at (const TlAgeingSurface *self, guint i, double ratio)
{
  double width, part, straight, a, b;

  if (self->n == 1)
    return self->rise_K[0];
  width = self->ratio[i + 1] - self->ratio[i];
  part = ratio - self->ratio[i];
  straight = (self->rise_K[i + 1] - self->rise_K[i]) / width;
  a = (self->slope[i] + self->slope[i + 1] - 2.0 * straight) / (width * width);
  b = (3.0 * straight - 2.0 * self->slope[i] - self->slope[i + 1]) / width;
  return self->rise_K[i] + part * (self->slope[i] + part * (b + part * a));
}

static double
between (const TlAgeingSurface *self, const double *effects, guint i, double ratio)
{
  if (self->n == 1)
    return effects[0];
  return effects[i]
         + (effects[i + 1] - effects[i]) * (ratio - self->ratio[i])
               / (self->ratio[i + 1] - self->ratio[i]);
}

/* Factor on the rise at @value between low (effect of its low end), best (1) and high. */
static double
factor (const TlAgeingSurface *self, const double effects[2][TL_SURFACE_NODES], TlRange range,
        double value, guint i, double ratio)
{
  gboolean is_low = value < range.best;
  double   end = is_low ? range.low : range.high;

  if (end == range.best)
    return 1.0;
  return 1.0
         + (value - range.best) / (end - range.best)
               * (between (self, effects[is_low ? 0 : 1], i, ratio) - 1.0);
}

gboolean
tl_ageing_surface_hot (const TlAgeingSurface *self, double ratio, double cooling, double air_C,
                       double load_A, double *hot_C)
{
  guint  i;
  double rise_K;

  *hot_C = self->hottest_C;
  if (self->is_open && ratio > self->ratio[self->n - 1])
    return FALSE;
  ratio = CLAMP (ratio, self->ratio[0], self->ratio[self->n - 1]);
  i = segment (self, ratio);
  rise_K = rise_at (self, i, ratio)
           * factor (self, self->cooling, self->cooling_range, cooling, i, ratio)
           * factor (self, self->load, self->load_range, load_A, i, ratio);
  *hot_C = self->air_range.best + rise_K
           + between (self, self->air, i, ratio) * (air_C - self->air_range.best);
  if (*hot_C <= self->hottest_C)
    return TRUE;
  *hot_C = self->hottest_C;
  return FALSE;
}

double
tl_ageing_surface_ohm (const TlAgeingSurface *self, double ratio)
{
  return self->n == 1 ? self->joint_ohm[0]
                      : between (self, self->joint_ohm, segment (self, ratio), ratio);
}
