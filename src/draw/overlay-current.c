/* overlay-current.c: where the current flows: arrows as wide as their share, percentages where it splits.
 *
 * A stack carries its current from the first conductor through what lies between, and a little by way of the bolt. A
 * sleeve carries it by its barrel, and where conductors lie side by side from one to the other.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* --- stack --- */

typedef struct
{
  const TlSolid *solid;
  double         y;     /* units: middle of the wire or tang */
  double         crest; /* units: from the axis to the middle of its ring */
  int            side;  /* of its lead in the section, 0 out of the plane */
} Conductor;

static gboolean
conductor_of (const TlDrawing *d, guint body, Conductor *c)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  const TlBody *b = tl_assembly_body (d->assembly, body);

  if (b->solids->len == 0)
    return FALSE;
  c->solid = &g_array_index (b->solids, TlSolid, 0);
  c->y = view->y + (c->solid->start_mm + c->solid->end_mm) / 2.0 * view->scale;
  c->crest = (c->solid->inner_mm + c->solid->outer_mm) / 4.0 * view->scale;
  c->side = cos (c->solid->direction_deg * G_PI / 180.0) > 0.94    ? 1
            : cos (c->solid->direction_deg * G_PI / 180.0) < -0.94 ? -1
                                                                   : 0;
  return c->solid->kind != TL_SOLID_ROD;
}

static gboolean
middle_of (const TlDrawing *d, const char *owner, TlBodyRole role, double *y)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  const TlBody *body =
      owner != NULL ? tl_assembly_find_body (d->assembly, owner, role, NULL) : NULL;

  if (body == NULL || body->solids->len == 0)
    return FALSE;
  *y = view->y
       + (g_array_index (body->solids, TlSolid, 0).start_mm
          + g_array_index (body->solids, TlSolid, 0).end_mm)
             / 2.0 * view->scale;
  return TRUE;
}

/* Outer end of what is drawn of a conductor's metal on a side. */
static double
lead_end (const TlDrawing *d, const Conductor *c, const char *owner)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  double        end = -HUGE_VAL;
  int           side = c->side;

  /* the wire of a lug lies at another height: its tang is enough */
  if (c->solid->kind == TL_SOLID_PLATE)
    return view->x + side * MAX (c->solid->length_mm, c->solid->outer_mm / 2.0) * view->scale;

  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (d->shapes, TlShape, i);
      double         x0, y0, x1, y1;

      if (shape->kind == TL_SHAPE_BODY && shape->view == TL_VIEW_SECTION
          && shape->look != TL_LOOK_INSULATION && g_strcmp0 (shape->owner, owner) == 0
          && tl_shape_bounds (d, shape, &x0, &y0, &x1, &y1))
        end = MAX (end, side > 0 ? x1 : -x0);
    }
  return side > 0 ? end : -end;
}

static void
stack_leads (TlDrawing *d, const Conductor *in, const Conductor *out)
{
  double x = d->views[TL_VIEW_SECTION].x, inset = 14.0 * d->px;

  if (in->side != 0)
    {
      double end = lead_end (d, in, tl_heat_field_source (d->options.field)) - in->side * inset;

      end -= in->side * tl_overlay_load_label (d, end, in->y, -in->side);
      tl_overlay_straight (d, end, in->y, x + in->side * (in->crest + 3.0 * d->px), in->y, 1.0);
    }
  if (out->side != 0)
    tl_overlay_straight (
        d, x + out->side * (out->crest + 3.0 * d->px), out->y,
        lead_end (d, out, tl_heat_field_sink (d->options.field)) - out->side * inset, out->y, 1.0);
}

static void
bolt_arrow (TlDrawing *d, const Conductor *in, const Conductor *out, int side, guint tenths)
{
  double x = d->views[TL_VIEW_SECTION].x, head, nut;

  if (!middle_of (d, d->assembly->stack.bolt, TL_BODY_HEAD, &head)
      || !middle_of (d, d->assembly->stack.nut, TL_BODY_NUT, &nut))
    return;

  TlSheetPoint points[] = {
    { x + side * in->crest, in->y }, { x + side * in->crest, head },   { x, head }, { x, nut },
    { x + side * out->crest, nut },  { x + side * out->crest, out->y }
  };

  /* the conductor nearer to the nut may be the first */
  if ((in->y > out->y) != (head > nut))
    {
      points[1].y = points[2].y = nut;
      points[3].y = points[4].y = head;
    }
  tl_overlay_arrow (d, points, G_N_ELEMENTS (points), tenths / 1000.0);
  tl_overlay_label_tenths (d, tenths, x, (nut + 0.35 * (head - nut)));
}

