/* verdict.c: running all rules over an assembly, and summing up.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/finding-private.h"

#include <string.h>

/* In the order of their concerns; this order breaks ties between findings of one severity. */
static const TlRule *const tables[] = {
  tl_rules_galvanic, tl_rules_grip_stack, tl_rules_grip_press, tl_rules_terminal, tl_rules_splice,
  tl_rules_leg,      tl_rules_seal,       tl_rules_room,       tl_rules_current,  tl_rules_circuit,
  tl_rules_heat,     tl_rules_roles,      tl_rules_practice,
};

const TlRule *const *
tl_rules_all (guint *count)
{
  static gsize         ready;
  static const TlRule *all[128];
  static guint         n;

  if (g_once_init_enter (&ready))
    {
      for (guint t = 0; t < G_N_ELEMENTS (tables); t++)
        for (const TlRule *rule = tables[t]; rule->id != NULL; rule++)
          {
            g_assert (n < G_N_ELEMENTS (all));
            all[n++] = rule;
          }
      g_once_init_leave (&ready, 1);
    }
  *count = n;
  return all;
}

/* Place of a finding in the drawing: its lowest leader number. */
static guint
first_number (const TlVerdict *self, const TlFinding *finding)
{
  guint least = G_MAXUINT;

  for (guint i = 0; i < finding->owners->len; i++)
    {
      guint number = tl_assembly_number (self->assembly, finding->owners->pdata[i]);

      if (number > 0)
        least = MIN (least, number);
    }
  return least;
}

static int
compare_findings (gconstpointer a, gconstpointer b)
{
  const TlFinding *one = *(const TlFinding *const *) a, *two = *(const TlFinding *const *) b;

  if (one->severity != two->severity)
    return one->severity > two->severity ? -1 : 1;
  return one->place < two->place ? -1 : one->place > two->place;
}

/* Worst first, then from head to nut; g_ptr_array_sort is stable, so rules of one place keep their order. */
static void
sort_findings (TlVerdict *self)
{
  for (guint i = 0; i < self->findings->len; i++)
    {
      TlFinding *finding = self->findings->pdata[i];

      finding->place = first_number (self, finding);
    }
  g_ptr_array_sort (self->findings, compare_findings);
}

static void
collect_missing (TlVerdict *self)
{
  const GArray *problems = self->assembly->problems;

  for (guint i = 0; i < problems->len; i++)
    {
      TlProblem problem = g_array_index (problems, TlProblem, i);

      if (problem.is_missing)
        g_array_append_val (self->unfinished, problem);
    }
}

static void
sum_up (TlVerdict *self)
{
  self->severity = TL_SEVERITY_SOUND;
  for (guint i = 0; i < self->findings->len; i++)
    self->severity = MAX (self->severity, ((const TlFinding *) self->findings->pdata[i])->severity);
  if (self->not_computed->len > 0)
    self->severity = MAX (self->severity, TL_SEVERITY_WATCH);
  self->has_severity = self->unfinished->len == 0;
}

TlVerdict *
tl_verdict_new (const TlJoint *joint, const TlStock *stock, TlVerdictDepth depth)
{
  TlVerdict           *self = g_new0 (TlVerdict, 1);
  TlFindings           findings = { .verdict = self, .quick = depth == TL_VERDICT_QUICK };
  guint                n_rules;
  const TlRule *const *rules = tl_rules_all (&n_rules);

  g_atomic_ref_count_init (&self->ref_count);
  self->assembly = tl_assembly_new (joint, stock);
  self->strings = g_string_chunk_new (2048);
  self->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_finding_free);
  self->unfinished = g_array_new (FALSE, FALSE, sizeof (TlProblem));
  self->not_computed = g_array_new (FALSE, FALSE, sizeof (TlNotComputed));
  g_array_set_clear_func (self->not_computed, (GDestroyNotify) tl_not_computed_clear);

  collect_missing (self);
  for (guint i = 0; i < n_rules; i++)
    {
      findings.rule = rules[i];
      rules[i]->run (self->assembly, &findings);
    }
  tl_heat_model_free (findings.heat);
  sort_findings (self);
  sum_up (self);
  return self;
}

TlVerdict *
tl_verdict_ref (const TlVerdict *self)
{
  TlVerdict *mutable_self = (TlVerdict *) self;

  g_atomic_ref_count_inc (&mutable_self->ref_count);
  return mutable_self;
}

