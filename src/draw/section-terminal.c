/* section-terminal.c: a terminal cut along its bores, its screws drawn whole.
 *
 * From the back to the front: what is seen behind the plane, compound, what is cut, insulation, conductors, plates, springs,
 * screws. Springs are drawn as they bend; only their tip is true.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/terminal-private.h"

#define SLOT_RATIO 0.2
#define SPRING_MM 0.5
#define SWING 0.3

/* One plane of the section. */
typedef struct
{
  TlDrawing             *d;
  const TlTerminalShape *shape;
  const TlTerminalStrip *strip;
  const TlView          *view;
} Plane;

typedef struct
{
  double   x0, x1, a0, a1; /* along, across */
  double   depth;          /* from the plane towards the back */
  gboolean is_cut;
} Rect;

static double
px (const Plane *p, double x_mm)
{
  return p->view->x + x_mm * p->view->scale;
}

static double
py (const Plane *p, double across_mm)
{
  return p->view->y + (across_mm + p->strip->offset_mm) * p->view->scale;
}

static Rect
rect_of (const Plane *p, const TlSolid *s)
{
  double y = s->u_mm, z = s->v_mm, half_y = s->outer_mm / 2.0, half_z = s->outer_mm / 2.0;
  Rect   rect = { s->start_mm, s->end_mm, 0.0, 0.0, 0.0, FALSE };
  double away, half;

  if (s->kind == TL_SOLID_BLOCK)
    half_y = s->inner_mm / 2.0;
  away = p->shape->is_level ? z - p->strip->plane_mm : y - p->strip->plane_mm;
  half = p->shape->is_level ? half_z : half_y;
  rect.a0 = p->shape->is_level ? y - half_y : z - half_z;
  rect.a1 = p->shape->is_level ? y + half_y : z + half_z;
  rect.depth = away;
  rect.is_cut = fabs (away) < half - 1e-6;
  return rect;
}

/* Whether a part of the terminal belongs to this plane, or is another bore's. */
static gboolean
is_here (const Plane *p, const TlSolid *s)
{
  const TlTerminalFigures *figures = &p->d->assembly->terminal;
  double                   z = s->kind == TL_SOLID_ROD ? s->z1_mm : s->v_mm;
  double                   y = s->kind == TL_SOLID_ROD ? s->y0_mm : s->u_mm;

  if (!p->shape->is_level)
    return fabs (y - p->strip->plane_mm) < figures->column_mm / 2.0 + 1e-6;
  return fabs (z - p->strip->plane_mm) < figures->row_mm / 2.0 + 1e-6
         && fabs (y - p->strip->middle_mm) < figures->column_mm / 2.0 + 1e-6;
}

/* Whether it comes from the left mouth. */
static gboolean
lies_left (const Plane *p, const TlSolid *s)
{
  return s->start_mm < p->d->assembly->terminal.length_mm - s->end_mm + 1e-6;
}

static void
rectangle (const Plane *p, double x0, double x1, double a0, double a1)
{
  tl_path_begin (p->d);
  tl_path_rectangle (p->d, px (p, x0), py (p, a0), px (p, x1), py (p, a1));
}

/* --- housing and metal --- */

static void
metal_behind (const Plane *p, const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      Rect           rect = rect_of (p, s);
      double         middle = (rect.a0 + rect.a1) / 2.0;

      if (s->bore_mm > 0.0 && rect.is_cut && is_here (p, s))
        {
          rectangle (p, rect.x0, rect.x1, middle - s->bore_mm / 2.0, middle + s->bore_mm / 2.0);
          tl_shape_look (p->d, body->owner, body->look, FALSE, TL_LINE_THIN);
        }
      else if (!rect.is_cut && rect.depth > 0.0)
        {
          rectangle (p, rect.x0, rect.x1, rect.a0, rect.a1);
          tl_shape_look (p->d, body->owner, body->look, FALSE, TL_LINE_THIN);
        }
    }
}

