/* distance.c: metal pairs of a stack that are apart but near enough to bridge.
 *
 * Distance is that of a straight line through free space: a thin washer that covers both its neighbours keeps
 * them apart, one that ends short of them does not. Bodies of a stack are round about the bolt or reach away
 * from it, so lines are looked for in half planes through the axis: every 5 degrees and along each lead. Two
 * leads are measured against each other in space. Insulation stands in the way like metal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"
#include "assembly/free-line.h"
#include "assembly/gap.h"

#include <math.h>

#define STEP_DEG 5
#define FINE_DEG 0.2
#define MAX_PLANES (360 / STEP_DEG + TL_MAX_LEGS)
#define MAX_OTHERS 16 /* within the bridge distance of two bodies there is room for few */

/* Where a body begins and ends along the axis. */
typedef struct
{
  double top_mm, bottom_mm;
} Extent;

/* One solid of a body that is metal or insulation. */
typedef struct
{
  const TlSolid *solid;
  Extent         extent;
  gboolean       is_round;          /* the same in all half planes */
  gboolean       is_cut;            /* a round one: by all of them */
  TlShape        shape;             /* of a round one; else only its body */
  guint8         looks[MAX_PLANES]; /* planes of one number cut it alike */
} Piece;

typedef struct
{
  TlAssembly *assembly;
  double      bridge_mm;
  double      planes[MAX_PLANES]; /* degrees */
  guint       n_planes;
  GArray     *pieces;   /* (element-type Piece) in the order of the bodies */
  Extent     *extents;  /* (array length=bodies) */
  guint8     *touching; /* (array length=bodies * bodies): pairs that have a contact */
  GArray     *near;     /* (element-type guint) pieces about the pair that is looked at */
  GArray     *shapes;   /* (element-type TlShape) what a half plane cuts of them */
} Planes;

/* Radius at which a half plane leaves a circle of radius @radius whose centre lies @offset on the x axis. */
static double
radius_in_plane (double radius, double offset, double plane_deg)
{
  double angle, square;

  if (radius <= 0.0)
    return 0.0;
  if (offset == 0.0)
    return radius;
  angle = plane_deg * G_PI / 180.0;
  square = offset * sin (angle);
  return MAX (0.0, offset * cos (angle) + sqrt (MAX (0.0, radius * radius - square * square)));
}

static double
hexagon_radius (double across_flats, double plane_deg)
{
  return across_flats / 2.0 / cos ((fmod (tl_gap_turned (plane_deg), 60.0) - 30.0) * G_PI / 180.0);
}

/* How far a flat tang reaches in a plane: its round end, and the strip towards the lead. */
static double
plate_radius (const TlSolid *solid, double plane_deg)
{
  double away = tl_gap_turned (plane_deg - solid->direction_deg) * G_PI / 180.0;
  double along = cos (away), across = fabs (sin (away)), radius = solid->outer_mm / 2.0;

  if (along <= 1e-9)
    return radius;
  return MAX (radius, MIN (solid->length_mm / along,
                           across > 1e-9 ? radius / across : solid->length_mm / along));
}

