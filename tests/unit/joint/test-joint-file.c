/* test-joint-file.c: the file of a joint: what is read, what is kept, what is refused at which line.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

#include <glib/gstdio.h>
#include <string.h>

#define HEAD "<joint xmlns='urn:tinlap:joint:1' format='1' minor='0'>\n"
#define LEG "<leg id='leg-1'><seat kind='stack' place='0'/>\n"

static void
test_rich (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();

  g_assert_cmpstr (joint->note, ==, "first line\n second <line>");
  g_assert_true (joint->fault_example);
  g_assert_cmpuint (joint->reserved->len, ==, 4);
  g_assert_cmpuint (joint->variants->len, ==, 2);
  g_assert_cmpuint (joint->next_id, ==, 40);
  tj_assert_round_trip (joint);
}

/* Ways that local rules forbid are words of the site, in one order; a file without them forbids nothing. */
static void
test_forbidden (void)
{
  g_autoptr (TlJoint) joint =
      tj_parse (HEAD "<site box='b' forbidden=' twist soldered  twist'/></joint>");
  g_autoptr (TlJoint) old = tj_parse (HEAD "<site box='b'/></joint>");
  g_autofree char *text = tj_text (joint), *old_text = tj_text (old);

  g_assert_cmpstr (joint->forbidden, ==, "soldered twist");
  g_assert_true (tl_joint_forbids (joint, "twist"));
  g_assert_false (tl_joint_forbids (joint, "welded"));
  g_assert_false (tl_joint_forbids (old, "twist"));
  g_assert_nonnull (strstr (text, "<site box=\"b\" forbidden=\"soldered twist\"/>"));
  g_assert_null (strstr (old_text, "forbidden"));
  tj_assert_round_trip (joint);
}

/* Opening quotes, order and spaces do not matter; what is written is always the same. */
static void
test_written_form (void)
{
  static const char expected[] =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<joint xmlns=\"urn:tinlap:joint:1\" format=\"1\" minor=\"0\" next-id=\"3\">\n"
      "  <about name=\"\" practice=\"iec-style\" units=\"metric\"/>\n"
      "  <legs>\n"
      "    <leg id=\"leg-1\">\n"
      "      <seat kind=\"stack\" place=\"0\"/>\n"
      "      <fact field=\"section\" value=\"2.5\" unit=\"mm2\" known-by=\"stated\"/>\n"
      "      <fact field=\"strip\" value=\"11\" unit=\"mm\" low=\"10\" high=\"12\""
      " known-by=\"assumed\"/>\n"
      "    </leg>\n"
      "  </legs>\n"
      "  <layers>\n"
      "    <layer id=\"layer-2\" kind=\"compound\">\n"
      "      <seat kind=\"on\" of=\"leg-1\"/>\n"
      "    </layer>\n"
      "  </layers>\n"
      "  <site/>\n"
      "  <duty/>\n"
      "</joint>\n";
  g_autoptr (TlJoint) joint = tj_parse (
      HEAD
      "<legs>" LEG
      "<fact known-by='assumed' high='12' low='10' unit='mm' value='11' field='strip'/>"
      "<fact field='section' value='2.5' unit='mm2' known-by='stated'/></leg></legs>"
      "<layers><layer kind='compound' id='layer-2'><seat of='leg-1' kind='on'/></layer></layers>"
      "</joint>");
  g_autofree char *text = tj_text (joint);

  g_assert_cmpstr (text, ==, expected);
}

typedef struct
{
  const char *name, *attributes;
  TlField     field;
  double      low, best, high;
} UnitCase;

/* Inch and pound-force: NIST SP 811 (2008), appendix B.8. 12 AWG: ASTM B258, 0.0808 in, 3.31 mm2.
 * The rest is arithmetic. */
