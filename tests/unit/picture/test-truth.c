/* test-truth.c: measures in pictures whose truth is known, over random slants.
 *
 * The truth comes from a pinhole camera of this file: it turns points of space by an axis and an angle and divides by
 * depth; it shares nothing with the map that is tested. Seeds are fixed; GLib prints the one of each run.
 * Expected share: U is stated for k = 2, some 95 % (GUM).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/inspection.h"

#include <math.h>

#define TRIALS 10000u
#define WIDTH 4000u
#define HEIGHT 3000u

static TlStock *stock;

/* --- a pinhole camera --- */

typedef struct
{
  double axis[3], angle; /* of the plane against the camera */
  double distance_mm;    /* to the middle of the plane, along the line of sight */
  double focal_px;
  double barrel;   /* displacement at the corner of the picture, as a share */
  double click_px; /* standard deviation */
} Camera;

static GRand *dice;

static double
gauss (void)
{
  double u = 1.0 - g_rand_double (dice), v = g_rand_double (dice);

  return sqrt (-2.0 * log (u)) * cos (2.0 * G_PI * v);
}

/* A point of the plane at @x, @y mm from its middle and @z mm before it, as a pixel without click. */
static TlPixel
see (const Camera *camera, double x, double y, double z)
{
  const double *k = camera->axis;
  double c = cos (camera->angle), s = sin (camera->angle), p[3] = { x, y, -z }, q[3], dot, px, py,
         r, half;

  dot = k[0] * p[0] + k[1] * p[1] + k[2] * p[2];
  q[0] = p[0] * c + (k[1] * p[2] - k[2] * p[1]) * s + k[0] * dot * (1.0 - c);
  q[1] = p[1] * c + (k[2] * p[0] - k[0] * p[2]) * s + k[1] * dot * (1.0 - c);
  q[2] = p[2] * c + (k[0] * p[1] - k[1] * p[0]) * s + k[2] * dot * (1.0 - c) + camera->distance_mm;
  px = camera->focal_px * q[0] / q[2];
  py = camera->focal_px * q[1] / q[2];
  half = hypot (WIDTH, HEIGHT) / 2.0;
  r = hypot (px, py) / half;
  return (TlPixel){ WIDTH / 2.0 + px * (1.0 - camera->barrel * r * r),
                    HEIGHT / 2.0 + py * (1.0 - camera->barrel * r * r) };
}

static TlPixel
click (const Camera *camera, TlPixel pixel)
{
  pixel.x_px += camera->click_px * gauss ();
  pixel.y_px += camera->click_px * gauss ();
  return pixel;
}

static Camera
random_camera (double most_tilt_deg)
{
  double way = g_rand_double_range (dice, 0.0, 2.0 * G_PI);
  Camera camera = { { cos (way), sin (way), 0.0 }, 0.0, 0.0, 0.0, 0.0, 0.0 };

  camera.angle = g_rand_double_range (dice, 0.0, most_tilt_deg) * G_PI / 180.0;
  camera.distance_mm = g_rand_double_range (dice, 200.0, 350.0);
  camera.focal_px = 3000.0;
  camera.click_px = 1.0;
  return camera;
}

/* --- trials --- */

typedef struct
{
  guint covered, decided_wrong, outside;
} Count;

static TlScale *
rectangle (const Camera *camera, double bias_px)
{
  static const double corners[4][2] = { { -40, -25 }, { 40, -25 }, { 40, 25 }, { -40, 25 } };
  TlScale            *scale = tl_scale_new (TL_SCALE_RECTANGLE, stock);
  TlPixel             middle = see (camera, 0, 0, 0);

  for (guint i = 0; i < 4; i++)
    {
      TlPixel pixel = see (camera, corners[i][0], corners[i][1], 0.0);
      double  dx = pixel.x_px - middle.x_px, dy = pixel.y_px - middle.y_px, r = hypot (dx, dy);

      pixel.x_px += dx / r * bias_px;
      pixel.y_px += dy / r * bias_px;
      pixel = click (camera, pixel);
      g_array_append_val (scale->points, pixel);
    }
  scale->length_mm = 80.0;
  scale->height_mm = 50.0;
  scale->plane = TL_PLANE_SAME;
  scale->distortion_ratio = 0.0;
  return scale;
}

