/* parts-list.h: which parts Parts shows, and in what order.
 *
 * Without words: groups with those parts that fit. With words: one list, best fit first (stock/search.h). Boxes are left
 * out: they are chosen for the site. A heading without parts is not shown.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/part-item.h"
#include "stock/search.h"

G_BEGIN_DECLS

/* As many hits as anybody reads; the rest is told as a number. */
#define TL_PARTS_LIST_MAX_HITS 300

typedef struct _TlPartsList TlPartsList;

TlPartsList *tl_parts_list_new (const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
void         tl_parts_list_free (TlPartsList *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPartsList, tl_parts_list_free)

/* Headings, or hits: (element-type TlPartItem) (transfer none) */
GListModel *tl_parts_list_model (TlPartsList *self);

/**
 * tl_parts_list_show:
 * @words: (nullable): what is searched for; "" or %NULL: groups
 * @filter: what the parts must fit
 * @thread_mm: without words, parts with a thread must have this one; 0: any
 *
 * Returns: how many hits were left off
 */
guint tl_parts_list_show (TlPartsList *self, const char *words, const TlSearchFilter *filter, double thread_mm);

/* %TRUE if what is shown are hits that fit all words but one, because none fits all. */
gboolean tl_parts_list_is_near (const TlPartsList *self);
/* %TRUE if the search found boxes, which are not shown. */
gboolean tl_parts_list_has_boxes (const TlPartsList *self);

G_END_DECLS
