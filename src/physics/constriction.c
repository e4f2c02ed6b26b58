/* constriction.c: the resistance of a place where two metals meet, and how warm it gets.
 *
 * The classic factor of two: rho/2a already covers both halves of one metal; two metals take their mean.
 * Hardness is that of the softer side. The voltage-temperature relation holds in kelvin and only for metal
 * on metal.
 * Sources: R. Holm, Electric Contacts; R. S. Timsit, connector newsletter May 2001 (seen); Greenwood's
 * cluster term (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

/* ohm mm2/m over mm gives 1e-3 ohm; results are in micro-ohm. */
#define UOHM_PER_OHM_MM2_PER_M_MM 1e3
/* ohm m2 over mm2 gives 1e6 ohm; results are in micro-ohm. */
#define UOHM_PER_OHM_M2_PER_MM2 1e12

#define RESISTIVITY(input, says) TL_ABOVE (input, "ohm_mm2/m", 0, 1e4, TL_TREND_RISES, says)

static double
face_resistance_uohm (double resistivity_1, double resistivity_2, double spot_radius_mm)
{
  return UOHM_PER_OHM_MM2_PER_M_MM * (resistivity_1 + resistivity_2) / (4.0 * spot_radius_mm);
}

static const TlFormulaInput holm_inputs[] = {
  RESISTIVITY ("resistivity_1", TL_N_ ("resistivity of the first metal")),
  RESISTIVITY ("resistivity_2", TL_N_ ("resistivity of the second metal")),
  TL_ABOVE ("spot_radius", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("radius of the one round spot")),
  { NULL },
};
static const TlFormulaOutput holm_outputs[] = { { "resistance", "uohm" }, { NULL } };

static gboolean
run_holm (const double *in, double *out, GError **error)
{
  out[0] = face_resistance_uohm (in[0], in[1], in[2]);
  return TRUE;
}

static const TlFormulaInput holm_force_inputs[] = {
  RESISTIVITY ("resistivity_1", TL_N_ ("resistivity of the first metal")),
  RESISTIVITY ("resistivity_2", TL_N_ ("resistivity of the second metal")),
  TL_ABOVE ("force", "N", 0, 1e7, TL_TREND_FALLS, TL_N_ ("contact force")),
  TL_ABOVE ("hardness", "MPa", 0, 1e5, TL_TREND_RISES,
            TL_N_ ("contact hardness of the softer metal")),
  TL_MAYBE_ABOVE ("flatness", "1", 0, 1, 1, TL_TREND_RISES,
                  TL_N_ ("share of the hardness that the spots bear")),
  { NULL },
};
static const TlFormulaOutput holm_force_outputs[] = { { "resistance", "uohm" },
                                                      { "spot_radius", "mm" },
                                                      { NULL } };

static gboolean
run_holm_force (const double *in, double *out, GError **error)
{
  const double force_N = in[2], hardness_MPa = in[3], flatness = in[4];

  out[1] = sqrt (force_N / (G_PI * flatness * hardness_MPa));
  out[0] = face_resistance_uohm (in[0], in[1], out[1]);
  return TRUE;
}

static const TlFormulaInput greenwood_inputs[] = {
  TL_FROM ("spots", "1", 1, 1e9, TL_TREND_FALLS, TL_N_ ("number of equal spots")),
  TL_ABOVE ("spot_radius", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("radius of each spot")),
  TL_MAYBE ("resistivity_1", "ohm_mm2/m", 0, 1e4, 0, TL_TREND_RISES,
            TL_N_ ("resistivity of the first metal")),
  TL_MAYBE ("resistivity_2", "ohm_mm2/m", 0, 1e4, 0, TL_TREND_RISES,
            TL_N_ ("resistivity of the second metal")),
  TL_MAYBE_ABOVE ("cluster_radius", "mm", 0, 1e4, NAN, TL_TREND_FALLS,
                  TL_N_ ("radius of the cluster of spots")),
  TL_MAYBE ("film_resistivity", "ohm_m2", 0, 1, 0, TL_TREND_RISES,
            TL_N_ ("resistance of the film times its area")),
  { NULL },
};
static const TlFormulaOutput greenwood_outputs[] = { { "resistance", "uohm" },
                                                     { "film", "uohm" },
                                                     { NULL } };

static gboolean
run_greenwood (const double *in, double *out, GError **error)
{
  const double spots = in[0], spot_radius_mm = in[1], resistivity = (in[2] + in[3]) / 2.0;
  const double cluster_radius_mm = in[4], film_ohm_m2 = in[5];
  const double cluster = isnan (cluster_radius_mm) ? 0.0 : resistivity / (2.0 * cluster_radius_mm);

  out[0] = UOHM_PER_OHM_MM2_PER_M_MM * (resistivity / (2.0 * spots * spot_radius_mm) + cluster);
  out[1] = UOHM_PER_OHM_M2_PER_MM2 * film_ohm_m2 / (spots * G_PI * spot_radius_mm * spot_radius_mm);
  return TRUE;
}

