/* test-measure.c: worked examples of measuring in pictures, limits, and references that are refused.
 *
 * Cases P1 to P6 and H: worked examples computed apart from this program (first-order propagation; pinhole camera).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/measure.h"

#include <math.h>
#include <string.h>

static TlStock *stock;

static void
add (GArray *points, double x, double y)
{
  TlPixel pixel = { x, y };

  g_array_append_val (points, pixel);
}

/* Nothing but clicks and the known size is uncertain. */
static TlScale *
plain_length (double reference_mm, double u_mm, double reference_px, double click_px)
{
  TlScale *scale = tl_scale_new (TL_SCALE_LENGTH, stock);

  add (scale->points, 100, 100);
  add (scale->points, 100 + reference_px, 100);
  scale->length_mm = reference_mm;
  scale->reference_mm = u_mm;
  scale->click_px = click_px;
  scale->tilt_deg = scale->distortion_ratio = scale->bias_px = 0.0;
  scale->plane = TL_PLANE_SAME;
  return scale;
}

static TlMeasure *
length_of (double x0, double y0, double x1, double y1)
{
  TlMeasure *measure = tl_record_new (&tl_measure_form);

  add (measure->points, x0, y0);
  add (measure->points, x1, y1);
  return measure;
}

typedef struct
{
  const char *name;
  double      ref, u_ref, n_ref, n, q, length, u, expanded;
} Worked;

static const Worked worked[] = {
  { "P1", 50, 0.05, 1000, 240, 1, 12.000, 0.0737, 0.147 },
  { "P2", 50, 0.05, 1000, 24, 1, 1.200, 0.0707, 0.141 },
  { "P3", 50, 0.05, 1000, 12, 1, 0.600, 0.0707, 0.141 },
  { "P4", 10, 0.1, 200, 240, 1, 12.000, 0.1631, 0.326 },
  { "P5", 100, 0.1, 2000, 300, 2, 15.000, 0.1438, 0.288 },
  { "P6", 25, 0.25, 500, 100, 1.5, 5.000, 0.1192, 0.238 },
};

static void
test_worked (gconstpointer data)
{
  const Worked   *c = data;
  TlScale        *scale = plain_length (c->ref, c->u_ref, c->n_ref, c->q);
  TlMeasure      *measure = length_of (300, 300, 300 + c->n * 0.6, 300 + c->n * 0.8);
  TlMeasureResult result;
  g_autoptr (GError) error = NULL;

  g_assert_true (tl_measure_run (measure, scale, 4000, 3000, &result, &error));
  g_assert_cmpfloat_with_epsilon (result.value, c->length, 5e-4);
  g_assert_cmpfloat_with_epsilon (hypot (result.click, result.reference), c->u, 1e-4);
  g_assert_cmpfloat_with_epsilon (result.expanded, c->expanded, 6e-4);
  tl_record_unref (scale);
  tl_record_unref (measure);
}

/* P1 with the line leaning up to 10 degrees: 12.092 mm, u 0.092, U 0.18 (worked example). */
static void
test_lean (void)
{
  TlScale        *scale = plain_length (50, 0.05, 1000, 1);
  TlMeasure      *measure = length_of (300, 300, 540, 300);
  TlMeasureResult result;

  measure->lean_deg = 10.0;
  g_assert_true (tl_measure_run (measure, scale, 4000, 3000, &result, NULL));
  g_assert_cmpfloat_with_epsilon (result.value, 12.092, 1e-3);
  g_assert_cmpfloat_with_epsilon (result.expanded / 2.0, 0.092, 1e-3);
  tl_record_unref (scale);
  tl_record_unref (measure);
}

/* Case H: rectangle 80 by 50 mm, tilted by 20 and 12 degrees; figures of the worked example. */
static TlScale *
case_h (void)
{
  TlScale *scale = tl_scale_new (TL_SCALE_RECTANGLE, stock);

  add (scale->points, 1509.1, 1218.0);
  add (scale->points, 2480.2, 1197.9);
  add (scale->points, 2490.8, 1781.9);
  add (scale->points, 1579.9, 1764.3);
  scale->length_mm = 80;
  scale->height_mm = 50;
  scale->click_px = 1;
  scale->distortion_ratio = 0;
  scale->plane = TL_PLANE_SAME;
  return scale;
}

