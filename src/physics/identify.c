/* identify.c: what a found wire is, from what a rule, a scale and an ohmmeter say of it.
 *
 * Weight of a length gives a density, resistance of a length a resistivity; the product of the two needs no section
 * at all, so that a doubtful diameter cannot hide the metal.
 * Sources: geometry; IEC 60028 (mass resistivity of copper); first-order propagation (GUM).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

#define LAY_MOST 1.2

/* Length of a strand over that of the wire that it lies in. */
#define LAY                                                                                        \
  TL_MAYBE ("lay", "1", 1, LAY_MOST, 1, TL_TREND_FALLS,                                            \
            TL_N_ ("length of a strand over that of the wire"))
#define TEMPERATURE                                                                                \
  TL_MAYBE ("temperature", "degC", -60, 300, 20, TL_TREND_FALLS,                                   \
            TL_N_ ("temperature of the wire when it was measured"))
#define COEFFICIENT                                                                                \
  TL_MAYBE ("coefficient", "1/K", 0, 0.01, 0.00393, TL_TREND_NEITHER,                              \
            TL_N_ ("temperature coefficient at 20 °C"))

static const TlFormulaInput section_inputs[] = {
  TL_ABOVE ("diameter", "mm", 0, 1e3, TL_TREND_RISES,
            TL_N_ ("diameter of the bare wire or strand")),
  TL_COUNT ("strands", 1e4, 1, TL_N_ ("number of strands, 1 for a solid wire")),
  TL_MAYBE ("uncertainty", "mm", 0, 1e2, 0, TL_TREND_NEITHER,
            TL_N_ ("standard uncertainty of the diameter")),
  { NULL },
};
static const TlFormulaOutput section_outputs[] = { { "section", "mm2" },
                                                   { "uncertainty", "mm2" },
                                                   { NULL } };

/* One gauge measured every strand, so that its error does not average out over them. */
static gboolean
run_section (const double *in, double *out, GError **error)
{
  const double diameter_mm = in[0], strands = in[1], uncertainty_mm = in[2];

  if (strands < 1.0)
    return tl_formula_refuse (error, _ ("a wire has no strand; the least is 1"));
  out[0] = strands * G_PI / 4.0 * diameter_mm * diameter_mm;
  out[1] = strands * G_PI / 2.0 * diameter_mm * uncertainty_mm;
  return TRUE;
}

static const TlFormulaInput mass_inputs[] = {
  TL_ABOVE ("density", "g/cm3", 0, 30, TL_TREND_RISES, TL_N_ ("density")),
  TL_ABOVE ("section", "mm2", 0, 1e5, TL_TREND_RISES, TL_N_ ("section of the metal")),
  TL_ABOVE ("length", "m", 0, 1e6, TL_TREND_RISES, TL_N_ ("length of the wire")),
  TL_MAYBE ("lay", "1", 1, LAY_MOST, 1, TL_TREND_RISES,
            TL_N_ ("length of a strand over that of the wire")),
  { NULL },
};
static const TlFormulaOutput mass_outputs[] = { { "mass", "g" }, { NULL } };

/* g/cm³ times mm² times m is g. */
static gboolean
run_mass (const double *in, double *out, GError **error)
{
  out[0] = in[0] * in[1] * in[2] * in[3];
  return TRUE;
}

