/* used.c: the rows that a document keeps for itself.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

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