static void
stack_current (TlDrawing *d)
{
  const GArray *paths = tl_heat_field_paths (d->options.field);
  double        shares[2] = { 0.0, 0.0 };
  guint         tenths[2], bodies[2] = { G_MAXUINT, G_MAXUINT };
  Conductor     in, out;
  int           side;

  for (guint i = 0; i < paths->len; i++)
    {
      const TlCurrentPath *path = &g_array_index (paths, TlCurrentPath, i);

      if (g_strcmp0 (path->from_owner, tl_heat_field_source (d->options.field)) == 0)
        {
          shares[path->contact == G_MAXUINT ? 1 : 0] += path->share_ratio;
          bodies[0] = path->from;
        }
      if (g_strcmp0 (path->to_owner, tl_heat_field_sink (d->options.field)) == 0)
        bodies[1] = path->to;
    }
  if (bodies[0] == G_MAXUINT || bodies[1] == G_MAXUINT || !conductor_of (d, bodies[0], &in)
      || !conductor_of (d, bodies[1], &out))
    return;
  tl_overlay_tenths (shares, 2, tenths);
  side = in.side != 0 ? in.side : out.side != 0 ? -out.side : -1;
  stack_leads (d, &in, &out);
  if (tenths[1] > 0)
    bolt_arrow (d, &in, &out, -side, tenths[1]);
  tl_overlay_straight (d, d->views[TL_VIEW_SECTION].x + side * in.crest, in.y,
                       d->views[TL_VIEW_SECTION].x + side * out.crest, out.y, shares[0]);
  tl_overlay_label_tenths (d, tenths[0],
                           d->views[TL_VIEW_SECTION].x + side * (in.crest + 4.0 * d->px),
                           (in.y + out.y) / 2.0);
}

/* --- sleeve --- */

typedef struct
{
  TlDrawing    *d;
  TlSleeveShape shape;
} Sleeve;

static const TlSleeveRod *
rod_of (const Sleeve *s, guint body)
{
  const TlBody *wanted = tl_assembly_body (s->d->assembly, body);

  for (guint i = 0; i < s->shape.n_cores; i++)
    if (s->shape.cores[i].body == wanted)
      return &s->shape.cores[i];
  return NULL;
}

static double
at_x (const Sleeve *s, double x_mm)
{
  return s->d->views[TL_VIEW_SECTION].x + x_mm * s->d->views[TL_VIEW_SECTION].scale;
}

static double
core_y (const Sleeve *s, const TlSleeveRod *rod, double x_mm)
{
  return s->d->views[TL_VIEW_SECTION].y
         + tl_sleeve_squeezed_mm (&s->shape, x_mm, tl_sleeve_rod_at (rod, x_mm))
               * s->d->views[TL_VIEW_SECTION].scale;
}

/* Middle of the wall above (-1) or below (1). */
static double
wall_y (const Sleeve *s, double x_mm, int way)
{
  return s->d->views[TL_VIEW_SECTION].y
         + way
               * (tl_sleeve_outer_half_mm (&s->shape, x_mm)
                  + tl_sleeve_inner_half_mm (&s->shape, x_mm))
               / 2.0 * s->d->views[TL_VIEW_SECTION].scale;
}

