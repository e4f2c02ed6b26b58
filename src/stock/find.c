/* find.c: what stands in a stock under an id.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include "base/quantity.h"

#include <string.h>

const TlMaterial *
tl_stock_material (const TlStock *self, const char *id)
{
  const TlMaterial *material = NULL;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  for (; self != NULL && material == NULL; self = self->below)
    material = g_hash_table_lookup (self->material_by_id, id);
  return material;
}

const TlPart *
tl_stock_part (const TlStock *self, const char *id)
{
  const TlPart *part = NULL;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  for (; self != NULL && part == NULL; self = self->below)
    part = g_hash_table_lookup (self->part_by_id, id);
  return part;
}

const TlSource *
tl_stock_source (const TlStock *self, const char *id)
{
  const TlSource *source = NULL;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  for (; self != NULL && source == NULL; self = self->below)
    source = g_hash_table_lookup (self->source_by_id, id);
  return source;
}

void
tl_stock_index_thresholds (TlStock *self, const GPtrArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (rows, i);
      TlLimit          *limit;
      double            value;

      /* A document's copy may hold less than it should; then the stock's own row answers. */
      if (g_strv_length (row->cells) < 2 || !tl_number_parse (row->cells[0], &value, NULL))
        continue;
      limit = g_new0 (TlLimit, 1);
      limit->key = (TlLimitKey){ row->practice, row->id };
      limit->threshold =
          (TlThreshold){ row->id, value, row->cells[1], row->known_by, row->source, row->note };
      /* Of two rows of one name the later one counts. */
      g_hash_table_replace (self->threshold_by_key, limit, limit);
    }
}

static const TlThreshold *
own_threshold (const TlStock *self, const char *practice, const char *id)
{
  const TlLimitKey key = { practice, id };
  const TlLimit   *limit = g_hash_table_lookup (self->threshold_by_key, &key);

  return limit != NULL ? &limit->threshold : NULL;
}

/* The copy that a document keeps comes first, but its row for every practice says nothing about a
 * practice that it was not judged by if the stock below has a row of that very practice. */
static const TlThreshold *
find_threshold (const TlStock *self, const char *practice, const char *id)
{
  const char *const  words[] = { practice, tl_practice_base (practice), "*" };
  const TlThreshold *found = NULL;

  if (self->used != NULL && g_strcmp0 (self->used->practice, practice) == 0)
    for (guint i = 0; i < G_N_ELEMENTS (words) && found == NULL; i++)
      found = own_threshold (self, words[i], id);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    for (const TlStock *stock = self; stock != NULL && found == NULL; stock = stock->below)
      found = own_threshold (stock, words[i], id);
  return found;
}

const TlThreshold *
tl_stock_find_threshold (const TlStock *self, const char *practice, const char *id)
{
  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  return find_threshold (self, practice != NULL ? practice : "*", id);
}

gboolean
tl_stock_threshold (const TlStock *self, const char *practice, const char *id,
                    TlThreshold *threshold)
{
  const TlThreshold *found = tl_stock_find_threshold (self, practice, id);

  if (found == NULL)
    return FALSE;
  if (threshold != NULL)
    *threshold = *found;
  return TRUE;
}

const TlTableRow *
tl_stock_row (const TlStock *self, const char *table, const char *practice, ...)
{
  const TlTable    *found = tl_stock_table (self, table);
  const TlTableRow *general = NULL, *of_base = NULL;
  const char       *base = tl_practice_base (practice);
  const GPtrArray  *rows;
  const char       *words[16];
  guint             n_words = 0;
  va_list           arguments;

  va_start (arguments, practice);
  for (const char *word;
       n_words < G_N_ELEMENTS (words) && (word = va_arg (arguments, const char *)) != NULL;)
    words[n_words++] = word;
  va_end (arguments);
  if (found == NULL || n_words > g_strv_length (found->columns))
    return NULL;

  rows = found->rows;
  if (n_words == found->n_keys && n_words > 0)
    rows = tl_table_group (found, words);
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (rows, i);
      gboolean          is_general = strcmp (row->practice, "*") == 0;
      gboolean          is_own = practice == NULL || strcmp (row->practice, practice) == 0;
      guint             same = 0;

      if (!is_general && !is_own && strcmp (row->practice, base) != 0)
        continue;
      while (same < n_words && strcmp (row->cells[same], words[same]) == 0)
        same++;
      if (same < n_words)
        continue;
      if (is_own)
        return row;
      if (is_general && general == NULL)
        general = row;
      if (!is_general && of_base == NULL)
        of_base = row;
    }
  return of_base != NULL ? of_base : general;
}
