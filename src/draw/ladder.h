/* ladder.h: the ladder of potentials: every surface of a joint a rung on one volt axis, and the table behind it.
 *
 * One series only (IEC 60950-1 Annex J as in the data), noble at the top. Couples that touch or may be bridged stand
 * as brackets beside the rungs with the step in volts and the verdict's line and mark; the limit stands beside them as
 * a gauge piece.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/chart.h"
#include "rules/verdict.h"

G_BEGIN_DECLS

/* @unit: units for one mm on the medium. */
void tl_ladder_paint (cairo_t *cr, const TlPalette *palette, const TlVerdict *verdict, double width, double height, double unit, const TlLanguage *language);

/* Rungs, then couples, a line each with tabs; (transfer full) */
char *tl_ladder_to_table (const TlVerdict *verdict, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
