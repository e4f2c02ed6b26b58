/* cases.c: rows of a case file, judged.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cases.h"
#include "base/file.h"
#include "base/quantity.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* "exact" for figures: the rounding of a few operations on doubles. */
#define EXACT_SHARE 1e-9

enum
{
  COLUMN_ID,
  COLUMN_FORMULA,
  COLUMN_INPUTS,
  COLUMN_EXPECTED,
  COLUMN_UNIT,
  COLUMN_TOLERANCE,
  COLUMN_SOURCE,
  COLUMN_KNOWN_BY,
  COLUMN_NOTE,
  N_COLUMNS
};

static const char *const column_names[N_COLUMNS] = {
  "id", "formula", "inputs", "expected", "unit", "tolerance", "source", "known_by", "note",
};

typedef struct
{
  gboolean exact;
  gboolean relative;
  double   amount; /* ratio when relative, else in the row's unit */
} Tolerance;

static void
figure_clear (TlCaseFigure *self)
{
  g_free (self->output);
  g_free (self->unit);
  g_free (self->expected_word);
}

static void
case_free (TlCase *self)
{
  g_free (self->id);
  g_free (self->formula);
  g_free (self->source);
  g_free (self->known_by);
  g_free (self->reason);
  g_array_unref (self->figures);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlCase, case_free)

void
tl_cases_free (TlCases *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->cases);
  g_free (self);
}

/* --- one row --- */

static gboolean
parse_tolerance (const char *text, Tolerance *tolerance, GError **error)
{
  g_autofree char *number = g_strstrip (g_strdup (text));
  const gsize      length = strlen (number);

  *tolerance = (Tolerance){ .exact = strcmp (number, "exact") == 0 };
  if (tolerance->exact)
    return TRUE;
  if (length > 0 && number[length - 1] == '%')
    {
      tolerance->relative = TRUE;
      number[length - 1] = '\0';
      g_strchomp (number);
    }
  if (!tl_number_parse (number, &tolerance->amount, NULL) || tolerance->amount < 0.0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("the tolerance is \"%s\"; it must be exact, a share such as 0.1 %%, or a "
                      "figure such as 0.05"),
                   text);
      return FALSE;
    }
  if (tolerance->relative)
    tolerance->amount /= 100.0;
  return TRUE;
}

/* Splits "a=b; c=d" at the semicolons; empty pieces at the end are dropped, others refused. */
static GStrv
split_list (const char *text, const char *what, GError **error)
{
  g_auto (GStrv) pieces = g_strsplit (text, ";", -1);
  guint n = g_strv_length (pieces);

  for (guint i = 0; i < n; i++)
    g_strstrip (pieces[i]);
  while (n > 0 && pieces[n - 1][0] == '\0')
    g_clear_pointer (&pieces[--n], g_free);
  for (guint i = 0; i < n; i++)
    if (pieces[i][0] == '\0')
      {
        g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                     _ ("%s has an empty entry; remove the semicolon"), what);
        return NULL;
      }
  return g_steal_pointer (&pieces);
}

static gboolean
set_inputs (TlCall *call, const char *text, GError **error)
{
  g_auto (GStrv) pieces = split_list (text, "inputs", error);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  if (pieces == NULL)
    return FALSE;
  for (guint i = 0; pieces[i] != NULL; i++)
    {
      char *equals = strchr (pieces[i], '=');

      if (equals == NULL)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                       _ ("the input \"%s\" has no value; write name=value unit"), pieces[i]);
          return FALSE;
        }
      *equals = '\0';
      g_strchomp (pieces[i]);
      if (!g_hash_table_add (seen, pieces[i]))
        {
          g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                       _ ("the input %s is given twice; give it once"), pieces[i]);
          return FALSE;
        }
      if (!tl_call_set_text (call, pieces[i], equals + 1, error))
        return FALSE;
    }
  return TRUE;
}

static int
find_output (const TlFormula *formula, const char *name)
{
  for (int i = 0; formula->outputs[i].name != NULL; i++)
    if (strcmp (formula->outputs[i].name, name) == 0)
      return i;
  return -1;
}

static gboolean
is_one_of (const char *const *words, const char *word)
{
  return g_strv_contains (words, word);
}

/* "7211.54..11718.7" or one figure. */
static gboolean
parse_expected (const char *text, TlRange *range, GError **error)
{
  const char *dots = strstr (text, "..");
  double      low, high;

  if (dots == NULL)
    {
      if (!tl_number_parse (text, &low, error))
        return FALSE;
      *range = tl_range_exact (low);
      return TRUE;
    }
  g_autofree char *first = g_strndup (text, (gsize) (dots - text));
  if (!tl_number_parse (first, &low, error) || !tl_number_parse (dots + 2, &high, error))
    return FALSE;
  if (low > high)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("the expected range %s falls; give the low end first"), text);
      return FALSE;
    }
  *range = (TlRange){ low, low + (high - low) / 2.0, high };
  return TRUE;
}

