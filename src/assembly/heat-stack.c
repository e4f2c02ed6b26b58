/* heat-stack.c: a bolted stack as lines side by side.
 *
 * The conductors lie over each other between -w and +w, w half of the eye or tang; what lies between two of them is a
 * line of its own, and the bolt with head, nut and outer washers is one path beside them from the first conductor to
 * the last.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

#define MAX_STACK 64

/* One thing of the stack between head and nut, or head and nut themselves. */
typedef struct
{
  const char  *owner;
  guint        body;
  const TlLeg *leg;
  gint         line; /* -1: on the bolt path */
} Item;

typedef struct
{
  Item   items[MAX_STACK];
  guint  n;
  guint  first, last; /* conductors at the ends */
  double half_m;
  double spots_least, spots_most, spot_mm2; /* bearing spots of a contact, and what one takes */
} Stack;

static gboolean
body_of (const TlAssembly *assembly, const char *owner, guint *body)
{
  static const TlBodyRole roles[] = { TL_BODY_EYE, TL_BODY_TANG, TL_BODY_WASHER, TL_BODY_HEAD,
                                      TL_BODY_NUT };

  for (guint i = 0; i < G_N_ELEMENTS (roles); i++)
    if (tl_assembly_find_body (assembly, owner, roles[i], body) != NULL)
      return TRUE;
  return FALSE;
}

static const TlContact *
contact_between (const TlAssembly *assembly, guint one, guint other, guint *index)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);

      if (contact->kind == TL_CONTACT_PRESSED
          && ((contact->a == one && contact->b == other)
              || (contact->a == other && contact->b == one)))
        {
          *index = i;
          return contact;
        }
    }
  return NULL;
}

/* Tang of a leg's lug stands for the leg. */
static const char *
metal_owner (const TlAssembly *assembly, const char *id)
{
  guint body;

  if (tl_joint_leg (assembly->joint, id) == NULL || body_of (assembly, id, &body))
    return id;
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->kind == TL_PART_LUG && layer->seat.kind == TL_SEAT_ON
          && g_str_equal (layer->seat.of, id))
        return layer->id;
    }
  return id;
}

/* A lug that stands in the stack stands there for the leg in it; (nullable) */
static const TlLeg *
leg_in (const TlAssembly *assembly, const TlStanding *standing)
{
  if (standing->leg != NULL || standing->layer->kind != TL_PART_LUG)
    return standing->leg;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (leg->seat.kind == TL_SEAT_PORT && g_str_equal (leg->seat.of, standing->id))
        return leg;
    }
  return NULL;
}

static gboolean
read_stack (TlHeatModel *self, Stack *stack)
{
  const TlAssembly *assembly = self->assembly;
  gboolean          any = FALSE;

  stack->n = 0;
  stack->half_m = 0.0;
  for (guint i = 0; i < assembly->standing->len && stack->n < MAX_STACK; i++)
    {
      Item             *item = &stack->items[stack->n];
      const TlStanding *standing = &g_array_index (assembly->standing, TlStanding, i);
      const char       *id = standing->id;

      item->leg = leg_in (assembly, standing);
      item->owner = metal_owner (assembly, id);
      item->line = -1;
      if (!body_of (assembly, item->owner, &item->body))
        return tl_heat_fail (self, TL_N_ ("{part} has no place in the stack."), id, TL_N_FIELDS);
      if (item->leg != NULL)
        {
          const TlBody  *body = tl_assembly_body (assembly, item->body);
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);

          stack->half_m = MAX (stack->half_m, solid->outer_mm / 2000.0);
          if (!any)
            stack->first = stack->n;
          stack->last = stack->n;
          any = TRUE;
        }
      stack->n++;
    }
  if (!any || stack->first == stack->last || stack->half_m <= 0.0)
    return tl_heat_fail (self, TL_N_ ("Two conductors are needed."), NULL, TL_N_FIELDS);
  return TRUE;
}

static double
leg_section_m2 (const TlHeatModel *self, const TlLeg *leg)
{
  return 1e-6 * tl_leg_number (leg, self->assembly->stock, TL_FIELD_SECTION, 0.0);
}

