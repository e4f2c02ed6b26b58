/* seal-shape.c: a shrunk sleeve in its true shape over barrel, metal and insulation, with its adhesive.
 *
 * The sleeve lies on what is under it, or on its free recovered bore where that is wider, and runs over steps in
 * a slope, as a warm polymer does.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* Steepest slope of a sleeve over a step (common practice, no source). */
#define SLOPE_RATIO 0.55
#define STEP_MM 0.2
#define ADHESIVE_MM 0.25
/* The filling goes so far under the bodies that no seam is seen. */
#define TUCKED_MM 0.15

typedef struct
{
  double  start_mm, step_mm;
  guint   count;
  double *above, *below; /* heights over the axis, both positive outwards */
  double *under[2];      /* what lies under it, above and below */
} Profile;

gboolean
tl_seal_has_adhesive (const TlDrawing *d, const TlBody *seal)
{
  return g_strcmp0 (seal->owner, d->assembly->seal.seal) == 0 && d->assembly->seal.has_adhesive;
}

static void
lift (Profile *p, guint i, double across_mm, double radius_mm)
{
  p->above[i] = MAX (p->above[i], radius_mm - across_mm);
  p->below[i] = MAX (p->below[i], radius_mm + across_mm);
}

static void
raise_by_rods (Profile *p, guint i, double x, const TlSleeveRod *rods, guint n)
{
  for (guint k = 0; k < n; k++)
    if (x >= rods[k].start_mm && x <= rods[k].end_mm)
      lift (p, i, tl_sleeve_rod_at (&rods[k], x), rods[k].radius_mm);
}

static void
slope (double *heights, guint count, double step)
{
  for (guint i = 1; i < count; i++)
    heights[i] = MAX (heights[i], heights[i - 1] - SLOPE_RATIO * step);
  for (guint i = count; i-- > 1;)
    heights[i - 1] = MAX (heights[i - 1], heights[i] - SLOPE_RATIO * step);
}

static void
profile_init (Profile *p, const TlSleeveShape *shape, double start, double end, double recovered_mm)
{
  p->start_mm = start;
  p->count = (guint) CLAMP ((end - start) / STEP_MM, 2.0, 2000.0) + 1;
  p->step_mm = (end - start) / (p->count - 1);
  p->above = g_new0 (double, p->count);
  p->below = g_new0 (double, p->count);
  for (guint i = 0; i < p->count; i++)
    {
      double x = start + i * p->step_mm;

      raise_by_rods (p, i, x, shape->insulations, shape->n_insulations);
      if (shape->has_barrel && x >= 0.0 && x <= shape->length_mm)
        lift (p, i, 0.0, tl_sleeve_outer_half_mm (shape, x));
      else
        raise_by_rods (p, i, x, shape->cores, shape->n_cores);
    }
  for (guint side = 0; side < 2; side++)
    p->under[side] = g_memdup2 (side == 0 ? p->above : p->below, p->count * sizeof (double));
  for (guint i = 0; i < p->count; i++)
    lift (p, i, 0.0, recovered_mm / 2.0);
  slope (p->above, p->count, p->step_mm);
  slope (p->below, p->count, p->step_mm);
}

static void
profile_clear (Profile *p)
{
  g_free (p->above);
  g_free (p->below);
  g_free (p->under[0]);
  g_free (p->under[1]);
}

static gboolean
is_bend (const double *heights, guint i)
{
  return fabs (heights[i + 1] - 2.0 * heights[i] + heights[i - 1]) > 1e-6;
}

/* Closed band between two heights on one side; @out and @in are added to the profile. */
static void
band (TlDrawing *d, const Profile *p, gboolean is_below, double in, double out)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  const double *heights = is_below ? p->below : p->above;
  double        way = is_below ? 1.0 : -1.0;

  tl_path_begin (d);
  for (guint pass = 0; pass < 2; pass++)
    for (guint k = 0; k < p->count; k++)
      {
        guint  i = pass == 0 ? k : p->count - 1 - k;
        double x = view->x + (p->start_mm + i * p->step_mm) * view->scale;
        double y = view->y + way * MAX (heights[i] + (pass == 0 ? out : in), 0.0) * view->scale;

        if (i > 0 && i + 1 < p->count && !is_bend (heights, i))
          continue;
        if (pass == 0 && k == 0)
          tl_path_move (d, x, y);
        else
          tl_path_line (d, x, y);
      }
  tl_path_close (d);
}

