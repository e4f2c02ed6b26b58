/* wording.c: filling sentences with figures, words and names.
 *
 * A template has placeholders in braces: {name} for a figure or a word, {name.limit} for a figure's limit; a percent
 * sign behind it, {name%}, shows a ratio in hundredths.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/wording.h"
#include "base/quantity.h"

#include <math.h>
#include <string.h>

static char *
format_figure (double value, const char *unit, const TlLanguage *language)
{
  /* Steps of potential are kept in whole millivolts, and read in volts; a drop of a few millivolts stays one. */
  if (g_str_equal (unit, "mV") && (fabs (value) >= 50.0 || value == 0.0))
    {
      g_autofree char *number = tl_language_number (language, value / 1000.0, 2);

      return g_strdup_printf ("%s\u202fV", number);
    }
  return tl_quantity_format (value, unit, language);
}

static char *
format_percent (TlRange ratio, const TlLanguage *language)
{
  g_autofree char *low = tl_language_number (language, 100.0 * ratio.low, 0);
  g_autofree char *high = tl_language_number (language, 100.0 * ratio.high, 0);

  return g_str_equal (low, high) ? g_strdup_printf ("%s\u202f%%", low)
                                 : g_strdup_printf ("%s–%s\u202f%%", low, high);
}

static char *
format_range (TlRange range, const char *unit, const TlLanguage *language)
{
  return tl_range_is_exact (range) ? format_figure (range.best, unit, language)
                                   : tl_range_format (range, unit, language);
}

/* --- words --- */

static char *
owner_with_number (const TlAssembly *assembly, const char *owner, const TlLanguage *language)
{
  g_autofree char *name = tl_assembly_owner_name (assembly, owner, language);
  guint            number = tl_assembly_number (assembly, owner);

  return number > 0 ? g_strdup_printf ("%s (%u)", name, number) : g_steal_pointer (&name);
}

static char *
part_with_size (const TlStock *stock, const char *id, const TlLanguage *language)
{
  const TlPart *part = tl_stock_part (stock, id);

  if (part == NULL)
    return g_strdup (id);

  g_autofree char *name = tl_part_name (part->kind, part->facts, stock, language);
  g_autofree char *size = tl_part_dimensions (part->kind, part->facts, language);

  return *size != '\0' ? g_strdup_printf ("%s %s", name, size) : g_steal_pointer (&name);
}

/* "surroundings=damp" */
static char *
field_word (const char *text, const TlLanguage *language)
{
  const char *equals = strchr (text, '=');
  TlField     field;

  if (equals == NULL)
    return g_strdup (text);

  g_autofree char *key = g_strndup (text, (gsize) (equals - text));

  return g_strdup (tl_field_from_key (key, &field)
                       ? tl_language_text (language, tl_field_word_label (field, equals + 1))
                       : equals + 1);
}

static char *
expand_word (const TlAssembly *assembly, const TlWord *word, const TlLanguage *language)
{
  switch (word->kind)
    {
    case TL_WORD_MATERIAL:
      return g_strdup (tl_material_name (assembly->stock, word->text, language));
    case TL_WORD_OWNER:
      return owner_with_number (assembly, word->text, language);
    case TL_WORD_PART:
      return part_with_size (assembly->stock, word->text, language);
    case TL_WORD_FIELD_WORD:
      return field_word (word->text, language);
    case TL_WORD_TEXT:
      return g_strdup (tl_language_text (language, word->text));
    case TL_WORD_VERBATIM:
    default:
      return g_strdup (word->text);
    }
}

/* --- filling --- */

typedef char *(*Lookup) (gpointer context, const char *name);

/* An unknown placeholder stays as it stands, so that a mistake in a translation is seen and harms nothing. */
static char *
fill (const char *text, Lookup lookup, gpointer context)
{
  GString    *out = g_string_new (NULL);
  const char *p = text;

  while (*p != '\0')
    {
      const char *end = *p == '{' ? strchr (p, '}') : NULL;

      if (end == NULL)
        {
          g_string_append_c (out, *p++);
          continue;
        }

      g_autofree char *name = g_strndup (p + 1, (gsize) (end - p - 1));
      g_autofree char *value = lookup (context, name);

      if (value != NULL)
        g_string_append (out, value);
      else
        g_string_append_len (out, p, end - p + 1);
      p = end + 1;
    }
  /* A sentence that opens with a name opens with a capital. */
  if (out->len > 0 && g_ascii_islower (out->str[0]) && *text == '{')
    out->str[0] = g_ascii_toupper (out->str[0]);
  return g_string_free (out, FALSE);
}

typedef struct
{
  const TlAssembly *assembly;
  const TlFinding  *finding;
  const TlLanguage *language;
} FindingContext;

