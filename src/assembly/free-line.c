/* free-line.c: the shortest straight line between two shapes that runs through nothing else.
 *
 * If the nearest points do not see each other, the line either runs inside a band of r that is
 * clear of every edge, or it bends round a corner of what stands between, which a straight line
 * touches there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/free-line.h"

#include <math.h>

#define MAX_EDGES 24
#define NEAR_MM 1e-6
#define PROJECTIONS 60
#define SWEEP_STEPS 48
#define REFINE_STEPS 24

typedef struct
{
  const TlShape *a, *b;
  const TlShape *others;
  guint          n_others;
  double         best_mm;
  TlPoint        from, to;
} Search;

static double
between (TlPoint p, TlPoint q)
{
  return hypot (p.r - q.r, p.z - q.z);
}

/* Nearest point to @p of the part of @shape whose r lies in low..high; that part must not be
 * empty. */
static TlPoint
project (const TlShape *shape, double low, double high, TlPoint p)
{
  double  radius, cr, cz, away, edge, reach;
  TlPoint q;

  if (!shape->is_disc)
    return (TlPoint){ CLAMP (p.r, MAX (shape->r0, low), MIN (shape->r1, high)),
                      CLAMP (p.z, shape->z0, shape->z1) };
  radius = (shape->r1 - shape->r0) / 2.0;
  cr = (shape->r0 + shape->r1) / 2.0;
  cz = (shape->z0 + shape->z1) / 2.0;
  away = hypot (p.r - cr, p.z - cz);
  q = away <= radius
          ? p
          : (TlPoint){ cr + (p.r - cr) * radius / away, cz + (p.z - cz) * radius / away };
  if (q.r >= low && q.r <= high)
    return q;
  edge = q.r < low ? low : high;
  reach = sqrt (MAX (0.0, radius * radius - (edge - cr) * (edge - cr)));
  return (TlPoint){ edge, CLAMP (p.z, cz - reach, cz + reach) };
}

