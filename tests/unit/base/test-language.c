/* test-language.c: number format, paper and text by language, with no locale installed.
 *
 * Decimal marks and paper: Unicode CLDR (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/language.h"

#include <string.h>

typedef struct
{
  const char *tag;
  const char *tidy;
  const char *number; /* -1234.5 with one place */
  TlPaper     paper;
} Case;

static const Case cases[] = {
  { "en", "en", "−1234.5", TL_PAPER_A4 },
  { "en_US", "en_US", "−1234.5", TL_PAPER_LETTER },
  { "en-us", "en_US", "−1234.5", TL_PAPER_LETTER },
  { "fr_CA.UTF-8", "fr_CA", "−1234,5", TL_PAPER_LETTER },
  { "es_MX", "es_MX", "−1234.5", TL_PAPER_LETTER },
  { "es_ES@euro", "es_ES", "−1234,5", TL_PAPER_A4 },
  { "de", "de", "−1234,5", TL_PAPER_A4 },
  { "de_CH", "de_CH", "−1234.5", TL_PAPER_A4 },
  { "ru", "ru", "−1234,5", TL_PAPER_A4 },
  { "ja_JP", "ja_JP", "−1234.5", TL_PAPER_A4 },
  { "en_PH", "en_PH", "−1234.5", TL_PAPER_LETTER },
  { "C", "en", "−1234.5", TL_PAPER_A4 },
  { "POSIX", "en", "−1234.5", TL_PAPER_A4 },
  { "", "en", "−1234.5", TL_PAPER_A4 },
  { "../../etc/passwd", "en", "−1234.5", TL_PAPER_A4 },
  { "de/../fr", "en", "−1234.5", TL_PAPER_A4 },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlLanguage) language = tl_language_new (c->tag, TL_UNITS_METRIC);
  g_autofree char *number = tl_language_number (language, -1234.5, 1);

  g_assert_cmpstr (tl_language_tag (language), ==, c->tidy);
  g_assert_cmpstr (number, ==, c->number);
  g_assert_cmpint (tl_language_paper (language), ==, c->paper);
  g_assert_cmpstr (tl_language_text (language, "There is no such sentence."), ==,
                   "There is no such sentence.");
  g_assert_cmpstr (tl_language_text (language, ""), ==, "");
  g_assert_cmpstr (tl_language_plural (language, "one washer", "%lu washers", 1), ==, "one washer");
  g_assert_cmpstr (tl_language_plural (language, "one washer", "%lu washers", 5), ==,
                   "%lu washers");
}

static void
test_numbers (void)
{
  static const struct
  {
    double      value;
    guint       decimals;
    const char *text;
  } numbers[] = {
    { 0.0, 0, "0" },
    { -0.0, 2, "0.00" },
    { -0.004, 2, "0.00" },
    { -0.006, 2, "−0.01" },
    { 1e15, 0, "1000000000000000" },
    { 1e-7, 9, "0.000000100" },
    { 2.0, 3, "2.000" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *text =
          tl_language_number (tl_language_plain (), numbers[i].value, numbers[i].decimals);

      g_assert_cmpstr (text, ==, numbers[i].text);
    }
}

static void
test_huge (void)
{
  g_autofree char *text = tl_language_number (tl_language_plain (), 1.7e308, 15);

  g_assert_cmpuint (strlen (text), ==, 309 + 1 + 15);
}

static void
test_process (void)
{
  g_autoptr (TlLanguage) language = tl_language_new (NULL, TL_UNITS_CUSTOMARY);
  g_autofree char *number = tl_language_number (language, 0.5, 1);

  /* The test runs in the C locale, as every program does before setlocale(). */
  g_assert_cmpstr (tl_language_tag (language), ==, "en");
  g_assert_cmpstr (number, ==, "0.5");
  g_assert_cmpint (tl_language_units (language), ==, TL_UNITS_CUSTOMARY);
  g_assert_cmpint (tl_language_units (tl_language_plain ()), ==, TL_UNITS_METRIC);
}

static gpointer
work (gpointer data)
{
  for (guint i = 0; i < 500; i++)
    {
      g_autoptr (TlLanguage) shared = tl_language_ref (data);
      g_autoptr (TlLanguage) own = tl_language_new ("de", TL_UNITS_METRIC);
      g_autofree char *a = tl_language_number (shared, 0.5, 1);
      g_autofree char *b = tl_language_number (own, 0.5, 1);

      g_assert_cmpstr (a, ==, b);
      g_assert_cmpstr (tl_language_text (own, "bright"), ==, tl_language_text (shared, "bright"));
    }
  return NULL;
}

static void
test_threads (void)
{
  g_autoptr (TlLanguage) language = tl_language_new ("fr", TL_UNITS_METRIC);
  GThread *threads[4];

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("language", work, language);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_null (g_thread_join (threads[i]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/language/tag/%u-%s", i, cases[i].tidy);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/language/numbers", test_numbers);
  g_test_add_func ("/language/huge", test_huge);
  g_test_add_func ("/language/process", test_process);
  g_test_add_func ("/language/threads", test_threads);
  return g_test_run ();
}
