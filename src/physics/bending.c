/* bending.c: strain of the outer fibre of a bent wire. Source: geometry. For stranded conductors take one strand.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

static const TlFormulaInput bend_inputs[] = {
  TL_ABOVE ("wire_diameter", "mm", 0, 100, TL_TREND_RISES,
            TL_N_ ("round wire, a strand for a stranded conductor")),
  TL_MAYBE ("inner_radius", "mm", 0, 1e4, NAN, TL_TREND_FALLS, TL_N_ ("inside radius of the bend")),
  TL_MAYBE_ABOVE ("strain_limit", "1", 0, 1, NAN, TL_TREND_FALLS,
                  TL_N_ ("strain of the outer fibre that is allowed")),
  { NULL },
};
static const TlFormulaOutput bend_outputs[] = { { "strain", "1" },
                                                { "least_radius", "mm" },
                                                { NULL } };

static gboolean
run_bend (const double *in, double *out, GError **error)
{
  const double wire_mm = in[0], inner_radius_mm = in[1], strain_limit = in[2];

  out[0] = wire_mm / (2.0 * inner_radius_mm + wire_mm);
  out[1] = wire_mm * (1.0 / strain_limit - 1.0) / 2.0;
  return TRUE;
}

const TlFormula tl_bending_formulas[] = {
  { "bend-strain", TL_N_ ("Strain in a bend, and the least radius"),
    "strain = d/(2R + d); least_radius = d (1/limit - 1)/2", "geometry", TL_TRUST_A, bend_inputs,
    bend_outputs, run_bend },
  { NULL },
};
