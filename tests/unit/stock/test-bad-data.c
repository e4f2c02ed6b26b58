/* test-bad-data.c: a bad file of stock gets one clear line with file and line, and nothing is
 * loaded.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock.h"

#include <glib/gstdio.h>
#include <string.h>

#define HEAD "<stock xmlns=\"urn:tinlap:stock:1\">\n"
#define SOURCES                                                                                    \
  "<stock xmlns=\"urn:tinlap:stock:1\" version=\"test\">\n"                                        \
  "<source id=\"work\" kind=\"standard\" title=\"A work\"/>\n"                                     \
  "</stock>\n"
#define STEEL "<material id=\"steel\" name=\"steel\" kind=\"metal\" look=\"steel\"/>\n"
#define FACT(text)                                                                                 \
  HEAD "<part id=\"nut-x\" kind=\"nut\" source=\"work\" known-by=\"seen\">\n" text                 \
       "\n</part>\n</stock>\n"
#define TABLE(text)                                                                                \
  HEAD "<table id=\"thresholds\" title=\"Limits\">\n<column key=\"value\"/>\n<column "             \
       "key=\"unit\"/>\n" text "\n</table>\n</stock>\n"

typedef struct
{
  const char *name;
  const char *sources; /* (nullable): the good ones */
  const char *parts;   /* (nullable): none */
  const char *table;   /* (nullable): none */
  const char *place;   /* "file:line" that the message must open with, after the folder */
  const char *names;   /* what it must name */
} Case;

