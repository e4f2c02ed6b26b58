/* lead.c: see lead.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lead.h"
#include "network-private.h"
#include <math.h>
#include <string.h>

#define HOTTEST_C 3000.0
#define STILL_K 1e-5
#define MOST_PASSES 60
#define MOST_HALVINGS 80
#define MOST_AIR_PASSES 40
/* Nearer to the far temperature than this the integral is that of a linear fin. */
#define LINEAR_K 1e-4

typedef struct
{
  double value;
  double slope;
} Valued;

static TlNetFilm
film_of (const TlLeadSurface *surface)
{
  return (TlNetFilm){
    .film = surface->perimeter_m * surface->film_constant
            * (surface->film_exponent == 0.25 ? 1.0 / sqrt (sqrt (surface->size_m))
                                              : pow (surface->size_m, -surface->film_exponent)),
    .exponent = surface->film_exponent,
    .radiation = surface->perimeter_m * surface->emissivity * TL_NET_SIGMA,
    .layer_mK_per_W = surface->layer_mK_per_W,
  };
}

/* Loss for each metre at @metal_C. @skin keeps the surface's temperature for the next call. */
static Valued
loss_at (const TlNetFilm *film, TlNetSkin *skin, double metal_C, double air_C)
{
  tl_net_solve_skin (film, skin, metal_C, air_C);
  return (Valued){ skin->loss_W, skin->slope_W_per_K };
}

/* Loss less own heat for each metre: the g of the first integral. */
static Valued
surplus_at (const TlLead *self, const TlNetFilm *film, TlNetSkin *skin, double current_A,
            double metal_C, double air_C)
{
  const double heat_20 = current_A * current_A * self->resistivity_20_ohm_m / self->section_m2;
  Valued       loss = loss_at (film, skin, metal_C, air_C);

  loss.value -= heat_20 * (1.0 + self->coefficient_per_K * (metal_C - 20.0));
  loss.slope -= heat_20 * self->coefficient_per_K;
  return loss;
}

/* The lowest temperature with more loss than heat, by growing steps, then Newton inside the bracket. */
static gboolean
find_far (const TlLead *self, const TlNetFilm *film, double current_A, double air_C, double *far_C)
{
  TlNetSkin skin = { .dx_m = 1.0, .surface_C = air_C };
  double    low_C = air_C, high_C = air_C, step_K = 4.0;
  Valued    g = surplus_at (self, film, &skin, current_A, air_C, air_C);

  if (g.value >= 0.0)
    {
      *far_C = air_C;
      return TRUE;
    }
  do
    {
      low_C = high_C;
      high_C += step_K;
      step_K *= 2.0;
      if (high_C > HOTTEST_C)
        return FALSE;
      g = surplus_at (self, film, &skin, current_A, high_C, air_C);
    }
  while (g.value < 0.0);
  double at_C = high_C;
  for (guint i = 0; i < MOST_HALVINGS && high_C - low_C > STILL_K * 1e-4; i++)
    {
      const double next_C = at_C - g.value / g.slope;
      const double before_C = at_C;

      at_C = g.slope > 0.0 && next_C > low_C && next_C < high_C ? next_C : 0.5 * (low_C + high_C);
      g = surplus_at (self, film, &skin, current_A, at_C, air_C);
      if (g.value < 0.0)
        low_C = at_C;
      else
        high_C = at_C;
      if (fabs (at_C - before_C) < STILL_K * 1e-3)
        break;
    }
  *far_C = at_C;
  return TRUE;
}

gboolean
tl_lead_far (const TlLead *self, double current_A, double air_C, double *far_C)
{
  g_return_val_if_fail (self != NULL && far_C != NULL, FALSE);

  const TlNetFilm film = film_of (&self->surface);
  return find_far (self, &film, current_A, air_C, far_C);
}

/* Points and weights of Gauss and Legendre on [0, 1]. */
static const struct
{
  double at, weight;
} gauss[] = {
  { 0.06943184420297371, 0.17392742256872693 },
  { 0.33000947820757187, 0.32607257743127307 },
  { 0.66999052179242813, 0.32607257743127307 },
  { 0.93056815579702629, 0.17392742256872693 },
};

