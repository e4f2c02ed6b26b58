/* distance.c: metal pairs of a stack that are apart but near enough to bridge.
 *
 * Distance is that of a straight line through free space: a thin washer that covers both its
 * neighbours keeps them apart, one that ends short of them does not. Bodies of a stack are round
 * about the bolt or reach away from it, so lines are looked for in half planes through the axis:
 * every 5 degrees and along each lead. Two leads are measured against each other in space.
 * Insulation stands in the way like metal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"
#include "assembly/free-line.h"

#include <math.h>

#define STEP_DEG 5
#define FINE_DEG 0.2
#define MAX_PLANES (360 / STEP_DEG + TL_MAX_LEGS)
#define SHAPES_A_BODY 3
#define MAX_PROJECTIONS 2000
#define LINE_STEPS 12
#define MAX_OTHERS 16 /* within the bridge distance of two bodies there is room for few */
#define NEAR_GRAZE_MM 1e-3

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

/* Radius at which a half plane leaves a circle of radius @radius whose centre lies @offset on the
 * x axis. */
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

/* Everything that a half plane cuts. */
static GArray *
shapes_at (const TlAssembly *self, double plane_deg)
{
  const GPtrArray *bodies = self->bodies;
  GArray *shapes = g_array_sized_new (FALSE, FALSE, sizeof (TlShape), bodies->len * SHAPES_A_BODY);

  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody *body = bodies->pdata[i];

      if (!body->is_metal && body->role != TL_BODY_INSULATION)
        continue;
      for (guint k = 0; k < body->solids->len; k++)
        {
          TlShape shape = { .body = i };

          if (shape_of (&g_array_index (body->solids, TlSolid, k), plane_deg, &shape))
            g_array_append_val (shapes, shape);
        }
    }
  return shapes;
}

static void
choose_planes (Planes *planes)
{
  const GPtrArray *bodies = planes->assembly->bodies;

  for (guint degrees = 0; degrees < 360; degrees += STEP_DEG)
    planes->planes[planes->n_planes++] = degrees;
  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody  *body = bodies->pdata[i];
      const TlSolid *solid =
          body->solids->len > 0 ? &g_array_index (body->solids, TlSolid, 0) : NULL;
      gboolean is_new = solid != NULL && (body->role == TL_BODY_EYE || body->role == TL_BODY_TANG);

      for (guint k = 0; k < planes->n_planes && is_new; k++)
        is_new = !is_in_plane (solid->direction_deg, planes->planes[k]);
      if (is_new && planes->n_planes < MAX_PLANES)
        planes->planes[planes->n_planes++] = turned (solid->direction_deg);
    }
}

/* One pair of shapes with what may stand between them. */
typedef struct
{
  TlShape a, b;
  TlShape others[MAX_OTHERS];
  guint   n_others;
} View;

/* TRUE if a line between the pair that is shorter than @limit_mm could meet @other: it stays near
 * both. */
static gboolean
may_part (const View *view, const TlShape *other, double limit_mm)
{
  double low_r = MAX (view->a.r0, view->b.r0) - limit_mm,
         high_r = MIN (view->a.r1, view->b.r1) + limit_mm;
  double low_z = MAX (view->a.z0, view->b.z0) - limit_mm,
         high_z = MIN (view->a.z1, view->b.z1) + limit_mm;

  return other->body != view->a.body && other->body != view->b.body && other->r1 > low_r
         && other->r0 < high_r && other->z1 > low_z && other->z0 < high_z;
}

static gboolean
same_shape (const TlShape *a, const TlShape *b)
{
  return a->body == b->body && a->is_disc == b->is_disc && a->r0 == b->r0 && a->r1 == b->r1
         && a->z0 == b->z0 && a->z1 == b->z1;
}

static gboolean
same_view (const View *a, const View *b)
{
  if (a->n_others != b->n_others || !same_shape (&a->a, &b->a) || !same_shape (&a->b, &b->b))
    return FALSE;
  for (guint i = 0; i < a->n_others; i++)
    if (!same_shape (&a->others[i], &b->others[i]))
      return FALSE;
  return TRUE;
}

/* FALSE if the two are too far apart to look at. */
static gboolean
take_view (const GArray *shapes, const TlShape *a, const TlShape *b, double limit_mm, View *view)
{
  if (MAX (a->r0 - b->r1, b->r0 - a->r1) >= limit_mm
      || MAX (a->z0 - b->z1, b->z0 - a->z1) >= limit_mm)
    return FALSE;
  view->a = *a;
  view->b = *b;
  view->n_others = 0;
  for (guint i = 0; i < shapes->len && view->n_others < MAX_OTHERS; i++)
    if (may_part (view, &g_array_index (shapes, TlShape, i), limit_mm))
      view->others[view->n_others++] = g_array_index (shapes, TlShape, i);
  return TRUE;
}

/* Keeps the line in @nearest if this half plane shows a shorter one. A view like the @last one is
 * passed over. */
static gboolean
look_in_plane (const GArray *shapes, double plane_deg, guint a, guint b, double limit_mm,
               View *last, Nearest *nearest)
{
  double   angle = plane_deg * G_PI / 180.0;
  gboolean is_better = FALSE;

  for (guint i = 0; i < shapes->len; i++)
    for (guint k = 0; g_array_index (shapes, TlShape, i).body == a && k < shapes->len; k++)
      {
        TlPoint from, to;
        View    view;
        double  distance;

        if (g_array_index (shapes, TlShape, k).body != b
            || !take_view (shapes, &g_array_index (shapes, TlShape, i),
                           &g_array_index (shapes, TlShape, k), limit_mm, &view)
            || same_view (&view, last))
          continue;
        *last = view;
        distance = tl_free_line (&view.a, &view.b, view.others, view.n_others, nearest->distance_mm,
                                 &from, &to);
        if (distance >= nearest->distance_mm)
          continue;
        is_better = TRUE;
        nearest->distance_mm = distance;
        nearest->x_mm = (from.r + to.r) / 2.0 * cos (angle);
        nearest->z_mm = (from.z + to.z) / 2.0;
        nearest->rim_mm = G_PI * (from.r + to.r);
      }
  return is_better;
}