/* Conductors: the first to the left, the last to the right, others as short tails. */
static gboolean
add_conductor (TlHeatModel *self, Stack *stack, guint index)
{
  Item    *item = &stack->items[index];
  double   half = stack->half_m, lead = self->limits.lead_m;
  gboolean left = index == stack->first, right = index == stack->last;
  double   x0 = left ? -half - lead : -half, x1 = right ? half + lead : half;
  double   section = leg_section_m2 (self, item->leg);
  double   metal = 2.0 * sqrt (section / G_PI);

  if (!left && !right)
    x1 = half + 0.5 * lead;
  if (section <= 0.0)
    return tl_heat_fail (self, TL_N_ ("The section of {part} is not entered."), item->leg->id,
                         TL_FIELD_SECTION);
  /* With a lug the line is the conductor: its short flat is thicker than that. */
  item->line = tl_heat_add_line (self, item->leg->id, item->body,
                                 tl_leg_word (item->leg, self->assembly->stock, TL_FIELD_METAL, ""),
                                 x0, x1, section);
  if (item->line < 0)
    return FALSE;
  if (left)
    self->leg_a = item->leg;
  if (right)
    self->leg_b = item->leg;
  /* In the stack half of the round wire sees air. */
  return tl_heat_add_zone (self, item->line, -half, half, metal / 2.0, metal / 2.0, NULL)
         && tl_heat_add_lead_zones (self, item->line, item->leg, left ? -half - 0.003 : half,
                                    left ? -half : half + 0.003, left);
}

static gboolean
add_between (TlHeatModel *self, Stack *stack, guint index)
{
  Item          *item = &stack->items[index];
  const TlBody  *body = tl_assembly_body (self->assembly, item->body);
  const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);
  double thickness = (solid->end_mm - solid->start_mm) / 1000.0, outer = solid->outer_mm / 1000.0;

  item->line = tl_heat_add_line (self, item->owner, item->body, body->material, -stack->half_m,
                                 stack->half_m, thickness * outer);
  /* Its rim, spread along the line. */
  return item->line >= 0
         && tl_heat_add_zone (self, item->line, -stack->half_m, stack->half_m,
                              thickness * outer / (2.0 * stack->half_m), thickness, NULL);
}

/* Resistance through a ring across its thickness. */
static double
across_ohm (const TlHeatModel *self, const Item *item)
{
  const TlBody  *body = tl_assembly_body (self->assembly, item->body);
  const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);
  double         area =
      G_PI / 4.0 * (solid->outer_mm * solid->outer_mm - solid->inner_mm * solid->inner_mm);
  double resistivity = tl_heat_material_number (self, body->material, TL_FIELD_RESISTIVITY, 0.1);

  return area > 0.0 ? 1e-3 * resistivity * (solid->end_mm - solid->start_mm) / area : 0.0;
}

static gboolean
contact_ohm (TlHeatModel *self, const Stack *stack, guint first, TlRange *ohm, guint *index,
             const TlContact **found)
{
  const Item      *one = &stack->items[first], *other = &stack->items[first + 1];
  const TlContact *contact = contact_between (self->assembly, one->body, other->body, index);
  double           spots;

  if (contact == NULL)
    return tl_heat_fail (self, TL_N_ ("{part} is not pressed against its neighbour."), one->owner,
                         TL_N_FIELDS);

  double area = contact->is_line ? contact->area_mm2 : contact->loaded_area_mm2;

  if (area <= 0.0)
    area = contact->area_mm2;
  spots = contact->is_line ? stack->spots_least + 2.0
                           : CLAMP (area / stack->spot_mm2, stack->spots_least, stack->spots_most);
  *found = contact;
  return tl_heat_contact_ohm (self, tl_assembly_body (self->assembly, contact->a),
                              tl_assembly_body (self->assembly, contact->b), contact->surface_a,
                              contact->surface_b, contact->force_N, area, spots, TRUE, FALSE, ohm);
}

/* Neighbours from the first conductor to the last. */
static gboolean
add_faces (TlHeatModel *self, Stack *stack)
{
  for (guint i = stack->first; i < stack->last; i++)
    {
      const Item *one = &stack->items[i], *other = &stack->items[i + 1];
      double      bulk = (one->leg == NULL ? across_ohm (self, one) : 0.0)
                    + (other->leg == NULL ? across_ohm (self, other) : 0.0);
      const TlContact *contact;
      TlRange          ohm;
      guint            index;

      if (!contact_ohm (self, stack, i, &ohm, &index, &contact))
        return FALSE;
      ohm = (TlRange){ ohm.low + bulk / 2.0, ohm.best + bulk / 2.0, ohm.high + bulk / 2.0 };
      if (!tl_heat_add_interface (self, index, one->line, other->line, -stack->half_m,
                                  stack->half_m, ohm, contact->force_N,
                                  contact->is_line ? contact->area_mm2 : contact->loaded_area_mm2))
        return FALSE;
    }
  return TRUE;
}

