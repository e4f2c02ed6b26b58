/* part-item.h: a part, or a group of parts, as a row of the list in Parts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/pack.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define TL_TYPE_PART_ITEM (tl_part_item_get_type ())
G_DECLARE_FINAL_TYPE (TlPartItem, tl_part_item, TL, PART_ITEM, GObject)

TlPartItem *tl_part_item_new (const TlPart *part, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* A heading. @parts: (transfer none): its rows */
TlPartItem *tl_part_item_new_group (TlPartGroup group, GListModel *parts, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* %NULL for a heading. */
const TlPart *tl_part_item_part (TlPartItem *self);
TlPartGroup   tl_part_item_group (TlPartItem *self);
GListModel   *tl_part_item_parts (TlPartItem *self);
/* With its pack or its own id before it where another part looks the same. */
const char   *tl_part_item_name (TlPartItem *self);
const char   *tl_part_item_dimensions (TlPartItem *self);
/* "", or what the person noted: "van" and, below it, "25 m". */
const char   *tl_part_item_mark (TlPartItem *self);
/* %TRUE if it comes from a pack. */
gboolean      tl_part_item_is_own (TlPartItem *self);

G_END_DECLS
