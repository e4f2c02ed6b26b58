/* terminal-end-view.c: A–A across a terminal under its first screw or spring, and across a splice; contacts along them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/terminal-private.h"

#define SLOT_RATIO 0.2
#define SPRING_MM 0.5

typedef struct
{
  TlDrawing    *d;
  const TlView *view;
  double        cut_mm;
} Cross;

static double
cx (const Cross *c, double y_mm)
{
  return c->view->x + y_mm * c->view->scale;
}

static double
cy (const Cross *c, double z_mm)
{
  return c->view->y + z_mm * c->view->scale;
}

static void
circle (const Cross *c, double y_mm, double z_mm, double diameter_mm)
{
  tl_path_begin (c->d);
  tl_path_circle (c->d, cx (c, y_mm), cy (c, z_mm), diameter_mm / 2.0 * c->view->scale);
}

static void
box (const Cross *c, const TlBody *body, const TlSolid *s)
{
  tl_path_begin (c->d);
  tl_path_rectangle (c->d, cx (c, s->u_mm - s->inner_mm / 2.0), cy (c, s->v_mm - s->outer_mm / 2.0),
                     cx (c, s->u_mm + s->inner_mm / 2.0), cy (c, s->v_mm + s->outer_mm / 2.0));
  tl_shape_body (c->d, body, TRUE, TL_LINE_CUT);
  if (s->bore_mm <= 0.0)
    return;
  circle (c, s->u_mm, s->v_mm, s->bore_mm);
  tl_shape_look (c->d, body->owner, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
}

/* Of a bent spring A–A meets the tip alone. */
static void
spring_tip (const Cross *c, const TlBody *body, const TlSolid *s)
{
  guint   port = (guint) g_ascii_strtoull (strrchr (body->id, '-') + 1, NULL, 10);
  double  side = ((port - 1) / 2) % 2 == 0 ? 1.0 : -1.0, thick = MIN (SPRING_MM, s->outer_mm);
  TlSolid tip = *s;

  tip.v_mm = s->v_mm + side * (s->outer_mm - thick) / 2.0;
  tip.outer_mm = thick;
  box (c, body, &tip);
}

static void
screw (const Cross *c, const TlBody *body, const TlSolid *s)
{
  double r = s->outer_mm / 2.0, slot = SLOT_RATIO * s->outer_mm;
  double way = s->z1_mm > s->z0_mm ? 1.0 : -1.0;

  tl_path_begin (c->d);
  tl_path_rectangle (c->d, cx (c, s->y0_mm - r), cy (c, s->z0_mm), cx (c, s->y0_mm + r),
                     cy (c, s->z1_mm));
  tl_shape_look (c->d, body->owner, body->look, FALSE, TL_LINE_EDGE);
  for (int side = -1; side <= 1; side += 2)
    tl_shape_segment (c->d, TL_INK_INK, TL_LINE_THIN, cx (c, s->y0_mm + side * 0.82 * r),
                      cy (c, s->z0_mm), cx (c, s->y0_mm + side * 0.82 * r), cy (c, s->z1_mm));
  tl_path_begin (c->d);
  tl_path_rectangle (c->d, cx (c, s->y0_mm - slot / 2.0), cy (c, s->z0_mm),
                     cx (c, s->y0_mm + slot / 2.0), cy (c, s->z0_mm + way * 1.3 * slot));
  tl_shape_look (c->d, body->owner, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
}

static void
round_body (const Cross *c, const TlBody *body, const TlSolid *s)
{
  circle (c, s->u_mm, s->v_mm, s->outer_mm);
  tl_shape_body (c->d, body, body->strands < 2, TL_LINE_EDGE);
  if (body->strands > 1)
    tl_cells_strands (c->d, cx (c, s->u_mm), cy (c, s->v_mm), s->outer_mm / 2.0 * c->view->scale,
                      body->strands, body);
}

/* From the outside to the inside, screws last. */
static guint
step_of (const TlBody *body)
{
  switch (body->role)
    {
    case TL_BODY_SEAL:
    case TL_BODY_CAP:
      return 0;
    case TL_BODY_ADHESIVE:
      return 1;
    case TL_BODY_HOUSING:
      return 2;
    case TL_BODY_TERMINAL:
      return g_str_has_suffix (body->id, "/metal") ? 3 : 8;
    case TL_BODY_COMPOUND:
    case TL_BODY_SOLDER:
    case TL_BODY_WELD:
    case TL_BODY_FILLER:
      return 4;
    case TL_BODY_INSULATION:
      return 5;
    case TL_BODY_FERRULE:
      return 6;
    case TL_BODY_CORE:
      return 7;
    case TL_BODY_SPRING:
      return 9;
    case TL_BODY_SCREW:
      return 10;
    case TL_BODY_HEAD:
    case TL_BODY_SHANK:
    case TL_BODY_NUT:
    case TL_BODY_WASHER:
    case TL_BODY_EYE:
    case TL_BODY_TANG:
    case TL_BODY_LUG_BARREL:
    case TL_BODY_BARREL:
    default:
      return G_MAXUINT;
    }
}

static void
draw_body (const Cross *c, const TlBody *body)
{
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);

      if (s->kind == TL_SOLID_ROD && body->role == TL_BODY_SCREW)
        {
          if (fabs (s->x0_mm - c->cut_mm) < s->outer_mm / 2.0)
            screw (c, body, s);
        }
      else if (s->kind != TL_SOLID_ROD && s->start_mm < c->cut_mm && s->end_mm > c->cut_mm)
        {
          if (body->role == TL_BODY_SPRING)
            spring_tip (c, body, s);
          else if (s->kind == TL_SOLID_BLOCK)
            box (c, body, s);
          else
            round_body (c, body, s);
        }
    }
}

