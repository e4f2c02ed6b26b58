/* pack-lay.c: packs laid over the stock, in order, and what cannot stand there.
 *
 * A laid stock holds nothing but pointers: to rows of the packs, and to those of the stock below.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  TlStock       *over;
  const TlStock *below;
  GPtrArray     *problems;                  /* (nullable) */
  GHashTable    *first[TL_N_PACK_SECTIONS]; /* id -> TlPackRow that stands */
  GPtrArray     *standing[TL_PACK_MARKS];   /* items by section that have a list in the stock */
  const TlPack  *pack;                      /* being laid */
  guint          n_told;                    /* problems of this pack */
} Laying;

static void G_GNUC_PRINTF (4, 5)
    tell (Laying *self, TlPackTrouble trouble, const TlPackRow *row, const char *format, ...)
{
  g_autofree char *sentence = NULL, *message = NULL;
  va_list          arguments;

  self->n_told++;
  if (self->problems == NULL || self->n_told > TL_PACK_MAX_PROBLEMS)
    return;
  va_start (arguments, format);
  sentence = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  if (row->line > 0)
    message = g_strdup_printf ("%s:%u: %s", row->file, row->line, sentence);
  else
    message =
        g_strdup_printf ("%s: %s", *row->file != '\0' ? row->file : self->pack->name, sentence);
  g_ptr_array_add (self->problems, tl_pack_problem_new (trouble, row->file, row->line,
                                                        tl_pack_row_id (row), message));
}

static gboolean
is_of_system (const Laying *self, const TlPackRow *row)
{
  const char *id = tl_pack_row_id (row);

  switch (row->section)
    {
    case TL_PACK_SOURCES:
      return tl_stock_source (self->below, id) != NULL;
    case TL_PACK_MATERIALS:
      return tl_stock_material (self->below, id) != NULL;
    case TL_PACK_PARTS:
      return tl_stock_part (self->below, id) != NULL;
    case TL_PACK_MARKS:
      return tl_stock_mark (self->below, id, NULL) != NULL;
    case TL_PACK_MINUTES:
      return tl_stock_minutes (self->below, id) != NULL;
    case TL_N_PACK_SECTIONS:
    default:
      return FALSE;
    }
}

static gboolean
is_free (Laying *self, const TlPackRow *row)
{
  const TlPackRow *first = g_hash_table_lookup (self->first[row->section], tl_pack_row_id (row));
  const char      *element = tl_pack_element (row->section), *id = tl_pack_row_id (row);

  if (is_of_system (self, row))
    {
      tell (self, TL_PACK_CONFLICT, row,
            _ ("The %s “%s” stands in the system's data, which a pack cannot change; the system's "
               "stays. Give yours another id."),
            element, id);
      return FALSE;
    }
  if (first == NULL)
    return TRUE;
  if (first->line > 0)
    tell (self, TL_PACK_CONFLICT, row,
          _ ("The %s “%s” stands already in an earlier pack, %s:%u; the earlier one stays. Give "
             "one of the two another id."),
          element, id, first->file, first->line);
  else
    tell (self, TL_PACK_CONFLICT, row,
          _ ("The %s “%s” stands already in an earlier pack; the earlier one stays. Give one of "
             "the two another id."),
          element, id);
  return FALSE;
}

static gboolean
has_source (const Laying *self, const char *id)
{
  return g_hash_table_contains (self->first[TL_PACK_SOURCES], id)
         || tl_stock_source (self->below, id) != NULL;
}

static gboolean
has_material (const Laying *self, const char *id)
{
  return g_hash_table_contains (self->first[TL_PACK_MATERIALS], id)
         || tl_stock_material (self->below, id) != NULL;
}

static gboolean
has_sources (Laying *self, const TlPackRow *row, const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      const TlFact *fact = tl_facts_at (facts, i);

      if (fact->source == NULL || has_source (self, fact->source))
        continue;
      tell (self, TL_PACK_MISSING, row,
            _ ("“%s” of “%s” names the source “%s”, which neither the system nor a pack has; enter "
               "it as a <source>."),
            tl_field_info (fact->field)->key, tl_pack_row_id (row), fact->source);
      return FALSE;
    }
  return TRUE;
}

