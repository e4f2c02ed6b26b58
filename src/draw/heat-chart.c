/* heat-chart.c: temperature along the joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/heat-chart.h"

#include "base/quantity.h"
#include "draw/heat-parts.h"
#include "rules/wording.h"

#include <math.h>

#define LEAST_PART_MM 5.0

/* Of a part below the axis, in sizes of the text. */
static const double NUMBER_WITH_ROOM = 2.8;
/* Height that plot, title and figures need, in sizes of the text. */
static const double LEAST_PLOT = 12.0;

static const double dashes[] = { 2.2, 1.0 };
static const double dots[] = { 0.5, 0.8 };

void
tl_heat_chart_init (TlHeatChart *self)
{
  *self = (TlHeatChart){ .x_low_mm = NAN, .x_high_mm = NAN };
}

static gboolean
has_profile (const TlNetResult *result)
{
  return result != NULL && result->status == TL_NET_OK && result->profile != NULL;
}

static void
shown_part (const TlHeatChart *self, double *low_mm, double *high_mm)
{
  const TlNetwork *network = tl_heat_model_network (self->model);
  double           from = 1e3 * network->joint_x0_m, to = 1e3 * network->joint_x1_m;

  *low_mm = isfinite (self->x_low_mm) ? self->x_low_mm : from - (to - from);
  *high_mm = isfinite (self->x_high_mm) ? self->x_high_mm : to + (to - from);
  if (*high_mm - *low_mm < LEAST_PART_MM)
    *high_mm = *low_mm + LEAST_PART_MM;
}

/* --- one line of the network --- */

typedef struct
{
  GArray *x_mm, *hot_C; /* (element-type double) within the part shown */
} Trace;

