/* pressing.c: pressed sleeves and lugs: the closed profile, how full it is, and what holds the conductor.
 *
 * A die code may be a width across corners or across flats: the caller says which. The bands in which a
 * compaction is good are trade practice and stand in data/, not here.
 * Sources: geometry; IEC 61238-1, IEC 60999-1 Table 3, NASA-STD-8739.4 (seen); thick plastic ring, textbook.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

static const char *const across_words[] = { "flats", "corners", NULL };

static double
hexagon_mm2 (double width_mm, gboolean across_flats)
{
  const double root3 = sqrt (3.0);

  return across_flats ? root3 / 2.0 * width_mm * width_mm : 3.0 * root3 / 8.0 * width_mm * width_mm;
}

static double
circle_mm2 (double diameter_mm)
{
  return G_PI / 4.0 * diameter_mm * diameter_mm;
}

static const TlFormulaInput hexagon_inputs[] = {
  TL_ABOVE ("width", "mm", 0, 500, TL_TREND_RISES, TL_N_ ("width of the hexagon")),
  TL_WORD ("across", across_words, TL_N_ ("measured across flats or across corners")),
  { NULL },
};
static const TlFormulaOutput area_outputs[] = { { "area", "mm2" }, { NULL } };

static gboolean
run_hexagon (const double *in, double *out, GError **error)
{
  out[0] = hexagon_mm2 (in[0], in[1] < 0.5);
  return TRUE;
}

static const TlFormulaInput indent_inputs[] = {
  TL_ABOVE ("outside_diameter", "mm", 0, 500, TL_TREND_RISES,
            TL_N_ ("barrel, held round by the die")),
  TL_ABOVE ("punch_diameter", "mm", 0, 500, TL_TREND_FALLS,
            TL_N_ ("diameter of the punch's round nose")),
  TL_FROM ("depth", "mm", 0, 500, TL_TREND_FALLS, TL_N_ ("depth of each indent")),
  { .name = "indents",
    .unit = "1",
    .low = 1,
    .high = 2,
    .optional = TRUE,
    .fallback = 1,
    .whole = TRUE,
    .trend = TL_TREND_FALLS,
    .meaning = TL_N_ ("one indent, or two from opposite sides") },
  { NULL },
};

/* Area that two circles share. */
static double
lens_mm2 (double radius_1_mm, double radius_2_mm, double distance_mm)
{
  const double a = radius_1_mm, b = radius_2_mm, d = distance_mm;

  if (d >= a + b)
    return 0.0;
  if (d <= fabs (a - b))
    return G_PI * MIN (a, b) * MIN (a, b);
  const double cos_a = CLAMP ((d * d + a * a - b * b) / (2.0 * d * a), -1.0, 1.0);
  const double cos_b = CLAMP ((d * d + b * b - a * a) / (2.0 * d * b), -1.0, 1.0);
  const double kite = (-d + a + b) * (d + a - b) * (d - a + b) * (d + a + b);

  return a * a * acos (cos_a) + b * b * acos (cos_b) - 0.5 * sqrt (MAX (0.0, kite));
}

static gboolean
run_indent (const double *in, double *out, GError **error)
{
  const double outside_mm = in[0], punch_mm = in[1], depth_mm = in[2], indents = in[3];
  const double distance_mm = (outside_mm + punch_mm) / 2.0 - depth_mm;

  if (depth_mm * indents >= outside_mm)
    return tl_formula_refuse (
        error, _ ("the indents go through the barrel; their depth must be less than its diameter"));
  out[0] =
      circle_mm2 (outside_mm) - indents * lens_mm2 (outside_mm / 2.0, punch_mm / 2.0, distance_mm);
  return TRUE;
}

static const TlFormulaInput oval_inputs[] = {
  TL_ABOVE ("height", "mm", 0, 500, TL_TREND_RISES, TL_N_ ("height between the flat sides")),
  TL_ABOVE ("width", "mm", 0, 500, TL_TREND_RISES,
            TL_N_ ("width over the round ends, at least the height")),
  { NULL },
};

static gboolean
run_oval (const double *in, double *out, GError **error)
{
  const double height_mm = in[0], width_mm = in[1];

  if (width_mm < height_mm)
    return tl_formula_refuse (
        error, _ ("the oval is higher than wide; its width must be at least its height"));
  out[0] = height_mm * (width_mm - height_mm) + circle_mm2 (height_mm);
  return TRUE;
}

