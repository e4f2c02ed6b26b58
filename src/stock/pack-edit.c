/* pack-edit.c: every change of a pack as a function from pack to pack; import and export.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- rows of a fork --- */

static void
take_out (TlPack *fork, TlPackSection section, const char *id)
{
  TlPackRow *row = tl_pack_find (fork, section, id);

  if (row == NULL)
    return;
  g_hash_table_remove (fork->by_id[section], tl_pack_row_id (row));
  g_ptr_array_remove (fork->rows[section], row);
}

/* In the place of the row @id if there is one, else behind the others. Takes @item over. */
static void
put (TlPack *fork, TlPackSection section, const char *id, gpointer item)
{
  TlPackRow *row = tl_pack_row_new (section, item, fork->file, 0);
  TlPackRow *old = tl_pack_find (fork, section, id);
  guint      place;

  if (old == NULL || !g_ptr_array_find (fork->rows[section], old, &place))
    {
      tl_pack_append (fork, row);
      return;
    }
  g_hash_table_remove (fork->by_id[section], tl_pack_row_id (old));
  g_ptr_array_index (fork->rows[section], place) = row;
  g_hash_table_insert (fork->by_id[section], (gpointer) tl_pack_row_id (row), row);
  tl_pack_row_unref (old);
}

static gboolean
must_have_part (const TlPack *self, const char *id, GError **error)
{
  if (tl_pack_find (self, TL_PACK_PARTS, id) != NULL)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("The pack “%s” has no part “%s”; name one that it holds."), self->name, id);
  return FALSE;
}

static gboolean
must_be_free (const TlPack *self, const char *id, GError **error)
{
  if (tl_pack_find (self, TL_PACK_PARTS, id) == NULL)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_STATE,
               _ ("The pack “%s” has a part “%s” already; change that one, or take another id."),
               self->name, id);
  return FALSE;
}

/* --- parts --- */

TlPack *
tl_pack_add_part (const TlPack *self, const TlPart *part, GError **error)
{
  TlPack *fork;

  g_return_val_if_fail (self != NULL && part != NULL, NULL);

  if (!tl_pack_check_part (part, error) || !must_be_free (self, part->id, error))
    return NULL;
  fork = tl_pack_fork (self);
  put (fork, TL_PACK_PARTS, part->id, tl_part_copy (part));
  return fork;
}

TlPack *
tl_pack_change_part (const TlPack *self, const char *id, const TlPart *part, GError **error)
{
  const TlPackMark *mark;
  TlPack           *fork;

  g_return_val_if_fail (self != NULL && id != NULL && part != NULL, NULL);

  if (!tl_pack_check_part (part, error) || !must_have_part (self, id, error)
      || (strcmp (id, part->id) != 0 && !must_be_free (self, part->id, error)))
    return NULL;
  fork = tl_pack_fork (self);
  put (fork, TL_PACK_PARTS, id, tl_part_copy (part));
  mark = tl_pack_mark (self, id);
  if (mark != NULL && strcmp (id, part->id) != 0)
    {
      TlPackMark *moved = tl_pack_mark_copy (mark);

      g_free (moved->part);
      moved->part = g_strdup (part->id);
      take_out (fork, TL_PACK_MARKS, part->id);
      put (fork, TL_PACK_MARKS, id, moved);
    }
  return fork;
}

TlPack *
tl_pack_remove_part (const TlPack *self, const char *id, GError **error)
{
  TlPack *fork;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  if (!must_have_part (self, id, error))
    return NULL;
  fork = tl_pack_fork (self);
  take_out (fork, TL_PACK_PARTS, id);
  take_out (fork, TL_PACK_MARKS, id);
  return fork;
}

/* --- materials --- */

TlPack *
tl_pack_set_material (const TlPack *self, const TlMaterial *material, GError **error)
{
  TlPack *fork;

  g_return_val_if_fail (self != NULL && material != NULL, NULL);

  if (!tl_pack_check_material (material, error))
    return NULL;
  fork = tl_pack_fork (self);
  put (fork, TL_PACK_MATERIALS, material->id, tl_material_copy (material));
  return fork;
}

static gboolean
is_made_of (const TlPart *part, const char *material)
{
  guint          n_fields;
  const TlField *fields = tl_part_material_fields (&n_fields);

  for (guint i = 0; i < n_fields; i++)
    if (strcmp (tl_facts_word (part->facts, fields[i], ""), material) == 0)
      return TRUE;
  return FALSE;
}