/* One length of 4 to 40 mm inside the rectangle, @z_mm before its plane. @result: what is said of it; returns the truth. */
static double
one_length (const Camera *camera, const TlScale *scale, double z_mm, TlMeasure *measure,
            TlMeasureResult *result)
{
  double x0, y0, x1, y1;
  g_autoptr (GError) error = NULL;

  do
    {
      x0 = g_rand_double_range (dice, -38, 38);
      y0 = g_rand_double_range (dice, -23, 23);
      x1 = g_rand_double_range (dice, -38, 38);
      y1 = g_rand_double_range (dice, -23, 23);
    }
  while (hypot (x1 - x0, y1 - y0) < 4.0 || hypot (x1 - x0, y1 - y0) > 40.0);
  g_array_set_size (measure->points, 0);
  for (guint i = 0; i < 2; i++)
    {
      TlPixel pixel = click (camera, see (camera, i == 0 ? x0 : x1, i == 0 ? y0 : y1, z_mm));

      g_array_append_val (measure->points, pixel);
    }
  if (!tl_measure_run (measure, scale, WIDTH, HEIGHT, result, &error))
    g_error ("%s", error->message);
  return hypot (x1 - x0, y1 - y0);
}

/* Slant up to 35 degrees, no lens, in the plane: only clicks are uncertain. */
static void
test_slant (void)
{
  TlMeasure *measure = tl_record_new (&tl_measure_form);
  guint      covered = 0;
  double     sum = 0.0;

  dice = g_rand_new_with_seed (51);
  for (guint i = 0; i < TRIALS; i++)
    {
      Camera          camera = random_camera (35.0);
      TlScale        *scale = rectangle (&camera, 0.0);
      TlMeasureResult result;
      double          truth = one_length (&camera, scale, 0.0, measure, &result);

      g_assert_true (result.plane_assured);
      covered += ABS (result.value - truth) <= result.expanded ? 1 : 0;
      sum += (result.value - truth) * (result.value - truth)
             / (result.expanded * result.expanded / 4.0);
      tl_record_unref (scale);
    }
  g_test_message ("covered %u of %u, squared error against u: %.3f", covered, TRIALS, sum / TRIALS);
  g_assert_cmpuint (covered, >=, TRIALS * 95 / 100);
  /* U is not padded either: the spread is that of u within a tenth. */
  g_assert_cmpfloat (sum / TRIALS, >, 0.9);
  g_assert_cmpfloat (sum / TRIALS, <, 1.1);
  tl_record_unref (measure);
  g_rand_free (dice);
}

/* Lens of 1 to 3 %, things 2 to 10 mm before the plane, corners hit 0 to 2 px outside. */
static void
test_rough (void)
{
  TlMeasure *measure = tl_record_new (&tl_measure_form);
  guint      covered = 0, left_alone = 0;

  dice = g_rand_new_with_seed (52);
  measure->limit_kind = TL_LIMIT_MOST;
  for (guint i = 0; i < TRIALS; i++)
    {
      Camera          camera = random_camera (30.0);
      double          z_mm = g_rand_double_range (dice, 2.0, 10.0);
      TlScale        *scale;
      TlMeasureResult result;
      double          truth;

      camera.barrel = g_rand_double_range (dice, 0.01, 0.03);
      scale = rectangle (&camera, g_rand_double_range (dice, 0.0, 2.0));
      scale->distortion_ratio = 0.03;
      scale->bias_px = 2.0;
      scale->distance_mm = camera.distance_mm;
      scale->off_plane_mm = 10.0;
      scale->plane = TL_PLANE_OFF;
      truth = one_length (&camera, scale, z_mm, measure, &result);
      covered += ABS (result.value - truth) <= result.expanded ? 1 : 0;

      /* Nobody says where the thing lies: shown, and nothing decided, whatever the limit. */
      scale->plane = TL_PLANE_UNKNOWN;
      truth = one_length (&camera, scale, z_mm, measure, &result);
      measure->limit = g_rand_boolean (dice) ? truth * 2.0 : truth / 2.0;
      left_alone +=
          !result.plane_assured && tl_measure_decide (measure, &result) == TL_DECISION_UNDECIDED
              ? 1
              : 0;
      tl_record_unref (scale);
    }
  g_test_message ("covered %u of %u", covered, TRIALS);
  g_assert_cmpuint (covered, >=, TRIALS * 95 / 100);
  g_assert_cmpuint (left_alone, ==, TRIALS);
  tl_record_unref (measure);
  g_rand_free (dice);
}

