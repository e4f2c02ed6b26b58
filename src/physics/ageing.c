/* ageing.c: creep, growth of contact resistance and of intermetallic layers, and metals that expand differently.
 *
 * A factor of 2 in creep is a factor of 16 in time: times are printed in bins only, never as a promise.
 * Sources: parabolic growth with Arrhenius rate (activation seen); creep factors fitted to published creep
 * figures of conductor wire, CIGRE (seen); textbook for expansion.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

#define GAS_KJ_PER_MOL_K 8.314462618e-3
/* Fit of creep factors 1.5 at 38 degC and 3 at 70 degC, over that at 20 degC. */
#define CREEP_SLOPE_K 2150.0
#define CREEP_REFERENCE_K 293.15
#define CREEP_REFERENCE_MPA 35.0
#define CREEP_REFERENCE_H 1000.0
/* Temperature at which the time constant of film growth is given. */
#define GROWTH_REFERENCE_K 343.15

static double
creep_factor (double temperature_K)
{
  return exp (CREEP_SLOPE_K * (1.0 / CREEP_REFERENCE_K - 1.0 / temperature_K));
}

/* In the reference time. */
static double
creep_ratio (double strain, double temperature_K, double stress_MPa)
{
  return strain * creep_factor (temperature_K) * stress_MPa / CREEP_REFERENCE_MPA;
}

static const TlFormulaInput layer_inputs[] = {
  TL_FROM ("initial", "um", 0, 1e4, TL_TREND_RISES, TL_N_ ("thickness at first")),
  TL_FROM ("rate", "um2/h", 0, 1e6, TL_TREND_RISES,
           TL_N_ ("parabolic constant at the reference temperature")),
  TL_FROM ("reference", "degC", -100, 1500, TL_TREND_FALLS, TL_N_ ("temperature of that constant")),
  TL_FROM ("activation", "kJ/mol", 0, 500, TL_TREND_NEITHER, TL_N_ ("activation energy")),
  TL_FROM ("temperature", "degC", -100, 600, TL_TREND_RISES, TL_N_ ("temperature of the joint")),
  TL_FROM ("time", "h", 0, 1e7, TL_TREND_RISES, TL_N_ ("time at that temperature")),
  { NULL },
};
static const TlFormulaOutput layer_outputs[] = { { "thickness", "um" }, { NULL } };

static gboolean
run_layer (const double *in, double *out, GError **error)
{
  const double initial_um = in[0], rate_um2_per_h = in[1], reference_K = in[2] + TL_ZERO_C_K;
  const double activation_kJ_per_mol = in[3], temperature_K = in[4] + TL_ZERO_C_K, time_h = in[5];
  const double k_um2_per_h =
      rate_um2_per_h
      * exp (-activation_kJ_per_mol / GAS_KJ_PER_MOL_K * (1.0 / temperature_K - 1.0 / reference_K));

  out[0] = sqrt (initial_um * initial_um + k_um2_per_h * time_h);
  return TRUE;
}

static const TlFormulaInput floor_inputs[] = {
  TL_FROM ("force_start", "N", 0, 1e7, TL_TREND_RISES,
           TL_N_ ("force after settling and the first hot cycle")),
  TL_FROM ("force_floor", "N", 0, 1e7, TL_TREND_FALLS, TL_N_ ("least force")),
  TL_ABOVE ("stiffness", "N/mm", 0, 1e12, TL_TREND_FALLS,
            TL_N_ ("bolt, parts and spring in series")),
  TL_ABOVE ("aluminium_thickness", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("thickness that creeps")),
  TL_ABOVE ("stress", "MPa", 0, 1e4, TL_TREND_FALLS, TL_N_ ("pressure on it")),
  TL_FROM ("temperature", "degC", -60, 300, TL_TREND_RISES, TL_N_ ("temperature of the joint")),
  TL_MAYBE_ABOVE ("strain", "1", 0, 0.1, 0.00015, TL_TREND_FALLS,
                  TL_N_ ("creep strain in 1000 h at 20 °C and 35 MPa")),
  TL_MAYBE ("exponent", "1", 0.1, 1, 0.25, TL_TREND_NEITHER, TL_N_ ("exponent of time")),
  { NULL },
};
static const TlFormulaOutput floor_outputs[] = { { "creep_factor", "1" },
                                                 { "time", "h" },
                                                 { NULL } };

