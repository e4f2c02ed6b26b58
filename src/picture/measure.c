/* measure.c: figures from points, their uncertainty, and what they decide.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/measure.h"

#include "base/quantity.h"
#include "physics/formula.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define DEG_RAD (G_PI / 180.0)
#define MOST_POINTS 200u
#define COVERAGE 2.0           /* k: decisions are made at about 95 % */
#define RECTANGULAR sqrt (3.0) /* half-width to standard uncertainty */
#define SMALL_PX 10.0
#define STEP_PX 0.25 /* of a difference quotient */

static const char *const kind_words[] = { "length", "width", "gap", "diameter",
                                          "angle",  "area",  NULL };
static const char *const limit_words[] = { "none", "least", "most", "between", NULL };

#define AT(field) G_STRUCT_OFFSET (TlMeasure, field)

static const TlSlot slots[] = {
  { "id", TL_SLOT_TEXT, AT (id), 0, 0, NULL, TRUE },
  { "picture", TL_SLOT_TEXT, AT (picture), 0, 0, NULL, TRUE },
  { "scale", TL_SLOT_TEXT, AT (scale), 0, 0, NULL, TRUE },
  { "kind", TL_SLOT_WORD, AT (kind), 0, 0, kind_words, TRUE },
  { "points", TL_SLOT_POINTS, AT (points), 0, 0, NULL, TRUE },
  { "what", TL_SLOT_TEXT, AT (what), 0, 0, NULL, FALSE },
  { "lean-deg", TL_SLOT_NUMBER, AT (lean_deg), 0, 60, NULL, FALSE },
  { "limit-kind", TL_SLOT_WORD, AT (limit_kind), 0, 0, limit_words, TRUE },
  { "limit", TL_SLOT_NUMBER, AT (limit), 0, 1e9, NULL, FALSE },
  { "limit-most", TL_SLOT_NUMBER, AT (limit_most), 0, 1e9, NULL, FALSE },
  { "limit-from", TL_SLOT_TEXT, AT (limit_from), 0, 0, NULL, FALSE },
  { "owner", TL_SLOT_TEXT, AT (owner), 0, 0, NULL, FALSE },
  { "field", TL_SLOT_TEXT, AT (field), 0, 0, NULL, FALSE },
  { "who", TL_SLOT_TEXT, AT (who), 0, 0, NULL, FALSE },
  { "when", TL_SLOT_TEXT, AT (when), 0, 0, NULL, FALSE },
  { NULL },
};

const TlForm tl_measure_form = { "measure", sizeof (TlMeasure), slots };

guint
tl_measure_points (TlMeasureKind kind, guint *most)
{
  static const guint least[] = { 2, 3, 2, 3, 3, 3 };

  g_return_val_if_fail ((guint) kind < TL_N_MEASURE_KINDS, 0);
  if (most != NULL)
    *most = kind == TL_MEASURE_AREA ? 0 : least[kind];
  return least[kind];
}

const char *
tl_measure_unit (TlMeasureKind kind)
{
  return kind == TL_MEASURE_ANGLE ? "deg" : kind == TL_MEASURE_AREA ? "mm2" : "mm";
}

const char *
tl_measure_kind_word (TlMeasureKind kind)
{
  return kind_words[kind];
}

const char *
tl_measure_kind_label (TlMeasureKind kind)
{
  static const char *const labels[] = { TL_N_ ("Length"),   TL_N_ ("Width"), TL_N_ ("Gap"),
                                        TL_N_ ("Diameter"), TL_N_ ("Angle"), TL_N_ ("Area") };

  g_return_val_if_fail ((guint) kind < TL_N_MEASURE_KINDS, "");
  return labels[kind];
}

const char *
tl_decision_word (TlDecision decision)
{
  static const char *const words[] = { TL_N_ ("no limit"), TL_N_ ("undecided"), TL_N_ ("within"),
                                       TL_N_ ("beyond") };

  return words[decision];
}

/* --- the figure --- */

static double
length_of (const double *x, const double *y)
{
  return hypot (x[1] - x[0], y[1] - y[0]);
}

/* From the third point to the line of the first two. */
static double
width_of (const double *x, const double *y)
{
  return fabs ((x[1] - x[0]) * (y[2] - y[0]) - (y[1] - y[0]) * (x[2] - x[0])) / length_of (x, y);
}

