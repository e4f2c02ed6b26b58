/* places.c: where a part would go in, and why it would not.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/places.h"

#include "assembly/assembly-private.h"
#include "base/quantity.h"
#include "joint/edit.h"

#include <math.h>
#include <string.h>

/* What is being placed: a part of the stock, or something of the joint that moves. */
typedef struct
{
  const TlAssembly *assembly;
  const TlPart     *part;   /* (nullable) */
  const TlLeg      *leg;    /* (nullable): that moves */
  const TlLayer    *layer;  /* (nullable): that moves */
  const char       *moving; /* (nullable) */
  TlPartKind        kind;
  GArray           *places;
} Guest;

static double
guest_number (const Guest *guest, TlField field)
{
  const TlStock *stock = guest->assembly->stock;

  if (guest->layer != NULL)
    return tl_layer_number (guest->layer, stock, field, 0.0);
  if (guest->leg != NULL)
    return tl_leg_number (guest->leg, stock, field, 0.0);
  return guest->part != NULL ? tl_facts_number (guest->part->facts, field, 0.0) : 0.0;
}

/* Takes @seat. */
static void
offer (Guest *guest, TlSeat seat, const char *refusal, double a, double b)
{
  TlPlace       place = { seat, refusal == NULL, refusal, a, b };
  const TlSeat *own =
      guest->moving != NULL ? tl_joint_seat (guest->assembly->joint, guest->moving) : NULL;

  if (own != NULL && tl_seat_equal (own, &seat))
    {
      tl_seat_clear (&place.seat);
      return;
    }
  g_array_append_val (guest->places, place);
}

static const TlLayer *
find_kind (const Guest *guest, TlPartKind kind)
{
  const TlJoint *joint = guest->assembly->joint;

  for (guint i = 0; i < joint->layers->len; i++)
    {
      const TlLayer *layer = joint->layers->pdata[i];

      if (layer->kind == kind && layer->seat.kind != TL_SEAT_NONE
          && g_strcmp0 (layer->id, guest->moving) != 0)
        return layer;
    }
  return NULL;
}

/* --- gaps of the stack --- */

/* Why something with a hole does not go over the bolt; (nullable) */
static const char *
bore_refusal (const Guest *guest, double *a, double *b)
{
  const TlLayer *bolt = find_kind (guest, TL_PART_BOLT);
  TlField        field = guest->kind == TL_PART_CONDUCTOR ? TL_FIELD_EYE_BORE : TL_FIELD_BORE;

  if (guest->kind == TL_PART_LUG && guest_number (guest, TL_FIELD_EYE_BORE) > 0.0)
    field = TL_FIELD_EYE_BORE;
  *a = guest_number (guest, field);
  *b = bolt != NULL ? tl_layer_number (bolt, guest->assembly->stock, TL_FIELD_THREAD, 0.0) : 0.0;
  if (*a > 0.0 && *b > 0.0 && *a < *b)
    return TL_N_ ("Not here: bore {a}, bolt {b}.");
  return NULL;
}

static const char *
thread_refusal (const Guest *guest, double *a, double *b)
{
  const TlLayer *mate = find_kind (guest, guest->kind == TL_PART_BOLT ? TL_PART_NUT : TL_PART_BOLT);

  *a = guest_number (guest, TL_FIELD_THREAD);
  *b = mate != NULL ? tl_layer_number (mate, guest->assembly->stock, TL_FIELD_THREAD, 0.0) : 0.0;
  if (*a > 0.0 && *b > 0.0 && fabs (*a - *b) > 1e-6)
    return guest->kind == TL_PART_BOLT ? TL_N_ ("Not here: bolt {a}, nut {b}.")
                                       : TL_N_ ("Not here: nut {a}, bolt {b}.");
  return NULL;
}

