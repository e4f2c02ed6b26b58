/* steps-close.c: what both families end with: the seal, the measurements on the dead circuit,
 * putting away.
 *
 * Nothing here is measured in an open live box. The joint in place gets a light tug and a size
 * check; pulling apart is for a sample made at the bench.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "plan/steps-private.h"

#include <math.h>
#include <string.h>

static const TlLayer *
layer_of_kind (const TlPlanner *self, TlPartKind kind)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (self->joint->layers, i);

      if (layer->kind == kind && layer->seat.kind != TL_SEAT_NONE)
        return layer;
    }
  return NULL;
}

/* The sealing sleeve that the joint ends in, or %NULL. */
static const TlLayer *
seal_layer (const TlPlanner *self)
{
  const char *id = self->assembly->seal.seal;

  return id != NULL ? tl_joint_layer (self->joint, id) : layer_of_kind (self, TL_PART_SEAL);
}

static gboolean
has_adhesive (const TlPlanner *self, const TlLayer *seal)
{
  return strcmp (tl_layer_word (seal, self->stock, TL_FIELD_ADHESIVE, "no"), "yes") == 0;
}

/* The leg that the seal waits on: a loose one if there is one, since the stub at the wall is short.
 */
static const TlLeg *
parking_leg (const TlPlanner *self)
{
  const TlLeg *best = NULL;
  double       longest_mm = -1.0;

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->joint->legs, i);
      gboolean is_loose = strcmp (tl_leg_word (leg, self->stock, TL_FIELD_FIXED, ""), "loose") == 0;
      double   free_mm =
          tl_leg_number (leg, self->stock, TL_FIELD_FREE_LENGTH, 0.0) + (is_loose ? 1e6 : 0.0);

      if (free_mm > longest_mm)
        {
          longest_mm = free_mm;
          best = leg;
        }
    }
  return best;
}

void
tl_steps_slide_seal (TlPlanner *self)
{
  const TlLayer   *seal = seal_layer (self);
  const TlLeg     *leg = parking_leg (self);
  g_autofree char *part = NULL;
  g_autofree char *on = NULL;
  double           length_mm = self->assembly->seal.length_mm;
  TlStep          *step;

  if (seal == NULL || leg == NULL)
    {
      tl_planner_step (
          self, "cut",
          g_strdup (tl_planner_text (self, TL_N_ ("Cut the ends square, back to sound metal."))));
      return;
    }
  part = tl_planner_mark (self, seal->id);
  on = tl_planner_mark (self, leg->id);
  step = tl_planner_step (
      self, "slide-seal",
      tl_wording_fill (
          tl_planner_text (
              self, TL_N_ ("Cut the ends square, back to sound metal. Slide the sealing sleeve "
                           "{part} onto {leg} now, clear of the tool: later it does not go on.")),
          "part", part, "leg", on, NULL));
  if (length_mm <= 0.0)
    length_mm = tl_layer_number (seal, self->stock, TL_FIELD_LENGTH, 0.0);
  if (length_mm > 0.0)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("cut the sleeve to")),
                       tl_planner_quantity (self, length_mm, "mm"));
}

static void
place_seal (TlPlanner *self, const TlLayer *seal)
{
  const TlSealFigures *figures = &self->assembly->seal;
  g_autofree char     *part = tl_planner_mark (self, seal->id);
  double               tolerance_mm = tl_planner_limit (self, "steps.cover-tolerance", 0.0);
  TlStep              *step = tl_planner_step (
                   self, "centre-seal",
                   tl_wording_fill (
                       tl_planner_text (
                           self, TL_N_ ("Wipe compound and grease off the outside and off the insulation. Bring "
                                                     "the sealing sleeve {part} to the middle of the joint.")),
                       "part", part, NULL));

  if (figures->cover_mm[0] > 0.0 && fabs (figures->cover_mm[0] - figures->cover_mm[1]) < 0.05)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("cover, each end")),
                       tl_planner_within (self, figures->cover_mm[0], tolerance_mm, "mm"));
  else
    for (guint i = 0; i < 2; i++)
      if (figures->cover_mm[i] > 0.0)
        tl_planner_figure (
            self, step,
            tl_planner_text (self, i == 0 ? TL_N_ ("cover, left end") : TL_N_ ("cover, right end")),
            tl_planner_within (self, figures->cover_mm[i], tolerance_mm, "mm"));
  tl_planner_tool (self, TL_N_ ("Solvent, clean lint-free cloth"), NULL);
}

