/* leads.c: ends of conductors in a stack: eyes, hooks, lugs, and the leads that leave it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>
#include <string.h>

/* Share of a turn of an open hook, and of an eye when the data have no row for it (common
 * practice, no source). */
#define HOOK_TURN_RATIO 0.5
#define EYE_TURN_RATIO 0.75
/* How far the flat of a lug runs into its barrel; drawn, not judged. */
#define NECK_MM 1.0

/* Ways the leads leave when nothing is stated: left, right, then square to both. */
static double
direction_of (const TlAssembly *self, const TlLeg *leg)
{
  static const double usual[] = { 180.0, 0.0, 90.0, 270.0, 45.0, 135.0, 225.0, 315.0 };
  guint               before = 0;

  for (guint i = 0; i < self->joint->legs->len && self->joint->legs->pdata[i] != leg; i++)
    before++;
  return tl_leg_number (leg, self->stock, TL_FIELD_DIRECTION, usual[MIN (before, TL_MAX_LEGS - 1)]);
}

gboolean
tl_stack_lay_eye (TlStackBuild *build, const TlLeg *leg, TlSpot *spot)
{
  TlAssembly *self = build->assembly;
  double      wire = tl_leg_metal_diameter_mm (self, leg);
  double      bore, direction = direction_of (self, leg);
  gboolean    is_hook = strcmp (tl_leg_word (leg, self->stock, TL_FIELD_END, "eye"), "hook") == 0;
  const char *closes = tl_leg_word (leg, self->stock, TL_FIELD_EYE_CLOSES, "with-nut");
  TlSolid     eye = { .kind = TL_SOLID_EYE };

  if (!tl_assembly_need_leg (self, leg, TL_FIELD_EYE_BORE, &bore) || wire <= 0.0
      || tl_leg_fact (leg, self->stock, TL_FIELD_METAL) == NULL)
    return FALSE;
  spot->kind = TL_SPOT_EYE;
  spot->owner = leg->id;
  spot->end_mm = spot->start_mm + wire;
  spot->inner_mm = bore;
  spot->outer_mm = spot->bearing_mm = bore + 2.0 * wire;
  spot->wire_mm = wire;
  spot->turn_ratio =
      is_hook ? HOOK_TURN_RATIO : tl_assembly_limit_or (self, "grip.eye-turn", EYE_TURN_RATIO);
  eye.start_mm = spot->start_mm;
  eye.end_mm = spot->end_mm;
  eye.inner_mm = bore;
  eye.outer_mm = spot->outer_mm;
  eye.direction_deg = direction;
  eye.turn_ratio = spot->turn_ratio;
  /* Seen from the head, the nut turns towards smaller angles; an eye that closes with it runs that
   * way. */
  eye.arc_start_deg =
      strcmp (closes, "against-nut") == 0 ? direction : direction - 360.0 * spot->turn_ratio;
  spot->body = tl_assembly_leg_body (self, leg, "eye", TL_BODY_EYE);
  tl_assembly_add_solid (self, spot->body, &eye);
  return TRUE;
}

/* The leg that is pressed into a lug; (nullable) */
static const TlLeg *
leg_of_lug (const TlAssembly *self, const TlLayer *lug)
{
  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = self->joint->legs->pdata[i];

      if (tl_leg_lug (self, leg) == lug)
        return leg;
    }
  return NULL;
}

