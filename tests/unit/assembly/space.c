/* space.c: distances in space from the solids of bodies alone, found by trying.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "space.h"

#include <math.h>

#define GRADIENT_MM 1e-5
#define GRAZE_MM 0.0001
#define STEPS_ON_LINE 24
#define MAX_STARTS 16
#define START_APART_MM 0.5

typedef struct
{
  double x, y, z;
} Vec;

typedef struct
{
  Vec low, high;
} Box;

typedef struct
{
  const TlAssembly *assembly;
  guint             a, b;
  double            limit;
  gboolean          looks_through;
  GRand            *random;
  double            x, z, around; /* where to look; around <= 0: everywhere */
} Trial;

static Vec
plus (Vec a, Vec b, double share)
{
  return (Vec){ a.x + share * b.x, a.y + share * b.y, a.z + share * b.z };
}

static double
length (Vec a)
{
  return sqrt (a.x * a.x + a.y * a.y + a.z * a.z);
}

static double
apart (Vec a, Vec b)
{
  return length (plus (a, b, -1.0));
}

/* --- signed distance to a solid: negative inside --- */

/* Rectangle given by how far the point is outside in each way. */
static double
corner (double out_r, double out_z)
{
  if (out_r > 0.0 && out_z > 0.0)
    return hypot (out_r, out_z);
  return MAX (out_r, out_z);
}

static double
ring (double r, double along, double inner, double outer, double start, double end)
{
  return corner (inner > 0.0 ? MAX (inner / 2.0 - r, r - outer / 2.0) : r - outer / 2.0,
                 MAX (start - along, along - end));
}

static double
hexagon (double x, double y, double flats)
{
  /* Corners at 0, 60, ...: flats face 30, 90, ... degrees. */
  double angle = atan2 (y, x), sector = floor (angle / (G_PI / 3.0)) * (G_PI / 3.0) + G_PI / 6.0;
  double r = hypot (x, y), across = r * cos (angle - sector),
         beside = fabs (r * sin (angle - sector));
  double half = flats / 2.0 * tan (G_PI / 6.0);

  return beside > half && across > flats / 2.0 ? hypot (across - flats / 2.0, beside - half)
                                               : across - flats / 2.0;
}

static double
bent_wire (const TlSolid *solid, Vec p)
{
  double wire = (solid->outer_mm - solid->inner_mm) / 2.0, middle = (solid->inner_mm + wire) / 2.0;
  double z = p.z - (solid->start_mm + solid->end_mm) / 2.0, span = solid->turn_ratio * 2.0 * G_PI;
  double angle = fmod (atan2 (p.y, p.x) - solid->arc_start_deg * G_PI / 180.0, 2.0 * G_PI), end;
  double best = G_MAXDOUBLE;

  if (angle < 0.0)
    angle += 2.0 * G_PI;
  if (angle <= span)
    return hypot (hypot (p.x, p.y) - middle, z) - wire / 2.0;
  for (guint i = 0; i < 2; i++)
    {
      /* Flat end of the wire: a disc square to the turn. */
      end = solid->arc_start_deg * G_PI / 180.0 + (i == 0 ? 0.0 : span);
      double radial = p.x * cos (end) + p.y * sin (end) - middle;
      double off = fabs (-p.x * sin (end) + p.y * cos (end));
      double reach = MAX (0.0, hypot (radial, z) - wire / 2.0);

      best = MIN (best, hypot (off, reach));
    }
  return best;
}

static double
straight_wire (const TlSolid *solid, Vec p)
{
  Vec    start = { solid->x0_mm, solid->y0_mm, solid->z0_mm };
  Vec    way = plus ((Vec){ solid->x1_mm, solid->y1_mm, solid->z1_mm }, start, -1.0);
  double all = length (way);
  Vec    from = plus (p, start, -1.0);
  double along = (from.x * way.x + from.y * way.y + from.z * way.z) / all;
  double off = length (plus (from, way, -along / all));

  return ring (off, along, solid->inner_mm, solid->outer_mm, 0.0, all);
}