static gboolean
shape_of (const TlSolid *solid, double plane_deg, TlShape *shape)
{
  double half = solid->outer_mm / 2.0, away;

  shape->is_disc = FALSE;
  shape->z0 = solid->start_mm;
  shape->z1 = solid->end_mm;
  shape->r0 = 0.0;
  switch (solid->kind)
    {
    case TL_SOLID_TUBE:
      shape->r0 = radius_in_plane (solid->inner_mm / 2.0, solid->u_mm, plane_deg);
      shape->r1 = radius_in_plane (half, solid->u_mm, plane_deg);
      return TRUE;
    case TL_SOLID_HEX:
      shape->r0 = solid->inner_mm / 2.0;
      shape->r1 = hexagon_radius (solid->outer_mm, plane_deg);
      return TRUE;
    case TL_SOLID_EYE:
      away = tl_gap_turned (plane_deg - solid->arc_start_deg);
      if (away > 360.0 * solid->turn_ratio + 1e-6 && away < 360.0 - 1e-6)
        return FALSE;
      shape->is_disc = TRUE;
      shape->r0 = solid->inner_mm / 2.0;
      shape->r1 = half;
      return TRUE;
    case TL_SOLID_ROD:
      if (!tl_gap_is_along (solid->direction_deg, plane_deg))
        return FALSE;
      shape->r0 = hypot (solid->x0_mm, solid->y0_mm);
      shape->r1 = hypot (solid->x1_mm, solid->y1_mm);
      shape->z0 = solid->z0_mm - half;
      shape->z1 = solid->z0_mm + half;
      return TRUE;
    case TL_SOLID_PLATE:
      shape->r0 = solid->inner_mm / 2.0;
      shape->r1 = plate_radius (solid, plane_deg);
      return TRUE;
    case TL_SOLID_BLOCK:
    default:
      return FALSE;
    }
}

/* What the half plane cuts of the pieces that are near. */
static void
cut (Planes *planes, double plane_deg)
{
  g_array_set_size (planes->shapes, 0);
  for (guint i = 0; i < planes->near->len; i++)
    {
      const Piece *piece =
          &g_array_index (planes->pieces, Piece, g_array_index (planes->near, guint, i));
      TlShape shape = piece->shape;

      if (piece->is_round ? piece->is_cut : shape_of (piece->solid, plane_deg, &shape))
        g_array_append_val (planes->shapes, shape);
    }
}

static Extent
extent_of (const TlSolid *solid)
{
  if (solid->kind == TL_SOLID_ROD)
    return (Extent){ solid->z0_mm - solid->outer_mm / 2.0, solid->z0_mm + solid->outer_mm / 2.0 };
  return (Extent){ solid->start_mm, solid->end_mm };
}

static void
choose_planes (Planes *planes)
{
  const GPtrArray *bodies = planes->assembly->bodies;

  for (guint degrees = 0; degrees < 360; degrees += STEP_DEG)
    planes->planes[planes->n_planes++] = degrees;
  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody  *body = bodies->pdata[i];
      const TlSolid *solid =
          body->solids->len > 0 ? &g_array_index (body->solids, TlSolid, 0) : NULL;
      gboolean is_new = solid != NULL && (body->role == TL_BODY_EYE || body->role == TL_BODY_TANG);

      for (guint k = 0; k < planes->n_planes && is_new; k++)
        is_new = !tl_gap_is_along (solid->direction_deg, planes->planes[k]);
      if (is_new && planes->n_planes < MAX_PLANES)
        planes->planes[planes->n_planes++] = tl_gap_turned (solid->direction_deg);
    }
}

/* A number for how a half plane cuts @solid: the same for planes that cut it alike. */
static guint8
look_of (const Planes *planes, const TlSolid *solid, guint plane)
{
  TlShape shape;

  switch (solid->kind)
    {
    case TL_SOLID_HEX:
      /* A sixth of a turn later it looks the same. */
      return (guint8) (plane < 360 / STEP_DEG ? plane % (60 / STEP_DEG) : plane);
    case TL_SOLID_EYE:
    case TL_SOLID_ROD:
      return (guint8) shape_of (solid, planes->planes[plane], &shape);
    case TL_SOLID_TUBE:
    case TL_SOLID_PLATE:
    case TL_SOLID_BLOCK:
    default:
      return (guint8) plane;
    }
}

static void
add_piece (Planes *planes, guint body, const TlSolid *solid)
{
  Piece piece = { .solid = solid, .extent = extent_of (solid), .shape = { .body = body } };

  piece.is_round = solid->kind == TL_SOLID_TUBE && solid->u_mm == 0.0;
  if (piece.is_round)
    piece.is_cut = shape_of (solid, 0.0, &piece.shape);
  else
    for (guint i = 0; i < planes->n_planes; i++)
      piece.looks[i] = look_of (planes, solid, i);
  g_array_append_val (planes->pieces, piece);
}

