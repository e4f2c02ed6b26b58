/* as-found.c: the joint as it was found beside the joint as designed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/as-found.h"

#include "base/quantity.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static void
row_free (gpointer data)
{
  TlFoundRow *self = data;

  g_free (self->design_word);
  g_free (self->error);
  g_free (self);
}

static void
unchecked_free (gpointer data)
{
  TlUnchecked *self = data;

  g_free (self->owner);
  g_free (self->word);
  g_free (self);
}

/* --- facts of the design --- */

/* The person's own fact or that of the stock; (nullable) */
static const TlFact *
design_fact (const TlJoint *joint, const TlStock *stock, const char *owner, TlField field)
{
  const TlLeg   *leg = tl_joint_leg (joint, owner);
  const TlLayer *layer = tl_joint_layer (joint, owner);

  if (leg != NULL)
    return tl_leg_fact (leg, stock, field);
  if (layer != NULL)
    return tl_layer_fact (layer, stock, field);
  if (strcmp (owner, "site") == 0)
    return tl_joint_site_fact (joint, stock, field);
  return tl_facts_get (joint->duty, field);
}

static gboolean
is_number (TlField field)
{
  TlFieldKind kind = tl_field_info (field)->kind;

  return kind == TL_FIELD_KIND_NUMBER || kind == TL_FIELD_KIND_COUNT;
}

/* --- found values --- */

typedef struct
{
  const TlInspections *inspections;
  const TlInspection  *inspection;
} Source;

/* Value and U in the unit of the field. */
static gboolean
found_value (const Source *source, const TlFound *found, TlField field, double *value,
             double *expanded, GError **error)
{
  const TlMeasure *measure = tl_inspection_measure (source->inspection, found->measure);
  const TlReading *reading = tl_inspections_reading (source->inspections, found->measure);
  const char      *unit = tl_field_info (field)->unit;
  TlMeasureResult  result;

  if (measure != NULL)
    {
      if (!tl_inspections_run (source->inspections, source->inspection, measure, &result, error))
        return FALSE;
      if (!result.plane_assured)
        {
          g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                               _ ("plane not assured: the measure decides nothing"));
          return FALSE;
        }
      *expanded = result.expanded;
      *value = result.value;
      return tl_quantity_convert (result.value, tl_measure_unit (measure->kind), unit, value, error)
             && tl_quantity_convert (result.expanded, tl_measure_unit (measure->kind), unit,
                                     expanded, error);
    }
  if (reading != NULL)
    {
      *expanded = 0.0;
      return tl_quantity_convert (reading->value, tl_reading_unit (reading->kind), unit, value,
                                  error)
             && (reading->kind == TL_READING_SPOT
                 || tl_quantity_convert (reading->uncertainty, tl_reading_unit (reading->kind),
                                         unit, expanded, error));
    }
  *value = found->value;
  *expanded = found->expanded;
  return TRUE;
}

static TlDecision
decide (const TlFoundRow *row)
{
  double tolerance = row->found->tolerance;
  double low = MIN (row->design.low, row->design.best - tolerance),
         high = MAX (row->design.high, row->design.best + tolerance);
  double expanded = row->value.high - row->value.best;

  /* A design without tolerance is met by any band that holds it; nothing more can be told. */
  if (low >= high)
    return ABS (row->value.best - row->design.best) <= expanded + 1e-9 * ABS (row->design.best)
               ? TL_DECISION_WITHIN
               : TL_DECISION_BEYOND;
  return tl_decide (row->value.best, expanded, TL_LIMIT_BETWEEN, low, high);
}

/* (nullable): the joint with @row's value in the place of the design's; @row says why if there is none */
static TlJoint *
apply (const TlJoint *joint, const Source *source, TlFoundRow *row)
{
  const TlFieldInfo *info = tl_field_info (row->field);
  TlFact fact = { .field = row->field, .known_by = TL_KNOWN_MEASURED, .note = row->found->note };
  g_autoptr (GError) error = NULL;
  TlJoint *next = NULL;
  double   expanded = 0.0;

  if (is_number (row->field))
    {
      if (found_value (source, row->found, row->field, &row->value.best, &expanded, &error))
        {
          row->value.low = MAX (info->low, row->value.best - expanded);
          row->value.high = row->value.best + expanded;
          fact.value = row->value;
          fact.value.high = MIN (info->high, fact.value.high);
          if (info->kind == TL_FIELD_KIND_COUNT)
            fact.value = tl_range_exact (row->value.best);
          next = tl_edit_set_fact (joint, row->found->owner, &fact, &error);
        }
    }
  else
    {
      fact.word = row->found->word;
      next = tl_edit_set_fact (joint, row->found->owner, &fact, &error);
    }
  if (next == NULL)
    row->error = g_strdup (error->message);
  return next;
}

