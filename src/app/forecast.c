/* forecast.c: years ahead and heat along the joint, reckoned together.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/forecast.h"

#include <glib/gi18n.h>

struct _TlForecast
{
  gatomicrefcount ref_count;

  TlVerdict   *verdict;
  TlAgeing    *ageing;
  TlLooks     *looks;    /* NULL: the years were not computed */
  TlAssembly  *assembly; /* of its own: the model notes in it which limits it read */
  TlHeatModel *model;    /* NULL: not computed, see below */
  TlNetResult  along[3]; /* by TlHeatCase */
  const char  *reason;   /* msgid */
  char        *owner;    /* of the reason */
};

static void
solve_along (TlForecast *self)
{
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();

  for (TlHeatCase which = TL_HEAT_LOW; which <= TL_HEAT_HIGH; which++)
    {
      TlHeatChange change;

      tl_heat_change_init (&change);
      change.which = which;
      change.want_profile = TRUE;
      /* A case without a steady temperature is a result, and the chart says so. */
      if (!tl_heat_model_solve (self->model, &change, workspace, &self->along[which], NULL))
        {
          g_clear_pointer (&self->model, tl_heat_model_free);
          self->reason = N_ ("The joint cannot be reckoned.");
          return;
        }
    }
}

TlForecast *
tl_forecast_new (const TlVerdict *verdict, double span_years, GCancellable *cancellable,
                 GError **error)
{
  g_autoptr (TlForecast) self = g_new0 (TlForecast, 1);
  const char     *owner = NULL;
  TlField         field;
  TlAgeingOptions options;

  g_atomic_ref_count_init (&self->ref_count);
  self->verdict = tl_verdict_ref (verdict);
  tl_ageing_options_init (&options);
  options.span_years = span_years;
  self->ageing = tl_ageing_new (verdict->assembly, &options, cancellable, error);
  if (self->ageing == NULL)
    return NULL;
  if (self->ageing->is_computed)
    self->looks = tl_looks_new (verdict, self->ageing);
  self->assembly = tl_assembly_new (verdict->assembly->joint, verdict->assembly->stock);
  self->model = tl_heat_model_new (self->assembly, &self->reason, &owner, &field);
  self->owner = g_strdup (owner);
  if (self->model != NULL)
    solve_along (self);
  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  return g_steal_pointer (&self);
}

TlForecast *
tl_forecast_ref (TlForecast *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
tl_forecast_unref (TlForecast *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (self->along); i++)
    tl_net_result_clear (&self->along[i]);
  g_clear_pointer (&self->model, tl_heat_model_free);
  g_clear_pointer (&self->assembly, tl_assembly_unref);
  g_clear_pointer (&self->looks, tl_looks_free);
  g_clear_pointer (&self->ageing, tl_ageing_free);
  g_clear_pointer (&self->verdict, tl_verdict_unref);
  g_free (self->owner);
  g_free (self);
}

const TlVerdict *
tl_forecast_verdict (const TlForecast *self)
{
  return self->verdict;
}

const TlAgeing *
tl_forecast_ageing (const TlForecast *self)
{
  return self->ageing;
}

const TlLooks *
tl_forecast_looks (const TlForecast *self)
{
  return self->looks;
}

gboolean
tl_forecast_heat (const TlForecast *self, TlHeatChart *chart)
{
  if (self->model == NULL)
    return FALSE;
  tl_heat_chart_init (chart);
  chart->assembly = self->assembly;
  chart->model = self->model;
  chart->low = &self->along[TL_HEAT_LOW];
  chart->best = &self->along[TL_HEAT_BEST];
  chart->high = &self->along[TL_HEAT_HIGH];
  return TRUE;
}

char *
tl_forecast_heat_reason (const TlForecast *self, const TlLanguage *language)
{
  g_autofree char *part = self->owner == NULL
                              ? g_strdup ("")
                              : tl_assembly_owner_name (self->assembly, self->owner, language);

  if (self->model != NULL || self->reason == NULL)
    return g_strdup ("");
  return tl_wording_fill (tl_language_text (language, self->reason), "part", part, NULL);
}
