/* heat-terminal.c: a terminal as lines side by side: its metal on 0 .. L, the conductors that end in it.
 *
 * Current goes from a conductor into the metal at its floor, and beside that through screw or plate; teeth are the only way
 * of a conductor that keeps its insulation. Springs press but are left out as conductors: thin, and of poor metal. A
 * ferrule counts with its conductor. The housing is a layer over the metal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>
#include <string.h>

typedef struct
{
  double length_m;
  guint  metal; /* body */
  gint   line;
} Terminal;

static gboolean
read_terminal (TlHeatModel *self, Terminal *terminal)
{
  const TlTerminalFigures *figures = &self->assembly->terminal;
  gboolean is_spring = figures->form != NULL && strstr (figures->form, "spring") != NULL;

  if (tl_assembly_find_body (self->assembly, figures->terminal, TL_BODY_TERMINAL, &terminal->metal)
          == NULL
      || figures->length_mm <= 0.0)
    return tl_heat_fail (self, TL_N_ ("{part} has no sizes yet."), figures->terminal,
                         TL_FIELD_LENGTH);
  terminal->length_m = figures->length_mm / 1000.0;
  if (figures->clamp_N.best <= 0.0 && is_spring)
    return tl_heat_fail (self, TL_N_ ("The force of the spring of {part} is not entered."),
                         figures->terminal, TL_FIELD_CLAMP_FORCE);
  if (figures->clamp_N.best <= 0.0)
    return tl_heat_fail (self, TL_N_ ("The torque of {part} is not entered."), figures->terminal,
                         TL_FIELD_TORQUE);
  return TRUE;
}

/* Metal across: all that is not bore. */
static double
metal_mm2 (const TlAssembly *assembly)
{
  const TlBody *body;
  guint         index;
  double        sum = 0.0;

  body = tl_assembly_find_body (assembly, assembly->terminal.terminal, TL_BODY_TERMINAL, &index);
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);

      sum += s->inner_mm * s->outer_mm - G_PI / 4.0 * s->bore_mm * s->bore_mm;
    }
  return sum;
}

static gboolean
add_metal (TlHeatModel *self, Terminal *terminal)
{
  const TlAssembly        *assembly = self->assembly;
  const TlTerminalFigures *figures = &assembly->terminal;
  const TlBody            *body = tl_assembly_body (assembly, terminal->metal);
  double                   rows = figures->ports > 2 ? 2.0 : 1.0;
  /* Round of the same surface. */
  double bare = 2e-3 / G_PI * (rows * figures->row_mm + figures->columns * figures->column_mm);
  double outer = 2e-3 / G_PI * (assembly->packed_width_mm + assembly->packed_height_mm);

  terminal->line = tl_heat_add_line (self, figures->terminal, terminal->metal, body->material, 0.0,
                                     terminal->length_m, 1e-6 * metal_mm2 (assembly));
  return terminal->line >= 0
         && tl_heat_add_zone (self, terminal->line, 0.0, terminal->length_m, bare,
                              figures->body_material != NULL ? MAX (outer, bare) : bare,
                              figures->body_material);
}

/* Ferrule, if the conductor has one: it is what touches. */
static guint
shown_body (const TlAssembly *assembly, const TlHeatCore *core)
{
  guint body = core->body;

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody  *other = assembly->bodies->pdata[i];
      const TlLayer *layer =
          other->role == TL_BODY_FERRULE ? tl_joint_layer (assembly->joint, other->owner) : NULL;

      if (layer != NULL && g_strcmp0 (layer->seat.of, core->leg->id) == 0)
        body = i;
    }
  return body;
}

static gboolean
contact_ohm (TlHeatModel *self, const TlContact *contact, double spots, TlRange *ohm)
{
  return tl_heat_contact_ohm (self, tl_assembly_body (self->assembly, contact->a),
                              tl_assembly_body (self->assembly, contact->b), contact->surface_a,
                              contact->surface_b, contact->force_N, contact->area_mm2, spots, TRUE,
                              FALSE, ohm);
}

static void
widen (TlRange *sum, TlRange by)
{
  sum->low += by.low;
  sum->best += by.best;
  sum->high += by.high;
}

