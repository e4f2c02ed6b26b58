/* part.c: one part of the stock: its kind, its reading, what cannot be.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "stock/stock-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  const char    *word;
  TlPartGroup    group;
  const TlField *fields; /* what a person may edit, in the order of the form */
  guint          n_fields;
} Kind;

static const TlField conductor_fields[] = {
  TL_FIELD_METAL,
  TL_FIELD_TEMPER,
  TL_FIELD_SECTION,
  TL_FIELD_CLASS,
  TL_FIELD_STRANDS,
  TL_FIELD_STRAND_DIAMETER,
  TL_FIELD_METAL_DIAMETER,
  TL_FIELD_COATING,
  TL_FIELD_RESISTANCE_20,
  TL_FIELD_INSULATION,
  TL_FIELD_INSULATION_DIAMETER,
};
static const TlField bolt_fields[] = {
  TL_FIELD_THREAD,
  TL_FIELD_LENGTH,
  TL_FIELD_MATERIAL,
  TL_FIELD_COATING,
  TL_FIELD_COATING_THICKNESS,
  TL_FIELD_PROPERTY_CLASS,
  TL_FIELD_PROOF_STRESS,
  TL_FIELD_PITCH,
  TL_FIELD_STRESS_AREA,
  TL_FIELD_HEIGHT,
  TL_FIELD_ACROSS_FLATS,
  TL_FIELD_BEARING_DIAMETER,
  TL_FIELD_TORQUE,
  TL_FIELD_NUT_FACTOR,
  TL_FIELD_OFFSET,
  TL_FIELD_REUSED,
};
static const TlField nut_fields[] = {
  TL_FIELD_THREAD,           TL_FIELD_MATERIAL, TL_FIELD_COATING, TL_FIELD_COATING_THICKNESS,
  TL_FIELD_PROPERTY_CLASS,   TL_FIELD_PITCH,    TL_FIELD_HEIGHT,  TL_FIELD_ACROSS_FLATS,
  TL_FIELD_BEARING_DIAMETER, TL_FIELD_REUSED,
};
static const TlField washer_fields[] = {
  TL_FIELD_OUTER,      TL_FIELD_BORE,    TL_FIELD_THICKNESS,
  TL_FIELD_MATERIAL,   TL_FIELD_COATING, TL_FIELD_COATING_THICKNESS,
  TL_FIELD_THREAD,     TL_FIELD_OFFSET,  TL_FIELD_REUSED,
  TL_FIELD_OTHER_FACE,
};
static const TlField spring_ring_fields[] = {
  TL_FIELD_OUTER,       TL_FIELD_BORE,     TL_FIELD_THICKNESS, TL_FIELD_WIDTH,
  TL_FIELD_FREE_HEIGHT, TL_FIELD_MATERIAL, TL_FIELD_COATING,   TL_FIELD_COATING_THICKNESS,
  TL_FIELD_THREAD,      TL_FIELD_OFFSET,   TL_FIELD_REUSED,
};
static const TlField conical_fields[] = {
  TL_FIELD_OUTER,      TL_FIELD_BORE,     TL_FIELD_THICKNESS, TL_FIELD_FREE_HEIGHT,
  TL_FIELD_FLAT_FORCE, TL_FIELD_MATERIAL, TL_FIELD_COATING,   TL_FIELD_COATING_THICKNESS,
  TL_FIELD_THREAD,     TL_FIELD_OFFSET,   TL_FIELD_REUSED,
};
static const TlField sleeve_fields[] = {
  TL_FIELD_FORM,
  TL_FIELD_OUTER,
  TL_FIELD_BORE,
  TL_FIELD_LENGTH,
  TL_FIELD_MATERIAL,
  TL_FIELD_COATING,
  TL_FIELD_COATING_THICKNESS,
  TL_FIELD_STATED_SECTION,
  TL_FIELD_PRESS_PROFILE,
  TL_FIELD_WANTED_DIE,
  TL_FIELD_DIE,
  TL_FIELD_PRESS_WIDTH,
  TL_FIELD_PRESSES,
  TL_FIELD_STOP,
  TL_FIELD_TESTED_PAIR,
  TL_FIELD_OTHER_FACE,
};
static const TlField lug_fields[] = {
  TL_FIELD_OUTER,
  TL_FIELD_BORE,
  TL_FIELD_LENGTH,
  TL_FIELD_THICKNESS,
  TL_FIELD_WIDTH,
  TL_FIELD_EYE_BORE,
  TL_FIELD_MATERIAL,
  TL_FIELD_COATING,
  TL_FIELD_COATING_THICKNESS,
  TL_FIELD_STATED_SECTION,
  TL_FIELD_PRESS_PROFILE,
  TL_FIELD_WANTED_DIE,
  TL_FIELD_DIE,
  TL_FIELD_PRESS_WIDTH,
  TL_FIELD_PRESSES,
  TL_FIELD_TESTED_PAIR,
  TL_FIELD_REUSED,
  TL_FIELD_OTHER_FACE,
};
static const TlField ferrule_fields[] = {
  TL_FIELD_BORE,           TL_FIELD_OUTER,   TL_FIELD_LENGTH,
  TL_FIELD_MATERIAL,       TL_FIELD_COATING, TL_FIELD_COATING_THICKNESS,
  TL_FIELD_STATED_SECTION, TL_FIELD_DIE,
};
static const TlField seal_fields[] = {
  TL_FIELD_EXPANDED,     TL_FIELD_RECOVERED,     TL_FIELD_RECOVERED_WALL,
  TL_FIELD_SHRINK_RATIO, TL_FIELD_ADHESIVE,      TL_FIELD_LENGTH,
  TL_FIELD_COVER,        TL_FIELD_LENGTH_CHANGE, TL_FIELD_SHRINK_TEMPERATURE,
  TL_FIELD_HEAT_SOURCE,  TL_FIELD_SLID_ON,       TL_FIELD_FILLER,
  TL_FIELD_MATERIAL,
};
static const TlField cap_fields[] = {
  TL_FIELD_EXPANDED, TL_FIELD_RECOVERED, TL_FIELD_RECOVERED_WALL, TL_FIELD_ADHESIVE,
  TL_FIELD_LENGTH,   TL_FIELD_COVER,     TL_FIELD_HEAT_SOURCE,    TL_FIELD_MATERIAL,
};
static const TlField filler_fields[] = {
  TL_FIELD_MATERIAL,
  TL_FIELD_ADHESIVE,
  TL_FIELD_LENGTH,
  TL_FIELD_THICKNESS,
};
static const TlField compound_fields[] = { TL_FIELD_MATERIAL, TL_FIELD_AMOUNT };
static const TlField solder_fields[] = {
  TL_FIELD_SPLICE_FORM, TL_FIELD_OVERLAP, TL_FIELD_MATERIAL, TL_FIELD_MELTING, TL_FIELD_THICKNESS,
};
static const TlField terminal_fields[] = {
  TL_FIELD_TERMINAL_FORM, TL_FIELD_MARKED_FOR,  TL_FIELD_MARKED_CLASS, TL_FIELD_SECTION_LEAST,
  TL_FIELD_SECTION_MOST,  TL_FIELD_THREAD,      TL_FIELD_TORQUE,       TL_FIELD_SCREWS,
  TL_FIELD_CLAMP_FORCE,   TL_FIELD_BORE,        TL_FIELD_LENGTH,       TL_FIELD_WIDTH,
  TL_FIELD_HEIGHT,        TL_FIELD_PORTS,       TL_FIELD_MATERIAL,     TL_FIELD_COATING,
  TL_FIELD_BODY_MATERIAL, TL_FIELD_TESTED_PAIR, TL_FIELD_STRIP,
};
static const TlField box_fields[] = {
  TL_FIELD_SHAPE,       TL_FIELD_INNER_WIDTH, TL_FIELD_INNER_HEIGHT,
  TL_FIELD_INNER_DEPTH, TL_FIELD_VOLUME,
};