/* One known length on a plane that leans by up to the stated 15 degrees, nobody knows which way. */
static void
test_one_length (void)
{
  TlMeasure *measure = tl_record_new (&tl_measure_form);
  guint      covered = 0;

  dice = g_rand_new_with_seed (53);
  for (guint i = 0; i < TRIALS; i++)
    {
      Camera          camera = random_camera (15.0);
      TlScale        *scale = tl_scale_new (TL_SCALE_LENGTH, stock);
      TlMeasureResult result;
      double          truth;

      for (guint k = 0; k < 2; k++)
        {
          TlPixel pixel = click (&camera, see (&camera, k == 0 ? -25.0 : 25.0, 20.0, 0.0));

          g_array_append_val (scale->points, pixel);
        }
      scale->length_mm = 50.0;
      scale->tilt_deg = 15.0;
      scale->distance_mm = camera.distance_mm;
      scale->plane = TL_PLANE_SAME;
      scale->distortion_ratio = 0.0;
      truth = one_length (&camera, scale, 0.0, measure, &result);
      covered += ABS (result.value - truth) <= result.expanded ? 1 : 0;
      tl_record_unref (scale);
    }
  g_test_message ("covered %u of %u", covered, TRIALS);
  g_assert_cmpuint (covered, >=, TRIALS * 95 / 100);
  tl_record_unref (measure);
  g_rand_free (dice);
}

/* Every kind of figure on a slanted plane, without clicks: the truth to a thousandth. */
static void
test_kinds (void)
{
  static const struct
  {
    TlMeasureKind kind;
    guint         n;
    double        xy[8], truth;
  } cases[] = {
    { TL_MEASURE_LENGTH, 2, { -10, 0, 20, 0 }, 30.0 },
    { TL_MEASURE_GAP, 2, { 0, -3, 0, 1.5 }, 4.5 },
    { TL_MEASURE_WIDTH, 3, { -10, -5, 15, -5, 3, 7 }, 12.0 },
    { TL_MEASURE_DIAMETER, 3, { 8, 0, 0, 8, -8, 0 }, 16.0 },
    { TL_MEASURE_ANGLE, 3, { 20, 0, 0, 0, 10, 10 }, 45.0 },
    { TL_MEASURE_AREA, 4, { -5, -5, 15, -5, 15, 5, -5, 5 }, 200.0 },
  };

  dice = g_rand_new_with_seed (54);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Camera          camera = random_camera (30.0);
      TlMeasure      *measure = tl_record_new (&tl_measure_form);
      TlScale        *scale;
      TlMeasureResult result;
      g_autoptr (GError) error = NULL;

      camera.click_px = 0.0;
      scale = rectangle (&camera, 0.0);
      measure->kind = cases[i].kind;
      for (guint k = 0; k < cases[i].n; k++)
        {
          TlPixel pixel = see (&camera, cases[i].xy[2 * k], cases[i].xy[2 * k + 1], 0.0);

          g_array_append_val (measure->points, pixel);
        }
      g_assert_true (tl_measure_run (measure, scale, WIDTH, HEIGHT, &result, &error));
      g_assert_cmpfloat_with_epsilon (result.value, cases[i].truth, 1e-6 * cases[i].truth);
      g_assert_cmpfloat (result.expanded, >, 0.0);
      tl_record_unref (measure);
      tl_record_unref (scale);
    }
  g_rand_free (dice);
}

