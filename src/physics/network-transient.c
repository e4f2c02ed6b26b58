/* network-transient.c: a current for some time, by a two-stage implicit method.
 *
 * SDIRK2 with gamma = 1 - 1/sqrt 2 is of second order and L-stable: a millimetre of copper settles in
 * milliseconds and must not limit a step of seconds. Steps grow as the square of time, since heat
 * penetrates as its root. Halving mesh and steps together lets one extrapolation take off both errors.
 *
 * Source: Alexander, Diagonally implicit Runge-Kutta methods, SIAM J. Numer. Anal. 14 (1977) (from memory)
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-private.h"
#include <math.h>
#include <string.h>

#define GAMMA (1.0 - G_SQRT2 / 2.0)

/* One stage: from base, implicit part gamma dt. */
static gboolean
solve_stage (TlNetWorkspace *work, const TlNetwork *network, guint which, double dt_s,
             TlNetSum *sum)
{
  const TlNetStage stage = { network->current_A, 1.0 / (GAMMA * dt_s) };

  return tl_net_newton (work, network, which, &stage, sum);
}

static gboolean
step (TlNetWorkspace *work, const TlNetwork *network, guint which, double dt_s, TlNetSum *sum)
{
  TlNetState  *state = &work->state[which];
  const guint  n = work->mesh[which].n_cells;
  /* y + (1 - gamma) dt k1 with k1 = (Y1 - y)/(gamma dt). */
  const double ahead = (1.0 - GAMMA) / GAMMA;

  memcpy (state->start_C, state->temperature_C, n * sizeof (double));
  memcpy (state->base_C, state->temperature_C, n * sizeof (double));
  state->box_start_C = state->box_base_C = state->box_C;
  if (!solve_stage (work, network, which, dt_s, sum))
    return FALSE;
  for (guint i = 0; i < n; i++)
    state->base_C[i] = state->start_C[i] + ahead * (state->temperature_C[i] - state->start_C[i]);
  state->box_base_C = state->box_start_C + ahead * (state->box_C - state->box_start_C);
  return solve_stage (work, network, which, dt_s, sum);
}

gboolean
tl_net_march (TlNetWorkspace *work, const TlNetwork *network, guint which, guint steps,
              TlNetSum *sum)
{
  double before_s = 0.0;

  for (guint i = 1; i <= steps; i++)
    {
      const double share = (double) i / steps, now_s = network->duration_s * share * share;

      if (!step (work, network, which, now_s - before_s, sum))
        return FALSE;
      before_s = now_s;
    }
  return TRUE;
}
