/* bench-item.h: one layer, contact or gap of the bench as a widget of its own.
 *
 * The drawing is painted by the bench; this child lies over it, transparent, so that the keyboard can stand on it
 * and a screen reader can name it. It takes no pointer events.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_BENCH_ITEM (tl_bench_item_get_type ())
G_DECLARE_FINAL_TYPE (TlBenchItem, tl_bench_item, TL, BENCH_ITEM, GtkWidget)

/* @owner: (nullable): leg or layer of a body; @index: of a contact or place */
GtkWidget  *tl_bench_item_new (TlItemKind kind, const char *owner, guint index) G_GNUC_WARN_UNUSED_RESULT;
TlItemKind  tl_bench_item_kind (TlBenchItem *self);
const char *tl_bench_item_owner (TlBenchItem *self);
guint       tl_bench_item_index (TlBenchItem *self);
void        tl_bench_item_set_index (TlBenchItem *self, guint index);
/* Name and description for the screen reader, place in the list (from 1), and whether it is selected. */
void        tl_bench_item_describe (TlBenchItem *self, const char *name, const char *description, guint place, guint count, gboolean is_selected);

G_END_DECLS