/* Why the guest does not go into gap @gap of a stack of @count; (nullable) */
static const char *
gap_refusal (const Guest *guest, guint gap, guint count, double *a, double *b)
{
  gboolean has_bolt = find_kind (guest, TL_PART_BOLT) != NULL;
  gboolean has_nut = find_kind (guest, TL_PART_NUT) != NULL;

  if (guest->kind == TL_PART_BOLT)
    return has_bolt  ? TL_N_ ("Not here: the stack has a bolt already.")
           : gap > 0 ? TL_N_ ("Not here: the head of the bolt comes first.")
                     : thread_refusal (guest, a, b);
  if (guest->kind == TL_PART_NUT)
    return has_nut       ? TL_N_ ("Not here: the stack has a nut already.")
           : gap < count ? TL_N_ ("Not here: the nut comes last.")
                         : thread_refusal (guest, a, b);
  if (gap == 0 && has_bolt)
    return TL_N_ ("Nothing goes above the head.");
  if (gap == count && has_nut)
    return TL_N_ ("Nothing goes outside the nut.");
  if (guest->kind == TL_PART_COMPOUND)
    return NULL;
  return bore_refusal (guest, a, b);
}

static void
offer_gaps (Guest *guest)
{
  g_autoptr (GPtrArray) stack = tl_joint_stack (guest->assembly->joint);
  guint count = stack->len;

  /* A thing that moves is taken out first: gaps are counted without it, and its own gap is no
   * place. */
  for (guint i = 0; i < stack->len; i++)
    if (g_strcmp0 (stack->pdata[i], guest->moving) == 0)
      count--;
  for (guint gap = 0; gap <= count; gap++)
    {
      double      a = NAN, b = NAN;
      const char *refusal = gap_refusal (guest, gap, count, &a, &b);

      offer (guest, tl_seat_stack (gap), refusal, a, b);
    }
}

/* --- on conductors, in mouths, around --- */

static void
offer_on (Guest *guest, const char *owner, const char *refusal)
{
  if (g_strcmp0 (owner, guest->moving) != 0)
    offer (guest, tl_seat_on (owner), refusal, NAN, NAN);
}

static const char *
ferrule_refusal (const Guest *guest, const TlLeg *leg)
{
  const char *class = tl_leg_word (leg, guest->assembly->stock, TL_FIELD_CLASS, "");

  if (strcmp (class, "class-1") == 0
      || (*class == '\0'
          && tl_leg_number (leg, guest->assembly->stock, TL_FIELD_STRANDS, 2.0) <= 1.0))
    return TL_N_ ("Not here: a ferrule goes on strands, this wire is solid.");
  return NULL;
}

static void
offer_on_legs (Guest *guest)
{
  const TlJoint *joint = guest->assembly->joint;

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlLeg *leg = joint->legs->pdata[i];
      const char  *refusal = NULL;

      for (guint k = 0; k < joint->layers->len; k++)
        {
          const TlLayer *layer = joint->layers->pdata[k];

          if (layer->kind == guest->kind && layer->seat.kind == TL_SEAT_ON
              && g_strcmp0 (layer->seat.of, leg->id) == 0
              && g_strcmp0 (layer->id, guest->moving) != 0)
            refusal = TL_N_ ("Not here: this conductor has one already.");
        }
      if (refusal == NULL && guest->kind == TL_PART_FERRULE)
        refusal = ferrule_refusal (guest, leg);
      offer_on (guest, leg->id, refusal);
    }
}

/* Around all conductors, or beside the joint while there are none. */
static void
offer_around (Guest *guest, const char *refusal, double a, double b)
{
  const GPtrArray *legs = guest->assembly->joint->legs;
  const TlLeg     *first = legs->len > 0 ? legs->pdata[0] : NULL;
  const TlLeg     *last = legs->len > 0 ? legs->pdata[legs->len - 1] : NULL;

  offer (guest, first != NULL ? tl_seat_around (first->id, last->id) : tl_seat_none (), refusal, a,
         b);
}

/* @tight: loose strands twisted tight. */
static double
leg_metal_mm (const Guest *guest, gboolean tight)
{
  double      diameter = guest_number (guest, TL_FIELD_METAL_DIAMETER);
  double      section = guest_number (guest, TL_FIELD_SECTION);
  TlThreshold fill = { 0 };

  diameter = diameter > 0.0 ? diameter : sqrt (4.0 * section / G_PI);
  if (!tight
      || !tl_stock_threshold (guest->assembly->stock, guest->assembly->joint->practice,
                              TL_STRANDS_FILL, &fill))
    return diameter;
  return tl_gathered_mm (fill.value, diameter, guest_number (guest, TL_FIELD_STRANDS),
                         guest_number (guest, TL_FIELD_STRAND_DIAMETER));
}

