/* test-reading.c: readings against the published criteria.
 *
 * Sources: ANSI/NETA MTS Table 100.18 (bands of temperature rise, seen in reprints), ANSI/NETA ATS-2009 7.3.2.3 (more than 50 %
 * above the lowest of similar joints), IEC 60364-6:2016 Table 6.1 (insulation), heat balance for the scaling of load (from
 * memory); worked figures 10, 11, 16 micro-ohm and 8 K at half load from common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/reading.h"

#include <string.h>

static TlStock *stock;

static TlReading *
thermal (TlReadingKind kind, double value, double load_A)
{
  TlReading *reading = tl_record_new (&tl_reading_form);

  reading->kind = kind;
  reading->value = value;
  reading->has_ambient = TRUE;
  reading->ambient_C = 20;
  reading->load_A = load_A;
  reading->full_load_A = 16;
  reading->emissivity = 0.95;
  reading->target_px = 6;
  return reading;
}

/* Judges, takes @reading; the first result. */
static TlReadingResult
first_of (TlReading *reading)
{
  g_autoptr (GArray) results = tl_reading_judge (reading, stock);
  TlReadingResult result;

  g_assert_cmpuint (results->len, >, 0);
  result = g_array_index (results, TlReadingResult, 0);
  tl_record_unref (reading);
  return result;
}

typedef struct
{
  TlReadingKind kind;
  double        rise;
  TlGrade       grade;
} Band;

/* Edges of the published table, its gaps closed downwards: up to 3, 15; up to 10, 20, 40. */
static const Band bands[] = {
  { TL_READING_DIFFERENCE, 0.9, TL_GRADE_NOTHING_SEEN },
  { TL_READING_DIFFERENCE, 1.0, TL_GRADE_WATCH },
  { TL_READING_DIFFERENCE, 3.0, TL_GRADE_WATCH },
  { TL_READING_DIFFERENCE, 3.5, TL_GRADE_CHANGE },
  { TL_READING_DIFFERENCE, 15.0, TL_GRADE_CHANGE },
  { TL_READING_DIFFERENCE, 15.1, TL_GRADE_UNSAFE },
  { TL_READING_SPOT, 0.5, TL_GRADE_NOTHING_SEEN },
  { TL_READING_SPOT, 1.0, TL_GRADE_WATCH },
  { TL_READING_SPOT, 10.0, TL_GRADE_WATCH },
  { TL_READING_SPOT, 10.5, TL_GRADE_CHANGE },
  { TL_READING_SPOT, 20.0, TL_GRADE_CHANGE },
  { TL_READING_SPOT, 21.0, TL_GRADE_CHANGE },
  { TL_READING_SPOT, 40.0, TL_GRADE_CHANGE },
  { TL_READING_SPOT, 40.5, TL_GRADE_UNSAFE },
};

static void
test_bands (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (bands); i++)
    {
      double          value = bands[i].kind == TL_READING_SPOT ? 20 + bands[i].rise : bands[i].rise;
      TlReadingResult result = first_of (thermal (bands[i].kind, value, 16));

      g_assert_true (result.is_computed);
      g_assert_cmpint (result.grade, ==, bands[i].grade);
      if (bands[i].grade != TL_GRADE_NOTHING_SEEN)
        g_assert_cmpstr (result.source, ==, "neta-mts-100-18");
    }
}

/* 8 K at half the load: 24 to 32 K at the full one. */
static void
test_load (void)
{
  g_autoptr (GArray) results = NULL;
  TlReading             *reading = thermal (TL_READING_DIFFERENCE, 8, 8);
  const TlReadingResult *scaled;
  TlRange                full_K;

  g_assert_true (tl_reading_full_load_K (stock, 8, 8, 16, &full_K));
  g_assert_cmpfloat_with_epsilon (full_K.low, 24.25, 0.01);
  g_assert_cmpfloat_with_epsilon (full_K.high, 32.0, 0.01);
  results = tl_reading_judge (reading, stock);
  /* As read and scaled, then two further scales on what was scaled. */
  g_assert_cmpuint (results->len, ==, 4);
  g_assert_cmpint (g_array_index (results, TlReadingResult, 0).grade, ==, TL_GRADE_CHANGE);
  scaled = &g_array_index (results, TlReadingResult, 1);
  g_assert_cmpint (scaled->grade, ==, TL_GRADE_UNSAFE);
  g_assert_cmpfloat (scaled->figure.low, <, scaled->figure.high);
  tl_record_unref (reading);

  /* 6.3 A of 16 A are under 40 %: no band, no figure. */
  g_assert_false (tl_reading_full_load_K (stock, 8, 6.3, 16, &full_K));
  g_assert_false (first_of (thermal (TL_READING_DIFFERENCE, 30, 6.3)).is_computed);
  g_assert_true (first_of (thermal (TL_READING_DIFFERENCE, 30, 6.4)).is_computed);
}

