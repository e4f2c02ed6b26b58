/* test-overlay.c: heat, current and wet paths on the drawing.
 *
 * Lightness after CIE 15 (colorimetry), L* from relative luminance; contrast after WCAG 2.1; current by Kirchhoff's first
 * law; steps in volts after IEC 60950-1, Annex J (from memory). Scales of whole steps and labels that do not overlap are
 * common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"
#include "joint/edit.h"
#include <string.h>

typedef struct
{
  const char *name;
  double      width, height;
  gboolean    paper;
} Area;

static const Area areas[] = {
  { "bench", 664.0, 560.0, FALSE },
  { "bench-1024", 476.0, 460.0, FALSE },
  { "sheet", 178.0, 90.0, TRUE },
  { "low", 300.0, 90.0, FALSE },
};

static TlDrawing *
draw_in (const TlVerdict *verdict, const Area *area, TlOverlay overlay, const TlHeatField *field)
{
  TlDrawingOptions options;

  tl_drawing_options_init (&options);
  options.width = area->width;
  options.height = area->height;
  options.paper = area->paper;
  options.overlay = overlay;
  options.field = field;
  if (area->paper)
    options.unit = 1.0;
  return tl_drawing_new (verdict, &options, tl_language_plain ());
}

/* --- colours --- */

static double
lightness (TlColour colour)
{
  double luminance = (tl_colour_contrast (colour, (TlColour){ 0.0, 0.0, 0.0 }) - 1.0) * 0.05;

  return luminance > 216.0 / 24389.0 ? 116.0 * cbrt (luminance) - 16.0 : luminance * 24389.0 / 27.0;
}

static void
test_stops (void)
{
  for (guint scheme = 0; scheme < TL_N_SCHEMES; scheme++)
    {
      const TlPalette *palette = tl_palette_get ((TlScheme) scheme);
      double           way = lightness (palette->paper) > 50.0 ? -1.0 : 1.0;

      for (guint i = 1; i <= 24; i++)
        {
          TlColour before = tl_paint_heat_colour (palette, (i - 1) / 24.0),
                   after = tl_paint_heat_colour (palette, i / 24.0);

          /* grey goes one way, always away from the paper, by at least 1 of 100 for each twenty-fourth */
          g_assert_cmpfloat (way * (lightness (after) - lightness (before)), >, 1.0);
        }
      g_assert_cmpfloat (
          tl_colour_contrast (tl_paint_heat_colour (palette, 1.0), palette->paper), >,
          2.5 * tl_colour_contrast (tl_paint_heat_colour (palette, 0.0), palette->paper));
    }
}

static void
test_stops_ends (void)
{
  const TlPalette *palette = tl_palette_get (TL_SCHEME_LIGHT);
  TlColour cool = tl_paint_heat_colour (palette, 0.0), below = tl_paint_heat_colour (palette, -3.0),
           none = tl_paint_heat_colour (palette, NAN), hot = tl_paint_heat_colour (palette, 1.0),
           above = tl_paint_heat_colour (palette, 7.0);

  g_assert_cmpmem (&cool, sizeof cool, &below, sizeof below);
  g_assert_cmpmem (&cool, sizeof cool, &none, sizeof none);
  g_assert_cmpmem (&hot, sizeof hot, &above, sizeof above);
}