static const UnitCase unit_cases[] = {
  { "inch", "field='strip' value='0.5' unit='in'", TL_FIELD_STRIP, 12.7, 12.7, 12.7 },
  { "pound-force-inch", "field='torque' value='12' unit='lbf_in'", TL_FIELD_TORQUE, 1.35582,
    1.35582, 1.35582 },
  { "awg-range", "field='section' value='12' low='10' high='14' unit='AWG'", TL_FIELD_SECTION, 2.08,
    3.31, 5.26 },
  { "fahrenheit", "field='ambient' value='86' unit='degF'", TL_FIELD_AMBIENT, 30.0, 30.0, 30.0 },
  { "low-only", "field='strip' value='11' low='10' unit='mm'", TL_FIELD_STRIP, 10.0, 11.0, 11.0 },
  { "no-unit", "field='bends' value='2'", TL_FIELD_BENDS, 2.0, 2.0, 2.0 },
};

static void
test_unit (gconstpointer data)
{
  const UnitCase  *c = data;
  g_autofree char *text = g_strdup_printf (
      HEAD "<legs>" LEG "<fact %s known-by='stated'/></leg></legs></joint>", c->attributes);
  g_autoptr (TlJoint) joint = tj_parse (text);
  const TlFact *fact = tl_facts_get (tl_joint_leg (joint, "leg-1")->facts, c->field);

  g_assert_nonnull (fact);
  /* The tables print three figures or more. */
  g_assert_cmpfloat_with_epsilon (fact->value.low, c->low, 0.002 * c->low);
  g_assert_cmpfloat_with_epsilon (fact->value.best, c->best, 0.002 * c->best);
  g_assert_cmpfloat_with_epsilon (fact->value.high, c->high, 0.002 * c->high);
  tj_assert_round_trip (joint);
}

typedef struct
{
  const char *name;
  const char *text; /* placed as is */
  guint       line;
  const char *says; /* a piece of the message */
} WrongCase;

#define FACT(attributes) HEAD "<legs>" LEG "<fact " attributes "/></leg></legs></joint>"
#define SEAT(attributes)                                                                           \
  HEAD "<legs><leg id='leg-1'/></legs><layers><layer id='layer-2' kind='lug'/>\n"                  \
       "<layer id='layer-3' kind='compound'><seat " attributes "/></layer></layers></joint>"

