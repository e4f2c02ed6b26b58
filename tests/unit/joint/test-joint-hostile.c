/* test-joint-hostile.c: files cut short, bits turned, and files made to hurt: one message with file and line,
 * never a crash. Meant to run under the sanitizers too.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

#include <string.h>

/* Read or refused; a refusal is one line that names file and line. A joint that was read comes back. */
static gboolean
read_or_refuse (const char *data, gsize length)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = tl_joint_parse (data, length, "hostile.tinlap", &error);

  if (joint != NULL)
    {
      g_assert_no_error (error);
      tj_assert_round_trip (joint);
      return TRUE;
    }
  g_assert_nonnull (error);
  if (!g_regex_match_simple ("\\Ahostile\\.tinlap:[0-9]+: [^\\n]+\\z", error->message, 0, 0))
    g_error ("not FILE:LINE: what: %s", error->message);
  return FALSE;
}

static void
test_cut (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autofree char *text = tj_text (joint);
  gsize            length = strlen (text);

  for (gsize cut = 0; cut + 1 < length; cut += 37)
    g_assert_false (read_or_refuse (text, cut));
  g_assert_true (read_or_refuse (text, length));
}

static void
test_bits (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autofree char *text = tj_text (joint);
  gsize            length = strlen (text);

  for (guint i = 0; i < 3000; i++)
    {
      g_autofree char *turned = g_memdup2 (text, length);
      for (int n = g_test_rand_int_range (1, 5); n > 0; n--)
        turned[g_test_rand_int_range (0, (int) length)] ^=
            (char) (1 << g_test_rand_int_range (0, 8));
      read_or_refuse (turned, length);
    }
}

/* Each attribute's value in turn becomes something of the wrong size or kind; namespaces are base's to test. */
static void
test_values (void)
{
  static const char *const values[] = { "",
                                        "NaN",
                                        "-inf",
                                        "1e999",
                                        "-0",
                                        "99999999999999999999",
                                        "0x10",
                                        "1 2",
                                        " 1",
                                        "\xef\xbf\xbd",
                                        "%s%n",
                                        "leg-1",
                                        "site",
                                        "&amp;",
                                        "-9223372036854775808" };
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autofree char *text = tj_text (joint);

  for (const char *at = strstr (text, "=\""); at != NULL; at = strstr (at + 2, "=\""))
    for (guint i = 0; i < G_N_ELEMENTS (values) && !g_str_has_prefix (at - 5, "xmlns"); i++)
      {
        const char      *end = strchr (at + 2, '"');
        g_autofree char *head = g_strndup (text, (gsize) (at + 2 - text));
        g_autofree char *changed = g_strconcat (head, values[i], end, NULL);
        read_or_refuse (changed, strlen (changed));
      }
}

static const char root[] = "<joint xmlns='urn:tinlap:joint:1' format='1' minor='0'>\n";

static GString *
repeated (const char *before, const char *piece, guint times, const char *after)
{
  GString *text = g_string_new (root);

  g_string_append (text, before);
  for (guint i = 0; i < times; i++)
    g_string_append_printf (text, "%s\n", piece);
  g_string_append (text, after);
  return text;
}

/* Caps: contracts of the file: 10,000 elements, depth 64. The reserved places take anything, so only the
 * cap can refuse. */
static void
test_caps (void)
{
  /* With the root, the sections that are always written and <pictures> 7 of the 10,000 are gone. */
  static const char sections[] = "<about/><legs/><layers/><site/><duty/><pictures>";
  g_autoptr (GString) full = repeated (sections, "<p/>", 9993, "</pictures></joint>");
  g_autoptr (GString) over = repeated (sections, "<p/>", 9994, "</pictures></joint>");
  g_autoptr (GString) deep = repeated ("<pictures>", "<p>", 62, "");
  g_autoptr (GString) deeper = repeated ("<pictures>", "<p>", 63, "");

  for (guint i = 0; i < 63; i++)
    {
      g_string_append (deeper, "</p>");
      if (i > 0)
        g_string_append (deep, "</p>");
    }
  g_string_append (deep, "</pictures></joint>");
  g_string_append (deeper, "</pictures></joint>");
  g_assert_true (read_or_refuse (full->str, full->len));
  g_assert_false (read_or_refuse (over->str, over->len));
  g_assert_true (read_or_refuse (deep->str, deep->len));
  g_assert_false (read_or_refuse (deeper->str, deeper->len));
}

/* A long chain of layers, each on the one before; and one that closes it to a ring. */
static void
test_chains (void)
{
  for (guint is_ring = 0; is_ring < 2; is_ring++)
    {
      g_autoptr (GString) text = g_string_new (root);
      g_string_append_printf (text, "<layers><layer id='l-0' kind='compound'>%s</layer>\n",
                              is_ring ? "<seat kind='on' of='l-4000'/>" : "");
      for (guint i = 1; i <= 4000; i++)
        g_string_append_printf (
            text, "<layer id='l-%u' kind='compound'><seat kind='on' of='l-%u'/></layer>\n", i,
            i - 1);
      g_string_append (text, "</layers></joint>");
      g_assert_cmpint (read_or_refuse (text->str, text->len), ==, !is_ring);
    }
}

static void
test_entities (void)
{
  static const char bomb[] =
      "<!DOCTYPE joint [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>"
      "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'>]>\n<joint>&c;</joint>";
  static const char outside[] = "<!DOCTYPE joint SYSTEM 'http://127.0.0.1/a.dtd'>\n<joint/>";

  g_assert_false (read_or_refuse (bomb, sizeof bomb - 1));
  g_assert_false (read_or_refuse (outside, sizeof outside - 1));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/joint-hostile/cut", test_cut);
  g_test_add_func ("/joint-hostile/bits", test_bits);
  g_test_add_func ("/joint-hostile/values", test_values);
  g_test_add_func ("/joint-hostile/caps", test_caps);
  g_test_add_func ("/joint-hostile/chains", test_chains);
  g_test_add_func ("/joint-hostile/entities", test_entities);
  return g_test_run ();
}