static void
test_scale (void)
{
  static const struct
  {
    double low, high, wanted_low, wanted_high, step;
  } cases[] = {
    { 38.1, 38.3, 38.0, 40.0, 2.0 }, { 36.0, 38.0, 36.0, 38.0, 2.0 },
    { 31.2, 57.4, 30.0, 60.0, 5.0 }, { 40.0, 118.0, 40.0, 120.0, 10.0 },
    { 50.0, 50.0, 50.0, 52.0, 2.0 }, { -12.3, -9.9, -14.0, -8.0, 2.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double low = cases[i].low, high = cases[i].high, step;

      tl_overlay_heat_scale (&low, &high, &step);
      g_assert_cmpfloat (low, ==, cases[i].wanted_low);
      g_assert_cmpfloat (high, ==, cases[i].wanted_high);
      g_assert_cmpfloat (step, ==, cases[i].step);
    }
}

/* --- shares --- */

static void
test_tenths (void)
{
  const double thirds[] = { 1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0 }, split[] = { 0.7912, 0.2088 },
               tiny[] = { 0.99996, 0.00004 }, none[] = { 0.0 };
  guint tenths[3];

  tl_overlay_tenths (thirds, 3, tenths);
  g_assert_cmpuint (tenths[0] + tenths[1] + tenths[2], ==, 1000);
  tl_overlay_tenths (split, 2, tenths);
  g_assert_cmpuint (tenths[0], ==, 791);
  g_assert_cmpuint (tenths[1], ==, 209);
  tl_overlay_tenths (tiny, 2, tenths);
  g_assert_cmpuint (tenths[0], ==, 1000);
  g_assert_cmpuint (tenths[1], ==, 0);
  tl_overlay_tenths (none, 1, tenths);
  g_assert_cmpuint (tenths[0], ==, 0);
}

/* What comes into each body goes out of it; the conductors carry all. Tolerance: what the solver leaves, 0.1 %. */
static void
test_kirchhoff (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();
  guint computed = 0;

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (names->pdata[i]));
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
      const GArray *paths = tl_heat_field_paths (field);

      if (!tl_heat_field_is_computed (field))
        continue;
      computed++;
      for (guint b = 0; b < 2 * paths->len; b++)
        {
          const TlCurrentPath *here = &g_array_index (paths, TlCurrentPath, b / 2);
          const char          *owner = b % 2 == 0 ? here->from_owner : here->to_owner;
          double               in = 0.0, out = 0.0;

          for (guint k = 0; k < paths->len; k++)
            {
              const TlCurrentPath *path = &g_array_index (paths, TlCurrentPath, k);

              in += g_str_equal (path->to_owner, owner) ? path->share_ratio : 0.0;
              out += g_str_equal (path->from_owner, owner) ? path->share_ratio : 0.0;
            }
          in += g_strcmp0 (owner, tl_heat_field_source (field)) == 0;
          out += g_strcmp0 (owner, tl_heat_field_sink (field)) == 0;
          g_test_message ("%s: %s in %.4f out %.4f", (const char *) names->pdata[i], owner, in,
                          out);
          g_assert_cmpfloat_with_epsilon (in, out, 1e-3);
        }
    }
  g_assert_cmpuint (computed, >=, 8);
}

/* The percentages at the split of a stack and of a sleeve add up to a hundred. */
static void
test_percent_text (void)
{
  static const char *const names[] = { "bolted-as-it-should-be", "copper-on-aluminium",
                                       "socket-circuit-weaving-floor" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (names[i]));
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
      g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_CURRENT, field);
      g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
      double sum = 0.0;

      for (guint k = 0; k < d->shapes->len; k++)
        {
          const TlShape *s = &g_array_index (d->shapes, TlShape, k);

          /* the key has plain text; what goes round the wall of a barrel is told where it enters and where it leaves */
          if (s->kind == TL_SHAPE_TEXT && s->is_bold && g_str_has_suffix (s->text, "\u202f%")
              && g_hash_table_add (seen, s->text))
            sum += g_ascii_strtod (s->text, NULL);
        }
      g_test_message ("%s: %.1f", names[i], sum);
      g_assert_cmpfloat_with_epsilon (sum, 100.0, 1e-9);
    }
}

/* Every family has an arrow in, one out and one over each contact that carries something; what goes into a terminal
 * comes out of it, so that its percentages add up to twice a hundred. */
