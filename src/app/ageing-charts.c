/* ageing-charts.c: years, ladder and heat as charts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-charts.h"

#include "draw/ladder.h"

#include <glib/gi18n.h>

/* What a chart is painted from. */
typedef struct
{
  TlForecast    *forecast; /* NULL for the ladder */
  TlVerdict     *verdict;  /* of the ladder */
  TlLanguage    *language;
  TlAgeingOutput output;
} Shown;

static Shown *
shown_new (TlForecast *forecast, const TlVerdict *verdict, const TlLanguage *language,
           TlAgeingOutput output)
{
  Shown *self = g_new0 (Shown, 1);

  self->forecast = forecast == NULL ? NULL : tl_forecast_ref (forecast);
  self->verdict = verdict == NULL ? NULL : tl_verdict_ref (verdict);
  self->language = tl_language_ref ((TlLanguage *) language);
  self->output = output;
  return self;
}

static void
shown_free (gpointer data)
{
  Shown *self = data;

  g_clear_pointer (&self->forecast, tl_forecast_unref);
  g_clear_pointer (&self->verdict, tl_verdict_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  g_free (self);
}

static void
paint_years (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
             gpointer data)
{
  const Shown *self = data;

  tl_ageing_chart_paint (cr, palette, tl_forecast_ageing (self->forecast), self->output, width,
                         height, unit, self->language);
}

static void
paint_along (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
             gpointer data)
{
  const Shown *self = data;
  TlHeatChart  chart;

  if (tl_forecast_heat (self->forecast, &chart))
    tl_heat_chart_paint (cr, palette, &chart, width, height, unit, self->language);
}

static void
paint_ladder (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
              gpointer data)
{
  const Shown *self = data;

  tl_ladder_paint (cr, palette, self->verdict, width, height, unit, self->language);
}

void
tl_ageing_charts_show_band (TlChartView *view, TlForecast *forecast, TlAgeingOutput output,
                            const TlLanguage *language)
{
  const TlAgeing  *ageing = tl_forecast_ageing (forecast);
  g_autofree char *table = NULL;

  gtk_widget_set_visible (GTK_WIDGET (view), ageing->has[output]);
  if (!ageing->has[output])
    {
      tl_chart_view_refuse (view, tl_language_text (language, tl_ageing_output_title (output)),
                            _ ("Not computed"));
      return;
    }
  table = tl_ageing_chart_to_table (ageing, output, language);
  tl_chart_view_show (view, language, table, paint_years,
                      shown_new (forecast, NULL, language, output), shown_free);
}

void
tl_ageing_charts_show_along (TlChartView *view, TlForecast *forecast, const TlLanguage *language)
{
  g_autofree char *text = NULL;
  TlHeatChart      chart;

  if (!tl_forecast_heat (forecast, &chart))
    {
      text = tl_forecast_heat_reason (forecast, language);
      tl_chart_view_refuse (view, _ ("Temperature along the joint: not computed"), text);
      return;
    }
  text = tl_heat_chart_to_table (&chart, language);
  tl_chart_view_show (view, language, text, paint_along, shown_new (forecast, NULL, language, 0),
                      shown_free);
}

void
tl_ageing_charts_show_ladder (TlChartView *view, const TlVerdict *verdict,
                              const TlLanguage *language)
{
  g_autofree char *table = NULL;

  if (verdict->assembly->bodies->len == 0)
    {
      tl_chart_view_refuse (view, _ ("Ladder of potentials"),
                            _ ("No metal stands in the joint yet."));
      return;
    }
  table = tl_ladder_to_table (verdict, language);
  tl_chart_view_show (view, language, table, paint_ladder, shown_new (NULL, verdict, language, 0),
                      shown_free);
}
