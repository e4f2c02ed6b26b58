/* contacts.c: one contact between two bodies: names, surfaces, closure, order.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"
#include "joint/edit.h"

#include <string.h>

static const char *
surface_of (const TlBody *body)
{
  const char *surface = body->coating != NULL ? body->coating : body->material;

  return surface != NULL ? surface : "";
}

/* Compound in the mouth of a terminal that the leg goes in by. */
static gboolean
has_compound_in_mouth (const TlAssembly *self, const char *leg_id)
{
  const TlLeg *leg = tl_joint_leg (self->joint, leg_id);

  if (leg == NULL || leg->seat.kind != TL_SEAT_PORT)
    return FALSE;
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind == TL_PART_COMPOUND && tl_seat_equal (&layer->seat, &leg->seat))
        return TRUE;
    }
  return FALSE;
}

/* What keeps water from a contact: the seal over all of it, else compound on one of the two or in
 * the sleeve. */
static TlClosure
closure_of (const TlAssembly *self, const TlBody *a, const TlBody *b)
{
  if (self->seal.closed[0] && self->seal.closed[1])
    return TL_CLOSURE_ADHESIVE;
  if (tl_assembly_has_compound_on (self, a->owner) || tl_assembly_has_compound_on (self, b->owner))
    return TL_CLOSURE_COMPOUND;
  if (self->terminal.terminal != NULL
      && (tl_assembly_has_compound_on (self, self->terminal.terminal)
          || has_compound_in_mouth (self, a->owner) || has_compound_in_mouth (self, b->owner)))
    return TL_CLOSURE_COMPOUND;
  if (self->sleeve.sleeve != NULL && tl_assembly_has_compound_on (self, self->sleeve.sleeve))
    return TL_CLOSURE_COMPOUND;
  return TL_CLOSURE_NONE;
}

TlContact *
tl_assembly_add_contact (TlAssembly *self, guint a, guint b, TlContactKind kind)
{
  const TlBody *first = self->bodies->pdata[a], *second = self->bodies->pdata[b];
  TlContact     contact = { .kind = kind };

  if (strcmp (first->id, second->id) > 0)
    {
      const TlBody *body = first;
      guint         index = a;

      first = second;
      second = body;
      a = b;
      b = index;
    }
  contact.id = tl_assembly_join (self, first->id, "|", second->id);
  contact.id = tl_assembly_join (self, contact.id, "|", tl_contact_kind_word (kind));
  contact.a = a;
  contact.b = b;
  contact.is_metallic = first->is_metal && second->is_metal;
  contact.surface_a = surface_of (first);
  contact.surface_b = surface_of (second);
  contact.closure = closure_of (self, first, second);
  g_array_append_val (self->contacts, contact);
  return &g_array_index (self->contacts, TlContact, self->contacts->len - 1);
}

void
tl_contact_show_other_face (TlAssembly *self, TlContact *contact, guint body)
{
  const TlLayer *layer = tl_joint_layer (self->joint, tl_assembly_body (self, body)->owner);
  const char    *face =
      layer != NULL ? tl_layer_word (layer, self->stock, TL_FIELD_OTHER_FACE, NULL) : NULL;

  if (face == NULL)
    return;
  if (contact->a == body)
    contact->surface_a = face;
  else
    contact->surface_b = face;
}

double
tl_assembly_bridge_mm (TlAssembly *self)
{
  double limit = tl_assembly_limit_or (self, "galvanic.bridge-distance", 0.0);

  return MAX (0.0, limit - TL_SAME_PLACE_MM);
}

gboolean
tl_assembly_has_contact (const TlAssembly *self, guint a, guint b)
{
  for (guint i = 0; i < self->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (self->contacts, TlContact, i);

      if ((contact->a == a && contact->b == b) || (contact->a == b && contact->b == a))
        return TRUE;
    }
  return FALSE;
}

static int
compare_contacts (gconstpointer a, gconstpointer b)
{
  return strcmp (((const TlContact *) a)->id, ((const TlContact *) b)->id);
}

void
tl_assembly_sort_contacts (TlAssembly *self)
{
  g_array_sort (self->contacts, compare_contacts);
}

const char *
tl_contact_kind_word (TlContactKind kind)
{
  static const char *const words[] = { [TL_CONTACT_PRESSED] = "pressed",
                                       [TL_CONTACT_TOUCHING] = "touching",
                                       [TL_CONTACT_MAY_BRIDGE] = "may-bridge" };

  g_return_val_if_fail (kind < G_N_ELEMENTS (words), NULL);

  return words[kind];
}
