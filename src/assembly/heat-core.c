/* heat-core.c: conductors of terminals and splices as lines of the network.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

/* Bare metal beyond the joint at least and at most. */
#define BARE_LEAST_M 1e-3
#define BARE_MOST_M 0.05

guint
tl_heat_find_cores (TlHeatModel *self, double length_m, TlHeatCore cores[TL_JOINT_MAX_LEGS])
{
  const TlAssembly *assembly = self->assembly;
  guint             n = 0;

  for (guint i = 0; i < assembly->joint->legs->len && n < TL_JOINT_MAX_LEGS; i++)
    {
      const TlLeg   *leg = assembly->joint->legs->pdata[i];
      TlHeatCore    *core = &cores[n];
      const TlBody  *body = tl_assembly_find_body (assembly, leg->id, TL_BODY_CORE, &core->body);
      const TlSolid *solid = body != NULL ? &g_array_index (body->solids, TlSolid, 0) : NULL;
      double         start, end;

      if (solid == NULL)
        continue;
      start = solid->start_mm / 1000.0;
      end = solid->end_mm / 1000.0;
      *core = (TlHeatCore){ .leg = leg, .body = core->body, .line = -1 };
      core->in0_m = MAX (0.0, start);
      core->in1_m = MIN (length_m, end);
      if (core->in1_m - core->in0_m < 1e-4)
        continue;
      core->right = leg->seat.kind == TL_SEAT_PORT ? leg->seat.place % 2 == 0
                                                   : start > -1e-9 && end > length_m;
      core->passes = assembly->terminal.is_branch && leg->seat.place == 1 && start <= 1e-9
                     && end >= length_m - 1e-9;
      core->bare_m = CLAMP (core->right ? end - length_m : -start, BARE_LEAST_M, BARE_MOST_M);
      n++;
    }
  return n;
}

static gboolean
is_unlike (const TlHeatModel *self, const TlHeatCore *one, const TlHeatCore *other)
{
  return g_strcmp0 (tl_assembly_body (self->assembly, one->body)->material,
                    tl_assembly_body (self->assembly, other->body)->material)
         != 0;
}

gboolean
tl_heat_choose_ends (TlHeatModel *self, TlHeatCore *cores, guint n, double length_m, guint *a,
                     guint *b)
{
  if (n < 2)
    return tl_heat_fail (self, TL_N_ ("Two conductors are needed."), NULL, TL_N_FIELDS);
  *a = 0;
  for (guint i = n; i-- > 0;)
    if (!cores[i].right)
      *a = i;
  *b = *a == n - 1 ? 0 : n - 1;
  /* Of unlike metals if there are: that pair is what the joint is for. */
  for (guint i = 0; i < n; i++)
    if (i != *a && is_unlike (self, &cores[*a], &cores[i]))
      *b = i;
  cores[*a].right = FALSE;
  if (!cores[*b].right)
    {
      double keep = cores[*b].in0_m;

      cores[*b].in0_m = length_m - cores[*b].in1_m;
      cores[*b].in1_m = length_m - keep;
      cores[*b].right = TRUE;
    }
  cores[*b].passes = FALSE;
  return TRUE;
}

gboolean
tl_heat_add_core (TlHeatModel *self, TlHeatCore *core, double length_m, gboolean carries)
{
  const TlBody *body = tl_assembly_body (self->assembly, core->body);
  double section = 1e-6 * tl_leg_number (core->leg, self->assembly->stock, TL_FIELD_SECTION, 0.0);
  double lead = self->limits.lead_m * (carries ? 1.0 : 0.5);
  double x0, x1;

  if (section <= 0.0)
    return tl_heat_fail (self, TL_N_ ("The section of {part} is not entered."), core->leg->id,
                         TL_FIELD_SECTION);
  core->metal_m = 2.0 * sqrt (section / G_PI);
  x0 = core->right ? core->in0_m : -lead;
  x1 = core->right    ? length_m + lead
       : core->passes ? length_m + 0.5 * self->limits.lead_m
                      : core->in1_m;
  core->line = tl_heat_add_line (self, core->leg->id, core->body, body->material, x0, x1, section);
  if (core->line < 0)
    return FALSE;
  if ((core->right || core->passes)
      && !tl_heat_add_lead_zones (self, core->line, core->leg, length_m, length_m + core->bare_m,
                                  FALSE))
    return FALSE;
  return core->right
         || tl_heat_add_lead_zones (self, core->line, core->leg, -core->bare_m, 0.0, TRUE);
}

void
tl_heat_set_ends (TlHeatModel *self, const TlHeatCore *a, const TlHeatCore *b, double length_m)
{
  self->leg_a = a->leg;
  self->leg_b = b->leg;
  self->network.body_a = (guint) a->line;
  self->network.body_b = (guint) b->line;
  self->network.joint_x0_m = -0.005;
  self->network.joint_x1_m = length_m + 0.005;
}

const TlContact *
tl_heat_pressed (const TlHeatModel *self, guint one, guint other, guint *index)
{
  const GArray *contacts = self->assembly->contacts;

  for (guint i = 0; i < contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (contacts, TlContact, i);

      if (contact->kind != TL_CONTACT_PRESSED
          || !((contact->a == one && contact->b == other)
               || (contact->a == other && contact->b == one)))
        continue;
      *index = i;
      return contact;
    }
  return NULL;
}
