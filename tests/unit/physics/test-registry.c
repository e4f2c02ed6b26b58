/* The registry as a whole: every row complete, every declared trend true, every range refused where it must
 * be, ranges by corners against dense sampling. Starting points are the reference rows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "starts.h"
#include <math.h>

static GPtrArray *starts;

static void
check_unit (const char *unit)
{
  if (strcmp (unit, "word") != 0 && strcmp (unit, "any") != 0)
    g_assert_true (tl_unit_is_known (unit));
}

static void
test_rows (void)
{
  guint                   count;
  const TlFormula *const *all = tl_formula_all (&count);

  g_assert_cmpuint (count, >, 60);
  for (guint f = 0; f < count; f++)
    {
      guint  outputs = 0;
      TlCall call;

      g_test_message ("%s", all[f]->id);
      g_assert_true (tl_formula_find (all[f]->id) == all[f]);
      g_assert_cmpstr (all[f]->title, !=, "");
      g_assert_cmpstr (all[f]->equation, !=, "");
      g_assert_cmpstr (all[f]->source, !=, "");
      for (const TlFormulaOutput *output = all[f]->outputs; output->name != NULL;
           output++, outputs++)
        {
          check_unit (output->unit);
          g_assert_true ((output->words != NULL) == (strcmp (output->unit, "word") == 0));
        }
      g_assert_cmpuint (outputs, >, 0);
      g_assert_cmpuint (outputs, <=, TL_FORMULA_MAX_OUTPUTS);
      for (const TlFormulaInput *row = all[f]->inputs; row->name != NULL; row++)
        {
          check_unit (row->unit);
          g_assert_nonnull (row->meaning);
          g_assert_true ((row->words != NULL) == (strcmp (row->unit, "word") == 0));
          if (row->words == NULL)
            g_assert_cmpfloat (row->low, <, row->high);
          g_assert_true (row->step == 0 || (row->last - row->first) % row->step == 0);
        }
      tl_call_init (&call, all[f]->id);
      for (guint i = 0; i < call.n_inputs; i++)
        {
          g_autofree char *name = tl_call_input_name (&call, i);
          tl_call_set (&call, name, tl_range_exact (i));
          g_assert_cmpfloat (call.in[i].best, ==, i);
        }
    }
  g_assert_null (tl_formula_find ("no-such-formula"));
  g_assert_null (tl_formula_find (""));
}

/* Every formula stands in a reference row, so that all tests below reach it. */
static void
test_all_have_rows (void)
{
  guint                   count;
  const TlFormula *const *all = tl_formula_all (&count);

  for (guint f = 0; f < count; f++)
    g_assert_nonnull (starts_find (starts, all[f]->id));
}

static gboolean
is_number (const TlCall *call, guint index)
{
  return call->given[index] && tl_call_input_info (call, index)->words == NULL;
}

static void
test_quick (void)
{
  for (guint s = 0; s < starts->len; s++)
    {
      const Start *start = starts->pdata[s];
      TlCall       full = start->call, quick = start->call;
      g_autoptr (GError) error = NULL;

      tl_call_run (&full, &error);
      g_assert_no_error (error);
      g_assert_true (tl_call_run_quick (&quick));
      for (guint i = 0; full.formula->outputs[i].name != NULL; i++)
        {
          g_assert_true (full.has_out[i] == quick.has_out[i]);
          if (full.has_out[i])
            g_assert_cmpfloat (full.out[i].best, ==, quick.out[i].best);
        }
    }
}

/* More of an input moves the first output the way that its row declares. */
static void
test_trends (void)
{
  guint checked = 0;

  for (guint s = 0; s < starts->len; s++)
    {
      const Start *start = starts->pdata[s];
      TlCall       before = start->call;

      g_assert_true (tl_call_run_quick (&before));
      for (guint i = 0; i < before.n_inputs; i++)
        {
          const TlFormulaInput *row = tl_call_input_info (&before, i);
          TlCall                after = start->call;

          if (!is_number (&before, i) || row->trend == TL_TREND_NEITHER || !before.has_out[0])
            continue;
          const double step = row->whole ? 1.0 : MAX (0.01 * fabs (before.in[i].best), 1e-6);
          after.in[i] = tl_range_exact (before.in[i].best + step);
          if (!tl_call_run (&after, NULL))
            continue;
          const double rise = after.out[0].best - before.out[0].best,
                       noise = 1e-12 * fabs (before.out[0].best);
          g_test_message ("%s %s: input %u, %g to %g", start->id, start->formula, i,
                          before.out[0].best, after.out[0].best);
          if (row->trend == TL_TREND_RISES)
            g_assert_cmpfloat (rise, >=, -noise);
          else
            g_assert_cmpfloat (rise, <=, noise);
          checked++;
        }
    }
  g_assert_cmpuint (checked, >, 300);
}

