/* network-kernel.c: one network on one mesh: potentials, heats, Newton's passes.
 *
 * Currents are frozen while the temperatures take a Newton step: the coupling through resistivity is
 * weak, and both matrices stay symmetric. The pivots of the temperature matrix tell a stable state
 * from a spurious one: with linear cooling a current above the runaway current still has a
 * "solution", often a cold one, and only a pivot below 0 gives it away.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-private.h"
#include "banded.h"
#include <math.h>
#include <string.h>

#define MOST_PASSES 40
#define FIRST_STEPS 3 /* Newton steps on the first guess of the currents */
#define LARGEST_STEP_K 80.0
/* A step smaller than this is not worth taking: the error that is left. Errors of time steps add up. */
#define STILL_K 2e-5
#define STILL_IN_TIME_K 1e-6
/* Metals' resistances change by less than 0.5 % a kelvin, films by a few: after moves smaller than this the factored
 * matrices serve on, and each further step shrinks to SHRINK of the one before at most. */
#define SMALL_K 0.5
#define SHRINK 0.2
#define BALANCE_SHARE 2e-7   /* of metals and of the box; 1e-6 of both together is promised */
#define BALANCE_FLOOR_W 1e-6 /* heats below this are no heat: the share is taken of it */
#define HOTTEST_C 3000.0
#define COLDEST_C -250.0
#define REFERENCE_C 20.0
#define MOST_SURFACE_STEPS 60
#define SURFACE_STILL_K 1e-4

/* --- states --- */

void
tl_net_state_clear (TlNetState *self)
{
  g_free (self->temperature_C);
  g_free (self->potential_V);
  g_free (self->ohm);
  g_free (self->face_A);
  g_free (self->square_A2);
  g_free (self->source);
  g_free (self->border);
  g_free (self->matrix);
  g_free (self->conductances);
  g_free (self->start_C);
  g_free (self->base_C);
  *self = (TlNetState){ 0 };
}

void
tl_net_state_fit (TlNetState *self, const TlNetMesh *mesh)
{
  const gsize wanted = mesh->n_cells, entries = mesh->row[mesh->n_cells];

  if (wanted > self->room)
    {
      double **arrays[] = { &self->temperature_C, &self->potential_V, &self->ohm,
                            &self->face_A,        &self->square_A2,   &self->source,
                            &self->border,        &self->start_C,     &self->base_C };

      self->room = wanted + wanted / 2;
      for (gsize i = 0; i < G_N_ELEMENTS (arrays); i++)
        *arrays[i] = g_realloc_n (*arrays[i], self->room, sizeof (double));
    }
  if (entries > self->matrix_room)
    {
      self->matrix_room = entries + entries / 2;
      self->matrix = g_realloc_n (self->matrix, self->matrix_room, sizeof (double));
      self->conductances = g_realloc_n (self->conductances, self->matrix_room, sizeof (double));
    }
}

double
tl_net_air_C (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
              guint column)
{
  return mesh->in_box[column] ? state->box_C : network->ambient_C;
}

void
tl_net_state_begin (TlNetState *self, TlNetMesh *mesh, const TlNetwork *network, double rise_K)
{
  tl_net_state_fit (self, mesh);
  self->box_C = network->ambient_C;
  for (guint i = 0; i < mesh->n_cells; i++)
    self->temperature_C[i] = network->ambient_C + rise_K;
  for (guint i = 0; i < mesh->n_skins; i++)
    mesh->skins[i].surface_C = network->ambient_C + rise_K;
}

/* Straight lines through the neighbours of each coarse cell. */
void
tl_net_state_refine (const TlNetMesh *coarse, const TlNetState *from, TlNetMesh *fine,
                     TlNetState *to)
{
  tl_net_state_fit (to, fine);
  to->box_C = from->box_C;
  for (guint i = 0; i < coarse->n_cells; i++)
    {
      const TlNetCell *cell = &coarse->cells[i];
      const double     here = from->temperature_C[i];
      double           rise = 0.0, run = 0.0;

      if (cell->left != TL_NET_NONE)
        {
          rise += here - from->temperature_C[cell->left];
          run += 0.5 * (cell->dx_m + coarse->cells[cell->left].dx_m);
        }
      if (cell->right != TL_NET_NONE)
        {
          rise += from->temperature_C[cell->right] - here;
          run += 0.5 * (cell->dx_m + coarse->cells[cell->right].dx_m);
        }
      const double quarter = run > 0.0 ? 0.25 * cell->dx_m * rise / run : 0.0;
      to->temperature_C[tl_net_cell_at (fine, 2 * cell->column, cell->body)] = here - quarter;
      to->temperature_C[tl_net_cell_at (fine, 2 * cell->column + 1, cell->body)] = here + quarter;
    }
  for (guint c = 0; c < coarse->n_columns; c++)
    for (guint s = 0; s < 2; s++)
      for (guint k = coarse->first_skin[c]; k < coarse->first_skin[c + 1]; k++)
        {
          const TlNetSkin *skin = &coarse->skins[k];
          TlNetSkin *finer = &fine->skins[fine->first_skin[2 * c + s] + k - coarse->first_skin[c]];

          finer->surface_C =
              skin->surface_C
              + skin->surface_slope
                    * (to->temperature_C[finer->cell] - from->temperature_C[skin->cell]);
        }
}