static double
heat_into (const TlLead *self, const TlNetFilm *film, double current_A, double air_C, double far_C,
           double end_C, double *slope_W_per_K)
{
  const double rise_K = end_C - far_C, carry = self->conductivity_W_per_mK * self->section_m2;
  TlNetSkin    skin = { .dx_m = 1.0, .surface_C = far_C };
  double       integral = 0.0;

  if (fabs (rise_K) < LINEAR_K)
    {
      const Valued g = surplus_at (self, film, &skin, current_A, far_C, air_C);

      *slope_W_per_K = sqrt (MAX (carry * g.slope, 0.0));
      return *slope_W_per_K * rise_K;
    }
  for (guint i = 0; i < G_N_ELEMENTS (gauss); i++)
    integral +=
        gauss[i].weight * rise_K
        * surplus_at (self, film, &skin, current_A, far_C + gauss[i].at * rise_K, air_C).value;
  /* Below 0 the conductor is past its own unstable state: there is no steady flow into it. */
  if (!(integral > 0.0))
    {
      *slope_W_per_K = 0.0;
      return 0.0;
    }
  const double heat = copysign (sqrt (2.0 * carry * integral), rise_K);
  *slope_W_per_K = carry * surplus_at (self, film, &skin, current_A, end_C, air_C).value / heat;
  return heat;
}

double
tl_lead_heat_W (const TlLead *self, double current_A, double air_C, double far_C, double end_C,
                double *slope_W_per_K)
{
  double slope;

  g_return_val_if_fail (self != NULL, 0.0);

  const TlNetFilm film = film_of (&self->surface);
  const double    heat = heat_into (self, &film, current_A, air_C, far_C, end_C, &slope);
  if (slope_W_per_K != NULL)
    *slope_W_per_K = slope;
  return heat;
}

/* --- lumps --- */

/* What is worked out once for all passes. */
typedef struct
{
  const TlLumped *model;
  TlNetFilm       lump_films[TL_LEAD_MAX_LUMPS];
  TlNetFilm       lead_films[TL_LEAD_MAX_LEADS];
  TlNetSkin       skins[TL_LEAD_MAX_LUMPS];
} Work;

/* Gauss elimination of the few lumps; the matrix is diagonally dominant where the state is stable. */
static gboolean
eliminate (double a[TL_LEAD_MAX_LUMPS][TL_LEAD_MAX_LUMPS], double *b, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      if (!(a[i][i] > 0.0))
        return FALSE;
      for (guint r = i + 1; r < n; r++)
        {
          const double factor = a[r][i] / a[i][i];

          for (guint c = i; c < n; c++)
            a[r][c] -= factor * a[i][c];
          b[r] -= factor * b[i];
        }
    }
  for (guint i = n; i-- > 0;)
    {
      for (guint c = i + 1; c < n; c++)
        b[i] -= a[i][c] * b[c];
      b[i] /= a[i][i];
    }
  return TRUE;
}

/* Heats and slopes of all lumps at @result's temperatures. */
static void
balance (Work *work, TlLumpedResult *result, double air_C,
         double a[TL_LEAD_MAX_LUMPS][TL_LEAD_MAX_LUMPS], double *b, double *surface_W)
{
  const TlLumped *model = work->model;

  *surface_W = 0.0;
  for (guint i = 0; i < model->n_lumps; i++)
    {
      const TlLump *lump = &model->lumps[i];
      const double  heat_20 = lump->current_A * lump->current_A * lump->resistance_20_ohm;

      memset (a[i], 0, sizeof (double) * model->n_lumps);
      b[i] = heat_20 * (1.0 + lump->coefficient_per_K * (result->lump_C[i] - 20.0));
      a[i][i] = -heat_20 * lump->coefficient_per_K;
      if (!(lump->surface.perimeter_m > 0.0))
        continue;
      const Valued loss = loss_at (&work->lump_films[i], &work->skins[i], result->lump_C[i], air_C);
      b[i] -= loss.value;
      a[i][i] += loss.slope;
      *surface_W += loss.value;
    }
  for (guint i = 0; i < model->n_leads; i++)
    {
      const TlLumpLead *lead = &model->leads[i];
      double            slope;

      result->lead_W[i] = heat_into (&lead->lead, &work->lead_films[i], lead->current_A, air_C,
                                     result->far_C[i], result->lump_C[lead->lump], &slope);
      b[lead->lump] -= result->lead_W[i];
      a[lead->lump][lead->lump] += slope;
    }
  for (guint i = 0; i < model->n_links; i++)
    {
      const TlLumpLink *link = &model->links[i];
      const double      flow = link->W_per_K * (result->lump_C[link->p] - result->lump_C[link->q]);

      b[link->p] -= flow;
      b[link->q] += flow;
      a[link->p][link->p] += link->W_per_K;
      a[link->q][link->q] += link->W_per_K;
      a[link->p][link->q] -= link->W_per_K;
      a[link->q][link->p] -= link->W_per_K;
    }
}