static gboolean
run_floor (const double *in, double *out, GError **error)
{
  const double start_N = in[0], floor_N = in[1], stiffness_N_per_mm = in[2], aluminium_mm = in[3],
               stress_MPa = in[4];
  const double temperature_K = in[5] + TL_ZERO_C_K, strain = in[6], exponent = in[7];

  const double loss_N =
      stiffness_N_per_mm * aluminium_mm * creep_ratio (strain, temperature_K, stress_MPa);

  out[0] = creep_factor (temperature_K);
  out[1] = CREEP_REFERENCE_H * pow (MAX (0.0, start_N - floor_N) / loss_N, 1.0 / exponent);
  return TRUE;
}

static const TlFormulaInput creep_inputs[] = {
  TL_FROM ("stress", "MPa", 0, 1e4, TL_TREND_RISES, TL_N_ ("pressure on the aluminium")),
  TL_FROM ("temperature", "degC", -60, 300, TL_TREND_RISES, TL_N_ ("temperature of the joint")),
  TL_FROM ("time", "h", 0, 1e9, TL_TREND_RISES, TL_N_ ("time under load")),
  TL_MAYBE ("strain", "1", 0, 0.1, 0.00015, TL_TREND_RISES,
            TL_N_ ("creep strain in 1000 h at 20 °C and 35 MPa")),
  TL_MAYBE ("exponent", "1", 0.1, 1, 0.25, TL_TREND_NEITHER, TL_N_ ("exponent of time")),
  { NULL },
};
static const TlFormulaOutput creep_outputs[] = { { "creep_strain", "1" },
                                                 { "creep_factor", "1" },
                                                 { NULL } };

static gboolean
run_creep (const double *in, double *out, GError **error)
{
  const double stress_MPa = in[0], temperature_K = in[1] + TL_ZERO_C_K, time_h = in[2],
               strain = in[3], exponent = in[4];

  out[0] =
      creep_ratio (strain, temperature_K, stress_MPa) * pow (time_h / CREEP_REFERENCE_H, exponent);
  out[1] = creep_factor (temperature_K);
  return TRUE;
}

static const TlFormulaInput growth_inputs[] = {
  TL_FROM ("time", "h", 0, 1e9, TL_TREND_RISES, TL_N_ ("time at that temperature")),
  TL_ABOVE ("time_constant", "h", 0, 1e12, TL_TREND_FALLS,
            TL_N_ ("time in which the films double the resistance at 70 °C")),
  TL_FROM ("temperature", "degC", -60, 300, TL_TREND_RISES, TL_N_ ("temperature of the contact")),
  TL_MAYBE_ABOVE ("force_start", "N", 0, 1e7, 1, TL_TREND_RISES, TL_N_ ("clamping force when new")),
  TL_MAYBE_ABOVE ("force", "N", 0, 1e7, 1, TL_TREND_FALLS, TL_N_ ("clamping force now")),
  TL_MAYBE ("force_exponent", "1", 0, 1.5, 0.7, TL_TREND_NEITHER,
            TL_N_ ("how the resistance follows the force")),
  TL_MAYBE ("growth_exponent", "1", 0.1, 2, 0.75, TL_TREND_NEITHER,
            TL_N_ ("0.5 where diffusion through the film limits, 1 for fretting")),
  TL_MAYBE ("activation", "K", 0, 2e4, 6000, TL_TREND_NEITHER,
            TL_N_ ("activation temperature of the growth")),
  { NULL },
};
static const TlFormulaOutput growth_outputs[] = { { "ratio", "1" },
                                                  { "constant_now", "h" },
                                                  { NULL } };