static void
metal_cut (const Plane *p, const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      Rect           rect = rect_of (p, s);
      double         middle = (rect.a0 + rect.a1) / 2.0, off, half = s->bore_mm / 2.0;

      if (!rect.is_cut)
        continue;
      off = p->shape->is_level ? p->strip->plane_mm - s->v_mm : p->strip->plane_mm - s->u_mm;
      half = half > fabs (off) ? sqrt (half * half - off * off) : 0.0;
      if (half > 0.0)
        {
          rectangle (p, rect.x0, rect.x1, rect.a0, middle - half);
          tl_shape_body (p->d, body, TRUE, TL_LINE_CUT);
        }
      rectangle (p, rect.x0, rect.x1, half > 0.0 ? middle + half : rect.a0, rect.a1);
      tl_shape_body (p->d, body, TRUE, TL_LINE_CUT);
    }
}

/* --- conductors --- */

/* Centre of a rod across, at @x_mm. */
static double
rod_at (const Plane *p, const TlSolid *s, double x_mm)
{
  double share;

  if (s->kind != TL_SOLID_ROD)
    return p->shape->is_level ? s->u_mm : s->v_mm;
  share = s->x1_mm != s->x0_mm ? CLAMP ((x_mm - s->x0_mm) / (s->x1_mm - s->x0_mm), 0.0, 1.0) : 0.0;
  return p->shape->is_level ? s->y0_mm + share * (s->y1_mm - s->y0_mm)
                            : s->z0_mm + share * (s->z1_mm - s->z0_mm);
}

static void
rod_extent (const Plane *p, const TlSolid *s, double inset, double *from, double *to)
{
  *from = s->kind == TL_SOLID_ROD ? MIN (s->x0_mm, s->x1_mm) : s->start_mm;
  *to = s->kind == TL_SOLID_ROD ? MAX (s->x0_mm, s->x1_mm) : s->end_mm;
  *from = MAX (*from, p->shape->start_mm + inset);
  *to = MIN (*to, p->shape->end_mm - inset);
}

static void
broken (const Plane *p, double x, double y, double height, double way)
{
  double swing = SWING * fabs (height) * way, h = height;

  tl_path_curve (p->d, x + swing, y + 0.28 * h, x + swing, y + 0.42 * h, x, y + 0.5 * h);
  tl_path_curve (p->d, x - swing, y + 0.58 * h, x - swing, y + 0.72 * h, x, y + h);
}

/* From @x0 to @x1 between the sides of a rod; ends at the edge of the section are broken off. */
static void
rod_path (const Plane *p, const TlSolid *s, double x0, double x1)
{
  double half = s->outer_mm / 2.0 * p->view->scale;
  double y0 = py (p, rod_at (p, s, x0)), y1 = py (p, rod_at (p, s, x1));
  double left = px (p, x0), right = px (p, x1);

  tl_path_begin (p->d);
  tl_path_move (p->d, left, y0 - half);
  tl_path_line (p->d, right, y1 - half);
  if (x1 > p->shape->end_mm - 1e-6)
    broken (p, right, y1 - half, 2.0 * half, 1.0);
  else
    tl_path_line (p->d, right, y1 + half);
  tl_path_line (p->d, left, y0 + half);
  if (x0 < p->shape->start_mm + 1e-6)
    broken (p, left, y0 + half, -2.0 * half, -1.0);
  tl_path_close (p->d);
}

static gboolean
in_plane (const Plane *p, const TlBody *body)
{
  const TlSolid *s = &g_array_index (body->solids, TlSolid, 0);

  return s->kind == TL_SOLID_TUBE && is_here (p, s);
}

static void
insulation (const Plane *p, const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      double         from, to;

      rod_extent (p, s, 1.2, &from, &to);
      if (!(to > from))
        continue;
      rod_path (p, s, from, to);
      tl_shape_body (p->d, body, TRUE, TL_LINE_EDGE);
    }
}

static void
conductor (const Plane *p, const TlBody *body)
{
  double from = HUGE_VAL, to = -HUGE_VAL;

  /* Leads first, the bare part over their joints. */
  for (guint i = body->solids->len; i-- > 0;)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);

      rod_extent (p, s, 0.0, &from, &to);
      if (!(to > from))
        continue;
      rod_path (p, s, from, to);
      tl_shape_body (p->d, body, TRUE, TL_LINE_EDGE);
    }
  if (to > from)
    {
      const TlSolid *bare = &g_array_index (body->solids, TlSolid, 0);
      double         end = lies_left (p, bare) ? 0.2 : 0.8;

      /* of several that lie alike each has its own place */
      end += 0.06 * (tl_assembly_number (p->d->assembly, body->owner) % 4);

      tl_target_add (p->d, body->owner, px (p, from + end * (to - from)),
                     py (p, rod_at (p, bare, from)));
    }
}

