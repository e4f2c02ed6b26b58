/* test-criterion.c: each of the 122 rows of tests/reference/inspection_criteria.csv: judged right just inside and just outside,
 * or looked for by eye, or left out with the reason that the row gives.
 *
 * The facts of the file were entered apart from the tables of the program, from the publications that the tables name; its column
 * known_by says how they are known.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/criterion.h"
#include "picture/reading.h"

#include <string.h>

static TlStock   *stock;
static GPtrArray *criteria;

enum
{
  ID,
  USE,
  HOW,
  INSIDE,
  OUTSIDE,
  INSIDE_GRADE,
  OUTSIDE_GRADE,
  KNOWN_BY,
  NOTE,
  N_CELLS
};

/* "ic026-1" is of "IC026". */
static gboolean
is_of (const char *row, const char *id)
{
  g_autofree char *lower = g_ascii_strdown (id, -1);
  gsize            length = strlen (lower);

  return row != NULL && strncmp (row, lower, length) == 0
         && (row[length] == '\0' || row[length] == '-');
}

static const TlCriterion *
find (const char *id, TlCriterionUse use)
{
  for (guint i = 0; i < criteria->len; i++)
    {
      const TlCriterion *criterion = g_ptr_array_index (criteria, i);

      if (is_of (criterion->id, id) && criterion->use == use)
        return criterion;
    }
  g_error ("%s is in no table", id);
}

static void
add_similar (TlReading *reading, double value)
{
  g_array_append_val (reading->similar, value);
}

