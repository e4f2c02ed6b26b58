/* network-mesh.c: cutting the bodies of a network into columns of cells.
 *
 * Every end of a body, interface, zone, box and joint zone and every probe is an edge, so that a
 * figure is always read at an edge and its error shrinks by four with each halving.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-private.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Cells grow by this much of their distance to the joint zone and to an end held at a temperature. */
#define GROWTH 0.2
#define DEFAULT_MESH_M 1e-3
#define ROOM(pointer, type, room, wanted)                                                          \
  ((pointer) = make_room ((pointer), &(room), (wanted), sizeof (type)))

static gpointer
make_room (gpointer old, gsize *room, gsize wanted, gsize size)
{
  if (wanted <= *room && old != NULL)
    return old;
  *room = wanted + wanted / 2 + 16;
  return g_realloc_n (old, *room, size);
}

void
tl_net_mesh_clear (TlNetMesh *self)
{
  g_free (self->edge_m);
  g_free (self->cell_at);
  g_free (self->first_skin);
  g_free (self->in_box);
  g_free (self->row);
  g_free (self->cells);
  g_free (self->links);
  g_free (self->skins);
  *self = (TlNetMesh){ 0 };
}

/* --- edges --- */

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Sorted breakpoints without doubles; returns how many. */
static guint
collect_marks (TlNetWorkspace *work, const TlNetwork *network)
{
  const gsize most =
      2 * ((gsize) network->n_bodies + network->n_interfaces + network->n_zones) + 12;
  guint n = 0, kept = 1;

  ROOM (work->marks_m, double, work->marks_room, most);
  double *marks = work->marks_m;
  for (guint i = 0; i < network->n_bodies; i++)
    {
      marks[n++] = network->bodies[i].x0_m;
      marks[n++] = network->bodies[i].x1_m;
    }
  for (guint i = 0; i < network->n_interfaces; i++)
    {
      marks[n++] = network->interfaces[i].x0_m;
      marks[n++] = network->interfaces[i].x1_m;
    }
  for (guint i = 0; i < network->n_zones; i++)
    {
      marks[n++] = network->zones[i].x0_m;
      marks[n++] = network->zones[i].x1_m;
    }
  const double left = network->bodies[network->body_a].x0_m,
               right = network->bodies[network->body_b].x1_m;
  const double extra[] = { network->joint_x0_m, network->joint_x1_m, network->lead_a_x_m,
                           network->lead_b_x_m, network->volt_a_x_m, network->volt_b_x_m,
                           network->box_x0_m,   network->box_x1_m };
  const guint  n_extra = network->box_W_per_K > 0.0 ? 8 : 6;
  for (guint i = 0; i < n_extra; i++)
    if (extra[i] > left && extra[i] < right)
      marks[n++] = extra[i];
  qsort (marks, n, sizeof *marks, compare_doubles);
  for (guint i = 1; i < n; i++)
    if (marks[i] - marks[kept - 1] > TL_NET_SAME_M)
      marks[kept++] = marks[i];
  return kept;
}

/* Wanted size of a cell at @x_m. */
static double
size_at (const TlNetwork *network, double mesh_m, double x_m)
{
  double away = MAX (MAX (network->joint_x0_m - x_m, x_m - network->joint_x1_m), 0.0);

  if (network->has_end_a)
    away = MIN (away, fabs (x_m - network->bodies[network->body_a].x0_m));
  if (network->has_end_b)
    away = MIN (away, fabs (network->bodies[network->body_b].x1_m - x_m));
  return mesh_m + GROWTH * away;
}

static gboolean
add_edge (TlNetMesh *mesh, double x_m)
{
  if (mesh->n_columns >= TL_NET_MAX_COLUMNS)
    return FALSE;
  mesh->edge_m[++mesh->n_columns] = x_m;
  return TRUE;
}

/* Cells over [a, b] whose size changes evenly from end to end; the sizes at both ends rule. */
static gboolean
cut_piece (TlNetMesh *mesh, double a, double b, double size_a, double size_b, guint least)
{
  const double   length = b - a;
  /* With size growing linearly, the number of cells is the integral of dx/size. */
  const double   slope = (size_b - size_a) / length;
  const gboolean even = fabs (size_b - size_a) < 1e-9 * size_a;
  const double   wanted = even ? length / size_a : log (size_b / size_a) / slope;

  if (wanted > TL_NET_MAX_COLUMNS)
    return FALSE;
  const guint n = MAX ((guint) ceil (wanted - 1e-6), least);
  for (guint i = 1; i < n; i++)
    {
      const double share = (double) i / n;
      const double x =
          even ? a + share * length : a + size_a / slope * (pow (size_b / size_a, share) - 1.0);

      if (!add_edge (mesh, x))
        return FALSE;
    }
  return add_edge (mesh, b);
}

