/* edit-facts.c: facts, preparation, texts and the document's own copies.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/edit-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- facts --- */

/* The set of facts of @owner in @fork, to be replaced; %NULL with @error if there is no such owner.
 */
static TlFacts **
facts_of (TlJoint *fork, const char *owner, char **path, GError **error)
{
  guint index;

  if (strcmp (owner, "site") == 0 || strcmp (owner, "duty") == 0)
    {
      *path = g_strdup (owner);
      return strcmp (owner, "site") == 0 ? &fork->site : &fork->duty;
    }
  if (!tl_edit_find (fork, owner, &index, error))
    return NULL;
  if (index < fork->legs->len)
    {
      *path = g_strconcat ("legs/leg=", owner, NULL);
      return &tl_edit_writable_leg (fork, index)->facts;
    }
  *path = g_strconcat ("layers/layer=", owner, NULL);
  return &tl_edit_writable_layer (fork, index - fork->legs->len)->facts;
}

TlJoint *
tl_edit_set_fact (const TlJoint *joint, const char *owner, const TlFact *fact, GError **error)
{
  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  g_autofree char *path = NULL;
  TlFacts        **facts = facts_of (fork, owner, &path, error);
  if (facts == NULL)
    return NULL;
  if (!tl_edit_check_fact (fact, error))
    {
      g_prefix_error (error, "%s: ", owner);
      return NULL;
    }

  TlFacts *changed = tl_facts_with (*facts, fact);
  tl_facts_unref (*facts);
  *facts = changed;
  return g_steal_pointer (&fork);
}

TlJoint *
tl_edit_unset_fact (const TlJoint *joint, const char *owner, TlField field, GError **error)
{
  g_return_val_if_fail ((guint) field < TL_N_FIELDS, NULL);

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  g_autofree char *path = NULL;
  TlFacts        **facts = facts_of (fork, owner, &path, error);
  if (facts == NULL)
    return NULL;

  TlFacts         *changed = tl_facts_without (*facts, field);
  g_autofree char *fact_path = g_strconcat (path, "/fact=", tl_field_info (field)->key, NULL);
  tl_facts_unref (*facts);
  *facts = changed;
  tl_edit_drop_kept (fork, fact_path);
  return g_steal_pointer (&fork);
}

/* --- preparation --- */

/* Figures of the next old act of that name, from @taken on, which moves behind it. */
static const TlFacts *
figures_of (const GPtrArray *old, const char *act, gboolean *taken)
{
  for (guint i = 0; i < old->len; i++)
    {
      const TlPreparation *one = g_ptr_array_index (old, i);
      if (!taken[i] && strcmp (one->act, act) == 0)
        {
          taken[i] = TRUE;
          return one->facts;
        }
    }
  return NULL;
}

TlJoint *
tl_edit_set_preparation (const TlJoint *joint, const char *leg, const char *const *acts,
                         GError **error)
{
  guint index;
  if (!tl_joint_find_member (joint, leg, &index) || index >= joint->legs->len)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("There is no leg “%s” in this joint; name one that is there."), leg);
      return NULL;
    }

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  g_autofree char *path = g_strconcat ("legs/leg=", leg, "/preparation", NULL);
  TlLeg           *own = tl_edit_writable_leg (fork, index);
  g_autoptr (GPtrArray) list = tl_preparation_list_new ();
  g_autofree gboolean *taken = g_new0 (gboolean, own->preparation->len + 1);
  for (guint i = 0; acts[i] != NULL; i++)
    {
      if (!g_strv_contains (tl_preparation_words (), acts[i]))
        {
          g_autofree char *words = g_strjoinv (", ", (char **) tl_preparation_words ());
          g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                       _ ("“%s” is no act of preparing a leg; it must be one of: %s."), acts[i],
                       words);
          return NULL;
        }
      g_ptr_array_add (list,
                       tl_preparation_new (acts[i], figures_of (own->preparation, acts[i], taken)));
    }
  g_ptr_array_unref (own->preparation);
  own->preparation = g_steal_pointer (&list);
  tl_edit_drop_kept (fork, path);
  return g_steal_pointer (&fork);
}

/* --- texts --- */

static gboolean
check_form (const char *what, const char *value, GError **error)
{
  if (strcmp (what, "date") == 0 && !tl_date_is_valid (value))
    g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                 _ ("The date “%s” is no day; write it as 2026-03-14 or leave it empty."), value);
  else if (strcmp (what, "sheet-language") == 0 && !tl_language_tag_is_valid (value))
    g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                 _ ("“%s” is no language; write a tag such as “de” or leave it empty."), value);
  else if (strcmp (what, "box") == 0 && *value != '\0' && !tl_part_id_is_valid (value))
    g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                 _ ("“%s” is no id of a part; it must be 1 to 128 letters, digits and “._+-/”."),
                 value);
  else
    return TRUE;
  return FALSE;
}

