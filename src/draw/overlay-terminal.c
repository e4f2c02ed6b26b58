/* overlay-terminal.c: where the current flows in a terminal, a branch connector or a splice: in by one conductor, over
 * each of its contacts, through the metal between, out by the other.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* mm on the medium: an arrow over a contact reaches that far on either side, thick conductors more thin ones less. */
#define MOST_REACH_MM 3.0
#define LEAST_REACH_MM 1.3
/* Contacts that stand so far apart along the joint have an arrow between them. */
#define BETWEEN_MM 6.0
#define INSET_PX 14.0
#define GAP_PX 3.0

typedef struct
{
  double x0, y0, x1, y1; /* units */
} Extent;

/* One end of the current: the conductor, and where its contacts stand in the drawing. */
typedef struct
{
  const char  *owner;
  double       x;       /* of its contacts, weighted by their share */
  double       most;    /* share of the largest of them */
  TlSheetPoint largest; /* and where that is */
  int          way;     /* down (1) or up (-1) over it; 0: it stands upright */
  guint        other;   /* body on its other side */
} End;

static gboolean
is_metal_of (const TlShape *shape, const char *owner)
{
  return shape->kind == TL_SHAPE_BODY && shape->view == TL_VIEW_SECTION
         && shape->look != TL_LOOK_INSULATION && g_strcmp0 (shape->owner, owner) == 0;
}

/* The flattest piece of @owner's metal at a point, or at any height if @y is NAN. */
static gboolean
piece_at (const TlDrawing *d, const char *owner, double x, double y, Extent *piece)
{
  gboolean found = FALSE;

  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (d->shapes, TlShape, i);
      Extent         e;

      if (!is_metal_of (shape, owner) || !tl_shape_bounds (d, shape, &e.x0, &e.y0, &e.x1, &e.y1)
          || x < e.x0 - d->px || x > e.x1 + d->px || (!isnan (y) && (y < e.y0 || y > e.y1))
          || (found && e.y1 - e.y0 >= piece->y1 - piece->y0))
        continue;
      *piece = e;
      found = TRUE;
    }
  return found;
}

/* From one end of its drawn metal to the other. */
static gboolean
length_of (const TlDrawing *d, const char *owner, double *x0, double *x1)
{
  *x0 = HUGE_VAL;
  *x1 = -HUGE_VAL;
  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (d->shapes, TlShape, i);
      Extent         e;

      if (!is_metal_of (shape, owner) || !tl_shape_bounds (d, shape, &e.x0, &e.y0, &e.x1, &e.y1))
        continue;
      *x0 = MIN (*x0, e.x0);
      *x1 = MAX (*x1, e.x1);
    }
  return *x1 > *x0;
}

static const TlFace *
face_of (const TlDrawing *d, guint contact)
{
  for (guint i = 0; i < d->faces->len; i++)
    if (g_array_index (d->faces, TlFace, i).contact == contact)
      return &g_array_index (d->faces, TlFace, i);
  return NULL;
}

/* Over a contact, away from the conductor or into it. */
static void
cross (TlDrawing *d, const End *end, const TlFace *face, gboolean comes, double share, int *way)
{
  double   x = (face->x0 + face->x1) / 2.0, y = (face->y0 + face->y1) / 2.0, reach, away;
  gboolean is_upright = fabs (face->x1 - face->x0) < fabs (face->y1 - face->y0);
  Extent   piece;

  *way = 0;
  if (!piece_at (d, end->owner, x, NAN, &piece))
    return;
  away = is_upright ? (x >= (piece.x0 + piece.x1) / 2.0 ? 1.0 : -1.0)
                    : (y >= (piece.y0 + piece.y1) / 2.0 ? 1.0 : -1.0);
  reach = CLAMP ((piece.y1 - piece.y0) / 2.0, LEAST_REACH_MM * d->mm, MOST_REACH_MM * d->mm) * away;
  if (!comes)
    reach = -reach;
  if (is_upright)
    tl_overlay_straight (d, x - reach, y, x + reach, y, share);
  else
    {
      *way = (int) away;
      tl_overlay_straight (d, x, y - reach, x, y + reach, share);
    }
}

