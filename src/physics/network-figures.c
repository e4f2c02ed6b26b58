/* network-figures.c: reading temperatures, potentials and heats off a solved mesh.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-private.h"
#include <math.h>

/* The two cells beside an edge of a body; one of them may be missing. */
typedef struct
{
  guint left, right;
} Sides;

static Sides
sides_of (const TlNetMesh *mesh, guint edge, guint body)
{
  return (Sides){
    edge == 0 ? TL_NET_NONE : tl_net_cell_at (mesh, edge - 1, body),
    edge == mesh->n_columns ? TL_NET_NONE : tl_net_cell_at (mesh, edge, body),
  };
}

/* End of a body that lets no heat or current through: parabola with its crest at the end. */
static double
closed_end (const TlNetMesh *mesh, const double *values, guint cell, guint next)
{
  if (next == TL_NET_NONE)
    return values[cell];
  const double near = 0.5 * mesh->cells[cell].dx_m,
               far = mesh->cells[cell].dx_m + 0.5 * mesh->cells[next].dx_m;

  return values[cell] + (values[cell] - values[next]) * near * near / (far * far - near * near);
}

static double
edge_C (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state, guint edge,
        guint body)
{
  const Sides   s = sides_of (mesh, edge, body);
  const double *t = state->temperature_C;

  if (s.left != TL_NET_NONE && s.right != TL_NET_NONE)
    {
      const double a = mesh->cells[s.left].dx_m, b = mesh->cells[s.right].dx_m;
      return (t[s.left] * b + t[s.right] * a) / (a + b);
    }
  if (s.right != TL_NET_NONE)
    {
      if (edge == 0 && body == network->body_a && network->has_end_a)
        return network->end_a_C;
      return closed_end (mesh, t, s.right, mesh->cells[s.right].right);
    }
  if (edge == mesh->n_columns && body == network->body_b && network->has_end_b)
    return network->end_b_C;
  return closed_end (mesh, t, s.left, mesh->cells[s.left].left);
}

static double
edge_V (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state, double current_A,
        guint edge, guint body)
{
  const Sides   s = sides_of (mesh, edge, body);
  const double *v = state->potential_V;

  if (s.left != TL_NET_NONE && s.right != TL_NET_NONE)
    return v[s.left] - 0.5 * state->face_A[s.left] * state->ohm[s.left];
  if (s.right != TL_NET_NONE)
    {
      if (edge == 0 && body == network->body_a)
        return v[s.right] + 0.5 * current_A * state->ohm[s.right];
      return closed_end (mesh, v, s.right, mesh->cells[s.right].right);
    }
  if (edge == mesh->n_columns && body == network->body_b)
    return v[s.left] - 0.5 * current_A * state->ohm[s.left];
  return closed_end (mesh, v, s.left, mesh->cells[s.left].left);
}

/* Heat conducted from left to right through an edge of a body; nothing through closed ends. */
static double
edge_W (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state, guint edge,
        guint body)
{
  const Sides   s = sides_of (mesh, edge, body);
  const double *t = state->temperature_C;

  if (s.left != TL_NET_NONE && s.right != TL_NET_NONE)
    return mesh->cells[s.left].right_W_per_K * (t[s.left] - t[s.right]);
  const TlNetBody *b = &network->bodies[body];
  if (s.right != TL_NET_NONE && edge == 0 && body == network->body_a && network->has_end_a)
    return 2.0 * b->conductivity_W_per_mK * b->section_m2 / mesh->cells[s.right].dx_m
           * (network->end_a_C - t[s.right]);
  if (s.left != TL_NET_NONE && edge == mesh->n_columns && body == network->body_b
      && network->has_end_b)
    return 2.0 * b->conductivity_W_per_mK * b->section_m2 / mesh->cells[s.left].dx_m
           * (t[s.left] - network->end_b_C);
  return 0.0;
}

/* --- the hottest metal --- */

/* In a symmetric joint two places are equally hot: the first of them counts, not the one that rounding favours. */
#define SAME_K 1e-4

typedef struct
{
  double temperature_C, at_place_C, x_m;
  guint  body;
} Peak;

static void
lift (Peak *peak, double temperature_C, double x_m, guint body)
{
  if (temperature_C > peak->at_place_C + SAME_K)
    *peak = (Peak){ peak->temperature_C, temperature_C, x_m, body };
  peak->temperature_C = MAX (peak->temperature_C, temperature_C);
}

