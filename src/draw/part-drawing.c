/* part-drawing.c: a part by itself, true in proportion: rows of Parts, the ghost while dragging, parts not yet placed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/part-private.h"

typedef struct
{
  TlDrawing     *d;
  const TlStock *stock;
  const TlFacts *facts;
  const char    *owner;
  double         x, y, scale;
} Part;

static double
number (const TlFacts *facts, TlField field, double fallback)
{
  double value = tl_facts_number (facts, field, fallback);

  return isfinite (value) && value > 0.0 ? MIN (value, 1e4) : fallback;
}

static TlLook
look_of (const TlStock *stock, const TlFacts *facts, TlField field, TlLook fallback)
{
  const char       *id = tl_facts_word (facts, field, NULL);
  const TlMaterial *material = id != NULL && stock != NULL ? tl_stock_material (stock, id) : NULL;

  return material != NULL ? material->look : fallback;
}

static double
metal_diameter (const TlFacts *facts)
{
  double section = number (facts, TL_FIELD_SECTION, 2.5);

  return number (facts, TL_FIELD_METAL_DIAMETER, sqrt (4.0 * section / G_PI));
}

static gboolean
is_washer (TlPartKind kind)
{
  return kind == TL_PART_PLAIN_WASHER || kind == TL_PART_LARGE_WASHER || kind == TL_PART_SPRING_RING
         || kind == TL_PART_CONICAL_WASHER || kind == TL_PART_SERRATED_WASHER;
}

static double
washer_height (TlPartKind kind, const TlFacts *facts)
{
  double thickness = number (facts, TL_FIELD_THICKNESS, 1.0);

  if (kind == TL_PART_SPRING_RING)
    return 1.6 * thickness;
  return kind == TL_PART_CONICAL_WASHER
             ? MAX (number (facts, TL_FIELD_FREE_HEIGHT, 1.35 * thickness), 1.15 * thickness)
             : thickness;
}

/* Housing about the metal of a terminal, as drawn. */
#define TERMINAL_WALL_MM 1.2

static double
terminal_bore (const TlFacts *facts)
{
  return number (facts, TL_FIELD_BORE, 3.0);
}

static double
terminal_rows (TlPartKind kind, const TlFacts *facts)
{
  return number (facts, TL_FIELD_PORTS, kind == TL_PART_BRANCH ? 3.0 : 2.0) > 2.0 ? 2.0 : 1.0;
}

static void
terminal_metal (TlPartKind kind, const TlFacts *facts, double *length_mm, double *height_mm)
{
  double bore = terminal_bore (facts), rows = terminal_rows (kind, facts);

  *length_mm = number (facts, TL_FIELD_LENGTH, 4.0 * bore);
  *height_mm = MAX (number (facts, TL_FIELD_HEIGHT, rows * (bore + 2.0)), rows * (bore + 0.4));
}