gboolean
tl_stack_lay_tang (TlStackBuild *build, const TlLayer *lug, TlSpot *spot)
{
  TlAssembly  *self = build->assembly;
  const TlLeg *leg = leg_of_lug (self, lug);
  gboolean     is_flat = tl_layer_fact (lug, self->stock, TL_FIELD_EYE_BORE) == NULL;
  double       hole, width, thickness;
  gboolean     is_known =
      tl_assembly_need_layer (self, lug, is_flat ? TL_FIELD_BORE : TL_FIELD_EYE_BORE, &hole);
  TlSolid tang = { .kind = TL_SOLID_PLATE };

  is_known &= tl_assembly_need_layer (self, lug, TL_FIELD_WIDTH, &width);
  is_known &= tl_assembly_need_layer (self, lug, TL_FIELD_THICKNESS, &thickness);
  is_known &= tl_assembly_need_layer (self, lug, TL_FIELD_MATERIAL, NULL);
  if (!is_known)
    return FALSE;
  if (width <= hole)
    {
      tl_assembly_problem (self, lug->id, FALSE,
                           TL_N_ ("{part} has no metal: bore {a}, outside {b}."), TL_FIELD_WIDTH,
                           hole, width);
      return FALSE;
    }
  spot->kind = TL_SPOT_TANG;
  spot->owner = lug->id;
  spot->leg = leg != NULL ? leg->id : NULL;
  spot->end_mm = spot->start_mm + thickness;
  spot->inner_mm = hole;
  spot->outer_mm = spot->bearing_mm = width;
  tang.start_mm = spot->start_mm;
  tang.end_mm = spot->end_mm;
  tang.inner_mm = hole;
  tang.outer_mm = width;
  tang.direction_deg = leg != NULL ? direction_of (self, leg) : 0.0;
  tang.length_mm = width / 2.0;
  spot->body = tl_assembly_layer_body (self, lug, "tang", TL_BODY_TANG);
  /* The flat of a bimetal lug is of the other metal. */
  if (tl_layer_fact (lug, self->stock, TL_FIELD_OTHER_FACE) != NULL)
    tl_assembly_set_metal (self, spot->body,
                           tl_layer_word (lug, self->stock, TL_FIELD_OTHER_FACE, NULL));
  tl_assembly_add_solid (self, spot->body, &tang);
  return TRUE;
}

/* --- leads --- */

static TlSolid
rod (double direction_deg, double from_mm, double to_mm, double z_mm, double inner_mm,
     double outer_mm)
{
  double x = cos (direction_deg * G_PI / 180.0), y = sin (direction_deg * G_PI / 180.0);

  return (TlSolid){ .kind = TL_SOLID_ROD,
                    .inner_mm = inner_mm,
                    .outer_mm = outer_mm,
                    .x0_mm = from_mm * x,
                    .y0_mm = from_mm * y,
                    .z0_mm = z_mm,
                    .x1_mm = to_mm * x,
                    .y1_mm = to_mm * y,
                    .z1_mm = z_mm,
                    .direction_deg = direction_deg };
}

static void
lay_insulation (TlAssembly *self, const TlLeg *leg, double direction_deg, double from_mm,
                double z_mm, double wire_mm)
{
  double  diameter = tl_leg_insulation_diameter_mm (self, leg);
  guint   body;
  TlSolid solid;

  if (diameter <= wire_mm)
    return;
  body = tl_assembly_leg_body (self, leg, "insulation", TL_BODY_INSULATION);
  solid = rod (direction_deg, from_mm, from_mm + TL_LEAD_DRAWN_MM, z_mm, wire_mm, diameter);
  tl_assembly_add_solid (self, body, &solid);
}

/* What the eye takes of the strip is bent round the bolt; the rest stays straight and bare. */
static void
lay_eye_lead (TlStackBuild *build, const TlSpot *spot)
{
  TlAssembly  *self = build->assembly;
  const TlLeg *leg = tl_joint_leg (self->joint, spot->leg);
  double       crest = (spot->inner_mm + spot->wire_mm) / 2.0;
  double       z = (spot->start_mm + spot->end_mm) / 2.0;
  double       least = MAX (build->reach_mm, spot->outer_mm / 2.0) + TL_LEAD_BARE_MM;
  double       direction = direction_of (self, leg);
  double       strip = 0.0, bare = least;
  TlSolid      lead;

  if (tl_assembly_need_leg (self, leg, TL_FIELD_STRIP, &strip))
    bare = MAX (least, crest + strip - spot->turn_ratio * 2.0 * G_PI * crest);
  lead = rod (direction, crest, bare + TL_LEAD_DRAWN_MM, z, 0.0, spot->wire_mm);
  tl_assembly_add_solid (self, spot->body, &lead);
  lay_insulation (self, leg, direction, bare, z, spot->wire_mm);
}

