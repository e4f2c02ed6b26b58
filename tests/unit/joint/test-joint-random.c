/* test-joint-random.c: random joints: places and references hold after every edit, the file gives back what it
 * was given, an edit leaves the old joint alone, and whatever the reader takes the schema takes too.
 *
 * The program prints its seed; --seed repeats a run.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

#include <string.h>

static void
assert_valid (const TlJoint *joint)
{
  gsize            length, schema_length;
  g_autofree char *text = tl_joint_to_text (joint, &length);
  const char      *schema = tj_schema (&schema_length);
  g_autoptr (GError) error = NULL;

  tl_xml_validate (text, length, "random.tinlap", schema, schema_length, &error);
  g_assert_no_error (error);
}

static void
test_edits (void)
{
  for (guint run = 0; run < 20; run++)
    {
      g_autoptr (TlJoint) joint = tl_joint_new ();
      for (guint i = 0; i < 60; i++)
        {
          g_autofree char *before = tj_text (joint);
          TlJoint         *next = tj_random_edit (joint);
          g_autofree char *after = tj_text (joint);

          g_assert_cmpstr (before, ==, after);
          g_assert_cmpuint (next->next_id, >=, joint->next_id);
          tj_take (&joint, next, NULL);
          tj_assert_round_trip (joint);
        }
      assert_valid (joint);
    }
}

/* Ids of a long run of adding and removing never come twice. */
static void
test_ids_never_again (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (TlJoint) joint = tl_joint_new ();

  for (guint i = 0; i < 200; i++)
    {
      g_autofree char *text = tj_text (joint);
      g_autoptr (TlJoint) reopened = tj_parse (text);
      TlJoint *next;
      tj_take (&joint, g_steal_pointer (&reopened), NULL);
      char *id = tj_add_layer (&joint, TL_PART_NUT, tl_seat_stack (0));
      g_assert_true (g_hash_table_add (seen, id));
      if (g_test_rand_bit ())
        {
          next = tl_edit_remove (joint, id, NULL);
          tj_take (&joint, next, NULL);
        }
    }
}

static void
test_families_validate (void)
{
  for (const TjFamily *family = tj_families; family->name != NULL; family++)
    {
      g_autoptr (TlJoint) joint = family->make ();
      assert_valid (joint);
    }
  g_autoptr (TlJoint) rich = tj_rich ();
  assert_valid (rich);
}

/* Every field of the vocabulary at both ends of its range, every word: read, and valid by the schema. */
static void
test_vocabulary (void)
{
  for (guint field = 0; field < TL_N_FIELDS; field++)
    {
      const TlFieldInfo *info = tl_field_info ((TlField) field);
      guint n = info->kind == TL_FIELD_KIND_WORD ? g_strv_length ((char **) info->words) : 2;
      for (guint i = 0; i < n; i++)
        {
          g_autoptr (TlJoint) joint = tl_joint_new ();
          double  end = i == 0 ? info->low : info->high;
          TlFact  fact = { .field = (TlField) field, .value = { end, end, end } };
          GError *error = NULL;
          if (info->kind == TL_FIELD_KIND_WORD)
            fact.word = (char *) info->words[i];
          else if (info->kind == TL_FIELD_KIND_ID)
            fact.word = (char *) "copper";
          TlJoint *next = tl_edit_set_fact (joint, "site", &fact, &error);
          tj_take (&joint, next, error);
          tj_assert_round_trip (joint);
          assert_valid (joint);
        }
    }
}

static void
test_schema_refuses (gconstpointer data)
{
  const char *change = data; /* "what|with what" */
  g_auto (GStrv) sides = g_strsplit (change, "|", 2);
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autofree char *text = tj_text (joint);
  g_autoptr (GString) changed = g_string_new (text);
  gsize       schema_length;
  const char *schema = tj_schema (&schema_length);
  g_autoptr (GError) error = NULL, reader_error = NULL;

  g_assert_cmpuint (g_string_replace (changed, sides[0], sides[1], 1), ==, 1);
  g_assert_false (tl_xml_validate (changed->str, changed->len, "changed.tinlap", schema,
                                   schema_length, &error));
  g_assert_nonnull (error);
  g_assert_null (tl_joint_parse (changed->str, changed->len, "changed.tinlap", &reader_error));
  g_assert_nonnull (reader_error);
}

