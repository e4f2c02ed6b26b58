/* heat-fin.c: a joint between conductors that carry its heat away, steady and in time, with a constant film.
 *
 * A joint's heat spreads about half a metre each way: short models mislead. In many sound joints the
 * conductor is the hotter and warms the joint.
 * Sources: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, chapters 3 and 5 (from memory);
 * closed forms.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

static const char *const end_words[] = { "endless", "held", "insulated", NULL };
enum
{
  END_ENDLESS,
  END_HELD,
  END_INSULATED
};

/* One conductor as a fin with heat of its own. */
typedef struct
{
  double far_C;   /* far from the joint */
  double per_m;   /* m: 1/decay length */
  double W_per_K; /* g: into an endless fin */
} Fin;

/* FALSE if the current is above the conductor's runaway current. */
static gboolean
make_fin (Fin *fin, double current_A, double ohm_per_m, double coefficient, double section_m2,
          double diameter_m, double conductivity, double film, double ambient_C, GError **error)
{
  const double heat = current_A * current_A * ohm_per_m;
  const double left = film * G_PI * diameter_m - heat * coefficient;

  if (left <= 0.0)
    return tl_formula_refuse (
        error,
        _ ("there is no steady state: the heat outruns the cooling; the current must be lower"));
  fin->far_C = ambient_C + heat * (1.0 + coefficient * (ambient_C - 20.0)) / left;
  fin->per_m = sqrt (left / (conductivity * section_m2));
  fin->W_per_K = sqrt (left * conductivity * section_m2);
  return TRUE;
}

static const TlFormulaInput rod_inputs[] = {
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("film on the side")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_NEITHER, TL_N_ ("perimeter divided by pi")),
  TL_ABOVE ("conductivity", "W/mK", 0, 1e4, TL_TREND_RISES,
            TL_N_ ("thermal conductivity of the rod")),
  TL_MAYBE_ABOVE ("section", "mm2", 0, 1e6, NAN, TL_TREND_RISES,
                  TL_N_ ("section of the metal; a full circle if left out")),
  TL_MAYBE ("base", "degC", -200, 3000, NAN, TL_TREND_NEITHER,
            TL_N_ ("temperature of the hot end, for the heat")),
  TL_MAYBE ("ambient", "degC", -200, 3000, NAN, TL_TREND_NEITHER,
            TL_N_ ("temperature of the air, for the heat")),
  { NULL },
};
static const TlFormulaOutput rod_outputs[] = {
  { "decay_length", "mm" }, { "conductance", "W/K" }, { "heat", "W" }, { NULL }
};

static gboolean
run_rod (const double *in, double *out, GError **error)
{
  const double diameter_m = in[1] * 1e-3, side = in[0] * G_PI * diameter_m;
  const double section_m2 = isnan (in[3]) ? G_PI / 4.0 * diameter_m * diameter_m : in[3] * 1e-6;

  out[0] = sqrt (in[2] * section_m2 / side) * 1e3;
  out[1] = sqrt (side * in[2] * section_m2);
  out[2] = out[1] * (in[4] - in[5]);
  return TRUE;
}

static const TlFormulaInput joint_inputs[] = {
  TL_FROM ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current")),
  TL_FROM ("joint_resistance", "mohm", 0, 1e6, TL_TREND_NEITHER,
           TL_N_ ("resistance of a joint without length or own cooling")),
  TL_FROM ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_NEITHER,
           TL_N_ ("resistance of the conductors at 20 °C, both sides alike")),
  TL_MAYBE ("coefficient", "1/K", 0, 0.01, 0, TL_TREND_NEITHER,
            TL_N_ ("temperature coefficient at 20 °C")),
  TL_ABOVE ("section", "mm2", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("section of the metal")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_NEITHER, TL_N_ ("diameter of the surface")),
  TL_ABOVE ("conductivity", "W/mK", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("thermal conductivity of the metal")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_NEITHER, TL_N_ ("film on the side")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_RISES, TL_N_ ("temperature of the air")),
  TL_MAYBE_WORD ("ends", end_words, END_ENDLESS, TL_N_ ("what the far ends do")),
  TL_MAYBE_ABOVE ("half_length", "mm", 0, 1e7, NAN, TL_TREND_NEITHER,
                  TL_N_ ("from the joint to each end, unless endless")),
  TL_MAYBE ("end_temperature", "degC", -60, 1500, NAN, TL_TREND_NEITHER,
            TL_N_ ("temperature of held ends")),
  TL_MAYBE ("distance", "mm", 0, 1e7, 0, TL_TREND_NEITHER, TL_N_ ("from the joint")),
  { NULL },
};
static const TlFormulaOutput joint_outputs[] = { { "temperature", "degC" },
                                                 { "far", "degC" },
                                                 { NULL } };