/* Arrows over the contacts of one conductor; their shares are written once all arrows stand. */
static guint
cross_all (TlDrawing *d, End *end, gboolean comes, guint *tenths, TlSheetPoint *places)
{
  const GArray *paths = tl_heat_field_paths (d->options.field);
  const TlFace *faces[TL_OVERLAY_MOST_PATHS];
  double        shares[TL_OVERLAY_MOST_PATHS], sum = 0.0;
  guint         others[TL_OVERLAY_MOST_PATHS], n = 0;

  for (guint i = 0; i < paths->len && n < TL_OVERLAY_MOST_PATHS; i++)
    {
      const TlCurrentPath *path = &g_array_index (paths, TlCurrentPath, i);

      if (g_strcmp0 (comes ? path->from_owner : path->to_owner, end->owner) != 0)
        continue;
      faces[n] = face_of (d, path->contact);
      others[n] = comes ? path->to : path->from;
      shares[n++] = path->share_ratio;
    }
  tl_overlay_tenths (shares, n, tenths);
  for (guint i = 0; i < n; i++)
    {
      int way;

      places[i] = (TlSheetPoint){ NAN, NAN };
      if (faces[i] == NULL || tenths[i] == 0)
        continue;
      cross (d, end, faces[i], comes, shares[i], &way);
      places[i] = (TlSheetPoint){ (faces[i]->x0 + faces[i]->x1) / 2.0,
                                  (faces[i]->y0 + faces[i]->y1) / 2.0 };
      end->x += shares[i] * places[i].x;
      sum += shares[i];
      if (shares[i] > end->most)
        {
          end->most = shares[i];
          end->largest = places[i];
          end->way = way;
          end->other = others[i];
        }
    }
  end->x = sum > 0.0 ? end->x / sum : (double) NAN;
  return n;
}

/* A conductor from its drawn end to its contacts, or from them to it. */
static void
lead_arrow (TlDrawing *d, const End *end, gboolean comes)
{
  double       x0, x1, outer, side;
  TlSheetPoint points[3];
  Extent       far, near;

  if (isnan (end->x) || !length_of (d, end->owner, &x0, &x1))
    return;
  side = end->x - x0 >= x1 - end->x ? -1.0 : 1.0; /* where the lead lies */
  outer = (side < 0.0 ? x0 : x1) - side * INSET_PX * d->px;
  if (!piece_at (d, end->owner, outer, NAN, &far) || !piece_at (d, end->owner, end->x, NAN, &near))
    return;
  points[0] = (TlSheetPoint){ outer, (far.y0 + far.y1) / 2.0 };
  points[2] = (TlSheetPoint){ end->x + side * GAP_PX * d->px, (near.y0 + near.y1) / 2.0 };
  points[1] = (TlSheetPoint){ side < 0.0 ? near.x0 : near.x1, points[0].y };
  if (comes)
    points[0].x -= side * tl_overlay_load_label (d, points[0].x, points[0].y, (int) -side);
  if (side * (points[1].x - points[0].x) > 0.0 || side * (points[2].x - points[1].x) > 0.0)
    points[1] = points[2]; /* one piece only */
  if (side * (points[2].x - points[0].x) > -LEAST_REACH_MM * d->mm)
    return;
  if (!comes)
    {
      TlSheetPoint swap = points[0];

      points[0] = points[2];
      points[2] = swap;
      if (points[1].x == points[0].x)
        points[1] = points[2];
    }
  tl_overlay_arrow (d, points, points[1].x == points[2].x && points[1].y == points[2].y ? 2 : 3,
                    1.0);
}

/* Through the metal that both conductors touch, where they stand one behind the other. */
static void
between_arrow (TlDrawing *d, const End *in, const End *out)
{
  const TlBody *body;
  double        x0 = in->largest.x, x1 = out->largest.x, y, gap;
  Extent        piece;

  if (in->most <= 0.0 || out->most <= 0.0 || in->other != out->other || in->way == 0
      || in->way != out->way || fabs (x1 - x0) < BETWEEN_MM * d->mm)
    return;
  body = tl_assembly_body (d->assembly, in->other);
  y = in->largest.y;
  if (!piece_at (d, body->owner, (x0 + x1) / 2.0, y + in->way * 2.0 * d->px, &piece))
    return;
  y = (y + (in->way > 0 ? piece.y1 : piece.y0)) / 2.0;
  gap = (x1 > x0 ? 1.0 : -1.0) * MOST_REACH_MM * d->mm;
  tl_overlay_straight (d, x0 + gap, y, x1 - gap, y, 1.0);
}

void
tl_overlay_terminal_current (TlDrawing *d)
{
  const TlHeatField *field = d->options.field;
  gboolean           is_splice = d->assembly->family == TL_FAMILY_SPLICE;
  End in = { .owner = tl_heat_field_source (field) }, out = { .owner = tl_heat_field_sink (field) };
  guint        tenths[2 * TL_OVERLAY_MOST_PATHS], n;
  TlSheetPoint places[2 * TL_OVERLAY_MOST_PATHS];

  n = cross_all (d, &in, TRUE, tenths, places);
  /* In a splice what leaves the first conductor comes to the other over the same contacts, or by solder. */
  if (is_splice)
    out.x = in.x;
  else
    n += cross_all (d, &out, FALSE, tenths + n, places + n);
  between_arrow (d, &in, &out);
  lead_arrow (d, &in, TRUE);
  lead_arrow (d, &out, FALSE);
  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < n; i++)
    if (!isnan (places[i].x))
      tl_overlay_label_tenths (d, tenths[i], places[i].x, places[i].y);
}
