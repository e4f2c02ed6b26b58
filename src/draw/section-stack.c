/* section-stack.c: the section through the bolt axis.
 *
 * Washers, eyes, flats and insulation are cut; bolt and nut are drawn whole with thread and chamfer (ISO 128). A
 * lead that does not lie in the plane is left to the end view, where it is seen in its true direction.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

typedef struct
{
  TlDrawing           *d;
  const TlStackExtent *extent;
  double               x, y, scale;
} Section;

static double
sx (const Section *s, double x_mm)
{
  return s->x + x_mm * s->scale;
}

static double
sz (const Section *s, const char *owner, double z_mm)
{
  return s->y + (z_mm + tl_stack_shift_mm (s->d, owner)) * s->scale;
}

/* Side of the section a rod lies on: -1, 1, or 0 if it does not lie in the plane. */
static int
side_of_rod (const TlSolid *rod)
{
  double dx = rod->x1_mm - rod->x0_mm, dy = rod->y1_mm - rod->y0_mm;

  return fabs (dy) > 0.35 * fabs (dx) ? 0 : dx > 0.0 ? 1 : -1;
}

static int
side_of_direction (double direction_deg)
{
  double c = cos (direction_deg * G_PI / 180.0);

  return c > 0.94 ? 1 : c < -0.94 ? -1 : 0;
}

/* --- cut rings --- */

/* The face towards the nut of a bimetal washer is of its other metal. */
static const TlMaterial *
other_face (const Section *s, const TlBody *body)
{
  const TlLayer *layer = tl_joint_layer (s->d->assembly->joint, body->owner);
  const char    *other = layer != NULL
                             ? tl_layer_word (layer, s->d->assembly->stock, TL_FIELD_OTHER_FACE, NULL)
                             : NULL;

  return other != NULL ? tl_stock_material (s->d->assembly->stock, other) : NULL;
}

static void
cut_ring (const Section *s, const TlBody *body, const TlSolid *solid)
{
  const TlMaterial *other = other_face (s, body);
  double y0 = sz (s, body->owner, solid->start_mm), y1 = sz (s, body->owner, solid->end_mm);
  double left = sx (s, solid->u_mm), inner = solid->inner_mm / 2.0 * s->scale,
         outer = solid->outer_mm / 2.0 * s->scale;

  if (inner > 0.0)
    {
      tl_path_begin (s->d);
      tl_path_rectangle (s->d, left - inner, y0, left + inner, y1);
      tl_shape_look (s->d, body->owner, body->look, FALSE, TL_LINE_THIN);
    }
  for (int side = -1; side <= 1; side += 2)
    {
      tl_path_begin (s->d);
      tl_path_rectangle (s->d, left + side * inner, y0, left + side * outer, y1);
      tl_shape_body (s->d, body, TRUE, TL_LINE_CUT);
      if (other == NULL)
        continue;
      tl_path_begin (s->d);
      tl_path_rectangle (s->d, left + side * inner, (y0 + y1) / 2.0, left + side * outer, y1);
      tl_shape_look (s->d, body->owner, other->look, TRUE, TL_LINE_CUT);
    }
  tl_target_add (s->d, body->owner, left - (inner + outer) / 2.0, (y0 + y1) / 2.0);
}

/* --- eyes and leads --- */

static const TlSolid *
rod_of (const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *solid = &g_array_index (body->solids, TlSolid, i);

      if (solid->kind == TL_SOLID_ROD)
        return solid;
    }
  return NULL;
}

/* The far end of a lead: broken off with a curve. */
static void
break_end (const Section *s, double x, double y0, double y1, int side)
{
  double h = y1 - y0, swing = 0.3 * h * side;

  tl_path_curve (s->d, x + swing, y0 + 0.28 * h, x + swing, y0 + 0.42 * h, x, y0 + 0.5 * h);
  tl_path_curve (s->d, x - swing, y0 + 0.58 * h, x - swing, y0 + 0.72 * h, x, y1);
}