static void
trace_clear (Trace *self)
{
  g_clear_pointer (&self->x_mm, g_array_unref);
  g_clear_pointer (&self->hot_C, g_array_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Trace, trace_clear)

static double
value_at (const TlNetLine *line, double x_m)
{
  guint low = 0, high = line->n - 1;

  if (x_m <= line->x_m[0])
    return line->temperature_C[0];
  if (x_m >= line->x_m[high])
    return line->temperature_C[high];
  while (high - low > 1)
    {
      guint middle = (low + high) / 2;

      if (line->x_m[middle] <= x_m)
        low = middle;
      else
        high = middle;
    }
  return line->temperature_C[low]
         + (line->temperature_C[high] - line->temperature_C[low]) * (x_m - line->x_m[low])
               / MAX (line->x_m[high] - line->x_m[low], 1e-12);
}

static void
add_point (Trace *self, double x_mm, double hot_C)
{
  g_array_append_val (self->x_mm, x_mm);
  g_array_append_val (self->hot_C, hot_C);
}

static void
trace_read (Trace *self, const TlNetLine *line, double low_mm, double high_mm)
{
  self->x_mm = g_array_new (FALSE, FALSE, sizeof (double));
  self->hot_C = g_array_new (FALSE, FALSE, sizeof (double));
  if (line->n < 2 || 1e3 * line->x_m[line->n - 1] <= low_mm || 1e3 * line->x_m[0] >= high_mm)
    return;
  if (1e3 * line->x_m[0] < low_mm)
    add_point (self, low_mm, value_at (line, 1e-3 * low_mm));
  for (guint i = 0; i < line->n; i++)
    if (1e3 * line->x_m[i] >= low_mm && 1e3 * line->x_m[i] <= high_mm)
      add_point (self, 1e3 * line->x_m[i], line->temperature_C[i]);
  if (1e3 * line->x_m[line->n - 1] > high_mm)
    add_point (self, high_mm, value_at (line, 1e-3 * high_mm));
}

static TlLook
look_of (const TlHeatChart *self, guint line)
{
  const TlHeatLine *row = &g_array_index (tl_heat_model_lines (self->model), TlHeatLine, line);
  const TlBody     *body = tl_assembly_body (self->assembly, row->body);

  return body->look;
}

static gboolean
is_lead (const TlHeatChart *self, guint line)
{
  return g_array_index (tl_heat_model_lines (self->model), TlHeatLine, line).is_lead;
}

static char *
name_of (const TlHeatChart *self, guint line, const TlLanguage *language)
{
  const TlHeatLine *row = &g_array_index (tl_heat_model_lines (self->model), TlHeatLine, line);
  const TlBody     *body = tl_assembly_body (self->assembly, row->body);
  guint             number = tl_assembly_number (self->assembly, row->owner);
  const char       *metal = tl_material_name (self->assembly->stock, body->material, language);

  return number > 0 ? g_strdup_printf ("%s (%u)", metal, number) : g_strdup (metal);
}

/* --- painting --- */

static void
widen_scale (TlChart *chart, const TlNetResult *result, double low_mm, double high_mm)
{
  for (guint i = 0; has_profile (result) && i < result->profile->n_bodies; i++)
    {
      g_auto (Trace) trace = { 0 };

      trace_read (&trace, &result->profile->lines[i], low_mm, high_mm);
      for (guint k = 0; k < trace.x_mm->len; k++)
        {
          chart->y_low = MIN (chart->y_low, g_array_index (trace.hot_C, double, k));
          chart->y_high = MAX (chart->y_high, g_array_index (trace.hot_C, double, k));
        }
    }
}

static void
set_scales (TlChart *chart, const TlHeatChart *self, gboolean has_limit, double limit_C)
{
  shown_part (self, &chart->x_low, &chart->x_high);
  chart->y_low = HUGE_VAL;
  chart->y_high = -HUGE_VAL;
  widen_scale (chart, self->best, chart->x_low, chart->x_high);
  widen_scale (chart, self->low, chart->x_low, chart->x_high);
  widen_scale (chart, self->high, chart->x_low, chart->x_high);
  if (has_limit)
    {
      chart->y_high = MAX (chart->y_high, limit_C);
      chart->y_low = MIN (chart->y_low, limit_C - 1.0);
    }
  tl_chart_ticks (&chart->y_low, &chart->y_high, &chart->y_step);
  if (has_limit && chart->y_high <= limit_C)
    chart->y_high += chart->y_step;

  double low = chart->x_low, high = chart->x_high;

  tl_chart_ticks (&low, &high, &chart->x_step);
}

/* Between the favourable and the unfavourable contacts, one conductor. */
static void
paint_band (const TlChart *chart, const TlHeatChart *self, guint line)
{
  g_auto (Trace) trace = { 0 };
  g_autoptr (GArray) low = NULL;
  g_autoptr (GArray) high = NULL;

  if (!has_profile (self->high) || line >= self->high->profile->n_bodies)
    return;
  trace_read (&trace, &self->best->profile->lines[line], chart->x_low, chart->x_high);
  low = g_array_new (FALSE, FALSE, sizeof (double));
  high = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < trace.x_mm->len; i++)
    {
      double x_m = 1e-3 * g_array_index (trace.x_mm, double, i),
             best = g_array_index (trace.hot_C, double, i);
      double one = has_profile (self->low) && line < self->low->profile->n_bodies
                       ? value_at (&self->low->profile->lines[line], x_m)
                       : best;
      double other = value_at (&self->high->profile->lines[line], x_m);
      double least = MIN (one, other), most = MAX (one, other);

      g_array_append_val (low, least);
      g_array_append_val (high, most);
    }
  tl_chart_band (chart, trace.x_mm->len, (const double *) trace.x_mm->data,
                 (const double *) low->data, (const double *) high->data);
}

static void
paint_line (const TlChart *chart, const TlHeatChart *self, guint line)
{
  g_auto (Trace) trace = { 0 };
  TlLook        look = look_of (self, line);
  const double *dash = look == TL_LOOK_COPPER ? NULL : look == TL_LOOK_ALUMINIUM ? dashes : dots;

  trace_read (&trace, &self->best->profile->lines[line], chart->x_low, chart->x_high);
  tl_chart_line (chart, trace.x_mm->len, (const double *) trace.x_mm->data,
                 (const double *) trace.hot_C->data,
                 is_lead (self, line) ? chart->heavy : chart->ink, dash, dash != NULL ? 2 : 0);
}