static char *
lookup_figure (const TlFigure *figure, const char *name, const TlLanguage *language)
{
  gsize       length = strlen (figure->name);
  const char *rest;

  if (strncmp (figure->name, name, length) != 0)
    return NULL;
  rest = name + length;
  if (*rest == '\0')
    return format_range (figure->value, figure->unit, language);
  if (g_str_equal (rest, "%"))
    return format_percent (figure->value, language);
  if (!isfinite (figure->limit))
    return NULL;
  if (g_str_equal (rest, ".limit"))
    return format_figure (figure->limit, figure->unit, language);
  if (g_str_equal (rest, ".limit%"))
    return format_percent (tl_range_exact (figure->limit), language);
  return NULL;
}

static char *
lookup_in_finding (gpointer data, const char *name)
{
  const FindingContext *context = data;
  const TlFinding      *finding = context->finding;

  for (guint i = 0; i < finding->figures->len; i++)
    {
      char *text =
          lookup_figure (&g_array_index (finding->figures, TlFigure, i), name, context->language);

      if (text != NULL)
        return text;
    }
  for (guint i = 0; i < finding->words->len; i++)
    {
      const TlWord *word = &g_array_index (finding->words, TlWord, i);

      if (g_str_equal (word->name, name))
        return expand_word (context->assembly, word, context->language);
    }
  return NULL;
}

static char *
fill_finding (const TlVerdict *verdict, const TlFinding *finding, const char *text,
              const TlLanguage *language)
{
  FindingContext context = { verdict->assembly, finding, language };

  return text == NULL ? g_strdup ("")
                      : fill (tl_language_text (language, text), lookup_in_finding, &context);
}

char *
tl_wording_finding (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language)
{
  return fill_finding (verdict, finding, finding->message, language);
}

char *
tl_wording_why (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language)
{
  return fill_finding (verdict, finding, finding->why, language);
}

typedef struct
{
  const TlAssembly *assembly;
  const TlMend     *mend;
  const TlLanguage *language;
} MendContext;

static char *
lookup_in_mend (gpointer data, const char *name)
{
  const MendContext *context = data;
  const TlMend      *mend = context->mend;

  if (g_str_equal (name, "part") && mend->part != NULL)
    return part_with_size (context->assembly->stock, mend->part, context->language);
  if (g_str_equal (name, "owner") && mend->owner != NULL)
    return owner_with_number (context->assembly, mend->owner, context->language);
  if (g_str_equal (name, "value") && mend->kind == TL_MEND_SET)
    {
      const TlFieldInfo *info = tl_field_info (mend->fact.field);

      if (mend->fact.word != NULL)
        return g_strdup (tl_language_text (
            context->language, tl_field_word_label (mend->fact.field, mend->fact.word)));
      return format_range (mend->fact.value, info->unit, context->language);
    }
  return NULL;
}

char *
tl_wording_mend (const TlVerdict *verdict, const TlMend *mend, const TlLanguage *language)
{
  MendContext context = { verdict->assembly, mend, language };

  return fill (tl_language_text (language, mend->label), lookup_in_mend, &context);
}

typedef struct
{
  const TlAssembly *assembly;
  const char       *owner;
  TlField           field;
  double            a, b;
  const TlLanguage *language;
} PlaceContext;

static char *
lookup_in_place (gpointer data, const char *name)
{
  const PlaceContext *context = data;

  if (g_str_equal (name, "a") && isfinite (context->a))
    return tl_quantity_format (context->a, "mm", context->language);
  if (g_str_equal (name, "b") && isfinite (context->b))
    return tl_quantity_format (context->b, "mm", context->language);
  if (g_str_equal (name, "field") && context->field < TL_N_FIELDS)
    {
      g_autofree char *label = g_utf8_strdown (
          tl_language_text (context->language, tl_field_info (context->field)->label), -1);

      return g_steal_pointer (&label);
    }
  if ((g_str_equal (name, "part") || g_str_equal (name, "owner")) && context->owner != NULL)
    return owner_with_number (context->assembly, context->owner, context->language);
  return NULL;
}

char *
tl_wording_problem (const TlAssembly *assembly, const TlProblem *problem,
                    const TlLanguage *language)
{
  PlaceContext context = { assembly,   problem->owner, problem->field,
                           problem->a, problem->b,     language };

  return fill (tl_language_text (language, problem->message), lookup_in_place, &context);
}

