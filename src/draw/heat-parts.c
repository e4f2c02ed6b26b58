/* heat-parts.c: parts along the axis of the temperature.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/heat-parts.h"

#include <math.h>
#include <string.h>

/* In sizes of the text. */
static const double ROW = 1.9, NUMBER = 1.5;

/* --- where they lie --- */

static void
take (GArray *parts, const TlAssembly *assembly, const char *owner, double x0_mm, double x1_mm)
{
  TlHeatPart part = { tl_assembly_number (assembly, owner), owner, x0_mm, x1_mm, 0 };

  if (part.number == 0)
    return;
  for (guint i = 0; i < parts->len; i++)
    {
      TlHeatPart *each = &g_array_index (parts, TlHeatPart, i);

      if (each->number != part.number)
        continue;
      each->x0_mm = MIN (each->x0_mm, x0_mm);
      each->x1_mm = MAX (each->x1_mm, x1_mm);
      return;
    }
  g_array_append_val (parts, part);
}

/* Across the axis of a stack, which its section shows; %FALSE for what is no disc. */
static gboolean
disc_mm (const TlSolid *solid, double *x0_mm, double *x1_mm)
{
  double half = solid->outer_mm / (solid->kind == TL_SOLID_HEX ? sqrt (3.0) : 2.0);

  if (solid->kind != TL_SOLID_TUBE && solid->kind != TL_SOLID_HEX)
    return FALSE;
  *x0_mm = solid->u_mm - half;
  *x1_mm = solid->u_mm + half;
  return TRUE;
}

/* In a stack the network gives every line the length of the conductors' overlap; washers and shank are as wide as drawn. */
static void
take_lines (GArray *parts, const TlHeatChart *chart)
{
  const GArray    *lines = tl_heat_model_lines (chart->model);
  const TlNetwork *network = tl_heat_model_network (chart->model);

  for (guint i = 0; i < lines->len && i < network->n_bodies; i++)
    {
      const TlHeatLine *line = &g_array_index (lines, TlHeatLine, i);
      const TlBody     *body = tl_assembly_body (chart->assembly, line->body);
      double x0_mm = 1e3 * network->bodies[i].x0_m, x1_mm = 1e3 * network->bodies[i].x1_m;

      if (chart->assembly->family == TL_FAMILY_STACK && !line->is_lead && body->solids->len > 0)
        disc_mm (&g_array_index (body->solids, TlSolid, 0), &x0_mm, &x1_mm);
      take (parts, chart->assembly, line->owner, x0_mm, x1_mm);
    }
}

/* Solids along the axis x only: those of a stack lie along z. */
static void
take_covers (GArray *parts, const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = tl_assembly_body (assembly, i);

      if (body->role != TL_BODY_SEAL && body->role != TL_BODY_CAP && body->role != TL_BODY_HOUSING
          && body->role != TL_BODY_FERRULE)
        continue;
      for (guint k = 0; k < body->solids->len; k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);

          if (solid->kind == TL_SOLID_TUBE || solid->kind == TL_SOLID_BLOCK)
            take (parts, assembly, body->owner, solid->start_mm, solid->end_mm);
        }
    }
}

static gint
compare_parts (gconstpointer a, gconstpointer b)
{
  const TlHeatPart *one = a, *other = b;

  if (one->x0_mm < other->x0_mm || one->x0_mm > other->x0_mm)
    return one->x0_mm < other->x0_mm ? -1 : 1;
  return one->number < other->number ? -1 : one->number > other->number;
}

/* First row in which it has room; a part narrower than its number has it beside it. */
static void
pack (GArray *parts, double number_mm)
{
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < parts->len; i++)
    {
      TlHeatPart *part = &g_array_index (parts, TlHeatPart, i);
      double      width = part->x1_mm - part->x0_mm,
             end = part->x1_mm + (width < number_mm ? number_mm : 0.0);
      guint row = 0;

      while (row < ends->len && g_array_index (ends, double, row) > part->x0_mm)
        row++;
      if (row == ends->len)
        g_array_append_val (ends, end);
      else
        g_array_index (ends, double, row) = end;
      part->row = row;
    }
}

