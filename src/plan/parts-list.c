/* parts-list.c: what lies ready before the first step: every numbered body of the drawing, then
 * what has no number.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include <string.h>

/* @own in front of @beneath; (transfer full) */
static TlFacts *
laid_over (const TlFacts *beneath, const TlFacts *own)
{
  TlFacts *facts = tl_facts_ref (beneath);

  for (guint i = 0; i < tl_facts_count (own); i++)
    {
      TlFacts *before = facts;

      facts = tl_facts_with (before, tl_facts_at (own, i));
      tl_facts_unref (before);
    }
  return facts;
}

TlFacts *
tl_planner_facts (const TlPlanner *self, const char *owner)
{
  const TlLeg   *leg = tl_joint_leg (self->joint, owner);
  const TlLayer *layer = tl_joint_layer (self->joint, owner);
  const char    *part_id = leg != NULL ? leg->part : layer->part;
  const TlPart  *part = part_id != NULL ? tl_stock_part (self->stock, part_id) : NULL;
  g_autoptr (TlFacts) none = tl_facts_new ();

  return laid_over (part != NULL ? part->facts : none, leg != NULL ? leg->facts : layer->facts);
}

static void
add_part (TlPlanner *self, guint number, char *name, char *size)
{
  TlPartLine *line = g_new0 (TlPartLine, 1);

  line->number = number;
  line->name = name;
  line->size = size;
  g_ptr_array_add (self->sheet->parts, line);
}

static void
add_owner (TlPlanner *self, const char *owner)
{
  const TlLayer *layer = tl_joint_layer (self->joint, owner);
  g_autoptr (TlFacts) facts = tl_planner_facts (self, owner);
  TlPartKind kind = layer != NULL ? layer->kind : TL_PART_CONDUCTOR;

  add_part (self, tl_assembly_number (self->assembly, owner),
            tl_part_name (kind, facts, self->stock, self->language),
            tl_part_dimensions (kind, facts, self->language));
}

static void
add_unnumbered (TlPlanner *self)
{
  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->joint->legs, i);

      if (tl_assembly_number (self->assembly, leg->id) == 0)
        add_owner (self, leg->id);
    }
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (self->joint->layers, i);

      if (tl_assembly_number (self->assembly, layer->id) == 0)
        add_owner (self, layer->id);
    }
}

/* The box: its part in the stock, if it has one, under what the site says of it. */
static void
add_box (TlPlanner *self)
{
  const TlPart *part =
      self->joint->box != NULL ? tl_stock_part (self->stock, self->joint->box) : NULL;
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_autoptr (TlFacts) facts = laid_over (part != NULL ? part->facts : none, self->joint->site);

  char *size;

  if (part == NULL && !tl_facts_has (facts, TL_FIELD_INNER_WIDTH))
    return;
  size = tl_part_dimensions (TL_PART_BOX, facts, self->language);
  /* Without inner sizes by the size that it is sold by. */
  if (*size == '\0' && part != NULL && part->size != NULL)
    {
      g_free (size);
      size = g_strdup (part->size);
    }
  add_part (self, 0, tl_part_name (TL_PART_BOX, facts, self->stock, self->language), size);
}

void
tl_parts_list_fill (TlPlanner *self)
{
  for (guint i = 0; i < self->assembly->order->len; i++)
    add_owner (self, g_ptr_array_index (self->assembly->order, i));
  add_unnumbered (self);
  add_box (self);
}
