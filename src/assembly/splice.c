/* splice.c: conductors along each other: twisted, soldered or welded.
 *
 * x = 0 is where they begin to lie side by side. Under a cap all come from the left, as in a pigtail; otherwise the first
 * comes from the left and the others from the right. They are laid straight; the turns of a twist are a figure.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/terminal-private.h"

#include <math.h>
#include <string.h>

/* Solder over the metal, and length of a weld bead over the overlap; drawn, not judged. */
#define SOLDER_DRAWN_MM 0.3
#define WELD_DRAWN_RATIO 0.3
/* Part of its round that a conductor turns to the solder about it (the rest lies against its neighbours). */
#define SOLDER_SHARE 0.75

typedef struct
{
  const TlLeg *leg;
  guint        body;
  gboolean     is_left; /* comes from the left */
  double       wire_mm, insulated_mm, strip_mm;
  double       y_mm, z_mm;
  double       start_mm, end_mm; /* bare metal */
} Strand;

typedef struct
{
  TlAssembly    *assembly;
  const TlLayer *bond; /* (nullable) solder or weld */
  guint          bond_body;
  double         bond_start_mm, bond_end_mm;
  Strand         strands[TL_MAX_LEGS];
  guint          n;
  double         overlap_mm, packed_mm;
} Splice;

/* --- who belongs to it --- */

static gboolean
is_named_by (const TlAssembly *self, const char *id)
{
  for (guint i = 0; i < self->joint->legs->len + self->joint->layers->len; i++)
    {
      const TlSeat *seat =
          i < self->joint->legs->len
              ? &((const TlLeg *) self->joint->legs->pdata[i])->seat
              : &((const TlLayer *) self->joint->layers->pdata[i - self->joint->legs->len])->seat;
      gboolean is_in = FALSE;

      if (seat->kind != TL_SEAT_AROUND)
        continue;
      g_autoptr (GPtrArray) members = tl_joint_around (self->joint, seat);

      for (guint k = 0; k < members->len; k++)
        is_in |= strcmp (members->pdata[k], id) == 0;
      if (is_in)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_cap (const TlAssembly *self)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind == TL_PART_CAP && layer->seat.kind == TL_SEAT_AROUND)
        return TRUE;
    }
  return FALSE;
}

static void
find_bond (Splice *splice)
{
  const TlJoint *joint = splice->assembly->joint;

  for (guint i = 0; i < joint->layers->len; i++)
    {
      const TlLayer *layer = joint->layers->pdata[i];

      if (layer->kind != TL_PART_SOLDER || layer->seat.kind != TL_SEAT_AROUND)
        continue;
      if (splice->bond == NULL)
        splice->bond = layer;
      else
        tl_assembly_problem (splice->assembly, layer->id, FALSE,
                             TL_N_ ("{part}: the splice has solder already."), TL_N_FIELDS, NAN,
                             NAN);
    }
}

static void
take_strands (Splice *splice)
{
  TlAssembly *self = splice->assembly;
  gboolean    is_pigtail = has_cap (self);

  for (guint i = 0; i < self->joint->legs->len && splice->n < TL_MAX_LEGS; i++)
    {
      const TlLeg *leg = self->joint->legs->pdata[i];
      Strand       strand = { .leg = leg, .body = TL_NO_BODY };

      if (leg->seat.kind != TL_SEAT_AROUND && !is_named_by (self, leg->id))
        continue;
      strand.wire_mm = tl_leg_metal_diameter_mm (self, leg);
      strand.insulated_mm = tl_leg_insulation_diameter_mm (self, leg);
      if (!tl_assembly_need_leg (self, leg, TL_FIELD_STRIP, &strand.strip_mm)
          || strand.wire_mm <= 0.0 || tl_leg_fact (leg, self->stock, TL_FIELD_METAL) == NULL)
        continue;
      strand.is_left = is_pigtail || splice->n == 0;
      splice->strands[splice->n++] = strand;
    }
}

/* --- layout --- */

static const TlFact *
fact_of_splice (const Splice *splice, TlField field)
{
  const TlFact *fact =
      splice->bond != NULL ? tl_layer_fact (splice->bond, splice->assembly->stock, field) : NULL;

  for (guint i = 0; i < splice->n && fact == NULL; i++)
    fact = tl_leg_fact (splice->strands[i].leg, splice->assembly->stock, field);
  return fact;
}