void
tl_verdict_unref (TlVerdict *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_ptr_array_unref (self->findings);
  g_string_chunk_free (self->strings);
  g_array_unref (self->unfinished);
  g_array_unref (self->not_computed);
  tl_assembly_unref (self->assembly);
  g_free (self);
}

const char *
tl_verdict_word (const TlVerdict *self)
{
  return self->has_severity ? tl_severity_word (self->severity) : TL_N_ ("Unfinished");
}

gboolean
tl_verdict_of_contact (const TlVerdict *self, guint contact, TlSeverity *severity)
{
  for (guint i = 0; i < self->findings->len; i++) /* worst first */
    {
      const TlFinding *finding = self->findings->pdata[i];

      for (guint j = 0; j < finding->contacts->len; j++)
        if (g_array_index (finding->contacts, guint, j) == contact)
          {
            *severity = finding->severity;
            return TRUE;
          }
    }
  return FALSE;
}

gboolean
tl_verdict_of_owner (const TlVerdict *self, const char *owner, TlSeverity *severity)
{
  for (guint i = 0; i < self->findings->len; i++)
    {
      const TlFinding *finding = self->findings->pdata[i];

      for (guint j = 0; j < finding->owners->len; j++)
        if (g_str_equal (finding->owners->pdata[j], owner))
          {
            *severity = finding->severity;
            return TRUE;
          }
    }
  return FALSE;
}

guint
tl_verdict_count (const TlVerdict *self, TlSeverity severity)
{
  guint count = 0;

  for (guint i = 0; i < self->findings->len; i++)
    count += ((const TlFinding *) self->findings->pdata[i])->severity == severity;
  return count;
}

/* --- the document's own copies --- */

static void
use_part (TlUsed *used, GHashTable *seen, const TlStock *stock, const char *id)
{
  const TlPart *part = id != NULL ? tl_stock_part (stock, id) : NULL;

  if (part != NULL && g_hash_table_add (seen, part->id))
    g_ptr_array_add (used->parts, tl_part_copy (part));
}

static void
use_material (TlUsed *used, GHashTable *seen, const TlStock *stock, const char *id)
{
  const TlMaterial *material = id != NULL ? tl_stock_material (stock, id) : NULL;

  if (material != NULL && g_hash_table_add (seen, material->id))
    g_ptr_array_add (used->materials, tl_material_copy (material));
}

static void
use_thresholds (TlUsed *used, const TlAssembly *assembly)
{
  const TlTable *table = tl_stock_table (assembly->stock, "thresholds");

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = table->rows->pdata[i];

      if (g_hash_table_contains (assembly->limits, row->id)
          && (g_str_equal (row->practice, "*")
              || g_str_equal (row->practice, assembly->joint->practice)
              || g_str_equal (row->practice, tl_practice_base (assembly->joint->practice))))
        g_ptr_array_add (used->thresholds, tl_table_row_copy (row));
    }
}

TlUsed *
tl_verdict_dup_used (const TlVerdict *self)
{
  const TlAssembly *assembly = self->assembly;
  const TlJoint    *joint = assembly->joint;
  TlUsed           *used = tl_used_new ();
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) seen_materials = g_hash_table_new (g_str_hash, g_str_equal);

  used->data_version = g_strdup (joint->used != NULL && joint->used->data_version != NULL
                                     ? joint->used->data_version
                                     : tl_stock_version (assembly->stock));
  used->practice = g_strdup (joint->practice);
  for (guint i = 0; i < joint->legs->len; i++)
    use_part (used, seen, assembly->stock, ((const TlLeg *) joint->legs->pdata[i])->part);
  for (guint i = 0; i < joint->layers->len; i++)
    use_part (used, seen, assembly->stock, ((const TlLayer *) joint->layers->pdata[i])->part);
  use_part (used, seen, assembly->stock, joint->box);
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      use_material (used, seen_materials, assembly->stock, body->material);
      use_material (used, seen_materials, assembly->stock, body->coating);
    }
  /* The second face of a bimetal part is no body. */
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);

      use_material (used, seen_materials, assembly->stock, contact->surface_a);
      use_material (used, seen_materials, assembly->stock, contact->surface_b);
    }
  use_thresholds (used, assembly);
  return used;
}
