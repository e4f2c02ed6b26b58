/* owners.c: what is asked about legs and layers: facts that are missing, order, names.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"
#include "base/quantity.h"

#include <math.h>
#include <string.h>

void
tl_assembly_problem (TlAssembly *self, const char *owner, gboolean is_missing, const char *message,
                     TlField field, double a, double b)
{
  TlProblem problem = { owner, is_missing, message, field, a, b };

  for (guint i = 0; i < self->problems->len; i++)
    {
      const TlProblem *known = &g_array_index (self->problems, TlProblem, i);

      if (strcmp (known->owner, owner) == 0 && known->field == field
          && strcmp (known->message, message) == 0)
        return;
    }
  g_array_append_val (self->problems, problem);
}

const char *
tl_assembly_join (TlAssembly *self, const char *a, const char *between, const char *b)
{
  char  text[512];
  gsize length_a = strlen (a), length_between = strlen (between), length_b = strlen (b);
  gsize length = length_a + length_between + length_b;

  if (length >= sizeof text)
    {
      g_autofree char *joined = g_strconcat (a, between, b, NULL);

      return g_string_chunk_insert (self->strings, joined);
    }
  memcpy (text, a, length_a);
  memcpy (text + length_a, between, length_between);
  memcpy (text + length_a + length_between, b, length_b);
  return g_string_chunk_insert_len (self->strings, text, (gssize) length);
}

static void
missing (TlAssembly *self, const char *owner, TlField field)
{
  tl_assembly_problem (self, owner, TRUE, TL_N_ ("{part}: enter {field}."), field, NAN, NAN);
}

gboolean
tl_assembly_need_leg (TlAssembly *self, const TlLeg *leg, TlField field, double *value)
{
  const TlFact *fact = tl_leg_fact (leg, self->stock, field);

  if (fact == NULL)
    missing (self, leg->id, field);
  else if (value != NULL)
    *value = fact->value.best;
  return fact != NULL;
}

gboolean
tl_assembly_need_layer (TlAssembly *self, const TlLayer *layer, TlField field, double *value)
{
  const TlFact *fact = tl_layer_fact (layer, self->stock, field);

  if (fact == NULL)
    missing (self, layer->id, field);
  else if (value != NULL)
    *value = fact->value.best;
  return fact != NULL;
}

gboolean
tl_assembly_knows_part (TlAssembly *self, const char *owner, const char *part)
{
  if (part == NULL || tl_stock_part (self->stock, part) != NULL)
    return TRUE;
  tl_assembly_problem (self, owner, TRUE,
                       TL_N_ ("{part}: this part is not in the stock and not copied into the "
                              "document. Choose another part or enter its figures."),
                       TL_N_FIELDS, NAN, NAN);
  return FALSE;
}

gboolean
tl_assembly_is_placed (const TlAssembly *self, const char *owner)
{
  return tl_assembly_number (self, owner) != 0;
}

void
tl_assembly_place (TlAssembly *self, const char *owner)
{
  if (tl_assembly_is_placed (self, owner))
    return;
  g_ptr_array_add (self->order, (gpointer) owner);
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->seat.kind == TL_SEAT_ON && g_strcmp0 (layer->seat.of, owner) == 0)
        tl_assembly_place (self, layer->id);
    }
}

guint
tl_assembly_number (const TlAssembly *self, const char *owner)
{
  g_return_val_if_fail (self != NULL && owner != NULL, 0);

  for (guint i = 0; i < self->order->len; i++)
    if (strcmp (self->order->pdata[i], owner) == 0)
      return i + 1;
  return 0;
}

gboolean
tl_assembly_limit (TlAssembly *self, const char *id, TlThreshold *threshold)
{
  const TlThreshold *row;

  g_return_val_if_fail (self != NULL && id != NULL && threshold != NULL, FALSE);

  row = g_hash_table_lookup (self->limits, id);
  if (row == NULL)
    {
      row = tl_stock_find_threshold (self->stock, self->joint->practice, id);
      if (row == NULL)
        return FALSE;
      g_hash_table_insert (self->limits, (gpointer) row->id, (gpointer) row);
    }
  *threshold = *row;
  return TRUE;
}

double
tl_assembly_limit_or (TlAssembly *self, const char *id, double fallback)
{
  TlThreshold threshold;

  return tl_assembly_limit (self, id, &threshold) ? threshold.value : fallback;
}

/* The part's facts with the document's own over them; (transfer full) */
static TlFacts *
merged_facts (const TlAssembly *self, const char *part_id, const TlFacts *own)
{
  const TlPart *part = part_id != NULL ? tl_stock_part (self->stock, part_id) : NULL;
  TlFacts      *facts = part != NULL ? tl_facts_ref (part->facts) : tl_facts_new ();

  for (guint i = 0; i < tl_facts_count (own); i++)
    {
      TlFacts *wider = tl_facts_with (facts, tl_facts_at (own, i));

      tl_facts_unref (facts);
      facts = wider;
    }
  return facts;
}

static char *
leg_name (const TlAssembly *self, const TlLeg *leg, const TlLanguage *language)
{
  const char      *metal = tl_leg_word (leg, self->stock, TL_FIELD_METAL, NULL);
  double           section = tl_leg_number (leg, self->stock, TL_FIELD_SECTION, 0.0);
  g_autofree char *size =
      section > 0.0 ? tl_quantity_format (section, "mm2", language) : g_strdup ("");
  g_autoptr (GString) name = g_string_new (tl_language_text (
      language, metal != NULL ? TL_N_ ("{metal} conductor {size}") : TL_N_ ("conductor {size}")));

  if (metal != NULL)
    g_string_replace (name, "{metal}", tl_material_name (self->stock, metal, language), 0);
  g_string_replace (name, "{size}", size, 0);
  return g_strstrip (g_strdup (name->str));
}

/* English writes the name of a thing small inside a sentence; other languages keep what the
 * translator wrote. */
static char *
inside_sentence (const char *name, const TlLanguage *language)
{
  gunichar first = g_utf8_get_char (name);
  g_autoptr (GString) text = NULL;

  if (!g_str_has_prefix (tl_language_tag (language), "en")
      || (*name != '\0' && g_unichar_isupper (g_utf8_get_char (g_utf8_next_char (name)))))
    return g_strdup (name);
  text = g_string_new (NULL);
  if (*name != '\0')
    {
      g_string_append_unichar (text, g_unichar_tolower (first));
      g_string_append (text, g_utf8_next_char (name));
    }
  return g_strdup (text->str);
}

char *
tl_assembly_owner_name (const TlAssembly *self, const char *owner, const TlLanguage *language)
{
  const TlLeg   *leg;
  const TlLayer *layer;

  g_return_val_if_fail (self != NULL && owner != NULL && language != NULL, NULL);

  leg = tl_joint_leg (self->joint, owner);
  if (leg != NULL)
    return leg_name (self, leg, language);
  layer = tl_joint_layer (self->joint, owner);
  if (layer != NULL)
    {
      g_autoptr (TlFacts) facts = merged_facts (self, layer->part, layer->facts);
      g_autofree char *name = tl_part_name (layer->kind, facts, self->stock, language);

      return inside_sentence (name, language);
    }
  if (strcmp (owner, "site") == 0)
    return g_strdup (tl_language_text (language, TL_N_ ("the box and its surroundings")));
  if (strcmp (owner, "duty") == 0)
    return g_strdup (tl_language_text (language, TL_N_ ("the circuit")));
  return g_strdup (tl_language_text (language, TL_N_ ("the joint")));
}