static gboolean
convert_range (TlRange *range, const char *from, const char *to, GError **error)
{
  if (strcmp (from, to) == 0)
    return TRUE;
  return tl_quantity_convert (range->low, from, to, &range->low, error)
         && tl_quantity_convert (range->best, from, to, &range->best, error)
         && tl_quantity_convert (range->high, from, to, &range->high, error);
}

static gboolean
is_near (double computed, double expected, const Tolerance *tolerance)
{
  double allowed = tolerance->relative ? tolerance->amount * fabs (expected) : tolerance->amount;

  if (tolerance->exact)
    allowed = EXACT_SHARE * MAX (fabs (expected), EXACT_SHARE);
  /* A difference printed as the tolerance itself counts as within. */
  return fabs (computed - expected) <= allowed * (1.0 + EXACT_SHARE);
}

/* One "output=figure" against the call. */
static gboolean
judge_figure (const TlCall *call, int output, const char *text, const char *unit,
              const Tolerance *tolerance, TlCaseFigure *figure, GError **error)
{
  const TlFormulaOutput *row = &call->formula->outputs[output];

  figure->output = g_strdup (row->name);
  figure->unit = g_strdup (unit);
  figure->has_computed = call->has_out[output];
  if (row->words != NULL)
    {
      if (strcmp (unit, "word") != 0 || !is_one_of (row->words, text))
        {
          g_autofree char *offered = g_strjoinv (", ", (char **) row->words);

          g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                       _ ("%s is expected to be \"%s\"; it must be one of %s, with the unit word"),
                       row->name, text, offered);
          return FALSE;
        }
      figure->expected_word = g_strdup (text);
      if (figure->has_computed)
        figure->computed_word = tl_call_get_word (call, row->name);
      figure->fits = g_strcmp0 (figure->computed_word, text) == 0;
      return TRUE;
    }
  const char *from = tl_call_output_unit (call, (guint) output);
  if (strcmp (from, unit) != 0 && !tl_unit_converts (from, unit))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                   _ ("%s is expected in \"%s\"; it must be in %s or a unit like it"), row->name,
                   unit, from);
      return FALSE;
    }
  if (!parse_expected (text, &figure->expected, error))
    return FALSE;
  if (!figure->has_computed)
    return TRUE;
  figure->computed = call->out[output];
  if (!convert_range (&figure->computed, from, unit, error))
    return FALSE;
  figure->fits = tl_range_is_exact (figure->expected)
                     ? is_near (figure->computed.best, figure->expected.best, tolerance)
                     : is_near (figure->computed.low, figure->expected.low, tolerance)
                           && is_near (figure->computed.high, figure->expected.high, tolerance);
  return TRUE;
}

static gboolean
judge_figures (const TlCall *call, char **fields, TlCase *result, GError **error)
{
  Tolerance tolerance;
  g_auto (GStrv) expected = split_list (fields[COLUMN_EXPECTED], "expected", error);
  g_auto (GStrv) units = expected == NULL ? NULL : split_list (fields[COLUMN_UNIT], "unit", error);

  if (units == NULL || !parse_tolerance (fields[COLUMN_TOLERANCE], &tolerance, error))
    return FALSE;
  const guint n = g_strv_length (expected), n_units = g_strv_length (units);
  if (n == 0 || (n_units != 1 && n_units != n))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("there are %u expected figures and %u units; give one figure at least, and "
                      "one unit or as many as figures"),
                   n, n_units);
      return FALSE;
    }
  for (guint i = 0; i < n; i++)
    {
      char       *equals = strchr (expected[i], '=');
      const char *name = call->formula->outputs[0].name;
      const char *text = expected[i];

      if (equals != NULL)
        {
          *equals = '\0';
          name = g_strchomp (expected[i]);
          text = g_strchug (equals + 1);
        }
      const int output = equals == NULL && n > 1 ? -1 : find_output (call->formula, name);
      if (output < 0)
        {
          g_set_error (
              error, TL_ERROR, TL_ERROR_NAME,
              _ ("%s has no output \"%s\"; write output=figure with a name of calc --list"),
              call->formula->id, equals == NULL ? text : name);
          return FALSE;
        }
      TlCaseFigure   figure = { 0 };
      const gboolean judged = judge_figure (call, output, text, units[n_units == 1 ? 0 : i],
                                            &tolerance, &figure, error);
      g_array_append_val (result->figures, figure);
      if (!judged)
        return FALSE;
      if (!figure.fits)
        result->state = TL_CASE_OUT;
    }
  return TRUE;
}

