/* overlay-heat.c: temperatures as colours: fills in place of the tints, a scale, the hottest place by name.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* Values along one fill: the scale bends at its stops, so two are not enough. */
#define SAMPLES 17
#define BAR_HEIGHT_PX 10.0
#define MOST_TICKS 6

void
tl_overlay_heat_scale (double *low_C, double *high_C, double *step_K)
{
  static const struct
  {
    double span_K, step_K;
  } steps[] = { { 12.0, 2.0 }, { 40.0, 5.0 }, { 120.0, 10.0 }, { 400.0, 50.0 } };
  double span = *high_C - *low_C;

  *step_K = 500.0;
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (span <= steps[i].span_K)
      {
        *step_K = steps[i].step_K;
        break;
      }
  *low_C = floor (*low_C / *step_K + 1e-9) * *step_K;
  *high_C = ceil (*high_C / *step_K - 1e-9) * *step_K;
  if (*high_C <= *low_C)
    *high_C = *low_C + *step_K;
}

/* --- where a point of the area lies in the joint --- */

typedef struct
{
  double x_mm, y_mm;
} Point;

static Point
point_of (const TlDrawing *d, gint view, double x, double y, double cut_mm)
{
  const TlView *v = &d->views[view == TL_VIEW_END ? TL_VIEW_END : TL_VIEW_SECTION];
  double        scale = v->scale > 0.0 ? v->scale : 1.0;

  if (view != TL_VIEW_END)
    return (Point){ (x - v->x) / scale, 0.0 };
  /* seen from the head angles grow against the clock on the page; A–A is one place of the axis */
  if (d->assembly->family == TL_FAMILY_STACK)
    return (Point){ (x - v->x) / scale, -(y - v->y) / scale };
  return (Point){ cut_mm, 0.0 };
}

static double
cut_of (const TlDrawing *d)
{
  TlSleeveShape shape;

  if (d->assembly->family != TL_FAMILY_SLEEVE)
    return 0.0;
  tl_sleeve_shape (d, &shape);
  return shape.cut_mm;
}

double
tl_overlay_heat_at (const TlDrawing *d, guint body, gint view, double x, double y)
{
  Point point = point_of (d, view, x, y, view == TL_VIEW_END ? cut_of (d) : 0.0);

  return tl_heat_field_C (d->options.field, body, point.x_mm, point.y_mm);
}

/* --- fills --- */

typedef struct
{
  double low_C, high_C, step_K;
  double cut_mm;
} Scale;

static double
ratio_of (const Scale *scale, double value_C)
{
  return CLAMP ((value_C - scale->low_C) / (scale->high_C - scale->low_C), 0.0, 1.0);
}

/* The way of the fill in the area, and the stretch of the shape along it. */
static void
set_axis (const TlDrawing *d, TlShape *shape, guint body)
{
  double x0, y0, x1, y1, way_x = 1.0, way_y = 0.0, along, half;

  tl_shape_bounds (d, shape, &x0, &y0, &x1, &y1);
  if (shape->view == TL_VIEW_END && d->assembly->family == TL_FAMILY_STACK
      && tl_heat_field_direction (d->options.field, body, &way_x, &way_y))
    way_y = -way_y;
  else
    {
      way_x = 1.0;
      way_y = 0.0;
    }
  half = (fabs (way_x) * (x1 - x0) + fabs (way_y) * (y1 - y0)) / 2.0;
  along = MAX (half, 1e-3);
  shape->heat_x0 = (x0 + x1) / 2.0 - way_x * along;
  shape->heat_y0 = (y0 + y1) / 2.0 - way_y * along;
  shape->heat_x1 = (x0 + x1) / 2.0 + way_x * along;
  shape->heat_y1 = (y0 + y1) / 2.0 + way_y * along;
}

static void
fill_shape (TlDrawing *d, TlShape *shape, guint body, const Scale *scale)
{
  set_axis (d, shape, body);
  shape->heat_first = d->heat->len;
  shape->heat_count = SAMPLES;
  for (guint i = 0; i < SAMPLES; i++)
    {
      double t = (double) i / (SAMPLES - 1);
      Point  at = point_of (d, shape->view, shape->heat_x0 + t * (shape->heat_x1 - shape->heat_x0),
                            shape->heat_y0 + t * (shape->heat_y1 - shape->heat_y0), scale->cut_mm);
      double ratio = ratio_of (scale, tl_heat_field_C (d->options.field, body, at.x_mm, at.y_mm));

      g_array_append_val (d->heat, ratio);
    }
}

