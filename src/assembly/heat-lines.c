/* heat-lines.c: what the network of a joint is made of: lines, zones of their surface, interfaces, and limits of the data.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

gboolean
tl_heat_fail (TlHeatModel *self, const char *reason, const char *owner, TlField field)
{
  if (self->reason == NULL)
    {
      self->reason = reason;
      self->owner = owner;
      self->field = field;
    }
  return FALSE;
}

gboolean
tl_heat_limit (TlHeatModel *self, const char *id, double *value)
{
  TlThreshold row;

  if (!tl_assembly_limit (self->assembly, id, &row))
    return tl_heat_fail (self, TL_N_ ("The data hold no limit for it."), NULL, TL_N_FIELDS);
  *value = row.value;
  return TRUE;
}

double
tl_heat_material_number (const TlHeatModel *self, const char *material, TlField field,
                         double fallback)
{
  const TlMaterial *row =
      material != NULL ? tl_stock_material (self->assembly->stock, material) : NULL;

  return row != NULL ? tl_facts_number (row->facts, field, fallback) : fallback;
}

gint
tl_heat_add_line (TlHeatModel *self, const char *owner, guint body, const char *material,
                  double x0_m, double x1_m, double section_m2)
{
  const TlMaterial *row = tl_stock_material (self->assembly->stock, material);
  TlHeatLine        line = { g_strdup (owner), body, x1_m - x0_m > 0.5 * self->limits.lead_m };
  double            density, heat;

  if (row == NULL || self->network.n_bodies == TL_HEAT_MAX_LINES)
    {
      g_free (line.owner);
      tl_heat_fail (self, TL_N_ ("{part} has more parts than can be reckoned."), owner,
                    TL_N_FIELDS);
      return -1;
    }
  density = tl_facts_number (row->facts, TL_FIELD_DENSITY, 8.0) * 1000.0;
  heat = tl_facts_number (row->facts, TL_FIELD_HEAT_CAPACITY, 400.0);
  self->bodies[self->network.n_bodies] = (TlNetBody){
    .name = NULL,
    .x0_m = x0_m,
    .x1_m = x1_m,
    .section_m2 = section_m2,
    .resistivity_20_ohm_m = 1e-6 * tl_facts_number (row->facts, TL_FIELD_RESISTIVITY, 0.1),
    .coefficient_per_K = tl_facts_number (row->facts, TL_FIELD_TEMPERATURE_COEFFICIENT, 0.004),
    .conductivity_W_per_mK = tl_facts_number (row->facts, TL_FIELD_CONDUCTIVITY, 50.0),
    .capacity_J_per_m3K = density * heat,
  };
  g_array_append_val (self->lines, line);
  return (gint) self->network.n_bodies++;
}

gboolean
tl_heat_add_zone (TlHeatModel *self, gint line, double x0_m, double x1_m, double metal_m,
                  double outer_m, const char *cover)
{
  double conductivity = tl_heat_material_number (self, cover, TL_FIELD_CONDUCTIVITY, 0.0),
         layer = 0.0;

  if (x1_m - x0_m <= 1e-9 || outer_m <= 0.0)
    return TRUE;
  if (self->network.n_zones == TL_HEAT_MAX_ZONES)
    return tl_heat_fail (self, TL_N_ ("The joint has more parts than can be reckoned."), NULL,
                         TL_N_FIELDS);
  if (cover != NULL && conductivity > 0.0 && outer_m > metal_m)
    layer = log (outer_m / metal_m) / (2.0 * G_PI * conductivity);
  self->zones[self->network.n_zones++] = (TlNetZone){
    .body = (guint) line,
    .x0_m = x0_m,
    .x1_m = x1_m,
    .perimeter_m = G_PI * outer_m,
    .size_m = outer_m,
    .layer_mK_per_W = layer,
    .film_constant = self->limits.film_constant,
    .film_exponent = self->limits.film_exponent,
    .emissivity = cover != NULL ? self->limits.emissivity_covered : self->limits.emissivity_bare,
  };
  return TRUE;
}

gboolean
tl_heat_add_lead_zones (TlHeatModel *self, gint line, const TlLeg *leg, double bare_x0_m,
                        double bare_x1_m, gboolean leaves_left)
{
  const TlStock   *stock = self->assembly->stock;
  const TlNetBody *body = &self->bodies[line];
  double           metal = 2.0 * sqrt (body->section_m2 / G_PI);
  const char      *insulation = tl_leg_word (leg, stock, TL_FIELD_INSULATION, "none");
  double           outer = tl_leg_number (leg, stock, TL_FIELD_INSULATION_DIAMETER, 0.0) / 1000.0;
  gboolean         is_covered = outer > metal && tl_stock_material (stock, insulation) != NULL;

  return tl_heat_add_zone (self, line, bare_x0_m, bare_x1_m, metal, metal, NULL)
         && tl_heat_add_zone (self, line, leaves_left ? body->x0_m : bare_x1_m,
                              leaves_left ? bare_x0_m : body->x1_m, metal,
                              is_covered ? outer : metal, is_covered ? insulation : NULL);
}

gboolean
tl_heat_add_interface (TlHeatModel *self, guint contact, gint p, gint q, double x0_m, double x1_m,
                       TlRange ohm, TlRange force_N, double area_mm2)
{
  TlHeatInterface row = { contact, (guint) p, (guint) q, ohm, TL_TRUST_B, force_N, area_mm2 };
  double          metallic, gap;

  if (self->network.n_interfaces == TL_HEAT_MAX_INTERFACES)
    return tl_heat_fail (self, TL_N_ ("The joint has more contacts than can be reckoned."), NULL,
                         TL_N_FIELDS);
  /* Heat passes by the metallic spots (Wiedemann-Franz at 60 degC) and by the gap around them. */
  metallic = self->limits.lorenz * 333.0 / ohm.best;
  gap = self->limits.gap_W_per_mK * 1e-6 * area_mm2 / self->limits.gap_m;
  self->interfaces[self->network.n_interfaces++] = (TlNetInterface){
    .p = (guint) p,
    .q = (guint) q,
    .x0_m = x0_m,
    .x1_m = x1_m,
    .resistance_20_ohm = ohm.best,
    .coefficient_per_K = 2.0 / 3.0 * 0.004,
    .conductance_W_per_K = metallic + gap,
  };
  g_array_append_val (self->rows, row);
  return TRUE;
}
