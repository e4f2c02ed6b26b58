/* distance.c: metal pairs of a stack that are apart but near enough to bridge.
 *
 * Distance is that of a straight line through free space: a thin washer that covers both its neighbours keeps
 * them apart, one that ends short of them does not. Bodies of a stack are round about the bolt or reach away
 * from it, so lines are looked for in half planes through the axis: every 30 degrees and along each lead. Two
 * leads are measured against each other in space. Insulation stands in the way like metal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"
#include "assembly/free-line.h"

#include <math.h>

#define STEP_DEG 30
#define MAX_PLANES (360 / STEP_DEG + TL_MAX_LEGS)
#define SHAPES_A_BODY 3

typedef struct
{
  TlAssembly *assembly;
  double      bridge_mm;
  double      planes[MAX_PLANES]; /* degrees */
  guint       n_planes;
  GArray     *shapes[MAX_PLANES]; /* (element-type TlShape), made when first wanted */
} Planes;

typedef struct
{
  double distance_mm;
  double rim_mm;
  double x_mm, z_mm;
} Nearest;

static double
turned (double degrees)
{
  double rest = fmod (degrees, 360.0);

  return rest < 0.0 ? rest + 360.0 : rest;
}

static gboolean
is_in_plane (double direction_deg, double plane_deg)
{
  double away = turned (direction_deg - plane_deg);

  return away < 1e-6 || away > 360.0 - 1e-6;
}

/* Radius at which a half plane leaves a circle of radius @radius whose centre lies @offset on the x axis. */
static double
radius_in_plane (double radius, double offset, double plane_deg)
{
  double angle = plane_deg * G_PI / 180.0, square = offset * sin (angle);

  if (radius <= 0.0)
    return 0.0;
  return MAX (0.0, offset * cos (angle) + sqrt (MAX (0.0, radius * radius - square * square)));
}

static double
hexagon_radius (double across_flats, double plane_deg)
{
  return across_flats / 2.0 / cos ((fmod (turned (plane_deg), 60.0) - 30.0) * G_PI / 180.0);
}

/* How far a flat tang reaches in a plane: its round end, and the strip towards the lead. */
static double
plate_radius (const TlSolid *solid, double plane_deg)
{
  double away = turned (plane_deg - solid->direction_deg) * G_PI / 180.0;
  double along = cos (away), across = fabs (sin (away)), radius = solid->outer_mm / 2.0;

  if (along <= 1e-9)
    return radius;
  return MAX (radius, MIN (solid->length_mm / along,
                           across > 1e-9 ? radius / across : solid->length_mm / along));
}

static gboolean
shape_of (const TlSolid *solid, double plane_deg, TlShape *shape)
{
  double half = solid->outer_mm / 2.0;

  shape->is_disc = FALSE;
  shape->z0 = solid->start_mm;
  shape->z1 = solid->end_mm;
  shape->r0 = 0.0;
  switch (solid->kind)
    {
    case TL_SOLID_TUBE:
      shape->r0 = radius_in_plane (solid->inner_mm / 2.0, solid->u_mm, plane_deg);
      shape->r1 = radius_in_plane (half, solid->u_mm, plane_deg);
      return TRUE;
    case TL_SOLID_HEX:
      shape->r0 = solid->inner_mm / 2.0;
      shape->r1 = hexagon_radius (solid->outer_mm, plane_deg);
      return TRUE;
    case TL_SOLID_EYE:
      if (turned (plane_deg - solid->arc_start_deg) > 360.0 * solid->turn_ratio + 1e-6
          && turned (plane_deg - solid->arc_start_deg) < 360.0 - 1e-6)
        return FALSE;
      shape->is_disc = TRUE;
      shape->r0 = solid->inner_mm / 2.0;
      shape->r1 = half;
      return TRUE;
    case TL_SOLID_ROD:
      if (!is_in_plane (solid->direction_deg, plane_deg))
        return FALSE;
      shape->r0 = hypot (solid->x0_mm, solid->y0_mm);
      shape->r1 = hypot (solid->x1_mm, solid->y1_mm);
      shape->z0 = solid->z0_mm - half;
      shape->z1 = solid->z0_mm + half;
      return TRUE;
    case TL_SOLID_PLATE:
      shape->r0 = solid->inner_mm / 2.0;
      shape->r1 = plate_radius (solid, plane_deg);
      return TRUE;
    default:
      return FALSE;
    }
}