static void
fill_bodies (TlDrawing *d, const Scale *scale)
{
  for (guint i = 0; i < d->shapes->len; i++)
    {
      TlShape *shape = &g_array_index (d->shapes, TlShape, i);
      guint    body;

      if (shape->kind != TL_SHAPE_BODY || shape->look == TL_LOOK_AIR)
        continue;
      body = tl_overlay_body_of (d, shape);
      if (shape->owner == NULL)
        shape->is_plain = TRUE; /* the legend: pattern is material, colour is heat */
      else if (body != G_MAXUINT)
        fill_shape (d, shape, body, scale);
    }
}

/* --- figures: what the colours say, for one ink --- */

gboolean
tl_overlay_heat_at_target (const TlDrawing *d, const char *owner, double *value_C)
{
  TlShape probe = { .owner = owner, .look = TL_N_LOOKS };
  guint   body = tl_overlay_body_of (d, &probe);

  for (guint i = 0; body != G_MAXUINT && i < d->targets->len; i++)
    {
      const TlTarget *target = &g_array_index (d->targets, TlTarget, i);

      if (g_strcmp0 (target->owner, owner) != 0)
        continue;
      *value_C = tl_overlay_heat_at (d, body, TL_VIEW_SECTION, target->x, target->y);
      return TRUE;
    }
  return FALSE;
}

/* Beside each circle: left of the column of a stack, above the row of a sleeve. */
static void
label_numbers (TlDrawing *d)
{
  guint n = d->shapes->len;

  for (guint i = 0; i < n; i++)
    {
      TlShape          number = g_array_index (d->shapes, TlShape, i);
      g_autofree char *figure = NULL, *text = NULL;
      double           value_C, away = number.size / 2.0;

      if (number.kind != TL_SHAPE_NUMBER || !tl_overlay_heat_at_target (d, number.owner, &value_C))
        continue;
      figure = tl_language_number (d->language, value_C, 0);
      text = g_strdup_printf ("%s°", figure);
      if (d->assembly->family == TL_FAMILY_STACK)
        tl_overlay_label (d, text,
                          number.x - away - 4.0 * d->px
                              - tl_paint_text_width (text, d->text, FALSE) / 2.0,
                          number.y, FALSE);
      else
        tl_overlay_label (d, text, number.x, number.y - away - 0.7 * d->text, FALSE);
    }
}

/* --- band --- */

