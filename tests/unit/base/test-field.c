/* test-field.c: the vocabulary of facts, and sets of facts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/fact.h"
#include "base/quantity.h"

#include <math.h>
#include <string.h>

/* Every row of the table is whole and finds itself by its key. */
static void
test_table (void)
{
  for (guint i = 0; i < TL_N_FIELDS; i++)
    {
      const TlFieldInfo *info = tl_field_info (i);
      TlField            found = TL_N_FIELDS;

      g_assert_nonnull (info->key);
      g_assert_true (tl_field_from_key (info->key, &found));
      g_assert_cmpint (found, ==, i);
      for (const char *c = info->key; *c != '\0'; c++)
        g_assert_true (g_ascii_islower (*c) || g_ascii_isdigit (*c) || *c == '-');
      g_assert_cmpuint (strlen (info->label), >, 1);
      if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
        {
          g_assert_true (tl_unit_is_known (info->unit));
          g_assert_cmpfloat (info->low, <, info->high);
        }
      else
        g_assert_cmpstr (info->unit, ==, "");
      g_assert_true ((info->kind == TL_FIELD_KIND_WORD) == (info->words != NULL));
    }
  g_assert_false (tl_field_from_key ("colour", NULL));
  g_assert_false (tl_field_from_key ("", NULL));
}

/* A word that is no code reads as a person says it; none keeps the hyphen of the file. */
static void
test_words (void)
{
  g_assert_cmpstr (tl_field_word_label (TL_FIELD_EYE_CLOSES, "with-nut"), ==,
                   "closes as the nut turns");
  g_assert_cmpstr (tl_field_word_label (TL_FIELD_CLASS, "class-5"), ==, "class 5, flexible");
  for (guint i = 0; i < TL_N_FIELDS; i++)
    {
      const TlFieldInfo *info = tl_field_info (i);

      for (guint w = 0; info->words != NULL && info->words[w] != NULL; w++)
        {
          const char *label = tl_field_word_label (i, info->words[w]);

          g_assert_cmpuint (strlen (label), >, 0);
          if (i != TL_FIELD_EARTHING && i != TL_FIELD_PROPERTY_CLASS)
            g_assert_null (strchr (label, '-'));
        }
    }
}

static void
test_known_by (void)
{
  for (guint i = 0; i < TL_N_KNOWN; i++)
    {
      TlKnownBy found = TL_N_KNOWN;

      g_assert_true (tl_known_by_from_word (tl_known_by_to_word (i), &found));
      g_assert_cmpint (found, ==, i);
    }
  g_assert_false (tl_known_by_from_word ("guessed", NULL));
}

static void
test_set (void)
{
  g_autoptr (TlFacts) empty = tl_facts_new ();
  g_autoptr (TlFacts) one = tl_facts_with_number (empty, TL_FIELD_STRIP, 14.0, TL_KNOWN_MEASURED);
  g_autoptr (TlFacts) two = tl_facts_with_word (one, TL_FIELD_METAL, "aluminium", TL_KNOWN_ASSUMED);
  g_autoptr (TlFacts) changed = tl_facts_with_number (two, TL_FIELD_STRIP, 15.0, TL_KNOWN_STATED);
  g_autoptr (TlFacts) back =
      tl_facts_with_number (changed, TL_FIELD_STRIP, 14.0, TL_KNOWN_MEASURED);
  g_autoptr (TlFacts) less = tl_facts_without (back, TL_FIELD_METAL);
  g_autoptr (TlFacts) same = tl_facts_without (less, TL_FIELD_METAL);

  g_assert_cmpuint (tl_facts_count (empty), ==, 0);
  g_assert_cmpuint (tl_facts_count (two), ==, 2);
  g_assert_cmpint (tl_facts_at (two, 0)->field, ==, TL_FIELD_METAL);
  g_assert_cmpint (tl_facts_at (two, 1)->field, ==, TL_FIELD_STRIP);
  g_assert_cmpfloat (tl_facts_number (two, TL_FIELD_STRIP, -1.0), ==, 14.0);
  g_assert_cmpfloat (tl_facts_number (changed, TL_FIELD_STRIP, -1.0), ==, 15.0);
  g_assert_cmpfloat (tl_facts_number (two, TL_FIELD_TORQUE, -1.0), ==, -1.0);
  g_assert_cmpstr (tl_facts_word (two, TL_FIELD_METAL, "?"), ==, "aluminium");
  g_assert_cmpstr (tl_facts_word (two, TL_FIELD_STRIP, "?"), ==, "?");
  g_assert_true (tl_facts_equal (back, two));
  g_assert_false (tl_facts_equal (changed, two));
  g_assert_true (tl_facts_equal (less, one));
  g_assert_true (tl_facts_equal (less, same));
  g_assert_false (tl_facts_has (less, TL_FIELD_METAL));
}