static const TlFormulaInput interface_inputs[] = {
  RESISTIVITY ("resistivity_1", TL_N_ ("resistivity of the first metal")),
  RESISTIVITY ("resistivity_2", TL_N_ ("resistivity of the second metal")),
  TL_ABOVE ("force", "N", 0, 1e7, TL_TREND_FALLS, TL_N_ ("contact force")),
  TL_ABOVE ("hardness", "MPa", 0, 1e5, TL_TREND_RISES,
            TL_N_ ("contact hardness of the softer metal")),
  TL_ABOVE ("contact_area", "mm2", 0, 1e7, TL_TREND_FALLS, TL_N_ ("face that is pressed")),
  TL_ABOVE ("metallic_share", "1", 0, 1, TL_TREND_FALLS,
            TL_N_ ("share of the bearing spots that is bare metal")),
  TL_FROM ("spots", "1", 1, 1e9, TL_TREND_FALLS, TL_N_ ("number of spots")),
  TL_MAYBE ("film_resistivity", "ohm_m2", 0, 1, 0, TL_TREND_RISES,
            TL_N_ ("resistance of the film times its area")),
  { NULL },
};
static const TlFormulaOutput interface_outputs[] = {
  { "spots_term", "uohm" },
  { "cluster_term", "uohm" },
  { "film_term", "uohm" },
  { "resistance", "uohm" },
  { NULL },
};

static gboolean
run_interface (const double *in, double *out, GError **error)
{
  const double resistivity = (in[0] + in[1]) / 2.0, force_N = in[2], hardness_MPa = in[3];
  const double contact_mm2 = in[4], metallic_share = in[5], spots = in[6], film_ohm_m2 = in[7];
  const double bearing_mm2 = MIN (force_N / hardness_MPa, 0.5 * contact_mm2);
  const double spot_radius_mm = sqrt (metallic_share * bearing_mm2 / (spots * G_PI));

  out[0] = UOHM_PER_OHM_MM2_PER_M_MM * resistivity / (2.0 * spots * spot_radius_mm);
  out[1] = UOHM_PER_OHM_MM2_PER_M_MM * resistivity / (2.0 * 0.9 * sqrt (contact_mm2 / G_PI));
  out[2] = UOHM_PER_OHM_M2_PER_MM2 * film_ohm_m2 / bearing_mm2;
  out[3] = out[0] + out[1] + out[2];
  return TRUE;
}

static const TlFormulaInput exponent_inputs[] = {
  TL_ABOVE ("remaining", "1", 0, 1, TL_TREND_FALLS, TL_N_ ("share of the force that is left")),
  TL_FROM ("exponent", "1", 0, 2, TL_TREND_RISES,
           TL_N_ ("m of R = c F^-m, 0.1 to 1 measured on aluminium")),
  TL_MAYBE_ABOVE ("force", "N", 0, 1e7, NAN, TL_TREND_RISES, TL_N_ ("force at first")),
  { NULL },
};
static const TlFormulaOutput exponent_outputs[] = { { "resistance_ratio", "1" },
                                                    { "force_left", "N" },
                                                    { NULL } };

static gboolean
run_exponent (const double *in, double *out, GError **error)
{
  const double remaining = in[0], exponent = in[1], force_N = in[2];

  out[0] = pow (remaining, -exponent);
  out[1] = force_N * remaining;
  return TRUE;
}

static const TlFormulaInput voltage_inputs[] = {
  TL_FROM ("contact_voltage", "mV", 0, 1e4, TL_TREND_RISES, TL_N_ ("voltage over the contact")),
  TL_FROM ("bulk", "degC", -100, 1500, TL_TREND_RISES, TL_N_ ("temperature of the bodies")),
  TL_FROM ("lorenz", "V2/K2", 1e-9, 1e-6, TL_TREND_FALLS, TL_N_ ("Lorenz number")),
  { NULL },
};
static const TlFormulaOutput voltage_outputs[] = { { "spot", "degC" }, { NULL } };

static gboolean
run_voltage (const double *in, double *out, GError **error)
{
  const double voltage_V = in[0] * 1e-3, bulk_K = in[1] + TL_ZERO_C_K, lorenz = in[2];

  out[0] = sqrt (bulk_K * bulk_K + voltage_V * voltage_V / (4.0 * lorenz)) - TL_ZERO_C_K;
  return TRUE;
}

static const TlFormulaInput wiedemann_inputs[] = {
  TL_ABOVE ("resistivity", "ohm_mm2/m", 0, 1e4, TL_TREND_FALLS,
            TL_N_ ("resistivity at the temperature")),
  TL_FROM ("temperature", "degC", -270, 3000, TL_TREND_RISES, TL_N_ ("temperature of the metal")),
  TL_FROM ("lorenz", "V2/K2", 1e-9, 1e-6, TL_TREND_RISES, TL_N_ ("Lorenz number")),
  TL_MAYBE_ABOVE ("conductivity", "W/mK", 0, 1e4, NAN, TL_TREND_RISES,
                  TL_N_ ("handbook thermal conductivity, for lorenz_found")),
  { NULL },
};
static const TlFormulaOutput wiedemann_outputs[] = {
  { "conductivity_from_resistivity", "W/mK" },
  { "lorenz_found", "V2/K2" },
  { NULL },
};

