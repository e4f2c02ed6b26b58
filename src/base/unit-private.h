/* unit-private.h: the table of units, for quantity.c and its tests.
 *
 * Inputs: spellings as in formula tables or as people write them. Not here: reading numbers (quantity.c).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/quantity.h"

G_BEGIN_DECLS

/**
 * TlUnit:
 * @name: spelling in formula tables and files
 * @dimension: units of one dimension convert into each other
 * @numerator: with @denominator, how many of the dimension's first unit one of this is; both are
 *   exact in a double wherever the definition is, so that 0.5 in is 12.7 mm to the last digit
 * @denominator: see @numerator
 * @zero: reading of this unit at the zero of the dimension's first unit; 0 but for temperatures
 * @label: as the trade writes it
 */
typedef struct
{
  const char *name;
  const char *dimension;
  double      numerator;
  double      denominator;
  double      zero;
  const char *label;
} TlUnit;

/* The unit that @spelling means, or %NULL. */
const TlUnit *tl_unit_find (const char *spelling);

/* All units: (array length=count) */
const TlUnit *tl_unit_all (guint *count);

/* Labels of the units that convert to @unit, "mm, cm, m"; for messages. (transfer full) */
char *tl_unit_list_alike (const TlUnit *unit) G_GNUC_WARN_UNUSED_RESULT;

/* @value of @from in @to; the two must convert. Not checked for finiteness. */
double tl_unit_turn (double value, const TlUnit *from, const TlUnit *to);

G_END_DECLS
