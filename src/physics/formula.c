/* formula.c: finding formulas, filling in their inputs, reading their results.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include "base/quantity.h"
#include <string.h>

/* Subjects in the order in which `calc --list` and the handbook show them. */
static const TlFormula *const subjects[] = {
  tl_galvanic_formulas, tl_constriction_formulas, tl_fastening_formulas, tl_spring_formulas,
  tl_pressing_formulas, tl_bending_formulas,      tl_sealing_formulas,   tl_ageing_formulas,
  tl_heat_formulas,     tl_heat_film_formulas,    tl_heat_wire_formulas, tl_heat_fin_formulas,
  tl_circuit_formulas,  tl_identify_formulas,     tl_room_formulas,      tl_measuring_formulas,
  tl_units_formulas,
};

typedef struct
{
  guint             count;
  const TlFormula **in_order;
  const TlFormula **by_id;
} Registry;

static int
compare_ids (const void *a, const void *b)
{
  return strcmp ((*(const TlFormula *const *) a)->id, (*(const TlFormula *const *) b)->id);
}

/* Built once from the static tables and read only from then on: finding by id is on the path of every
 * verdict while a layer is dragged. */
static const Registry *
registry (void)
{
  static Registry built;
  static gsize    ready = 0;

  if (g_once_init_enter (&ready))
    {
      for (gsize s = 0; s < G_N_ELEMENTS (subjects); s++)
        for (const TlFormula *f = subjects[s]; f->id != NULL; f++)
          built.count++;
      built.in_order = g_new (const TlFormula *, built.count);
      built.by_id = g_new (const TlFormula *, built.count);
      guint n = 0;
      for (gsize s = 0; s < G_N_ELEMENTS (subjects); s++)
        for (const TlFormula *f = subjects[s]; f->id != NULL; f++)
          built.in_order[n++] = f;
      memcpy (built.by_id, built.in_order, built.count * sizeof (TlFormula *));
      qsort (built.by_id, built.count, sizeof (TlFormula *), compare_ids);
      g_once_init_leave (&ready, 1);
    }
  return &built;
}

const TlFormula *
tl_formula_find (const char *id)
{
  g_return_val_if_fail (id != NULL, NULL);

  const Registry *all = registry ();
  guint           low = 0, high = all->count;

  while (low < high)
    {
      guint middle = (low + high) / 2;
      int   order = strcmp (id, all->by_id[middle]->id);

      if (order == 0)
        return all->by_id[middle];
      if (order < 0)
        high = middle;
      else
        low = middle + 1;
    }
  return NULL;
}

const TlFormula *const *
tl_formula_all (guint *count)
{
  const Registry *all = registry ();

  if (count != NULL)
    *count = all->count;
  return (const TlFormula *const *) all->in_order;
}

const char *
tl_trust_to_word (TlTrust trust)
{
  switch (trust)
    {
    case TL_TRUST_A:
      return "A";
    case TL_TRUST_B:
      return "B";
    case TL_TRUST_I:
      return "I";
    }
  g_return_val_if_reached ("I");
}

void
tl_call_init (TlCall *self, const char *id)
{
  g_return_if_fail (self != NULL && id != NULL);

  self->formula = tl_formula_find (id);
  if (self->formula == NULL)
    g_error ("no formula is called \"%s\"", id);
  self->n_inputs = 0;
  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL; row++)
    for (guint i = tl_formula_row_width (row); i > 0; i--)
      {
        g_assert (self->n_inputs < TL_FORMULA_MAX_INPUTS);
        self->in[self->n_inputs] = tl_range_exact (row->fallback);
        self->given[self->n_inputs++] = FALSE;
      }
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    self->has_out[i] = FALSE;
}

/* Index of @name among the expanded inputs, -1 if there is none; @found is its row. */
static int
input_index (const TlCall *self, const char *name, const TlFormulaInput **found)
{
  guint index = 0;

  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL;
       index += tl_formula_row_width (row), row++)
    {
      *found = row;
      if (row->name[0] != name[0])
        continue;
      if (row->step == 0)
        {
          if (strcmp (row->name, name) == 0)
            return (int) index;
          continue;
        }
      gsize length = strlen (row->name);
      if (strncmp (row->name, name, length) != 0 || !g_ascii_isdigit (name[length])
          || name[length] == '0')
        continue;
      guint64 number;
      if (g_ascii_string_to_unsigned (name + length, 10, row->first, row->last, &number, NULL)
          && (number - row->first) % row->step == 0)
        return (int) (index + (number - row->first) / row->step);
    }
  return -1;
}

static int
output_index (const TlCall *self, const char *name)
{
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    if (strcmp (self->formula->outputs[i].name, name) == 0)
      return (int) i;
  return -1;
}

void
tl_call_set (TlCall *self, const char *name, TlRange value)
{
  const TlFormulaInput *row;

  g_return_if_fail (self != NULL && name != NULL);
  int index = input_index (self, name, &row);
  if (index < 0)
    g_error ("formula %s has no input \"%s\"", self->formula->id, name);
  self->in[index] = value;
  self->given[index] = TRUE;
}

void
tl_call_set_exact (TlCall *self, const char *name, double value)
{
  tl_call_set (self, name, tl_range_exact (value));
}

static int
word_index (const char *const *words, const char *word)
{
  for (int i = 0; words[i] != NULL; i++)
    if (strcmp (words[i], word) == 0)
      return i;
  return -1;
}

