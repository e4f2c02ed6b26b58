/* test-defect.c: the catalogue of defects: complete, with sources, searched by words and family.
 *
 * The list of ids is that of the collected catalogue of visible defects: D01 to D14, D20 to D33, D40 to D50, D55 to D61, D65 to
 * D77, D80 to D89, D90 to D97, D100 to D111; severities spot-checked against it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/mark.h"

#include <string.h>

static TlStock   *stock;
static TlDefects *defects;

static void
test_complete (void)
{
  static const guint runs[][2] = { { 1, 14 },  { 20, 33 }, { 40, 50 }, { 55, 61 },
                                   { 65, 77 }, { 80, 89 }, { 90, 97 }, { 100, 111 } };
  guint              wanted = 0;

  for (guint i = 0; i < G_N_ELEMENTS (runs); i++)
    for (guint n = runs[i][0]; n <= runs[i][1]; n++, wanted++)
      {
        g_autofree char *id = g_strdup_printf (n < 10 ? "D0%u" : "D%u", n);

        if (tl_defects_find (defects, id) == NULL)
          g_error ("%s is missing", id);
      }
  g_assert_cmpuint (wanted, ==, 89);
  g_assert_cmpuint (tl_defects_all (defects)->len, >, wanted);
  g_assert_null (tl_defects_find (defects, "D999"));
}

static void
test_rows (void)
{
  for (guint i = 0; i < tl_defects_all (defects)->len; i++)
    {
      const TlDefect *row = g_ptr_array_index (tl_defects_all (defects), i);

      g_assert_nonnull (tl_stock_source (stock, row->source));
      g_assert_cmpint (row->grade, >=, TL_GRADE_WATCH);
      g_assert_cmpint (row->known_by, >=, TL_KNOWN_SEEN);
      /* What is seen is not what is guessed. */
      g_assert_null (strstr (row->seen, "caused by"));
    }
}

static void
test_severities (void)
{
  static const struct
  {
    const char *id;
    TlGrade     grade;
  } cases[] = { { "D01", TL_GRADE_UNSAFE }, { "D03", TL_GRADE_CHANGE }, { "D06", TL_GRADE_WATCH },
                { "D29", TL_GRADE_UNSAFE }, { "D47", TL_GRADE_CHANGE }, { "D66", TL_GRADE_UNSAFE },
                { "D80", TL_GRADE_UNSAFE }, { "D96", TL_GRADE_WATCH },  { "D97", TL_GRADE_UNSAFE },
                { "D101", TL_GRADE_WATCH }, { "D105", TL_GRADE_UNSAFE } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (tl_defects_find (defects, cases[i].id)->grade, ==, cases[i].grade);
}

static void
test_search (void)
{
  g_autoptr (GPtrArray) adhesive =
      tl_defects_search (defects, NULL, "ADHESIVE end", tl_language_plain ());
  g_autoptr (GPtrArray) spring = tl_defects_search (defects, "spring", "", tl_language_plain ());
  g_autoptr (GPtrArray) none =
      tl_defects_search (defects, "spring", "solder", tl_language_plain ());
  g_autoptr (GPtrArray) by_id = tl_defects_search (defects, NULL, "d105", tl_language_plain ());

  g_assert_cmpuint (adhesive->len, ==, 1);
  g_assert_cmpstr (((TlDefect *) g_ptr_array_index (adhesive, 0))->id, ==, "D80");
  g_assert_cmpuint (spring->len, >=, 7);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (by_id->len, ==, 1);
  g_assert_cmpuint (tl_defects_families (defects)->len, ==, 8);
}

static void
test_bad (void)
{
  static const char *const bad[] = {
    "<defects xmlns='urn:other'/>",
    "<defects xmlns='urn:tinlap:defects:1'><family id='a'/></defects>",
    "<defects xmlns='urn:tinlap:defects:1'><family id='a' title='b'><defect "
    "id='D1'/></family></defects>",
    "<defects xmlns='urn:tinlap:defects:1'><family id='a' title='b'><defect id='D1' severity='bad' "
    "seen='s' cause='c' follows='f' do='d' "
    "known-by='seen' source='common-practice'/></family></defects>",
    "<defects xmlns='urn:tinlap:defects:1'><family id='a' title='b'><defect id='D1' "
    "severity='stop' seen='s' cause='c' follows='f' do='d' "
    "known-by='seen' source='no-such'/></family></defects>",
    "not xml",
  };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (tl_defects_parse (bad[i], strlen (bad[i]), stock, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, "defects.xml:"));
    }
}

