/* sleeve.c: the pressed sleeve laid out along its axis.
 *
 * The barrel is drawn as it is before pressing; where it is pressed, its conductors lie in the
 * middle of it. One that is not pressed lets them lie on its wall.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>
#include <string.h>

/* Which barrel: the first with a conductor in it, else the first; the others are told. */
static const TlLayer *
find_sleeve (TlAssembly *self)
{
  const TlLayer *found = NULL;

  for (guint i = 0; i < self->joint->legs->len && found == NULL; i++)
    {
      const TlLeg *leg = self->joint->legs->pdata[i];

      if (leg->seat.kind == TL_SEAT_PORT)
        found = tl_joint_layer (self->joint, leg->seat.of);
      if (found != NULL && found->kind != TL_PART_SLEEVE)
        found = NULL;
    }
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind != TL_PART_SLEEVE)
        continue;
      if (found == NULL)
        found = layer;
      else if (layer != found)
        tl_assembly_problem (self, layer->id, FALSE,
                             TL_N_ ("{part}: the joint has a sleeve already."), TL_N_FIELDS, NAN,
                             NAN);
    }
  return found;
}

/* --- conductors in the mouths --- */

static gboolean
has_both_mouths (const TlSleeveBuild *build)
{
  gboolean       seen[3] = { FALSE, FALSE, FALSE };
  const TlJoint *joint = build->assembly->joint;

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlSeat *seat = &((const TlLeg *) joint->legs->pdata[i])->seat;

      if (seat->kind == TL_SEAT_PORT && g_strcmp0 (seat->of, build->sleeve->id) == 0)
        seen[CLAMP (seat->place, 1, 2)] = TRUE;
    }
  return seen[1] && seen[2];
}

/* Length inside the barrel: stated, else as far as the bare metal, the half barrel or the stop
 * lets it. */
static gboolean
find_insertion (TlSleeveBuild *build, TlEntry *entry)
{
  TlAssembly   *self = build->assembly;
  const TlFact *stated = tl_leg_fact (entry->leg, self->stock, TL_FIELD_INSERTION);
  gboolean      is_parallel = strcmp (tl_layer_word (build->sleeve, self->stock, TL_FIELD_FORM,
                                                has_both_mouths (build) ? "butt" : "parallel"),
                                      "parallel")
                         == 0;
  gboolean has_stop =
      strcmp (tl_layer_word (build->sleeve, self->stock, TL_FIELD_STOP, "no"), "yes") == 0;
  double room = is_parallel && !has_stop ? build->length_mm : build->length_mm / 2.0;

  if (!tl_assembly_need_leg (self, entry->leg, TL_FIELD_STRIP, &entry->strip_mm))
    {
      if (stated == NULL)
        return FALSE;
      entry->strip_mm = stated->value.best;
    }
  entry->inserted_mm = stated != NULL ? stated->value.best : MIN (entry->strip_mm, room);
  if (has_stop && entry->inserted_mm > build->length_mm / 2.0 + TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (
          self, entry->leg->id, FALSE,
          TL_N_ ("{part} cannot go in {a}: the stop of the sleeve ends it at {b}."),
          TL_FIELD_INSERTION, entry->inserted_mm, build->length_mm / 2.0);
      entry->inserted_mm = build->length_mm / 2.0;
    }
  if (entry->inserted_mm > entry->strip_mm + TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (self, entry->leg->id, FALSE,
                           TL_N_ ("{part} is to go in {a} but is stripped for {b} only."),
                           TL_FIELD_INSERTION, entry->inserted_mm, entry->strip_mm);
      entry->inserted_mm = entry->strip_mm;
    }
  return TRUE;
}

static void
take_entry (TlSleeveBuild *build, const TlLeg *leg)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *ferrule = tl_assembly_layer_on (self, leg->id, TL_PART_FERRULE);
  TlEntry        entry = { .leg = leg, .body = TL_NO_BODY, .port = CLAMP (leg->seat.place, 1, 2) };

  entry.wire_mm = entry.metal_mm = ferrule != NULL ? tl_leg_metal_diameter_mm (self, leg)
                                                   : tl_leg_in_bore_mm (self, leg, build->bore_mm);
  if (ferrule != NULL)
    entry.metal_mm =
        MAX (entry.wire_mm, tl_layer_number (ferrule, self->stock, TL_FIELD_OUTER, 0.0));
  entry.insulated_mm = tl_leg_insulation_diameter_mm (self, leg);
  if (entry.wire_mm <= 0.0 || tl_leg_fact (leg, self->stock, TL_FIELD_METAL) == NULL
      || !find_insertion (build, &entry) || build->n_entries == TL_MAX_LEGS)
    return;
  if (entry.metal_mm > build->bore_mm + TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (self, leg->id, FALSE,
                           TL_N_ ("{part} does not go into the sleeve: metal {a}, bore {b}."),
                           TL_FIELD_METAL_DIAMETER, entry.metal_mm, build->bore_mm);
      return;
    }
  if (entry.port == 1)
    {
      entry.start_mm = entry.inserted_mm - entry.strip_mm;
      entry.end_mm = entry.inserted_mm;
    }
  else
    {
      entry.start_mm = build->length_mm - entry.inserted_mm;
      entry.end_mm = entry.start_mm + entry.strip_mm;
    }
  build->entries[build->n_entries++] = entry;
}

