/* ageing-run.c: the samples of a forecast, step by step through the years.
 *
 * Creep and film growth at changing temperatures are added up as equivalent times at the temperature of their
 * constants, 20 and 70 degC; how fast an hour counts at another temperature is read from a table made by the
 * registry's formulas once.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/ageing-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define HOURS_A_YEAR 8766.0
#define CREEP_C 20.0
#define GROWTH_C 70.0
/* A hotter cycle than any before restarts the shakedown; this much hotter counts. */
#define HOTTER_K 2.0
/* Least share of the force that the contact law is asked for. */
#define LEAST_FORCE 1e-3
#define TABLE_LOW_C (-60.0)
#define TABLE_NODES 261
#define CANCEL_EVERY 64

/* How fast an hour counts at a temperature, per degC. */
typedef struct
{
  double creep[TABLE_NODES];  /* factor on the strain */
  double growth[TABLE_NODES]; /* hours at 70 degC for one hour */
} Rates;

static gboolean
read_rates (Rates *self, double activation_K)
{
  TlCall creep, growth;

  tl_call_init (&creep, "creep-strain");
  tl_call_set_exact (&creep, "stress", 1.0);
  tl_call_set_exact (&creep, "time", 1.0);
  tl_call_init (&growth, "contact-growth");
  tl_call_set_exact (&growth, "time", 1.0);
  tl_call_set_exact (&growth, "time_constant", 1.0);
  tl_call_set_exact (&growth, "activation", activation_K);
  for (guint i = 0; i < TABLE_NODES; i++)
    {
      tl_call_set_exact (&creep, "temperature", TABLE_LOW_C + i);
      tl_call_set_exact (&growth, "temperature", TABLE_LOW_C + i);
      if (!tl_call_run (&creep, NULL) || !tl_call_run (&growth, NULL))
        return FALSE;
      self->creep[i] = tl_call_get (&creep, "creep_factor").best;
      self->growth[i] = 1.0 / tl_call_get (&growth, "constant_now").best;
    }
  return TRUE;
}

static double
rate_at (const double *table, double temperature_C)
{
  double at = CLAMP (temperature_C - TABLE_LOW_C, 0.0, TABLE_NODES - 1.001);
  guint  i = (guint) at;

  return table[i] + (table[i + 1] - table[i]) * (at - i);
}

/* One sample on its way. */
typedef struct
{
  double   drawn[TL_N_AGEING_INPUTS];
  double   first_N;  /* when new */
  double   cycled_N; /* after settling and the hottest cycle so far */
  double   cycle_C;  /* that cycle */
  double   force_N;
  double   contact_ratio; /* over the best contact resistance when new */
  double   hot_C;
  gboolean is_open;
  double   creep_h, growth_h; /* equivalent times */
  TlCall   creep, growth;
} Sample;

static void
start (Sample *self, const TlAgeingRun *run, guint index)
{
  for (guint i = 0; i < TL_N_AGEING_INPUTS; i++)
    self->drawn[i] = tl_ageing_inputs_draw (&run->inputs, i,
                                            run->points[(gsize) index * TL_N_AGEING_INPUTS + i]);
  self->first_N = run->clamp.has_force ? self->drawn[TL_AGEING_BY_TIGHTENING] : 1.0;
  self->force_N = self->cycled_N = self->first_N;
  self->cycle_C = -G_MAXDOUBLE;
  self->contact_ratio = self->drawn[TL_AGEING_BY_CONTACT];
  self->creep_h = self->growth_h = 0.0;
  tl_call_init (&self->creep, "creep-strain");
  tl_call_set_exact (&self->creep, "stress", 1.0);
  tl_call_set_exact (&self->creep, "temperature", CREEP_C);
  tl_call_set_exact (&self->creep, "strain", self->drawn[TL_AGEING_BY_CREEP]);
  tl_call_set_exact (&self->creep, "exponent", self->drawn[TL_AGEING_BY_CREEP_EXPONENT]);
  tl_call_init (&self->growth, "contact-growth");
  tl_call_set_exact (&self->growth, "temperature", GROWTH_C);
  tl_call_set_exact (&self->growth, "time_constant", self->drawn[TL_AGEING_BY_GROWTH]);
  tl_call_set_exact (&self->growth, "force_start", self->first_N);
  tl_call_set_exact (&self->growth, "force_exponent", self->drawn[TL_AGEING_BY_FORCE_EXPONENT]);
  tl_call_set_exact (&self->growth, "growth_exponent", self->drawn[TL_AGEING_BY_GROWTH_EXPONENT]);
}