/* Lumps for an air temperature; @boxed_W is what the box's air receives. */
static gboolean
solve_in_air (Work *work, TlLumpedResult *result, double air_C, gboolean begin, double *boxed_W)
{
  const TlLumped *model = work->model;
  double          a[TL_LEAD_MAX_LUMPS][TL_LEAD_MAX_LUMPS], b[TL_LEAD_MAX_LUMPS];
  double          largest_K = G_MAXDOUBLE, surface_W = 0.0;

  for (guint i = 0; i < model->n_leads; i++)
    {
      const TlLumpLead *lead = &model->leads[i];

      if (!find_far (&lead->lead, &work->lead_films[i], lead->current_A, air_C, &result->far_C[i]))
        return FALSE;
      if (begin)
        result->lump_C[lead->lump] = MAX (result->lump_C[lead->lump], result->far_C[i] + 5.0);
    }
  for (guint pass = 0; largest_K > STILL_K; pass++)
    {
      if (pass == MOST_PASSES)
        return FALSE;
      result->passes++;
      balance (work, result, air_C, a, b, &surface_W);
      if (!eliminate (a, b, model->n_lumps))
        return FALSE;
      largest_K = 0.0;
      for (guint i = 0; i < model->n_lumps; i++)
        {
          const double step_K = CLAMP (b[i], -80.0, 80.0);

          result->lump_C[i] += step_K;
          largest_K = MAX (largest_K, fabs (step_K));
          if (!(result->lump_C[i] < HOTTEST_C) || !(result->lump_C[i] > -TL_NET_KELVIN))
            return FALSE;
        }
    }
  *boxed_W = surface_W;
  for (guint i = 0; i < model->n_leads; i++)
    {
      const TlLumpLead *lead = &model->leads[i];
      const double      ohm_per_m = lead->lead.resistivity_20_ohm_m / lead->lead.section_m2
                               * (1.0 + lead->lead.coefficient_per_K * (result->far_C[i] - 20.0));

      /* A conductor loses all its own heat, and all that the joint sends into it, to the air along it. */
      *boxed_W += lead->boxed_m * lead->current_A * lead->current_A * ohm_per_m + result->lead_W[i];
    }
  return TRUE;
}

gboolean
tl_lumped_solve (const TlLumped *self, TlLumpedResult *result)
{
  Work   work = { .model = self };
  double boxed_W, air_C = self->ambient_C, before_C = air_C, before_gap = 0.0;

  g_return_val_if_fail (self != NULL && result != NULL, FALSE);
  g_return_val_if_fail (self->n_lumps >= 1 && self->n_lumps <= TL_LEAD_MAX_LUMPS, FALSE);
  g_return_val_if_fail (self->n_leads <= TL_LEAD_MAX_LEADS && self->n_links <= TL_LEAD_MAX_LINKS,
                        FALSE);

  *result = (TlLumpedResult){ .box_C = air_C };
  for (guint i = 0; i < self->n_lumps; i++)
    {
      work.lump_films[i] = film_of (&self->lumps[i].surface);
      work.skins[i] = (TlNetSkin){ .dx_m = 1.0, .surface_C = air_C + 5.0 };
      result->lump_C[i] = air_C + 5.0;
    }
  for (guint i = 0; i < self->n_leads; i++)
    work.lead_films[i] = film_of (&self->leads[i].lead.surface);
  /* The air's balance by secants: it answers nearly in proportion. */
  for (guint pass = 0; pass < MOST_AIR_PASSES; pass++)
    {
      if (!solve_in_air (&work, result, air_C, pass == 0, &boxed_W))
        return FALSE;
      result->box_C = air_C;
      if (!(self->box_W_per_K > 0.0))
        return TRUE;
      const double gap =
          self->ambient_C + (boxed_W + self->box_extra_W) / self->box_W_per_K - air_C;
      if (fabs (gap) < 1e-3)
        return TRUE;
      const double slope = pass == 0 ? -1.0 : (gap - before_gap) / (air_C - before_C);
      before_C = air_C;
      before_gap = gap;
      air_C -= gap / MIN (slope, -0.05);
      if (!(air_C < HOTTEST_C))
        return FALSE;
    }
  return FALSE;
}