static void
take_entries (TlSleeveBuild *build)
{
  const TlJoint *joint = build->assembly->joint;

  /* Mouth 1 first: numbers run from left to right. */
  for (guint port = 1; port <= 2; port++)
    for (guint i = 0; i < joint->legs->len; i++)
      {
        const TlLeg *leg = joint->legs->pdata[i];

        if (leg->seat.kind == TL_SEAT_PORT && g_strcmp0 (leg->seat.of, build->sleeve->id) == 0
            && CLAMP (leg->seat.place, 1, 2) == port)
          take_entry (build, leg);
      }
}

/* --- side by side in the bore --- */

/* Packs the entries whose port is in @ports (bit 0: mouth 1, bit 1: mouth 2). */
static void
pack_ports (TlSleeveBuild *build, guint ports)
{
  TlCircle circles[TL_MAX_LEGS];
  guint    which[TL_MAX_LEGS], count = 0;
  double   needed;

  for (guint i = 0; i < build->n_entries; i++)
    if ((ports & build->entries[i].port) != 0)
      {
        circles[count] = (TlCircle){ 0.0, 0.0, build->entries[i].metal_mm };
        which[count++] = i;
      }
  needed = tl_pack_circles (circles, count);
  if (needed > build->bore_mm + TL_SAME_PLACE_MM)
    tl_assembly_problem (build->assembly, build->sleeve->id, FALSE,
                         TL_N_ ("{part} does not take its conductors side by side: they need {a}, "
                                "its bore is {b}."),
                         TL_FIELD_BORE, needed, build->bore_mm);
  else if (!build->is_pressed)
    tl_drop_circles (circles, count, build->bore_mm);
  for (guint i = 0; i < count; i++)
    {
      build->entries[which[i]].y_mm = circles[i].y_mm;
      build->entries[which[i]].z_mm = circles[i].z_mm;
    }
}

static void
pack_entries (TlSleeveBuild *build)
{
  TlSleeveFigures *figures = &build->assembly->sleeve;
  double           deepest[2] = { 0.0, 0.0 };

  for (guint i = 0; i < build->n_entries; i++)
    {
      const TlEntry *entry = &build->entries[i];
      guint          mouth = entry->port - 1;

      deepest[mouth] = MAX (deepest[mouth], entry->inserted_mm);
      figures->inserted_mm[mouth] = figures->legs[mouth] == 0
                                        ? entry->inserted_mm
                                        : MIN (figures->inserted_mm[mouth], entry->inserted_mm);
      figures->legs[mouth]++;
    }
  figures->overlap_mm = MAX (0.0, deepest[0] + deepest[1] - build->length_mm);
  figures->overlaps =
      figures->legs[0] > 0 && figures->legs[1] > 0 && figures->overlap_mm > TL_SAME_PLACE_MM;
  if (!figures->overlaps)
    figures->overlap_mm = 0.0;
  if (figures->overlaps)
    pack_ports (build, 1 | 2);
  else
    {
      pack_ports (build, 1);
      pack_ports (build, 2);
    }
}

/* --- bodies --- */

static TlSolid
tube (double start_mm, double end_mm, double inner_mm, double outer_mm, double y_mm, double z_mm)
{
  return (TlSolid){ .kind = TL_SOLID_TUBE,
                    .start_mm = MIN (start_mm, end_mm),
                    .end_mm = MAX (start_mm, end_mm),
                    .inner_mm = inner_mm,
                    .outer_mm = outer_mm,
                    .u_mm = y_mm,
                    .v_mm = z_mm };
}

/* Insulated leads of one mouth spread until they lie beside each other; one alone runs straight
 * on. */
