/* sleeve-end-view.c: section A–A across a pressed sleeve, where it is pressed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define ADHESIVE_MM 0.25
#define FULL_RATIO 0.85

typedef struct
{
  TlDrawing           *d;
  const TlSleeveShape *shape;
  double               x, y, scale;
  gboolean             is_hexagon, is_oval;
  double               half_mm; /* barrel, half its height */
} Cross;

/* Outline of the pressed or round barrel, grown by @by_mm all round. */
static void
outline (const Cross *c, double half_mm, double by_mm)
{
  TlDrawing *d = c->d;

  tl_path_begin (d);
  if (c->is_hexagon)
    {
      double corner = half_mm * 2.0 / sqrt (3.0) * c->scale, by = MAX (by_mm * c->scale, 0.0);

      for (guint i = 0; i < 6; i++)
        {
          double a = i * G_PI / 3.0;

          if (by > 0.0)
            tl_path_arc (d, c->x + corner * cos (a), c->y + corner * sin (a), by, a - G_PI / 6.0,
                         a + G_PI / 6.0, i == 0);
          else if (i == 0)
            tl_path_move (d, c->x + corner, c->y);
          else
            tl_path_line (d, c->x + corner * cos (a), c->y + corner * sin (a));
        }
      tl_path_close (d);
      return;
    }
  if (c->is_oval)
    {
      /* what goes off the height goes into the width: the metal stays */
      double round = c->shape->outer_mm / 2.0, high = half_mm + by_mm,
             wide = half_mm * (round / MAX (c->half_mm, 0.1)) * (round / MAX (c->half_mm, 0.1))
                    + by_mm;
      double k = 0.5522847, sx = wide * c->scale, sy = high * c->scale;

      tl_path_move (d, c->x + sx, c->y);
      tl_path_curve (d, c->x + sx, c->y + k * sy, c->x + k * sx, c->y + sy, c->x, c->y + sy);
      tl_path_curve (d, c->x - k * sx, c->y + sy, c->x - sx, c->y + k * sy, c->x - sx, c->y);
      tl_path_curve (d, c->x - sx, c->y - k * sy, c->x - k * sx, c->y - sy, c->x, c->y - sy);
      tl_path_curve (d, c->x + k * sx, c->y - sy, c->x + sx, c->y - k * sy, c->x + sx, c->y);
      tl_path_close (d);
      return;
    }
  tl_path_circle (d, c->x, c->y, (half_mm + by_mm) * c->scale);
}

/* --- cores --- */

static guint
cores_at_cut (const TlSleeveShape *shape, const TlSleeveRod **cores)
{
  guint n = 0;

  for (guint i = 0; i < shape->n_cores; i++)
    if (shape->cores[i].start_mm <= shape->cut_mm && shape->cores[i].end_mm >= shape->cut_mm)
      cores[n++] = &shape->cores[i];
  for (guint i = 1; i < n; i++)
    for (guint k = i; k > 0 && cores[k - 1]->across_mm > cores[k]->across_mm; k--)
      {
        const TlSleeveRod *keep = cores[k];

        cores[k] = cores[k - 1];
        cores[k - 1] = keep;
      }
  return n;
}

/* The hexagon of half height @half between two levels, both -half..half; returns corners. */
static guint
slice (double half, double from, double to, double *at)
{
  double slope = 1.0 / sqrt (3.0), corner = 2.0 * half * slope;
  double levels[3] = { from, 0.0, to };
  guint  n = 0;

  for (guint i = 0; i < 3; i++)
    if (i != 1 || (from < -1e-9 && to > 1e-9))
      {
        at[2 * n] = corner - fabs (levels[i]) * slope;
        at[2 * n++ + 1] = levels[i];
      }
  for (guint i = 3; i-- > 0;)
    if (i != 1 || (from < -1e-9 && to > 1e-9))
      {
        at[2 * n] = -(corner - fabs (levels[i]) * slope);
        at[2 * n++ + 1] = levels[i];
      }
  return n;
}