void
tl_part_extent (const TlStock *stock, TlPartKind kind, const TlFacts *facts, double *length_mm,
                double *height_mm)
{
  double flats = number (facts, TL_FIELD_ACROSS_FLATS, 1.6 * number (facts, TL_FIELD_THREAD, 5.0));

  if (is_washer (kind))
    {
      *length_mm = number (facts, TL_FIELD_OUTER, 10.0);
      *height_mm = washer_height (kind, facts);
      return;
    }
  *length_mm = 12.0;
  *height_mm = 6.0;
  if (kind == TL_PART_CONDUCTOR)
    {
      *height_mm = MAX (number (facts, TL_FIELD_INSULATION_DIAMETER, 0.0), metal_diameter (facts));
      *length_mm = 3.6 * *height_mm;
    }
  else if (kind == TL_PART_BOLT)
    {
      *length_mm = number (facts, TL_FIELD_LENGTH, 16.0)
                   + number (facts, TL_FIELD_HEIGHT, 0.7 * number (facts, TL_FIELD_THREAD, 5.0));
      *height_mm = flats * 1.1547;
    }
  else if (kind == TL_PART_NUT)
    {
      *length_mm = flats * 1.1547;
      *height_mm = number (facts, TL_FIELD_HEIGHT, 0.8 * number (facts, TL_FIELD_THREAD, 5.0));
    }
  else if (kind == TL_PART_SLEEVE || kind == TL_PART_FERRULE)
    {
      *length_mm = number (facts, TL_FIELD_LENGTH, 20.0);
      *height_mm = number (facts, TL_FIELD_OUTER, 5.0) * (kind == TL_PART_FERRULE ? 1.5 : 1.0);
    }
  else if (kind == TL_PART_SEAL || kind == TL_PART_CAP)
    {
      *height_mm = number (facts, TL_FIELD_EXPANDED, 6.4) + 1.4;
      *length_mm = number (facts, TL_FIELD_LENGTH, 4.0 * *height_mm);
    }
  else if (kind == TL_PART_LUG)
    {
      *length_mm = number (facts, TL_FIELD_LENGTH, 8.0) + number (facts, TL_FIELD_WIDTH, 9.0) * 1.1;
      *height_mm = MAX (number (facts, TL_FIELD_OUTER, 5.0), number (facts, TL_FIELD_WIDTH, 9.0));
    }
  else if (kind == TL_PART_TERMINAL || kind == TL_PART_BRANCH)
    {
      terminal_metal (kind, facts, length_mm, height_mm);
      *length_mm += 2.0 * TERMINAL_WALL_MM;
      *height_mm += 2.0 * TERMINAL_WALL_MM;
    }
  else if (kind == TL_PART_BOX)
    {
      *length_mm = number (facts, TL_FIELD_INNER_WIDTH, 70.0);
      *height_mm = number (facts, TL_FIELD_INNER_HEIGHT, *length_mm);
    }
}

/* Rectangle from (x0, y0) to (x1, y1) in mm about the middle of the part. */
static void
block (const Part *p, double x0, double y0, double x1, double y1, TlLook look, gboolean is_cut)
{
  tl_path_begin (p->d);
  tl_path_rectangle (p->d, p->x + x0 * p->scale, p->y + y0 * p->scale, p->x + x1 * p->scale,
                     p->y + y1 * p->scale);
  tl_shape_look (p->d, p->owner, look, is_cut, TL_LINE_EDGE);
}

static void
quad (const Part *p, const double at[8], TlLook look)
{
  tl_path_begin (p->d);
  for (guint i = 0; i < 4; i++)
    if (i == 0)
      tl_path_move (p->d, p->x + at[0] * p->scale, p->y + at[1] * p->scale);
    else
      tl_path_line (p->d, p->x + at[2 * i] * p->scale, p->y + at[2 * i + 1] * p->scale);
  tl_path_close (p->d);
  tl_shape_look (p->d, p->owner, look, TRUE, TL_LINE_EDGE);
}

static void
axis (const Part *p, gboolean upright, double half_mm)
{
  double reach = half_mm * p->scale + 3.0 * p->d->px;

  tl_shape_segment (p->d, TL_INK_CENTRE, TL_LINE_CENTRE, upright ? p->x : p->x - reach,
                    upright ? p->y - reach : p->y, upright ? p->x : p->x + reach,
                    upright ? p->y + reach : p->y);
}

static void
draw_washer (const Part *p, TlPartKind kind)
{
  double outer = number (p->facts, TL_FIELD_OUTER, 10.0) / 2.0,
         inner = MIN (number (p->facts, TL_FIELD_BORE, 0.53 * 2.0 * outer), 1.9 * outer) / 2.0;
  double thick = number (p->facts, TL_FIELD_THICKNESS, 1.0),
         height = washer_height (kind, p->facts), rise = height - thick;
  TlLook look = look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_STEEL);

  if (kind != TL_PART_SPRING_RING && kind != TL_PART_CONICAL_WASHER)
    {
      block (p, -inner, -thick / 2.0, inner, thick / 2.0, look, FALSE);
      block (p, -outer, -thick / 2.0, -inner, thick / 2.0, look, TRUE);
      block (p, inner, -thick / 2.0, outer, thick / 2.0, look, TRUE);
    }
  else
    for (int side = -1; side <= 1; side += 2)
      {
        /* a cone rises to its bore on both sides; a split ring rises all the way round */
        double way = kind == TL_PART_SPRING_RING ? side : 1.0,
               in = -height / 2.0 + (way > 0.0 ? 0.0 : rise);
        double out = -height / 2.0 + (way > 0.0 ? rise : 0.0);
        double at[8] = { side * inner, in,          side * outer, out,
                         side * outer, out + thick, side * inner, in + thick };

        quad (p, at, look);
      }
  axis (p, TRUE, MAX (height / 2.0, 1.2));
}

