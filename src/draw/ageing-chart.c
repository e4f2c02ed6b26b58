/* ageing-chart.c: band over the years.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/ageing-chart.h"

#include "base/quantity.h"

#include <math.h>

static const char *
text_of (const TlLanguage *language, const char *msgid)
{
  return tl_language_text (language, msgid);
}

/* "Hottest metal at the load, °C" */
static char *
title_of (TlAgeingOutput output, const TlLanguage *language)
{
  const char *title = text_of (language, tl_ageing_output_title (output));
  const char *unit = tl_unit_label (tl_ageing_output_unit (output));

  return *unit != '\0' ? g_strdup_printf ("%s, %s", title, unit) : g_strdup (title);
}

/* Limit of an output and its name; %FALSE without one. */
static gboolean
limit_of (const TlAgeing *ageing, TlAgeingOutput output, const TlLanguage *language, double *value,
          char **name)
{
  const char      *msgid = NULL;
  g_autofree char *figure = NULL;

  switch (output)
    {
    case TL_AGEING_HOT:
      msgid = ageing->has_limit ? TL_N_ ("limit of what it touches {value}") : NULL;
      *value = ageing->limit_C;
      figure = tl_quantity_format (*value, "degC", language);
      break;
    case TL_AGEING_GROWTH:
      msgid = TL_N_ ("remake at {value}");
      *value = ageing->resistance_most;
      figure = tl_quantity_format (*value, "1", language);
      break;
    case TL_AGEING_FORCE:
      msgid = TL_N_ ("{value} of the first force");
      *value = ageing->force_floor_N;
      figure = tl_quantity_format (100.0 * ageing->force_floor_ratio, "%", language);
      break;
    case TL_AGEING_RESISTANCE:
    case TL_N_AGEING_OUTPUTS:
    default:
      break;
    }
  if (msgid == NULL)
    return FALSE;
  *name = tl_wording_fill (text_of (language, msgid), "value", figure, NULL);
  return TRUE;
}

/* Zero is shown where zero means something: not for temperatures. */
static void
set_scales (TlChart *chart, const TlAgeing *ageing, TlAgeingOutput output, gboolean has_limit,
            double limit)
{
  double low = HUGE_VAL, high = -HUGE_VAL;

  for (guint i = 0; i < ageing->n_years; i++)
    {
      low = MIN (low, ageing->bands[output][i].value.low);
      high = MAX (high, ageing->bands[output][i].value.high);
    }
  if (has_limit && (output != TL_AGEING_GROWTH || high < 40.0 * limit))
    {
      high = MAX (high, limit);
      low = MIN (low, output == TL_AGEING_HOT ? limit - 1.0 : limit);
    }
  if (output == TL_AGEING_FORCE || output == TL_AGEING_RESISTANCE)
    low = 0.0;
  if (output == TL_AGEING_GROWTH)
    low = MIN (low, 1.0);
  chart->y_low = low;
  chart->y_high = high;
  tl_chart_ticks (&chart->y_low, &chart->y_high, &chart->y_step);
  if (has_limit && chart->y_high <= limit)
    chart->y_high += chart->y_step; /* room for its name */
  chart->x_low = 0.0;
  chart->x_high = ageing->span_years;
  tl_chart_ticks (&chart->x_low, &chart->x_high, &chart->x_step);
  chart->x_high = ageing->span_years;
}

/* Does a line of text at that baseline stay inside the plot and clear of what stands there already? */
static gboolean
is_clear (const TlChart *chart, double baseline, const double *taken, guint n_taken)
{
  if (baseline < chart->y + chart->size || baseline > chart->y + chart->height - 0.3 * chart->size)
    return FALSE;
  for (guint i = 0; i < n_taken; i++)
    if (fabs (baseline - taken[i]) < 1.3 * chart->size)
      return FALSE;
  return TRUE;
}

/* Names at the right end: of the middle line above it, of the band below it, above it or in it, where there is room. */
static void
name_lines (const TlChart *chart, const TlAgeingBand *last, gboolean has_limit, double limit)
{
  double right = chart->x + chart->width - 0.4 * chart->size, half = 0.35 * chart->size;
  double middle = tl_chart_y (chart, last->value.best) - 0.5 * chart->size;
  double low = tl_chart_y (chart, last->value.low), high = tl_chart_y (chart, last->value.high);
  const double places[] = { low + 1.15 * chart->size, high - 0.5 * chart->size,
                            (low + high) / 2.0 + half, low - 0.5 * chart->size };
  double       taken[] = { last->is_open[1] ? -HUGE_VAL : MAX (middle, chart->y + chart->size),
                     has_limit ? tl_chart_y (chart, limit) + half : -HUGE_VAL };
  guint at = 0;

  if (!last->is_open[1])
    tl_chart_label (chart, text_of (chart->language, TL_N_ ("middle")), right, taken[0], TRUE, 1.0,
                    chart->palette->ink);
  while (at < G_N_ELEMENTS (places) && !is_clear (chart, places[at], taken, G_N_ELEMENTS (taken)))
    at++;
  if (at < G_N_ELEMENTS (places))
    tl_chart_label (chart, text_of (chart->language, TL_N_ ("band: 5 to 95 % of the samples")),
                    right, places[at], FALSE, 1.0, chart->palette->select);
}