static void
find_overlap (Splice *splice)
{
  const TlFact *stated = fact_of_splice (splice, TL_FIELD_OVERLAP);
  double        shortest = G_MAXDOUBLE;

  for (guint i = 0; i < splice->n; i++)
    shortest = MIN (shortest, splice->strands[i].strip_mm);
  splice->overlap_mm = stated != NULL ? stated->value.best : shortest;
  for (guint i = 0; i < splice->n; i++)
    if (splice->overlap_mm > splice->strands[i].strip_mm + TL_SAME_PLACE_MM)
      tl_assembly_problem (
          splice->assembly, splice->strands[i].leg->id, FALSE,
          TL_N_ ("{part} is to lie along the others for {a} but is stripped for {b} only."),
          TL_FIELD_OVERLAP, splice->overlap_mm, splice->strands[i].strip_mm);
  splice->overlap_mm = MIN (splice->overlap_mm, shortest);
}

static void
pack_strands (Splice *splice)
{
  TlCircle circles[TL_MAX_LEGS];

  for (guint i = 0; i < splice->n; i++)
    circles[i] = (TlCircle){ 0.0, 0.0, splice->strands[i].wire_mm };
  splice->packed_mm = tl_pack_circles (circles, splice->n);
  for (guint i = 0; i < splice->n; i++)
    {
      Strand *strand = &splice->strands[i];

      strand->y_mm = circles[i].y_mm;
      strand->z_mm = circles[i].z_mm;
      strand->start_mm = strand->is_left ? splice->overlap_mm - strand->strip_mm : 0.0;
      strand->end_mm = strand->is_left ? splice->overlap_mm : strand->strip_mm;
    }
}

/* --- bodies --- */

static TlSolid
tube (double from_mm, double to_mm, double inner_mm, double outer_mm, double y_mm, double z_mm)
{
  return (TlSolid){ .kind = TL_SOLID_TUBE,
                    .start_mm = from_mm,
                    .end_mm = to_mm,
                    .inner_mm = inner_mm,
                    .outer_mm = outer_mm,
                    .u_mm = y_mm,
                    .v_mm = z_mm };
}

/* From the end of the bare metal outwards; leads of one side spread until their insulations lie beside each other. */
static void
lay_lead (Splice *splice, const Strand *strand, double y_mm, double z_mm)
{
  TlAssembly *self = splice->assembly;
  double      from = strand->is_left ? strand->start_mm : strand->end_mm;
  double      to = from + (strand->is_left ? -TL_LEAD_DRAWN_MM : TL_LEAD_DRAWN_MM);
  TlSolid     metal = { .kind = TL_SOLID_ROD,
                        .outer_mm = strand->wire_mm,
                        .x0_mm = from,
                        .y0_mm = strand->y_mm,
                        .z0_mm = strand->z_mm,
                        .x1_mm = to,
                        .y1_mm = y_mm,
                        .z1_mm = z_mm };
  TlSolid     cover;

  if (hypot (y_mm - strand->y_mm, z_mm - strand->z_mm) < TL_SAME_PLACE_MM)
    metal = tube (MIN (from, to), MAX (from, to), 0.0, strand->wire_mm, y_mm, z_mm);
  cover = metal;
  cover.inner_mm = strand->wire_mm;
  cover.outer_mm = strand->insulated_mm;
  tl_assembly_add_solid (self, strand->body, &metal);
  if (strand->insulated_mm > strand->wire_mm)
    tl_assembly_add_solid (
        self, tl_assembly_leg_body (self, strand->leg, "insulation", TL_BODY_INSULATION), &cover);
}

/* Returns the diameter that holds the leads of one side. */
static double
lay_leads (Splice *splice, gboolean is_left, guint *count)
{
  TlCircle spread[TL_MAX_LEGS], packed[TL_MAX_LEGS];
  guint    which[TL_MAX_LEGS];

  *count = 0;
  for (guint i = 0; i < splice->n; i++)
    {
      const Strand *strand = &splice->strands[i];

      if (strand->is_left != is_left)
        continue;
      spread[*count] = packed[*count] =
          (TlCircle){ strand->y_mm, strand->z_mm, MAX (strand->insulated_mm, strand->wire_mm) };
      which[(*count)++] = i;
    }
  tl_spread_circles (spread, *count);
  for (guint i = 0; i < *count; i++)
    lay_lead (splice, &splice->strands[which[i]], spread[i].y_mm, spread[i].z_mm);
  return tl_pack_circles (packed, *count);
}

