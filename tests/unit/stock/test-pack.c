/* test-pack.c: packs of a person's own: read, laid over the stock, edited, saved; and hostile ones.
 *
 * What a pack may do is this project's own promise: the system's data are never changed silently.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/xml.h"
#include "stock/pack.h"

#include <glib/gstdio.h>
#include <string.h>

#define HEAD "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"Van\" currency=\"EUR\">\n"
#define PART(text) HEAD "<part id=\"own-nut\" kind=\"nut\">\n" text "\n</part>\n</pack>\n"

/* A washer of 12 × 5.3 × 1.5 mm of a bronze of one's own. */
static const char good[] =
    HEAD "<source id=\"own-gauge\" kind=\"memory\" title=\"Caliper of the workshop\"/>\n"
         "<material id=\"own-bronze\" name=\"phosphor bronze\" kind=\"metal\" look=\"brass\">\n"
         "<fact field=\"potential-j\" value=\"1100\" unit=\"mV\" known-by=\"memory\" "
         "source=\"own-gauge\"/>\n"
         "</material>\n"
         "<part id=\"own-washer\" kind=\"plain-washer\" size=\"M5\" known-by=\"measured\">\n"
         "<fact field=\"outer\" value=\"1.2\" unit=\"cm\" low=\"1.19\" high=\"1.21\"/>\n"
         "<fact field=\"bore\" value=\"5.3\" unit=\"mm\" note=\"four points\"/>\n"
         "<fact field=\"thickness\" value=\"1.5\" unit=\"mm\"/>\n"
         "<fact field=\"material\" value=\"own-bronze\"/>\n"
         "</part>\n"
         "<mark part=\"own-washer\" in-van=\"yes\" quantity=\"25\" price=\"0.12\"/>\n"
         "<mark part=\"washer-plain-m5-steel\" in-van=\"yes\" note=\"left drawer\"/>\n"
         "<mark part=\"cond-cu-awg12-solid\" quantity=\"12.5\" price=\"0.8\" per=\"m\"/>\n"
         "<minutes step=\"press\" value=\"2\" low=\"1.5\" high=\"4\"/>\n"
         "</pack>\n";

static const TlStock *system_stock;

static TlPack *
parse (const char *text, const char *file)
{
  g_autoptr (GError) error = NULL;
  TlPack *pack = tl_pack_parse (text, strlen (text), file, &error);

  g_assert_no_error (error);
  return pack;
}

static TlStock *
lay (GPtrArray *problems, ...)
{
  g_autoptr (GPtrArray) packs = g_ptr_array_new ();
  va_list arguments;

  va_start (arguments, problems);
  for (TlPack *pack; (pack = va_arg (arguments, TlPack *)) != NULL;)
    g_ptr_array_add (packs, pack);
  va_end (arguments);
  return tl_stock_with_packs (system_stock, packs, problems);
}

static const TlPackProblem *
problem_at (const GPtrArray *problems, guint index)
{
  g_assert_cmpuint (problems->len, >, index);
  return g_ptr_array_index (problems, index);
}

static void
test_good (void)
{
  g_autoptr (TlPack) pack = parse (good, "van.xml");
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (TlStock) stock = lay (problems, pack, NULL);
  const TlPart     *part = tl_stock_part (stock, "own-washer");
  const TlPackMark *mark;
  const char       *currency = NULL;

  g_assert_cmpuint (tl_pack_problems (pack)->len, ==, 0);
  g_assert_cmpuint (problems->len, ==, 0);
  g_assert_cmpstr (tl_pack_name (pack), ==, "Van");
  g_assert_nonnull (part);
  g_assert_cmpfloat_with_epsilon (tl_facts_number (part->facts, TL_FIELD_OUTER, 0.0), 12.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tl_facts_get (part->facts, TL_FIELD_OUTER)->value.high, 12.1,
                                  1e-12);
  g_assert_cmpint (tl_facts_get (part->facts, TL_FIELD_BORE)->known_by, ==, TL_KNOWN_MEASURED);
  g_assert_null (tl_facts_get (part->facts, TL_FIELD_BORE)->source);
  g_assert_cmpstr (tl_material_name (stock, "own-bronze", tl_language_plain ()), ==,
                   "phosphor bronze");
  g_assert_nonnull (tl_stock_source (stock, "own-gauge"));
  g_assert_true (tl_stock_pack_of (stock, "own-washer") == pack);
  g_assert_null (tl_stock_pack_of (stock, "washer-plain-m5-steel"));

  mark = tl_stock_mark (stock, "own-washer", &currency);
  g_assert_true (mark->in_van && mark->has_quantity && mark->has_price);
  g_assert_cmpfloat (mark->quantity, ==, 25.0);
  g_assert_cmpfloat (mark->price, ==, 0.12);
  g_assert_cmpstr (currency, ==, "EUR");
  mark = tl_stock_mark (stock, "cond-cu-awg12-solid", NULL);
  g_assert_cmpint (mark->per, ==, TL_PER_METRE);
  g_assert_false (mark->in_van);
  g_assert_cmpstr (tl_stock_mark (stock, "washer-plain-m5-steel", NULL)->note, ==, "left drawer");
  g_assert_null (tl_stock_mark (stock, "washer-plain-m6-steel", NULL));
  g_assert_cmpfloat (tl_stock_minutes (stock, "press")->minutes_min.high, ==, 4.0);
  g_assert_null (tl_stock_minutes (stock, "strip"));
}