/* Zeroes in short pieces: long ones are done by string instructions, which start slowly and count per byte. */
static void
clear (double *values, gsize n)
{
  enum
  {
    PIECE = 128
  };

  for (; n > PIECE; n -= PIECE, values += PIECE)
    memset (values, 0, PIECE * sizeof (double));
  memset (values, 0, n * sizeof (double));
}

/* --- potentials --- */

/* Resistances of the cells. */
static void
find_ohms (const TlNetMesh *mesh, TlNetState *state)
{
  for (guint i = 0; i < mesh->n_cells; i++)
    state->ohm[i] =
        mesh->cells[i].ohm_20
        * (1.0 + mesh->cells[i].coefficient_per_K * (state->temperature_C[i] - REFERENCE_C));
}

/* Faces and links keep their conductances where their currents will stand. */
static void
find_conductances (TlNetMesh *mesh, TlNetState *state)
{
  const double *t = state->temperature_C;

  find_ohms (mesh, state);
  for (guint i = 0; i < mesh->n_cells; i++)
    if (mesh->cells[i].right != TL_NET_NONE)
      state->face_A[i] = 2.0 / (state->ohm[i] + state->ohm[mesh->cells[i].right]);
  for (guint k = 0; k < mesh->n_links; k++)
    {
      TlNetLink   *link = &mesh->links[k];
      const double mean = 0.5 * (t[link->p] + t[link->q]);

      link->current_A =
          1.0 / (link->ohm_20 * (1.0 + link->coefficient_per_K * (mean - REFERENCE_C)));
    }
}

/* The matrix of the conductances; the right end of body B, cell @last, stands at 0 V. */
static void
fill_conductances (const TlNetMesh *mesh, TlNetState *state, guint last)
{
  const guint *row = mesh->row;
  double      *a = state->conductances;

  clear (a, row[mesh->n_cells]);
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const guint right = mesh->cells[i].right;

      if (right == TL_NET_NONE)
        continue;
      a[row[i]] += state->face_A[i];
      a[row[right]] += state->face_A[i];
      a[row[i] + (right - i)] -= state->face_A[i];
    }
  for (guint k = 0; k < mesh->n_links; k++)
    {
      const TlNetLink *link = &mesh->links[k];
      const guint      upper = MIN (link->p, link->q), lower = MAX (link->p, link->q);

      a[row[upper]] += link->current_A;
      a[row[lower]] += link->current_A;
      a[row[upper] + (lower - upper)] -= link->current_A;
    }
  a[row[last]] += 2.0 / state->ohm[last];
}

/* Conductance times drop; the current in at @first and out at @last. */
static void
fill_currents (TlNetMesh *mesh, TlNetState *state, guint first, guint last, double current_A)
{
  const double *v = state->potential_V;

  clear (state->square_A2, mesh->n_cells);
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const guint right = mesh->cells[i].right;

      if (right == TL_NET_NONE)
        {
          state->face_A[i] = i == last ? current_A : 0.0;
          state->square_A2[i] += 0.5 * state->face_A[i] * state->face_A[i];
          continue;
        }
      const double through = state->face_A[i] *= v[i] - v[right];
      state->square_A2[i] += 0.5 * through * through;
      state->square_A2[right] += 0.5 * through * through;
    }
  state->square_A2[first] += 0.5 * current_A * current_A;
  for (guint k = 0; k < mesh->n_links; k++)
    mesh->links[k].current_A *= v[mesh->links[k].p] - v[mesh->links[k].q];
}