static gboolean
is_welded (const Splice *splice)
{
  return g_strcmp0 (splice->assembly->splice.form, "welded") == 0;
}

static void
lay_bond (Splice *splice)
{
  TlAssembly *self = splice->assembly;
  double      length = WELD_DRAWN_RATIO * splice->overlap_mm;
  TlSolid     solid;

  if (splice->bond == NULL || !tl_assembly_need_layer (self, splice->bond, TL_FIELD_MATERIAL, NULL))
    return;
  splice->bond_end_mm = splice->overlap_mm;
  if (is_welded (splice))
    {
      /* A bead at the tips of a pigtail, in the middle of a lap. */
      splice->bond_start_mm =
          has_cap (self) ? splice->overlap_mm - length : (splice->overlap_mm - length) / 2.0;
      splice->bond_end_mm = splice->bond_start_mm + length;
    }
  splice->bond_body =
      tl_assembly_layer_body (self, splice->bond, is_welded (splice) ? "weld" : "solder",
                              is_welded (splice) ? TL_BODY_WELD : TL_BODY_SOLDER);
  solid = tube (splice->bond_start_mm, splice->bond_end_mm, 0.0,
                splice->packed_mm + 2.0 * SOLDER_DRAWN_MM, 0.0, 0.0);
  tl_assembly_add_solid (self, splice->bond_body, &solid);
}

static void
lay_strands (Splice *splice)
{
  for (guint i = 0; i < splice->n; i++)
    {
      Strand *strand = &splice->strands[i];
      TlSolid core =
          tube (strand->start_mm, strand->end_mm, 0.0, strand->wire_mm, strand->y_mm, strand->z_mm);

      strand->body = tl_assembly_leg_body (splice->assembly, strand->leg, "core", TL_BODY_CORE);
      tl_assembly_add_solid (splice->assembly, strand->body, &core);
    }
}

/* --- contacts --- */

static void
pair_contact (Splice *splice, const Strand *a, const Strand *b, double limit_mm)
{
  TlAssembly *self = splice->assembly;
  TlSolid     first = tube (a->start_mm, a->end_mm, 0.0, a->wire_mm, a->y_mm, a->z_mm);
  TlSolid     second = tube (b->start_mm, b->end_mm, 0.0, b->wire_mm, b->y_mm, b->z_mm);
  TlSolidGap  gap = tl_solid_gap (self, a->body, &first, b->body, &second, limit_mm);
  gboolean    is_touching = gap.distance_mm <= TL_SAME_PLACE_MM;
  TlContact  *contact;

  if (gap.distance_mm >= limit_mm)
    return;
  contact = tl_assembly_add_contact (self, a->body, b->body,
                                     is_touching ? TL_CONTACT_PRESSED : TL_CONTACT_MAY_BRIDGE);
  contact->distance_mm = is_touching ? 0.0 : gap.distance_mm;
  contact->is_line = TRUE;
  contact->rim_mm = 2.0 * splice->overlap_mm;
  contact->at_x_mm = is_touching ? splice->overlap_mm / 2.0 : gap.x_mm;
  contact->at_y_mm = gap.y_mm;
  contact->at_z_mm = gap.z_mm;
}

static void
bond_contact (Splice *splice, const Strand *strand)
{
  double length =
      MIN (strand->end_mm, splice->bond_end_mm) - MAX (strand->start_mm, splice->bond_start_mm);
  TlContact *contact;

  if (splice->bond_body == TL_NO_BODY || length <= 0.0)
    return;
  contact = tl_assembly_add_contact (splice->assembly, strand->body, splice->bond_body,
                                     TL_CONTACT_PRESSED);
  contact->area_mm2 = SOLDER_SHARE * G_PI * strand->wire_mm * length;
  contact->rim_mm = G_PI * strand->wire_mm;
  contact->at_x_mm = (splice->bond_start_mm + splice->bond_end_mm) / 2.0;
  contact->at_y_mm = strand->y_mm;
  contact->at_z_mm = strand->z_mm + copysign (strand->wire_mm / 2.0, strand->z_mm);
}

/* --- the whole --- */