/* The same curve, drawn upwards. */
static void
break_up (const Section *s, double x, double y0, double y1, int side)
{
  double h = y1 - y0, swing = 0.3 * h * side;

  tl_path_curve (s->d, x - swing, y0 + 0.72 * h, x - swing, y0 + 0.58 * h, x, y0 + 0.5 * h);
  tl_path_curve (s->d, x + swing, y0 + 0.42 * h, x + swing, y0 + 0.28 * h, x, y0);
}

/* A bar from @from_mm to the break at the edge of the section, round at its inner end if @is_round. */
static void
bar (const Section *s, double from_mm, double to_mm, double y0, double y1, int side,
     gboolean is_round, gboolean is_broken)
{
  double x0 = sx (s, side * from_mm), x1 = sx (s, side * to_mm), r = (y1 - y0) / 2.0;

  tl_path_begin (s->d);
  if (is_round)
    {
      tl_path_move (s->d, x0 + side * r, y0);
      tl_path_line (s->d, x1, y0);
    }
  else
    {
      tl_path_move (s->d, x0, y0);
      tl_path_line (s->d, x1, y0);
    }
  if (is_broken)
    break_end (s, x1, y0, y1, side);
  else
    tl_path_line (s->d, x1, y1);
  if (is_round && side > 0)
    tl_path_arc (s->d, x0 + r, y0 + r, r, G_PI / 2.0, 3.0 * G_PI / 2.0, FALSE);
  else if (is_round)
    tl_path_arc (s->d, x0 - r, y0 + r, r, G_PI / 2.0, -G_PI / 2.0, FALSE);
  else
    tl_path_line (s->d, x0, y1);
  tl_path_close (s->d);
}

/* Where the insulation of this leg begins on the drawing, and what was left out before it; FALSE if it is bare. */
static gboolean
insulation_from (const Section *s, const TlBody *body, double *from_mm, double *left_out_mm)
{
  const TlBody  *cover = tl_stack_cover (s->d, body);
  const TlSolid *rod = cover != NULL ? rod_of (cover) : NULL;

  if (rod == NULL)
    return FALSE;
  *left_out_mm = tl_stack_left_out_mm (s->extent, hypot (rod->x0_mm, rod->y0_mm));
  *from_mm = hypot (rod->x0_mm, rod->y0_mm) - *left_out_mm;
  return TRUE;
}

/* The piece behind an interruption at @at_mm: it begins with the same curve, and ends with it if the lead goes on. */
static void
far_piece (const Section *s, const TlBody *body, double at_mm, double to_mm, double y0, double y1,
           int side, gboolean is_broken)
{
  double near = sx (s, side * (at_mm + 0.5)), far = sx (s, side * to_mm);

  tl_path_begin (s->d);
  tl_path_move (s->d, near, y0);
  break_end (s, near, y0, y1, side);
  tl_path_line (s->d, far, y1);
  if (is_broken)
    break_up (s, far, y0, y1, side);
  else
    tl_path_line (s->d, far, y0);
  tl_path_close (s->d);
  tl_shape_body (s->d, body, TRUE, body->role == TL_BODY_LUG_BARREL ? TL_LINE_EDGE : TL_LINE_CUT);
}

/* A lead to the edge of the section; a long bare length is interrupted, so that its insulation is still seen. */
static void
lead (const Section *s, const TlBody *body, double from_mm, double y0, double y1, int side,
      gboolean is_round)
{
  double from, left_out, at;

  if (!insulation_from (s, body, &from, &left_out) || left_out <= 0.0)
    {
      bar (s, from_mm, s->extent->lead_mm, y0, y1, side, is_round, TRUE);
      tl_shape_body (s->d, body, TRUE, TL_LINE_CUT);
      return;
    }
  at = MAX (s->extent->reach_mm, from_mm) + 0.5 * (from - MAX (s->extent->reach_mm, from_mm));
  bar (s, from_mm, at, y0, y1, side, is_round, TRUE);
  tl_shape_body (s->d, body, TRUE, TL_LINE_CUT);
  far_piece (s, body, at, s->extent->lead_mm, y0, y1, side, TRUE);
}

