/* calc.c: see calc.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/calc-private.h"
#include "cli/calc.h"
#include "cli/heat-cases.h"
#include "base/quantity.h"
#include "physics/formula.h"
#include <glib/gi18n-lib.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct
{
  gboolean    as_json;
  gboolean    list;
  gboolean    help;
  const char *cases;
  const char *language;
  GPtrArray  *rest; /* (element-type utf8) not owned: formula id, then name=value */
} Options;

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
  const TlRange         *value = &call->out[index];

  if (output->words == NULL)
    return tl_calc_range_text (*value, tl_call_output_unit (call, index), language);
  if (tl_range_is_exact (*value))
    return g_strdup (output->words[(int) value->best]);
  /* Translators: the likely word, then the words at both ends of the range */
  return g_strdup_printf (tl_language_text (language, "%s (from %s to %s)"),
                          output->words[(int) value->best], output->words[(int) value->low],
                          output->words[(int) value->high]);
}

static void
append_inputs (GString *text, const TlCall *call, const TlLanguage *language)
{
  for (guint i = 0; i < call->n_inputs; i++)
    {
      const TlFormulaInput *row = tl_call_input_info (call, i);
      const gboolean        given = call->given[i];

      if (isnan (call->in[i].best) || (!given && row->step != 0))
        continue;
      g_autofree char *name = tl_call_input_name (call, i);
      const char      *unit = strcmp (row->unit, "any") == 0 ? "1" : row->unit;
      g_autofree char *value = row->words != NULL
                                   ? g_strdup (row->words[(int) call->in[i].best])
                                   : tl_calc_range_text (call->in[i], unit, language);
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
  return tl_calc_write_out (text->str, TL_CALC_DONE);
}

static int
print_working_json (const TlCall *call)
{
  const TlFormula *formula = call->formula;
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_int_value (builder, 1);
  tl_calc_json_text (builder, "formula", formula->id);
  json_builder_set_member_name (builder, "outputs");
  json_builder_begin_object (builder);
  for (guint i = 0; formula->outputs[i].name != NULL; i++)
    if (call->has_out[i])
      {
        json_builder_set_member_name (builder, formula->outputs[i].name);
        if (formula->outputs[i].words != NULL)
          tl_calc_json_word (builder, tl_call_get_word (call, formula->outputs[i].name));
        else
          tl_calc_json_range (builder, call->out[i], tl_call_output_unit (call, i));
      }
  json_builder_end_object (builder);
  json_builder_set_member_name (builder, "inputs");
  json_builder_begin_object (builder);
  for (guint i = 0; i < call->n_inputs; i++)
    {
      const TlFormulaInput *row = tl_call_input_info (call, i);
      g_autofree char      *name = tl_call_input_name (call, i);

      if (isnan (call->in[i].best))
        continue;
      json_builder_set_member_name (builder, name);
      if (row->words != NULL)
        tl_calc_json_word (builder, row->words[(int) call->in[i].best]);
      else
        tl_calc_json_range (builder, call->in[i], row->unit);
    }
  json_builder_end_object (builder);
  tl_calc_json_text (builder, "equation", formula->equation);
  tl_calc_json_text (builder, "source", formula->source);
  tl_calc_json_text (builder, "class", tl_trust_to_word (formula->trust));
  json_builder_end_object (builder);
  return tl_calc_write_json (builder, TL_CALC_DONE);
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
      return tl_calc_fail (message);
    }
  tl_call_init (&call, id);
  for (guint i = 1; i < options->rest->len; i++)
    {
      const char *argument = options->rest->pdata[i], *equals = strchr (argument, '=');

      if (equals == NULL)
        {
          g_autofree char *message = g_strdup_printf (
              _ ("the argument \"%s\" has no value; write name=\"value unit\""), argument);
          return tl_calc_fail (message);
        }
      g_autofree char *name = g_strndup (argument, (gsize) (equals - argument));
      if (!tl_call_set_text (&call, name, equals + 1, &error))
        return tl_calc_fail (error->message);
      if (!g_hash_table_add (seen, g_strdup (name)))
        {
          g_autofree char *message =
              g_strdup_printf (_ ("the input %s is given twice; give it once"), name);
          return tl_calc_fail (message);
        }
    }
  if (!tl_call_run (&call, &error))
    return tl_calc_fail (error->message);
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
  return row->words == NULL ? g_strdup (row->unit) : g_strjoinv (" | ", (char **) row->words);
}

static int
print_list (const TlLanguage *language)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint                   count;
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
  return tl_calc_write_out (text->str, TL_CALC_DONE);
}