static const Case cases[] = {
  { "duplicate-part", NULL,
    HEAD "<part id=\"a\" kind=\"nut\"/>\n<part id=\"b\" kind=\"nut\"/>\n<part id=\"a\" "
         "kind=\"bolt\"/>\n</stock>",
    NULL, "stock/bad.xml:4: ", "“a”" },
  { "duplicate-material", NULL, HEAD STEEL STEEL "</stock>", NULL, "stock/bad.xml:3: ", "“steel”" },
  { "duplicate-row", NULL, NULL,
    TABLE ("<row id=\"a.b\" value=\"1\" unit=\"mm\" source=\"work\" known-by=\"seen\"/>\n"
           "<row id=\"a.b\" value=\"2\" unit=\"mm\" source=\"work\" known-by=\"seen\"/>"),
    "tables/bad.xml:6: ", "“a.b”" },
  { "duplicate-fact", NULL,
    FACT ("<fact field=\"height\" value=\"4\" unit=\"mm\"/>\n<fact field=\"height\" value=\"5\" "
          "unit=\"mm\"/>"),
    NULL, "stock/bad.xml:4: ", "“height”" },
  { "unknown-field", NULL, FACT ("<fact field=\"heigth\" value=\"4\" unit=\"mm\"/>"), NULL,
    "stock/bad.xml:3: ", "“heigth”" },
  { "missing-unit", NULL, FACT ("<fact field=\"height\" value=\"4\"/>"), NULL,
    "stock/bad.xml:3: ", "unit=\"mm\"" },
  { "wrong-unit", NULL, FACT ("<fact field=\"height\" value=\"4\" unit=\"kg\"/>"), NULL,
    "stock/bad.xml:3: ", "height" },
  { "not-a-number", NULL, FACT ("<fact field=\"height\" value=\"four\" unit=\"mm\"/>"), NULL,
    "stock/bad.xml:3: ", "four" },
  { "not-finite", NULL, FACT ("<fact field=\"height\" value=\"nan\" unit=\"mm\"/>"), NULL,
    "stock/bad.xml:3: ", "height" },
  { "out-of-range", NULL, FACT ("<fact field=\"height\" value=\"-4\" unit=\"mm\"/>"), NULL,
    "stock/bad.xml:3: ", "height" },
  { "band-reversed", NULL, FACT ("<fact field=\"height\" value=\"4\" low=\"5\" unit=\"mm\"/>"),
    NULL, "stock/bad.xml:3: ", "height" },
  { "unknown-word", NULL, FACT ("<fact field=\"property-class\" value=\"8.9\"/>"), NULL,
    "stock/bad.xml:3: ", "8.9" },
  { "impossible-size", NULL,
    FACT ("<fact field=\"bore\" value=\"10\" unit=\"mm\"/>\n<fact field=\"outer\" value=\"10\" "
          "unit=\"mm\"/>"),
    NULL, "stock/bad.xml:2: ", "“bore”" },
  { "bearing-beyond-flats", NULL,
    FACT ("<fact field=\"bearing-diameter\" value=\"9\" unit=\"mm\"/>\n"
          "<fact field=\"across-flats\" value=\"8\" unit=\"mm\"/>"),
    NULL, "stock/bad.xml:2: ", "“bearing-diameter”" },
  { "missing-source", NULL,
    HEAD "<part id=\"a\" kind=\"nut\">\n<fact field=\"height\" value=\"4\" unit=\"mm\" "
         "known-by=\"seen\"/>\n"
         "</part>\n</stock>",
    NULL, "stock/bad.xml:3: ", "source" },
  { "unknown-source", NULL,
    FACT ("<fact field=\"height\" value=\"4\" unit=\"mm\" source=\"rumour\"/>"), NULL,
    "stock/bad.xml:3: ", "“rumour”" },
  { "unknown-known-by", NULL,
    FACT ("<fact field=\"height\" value=\"4\" unit=\"mm\" known-by=\"measured\"/>"), NULL,
    "stock/bad.xml:3: ", "measured" },
  { "unknown-material", NULL, FACT ("<fact field=\"material\" value=\"mithril\"/>"), NULL,
    "stock/bad.xml:2: ", "“mithril”" },
  { "unknown-kind", NULL, HEAD "<part id=\"a\" kind=\"rivet\"/>\n</stock>", NULL,
    "stock/bad.xml:2: ", "“rivet”" },
  { "unknown-look", NULL,
    HEAD "<material id=\"a\" name=\"a\" kind=\"metal\" look=\"shiny\"/>\n</stock>", NULL,
    "stock/bad.xml:2: ", "“shiny”" },
  { "unknown-element", NULL, HEAD "<gadget id=\"a\"/>\n</stock>", NULL,
    "stock/bad.xml:2: ", "<gadget>" },
  { "unknown-attribute", NULL, HEAD "<part id=\"a\" kind=\"nut\" colour=\"red\"/>\n</stock>", NULL,
    "stock/bad.xml:2: ", "“colour”" },
  { "element-in-part", NULL, FACT ("<figure/>"), NULL, "stock/bad.xml:3: ", "<figure>" },
  { "bad-id", NULL, HEAD "<part id=\"Nut 1\" kind=\"nut\"/>\n</stock>", NULL,
    "stock/bad.xml:2: ", "“Nut 1”" },
  { "no-id", NULL, HEAD "<part kind=\"nut\"/>\n</stock>", NULL, "stock/bad.xml:2: ", "“id”" },
  { "bad-open", NULL, HEAD "<part id=\"a\" kind=\"nut\" open=\"perhaps\"/>\n</stock>", NULL,
    "stock/bad.xml:2: ", "“perhaps”" },
  { "other-namespace", NULL, "<stock xmlns=\"urn:other\"/>\n", NULL,
    "stock/bad.xml:1: ", "“urn:other”" },
  { "limit-without-unit", NULL, NULL,
    TABLE ("<row id=\"a.b\" value=\"1\" source=\"work\" known-by=\"seen\"/>"),
    "tables/bad.xml:5: ", "“a.b”" },
  { "limit-not-a-number", NULL, NULL,
    TABLE ("<row id=\"a.b\" value=\"some\" unit=\"mm\" source=\"work\" known-by=\"seen\"/>"),
    "tables/bad.xml:5: ", "some" },
  { "unknown-column", NULL, NULL,
    TABLE (
        "<row id=\"a.b\" value=\"1\" unit=\"mm\" limit=\"2\" source=\"work\" known-by=\"seen\"/>"),
    "tables/bad.xml:5: ", "“limit”" },
  { "unknown-practice", NULL, NULL,
    TABLE ("<row id=\"a.b\" practice=\"folk\" value=\"1\" unit=\"mm\" source=\"work\" "
           "known-by=\"seen\"/>"),
    "tables/bad.xml:5: ", "“folk”" },
  { "cell-not-a-number", NULL, NULL,
    HEAD "<table id=\"t\" title=\"T\">\n<column key=\"length\" unit=\"mm\"/>\n"
         "<row id=\"a\" length=\"long\" source=\"work\" known-by=\"seen\"/>\n</table>\n</stock>",
    "tables/bad.xml:4: ", "long" },
  { "column-with-unknown-unit", NULL, NULL,
    HEAD
    "<table id=\"t\" title=\"T\">\n<column key=\"length\" unit=\"cubit\"/>\n</table>\n</stock>",
    "tables/bad.xml:3: ", "“cubit”" },
  { "no-column", NULL, NULL, HEAD "<table id=\"t\" title=\"T\"/>\n</stock>",
    "tables/bad.xml:2: ", "“t”" },
  { "unknown-source-kind",
    "<stock xmlns=\"urn:tinlap:stock:1\" version=\"1\">\n<source id=\"a\" kind=\"rumour\" "
    "title=\"A\"/>\n</stock>",
    NULL, NULL, "sources.xml:2: ", "“rumour”" },
  { "cut-off", NULL, HEAD "<part id=\"a\" kind=\"nut\">\n", NULL, "stock/bad.xml:", "" },
  { "entity", NULL,
    "<!DOCTYPE stock [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>\n<stock "
    "xmlns=\"urn:tinlap:stock:1\">&a;</stock>",
    NULL, "stock/bad.xml:1: ", "" },
};

