/* heat-sleeve.c: a pressed sleeve as lines side by side.
 *
 * The barrel lies on 0 .. L. The conductor of the first mouth comes from the left, that of the second leaves to the right;
 * when all enter by one mouth the second is thought turned over, which changes no length. Further conductors carry no
 * current here and cool.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

typedef struct
{
  const TlLeg *leg;
  guint        body;
  gint         line;
  gboolean     right;
  double       in0_m, in1_m; /* inside the barrel */
  double       metal_m;
} Core;

typedef struct
{
  Core          cores[8];
  guint         n;
  const TlBody *barrel;
  guint         barrel_body;
  gint          barrel_line;
  double        length_m, outer_m, bore_m;
} Sleeve;

static gboolean
read_sleeve (TlHeatModel *self, Sleeve *sleeve)
{
  const TlAssembly      *assembly = self->assembly;
  const TlSleeveFigures *figures = &assembly->sleeve;

  sleeve->n = 0;
  sleeve->length_m = figures->length_mm / 1000.0;
  sleeve->outer_m = figures->outer_mm / 1000.0;
  sleeve->bore_m = figures->bore_mm / 1000.0;
  sleeve->barrel =
      tl_assembly_find_body (assembly, figures->sleeve, TL_BODY_BARREL, &sleeve->barrel_body);
  if (sleeve->barrel == NULL || sleeve->length_m <= 0.0 || sleeve->outer_m <= sleeve->bore_m)
    return tl_heat_fail (self, TL_N_ ("{part} has no wall thickness. Enter outside and bore."),
                         figures->sleeve, TL_FIELD_OUTER);
  if (!figures->has_die)
    return tl_heat_fail (self, TL_N_ ("The die that presses {part} is not entered."),
                         figures->sleeve, TL_FIELD_DIE);
  for (guint i = 0; i < assembly->joint->legs->len && sleeve->n < G_N_ELEMENTS (sleeve->cores); i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      Core        *core = &sleeve->cores[sleeve->n];

      if (leg->seat.kind != TL_SEAT_PORT
          || tl_assembly_find_body (assembly, leg->id, TL_BODY_CORE, &core->body) == NULL)
        continue;
      core->leg = leg;
      core->right = leg->seat.place == 2;
      sleeve->n++;
    }
  if (sleeve->n < 2)
    return tl_heat_fail (self, TL_N_ ("Two conductors are needed."), NULL, TL_N_FIELDS);
  return TRUE;
}

/* Which two carry the current: one of each mouth, of unlike metals if there are; all from one side: first and last. */
static void
choose_ends (TlHeatModel *self, Sleeve *sleeve, guint *a, guint *b)
{
  *a = G_MAXUINT;
  *b = G_MAXUINT;
  for (guint i = 0; i < sleeve->n; i++)
    {
      if (!sleeve->cores[i].right && *a == G_MAXUINT)
        *a = i;
      if (sleeve->cores[i].right)
        *b = i;
    }
  if (*a == G_MAXUINT)
    *a = *b == 0 ? sleeve->n - 1 : 0;
  if (*b == G_MAXUINT)
    *b = *a == sleeve->n - 1 ? 0 : sleeve->n - 1;
  sleeve->cores[*a].right = FALSE;
  sleeve->cores[*b].right = TRUE;
}

static gboolean
add_core (TlHeatModel *self, Sleeve *sleeve, Core *core, gboolean carries)
{
  const TlStock *stock = self->assembly->stock;
  const TlBody  *body = tl_assembly_body (self->assembly, core->body);
  double         section = 1e-6 * tl_leg_number (core->leg, stock, TL_FIELD_SECTION, 0.0);
  double         inserted = tl_leg_number (core->leg, stock, TL_FIELD_INSERTION, 0.0) / 1000.0;
  double         strip = tl_leg_number (core->leg, stock, TL_FIELD_STRIP, 0.0) / 1000.0;
  double         lead = self->limits.lead_m * (carries ? 1.0 : 0.5), bare;

  if (section <= 0.0)
    return tl_heat_fail (self, TL_N_ ("The section of {part} is not entered."), core->leg->id,
                         TL_FIELD_SECTION);
  if (inserted <= 0.0)
    inserted = MIN (strip > 0.0 ? strip : sleeve->length_m, sleeve->length_m);
  inserted = CLAMP (inserted, 1e-3, sleeve->length_m);
  core->metal_m = 2.0 * sqrt (section / G_PI);
  bare = CLAMP (strip - inserted, 1e-3, 0.05);
  core->in0_m = core->right ? sleeve->length_m - inserted : 0.0;
  core->in1_m = core->right ? sleeve->length_m : inserted;
  core->line = tl_heat_add_line (self, core->leg->id, core->body, body->material,
                                 core->right ? core->in0_m : -lead,
                                 core->right ? sleeve->length_m + lead : core->in1_m, section);
  if (core->line < 0)
    return FALSE;
  return core->right ? tl_heat_add_lead_zones (self, core->line, core->leg, sleeve->length_m,
                                               sleeve->length_m + bare, FALSE)
                     : tl_heat_add_lead_zones (self, core->line, core->leg, -bare, 0.0, TRUE);
}

