/* sleeve-shape.c: what a pressed sleeve looks like along its axis: dents, squeezed cores, what lies where.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* Shoulder between a press and the round barrel. */
#define LEAST_WALL_MM 0.3
#define SHOULDER_MM 0.8
/* Insulated lead drawn beyond what covers it. */
#define LEAD_BEYOND_MM 5.0
#define PRESS_WIDTH_MM 5.0
/* Area of a hexagon over the square of its width across flats. */
#define HEXAGON_RATIO 0.8660254
/* Metal fills the press when it is at least this share of its hole; less stays loose. */
#define FULL_RATIO 0.85

double
tl_solid_start (const TlBody *body)
{
  double start = HUGE_VAL;

  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);

      start = MIN (start, s->kind == TL_SOLID_ROD ? MIN (s->x0_mm, s->x1_mm) : s->start_mm);
    }
  return start;
}

double
tl_solid_end (const TlBody *body)
{
  double end = -HUGE_VAL;

  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);

      end = MAX (end, s->kind == TL_SOLID_ROD ? MAX (s->x0_mm, s->x1_mm) : s->end_mm);
    }
  return end;
}

static TlSleeveRod
rod_from (const TlBody *body, const TlSolid *s)
{
  gboolean    is_rod = s->kind == TL_SOLID_ROD, is_turned = is_rod && s->x0_mm > s->x1_mm;
  TlSleeveRod rod = { body, s->start_mm, s->end_mm, s->outer_mm / 2.0, s->v_mm, s->v_mm, s->u_mm };

  if (is_rod)
    {
      rod.start_mm = is_turned ? s->x1_mm : s->x0_mm;
      rod.end_mm = is_turned ? s->x0_mm : s->x1_mm;
      rod.across_mm = is_turned ? s->z1_mm : s->z0_mm;
      rod.across_end_mm = is_turned ? s->z0_mm : s->z1_mm;
      rod.away_mm = (s->y0_mm + s->y1_mm) / 2.0;
    }
  return rod;
}

static void
turn_rod (TlSleeveRod *rod, const TlSolid *s)
{
  TlSolid turned = *s;

  turned.u_mm = s->v_mm;
  turned.v_mm = s->u_mm;
  turned.y0_mm = s->z0_mm;
  turned.z0_mm = s->y0_mm;
  turned.y1_mm = s->z1_mm;
  turned.z1_mm = s->y1_mm;
  *rod = rod_from (rod->body, &turned);
}

/* The section is laid through the cores: the plane turns to where they are spread. */
static gboolean
is_spread_upright (const TlAssembly *assembly)
{
  double low[2] = { HUGE_VAL, HUGE_VAL }, high[2] = { -HUGE_VAL, -HUGE_VAL };

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody  *body = assembly->bodies->pdata[i];
      const TlSolid *s = body->role == TL_BODY_CORE && body->solids->len > 0
                             ? &g_array_index (body->solids, TlSolid, 0)
                             : NULL;

      if (s == NULL)
        continue;
      low[0] = MIN (low[0], s->v_mm);
      high[0] = MAX (high[0], s->v_mm);
      low[1] = MIN (low[1], s->u_mm);
      high[1] = MAX (high[1], s->u_mm);
    }
  return !(high[1] - low[1] > high[0] - low[0] + 1e-9);
}

static void
collect (const TlDrawing *d, TlSleeveShape *shape)
{
  shape->upright_is_v = is_spread_upright (d->assembly);
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; k < body->solids->len; k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);
          TlSleeveRod   *rod = NULL;

          if (body->role == TL_BODY_CORE && shape->n_cores < TL_MOST_RODS)
            rod = &shape->cores[shape->n_cores++];
          else if (body->role == TL_BODY_INSULATION && shape->n_insulations < TL_MOST_RODS)
            rod = &shape->insulations[shape->n_insulations++];
          else if (body->role == TL_BODY_BARREL && !shape->has_barrel)
            {
              shape->has_barrel = TRUE;
              shape->barrel = body;
              shape->length_mm = solid->end_mm;
              shape->outer_mm = solid->outer_mm;
              shape->bore_mm = solid->inner_mm;
            }
          if (rod == NULL)
            continue;
          *rod = rod_from (body, solid);
          if (!shape->upright_is_v)
            turn_rod (rod, solid);
        }
    }
}

double
tl_sleeve_rod_at (const TlSleeveRod *rod, double x_mm)
{
  double length = rod->end_mm - rod->start_mm;

  return length > 0.0 ? rod->across_mm
                            + (rod->across_end_mm - rod->across_mm)
                                  * CLAMP ((x_mm - rod->start_mm) / length, 0.0, 1.0)
                      : rod->across_mm;
}

