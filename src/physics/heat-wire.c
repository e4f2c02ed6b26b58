/* heat-wire.c: how warm a long conductor becomes, bare or covered, and when it has no steady state.
 *
 * Sources: Ohm, Joule and Fourier in closed form; the film of still air by a named rule (heat-film.c).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include "heat-private.h"

/* A bisection of a range of kelvins ends here. */
#define ROOT_K 1e-10
#define MOST_HALVINGS 200
/* No conductor is looked for above this rise. */
#define LARGEST_RISE_K 2500.0

static const char *const status_words[] = { "ok", "no-steady-state", NULL };

/* A conductor in still air; a layer of insulation if outside_m > diameter_m. */
typedef struct
{
  TlFilmRule rule;
  double     diameter_m, outside_m, ambient_C, emissivity, layer_mK_per_W;
} Wire;

/* Metal at @metal_C: loss, and the temperature outside. */
static double
wire_loss (const Wire *wire, double metal_C, double *surface_C)
{
  double low_C = MIN (wire->ambient_C, metal_C), high_C = MAX (wire->ambient_C, metal_C);

  *surface_C = metal_C;
  if (wire->layer_mK_per_W > 0.0)
    for (guint i = 0; i < MOST_HALVINGS && high_C - low_C > ROOT_K; i++)
      {
        *surface_C = 0.5 * (low_C + high_C);
        const double loss = tl_heat_still_air_W_per_m (wire->rule, wire->outside_m, *surface_C,
                                                       wire->ambient_C, wire->emissivity);
        if (*surface_C + wire->layer_mK_per_W * loss < metal_C)
          low_C = *surface_C;
        else
          high_C = *surface_C;
      }
  return tl_heat_still_air_W_per_m (wire->rule, wire->outside_m, *surface_C, wire->ambient_C,
                                    wire->emissivity);
}

/* From inputs @outside_mm and @conductivity_W_per_mK that may be left out. */
static gboolean
cover (Wire *wire, double outside_mm, double conductivity_W_per_mK, GError **error)
{
  wire->outside_m = wire->diameter_m;
  wire->layer_mK_per_W = 0.0;
  if (isnan (outside_mm) && isnan (conductivity_W_per_mK))
    return TRUE;
  if (isnan (outside_mm) || isnan (conductivity_W_per_mK))
    return tl_formula_refuse (
        error, _ ("the diameter over the insulation and its conductivity must be given together"));
  wire->outside_m = outside_mm * 1e-3;
  if (wire->outside_m <= wire->diameter_m)
    return tl_formula_refuse (
        error, _ ("the diameter over the insulation must be above the diameter of the metal"));
  wire->layer_mK_per_W =
      log (wire->outside_m / wire->diameter_m) / (2.0 * G_PI * conductivity_W_per_mK);
  return TRUE;
}

static const TlFormulaInput air_current_inputs[] = {
  TL_ABOVE ("diameter", "mm", 0, 1e3, TL_TREND_NEITHER,
            TL_N_ ("diameter of the metal, lying horizontally")),
  TL_FROM ("temperature", "degC", -60, 1500, TL_TREND_NEITHER, TL_N_ ("temperature of the metal")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_NEITHER,
           TL_N_ ("temperature of air and surroundings")),
  TL_FROM ("emissivity", "1", 0, 1, TL_TREND_RISES, TL_N_ ("emissivity of the outer surface")),
  TL_ABOVE ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("resistance at 20 °C")),
  TL_FROM ("coefficient", "1/K", 0, 0.01, TL_TREND_NEITHER,
           TL_N_ ("temperature coefficient at 20 °C")),
  TL_WORD ("rule", tl_film_rule_words, TL_N_ ("rule for the convection")),
  TL_MAYBE_ABOVE ("outside_diameter", "mm", 0, 1e3, NAN, TL_TREND_NEITHER,
                  TL_N_ ("diameter over the insulation")),
  TL_MAYBE_ABOVE ("insulation_conductivity", "W/mK", 0, 100, NAN, TL_TREND_RISES,
                  TL_N_ ("thermal conductivity of the insulation")),
  { NULL },
};
static const TlFormulaOutput air_current_outputs[] = {
  { "current", "A" }, { "surface", "degC" }, { "loss", "W/m" }, { NULL }
};

static gboolean
run_air_current (const double *in, double *out, GError **error)
{
  Wire         wire = { (TlFilmRule) in[6], in[0] * 1e-3, 0.0, in[2], in[3], 0.0 };
  const double metal_C = in[1], ohm_per_m = in[4] * 1e-3 * (1.0 + in[5] * (metal_C - 20.0));

  if (metal_C < wire.ambient_C)
    return tl_formula_refuse (error,
                              _ ("the metal is colder than the air; a current can only warm it"));
  if (!(ohm_per_m > 0.0))
    return tl_formula_refuse (
        error, _ ("the resistance at that temperature is not above 0; check the coefficient"));
  if (!cover (&wire, in[7], in[8], error))
    return FALSE;
  out[2] = wire_loss (&wire, metal_C, &out[1]);
  out[0] = sqrt (MAX (out[2], 0.0) / ohm_per_m);
  return TRUE;
}