/* One correction of the potentials that stand: what does not add up at each cell goes through the old factors. With
 * resistances changed by a share s since then the potentials are wrong by s squared of themselves. */
static void
correct_potentials (const TlNetMesh *mesh, TlNetState *state, guint first, guint last,
                    double current_A)
{
  double *lack = state->source, *v = state->potential_V;

  clear (lack, mesh->n_cells);
  lack[first] = current_A;
  lack[last] -= v[last] * 2.0 / state->ohm[last];
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const guint right = mesh->cells[i].right;

      if (right == TL_NET_NONE)
        continue;
      const double through = state->face_A[i] * (v[i] - v[right]);
      lack[i] -= through;
      lack[right] += through;
    }
  for (guint k = 0; k < mesh->n_links; k++)
    {
      const TlNetLink *link = &mesh->links[k];
      const double     through = link->current_A * (v[link->p] - v[link->q]);

      lack[link->p] -= through;
      lack[link->q] += through;
    }
  tl_banded_solve (state->conductances, mesh->n_cells, mesh->row, lack);
  for (guint i = 0; i < mesh->n_cells; i++)
    v[i] += lack[i];
}

/* Right end of body B at 0 V, current in at the left end of body A; then the currents of all faces and links, frozen
 * for the Newton step that follows. @is_near: potentials stand that want no more than a correction. */
static gboolean
find_potentials (const TlNetwork *network, TlNetMesh *mesh, TlNetState *state, double current_A,
                 gboolean is_near)
{
  const guint n = mesh->n_cells;
  const guint first = tl_net_cell_at (mesh, 0, network->body_a);
  const guint last = tl_net_cell_at (mesh, mesh->n_columns - 1, network->body_b);
  guint       bad;

  find_conductances (mesh, state);
  if (is_near)
    correct_potentials (mesh, state, first, last, current_A);
  else
    {
      fill_conductances (mesh, state, last);
      clear (state->potential_V, n);
      state->potential_V[first] = current_A;
      if (!tl_banded_factor (state->conductances, n, mesh->row, &bad) || bad > 0)
        return FALSE;
      tl_banded_solve (state->conductances, n, mesh->row, state->potential_V);
      state->moved_K = 0.0;
    }
  fill_currents (mesh, state, first, last, current_A);
  return TRUE;
}

gboolean
tl_net_solve_potentials (const TlNetwork *network, TlNetMesh *mesh, TlNetState *state,
                         double current_A)
{
  return find_potentials (network, mesh, state, current_A, FALSE);
}

/* --- surfaces --- */

static double
power_of (double base, double exponent)
{
  if (exponent == 0.25)
    return sqrt (sqrt (base));
  return exponent == 0.0 ? 1.0 : pow (base, exponent);
}

static double
cube (double x)
{
  return x * x * x;
}

/* Loss of one skin and its slopes; the surface temperature by Newton from its last value. */
void
tl_net_solve_skin (const TlNetFilm *film, TlNetSkin *skin, double metal_C, double air_C)
{
  const double layer = film->layer_mK_per_W, air_K = air_C + TL_NET_KELVIN;
  double       surface_C = layer > 0.0 ? skin->surface_C : metal_C;

  for (guint step = 0;; step++)
    {
      const double rise = surface_C - air_C, surface_K = surface_C + TL_NET_KELVIN;
      const double convected = film->film * power_of (fabs (rise), film->exponent);
      const double radiated = film->radiation * cube (surface_K);
      const double loss =
          convected * rise + radiated * surface_K - film->radiation * cube (air_K) * air_K;
      const double slope = (1.0 + film->exponent) * convected + 4.0 * radiated;
      const double hold = 1.0 / (1.0 + layer * slope);
      const double move = (metal_C - surface_C - layer * loss) * hold;

      if (fabs (move) > SURFACE_STILL_K && step < MOST_SURFACE_STEPS)
        {
          surface_C = MAX (surface_C + move, 0.5 * (surface_C - TL_NET_KELVIN));
          continue;
        }
      skin->surface_C = surface_C + move;
      skin->surface_slope = hold;
      skin->loss_W = (loss + slope * move) * skin->dx_m;
      skin->slope_W_per_K = slope * hold * skin->dx_m;
      skin->air_W_per_K =
          -((1.0 + film->exponent) * convected + 4.0 * film->radiation * cube (air_K)) * hold
          * skin->dx_m;
      return;
    }
}

/* --- heat balance --- */