static const TlFormulaInput density_inputs[] = {
  TL_ABOVE ("mass", "g", 0, 1e9, TL_TREND_RISES, TL_N_ ("weight of the bare metal")),
  TL_ABOVE ("length", "m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("length of the wire")),
  TL_ABOVE ("section", "mm2", 0, 1e5, TL_TREND_FALLS, TL_N_ ("section of the metal")),
  LAY,
  { NULL },
};
static const TlFormulaOutput density_outputs[] = { { "density", "g/cm3" }, { NULL } };

static gboolean
run_density (const double *in, double *out, GError **error)
{
  out[0] = in[0] / (in[1] * in[2] * in[3]);
  return TRUE;
}

/* Resistance at 20 °C, in ohm. */
static double
cold_ohm (double resistance_mohm, double temperature_C, double coefficient_per_K)
{
  return resistance_mohm * 1e-3 / (1.0 + coefficient_per_K * (temperature_C - 20.0));
}

static const TlFormulaInput resistivity_inputs[] = {
  TL_ABOVE ("resistance", "mohm", 0, 1e9, TL_TREND_RISES, TL_N_ ("resistance of the length")),
  TL_ABOVE ("length", "m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("length of the wire")),
  TL_ABOVE ("section", "mm2", 0, 1e5, TL_TREND_RISES, TL_N_ ("section of the metal")),
  TEMPERATURE,
  COEFFICIENT,
  LAY,
  { NULL },
};
static const TlFormulaOutput resistivity_outputs[] = { { "resistivity", "ohm_mm2/m" }, { NULL } };

static gboolean
run_resistivity (const double *in, double *out, GError **error)
{
  out[0] = cold_ohm (in[0], in[3], in[4]) * in[2] / (in[1] * in[5]);
  return TRUE;
}

static const TlFormulaInput product_inputs[] = {
  TL_ABOVE ("resistance", "mohm", 0, 1e9, TL_TREND_RISES, TL_N_ ("resistance of the length")),
  TL_ABOVE ("mass", "g", 0, 1e9, TL_TREND_RISES, TL_N_ ("weight of the same length, bare")),
  TL_ABOVE ("length", "m", 0, 1e6, TL_TREND_FALLS, TL_N_ ("length of the wire")),
  TEMPERATURE,
  COEFFICIENT,
  LAY,
  { NULL },
};
static const TlFormulaOutput product_outputs[] = { { "mass_resistivity", "ohm_g/m2" }, { NULL } };

static gboolean
run_product (const double *in, double *out, GError **error)
{
  const double mass_g = in[1], strand_m = in[2] * in[5];

  out[0] = cold_ohm (in[0], in[3], in[4]) * mass_g / (strand_m * strand_m);
  return TRUE;
}

static const TlFormulaInput clad_inputs[] = {
  TL_FROM ("share", "1", 0, 1, TL_TREND_NEITHER, TL_N_ ("share of the section that is cladding")),
  TL_ABOVE ("density_core", "g/cm3", 0, 30, TL_TREND_RISES, TL_N_ ("density of the core")),
  TL_ABOVE ("density_clad", "g/cm3", 0, 30, TL_TREND_RISES, TL_N_ ("density of the cladding")),
  TL_ABOVE ("resistivity_core", "ohm_mm2/m", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("resistivity of the core")),
  TL_ABOVE ("resistivity_clad", "ohm_mm2/m", 0, 1e4, TL_TREND_NEITHER,
            TL_N_ ("resistivity of the cladding")),
  { NULL },
};
static const TlFormulaOutput clad_outputs[] = { { "density", "g/cm3" },
                                                { "resistivity", "ohm_mm2/m" },
                                                { NULL } };

static gboolean
run_clad (const double *in, double *out, GError **error)
{
  const double share = in[0];

  out[0] = (1.0 - share) * in[1] + share * in[2];
  out[1] = 1.0 / ((1.0 - share) / in[3] + share / in[4]);
  return TRUE;
}

const TlFormula tl_identify_formulas[] = {
  { "section-from-diameter", TL_N_ ("Section of a wire from its diameter or that of its strands"),
    "S = n pi d^2/4; u(S) = n pi d u(d)/2", "geometry; first-order propagation (GUM)", TL_TRUST_A,
    section_inputs, section_outputs, run_section },
  { "conductor-mass", TL_N_ ("Weight of a length of conductor"), "m = density S l lay",
    "geometry; density of copper 8.89 in IEC 60028 (seen)", TL_TRUST_A, mass_inputs, mass_outputs,
    run_mass },
  { "density-from-weight", TL_N_ ("Density of a wire from the weight of a length"),
    "density = m/(S l lay)", "geometry", TL_TRUST_A, density_inputs, density_outputs, run_density },
  { "resistivity-from-resistance", TL_N_ ("Resistivity of a wire from the resistance of a length"),
    "rho20 = R/(1 + a (t - 20)) S/(l lay)", "Ohm; linear correction as in IEC 60028 (seen)",
    TL_TRUST_A, resistivity_inputs, resistivity_outputs, run_resistivity },
  { "mass-resistivity", TL_N_ ("Resistivity times density, without a section"),
    "rho20 density = R/(1 + a (t - 20)) m/(l lay)^2",
    "IEC 60028: 0.15328 ohm g/m2 for copper (seen)", TL_TRUST_A, product_inputs, product_outputs,
    run_product },
  { "clad-wire", TL_N_ ("Density and resistivity of a clad wire"),
    "density by shares of the section; 1/rho = (1 - v)/core + v/clad",
    "rule of mixtures, conductors in parallel; ASTM B566 densities (from memory)", TL_TRUST_B,
    clad_inputs, clad_outputs, run_clad },
  { NULL },
};
