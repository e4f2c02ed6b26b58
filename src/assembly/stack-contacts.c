/* stack-contacts.c: figures of a stack, and what presses on what in it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>

/* --- figures --- */

static void
torque_figures (TlStackBuild *build)
{
  TlAssembly     *self = build->assembly;
  const TlLayer  *bolt = build->bolt;
  const TlFact   *torque = tl_layer_fact (bolt, self->stock, TL_FIELD_TORQUE);
  const TlFact   *factor = tl_layer_fact (bolt, self->stock, TL_FIELD_NUT_FACTOR);
  TlStackFigures *figures = &self->stack;
  TlCall          call;

  if (build->nut != NULL && torque == NULL)
    torque = tl_layer_fact (build->nut, self->stock, TL_FIELD_TORQUE);
  if (build->nut != NULL && factor == NULL)
    factor = tl_layer_fact (build->nut, self->stock, TL_FIELD_NUT_FACTOR);
  if (factor != NULL)
    figures->nut_factor = factor->value;
  else
    figures->nut_factor = (TlRange){ tl_assembly_limit_or (self, "grip.nut-factor-low", 0.0),
                                     tl_assembly_limit_or (self, "grip.nut-factor", 0.0),
                                     tl_assembly_limit_or (self, "grip.nut-factor-high", 0.0) };
  figures->has_torque = torque != NULL;
  if (torque == NULL)
    return;
  figures->torque_Nm = torque->value;
  if (build->nut == NULL || figures->nut_factor.low <= 0.0 || torque->value.low <= 0.0)
    return;
  tl_call_init (&call, "torque-to-preload");
  tl_call_set (&call, "torque", torque->value);
  tl_call_set (&call, "nut_factor", figures->nut_factor);
  tl_call_set_exact (&call, "diameter", build->thread_mm);
  if (tl_call_run (&call, NULL))
    figures->preload_N = tl_call_get (&call, "preload");
}

static void
spring_figures (TlStackBuild *build)
{
  TlAssembly *self = build->assembly;

  for (guint i = 0; i < build->spots->len; i++)
    {
      const TlSpot  *spot = &g_array_index (build->spots, TlSpot, i);
      const TlLayer *layer = tl_joint_layer (self->joint, spot->owner);
      double         flat;

      if (layer == NULL)
        continue;
      self->stack.has_spring_ring |= layer->kind == TL_PART_SPRING_RING;
      if (layer->kind != TL_PART_CONICAL_WASHER)
        continue;
      flat = tl_layer_number (layer, self->stock, TL_FIELD_FLAT_FORCE, 0.0);
      if (flat > 0.0 && (self->stack.conical_flat_N <= 0.0 || flat < self->stack.conical_flat_N))
        self->stack.conical_flat_N = flat;
      self->stack.has_conical = TRUE;
    }
}

static void
bolt_figures (TlStackBuild *build)
{
  TlAssembly     *self = build->assembly;
  TlStackFigures *figures = &self->stack;
  const TlLayer  *bolt = build->bolt;
  const TlFact   *proof = tl_layer_fact (bolt, self->stock, TL_FIELD_PROOF_STRESS);
  const TlSpot   *head = &g_array_index (build->spots, TlSpot, 0);
  double          length = tl_layer_number (bolt, self->stock, TL_FIELD_LENGTH, 0.0);

  figures->has_bolt = TRUE;
  figures->bolt = bolt->id;
  figures->thread_mm = build->thread_mm;
  figures->pitch_mm = tl_layer_number (bolt, self->stock, TL_FIELD_PITCH, 0.0);
  figures->stress_area_mm2 = tl_layer_number (bolt, self->stock, TL_FIELD_STRESS_AREA, 0.0);
  figures->has_proof = proof != NULL;
  figures->proof_MPa = proof != NULL ? proof->value.best : 0.0;
  figures->head_bearing_mm = head->bearing_mm;
  figures->bolt_length_mm = length;
  if (build->nut != NULL)
    {
      figures->engaged_mm = MIN (length - figures->grip_mm, figures->nut_height_mm);
      figures->protrusion_mm = length - figures->grip_mm - figures->nut_height_mm;
    }
  torque_figures (build);
}

