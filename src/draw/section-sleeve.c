/* section-sleeve.c: a pressed sleeve cut along its axis.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define STEP_MM 0.2

/* Places along the axis where an outline has to have a point. */
static GArray *
stations (const TlSleeveShape *shape, double from, double to)
{
  GArray *xs = g_array_new (FALSE, FALSE, sizeof (double));
  guint   n = (guint) CLAMP ((to - from) / STEP_MM, 1.0, 3000.0);

  for (guint i = 0; i <= n; i++)
    {
      double x = from + (to - from) * i / n;

      g_array_append_val (xs, x);
    }
  return xs;
}

static double
edge_mm (const TlSleeveShape *shape, const TlSleeveRod *rod, double x, double way)
{
  double across = tl_sleeve_rod_at (rod, x) + way * rod->radius_mm;

  return tl_sleeve_squeezed_mm (shape, x, across);
}

/* Outline of a core from @from to @to; points on straight runs are left out. */
static void
core_path (TlDrawing *d, const TlSleeveShape *shape, const TlSleeveRod *rod, double from, double to,
           int broken)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  g_autoptr (GArray) xs = stations (shape, from, to);

  tl_path_begin (d);
  for (int pass = 0; pass < 2; pass++)
    {
      double way = pass == 0 ? -1.0 : 1.0;

      for (guint k = 0; k < xs->len; k++)
        {
          guint    i = pass == 0 ? k : xs->len - 1 - k;
          double   x = g_array_index (xs, double, i), y = edge_mm (shape, rod, x, way);
          gboolean is_end = i == 0 || i + 1 == xs->len;

          if (!is_end)
            {
              double before = edge_mm (shape, rod, g_array_index (xs, double, i - 1), way);
              double after = edge_mm (shape, rod, g_array_index (xs, double, i + 1), way);

              if (fabs (before - 2.0 * y + after) < 1e-6)
                continue;
            }
          if (pass == 0 && k == 0)
            tl_path_move (d, view->x + x * view->scale, view->y + y * view->scale);
          else if (pass == 1 && k == 0 && broken > 0)
            {
              double h = 2.0 * rod->radius_mm * view->scale, bx = view->x + x * view->scale,
                     by = view->y + y * view->scale - h;

              tl_path_curve (d, bx + 0.3 * h, by + 0.28 * h, bx + 0.3 * h, by + 0.42 * h, bx,
                             by + 0.5 * h);
              tl_path_curve (d, bx - 0.3 * h, by + 0.58 * h, bx - 0.3 * h, by + 0.72 * h, bx,
                             by + h);
            }
          else
            tl_path_line (d, view->x + x * view->scale, view->y + y * view->scale);
          if (pass == 1 && k + 1 == xs->len && broken < 0)
            {
              double h = 2.0 * rod->radius_mm * view->scale, bx = view->x + x * view->scale,
                     by = view->y + y * view->scale;

              tl_path_curve (d, bx - 0.3 * h, by - 0.28 * h, bx - 0.3 * h, by - 0.42 * h, bx,
                             by - 0.5 * h);
              tl_path_curve (d, bx + 0.3 * h, by - 0.58 * h, bx + 0.3 * h, by - 0.72 * h, bx,
                             by - h);
            }
        }
    }
  tl_path_close (d);
}

static void
cores (TlDrawing *d, const TlSleeveShape *shape)
{
  for (guint i = 0; i < shape->n_cores; i++)
    {
      const TlSleeveRod *rod = &shape->cores[i];
      double from = MAX (rod->start_mm, shape->start_mm), to = MIN (rod->end_mm, shape->end_mm);
      int    broken = rod->start_mm < shape->start_mm + 1e-9 ? -1
                      : rod->end_mm > shape->end_mm - 1e-9   ? 1
                                                             : 0;

      if (!(to > from))
        continue;
      core_path (d, shape, rod, from, to, broken);
      tl_shape_body (d, rod->body, fabs (rod->away_mm) < rod->radius_mm, TL_LINE_EDGE);
    }
}

static void
insulations (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  for (guint i = 0; i < shape->n_insulations; i++)
    {
      const TlSleeveRod *rod = &shape->insulations[i];
      double             from = MAX (rod->start_mm, shape->start_mm + 1.2),
             to = MIN (rod->end_mm, shape->end_mm - 1.2);
      double x0 = view->x + from * view->scale, x1 = view->x + to * view->scale;
      double y0 = tl_sleeve_rod_at (rod, from), y1 = tl_sleeve_rod_at (rod, to);

      if (!(to > from))
        continue;
      tl_path_begin (d);
      tl_path_move (d, x0, view->y + (y0 - rod->radius_mm) * view->scale);
      tl_path_line (d, x1, view->y + (y1 - rod->radius_mm) * view->scale);
      tl_path_line (d, x1, view->y + (y1 + rod->radius_mm) * view->scale);
      tl_path_line (d, x0, view->y + (y0 + rod->radius_mm) * view->scale);
      tl_path_close (d);
      tl_shape_body (d, rod->body, TRUE, TL_LINE_EDGE);
      tl_target_add (d, rod->body->owner, (x0 + x1) / 2.0, view->y + (y0 + y1) / 2.0 * view->scale);
    }
}

