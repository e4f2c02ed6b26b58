/* sealing.c: which shrink sleeve, how long, and how thick it is afterwards.
 *
 * An expanded bore is a minimum, a recovered bore a maximum. The margins of 1.2 and 0.8 are common practice,
 * no source. Sources: definition of longitudinal change in sleeve standards; constancy of volume.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

#define TUBES 9
/* Figures read as decimals: a bore equal to the need passes. */
#define EQUAL_SHARE 1e-9

#define TUBE_LIST(input, says)                                                                     \
  {                                                                                                \
    .name = input, .unit = "mm", .low = 0, .high = 1e3, .low_open = TRUE, .fallback = NAN,         \
    .first = 1, .last = TUBES, .step = 1, .optional = TRUE, .trend = TL_TREND_NEITHER,             \
    .meaning = says                                                                                \
  }

static const TlFormulaInput choice_inputs[] = {
  TL_ABOVE ("largest", "mm", 0, 1e3, TL_TREND_NEITHER, TL_N_ ("largest diameter to pass")),
  TL_ABOVE ("smallest", "mm", 0, 1e3, TL_TREND_NEITHER, TL_N_ ("smallest diameter to grip")),
  TL_MAYBE ("expand_margin", "1", 1, 10, 1.2, TL_TREND_NEITHER,
            TL_N_ ("margin on the expanded bore")),
  TL_MAYBE_ABOVE ("shrink_margin", "1", 0, 1, 0.8, TL_TREND_NEITHER,
                  TL_N_ ("margin on the recovered bore")),
  TUBE_LIST ("expanded_", TL_N_ ("expanded bore of each tube offered")),
  TUBE_LIST ("recovered_", TL_N_ ("recovered bore of each tube offered")),
  { NULL },
};
static const TlFormulaOutput choice_outputs[] = {
  { "choice", "1" },
  { "expanded_needed", "mm" },
  { "recovered_needed", "mm" },
  { "ratio_needed", "1" },
  { NULL },
};

static gboolean
run_choice (const double *in, double *out, GError **error)
{
  const double largest_mm = in[0], smallest_mm = in[1], expand_margin = in[2],
               shrink_margin = in[3];
  const double *expanded_mm = in + 4, *recovered_mm = in + 4 + TUBES;

  if (largest_mm < smallest_mm)
    return tl_formula_refuse (
        error, _ ("the largest diameter is below the smallest; it must be at least as large"));
  out[1] = expand_margin * largest_mm;
  out[2] = shrink_margin * smallest_mm;
  out[3] = out[1] / out[2];
  for (guint i = 0; i < TUBES; i++)
    {
      if (isnan (expanded_mm[i]) != isnan (recovered_mm[i]))
        {
          g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                       _ ("tube %u needs both expanded_%u and recovered_%u"), i + 1, i + 1, i + 1);
          return FALSE;
        }
      if (isnan (expanded_mm[i]))
        continue;
      if (isnan (out[0]))
        out[0] = 0.0;
      if (out[0] < 0.5 && expanded_mm[i] >= out[1] * (1.0 - EQUAL_SHARE)
          && recovered_mm[i] <= out[2] * (1.0 + EQUAL_SHARE))
        out[0] = i + 1;
    }
  return TRUE;
}

static const TlFormulaInput cut_inputs[] = {
  TL_FROM ("bare", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("bare length to cover")),
  TL_FROM ("overlap", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("overlap on the insulation, each side")),
  TL_FROM ("longitudinal_change", "%", -90, 100, TL_TREND_FALLS,
           TL_N_ ("change of length on shrinking, shortening negative")),
  { NULL },
};
static const TlFormulaOutput cut_outputs[] = { { "length", "mm" }, { NULL } };

static gboolean
run_cut (const double *in, double *out, GError **error)
{
  const double bare_mm = in[0], overlap_mm = in[1], change_ratio = in[2] / 100.0;

  out[0] = (bare_mm + 2.0 * overlap_mm) / (1.0 + change_ratio);
  return TRUE;
}

static const TlFormulaInput recovered_inputs[] = {
  TL_ABOVE ("recovered_bore", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("bore after free shrinking")),
  TL_ABOVE ("recovered_wall", "mm", 0, 100, TL_TREND_RISES, TL_N_ ("wall after free shrinking")),
  TL_ABOVE ("object_diameter", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("what it shrinks onto")),
  { NULL },
};
static const TlFormulaOutput recovered_outputs[] = { { "wall", "mm" },
                                                     { "outside_diameter", "mm" },
                                                     { NULL } };

static gboolean
run_recovered (const double *in, double *out, GError **error)
{
  const double bore_mm = in[0], wall_mm = in[1], object_mm = in[2];
  const double kept_mm2 = (bore_mm + wall_mm) * wall_mm;

  /* Positive root of w^2 + d w - kept = 0, written without subtracting near-equal figures. */
  out[0] = 2.0 * kept_mm2 / (object_mm + sqrt (object_mm * object_mm + 4.0 * kept_mm2));
  out[1] = object_mm + 2.0 * out[0];
  return TRUE;
}

const TlFormula tl_sealing_formulas[] = {
  { "heat-shrink-choice", TL_N_ ("Shrink sleeve that passes and grips"),
    "expanded_needed = expand_margin x largest; recovered_needed = shrink_margin x smallest; "
    "ratio_needed = their quotient; "
    "choice = number of the first tube with expanded >= needed and recovered <= needed, 0 if none",
    "margins of 1.2 and 0.8: common practice, no source", TL_TRUST_A, choice_inputs, choice_outputs,
    run_choice },
  { "heat-shrink-cut-length", TL_N_ ("Length to cut a shrink sleeve"),
    "length = (bare + 2 overlap)/(1 + change/100)", "definition of longitudinal change", TL_TRUST_A,
    cut_inputs, cut_outputs, run_cut },
  { "recovered-outside-diameter", TL_N_ ("Wall and outside of a sleeve once shrunk"),
    "wall from (d + w) w = (ID + W) W, the area of the wall kept, change of length left out; "
    "outside_diameter = d + 2 w",
    "constancy of volume", TL_TRUST_B, recovered_inputs, recovered_outputs, run_recovered },
  { NULL },
};
