/* cells.c: strands: the real count, round and packed, or pressed to cells that fill their space.
 *
 * Pressed cells are those of a Voronoi diagram whose seeds are moved to the middle of their cells a few times: all
 * about equal, none left out, the same every time.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define ROUNDS 16
/* More would be a grey patch; the count is told by the part's name then. */
#define MOST_CELLS 300
#define MOST_CORNERS 64

typedef struct
{
  double at[MOST_CORNERS][2];
  guint  count;
} Polygon;

/* Keeps the side of @p where (x, y)·n <= limit. */
static void
clip (Polygon *p, double nx, double ny, double limit)
{
  Polygon kept = { .count = 0 };

  for (guint i = 0; i < p->count && kept.count + 2 < MOST_CORNERS; i++)
    {
      const double *a = p->at[i], *b = p->at[(i + 1) % p->count];
      double        da = a[0] * nx + a[1] * ny - limit, db = b[0] * nx + b[1] * ny - limit;

      if (da <= 0.0)
        {
          kept.at[kept.count][0] = a[0];
          kept.at[kept.count++][1] = a[1];
        }
      if ((da < 0.0 && db > 0.0) || (da > 0.0 && db < 0.0))
        {
          double t = da / (da - db);

          kept.at[kept.count][0] = a[0] + t * (b[0] - a[0]);
          kept.at[kept.count++][1] = a[1] + t * (b[1] - a[1]);
        }
    }
  *p = kept;
}

static void
cell_of (const Polygon *region, const double (*seeds)[2], guint count, guint index, Polygon *cell)
{
  *cell = *region;
  for (guint k = 0; k < count && cell->count > 0; k++)
    {
      double nx = seeds[k][0] - seeds[index][0], ny = seeds[k][1] - seeds[index][1];
      double mx = (seeds[k][0] + seeds[index][0]) / 2.0, my = (seeds[k][1] + seeds[index][1]) / 2.0;

      if (k != index && (nx != 0.0 || ny != 0.0))
        clip (cell, nx, ny, mx * nx + my * ny);
    }
}

static gboolean
centroid (const Polygon *p, double *x, double *y)
{
  double area = 0.0, cx = 0.0, cy = 0.0;

  for (guint i = 0; i < p->count; i++)
    {
      const double *a = p->at[i], *b = p->at[(i + 1) % p->count];
      double        cross = a[0] * b[1] - b[0] * a[1];

      area += cross;
      cx += (a[0] + b[0]) * cross;
      cy += (a[1] + b[1]) * cross;
    }
  if (fabs (area) < 1e-12)
    return FALSE;
  *x = cx / (3.0 * area);
  *y = cy / (3.0 * area);
  return TRUE;
}

/* Seeds along a spiral about the middle, drawn in so that all lie inside. */
static void
sow (const Polygon *region, double (*seeds)[2], guint count)
{
  double x = 0.0, y = 0.0, radius = HUGE_VAL;

  centroid (region, &x, &y);
  for (guint i = 0; i < region->count; i++)
    {
      const double *a = region->at[i], *b = region->at[(i + 1) % region->count];
      double        length = hypot (b[0] - a[0], b[1] - a[1]);

      if (length > 1e-12)
        radius =
            MIN (radius, fabs ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length);
    }
  for (guint i = 0; i < count; i++)
    {
      double r = 0.97 * radius * sqrt ((i + 0.5) / count), a = i * G_PI * (3.0 - sqrt (5.0));

      seeds[i][0] = x + r * cos (a);
      seeds[i][1] = y + r * sin (a);
    }
}

void
tl_cells_fill (TlDrawing *d, const double *corners, guint n_corners, guint count,
               const TlBody *body)
{
  g_autofree double (*seeds)[2] = NULL;
  Polygon region = { .count = MIN (n_corners, MOST_CORNERS - 8u) }, cell;

  if (count < 2 || n_corners < 3)
    return;
  count = MIN (count, MOST_CELLS);
  for (guint i = 0; i < region.count; i++)
    {
      region.at[i][0] = corners[2 * i];
      region.at[i][1] = corners[2 * i + 1];
    }
  seeds = g_malloc_n (count, sizeof *seeds);
  sow (&region, seeds, count);
  for (guint round = 0; round < MIN (ROUNDS, 200000u / (count * count) + 2u); round++)
    for (guint i = 0; i < count; i++)
      {
        cell_of (&region, (const double (*)[2]) seeds, count, i, &cell);
        centroid (&cell, &seeds[i][0], &seeds[i][1]);
      }
  for (guint i = 0; i < count; i++)
    {
      cell_of (&region, (const double (*)[2]) seeds, count, i, &cell);
      tl_path_begin (d);
      for (guint k = 0; k < cell.count; k++)
        if (k == 0)
          tl_path_move (d, cell.at[k][0], cell.at[k][1]);
        else
          tl_path_line (d, cell.at[k][0], cell.at[k][1]);
      tl_path_close (d);
      tl_shape_line (d, TL_INK_INK, TL_LINE_THIN)->owner = body->owner;
    }
}

typedef struct
{
  double x, y, away;
} Site;

static gint
nearest_first (gconstpointer a, gconstpointer b)
{
  const Site *p = a, *q = b;

  if (fabs (p->away - q->away) > 1e-9)
    return p->away < q->away ? -1 : 1;
  return atan2 (p->y, p->x) < atan2 (q->y, q->x) ? -1 : 1;
}

void
tl_cells_strands (TlDrawing *d, double x, double y, double radius, guint count, const TlBody *body)
{
  g_autoptr (GArray) sites = g_array_new (FALSE, FALSE, sizeof (Site));
  int    reach;
  double most, ratio;

  if (count < 2)
    return;
  count = MIN (count, MOST_CELLS);
  reach = (int) ceil (sqrt ((double) count)) + 2;
  for (int j = -reach; j <= reach; j++)
    for (int i = -reach; i <= reach; i++)
      {
        Site site = { i + 0.5 * j, j * 0.8660254, 0.0 };

        site.away = hypot (site.x, site.y);
        g_array_append_val (sites, site);
      }
  g_array_sort (sites, nearest_first);
  most = g_array_index (sites, Site, count - 1).away + 0.5;
  ratio = radius / most;
  for (guint i = 0; i < count; i++)
    {
      const Site *site = &g_array_index (sites, Site, i);

      tl_path_begin (d);
      tl_path_circle (d, x + site->x * ratio, y + site->y * ratio, 0.5 * ratio);
      tl_shape_line (d, TL_INK_INK, TL_LINE_THIN)->owner = body->owner;
    }
}