double
tl_places_least_hole_mm (const TlAssembly *assembly, const TlLeg *leg)
{
  const Guest guest = { .assembly = assembly, .leg = leg, .kind = TL_PART_CONDUCTOR };

  g_return_val_if_fail (assembly != NULL && leg != NULL, 0.0);

  return leg_metal_mm (&guest, TRUE);
}

/* Mouths that a layer has; of a branch connector as many as conductors go in. */
static guint
mouths_of (const Guest *guest, const TlLayer *layer)
{
  if (layer->kind == TL_PART_LUG)
    return 1;
  if (layer->kind != TL_PART_TERMINAL && layer->kind != TL_PART_BRANCH)
    return 2;
  return (guint) CLAMP (tl_layer_number (layer, guest->assembly->stock, TL_FIELD_PORTS,
                                         layer->kind == TL_PART_BRANCH ? 3.0 : 2.0),
                        1.0, TL_JOINT_MAX_LEGS);
}

static void
offer_mouths (Guest *guest, TlPartKind kind)
{
  const TlJoint *joint = guest->assembly->joint;
  gboolean       is_wire = guest->kind == TL_PART_CONDUCTOR;

  for (guint i = 0; i < joint->layers->len; i++)
    {
      const TlLayer *layer = joint->layers->pdata[i];
      const TlStock *stock = guest->assembly->stock;
      double         bore = tl_layer_number (layer, stock, TL_FIELD_BORE, 0.0);
      double         metal = is_wire ? leg_metal_mm (guest, FALSE) : 0.0;
      gboolean       fits = !is_wire || bore <= 0.0 || leg_metal_mm (guest, TRUE) <= bore;

      if (layer->kind != kind || g_strcmp0 (layer->id, guest->moving) == 0)
        continue;
      for (guint mouth = 1; mouth <= mouths_of (guest, layer); mouth++)
        offer (guest, tl_seat_port (layer->id, mouth),
               fits ? NULL : TL_N_ ("Not here: metal {a}, bore {b}."), metal, bore);
    }
}

static void
offer_seal (Guest *guest)
{
  double expanded = guest_number (guest, TL_FIELD_EXPANDED);
  double largest =
      guest->assembly->family == TL_FAMILY_SLEEVE ? guest->assembly->sleeve.outer_mm : 0.0;

  if (expanded > 0.0 && expanded <= largest)
    offer_around (guest, TL_N_ ("Not here: it opens to {a}, the joint is {b} thick."), expanded,
                  largest);
  else
    offer_around (guest, NULL, NAN, NAN);
}

static void
offer_conductor (Guest *guest)
{
  gboolean has_bolt = find_kind (guest, TL_PART_BOLT) != NULL;
  gboolean has_sleeve = find_kind (guest, TL_PART_SLEEVE) != NULL;
  gboolean has_terminal =
      find_kind (guest, TL_PART_TERMINAL) != NULL || find_kind (guest, TL_PART_BRANCH) != NULL;
  const char *refusal = guest->moving == NULL && guest->assembly->joint->legs->len >= 8
                            ? TL_N_ ("Not here: a joint takes eight conductors at most.")
                            : NULL;

  if (refusal != NULL || (!has_bolt && !has_sleeve && !has_terminal))
    offer (guest, tl_seat_none (), refusal, NAN, NAN);
  else if (has_bolt)
    offer_gaps (guest);
  if (refusal == NULL && has_sleeve)
    offer_mouths (guest, TL_PART_SLEEVE);
  if (refusal == NULL && has_bolt)
    offer_mouths (guest, TL_PART_LUG);
  if (refusal == NULL && has_terminal)
    {
      offer_mouths (guest, TL_PART_TERMINAL);
      offer_mouths (guest, TL_PART_BRANCH);
    }
}

static void
offer_compound (Guest *guest)
{
  const TlLayer *sleeve = find_kind (guest, TL_PART_SLEEVE);

  if (find_kind (guest, TL_PART_BOLT) != NULL)
    offer_gaps (guest);
  offer_on_legs (guest);
  if (sleeve != NULL)
    offer_on (guest, sleeve->id, NULL);
  offer_mouths (guest, TL_PART_TERMINAL);
  offer_mouths (guest, TL_PART_BRANCH);
}