static const TlFormulaInput air_temperature_inputs[] = {
  TL_FROM ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current")),
  TL_ABOVE ("diameter", "mm", 0, 1e3, TL_TREND_NEITHER,
            TL_N_ ("diameter of the metal, lying horizontally")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_RISES,
           TL_N_ ("temperature of air and surroundings")),
  TL_FROM ("emissivity", "1", 0, 1, TL_TREND_FALLS, TL_N_ ("emissivity of the outer surface")),
  TL_ABOVE ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance at 20 °C")),
  TL_FROM ("coefficient", "1/K", 0, 0.01, TL_TREND_NEITHER,
           TL_N_ ("temperature coefficient at 20 °C")),
  TL_WORD ("rule", tl_film_rule_words, TL_N_ ("rule for the convection")),
  TL_MAYBE_ABOVE ("outside_diameter", "mm", 0, 1e3, NAN, TL_TREND_NEITHER,
                  TL_N_ ("diameter over the insulation")),
  TL_MAYBE_ABOVE ("insulation_conductivity", "W/mK", 0, 100, NAN, TL_TREND_FALLS,
                  TL_N_ ("thermal conductivity of the insulation")),
  { NULL },
};
static const TlFormulaOutput air_temperature_outputs[] = { { "temperature", "degC" }, { NULL } };

/* Heat made less heat lost at @metal_C. */
static double
excess (const Wire *wire, const double *in, double metal_C)
{
  double surface_C;

  return in[0] * in[0] * in[4] * 1e-3 * (1.0 + in[5] * (metal_C - 20.0))
         - wire_loss (wire, metal_C, &surface_C);
}

static gboolean
run_air_temperature (const double *in, double *out, GError **error)
{
  Wire   wire = { (TlFilmRule) in[6], in[1] * 1e-3, 0.0, in[2], in[3], 0.0 };
  double low_C = wire.ambient_C, high_C = low_C, step_K = 1.0;

  if (!cover (&wire, in[7], in[8], error))
    return FALSE;
  while (excess (&wire, in, high_C) > 0.0)
    {
      if (high_C - wire.ambient_C > LARGEST_RISE_K)
        return tl_formula_refuse (error, _ ("there is no steady state: the heat outruns the "
                                            "cooling; the current must be lower"));
      low_C = high_C;
      high_C += step_K;
      step_K *= 1.25;
    }
  for (guint i = 0; i < MOST_HALVINGS && high_C - low_C > ROOT_K; i++)
    {
      const double middle_C = 0.5 * (low_C + high_C);

      if (excess (&wire, in, middle_C) > 0.0)
        low_C = middle_C;
      else
        high_C = middle_C;
    }
  out[0] = 0.5 * (low_C + high_C);
  return TRUE;
}

/* --- constant film --- */

static const TlFormulaInput long_inputs[] = {
  TL_FROM ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current")),
  TL_FROM ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance at 20 °C")),
  TL_MAYBE ("coefficient", "1/K", 0, 0.01, 0, TL_TREND_NEITHER,
            TL_N_ ("temperature coefficient at 20 °C")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_FALLS, TL_N_ ("diameter of the surface")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("convection and radiation together")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_RISES, TL_N_ ("temperature of the air")),
  { NULL },
};
static const TlFormulaOutput long_outputs[] = {
  { "temperature", "degC" },
  { "loss", "W/m" },
  { "status", "word", status_words },
  { NULL },
};

static gboolean
run_long (const double *in, double *out, GError **error)
{
  const double heat_20 = in[0] * in[0] * in[1] * 1e-3, per_K = in[4] * G_PI * in[3] * 1e-3,
               ambient_C = in[5];
  const double left = per_K - heat_20 * in[2];

  out[0] = out[1] = NAN;
  out[2] = left > 0.0 ? 0.0 : 1.0;
  if (left <= 0.0)
    return TRUE;
  const double rise_K = heat_20 * (1.0 + in[2] * (ambient_C - 20.0)) / left;
  out[0] = ambient_C + rise_K;
  out[1] = per_K * rise_K;
  return TRUE;
}

static const TlFormulaInput runaway_inputs[] = {
  TL_ABOVE ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("resistance at 20 °C")),
  TL_ABOVE ("coefficient", "1/K", 0, 0.01, TL_TREND_FALLS,
            TL_N_ ("temperature coefficient at 20 °C")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("diameter of the surface")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_RISES, TL_N_ ("constant film")),
  { NULL },
};
static const TlFormulaOutput runaway_outputs[] = { { "current", "A" }, { NULL } };

static gboolean
run_runaway (const double *in, double *out, GError **error)
{
  out[0] = sqrt (in[3] * G_PI * in[2] * 1e-3 / (in[0] * 1e-3 * in[1]));
  return TRUE;
}

