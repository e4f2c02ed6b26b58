/* rule-help.c: see rule-help.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>
#include <string.h>

gboolean
tl_rule_limit (TlAssembly *assembly, TlFindings *findings, const char *id, TlThreshold *limit)
{
  if (tl_assembly_limit (assembly, id, limit))
    return TRUE;
  tl_findings_not_computed (findings, TL_N_ ("The data hold no limit for it."), NULL, TL_N_FIELDS);
  return FALSE;
}

gboolean
tl_rule_severity (TlAssembly *assembly, TlFindings *findings, const char *id, TlSeverity *severity)
{
  TlThreshold row;

  if (!tl_rule_limit (assembly, findings, id, &row))
    return FALSE;
  *severity = (TlSeverity) CLAMP (row.value, TL_SEVERITY_SOUND, TL_SEVERITY_UNSAFE);
  return TRUE;
}

const char *
tl_rule_site_word (const TlAssembly *assembly, TlField field)
{
  const TlFact *fact = tl_joint_site_fact (assembly->joint, assembly->stock, field);

  return fact != NULL ? fact->word : NULL;
}

double
tl_rule_site_number (const TlAssembly *assembly, TlField field, double fallback)
{
  const TlFact *fact = tl_joint_site_fact (assembly->joint, assembly->stock, field);

  return fact != NULL ? fact->value.best : fallback;
}

gboolean
tl_rule_is_look (const TlAssembly *assembly, const char *material, TlLook look)
{
  const TlMaterial *row = material != NULL ? tl_stock_material (assembly->stock, material) : NULL;

  return row != NULL && row->look == look;
}

gboolean
tl_rule_leg_is (const TlAssembly *assembly, const TlLeg *leg, TlLook look)
{
  return tl_rule_is_look (assembly, tl_leg_word (leg, assembly->stock, TL_FIELD_METAL, NULL), look);
}

gboolean
tl_rule_any_leg_is (const TlAssembly *assembly, TlLook look)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    if (tl_rule_leg_is (assembly, assembly->joint->legs->pdata[i], look))
      return TRUE;
  return FALSE;
}

gboolean
tl_rule_unlike_legs (const TlAssembly *assembly)
{
  return tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM)
         && tl_rule_any_leg_is (assembly, TL_LOOK_COPPER);
}

double
tl_rule_metal_diameter_mm (const TlAssembly *assembly, const TlLeg *leg)
{
  double diameter = tl_leg_number (leg, assembly->stock, TL_FIELD_METAL_DIAMETER, 0.0);
  double section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);

  return diameter > 0.0 ? diameter : sqrt (4.0 * section / G_PI);
}

static const TlStanding *
standing_at (const TlAssembly *assembly, gint place)
{
  if (place < 0 || place >= (gint) assembly->standing->len)
    return NULL;
  return &g_array_index (assembly->standing, TlStanding, place);
}

const TlLayer *
tl_rule_stack_layer (const TlAssembly *assembly, gint place)
{
  const TlStanding *standing = standing_at (assembly, place);

  return standing != NULL ? standing->layer : NULL;
}

const TlLeg *
tl_rule_stack_leg (const TlAssembly *assembly, gint place)
{
  const TlStanding *standing = standing_at (assembly, place);

  return standing != NULL ? standing->leg : NULL;
}

/* --- parts that would mend --- */

static gboolean
has_metal (const TlPart *part, const char *material, const char *coating)
{
  return g_str_equal (tl_facts_word (part->facts, TL_FIELD_MATERIAL, ""), material)
         && (coating == NULL
             || g_str_equal (tl_facts_word (part->facts, TL_FIELD_COATING, "none"), coating));
}

const char *
tl_rule_find_washer (const TlAssembly *assembly, TlPartKind kind, const char *material,
                     const char *coating, double thread_mm)
{
  const GPtrArray *parts = tl_stock_parts (assembly->stock);
  const char      *best = NULL;
  double           least = G_MAXDOUBLE;

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = parts->pdata[i];

      if (part->kind != kind || part->is_open || !has_metal (part, material, coating))
        continue;

      double bore = tl_facts_number (part->facts, TL_FIELD_BORE, 0.0);

      if (bore > thread_mm && bore < least && bore < 1.25 * thread_mm)
        {
          least = bore;
          best = part->id;
        }
    }
  return best;
}

const char *
tl_rule_find_bolt (const TlAssembly *assembly, const TlLayer *bolt, double need_mm)
{
  const GPtrArray *parts = tl_stock_parts (assembly->stock);
  double           thread = tl_layer_number (bolt, assembly->stock, TL_FIELD_THREAD, 0.0);
  const char      *material = tl_layer_word (bolt, assembly->stock, TL_FIELD_MATERIAL, "");
  const char      *coating = tl_layer_word (bolt, assembly->stock, TL_FIELD_COATING, "none");
  const char      *best = NULL;
  double           least = G_MAXDOUBLE;

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = parts->pdata[i];
      double        length = tl_facts_number (part->facts, TL_FIELD_LENGTH, 0.0);

      if (part->kind != TL_PART_BOLT || !has_metal (part, material, coating)
          || fabs (tl_facts_number (part->facts, TL_FIELD_THREAD, 0.0) - thread) > 1e-9)
        continue;
      if (length >= need_mm && length < least)
        {
          least = length;
          best = part->id;
        }
    }
  return best;
}

const char *
tl_rule_find_seal (TlAssembly *assembly, double largest_mm, double smallest_mm)
{
  const GPtrArray *parts = tl_stock_parts (assembly->stock);
  TlThreshold      expand, shrink;
  const char      *best = NULL;
  double           least = G_MAXDOUBLE;

  if (!tl_assembly_limit (assembly, "seal.expanded-margin", &expand)
      || !tl_assembly_limit (assembly, "seal.recovered-margin", &shrink))
    return NULL;
  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = parts->pdata[i];

      if (part->kind != TL_PART_SEAL || !tl_facts_is (part->facts, TL_FIELD_ADHESIVE))
        continue;

      double expanded = tl_facts_number (part->facts, TL_FIELD_EXPANDED, 0.0);
      double recovered = tl_facts_number (part->facts, TL_FIELD_RECOVERED, G_MAXDOUBLE);

      if (expanded >= expand.value * largest_mm && recovered <= shrink.value * smallest_mm
          && expanded < least)
        {
          least = expanded;
          best = part->id;
        }
    }
  return best;
}