/* Load, surroundings, emissivity, size of the spot: without one of them nothing is computed. */
static void
test_missing (void)
{
  for (guint i = 0; i < 7; i++)
    {
      TlReading *reading = thermal (TL_READING_SPOT, 70, 16);
      gboolean   is_computed = FALSE;

      if (i == 0)
        reading->load_A = 0;
      else if (i == 1)
        reading->full_load_A = 0;
      else if (i == 2)
        reading->has_ambient = FALSE;
      else if (i == 3)
        reading->emissivity = 0;
      else if (i == 4)
        reading->emissivity = 0.1; /* bright metal */
      else if (i == 5)
        reading->target_px = 2;
      else
        {
          /* A probe that touches needs neither emissivity nor size. */
          reading->emissivity = reading->target_px = 0;
          reading->is_contact = TRUE;
          is_computed = TRUE;
        }
      g_assert_cmpint (first_of (reading).is_computed, ==, is_computed);
    }
}

static TlReading *
resistance (double value, double a, double b)
{
  TlReading *reading = tl_record_new (&tl_reading_form);

  reading->kind = TL_READING_RESISTANCE;
  reading->value = value;
  if (a > 0)
    g_array_append_val (reading->similar, a);
  if (b > 0)
    g_array_append_val (reading->similar, b);
  return reading;
}

/* 10, 11, 16 micro-ohm: limit 15, the third is looked into; the reference is the lowest, not the mean. */
static void
test_similar (void)
{
  TlReadingResult third = first_of (resistance (16, 10, 11)),
                  second = first_of (resistance (11, 10, 16)),
                  edge = first_of (resistance (15, 10, 11)),
                  alone = first_of (resistance (16, 0, 0)),
                  lowest = first_of (resistance (10, 11, 16));

  g_assert_cmpfloat_with_epsilon (third.limit, 15, 1e-9);
  g_assert_cmpint (third.grade, ==, TL_GRADE_CHANGE);
  g_assert_cmpint (second.grade, ==, TL_GRADE_NOTHING_SEEN);
  g_assert_cmpint (edge.grade, ==, TL_GRADE_NOTHING_SEEN);
  g_assert_false (alone.is_computed);
  g_assert_cmpfloat_with_epsilon (lowest.limit, 15, 1e-9);
  g_assert_cmpstr (third.source, ==, "neta-ats-7-3-2");
}

/* Millivolts without their current are nothing; joint against the same length of conductor: 1, 2, 3. */
static void
test_drop (void)
{
  static const struct
  {
    double  mV, conductor_mV;
    TlGrade grade;
  } cases[] = {
    { 0.9, 1, TL_GRADE_NOTHING_SEEN },
    { 1.5, 1, TL_GRADE_WATCH },
    { 2.0, 1, TL_GRADE_CHANGE },
    { 3.2, 1, TL_GRADE_CHANGE },
  };
  TlReading *reading = tl_record_new (&tl_reading_form);

  reading->kind = TL_READING_DROP;
  reading->value = 25;
  reading->conductor = 10;
  g_assert_false (first_of (reading).is_computed);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GArray) results = NULL;

      reading = tl_record_new (&tl_reading_form);
      reading->kind = TL_READING_DROP;
      reading->current_A = 16;
      reading->value = cases[i].mV;
      reading->conductor = cases[i].conductor_mV;
      results = tl_reading_judge (reading, stock);
      g_assert_false (g_array_index (results, TlReadingResult, 0).is_computed);
      g_assert_cmpint (g_array_index (results, TlReadingResult, 1).grade, ==, cases[i].grade);
      tl_record_unref (reading);
    }
}

