/* fastening.c: from tightening torque to clamping force and back, and what that force presses on.
 *
 * The nut factor is empirical: torque control scatters by 25 to 30 % each way, so give it as a range.
 * Pressure under a thin wide washer: its rim carries nothing, take the load cone, and the hole in the part.
 * Not here: loss of force over the years (ageing.c), springs (spring.c).
 * Sources: ISO 898-1 (table values seen), ASME B1.1 and VDI 2230 (from memory), machine-design textbooks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

#define DEG_RAD (G_PI / 180.0)

static double
ring_mm2 (double outer_mm, double hole_mm)
{
  return G_PI / 4.0 * (outer_mm * outer_mm - hole_mm * hole_mm);
}

static const TlFormulaInput metric_inputs[] = {
  TL_ABOVE ("diameter", "mm", 0, 200, TL_TREND_RISES, TL_N_ ("nominal thread diameter")),
  TL_ABOVE ("pitch", "mm", 0, 20, TL_TREND_FALLS, TL_N_ ("thread pitch")),
  { NULL },
};
static const TlFormulaOutput area_outputs[] = { { "area", "mm2" }, { NULL } };

static gboolean
run_metric (const double *in, double *out, GError **error)
{
  const double diameter_mm = in[0], pitch_mm = in[1];
  const double pitch_diameter_mm = diameter_mm - 0.649519 * pitch_mm;
  const double core_diameter_mm = diameter_mm - 1.226869 * pitch_mm;

  if (core_diameter_mm <= 0.0)
    return tl_formula_refuse (error,
                              _ ("the pitch is too coarse for the diameter; it must leave a core"));
  const double mean_mm = (pitch_diameter_mm + core_diameter_mm) / 2.0;
  out[0] = G_PI / 4.0 * mean_mm * mean_mm;
  return TRUE;
}

static const TlFormulaInput inch_inputs[] = {
  TL_ABOVE ("diameter", "in", 0, 8, TL_TREND_RISES, TL_N_ ("nominal thread diameter")),
  TL_ABOVE ("threads_per_inch", "1/in", 0, 200, TL_TREND_RISES, TL_N_ ("threads per inch")),
  { NULL },
};

static gboolean
run_inch (const double *in, double *out, GError **error)
{
  const double mean_mm = (in[0] - 0.9743 / in[1]) * 25.4;

  if (mean_mm <= 0.0)
    return tl_formula_refuse (
        error, _ ("the thread is too coarse for the diameter; it must leave a core"));
  out[0] = G_PI / 4.0 * mean_mm * mean_mm;
  return TRUE;
}

static const TlFormulaInput to_preload_inputs[] = {
  TL_ABOVE ("torque", "N_m", 0, 1e5, TL_TREND_RISES, TL_N_ ("tightening torque")),
  TL_FROM ("nut_factor", "1", 0.01, 2, TL_TREND_FALLS, TL_N_ ("K of T = K d F")),
  TL_ABOVE ("diameter", "mm", 0, 200, TL_TREND_FALLS, TL_N_ ("nominal thread diameter")),
  TL_MAYBE ("scatter", "%", 0, 100, 0, TL_TREND_RISES, TL_N_ ("scatter of the preload each way")),
  { NULL },
};
static const TlFormulaOutput to_preload_outputs[] = {
  { "preload", "N" }, { "low", "N" }, { "high", "N" }, { NULL }
};

static gboolean
run_to_preload (const double *in, double *out, GError **error)
{
  const double torque_Nm = in[0], nut_factor = in[1], diameter_mm = in[2],
               scatter_ratio = in[3] / 100.0;

  out[0] = torque_Nm * 1e3 / (nut_factor * diameter_mm);
  out[1] = out[0] * (1.0 - scatter_ratio);
  out[2] = out[0] * (1.0 + scatter_ratio);
  return TRUE;
}

static const TlFormulaInput for_preload_inputs[] = {
  TL_ABOVE ("preload", "N", 0, 1e7, TL_TREND_RISES, TL_N_ ("wanted preload")),
  TL_FROM ("nut_factor", "1", 0.01, 2, TL_TREND_RISES, TL_N_ ("K of T = K d F")),
  TL_ABOVE ("diameter", "mm", 0, 200, TL_TREND_RISES, TL_N_ ("nominal thread diameter")),
  { NULL },
};
static const TlFormulaOutput for_preload_outputs[] = { { "torque", "N_m" }, { NULL } };

static double
torque_Nm_of (double nut_factor, double diameter_mm, double preload_N)
{
  return nut_factor * diameter_mm * preload_N * 1e-3;
}

static gboolean
run_for_preload (const double *in, double *out, GError **error)
{
  out[0] = torque_Nm_of (in[1], in[2], in[0]);
  return TRUE;
}

static const TlFormulaInput friction_inputs[] = {
  TL_ABOVE ("preload", "N", 0, 1e7, TL_TREND_RISES, TL_N_ ("preload")),
  TL_ABOVE ("pitch", "mm", 0, 20, TL_TREND_RISES, TL_N_ ("thread pitch")),
  TL_ABOVE ("pitch_diameter", "mm", 0, 200, TL_TREND_RISES, TL_N_ ("pitch diameter of the thread")),
  TL_FROM ("thread_friction", "1", 0, 1, TL_TREND_RISES, TL_N_ ("friction in the thread")),
  TL_FROM ("head_friction", "1", 0, 1, TL_TREND_RISES, TL_N_ ("friction under the head or nut")),
  TL_ABOVE ("head_diameter", "mm", 0, 400, TL_TREND_RISES,
            TL_N_ ("outside diameter of the bearing face")),
  TL_FROM ("hole_diameter", "mm", 0, 400, TL_TREND_RISES,
           TL_N_ ("inside diameter of the bearing face")),
  TL_MAYBE_ABOVE ("diameter", "mm", 0, 200, NAN, TL_TREND_FALLS,
                  TL_N_ ("nominal thread diameter, for nut_factor")),
  { NULL },
};
static const TlFormulaOutput friction_outputs[] = { { "torque", "N_m" },
                                                    { "nut_factor", "1" },
                                                    { NULL } };

static gboolean
run_friction (const double *in, double *out, GError **error)
{
  const double preload_N = in[0], pitch_mm = in[1], pitch_diameter_mm = in[2],
               thread_friction = in[3];
  const double head_friction = in[4], head_mm = in[5], hole_mm = in[6], diameter_mm = in[7];
  const double arm_mm = 0.16 * pitch_mm + 0.58 * pitch_diameter_mm * thread_friction
                        + head_friction * (head_mm + hole_mm) / 4.0;

  if (hole_mm >= head_mm)
    return tl_formula_refuse (error,
                              _ ("the hole is as wide as the bearing face; it must be smaller"));
  out[0] = preload_N * arm_mm * 1e-3;
  out[1] = arm_mm / diameter_mm;
  return TRUE;
}

static const TlFormulaInput stress_inputs[] = {
  TL_ABOVE ("stress_area", "mm2", 0, 1e5, TL_TREND_FALLS, TL_N_ ("stress area of the thread")),
  TL_MAYBE ("preload", "N", 0, 1e7, NAN, TL_TREND_RISES, TL_N_ ("preload")),
  TL_MAYBE_ABOVE ("proof_stress", "MPa", 0, 5000, NAN, TL_TREND_RISES,
                  TL_N_ ("proof stress of the property class")),
  TL_MAYBE ("thread_torque", "N_m", 0, 1e5, 0, TL_TREND_RISES,
            TL_N_ ("part of the torque that twists the shank")),
  { NULL },
};
static const TlFormulaOutput stress_outputs[] = {
  { "tension", "MPa" }, { "combined", "MPa" }, { "proof_load", "N" }, { "share", "1" }, { NULL },
};

static gboolean
run_stress (const double *in, double *out, GError **error)
{
  const double stress_area_mm2 = in[0], preload_N = in[1], proof_MPa = in[2],
               torque_Nmm = in[3] * 1e3;
  const double diameter_mm = sqrt (4.0 * stress_area_mm2 / G_PI);
  const double shear_MPa = 16.0 * torque_Nmm / (G_PI * diameter_mm * diameter_mm * diameter_mm);

  out[0] = preload_N / stress_area_mm2;
  out[1] = sqrt (out[0] * out[0] + 3.0 * shear_MPa * shear_MPa);
  out[2] = proof_MPa * stress_area_mm2;
  out[3] = out[0] / proof_MPa;
  return TRUE;
}

static const TlFormulaInput bearing_inputs[] = {
  TL_FROM ("force", "N", 0, 1e7, TL_TREND_RISES, TL_N_ ("force on the ring")),
  TL_ABOVE ("outer_diameter", "mm", 0, 1e3, TL_TREND_FALLS,
            TL_N_ ("outside diameter of the ring that bears")),
  TL_FROM ("hole_diameter", "mm", 0, 1e3, TL_TREND_RISES,
           TL_N_ ("the larger of the washer's bore and the hole in the part")),
  TL_MAYBE_ABOVE ("limit", "MPa", 0, 1e5, NAN, TL_TREND_FALLS,
                  TL_N_ ("pressure limit of the softer side")),
  { NULL },
};
static const TlFormulaOutput bearing_outputs[] = { { "pressure", "MPa" },
                                                   { "ratio", "1" },
                                                   { NULL } };

static gboolean
check_ring (double outer_mm, double hole_mm, GError **error)
{
  if (outer_mm > hole_mm)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("no ring is left: its outside is %g mm and its hole %g mm; the outside must be "
                  "the larger"),
               outer_mm, hole_mm);
  return FALSE;
}

static gboolean
run_bearing (const double *in, double *out, GError **error)
{
  const double force_N = in[0], outer_mm = in[1], hole_mm = in[2], limit_MPa = in[3];

  if (!check_ring (outer_mm, hole_mm, error))
    return FALSE;
  out[0] = force_N / ring_mm2 (outer_mm, hole_mm);
  out[1] = out[0] / limit_MPa;
  return TRUE;
}

static const TlFormulaInput cone_inputs[] = {
  TL_ABOVE ("head_diameter", "mm", 0, 1e3, TL_TREND_RISES,
            TL_N_ ("bearing face of the head or washer")),
  TL_FROM ("depth", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("thickness that the force has passed")),
  TL_ABOVE ("part_diameter", "mm", 0, 1e4, TL_TREND_RISES,
            TL_N_ ("outside diameter of the part or washer")),
  TL_FROM ("hole_diameter", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("hole")),
  TL_MAYBE ("cone_angle", "deg", 0, 60, 30, TL_TREND_RISES, TL_N_ ("half angle of the spread")),
  TL_MAYBE ("force", "N", 0, 1e7, NAN, TL_TREND_RISES, TL_N_ ("force, for the pressure")),
  { NULL },
};
static const TlFormulaOutput cone_outputs[] = {
  { "loaded_diameter", "mm" }, { "area", "mm2" }, { "pressure", "MPa" }, { NULL }
};

static gboolean
run_cone (const double *in, double *out, GError **error)
{
  const double head_mm = in[0], depth_mm = in[1], part_mm = in[2], hole_mm = in[3],
               angle_rad = in[4] * DEG_RAD;
  const double force_N = in[5];

  out[0] = MIN (part_mm, head_mm + 2.0 * depth_mm * tan (angle_rad));
  if (!check_ring (out[0], hole_mm, error))
    return FALSE;
  out[1] = ring_mm2 (out[0], hole_mm);
  out[2] = force_N / out[1];
  return TRUE;
}

static const TlFormulaInput allowed_inputs[] = {
  TL_ABOVE ("limit", "MPa", 0, 1e5, TL_TREND_RISES, TL_N_ ("pressure limit of the soft part")),
  TL_ABOVE ("outer_diameter", "mm", 0, 1e3, TL_TREND_RISES,
            TL_N_ ("outside diameter of the ring that bears")),
  TL_FROM ("hole_diameter", "mm", 0, 1e3, TL_TREND_FALLS, TL_N_ ("hole")),
  TL_MAYBE ("nut_factor", "1", 0.01, 2, NAN, TL_TREND_RISES,
            TL_N_ ("K of T = K d F, for the torque")),
  TL_MAYBE_ABOVE ("diameter", "mm", 0, 200, NAN, TL_TREND_RISES,
                  TL_N_ ("nominal thread diameter, for the torque")),
  { NULL },
};
static const TlFormulaOutput allowed_outputs[] = { { "preload", "N" },
                                                   { "torque", "N_m" },
                                                   { NULL } };

static gboolean
run_allowed (const double *in, double *out, GError **error)
{
  const double limit_MPa = in[0], outer_mm = in[1], hole_mm = in[2], nut_factor = in[3],
               diameter_mm = in[4];

  if (!check_ring (outer_mm, hole_mm, error))
    return FALSE;
  out[0] = limit_MPa * ring_mm2 (outer_mm, hole_mm);
  out[1] = torque_Nm_of (nut_factor, diameter_mm, out[0]);
  return TRUE;
}

#define LENGTH_PARTS 8

static const TlFormulaInput length_inputs[] = {
  TL_FROM ("head", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("height of the head")),
  { .name = "part_",
    .unit = "mm",
    .low = 0,
    .high = 1e3,
    .fallback = NAN,
    .first = 1,
    .last = LENGTH_PARTS,
    .step = 1,
    .least = 1,
    .trend = TL_TREND_RISES,
    .meaning = TL_N_ ("thickness of each clamped part, washers included") },
  TL_FROM ("nut", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("height of the nut")),
  TL_MAYBE ("pitch", "mm", 0, 20, 0, TL_TREND_RISES, TL_N_ ("thread pitch")),
  TL_MAYBE ("protrusion", "1", 0, 20, 0, TL_TREND_RISES,
            TL_N_ ("pitches that must stand out of the nut")),
  { .name = "offered_",
    .unit = "mm",
    .low = 0,
    .high = 1e4,
    .low_open = TRUE,
    .fallback = NAN,
    .first = 1,
    .last = 8,
    .step = 1,
    .optional = TRUE,
    .trend = TL_TREND_NEITHER,
    .meaning = TL_N_ ("lengths to choose from") },
  { NULL },
};
static const TlFormulaOutput length_outputs[] = {
  { "grip", "mm" }, { "stack_height", "mm" }, { "need", "mm" }, { "length", "mm" }, { NULL },
};

static gboolean
run_length (const double *in, double *out, GError **error)
{
  const double *part_mm = in + 1, *offered_mm = in + LENGTH_PARTS + 4;
  const double  head_mm = in[0], nut_mm = in[LENGTH_PARTS + 1], pitch_mm = in[LENGTH_PARTS + 2];
  const double  protrusion = in[LENGTH_PARTS + 3];

  out[0] = 0.0;
  for (guint i = 0; i < LENGTH_PARTS; i++)
    out[0] += isnan (part_mm[i]) ? 0.0 : part_mm[i];
  out[1] = head_mm + out[0] + nut_mm;
  out[2] = out[0] + nut_mm + protrusion * pitch_mm;
  for (guint i = 0; i < 8; i++)
    if (offered_mm[i] >= out[2] * (1.0 - 1e-9) && !(out[3] <= offered_mm[i]))
      out[3] = offered_mm[i];
  return TRUE;
}

static const TlFormulaInput eye_inputs[] = {
  TL_FROM ("force", "N", 0, 1e7, TL_TREND_RISES, TL_N_ ("clamping force")),
  TL_ABOVE ("hardness", "MPa", 0, 1e5, TL_TREND_FALLS, TL_N_ ("contact hardness of the wire")),
  TL_ABOVE ("wire_diameter", "mm", 0, 100, TL_TREND_RISES, TL_N_ ("diameter of the round wire")),
  TL_ABOVE ("eye_diameter", "mm", 0, 500, TL_TREND_RISES, TL_N_ ("inside diameter of the eye")),
  TL_MAYBE_ABOVE ("turn", "1", 0, 1, 0.75, TL_TREND_RISES, TL_N_ ("part of a full turn")),
  { NULL },
};
static const TlFormulaOutput eye_outputs[] = {
  { "length", "mm" }, { "width", "mm" }, { "depth", "mm" }, { "share", "1" }, { NULL },
};

/* The line is never wider than the wire: from there on the eye is flat and the share is 1. */
static gboolean
run_eye (const double *in, double *out, GError **error)
{
  const double force_N = in[0], hardness_MPa = in[1], wire_mm = in[2], eye_mm = in[3], turn = in[4];
  const double radius_mm = wire_mm / 2.0;

  out[0] = turn * G_PI * (eye_mm + wire_mm);
  out[1] = MIN (wire_mm, force_N / (hardness_MPa * out[0]));
  out[2] = radius_mm - sqrt (MAX (0.0, radius_mm * radius_mm - out[1] * out[1] / 4.0));
  out[3] = 2.0 * out[2] / wire_mm;
  return TRUE;
}

