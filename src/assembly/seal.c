/* seal.c: what closes a joint against water: sealing sleeve, end cap, filler, compound.
 *
 * The seal is laid along the leads (x) over the middle of the joint, in its shape after shrinking.
 * The share of its wall that is adhesive is drawn, not known.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>
#include <string.h>

/* Share of the recovered wall that is drawn as adhesive; nothing is judged by it. */
#define ADHESIVE_DRAWN_RATIO 0.3

static gboolean
word_is_yes (const TlAssembly *self, const TlLayer *layer, TlField field)
{
  return strcmp (tl_layer_word (layer, self->stock, field, "no"), "yes") == 0;
}

static gboolean
is_around (const TlLayer *layer, TlPartKind kind)
{
  return layer->kind == kind && layer->seat.kind == TL_SEAT_AROUND;
}

/* --- what the layers say --- */

static const TlLayer *
outermost_seal (const TlAssembly *self)
{
  const TlLayer *seal = NULL;

  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (is_around (layer, TL_PART_SEAL) || is_around (layer, TL_PART_CAP))
        seal = layer;
    }
  return seal;
}

/* A filler or cap in mouth 1 or 2 of the seal, else one for both. */
static void
take_mouth (gboolean mouths[2], const TlSeat *seat)
{
  if (seat->kind == TL_SEAT_PORT)
    mouths[CLAMP (seat->place, 1, 2) - 1] = TRUE;
  else
    mouths[0] = mouths[1] = TRUE;
}

static void
mouth_figures (TlAssembly *self, const TlLayer *seal, const TlSealTarget *target)
{
  TlSealFigures *figures = &self->seal;

  for (guint i = 0; i < 2; i++)
    {
      figures->conductors[i] = target->conductors[i];
      figures->smallest_mm[i] = target->mouth_mm[i];
    }
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind == TL_PART_COMPOUND && layer->seat.kind != TL_SEAT_NONE)
        figures->has_compound = TRUE;
      if (layer->kind == TL_PART_FILLER && layer->seat.kind != TL_SEAT_NONE)
        take_mouth (figures->filler, &layer->seat);
      if (is_around (layer, TL_PART_CAP)
          || (layer->kind == TL_PART_CAP && layer->seat.kind == TL_SEAT_PORT))
        for (guint mouth = 0; mouth < 2; mouth++)
          figures->capped[mouth] |=
              target->conductors[mouth] == 0
              && (layer->seat.kind != TL_SEAT_PORT || layer->seat.place == mouth + 1);
    }
  if (seal != NULL && word_is_yes (self, seal, TL_FIELD_FILLER))
    figures->filler[0] = figures->filler[1] = TRUE;
}

static void
size_figures (TlAssembly *self, const TlLayer *seal, const TlSealTarget *target)
{
  TlSealFigures *figures = &self->seal;
  double         change = tl_layer_number (seal, self->stock, TL_FIELD_LENGTH_CHANGE, 0.0);

  figures->seal = seal->id;
  figures->has_adhesive = word_is_yes (self, seal, TL_FIELD_ADHESIVE);
  tl_assembly_need_layer (self, seal, TL_FIELD_EXPANDED, &figures->expanded_mm);
  tl_assembly_need_layer (self, seal, TL_FIELD_RECOVERED, &figures->recovered_mm);
  tl_assembly_need_layer (self, seal, TL_FIELD_LENGTH, &figures->length_mm);
  figures->wall_mm = tl_layer_number (seal, self->stock, TL_FIELD_RECOVERED_WALL, 0.0);
  figures->recovered_length_mm = figures->length_mm * (1.0 + change / 100.0);
  figures->largest_mm = MAX (target->middle_mm, MAX (target->mouth_mm[0], target->mouth_mm[1]));
  figures->needed_bare_mm = target->bare_end_mm - target->bare_start_mm;
}

/* Where the seal lies: over the middle of the bare length, or from beyond a closed end. */
static void
seal_extent (const TlAssembly *self, const TlSealTarget *target, double *start, double *end)
{
  const TlSealFigures *figures = &self->seal;
  double               length = figures->recovered_length_mm;
  double               middle = (target->bare_start_mm + target->bare_end_mm) / 2.0;

  *start = middle - length / 2.0;
  *end = middle + length / 2.0;
  if (figures->capped[1] && !figures->capped[0])
    {
      *end = target->bare_end_mm + figures->wall_mm;
      *start = *end - length;
    }
  else if (figures->capped[0] && !figures->capped[1])
    {
      *start = target->bare_start_mm - figures->wall_mm;
      *end = *start + length;
    }
}

static void
close_mouths (TlAssembly *self)
{
  TlSealFigures *figures = &self->seal;
  double         cover_least = tl_assembly_limit_or (self, "seal.cover-least", 0.0);
  double         margin = tl_assembly_limit_or (self, "seal.recovered-margin", 0.0);

  for (guint i = 0; i < 2; i++)
    {
      if (figures->capped[i])
        {
          figures->closed[i] = figures->has_adhesive;
          continue;
        }
      figures->closed[i] = figures->has_adhesive && cover_least > 0.0 && margin > 0.0
                           && figures->conductors[i] > 0 && figures->smallest_mm[i] > 0.0
                           && figures->cover_mm[i] >= cover_least && figures->recovered_mm > 0.0
                           && figures->recovered_mm <= margin * figures->smallest_mm[i]
                           && (figures->conductors[i] == 1 || figures->filler[i]);
    }
}

