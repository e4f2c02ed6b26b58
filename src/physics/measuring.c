/* measuring.c: lengths from a picture, and how far they can be trusted.
 *
 * One edge as scale on a tilted plane gave errors of -4 to +8.5 %; four points correct only their own plane.
 * Sources: first-order propagation (GUM), pinhole geometry, projective geometry (textbook), Exif tag 0x0112.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include <gsl/gsl_linalg.h>

#define DEG_RAD (G_PI / 180.0)

static const TlFormulaInput scale_inputs[] = {
  TL_ABOVE ("reference", "mm", 0, 1e5, TL_TREND_RISES, TL_N_ ("known length")),
  TL_FROM ("reference_uncertainty", "mm", 0, 1e4, TL_TREND_RISES,
           TL_N_ ("its standard uncertainty")),
  TL_ABOVE ("reference_pixels", "px", 0, 1e6, TL_TREND_FALLS, TL_N_ ("its length in the picture")),
  TL_ABOVE ("pixels", "px", 0, 1e6, TL_TREND_RISES,
            TL_N_ ("length of the thing measured in the picture")),
  TL_FROM ("click", "px", 0, 1e4, TL_TREND_RISES, TL_N_ ("standard deviation of one click")),
  { NULL },
};
static const TlFormulaOutput scale_outputs[] = {
  { "length", "mm" }, { "uncertainty", "mm" }, { "expanded", "mm" }, { NULL }
};

static gboolean
run_scale (const double *in, double *out, GError **error)
{
  const double reference_mm = in[0], reference_u_mm = in[1], reference_px = in[2], thing_px = in[3],
               click_px = in[4];
  const double a = reference_u_mm / reference_mm, b = click_px / reference_px,
               c = click_px / thing_px;

  out[0] = reference_mm / reference_px * thing_px;
  out[1] = out[0] * sqrt (a * a + 2.0 * b * b + 2.0 * c * c);
  out[2] = 2.0 * out[1];
  return TRUE;
}

static const TlFormulaInput plane_inputs[] = {
  TL_MAYBE_ABOVE ("distance", "mm", 0, 1e6, NAN, TL_TREND_NEITHER,
                  TL_N_ ("camera to the scale, for depth_error")),
  TL_MAYBE ("depth", "mm", -1e5, 1e5, 0, TL_TREND_RISES,
            TL_N_ ("how much nearer than the scale the feature is")),
  TL_MAYBE ("tilt", "deg", -89, 89, 0, TL_TREND_NEITHER, TL_N_ ("tilt across the line")),
  { NULL },
};
static const TlFormulaOutput plane_outputs[] = { { "depth_error", "%" },
                                                 { "tilt_error", "%" },
                                                 { NULL } };

static gboolean
run_plane (const double *in, double *out, GError **error)
{
  const double distance_mm = in[0], depth_mm = in[1], tilt_rad = in[2] * DEG_RAD;

  if (depth_mm >= distance_mm)
    return tl_formula_refuse (
        error, _ ("the feature lies behind the camera; its depth must be less than the distance"));
  out[0] = 100.0 * depth_mm / (distance_mm - depth_mm);
  out[1] = 100.0 * (cos (tilt_rad) - 1.0);
  return TRUE;
}

#define CORNERS 4
#define CORNER_LIST(input, in_unit, says)                                                          \
  {                                                                                                \
    .name = input, .unit = in_unit, .low = -1e6, .high = 1e6, .fallback = NAN, .first = 1,         \
    .last = CORNERS, .step = 1, .least = CORNERS, .trend = TL_TREND_NEITHER, .meaning = says       \
  }

static const TlFormulaInput homography_inputs[] = {
  CORNER_LIST ("x_", "px", TL_N_ ("corner in the picture")),
  CORNER_LIST ("y_", "px", TL_N_ ("corner in the picture")),
  CORNER_LIST ("world_x_", "mm", TL_N_ ("the same corner in its plane")),
  CORNER_LIST ("world_y_", "mm", TL_N_ ("the same corner in its plane")),
  TL_FROM ("x", "px", -1e6, 1e6, TL_TREND_NEITHER, TL_N_ ("point in the picture")),
  TL_FROM ("y", "px", -1e6, 1e6, TL_TREND_NEITHER, TL_N_ ("point in the picture")),
  { NULL },
};
static const TlFormulaOutput homography_outputs[] = { { "world_x", "mm" },
                                                      { "world_y", "mm" },
                                                      { NULL } };

/* Twice the area of the smallest triangle of three corners, against the square of their spread. */
static gboolean
has_three_on_a_line (const double *x, const double *y)
{
  double spread = 0.0, least = INFINITY;

  for (guint i = 0; i < CORNERS; i++)
    {
      const guint j = (i + 1) % CORNERS, k = (i + 2) % CORNERS;

      spread = MAX (spread, MAX (fabs (x[i] - x[0]), fabs (y[i] - y[0])));
      least = MIN (least, fabs ((x[j] - x[i]) * (y[k] - y[i]) - (x[k] - x[i]) * (y[j] - y[i])));
    }
  return !(least > 1e-6 * spread * spread);
}

