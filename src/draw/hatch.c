/* hatch.c: materials as patterns: one for each look, told apart in one ink.
 *
 * Patterns are drawn as lines, not as bitmaps, so that paper and vector files stay sharp, and start from the
 * origin of the drawing, so that they run on from body to body. Pitches in mm on the medium.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/paint.h"
#include <math.h>

/* Above this number of strokes nothing could be told apart; a guard against absurd areas. */
#define MOST_STROKES 4000

typedef struct
{
  cairo_t *cr;
  double   x0, y0, x1, y1; /* to be covered */
  double   pitch;          /* units for one mm of pattern */
  double   width;
} Hatch;

static gboolean
too_many (const Hatch *h, double step)
{
  return (h->x1 - h->x0 + h->y1 - h->y0) / step > MOST_STROKES;
}

/* Lines at 45°, @step apart along x, @shift from the grid; rising to the right if @rising. */
static void
slanted (const Hatch *h, double step, double shift, gboolean rising)
{
  double height = h->y1 - h->y0;
  double first, last;

  if (too_many (h, step))
    return;
  /* a rising line keeps x + y, a falling one x - y */
  first = rising ? h->x0 + h->y0 : h->x0 - h->y1;
  last = rising ? h->x1 + h->y1 : h->x1 - h->y0;
  for (double k = floor ((first - shift) / step) * step + shift; k <= last; k += step)
    {
      double x = rising ? k - h->y0 : k + h->y0;

      cairo_move_to (h->cr, x, h->y0);
      cairo_line_to (h->cr, rising ? x - height : x + height, h->y1);
    }
  cairo_stroke (h->cr);
}

static void
slanted_broken (const Hatch *h, double step, double shift, double on, double off)
{
  double dash[2] = { on, off };

  cairo_set_dash (h->cr, dash, 2, 0.0);
  slanted (h, step, shift, TRUE);
  cairo_set_dash (h->cr, NULL, 0, 0.0);
}

static void
upright (const Hatch *h, double step)
{
  if (too_many (h, step))
    return;
  for (double x = floor (h->x0 / step) * step; x <= h->x1; x += step)
    {
      cairo_move_to (h->cr, x, h->y0);
      cairo_line_to (h->cr, x, h->y1);
    }
  cairo_stroke (h->cr);
}

static void
level_dashes (const Hatch *h, double step)
{
  double on = 2.0 * h->pitch, off = 0.8 * h->pitch;
  double period = on + off;

  if (too_many (h, step))
    return;
  for (double y = floor (h->y0 / step) * step; y <= h->y1; y += step)
    {
      gboolean odd = fmod (fabs (round (y / step)), 2.0) > 0.5;
      double   shift = odd ? period / 2.0 : 0.0;

      for (double x = floor ((h->x0 - shift) / period) * period + shift; x <= h->x1; x += period)
        {
          cairo_move_to (h->cr, x, y);
          cairo_line_to (h->cr, x + on, y);
        }
    }
  cairo_stroke (h->cr);
}

static void
waves (const Hatch *h, double step)
{
  double length = 1.5 * h->pitch, swing = 0.42 * h->pitch;

  if (too_many (h, step))
    return;
  for (double x = floor (h->x0 / step) * step; x <= h->x1 + step; x += step)
    {
      double y = floor (h->y0 / (2.0 * length)) * 2.0 * length;

      cairo_move_to (h->cr, x, y);
      for (; y <= h->y1; y += 2.0 * length)
        {
          cairo_curve_to (h->cr, x + swing, y + length * 0.35, x + swing, y + length * 0.65, x,
                          y + length);
          cairo_curve_to (h->cr, x - swing, y + length * 1.35, x - swing, y + length * 1.65, x,
                          y + 2.0 * length);
        }
    }
  cairo_stroke (h->cr);
}

static gboolean
is_file (cairo_t *cr)
{
  cairo_surface_type_t type = cairo_surface_get_type (cairo_get_target (cr));

  return type == CAIRO_SURFACE_TYPE_PDF || type == CAIRO_SURFACE_TYPE_SVG
         || type == CAIRO_SURFACE_TYPE_PS;
}

/* Dots on a staggered grid: on pixels squares so small that they look round, which are many times as fast. */
static void
square_dots (const Hatch *h, double step)
{
  double row = step / 2.0, side = 1.6 * h->width;

  if ((h->x1 - h->x0) / step * ((h->y1 - h->y0) / row) > 20.0 * MOST_STROKES)
    return;
  for (double j = floor (h->y0 / row); j * row <= h->y1 + row; j += 1.0)
    {
      double shift = fmod (fabs (j), 2.0) > 0.5 ? step / 2.0 : 0.0;

      for (double x = floor ((h->x0 - shift) / step) * step + shift; x <= h->x1; x += step)
        cairo_rectangle (h->cr, x - side / 2.0, j * row - side / 2.0, side, side);
    }
  cairo_fill (h->cr);
}

