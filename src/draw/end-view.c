/* end-view.c: the stack seen from the head.
 *
 * Nothing is cut: bodies are laid down from the nut to the head, each hiding what lies below it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

typedef struct
{
  const TlBody  *body;
  const TlSolid *solid;
  double         depth_mm; /* middle along the axis */
  guint          order;
} Piece;

static gint
deepest_first (gconstpointer a, gconstpointer b)
{
  const Piece *p = a, *q = b;

  if (p->depth_mm > q->depth_mm + 1e-9)
    return -1;
  if (p->depth_mm < q->depth_mm - 1e-9)
    return 1;
  return p->order < q->order ? -1 : p->order > q->order ? 1 : 0;
}

static GArray *
pieces_of (const TlAssembly *assembly)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (Piece));

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      for (guint k = 0; k < body->solids->len; k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);
          gboolean       is_rod = solid->kind == TL_SOLID_ROD;
          Piece          piece = { body, solid,
                          is_rod ? solid->z0_mm : (solid->start_mm + solid->end_mm) / 2.0,
                                   pieces->len };

          /* the tip of the bolt lies below all, its head above: the shank shows nowhere; a seal would hide
           * everything and is told by the section */
          if (body->role == TL_BODY_SHANK || body->role == TL_BODY_SEAL
              || body->role == TL_BODY_ADHESIVE || body->role == TL_BODY_CAP
              || body->role == TL_BODY_FILLER)
            continue;
          if (body->role == TL_BODY_INSULATION)
            piece.order += G_MAXUINT / 2;
          g_array_append_val (pieces, piece);
        }
    }
  g_array_sort (pieces, deepest_first);
  return pieces;
}

static void
hexagon (TlDrawing *d, const TlBody *body, double x, double y, double flats)
{
  double corner = flats / sqrt (3.0);

  tl_path_begin (d);
  for (guint i = 0; i < 6; i++)
    {
      double px = x + corner * cos (i * G_PI / 3.0), py = y + corner * sin (i * G_PI / 3.0);

      if (i == 0)
        tl_path_move (d, px, py);
      else
        tl_path_line (d, px, py);
    }
  tl_path_close (d);
  tl_shape_body (d, body, FALSE, TL_LINE_CUT);
  tl_path_begin (d);
  tl_path_circle (d, x, y, 0.475 * flats);
  tl_shape_line (d, TL_INK_INK, TL_LINE_EDGE)->owner = body->owner;
}

static void
disc (TlDrawing *d, const TlBody *body, double x, double y, double radius)
{
  tl_path_begin (d);
  tl_path_circle (d, x, y, radius);
  tl_shape_body (d, body, FALSE, TL_LINE_EDGE);
}

/* The turn of the eye as a bent band with round ends; angles grow against the clock, y of the area downwards. */
static void
eye (TlDrawing *d, const TlBody *body, const TlSolid *solid, double x, double y, double scale)
{
  double inner = solid->inner_mm / 2.0 * scale, outer = solid->outer_mm / 2.0 * scale,
         r = (outer - inner) / 2.0, mid = (inner + outer) / 2.0;
  double from = -solid->arc_start_deg * G_PI / 180.0,
         to = from - 2.0 * G_PI * CLAMP (solid->turn_ratio, 0.05, 1.0);

  tl_path_begin (d);
  tl_path_arc (d, x, y, outer, from, to, TRUE);
  tl_path_arc (d, x + mid * cos (to), y + mid * sin (to), r, to, to - G_PI, FALSE);
  tl_path_arc (d, x, y, inner, to, from, FALSE);
  tl_path_arc (d, x + mid * cos (from), y + mid * sin (from), r, from - G_PI, from - 2.0 * G_PI,
               FALSE);
  tl_path_close (d);
  tl_shape_body (d, body, FALSE, TL_LINE_EDGE);
}

/* A straight bar in direction @a_rad (of the area) from @from to @to, broken at its far end. */
static void
bar (TlDrawing *d, const TlBody *body, double x, double y, double a_rad, double from, double to,
     double half, gboolean is_broken)
{
  double c = cos (a_rad), s = sin (a_rad), swing = is_broken ? 0.4 * half : 0.0;

  if (!(to > from))
    return;
  tl_path_begin (d);
  tl_path_move (d, x + from * c - half * s, y + from * s + half * c);
  tl_path_line (d, x + to * c - half * s, y + to * s + half * c);
  tl_path_curve (d, x + (to + swing) * c - 0.6 * half * s, y + (to + swing) * s + 0.6 * half * c,
                 x + (to + swing) * c - 0.3 * half * s, y + (to + swing) * s + 0.3 * half * c,
                 x + to * c, y + to * s);
  tl_path_curve (d, x + (to - swing) * c + 0.3 * half * s, y + (to - swing) * s - 0.3 * half * c,
                 x + (to - swing) * c + 0.6 * half * s, y + (to - swing) * s - 0.6 * half * c,
                 x + to * c + half * s, y + to * s - half * c);
  tl_path_line (d, x + from * c + half * s, y + from * s - half * c);
  tl_path_close (d);
  tl_shape_body (d, body, FALSE, TL_LINE_EDGE);
}

