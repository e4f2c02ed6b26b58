/* test-quantity.c: numbers with units.
 *
 * Exact definitions: NIST SP 811 Appendix B (1 in = 25.4 mm, 1 lbf = 4.4482216152605 N). Wire
 * sizes: see the tables below.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "base/unit-private.h"

#include <math.h>
#include <string.h>

/* One part in 10^15 allows for a last bit; the definitions are exact. */
#define EXACT_SHARE 4e-16

typedef struct
{
  const char *text;
  const char *unit;
  double      value;
} Reading;

static const Reading readings[] = {
  /* spelling: 1 of the unit is itself */
  { "4 mm²", "mm2", 4.0 },
  { "4mm2", "mm2", 4.0 },
  { "  4\u00a0mm² ", "mm2", 4.0 },
  { "4\u202fmm²", "mm2", 4.0 },
  { "4\u2009mm²\u00a0", "mm2", 4.0 },
  { "2,5 mm2", "mm2", 2.5 },
  { "2.5", "mm2", 2.5 },
  { ".5", "mm", 0.5 },
  { "\u22125 °C", "degC", -5.0 },
  { "+5 degC", "degC", 5.0 },
  { "-5°C", "degC", -5.0 },
  { "20 N·m", "N_m", 20.0 },
  { "20 N*m", "N_m", 20.0 },
  { "20 N m", "N_m", 20.0 },
  { "20 Nm", "N_m", 20.0 },
  { "20 N⋅m", "N_m", 20.0 },
  { "0.0172 Ω·mm²/m", "ohm_mm2/m", 0.0172 },
  { "0.0172 Ω*mm^2/m", "ohm_mm2/m", 0.0172 },
  { "143 A·√s/mm²", "A_sqrt_s/mm2", 143.0 },
  { "237 W/(m·K)", "W/mK", 237.0 },
  { "237 W/(m*K)", "W/mK", 237.0 },
  { "23.1 µm/(m·K)", "um/mK", 23.1 },
  { "8 μm", "um", 8.0 },
  { "20 1/in", "1/in", 20.0 },
  { "0.00393 1/K", "1/K", 0.00393 },
  { "1e3 N", "N", 1000.0 },
  { "2.5E-3 m", "m", 0.0025 },
  { "0.2 1", "1", 0.2 },
  /* fractions: arithmetic */
  { "1/2 in", "in", 0.5 },
  { "1 1/2 in", "in", 1.5 },
  { "-3/8 in", "in", -0.375 },
  { "1/4", "1", 0.25 },
  /* NIST SP 811 */
  { "0.5 in", "mm", 12.7 },
  { "1/2\"", "mm", 12.7 },
  { "1 ft", "mm", 304.8 },
  { "1 mil", "um", 25.4 },
  { "1 in2", "mm2", 645.16 },
  { "1 in³", "cm3", 16.387064 },
  { "1 lbf", "N", 4.4482216152605 },
  { "1 kgf", "N", 9.80665 },
  { "1 lbf·in", "N_m", 0.1129848290276167 },
  { "1 in-lb", "N_m", 0.1129848290276167 },
  { "1 lbf_ft", "N_m", 1.3558179483314004 },
  { "1 psi", "MPa", 0.0068947572931683613 },
  { "68 °F", "degC", 20.0 },
  { "-40 degF", "degC", -40.0 },
  { "32 degF", "degC", 0.0 },
  { "293.15 K", "degC", 20.0 },
  { "1 ohm/kft", "ohm/km", 3.2808398950131235 },
  { "1 mpy", "mm/y", 0.0254 },
  { "1 mL", "cm3", 1.0 },
  /* SI prefixes */
  { "650 mV", "V", 0.65 },
  { "0.4 kV", "V", 400.0 },
  { "6 kA", "A", 6000.0 },
  { "30 mA", "A", 0.03 },
  { "120 uohm", "mohm", 0.12 },
  { "1.724 µΩ·cm", "ohm_mm2/m", 0.01724 },
  { "1 mohm/m", "ohm/km", 1.0 },
  { "2.7 g/cm3", "kg/m3", 2700.0 },
  { "70 GPa", "MPa", 70000.0 },
  { "580 N/mm²", "MPa", 580.0 },
  { "0.9 kJ/kgK", "J/kgK", 900.0 },
  { "2.43 MJ/m3K", "J/m3K", 2.43e6 },
  { "0.1 mA/cm2", "A/m2", 1.0 },
  { "1 m2/s", "um2/h", 3.6e15 },
  { "25 %", "1", 0.25 },
  { "0.25 1", "%", 25.0 },
  { "1 h", "s", 3600.0 },
  { "1 K", "mK", 1000.0 },
};

