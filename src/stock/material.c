/* material.c: metals, coats, insulations and compounds, and the facts of any row.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "stock/stock-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const look_words[] = {
  [TL_LOOK_COPPER] = "copper",
  [TL_LOOK_ALUMINIUM] = "aluminium",
  [TL_LOOK_TIN] = "tin",
  [TL_LOOK_STEEL] = "steel",
  [TL_LOOK_STAINLESS] = "stainless",
  [TL_LOOK_ZINC] = "zinc",
  [TL_LOOK_NICKEL] = "nickel",
  [TL_LOOK_BRASS] = "brass",
  [TL_LOOK_POLYMER] = "polymer",
  [TL_LOOK_ADHESIVE] = "adhesive",
  [TL_LOOK_INSULATION] = "insulation",
  [TL_LOOK_COMPOUND] = "compound",
  [TL_LOOK_AIR] = "air",
};
G_STATIC_ASSERT (G_N_ELEMENTS (look_words) == TL_N_LOOKS);

static const char *const material_kinds[] = {
  "metal", "coat", "solder", "polymer", "compound", NULL
};

const char *
tl_material_look_word (TlLook look)
{
  g_return_val_if_fail ((guint) look < TL_N_LOOKS, "");

  return look_words[look];
}

gboolean
tl_material_kind_is_known (const char *kind)
{
  return g_strv_contains (material_kinds, kind);
}

/* One figure attribute of <fact>, turned into the unit of the field. */
static gboolean
read_figure (const TlStockReader *reader, const TlXmlNode *node, const TlFieldInfo *info,
             const char *name, const char *unit, double *figure, GError **error)
{
  const char *text = tl_xml_attribute (node, name);
  g_autoptr (GError) cause = NULL;
  double value;

  if (!tl_number_parse (text, &value, &cause)
      || (strcmp (unit, info->unit) != 0
          && !tl_quantity_convert (value, unit, info->unit, &value, &cause)))
    {
      tl_xml_error (error, reader->document, node, cause->code, _ ("“%s”, %s: %s"), info->key, name,
                    cause->message);
      return FALSE;
    }
  *figure = value;
  return TRUE;
}

/* Value, low and high. A figure that has a unit must say it, so that nobody has to guess it. */
static gboolean
read_range (const TlStockReader *reader, const TlXmlNode *node, const TlFieldInfo *info,
            TlRange *range, GError **error)
{
  const char *unit = tl_xml_attribute (node, "unit");

  if (unit == NULL)
    {
      if (strcmp (info->unit, "1") != 0)
        {
          tl_xml_error (error, reader->document, node, TL_ERROR_UNIT,
                        _ ("“%s” has no unit; write unit=\"%s\"."), info->key, info->unit);
          return FALSE;
        }
      unit = "1";
    }
  if (!read_figure (reader, node, info, "value", unit, &range->best, error))
    return FALSE;
  range->low = range->high = range->best;
  if (tl_xml_attribute (node, "low") != NULL
      && !read_figure (reader, node, info, "low", unit, &range->low, error))
    return FALSE;
  if (tl_xml_attribute (node, "high") != NULL
      && !read_figure (reader, node, info, "high", unit, &range->high, error))
    return FALSE;
  return TRUE;
}

static gboolean
read_fact (const TlStockReader *reader, const TlXmlNode *node, const TlStockDefaults *defaults,
           TlFact *fact, GError **error)
{
  static const char *const allowed[] = { "field",    "value",  "unit", "low", "high",
                                         "known-by", "source", "note", NULL };
  g_autoptr (GError) cause = NULL;
  const TlFieldInfo *info;
  const char        *key, *value, *source;

  if (!tl_stock_only (reader, node, allowed, error)
      || (key = tl_stock_required (reader, node, "field", error)) == NULL
      || (value = tl_stock_required (reader, node, "value", error)) == NULL)
    return FALSE;
  if (!tl_field_from_key (key, &fact->field))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The fact “%s” does not exist; the vocabulary of facts has others."), key);
      return FALSE;
    }
  if (!tl_stock_origin (reader, node, defaults, &source, &fact->known_by, error))
    return FALSE;

  /* The set copies what it is given; here the strings are the document's. */
  fact->source = (char *) source;
  fact->note = (char *) tl_xml_attribute (node, "note");
  info = tl_field_info (fact->field);
  if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
    {
      if (!read_range (reader, node, info, &fact->value, error))
        return FALSE;
    }
  else
    fact->word = (char *) value;

  if (!tl_fact_check (fact, &cause))
    {
      tl_xml_error (error, reader->document, node, cause->code, "%s", cause->message);
      return FALSE;
    }
  return TRUE;
}