static void
test_case_h (void)
{
  TlScale   *scale = case_h ();
  TlMeasure *ab = length_of (1636.8, 1331.7, 1915.5, 1328.3),
            *ac = length_of (1636.8, 1331.7, 2246.7, 1668.6);
  TlMeasure      *outside = length_of (2872.4, 1500.0, 3141.9, 1500.0);
  TlMeasureResult result;

  g_assert_true (tl_measure_run (ab, scale, 4000, 3000, &result, NULL));
  g_assert_cmpfloat_with_epsilon (result.value, 24.005, 1e-3);
  g_assert_cmpfloat_with_epsilon (result.click, 0.131, 1e-3);
  g_assert_false (result.is_outside);
  g_assert_true (tl_measure_run (ac, scale, 4000, 3000, &result, NULL));
  g_assert_cmpfloat_with_epsilon (result.value, 58.311, 1e-3);
  g_assert_cmpfloat_with_epsilon (result.click, 0.140, 1e-3);
  g_assert_true (tl_measure_run (outside, scale, 4000, 3000, &result, NULL));
  g_assert_cmpfloat_with_epsilon (result.value, 20.004, 1e-3);
  g_assert_cmpfloat_with_epsilon (result.click, 0.178, 1e-3);
  g_assert_true (result.is_outside);
  tl_record_unref (scale);
  tl_record_unref (ab);
  tl_record_unref (ac);
  tl_record_unref (outside);
}

/* 5 mm before the plane at 200 mm: 2.56 % (worked example), a rectangular term, doubled for U. */
static void
test_off_plane (void)
{
  TlScale        *scale = plain_length (50, 0, 1000, 0);
  TlMeasure      *measure = length_of (300, 300, 540, 300);
  TlMeasureResult result;

  scale->plane = TL_PLANE_OFF;
  scale->off_plane_mm = 5;
  scale->distance_mm = 200;
  g_assert_true (tl_measure_run (measure, scale, 4000, 3000, &result, NULL));
  g_assert_true (result.plane_assured);
  g_assert_cmpfloat_with_epsilon (result.expanded, 2.0 * 12.0 * 0.0256 / sqrt (3.0), 1e-3);
  /* As near as the camera: nothing is assured. */
  scale->off_plane_mm = 200;
  g_assert_true (tl_measure_run (measure, scale, 4000, 3000, &result, NULL));
  g_assert_false (result.plane_assured);
  tl_record_unref (scale);
  tl_record_unref (measure);
}

/* Pass only if the whole band lies within; beyond only if none of it does. */
static void
test_decisions (void)
{
  g_assert_cmpint (tl_decide (4.3, 0.3, TL_LIMIT_LEAST, 4.0, 0), ==, TL_DECISION_WITHIN);
  g_assert_cmpint (tl_decide (4.2, 0.3, TL_LIMIT_LEAST, 4.0, 0), ==, TL_DECISION_UNDECIDED);
  g_assert_cmpint (tl_decide (3.6, 0.3, TL_LIMIT_LEAST, 4.0, 0), ==, TL_DECISION_BEYOND);
  g_assert_cmpint (tl_decide (1.0, 0.5, TL_LIMIT_MOST, 1.5, 0), ==, TL_DECISION_WITHIN);
  g_assert_cmpint (tl_decide (1.2, 0.5, TL_LIMIT_MOST, 1.5, 0), ==, TL_DECISION_UNDECIDED);
  g_assert_cmpint (tl_decide (2.1, 0.5, TL_LIMIT_MOST, 1.5, 0), ==, TL_DECISION_BEYOND);
  g_assert_cmpint (tl_decide (10.2, 0.3, TL_LIMIT_BETWEEN, 8, 12), ==, TL_DECISION_WITHIN);
  g_assert_cmpint (tl_decide (11.8, 0.3, TL_LIMIT_BETWEEN, 8, 12), ==, TL_DECISION_UNDECIDED);
  g_assert_cmpint (tl_decide (12.5, 0.3, TL_LIMIT_BETWEEN, 8, 12), ==, TL_DECISION_BEYOND);
  g_assert_cmpint (tl_decide (1.0, 0.1, TL_LIMIT_NONE, 0, 0), ==, TL_DECISION_NONE);
}