TlPack *
tl_pack_remove_material (const TlPack *self, const char *id, GError **error)
{
  g_autoptr (GPtrArray) parts = NULL;
  TlPack *fork;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  if (tl_pack_find (self, TL_PACK_MATERIALS, id) == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("The pack “%s” has no material “%s”; name one that it holds."), self->name,
                   id);
      return NULL;
    }
  parts = tl_pack_parts (self);
  for (guint i = 0; i < parts->len; i++)
    if (is_made_of (g_ptr_array_index (parts, i), id))
      {
        g_set_error (error, TL_ERROR, TL_ERROR_STATE,
                     _ ("The part “%s” is made of “%s”; give it another material first."),
                     ((const TlPart *) g_ptr_array_index (parts, i))->id, id);
        return NULL;
      }
  fork = tl_pack_fork (self);
  take_out (fork, TL_PACK_MATERIALS, id);
  return fork;
}

/* --- marks, minutes, texts --- */

TlPack *
tl_pack_set_mark (const TlPack *self, const TlPackMark *mark, GError **error)
{
  TlPack *fork;

  g_return_val_if_fail (self != NULL && mark != NULL, NULL);

  if (!tl_pack_check_mark (mark, error))
    return NULL;
  fork = tl_pack_fork (self);
  if (mark->in_van || mark->has_quantity || mark->has_price
      || (mark->note != NULL && *mark->note != '\0'))
    put (fork, TL_PACK_MARKS, mark->part, tl_pack_mark_copy (mark));
  else
    take_out (fork, TL_PACK_MARKS, mark->part);
  return fork;
}

TlPack *
tl_pack_set_minutes (const TlPack *self, const char *step, const TlRange *minutes_min,
                     GError **error)
{
  g_autoptr (TlPackMinutes) minutes = NULL;
  TlPack *fork;

  g_return_val_if_fail (self != NULL && step != NULL, NULL);

  minutes = g_new0 (TlPackMinutes, 1);
  minutes->step = g_strdup (step);
  minutes->minutes_min = minutes_min != NULL ? *minutes_min : tl_range_exact (0.0);
  if (!tl_pack_check_minutes (minutes, error))
    return NULL;
  fork = tl_pack_fork (self);
  if (minutes_min != NULL)
    put (fork, TL_PACK_MINUTES, step, g_steal_pointer (&minutes));
  else
    take_out (fork, TL_PACK_MINUTES, step);
  return fork;
}

TlPack *
tl_pack_set_text (const TlPack *self, const char *what, const char *value, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (value != NULL ? value : ""));
  gboolean         is_name;
  TlPack          *fork;

  g_return_val_if_fail (self != NULL && what != NULL, NULL);

  is_name = strcmp (what, "name") == 0;
  if (!is_name && strcmp (what, "currency") != 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("A pack has no text “%s”; it has name and currency."), what);
      return NULL;
    }
  if (is_name
      && (*text == '\0' || !g_utf8_validate (text, -1, NULL) || strpbrk (text, "\n\r\t") != NULL))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("The name of a pack must be one line of text that is not empty."));
      return NULL;
    }
  if (!is_name && !tl_pack_check_currency (text, error))
    return NULL;
  fork = tl_pack_fork (self);
  g_free (is_name ? fork->name : fork->currency);
  *(is_name ? &fork->name : &fork->currency) = g_steal_pointer (&text);
  return fork;
}

TlPack *
tl_pack_without_refused (const TlPack *self)
{
  TlPack *fork;

  g_return_val_if_fail (self != NULL, NULL);

  fork = tl_pack_fork (self);
  g_ptr_array_set_size (fork->kept, 0);
  g_ptr_array_set_size (fork->problems, 0);
  return fork;
}

char *
tl_pack_free_id (const TlPack *self, const TlStock *stock, TlPartKind kind)
{
  g_return_val_if_fail (self != NULL && stock != NULL, NULL);

  for (guint number = 1;; number++)
    {
      g_autofree char *id = g_strdup_printf ("own-%s-%u", tl_part_kind_word (kind), number);

      if (tl_pack_find (self, TL_PACK_PARTS, id) == NULL && tl_stock_part (stock, id) == NULL)
        return g_steal_pointer (&id);
    }
}

/* --- import and export --- */