static const char *const changes[] = {
  "format=\"1\"|format=\"2\"",
  "next-id=\"40\"|next-id=\"0\"",
  "<duty>|<duty load=\"3\">",
  "<legs>|<legs><arm/>",
  "place=\"1\"|place=\"-1\"",
  "kind=\"stack\"|kind=\"beside\"",
  "field=\"metal\"|field=\"colour\"",
  "value=\"2.5\"|value=\"NaN\"",
  "value=\"2.5\"|value=\"INF\"",
  "word=\"line\"|word=\"captain\"",
  "known-by=\"marking\"|known-by=\"rumour\"",
  "known-by=\"marking\"|known-by=\"seen\"",
  "name=\"degrease\"|name=\"pray\"",
  "kind=\"bolt\"|kind=\"sprocket\"",
  "kind=\"bolt\"|kind=\"box\"",
  "look=\"copper\"|look=\"gold\"",
  "date=\"2026-03-14\"|date=\"2026-02-30\"",
  "practice=\"nfpa70-style\"|practice=\"habit\"",
  "units=\"customary\"|units=\"cubits\"",
  "<readings/>|<readings/><readings/>",
  "id=\"leg-1\"|id=\"Leg 1\"",
};

/* Every way to write a figure that the reader takes, the schema takes. */
static void
test_figures (void)
{
  static const char *const figures[] = { "2.5",  " 2.5",  "2.5\t", "+2.5",    ".5",
                                         "02.5", "25e-1", "2.5E0", "0.25e+1", "&#10;2.5" };
  gsize                    schema_length;
  const char              *schema = tj_schema (&schema_length);

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "<joint xmlns='urn:tinlap:joint:1' format='1' minor='0'><duty>"
          "<fact field='load' value='%s' unit='A' known-by='stated'/></duty></joint>",
          figures[i]);
      g_autoptr (TlJoint) joint = tj_parse (text);
      g_autoptr (GError) error = NULL;
      tj_assert_round_trip (joint);
      tl_xml_validate (text, strlen (text), figures[i], schema, schema_length, &error);
      g_assert_no_error (error);
    }
}

/* Random bytes changed: what the reader takes, the schema takes, and it comes back the same. */
static void
test_reader_within_schema (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autofree char *text = tj_text (joint);
  gsize            length = strlen (text), schema_length;
  const char      *schema = tj_schema (&schema_length);
  guint            taken = 0;

  for (guint i = 0; i < 3000; i++)
    {
      g_autofree char *changed = g_strdup (text);
      changed[g_test_rand_int_range (0, (int) length)] = (char) g_test_rand_int_range (0x20, 0x7F);
      g_autoptr (TlJoint) read = tl_joint_parse (changed, length, "changed.tinlap", NULL);
      g_autoptr (GError) error = NULL;
      if (read == NULL || read->minor > TL_JOINT_MINOR)
        continue;
      taken++;
      tj_assert_round_trip (read);
      tl_xml_validate (changed, length, "changed.tinlap", schema, schema_length, &error);
      if (error != NULL)
        g_test_message ("%s", changed);
      g_assert_no_error (error);
    }
  g_assert_cmpuint (taken, >, 100);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/joint-random/edits", test_edits);
  g_test_add_func ("/joint-random/ids-never-again", test_ids_never_again);
  g_test_add_func ("/joint-random/families-validate", test_families_validate);
  g_test_add_func ("/joint-random/vocabulary", test_vocabulary);
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/joint-random/schema-refuses/%u", i);
      g_test_add_data_func (path, changes[i], test_schema_refuses);
    }
  g_test_add_func ("/joint-random/figures", test_figures);
  g_test_add_func ("/joint-random/reader-within-schema", test_reader_within_schema);
  return g_test_run ();
}