static void
cut_eye (const Section *s, const TlBody *body, const TlSolid *eye)
{
  const TlSolid *rod = rod_of (body);
  int            side = rod != NULL ? side_of_rod (rod) : side_of_direction (eye->direction_deg);
  double         y0 = sz (s, body->owner, eye->start_mm), y1 = sz (s, body->owner, eye->end_mm),
         r = (y1 - y0) / 2.0;
  double crest = (eye->inner_mm + eye->outer_mm) / 4.0, x = sx (s, eye->u_mm);

  /* the half of the turn that is seen behind the bolt */
  tl_path_begin (s->d);
  tl_path_rectangle (s->d, x - crest * s->scale, y0, x + crest * s->scale, y1);
  tl_shape_look (s->d, body->owner, body->look, FALSE, TL_LINE_EDGE);
  for (int at = -1; at <= 1; at += 2)
    {
      if (at == side)
        lead (s, body, eye->inner_mm / 2.0 + at * eye->u_mm, y0, y1, side, TRUE);
      else
        {
          tl_path_begin (s->d);
          tl_path_circle (s->d, x + at * crest * s->scale, y0 + r, r);
          tl_shape_body (s->d, body, TRUE, TL_LINE_CUT);
        }
    }
  tl_target_add (
      s->d, body->owner,
      side < 0 ? sx (s, -(s->extent->reach_mm + crest) / 2.0 - 0.4) : x - crest * s->scale, y0 + r);
}

static void
cut_plate (const Section *s, const TlBody *body, const TlSolid *plate)
{
  double y0 = sz (s, body->owner, plate->start_mm), y1 = sz (s, body->owner, plate->end_mm);
  int    side = side_of_direction (plate->direction_deg);

  tl_path_begin (s->d);
  tl_path_rectangle (s->d, sx (s, -plate->inner_mm / 2.0), y0, sx (s, plate->inner_mm / 2.0), y1);
  tl_shape_look (s->d, body->owner, body->look, FALSE, TL_LINE_THIN);
  for (int at = -1; at <= 1; at += 2)
    {
      bar (s, plate->inner_mm / 2.0,
           at == side ? MIN (MAX (plate->length_mm, plate->outer_mm / 2.0), s->extent->lead_mm)
                      : plate->outer_mm / 2.0,
           y0, y1, at, FALSE, FALSE);
      tl_shape_body (s->d, body, TRUE, TL_LINE_CUT);
    }
  tl_target_add (s->d, body->owner, sx (s, -(plate->inner_mm + plate->outer_mm) / 4.0),
                 (y0 + y1) / 2.0);
}

/* A core in the barrel of a lug, or a wall of that barrel, from @from_mm on; a long one is interrupted as a lead is. */
static void
wall (const Section *s, const TlBody *body, const TlSolid *rod, double from_mm, double y0,
      double y1, int side)
{
  gboolean is_core = body->role == TL_BODY_CORE;
  double   full = fabs (rod->x1_mm), to = MIN (full, s->extent->lead_mm), from, left_out, at;

  if (!insulation_from (s, body, &from, &left_out) || left_out <= 0.0
      || !(full - left_out > from_mm))
    {
      bar (s, from_mm, to, y0, y1, side, FALSE, is_core && full > to);
      tl_shape_body (s->d, body, TRUE, is_core ? TL_LINE_CUT : TL_LINE_EDGE);
      return;
    }
  at = from_mm + 0.5 * (from - from_mm);
  bar (s, from_mm, at, y0, y1, side, FALSE, TRUE);
  tl_shape_body (s->d, body, TRUE, is_core ? TL_LINE_CUT : TL_LINE_EDGE);
  far_piece (s, body, at, is_core ? to : MIN (full - left_out, to), y0, y1, side, is_core);
}