static const TlFormulaInput compaction_inputs[] = {
  TL_ABOVE ("conductor_area", "mm2", 0, 1e4, TL_TREND_RISES,
            TL_N_ ("metal of all conductors in the barrel")),
  TL_ABOVE ("barrel_outside", "mm", 0, 500, TL_TREND_RISES,
            TL_N_ ("outside diameter before pressing")),
  TL_ABOVE ("barrel_bore", "mm", 0, 500, TL_TREND_FALLS, TL_N_ ("bore before pressing")),
  TL_MAYBE_ABOVE ("die_width", "mm", 0, 500, NAN, TL_TREND_RISES,
                  TL_N_ ("hexagon of the closed die")),
  TL_MAYBE_WORD ("across", across_words, NAN,
                 TL_N_ ("die width measured across flats or across corners")),
  TL_MAYBE_ABOVE ("die_area", "mm2", 0, 1e5, NAN, TL_TREND_RISES,
                  TL_N_ ("area of another closed profile, in place of the hexagon")),
  { NULL },
};
static const TlFormulaOutput compaction_outputs[] = {
  { "bore_fill", "1" }, { "ratio", "1" }, { "compaction", "1" }, { "fill", "1" }, { NULL },
};

static gboolean
run_compaction (const double *in, double *out, GError **error)
{
  const double conductor_mm2 = in[0], outside_mm = in[1], bore_mm = in[2], die_mm = in[3],
               die_area_mm2 = in[5];
  const gboolean has_hexagon = !isnan (die_mm) && !isnan (in[4]);

  if (outside_mm <= bore_mm)
    return tl_formula_refuse (
        error, _ ("the barrel has no wall; its outside diameter must be greater than its bore"));
  if (has_hexagon == !isnan (die_area_mm2))
    {
      g_set_error_literal (
          error, TL_ERROR, TL_ERROR_NAME,
          _ ("the closed profile is needed once: die_width with across, or die_area"));
      return FALSE;
    }
  const double before_mm2 = circle_mm2 (outside_mm) - circle_mm2 (bore_mm) + conductor_mm2;
  const double after_mm2 = has_hexagon ? hexagon_mm2 (die_mm, in[4] < 0.5) : die_area_mm2;

  out[0] = conductor_mm2 / circle_mm2 (bore_mm);
  out[1] = after_mm2 / before_mm2;
  out[2] = 1.0 - out[1];
  out[3] = before_mm2 / after_mm2;
  return TRUE;
}

static const TlFormulaInput grip_inputs[] = {
  TL_FROM ("retained", "1", 0, 1, TL_TREND_RISES,
           TL_N_ ("share of the plastic ring pressure that stays")),
  TL_ABOVE ("yield_strength", "MPa", 0, 5000, TL_TREND_RISES,
            TL_N_ ("yield strength of the barrel")),
  TL_ABOVE ("outside_diameter", "mm", 0, 500, TL_TREND_RISES, TL_N_ ("outside of the barrel")),
  TL_ABOVE ("bore", "mm", 0, 500, TL_TREND_FALLS, TL_N_ ("bore of the barrel on the conductor")),
  TL_FROM ("friction", "1", 0, 1.5, TL_TREND_RISES, TL_N_ ("friction")),
  TL_ABOVE ("length", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("pressed length")),
  TL_ABOVE ("conductor_area", "mm2", 0, 1e4, TL_TREND_RISES, TL_N_ ("metal of the conductor")),
  TL_ABOVE ("conductor_strength", "MPa", 0, 5000, TL_TREND_RISES,
            TL_N_ ("tensile strength of the conductor")),
  { NULL },
};
static const TlFormulaOutput grip_outputs[] = {
  { "pressure", "MPa" }, { "force", "N" }, { "pull", "N" }, { NULL }
};

static gboolean
run_grip (const double *in, double *out, GError **error)
{
  const double retained = in[0], yield_MPa = in[1], outside_mm = in[2], bore_mm = in[3],
               friction = in[4];
  const double length_mm = in[5], conductor_mm2 = in[6], strength_MPa = in[7];

  if (outside_mm <= bore_mm)
    return tl_formula_refuse (
        error, _ ("the barrel has no wall; its outside diameter must be greater than its bore"));
  out[0] = retained * 2.0 / sqrt (3.0) * yield_MPa * log (outside_mm / bore_mm);
  out[1] = out[0] * G_PI * bore_mm * length_mm;
  out[2] = MIN (friction * out[1], 0.85 * strength_MPa * conductor_mm2);
  return TRUE;
}

static const char *const rule_words[] = { "iec-61238-1", "strength-share", "clamping-unit", NULL };
enum
{
  RULE_61238,
  RULE_SHARE,
  RULE_CLAMPING
};