static void
draw_conductor (const Part *p)
{
  double metal = metal_diameter (p->facts) / 2.0,
         over = number (p->facts, TL_FIELD_INSULATION_DIAMETER, 0.0) / 2.0,
         half = 1.8 * MAX (metal, over);
  TlLook look = look_of (p->stock, p->facts, TL_FIELD_METAL, TL_LOOK_COPPER);

  block (p, -half, -metal, half, metal, look, TRUE);
  if (over > metal)
    block (p, -half, -over, half * 0.2, over,
           look_of (p->stock, p->facts, TL_FIELD_INSULATION, TL_LOOK_INSULATION), TRUE);
}

static void
draw_bolt (const Part *p)
{
  double thread = number (p->facts, TL_FIELD_THREAD, 5.0),
         length = number (p->facts, TL_FIELD_LENGTH, 16.0),
         height = number (p->facts, TL_FIELD_HEIGHT, 0.7 * thread);
  double corner = number (p->facts, TL_FIELD_ACROSS_FLATS, 1.6 * thread) / sqrt (3.0),
         x0 = -(length + height) / 2.0;
  double root =
      MAX (thread - 1.2269 * number (p->facts, TL_FIELD_PITCH, 0.16 * thread), 0.5 * thread) / 2.0;
  TlLook look = look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_STEEL);

  block (p, x0 + height, -thread / 2.0, x0 + height + length, thread / 2.0, look, FALSE);
  block (p, x0, -corner, x0 + height, corner, look, FALSE);
  for (int way = -1; way <= 1; way += 2)
    {
      tl_shape_segment (p->d, TL_INK_INK, TL_LINE_THIN, p->x + x0 * p->scale,
                        p->y + way * corner / 2.0 * p->scale, p->x + (x0 + height) * p->scale,
                        p->y + way * corner / 2.0 * p->scale);
      tl_shape_segment (p->d, TL_INK_INK, TL_LINE_THIN, p->x + (x0 + height) * p->scale,
                        p->y + way * root * p->scale, p->x + (x0 + height + length) * p->scale,
                        p->y + way * root * p->scale);
    }
}

static void
draw_nut (const Part *p)
{
  double thread = number (p->facts, TL_FIELD_THREAD, 5.0),
         half = number (p->facts, TL_FIELD_HEIGHT, 0.8 * thread) / 2.0;
  double corner = number (p->facts, TL_FIELD_ACROSS_FLATS, 1.6 * thread) / sqrt (3.0);

  block (p, -corner, -half, corner, half,
         look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_STEEL), FALSE);
  for (int way = -1; way <= 1; way += 2)
    tl_shape_segment (p->d, TL_INK_INK, TL_LINE_THIN, p->x + way * corner / 2.0 * p->scale,
                      p->y - half * p->scale, p->x + way * corner / 2.0 * p->scale,
                      p->y + half * p->scale);
}

static void
draw_tube (const Part *p, double length, double inner, double outer, TlLook look, TlLook lining,
           gboolean has_end)
{
  double half = length / 2.0, third = lining == TL_LOOK_AIR ? 0.0 : (outer - inner) * 0.35;

  block (p, -half, -inner, half, inner, TL_LOOK_AIR, FALSE);
  for (int way = -1; way <= 1; way += 2)
    {
      block (p, -half, way * (inner + third), half, way * outer, look, TRUE);
      if (third > 0.0)
        block (p, -half, way * inner, half, way * (inner + third), lining, TRUE);
    }
  if (has_end)
    block (p, half - (outer - inner), -outer, half, outer, look, TRUE);
  else
    axis (p, FALSE, half);
}

