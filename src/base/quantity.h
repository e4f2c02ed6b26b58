/* quantity.h: numbers with units, read and printed.
 *
 * The one place where units are converted. The engine computes in the unit that a name says; people and
 * files may write any unit of the same dimension: "4 mm²", "12 AWG", "0.5 in", "1/2 in", "12 lbf·in",
 * "20 °C", "2,5 mm2". Units are spelled as in formula tables (mm2, N_m, lbf_in, degC, ohm_mm2/m, 1/K, %)
 * and as people write them (mm², N·m, lbf·in, °C, Ω·mm²/m).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"
#include "base/language.h"
#include "base/range.h"

G_BEGIN_DECLS

/* %TRUE if @unit is known; "1" is the dimensionless unit. */
gboolean tl_unit_is_known (const char *unit);

/* %TRUE if a figure in @from can be turned into @to. */
gboolean tl_unit_converts (const char *from, const char *to);

/**
 * tl_quantity_convert:
 * Turns @value of unit @from into unit @to. Temperatures degC/degF/K are points on the scale; "delta_K"
 * style differences are the unit K in fields that are differences (K to K is the identity).
 * Returns: %FALSE with %TL_ERROR_UNIT if the two do not convert, %TL_ERROR_RANGE if not finite
 */
gboolean tl_quantity_convert (double value, const char *from, const char *to, double *result, GError **error);

/**
 * tl_quantity_parse:
 * @text: a number, then a unit; without a unit it is in @unit. Decimal point or comma; grouping is refused;
 *   fractions "1/2" and "1 1/2" are read; "AWG" gives mm2 or mm (ASTM B258) by @unit
 * @unit: the unit wanted
 * @value: (out caller-allocates): untouched on error
 *
 * A point on a scale ("20 °C") is refused where K is wanted: in this program K is always a difference.
 *
 * Returns: %FALSE with %TL_ERROR_PARSE, %TL_ERROR_UNIT or %TL_ERROR_RANGE (not finite)
 */
gboolean tl_quantity_parse (const char *text, const char *unit, double *value, GError **error);

/* Like tl_quantity_parse() but also "low..high" (best is the middle) and "low..best..high"; the unit may
 * stand once at the end. */
gboolean tl_quantity_parse_range (const char *text, const char *unit, TlRange *range, GError **error);

/* A plain number as in files: ASCII, finite, nothing before or behind but spaces. */
gboolean tl_number_parse (const char *text, double *value, GError **error);

/**
 * tl_quantity_format:
 * @unit: unit of @value
 * Prints with sensible figures (three significant, no trailing noise), thin no-break space U+202F before
 * the unit, the unit as the trade writes it (mm², N·m, °C). In customary units lengths are given in in,
 * sections as AWG where one fits within 1 %, torque in lbf·in.
 * Returns: (transfer full)
 */
char *tl_quantity_format (double value, const char *unit, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* "1.5 to 2.5 kN" style; an exact range prints as one figure. */
char *tl_range_format (TlRange range, const char *unit, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* Shortest decimal text that reads back to the same double; for files and JSON. */
char *tl_number_to_text (double value) G_GNUC_WARN_UNUSED_RESULT;

/* Unit as a person reads it: "mm2" -> "mm²"; "1" -> "". (transfer none) */
const char *tl_unit_label (const char *unit);

/* Diameter in mm of an AWG size, 36 .. -3 (4/0): ASTM B258, d = 0.127 mm * 92^((36-n)/39). */
double tl_awg_diameter_mm (int awg);

G_END_DECLS