static void
lay_lead (TlSleeveBuild *build, const TlEntry *entry, double y_mm, double z_mm)
{
  TlAssembly *self = build->assembly;
  double      from = entry->port == 1 ? entry->start_mm : entry->end_mm;
  double      to = entry->port == 1 ? from - TL_LEAD_DRAWN_MM : from + TL_LEAD_DRAWN_MM;
  gboolean    is_straight = hypot (y_mm - entry->y_mm, z_mm - entry->z_mm) < TL_SAME_PLACE_MM;
  TlSolid     metal = tube (from, to, 0.0, entry->wire_mm, y_mm, z_mm);
  TlSolid     cover = tube (from, to, entry->wire_mm, entry->insulated_mm, y_mm, z_mm);

  if (!is_straight)
    {
      metal.kind = cover.kind = TL_SOLID_ROD;
      metal.x0_mm = cover.x0_mm = from;
      metal.y0_mm = cover.y0_mm = entry->y_mm;
      metal.z0_mm = cover.z0_mm = entry->z_mm;
      metal.x1_mm = cover.x1_mm = to;
      metal.y1_mm = cover.y1_mm = y_mm;
      metal.z1_mm = cover.z1_mm = z_mm;
    }
  tl_assembly_add_solid (self, entry->body, &metal);
  if (entry->insulated_mm > entry->wire_mm)
    tl_assembly_add_solid (
        self, tl_assembly_leg_body (self, entry->leg, "insulation", TL_BODY_INSULATION), &cover);
}

static void
lay_entry (TlSleeveBuild *build, TlEntry *entry)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *ferrule = tl_assembly_layer_on (self, entry->leg->id, TL_PART_FERRULE);
  TlSolid        core =
      tube (entry->start_mm, entry->end_mm, 0.0, entry->wire_mm, entry->y_mm, entry->z_mm);

  entry->body = tl_assembly_leg_body (self, entry->leg, "core", TL_BODY_CORE);
  tl_assembly_add_solid (self, entry->body, &core);
  if (ferrule != NULL && entry->metal_mm > entry->wire_mm)
    {
      double  length = tl_layer_number (ferrule, self->stock, TL_FIELD_LENGTH, entry->strip_mm);
      double  from = entry->port == 1 ? entry->end_mm - length : entry->start_mm;
      TlSolid solid =
          tube (from, from + length, entry->wire_mm, entry->metal_mm, entry->y_mm, entry->z_mm);

      tl_assembly_add_solid (
          self, tl_assembly_layer_body (self, ferrule, "ferrule", TL_BODY_FERRULE), &solid);
    }
}

static void
lay_leads (TlSleeveBuild *build)
{
  for (guint port = 1; port <= 2; port++)
    {
      TlCircle circles[TL_MAX_LEGS];
      guint    which[TL_MAX_LEGS], count = 0;

      for (guint i = 0; i < build->n_entries; i++)
        if (build->entries[i].port == port)
          {
            circles[count].diameter_mm =
                MAX (build->entries[i].insulated_mm, build->entries[i].wire_mm);
            which[count++] = i;
          }
      if (count == 1)
        {
          circles[0].y_mm = build->entries[which[0]].y_mm;
          circles[0].z_mm = build->entries[which[0]].z_mm;
        }
      else
        tl_pack_circles (circles, count);
      for (guint i = 0; i < count; i++)
        lay_lead (build, &build->entries[which[i]], circles[i].y_mm, circles[i].z_mm);
    }
}

static void
lay_compound (TlSleeveBuild *build)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *compound = tl_assembly_layer_on (self, build->sleeve->id, TL_PART_COMPOUND);
  TlSolid        solid = tube (0.0, build->length_mm, 0.0, build->bore_mm, 0.0, 0.0);

  for (guint i = 0; i < build->n_entries && compound == NULL; i++)
    compound = tl_assembly_layer_on (self, build->entries[i].leg->id, TL_PART_COMPOUND);
  if (compound != NULL)
    tl_assembly_add_solid (
        self, tl_assembly_layer_body (self, compound, "compound", TL_BODY_COMPOUND), &solid);
}

static gboolean
lay_barrel (TlSleeveBuild *build)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *sleeve = build->sleeve;
  gboolean is_known = tl_assembly_need_layer (self, sleeve, TL_FIELD_LENGTH, &build->length_mm);
  TlSolid  solid;

  is_known &= tl_assembly_need_layer (self, sleeve, TL_FIELD_OUTER, &build->outer_mm);
  is_known &= tl_assembly_need_layer (self, sleeve, TL_FIELD_BORE, &build->bore_mm);
  is_known &= tl_assembly_need_layer (self, sleeve, TL_FIELD_MATERIAL, NULL);
  if (!is_known)
    return FALSE;
  if (build->outer_mm <= build->bore_mm)
    {
      tl_assembly_problem (self, sleeve->id, FALSE,
                           TL_N_ ("{part} has no metal: bore {a}, outside {b}."), TL_FIELD_OUTER,
                           build->bore_mm, build->outer_mm);
      return FALSE;
    }
  build->is_pressed = tl_layer_fact (sleeve, self->stock, TL_FIELD_DIE) != NULL;
  build->barrel = tl_assembly_layer_body (self, sleeve, "barrel", TL_BODY_BARREL);
  solid = tube (0.0, build->length_mm, build->bore_mm, build->outer_mm, 0.0, 0.0);
  tl_assembly_add_solid (self, build->barrel, &solid);
  return TRUE;
}

