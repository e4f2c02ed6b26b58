/* leaders.c: numbers and marks beside the views, each with a line to its place, that never cross.
 *
 * Both stand in one column (stack) or one row (sleeve) in the order of their places; each line has one bend, all
 * bends on one line, so that no two can cross.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* Moves @count sorted places apart to at least @gap within @low..@high, as little as can be (pool of neighbours).
 * @weights: (nullable): how firmly each keeps its place */
static void
spread (double *places, const double *weights, guint count, double gap, double low, double high)
{
  g_autofree double *sum = g_new (double, count);
  g_autofree double *mass = g_new (double, count);
  g_autofree guint  *size = g_new (guint, count);
  guint              blocks = 0, at = 0;

  for (guint i = 0; i < count; i++)
    {
      mass[blocks] = weights != NULL ? weights[i] : 1.0;
      sum[blocks] = (places[i] - gap * i) * mass[blocks];
      size[blocks] = 1;
      blocks++;
      while (blocks > 1 && sum[blocks - 2] / mass[blocks - 2] > sum[blocks - 1] / mass[blocks - 1])
        {
          sum[blocks - 2] += sum[blocks - 1];
          mass[blocks - 2] += mass[blocks - 1];
          size[blocks - 2] += size[blocks - 1];
          blocks--;
        }
    }
  high -= gap * (count - 1);
  for (guint b = 0; b < blocks; b++)
    for (guint k = 0; k < size[b]; k++, at++)
      places[at] = MIN (MAX (sum[b] / mass[b], low), MAX (high, low)) + gap * at;
}

static gint
compare_by_y (gconstpointer a, gconstpointer b)
{
  const TlTarget *p = a, *q = b;

  return p->y < q->y ? -1 : p->y > q->y ? 1 : (gint) p->number - (gint) q->number;
}

static gint
compare_by_x (gconstpointer a, gconstpointer b)
{
  const TlTarget *p = a, *q = b;

  return p->x < q->x ? -1 : p->x > q->x ? 1 : (gint) p->number - (gint) q->number;
}

/* Only what can be seen gets a number; when zoomed in the others come as one pans. */
static void
keep_visible (TlDrawing *d)
{
  for (guint i = d->targets->len; i-- > 0;)
    {
      const TlTarget *t = &g_array_index (d->targets, TlTarget, i);

      if (t->x < 0.0 || t->y < 0.0 || t->x > d->options.width || t->y > d->options.height)
        g_array_remove_index (d->targets, i);
    }
}

static double
diameter_for (const TlDrawing *d, double room, guint count)
{
  double most = 20.0 * d->px;

  return count == 0 ? most : MIN (most, room / count / 1.12);
}

static void
number_at (TlDrawing *d, const TlTarget *target, double x, double y, double diameter)
{
  TlShape *shape = tl_shape_number (d, target->owner, target->number, x, y);
  TlItem  *item = &g_array_index (d->hits, TlItem, d->hits->len - 1);

  shape->size = diameter;
  *item = (TlItem){ TL_ITEM_NUMBER,     target->owner, target->number, x - diameter / 2.0,
                    y - diameter / 2.0, diameter,      diameter };
}

static void
leader (TlDrawing *d, double x0, double y0, double x1, double y1, double x2, double y2, TlInk ink,
        TlMark mark)
{
  TlShape *shape;

  tl_path_begin (d);
  tl_path_move (d, x0, y0);
  if (hypot (x1 - x0, y1 - y0) > 1e-6)
    tl_path_line (d, x1, y1);
  tl_path_line (d, x2, y2);
  shape = tl_shape_line (d, ink, TL_LINE_DIMENSION);
  shape->mark = mark;
}

