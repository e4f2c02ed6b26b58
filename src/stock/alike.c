/* alike.c: parts that would read the same in a list, told apart.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack.h"

#include <string.h>

/* The sizes first: they differ oftenest. */
static gboolean
looks_like (const TlPart *part, const char *dimensions, const char *name, const TlPart *other,
            const TlStock *stock, const TlLanguage *language)
{
  g_autofree char *other_name = NULL, *other_dimensions = NULL;

  if (other->kind != part->kind)
    return FALSE;
  other_dimensions = tl_part_dimensions (other->kind, other->facts, language);
  if (strcmp (other_dimensions, dimensions) != 0)
    return FALSE;
  other_name = tl_part_name (other->kind, other->facts, stock, language);
  return strcmp (other_name, name) == 0;
}

char *
tl_part_told_apart (const TlPart *part, const TlStock *stock, const TlLanguage *language)
{
  const TlPack    *pack;
  const GPtrArray *parts;
  g_autofree char *name = NULL, *dimensions = NULL;
  const char      *text = "";

  g_return_val_if_fail (part != NULL && stock != NULL, NULL);

  pack = tl_stock_pack_of (stock, part->id);
  if (pack == NULL)
    return g_strdup ("");
  parts = tl_stock_parts (stock);
  name = tl_part_name (part->kind, part->facts, stock, language);
  dimensions = tl_part_dimensions (part->kind, part->facts, language);
  for (guint i = 0; i < parts->len && text != part->id; i++)
    {
      const TlPart *other = g_ptr_array_index (parts, i);
      const TlPack *from;

      if (strcmp (other->id, part->id) == 0
          || !looks_like (part, dimensions, name, other, stock, language))
        continue;
      from = tl_stock_pack_of (stock, other->id);
      text = from == NULL || strcmp (tl_pack_name (from), tl_pack_name (pack)) != 0
                 ? tl_pack_name (pack)
                 : part->id;
    }
  return g_strdup (text);
}