static void
test_reading (gconstpointer data)
{
  const Reading *c = data;
  g_autoptr (GError) error = NULL;
  double value = NAN;

  g_assert_true (tl_quantity_parse (c->text, c->unit, &value, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (value, c->value,
                                  MAX (EXACT_SHARE * fabs (c->value), G_MINDOUBLE));
}

typedef struct
{
  const char *text;
  const char *unit;
  int         code;
  const char *message; /* part of it */
} Refusal;

static const Refusal refusals[] = {
  { "", "mm", TL_ERROR_PARSE, "decimal point or comma" },
  { "   ", "mm", TL_ERROR_PARSE, "decimal point or comma" },
  { "mm", "mm", TL_ERROR_PARSE, "“mm” is not a number" },
  { "1,234.5 mm", "mm", TL_ERROR_PARSE, "no grouping" },
  { "1.234,5", "mm", TL_ERROR_PARSE, "no grouping" },
  { "1'234 mm", "mm", TL_ERROR_UNIT, "mm, cm, m" },
  { "1 234 mm", "mm", TL_ERROR_UNIT, "“234 mm”" },
  { "nan", "mm", TL_ERROR_PARSE, "“nan”" },
  { "inf", "mm", TL_ERROR_PARSE, "“inf”" },
  { "-infinity", "mm", TL_ERROR_PARSE, "“-infinity”" },
  { "0x10", "mm", TL_ERROR_UNIT, "“x10”" },
  { "1e400", "mm", TL_ERROR_RANGE, "finite" },
  { "1e308 kft", "mm", TL_ERROR_RANGE, "finite" },
  { "1e", "mm", TL_ERROR_UNIT, "“e”" },
  { "5.", "mm", TL_ERROR_PARSE, "“5.”" },
  { "--5", "mm", TL_ERROR_PARSE, "“--5”" },
  { "1/0 mm", "mm", TL_ERROR_PARSE, "“1/0 mm”" },
  { "1 1/0 in", "mm", TL_ERROR_PARSE, "1 1/0" },
  { "1/2/3 in", "mm", TL_ERROR_PARSE, "1/2/3" },
  { "3 furlong", "mm", TL_ERROR_UNIT, "“furlong” is not a known unit; one of these is wanted: mm" },
  { "3 N", "mm", TL_ERROR_UNIT, "does not fit here" },
  { "3 MM", "mm", TL_ERROR_UNIT, "“MM”" },
  { "3 mm", "1", TL_ERROR_UNIT, "%, ppm" },
  { "20 °C", "K", TL_ERROR_UNIT, "difference of temperature" },
  { "12 AWG", "N", TL_ERROR_UNIT, "“AWG”" },
  { "40 AWG", "mm", TL_ERROR_RANGE, "from 36 to 1 and from 1/0 to 4/0" },
  { "5/0 AWG", "mm2", TL_ERROR_RANGE, "4/0" },
  { "0/0 AWG", "mm2", TL_ERROR_RANGE, "4/0" },
  { "-2 AWG", "mm2", TL_ERROR_RANGE, "4/0" },
  { "12.5 AWG", "mm2", TL_ERROR_RANGE, "4/0" },
  { "\xff\xfe", "mm", TL_ERROR_PARSE, "is not a number" },
  { "1 \xc3(", "mm", TL_ERROR_PARSE, "is not a number" },
};

static void
test_refusal (gconstpointer data)
{
  const Refusal *c = data;
  g_autoptr (GError) error = NULL;
  double value = 77.0;

  g_assert_false (tl_quantity_parse (c->text, c->unit, &value, &error));
  g_assert_error (error, TL_ERROR, c->code);
  g_assert_nonnull (strstr (error->message, c->message));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_cmpfloat (value, ==, 77.0);
}

/* ASTM B258: diameters of solid wire, in as printed (4/0 0.4600, 12 0.08081, 10 0.1019, 36 0.0050).
 * NFPA 70, chapter 9, table 8: area in circular mils (seen in a reprint, 36 AWG computed from 5
 * mil). NFPA prints areas from rounded diameters: one unit of the last digit printed is allowed,
 * and one and a half at 6 and 2 AWG, where it prints 26240 for 26251 and 66360 for 66373. */
static const struct
{
  const char *size;
  double      diameter_in, diameter_step_in;
  double      area_cmil, area_step_cmil;
} wires[] = {
  { "36 AWG", 0.0050, 0.00005, 25.0, 0.5 },    { "18 AWG", 0.0403, 0.00005, 1620, 10 },
  { "16 AWG", 0.0508, 0.00005, 2580, 10 },     { "14 awg", 0.0641, 0.00005, 4110, 10 },
  { "12 AWG", 0.08081, 0.000005, 6530, 10 },   { "AWG 10", 0.1019, 0.00005, 10380, 10 },
  { "8AWG", 0.1285, 0.00005, 16510, 10 },      { "6 AWG", 0.1620, 0.00005, 26240, 15 },
  { "4 AWG", 0.2043, 0.00005, 41740, 10 },     { "2 AWG", 0.2576, 0.00005, 66360, 15 },
  { "1/0 AWG", 0.3249, 0.00005, 105600, 100 }, { "2/0 AWG", 0.3648, 0.00005, 133100, 100 },
  { "3/0 AWG", 0.4096, 0.00005, 167800, 100 }, { "4/0 AWG", 0.4600, 0.00005, 211600, 100 },
  { "0 AWG", 0.3249, 0.00005, 105600, 100 },   { "0000 AWG", 0.4600, 0.00005, 211600, 100 },
};

static void
test_wires (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (wires); i++)
    {
      g_autoptr (GError) error = NULL;
      double diameter_in = 0.0;
      double area_mm2 = 0.0;
      double area_cmil = 0.0;

      g_assert_true (tl_quantity_parse (wires[i].size, "in", &diameter_in, &error));
      g_assert_true (tl_quantity_parse (wires[i].size, "mm2", &area_mm2, &error));
      g_assert_true (tl_quantity_convert (area_mm2, "mm2", "cmil", &area_cmil, &error));
      g_assert_cmpfloat_with_epsilon (diameter_in, wires[i].diameter_in, wires[i].diameter_step_in);
      g_assert_cmpfloat_with_epsilon (area_cmil, wires[i].area_cmil, wires[i].area_step_cmil);
    }
}

/* 12 AWG is 2.053 mm and 3.31 mm2: ASTM B258 and NFPA 70, chapter 9, table 8. */
static void
test_twelve (void)
{
  double area_mm2 = 0.0;

  g_assert_cmpfloat_with_epsilon (tl_awg_diameter_mm (12), 2.053, 0.0005);
  g_assert_true (tl_quantity_parse ("12 AWG", "mm2", &area_mm2, NULL));
  g_assert_cmpfloat_with_epsilon (area_mm2, 3.31, 0.005);
}

/* Every unit is known by its name and by its label, and every pair of one dimension goes there and
 * back. */
static void
test_units (void)
{
  guint         count;
  const TlUnit *units = tl_unit_all (&count);

  for (guint i = 0; i < count; i++)
    {
      g_assert_true (tl_unit_find (units[i].name) == &units[i]);
      if (*units[i].label != '\0')
        g_assert_true (tl_unit_find (units[i].label) == &units[i]);
      for (guint j = 0; j < count; j++)
        {
          double there = 0.0;
          double back = 0.0;

          if (strcmp (units[i].dimension, units[j].dimension) != 0)
            {
              g_assert_false (tl_unit_converts (units[i].name, units[j].name));
              continue;
            }
          g_assert_true (tl_unit_converts (units[i].name, units[j].name));
          g_assert_true (tl_quantity_convert (3.7, units[i].name, units[j].name, &there, NULL));
          g_assert_true (tl_quantity_convert (there, units[j].name, units[i].name, &back, NULL));
          /* Scales shifted by hundreds lose digits to the shift. */
          g_assert_cmpfloat_with_epsilon (back, 3.7, 1e-9);
        }
    }
  g_assert_false (tl_unit_is_known ("furlong"));
  g_assert_false (tl_unit_is_known (""));
  g_assert_true (tl_unit_is_known ("1"));
}

static void
test_convert_refuses (void)
{
  g_autoptr (GError) error = NULL;
  double result = 5.0;

  g_assert_false (tl_quantity_convert (1.0, "mm", "N", &result, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_UNIT);
  g_clear_error (&error);
  g_assert_false (tl_quantity_convert (1.0, "mm", "furlong", &result, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_UNIT);
  g_clear_error (&error);
  g_assert_false (tl_quantity_convert (NAN, "mm", "in", &result, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_cmpfloat (result, ==, 5.0);
}

static const struct
{
  const char *text;
  const char *unit;
  TlRange     range;
} ranges[] = {
  { "4", "mm", { 4, 4, 4 } },
  { "1.5..2.5 kN", "N", { 1500, 2000, 2500 } },
  { "1.5 .. 2 .. 2.5 kN", "N", { 1500, 2000, 2500 } },
  { "1 mm..2 cm", "mm", { 1, 10.5, 20 } },
  { "0,16..0,2..0,26", "1", { 0.16, 0.2, 0.26 } },
  { "-5..5 °C", "degC", { -5, 0, 5 } },
  { "20..30 %", "1", { 0.2, 0.25, 0.3 } },
};

static void
test_ranges (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      g_autoptr (GError) error = NULL;
      TlRange range;

      g_assert_true (tl_quantity_parse_range (ranges[i].text, ranges[i].unit, &range, &error));
      g_assert_cmpfloat_with_epsilon (range.low, ranges[i].range.low, 1e-12);
      g_assert_cmpfloat_with_epsilon (range.best, ranges[i].range.best, 1e-12);
      g_assert_cmpfloat_with_epsilon (range.high, ranges[i].range.high, 1e-12);
    }
}

static const Refusal bad_ranges[] = {
  { "3..2 mm", "mm", TL_ERROR_RANGE, "must rise" },
  { "1..3..2 mm", "mm", TL_ERROR_RANGE, "must rise" },
  { "1..2..3..4", "mm", TL_ERROR_PARSE, "1..2..3..4" },
  { "..2", "mm", TL_ERROR_PARSE, "is not a number" },
  { "1..", "mm", TL_ERROR_PARSE, "is not a number" },
  { "1..nan", "mm", TL_ERROR_PARSE, "“nan”" },
  { "", "mm", TL_ERROR_PARSE, "is not a number" },
};

static void
test_bad_ranges (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (bad_ranges); i++)
    {
      g_autoptr (GError) error = NULL;
      TlRange range = { 7, 7, 7 };

      g_assert_false (
          tl_quantity_parse_range (bad_ranges[i].text, bad_ranges[i].unit, &range, &error));
      g_assert_error (error, TL_ERROR, bad_ranges[i].code);
      g_assert_nonnull (strstr (error->message, bad_ranges[i].message));
      g_assert_cmpfloat (range.low, ==, 7);
    }
}

static void
test_plain_numbers (void)
{
  static const char *const good[] = { "2.5", " -2.5 ", "1e3", "+0.5", "0" };
  static const double      values[] = { 2.5, -2.5, 1000.0, 0.5, 0.0 };
  static const char *const bad[] = {
    "", " ", "2,5", "2.5 mm", "nan", "0x1", "\u22122", "1/2", "2 3"
  };

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      double value = NAN;

      g_assert_true (tl_number_parse (good[i], &value, NULL));
      g_assert_cmpfloat (value, ==, values[i]);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      double value = 5.0;

      g_assert_false (tl_number_parse (bad[i], &value, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
      g_assert_cmpfloat (value, ==, 5.0);
    }
}

/* Files and JSON: what is written reads back to the same double. */
static void
test_round_trip (void)
{
  GRand *random = g_rand_new_with_seed (20);

  for (guint i = 0; i < 20000; i++)
    {
      double value =
          ldexp (g_rand_double_range (random, -1.0, 1.0), g_rand_int_range (random, -200, 200));
      double           back = NAN;
      g_autofree char *text = tl_number_to_text (value);

      g_assert_true (tl_number_parse (text, &back, NULL));
      g_assert_cmpfloat (back, ==, value);
    }
  g_rand_free (random);
}

static void
test_shortest (void)
{
  static const struct
  {
    double      value;
    const char *text;
  } texts[] = { { 0.1, "0.1" },
                { 2.5, "2.5" },
                { 0.0, "0" },
                { -0.0, "0" },
                { 1.0 / 3.0, "0.3333333333333333" },
                { 12500.0, "12500" },
                { -40.0, "-40" } };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *text = tl_number_to_text (texts[i].value);

      g_assert_cmpstr (text, ==, texts[i].text);
    }
}

typedef struct
{
  double      value;
  const char *unit;
  const char *tag;
  TlUnits     units;
  const char *text;
} Print;

static const Print prints[] = {
  { 4.0, "mm2", "en", TL_UNITS_METRIC, "4\u202fmm²" },
  { 2.5, "mm2", "de", TL_UNITS_METRIC, "2,5\u202fmm²" },
  { 12.3456, "N_m", "en", TL_UNITS_METRIC, "12.3\u202fN·m" },
  { 0.0123456, "ohm/km", "en", TL_UNITS_METRIC, "0.0123\u202fΩ/km" },
  { 9.999, "mm", "en", TL_UNITS_METRIC, "10\u202fmm" },
  { 12500.4, "N", "en", TL_UNITS_METRIC, "12500\u202fN" },
  { -5.0, "degC", "en", TL_UNITS_METRIC, "−5\u202f°C" },
  { 30.0, "deg", "en", TL_UNITS_METRIC, "30°" },
  { 0.2, "1", "en", TL_UNITS_METRIC, "0.2" },
  { 0.0, "mm", "en", TL_UNITS_METRIC, "0\u202fmm" },
  { 12.7, "mm", "en", TL_UNITS_CUSTOMARY, "0.5\u202fin" },
  { 3.31, "mm2", "en", TL_UNITS_CUSTOMARY, "12\u202fAWG" },
  { 107.2, "mm2", "en", TL_UNITS_CUSTOMARY, "4/0\u202fAWG" },
  { 2.5, "mm2", "en", TL_UNITS_CUSTOMARY, "2.5\u202fmm²" },
  { 20.0, "degC", "en", TL_UNITS_CUSTOMARY, "68\u202f°F" },
  { 1.1298482902761668, "N_m", "en", TL_UNITS_CUSTOMARY, "10\u202flbf·in" },
};

static void
test_prints (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (prints); i++)
    {
      g_autoptr (TlLanguage) language = tl_language_new (prints[i].tag, prints[i].units);
      g_autofree char *text = tl_quantity_format (prints[i].value, prints[i].unit, language);

      g_assert_cmpstr (text, ==, prints[i].text);
    }
}

static void
test_print_ranges (void)
{
  g_autoptr (TlLanguage) customary = tl_language_new ("en", TL_UNITS_CUSTOMARY);
  g_autofree char *a = tl_range_format ((TlRange){ 1.5, 2, 2.5 }, "kN", tl_language_plain ());
  g_autofree char *b = tl_range_format (tl_range_exact (2), "kN", tl_language_plain ());
  g_autofree char *c =
      tl_range_format ((TlRange){ 2.0001, 2.0002, 2.0003 }, "kN", tl_language_plain ());
  g_autofree char *d = tl_range_format ((TlRange){ 25.4, 30, 50.8 }, "mm", customary);

  g_assert_cmpstr (a, ==, "1.5 to 2.5\u202fkN");
  g_assert_cmpstr (b, ==, "2\u202fkN");
  g_assert_cmpstr (c, ==, "2\u202fkN");
  g_assert_cmpstr (d, ==, "1 to 2\u202fin");
}

/* What is printed for a person can be typed back. */
static void
test_print_and_read (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (prints); i++)
    {
      g_autoptr (TlLanguage) language = tl_language_new (prints[i].tag, prints[i].units);
      g_autofree char *text = tl_quantity_format (prints[i].value, prints[i].unit, language);
      double           back = NAN;

      g_assert_true (tl_quantity_parse (text, prints[i].unit, &back, NULL));
      /* Three figures are printed; sizes of wire within 1 %. */
      g_assert_cmpfloat_with_epsilon (back, prints[i].value,
                                      MAX (0.01 * fabs (prints[i].value), G_MINDOUBLE));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (readings); i++)
    {
      g_autofree char *path = g_strdup_printf ("/quantity/read/%02u-%s", i, readings[i].unit);

      g_test_add_data_func (path, &readings[i], test_reading);
    }
  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *path = g_strdup_printf ("/quantity/refuse/%02u-%s", i, refusals[i].unit);

      g_test_add_data_func (path, &refusals[i], test_refusal);
    }
  g_test_add_func ("/quantity/wires", test_wires);
  g_test_add_func ("/quantity/twelve", test_twelve);
  g_test_add_func ("/quantity/units", test_units);
  g_test_add_func ("/quantity/convert-refuses", test_convert_refuses);
  g_test_add_func ("/quantity/ranges", test_ranges);
  g_test_add_func ("/quantity/bad-ranges", test_bad_ranges);
  g_test_add_func ("/quantity/plain-numbers", test_plain_numbers);
  g_test_add_func ("/quantity/round-trip", test_round_trip);
  g_test_add_func ("/quantity/shortest", test_shortest);
  g_test_add_func ("/quantity/print", test_prints);
  g_test_add_func ("/quantity/print-ranges", test_print_ranges);
  g_test_add_func ("/quantity/print-and-read", test_print_and_read);
  return g_test_run ();
}