/* Extent of the joint itself: across the leads, along them with the lugs, and along the bolt. */
static void
packed_sizes (TlStackBuild *build)
{
  TlAssembly *self = build->assembly;
  double      width = 2.0 * build->reach_mm, length, top = 0.0, bottom = build->depth_mm;

  for (guint i = 0; i < build->spots->len; i++)
    {
      const TlSpot *spot = &g_array_index (build->spots, TlSpot, i);

      top = MIN (top, spot->start_mm);
    }
  length = width;
  for (guint i = 0; i < self->bodies->len; i++)
    {
      const TlBody  *body = self->bodies->pdata[i];
      const TlSolid *solid =
          body->solids->len > 0 ? &g_array_index (body->solids, TlSolid, 0) : NULL;

      if (solid == NULL || body->role != TL_BODY_LUG_BARREL)
        continue;
      length = MAX (length, width / 2.0 + hypot (solid->x1_mm, solid->y1_mm));
      top = MIN (top, solid->z0_mm - solid->outer_mm / 2.0);
      bottom = MAX (bottom, solid->z0_mm + solid->outer_mm / 2.0);
    }
  self->packed_length_mm = length;
  self->packed_width_mm = width;
  self->packed_height_mm = MAX (bottom, self->stack.bolt_length_mm) - top;
}

void
tl_stack_figures (TlStackBuild *build)
{
  TlStackFigures *figures = &build->assembly->stack;

  figures->grip_mm = build->depth_mm;
  for (guint i = 0; i < build->spots->len; i++)
    {
      const TlSpot *spot = &g_array_index (build->spots, TlSpot, i);

      if (spot->kind != TL_SPOT_NUT || figures->has_nut)
        continue;
      figures->has_nut = TRUE;
      figures->nut = spot->owner;
      figures->nut_height_mm = spot->end_mm - spot->start_mm;
      figures->grip_mm = spot->start_mm;
    }
  if (build->shank != TL_NO_BODY)
    bolt_figures (build);
  spring_figures (build);
  packed_sizes (build);
}

/* --- faces --- */

/* Area common to two circles whose centres are @apart_mm from each other. */
static double
lens_area (double r1, double r2, double apart_mm)
{
  double small = MIN (r1, r2), large = MAX (r1, r2), a, b;

  if (small <= 0.0 || apart_mm >= small + large)
    return 0.0;
  if (apart_mm <= large - small)
    return G_PI * small * small;
  a = (apart_mm * apart_mm + small * small - large * large) / (2.0 * apart_mm);
  b = apart_mm - a;
  return small * small * acos (CLAMP (a / small, -1.0, 1.0))
         - a * sqrt (MAX (0.0, small * small - a * a))
         + large * large * acos (CLAMP (b / large, -1.0, 1.0))
         - b * sqrt (MAX (0.0, large * large - b * b));
}

static double
overlap_area (const TlSpot *a, const TlSpot *b)
{
  double apart = fabs (a->offset_mm - b->offset_mm);
  double area = lens_area (a->bearing_mm / 2.0, b->bearing_mm / 2.0, apart)
                - lens_area (a->bearing_mm / 2.0, b->inner_mm / 2.0, apart)
                - lens_area (a->inner_mm / 2.0, b->bearing_mm / 2.0, apart)
                + lens_area (a->inner_mm / 2.0, b->inner_mm / 2.0, apart);

  return MAX (0.0, area);
}

/* One passes into the hole of the other: they touch nothing. */
static gboolean
falls_in (const TlSpot *a, const TlSpot *b)
{
  return a->bearing_mm <= b->inner_mm + TL_SAME_PLACE_MM
         || b->bearing_mm <= a->inner_mm + TL_SAME_PLACE_MM;
}

/* Diameter that is loaded when force spreads from a face of @from_mm through @thickness_mm of a
 * part. */
static double
spread (double from_mm, double thickness_mm, double part_mm, double hole_mm)
{
  TlCall call;

  if (thickness_mm <= 0.0)
    return MIN (from_mm, part_mm);
  tl_call_init (&call, "pressure-cone-area");
  tl_call_set_exact (&call, "head_diameter", from_mm);
  tl_call_set_exact (&call, "depth", thickness_mm);
  tl_call_set_exact (&call, "part_diameter", part_mm);
  tl_call_set_exact (&call, "hole_diameter", hole_mm);
  return tl_call_run_quick (&call) ? tl_call_get (&call, "loaded_diameter").best
                                   : MIN (from_mm, part_mm);
}

/* Loaded diameter on the lower face of each spot, seen from the head (@down) and from the nut
 * (@up). */
static void
load_diameters (const TlStackBuild *build, const guint *solid, guint count, double *down,
                double *up)
{
  const GArray *spots = build->spots;

  for (guint i = 0; i < count; i++)
    {
      const TlSpot *spot = &g_array_index (spots, TlSpot, solid[i]);

      down[i] = i == 0 ? spot->bearing_mm
                       : spread (MIN (down[i - 1], spot->bearing_mm), spot->end_mm - spot->start_mm,
                                 spot->bearing_mm, spot->inner_mm);
    }
  for (guint i = count; i-- > 0;)
    {
      const TlSpot *spot = &g_array_index (spots, TlSpot, solid[i]);

      up[i] = i + 1 == count
                  ? spot->bearing_mm
                  : spread (MIN (up[i + 1], spot->bearing_mm), spot->end_mm - spot->start_mm,
                            spot->bearing_mm, spot->inner_mm);
    }
}

