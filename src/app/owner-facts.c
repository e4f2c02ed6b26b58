/* owner-facts.c: facts by owner, and words for how they are known.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/owner-facts.h"

#include "base/quantity.h"

#include <glib/gi18n.h>
#include <string.h>

const TlFact *
tl_owner_fact (TlDocument *document, const char *owner, TlField field)
{
  const TlJoint *joint = tl_document_joint (document);
  const TlStock *stock = tl_document_effective_stock (document);
  const TlLeg   *leg = tl_joint_leg (joint, owner);
  const TlLayer *layer = tl_joint_layer (joint, owner);

  if (leg != NULL)
    return tl_leg_fact (leg, stock, field);
  if (layer != NULL)
    return tl_layer_fact (layer, stock, field);
  if (g_str_equal (owner, "site"))
    return tl_joint_site_fact (joint, stock, field);
  return tl_facts_get (joint->duty, field);
}

const TlFact *
tl_owner_own_fact (TlDocument *document, const char *owner, TlField field)
{
  const TlJoint *joint = tl_document_joint (document);
  const TlLeg   *leg = tl_joint_leg (joint, owner);
  const TlLayer *layer = tl_joint_layer (joint, owner);

  if (leg != NULL)
    return tl_facts_get (leg->facts, field);
  if (layer != NULL)
    return tl_facts_get (layer->facts, field);
  return tl_facts_get (g_str_equal (owner, "site") ? joint->site : joint->duty, field);
}

/* A conductor's metal is one of which the stock has conductors. */
static gboolean
has_conductor (const TlStock *stock, const char *metal)
{
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);

      if (part->kind == TL_PART_CONDUCTOR
          && g_strcmp0 (tl_facts_word (part->facts, TL_FIELD_METAL, NULL), metal) == 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
fits (const TlStock *stock, const TlMaterial *material, TlField field, const char *kind)
{
  if (field == TL_FIELD_METAL)
    return g_str_equal (material->kind, "metal") && has_conductor (stock, material->id);
  if (field == TL_FIELD_COATING)
    return g_str_equal (material->kind, "coat") || g_str_equal (material->kind, "solder");
  if (field == TL_FIELD_INSULATION)
    return g_str_equal (material->kind, "polymer");
  return g_str_equal (material->kind, kind);
}

GStrv
tl_material_choices (const TlStock *stock, TlField field, const char *now, const char *kind)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  const GPtrArray  *materials = tl_stock_materials (stock);
  const TlMaterial *present = now == NULL ? NULL : tl_stock_material (stock, now);
  gboolean          has_now = now == NULL;

  if (field == TL_FIELD_COATING || field == TL_FIELD_INSULATION)
    {
      g_strv_builder_add (builder, "none");
      has_now = has_now || g_str_equal (now, "none");
    }
  for (guint i = 0; i < materials->len; i++)
    {
      const TlMaterial *material = g_ptr_array_index (materials, i);

      if (!fits (stock, material, field, present == NULL ? kind : present->kind))
        continue;
      g_strv_builder_add (builder, material->id);
      has_now = has_now || g_str_equal (now, material->id);
    }
  if (!has_now)
    g_strv_builder_add (builder, now);
  return g_strv_builder_end (builder);
}

GStrv
tl_owner_material_ids (TlDocument *document, const char *owner, TlField field)
{
  const TlFact *fact = tl_owner_fact (document, owner, field);

  return tl_material_choices (tl_document_effective_stock (document), field,
                              fact == NULL ? NULL : fact->word, "metal");
}

char *
tl_fact_entry_text (const TlFact *fact, const TlLanguage *language)
{
  g_autofree char *plain = NULL;
  const char      *point;

  if (fact == NULL)
    return g_strdup ("");
  if (!tl_range_is_exact (fact->value))
    return g_strdup_printf ("%g..%g", fact->value.low, fact->value.high);
  plain = tl_number_to_text (fact->value.best);
  point = strchr (plain, '.');
  return tl_language_number (language, fact->value.best,
                             point == NULL ? 0 : MIN ((guint) strlen (point + 1), 4));
}

const char *
tl_word_choice_label (const TlStock *stock, const TlLanguage *language, TlField field,
                      const char *word)
{
  if (*word == '\0')
    return _ ("choose");
  if (g_str_equal (word, "none"))
    return C_ ("coating or insulation", "none");
  if (tl_field_info (field)->kind == TL_FIELD_KIND_ID)
    return tl_material_name (stock, word, language);
  return tl_language_text (language, tl_field_word_label (field, word));
}

const char *
tl_known_by_label (TlKnownBy known_by)
{
  static const char *const labels[TL_N_KNOWN] = {
    [TL_KNOWN_STATED] = N_ ("stated"),
    [TL_KNOWN_MEASURED] = N_ ("measured"),
    [TL_KNOWN_MARKING] = N_ ("read from the part"),
    [TL_KNOWN_STOCK] = N_ ("from the stock"),
    [TL_KNOWN_ASSUMED] = N_ ("assumed"),
    [TL_KNOWN_SEEN] = N_ ("seen in the source"),
    [TL_KNOWN_MEMORY] = N_ ("from memory"),
    [TL_KNOWN_DISPUTED] = N_ ("sources disagree"),
    [TL_KNOWN_COMPUTED] = N_ ("computed"),
    [TL_KNOWN_PRACTICE] = N_ ("common practice, no source"),
  };

  return _ (labels[known_by]);
}