/* Sum of the contacts between the head (or nut) and a conductor. */
static gboolean
chain_ohm (TlHeatModel *self, const Stack *stack, guint from, guint to, TlRange *sum)
{
  *sum = tl_range_exact (0.0);
  for (guint i = from; i < to; i++)
    {
      const TlContact *contact;
      TlRange          ohm;
      guint            index;

      if (!contact_ohm (self, stack, i, &ohm, &index, &contact))
        return FALSE;
      sum->low += ohm.low;
      sum->best += ohm.best;
      sum->high += ohm.high;
    }
  return TRUE;
}

/* Shank, head and nut as one line; the contacts of each side in series with half of the shank. */
static gboolean
add_bolt (TlHeatModel *self, Stack *stack)
{
  const TlStackFigures *figures = &self->assembly->stack;
  TlRange               head, nut, force = figures->preload_N;
  guint                 body;
  const TlBody *shank = tl_assembly_find_body (self->assembly, figures->bolt, TL_BODY_SHANK, &body);
  double        section = 1e-6 * figures->stress_area_mm2, rod, area, width = 2.0 * stack->half_m;
  gint          line;

  if (shank == NULL || !figures->has_nut || section <= 0.0)
    return TRUE;
  if (!chain_ohm (self, stack, 0, stack->first, &head)
      || !chain_ohm (self, stack, stack->last, stack->n - 1, &nut))
    return FALSE;
  line = tl_heat_add_line (self, figures->bolt, body, shank->material, -stack->half_m,
                           stack->half_m, section);
  if (line < 0)
    return FALSE;
  /* Head and nut give off heat: their faces and sides. */
  area = G_PI * figures->head_bearing_mm
         * (2.0 * figures->nut_height_mm + figures->head_bearing_mm / 2.0) * 1e-6;
  if (!tl_heat_add_zone (self, line, -stack->half_m, stack->half_m, area / (G_PI * width),
                         figures->head_bearing_mm / 1000.0, NULL))
    return FALSE;
  rod = tl_heat_material_number (self, shank->material, TL_FIELD_RESISTIVITY, 0.1) * 1e-3
        * figures->grip_mm / figures->stress_area_mm2;
  head = (TlRange){ head.low + rod / 2.0, head.best + rod / 2.0, head.high + rod / 2.0 };
  nut = (TlRange){ nut.low + rod / 2.0, nut.best + rod / 2.0, nut.high + rod / 2.0 };
  return tl_heat_add_interface (self, G_MAXUINT, stack->items[stack->first].line, line,
                                -stack->half_m, stack->half_m, head, force, 0.0)
         && tl_heat_add_interface (self, G_MAXUINT, stack->items[stack->last].line, line,
                                   -stack->half_m, stack->half_m, nut, force, 0.0);
}

gboolean
tl_heat_build_stack (TlHeatModel *self)
{
  Stack  stack;
  double half;

  if (!self->assembly->stack.has_torque)
    return tl_heat_fail (self, TL_N_ ("The torque of {part} is not entered."),
                         self->assembly->stack.bolt, TL_FIELD_TORQUE);
  if (!read_stack (self, &stack) || !tl_heat_limit (self, "heat.spots-least", &stack.spots_least)
      || !tl_heat_limit (self, "heat.spots-most", &stack.spots_most)
      || !tl_heat_limit (self, "heat.spot-area", &stack.spot_mm2))
    return FALSE;
  half = stack.half_m;
  for (guint i = stack.first; i <= stack.last; i++)
    if (!(stack.items[i].leg != NULL ? add_conductor (self, &stack, i)
                                     : add_between (self, &stack, i)))
      return FALSE;
  if (!add_faces (self, &stack) || !add_bolt (self, &stack))
    return FALSE;
  self->network.body_a = (guint) stack.items[stack.first].line;
  self->network.body_b = (guint) stack.items[stack.last].line;
  self->network.joint_x0_m = -half - 0.003;
  self->network.joint_x1_m = half + 0.003;
  return TRUE;
}