/* Circle through three points. */
static double
diameter_of (const double *x, const double *y)
{
  double a = hypot (x[1] - x[0], y[1] - y[0]), b = hypot (x[2] - x[1], y[2] - y[1]),
         c = hypot (x[0] - x[2], y[0] - y[2]);

  return a * b * c / fabs ((x[1] - x[0]) * (y[2] - y[0]) - (y[1] - y[0]) * (x[2] - x[0]));
}

static double
angle_of (const double *x, const double *y)
{
  double ax = x[0] - x[1], ay = y[0] - y[1], bx = x[2] - x[1], by = y[2] - y[1];

  return atan2 (fabs (ax * by - ay * bx), ax * bx + ay * by) / DEG_RAD;
}

static double
area_of (const double *x, const double *y, guint n)
{
  double twice = 0.0;

  for (guint i = 0; i < n; i++)
    twice += x[i] * y[(i + 1) % n] - x[(i + 1) % n] * y[i];
  return fabs (twice) / 2.0;
}

static gboolean
figure (TlMeasureKind kind, const TlScaleFrame *frame, const TlPixel *points, guint n,
        double *value)
{
  double x[MOST_POINTS], y[MOST_POINTS];

  for (guint i = 0; i < n; i++)
    if (!tl_scale_frame_map (frame, points[i], &x[i], &y[i]))
      return FALSE;
  switch (kind)
    {
    case TL_MEASURE_LENGTH:
    case TL_MEASURE_GAP:
      *value = length_of (x, y);
      break;
    case TL_MEASURE_WIDTH:
      *value = width_of (x, y);
      break;
    case TL_MEASURE_DIAMETER:
      *value = diameter_of (x, y);
      break;
    case TL_MEASURE_ANGLE:
      *value = angle_of (x, y);
      break;
    case TL_MEASURE_AREA:
      *value = area_of (x, y, n);
      break;
    case TL_N_MEASURE_KINDS:
    default:
      g_assert_not_reached ();
    }
  return isfinite (*value);
}

/* --- propagation --- */

typedef struct
{
  TlMeasureKind kind;
  TlScaleFrame  frame;
  TlPixel       points[MOST_POINTS];
  guint         n;
} Setup;

/* Half the change of the figure while @slot moves by a step both ways, for one unit; %FALSE beyond the horizon. */
static gboolean
slope (Setup *setup, double *slot, double step, double *result)
{
  double   middle = *slot, above, below;
  gboolean is_good;

  *slot = middle + step;
  is_good = figure (setup->kind, &setup->frame, setup->points, setup->n, &above);
  *slot = middle - step;
  is_good = is_good && figure (setup->kind, &setup->frame, setup->points, setup->n, &below);
  *slot = middle;
  *result = is_good ? (above - below) / (2.0 * step) : 0.0;
  return is_good;
}

static guint
corners (const Setup *setup)
{
  return setup->frame.kind == TL_SCALE_LENGTH ? 2 : 4;
}

static gboolean
propagate_clicks (Setup *setup, double click_px, double *u)
{
  double sum = 0.0, part;

  for (guint i = 0; i < corners (setup); i++)
    {
      if (!slope (setup, &setup->frame.x_px[i], STEP_PX, &part))
        return FALSE;
      sum += part * part;
      if (!slope (setup, &setup->frame.y_px[i], STEP_PX, &part))
        return FALSE;
      sum += part * part;
    }
  for (guint i = 0; i < setup->n; i++)
    {
      if (!slope (setup, &setup->points[i].x_px, STEP_PX, &part))
        return FALSE;
      sum += part * part;
      if (!slope (setup, &setup->points[i].y_px, STEP_PX, &part))
        return FALSE;
      sum += part * part;
    }
  *u = click_px * sqrt (sum);
  return TRUE;
}

static gboolean
propagate_reference (Setup *setup, double u_mm, double *u)
{
  double along, across = 0.0;

  if (!slope (setup, &setup->frame.length_mm, 1e-3 * setup->frame.length_mm, &along))
    return FALSE;
  if (setup->frame.kind == TL_SCALE_RECTANGLE
      && !slope (setup, &setup->frame.height_mm, 1e-3 * setup->frame.height_mm, &across))
    return FALSE;
  *u = u_mm * hypot (along, across);
  return TRUE;
}