/* Gives up to four inputs a random range of a few per cent; TRUE if all have a declared trend. */
static gboolean
widen_some (TlCall *call)
{
  gboolean all_declared = TRUE;

  for (guint k = 0; k < 4; k++)
    {
      const guint           i = (guint) g_test_rand_int_range (0, (gint32) call->n_inputs);
      const TlFormulaInput *row = tl_call_input_info (call, i);
      const double          best = call->in[i].best;

      if (!is_number (call, i) || row->whole || !tl_range_is_exact (call->in[i]))
        continue;
      const double share = g_test_rand_double_range (0.001, 0.08);
      call->in[i] = (TlRange){ best - share * fabs (best), best, best + share * fabs (best) };
      call->in[i].low = MAX (call->in[i].low, row->low);
      call->in[i].high = MIN (call->in[i].high, row->high);
      all_declared = all_declared && row->trend != TL_TREND_NEITHER;
    }
  return all_declared;
}

/* A pick from a list jumps from one entry to the next: it has no curve to sample. */
static gboolean
is_pick (const TlFormula *formula, guint output)
{
  return formula->outputs[output].words != NULL || strcmp (formula->id, "heat-shrink-choice") == 0
         || (strcmp (formula->id, "bolt-length") == 0
             && strcmp (formula->outputs[output].name, "length") == 0);
}

static void
compare_with_sampling (const Start *start, const TlCall *wide, gboolean all_declared)
{
  for (guint n = 0; n < 60; n++)
    {
      TlCall point = *wide;

      for (guint i = 0; i < point.n_inputs; i++)
        if (is_number (wide, i) && !tl_range_is_exact (wide->in[i]))
          point.in[i] =
              tl_range_exact (g_test_rand_double_range (wide->in[i].low, wide->in[i].high));
      if (!tl_call_run_quick (&point))
        continue;
      for (guint i = 0; point.formula->outputs[i].name != NULL; i++)
        {
          const double width = wide->out[i].high - wide->out[i].low;
          /* Sampling at nine points may miss the very tip of a curve; corners of declared trends may not. */
          const double slack =
              (all_declared ? 1e-12 : 0.1) * width + 1e-12 * fabs (wide->out[i].best);

          if (!wide->has_out[i] || is_pick (point.formula, i))
            continue;
          g_test_message ("%s %s %s: %.12g in %.12g..%.12g", start->id, start->formula,
                          point.formula->outputs[i].name, point.out[i].best, wide->out[i].low,
                          wide->out[i].high);
          g_assert_cmpfloat (point.out[i].best, >=, wide->out[i].low - slack);
          g_assert_cmpfloat (point.out[i].best, <=, wide->out[i].high + slack);
        }
    }
}

static void
test_ranges (void)
{
  guint done = 0;

  for (guint s = 0; s < starts->len; s++)
    for (guint round = 0; round < 3; round++)
      {
        const Start   *start = starts->pdata[s];
        TlCall         wide = start->call;
        const gboolean all_declared = widen_some (&wide);

        if (!tl_call_run (&wide, NULL))
          continue;
        compare_with_sampling (start, &wide, all_declared);
        done++;
      }
  g_assert_cmpuint (done, >, starts->len * 2);
}

static void
refuse_input (const Start *start, guint index, double value)
{
  TlCall call = start->call;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = tl_call_input_name (&call, index);

  call.in[index] = tl_range_exact (value);
  g_assert_false (tl_call_run (&call, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, name));
  g_assert_nonnull (strstr (error->message, start->formula));
  g_assert_false (call.has_out[0]);
}

static void
test_refusals (void)
{
  for (guint s = 0; s < starts->len; s++)
    {
      const Start *start = starts->pdata[s];

      for (guint i = 0; i < start->call.n_inputs; i++)
        {
          const TlFormulaInput *row = tl_call_input_info (&start->call, i);

          if (!is_number (&start->call, i))
            continue;
          refuse_input (start, i, (double) NAN);
          refuse_input (start, i, (double) INFINITY);
          refuse_input (start, i, -(double) INFINITY);
          refuse_input (start, i, row->high + fabs (row->high) * 0.01);
          refuse_input (start, i, row->low - 1.0);
          if (row->low_open)
            refuse_input (start, i, row->low);
          if (row->whole)
            refuse_input (start, i, row->low + 0.5);
        }
    }
}

/* All missing inputs in one message. */
static void
test_missing (void)
{
  guint                   count;
  const TlFormula *const *all = tl_formula_all (&count);

  for (guint f = 0; f < count; f++)
    {
      TlCall call;
      g_autoptr (GError) error = NULL;
      guint required = 0;

      for (const TlFormulaInput *row = all[f]->inputs; row->name != NULL; row++)
        required += row->step == 0 ? !row->optional : row->least;
      tl_call_init (&call, all[f]->id);
      if (required == 0)
        continue;
      g_assert_false (tl_call_run (&call, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_NAME);
      for (const TlFormulaInput *row = all[f]->inputs; row->name != NULL; row++)
        if (row->step == 0 && !row->optional)
          g_assert_nonnull (strstr (error->message, row->name));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  starts = starts_read ();
  g_test_add_func ("/registry/rows", test_rows);
  g_test_add_func ("/registry/all-have-reference-rows", test_all_have_rows);
  g_test_add_func ("/registry/quick-equals-full", test_quick);
  g_test_add_func ("/registry/trends", test_trends);
  g_test_add_func ("/registry/ranges-against-sampling", test_ranges);
  g_test_add_func ("/registry/refusals", test_refusals);
  g_test_add_func ("/registry/missing-inputs", test_missing);
  const int result = g_test_run ();
  g_ptr_array_unref (starts);
  return result;
}
