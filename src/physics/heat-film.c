/* heat-film.c: how air takes heat from a cylinder: natural convection and radiation.
 *
 * The published rules for thin wires differ by about 20 %: the rule is named in the formula's id, and
 * its range of Rayleigh numbers in its equation.
 * Sources: Churchill and Chu 1975; Morgan and McAdams in Incropera and DeWitt, Fundamentals of Heat and
 * Mass Transfer, chapter 9 and Table A.4 (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include "heat-private.h"

const char *const tl_film_rule_words[] = { "churchill-chu", "morgan", "quarter-power", NULL };

/* --- air --- */

static double
on_line (double temperature_K, const double at_300_350_400[3])
{
  const guint  piece = temperature_K < 350.0 ? 0 : 1;
  const double share = (temperature_K - (300.0 + 50.0 * piece)) / 50.0;

  return at_300_350_400[piece] + share * (at_300_350_400[piece + 1] - at_300_350_400[piece]);
}

TlAir
tl_heat_air (double temperature_C)
{
  /* Incropera and DeWitt, Table A.4 (from memory) */
  static const double viscosity[] = { 15.89e-6, 20.92e-6, 26.41e-6 };
  static const double conductivity[] = { 0.0263, 0.0300, 0.0338 };
  static const double diffusivity[] = { 22.5e-6, 29.9e-6, 38.3e-6 };
  static const double prandtl[] = { 0.707, 0.700, 0.690 };
  const double        temperature_K = temperature_C + TL_ZERO_C_K;

  return (TlAir){
    .viscosity_m2_per_s = on_line (temperature_K, viscosity),
    .conductivity_W_per_mK = on_line (temperature_K, conductivity),
    .diffusivity_m2_per_s = on_line (temperature_K, diffusivity),
    .prandtl = on_line (temperature_K, prandtl),
  };
}