/* Coordinates are moved and divided by their spread first, so that pivots and horizon have one scale. */
static gboolean
run_homography (const double *in, double *out, GError **error)
{
  const double *x = in, *y = in + CORNERS, *world_x = in + 2 * CORNERS, *world_y = in + 3 * CORNERS;
  const double mid_x = (x[0] + x[1] + x[2] + x[3]) / 4.0, mid_y = (y[0] + y[1] + y[2] + y[3]) / 4.0;
  double       spread = 0.0, world_spread = 0.0, m[64], r[8];

  for (guint i = 0; i < CORNERS; i++)
    {
      spread = MAX (spread, MAX (fabs (x[i] - mid_x), fabs (y[i] - mid_y)));
      world_spread =
          MAX (world_spread, MAX (fabs (world_x[i] - world_x[0]), fabs (world_y[i] - world_y[0])));
    }
  if (has_three_on_a_line (x, y) || has_three_on_a_line (world_x, world_y))
    return tl_formula_refuse (
        error, _ ("three of the four corners lie on one line; no three of them may"));
  for (guint i = 0; i < CORNERS; i++)
    {
      const double px = (x[i] - mid_x) / spread, py = (y[i] - mid_y) / spread;
      const double wx = (world_x[i] - world_x[0]) / world_spread,
                   wy = (world_y[i] - world_y[0]) / world_spread;
      const double row_x[] = { px, py, 1, 0, 0, 0, -wx * px, -wx * py },
                   row_y[] = { 0, 0, 0, px, py, 1, -wy * px, -wy * py };

      for (guint j = 0; j < 8; j++)
        {
          m[16 * i + j] = row_x[j];
          m[16 * i + 8 + j] = row_y[j];
        }
      r[2 * i] = wx;
      r[2 * i + 1] = wy;
    }
  size_t          order[8];
  gsl_permutation permutation = { 8, order };
  gsl_matrix_view matrix = gsl_matrix_view_array (m, 8, 8);
  gsl_vector_view unknowns = gsl_vector_view_array (r, 8);
  int             sign;

  /* Pivots are looked at before solving: GSL's default handler ends the program on a singular matrix. */
  gsl_linalg_LU_decomp (&matrix.matrix, &permutation, &sign);
  for (guint i = 0; i < 8; i++)
    if (!(fabs (m[9 * i]) > 1e-9))
      return tl_formula_refuse (
          error,
          _ ("the corners are in the wrong order; give both lists in the same order around"));
  gsl_linalg_LU_svx (&matrix.matrix, &permutation, &unknowns.vector);

  const double px = (in[16] - mid_x) / spread, py = (in[17] - mid_y) / spread;
  const double scale = r[6] * px + r[7] * py + 1.0;
  if (!(scale > 1e-9))
    return tl_formula_refuse (
        error,
        _ ("the point lies beyond the horizon of the plane; it must be nearer to the corners"));
  out[0] = world_x[0] + world_spread * (r[0] * px + r[1] * py + r[2]) / scale;
  out[1] = world_y[0] + world_spread * (r[3] * px + r[4] * py + r[5]) / scale;
  return TRUE;
}

static const TlFormulaInput orientation_inputs[] = {
  { .name = "code",
    .unit = "1",
    .low = 1,
    .high = 8,
    .fallback = NAN,
    .whole = TRUE,
    .trend = TL_TREND_NEITHER,
    .meaning = TL_N_ ("orientation code, 1 to 8") },
  TL_FROM ("width", "px", 1, 1e6, TL_TREND_RISES, TL_N_ ("width as stored")),
  TL_FROM ("height", "px", 1, 1e6, TL_TREND_RISES, TL_N_ ("height as stored")),
  TL_FROM ("x", "px", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("column as stored")),
  TL_FROM ("y", "px", 0, 1e6, TL_TREND_NEITHER, TL_N_ ("row as stored")),
  { NULL },
};
static const TlFormulaOutput orientation_outputs[] = { { "upright_x", "px" },
                                                       { "upright_y", "px" },
                                                       { NULL } };

static gboolean
run_orientation (const double *in, double *out, GError **error)
{
  const int      code = (int) lround (in[0]);
  const double   width_px = in[1], height_px = in[2], x = in[3], y = in[4];
  const gboolean swapped = code >= 5;
  /* Codes 2, 3, 7, 8 count the columns backwards, codes 3, 4, 6, 7 the rows; 5 to 8 then swap the axes. */
  const double   column = code == 2 || code == 3 || code == 7 || code == 8 ? width_px - 1.0 - x : x;
  const double   row = code == 3 || code == 4 || code == 6 || code == 7 ? height_px - 1.0 - y : y;

  if (x > width_px - 1.0 || y > height_px - 1.0)
    return tl_formula_refuse (
        error, _ ("the point lies outside the picture; it must be less than width and height"));
  out[0] = swapped ? row : column;
  out[1] = swapped ? column : row;
  return TRUE;
}

const TlFormula tl_measuring_formulas[] = {
  { "image-scale", TL_N_ ("Length in a picture from a known length"),
    "L = ref/n_ref n; u/L = sqrt((u_ref/ref)^2 + 2 (q/n_ref)^2 + 2 (q/n)^2); expanded = 2 u",
    "first-order propagation, GUM", TL_TRUST_B, scale_inputs, scale_outputs, run_scale },
  { "image-plane-error", TL_N_ ("Error of a length that lies in another plane"),
    "depth_error = 100 (Z/(Z - d) - 1); tilt_error = 100 (cos t - 1)", "pinhole geometry",
    TL_TRUST_A, plane_inputs, plane_outputs, run_plane },
  { "homography-point", TL_N_ ("Point of a plane from four known corners"),
    "eight linear equations for the plane map with last element 1, then the point",
    "projective geometry, textbook", TL_TRUST_A, homography_inputs, homography_outputs,
    run_homography },
  { "image-orientation", TL_N_ ("Upright place of a stored picture point"),
    "stored pixel to upright pixel for each orientation code", "Exif orientation tag 0x0112 (seen)",
    TL_TRUST_A, orientation_inputs, orientation_outputs, run_orientation },
  { NULL },
};