static const TlBody *
lining_of (const TlDrawing *d, const TlBody *seal)
{
  return tl_assembly_find_body (d->assembly, seal->owner, TL_BODY_ADHESIVE, NULL);
}

/* What the sleeve encloses beside bodies, on one side: adhesive that has flowed, or air. */
static void
inside (TlDrawing *d, const Profile *p, const TlBody *seal, gboolean is_below)
{
  const TlBody *lining = lining_of (d, seal);
  const TlView *view = &d->views[TL_VIEW_SECTION];
  const double *outer = is_below ? p->below : p->above, *inner = p->under[is_below ? 1 : 0];
  double        way = is_below ? 1.0 : -1.0;

  tl_path_begin (d);
  for (guint pass = 0; pass < 2; pass++)
    for (guint k = 0; k < p->count; k++)
      {
        guint  i = pass == 0 ? k : p->count - 1 - k;
        double height = pass == 0 ? outer[i] + ADHESIVE_MM : MAX (inner[i] - TUCKED_MM, 0.0);
        double x = view->x + (p->start_mm + i * p->step_mm) * view->scale,
               y = view->y + way * height * view->scale;

        if (i > 0 && i + 1 < p->count && !is_bend (pass == 0 ? outer : inner, i))
          continue;
        if (pass == 0 && k == 0)
          tl_path_move (d, x, y);
        else
          tl_path_line (d, x, y);
      }
  tl_path_close (d);
  tl_shape_look (d, seal->owner,
                 lining != NULL && tl_seal_has_adhesive (d, seal) ? lining->look : TL_LOOK_AIR,
                 TRUE, TL_LINE_THIN);
}

static void
fillers (TlDrawing *d)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; body->role == TL_BODY_FILLER && k < body->solids->len; k++)
        {
          const TlSolid *s = &g_array_index (body->solids, TlSolid, k);
          double x0 = view->x + s->start_mm * view->scale, x1 = view->x + s->end_mm * view->scale;

          tl_path_begin (d);
          tl_path_rectangle (d, x0, view->y - s->outer_mm / 2.0 * view->scale, x1,
                             view->y + s->outer_mm / 2.0 * view->scale);
          tl_shape_body (d, body, TRUE, TL_LINE_THIN);
          tl_target_add (d, body->owner, (x0 + x1) / 2.0, view->y);
        }
    }
}

void
tl_seal_section (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];
      double        start, end, wall, recovered = d->assembly->seal.recovered_mm;
      Profile       p;
      guint         at;

      if ((body->role != TL_BODY_SEAL && body->role != TL_BODY_CAP) || body->solids->len == 0)
        continue;
      start = MAX (tl_solid_start (body), shape->start_mm);
      end = MIN (tl_solid_end (body), shape->end_mm);
      wall = tl_seal_wall_mm (d, body);
      if (!(end > start))
        continue;
      profile_init (&p, shape, start, end, recovered);
      for (int below = 0; below <= 1; below++)
        {
          double lining = tl_seal_has_adhesive (d, body) ? ADHESIVE_MM : 0.0;

          inside (d, &p, body, below);
          band (d, &p, below, lining, lining + wall);
          tl_shape_body (d, body, TRUE, TL_LINE_CUT);
        }
      /* in the middle of what it covers beyond the barrel */
      at = (guint) CLAMP (((shape->length_mm + end) / 2.0 - start) / p.step_mm, 0.0, p.count - 1.0);
      tl_target_add (d, body->owner, view->x + (p.start_mm + at * p.step_mm) * view->scale,
                     view->y - (p.above[at] + ADHESIVE_MM + wall / 2.0) * view->scale);
      profile_clear (&p);
    }
  fillers (d);
}
