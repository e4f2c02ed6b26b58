/* terminal-figures.c: what rules ask of a terminal: force on a conductor, marks, room it takes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/terminal-private.h"

static void
clamp_figures (TlTerminalBuild *build)
{
  TlAssembly        *self = build->assembly;
  TlTerminalFigures *figures = &self->terminal;
  const TlFact      *torque = tl_layer_fact (build->layer, self->stock, TL_FIELD_TORQUE);
  const TlFact      *factor = tl_layer_fact (build->layer, self->stock, TL_FIELD_NUT_FACTOR);
  const TlFact      *spring = tl_layer_fact (build->layer, self->stock, TL_FIELD_CLAMP_FORCE);
  TlRange            nut_factor = { tl_assembly_limit_or (self, "grip.nut-factor-low", 0.0),
                                    tl_assembly_limit_or (self, "grip.nut-factor", 0.0),
                                    tl_assembly_limit_or (self, "grip.nut-factor-high", 0.0) };
  guint              most = 1;
  double             screws = build->mouths[0].screws;
  TlCall             call;

  if (build->clamp == TL_CLAMP_SPRING)
    {
      if (spring != NULL)
        figures->clamp_N = spring->value;
      return;
    }
  figures->thread_mm = build->thread_mm;
  figures->has_torque = torque != NULL;
  if (torque == NULL)
    return;
  figures->torque_Nm = torque->value;
  if (factor != NULL)
    nut_factor = factor->value;
  if (torque->value.low <= 0.0 || nut_factor.low <= 0.0)
    return;
  for (guint i = 0; i < build->ports; i++)
    most = MAX (most, build->mouths[i].legs);
  tl_call_init (&call, "torque-to-preload");
  tl_call_set (&call, "torque", torque->value);
  tl_call_set (&call, "nut_factor", nut_factor);
  tl_call_set_exact (&call, "diameter", build->thread_mm);
  if (!tl_call_run (&call, NULL))
    return;
  figures->clamp_N = tl_call_get (&call, "preload");
  figures->clamp_N =
      (TlRange){ figures->clamp_N.low * screws / most, figures->clamp_N.best * screws / most,
                 figures->clamp_N.high * screws / most };
}

void
tl_terminal_figures (TlTerminalBuild *build)
{
  TlAssembly        *self = build->assembly;
  TlTerminalFigures *figures = &self->terminal;
  const TlLayer     *layer = build->layer;

  figures->is_branch = build->is_branch;
  figures->form = tl_layer_word (layer, self->stock, TL_FIELD_TERMINAL_FORM, NULL);
  figures->marked_for = tl_layer_word (layer, self->stock, TL_FIELD_MARKED_FOR, NULL);
  figures->marked_class = tl_layer_word (layer, self->stock, TL_FIELD_MARKED_CLASS, NULL);
  figures->section_least_mm2 = tl_layer_number (layer, self->stock, TL_FIELD_SECTION_LEAST, 0.0);
  figures->section_most_mm2 = tl_layer_number (layer, self->stock, TL_FIELD_SECTION_MOST, 0.0);
  figures->body_material = tl_layer_word (layer, self->stock, TL_FIELD_BODY_MATERIAL, NULL);
  figures->screws = build->clamp == TL_CLAMP_SPRING ? 0 : build->mouths[0].screws;
  figures->bore_mm = build->bore_mm;
  figures->length_mm = build->length_mm;
  figures->ports = build->ports;
  figures->columns = build->columns;
  figures->row_mm = build->row_mm;
  figures->column_mm = build->column_mm;
  for (guint i = 0; i < build->ports; i++)
    figures->legs[i] = build->mouths[i].legs;
  clamp_figures (build);
}

/* Bodies that are no conductors, in all three ways. */
void
tl_terminal_packed_sizes (TlTerminalBuild *build)
{
  TlAssembly *self = build->assembly;
  double      low[3] = { 0.0, -build->column_mm / 2.0, -build->row_mm / 2.0 };
  double      high[3] = { build->length_mm, build->column_mm / 2.0, build->row_mm / 2.0 };

  for (guint i = 0; i < self->bodies->len; i++)
    {
      const TlBody *body = self->bodies->pdata[i];

      for (guint k = 0; !body->is_leg && k < body->solids->len; k++)
        {
          const TlSolid *s = &g_array_index (body->solids, TlSolid, k);

          if (s->kind == TL_SOLID_ROD)
            {
              low[2] = MIN (low[2], MIN (s->z0_mm, s->z1_mm));
              high[2] = MAX (high[2], MAX (s->z0_mm, s->z1_mm));
              continue;
            }
          low[0] = MIN (low[0], s->start_mm);
          high[0] = MAX (high[0], s->end_mm);
          low[1] = MIN (low[1], s->u_mm - s->inner_mm / 2.0);
          high[1] = MAX (high[1], s->u_mm + s->inner_mm / 2.0);
          low[2] = MIN (low[2], s->v_mm - s->outer_mm / 2.0);
          high[2] = MAX (high[2], s->v_mm + s->outer_mm / 2.0);
        }
    }
  self->packed_length_mm = high[0] - low[0];
  self->packed_width_mm = high[1] - low[1];
  self->packed_height_mm = high[2] - low[2];
}
