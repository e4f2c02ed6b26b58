/* formula.c: finding formulas, checking their inputs, evaluating ranges.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include "base/quantity.h"
#include <string.h>

/* Fewer than this many points are evaluated for one call with ranges. */
#define MOST_POINTS 4096
/* Points between the ends of an input whose trend is not declared. */
#define SAMPLES 9

const char *const tl_yes_no_words[] = { "no", "yes", NULL };
const char *const tl_metal_words[] = { "copper", "aluminium", NULL };

/* Subjects in the order in which `calc --list` and the handbook show them. */
static const TlFormula *const subjects[] = {
  tl_galvanic_formulas, tl_constriction_formulas, tl_fastening_formulas, tl_spring_formulas,
  tl_pressing_formulas, tl_bending_formulas,      tl_sealing_formulas,   tl_ageing_formulas,
  tl_heat_formulas,     tl_circuit_formulas,      tl_room_formulas,      tl_measuring_formulas,
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
  static gsize ready = 0;

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
  guint low = 0, high = all->count;

  while (low < high)
    {
      guint middle = (low + high) / 2;
      int order = strcmp (id, all->by_id[middle]->id);

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

gboolean
tl_formula_refuse (GError **error, const char *message)
{
  g_set_error_literal (error, TL_ERROR, TL_ERROR_RANGE, message);
  return FALSE;
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

/* How many numbers a row stands for. */
static guint
row_width (const TlFormulaInput *row)
{
  return row->step == 0 ? 1 : (row->last - row->first) / row->step + 1;
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
    for (guint i = row_width (row); i > 0; i--)
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

  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL; index += row_width (row), row++)
    {
      *found = row;
      if (row->step == 0)
        {
          if (strcmp (row->name, name) == 0)
            return (int) index;
          continue;
        }
      gsize length = strlen (row->name);
      if (strncmp (row->name, name, length) != 0 || !g_ascii_isdigit (name[length]) || name[length] == '0')
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
  for (; index >= row_width (row); row++)
    index -= row_width (row);
  return row;
}

char *
tl_call_input_name (const TlCall *self, guint index)
{
  g_return_val_if_fail (self != NULL && index < self->n_inputs, NULL);

  const TlFormulaInput *row = self->formula->inputs;
  for (; index >= row_width (row); row++)
    index -= row_width (row);
  return row->step == 0 ? g_strdup (row->name)
                        : g_strdup_printf ("%s%u", row->name, row->first + index * row->step);
}

/* Values as the message shows them: all their digits, so that a value just beyond a limit never looks
 * like the limit. */
static char *
figure (double value, const char *unit)
{
  if (!isfinite (value))
    return g_strdup (_ ("not a finite number"));
  g_autofree char *number = tl_number_to_text (value);
  const char *label = strcmp (unit, "1") == 0 || strcmp (unit, "any") == 0 ? "" : unit;
  return label[0] == '\0' ? g_steal_pointer (&number) : g_strdup_printf ("%s %s", number, label);
}

static char *
permitted (const TlFormulaInput *row)
{
  g_autofree char *low = figure (row->low, row->unit);
  g_autofree char *high = figure (row->high, row->unit);

  /* Translators: both are figures with units: "above 0 mm and at most 1000 mm" */
  return row->low_open ? g_strdup_printf (_ ("above %s and at most %s"), low, high)
                       : g_strdup_printf (_ ("at least %s and at most %s"), low, high);
}

static gboolean
refuse_value (const TlCall *self, guint index, double value, GError **error)
{
  const TlFormulaInput *row = tl_call_input_info (self, index);
  g_autofree char *name = tl_call_input_name (self, index);
  g_autofree char *got = figure (value, row->unit);
  g_autofree char *wanted = permitted (row);

  /* Translators: formula id, input name, its value, the permitted range */
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%s: %s is %s; it must be %s"), self->formula->id, name, got,
               wanted);
  return FALSE;
}

static gboolean
check_value (const TlCall *self, guint index, const TlFormulaInput *row, GError **error)
{
  const TlRange *v = &self->in[index];
  const double ends[] = { v->low, v->best, v->high };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (!isfinite (ends[i]) || ends[i] < row->low || ends[i] > row->high
        || (row->low_open && ends[i] <= row->low))
      return refuse_value (self, index, ends[i], error);
  if (v->low > v->best || v->best > v->high)
    {
      g_autofree char *name = tl_call_input_name (self, index);

      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("%s: the range of %s runs from %g over %g to %g; it must rise from its low to its high end"),
                   self->formula->id, name, v->low, v->best, v->high);
      return FALSE;
    }
  if (row->whole && fabs (v->best - round (v->best)) > 1e-6)
    {
      g_autofree char *name = tl_call_input_name (self, index);

      g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%s: %s is %g; it must be a whole number"),
                   self->formula->id, name, v->best);
      return FALSE;
    }
  return TRUE;
}