/* All corners moved away from their middle by @bias_px. */
static gboolean
propagate_bias (const Setup *setup, double bias_px, double value, double *u)
{
  Setup  moved = *setup;
  guint  n = corners (setup);
  double x = 0.0, y = 0.0, biased;

  for (guint i = 0; i < n; i++)
    {
      x += setup->frame.x_px[i] / n;
      y += setup->frame.y_px[i] / n;
    }
  for (guint i = 0; i < n; i++)
    {
      double dx = setup->frame.x_px[i] - x, dy = setup->frame.y_px[i] - y, r = hypot (dx, dy);

      moved.frame.x_px[i] += dx / r * bias_px;
      moved.frame.y_px[i] += dy / r * bias_px;
    }
  if (!figure (moved.kind, &moved.frame, moved.points, moved.n, &biased))
    return FALSE;
  *u = fabs (biased - value) / RECTANGULAR;
  return TRUE;
}

/* --- what is systematic --- */

static TlPixel
middle_of (const TlPixel *points, guint n)
{
  TlPixel middle = { 0.0, 0.0 };

  for (guint i = 0; i < n; i++)
    {
      middle.x_px += points[i].x_px / n;
      middle.y_px += points[i].y_px / n;
    }
  return middle;
}

/* Longest way between two of the points, in pixels. */
static double
span_px (const TlPixel *points, guint n)
{
  double span = 0.0;

  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n; k++)
      span = MAX (span, hypot (points[i].x_px - points[k].x_px, points[i].y_px - points[k].y_px));
  return span;
}

/* A length goes with the first power of the scale, an area with the second, an angle with none. */
static double
power (TlMeasureKind kind)
{
  return kind == TL_MEASURE_ANGLE ? 0.0 : kind == TL_MEASURE_AREA ? 2.0 : 1.0;
}

/* mm that the ends of the figure may move, as a change of the figure. */
static double
by_displacement (const Setup *setup, double value, double span_mm, double displacement_mm)
{
  if (setup->kind == TL_MEASURE_ANGLE)
    return 2.0 * displacement_mm / MAX (span_mm, 1e-9) / DEG_RAD;
  if (setup->kind == TL_MEASURE_AREA)
    return value * 2.0 * displacement_mm / MAX (span_mm, 1e-9);
  return displacement_mm;
}

/* Depth by formula image-plane-error, and the way a raised point slides along its slanted line of sight. */
static double
off_plane_term (const Setup *setup, const TlScale *scale, double value, double span_mm)
{
  TlPixel middle = middle_of (setup->points, setup->n);
  double  in[] = { scale->distance_mm, scale->off_plane_mm, 0.0 }, out[2] = { 0.0, 0.0 };
  double  view_rad = 0.0, depth;

  if (scale->plane != TL_PLANE_OFF || !tl_formula_find ("image-plane-error")->run (in, out, NULL))
    return 0.0;
  if (scale->kind == TL_SCALE_LENGTH || !tl_scale_view_rad (scale, middle, &view_rad))
    view_rad = scale->tilt_deg * DEG_RAD;
  depth = power (setup->kind) * value * out[0] / 100.0 / RECTANGULAR;
  /* Its ends need not be raised alike: half of the bound each way. */
  return hypot (depth,
                by_displacement (setup, value, span_mm, 0.5 * scale->off_plane_mm * tan (view_rad))
                    / RECTANGULAR);
}

