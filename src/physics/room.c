/* room.c: is there room in the box: the codes' counting rules, and plain geometry.
 *
 * Codes count conductors, not sleeves: NFPA 70 gives a splice no volume, so a bulky joint passes the count and
 * does not fit. The edition is an input because the count of grounding conductors changed in 2020. NFPA 70 and
 * CSA C22.1 print 24.6, 28.7 and 36.9 against different sizes: their tables stay apart.
 * Sources: NFPA 70 314.16(B) and 300.14; CSA C22.1 rule 12-3034 (all seen).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

/* Equality passes; sums of quarters are exact, decimals of the metric table are not. */
#define EQUAL_SHARE 1e-9

/* AWG 6, 8, ... 18. */
#define NEC_SIZES 7
static const double nec_allowance_in3[NEC_SIZES] = { 5.00, 3.00, 2.50, 2.25, 2.00, 1.75, 1.50 };
/* AWG 6, 8, ... 14. */
#define CEC_SIZES 5
static const double cec_allowance_mL[CEC_SIZES] = { 73.7, 45.1, 36.9, 28.7, 24.6 };
#define CEC_DEEP_DEVICE_ML_PER_MM 3.2
/* Edition from which each grounding conductor above four counts a quarter. */
#define NEC_EDITION_OF_QUARTERS 2020

#define SIZE_COUNTS(input, thinnest, says)                                                         \
  {                                                                                                \
    .name = input, .unit = "1", .low = 0, .high = 1000, .optional = TRUE, .fallback = 0,           \
    .first = 6, .last = thinnest, .step = 2, .whole = TRUE, .trend = TL_TREND_RISES,               \
    .meaning = says                                                                                \
  }
#define MAYBE_AWG(input, thinnest, says)                                                           \
  {                                                                                                \
    .name = input, .unit = "1", .low = 6, .high = thinnest, .optional = TRUE, .fallback = NAN,     \
    .whole = TRUE, .trend = TL_TREND_NEITHER, .meaning = says                                      \
  }

static const TlFormulaInput nec_inputs[] = {
  { .name = "edition",
    .unit = "1",
    .low = 1975,
    .high = 2100,
    .fallback = NAN,
    .whole = TRUE,
    .trend = TL_TREND_RISES,
    .meaning = TL_N_ ("year of the edition") },
  SIZE_COUNTS ("conductors_", 18, TL_N_ ("conductors that count once, by AWG")),
  SIZE_COUNTS ("loops_", 18, TL_N_ ("unbroken loops that count twice, by AWG")),
  TL_COUNT ("egc", 1000, 0, TL_N_ ("equipment grounding conductors")),
  MAYBE_AWG ("egc_awg", 18, TL_N_ ("AWG of the largest of them")),
  TL_COUNT ("isolated_egc", 1000, 0, TL_N_ ("isolated equipment grounding conductors")),
  MAYBE_AWG ("isolated_egc_awg", 18, TL_N_ ("AWG of the largest of them")),
  TL_COUNT ("clamps", 100, 0, TL_N_ ("internal clamps")),
  TL_COUNT ("studs", 100, 0, TL_N_ ("studs")),
  TL_COUNT ("hickeys", 100, 0, TL_N_ ("hickeys")),
  SIZE_COUNTS ("device_gangs_", 18,
               TL_N_ ("gangs of devices, by the largest conductor connected to them")),
  TL_MAYBE_ABOVE ("box_volume", "in3", 0, 1e4, NAN, TL_TREND_RISES,
                  TL_N_ ("volume marked on the box")),
  { NULL },
};
static const TlFormulaOutput nec_outputs[] = {
  { "total", "in3" },
  { "grounding", "in3" },
  { "fits", "word", tl_yes_no_words },
  { "spare", "in3" },
  { NULL },
};

/* Row of a size in a table that begins at AWG 6; -1 if the table has no such size. */
static int
size_index (double awg, int sizes)
{
  const int row = (int) lround (awg) - 6;

  return isnan (awg) || row < 0 || row % 2 != 0 || row / 2 >= sizes ? -1 : row / 2;
}

/* One allowance of the set's largest; from the 2020 edition a quarter more for each above four. */
static gboolean
grounding_in3 (double count, double awg, double edition, const char *size_name, double *sum_in3,
               int *largest, GError **error)
{
  if (count < 0.5)
    return TRUE;
  const int row = size_index (awg, NEC_SIZES);
  if (row < 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("grounding conductors need %s, one of 6, 8, 10, 12, 14, 16, 18"), size_name);
      return FALSE;
    }
  const double quarters = edition >= NEC_EDITION_OF_QUARTERS ? MAX (0.0, count - 4.0) : 0.0;
  *sum_in3 += nec_allowance_in3[row] * (1.0 + 0.25 * quarters);
  *largest = MIN (*largest, row);
  return TRUE;
}

