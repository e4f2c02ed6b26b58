/* ageing-chart.h: a forecast as a band over the years, and the table behind it.
 *
 * "Indicative: read the band, not the line." No date of failure, ever.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/chart.h"
#include "plan/ageing.h"

G_BEGIN_DECLS

/* Paints one output in an area of @width by @height units; @unit: units for one mm on the medium. A forecast that was
 * not computed gives its title and "not computed". */
void tl_ageing_chart_paint (cairo_t *cr, const TlPalette *palette, const TlAgeing *ageing, TlAgeingOutput output, double width, double height, double unit, const TlLanguage *language);

/* The same as lines "year TAB low TAB middle TAB high", with a head: (transfer full) */
char *tl_ageing_chart_to_table (const TlAgeing *ageing, TlAgeingOutput output, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