static gboolean
add_barrel (TlHeatModel *self, Sleeve *sleeve)
{
  const TlSealFigures *seal = &self->assembly->seal;
  double               section =
      G_PI / 4.0 * (sleeve->outer_m * sleeve->outer_m - sleeve->bore_m * sleeve->bore_m);
  double wall = seal->seal != NULL ? seal->wall_mm / 1000.0 : 0.0;

  sleeve->barrel_line = tl_heat_add_line (self, self->assembly->sleeve.sleeve, sleeve->barrel_body,
                                          sleeve->barrel->material, 0.0, sleeve->length_m, section);
  return sleeve->barrel_line >= 0
         && tl_heat_add_zone (self, sleeve->barrel_line, 0.0, sleeve->length_m, sleeve->outer_m,
                              sleeve->outer_m + 2.0 * wall,
                              seal->seal != NULL ? "polyolefin" : NULL);
}

/* Force that stays after springback, over the pressed length (plastic ring). */
static gboolean
press_force (TlHeatModel *self, const Sleeve *sleeve, double length_m, double diameter_m,
             TlRange *force_N)
{
  double low, best, high;
  TlCall call;

  if (!tl_heat_limit (self, "heat.press-retained-low", &low)
      || !tl_heat_limit (self, "heat.press-retained", &best)
      || !tl_heat_limit (self, "heat.press-retained-high", &high))
    return FALSE;
  tl_call_init (&call, "crimp-grip");
  tl_call_set (&call, "retained", (TlRange){ low, best, high });
  tl_call_set_exact (
      &call, "yield_strength",
      tl_heat_material_number (self, sleeve->barrel->material, TL_FIELD_YIELD, 50.0));
  tl_call_set_exact (&call, "outside_diameter", 1000.0 * sleeve->outer_m);
  tl_call_set_exact (&call, "bore", 1000.0 * MIN (diameter_m, sleeve->bore_m));
  tl_call_set_exact (&call, "friction", 0.3);
  tl_call_set_exact (&call, "length", 1000.0 * length_m);
  tl_call_set_exact (&call, "conductor_area", 1.0);
  tl_call_set_exact (&call, "conductor_strength", 100.0);
  if (!tl_call_run (&call, NULL))
    return tl_heat_fail (self, TL_N_ ("The press of {part} is outside the range of the formula."),
                         self->assembly->sleeve.sleeve, TL_FIELD_OUTER);
  *force_N = tl_call_get (&call, "force");
  return TRUE;
}

static gboolean
is_neighbour (const TlAssembly *assembly, guint one, guint other, guint *index)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);

      if (contact->kind == TL_CONTACT_PRESSED
          && ((contact->a == one && contact->b == other)
              || (contact->a == other && contact->b == one)))
        {
          *index = i;
          return TRUE;
        }
    }
  return FALSE;
}

/* @share_of_round: how much of the wire's round lies against the other. */
static gboolean
join (TlHeatModel *self, const Sleeve *sleeve, guint body, guint other_body, gint line,
      gint other_line, double x0, double x1, double diameter_m, double share_of_round)
{
  const TlAssembly *assembly = self->assembly;
  double  length = x1 - x0, area = 1e6 * G_PI * diameter_m * length * share_of_round, spacing;
  TlRange force, ohm;
  guint   index;

  if (length <= 1e-4 || !is_neighbour (assembly, body, other_body, &index))
    return TRUE;

  const TlContact *contact = &g_array_index (assembly->contacts, TlContact, index);

  if (!tl_heat_limit (self, "heat.spot-spacing", &spacing)
      || !press_force (self, sleeve, length, diameter_m, &force))
    return FALSE;
  force = (TlRange){ force.low * share_of_round, force.best * share_of_round,
                     force.high * share_of_round };
  if (!tl_heat_contact_ohm (self, tl_assembly_body (assembly, contact->a),
                            tl_assembly_body (assembly, contact->b), contact->surface_a,
                            contact->surface_b, force, area, MAX (2.0, 1000.0 * length / spacing),
                            FALSE, TRUE, &ohm))
    return FALSE;
  return tl_heat_add_interface (self, index, line, other_line, x0, x1, ohm, force, area);
}

gboolean
tl_heat_build_sleeve (TlHeatModel *self)
{
  Sleeve sleeve;
  guint  a, b;

  if (!read_sleeve (self, &sleeve))
    return FALSE;
  choose_ends (self, &sleeve, &a, &b);
  for (guint i = 0; i < sleeve.n; i++)
    if (!add_core (self, &sleeve, &sleeve.cores[i], i == a || i == b))
      return FALSE;
  if (!add_barrel (self, &sleeve))
    return FALSE;
  for (guint i = 0; i < sleeve.n; i++)
    {
      const Core *core = &sleeve.cores[i];

      /* Side by side a wire has the wall on half of its round, its neighbours on the rest. */
      if (!join (self, &sleeve, core->body, sleeve.barrel_body, core->line, sleeve.barrel_line,
                 core->in0_m, core->in1_m, core->metal_m,
                 self->assembly->sleeve.overlaps ? 0.5 : 0.9))
        return FALSE;
      for (guint k = i + 1; k < sleeve.n; k++)
        {
          const Core *other = &sleeve.cores[k];

          if (!join (self, &sleeve, core->body, other->body, core->line, other->line,
                     MAX (core->in0_m, other->in0_m), MIN (core->in1_m, other->in1_m),
                     MIN (core->metal_m, other->metal_m), 0.25))
            return FALSE;
        }
    }
  self->leg_a = sleeve.cores[a].leg;
  self->leg_b = sleeve.cores[b].leg;
  self->network.body_a = (guint) sleeve.cores[a].line;
  self->network.body_b = (guint) sleeve.cores[b].line;
  self->network.joint_x0_m = -0.005;
  self->network.joint_x1_m = sleeve.length_m + 0.005;
  return TRUE;
}