static const WrongCase wrong_cases[] = {
  { "empty", "", 1, "empty" },
  { "not-xml", "PK\003\004", 1, "" },
  { "other-root", "<house xmlns='urn:tinlap:joint:1' format='1' minor='0'/>", 1, "house" },
  { "other-namespace", "<joint format='1' minor='0'/>", 1, "urn:tinlap:joint:1" },
  { "no-format", "<joint xmlns='urn:tinlap:joint:1' minor='0'/>", 1, "format" },
  { "newer-format", "<joint xmlns='urn:tinlap:joint:1' format='2' minor='0'/>", 1,
    "newer version" },
  { "format-word", "<joint xmlns='urn:tinlap:joint:1' format='one' minor='0'/>", 1, "one" },
  { "no-minor", "<joint xmlns='urn:tinlap:joint:1' format='1'/>", 1, "minor" },
  { "minor-negative", "<joint xmlns='urn:tinlap:joint:1' format='1' minor='-1'/>", 1, "-1" },
  { "entity", "<!DOCTYPE joint [<!ENTITY e SYSTEM 'file:///etc/passwd'>]>\n<joint>&e;</joint>", 1,
    "" },
  { "unknown-section", HEAD "<weather/></joint>", 2, "weather" },
  { "foreign-section", HEAD "<about xmlns='urn:x'/></joint>", 2, "about" },
  { "unknown-attribute", HEAD "<about name='a' colour='red'/></joint>", 2, "colour" },
  { "attribute-of-none", HEAD "<duty load='3'/></joint>", 2, "load" },
  { "late-section", HEAD "<duty/>\n<legs/></joint>", 3, "too late" },
  { "section-twice", HEAD "<duty/>\n<duty/></joint>", 3, "twice" },
  { "text", HEAD "<duty>ten amperes</duty></joint>", 2, "text" },
  { "in-note", HEAD "<about><note>a<b/></note></about></joint>", 2, "empty" },
  { "bad-practice", HEAD "<about practice='habit'/></joint>", 2, "nfpa70-style" },
  { "bad-units", HEAD "<about units='cubit'/></joint>", 2, "customary" },
  { "bad-date", HEAD "<about date='2026-02-30'/></joint>", 2, "2026-02-30" },
  { "bad-language", HEAD "<about sheet-language='1'/></joint>", 2, "language" },
  { "bad-fault-example", HEAD "<about fault-example='1'/></joint>", 2, "yes" },
  { "bad-way", HEAD "<site forbidden='twist glue'/></joint>", 2, "glue" },
  { "bad-box", HEAD "<site box='a b'/></joint>", 2, "a b" },
  { "bad-next-id", "<joint xmlns='urn:tinlap:joint:1' format='1' minor='0' next-id='0'/>", 1,
    "next-id" },
  { "leg-without-id", HEAD "<legs><leg/></legs></joint>", 2, "id" },
  { "leg-bad-id", HEAD "<legs><leg id='Leg 1'/></legs></joint>", 2, "Leg 1" },
  { "leg-called-site", HEAD "<legs><leg id='site'/></legs></joint>", 2, "site" },
  { "leg-bad-part", HEAD "<legs><leg id='leg-1' part='../x y'/></legs></joint>", 2, "../x y" },
  { "id-twice",
    HEAD "<legs><leg id='a'/></legs>\n<layers>\n<layer id='a' kind='lug'/></layers></joint>", 4,
    "twice" },
  { "nine-legs",
    HEAD "<legs><leg id='a'/><leg id='b'/><leg id='c'/><leg id='d'/><leg id='e'/><leg id='f'/>"
         "<leg id='g'/><leg id='h'/>\n<leg id='i'/></legs></joint>",
    3, "at most 8" },
  { "layer-no-kind", HEAD "<layers><layer id='a'/></layers></joint>", 2, "kind" },
  { "layer-bad-kind", HEAD "<layers><layer id='a' kind='sprocket'/></layers></joint>", 2,
    "sprocket" },
  { "layer-conductor", HEAD "<layers><layer id='a' kind='conductor'/></layers></joint>", 2, "leg" },
  { "seat-no-kind", SEAT ("place='0'"), 3, "kind" },
  { "seat-bad-kind", SEAT ("kind='beside'"), 3, "around" },
  { "seat-extra", SEAT ("kind='stack' place='0' of='leg-1'"), 3, "“of”" },
  { "seat-no-of", SEAT ("kind='on'"), 3, "“of”" },
  { "seat-dangling", SEAT ("kind='on' of='leg-9'"), 3, "leg-9" },
  { "seat-range-dangling", SEAT ("kind='around' from='leg-1' to='leg-9'"), 3, "leg-9" },
  { "seat-itself", SEAT ("kind='on' of='layer-3'"), 3, "itself" },
  { "seat-port-of-leg", SEAT ("kind='port' of='leg-1' port='1'"), 3, "mouth" },
  { "seat-port-2-of-lug", SEAT ("kind='port' of='layer-2' port='2'"), 3, "1 to 1" },
  { "seat-port-0", SEAT ("kind='port' of='layer-2' port='0'"), 3, "1 to 8" },
  { "seat-gap", SEAT ("kind='stack' place='1'"), 3, "gap" },
  { "seat-huge", SEAT ("kind='stack' place='99999999999999999999'"), 3, "whole number" },
  { "place-twice",
    HEAD
    "<legs><leg id='leg-1'><seat kind='stack' place='0'/></leg>\n<leg id='leg-2'>"
    "<seat kind='stack' place='0'/></leg>\n<leg id='leg-3'><seat kind='stack' place='1'/></leg>"
    "</legs></joint>",
    3, "place 0" },
  { "circle",
    HEAD "<legs>\n<leg id='leg-1'><seat kind='on' of='leg-2'/></leg>"
         "<leg id='leg-2'><seat kind='on' of='leg-1'/></leg></legs></joint>",
    3, "lead back" },
  { "fact-no-field", FACT ("value='1' unit='mm' known-by='stated'"), 3, "field" },
  { "fact-bad-field", FACT ("field='colour' value='1' unit='mm' known-by='stated'"), 3, "colour" },
  { "fact-no-value", FACT ("field='strip' unit='mm' known-by='stated'"), 3, "value" },
  { "fact-no-unit", FACT ("field='strip' value='11' known-by='stated'"), 3, "unit" },
  { "fact-bad-unit", FACT ("field='strip' value='11' unit='kg' known-by='stated'"), 3, "kg" },
  { "fact-no-known-by", FACT ("field='strip' value='11' unit='mm'"), 3, "known-by" },
  { "fact-bad-known-by", FACT ("field='strip' value='11' unit='mm' known-by='rumour'"), 3,
    "assumed" },
  { "fact-known-by-seen", FACT ("field='strip' value='11' unit='mm' known-by='seen'"), 3,
    "assumed" },
  { "fact-nan", FACT ("field='strip' value='nan' unit='mm' known-by='stated'"), 3, "nan" },
  { "fact-infinite", FACT ("field='strip' value='inf' unit='mm' known-by='stated'"), 3, "inf" },
  { "fact-huge", FACT ("field='strip' value='1e999' unit='mm' known-by='stated'"), 3, "1e999" },
  { "fact-far", FACT ("field='strip' value='1e300' unit='mm' known-by='stated'"), 3, "strip" },
  { "fact-huge-unit", FACT ("field='strip' value='1e308' unit='km' known-by='stated'"), 3, "" },
  { "fact-negative", FACT ("field='strip' value='-11' unit='mm' known-by='stated'"), 3, "-11" },
  { "fact-comma", FACT ("field='strip' value='2,5' unit='mm' known-by='stated'"), 3, "2,5" },
  { "fact-half-count", FACT ("field='bends' value='1.5' unit='1' known-by='stated'"), 3, "whole" },
  { "fact-disorder",
    FACT ("field='strip' value='11' low='12' high='13' unit='mm' known-by='stated'"), 3, "strip" },
  { "fact-upside-down",
    FACT ("field='strip' value='11' low='12' high='10' unit='mm' known-by='stated'"), 3, "strip" },
  { "fact-word-for-number", FACT ("field='strip' word='long' known-by='stated'"), 3, "word" },
  { "fact-number-for-word", FACT ("field='role' value='1' known-by='stated'"), 3, "value" },
  { "fact-bad-word", FACT ("field='role' word='captain' known-by='stated'"), 3, "captain" },
  { "fact-no-word", FACT ("field='role' known-by='stated'"), 3, "word" },
  { "fact-bad-id", FACT ("field='metal' word='a metal' known-by='stated'"), 3, "a metal" },
  { "fact-twice",
    FACT ("field='strip' value='11' unit='mm' known-by='stated'/>\n"
          "<fact field='strip' value='11' unit='mm' known-by='stated'"),
    4, "twice" },
  { "bad-act",
    HEAD "<legs>" LEG "<preparation><act name='pray'/></preparation></leg></legs></joint>", 3,
    "degrease" },
  { "used-no-version", HEAD "<used practice='iec-style'/></joint>", 2, "data-version" },
  { "used-part-twice",
    HEAD "<used data-version='1' practice='iec-style'><part id='a' kind='lug' open='no'/>\n"
         "<part id='a' kind='lug' open='no'/></used></joint>",
    3, "twice" },
  { "used-bad-look",
    HEAD "<used data-version='1' practice='x'><material id='a' name='a' kind='metal' look='gold'/>"
         "</used></joint>",
    2, "aluminium" },
  { "used-bad-cell",
    HEAD "<used data-version='1' practice='x'><threshold id='a' practice='*' known-by='seen'>\n"
         "<cell>1</cell></threshold></used></joint>",
    3, "text" },
  { "variant-twice", HEAD "<variants><variant name='a'/>\n<variant name='a'/></variants></joint>",
    3, "twice" },
  { "variant-in-variant",
    HEAD "<variants><variant name='a'>\n<variants/></variant></variants></joint>", 3, "variants" },
  { "variant-dangling",
    HEAD "<variants><variant name='a'>\n<legs><leg id='leg-1'><seat kind='on' of='x'/></leg></legs>"
         "</variant></variants></joint>",
    3, "“x”" },
};