GArray *
tl_heat_parts_new (const TlHeatChart *chart, double low_mm, double high_mm, double number_mm)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TlHeatPart));

  take_lines (parts, chart);
  if (chart->assembly->family != TL_FAMILY_STACK)
    take_covers (parts, chart->assembly);
  for (guint i = parts->len; i > 0; i--)
    {
      const TlHeatPart *part = &g_array_index (parts, TlHeatPart, i - 1);

      if (part->x1_mm <= low_mm || part->x0_mm >= high_mm)
        g_array_remove_index (parts, i - 1);
    }
  g_array_sort (parts, compare_parts);
  pack (parts, number_mm);
  return parts;
}

/* --- painting --- */

double
tl_heat_parts_height (const GArray *self, double size)
{
  guint rows = 0;

  for (guint i = 0; i < self->len; i++)
    rows = MAX (rows, g_array_index (self, TlHeatPart, i).row + 1);
  return rows * ROW * size;
}

static gboolean
is_shown (const TlChart *chart, double x_mm)
{
  return x_mm > chart->x_low && x_mm < chart->x_high;
}

void
tl_heat_parts_paint_borders (const GArray *self, const TlChart *chart)
{
  cairo_save (chart->cr);
  cairo_set_line_width (chart->cr, chart->thin);
  tl_paint_set_colour (chart->cr, chart->palette->centre);
  for (guint i = 0; i < self->len; i++)
    {
      const TlHeatPart *part = &g_array_index (self, TlHeatPart, i);
      const double      ends[] = { part->x0_mm, part->x1_mm };

      for (guint k = 0; k < G_N_ELEMENTS (ends); k++)
        if (is_shown (chart, ends[k]))
          {
            cairo_move_to (chart->cr, tl_chart_x (chart, ends[k]), chart->y);
            cairo_rel_line_to (chart->cr, 0.0, chart->height);
          }
    }
  cairo_stroke (chart->cr);
  cairo_restore (chart->cr);
}

/* A line between two ticks; an end outside the part shown has none, so that it is seen to run on. */
static void
paint_part (const TlChart *chart, const TlHeatPart *part, double y)
{
  double x0 = tl_chart_x (chart, MAX (part->x0_mm, chart->x_low)),
         x1 = tl_chart_x (chart, MIN (part->x1_mm, chart->x_high));
  double diameter = NUMBER * chart->size, tick = 0.45 * chart->size;

  tl_paint_set_colour (chart->cr, chart->palette->ink);
  cairo_set_line_width (chart->cr, chart->ink);
  cairo_move_to (chart->cr, x0, y);
  cairo_line_to (chart->cr, x1, y);
  if (is_shown (chart, part->x0_mm))
    {
      cairo_move_to (chart->cr, x0, y - tick);
      cairo_line_to (chart->cr, x0, y + tick);
    }
  if (is_shown (chart, part->x1_mm))
    {
      cairo_move_to (chart->cr, x1, y - tick);
      cairo_line_to (chart->cr, x1, y + tick);
    }
  cairo_stroke (chart->cr);
  tl_paint_number (chart->cr, chart->palette, part->number,
                   x1 - x0 < diameter + chart->size ? x1 + 0.5 * diameter + 0.3 * chart->size
                                                    : (x0 + x1) / 2.0,
                   y, diameter, FALSE);
}

void
tl_heat_parts_paint (const GArray *self, const TlChart *chart, double top)
{
  for (guint i = 0; i < self->len; i++)
    {
      const TlHeatPart *part = &g_array_index (self, TlHeatPart, i);

      paint_part (chart, part, top + (part->row + 0.5) * ROW * chart->size);
    }
}