static void
take_along (TlPack *fork, const TlPack *from, TlPackSection section, const char *id)
{
  TlPackRow *row = id != NULL ? tl_pack_find (from, section, id) : NULL;

  if (row != NULL && tl_pack_find (fork, section, id) == NULL)
    tl_pack_append (fork, tl_pack_row_ref (row));
}

static void
take_sources_along (TlPack *fork, const TlPack *from, const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    take_along (fork, from, TL_PACK_SOURCES, tl_facts_at (facts, i)->source);
}

TlPack *
tl_pack_extract (const TlPack *self, const char *const *ids, const char *name, GError **error)
{
  g_autoptr (TlPack) fork = NULL;
  guint          n_fields;
  const TlField *fields = tl_part_material_fields (&n_fields);

  g_return_val_if_fail (self != NULL && ids != NULL, NULL);

  fork = tl_pack_new (name);
  g_free (fork->currency);
  fork->currency = g_strdup (self->currency);
  for (; *ids != NULL; ids++)
    {
      const TlPart *part = tl_pack_part (self, *ids);

      if (!must_have_part (self, *ids, error))
        return NULL;
      take_along (fork, self, TL_PACK_PARTS, *ids);
      take_along (fork, self, TL_PACK_MARKS, *ids);
      take_sources_along (fork, self, part->facts);
      for (guint i = 0; i < n_fields; i++)
        {
          const char       *id = tl_facts_word (part->facts, fields[i], NULL);
          const TlMaterial *material = id != NULL ? tl_pack_material (self, id) : NULL;

          take_along (fork, self, TL_PACK_MATERIALS, id);
          if (material != NULL)
            take_sources_along (fork, self, material->facts);
        }
    }
  return g_steal_pointer (&fork);
}

static void
tell_conflict (GPtrArray *problems, const TlPack *other, const TlPackRow *row, const char *message)
{
  if (problems != NULL)
    g_ptr_array_add (
        problems, tl_pack_problem_new (TL_PACK_CONFLICT, other->file, row != NULL ? row->line : 0,
                                       row != NULL ? tl_pack_row_id (row) : NULL, message));
}

/* Prices count only in one currency: that of @fork, or that of @other if @fork has none. */
static gboolean
settle_currency (TlPack *fork, const TlPack *other, GPtrArray *problems)
{
  g_autofree char *message = NULL;

  if (*fork->currency == '\0')
    {
      g_free (fork->currency);
      fork->currency = g_strdup (other->currency);
    }
  if (*other->currency == '\0' || strcmp (fork->currency, other->currency) == 0)
    return TRUE;
  message = g_strdup_printf (_ ("%s: Its prices are in %s and those of “%s” in %s; the prices are "
                                "left out."),
                             other->file, other->currency, fork->name, fork->currency);
  tell_conflict (problems, other, NULL, message);
  return FALSE;
}

static TlPackRow *
row_without_price (TlPackRow *row)
{
  TlPackMark *mark = tl_pack_mark_copy (row->item);

  mark->has_price = FALSE;
  mark->price = 0.0;
  return tl_pack_row_new (TL_PACK_MARKS, mark, row->file, row->line);
}

TlPack *
tl_pack_import (const TlPack *self, const TlPack *other, GPtrArray *problems)
{
  TlPack  *fork;
  gboolean same_currency;

  g_return_val_if_fail (self != NULL && other != NULL, NULL);

  fork = tl_pack_fork (self);
  same_currency = settle_currency (fork, other, problems);
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    for (guint k = 0; k < other->rows[i]->len; k++)
      {
        TlPackRow       *row = g_ptr_array_index (other->rows[i], k);
        const TlPackRow *own = tl_pack_find (fork, row->section, tl_pack_row_id (row));

        if (own == NULL && i == TL_PACK_MARKS && !same_currency)
          tl_pack_append (fork, row_without_price (row));
        else if (own == NULL)
          tl_pack_append (fork, tl_pack_row_ref (row));
        else if (!tl_pack_row_equal (own, row))
          {
            g_autofree char *message = g_strdup_printf (
                _ ("%s:%u: The %s “%s” stands in “%s” already and differs; the one there stays. "
                   "Give the other a new id to have both."),
                other->file, row->line, tl_pack_element (row->section), tl_pack_row_id (row),
                fork->name);

            tell_conflict (problems, other, row, message);
          }
      }
  return fork;
}
