/* joint.c: the document as an immutable value: making, sharing, looking up.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint.h"
#include "joint/joint-file.h"
#include "joint/joint-private.h"

#include <string.h>

/* --- legs, layers, preparation, variants --- */

static TlFacts *
facts_or_none (const TlFacts *facts)
{
  return facts != NULL ? tl_facts_ref (facts) : tl_facts_new ();
}

TlPreparation *
tl_preparation_new (const char *act, const TlFacts *facts)
{
  TlPreparation *self = g_new0 (TlPreparation, 1);

  self->act = g_strdup (act);
  self->facts = facts_or_none (facts);
  return self;
}

void
tl_preparation_free (TlPreparation *self)
{
  g_free (self->act);
  tl_facts_unref (self->facts);
  g_free (self);
}

GPtrArray *
tl_preparation_list_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) tl_preparation_free);
}

TlLeg *
tl_leg_new (const char *id, const char *part, const TlSeat *seat, const TlFacts *facts)
{
  TlLeg *leg = g_new0 (TlLeg, 1);

  g_atomic_ref_count_init (&leg->ref_count);
  leg->id = g_strdup (id);
  leg->part = g_strdup (part);
  leg->seat = tl_seat_copy (seat);
  leg->facts = facts_or_none (facts);
  leg->preparation = tl_preparation_list_new ();
  return leg;
}

TlLeg *
tl_leg_copy (const TlLeg *leg)
{
  TlLeg *copy = tl_leg_new (leg->id, leg->part, &leg->seat, leg->facts);

  g_ptr_array_unref (copy->preparation);
  copy->preparation = g_ptr_array_ref (leg->preparation);
  return copy;
}

TlLeg *
tl_leg_ref (TlLeg *leg)
{
  g_atomic_ref_count_inc (&leg->ref_count);
  return leg;
}

void
tl_leg_unref (TlLeg *leg)
{
  if (!g_atomic_ref_count_dec (&leg->ref_count))
    return;
  g_free (leg->id);
  g_free (leg->part);
  tl_seat_clear (&leg->seat);
  tl_facts_unref (leg->facts);
  g_ptr_array_unref (leg->preparation);
  g_free (leg);
}

TlLayer *
tl_layer_new (const char *id, const char *part, TlPartKind kind, const TlSeat *seat,
              const TlFacts *facts)
{
  TlLayer *layer = g_new0 (TlLayer, 1);

  g_atomic_ref_count_init (&layer->ref_count);
  layer->id = g_strdup (id);
  layer->part = g_strdup (part);
  layer->kind = kind;
  layer->seat = tl_seat_copy (seat);
  layer->facts = facts_or_none (facts);
  return layer;
}

TlLayer *
tl_layer_copy (const TlLayer *layer)
{
  return tl_layer_new (layer->id, layer->part, layer->kind, &layer->seat, layer->facts);
}

TlLayer *
tl_layer_ref (TlLayer *layer)
{
  g_atomic_ref_count_inc (&layer->ref_count);
  return layer;
}

void
tl_layer_unref (TlLayer *layer)
{
  if (!g_atomic_ref_count_dec (&layer->ref_count))
    return;
  g_free (layer->id);
  g_free (layer->part);
  tl_seat_clear (&layer->seat);
  tl_facts_unref (layer->facts);
  g_free (layer);
}

TlVariant *
tl_variant_new (const char *name, const TlJoint *joint)
{
  TlVariant *self = g_new0 (TlVariant, 1);

  self->name = g_strdup (name);
  self->joint = tl_joint_ref (joint);
  return self;
}

static void
variant_free (gpointer data)
{
  TlVariant *self = data;

  g_free (self->name);
  tl_joint_unref (self->joint);
  g_free (self);
}

/* --- the joint --- */

TlJoint *
tl_joint_new (void)
{
  TlJoint *self = g_new0 (TlJoint, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->name = g_strdup ("");
  self->place = g_strdup ("");
  self->prepared_by = g_strdup ("");
  self->date = g_strdup ("");
  self->note = g_strdup ("");
  self->practice = g_strdup (tl_practice_words ()[0]);
  self->units = g_strdup (tl_unit_system_words ()[0]);
  self->sheet_language = g_strdup ("");
  self->legs = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_leg_unref);
  self->layers = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_layer_unref);
  self->forbidden = g_strdup ("");
  self->site = tl_facts_new ();
  self->duty = tl_facts_new ();
  self->variants = g_ptr_array_new_with_free_func (variant_free);
  self->reserved = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
  self->minor = TL_JOINT_MINOR;
  self->next_id = 1;
  return self;
}

static gpointer
share_leg (gconstpointer leg, gpointer data)
{
  return tl_leg_ref ((TlLeg *) leg);
}

static gpointer
share_layer (gconstpointer layer, gpointer data)
{
  return tl_layer_ref ((TlLayer *) layer);
}

