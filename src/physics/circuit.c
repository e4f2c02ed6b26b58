/* circuit.c: conductors as resistances: warm, long, side by side, measured, and tested in sets.
 *
 * Resistances in tables are at the temperature that the table names: IEC 60228 at 20 degC, NFPA 70 chapter 9
 * table 8 at 75 degC. The IEC formula for current at nominal 50 mm2 wants 47.5 mm2.
 * Sources: IEC 60228, IEC 60364-5-52 Annexes D and G, IEC 61238-1 (from memory); NFPA 70 chapter 9 (seen);
 * UL 486A-486B and IEC 61545 for the stability factor (schedule seen, definition from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

static const char *const form_words[] = { "linear", "iec-60228", NULL };
static const char *const phase_words[] = { "single", "three", NULL };

static const TlFormulaInput warm_inputs[] = {
  TL_FROM ("resistance_20", "ohm/km", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance at 20 °C")),
  TL_FROM ("temperature", "degC", -100, 1000, TL_TREND_RISES,
           TL_N_ ("temperature of the conductor")),
  TL_MAYBE_WORD ("form", form_words, 0, TL_N_ ("which correction")),
  TL_MAYBE ("coefficient", "1/K", 0, 0.01, NAN, TL_TREND_NEITHER,
            TL_N_ ("temperature coefficient at 20 °C, for linear")),
  TL_MAYBE_WORD ("metal", tl_metal_words, NAN, TL_N_ ("metal, for iec-60228")),
  TL_MAYBE ("current", "A", 0, 1e6, NAN, TL_TREND_RISES, TL_N_ ("current, for the loss")),
  { NULL },
};
static const TlFormulaOutput warm_outputs[] = { { "resistance", "ohm/km" },
                                                { "loss", "W/m" },
                                                { NULL } };

static gboolean
run_warm (const double *in, double *out, GError **error)
{
  const double resistance_20 = in[0], temperature_C = in[1], coefficient_per_K = in[3],
               metal = in[4], current_A = in[5];
  const gboolean linear = in[2] < 0.5;

  if (isnan (linear ? coefficient_per_K : metal))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("the form %s also needs %s"),
                   form_words[linear ? 0 : 1], linear ? "coefficient" : "metal");
      return FALSE;
    }
  if (linear)
    out[0] = resistance_20 * (1.0 + coefficient_per_K * (temperature_C - 20.0));
  else
    {
      const double beta_C = metal < 0.5 ? 234.5 : 228.0;
      out[0] = resistance_20 * (beta_C + temperature_C) / (beta_C + 20.0);
    }
  out[1] = current_A * current_A * out[0] * 1e-3;
  return TRUE;
}

static const TlFormulaInput conductor_inputs[] = {
  TL_ABOVE ("resistivity", "ohm_mm2/m", 0, 1e4, TL_TREND_RISES, TL_N_ ("resistivity of the metal")),
  TL_FROM ("length", "m", 0, 1e6, TL_TREND_RISES, TL_N_ ("length")),
  TL_ABOVE ("section", "mm2", 0, 1e5, TL_TREND_FALLS, TL_N_ ("section")),
  { NULL },
};
static const TlFormulaOutput conductor_outputs[] = { { "resistance", "mohm" }, { NULL } };

static gboolean
run_conductor (const double *in, double *out, GError **error)
{
  out[0] = in[0] * in[1] / in[2] * 1e3;
  return TRUE;
}

static const TlFormulaInput performance_inputs[] = {
  TL_FROM ("joint_resistance", "uohm", 0, 1e12, TL_TREND_RISES,
           TL_N_ ("between the sense points, at 20 °C")),
  TL_ABOVE ("resistance_1", "mohm/m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("first conductor at 20 °C")),
  TL_ABOVE ("length_1", "mm", 0, 1e6, TL_TREND_FALLS, TL_N_ ("its length to the centre")),
  TL_ABOVE ("resistance_2", "mohm/m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("second conductor at 20 °C")),
  TL_ABOVE ("length_2", "mm", 0, 1e6, TL_TREND_FALLS, TL_N_ ("its length to the centre")),
  { NULL },
};
static const TlFormulaOutput factor_outputs[] = { { "factor", "1" }, { NULL } };

static gboolean
run_performance (const double *in, double *out, GError **error)
{
  const double joint_uohm = in[0], conductors_uohm = in[1] * in[2] + in[3] * in[4];

  out[0] = joint_uohm / conductors_uohm;
  return TRUE;
}

static const TlFormulaInput share_inputs[] = {
  TL_FROM ("current", "A", 0, 1e6, TL_TREND_RISES, TL_N_ ("total current")),
  TL_ABOVE ("resistance_1", "mohm", 0, 1e9, TL_TREND_NEITHER, TL_N_ ("first path")),
  TL_ABOVE ("resistance_2", "mohm", 0, 1e9, TL_TREND_NEITHER, TL_N_ ("second path")),
  { NULL },
};
static const TlFormulaOutput share_outputs[] = {
  { "current_1", "A" }, { "current_2", "A" }, { "heat_1", "W" }, { "heat_2", "W" }, { NULL },
};

static gboolean
run_share (const double *in, double *out, GError **error)
{
  const double current_A = in[0], first_mohm = in[1], second_mohm = in[2];

  out[0] = current_A * second_mohm / (first_mohm + second_mohm);
  out[1] = current_A * first_mohm / (first_mohm + second_mohm);
  out[2] = out[0] * out[0] * first_mohm * 1e-3;
  out[3] = out[1] * out[1] * second_mohm * 1e-3;
  return TRUE;
}

static const TlFormulaInput ambient_inputs[] = {
  TL_FROM ("limit", "degC", 0, 1000, TL_TREND_NEITHER,
           TL_N_ ("temperature limit of the conductor")),
  TL_FROM ("reference", "degC", -60, 200, TL_TREND_RISES, TL_N_ ("ambient of the table")),
  TL_FROM ("ambient", "degC", -60, 200, TL_TREND_FALLS, TL_N_ ("ambient here")),
  { NULL },
};

static gboolean
run_ambient (const double *in, double *out, GError **error)
{
  const double limit_C = in[0], reference_C = in[1], ambient_C = in[2];

  if (reference_C >= limit_C || ambient_C > limit_C)
    return tl_formula_refuse (error,
                              _ ("the ambient is above the conductor's limit; it must be below"));
  out[0] = sqrt ((limit_C - ambient_C) / (limit_C - reference_C));
  return TRUE;
}

static const TlFormulaInput ampacity_inputs[] = {
  TL_ABOVE ("section", "mm2", 0, 1e4, TL_TREND_NEITHER, TL_N_ ("section, 47.5 for nominal 50")),
  TL_ABOVE ("a", "1", 0, 1e3, TL_TREND_RISES, TL_N_ ("coefficient A")),
  TL_FROM ("m", "1", 0, 2, TL_TREND_NEITHER, TL_N_ ("exponent m")),
  TL_MAYBE ("b", "1", 0, 1e3, 0, TL_TREND_FALLS, TL_N_ ("coefficient B")),
  TL_MAYBE ("n", "1", 0, 3, 0, TL_TREND_NEITHER, TL_N_ ("exponent n")),
  { NULL },
};
static const TlFormulaOutput ampacity_outputs[] = { { "current", "A" }, { NULL } };

static gboolean
run_ampacity (const double *in, double *out, GError **error)
{
  const double section_mm2 = in[0], a = in[1], m = in[2], b = in[3], n = in[4];

  out[0] = a * pow (section_mm2, m) - b * pow (section_mm2, n);
  return TRUE;
}

static const TlFormulaInput drop_inputs[] = {
  TL_WORD ("phases", phase_words,
           TL_N_ ("single phase, or three phases and then phase to neutral")),
  TL_ABOVE ("resistivity", "ohm_mm2/m", 0, 1e4, TL_TREND_RISES,
            TL_N_ ("1.25 times the value at 20 °C")),
  TL_FROM ("length", "m", 0, 1e6, TL_TREND_RISES, TL_N_ ("length one way")),
  TL_ABOVE ("section", "mm2", 0, 1e5, TL_TREND_FALLS, TL_N_ ("section")),
  TL_FROM ("current", "A", 0, 1e6, TL_TREND_RISES, TL_N_ ("current")),
  TL_MAYBE ("cos_phi", "1", 0, 1, 1, TL_TREND_NEITHER, TL_N_ ("power factor")),
  TL_MAYBE ("reactance", "mohm/m", 0, 1e3, 0.08, TL_TREND_RISES, TL_N_ ("reactance by length")),
  TL_MAYBE_ABOVE ("voltage", "V", 0, 1e6, NAN, TL_TREND_FALLS,
                  TL_N_ ("line to neutral, for the share")),
  { NULL },
};
static const TlFormulaOutput drop_outputs[] = { { "drop", "V" }, { "share", "%" }, { NULL } };

static gboolean
run_drop (const double *in, double *out, GError **error)
{
  const double ways = in[0] < 0.5 ? 2.0 : 1.0, resistivity = in[1], length_m = in[2],
               section_mm2 = in[3], current_A = in[4];
  const double cos_phi = in[5], reactance_ohm_per_m = in[6] * 1e-3, voltage_V = in[7];
  const double sin_phi = sqrt (1.0 - cos_phi * cos_phi);

  out[0] =
      ways
      * (resistivity * length_m / section_mm2 * cos_phi + reactance_ohm_per_m * length_m * sin_phi)
      * current_A;
  out[1] = 100.0 * out[0] / voltage_V;
  return TRUE;
}

static const TlFormulaInput drop_nec_inputs[] = {
  TL_WORD ("phases", phase_words, TL_N_ ("single phase, or three phases and then line to line")),
  TL_ABOVE ("resistance", "ohm/kft", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance at 75 °C")),
  TL_FROM ("length", "ft", 0, 1e6, TL_TREND_RISES, TL_N_ ("length one way")),
  TL_FROM ("current", "A", 0, 1e6, TL_TREND_RISES, TL_N_ ("current")),
  TL_MAYBE_ABOVE ("voltage", "V", 0, 1e6, NAN, TL_TREND_FALLS, TL_N_ ("voltage, for the share")),
  { NULL },
};

static gboolean
run_drop_nec (const double *in, double *out, GError **error)
{
  const double ways = in[0] < 0.5 ? 2.0 : sqrt (3.0), resistance_ohm_per_kft = in[1],
               length_ft = in[2], current_A = in[3];
  const double voltage_V = in[4];

  out[0] = ways * length_ft * resistance_ohm_per_kft * current_A / 1000.0;
  out[1] = 100.0 * out[0] / voltage_V;
  return TRUE;
}

static const TlFormulaInput loop_inputs[] = {
  TL_FROM ("source", "mohm", 0, 1e9, TL_TREND_RISES, TL_N_ ("resistance upstream")),
  TL_FROM ("line", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("line conductor by length")),
  TL_FROM ("back", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("return conductor by length")),
  TL_FROM ("length", "m", 0, 1e6, TL_TREND_RISES, TL_N_ ("length one way")),
  TL_MAYBE ("joints", "mohm", 0, 1e9, 0, TL_TREND_RISES, TL_N_ ("sum of the joints")),
  TL_MAYBE ("temperature_factor", "1", 0.5, 5, 1, TL_TREND_RISES,
            TL_N_ ("factor on the conductors for their temperature")),
  TL_MAYBE_ABOVE ("voltage", "V", 0, 1e6, NAN, TL_TREND_RISES,
                  TL_N_ ("line to earth, for the fault current")),
  { NULL },
};
static const TlFormulaOutput loop_outputs[] = { { "loop", "mohm" },
                                                { "fault_current", "A" },
                                                { NULL } };

static gboolean
run_loop (const double *in, double *out, GError **error)
{
  const double source_mohm = in[0], length_m = in[3], joints_mohm = in[4],
               temperature_factor = in[5], voltage_V = in[6];

  out[0] = source_mohm + (in[1] + in[2]) * length_m * temperature_factor + joints_mohm;
  if (out[0] <= 0.0)
    return tl_formula_refuse (
        error, _ ("the loop has no resistance; at least one part of it must have some"));
  out[1] = voltage_V / (out[0] * 1e-3);
  return TRUE;
}

#define CONNECTORS 6
#define CONNECTOR_LIST(input, may_lack, needed, says)                                              \
  {                                                                                                \
    .name = input, .unit = "1", .low = 0, .high = 1e6, .low_open = TRUE, .fallback = NAN,          \
    .first = 1, .last = CONNECTORS, .step = 1, .optional = may_lack, .least = needed,              \
    .trend = TL_TREND_NEITHER, .meaning = says                                                     \
  }

static const TlFormulaInput statistics_inputs[] = {
  CONNECTOR_LIST ("first_", FALSE, CONNECTORS,
                  TL_N_ ("resistance factor of each connector at first")),
  CONNECTOR_LIST ("mean_", TRUE, 0, TL_N_ ("mean of its last readings")),
  CONNECTOR_LIST ("largest_", TRUE, 0, TL_N_ ("its largest reading")),
  TL_MAYBE_ABOVE ("student", "1", 0, 1e3, 4.032, TL_TREND_RISES,
                  TL_N_ ("Student's t, 99 % two-sided, 5 degrees of freedom")),
  { NULL },
};
static const TlFormulaOutput statistics_outputs[] = {
  { "initial_scatter", "1" },
  { "mean_scatter", "1" },
  { "largest_ratio", "1" },
  { NULL },
};

/* Student x standard error over the mean; NAN if a figure is missing. */
static double
scatter (const double *values, double student)
{
  double sum = 0.0, squares = 0.0;

  for (guint i = 0; i < CONNECTORS; i++)
    sum += values[i];
  const double mean = sum / CONNECTORS;
  for (guint i = 0; i < CONNECTORS; i++)
    squares += (values[i] - mean) * (values[i] - mean);
  return student / sqrt ((double) CONNECTORS) * sqrt (squares / (CONNECTORS - 1)) / mean;
}

