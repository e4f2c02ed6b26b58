/* solid-gap.c: the shortest free straight line between two convex solids among others.
 *
 * Rods and boxes are convex: projecting a point from one to the other and back ends at their nearest points. Where a
 * third body stands in the way, the longer of the two is tried slice by slice along x.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/terminal-private.h"

#include <math.h>

#define PASSES 400
#define SETTLED_MM 1e-10
#define STEPS_ON_LINE 24
#define GRAZE_MM 1e-4
#define SLICE_MM 0.1
#define MAX_SLICES 400
#define RIM_POINTS 72

typedef struct
{
  double x, y, z;
} Point;

static double
apart (Point p, Point q)
{
  return sqrt ((p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y) + (p.z - q.z) * (p.z - q.z));
}

/* Rods from tubes along x or from ends anywhere; FALSE for a box. */
static gboolean
axis_of (const TlSolid *solid, Point *from, Point *to)
{
  if (solid->kind == TL_SOLID_TUBE)
    {
      *from = (Point){ solid->start_mm, solid->u_mm, solid->v_mm };
      *to = (Point){ solid->end_mm, solid->u_mm, solid->v_mm };
      return TRUE;
    }
  if (solid->kind != TL_SOLID_ROD)
    return FALSE;
  *from = (Point){ solid->x0_mm, solid->y0_mm, solid->z0_mm };
  *to = (Point){ solid->x1_mm, solid->y1_mm, solid->z1_mm };
  return TRUE;
}

/* Nearest point of a solid, taken as filled. */
static Point
onto (const TlSolid *solid, Point p)
{
  Point  from, to, foot, way;
  double length, share, off, radius = solid->outer_mm / 2.0;

  if (!axis_of (solid, &from, &to))
    return (Point){ CLAMP (p.x, solid->start_mm, solid->end_mm),
                    CLAMP (p.y, solid->u_mm - solid->inner_mm / 2.0,
                           solid->u_mm + solid->inner_mm / 2.0),
                    CLAMP (p.z, solid->v_mm - radius, solid->v_mm + radius) };
  length = apart (from, to);
  if (length <= 0.0)
    return from;
  way = (Point){ (to.x - from.x) / length, (to.y - from.y) / length, (to.z - from.z) / length };
  share = (p.x - from.x) * way.x + (p.y - from.y) * way.y + (p.z - from.z) * way.z;
  foot = (Point){ from.x + share * way.x, from.y + share * way.y, from.z + share * way.z };
  off = apart (foot, p);
  share = CLAMP (share, 0.0, length);
  if (off > radius)
    {
      double keep = radius / off;

      return (Point){ from.x + share * way.x + keep * (p.x - foot.x),
                      from.y + share * way.y + keep * (p.y - foot.y),
                      from.z + share * way.z + keep * (p.z - foot.z) };
    }
  return (Point){ from.x + share * way.x + p.x - foot.x, from.y + share * way.y + p.y - foot.y,
                  from.z + share * way.z + p.z - foot.z };
}

static double
nearest (const TlSolid *a, const TlSolid *b, Point *p, Point *q)
{
  Point  from, to;
  double before = G_MAXDOUBLE;

  if (axis_of (a, &from, &to))
    *p = (Point){ (from.x + to.x) / 2.0, (from.y + to.y) / 2.0, (from.z + to.z) / 2.0 };
  else
    *p = (Point){ (a->start_mm + a->end_mm) / 2.0, a->u_mm, a->v_mm };
  *q = onto (b, *p);
  for (guint i = 0; i < PASSES; i++)
    {
      double now;

      *p = onto (a, *q);
      *q = onto (b, *p);
      now = apart (*p, *q);
      if (before - now < SETTLED_MM)
        break;
      before = now;
    }
  return apart (*p, *q);
}

/* --- what stands between --- */

static gboolean
holds (const TlSolid *solid, Point p)
{
  Point  from, to;
  double radius = solid->outer_mm / 2.0 - GRAZE_MM, inner = solid->inner_mm / 2.0 + GRAZE_MM,
         length, share, off;

  if (!axis_of (solid, &from, &to))
    return p.x > solid->start_mm + GRAZE_MM && p.x < solid->end_mm - GRAZE_MM
           && fabs (p.y - solid->u_mm) < solid->inner_mm / 2.0 - GRAZE_MM
           && fabs (p.z - solid->v_mm) < radius
           && hypot (p.y - solid->u_mm, p.z - solid->v_mm)
                  > solid->bore_mm / 2.0 + (solid->bore_mm > 0.0 ? GRAZE_MM : -1.0);
  length = apart (from, to);
  if (length <= 0.0)
    return FALSE;
  share = ((p.x - from.x) * (to.x - from.x) + (p.y - from.y) * (to.y - from.y)
           + (p.z - from.z) * (to.z - from.z))
          / length;
  off = sqrt (MAX (0.0, apart (p, from) * apart (p, from) - share * share));
  return share > GRAZE_MM && share < length - GRAZE_MM && off < radius
         && (solid->inner_mm <= 0.0 || off > inner);
}

