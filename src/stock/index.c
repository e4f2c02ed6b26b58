/* index.c: finding by id and by leading words without walking through everything.
 *
 * A verdict asks for parts, limits and rows some hundreds of times, on every motion of a drag. What is built here
 * stands from loading on and is only read.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include <string.h>

/* --- ids --- */

static guint64
stir (guint64 hash, guint64 block)
{
  hash = (hash ^ block) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  return hash ^ (hash >> 29);
}

static guint64
block_at (const char *letters)
{
  guint64 block;

  memcpy (&block, letters, sizeof block);
  return block;
}

/* Ids are some 25 letters long; eight letters a step make this several times quicker than g_str_hash(). The last
 * step takes the last eight, whether they were seen or not. */
static guint64
hash_word (guint64 hash, const char *word)
{
  gsize   length = strlen (word), at = 0;
  guint64 rest = 0;

  hash = stir (hash, length);
  if (length < sizeof rest)
    {
      for (; at < length; at++)
        rest = rest << 8 | (guchar) word[at];
      return stir (hash, rest);
    }
  for (; at + sizeof rest < length; at += sizeof rest)
    hash = stir (hash, block_at (word + at));
  return stir (hash, block_at (word + length - sizeof rest));
}

static guint
folded (guint64 hash)
{
  return (guint) (hash ^ (hash >> 32));
}

guint
tl_stock_id_hash (gconstpointer id)
{
  return folded (hash_word (0, id));
}

/* --- limits: by practice and id --- */

guint
tl_stock_limit_hash (gconstpointer key)
{
  const TlLimitKey *limit = key;

  return folded (hash_word (hash_word (0, limit->practice), limit->id));
}

gboolean
tl_stock_limit_equal (gconstpointer a, gconstpointer b)
{
  const TlLimitKey *one = a, *two = b;

  return strcmp (one->id, two->id) == 0 && strcmp (one->practice, two->practice) == 0;
}

/* --- rows of a table: by their leading words --- */

/* The words of the first row are those of all. */
struct _TlRowGroup
{
  const char *const *words; /* (array length=n_words) */
  guint              n_words;
  GPtrArray         *rows; /* (element-type TlTableRow) */
};

static guint
group_hash (gconstpointer key)
{
  const TlRowGroup *group = key;
  guint64           hash = 0;

  for (guint i = 0; i < group->n_words; i++)
    hash = hash_word (hash, group->words[i]);
  return folded (hash);
}

static gboolean
group_equal (gconstpointer a, gconstpointer b)
{
  const TlRowGroup *one = a, *two = b;

  for (guint i = 0; i < one->n_words; i++)
    if (strcmp (one->words[i], two->words[i]) != 0)
      return FALSE;
  return TRUE;
}

static void
group_free (gpointer data)
{
  TlRowGroup *group = data;

  g_ptr_array_unref (group->rows);
  g_free (group);
}

/* Columns of words before the first column of figures. */
static guint
count_key_columns (const TlTable *table)
{
  guint count = 0;

  while (table->columns[count] != NULL && *table->units[count] == '\0')
    count++;
  return count;
}

void
tl_table_index (TlTable *table)
{
  table->n_keys = count_key_columns (table);
  table->groups = g_hash_table_new_full (group_hash, group_equal, NULL, group_free);
  for (guint i = 0; i < table->rows->len; i++)
    {
      TlTableRow *row = g_ptr_array_index (table->rows, i);
      TlRowGroup  wanted = { (const char *const *) row->cells, table->n_keys, NULL };
      TlRowGroup *group = g_hash_table_lookup (table->groups, &wanted);

      if (group == NULL)
        {
          group = g_new0 (TlRowGroup, 1);
          *group = wanted;
          group->rows = g_ptr_array_new ();
          g_hash_table_add (table->groups, group);
        }
      g_ptr_array_add (group->rows, row);
    }
}

const GPtrArray *
tl_table_group (const TlTable *table, const char *const *words)
{
  TlRowGroup        wanted = { words, 0, NULL };
  const TlRowGroup *group;

  g_return_val_if_fail (table != NULL && words != NULL, NULL);

  wanted.n_words = table->n_keys;
  for (guint i = 0; i < table->n_keys; i++)
    g_return_val_if_fail (words[i] != NULL, NULL);
  group = table->groups != NULL ? g_hash_table_lookup (table->groups, &wanted) : NULL;
  return group != NULL ? group->rows : NULL;
}