/* A conductor from its drawn end into the barrel, or out of it. */
static void
lead_arrow (const Sleeve *s, const char *owner, gboolean comes)
{
  TlDrawing         *d = s->d;
  const TlSleeveRod *inner = NULL, *outer = NULL;
  double             start = HUGE_VAL, end = -HUGE_VAL, out, in, x0, y0;
  gboolean           is_left;

  for (guint i = 0; i < s->shape.n_cores; i++)
    {
      const TlSleeveRod *rod = &s->shape.cores[i];

      if (g_strcmp0 (rod->body->owner, owner) != 0)
        continue;
      start = MIN (start, rod->start_mm);
      end = MAX (end, rod->end_mm);
      if (inner == NULL
          || fabs (rod->start_mm + rod->end_mm - s->shape.length_mm)
                 < fabs (inner->start_mm + inner->end_mm - s->shape.length_mm))
        inner = rod;
      if (outer == NULL
          || fabs (rod->start_mm + rod->end_mm - s->shape.length_mm)
                 > fabs (outer->start_mm + outer->end_mm - s->shape.length_mm))
        outer = rod;
    }
  if (inner == NULL)
    return;
  is_left = start < s->shape.length_mm - end;
  out = is_left ? MAX (start, s->shape.start_mm) : MIN (end, s->shape.end_mm);
  in = is_left
           ? 0.42 * MIN (end, 0.5 * s->shape.length_mm)
           : s->shape.length_mm - 0.42 * MIN (s->shape.length_mm - start, 0.5 * s->shape.length_mm);
  y0 = core_y (s, outer, out);
  x0 = at_x (s, out) + (is_left ? 14.0 : -14.0) * d->px;
  if (comes)
    x0 += (is_left ? 1.0 : -1.0) * tl_overlay_load_label (d, x0, y0, is_left ? 1 : -1);

  /* a core may go over to another height at the mouth */
  TlSheetPoint points[] = { { x0, y0 },
                            { at_x (s, is_left ? MIN (inner->start_mm, 0.0)
                                               : MAX (inner->end_mm, s->shape.length_mm)),
                              y0 },
                            { at_x (s, in), core_y (s, inner, in) } };

  if (!comes)
    {
      TlSheetPoint swap = points[0];

      points[0] = points[2];
      points[2] = swap;
    }
  tl_overlay_arrow (d, points, G_N_ELEMENTS (points), 1.0);
}

/* Of the stretch over which a path crosses: where its arrow stands. */
static double
along_mm (const TlCurrentPath *path, double share)
{
  double low = MIN (path->x0_mm, path->x1_mm), high = MAX (path->x0_mm, path->x1_mm);

  return low + share * (high - low);
}

static void
label_outside (const Sleeve *s, guint tenths, double x, int way)
{
  TlDrawing       *d = s->d;
  g_autofree char *text = tl_overlay_percent (d, tenths);
  double y = d->views[TL_VIEW_SECTION].y + way * s->shape.half_mm * d->views[TL_VIEW_SECTION].scale;

  (void) (tl_overlay_label (d, text, x, y + way * 0.3 * d->text, TRUE)
          || tl_overlay_label (d, text, x, y + way * 2.0 * d->text, TRUE));
}

/* Into the barrel by one conductor, along or round its wall, out into another. */
static void
wall_arrow (const Sleeve *s, const TlCurrentPath *in, const TlCurrentPath *out, guint tenths)
{
  const TlSleeveRod *from = rod_of (s, in->from), *to = rod_of (s, out->to);
  gboolean           is_forward = along_mm (out, 0.5) >= along_mm (in, 0.5) - 1e-6;
  gboolean           is_beside = s->d->assembly->sleeve.overlaps;
  double             x0 = along_mm (in, is_beside ? (is_forward ? 0.3 : 0.7) : 0.5),
         x1 = along_mm (out, is_beside ? (is_forward ? 0.7 : 0.3) : 0.5);
  double share = tenths / 1000.0;
  int    way, back;

  if (from == NULL || to == NULL)
    return;
  way = tl_sleeve_rod_at (from, x0) <= 1e-6 ? -1 : 1;
  back = tl_sleeve_rod_at (to, x1) < -1e-6 ? -1 : tl_sleeve_rod_at (to, x1) > 1e-6 ? 1 : way;
  if (back != way)
    {
      /* round the wall, which a section cannot show: in at one side, out at the other */
      tl_overlay_straight (s->d, at_x (s, x0), core_y (s, from, x0), at_x (s, x0),
                           wall_y (s, x0, way) + way * 2.0 * s->d->px, share);
      tl_overlay_straight (s->d, at_x (s, x1), wall_y (s, x1, back) + back * 2.0 * s->d->px,
                           at_x (s, x1), core_y (s, to, x1), share);
      label_outside (s, tenths, at_x (s, x0), way);
      label_outside (s, tenths, at_x (s, x1), back);
      return;
    }

  TlSheetPoint points[] = { { at_x (s, x0), core_y (s, from, x0) },
                            { at_x (s, x0), wall_y (s, x0, way) },
                            { at_x (s, x1), wall_y (s, x1, way) },
                            { at_x (s, x1), core_y (s, to, x1) } };

  tl_overlay_arrow (s->d, points, G_N_ELEMENTS (points), share);
  label_outside (s, tenths, (points[1].x + points[2].x) / 2.0, way);
}