static void
draw_sleeve (const Part *p, TlPartKind kind)
{
  double outer = number (p->facts, TL_FIELD_OUTER, 5.0) / 2.0,
         inner = MIN (number (p->facts, TL_FIELD_BORE, 1.6 * outer) / 2.0, 0.97 * outer);
  double length = number (p->facts, TL_FIELD_LENGTH, 20.0);

  draw_tube (p, length, inner, outer,
             look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_COPPER), TL_LOOK_AIR, FALSE);
  if (kind == TL_PART_FERRULE)
    for (int way = -1; way <= 1; way += 2)
      {
        double at[8] = { -length / 2.0, way * outer * 1.5, -length * 0.3, way * outer,
                         -length * 0.3, way * inner,       -length / 2.0, way * outer * 1.25 };

        quad (p, at, look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_TIN));
      }
}

static void
draw_seal (const Part *p, TlPartKind kind)
{
  double inner = number (p->facts, TL_FIELD_EXPANDED, 6.4) / 2.0,
         length = number (p->facts, TL_FIELD_LENGTH, 4.0 * (2.0 * inner + 1.4));

  draw_tube (p, length, inner, inner + 0.7,
             look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_POLYMER),
             tl_facts_is (p->facts, TL_FIELD_ADHESIVE) ? TL_LOOK_ADHESIVE : TL_LOOK_AIR,
             kind == TL_PART_CAP);
}

static void
draw_lug (const Part *p)
{
  double width = number (p->facts, TL_FIELD_WIDTH, 9.0),
         outer = number (p->facts, TL_FIELD_OUTER, 5.0),
         length = number (p->facts, TL_FIELD_LENGTH, 8.0);
  double total = length + 1.1 * width,
         hole = number (p->facts, TL_FIELD_EYE_BORE, number (p->facts, TL_FIELD_BORE, 5.0));
  double cx = p->x + (total / 2.0 - width / 2.0) * p->scale, r = width / 2.0 * p->scale;
  TlLook look = look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_COPPER);

  block (p, -total / 2.0, -outer / 2.0, -total / 2.0 + length, outer / 2.0, look, FALSE);
  tl_path_begin (p->d);
  tl_path_arc (p->d, cx, p->y, r, -G_PI / 2.0, G_PI / 2.0, TRUE);
  tl_path_line (p->d, p->x + (-total / 2.0 + length) * p->scale, p->y + outer / 2.0 * p->scale);
  tl_path_line (p->d, p->x + (-total / 2.0 + length) * p->scale, p->y - outer / 2.0 * p->scale);
  tl_path_close (p->d);
  tl_shape_look (p->d, p->owner, look, FALSE, TL_LINE_EDGE);
  tl_path_begin (p->d);
  tl_path_circle (p->d, cx, p->y, MIN (hole, 0.8 * width) / 2.0 * p->scale);
  tl_shape_look (p->d, p->owner, TL_LOOK_AIR, FALSE, TL_LINE_EDGE);
}

/* Stuff without a shape of its own: a drop of compound, a piece of solder or filler. */
static void
draw_drop (const Part *p, TlLook look)
{
  double r = 2.6 * p->scale;

  tl_path_begin (p->d);
  tl_path_move (p->d, p->x - 2.0 * r, p->y + r * 0.6);
  tl_path_curve (p->d, p->x - 1.9 * r, p->y - 1.2 * r, p->x - 0.3 * r, p->y - 0.5 * r, p->x,
                 p->y - 0.9 * r);
  tl_path_curve (p->d, p->x + 0.6 * r, p->y - 1.3 * r, p->x + 2.1 * r, p->y - 0.6 * r,
                 p->x + 2.0 * r, p->y + 0.6 * r);
  tl_path_curve (p->d, p->x + 1.2 * r, p->y + 1.0 * r, p->x - 1.2 * r, p->y + 1.0 * r,
                 p->x - 2.0 * r, p->y + 0.6 * r);
  tl_path_close (p->d);
  tl_shape_look (p->d, p->owner, look, TRUE, TL_LINE_EDGE);
}

