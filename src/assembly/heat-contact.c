/* heat-contact.c: resistance of one pressed contact, as a range.
 *
 * Holm and Greenwood by way of the registry's formula. How much of the bearing spots is bare metal depends on how the
 * surface was prepared; these shares and their bands are rows of the data.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

/* State of a surface: the rows of the data that tell its metallic share. */
typedef struct
{
  const char *low, *best, *high;
  gboolean    is_found; /* as it was found, by nobody prepared */
  guint       index;    /* its place in the model's shares */
} State;

#define STATE(name, is_found, index)                                                               \
  {                                                                                                \
    "heat.share-" name "-low", "heat.share-" name, "heat.share-" name "-high", is_found, index     \
  }

static const State copper_found = STATE ("copper-found", TRUE, 0);
static const State copper_clean = STATE ("copper-clean", FALSE, 1);
static const State aluminium_found = STATE ("aluminium-found", TRUE, 2);
static const State aluminium_brushed = STATE ("aluminium-brushed", FALSE, 3);
static const State aluminium_flowed = STATE ("aluminium-flowed", FALSE, 4);
static const State aluminium_compound = STATE ("aluminium-compound", FALSE, 5);
static const State tin = STATE ("tin", FALSE, 6);

static const State *
state_of (const TlHeatModel *self, const TlBody *body, const char *surface, gboolean flowed)
{
  const TlStock    *stock = self->assembly->stock;
  const TlMaterial *material = tl_stock_material (stock, surface);
  const TlLeg      *leg = tl_joint_leg (self->assembly->joint, body->owner);
  const char       *prepared =
      leg != NULL ? tl_leg_word (leg, stock, TL_FIELD_SURFACE, "as-found") : "brushed";

  if (material == NULL)
    return &copper_found;
  switch (material->look)
    {
    case TL_LOOK_TIN:
      return &tin;
    case TL_LOOK_ALUMINIUM:
      if (g_str_equal (prepared, "brushed-compound"))
        return &aluminium_compound;
      if (g_str_equal (prepared, "brushed") || g_str_equal (prepared, "bright"))
        return flowed ? &aluminium_flowed : &aluminium_brushed;
      return &aluminium_found;
    case TL_LOOK_COPPER:
      return g_str_equal (prepared, "as-found") ? &copper_found : &copper_clean;
    case TL_LOOK_STEEL:
    case TL_LOOK_STAINLESS:
    case TL_LOOK_ZINC:
    case TL_LOOK_NICKEL:
    case TL_LOOK_BRASS:
      return &copper_clean;
    case TL_LOOK_POLYMER:
    case TL_LOOK_ADHESIVE:
    case TL_LOOK_INSULATION:
    case TL_LOOK_COMPOUND:
    case TL_LOOK_AIR:
    case TL_N_LOOKS:
    default:
      return &copper_found;
    }
}

/* Looked up once: a stack has many contacts and few states. */
static gboolean
share_of (TlHeatModel *self, const State *state, TlRange *share)
{
  TlRange *kept = &self->shares[state->index];

  if (!(kept->best > 0.0)
      && !(tl_heat_limit (self, state->low, &kept->low)
           && tl_heat_limit (self, state->best, &kept->best)
           && tl_heat_limit (self, state->high, &kept->high)))
    return FALSE;
  *share = *kept;
  return TRUE;
}

gboolean
tl_heat_contact_ohm (TlHeatModel *self, const TlBody *a, const TlBody *b, const char *surface_a,
                     const char *surface_b, TlRange force_N, double area_mm2, double spots,
                     gboolean lumped_spread, gboolean flowed, TlRange *ohm)
{
  const State *state_a = state_of (self, a, surface_a, flowed),
              *state_b = state_of (self, b, surface_b, flowed);
  TlRange share_a, share_b, share, term;
  double  widen, hardness;
  TlCall  call;

  if (force_N.best <= 0.0 || area_mm2 <= 0.0)
    return tl_heat_fail (self, TL_N_ ("The force that presses {part} is not known."), a->owner,
                         TL_FIELD_TORQUE);
  if (!share_of (self, state_a, &share_a) || !share_of (self, state_b, &share_b))
    return FALSE;
  /* The worse surface decides. */
  share = (TlRange){ MIN (share_a.low, share_b.low), MIN (share_a.best, share_b.best),
                     MIN (share_a.high, share_b.high) };
  hardness = MIN (tl_heat_material_number (self, a->material, TL_FIELD_HARDNESS, 1e4),
                  tl_heat_material_number (self, b->material, TL_FIELD_HARDNESS, 1e4));

  tl_call_init (&call, "interface-resistance");
  tl_call_set_exact (&call, "resistivity_1",
                     tl_heat_material_number (self, a->material, TL_FIELD_RESISTIVITY, 0.1));
  tl_call_set_exact (&call, "resistivity_2",
                     tl_heat_material_number (self, b->material, TL_FIELD_RESISTIVITY, 0.1));
  tl_call_set (&call, "force", force_N);
  tl_call_set_exact (&call, "hardness", hardness);
  tl_call_set_exact (&call, "contact_area", area_mm2);
  tl_call_set (&call, "metallic_share", share);
  tl_call_set_exact (&call, "spots", spots);
  if (!tl_call_run (&call, NULL))
    return tl_heat_fail (self, TL_N_ ("The contact of {part} is outside the range of the formula."),
                         a->owner, TL_N_FIELDS);
  term = tl_call_get (&call, lumped_spread ? "resistance" : "spots_term");

  /* The estimate is good to a factor, whatever its inputs say. */
  if (!tl_heat_limit (self,
                      state_a->is_found || state_b->is_found ? "heat.contact-band-found"
                                                             : "heat.contact-band",
                      &widen))
    return FALSE;
  ohm->best = 1e-6 * term.best;
  ohm->low = 1e-6 * MIN (term.low, term.best / widen);
  ohm->high = 1e-6 * MAX (term.high, term.best * widen);
  return TRUE;
}
