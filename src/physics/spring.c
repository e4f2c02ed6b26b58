/* spring.c: stiffness of bolt, parts and spring washers, and what heat and settling do to the preload.
 *
 * A conical washer that is flat is a washer: no travel, no reserve. The published test force of a conical
 * spring washer is twice its flat force at least height; the flat force here is the computed one.
 * Sources: EN 16984 / DIN 2092 (from memory; load values of DIN 2093 agree within 1 %), VDI 2230 and
 * machine-design textbooks (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

static const TlFormulaInput disc_inputs[] = {
  TL_ABOVE ("outside_diameter", "mm", 0, 1e3, TL_TREND_NEITHER, TL_N_ ("outside diameter")),
  TL_ABOVE ("inside_diameter", "mm", 0, 1e3, TL_TREND_NEITHER, TL_N_ ("inside diameter")),
  TL_ABOVE ("thickness", "mm", 0, 100, TL_TREND_NEITHER, TL_N_ ("thickness of one disc")),
  TL_ABOVE ("cone_height", "mm", 0, 100, TL_TREND_NEITHER, TL_N_ ("free height less thickness")),
  TL_MAYBE ("deflection", "mm", 0, 100, 0, TL_TREND_NEITHER, TL_N_ ("deflection of one disc")),
  TL_MAYBE_ABOVE ("modulus", "MPa", 0, 1e6, 206000, TL_TREND_RISES, TL_N_ ("elastic modulus")),
  TL_MAYBE ("poisson", "1", 0, 0.5, 0.3, TL_TREND_RISES, TL_N_ ("Poisson's ratio")),
  { .name = "parallel",
    .unit = "1",
    .low = 1,
    .high = 100,
    .optional = TRUE,
    .fallback = 1,
    .whole = TRUE,
    .trend = TL_TREND_RISES,
    .meaning = TL_N_ ("discs nested in one another") },
  { .name = "series",
    .unit = "1",
    .low = 1,
    .high = 100,
    .optional = TRUE,
    .fallback = 1,
    .whole = TRUE,
    .trend = TL_TREND_RISES,
    .meaning = TL_N_ ("groups set against one another") },
  TL_MAYBE ("preload", "N", 0, 1e7, NAN, TL_TREND_RISES,
            TL_N_ ("force to compare with the flat force")),
  { NULL },
};
static const TlFormulaOutput disc_outputs[] = {
  { "force", "N" },        { "travel", "mm" }, { "flat_force", "N" },
  { "stiffness", "N/mm" }, { "factor", "1" },  { "monotonic", "word", tl_yes_no_words },
  { "flat_share", "1" },   { NULL },
};

static gboolean
run_disc (const double *in, double *out, GError **error)
{
  const double outside_mm = in[0], inside_mm = in[1], thickness_mm = in[2], cone_mm = in[3],
               deflection_mm = in[4];
  const double modulus_MPa = in[5], poisson = in[6], parallel = in[7], series = in[8],
               preload_N = in[9];

  if (outside_mm <= inside_mm * (1.0 + 1e-6))
    return tl_formula_refuse (
        error, _ ("the disc's inside is as wide as its outside; it must be smaller"));
  if (deflection_mm > cone_mm * (1.0 + 1e-9))
    return tl_formula_refuse (
        error, _ ("the deflection is greater than the cone height; at most the disc is flat"));
  const double ratio = outside_mm / inside_mm;
  const double part = (ratio - 1.0) / ratio;
  const double k1 = part * part / (G_PI * ((ratio + 1.0) / (ratio - 1.0) - 2.0 / log (ratio)));
  const double t3 = thickness_mm * thickness_mm * thickness_mm;
  const double scale_N_per_mm =
      4.0 * modulus_MPa / (1.0 - poisson * poisson) * t3 / (k1 * outside_mm * outside_mm);
  const double h = cone_mm / thickness_mm, s = deflection_mm / thickness_mm;

  out[0] = parallel * scale_N_per_mm * deflection_mm * ((h - s) * (h - s / 2.0) + 1.0);
  out[1] = series * deflection_mm;
  out[2] = parallel * scale_N_per_mm * cone_mm;
  out[3] = parallel / series * scale_N_per_mm * (h * h - 3.0 * h * s + 1.5 * s * s + 1.0);
  out[4] = k1;
  out[5] = h <= G_SQRT2 ? 1 : 0;
  out[6] = preload_N / out[2];
  return TRUE;
}

static const TlFormulaInput series_inputs[] = {
  TL_ABOVE ("bolt", "N/mm", 0, 1e12, TL_TREND_RISES, TL_N_ ("stiffness of the bolt")),
  TL_ABOVE ("joint", "N/mm", 0, 1e12, TL_TREND_RISES,
            TL_N_ ("stiffness of the clamped parts together")),
  TL_MAYBE_ABOVE ("spring", "N/mm", 0, 1e12, NAN, TL_TREND_RISES,
                  TL_N_ ("stiffness of the disc spring at its preload")),
  { NULL },
};
static const TlFormulaOutput stiffness_outputs[] = { { "stiffness", "N/mm" }, { NULL } };

static gboolean
run_series (const double *in, double *out, GError **error)
{
  const double spring_mm_per_N = isnan (in[2]) ? 0.0 : 1.0 / in[2];

  out[0] = 1.0 / (1.0 / in[0] + 1.0 / in[1] + spring_mm_per_N);
  return TRUE;
}

static const TlFormulaInput bolt_inputs[] = {
  TL_ABOVE ("modulus", "MPa", 0, 1e6, TL_TREND_RISES, TL_N_ ("elastic modulus of the bolt")),
  TL_ABOVE ("stress_area", "mm2", 0, 1e5, TL_TREND_RISES, TL_N_ ("stress area of the thread")),
  TL_FROM ("grip", "mm", 0, 1e4, TL_TREND_FALLS, TL_N_ ("clamped length")),
  TL_ABOVE ("diameter", "mm", 0, 200, TL_TREND_FALLS, TL_N_ ("nominal thread diameter")),
  { NULL },
};

static gboolean
run_bolt (const double *in, double *out, GError **error)
{
  const double modulus_MPa = in[0], stress_area_mm2 = in[1], grip_mm = in[2], diameter_mm = in[3];

  out[0] = modulus_MPa * stress_area_mm2 / (grip_mm + 0.8 * diameter_mm);
  return TRUE;
}

static const TlFormulaInput frustum_inputs[] = {
  TL_ABOVE ("modulus", "MPa", 0, 1e6, TL_TREND_RISES, TL_N_ ("elastic modulus of the part")),
  TL_ABOVE ("hole_diameter", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("hole")),
  TL_ABOVE ("head_diameter", "mm", 0, 1e3, TL_TREND_RISES,
            TL_N_ ("bearing diameter at the small end")),
  TL_ABOVE ("thickness", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("thickness of the part")),
  TL_MAYBE_ABOVE ("half_angle", "deg", 0, 60, 30, TL_TREND_RISES,
                  TL_N_ ("half angle of the spread")),
  { NULL },
};

static gboolean
run_frustum (const double *in, double *out, GError **error)
{
  const double modulus_MPa = in[0], hole_mm = in[1], head_mm = in[2], thickness_mm = in[3];
  const double slope = tan (in[4] * G_PI / 180.0), wide_mm = head_mm + 2.0 * thickness_mm * slope;

  if (head_mm <= hole_mm)
    return tl_formula_refuse (error,
                              _ ("the bearing face is no wider than the hole; it must be wider"));
  /* The textbook quotient less 1, so that the logarithm stays exact for thin parts. */
  const double excess =
      2.0 * hole_mm * (wide_mm - head_mm) / ((wide_mm + hole_mm) * (head_mm - hole_mm));

  out[0] = G_PI * modulus_MPa * hole_mm * slope / log1p (excess);
  return TRUE;
}

