/* parts-list.c: what lies ready before the first step: every numbered body of the drawing, then
 * what has no number.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include <string.h>

TlFacts *
tl_parts_list_facts (const TlPlanner *self, const char *owner)
{
  const TlLeg *leg = tl_joint_leg (self->joint, owner);
  const TlLayer *layer = tl_joint_layer (self->joint, owner);
  const char *part_id = leg != NULL ? leg->part : layer != NULL ? layer->part : NULL;
  const TlFacts *own = leg != NULL ? leg->facts : layer != NULL ? layer->facts : NULL;
  const TlPart *part = part_id != NULL ? tl_stock_part (self->stock, part_id) : NULL;
  TlFacts *facts = part != NULL ? tl_facts_ref (part->facts) : tl_facts_new ();

  for (guint i = 0; own != NULL && i < tl_facts_count (own); i++)
    {
      TlFacts *beneath = facts;

      facts = tl_facts_with (beneath, tl_facts_at (own, i));
      tl_facts_unref (beneath);
    }
  return facts;
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
  g_autoptr (TlFacts) facts = tl_parts_list_facts (self, owner);
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

void
tl_parts_list_fill (TlPlanner *self)
{
  const TlPart *box =
      self->joint->box != NULL ? tl_stock_part (self->stock, self->joint->box) : NULL;

  for (guint i = 0; i < self->assembly->order->len; i++)
    add_owner (self, g_ptr_array_index (self->assembly->order, i));
  add_unnumbered (self);
  if (box != NULL)
    add_part (self, 0, tl_part_name (TL_PART_BOX, box->facts, self->stock, self->language),
              tl_part_dimensions (TL_PART_BOX, box->facts, self->language));
}