static void
scale_bar (TlDrawing *d, double y, double width, const Scale *scale, double hot_C)
{
  double x = 22.0 * d->px, top = y + 20.0 * d->px, bottom = top + BAR_HEIGHT_PX * d->px,
         hot = x + ratio_of (scale, hot_C) * width, tick;
  guint    ticks = (guint) lround ((scale->high_C - scale->low_C) / scale->step_K), every = 1;
  TlShape *bar;

  while (ticks / every >= MOST_TICKS)
    every++;
  tl_path_begin (d);
  tl_path_rectangle (d, x, top, x + width, bottom);
  bar = tl_shape_look (d, NULL, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
  bar->heat_first = d->heat->len;
  bar->heat_count = SAMPLES;
  bar->heat_x0 = x;
  bar->heat_x1 = x + width;
  bar->heat_y0 = bar->heat_y1 = top;
  for (guint i = 0; i < SAMPLES; i++)
    {
      double ratio = (double) i / (SAMPLES - 1);

      g_array_append_val (d->heat, ratio);
    }
  for (guint i = 0; i <= ticks; i += every)
    {
      g_autofree char *figure =
          i + every > ticks ? tl_overlay_temperature (d, scale->low_C + i * scale->step_K, FALSE)
                            : tl_language_number (d->language, scale->low_C + i * scale->step_K, 0);

      tick = x + width * i / ticks;
      tl_shape_segment (d, TL_INK_INK, TL_LINE_BAR, tick, bottom, tick, bottom + 3.0 * d->px);
      tl_shape_text (d, TL_INK_INK, figure, tick, bottom + 5.0 * d->px + 0.8 * d->text, d->text,
                     FALSE, 0.5);
    }
  tl_path_begin (d);
  tl_path_move (d, hot, top - 1.0 * d->px);
  tl_path_line (d, hot - 4.5 * d->px, top - 9.0 * d->px);
  tl_path_line (d, hot + 4.5 * d->px, top - 9.0 * d->px);
  tl_path_close (d);
  tl_shape_fill (d, TL_INK_INK);
}

static char *
under_what (const TlDrawing *d)
{
  const TlHeatField *field = d->options.field;
  g_autofree char   *load = tl_overlay_number (d, tl_heat_field_load_A (field));
  g_autofree char   *air = tl_overlay_number (d, tl_heat_field_ambient_C (field));

  return tl_wording_fill (
      tl_draw_text (
          d, TL_N_ ("At {load} A, {air} °C around the box. Pattern = material, colour = heat.")),
      "load", load, "air", air, NULL);
}

static char *
which_year (const TlDrawing *d)
{
  const TlHeatField *field = d->options.field;
  double             years = tl_heat_field_years (field);
  g_autofree char   *number = tl_overlay_number (d, years);
  g_autofree char *growth = tl_language_number (d->language, tl_heat_field_growth_ratio (field), 2);

  if (years <= 0.0)
    return g_strdup (tl_draw_text (d, TL_N_ ("New. The figures are estimates.")));
  return tl_wording_fill (
      tl_heat_field_is_open (field)
          ? tl_draw_text (
              d,
              TL_N_ ("After {years} years: more than {growth} times the resistance. Indicative."))
          : tl_draw_text (
              d,
              TL_N_ ("After {years} years: {growth} times the resistance when new. Indicative.")),
      "years", number, "growth", growth, NULL);
}

static char *
hottest_place (const TlDrawing *d)
{
  double           hot_C;
  const char      *hottest = tl_heat_field_hottest (d->options.field, &hot_C);
  g_autofree char *name = tl_overlay_owner_name (d, hottest);
  g_autofree char *figure = tl_overlay_temperature (d, hot_C, TRUE);

  return tl_wording_fill (tl_draw_text (d, TL_N_ ("Hottest in the joint {heat}: {part}")), "heat",
                          figure, "part", name, NULL);
}

/* Where a conductor is warmer than the joint it is the conductor that warms it: that is said, since it is seen. */
static char *
age_and_leads (const TlDrawing *d, double high_C)
{
  double           hot_C;
  g_autofree char *age = which_year (d);
  g_autofree char *high = tl_overlay_temperature (d, high_C, TRUE), *lead = NULL;

  (void) tl_heat_field_hottest (d->options.field, &hot_C);
  if (high_C < hot_C + 0.15)
    return g_steal_pointer (&age);
  lead =
      tl_wording_fill (tl_draw_text (d, TL_N_ ("The lead is warmer: {heat}.")), "heat", high, NULL);
  return g_strdup_printf ("%s %s", age, lead);
}

void
tl_overlay_heat (TlDrawing *d, double y)
{
  const TlHeatField *field = d->options.field;
  Scale              scale = { .cut_mm = cut_of (d) };
  double             hot_C, width = CLAMP (0.36 * d->options.width, 90.0 * d->px, 260.0 * d->px), x;
  g_autofree char   *first = hottest_place (d), *second = under_what (d), *third = NULL;

  (void) tl_heat_field_hottest (field, &hot_C);
  tl_heat_field_range_C (field, &scale.low_C, &scale.high_C);
  third = age_and_leads (d, scale.high_C);
  tl_overlay_heat_scale (&scale.low_C, &scale.high_C, &scale.step_K);
  fill_bodies (d, &scale);
  label_numbers (d);
  if (y >= d->options.height)
    return;
  d->view = TL_VIEW_SHEET;
  scale_bar (d, y, width, &scale, hot_C);
  x = 22.0 * d->px + width + 30.0 * d->px;
  tl_overlay_text (d, TL_INK_INK, first, x, y + 17.0 * d->px, d->options.width - 14.0 * d->px,
                   TRUE);
  tl_overlay_text (d, TL_INK_MUTED, second, x, y + 32.0 * d->px, d->options.width - 14.0 * d->px,
                   FALSE);
  tl_overlay_text (d, TL_INK_MUTED, third, x, y + 47.0 * d->px, d->options.width - 14.0 * d->px,
                   FALSE);
}
