/* steps-instead.c: what to do where no joint can be recommended: the half page in place of steps.
 *
 * A refusal leaves somebody with an open box. So it says first how the circuit is left, then what this box, these stubs
 * and this insulation ask for, and whom to call; never a makeshift joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include <string.h>

/* Rules about the place: another drawing of the same joint does not mend what they find. */
static const char *const place_rules[] = {
  "room.stub", "room.free-length", "room.fit", "room.packing", "room.space", "heat.insulation", NULL
};

/* Worst finding of @rule that is at least @least; (nullable) */
static const TlFinding *
worst_of (const TlPlanner *self, const char *rule, TlSeverity least)
{
  const TlFinding *worst = NULL;

  for (guint i = 0; i < self->verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (self->verdict->findings, i);

      if (strcmp (finding->rule->id, rule) == 0 && finding->severity >= least
          && (worst == NULL || finding->severity > worst->severity))
        worst = finding;
    }
  return worst;
}

static gboolean
has_any (const TlPlanner *self, const char *const *rules)
{
  for (guint i = 0; rules[i] != NULL; i++)
    if (worst_of (self, rules[i], TL_SEVERITY_CHANGE) != NULL)
      return TRUE;
  return FALSE;
}

static void
add (const TlPlanner *self, const char *msgid)
{
  g_ptr_array_add (self->sheet->instead, g_strdup (tl_planner_text (self, msgid)));
}

/* Longest free length that a rule wants, in words; %NULL if the stubs are long enough. (transfer full) */
static char *
wanted_length (const TlPlanner *self)
{
  static const char *const rules[] = { "room.stub", "room.free-length" };
  double                   most_mm = 0.0;

  for (guint r = 0; r < G_N_ELEMENTS (rules); r++)
    for (guint i = 0; i < self->verdict->findings->len; i++)
      {
        const TlFinding *finding = g_ptr_array_index (self->verdict->findings, i);

        for (guint k = 0; finding->severity >= TL_SEVERITY_CHANGE
                          && strcmp (finding->rule->id, rules[r]) == 0 && k < finding->figures->len;
             k++)
          {
            const TlFigure *figure = &g_array_index (finding->figures, TlFigure, k);

            if (strcmp (figure->name, "free") == 0)
              most_mm = MAX (most_mm, figure->limit);
          }
      }
  return most_mm > 0.0 ? tl_planner_quantity (self, most_mm, "mm") : NULL;
}

/* What this place asks for. */
static void
add_place (const TlPlanner *self)
{
  static const char *const box_rules[] = { "room.fit", "room.packing", "room.space", NULL };
  g_autofree char         *length = wanted_length (self);

  if (worst_of (self, "heat.insulation", TL_SEVERITY_WATCH) != NULL)
    add (self, TL_N_ ("Old insulation that cracks or crumbles: do not bend it further and keep hot "
                      "air away. Cut back to where it is soft "
                      "and whole, slip a sleeve over each core, or take the run out of use."));
  if (length != NULL)
    g_ptr_array_add (
        self->sheet->instead,
        tl_wording_fill (
            tl_planner_text (
                self,
                TL_N_ ("Stub too short or broken off: open the chase until {length} of sound "
                       "conductor "
                       "stands free. Never lengthen a stub by a second joint behind the first.")),
            "length", length, NULL));
  if (has_any (self, box_rules))
    add (self, TL_N_ ("Box too small: set a larger or deeper one in its place, or part the joints "
                      "between two boxes."));
}

static void
add_ways_out (const TlPlanner *self)
{
  add (self, TL_N_ ("Move the joint to the next box, where the conductors are long enough and "
                    "sound, and take the piece between out of use."));
  add (self, TL_N_ ("Or end the run in a device with through terminals that are marked for its "
                    "metal and section: then no joint is needed."));
  add (self, TL_N_ ("Best of all: replace the run in copper, so that no such joint is needed."));
}

void
tl_steps_instead (TlPlanner *self)
{
  gboolean refused = self->sheet->state == TL_SHEET_REFUSED;
  gboolean fails = self->verdict->has_severity && self->verdict->severity >= TL_SEVERITY_CHANGE;

  self->sheet->no_joint = refused ? fails : has_any (self, place_rules);
  if (!refused && !self->sheet->no_joint)
    return;
  if (self->sheet->no_joint)
    add (self, TL_N_ ("For the time being: circuit off, locked and tagged, conductor ends covered "
                      "one by one. No makeshift joint: no twist, "
                      "no tape, no loose terminal, and nothing switched on over one."));
  else
    add (self, TL_N_ ("Leave the circuit isolated and locked off, with the tag on, until the joint "
                      "is drawn anew."));
  if (self->sheet->no_joint)
    add_place (self);
  add_ways_out (self);
  add (self, TL_N_ ("Otherwise mend what stands above, have the joint judged again and print its "
                    "steps then."));
  add (self, TL_N_ ("Call a licensed electrician, or the network operator where its cable or its "
                    "seal is concerned."));
}