/* FALSE if no point of the line can lie in the solid: one look at their boxes. */
static gboolean
may_cut (const TlSolid *solid, Point p, Point q)
{
  Point  from, to;
  double radius = solid->outer_mm / 2.0;

  if (!axis_of (solid, &from, &to))
    return MAX (p.x, q.x) > solid->start_mm && MIN (p.x, q.x) < solid->end_mm
           && MAX (p.y, q.y) > solid->u_mm - solid->inner_mm / 2.0
           && MIN (p.y, q.y) < solid->u_mm + solid->inner_mm / 2.0
           && MAX (p.z, q.z) > solid->v_mm - radius && MIN (p.z, q.z) < solid->v_mm + radius;
  return MAX (p.x, q.x) > MIN (from.x, to.x) - radius
         && MIN (p.x, q.x) < MAX (from.x, to.x) + radius
         && MAX (p.y, q.y) > MIN (from.y, to.y) - radius
         && MIN (p.y, q.y) < MAX (from.y, to.y) + radius
         && MAX (p.z, q.z) > MIN (from.z, to.z) - radius
         && MIN (p.z, q.z) < MAX (from.z, to.z) + radius;
}

static gboolean
stands_in_way (const TlBody *body)
{
  return body->is_metal || body->role == TL_BODY_INSULATION || body->role == TL_BODY_HOUSING;
}

static gboolean
cuts (const TlSolid *solid, Point p, Point q)
{
  if (!may_cut (solid, p, q))
    return FALSE;
  for (guint step = 1; step < STEPS_ON_LINE; step++)
    {
      double share = (double) step / STEPS_ON_LINE;

      if (holds (solid, (Point){ p.x + share * (q.x - p.x), p.y + share * (q.y - p.y),
                                 p.z + share * (q.z - p.z) }))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_free (const TlAssembly *self, guint a, guint b, Point p, Point q)
{
  for (guint i = 0; i < self->bodies->len; i++)
    {
      const TlBody *body = self->bodies->pdata[i];

      if (i == a || i == b || !stands_in_way (body))
        continue;
      for (guint k = 0; k < body->solids->len; k++)
        if (cuts (&g_array_index (body->solids, TlSolid, k), p, q))
          return FALSE;
    }
  return TRUE;
}

static void
keep (TlSolidGap *gap, Point p, Point q)
{
  *gap = (TlSolidGap){ apart (p, q), (p.x + q.x) / 2.0, (p.y + q.y) / 2.0, (p.z + q.z) / 2.0 };
}

/* Slice by slice along a rod on x, from the nearest point of each and from all round its rim. */
static void
try_slices (const TlAssembly *self, guint a, const TlSolid *rod, guint b, const TlSolid *other,
            TlSolidGap *gap)
{
  double from = rod->start_mm, to = rod->end_mm;
  guint  slices = (guint) CLAMP ((to - from) / SLICE_MM, 1.0, MAX_SLICES);

  for (guint i = 0; i <= slices; i++)
    {
      double  x = from + (to - from) * i / slices;
      TlSolid slice = { .kind = TL_SOLID_ROD,
                        .outer_mm = rod->outer_mm,
                        .x0_mm = x - 1e-6,
                        .x1_mm = x + 1e-6,
                        .y0_mm = rod->u_mm,
                        .y1_mm = rod->u_mm,
                        .z0_mm = rod->v_mm,
                        .z1_mm = rod->v_mm };
      Point   p, q;

      if (nearest (&slice, other, &p, &q) >= gap->distance_mm)
        continue;
      if (is_free (self, a, b, p, q))
        keep (gap, p, q);
      for (guint k = 0; k < RIM_POINTS; k++)
        {
          double angle = 2.0 * G_PI * k / RIM_POINTS;

          p = (Point){ x, rod->u_mm + rod->outer_mm / 2.0 * cos (angle),
                       rod->v_mm + rod->outer_mm / 2.0 * sin (angle) };
          q = onto (other, p);
          if (apart (p, q) < gap->distance_mm && is_free (self, a, b, p, q))
            keep (gap, p, q);
        }
    }
}

TlSolidGap
tl_solid_gap (const TlAssembly *self, guint a, const TlSolid *of_a, guint b, const TlSolid *of_b,
              double limit_mm)
{
  TlSolidGap gap = { .distance_mm = limit_mm };
  Point      p, q;

  if (nearest (of_a, of_b, &p, &q) >= limit_mm)
    return gap;
  if (apart (p, q) <= TL_SAME_PLACE_MM || is_free (self, a, b, p, q))
    {
      keep (&gap, p, q);
      return gap;
    }
  if (of_a->kind == TL_SOLID_TUBE)
    try_slices (self, a, of_a, b, of_b, &gap);
  if (of_b->kind == TL_SOLID_TUBE)
    try_slices (self, b, of_b, a, of_a, &gap);
  return gap;
}