/* Area of the hexagon below level @z from its top, as a share. */
static double
share_above (double half, double z)
{
  double slope = 1.0 / sqrt (3.0), corner = 2.0 * half * slope,
         full = 2.0 * half * half * sqrt (3.0);
  double top = z < 0.0 ? z : 0.0, area;

  area = 2.0 * (corner * (top + half) - slope * (half * half - top * top) / 2.0);
  if (z > 0.0)
    area += 2.0 * (corner * z - slope * z * z / 2.0);
  return area / full;
}

static double
level_of_share (double half, double share)
{
  double low = -half, high = half;

  for (guint i = 0; i < 50; i++)
    {
      double middle = (low + high) / 2.0;

      if (share_above (half, middle) < share)
        low = middle;
      else
        high = middle;
    }
  return (low + high) / 2.0;
}

static void
pressed_cores (const Cross *c, const TlSleeveRod **cores, guint n, double half_mm)
{
  double total = 0.0, sum = 0.0, from = -half_mm;

  for (guint i = 0; i < n; i++)
    total += cores[i]->radius_mm * cores[i]->radius_mm;
  for (guint i = 0; i < n && total > 0.0; i++)
    {
      double to, corners[16];
      guint  count;

      sum += cores[i]->radius_mm * cores[i]->radius_mm;
      to = i + 1 == n ? half_mm : level_of_share (half_mm, sum / total);
      count = slice (half_mm, from, to, corners);
      tl_path_begin (c->d);
      for (guint k = 0; k < count; k++)
        {
          corners[2 * k] = c->x + corners[2 * k] * c->scale;
          corners[2 * k + 1] = c->y + corners[2 * k + 1] * c->scale;
          if (k == 0)
            tl_path_move (c->d, corners[0], corners[1]);
          else
            tl_path_line (c->d, corners[2 * k], corners[2 * k + 1]);
        }
      tl_path_close (c->d);
      tl_shape_body (c->d, cores[i]->body, cores[i]->body->strands < 2, TL_LINE_EDGE);
      tl_cells_fill (c->d, corners, count, cores[i]->body->strands, cores[i]->body);
      from = to;
    }
}

static void
round_cores (const Cross *c, const TlSleeveRod **cores, guint n, double ratio)
{
  for (guint i = 0; i < n; i++)
    {
      double x = c->x + cores[i]->away_mm * ratio * c->scale,
             y = c->y + cores[i]->across_mm * ratio * c->scale;
      double radius = cores[i]->radius_mm * ratio * c->scale;

      tl_path_begin (c->d);
      tl_path_circle (c->d, x, y, radius);
      tl_shape_body (c->d, cores[i]->body, cores[i]->body->strands < 2, TL_LINE_EDGE);
      tl_cells_strands (c->d, x, y, radius, cores[i]->body->strands, cores[i]->body);
    }
}