/* One length on a plane that leans by up to the tilt: axes are shortened unlike, and near is larger than far. */
static double
tilt_term (const Setup *setup, const TlScale *scale, double value)
{
  double  tilt_rad = scale->tilt_deg * DEG_RAD, across, near, mm_per_px = 0.0, turned = 1.0;
  TlPixel ends[2] = { { setup->frame.x_px[0], setup->frame.y_px[0] },
                      { setup->frame.x_px[1], setup->frame.y_px[1] } };
  TlPixel here = middle_of (setup->points, setup->n), there = middle_of (ends, 2);

  if (scale->kind != TL_SCALE_LENGTH || tilt_rad <= 0.0
      || !tl_scale_mm_per_px (scale, here, &mm_per_px))
    return 0.0;
  across = 1.0 / cos (tilt_rad) - 1.0;
  if (setup->kind == TL_MEASURE_ANGLE)
    /* Largest change of an angle when one axis is shortened (Tissot). */
    return 2.0 * asin ((1.0 - cos (tilt_rad)) / (1.0 + cos (tilt_rad))) / DEG_RAD / RECTANGULAR;
  if (setup->n == 2)
    turned =
        fabs ((setup->points[1].x_px - setup->points[0].x_px) * (ends[1].y_px - ends[0].y_px)
              - (setup->points[1].y_px - setup->points[0].y_px) * (ends[1].x_px - ends[0].x_px))
        / (span_px (setup->points, 2) * span_px (ends, 2));
  near = hypot (here.x_px - there.x_px, here.y_px - there.y_px) * mm_per_px * sin (tilt_rad)
         / MAX (scale->distance_mm, 1e-9);
  return power (setup->kind) * value * hypot (across * turned, near) / RECTANGULAR;
}

/* A lens that displaces the corner of the picture by a share displaces other points by the cube of their distance. */
static double
lens_term (const Setup *setup, const TlScale *scale, guint width, guint height, double value)
{
  double half = hypot (width, height) / 2.0, far = 0.0;

  for (guint i = 0; i < setup->n + corners (setup); i++)
    {
      double x = i < setup->n ? setup->points[i].x_px : setup->frame.x_px[i - setup->n];
      double y = i < setup->n ? setup->points[i].y_px : setup->frame.y_px[i - setup->n];

      far = MAX (far, hypot (x - width / 2.0, y - height / 2.0) / half);
    }
  /* The scale along a radius changes three times as fast as the place. */
  if (setup->kind == TL_MEASURE_ANGLE)
    return 2.0 * scale->distortion_ratio * far * far / DEG_RAD / RECTANGULAR;
  return power (setup->kind) * value * 3.0 * scale->distortion_ratio * far * far / RECTANGULAR;
}

/* A line that leans out of its plane by up to @lean reads short: corrected by half, the other half is uncertain. */
static double
correct_lean (const TlMeasure *self, double *value)
{
  double longer = 1.0 / cos (self->lean_deg * DEG_RAD) - 1.0;

  if (self->kind == TL_MEASURE_ANGLE || self->kind == TL_MEASURE_AREA)
    return 0.0;
  *value *= 1.0 + longer / 2.0;
  return *value * longer / 2.0 / RECTANGULAR;
}

static gboolean
fail_figure (GError **error)
{
  g_set_error_literal (
      error, TL_ERROR, TL_ERROR_RANGE,
      _ ("These points give no figure: they lie on one place or line, or beyond the horizon of "
         "the reference's plane."));
  return FALSE;
}

static gboolean
set_up (const TlMeasure *self, const TlScale *scale, Setup *setup, GError **error)
{
  guint most, least = tl_measure_points (self->kind, &most);

  if (!tl_scale_check (scale, error))
    return FALSE;
  setup->kind = self->kind;
  setup->n = self->points->len;
  if (setup->n < least || setup->n > (most > 0 ? most : MOST_POINTS))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%s has %u points; %u to %u are right."),
                   _ (tl_measure_kind_label (self->kind)), setup->n, least,
                   most > 0 ? most : MOST_POINTS);
      return FALSE;
    }
  tl_scale_frame (scale, &setup->frame);
  for (guint i = 0; i < setup->n; i++)
    setup->points[i] = g_array_index (self->points, TlPixel, i);
  return TRUE;
}