static gboolean
run_nec (const double *in, double *out, GError **error)
{
  const double edition = in[0], *conductors = in + 1, *loops = conductors + NEC_SIZES,
               *rest = loops + NEC_SIZES;
  const double *device_gangs = rest + 7, box_in3 = device_gangs[NEC_SIZES];
  double        total_in3 = 0.0, sum_in3 = 0.0;
  int           largest = NEC_SIZES;

  for (int i = 0; i < NEC_SIZES; i++)
    {
      total_in3 += nec_allowance_in3[i] * (conductors[i] + 2.0 * loops[i] + 2.0 * device_gangs[i]);
      if (conductors[i] + loops[i] > 0.0)
        largest = MIN (largest, i);
    }
  if (!grounding_in3 (rest[0], rest[1], edition, "egc_awg", &sum_in3, &largest, error)
      || !grounding_in3 (rest[2], rest[3], edition, "isolated_egc_awg", &sum_in3, &largest, error))
    return FALSE;
  const int fittings = (rest[4] > 0.0) + (rest[5] > 0.0) + (rest[6] > 0.0);
  if (fittings > 0 && largest == NEC_SIZES)
    return tl_formula_refuse (error, _ ("clamps, studs and hickeys count as the largest conductor; "
                                        "at least one conductor is needed"));
  if (fittings > 0)
    total_in3 += fittings * nec_allowance_in3[largest];
  out[0] = total_in3 + sum_in3;
  out[1] = sum_in3;
  if (!isnan (box_in3))
    {
      out[2] = out[0] <= box_in3 * (1.0 + EQUAL_SHARE) ? 1 : 0;
      out[3] = box_in3 - out[0];
    }
  return TRUE;
}

static const TlFormulaInput cec_inputs[] = {
  SIZE_COUNTS ("conductors_", 14, TL_N_ ("insulated conductors that count, by AWG")),
  TL_COUNT ("connectors", 1000, 0,
            TL_N_ ("insulated-cap connectors, each full pair counts one conductor")),
  TL_COUNT ("fittings", 100, 0, TL_N_ ("kinds of stud and hickey")),
  TL_COUNT ("devices", 100, 0,
            TL_N_ ("straps with a device up to 25.4 mm deep, two conductors each")),
  MAYBE_AWG ("charged_awg", 14, TL_N_ ("AWG at which connectors, fittings and devices count")),
  TL_MAYBE ("deep_device_depth", "mm", 0, 500, 0, TL_TREND_RISES,
            TL_N_ ("depth behind the strap of a deeper device")),
  TL_MAYBE_ABOVE ("box_volume", "mL", 0, 1e5, NAN, TL_TREND_RISES,
                  TL_N_ ("volume marked on the box")),
  { NULL },
};
static const TlFormulaOutput cec_outputs[] = { { "total", "mL" },
                                               { "fits", "word", tl_yes_no_words },
                                               { NULL } };

static gboolean
run_cec (const double *in, double *out, GError **error)
{
  const double *conductors = in, *rest = in + CEC_SIZES;
  const double  connectors = rest[0], fittings = rest[1], devices = rest[2], charged_awg = rest[3],
               deep_mm = rest[4], box_mL = rest[5];
  const double extra = floor (connectors / 2.0) + fittings + 2.0 * devices;
  const int    charged = size_index (charged_awg, CEC_SIZES);

  if (extra > 0.0 && charged < 0)
    {
      g_set_error (
          error, TL_ERROR, TL_ERROR_NAME,
          _ ("connectors, fittings and devices need charged_awg, one of 6, 8, 10, 12, 14"));
      return FALSE;
    }
  out[0] = deep_mm * CEC_DEEP_DEVICE_ML_PER_MM;
  for (int i = 0; i < CEC_SIZES; i++)
    out[0] += conductors[i] * cec_allowance_mL[i];
  if (extra > 0.0)
    out[0] += extra * cec_allowance_mL[charged];
  if (!isnan (box_mL))
    out[1] = out[0] <= box_mL * (1.0 + EQUAL_SHARE) ? 1 : 0;
  return TRUE;
}

