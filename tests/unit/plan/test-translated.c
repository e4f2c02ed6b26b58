/* test-translated.c: every text of the data that people read reaches the translators, and their words reach people.
 *
 * GNU gettext, not this project, gathers the texts by po/its/tinlap.its (xgettext, rules after the Internationalization Tag
 * Set 2.0 of the W3C) and makes the catalogue of a made-up language, in which each text has a mark before it. Then the engine
 * is asked in that language.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/criterion.h"
#include "picture/defect.h"
#include "picture/mark.h"
#include "plan-test.h"

#include <glib/gstdio.h>
#include <libintl.h>
#include <locale.h>
#include <string.h>

#define MARK "@@"
#define DATA                                                                                       \
  "data/defects.xml data/stock/materials.xml data/tables/disputes.xml data/tables/identify.xml "   \
  "data/tables/inspection.xml"

typedef struct
{
  char *folder; /* NULL: skipped */
  char *template;
  TlLanguage *language;
} Fixture;

static gboolean
shell (const char *line)
{
  g_autofree char *out = NULL, *complaint = NULL;
  g_autoptr (GError) error = NULL;
  char *argv[] = { "sh", "-ec", (char *) line, NULL };
  int   status = 0;

  g_assert_true (g_spawn_sync (NULL, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, &complaint,
                               &status, &error));
  g_assert_no_error (error);
  if (status != 0)
    g_test_message ("%s: %s%s", line, out, complaint);
  return status == 0;
}

/* The process's language is the made-up one: LANGUAGE counts wherever the locale is not plain C. */
static void
set_up (Fixture *f, gconstpointer data)
{
  static const char *const tools[] = { "xgettext", "msgen", "msgfilter", "msgfmt", "sed" };
  g_autofree char         *line = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (tools); i++)
    {
      g_autofree char *found = g_find_program_in_path (tools[i]);

      if (found == NULL)
        {
          g_test_skip ("the tools of GNU gettext are not installed");
          return;
        }
    }
  if (setlocale (LC_ALL, "C.UTF-8") == NULL)
    {
      g_test_skip ("there is no locale C.UTF-8");
      return;
    }
  f->folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  f->template = g_build_filename (f->folder, "t.pot", NULL);
  line =
      g_strdup_printf ("cd '%s'; export GETTEXTDATADIRS='%s/po'; mkdir -p '%s/xx/LC_MESSAGES'; "
                       "xgettext --no-wrap --from-code=UTF-8 -o '%s' " DATA "; cd '%s'; "
                       "sed 's/CHARSET/UTF-8/' t.pot | msgen --no-wrap -o t.po -; "
                       "msgfilter --no-wrap --keep-header -i t.po -o m.po sed -e '1s/^/" MARK "/'; "
                       "msgfmt -o xx/LC_MESSAGES/" GETTEXT_PACKAGE ".mo m.po",
                       g_getenv ("TINLAP_SOURCE_ROOT"), g_getenv ("TINLAP_SOURCE_ROOT"), f->folder,
                       f->template, f->folder);
  g_assert_true (shell (line));
  g_setenv ("LANGUAGE", "xx", TRUE);
  f->language = tl_language_new (NULL, TL_UNITS_METRIC);
  bindtextdomain (GETTEXT_PACKAGE, f->folder);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_autofree char *line = NULL;

  if (f->folder == NULL)
    return;
  tl_language_unref (f->language);
  g_unsetenv ("LANGUAGE");
  line = g_strdup_printf ("rm -r '%s'", f->folder);
  g_assert_true (shell (line));
  g_free (f->folder);
  g_free (f->template);
}

static guint
assert_known (const Fixture *f, const char *text)
{
  g_autofree char *wanted = g_strconcat (MARK, text, NULL);

  if (text == NULL || *text == '\0')
    return 0;
  g_assert_cmpstr (tl_language_text (f->language, text), ==, wanted);
  return 1;
}

static void
assert_said (const char *text)
{
  g_assert_true (g_str_has_prefix (text, MARK));
}

static void
test_defects (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  TlDefects *defects;
  guint      n = 0;

  if (f->folder == NULL)
    return;
  defects = tl_defects_load (pt_stock (), &error);
  g_assert_no_error (error);
  for (guint i = 0; i < tl_defects_families (defects)->len; i++)
    assert_known (f,
                  ((TlDefectFamily *) g_ptr_array_index (tl_defects_families (defects), i))->title);
  for (guint i = 0; i < tl_defects_all (defects)->len; i++)
    {
      const TlDefect *defect = g_ptr_array_index (tl_defects_all (defects), i);
      TlPictureMark  *mark = tl_record_new (&tl_picture_mark_form);

      n += assert_known (f, defect->seen) + assert_known (f, defect->cause)
           + assert_known (f, defect->follows) + assert_known (f, defect->action);
      tl_picture_mark_set_defect (mark, defect, f->language);
      assert_said (mark->seen);
      tl_record_unref (mark);
    }
  g_assert_cmpuint (n, >, 300);
  tl_defects_unref (defects);
}

static void
test_names (Fixture *f, gconstpointer data)
{
  const GPtrArray *materials = tl_stock_materials (pt_stock ());
  const TlTable   *metals = tl_stock_table (pt_stock (), "identify-metals"),
                *disputes = tl_stock_table (pt_stock (), "disputes");

  if (f->folder == NULL)
    return;
  for (guint i = 0; i < materials->len; i++)
    {
      const TlMaterial *material = g_ptr_array_index (materials, i);

      assert_known (f, material->name);
      assert_said (tl_material_name (pt_stock (), material->id, f->language));
    }
  g_assert_cmpuint (metals->rows->len, >, 3);
  for (guint i = 0; i < metals->rows->len; i++)
    assert_known (f, tl_table_word (metals, g_ptr_array_index (metals->rows, i), "name"));
  for (guint i = 0; i < disputes->rows->len; i++)
    assert_known (f, tl_table_word (disputes, g_ptr_array_index (disputes->rows, i), "text"));
}

static void
test_criteria (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) criteria = tl_criteria_new (pt_stock ());

  if (f->folder == NULL)
    return;
  g_assert_cmpuint (criteria->len, >, 100);
  for (guint i = 0; i < criteria->len; i++)
    {
      const TlCriterion *criterion = g_ptr_array_index (criteria, i);
      g_autofree char   *text = tl_criterion_text (criterion, f->language);

      assert_said (text);
      assert_known (f, criterion->object);
      assert_known (f, criterion->criterion);
      assert_known (f, criterion->says);
      assert_known (f, criterion->of);
      assert_known (f, criterion->note);
    }
}

/* Ids, sources and words of the vocabulary are no business of translators. */
static void
test_no_ids (Fixture *f, gconstpointer data)
{
  static const char *const ids[] = { "\"D01\"",    "\"nfpa-70-110-14\"", "\"common-practice\"",
                                     "\"bolted\"", "\"practice\"",       "\"seen\"",
                                     "\"sheath\"", "\"chosen-here\"",    "\"ic001\"",
                                     "\"soon\"",   "\"metal\"" };
  g_autofree char         *text = NULL;

  if (f->folder == NULL)
    return;
  g_assert_true (g_file_get_contents (f->template, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "msgid \"Bolted stack\""));
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_autofree char *line = g_strconcat ("msgid ", ids[i], "\n", NULL);

      g_assert_null (strstr (text, line));
    }
}

#define TEST(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  TEST ("/translated/defects", test_defects);
  TEST ("/translated/names", test_names);
  TEST ("/translated/criteria", test_criteria);
  TEST ("/translated/no-ids", test_no_ids);
  return g_test_run ();
}
