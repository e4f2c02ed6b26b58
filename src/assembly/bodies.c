/* bodies.c: bodies of legs and layers with their metal and their coat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>
#include <string.h>

/* Coat that tinning leaves when the act names no solder. */
#define TINNING_COAT "solder-sn60pb40"

static gboolean
is_named (const char *word)
{
  return word != NULL && *word != '\0' && strcmp (word, "none") != 0;
}

static guint
body_new (TlAssembly *self, const char *owner, const char *suffix, TlBodyRole role)
{
  TlBody *body = g_new0 (TlBody, 1);

  body->id = tl_assembly_join (self, owner, "/", suffix);
  body->owner = owner;
  body->role = role;
  body->strands = 1;
  body->look = TL_LOOK_AIR;
  body->solids = g_array_sized_new (FALSE, FALSE, sizeof (TlSolid), 2);
  g_ptr_array_add (self->bodies, body);
  return self->bodies->len - 1;
}

static void
set_material (const TlAssembly *self, TlBody *body, const char *id)
{
  const TlMaterial *material = id != NULL ? tl_stock_material (self->stock, id) : NULL;

  body->material = id;
  if (material == NULL)
    return;
  body->look = material->look;
  body->is_metal = strcmp (material->kind, "metal") == 0 || strcmp (material->kind, "coat") == 0
                   || strcmp (material->kind, "solder") == 0;
}

static void
set_coating (TlBody *body, const char *coating, const TlFact *thickness)
{
  if (!is_named (coating))
    return;
  body->coating = coating;
  body->coating_known = thickness != NULL;
  body->coating_um = thickness != NULL ? thickness->value.best : 0.0;
}

const TlLayer *
tl_assembly_layer_on (const TlAssembly *self, const char *owner, TlPartKind kind)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind == kind && layer->seat.kind == TL_SEAT_ON
          && g_strcmp0 (layer->seat.of, owner) == 0)
        return layer;
    }
  return NULL;
}

/* The last tinning of a leg; (nullable) */
static const TlPreparation *
tinning_of (const TlLeg *leg)
{
  const TlPreparation *tinning = NULL;

  for (guint i = 0; i < leg->preparation->len; i++)
    {
      const TlPreparation *act = leg->preparation->pdata[i];

      if (strcmp (act->act, "tin") == 0)
        tinning = act;
    }
  return tinning;
}

/* A stated coat first, then solder laid on, then the act of tinning. */
static void
set_leg_coating (const TlAssembly *self, TlBody *body, const TlLeg *leg)
{
  const char          *coating = tl_leg_word (leg, self->stock, TL_FIELD_COATING, NULL);
  const TlLayer       *solder = tl_assembly_layer_on (self, leg->id, TL_PART_SOLDER);
  const TlPreparation *tinning = tinning_of (leg);

  if (solder != NULL)
    set_coating (body, tl_layer_word (solder, self->stock, TL_FIELD_MATERIAL, NULL),
                 tl_layer_fact (solder, self->stock, TL_FIELD_COATING_THICKNESS));
  else if (tinning != NULL)
    set_coating (body, tl_facts_word (tinning->facts, TL_FIELD_MATERIAL, TINNING_COAT),
                 tl_facts_get (tinning->facts, TL_FIELD_COATING_THICKNESS));
  else
    set_coating (body, coating, tl_leg_fact (leg, self->stock, TL_FIELD_COATING_THICKNESS));
}

guint
tl_assembly_leg_body (TlAssembly *self, const TlLeg *leg, const char *suffix, TlBodyRole role)
{
  guint   index = body_new (self, leg->id, suffix, role);
  TlBody *body = self->bodies->pdata[index];

  body->is_leg = TRUE;
  if (role == TL_BODY_INSULATION)
    {
      set_material (self, body, tl_leg_word (leg, self->stock, TL_FIELD_INSULATION, NULL));
      if (body->look == TL_LOOK_AIR)
        body->look = TL_LOOK_INSULATION;
      body->is_metal = FALSE;
      return index;
    }
  set_material (self, body, tl_leg_word (leg, self->stock, TL_FIELD_METAL, NULL));
  body->is_metal = TRUE;
  set_leg_coating (self, body, leg);
  body->strands =
      (guint) CLAMP (tl_leg_number (leg, self->stock, TL_FIELD_STRANDS, 1.0), 1.0, 5000.0);
  return index;
}

