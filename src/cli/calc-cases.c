/* calc-cases.c: the table of a case file, and what all outputs of calc share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/calc-private.h"
#include "base/quantity.h"
#include "physics/cases.h"
#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

/* One line whatever the user wrote: control characters and broken UTF-8 are made visible. */
int
tl_calc_fail (const char *message)
{
  g_autofree char *line = g_utf8_make_valid (message, -1);

  for (char *p = line; *p != '\0'; p++)
    if (g_ascii_iscntrl (*p))
      *p = ' ';
  fprintf (stderr, "%s\n", line);
  return TL_CALC_WRONG;
}

int
tl_calc_write_out (const char *text, int code)
{
  if (fputs (text, stdout) == EOF || fflush (stdout) == EOF)
    return tl_calc_fail (
        _ ("standard output cannot be written; is the disk full or the reader gone?"));
  return code;
}

int
tl_calc_write_json (JsonBuilder *builder, int code)
{
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = json_builder_get_root (builder);

  json_generator_set_root (generator, root);
  json_generator_set_pretty (generator, TRUE);
  g_autofree char *text = json_generator_to_data (generator, NULL);
  g_autofree char *whole = g_strconcat (text, "\n", NULL);
  return tl_calc_write_out (whole, code);
}

/* Six significant figures, no trailing noise; the language's decimal mark where no exponent is
 * needed. */
static char *
figure_text (double value, const TlLanguage *language)
{
  char plain[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (plain, sizeof plain, "%.6g", value);
  if (language == NULL || strchr (plain, 'e') != NULL)
    return g_strdup (plain);
  const char *point = strchr (plain, '.');
  return tl_language_number (language, value, point == NULL ? 0 : (guint) strlen (point + 1));
}

/* "12500 N", "7211.54..11718.7 N"; @language is NULL for tables that other programs read. */
char *
tl_calc_range_text (TlRange range, const char *unit, const TlLanguage *language)
{
  const char *label =
      language == NULL ? (strcmp (unit, "1") == 0 ? "" : unit) : tl_unit_label (unit);
  const char      *space = label[0] == '\0' ? "" : " ";
  g_autofree char *low = figure_text (range.low, language);

  if (tl_range_is_exact (range))
    return g_strconcat (low, space, label, NULL);
  g_autofree char *high = figure_text (range.high, language);
  if (language == NULL)
    return g_strconcat (low, "..", high, space, label, NULL);
  g_autofree char *best = figure_text (range.best, language);
  /* Translators: best estimate, unit, low end, high end, unit */
  return g_strdup_printf (tl_language_text (language, "%s%s%s (from %s to %s%s%s)"), best, space,
                          label, low, high, space, label);
}

void
tl_calc_json_range (JsonBuilder *builder, TlRange range, const char *unit)
{
  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "value");
  json_builder_add_double_value (builder, range.best);
  json_builder_set_member_name (builder, "low");
  json_builder_add_double_value (builder, range.low);
  json_builder_set_member_name (builder, "high");
  json_builder_add_double_value (builder, range.high);
  json_builder_set_member_name (builder, "unit");
  json_builder_add_string_value (builder, unit);
  json_builder_end_object (builder);
}

void
tl_calc_json_word (JsonBuilder *builder, const char *word)
{
  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "value");
  json_builder_add_string_value (builder, word);
  json_builder_set_member_name (builder, "unit");
  json_builder_add_string_value (builder, "word");
  json_builder_end_object (builder);
}

void
tl_calc_json_text (JsonBuilder *builder, const char *name, const char *text)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text);
}

static const char *
state_word (TlCaseState state)
{
  switch (state)
    {
    case TL_CASE_IN:
      return "in";
    case TL_CASE_OUT:
      return "out";
    case TL_CASE_LEFT_OUT:
      return "left out";
    }
  g_return_val_if_reached ("out");
}

