/* evaluate.c: checking the inputs of a call, and evaluating it over their ranges.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include "base/quantity.h"
#include <string.h>

/* At most this many points are evaluated for one call with ranges. */
#define MOST_POINTS 4096
/* Points of an input whose trend is not declared, both ends included. */
#define SAMPLES 9

/* Values as the message shows them: all their digits, so that a value just beyond a limit never looks
 * like the limit. */
static char *
figure (double value, const char *unit)
{
  if (!isfinite (value))
    return g_strdup (_ ("not a finite number"));
  g_autofree char *number = tl_number_to_text (value);
  const char      *label = strcmp (unit, "1") == 0 || strcmp (unit, "any") == 0 ? "" : unit;
  return label[0] == '\0' ? g_steal_pointer (&number) : g_strdup_printf ("%s %s", number, label);
}

static char *
permitted (const TlFormulaInput *row)
{
  g_autofree char *low = figure (row->low, row->unit);
  g_autofree char *high = figure (row->high, row->unit);

  /* Translators: both are figures with units: "above 0 mm and at most 1000 mm" */
  return row->low_open ? g_strdup_printf (_ ("above %s and at most %s"), low, high)
                       : g_strdup_printf (_ ("at least %s and at most %s"), low, high);
}

static gboolean
refuse_value (const TlCall *self, guint index, double value, GError **error)
{
  const TlFormulaInput *row = tl_call_input_info (self, index);
  g_autofree char      *name = tl_call_input_name (self, index);
  g_autofree char      *got = figure (value, row->unit);
  g_autofree char      *wanted = permitted (row);

  /* Translators: formula id, input name, its value, the permitted range */
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%s: %s is %s; it must be %s"),
               self->formula->id, name, got, wanted);
  return FALSE;
}

static gboolean
check_value (const TlCall *self, guint index, const TlFormulaInput *row, GError **error)
{
  const TlRange *v = &self->in[index];
  const double   ends[] = { v->low, v->best, v->high };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (!isfinite (ends[i]) || ends[i] < row->low || ends[i] > row->high
        || (row->low_open && ends[i] <= row->low))
      return refuse_value (self, index, ends[i], error);
  if (v->low > v->best || v->best > v->high)
    {
      g_autofree char *name = tl_call_input_name (self, index);

      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("%s: the range of %s runs from %g over %g to %g; it must rise from its low "
                      "to its high end"),
                   self->formula->id, name, v->low, v->best, v->high);
      return FALSE;
    }
  if (row->whole && fabs (v->best - round (v->best)) > 1e-6)
    {
      g_autofree char *name = tl_call_input_name (self, index);

      g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%s: %s is %g; it must be a whole number"),
                   self->formula->id, name, v->best);
      return FALSE;
    }
  return TRUE;
}

/* Every input against its row; the missing ones are named together. */
static gboolean
check_inputs (const TlCall *self, GError **error)
{
  g_autoptr (GString) missing = g_string_new (NULL);
  guint index = 0;

  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL; row++)
    {
      guint width = tl_formula_row_width (row);
      guint least = row->step == 0 ? (row->optional ? 0 : 1) : row->least;

      for (guint i = 0; i < width; i++, index++)
        if (self->given[index])
          {
            if (row->words == NULL && !check_value (self, index, row, error))
              return FALSE;
          }
        else if (i < least)
          {
            g_autofree char *name = tl_call_input_name (self, index);
            g_string_append_printf (missing, "%s%s", missing->len > 0 ? ", " : "", name);
          }
    }
  if (missing->len > 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("%s: these inputs are missing: %s"),
                   self->formula->id, missing->str);
      return FALSE;
    }
  return TRUE;
}

/* --- evaluation --- */

typedef struct
{
  guint   index;  /* among the expanded inputs */
  guint   points; /* at which it is evaluated: 2 ends or SAMPLES */
  TlTrend trend;
} Ranged;

static gboolean
run_at (TlCall *self, const double *in, double *out, GError **error)
{
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    out[i] = NAN;
  g_autoptr (GError) reason = NULL;
  if (!self->formula->run (in, out, &reason))
    {
      g_propagate_prefixed_error (error, g_steal_pointer (&reason), "%s: ", self->formula->id);
      return FALSE;
    }
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    if (isinf (out[i]))
      {
        g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                     _ ("%s: %s grows beyond all figures with these inputs"), self->formula->id,
                     self->formula->outputs[i].name);
        return FALSE;
      }
  return TRUE;
}

/* Widens the outputs by one more evaluation. */
static gboolean
widen (TlCall *self, const double *in, GError **error)
{
  double out[TL_FORMULA_MAX_OUTPUTS];

  if (!run_at (self, in, out, error))
    return FALSE;
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    {
      if (isnan (out[i]) != !self->has_out[i])
        {
          g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                       _ ("%s: %s cannot be computed over the whole range of the inputs"),
                       self->formula->id, self->formula->outputs[i].name);
          return FALSE;
        }
      self->out[i].low = MIN (self->out[i].low, out[i]);
      self->out[i].high = MAX (self->out[i].high, out[i]);
    }
  return TRUE;
}

/* The inputs with a range. Samples are thinned out until all combinations stay below the cap; FALSE if
 * even the corners alone are too many. */
