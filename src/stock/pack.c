/* pack.c: the value: its rows, what it answers, which rows can be.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack-private.h"

#include "base/language.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define QUANTITY_MOST 1e6
#define PRICE_MOST 1e6
#define MINUTES_MOST 1440.0

/* All items open with their id. */
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlSource, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlMaterial, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlPart, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlPackMark, part) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (TlPackMinutes, step) == 0);

static const char *const elements[] = {
  [TL_PACK_SOURCES] = "source", [TL_PACK_MATERIALS] = "material", [TL_PACK_PARTS] = "part",
  [TL_PACK_MARKS] = "mark",     [TL_PACK_MINUTES] = "minutes",
};
G_STATIC_ASSERT (G_N_ELEMENTS (elements) == TL_N_PACK_SECTIONS);

static const char *const per_words[] = {
  [TL_PER_PIECE] = "piece",
  [TL_PER_METRE] = "m",
  [TL_PER_GRAM] = "g",
};
G_STATIC_ASSERT (G_N_ELEMENTS (per_words) == TL_N_PERS);

static const char *const per_labels[] = {
  [TL_PER_PIECE] = TL_N_ ("piece"),
  [TL_PER_METRE] = TL_N_ ("m"),
  [TL_PER_GRAM] = TL_N_ ("g"),
};
G_STATIC_ASSERT (G_N_ELEMENTS (per_labels) == TL_N_PERS);

const char *
tl_per_word (TlPer per)
{
  g_return_val_if_fail ((guint) per < TL_N_PERS, "");

  return per_words[per];
}

const char *
tl_per_label (TlPer per)
{
  g_return_val_if_fail ((guint) per < TL_N_PERS, "");

  return per_labels[per];
}

const char *
tl_pack_element (TlPackSection section)
{
  return elements[section];
}

/* --- small values --- */

TlPackMark *
tl_pack_mark_copy (const TlPackMark *mark)
{
  TlPackMark *copy;

  g_return_val_if_fail (mark != NULL, NULL);

  copy = g_memdup2 (mark, sizeof *mark);
  copy->part = g_strdup (mark->part);
  copy->note = g_strdup (mark->note);
  return copy;
}

void
tl_pack_mark_free (TlPackMark *mark)
{
  if (mark == NULL)
    return;
  g_free (mark->part);
  g_free (mark->note);
  g_free (mark);
}

void
tl_pack_minutes_free (TlPackMinutes *minutes)
{
  if (minutes == NULL)
    return;
  g_free (minutes->step);
  g_free (minutes);
}

TlPackProblem *
tl_pack_problem_new (TlPackTrouble trouble, const char *file, guint line, const char *id,
                     const char *message)
{
  TlPackProblem *problem = g_new0 (TlPackProblem, 1);

  problem->trouble = trouble;
  problem->file = g_strdup (file);
  problem->line = line;
  problem->id = g_strdup (id);
  problem->message = g_strdup (message);
  return problem;
}

TlPackProblem *
tl_pack_problem_copy (const TlPackProblem *problem)
{
  return tl_pack_problem_new (problem->trouble, problem->file, problem->line, problem->id,
                              problem->message);
}

void
tl_pack_problem_free (TlPackProblem *problem)
{
  if (problem == NULL)
    return;
  g_free (problem->file);
  g_free (problem->id);
  g_free (problem->message);
  g_free (problem);
}

GPtrArray *
tl_pack_problems_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) tl_pack_problem_free);
}

/* --- rows --- */

TlPackRow *
tl_pack_row_new (TlPackSection section, gpointer item, const char *file, guint line)
{
  TlPackRow *row = g_new0 (TlPackRow, 1);

  g_atomic_ref_count_init (&row->ref_count);
  row->section = section;
  row->item = item;
  row->file = g_strdup (file);
  row->line = line;
  return row;
}

TlPackRow *
tl_pack_row_ref (TlPackRow *row)
{
  g_atomic_ref_count_inc (&row->ref_count);
  return row;
}

void
tl_pack_row_unref (TlPackRow *row)
{
  static const GDestroyNotify frees[] = {
    [TL_PACK_SOURCES] = (GDestroyNotify) tl_source_free,
    [TL_PACK_MATERIALS] = (GDestroyNotify) tl_material_free,
    [TL_PACK_PARTS] = (GDestroyNotify) tl_part_free,
    [TL_PACK_MARKS] = (GDestroyNotify) tl_pack_mark_free,
    [TL_PACK_MINUTES] = (GDestroyNotify) tl_pack_minutes_free,
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (frees) == TL_N_PACK_SECTIONS);

  if (!g_atomic_ref_count_dec (&row->ref_count))
    return;
  frees[row->section](row->item);
  g_free (row->file);
  g_free (row);
}