static void
bore_and_cores (const Cross *c)
{
  const TlSleeveShape *shape = c->shape;
  const TlSleeveRod   *cores[TL_MOST_RODS];
  guint                n = cores_at_cut (shape, cores);
  double               inner = tl_sleeve_inner_half_mm (shape, shape->cut_mm),
         fill = tl_sleeve_fill_ratio (shape);
  const TlBody *compound = NULL;

  for (guint i = 0; i < c->d->assembly->bodies->len && compound == NULL; i++)
    if (((const TlBody *) c->d->assembly->bodies->pdata[i])->role == TL_BODY_COMPOUND)
      compound = c->d->assembly->bodies->pdata[i];
  outline (c, inner, 0.0);
  if (compound != NULL)
    tl_shape_body (c->d, compound, TRUE, TL_LINE_EDGE);
  else
    tl_shape_look (c->d, shape->barrel->owner, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
  if (c->is_hexagon)
    pressed_cores (c, cores, n, inner * (fill >= FULL_RATIO ? 1.0 : sqrt (MAX (fill, 0.05))));
  else
    round_cores (c, cores, n, MIN (1.0, inner / (shape->bore_mm / 2.0)));
}

/* --- what lies around --- */

static void
seals (const Cross *c)
{
  const TlAssembly *assembly = c->d->assembly;

  for (guint i = assembly->bodies->len; i-- > 0;)
    {
      const TlBody *body = assembly->bodies->pdata[i];
      const TlBody *lining;
      double        wall, adhesive;

      if ((body->role != TL_BODY_SEAL && body->role != TL_BODY_CAP) || body->solids->len == 0)
        continue;
      wall = tl_seal_wall_mm (c->d, body);
      lining = tl_assembly_find_body (assembly, body->owner, TL_BODY_ADHESIVE, NULL);
      adhesive = lining != NULL && tl_seal_has_adhesive (c->d, body) ? ADHESIVE_MM : 0.0;
      if (assembly->seal.recovered_mm / 2.0 > c->half_mm * (c->is_hexagon ? 1.1547 : 1.0))
        {
          double inside = assembly->seal.recovered_mm / 2.0 * c->scale;

          tl_path_begin (c->d);
          tl_path_circle (c->d, c->x, c->y, inside + wall * c->scale);
          tl_shape_body (c->d, body, TRUE, TL_LINE_CUT);
          tl_path_begin (c->d);
          tl_path_circle (c->d, c->x, c->y, inside);
          tl_shape_look (c->d, body->owner, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
          continue;
        }
      outline (c, c->half_mm, adhesive + wall);
      tl_shape_body (c->d, body, TRUE, TL_LINE_CUT);
      if (adhesive > 0.0)
        {
          outline (c, c->half_mm, adhesive);
          tl_shape_body (c->d, lining, TRUE, TL_LINE_EDGE);
        }
    }
}

static double
outermost_mm (const Cross *c)
{
  const TlAssembly *assembly = c->d->assembly;
  double            most = c->half_mm;

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      if (body->role == TL_BODY_SEAL && body->solids->len > 0)
        most = MAX (c->half_mm + ADHESIVE_MM, assembly->seal.recovered_mm / 2.0)
               + tl_seal_wall_mm (c->d, body);
    }
  return most;
}

static void
cross_init (Cross *c, TlDrawing *d, const TlSleeveShape *shape)
{
  const TlView *view = &d->views[TL_VIEW_END];
  const char   *profile = d->assembly->sleeve.profile;

  *c = (Cross){
    d,           shape,
    view->x,     view->y,
    view->scale, FALSE,
    FALSE,       shape->has_barrel ? tl_sleeve_outer_half_mm (shape, shape->cut_mm) : 1.0
  };
  c->is_oval = shape->die_mm > 0.0 && g_strcmp0 (profile, "oval") == 0;
  c->is_hexagon = shape->die_mm > 0.0 && !c->is_oval && g_strcmp0 (profile, "indent") != 0;
}

double
tl_sleeve_end_half_mm (TlDrawing *d, const TlSleeveShape *shape)
{
  Cross c;

  if (d->assembly->family == TL_FAMILY_SPLICE)
    return tl_splice_end_half_mm (d);
  cross_init (&c, d, shape);
  return outermost_mm (&c) * (c.is_hexagon ? 1.1547 : 1.05);
}

void
tl_sleeve_end_view (TlDrawing *d, const TlSleeveShape *shape)
{
  Cross  c;
  double arm;

  if (d->assembly->family == TL_FAMILY_SPLICE)
    {
      tl_splice_end_view (d, shape->cut_mm);
      return;
    }
  cross_init (&c, d, shape);
  if (!shape->has_barrel)
    return;
  d->view = TL_VIEW_END;
  seals (&c);
  outline (&c, c.half_mm, 0.0);
  tl_shape_body (d, shape->barrel, TRUE, TL_LINE_CUT);
  bore_and_cores (&c);
  arm = tl_sleeve_end_half_mm (d, shape) * c.scale + 7.0 * d->px;
  tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE, c.x - arm, c.y, c.x + arm, c.y);
  tl_shape_segment (d, TL_INK_CENTRE, TL_LINE_CENTRE, c.x, c.y - arm, c.x, c.y + arm);
  if (d->options.show_dimensions && shape->die_mm > 0.0)
    {
      g_autofree char *figure = tl_dimension_figure (d, d->assembly->sleeve.die_mm);
      g_autofree char *text = g_strdup_printf ("%s %s", tl_draw_text (d, TL_N_ ("die")), figure);
      double           half = c.half_mm * c.scale;

      d->view = TL_VIEW_SHEET;
      tl_dimension_upright (d, c.y - half, c.y + half,
                            c.x + (c.is_hexagon ? half / sqrt (3.0) : 0.0),
                            c.x + arm + 14.0 * d->px, 0.5, text);
    }
}
