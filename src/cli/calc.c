/* calc.c: see calc.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/calc.h"
#include "base/quantity.h"
#include "physics/cases.h"
#include "physics/formula.h"
#include <glib/gi18n-lib.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum
{
  EXIT_DONE,
  EXIT_OUT_OF_TOLERANCE,
  EXIT_WRONG
};

typedef struct
{
  gboolean as_json;
  gboolean list;
  const char *cases;
  GPtrArray *rest; /* (element-type utf8) not owned: formula id, then name=value */
} Options;

/* --- printing --- */

/* One line whatever the user wrote: control characters and broken UTF-8 are made visible. */
static int
fail (const char *message)
{
  g_autofree char *line = g_utf8_make_valid (message, -1);

  for (char *p = line; *p != '\0'; p++)
    if (g_ascii_iscntrl (*p))
      *p = ' ';
  fprintf (stderr, "%s\n", line);
  return EXIT_WRONG;
}

static int
write_out (const char *text, int code)
{
  if (fputs (text, stdout) == EOF || fflush (stdout) == EOF)
    return fail (_ ("standard output cannot be written; is the disk full or the reader gone?"));
  return code;
}

static int
write_json (JsonBuilder *builder, int code)
{
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = json_builder_get_root (builder);

  json_generator_set_root (generator, root);
  json_generator_set_pretty (generator, TRUE);
  g_autofree char *text = json_generator_to_data (generator, NULL);
  g_autofree char *whole = g_strconcat (text, "\n", NULL);
  return write_out (whole, code);
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
  return tl_language_number (language, value, point == NULL ? 0 : (guint)strlen (point + 1));
}

/* "12500 N", "7211.54..11718.7 N"; @language is NULL for tables that other programs read. */
static char *
range_text (TlRange range, const char *unit, const TlLanguage *language)
{
  const char *label =
      language == NULL ? (strcmp (unit, "1") == 0 ? "" : unit) : tl_unit_label (unit);
  const char *space = label[0] == '\0' ? "" : " ";
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

static void
json_range (JsonBuilder *builder, TlRange range, const char *unit)
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

static void
json_word (JsonBuilder *builder, const char *word)
{
  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "value");
  json_builder_add_string_value (builder, word);
  json_builder_set_member_name (builder, "unit");
  json_builder_add_string_value (builder, "word");
  json_builder_end_object (builder);
}

static void
json_text (JsonBuilder *builder, const char *name, const char *text)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text);
}

/* --- one formula --- */

static const char *
class_text (TlTrust trust, const TlLanguage *language)
{
  switch (trust)
    {
    case TL_TRUST_A:
      return tl_language_text (language,
                               "Trust class A: a rule or a conservation law on the inputs stated.");
    case TL_TRUST_B:
      return tl_language_text (language, "Trust class B: an estimate with a band.");
    case TL_TRUST_I:
      return tl_language_text (language, "Trust class I: an indication only.");
    }
  g_return_val_if_reached ("");
}

/* Words "low" to "high" when a range of inputs gives more than one. */
static char *
output_text (const TlCall *call, guint index, const TlLanguage *language)
{
  const TlFormulaOutput *output = &call->formula->outputs[index];
  const TlRange *value = &call->out[index];

  if (output->words == NULL)
    return range_text (*value, tl_call_output_unit (call, index), language);
  if (tl_range_is_exact (*value))
    return g_strdup (output->words[(int)value->best]);
  /* Translators: the likely word, then the words at both ends of the range */
  return g_strdup_printf (tl_language_text (language, "%s (from %s to %s)"),
                          output->words[(int)value->best], output->words[(int)value->low],
                          output->words[(int)value->high]);
}