/* Names of the conductors at the outer end of each, above its line. */
static void
name_line (const TlChart *chart, const TlHeatChart *self, guint line)
{
  g_autofree char *name = name_of (self, line, chart->language);
  g_auto (Trace) trace = { 0 };
  gboolean left = line == tl_heat_model_network (self->model)->body_a;
  double   y;

  trace_read (&trace, &self->best->profile->lines[line], chart->x_low, chart->x_high);
  if (trace.x_mm->len < 2)
    return;
  y = tl_chart_y (chart, g_array_index (trace.hot_C, double, left ? 0 : trace.hot_C->len - 1))
      - 0.8 * chart->size;
  y = MAX (y, chart->y + chart->size);
  tl_chart_label (chart, name,
                  left ? chart->x + 0.6 * chart->size : chart->x + chart->width - 0.3 * chart->size,
                  y, TRUE, left ? 0.0 : 1.0, chart->palette->ink);
}

static void
paint_mouths (const TlChart *chart, const TlHeatChart *self)
{
  const TlNetwork *network = tl_heat_model_network (self->model);
  const double     mouths[] = { 1e3 * network->joint_x0_m, 1e3 * network->joint_x1_m };
  const double     dash[] = { 0.3 * chart->unit, 1.0 * chart->unit };

  cairo_save (chart->cr);
  cairo_set_dash (chart->cr, dash, 2, 0.0);
  cairo_set_line_width (chart->cr, chart->ink);
  tl_paint_set_colour (chart->cr, chart->palette->centre);
  for (guint i = 0; i < G_N_ELEMENTS (mouths); i++)
    if (mouths[i] > chart->x_low && mouths[i] < chart->x_high)
      {
        cairo_move_to (chart->cr, tl_chart_x (chart, mouths[i]), chart->y);
        cairo_rel_line_to (chart->cr, 0.0, chart->height);
      }
  cairo_stroke (chart->cr);
  cairo_restore (chart->cr);
}

static void
paint_ring (const TlChart *chart, const TlHeatChart *self)
{
  double           x_mm = 1e3 * self->best->hot_x_m, hot_C = self->best->value[TL_NET_HOT_C];
  double           x, y;
  g_autofree char *text = tl_quantity_format (hot_C, "degC", chart->language);

  if (x_mm < chart->x_low || x_mm > chart->x_high)
    return;
  x = tl_chart_x (chart, x_mm);
  y = tl_chart_y (chart, hot_C);
  cairo_new_path (chart->cr);
  cairo_arc (chart->cr, x, y, 0.45 * chart->size, 0.0, 2.0 * G_PI);
  tl_paint_set_colour (chart->cr, chart->palette->paper);
  cairo_fill_preserve (chart->cr);
  tl_paint_set_colour (chart->cr, chart->palette->ink);
  cairo_set_line_width (chart->cr, chart->heavy);
  cairo_stroke (chart->cr);
  tl_chart_label (chart, text, x, y - 1.1 * chart->size, TRUE, 0.5, chart->palette->ink);
}

static char *
limit_name (double limit_C, const TlLanguage *language)
{
  g_autofree char *value = tl_quantity_format (limit_C, "degC", language);

  return tl_wording_fill (tl_language_text (language, TL_N_ ("limit of what it touches {value}")),
                          "value", value, NULL);
}

static GArray *
parts_of (const TlHeatChart *self, const TlChart *chart, double width)
{
  double mm_a_unit = (chart->x_high - chart->x_low) / MAX (width, 1.0);

  return tl_heat_parts_new (self, chart->x_low, chart->x_high,
                            NUMBER_WITH_ROOM * chart->size * mm_a_unit);
}

