/* scene.c: rendered pictures of a pressed sleeve.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scene.h"

#include "draw/paint.h"

#include <math.h>

#define PER_MM 14.0 /* of the flat drawing */
#define HALF_X 60.0 /* its half width and height, mm */
#define HALF_Y 46.0
#define WIRE 3.6 /* diameter over insulation */
#define CORE 1.8
#define SLEEVE 6.6

/* --- the flat drawing --- */

static void
bar (cairo_t *cr, double x0, double x1, double y, double diameter, const double *rgb)
{
  cairo_pattern_t *round =
      cairo_pattern_create_linear (0, y - diameter / 2.0, 0, y + diameter / 2.0);
  static const double light[][2] = {
    { 0.0, 0.45 }, { 0.25, 1.0 }, { 0.4, 1.25 }, { 0.7, 0.8 }, { 1.0, 0.35 }
  };

  for (guint i = 0; i < G_N_ELEMENTS (light); i++)
    cairo_pattern_add_color_stop_rgb (round, light[i][0], MIN (1.0, rgb[0] * light[i][1]),
                                      MIN (1.0, rgb[1] * light[i][1]),
                                      MIN (1.0, rgb[2] * light[i][1]));
  cairo_set_source (cr, round);
  cairo_rectangle (cr, x0, y - diameter / 2.0, x1 - x0, diameter);
  cairo_fill (cr);
  cairo_pattern_destroy (round);
}

static void
shadow (cairo_t *cr, double x0, double y0, double x1, double y1)
{
  for (int i = 8; i > 0; i--)
    {
      double soft = i * 0.35;

      cairo_set_source_rgba (cr, 0, 0, 0, 0.055);
      cairo_rectangle (cr, x0 + 1.5 - soft, y0 + 2.0 - soft, x1 - x0 + 2 * soft,
                       y1 - y0 + 2 * soft);
      cairo_fill (cr);
    }
}

static void
draw_joint (cairo_t *cr)
{
  static const double brown[] = { 0.45, 0.25, 0.15 }, grey[] = { 0.72, 0.72, 0.70 },
                      browned[] = { 0.58, 0.45, 0.32 }, aluminium[] = { 0.78, 0.80, 0.82 },
                      black[] = { 0.10, 0.10, 0.11 };

  shadow (cr, -60, SCENE_AXIS_Y - SLEEVE / 2, 60, SCENE_AXIS_Y + SLEEVE / 2);
  bar (cr, -60, SCENE_SEAL_LEFT + 2, SCENE_AXIS_Y, WIRE, brown);
  bar (cr, SCENE_SEAL_RIGHT - 2, SCENE_BARE_RIGHT + 1, SCENE_AXIS_Y, CORE, aluminium);
  bar (cr, SCENE_BARE_RIGHT, SCENE_BROWN_RIGHT, SCENE_AXIS_Y, WIRE, browned);
  bar (cr, SCENE_BROWN_RIGHT, 60, SCENE_AXIS_Y, WIRE, grey);
  bar (cr, SCENE_SEAL_LEFT, SCENE_SEAL_RIGHT, SCENE_AXIS_Y, SLEEVE, black);
  for (guint i = 0; i < 3; i++)
    {
      cairo_set_source_rgba (cr, 0.5, 0.5, 0.55, 0.25);
      cairo_rectangle (cr, -17 + 9.0 * i, SCENE_AXIS_Y - SLEEVE / 2, 5, SLEEVE);
      cairo_fill (cr);
    }
}

static void
draw_rule (cairo_t *cr)
{
  shadow (cr, SCENE_RULE_X - 4, SCENE_RULE_Y, SCENE_RULE_X + 54, SCENE_RULE_Y + 13);
  cairo_set_source_rgb (cr, 0.80, 0.81, 0.80);
  cairo_rectangle (cr, SCENE_RULE_X - 4, SCENE_RULE_Y, 58, 13);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.08, 0.08, 0.08);
  for (int mm = 0; mm <= 50; mm++)
    {
      g_autofree char *number = g_strdup_printf ("%d", mm / 10);

      cairo_set_line_width (cr, 0.16);
      cairo_move_to (cr, SCENE_RULE_X + mm, SCENE_RULE_Y);
      cairo_line_to (cr, SCENE_RULE_X + mm,
                     SCENE_RULE_Y
                         + (mm % 10 == 0  ? 5.5
                            : mm % 5 == 0 ? 4.2
                                          : 3.0));
      cairo_stroke (cr);
      if (mm % 10 == 0)
        tl_paint_text (cr, number, SCENE_RULE_X + mm, SCENE_RULE_Y + 9.4, 3.4, TRUE, 0.5);
    }
}

static void
draw_card (cairo_t *cr)
{
  shadow (cr, SCENE_CARD_X, SCENE_CARD_Y, SCENE_CARD_X + 60, SCENE_CARD_Y + 20);
  cairo_set_source_rgb (cr, 0.93, 0.93, 0.91);
  cairo_rectangle (cr, SCENE_CARD_X, SCENE_CARD_Y, 60, 20);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.1, 0.1, 0.1);
  tl_paint_text (cr, "W-14  60 × 20 mm", SCENE_CARD_X + 30, SCENE_CARD_Y + 12, 5.0, TRUE, 0.5);
}