#define KIND(word_, group_, fields_)                                                               \
  {                                                                                                \
    word_, group_, fields_, G_N_ELEMENTS (fields_)                                                 \
  }

static const Kind kinds[] = {
  [TL_PART_CONDUCTOR] = KIND ("conductor", TL_GROUP_CONDUCTORS, conductor_fields),
  [TL_PART_BOLT] = KIND ("bolt", TL_GROUP_FASTENERS, bolt_fields),
  [TL_PART_NUT] = KIND ("nut", TL_GROUP_FASTENERS, nut_fields),
  [TL_PART_PLAIN_WASHER] = KIND ("plain-washer", TL_GROUP_FASTENERS, washer_fields),
  [TL_PART_LARGE_WASHER] = KIND ("large-washer", TL_GROUP_FASTENERS, washer_fields),
  [TL_PART_SPRING_RING] = KIND ("spring-ring", TL_GROUP_FASTENERS, spring_ring_fields),
  [TL_PART_CONICAL_WASHER] = KIND ("conical-washer", TL_GROUP_FASTENERS, conical_fields),
  [TL_PART_SERRATED_WASHER] = KIND ("serrated-washer", TL_GROUP_FASTENERS, washer_fields),
  [TL_PART_SLEEVE] = KIND ("sleeve", TL_GROUP_SLEEVES, sleeve_fields),
  [TL_PART_LUG] = KIND ("lug", TL_GROUP_SLEEVES, lug_fields),
  [TL_PART_FERRULE] = KIND ("ferrule", TL_GROUP_SLEEVES, ferrule_fields),
  [TL_PART_SEAL] = KIND ("seal", TL_GROUP_SEALING, seal_fields),
  [TL_PART_CAP] = KIND ("cap", TL_GROUP_SEALING, cap_fields),
  [TL_PART_FILLER] = KIND ("filler", TL_GROUP_SEALING, filler_fields),
  [TL_PART_COMPOUND] = KIND ("compound", TL_GROUP_COATINGS, compound_fields),
  [TL_PART_SOLDER] = KIND ("solder", TL_GROUP_COATINGS, solder_fields),
  [TL_PART_TERMINAL] = KIND ("terminal", TL_GROUP_TERMINALS, terminal_fields),
  [TL_PART_BRANCH] = KIND ("branch", TL_GROUP_TERMINALS, terminal_fields),
  [TL_PART_BOX] = KIND ("box", TL_GROUP_BOXES, box_fields),
};
G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == TL_N_PART_KINDS);