/* Short dashes in staggered rows, falling (tin) or rising (nickel); without length they are dots (adhesive). */
static void
staggered (const Hatch *h, double step, double length, gboolean rising)
{
  double row = step / 2.0;

  if ((h->x1 - h->x0) / step * ((h->y1 - h->y0) / row) > 20.0 * MOST_STROKES)
    return;
  for (double j = floor (h->y0 / row) - 1.0; j * row <= h->y1 + row; j += 1.0)
    {
      double shift = fmod (fabs (j), 2.0) > 0.5 ? step / 2.0 : 0.0;

      for (double x = floor ((h->x0 - shift) / step) * step + shift; x <= h->x1 + step; x += step)
        {
          cairo_move_to (h->cr, x - length / 2.0,
                         j * row + (rising ? length / 2.0 : -length / 2.0));
          cairo_line_to (h->cr, x + length / 2.0,
                         j * row + (rising ? -length / 2.0 : length / 2.0));
        }
    }
  cairo_stroke (h->cr);
}

/* Scattered dots: the scatter of a cell depends on its place on the grid alone, so it is the same every time. */
static void
scattered (const Hatch *h)
{
  double cell = 1.25 * h->pitch;

  if ((h->x1 - h->x0) / cell * ((h->y1 - h->y0) / cell) > 20.0 * MOST_STROKES)
    return;
  for (double j = floor (h->y0 / cell) - 1.0; j * cell <= h->y1; j += 1.0)
    for (double i = floor (h->x0 / cell) - 1.0; i * cell <= h->x1; i += 1.0)
      {
        guint32 seed = (guint32) (gint32) i * 73856093u ^ (guint32) (gint32) j * 19349663u;

        for (guint k = 0; k < 2; k++)
          {
            double x, y, radius;

            seed = seed * 1664525u + 1013904223u;
            x = (i + (seed >> 8 & 0xff) / 256.0) * cell;
            y = (j + (seed >> 16 & 0xff) / 256.0) * cell;
            radius = h->width * (0.55 + (seed >> 24) / 256.0 * 0.75);
            cairo_new_sub_path (h->cr);
            cairo_arc (h->cr, x, y, radius, 0.0, 2.0 * G_PI);
          }
      }
  cairo_fill (h->cr);
}

static void
paint_pattern (const Hatch *h, TlLook look)
{
  double mm = h->pitch;

  switch (look)
    {
    case TL_LOOK_COPPER:
      slanted (h, 2.4 * mm, 0.0, TRUE);
      slanted (h, 2.4 * mm, 0.7 * mm, TRUE);
      break;
    case TL_LOOK_ALUMINIUM:
      slanted (h, 2.4 * mm, 0.0, TRUE);
      break;
    case TL_LOOK_TIN:
      staggered (h, 1.6 * mm, 0.5 * mm, FALSE);
      break;
    case TL_LOOK_NICKEL:
      staggered (h, 1.6 * mm, 0.5 * mm, TRUE);
      break;
    case TL_LOOK_STEEL:
      slanted (h, 1.4 * mm, 0.0, FALSE);
      break;
    case TL_LOOK_STAINLESS:
      slanted (h, 2.1 * mm, 0.0, TRUE);
      slanted (h, 2.1 * mm, 0.0, FALSE);
      break;
    case TL_LOOK_ZINC:
      upright (h, 1.2 * mm);
      break;
    case TL_LOOK_BRASS:
      slanted (h, 2.6 * mm, 0.0, TRUE);
      slanted_broken (h, 2.6 * mm, 1.3 * mm, 1.2 * mm, 0.6 * mm);
      break;
    case TL_LOOK_POLYMER:
      waves (h, 1.9 * mm);
      break;
    case TL_LOOK_ADHESIVE:
      if (!is_file (h->cr))
        {
          square_dots (h, 1.3 * mm);
          break;
        }
      /* a point with a round cap takes fewer bytes */
      cairo_set_line_cap (h->cr, CAIRO_LINE_CAP_ROUND);
      cairo_set_line_width (h->cr, 1.7 * h->width);
      staggered (h, 1.3 * mm, 0.0, FALSE);
      break;
    case TL_LOOK_INSULATION:
      level_dashes (h, 1.2 * mm);
      break;
    case TL_LOOK_COMPOUND:
      scattered (h);
      break;
    case TL_LOOK_AIR:
    case TL_N_LOOKS:
    default:
      break;
    }
}

/* Lays the pattern over the present clip, in the colour that is set. */
static void
pattern_in_clip (cairo_t *cr, const TlPalette *palette, TlLook look, double unit,
                 double pitch_ratio)
{
  Hatch hatch = { .cr = cr, .pitch = unit * pitch_ratio };

  cairo_clip_extents (cr, &hatch.x0, &hatch.y0, &hatch.x1, &hatch.y1);
  if (!(hatch.x1 > hatch.x0 && hatch.y1 > hatch.y0)
      || !isfinite (hatch.x0 + hatch.y0 + hatch.x1 + hatch.y1))
    return;
  /* thin lines where the pitch is fine (paper, thin bodies): 0.14 mm, never under 0.13 */
  hatch.width = unit * 0.20 * (pitch_ratio < 1.0 ? 0.7 : 1.0) * palette->line_ratio;
  cairo_new_path (cr);
  cairo_set_line_width (cr, hatch.width);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0.0);
  paint_pattern (&hatch, look);
}