gboolean
tl_measure_run (const TlMeasure *self, const TlScale *scale, guint width, guint height,
                TlMeasureResult *result, GError **error)
{
  TlMeasureResult r = { 0 };
  Setup           setup;
  double          span, mm_per_px, lean, u;

  g_return_val_if_fail (self != NULL && scale != NULL && result != NULL, FALSE);

  if (!set_up (self, scale, &setup, error))
    return FALSE;
  span = span_px (setup.points, setup.n);
  if (!(span > 0.0) || !figure (self->kind, &setup.frame, setup.points, setup.n, &r.value)
      || !propagate_clicks (&setup, scale->click_px, &r.click)
      || !propagate_reference (&setup, scale->reference_mm, &r.reference)
      || !propagate_bias (&setup, scale->bias_px, r.value, &r.bias)
      || !tl_scale_mm_per_px (scale, middle_of (setup.points, setup.n), &mm_per_px))
    return fail_figure (error);
  r.plane = hypot (off_plane_term (&setup, scale, r.value, span * mm_per_px),
                   tilt_term (&setup, scale, r.value));
  r.lens = lens_term (&setup, scale, width, height, r.value);
  lean = correct_lean (self, &r.value);
  r.plane = hypot (r.plane, lean);
  u = sqrt (r.click * r.click + r.reference * r.reference + r.plane * r.plane + r.lens * r.lens
            + r.bias * r.bias);
  r.expanded = COVERAGE * u;
  if (!isfinite (r.value) || !isfinite (r.expanded))
    return fail_figure (error);
  r.plane_assured = scale->plane == TL_PLANE_SAME
                    || (scale->plane == TL_PLANE_OFF && scale->distance_mm > scale->off_plane_mm);
  r.is_small = span < SMALL_PX;
  r.distance_mm = scale->distance_mm;
  for (guint i = 0; i < setup.n; i++)
    r.is_outside = r.is_outside || tl_scale_is_outside (scale, setup.points[i]);
  *result = r;
  return TRUE;
}

/* --- what it decides --- */

TlDecision
tl_decide (double value, double expanded, TlLimitKind kind, double limit, double limit_most)
{
  double low = value - expanded, high = value + expanded;

  switch (kind)
    {
    case TL_LIMIT_NONE:
      return TL_DECISION_NONE;
    case TL_LIMIT_LEAST:
      return low >= limit   ? TL_DECISION_WITHIN
             : high < limit ? TL_DECISION_BEYOND
                            : TL_DECISION_UNDECIDED;
    case TL_LIMIT_MOST:
      return high <= limit ? TL_DECISION_WITHIN
             : low > limit ? TL_DECISION_BEYOND
                           : TL_DECISION_UNDECIDED;
    case TL_LIMIT_BETWEEN:
      if (low >= limit && high <= limit_most)
        return TL_DECISION_WITHIN;
      return high < limit || low > limit_most ? TL_DECISION_BEYOND : TL_DECISION_UNDECIDED;
    default:
      g_assert_not_reached ();
    }
}

TlDecision
tl_measure_decide (const TlMeasure *self, const TlMeasureResult *result)
{
  if (self->limit_kind != TL_LIMIT_NONE && !result->plane_assured)
    return TL_DECISION_UNDECIDED;
  return tl_decide (result->value, result->expanded, self->limit_kind, self->limit,
                    self->limit_most);
}

/* Decimals that show two figures of @expanded, the first being a 1 or 2, else one. */
static guint
decimals_of (double expanded)
{
  int first = expanded > 0.0 ? (int) floor (log10 (expanded)) : -3;

  if (expanded > 0.0 && expanded / pow (10.0, first) < 3.0)
    first--;
  return (guint) CLAMP (-first, 0, 4);
}

char *
tl_measure_text (const TlMeasure *self, const TlMeasureResult *result, const TlLanguage *language)
{
  guint            decimals = decimals_of (result->expanded);
  g_autofree char *value = tl_language_number (language, result->value, decimals);
  g_autofree char *expanded = tl_language_number (language, result->expanded, decimals);

  return g_strdup_printf ("%s ± %s\u202f%s", value, expanded,
                          tl_unit_label (tl_measure_unit (self->kind)));
}

char *
tl_measure_limit_text (const TlMeasure *self, const TlLanguage *language)
{
  const char      *unit = tl_measure_unit (self->kind);
  g_autofree char *low = tl_quantity_format (self->limit, unit, language);
  g_autofree char *high = tl_quantity_format (self->limit_most, unit, language);

  switch (self->limit_kind)
    {
    case TL_LIMIT_LEAST:
      return g_strdup_printf (tl_language_text (language, TL_N_ ("at least %s")), low);
    case TL_LIMIT_MOST:
      return g_strdup_printf (tl_language_text (language, TL_N_ ("at most %s")), low);
    case TL_LIMIT_BETWEEN:
      return g_strdup_printf (tl_language_text (language, TL_N_ ("%s to %s")), low, high);
    case TL_LIMIT_NONE:
    default:
      return g_strdup ("");
    }
}