static const GArray *
plane_shapes (Planes *planes, guint plane)
{
  const GPtrArray *bodies = planes->assembly->bodies;

  if (planes->shapes[plane] != NULL)
    return planes->shapes[plane];
  planes->shapes[plane]
      = g_array_sized_new (FALSE, FALSE, sizeof (TlShape), bodies->len * SHAPES_A_BODY);
  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody *body = bodies->pdata[i];

      if (!body->is_metal && body->role != TL_BODY_INSULATION)
        continue;
      for (guint k = 0; k < body->solids->len; k++)
        {
          TlShape shape = { .body = i };

          if (shape_of (&g_array_index (body->solids, TlSolid, k), planes->planes[plane], &shape))
            g_array_append_val (planes->shapes[plane], shape);
        }
    }
  return planes->shapes[plane];
}

static void
choose_planes (Planes *planes)
{
  const GPtrArray *bodies = planes->assembly->bodies;

  for (guint degrees = 0; degrees < 360; degrees += STEP_DEG)
    planes->planes[planes->n_planes++] = degrees;
  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody *body = bodies->pdata[i];
      const TlSolid *solid
          = body->solids->len > 0 ? &g_array_index (body->solids, TlSolid, 0) : NULL;
      gboolean is_new = solid != NULL && (body->role == TL_BODY_EYE || body->role == TL_BODY_TANG);

      for (guint k = 0; k < planes->n_planes && is_new; k++)
        is_new = !is_in_plane (solid->direction_deg, planes->planes[k]);
      if (is_new && planes->n_planes < MAX_PLANES)
        planes->planes[planes->n_planes++] = turned (solid->direction_deg);
    }
}

static void
nearest_in_plane (Planes *planes, guint plane, guint a, guint b, Nearest *nearest)
{
  const GArray *shapes = plane_shapes (planes, plane);
  double angle = planes->planes[plane] * G_PI / 180.0;

  for (guint i = 0; i < shapes->len; i++)
    {
      const TlShape *first = &g_array_index (shapes, TlShape, i);

      for (guint k = 0; first->body == a && k < shapes->len; k++)
        {
          const TlShape *second = &g_array_index (shapes, TlShape, k);
          TlPoint from, to;
          double distance;

          if (second->body != b)
            continue;
          distance = tl_free_line (first, second, (const TlShape *)(gpointer)shapes->data,
                                   shapes->len, nearest->distance_mm, &from, &to);
          if (distance >= nearest->distance_mm)
            continue;
          nearest->distance_mm = distance;
          nearest->x_mm = (from.r + to.r) / 2.0 * cos (angle);
          nearest->z_mm = (from.z + to.z) / 2.0;
          nearest->rim_mm = G_PI * (from.r + to.r);
        }
    }
}

/* --- two leads in space --- */

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

/* Share of the way along @rod that lies nearest to @p. */
static double
foot (const TlSolid *rod, Point3 p)
{
  double x = rod->x1_mm - rod->x0_mm, y = rod->y1_mm - rod->y0_mm, z = rod->z1_mm - rod->z0_mm;
  double square = x * x + y * y + z * z;

  if (square <= 0.0)
    return 0.0;
  return CLAMP (((p.x - rod->x0_mm) * x + (p.y - rod->y0_mm) * y + (p.z - rod->z0_mm) * z) / square,
                0.0, 1.0);
}

static double
axis_distance (const TlSolid *a, const TlSolid *b, Point3 *p, Point3 *q)
{
  double best = G_MAXDOUBLE;

  /* Alternating feet from both ends and the middle: the distance of two straight lines is convex. */
  for (guint start = 0; start < 3; start++)
    {
      Point3 on_a = along (a, start / 2.0), on_b = on_a;

      for (guint i = 0; i < 80; i++)
        {
          on_b = along (b, foot (b, on_a));
          on_a = along (a, foot (a, on_b));
        }
      if (hypot (hypot (on_a.x - on_b.x, on_a.y - on_b.y), on_a.z - on_b.z) < best)
        {
          best = hypot (hypot (on_a.x - on_b.x, on_a.y - on_b.y), on_a.z - on_b.z);
          *p = on_a;
          *q = on_b;
        }
    }
  return best;
}

/* A washer or insulation between two leads keeps them apart: the line is looked at where it passes its height. */
static gboolean
is_parted (const TlAssembly *self, Point3 p, Point3 q, guint a, guint b)
{
  for (guint i = 0; i < self->bodies->len; i++)
    {
      const TlBody *body = self->bodies->pdata[i];

      for (guint k = 0; i != a && i != b && k < body->solids->len; k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);
          double middle = (solid->start_mm + solid->end_mm) / 2.0;
          double share = fabs (q.z - p.z) > 1e-9 ? (middle - p.z) / (q.z - p.z) : -1.0;
          double away = hypot (p.x + share * (q.x - p.x) - solid->u_mm, p.y + share * (q.y - p.y));

          if ((solid->kind == TL_SOLID_TUBE || solid->kind == TL_SOLID_PLATE) && share > 0.0
              && share < 1.0 && away < solid->outer_mm / 2.0 && away > solid->inner_mm / 2.0)
            return TRUE;
        }
    }
  return FALSE;
}