/* Conductance to a held end of the model, 0 (left) or 1 (right), and the cell there; 0 if it is not held. */
static double
carry_to_end (const TlNetwork *network, const TlNetMesh *mesh, guint end, guint *cell)
{
  if (!(end == 0 ? network->has_end_a : network->has_end_b))
    return 0.0;
  const guint      body = end == 0 ? network->body_a : network->body_b;
  const TlNetBody *b = &network->bodies[body];

  *cell = tl_net_cell_at (mesh, end == 0 ? 0 : mesh->n_columns - 1, body);
  return 2.0 * b->conductivity_W_per_mK * b->section_m2 / mesh->cells[*cell].dx_m;
}

/* Joule heat of the cells, and conduction to the neighbours and to ends that are held. */
static void
add_cells (const TlNetwork *network, const TlNetMesh *mesh, TlNetState *state, TlNetSum *sum)
{
  const double *t = state->temperature_C;
  double       *f = state->source, made_W = 0.0;

  for (guint i = 0; i < mesh->n_cells; i++)
    {
      f[i] = state->square_A2[i] * state->ohm[i];
      made_W += f[i];
    }
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const TlNetCell *cell = &mesh->cells[i];

      if (cell->right == TL_NET_NONE)
        continue;
      const double flow = cell->right_W_per_K * (t[i] - t[cell->right]);

      f[i] -= flow;
      f[cell->right] += flow;
    }
  sum->heat_W += made_W;
  sum->balance_W += made_W;
  for (guint end = 0; end < 2; end++)
    {
      guint        i;
      const double carry = carry_to_end (network, mesh, end, &i);

      if (!(carry > 0.0))
        continue;
      const double flow = carry * (t[i] - (end == 0 ? network->end_a_C : network->end_b_C));

      f[i] -= flow;
      sum->balance_W -= flow;
    }
}

/* What the cells store in a time step. */
static void
add_stores (const TlNetMesh *mesh, TlNetState *state, double per_step_per_s, TlNetSum *sum)
{
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const double stored = mesh->cells[i].capacity_J_per_K * per_step_per_s
                            * (state->temperature_C[i] - state->base_C[i]);

      state->source[i] -= stored;
      sum->balance_W -= stored;
    }
}

/* Heat of the interfaces, half to each side, and the heat that passes through them. */
static void
add_links (const TlNetMesh *mesh, TlNetState *state, TlNetSum *sum)
{
  const double *t = state->temperature_C;
  double       *f = state->source;

  for (guint k = 0; k < mesh->n_links; k++)
    {
      const TlNetLink *link = &mesh->links[k];
      const guint      p = link->p, q = link->q;
      const double     ohm =
          link->ohm_20 * (1.0 + link->coefficient_per_K * (0.5 * (t[p] + t[q]) - REFERENCE_C));
      const double heat = link->current_A * link->current_A * ohm;
      const double flow = link->W_per_K * (t[p] - t[q]);

      f[p] += 0.5 * heat - flow;
      f[q] += 0.5 * heat + flow;
      sum->heat_W += heat;
      sum->balance_W += heat;
    }
}

static void
add_skins (const TlNetFilm *films, const TlNetwork *network, TlNetMesh *mesh, TlNetState *state,
           TlNetSum *sum)
{
  for (guint k = 0; k < mesh->n_skins; k++)
    {
      TlNetSkin       *skin = &mesh->skins[k];
      const TlNetCell *cell = &mesh->cells[skin->cell];
      const gboolean   boxed = mesh->in_box[cell->column] != 0;

      tl_net_solve_skin (&films[skin->zone], skin, state->temperature_C[skin->cell],
                         boxed ? state->box_C : network->ambient_C);
      state->source[skin->cell] -= skin->loss_W;
      sum->balance_W -= skin->loss_W;
      if (!boxed)
        continue;
      sum->box_residual_W += skin->loss_W;
      sum->box_air_W_per_K += skin->air_W_per_K;
    }
}