static void
core_arrow (const Sleeve *s, const TlCurrentPath *path, guint tenths)
{
  const TlSleeveRod *from = rod_of (s, path->from), *to = rod_of (s, path->to);
  double             x = along_mm (path, 0.5);

  if (from == NULL || to == NULL)
    return;
  tl_overlay_straight (s->d, at_x (s, x), core_y (s, from, x), at_x (s, x), core_y (s, to, x),
                       tenths / 1000.0);
  tl_overlay_label_tenths (s->d, tenths, at_x (s, x),
                           (core_y (s, from, x) + core_y (s, to, x)) / 2.0);
}

static gboolean
is_barrel (const Sleeve *s, guint body)
{
  return tl_assembly_body (s->d->assembly, body) == s->shape.barrel;
}

/* The wall's current enters by some conductors and leaves by others: each that enters goes on to the largest that
 * takes it. */
static void
sleeve_current (TlDrawing *d)
{
  Sleeve               s = { .d = d };
  const GArray        *paths = tl_heat_field_paths (d->options.field);
  const TlCurrentPath *largest = NULL;
  double               shares[TL_OVERLAY_MOST_PATHS];
  guint                tenths[TL_OVERLAY_MOST_PATHS], n = 0, out[TL_OVERLAY_MOST_PATHS];

  tl_sleeve_shape (d, &s.shape);
  lead_arrow (&s, tl_heat_field_source (d->options.field), TRUE);
  lead_arrow (&s, tl_heat_field_sink (d->options.field), FALSE);
  for (guint i = 0; i < paths->len && n < TL_OVERLAY_MOST_PATHS; i++)
    {
      const TlCurrentPath *path = &g_array_index (paths, TlCurrentPath, i);

      if (is_barrel (&s, path->from)
          && (largest == NULL || path->share_ratio > largest->share_ratio))
        largest = path;
      if (g_strcmp0 (path->from_owner, tl_heat_field_source (d->options.field)) != 0)
        continue;
      shares[n] = path->share_ratio;
      out[n++] = i;
    }
  tl_overlay_tenths (shares, n, tenths);
  for (guint k = 0; k < n; k++)
    {
      const TlCurrentPath *path = &g_array_index (paths, TlCurrentPath, out[k]);

      if (tenths[k] == 0)
        continue;
      if (!is_barrel (&s, path->to))
        core_arrow (&s, path, tenths[k]);
      else if (largest != NULL)
        wall_arrow (&s, path, largest, tenths[k]);
    }
}

/* --- band --- */

static void
key (TlDrawing *d, double y)
{
  static const double shares[] = { 1.0, 0.5, 0.1 };
  double              x = 22.0 * d->px;
  const TlHeatField  *field = d->options.field;
  double              years = tl_heat_field_years (field);
  g_autofree char    *load = tl_overlay_number (d, tl_heat_field_load_A (field));
  g_autofree char    *age = tl_overlay_number (d, years);
  g_autofree char    *line = NULL, *second = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      g_autofree char *text = tl_overlay_percent (d, (guint) lround (shares[i] * 1000.0));

      tl_overlay_straight (d, x, y + 20.0 * d->px, x + 40.0 * d->px, y + 20.0 * d->px, shares[i]);
      d->view = TL_VIEW_SHEET;
      tl_shape_text (d, TL_INK_INK, text, x + 18.0 * d->px, y + 40.0 * d->px, d->text, FALSE, 0.5);
      x += 56.0 * d->px;
    }
  x += 8.0 * d->px;
  line = tl_wording_fill (tl_draw_text (d, TL_N_ ("Width of an arrow = share of {load} A")), "load",
                          load, NULL);
  second = years > 0.0 ? tl_wording_fill (
               tl_draw_text (d, TL_N_ ("After {years} years. Indicative.")), "years", age, NULL)
                       : g_strdup (tl_draw_text (d, TL_N_ ("New. The figures are estimates.")));
  tl_overlay_text (d, TL_INK_INK, line, x, y + 22.0 * d->px, d->options.width - 14.0 * d->px, TRUE);
  tl_overlay_text (d, TL_INK_MUTED, second, x, y + 40.0 * d->px, d->options.width - 14.0 * d->px,
                   FALSE);
}

void
tl_overlay_current (TlDrawing *d, double y)
{
  if (d->options.show_section && d->assembly->family == TL_FAMILY_STACK)
    stack_current (d);
  else if (d->options.show_section && d->assembly->family == TL_FAMILY_SLEEVE)
    sleeve_current (d);
  else if (d->options.show_section)
    tl_overlay_terminal_current (d);
  if (y < d->options.height)
    key (d, y);
  d->view = TL_VIEW_SHEET;
}