static void
test_arrows (void)
{
  static const struct
  {
    const char *name;
    guint       least; /* arrows */
    double      sum;
  } cases[] = {
    { "bolted-as-it-should-be", 4, 100.0 }, { "socket-circuit-weaving-floor", 5, NAN },
    { "screw-terminal-plated", 7, 200.0 },  { "branch-clamp", 6, 200.0 },
    { "spring-terminal-marked", 5, 200.0 }, { "socket-terminal", 7, 200.0 },
    { "soldered-copper-splice", 3, 100.0 }, { "welded-copper-splice", 3, 100.0 },
    { "twist-of-copper", 3, 100.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (cases[i].name));
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
      g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_CURRENT, field);
      double sum = 0.0, x0, y0, x1, y1;
      guint  arrows = 0;

      for (guint k = 0; k < d->shapes->len; k++)
        {
          const TlShape *s = &g_array_index (d->shapes, TlShape, k);

          if (s->kind == TL_SHAPE_TEXT && s->is_bold && g_str_has_suffix (s->text, "\u202f%"))
            sum += g_ascii_strtod (s->text, NULL);
          if (s->kind == TL_SHAPE_FILL && s->ink == TL_INK_INK && s->view == TL_VIEW_SECTION
              && tl_shape_bounds (d, s, &x0, &y0, &x1, &y1) && y1 < d->band_y)
            {
              g_assert_true (x0 >= 0.0 && x1 <= areas[0].width && y0 >= 0.0);
              arrows++;
            }
        }
      g_test_message ("%s: %u arrows, %.1f", cases[i].name, arrows, sum);
      g_assert_cmpuint (arrows, >=, cases[i].least);
      if (!isnan (cases[i].sum))
        g_assert_cmpfloat_with_epsilon (sum, cases[i].sum, 1e-9);
    }
}

/* --- heat --- */

static gboolean
has_part (const TlDrawing *d, const char *part)
{
  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (d->shapes, TlShape, i);

      if (s->text != NULL && strstr (s->text, part) != NULL)
        return TRUE;
    }
  return FALSE;
}

static void
test_hottest (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
  g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_HEAT, field);
  double           hot_C, low_C, high_C;
  const char      *owner = tl_heat_field_hottest (field, &hot_C);
  g_autofree char *name = tl_assembly_owner_name (verdict->assembly, owner, tl_language_plain ());

  tl_heat_field_range_C (field, &low_C, &high_C);
  g_assert_cmpfloat (low_C, <=, hot_C);
  g_assert_cmpfloat (hot_C, <=, high_C);
  g_assert_cmpfloat (low_C, >, tl_heat_field_ambient_C (field));
  g_assert_true (has_part (d, "Hottest in the joint"));
  g_assert_true (has_part (d, name));
  g_assert_true (has_part (d, "colour = heat"));
}

static void
test_fills (void)
{
  static const char *const names[] = { "bolted-as-it-should-be", "socket-circuit-weaving-floor" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (names[i]));
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
      g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_HEAT, field);
      guint filled = 0, plain = 0;

      for (guint k = 0; k < d->shapes->len; k++)
        {
          const TlShape *s = &g_array_index (d->shapes, TlShape, k);

          if (s->kind != TL_SHAPE_BODY || s->look == TL_LOOK_AIR)
            continue;
          /* bodies have heat in place of their tint, the legend has patterns only */
          g_assert_true ((s->owner != NULL) == (s->heat_count > 0));
          g_assert_true ((s->owner == NULL) == s->is_plain);
          filled += s->heat_count > 0;
          plain += s->is_plain;
        }
      for (guint k = 0; k < d->heat->len; k++)
        g_assert_true (g_array_index (d->heat, double, k) >= 0.0
                       && g_array_index (d->heat, double, k) <= 1.0);
      g_assert_cmpuint (filled, >, 8);
      g_assert_cmpuint (plain, >=, 4);
    }
}

/* Insulation is as warm as the metal in it; along a lead the temperature has no jump: below 1 K for 1 mm at 10 A. */
static void
test_along (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
  const TlAssembly *assembly = verdict->assembly;
  guint             eye, insulation;
  double            x, y;

  g_assert_nonnull (tl_assembly_find_body (assembly, "leg-1", TL_BODY_EYE, &eye));
  g_assert_nonnull (tl_assembly_find_body (assembly, "leg-1", TL_BODY_INSULATION, &insulation));
  g_assert_true (tl_heat_field_direction (field, eye, &x, &y));
  g_assert_cmpfloat_with_epsilon (hypot (x, y), 1.0, 1e-9);
  for (double at = -30.0; at < 30.0; at += 1.0)
    {
      double here = tl_heat_field_C (field, eye, at * x, at * y);

      g_assert_cmpfloat (here, ==, tl_heat_field_C (field, insulation, at * x, at * y));
      g_assert_cmpfloat (fabs (here - tl_heat_field_C (field, eye, (at + 1.0) * x, (at + 1.0) * y)),
                         <, 1.0);
    }
}