static void
ferrule (const Plane *p, const TlBody *body)
{
  const TlSolid *s = &g_array_index (body->solids, TlSolid, 0);
  double         middle = rod_at (p, s, s->start_mm), end = lies_left (p, s) ? 0.6 : 0.4;

  for (int side = -1; side <= 1; side += 2)
    {
      rectangle (p, s->start_mm, s->end_mm, middle + side * s->inner_mm / 2.0,
                 middle + side * s->outer_mm / 2.0);
      tl_shape_body (p->d, body, TRUE, TL_LINE_EDGE);
    }
  tl_target_add (p->d, body->owner, px (p, s->start_mm + end * (s->end_mm - s->start_mm)),
                 py (p, middle - (s->inner_mm + s->outer_mm) / 4.0));
}

/* --- what presses --- */

static void
screw (const Plane *p, const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      double         r = s->outer_mm / 2.0, slot = SLOT_RATIO * s->outer_mm;
      double         way = s->z1_mm > s->z0_mm ? 1.0 : -1.0;

      if (p->shape->is_level)
        {
          tl_path_begin (p->d);
          tl_path_circle (p->d, px (p, s->x0_mm), py (p, s->y0_mm), r * p->view->scale);
          tl_shape_line (p->d, TL_INK_INK, TL_LINE_THIN);
          continue;
        }
      rectangle (p, s->x0_mm - r, s->x0_mm + r, s->z0_mm, s->z1_mm);
      tl_shape_look (p->d, body->owner, body->look, FALSE, TL_LINE_EDGE);
      for (int side = -1; side <= 1; side += 2)
        tl_shape_segment (p->d, TL_INK_INK, TL_LINE_THIN, px (p, s->x0_mm + side * 0.82 * r),
                          py (p, s->z0_mm), px (p, s->x0_mm + side * 0.82 * r), py (p, s->z1_mm));
      rectangle (p, s->x0_mm - slot / 2.0, s->x0_mm + slot / 2.0, s->z0_mm,
                 s->z0_mm + way * 1.3 * slot);
      tl_shape_look (p->d, body->owner, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
      tl_shape_segment (p->d, TL_INK_CENTRE, TL_LINE_CENTRE, px (p, s->x0_mm),
                        py (p, s->z0_mm - way * 1.2), px (p, s->x0_mm), py (p, s->z1_mm));
    }
}

/* A bent band from the roof of the bore to the tip that presses. */
static void
spring (const Plane *p, const TlBody *body)
{
  const TlSolid *s = &g_array_index (body->solids, TlSolid, 0);
  gboolean       is_cage = g_strcmp0 (p->d->assembly->terminal.form, "cage-spring") == 0;
  guint          port = (guint) g_ascii_strtoull (strrchr (body->id, '-') + 1, NULL, 10);
  double side = ((port - 1) / 2) % 2 == 0 ? 1.0 : -1.0, outwards = port % 2 == 1 ? -1.0 : 1.0;
  double tip = s->v_mm + side * s->outer_mm / 2.0, roof = s->v_mm - side * s->outer_mm / 2.0;
  double x = (s->start_mm + s->end_mm) / 2.0, reach = outwards * (is_cage ? 2.0 : 3.0);

  if (p->shape->is_level)
    {
      Rect rect = rect_of (p, s);

      rectangle (p, rect.x0, rect.x1, rect.a0, rect.a1);
      tl_shape_look (p->d, body->owner, body->look, FALSE, TL_LINE_EDGE);
      return;
    }
  for (int limb = 0; limb <= (is_cage ? 1 : 0); limb++)
    {
      double way = limb == 0 ? reach : -reach;

      tl_path_begin (p->d);
      tl_path_move (p->d, px (p, x + way), py (p, roof));
      tl_path_curve (p->d, px (p, x + 0.5 * way), py (p, roof), px (p, x + 0.1 * way),
                     py (p, roof + 0.3 * (tip - roof)), px (p, x), py (p, tip));
      tl_path_line (p->d, px (p, x - copysign (SPRING_MM, way)), py (p, tip));
      tl_path_curve (p->d, px (p, x + 0.1 * way - copysign (SPRING_MM, way)),
                     py (p, roof + 0.4 * (tip - roof)), px (p, x + 0.5 * way),
                     py (p, roof + side * SPRING_MM), px (p, x + way),
                     py (p, roof + side * SPRING_MM));
      tl_path_close (p->d);
      tl_shape_body (p->d, body, TRUE, TL_LINE_EDGE);
    }
}