#define THERMAL_PARTS 6
#define THERMAL_LIST(input, in_unit, above, at_least, at_most, says)                               \
  {                                                                                                \
    .name = input, .unit = in_unit, .low = at_least, .high = at_most, .low_open = above,           \
    .fallback = NAN, .first = 1, .last = THERMAL_PARTS, .step = 1, .least = 1,                     \
    .trend = TL_TREND_NEITHER, .meaning = says                                                     \
  }

static const TlFormulaInput thermal_inputs[] = {
  THERMAL_LIST ("thickness_", "mm", TRUE, 0, 1e3, TL_N_ ("thickness of each clamped part")),
  THERMAL_LIST ("expansion_", "um/mK", FALSE, -10, 500,
                TL_N_ ("expansion coefficient of each clamped part")),
  THERMAL_LIST ("modulus_", "MPa", TRUE, 0, 1e6, TL_N_ ("elastic modulus of each clamped part")),
  TL_ABOVE ("area", "mm2", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("effective area of the clamped parts")),
  TL_ABOVE ("bolt_grip", "mm", 0, 1e4, TL_TREND_NEITHER, TL_N_ ("length of the bolt in the grip")),
  TL_FROM ("bolt_expansion", "um/mK", -10, 500, TL_TREND_NEITHER,
           TL_N_ ("expansion coefficient of the bolt")),
  TL_ABOVE ("bolt_modulus", "MPa", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("elastic modulus of the bolt")),
  TL_ABOVE ("bolt_area", "mm2", 0, 1e5, TL_TREND_NEITHER, TL_N_ ("cross-section of the bolt")),
  TL_FROM ("temperature_change", "K", -300, 1000, TL_TREND_NEITHER,
           TL_N_ ("the same for all parts, a rise is positive")),
  TL_MAYBE_ABOVE ("spring_stiffness", "N/mm", 0, 1e12, NAN, TL_TREND_NEITHER,
                  TL_N_ ("spring in series")),
  { NULL },
};
static const TlFormulaOutput thermal_outputs[] = {
  { "mismatch", "um" },
  { "stiffness", "N/mm" },
  { "change", "N" },
  { NULL },
};

