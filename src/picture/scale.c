/* scale.c: from pixels to millimetres.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/scale.h"

#include "physics/formula.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define FILM_DIAGONAL_MM 43.267 /* of 36 by 24 mm */
#define LEAST_PX 2.0

static const char *const kind_words[] = { "length", "rectangle", NULL };
static const char *const plane_words[] = { "unknown", "same", "off", NULL };

#define AT(field) G_STRUCT_OFFSET (TlScale, field)

static const TlSlot slots[] = {
  { "id", TL_SLOT_TEXT, AT (id), 0, 0, NULL, TRUE },
  { "picture", TL_SLOT_TEXT, AT (picture), 0, 0, NULL, TRUE },
  { "kind", TL_SLOT_WORD, AT (kind), 0, 0, kind_words, TRUE },
  { "points", TL_SLOT_POINTS, AT (points), 0, 0, NULL, TRUE },
  { "what", TL_SLOT_TEXT, AT (what), 0, 0, NULL, FALSE },
  { "length-mm", TL_SLOT_NUMBER, AT (length_mm), 0, 1e5, NULL, TRUE },
  { "height-mm", TL_SLOT_NUMBER, AT (height_mm), 0, 1e5, NULL, FALSE },
  { "reference-u-mm", TL_SLOT_NUMBER, AT (reference_mm), 0, 1e4, NULL, FALSE },
  { "click-px", TL_SLOT_NUMBER, AT (click_px), 0, 1e3, NULL, FALSE },
  { "bias-px", TL_SLOT_NUMBER, AT (bias_px), 0, 1e3, NULL, FALSE },
  { "tilt-deg", TL_SLOT_NUMBER, AT (tilt_deg), 0, 60, NULL, FALSE },
  { "plane", TL_SLOT_WORD, AT (plane), 0, 0, plane_words, TRUE },
  { "off-plane-mm", TL_SLOT_NUMBER, AT (off_plane_mm), 0, 1e4, NULL, FALSE },
  { "distance-mm", TL_SLOT_NUMBER, AT (distance_mm), 0, 1e6, NULL, FALSE },
  { "distortion", TL_SLOT_NUMBER, AT (distortion_ratio), 0, 0.5, NULL, FALSE },
  { "who", TL_SLOT_TEXT, AT (who), 0, 0, NULL, FALSE },
  { "when", TL_SLOT_TEXT, AT (when), 0, 0, NULL, FALSE },
  { NULL },
};

const TlForm tl_scale_form = { "scale", sizeof (TlScale), slots };

static double
term (const TlStock *stock, const char *id)
{
  const TlTableRow *row = tl_stock_row (stock, "inspection-terms", "*", id, NULL);
  double            value = 0.0;

  if (row == NULL
      || !tl_table_number (tl_stock_table (stock, "inspection-terms"), row, "value", &value))
    g_critical ("there is no inspection term %s", id);
  return value;
}

TlScale *
tl_scale_new (TlScaleKind kind, const TlStock *stock)
{
  TlScale *self = tl_record_new (&tl_scale_form);

  self->kind = kind;
  self->click_px = term (stock, "click");
  self->bias_px = term (stock, "corner-bias");
  self->tilt_deg = kind == TL_SCALE_LENGTH ? term (stock, "tilt") : 0.0;
  self->distance_mm = term (stock, "distance");
  self->distortion_ratio = term (stock, "distortion");
  return self;
}

/* --- checks --- */

static double
turn (const TlScaleFrame *f, guint i)
{
  guint j = (i + 1) % 4, k = (i + 2) % 4;

  return (f->x_px[j] - f->x_px[i]) * (f->y_px[k] - f->y_px[j])
         - (f->y_px[j] - f->y_px[i]) * (f->x_px[k] - f->x_px[j]);
}

static double
edge_px (const TlScaleFrame *f, guint i)
{
  guint j = (i + 1) % 4;

  return hypot (f->x_px[j] - f->x_px[i], f->y_px[j] - f->y_px[i]);
}