char *
tl_wording_not_computed (const TlVerdict *verdict, const TlNotComputed *row,
                         const TlLanguage *language)
{
  PlaceContext     context = { verdict->assembly, row->owner, row->field, NAN, NAN, language };
  g_autofree char *reason =
      fill (tl_language_text (language, row->reason), lookup_in_place, &context);

  return tl_wording_fill (tl_language_text (language, TL_N_ ("{rule}: not computed. {reason}")),
                          "rule", tl_language_text (language, row->rule->title), "reason", reason,
                          NULL);
}

/* --- sums --- */

char *
tl_wording_summary (const TlVerdict *verdict, const TlLanguage *language)
{
  static const char *const counted[][2] = {
    [TL_SEVERITY_SOUND] = { TL_N_ ("{n} sound"), TL_N_ ("{n} sound") },
    [TL_SEVERITY_WATCH] = { TL_N_ ("{n} to watch"), TL_N_ ("{n} to watch") },
    [TL_SEVERITY_CHANGE] = { TL_N_ ("{n} to change"), TL_N_ ("{n} to change") },
    [TL_SEVERITY_UNSAFE] = { TL_N_ ("{n} unsafe"), TL_N_ ("{n} unsafe") },
  };
  GString *text = g_string_new (NULL);

  for (gint severity = TL_SEVERITY_UNSAFE; severity >= TL_SEVERITY_SOUND; severity--)
    {
      guint            n = tl_verdict_count (verdict, (TlSeverity) severity);
      g_autofree char *number = g_strdup_printf ("%u", n);
      g_autofree char *part = tl_wording_fill (
          tl_language_plural (language, counted[severity][0], counted[severity][1], n), "n", number,
          NULL);

      if (n > 0)
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", part);
    }
  if (verdict->not_computed->len > 0)
    {
      g_autofree char *number = g_strdup_printf ("%u", verdict->not_computed->len);
      g_autofree char *rest = tl_wording_fill (
          tl_language_text (language, TL_N_ ("{n} not computed")), "n", number, NULL);

      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", rest);
    }
  if (text->len > 0)
    g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

char *
tl_wording_dispute (const TlVerdict *verdict, const TlTableRow *row, const TlLanguage *language)
{
  const TlStock   *stock = verdict->assembly->stock;
  const TlTable   *table = tl_stock_table (stock, "disputes");
  g_autofree char *source = tl_source_citation (stock, row->source, row->known_by, language);
  gboolean         is_for = g_strcmp0 (tl_table_word (table, row, "side"), "for") == 0;
  const char      *msgid = is_for ? TL_N_ ("Disputed, for it: {text} {source}")
                                  : TL_N_ ("Disputed, against it: {text} {source}");

  return tl_wording_fill (tl_language_text (language, msgid), "text",
                          tl_language_text (language, tl_table_word (table, row, "text")), "source",
                          source, NULL);
}

/* A dispute cites its sources itself. */
static gboolean
is_cited (const GPtrArray *disputes, const char *source)
{
  for (guint i = 0; i < disputes->len; i++)
    if (g_str_equal (((const TlTableRow *) disputes->pdata[i])->source, source))
      return TRUE;
  return FALSE;
}

char *
tl_wording_sources (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language)
{
  const TlStock *stock = verdict->assembly->stock;
  GString       *text = g_string_new (NULL);
  TlKnownBy      known_by = TL_KNOWN_COMPUTED;
  g_autoptr (GPtrArray) disputes = tl_finding_disputes (finding, stock);

  /* The status of the figures behind the limit is part of the citation. */
  for (guint i = 0; i < finding->figures->len; i++)
    {
      const TlFigure *figure = &g_array_index (finding->figures, TlFigure, i);

      if (figure->source != NULL && g_str_equal (figure->source, finding->source))
        known_by = figure->known_by;
    }

  g_autofree char *first = tl_source_citation (stock, finding->source, known_by, language);

  g_string_append (text, first);
  for (guint i = 0; i < finding->sources->len; i++)
    {
      if (is_cited (disputes, finding->sources->pdata[i]))
        continue;

      g_autofree char *line =
          tl_source_citation (stock, finding->sources->pdata[i], TL_KNOWN_COMPUTED, language);

      g_string_append_printf (text, "\n%s", line);
    }
  for (guint i = 0; i < disputes->len; i++)
    {
      g_autofree char *line = tl_wording_dispute (verdict, disputes->pdata[i], language);

      g_string_append_printf (text, "\n%s", line);
    }
  return g_string_free (text, FALSE);
}

/* --- headline margins --- */

char *
tl_wording_margin (const TlVerdict *verdict, TlMargin margin, const TlLanguage *language)
{
  const TlFigure *figure = &verdict->margins[margin];

  if (!verdict->has_margin[margin])
    return g_strdup (tl_language_text (language, TL_N_ ("not computed")));
  if (margin == TL_MARGIN_SEAL)
    return g_strdup (tl_language_text (language, figure->value.best >= 2.0 ? TL_N_ ("closed")
                                                 : figure->value.best >= 1.0
                                                     ? TL_N_ ("one end open")
                                                     : TL_N_ ("open")));
  return g_str_equal (figure->unit, "1")
             ? format_percent (tl_range_exact (figure->value.best), language)
             : format_figure (figure->value.best, figure->unit, language);
}

char *
tl_wording_margin_limit (const TlVerdict *verdict, TlMargin margin, const TlLanguage *language)
{
  const TlFigure *figure = &verdict->margins[margin];

  if (!verdict->has_margin[margin])
    return g_strdup ("");
  if (margin == TL_MARGIN_SEAL)
    return g_strdup (tl_language_text (language, figure->limit > 0.0
                                                     ? TL_N_ ("limit: dry or shut")
                                                     : TL_N_ ("dry: may stay open")));

  /* A lead over a limit of nothing: "at least 0 mm" says little. */
  if (figure->limit_is_least && figure->limit == 0.0)
    return g_strdup (tl_language_text (
        language, !g_str_equal (figure->name, "cover") ? TL_N_ ("must not be negative")
                  : figure->value.best < 0.0 ? TL_N_ ("has to reach past the crest of the eye")
                                             : TL_N_ ("past the crest of the eye")));

  g_autofree char *limit = g_str_equal (figure->unit, "1")
                               ? format_percent (tl_range_exact (figure->limit), language)
                               : format_figure (figure->limit, figure->unit, language);

  return tl_wording_fill (tl_language_text (language, figure->limit_is_least
                                                          ? TL_N_ ("at least {limit}")
                                                          : TL_N_ ("limit {limit}")),
                          "limit", limit, NULL);
}

/* --- working --- */

static void
working_line_free (gpointer data)
{
  TlWorkingLine *line = data;

  g_free (line->name);
  g_free (line->text);
  g_free (line->value);
  g_free (line);
}

static void
add_line (GPtrArray *lines, char *name, char *text, char *value, gboolean is_result)
{
  TlWorkingLine *line = g_new (TlWorkingLine, 1);

  *line = (TlWorkingLine){ name, text, value, is_result };
  g_ptr_array_add (lines, line);
}

static void
add_call (GPtrArray *lines, const TlCall *call, const TlLanguage *language)
{
  const TlFormula *formula = call->formula;

  for (guint i = 0; i < call->n_inputs; i++)
    {
      const TlFormulaInput *info = tl_call_input_info (call, i);
      char                 *value;

      if (!call->given[i])
        continue;
      if (info->words != NULL)
        value = g_strdup (info->words[(guint) call->in[i].best]);
      else
        value = format_range (call->in[i], info->unit, language);
      add_line (lines, g_strdup (tl_language_text (language, info->meaning)), g_strdup (""), value,
                FALSE);
    }
  add_line (lines, g_strdup (tl_language_text (language, formula->title)),
            g_strdup (formula->equation), g_strdup (""), FALSE);
  for (guint i = 0; formula->outputs[i].name != NULL; i++)
    {
      const TlFormulaOutput *output = &formula->outputs[i];

      if (!call->has_out[i])
        continue;
      add_line (lines, g_strdup (output->name), g_strdup ("="),
                output->words != NULL ? g_strdup (output->words[(guint) call->out[i].best])
                                      : format_range (call->out[i], output->unit, language),
                TRUE);
    }
}

GPtrArray *
tl_wording_working (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (working_line_free);

  for (guint i = 0; i < finding->calls->len; i++)
    add_call (lines, finding->calls->pdata[i], language);
  return lines;
}

/* --- for other edges --- */

typedef struct
{
  const char *names[16];
  const char *values[16];
  guint       n;
} Pairs;

static char *
lookup_in_pairs (gpointer data, const char *name)
{
  const Pairs *pairs = data;

  for (guint i = 0; i < pairs->n; i++)
    if (g_str_equal (pairs->names[i], name))
      return g_strdup (pairs->values[i]);
  return NULL;
}

char *
tl_wording_fill (const char *template_text, ...)
{
  Pairs       pairs = { { NULL }, { NULL }, 0 };
  va_list     list;
  const char *name;

  va_start (list, template_text);
  while ((name = va_arg (list, const char *)) != NULL)
    {
      const char *value = va_arg (list, const char *);

      g_assert (pairs.n < G_N_ELEMENTS (pairs.names));
      pairs.names[pairs.n] = name;
      pairs.values[pairs.n++] = value;
    }
  va_end (list);
  return fill (template_text, lookup_in_pairs, &pairs);
}