static void
test_text (void)
{
  TlScale         *scale = plain_length (50, 0.05, 1000, 1);
  TlMeasure       *measure = length_of (300, 300, 540, 300);
  TlMeasureResult  result;
  g_autofree char *text = NULL, *limit = NULL;

  measure->limit_kind = TL_LIMIT_LEAST;
  measure->limit = 10;
  g_assert_true (tl_measure_run (measure, scale, 4000, 3000, &result, NULL));
  text = tl_measure_text (measure, &result, tl_language_plain ());
  limit = tl_measure_limit_text (measure, tl_language_plain ());
  /* Rounded to the second figure of U where U begins with 1 or 2. */
  g_assert_cmpstr (text, ==, "12.00 ± 0.15\u202fmm");
  g_assert_nonnull (strstr (limit, "at least 10"));
  tl_record_unref (scale);
  tl_record_unref (measure);
}

/* A reference of no length, corners on a line, crossing corners, wrong numbers of points. */
static void
test_refused (void)
{
  static const double bad[][8] = {
    { 0, 0, 100, 0, 200, 1, 100, 80 },  /* three nearly on a line */
    { 0, 0, 100, 100, 100, 0, 0, 100 }, /* crossing */
    { 0, 0, 100, 0, 30, 30, 0, 100 },   /* a corner that goes inwards */
    { 0, 0, 0, 0, 100, 100, 0, 100 },   /* two in one place */
  };
  TlScale *scale;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      scale = tl_scale_new (TL_SCALE_RECTANGLE, stock);
      scale->length_mm = scale->height_mm = 50;
      for (guint k = 0; k < 4; k++)
        add (scale->points, bad[i][2 * k], bad[i][2 * k + 1]);
      g_assert_false (tl_scale_check (scale, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
      tl_record_unref (scale);
    }
  {
    g_autoptr (GError) short_error = NULL, zero_error = NULL, nan_error = NULL;

    scale = plain_length (50, 0, 0, 1);
    g_assert_false (tl_scale_check (scale, &short_error));
    g_assert_error (short_error, TL_ERROR, TL_ERROR_RANGE);
    tl_record_unref (scale);
    scale = plain_length (0, 0, 100, 1);
    g_assert_false (tl_scale_check (scale, &zero_error));
    g_assert_error (zero_error, TL_ERROR, TL_ERROR_RANGE);
    tl_record_unref (scale);
    scale = plain_length (NAN, 0, 100, 1);
    g_assert_false (tl_scale_check (scale, &nan_error));
    g_assert_error (nan_error, TL_ERROR, TL_ERROR_RANGE);
    tl_record_unref (scale);
  }
}

/* Points in one place, on a line where a circle is wanted, beyond the horizon. */
static void
test_no_figure (void)
{
  TlScale        *scale = case_h ();
  TlMeasure      *measure = length_of (500, 500, 500, 500);
  TlMeasureResult result = { 0 };
  g_autoptr (GError) same = NULL, line = NULL, horizon = NULL;

  g_assert_false (tl_measure_run (measure, scale, 4000, 3000, &result, &same));
  g_assert_error (same, TL_ERROR, TL_ERROR_RANGE);
  measure->kind = TL_MEASURE_DIAMETER;
  g_array_set_size (measure->points, 0);
  for (guint i = 0; i < 3; i++)
    add (measure->points, 2000, 1300 + 100 * i);
  measure->points->len = 3;
  scale = (tl_record_unref (scale), plain_length (50, 0.05, 1000, 1));
  g_assert_false (tl_measure_run (measure, scale, 4000, 3000, &result, &line));
  g_assert_error (line, TL_ERROR, TL_ERROR_RANGE);
  tl_record_unref (scale);
  scale = case_h ();
  measure->kind = TL_MEASURE_LENGTH;
  g_array_set_size (measure->points, 0);
  add (measure->points, 2000, 1500);
  add (measure->points, 2000, 90000);
  g_assert_false (tl_measure_run (measure, scale, 4000, 3000, &result, &horizon));
  g_assert_error (horizon, TL_ERROR, TL_ERROR_RANGE);
  tl_record_unref (scale);
  tl_record_unref (measure);
}

int
main (int argc, char **argv)
{
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (worked); i++)
    {
      g_autofree char *path = g_strconcat ("/measure/worked/", worked[i].name, NULL);

      g_test_add_data_func (path, &worked[i], test_worked);
    }
  g_test_add_func ("/measure/lean", test_lean);
  g_test_add_func ("/measure/case-h", test_case_h);
  g_test_add_func ("/measure/off-plane", test_off_plane);
  g_test_add_func ("/measure/decisions", test_decisions);
  g_test_add_func ("/measure/text", test_text);
  g_test_add_func ("/measure/refused", test_refused);
  g_test_add_func ("/measure/no-figure", test_no_figure);
  code = g_test_run ();
  tl_stock_unref (stock);
  return code;
}