static void
compound (const Plane *p, const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      double         middle = p->shape->is_level ? s->u_mm : s->v_mm;
      double         at = lies_left (p, s) ? 0.93 : 0.07;

      if (!is_here (p, s))
        continue;
      rectangle (p, s->start_mm, s->end_mm, middle - s->outer_mm / 2.0, middle + s->outer_mm / 2.0);
      tl_shape_body (p->d, body, TRUE, TL_LINE_THIN);
      tl_target_add (p->d, body->owner, px (p, s->start_mm + at * (s->end_mm - s->start_mm)),
                     py (p, middle - 0.35 * s->outer_mm));
    }
}

/* --- the whole --- */

static void
layer_of (const Plane *p, guint step, const TlBody *body)
{
  const TlSolid *s = &g_array_index (body->solids, TlSolid, 0);
  gboolean       is_metal = body->role == TL_BODY_TERMINAL && g_str_has_suffix (body->id, "/metal");

  if (step == 0 && (body->role == TL_BODY_HOUSING || is_metal))
    metal_behind (p, body);
  else if (step == 1 && body->role == TL_BODY_COMPOUND)
    compound (p, body);
  else if (step == 2 && (body->role == TL_BODY_HOUSING || is_metal))
    metal_cut (p, body);
  else if (step == 3 && body->role == TL_BODY_INSULATION)
    insulation (p, body);
  else if (step == 4 && body->role == TL_BODY_CORE)
    conductor (p, body);
  else if (step == 5 && body->role == TL_BODY_FERRULE && is_here (p, s))
    ferrule (p, body);
  else if (step == 6 && body->role == TL_BODY_TERMINAL && !is_metal && is_here (p, s)
           && !p->shape->is_level)
    metal_cut (p, body);
  else if (step == 6 && body->role == TL_BODY_SPRING && is_here (p, s))
    spring (p, body);
  else if (step == 7 && body->role == TL_BODY_SCREW && is_here (p, s))
    screw (p, body);
}

static gboolean
is_drawn_here (const Plane *p, const TlBody *body)
{
  const TlBody *core;

  if (body->solids->len == 0)
    return FALSE;
  if (body->role == TL_BODY_CORE)
    return in_plane (p, body);
  if (body->role != TL_BODY_INSULATION)
    return TRUE;
  core = tl_assembly_find_body (p->d->assembly, body->owner, TL_BODY_CORE, NULL);
  return core != NULL && in_plane (p, core);
}

void
tl_terminal_section (TlDrawing *d, const TlTerminalShape *shape)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;

  d->view = TL_VIEW_SECTION;
  for (guint i = 0; i < shape->n; i++)
    {
      Plane p = { d, shape, &shape->strips[i], &d->views[TL_VIEW_SECTION] };

      for (guint step = 0; step < 8; step++)
        for (guint k = 0; k < d->assembly->bodies->len; k++)
          if (is_drawn_here (&p, d->assembly->bodies->pdata[k]))
            layer_of (&p, step, d->assembly->bodies->pdata[k]);
      for (guint row = 0; row < (shape->is_level || figures->ports < 3 ? 1 : 2); row++)
        {
          double axis = shape->is_level ? p.strip->middle_mm : row * figures->row_mm;

          tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE,
                            px (&p, shape->start_mm) - 8.0 * d->px, py (&p, axis),
                            px (&p, shape->end_mm) + 8.0 * d->px, py (&p, axis));
        }
      if (i == 0)
        tl_target_add (d, figures->terminal, px (&p, figures->length_mm / 2.0),
                       py (&p, shape->is_level ? p.strip->middle_mm - figures->column_mm / 2.0 + 0.4
                                               : -figures->row_mm / 2.0 + 0.4));
    }
}