/* Where the upper edge leaves what can be reckoned. */
static void
mark_open (const TlChart *chart, const TlAgeing *ageing, TlAgeingOutput output)
{
  /* Open stays open. */
  if (ageing->bands[output][ageing->n_years - 1].is_open[2])
    tl_chart_label (
        chart, text_of (chart->language, TL_N_ ("open above: no steady temperature can be told")),
        chart->x + chart->width / 2.0, chart->y + 1.1 * chart->size, FALSE, 0.5,
        chart->palette->ink);
}

/* A lens on the axis of years where a look is due, as a class: at the start, or within the first year. */
static void
mark_look (const TlChart *chart, const TlAgeing *ageing)
{
  double x = tl_chart_x (
      chart, ageing->look == TL_AGEING_WITHIN_YEAR ? MIN (1.0, ageing->span_years) : 0.0);
  double y = chart->y + chart->height, size = 1.5 * chart->size;

  if (ageing->look == TL_AGEING_ORDINARY || ageing->look == TL_AGEING_CHANGE_DESIGN)
    return;
  tl_paint_set_colour (chart->cr, chart->palette->paper);
  cairo_arc (chart->cr, x, y, 0.5 * size, 0.0, 2.0 * G_PI);
  cairo_fill (chart->cr);
  tl_paint_mark (chart->cr, chart->palette, TL_MARK_WATCH, x, y, size);
  tl_chart_label (chart, text_of (chart->language, TL_N_ ("look")),
                  x + 0.4 * size + 0.4 * chart->size, y - 0.5 * chart->size, TRUE, 0.0,
                  chart->palette->severity[TL_SEVERITY_WATCH]);
}

void
tl_ageing_chart_paint (cairo_t *cr, const TlPalette *palette, const TlAgeing *ageing,
                       TlAgeingOutput output, double width, double height, double unit,
                       const TlLanguage *language)
{
  g_autofree char *title = title_of (output, language);
  g_autofree char *limit_name = NULL;
  double           low[TL_AGEING_MAX_YEARS], best[TL_AGEING_MAX_YEARS], high[TL_AGEING_MAX_YEARS],
      limit = 0.0;
  gboolean has_limit;
  guint    n_line = 0;
  TlChart  chart;

  tl_chart_init (&chart, cr, palette, unit, language);
  if (!ageing->is_computed || !ageing->has[output])
    {
      tl_chart_place (&chart, title, width, height, chart.size);
      tl_paint_text (cr, text_of (language, TL_N_ ("Not computed")), chart.x,
                     chart.y + 2.0 * chart.size, chart.size, FALSE, 0.0);
      return;
    }
  has_limit = limit_of (ageing, output, language, &limit, &limit_name);
  set_scales (&chart, ageing, output, has_limit, limit);
  for (guint i = 0; i < ageing->n_years; i++)
    {
      low[i] = ageing->bands[output][i].value.low;
      best[i] = ageing->bands[output][i].value.best;
      high[i] = ageing->bands[output][i].value.high;
      n_line = ageing->bands[output][i].is_open[1] ? n_line : i + 1;
    }
  tl_chart_place (&chart, title, width, height, chart.size);
  tl_chart_axes (&chart, text_of (language, TL_N_ ("years")), text_of (language, TL_N_ ("new")));
  tl_chart_band (&chart, ageing->n_years, ageing->years, low, high);
  tl_chart_line (&chart, n_line, ageing->years, best, chart.heavy, NULL, 0);
  if (has_limit)
    tl_chart_limit (&chart, limit, limit_name);
  name_lines (&chart, &ageing->bands[output][ageing->n_years - 1], has_limit, limit);
  mark_open (&chart, ageing, output);
  mark_look (&chart, ageing);
}

/* --- table --- */

static char *
cell (double value, gboolean is_open, const char *unit, const TlLanguage *language)
{
  g_autofree char *figure = tl_quantity_format (value, unit, language);

  return is_open
             ? tl_wording_fill (text_of (language, TL_N_ ("above {value}")), "value", figure, NULL)
             : g_steal_pointer (&figure);
}

char *
tl_ageing_chart_to_table (const TlAgeing *ageing, TlAgeingOutput output, const TlLanguage *language)
{
  g_autofree char *title = title_of (output, language);
  const char      *unit = tl_ageing_output_unit (output);
  GString         *text = g_string_new (NULL);

  if (!ageing->is_computed || !ageing->has[output])
    {
      g_string_append_printf (text, "%s\n%s\n", title, text_of (language, TL_N_ ("Not computed")));
      return g_string_free (text, FALSE);
    }
  g_string_append_printf (text, "%s\n%s\t%s\t%s\t%s\n", title, text_of (language, TL_N_ ("years")),
                          text_of (language, TL_N_ ("5 % of the samples")),
                          text_of (language, TL_N_ ("middle")),
                          text_of (language, TL_N_ ("95 % of the samples")));
  for (guint i = 0; i < ageing->n_years; i++)
    {
      const TlAgeingBand *band = &ageing->bands[output][i];
      g_autofree char    *year =
          tl_language_number (language, ageing->years[i], ageing->years[i] < 1.0 ? 2 : 1);
      g_autofree char *low = cell (band->value.low, band->is_open[0], unit, language);
      g_autofree char *best = cell (band->value.best, band->is_open[1], unit, language);
      g_autofree char *high = cell (band->value.high, band->is_open[2], unit, language);

      g_string_append_printf (text, "%s\t%s\t%s\t%s\n", year, low, best, high);
    }
  return g_string_free (text, FALSE);
}
