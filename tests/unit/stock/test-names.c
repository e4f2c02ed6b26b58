/* test-names.c: what parts and sources are called. The wording is ours; sizes are written as the
 * trade writes them (outside x bore x thickness, M x length).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock.h"

#include <string.h>

static TlStock *stock;

typedef struct
{
  const char *part;
  const char *name;
  const char *dimensions; /* with plain spaces */
} Case;

static const Case cases[] = {
  { "washer-plain-m5-steel", "Plain washer, steel, bare", "10 × 5.3 × 1.0 mm" },
  { "washer-plain-m5-steel-zinc", "Plain washer, steel, zinc-plated", "10 × 5.3 × 1.0 mm" },
  { "washer-plain-m5-zinc", "Plain washer, zinc", "10 × 5.3 × 1.0 mm" },
  { "washer-large-m5-stainless", "Large washer, stainless steel A2", "15 × 5.3 × 1.0 mm" },
  { "spring-ring-m5-steel", "Spring lock washer, steel, bare", "9.2 × 5.1 × 1.2 mm" },
  { "conical-m5-steel", "Conical spring washer, steel, bare", "11 × 5.3 × 1.2 mm" },
  { "bolt-m5x16-steel-nickel", "Bolt, steel, nickel-plated", "M5 × 16" },
  { "nut-m5-brass", "Nut, brass", "M5, 8 × 4.7 mm" },
  { "cond-cu-class5-2.5-tinned-pvc", "Conductor, copper, tinned, class 5, flexible, PVC",
    "2.5 mm², 2.4 / 4 mm" },
  { "cond-al-class1-2.5", "Conductor, aluminium, class 1, solid, without insulation",
    "2.5 mm², 1.78 mm" },
  { "sleeve-butt-cu-6-tinned", "Butt sleeve, copper, tinned", "6 mm², 5.5 × 3.8 × 30 mm" },
  { "sleeve-measured-parallel-al", "Parallel sleeve, aluminium", "" },
  { "seal-adhesive-3-9.0-3.0", "Heat-shrink sleeve, adhesive", "9 / 3 mm" },
  { "seal-plain-2-6.4-3.2", "Heat-shrink sleeve, no adhesive", "6.35 / 3.18 mm" },
  { "box-round-60x40", "Round box", "60 × 60 × 40 mm" },
  { "compound-jointing", "Jointing compound", "" },
};

/* Thin no-break spaces as plain ones. */
static char *
plain (const char *text)
{
  g_auto (GStrv) pieces = g_strsplit (text, "\u202f", -1);

  return g_strjoinv (" ", pieces);
}

static void
test_name (gconstpointer data)
{
  const Case      *c = data;
  const TlPart    *part = tl_stock_part (stock, c->part);
  g_autofree char *name = NULL, *thin = NULL, *dimensions = NULL;

  g_assert_nonnull (part);
  name = tl_part_name (part->kind, part->facts, stock, tl_language_plain ());
  thin = tl_part_dimensions (part->kind, part->facts, tl_language_plain ());
  dimensions = plain (thin);
  g_assert_cmpstr (name, ==, c->name);
  g_assert_cmpstr (dimensions, ==, c->dimensions);
}

/* Every part has a name, also in customary units and when it is not in the stock. */
static void
test_all_have_names (void)
{
  g_autoptr (TlLanguage) customary = tl_language_new ("en", TL_UNITS_CUSTOMARY);
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart    *part = g_ptr_array_index (parts, i);
      g_autofree char *name = tl_part_name (part->kind, part->facts, NULL, customary);
      g_autofree char *dimensions = tl_part_dimensions (part->kind, part->facts, customary);

      g_assert_cmpstr (name, !=, "");
      g_assert_true (g_utf8_validate (dimensions, -1, NULL));
      g_assert_false (g_str_has_suffix (dimensions, "\u202fmm"));
    }
}

static void
test_kinds (void)
{
  for (guint i = 0; i < TL_N_PART_KINDS; i++)
    {
      TlPartKind     kind;
      guint          count = 0;
      const TlField *fields = tl_part_kind_fields ((TlPartKind) i, &count);
      g_autoptr (TlFacts) none = tl_facts_new ();
      g_autofree char *name = tl_part_name ((TlPartKind) i, none, stock, tl_language_plain ());

      g_assert_true (tl_part_kind_from_word (tl_part_kind_word ((TlPartKind) i), &kind));
      g_assert_cmpuint (kind, ==, i);
      g_assert_cmpuint (count, >, 0);
      for (guint k = 0; k < count; k++)
        for (guint m = 0; m < k; m++)
          g_assert_cmpint (fields[k], !=, fields[m]);
      g_assert_cmpstr (tl_part_group_label (tl_part_kind_group ((TlPartKind) i)), !=, "");
      g_assert_cmpstr (name, !=, "");
    }
  g_assert_false (tl_part_kind_from_word ("rivet", &(TlPartKind){ 0 }));
}

/* A form shows every fact that the stock has for the kind, so that a person can correct it. */
static void
test_forms_hold_every_fact (void)
{
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart  *part = g_ptr_array_index (parts, i);
      guint          count;
      const TlField *fields = tl_part_kind_fields (part->kind, &count);

      for (guint k = 0; k < tl_facts_count (part->facts); k++)
        {
          TlField  field = tl_facts_at (part->facts, k)->field;
          gboolean is_there = FALSE;

          for (guint m = 0; m < count; m++)
            is_there = is_there || fields[m] == field;
          if (!is_there)
            g_error ("the form of %s has no %s", part->id, tl_field_info (field)->key);
        }
    }
}

static void
test_citations (void)
{
  static const struct
  {
    const char *source;
    TlKnownBy   known_by;
    const char *text;
  } citations[] = {
    { "iec-60228-t1", TL_KNOWN_SEEN,
      "IEC 60228, Conductors of insulated cables, 2004, Table 1 (seen)" },
    { "din-46267-1", TL_KNOWN_MEMORY, "DIN 46267-1, Compression joints, copper (from memory)" },
    { "en-16984", TL_KNOWN_COMPUTED,
      "EN 16984, Disc springs, calculation (Almen and Laszlo) (computed)" },
    { "common-practice", TL_KNOWN_PRACTICE, "Common practice, no source" },
    { "page-nut-factor", TL_KNOWN_SEEN, "Secondary page: nut factors (seen)" },
    { "no-such-source", TL_KNOWN_SEEN, "no-such-source" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (citations); i++)
    {
      g_autofree char *text = tl_source_citation (stock, citations[i].source, citations[i].known_by,
                                                  tl_language_plain ());

      g_assert_cmpstr (text, ==, citations[i].text);
    }
}

static void
test_material_names (void)
{
  g_assert_cmpstr (tl_material_name (stock, "tin-plate", tl_language_plain ()), ==, "tin plate");
  g_assert_cmpstr (tl_material_name (stock, "mithril", tl_language_plain ()), ==, "mithril");
  g_assert_cmpstr (tl_material_name (NULL, "copper", tl_language_plain ()), ==, "copper");
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, &error);
  g_assert_no_error (error);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/stock/names/", cases[i].part, NULL);

      g_test_add_data_func (path, &cases[i], test_name);
    }
  g_test_add_func ("/stock/names/all", test_all_have_names);
  g_test_add_func ("/stock/names/kinds", test_kinds);
  g_test_add_func ("/stock/names/forms", test_forms_hold_every_fact);
  g_test_add_func ("/stock/names/citations", test_citations);
  g_test_add_func ("/stock/names/materials", test_material_names);
  result = g_test_run ();
  tl_stock_unref (stock);
  return result;
}