const char *
tl_pack_row_id (const TlPackRow *row)
{
  return *(const char *const *) row->item;
}

/* --- the pack --- */

static TlPack *
pack_new_empty (void)
{
  TlPack *self = g_new0 (TlPack, 1);

  g_atomic_ref_count_init (&self->ref_count);
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    {
      self->rows[i] = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_pack_row_unref);
      self->by_id[i] = g_hash_table_new (tl_stock_id_hash, g_str_equal);
    }
  self->kept = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
  self->problems = tl_pack_problems_new ();
  return self;
}

TlPack *
tl_pack_new (const char *name)
{
  TlPack *self = pack_new_empty ();

  self->name = g_strdup (name != NULL && *name != '\0' ? name : "Own parts");
  self->currency = g_strdup ("");
  self->file = g_strdup ("");
  return self;
}

TlPack *
tl_pack_ref (const TlPack *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&((TlPack *) self)->ref_count);
  return (TlPack *) self;
}

void
tl_pack_unref (TlPack *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    {
      g_hash_table_unref (self->by_id[i]);
      g_ptr_array_unref (self->rows[i]);
    }
  g_ptr_array_unref (self->kept);
  g_ptr_array_unref (self->problems);
  g_free (self->name);
  g_free (self->currency);
  g_free (self->file);
  g_free (self);
}

TlPack *
tl_pack_fork (const TlPack *self)
{
  TlPack *fork = pack_new_empty ();

  fork->name = g_strdup (self->name);
  fork->currency = g_strdup (self->currency);
  fork->file = g_strdup (self->file);
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    for (guint k = 0; k < self->rows[i]->len; k++)
      tl_pack_append (fork, tl_pack_row_ref (g_ptr_array_index (self->rows[i], k)));
  for (guint i = 0; i < self->kept->len; i++)
    g_ptr_array_add (fork->kept, tl_xml_node_copy (g_ptr_array_index (self->kept, i)));
  for (guint i = 0; i < self->problems->len; i++)
    g_ptr_array_add (fork->problems, tl_pack_problem_copy (g_ptr_array_index (self->problems, i)));
  return fork;
}

TlPackRow *
tl_pack_find (const TlPack *self, TlPackSection section, const char *id)
{
  return g_hash_table_lookup (self->by_id[section], id);
}

void
tl_pack_append (TlPack *fork, TlPackRow *row)
{
  g_ptr_array_add (fork->rows[row->section], row);
  g_hash_table_insert (fork->by_id[row->section], (gpointer) tl_pack_row_id (row), row);
}

/* --- what it holds --- */

const char *
tl_pack_name (const TlPack *self)
{
  g_return_val_if_fail (self != NULL, "");

  return self->name;
}

const char *
tl_pack_currency (const TlPack *self)
{
  g_return_val_if_fail (self != NULL, "");

  return self->currency;
}

const char *
tl_pack_file (const TlPack *self)
{
  g_return_val_if_fail (self != NULL, "");

  return self->file;
}

const GPtrArray *
tl_pack_problems (const TlPack *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->problems;
}

static gconstpointer
item_of (const TlPack *self, TlPackSection section, const char *id)
{
  const TlPackRow *row;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  row = tl_pack_find (self, section, id);
  return row != NULL ? row->item : NULL;
}

const TlPart *
tl_pack_part (const TlPack *self, const char *id)
{
  return item_of (self, TL_PACK_PARTS, id);
}

const TlMaterial *
tl_pack_material (const TlPack *self, const char *id)
{
  return item_of (self, TL_PACK_MATERIALS, id);
}

const TlPackMark *
tl_pack_mark (const TlPack *self, const char *part)
{
  return item_of (self, TL_PACK_MARKS, part);
}

const TlPackMinutes *
tl_pack_minutes (const TlPack *self, const char *step)
{
  return item_of (self, TL_PACK_MINUTES, step);
}

static GPtrArray *
items_of (const TlPack *self, TlPackSection section)
{
  GPtrArray *items = g_ptr_array_new ();

  g_return_val_if_fail (self != NULL, items);

  for (guint i = 0; i < self->rows[section]->len; i++)
    g_ptr_array_add (items, ((TlPackRow *) g_ptr_array_index (self->rows[section], i))->item);
  return items;
}

GPtrArray *
tl_pack_parts (const TlPack *self)
{
  return items_of (self, TL_PACK_PARTS);
}

GPtrArray *
tl_pack_materials (const TlPack *self)
{
  return items_of (self, TL_PACK_MATERIALS);
}

GPtrArray *
tl_pack_marks (const TlPack *self)
{
  return items_of (self, TL_PACK_MARKS);
}

GPtrArray *
tl_pack_all_minutes (const TlPack *self)
{
  return items_of (self, TL_PACK_MINUTES);
}

/* --- which rows can be --- */