void
tl_call_set_word (TlCall *self, const char *name, const char *word)
{
  const TlFormulaInput *row;

  g_return_if_fail (self != NULL && name != NULL && word != NULL);
  int index = input_index (self, name, &row);
  if (index < 0 || row->words == NULL || word_index (row->words, word) < 0)
    g_error ("formula %s has no input \"%s\" that takes \"%s\"", self->formula->id, name, word);
  self->in[index] = tl_range_exact (word_index (row->words, word));
  self->given[index] = TRUE;
}

const TlFormulaInput *
tl_call_input_info (const TlCall *self, guint index)
{
  g_return_val_if_fail (self != NULL && index < self->n_inputs, NULL);

  const TlFormulaInput *row = self->formula->inputs;
  for (; index >= tl_formula_row_width (row); row++)
    index -= tl_formula_row_width (row);
  return row;
}

char *
tl_call_input_name (const TlCall *self, guint index)
{
  g_return_val_if_fail (self != NULL && index < self->n_inputs, NULL);

  const TlFormulaInput *row = self->formula->inputs;
  for (; index >= tl_formula_row_width (row); row++)
    index -= tl_formula_row_width (row);
  return row->step == 0 ? g_strdup (row->name)
                        : g_strdup_printf ("%s%u", row->name, row->first + index * row->step);
}

gboolean
tl_call_has (const TlCall *self, const char *name)
{
  g_return_val_if_fail (self != NULL && name != NULL, FALSE);

  int index = output_index (self, name);
  return index >= 0 && self->has_out[index];
}

TlRange
tl_call_get (const TlCall *self, const char *name)
{
  int index = output_index (self, name);

  if (index < 0 || !self->has_out[index])
    g_error ("formula %s has not computed an output \"%s\"", self->formula->id, name);
  return self->out[index];
}

const char *
tl_call_get_word (const TlCall *self, const char *name)
{
  double                 value = tl_call_get (self, name).best;
  const TlFormulaOutput *output = &self->formula->outputs[output_index (self, name)];

  g_return_val_if_fail (output->words != NULL, "");
  return output->words[(int) lround (value)];
}

const char *
tl_call_output_unit (const TlCall *self, guint index)
{
  const TlFormulaInput *row;
  const char           *unit = self->formula->outputs[index].unit;

  if (strcmp (unit, "any") != 0)
    return unit;
  int wanted = input_index (self, "to", &row);
  g_return_val_if_fail (wanted >= 0 && self->given[wanted], "1");
  return row->words[(int) self->in[wanted].best];
}

/* --- inputs from text --- */

static gboolean
set_word_text (TlCall *self, int index, const TlFormulaInput *row, const char *name,
               const char *word, GError **error)
{
  int choice = word_index (row->words, word);

  if (choice < 0)
    {
      g_autofree char *offered = g_strjoinv (", ", (char **) row->words);

      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("%s: %s is \"%s\"; it must be one of %s"),
                   self->formula->id, name, word, offered);
      return FALSE;
    }
  self->in[index] = tl_range_exact (choice);
  self->given[index] = TRUE;
  return TRUE;
}

/* A quantity whose unit is free: the unit stands behind the last space and becomes the input "from". */
static gboolean
set_any_text (TlCall *self, int index, const char *name, const char *text, GError **error)
{
  const TlFormulaInput *from;
  const char           *space = strrchr (text, ' ');
  int                   unit = input_index (self, "from", &from);
  double                value;

  g_return_val_if_fail (unit >= 0, FALSE);
  if (space == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                   _ ("%s: %s is \"%s\"; it must be a number, a space and a unit"),
                   self->formula->id, name, text);
      return FALSE;
    }
  g_autofree char *number = g_strndup (text, (gsize) (space - text));
  if (!tl_number_parse (number, &value, error))
    {
      g_prefix_error (error, "%s: %s: ", self->formula->id, name);
      return FALSE;
    }
  if (!set_word_text (self, unit, from, "from", space + 1, error))
    return FALSE;
  self->in[index] = tl_range_exact (value);
  self->given[index] = TRUE;
  return TRUE;
}

gboolean
tl_call_set_text (TlCall *self, const char *name, const char *text, GError **error)
{
  const TlFormulaInput *row;
  TlRange               value;

  g_return_val_if_fail (self != NULL && name != NULL && text != NULL, FALSE);
  int index = input_index (self, name, &row);
  if (index < 0)
    {
      g_autoptr (GString) names = g_string_new (NULL);

      for (row = self->formula->inputs; row->name != NULL; row++)
        {
          g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", row->name);
          if (row->step != 0)
            g_string_append_printf (names, "%u..%s%u", row->first, row->name, row->last);
        }
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("%s: there is no input \"%s\"; the inputs are %s"), self->formula->id, name,
                   names->str);
      return FALSE;
    }
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  if (row->words != NULL)
    return set_word_text (self, index, row, name, trimmed, error);
  if (strcmp (row->unit, "any") == 0)
    return set_any_text (self, index, name, trimmed, error);
  if (!tl_quantity_parse_range (trimmed, row->unit, &value, error))
    {
      g_prefix_error (error, "%s: %s: ", self->formula->id, name);
      return FALSE;
    }
  self->in[index] = value;
  self->given[index] = TRUE;
  return TRUE;
}
