/* margin-cell.h: one of the four headline margins: name, mark, figure, bar with its limit.
 *
 * While a part is dragged, the bar carries the preview as a dashed box.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/theme.h"
#include "rules/wording.h"

G_BEGIN_DECLS

#define TL_TYPE_MARGIN_CELL (tl_margin_cell_get_type ())
G_DECLARE_FINAL_TYPE (TlMarginCell, tl_margin_cell, TL, MARGIN_CELL, GtkWidget)

GtkWidget *tl_margin_cell_new (TlMargin margin) G_GNUC_WARN_UNUSED_RESULT;
void       tl_margin_cell_show (TlMarginCell *self, const TlVerdict *verdict, const TlLanguage *language);
/* @verdict: (nullable): no preview */
void       tl_margin_cell_preview (TlMarginCell *self, const TlVerdict *verdict);

G_END_DECLS