const TlFormula tl_fastening_formulas[] = {
  { "stress-area-metric", TL_N_ ("Stress area of a metric thread"),
    "area = pi/4 ((d2+d3)/2)^2 with d2 = d - 0.649519 P and d3 = d - 1.226869 P",
    "ISO 898-1 nominal stress area (table values seen; expression from memory)", TL_TRUST_A,
    metric_inputs, area_outputs, run_metric },
  { "stress-area-inch", TL_N_ ("Stress area of an inch thread"),
    "area = pi/4 (D - 0.9743/n)^2, turned into mm2", "ASME B1.1 (from memory)", TL_TRUST_A,
    inch_inputs, area_outputs, run_inch },
  { "torque-to-preload", TL_N_ ("Clamping force from tightening torque"),
    "preload = T/(K d); low and high take the scatter off and on",
    "T = K d F, short form of machine-design textbooks; scatter of 25 to 30 % each way seen",
    TL_TRUST_B, to_preload_inputs, to_preload_outputs, run_to_preload },
  { "torque-for-preload", TL_N_ ("Tightening torque for a clamping force"), "T = K d F",
    "T = K d F, short form of machine-design textbooks", TL_TRUST_B, for_preload_inputs,
    for_preload_outputs, run_for_preload },
  { "torque-friction", TL_N_ ("Tightening torque from friction, and its nut factor"),
    "T = F (0.16 P + 0.58 d2 mu_G + mu_K (dw+dh)/4); nut_factor = T/(F d)",
    "VDI 2230 (from memory)", TL_TRUST_B, friction_inputs, friction_outputs, run_friction },
  { "bolt-stress", TL_N_ ("Stress in a bolt, against its proof stress"),
    "tension = F/A; combined = sqrt(tension^2 + 3 tau^2), tau = 16 T/(pi ds^3), ds = sqrt(4 A/pi); "
    "proof_load = Sp A; "
    "share = tension/Sp",
    "ISO 898-1 proof load (value seen); von Mises, textbook", TL_TRUST_A, stress_inputs,
    stress_outputs, run_stress },
  { "bearing-pressure", TL_N_ ("Pressure under a ring"),
    "p = F/(pi/4 (D^2 - d^2)); ratio = p/limit", "geometry", TL_TRUST_A, bearing_inputs,
    bearing_outputs, run_bearing },
  { "pressure-cone-area", TL_N_ ("Area that the load cone reaches"),
    "loaded_diameter = min(D, dw + 2 s tan(angle)); area = pi/4 (loaded_diameter^2 - hole^2); "
    "pressure = F/area",
    "load-cone model of VDI 2230 and of machine-design textbooks (from memory)", TL_TRUST_B,
    cone_inputs, cone_outputs, run_cone },
  { "allowed-preload", TL_N_ ("Clamping force that a soft part bears"),
    "preload = limit x ring; torque = K d preload", "geometry and T = K d F", TL_TRUST_B,
    allowed_inputs, allowed_outputs, run_allowed },
  { "bolt-length", TL_N_ ("Length of a bolt through a stack"),
    "grip = sum of parts; stack_height = head + grip + nut; need = grip + nut + protrusion x "
    "pitch; length = shortest offered that is "
    "at least need, none if all are shorter",
    "geometry with dimensions of ISO 4017, 7089, 4032; protrusion of 1 to 3 pitches: common "
    "practice, no source",
    TL_TRUST_A, length_inputs, length_outputs, run_length },
  { "eye-flattening", TL_N_ ("Flattening of an eye of round wire"),
    "length = turn x pi x (eye + wire); width = F/(H length), at most the wire; depth = r - "
    "sqrt(r^2 - width^2/4) on each side; "
    "share = 2 depth/wire_diameter",
    "derived: plastic line contact, pressure equal to hardness", TL_TRUST_B, eye_inputs,
    eye_outputs, run_eye },
  { NULL },
};
