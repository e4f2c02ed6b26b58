/* test-overlay.c: the rows that a document keeps win over newer data.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock.h"

static TlStock *stock;

/* The figures here stand for an older edition of the data; they are from nowhere else. */
#define OLD_OUTER 9.5

static void
replace_number (TlFacts **facts, TlField field, double value)
{
  TlFacts *changed = tl_facts_with_number (*facts, field, value, TL_KNOWN_SEEN);

  tl_facts_unref (*facts);
  *facts = changed;
}

static TlPart *
old_washer (void)
{
  TlPart *part = tl_part_copy (tl_stock_part (stock, "washer-plain-m5-steel"));

  replace_number (&part->facts, TL_FIELD_OUTER, OLD_OUTER);
  return part;
}

static TlTableRow *
old_limit (const char *id, const char *practice, const char *value, const char *unit)
{
  const char *const cells[] = { value, unit, NULL };
  TlTableRow       *row = g_new0 (TlTableRow, 1);

  row->id = g_strdup (id);
  row->practice = g_strdup (practice);
  row->cells = g_strdupv ((char **) cells);
  row->known_by = TL_KNOWN_PRACTICE;
  row->source = g_strdup ("common-practice");
  row->note = g_strdup ("");
  return row;
}

static void
test_part (void)
{
  g_autoptr (TlUsed) used = tl_used_new ();
  g_autoptr (TlStock) over = NULL;
  const TlPart *below = tl_stock_part (stock, "washer-plain-m5-steel");
  const TlPart *found;
  guint         place, other_place;

  used->data_version = g_strdup ("2019.1");
  g_ptr_array_add (used->parts, old_washer ());
  over = tl_stock_overlay (stock, used);

  found = tl_stock_part (over, "washer-plain-m5-steel");
  g_assert_cmpfloat (tl_facts_number (found->facts, TL_FIELD_OUTER, 0.0), ==, OLD_OUTER);
  g_assert_cmpfloat (tl_facts_number (below->facts, TL_FIELD_OUTER, 0.0), ==, 10.0);
  g_assert_true (tl_stock_part (stock, "washer-plain-m5-steel") == below);
  g_assert_cmpstr (tl_stock_version (over), ==, "2019.1");

  /* It stands where the newer row stood. */
  g_assert_cmpuint (tl_stock_parts (over)->len, ==, tl_stock_parts (stock)->len);
  g_assert_true (g_ptr_array_find ((GPtrArray *) tl_stock_parts (stock), below, &place));
  g_assert_true (g_ptr_array_find ((GPtrArray *) tl_stock_parts (over), found, &other_place));
  g_assert_cmpuint (place, ==, other_place);

  /* What it does not hold comes from below. */
  g_assert_nonnull (tl_stock_part (over, "nut-m5-steel"));
  g_assert_nonnull (tl_stock_source (over, "iso-7089"));
  g_assert_nonnull (tl_stock_table (over, "ampacity"));
}

/* A part that newer data no longer have still serves the document that uses it. */
static void
test_part_that_is_gone (void)
{
  g_autoptr (TlUsed) used = tl_used_new ();
  g_autoptr (TlStock) over = NULL;
  TlPart *part = old_washer ();

  g_free (part->id);
  part->id = g_strdup ("washer-of-old");
  g_ptr_array_add (used->parts, part);
  over = tl_stock_overlay (stock, used);
  g_assert_true (tl_stock_part (over, "washer-of-old") == part);
  g_assert_cmpuint (tl_stock_parts (over)->len, ==, tl_stock_parts (stock)->len + 1);
  g_assert_null (tl_stock_part (stock, "washer-of-old"));
  g_assert_cmpstr (tl_stock_version (over), ==, tl_stock_version (stock));
}

