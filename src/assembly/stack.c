/* stack.c: the bolted stack laid out from the head downwards.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>
#include <string.h>

/* --- hole and bolt --- */

/* FALSE, with a problem, if a hole does not pass the bolt. */
static gboolean
passes_bolt (TlStackBuild *build, const char *owner, double bore_mm)
{
  if (build->thread_mm <= 0.0 || bore_mm >= build->thread_mm - TL_SAME_PLACE_MM)
    return TRUE;
  tl_assembly_problem (build->assembly, owner, FALSE,
                       TL_N_ ("{part} does not go over the bolt: bore {a}, bolt {b}."),
                       TL_FIELD_BORE, bore_mm, build->thread_mm);
  return FALSE;
}

/* How far off the axis a ring lies; more than its clearance cannot be and is taken back to that. */
static double
offset_within (TlStackBuild *build, const char *owner, double offset_mm, double bore_mm)
{
  double clearance = build->thread_mm > 0.0 ? MAX (0.0, (bore_mm - build->thread_mm) / 2.0) : 0.0;

  if (build->thread_mm <= 0.0 || fabs (offset_mm) <= clearance + TL_SAME_PLACE_MM)
    return offset_mm;
  tl_assembly_problem (build->assembly, owner, FALSE,
                       TL_N_ ("{part} cannot lie {a} off the axis: its bore leaves {b}."),
                       TL_FIELD_OFFSET, fabs (offset_mm), clearance);
  return copysign (clearance, offset_mm);
}

/* --- one thing after the other --- */

static void
lay_bolt (TlStackBuild *build, const TlLayer *bolt)
{
  TlAssembly *self = build->assembly;
  double      thread, height, flats, length, bearing;
  gboolean    is_known = tl_assembly_need_layer (self, bolt, TL_FIELD_THREAD, &thread);
  guint       head;
  TlSpot      spot = { .kind = TL_SPOT_HEAD, .owner = bolt->id };

  is_known &= tl_assembly_need_layer (self, bolt, TL_FIELD_HEIGHT, &height);
  is_known &= tl_assembly_need_layer (self, bolt, TL_FIELD_ACROSS_FLATS, &flats);
  is_known &= tl_assembly_need_layer (self, bolt, TL_FIELD_LENGTH, &length);
  is_known &= tl_assembly_need_layer (self, bolt, TL_FIELD_MATERIAL, NULL);
  is_known &= tl_assembly_need_layer (self, bolt, TL_FIELD_BEARING_DIAMETER, &bearing);
  build->bolt = bolt;
  if (!is_known)
    return;
  build->thread_mm = thread;
  head = tl_assembly_layer_body (self, bolt, "head", TL_BODY_HEAD);
  tl_assembly_add_solid (
      self, head, &(TlSolid){ .kind = TL_SOLID_HEX, .start_mm = -height, .outer_mm = flats });
  build->shank = tl_assembly_layer_body (self, bolt, "shank", TL_BODY_SHANK);
  tl_assembly_add_solid (self, build->shank,
                         &(TlSolid){ .kind = TL_SOLID_TUBE, .end_mm = length, .outer_mm = thread });
  tl_assembly_place (self, bolt->id);
  spot.body = head;
  spot.start_mm = -height;
  spot.inner_mm = thread;
  spot.outer_mm = flats;
  spot.bearing_mm = bearing;
  build->reach_mm = flats / sqrt (3.0);
  g_array_append_val (build->spots, spot);
}