/* The flat reaches past all that is stacked before it becomes a barrel; how far it does in a real
 * lug is no figure of the stock. */
static void
lengthen_tang (TlStackBuild *build, const TlSpot *spot)
{
  TlBody  *body = build->assembly->bodies->pdata[spot->body];
  TlSolid *tang = &g_array_index (body->solids, TlSolid, 0);

  tang->length_mm =
      MAX (tang->length_mm + spot->end_mm - spot->start_mm, build->reach_mm + TL_LEAD_BARE_MM)
      + NECK_MM;
}

/* Barrels of two lugs that lie on each other point away from each other: up above the middle of
 * the stack, down below it, each flush with the face of its flat. */
static void
lay_lug_barrel (TlStackBuild *build, const TlSpot *spot, gboolean is_upper)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *lug = tl_joint_layer (self->joint, spot->owner);
  const TlLeg   *leg = spot->leg != NULL ? tl_joint_leg (self->joint, spot->leg) : NULL;
  const TlSolid *tang = &g_array_index (tl_assembly_body (self, spot->body)->solids, TlSolid, 0);
  double         outer = tl_layer_number (lug, self->stock, TL_FIELD_OUTER, 0.0);
  double         bore = tl_layer_number (lug, self->stock, TL_FIELD_BORE, 0.0);
  double         length = tl_layer_number (lug, self->stock, TL_FIELD_LENGTH, 0.0);
  double         wire = leg == NULL                  ? 0.0
                        : bore > 0.0 && outer > bore ? tl_leg_in_bore_mm (self, leg, bore)
                                                     : tl_leg_metal_diameter_mm (self, leg);
  double         from = tang->length_mm - NECK_MM, z = (spot->start_mm + spot->end_mm) / 2.0;
  double         strip, bare = from + TL_LEAD_BARE_MM;
  TlSolid        solid;

  if (outer > bore && length > 0.0)
    {
      guint barrel = tl_assembly_layer_body (self, lug, "barrel", TL_BODY_LUG_BARREL);

      z = is_upper ? spot->end_mm - outer / 2.0 : spot->start_mm + outer / 2.0;
      solid = rod (tang->direction_deg, from, from + length, z, bore, outer);
      tl_assembly_add_solid (self, barrel, &solid);
      bare = from + length + TL_LEAD_BARE_MM;
    }
  if (leg == NULL || wire <= 0.0)
    return;
  if (bore > 0.0 && outer > bore && wire > bore + TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (self, leg->id, FALSE,
                           TL_N_ ("{part} does not go into its lug: metal {a}, bore {b}."),
                           TL_FIELD_METAL_DIAMETER, wire, bore);
      return;
    }
  if (tl_assembly_need_leg (self, leg, TL_FIELD_STRIP, &strip))
    bare = MAX (bare, from + strip);
  solid = rod (tang->direction_deg, from, bare + TL_LEAD_DRAWN_MM, z, 0.0, wire);
  tl_assembly_add_solid (self, tl_assembly_leg_body (self, leg, "core", TL_BODY_CORE), &solid);
  lay_insulation (self, leg, tang->direction_deg, bare, z, wire);
  tl_assembly_place (self, leg->id);
}

void
tl_stack_lay_leads (TlStackBuild *build)
{
  double middle = build->depth_mm / 2.0;

  for (guint i = 0; i < build->spots->len; i++)
    {
      const TlSpot *spot = &g_array_index (build->spots, TlSpot, i);

      if (spot->kind == TL_SPOT_EYE)
        lay_eye_lead (build, spot);
      else if (spot->kind == TL_SPOT_TANG)
        {
          lengthen_tang (build, spot);
          lay_lug_barrel (build, spot, (spot->start_mm + spot->end_mm) / 2.0 <= middle);
        }
    }
}