static void
pattern_in_path (cairo_t *cr, const TlPalette *palette, TlLook look, double unit,
                 double pitch_ratio, TlColour colour, double alpha)
{
  cairo_path_t *path = cairo_copy_path (cr);

  cairo_save (cr);
  cairo_clip (cr);
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
  pattern_in_clip (cr, palette, look, unit, pitch_ratio);
  cairo_restore (cr);
  cairo_new_path (cr);
  cairo_append_path (cr, path);
  cairo_path_destroy (path);
}

void
tl_paint_look (cairo_t *cr, const TlPalette *palette, TlLook look, gboolean is_cut, double unit,
               double pitch_ratio)
{
  g_return_if_fail ((guint) look < TL_N_LOOKS && unit > 0.0 && pitch_ratio > 0.0);
  tl_paint_set_colour (cr, look == TL_LOOK_AIR ? palette->paper : palette->tint[look]);
  cairo_fill_preserve (cr);
  if (is_cut && look != TL_LOOK_AIR)
    pattern_in_path (cr, palette, look, unit, pitch_ratio, palette->pattern, 1.0);
}

/* --- heat --- */

#define HEX(rgb)                                                                                   \
  {                                                                                                \
    ((rgb) >> 16 & 0xff) / 255.0, ((rgb) >> 8 & 0xff) / 255.0, ((rgb) &0xff) / 255.0               \
  }
#define N_STOPS 7

static const TlColour heat_light[N_STOPS] = { HEX (0xFBF3CF), HEX (0xF4CE86), HEX (0xE89F5E),
                                              HEX (0xCF6A63), HEX (0x9C4280), HEX (0x5F2F7A),
                                              HEX (0x2A1A4E) };
static const TlColour heat_dark[N_STOPS] = { HEX (0x10214A), HEX (0x33307E), HEX (0x6B3E93),
                                             HEX (0xA9508D), HEX (0xDE6F6C), HEX (0xF3A352),
                                             HEX (0xFBE39A) };
/* Print: from paper to the darkest grey on which a black pattern is still told apart. */
static const TlColour heat_ink[N_STOPS] = { HEX (0xFFFFFF), HEX (0xEDEDED), HEX (0xDBDBDB),
                                            HEX (0xC9C9C9), HEX (0xB7B7B7), HEX (0xA5A5A5),
                                            HEX (0x939393) };
/* Patterns on colour: dark on the light half of the scale, light on the dark half. */
static const TlColour pattern_dark = HEX (0x0B1116), pattern_light = HEX (0xFCFCFA);
#define PATTERN_ALPHA 0.55

static gboolean
is_dark (const TlPalette *palette)
{
  return palette->scheme == TL_SCHEME_DARK || palette->scheme == TL_SCHEME_CONTRAST_DARK;
}

TlColour
tl_paint_heat_colour (const TlPalette *palette, double ratio)
{
  const TlColour *stops = palette->scheme == TL_SCHEME_ONE_INK ? heat_ink
                          : is_dark (palette)                  ? heat_dark
                                                               : heat_light;
  double          at = (isfinite (ratio) ? CLAMP (ratio, 0.0, 1.0) : 0.0) * (N_STOPS - 1), share;
  guint           low = MIN ((guint) at, N_STOPS - 2u);

  share = at - low;
  return (TlColour){ stops[low].red + share * (stops[low + 1].red - stops[low].red),
                     stops[low].green + share * (stops[low + 1].green - stops[low].green),
                     stops[low].blue + share * (stops[low + 1].blue - stops[low].blue) };
}

void
tl_paint_look_heat (cairo_t *cr, const TlPalette *palette, TlLook look, gboolean is_cut,
                    double unit, double pitch_ratio, cairo_pattern_t *fill, double ratio)
{
  gboolean on_light = is_dark (palette) ? ratio > 0.4 : ratio < 0.62;

  g_return_if_fail ((guint) look < TL_N_LOOKS && unit > 0.0 && pitch_ratio > 0.0);
  cairo_set_source (cr, fill);
  cairo_fill_preserve (cr);
  if (!is_cut || look == TL_LOOK_AIR)
    return;
  if (palette->scheme == TL_SCHEME_ONE_INK)
    pattern_in_path (cr, palette, look, unit, pitch_ratio, palette->pattern, 1.0);
  else
    pattern_in_path (cr, palette, look, unit, pitch_ratio, on_light ? pattern_dark : pattern_light,
                     PATTERN_ALPHA);
}