static void
lay_ring (TlStackBuild *build, const TlLayer *layer)
{
  TlAssembly *self = build->assembly;
  double      outer = 0.0, bore = 0.0, thickness = 0.0;
  double      width = tl_layer_number (layer, self->stock, TL_FIELD_WIDTH, 0.0);
  gboolean    is_known = tl_assembly_need_layer (self, layer, TL_FIELD_BORE, &bore);
  TlSpot      spot = { .kind = TL_SPOT_RING, .owner = layer->id };

  is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_THICKNESS, &thickness);
  is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_MATERIAL, NULL);
  if (layer->kind == TL_PART_SPRING_RING && width > 0.0
      && tl_layer_fact (layer, self->stock, TL_FIELD_OUTER) == NULL)
    outer = bore + 2.0 * width;
  else
    is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_OUTER, &outer);
  if (!is_known || !passes_bolt (build, layer->id, bore))
    return;
  if (outer <= bore)
    {
      tl_assembly_problem (self, layer->id, FALSE,
                           TL_N_ ("{part} has no metal: bore {a}, outside {b}."), TL_FIELD_OUTER,
                           bore, outer);
      return;
    }
  spot.offset_mm = offset_within (build, layer->id,
                                  tl_layer_number (layer, self->stock, TL_FIELD_OFFSET, 0.0), bore);
  spot.start_mm = build->depth_mm;
  spot.end_mm = build->depth_mm + thickness;
  spot.inner_mm = bore;
  spot.outer_mm = spot.bearing_mm = outer;
  spot.body = tl_assembly_layer_body (self, layer, "washer", TL_BODY_WASHER);
  tl_assembly_add_solid (self, spot.body,
                         &(TlSolid){ .kind = TL_SOLID_TUBE,
                                     .start_mm = spot.start_mm,
                                     .end_mm = spot.end_mm,
                                     .inner_mm = bore,
                                     .outer_mm = outer,
                                     .u_mm = spot.offset_mm });
  build->depth_mm = spot.end_mm;
  build->reach_mm = MAX (build->reach_mm, outer / 2.0 + fabs (spot.offset_mm));
  tl_assembly_place (self, layer->id);
  g_array_append_val (build->spots, spot);
}

static void
lay_nut (TlStackBuild *build, const TlLayer *nut)
{
  TlAssembly *self = build->assembly;
  double      thread, height, flats, bearing;
  gboolean    is_known = tl_assembly_need_layer (self, nut, TL_FIELD_THREAD, &thread);
  TlSpot      spot = { .kind = TL_SPOT_NUT, .owner = nut->id };

  is_known &= tl_assembly_need_layer (self, nut, TL_FIELD_HEIGHT, &height);
  is_known &= tl_assembly_need_layer (self, nut, TL_FIELD_ACROSS_FLATS, &flats);
  is_known &= tl_assembly_need_layer (self, nut, TL_FIELD_MATERIAL, NULL);
  is_known &= tl_assembly_need_layer (self, nut, TL_FIELD_BEARING_DIAMETER, &bearing);
  if (!is_known)
    return;
  if (build->thread_mm > 0.0 && fabs (thread - build->thread_mm) > TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (self, nut->id, FALSE,
                           TL_N_ ("{part} does not fit the bolt: thread {a}, bolt {b}."),
                           TL_FIELD_THREAD, thread, build->thread_mm);
      return;
    }
  spot.start_mm = build->depth_mm;
  spot.end_mm = build->depth_mm + height;
  spot.inner_mm = thread;
  spot.outer_mm = flats;
  spot.bearing_mm = bearing;
  spot.body = tl_assembly_layer_body (self, nut, "nut", TL_BODY_NUT);
  tl_assembly_add_solid (self, spot.body,
                         &(TlSolid){ .kind = TL_SOLID_HEX,
                                     .start_mm = spot.start_mm,
                                     .end_mm = spot.end_mm,
                                     .inner_mm = thread,
                                     .outer_mm = flats });
  build->depth_mm = spot.end_mm;
  build->reach_mm = MAX (build->reach_mm, flats / sqrt (3.0));
  if (build->nut == NULL)
    build->nut = nut;
  tl_assembly_place (self, nut->id);
  g_array_append_val (build->spots, spot);
}

/* Compound and the like: no thickness of its own, the faces press it out. */
static void
lay_film (TlStackBuild *build, const TlLayer *layer)
{
  TlAssembly *self = build->assembly;
  TlSpot      spot = {
         .kind = TL_SPOT_FILM, .owner = layer->id, .start_mm = build->depth_mm, .end_mm = build->depth_mm
  };

  spot.body = tl_assembly_layer_body (self, layer, "compound", TL_BODY_COMPOUND);
  tl_assembly_place (self, layer->id);
  g_array_append_val (build->spots, spot);
}

