/* steps-sleeve.c: the steps of a pressed sleeve.
 *
 * The sealing sleeve goes on first, because nothing passes over a finished joint; flash is filed
 * off before the sleeve shrinks, because it would cut it; the joint cools before it is bent.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include <math.h>
#include <string.h>

/* Legs that go into mouth @port. (element-type utf8) (transfer container) */
static GPtrArray *
legs_in_port (const TlPlanner *self, guint port)
{
  GPtrArray *owners = g_ptr_array_new ();

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->joint->legs, i);

      if (leg->seat.kind == TL_SEAT_PORT && leg->seat.place == port)
        g_ptr_array_add (owners, leg->id);
    }
  return owners;
}

static char *
insert_text (const TlPlanner *self, const char *sleeve)
{
  g_autoptr (GPtrArray) left = legs_in_port (self, 1);
  g_autoptr (GPtrArray) right = legs_in_port (self, 2);
  g_autofree char *part = tl_planner_mark (self, sleeve);
  g_autofree char *a = tl_planner_marks (self, left);
  g_autofree char *b = tl_planner_marks (self, right);
  const char      *msgid;

  if (right->len == 0 || left->len == 0)
    return tl_wording_fill (
        tl_planner_text (self, TL_N_ ("Push {parts} into the sleeve {part}, side by side, each to "
                                      "its mark. No strand stays outside.")),
        "parts", left->len > 0 ? a : b, "part", part, NULL);
  msgid =
      self->assembly->sleeve.overlaps
          ? TL_N_ ("Push {left} from the left and {right} from the right into the sleeve {part}, "
                   "side by side, each to its mark. No strand stays outside.")
          : TL_N_ ("Push {left} from the left and {right} from the right into the sleeve {part}, "
                   "each to its mark, until they meet the middle. No strand stays outside.");
  return tl_wording_fill (tl_planner_text (self, msgid), "left", a, "right", b, "part", part, NULL);
}

static void
insert (TlPlanner *self, const char *sleeve)
{
  TlStep *step = tl_planner_step (self, "insert", insert_text (self, sleeve));

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg     *leg = g_ptr_array_index (self->joint->legs, i);
      double           inside_mm = tl_leg_number (leg, self->stock, TL_FIELD_INSERTION, 0.0);
      g_autofree char *mark = tl_planner_mark (self, leg->id);
      g_autofree char *label =
          tl_wording_fill (tl_planner_text (self, TL_N_ ("inside {part}")), "part", mark, NULL);

      if (inside_mm > 0.0)
        tl_planner_figure (self, step, label, tl_planner_quantity (self, inside_mm, "mm"));
    }
}

/* Force that a bench sample has to hold before it may tear; by the registry's requirement for
 * pressed connectors. */
static char *
pull_text (const TlPlanner *self, const TlLeg *leg)
{
  TlCall call;
  double section_mm2 = tl_leg_number (leg, self->stock, TL_FIELD_SECTION, 0.0);

  if (section_mm2 <= 0.0)
    return NULL;
  tl_call_init (&call, "pull-force-requirement");
  tl_call_set_word (&call, "rule", "iec-61238-1");
  tl_call_set_exact (&call, "section", section_mm2);
  tl_call_set_word (&call, "metal", tl_planner_is_aluminium (self, leg) ? "aluminium" : "copper");
  if (!tl_call_run (&call, NULL) || !tl_call_has (&call, "force"))
    return NULL;
  return tl_planner_quantity (self, tl_call_get (&call, "force").best, "N");
}

static void
bench_sample (TlPlanner *self)
{
  TlStep *step = tl_planner_hold (
      self, "hold-sample",
      g_strdup (tl_planner_text (
          self, TL_N_ ("One sample made at the bench with the same parts, die and tool, and pulled "
                       "apart there. The joint in place is never pulled like that."))),
      g_strdup (tl_planner_text (
          self,
          TL_N_ ("another die or another sleeve; do not press in the box until a sample holds."))));

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg     *leg = g_ptr_array_index (self->joint->legs, i);
      g_autofree char *mark = tl_planner_mark (self, leg->id);
      g_autofree char *label = tl_wording_fill (
          tl_planner_text (self, TL_N_ ("holds at least {part}")), "part", mark, NULL);

      tl_planner_figure (self, step, label, pull_text (self, leg));
    }
  tl_planner_tool (self, TL_N_ ("Pull tester at the bench"), NULL);
}