/* Slopes of the residuals, with the currents and the skins' slopes that stand; the box's in the border. */
static void
fill_matrix (const TlNetwork *network, const TlNetMesh *mesh, TlNetState *state,
             double per_step_per_s)
{
  const guint *row = mesh->row;
  double      *a = state->matrix;

  clear (a, row[mesh->n_cells]);
  clear (state->border, mesh->n_cells);
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const TlNetCell *cell = &mesh->cells[i];

      a[row[i]] += cell->capacity_J_per_K * per_step_per_s
                   - state->square_A2[i] * cell->ohm_20 * cell->coefficient_per_K;
      if (cell->right == TL_NET_NONE)
        continue;
      a[row[i]] += cell->right_W_per_K;
      a[row[cell->right]] += cell->right_W_per_K;
      a[row[i] + (cell->right - i)] -= cell->right_W_per_K;
    }
  for (guint end = 0; end < 2; end++)
    {
      guint        i;
      const double carry = carry_to_end (network, mesh, end, &i);

      if (carry > 0.0)
        a[row[i]] += carry;
    }
  for (guint k = 0; k < mesh->n_links; k++)
    {
      const TlNetLink *link = &mesh->links[k];
      const guint      upper = MIN (link->p, link->q), lower = MAX (link->p, link->q);
      const double     slope =
          0.25 * link->current_A * link->current_A * link->ohm_20 * link->coefficient_per_K;

      a[row[upper]] += link->W_per_K - slope;
      a[row[lower]] += link->W_per_K - slope;
      a[row[upper] + (lower - upper)] -= link->W_per_K + slope;
    }
  for (guint k = 0; k < mesh->n_skins; k++)
    {
      const TlNetSkin *skin = &mesh->skins[k];

      a[row[skin->cell]] += skin->slope_W_per_K;
      if (mesh->in_box[mesh->cells[skin->cell].column])
        state->border[skin->cell] += skin->air_W_per_K;
    }
}

/* Residuals and sums at the temperatures that stand, and the resistances found for them. */
static void
evaluate (TlNetWorkspace *work, const TlNetwork *network, guint which, const TlNetStage *stage,
          TlNetSum *sum)
{
  TlNetMesh  *mesh = &work->mesh[which];
  TlNetState *state = &work->state[which];

  *sum = (TlNetSum){ .margin = 1.0 };
  add_cells (network, mesh, state, sum);
  if (stage->per_step_per_s > 0.0)
    add_stores (mesh, state, stage->per_step_per_s, sum);
  add_links (mesh, state, sum);
  add_skins (work->films, network, mesh, state, sum);
  if (!(network->box_W_per_K > 0.0))
    return;
  const double store_W_per_K = network->box_J_per_K * stage->per_step_per_s;
  sum->box_residual_W += network->box_extra_W
                         - network->box_W_per_K * (state->box_C - network->ambient_C)
                         - store_W_per_K * (state->box_C - state->box_base_C);
  sum->box_slope_W_per_K = network->box_W_per_K + store_W_per_K - sum->box_air_W_per_K;
  sum->heat_W += network->box_extra_W;
}

/* Factors the matrix, and what a kelvin of the box does to the metal. */
static gboolean
factor_step (const TlNetwork *network, const TlNetMesh *mesh, TlNetState *state,
             const TlNetStage *stage, gboolean *is_stable)
{
  guint bad;

  fill_matrix (network, mesh, state, stage->per_step_per_s);
  if (!tl_banded_factor (state->matrix, mesh->n_cells, mesh->row, &bad))
    return FALSE;
  *is_stable = bad == 0;
  if (network->box_W_per_K > 0.0)
    tl_banded_solve (state->matrix, mesh->n_cells, mesh->row, state->border);
  return TRUE;
}

/* The Newton step into state->source; the box's by the Schur complement of its row. */
static gboolean
solve_step (const TlNetwork *network, const TlNetMesh *mesh, TlNetState *state, const TlNetSum *sum,
            double *box_K, gboolean *is_stable)
{
  const guint n = mesh->n_cells;

  *box_K = 0.0;
  tl_banded_solve (state->matrix, n, mesh->row, state->source);
  if (!(network->box_W_per_K > 0.0))
    return TRUE;
  double passed = 0.0, returned = 0.0;
  for (guint k = 0; k < mesh->n_skins; k++)
    {
      const TlNetSkin *skin = &mesh->skins[k];

      if (!mesh->in_box[mesh->cells[skin->cell].column])
        continue;
      passed += skin->slope_W_per_K * state->source[skin->cell];
      returned += skin->slope_W_per_K * state->border[skin->cell];
    }
  const double complement = sum->box_slope_W_per_K + returned;
  if (!(complement > 0.0))
    *is_stable = FALSE;
  if (!(fabs (complement) > G_MINDOUBLE))
    return FALSE;
  *box_K = (sum->box_residual_W + passed) / complement;
  for (guint i = 0; i < n; i++)
    state->source[i] -= state->border[i] * *box_K;
  return TRUE;
}