static void
place_presses (const TlDrawing *d, TlSleeveShape *shape)
{
  const TlSleeveFigures *figures = &d->assembly->sleeve;
  const TlLayer         *layer =
      figures->sleeve != NULL ? tl_joint_layer (d->assembly->joint, figures->sleeve) : NULL;
  const TlStock *stock = d->assembly->stock;
  gboolean       is_whole =
      figures->overlaps || figures->inserted_mm[0] <= 0.0 || figures->inserted_mm[1] <= 0.0;
  double room, width, wanted;
  guint  count;

  if (layer == NULL || !shape->has_barrel || !figures->has_die
      || figures->die_mm >= shape->outer_mm)
    return;
  shape->die_mm = figures->die_mm;
  count = (guint) CLAMP (tl_layer_number (layer, stock, TL_FIELD_PRESSES, 1.0), 1.0, 8.0);
  wanted = tl_layer_number (layer, stock, TL_FIELD_PRESS_WIDTH, PRESS_WIDTH_MM);
  room = is_whole ? shape->length_mm : shape->length_mm / 2.0;
  width = MIN (wanted, 0.8 * room / count);
  shape->press_width_mm = width;
  for (guint side = 0; side < (is_whole ? 1u : 2u); side++)
    for (guint i = 0; i < count; i++)
      shape->press_mm[shape->n_presses++] =
          side * room + (room - count * width) * (i + 1.0) / (count + 1.0) + width * (i + 0.5);
}

double
tl_sleeve_press_share (const TlSleeveShape *shape, double x_mm)
{
  double share = 0.0, half = shape->press_width_mm / 2.0;

  for (guint i = 0; i < shape->n_presses; i++)
    {
      double off = fabs (x_mm - shape->press_mm[i]);

      share = MAX (share, off <= half ? 1.0 : 1.0 - (off - half) / SHOULDER_MM);
    }
  return share;
}

double
tl_sleeve_outer_half_mm (const TlSleeveShape *shape, double x_mm)
{
  double share = tl_sleeve_press_share (shape, x_mm);

  return (shape->outer_mm + share * (shape->die_mm - shape->outer_mm)) / 2.0;
}

/* Half height of the hole in a press. Metal keeps its area: where barrel and conductors are more than the die holds
 * both give way alike, where they are less the barrel keeps its metal and the conductors stay loose. */
static double
pressed_inner_half_mm (const TlSleeveShape *shape)
{
  double die = HEXAGON_RATIO * shape->die_mm * shape->die_mm;
  double tube = G_PI / 4.0 * (shape->outer_mm * shape->outer_mm - shape->bore_mm * shape->bore_mm);
  double hole = MAX (die - tube, die * shape->metal_mm2 / MAX (shape->metal_mm2 + tube, 1e-6));

  return MAX (shape->die_mm / 2.0 * sqrt (CLAMP (hole / die, 0.02, 0.95)), 0.1 * shape->bore_mm);
}

double
tl_sleeve_inner_half_mm (const TlSleeveShape *shape, double x_mm)
{
  double share = tl_sleeve_press_share (shape, x_mm);

  return share <= 0.0 ? shape->bore_mm / 2.0
                      : shape->bore_mm / 2.0
                            + share * (pressed_inner_half_mm (shape) - shape->bore_mm / 2.0);
}

double
tl_sleeve_fill_ratio (const TlSleeveShape *shape)
{
  double inner = shape->die_mm > 0.0 ? pressed_inner_half_mm (shape) : shape->bore_mm / 2.0;

  return shape->metal_mm2 / MAX (HEXAGON_RATIO * 4.0 * inner * inner, 1e-6);
}

double
tl_sleeve_squeezed_mm (const TlSleeveShape *shape, double x_mm, double across_mm)
{
  double share = tl_sleeve_press_share (shape, x_mm), low = HUGE_VAL, high = -HUGE_VAL, inner, fill,
         pressed;

  if (share <= 0.0 || x_mm < 0.0 || x_mm > shape->length_mm)
    return across_mm;
  for (guint i = 0; i < shape->n_cores; i++)
    {
      const TlSleeveRod *core = &shape->cores[i];

      if (x_mm < core->start_mm || x_mm > core->end_mm)
        continue;
      low = MIN (low, tl_sleeve_rod_at (core, x_mm) - core->radius_mm);
      high = MAX (high, tl_sleeve_rod_at (core, x_mm) + core->radius_mm);
    }
  inner = tl_sleeve_inner_half_mm (shape, x_mm);
  if (!(high > low))
    return across_mm * inner / (shape->bore_mm / 2.0);
  fill = tl_sleeve_fill_ratio (shape);
  pressed = inner * (fill >= FULL_RATIO ? 1.0 : sqrt (MAX (fill, 0.0)));
  pressed = ((across_mm - low) / (high - low) * 2.0 - 1.0) * pressed;
  return across_mm + share * (pressed - across_mm);
}