/* The system's lists come first and as they were; limits, tables and version are the system's. */
static void
test_behind_the_system (void)
{
  g_autoptr (TlPack) pack = parse (good, "van.xml");
  g_autoptr (TlStock) stock = lay (NULL, pack, NULL);
  const GPtrArray *parts = tl_stock_parts (stock), *below = tl_stock_parts (system_stock);
  TlThreshold      limit;

  g_assert_cmpuint (parts->len, ==, below->len + 1);
  for (guint i = 0; i < below->len; i++)
    g_assert_true (g_ptr_array_index (parts, i) == g_ptr_array_index (below, i));
  g_assert_cmpuint (tl_stock_materials (stock)->len, ==,
                    tl_stock_materials (system_stock)->len + 1);
  g_assert_cmpuint (tl_stock_tables (stock)->len, ==, tl_stock_tables (system_stock)->len);
  g_assert_cmpstr (tl_stock_version (stock), ==, tl_stock_version (system_stock));
  g_assert_true (tl_stock_threshold (stock, "iec-style", "galvanic.limit-j", &limit));
  g_assert_cmpfloat (limit.value, ==, 600.0);
  g_assert_true (tl_stock_threshold (stock, "nfpa70-style", "current.continuous-share", &limit));
  g_assert_cmpfloat (limit.value, ==, 1.25);
}

/* A document's own copies lie over the packs, and what the packs say is heard through them. */
static void
test_under_a_document (void)
{
  g_autoptr (TlPack) pack = parse (good, "van.xml");
  g_autoptr (TlStock) stock = lay (NULL, pack, NULL), over = NULL;
  g_autoptr (TlUsed) used = tl_used_new ();
  TlPart *copy = tl_part_copy (tl_stock_part (stock, "own-washer"));

  g_free (copy->size);
  copy->size = g_strdup ("as it was");
  g_ptr_array_add (used->parts, copy);
  over = tl_stock_overlay (stock, used);
  g_assert_cmpstr (tl_stock_part (over, "own-washer")->size, ==, "as it was");
  g_assert_nonnull (tl_stock_mark (over, "own-washer", NULL));
  g_assert_true (tl_stock_pack_of (over, "own-washer") == pack);
  g_assert_cmpuint (tl_stock_parts (over)->len, ==, tl_stock_parts (stock)->len);
}

/* --- conflicts: the earlier row stays, and both places are told --- */

static void
test_conflict_with_system (void)
{
  g_autoptr (TlPack) pack =
      parse (HEAD "<part id=\"washer-plain-m5-steel\" kind=\"plain-washer\">\n"
                  "<fact field=\"outer\" value=\"99\" unit=\"mm\"/>\n</part>\n"
                  "<material id=\"copper\" name=\"gold\" kind=\"metal\" look=\"brass\"/>\n"
                  "<source id=\"iso-7089\" kind=\"page\" title=\"Hearsay\"/>\n"
                  "<part id=\"own-nut\" kind=\"nut\"/>\n</pack>",
             "van.xml");
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (TlStock) stock = lay (problems, pack, NULL);
  static const char *const starts[] = { "van.xml:6: ", "van.xml:5: ", "van.xml:2: " };

  g_assert_cmpuint (problems->len, ==, G_N_ELEMENTS (starts));
  for (guint i = 0; i < problems->len; i++)
    {
      const TlPackProblem *problem = problem_at (problems, i);

      g_assert_cmpint (problem->trouble, ==, TL_PACK_CONFLICT);
      g_assert_true (g_str_has_prefix (problem->message, starts[i]));
      g_assert_nonnull (strstr (problem->message, "the system's stays"));
    }
  g_assert_true (tl_stock_part (stock, "washer-plain-m5-steel")
                 == tl_stock_part (system_stock, "washer-plain-m5-steel"));
  g_assert_true (tl_stock_material (stock, "copper") == tl_stock_material (system_stock, "copper"));
  g_assert_true (tl_stock_source (stock, "iso-7089") == tl_stock_source (system_stock, "iso-7089"));
  g_assert_null (tl_stock_pack_of (stock, "washer-plain-m5-steel"));
  g_assert_nonnull (tl_stock_part (stock, "own-nut"));
}

static void
test_conflict_between_packs (void)
{
  g_autoptr (TlPack) first =
      parse (PART ("<fact field=\"height\" value=\"4\" unit=\"mm\"/>"), "first.xml");
  g_autoptr (TlPack) second =
      parse (HEAD "<mark part=\"own-nut\" price=\"1\"/>\n<part id=\"own-nut\" "
                  "kind=\"nut\"/>\n<minutes step=\"press\" value=\"1\"/></pack>",
             "second.xml");
  g_autoptr (TlPack) third =
      parse (HEAD "<mark part=\"own-nut\" price=\"2\"/>\n</pack>", "third.xml");
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (TlStock) stock = lay (problems, first, second, third, NULL);

  g_assert_cmpuint (problems->len, ==, 2);
  g_assert_true (g_str_has_prefix (problem_at (problems, 0)->message, "second.xml:3: "));
  g_assert_nonnull (strstr (problem_at (problems, 0)->message, "first.xml:2"));
  g_assert_cmpstr (problem_at (problems, 0)->id, ==, "own-nut");
  g_assert_true (g_str_has_prefix (problem_at (problems, 1)->message, "third.xml:2: "));
  g_assert_true (tl_stock_pack_of (stock, "own-nut") == first);
  g_assert_cmpfloat (
      tl_facts_number (tl_stock_part (stock, "own-nut")->facts, TL_FIELD_HEIGHT, 0.0), ==, 4.0);
  g_assert_cmpfloat (tl_stock_mark (stock, "own-nut", NULL)->price, ==, 1.0);
}