/* Sizes that no part can have together: the first must be below the second, or at most equal to
 * it. */
typedef struct
{
  TlField  inner;
  TlField  outer;
  gboolean may_be_equal;
} Order;

static const Order orders[] = {
  { TL_FIELD_BORE, TL_FIELD_OUTER, FALSE },
  { TL_FIELD_STRAND_DIAMETER, TL_FIELD_METAL_DIAMETER, TRUE },
  { TL_FIELD_METAL_DIAMETER, TL_FIELD_INSULATION_DIAMETER, FALSE },
  { TL_FIELD_BEARING_DIAMETER, TL_FIELD_ACROSS_FLATS, TRUE },
  { TL_FIELD_THREAD, TL_FIELD_BEARING_DIAMETER, FALSE },
  { TL_FIELD_PITCH, TL_FIELD_THREAD, FALSE },
  { TL_FIELD_THICKNESS, TL_FIELD_FREE_HEIGHT, FALSE },
  { TL_FIELD_RECOVERED, TL_FIELD_EXPANDED, FALSE },
};

/* Fields whose word must be a material of this stock, or "none". */
static const TlField material_fields[] = { TL_FIELD_METAL, TL_FIELD_INSULATION, TL_FIELD_MATERIAL,
                                           TL_FIELD_COATING };

const TlField *
tl_part_material_fields (guint *count)
{
  *count = G_N_ELEMENTS (material_fields);
  return material_fields;
}

gboolean
tl_part_check_sizes (const TlFacts *facts, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      const TlFact      *inner = tl_facts_get (facts, orders[i].inner);
      const TlFact      *outer = tl_facts_get (facts, orders[i].outer);
      const TlFieldInfo *info = tl_field_info (orders[i].inner);

      if (inner == NULL || outer == NULL || inner->value.best < outer->value.best
          || (orders[i].may_be_equal && inner->value.best <= outer->value.best))
        continue;
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("“%s” is %g %s and “%s” is %g %s; the first must be the smaller."), info->key,
                   inner->value.best, info->unit, tl_field_info (orders[i].outer)->key,
                   outer->value.best, info->unit);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_sizes (const TlStockReader *reader, const TlXmlNode *node, const TlFacts *facts,
             GError **error)
{
  g_autoptr (GError) cause = NULL;

  if (tl_part_check_sizes (facts, &cause))
    return TRUE;
  tl_xml_error (error, reader->document, node, cause->code, "%s", cause->message);
  return FALSE;
}