static gboolean
plan_points (const TlCall *self, Ranged *ranged, guint *count)
{
  guint n = 0, index = 0, samples = SAMPLES;

  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL; row++)
    for (guint i = tl_formula_row_width (row); i > 0; i--, index++)
      if (self->given[index] && !tl_range_is_exact (self->in[index]))
        ranged[n++] = (Ranged){ index, 2, row->trend };
  *count = n;
  for (;;)
    {
      double product = 1.0;

      for (guint i = 0; i < n; i++)
        {
          ranged[i].points = ranged[i].trend == TL_TREND_NEITHER ? samples : 2;
          product *= ranged[i].points;
        }
      if (product <= MOST_POINTS)
        return TRUE;
      if (samples == 2)
        return FALSE;
      samples = samples > 3 ? (samples + 1) / 2 : 2;
    }
}

static double
point (const TlRange *range, guint step, guint points)
{
  if (step + 1 == points)
    return range->high;
  return range->low + (range->high - range->low) * step / (points - 1);
}

/* All combinations of the points of the ranged inputs. */
static gboolean
run_grid (TlCall *self, double *in, const Ranged *ranged, guint n, GError **error)
{
  guint step[TL_FORMULA_MAX_INPUTS] = { 0 };

  for (;;)
    {
      guint i = 0;

      for (guint j = 0; j < n; j++)
        in[ranged[j].index] = point (&self->in[ranged[j].index], step[j], ranged[j].points);
      if (!widen (self, in, error))
        return FALSE;
      while (i < n && ++step[i] == ranged[i].points)
        step[i++] = 0;
      if (i == n)
        return TRUE;
    }
}

/* Too many ranged inputs for all corners: all move together, once each input the way that raises the first
 * output and once against it, then one at a time from the best. */
static gboolean
run_together (TlCall *self, double *in, const Ranged *ranged, guint n, GError **error)
{
  for (guint up = 0; up < 2; up++)
    {
      for (guint j = 0; j < n; j++)
        {
          const TlRange *v = &self->in[ranged[j].index];
          gboolean       high = (ranged[j].trend == TL_TREND_FALLS) != (up == 1);
          in[ranged[j].index] = high ? v->high : v->low;
        }
      if (!widen (self, in, error))
        return FALSE;
    }
  for (guint j = 0; j < n; j++)
    in[ranged[j].index] = self->in[ranged[j].index].best;
  for (guint j = 0; j < n; j++)
    {
      const TlRange *v = &self->in[ranged[j].index];

      in[ranged[j].index] = v->low;
      if (!widen (self, in, error))
        return FALSE;
      in[ranged[j].index] = v->high;
      if (!widen (self, in, error))
        return FALSE;
      in[ranged[j].index] = v->best;
    }
  return TRUE;
}

/* No output at all: all that could be asked for hangs on optional inputs that were left out. */
static gboolean
refuse_nothing (const TlCall *self, GError **error)
{
  g_autoptr (GString) lacking = g_string_new (NULL);

  for (guint i = 0; i < self->n_inputs; i++)
    if (isnan (self->in[i].best) && tl_call_input_info (self, i)->step == 0)
      g_string_append_printf (lacking, "%s%s", lacking->len > 0 ? ", " : "",
                              tl_call_input_info (self, i)->name);
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("%s: nothing can be computed from these inputs alone; give one more of: %s"),
               self->formula->id, lacking->str);
  return FALSE;
}

gboolean
tl_call_run (TlCall *self, GError **error)
{
  double in[TL_FORMULA_MAX_INPUTS], out[TL_FORMULA_MAX_OUTPUTS];
  Ranged ranged[TL_FORMULA_MAX_INPUTS];
  guint  n, computed = 0;

  g_return_val_if_fail (self != NULL && self->formula != NULL, FALSE);
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    self->has_out[i] = FALSE;
  if (!check_inputs (self, error))
    return FALSE;
  for (guint i = 0; i < self->n_inputs; i++)
    in[i] = self->in[i].best;
  if (!run_at (self, in, out, error))
    return FALSE;
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    {
      self->out[i] = tl_range_exact (out[i]);
      self->has_out[i] = !isnan (out[i]);
      computed += self->has_out[i];
    }
  if (computed == 0)
    return refuse_nothing (self, error);
  gboolean few = plan_points (self, ranged, &n);
  if (n == 0)
    return TRUE;
  if (few ? run_grid (self, in, ranged, n, error) : run_together (self, in, ranged, n, error))
    return TRUE;
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    self->has_out[i] = FALSE;
  return FALSE;
}

gboolean
tl_call_run_quick (TlCall *self)
{
  double in[TL_FORMULA_MAX_INPUTS], out[TL_FORMULA_MAX_OUTPUTS];

  for (guint i = 0; i < self->n_inputs; i++)
    {
      in[i] = self->in[i].best;
      if (self->given[i] && !isfinite (in[i]))
        return FALSE;
    }
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    out[i] = NAN;
  if (!self->formula->run (in, out, NULL))
    return FALSE;

  gboolean any = FALSE;
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    {
      if (isinf (out[i]))
        return FALSE;
      self->out[i] = tl_range_exact (out[i]);
      self->has_out[i] = !isnan (out[i]);
      any = any || self->has_out[i];
    }
  return any;
}