static gboolean
run_joint (const double *in, double *out, GError **error)
{
  const double current_A = in[0], heat_W = current_A * current_A * in[1] * 1e-3,
               at_m = in[12] * 1e-3, length_m = in[10] * 1e-3;
  const int ends = (int) in[9];
  Fin       fin;

  if (!make_fin (&fin, current_A, in[2] * 1e-3, in[3], in[4] * 1e-6, in[5] * 1e-3, in[6], in[7],
                 in[8], error))
    return FALSE;
  const double peak_K = heat_W / (2.0 * fin.W_per_K);
  out[1] = fin.far_C;
  if (ends == END_ENDLESS)
    {
      out[0] = fin.far_C + peak_K * exp (-fin.per_m * at_m);
      return TRUE;
    }
  if (isnan (length_m) || (ends == END_HELD && isnan (in[11])))
    return tl_formula_refuse (
        error, _ ("ends that are not endless need half_length, and held ends their temperature"));
  if (at_m > length_m)
    return tl_formula_refuse (error,
                              _ ("the distance is beyond the end; it must be at most half_length"));
  /* Quotients of hyperbolic functions by exponentials, so that long conductors do not overflow. */
  const double twice = exp (-2.0 * fin.per_m * length_m),
               back = exp (-2.0 * fin.per_m * (length_m - at_m));
  const double decay = exp (-fin.per_m * at_m);
  if (ends == END_HELD)
    out[0] = fin.far_C
             + (in[11] - fin.far_C) * exp (-fin.per_m * (length_m - at_m))
                   * (1.0 + exp (-2.0 * fin.per_m * at_m)) / (1.0 + twice)
             + peak_K * decay * (1.0 - back) / (1.0 + twice);
  else
    out[0] = fin.far_C + peak_K * decay * (1.0 + back) / (1.0 - twice);
  return TRUE;
}

static const TlFormulaInput two_inputs[] = {
  TL_FROM ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current")),
  TL_FROM ("joint_resistance", "mohm", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance of the joint")),
  TL_FROM ("resistance_1", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("first side at 20 °C")),
  TL_ABOVE ("section_1", "mm2", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("section of the first side")),
  TL_ABOVE ("diameter_1", "mm", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("diameter of the surface of the first side")),
  TL_ABOVE ("conductivity_1", "W/mK", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("thermal conductivity of the first side")),
  TL_MAYBE ("coefficient_1", "1/K", 0, 0.01, 0, TL_TREND_NEITHER,
            TL_N_ ("temperature coefficient of the first side at 20 °C")),
  TL_FROM ("resistance_2", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("second side at 20 °C")),
  TL_ABOVE ("section_2", "mm2", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("section of the second side")),
  TL_ABOVE ("diameter_2", "mm", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("diameter of the surface of the second side")),
  TL_ABOVE ("conductivity_2", "W/mK", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("thermal conductivity of the second side")),
  TL_MAYBE ("coefficient_2", "1/K", 0, 0.01, 0, TL_TREND_NEITHER,
            TL_N_ ("temperature coefficient of the second side at 20 °C")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("film on both sides")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_RISES, TL_N_ ("temperature of the air")),
  { NULL },
};
static const TlFormulaOutput two_outputs[] = {
  { "temperature", "degC" }, { "heat_1", "W" }, { "heat_2", "W" }, { NULL }
};

static gboolean
run_two (const double *in, double *out, GError **error)
{
  const double current_A = in[0], heat_W = current_A * current_A * in[1] * 1e-3;
  Fin          first, second;

  if (!make_fin (&first, current_A, in[2] * 1e-3, in[6], in[3] * 1e-6, in[4] * 1e-3, in[5], in[12],
                 in[13], error)
      || !make_fin (&second, current_A, in[7] * 1e-3, in[11], in[8] * 1e-6, in[9] * 1e-3, in[10],
                    in[12], in[13], error))
    return FALSE;
  out[0] = (heat_W + first.W_per_K * first.far_C + second.W_per_K * second.far_C)
           / (first.W_per_K + second.W_per_K);
  out[1] = first.W_per_K * (out[0] - first.far_C);
  out[2] = second.W_per_K * (out[0] - second.far_C);
  return TRUE;
}

static const TlFormulaInput body_inputs[] = {
  TL_ABOVE ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current")),
  TL_FROM ("joint_resistance", "mohm", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance of the joint")),
  TL_FROM ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_RISES,
           TL_N_ ("resistance of the conductor, constant")),
  TL_ABOVE ("section", "mm2", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("section of the metal")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_NEITHER, TL_N_ ("diameter of the surface")),
  TL_ABOVE ("conductivity", "W/mK", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("thermal conductivity of the metal")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("film on conductor and body")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_RISES, TL_N_ ("temperature of the air")),
  TL_FROM ("body_area", "mm2", 0, 1e7, TL_TREND_FALLS, TL_N_ ("outside of the joint's body")),
  { NULL },
};
static const TlFormulaOutput body_outputs[] = { { "temperature", "degC" },
                                                { "neutral_resistance", "mohm" },
                                                { NULL } };

static gboolean
run_body (const double *in, double *out, GError **error)
{
  const double current_A = in[0], ambient_C = in[7], body_W_per_K = in[6] * in[8] * 1e-6;
  Fin          fin;

  if (!make_fin (&fin, current_A, in[2] * 1e-3, 0.0, in[3] * 1e-6, in[4] * 1e-3, in[5], in[6],
                 ambient_C, error))
    return FALSE;
  out[0] = (current_A * current_A * in[1] * 1e-3 + 2.0 * fin.W_per_K * fin.far_C
            + body_W_per_K * ambient_C)
           / (2.0 * fin.W_per_K + body_W_per_K);
  out[1] = body_W_per_K * (fin.far_C - ambient_C) / (current_A * current_A) * 1e3;
  return TRUE;
}

/* --- in time --- */

static const TlFormulaInput lumped_inputs[] = {
  TL_FROM ("current", "A", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("current from the beginning on")),
  TL_FROM ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("resistance at 20 °C")),
  TL_MAYBE ("coefficient", "1/K", 0, 0.01, 0, TL_TREND_RISES,
            TL_N_ ("temperature coefficient at 20 °C")),
  TL_ABOVE ("section", "mm2", 0, 1e6, TL_TREND_RISES, TL_N_ ("section of the metal")),
  TL_ABOVE ("metal_density", "kg/m3", 0, 1e5, TL_TREND_RISES, TL_N_ ("density of the metal")),
  TL_ABOVE ("specific_heat", "J/kgK", 0, 1e5, TL_TREND_RISES, TL_N_ ("specific heat of the metal")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("film on the side")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_FALLS, TL_N_ ("diameter of the surface")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_NEITHER, TL_N_ ("temperature of the air")),
  TL_FROM ("start", "degC", -60, 1000, TL_TREND_NEITHER, TL_N_ ("temperature at the beginning")),
  TL_MAYBE ("time", "s", 0, 1e9, 0, TL_TREND_NEITHER, TL_N_ ("time since the beginning")),
  { NULL },
};
static const TlFormulaOutput lumped_outputs[] = { { "time_constant", "s" },
                                                  { "temperature", "degC" },
                                                  { NULL } };