static void
write_file (const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_folder (path);
      else
        g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

/* A folder laid out like data/, with the given files; (transfer full) */
static char *
make_folder (const char *sources, const char *parts, const char *table)
{
  char            *folder = g_dir_make_tmp ("stock-XXXXXX", NULL);
  g_autofree char *stock = g_build_filename (folder, "stock", NULL);
  g_autofree char *tables = g_build_filename (folder, "tables", NULL);

  g_assert_cmpint (g_mkdir (stock, 0700), ==, 0);
  g_assert_cmpint (g_mkdir (tables, 0700), ==, 0);
  write_file (folder, "sources.xml", sources != NULL ? sources : SOURCES);
  if (parts != NULL)
    write_file (stock, "bad.xml", parts);
  if (table != NULL)
    write_file (tables, "bad.xml", table);
  return folder;
}

static void
test_bad (gconstpointer data)
{
  const Case      *c = data;
  g_autofree char *folder = make_folder (c->sources, c->parts, c->table);
  g_autofree char *start = g_strconcat (folder, "/", c->place, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (folder, &error);

  remove_folder (folder);
  g_assert_null (stock);
  g_assert_nonnull (error);
  g_assert_true (error->domain == TL_ERROR);
  g_test_message ("%s", error->message);
  if (!g_str_has_prefix (error->message, start) || strstr (error->message, c->names) == NULL)
    g_error ("the message should open with %s and name %s: %s", start, c->names, error->message);
  g_assert_null (strchr (error->message, '\n'));
}

static void
test_good (void)
{
  g_autofree char *folder = make_folder (
      NULL, FACT ("<fact field=\"height\" value=\"0.4\" unit=\"cm\" high=\"0.5\"/>"),
      TABLE ("<row id=\"a.b\" value=\"1\" unit=\"mm\" source=\"work\" known-by=\"seen\"/>"));
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (folder, &error);
  const TlFact *fact;

  remove_folder (folder);
  g_assert_no_error (error);
  g_assert_cmpstr (tl_stock_version (stock), ==, "test");
  fact = tl_facts_get (tl_stock_part (stock, "nut-x")->facts, TL_FIELD_HEIGHT);
  g_assert_cmpfloat_with_epsilon (fact->value.best, 4.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (fact->value.high, 5.0, 1e-12);
  g_assert_cmpstr (fact->source, ==, "work");
}

static void
test_missing_folder (void)
{
  g_autofree char *folder = make_folder (NULL, NULL, NULL);
  g_autofree char *tables = g_build_filename (folder, "tables", NULL);
  g_autoptr (GError) error = NULL, other = NULL;

  g_assert_cmpint (g_rmdir (tables), ==, 0);
  g_assert_null (tl_stock_load (folder, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, tables));
  remove_folder (folder);

  g_assert_null (tl_stock_load (folder, &other));
  g_assert_error (other, TL_ERROR, TL_ERROR_FILE);
}

static void
test_no_version (void)
{
  g_autofree char *folder = make_folder (HEAD "</stock>", NULL, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (tl_stock_load (folder, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_VERSION);
  remove_folder (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/stock/bad-data/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_bad);
    }
  g_test_add_func ("/stock/bad-data/good", test_good);
  g_test_add_func ("/stock/bad-data/missing-folder", test_missing_folder);
  g_test_add_func ("/stock/bad-data/no-version", test_no_version);
  return g_test_run ();
}