static gboolean
run_statistics (const double *in, double *out, GError **error)
{
  const double *first = in, *means = in + CONNECTORS, *largest = in + 2 * CONNECTORS,
               student = in[3 * CONNECTORS];

  out[0] = scatter (first, student);
  out[1] = scatter (means, student);
  for (guint i = 0; i < CONNECTORS; i++)
    if (!isnan (largest[i]) && !(out[2] >= largest[i] / first[i]))
      out[2] = largest[i] / first[i];
  return TRUE;
}

#define READINGS 11

static const TlFormulaInput stability_inputs[] = {
  { .name = "deviation_",
    .unit = "K",
    .low = -1e3,
    .high = 1e3,
    .fallback = NAN,
    .first = 1,
    .last = READINGS,
    .step = 1,
    .least = 2,
    .trend = TL_TREND_NEITHER,
    .meaning = TL_N_ ("terminal less control conductor at each reading") },
  { NULL },
};
static const TlFormulaOutput stability_outputs[] = { { "mean", "K" }, { "factor", "K" }, { NULL } };

static gboolean
run_stability (const double *in, double *out, GError **error)
{
  double sum = 0.0;
  guint  n = 0;

  for (guint i = 0; i < READINGS; i++)
    if (!isnan (in[i]))
      {
        sum += in[i];
        n++;
      }
  out[0] = sum / n;
  out[1] = 0.0;
  for (guint i = 0; i < READINGS; i++)
    if (!isnan (in[i]))
      out[1] = MAX (out[1], fabs (in[i] - out[0]));
  return TRUE;
}