TlJoint *
tl_joint_fork (const TlJoint *self)
{
  TlJoint *fork = g_new0 (TlJoint, 1);

  g_atomic_ref_count_init (&fork->ref_count);
  fork->name = g_strdup (self->name);
  fork->place = g_strdup (self->place);
  fork->prepared_by = g_strdup (self->prepared_by);
  fork->date = g_strdup (self->date);
  fork->note = g_strdup (self->note);
  fork->practice = g_strdup (self->practice);
  fork->units = g_strdup (self->units);
  fork->sheet_language = g_strdup (self->sheet_language);
  fork->fault_example = self->fault_example;
  fork->legs = g_ptr_array_copy (self->legs, share_leg, NULL);
  fork->layers = g_ptr_array_copy (self->layers, share_layer, NULL);
  fork->box = g_strdup (self->box);
  fork->forbidden = g_strdup (self->forbidden);
  fork->site = tl_facts_ref (self->site);
  fork->duty = tl_facts_ref (self->duty);
  fork->used = self->used != NULL ? tl_used_ref (self->used) : NULL;
  fork->variants = g_ptr_array_ref (self->variants);
  fork->reserved = g_ptr_array_ref (self->reserved);
  fork->minor = self->minor;
  fork->originals = self->originals != NULL ? tl_originals_ref (self->originals) : NULL;
  fork->next_id = self->next_id;
  fork->kept = self->kept != NULL ? g_hash_table_ref (self->kept) : NULL;
  return fork;
}

TlJoint *
tl_joint_ref (const TlJoint *self)
{
  TlJoint *shared = (TlJoint *) self;

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
tl_joint_unref (TlJoint *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_free (self->name);
  g_free (self->place);
  g_free (self->prepared_by);
  g_free (self->date);
  g_free (self->note);
  g_free (self->practice);
  g_free (self->units);
  g_free (self->sheet_language);
  g_ptr_array_unref (self->legs);
  g_ptr_array_unref (self->layers);
  g_free (self->box);
  g_free (self->forbidden);
  tl_facts_unref (self->site);
  tl_facts_unref (self->duty);
  g_clear_pointer (&self->used, tl_used_unref);
  g_ptr_array_unref (self->variants);
  g_ptr_array_unref (self->reserved);
  g_clear_pointer (&self->originals, tl_originals_unref);
  g_clear_pointer (&self->kept, g_hash_table_unref);
  g_free (self);
}

/* --- looking up --- */

const TlLeg *
tl_joint_leg (const TlJoint *self, const char *id)
{
  for (guint i = 0; i < self->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->legs, i);
      if (g_strcmp0 (leg->id, id) == 0)
        return leg;
    }
  return NULL;
}

const TlLayer *
tl_joint_layer (const TlJoint *self, const char *id)
{
  for (guint i = 0; i < self->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (self->layers, i);
      if (g_strcmp0 (layer->id, id) == 0)
        return layer;
    }
  return NULL;
}

guint
tl_joint_n_members (const TlJoint *self)
{
  return self->legs->len + self->layers->len;
}

const char *
tl_joint_member_id (const TlJoint *self, guint index)
{
  if (index < self->legs->len)
    return ((const TlLeg *) g_ptr_array_index (self->legs, index))->id;
  return ((const TlLayer *) g_ptr_array_index (self->layers, index - self->legs->len))->id;
}

const TlSeat *
tl_joint_member_seat (const TlJoint *self, guint index)
{
  if (index < self->legs->len)
    return &((const TlLeg *) g_ptr_array_index (self->legs, index))->seat;
  return &((const TlLayer *) g_ptr_array_index (self->layers, index - self->legs->len))->seat;
}

gboolean
tl_joint_find_member (const TlJoint *self, const char *id, guint *index)
{
  for (guint i = 0; i < tl_joint_n_members (self); i++)
    if (g_strcmp0 (tl_joint_member_id (self, i), id) == 0)
      {
        *index = i;
        return TRUE;
      }
  return FALSE;
}

const TlSeat *
tl_joint_seat (const TlJoint *self, const char *id)
{
  guint index;

  return tl_joint_find_member (self, id, &index) ? tl_joint_member_seat (self, index) : NULL;
}

typedef struct
{
  guint       place;
  const char *id;
} InStack;

static int
by_place (gconstpointer a, gconstpointer b)
{
  guint left = ((const InStack *) a)->place, right = ((const InStack *) b)->place;

  return (left > right) - (left < right);
}

GPtrArray *
tl_joint_stack (const TlJoint *self)
{
  g_autoptr (GArray) standing = g_array_new (FALSE, FALSE, sizeof (InStack));
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < tl_joint_n_members (self); i++)
    {
      const TlSeat *seat = tl_joint_member_seat (self, i);
      InStack       entry = { seat->place, tl_joint_member_id (self, i) };
      if (seat->kind == TL_SEAT_STACK)
        g_array_append_val (standing, entry);
    }
  g_array_sort (standing, by_place);
  for (guint i = 0; i < standing->len; i++)
    g_ptr_array_add (ids, (gpointer) g_array_index (standing, InStack, i).id);
  return ids;
}

