/* steps-terminal.c: the steps of a terminal or branch connector, and of a soldered or welded splice.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include "base/quantity.h"

#include <string.h>

static const TlLayer *
layer_of_kind (const TlPlanner *self, TlPartKind one, TlPartKind other)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (self->joint->layers, i);

      if (layer->kind == one || layer->kind == other)
        return layer;
    }
  return NULL;
}

static gboolean
is_form (const TlPlanner *self, const TlLayer *terminal, const char *form)
{
  return strcmp (tl_layer_word (terminal, self->stock, TL_FIELD_TERMINAL_FORM, ""), form) == 0;
}

static gboolean
has_spring (const TlPlanner *self, const TlLayer *terminal)
{
  return is_form (self, terminal, "leaf-spring") || is_form (self, terminal, "cage-spring");
}

static void
put_in (TlPlanner *self, const TlLayer *terminal)
{
  g_autofree char *mark = tl_planner_mark (self, terminal->id);
  gboolean         spring = has_spring (self, terminal);
  gboolean         branch = terminal->kind == TL_PART_BRANCH;
  TlStep          *step = tl_planner_step (
               self, "insert",
               tl_wording_fill (
                   tl_planner_text (
                       self,
              branch ? TL_N_ (
                           "Open {part}, lay it over the run that is not cut, then put the tap into its "
                                    "own mouth. No insulation under the clamp.")
                       : spring ? TL_N_ ("Open the clamp of {part} and push each conductor into its own "
                                                  "mouth until it stops; "
                                                  "let the clamp close. No strand stays outside.")
                                : TL_N_ ("Push each conductor into its own mouth of {part} until it stops, "
                                                  "the screw open. No "
                                                  "strand stays outside, no insulation under the screw.")),
                   "part", mark, NULL));

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg     *leg = g_ptr_array_index (self->joint->legs, i);
      double           inserted = tl_leg_number (leg, self->stock, TL_FIELD_INSERTION, 0.0);
      g_autofree char *leg_mark = tl_planner_mark (self, leg->id);
      g_autofree char *label =
          tl_wording_fill (tl_planner_text (self, TL_N_ ("inside {part}")), "part", leg_mark, NULL);

      if (inserted > 0.0)
        tl_planner_figure (self, step, label, tl_planner_quantity (self, inserted, "mm"));
    }
}

static void
tighten (TlPlanner *self, const TlLayer *terminal)
{
  double  torque = tl_layer_number (terminal, self->stock, TL_FIELD_TORQUE, 0.0);
  TlStep *step;

  if (has_spring (self, terminal))
    return;
  step = tl_planner_step (
      self, "tighten",
      g_strdup (tl_planner_text (self, TL_N_ ("Tighten in one smooth pull with a torque driver "
                                              "that fits the slot. A second pull after "
                                              "a minute, to the same torque, and no further: the "
                                              "figure on the part comes first."))));
  if (torque > 0.0)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("torque")),
                       tl_planner_quantity (self, torque, "N_m"));
  tl_planner_tool (self, TL_N_ ("Torque driver, calibrated"),
                   torque > 0.0 ? tl_planner_quantity (self, torque, "N_m") : NULL);
}

static void
hold_in_place (TlPlanner *self)
{
  TlStep *step = tl_planner_hold (
      self, "hold-tug",
      g_strdup (tl_planner_text (self, TL_N_ ("No bare metal outside, no strand beside. Then a "
                                              "light tug by hand on each wire: nothing "
                                              "slips or turns."))),
      g_strdup (tl_planner_text (self, TL_N_ ("take the wire out, cut it back to sound metal and "
                                              "start anew; a nicked end is not used again."))));

  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("tug")),
                     g_strdup (tl_planner_text (self, TL_N_ ("by hand, each wire"))));
}

void
tl_steps_terminal (TlPlanner *self)
{
  const TlLayer *terminal = layer_of_kind (self, TL_PART_TERMINAL, TL_PART_BRANCH);

  tl_steps_strip (self);
  tl_steps_prepare (self);
  if (terminal != NULL)
    {
      put_in (self, terminal);
      tighten (self, terminal);
    }
  hold_in_place (self);
  tl_steps_measure_bare (self);
  tl_steps_measure (self);
  tl_steps_dress_and_close (self);
}

/* --- splices --- */

static void
join_splice (TlPlanner *self, const TlLayer *solder)
{
  gboolean weld =
      solder != NULL
      && strcmp (tl_layer_word (solder, self->stock, TL_FIELD_SPLICE_FORM, "soldered"), "welded")
             == 0;
  double melting =
      solder != NULL ? tl_layer_number (solder, self->stock, TL_FIELD_MELTING, 0.0) : 0.0;
  TlStep *step = tl_planner_step (
      self, "lay",
      g_strdup (tl_planner_text (
          self,
          TL_N_ ("Lay the ends side by side and wind them so that they hold without solder."))));

  if (self->assembly->splice.overlap_mm > 0.0)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("side by side")),
                       tl_planner_quantity (self, self->assembly->splice.overlap_mm, "mm"));
  if (solder == NULL) /* a bare twist: what is not in the drawing is not told to be done */
    return;
  step = tl_planner_step (
      self, weld ? "weld" : "solder",
      g_strdup (tl_planner_text (
          self, weld ? TL_N_ ("Weld, by a person trained for it, with a fire watch and the "
                              "insulation shielded from heat.")
                     : TL_N_ ("Heat the wires, not the solder, until it runs through; take the "
                              "heat away and keep still until it is dull."))));
  if (!weld && melting > 0.0)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("solder melts at")),
                       tl_planner_quantity (self, melting, "degC"));
  tl_planner_tool (self,
                   weld ? TL_N_ ("Welding set of the trained person")
                        : TL_N_ ("Soldering iron of the right size, solder, flux"),
                   NULL);
  if (!weld)
    tl_planner_step (
        self, "clean-splice",
        g_strdup (tl_planner_text (self, TL_N_ ("Clean the flux off while it is warm, and let the "
                                                "splice cool before it is moved."))));
}

void
tl_steps_splice (TlPlanner *self)
{
  tl_steps_slide_seal (self);
  tl_steps_strip (self);
  tl_steps_prepare (self);
  join_splice (self, layer_of_kind (self, TL_PART_SOLDER, TL_PART_SOLDER));
  hold_in_place (self);
  tl_steps_measure_bare (self);
  tl_steps_shrink (self);
  tl_steps_measure (self);
  tl_steps_dress_and_close (self);
}
