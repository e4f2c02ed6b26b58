/* network.c: see network.h. Steering; the check stands in network-check.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-private.h"
#include <math.h>
#include <string.h>

#define WANTED_K 0.02
#define MOST_LEVELS 4
#define FIRST_STEPS_IN_TIME 24

static const struct
{
  const char *name, *unit;
} figures[] = {
  [TL_NET_HOT_C] = { "T_hot_C", "degC" },
  [TL_NET_MAX_C] = { "T_max_all_C", "degC" },
  [TL_NET_LEAD_A_C] = { "T_leadA_C", "degC" },
  [TL_NET_LEAD_B_C] = { "T_leadB_C", "degC" },
  [TL_NET_BOX_C] = { "T_box_C", "degC" },
  [TL_NET_JOINT_V] = { "V_joint_V", "V" },
  [TL_NET_INTERFACES_W] = { "P_interfaces_W", "W" },
  [TL_NET_BODIES_W] = { "P_bodies_W", "W" },
  [TL_NET_LEAD_A_W] = { "Q_leadA_W", "W" },
  [TL_NET_LEAD_B_W] = { "Q_leadB_W", "W" },
  [TL_NET_SURFACE_W] = { "Q_surface_W", "W" },
  [TL_NET_INTERFACE_V] = { "max_V_interface_V", "V" },
};
G_STATIC_ASSERT (G_N_ELEMENTS (figures) == TL_NET_N_FIGURES);

const char *
tl_net_figure_name (TlNetFigure figure)
{
  g_return_val_if_fail (figure < TL_NET_N_FIGURES, NULL);
  return figures[figure].name;
}

const char *
tl_net_figure_unit (TlNetFigure figure)
{
  g_return_val_if_fail (figure < TL_NET_N_FIGURES, NULL);
  return figures[figure].unit;
}

void
tl_network_init_defaults (TlNetwork *self)
{
  g_return_if_fail (self != NULL);

  *self = (TlNetwork){ .ambient_C = 25.0, .wanted_K = WANTED_K };
}

TlNetWorkspace *
tl_net_workspace_new (void)
{
  return g_new0 (TlNetWorkspace, 1);
}

void
tl_net_workspace_free (TlNetWorkspace *self)
{
  if (self == NULL)
    return;
  for (guint i = 0; i < 2; i++)
    {
      tl_net_mesh_clear (&self->mesh[i]);
      tl_net_state_clear (&self->state[i]);
    }
  g_free (self->films);
  g_free (self->marks_m);
  g_free (self);
}

void
tl_net_result_clear (TlNetResult *self)
{
  TlNetProfile *profile = self->profile;

  self->profile = NULL;
  if (profile == NULL)
    return;
  for (guint i = 0; i < profile->n_bodies; i++)
    {
      g_free (profile->lines[i].x_m);
      g_free (profile->lines[i].temperature_C);
      g_free (profile->lines[i].potential_V);
    }
  g_free (profile->lines);
  g_free (profile->body_W);
  g_free (profile->interface_W);
  g_free (profile->interface_A);
  g_free (profile->interface_V);
  g_free (profile);
}

/* --- steering --- */

static void
prepare_films (TlNetWorkspace *work, const TlNetwork *network)
{
  if (network->n_zones > work->n_films)
    {
      work->n_films = network->n_zones;
      work->films = g_renew (TlNetFilm, work->films, work->n_films);
    }
  for (guint i = 0; i < network->n_zones; i++)
    {
      const TlNetZone *zone = &network->zones[i];

      work->films[i] = (TlNetFilm){
        .film = zone->perimeter_m * zone->film_constant
                * (zone->film_exponent > 0.0 ? pow (zone->size_m, -zone->film_exponent) : 1.0),
        .exponent = zone->film_exponent,
        .radiation = zone->perimeter_m * zone->emissivity * TL_NET_SIGMA,
        .layer_mK_per_W = zone->layer_mK_per_W,
      };
    }
}

/* The stable steady state on the first mesh. Natural convection is weak near the air's temperature, so that
 * from a cool start a hot but sound state may look unstable: hotter starts are tried before giving up. */
static gboolean
find_steady (TlNetWorkspace *work, const TlNetwork *network, const TlNetStage *stage, TlNetSum *sum)
{
  static const double rises_K[] = { 5.0, 80.0, 300.0, 1000.0 };

  for (guint i = 0; i < G_N_ELEMENTS (rises_K); i++)
    {
      tl_net_state_begin (&work->state[0], &work->mesh[0], network, rises_K[i]);
      if (tl_net_newton (work, network, 0, stage, sum))
        return TRUE;
    }
  return FALSE;
}

/* Exchanges the rooms, so that the finer mesh becomes the one to refine. */
static void
swap_levels (TlNetWorkspace *work)
{
  const TlNetMesh  mesh = work->mesh[0];
  const TlNetState state = work->state[0];

  work->mesh[0] = work->mesh[1];
  work->state[0] = work->state[1];
  work->mesh[1] = mesh;
  work->state[1] = state;
}