/* Leaders of the conductors reach the metal inside the barrel, near the mouth where each goes in. */
static void
core_targets (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  for (guint i = 0; i < shape->n_cores; i++)
    {
      const TlSleeveRod *rod = &shape->cores[i];
      double   from = MAX (rod->start_mm, 0.0), to = MIN (rod->end_mm, shape->length_mm), at;
      gboolean is_left = rod->start_mm < shape->length_mm - rod->end_mm;

      if (!(to > from))
        continue;
      at = is_left ? from + 0.16 * (to - from) + 0.05 * i * (to - from)
                   : to - 0.16 * (to - from) - 0.05 * i * (to - from);
      tl_target_add (
          d, rod->body->owner, view->x + at * view->scale,
          view->y + tl_sleeve_squeezed_mm (shape, at, tl_sleeve_rod_at (rod, at)) * view->scale);
    }
}

/* Walls between the outer and the inner outline of the barrel. */
static void
wall (TlDrawing *d, const TlSleeveShape *shape, double way, double from, double to, TlLook look)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  g_autoptr (GArray) xs = stations (shape, from, to);

  tl_path_begin (d);
  for (int pass = 0; pass < 2; pass++)
    for (guint k = 0; k < xs->len; k++)
      {
        guint  i = pass == 0 ? k : xs->len - 1 - k;
        double x = g_array_index (xs, double, i), px = view->x + x * view->scale;
        double height =
            pass == 0 ? tl_sleeve_outer_half_mm (shape, x) : tl_sleeve_inner_half_mm (shape, x);

        if (i > 0 && i + 1 < xs->len)
          {
            double before = tl_sleeve_press_share (shape, g_array_index (xs, double, i - 1));
            double after = tl_sleeve_press_share (shape, g_array_index (xs, double, i + 1));

            if (fabs (before - 2.0 * tl_sleeve_press_share (shape, x) + after) < 1e-9)
              continue;
          }
        if (pass == 0 && k == 0)
          tl_path_move (d, px, view->y + way * height * view->scale);
        else
          tl_path_line (d, px, view->y + way * height * view->scale);
      }
  tl_path_close (d);
  tl_shape_body (d, shape->barrel, TRUE, TL_LINE_CUT)->look = look;
  d->looks_seen[look] = d->looks_cut[look] = TRUE;
}

/* Both walls; a bimetal sleeve changes its metal in the middle. */
static void
walls (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlLayer *sleeve = tl_joint_layer (d->assembly->joint, shape->barrel->owner);
  const char    *other =
      sleeve != NULL ? tl_layer_word (sleeve, d->assembly->stock, TL_FIELD_OTHER_FACE, NULL) : NULL;
  const TlMaterial *metal = other != NULL ? tl_stock_material (d->assembly->stock, other) : NULL;
  double            middle = metal != NULL ? shape->length_mm / 2.0 : shape->length_mm;

  for (int way = -1; way <= 1; way += 2)
    {
      wall (d, shape, way, 0.0, middle, shape->barrel->look);
      if (metal != NULL)
        wall (d, shape, way, middle, shape->length_mm, metal->look);
    }
}

/* Two wires of a twist cross over each other again and again; here the front one runs down, then up. */
static gboolean
is_twist (const TlDrawing *d, const TlSleeveShape *shape)
{
  return d->assembly->family == TL_FAMILY_SPLICE && shape->n_cores >= 2
         && g_strcmp0 (d->assembly->splice.form, "twisted") == 0
         && d->assembly->joint->legs->len == 2 && shape->length_mm > 0.0;
}

static void
twist_strand (TlDrawing *d, const TlSleeveShape *shape, const TlSleeveRod *rod, double x0,
              double x1, double across0, double across1)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  double        from = view->x + x0 * view->scale, to = view->x + x1 * view->scale,
         bend = (to - from) * 0.45;

  tl_path_begin (d);
  for (int side = -1; side <= 1; side += 2)
    {
      double y0 = view->y + (across0 + side * rod->radius_mm) * view->scale;
      double y1 = view->y + (across1 + side * rod->radius_mm) * view->scale;

      if (side < 0)
        {
          tl_path_move (d, from, y0);
          tl_path_curve (d, from + bend, y0, to - bend, y1, to, y1);
        }
      else
        {
          tl_path_line (d, to, y1);
          tl_path_curve (d, to - bend, y1, from + bend, y0, from, y0);
        }
    }
  tl_path_close (d);
  tl_shape_body (d, rod->body, TRUE, TL_LINE_EDGE);
}

