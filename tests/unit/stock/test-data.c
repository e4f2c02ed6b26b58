/* test-data.c: the data that are compiled in: every row loads, is in range and has its source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/xml.h"
#include "stock/stock.h"

#include <string.h>

static TlStock *stock;

static void
check_facts (const char *owner, const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      const TlFact *fact = tl_facts_at (facts, i);
      g_autoptr (GError) error = NULL;

      if (!tl_fact_check (fact, &error))
        g_error ("%s: %s", owner, error->message);
      g_assert_nonnull (fact->source);
      g_assert_nonnull (tl_stock_source (stock, fact->source));
      g_assert_cmpint (fact->known_by, >=, TL_KNOWN_SEEN);
    }
}

static void
test_parts (void)
{
  const GPtrArray *parts = tl_stock_parts (stock);
  guint            seen[TL_N_PART_KINDS] = { 0 };

  g_assert_cmpuint (parts->len, >, 500);
  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);

      check_facts (part->id, part->facts);
      g_assert_true (tl_stock_part (stock, part->id) == part);
      seen[part->kind]++;
    }
  for (guint i = 0; i < TL_N_PART_KINDS; i++)
    if (i != TL_PART_TERMINAL && i != TL_PART_BRANCH)
      g_assert_cmpuint (seen[i], >, 0);
  g_assert_null (tl_stock_part (stock, "no-such-part"));
}

static void
test_materials (void)
{
  const GPtrArray *materials = tl_stock_materials (stock);

  for (guint i = 0; i < materials->len; i++)
    {
      const TlMaterial *material = g_ptr_array_index (materials, i);

      check_facts (material->id, material->facts);
      g_assert_true (tl_stock_material (stock, material->id) == material);
      if (strcmp (material->kind, "polymer") == 0 || strcmp (material->kind, "compound") == 0)
        continue;

      /* Whoever can touch another metal needs a place on every scale. */
      g_assert_true (tl_facts_has (material->facts, TL_FIELD_POTENTIAL_J));
      g_assert_true (tl_facts_has (material->facts, TL_FIELD_INDEX_MIL));
      g_assert_true (tl_facts_has (material->facts, TL_FIELD_POTENTIAL_SEA));
      g_assert_true (tl_facts_has (material->facts, TL_FIELD_RESISTIVITY));
      g_assert_true (tl_facts_has (material->facts, TL_FIELD_HARDNESS));
      g_assert_true (tl_facts_has (material->facts, TL_FIELD_CATHODE_QUALITY));
    }
}

static void
test_sources (void)
{
  const GPtrArray *sources = tl_stock_sources (stock);

  for (guint i = 0; i < sources->len; i++)
    {
      const TlSource *source = g_ptr_array_index (sources, i);

      g_assert_cmpstr (source->title, !=, "");
      g_assert_true (tl_stock_source (stock, source->id) == source);

      /* Pages of makers and sellers are called by what they are. */
      g_assert_cmpint (strcmp (source->kind, "page") == 0, ==,
                       g_str_has_prefix (source->title, "Secondary page"));
    }
}

static void
test_tables (void)
{
  static const char *const wanted[] = { "thresholds", "pull-force", "torque",     "ampacity",          "ambient-factor",
                                        "grouping",   "box-fill",          "wet-hours",
                                        "disputes",   "tempers",           "overcurrent-limit" };

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      const TlTable *table = tl_stock_table (stock, wanted[i]);

      g_assert_nonnull (table);
      g_assert_cmpuint (table->rows->len, >, 0);
      for (guint k = 0; k < table->rows->len; k++)
        {
          const TlTableRow *row = g_ptr_array_index (table->rows, k);

          g_assert_nonnull (tl_stock_source (stock, row->source));
          g_assert_cmpuint (g_strv_length (row->cells), ==, g_strv_length (table->columns));
        }
    }
}

/* A limit rests on more than a page: its source is a standard, a book, or it is called practice.
 * Three kinds of figure are known from pages alone and are estimates, not limits. */