/* What the camera noted gives the distance within a tenth, whatever the slant; by a full frame of 36 by 24 mm exactly. */
static void
test_distance (void)
{
  TlPhoto *photo = tl_record_new (&tl_photo_form);
  TlScale *scale;
  guint    near = 0;

  photo->width = WIDTH;
  photo->height = HEIGHT;
  /* By definition of the note: as a lens of this length before a film of 43.27 mm from corner to corner. */
  photo->focal_mm = 3000.0 * hypot (36.0, 24.0) / hypot (WIDTH, HEIGHT);
  dice = g_rand_new_with_seed (55);
  for (guint i = 0; i < 2000; i++)
    {
      Camera camera = random_camera (35.0);
      double found;

      scale = rectangle (&camera, 0.0);
      found = tl_scale_distance_mm (scale, photo);
      near += fabs (found - camera.distance_mm) < 0.1 * camera.distance_mm ? 1 : 0;
      tl_record_unref (scale);
    }
  g_rand_free (dice);
  g_assert_cmpuint (near, ==, 2000);

  /* 50 mm lens, 36 mm of film over 6000 pixels, 400 mm away: 80 mm are 80 / 400 * 50 / 36 * 6000 = 1666.7 pixels. */
  scale = tl_scale_new (TL_SCALE_LENGTH, stock);
  photo->width = 6000;
  photo->height = 4000;
  photo->focal_mm = 50.0;
  scale->length_mm = 80.0;
  for (guint i = 0; i < 2; i++)
    {
      TlPixel end = { 2000.0 + i * 80.0 / 400.0 * 50.0 / 36.0 * 6000.0, 2000.0 };

      g_array_append_val (scale->points, end);
    }
  g_assert_cmpfloat_with_epsilon (tl_scale_distance_mm (scale, photo), 400.0, 0.1);
  /* Held upright: the same distance. */
  photo->orientation = 6;
  g_assert_cmpfloat_with_epsilon (tl_scale_distance_mm (scale, photo), 400.0, 0.1);
  photo->focal_mm = 0.0;
  g_assert_cmpfloat (tl_scale_distance_mm (scale, photo), ==, 0.0);
  photo->focal_mm = 50.0;
  g_array_set_size (scale->points, 1);
  g_assert_cmpfloat (tl_scale_distance_mm (scale, photo), ==, 0.0);
  tl_record_unref (scale);
  tl_record_unref (photo);
}

/* Off the plane by up to 10 mm and no distance entered: with the camera's note U still holds the truth in 95 % of the cases. */
static void
test_noted_distance (void)
{
  static const TlActor actor = { "A. Tester", "2026-03-03T12:00:00Z" };
  TlPhoto             *photo = tl_record_new (&tl_photo_form);
  g_autoptr (TlInspections) none = tl_inspections_new (), with_photo = NULL, begun = NULL;
  g_autofree char *photo_id = NULL, *visit = NULL;
  guint            held = 0;

  photo->width = WIDTH;
  photo->height = HEIGHT;
  photo->orientation = 1;
  photo->focal_mm = round (3000.0 * hypot (36.0, 24.0) / hypot (WIDTH, HEIGHT));
  with_photo = tl_inspections_add_photo (none, photo, &actor, &photo_id, NULL);
  begun = tl_inspections_begin (with_photo, &actor, &visit, NULL);
  dice = g_rand_new_with_seed (56);
  for (guint i = 0; i < 2000; i++)
    {
      Camera          camera = random_camera (35.0);
      TlScale        *scale = rectangle (&camera, 0.0);
      TlMeasure      *measure = tl_record_new (&tl_measure_form);
      TlMeasureResult result;
      double          off_mm = g_rand_double_range (dice, 2.0, 10.0), truth;
      g_autoptr (TlInspections) scaled = NULL;
      g_autofree char *scale_id = NULL;

      scale->plane = TL_PLANE_OFF;
      scale->off_plane_mm = 10.0;
      scale->distance_mm = 0.0;
      tl_record_text (&scale->picture, photo_id);
      scaled = tl_inspections_put (begun, visit, scale, &scale_id, NULL);
      tl_record_text (&measure->picture, photo_id);
      tl_record_text (&measure->scale, scale_id);
      truth = one_length (&camera, scale, off_mm, measure, &result);
      g_assert_false (result.plane_assured);
      g_assert_true (
          tl_inspections_run (scaled, tl_inspections_get (scaled, visit), measure, &result, NULL));
      g_assert_true (result.is_distance_estimated && result.plane_assured);
      g_assert_cmpfloat (result.distance_mm, >, 150.0);
      held += fabs (result.value - truth) <= result.expanded ? 1 : 0;
      tl_record_unref (measure);
      tl_record_unref (scale);
    }
  g_rand_free (dice);
  g_test_message ("%u of 2000 within U", held);
  g_assert_cmpuint (held, >=, 1900);
  tl_record_unref (photo);
}

int
main (int argc, char **argv)
{
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  g_test_add_func ("/truth/slant", test_slant);
  g_test_add_func ("/truth/rough", test_rough);
  g_test_add_func ("/truth/one-length", test_one_length);
  g_test_add_func ("/truth/kinds", test_kinds);
  g_test_add_func ("/truth/distance", test_distance);
  g_test_add_func ("/truth/noted-distance", test_noted_distance);
  code = g_test_run ();
  tl_stock_unref (stock);
  return code;
}