static void
draw_box (const Part *p)
{
  double length, height;

  tl_part_extent (p->stock, TL_PART_BOX, p->facts, &length, &height);
  if (strcmp (tl_facts_word (p->facts, TL_FIELD_SHAPE, "rectangular"), "round") != 0)
    {
      block (p, -length / 2.0, -height / 2.0, length / 2.0, height / 2.0, TL_LOOK_INSULATION,
             FALSE);
      block (p, -length * 0.44, -height * 0.44, length * 0.44, height * 0.44, TL_LOOK_AIR, FALSE);
      return;
    }
  for (guint i = 0; i < 2; i++)
    {
      tl_path_begin (p->d);
      tl_path_circle (p->d, p->x, p->y, (i == 0 ? 0.5 : 0.44) * MIN (length, height) * p->scale);
      tl_shape_look (p->d, p->owner, i == 0 ? TL_LOOK_INSULATION : TL_LOOK_AIR, FALSE,
                     TL_LINE_EDGE);
    }
}

/* Metal, bores and screws or springs of a terminal, cut along its bores. */
static void
draw_terminal (const Part *p, TlPartKind kind)
{
  double   length, height, rows = terminal_rows (kind, p->facts), row;
  double   bore = terminal_bore (p->facts), thread = number (p->facts, TL_FIELD_THREAD, 0.8 * bore);
  gboolean is_spring =
      strstr (tl_facts_word (p->facts, TL_FIELD_TERMINAL_FORM, ""), "spring") != NULL;
  TlLook metal = look_of (p->stock, p->facts, TL_FIELD_MATERIAL, TL_LOOK_BRASS);
  TlLook clamp = look_of (p->stock, p->facts, TL_FIELD_OTHER_FACE,
                          is_spring ? TL_LOOK_STAINLESS : TL_LOOK_STEEL);

  terminal_metal (kind, p->facts, &length, &height);
  row = height / rows;
  if (tl_facts_has (p->facts, TL_FIELD_BODY_MATERIAL))
    block (p, -length / 2.0 - TERMINAL_WALL_MM, -height / 2.0 - TERMINAL_WALL_MM,
           length / 2.0 + TERMINAL_WALL_MM, height / 2.0 + TERMINAL_WALL_MM, TL_LOOK_POLYMER, TRUE);
  block (p, -length / 2.0, -height / 2.0, length / 2.0, height / 2.0, metal, TRUE);
  for (guint i = 0; i < (guint) rows; i++)
    {
      double middle = -height / 2.0 + (i + 0.5) * row, side = i == 0 ? -1.0 : 1.0;

      block (p, -length / 2.0, middle - bore / 2.0, length / 2.0, middle + bore / 2.0, TL_LOOK_AIR,
             FALSE);
      for (int end = -1; end <= 1; end += 2)
        {
          double x = kind == TL_PART_BRANCH ? 0.0 : end * length / 4.0, half = thread / 2.0;
          double outside = middle + side * row / 2.0, tip = middle + side * bore * 0.1;

          if (is_spring)
            {
              double at[8] = { x + end * 0.2 * length,
                               middle + side * bore / 2.0,
                               x,
                               tip,
                               x - end * 0.5,
                               tip,
                               x + end * 0.2 * length,
                               middle + side * (bore / 2.0 - 0.6) };

              quad (p, at, clamp);
            }
          else
            block (p, x - half, MIN (outside, tip), x + half, MAX (outside, tip), clamp, FALSE);
        }
      tl_shape_segment (p->d, TL_INK_CENTRE, TL_LINE_CENTRE,
                        p->x - length / 2.0 * p->scale - 3.0 * p->d->px, p->y + middle * p->scale,
                        p->x + length / 2.0 * p->scale + 3.0 * p->d->px, p->y + middle * p->scale);
    }
}