/* Tube walls (insulation, barrel of a lug) or a solid core along the lead. */
static void
cut_rod (const Section *s, const TlBody *body, const TlSolid *rod)
{
  int      side = side_of_rod (rod);
  double   from = fabs (rod->x0_mm), to = MIN (fabs (rod->x1_mm), s->extent->lead_mm);
  double   outer = rod->outer_mm / 2.0, inner = rod->inner_mm / 2.0;
  double   y = sz (s, body->owner, rod->z0_mm);
  gboolean is_insulation = body->role == TL_BODY_INSULATION;

  if (is_insulation)
    {
      from -= tl_stack_left_out_mm (s->extent, from);
      to = s->extent->lead_mm - MIN (1.0, 0.3 * (s->extent->lead_mm - from));
    }
  if (side == 0 || !(to > from))
    return;
  if (is_insulation)
    for (int half = -1; half <= 1; half += 2)
      {
        bar (s, from, to, y + (half < 0 ? -outer : inner) * s->scale,
             y + (half < 0 ? -inner : outer) * s->scale, side, FALSE, FALSE);
        tl_shape_body (s->d, body, TRUE, TL_LINE_EDGE);
      }
  else if (inner <= 0.0)
    wall (s, body, rod, from, y - outer * s->scale, y + outer * s->scale, side);
  else
    for (int half = -1; half <= 1; half += 2)
      wall (s, body, rod, from, y + (half < 0 ? -outer : inner) * s->scale,
            y + (half < 0 ? -inner : outer) * s->scale, side);
  if (body->role == TL_BODY_CORE)
    tl_target_add (s->d, body->owner, sx (s, side * (from + to) / 2.0), y);
}

/* A sealing sleeve that is shrunk over the whole stack, along the leads: its two walls. */
static void
cut_seal (const Section *s, const TlBody *body, const TlSolid *rod)
{
  double x0 = sx (s, MAX (MIN (rod->x0_mm, rod->x1_mm), -s->extent->lead_mm)),
         x1 = sx (s, MIN (MAX (rod->x0_mm, rod->x1_mm), s->extent->lead_mm));
  double y = s->y + rod->z0_mm * s->scale;

  for (int half = -1; half <= 1; half += 2)
    {
      tl_path_begin (s->d);
      tl_path_rectangle (s->d, x0, y + half * rod->inner_mm / 2.0 * s->scale, x1,
                         y + half * rod->outer_mm / 2.0 * s->scale);
      tl_shape_body (s->d, body, TRUE, TL_LINE_EDGE);
    }
  tl_target_add (s->d, body->owner, x0 + 0.08 * (x1 - x0),
                 y - (rod->inner_mm + rod->outer_mm) / 4.0 * s->scale);
}

static gboolean
is_seal (const TlBody *body)
{
  return body->role == TL_BODY_SEAL || body->role == TL_BODY_ADHESIVE || body->role == TL_BODY_CAP
         || body->role == TL_BODY_FILLER;
}

/* --- bolt and nut, drawn whole --- */

/* The curved edge that a 30° chamfer leaves on each face of a hexagon, at height @y, faces going to @way. */
static void
chamfer_curve (TlDrawing *d, double x0, double x1, double y_corner, double y_face)
{
  double middle = (x0 + x1) / 2.0, control = 2.0 * y_face - y_corner;

  tl_path_curve (d, x0 + (middle - x0) * 2.0 / 3.0, y_corner + (control - y_corner) * 2.0 / 3.0,
                 x1 + (middle - x1) * 2.0 / 3.0, y_corner + (control - y_corner) * 2.0 / 3.0, x1,
                 y_corner);
}