static void
draw_all (const Cross *c)
{
  c->d->view = TL_VIEW_END;
  for (guint step = 0; step <= 10; step++)
    for (guint i = 0; i < c->d->assembly->bodies->len; i++)
      if (step_of (c->d->assembly->bodies->pdata[i]) == step)
        draw_body (c, c->d->assembly->bodies->pdata[i]);
}

static void
axes (const Cross *c, double y, double z, double half_y, double half_z)
{
  double over = 7.0 * c->d->px;

  tl_shape_segment (c->d, TL_INK_CENTRE, TL_LINE_CENTRE, cx (c, y - half_y) - over, cy (c, z),
                    cx (c, y + half_y) + over, cy (c, z));
  tl_shape_segment (c->d, TL_INK_CENTRE, TL_LINE_CENTRE, cx (c, y), cy (c, z - half_z) - over,
                    cx (c, y), cy (c, z + half_z) + over);
}

void
tl_terminal_end_view (TlDrawing *d, const TlTerminalShape *shape)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;
  Cross                    c = { d, &d->views[TL_VIEW_END], shape->cut_mm };
  g_autofree char         *figure = tl_dimension_figure (d, figures->bore_mm);
  double                   half = figures->bore_mm / 2.0;

  draw_all (&c);
  for (guint i = 0; i < (figures->ports + 1) / 2; i++)
    axes (&c, (i / 2) * figures->column_mm, i % 2 * figures->row_mm, half, half);
  if (!d->options.show_dimensions)
    return;
  d->view = TL_VIEW_SHEET;
  tl_dimension_upright (d, cy (&c, -half), cy (&c, half), cx (&c, 0.0),
                        cx (&c, shape->y1_mm) + 16.0 * d->px, 0.5, figure);
}

/* --- splice --- */

void
tl_splice_end_view (TlDrawing *d, double cut_mm)
{
  Cross  c = { d, &d->views[TL_VIEW_END], cut_mm };
  double half = tl_splice_end_half_mm (d);

  draw_all (&c);
  axes (&c, 0.0, 0.0, half, half);
}

/* --- contacts of a terminal --- */

static const TlTerminalStrip *
strip_of (const TlDrawing *d, const TlTerminalShape *shape, const TlContact *contact)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;
  guint                    column =
      (guint) CLAMP (contact->at_y_mm / figures->column_mm + 0.5, 0.0, figures->columns - 1.0);
  guint row = contact->at_z_mm > figures->row_mm / 2.0 ? 1 : 0;
  guint index = shape->is_level ? 2 * column + row : column;

  return &shape->strips[MIN (index, shape->n - 1)];
}

static gboolean
is_core (const TlDrawing *d, guint body)
{
  TlBodyRole role = tl_assembly_body (d->assembly, body)->role;

  return role == TL_BODY_CORE || role == TL_BODY_FERRULE;
}

/* Ends that face each other have an upright line, screws in their thread too; the rest lies along. */
static gboolean
is_across (const TlDrawing *d, const TlContact *contact)
{
  const TlBody *a = tl_assembly_body (d->assembly, contact->a),
               *b = tl_assembly_body (d->assembly, contact->b);

  if (is_core (d, contact->a) && is_core (d, contact->b))
    {
      const TlSolid *p = &g_array_index (a->solids, TlSolid, 0),
                    *q = &g_array_index (b->solids, TlSolid, 0);

      return MIN (p->end_mm, q->end_mm) <= MAX (p->start_mm, q->start_mm) + 0.05;
    }
  return a->role == TL_BODY_TERMINAL && b->role == TL_BODY_SCREW
         && g_str_has_suffix (a->id, "/metal");
}

static void
face (TlDrawing *d, const TlTerminalShape *shape, guint index, const TlContact *contact)
{
  const TlView          *view = &d->views[TL_VIEW_SECTION];
  const TlTerminalStrip *strip = strip_of (d, shape, contact);
  double across = (shape->is_level ? contact->at_y_mm : contact->at_z_mm) + strip->offset_mm;
  double half = CLAMP (contact->rim_mm / 4.0, 0.5, 2.0) * view->scale;
  double x = view->x + contact->at_x_mm * view->scale, y = view->y + across * view->scale;

  if (is_across (d, contact))
    tl_face_add (d, index, x, y - 0.6 * view->scale, x, y + 0.6 * view->scale);
  else
    tl_face_add (d, index, x - half, y, x + half, y);
}

void
tl_terminal_faces (TlDrawing *d, const TlTerminalShape *shape)
{
  d->view = TL_VIEW_SECTION;
  for (guint i = 0; d->options.show_contacts && i < d->assembly->contacts->len; i++)
    face (d, shape, i, &g_array_index (d->assembly->contacts, TlContact, i));
}