void
tl_part_shapes (TlDrawing *d, const TlStock *stock, TlPartKind kind, const TlFacts *facts,
                const char *owner, double x, double y, double scale)
{
  Part part = { d, stock, facts, owner, x, y, scale };

  switch (kind)
    {
    case TL_PART_CONDUCTOR:
      draw_conductor (&part);
      break;
    case TL_PART_BOLT:
      draw_bolt (&part);
      break;
    case TL_PART_NUT:
      draw_nut (&part);
      break;
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
      draw_washer (&part, kind);
      break;
    case TL_PART_SLEEVE:
    case TL_PART_FERRULE:
      draw_sleeve (&part, kind);
      break;
    case TL_PART_SEAL:
    case TL_PART_CAP:
      draw_seal (&part, kind);
      break;
    case TL_PART_LUG:
      draw_lug (&part);
      break;
    case TL_PART_FILLER:
    case TL_PART_COMPOUND:
    case TL_PART_SOLDER:
      draw_drop (&part, look_of (stock, facts, TL_FIELD_MATERIAL,
                                 kind == TL_PART_SOLDER   ? TL_LOOK_TIN
                                 : kind == TL_PART_FILLER ? TL_LOOK_ADHESIVE
                                                          : TL_LOOK_COMPOUND));
      break;
    case TL_PART_BOX:
      draw_box (&part);
      break;
    case TL_PART_TERMINAL:
    case TL_PART_BRANCH:
      draw_terminal (&part, kind);
      break;
    case TL_N_PART_KINDS:
    default:
      break;
    }
}

void
tl_part_paint (cairo_t *cr, const TlPalette *palette, const TlStock *stock, TlPartKind kind,
               const TlFacts *facts, double width, double height)
{
  TlDrawing d = { 0 };
  double    length, thick, scale;

  g_return_if_fail (cr != NULL && palette != NULL && facts != NULL);
  if (!(width > 8.0 && height > 4.0) || !isfinite (width + height))
    return;
  tl_drawing_init_bare (&d, width, height, 96.0 / 25.4);
  /* lines of a row are finer than those of the bench */
  d.mm *= 0.75;
  tl_part_extent (stock, kind, facts, &length, &thick);
  scale = MIN ((width - 8.0) / length, (height - 6.0) / thick);
  tl_part_shapes (&d, stock, kind, facts, NULL, width / 2.0, height / 2.0, scale);
  tl_drawing_paint (&d, cr, palette);
  tl_drawing_clear (&d);
}

void
tl_part_paint_ghost (cairo_t *cr, const TlPalette *palette, const TlStock *stock, TlPartKind kind,
                     const TlFacts *facts, double scale)
{
  TlDrawing d = { 0 };
  double    length, thick, margin, w, h, dash[2] = { 4.0, 3.0 };

  g_return_if_fail (cr != NULL && palette != NULL && facts != NULL);
  if (!(scale > 0.0) || !isfinite (scale))
    return;
  tl_part_extent (stock, kind, facts, &length, &thick);
  margin = 6.0;
  w = length * scale + 2.0 * margin;
  h = thick * scale + 2.0 * margin;
  tl_drawing_init_bare (&d, w, h, 96.0 / 25.4);
  tl_part_shapes (&d, stock, kind, facts, NULL, w / 2.0, h / 2.0, scale);
  cairo_save (cr);
  cairo_translate (cr, -w / 2.0, -h / 2.0);
  tl_drawing_paint (&d, cr, palette);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0.8, 0.8, w - 1.6, h - 1.6);
  tl_paint_set_colour (cr, palette->select);
  cairo_set_line_width (cr, 1.2 * palette->line_ratio);
  cairo_set_dash (cr, dash, 2, 0.0);
  cairo_stroke (cr);
  cairo_restore (cr);
  tl_drawing_clear (&d);
}
