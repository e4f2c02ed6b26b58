/* parts-pane.h: everything that can go into a joint, by groups, with search.
 *
 * A row is dragged to the bench; Enter or a double click puts the part where it does best. The row chosen is what
 * Enter on the bench puts into a gap.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/bench.h"

G_BEGIN_DECLS

#define TL_TYPE_PARTS_PANE (tl_parts_pane_get_type ())
G_DECLARE_FINAL_TYPE (TlPartsPane, tl_parts_pane, TL, PARTS_PANE, GtkWidget)

void tl_parts_pane_set_document (TlPartsPane *self, TlDocument *document, TlBench *bench);
void tl_parts_pane_find (TlPartsPane *self);
/* Writes what is searched for, as if typed. */
void tl_parts_pane_search (TlPartsPane *self, const char *text);
/* Calls @visit for each part row that is shown. */
typedef void (*TlPartRowFunc) (GtkWidget *row, const TlPart *part, gpointer data);
void tl_parts_pane_foreach (TlPartsPane *self, TlPartRowFunc visit, gpointer data);

G_END_DECLS