static gboolean
run_thermal (const double *in, double *out, GError **error)
{
  const double *thickness_mm = in, *expansion = in + THERMAL_PARTS,
               *modulus_MPa = in + 2 * THERMAL_PARTS;
  const double *rest = in + 3 * THERMAL_PARTS;
  const double  area_mm2 = rest[0], grip_mm = rest[1], bolt_expansion = rest[2],
               bolt_modulus_MPa = rest[3];
  const double bolt_area_mm2 = rest[4], change_K = rest[5], spring_N_per_mm = rest[6];
  double       expansion_mm_um_per_mK = -bolt_expansion * grip_mm;
  double       mm_per_N = grip_mm / (bolt_modulus_MPa * bolt_area_mm2);

  for (guint i = 0; i < THERMAL_PARTS; i++)
    {
      const guint given =
          !isnan (thickness_mm[i]) + !isnan (expansion[i]) + !isnan (modulus_MPa[i]);

      if (given == 0)
        continue;
      if (given != 3)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                       _ ("part %u needs all three of thickness_%u, expansion_%u and modulus_%u"),
                       i + 1, i + 1, i + 1, i + 1);
          return FALSE;
        }
      expansion_mm_um_per_mK += expansion[i] * thickness_mm[i];
      mm_per_N += thickness_mm[i] / (modulus_MPa[i] * area_mm2);
    }
  if (!isnan (spring_N_per_mm))
    mm_per_N += 1.0 / spring_N_per_mm;
  out[0] = expansion_mm_um_per_mK * change_K * 1e-3;
  out[1] = 1.0 / mm_per_N;
  out[2] = out[0] * 1e-3 * out[1];
  return TRUE;
}

static const TlFormulaInput embedding_inputs[] = {
  TL_FROM ("embedding", "um", 0, 1e4, TL_TREND_RISES, TL_N_ ("total flattening of the faces")),
  TL_ABOVE ("stiffness", "N/mm", 0, 1e12, TL_TREND_RISES,
            TL_N_ ("bolt, parts and spring in series")),
  { NULL },
};
static const TlFormulaOutput embedding_outputs[] = { { "loss", "N" }, { NULL } };