/* A mark may stand in an earlier pack than its part; a material may not. */
static void
test_order (void)
{
  g_autoptr (TlPack) early =
      parse (HEAD "<mark part=\"own-washer\" in-van=\"yes\"/>\n"
                  "<part id=\"own-disc\" kind=\"plain-washer\">\n"
                  "<fact field=\"material\" value=\"own-bronze\"/></part></pack>",
             "early.xml");
  g_autoptr (TlPack) late = parse (good, "late.xml");
  g_autoptr (GPtrArray) problems = tl_pack_problems_new (), turned = tl_pack_problems_new ();
  g_autoptr (TlStock) stock = lay (problems, early, late, NULL);
  g_autoptr (TlStock) other = lay (turned, late, early, NULL);

  g_assert_null (tl_stock_part (stock, "own-disc"));
  g_assert_true (tl_stock_mark (stock, "own-washer", NULL)->in_van);
  g_assert_cmpuint (problems->len, ==, 2);
  g_assert_cmpint (problem_at (problems, 0)->trouble, ==, TL_PACK_MISSING);
  g_assert_true (g_str_has_prefix (problem_at (problems, 0)->message, "early.xml:3: "));
  g_assert_nonnull (tl_stock_part (other, "own-disc"));
}

static void
test_missing (void)
{
  g_autoptr (TlPack) pack = parse (
      HEAD "<part id=\"own-a\" kind=\"nut\"><fact field=\"material\" value=\"mithril\"/></part>\n"
           "<part id=\"own-b\" kind=\"nut\"><fact field=\"height\" value=\"4\" unit=\"mm\" "
           "known-by=\"seen\" "
           "source=\"rumour\"/></part>\n"
           "<mark part=\"nowhere\" in-van=\"yes\"/>\n</pack>",
      "van.xml");
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (TlStock) stock = lay (problems, pack, NULL);
  static const char *const names[] = { "“mithril”", "“rumour”", "“nowhere”" };

  g_assert_cmpuint (tl_pack_problems (pack)->len, ==, 0);
  g_assert_cmpuint (problems->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *start = g_strdup_printf ("van.xml:%u: ", i + 2);

      g_assert_cmpint (problem_at (problems, i)->trouble, ==, TL_PACK_MISSING);
      g_assert_true (g_str_has_prefix (problem_at (problems, i)->message, start));
      g_assert_nonnull (strstr (problem_at (problems, i)->message, names[i]));
    }
  g_assert_cmpuint (tl_stock_parts (stock)->len, ==, tl_stock_parts (system_stock)->len);
}

/* --- hostile packs: one clear message with its line, and the rest of the pack works --- */

typedef struct
{
  const char *name;
  const char *text;
  guint       line;
  const char *names; /* what the message must name */
} Hostile;

/* Each has one bad element; "<part id="rest" .../>" after it must be read. */
#define REST "\n<part id=\"rest\" kind=\"nut\"/>\n</pack>\n"
#define BAD_FACT(text) HEAD "<part id=\"own-nut\" kind=\"nut\">\n" text "\n</part>" REST