static void
twist (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlSleeveRod *rods[2] = { NULL, NULL };
  guint              turns = d->assembly->splice.turns, halves;
  double             half_mm;

  for (guint i = 0; i < shape->n_cores; i++)
    if (rods[0] == NULL)
      rods[0] = &shape->cores[i];
    else if (rods[1] == NULL && shape->cores[i].body != rods[0]->body)
      rods[1] = &shape->cores[i];
  if (rods[1] == NULL)
    return;
  /* turns that nobody stated: one for each six diameters */
  halves =
      2 * (turns > 0 ? turns : (guint) MAX (1.0, shape->length_mm / (12.0 * rods[0]->radius_mm)));
  half_mm = shape->length_mm / halves;
  for (guint i = 0; i < halves; i++)
    {
      /* what ran below runs above in the next half turn; an even number of them ends as it began */
      double a = i % 2 == 0 ? rods[0]->across_mm : rods[1]->across_mm;
      double b = i % 2 == 0 ? rods[1]->across_mm : rods[0]->across_mm;

      /* in front is the one that runs from above to below */
      for (guint pass = 0; pass < 2; pass++)
        if ((i + pass) % 2 == 0)
          twist_strand (d, shape, rods[1], i * half_mm, (i + 1) * half_mm, b, a);
        else
          twist_strand (d, shape, rods[0], i * half_mm, (i + 1) * half_mm, a, b);
    }
}

/* The bore: compound if there is any, else air. */
static void
bore (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  const TlBody *compound = NULL;
  double        inner = shape->bore_mm / 2.0 * view->scale, x0 = view->x,
         x1 = view->x + shape->length_mm * view->scale;

  for (guint i = 0; i < d->assembly->bodies->len && compound == NULL; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->role == TL_BODY_COMPOUND && body->solids->len > 0)
        compound = body;
    }
  tl_path_begin (d);
  tl_path_rectangle (d, x0, view->y - inner, x1, view->y + inner);
  if (compound != NULL)
    {
      tl_shape_body (d, compound, TRUE, TL_LINE_THIN);
      tl_target_add (d, compound->owner, x0 + 0.02 * (x1 - x0), view->y + 0.7 * inner);
    }
  else
    tl_shape_look (d, shape->barrel->owner, TL_LOOK_AIR, FALSE, TL_LINE_THIN);
}

static gboolean
has_own_drawing (TlBodyRole role)
{
  return role == TL_BODY_CORE || role == TL_BODY_INSULATION || role == TL_BODY_BARREL
         || role == TL_BODY_SEAL || role == TL_BODY_ADHESIVE || role == TL_BODY_CAP
         || role == TL_BODY_COMPOUND || role == TL_BODY_FILLER;
}

/* Ferrules and anything else along the axis: the walls of a tube, else the whole height. */
static void
cut_along (TlDrawing *d, const TlSleeveShape *shape, const TlBody *body, const TlSolid *s)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  double        across = (shape->upright_is_v ? s->v_mm : s->u_mm) * view->scale,
         outer = s->outer_mm / 2.0 * view->scale;
  gboolean is_hollow = s->kind == TL_SOLID_TUBE && s->inner_mm > 0.0;
  double   inner = is_hollow ? s->inner_mm / 2.0 * view->scale : 0.0;
  double   x0 = view->x + s->start_mm * view->scale, x1 = view->x + s->end_mm * view->scale,
         y = view->y + across;

  for (int way = -1; way <= (is_hollow ? 1 : -1); way += 2)
    {
      tl_path_begin (d);
      tl_path_rectangle (d, x0, is_hollow ? y + way * inner : y - outer, x1,
                         is_hollow ? y + way * outer : y + outer);
      tl_shape_body (d, body, TRUE, TL_LINE_EDGE);
    }
  /* Of a weld or of solder only the rim shows beside the cores, and A–A may run through its middle. */
  if (body->role == TL_BODY_WELD || body->role == TL_BODY_SOLDER)
    tl_target_add (d, body->owner, x0 + 0.65 * (x1 - x0), y - 0.96 * outer);
  else
    tl_target_add (d, body->owner, (x0 + x1) / 2.0, y - (inner + outer) / 2.0);
}

static void
others (TlDrawing *d, const TlSleeveShape *shape)
{
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; !has_own_drawing (body->role) && k < body->solids->len; k++)
        if (g_array_index (body->solids, TlSolid, k).kind != TL_SOLID_ROD)
          cut_along (d, shape, body, &g_array_index (body->solids, TlSolid, k));
    }
}

void
tl_sleeve_section (TlDrawing *d, const TlSleeveShape *shape)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  d->view = TL_VIEW_SECTION;
  core_targets (d, shape);
  tl_seal_section (d, shape);
  if (shape->has_barrel)
    bore (d, shape);
  others (d, shape);
  insulations (d, shape);
  cores (d, shape);
  if (is_twist (d, shape))
    twist (d, shape);
  if (shape->has_barrel)
    {
      walls (d, shape);
      tl_target_add (d, shape->barrel->owner, view->x + 0.5 * shape->length_mm * view->scale,
                     view->y
                         - (tl_sleeve_outer_half_mm (shape, 0.5 * shape->length_mm)
                            + tl_sleeve_inner_half_mm (shape, 0.5 * shape->length_mm))
                               / 2.0 * view->scale);
    }
  tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE,
                    view->x + shape->start_mm * view->scale - 8.0 * d->px, view->y,
                    view->x + shape->end_mm * view->scale + 8.0 * d->px, view->y);
}