static TlFoundRow *
row_new (const TlJoint *joint, const TlStock *stock, const TlFound *found)
{
  TlFoundRow   *row = g_new0 (TlFoundRow, 1);
  const TlFact *fact;

  row->found = found;
  if (!tl_field_from_key (found->field, &row->field))
    {
      row->field = TL_N_FIELDS;
      row->error = g_strdup_printf (_ ("There is no fact “%s”."), found->field);
      return row;
    }
  fact = design_fact (joint, stock, found->owner, row->field);
  if (fact == NULL)
    return row;
  row->has_design = TRUE;
  row->design = fact->value;
  row->design_word = g_strdup (fact->word);
  return row;
}

static void
decide_row (TlFoundRow *row)
{
  if (!row->has_design)
    row->decision = TL_DECISION_NONE;
  else if (row->error != NULL)
    row->decision = TL_DECISION_UNDECIDED;
  else if (is_number (row->field))
    row->decision = decide (row);
  else
    row->decision = g_strcmp0 (row->design_word, row->found->word) == 0 ? TL_DECISION_WITHIN
                                                                        : TL_DECISION_BEYOND;
}

/* --- what nobody checked --- */

static gboolean
is_found (const TlInspection *inspection, const char *owner, TlField field)
{
  for (guint i = 0; i < inspection->found->len; i++)
    {
      const TlFound *found = g_ptr_array_index (inspection->found, i);

      if (strcmp (found->owner, owner) == 0
          && strcmp (found->field, tl_field_info (field)->key) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
list_unchecked (TlAsFound *self, const TlInspection *inspection, const char *owner,
                const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      const TlFact *fact = tl_facts_at (facts, i);
      TlUnchecked  *unchecked;

      if (is_found (inspection, owner, fact->field))
        continue;
      unchecked = g_new0 (TlUnchecked, 1);
      unchecked->owner = g_strdup (owner);
      unchecked->field = fact->field;
      unchecked->value = fact->value;
      unchecked->word = g_strdup (fact->word);
      g_ptr_array_add (self->unchecked, unchecked);
    }
}

static void
list_all_unchecked (TlAsFound *self, const TlJoint *joint, const TlInspection *inspection)
{
  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (joint->legs, i);

      list_unchecked (self, inspection, leg->id, leg->facts);
    }
  for (guint i = 0; i < joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (joint->layers, i);

      list_unchecked (self, inspection, layer->id, layer->facts);
    }
  list_unchecked (self, inspection, "site", joint->site);
  list_unchecked (self, inspection, "duty", joint->duty);
}

TlAsFound *
tl_as_found_new (const TlJoint *joint, const TlInspections *inspections,
                 const TlInspection *inspection, const TlStock *stock)
{
  TlAsFound   *self = g_new0 (TlAsFound, 1);
  const Source source = { inspections, inspection };
  guint        used = 0;

  self->designed = tl_verdict_new (joint, stock, TL_VERDICT_FULL);
  self->joint = tl_joint_ref (joint);
  self->rows = g_ptr_array_new_with_free_func (row_free);
  self->unchecked = g_ptr_array_new_with_free_func (unchecked_free);
  for (guint i = 0; i < inspection->found->len; i++)
    {
      TlFoundRow *row = row_new (joint, stock, g_ptr_array_index (inspection->found, i));
      TlJoint    *next = row->error == NULL ? apply (self->joint, &source, row) : NULL;

      g_ptr_array_add (self->rows, row);
      decide_row (row);
      if (next == NULL)
        continue;
      used++;
      tl_joint_unref (self->joint);
      self->joint = next;
    }
  if (used > 0)
    self->found = tl_verdict_new (self->joint, stock, TL_VERDICT_FULL);
  list_all_unchecked (self, joint, inspection);
  return self;
}

void
tl_as_found_free (TlAsFound *self)
{
  tl_verdict_unref (self->designed);
  g_clear_pointer (&self->found, tl_verdict_unref);
  tl_joint_unref (self->joint);
  g_ptr_array_unref (self->rows);
  g_ptr_array_unref (self->unchecked);
  g_free (self);
}

/* --- words --- */

static char *
value_text (TlField field, TlRange value, const char *word, const TlStock *stock,
            const TlLanguage *language)
{
  const TlFieldInfo *info = tl_field_info (field);

  if (info->kind == TL_FIELD_KIND_ID)
    return g_strdup (tl_material_name (stock, word != NULL ? word : "", language));
  if (info->kind == TL_FIELD_KIND_WORD)
    return g_strdup (
        tl_language_text (language, tl_field_word_label (field, word != NULL ? word : "")));
  return tl_range_format (value, info->unit, language);
}

char *
tl_found_row_design_text (const TlFoundRow *row, const TlStock *stock, const TlLanguage *language)
{
  if (!row->has_design || row->field >= TL_N_FIELDS)
    return g_strdup (tl_language_text (language, TL_N_ ("not stated")));
  return value_text (row->field, row->design, row->design_word, stock, language);
}

char *
tl_found_row_value_text (const TlFoundRow *row, const TlStock *stock, const TlLanguage *language)
{
  g_autofree char *value = NULL, *expanded = NULL;
  const char      *unit;

  if (row->error != NULL || row->field >= TL_N_FIELDS)
    return g_strdup (tl_language_text (language, TL_N_ ("not to be used")));
  if (!is_number (row->field) || row->value.high <= row->value.best)
    return value_text (row->field, row->value, row->found->word, stock, language);
  unit = tl_field_info (row->field)->unit;
  value = tl_language_number (language, row->value.best, 1);
  expanded = tl_language_number (language, row->value.high - row->value.best, 1);
  return g_strdup_printf ("%s ± %s\u202f%s", value, expanded, tl_unit_label (unit));
}

/* Both sides of a contact of the design; (transfer full) (nullable): %NULL if @id is none */
static char *
contact_text (const TlVerdict *designed, const char *id, const TlStock *stock,
              const TlLanguage *language)
{
  const TlAssembly *assembly = designed->assembly;

  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);
      g_autofree char *a = NULL, *b = NULL;

      if (strcmp (contact->id, id) != 0)
        continue;
      a = tl_owner_text (designed, tl_assembly_body (assembly, contact->a)->owner, stock, language);
      b = tl_owner_text (designed, tl_assembly_body (assembly, contact->b)->owner, stock, language);
      return g_strdup_printf (tl_language_text (language, TL_N_ ("%s against %s")), a, b);
    }
  return NULL;
}