double
tl_splice_end_half_mm (const TlDrawing *d)
{
  double half = 1.0;

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; body->role != TL_BODY_INSULATION && k < body->solids->len; k++)
        {
          const TlSolid *s = &g_array_index (body->solids, TlSolid, k);

          if (s->kind == TL_SOLID_TUBE)
            half = MAX (half, hypot (s->u_mm, s->v_mm) + s->outer_mm / 2.0);
        }
    }
  return half * 1.05;
}

double
tl_seal_wall_mm (const TlDrawing *d, const TlBody *seal)
{
  double wall = d->assembly->seal.wall_mm;

  return g_strcmp0 (seal->owner, d->assembly->seal.seal) == 0 && wall > 0.0
             ? MAX (wall, LEAST_WALL_MM)
             : LEAST_WALL_MM * 2.0;
}

static void
set_extent (const TlDrawing *d, TlSleeveShape *shape)
{
  double covered_start = 0.0, covered_end = shape->length_mm, first = HUGE_VAL, last = -HUGE_VAL,
         bare_start = 0.0, bare_end = shape->length_mm;

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->solids->len == 0)
        continue;
      first = MIN (first, tl_solid_start (body));
      last = MAX (last, tl_solid_end (body));
      if (body->role != TL_BODY_CORE && body->role != TL_BODY_INSULATION)
        {
          covered_start = MIN (covered_start, tl_solid_start (body));
          covered_end = MAX (covered_end, tl_solid_end (body));
        }
    }
  for (guint i = 0; i < shape->n_insulations; i++)
    {
      const TlSleeveRod *rod = &shape->insulations[i];

      if ((rod->start_mm + rod->end_mm) / 2.0 < shape->length_mm / 2.0)
        bare_start = MIN (bare_start, rod->end_mm);
      else
        bare_end = MAX (bare_end, rod->start_mm);
      shape->half_mm = MAX (shape->half_mm, MAX (fabs (rod->across_mm), fabs (rod->across_end_mm))
                                                + rod->radius_mm);
    }
  shape->start_mm = MAX (MIN (covered_start, bare_start) - LEAD_BEYOND_MM, MIN (first, 0.0));
  shape->end_mm = MIN (MAX (covered_end, bare_end) + LEAD_BEYOND_MM, MAX (last, shape->length_mm));
  shape->half_mm = MAX (shape->half_mm, shape->outer_mm / 2.0);
}

/* A splice is cut through its weld, else where its conductors lie side by side. */
static double
splice_cut_mm (const TlDrawing *d, double length_mm)
{
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->role == TL_BODY_WELD && body->solids->len > 0)
        return (tl_solid_start (body) + tl_solid_end (body)) / 2.0;
    }
  return length_mm * 0.25;
}

void
tl_sleeve_shape (const TlDrawing *d, TlSleeveShape *shape)
{
  const TlSleeveFigures *figures = &d->assembly->sleeve;

  memset (shape, 0, sizeof *shape);
  collect (d, shape);
  place_presses (d, shape);
  shape->cut_mm = shape->n_presses > 0 ? shape->press_mm[0] : shape->length_mm * 0.25;
  shape->metal_mm2 = MAX (figures->metal_mm2[0], figures->metal_mm2[1]);
  if (d->assembly->family == TL_FAMILY_SPLICE)
    {
      shape->length_mm = d->assembly->splice.overlap_mm;
      shape->outer_mm = 2.0 * tl_splice_end_half_mm (d);
      shape->cut_mm = splice_cut_mm (d, shape->length_mm);
    }
  set_extent (d, shape);
  if (!(shape->end_mm > shape->start_mm))
    shape->end_mm = shape->start_mm + 1.0;
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; body->role == TL_BODY_SEAL && k < body->solids->len; k++)
        shape->half_mm =
            MAX (shape->half_mm, g_array_index (body->solids, TlSolid, k).outer_mm / 2.0);
      if (body->role == TL_BODY_SEAL)
        shape->half_mm += tl_seal_wall_mm (d, body) * 0.5 + 0.3;
    }
  shape->half_mm = MAX (shape->half_mm, 0.5);
}