/* IEC 60999-1 Table 3 / IEC 60947-1 Table 5 (seen on a maker's secondary page). */
static const struct
{
  double section_mm2;
  double force_N;
} clamping_pull[] = {
  { 0.2, 10 }, { 0.34, 15 }, { 0.5, 20 },  { 0.75, 30 }, { 1, 35 },    { 1.5, 40 },  { 2.5, 50 },
  { 4, 60 },   { 6, 80 },    { 10, 90 },   { 16, 100 },  { 25, 135 },  { 35, 190 },  { 50, 236 },
  { 70, 285 }, { 95, 351 },  { 120, 427 }, { 150, 427 }, { 185, 503 }, { 240, 578 }, { 300, 578 },
};

static const TlFormulaInput pull_inputs[] = {
  TL_WORD ("rule", rule_words, TL_N_ ("which requirement")),
  TL_ABOVE ("section", "mm2", 0, 2000, TL_TREND_RISES, TL_N_ ("section of the conductor")),
  TL_MAYBE_WORD ("metal", tl_metal_words, NAN, TL_N_ ("metal of the conductor, for iec-61238-1")),
  TL_MAYBE_ABOVE ("tensile_strength", "MPa", 0, 5000, NAN, TL_TREND_RISES,
                  TL_N_ ("tensile strength, for strength-share")),
  TL_MAYBE_ABOVE ("share", "1", 0, 1, NAN, TL_TREND_RISES,
                  TL_N_ ("share of the strength, for strength-share")),
  { NULL },
};
static const TlFormulaOutput pull_outputs[] = { { "force", "N" }, { NULL } };

static gboolean
refuse_missing (GError **error, const char *names)
{
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("this rule also needs %s"), names);
  return FALSE;
}

static gboolean
run_pull (const double *in, double *out, GError **error)
{
  const int    rule = (int) in[0];
  const double section_mm2 = in[1], metal = in[2], strength_MPa = in[3], share = in[4];

  if (rule == RULE_61238)
    {
      if (isnan (metal))
        return refuse_missing (error, "metal");
      out[0] = MIN (20000.0, (metal < 0.5 ? 60.0 : 40.0) * section_mm2);
      return TRUE;
    }
  if (rule == RULE_SHARE)
    {
      if (isnan (strength_MPa) || isnan (share))
        return refuse_missing (error, "tensile_strength, share");
      out[0] = share * strength_MPa * section_mm2;
      return TRUE;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (clamping_pull); i++)
    if (section_mm2 <= clamping_pull[i].section_mm2 * (1.0 + 1e-9))
      {
        out[0] = clamping_pull[i].force_N;
        return TRUE;
      }
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("the table of pull forces for clamping units ends at 300 mm2; section is %g mm2"),
               section_mm2);
  return FALSE;
}

const TlFormula tl_pressing_formulas[] = {
  { "hexagon-area", TL_N_ ("Area of a hexagon"), "flats: sqrt3/2 w^2; corners: 3 sqrt3/8 e^2",
    "geometry", TL_TRUST_A, hexagon_inputs, area_outputs, run_hexagon },
  { "indent-area", TL_N_ ("Area of a barrel pressed by round punches"),
    "circle of the barrel less, for each indent, the lens that it shares with the circle of the "
    "punch's nose at that depth",
    "geometry", TL_TRUST_A, indent_inputs, area_outputs, run_indent },
  { "oval-area", TL_N_ ("Area of an oval with flat sides and round ends"),
    "area = h (w - h) + pi/4 h^2", "geometry", TL_TRUST_A, oval_inputs, area_outputs, run_oval },
  { "crimp-compaction", TL_N_ ("Fill and compaction of a pressed barrel"),
    "A0 = ring of the barrel + conductor; bore_fill = conductor/bore area; ratio = die area/A0; "
    "compaction = 1 - ratio; "
    "fill = A0/die area",
    "geometry; bands are trade practice", TL_TRUST_A, compaction_inputs, compaction_outputs,
    run_compaction },
  { "crimp-grip", TL_N_ ("Grip of a pressed barrel on its conductor"),
    "pressure = retained x 2/sqrt3 x yield x ln(D/d); force = pressure x pi x bore x length; "
    "pull = min(friction x force, 0.85 x strength x area)",
    "fully plastic ring, textbook; the share retained is a choice, no published source", TL_TRUST_I,
    grip_inputs, grip_outputs, run_grip },
  { "pull-force-requirement", TL_N_ ("Pull that a connection must hold"),
    "iec-61238-1: 60 N/mm2 copper, 40 N/mm2 aluminium, at most 20000 N; strength-share: share x "
    "strength x section; clamping-unit: "
    "table of pull forces by section, the next larger section in between",
    "IEC 61238-1; IEC 60999-1 Table 3; NASA-STD-8739.4 for a share of 0.6 (all seen)", TL_TRUST_A,
    pull_inputs, pull_outputs, run_pull },
  { NULL },
};