/* One line "FILE:LINE: what", and no joint. */
static void
test_wrong (gconstpointer data)
{
  const WrongCase *c = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *place = g_strdup_printf ("wrong.tinlap:%u: ", c->line);
  TlJoint         *joint = tl_joint_parse (c->text, strlen (c->text), "wrong.tinlap", &error);

  g_assert_null (joint);
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  if (!g_str_has_prefix (error->message, place))
    g_error ("“%s” does not begin with “%s”", error->message, place);
  g_assert_nonnull (strstr (error->message, c->says));
  g_assert_null (strchr (error->message, '\n'));
}

/* What a newer minor version may bring, in every place that can hold it. */
static const char newer[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<joint xmlns=\"urn:tinlap:joint:1\" format=\"1\" minor=\"3\" next-id=\"9\" mood=\"bright\">\n"
    "  <before/>\n"
    "  <about name=\"a\" practice=\"iec-style\" units=\"metric\" colour=\"red\">\n"
    "    <note>text</note>\n"
    "    <stamp by=\"x\">words</stamp>\n"
    "  </about>\n"
    "  <legs order=\"left\">\n"
    "    <leg id=\"leg-1\" age=\"9\">\n"
    "      <seat kind=\"stack\" place=\"0\" tilt=\"3\">\n"
    "        <shim/>\n"
    "      </seat>\n"
    "      <fact field=\"section\" value=\"2.5\" unit=\"mm2\" known-by=\"stated\" grade=\"b\"/>\n"
    "      <fact field=\"sparkle\" value=\"1\"/>\n"
    "      <fact field=\"role\" word=\"captain\" known-by=\"stated\"/>\n"
    "      <preparation by=\"hand\">\n"
    "        <act name=\"brush\" strokes=\"9\"/>\n"
    "        <pause/>\n"
    "        <act name=\"tin\">\n"
    "          <glow/>\n"
    "        </act>\n"
    "      </preparation>\n"
    "    </leg>\n"
    "    <arm id=\"arm-1\"/>\n"
    "    <leg id=\"leg-2\">\n"
    "      <seat kind=\"none\"/>\n"
    "    </leg>\n"
    "  </legs>\n"
    "  <layers>\n"
    "    <layer id=\"layer-3\" kind=\"lug\" shine=\"1\">\n"
    "      <seat kind=\"none\"/>\n"
    "    </layer>\n"
    "  </layers>\n"
    "  <middle xmlns=\"urn:x\" a=\"1\"/>\n"
    "  <site weather=\"fog\"/>\n"
    "  <duty xmlns:k1=\"urn:x\" k1:hum=\"50\"/>\n"
    "  <used data-version=\"1\" practice=\"iec-style\" paid=\"no\">\n"
    "    <part id=\"a\" kind=\"lug\" size=\"\" open=\"no\" rust=\"no\">\n"
    "      <blemish/>\n"
    "    </part>\n"
    "    <threshold id=\"t\" practice=\"*\" known-by=\"seen\">\n"
    "      <cell value=\"1\" bold=\"yes\"/>\n"
    "    </threshold>\n"
    "    <smell/>\n"
    "  </used>\n"
    "  <variants>\n"
    "    <variant name=\"v\" next-id=\"2\" taste=\"sweet\">\n"
    "      <about name=\"\" practice=\"iec-style\" units=\"metric\"/>\n"
    "      <legs>\n"
    "        <leg id=\"leg-1\">\n"
    "          <seat kind=\"none\"/>\n"
    "          <toe/>\n"
    "        </leg>\n"
    "      </legs>\n"
    "      <layers/>\n"
    "      <site/>\n"
    "      <duty/>\n"
    "    </variant>\n"
    "    <rumour/>\n"
    "  </variants>\n"
    "  <pictures>\n"
    "    <picture/>\n"
    "  </pictures>\n"
    "  <after/>\n"
    "</joint>\n";

static void
test_newer_minor (void)
{
  g_autoptr (TlJoint) joint = tj_parse (newer);
  g_autofree char *text = tj_text (joint);

  g_assert_cmpuint (joint->minor, ==, 3);
  g_assert_cmpstr (text, ==, newer);
  tj_assert_round_trip (joint);
}

static gboolean
holds (const TlJoint *joint, const char *piece)
{
  g_autofree char *text = tj_text (joint);

  return strstr (text, piece) != NULL;
}

/* What is kept follows its owner through edits, and goes with it. */
static void
test_newer_minor_edited (void)
{
  static const char *const acts[] = { "degrease", NULL };
  g_autoptr (TlJoint) joint = tj_parse (newer);
  GError *error = NULL;
  TlFact  strip = { .field = TL_FIELD_STRIP, .value = { 11.0, 11.0, 11.0 } };

  TlJoint *next = tl_edit_set_fact (joint, "leg-1", &strip, &error);
  tj_take (&joint, next, error);
  tj_move (&joint, "leg-1", tl_seat_none ());
  g_assert_true (holds (joint, "age=\"9\"") && holds (joint, "grade=\"b\""));
  next = tl_edit_unset_fact (joint, "leg-1", TL_FIELD_SECTION, &error);
  tj_take (&joint, next, error);
  g_assert_false (holds (joint, "grade"));
  next = tl_edit_set_preparation (joint, "leg-1", acts, &error);
  tj_take (&joint, next, error);
  g_assert_false (holds (joint, "strokes"));
  tj_assert_round_trip (joint);

  next = tl_edit_remove (joint, "leg-1", &error);
  tj_take (&joint, next, error);
  g_assert_false (holds (joint, "sparkle"));
  g_assert_true (holds (joint, "<arm id=\"arm-1\"/>") && holds (joint, "<toe/>"));
  next = tl_edit_set_used (joint, NULL);
  tj_take (&joint, next, error);
  g_assert_false (holds (joint, "blemish"));
  tj_assert_round_trip (joint);
}

/* Found by fuzzing: a fact that we do not know, in a leg without a seat, was written before the seat; and one
 * behind facts that an edit took away, behind the preparation. */
static void
test_newer_facts_stay_among_facts (void)
{
  g_autoptr (TlJoint) joint =
      tj_parse ("<joint xmlns='urn:tinlap:joint:1' format='1' minor='1'><legs><leg id='leg-1'>"
                "<fact field='bends' value='1' known-by='stated'/><fact field='sparkle' value='1'/>"
                "<preparation><act name='tin'/></preparation></leg></legs></joint>");
  GError *error = NULL;

  tj_assert_round_trip (joint);
  TlJoint *next = tl_edit_unset_fact (joint, "leg-1", TL_FIELD_BENDS, &error);
  tj_take (&joint, next, error);
  tj_assert_round_trip (joint);
  g_assert_true (holds (joint, "sparkle"));
}

/* The very same file as version 0 is refused at the first thing that it does not know. */
static void
test_same_minor_is_strict (void)
{
  g_autoptr (GString) text = g_string_new (newer);
  g_autoptr (GError) error = NULL;

  g_string_replace (text, "minor=\"3\"", "minor=\"0\"", 1);
  TlJoint *joint = tl_joint_parse (text->str, text->len, "x", &error);
  g_assert_null (joint);
  g_assert_true (g_str_has_prefix (error->message, "x:2: "));
}

static void
test_missing_part_opens (void)
{
  g_autoptr (TlJoint) joint = tj_parse (
      HEAD "<layers><layer id='layer-1' part='of-another-stock' kind='seal'/></layers></joint>");

  g_assert_cmpint (tl_joint_layer (joint, "layer-1")->kind, ==, TL_PART_SEAL);
}

static void
test_save_and_load (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("tinlap-XXXXXX", &error);
  g_assert_no_error (error);
  g_autofree char *path = g_build_filename (folder, "a.tinlap", NULL);
  g_autoptr (TlJoint) joint = tj_rich ();

  g_assert_true (tl_joint_save (joint, path, &error));
  g_autoptr (TlJoint) back = tl_joint_load (path, &error);
  g_assert_no_error (error);
  tj_assert_same (joint, back);
  g_unlink (path);
  g_assert_null (tl_joint_load (path, &error));
  g_assert_nonnull (strstr (error->message, path));
  g_rmdir (folder);
}

/* The examples that come with the program, as other tools will read them. */
static void
test_examples (void)
{
  g_autofree char *folder =
      g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) examples = g_dir_open (folder, 0, &error);
  gsize       schema_length, length;
  const char *schema = tj_schema (&schema_length);

  g_assert_no_error (error);
  for (const char *name = g_dir_read_name (examples); name != NULL;
       name = g_dir_read_name (examples))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL), *text = NULL;
      if (!g_str_has_suffix (name, ".tinlap"))
        continue;
      g_autoptr (TlJoint) joint = tl_joint_load (path, &error);
      g_assert_no_error (error);
      tj_assert_round_trip (joint);
      /* Bare, or beside pictures: as other tools will read what stands in them. */
      text = tl_joint_to_text (joint, &length);
      tl_xml_validate (text, length, name, schema, schema_length, &error);
      g_assert_no_error (error);
    }
}