static const Hostile hostile[] = {
  { "duplicate", HEAD "<part id=\"a\" kind=\"nut\"/>\n<part id=\"a\" kind=\"bolt\"/>" REST, 3,
    "line 2" },
  { "duplicate-mark",
    HEAD "<mark part=\"rest\" price=\"1\"/>\n<mark part=\"rest\" price=\"2\"/>" REST, 3, "line 2" },
  { "missing-unit", BAD_FACT ("<fact field=\"height\" value=\"4\"/>"), 3, "unit=\"mm\"" },
  { "wrong-unit", BAD_FACT ("<fact field=\"height\" value=\"4\" unit=\"kg\"/>"), 3, "height" },
  { "not-a-number", BAD_FACT ("<fact field=\"height\" value=\"four\" unit=\"mm\"/>"), 3, "four" },
  { "not-finite", BAD_FACT ("<fact field=\"height\" value=\"nan\" unit=\"mm\"/>"), 3, "height" },
  { "huge", BAD_FACT ("<fact field=\"height\" value=\"1e300\" unit=\"mm\"/>"), 3, "height" },
  { "negative", BAD_FACT ("<fact field=\"height\" value=\"-4\" unit=\"mm\"/>"), 3, "height" },
  { "impossible-size",
    BAD_FACT ("<fact field=\"bore\" value=\"10\" unit=\"mm\"/>\n<fact field=\"outer\" value=\"9\" "
              "unit=\"mm\"/>"),
    2, "“bore”" },
  { "strand-thicker-than-wire",
    HEAD "<part id=\"c\" kind=\"conductor\">\n<fact field=\"strand-diameter\" value=\"2\" "
         "unit=\"mm\"/>\n"
         "<fact field=\"metal-diameter\" value=\"1\" unit=\"mm\"/></part>" REST,
    2, "“strand-diameter”" },
  { "names-itself",
    HEAD "<part id=\"own-a\" kind=\"nut\"><fact field=\"material\" value=\"own-a\"/></part>" REST,
    2, "names itself" },
  { "material-of-material",
    HEAD "<material id=\"a\" name=\"a\" kind=\"metal\" look=\"steel\"><fact field=\"coating\" "
         "value=\"b\"/></material>" REST,
    2, "“coating”" },
  { "table", HEAD "<table id=\"thresholds\" title=\"Limits\"/>" REST, 2, "system's alone" },
  { "other-element", HEAD "<gadget/>" REST, 2, "<gadget>" },
  { "other-namespace", HEAD "<part xmlns=\"urn:other\" id=\"a\" kind=\"nut\"/>" REST, 2, "<part>" },
  { "unknown-kind", HEAD "<part id=\"a\" kind=\"rivet\"/>" REST, 2, "“rivet”" },
  { "unknown-field", BAD_FACT ("<fact field=\"heigth\" value=\"4\" unit=\"mm\"/>"), 3, "“heigth”" },
  { "bad-id", HEAD "<part id=\"Nut 1\" kind=\"nut\"/>" REST, 2, "“Nut 1”" },
  { "no-id", HEAD "<part kind=\"nut\"/>" REST, 2, "“id”" },
  { "seen-without-source",
    BAD_FACT ("<fact field=\"height\" value=\"4\" unit=\"mm\" known-by=\"seen\"/>"), 3,
    "names no source" },
  { "known-by-stock",
    BAD_FACT ("<fact field=\"height\" value=\"4\" unit=\"mm\" known-by=\"stock\"/>"), 3,
    "“stock”" },
  { "price-below-zero", HEAD "<mark part=\"rest\" price=\"-1\"/>" REST, 2, "“price”" },
  { "price-in-words", HEAD "<mark part=\"rest\" price=\"cheap\"/>" REST, 2, "cheap" },
  { "in-the-van-perhaps", HEAD "<mark part=\"rest\" in-van=\"perhaps\"/>" REST, 2, "perhaps" },
  { "per-dozen", HEAD "<mark part=\"rest\" price=\"1\" per=\"dozen\"/>" REST, 2, "dozen" },
  { "minutes-falling", HEAD "<minutes step=\"press\" value=\"2\" low=\"3\"/>" REST, 2, "low 3" },
  { "minutes-without-end", HEAD "<minutes step=\"press\" value=\"1e9\"/>" REST, 2, "1e+09" },
  { "unknown-attribute", HEAD "<part id=\"a\" kind=\"nut\" colour=\"red\"/>" REST, 2, "“colour”" },
};

static void
test_hostile (gconstpointer data)
{
  const Hostile *c = data;
  g_autoptr (TlPack) pack = parse (c->text, "bad.xml");
  g_autofree char     *start = g_strdup_printf ("bad.xml:%u: ", c->line);
  const TlPackProblem *problem = problem_at (tl_pack_problems (pack), 0);
  g_autoptr (TlStock) stock = lay (NULL, pack, NULL);

  g_test_message ("%s", problem->message);
  g_assert_cmpuint (tl_pack_problems (pack)->len, ==, 1);
  g_assert_cmpint (problem->trouble, ==, TL_PACK_REFUSED);
  g_assert_cmpuint (problem->line, ==, c->line);
  g_assert_true (g_str_has_prefix (problem->message, start));
  g_assert_nonnull (strstr (problem->message, c->names));
  g_assert_null (strchr (problem->message, '\n'));
  g_assert_nonnull (tl_stock_part (stock, "rest"));
}

static const Hostile unreadable[] = {
  { "empty", "", 0, "" },
  { "cut-off", HEAD "<part id=\"a\" kind=\"nut\">\n", 0, "" },
  { "a-stock-file", "<stock xmlns=\"urn:tinlap:stock:1\" version=\"1\"/>", 1, "<pack" },
  { "other-namespace", "<pack xmlns=\"urn:other\" format=\"1\" name=\"a\"/>", 1, "“urn:other”" },
  { "no-format", "<pack xmlns=\"urn:tinlap:stock:1\" name=\"a\"/>", 1, "“format”" },
  { "newer-format", "<pack xmlns=\"urn:tinlap:stock:1\" format=\"2\" name=\"a\"/>", 1, "“2”" },
  { "no-name", "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\"/>", 1, "“name”" },
  { "bad-currency",
    "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"a\" currency=\"euro\"/>", 1, "“euro”" },
  { "not-utf8", HEAD "<part id=\"a\" kind=\"nut\" size=\"caf\xe9 au lait\"/></pack>", 2, "" },
  { "unknown-encoding", "<?xml version=\"1.0\" encoding=\"klingon\"?>\n" HEAD "</pack>", 1, "" },
  { "entity",
    "<!DOCTYPE pack [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>\n<pack "
    "xmlns=\"urn:tinlap:stock:1\" "
    "format=\"1\" name=\"a\">&a;</pack>",
    1, "" },
};