/* Strings are the set's own; a note and a source count in a comparison. */
static void
test_strings (void)
{
  char   word[] = "yes";
  TlFact fact = { .field = TL_FIELD_REUSED, .word = word, .note = word };
  g_autoptr (TlFacts) empty = tl_facts_new ();
  g_autoptr (TlFacts) with_note = tl_facts_with (empty, &fact);
  g_autoptr (TlFacts) without_note =
      tl_facts_with_word (empty, TL_FIELD_REUSED, "yes", TL_KNOWN_STATED);

  word[0] = 'X';
  g_assert_true (tl_facts_is (with_note, TL_FIELD_REUSED));
  g_assert_cmpstr (tl_facts_get (with_note, TL_FIELD_REUSED)->note, ==, "yes");
  g_assert_false (tl_facts_equal (with_note, without_note));
  g_assert_false (tl_facts_is (empty, TL_FIELD_REUSED));
}

typedef struct
{
  const char *name;
  TlField     field;
  const char *text;
  double      low, best, high; /* in the field's unit; low of NAN: refused with @code */
  int         code;
  const char *message; /* part of it */
} Case;

static const Case cases[] = {
  { "plain", TL_FIELD_STRIP, "14", 14, 14, 14, 0, NULL },
  { "unit", TL_FIELD_STRIP, "1.4 cm", 14, 14, 14, 0, NULL },
  { "range", TL_FIELD_NUT_FACTOR, "0.16..0.2..0.26", 0.16, 0.2, 0.26, 0, NULL },
  { "count", TL_FIELD_PRESSES, "2", 2, 2, 2, 0, NULL },
  { "high-end", TL_FIELD_TORQUE, "500", 500, 500, 500, 0, NULL },
  { "above", TL_FIELD_TORQUE, "500.1 N·m", NAN, 0, 0, TL_ERROR_RANGE, "from 0 to 500 N·m" },
  { "above-within-range", TL_FIELD_TORQUE, "10..900", NAN, 0, 0, TL_ERROR_RANGE,
    "“torque” is 900" },
  { "zero-bore", TL_FIELD_BORE, "0", NAN, 0, 0, TL_ERROR_RANGE, "from 0.01 to 2000 mm" },
  { "half-press", TL_FIELD_PRESSES, "1.5", NAN, 0, 0, TL_ERROR_RANGE, "whole number" },
  { "three-phases", TL_FIELD_LOADED_CONDUCTORS, "4", NAN, 0, 0, TL_ERROR_RANGE, "from 2 to 3" },
  { "wrong-unit", TL_FIELD_TORQUE, "10 mm", NAN, 0, 0, TL_ERROR_UNIT, "lbf·in" },
  { "no-number", TL_FIELD_TORQUE, "tight", NAN, 0, 0, TL_ERROR_PARSE, "“torque”: " },
};

static void
test_number (gconstpointer data)
{
  const Case *c = data;
  TlFact      fact = { .value = { -7, -7, -7 } };
  g_autoptr (GError) error = NULL;
  gboolean is_read = tl_fact_parse (c->field, c->text, &fact, &error);

  if (isnan (c->low))
    {
      g_assert_false (is_read);
      g_assert_error (error, TL_ERROR, c->code);
      g_assert_nonnull (strstr (error->message, c->message));
      g_assert_cmpfloat (fact.value.best, ==, -7);
      return;
    }
  g_assert_no_error (error);
  g_assert_true (is_read);
  g_assert_cmpfloat (fact.value.low, ==, c->low);
  g_assert_cmpfloat (fact.value.best, ==, c->best);
  g_assert_cmpfloat (fact.value.high, ==, c->high);
}

static void
test_word_facts (void)
{
  TlFact fact = { 0 };
  g_autoptr (GError) error = NULL;

  g_assert_true (tl_fact_parse (TL_FIELD_END, " eye ", &fact, &error));
  g_assert_cmpstr (fact.word, ==, "eye");
  g_clear_pointer (&fact.word, g_free);

  g_assert_false (tl_fact_parse (TL_FIELD_END, "loop", &fact, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_NAME);
  g_assert_cmpstr (error->message, ==, "“end” is “loop”; it must be one of: straight, eye, hook.");
  g_assert_null (fact.word);
  g_clear_error (&error);

  g_assert_true (tl_fact_parse (TL_FIELD_METAL, "copper-annealed", &fact, &error));
  g_clear_pointer (&fact.word, g_free);
  g_assert_false (tl_fact_parse (TL_FIELD_METAL, "../copper", &fact, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_NAME);
}

static void
test_check_refuses_what_is_not_finite (void)
{
  const double bad[] = { NAN, INFINITY, -INFINITY };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      TlFact fact = { .field = TL_FIELD_TORQUE, .value = { 1.0, 2.0, bad[i] } };
      g_autoptr (GError) error = NULL;

      g_assert_false (tl_fact_check (&fact, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
    }
}

static void
test_check_refuses_disorder (void)
{
  TlFact fact = { .field = TL_FIELD_TORQUE, .value = { 3.0, 2.0, 4.0 } };
  g_autoptr (GError) error = NULL;

  g_assert_false (tl_fact_check (&fact, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "must rise"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/field/table", test_table);
  g_test_add_func ("/field/words", test_words);
  g_test_add_func ("/fact/known-by", test_known_by);
  g_test_add_func ("/fact/set", test_set);
  g_test_add_func ("/fact/strings", test_strings);
  g_test_add_func ("/fact/words", test_word_facts);
  g_test_add_func ("/fact/check/finite", test_check_refuses_what_is_not_finite);
  g_test_add_func ("/fact/check/order", test_check_refuses_disorder);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/fact/parse/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_number);
    }
  return g_test_run ();
}
