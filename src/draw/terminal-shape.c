/* terminal-shape.c: which planes a terminal is cut in, and how far the drawing of each reaches.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/terminal-private.h"

#define LEAD_BEYOND_MM 6.0
#define LEAD_LEAST_MM 3.0
#define STRIP_GAP_MM 2.0

static gboolean
has_neighbours (const TlTerminalFigures *figures)
{
  for (guint i = 0; i < figures->ports; i++)
    if (figures->legs[i] > 1)
      return TRUE;
  return FALSE;
}

/* Middle of the conductors of bore @bore, upright; its axis without any. */
static double
conductor_z_mm (const TlDrawing *d, guint bore)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;
  double                   sum = 0.0, axis = bore % 2 == 0 ? 0.0 : figures->row_mm;
  guint                    n = 0;

  for (guint i = 0; i < d->assembly->joint->legs->len; i++)
    {
      const TlLeg  *leg = d->assembly->joint->legs->pdata[i];
      const TlBody *core = tl_assembly_find_body (d->assembly, leg->id, TL_BODY_CORE, NULL);

      if (core == NULL || core->solids->len == 0 || (leg->seat.place - 1) / 2 != bore)
        continue;
      sum += g_array_index (core->solids, TlSolid, 0).v_mm;
      n++;
    }
  return n > 0 ? sum / n : axis;
}

static void
set_strips (const TlDrawing *d, TlTerminalShape *shape)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;
  guint                    bores = (figures->ports + 1) / 2;

  shape->is_level = has_neighbours (figures);
  shape->n = MAX (shape->is_level ? bores : figures->columns, 1);
  for (guint i = 0; i < shape->n; i++)
    {
      TlTerminalStrip *strip = &shape->strips[i];

      strip->plane_mm = shape->is_level ? conductor_z_mm (d, i) : i * figures->column_mm;
      strip->middle_mm = shape->is_level ? (i / 2) * figures->column_mm : 0.0;
    }
}

static void
widen (double *low, double *high, double from, double to)
{
  *low = MIN (*low, MIN (from, to));
  *high = MAX (*high, MAX (from, to));
}

static void
take_solid (TlTerminalShape *shape, const TlBody *body, const TlSolid *s, double *start,
            double *end)
{
  double y = s->u_mm, z = s->v_mm, half_y = s->outer_mm / 2.0, half_z = s->outer_mm / 2.0;

  if (s->kind == TL_SOLID_BLOCK)
    half_y = s->inner_mm / 2.0;
  if (body->role == TL_BODY_SCREW)
    {
      widen (&shape->z0_mm, &shape->z1_mm, s->z0_mm, s->z1_mm);
      return;
    }
  if (body->is_leg)
    {
      if (s->kind == TL_SOLID_TUBE && body->role == TL_BODY_CORE)
        {
          *start = MIN (*start, MAX (s->start_mm, -1e3));
          *end = MAX (*end, s->end_mm);
        }
      return;
    }
  if (s->kind == TL_SOLID_TUBE)
    return;
  widen (start, end, s->start_mm, s->end_mm);
  widen (&shape->y0_mm, &shape->y1_mm, y - half_y, y + half_y);
  widen (&shape->z0_mm, &shape->z1_mm, z - half_z, z + half_z);
}

/* Where the shortest lead of a side ends: there all are broken off. */
static double
lead_end_mm (const TlDrawing *d, gboolean is_right)
{
  double middle = d->assembly->terminal.length_mm / 2.0, best = is_right ? HUGE_VAL : -HUGE_VAL;

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 1; body->role == TL_BODY_CORE && k < body->solids->len; k++)
        {
          const TlSolid *s = &g_array_index (body->solids, TlSolid, k);
          gboolean       is_rod = s->kind == TL_SOLID_ROD;
          double         from = is_rod ? MIN (s->x0_mm, s->x1_mm) : s->start_mm;
          double         to = is_rod ? MAX (s->x0_mm, s->x1_mm) : s->end_mm;

          if (is_right && from > middle)
            best = MIN (best, to);
          else if (!is_right && to < middle)
            best = MAX (best, from);
        }
    }
  return best;
}

/* Bare metal and all parts, then a piece of the leads. */
static void
set_extent (const TlDrawing *d, TlTerminalShape *shape)
{
  double start = 0.0, end = d->assembly->terminal.length_mm;

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      /* of a conductor only its bare part counts: its first solid */
      for (guint k = 0; k < (body->is_leg ? MIN (body->solids->len, 1) : body->solids->len); k++)
        take_solid (shape, body, &g_array_index (body->solids, TlSolid, k), &start, &end);
    }
  shape->start_mm =
      MAX (start - LEAD_BEYOND_MM, MIN (lead_end_mm (d, FALSE), start - LEAD_LEAST_MM));
  shape->end_mm = MIN (end + LEAD_BEYOND_MM, MAX (lead_end_mm (d, TRUE), end + LEAD_LEAST_MM));
}

/* Largest half of the leads of a plane, so that none is cut off. */
static void
reach_leads (const TlDrawing *d, TlTerminalShape *shape)
{
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; body->role == TL_BODY_INSULATION && k < body->solids->len; k++)
        {
          const TlSolid *s = &g_array_index (body->solids, TlSolid, k);
          double         y = s->kind == TL_SOLID_ROD ? s->y1_mm : s->u_mm;
          double         z = s->kind == TL_SOLID_ROD ? s->z1_mm : s->v_mm;

          widen (&shape->y0_mm, &shape->y1_mm, y - s->outer_mm / 2.0, y + s->outer_mm / 2.0);
          widen (&shape->z0_mm, &shape->z1_mm, z - s->outer_mm / 2.0, z + s->outer_mm / 2.0);
        }
    }
}

void
tl_terminal_shape (const TlDrawing *d, TlTerminalShape *shape)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;

  memset (shape, 0, sizeof *shape);
  set_strips (d, shape);
  set_extent (d, shape);
  reach_leads (d, shape);
  shape->cut_mm = figures->length_mm / 2.0;
  for (guint i = d->assembly->bodies->len; i-- > 0;)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->role == TL_BODY_SCREW)
        shape->cut_mm = g_array_index (body->solids, TlSolid, 0).x0_mm;
      else if (body->role == TL_BODY_SPRING)
        shape->cut_mm = (g_array_index (body->solids, TlSolid, 0).start_mm
                         + g_array_index (body->solids, TlSolid, 0).end_mm)
                        / 2.0;
    }
  for (guint i = 0; i < shape->n; i++)
    {
      TlTerminalStrip *strip = &shape->strips[i];

      strip->low_mm = shape->is_level ? shape->y0_mm : shape->z0_mm;
      strip->high_mm = shape->is_level ? shape->y1_mm : shape->z1_mm;
      strip->offset_mm = i * (strip->high_mm - strip->low_mm + STRIP_GAP_MM);
    }
  shape->height_mm =
      shape->strips[shape->n - 1].offset_mm + shape->strips[0].high_mm - shape->strips[0].low_mm;
}
