/* test-figures.c: figures of the stock against publications and against each other.
 *
 * The expressions are written out here, apart from the registry of formulas, which stands in
 * another room.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock.h"

#include <math.h>
#include <string.h>

static TlStock *stock;

static double
figure (const char *part, TlField field)
{
  const TlPart *found = tl_stock_part (stock, part);

  if (found == NULL || !tl_facts_has (found->facts, field))
    g_error ("%s has no %s", part, tl_field_info (field)->key);
  return tl_facts_number (found->facts, field, 0.0);
}

static double
of_material (const char *material, TlField field)
{
  const TlMaterial *found = tl_stock_material (stock, material);

  g_assert_nonnull (found);
  g_assert_true (tl_facts_has (found->facts, field));
  return tl_facts_number (found->facts, field, 0.0);
}

/* Resistance x section / resistivity: the standard's maximum holds what drawing, stranding and
 * tinning cost. IEC 60344 has factors of 1.04 to 1.12 for tolerance and tin, to 1.04 for
 * stranding, to 1.03 for laying up (from memory): 1.20 together. IEC 60287-1-1 Table 1: 17.241
 * and 28.264 nohm m. A conductor called 50 mm2 has 47.5 (IEC 60364-5-52, Annex D). */
static void
test_conductor_resistance (void)
{
  const GPtrArray *parts = tl_stock_parts (stock);
  guint            n = 0;

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      gboolean      is_copper;
      double        section, ratio;

      if (part->kind != TL_PART_CONDUCTOR)
        continue;
      section = figure (part->id, TL_FIELD_SECTION);
      if (section == 50.0)
        section = 47.5;
      is_copper = strcmp (tl_facts_word (part->facts, TL_FIELD_METAL, ""), "copper") == 0;
      ratio = figure (part->id, TL_FIELD_RESISTANCE_20) * section / (is_copper ? 17.241 : 28.264);
      if (ratio < 0.99 || ratio > (is_copper ? 1.20 : 1.10))
        g_error ("%s: %g times the resistance of its metal", part->id, ratio);
      n++;
    }
  g_assert_cmpuint (n, >, 250);
}