static gboolean
set_insulation (TlReading *reading, const char *how, double value)
{
  static const struct
  {
    const char *how;
    TlCircuit   circuit;
    double      test_V;
  } circuits[] = {
    { "insulation-selv", TL_CIRCUIT_SELV, 250 },  { "insulation-low", TL_CIRCUIT_LOW, 500 },
    { "insulation-high", TL_CIRCUIT_HIGH, 1000 }, { "insulation-surge", TL_CIRCUIT_SURGE, 250 },
    { "insulation-us", TL_CIRCUIT_US_250, 500 },  { "insulation-search", TL_CIRCUIT_LOW, 500 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (circuits); i++)
    if (strcmp (circuits[i].how, how) == 0)
      {
        reading->kind = TL_READING_INSULATION;
        reading->circuit = circuits[i].circuit;
        reading->test_V = circuits[i].test_V;
        reading->value = value;
        return TRUE;
      }
  return FALSE;
}

static gboolean
set_surface (TlReading *reading, const char *how, double value)
{
  static const char *const words[] = { "",
                                       "surface-pvc",
                                       "surface-copper",
                                       "surface-aluminium",
                                       "surface-soldered",
                                       "surface-cover-plate" };

  for (guint i = 1; i < G_N_ELEMENTS (words); i++)
    if (strcmp (words[i], how) == 0)
      {
        reading->kind = TL_READING_SPOT;
        reading->surface = i;
        reading->is_contact = TRUE;
        reading->value = value;
        return TRUE;
      }
  return FALSE;
}

static void
set_contact (TlReading *reading, const char *how, double value)
{
  reading->kind = TL_READING_RESISTANCE;
  reading->value = value;
  if (strcmp (how, "similar") == 0)
    {
      add_similar (reading, 10);
      add_similar (reading, 11);
    }
  else if (strcmp (how, "growth") == 0)
    reading->initial = 10;
  else
    reading->conductor = 1;
}

static void
set_torque (TlReading *reading, const char *how, double value)
{
  reading->kind = TL_READING_TORQUE;
  reading->value = value;
  reading->has_moved = TRUE;
  reading->screw = strcmp (how, "torque-bar") == 0 ? TL_SCREW_BAR : TL_SCREW_RECEPTACLE;
  reading->nominal_Nm = 20;
  reading->load_A = 9;
}

/* A thermal reading at full load, by camera; conditions are changed one at a time. */
static void
set_thermal (TlReading *reading, const char *how, double value)
{
  gboolean is_spot = strcmp (how, "ambient") == 0;

  reading->kind = is_spot ? TL_READING_SPOT : TL_READING_DIFFERENCE;
  /* From 0 degrees: no rounding at the edges. */
  reading->value = value;
  reading->has_ambient = TRUE;
  reading->load_A = reading->full_load_A = 16;
  reading->emissivity = 0.95;
  reading->target_px = 6;
}

static TlReading *
new_reading (const char *how, double value)
{
  TlReading *reading = tl_record_new (&tl_reading_form);

  if (set_insulation (reading, how, value) || set_surface (reading, how, value))
    return reading;
  if (g_str_has_prefix (how, "torque-"))
    set_torque (reading, how, value);
  else if (strcmp (how, "similar") == 0 || strcmp (how, "growth") == 0 || strcmp (how, "ratio") == 0
           || strcmp (how, "contact-class") == 0 || strcmp (how, "connector-ratio") == 0
           || strcmp (how, "continuity") == 0)
    set_contact (reading, how, value);
  else
    set_thermal (reading, how, value);
  return reading;
}

static GArray *
judge (const char *how, double value)
{
  TlReading *reading = new_reading (how, value);
  GArray    *results = tl_reading_judge (reading, stock);

  tl_record_unref (reading);
  return results;
}

static void
check_grade (char **cells, const GArray *results, guint index, const char *grade)
{
  const TlReadingResult *result = &g_array_index (results, TlReadingResult, index);

  g_assert_true (result->is_computed);
  if (strcmp (tl_grade_words ()[result->grade], grade) != 0)
    g_error ("%s: %s, where %s is right", cells[ID], tl_grade_words ()[result->grade], grade);
}

static void
check_reading (char **cells)
{
  g_autoptr (GArray) inside = judge (cells[HOW], g_ascii_strtod (cells[INSIDE], NULL)),
                     outside = judge (cells[HOW], g_ascii_strtod (cells[OUTSIDE], NULL));
  guint index = 0;

  while (index < outside->len
         && !is_of (g_array_index (outside, TlReadingResult, index).row, cells[ID]))
    index++;
  if (index == outside->len)
    g_error ("%s is not used at %s", cells[ID], cells[OUTSIDE]);
  g_assert_cmpstr (tl_known_by_to_word (g_array_index (outside, TlReadingResult, index).known_by),
                   ==, cells[KNOWN_BY]);
  g_assert_nonnull (
      tl_stock_source (stock, g_array_index (outside, TlReadingResult, index).source));
  check_grade (cells, outside, index, cells[OUTSIDE_GRADE]);
  check_grade (cells, inside, index, cells[INSIDE_GRADE]);
}

/* What has to be so that there is a result at all. */
static void
check_condition (char **cells)
{
  for (guint i = 0; i < 2; i++)
    {
      double     value = g_ascii_strtod (cells[i == 0 ? INSIDE : OUTSIDE], NULL);
      TlReading *reading =
          new_reading (g_str_has_prefix (cells[HOW], "insulation") ? cells[HOW] : "difference", 20);
      g_autoptr (GArray) results = NULL;

      if (strcmp (cells[HOW], "load") == 0)
        reading->load_A = value;
      else if (strcmp (cells[HOW], "emissivity") == 0)
        reading->emissivity = value;
      else if (strcmp (cells[HOW], "target") == 0)
        reading->target_px = value;
      else
        reading->test_V = value;
      results = tl_reading_judge (reading, stock);
      g_assert_cmpint (g_array_index (results, TlReadingResult, 0).is_computed, ==, i == 0);
      tl_record_unref (reading);
    }
}

static void
check_measure (char **cells)
{
  const TlCriterion *criterion = find (cells[ID], TL_CRITERION_MEASURE);
  TlMeasure         *measure = tl_record_new (&tl_measure_form);
  g_autoptr (GError) error = NULL, missing = NULL;

  g_assert_cmpstr (tl_known_by_to_word (criterion->known_by), ==, cells[KNOWN_BY]);
  measure->kind = criterion->kind;
  g_assert_true (tl_measure_set_criterion (measure, criterion, g_ascii_strtod (cells[HOW], NULL),
                                           stock, tl_language_plain (), &error));
  g_assert_no_error (error);
  g_assert_cmpstr (measure->limit_from, !=, "");
  if (tl_decide (g_ascii_strtod (cells[INSIDE], NULL), 0.0, measure->limit_kind, measure->limit,
                 measure->limit_most)
          != TL_DECISION_WITHIN
      || tl_decide (g_ascii_strtod (cells[OUTSIDE], NULL), 0.0, measure->limit_kind, measure->limit,
                    measure->limit_most)
             != TL_DECISION_BEYOND)
    g_error ("%s: limit %.17g to %.17g", cells[ID], measure->limit, measure->limit_most);
  /* Multiples of nothing, another kind of measure. */
  g_assert_true (
      *cells[HOW] == '\0'
      || !tl_measure_set_criterion (measure, criterion, 0.0, stock, tl_language_plain (), NULL));
  measure->kind = TL_MEASURE_AREA;
  g_assert_false (
      tl_measure_set_criterion (measure, criterion, 1.0, stock, tl_language_plain (), &missing));
  g_assert_error (missing, TL_ERROR, TL_ERROR_RANGE);
  tl_record_unref (measure);
}

static void
check_row (char **cells, guint number)
{
  g_autofree char *id = g_strdup_printf ("IC%03u", number);

  g_assert_cmpuint (g_strv_length (cells), ==, N_CELLS);
  g_assert_cmpstr (cells[ID], ==, id);
  if (strcmp (cells[USE], "reading") == 0)
    check_reading (cells);
  else if (strcmp (cells[USE], "condition") == 0)
    check_condition (cells);
  else if (strcmp (cells[USE], "measure") == 0)
    check_measure (cells);
  else if (strcmp (cells[USE], "look") == 0)
    {
      g_assert_cmpstr (tl_known_by_to_word (find (cells[ID], TL_CRITERION_LOOK)->known_by), ==,
                       cells[KNOWN_BY]);
      g_assert_cmpstr (cells[NOTE], !=, "");
    }
  else
    {
      g_assert_cmpstr (cells[USE], ==, "left-out");
      g_assert_cmpstr (cells[NOTE], !=, "");
    }
}

static void
test_reference (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests", "reference",
                                            "inspection_criteria.csv", NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  guint rows = 0, counts[2] = { 0, 0 };

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (g_strchomp (text), "\n", -1);
  for (guint i = 1; lines[i] != NULL; i++)
    {
      g_auto (GStrv) cells = g_strsplit (lines[i], ",", -1);

      check_row (cells, ++rows);
      counts[0] += strcmp (cells[USE], "look") == 0 ? 1 : 0;
      counts[1] += strcmp (cells[USE], "left-out") == 0 ? 1 : 0;
    }
  g_assert_cmpuint (rows, ==, 122);
  g_test_message ("%u judged, %u looked for or only to be read, %u tested elsewhere",
                  rows - counts[0] - counts[1], counts[0], counts[1]);
}

/* Scales beside the standard's never make a reading worse. */
static void
test_other_scales (void)
{
  static const char *const kinds[] = { "difference", "ambient" };

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (double rise = 0.0; rise < 120.0; rise += 0.5)
      {
        g_autoptr (GArray) results = judge (kinds[k], rise);

        g_assert_cmpuint (results->len, ==, 3);
        for (guint i = 1; i < results->len; i++)
          g_assert_cmpint (g_array_index (results, TlReadingResult, i).grade, <=,
                           g_array_index (results, TlReadingResult, 0).grade);
      }
}

/* 25 mV at 16 A: 0.40 W (Joule); 1.5625 milliohm with 16 A of load: the same; without a load no heat is told. */
static void
test_heat (void)
{
  for (guint i = 0; i < 3; i++)
    {
      TlReading *reading = tl_record_new (&tl_reading_form);
      g_autoptr (GArray) results = NULL;
      gboolean has_heat = FALSE;

      reading->kind = i == 0 ? TL_READING_DROP : TL_READING_RESISTANCE;
      reading->value = i == 0 ? 25.0 : 1562.5;
      reading->current_A = i == 0 ? 16.0 : 0.0;
      reading->load_A = i == 1 ? 16.0 : 0.0;
      results = tl_reading_judge (reading, stock);
      for (guint k = 0; k < results->len; k++)
        {
          const TlReadingResult *result = &g_array_index (results, TlReadingResult, k);

          if (g_strcmp0 (result->row, "ic046") != 0)
            continue;
          has_heat = TRUE;
          g_assert_cmpfloat_with_epsilon (result->figure.best, 0.40, 1e-9);
        }
      g_assert_cmpint (has_heat, ==, i < 2);
      tl_record_unref (reading);
    }
}

/* A thermal camera on bright metal tells nothing of the metal either. */
static void
test_surface_by_camera (void)
{
  TlReading *reading = new_reading ("surface-copper", 220);
  g_autoptr (GArray) results = NULL;

  reading->is_contact = FALSE;
  reading->emissivity = 0.1;
  results = tl_reading_judge (reading, stock);
  g_assert_cmpuint (results->len, ==, 2);
  g_assert_false (g_array_index (results, TlReadingResult, 1).is_computed);
  tl_record_unref (reading);
}

static void
test_search (void)
{
  static const struct
  {
    const char *words, *id;
  } cases[] = { { "hexagon flats", "ic078" },  { "Babrauskas", "ic108" },
                { "TYPE TEST 3.2", "ic042" },  { "ic089", "ic089" },
                { "lowest similar", "ic021" }, { "ic061 pitch", "ic061" } };
  g_autoptr (GPtrArray) none =
      tl_criteria_search (criteria, "no such thing", stock, tl_language_plain ());

  g_assert_cmpuint (none->len, ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) found =
          tl_criteria_search (criteria, cases[i].words, stock, tl_language_plain ());
      gboolean is_there = FALSE;

      g_assert_cmpuint (found->len, >, 0);
      g_assert_cmpuint (found->len, <, 20);
      for (guint k = 0; k < found->len; k++)
        is_there = is_there
                   || strcmp (((TlCriterion *) g_ptr_array_index (found, k))->id, cases[i].id) == 0;
      if (!is_there)
        g_error ("%s is not found by “%s”", cases[i].id, cases[i].words);
    }
}