/* --- years --- */

static void
test_years (void)
{
  static const double years[] = { 0.0, 5.0, 10.0, 20.0 };
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  double growth = 0.0, hot_C = 0.0;

  for (guint i = 0; i < G_N_ELEMENTS (years); i++)
    {
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, years[i], NULL);
      g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_HEAT, field);
      double now_C;

      g_assert_true (tl_heat_field_is_computed (field));
      (void) tl_heat_field_hottest (field, &now_C);
      g_assert_cmpfloat (tl_heat_field_growth_ratio (field), >=, growth);
      g_assert_cmpfloat (now_C, >=, hot_C - 1e-9);
      g_assert_true (has_part (d, "Indicative") == (years[i] > 0.0));
      growth = tl_heat_field_growth_ratio (field);
      hot_C = now_C;
    }
  g_assert_cmpfloat (growth, >, 1.0);
}

static void
test_years_clamped (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  g_autoptr (TlHeatField) before = tl_heat_field_new (verdict, -5.0, NULL);
  g_autoptr (TlHeatField) none = tl_heat_field_new (verdict, NAN, NULL);
  g_autoptr (TlHeatField) late = tl_heat_field_new (verdict, 1e9, NULL);

  g_assert_cmpfloat (tl_heat_field_years (before), ==, 0.0);
  g_assert_cmpfloat (tl_heat_field_years (none), ==, 0.0);
  g_assert_cmpfloat (tl_heat_field_years (late), ==, TL_HEAT_FIELD_MOST_YEARS);
}

/* --- wet --- */

static void
test_wet (void)
{
  static const struct
  {
    const char *example, *text;
  } cases[] = {
    { "copper-on-aluminium", "0.65\u202fV, rim" },
    { "zinc-washer", "0.85\u202fV, rim" },
    { "zinc-washer", "0.40\u202fV, gap" },
    { "bolted-as-it-should-be", "0.45\u202fV, rim" },
    { "bare-copper-sleeve", "0.65\u202fV, closed by adhesive" },
    { "sleeve-without-adhesive", "0.45\u202fV, closed by compound" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (cases[i].example));
      g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_WET, NULL);

      g_test_message ("%s: %s", cases[i].example, cases[i].text);
      g_assert_true (has_part (d, cases[i].text));
      g_assert_true (has_part (d, "Double wave"));
    }
}

static guint
count_ink (const TlDrawing *d, TlInk ink, TlLineStyle line)
{
  guint n = 0;

  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (d->shapes, TlShape, i);

      n += s->kind == TL_SHAPE_LINE && s->ink == ink && s->line == line;
    }
  return n;
}

/* Both mouths of a sealed sleeve are cut by a bar and have no drops; open ones have drops and no bar. */
static void
test_mouths (void)
{
  g_autoptr (TlVerdict) closed = pt_judge (pt_example ("socket-circuit-weaving-floor"));
  g_autoptr (TlVerdict) open = pt_judge (pt_example ("sleeve-without-adhesive"));
  g_autoptr (TlDrawing) plain = draw_in (closed, &areas[0], TL_OVERLAY_NONE, NULL);
  g_autoptr (TlDrawing) bars = draw_in (closed, &areas[0], TL_OVERLAY_WET, NULL);
  g_autoptr (TlDrawing) drops = draw_in (open, &areas[0], TL_OVERLAY_WET, NULL);

  g_assert_true (closed->assembly->seal.closed[0] && closed->assembly->seal.closed[1]);
  g_assert_false (open->assembly->seal.closed[0] || open->assembly->seal.closed[1]);
  g_assert_cmpuint (count_ink (bars, TL_INK_INK, TL_LINE_PLANE), ==,
                    count_ink (plain, TL_INK_INK, TL_LINE_PLANE) + 2);
  g_assert_cmpuint (count_ink (bars, TL_INK_SELECT, TL_LINE_EDGE), ==, 0);
  g_assert_cmpuint (count_ink (drops, TL_INK_SELECT, TL_LINE_EDGE), ==, 4);
}

