/* steps-stack.c: the steps of a bolted stack.
 *
 * With a wire eye in the stack every figure that hangs on the torque carries the word "estimate":
 * the eye bears on lines, and the friction of its nut is unknown.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include "base/quantity.h"

#include <string.h>

static gboolean
has_wire_eye (const TlPlanner *self)
{
  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->joint->legs, i);

      if (leg->seat.kind == TL_SEAT_STACK
          && strcmp (tl_leg_word (leg, self->stock, TL_FIELD_END, "straight"), "straight") != 0)
        return TRUE;
    }
  return FALSE;
}

/* "1.5 to 2.5 kN (estimate)"; @figure is taken. (transfer full) */
static char *
estimate (const TlPlanner *self, char *figure)
{
  g_autofree char *owned = figure;

  return tl_wording_fill (tl_planner_text (self, TL_N_ ("{figure} (estimate)")), "figure", owned,
                          NULL);
}

/* The torque, never without the word estimate when a wire eye lies in the stack. (transfer full) */
static char *
torque_text (const TlPlanner *self)
{
  char *torque = tl_range_format (self->assembly->stack.torque_Nm, "N_m", self->language);

  return has_wire_eye (self) ? estimate (self, torque) : torque;
}

static void
put_together (TlPlanner *self)
{
  g_autoptr (GPtrArray) stack = tl_joint_stack (self->joint);
  TlStep *step = tl_planner_step (
      self, "stack",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Put the stack together from the head to the nut, in the order listed. Flat "
                       "faces lie flat; no insulation gets between."))));

  for (guint i = 0; i < stack->len; i++)
    {
      const char      *owner = g_ptr_array_index (stack, i);
      g_autofree char *mark = tl_planner_mark (self, owner);

      tl_planner_figure (self, step, mark,
                         tl_assembly_owner_name (self->assembly, owner, self->language));
    }
  if (self->assembly->stack.has_conical)
    tl_planner_step (
        self, "crown",
        g_strdup (tl_planner_text (self, TL_N_ ("Turn the hollow side of the conical washer to the "
                                                "joint, its crown to the nut or head."))));
}

static void
tighten (TlPlanner *self)
{
  const TlStackFigures *figures = &self->assembly->stack;
  gboolean              is_estimate = has_wire_eye (self);
  TlStep               *step = tl_planner_step (
                    self, "tighten",
                    g_strdup (tl_planner_text (
                        self, is_estimate ? TL_N_ ("Hold the bolt still and turn the nut in one smooth pull, "
                                                                 "with a torque driver. With a wire eye the torque is an "
                                                                 "estimate: watch that the eye closes and does not creep out.")
                                          : TL_N_ ("Hold the bolt still and turn the nut to its torque in one "
                                                                 "smooth pull, with a torque driver."))));

  if (figures->has_torque)
    {
      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("torque")), torque_text (self));
      if (figures->preload_N.high > 0.0)
        tl_planner_figure (
            self, step, tl_planner_text (self, TL_N_ ("clamps with")),
            estimate (self, tl_range_format (figures->preload_N, "N", self->language)));
      tl_planner_tool (self, TL_N_ ("Torque driver, calibrated"), torque_text (self));
    }
  tl_planner_tool (self, TL_N_ ("Spanner to hold the bolt"), NULL);
}

static void
mark_and_hold (TlPlanner *self)
{
  const TlStackFigures *figures = &self->assembly->stack;
  TlStep               *step;

  tl_planner_step (self, "witness",
                   g_strdup (tl_planner_text (
                       self, TL_N_ ("Draw one thin line in paint over bolt end, nut and washer. A "
                                    "line that has parted tells later that something turned."))));
  tl_planner_tool (self, TL_N_ ("Paint marker"), NULL);
  step = tl_planner_hold (
      self, "hold-clamp",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Every eye lies wholly under its washer, the thread stands out of the nut. "
                       "Then a light tug by hand on each wire: nothing turns or slips."))),
      g_strdup (tl_planner_text (self, TL_N_ ("take the stack apart, cut the eye off and bend a "
                                              "new one; do not just turn the nut further."))));
  if (figures->has_nut && figures->protrusion_mm > 0.0)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("thread beyond the nut")),
                       tl_planner_quantity (self, figures->protrusion_mm, "mm"));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("tug")),
                     g_strdup (tl_planner_text (self, TL_N_ ("by hand, each wire"))));
}

void
tl_steps_stack (TlPlanner *self)
{
  tl_steps_slide_seal (self);
  tl_steps_strip (self);
  tl_steps_prepare (self);
  put_together (self);
  tighten (self);
  mark_and_hold (self);
  tl_steps_measure_bare (self);
  tl_steps_shrink (self);
  tl_steps_measure (self);
  tl_steps_dress_and_close (self);
}