static gboolean
has_materials (Laying *self, const TlPackRow *row, const TlPart *part)
{
  guint          n_fields;
  const TlField *fields = tl_part_material_fields (&n_fields);

  for (guint i = 0; i < n_fields; i++)
    {
      const char *id = tl_facts_word (part->facts, fields[i], "none");

      if (strcmp (id, "none") == 0 || has_material (self, id))
        continue;
      tell (self, TL_PACK_MISSING, row,
            _ ("“%s” of “%s” is “%s”, which is no material of the system or of a pack laid so far; "
               "enter it as a <material>, or write none."),
            tl_field_info (fields[i])->key, part->id, id);
      return FALSE;
    }
  return TRUE;
}

static gboolean
has_part (Laying *self, const TlPackRow *row)
{
  const char *id = tl_pack_row_id (row);

  if (g_hash_table_contains (self->first[TL_PACK_PARTS], id)
      || tl_stock_part (self->below, id) != NULL)
    return TRUE;
  tell (self, TL_PACK_MISSING, row,
        _ ("The mark is for the part “%s”, which neither the system nor a pack has; take it out, "
           "or lay the pack that has the part."),
        id);
  return FALSE;
}

static gboolean
has_what_it_names (Laying *self, const TlPackRow *row)
{
  switch (row->section)
    {
    case TL_PACK_MATERIALS:
      return has_sources (self, row, ((const TlMaterial *) row->item)->facts);
    case TL_PACK_PARTS:
      return has_sources (self, row, ((const TlPart *) row->item)->facts)
             && has_materials (self, row, row->item);
    case TL_PACK_MARKS:
      return has_part (self, row);
    case TL_PACK_SOURCES:
    case TL_PACK_MINUTES:
    case TL_N_PACK_SECTIONS:
    default:
      return TRUE;
    }
}

/* Rows of @self->pack that may stand, in the sections from @from to before @to. */
static void
lay (Laying *self, TlPackSection from, TlPackSection to)
{
  GHashTable *const owners[TL_N_PACK_SECTIONS] = {
    [TL_PACK_PARTS] = self->over->pack_of_part,
    [TL_PACK_MARKS] = self->over->pack_of_mark,
    [TL_PACK_MINUTES] = self->over->pack_of_minutes,
  };

  for (guint section = from; section < to; section++)
    for (guint i = 0; i < self->pack->rows[section]->len; i++)
      {
        TlPackRow *row = g_ptr_array_index (self->pack->rows[section], i);
        gpointer   id = (gpointer) tl_pack_row_id (row);

        if (!is_free (self, row) || !has_what_it_names (self, row))
          continue;
        g_hash_table_insert (self->first[section], id, row);
        if (section < TL_PACK_MARKS)
          g_ptr_array_add (self->standing[section], row->item);
        if (owners[section] != NULL)
          g_hash_table_insert (owners[section], id, (gpointer) self->pack);
      }
}

static void
tell_how_many_more (Laying *self)
{
  g_autofree char *message = NULL;
  guint            more = self->n_told - MIN (self->n_told, TL_PACK_MAX_PROBLEMS);

  if (self->problems == NULL || more == 0)
    return;
  message = g_strdup_printf (
      ngettext ("%s: %u more row is left out.", "%s: %u more rows are left out.", more),
      *self->pack->file != '\0' ? self->pack->file : self->pack->name, more);
  g_ptr_array_add (self->problems,
                   tl_pack_problem_new (TL_PACK_CONFLICT, self->pack->file, 0, NULL, message));
}

static TlStock *
new_over (const TlStock *below, const GPtrArray *packs)
{
  TlStock *over = tl_stock_new_empty ();

  over->below = tl_stock_ref (below);
  over->version = g_strdup (below->version);
  over->packs = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_pack_unref);
  for (guint i = 0; i < packs->len; i++)
    g_ptr_array_add (over->packs, tl_pack_ref (g_ptr_array_index (packs, i)));
  over->pack_of_part = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  over->pack_of_mark = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  over->pack_of_minutes = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  g_ptr_array_extend (over->tables, (GPtrArray *) tl_stock_tables (below), NULL, NULL);
  return over;
}