/* IEC 60228:2004, Tables 1 to 3, read from a reprint. */
static void
test_conductor_resistance_printed (void)
{
  static const struct
  {
    const char *id;
    double      ohm_per_km;
  } cases[] = {
    { "cond-cu-class1-1.5", 12.1 },
    { "cond-cu-class1-2.5-pvc", 7.41 },
    { "cond-cu-class2-50", 0.387 },
    { "cond-cu-class5-2.5", 7.98 },
    { "cond-cu-class5-2.5-tinned-pvc", 8.21 },
    { "cond-cu-class5-50", 0.386 },
    { "cond-al-class1-10", 3.08 },
    { "cond-al-class2-95-pvc", 0.320 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat_with_epsilon (figure (cases[i].id, TL_FIELD_RESISTANCE_20),
                                    cases[i].ohm_per_km, 1e-9);
}

/* Aluminium below 10 mm2 is in no standard: computed, and it says so. */
static void
test_small_aluminium_is_computed (void)
{
  static const double sections[] = { 2.5, 4.0, 6.0 };

  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    {
      g_autofree char *id = g_strdup_printf ("cond-al-class1-%g-pvc", sections[i]);
      const TlPart    *part = tl_stock_part (stock, id);
      const TlFact    *fact;

      g_assert_nonnull (part);
      fact = tl_facts_get (part->facts, TL_FIELD_RESISTANCE_20);
      g_assert_cmpint (fact->known_by, ==, TL_KNOWN_COMPUTED);
      g_assert_nonnull (fact->note);
      g_assert_cmpfloat_with_epsilon (fact->value.best, 28.264 / sections[i], 0.005);
      g_assert_cmpfloat_with_epsilon (figure (id, TL_FIELD_METAL_DIAMETER),
                                      sqrt (4.0 * sections[i] / G_PI), 0.001);
    }
}

/* Diameters in mil as ASTM B258 prints them. */
static void
test_awg_diameters (void)
{
  static const struct
  {
    const char *id;
    double      mil;
  } cases[] = {
    { "cond-cu-awg18-solid", 40.3 },  { "cond-cu-awg16-solid", 50.8 },
    { "cond-cu-awg14-solid", 64.1 },  { "cond-al-awg12-solid", 80.8 },
    { "cond-al-awg10-solid", 101.9 }, { "cond-al-awg8-solid", 128.5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat_with_epsilon (figure (cases[i].id, TL_FIELD_METAL_DIAMETER) / 0.0254,
                                    cases[i].mil, 0.06);
}

/* ISO 898-1: A_s = pi/4 ((d2 + d3)/2)^2, with d2 = d - 0.649519 P and d3 = d - 1.226869 P (ISO
 * 724). The table rounds to three figures. Proof loads of class 8.8 as the same standard prints
 * them, rounded to 100 N. */
static void
test_stress_areas (void)
{
  static const struct
  {
    const char *id;
    double      proof_load_N;
  } cases[] = {
    { "bolt-m3x16-steel", 2920.0 },   { "bolt-m4x16-steel", 5100.0 },
    { "bolt-m5x16-steel", 8230.0 },   { "bolt-m6x16-steel", 11600.0 },
    { "bolt-m8x30-steel", 21200.0 },  { "bolt-m10x30-steel", 33700.0 },
    { "bolt-m12x40-steel", 48900.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double d = figure (cases[i].id, TL_FIELD_THREAD);
      double p = figure (cases[i].id, TL_FIELD_PITCH);
      double mean = ((d - 0.649519 * p) + (d - 1.226869 * p)) / 2.0;
      double area = figure (cases[i].id, TL_FIELD_STRESS_AREA);

      g_assert_cmpfloat_with_epsilon (area, G_PI / 4.0 * mean * mean, 0.003 * area);
      g_assert_cmpfloat_with_epsilon (area * figure (cases[i].id, TL_FIELD_PROOF_STRESS),
                                      cases[i].proof_load_N, 0.006 * cases[i].proof_load_N);
    }
}

/* Sizes that a person would look up: ISO 4014, 4032, 7089, 7093-1, DIN 127, DIN 6798. */
static void
test_fastener_sizes (void)
{
  static const struct
  {
    const char *id;
    TlField     field;
    double      value;
  } cases[] = {
    { "bolt-m5x16-steel", TL_FIELD_ACROSS_FLATS, 8.0 },
    { "bolt-m5x16-steel", TL_FIELD_BEARING_DIAMETER, 6.9 },
    { "bolt-m10x40-brass", TL_FIELD_ACROSS_FLATS, 16.0 },
    { "bolt-m8x30-stainless", TL_FIELD_PROOF_STRESS, 450.0 },
    { "nut-m8-steel-zinc", TL_FIELD_HEIGHT, 6.8 },
    { "washer-plain-m5-steel", TL_FIELD_OUTER, 10.0 },
    { "washer-plain-m5-steel-zinc", TL_FIELD_BORE, 5.3 },
    { "washer-plain-m8-brass", TL_FIELD_THICKNESS, 1.6 },
    { "washer-plain-m4-zinc", TL_FIELD_OUTER, 9.0 },
    { "washer-large-m6-stainless", TL_FIELD_OUTER, 18.0 },
    { "spring-ring-m5-steel", TL_FIELD_THICKNESS, 1.2 },
    { "spring-ring-m8-steel", TL_FIELD_FREE_HEIGHT, 4.0 },
    { "serrated-m5-steel", TL_FIELD_OUTER, 10.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat_with_epsilon (figure (cases[i].id, cases[i].field), cases[i].value, 1e-9);

  /* No standard has a washer of solid zinc. */
  g_assert_true (tl_stock_part (stock, "washer-plain-m4-zinc")->is_open);
}

/* What goes over a bolt is wider than it. ISO 273 fine series: M3 3.2 to M12 13. */
static void
test_bores_pass_threads (void)
{
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      double        clearance;

      if (!tl_facts_has (part->facts, TL_FIELD_THREAD)
          || !tl_facts_has (part->facts, TL_FIELD_BORE))
        continue;
      clearance = figure (part->id, TL_FIELD_BORE) - figure (part->id, TL_FIELD_THREAD);
      g_assert_cmpfloat (clearance, >, 0.0);
      g_assert_cmpfloat (clearance, <=, 1.0);
    }
}

/* Almen and Laszlo (EN 16984) for a disc pressed flat, E 206 GPa, nu 0.3. The force of the
 * spring test that DIN 267-26 prints (M3 and M4 seen on a page, the rest from memory) is a load,
 * twice the flat force. */
static void
test_conical_washers (void)
{
  static const struct
  {
    const char *id;
    double      test_force_N;
  } cases[] = {
    { "conical-m3-steel", 1320.0 },   { "conical-m4-steel", 3800.0 },
    { "conical-m5-steel", 5480.0 },   { "conical-m6-steel", 8590.0 },
    { "conical-m8-steel", 14900.0 },  { "conical-m10-steel", 22100.0 },
    { "conical-m12-steel", 34100.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double outer = figure (cases[i].id, TL_FIELD_OUTER);
      double ratio = outer / figure (cases[i].id, TL_FIELD_BORE);
      double thickness = figure (cases[i].id, TL_FIELD_THICKNESS);
      double cone = figure (cases[i].id, TL_FIELD_FREE_HEIGHT) - thickness;
      double k1 = pow ((ratio - 1.0) / ratio, 2.0)
                  / (G_PI * ((ratio + 1.0) / (ratio - 1.0) - 2.0 / log (ratio)));
      double flat =
          4.0 * 206000.0 / (1.0 - 0.09) * pow (thickness, 3.0) * cone / (k1 * outer * outer);
      double stored = figure (cases[i].id, TL_FIELD_FLAT_FORCE);

      g_assert_cmpfloat_with_epsilon (stored, flat, 0.51);
      g_assert_cmpfloat_with_epsilon (2.0 * stored, cases[i].test_force_N,
                                      0.01 * cases[i].test_force_N);
    }
}

/* Stated ratio against the two bores. The 3:1 ladder is rounded to whole millimetres (40/13,
 * 19/6). */
static void
test_shrink_ratios (void)
{
  const GPtrArray *parts = tl_stock_parts (stock);
  guint            n = 0;

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      double        ratio;

      if (part->kind != TL_PART_SEAL || part->is_open)
        continue;
      ratio = figure (part->id, TL_FIELD_EXPANDED) / figure (part->id, TL_FIELD_RECOVERED);
      g_assert_cmpfloat_with_epsilon (figure (part->id, TL_FIELD_SHRINK_RATIO), ratio,
                                      0.06 * ratio);
      n++;
    }
  g_assert_cmpuint (n, >, 20);
}

/* Hexagon over metal before pressing, in the series of DIN 46267-1, with the code read as the
 * width across corners: 0.85 to 1.05 (worked by hand from the sizes). Across flats it would be
 * above 1.13: a die larger than the metal. */
static void
test_dies_of_copper_sleeves (void)
{
  static const struct
  {
    const char *id;
    double      ratio;
  } cases[] = {
    { "sleeve-butt-cu-6", 0.882 },  { "sleeve-butt-cu-10", 1.045 }, { "sleeve-butt-cu-16", 0.849 },
    { "sleeve-butt-cu-25", 0.998 }, { "sleeve-butt-cu-35", 0.892 }, { "sleeve-butt-cu-50", 0.932 },
    { "sleeve-butt-cu-70", 0.924 }, { "sleeve-butt-cu-95", 0.894 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double flats = figure (cases[i].id, TL_FIELD_WANTED_DIE);
      double outer = figure (cases[i].id, TL_FIELD_OUTER);
      double bore = figure (cases[i].id, TL_FIELD_BORE);
      double metal = G_PI / 4.0 * (outer * outer - bore * bore)
                     + figure (cases[i].id, TL_FIELD_STATED_SECTION);

      g_assert_cmpfloat_with_epsilon (sqrt (3.0) / 2.0 * flats * flats / metal, cases[i].ratio,
                                      0.003);
    }
}

/* Counts of conductors that NFPA 70 Table 314.16(A) prints for AWG 18 to 6 follow from its
 * volumes and those of 314.16(B). */
static void
test_box_volumes (void)
{
  static const char *const sizes[] = { "18", "16", "14", "12", "10", "8", "6" };
  static const struct
  {
    const char *id;
    int         counts[7];
  } cases[] = {
    { "box-nfpa-square-4x1.5", { 14, 12, 10, 9, 8, 7, 4 } },
    { "box-nfpa-square-4x2.125", { 20, 17, 15, 13, 12, 10, 6 } },
    { "box-nfpa-octagonal-4x2.125", { 14, 12, 10, 9, 8, 7, 4 } },
    { "box-nfpa-device-3x2x3.5", { 12, 10, 9, 8, 7, 6, 3 } },
    { "box-nfpa-device-3x2x2", { 6, 5, 5, 4, 4, 3, 2 } },
  };
  const TlTable *table = tl_stock_table (stock, "box-fill");

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    for (guint k = 0; k < G_N_ELEMENTS (sizes); k++)
      {
        const TlTableRow *row =
            tl_stock_row (stock, "box-fill", "nfpa70-style", "nfpa70", sizes[k], NULL);
        double volume_in3 = figure (cases[i].id, TL_FIELD_VOLUME) / 16.387064;
        double allowance_in3;

        g_assert_true (tl_table_number (table, row, "volume", &allowance_in3));
        g_assert_cmpint ((int) floor (volume_in3 / allowance_in3 + 1e-9), ==, cases[i].counts[k]);
      }
}

/* IEC 60364-5-52:2009, Annex D: I = A S^m with the coefficients of Table D.52.1 for method A1
 * (50 mm2 is computed at 47.5). */
static void
test_ampacity (void)
{
  static const struct
  {
    const char *insulation, *loaded, *metal;
    double      a, m;
  } cases[] = {
    { "pvc", "2", "copper", 11.2, 0.6118 },    { "pvc", "3", "copper", 10.4, 0.605 },
    { "pvc", "2", "aluminium", 8.61, 0.616 },  { "pvc", "3", "aluminium", 7.94, 0.612 },
    { "xlpe", "2", "copper", 14.9, 0.611 },    { "xlpe", "3", "copper", 13.34, 0.611 },
    { "xlpe", "2", "aluminium", 11.6, 0.615 }, { "xlpe", "3", "aluminium", 10.9, 0.605 },
  };
  static const char *const sections[] = {
    "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95"
  };
  const TlTable *table = tl_stock_table (stock, "ampacity");

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    for (guint k = 0; k < G_N_ELEMENTS (sections); k++)
      {
        const TlTableRow *row =
            tl_stock_row (stock, "ampacity", "iec-style", "iec", cases[i].insulation, "A1",
                          cases[i].loaded, cases[i].metal, sections[k], NULL);
        double section = g_ascii_strtod (sections[k], NULL);
        double wanted, current;

        g_assert_nonnull (row);
        wanted = cases[i].a * pow (section == 50.0 ? 47.5 : section, cases[i].m);
        g_assert_true (tl_table_number (table, row, "current", &current));
        g_assert_cmpfloat_with_epsilon (current, wanted, MAX (0.6, 0.012 * wanted));
      }
}

/* Rows of pairs.csv: the difference of two materials on one scale is the printed one, in whole
 * mV. */
static void
test_potential_pairs (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "pairs.csv", NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  guint n = 0;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (char **line = lines; *line != NULL; line++)
    {
      g_auto (GStrv) cells = g_strsplit (*line, ",", -1);
      TlField scale;
      double  step;

      if (**line == '#' || **line == '\0' || g_str_has_prefix (*line, "scale,"))
        continue;
      g_assert_true (tl_field_from_key (cells[0], &scale));
      step = fabs (of_material (cells[1], scale) - of_material (cells[2], scale));
      if (step != g_ascii_strtod (cells[3], NULL))
        g_error ("%s: %s and %s differ by %g mV, not %s", cells[0], cells[1], cells[2], step,
                 cells[3]);
      n++;
    }
  g_assert_cmpuint (n, ==, 28);
}

/* ASTM G82 and both scales agree on who is the anode, though one scale rises and the other falls
 * toward the noble metals: aluminium against copper, tin, stainless and nickel; zinc against
 * aluminium. */
static void
test_scales_point_the_right_way (void)
{
  static const char *const pairs[][2] = {
    { "aluminium", "copper" },       { "aluminium", "tin-plate" }, { "aluminium", "stainless-a2" },
    { "aluminium", "nickel-plate" }, { "zinc", "aluminium" },      { "tin-plate", "copper" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_assert_cmpfloat (of_material (pairs[i][0], TL_FIELD_POTENTIAL_J), <,
                         of_material (pairs[i][1], TL_FIELD_POTENTIAL_J));
      g_assert_cmpfloat (of_material (pairs[i][0], TL_FIELD_INDEX_MIL), >,
                         of_material (pairs[i][1], TL_FIELD_INDEX_MIL));
    }

  /* Zinc on steel has a row of its own. */
  g_assert_cmpfloat (of_material ("zinc-plate", TL_FIELD_POTENTIAL_J), ==, 550.0);
  g_assert_cmpfloat (of_material ("zinc", TL_FIELD_POTENTIAL_J), ==, 500.0);
}

/* IEC 60949: beta is the inverse of the coefficient at 0 degC, 1/alpha20 - 20. The adiabatic
 * constant is sqrt (c (beta + 20) / rho20) with c from density and heat capacity; handbook
 * values differ by a few per cent from the round volumetric heats of the standard. */
static void
test_adiabatic_constants (void)
{
  static const char *const metals[] = { "copper", "aluminium" };

  for (guint i = 0; i < G_N_ELEMENTS (metals); i++)
    {
      double beta = of_material (metals[i], TL_FIELD_BETA);
      double heat = of_material (metals[i], TL_FIELD_DENSITY)
                    * of_material (metals[i], TL_FIELD_HEAT_CAPACITY) * 1e-6; /* J/(mm3 K) */
      double k =
          sqrt (heat * (beta + 20.0) / (of_material (metals[i], TL_FIELD_RESISTIVITY) * 1e-3));

      g_assert_cmpfloat_with_epsilon (
          1.0 / of_material (metals[i], TL_FIELD_TEMPERATURE_COEFFICIENT) - 20.0, beta, 1.0);
      g_assert_cmpfloat_with_epsilon (of_material (metals[i], TL_FIELD_ADIABATIC_CONSTANT), k,
                                      0.03 * k);
    }
}

/* Wiedemann and Franz: conductivity follows from resistivity, L = 2.443e-8 V2/K2 at 293.15 K,
 * within 15 % for metals; not for stainless steel. */
static void
test_wiedemann_franz (void)
{
  static const char *const metals[] = { "copper", "aluminium",       "tin",   "zinc",  "nickel",
                                        "brass",  "solder-sn60pb40", "steel", "silver" };

  for (guint i = 0; i < G_N_ELEMENTS (metals); i++)
    {
      double lorenz = of_material (metals[i], TL_FIELD_CONDUCTIVITY)
                      * of_material (metals[i], TL_FIELD_RESISTIVITY) * 1e-6 / 293.15;

      g_assert_cmpfloat_with_epsilon (lorenz, 2.443e-8, 0.15 * 2.443e-8);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, &error);
  g_assert_no_error (error);

  g_test_add_func ("/stock/figures/conductor-resistance", test_conductor_resistance);
  g_test_add_func ("/stock/figures/conductor-resistance-printed",
                   test_conductor_resistance_printed);
  g_test_add_func ("/stock/figures/small-aluminium", test_small_aluminium_is_computed);
  g_test_add_func ("/stock/figures/awg-diameters", test_awg_diameters);
  g_test_add_func ("/stock/figures/stress-areas", test_stress_areas);
  g_test_add_func ("/stock/figures/fastener-sizes", test_fastener_sizes);
  g_test_add_func ("/stock/figures/bores-pass-threads", test_bores_pass_threads);
  g_test_add_func ("/stock/figures/conical-washers", test_conical_washers);
  g_test_add_func ("/stock/figures/shrink-ratios", test_shrink_ratios);
  g_test_add_func ("/stock/figures/dies", test_dies_of_copper_sleeves);
  g_test_add_func ("/stock/figures/box-volumes", test_box_volumes);
  g_test_add_func ("/stock/figures/ampacity", test_ampacity);
  g_test_add_func ("/stock/figures/potential-pairs", test_potential_pairs);
  g_test_add_func ("/stock/figures/scales", test_scales_point_the_right_way);
  g_test_add_func ("/stock/figures/adiabatic", test_adiabatic_constants);
  g_test_add_func ("/stock/figures/wiedemann-franz", test_wiedemann_franz);
  result = g_test_run ();
  tl_stock_unref (stock);
  return result;
}