static void
append_inputs (GString *text, const TlCall *call, const TlLanguage *language)
{
  for (guint i = 0; i < call->n_inputs; i++)
    {
      const TlFormulaInput *row = tl_call_input_info (call, i);
      const gboolean given = call->given[i];

      if (isnan (call->in[i].best) || (!given && row->step != 0))
        continue;
      g_autofree char *name = tl_call_input_name (call, i);
      const char *unit = strcmp (row->unit, "any") == 0 ? "1" : row->unit;
      g_autofree char *value = row->words != NULL ? g_strdup (row->words[(int)call->in[i].best])
                                                  : range_text (call->in[i], unit, language);
      g_string_append_printf (
          text, "  %s = %s  %s%s\n", name, value, tl_language_text (language, row->meaning),
          given ? "" : tl_language_text (language, " (left out, so this value stands)"));
    }
}

static int
print_working (const TlCall *call, const TlLanguage *language)
{
  const TlFormula *formula = call->formula;
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append_printf (text, "%s: %s\n", formula->id,
                          tl_language_text (language, formula->title));
  for (guint i = 0; formula->outputs[i].name != NULL; i++)
    if (call->has_out[i])
      {
        g_autofree char *value = output_text (call, i, language);
        g_string_append_printf (text, "%s = %s\n", formula->outputs[i].name, value);
      }
  g_string_append_printf (text, "%s\n", tl_language_text (language, "Working:"));
  append_inputs (text, call, language);
  g_string_append_printf (text, "  %s\n", formula->equation);
  g_string_append_printf (text, tl_language_text (language, "Source: %s"), formula->source);
  g_string_append_printf (text, "\n%s\n", class_text (formula->trust, language));
  return write_out (text->str, EXIT_DONE);
}

static int
print_working_json (const TlCall *call)
{
  const TlFormula *formula = call->formula;
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_int_value (builder, 1);
  json_text (builder, "formula", formula->id);
  json_builder_set_member_name (builder, "outputs");
  json_builder_begin_object (builder);
  for (guint i = 0; formula->outputs[i].name != NULL; i++)
    if (call->has_out[i])
      {
        json_builder_set_member_name (builder, formula->outputs[i].name);
        if (formula->outputs[i].words != NULL)
          json_word (builder, tl_call_get_word (call, formula->outputs[i].name));
        else
          json_range (builder, call->out[i], tl_call_output_unit (call, i));
      }
  json_builder_end_object (builder);
  json_builder_set_member_name (builder, "inputs");
  json_builder_begin_object (builder);
  for (guint i = 0; i < call->n_inputs; i++)
    {
      const TlFormulaInput *row = tl_call_input_info (call, i);
      g_autofree char *name = tl_call_input_name (call, i);

      if (isnan (call->in[i].best))
        continue;
      json_builder_set_member_name (builder, name);
      if (row->words != NULL)
        json_word (builder, row->words[(int)call->in[i].best]);
      else
        json_range (builder, call->in[i], row->unit);
    }
  json_builder_end_object (builder);
  json_text (builder, "equation", formula->equation);
  json_text (builder, "source", formula->source);
  json_text (builder, "class", tl_trust_to_word (formula->trust));
  json_builder_end_object (builder);
  return write_json (builder, EXIT_DONE);
}

static int
run_formula (const Options *options, const TlLanguage *language)
{
  const char *id = options->rest->pdata[0];
  g_autoptr (GError) error = NULL;
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  TlCall call;

  if (tl_formula_find (id) == NULL)
    {
      g_autofree char *message =
          g_strdup_printf (_ ("there is no formula called \"%s\"; calc --list names all"), id);
      return fail (message);
    }
  tl_call_init (&call, id);
  for (guint i = 1; i < options->rest->len; i++)
    {
      const char *argument = options->rest->pdata[i], *equals = strchr (argument, '=');

      if (equals == NULL)
        {
          g_autofree char *message = g_strdup_printf (
              _ ("the argument \"%s\" has no value; write name=\"value unit\""), argument);
          return fail (message);
        }
      g_autofree char *name = g_strndup (argument, (gsize)(equals - argument));
      if (!tl_call_set_text (&call, name, equals + 1, &error))
        return fail (error->message);
      if (!g_hash_table_add (seen, g_strdup (name)))
        {
          g_autofree char *message =
              g_strdup_printf (_ ("the input %s is given twice; give it once"), name);
          return fail (message);
        }
    }
  if (!tl_call_run (&call, &error))
    return fail (error->message);
  return options->as_json ? print_working_json (&call) : print_working (&call, language);
}