/* Every input against its row; the missing ones are named together. */
static gboolean
check_inputs (const TlCall *self, GError **error)
{
  g_autoptr (GString) missing = g_string_new (NULL);
  guint index = 0;

  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL; row++)
    {
      guint width = row_width (row);
      guint least = row->step == 0 ? (row->optional ? 0 : 1) : row->least;

      for (guint i = 0; i < width; i++, index++)
        if (self->given[index])
          {
            if (row->words == NULL && !check_value (self, index, row, error))
              return FALSE;
          }
        else if (i < least)
          {
            g_autofree char *name = tl_call_input_name (self, index);
            g_string_append_printf (missing, "%s%s", missing->len > 0 ? ", " : "", name);
          }
    }
  if (missing->len > 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("%s: these inputs are missing: %s"), self->formula->id,
                   missing->str);
      return FALSE;
    }
  return TRUE;
}

/* --- evaluation --- */

typedef struct
{
  guint    index;  /* among the expanded inputs */
  guint    points; /* at which it is evaluated: 2 ends or SAMPLES */
  TlTrend  trend;
} Ranged;

static gboolean
run_at (TlCall *self, const double *in, double *out, GError **error)
{
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    out[i] = NAN;
  g_autoptr (GError) reason = NULL;
  if (!self->formula->run (in, out, &reason))
    {
      g_propagate_prefixed_error (error, g_steal_pointer (&reason), "%s: ", self->formula->id);
      return FALSE;
    }
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    if (isinf (out[i]))
      {
        g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%s: %s grows beyond all figures with these inputs"),
                     self->formula->id, self->formula->outputs[i].name);
        return FALSE;
      }
  return TRUE;
}

/* Widens the outputs by one more evaluation. */
static gboolean
widen (TlCall *self, const double *in, GError **error)
{
  double out[TL_FORMULA_MAX_OUTPUTS];

  if (!run_at (self, in, out, error))
    return FALSE;
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    {
      if (isnan (out[i]) != !self->has_out[i])
        {
          g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                       _ ("%s: %s cannot be computed over the whole range of the inputs"), self->formula->id,
                       self->formula->outputs[i].name);
          return FALSE;
        }
      self->out[i].low = MIN (self->out[i].low, out[i]);
      self->out[i].high = MAX (self->out[i].high, out[i]);
    }
  return TRUE;
}

/* The inputs with a range. Samples are thinned out until all combinations stay below the cap; FALSE if
 * even the corners alone are too many. */
static gboolean
plan_points (const TlCall *self, Ranged *ranged, guint *count)
{
  guint n = 0, index = 0, samples = SAMPLES;

  for (const TlFormulaInput *row = self->formula->inputs; row->name != NULL; row++)
    for (guint i = row_width (row); i > 0; i--, index++)
      if (self->given[index] && !tl_range_is_exact (self->in[index]))
        ranged[n++] = (Ranged){ index, 2, row->trend };
  *count = n;
  for (;;)
    {
      double product = 1.0;

      for (guint i = 0; i < n; i++)
        {
          ranged[i].points = ranged[i].trend == TL_TREND_NEITHER ? samples : 2;
          product *= ranged[i].points;
        }
      if (product <= MOST_POINTS)
        return TRUE;
      if (samples == 2)
        return FALSE;
      samples = samples > 3 ? (samples + 1) / 2 : 2;
    }
}

static double
point (const TlRange *range, guint step, guint points)
{
  if (step + 1 == points)
    return range->high;
  return range->low + (range->high - range->low) * step / (points - 1);
}

/* All combinations of the points of the ranged inputs. */
static gboolean
run_grid (TlCall *self, double *in, const Ranged *ranged, guint n, GError **error)
{
  guint step[TL_FORMULA_MAX_INPUTS] = { 0 };

  for (;;)
    {
      guint i = 0;

      for (guint j = 0; j < n; j++)
        in[ranged[j].index] = point (&self->in[ranged[j].index], step[j], ranged[j].points);
      if (!widen (self, in, error))
        return FALSE;
      while (i < n && ++step[i] == ranged[i].points)
        step[i++] = 0;
      if (i == n)
        return TRUE;
    }
}