/* --- all of them --- */

/* @roomy: with its band; an area that is too low for that is too low for much else. */
static void
check_texts (const TlDrawing *d, gboolean roomy)
{
  for (guint i = 0; roomy && i < d->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (d->shapes, TlShape, i);
      double         a0, b0, a1, b1;

      if ((s->kind != TL_SHAPE_TEXT && s->kind != TL_SHAPE_NUMBER)
          || !tl_shape_bounds (d, s, &a0, &b0, &a1, &b1))
        continue;
      g_assert_true (a0 >= 0.0 && b0 >= 0.0 && a1 <= d->options.width && b1 <= d->options.height);
      if (s->kind == TL_SHAPE_TEXT)
        g_assert_cmpfloat (s->size, >=, d->options.paper ? 2.0 : 10.5);
      for (guint k = i + 1; k < d->shapes->len; k++)
        {
          const TlShape *other = &g_array_index (d->shapes, TlShape, k);
          double         c0, e0, c1, e1;

          if (other->kind != TL_SHAPE_TEXT || !tl_shape_bounds (d, other, &c0, &e0, &c1, &e1))
            continue;
          if (MIN (a1, c1) - MAX (a0, c0) > 0.5 * d->px
              && MIN (b1, e1) - MAX (b0, e0) > 0.5 * d->px)
            g_error ("“%s” and “%s” lie on each other", s->text != NULL ? s->text : "a number",
                     other->text);
        }
    }
  for (guint i = 0; i < d->vertices->len; i++)
    g_assert_true (isfinite (g_array_index (d->vertices, TlVertex, i).x)
                   && isfinite (g_array_index (d->vertices, TlVertex, i).y));
}

static void
test_all (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (names->pdata[i]));
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);

      for (guint k = 0; k < G_N_ELEMENTS (areas); k++)
        for (guint o = TL_OVERLAY_HEAT; o < TL_N_OVERLAYS; o++)
          {
            g_autoptr (TlDrawing) d = draw_in (verdict, &areas[k], (TlOverlay) o, field);

            g_test_message ("%s, %s, %s", (const char *) names->pdata[i], areas[k].name,
                            tl_overlay_word ((TlOverlay) o));
            check_texts (d, d->band_y < d->options.height);
            dt_paint_nowhere (d);
          }
    }
}

/* Contacts can still be met, so that the keyboard and the screen reader keep their places. */
static void
test_items (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("zinc-washer"));
  g_autoptr (TlDrawing) plain = draw_in (verdict, &areas[0], TL_OVERLAY_NONE, NULL);
  g_autoptr (TlDrawing) wet = draw_in (verdict, &areas[0], TL_OVERLAY_WET, NULL);

  g_assert_cmpuint (tl_drawing_items (plain)->len, ==, tl_drawing_items (wet)->len);
}

/* --- the pointer --- */

static void
test_pointer (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 0.0, NULL);
  g_autoptr (TlDrawing) heat = draw_in (verdict, &areas[0], TL_OVERLAY_HEAT, field);
  g_autoptr (TlDrawing) current = draw_in (verdict, &areas[0], TL_OVERLAY_CURRENT, field);
  g_autoptr (TlDrawing) plain = draw_in (verdict, &areas[0], TL_OVERLAY_NONE, NULL);
  double           x0, y0, x1, y1;
  g_autofree char *warm = NULL, *all = NULL, *none = NULL, *off = NULL;

  g_assert_true (dt_owner_bounds (heat, "layer-1", TL_VIEW_SECTION, &x0, &y0, &x1, &y1));
  warm = tl_drawing_overlay_at (heat, (x0 + x1) / 2.0 + 3.0, y0 + 8.0);
  g_assert_nonnull (warm);
  g_assert_nonnull (strstr (warm, "°C"));
  none = tl_drawing_overlay_at (heat, 3.0, 3.0);
  g_assert_null (none);
  off = tl_drawing_overlay_at (plain, (x0 + x1) / 2.0 + 3.0, y0 + 8.0);
  g_assert_null (off);
  g_assert_true (dt_owner_bounds (current, "leg-1", TL_VIEW_SECTION, &x0, &y0, &x1, &y1));
  for (guint i = 0; i < current->targets->len; i++)
    {
      const TlTarget *target = &g_array_index (current->targets, TlTarget, i);

      if (g_str_equal (target->owner, "leg-1"))
        all = tl_drawing_overlay_at (current, target->x, target->y);
    }
  g_assert_nonnull (all);
  g_assert_nonnull (strstr (all, "100\u202f%"));
}