static void
warm (Sample *self, const TlAgeingRun *run)
{
  self->is_open = !tl_ageing_surface_hot (
      &run->surface, self->contact_ratio, self->drawn[TL_AGEING_BY_COOLING],
      self->drawn[TL_AGEING_BY_AIR], self->drawn[TL_AGEING_BY_LOAD], &self->hot_C);
}

static void
age (Sample *self, const TlAgeingRun *run, const Rates *rates, double hours)
{
  double share = run->inputs.hot_share, air_C = self->drawn[TL_AGEING_BY_AIR];
  double power = 1.0 / self->drawn[TL_AGEING_BY_CREEP_EXPONENT], strain;

  if (run->clamp.has_force && self->hot_C > self->cycle_C + HOTTER_K)
    {
      self->cycle_C = self->hot_C;
      self->cycled_N =
          MIN (self->cycled_N,
               tl_ageing_clamp_first_cycle (&run->clamp, self->first_N,
                                            self->drawn[TL_AGEING_BY_SETTLING], self->hot_C));
    }
  self->creep_h += hours
                   * (share * pow (rate_at (rates->creep, self->hot_C), power)
                      + (1.0 - share) * pow (rate_at (rates->creep, air_C), power));
  self->growth_h += hours
                    * (share * rate_at (rates->growth, self->hot_C)
                       + (1.0 - share) * rate_at (rates->growth, air_C));
  tl_call_set_exact (&self->creep, "time", self->creep_h);
  strain = tl_call_run_quick (&self->creep) ? tl_call_get (&self->creep, "creep_strain").best : 0.0;
  self->force_N = MIN (self->force_N, tl_ageing_clamp_creep (&run->clamp, self->cycled_N, strain));
  tl_call_set_exact (&self->growth, "time", self->growth_h);
  tl_call_set_exact (&self->growth, "force", MAX (self->force_N, LEAST_FORCE * self->first_N));
  if (tl_call_run_quick (&self->growth))
    self->contact_ratio =
        MAX (self->contact_ratio,
             self->drawn[TL_AGEING_BY_CONTACT] * tl_call_get (&self->growth, "ratio").best);
}

static void
note (const Sample *self, const TlAgeingRun *run, guint index, guint year, double first_ohm)
{
  gsize  at = (gsize) year * run->n_samples + index;
  double ohm = tl_ageing_surface_ohm (&run->surface, self->contact_ratio);

  run->values[TL_AGEING_FORCE][at] = self->force_N;
  /* Where the temperature runs away the growth is not known either. */
  run->values[TL_AGEING_RESISTANCE][at] = self->is_open ? HUGE_VAL : 1e6 * ohm;
  run->values[TL_AGEING_GROWTH][at] = self->is_open     ? HUGE_VAL
                                      : first_ohm > 0.0 ? ohm / first_ohm
                                                        : 1.0;
  run->values[TL_AGEING_HOT][at] = self->is_open ? HUGE_VAL : self->hot_C;
}

gboolean
tl_ageing_run (TlAgeingRun *self, const TlAgeing *ageing, GCancellable *cancellable, GError **error)
{
  Sample sample;
  Rates  rates;

  self->n_samples = ageing->n_samples;
  self->points = tl_ageing_points (self->n_samples);
  for (guint i = 0; i < TL_N_AGEING_OUTPUTS; i++)
    self->values[i] = g_new (double, (gsize) self->n_samples * ageing->n_years);
  if (!read_rates (&rates, self->inputs.activation_K))
    {
      g_set_error (
          error, TL_ERROR, TL_ERROR_RANGE,
          _ ("The activation temperature of %g K in the data is outside the range of the formula."),
          self->inputs.activation_K);
      return FALSE;
    }
  for (guint i = 0; i < self->n_samples; i++)
    {
      double first_ohm;

      if (i % CANCEL_EVERY == 0 && g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      start (&sample, self, i);
      warm (&sample, self);
      first_ohm = tl_ageing_surface_ohm (&self->surface, sample.contact_ratio);
      note (&sample, self, i, 0, first_ohm);
      for (guint year = 1; year < ageing->n_years; year++)
        {
          age (&sample, self, &rates,
               HOURS_A_YEAR * (ageing->years[year] - ageing->years[year - 1]));
          warm (&sample, self);
          note (&sample, self, i, year, first_ohm);
        }
    }
  return TRUE;
}

void
tl_ageing_run_clear (TlAgeingRun *self)
{
  g_clear_pointer (&self->points, g_free);
  for (guint i = 0; i < TL_N_AGEING_OUTPUTS; i++)
    g_clear_pointer (&self->values[i], g_free);
}
