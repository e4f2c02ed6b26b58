/* stock.c: all of it together: one object, immutable once loaded.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include "stock/pack.h"

TlStock *
tl_stock_new_empty (void)
{
  TlStock *self = g_new0 (TlStock, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->sources = g_ptr_array_new ();
  self->materials = g_ptr_array_new ();
  self->parts = g_ptr_array_new ();
  self->tables = g_ptr_array_new ();
  self->source_by_id = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  self->material_by_id = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  self->part_by_id = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  self->table_by_id = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  self->threshold_by_key =
      g_hash_table_new_full (tl_stock_limit_hash, tl_stock_limit_equal, NULL, g_free);
  return self;
}

TlStock *
tl_stock_ref (const TlStock *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&((TlStock *) self)->ref_count);
  return (TlStock *) self;
}

void
tl_stock_unref (TlStock *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;

  g_hash_table_unref (self->source_by_id);
  g_hash_table_unref (self->material_by_id);
  g_hash_table_unref (self->part_by_id);
  g_hash_table_unref (self->table_by_id);
  g_hash_table_unref (self->threshold_by_key);
  g_ptr_array_unref (self->sources);
  g_clear_pointer (&self->materials, g_ptr_array_unref);
  g_clear_pointer (&self->parts, g_ptr_array_unref);
  g_clear_pointer (&self->tables, g_ptr_array_unref);
  g_clear_pointer (&self->merged, tl_table_free);
  g_clear_pointer (&self->used, tl_used_unref);
  g_clear_pointer (&self->pack_of_part, g_hash_table_unref);
  g_clear_pointer (&self->pack_of_mark, g_hash_table_unref);
  g_clear_pointer (&self->pack_of_minutes, g_hash_table_unref);
  g_clear_pointer (&self->packs, g_ptr_array_unref);
  g_clear_pointer (&self->below, tl_stock_unref);
  g_free (self->version);
  g_free (self);
}

const char *
tl_stock_version (const TlStock *self)
{
  g_return_val_if_fail (self != NULL, "");

  return self->version;
}