static double
flat_tang (const TlSolid *solid, Vec p)
{
  double turn = solid->direction_deg * G_PI / 180.0, half = solid->outer_mm / 2.0;
  double along = p.x * cos (turn) + p.y * sin (turn),
         beside = fabs (p.y * cos (turn) - p.x * sin (turn));
  double round = hypot (p.x, p.y) - half;
  double strip = corner (MAX (-along, along - solid->length_mm), beside - half);
  double flat = MAX (MIN (round, strip), solid->inner_mm / 2.0 - hypot (p.x, p.y));

  return corner (flat, MAX (solid->start_mm - p.z, p.z - solid->end_mm));
}

/* Box about the x axis, with a round hole or without. */
static double
box_about (const TlSolid *solid, Vec p)
{
  Vec    out = { MAX (solid->start_mm - p.x, p.x - solid->end_mm),
                 fabs (p.y - solid->u_mm) - solid->inner_mm / 2.0,
                 fabs (p.z - solid->v_mm) - solid->outer_mm / 2.0 };
  double hole = solid->bore_mm / 2.0 - hypot (p.y - solid->u_mm, p.z - solid->v_mm);
  double across = corner (out.y, out.z);

  if (solid->bore_mm > 0.0)
    across = MAX (across, hole);
  return corner (across, out.x);
}

static double
distance_to (const TlAssembly *assembly, const TlSolid *solid, Vec p)
{
  gboolean is_stack = assembly->family == TL_FAMILY_STACK;
  double   across = is_stack ? hypot (p.x - solid->u_mm, p.y - solid->v_mm)
                             : hypot (p.y - solid->u_mm, p.z - solid->v_mm);

  switch (solid->kind)
    {
    case TL_SOLID_TUBE:
      return ring (across, is_stack ? p.z : p.x, solid->inner_mm, solid->outer_mm, solid->start_mm,
                   solid->end_mm);
    case TL_SOLID_HEX:
      return corner (
          MAX (hexagon (p.x, p.y, solid->outer_mm), solid->inner_mm / 2.0 - hypot (p.x, p.y)),
          MAX (solid->start_mm - p.z, p.z - solid->end_mm));
    case TL_SOLID_EYE:
      return bent_wire (solid, p);
    case TL_SOLID_ROD:
      return straight_wire (solid, p);
    case TL_SOLID_PLATE:
      return flat_tang (solid, p);
    case TL_SOLID_BLOCK:
      return box_about (solid, p);
    default:
      g_assert_not_reached ();
    }
}

static double
distance_to_body (const TlAssembly *assembly, guint index, Vec p)
{
  const TlBody *body = assembly->bodies->pdata[index];
  double        best = G_MAXDOUBLE;

  for (guint i = 0; i < body->solids->len; i++)
    best = MIN (best, distance_to (assembly, &g_array_index (body->solids, TlSolid, i), p));
  return best;
}

