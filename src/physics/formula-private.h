/* formula-private.h: how the subjects write their rows, and which subjects there are.
 *
 * An input row is one line: name, unit, permitted range, trend, meaning. Not for other rooms.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "formula.h"
#include "base/language.h"
#include <glib/gi18n-lib.h>
#include <math.h>

/* 0 degC in kelvin. */
#define TL_ZERO_C_K 273.15

/* Input above LOW (itself refused) up to HIGH. */
#define TL_ABOVE(input, in_unit, at_least, at_most, moves, says)                                   \
  {                                                                                                \
    .name = input, .unit = in_unit, .low = at_least, .high = at_most, .low_open = TRUE,            \
    .trend = moves, .fallback = NAN, .meaning = says                                               \
  }

/* Input from LOW to HIGH, both permitted. */
#define TL_FROM(input, in_unit, at_least, at_most, moves, says)                                    \
  {                                                                                                \
    .name = input, .unit = in_unit, .low = at_least, .high = at_most, .trend = moves,              \
    .fallback = NAN, .meaning = says                                                               \
  }

/* Optional input; FALLBACK is used when it is left out, NAN if there is none. */
#define TL_MAYBE(input, in_unit, at_least, at_most, left_out, moves, says)                         \
  {                                                                                                \
    .name = input, .unit = in_unit, .low = at_least, .high = at_most, .trend = moves,              \
    .optional = TRUE, .fallback = left_out, .meaning = says                                        \
  }

/* Like TL_MAYBE() with LOW itself refused. */
#define TL_MAYBE_ABOVE(input, in_unit, at_least, at_most, left_out, moves, says)                   \
  {                                                                                                \
    .name = input, .unit = in_unit, .low = at_least, .high = at_most, .low_open = TRUE,            \
    .trend = moves, .optional = TRUE, .fallback = left_out, .meaning = says                        \
  }

/* Optional count, a whole number from 0. */
#define TL_COUNT(input, at_most, left_out, says)                                                   \
  {                                                                                                \
    .name = input, .unit = "1", .low = 0.0, .high = at_most, .trend = TL_TREND_RISES,              \
    .optional = TRUE, .fallback = left_out, .whole = TRUE, .meaning = says                         \
  }

/* One of WORDS. */
#define TL_WORD(input, choice, says)                                                               \
  {                                                                                                \
    .name = input, .unit = "word", .words = choice, .fallback = NAN, .meaning = says               \
  }

/* Optional word; the one at index LEFT_OUT stands when it is not given, NAN if none does. */
#define TL_MAYBE_WORD(input, choice, left_out, says)                                               \
  {                                                                                                \
    .name = input, .unit = "word", .words = choice, .optional = TRUE, .fallback = left_out,        \
    .meaning = says                                                                                \
  }

/* How many numbers an input row stands for. */
static inline guint
tl_formula_row_width (const TlFormulaInput *row)
{
  return row->step == 0 ? 1 : (row->last - row->first) / row->step + 1;
}

/* Refuses a combination of inputs; returns FALSE so that it can end a formula function. */
gboolean tl_formula_refuse (GError **error, const char *message);

extern const TlFormula tl_galvanic_formulas[];
extern const TlFormula tl_constriction_formulas[];
extern const TlFormula tl_fastening_formulas[];
extern const TlFormula tl_spring_formulas[];
extern const TlFormula tl_pressing_formulas[];
extern const TlFormula tl_bending_formulas[];
extern const TlFormula tl_sealing_formulas[];
extern const TlFormula tl_ageing_formulas[];
extern const TlFormula tl_heat_formulas[];
extern const TlFormula tl_heat_film_formulas[];
extern const TlFormula tl_heat_wire_formulas[];
extern const TlFormula tl_heat_fin_formulas[];
extern const TlFormula tl_circuit_formulas[];
extern const TlFormula tl_identify_formulas[];
extern const TlFormula tl_room_formulas[];
extern const TlFormula tl_measuring_formulas[];
extern const TlFormula tl_units_formulas[];

extern const char *const tl_yes_no_words[];
extern const char *const tl_metal_words[];