static void
test_material (void)
{
  g_autoptr (TlUsed) used = tl_used_new ();
  g_autoptr (TlStock) over = NULL;
  TlMaterial *tin = tl_material_copy (tl_stock_material (stock, "tin-plate"));

  replace_number (&tin->facts, TL_FIELD_POTENTIAL_J, 1100.0);
  g_ptr_array_add (used->materials, tin);
  over = tl_stock_overlay (stock, used);
  g_assert_cmpfloat (
      tl_facts_number (tl_stock_material (over, "tin-plate")->facts, TL_FIELD_POTENTIAL_J, 0.0), ==,
      1100.0);
  g_assert_cmpfloat (
      tl_facts_number (tl_stock_material (stock, "tin-plate")->facts, TL_FIELD_POTENTIAL_J, 0.0),
      ==, 1150.0);
}

static double
limit (const TlStock *in, const char *practice, const char *id)
{
  TlThreshold threshold;

  g_assert_true (tl_stock_threshold (in, practice, id, &threshold));
  return threshold.value;
}

static void
test_thresholds (void)
{
  g_autoptr (TlUsed) used = tl_used_new ();
  g_autoptr (TlStock) over = NULL, twice = NULL;
  const TlTable    *table;
  const TlTableRow *first;

  used->practice = g_strdup ("iec-style");
  g_ptr_array_add (used->thresholds, old_limit ("galvanic.limit-j", "*", "500", "mV"));
  g_ptr_array_add (used->thresholds, old_limit ("current.continuous-share", "*", "1.1", "1"));
  g_ptr_array_add (used->thresholds, old_limit ("limit.of-old", "*", "7", "mm"));
  over = tl_stock_overlay (stock, used);

  g_assert_cmpfloat (limit (over, "iec-style", "galvanic.limit-j"), ==, 500.0);
  g_assert_cmpfloat (limit (over, "nfpa70-style", "galvanic.limit-j"), ==, 500.0);
  g_assert_cmpfloat (limit (stock, "iec-style", "galvanic.limit-j"), ==, 600.0);
  g_assert_cmpfloat (limit (over, "iec-style", "limit.of-old"), ==, 7.0);

  /* Judged by the IEC-style practice, the old general row was what held; for the other practice
   * the stock has a row of its own, of which the document's copy says nothing. */
  g_assert_cmpfloat (limit (over, "iec-style", "current.continuous-share"), ==, 1.1);
  g_assert_cmpfloat (limit (over, "nfpa70-style", "current.continuous-share"), ==, 1.25);

  table = tl_stock_table (over, "thresholds");
  first = g_ptr_array_index (table->rows, 0);
  g_assert_cmpstr (first->id, ==, "galvanic.limit-j");
  g_assert_cmpuint (table->rows->len, ==, tl_stock_table (stock, "thresholds")->rows->len + 2);

  /* An overlay is a stock: another document's rows go over it. */
  twice = tl_stock_overlay (over, used);
  g_assert_cmpfloat (limit (twice, "iec-style", "galvanic.limit-j"), ==, 500.0);
  g_assert_cmpfloat (limit (twice, "nfpa70-style", "current.continuous-share"), ==, 1.25);
}

/* A damaged copy does not take the stock's limit away. */
static void
test_broken_threshold (void)
{
  g_autoptr (TlUsed) used = tl_used_new ();
  g_autoptr (TlStock) over = NULL;

  g_ptr_array_add (used->thresholds, old_limit ("galvanic.limit-j", "*", "much", "mV"));
  over = tl_stock_overlay (stock, used);
  g_assert_cmpfloat (limit (over, "iec-style", "galvanic.limit-j"), ==, 600.0);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, &error);
  g_assert_no_error (error);

  g_test_add_func ("/stock/overlay/part", test_part);
  g_test_add_func ("/stock/overlay/part-that-is-gone", test_part_that_is_gone);
  g_test_add_func ("/stock/overlay/material", test_material);
  g_test_add_func ("/stock/overlay/thresholds", test_thresholds);
  g_test_add_func ("/stock/overlay/broken-threshold", test_broken_threshold);
  result = g_test_run ();
  tl_stock_unref (stock);
  return result;
}
