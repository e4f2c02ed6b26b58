/* test-xml.c: XML that means harm, or that came broken. Each is refused with one line that names
 * file, line and what is wrong; nothing outside is touched.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/xml.h"

#include <glib/gstdio.h>
#include <string.h>

static TlXmlDocument *
parse (const char *data, gsize length, GError **error)
{
  return tl_xml_parse (data, length, "bad.tinlap", &tl_xml_caps_joint, error);
}

/* The message is one line and starts with the place. */
static void
assert_refused (const char *data, gsize length, int code, const char *place, const char *about)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlXmlDocument) document = parse (data, length, &error);

  g_assert_null (document);
  g_assert_error (error, TL_ERROR, code);
  g_assert_true (g_str_has_prefix (error->message, place));
  g_assert_nonnull (strstr (error->message, about));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_cmpuint (strlen (error->message), <, 600);
}

typedef struct
{
  const char *name;
  const char *text;
  int         code;
  const char *place;
  const char *about;
} Case;

static const Case cases[] = {
  { "entity-bomb",
    "<?xml version=\"1.0\"?>\n<!DOCTYPE a [\n<!ENTITY a \"aaaaaaaaaa\">\n"
    "<!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">\n<!ENTITY c "
    "\"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\">\n"
    "<!ENTITY d \"&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;\">\n<!ENTITY e "
    "\"&d;&d;&d;&d;&d;&d;&d;&d;&d;&d;\">\n"
    "]>\n<a k=\"&e;&e;&e;&e;\">&e;</a>\n",
    TL_ERROR_PARSE, "bad.tinlap:2: ", "DOCTYPE" },
  { "external-entity", "<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>\n<a>&x;</a>",
    TL_ERROR_PARSE, "bad.tinlap:1: ", "DOCTYPE" },
  { "external-subset", "\n<!DOCTYPE a SYSTEM \"http://127.0.0.1:1/a.dtd\">\n<a/>", TL_ERROR_PARSE,
    "bad.tinlap:2: ", "DOCTYPE" },
  { "parameter-entity", "<!DOCTYPE a [<!ENTITY % p SYSTEM \"file:///dev/zero\"> %p;]><a/>",
    TL_ERROR_PARSE, "bad.tinlap:1: ", "DOCTYPE" },
  { "bare-doctype", "<!DOCTYPE a><a/>", TL_ERROR_PARSE, "bad.tinlap:1: ", "DOCTYPE" },
  { "undeclared-entity", "<a>\n&x;</a>", TL_ERROR_PARSE, "bad.tinlap:2: ", "Entity 'x'" },
  { "entity-in-attribute", "<a>\n<b k=\"&x;\"/></a>", TL_ERROR_PARSE, "bad.tinlap:2: ", "Entity" },
  { "empty", "", TL_ERROR_PARSE, "bad.tinlap:1: ", "empty" },
  { "blank", "  \n ", TL_ERROR_PARSE, "bad.tinlap:", "XML" },
  { "no-xml", "%PDF-1.4\n", TL_ERROR_PARSE, "bad.tinlap:1: ", "XML" },
  { "cut", "<joint>\n<leg id=\"l1\">\n<fact fie", TL_ERROR_PARSE, "bad.tinlap:3: ", "XML" },
  { "cut-between", "<joint>\n<leg>\n", TL_ERROR_PARSE, "bad.tinlap:", "XML" },
  { "crossed", "<a>\n<b></a></b>", TL_ERROR_PARSE, "bad.tinlap:2: ", "mismatch" },
  { "two-roots", "<a/>\n<b/>", TL_ERROR_PARSE, "bad.tinlap:2: ", "Extra content" },
  { "twice", "<a k='1' k='2'/>", TL_ERROR_PARSE, "bad.tinlap:1: ", "redefined" },
  { "unbound-prefix", "<a>\n<x:b/></a>", TL_ERROR_PARSE, "bad.tinlap:2: ", "Namespace prefix x" },
  { "control", "<a>\n\x01</a>", TL_ERROR_PARSE, "bad.tinlap:2: ", "XML" },
  { "control-reference", "<a>\n&#1;</a>", TL_ERROR_PARSE, "bad.tinlap:2: ", "XML" },
  { "wrong-encoding", "<a>\n\xfc</a>", TL_ERROR_PARSE, "bad.tinlap:2: ", "UTF-8" },
  { "unknown-encoding", "<?xml version='1.0' encoding='x-none'?><a/>", TL_ERROR_PARSE,
    "bad.tinlap:1: ", "encoding" },
  { "less-in-attribute", "<a k='<'/>", TL_ERROR_PARSE, "bad.tinlap:1: ", "XML" },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;

  assert_refused (c->text, strlen (c->text), c->code, c->place, c->about);
}

