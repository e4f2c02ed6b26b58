/* heat.c: heat made in a joint and a conductor, and the short circuit that nobody has time to cool.
 *
 * Adiabatic only: no cooling to the air is seen here. A k of 115 for a soldered joint assumes a start at
 * 70 degC; from 90 to 160 degC it is 99.9, so the start is an input.
 * Sources: Ohm and Joule; IEC 60364-5-54 Annex A and IEC 60949 (constants seen, forms from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

static const TlFormulaInput drop_inputs[] = {
  TL_FROM ("drop", "mV", 0, 1e6, TL_TREND_RISES, TL_N_ ("voltage drop measured over the joint")),
  TL_ABOVE ("test_current", "A", 0, 1e5, TL_TREND_FALLS, TL_N_ ("current of the measurement")),
  TL_FROM ("current", "A", 0, 1e6, TL_TREND_RISES, TL_N_ ("load current")),
  { NULL },
};
static const TlFormulaOutput drop_outputs[] = { { "resistance", "mohm" },
                                                { "heat", "W" },
                                                { NULL } };

static gboolean
run_drop (const double *in, double *out, GError **error)
{
  const double drop_mV = in[0], test_A = in[1], current_A = in[2];

  out[0] = drop_mV / test_A;
  out[1] = current_A * current_A * out[0] * 1e-3;
  return TRUE;
}

static const TlFormulaInput two_node_inputs[] = {
  TL_FROM ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current through both")),
  TL_FROM ("resistance_1", "mohm", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance of the first node")),
  TL_FROM ("resistance_2", "mohm", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance of the second node")),
  TL_ABOVE ("cooling_1", "W/K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("from the first node to the air")),
  TL_ABOVE ("cooling_2", "W/K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("from the second node to the air")),
  TL_FROM ("link", "W/K", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("between the nodes")),
  TL_FROM ("ambient", "degC", -80, 300, TL_TREND_RISES, TL_N_ ("temperature of the air")),
  { NULL },
};
static const TlFormulaOutput two_node_outputs[] = {
  { "temperature_1", "degC" },
  { "temperature_2", "degC" },
  { "drop", "mV" },
  { NULL },
};

static gboolean
run_two_node (const double *in, double *out, GError **error)
{
  const double current_A = in[0], cooling_1 = in[3], cooling_2 = in[4], link = in[5],
               ambient_C = in[6];
  const double heat_1_W = current_A * current_A * in[1] * 1e-3,
               heat_2_W = current_A * current_A * in[2] * 1e-3;
  const double determinant = cooling_1 * cooling_2 + link * (cooling_1 + cooling_2);

  out[0] = ambient_C + (heat_1_W * (cooling_2 + link) + heat_2_W * link) / determinant;
  out[1] = ambient_C + (heat_2_W * (cooling_1 + link) + heat_1_W * link) / determinant;
  out[2] = current_A * (in[1] + in[2]);
  return TRUE;
}

static const TlFormulaInput k_inputs[] = {
  TL_ABOVE ("constant", "A_sqrt_s/mm2", 0, 1e4, TL_TREND_RISES, TL_N_ ("K of the metal")),
  TL_FROM ("beta", "degC", 100, 1000, TL_TREND_FALLS,
           TL_N_ ("inverse of the temperature coefficient at 0 °C")),
  TL_FROM ("start", "degC", -60, 500, TL_TREND_FALLS, TL_N_ ("temperature before")),
  TL_FROM ("end", "degC", -60, 1500, TL_TREND_RISES, TL_N_ ("temperature after")),
  { NULL },
};
static const TlFormulaOutput k_outputs[] = { { "k", "A_sqrt_s/mm2" }, { NULL } };

static gboolean
run_k (const double *in, double *out, GError **error)
{
  const double constant = in[0], beta_C = in[1], start_C = in[2], end_C = in[3];

  if (end_C < start_C)
    return tl_formula_refuse (
        error, _ ("the end temperature is below the start; it must be at least as high"));
  out[0] = constant * sqrt (log ((beta_C + end_C) / (beta_C + start_C)));
  return TRUE;
}

static const TlFormulaInput section_inputs[] = {
  TL_ABOVE ("current", "A", 0, 1e7, TL_TREND_RISES, TL_N_ ("fault current")),
  TL_ABOVE ("time", "s", 0, 100, TL_TREND_RISES, TL_N_ ("clearing time")),
  TL_ABOVE ("k", "A_sqrt_s/mm2", 0, 1e4, TL_TREND_FALLS, TL_N_ ("k of conductor and insulation")),
  { NULL },
};
static const TlFormulaOutput section_outputs[] = { { "section", "mm2" }, { NULL } };

static gboolean
run_section (const double *in, double *out, GError **error)
{
  const double current_A = in[0], time_s = in[1], k = in[2];

  out[0] = current_A * sqrt (time_s) / k;
  return TRUE;
}

static const TlFormulaInput current_inputs[] = {
  TL_ABOVE ("section", "mm2", 0, 1e4, TL_TREND_RISES, TL_N_ ("section of the conductor")),
  TL_ABOVE ("k", "A_sqrt_s/mm2", 0, 1e4, TL_TREND_RISES, TL_N_ ("k of conductor and insulation")),
  TL_MAYBE_ABOVE ("time", "s", 0, 100, NAN, TL_TREND_FALLS,
                  TL_N_ ("clearing time, for the current")),
  { NULL },
};
static const TlFormulaOutput current_outputs[] = { { "current", "A" },
                                                   { "joule_integral", "A2s" },
                                                   { NULL } };

static gboolean
run_current (const double *in, double *out, GError **error)
{
  const double section_mm2 = in[0], k = in[1], time_s = in[2];

  out[0] = k * section_mm2 / sqrt (time_s);
  out[1] = k * section_mm2 * k * section_mm2;
  return TRUE;
}

static const TlFormulaInput final_inputs[] = {
  TL_FROM ("current", "A", 0, 1e7, TL_TREND_RISES, TL_N_ ("fault current")),
  TL_FROM ("time", "s", 0, 100, TL_TREND_RISES, TL_N_ ("clearing time")),
  TL_ABOVE ("section", "mm2", 0, 1e4, TL_TREND_FALLS, TL_N_ ("section of the conductor")),
  TL_ABOVE ("constant", "A_sqrt_s/mm2", 0, 1e4, TL_TREND_FALLS, TL_N_ ("K of the metal")),
  TL_FROM ("beta", "degC", 100, 1000, TL_TREND_RISES,
           TL_N_ ("inverse of the temperature coefficient at 0 °C")),
  TL_FROM ("start", "degC", -60, 500, TL_TREND_RISES, TL_N_ ("temperature before")),
  { NULL },
};
static const TlFormulaOutput final_outputs[] = { { "temperature", "degC" }, { NULL } };

static gboolean
run_final (const double *in, double *out, GError **error)
{
  const double current_A = in[0], time_s = in[1], section_mm2 = in[2], constant = in[3],
               beta_C = in[4], start_C = in[5];
  const double ratio = current_A / (constant * section_mm2);

  out[0] = (start_C + beta_C) * exp (ratio * ratio * time_s) - beta_C;
  return TRUE;
}

const TlFormula tl_heat_formulas[] = {
  { "drop-to-heat", TL_N_ ("Resistance and heat of a joint from its voltage drop"),
    "resistance = U/I_test; heat = I^2 R", "Ohm and Joule", TL_TRUST_A, drop_inputs, drop_outputs,
    run_drop },
  { "two-node-joint", TL_N_ ("Temperatures of two linked bodies"),
    "two heat balances solved; drop = I (R1 + R2)", "closed form", TL_TRUST_A, two_node_inputs,
    two_node_outputs, run_two_node },
  { "adiabatic-k", TL_N_ ("k of a conductor between two temperatures"),
    "k = K sqrt(ln((beta + end)/(beta + start)))",
    "IEC 60364-5-54 Annex A / IEC 60949 (K seen, form from memory)", TL_TRUST_A, k_inputs,
    k_outputs, run_k },
  { "adiabatic-section", TL_N_ ("Section that a fault current needs"), "S = I sqrt(t)/k",
    "IEC 60364-5-54 (from memory)", TL_TRUST_A, section_inputs, section_outputs, run_section },
  { "adiabatic-current", TL_N_ ("Fault current that a section bears"),
    "joule_integral = (k S)^2; current = k S/sqrt(t)", "IEC 60364-5-54 (from memory)", TL_TRUST_A,
    current_inputs, current_outputs, run_current },
  { "adiabatic-final-temperature", TL_N_ ("Temperature after a fault current"),
    "t = (start + beta) exp(I^2 t/(K S)^2) - beta", "IEC 60949 (from memory)", TL_TRUST_A,
    final_inputs, final_outputs, run_final },
  { NULL },
};