/* What comes behind a screw's or plate's contact before the metal: the screws to their thread. */
static gboolean
add_screw_path (TlHeatModel *self, const Terminal *terminal, guint presser, double spots,
                TlRange *ohm)
{
  const TlAssembly *assembly = self->assembly;
  guint             screw = presser, index;

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlContact *contact = tl_heat_pressed (self, presser, i, &index);
      const TlBody    *body = assembly->bodies->pdata[i];
      TlRange          step;

      if (contact == NULL || body->role != TL_BODY_SCREW)
        continue;
      if (!contact_ohm (self, contact, spots, &step))
        return FALSE;
      widen (ohm, step);
      screw = i;
    }
  const TlBody  *body = tl_assembly_body (assembly, screw);
  const TlSolid *rod = &g_array_index (body->solids, TlSolid, 0);

  if (body->role != TL_BODY_SCREW)
    return TRUE;
  /* Half of its length lies before the thread carries. */
  double length = fabs (rod->z1_mm - rod->z0_mm) / 2.0;
  double section = G_PI / 4.0 * rod->outer_mm * rod->outer_mm * body->solids->len;
  double resistivity = tl_heat_material_number (self, body->material, TL_FIELD_RESISTIVITY, 0.1);

  widen (ohm, tl_range_exact (1e-3 * resistivity * length / section));
  return TRUE;
}

/* One way from a conductor into the metal: contact @index with the floor, or with what presses. */
static gboolean
add_way (TlHeatModel *self, const Terminal *terminal, const TlHeatCore *core, guint index,
         guint presser)
{
  const TlContact *contact = &g_array_index (self->assembly->contacts, TlContact, index);
  const TlBody    *conductor = tl_assembly_body (self->assembly, core->body);
  double           at = contact->at_x_mm / 1000.0, half, least, spots;
  TlRange          ohm;

  if (!tl_heat_limit (self, "heat.spots-least", &least))
    return FALSE;
  spots = least + (conductor->strands > 1 ? 2.0 : 0.0);
  if (!contact_ohm (self, contact, spots, &ohm))
    return FALSE;
  if (presser != terminal->metal && g_strcmp0 (self->assembly->terminal.form, "piercing") != 0
      && !add_screw_path (self, terminal, presser, spots, &ohm))
    return FALSE;
  /* A conductor that is thought turned over keeps its place only in the middle of a bore. */
  if (core->leg->seat.place % 2 == 1 && core->right)
    at = terminal->length_m - at;
  half = CLAMP (contact->rim_mm / 4000.0, 2e-4, (core->in1_m - core->in0_m) / 2.0);
  at = CLAMP (at, core->in0_m + half, core->in1_m - half);
  return tl_heat_add_interface (self, index, core->line, terminal->line, at - half, at + half, ohm,
                                contact->force_N, contact->area_mm2);
}

static gboolean
join (TlHeatModel *self, const Terminal *terminal, const TlHeatCore *core)
{
  const TlAssembly *assembly = self->assembly;
  guint             shown = shown_body (assembly, core), ways = 0;

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];
      guint         index;

      if ((body->role != TL_BODY_TERMINAL && body->role != TL_BODY_SCREW)
          || tl_heat_pressed (self, shown, i, &index) == NULL)
        continue;
      if (!add_way (self, terminal, core, index, i))
        return FALSE;
      ways++;
    }
  return ways > 0
         || tl_heat_fail (self, TL_N_ ("{part} is not pressed against its neighbour."),
                          core->leg->id, TL_N_FIELDS);
}

gboolean
tl_heat_build_terminal (TlHeatModel *self)
{
  TlHeatCore cores[TL_JOINT_MAX_LEGS];
  Terminal   terminal;
  guint      n, a, b;

  if (!read_terminal (self, &terminal))
    return FALSE;
  n = tl_heat_find_cores (self, terminal.length_m, cores);
  if (!tl_heat_choose_ends (self, cores, n, terminal.length_m, &a, &b)
      || !add_metal (self, &terminal))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!tl_heat_add_core (self, &cores[i], terminal.length_m, i == a || i == b)
        || !join (self, &terminal, &cores[i]))
      return FALSE;
  tl_heat_set_ends (self, &cores[a], &cores[b], terminal.length_m);
  return TRUE;
}