/* A piece outside the joint zone may have a held end behind it: the size has a ridge between both. */
static gboolean
cut_ridge (TlNetMesh *mesh, const TlNetwork *network, double mesh_m, double a, double b)
{
  const double size_a = size_at (network, mesh_m, a), size_b = size_at (network, mesh_m, b);
  /* Where lines of slope +GROWTH from a and -GROWTH from b meet. */
  const double top = 0.5 * (a + b) + 0.5 * (size_b - size_a) / GROWTH;

  if (top - a > 1e-3 * (b - a) && b - top > 1e-3 * (b - a)
      && fabs (size_at (network, mesh_m, top) - (size_a + GROWTH * (top - a))) < 1e-6 * size_a)
    {
      const double size_top = size_a + GROWTH * (top - a);
      return cut_piece (mesh, a, top, size_a, size_top, 1)
             && cut_piece (mesh, top, b, size_top, size_b, 1);
    }
  return cut_piece (mesh, a, b, size_a, size_b, 1);
}

/* --- cells --- */

/* Columns @from to before @to: what lies between two edges. */
typedef struct
{
  guint from, to;
} Span;

typedef struct
{
  Span bodies[TL_NET_MAX_BODIES], interfaces[TL_NET_MAX_INTERFACES], zones[TL_NET_MAX_ZONES], box;
} Spans;

static Span
span_of (const TlNetMesh *mesh, double x0_m, double x1_m)
{
  return (Span){ tl_net_mesh_edge (mesh, x0_m), tl_net_mesh_edge (mesh, x1_m) };
}

static gboolean
spans (Span span, guint column)
{
  return span.from <= column && column < span.to;
}

/* Finds the columns of everything, once, and makes room for their cells, links and skins. */
static void
find_spans (const TlNetwork *network, TlNetMesh *mesh, Spans *found)
{
  guint cells = 0, links = 0, skins = 0;

  for (guint i = 0; i < network->n_bodies; i++)
    {
      found->bodies[i] = span_of (mesh, network->bodies[i].x0_m, network->bodies[i].x1_m);
      cells += found->bodies[i].to - found->bodies[i].from;
    }
  for (guint i = 0; i < network->n_interfaces; i++)
    {
      found->interfaces[i] =
          span_of (mesh, network->interfaces[i].x0_m, network->interfaces[i].x1_m);
      links += found->interfaces[i].to - found->interfaces[i].from;
    }
  for (guint i = 0; i < network->n_zones; i++)
    {
      found->zones[i] = span_of (mesh, network->zones[i].x0_m, network->zones[i].x1_m);
      skins += found->zones[i].to - found->zones[i].from;
    }
  found->box = (Span){ 0, 0 };
  if (network->box_W_per_K > 0.0)
    found->box = span_of (mesh, network->box_x0_m, network->box_x1_m);
  ROOM (mesh->cells, TlNetCell, mesh->cell_room, cells);
  ROOM (mesh->links, TlNetLink, mesh->link_room, links);
  ROOM (mesh->skins, TlNetSkin, mesh->skin_room, skins);
}

static void
add_cell (const TlNetwork *network, TlNetMesh *mesh, guint column, guint body)
{
  const TlNetBody *b = &network->bodies[body];
  const double     dx = mesh->edge_m[column + 1] - mesh->edge_m[column];
  const guint      index = mesh->n_cells++;
  TlNetCell       *cell = &mesh->cells[index];

  *cell = (TlNetCell){
    .dx_m = dx,
    .ohm_20 = b->resistivity_20_ohm_m * dx / b->section_m2,
    .coefficient_per_K = b->coefficient_per_K,
    .capacity_J_per_K = b->capacity_J_per_m3K * b->section_m2 * dx,
    .right = TL_NET_NONE,
    .left = column == 0 ? TL_NET_NONE : tl_net_cell_at (mesh, column - 1, body),
    .body = body,
    .column = column,
  };
  mesh->cell_at[(gsize) column * mesh->n_bodies + body] = index;
  if (cell->left == TL_NET_NONE)
    return;
  TlNetCell *before = &mesh->cells[cell->left];
  before->right = index;
  before->right_W_per_K = 2.0 * b->conductivity_W_per_mK * b->section_m2 / (dx + before->dx_m);
}

static void
add_link (const TlNetwork *network, TlNetMesh *mesh, guint column, guint which)
{
  const TlNetInterface *face = &network->interfaces[which];
  const double          share =
      (mesh->edge_m[column + 1] - mesh->edge_m[column]) / (face->x1_m - face->x0_m);
  const guint p = tl_net_cell_at (mesh, column, face->p),
              q = tl_net_cell_at (mesh, column, face->q);

  mesh->links[mesh->n_links++] = (TlNetLink){
    .p = p,
    .q = q,
    .which = which,
    .ohm_20 = face->resistance_20_ohm / share,
    .coefficient_per_K = face->coefficient_per_K,
    .W_per_K = face->conductance_W_per_K * share,
  };
}