/* Too many ranged inputs for all corners: all move together, once each input the way that raises the first
 * output and once against it, then one at a time from the best. */
static gboolean
run_together (TlCall *self, double *in, const Ranged *ranged, guint n, GError **error)
{
  for (guint up = 0; up < 2; up++)
    {
      for (guint j = 0; j < n; j++)
        {
          const TlRange *v = &self->in[ranged[j].index];
          gboolean high = (ranged[j].trend == TL_TREND_FALLS) != (up == 1);
          in[ranged[j].index] = high ? v->high : v->low;
        }
      if (!widen (self, in, error))
        return FALSE;
    }
  for (guint j = 0; j < n; j++)
    in[ranged[j].index] = self->in[ranged[j].index].best;
  for (guint j = 0; j < n; j++)
    {
      const TlRange *v = &self->in[ranged[j].index];

      in[ranged[j].index] = v->low;
      if (!widen (self, in, error))
        return FALSE;
      in[ranged[j].index] = v->high;
      if (!widen (self, in, error))
        return FALSE;
      in[ranged[j].index] = v->best;
    }
  return TRUE;
}

gboolean
tl_call_run (TlCall *self, GError **error)
{
  double in[TL_FORMULA_MAX_INPUTS], out[TL_FORMULA_MAX_OUTPUTS];
  Ranged ranged[TL_FORMULA_MAX_INPUTS];
  guint n;

  g_return_val_if_fail (self != NULL && self->formula != NULL, FALSE);
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    self->has_out[i] = FALSE;
  if (!check_inputs (self, error))
    return FALSE;
  for (guint i = 0; i < self->n_inputs; i++)
    in[i] = self->in[i].best;
  if (!run_at (self, in, out, error))
    return FALSE;
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    {
      self->out[i] = tl_range_exact (out[i]);
      self->has_out[i] = !isnan (out[i]);
    }
  gboolean few = plan_points (self, ranged, &n);
  if (n == 0)
    return TRUE;
  if (few ? run_grid (self, in, ranged, n, error) : run_together (self, in, ranged, n, error))
    return TRUE;
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    self->has_out[i] = FALSE;
  return FALSE;
}

gboolean
tl_call_run_quick (TlCall *self)
{
  double in[TL_FORMULA_MAX_INPUTS], out[TL_FORMULA_MAX_OUTPUTS];

  for (guint i = 0; i < self->n_inputs; i++)
    {
      in[i] = self->in[i].best;
      if (self->given[i] && !isfinite (in[i]))
        return FALSE;
    }
  for (guint i = 0; i < TL_FORMULA_MAX_OUTPUTS; i++)
    out[i] = NAN;
  if (!self->formula->run (in, out, NULL))
    return FALSE;

  gboolean any = FALSE;
  for (guint i = 0; self->formula->outputs[i].name != NULL; i++)
    {
      if (isinf (out[i]))
        return FALSE;
      self->out[i] = tl_range_exact (out[i]);
      self->has_out[i] = !isnan (out[i]);
      any = any || self->has_out[i];
    }
  return any;
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
  double value = tl_call_get (self, name).best;
  const TlFormulaOutput *output = &self->formula->outputs[output_index (self, name)];

  g_return_val_if_fail (output->words != NULL, "");
  return output->words[(int) lround (value)];
}

const char *
tl_call_output_unit (const TlCall *self, guint index)
{
  const TlFormulaInput *row;
  const char *unit = self->formula->outputs[index].unit;

  if (strcmp (unit, "any") != 0)
    return unit;
  int wanted = input_index (self, "to", &row);
  g_return_val_if_fail (wanted >= 0 && self->given[wanted], "1");
  return row->words[(int) self->in[wanted].best];
}

/* --- inputs from text --- */

static gboolean
set_word_text (TlCall *self, int index, const TlFormulaInput *row, const char *name, const char *word,
               GError **error)
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
  const char *space = strrchr (text, ' ');
  int unit = input_index (self, "from", &from);
  double value;

  g_return_val_if_fail (unit >= 0, FALSE);
  if (space == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_UNIT, _ ("%s: %s is \"%s\"; it must be a number, a space and a unit"),
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
  TlRange value;

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
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("%s: there is no input \"%s\"; the inputs are %s"),
                   self->formula->id, name, names->str);
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