static void
offer_terminal (Guest *guest)
{
  gboolean has_one =
      find_kind (guest, TL_PART_TERMINAL) != NULL || find_kind (guest, TL_PART_BRANCH) != NULL;

  offer (guest, tl_seat_stack (0),
         has_one ? TL_N_ ("Not here: the joint has a terminal already.")
         : find_kind (guest, TL_PART_BOLT) != NULL || find_kind (guest, TL_PART_SLEEVE) != NULL
             ? TL_N_ ("Not here: bolt or sleeve hold the conductors already.")
             : NULL,
         NAN, NAN);
}

/* Around the conductors of a splice, or as a coat on one. */
static void
offer_solder (Guest *guest)
{
  TlFamily family = guest->assembly->family;

  offer_on_legs (guest);
  if (family == TL_FAMILY_SPLICE
      || (family == TL_FAMILY_NONE && guest->assembly->joint->legs->len > 1))
    offer_around (guest, NULL, NAN, NAN);
}

static void
offer_all (Guest *guest)
{
  switch (guest->kind)
    {
    case TL_PART_CONDUCTOR:
      offer_conductor (guest);
      break;
    case TL_PART_BOLT:
    case TL_PART_NUT:
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
      offer_gaps (guest);
      break;
    case TL_PART_LUG:
    case TL_PART_FERRULE:
      offer_on_legs (guest);
      break;
    case TL_PART_SOLDER:
      offer_solder (guest);
      break;
    case TL_PART_COMPOUND:
      offer_compound (guest);
      break;
    case TL_PART_SLEEVE:
      offer_around (guest,
                    find_kind (guest, TL_PART_SLEEVE) != NULL
                        ? TL_N_ ("Not here: the joint has a sleeve already.")
                        : NULL,
                    NAN, NAN);
      break;
    case TL_PART_SEAL:
      offer_seal (guest);
      break;
    case TL_PART_CAP:
      offer_around (guest, NULL, NAN, NAN);
      break;
    case TL_PART_FILLER:
      offer_mouths (guest, TL_PART_SEAL);
      break;
    case TL_PART_BOX:
      offer (guest, tl_seat_none (), TL_N_ ("Not on the bench: the box is chosen for the site."),
             NAN, NAN);
      break;
    case TL_PART_TERMINAL:
    case TL_PART_BRANCH:
      offer_terminal (guest);
      break;
    case TL_N_PART_KINDS:
    default:
      offer (guest, tl_seat_none (), NULL, NAN, NAN);
    }
}

GArray *
tl_places_for (const TlAssembly *assembly, const char *part, const char *moving)
{
  Guest   guest = { .assembly = assembly, .moving = moving };
  GArray *places = g_array_new (FALSE, TRUE, sizeof (TlPlace));

  g_return_val_if_fail (assembly != NULL, places);

  g_array_set_clear_func (places, (GDestroyNotify) tl_place_clear);
  guest.places = places;
  guest.part = part != NULL ? tl_stock_part (assembly->stock, part) : NULL;
  if (moving != NULL)
    {
      guest.leg = tl_joint_leg (assembly->joint, moving);
      guest.layer = tl_joint_layer (assembly->joint, moving);
    }
  if (guest.layer != NULL)
    guest.kind = guest.layer->kind;
  else if (guest.leg != NULL)
    guest.kind = TL_PART_CONDUCTOR;
  else if (guest.part != NULL)
    guest.kind = guest.part->kind;
  else
    return places;
  offer_all (&guest);
  return places;
}

void
tl_place_clear (TlPlace *place)
{
  tl_seat_clear (&place->seat);
}

/* Replaces @key by @mm with its unit. */
static void
put_length (GString *text, const char *key, double mm, const TlLanguage *language)
{
  g_autofree char *length = isfinite (mm) ? tl_quantity_format (mm, "mm", language) : NULL;

  if (length != NULL)
    g_string_replace (text, key, length, 0);
}

char *
tl_place_refusal (const TlPlace *place, const TlLanguage *language)
{
  g_autoptr (GString) text = NULL;

  g_return_val_if_fail (place != NULL && language != NULL, NULL);

  if (place->refusal == NULL)
    return g_strdup ("");
  text = g_string_new (tl_language_text (language, place->refusal));
  put_length (text, "{a}", place->a, language);
  put_length (text, "{b}", place->b, language);
  return g_strdup (text->str);
}
