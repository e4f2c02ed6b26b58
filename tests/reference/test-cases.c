/* Every row of the reference case files as a test of its own: /reference/FILE/ID.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "physics/cases.h"

static const char *const files[] = { "mechanics_cases.csv", "galvanic_cases.csv",
                                     "box_fill_cases.csv", "circuit_cases.csv",
                                     "thermal_cases.csv",   "identify_cases.csv" };
/* Rows in each file: a row lost in an edit must not pass unseen. */
static const guint       rows[G_N_ELEMENTS (files)] = { 77, 85, 31, 49, 54, 18 };

static void
test_row (gconstpointer data)
{
  const TlCase *row = data;

  if (row->state == TL_CASE_LEFT_OUT)
    g_test_message ("left out: %s", row->reason);
  g_assert_cmpint (row->state, !=, TL_CASE_LEFT_OUT);
  g_assert_cmpuint (row->figures->len, >, 0);
  for (guint i = 0; i < row->figures->len; i++)
    {
      const TlCaseFigure *figure = &g_array_index (row->figures, TlCaseFigure, i);

      g_test_message ("%s: %.12g..%.12g %s computed, %.12g..%.12g expected (%s)", figure->output,
                      figure->computed.low, figure->computed.high, figure->unit,
                      figure->expected.low, figure->expected.high, row->source);
      g_assert_cmpstr (figure->computed_word, ==, figure->expected_word);
      g_assert_true (figure->has_computed);
      g_assert_true (figure->fits);
    }
}

static void
test_provenance (gconstpointer data)
{
  const TlCases *cases = data;

  for (guint i = 0; i < cases->cases->len; i++)
    {
      const TlCase *row = cases->cases->pdata[i];

      g_assert_cmpstr (row->source, !=, "");
      g_assert_cmpstr (row->known_by, !=, "");
    }
}

static void
test_count (gconstpointer data)
{
  const guint      index = GPOINTER_TO_UINT (data);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, files[index], NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlCases) cases = tl_cases_read (path, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (cases->cases->len, ==, rows[index]);
  g_assert_cmpuint (cases->passed, ==, rows[index]);
}

int
main (int argc, char **argv)
{
  TlCases *read[G_N_ELEMENTS (files)];

  g_test_init (&argc, &argv, NULL);
  for (guint f = 0; f < G_N_ELEMENTS (files); f++)
    {
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, files[f], NULL);
      g_autofree char *count = g_strdup_printf ("/reference/%s/all-rows", files[f]);
      g_autofree char *provenance = g_strdup_printf ("/reference/%s/provenance", files[f]);
      g_autoptr (GError) error = NULL;

      read[f] = tl_cases_read (path, &error);
      g_assert_no_error (error);
      g_test_add_data_func (count, GUINT_TO_POINTER (f), test_count);
      g_test_add_data_func (provenance, read[f], test_provenance);
      for (guint i = 0; i < read[f]->cases->len; i++)
        {
          const TlCase    *row = read[f]->cases->pdata[i];
          g_autofree char *name = g_strdup_printf ("/reference/%s/%s", files[f], row->id);

          g_test_add_data_func (name, row, test_row);
        }
    }
  const int result = g_test_run ();
  for (guint f = 0; f < G_N_ELEMENTS (files); f++)
    tl_cases_free (read[f]);
  return result;
}