TlFacts *
tl_stock_read_facts (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  const TlStockDefaults defaults = { tl_xml_attribute (node, "source"),
                                     tl_xml_attribute (node, "known-by") };
  g_autoptr (TlFacts) facts = tl_facts_new ();

  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      TlFact           fact = { 0 };
      TlFacts         *more;

      if (strcmp (child->name, "fact") != 0)
        {
          tl_xml_error (error, reader->document, child, TL_ERROR_NAME,
                        _ ("<%s> does not belong in <%s>; only <fact> does."), child->name,
                        node->name);
          return NULL;
        }
      if (!read_fact (reader, child, &defaults, &fact, error))
        return NULL;
      if (tl_facts_has (facts, fact.field))
        {
          tl_xml_error (error, reader->document, child, TL_ERROR_NAME,
                        _ ("The fact “%s” stands twice; once is right."),
                        tl_field_info (fact.field)->key);
          return NULL;
        }
      more = tl_facts_with (facts, &fact);
      tl_facts_unref (facts);
      facts = more;
    }
  return g_steal_pointer (&facts);
}

TlMaterial *
tl_material_read (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  static const char *const allowed[] = { "id", "name", "kind", "look", "source", "known-by", NULL };
  g_autoptr (TlMaterial) material = NULL;
  const char *id, *name, *kind, *look;
  guint       found = TL_N_LOOKS;

  if (!tl_stock_only (reader, node, allowed, error) || !tl_stock_id (reader, node, &id, error)
      || (name = tl_stock_required (reader, node, "name", error)) == NULL
      || (kind = tl_stock_required (reader, node, "kind", error)) == NULL
      || (look = tl_stock_required (reader, node, "look", error)) == NULL)
    return NULL;
  for (guint i = 0; i < TL_N_LOOKS; i++)
    if (strcmp (look_words[i], look) == 0)
      found = i;
  if (found == TL_N_LOOKS || !tl_material_kind_is_known (kind))
    {
      g_autofree char *kinds = g_strjoinv (", ", (char **) material_kinds);

      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The material “%s” has kind “%s” and look “%s”; the kind must be one of "
                       "%s, and the look one that the drawings know."),
                    id, kind, look, kinds);
      return NULL;
    }

  material = g_new0 (TlMaterial, 1);
  material->id = g_strdup (id);
  material->name = g_strdup (name);
  material->kind = g_strdup (kind);
  material->look = (TlLook) found;
  material->facts = tl_stock_read_facts (reader, node, error);
  if (material->facts == NULL)
    return NULL;
  return g_steal_pointer (&material);
}

TlMaterial *
tl_material_copy (const TlMaterial *material)
{
  TlMaterial *copy;

  g_return_val_if_fail (material != NULL, NULL);

  copy = g_new0 (TlMaterial, 1);
  copy->id = g_strdup (material->id);
  copy->name = g_strdup (material->name);
  copy->kind = g_strdup (material->kind);
  copy->look = material->look;
  copy->facts = tl_facts_ref (material->facts);
  return copy;
}

void
tl_material_free (TlMaterial *material)
{
  if (material == NULL)
    return;
  g_free (material->id);
  g_free (material->name);
  g_free (material->kind);
  g_clear_pointer (&material->facts, tl_facts_unref);
  g_free (material);
}