/* --- the list --- */

static char *
input_name (const TlFormulaInput *row)
{
  return row->step == 0
             ? g_strdup (row->name)
             : g_strdup_printf ("%s%u..%s%u", row->name, row->first, row->name, row->last);
}

static char *
input_unit (const TlFormulaInput *row)
{
  return row->words == NULL ? g_strdup (row->unit) : g_strjoinv (" | ", (char **)row->words);
}

static int
print_list (const TlLanguage *language)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint count;
  const TlFormula *const *all = tl_formula_all (&count);

  for (guint f = 0; f < count; f++)
    {
      g_string_append_printf (text, "%s: %s\n ", all[f]->id,
                              tl_language_text (language, all[f]->title));
      for (const TlFormulaOutput *output = all[f]->outputs; output->name != NULL; output++)
        g_string_append_printf (text, " %s (%s)", output->name, output->unit);
      g_string_append (text, "\n");
      for (const TlFormulaInput *row = all[f]->inputs; row->name != NULL; row++)
        {
          g_autofree char *name = input_name (row), *unit = input_unit (row);

          g_string_append_printf (text, "    %s (%s)%s: %s\n", name, unit,
                                  row->optional ? tl_language_text (language, ", may be left out")
                                                : "",
                                  tl_language_text (language, row->meaning));
        }
    }
  return write_out (text->str, EXIT_DONE);
}

static void
json_input (JsonBuilder *builder, const TlFormulaInput *row)
{
  g_autofree char *name = input_name (row);

  json_builder_begin_object (builder);
  json_text (builder, "name", name);
  json_text (builder, "unit", row->unit);
  json_text (builder, "meaning", row->meaning);
  json_builder_set_member_name (builder, "optional");
  json_builder_add_boolean_value (builder, row->optional);
  if (row->words == NULL)
    {
      json_builder_set_member_name (builder, "low");
      json_builder_add_double_value (builder, row->low);
      json_builder_set_member_name (builder, "low_permitted");
      json_builder_add_boolean_value (builder, !row->low_open);
      json_builder_set_member_name (builder, "high");
      json_builder_add_double_value (builder, row->high);
    }
  else
    {
      json_builder_set_member_name (builder, "words");
      json_builder_begin_array (builder);
      for (guint i = 0; row->words[i] != NULL; i++)
        json_builder_add_string_value (builder, row->words[i]);
      json_builder_end_array (builder);
    }
  json_builder_end_object (builder);
}

static int
print_list_json (void)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  guint count;
  const TlFormula *const *all = tl_formula_all (&count);

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_int_value (builder, 1);
  json_builder_set_member_name (builder, "formulas");
  json_builder_begin_array (builder);
  for (guint f = 0; f < count; f++)
    {
      json_builder_begin_object (builder);
      json_text (builder, "id", all[f]->id);
      json_text (builder, "title", all[f]->title);
      json_text (builder, "equation", all[f]->equation);
      json_text (builder, "source", all[f]->source);
      json_text (builder, "class", tl_trust_to_word (all[f]->trust));
      json_builder_set_member_name (builder, "outputs");
      json_builder_begin_array (builder);
      for (const TlFormulaOutput *output = all[f]->outputs; output->name != NULL; output++)
        {
          json_builder_begin_object (builder);
          json_text (builder, "name", output->name);
          json_text (builder, "unit", output->unit);
          json_builder_end_object (builder);
        }
      json_builder_end_array (builder);
      json_builder_set_member_name (builder, "inputs");
      json_builder_begin_array (builder);
      for (const TlFormulaInput *row = all[f]->inputs; row->name != NULL; row++)
        json_input (builder, row);
      json_builder_end_array (builder);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  json_builder_end_object (builder);
  return write_json (builder, EXIT_DONE);
}