static double
die_mm (const TlPlanner *self)
{
  const TlSleeveFigures *sleeve = &self->assembly->sleeve;

  return sleeve->has_die ? sleeve->die_mm : sleeve->wanted_die_mm;
}

static const char *
profile_word (const TlPlanner *self)
{
  const TlSleeveFigures *sleeve = &self->assembly->sleeve;

  return sleeve->profile != NULL ? sleeve->profile : sleeve->wanted_profile;
}

static void
press (TlPlanner *self, const TlLayer *layer)
{
  double      presses = tl_layer_number (layer, self->stock, TL_FIELD_PRESSES, 0.0);
  double      width_mm = tl_layer_number (layer, self->stock, TL_FIELD_PRESS_WIDTH, 0.0);
  const char *profile = profile_word (self);
  TlStep     *step = tl_planner_step (
          self, "press",
          g_strdup (tl_planner_text (
              self, TL_N_ ("Press from the middle outward, first one side, then the other. Close the "
                               "tool fully each time, fingers clear; never press on a live conductor."))));

  if (die_mm (self) > 0.0)
    {
      g_autofree char *die = tl_planner_quantity (self, die_mm (self), "mm");
      g_autofree char *text =
          profile != NULL ? g_strdup_printf (
              "%s %s",
              tl_planner_text (self, tl_field_word_label (TL_FIELD_PRESS_PROFILE, profile)), die)
                          : g_strdup (die);

      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("die")), g_strdup (text));
      tl_planner_tool (self, TL_N_ ("Press with die"), g_strdup (text));
    }
  if (presses > 0.0)
    {
      g_autofree char *count = tl_language_number (self->language, presses, 0);
      g_autofree char *width = width_mm > 0.0 ? tl_planner_quantity (self, width_mm, "mm") : NULL;

      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("presses, each side")),
                         width != NULL ? g_strdup_printf ("%s × %s", count, width)
                                       : g_strdup (count));
    }
}

/* Across flats with the tolerance that the share of area allows: the area of a hexagon goes with
 * its square. */
static void
hold_size (TlPlanner *self)
{
  double   share = tl_planner_limit (self, "steps.press-area-tolerance", 0.0);
  double   width_mm = die_mm (self);
  gboolean is_hexagon = g_strcmp0 (profile_word (self), "hexagon") == 0;
  TlStep  *step = tl_planner_hold (
       self, "hold-size",
       g_strdup (tl_planner_text (
           self, is_hexagon ? TL_N_ ("Size across flats in the gauge, all three ways. Then a light "
                                      "tug by hand on each wire: nothing slips.")
                            : TL_N_ ("Size of the pressed place in the gauge, by the sheet of the "
                                      "die. Then a light tug by hand on each wire: nothing slips."))),
       g_strdup (tl_planner_text (self, TL_N_ ("cut the joint out and start at step 1 with new "
                                                "parts; a second press does not mend it."))));

  if (is_hexagon && width_mm > 0.0)
    tl_planner_figure (
        self, step, tl_planner_text (self, TL_N_ ("across flats")),
        tl_planner_within (self, width_mm,
                           floor (100.0 * width_mm * (sqrt (1.0 + share) - 1.0)) / 100.0, "mm"));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("tug")),
                     g_strdup (tl_planner_text (self, TL_N_ ("by hand, each wire"))));
  tl_planner_tool (self, TL_N_ ("Gauge or caliper"),
                   width_mm > 0.0 ? tl_planner_quantity (self, width_mm, "mm") : NULL);
}

void
tl_steps_sleeve (TlPlanner *self)
{
  const char      *id = self->assembly->sleeve.sleeve;
  const TlLayer   *layer = id != NULL ? tl_joint_layer (self->joint, id) : NULL;
  g_autofree char *part = NULL;

  g_return_if_fail (layer != NULL);

  part = tl_planner_mark (self, id);
  tl_steps_slide_seal (self);
  tl_steps_strip (self);
  bench_sample (self);
  tl_steps_prepare (self);
  insert (self, id);
  press (self, layer);
  hold_size (self);
  tl_planner_step (
      self, "deburr",
      tl_wording_fill (
          tl_planner_text (
              self, TL_N_ ("File flash and sharp edges off the sleeve {part}, away from the "
                           "mouths: they would cut what goes over it. Wipe the filings off.")),
          "part", part, NULL));
  tl_planner_tool (self, TL_N_ ("Smooth file"), NULL);
  tl_steps_measure_bare (self);
  tl_steps_shrink (self);
  tl_steps_measure (self);
  tl_steps_dress_and_close (self);
}