/* Crest of the parabola through a cell and its neighbours, if it lies between them. */
static void
lift_crest (Peak *peak, const TlNetMesh *mesh, const double *t, guint i)
{
  const TlNetCell *cell = &mesh->cells[i];
  const double     x = 0.5 * (mesh->edge_m[cell->column] + mesh->edge_m[cell->column + 1]);

  if (cell->left == TL_NET_NONE || cell->right == TL_NET_NONE)
    return;
  const double before = 0.5 * (cell->dx_m + mesh->cells[cell->left].dx_m);
  const double after = 0.5 * (cell->dx_m + mesh->cells[cell->right].dx_m);
  const double rise = (t[i] - t[cell->left]) / before, fall = (t[cell->right] - t[i]) / after;
  if (!(rise >= 0.0 && fall <= 0.0 && rise > fall))
    return;
  const double bend = (fall - rise) / (before + after); /* half the second derivative */
  const double slope = (rise * after + fall * before) / (before + after);
  const double shift = -0.5 * slope / bend;

  lift (peak, t[i] + slope * shift + bend * shift * shift, x + shift, cell->body);
}

/* Over the columns from edge @from to edge @to, both edges included. */
static Peak
hottest (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state, guint from,
         guint to)
{
  const double *t = state->temperature_C;
  Peak          peak = { -G_MAXDOUBLE, -G_MAXDOUBLE, 0.0, 0 };
  const guint   first = tl_net_cell_at (mesh, 0, network->body_a);

  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const TlNetCell *cell = &mesh->cells[i];

      if (cell->column < from || cell->column >= to)
        continue;
      lift_crest (&peak, mesh, t, i);
      lift (&peak, t[i], 0.5 * (mesh->edge_m[cell->column] + mesh->edge_m[cell->column + 1]),
            cell->body);
      if (cell->left == TL_NET_NONE || cell->column == from || i == first)
        lift (&peak, edge_C (network, mesh, state, cell->column, cell->body),
              mesh->edge_m[cell->column], cell->body);
      if (cell->right == TL_NET_NONE || cell->column + 1 == to)
        lift (&peak, edge_C (network, mesh, state, cell->column + 1, cell->body),
              mesh->edge_m[cell->column + 1], cell->body);
    }
  return peak;
}

/* Largest drop along an interface, its ends included. */
static double
largest_drop_V (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                double current_A, guint which)
{
  const TlNetInterface *face = &network->interfaces[which];
  const guint from = tl_net_mesh_edge (mesh, face->x0_m), to = tl_net_mesh_edge (mesh, face->x1_m);
  double      largest = 0.0;

  for (guint e = from; e <= to; e++)
    largest = MAX (largest, fabs (edge_V (network, mesh, state, current_A, e, face->p)
                                  - edge_V (network, mesh, state, current_A, e, face->q)));
  return largest;
}

static double
link_W (const TlNetLink *link, const TlNetState *state)
{
  const double mean = 0.5 * (state->temperature_C[link->p] + state->temperature_C[link->q]);

  return link->current_A * link->current_A * link->ohm_20
         * (1.0 + link->coefficient_per_K * (mean - 20.0));
}

double
tl_net_joint_V (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                double current_A)
{
  const guint a = tl_net_mesh_edge (mesh, network->volt_a_x_m),
              b = tl_net_mesh_edge (mesh, network->volt_b_x_m);

  return edge_V (network, mesh, state, current_A, a, network->body_a)
         - edge_V (network, mesh, state, current_A, b, network->body_b);
}