/* Sentences that a picture cannot carry are objected to. */
static void
test_objections (void)
{
  static const struct
  {
    const char *seen, *cause, *criterion, *source;
    guint       count;
  } cases[] = {
    { "Insulation browned", "consistent with heat", "", "", 0 },
    { "Browning caused by a loose screw", "", "", "", 1 },
    { "Overlap seen", "", "complies", "", 1 },
    { "Overlap seen", "", "complies with the table", "iec-60364-6", 0 },
    { "The joint is sound", "", "", "", 1 },
    { "", "", "", "", 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TlPictureMark *mark = tl_record_new (&tl_picture_mark_form);
      g_autoptr (GPtrArray) objections = NULL;

      tl_record_text (&mark->seen, cases[i].seen);
      tl_record_text (&mark->cause, cases[i].cause);
      tl_record_text (&mark->criterion, cases[i].criterion);
      tl_record_text (&mark->source, cases[i].source);
      objections = tl_picture_mark_objections (mark, tl_language_plain ());
      g_assert_cmpuint (objections->len, ==, cases[i].count);
      tl_record_unref (mark);
    }
}

/* The words of the report's language count beside English ones; case and ways to write an accent do not matter. */
static void
test_objections_by_language (void)
{
  static const struct
  {
    const char *tag, *seen, *criterion, *source;
    guint       count;
  } cases[] = {
    { "de", "Bräunung VERURSACHT durch lose Schraube", "", "", 1 },
    { "de_CH", "Bräunung, passt zu Wärme", "", "", 0 },
    { "de", "Überlappung", "Entspricht der Norm", "", 1 },
    { "de", "Überlappung", "entspricht der Norm", "iec-60364-6", 0 },
    { "de", "Browning caused by heat", "", "", 1 },
    { "en", "Bräunung verursacht durch Wärme", "", "", 0 },
    { "fr", "Brunissement dû, cause\xcc\x81 par la chaleur", "", "", 1 },
    { "ru_RU", "Потемнение ВЫЗВАНО нагревом", "", "", 1 },
    { "ru", "Соединение исправно", "", "", 1 },
    { "es", "Está en buen estado", "", "", 1 },
    { "xx", "Something is sound", "", "", 1 },
    /* From the beginning of a word: "faulty" and "unsafe" are no praise, and to move is no reason. */
    { "ru", "Соединение неисправно", "", "", 0 },
    { "ru", "Соединение небезопасно", "", "", 0 },
    { "de", "Der Leiter lässt sich bewegen und biegen", "", "", 0 },
    { "de", "Wegen Feuchte gebräunt", "", "", 1 },
    { "de", "(wegen Feuchte gebräunt)", "", "", 1 },
    { "fr", "Bruni à cause d'une vis lâche", "", "", 1 },
    { "fr", "Brins noircis, causés par la chaleur", "", "", 1 },
    { "fr", "Recouvrements vus", "conformes", "", 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlLanguage) language = tl_language_new (cases[i].tag, TL_UNITS_METRIC);
      TlPictureMark *mark = tl_record_new (&tl_picture_mark_form);
      g_autoptr (GPtrArray) objections = NULL;

      tl_record_text (&mark->seen, cases[i].seen);
      tl_record_text (&mark->criterion, cases[i].criterion);
      tl_record_text (&mark->source, cases[i].source);
      objections = tl_picture_mark_objections_by (mark, stock, language);
      if (objections->len != cases[i].count)
        g_error ("%s: “%s” has %u objections", cases[i].tag, cases[i].seen, objections->len);
      tl_record_unref (mark);
    }
}

/* Each language of the table has all three kinds, and no word is so short that it stands in many others. */
static void
test_report_words (void)
{
  static const char *const kinds[] = { "certain", "complying", "sound" };
  const TlTable           *table = tl_stock_table (stock, "report-words");

  g_assert_nonnull (table);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);

      g_assert_cmpint (g_utf8_strlen (tl_table_word (table, row, "words"), -1), >=, 5);
      for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
        g_assert_nonnull (tl_stock_row (stock, "report-words", "*",
                                        tl_table_word (table, row, "language"), kinds[k], NULL));
    }
}

/* Words of the whole catalogue, put into a mark, raise no objection. */
static void
test_catalogue_words (void)
{
  for (guint i = 0; i < tl_defects_all (defects)->len; i++)
    {
      TlPictureMark *mark = tl_record_new (&tl_picture_mark_form);
      g_autoptr (GPtrArray) objections = NULL;

      tl_picture_mark_set_defect (mark, g_ptr_array_index (tl_defects_all (defects), i),
                                  tl_language_plain ());
      objections = tl_picture_mark_objections_by (mark, stock, tl_language_plain ());
      g_assert_cmpuint (objections->len, ==, 0);
      tl_record_unref (mark);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  defects = tl_defects_load (stock, &error);
  g_assert_no_error (error);
  g_test_add_func ("/defect/complete", test_complete);
  g_test_add_func ("/defect/rows", test_rows);
  g_test_add_func ("/defect/severities", test_severities);
  g_test_add_func ("/defect/search", test_search);
  g_test_add_func ("/defect/bad", test_bad);
  g_test_add_func ("/defect/objections", test_objections);
  g_test_add_func ("/defect/objections-by-language", test_objections_by_language);
  g_test_add_func ("/defect/report-words", test_report_words);
  g_test_add_func ("/defect/catalogue-words", test_catalogue_words);
  code = g_test_run ();
  tl_defects_unref (defects);
  tl_stock_unref (stock);
  return code;
}
