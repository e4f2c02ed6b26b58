/* ageing.c: one forecast from a joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/ageing-private.h"

#include <glib/gi18n-lib.h>

#define DEFAULT_SPAN 20.0
#define DEFAULT_SAMPLES 1000

/* Years that are reckoned, as far as the span reaches; its own end is added. */
static const double grid_years[] = {
  0.0, 0.02, 0.05, 0.1,  0.2,  0.35, 0.6,  1.0,  1.5,  2.0,  3.0,
  4.0, 5.0,  7.0,  10.0, 12.5, 15.0, 17.5, 20.0, 25.0, 30.0, 35.0
};

G_STATIC_ASSERT (G_N_ELEMENTS (grid_years) < TL_AGEING_MAX_YEARS);

void
tl_ageing_options_init (TlAgeingOptions *self)
{
  *self = (TlAgeingOptions){ DEFAULT_SPAN, DEFAULT_SAMPLES };
}

static gboolean
check_options (const TlAgeingOptions *options, GError **error)
{
  if (!(options->span_years >= TL_AGEING_LEAST_SPAN && options->span_years <= TL_AGEING_MOST_SPAN))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("A forecast of %g years cannot be made: it has to reach %g to %g years."),
                   options->span_years, TL_AGEING_LEAST_SPAN, TL_AGEING_MOST_SPAN);
      return FALSE;
    }
  if (options->n_samples < TL_AGEING_LEAST_SAMPLES || options->n_samples > TL_AGEING_MOST_SAMPLES)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("A forecast of %u samples cannot be made: it has to have %d to %d samples."),
                   options->n_samples, TL_AGEING_LEAST_SAMPLES, TL_AGEING_MOST_SAMPLES);
      return FALSE;
    }
  return TRUE;
}

static void
fill_years (TlAgeing *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (grid_years) && grid_years[i] < self->span_years; i++)
    self->years[self->n_years++] = grid_years[i];
  self->years[self->n_years++] = self->span_years;
}

/* Nut or screw of a terminal that presses on aluminium. */
static gboolean
has_screw_on_aluminium (const TlAssembly *assembly, const TlAgeingClamp *clamp)
{
  return clamp->creeps
         && (clamp->has_force
             || (assembly->family == TL_FAMILY_TERMINAL && assembly->terminal.screws > 0));
}

/* Forecast of a joint whose heat can be reckoned. %FALSE when cancelled; @reason when not computed. */
static gboolean
reckon (TlAgeing *self, TlAssembly *assembly, const TlHeatModel *model, GCancellable *cancellable,
        const char **reason, GError **error)
{
  g_auto (TlAgeingRun) run = { 0 };
  const char *limit_owner = NULL, *material = NULL;
  TlThreshold low, high;

  if (!tl_ageing_inputs_read (&run.inputs, assembly, model, reason)
      || !tl_ageing_clamp_read (&run.clamp, assembly, model, reason))
    return TRUE;
  if (!tl_ageing_surface_read (&run.surface, model, &run.inputs, cancellable, reason, error))
    return *reason != NULL;
  if (!tl_assembly_limit (assembly, "ageing.screw-look-low", &low)
      || !tl_assembly_limit (assembly, "ageing.screw-look-high", &high))
    {
      *reason = TL_N_ ("The data hold no limit for it.");
      return TRUE;
    }
  self->screw_months_low = low.value;
  self->screw_months_high = high.value;
  self->has[TL_AGEING_FORCE] = run.clamp.has_force;
  self->has[TL_AGEING_RESISTANCE] = self->has[TL_AGEING_GROWTH] = self->has[TL_AGEING_HOT] = TRUE;
  self->has_limit = tl_heat_model_limit_C (model, &self->limit_C, &limit_owner, &material);
  self->limit_C = self->has_limit ? self->limit_C : 0.0;
  self->limit_material = g_strdup (material);
  self->force_floor_N = run.inputs.floor_share * run.inputs.range[TL_AGEING_BY_TIGHTENING].best;
  self->force_floor_ratio = run.inputs.floor_share;
  self->resistance_most = run.inputs.resistance_most;
  self->hottest_C = run.inputs.hottest_C;
  self->load_A = run.inputs.range[TL_AGEING_BY_LOAD].best;
  self->ambient_C = run.inputs.range[TL_AGEING_BY_AIR].best;
  self->has_screw_on_aluminium = has_screw_on_aluminium (assembly, &run.clamp);
  if (!tl_ageing_run (&run, self, cancellable, error))
    return FALSE;
  tl_ageing_summarise (self, &run);
  self->is_computed = TRUE;
  return TRUE;
}

TlAgeing *
tl_ageing_new (const TlAssembly *assembly, const TlAgeingOptions *options,
               GCancellable *cancellable, GError **error)
{
  g_autoptr (TlAgeing) self = g_new0 (TlAgeing, 1);
  g_autoptr (TlAssembly) own = NULL;
  g_autoptr (TlHeatModel) model = NULL;
  const char     *reason = NULL, *owner = NULL;
  TlAgeingOptions defaults;

  g_return_val_if_fail (assembly != NULL, NULL);
  tl_ageing_options_init (&defaults);
  options = options != NULL ? options : &defaults;
  if (!check_options (options, error) || g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  self->span_years = options->span_years;
  self->n_samples = options->n_samples;
  self->field = TL_N_FIELDS;
  fill_years (self);
  own = tl_assembly_new (assembly->joint, assembly->stock);
  model = tl_heat_model_new (own, &reason, &owner, &self->field);
  if (model != NULL && !reckon (self, own, model, cancellable, &reason, error))
    return NULL;
  if (!self->is_computed)
    {
      self->reason = reason;
      self->owner = g_strdup (owner);
    }
  return g_steal_pointer (&self);
}

void
tl_ageing_free (TlAgeing *self)
{
  if (self == NULL)
    return;
  g_free (self->owner);
  g_free (self->limit_material);
  g_free (self);
}

TlAgeingBand
tl_ageing_band_at (const TlAgeing *self, TlAgeingOutput output, double year)
{
  const TlAgeingBand *bands = self->bands[output];
  guint               i = 0;
  double              part;
  TlAgeingBand        band;

  g_return_val_if_fail (self->is_computed && (guint) output < TL_N_AGEING_OUTPUTS, bands[0]);
  year = CLAMP (year, 0.0, self->span_years);
  while (i + 2 < self->n_years && self->years[i + 1] <= year)
    i++;
  part = (year - self->years[i]) / (self->years[i + 1] - self->years[i]);
  band = part < 1.0 ? bands[i] : bands[i + 1];
  band.value.low = bands[i].value.low + part * (bands[i + 1].value.low - bands[i].value.low);
  band.value.best = bands[i].value.best + part * (bands[i + 1].value.best - bands[i].value.best);
  band.value.high = bands[i].value.high + part * (bands[i + 1].value.high - bands[i].value.high);
  return band;
}