static gboolean
run_wiedemann (const double *in, double *out, GError **error)
{
  const double resistivity_ohm_m = in[0] * 1e-6, temperature_K = in[1] + TL_ZERO_C_K,
               lorenz = in[2];
  const double conductivity_W_per_mK = in[3];

  out[0] = lorenz * temperature_K / resistivity_ohm_m;
  out[1] = conductivity_W_per_mK * resistivity_ohm_m / temperature_K;
  return TRUE;
}

static const TlFormulaInput lap_inputs[] = {
  TL_ABOVE ("resistance_1", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("first conductor by length")),
  TL_ABOVE ("resistance_2", "mohm/m", 0, 1e6, TL_TREND_RISES, TL_N_ ("second conductor by length")),
  TL_ABOVE ("overlap", "mm", 0, 1e5, TL_TREND_RISES, TL_N_ ("length side by side")),
  TL_ABOVE ("contact_resistance", "mohm", 0, 1e9, TL_TREND_RISES,
            TL_N_ ("whole interface, evenly spread")),
  { NULL },
};
static const TlFormulaOutput lap_outputs[] = { { "resistance", "mohm" },
                                               { "transfer_length", "mm" },
                                               { NULL } };

/* Written with coth and 1/sinh, so that a long overlap gives the bodies alone and never inf/inf. */
static gboolean
run_lap (const double *in, double *out, GError **error)
{
  const double r1 = in[0], r2 = in[1], overlap_m = in[2] * 1e-3, contact_mohm = in[3];
  const double sum = r1 + r2, u = sqrt (sum * overlap_m / contact_mohm);

  out[0] = overlap_m * r1 * r2 / sum
           + overlap_m / (sum * u) * ((r1 * r1 + r2 * r2) / tanh (u) + 2.0 * r1 * r2 / sinh (u));
  out[1] = overlap_m / u * 1e3;
  return TRUE;
}

const TlFormula tl_constriction_formulas[] = {
  { "holm-constriction", TL_N_ ("Constriction resistance of one round spot"),
    "R = (rho1 + rho2)/(4 a), both halves together",
    "R. Holm, Electric Contacts; R. S. Timsit, connector newsletter May 2001 (seen)", TL_TRUST_B,
    holm_inputs, holm_outputs, run_holm },
  { "holm-force", TL_N_ ("Constriction resistance of one clean spot under a force"),
    "a = sqrt(F/(pi xi H)); R = (rho1 + rho2)/(4 a)",
    "R. Holm, Electric Contacts (form seen on a secondary page)", TL_TRUST_B, holm_force_inputs,
    holm_force_outputs, run_holm_force },
  { "greenwood-constriction", TL_N_ ("Resistance of a cluster of spots, and of a film on them"),
    "rho = mean; R = rho/(2 n a) + rho/(2 cluster); film = sigma/(n pi a^2), not part of R",
    "Greenwood and Holm (from memory)", TL_TRUST_B, greenwood_inputs, greenwood_outputs,
    run_greenwood },
  { "interface-resistance", TL_N_ ("Resistance of a pressed interface"),
    "A_m = min(F/H, 0.5 A_c); a = sqrt(share A_m/(n pi)); spots_term = rho/(2 n a); cluster_term = "
    "rho/(2 x 0.9 sqrt(A_c/pi)); "
    "film_term = sigma/A_m; resistance = sum",
    "R. Holm, Electric Contacts, and Greenwood; shares are choices, no published source",
    TL_TRUST_B, interface_inputs, interface_outputs, run_interface },
  { "force-exponent", TL_N_ ("Resistance when part of the force is lost"),
    "resistance_ratio = remaining^-m; force_left = force x remaining",
    "R. Holm, Electric Contacts; exponents measured on aluminium (seen)", TL_TRUST_B,
    exponent_inputs, exponent_outputs, run_exponent },
  { "voltage-temperature", TL_N_ ("Temperature of a contact spot from its voltage"),
    "kelvin: T = sqrt(T0^2 + U^2/(4 L))",
    "Kohlrausch relation: R. Holm, Electric Contacts (relation seen)", TL_TRUST_B, voltage_inputs,
    voltage_outputs, run_voltage },
  { "wiedemann-franz", TL_N_ ("Thermal conductivity from resistivity"),
    "k = L T/rho; lorenz_found = k rho/T",
    "Wiedemann-Franz law, textbook; fails for stainless steel", TL_TRUST_B, wiedemann_inputs,
    wiedemann_outputs, run_wiedemann },
  { "lap-resistance", TL_N_ ("Resistance of two conductors side by side"),
    "s = r1 + r2; u = sqrt(s L/R_c); R = L r1 r2/s + ((r1^2 + r2^2) cosh u + 2 r1 r2) L/(s u sinh "
    "u); transfer_length = L/u",
    "derived from the transmission-line equations", TL_TRUST_A, lap_inputs, lap_outputs, run_lap },
  { NULL },
};