/* --- nothing to show --- */

static void
test_reasons (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("bolted-as-it-should-be"));
  g_autoptr (TlVerdict) other = pt_judge (pt_example ("zinc-washer"));
  g_autoptr (TlHeatField) foreign = tl_heat_field_new (other, 0.0, NULL);
  g_autoptr (TlDrawing) waiting = draw_in (verdict, &areas[0], TL_OVERLAY_HEAT, NULL);
  g_autoptr (TlDrawing) wrong = draw_in (verdict, &areas[0], TL_OVERLAY_HEAT, foreign);
  g_autoptr (TlVerdict) unfinished = pt_judge (pt_unfinished ());
  g_autoptr (TlHeatField) empty = tl_heat_field_new (unfinished, 5.0, NULL);
  g_autoptr (TlDrawing) bare = draw_in (unfinished, &areas[0], TL_OVERLAY_CURRENT, empty);
  g_autofree char *reason = tl_heat_field_reason (empty, tl_language_plain ());

  g_assert_true (has_part (waiting, "being reckoned"));
  g_assert_true (has_part (wrong, "being reckoned"));
  g_assert_false (tl_heat_field_is_computed (empty));
  g_assert_nonnull (reason);
  g_assert_null (strchr (reason, '{'));
  g_assert_null (tl_drawing_overlay_at (bare, 100.0, 100.0));
  dt_paint_nowhere (bare);
}

static void
test_words (void)
{
  for (guint i = 0; i < TL_N_OVERLAYS; i++)
    {
      TlOverlay overlay = TL_N_OVERLAYS;

      g_assert_true (tl_overlay_from_word (tl_overlay_word ((TlOverlay) i), &overlay));
      g_assert_cmpint (overlay, ==, i);
    }

  TlOverlay kept = TL_OVERLAY_WET;

  g_assert_false (tl_overlay_from_word ("warm", &kept));
  g_assert_cmpint (kept, ==, TL_OVERLAY_WET);
}

/* Same joint, same list. */
static void
test_same (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("socket-circuit-weaving-floor"));
  char *texts[2] = { NULL, NULL };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (TlHeatField) field = tl_heat_field_new (verdict, 10.0, NULL);
      g_autoptr (TlDrawing) d = draw_in (verdict, &areas[0], TL_OVERLAY_CURRENT, field);

      texts[i] = tl_drawing_to_text (d);
    }
  g_assert_cmpstr (texts[0], ==, texts[1]);
  g_free (texts[0]);
  g_free (texts[1]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/overlay/stops", test_stops);
  g_test_add_func ("/overlay/stops-ends", test_stops_ends);
  g_test_add_func ("/overlay/scale", test_scale);
  g_test_add_func ("/overlay/tenths", test_tenths);
  g_test_add_func ("/overlay/kirchhoff", test_kirchhoff);
  g_test_add_func ("/overlay/percent-text", test_percent_text);
  g_test_add_func ("/overlay/arrows", test_arrows);
  g_test_add_func ("/overlay/hottest", test_hottest);
  g_test_add_func ("/overlay/fills", test_fills);
  g_test_add_func ("/overlay/along", test_along);
  g_test_add_func ("/overlay/years", test_years);
  g_test_add_func ("/overlay/years-clamped", test_years_clamped);
  g_test_add_func ("/overlay/wet", test_wet);
  g_test_add_func ("/overlay/mouths", test_mouths);
  g_test_add_func ("/overlay/all", test_all);
  g_test_add_func ("/overlay/items", test_items);
  g_test_add_func ("/overlay/pointer", test_pointer);
  g_test_add_func ("/overlay/reasons", test_reasons);
  g_test_add_func ("/overlay/words", test_words);
  g_test_add_func ("/overlay/same", test_same);
  return g_test_run ();
}