static void
test_insulation (void)
{
  static const struct
  {
    TlCircuit circuit;
    double    test_V, Mohm;
    gboolean  is_computed;
    TlGrade   grade;
  } cases[] = {
    { TL_CIRCUIT_SELV, 250, 0.5, TRUE, TL_GRADE_NOTHING_SEEN },
    { TL_CIRCUIT_SELV, 250, 0.4, TRUE, TL_GRADE_UNSAFE },
    { TL_CIRCUIT_LOW, 500, 1.0, TRUE, TL_GRADE_NOTHING_SEEN },
    { TL_CIRCUIT_LOW, 500, 0.9, TRUE, TL_GRADE_UNSAFE },
    { TL_CIRCUIT_LOW, 250, 50, FALSE, TL_GRADE_NOTHING_SEEN },
    { TL_CIRCUIT_HIGH, 1000, 0.99, TRUE, TL_GRADE_UNSAFE },
    { TL_CIRCUIT_SURGE, 250, 1.0, TRUE, TL_GRADE_NOTHING_SEEN },
    { TL_CIRCUIT_UNKNOWN, 500, 50, FALSE, TL_GRADE_NOTHING_SEEN },
    { TL_CIRCUIT_LOW, 0, 50, FALSE, TL_GRADE_NOTHING_SEEN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TlReading      *reading = tl_record_new (&tl_reading_form);
      TlReadingResult result;

      reading->kind = TL_READING_INSULATION;
      reading->circuit = cases[i].circuit;
      reading->test_V = cases[i].test_V;
      reading->value = cases[i].Mohm;
      result = first_of (reading);
      g_assert_cmpint (result.is_computed, ==, cases[i].is_computed);
      g_assert_cmpint (result.grade, ==, cases[i].grade);
    }
}

/* A screw on a soft conductor is not tried again; a bar bolt that moved before 90 % is loose; very loose socket screws. */
static void
test_torque (void)
{
  TlReading *soft = tl_record_new (&tl_reading_form), *bar = tl_record_new (&tl_reading_form),
            *held = tl_record_new (&tl_reading_form), *socket = tl_record_new (&tl_reading_form);

  soft->kind = bar->kind = held->kind = socket->kind = TL_READING_TORQUE;
  soft->screw = TL_SCREW_CONDUCTOR;
  soft->value = 1;
  soft->nominal_Nm = 2;
  bar->screw = held->screw = TL_SCREW_BAR;
  bar->value = 15;
  held->value = 19;
  bar->nominal_Nm = held->nominal_Nm = 20;
  bar->has_moved = TRUE;
  socket->screw = TL_SCREW_RECEPTACLE;
  socket->value = 0.3;
  socket->load_A = 9;
  socket->has_moved = TRUE;
  g_assert_false (first_of (soft).is_computed);
  g_assert_cmpint (first_of (bar).grade, ==, TL_GRADE_WATCH);
  g_assert_cmpint (first_of (held).grade, ==, TL_GRADE_NOTHING_SEEN);
  g_assert_cmpint (first_of (socket).grade, ==, TL_GRADE_UNSAFE);
}

/* Every row names a source that exists and a severity that is one. */
static void
test_rows (void)
{
  static const char *const tables[] = { "inspection-terms", "inspection-bands", "inspection-limits",
                                        "inspection-measures", "inspection-criteria" };

  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      const TlTable *table = tl_stock_table (stock, tables[i]);

      g_assert_nonnull (table);
      for (guint k = 0; k < table->rows->len; k++)
        {
          const TlTableRow *row = g_ptr_array_index (table->rows, k);
          TlGrade           grade;

          g_assert_nonnull (tl_stock_source (stock, row->source));
          if (i > 0)
            g_assert_true (
                tl_grade_from_catalogue (tl_table_word (table, row, "severity"), &grade));
        }
    }
}

int
main (int argc, char **argv)
{
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  g_assert_nonnull (stock);
  g_test_add_func ("/reading/bands", test_bands);
  g_test_add_func ("/reading/load", test_load);
  g_test_add_func ("/reading/missing", test_missing);
  g_test_add_func ("/reading/similar", test_similar);
  g_test_add_func ("/reading/drop", test_drop);
  g_test_add_func ("/reading/insulation", test_insulation);
  g_test_add_func ("/reading/torque", test_torque);
  g_test_add_func ("/reading/rows", test_rows);
  code = g_test_run ();
  tl_stock_unref (stock);
  return code;
}