static gboolean
crosses (const TlShape *other, TlPoint p, TlPoint q)
{
  double       low = 0.0, high = 1.0;
  const double start[] = { p.r, p.z }, way[] = { q.r - p.r, q.z - p.z };
  const double from[] = { other->r0 + NEAR_MM, other->z0 + NEAR_MM };
  const double to[] = { other->r1 - NEAR_MM, other->z1 - NEAR_MM };

  for (guint i = 0; i < 2; i++)
    {
      double t0, t1;

      if (fabs (way[i]) < 1e-12)
        {
          if (start[i] <= from[i] || start[i] >= to[i])
            return FALSE;
          continue;
        }
      t0 = (from[i] - start[i]) / way[i];
      t1 = (to[i] - start[i]) / way[i];
      low = MAX (low, MIN (t0, t1));
      high = MIN (high, MAX (t0, t1));
      if (low >= high)
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_free (const Search *search, TlPoint p, TlPoint q)
{
  for (guint i = 0; i < search->n_others; i++)
    {
      const TlShape *other = &search->others[i];

      if (other->body != search->a->body && other->body != search->b->body && crosses (other, p, q))
        return FALSE;
    }
  return TRUE;
}

static void
offer (Search *search, TlPoint p, TlPoint q)
{
  double length = between (p, q);

  if (length < search->best_mm && is_free (search, p, q))
    {
      search->best_mm = length;
      search->from = p;
      search->to = q;
    }
}

/* Nearest points of both shapes inside a band of r. */
static void
try_band (Search *search, double low, double high)
{
  const TlShape *a = search->a, *b = search->b;
  TlPoint        p, q;
  double         middle;

  if (a->r1 < low || a->r0 > high || b->r1 < low || b->r0 > high)
    return;
  middle = (MAX (MAX (a->r0, b->r0), low) + MIN (MIN (a->r1, b->r1), high)) / 2.0;
  p = project (a, low, high, (TlPoint){ middle, (b->z0 + b->z1) / 2.0 });
  q = project (b, low, high, p);
  for (guint i = 0; i < PROJECTIONS; i++)
    {
      TlPoint next = project (a, low, high, q);
      double  moved = between (next, p);

      p = next;
      q = project (b, low, high, p);
      if (moved < 1e-9)
        break;
    }
  offer (search, p, q);
}

/* Stretch of the line through @pivot along @way that lies inside @shape; FALSE if it misses. */
static gboolean
stretch (const TlShape *shape, TlPoint pivot, TlPoint way, double *low, double *high)
{
  if (shape->is_disc)
    {
      double radius = (shape->r1 - shape->r0) / 2.0;
      double r = pivot.r - (shape->r0 + shape->r1) / 2.0,
             z = pivot.z - (shape->z0 + shape->z1) / 2.0;
      double along = r * way.r + z * way.z;
      double root = along * along - (r * r + z * z - radius * radius);

      if (root < 0.0)
        return FALSE;
      *low = -along - sqrt (root);
      *high = -along + sqrt (root);
      return TRUE;
    }
  *low = -G_MAXDOUBLE;
  *high = G_MAXDOUBLE;
  for (guint i = 0; i < 2; i++)
    {
      double start = i == 0 ? pivot.r : pivot.z, step = i == 0 ? way.r : way.z;
      double from = i == 0 ? shape->r0 : shape->z0, to = i == 0 ? shape->r1 : shape->z1;

      if (fabs (step) < 1e-12)
        {
          if (start < from || start > to)
            return FALSE;
          continue;
        }
      *low = MAX (*low, MIN ((from - start) / step, (to - start) / step));
      *high = MIN (*high, MAX ((from - start) / step, (to - start) / step));
    }
  return *low <= *high;
}

/* Line through @pivot at @angle, offered if it joins the two shapes; gives its length or
 * G_MAXDOUBLE. */
static double
try_line (Search *search, TlPoint pivot, double angle)
{
  TlPoint way = { cos (angle), sin (angle) }, p, q;
  double  low_a, high_a, low_b, high_b, t, u;

  if (!stretch (search->a, pivot, way, &low_a, &high_a)
      || !stretch (search->b, pivot, way, &low_b, &high_b))
    return G_MAXDOUBLE;
  if (high_a <= low_b)
    {
      t = high_a;
      u = low_b;
    }
  else if (high_b <= low_a)
    {
      t = low_a;
      u = high_b;
    }
  else
    return G_MAXDOUBLE;
  p = (TlPoint){ pivot.r + t * way.r, pivot.z + t * way.z };
  q = (TlPoint){ pivot.r + u * way.r, pivot.z + u * way.z };
  if (!is_free (search, p, q))
    return G_MAXDOUBLE;
  offer (search, p, q);
  return fabs (t - u);
}

static void
try_corner (Search *search, TlPoint corner)
{
  double step = G_PI / SWEEP_STEPS, best = G_MAXDOUBLE, best_angle = 0.0;

  /* No line round the corner is shorter than the way to it from both sides. */
  if (between (corner, project (search->a, 0.0, G_MAXDOUBLE, corner))
          + between (corner, project (search->b, 0.0, G_MAXDOUBLE, corner))
      >= search->best_mm)
    return;
  for (guint i = 0; i < SWEEP_STEPS; i++)
    {
      double length = try_line (search, corner, i * step);

      if (length < best)
        {
          best = length;
          best_angle = i * step;
        }
    }
  for (guint i = 0; i < REFINE_STEPS && best < G_MAXDOUBLE; i++)
    {
      double left = try_line (search, corner, best_angle - step / 2.0);
      double right = try_line (search, corner, best_angle + step / 2.0);

      if (left < best)
        {
          best = left;
          best_angle -= step / 2.0;
        }
      else if (right < best)
        {
          best = right;
          best_angle += step / 2.0;
        }
      step /= 2.0;
    }
}

/* TRUE if @other could stand in the way of a line no longer than @limit_mm: it reaches into the
 * gap between the
 * two, along z where they lie above each other, else along r. */
static gboolean
is_between (const Search *search, const TlShape *other, double limit_mm)
{
  const TlShape *a = search->a, *b = search->b;
  double         z0 = MIN (a->z1, b->z1), z1 = MAX (a->z0, b->z0);
  double         r0 = MIN (a->r1, b->r1), r1 = MAX (a->r0, b->r0);

  if (other->body == a->body || other->body == b->body)
    return FALSE;
  if (z1 - z0 > NEAR_MM)
    return other->z1 > z0 + NEAR_MM && other->z0 < z1 - NEAR_MM && other->r1 > r1 - limit_mm
           && other->r0 < r0 + limit_mm;
  return other->z1 > z1 - limit_mm && other->z0 < z0 + limit_mm && other->r1 > r0 - limit_mm
         && other->r0 < r1 + limit_mm;
}

static void
go_round (Search *search, double limit_mm)
{
  double edges[MAX_EDGES];
  guint  n = 0;

  for (guint i = 0; i < search->n_others && n + 2 <= MAX_EDGES; i++)
    if (is_between (search, &search->others[i], limit_mm))
      {
        edges[n++] = search->others[i].r0;
        edges[n++] = search->others[i].r1;
      }
  for (guint i = 0; i < n; i++)
    {
      try_band (search, edges[i], G_MAXDOUBLE);
      try_band (search, 0.0, edges[i]);
      for (guint k = 0; k < n; k++)
        if (edges[k] > edges[i])
          try_band (search, edges[i], edges[k]);
    }
  for (guint i = 0; i < search->n_others; i++)
    {
      const TlShape *other = &search->others[i];

      if (!is_between (search, other, limit_mm))
        continue;
      try_corner (search, (TlPoint){ other->r1, other->z0 });
      try_corner (search, (TlPoint){ other->r1, other->z1 });
      try_corner (search, (TlPoint){ other->r0, other->z0 });
      try_corner (search, (TlPoint){ other->r0, other->z1 });
    }
}

static double
direct (const TlShape *a, const TlShape *b)
{
  Search search = { a, b, NULL, 0, G_MAXDOUBLE, { 0.0, 0.0 }, { 0.0, 0.0 } };
  double r = MAX (0.0, MAX (a->r0 - b->r1, b->r0 - a->r1));
  double z = MAX (0.0, MAX (a->z0 - b->z1, b->z0 - a->z1));

  if (!a->is_disc && !b->is_disc)
    return hypot (r, z);
  try_band (&search, 0.0, G_MAXDOUBLE);
  return search.best_mm;
}

double
tl_free_line (const TlShape *a, const TlShape *b, const TlShape *others, guint n_others,
              double limit_mm, TlPoint *from, TlPoint *to)
{
  Search search = { a, b, others, n_others, limit_mm, { 0.0, 0.0 }, { 0.0, 0.0 } };

  g_return_val_if_fail (a != NULL && b != NULL && from != NULL && to != NULL, G_MAXDOUBLE);

  if (MAX (a->r0 - b->r1, b->r0 - a->r1) >= limit_mm
      || MAX (a->z0 - b->z1, b->z0 - a->z1) >= limit_mm || direct (a, b) >= limit_mm)
    return G_MAXDOUBLE;
  try_band (&search, 0.0, G_MAXDOUBLE);
  if (search.best_mm >= limit_mm)
    go_round (&search, limit_mm);
  if (search.best_mm >= limit_mm)
    return G_MAXDOUBLE;
  *from = search.from;
  *to = search.to;
  return search.best_mm;
}