static void
test_limits_do_not_rest_on_pages (void)
{
  static const char *const estimates[] = {
    "grip.nut-factor", "grip.friction-scatter", "grip.preload-share", "galvanic.limit-mil", "seal.",
    "steps."
  };
  const TlTable *table = tl_stock_table (stock, "thresholds");

  for (guint i = 0; i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      const TlSource   *source = tl_stock_source (stock, row->source);
      gboolean          is_estimate = FALSE;

      for (guint k = 0; k < G_N_ELEMENTS (estimates); k++)
        is_estimate = is_estimate || g_str_has_prefix (row->id, estimates[k]);
      if (!is_estimate)
        g_assert_cmpstr (source->kind, !=, "page");
    }
}

static void
test_thresholds (void)
{
  TlThreshold threshold;

  g_assert_true (tl_stock_threshold (stock, "iec-style", "galvanic.limit-j", &threshold));
  /* IEC 60950-1:2005, Annex J: 0.6 V */
  g_assert_cmpfloat (threshold.value, ==, 600.0);
  g_assert_cmpstr (threshold.unit, ==, "mV");
  g_assert_cmpint (threshold.known_by, ==, TL_KNOWN_MEMORY);
  g_assert_false (tl_stock_threshold (stock, "iec-style", "galvanic.no-such-limit", &threshold));

  /* NFPA 70, 300.14: 150 mm; no such rule in the other practice. */
  g_assert_true (tl_stock_threshold (stock, "nfpa70-style", "room.free-length-least", &threshold));
  g_assert_cmpfloat (threshold.value, ==, 150.0);
  g_assert_false (tl_stock_threshold (stock, "iec-style", "room.free-length-least", &threshold));
}

static void
test_rows (void)
{
  const TlTable    *ampacity = tl_stock_table (stock, "ampacity");
  const TlTableRow *row;
  double            current;

  /* IEC 60364-5-52:2009, Table B.52.2: 24 A; NFPA 70, Table 310.16: 15 A */
  row =
      tl_stock_row (stock, "ampacity", "iec-style", "iec", "pvc", "B1", "2", "copper", "2.5", NULL);
  g_assert_nonnull (row);
  g_assert_true (tl_table_number (ampacity, row, "current", &current));
  g_assert_cmpfloat (current, ==, 24.0);
  g_assert_cmpstr (tl_table_word (ampacity, row, "metal"), ==, "copper");
  g_assert_false (tl_table_number (ampacity, row, "awg", &current));
  g_assert_false (tl_table_number (ampacity, row, "no-such-column", &current));

  row = tl_stock_row (stock, "ampacity", "nfpa70-style", "nfpa70", "60", "raceway", "3",
                      "aluminium", "3.309", NULL);
  g_assert_nonnull (row);
  g_assert_true (tl_table_number (ampacity, row, "current", &current));
  g_assert_cmpfloat (current, ==, 15.0);

  g_assert_null (tl_stock_row (stock, "ampacity", "nfpa70-style", "iec", NULL));
  g_assert_null (tl_stock_row (stock, "no-such-table", "iec-style", "x", NULL));
}

/* Common practice, no source: the table as it was agreed for this program, read row by row. */
static void
test_galvanic_severity (void)
{
  static const struct
  {
    const char *surroundings, *step, *none, *compound, *adhesive;
  } cases[] = {
    { "dry", "within", "sound", "sound", "sound" },
    { "dry", "above", "watch", "watch", "sound" },
    { "damp", "marginal", "watch", "watch", "sound" },
    { "damp", "above", "unsafe", "change", "watch" },
    { "condensing", "within", "watch", "sound", "sound" },
    { "condensing", "marginal", "change", "watch", "watch" },
    { "condensing", "above", "unsafe", "change", "watch" },
    { "salt", "within", "change", "watch", "sound" },
    { "salt", "marginal", "unsafe", "change", "watch" },
    { "salt", "above", "unsafe", "unsafe", "change" },
  };
  static const char *const words[] = { "sound", "watch", "change", "unsafe" };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const char *expected[] = { cases[i].none, cases[i].compound, cases[i].adhesive };
      static const char *const closures[] = { "none", "compound", "adhesive" };

      for (guint k = 0; k < G_N_ELEMENTS (closures); k++)
        {
          g_autofree char *id = g_strdup_printf ("galvanic.%s.%s.%s", cases[i].surroundings,
                                                 cases[i].step, closures[k]);
          TlThreshold row;

          g_assert_true (tl_stock_threshold (stock, "iec-style", id, &row));
          g_assert_cmpfloat (row.value, >=, 0.0);
          g_assert_cmpfloat (row.value, <=, 3.0);
          g_assert_cmpstr (words[(guint) row.value], ==, expected[k]);
        }
    }
}