/* Rows outside the joint reach to their neighbour only; elimination fills a row as far as the one above. */
static void
fill_rows (TlNetMesh *mesh)
{
  guint start = 0, above = 0;

  ROOM (mesh->row, guint, mesh->row_room, mesh->n_cells + 1);
  guint *reach = mesh->row; /* first each row's own reach, then where it begins */
  for (guint i = 0; i < mesh->n_cells; i++)
    reach[i] = mesh->cells[i].right == TL_NET_NONE ? 0 : mesh->cells[i].right - i;
  for (guint k = 0; k < mesh->n_links; k++)
    {
      const guint p = mesh->links[k].p, q = mesh->links[k].q, upper = MIN (p, q);

      reach[upper] = MAX (reach[upper], MAX (p, q) - upper);
    }
  for (guint i = 0; i < mesh->n_cells; i++)
    {
      const guint filled = MAX (reach[i], above > 0 ? above - 1 : 0);

      mesh->row[i] = start;
      start += filled + 1;
      above = filled;
    }
  mesh->row[mesh->n_cells] = start;
}

static void
add_skin (const TlNetwork *network, TlNetMesh *mesh, guint column, guint zone)
{
  const double dx = mesh->edge_m[column + 1] - mesh->edge_m[column];
  const guint  cell = tl_net_cell_at (mesh, column, network->zones[zone].body);

  mesh->cells[cell].capacity_J_per_K += network->zones[zone].capacity_J_per_mK * dx;
  mesh->skins[mesh->n_skins++] = (TlNetSkin){ .cell = cell, .zone = zone, .dx_m = dx };
}

/* Cells, links and skins for the edges that stand. */
static void
fill_columns (const TlNetwork *network, TlNetMesh *mesh)
{
  Spans found;

  mesh->n_bodies = network->n_bodies;
  find_spans (network, mesh, &found);
  ROOM (mesh->cell_at, guint, mesh->at_room, (gsize) mesh->n_columns * network->n_bodies);
  memset (mesh->cell_at, 0xFF, sizeof (guint) * mesh->n_columns * network->n_bodies);
  mesh->n_cells = mesh->n_links = mesh->n_skins = 0;
  for (guint c = 0; c < mesh->n_columns; c++)
    {
      mesh->in_box[c] = spans (found.box, c);
      mesh->first_skin[c] = mesh->n_skins;
      for (guint i = 0; i < network->n_bodies; i++)
        if (spans (found.bodies[i], c))
          add_cell (network, mesh, c, i);
      for (guint i = 0; i < network->n_interfaces; i++)
        if (spans (found.interfaces[i], c))
          add_link (network, mesh, c, i);
      for (guint i = 0; i < network->n_zones; i++)
        if (spans (found.zones[i], c))
          add_skin (network, mesh, c, i);
    }
  mesh->first_skin[mesh->n_columns] = mesh->n_skins;
  fill_rows (mesh);
}

static void
fit_columns (TlNetMesh *mesh, gsize columns)
{
  gsize room = mesh->column_room;

  if (columns + 1 <= room)
    return;
  ROOM (mesh->edge_m, double, room, columns + 1);
  mesh->first_skin = g_realloc_n (mesh->first_skin, room, sizeof (guint));
  mesh->in_box = g_realloc_n (mesh->in_box, room, sizeof (guint));
  mesh->column_room = room;
}

/* %FALSE if the cells would be too many. */
gboolean
tl_net_mesh_build (TlNetWorkspace *work, const TlNetwork *network, TlNetMesh *mesh)
{
  const double mesh_m = network->mesh_m > 0.0 ? network->mesh_m : DEFAULT_MESH_M;
  const guint  n = collect_marks (work, network);

  fit_columns (mesh, TL_NET_MAX_COLUMNS + 1);
  mesh->n_columns = 0;
  mesh->edge_m[0] = work->marks_m[0];
  for (guint i = 0; i + 1 < n; i++)
    {
      const double   a = work->marks_m[i], b = work->marks_m[i + 1];
      const double   middle = 0.5 * (a + b);
      const gboolean inside = network->joint_x0_m < middle && middle < network->joint_x1_m;

      if (!(inside ? cut_piece (mesh, a, b, mesh_m, mesh_m, 2)
                   : cut_ridge (mesh, network, mesh_m, a, b)))
        return FALSE;
    }
  fill_columns (network, mesh);
  return TRUE;
}

void
tl_net_mesh_halve (const TlNetwork *network, const TlNetMesh *coarse, TlNetMesh *fine)
{
  fit_columns (fine, 2 * (gsize) coarse->n_columns);
  fine->n_columns = 2 * coarse->n_columns;
  for (guint c = 0; c < coarse->n_columns; c++)
    {
      fine->edge_m[2 * c] = coarse->edge_m[c];
      fine->edge_m[2 * c + 1] = 0.5 * (coarse->edge_m[c] + coarse->edge_m[c + 1]);
    }
  fine->edge_m[fine->n_columns] = coarse->edge_m[coarse->n_columns];
  fill_columns (network, fine);
}

guint
tl_net_mesh_edge (const TlNetMesh *self, double x_m)
{
  guint low = 0, high = self->n_columns;

  while (high - low > 1)
    {
      const guint middle = (low + high) / 2;

      if (self->edge_m[middle] <= x_m)
        low = middle;
      else
        high = middle;
    }
  return self->edge_m[high] - x_m < x_m - self->edge_m[low] ? high : low;
}
