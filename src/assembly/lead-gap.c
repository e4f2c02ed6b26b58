/* lead-gap.c: two leads of a stack that leave it in different directions, measured against each other in space.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/gap.h"

#include <math.h>

#define MAX_PROJECTIONS 2000
#define LINE_STEPS 12
#define NEAR_GRAZE_MM 1e-3

typedef struct
{
  double x, y, z;
} Point3;

static Point3
along (const TlSolid *rod, double share)
{
  return (Point3){ rod->x0_mm + share * (rod->x1_mm - rod->x0_mm),
                   rod->y0_mm + share * (rod->y1_mm - rod->y0_mm),
                   rod->z0_mm + share * (rod->z1_mm - rod->z0_mm) };
}

/* TlGap point to @p of a straight rod with flat ends. */
static Point3
onto_rod (const TlSolid *rod, Point3 p)
{
  Point3 way = { rod->x1_mm - rod->x0_mm, rod->y1_mm - rod->y0_mm, rod->z1_mm - rod->z0_mm };
  double square = way.x * way.x + way.y * way.y + way.z * way.z, share, off, scale;
  Point3 foot;

  if (square <= 0.0)
    return along (rod, 0.0);
  share = ((p.x - rod->x0_mm) * way.x + (p.y - rod->y0_mm) * way.y + (p.z - rod->z0_mm) * way.z)
          / square;
  foot = along (rod, share);
  off = hypot (hypot (p.x - foot.x, p.y - foot.y), p.z - foot.z);
  scale = off > rod->outer_mm / 2.0 ? rod->outer_mm / 2.0 / off : 1.0;
  share = CLAMP (share, 0.0, 1.0) - share;
  return (Point3){ foot.x + scale * (p.x - foot.x) + share * way.x,
                   foot.y + scale * (p.y - foot.y) + share * way.y,
                   foot.z + scale * (p.z - foot.z) + share * way.z };
}

/* TlGap point to @p of the strip by which a tang reaches its barrel. */
static Point3
onto_strip (const TlSolid *plate, Point3 p)
{
  double angle = plate->direction_deg * G_PI / 180.0, x = cos (angle), y = sin (angle);
  double length = CLAMP (p.x * x + p.y * y, plate->inner_mm / 2.0, plate->length_mm);
  double side = CLAMP (p.y * x - p.x * y, -plate->outer_mm / 2.0, plate->outer_mm / 2.0);

  return (Point3){ length * x - side * y, length * y + side * x,
                   CLAMP (p.z, plate->start_mm, plate->end_mm) };
}

static Point3
onto_lead (const TlSolid *lead, Point3 p)
{
  return lead->kind == TL_SOLID_ROD ? onto_rod (lead, p) : onto_strip (lead, p);
}

/* Rods and strips are convex: going to and fro between the nearest points of both ends at the shortest line. */
static double
lead_distance (const TlSolid *a, const TlSolid *b, Point3 *p, Point3 *q)
{
  double last = G_MAXDOUBLE, now = G_MAXDOUBLE;

  *p = onto_lead (a, (Point3){ b->x1_mm, b->y1_mm, b->z1_mm });
  for (guint i = 0; i < MAX_PROJECTIONS; i++)
    {
      *q = onto_lead (b, *p);
      *p = onto_lead (a, *q);
      now = hypot (hypot (p->x - q->x, p->y - q->y), p->z - q->z);
      if (last - now < 1e-9)
        break;
      last = now;
    }
  return now;
}

/* TRUE if @p lies inside @solid by more than a graze. */
static gboolean
holds (const TlSolid *solid, Point3 p)
{
  double r = hypot (p.x - solid->u_mm, p.y - solid->v_mm), graze = NEAR_GRAZE_MM;
  Point3 nearest;

  if (solid->kind == TL_SOLID_ROD)
    {
      TlSolid thinner = *solid;
      double  off;

      thinner.outer_mm = solid->inner_mm;
      nearest = onto_rod (&thinner, p);
      off = hypot (hypot (p.x - nearest.x, p.y - nearest.y), p.z - nearest.z);
      nearest = onto_rod (solid, p);
      return (solid->inner_mm <= 0.0 || off > graze)
             && hypot (hypot (p.x - nearest.x, p.y - nearest.y), p.z - nearest.z) < graze / 100.0;
    }
  if (p.z < solid->start_mm + graze || p.z > solid->end_mm - graze)
    return FALSE;
  if (solid->kind == TL_SOLID_PLATE)
    {
      nearest = onto_strip (solid, p);
      return r > solid->inner_mm / 2.0
             && (r < solid->outer_mm / 2.0 - graze
                 || hypot (p.x - nearest.x, p.y - nearest.y) < graze / 100.0);
    }
  return solid->kind == TL_SOLID_TUBE && r > solid->inner_mm / 2.0
         && r < solid->outer_mm / 2.0 - graze;
}

/* A washer, another lead or insulation between two leads keeps them apart. */
static gboolean
is_parted (const TlAssembly *self, Point3 p, Point3 q, guint a, guint b)
{
  for (guint i = 0; i < self->bodies->len; i++)
    {
      const TlBody *body = self->bodies->pdata[i];

      if (i == a || i == b || (!body->is_metal && body->role != TL_BODY_INSULATION))
        continue;
      for (guint k = 0; k < body->solids->len; k++)
        for (guint step = 1; step < LINE_STEPS; step++)
          {
            double share = (double) step / LINE_STEPS;

            if (holds (&g_array_index (body->solids, TlSolid, k),
                       (Point3){ p.x + share * (q.x - p.x), p.y + share * (q.y - p.y),
                                 p.z + share * (q.z - p.z) }))
              return TRUE;
          }
    }
  return FALSE;
}

static gboolean
is_lead (const TlSolid *solid)
{
  return solid->kind == TL_SOLID_ROD || solid->kind == TL_SOLID_PLATE;
}

static double
middle_z (const TlSolid *lead)
{
  return lead->kind == TL_SOLID_ROD ? lead->z0_mm : (lead->start_mm + lead->end_mm) / 2.0;
}

static double
half_height (const TlSolid *lead)
{
  return lead->kind == TL_SOLID_ROD ? lead->outer_mm / 2.0 : (lead->end_mm - lead->start_mm) / 2.0;
}

void
tl_gap_of_leads (const TlAssembly *self, guint a, guint b, TlGap *nearest)
{
  const TlBody *first = self->bodies->pdata[a];
  const TlBody *second = self->bodies->pdata[b];

  for (guint i = 0; i < first->solids->len; i++)
    for (guint k = 0; k < second->solids->len; k++)
      {
        const TlSolid *lead = &g_array_index (first->solids, TlSolid, i);
        const TlSolid *other = &g_array_index (second->solids, TlSolid, k);
        Point3         p, q;
        double         distance;

        if (!is_lead (lead) || !is_lead (other)
            || tl_gap_is_along (lead->direction_deg, other->direction_deg)
            || fabs (middle_z (lead) - middle_z (other))
                   >= nearest->distance_mm + half_height (lead) + half_height (other))
          continue;
        distance = lead_distance (lead, other, &p, &q);
        if (distance >= nearest->distance_mm || is_parted (self, p, q, a, b))
          continue;
        nearest->distance_mm = distance;
        nearest->x_mm = (p.x + q.x) / 2.0;
        nearest->z_mm = (p.z + q.z) / 2.0;
        nearest->rim_mm = G_PI * MIN (lead->outer_mm, other->outer_mm);
      }
}
