/* ageing-inputs.c: what is uncertain in a forecast: ranges from the data and from what was stated.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/ageing-private.h"

#include <gsl/gsl_qrng.h>
#include <math.h>

static gboolean
limit (TlAssembly *assembly, const char *id, double *value, const char **reason)
{
  TlThreshold row;

  if (!tl_assembly_limit (assembly, id, &row))
    {
      *reason = TL_N_ ("The data hold no limit for it.");
      return FALSE;
    }
  *value = row.value;
  return TRUE;
}

static gboolean
limit_range (TlAssembly *assembly, const char *id, TlRange *range, const char **reason)
{
  g_autofree char *low = g_strconcat (id, "-low", NULL);
  g_autofree char *high = g_strconcat (id, "-high", NULL);

  return limit (assembly, low, &range->low, reason) && limit (assembly, id, &range->best, reason)
         && limit (assembly, high, &range->high, reason);
}

static TlRange
scaled (TlRange range, double factor)
{
  return (TlRange){ range.low * factor, range.best * factor, range.high * factor };
}

static gboolean
is_aluminium (const TlAssembly *assembly, const char *material)
{
  const TlMaterial *row = material != NULL ? tl_stock_material (assembly->stock, material) : NULL;

  return row != NULL && row->look == TL_LOOK_ALUMINIUM;
}

/* --- creep --- */

/* Soft wire creeps several times as much as hard wire. */
static gboolean
read_creep (TlAgeingInputs *self, TlAssembly *assembly, const char **reason)
{
  TlRange *strain = &self->range[TL_AGEING_BY_CREEP];
  double   soft;

  if (!limit_range (assembly, "ageing.creep-strain", strain, reason)
      || !limit_range (assembly, "ageing.creep-exponent", &self->range[TL_AGEING_BY_CREEP_EXPONENT],
                       reason)
      || !limit (assembly, "ageing.creep-soft", &soft, reason))
    return FALSE;
  self->is_ratio[TL_AGEING_BY_CREEP] = TRUE;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (is_aluminium (assembly, tl_leg_word (leg, assembly->stock, TL_FIELD_METAL, NULL))
          && g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_TEMPER, ""), "soft"))
        {
          *strain = scaled (*strain, soft);
          break;
        }
    }
  return TRUE;
}

/* --- growth of films --- */

static gboolean
has_aluminium_as_found (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (is_aluminium (assembly, tl_leg_word (leg, assembly->stock, TL_FIELD_METAL, NULL))
          && g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_SURFACE, "as-found"),
                          "as-found"))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_closed (const TlAssembly *assembly, const TlHeatModel *model)
{
  const GArray *rows = tl_heat_model_interfaces (model);

  for (guint i = 0; i < rows->len; i++)
    {
      guint contact = g_array_index (rows, TlHeatInterface, i).contact;

      if (contact < assembly->contacts->len
          && g_array_index (assembly->contacts, TlContact, contact).closure == TL_CLOSURE_NONE)
        return FALSE;
    }
  return TRUE;
}

/* The worse of what the surfaces were and what the air does. */
static gboolean
read_growth (TlAgeingInputs *self, TlAssembly *assembly, const TlHeatModel *model,
             const char **reason)
{
  const TlFact *site = tl_joint_site_fact (assembly->joint, assembly->stock, TL_FIELD_SURROUNDINGS);
  gboolean      is_dry = site != NULL && site->word != NULL && g_str_equal (site->word, "dry");
  const char   *air = is_closed (assembly, model) ? "ageing.growth-time-closed"
                      : is_dry                    ? "ageing.growth-time-dry"
                                                  : "ageing.growth-time-wet";
  double        time_h, found_h, spread;

  if (!limit (assembly, air, &time_h, reason)
      || !limit (assembly, "ageing.growth-time-found", &found_h, reason)
      || !limit (assembly, "ageing.growth-time-spread", &spread, reason)
      || !limit (assembly, "ageing.growth-activation", &self->activation_K, reason)
      || !limit_range (assembly, "ageing.growth-exponent",
                       &self->range[TL_AGEING_BY_GROWTH_EXPONENT], reason)
      || !limit_range (assembly, "ageing.force-exponent", &self->range[TL_AGEING_BY_FORCE_EXPONENT],
                       reason))
    return FALSE;
  if (has_aluminium_as_found (assembly))
    time_h = MIN (time_h, found_h);
  self->range[TL_AGEING_BY_GROWTH] = (TlRange){ time_h / spread, time_h, time_h * spread };
  self->is_ratio[TL_AGEING_BY_GROWTH] = TRUE;
  return TRUE;
}

/* --- contact, cooling, air, load --- */