static gboolean
run_embedding (const double *in, double *out, GError **error)
{
  out[0] = in[0] * 1e-3 * in[1];
  return TRUE;
}

static const TlFormulaInput shakedown_inputs[] = {
  TL_FROM ("preload", "N", 0, 1e7, TL_TREND_RISES, TL_N_ ("force before the heating")),
  TL_FROM ("thermal_change", "N", -1e7, 1e7, TL_TREND_RISES,
           TL_N_ ("change of force that free elastic heating would give")),
  TL_ABOVE ("limit", "MPa", 0, 1e5, TL_TREND_RISES,
            TL_N_ ("pressure limit at the hot temperature")),
  TL_ABOVE ("area", "mm2", 0, 1e6, TL_TREND_RISES, TL_N_ ("area that bears")),
  { NULL },
};
static const TlFormulaOutput shakedown_outputs[] = { { "hot", "N" }, { "cold", "N" }, { NULL } };

static gboolean
run_shakedown (const double *in, double *out, GError **error)
{
  const double preload_N = in[0], change_N = in[1], limit_MPa = in[2], area_mm2 = in[3];

  out[0] = MIN (preload_N + change_N, limit_MPa * area_mm2);
  out[1] = out[0] - change_N;
  return TRUE;
}

const TlFormula tl_spring_formulas[] = {
  { "disc-spring-force", TL_N_ ("Force of a conical spring washer or disc spring"),
    "F = 4E/(1-nu^2) t^4/(K1 De^2) (s/t)((h0/t - s/t)(h0/t - s/2t) + 1); factor = K1; force and "
    "flat_force of the stack (x parallel), "
    "travel x series, stiffness = dF/ds of the stack at the deflection; monotonic = yes while h0/t "
    "<= sqrt 2; "
    "flat_share = preload/flat_force",
    "EN 16984 / DIN 2092, Almen-Laszlo without bearing flats (from memory; load values of DIN 2093 "
    "from memory agree within 1 %)",
    TL_TRUST_B, disc_inputs, disc_outputs, run_disc },
  { "spring-series-stiffness", TL_N_ ("Stiffness of bolt, parts and spring together"),
    "1/k = 1/k_b + 1/k_j + 1/k_d", "textbook", TL_TRUST_B, series_inputs, stiffness_outputs,
    run_series },
  { "bolt-stiffness", TL_N_ ("Stiffness of a bolt"), "k = E A/(L + 0.8 d)",
    "VDI 2230 simplified (from memory)", TL_TRUST_B, bolt_inputs, stiffness_outputs, run_bolt },
  { "frustum-stiffness", TL_N_ ("Stiffness of a clamped part"),
    "k = pi E d tan(a)/ln(((D + 2 t tan a - d)(D + d))/((D + 2 t tan a + d)(D - d)))",
    "machine-design textbook, member frustum (from memory)", TL_TRUST_B, frustum_inputs,
    stiffness_outputs, run_frustum },
  { "thermal-preload-change", TL_N_ ("Change of preload with temperature"),
    "mismatch = (sum(alpha l) - alpha_b l_b) dT; stiffness = 1/(l_b/(E_b A_b) + sum(l/(E A)) + "
    "1/k_spring); "
    "change = mismatch x stiffness",
    "VDI 2230 form with constant moduli (from memory)", TL_TRUST_B, thermal_inputs, thermal_outputs,
    run_thermal },
  { "embedding-loss", TL_N_ ("Preload lost when faces settle"), "loss = f_Z k",
    "VDI 2230 form (from memory)", TL_TRUST_B, embedding_inputs, embedding_outputs, run_embedding },
  { "shakedown", TL_N_ ("Force after the first hot cycle"),
    "elastic, then perfectly plastic, one cycle: hot = min(F + dF, limit x area); cold = hot - dF",
    "derived: elastic, perfectly plastic body", TL_TRUST_B, shakedown_inputs, shakedown_outputs,
    run_shakedown },
  { NULL },
};
