/* fork.c: what every edit does to the fork that it changes, and what it checks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/edit-private.h"

#include <glib/gi18n-lib.h>

TlJoint *
tl_edit_finish (TlJoint *fork, GError **error)
{
  if (tl_joint_check (fork, NULL, error))
    return fork;
  tl_joint_unref (fork);
  return NULL;
}

TlLeg *
tl_edit_writable_leg (TlJoint *fork, guint index)
{
  gpointer *slot = &g_ptr_array_index (fork->legs, index);
  TlLeg    *copy = tl_leg_copy (*slot);

  tl_leg_unref (*slot);
  *slot = copy;
  return copy;
}

TlLayer *
tl_edit_writable_layer (TlJoint *fork, guint index)
{
  gpointer *slot = &g_ptr_array_index (fork->layers, index);
  TlLayer  *copy = tl_layer_copy (*slot);

  tl_layer_unref (*slot);
  *slot = copy;
  return copy;
}

gboolean
tl_edit_find (const TlJoint *joint, const char *id, guint *index, GError **error)
{
  if (tl_joint_find_member (joint, id, index))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("There is no leg or layer “%s” in this joint; name one that is there."), id);
  return FALSE;
}

void
tl_edit_drop_kept (TlJoint *fork, const char *path)
{
  GHashTable *left = tl_kept_without (fork->kept, path);

  g_clear_pointer (&fork->kept, g_hash_table_unref);
  fork->kept = left;
}

static gboolean
check_texts (const TlFact *fact, GError **error)
{
  const char *texts[] = { fact->word, fact->source, fact->note };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL && !tl_text_is_storable (texts[i]))
      {
        g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                     _ ("A text of “%s” holds bytes that a file cannot; it must be UTF-8 without "
                        "control characters."),
                     tl_field_info (fact->field)->key);
        return FALSE;
      }
  return TRUE;
}

gboolean
tl_edit_check_fact (const TlFact *fact, GError **error)
{
  if (!tl_fact_check (fact, error) || !check_texts (fact, error))
    return FALSE;
  if (tl_known_by_person (fact->known_by))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("“%s” of a joint cannot be known by “%s”; it must be one of: stated, measured, "
                  "marking, stock, assumed."),
               tl_field_info (fact->field)->key, tl_known_by_to_word (fact->known_by));
  return FALSE;
}

gboolean
tl_edit_check_facts (const TlFacts *facts, GError **error)
{
  for (guint i = 0; facts != NULL && i < tl_facts_count (facts); i++)
    if (!tl_edit_check_fact (tl_facts_at (facts, i), error))
      return FALSE;
  return TRUE;
}