/* The contacts from conductor to conductor together; one that was measured has the band of its reading. */
static void
read_contact (TlAgeingInputs *self, const TlAssembly *assembly, const TlHeatModel *model)
{
  const GArray *rows = tl_heat_model_interfaces (model);
  TlRange       sum = { 0.0, 0.0, 0.0 };

  self->is_ratio[TL_AGEING_BY_CONTACT] = TRUE;
  if (tl_heat_model_is_measured (model))
    {
      const TlFact *fact = tl_facts_get (assembly->joint->duty, TL_FIELD_JOINT_RESISTANCE);

      if (fact == NULL)
        fact = tl_facts_get (assembly->joint->duty, TL_FIELD_JOINT_DROP);
      if (fact != NULL)
        sum = fact->value;
    }
  else
    for (guint i = 0; i < rows->len; i++)
      {
        const TlHeatInterface *row = &g_array_index (rows, TlHeatInterface, i);

        if (row->contact == G_MAXUINT)
          continue;
        sum.low += row->resistance_ohm.low;
        sum.best += row->resistance_ohm.best;
        sum.high += row->resistance_ohm.high;
      }
  self->range[TL_AGEING_BY_CONTACT] =
      sum.low > 0.0 ? scaled (sum, 1.0 / sum.best) : tl_range_exact (1.0);
}

static gboolean
read_duty (TlAgeingInputs *self, TlAssembly *assembly, const TlHeatModel *model,
           const char **reason)
{
  const TlFacts   *duty = assembly->joint->duty;
  const TlFact    *load = tl_facts_get (duty, TL_FIELD_LOAD);
  const TlFact    *ambient = tl_facts_get (duty, TL_FIELD_AMBIENT);
  const char      *pattern = tl_facts_word (duty, TL_FIELD_PATTERN, "continuous");
  g_autofree char *share = g_strconcat ("ageing.hot-share-", pattern, NULL);
  double           best_C = tl_heat_model_network (model)->ambient_C, spread_K, spread;

  if (!limit (assembly, share, &self->hot_share, reason)
      || !limit (assembly, "ageing.ambient-spread", &spread_K, reason)
      || !limit (assembly, "ageing.film-spread", &spread, reason))
    return FALSE;
  self->range[TL_AGEING_BY_LOAD] =
      load != NULL ? load->value : tl_range_exact (tl_heat_model_load_A (model));
  self->range[TL_AGEING_BY_AIR] = ambient != NULL && !tl_range_is_exact (ambient->value)
                                      ? ambient->value
                                      : (TlRange){ best_C - spread_K, best_C, best_C + spread_K };
  self->range[TL_AGEING_BY_COOLING] = tl_range_around (1.0, spread);
  return TRUE;
}

/* --- the whole --- */

static gboolean
read_force (TlAgeingInputs *self, TlAssembly *assembly, const char **reason)
{
  double settling_um, spread;

  if (!limit (assembly, "grip.embedding-stack", &settling_um, reason)
      || !limit (assembly, "ageing.embedding-spread", &spread, reason))
    return FALSE;
  self->range[TL_AGEING_BY_TIGHTENING] = assembly->stack.preload_N;
  self->range[TL_AGEING_BY_SETTLING] = assembly->family == TL_FAMILY_STACK
                                           ? tl_range_around (settling_um, spread)
                                           : tl_range_exact (0.0);
  return TRUE;
}

gboolean
tl_ageing_inputs_read (TlAgeingInputs *self, TlAssembly *assembly, const TlHeatModel *model,
                       const char **reason)
{
  *self = (TlAgeingInputs){ 0 };
  if (!read_force (self, assembly, reason) || !read_creep (self, assembly, reason)
      || !read_growth (self, assembly, model, reason) || !read_duty (self, assembly, model, reason)
      || !limit (assembly, "ageing.force-floor", &self->floor_share, reason)
      || !limit (assembly, "ageing.resistance-most", &self->resistance_most, reason)
      || !limit (assembly, "ageing.temperature-most", &self->hottest_C, reason))
    return FALSE;
  read_contact (self, assembly, model);
  return TRUE;
}

double
tl_ageing_inputs_draw (const TlAgeingInputs *self, TlAgeingInput input, double share)
{
  const TlRange *range = &self->range[input];
  gboolean       is_low = share < 0.5;
  double         part = is_low ? 2.0 * share : 2.0 * share - 1.0;
  double         from = is_low ? range->low : range->best, to = is_low ? range->best : range->high;

  if (self->is_ratio[input] && from > 0.0)
    return from * pow (to / from, part);
  return from + part * (to - from);
}

double *
tl_ageing_points (guint n)
{
  double   *points = g_new (double, (gsize) n *TL_N_AGEING_INPUTS);
  gsl_qrng *sobol = gsl_qrng_alloc (gsl_qrng_sobol, TL_N_AGEING_INPUTS);

  for (guint i = 0; i < n; i++)
    gsl_qrng_get (sobol, points + (gsize) i * TL_N_AGEING_INPUTS);
  gsl_qrng_free (sobol);
  return points;
}