static void
test_zero_bytes (void)
{
  assert_refused ("<a>\n\0</a>", 9, TL_ERROR_PARSE, "bad.tinlap:2: ", "zero byte");
  assert_refused ("<a/>\0<b>", 8, TL_ERROR_PARSE, "bad.tinlap:1: ", "zero byte");
}

static char *
nest (guint depth)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < depth; i++)
    g_string_append (text, "<a>\n");
  for (guint i = 0; i < depth; i++)
    g_string_append (text, "</a>");
  return g_string_free (text, FALSE);
}

static void
test_depth (void)
{
  g_autofree char *good = nest (64);
  g_autofree char *bad = nest (65);
  g_autofree char *deep = nest (100);
  g_autofree char *abyss = nest (200000);
  g_autoptr (TlXmlDocument) document = parse (good, strlen (good), NULL);

  g_assert_nonnull (document);
  assert_refused (bad, strlen (bad), TL_ERROR_LIMIT, "bad.tinlap:65: ", "at most 64");
  assert_refused (deep, strlen (deep), TL_ERROR_LIMIT, "bad.tinlap:65: ", "at most 64");
  assert_refused (abyss, strlen (abyss), TL_ERROR_LIMIT, "bad.tinlap:65: ", "at most 64");
}

static void
test_count (void)
{
  GString *text = g_string_new ("<a>");
  g_autoptr (TlXmlDocument) document = NULL;

  for (guint i = 1; i < 10000; i++)
    g_string_append (text, "<b/>");
  g_string_append (text, "</a>");
  document = parse (text->str, text->len, NULL);
  g_assert_nonnull (document);
  g_string_insert (text, 3, "<c/>");
  assert_refused (text->str, text->len, TL_ERROR_LIMIT, "bad.tinlap:1: ", "at most 10000");
  g_string_free (text, TRUE);
}

/* 20 MB in one element: refused by its size, before a byte is parsed. */
static void
test_large (void)
{
  const gsize      length = 20u * 1024 * 1024;
  g_autofree char *text = g_malloc (length);

  memset (text, 'x', length);
  memcpy (text, "<a>", 3);
  memcpy (text + length - 4, "</a>", 4);
  assert_refused (text, length, TL_ERROR_LIMIT, "bad.tinlap: ", "at most 8388608");
}