/* A joint too big for its own reader is not written, and the old file stays. */
static void
test_too_big_to_save (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("tinlap-XXXXXX", &error);
  g_assert_no_error (error);
  g_autofree char *path = g_build_filename (folder, "a.tinlap", NULL);
  g_autofree char *note = g_strnfill (9 * 1024 * 1024, 'n');
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (TlJoint) big = tl_edit_set_text (joint, "note", note, &error);

  g_assert_no_error (error);
  g_assert_false (tl_joint_save (big, path, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/joint-file/rich", test_rich);
  g_test_add_func ("/joint-file/written-form", test_written_form);
  g_test_add_func ("/joint-file/forbidden", test_forbidden);
  for (guint i = 0; i < G_N_ELEMENTS (unit_cases); i++)
    {
      g_autofree char *path = g_strconcat ("/joint-file/unit/", unit_cases[i].name, NULL);
      g_test_add_data_func (path, &unit_cases[i], test_unit);
    }
  for (guint i = 0; i < G_N_ELEMENTS (wrong_cases); i++)
    {
      g_autofree char *path = g_strconcat ("/joint-file/wrong/", wrong_cases[i].name, NULL);
      g_test_add_data_func (path, &wrong_cases[i], test_wrong);
    }
  g_test_add_func ("/joint-file/newer-minor", test_newer_minor);
  g_test_add_func ("/joint-file/newer-minor/edited", test_newer_minor_edited);
  g_test_add_func ("/joint-file/newer-minor/facts-stay-among-facts",
                   test_newer_facts_stay_among_facts);
  g_test_add_func ("/joint-file/same-minor-is-strict", test_same_minor_is_strict);
  g_test_add_func ("/joint-file/missing-part-opens", test_missing_part_opens);
  g_test_add_func ("/joint-file/save-and-load", test_save_and_load);
  g_test_add_func ("/joint-file/examples", test_examples);
  g_test_add_func ("/joint-file/too-big-to-save", test_too_big_to_save);
  return g_test_run ();
}