/* --- files of cases --- */

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
          range_text (expected ? figure->expected : figure->computed, figure->unit, NULL);
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
  return write_out (text->str, code);
}

static void
json_case_figure (JsonBuilder *builder, const TlCaseFigure *figure)
{
  json_builder_begin_object (builder);
  json_text (builder, "output", figure->output);
  json_builder_set_member_name (builder, "expected");
  if (figure->expected_word != NULL)
    json_word (builder, figure->expected_word);
  else
    json_range (builder, figure->expected, figure->unit);
  json_builder_set_member_name (builder, "computed");
  if (!figure->has_computed)
    json_builder_add_null_value (builder);
  else if (figure->computed_word != NULL)
    json_word (builder, figure->computed_word);
  else
    json_range (builder, figure->computed, figure->unit);
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
      json_text (builder, "id", row->id);
      json_text (builder, "formula", row->formula);
      json_text (builder, "result", state_word (row->state));
      if (row->reason != NULL)
        json_text (builder, "reason", row->reason);
      json_text (builder, "source", row->source);
      json_text (builder, "known_by", row->known_by);
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
  return write_json (builder, code);
}

static int
run_cases (const Options *options, const TlLanguage *language)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlCases) cases = tl_cases_read (options->cases, &error);

  if (cases == NULL)
    return fail (error->message);
  const int code = cases->failed > 0 ? EXIT_OUT_OF_TOLERANCE : EXIT_DONE;
  return options->as_json ? print_cases_json (cases, code) : print_cases (cases, language, code);
}

/* --- the call --- */

static int
wrong_option (const char *argument)
{
  g_autofree char *message = g_strdup_printf (
      _ ("calc has no option \"%s\"; it has --list, --cases FILE and --json"), argument);

  return fail (message);
}

static gboolean
parse_options (int argc, char **argv, Options *options, int *code)
{
  for (int i = 1; i < argc; i++)
    if (strcmp (argv[i], "--json") == 0)
      options->as_json = TRUE;
    else if (strcmp (argv[i], "--list") == 0)
      options->list = TRUE;
    else if (strcmp (argv[i], "--cases") == 0 || g_str_has_prefix (argv[i], "--cases="))
      {
        const char *inline_value = argv[i][7] == '=' ? argv[i] + 8 : NULL;

        options->cases = inline_value != NULL ? inline_value : i + 1 < argc ? argv[++i] : "";
        if (options->cases[0] == '\0')
          {
            *code = fail (_ ("--cases needs the name of a file"));
            return FALSE;
          }
      }
    else if (argv[i][0] == '-')
      {
        *code = wrong_option (argv[i]);
        return FALSE;
      }
    else
      g_ptr_array_add (options->rest, argv[i]);
  if ((options->rest->len > 0) + options->list + (options->cases != NULL) != 1)
    {
      *code = fail (_ ("calc needs one of: a formula with its inputs, --list, or --cases FILE"));
      return FALSE;
    }
  return TRUE;
}

int
tl_cli_calc (int argc, char **argv, const TlLanguage *language)
{
  g_autoptr (GPtrArray) rest = g_ptr_array_new ();
  Options options = { .rest = rest };
  int code;

  g_return_val_if_fail (argc >= 1 && argv != NULL && language != NULL, EXIT_WRONG);
  if (!parse_options (argc, argv, &options, &code))
    return code;
  if (options.cases != NULL)
    return run_cases (&options, language);
  if (options.list)
    return options.as_json ? print_list_json () : print_list (language);
  return run_formula (&options, language);
}