static gboolean
check_choice (const char *what, const char *value, const char *const *words, GError **error)
{
  if (g_strv_contains (words, value))
    return TRUE;

  g_autofree char *permitted = g_strjoinv (", ", (char **) words);
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("“%s” is “%s”; it must be one of: %s."), what,
               value, permitted);
  return FALSE;
}

/* Line ends as XML readers give them back; no space around, as the reader trims it. */
static char *
as_stored (const char *value, gboolean has_lines)
{
  g_auto (GStrv) pieces = g_strsplit (value, "\r\n", -1);
  char *text = g_strjoinv ("\n", pieces);

  g_strdelimit (text, "\r", '\n');
  if (!has_lines)
    g_strdelimit (text, "\n\t", ' ');
  return g_strstrip (text);
}

typedef struct
{
  const char *what;
  gsize       offset; /* of the text in #TlJoint */
} TextRow;

static const TextRow text_rows[] = {
  { "name", G_STRUCT_OFFSET (TlJoint, name) },
  { "place", G_STRUCT_OFFSET (TlJoint, place) },
  { "prepared-by", G_STRUCT_OFFSET (TlJoint, prepared_by) },
  { "date", G_STRUCT_OFFSET (TlJoint, date) },
  { "note", G_STRUCT_OFFSET (TlJoint, note) },
  { "practice", G_STRUCT_OFFSET (TlJoint, practice) },
  { "units", G_STRUCT_OFFSET (TlJoint, units) },
  { "sheet-language", G_STRUCT_OFFSET (TlJoint, sheet_language) },
  { "box", G_STRUCT_OFFSET (TlJoint, box) },
  { "forbidden", G_STRUCT_OFFSET (TlJoint, forbidden) },
};

static gboolean
check_text (const char *what, const char *value, GError **error)
{
  static const char *const yes_no[] = { "yes", "no", NULL };

  if (!tl_text_is_storable (value))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("The text of “%s” holds bytes that a file cannot; it must be UTF-8 without "
                      "control characters."),
                   what);
      return FALSE;
    }
  if (strcmp (what, "practice") == 0)
    return check_choice (what, value, tl_practice_words (), error);
  if (strcmp (what, "units") == 0)
    return check_choice (what, value, tl_unit_system_words (), error);
  if (strcmp (what, "fault-example") == 0)
    return check_choice (what, value, yes_no, error);
  return check_form (what, value, error);
}

TlJoint *
tl_edit_set_text (const TlJoint *joint, const char *what, const char *value, GError **error)
{
  g_autofree char *text = as_stored (value != NULL ? value : "", strcmp (what, "note") == 0);
  if (!check_text (what, text, error))
    return NULL;

  if (strcmp (what, "forbidden") == 0)
    {
      char *settled = tl_ways_settle (text, error);

      if (settled == NULL)
        return NULL;
      g_free (text);
      text = settled;
    }

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  if (strcmp (what, "fault-example") == 0)
    {
      fork->fault_example = strcmp (text, "yes") == 0;
      return g_steal_pointer (&fork);
    }
  for (guint i = 0; i < G_N_ELEMENTS (text_rows); i++)
    if (strcmp (text_rows[i].what, what) == 0)
      {
        char **slot = &G_STRUCT_MEMBER (char *, fork, text_rows[i].offset);
        g_free (*slot);
        *slot = g_steal_pointer (&text);
        if (strcmp (what, "box") == 0 && **slot == '\0')
          g_clear_pointer (slot, g_free);
        return g_steal_pointer (&fork);
      }
  g_set_error (
      error, TL_ERROR, TL_ERROR_NAME,
      _ ("A joint has no text “%s”; it has name, place, prepared-by, date, note, practice, "
         "units, sheet-language, box, fault-example and forbidden."),
      what);
  return NULL;
}

TlJoint *
tl_edit_set_used (const TlJoint *joint, TlUsed *used)
{
  TlJoint *fork = tl_joint_fork (joint);
  TlUsed  *own = used != NULL ? tl_used_ref (used) : NULL;

  g_clear_pointer (&fork->used, tl_used_unref);
  fork->used = own;
  tl_edit_drop_kept (fork, "used");
  return fork;
}
