/* overlay.c: the rows that a document keeps, laid over the stock.
 *
 * An overlay holds nothing but pointers: to the document's rows, and to those of the stock below.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include <string.h>

TlUsed *
tl_used_new (void)
{
  TlUsed *self = g_atomic_rc_box_new0 (TlUsed);

  self->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_part_free);
  self->materials = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_material_free);
  self->thresholds = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_table_row_free);
  return self;
}

TlUsed *
tl_used_ref (const TlUsed *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return g_atomic_rc_box_acquire ((TlUsed *) self);
}

static void
used_clear (gpointer data)
{
  TlUsed *self = data;

  g_ptr_array_unref (self->parts);
  g_ptr_array_unref (self->materials);
  g_ptr_array_unref (self->thresholds);
  g_free (self->data_version);
  g_free (self->practice);
}

void
tl_used_unref (TlUsed *self)
{
  if (self != NULL)
    g_atomic_rc_box_release_full (self, used_clear);
}

/* All of these rows open with their id. */
static const char *
row_id (gconstpointer row)
{
  return *(const char *const *) row;
}
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlPart, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlMaterial, id) == 0);

void
tl_stock_merge (GPtrArray *merged, GHashTable *by_id, const GPtrArray *below, const GPtrArray *over)
{
  g_autoptr (GHashTable) placed = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < over->len; i++)
    g_hash_table_insert (by_id, (gpointer) row_id (g_ptr_array_index (over, i)),
                         g_ptr_array_index (over, i));
  for (guint i = 0; i < below->len; i++)
    {
      gpointer row = g_ptr_array_index (below, i);
      gpointer instead = g_hash_table_lookup (by_id, row_id (row));

      g_ptr_array_add (merged, instead != NULL ? instead : row);
      g_hash_table_add (placed, (gpointer) row_id (row));
    }
  for (guint i = 0; i < over->len; i++)
    if (g_hash_table_add (placed, (gpointer) row_id (g_ptr_array_index (over, i))))
      g_ptr_array_add (merged, g_ptr_array_index (over, i));
}

/* The table of limits with the document's rows first. */
static TlTable *
merge_thresholds (const TlTable *below, const GPtrArray *over)
{
  TlTable *table = g_new0 (TlTable, 1);

  table->id = g_strdup (below->id);
  table->title = g_strdup (below->title);
  table->columns = g_strdupv (below->columns);
  table->units = g_strdupv (below->units);
  table->rows = g_ptr_array_new ();
  for (guint i = 0; i < over->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (over, i);

      if (g_strv_length (row->cells) == g_strv_length (table->columns))
        g_ptr_array_add (table->rows, (gpointer) row);
    }
  for (guint i = 0; i < below->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (below->rows, i);
      gboolean          is_replaced = FALSE;

      for (guint k = 0; k < over->len && !is_replaced; k++)
        {
          const TlTableRow *other = g_ptr_array_index (over, k);

          is_replaced =
              strcmp (row->id, other->id) == 0 && strcmp (row->practice, other->practice) == 0;
        }
      if (!is_replaced)
        g_ptr_array_add (table->rows, (gpointer) row);
    }
  return table;
}

/* --- lists that are made when first asked for --- */

static GPtrArray *
merged_list (const GPtrArray *below, const GPtrArray *over)
{
  g_autoptr (GHashTable) by_id = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  GPtrArray *merged = g_ptr_array_sized_new (below->len + over->len);

  tl_stock_merge (merged, by_id, below, over);
  return merged;
}

GPtrArray *
tl_stock_merge_materials (const TlStock *over)
{
  return merged_list (tl_stock_materials (over->below), over->used->materials);
}

GPtrArray *
tl_stock_merge_parts (const TlStock *over)
{
  return merged_list (tl_stock_parts (over->below), over->used->parts);
}

GPtrArray *
tl_stock_merge_tables (TlStock *over)
{
  const GPtrArray *below = tl_stock_tables (over->below);
  const TlTable   *thresholds = tl_stock_table (over->below, TL_STOCK_THRESHOLDS);
  GPtrArray       *tables = g_ptr_array_sized_new (below->len);

  for (guint i = 0; i < below->len; i++)
    {
      TlTable *table = g_ptr_array_index (below, i);

      if (table == thresholds)
        {
          over->merged = merge_thresholds (thresholds, over->used->thresholds);
          table = over->merged;
        }
      g_ptr_array_add (tables, table);
    }
  return tables;
}

static void
index_rows (GHashTable *by_id, const GPtrArray *over)
{
  for (guint i = 0; i < over->len; i++)
    g_hash_table_insert (by_id, (gpointer) row_id (g_ptr_array_index (over, i)),
                         g_ptr_array_index (over, i));
}

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
  index_rows (over->material_by_id, used->materials);
  index_rows (over->part_by_id, used->parts);
  tl_stock_index_thresholds (over, used->thresholds);
  return over;
}