/* --- bodies --- */

static double
outside_over (const TlSealFigures *figures, double object_mm)
{
  TlCall call;

  if (figures->wall_mm <= 0.0)
    return object_mm;
  if (object_mm <= figures->recovered_mm)
    return figures->recovered_mm + 2.0 * figures->wall_mm;
  tl_call_init (&call, "recovered-outside-diameter");
  tl_call_set_exact (&call, "recovered_bore", figures->recovered_mm);
  tl_call_set_exact (&call, "recovered_wall", figures->wall_mm);
  tl_call_set_exact (&call, "object_diameter", object_mm);
  return tl_call_run_quick (&call) ? tl_call_get (&call, "outside_diameter").best : object_mm;
}

static void
add_ring (TlAssembly *self, guint body, double start, double end, double inner, double outer)
{
  TlSolid solid = {
    .kind = TL_SOLID_TUBE, .start_mm = start, .end_mm = end, .inner_mm = inner, .outer_mm = outer
  };

  if (end - start <= TL_SAME_PLACE_MM || outer <= inner)
    return;
  if (self->family == TL_FAMILY_STACK)
    {
      /* The axis of a stack is that of its bolt; the seal runs along the leads through its middle. */
      solid.kind = TL_SOLID_ROD;
      solid.x0_mm = start;
      solid.x1_mm = end;
      solid.z0_mm = solid.z1_mm = self->stack.grip_mm / 2.0;
    }
  tl_assembly_add_solid (self, body, &solid);
}

static void
lay_wall (TlAssembly *self, guint body, guint lining, double start, double end, double object_mm)
{
  const TlSealFigures *figures = &self->seal;
  double inner = MAX (object_mm, figures->recovered_mm), outer = outside_over (figures, object_mm);
  double adhesive = lining != TL_NO_BODY ? (outer - inner) * ADHESIVE_DRAWN_RATIO : 0.0;

  add_ring (self, body, start, end, inner + adhesive, outer);
  if (lining != TL_NO_BODY)
    add_ring (self, lining, start, end, object_mm, inner + adhesive);
}

static void
lay_seal (TlAssembly *self, const TlLayer *seal, const TlSealTarget *target, double start,
          double end)
{
  gboolean is_cap = seal->kind == TL_PART_CAP;
  guint    body = tl_assembly_layer_body (self, seal, is_cap ? "cap" : "seal",
                                       is_cap ? TL_BODY_CAP : TL_BODY_SEAL);
  guint    lining = self->seal.has_adhesive
                        ? tl_assembly_layer_body (self, seal, "adhesive", TL_BODY_ADHESIVE)
                        : TL_NO_BODY;
  double   left = MAX (start, target->start_mm), right = MIN (end, target->end_mm);

  lay_wall (self, body, lining, start, MIN (left, end), target->mouth_mm[0]);
  lay_wall (self, body, lining, left, right, target->middle_mm);
  lay_wall (self, body, lining, MAX (right, start), end, target->mouth_mm[1]);
}

static void
lay_fillers (TlAssembly *self, const TlSealTarget *target, double start, double end)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];
      gboolean       mouths[2] = { FALSE, FALSE };
      guint          body;

      if (layer->kind != TL_PART_FILLER || layer->seat.kind == TL_SEAT_NONE)
        continue;
      take_mouth (mouths, &layer->seat);
      body = tl_assembly_layer_body (self, layer, "filler", TL_BODY_FILLER);
      if (mouths[0])
        add_ring (self, body, start, target->bare_start_mm, 0.0, target->mouth_mm[0]);
      if (mouths[1])
        add_ring (self, body, target->bare_end_mm, end, 0.0, target->mouth_mm[1]);
      tl_assembly_place (self, layer->id);
    }
}

static void
place_around (TlAssembly *self)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (is_around (layer, TL_PART_SEAL) || is_around (layer, TL_PART_CAP))
        tl_assembly_place (self, layer->id);
    }
}

void
tl_seal_build (TlAssembly *self, const TlSealTarget *target)
{
  const TlLayer *seal = outermost_seal (self);
  double         start = 0.0, end = 0.0, diameter;

  mouth_figures (self, seal, target);
  place_around (self);
  if (seal == NULL)
    return;
  size_figures (self, seal, target);
  seal_extent (self, target, &start, &end);
  self->seal.cover_mm[0] =
      target->conductors[0] > 0 ? MAX (0.0, target->bare_start_mm - start) : 0.0;
  self->seal.cover_mm[1] = target->conductors[1] > 0 ? MAX (0.0, end - target->bare_end_mm) : 0.0;
  close_mouths (self);
  if (self->seal.length_mm <= 0.0 || self->seal.recovered_mm <= 0.0)
    return;
  lay_seal (self, seal, target, start, end);
  lay_fillers (self, target, start, end);
  diameter = outside_over (&self->seal, self->seal.largest_mm);
  self->packed_length_mm = MAX (self->packed_length_mm, end - start);
  self->packed_width_mm = MAX (self->packed_width_mm, diameter);
  self->packed_height_mm = MAX (self->packed_height_mm, diameter);
}