/* Takes in the end of a conductor that was laid last; FALSE if the bolt does not pass it. */
static gboolean
append_end (TlStackBuild *build, const TlSpot *spot)
{
  if (!passes_bolt (build, spot->owner, spot->inner_mm))
    {
      g_ptr_array_remove_index (build->assembly->bodies, spot->body);
      return FALSE;
    }
  build->depth_mm = spot->end_mm;
  build->reach_mm = MAX (build->reach_mm, spot->outer_mm / 2.0);
  tl_assembly_place (build->assembly, spot->owner);
  g_array_append_vals (build->spots, spot, 1);
  return TRUE;
}

static void
lay_leg (TlStackBuild *build, const TlLeg *leg)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *lug = tl_leg_lug (self, leg);
  const char    *end = tl_leg_word (leg, self->stock, TL_FIELD_END, NULL);
  TlSpot         spot = { .leg = leg->id, .start_mm = build->depth_mm };
  gboolean       is_laid = FALSE;

  if (lug != NULL)
    is_laid = tl_stack_lay_tang (build, lug, &spot);
  else if (end == NULL)
    tl_assembly_need_leg (self, leg, TL_FIELD_END, NULL);
  else if (strcmp (end, "straight") == 0)
    tl_assembly_problem (self, leg->id, FALSE,
                         TL_N_ ("{part} has a straight end: bend an eye or press a lug on, then "
                                "it goes under the bolt."),
                         TL_FIELD_END, NAN, NAN);
  else
    is_laid = tl_stack_lay_eye (build, leg, &spot);
  if (is_laid && append_end (build, &spot))
    tl_assembly_place (self, leg->id);
}

static void
lay_layer (TlStackBuild *build, const TlLayer *layer)
{
  switch (layer->kind)
    {
    case TL_PART_BOLT:
    case TL_PART_NUT:
      break; /* laid first and last, wherever they stand */
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
      lay_ring (build, layer);
      break;
    case TL_PART_COMPOUND:
    case TL_PART_SOLDER:
      lay_film (build, layer);
      break;
    case TL_PART_LUG:
      {
        TlSpot spot = { .start_mm = build->depth_mm };

        if (tl_stack_lay_tang (build, layer, &spot))
          append_end (build, &spot);
        break;
      }
    case TL_PART_CONDUCTOR:
    case TL_PART_SLEEVE:
    case TL_PART_FERRULE:
    case TL_PART_SEAL:
    case TL_PART_CAP:
    case TL_PART_FILLER:
    case TL_PART_TERMINAL:
    case TL_PART_BRANCH:
    case TL_PART_BOX:
    case TL_N_PART_KINDS:
    default:
      tl_assembly_problem (build->assembly, layer->id, FALSE,
                           TL_N_ ("{part} does not belong under a bolt."), TL_N_FIELDS, NAN, NAN);
    }
}

/* --- the bolt, the nut and their places --- */

/* The first bolt, wherever it sits; each further one is told. */
static const TlLayer *
find_bolt (TlAssembly *self)
{
  const TlLayer *bolt = NULL;

  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind != TL_PART_BOLT || layer->seat.kind == TL_SEAT_NONE)
        continue;
      if (bolt == NULL)
        bolt = layer;
      else
        tl_assembly_problem (self, layer->id, FALSE,
                             TL_N_ ("{part}: the stack has a bolt already."), TL_N_FIELDS, NAN,
                             NAN);
    }
  return bolt;
}

static void
check_order (TlAssembly *self)
{
  gboolean has_nut = FALSE;

  for (guint i = 0; i < self->standing->len; i++)
    {
      const TlStanding *standing = &g_array_index (self->standing, TlStanding, i);
      const TlLayer    *layer = standing->layer;
      gboolean          is_nut = layer != NULL && layer->kind == TL_PART_NUT;

      if (layer != NULL && layer->kind == TL_PART_BOLT && i > 0)
        tl_assembly_problem (self, layer->id, FALSE,
                             TL_N_ ("{part} stands inside the stack: its head comes first."),
                             TL_N_FIELDS, NAN, NAN);
      if (has_nut && !is_nut)
        tl_assembly_problem (self, standing->id, FALSE,
                             TL_N_ ("{part} stands outside the nut: nothing holds it."),
                             TL_N_FIELDS, NAN, NAN);
      has_nut |= is_nut;
    }
}

