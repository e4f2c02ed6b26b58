/* forecast.h: what the Ageing page shows of one joint: its years ahead, and its heat along the conductors today.
 *
 * Reckoned from a verdict that is only read, in any thread; immutable once made and counted by reference. Nothing is
 * shown here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/ageing-chart.h"
#include "draw/heat-chart.h"
#include "plan/looks.h"

G_BEGIN_DECLS

typedef struct _TlForecast TlForecast;

/**
 * tl_forecast_new:
 * @verdict: of the joint
 * @span_years: TL_AGEING_LEAST_SPAN to TL_AGEING_MOST_SPAN
 * @cancellable: (nullable)
 *
 * Returns: (transfer full): also where nothing could be computed; %NULL with %G_IO_ERROR_CANCELLED or %TL_ERROR_RANGE
 */
TlForecast *tl_forecast_new (const TlVerdict *verdict, double span_years, GCancellable *cancellable, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlForecast *tl_forecast_ref (TlForecast *self);
void        tl_forecast_unref (TlForecast *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlForecast, tl_forecast_unref)

const TlVerdict *tl_forecast_verdict (const TlForecast *self);
const TlAgeing  *tl_forecast_ageing (const TlForecast *self);
/* The later looks; (nullable): %NULL where the years could not be computed */
const TlLooks   *tl_forecast_looks (const TlForecast *self);
/* Heat along the joint as built: %FALSE when its network could not be built; @chart then stays as it is, and
 * tl_forecast_heat_reason() says why. @chart lives no longer than the forecast. */
gboolean tl_forecast_heat (const TlForecast *self, TlHeatChart *chart);
char    *tl_forecast_heat_reason (const TlForecast *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