static void
take_pieces (Planes *planes)
{
  const TlAssembly *self = planes->assembly;
  guint             count = self->bodies->len;

  planes->pieces = g_array_sized_new (FALSE, FALSE, sizeof (Piece), 2 * count);
  planes->extents = g_new (Extent, count);
  planes->touching = g_new0 (guint8, (gsize) count * count);
  planes->near = g_array_new (FALSE, FALSE, sizeof (guint));
  planes->shapes = g_array_new (FALSE, FALSE, sizeof (TlShape));
  for (guint i = 0; i < count; i++)
    {
      const TlBody *body = self->bodies->pdata[i];
      Extent       *whole = &planes->extents[i];

      *whole = (Extent){ G_MAXDOUBLE, -G_MAXDOUBLE };
      for (guint k = 0; k < body->solids->len; k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);
          Extent         extent = extent_of (solid);

          whole->top_mm = MIN (whole->top_mm, extent.top_mm);
          whole->bottom_mm = MAX (whole->bottom_mm, extent.bottom_mm);
          if (body->is_metal || body->role == TL_BODY_INSULATION)
            add_piece (planes, i, solid);
        }
    }
  for (guint i = 0; i < self->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (self->contacts, TlContact, i);

      planes->touching[(gsize) contact->a * count + contact->b] = TRUE;
      planes->touching[(gsize) contact->b * count + contact->a] = TRUE;
    }
}

static void
drop_pieces (Planes *planes)
{
  g_array_unref (planes->pieces);
  g_array_unref (planes->near);
  g_array_unref (planes->shapes);
  g_free (planes->extents);
  g_free (planes->touching);
}

/* The pieces of the pair, and those that may stand between. */
static void
take_near (Planes *planes, guint a, guint b)
{
  double low = MAX (planes->extents[a].top_mm, planes->extents[b].top_mm) - planes->bridge_mm;
  double high =
      MIN (planes->extents[a].bottom_mm, planes->extents[b].bottom_mm) + planes->bridge_mm;

  g_array_set_size (planes->near, 0);
  for (guint i = 0; i < planes->pieces->len; i++)
    {
      const Piece *piece = &g_array_index (planes->pieces, Piece, i);

      if (piece->shape.body == a || piece->shape.body == b
          || (piece->extent.bottom_mm > low && piece->extent.top_mm < high))
        g_array_append_val (planes->near, i);
    }
}

static gboolean
look_alike (const Planes *planes, guint plane, guint other)
{
  for (guint i = 0; i < planes->near->len; i++)
    {
      const Piece *piece =
          &g_array_index (planes->pieces, Piece, g_array_index (planes->near, guint, i));

      if (!piece->is_round && piece->looks[plane] != piece->looks[other])
        return FALSE;
    }
  return TRUE;
}

/* TRUE if one of the @n planes in @seen shows the near pieces as @plane does. */
static gboolean
is_seen (const Planes *planes, guint plane, const guint *seen, guint n)
{
  for (guint i = n; i > 0; i--) /* neighbours are most alike */
    if (look_alike (planes, plane, seen[i - 1]))
      return TRUE;
  return FALSE;
}

/* One pair of shapes with what may stand between them. */
typedef struct
{
  TlShape a, b;
  TlShape others[MAX_OTHERS];
  guint   n_others;
} View;

/* TRUE if a line between the pair that is shorter than @limit_mm could meet @other: it stays near both. */
static gboolean
may_part (const View *view, const TlShape *other, double limit_mm)
{
  double low_r = MAX (view->a.r0, view->b.r0) - limit_mm,
         high_r = MIN (view->a.r1, view->b.r1) + limit_mm;
  double low_z = MAX (view->a.z0, view->b.z0) - limit_mm,
         high_z = MIN (view->a.z1, view->b.z1) + limit_mm;

  return other->body != view->a.body && other->body != view->b.body && other->r1 > low_r
         && other->r0 < high_r && other->z1 > low_z && other->z0 < high_z;
}