static void
whole_hexagon (const Section *s, const TlBody *body, const TlSolid *hex)
{
  TlDrawing *d = s->d;
  gboolean   is_nut = body->role == TL_BODY_NUT;
  double     y0 = sz (s, body->owner, hex->start_mm), y1 = sz (s, body->owner, hex->end_mm),
         x = sx (s, hex->u_mm);
  double corner = hex->outer_mm / sqrt (3.0) * s->scale, flat = 0.475 * hex->outer_mm * s->scale;
  double drop = MIN ((corner - flat) * tan (G_PI / 6.0), 0.3 * (y1 - y0));
  double face = MIN ((hex->outer_mm / 2.0 * s->scale - flat) * tan (G_PI / 6.0), drop);
  static const double edges[4] = { -1.0, -0.5, 0.5, 1.0 };

  tl_path_begin (d);
  tl_path_move (d, x - flat, y0);
  tl_path_line (d, x + flat, y0);
  tl_path_line (d, x + corner, y0 + drop);
  if (is_nut)
    {
      tl_path_line (d, x + corner, y1 - drop);
      tl_path_line (d, x + flat, y1);
      tl_path_line (d, x - flat, y1);
      tl_path_line (d, x - corner, y1 - drop);
    }
  else
    {
      tl_path_line (d, x + corner, y1);
      tl_path_line (d, x - corner, y1);
    }
  tl_path_line (d, x - corner, y0 + drop);
  tl_path_close (d);
  tl_shape_body (d, body, FALSE, TL_LINE_CUT);

  tl_path_begin (d);
  for (int end = 0; end <= (is_nut ? 1 : 0); end++)
    for (guint i = 0; i < 3; i++)
      {
        double yc = end == 0 ? y0 + drop : y1 - drop, yf = end == 0 ? y0 + face : y1 - face;

        tl_path_move (d, x + corner * edges[i], yc);
        chamfer_curve (d, x + corner * edges[i], x + corner * edges[i + 1], yc, yf);
      }
  for (guint i = 1; i < 3; i++)
    {
      tl_path_move (d, x + corner * edges[i], y0 + drop);
      tl_path_line (d, x + corner * edges[i], is_nut ? y1 - drop : y1);
    }
  tl_shape_line (d, TL_INK_INK, TL_LINE_EDGE)->owner = body->owner;
  tl_target_add (d, body->owner, x - corner * 0.74, (y0 + y1) / 2.0);
}

static void
whole_shank (const Section *s, const TlBody *body, const TlSolid *shank)
{
  TlDrawing *d = s->d;
  double     pitch =
      d->assembly->stack.pitch_mm > 0.0 ? d->assembly->stack.pitch_mm : 0.16 * shank->outer_mm;
  double root_mm = MAX (shank->outer_mm - 1.2269 * pitch, 0.5 * shank->outer_mm);
  double x = sx (s, shank->u_mm), half = shank->outer_mm / 2.0 * s->scale,
         root = root_mm / 2.0 * s->scale;
  double y0 = sz (s, body->owner, shank->start_mm),
         y1 = sz (s, body->owner, shank->end_mm) + d->opened_mm * s->scale;
  double tip = MIN ((half - root), 0.4 * (y1 - y0));

  tl_path_begin (d);
  tl_path_move (d, x - half, y0);
  tl_path_line (d, x + half, y0);
  tl_path_line (d, x + half, y1 - tip);
  tl_path_line (d, x + root, y1);
  tl_path_line (d, x - root, y1);
  tl_path_line (d, x - half, y1 - tip);
  tl_path_close (d);
  tl_shape_body (d, body, FALSE, TL_LINE_CUT);
  tl_path_begin (d);
  tl_path_move (d, x - half, y1 - tip);
  tl_path_line (d, x + half, y1 - tip);
  tl_shape_line (d, TL_INK_INK, TL_LINE_EDGE)->owner = body->owner;
  /* thread after ISO 6410: crest by the outline, root by a thin line */
  tl_path_begin (d);
  for (int side = -1; side <= 1; side += 2)
    {
      tl_path_move (d, x + side * root, y0);
      tl_path_line (d, x + side * root, y1);
    }
  tl_shape_line (d, TL_INK_INK, TL_LINE_THIN)->owner = body->owner;
}

