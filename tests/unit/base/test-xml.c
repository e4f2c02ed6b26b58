/* test-xml.c: trees read, trees written, messages with the right line. Hostile files:
 * tests/hostile.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/xml.h"

#include <glib/gstdio.h>
#include <string.h>

static TlXmlDocument *
parse (const char *text, GError **error)
{
  return tl_xml_parse (text, strlen (text), "a.tinlap", &tl_xml_caps_joint, error);
}

static void
test_tree (void)
{
  static const char text[] =
      "<?xml version=\"1.0\"?>\n"
      "<joint xmlns=\"urn:x\" format=\"1\">\n"
      "  <!-- not kept -->\n"
      "  <note\n    by='a &amp; b &lt; &quot;c&#34; &#233;'>  one &amp;\n two  "
      "</note>\n"
      "  <layer><![CDATA[a < b]]></layer>\n"
      "  <o:extra xmlns:o=\"urn:o\" o:kind=\"k\" xml:lang=\"de\"/>\n"
      "</joint>\n";
  g_autoptr (GError) error = NULL;
  g_autoptr (TlXmlDocument) document = parse (text, &error);
  const TlXmlNode *note;
  const TlXmlNode *extra;

  g_assert_no_error (error);
  g_assert_cmpstr (document->root->name, ==, "joint");
  g_assert_cmpstr (document->root->ns, ==, "urn:x");
  g_assert_cmpuint (document->root->line, ==, 2);
  g_assert_cmpstr (document->root->text, ==, "");
  g_assert_cmpstr (tl_xml_attribute (document->root, "format"), ==, "1");
  g_assert_null (tl_xml_attribute (document->root, "xmlns"));
  g_assert_null (tl_xml_attribute (document->root, "minor"));
  g_assert_cmpuint (document->root->children->len, ==, 3);

  note = g_ptr_array_index (document->root->children, 0);
  g_assert_cmpuint (note->line, ==, 4);
  g_assert_cmpstr (note->text, ==, "one &\n two");
  g_assert_cmpstr (tl_xml_attribute (note, "by"), ==, "a & b < \"c\" é");

  g_assert_cmpstr (((TlXmlNode *) g_ptr_array_index (document->root->children, 1))->text, ==,
                   "a < b");

  extra = g_ptr_array_index (document->root->children, 2);
  g_assert_cmpstr (extra->ns, ==, "urn:o");
  g_assert_cmpstr (tl_xml_attribute (extra, "{urn:o}kind"), ==, "k");
  g_assert_cmpstr (tl_xml_attribute (extra, "xml:lang"), ==, "de");
}

static void
test_error_place (void)
{
  g_autoptr (TlXmlDocument) document = parse ("<a>\n<b/>\n</a>", NULL);
  g_autoptr (GError) error = NULL;

  tl_xml_error (&error, document, g_ptr_array_index (document->root->children, 0), TL_ERROR_NAME,
                "“%s” is unknown; it must be one of: c, d.", "b");
  g_assert_error (error, TL_ERROR, TL_ERROR_NAME);
  g_assert_cmpstr (error->message, ==, "a.tinlap:2: “b” is unknown; it must be one of: c, d.");
  g_clear_error (&error);
  tl_xml_error (&error, document, NULL, TL_ERROR_VERSION, "format 2 is newer; 1 is read.");
  g_assert_cmpstr (error->message, ==, "a.tinlap: format 2 is newer; 1 is read.");
}

static void
test_writer (void)
{
  g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();
  gsize            length;
  g_autofree char *text = NULL;

  tl_xml_writer_open (writer, "joint");
  tl_xml_writer_attribute (writer, "xmlns", "urn:x");
  tl_xml_writer_attribute (writer, "name", "a <\"&> b\n");
  tl_xml_writer_attribute (writer, "left-out", NULL);
  tl_xml_writer_open (writer, "fact");
  tl_xml_writer_number (writer, "value", 2.5);
  tl_xml_writer_close (writer);
  tl_xml_writer_open (writer, "note");
  tl_xml_writer_text (writer, "x < y & z");
  tl_xml_writer_close (writer);
  tl_xml_writer_open (writer, "empty");
  text = tl_xml_writer_finish (writer, &length);

  g_assert_cmpstr (text, ==,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                   "<joint xmlns=\"urn:x\" name=\"a &lt;&quot;&amp;&gt; b&#10;\">\n"
                   "  <fact value=\"2.5\"/>\n"
                   "  <note>x &lt; y &amp; z</note>\n"
                   "  <empty/>\n"
                   "</joint>\n");
  g_assert_cmpuint (length, ==, strlen (text));
}

static gboolean
nodes_equal (const TlXmlNode *a, const TlXmlNode *b)
{
  if (strcmp (a->name, b->name) != 0 || strcmp (a->ns, b->ns) != 0 || strcmp (a->text, b->text) != 0
      || !g_strv_equal ((const char *const *) a->attributes, (const char *const *) b->attributes)
      || a->children->len != b->children->len)
    return FALSE;
  for (guint i = 0; i < a->children->len; i++)
    if (!nodes_equal (g_ptr_array_index (a->children, i), g_ptr_array_index (b->children, i)))
      return FALSE;
  return TRUE;
}

/* A foreign element is written back so that it reads the same, inside our own namespace. */
static void
test_foreign (void)
{
  static const char text[] =
      "<joint xmlns=\"urn:x\"><f:a xmlns:f=\"urn:f\" f:k=\"&amp;#38;\" j=\"&#10;\">"
      "t<f:b/><c><f:d>u</f:d></c></f:a></joint>";
  g_autoptr (TlXmlDocument) before = parse (text, NULL);
  g_autoptr (TlXmlDocument) after = NULL;
  g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *written = NULL;
  TlXmlNode       *foreign = g_ptr_array_index (before->root->children, 0);
  TlXmlNode       *copy = tl_xml_node_copy (foreign);

  tl_xml_writer_open (writer, "joint");
  tl_xml_writer_attribute (writer, "xmlns", "urn:x");
  tl_xml_writer_node (writer, copy);
  tl_xml_node_free (copy);
  written = tl_xml_writer_finish (writer, NULL);
  after = parse (written, &error);
  g_assert_no_error (error);
  g_assert_true (nodes_equal (before->root, after->root));
  g_assert_cmpstr (tl_xml_attribute (foreign, "{urn:f}k"), ==, "&#38;");
}