/* A tang, or anything off the axis, may come nearest between two of the planes. */
static gboolean
is_lopsided (const TlAssembly *self, guint a, guint b)
{
  for (guint i = 0; i < 2; i++)
    {
      const TlBody  *body = self->bodies->pdata[i == 0 ? a : b];
      const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);

      if (solid->kind == TL_SOLID_PLATE || fabs (solid->u_mm) > TL_SAME_PLACE_MM)
        return TRUE;
    }
  return FALSE;
}

/* All planes, then ever smaller turns of the best one. */
static void
nearest_in_planes (Planes *planes, guint a, guint b, Nearest *nearest)
{
  double best_deg = -1.0;
  View   last = { .n_others = G_MAXUINT };

  for (guint i = 0; i < planes->n_planes && nearest->distance_mm > 0.0; i++)
    {
      if (planes->shapes[i] == NULL)
        planes->shapes[i] = shapes_at (planes->assembly, planes->planes[i]);
      if (look_in_plane (planes->shapes[i], planes->planes[i], a, b, planes->bridge_mm, &last,
                         nearest))
        best_deg = planes->planes[i];
    }
  if (best_deg < 0.0 || !is_lopsided (planes->assembly, a, b))
    return;
  for (double turn = STEP_DEG / 2.0; turn > FINE_DEG && nearest->distance_mm > 0.0; turn /= 2.0)
    {
      double start = best_deg;

      for (gint side = -1; side <= 1; side += 2)
        {
          g_autoptr (GArray) shapes = shapes_at (planes->assembly, start + side * turn);

          if (look_in_plane (shapes, start + side * turn, a, b, planes->bridge_mm, &last, nearest))
            best_deg = start + side * turn;
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

/* Nearest point to @p of a straight rod with flat ends. */
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

/* Nearest point to @p of the strip by which a tang reaches its barrel. */
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

/* Rods and strips are convex: going to and fro between the nearest points of both ends at the
 * shortest line. */
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

static void
nearest_leads (const Planes *planes, guint a, guint b, Nearest *nearest)
{
  const TlBody *first = planes->assembly->bodies->pdata[a];
  const TlBody *second = planes->assembly->bodies->pdata[b];

  for (guint i = 0; i < first->solids->len; i++)
    for (guint k = 0; k < second->solids->len; k++)
      {
        const TlSolid *lead = &g_array_index (first->solids, TlSolid, i);
        const TlSolid *other = &g_array_index (second->solids, TlSolid, k);
        Point3         p, q;
        double         distance;

        if (!is_lead (lead) || !is_lead (other)
            || is_in_plane (lead->direction_deg, other->direction_deg)
            || fabs (middle_z (lead) - middle_z (other))
                   >= nearest->distance_mm + half_height (lead) + half_height (other))
          continue;
        distance = lead_distance (lead, other, &p, &q);
        if (distance >= nearest->distance_mm || is_parted (planes->assembly, p, q, a, b))
          continue;
        nearest->distance_mm = distance;
        nearest->x_mm = (p.x + q.x) / 2.0;
        nearest->z_mm = (p.z + q.z) / 2.0;
        nearest->rim_mm = G_PI * MIN (lead->outer_mm, other->outer_mm);
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
      gboolean       is_rod = solid->kind == TL_SOLID_ROD;

      *top = MIN (*top, is_rod ? solid->z0_mm - solid->outer_mm / 2.0 : solid->start_mm);
      *bottom = MAX (*bottom, is_rod ? solid->z0_mm + solid->outer_mm / 2.0 : solid->end_mm);
    }
}

static gboolean
is_worth_a_look (const Planes *planes, guint a, guint b)
{
  const TlBody *first = planes->assembly->bodies->pdata[a];
  const TlBody *second = planes->assembly->bodies->pdata[b];
  double        top_a, bottom_a, top_b, bottom_b;

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
  Planes      planes = { .assembly = self, .bridge_mm = bridge_mm };
  guint       count = self->bodies->len;

  if (bridge_mm <= 0.0)
    return;
  choose_planes (&planes);
  for (guint a = 0; a < count; a++)
    for (guint b = a + 1; b < count; b++)
      {
        Nearest    nearest = { .distance_mm = bridge_mm };
        TlContact *contact;

        if (!is_worth_a_look (&planes, a, b))
          continue;
        nearest_in_planes (&planes, a, b, &nearest);
        nearest_leads (&planes, a, b, &nearest);
        if (nearest.distance_mm >= bridge_mm)
          continue;
        contact = tl_assembly_add_contact (
            self, a, b,
            nearest.distance_mm <= TL_SAME_PLACE_MM ? TL_CONTACT_TOUCHING : TL_CONTACT_MAY_BRIDGE);
        contact->distance_mm = nearest.distance_mm <= TL_SAME_PLACE_MM ? 0.0 : nearest.distance_mm;
        contact->rim_mm = nearest.rim_mm;
        contact->at_x_mm = nearest.x_mm;
        contact->at_z_mm = nearest.z_mm;
      }
  for (guint plane = 0; plane < planes.n_planes; plane++)
    g_clear_pointer (&planes.shapes[plane], g_array_unref);
}