static const TlFormulaInput covered_inputs[] = {
  TL_FROM ("current", "A", 0, 1e5, TL_TREND_RISES, TL_N_ ("current")),
  TL_FROM ("resistance_20", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance at 20 °C")),
  TL_FROM ("coefficient", "1/K", 0, 0.01, TL_TREND_NEITHER,
           TL_N_ ("temperature coefficient at 20 °C")),
  TL_ABOVE ("diameter", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("diameter of the metal")),
  TL_ABOVE ("outside_diameter", "mm", 0, 1e3, TL_TREND_NEITHER,
            TL_N_ ("diameter over the insulation")),
  TL_ABOVE ("insulation_conductivity", "W/mK", 0, 100, TL_TREND_FALLS,
            TL_N_ ("thermal conductivity of the insulation")),
  TL_ABOVE ("film", "W/m2K", 0, 1e5, TL_TREND_FALLS, TL_N_ ("film on the outside")),
  TL_FROM ("ambient", "degC", -60, 500, TL_TREND_RISES, TL_N_ ("temperature of the air")),
  { NULL },
};
static const TlFormulaOutput covered_outputs[] = {
  { "temperature", "degC" }, { "surface", "degC" },       { "drop", "K" },
  { "loss", "W/m" },         { "critical_radius", "mm" }, { NULL },
};

static gboolean
run_covered (const double *in, double *out, GError **error)
{
  const double diameter_m = in[3] * 1e-3, outside_m = in[4] * 1e-3, conductivity = in[5],
               film = in[6], ambient_C = in[7];
  const double heat_20 = in[0] * in[0] * in[1] * 1e-3;

  if (outside_m < diameter_m)
    return tl_formula_refuse (
        error, _ ("the diameter over the insulation must be at least that of the metal"));
  const double layer = log (outside_m / diameter_m) / (2.0 * G_PI * conductivity),
               film_mK_per_W = 1.0 / (film * G_PI * outside_m);
  const double left = 1.0 / (layer + film_mK_per_W) - heat_20 * in[2];
  if (left <= 0.0)
    return tl_formula_refuse (
        error,
        _ ("there is no steady state: the heat outruns the cooling; the current must be lower"));
  out[0] = ambient_C + heat_20 * (1.0 + in[2] * (ambient_C - 20.0)) / left;
  out[3] = (out[0] - ambient_C) / (layer + film_mK_per_W);
  out[1] = ambient_C + out[3] * film_mK_per_W;
  out[2] = out[3] * layer;
  out[4] = conductivity / film * 1e3;
  return TRUE;
}

static const TlFormulaInput centre_inputs[] = {
  TL_FROM ("current", "A", 0, 1e6, TL_TREND_RISES, TL_N_ ("current")),
  TL_FROM ("resistance", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("resistance at its temperature")),
  TL_ABOVE ("conductivity", "W/mK", 0, 1e4, TL_TREND_FALLS,
            TL_N_ ("thermal conductivity of the metal")),
  { NULL },
};
static const TlFormulaOutput centre_outputs[] = { { "drop", "mK" }, { NULL } };

static gboolean
run_centre (const double *in, double *out, GError **error)
{
  /* Milliohms give millikelvins. */
  out[0] = in[0] * in[0] * in[1] / (4.0 * G_PI * in[2]);
  return TRUE;
}

const TlFormula tl_heat_wire_formulas[] = {
  { "still-air-current", TL_N_ ("Current that a conductor in still air bears"),
    "convection by the rule with air at the mean of surface and air, beta = 1/Tf, g = 9.81, and "
    "radiation; the surface lies below "
    "the metal by the drop over the insulation; current = sqrt(loss/R)",
    "heat balance; rule as in the convection formulas", TL_TRUST_B, air_current_inputs,
    air_current_outputs, run_air_current },
  { "still-air-temperature", TL_N_ ("Temperature of a conductor in still air"),
    "temperature at which I^2 R20 (1 + a (T - 20)) equals the loss of still-air-current",
    "heat balance; one root", TL_TRUST_B, air_temperature_inputs, air_temperature_outputs,
    run_air_temperature },
  { "long-conductor-temperature", TL_N_ ("Temperature of a long conductor with a constant film"),
    "q = I^2 R20; T = Ta + q (1 + a (Ta - 20))/(h pi d - q a); no steady state when h pi d <= q a",
    "closed form", TL_TRUST_A, long_inputs, long_outputs, run_long },
  { "runaway-current", TL_N_ ("Current above which a conductor has no steady state"),
    "I = sqrt(h pi d/(R20 a))", "closed form", TL_TRUST_A, runaway_inputs, runaway_outputs,
    run_runaway },
  { "insulated-conductor", TL_N_ ("Temperatures of an insulated conductor"),
    "1/G = ln(D/d)/(2 pi k) + 1/(h pi D); then as long-conductor-temperature; critical_radius = "
    "k/h",
    "closed form", TL_TRUST_A, covered_inputs, covered_outputs, run_covered },
  { "rod-centre-drop", TL_N_ ("Temperature from the centre of a conductor to its surface"),
    "I^2 R'/(4 pi k)", "textbook", TL_TRUST_A, centre_inputs, centre_outputs, run_centre },
  { NULL },
};