void
tl_net_figures (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                double current_A, double *value, guint *hot_body, double *hot_x_m)
{
  const guint from = tl_net_mesh_edge (mesh, network->joint_x0_m),
              to = tl_net_mesh_edge (mesh, network->joint_x1_m);
  const Peak  zone = hottest (network, mesh, state, from, to);
  const guint a = network->body_a, b = network->body_b;

  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    value[i] = 0.0;
  *hot_body = zone.body;
  *hot_x_m = zone.x_m;
  value[TL_NET_HOT_C] = zone.temperature_C;
  const double left_C = hottest (network, mesh, state, 0, from).temperature_C,
               right_C = hottest (network, mesh, state, to, mesh->n_columns).temperature_C;
  value[TL_NET_MAX_C] = MAX (zone.temperature_C, MAX (left_C, right_C));
  value[TL_NET_LEAD_A_C] =
      edge_C (network, mesh, state, tl_net_mesh_edge (mesh, network->lead_a_x_m), a);
  value[TL_NET_LEAD_B_C] =
      edge_C (network, mesh, state, tl_net_mesh_edge (mesh, network->lead_b_x_m), b);
  value[TL_NET_BOX_C] = state->box_C;
  value[TL_NET_JOINT_V] = tl_net_joint_V (network, mesh, state, current_A);
  for (guint k = 0; k < mesh->n_links; k++)
    value[TL_NET_INTERFACES_W] += link_W (&mesh->links[k], state);
  for (guint i = 0; i < mesh->n_cells; i++)
    if (mesh->cells[i].column >= from && mesh->cells[i].column < to)
      value[TL_NET_BODIES_W] +=
          state->square_A2[i] * mesh->cells[i].ohm_20
          * (1.0 + mesh->cells[i].coefficient_per_K * (state->temperature_C[i] - 20.0));
  for (guint i = 0; i < network->n_bodies; i++)
    {
      value[TL_NET_LEAD_A_W] -= edge_W (network, mesh, state, from, i);
      value[TL_NET_LEAD_B_W] += edge_W (network, mesh, state, to, i);
    }
  for (guint k = mesh->first_skin[from]; k < mesh->first_skin[to]; k++)
    value[TL_NET_SURFACE_W] += mesh->skins[k].loss_W;
  for (guint i = 0; i < network->n_interfaces; i++)
    value[TL_NET_INTERFACE_V] =
        MAX (value[TL_NET_INTERFACE_V], largest_drop_V (network, mesh, state, current_A, i));
}

/* --- profiles --- */

static void
fill_line (TlNetLine *line, const TlNetwork *network, const TlNetMesh *mesh,
           const TlNetState *state, double current_A, guint body)
{
  const guint from = tl_net_mesh_edge (mesh, network->bodies[body].x0_m);
  const guint to = tl_net_mesh_edge (mesh, network->bodies[body].x1_m);

  line->n = to - from + 2;
  line->x_m = g_new (double, line->n);
  line->temperature_C = g_new (double, line->n);
  line->potential_V = g_new (double, line->n);
  for (guint i = 0; i < line->n; i++)
    {
      if (i == 0 || i + 1 == line->n)
        {
          const guint edge = i == 0 ? from : to;

          line->x_m[i] = mesh->edge_m[edge];
          line->temperature_C[i] = edge_C (network, mesh, state, edge, body);
          line->potential_V[i] = edge_V (network, mesh, state, current_A, edge, body);
          continue;
        }
      const guint column = from + i - 1, cell = tl_net_cell_at (mesh, column, body);
      line->x_m[i] = 0.5 * (mesh->edge_m[column] + mesh->edge_m[column + 1]);
      line->temperature_C[i] = state->temperature_C[cell];
      line->potential_V[i] = state->potential_V[cell];
    }
}

TlNetProfile *
tl_net_profile_new (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                    double current_A)
{
  TlNetProfile *self = g_new0 (TlNetProfile, 1);

  self->n_bodies = network->n_bodies;
  self->n_interfaces = network->n_interfaces;
  self->lines = g_new0 (TlNetLine, self->n_bodies);
  self->body_W = g_new0 (double, self->n_bodies);
  self->interface_W = g_new0 (double, self->n_interfaces);
  self->interface_A = g_new0 (double, self->n_interfaces);
  self->interface_V = g_new0 (double, self->n_interfaces);
  for (guint i = 0; i < self->n_bodies; i++)
    fill_line (&self->lines[i], network, mesh, state, current_A, i);
  for (guint i = 0; i < mesh->n_cells; i++)
    self->body_W[mesh->cells[i].body] +=
        state->square_A2[i] * mesh->cells[i].ohm_20
        * (1.0 + mesh->cells[i].coefficient_per_K * (state->temperature_C[i] - 20.0));
  for (guint k = 0; k < mesh->n_links; k++)
    {
      self->interface_W[mesh->links[k].which] += link_W (&mesh->links[k], state);
      self->interface_A[mesh->links[k].which] += mesh->links[k].current_A;
    }
  for (guint i = 0; i < self->n_interfaces; i++)
    self->interface_V[i] = largest_drop_V (network, mesh, state, current_A, i);
  return self;
}