TlStock *
tl_stock_with_packs (const TlStock *self, const GPtrArray *packs, GPtrArray *problems)
{
  Laying            laying = { .below = self, .problems = problems };
  g_autofree guint *told = NULL;
  TlStock          *over;

  g_return_val_if_fail (self != NULL && packs != NULL, NULL);

  over = new_over (self, packs);
  laying.over = over;
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    laying.first[i] = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  for (guint i = 0; i < TL_PACK_MARKS; i++)
    laying.standing[i] = g_ptr_array_new ();

  /* A mark may name a part of a later pack, so marks come when all parts stand. */
  told = g_new0 (guint, packs->len + 1);
  for (guint i = 0; i < packs->len; i++)
    {
      laying.pack = g_ptr_array_index (packs, i);
      laying.n_told = 0;
      lay (&laying, TL_PACK_SOURCES, TL_PACK_MARKS);
      told[i] = laying.n_told;
    }
  for (guint i = 0; i < packs->len; i++)
    {
      laying.pack = g_ptr_array_index (packs, i);
      laying.n_told = told[i];
      lay (&laying, TL_PACK_MARKS, TL_N_PACK_SECTIONS);
      tell_how_many_more (&laying);
    }

  tl_stock_merge (over->sources, over->source_by_id, tl_stock_sources (self),
                  laying.standing[TL_PACK_SOURCES]);
  tl_stock_merge (over->materials, over->material_by_id, tl_stock_materials (self),
                  laying.standing[TL_PACK_MATERIALS]);
  tl_stock_merge (over->parts, over->part_by_id, tl_stock_parts (self),
                  laying.standing[TL_PACK_PARTS]);
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    g_hash_table_unref (laying.first[i]);
  for (guint i = 0; i < TL_PACK_MARKS; i++)
    g_ptr_array_unref (laying.standing[i]);
  return over;
}

TlStock *
tl_stock_load_packs (const TlStock *self, const char *const *paths, GPtrArray **packs,
                     GPtrArray *problems)
{
  g_autoptr (GPtrArray) read = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_pack_unref);
  TlStock *over;

  g_return_val_if_fail (self != NULL && paths != NULL, NULL);

  for (; *paths != NULL; paths++)
    {
      g_autoptr (GError) error = NULL;
      TlPack *pack = tl_pack_load (*paths, &error);

      if (pack != NULL)
        g_ptr_array_add (read, pack);
      if (problems == NULL)
        continue;
      if (pack == NULL)
        g_ptr_array_add (problems,
                         tl_pack_problem_new (TL_PACK_UNREADABLE, *paths, 0, NULL, error->message));
      for (guint i = 0; pack != NULL && i < pack->problems->len; i++)
        g_ptr_array_add (problems, tl_pack_problem_copy (g_ptr_array_index (pack->problems, i)));
    }
  over = tl_stock_with_packs (self, read, problems);
  if (packs != NULL)
    *packs = g_steal_pointer (&read);
  return over;
}

/* --- what the packs that are laid say --- */

const TlPackMark *
tl_stock_mark (const TlStock *self, const char *part, const char **currency)
{
  const TlPack *pack = NULL;

  g_return_val_if_fail (self != NULL && part != NULL, NULL);

  for (; self != NULL && pack == NULL; self = self->below)
    if (self->pack_of_mark != NULL)
      pack = g_hash_table_lookup (self->pack_of_mark, part);
  if (pack == NULL)
    return NULL;
  if (currency != NULL)
    *currency = pack->currency;
  return tl_pack_mark (pack, part);
}

const TlPackMinutes *
tl_stock_minutes (const TlStock *self, const char *step)
{
  const TlPack *pack = NULL;

  g_return_val_if_fail (self != NULL && step != NULL, NULL);

  for (; self != NULL && pack == NULL; self = self->below)
    if (self->pack_of_minutes != NULL)
      pack = g_hash_table_lookup (self->pack_of_minutes, step);
  return pack != NULL ? tl_pack_minutes (pack, step) : NULL;
}

const TlPack *
tl_stock_pack_of (const TlStock *self, const char *part)
{
  const TlPack *pack = NULL;

  g_return_val_if_fail (self != NULL && part != NULL, NULL);

  for (; self != NULL && pack == NULL; self = self->below)
    if (self->pack_of_part != NULL)
      pack = g_hash_table_lookup (self->pack_of_part, part);
  return pack;
}
