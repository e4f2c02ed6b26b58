/* parts-list.c: groups of parts, or hits of a search.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/parts-list.h"

#include <math.h>

struct _TlPartsList
{
  TlStock    *stock;
  TlSearch   *search; /* made with the first words */
  TlLanguage *language;
  gboolean    is_near;
  gboolean    has_boxes;
  GListStore *root;
  GHashTable *items; /* TlPart -> TlPartItem */
  GPtrArray
      *sorted[TL_GROUP_BOXES]; /* (element-type TlPartItem) of each group, in the order shown */
  GListStore *shown[TL_GROUP_BOXES];
  TlPartItem *heads[TL_GROUP_BOXES];
};

/* Washers, the usual question, stand before bolts and nuts, sleeves before lugs and ferrules; all else in the order of
 * the stock, one's own first. */
static int
compare_items (gconstpointer a, gconstpointer b)
{
  static const gint8 ranks[TL_N_PART_KINDS] = {
    [TL_PART_LARGE_WASHER] = 1, [TL_PART_CONICAL_WASHER] = 2,
    [TL_PART_SPRING_RING] = 3,  [TL_PART_SERRATED_WASHER] = 4,
    [TL_PART_BOLT] = 5,         [TL_PART_NUT] = 6,
    [TL_PART_LUG] = 1,          [TL_PART_FERRULE] = 2
  };
  TlPartItem   *one = *(TlPartItem *const *) a, *other = *(TlPartItem *const *) b;
  const TlPart *part = tl_part_item_part (one), *other_part = tl_part_item_part (other);

  if (ranks[part->kind] != ranks[other_part->kind])
    return ranks[part->kind] - ranks[other_part->kind];
  return tl_part_item_is_own (other) - tl_part_item_is_own (one);
}

TlPartsList *
tl_parts_list_new (const TlStock *stock, const TlLanguage *language)
{
  TlPartsList     *self = g_new0 (TlPartsList, 1);
  const GPtrArray *parts = tl_stock_parts (stock);

  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref ((TlLanguage *) language);
  self->root = g_list_store_new (TL_TYPE_PART_ITEM);
  self->items = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
  for (TlPartGroup group = 0; group < TL_GROUP_BOXES; group++)
    {
      self->sorted[group] = g_ptr_array_new ();
      self->shown[group] = g_list_store_new (TL_TYPE_PART_ITEM);
      self->heads[group] =
          tl_part_item_new_group (group, G_LIST_MODEL (self->shown[group]), language);
    }
  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      TlPartItem   *item;

      if (tl_part_kind_group (part->kind) == TL_GROUP_BOXES)
        continue;
      item = tl_part_item_new (part, stock, language);
      g_hash_table_insert (self->items, (gpointer) part, item);
      g_ptr_array_add (self->sorted[tl_part_item_group (item)], item);
    }
  /* The sort of GPtrArray is stable since GLib 2.32. */
  for (TlPartGroup group = 0; group < TL_GROUP_BOXES; group++)
    g_ptr_array_sort (self->sorted[group], compare_items);
  return self;
}

void
tl_parts_list_free (TlPartsList *self)
{
  if (self == NULL)
    return;
  for (TlPartGroup group = 0; group < TL_GROUP_BOXES; group++)
    {
      g_ptr_array_unref (self->sorted[group]);
      g_object_unref (self->shown[group]);
      g_object_unref (self->heads[group]);
    }
  g_object_unref (self->root);
  g_hash_table_unref (self->items);
  g_clear_pointer (&self->search, tl_search_free);
  tl_language_unref (self->language);
  tl_stock_unref (self->stock);
  g_free (self);
}

GListModel *
tl_parts_list_model (TlPartsList *self)
{
  return G_LIST_MODEL (self->root);
}

/* Puts @items into @store unless they stand there already, so that open groups stay open. */
static void
fill_store (GListStore *store, const GPtrArray *items)
{
  guint    count = g_list_model_get_n_items (G_LIST_MODEL (store));
  gboolean is_same = count == items->len;

  for (guint i = 0; is_same && i < count; i++)
    {
      g_autoptr (GObject) item = g_list_model_get_item (G_LIST_MODEL (store), i);

      is_same = item == g_ptr_array_index (items, i);
    }
  if (!is_same)
    g_list_store_splice (store, 0, count, items->pdata, items->len);
}

static void
show_groups (TlPartsList *self, const TlSearchFilter *filter, double thread_mm)
{
  g_autoptr (GPtrArray) heads = g_ptr_array_new ();

  for (TlPartGroup group = 0; group < TL_GROUP_BOXES; group++)
    {
      g_autoptr (GPtrArray) fitting = g_ptr_array_new ();

      for (guint i = 0; i < self->sorted[group]->len; i++)
        {
          TlPartItem   *item = g_ptr_array_index (self->sorted[group], i);
          const TlPart *part = tl_part_item_part (item);
          double        thread = tl_facts_number (part->facts, TL_FIELD_THREAD, 0.0);

          if ((thread_mm <= 0.0 || thread <= 0.0 || fabs (thread - thread_mm) < 0.01)
              && tl_search_filter_fits (filter, self->stock, part))
            g_ptr_array_add (fitting, item);
        }
      fill_store (self->shown[group], fitting);
      if (fitting->len > 0)
        g_ptr_array_add (heads, self->heads[group]);
    }
  fill_store (self->root, heads);
}

static guint
show_hits (TlPartsList *self, const char *words, const TlSearchFilter *filter)
{
  g_autoptr (GArray) hits = NULL;
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  guint left_off = 0;

  if (self->search == NULL)
    self->search = tl_search_new (self->stock, self->language);
  hits = tl_search_find (self->search, words, filter);
  self->has_boxes = FALSE;
  self->is_near = hits->len > 0 && g_array_index (hits, TlSearchHit, 0).missed > 0;
  for (guint i = 0; i < hits->len; i++)
    {
      TlPartItem *item =
          g_hash_table_lookup (self->items, g_array_index (hits, TlSearchHit, i).part);

      if (item != NULL && found->len < TL_PARTS_LIST_MAX_HITS)
        g_ptr_array_add (found, item);
      else if (item != NULL)
        left_off++;
      else
        self->has_boxes = TRUE;
    }
  fill_store (self->root, found);
  return left_off;
}

guint
tl_parts_list_show (TlPartsList *self, const char *words, const TlSearchFilter *filter,
                    double thread_mm)
{
  if (words != NULL && *words != '\0')
    return show_hits (self, words, filter);
  self->is_near = self->has_boxes = FALSE;
  show_groups (self, filter, thread_mm);
  return 0;
}

gboolean
tl_parts_list_is_near (const TlPartsList *self)
{
  return self->is_near;
}

gboolean
tl_parts_list_has_boxes (const TlPartsList *self)
{
  return self->has_boxes;
}
