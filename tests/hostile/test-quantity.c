/* test-quantity.c: text that no person means as a figure.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"

#include <math.h>
#include <string.h>

#define ROUNDS 8000

static void
check (const char *text)
{
  static const char *const units[] = { "mm", "mm2", "N_m", "degC", "1", "1/in" };

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GError) range_error = NULL;
      double  value = NAN;
      TlRange range = { NAN, NAN, NAN };

      if (tl_quantity_parse (text, units[i], &value, &error))
        g_assert_true (isfinite (value));
      else
        {
          g_assert_true (isnan (value));
          g_assert_true (g_utf8_validate (error->message, -1, NULL));
          g_assert_null (strchr (error->message, '\n'));
          g_assert_cmpuint (strlen (error->message), <, 800);
        }
      if (tl_quantity_parse_range (text, units[i], &range, &range_error))
        g_assert_true (tl_range_is_valid (range));
      else
        g_assert_nonnull (range_error);
    }
}

/* Words of the grammar in any order. */
static void
test_shuffled (void)
{
  static const char *const words[] = { "1",  "0",    "9",        ".",      ",",      "..",  "/",
                                       " ",  "-",    "+",        "e",      "E9",     "mm",  "²",
                                       "·",  "°C",   "AWG",      "\u2212", "\u00a0", "nan", "1e308",
                                       "in", "\xff", "\xe2\x88", "\n",     "%",      "\"" };
  GRand                   *random = g_rand_new_with_seed (3);

  for (guint i = 0; i < ROUNDS; i++)
    {
      GString *text = g_string_new (NULL);
      gint32   count = g_rand_int_range (random, 0, 9);

      for (gint32 j = 0; j < count; j++)
        g_string_append (text, words[g_rand_int_range (random, 0, G_N_ELEMENTS (words))]);
      check (text->str);
      g_string_free (text, TRUE);
    }
  g_rand_free (random);
}

static void
test_long (void)
{
  g_autofree char *digits = g_strnfill (1000000, '9');
  g_autofree char *spaces = g_strnfill (1000000, ' ');
  g_autofree char *unit = g_strnfill (1000000, 'm');

  check (digits);
  check (spaces);
  check (unit);
}

/* 150 digits fit in the text and in a double; 310 would not, and 1e999 does not. */
static void
test_extremes (void)
{
  g_autofree char *digits = g_strnfill (150, '9');
  g_autoptr (GError) error = NULL;
  double value = NAN;

  g_assert_true (tl_quantity_parse (digits, "mm", &value, NULL));
  g_assert_cmpfloat_with_epsilon (value, 1e150, 1e136);
  g_assert_false (tl_quantity_parse ("1e999999999999999999999", "mm", &value, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_true (tl_quantity_parse ("1e-999", "mm", &value, NULL));
  g_assert_cmpfloat (value, ==, 0.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hostile/quantity/shuffled", test_shuffled);
  g_test_add_func ("/hostile/quantity/long", test_long);
  g_test_add_func ("/hostile/quantity/extremes", test_extremes);
  return g_test_run ();
}