/* Fillers and caps close what the sleeve alone leaves open. */
static void
fill_mouths (TlPlanner *self)
{
  const TlLayer   *filler = layer_of_kind (self, TL_PART_FILLER);
  g_autofree char *part = filler != NULL ? tl_planner_mark (self, filler->id) : NULL;

  if (filler != NULL)
    tl_planner_step (
        self, "filler",
        tl_wording_fill (
            tl_planner_text (self, TL_N_ ("Lay the filler {part} between the conductors of the "
                                          "mouth that takes more than one.")),
            "part", part, NULL));
}

/* Rubber hardens and crumbles where hot air reaches it. */
static void
shield_rubber (TlPlanner *self)
{
  g_autoptr (GPtrArray) owners = tl_planner_rubber_legs (self);
  const TlMaterial *rubber = tl_stock_material (self->stock, "rubber");
  double            most_C =
      rubber != NULL ? tl_facts_number (rubber->facts, TL_FIELD_MAX_TEMPERATURE, 0.0) : 0.0;
  g_autofree char *marks = NULL;
  TlStep          *step;

  if (owners->len == 0)
    return;
  marks = tl_planner_marks (self, owners);
  step = tl_planner_step (
      self, "shield",
      tl_wording_fill (
          tl_planner_text (self, TL_N_ ("Shield the old rubber of {parts} before any heat: wrap it "
                                        "and the wall behind in heat-resistant "
                                        "cloth, up to the end of the sealing sleeve, and blow away "
                                        "from it. Shrink that end in short "
                                        "strokes; stop as soon as it lies tight.")),
          "parts", marks, NULL));
  if (most_C > 0.0)
    tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("rubber, at most")),
                       tl_planner_quantity (self, most_C, "degC"));
  tl_planner_tool (self, TL_N_ ("Heat-resistant cloth"), NULL);
}

static void
shrink (TlPlanner *self, const TlLayer *seal)
{
  gboolean with_adhesive = has_adhesive (self, seal);
  double   temperature_C = tl_layer_number (seal, self->stock, TL_FIELD_SHRINK_TEMPERATURE, 0.0);
  TlStep  *step = tl_planner_step (
       self, "shrink",
       g_strdup (tl_planner_text (
           self,
          with_adhesive
               ? TL_N_ (
                   "Shrink with hot air and a reflector, never a flame: from the middle outward, "
                    "turning and moving all the time, until adhesive shows all round at both ends.")
               : TL_N_ (
                   "Shrink with hot air and a reflector, never a flame: from the middle outward, "
                    "turning and moving all the time, until it lies tight all along."))));

  if (temperature_C > 0.0)
    {
      g_autofree char *heat = tl_planner_quantity (self, temperature_C, "degC");

      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("heat, at the sleeve")),
                         g_strdup (heat));
    }
  tl_planner_tool (self, TL_N_ ("Hot-air tool with reflector"),
                   temperature_C > 0.0 ? tl_planner_quantity (self, temperature_C, "degC") : NULL);
  step = tl_planner_step (
      self, "cool",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Let the joint cool untouched. Do not bend or pull it while it is warm."))));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("cool")),
                     tl_planner_limit_text (self, "steps.cool-time"));
  if (with_adhesive)
    {
      step = tl_planner_hold (
          self, "hold-bead",
          g_strdup (tl_planner_text (self, TL_N_ ("A bead of adhesive all round, both ends."))),
          g_strdup (tl_planner_text (self, TL_N_ ("heat that end again; if it stays dry, slit the "
                                                  "sleeve off and start anew with a new one."))));
      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("bead")),
                         g_strdup (tl_planner_text (self, TL_N_ ("all round"))));
    }
}

void
tl_steps_shrink (TlPlanner *self)
{
  const TlLayer   *seal = seal_layer (self);
  const TlLayer   *cap = layer_of_kind (self, TL_PART_CAP);
  g_autofree char *part = cap != NULL ? tl_planner_mark (self, cap->id) : NULL;

  if (seal == NULL && cap == NULL)
    {
      tl_planner_step (
          self, "insulate",
          g_strdup (tl_planner_text (
              self, TL_N_ ("Insulate the joint at least as well as its conductors, with what the "
                           "local code accepts; it is not in the drawing."))));
      return;
    }
  fill_mouths (self);
  if (cap != NULL)
    tl_planner_step (
        self, "cap",
        tl_wording_fill (
            tl_planner_text (
                self, TL_N_ ("Put the end cap {part} over the end that carries no conductor.")),
            "part", part, NULL));
  if (seal == NULL)
    return;
  place_seal (self, seal);
  shield_rubber (self);
  shrink (self, seal);
}

