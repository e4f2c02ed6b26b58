/* heat-splice.c: a splice as its conductors side by side on 0 .. overlap.
 *
 * Solder or weld is a layer between two neighbours, as wide as the thinner wire and wetted in part; a twist has only the
 * little force with which its wires hold each other.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

/* Part of its round that one of two wires side by side turns to the air. */
#define FREE_RATIO 0.7
/* Part of its round along which two wires of a twist can bear on each other. */
#define TWIST_FACE_RATIO 0.1

static gboolean
three_limits (TlHeatModel *self, const char *low, const char *best, const char *high,
              TlRange *range)
{
  return tl_heat_limit (self, low, &range->low) && tl_heat_limit (self, best, &range->best)
         && tl_heat_limit (self, high, &range->high);
}

/* Across the bond: rho t/(w L wetted). */
static gboolean
bond_ohm (TlHeatModel *self, double width_m, double length_m, TlRange *ohm)
{
  const TlLayer *bond = tl_joint_layer (self->assembly->joint, self->assembly->splice.layer);
  const char    *metal = tl_layer_word (bond, self->assembly->stock, TL_FIELD_MATERIAL, NULL);
  double  resistivity = 1e-6 * tl_heat_material_number (self, metal, TL_FIELD_RESISTIVITY, 0.15);
  double  gap_um, whole;
  TlRange wetted;

  if (!tl_heat_limit (self, "heat.solder-gap", &gap_um)
      || !three_limits (self, "heat.solder-wetted-low", "heat.solder-wetted",
                        "heat.solder-wetted-high", &wetted))
    return FALSE;
  whole = resistivity * 1e-6 * gap_um / (width_m * length_m);
  *ohm = (TlRange){ whole / wetted.high, whole / wetted.best, whole / wetted.low };
  return TRUE;
}

static gboolean
twist_ohm (TlHeatModel *self, const TlContact *contact, double width_m, double length_m,
           TlRange *force_N, TlRange *ohm)
{
  const TlAssembly *assembly = self->assembly;
  double            spacing;

  if (!three_limits (self, "heat.twist-force-low", "heat.twist-force", "heat.twist-force-high",
                     force_N)
      || !tl_heat_limit (self, "heat.spot-spacing", &spacing))
    return FALSE;
  return tl_heat_contact_ohm (self, tl_assembly_body (assembly, contact->a),
                              tl_assembly_body (assembly, contact->b), contact->surface_a,
                              contact->surface_b, *force_N,
                              1e6 * G_PI * width_m * length_m * TWIST_FACE_RATIO,
                              MAX (2.0, 1000.0 * length_m / spacing), FALSE, FALSE, ohm);
}

static gboolean
join (TlHeatModel *self, const TlHeatCore *one, const TlHeatCore *other, guint *joined)
{
  double           x0 = MAX (one->in0_m, other->in0_m), x1 = MIN (one->in1_m, other->in1_m);
  double           width = MIN (one->metal_m, other->metal_m);
  TlRange          force = tl_range_exact (0.0), ohm;
  guint            index;
  const TlContact *contact = tl_heat_pressed (self, one->body, other->body, &index);

  if (contact == NULL || x1 - x0 <= 1e-4)
    return TRUE;
  if (self->assembly->splice.layer != NULL
          ? !bond_ohm (self, width, x1 - x0, &ohm)
          : !twist_ohm (self, contact, width, x1 - x0, &force, &ohm))
    return FALSE;
  (*joined)++;
  return tl_heat_add_interface (self, index, one->line, other->line, x0, x1, ohm, force,
                                1e6 * width * (x1 - x0));
}

/* Surface of a conductor along the others, under the cap or sealing sleeve if there is one. */
static gboolean
add_surface (TlHeatModel *self, const TlHeatCore *core, double length_m)
{
  const TlSealFigures *seal = &self->assembly->seal;
  const TlLayer       *cover =
      seal->seal != NULL ? tl_joint_layer (self->assembly->joint, seal->seal) : NULL;
  double size = FREE_RATIO * core->metal_m;
  double outer = cover != NULL ? size + 2.0 * MAX (seal->wall_mm, 0.5) / 1000.0 : size;

  return tl_heat_add_zone (
      self, core->line, 0.0, length_m, size, outer,
      cover != NULL ? tl_layer_word (cover, self->assembly->stock, TL_FIELD_MATERIAL, "polyolefin")
                    : NULL);
}

gboolean
tl_heat_build_splice (TlHeatModel *self)
{
  double     length = self->assembly->splice.overlap_mm / 1000.0;
  TlHeatCore cores[TL_JOINT_MAX_LEGS];
  guint      n = length > 0.0 ? tl_heat_find_cores (self, length, cores) : 0, a, b, joined = 0;

  if (!tl_heat_choose_ends (self, cores, n, length, &a, &b))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!tl_heat_add_core (self, &cores[i], length, i == a || i == b)
        || !add_surface (self, &cores[i], length))
      return FALSE;
  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n; k++)
      if (!join (self, &cores[i], &cores[k], &joined))
        return FALSE;
  if (joined == 0)
    return tl_heat_fail (self, TL_N_ ("{part} is not pressed against its neighbour."),
                         cores[0].leg->id, TL_N_FIELDS);
  tl_heat_set_ends (self, &cores[a], &cores[b], length);
  return TRUE;
}
