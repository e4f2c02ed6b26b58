/* overlay.c: the rows that a document keeps, laid over the stock.
 *
 * An overlay holds nothing but pointers: to the document's rows, and to those of the stock below.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

TlStock *
tl_stock_overlay (const TlStock *self, const TlUsed *used)
{
  TlStock *over;

  g_return_val_if_fail (self != NULL && used != NULL, NULL);

  over = tl_stock_new_empty ();
  over->below = tl_stock_ref (self);
  over->used = tl_used_ref (used);
  over->version = g_strdup (used->data_version != NULL ? used->data_version : self->version);
  g_ptr_array_extend (over->sources, self->sources, NULL, NULL);
  g_clear_pointer (&over->materials, g_ptr_array_unref);
  g_clear_pointer (&over->parts, g_ptr_array_unref);
  g_clear_pointer (&over->tables, g_ptr_array_unref);
  tl_stock_index_rows (over->material_by_id, used->materials);
  tl_stock_index_rows (over->part_by_id, used->parts);
  tl_stock_index_thresholds (over, used->thresholds);
  return over;
}