/* --- pressed contacts --- */

static void
line_contact (TlStackBuild *build, TlContact *contact, const TlSpot *eye)
{
  TlAssembly       *self = build->assembly;
  const TlBody     *body = tl_assembly_body (self, eye->body);
  const TlMaterial *metal =
      body->material != NULL ? tl_stock_material (self->stock, body->material) : NULL;
  double length = eye->turn_ratio * G_PI * (eye->inner_mm + eye->wire_mm);
  TlCall call;

  contact->is_line = TRUE;
  contact->rim_mm = MAX (contact->rim_mm, 2.0 * length);
  if (contact->force_N.best <= 0.0 || metal == NULL
      || !tl_facts_has (metal->facts, TL_FIELD_HARDNESS))
    return;
  tl_call_init (&call, "eye-flattening");
  tl_call_set_exact (&call, "force", contact->force_N.best);
  tl_call_set_exact (&call, "hardness", tl_facts_number (metal->facts, TL_FIELD_HARDNESS, 0.0));
  tl_call_set_exact (&call, "wire_diameter", eye->wire_mm);
  tl_call_set_exact (&call, "eye_diameter", eye->inner_mm);
  tl_call_set_exact (&call, "turn", eye->turn_ratio);
  if (!tl_call_run_quick (&call) || !tl_call_has (&call, "width"))
    return;
  contact->area_mm2 = tl_call_get (&call, "length").best * tl_call_get (&call, "width").best;
  contact->loaded_area_mm2 = contact->area_mm2;
}

static void
face_contact (TlContact *contact, const TlSpot *a, const TlSpot *b, double loaded_mm)
{
  double hole = MAX (a->inner_mm, b->inner_mm);
  double outer = MIN (a->bearing_mm, b->bearing_mm);
  double loaded = MIN (loaded_mm, outer);

  contact->area_mm2 = overlap_area (a, b);
  contact->rim_mm = G_PI * (outer + hole);
  if (contact->force_N.best > 0.0 && loaded > hole)
    contact->loaded_area_mm2 =
        MIN (contact->area_mm2, G_PI / 4.0 * (loaded * loaded - hole * hole));
}

static void
report_gap (TlStackBuild *build, const TlSpot *a, const TlSpot *b)
{
  gboolean      upper_falls = a->bearing_mm <= b->inner_mm + TL_SAME_PLACE_MM;
  const TlSpot *inner = upper_falls ? a : b, *outer = upper_falls ? b : a;

  tl_assembly_problem (build->assembly, inner->owner, FALSE,
                       TL_N_ ("{part}, {a}, falls into the hole of its neighbour, {b}: nothing is "
                              "clamped."),
                       TL_N_FIELDS, inner->bearing_mm, outer->inner_mm);
}

static void
neighbour_contact (TlStackBuild *build, const TlSpot *a, const TlSpot *b, double loaded_mm,
                   gboolean has_film)
{
  TlAssembly *self = build->assembly;
  gboolean is_clamped = self->stack.has_bolt && self->stack.has_nut && self->stack.engaged_mm > 0.0
                        && a->kind != TL_SPOT_NUT;
  TlContact *contact;

  if (falls_in (a, b))
    {
      report_gap (build, a, b);
      return;
    }
  contact = tl_assembly_add_contact (self, a->body, b->body,
                                     is_clamped ? TL_CONTACT_PRESSED : TL_CONTACT_TOUCHING);
  if (is_clamped)
    contact->force_N = self->stack.preload_N;
  /* The face of a bimetal washer that is turned to the nut is of the other metal. */
  if (a->kind == TL_SPOT_RING)
    tl_contact_show_other_face (self, contact, a->body);
  if (has_film && contact->closure == TL_CLOSURE_NONE)
    contact->closure = TL_CLOSURE_COMPOUND;
  face_contact (contact, a, b, loaded_mm);
  contact->at_z_mm = a->end_mm;
  contact->at_x_mm = (MAX (a->inner_mm, b->inner_mm) + MIN (a->bearing_mm, b->bearing_mm)) / 4.0;
  if (a->kind == TL_SPOT_EYE)
    contact->at_x_mm = (a->inner_mm + a->wire_mm) / 2.0;
  if (b->kind == TL_SPOT_EYE)
    contact->at_x_mm = (b->inner_mm + b->wire_mm) / 2.0;
  if (a->kind == TL_SPOT_EYE || b->kind == TL_SPOT_EYE)
    {
      contact->area_mm2 = contact->loaded_area_mm2 = 0.0;
      line_contact (build, contact, a->kind == TL_SPOT_EYE ? a : b);
    }
}