static void
rod (TlDrawing *d, const TlBody *body, const TlSolid *solid, const TlStackExtent *extent, double x,
     double y, double scale)
{
  double a = -solid->direction_deg * G_PI / 180.0;
  double from = hypot (solid->x0_mm, solid->y0_mm), to = hypot (solid->x1_mm, solid->y1_mm),
         left_out;
  TlStackExtent own = *extent;
  const TlBody *cover = tl_stack_cover (d, body);

  if (fabs (sin (a)) > 0.33)
    own.lead_mm = extent->reach_mm + TL_LEAD_LEAST_MM;
  if (body->role == TL_BODY_INSULATION)
    {
      left_out = tl_stack_left_out_mm (&own, from);
      bar (d, body, x, y, a, (from - left_out) * scale, (own.lead_mm - 0.8) * scale,
           solid->outer_mm / 2.0 * scale, FALSE);
      return;
    }
  left_out =
      cover != NULL
          ? tl_stack_left_out_mm (&own, hypot (g_array_index (cover->solids, TlSolid, 0).x0_mm,
                                               g_array_index (cover->solids, TlSolid, 0).y0_mm))
          : 0.0;
  if (left_out > 0.0)
    {
      gboolean is_barrel = body->role == TL_BODY_LUG_BARREL;
      double   far = is_barrel ? to - left_out : own.lead_mm;
      double   near = is_barrel ? from : extent->reach_mm;
      double   at = near + 0.5 * ((is_barrel ? far : far - tl_stack_shown_mm (&own)) - near);

      bar (d, body, x, y, a, from * scale, at * scale, solid->outer_mm / 2.0 * scale, TRUE);
      bar (d, body, x, y, a, (at + 0.5) * scale, far * scale, solid->outer_mm / 2.0 * scale,
           !is_barrel);
    }
  else
    bar (d, body, x, y, a, from * scale, MIN (to, own.lead_mm) * scale,
         solid->outer_mm / 2.0 * scale, to > own.lead_mm);
}

static void
plate (TlDrawing *d, const TlBody *body, const TlSolid *solid, double x, double y, double scale)
{
  double a = -solid->direction_deg * G_PI / 180.0, r = solid->outer_mm / 2.0 * scale,
         length = MAX (solid->length_mm * scale, r);
  double c = cos (a), s = sin (a);

  tl_path_begin (d);
  tl_path_arc (d, x, y, r, a + G_PI / 2.0, a + 3.0 * G_PI / 2.0, TRUE);
  tl_path_line (d, x + length * c + r * s, y + length * s - r * c);
  tl_path_line (d, x + length * c - r * s, y + length * s + r * c);
  tl_path_close (d);
  tl_shape_body (d, body, FALSE, TL_LINE_EDGE);
}

static void
draw_piece (TlDrawing *d, const Piece *piece, const TlStackExtent *extent)
{
  const TlView  *view = &d->views[TL_VIEW_END];
  const TlSolid *solid = piece->solid;
  double         x = view->x + solid->u_mm * view->scale, y = view->y - solid->v_mm * view->scale;

  if (solid->kind == TL_SOLID_HEX)
    hexagon (d, piece->body, x, y, solid->outer_mm * view->scale);
  else if (solid->kind == TL_SOLID_TUBE)
    disc (d, piece->body, x, y, solid->outer_mm / 2.0 * view->scale);
  else if (solid->kind == TL_SOLID_EYE)
    eye (d, piece->body, solid, x, y, view->scale);
  else if (solid->kind == TL_SOLID_ROD)
    rod (d, piece->body, solid, extent, view->x, view->y, view->scale);
  else if (solid->kind == TL_SOLID_PLATE)
    plate (d, piece->body, solid, x, y, view->scale);
}

/* Across flats of the head at the left, the widest washer below. */
static void
dimensions (TlDrawing *d, const TlStackExtent *extent)
{
  const TlView *view = &d->views[TL_VIEW_END];
  double flats = 0.0, washer = 0.0, off = 0.0, base = view->y + extent->reach_mm * view->scale;

  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody  *body = d->assembly->bodies->pdata[i];
      const TlSolid *solid =
          body->solids->len > 0 ? &g_array_index (body->solids, TlSolid, 0) : NULL;

      if (solid != NULL && body->role == TL_BODY_HEAD)
        flats = solid->outer_mm;
      else if (solid != NULL && body->role == TL_BODY_WASHER && solid->outer_mm > washer)
        {
          washer = solid->outer_mm;
          off = solid->u_mm;
        }
    }
  if (flats > 0.0)
    {
      g_autofree char *figure = tl_dimension_figure (d, flats);
      double           half = flats / 2.0 * view->scale, top;
      double           from = view->x - flats / sqrt (12.0) * view->scale,
             at = view->x - extent->reach_mm * view->scale - 14.0 * d->px;

      /* The barrel of a lug may leave on this side. */
      if (tl_dimension_upright_clear (d, view->y - half, view->y + half, at, 0.24, figure, &top))
        tl_dimension_upright (d, view->y - half, view->y + half, from, at, 0.24, figure);
      else
        tl_dimension_upright_above (d, view->y - half, view->y + half, from, at, top, figure);
    }
  if (washer > 0.0)
    {
      g_autofree char *figure = tl_dimension_figure (d, washer);
      g_autofree char *text = g_strdup_printf ("Ø%s", figure);
      double           half = washer / 2.0 * view->scale, x = view->x + off * view->scale;

      tl_dimension_level (d, x - half, x + half, view->y, base + 22.0 * d->px, 0.5, text);
    }
}

void
tl_stack_end_view (TlDrawing *d, const TlStackExtent *extent)
{
  const TlView *view = &d->views[TL_VIEW_END];
  g_autoptr (GArray) pieces = pieces_of (d->assembly);
  double arm = extent->reach_mm * view->scale + 8.0 * d->px;

  d->view = TL_VIEW_END;
  for (guint i = 0; i < pieces->len; i++)
    draw_piece (d, &g_array_index (pieces, Piece, i), extent);
  tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE, view->x - arm, view->y, view->x + arm,
                    view->y);
  tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE, view->x, view->y - arm, view->x,
                    view->y + arm);
  if (d->options.show_dimensions)
    dimensions (d, extent);
}