static Box
box_of (const TlAssembly *assembly, guint index)
{
  const TlBody *body = assembly->bodies->pdata[index];
  Box           box = { { 1e9, 1e9, 1e9 }, { -1e9, -1e9, -1e9 } };

  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      double         r = s->kind == TL_SOLID_HEX ? s->outer_mm : s->outer_mm / 2.0;
      Vec ends[2] = { { s->x0_mm, s->y0_mm, s->z0_mm }, { s->x1_mm, s->y1_mm, s->z1_mm } };

      if (s->kind == TL_SOLID_BLOCK)
        r = MAX (s->inner_mm, s->outer_mm) / 2.0;
      if (s->kind == TL_SOLID_PLATE)
        r = MAX (r, s->length_mm + s->outer_mm / 2.0);
      if (s->kind != TL_SOLID_ROD && assembly->family == TL_FAMILY_STACK)
        {
          ends[0] = (Vec){ s->u_mm, s->v_mm, s->start_mm };
          ends[1] = (Vec){ s->u_mm, s->v_mm, s->end_mm };
        }
      else if (s->kind != TL_SOLID_ROD)
        {
          ends[0] = (Vec){ s->start_mm, s->u_mm, s->v_mm };
          ends[1] = (Vec){ s->end_mm, s->u_mm, s->v_mm };
        }
      for (guint k = 0; k < 2; k++)
        {
          gboolean flat_z = s->kind != TL_SOLID_ROD && assembly->family == TL_FAMILY_STACK;
          Vec      reach = { r, r, flat_z ? 0.0 : r };

          box.low.x = MIN (box.low.x, ends[k].x - reach.x);
          box.low.y = MIN (box.low.y, ends[k].y - reach.y);
          box.low.z = MIN (box.low.z, ends[k].z - reach.z);
          box.high.x = MAX (box.high.x, ends[k].x + reach.x);
          box.high.y = MAX (box.high.y, ends[k].y + reach.y);
          box.high.z = MAX (box.high.z, ends[k].z + reach.z);
        }
    }
  return box;
}

/* --- points and lines --- */

/* Onto the surface of body @index, a few steps down the numeric gradient. */
static Vec
onto (const TlAssembly *assembly, guint index, Vec p)
{
  for (guint i = 0; i < 4; i++)
    {
      double d = distance_to_body (assembly, index, p), size;
      Vec    g = { distance_to_body (assembly, index, (Vec){ p.x + GRADIENT_MM, p.y, p.z }) - d,
                   distance_to_body (assembly, index, (Vec){ p.x, p.y + GRADIENT_MM, p.z }) - d,
                   distance_to_body (assembly, index, (Vec){ p.x, p.y, p.z + GRADIENT_MM }) - d };

      size = length (g);
      if (size < GRADIENT_MM * 1e-3 || fabs (d) < 1e-7)
        break;
      p = plus (p, g, -d / size);
    }
  return p;
}

static gboolean
is_open (const Trial *trial, Vec p, Vec q)
{
  const GPtrArray *bodies = trial->assembly->bodies;

  if (trial->looks_through)
    return TRUE;
  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody *body = bodies->pdata[i];

      if (i == trial->a || i == trial->b || (!body->is_metal && body->role != TL_BODY_INSULATION && body->role != TL_BODY_HOUSING))
        continue;
      for (guint k = 1; k < STEPS_ON_LINE; k++)
        if (distance_to_body (trial->assembly, i,
                              plus (p, plus (q, p, -1.0), (double) k / STEPS_ON_LINE))
            < -GRAZE_MM)
          return FALSE;
    }
  return TRUE;
}

static Vec
thrown (GRand *random, Vec low, Vec high)
{
  return (Vec){ g_rand_double_range (random, low.x, high.x + 1e-9),
                g_rand_double_range (random, low.y, high.y + 1e-9),
                g_rand_double_range (random, low.z, high.z + 1e-9) };
}

/* Shakes both ends as long as that helps. */
static double
shaken (const Trial *trial, Vec p, Vec q, double best)
{
  for (double step = 0.3; step > 0.002; step *= 0.5)
    for (guint i = 0; i < 24; i++)
      {
        Vec    by = { step, step, step };
        Vec    next_p = onto (trial->assembly, trial->a,
                              thrown (trial->random, plus (p, by, -1.0), plus (p, by, 1.0)));
        Vec    next_q = onto (trial->assembly, trial->b,
                              thrown (trial->random, plus (q, by, -1.0), plus (q, by, 1.0)));
        double d[3] = { apart (next_p, next_q), apart (next_p, q), apart (p, next_q) };

        if (d[0] < best && is_open (trial, next_p, next_q))
          {
            best = d[0];
            p = next_p;
            q = next_q;
          }
        else if (d[1] < best && is_open (trial, next_p, q))
          {
            best = d[1];
            p = next_p;
          }
        else if (d[2] < best && is_open (trial, p, next_q))
          {
            best = d[2];
            q = next_q;
          }
      }
  return best;
}