char *
tl_owner_text (const TlVerdict *designed, const char *owner, const TlStock *stock,
               const TlLanguage *language)
{
  g_autofree char *name = NULL;
  guint            number;

  if (strcmp (owner, "site") == 0)
    return g_strdup (tl_language_text (language, TL_N_ ("Site")));
  if (strcmp (owner, "duty") == 0)
    return g_strdup (tl_language_text (language, TL_N_ ("Duty")));
  if (tl_joint_seat (designed->assembly->joint, owner) == NULL)
    {
      name = contact_text (designed, owner, stock, language);
      return name != NULL ? g_steal_pointer (&name) : g_strdup (owner);
    }
  name = tl_assembly_owner_name (designed->assembly, owner, language);
  number = tl_assembly_number (designed->assembly, owner);
  return number > 0 ? g_strdup_printf ("%s (%u)", name, number) : g_steal_pointer (&name);
}

char *
tl_unchecked_text (const TlUnchecked *self, const TlVerdict *designed, const TlStock *stock,
                   const TlLanguage *language)
{
  g_autofree char *owner = tl_owner_text (designed, self->owner, stock, language);
  g_autofree char *value = value_text (self->field, self->value, self->word, stock, language);

  return g_strdup_printf ("%s: %s %s", owner,
                          tl_language_text (language, tl_field_info (self->field)->label), value);
}