static void
nearest_leads (const Planes *planes, guint a, guint b, Nearest *nearest)
{
  const TlBody *first = planes->assembly->bodies->pdata[a];
  const TlBody *second = planes->assembly->bodies->pdata[b];

  for (guint i = 0; i < first->solids->len; i++)
    for (guint k = 0; k < second->solids->len; k++)
      {
        const TlSolid *rod = &g_array_index (first->solids, TlSolid, i);
        const TlSolid *other = &g_array_index (second->solids, TlSolid, k);
        Point3 p, q;
        double distance;

        if (rod->kind != TL_SOLID_ROD || other->kind != TL_SOLID_ROD
            || is_in_plane (rod->direction_deg, other->direction_deg)
            || fabs (rod->z0_mm - other->z0_mm)
                   >= nearest->distance_mm + (rod->outer_mm + other->outer_mm) / 2.0)
          continue;
        distance = MAX (0.0, axis_distance (rod, other, &p, &q)
                                 - (rod->outer_mm + other->outer_mm) / 2.0);
        if (distance >= nearest->distance_mm || is_parted (planes->assembly, p, q, a, b))
          continue;
        nearest->distance_mm = distance;
        nearest->x_mm = (p.x + q.x) / 2.0;
        nearest->z_mm = (p.z + q.z) / 2.0;
        nearest->rim_mm = G_PI * MIN (rod->outer_mm, other->outer_mm);
      }
}

/* --- pairs --- */

static void
extent (const TlBody *body, double *top, double *bottom)
{
  *top = G_MAXDOUBLE;
  *bottom = -G_MAXDOUBLE;
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *solid = &g_array_index (body->solids, TlSolid, i);
      gboolean is_rod = solid->kind == TL_SOLID_ROD;

      *top = MIN (*top, is_rod ? solid->z0_mm - solid->outer_mm / 2.0 : solid->start_mm);
      *bottom = MAX (*bottom, is_rod ? solid->z0_mm + solid->outer_mm / 2.0 : solid->end_mm);
    }
}

static gboolean
is_worth_a_look (const Planes *planes, guint a, guint b)
{
  const TlBody *first = planes->assembly->bodies->pdata[a];
  const TlBody *second = planes->assembly->bodies->pdata[b];
  double top_a, bottom_a, top_b, bottom_b;

  if (!first->is_metal || !second->is_metal || g_str_equal (first->owner, second->owner))
    return FALSE;
  extent (first, &top_a, &bottom_a);
  extent (second, &top_b, &bottom_b);
  return MAX (top_a - bottom_b, top_b - bottom_a) < planes->bridge_mm
         && !tl_assembly_has_contact (planes->assembly, a, b);
}

void
tl_stack_bridges (TlStackBuild *build, double bridge_mm)
{
  TlAssembly *self = build->assembly;
  Planes planes = { .assembly = self, .bridge_mm = bridge_mm };
  guint count = self->bodies->len;

  if (bridge_mm <= 0.0)
    return;
  choose_planes (&planes);
  for (guint a = 0; a < count; a++)
    for (guint b = a + 1; b < count; b++)
      {
        Nearest nearest = { .distance_mm = bridge_mm };
        TlContact *contact;

        if (!is_worth_a_look (&planes, a, b))
          continue;
        for (guint plane = 0; plane < planes.n_planes && nearest.distance_mm > 0.0; plane++)
          nearest_in_plane (&planes, plane, a, b, &nearest);
        nearest_leads (&planes, a, b, &nearest);
        if (nearest.distance_mm >= bridge_mm)
          continue;
        contact = tl_assembly_add_contact (self, a, b,
                                           nearest.distance_mm <= TL_SAME_PLACE_MM
                                               ? TL_CONTACT_TOUCHING
                                               : TL_CONTACT_MAY_BRIDGE);
        contact->distance_mm
            = nearest.distance_mm <= TL_SAME_PLACE_MM ? 0.0 : nearest.distance_mm;
        contact->rim_mm = nearest.rim_mm;
        contact->at_x_mm = nearest.x_mm;
        contact->at_z_mm = nearest.z_mm;
      }
  for (guint plane = 0; plane < planes.n_planes; plane++)
    g_clear_pointer (&planes.shapes[plane], g_array_unref);
}
