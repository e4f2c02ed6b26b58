/* stack-place.c: how far a stack opens for what is held over it, and how much of its leads is shown.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#include <string.h>

/* Insulation that is shown at least where there is room for it. */
#define INSULATION_SHOWN_MM 4.0

static const char *
seat_owner (const TlJoint *joint, const char *owner)
{
  const TlSeat *seat = tl_joint_seat (joint, owner);

  for (guint depth = 0;
       depth < 8 && seat != NULL && (seat->kind == TL_SEAT_ON || seat->kind == TL_SEAT_PORT)
       && seat->of != NULL;
       depth++)
    {
      owner = seat->of;
      seat = tl_joint_seat (joint, owner);
    }
  return owner;
}

double
tl_stack_shift_mm (const TlDrawing *d, const char *owner)
{
  const TlJoint *joint = d->assembly->joint;
  guint          index;

  if (d->stack == NULL)
    return 0.0;
  owner = seat_owner (joint, owner);
  /* what is lifted stays, pale, in the gap that it left */
  if (d->options.lifted != NULL && strcmp (owner, d->options.lifted) == 0)
    return tl_places_opening_mm (d, d->lifted_from);
  if (g_ptr_array_find_with_equal_func (d->stack, owner, g_str_equal, &index))
    return tl_places_opening_mm (d, index);
  return 0.0;
}

double
tl_stack_shown_mm (const TlStackExtent *extent)
{
  return CLAMP (extent->lead_mm - extent->reach_mm - 1.5, 0.5, INSULATION_SHOWN_MM);
}

double
tl_stack_left_out_mm (const TlStackExtent *extent, double insulation_from_mm)
{
  return MAX (insulation_from_mm + tl_stack_shown_mm (extent) - extent->lead_mm, 0.0);
}

const TlBody *
tl_stack_cover (const TlDrawing *d, const TlBody *body)
{
  const TlJoint *joint = d->assembly->joint;
  const TlLayer *lug =
      body->role == TL_BODY_LUG_BARREL ? tl_joint_layer (joint, body->owner) : NULL;
  const char *owner = lug != NULL && lug->seat.kind == TL_SEAT_ON ? lug->seat.of : body->owner;

  for (guint i = 0; lug != NULL && i < joint->legs->len; i++)
    {
      const TlLeg *leg = joint->legs->pdata[i];

      if (leg->seat.kind == TL_SEAT_PORT && g_strcmp0 (leg->seat.of, lug->id) == 0)
        owner = leg->id;
    }
  body = tl_assembly_find_body (d->assembly, owner, TL_BODY_INSULATION, NULL);
  return body != NULL && body->solids->len > 0 ? body : NULL;
}