static gboolean
run_lumped (const double *in, double *out, GError **error)
{
  const double heat_20 = in[0] * in[0] * in[1] * 1e-3,
               left = in[6] * G_PI * in[7] * 1e-3 - heat_20 * in[2];
  const double capacity = in[3] * 1e-6 * in[4] * in[5], ambient_C = in[8], start_C = in[9];

  if (left <= 0.0)
    return tl_formula_refuse (
        error,
        _ ("there is no steady state: the heat outruns the cooling; the current must be lower"));
  const double end_C = ambient_C + heat_20 * (1.0 + in[2] * (ambient_C - 20.0)) / left;
  out[0] = capacity / left;
  out[1] = end_C + (start_C - end_C) * exp (-in[10] / out[0]);
  return TRUE;
}

static const TlFormulaInput sphere_inputs[] = {
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("diameter of the sphere")),
  TL_ABOVE ("film", "W/m2K", 0, 1e6, TL_TREND_FALLS, TL_N_ ("film on the sphere")),
  TL_ABOVE ("metal_density", "kg/m3", 0, 1e5, TL_TREND_RISES, TL_N_ ("density of the sphere")),
  TL_ABOVE ("specific_heat", "J/kgK", 0, 1e5, TL_TREND_RISES,
            TL_N_ ("specific heat of the sphere")),
  TL_FROM ("start", "degC", -200, 2000, TL_TREND_NEITHER, TL_N_ ("temperature at the beginning")),
  TL_FROM ("target", "degC", -200, 2000, TL_TREND_NEITHER, TL_N_ ("temperature wanted")),
  TL_FROM ("medium", "degC", -200, 2000, TL_TREND_NEITHER, TL_N_ ("temperature around the sphere")),
  { NULL },
};
static const TlFormulaOutput sphere_outputs[] = { { "time_constant", "s" },
                                                  { "time", "s" },
                                                  { NULL } };