static void
json_input (JsonBuilder *builder, const TlFormulaInput *row)
{
  g_autofree char *name = input_name (row);

  json_builder_begin_object (builder);
  tl_calc_json_text (builder, "name", name);
  tl_calc_json_text (builder, "unit", row->unit);
  tl_calc_json_text (builder, "meaning", row->meaning);
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
  guint                   count;
  const TlFormula *const *all = tl_formula_all (&count);

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_int_value (builder, 1);
  json_builder_set_member_name (builder, "formulas");
  json_builder_begin_array (builder);
  for (guint f = 0; f < count; f++)
    {
      json_builder_begin_object (builder);
      tl_calc_json_text (builder, "id", all[f]->id);
      tl_calc_json_text (builder, "title", all[f]->title);
      tl_calc_json_text (builder, "equation", all[f]->equation);
      tl_calc_json_text (builder, "source", all[f]->source);
      tl_calc_json_text (builder, "class", tl_trust_to_word (all[f]->trust));
      json_builder_set_member_name (builder, "outputs");
      json_builder_begin_array (builder);
      for (const TlFormulaOutput *output = all[f]->outputs; output->name != NULL; output++)
        {
          json_builder_begin_object (builder);
          tl_calc_json_text (builder, "name", output->name);
          tl_calc_json_text (builder, "unit", output->unit);
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
  return tl_calc_write_json (builder, TL_CALC_DONE);
}

/* --- the call --- */

static int
print_help (const TlLanguage *language)
{
  g_autofree char *text = g_strconcat (
      "tinlap-cli calc [--json] [--language TAG] ID NAME=\"VALUE UNIT\" ...\n"
      "tinlap-cli calc [--json] [--language TAG] --list\n"
      "tinlap-cli calc [--json] [--language TAG] --cases FILE.csv\n"
      "tinlap-cli calc [--json] [--language TAG] heat-network --cases FILE.csv\n",
      tl_language_text (language, "Evaluates a formula with its working, lists all formulas, or "
                                  "compares a file of cases. No formula depends on --practice."),
      "\n", NULL);

  return tl_calc_write_out (text, TL_CALC_DONE);
}

/* Value of option @name at @argv[*i], "--name=value" or "--name value"; NULL if it is another option, ""
 * if the value is missing. */
static const char *
option_value (int argc, char **argv, int *i, const char *name)
{
  const gsize length = strlen (name);

  if (strncmp (argv[*i], name, length) != 0)
    return NULL;
  if (argv[*i][length] == '=')
    return argv[*i] + length + 1;
  if (argv[*i][length] != '\0')
    return NULL;
  return *i + 1 < argc ? argv[++*i] : "";
}

/* One argument that begins with a dash. */
static gboolean
parse_option (int argc, char **argv, int *i, Options *options, int *code)
{
  static const char *const with_value[] = { "--cases", "--language", "--practice" };
  const char              *practice = NULL;
  const char **const       values[] = { &options->cases, &options->language, &practice };

  for (guint k = 0; k < G_N_ELEMENTS (with_value); k++)
    {
      const char *value = option_value (argc, argv, i, with_value[k]);

      if (value == NULL)
        continue;
      *values[k] = value;
      if (value[0] != '\0')
        return TRUE;
      g_autofree char *message = g_strdup_printf (_ ("%s needs a value behind it"), with_value[k]);
      *code = tl_calc_fail (message);
      return FALSE;
    }
  if (strcmp (argv[*i], "--json") == 0)
    options->as_json = TRUE;
  else if (strcmp (argv[*i], "--list") == 0)
    options->list = TRUE;
  else if (strcmp (argv[*i], "--help") == 0)
    options->help = TRUE;
  else
    {
      g_autofree char *message = g_strdup_printf (
          _ ("calc has no option \"%s\"; it has --list, --cases FILE, --json and --language TAG"),
          argv[*i]);
      *code = tl_calc_fail (message);
      return FALSE;
    }
  return TRUE;
}

/* "heat-network --cases FILE": whole joints instead of formulas. */
static gboolean
asks_for_network (const Options *options)
{
  return options->cases != NULL && !options->list && options->rest->len == 1
         && strcmp (options->rest->pdata[0], "heat-network") == 0;
}

static gboolean
parse_options (int argc, char **argv, Options *options, int *code)
{
  for (int i = 1; i < argc; i++)
    if (argv[i][0] != '-')
      g_ptr_array_add (options->rest, argv[i]);
    else if (!parse_option (argc, argv, &i, options, code))
      return FALSE;
  if (!options->help && !asks_for_network (options)
      && (options->rest->len > 0) + options->list + (options->cases != NULL) != 1)
    {
      *code = tl_calc_fail (
          _ ("calc needs one of: a formula with its inputs, --list, or --cases FILE"));
      return FALSE;
    }
  return TRUE;
}

int
tl_cli_calc (int argc, char **argv, const TlLanguage *language)
{
  g_autoptr (GPtrArray) rest = g_ptr_array_new ();
  Options options = { .rest = rest };
  int     code;

  g_return_val_if_fail (argc >= 1 && argv != NULL && language != NULL, TL_CALC_WRONG);
  if (!parse_options (argc, argv, &options, &code))
    return code;
  g_autoptr (TlLanguage) chosen =
      options.language != NULL ? tl_language_new (options.language, tl_language_units (language))
                               : tl_language_ref (language);
  if (options.help)
    return print_help (chosen);
  if (asks_for_network (&options))
    return tl_cli_heat_cases (options.cases, options.as_json, chosen);
  if (options.cases != NULL)
    return tl_calc_cases (options.cases, options.as_json, chosen);
  if (options.list)
    return options.as_json ? print_list_json () : print_list (chosen);
  return run_formula (&options, chosen);
}