/* No text that a person can paste makes a file that cannot be read again. */
static void
test_odd_text (void)
{
  static const char *const texts[] = { "\x01\x02", "\xff bad",  "]]>",   "a\rb",        "\u202ertl",
                                       "😀",        "<![CDATA[", "&amp;", "\xef\xbf\xbf" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();
      g_autoptr (TlXmlDocument) document = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *written = NULL;

      tl_xml_writer_open (writer, "note");
      tl_xml_writer_attribute (writer, "by", texts[i]);
      tl_xml_writer_text (writer, texts[i]);
      written = tl_xml_writer_finish (writer, NULL);
      document = parse (written, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (document->root->text, ==, tl_xml_attribute (document->root, "by"));
      if (i >= 2 && i < 8)
        g_assert_cmpstr (document->root->text, ==, texts[i]);
    }
}

static void
test_read_file (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.xml", NULL);
  g_autoptr (TlXmlDocument) document = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (tl_xml_read_file (path, &tl_xml_caps_joint, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_clear_error (&error);
  g_assert_true (g_file_set_contents (path, "<a><b/></a>", -1, NULL));
  document = tl_xml_read_file (path, &tl_xml_caps_joint, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (document->file, ==, path);
  g_unlink (path);
  g_rmdir (folder);
}

static const char schema[] =
    "<element name=\"a\" xmlns=\"http://relaxng.org/ns/structure/1.0\">"
    "<zeroOrMore><element name=\"b\"><empty/></element></zeroOrMore></element>";

static gboolean
validate (const char *text, GError **error)
{
  return tl_xml_validate (text, strlen (text), "a.xml", schema, sizeof schema - 1, error);
}

static void
test_validate (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (validate ("<a>\n<b/>\n<b/>\n</a>", &error));
  g_assert_no_error (error);
  g_assert_false (validate ("<a>\n<b/>\n<c/>\n</a>", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
  g_assert_true (g_str_has_prefix (error->message, "a.xml:3: "));
  g_clear_error (&error);
  g_assert_false (validate ("<a>", &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
  g_clear_error (&error);
  g_assert_false (tl_xml_validate ("<a/>", 4, "a.xml", "<nonsense/>", 11, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
  g_assert_true (g_str_has_prefix (error->message, "schema:"));
}

/* A text of another encoding says so; a character that XML forbids in good UTF-8 does not. */
static void
test_encoding (void)
{
  static const struct { const char *text; gboolean is_as_told; } rows[] = {
    { "<a>\nGr\xf6\xdf" "e</a>", FALSE },
    { "<?xml version='1.0' encoding='UTF-8'?><a>\nGr\xf6\xdf" "e</a>", FALSE },
    { "<a>\n\x01</a>", TRUE },
    { "<?xml version='1.0' encoding='ISO-8859-1'?><a>\xfc\n\x01</a>", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (parse (rows[i].text, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
      g_assert_true (g_str_has_prefix (error->message, "a.tinlap:2: "));
      g_assert_cmpint (strstr (error->message, "save the file as UTF-8") == NULL, ==, rows[i].is_as_told);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/xml/tree", test_tree);
  g_test_add_func ("/xml/error-place", test_error_place);
  g_test_add_func ("/xml/writer", test_writer);
  g_test_add_func ("/xml/foreign", test_foreign);
  g_test_add_func ("/xml/odd-text", test_odd_text);
  g_test_add_func ("/xml/read-file", test_read_file);
  g_test_add_func ("/xml/encoding", test_encoding);
  g_test_add_func ("/xml/validate", test_validate);
  return g_test_run ();
}
