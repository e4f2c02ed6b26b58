/* lists.c: all parts, materials and tables of a stock; those of an overlay are merged when first asked for.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include <string.h>

/* All of these rows open with their id. */
static const char *
row_id (gconstpointer row)
{
  return *(const char *const *) row;
}

G_STATIC_ASSERT (G_STRUCT_OFFSET (TlPart, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlMaterial, id) == 0);

void
tl_stock_index_rows (GHashTable *by_id, const GPtrArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    g_hash_table_insert (by_id, (gpointer) row_id (g_ptr_array_index (rows, i)),
                         g_ptr_array_index (rows, i));
}

void
tl_stock_merge (GPtrArray *merged, GHashTable *by_id, const GPtrArray *below, const GPtrArray *over)
{
  g_autoptr (GHashTable) placed = g_hash_table_new (g_str_hash, g_str_equal);

  tl_stock_index_rows (by_id, over);
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

static GPtrArray *
merged_list (const GPtrArray *below, const GPtrArray *over)
{
  g_autoptr (GHashTable) by_id = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  GPtrArray *merged = g_ptr_array_sized_new (below->len + over->len);

  tl_stock_merge (merged, by_id, below, over);
  return merged;
}

static GPtrArray *
merge_materials (const TlStock *over)
{
  return merged_list (tl_stock_materials (over->below), over->used->materials);
}

static GPtrArray *
merge_parts (const TlStock *over)
{
  return merged_list (tl_stock_parts (over->below), over->used->parts);
}

static GPtrArray *
merge_tables (TlStock *over)
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

const GPtrArray *
tl_stock_parts (const TlStock *self)
{
  TlStock *mine = (TlStock *) self;

  g_return_val_if_fail (self != NULL, NULL);

  if (g_once_init_enter (&mine->parts))
    g_once_init_leave (&mine->parts, merge_parts (self));
  return self->parts;
}

const GPtrArray *
tl_stock_materials (const TlStock *self)
{
  TlStock *mine = (TlStock *) self;

  g_return_val_if_fail (self != NULL, NULL);

  if (g_once_init_enter (&mine->materials))
    g_once_init_leave (&mine->materials, merge_materials (self));
  return self->materials;
}

const GPtrArray *
tl_stock_sources (const TlStock *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->sources;
}

const GPtrArray *
tl_stock_tables (const TlStock *self)
{
  TlStock *mine = (TlStock *) self;

  g_return_val_if_fail (self != NULL, NULL);

  if (g_once_init_enter (&mine->tables))
    g_once_init_leave (&mine->tables, merge_tables (mine));
  return self->tables;
}

const TlTable *
tl_stock_table (const TlStock *self, const char *id)
{
  const TlTable *table = NULL;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  if (self->used != NULL && strcmp (id, TL_STOCK_THRESHOLDS) == 0)
    {
      tl_stock_tables (self); /* has the merged one made */
      return self->merged;
    }
  for (; self != NULL && table == NULL; self = self->below)
    table = g_hash_table_lookup (self->table_by_id, id);
  return table;
}