/* Members of one row, in order: the stack, or the legs, or the layers. */
static GPtrArray *
row_of (const TlJoint *self, const char *from, const char *to)
{
  const TlSeat *from_seat = tl_joint_seat (self, from), *to_seat = tl_joint_seat (self, to);
  gboolean      are_legs = tl_joint_leg (self, from) != NULL && tl_joint_leg (self, to) != NULL;
  gboolean are_layers = tl_joint_layer (self, from) != NULL && tl_joint_layer (self, to) != NULL;

  if (from_seat != NULL && to_seat != NULL && from_seat->kind == TL_SEAT_STACK
      && to_seat->kind == TL_SEAT_STACK)
    return tl_joint_stack (self);

  GPtrArray *row = g_ptr_array_new ();
  if (are_legs)
    for (guint i = 0; i < self->legs->len; i++)
      g_ptr_array_add (row, ((TlLeg *) g_ptr_array_index (self->legs, i))->id);
  else if (are_layers)
    for (guint i = 0; i < self->layers->len; i++)
      g_ptr_array_add (row, ((TlLayer *) g_ptr_array_index (self->layers, i))->id);
  else
    {
      g_ptr_array_add (row, (gpointer) from);
      g_ptr_array_add (row, (gpointer) to);
    }
  return row;
}

GPtrArray *
tl_joint_around (const TlJoint *self, const TlSeat *seat)
{
  GPtrArray *ids = g_ptr_array_new ();

  if (seat->kind != TL_SEAT_AROUND)
    return ids;

  g_autoptr (GPtrArray) row = row_of (self, seat->from, seat->to);
  gboolean is_inside = FALSE;
  for (guint i = 0; i < row->len; i++)
    {
      const char *id = g_ptr_array_index (row, i);
      gboolean    is_end = strcmp (id, seat->from) == 0 || strcmp (id, seat->to) == 0;
      gboolean    is_both = strcmp (seat->from, seat->to) == 0;
      /* What embraces may stand in the same row; it does not embrace itself. */
      if ((is_end || is_inside) && tl_joint_seat (self, id) != seat)
        g_ptr_array_add (ids, (gpointer) id);
      if (is_end && !is_both)
        is_inside = !is_inside;
    }
  return ids;
}

/* --- facts --- */

static const TlFact *
fact_or_of_part (const TlFacts *facts, const char *part_id, const TlStock *stock, TlField field)
{
  const TlFact *fact = tl_facts_get (facts, field);
  if (fact != NULL || part_id == NULL || stock == NULL)
    return fact;

  const TlPart *part = tl_stock_part (stock, part_id);
  return part != NULL ? tl_facts_get (part->facts, field) : NULL;
}

const TlFact *
tl_leg_fact (const TlLeg *leg, const TlStock *stock, TlField field)
{
  return fact_or_of_part (leg->facts, leg->part, stock, field);
}

const TlFact *
tl_layer_fact (const TlLayer *layer, const TlStock *stock, TlField field)
{
  return fact_or_of_part (layer->facts, layer->part, stock, field);
}

const TlFact *
tl_joint_site_fact (const TlJoint *self, const TlStock *stock, TlField field)
{
  return fact_or_of_part (self->site, self->box, stock, field);
}

double
tl_leg_number (const TlLeg *leg, const TlStock *stock, TlField field, double fallback)
{
  const TlFact *fact = tl_leg_fact (leg, stock, field);

  return fact != NULL ? fact->value.best : fallback;
}

const char *
tl_leg_word (const TlLeg *leg, const TlStock *stock, TlField field, const char *fallback)
{
  const TlFact *fact = tl_leg_fact (leg, stock, field);

  return fact != NULL && fact->word != NULL ? fact->word : fallback;
}

double
tl_layer_number (const TlLayer *layer, const TlStock *stock, TlField field, double fallback)
{
  const TlFact *fact = tl_layer_fact (layer, stock, field);

  return fact != NULL ? fact->value.best : fallback;
}

const char *
tl_layer_word (const TlLayer *layer, const TlStock *stock, TlField field, const char *fallback)
{
  const TlFact *fact = tl_layer_fact (layer, stock, field);

  return fact != NULL && fact->word != NULL ? fact->word : fallback;
}

static void
add_assumed (GArray *list, const char *owner, const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      TlAssumed entry = { owner, tl_facts_at (facts, i) };
      if (entry.fact->known_by == TL_KNOWN_ASSUMED)
        g_array_append_val (list, entry);
    }
}

GArray *
tl_joint_assumed (const TlJoint *self)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (TlAssumed));

  for (guint i = 0; i < self->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->legs, i);
      add_assumed (list, leg->id, leg->facts);
      for (guint k = 0; k < leg->preparation->len; k++)
        add_assumed (list, leg->id,
                     ((const TlPreparation *) g_ptr_array_index (leg->preparation, k))->facts);
    }
  for (guint i = 0; i < self->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (self->layers, i);
      add_assumed (list, layer->id, layer->facts);
    }
  add_assumed (list, "site", self->site);
  add_assumed (list, "duty", self->duty);
  return list;
}