void
tl_leaders_column (TlDrawing *d, double x, double bend_x, double top, double bottom)
{
  g_autofree double *places = NULL;
  double             diameter, least = 1.5 * d->px;
  guint              n;

  keep_visible (d);
  n = d->targets->len;
  if (n == 0 || !(bottom > top))
    return;
  g_array_sort (d->targets, compare_by_y);
  places = g_new (double, n);
  diameter = diameter_for (d, bottom - top, n);
  for (guint i = 0; i < n; i++)
    {
      TlTarget *t = &g_array_index (d->targets, TlTarget, i);

      if (i > 0)
        t->y = MAX (t->y,
                    g_array_index (d->targets, TlTarget, i - 1).y + MIN (least, 0.05 * diameter));
      places[i] = t->y;
    }
  spread (places, NULL, n, diameter * 1.12, top + diameter / 2.0, bottom - diameter / 2.0);
  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < n; i++)
    {
      const TlTarget *t = &g_array_index (d->targets, TlTarget, i);

      leader (d, x + diameter / 2.0, places[i], MAX (bend_x, x + diameter / 2.0), t->y,
              MAX (t->x, bend_x), t->y, TL_INK_INK, TL_MARK_UNFINISHED);
      tl_shape_dot (d, TL_INK_PAPER, t->x, t->y, 2.9 * d->px);
      tl_shape_dot (d, TL_INK_INK, t->x, t->y, 2.3 * d->px);
    }
  for (guint i = 0; i < n; i++)
    number_at (d, &g_array_index (d->targets, TlTarget, i), x, places[i], diameter);
}

void
tl_leaders_row (TlDrawing *d, double y, double bend_y, double left, double right)
{
  g_autofree double *places = NULL;
  double             diameter, least = 1.5 * d->px;
  guint              n;

  keep_visible (d);
  n = d->targets->len;
  if (n == 0 || !(right > left))
    return;
  g_array_sort (d->targets, compare_by_x);
  places = g_new (double, n);
  diameter = diameter_for (d, right - left, n);
  for (guint i = 0; i < n; i++)
    {
      TlTarget *t = &g_array_index (d->targets, TlTarget, i);

      if (i > 0)
        t->x = MAX (t->x,
                    g_array_index (d->targets, TlTarget, i - 1).x + MIN (least, 0.05 * diameter));
      places[i] = t->x;
    }
  spread (places, NULL, n, diameter * 1.12, left + diameter / 2.0, right - diameter / 2.0);
  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < n; i++)
    {
      const TlTarget *t = &g_array_index (d->targets, TlTarget, i);

      leader (d, places[i], y + diameter / 2.0, t->x, MAX (bend_y, y + diameter / 2.0), t->x,
              MAX (t->y, bend_y), TL_INK_INK, TL_MARK_UNFINISHED);
      tl_shape_dot (d, TL_INK_PAPER, t->x, t->y, 2.9 * d->px);
      tl_shape_dot (d, TL_INK_INK, t->x, t->y, 2.3 * d->px);
    }
  for (guint i = 0; i < n; i++)
    number_at (d, &g_array_index (d->targets, TlTarget, i), places[i], y, diameter);
}

/* --- marks of contacts --- */

/* Whether a line at x runs through the sign of the cutting plane, its arrow and its letter. */
static gboolean
meets_plane (const TlDrawing *d, double x)
{
  return d->has_plane && x > d->plane_x - 4.0 * d->px && x < d->plane_x + 30.0 * d->px;
}

static GArray *
marked_faces (TlDrawing *d, gboolean by_y)
{
  GArray *sorted = g_array_new (FALSE, FALSE, sizeof (TlTarget));

  for (guint i = 0; i < d->faces->len; i++)
    {
      const TlFace *face = &g_array_index (d->faces, TlFace, i);
      gboolean      first = by_y ? face->x1 >= face->x0 : face->y1 >= face->y0;
      double        x = first ? face->x1 : face->x0, other = first ? face->x0 : face->x1;
      gboolean      turns = !by_y && meets_plane (d, x) && !meets_plane (d, other);
      TlTarget      t = { NULL, i, turns ? other : x, first != turns ? face->y1 : face->y0 };

      if (face->has_mark && t.x >= 0.0 && t.y >= 0.0 && t.x <= d->options.width
          && t.y <= d->options.height)
        g_array_append_val (sorted, t);
    }
  g_array_sort (sorted, by_y ? compare_by_y : compare_by_x);
  return sorted;
}

static void
mark_at (TlDrawing *d, const TlFace *face, double x, double y, double size)
{
  TlShape *shape = tl_shape_mark (d, face->mark, x, y, size);
  double   target = MAX (size, 16.0 * d->px);

  shape->contact = (gint) face->contact;
  shape->is_hovered = (gint) face->contact == d->options.hovered_contact
                      || (gint) face->contact == d->options.selected_contact;
  tl_drawing_add_item (d, TL_ITEM_CONTACT, NULL, face->contact, x - target / 2.0, y - target / 2.0,
                       target, target);
}