/* --- figures --- */

static void
sleeve_figures (TlSleeveBuild *build)
{
  TlAssembly      *self = build->assembly;
  TlSleeveFigures *figures = &self->sleeve;
  const TlLayer   *sleeve = build->sleeve;
  const TlFact    *die = tl_layer_fact (sleeve, self->stock, TL_FIELD_DIE);
  const char      *used = tl_facts_word (sleeve->facts, TL_FIELD_PRESS_PROFILE, NULL);
  const TlPart    *part = sleeve->part != NULL ? tl_stock_part (self->stock, sleeve->part) : NULL;
  const TlBody    *barrel = tl_assembly_body (self, build->barrel);
  const char      *metal = barrel->material;

  figures->length_mm = build->length_mm;
  figures->outer_mm = build->outer_mm;
  figures->bore_mm = build->bore_mm;
  figures->has_die = die != NULL;
  figures->die_mm = die != NULL ? die->value.best : 0.0;
  figures->wanted_die_mm = tl_layer_number (sleeve, self->stock, TL_FIELD_WANTED_DIE, 0.0);
  figures->wanted_profile =
      part != NULL ? tl_facts_word (part->facts, TL_FIELD_PRESS_PROFILE, NULL) : NULL;
  figures->profile = used != NULL ? used : figures->wanted_profile;
  for (guint i = 0; i < build->n_entries; i++)
    {
      const TlEntry *entry = &build->entries[i];
      double         section = tl_leg_number (entry->leg, self->stock, TL_FIELD_SECTION, 0.0);
      const char    *other = tl_leg_word (entry->leg, self->stock, TL_FIELD_METAL, NULL);

      /* What lies in the middle of the half that is pressed from this mouth counts as metal in it. */
      if (entry->start_mm <= build->length_mm / 4.0 && entry->end_mm > build->length_mm / 4.0)
        figures->metal_mm2[0] += section;
      if (entry->start_mm < build->length_mm * 3.0 / 4.0
          && entry->end_mm >= build->length_mm * 3.0 / 4.0)
        figures->metal_mm2[1] += section;
      figures->unlike_metals |= g_strcmp0 (metal, other) != 0;
    }
}

static void
packed_sizes (TlSleeveBuild *build)
{
  TlAssembly *self = build->assembly;
  double      start = 0.0, end = build->length_mm;

  for (guint i = 0; i < build->n_entries; i++)
    {
      start = MIN (start, build->entries[i].start_mm);
      end = MAX (end, build->entries[i].end_mm);
    }
  self->packed_length_mm = end - start;
  self->packed_width_mm = self->packed_height_mm = build->outer_mm;
}

static void
seal_sleeve (TlSleeveBuild *build)
{
  TlSealTarget target = { .middle_mm = build->outer_mm,
                          .end_mm = build->length_mm,
                          .bare_end_mm = build->length_mm };

  for (guint port = 1; port <= 2; port++)
    {
      TlCircle circles[TL_MAX_LEGS];
      guint    count = 0;

      for (guint i = 0; i < build->n_entries; i++)
        {
          const TlEntry *entry = &build->entries[i];

          if (entry->port != port)
            continue;
          circles[count++].diameter_mm = MAX (entry->insulated_mm, entry->wire_mm);
          if (port == 1)
            target.bare_start_mm = MIN (target.bare_start_mm, entry->start_mm);
          else
            target.bare_end_mm = MAX (target.bare_end_mm, entry->end_mm);
        }
      target.conductors[port - 1] = count;
      target.mouth_mm[port - 1] = tl_pack_circles (circles, count);
    }
  tl_seal_build (build->assembly, &target);
}

static void
place_in_order (TlSleeveBuild *build)
{
  TlAssembly *self = build->assembly;

  for (guint i = 0; i < build->n_entries; i++)
    if (build->entries[i].port == 1)
      tl_assembly_place (self, build->entries[i].leg->id);
  tl_assembly_place (self, build->sleeve->id);
  for (guint i = 0; i < build->n_entries; i++)
    tl_assembly_place (self, build->entries[i].leg->id);
}

void
tl_sleeve_build (TlAssembly *self)
{
  TlSleeveBuild build = { .assembly = self, .sleeve = find_sleeve (self), .barrel = TL_NO_BODY };

  self->sleeve.sleeve = build.sleeve->id;
  if (!lay_barrel (&build))
    return;
  take_entries (&build);
  pack_entries (&build);
  for (guint i = 0; i < build.n_entries; i++)
    lay_entry (&build, &build.entries[i]);
  lay_leads (&build);
  lay_compound (&build);
  place_in_order (&build);
  sleeve_figures (&build);
  packed_sizes (&build);
  seal_sleeve (&build);
  tl_sleeve_contacts (&build);
}
