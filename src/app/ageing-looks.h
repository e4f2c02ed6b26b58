/* ageing-looks.h: what is checked at each later look, as rows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/looks.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What is looked at each time: name, what is good, and below it what to do if it is not. @grid is emptied first. */
void tl_ageing_looks_fill_checks (GtkGrid *grid, const TlLooks *looks, const TlLanguage *language);
/* A head, the limits, and a row for each look with the figures to expect; those past their
 * limit have a mark and words below them. @grid is emptied first. */
void tl_ageing_looks_fill_table (GtkGrid *grid, const TlLooks *looks, const TlLanguage *language);

G_END_DECLS