/* A sparse file of 100 MB is refused by what the system says of it. */
static void
test_large_file (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "large.tinlap", NULL);
  g_autoptr (GError) error = NULL;
  FILE *file = g_fopen (path, "w");

  g_assert_cmpint (fseek (file, 100l * 1024 * 1024, SEEK_SET), ==, 0);
  g_assert_cmpint (fputc ('x', file), ==, 'x');
  g_assert_cmpint (fclose (file), ==, 0);
  g_assert_null (tl_xml_read_file (path, &tl_xml_caps_joint, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
  g_assert_nonnull (strstr (error->message, "at most 8388608"));
  g_unlink (path);
  g_rmdir (folder);
}

/* libxml2's own trees stop counting at 65535. */
static void
test_far_line (void)
{
  const guint blank = 70000;
  GString    *text = g_string_new ("<a>");
  g_autoptr (TlXmlDocument) document = NULL;

  for (guint i = 0; i < blank; i++)
    g_string_append_c (text, '\n');
  g_string_append (text, "<b\n\nk='1'/>");
  g_string_append (text, "</a>");
  document = parse (text->str, text->len, NULL);
  g_assert_cmpuint (((TlXmlNode *) g_ptr_array_index (document->root->children, 0))->line, ==,
                    70001);
  g_string_truncate (text, text->len - 1);
  assert_refused (text->str, text->len, TL_ERROR_PARSE, "bad.tinlap:70003: ", "XML");
  g_string_free (text, TRUE);
}

/* A tag longer than any buffer still knows where it began. */
static void
test_long_tag (void)
{
  GString *text = g_string_new ("<a>\n<b");
  g_autoptr (TlXmlDocument) document = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 2000; i++)
    g_string_append_printf (text, "\nk%u='0123456789'", i);
  g_string_append (text, "/></a>");
  document = parse (text->str, text->len, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (((TlXmlNode *) g_ptr_array_index (document->root->children, 0))->line, ==, 2);
  g_string_free (text, TRUE);
}

/* Other encodings are read when the file says so, and the text comes out in UTF-8. */
static void
test_encodings (void)
{
  static const char latin[] = "<?xml version='1.0' encoding='ISO-8859-1'?><a>\xe9</a>";
  static const char plain[] = "<?xml version='1.0' encoding='UTF-16'?>\n<a k='é'>é</a>";
  gsize             length = 0;
  g_autofree char  *wide = g_convert (plain, -1, "UTF-16", "UTF-8", NULL, &length, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlXmlDocument) a = parse (latin, sizeof latin - 1, &error);
  g_autoptr (TlXmlDocument) b = parse (wide, length, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (a->root->text, ==, "é");
  g_assert_cmpstr (b->root->text, ==, "é");
  g_assert_cmpstr (tl_xml_attribute (b->root, "k"), ==, "é");
  assert_refused (wide, length / 2, TL_ERROR_PARSE, "bad.tinlap:", "XML");
}

/* An inclusion is an element like any other: it is kept and nothing is fetched, itself least of
 * all. */
static void
test_inclusion (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "self.tinlap", NULL);
  g_autofree char *text =
      g_strdup_printf ("<a><x:include xmlns:x='http://www.w3.org/2001/XInclude' "
                       "href='%s'/></a>",
                       path);
  g_autoptr (TlXmlDocument) document = NULL;
  g_autoptr (GError) error = NULL;
  TlXmlNode *include;

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  document = tl_xml_read_file (path, &tl_xml_caps_joint, &error);
  g_assert_no_error (error);
  include = g_ptr_array_index (document->root->children, 0);
  g_assert_cmpstr (include->name, ==, "include");
  g_assert_cmpuint (include->children->len, ==, 0);
  g_unlink (path);
  g_rmdir (folder);
}

/* Cut anywhere, a file is refused or, where only white space is missing, read. Nothing crashes. */
static void
test_cut_anywhere (void)
{
  static const char text[] = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<joint xmlns=\"urn:x\">\n"
                             "  <leg id=\"é&amp;\"><![CDATA[a]]>&#233;<!-- c --></leg>\n</joint>";
  for (gsize cut = 0; cut < sizeof text - 1; cut++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (TlXmlDocument) document = parse (text, cut, &error);

      g_assert_null (document);
      g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
    }
}

/* Seeded noise over a good file: read or refused, never worse. */
static void
test_noise (void)
{
  static const char text[] =
      "<?xml version=\"1.0\"?>\n<joint xmlns=\"urn:x\" format=\"1\">\n"
      "  <leg id=\"l1\"><fact field=\"strip\" value=\"14\"/></leg>\n</joint>\n";
  GRand *random = g_rand_new_with_seed (7);
  guint  refused = 0;

  for (guint i = 0; i < 5000; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (TlXmlDocument) document = NULL;
      g_autofree char *bent = g_memdup2 (text, sizeof text - 1);

      for (guint j = 0; j < 3; j++)
        bent[g_rand_int_range (random, 0, sizeof text - 1)] =
            (char) g_rand_int_range (random, 0, 256);
      document = parse (bent, sizeof text - 1, &error);
      g_assert_true ((document == NULL) == (error != NULL));
      refused += document == NULL;
    }
  g_rand_free (random);
  g_assert_cmpuint (refused, >, 1000);
}

static void
quiet_child (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlXmlDocument) document = parse (cases[i].text, strlen (cases[i].text), NULL);
    }
}

/* Messages go where the caller wants them, and not to the terminal. */
static void
test_quiet (void)
{
  if (g_test_subprocess ())
    {
      quiet_child ();
      return;
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  g_test_trap_assert_stderr ("");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/hostile/xml/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/hostile/xml/zero-bytes", test_zero_bytes);
  g_test_add_func ("/hostile/xml/depth", test_depth);
  g_test_add_func ("/hostile/xml/count", test_count);
  g_test_add_func ("/hostile/xml/large", test_large);
  g_test_add_func ("/hostile/xml/large-file", test_large_file);
  g_test_add_func ("/hostile/xml/far-line", test_far_line);
  g_test_add_func ("/hostile/xml/long-tag", test_long_tag);
  g_test_add_func ("/hostile/xml/encodings", test_encodings);
  g_test_add_func ("/hostile/xml/inclusion", test_inclusion);
  g_test_add_func ("/hostile/xml/cut-anywhere", test_cut_anywhere);
  g_test_add_func ("/hostile/xml/noise", test_noise);
  g_test_add_func ("/hostile/xml/quiet", test_quiet);
  return g_test_run ();
}