static cairo_surface_t *
draw_flat (gboolean has_card)
{
  cairo_surface_t *flat = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, (int) (2 * HALF_X * PER_MM), (int) (2 * HALF_Y * PER_MM));
  cairo_t *cr = cairo_create (flat);

  cairo_scale (cr, PER_MM, PER_MM);
  cairo_translate (cr, HALF_X, HALF_Y);
  cairo_set_source_rgb (cr, 0.33, 0.35, 0.36);
  cairo_paint (cr);
  cairo_set_source_rgb (cr, 0.24, 0.26, 0.27);
  cairo_rectangle (cr, -54, -40, 108, 80);
  cairo_fill (cr);
  draw_joint (cr);
  if (has_card)
    draw_card (cr);
  else
    draw_rule (cr);
  cairo_destroy (cr);
  cairo_surface_flush (flat);
  return flat;
}

/* --- the camera --- */

/* Turned about an axis in the plane: rows of the rotation. */
static void
rotation (const SceneCamera *camera, double r[9])
{
  double a = camera->tilt_deg * G_PI / 180.0, b = camera->turn_deg * G_PI / 180.0, kx = cos (b),
         ky = sin (b), c = cos (a), s = sin (a);

  r[0] = c + kx * kx * (1 - c);
  r[1] = kx * ky * (1 - c);
  r[2] = ky * s;
  r[3] = kx * ky * (1 - c);
  r[4] = c + ky * ky * (1 - c);
  r[5] = -kx * s;
  r[6] = -ky * s;
  r[7] = kx * s;
  r[8] = c;
}

TlPixel
scene_see (const SceneCamera *camera, double x_mm, double y_mm)
{
  double r[9], x = x_mm - camera->at_x, y = y_mm - camera->at_y, z;

  rotation (camera, r);
  z = r[6] * x + r[7] * y + camera->distance_mm;
  return (TlPixel){ camera->width / 2.0 + camera->focal_px * (r[0] * x + r[1] * y) / z,
                    camera->height / 2.0 + camera->focal_px * (r[3] * x + r[4] * y) / z };
}

/* The point of the plane that a pixel shows. */
static void
back (const SceneCamera *camera, const double r[9], double px, double py, double *x, double *y)
{
  double u = (px - camera->width / 2.0) / camera->focal_px,
         v = (py - camera->height / 2.0) / camera->focal_px;
  /* (r0 x + r1 y) = u z, (r3 x + r4 y) = v z, z = r6 x + r7 y + d */
  double a = r[0] - u * r[6], b = r[1] - u * r[7], c = r[3] - v * r[6], d = r[4] - v * r[7],
         e = u * camera->distance_mm, f = v * camera->distance_mm, det = a * d - b * c;

  *x = camera->at_x + (e * d - b * f) / det;
  *y = camera->at_y + (a * f - c * e) / det;
}

static double
noise (guint32 *state)
{
  *state = *state * 1664525u + 1013904223u;
  return (*state >> 8) / 16777216.0 - 0.5;
}

static void
sample (cairo_surface_t *flat, double x, double y, double rgb[3])
{
  int    w = cairo_image_surface_get_width (flat), h = cairo_image_surface_get_height (flat);
  double fx = CLAMP ((x + HALF_X) * PER_MM - 0.5, 0, w - 1.001),
         fy = CLAMP ((y + HALF_Y) * PER_MM - 0.5, 0, h - 1.001);
  int           ix = (int) fx, iy = (int) fy;
  const guint8 *data =
      cairo_image_surface_get_data (flat) + iy * cairo_image_surface_get_stride (flat) + ix * 4;
  const guint8 *below = data + cairo_image_surface_get_stride (flat);

  fx -= ix;
  fy -= iy;
  for (int i = 0; i < 3; i++)
    rgb[i] = (data[2 - i] * (1 - fx) + data[6 - i] * fx) * (1 - fy)
             + (below[2 - i] * (1 - fx) + below[6 - i] * fx) * fy;
}

GBytes *
scene_render (const SceneCamera *camera)
{
  cairo_surface_t *flat = draw_flat (camera->has_card);
  g_autoptr (GdkPixbuf) pixbuf =
      gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, (int) camera->width, (int) camera->height);
  guint32 state = camera->noise;
  double  r[9];
  char   *data;
  gsize   length;

  rotation (camera, r);
  for (guint py = 0; py < camera->height; py++)
    for (guint px = 0; px < camera->width; px++)
      {
        guint8 *p = gdk_pixbuf_get_pixels (pixbuf) + py * (guint) gdk_pixbuf_get_rowstride (pixbuf)
                    + px * 3;
        double x, y, rgb[3], sum[3] = { 0, 0, 0 }, light, grain = 7.0 * noise (&state);

        /* Four samples a pixel: lines thinner than one stay lines. */
        for (guint k = 0; k < 4; k++)
          {
            back (camera, r, px + (k & 1 ? 0.25 : -0.25), py + (k & 2 ? 0.25 : -0.25), &x, &y);
            sample (flat, x, y, rgb);
            for (int i = 0; i < 3; i++)
              sum[i] += rgb[i] / 4.0;
          }
        light = 1.05 - 0.25 * px / camera->width - 0.12 * py / camera->height;
        for (int i = 0; i < 3; i++)
          p[i] = (guint8) CLAMP (sum[i] * light + grain, 0.0, 255.0);
      }
  cairo_surface_destroy (flat);
  g_assert (
      gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, "jpeg", NULL, "quality", "82", NULL));
  return g_bytes_new_take (data, length);
}