static void
test_unreadable (gconstpointer data)
{
  const Hostile   *c = data;
  g_autofree char *start =
      c->line > 0 ? g_strdup_printf ("bad.xml:%u: ", c->line) : g_strdup ("bad.xml:");
  g_autoptr (GError) error = NULL;
  g_autoptr (TlPack) pack = tl_pack_parse (c->text, strlen (c->text), "bad.xml", &error);

  g_assert_null (pack);
  g_assert_nonnull (error);
  g_assert_true (error->domain == TL_ERROR);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, start));
  g_assert_nonnull (strstr (error->message, c->names));
  g_assert_null (strchr (error->message, '\n'));
}

/* A declared encoding other than UTF-8 is read as what it is. */
static void
test_latin1 (void)
{
  g_autoptr (TlPack) pack = parse ("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>\n" HEAD
                                   "<part id=\"a\" kind=\"nut\" size=\"\xd8 5\"/></pack>",
                                   "latin.xml");

  g_assert_cmpstr (tl_pack_part (pack, "a")->size, ==, "Ø 5");
}

static char *
make_file (const char *text, gsize length)
{
  g_autoptr (GError) error = NULL;
  char *path = NULL;
  int   handle = g_file_open_tmp ("pack-XXXXXX.xml", &path, &error);

  g_assert_no_error (error);
  g_assert_true (g_close (handle, NULL));
  g_assert_true (g_file_set_contents (path, text, (gssize) length, NULL));
  return path;
}

/* One file is gone, one is no pack: both are told, the third works. */
static void
test_load_several (void)
{
  g_autofree char  *bad = make_file ("nonsense", 8), *fine = make_file (good, strlen (good));
  const char *const paths[] = { "/nowhere/van.xml", bad, fine, NULL };
  g_autoptr (GPtrArray) problems = tl_pack_problems_new (), packs = NULL;
  g_autoptr (TlStock) stock = tl_stock_load_packs (system_stock, paths, &packs, problems);

  g_assert_cmpuint (packs->len, ==, 1);
  g_assert_cmpuint (problems->len, ==, 2);
  g_assert_cmpint (problem_at (problems, 0)->trouble, ==, TL_PACK_UNREADABLE);
  g_assert_nonnull (strstr (problem_at (problems, 0)->message, "/nowhere/van.xml"));
  g_assert_nonnull (strstr (problem_at (problems, 1)->message, bad));
  g_assert_nonnull (tl_stock_part (stock, "own-washer"));
  g_assert_cmpint (g_unlink (bad), ==, 0);
  g_assert_cmpint (g_unlink (fine), ==, 0);
}

/* 100,000 parts are read and found; 100,000 bad ones give a hundred messages and a count. */
static void
test_many (void)
{
  g_autoptr (GString) text = g_string_new (HEAD), bad = g_string_new (HEAD);
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (TlPack) pack = NULL, wrong = NULL;
  g_autoptr (TlStock) stock = NULL;
  const TlPackProblem *last;

  for (guint i = 0; i < 100000; i++)
    {
      g_string_append_printf (text,
                              "<part id=\"p-%u\" kind=\"nut\"><fact field=\"height\" value=\"4\" "
                              "unit=\"mm\"/></part>\n",
                              i);
      g_string_append (bad, "<part id=\"washer-plain-m5-steel\" kind=\"nut\"/>\n");
    }
  g_string_append (text, "</pack>");
  g_string_append (bad, "</pack>");
  pack = parse (text->str, "many.xml");
  wrong = parse (bad->str, "bad.xml");
  g_assert_cmpuint (tl_pack_problems (pack)->len, ==, 0);
  g_assert_cmpuint (tl_pack_problems (wrong)->len, ==, TL_PACK_MAX_PROBLEMS + 1);
  last = problem_at (tl_pack_problems (wrong), TL_PACK_MAX_PROBLEMS);
  g_assert_nonnull (strstr (last->message, "99899 more"));
  stock = lay (problems, pack, wrong, NULL);
  g_assert_cmpuint (problems->len, ==, 1);
  g_assert_nonnull (tl_stock_part (stock, "p-99999"));
  g_assert_cmpuint (tl_stock_parts (stock)->len, ==, tl_stock_parts (system_stock)->len + 100000);
}

/* --- saving --- */

static void
test_round_trip (void)
{
  g_autoptr (TlPack) pack = parse (good, "van.xml"), back = NULL;
  g_autofree char *text = tl_pack_to_text (pack, NULL), *again = NULL;

  back = parse (text, "van.xml");
  again = tl_pack_to_text (back, NULL);
  g_assert_cmpstr (text, ==, again);
  g_assert_true (tl_pack_equal (pack, back));
  g_assert_true (tl_facts_equal (tl_pack_part (pack, "own-washer")->facts,
                                 tl_pack_part (back, "own-washer")->facts));
  g_assert_cmpuint (tl_pack_problems (back)->len, ==, 0);
}