/* Every row can be read: an object or criterion, a limit, a source. */
static void
test_words (void)
{
  const TlLanguage *plain = tl_language_plain ();
  TlPictureMark    *mark = tl_record_new (&tl_picture_mark_form);

  for (guint i = 0; i < criteria->len; i++)
    {
      const TlCriterion *criterion = g_ptr_array_index (criteria, i);
      g_autofree char   *text = tl_criterion_text (criterion, plain);
      g_autofree char   *limit = tl_criterion_limit_text (criterion, plain);

      g_assert_cmpuint (strlen (text), >, 5);
      g_assert_cmpuint (strlen (limit), >, 0);
      g_assert_null (strstr (limit, "nan"));
      g_assert_null (strstr (limit, "(null)"));
      g_assert_nonnull (tl_stock_source (stock, criterion->source));
      g_assert_true (tl_criteria_find (criteria, criterion->id) == criterion);
    }
  g_assert_null (tl_criteria_find (criteria, "ic999"));
  {
    g_autofree char *limit = tl_criterion_limit_text (tl_criteria_find (criteria, "ic089"), plain);

    g_assert_cmpstr (limit, ==,
                     "at least 10 times the thickness of the wall as recovered, not below "
                     "25\u202fmm");
  }
  tl_picture_mark_set_criterion (mark, tl_criteria_find (criteria, "ic088"), plain);
  g_assert_cmpstr (mark->criterion, ==, "sleeve with adhesive: adhesive at both ends: all round");
  g_assert_cmpstr (mark->source, ==, "page-shrink-faq");
  tl_record_unref (mark);
}

int
main (int argc, char **argv)
{
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  g_assert_nonnull (stock);
  criteria = tl_criteria_new (stock);
  g_test_add_func ("/criterion/reference", test_reference);
  g_test_add_func ("/criterion/other-scales", test_other_scales);
  g_test_add_func ("/criterion/heat", test_heat);
  g_test_add_func ("/criterion/surface-by-camera", test_surface_by_camera);
  g_test_add_func ("/criterion/search", test_search);
  g_test_add_func ("/criterion/words", test_words);
  code = g_test_run ();
  g_ptr_array_unref (criteria);
  tl_stock_unref (stock);
  return code;
}