static void
lay_all (TlStackBuild *build)
{
  const GArray *all = build->assembly->standing;

  for (guint i = 0; i < all->len; i++)
    {
      const TlStanding *standing = &g_array_index (all, TlStanding, i);

      if (standing->leg != NULL)
        lay_leg (build, standing->leg);
      else
        lay_layer (build, standing->layer);
    }
  for (guint i = 0; i < all->len; i++)
    {
      const TlLayer *layer = g_array_index (all, TlStanding, i).layer;

      if (layer != NULL && layer->kind == TL_PART_NUT)
        lay_nut (build, layer);
    }
}

static void
report_incomplete (TlStackBuild *build)
{
  TlAssembly *self = build->assembly;

  if (build->bolt == NULL)
    tl_assembly_problem (self, "", TRUE, TL_N_ ("Put in a bolt."), TL_N_FIELDS, NAN, NAN);
  if (build->nut == NULL)
    tl_assembly_problem (self, "", TRUE, TL_N_ ("Put on a nut."), TL_N_FIELDS, NAN, NAN);
  if (build->nut != NULL && self->stack.has_bolt && self->stack.engaged_mm <= 0.0)
    tl_assembly_problem (self, build->bolt->id, FALSE,
                         TL_N_ ("{part} ends before the nut: {a} long, the stack is {b} high."),
                         TL_FIELD_LENGTH, self->stack.bolt_length_mm, self->stack.grip_mm);
}

/* The seal of a stack runs along the leads; it goes over the widest thing of the stack. */
static void
seal_stack (TlStackBuild *build)
{
  TlAssembly  *self = build->assembly;
  TlSealTarget target = { .middle_mm = MAX (self->packed_width_mm, self->packed_height_mm),
                          .start_mm = -self->packed_length_mm / 2.0,
                          .end_mm = self->packed_length_mm / 2.0 };

  target.bare_start_mm = target.start_mm;
  target.bare_end_mm = target.end_mm;
  for (guint i = 0; i < build->spots->len; i++)
    {
      const TlSpot *spot = &g_array_index (build->spots, TlSpot, i);
      const TlLeg  *leg = spot->leg != NULL ? tl_joint_leg (self->joint, spot->leg) : NULL;
      const TlBody *lead =
          leg != NULL ? tl_assembly_find_body (self, leg->id, TL_BODY_INSULATION, NULL) : NULL;
      const TlSolid *solid = lead != NULL ? &g_array_index (lead->solids, TlSolid, 0) : NULL;
      guint          mouth;

      if (leg == NULL)
        continue;
      mouth = solid != NULL && solid->x1_mm < 0.0 ? 0 : 1;
      target.conductors[mouth]++;
      target.mouth_mm[mouth] +=
          solid != NULL ? solid->outer_mm : tl_leg_metal_diameter_mm (self, leg);
      if (solid != NULL && mouth == 0)
        target.bare_start_mm = MIN (target.bare_start_mm, solid->x0_mm);
      if (solid != NULL && mouth == 1)
        target.bare_end_mm = MAX (target.bare_end_mm, solid->x0_mm);
    }
  tl_seal_build (self, &target);
}

void
tl_stack_build (TlAssembly *self)
{
  TlStackBuild   build = { .assembly = self, .shank = TL_NO_BODY };
  const TlLayer *bolt = find_bolt (self);

  build.spots = g_array_sized_new (FALSE, TRUE, sizeof (TlSpot), self->standing->len + 2);
  if (bolt != NULL)
    lay_bolt (&build, bolt);
  check_order (self);
  lay_all (&build);
  tl_stack_lay_leads (&build);
  tl_stack_figures (&build);
  report_incomplete (&build);
  seal_stack (&build);
  tl_stack_contacts (&build);
  g_array_unref (build.spots);
}
