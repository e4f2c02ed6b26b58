/* part-row.h: one line of Parts: a heading that opens, or a part with its drawing, name and dimensions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/part-item.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_PART_ROW (tl_part_row_get_type ())
G_DECLARE_FINAL_TYPE (TlPartRow, tl_part_row, TL, PART_ROW, GtkWidget)

GtkWidget *tl_part_row_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* @row: (nullable): the row of the tree, for a heading's arrow */
void       tl_part_row_show (TlPartRow *self, TlPartItem *item, GtkTreeListRow *row, const TlStock *stock);
/* (nullable) (transfer none) */
TlPartItem *tl_part_row_item (TlPartRow *self);

G_END_DECLS
