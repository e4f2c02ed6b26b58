/* ageing-charts.h: which chart stands in a chart view of the Ageing page.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/chart-view.h"
#include "app/forecast.h"

G_BEGIN_DECLS

/* One output over the years; hides a view whose output the forecast lacks. */
void tl_ageing_charts_show_band (TlChartView *view, TlForecast *forecast, TlAgeingOutput output, const TlLanguage *language);
/* Temperature along the joint as built, or why there is none. */
void tl_ageing_charts_show_along (TlChartView *view, TlForecast *forecast, const TlLanguage *language);
/* Wants no load: it stands as soon as there is a joint. */
void tl_ageing_charts_show_ladder (TlChartView *view, const TlVerdict *verdict, const TlLanguage *language);

G_END_DECLS