static TlCase *
judge_row (char **fields, guint line, GError **error)
{
  g_autoptr (TlCase) result = g_new0 (TlCase, 1);
  TlCall call;

  result->line = line;
  result->id = g_strstrip (g_strdup (fields[COLUMN_ID]));
  result->formula = g_strstrip (g_strdup (fields[COLUMN_FORMULA]));
  result->source = g_strdup (fields[COLUMN_SOURCE]);
  result->known_by = g_strdup (fields[COLUMN_KNOWN_BY]);
  result->figures = g_array_new (FALSE, FALSE, sizeof (TlCaseFigure));
  g_array_set_clear_func (result->figures, (GDestroyNotify) figure_clear);
  if (result->id[0] == '\0' || result->formula[0] == '\0')
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_PARSE,
                           _ ("the row has no id or no formula; it must have both"));
      return NULL;
    }
  if (tl_formula_find (result->formula) == NULL)
    {
      result->state = TL_CASE_LEFT_OUT;
      result->reason = g_strdup_printf (_ ("there is no formula called %s; calc --list names all"),
                                        result->formula);
      return g_steal_pointer (&result);
    }
  tl_call_init (&call, result->formula);
  if (!set_inputs (&call, fields[COLUMN_INPUTS], error) || !tl_call_run (&call, error)
      || !judge_figures (&call, fields, result, error))
    return NULL;
  return g_steal_pointer (&result);
}

/* --- the file --- */

/* Where each column stands in the header. */
static gboolean
find_columns (char **header, guint *place, guint line, const char *file, GError **error)
{
  for (guint c = 0; c < N_COLUMNS; c++)
    {
      place[c] = G_MAXUINT;
      for (guint i = 0; header[i] != NULL; i++)
        if (strcmp (g_strstrip (header[i]), column_names[c]) == 0)
          {
            if (place[c] != G_MAXUINT)
              {
                g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                             _ ("%s:%u: the column %s stands twice; it must stand once"), file,
                             line, column_names[c]);
                return FALSE;
              }
            place[c] = i;
          }
      if (place[c] == G_MAXUINT)
        {
          g_autofree char *wanted = g_strjoin (",", "id", "formula", "inputs", "expected", "unit",
                                               "tolerance", "source", "known_by", "note", NULL);

          g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                       _ ("%s:%u: the column %s is missing; the columns must be %s"), file, line,
                       column_names[c], wanted);
          return FALSE;
        }
    }
  return TRUE;
}

TlCases *
tl_cases_parse (const char *data, gsize length, const char *file, GError **error)
{
  g_autoptr (GArray) lines = NULL;
  g_autoptr (GPtrArray) rows = tl_csv_parse (data, length, file, &lines, error);
  guint place[N_COLUMNS];

  if (rows == NULL)
    return NULL;
  if (rows->len == 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("%s:1: the file is empty; it must begin with a line of column names"), file);
      return NULL;
    }
  if (!find_columns (rows->pdata[0], place, g_array_index (lines, guint, 0), file, error))
    return NULL;
  const guint width = g_strv_length (rows->pdata[0]);
  g_autoptr (TlCases) self = g_new0 (TlCases, 1);
  self->cases = g_ptr_array_new_with_free_func ((GDestroyNotify) case_free);
  for (guint r = 1; r < rows->len; r++)
    {
      char      **row = rows->pdata[r], *fields[N_COLUMNS];
      const guint line = g_array_index (lines, guint, r), got = g_strv_length (row);

      if (got != width)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                       _ ("%s:%u: the row has %u fields; it must have %u"), file, line, got, width);
          return NULL;
        }
      for (guint c = 0; c < N_COLUMNS; c++)
        fields[c] = row[place[c]];
      TlCase *result = judge_row (fields, line, error);
      if (result == NULL)
        {
          g_prefix_error (error, "%s:%u: ", file, line);
          return NULL;
        }
      g_ptr_array_add (self->cases, result);
      self->passed += result->state == TL_CASE_IN;
      self->failed += result->state == TL_CASE_OUT;
      self->left_out += result->state == TL_CASE_LEFT_OUT;
    }
  return g_steal_pointer (&self);
}

TlCases *
tl_cases_read (const char *path, GError **error)
{
  g_autofree char *data = NULL;
  gsize            length;

  if (!tl_file_load (path, TL_CASES_MAX_BYTES, &data, &length, error))
    return NULL;
  return tl_cases_parse (data, length, path, error);
}