guint
tl_assembly_layer_body (TlAssembly *self, const TlLayer *layer, const char *suffix, TlBodyRole role)
{
  static const TlLook looks[] = {
    [TL_BODY_SEAL] = TL_LOOK_POLYMER,      [TL_BODY_CAP] = TL_LOOK_POLYMER,
    [TL_BODY_ADHESIVE] = TL_LOOK_ADHESIVE, [TL_BODY_FILLER] = TL_LOOK_ADHESIVE,
    [TL_BODY_COMPOUND] = TL_LOOK_COMPOUND, [TL_BODY_HOUSING] = TL_LOOK_POLYMER
  };
  guint   index = body_new (self, layer->id, suffix, role);
  TlBody *body = self->bodies->pdata[index];

  set_material (self, body, tl_layer_word (layer, self->stock, TL_FIELD_MATERIAL, NULL));
  if (role == TL_BODY_SEAL || role == TL_BODY_CAP || role == TL_BODY_ADHESIVE
      || role == TL_BODY_FILLER || role == TL_BODY_COMPOUND || role == TL_BODY_HOUSING)
    {
      if (role == TL_BODY_HOUSING)
        set_material (self, body, tl_layer_word (layer, self->stock, TL_FIELD_BODY_MATERIAL, NULL));
      body->look = looks[role];
      body->is_metal = FALSE;
      return index;
    }
  body->is_metal = TRUE;
  set_coating (body, tl_layer_word (layer, self->stock, TL_FIELD_COATING, NULL),
               tl_layer_fact (layer, self->stock, TL_FIELD_COATING_THICKNESS));
  return index;
}

void
tl_assembly_set_metal (TlAssembly *self, guint body, const char *material)
{
  TlBody *target = self->bodies->pdata[body];

  set_material (self, target, material);
  target->is_metal = TRUE;
  target->coating = NULL;
  target->coating_um = 0.0;
  target->coating_known = FALSE;
}

void
tl_assembly_add_solid (TlAssembly *self, guint body, const TlSolid *solid)
{
  TlBody *target = self->bodies->pdata[body];

  g_array_append_vals (target->solids, solid, 1);
}

double
tl_leg_metal_diameter_mm (const TlAssembly *self, const TlLeg *leg)
{
  double diameter = tl_leg_number (leg, self->stock, TL_FIELD_METAL_DIAMETER, 0.0);
  double section = tl_leg_number (leg, self->stock, TL_FIELD_SECTION, 0.0);

  if (diameter > 0.0)
    return diameter;
  return section > 0.0 ? sqrt (4.0 * section / G_PI) : 0.0;
}

double
tl_gathered_mm (double fill, double diameter_mm, double strands, double strand_mm)
{
  return strands > 1.0 && strand_mm > 0.0 && fill > 0.0
             ? MIN (diameter_mm, strand_mm * sqrt (strands / fill))
             : diameter_mm;
}

double
tl_leg_in_bore_mm (TlAssembly *self, const TlLeg *leg, double bore_mm)
{
  double diameter = tl_leg_metal_diameter_mm (self, leg);

  if (diameter <= bore_mm || tinning_of (leg) != NULL
      || tl_assembly_layer_on (self, leg->id, TL_PART_SOLDER) != NULL)
    return diameter;
  return MAX (tl_gathered_mm (tl_assembly_limit_or (self, TL_STRANDS_FILL, 0.0), diameter,
                              tl_leg_number (leg, self->stock, TL_FIELD_STRANDS, 0.0),
                              tl_leg_number (leg, self->stock, TL_FIELD_STRAND_DIAMETER, 0.0)),
              bore_mm);
}

double
tl_leg_insulation_diameter_mm (TlAssembly *self, const TlLeg *leg)
{
  double metal = tl_leg_metal_diameter_mm (self, leg);
  double diameter;

  if (!is_named (tl_leg_word (leg, self->stock, TL_FIELD_INSULATION, NULL))
      && tl_leg_fact (leg, self->stock, TL_FIELD_INSULATION_DIAMETER) == NULL)
    return 0.0;
  if (!tl_assembly_need_leg (self, leg, TL_FIELD_INSULATION_DIAMETER, &diameter))
    return 0.0;
  return MAX (diameter, metal);
}

const TlLayer *
tl_leg_lug (const TlAssembly *self, const TlLeg *leg)
{
  const TlLayer *lug = tl_assembly_layer_on (self, leg->id, TL_PART_LUG);

  if (lug == NULL && leg->seat.kind == TL_SEAT_PORT)
    {
      lug = tl_joint_layer (self->joint, leg->seat.of);
      if (lug != NULL && lug->kind != TL_PART_LUG)
        lug = NULL;
    }
  return lug;
}

gboolean
tl_assembly_has_compound_on (const TlAssembly *self, const char *owner)
{
  return tl_assembly_layer_on (self, owner, TL_PART_COMPOUND) != NULL;
}

const TlBody *
tl_assembly_body (const TlAssembly *self, guint index)
{
  g_return_val_if_fail (self != NULL && index < self->bodies->len, NULL);

  return self->bodies->pdata[index];
}

const TlBody *
tl_assembly_find_body (const TlAssembly *self, const char *owner, TlBodyRole role, guint *index)
{
  g_return_val_if_fail (self != NULL && owner != NULL, NULL);

  for (guint i = 0; i < self->bodies->len; i++)
    {
      const TlBody *body = self->bodies->pdata[i];

      if (body->role == role && strcmp (body->owner, owner) == 0)
        {
          if (index != NULL)
            *index = i;
          return body;
        }
    }
  return NULL;
}