static gboolean
check_corners (const TlScaleFrame *frame, GError **error)
{
  double longest = 0.0;
  guint  right = 0, left = 0;

  for (guint i = 0; i < 4; i++)
    longest = MAX (longest, edge_px (frame, i));
  for (guint i = 0; i < 4; i++)
    {
      if (fabs (turn (frame, i)) < 0.02 * longest * longest || edge_px (frame, i) < LEAST_PX)
        {
          g_set_error_literal (
              error, TL_ERROR, TL_ERROR_RANGE,
              _ ("Three of the four corners lie nearly on one line; set the corners of a "
                 "rectangle that is seen less from its edge."));
          return FALSE;
        }
      if (turn (frame, i) > 0.0)
        right++;
      else
        left++;
    }
  if (right == 4 || left == 4)
    return TRUE;
  g_set_error_literal (error, TL_ERROR, TL_ERROR_RANGE,
                       _ ("The corners cross; set them one after the other around the rectangle."));
  return FALSE;
}

gboolean
tl_scale_check (const TlScale *self, GError **error)
{
  guint        wanted = self->kind == TL_SCALE_LENGTH ? 2 : 4;
  TlScaleFrame frame;

  if (!tl_record_check (self, error))
    return FALSE;
  if (self->points->len != wanted)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("The reference has %u points; it needs %u."),
                   self->points->len, wanted);
      return FALSE;
    }
  if (self->length_mm <= 0.0 || (self->kind == TL_SCALE_RECTANGLE && self->height_mm <= 0.0))
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_RANGE,
                           _ ("The known size of the reference is 0 mm; it must be above 0."));
      return FALSE;
    }
  tl_scale_frame (self, &frame);
  if (self->kind == TL_SCALE_RECTANGLE)
    return check_corners (&frame, error);
  if (edge_px (&frame, 0) >= LEAST_PX)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("The reference is %g pixels long in the picture; draw it over at least %g."),
               edge_px (&frame, 0), LEAST_PX);
  return FALSE;
}

/* --- millimetres --- */

void
tl_scale_frame (const TlScale *self, TlScaleFrame *frame)
{
  *frame = (TlScaleFrame){ .kind = self->kind,
                           .length_mm = self->length_mm,
                           .height_mm = self->height_mm };
  for (guint i = 0; i < MIN (self->points->len, 4); i++)
    {
      frame->x_px[i] = g_array_index (self->points, TlPixel, i).x_px;
      frame->y_px[i] = g_array_index (self->points, TlPixel, i).y_px;
    }
}

/* Runs a formula on plain numbers: thousands of times for one measure. */
static gboolean
run (const char *id, const double *in, double *out)
{
  const TlFormula *formula = tl_formula_find (id);

  return formula->run (in, out, NULL) && isfinite (out[0]) && isfinite (out[1]);
}

/* Square to the camera: the axes are along and across the known line. */
static gboolean
map_by_length (const TlScaleFrame *f, TlPixel pixel, double *x_mm, double *y_mm)
{
  double along_x = f->x_px[1] - f->x_px[0], along_y = f->y_px[1] - f->y_px[0];
  double reference_px = hypot (along_x, along_y);
  double dx = pixel.x_px - f->x_px[0], dy = pixel.y_px - f->y_px[0];
  double in[] = { f->length_mm, 0.0, reference_px, 1.0, 0.0 }, out[3];

  if (!(reference_px > 0.0) || !run ("image-scale", in, out))
    return FALSE;
  *x_mm = out[0] * (dx * along_x + dy * along_y) / reference_px;
  *y_mm = out[0] * (dy * along_x - dx * along_y) / reference_px;
  return TRUE;
}