static double
churchill_chu (double rayleigh, double prandtl)
{
  const double correction = pow (1.0 + pow (0.559 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const double root = 0.60 + 0.387 * pow (rayleigh, 1.0 / 6.0) / correction;

  return root * root;
}

static double
morgan (double rayleigh)
{
  static const struct
  {
    double up_to, factor, exponent;
  } pieces[] = {
    { 1e-2, 0.675, 0.058 }, { 1e2, 1.02, 0.148 },          { 1e4, 0.850, 0.188 },
    { 1e7, 0.480, 0.250 },  { G_MAXDOUBLE, 0.125, 0.333 },
  };
  guint i = 0;

  while (rayleigh > pieces[i].up_to)
    i++;
  return pieces[i].factor * pow (rayleigh, pieces[i].exponent);
}

double
tl_heat_nusselt (TlFilmRule rule, double rayleigh, double prandtl)
{
  switch (rule)
    {
    case TL_FILM_CHURCHILL_CHU:
      return churchill_chu (rayleigh, prandtl);
    case TL_FILM_MORGAN:
      return morgan (rayleigh);
    case TL_FILM_QUARTER_POWER:
      return 0.53 * sqrt (sqrt (rayleigh));
    }
  g_return_val_if_reached (0.0);
}

static double
rayleigh_of (const TlAir *air, double expansion_per_K, double gravity_m_per_s2, double diameter_m,
             double rise_K)
{
  return gravity_m_per_s2 * expansion_per_K * fabs (rise_K) * diameter_m * diameter_m * diameter_m
         / (air->viscosity_m2_per_s * air->diffusivity_m2_per_s);
}

double
tl_heat_radiation_W_per_m (double emissivity, double diameter_m, double surface_C,
                           double surroundings_C)
{
  const double hot_K = surface_C + TL_ZERO_C_K, cold_K = surroundings_C + TL_ZERO_C_K;

  return emissivity * TL_STEFAN_BOLTZMANN * G_PI * diameter_m
         * (hot_K * hot_K * hot_K * hot_K - cold_K * cold_K * cold_K * cold_K);
}

double
tl_heat_still_air_W_per_m (TlFilmRule rule, double diameter_m, double surface_C, double ambient_C,
                           double emissivity)
{
  const double film_C = 0.5 * (surface_C + ambient_C), rise_K = surface_C - ambient_C;
  const TlAir  air = tl_heat_air (film_C);
  const double rayleigh =
      rayleigh_of (&air, 1.0 / (film_C + TL_ZERO_C_K), TL_GRAVITY_M_PER_S2, diameter_m, rise_K);

  return tl_heat_nusselt (rule, rayleigh, air.prandtl) * air.conductivity_W_per_mK * G_PI * rise_K
         + tl_heat_radiation_W_per_m (emissivity, diameter_m, surface_C, ambient_C);
}

/* --- formulas --- */

static const TlFormulaInput air_inputs[] = {
  TL_FROM ("temperature", "degC", -60, 230, TL_TREND_RISES, TL_N_ ("temperature of the film")),
  { NULL },
};
static const TlFormulaOutput air_outputs[] = {
  { "viscosity", "m2/s" },
  { "conductivity", "W/mK" },
  { "diffusivity", "m2/s" },
  { "prandtl", "1" },
  { NULL },
};

static gboolean
run_air (const double *in, double *out, GError **error)
{
  const TlAir air = tl_heat_air (in[0]);

  out[0] = air.viscosity_m2_per_s;
  out[1] = air.conductivity_W_per_mK;
  out[2] = air.diffusivity_m2_per_s;
  out[3] = air.prandtl;
  return TRUE;
}

static const TlFormulaInput cylinder_inputs[] = {
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("diameter of the cylinder")),
  TL_FROM ("surface", "degC", -200, 2000, TL_TREND_NEITHER, TL_N_ ("temperature of the surface")),
  TL_FROM ("ambient", "degC", -100, 1000, TL_TREND_NEITHER, TL_N_ ("temperature of the air")),
  TL_ABOVE ("viscosity", "m2/s", 0, 1, TL_TREND_FALLS,
            TL_N_ ("kinematic viscosity of the air at the film temperature")),
  TL_ABOVE ("conductivity", "W/mK", 0, 10, TL_TREND_NEITHER,
            TL_N_ ("thermal conductivity of the air")),
  TL_ABOVE ("diffusivity", "m2/s", 0, 1, TL_TREND_FALLS, TL_N_ ("thermal diffusivity of the air")),
  TL_ABOVE ("prandtl", "1", 0, 100, TL_TREND_NEITHER, TL_N_ ("Prandtl number of the air")),
  TL_ABOVE ("expansion", "1/K", 0, 0.1, TL_TREND_RISES, TL_N_ ("thermal expansion of the air")),
  TL_MAYBE_ABOVE ("gravity", "m/s2", 0, 100, TL_GRAVITY_M_PER_S2, TL_TREND_RISES,
                  TL_N_ ("gravity")),
  { NULL },
};
static const TlFormulaOutput cylinder_outputs[] = {
  { "rayleigh", "1" }, { "nusselt", "1" }, { "film", "W/m2K" }, { "loss", "W/m" }, { NULL },
};

static gboolean
run_cylinder (TlFilmRule rule, const double *in, double *out)
{
  const double diameter_m = in[0] * 1e-3, rise_K = in[1] - in[2];
  const TlAir  air = { in[3], in[4], in[5], in[6] };

  out[0] = rayleigh_of (&air, in[7], in[8], diameter_m, rise_K);
  out[1] = tl_heat_nusselt (rule, out[0], air.prandtl);
  out[2] = out[1] * air.conductivity_W_per_mK / diameter_m;
  out[3] = out[2] * G_PI * diameter_m * rise_K;
  return TRUE;
}

static gboolean
run_churchill_chu (const double *in, double *out, GError **error)
{
  return run_cylinder (TL_FILM_CHURCHILL_CHU, in, out);
}

static gboolean
run_morgan (const double *in, double *out, GError **error)
{
  return run_cylinder (TL_FILM_MORGAN, in, out);
}

static gboolean
run_quarter_power (const double *in, double *out, GError **error)
{
  return run_cylinder (TL_FILM_QUARTER_POWER, in, out);
}

static const TlFormulaInput power_inputs[] = {
  TL_FROM ("constant", "1", 0, 1e6, TL_TREND_RISES, TL_N_ ("constant C in SI units")),
  TL_FROM ("exponent", "1", 0, 1, TL_TREND_NEITHER, TL_N_ ("exponent n")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_FALLS, TL_N_ ("size of the surface")),
  TL_FROM ("rise", "K", 0, 3000, TL_TREND_RISES, TL_N_ ("surface over air")),
  { NULL },
};
static const TlFormulaOutput power_outputs[] = { { "film", "W/m2K" }, { "loss", "W/m" }, { NULL } };

static gboolean
run_power (const double *in, double *out, GError **error)
{
  const double constant = in[0], exponent = in[1], diameter_m = in[2] * 1e-3, rise_K = in[3];

  out[0] = constant * (exponent > 0.0 ? pow (rise_K / diameter_m, exponent) : 1.0);
  out[1] = out[0] * G_PI * diameter_m * rise_K;
  return TRUE;
}

static const TlFormulaInput cable_inputs[] = {
  TL_ABOVE ("outside_diameter", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("diameter of the cable")),
  TL_FROM ("z", "1", 0, 10, TL_TREND_RISES, TL_N_ ("constant Z")),
  TL_FROM ("e", "1", 0, 100, TL_TREND_RISES, TL_N_ ("constant E")),
  TL_FROM ("g", "1", 0, 2, TL_TREND_NEITHER, TL_N_ ("exponent g")),
  TL_MAYBE ("rise", "K", 0, 1000, 0, TL_TREND_NEITHER, TL_N_ ("surface over air")),
  { NULL },
};
static const TlFormulaOutput cable_outputs[] = { { "film", "W/m2K1.25" },
                                                 { "loss", "W/m" },
                                                 { NULL } };

static gboolean
run_cable (const double *in, double *out, GError **error)
{
  const double outside_m = in[0] * 1e-3, z = in[1], e = in[2], g = in[3], rise_K = in[4];

  out[0] = z / pow (outside_m, g) + e;
  out[1] = G_PI * outside_m * out[0] * rise_K * sqrt (sqrt (rise_K));
  return TRUE;
}

static const TlFormulaInput radiation_inputs[] = {
  TL_FROM ("emissivity", "1", 0, 1, TL_TREND_NEITHER, TL_N_ ("emissivity of the surface")),
  TL_ABOVE ("diameter", "mm", 0, 1e4, TL_TREND_NEITHER, TL_N_ ("diameter of the cylinder")),
  TL_FROM ("surface", "degC", -273, 3000, TL_TREND_RISES, TL_N_ ("temperature of the surface")),
  TL_FROM ("surroundings", "degC", -273, 3000, TL_TREND_FALLS,
           TL_N_ ("temperature of the large surroundings")),
  { NULL },
};
static const TlFormulaOutput radiation_outputs[] = { { "loss", "W/m" }, { NULL } };

static gboolean
run_radiation (const double *in, double *out, GError **error)
{
  out[0] = tl_heat_radiation_W_per_m (in[0], in[1] * 1e-3, in[2], in[3]);
  return TRUE;
}

const TlFormula tl_heat_film_formulas[] = {
  { "air-properties", TL_N_ ("Air at a temperature"),
    "1 atm; straight lines between 300, 350 and 400 K, the outer lines carried on",
    "Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, Table A.4 (from memory)",
    TL_TRUST_A, air_inputs, air_outputs, run_air },
  { "convection-horizontal-cylinder-churchill-chu",
    TL_N_ ("Convection from a horizontal cylinder, Churchill and Chu"),
    "Ra = g beta dT D^3/(nu alpha); Nu = (0.60 + 0.387 Ra^(1/6)/(1 + (0.559/Pr)^(9/16))^(8/27))^2; "
    "film = Nu k/D; "
    "loss = film pi D dT; for Ra from 1e-5 to 1e12",
    "Churchill and Chu 1975 (form seen on a secondary page; range from memory)", TL_TRUST_B,
    cylinder_inputs, cylinder_outputs, run_churchill_chu },
  { "convection-horizontal-cylinder-morgan",
    TL_N_ ("Convection from a horizontal cylinder, Morgan"),
    "Nu = C Ra^n; up to Ra 1e-2: 0.675, 0.058; 1e2: 1.02, 0.148; 1e4: 0.850, 0.188; 1e7: 0.480, "
    "0.250; 1e12: 0.125, 0.333",
    "Morgan, in Incropera and DeWitt ch. 9 (from memory)", TL_TRUST_B, cylinder_inputs,
    cylinder_outputs, run_morgan },
  { "convection-horizontal-cylinder-quarter-power",
    TL_N_ ("Convection from a horizontal cylinder, quarter power"),
    "Nu = 0.53 Ra^0.25; for Ra from 1e4 to 1e9, thin wires lie below it",
    "McAdams (rule seen on a secondary page; range from memory)", TL_TRUST_B, cylinder_inputs,
    cylinder_outputs, run_quarter_power },
  { "convection-power-law", TL_N_ ("Film of still air as a power of the rise"),
    "film = C (dT/D)^n with D in metres; loss = film pi D dT; n = 0 makes C the film itself",
    "horizontal cylinder in still air C = 1.32, n = 0.25 (from memory)", TL_TRUST_B, power_inputs,
    power_outputs, run_power },
  { "convection-iec-60287", TL_N_ ("Film of a cable in free air"),
    "film = Z/De^g + E with De in metres, radiation of a black cable included; loss = pi De film "
    "dT^1.25",
    "IEC 60287-2-1 (from memory)", TL_TRUST_B, cable_inputs, cable_outputs, run_cable },
  { "radiation-loss", TL_N_ ("Radiation of a cylinder in large surroundings"),
    "eps sigma pi D (T^4 - Ts^4) in kelvin", "Stefan-Boltzmann law", TL_TRUST_A, radiation_inputs,
    radiation_outputs, run_radiation },
  { NULL },
};