/* --- all of it --- */

static void
draw_body (const Section *s, const TlBody *body, guint pass)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *solid = &g_array_index (body->solids, TlSolid, i);
      gboolean       is_whole =
          body->role == TL_BODY_HEAD || body->role == TL_BODY_NUT || body->role == TL_BODY_SHANK;
      gboolean is_lead = solid->kind == TL_SOLID_ROD;

      if (is_whole ? pass != (body->role == TL_BODY_SHANK ? 2u : 3u)
                   : pass != (is_lead && body->role != TL_BODY_CORE ? 0u : 1u))
        continue;
      if (solid->kind == TL_SOLID_HEX)
        whole_hexagon (s, body, solid);
      else if (body->role == TL_BODY_SHANK)
        whole_shank (s, body, solid);
      else if (solid->kind == TL_SOLID_EYE)
        cut_eye (s, body, solid);
      else if (solid->kind == TL_SOLID_PLATE)
        cut_plate (s, body, solid);
      else if (solid->kind == TL_SOLID_TUBE)
        cut_ring (s, body, solid);
      else if (is_seal (body))
        cut_seal (s, body, solid);
      else if (body->role != TL_BODY_EYE)
        cut_rod (s, body, solid);
    }
}

static void
thickness_of_selected (const Section *s)
{
  const TlDrawing *d = s->d;

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody    *body = d->assembly->bodies->pdata[i];
      const TlSolid   *solid;
      g_autofree char *figure = NULL;

      if (body->role != TL_BODY_WASHER || body->solids->len == 0
          || g_strcmp0 (body->owner, d->options.selected) != 0)
        continue;
      solid = &g_array_index (body->solids, TlSolid, 0);
      figure = tl_dimension_figure (d, solid->end_mm - solid->start_mm);
      tl_dimension_upright (s->d, sz (s, body->owner, solid->start_mm),
                            sz (s, body->owner, solid->end_mm),
                            sx (s, solid->u_mm - solid->outer_mm / 2.0),
                            sx (s, -s->extent->reach_mm) - 14.0 * d->px, 0.5, figure);
      return;
    }
}

static void
grip_length (const Section *s)
{
  const TlStackFigures *stack = &s->d->assembly->stack;
  g_autofree char      *figure = tl_dimension_figure (s->d, stack->grip_mm);

  if (!stack->has_bolt || !stack->has_nut || !(stack->grip_mm > 0.0))
    return;
  tl_dimension_upright (s->d, sz (s, stack->bolt, 0.0), sz (s, stack->nut, stack->grip_mm),
                        sx (s, stack->head_bearing_mm / 2.0),
                        sx (s, s->extent->right_mm) + 28.0 * s->d->px, 0.5, figure);
}

void
tl_stack_section (TlDrawing *d, const TlStackExtent *extent)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  Section       s = { d, extent, view->x, view->y, view->scale };

  d->view = TL_VIEW_SECTION;
  for (guint pass = 0; pass < 4; pass++)
    for (guint i = 0; i < d->assembly->bodies->len; i++)
      draw_body (&s, d->assembly->bodies->pdata[i], pass);
  tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE, view->x,
                    view->y + extent->top_mm * view->scale - 7.0 * d->px, view->x,
                    view->y + (extent->bottom_mm + d->opened_mm) * view->scale + 7.0 * d->px);
  if (!d->options.show_dimensions)
    return;
  d->view = TL_VIEW_SHEET;
  if (d->options.selected != NULL)
    thickness_of_selected (&s);
  if (!d->options.show_contacts && d->options.places == NULL && d->options.zoom <= 0.0)
    grip_length (&s);
}