/* Out of the stack, up or down to the height of the mark, and to it. */
static void
mark_line (TlDrawing *d, const TlFace *face, double x0, double y0, double x1, double x2, double x3,
           double y1)
{
  TlShape *shape;

  tl_path_begin (d);
  tl_path_move (d, x0, y0);
  tl_path_line (d, x1, y0);
  tl_path_line (d, x2, y1);
  tl_path_line (d, x3, y1);
  shape = tl_shape_line (d, TL_INK_SEVERITY, TL_LINE_DIMENSION);
  shape->mark = face->mark;
  shape->contact = (gint) face->contact;
}

/* Where a mark may stand so that its line does not run along a lead at the right: above or below its insulation. */
static double
clear_of_leads (const TlDrawing *d, double y)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody  *body = d->assembly->bodies->pdata[i];
      const TlSolid *rod = body->role == TL_BODY_INSULATION && body->solids->len > 0
                               ? &g_array_index (body->solids, TlSolid, 0)
                               : NULL;
      double         middle, half;

      if (rod == NULL || rod->kind != TL_SOLID_ROD || rod->x1_mm <= 0.0
          || fabs (rod->y1_mm) > 0.35 * rod->x1_mm)
        continue;
      middle = view->y + (rod->z0_mm + tl_stack_shift_mm (d, body->owner)) * view->scale;
      half = rod->outer_mm / 2.0 * view->scale + 8.0 * d->px;
      if (fabs (y - middle) < half)
        y = y < middle ? middle - half : middle + half;
    }
  return y;
}

void
tl_marks_column (TlDrawing *d, double x, double bend_x, double top, double bottom)
{
  g_autoptr (GArray) sorted = marked_faces (d, TRUE);
  g_autofree double *places = NULL, *weights = NULL;
  guint              n = sorted->len;
  double             size;

  if (n == 0 || !(bottom > top))
    return;
  places = g_new (double, n);
  weights = g_new (double, n);
  for (guint i = 0; i < n; i++)
    {
      double y = g_array_index (sorted, TlTarget, i).y;

      places[i] = clear_of_leads (d, y);
      weights[i] = fabs (places[i] - y) > 0.5 ? 50.0 : 1.0;
    }
  size = MIN (14.0 * d->px, (bottom - top) / n / 1.15);
  spread (places, weights, n, size * 1.3 * n > bottom - top ? (bottom - top) / n : size * 1.3,
          top + size / 2.0, bottom - size / 2.0);
  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < n; i++)
    {
      const TlTarget *t = &g_array_index (sorted, TlTarget, i);
      const TlFace   *face = &g_array_index (d->faces, TlFace, t->number);

      mark_line (d, face, t->x, t->y, MAX (bend_x, t->x),
                 MIN (MAX (bend_x, t->x) + 16.0 * d->px, x - size * 0.62), x - size * 0.62,
                 places[i]);
      mark_at (d, face, x, places[i], size);
    }
}

void
tl_marks_row (TlDrawing *d, double y, double bend_y, double left, double right)
{
  g_autoptr (GArray) sorted = marked_faces (d, FALSE);
  g_autofree double *places = NULL;
  guint              n = sorted->len;
  double             size;

  if (n == 0 || !(right > left))
    return;
  places = g_new (double, n);
  for (guint i = 0; i < n; i++)
    places[i] = g_array_index (sorted, TlTarget, i).x;
  size = MIN (14.0 * d->px, (right - left) / n / 1.15);
  spread (places, NULL, n, size * 1.3 * n > right - left ? (right - left) / n : size * 1.3,
          left + size / 2.0, right - size / 2.0);
  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < n; i++)
    {
      const TlTarget *t = &g_array_index (sorted, TlTarget, i);
      const TlFace   *face = &g_array_index (d->faces, TlFace, t->number);

      leader (d, t->x, t->y, t->x, MAX (bend_y, t->y), places[i], y - size * 0.62, TL_INK_SEVERITY,
              face->mark);
      mark_at (d, face, places[i], y, size);
    }
}