static void
append_figure (GString *text, const TlCaseFigure *figure, gboolean expected)
{
  if (text->len > 0)
    g_string_append (text, "; ");
  g_string_append_printf (text, "%s=", figure->output);
  if (!expected && !figure->has_computed)
    g_string_append (text, "-");
  else if (figure->expected_word != NULL)
    g_string_append (text, expected ? figure->expected_word : figure->computed_word);
  else
    {
      g_autofree char *value =
          tl_calc_range_text (expected ? figure->expected : figure->computed, figure->unit, NULL);
      g_string_append (text, value);
    }
}

/* Tab-separated: id, computed, expected, in or out. */
static int
print_cases (const TlCases *cases, const TlLanguage *language, int code)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < cases->cases->len; i++)
    {
      const TlCase *row = cases->cases->pdata[i];
      g_autoptr (GString) computed = g_string_new (NULL), expected = g_string_new (NULL);

      for (guint f = 0; f < row->figures->len; f++)
        {
          append_figure (computed, &g_array_index (row->figures, TlCaseFigure, f), FALSE);
          append_figure (expected, &g_array_index (row->figures, TlCaseFigure, f), TRUE);
        }
      if (row->state == TL_CASE_LEFT_OUT)
        g_string_append_printf (text, "%s\t-\t-\tleft out: %s\n", row->id, row->reason);
      else
        g_string_append_printf (text, "%s\t%s\t%s\t%s\n", row->id, computed->str, expected->str,
                                state_word (row->state));
    }
  g_string_append_printf (text, tl_language_text (language, "%u passed, %u failed, %u left out"),
                          cases->passed, cases->failed, cases->left_out);
  g_string_append_c (text, '\n');
  return tl_calc_write_out (text->str, code);
}

static void
json_case_figure (JsonBuilder *builder, const TlCaseFigure *figure)
{
  json_builder_begin_object (builder);
  tl_calc_json_text (builder, "output", figure->output);
  json_builder_set_member_name (builder, "expected");
  if (figure->expected_word != NULL)
    tl_calc_json_word (builder, figure->expected_word);
  else
    tl_calc_json_range (builder, figure->expected, figure->unit);
  json_builder_set_member_name (builder, "computed");
  if (!figure->has_computed)
    json_builder_add_null_value (builder);
  else if (figure->computed_word != NULL)
    tl_calc_json_word (builder, figure->computed_word);
  else
    tl_calc_json_range (builder, figure->computed, figure->unit);
  json_builder_set_member_name (builder, "in");
  json_builder_add_boolean_value (builder, figure->fits);
  json_builder_end_object (builder);
}

static int
print_cases_json (const TlCases *cases, int code)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_int_value (builder, 1);
  json_builder_set_member_name (builder, "cases");
  json_builder_begin_array (builder);
  for (guint i = 0; i < cases->cases->len; i++)
    {
      const TlCase *row = cases->cases->pdata[i];

      json_builder_begin_object (builder);
      tl_calc_json_text (builder, "id", row->id);
      tl_calc_json_text (builder, "formula", row->formula);
      tl_calc_json_text (builder, "result", state_word (row->state));
      if (row->reason != NULL)
        tl_calc_json_text (builder, "reason", row->reason);
      tl_calc_json_text (builder, "source", row->source);
      tl_calc_json_text (builder, "known_by", row->known_by);
      json_builder_set_member_name (builder, "figures");
      json_builder_begin_array (builder);
      for (guint f = 0; f < row->figures->len; f++)
        json_case_figure (builder, &g_array_index (row->figures, TlCaseFigure, f));
      json_builder_end_array (builder);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "passed");
  json_builder_add_int_value (builder, cases->passed);
  json_builder_set_member_name (builder, "failed");
  json_builder_add_int_value (builder, cases->failed);
  json_builder_set_member_name (builder, "left_out");
  json_builder_add_int_value (builder, cases->left_out);
  json_builder_end_object (builder);
  return tl_calc_write_json (builder, code);
}

int
tl_calc_cases (const char *path, gboolean as_json, const TlLanguage *language)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlCases) cases = tl_cases_read (path, &error);

  if (cases == NULL)
    return tl_calc_fail (error->message);
  const int code = cases->failed > 0 ? TL_CALC_OUT_OF_TOLERANCE : TL_CALC_DONE;
  return as_json ? print_cases_json (cases, code) : print_cases (cases, language, code);
}
