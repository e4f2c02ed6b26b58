/* heat-cases.c: see heat-cases.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/heat-cases.h"
#include "cli/calc-private.h"
#include "physics/network-cases.h"

/* Answers to all cases of a file, in its order. */
typedef struct
{
  GPtrArray   *cases;
  TlNetResult *results; /* (array length=cases->len) */
  guint        passed;
  guint        failed;
} Answers;

static void
answers_clear (Answers *self)
{
  g_clear_pointer (&self->cases, g_ptr_array_unref);
  g_clear_pointer (&self->results, g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Answers, answers_clear)

static const char *
status_word (gboolean no_steady_state)
{
  return no_steady_state ? "no_steady_state" : "ok";
}

static gboolean
case_fits (const TlNetCase *self, const TlNetResult *result)
{
  if (!tl_net_case_status_fits (self, result))
    return FALSE;
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    if (!tl_net_case_fits (self, result, i))
      return FALSE;
  return TRUE;
}

static gboolean
solve_all (Answers *answers, const char *file, GError **error)
{
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();

  answers->cases = tl_net_cases_read (file, error);
  if (answers->cases == NULL)
    return FALSE;
  answers->results = g_new0 (TlNetResult, answers->cases->len + 1);
  for (guint i = 0; i < answers->cases->len; i++)
    {
      const TlNetCase *one = answers->cases->pdata[i];

      if (!tl_network_solve (&one->network, workspace, &answers->results[i], error))
        {
          g_prefix_error (error, "%s:%u: ", file, one->line);
          return FALSE;
        }
      if (case_fits (one, &answers->results[i]))
        answers->passed++;
      else
        answers->failed++;
    }
  return TRUE;
}

/* Six figures, like the file's own. */
static const char *
figure_text (char *buffer, double value, gboolean is_there)
{
  return is_there ? g_ascii_formatd (buffer, G_ASCII_DTOSTR_BUF_SIZE, "%.6g", value) : "-";
}

static const char *
state_word (const TlNetCase *self, const TlNetResult *result, guint figure)
{
  if (!self->has_expected[figure] || !self->has_tolerance[figure])
    return "-";
  return tl_net_case_fits (self, result, figure) ? "in" : "out";
}

static void
append_case (GString *text, const TlNetCase *self, const TlNetResult *result)
{
  const gboolean steady = result->status == TL_NET_OK;

  g_string_append_printf (text, "%s\tstatus\t%s\t%s\t-\t%s\n", self->id, status_word (!steady),
                          self->has_status ? status_word (self->expects_no_steady) : "-",
                          tl_net_case_status_fits (self, result) ? "in" : "out");
  if (!steady && self->expects_no_steady)
    return;
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    {
      char computed[G_ASCII_DTOSTR_BUF_SIZE], expected[G_ASCII_DTOSTR_BUF_SIZE],
          tolerance[G_ASCII_DTOSTR_BUF_SIZE];

      g_string_append_printf (text, "%s\t%s\t%s\t%s\t%s\t%s\n", self->id, tl_net_figure_name (i),
                              figure_text (computed, result->value[i], steady),
                              figure_text (expected, self->expected[i], self->has_expected[i]),
                              figure_text (tolerance, self->tolerance[i], self->has_tolerance[i]),
                              state_word (self, result, i));
    }
  for (guint i = 0; i < TL_NET_N_REMARKS && steady; i++)
    {
      g_autofree char *computed = tl_net_remark_text (self, result, i);

      g_string_append_printf (text, "%s\t%s\t%s\t%s\t-\t-\n", self->id, tl_net_remark_name (i),
                              computed, self->remarks[i] == NULL ? "-" : self->remarks[i]);
    }
}

static void
json_number (JsonBuilder *builder, const char *name, double value, gboolean is_there)
{
  json_builder_set_member_name (builder, name);
  if (is_there)
    json_builder_add_double_value (builder, value);
  else
    json_builder_add_null_value (builder);
}

static void
json_case (JsonBuilder *builder, const TlNetCase *self, const TlNetResult *result)
{
  const gboolean steady = result->status == TL_NET_OK;

  json_builder_begin_object (builder);
  tl_calc_json_text (builder, "id", self->id);
  tl_calc_json_text (builder, "status", status_word (!steady));
  if (self->has_status)
    tl_calc_json_text (builder, "expected_status", status_word (self->expects_no_steady));
  tl_calc_json_text (builder, "result", case_fits (self, result) ? "in" : "out");
  json_number (builder, "balance_W", result->balance_W, steady);
  json_number (builder, "heat_W", result->heat_W, steady);
  json_number (builder, "runaway_margin", result->runaway_margin, steady);
  json_builder_set_member_name (builder, "figures");
  json_builder_begin_array (builder);
  for (guint i = 0; i < TL_NET_N_FIGURES && steady; i++)
    {
      json_builder_begin_object (builder);
      tl_calc_json_text (builder, "output", tl_net_figure_name (i));
      tl_calc_json_text (builder, "unit", tl_net_figure_unit (i));
      json_number (builder, "computed", result->value[i], TRUE);
      json_number (builder, "numerical_error", result->error[i], TRUE);
      json_number (builder, "expected", self->expected[i], self->has_expected[i]);
      json_number (builder, "tolerance", self->tolerance[i], self->has_tolerance[i]);
      json_builder_set_member_name (builder, "in");
      json_builder_add_boolean_value (builder, tl_net_case_fits (self, result, i));
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  json_builder_end_object (builder);
}

static int
print_json (const Answers *answers, int code)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_int_value (builder, 1);
  json_builder_set_member_name (builder, "cases");
  json_builder_begin_array (builder);
  for (guint i = 0; i < answers->cases->len; i++)
    json_case (builder, answers->cases->pdata[i], &answers->results[i]);
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "passed");
  json_builder_add_int_value (builder, answers->passed);
  json_builder_set_member_name (builder, "failed");
  json_builder_add_int_value (builder, answers->failed);
  json_builder_end_object (builder);
  return tl_calc_write_json (builder, code);
}

int
tl_cli_heat_cases (const char *file, gboolean json, const TlLanguage *language)
{
  g_autoptr (GError) error = NULL;
  g_auto (Answers) answers = { 0 };

  g_return_val_if_fail (file != NULL && language != NULL, TL_CALC_WRONG);

  if (!solve_all (&answers, file, &error))
    return tl_calc_fail (error->message);
  const int code = answers.failed > 0 ? TL_CALC_OUT_OF_TOLERANCE : TL_CALC_DONE;
  if (json)
    return print_json (&answers, code);
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < answers.cases->len; i++)
    append_case (text, answers.cases->pdata[i], &answers.results[i]);
  g_string_append_printf (text, tl_language_text (language, "%u passed, %u failed"), answers.passed,
                          answers.failed);
  g_string_append_c (text, '\n');
  return tl_calc_write_out (text->str, code);
}