static gboolean
same_shape (const TlShape *a, const TlShape *b)
{
  return a->body == b->body && a->is_disc == b->is_disc && a->r0 == b->r0 && a->r1 == b->r1
         && a->z0 == b->z0 && a->z1 == b->z1;
}

static gboolean
same_view (const View *a, const View *b)
{
  if (a->n_others != b->n_others || !same_shape (&a->a, &b->a) || !same_shape (&a->b, &b->b))
    return FALSE;
  for (guint i = 0; i < a->n_others; i++)
    if (!same_shape (&a->others[i], &b->others[i]))
      return FALSE;
  return TRUE;
}

/* FALSE if the two are too far apart to look at. */
static gboolean
take_view (const GArray *shapes, const TlShape *a, const TlShape *b, double limit_mm, View *view)
{
  if (MAX (a->r0 - b->r1, b->r0 - a->r1) >= limit_mm
      || MAX (a->z0 - b->z1, b->z0 - a->z1) >= limit_mm)
    return FALSE;
  view->a = *a;
  view->b = *b;
  view->n_others = 0;
  for (guint i = 0; i < shapes->len && view->n_others < MAX_OTHERS; i++)
    if (may_part (view, &g_array_index (shapes, TlShape, i), limit_mm))
      view->others[view->n_others++] = g_array_index (shapes, TlShape, i);
  return TRUE;
}

/* Keeps the line in @nearest if this half plane shows a shorter one. A view like the @last one is passed over. */
static gboolean
look_in_plane (const GArray *shapes, double plane_deg, guint a, guint b, double limit_mm,
               View *last, TlGap *nearest)
{
  double   angle = plane_deg * G_PI / 180.0;
  gboolean is_better = FALSE;

  for (guint i = 0; i < shapes->len; i++)
    for (guint k = 0; g_array_index (shapes, TlShape, i).body == a && k < shapes->len; k++)
      {
        TlPoint from, to;
        View    view;
        double  distance;

        if (g_array_index (shapes, TlShape, k).body != b
            || !take_view (shapes, &g_array_index (shapes, TlShape, i),
                           &g_array_index (shapes, TlShape, k), limit_mm, &view)
            || same_view (&view, last))
          continue;
        *last = view;
        distance = tl_free_line (&view.a, &view.b, view.others, view.n_others, nearest->distance_mm,
                                 &from, &to);
        if (distance >= nearest->distance_mm)
          continue;
        is_better = TRUE;
        nearest->distance_mm = distance;
        nearest->x_mm = (from.r + to.r) / 2.0 * cos (angle);
        nearest->z_mm = (from.z + to.z) / 2.0;
        nearest->rim_mm = G_PI * (from.r + to.r);
      }
  return is_better;
}

/* A tang, or anything off the axis, may come nearest between two of the planes. */
static gboolean
is_lopsided (const TlAssembly *self, guint a, guint b)
{
  for (guint i = 0; i < 2; i++)
    {
      const TlBody  *body = self->bodies->pdata[i == 0 ? a : b];
      const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);

      if (solid->kind == TL_SOLID_PLATE || fabs (solid->u_mm) > TL_SAME_PLACE_MM)
        return TRUE;
    }
  return FALSE;
}