const TlFormula tl_circuit_formulas[] = {
  { "resistance-at-temperature", TL_N_ ("Resistance of a warm conductor"),
    "linear: R = R20 (1 + a (t - 20)); iec-60228: R = R20 (b + t)/(b + 20), b = 234.5 copper, 228 "
    "aluminium; loss = I^2 R",
    "IEC 60228 correction (from memory)", TL_TRUST_A, warm_inputs, warm_outputs, run_warm },
  { "conductor-resistance", TL_N_ ("Resistance of a length of conductor"), "R = rho l/S",
    "textbook; resistivities IEC 60028, IEC 60889 (values seen)", TL_TRUST_A, conductor_inputs,
    conductor_outputs, run_conductor },
  { "performance-factor", TL_N_ ("Resistance of a joint against the conductors it replaces"),
    "k = R/(R'1 l1 + R'2 l2)", "IEC 61238-1 idea (from memory)", TL_TRUST_B, performance_inputs,
    factor_outputs, run_performance },
  { "parallel-share", TL_N_ ("Current and heat of two parallel paths"),
    "currents as the inverse of the resistances; heat = I^2 R", "Ohm and Joule", TL_TRUST_A,
    share_inputs, share_outputs, run_share },
  { "ambient-factor", TL_N_ ("Factor for another ambient"),
    "factor = sqrt((limit - ambient)/(limit - reference))",
    "reproduces IEC 60364-5-52 Table B.52.14 and NFPA 70 tables (tables seen)", TL_TRUST_A,
    ambient_inputs, factor_outputs, run_ambient },
  { "ampacity-formula", TL_N_ ("Current of a section from the coefficients of its table"),
    "I = A S^m - B S^n", "IEC 60364-5-52 Annex D (from memory; results seen)", TL_TRUST_A,
    ampacity_inputs, ampacity_outputs, run_ampacity },
  { "voltage-drop", TL_N_ ("Voltage drop of a line, IEC form"),
    "u = b (rho L/S cos + x L sin) I, b = 2 single, 1 three (phase to neutral); share = 100 "
    "u/voltage",
    "IEC 60364-5-52 Annex G (from memory)", TL_TRUST_A, drop_inputs, drop_outputs, run_drop },
  { "voltage-drop-nec", TL_N_ ("Voltage drop of a line, NFPA 70 form"),
    "single: 2 L R I/1000; three: sqrt3 L R I/1000, line to line",
    "NFPA 70 chapter 9 Table 8 resistances (seen)", TL_TRUST_A, drop_nec_inputs, drop_outputs,
    run_drop_nec },
  { "loop-resistance", TL_N_ ("Resistance of a fault loop"),
    "loop = source + (line + back) L factor + joints, added as resistances; fault_current = U/loop",
    "Ohm", TL_TRUST_A, loop_inputs, loop_outputs, run_loop },
  { "connector-statistics", TL_N_ ("Scatter of a set of six connectors"),
    "scatter = t/sqrt6 x s/mean with n - 1; largest_ratio = worst largest/own first",
    "IEC 61238-1-1 evaluation (from memory)", TL_TRUST_B, statistics_inputs, statistics_outputs,
    run_statistics },
  { "stability-factor", TL_N_ ("Stability of a terminal's temperature"),
    "factor = largest |deviation - mean|",
    "UL 486A-486B, IEC 61545 idea (schedule seen, definition from memory)", TL_TRUST_B,
    stability_inputs, stability_outputs, run_stability },
  { NULL },
};