static void
validate_folder (const char *folder, const char *schema, gsize schema_length)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint       n = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;
      gsize length;

      if (!g_str_has_suffix (name, ".xml") || g_str_has_suffix (name, ".gresource.xml")
          || g_file_test (path, G_FILE_TEST_IS_DIR))
        continue;
      g_assert_true (g_file_get_contents (path, &text, &length, &error));
      if (strstr (text, "urn:tinlap:stock:1") == NULL)
        continue;
      if (!tl_xml_validate (text, length, path, schema, schema_length, &error))
        g_error ("%s", error->message);
      n++;
    }
  g_assert_cmpuint (n, >, 0);
}

static void
test_schema (void)
{
  const char       *root = g_getenv ("TINLAP_SOURCE_ROOT");
  g_autofree char  *data = g_build_filename (root, "data", NULL);
  g_autofree char  *parts = g_build_filename (data, "stock", NULL);
  g_autofree char  *tables = g_build_filename (data, "tables", NULL);
  g_autofree char  *path = g_build_filename (data, "schema", "stock.rng", NULL);
  g_autofree char  *schema = NULL;
  static const char wrong[] = "<stock xmlns=\"urn:tinlap:stock:1\"><part kind=\"bolt\"/></stock>";
  g_autoptr (GError) error = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &schema, &length, NULL));
  validate_folder (data, schema, length);
  validate_folder (parts, schema, length);
  validate_folder (tables, schema, length);

  g_assert_false (tl_xml_validate (wrong, strlen (wrong), "wrong.xml", schema, length, &error));
  g_assert_nonnull (error);
}

/* What is compiled in is what stands in the tree: same ids, same order, same facts. */
static void
test_folder_equals_resource (void)
{
  g_autofree char *data = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) folder = tl_stock_load (data, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (tl_stock_version (folder), ==, tl_stock_version (stock));
  g_assert_cmpuint (tl_stock_parts (folder)->len, ==, tl_stock_parts (stock)->len);
  for (guint i = 0; i < tl_stock_parts (stock)->len; i++)
    {
      const TlPart *a = g_ptr_array_index (tl_stock_parts (stock), i);
      const TlPart *b = g_ptr_array_index (tl_stock_parts (folder), i);

      g_assert_cmpstr (a->id, ==, b->id);
      g_assert_true (tl_facts_equal (a->facts, b->facts));
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

  g_test_add_func ("/stock/data/parts", test_parts);
  g_test_add_func ("/stock/data/materials", test_materials);
  g_test_add_func ("/stock/data/sources", test_sources);
  g_test_add_func ("/stock/data/tables", test_tables);
  g_test_add_func ("/stock/data/limits-do-not-rest-on-pages", test_limits_do_not_rest_on_pages);
  g_test_add_func ("/stock/data/thresholds", test_thresholds);
  g_test_add_func ("/stock/data/rows", test_rows);
  g_test_add_func ("/stock/data/galvanic-severity", test_galvanic_severity);
  g_test_add_func ("/stock/data/schema", test_schema);
  g_test_add_func ("/stock/data/folder-equals-resource", test_folder_equals_resource);
  result = g_test_run ();
  tl_stock_unref (stock);
  return result;
}