void
tl_heat_chart_paint (cairo_t *cr, const TlPalette *palette, const TlHeatChart *self, double width,
                     double height, double unit, const TlLanguage *language)
{
  const char *title = tl_language_text (language, TL_N_ ("Temperature along the joint, °C"));
  const char *owner = NULL, *material = NULL;
  double      limit_C = 0.0, below;
  gboolean    has_limit;
  TlChart     chart;
  g_autoptr (GArray) parts = NULL;

  tl_chart_init (&chart, cr, palette, unit, language);
  if (!has_profile (self->best))
    {
      tl_chart_place (&chart, title, width, height, chart.size);
      tl_paint_text (cr, tl_language_text (language, TL_N_ ("No steady temperature.")), chart.x,
                     chart.y + 2.0 * chart.size, chart.size, FALSE, 0.0);
      return;
    }
  has_limit = tl_heat_model_limit_C (self->model, &limit_C, &owner, &material);
  set_scales (&chart, self, has_limit, limit_C);
  parts = parts_of (self, &chart, width);
  below = tl_heat_parts_height (parts, chart.size);
  /* Where the plot would have no height left, the table names them. */
  if (height - below < LEAST_PLOT * chart.size)
    {
      g_array_set_size (parts, 0);
      below = 0.0;
    }
  tl_chart_place (&chart, title, width, height - below, chart.size);
  tl_chart_axes (&chart,
                 tl_language_text (language, TL_N_ ("mm along the joint; parts as on the bench")),
                 NULL);
  tl_heat_parts_paint_borders (parts, &chart);
  tl_heat_parts_paint (parts, &chart, height - below - 0.5 * chart.size);
  for (guint i = 0; i < self->best->profile->n_bodies; i++)
    if (is_lead (self, i))
      paint_band (&chart, self, i);
  paint_mouths (&chart, self);
  for (guint i = 0; i < self->best->profile->n_bodies; i++)
    paint_line (&chart, self, i);
  if (has_limit)
    {
      g_autofree char *name = limit_name (limit_C, language);

      tl_chart_limit (&chart, limit_C, name);
    }
  for (guint i = 0; i < self->best->profile->n_bodies; i++)
    if (is_lead (self, i))
      name_line (&chart, self, i);
  paint_ring (&chart, self);
}

/* --- table --- */

/* The parts with their ends. */
static void
table_parts (GString *text, const TlHeatChart *self, double low_mm, double high_mm,
             const TlLanguage *language)
{
  g_autoptr (GArray) parts = tl_heat_parts_new (self, low_mm, high_mm, 0.0);

  g_string_append_printf (text, "%s\t%s\t%s\n", tl_language_text (language, TL_N_ ("part")),
                          tl_language_text (language, TL_N_ ("from, mm")),
                          tl_language_text (language, TL_N_ ("to, mm")));
  for (guint i = 0; i < parts->len; i++)
    {
      const TlHeatPart *part = &g_array_index (parts, TlHeatPart, i);
      g_autofree char  *name = tl_assembly_owner_name (self->assembly, part->owner, language),
                      *from = tl_language_number (language, MAX (part->x0_mm, low_mm), 1),
                      *to = tl_language_number (language, MIN (part->x1_mm, high_mm), 1);

      g_string_append_printf (text, "%s (%u)\t%s\t%s\n", name, part->number, from, to);
    }
}

char *
tl_heat_chart_to_table (const TlHeatChart *self, const TlLanguage *language)
{
  GString *text = g_string_new (NULL);
  double   low_mm, high_mm;

  g_string_append_printf (text, "%s\n",
                          tl_language_text (language, TL_N_ ("Temperature along the joint, °C")));
  if (!has_profile (self->best))
    {
      g_string_append_printf (text, "%s\n",
                              tl_language_text (language, TL_N_ ("No steady temperature.")));
      return g_string_free (text, FALSE);
    }
  g_string_append_printf (text, "%s\tmm\t°C\n", tl_language_text (language, TL_N_ ("metal")));
  shown_part (self, &low_mm, &high_mm);
  for (guint i = 0; i < self->best->profile->n_bodies; i++)
    {
      g_autofree char *name = name_of (self, i, language);
      g_auto (Trace) trace = { 0 };

      trace_read (&trace, &self->best->profile->lines[i], low_mm, high_mm);
      for (guint k = 0; k < trace.x_mm->len; k++)
        {
          g_autofree char *x =
              tl_language_number (language, g_array_index (trace.x_mm, double, k), 1);
          g_autofree char *hot =
              tl_language_number (language, g_array_index (trace.hot_C, double, k), 1);

          g_string_append_printf (text, "%s\t%s\t%s\n", name, x, hot);
        }
    }
  table_parts (text, self, low_mm, high_mm, language);
  return g_string_free (text, FALSE);
}