static gboolean
run_sphere (const double *in, double *out, GError **error)
{
  const double share = (in[6] - in[4]) / (in[6] - in[5]);

  if (!(share >= 1.0 && share < G_MAXDOUBLE))
    return tl_formula_refuse (error, _ ("the target must lie between the start and the temperature "
                                        "around, and is never quite the latter"));
  out[0] = in[2] * in[3] * in[0] * 1e-3 / (6.0 * in[1]);
  out[1] = out[0] * log (share);
  return TRUE;
}

static const TlFormulaInput switch_inputs[] = {
  TL_FROM ("power", "W", 0, 1e6, TL_TREND_RISES, TL_N_ ("heat switched on at the joint")),
  TL_ABOVE ("section", "mm2", 0, 1e6, TL_TREND_FALLS,
            TL_N_ ("section of each of the two endless rods")),
  TL_ABOVE ("conductivity", "W/mK", 0, 1e4, TL_TREND_FALLS,
            TL_N_ ("thermal conductivity of the rods")),
  TL_ABOVE ("capacity", "J/m3K", 0, 1e9, TL_TREND_FALLS,
            TL_N_ ("heat capacity of the metal by volume")),
  TL_FROM ("time", "s", 0, 1e9, TL_TREND_RISES, TL_N_ ("time since the switching")),
  TL_MAYBE ("film", "W/m2K", 0, 1e5, 0, TL_TREND_FALLS, TL_N_ ("film on the side")),
  TL_MAYBE_ABOVE ("diameter", "mm", 0, 1e4, NAN, TL_TREND_FALLS,
                  TL_N_ ("diameter of the surface, with a film")),
  { NULL },
};
static const TlFormulaOutput switch_outputs[] = { { "rise", "K" }, { NULL } };

static gboolean
run_switch (const double *in, double *out, GError **error)
{
  const double power_W = in[0], section_m2 = in[1] * 1e-6, conductivity = in[2], capacity = in[3],
               time_s = in[4], film = in[5];

  if (film <= 0.0)
    {
      out[0] = power_W / section_m2 * sqrt (time_s / (G_PI * conductivity * capacity));
      return TRUE;
    }
  if (isnan (in[6]))
    return tl_formula_refuse (error, _ ("a film needs the diameter of the surface"));
  const double side = film * G_PI * in[6] * 1e-3;
  out[0] = power_W / (2.0 * sqrt (side * conductivity * section_m2))
           * erf (sqrt (time_s * side / (capacity * section_m2)));
  return TRUE;
}

const TlFormula tl_heat_fin_formulas[] = {
  { "fin-endless-rod", TL_N_ ("Heat into an endless rod"),
    "decay_length = sqrt(k A/(h p)); conductance = sqrt(h p k A); heat = conductance (Tb - Ta)",
    "Incropera and DeWitt ch. 3 (from memory)", TL_TRUST_A, rod_inputs, rod_outputs, run_rod },
  { "fin-joint", TL_N_ ("Temperature of a joint in a conductor"),
    "far = long conductor; m and g from h p - I^2 R20 a; endless: far + P/(2g) exp(-m x); held: "
    "far + (Te - far) cosh mx/cosh mL + "
    "P/(2g) sinh m(L - x)/cosh mL; insulated: far + P/(2g) cosh m(L - x)/sinh mL",
    "closed form; finite differences agree", TL_TRUST_A, joint_inputs, joint_outputs, run_joint },
  { "fin-joint-two-metals", TL_N_ ("Temperature of a joint between two conductors"),
    "T = (P + g1 T1 + g2 T2)/(g1 + g2); heat flows out of the joint, negative when a side feeds it",
    "closed form", TL_TRUST_A, two_inputs, two_outputs, run_two },
  { "fin-joint-body", TL_N_ ("Temperature of a joint with a body of its own"),
    "T = (P + 2 g far + h A Ta)/(2 g + h A); neutral_resistance: the joint is as warm as the far "
    "conductor",
    "closed form", TL_TRUST_A, body_inputs, body_outputs, run_body },
  { "lumped-transient", TL_N_ ("A conductor warming in time"),
    "tau = C/(G - I^2 R20 a); T = T_end + (start - T_end) exp(-t/tau)", "closed form", TL_TRUST_A,
    lumped_inputs, lumped_outputs, run_lumped },
  { "sphere-step-time", TL_N_ ("A small sphere following its surroundings"),
    "tau = rho c D/(6 h); time = tau ln((medium - start)/(medium - target))",
    "heat-transfer textbooks", TL_TRUST_A, sphere_inputs, sphere_outputs, run_sphere },
  { "transient-fin", TL_N_ ("A joint in endless rods warming in time"),
    "no film: P/A sqrt(t/(pi k C)); with film: P/(2g) erf(sqrt(t/tau)), tau = C A/(h p)",
    "closed form, checked numerically", TL_TRUST_A, switch_inputs, switch_outputs, run_switch },
  { NULL },
};