/* One level in mesh and state @which, from the steady state before where time counts. */
static gboolean
solve_level (TlNetWorkspace *work, const TlNetwork *network, guint which, guint level,
             TlNetSum *sum)
{
  const gboolean   marches = network->duration_s > 0.0;
  const TlNetStage steady = { marches ? network->before_A : network->current_A, 0.0 };

  if (which == 0)
    {
      if (!find_steady (work, network, &steady, sum))
        return FALSE;
    }
  else
    {
      tl_net_mesh_halve (network, &work->mesh[0], &work->mesh[1]);
      tl_net_state_refine (&work->mesh[0], &work->state[0], &work->mesh[1], &work->state[1]);
      if (!marches && !tl_net_newton (work, network, 1, &steady, sum))
        return FALSE;
      if (marches)
        {
          /* The coarse state stands at the end of the time: the fine one begins anew. */
          tl_net_state_begin (&work->state[1], &work->mesh[1], network, 5.0);
          if (!tl_net_newton (work, network, 1, &steady, sum))
            return FALSE;
        }
    }
  return !marches || tl_net_march (work, network, which, FIRST_STEPS_IN_TIME << level, sum);
}

static void
finish (TlNetResult *result, const TlNetwork *network, TlNetWorkspace *work, guint which,
        const TlNetSum *sum)
{
  result->balance_W = sum->balance_W + sum->box_residual_W;
  result->heat_W = sum->heat_W;
  result->runaway_margin = sum->margin;
  result->cells = work->mesh[which].n_cells;
  result->joint_ohm =
      network->current_A > 0.0 ? result->value[TL_NET_JOINT_V] / network->current_A : 0.0;
  if (network->want_profile)
    result->profile =
        tl_net_profile_new (network, &work->mesh[which], &work->state[which], network->current_A);
}

static gboolean
all_finite (const TlNetResult *result)
{
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    if (!isfinite (result->value[i]) || !isfinite (result->error[i]))
      return FALSE;
  return TRUE;
}

/* No figure of a joint that runs away is valid; none is left that could be read by mistake. */
static void
give_up (TlNetResult *result, const TlNetWorkspace *work)
{
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    result->value[i] = result->error[i] = 0.0;
  result->joint_ohm = 0.0;
  result->status = TL_NET_NO_STEADY_STATE;
  result->passes = work->passes;
}

static gboolean
solve_levels (TlNetWorkspace *work, const TlNetwork *network, guint most, TlNetResult *result)
{
  double   last[TL_NET_N_FIGURES] = { 0.0 };
  TlNetSum sum = { 0 };

  *result = (TlNetResult){ .status = TL_NET_OK };
  work->passes = 0;
  prepare_films (work, network);
  if (!tl_net_mesh_build (work, network, &work->mesh[0]))
    return FALSE;
  for (guint level = 0; level < most; level++)
    {
      const guint which = level == 0 ? 0 : 1;

      if (level > 1)
        swap_levels (work);
      result->levels = level + 1;
      if (!solve_level (work, network, which, level, &sum))
        {
          give_up (result, work);
          return TRUE;
        }
      double now[TL_NET_N_FIGURES];
      tl_net_figures (network, &work->mesh[which], &work->state[which], network->current_A, now,
                      &result->hot_body, &result->hot_x_m);
      for (guint i = 0; i < TL_NET_N_FIGURES; i++)
        {
          const double change = level == 0 ? 0.0 : (now[i] - last[i]) / 3.0;

          result->value[i] = now[i] + change;
          result->error[i] = fabs (change);
          last[i] = now[i];
        }
      if (level > 0 && result->error[TL_NET_HOT_C] <= network->wanted_K)
        break;
    }
  finish (result, network, work, result->levels > 1 ? 1 : 0, &sum);
  result->passes = work->passes;
  return all_finite (result);
}

gboolean
tl_network_solve_quick (const TlNetwork *self, TlNetWorkspace *workspace, TlNetResult *result)
{
  g_return_val_if_fail (self != NULL && workspace != NULL && result != NULL, FALSE);

  return solve_levels (workspace, self, 1, result);
}

double
tl_network_cold_ohm (const TlNetwork *self, TlNetWorkspace *workspace)
{
  g_return_val_if_fail (self != NULL && workspace != NULL, 0.0);

  TlNetwork   cold = *self;
  TlNetMesh  *mesh = &workspace->mesh[0];
  TlNetState *state = &workspace->state[0];

  cold.ambient_C = 20.0;
  if (!tl_net_mesh_build (workspace, &cold, mesh))
    return 0.0;
  tl_net_state_begin (state, mesh, &cold, 0.0);
  if (!tl_net_solve_potentials (&cold, mesh, state, 1.0))
    return 0.0;
  const double ohm = tl_net_joint_V (&cold, mesh, state, 1.0);
  return isfinite (ohm) ? ohm : 0.0;
}

gboolean
tl_network_solve (const TlNetwork *self, TlNetWorkspace *workspace, TlNetResult *result,
                  GError **error)
{
  g_autoptr (TlNetWorkspace) own = NULL;

  g_return_val_if_fail (self != NULL && result != NULL, FALSE);

  if (!tl_network_check (self, error))
    return FALSE;
  if (workspace == NULL)
    workspace = own = tl_net_workspace_new ();
  if (solve_levels (workspace, self, MOST_LEVELS, result))
    return TRUE;
  tl_net_result_clear (result);
  g_set_error_literal (error, TL_ERROR, TL_ERROR_LIMIT, "the joint zone is too long for its mesh");
  return FALSE;
}