typedef struct
{
  double length;
  guint  p, q;
} Line;

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  double left = ((const Line *) a)->length, right = ((const Line *) b)->length;

  return (left > right) - (left < right);
}

static guint
surface_points (const Trial *trial, guint index, guint other, Vec low, Vec high, guint samples,
                Vec *points)
{
  guint count = 0;

  for (guint i = 0; i < samples; i++)
    {
      Vec p = onto (trial->assembly, index, thrown (trial->random, low, high));

      if (fabs (distance_to_body (trial->assembly, index, p)) < 1e-5
          && distance_to_body (trial->assembly, other, p) < trial->limit)
        points[count++] = p;
    }
  return count;
}

static double
search (const Trial *trial, guint samples)
{
  Box    a = box_of (trial->assembly, trial->a), b = box_of (trial->assembly, trial->b);
  double m = trial->limit, best = trial->limit;
  Vec low = { MAX (a.low.x, b.low.x) - m, MAX (a.low.y, b.low.y) - m, MAX (a.low.z, b.low.z) - m };
  Vec high = { MIN (a.high.x, b.high.x) + m, MIN (a.high.y, b.high.y) + m,
               MIN (a.high.z, b.high.z) + m };
  g_autofree Vec *p = g_new (Vec, samples);
  g_autofree Vec *q = g_new (Vec, samples);
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (Line));
  Vec   starts[MAX_STARTS];
  guint n_p, n_q, shakes = 0, most = samples < 1000 ? MAX_STARTS / 4 : MAX_STARTS;

  if (trial->around > 0.0)
    {
      low.x = MAX (low.x, trial->x - trial->around);
      high.x = MIN (high.x, trial->x + trial->around);
      low.z = MAX (low.z, trial->z - trial->around);
      high.z = MIN (high.z, trial->z + trial->around);
    }
  if (low.x > high.x || low.y > high.y || low.z > high.z)
    return trial->limit;
  n_p = surface_points (trial, trial->a, trial->b, low, high, samples, p);
  n_q = surface_points (trial, trial->b, trial->a, low, high, samples, q);
  for (guint i = 0; i < n_p; i++)
    for (guint k = 0; k < n_q; k++)
      {
        Line line = { apart (p[i], q[k]), i, k };

        if (line.length < trial->limit)
          g_array_append_val (lines, line);
      }
  g_array_sort (lines, compare_lines);
  for (guint i = 0; i < lines->len && shakes < most; i++)
    {
      const Line *line = &g_array_index (lines, Line, i);
      gboolean    is_new = TRUE;

      /* Starts that lie apart, or all of them would end at the same place. */
      for (guint k = 0; k < shakes && is_new; k++)
        is_new = apart (starts[k], p[line->p]) > START_APART_MM;
      if (!is_new || !is_open (trial, p[line->p], q[line->q]))
        continue;
      best = MIN (best, shaken (trial, p[line->p], q[line->q], line->length));
      starts[shakes++] = p[line->p];
    }
  return best;
}

double
space_free_distance (const TlAssembly *assembly, guint a, guint b, double limit_mm, guint samples,
                     GRand *random)
{
  Trial trial = { assembly, a, b, limit_mm, FALSE, random, 0.0, 0.0, 0.0 };

  return search (&trial, samples);
}

double
space_free_distance_at (const TlAssembly *assembly, guint a, guint b, double limit_mm,
                        guint samples, GRand *random, double x_mm, double z_mm, double around_mm)
{
  Trial trial = { assembly, a, b, limit_mm, FALSE, random, x_mm, z_mm, around_mm };

  return search (&trial, samples);
}

double
space_distance (const TlAssembly *assembly, guint a, guint b, double limit_mm, guint samples,
                GRand *random)
{
  Trial trial = { assembly, a, b, limit_mm, TRUE, random, 0.0, 0.0, 0.0 };

  return search (&trial, samples);
}
