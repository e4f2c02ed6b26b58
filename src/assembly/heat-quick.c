/* heat-quick.c: the quick answer of a heat model: the joint as one lump between two long conductors.
 *
 * For previews while a part is dragged. The contacts are lumped by Kirchhoff's laws with each line as one node, and the
 * bodies inside the joint add the resistance of their length; the conductors outside follow exactly.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"
#include "physics/lead.h"

#include <math.h>

/* Resistance of the contacts between the lines @a and @b: nodal equations with b at zero, one ampere into a. */
static gboolean
contacts_ohm (const TlHeatModel *self, guint a, guint b, double *ohm)
{
  double g[TL_HEAT_MAX_LINES][TL_HEAT_MAX_LINES + 1] = { { 0.0 } };
  guint  n = self->network.n_bodies;

  for (guint i = 0; i < self->network.n_interfaces; i++)
    {
      const TlNetInterface *face = &self->interfaces[i];
      double                s = 1.0 / (face->resistance_20_ohm * self->resistance_ratio);

      g[face->p][face->p] += s;
      g[face->q][face->q] += s;
      g[face->p][face->q] -= s;
      g[face->q][face->p] -= s;
    }
  for (guint k = 0; k < n; k++)
    g[b][k] = 0.0;
  g[b][b] = 1.0;
  g[a][TL_HEAT_MAX_LINES] = 1.0;
  /* Diagonally dominant: no pivoting. */
  for (guint k = 0; k < n; k++)
    {
      if (g[k][k] <= 0.0)
        return FALSE;
      for (guint i = k + 1; i < n; i++)
        {
          double factor = g[i][k] / g[k][k];

          for (guint j = k; factor != 0.0 && j < n; j++)
            g[i][j] -= factor * g[k][j];
          g[i][TL_HEAT_MAX_LINES] -= factor * g[k][TL_HEAT_MAX_LINES];
        }
    }
  for (guint k = n; k-- > 0;)
    {
      for (guint j = k + 1; j < n; j++)
        g[k][TL_HEAT_MAX_LINES] -= g[k][j] * g[j][TL_HEAT_MAX_LINES];
      g[k][TL_HEAT_MAX_LINES] /= g[k][k];
    }
  *ohm = g[a][TL_HEAT_MAX_LINES];
  return isfinite (*ohm) && *ohm >= 0.0;
}

static TlLeadSurface
surface_of (const TlNetZone *zone)
{
  return (TlLeadSurface){ zone->perimeter_m,   zone->size_m,        zone->layer_mK_per_W,
                          zone->film_constant, zone->film_exponent, zone->emissivity };
}

/* The longest surface of a line is that of its lead. */
static const TlNetZone *
lead_zone (const TlHeatModel *self, guint line)
{
  const TlNetZone *longest = NULL;

  for (guint i = 0; i < self->network.n_zones; i++)
    if (self->zones[i].body == line
        && (longest == NULL
            || self->zones[i].x1_m - self->zones[i].x0_m > longest->x1_m - longest->x0_m))
      longest = &self->zones[i];
  return longest;
}

static gboolean
add_lead (const TlHeatModel *self, TlLumped *lumped, guint line)
{
  const TlNetBody *body = &self->bodies[line];
  const TlNetZone *zone = lead_zone (self, line);
  TlLumpLead      *lead = &lumped->leads[lumped->n_leads++];

  if (zone == NULL)
    return FALSE;
  *lead =
      (TlLumpLead){ .lead = { body->section_m2, body->resistivity_20_ohm_m, body->coefficient_per_K,
                              body->conductivity_W_per_mK, surface_of (zone) },
                    .lump = 0,
                    .current_A = self->load_A,
                    .boxed_m = (self->network.box_x1_m - self->network.box_x0_m) / 2.0 };
  return TRUE;
}

/* Surfaces inside the joint, together: the largest gives the law, the area is that of all. */
static TlLeadSurface
joint_surface (const TlHeatModel *self)
{
  TlLeadSurface surface = { 0 };
  double        area = 0.0, largest = 0.0;

  for (guint i = 0; i < self->network.n_zones; i++)
    {
      const TlNetZone *zone = &self->zones[i];
      double           x0 = MAX (zone->x0_m, self->network.joint_x0_m),
             x1 = MIN (zone->x1_m, self->network.joint_x1_m);
      double own = zone->perimeter_m * MAX (x1 - x0, 0.0);

      area += own;
      if (own > largest)
        {
          largest = own;
          surface = surface_of (zone);
        }
    }
  surface.perimeter_m = area;
  /* The layer of the largest, for the whole area. */
  surface.layer_mK_per_W = 0.0;
  return surface;
}

gboolean
tl_heat_model_quick (const TlHeatModel *self, double *hot_C)
{
  const TlNetBody *a = &self->bodies[self->network.body_a],
                  *b = &self->bodies[self->network.body_b];
  double         half_m = (self->network.joint_x1_m - self->network.joint_x0_m) / 2.0, contacts;
  TlLumpedResult result;
  TlLumped       lumped = { .n_lumps = 1,
                            .ambient_C = self->network.ambient_C,
                            .box_W_per_K = self->network.box_W_per_K,
                            .box_extra_W = self->network.box_extra_W };

  if (!contacts_ohm (self, self->network.body_a, self->network.body_b, &contacts))
    return FALSE;
  lumped.lumps[0] =
      (TlLump){ .resistance_20_ohm = contacts
                                     + half_m
                                           * (a->resistivity_20_ohm_m / a->section_m2
                                              + b->resistivity_20_ohm_m / b->section_m2),
                .coefficient_per_K = a->coefficient_per_K,
                .current_A = self->load_A,
                .surface = joint_surface (self) };
  if (!add_lead (self, &lumped, self->network.body_a)
      || !add_lead (self, &lumped, self->network.body_b) || !tl_lumped_solve (&lumped, &result))
    return FALSE;
  *hot_C = result.lump_C[0];
  return TRUE;
}