static const TlFormulaInput free_inputs[] = {
  TL_ABOVE ("opening_width", "in", 0, 1e3, TL_TREND_FALLS, TL_N_ ("width of the opening")),
  TL_ABOVE ("opening_height", "in", 0, 1e3, TL_TREND_FALLS, TL_N_ ("height of the opening")),
  TL_FROM ("entry_depth", "in", 0, 1e3, TL_TREND_RISES,
           TL_N_ ("where the conductor leaves sheath or raceway, behind the opening")),
  { NULL },
};
static const TlFormulaOutput free_outputs[] = { { "length", "in" }, { NULL } };

static gboolean
run_free (const double *in, double *out, GError **error)
{
  const double width_in = in[0], height_in = in[1], entry_in = in[2];

  out[0] = MIN (width_in, height_in) < 8.0 ? MAX (6.0, entry_in + 3.0) : 6.0;
  return TRUE;
}

static const TlFormulaInput depth_inputs[] = {
  TL_FROM ("joint_diameter", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("joint with its sleeve")),
  TL_FROM ("bend_radius", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("inside radius of the bend")),
  TL_FROM ("conductor_diameter", "mm", 0, 1e3, TL_TREND_RISES,
           TL_N_ ("conductor over its insulation")),
  TL_FROM ("clearance", "mm", 0, 1e3, TL_TREND_RISES, TL_N_ ("clearance to each wall")),
  { NULL },
};
static const TlFormulaOutput depth_outputs[] = { { "depth", "mm" }, { NULL } };

static gboolean
run_depth (const double *in, double *out, GError **error)
{
  const double joint_mm = in[0], bend_mm = in[1], conductor_mm = in[2], clearance_mm = in[3];

  out[0] = MAX (joint_mm, bend_mm + conductor_mm) + 2.0 * clearance_mm;
  return TRUE;
}

static const TlFormulaInput length_inputs[] = {
  TL_FROM ("joint_length", "mm", 0, 1e4, TL_TREND_RISES,
           TL_N_ ("length of the joint with its sleeve")),
  TL_FROM ("lead_1", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("straight lead at one end")),
  TL_FROM ("lead_2", "mm", 0, 1e4, TL_TREND_RISES, TL_N_ ("straight lead at the other end")),
  TL_MAYBE_ABOVE ("inner_width", "mm", 0, 1e4, NAN, TL_TREND_RISES, TL_N_ ("inside of the box")),
  { NULL },
};
static const TlFormulaOutput length_outputs[] = { { "length", "mm" },
                                                  { "fits", "word", tl_yes_no_words },
                                                  { NULL } };

static gboolean
run_length (const double *in, double *out, GError **error)
{
  const double inner_mm = in[3];

  out[0] = in[0] + in[1] + in[2];
  if (!isnan (inner_mm))
    out[1] = out[0] <= inner_mm * (1.0 + EQUAL_SHARE) ? 1 : 0;
  return TRUE;
}

const TlFormula tl_room_formulas[] = {
  { "box-fill-nec", TL_N_ ("Volume that a box must have, NFPA 70"),
    "18 to 6 AWG: 1.50, 1.75, 2.00, 2.25, 2.50, 3.00, 5.00 in3; grounding: one allowance of its "
    "largest, from edition 2020 a quarter "
    "more for each above four; clamps, studs, hickeys one allowance each kind of the largest "
    "conductor in the box; device two "
    "allowances a gang; fits when total <= box_volume",
    "NFPA 70 314.16(B) (seen)", TL_TRUST_A, nec_inputs, nec_outputs, run_nec },
  { "box-fill-cec", TL_N_ ("Volume that a box must have, CSA C22.1"),
    "14 to 6 AWG: 24.6, 28.7, 36.9, 45.1, 73.7 mL; a deep device takes 3.2 mL a mm; fits when "
    "total <= box_volume",
    "CSA C22.1 rule 12-3034 (seen; rule number may differ by edition)", TL_TRUST_A, cec_inputs,
    cec_outputs, run_cec },
  { "free-conductor-length", TL_N_ ("Free conductor at a box, NFPA 70"),
    "6 in; when any side of the opening is under 8 in also entry_depth + 3 in, the larger",
    "NFPA 70 300.14 (seen)", TL_TRUST_A, free_inputs, free_outputs, run_free },
  { "box-depth", TL_N_ ("Depth that a joint needs in a box"),
    "depth = max(joint, bend + conductor) + 2 clearance", "geometry", TL_TRUST_A, depth_inputs,
    depth_outputs, run_depth },
  { "box-length", TL_N_ ("Length that a joint needs in a box"),
    "length = joint + leads; fits when length <= inner_width", "geometry", TL_TRUST_A,
    length_inputs, length_outputs, run_length },
  { NULL },
};