/* All planes, then ever smaller turns of the best one. */
static void
nearest_in_planes (Planes *planes, guint a, guint b, TlGap *nearest)
{
  double best_deg = -1.0;
  View   last = { .n_others = G_MAXUINT };
  guint  seen[MAX_PLANES], n_seen = 0;

  take_near (planes, a, b);
  for (guint i = 0; i < planes->n_planes && nearest->distance_mm > 0.0; i++)
    {
      if (is_seen (planes, i, seen, n_seen))
        continue;
      seen[n_seen++] = i;
      cut (planes, planes->planes[i]);
      if (look_in_plane (planes->shapes, planes->planes[i], a, b, planes->bridge_mm, &last,
                         nearest))
        best_deg = planes->planes[i];
    }
  if (best_deg < 0.0 || !is_lopsided (planes->assembly, a, b))
    return;
  for (double turn = STEP_DEG / 2.0; turn > FINE_DEG && nearest->distance_mm > 0.0; turn /= 2.0)
    {
      double start = best_deg;

      for (gint side = -1; side <= 1; side += 2)
        {
          cut (planes, start + side * turn);
          if (look_in_plane (planes->shapes, start + side * turn, a, b, planes->bridge_mm, &last,
                             nearest))
            best_deg = start + side * turn;
        }
    }
}

/* --- pairs --- */

/* A conductor in a bimetal lug is near its flat, but the two metals of the lug are one piece. */
static gboolean
is_in_bimetal_lug (const TlAssembly *self, const TlBody *core, const TlBody *tang)
{
  const TlLeg   *leg = core->role == TL_BODY_CORE ? tl_joint_leg (self->joint, core->owner) : NULL;
  const TlLayer *lug = leg != NULL ? tl_leg_lug (self, leg) : NULL;

  return lug != NULL && tang->role == TL_BODY_TANG && g_str_equal (lug->id, tang->owner)
         && tl_layer_fact (lug, self->stock, TL_FIELD_OTHER_FACE) != NULL
         && tl_assembly_find_body (self, lug->id, TL_BODY_LUG_BARREL, NULL) != NULL;
}

static gboolean
is_worth_a_look (const Planes *planes, guint a, guint b)
{
  const TlBody *first = planes->assembly->bodies->pdata[a];
  const TlBody *second = planes->assembly->bodies->pdata[b];
  Extent        one = planes->extents[a], two = planes->extents[b];

  return MAX (one.top_mm - two.bottom_mm, two.top_mm - one.bottom_mm) < planes->bridge_mm
         && first->is_metal && second->is_metal
         && !planes->touching[(gsize) a * planes->assembly->bodies->len + b]
         && !g_str_equal (first->owner, second->owner)
         && !is_in_bimetal_lug (planes->assembly, first, second)
         && !is_in_bimetal_lug (planes->assembly, second, first);
}

void
tl_stack_bridges (TlStackBuild *build, double bridge_mm)
{
  TlAssembly *self = build->assembly;
  Planes      planes = { .assembly = self, .bridge_mm = bridge_mm };
  guint       count = self->bodies->len;

  if (bridge_mm <= 0.0)
    return;
  choose_planes (&planes);
  take_pieces (&planes);
  for (guint a = 0; a < count; a++)
    for (guint b = a + 1; b < count; b++)
      {
        TlGap      nearest = { .distance_mm = bridge_mm };
        TlContact *contact;

        if (!is_worth_a_look (&planes, a, b))
          continue;
        nearest_in_planes (&planes, a, b, &nearest);
        tl_gap_of_leads (self, a, b, &nearest);
        if (nearest.distance_mm >= bridge_mm)
          continue;
        contact = tl_assembly_add_contact (
            self, a, b,
            nearest.distance_mm <= TL_SAME_PLACE_MM ? TL_CONTACT_TOUCHING : TL_CONTACT_MAY_BRIDGE);
        contact->distance_mm = nearest.distance_mm <= TL_SAME_PLACE_MM ? 0.0 : nearest.distance_mm;
        contact->rim_mm = nearest.rim_mm;
        contact->at_x_mm = nearest.x_mm;
        contact->at_z_mm = nearest.z_mm;
      }
  drop_pieces (&planes);
}