static gboolean
run_growth (const double *in, double *out, GError **error)
{
  const double time_h = in[0], constant_h = in[1], temperature_K = in[2] + TL_ZERO_C_K;
  const double force_ratio = in[3] / in[4], force_exponent = in[5], growth_exponent = in[6],
               activation_K = in[7];
  const double now_h =
      constant_h * exp (activation_K * (1.0 / temperature_K - 1.0 / GROWTH_REFERENCE_K));

  out[0] = pow (force_ratio, force_exponent) * (1.0 + pow (time_h / now_h, growth_exponent));
  out[1] = now_h;
  return TRUE;
}

static const TlFormulaInput expansion_inputs[] = {
  TL_FROM ("length", "mm", 0, 1e6, TL_TREND_RISES, TL_N_ ("common length")),
  TL_FROM ("expansion_1", "um/mK", -10, 500, TL_TREND_NEITHER,
           TL_N_ ("expansion coefficient of the first metal")),
  TL_FROM ("expansion_2", "um/mK", -10, 500, TL_TREND_NEITHER,
           TL_N_ ("expansion coefficient of the second metal")),
  TL_FROM ("temperature_change", "K", -300, 1000, TL_TREND_RISES, TL_N_ ("rise of temperature")),
  TL_MAYBE_ABOVE ("modulus", "MPa", 0, 1e6, NAN, TL_TREND_RISES,
                  TL_N_ ("elastic modulus of the metal that is held")),
  { NULL },
};
static const TlFormulaOutput expansion_outputs[] = { { "mismatch", "um" },
                                                     { "restrained_stress", "MPa" },
                                                     { NULL } };

static gboolean
run_expansion (const double *in, double *out, GError **error)
{
  const double length_mm = in[0], change_K = in[3], modulus_MPa = in[4];
  const double strain = fabs (in[1] - in[2]) * 1e-6 * change_K;

  out[0] = length_mm * 1e3 * strain;
  out[1] = modulus_MPa * strain;
  return TRUE;
}

const TlFormula tl_ageing_formulas[] = {
  { "intermetallic-thickness", TL_N_ ("Thickness of the intermetallic layer"),
    "x = sqrt(x0^2 + k t), k = rate x exp(-Q/R (1/T - 1/T_ref))",
    "parabolic growth, Arrhenius; activation 107.9 kJ/mol seen; an indication below 200 degC",
    TL_TRUST_I, layer_inputs, layer_outputs, run_layer },
  { "force-floor-time", TL_N_ ("Time until creep has taken the clamping force down to its floor"),
    "creep_factor = exp(2150 K (1/293.15 K - 1/T)); time = 1000 h ((F1 - Fmin)/(k strain t_Al "
    "factor stress/35))^(1/exponent)",
    "factor fitted to creep figures of conductor wire, CIGRE N030 (seen); an indication, printed "
    "in bins only",
    TL_TRUST_I, floor_inputs, floor_outputs, run_floor },
  { "creep-strain", TL_N_ ("Creep of the aluminium under the washer"),
    "creep_factor = exp(2150 K (1/293.15 K - 1/T)); creep_strain = strain x creep_factor x "
    "stress/35 "
    "(time/1000 h)^exponent",
    "power law of time from memory, good to a factor of two; factor fitted to creep figures of "
    "conductor wire, CIGRE N030 (seen), not to be trusted above 90 degC",
    TL_TRUST_I, creep_inputs, creep_outputs, run_creep },
  { "contact-growth", TL_N_ ("Growth of a contact's resistance with force lost and films grown"),
    "constant_now = time_constant exp(activation (1/T - 1/343.15 K)); ratio = "
    "(force_start/force)^force_exponent (1 + (time/constant_now)^growth_exponent)",
    "shape from diffusion and force laws of contact handbooks (from memory); the constants are "
    "orders of magnitude chosen for this program",
    TL_TRUST_I, growth_inputs, growth_outputs, run_growth },
  { "differential-expansion", TL_N_ ("Mismatch of two metals that warm together"),
    "mismatch = L |a1 - a2| dT; restrained_stress = E |a1 - a2| dT; half the mismatch is the slip "
    "at each end",
    "textbook", TL_TRUST_A, expansion_inputs, expansion_outputs, run_expansion },
  { NULL },
};