gboolean
tl_scale_frame_map (const TlScaleFrame *f, TlPixel pixel, double *x_mm, double *y_mm)
{
  double in[18], out[2];

  if (f->kind == TL_SCALE_LENGTH)
    return map_by_length (f, pixel, x_mm, y_mm);
  for (guint i = 0; i < 4; i++)
    {
      in[i] = f->x_px[i];
      in[4 + i] = f->y_px[i];
      in[8 + i] = i == 1 || i == 2 ? f->length_mm : 0.0;
      in[12 + i] = i >= 2 ? f->height_mm : 0.0;
    }
  in[16] = pixel.x_px;
  in[17] = pixel.y_px;
  if (!run ("homography-point", in, out))
    return FALSE;
  *x_mm = out[0];
  *y_mm = out[1];
  return TRUE;
}

/* Singular values of the map at @pixel, mm a pixel. */
static gboolean
stretch (const TlScale *self, TlPixel pixel, double *most, double *least)
{
  TlScaleFrame f;
  double       a[2], b[2], c[2], d[2], e, g, h, k, q;
  TlPixel      left = { pixel.x_px - 0.5, pixel.y_px }, right = { pixel.x_px + 0.5, pixel.y_px };
  TlPixel      up = { pixel.x_px, pixel.y_px - 0.5 }, down = { pixel.x_px, pixel.y_px + 0.5 };

  tl_scale_frame (self, &f);
  if (!tl_scale_frame_map (&f, left, &a[0], &a[1]) || !tl_scale_frame_map (&f, right, &b[0], &b[1])
      || !tl_scale_frame_map (&f, up, &c[0], &c[1]) || !tl_scale_frame_map (&f, down, &d[0], &d[1]))
    return FALSE;
  e = (b[0] - a[0] + d[1] - c[1]) / 2.0;
  g = (b[0] - a[0] - d[1] + c[1]) / 2.0;
  h = (b[1] - a[1] + d[0] - c[0]) / 2.0;
  k = (b[1] - a[1] - d[0] + c[0]) / 2.0;
  q = hypot (e, k);
  *most = q + hypot (g, h);
  *least = fabs (q - hypot (g, h));
  return *least > 0.0;
}

gboolean
tl_scale_mm_per_px (const TlScale *self, TlPixel pixel, double *mm_per_px)
{
  double least;

  return stretch (self, pixel, mm_per_px, &least);
}

gboolean
tl_scale_view_rad (const TlScale *self, TlPixel pixel, double *view_rad)
{
  double most, least;

  if (!stretch (self, pixel, &most, &least))
    return FALSE;
  *view_rad = acos (least / most);
  return TRUE;
}

gboolean
tl_scale_is_outside (const TlScale *self, TlPixel pixel)
{
  TlScaleFrame f;
  double       x, y;

  tl_scale_frame (self, &f);
  if (!tl_scale_frame_map (&f, pixel, &x, &y))
    return TRUE;
  if (self->kind == TL_SCALE_RECTANGLE)
    return x < 0.0 || x > self->length_mm || y < 0.0 || y > self->height_mm;
  return hypot (x - self->length_mm / 2.0, y) > 1.5 * self->length_mm;
}

double
tl_scale_distance_mm (const TlScale *self, const TlPhoto *photo)
{
  double  most, least;
  guint   n = self->points->len, width, height;
  TlPixel middle = { 0.0, 0.0 };

  for (guint i = 0; i < n; i++)
    {
      middle.x_px += g_array_index (self->points, TlPixel, i).x_px / n;
      middle.y_px += g_array_index (self->points, TlPixel, i).y_px / n;
    }
  if (photo->focal_mm <= 0.0 || !tl_scale_check (self, NULL)
      || !stretch (self, middle, &most, &least))
    return 0.0;
  tl_photo_size (photo, &width, &height);
  /* Across the line of sight the plane is not shortened: the smaller stretch counts. */
  return least * photo->focal_mm / FILM_DIAGONAL_MM * hypot (width, height);
}