/* Largest change that a step asks for. */
static double
largest_of (const TlNetMesh *mesh, const TlNetState *state, double box_K)
{
  double largest = fabs (box_K);

  for (guint i = 0; i < mesh->n_cells; i++)
    largest = MAX (largest, fabs (state->source[i]));
  return largest;
}

/* Applies the step, shortened where it is long; FALSE if the metal is hotter than any metal. */
static gboolean
take_step (TlNetMesh *mesh, TlNetState *state, double box_K, double largest_K)
{
  if (!isfinite (largest_K))
    return FALSE;
  const double share = largest_K > LARGEST_STEP_K ? LARGEST_STEP_K / largest_K : 1.0;
  double       hottest = COLDEST_C;
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      state->source[i] *= share;
      state->temperature_C[i] = MAX (state->temperature_C[i] + state->source[i], COLDEST_C);
      hottest = MAX (hottest, state->temperature_C[i]);
    }
  state->box_C = MAX (state->box_C + share * box_K, COLDEST_C);
  for (guint k = 0; k < mesh->n_skins; k++)
    mesh->skins[k].surface_C =
        MAX (mesh->skins[k].surface_C
                 + mesh->skins[k].surface_slope * state->source[mesh->skins[k].cell],
             COLDEST_C);
  state->moved_K += share * largest_K;
  return hottest <= HOTTEST_C && state->box_C <= HOTTEST_C;
}

/* Least share by which the cooling of a cell grows faster with its temperature than its heat. */
static double
margin_of (const TlNetMesh *mesh, const TlNetState *state)
{
  double margin = 1.0;

  for (guint k = 0; k < mesh->n_skins; k++)
    {
      const TlNetSkin *skin = &mesh->skins[k];
      const TlNetCell *cell = &mesh->cells[skin->cell];

      if (skin->slope_W_per_K > 0.0)
        margin = MIN (margin, 1.0
                                  - state->square_A2[skin->cell] * cell->ohm_20
                                        * cell->coefficient_per_K / skin->slope_W_per_K);
    }
  return margin;
}

/* Metals and box in balance to the share that is promised. */
static gboolean
is_balanced (const TlNetSum *sum)
{
  const double within_W = BALANCE_SHARE * MAX (sum->heat_W, BALANCE_FLOOR_W);

  return fabs (sum->balance_W) <= within_W && fabs (sum->box_residual_W) <= within_W;
}

gboolean
tl_net_newton (TlNetWorkspace *work, const TlNetwork *network, guint which, const TlNetStage *stage,
               TlNetSum *sum)
{
  TlNetMesh     *mesh = &work->mesh[which];
  TlNetState    *state = &work->state[which];
  const gboolean in_time = stage->per_step_per_s > 0.0;
  const double   still_K = in_time ? STILL_IN_TIME_K : STILL_K;
  double         last_K = G_MAXDOUBLE, before_K = G_MAXDOUBLE, box_K;
  gboolean       is_stable = FALSE, keeps = FALSE;

  for (guint pass = 0; pass < MOST_PASSES; pass++)
    {
      const guint steps = pass == 0 && which == 0 && !in_time ? FIRST_STEPS : 1;

      work->passes++;
      if (!find_potentials (network, mesh, state, stage->current_A,
                            pass > 0 && state->moved_K < SMALL_K))
        return FALSE;
      for (guint m = 0; m < steps; m++)
        {
          /* After a small step the old factors serve, as long as they still make steps shrink fast. */
          keeps = last_K < SMALL_K && (!keeps || last_K < SHRINK * before_K);
          if (m > 0) /* else the potentials have just found them */
            find_ohms (mesh, state);
          evaluate (work, network, which, stage, sum);
          if ((!keeps && !factor_step (network, mesh, state, stage, &is_stable))
              || !solve_step (network, mesh, state, sum, &box_K, &is_stable))
            return FALSE;
          before_K = last_K;
          last_K = largest_of (mesh, state, box_K);
          /* Only the first step after the currents tells that currents and heat agree. A step that would change
           * nothing is not taken, so that all that is read off belongs to the same temperatures. */
          if (m == 0 && last_K < still_K && is_balanced (sum))
            {
              sum->margin = margin_of (mesh, state);
              return is_stable || in_time;
            }
          if (!take_step (mesh, state, box_K, last_K))
            return FALSE;
        }
    }
  return FALSE;
}
