/* units.c: the same quantity in another unit, as a formula of the registry.
 *
 * The factors stand in base/quantity, nowhere here. Source: exact definitions, 1 in = 25.4 mm,
 * 1 lbf = 4.4482216152605 N.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"
#include "base/quantity.h"

static const char *const unit_words[] = {
  "lbf_in", "lbf_ft", "N_m", "lbf", "N",   "kN",   "in3",  "cm3", "mL",  "in",   "ft",   "m",
  "mm",     "um",     "mm2", "in2", "mpy", "mm/y", "um/y", "MPa", "psi", "degC", "degF", NULL,
};

static const TlFormulaInput conversion_inputs[] = {
  TL_FROM ("value", "any", -1e15, 1e15, TL_TREND_RISES, TL_N_ ("quantity with its unit")),
  TL_WORD ("to", unit_words, TL_N_ ("unit wanted")),
  TL_MAYBE_WORD ("from", unit_words, NAN,
                 TL_N_ ("unit of the value, when it is not written behind it")),
  { NULL },
};
static const TlFormulaOutput conversion_outputs[] = { { "result", "any" }, { NULL } };

static gboolean
run_conversion (const double *in, double *out, GError **error)
{
  if (isnan (in[2]))
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_UNIT,
                           _ ("the value has no unit; write one behind it, as in 35 lbf_in"));
      return FALSE;
    }
  return tl_quantity_convert (in[0], unit_words[(int) in[2]], unit_words[(int) in[1]], out, error);
}

const TlFormula tl_units_formulas[] = {
  { "unit-conversion", TL_N_ ("The same quantity in another unit"), "same quantity in another unit",
    "exact definitions: 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N", TL_TRUST_A, conversion_inputs,
    conversion_outputs, run_conversion },
  { NULL },
};