/* Text that one attribute of a file gives back as it was. */
static gboolean
check_text (const char *what, const char *text, GError **error)
{
  gboolean is_plain = g_utf8_validate (text, -1, NULL);

  for (const char *p = text; is_plain && *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      is_plain = (c >= 0x20 || c == '\t' || c == '\n') && c != 0xfffe && c != 0xffff;
    }
  if (!is_plain)
    g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                 _ ("The %s holds bytes that a file cannot; it must be UTF-8 without control "
                    "characters."),
                 what);
  return is_plain;
}

static gboolean
check_id (const char *id, GError **error)
{
  if (id != NULL && tl_stock_id_is_valid (id))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("The id “%s” is not well formed; small letters, digits, hyphens and dots are "
                  "right, at most %d of them."),
               id != NULL ? id : "", 64);
  return FALSE;
}

static gboolean
check_facts (const TlFacts *facts, GError **error)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      const TlFact *fact = tl_facts_at (facts, i);
      const char   *key = tl_field_info (fact->field)->key;

      if (!tl_fact_check (fact, error)
          || !check_text (key, fact->note != NULL ? fact->note : "", error)
          || !check_text (key, fact->source != NULL ? fact->source : "", error))
        return FALSE;
      if (tl_stock_known_by_person (fact->known_by)
          || (fact->known_by >= TL_KNOWN_SEEN && fact->source != NULL))
        continue;
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("“%s” is known by “%s” and names no source; name one, or say that it was "
                      "measured or stated."),
                   key, tl_known_by_to_word (fact->known_by));
      return FALSE;
    }
  return TRUE;
}

gboolean
tl_pack_check_part (const TlPart *part, GError **error)
{
  const TlField *fields;
  guint          n_fields;

  if (!check_id (part->id, error) || !check_text ("size", part->size, error)
      || !check_facts (part->facts, error) || !tl_part_check_sizes (part->facts, error))
    return FALSE;
  fields = tl_part_material_fields (&n_fields);
  for (guint i = 0; i < n_fields; i++)
    if (strcmp (tl_facts_word (part->facts, fields[i], ""), part->id) == 0)
      {
        g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                     _ ("The part “%s” names itself as its “%s”; name a material, or none."),
                     part->id, tl_field_info (fields[i])->key);
        return FALSE;
      }
  return TRUE;
}

gboolean
tl_pack_check_material (const TlMaterial *material, GError **error)
{
  if (!check_id (material->id, error) || !check_text ("name", material->name, error)
      || !check_facts (material->facts, error))
    return FALSE;
  if (*material->name == '\0' || !tl_material_kind_is_known (material->kind)
      || (guint) material->look >= TL_N_LOOKS)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("The material “%s” has name “%s” and kind “%s”; it needs a name, and a kind "
                      "and look that the program knows."),
                   material->id, material->name, material->kind);
      return FALSE;
    }
  /* Whatever a material may be made of could come back to it. */
  for (guint i = 0; i < tl_facts_count (material->facts); i++)
    {
      const TlFieldInfo *info = tl_field_info (tl_facts_at (material->facts, i)->field);

      if (info->kind != TL_FIELD_KIND_ID)
        continue;
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("The material “%s” names another in “%s”; only a part is made of materials."),
                   material->id, info->key);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_amount (const char *what, double value, double most, GError **error)
{
  if (isfinite (value) && value >= 0.0 && value <= most)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("“%s” is %g; 0 to %g is permitted."), what,
               value, most);
  return FALSE;
}

gboolean
tl_pack_check_mark (const TlPackMark *mark, GError **error)
{
  return check_id (mark->part, error)
         && check_text ("note", mark->note != NULL ? mark->note : "", error)
         && (!mark->has_quantity || check_amount ("quantity", mark->quantity, QUANTITY_MOST, error))
         && (!mark->has_price || check_amount ("price", mark->price, PRICE_MOST, error));
}

gboolean
tl_pack_check_minutes (const TlPackMinutes *minutes, GError **error)
{
  const TlRange *range = &minutes->minutes_min;

  if (!check_id (minutes->step, error) || !check_amount ("value", range->best, MINUTES_MOST, error)
      || !check_amount ("low", range->low, MINUTES_MOST, error)
      || !check_amount ("high", range->high, MINUTES_MOST, error))
    return FALSE;
  if (tl_range_is_valid (*range))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("The minutes are %g, low %g, high %g; low must be the least and high the most."),
               range->best, range->low, range->high);
  return FALSE;
}

gboolean
tl_pack_check_currency (const char *currency, GError **error)
{
  if (*currency == '\0'
      || (strlen (currency) == 3
          && currency[strspn (currency, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")] == '\0'))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("The currency is “%s”; three capital letters as in ISO 4217 are right, such as "
                  "EUR, or none."),
               currency);
  return FALSE;
}