static void
splice_figures (Splice *splice)
{
  TlSpliceFigures *figures = &splice->assembly->splice;
  const TlFact    *form = fact_of_splice (splice, TL_FIELD_SPLICE_FORM),
               *turns = fact_of_splice (splice, TL_FIELD_TURNS);
  const TlFact *melting =
      splice->bond != NULL ? tl_layer_fact (splice->bond, splice->assembly->stock, TL_FIELD_MELTING)
                           : NULL;

  figures->form = form != NULL ? form->word : splice->bond != NULL ? "soldered" : "twisted";
  figures->layer = splice->bond != NULL ? splice->bond->id : NULL;
  figures->overlap_mm = splice->overlap_mm;
  figures->turns = turns != NULL ? (guint) turns->value.best : 0;
  if (splice->bond == NULL || strcmp (figures->form, "soldered") != 0)
    return;
  if (melting != NULL)
    figures->melting_C = melting->value.best;
  else
    {
      const char *id =
          tl_layer_word (splice->bond, splice->assembly->stock, TL_FIELD_MATERIAL, NULL);
      const TlMaterial *metal = id != NULL ? tl_stock_material (splice->assembly->stock, id) : NULL;

      figures->melting_C =
          metal != NULL ? tl_facts_number (metal->facts, TL_FIELD_MELTING, 0.0) : 0.0;
    }
}

static void
seal_splice (Splice *splice, const double mouth_mm[2], const guint conductors[2])
{
  TlAssembly *self = splice->assembly;
  double      outer =
      splice->packed_mm + (splice->bond_body != TL_NO_BODY ? 2.0 * SOLDER_DRAWN_MM : 0.0);
  TlSealTarget target = { .middle_mm = outer,
                          .end_mm = splice->overlap_mm,
                          .bare_end_mm = splice->overlap_mm };

  for (guint i = 0; i < splice->n; i++)
    {
      target.bare_start_mm = MIN (target.bare_start_mm, splice->strands[i].start_mm);
      target.bare_end_mm = MAX (target.bare_end_mm, splice->strands[i].end_mm);
    }
  for (guint i = 0; i < 2; i++)
    {
      target.mouth_mm[i] = mouth_mm[i];
      target.conductors[i] = conductors[i];
    }
  self->packed_length_mm = target.bare_end_mm - target.bare_start_mm;
  self->packed_width_mm = self->packed_height_mm = outer;
  tl_seal_build (self, &target);
}

static void
place_in_order (Splice *splice)
{
  for (guint pass = 0; pass < 2; pass++)
    {
      for (guint i = 0; i < splice->n; i++)
        if (splice->strands[i].is_left == (pass == 0))
          tl_assembly_place (splice->assembly, splice->strands[i].leg->id);
      if (pass == 0 && splice->bond != NULL && splice->bond_body != TL_NO_BODY)
        tl_assembly_place (splice->assembly, splice->bond->id);
    }
}

/* Compound on a conductor fills the gussets between the conductors. */
static void
lay_compound (Splice *splice)
{
  const TlLayer *compound = NULL;
  TlSolid        fill = tube (0.0, splice->overlap_mm, 0.0, splice->packed_mm, 0.0, 0.0);

  for (guint i = 0; i < splice->n && compound == NULL; i++)
    compound =
        tl_assembly_layer_on (splice->assembly, splice->strands[i].leg->id, TL_PART_COMPOUND);
  if (compound != NULL)
    tl_assembly_add_solid (
        splice->assembly,
        tl_assembly_layer_body (splice->assembly, compound, "compound", TL_BODY_COMPOUND), &fill);
}

void
tl_splice_build (TlAssembly *self)
{
  Splice splice = { .assembly = self, .bond_body = TL_NO_BODY };
  double mouth_mm[2], limit = tl_assembly_bridge_mm (self);
  guint  conductors[2];

  find_bond (&splice);
  take_strands (&splice);
  if (splice.n == 0)
    return;
  find_overlap (&splice);
  pack_strands (&splice);
  splice_figures (&splice);
  lay_strands (&splice);
  lay_bond (&splice);
  mouth_mm[0] = lay_leads (&splice, TRUE, &conductors[0]);
  mouth_mm[1] = lay_leads (&splice, FALSE, &conductors[1]);
  lay_compound (&splice);
  place_in_order (&splice);
  seal_splice (&splice, mouth_mm, conductors);
  for (guint i = 0; i < splice.n; i++)
    {
      bond_contact (&splice, &splice.strands[i]);
      for (guint k = i + 1; k < splice.n; k++)
        pair_contact (&splice, &splice.strands[i], &splice.strands[k], limit);
    }
}