/* Figure @name of the first finding of @rule, as a person reads it; (transfer full) (nullable) */
static char *
found_figure (const TlPlanner *self, const char *rule, const char *name)
{
  for (guint i = 0; i < self->verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (self->verdict->findings, i);

      for (guint k = 0; g_str_equal (finding->rule->id, rule) && k < finding->figures->len; k++)
        {
          const TlFigure *figure = &g_array_index (finding->figures, TlFigure, k);

          if (g_str_equal (figure->name, name))
            return tl_range_format (figure->value, figure->unit, self->language);
        }
    }
  return NULL;
}

void
tl_steps_measure_bare (TlPlanner *self)
{
  TlStep *step = tl_planner_hold (
      self, "hold-resistance",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Circuit still dead: resistance over the joint by the four-wire method, "
                       "probes on the bare metal on both sides of it."))),
      g_strdup (tl_planner_text (
          self, TL_N_ ("do not cover it; cut the joint out and start anew with new parts."))));

  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("mouth to mouth (estimate)")),
                     found_figure (self, "heat.expected-drop", "resistance"));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("or drop (estimate)")),
                     found_figure (self, "heat.expected-drop", "drop"));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("at")),
                     found_figure (self, "heat.expected-drop", "test"));
  tl_planner_tool (self, TL_N_ ("Micro-ohmmeter, four-wire, needle probes"), NULL);
}

void
tl_steps_measure (TlPlanner *self)
{
  TlStep *step = tl_planner_hold (
      self, "hold-insulation",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Circuit still dead, loads off: continuity from terminal to terminal, then "
                       "insulation resistance, each conductor to all others and earth."))),
      g_strdup (tl_planner_text (
          self,
          TL_N_ (
              "keep the circuit locked off, find the fault, hand over to the licensed person."))));

  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("test voltage, d.c.")),
                     tl_planner_limit_text (self, "steps.insulation-voltage"));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("at least")),
                     tl_planner_limit_text (self, "steps.insulation-least"));
  tl_planner_tool (self, TL_N_ ("Two-pole tester, insulation tester"), NULL);
}

void
tl_steps_dress_and_close (TlPlanner *self)
{
  TlStep *step = tl_planner_step (
      self, "dress",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Lay the cold joint into the box with one gentle bend in each conductor, no "
                       "pull on the joint, nothing sharp against the insulation."))));

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg     *leg = g_ptr_array_index (self->joint->legs, i);
      double           radius_mm = tl_planner_bend_radius_mm (self, leg);
      g_autofree char *mark = tl_planner_mark (self, leg->id);
      g_autofree char *label = tl_wording_fill (
          tl_planner_text (self, TL_N_ ("inside radius {part}")), "part", mark, NULL);

      if (radius_mm > 0.0)
        tl_planner_figure (self, step, label, tl_planner_quantity (self, radius_mm, "mm"));
    }
  tl_planner_step (
      self, "picture",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Take a picture of the joint as it lies in the open box, a rule "
                       "beside it and the label in view: later looks are compared with it."))));
  tl_planner_tool (self, TL_N_ ("Camera, steel rule"), NULL);
  tl_planner_step (
      self, "close",
      g_strdup (tl_planner_text (self, TL_N_ ("Close the box, fix the label to its cover, remove "
                                              "lock and tag last, and switch on."))));
  step = tl_planner_hold (
      self, "hold-loop",
      g_strdup (tl_planner_text (
          self,
          TL_N_ ("Box closed: loop impedance at the outlet, beside the reading from before the "
                 "work. Most meters show no less than 0.01 Ω and cannot see a good joint; a clear "
                 "rise tells of a bad one."))),
      g_strdup (tl_planner_text (
          self, TL_N_ ("switch off, lock off, prove dead, and measure the joint itself."))));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("the joint adds (estimate)")),
                     found_figure (self, "heat.expected-drop", "resistance"));
  tl_planner_tool (self, TL_N_ ("Loop impedance tester"), NULL);
  step = tl_planner_hold (
      self, "hold-warm",
      g_strdup (tl_planner_text (
          self, TL_N_ ("Cover closed, usual load on for an hour: the cover stays cool, no smell, "
                       "no flicker. Take the temperature on the cover only."))),
      g_strdup (tl_planner_text (
          self,
          TL_N_ (
              "switch off, lock off, prove dead, and open the joint again from the first step."))));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("box")),
                     g_strdup (tl_planner_text (self, TL_N_ ("stays closed"))));
  tl_planner_figure (self, step,
                     tl_planner_text (self, TL_N_ ("air inside over the room (estimate)")),
                     found_figure (self, "heat.hot-spot", "air-rise"));
  tl_planner_tool (self, TL_N_ ("Contact thermometer"), NULL);
}