static gboolean
check_materials (const TlStockReader *reader, const TlXmlNode *node, const TlFacts *facts,
                 GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (material_fields); i++)
    {
      const char *id = tl_facts_word (facts, material_fields[i], "none");

      if (strcmp (id, "none") == 0 || tl_stock_material (reader->stock, id) != NULL)
        continue;
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("“%s” is “%s”, which is no material of the stock; enter it among the "
                       "materials, or write none."),
                    tl_field_info (material_fields[i])->key, id);
      return FALSE;
    }
  return TRUE;
}

TlPart *
tl_part_read (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  static const char *const allowed[] = { "id", "kind", "size", "open", "source", "known-by", NULL };
  g_autoptr (TlPart) part = NULL;
  const char *id, *word, *size, *open;
  TlPartKind  kind;

  if (!tl_stock_only (reader, node, allowed, error) || !tl_stock_id (reader, node, &id, error)
      || (word = tl_stock_required (reader, node, "kind", error)) == NULL)
    return NULL;
  size = tl_xml_attribute (node, "size");
  open = tl_xml_attribute (node, "open");
  if (!tl_part_kind_from_word (word, &kind))
    {
      tl_xml_error (
          error, reader->document, node, TL_ERROR_NAME,
          _ ("The part “%s” is of kind “%s”, which is not known; write one such as “%s” or “%s”."),
          id, word, tl_part_kind_word (TL_PART_PLAIN_WASHER), tl_part_kind_word (TL_PART_SLEEVE));
      return NULL;
    }
  if (open != NULL && strcmp (open, "yes") != 0 && strcmp (open, "no") != 0)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The part “%s” has open=“%s”; it must be yes or no."), id, open);
      return NULL;
    }

  part = g_new0 (TlPart, 1);
  part->id = g_strdup (id);
  part->kind = kind;
  part->size = g_strdup (size != NULL ? size : "");
  part->is_open = open != NULL && strcmp (open, "yes") == 0;
  part->facts = tl_stock_read_facts (reader, node, error);
  if (part->facts == NULL || !check_sizes (reader, node, part->facts, error)
      || (!reader->is_pack && !check_materials (reader, node, part->facts, error)))
    return NULL;
  return g_steal_pointer (&part);
}

TlPart *
tl_part_copy (const TlPart *part)
{
  TlPart *copy;

  g_return_val_if_fail (part != NULL, NULL);

  copy = g_new0 (TlPart, 1);
  copy->id = g_strdup (part->id);
  copy->kind = part->kind;
  copy->size = g_strdup (part->size);
  copy->facts = tl_facts_ref (part->facts);
  copy->is_open = part->is_open;
  return copy;
}

void
tl_part_free (TlPart *part)
{
  if (part == NULL)
    return;
  g_free (part->id);
  g_free (part->size);
  g_clear_pointer (&part->facts, tl_facts_unref);
  g_free (part);
}

TlPartGroup
tl_part_kind_group (TlPartKind kind)
{
  g_return_val_if_fail ((guint) kind < TL_N_PART_KINDS, TL_GROUP_FASTENERS);

  return kinds[kind].group;
}

const char *
tl_part_kind_word (TlPartKind kind)
{
  g_return_val_if_fail ((guint) kind < TL_N_PART_KINDS, "");

  return kinds[kind].word;
}

gboolean
tl_part_kind_from_word (const char *word, TlPartKind *kind)
{
  g_return_val_if_fail (word != NULL, FALSE);

  for (guint i = 0; i < TL_N_PART_KINDS; i++)
    if (strcmp (kinds[i].word, word) == 0)
      {
        *kind = (TlPartKind) i;
        return TRUE;
      }
  return FALSE;
}

const TlField *
tl_part_kind_fields (TlPartKind kind, guint *count)
{
  g_return_val_if_fail ((guint) kind < TL_N_PART_KINDS, NULL);

  *count = kinds[kind].n_fields;
  return kinds[kind].fields;
}