static void
neighbours (TlStackBuild *build)
{
  guint              count = 0, n = build->spots->len;
  g_autofree guint  *solid = g_new (guint, n + 1);
  g_autofree double *down = g_new0 (double, n + 1);
  g_autofree double *up = g_new0 (double, n + 1);

  for (guint i = 0; i < n; i++)
    if (g_array_index (build->spots, TlSpot, i).kind != TL_SPOT_FILM)
      solid[count++] = i;
  load_diameters (build, solid, count, down, up);
  for (guint i = 0; i + 1 < count; i++)
    {
      double loaded = build->assembly->stack.has_nut ? MIN (down[i], up[i + 1]) : down[i];

      neighbour_contact (build, &g_array_index (build->spots, TlSpot, solid[i]),
                         &g_array_index (build->spots, TlSpot, solid[i + 1]), loaded,
                         solid[i + 1] > solid[i] + 1);
    }
}

/* --- shank in the holes, thread in the nut --- */

static void
shank_contact (TlStackBuild *build, const TlSpot *spot, double bridge_mm)
{
  TlAssembly *self = build->assembly;
  double      reach = MIN (spot->end_mm, self->stack.bolt_length_mm) - spot->start_mm;
  double      gap = (spot->inner_mm - build->thread_mm) / 2.0 - fabs (spot->offset_mm);
  gboolean    is_thread = spot->kind == TL_SPOT_NUT;
  TlContact  *contact;

  if (reach <= 0.0 || (!is_thread && gap >= bridge_mm))
    return;
  /* The narrowest place of an eye lies half a wire below its upper crest. */
  if (spot->kind == TL_SPOT_EYE && reach < spot->wire_mm / 2.0)
    return;
  contact = tl_assembly_add_contact (self, build->shank, spot->body,
                                     is_thread                 ? TL_CONTACT_PRESSED
                                     : gap <= TL_SAME_PLACE_MM ? TL_CONTACT_TOUCHING
                                                               : TL_CONTACT_MAY_BRIDGE);
  contact->distance_mm = is_thread ? 0.0 : MAX (0.0, gap);
  contact->rim_mm = 2.0 * G_PI * build->thread_mm;
  contact->at_x_mm = spot->offset_mm > 0.0 ? -build->thread_mm / 2.0 : build->thread_mm / 2.0;
  contact->at_z_mm = (spot->start_mm + spot->end_mm) / 2.0;
  if (is_thread)
    {
      contact->force_N = self->stack.preload_N;
      contact->area_mm2 = G_PI * build->thread_mm * reach;
      contact->loaded_area_mm2 = contact->force_N.best > 0.0 ? contact->area_mm2 : 0.0;
    }
}

/* Metal of a conductor and the lug it is pressed into. */
static void
lug_contacts (TlStackBuild *build)
{
  TlAssembly *self = build->assembly;

  for (guint i = 0; i < build->spots->len; i++)
    {
      const TlSpot *spot = &g_array_index (build->spots, TlSpot, i);
      guint         core, barrel = spot->body;
      const TlBody *metal;
      TlContact    *contact;

      if (spot->kind != TL_SPOT_TANG || spot->leg == NULL)
        continue;
      metal = tl_assembly_find_body (self, spot->leg, TL_BODY_CORE, &core);
      if (metal == NULL)
        continue;
      tl_assembly_find_body (self, spot->owner, TL_BODY_LUG_BARREL, &barrel);
      contact = tl_assembly_add_contact (self, core, barrel, TL_CONTACT_PRESSED);
      contact->is_line = metal->strands > 1;
      contact->rim_mm = G_PI * g_array_index (metal->solids, TlSolid, 0).outer_mm;
      contact->at_x_mm = g_array_index (metal->solids, TlSolid, 0).x0_mm;
      contact->at_z_mm = g_array_index (metal->solids, TlSolid, 0).z0_mm;
    }
}

void
tl_stack_contacts (TlStackBuild *build)
{
  double bridge = tl_assembly_bridge_mm (build->assembly);

  neighbours (build);
  if (build->shank != TL_NO_BODY)
    for (guint i = 0; i < build->spots->len; i++)
      {
        const TlSpot *spot = &g_array_index (build->spots, TlSpot, i);

        if (spot->kind != TL_SPOT_HEAD && spot->kind != TL_SPOT_FILM)
          shank_contact (build, spot, bridge);
      }
  lug_contacts (build);
  tl_stack_bridges (build, bridge);
}