/* What could not be read is in the file again, until the person drops it. */
static void
test_nothing_lost (void)
{
  g_autoptr (TlPack) pack =
      parse (HEAD "<gadget colour=\"red\"><inner>text</inner></gadget>" REST, "a.xml"),
                     dropped = NULL;
  g_autofree char *text = tl_pack_to_text (pack, NULL), *clean = NULL;

  g_assert_nonnull (strstr (text, "<gadget colour=\"red\">"));
  g_assert_nonnull (strstr (text, "<inner>text</inner>"));
  dropped = tl_pack_without_refused (pack);
  clean = tl_pack_to_text (dropped, NULL);
  g_assert_null (strstr (clean, "gadget"));
  g_assert_cmpuint (tl_pack_problems (dropped)->len, ==, 0);
  g_assert_cmpuint (tl_pack_problems (pack)->len, ==, 1);
}

static void
test_save (void)
{
  g_autofree char *folder = g_dir_make_tmp ("packs-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "van.xml", NULL);
  g_autoptr (TlPack) pack = parse (good, "van.xml"), back = NULL;
  g_autoptr (GError) error = NULL, refused = NULL;

  g_assert_true (tl_pack_save (pack, path, &error));
  g_assert_no_error (error);
  back = tl_pack_load (path, &error);
  g_assert_no_error (error);
  g_assert_true (tl_pack_equal (pack, back));
  g_assert_cmpstr (tl_pack_file (back), ==, path);
  g_assert_false (tl_pack_save (pack, folder, &refused));
  g_assert_error (refused, TL_ERROR, TL_ERROR_FILE);
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

/* The schema for other tools agrees with what is written and with what is refused. */
static void
test_schema (void)
{
  g_autofree char *path =
      g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "schema", "stock.rng", NULL);
  g_autofree char *schema = NULL, *text = NULL;
  g_autoptr (TlPack) pack = parse (good, "van.xml");
  g_autoptr (GError) error = NULL, refused = NULL;
  const char table[] = HEAD "<table id=\"t\" title=\"T\"><column key=\"a\"/></table></pack>";
  gsize      length, schema_length;

  g_assert_true (g_file_get_contents (path, &schema, &schema_length, NULL));
  text = tl_pack_to_text (pack, &length);
  g_assert_true (tl_xml_validate (text, length, "van.xml", schema, schema_length, &error));
  g_assert_no_error (error);
  g_assert_true (tl_xml_validate (good, strlen (good), "good.xml", schema, schema_length, &error));
  g_assert_false (
      tl_xml_validate (table, strlen (table), "table.xml", schema, schema_length, &refused));
}

/* --- edits --- */

static TlPart *
washer (const char *id, double outer_mm, double bore_mm)
{
  TlPart *part = g_new0 (TlPart, 1);
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_autoptr (TlFacts) one =
      tl_facts_with_number (none, TL_FIELD_OUTER, outer_mm, TL_KNOWN_MEASURED);

  part->id = g_strdup (id);
  part->kind = TL_PART_PLAIN_WASHER;
  part->size = g_strdup ("M5");
  part->facts = tl_facts_with_number (one, TL_FIELD_BORE, bore_mm, TL_KNOWN_MEASURED);
  return part;
}

static void
test_edit_parts (void)
{
  g_autoptr (TlPack) empty = tl_pack_new ("Own"), added = NULL, changed = NULL, renamed = NULL,
                     removed = NULL, marked = NULL;
  g_autoptr (GError) error = NULL;
  TlPart *part = washer ("own-a", 12.0, 5.3), *wider = washer ("own-a", 15.0, 5.3),
         *other = washer ("own-b", 15.0, 5.3);
  TlPackMark mark = { .part = (char *) "own-a", .in_van = TRUE };

  added = tl_pack_add_part (empty, part, &error);
  g_assert_no_error (error);
  g_assert_null (tl_pack_part (empty, "own-a"));
  marked = tl_pack_set_mark (added, &mark, &error);
  changed = tl_pack_change_part (marked, "own-a", wider, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat (tl_facts_number (tl_pack_part (added, "own-a")->facts, TL_FIELD_OUTER, 0.0),
                     ==, 12.0);
  g_assert_cmpfloat (tl_facts_number (tl_pack_part (changed, "own-a")->facts, TL_FIELD_OUTER, 0.0),
                     ==, 15.0);
  renamed = tl_pack_change_part (changed, "own-a", other, &error);
  g_assert_no_error (error);
  g_assert_null (tl_pack_part (renamed, "own-a"));
  g_assert_true (tl_pack_mark (renamed, "own-b")->in_van);
  g_assert_null (tl_pack_mark (renamed, "own-a"));
  removed = tl_pack_remove_part (renamed, "own-b", &error);
  g_assert_no_error (error);
  g_assert_null (tl_pack_part (removed, "own-b"));
  g_assert_null (tl_pack_mark (removed, "own-b"));
  g_assert_true (tl_pack_equal (removed, empty));
  tl_part_free (part);
  tl_part_free (wider);
  tl_part_free (other);
}

static void
test_edit_refused (void)
{
  g_autoptr (TlPack) empty = tl_pack_new ("Own"), pack = NULL;
  TlPart *part = washer ("own-a", 12.0, 5.3), *impossible = washer ("own-b", 5.0, 5.3),
         *bad_id = washer ("Own A", 12.0, 5.3);
  TlPart  *itself = washer ("own-c", 12.0, 5.3);
  TlFacts *facts = tl_facts_with_word (itself->facts, TL_FIELD_MATERIAL, "own-c", TL_KNOWN_STATED);
  const TlRange falling = { 3.0, 2.0, 4.0 };
  TlPackMark    mark = { .part = (char *) "own-a", .has_price = TRUE, .price = -1.0 };
  GError       *error = NULL;

  tl_facts_unref (itself->facts);
  itself->facts = facts;
  pack = tl_pack_add_part (empty, part, NULL);
#define REFUSED(call, code)                                                                        \
  g_assert_null (call);                                                                            \
  g_assert_error (error, TL_ERROR, code);                                                          \
  g_clear_error (&error)
  REFUSED (tl_pack_add_part (pack, part, &error), TL_ERROR_STATE);
  REFUSED (tl_pack_add_part (pack, impossible, &error), TL_ERROR_RANGE);
  REFUSED (tl_pack_add_part (pack, bad_id, &error), TL_ERROR_NAME);
  REFUSED (tl_pack_add_part (pack, itself, &error), TL_ERROR_NAME);
  REFUSED (tl_pack_change_part (pack, "own-z", part, &error), TL_ERROR_NAME);
  REFUSED (tl_pack_remove_part (pack, "own-z", &error), TL_ERROR_NAME);
  REFUSED (tl_pack_remove_material (pack, "own-z", &error), TL_ERROR_NAME);
  REFUSED (tl_pack_set_mark (pack, &mark, &error), TL_ERROR_RANGE);
  REFUSED (tl_pack_set_minutes (pack, "press", &falling, &error), TL_ERROR_RANGE);
  REFUSED (tl_pack_set_text (pack, "currency", "euro", &error), TL_ERROR_NAME);
  REFUSED (tl_pack_set_text (pack, "name", " ", &error), TL_ERROR_PARSE);
  REFUSED (tl_pack_set_text (pack, "colour", "red", &error), TL_ERROR_NAME);
#undef REFUSED
  tl_part_free (part);
  tl_part_free (impossible);
  tl_part_free (bad_id);
  tl_part_free (itself);
}

static void
test_edit_rest (void)
{
  g_autoptr (TlPack) pack = parse (good, "van.xml"), named = NULL, timed = NULL, unmarked = NULL,
                     untimed = NULL;
  g_autoptr (GError) error = NULL, in_use = NULL;
  TlPackMark       nothing = { .part = (char *) "own-washer" };
  const TlRange    five = tl_range_exact (5.0);
  g_autofree char *id = tl_pack_free_id (pack, system_stock, TL_PART_PLAIN_WASHER);

  g_assert_cmpstr (id, ==, "own-plain-washer-1");
  named = tl_pack_set_text (pack, "name", " Bus  ", &error);
  g_assert_cmpstr (tl_pack_name (named), ==, "Bus");
  timed = tl_pack_set_minutes (pack, "strip", &five, &error);
  g_assert_cmpfloat (tl_pack_minutes (timed, "strip")->minutes_min.best, ==, 5.0);
  untimed = tl_pack_set_minutes (timed, "strip", NULL, &error);
  g_assert_true (tl_pack_equal (untimed, pack));
  unmarked = tl_pack_set_mark (pack, &nothing, &error);
  g_assert_null (tl_pack_mark (unmarked, "own-washer"));
  g_assert_no_error (error);
  g_assert_null (tl_pack_remove_material (pack, "own-bronze", &in_use));
  g_assert_error (in_use, TL_ERROR, TL_ERROR_STATE);
}

/* Out of one pack with all it needs, into another; what differs is told and stays. */
static void
test_exchange (void)
{
  const char *const ids[] = { "own-washer", NULL };
  g_autoptr (TlPack) pack = parse (good, "van.xml"), out = NULL, fresh = tl_pack_new ("Bus"),
                     in = NULL, again = NULL, other = NULL;
  g_autoptr (TlPack) foreign = NULL;
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  g_autoptr (GError) error = NULL;
  TlPart *wider = washer ("own-washer", 15.0, 5.3);

  out = tl_pack_extract (pack, ids, "Export", &error);
  g_assert_no_error (error);
  g_assert_nonnull (tl_pack_material (out, "own-bronze"));
  g_assert_nonnull (tl_pack_mark (out, "own-washer"));
  g_assert_null (tl_pack_mark (out, "washer-plain-m5-steel"));

  in = tl_pack_import (fresh, out, problems);
  g_assert_cmpuint (problems->len, ==, 0);
  g_assert_cmpstr (tl_pack_currency (in), ==, "EUR");
  g_assert_nonnull (tl_pack_part (in, "own-washer"));
  again = tl_pack_import (in, pack, problems);
  g_assert_cmpuint (problems->len, ==, 0);
  g_assert_nonnull (tl_pack_mark (again, "washer-plain-m5-steel"));

  other = tl_pack_change_part (again, "own-washer", wider, &error);
  g_clear_pointer (&again, tl_pack_unref);
  again = tl_pack_import (other, pack, problems);
  g_assert_cmpuint (problems->len, ==, 1);
  g_assert_true (g_str_has_prefix (problem_at (problems, 0)->message, "van.xml:6: "));
  g_assert_cmpfloat (
      tl_facts_number (tl_pack_part (again, "own-washer")->facts, TL_FIELD_OUTER, 0.0), ==, 15.0);

  foreign = parse ("<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"US\" currency=\"USD\">"
                   "<mark part=\"nut-m5-steel\" in-van=\"yes\" price=\"3\"/></pack>",
                   "us.xml");
  g_clear_pointer (&again, tl_pack_unref);
  again = tl_pack_import (in, foreign, problems);
  g_assert_cmpuint (problems->len, ==, 2);
  g_assert_nonnull (strstr (problem_at (problems, 1)->message, "USD"));
  g_assert_true (tl_pack_mark (again, "nut-m5-steel")->in_van);
  g_assert_false (tl_pack_mark (again, "nut-m5-steel")->has_price);
  tl_part_free (wider);
}

/* --- told apart --- */

#define NAMED(name, rows)                                                                          \
  "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"" name "\">\n" rows "</pack>\n"
#define WASHER(id, outer)                                                                          \
  "<part id=\"" id "\" kind=\"plain-washer\" known-by=\"measured\">"                               \
  "<fact field=\"outer\" value=\"" outer "\" unit=\"mm\"/>"                                        \
  "<fact field=\"bore\" value=\"5.3\" unit=\"mm\"/>"                                               \
  "<fact field=\"thickness\" value=\"1.5\" unit=\"mm\"/>"                                          \
  "<fact field=\"material\" value=\"steel\"/></part>\n"

static void
assert_apart (const TlStock *stock, const char *id, const char *expected)
{
  const TlPart    *part = tl_stock_part (stock, id);
  g_autofree char *text = tl_part_told_apart (part, stock, tl_language_plain ());

  g_assert_cmpstr (text, ==, expected);
}

/* Of those that look the same only parts of one's own say more: their pack, or their id where that says nothing. */
static void
test_told_apart (void)
{
  g_autoptr (TlPack) van =
      parse (NAMED ("Van", WASHER ("van-a", "13.5") WASHER ("van-b", "14.5")), "van.xml");
  g_autoptr (TlPack) yard = parse (
      NAMED ("Yard", WASHER ("yard-a", "13.5") WASHER ("yard-b", "15.5") WASHER ("yard-c", "15.5")),
      "yard.xml");
  g_autoptr (TlPack) other = parse (NAMED ("Van", WASHER ("other-a", "14.5")), "other.xml");
  g_autoptr (TlPack) twin = tl_pack_new ("Mine");
  g_autoptr (TlPack) mine = NULL;
  g_autoptr (TlStock) two = lay (NULL, van, yard, NULL), three = lay (NULL, van, yard, other, NULL),
                      with_twin = NULL;
  TlPart *same = tl_part_copy (tl_stock_part (system_stock, "washer-plain-m5-steel"));

  assert_apart (two, "van-a", "Van");
  assert_apart (two, "yard-a", "Yard");
  assert_apart (two, "van-b", "");
  assert_apart (two, "yard-b", "yard-b");
  assert_apart (two, "yard-c", "yard-c");
  assert_apart (three, "van-b", "van-b");
  assert_apart (three, "other-a", "other-a");
  g_free (same->id);
  same->id = g_strdup ("own-washer");
  mine = tl_pack_add_part (twin, same, NULL);
  g_assert_nonnull (mine);
  with_twin = lay (NULL, mine, NULL);
  assert_apart (with_twin, "own-washer", "Mine");
  assert_apart (with_twin, "washer-plain-m5-steel", "");
  tl_part_free (same);
}

int
main (int argc, char **argv)
{
  g_autoptr (TlStock) stock = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  g_assert_nonnull (stock);
  system_stock = stock;
  g_test_add_func ("/pack/good", test_good);
  g_test_add_func ("/pack/behind-the-system", test_behind_the_system);
  g_test_add_func ("/pack/under-a-document", test_under_a_document);
  g_test_add_func ("/pack/conflict-with-system", test_conflict_with_system);
  g_test_add_func ("/pack/conflict-between-packs", test_conflict_between_packs);
  g_test_add_func ("/pack/order", test_order);
  g_test_add_func ("/pack/missing", test_missing);
  for (guint i = 0; i < G_N_ELEMENTS (hostile); i++)
    {
      g_autofree char *path = g_strconcat ("/pack/hostile/", hostile[i].name, NULL);

      g_test_add_data_func (path, &hostile[i], test_hostile);
    }
  for (guint i = 0; i < G_N_ELEMENTS (unreadable); i++)
    {
      g_autofree char *path = g_strconcat ("/pack/unreadable/", unreadable[i].name, NULL);

      g_test_add_data_func (path, &unreadable[i], test_unreadable);
    }
  g_test_add_func ("/pack/latin1", test_latin1);
  g_test_add_func ("/pack/load-several", test_load_several);
  g_test_add_func ("/pack/many", test_many);
  g_test_add_func ("/pack/round-trip", test_round_trip);
  g_test_add_func ("/pack/nothing-lost", test_nothing_lost);
  g_test_add_func ("/pack/save", test_save);
  g_test_add_func ("/pack/schema", test_schema);
  g_test_add_func ("/pack/edit-parts", test_edit_parts);
  g_test_add_func ("/pack/edit-refused", test_edit_refused);
  g_test_add_func ("/pack/edit-rest", test_edit_rest);
  g_test_add_func ("/pack/exchange", test_exchange);
  g_test_add_func ("/pack/told-apart", test_told_apart);
  result = g_test_run ();
  return result;
}
