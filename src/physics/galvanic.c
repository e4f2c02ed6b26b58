/* galvanic.c: what two metals do to each other where water bridges them.
 *
 * The step is a rule on figures of one series and one limit (class A), counted in whole millivolts since
 * 1.10 - 0.50 > 0.60 in doubles. Penetration and reach are orders of magnitude (class I).
 * Sources: IEC 60950-1 Annex J (potentials and limit from memory); Faraday's law; F. Mansfeld, Corrosion 27
 * (1971) 436 (catchment principle); C. Wagner's polarisation length (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

#define FARADAY_C_PER_MOL 96485.33212
#define SECONDS_PER_YEAR (365.25 * 86400.0)

static const char *const noble_words[] = { "rising", "falling", NULL };
static const char *const outcome_words[] = { "within", "marginal", "above", NULL };
static const char *const anode_words[] = { "none", "first", "second", NULL };
static const char *const severity_words[] = { "low", "moderate", "high", "severe", NULL };

enum
{
  WITHIN,
  MARGINAL,
  ABOVE
};
enum
{
  ANODE_NONE,
  ANODE_FIRST,
  ANODE_SECOND
};

static const TlFormulaInput step_inputs[] = {
  TL_FROM ("potential_1", "mV", -5000, 5000, TL_TREND_NEITHER,
           TL_N_ ("potential of the first face, rounded to whole millivolts")),
  TL_FROM ("potential_2", "mV", -5000, 5000, TL_TREND_NEITHER,
           TL_N_ ("potential of the second face, of the same series")),
  TL_ABOVE ("limit", "mV", 0, 5000, TL_TREND_RISES,
            TL_N_ ("limit of that series for the surroundings")),
  TL_WORD ("noble", noble_words,
           TL_N_ ("rising when the larger number of the series is the nobler, falling otherwise")),
  TL_MAYBE ("marginal_strip", "mV", 0, 1000, 50, TL_TREND_RISES,
            TL_N_ ("strip below the limit that counts as marginal")),
  { NULL },
};
static const TlFormulaOutput step_outputs[] = {
  { "difference", "mV" },           { "margin", "mV" }, { "outcome", "word", outcome_words },
  { "anode", "word", anode_words }, { NULL },
};

static gboolean
run_step (const double *in, double *out, GError **error)
{
  const long     first_mV = lround (in[0]), second_mV = lround (in[1]), limit_mV = lround (in[2]);
  const gboolean larger_is_nobler = in[3] < 0.5;
  const long     strip_mV = lround (in[4]);
  const long     difference_mV = labs (first_mV - second_mV);

  out[0] = (double) difference_mV;
  out[1] = (double) (limit_mV - difference_mV);
  out[2] = difference_mV > limit_mV               ? ABOVE
           : difference_mV >= limit_mV - strip_mV ? MARGINAL
                                                  : WITHIN;
  out[3] = first_mV == second_mV                        ? ANODE_NONE
           : (first_mV < second_mV) == larger_is_nobler ? ANODE_FIRST
                                                        : ANODE_SECOND;
  return TRUE;
}

static const TlFormulaInput faraday_inputs[] = {
  TL_ABOVE ("density", "A/m2", 0, 1e6, TL_TREND_RISES, TL_N_ ("current density on the anode")),
  TL_ABOVE ("molar_mass", "g/mol", 0, 500, TL_TREND_RISES, TL_N_ ("molar mass of the metal")),
  TL_FROM ("valence", "1", 1, 8, TL_TREND_FALLS, TL_N_ ("electrons that leave with one atom")),
  TL_ABOVE ("metal_density", "g/cm3", 0, 30, TL_TREND_FALLS, TL_N_ ("density of the metal")),
  TL_MAYBE_ABOVE ("thickness", "um", 0, 1e6, NAN, TL_TREND_RISES,
                  TL_N_ ("thickness of the coating, for its life")),
  { NULL },
};
static const TlFormulaOutput faraday_outputs[] = {
  { "rate", "mm/y" }, { "mass", "kg/A_y" }, { "charge", "C/m2" }, { "life", "h" }, { NULL },
};

static gboolean
run_faraday (const double *in, double *out, GError **error)
{
  const double density_A_per_m2 = in[0], molar_mass_g_per_mol = in[1], electrons = in[2];
  const double metal_g_per_m3 = in[3] * 1e6, thickness_um = in[4];
  const double g_per_C = molar_mass_g_per_mol / (electrons * FARADAY_C_PER_MOL);
  const double C_per_m2_of_1_um = metal_g_per_m3 * 1e-6 / g_per_C;

  out[0] = density_A_per_m2 * g_per_C / metal_g_per_m3 * SECONDS_PER_YEAR * 1e3;
  out[1] = g_per_C * SECONDS_PER_YEAR * 1e-3;
  out[2] = C_per_m2_of_1_um;
  out[3] = C_per_m2_of_1_um * thickness_um / density_A_per_m2 / 3600.0;
  return TRUE;
}

static const TlFormulaInput oxygen_inputs[] = {
  TL_ABOVE ("diffusion", "m2/s", 0, 1e-6, TL_TREND_RISES,
            TL_N_ ("diffusion coefficient of oxygen in water")),
  TL_FROM ("concentration", "mol/m3", 0, 50, TL_TREND_RISES, TL_N_ ("dissolved oxygen")),
  TL_ABOVE ("layer", "um", 0, 1e6, TL_TREND_FALLS,
            TL_N_ ("diffusion layer, or the film itself when thinner")),
  { NULL },
};
static const TlFormulaOutput oxygen_outputs[] = { { "density", "A/m2" }, { NULL } };

static gboolean
run_oxygen (const double *in, double *out, GError **error)
{
  const double diffusion_m2_per_s = in[0], concentration_mol_per_m3 = in[1], layer_m = in[2] * 1e-6;

  out[0] = 4.0 * FARADAY_C_PER_MOL * diffusion_m2_per_s * concentration_mol_per_m3 / layer_m;
  return TRUE;
}

static const TlFormulaInput wagner_inputs[] = {
  TL_ABOVE ("conductivity", "S/m", 0, 100, TL_TREND_RISES,
            TL_N_ ("conductivity of the water film")),
  TL_ABOVE ("film", "um", 0, 1e5, TL_TREND_RISES, TL_N_ ("thickness of the water film")),
  TL_ABOVE ("polarisation", "ohm_m2", 0, 1e3, TL_TREND_RISES, TL_N_ ("polarisation resistance")),
  { NULL },
};
static const TlFormulaOutput wagner_outputs[] = { { "length", "mm" }, { NULL } };

static gboolean
run_wagner (const double *in, double *out, GError **error)
{
  const double conductivity_S_per_m = in[0], film_m = in[1] * 1e-6, polarisation_ohm_m2 = in[2];

  out[0] = sqrt (conductivity_S_per_m * film_m * polarisation_ohm_m2) * 1e3;
  return TRUE;
}

static const TlFormulaInput area_inputs[] = {
  TL_ABOVE ("limiting_density", "A/m2", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("oxygen-limited current density")),
  TL_FROM ("cathode_area", "mm2", 0, 1e8, TL_TREND_RISES, TL_N_ ("wetted area of the cathode")),
  TL_ABOVE ("anode_area", "mm2", 0, 1e8, TL_TREND_FALLS, TL_N_ ("wetted area of the anode")),
  { NULL },
};
static const TlFormulaOutput area_outputs[] = {
  { "factor", "1" },
  { "anode_density", "A/m2" },
  { "galvanic_density", "A/m2" },
  { "galvanic_current", "mA" },
  { NULL },
};

static gboolean
run_area (const double *in, double *out, GError **error)
{
  const double limiting_A_per_m2 = in[0], cathode_mm2 = in[1], anode_mm2 = in[2];

  out[0] = 1.0 + cathode_mm2 / anode_mm2;
  out[1] = limiting_A_per_m2 * out[0];
  out[2] = limiting_A_per_m2 * cathode_mm2 / anode_mm2;
  out[3] = limiting_A_per_m2 * cathode_mm2 * 1e-3;
  return TRUE;
}

static const TlFormulaInput penetration_inputs[] = {
  TL_ABOVE ("limiting_density", "A/m2", 0, 1e4, TL_TREND_RISES,
            TL_N_ ("oxygen-limited current density")),
  TL_FROM ("cathode_area", "mm2", 0, 1e8, TL_TREND_RISES, TL_N_ ("wetted strip of the cathode")),
  TL_ABOVE ("anode_area", "mm2", 0, 1e8, TL_TREND_FALLS, TL_N_ ("wetted strip of the anode")),
  TL_FROM ("cathode_quality", "1", 0, 1, TL_TREND_RISES,
           TL_N_ ("how well the cathode metal reduces oxygen, copper 1")),
  TL_FROM ("faraday_rate", "mm/y", 0, 100, TL_TREND_RISES,
           TL_N_ ("rate of the anode metal at 1 A/m²")),
  TL_FROM ("wet_hours", "h", 0, 8784, TL_TREND_RISES, TL_N_ ("wet hours in a year")),
  TL_FROM ("seal_factor", "1", 0, 2, TL_TREND_RISES,
           TL_N_ ("share of the wet time that reaches the interface")),
  TL_MAYBE_ABOVE ("life", "y", 0, 200, 20, TL_TREND_RISES,
                  TL_N_ ("life that the joint is made for")),
  TL_MAYBE_ABOVE ("critical_depth", "um", 0, 1e5, 50, TL_TREND_RISES,
                  TL_N_ ("depth that ends the contact")),
  { NULL },
};
static const TlFormulaOutput penetration_outputs[] = { { "rate", "um/y" },
                                                       { "severity", "word", severity_words },
                                                       { NULL } };

static gboolean
run_penetration (const double *in, double *out, GError **error)
{
  const double limiting_A_per_m2 = in[0], cathode_mm2 = in[1], anode_mm2 = in[2], quality = in[3];
  const double faraday_um_per_year = in[4] * 1e3, wet_hours = in[5], seal_factor = in[6];
  const double life_years = in[7], critical_um = in[8];
  const double rate_um_per_year = faraday_um_per_year * limiting_A_per_m2 * quality * cathode_mm2
                                  / anode_mm2 * wet_hours / 8760.0 * seal_factor;
  const double depth_um = rate_um_per_year * life_years;

  out[0] = rate_um_per_year;
  out[1] = 10.0 * depth_um < critical_um   ? 0
           : depth_um < critical_um        ? 1
           : depth_um / 10.0 < critical_um ? 2
                                           : 3;
  return TRUE;
}

const TlFormula tl_galvanic_formulas[] = {
  { "galvanic-step",
    TL_N_ ("Potential difference between two faces, against the limit of its series"),
    "difference = |E1 - E2|; margin = limit - difference; outcome above when difference > limit, "
    "marginal from limit - strip up to "
    "and equal to the limit, within below that; anode = the baser face",
    "rule of the series that potentials and limit are taken from (IEC 60950-1 Annex J; MIL-type "
    "anodic index)",
    TL_TRUST_A, step_inputs, step_outputs, run_step },
  { "faraday-penetration", TL_N_ ("Metal lost to a current"),
    "rate = i M/(n F d); mass = M/(n F) per ampere and year; charge = charge to remove 1 um per "
    "m2; life = charge x thickness/i; "
    "year of 365.25 d",
    "Faraday's law; ASTM G102 (constant from memory)", TL_TRUST_A, faraday_inputs, faraday_outputs,
    run_faraday },
  { "oxygen-limit", TL_N_ ("Current density limited by the supply of oxygen"), "i = 4 F D c/delta",
    "textbook of corrosion (from memory)", TL_TRUST_I, oxygen_inputs, oxygen_outputs, run_oxygen },
  { "wagner-length", TL_N_ ("Reach of a couple along a water film"), "length = sqrt(kappa t b)",
    "C. Wagner, polarisation length (from memory)", TL_TRUST_I, wagner_inputs, wagner_outputs,
    run_wagner },
  { "area-ratio", TL_N_ ("Effect of the areas of cathode and anode"),
    "factor = 1 + Ac/Aa; anode_density = i_L factor; galvanic_density = i_L Ac/Aa; "
    "galvanic_current = i_L Ac",
    "catchment principle: F. Mansfeld, Corrosion 27 (1971) 436 (abstract seen)", TL_TRUST_I,
    area_inputs, area_outputs, run_area },
  { "galvanic-penetration", TL_N_ ("Depth of galvanic attack in a year, within a factor of ten"),
    "v = K_F i_L q Ac/Aa x wet/8760 x seal; severity low while 10 v life < depth, moderate while v "
    "life < depth, high while "
    "v life/10 < depth, else severe",
    "Faraday's law with oxygen-limited current; shares are choices, no published source",
    TL_TRUST_I, penetration_inputs, penetration_outputs, run_penetration },
  { NULL },
};
