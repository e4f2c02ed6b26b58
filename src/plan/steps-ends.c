/* steps-ends.c: stripping, tinning, bending and cleaning the ends, each act once for all legs that
 * need it.
 *
 * The acts stand in the only order that works, whatever the order in the document: the eye is bent
 * before the metal is bright, tinning is over and cold before compound comes near, and aluminium is
 * brushed last, under its compound, because its oxide grows again within seconds.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include <string.h>

static const TlPreparation *
find_act (const TlLeg *leg, const char *act)
{
  for (guint i = 0; i < leg->preparation->len; i++)
    {
      const TlPreparation *preparation = g_ptr_array_index (leg->preparation, i);

      if (strcmp (preparation->act, act) == 0)
        return preparation;
    }
  return NULL;
}

static gboolean
has_compound_on (const TlPlanner *self, const char *leg)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (self->joint->layers, i);

      if (layer->kind == TL_PART_COMPOUND
          && (layer->seat.kind != TL_SEAT_ON || g_strcmp0 (layer->seat.of, leg) == 0))
        return TRUE;
    }
  return FALSE;
}

/* The act that a leg is to get: what the document says, and what follows from its surface and its
 * compound. */
static gboolean
wants (const TlPlanner *self, const TlLeg *leg, const char *act)
{
  gboolean is_aluminium = tl_planner_is_aluminium (self, leg);
  gboolean under_compound =
      find_act (leg, "brush-compound") != NULL
      || strcmp (tl_leg_word (leg, self->stock, TL_FIELD_SURFACE, ""), "brushed-compound") == 0
      || (is_aluminium && has_compound_on (self, leg->id));

  if (strcmp (act, "brush-compound") == 0)
    return under_compound;
  if (strcmp (act, "brush") == 0)
    return !under_compound && (is_aluminium || find_act (leg, "brush") != NULL);
  if (strcmp (act, "form-eye") == 0)
    return find_act (leg, act) != NULL
           || strcmp (tl_leg_word (leg, self->stock, TL_FIELD_END, "straight"), "straight") != 0;
  if (strcmp (act, "clean-flux") == 0 || strcmp (act, "cool") == 0)
    return find_act (leg, act) != NULL || find_act (leg, "tin") != NULL;
  return find_act (leg, act) != NULL;
}

/* Legs that get @act, by metal: 0 all, 1 aluminium only, 2 all others. (element-type TlLeg)
 * (transfer container) */
static GPtrArray *
legs_for (const TlPlanner *self, const char *act, guint metal)
{
  GPtrArray *legs = g_ptr_array_new ();

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      TlLeg   *leg = g_ptr_array_index (self->joint->legs, i);
      gboolean is_aluminium = tl_planner_is_aluminium (self, leg);

      if (wants (self, leg, act) && (metal == 0 || is_aluminium == (metal == 1)))
        g_ptr_array_add (legs, leg);
    }
  return legs;
}

static char *
marks_of (const TlPlanner *self, const GPtrArray *legs)
{
  g_autoptr (GPtrArray) owners = g_ptr_array_new ();

  for (guint i = 0; i < legs->len; i++)
    g_ptr_array_add (owners, ((TlLeg *) g_ptr_array_index (legs, i))->id);
  return tl_planner_marks (self, owners);
}

/* One step for all of @legs, which may be empty: then %NULL. */
static TlStep *
step_for (TlPlanner *self, const char *id, const GPtrArray *legs, const char *msgid)
{
  g_autofree char *marks = NULL;

  if (legs->len == 0)
    return NULL;
  marks = marks_of (self, legs);
  return tl_planner_step (self, id,
                          tl_wording_fill (tl_planner_text (self, msgid), "parts", marks, NULL));
}

/* "strip (1)" or "eye (2), inside" beside a step. */
static void
figure_of_leg (TlPlanner *self, TlStep *step, const TlLeg *leg, const char *msgid, char *value)
{
  g_autofree char *mark = tl_planner_mark (self, leg->id);
  g_autofree char *label = tl_wording_fill (tl_planner_text (self, msgid), "part", mark, NULL);

  tl_planner_figure (self, step, label, value);
}

/* Rubber that crumbles is found before anything is cut. */
static void
try_rubber (TlPlanner *self)
{
  g_autoptr (GPtrArray) owners = tl_planner_rubber_legs (self);
  g_autofree char *marks = tl_planner_marks (self, owners);

  if (owners->len == 0)
    return;
  tl_planner_hold (
      self, "hold-rubber",
      tl_wording_fill (
          tl_planner_text (
              self,
              TL_N_ (
                  "Rubber of {parts}, bent a little once: soft, no crack, nothing crumbles off.")),
          "parts", marks, NULL),
      g_strdup (tl_planner_text (self, TL_N_ ("cut back to where it is whole and slip a sleeve "
                                              "over each core; if none of it is whole, leave the "
                                              "circuit off and have the run replaced."))));
}

void
tl_steps_strip (TlPlanner *self)
{
  double  tolerance_mm = tl_planner_limit (self, "grip.strip-tolerance", 0.0);
  TlStep *step;

  try_rubber (self);
  step = tl_planner_step (
      self, "strip",
      g_strdup (tl_planner_text (
          self, tl_planner_has_aluminium (self)
                    ? TL_N_ ("Strip the conductors with a stripper set to their size. No nick: a "
                             "nicked aluminium wire is cut back and stripped anew.")
                    : TL_N_ ("Strip the conductors with a stripper set to their size. No nick."))));

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->joint->legs, i);
      double       strip_mm = tl_leg_number (leg, self->stock, TL_FIELD_STRIP, 0.0);
      double       inside_mm = tl_leg_number (leg, self->stock, TL_FIELD_INSERTION, 0.0);

      if (strip_mm > 0.0)
        figure_of_leg (self, step, leg, TL_N_ ("strip {part}"),
                       tl_planner_within (self, strip_mm, tolerance_mm, "mm"));
      if (inside_mm > 0.0 && self->assembly->family == TL_FAMILY_SLEEVE)
        figure_of_leg (self, step, leg, TL_N_ ("mark {part} from its end"),
                       tl_planner_quantity (self, inside_mm, "mm"));
    }
  tl_planner_tool (self, TL_N_ ("Stripper, steel rule, marker"), NULL);
}

static void
form_eyes (TlPlanner *self)
{
  g_autoptr (GPtrArray) legs = legs_for (self, "form-eye", 0);
  TlStep *step = step_for (
      self, "form-eye", legs,
      TL_N_ (
          "Bend the eye of {parts} with round-nosed pliers, about three quarters of a turn, once "
          "and without hammering. It runs the way the nut turns, so that tightening closes it."));

  if (step == NULL)
    return;
  for (guint i = 0; i < legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (legs, i);
      double       bore_mm = tl_leg_number (leg, self->stock, TL_FIELD_EYE_BORE, 0.0);

      if (bore_mm > 0.0)
        figure_of_leg (self, step, leg, TL_N_ ("eye {part}, inside"),
                       tl_planner_quantity (self, bore_mm, "mm"));
    }
  tl_planner_tool (self, TL_N_ ("Round-nosed pliers, smooth jaws"), NULL);
}

static void
degrease_ends (TlPlanner *self)
{
  g_autoptr (GPtrArray) legs = legs_for (self, "degrease", 0);

  if (step_for (self, "degrease", legs,
                TL_N_ ("Wipe {parts} free of grease with a clean cloth and solvent, away from hot "
                       "tools; let it dry."))
      != NULL)
    tl_planner_tool (self, TL_N_ ("Solvent, clean lint-free cloth"), NULL);
}

/* What the steps use up and the joint does not list as a layer. */
static void
use_up (TlPlanner *self, TlPartKind kind, const char *name)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    if (((TlLayer *) g_ptr_array_index (self->joint->layers, i))->kind == kind)
      return;
  tl_planner_tool (self, name, NULL);
}

static void
tin_ends (TlPlanner *self)
{
  g_autoptr (GPtrArray) fluxed = legs_for (self, "flux", 0);
  g_autoptr (GPtrArray) tinned = legs_for (self, "tin", 0);
  g_autoptr (GPtrArray) cleaned = legs_for (self, "clean-flux", 0);
  g_autoptr (GPtrArray) cooled = legs_for (self, "cool", 0);
  TlStep *step;

  if (step_for (
          self, "flux", fluxed,
          TL_N_ ("Put flux on {parts}, on the bare end only, of the kind that its solder wants."))
      != NULL)
    tl_planner_tool (self, TL_N_ ("Flux for the solder used"), NULL);
  step = step_for (
      self, "tin", tinned,
      TL_N_ ("Tin {parts}: heat the metal and let it melt the solder until every strand is wetted "
             "and the lay still shows. Stop before the solder runs under the insulation."));
  if (step != NULL)
    {
      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("soldering bit")),
                         tl_planner_limit_text (self, "steps.tin-bit"));
      tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("never above")),
                         tl_planner_limit_text (self, "steps.tin-bit-most"));
      use_up (self, TL_PART_SOLDER, TL_N_ ("Solder for the end to be tinned"));
      tl_planner_tool (self, TL_N_ ("Soldering iron with rest, fume extraction"), NULL);
    }
  if (step_for (self, "clean-flux", cleaned,
                TL_N_ ("Take every rest of flux off {parts} while it is warm. Flux left in a joint "
                       "eats it."))
      != NULL)
    tl_planner_tool (self, TL_N_ ("Alcohol and a soft brush for flux"), NULL);
  step_for (self, "cool-tin", cooled, TL_N_ ("Let {parts} cool untouched to hand warmth."));
}

/* The other metals first, aluminium last and under its compound; the brushes are never swapped. */
static void
brush_ends (TlPlanner *self)
{
  g_autoptr (GPtrArray) copper = legs_for (self, "brush", 2);
  g_autoptr (GPtrArray) coated = legs_for (self, "brush-compound", 2);
  g_autoptr (GPtrArray) bare = legs_for (self, "brush", 1);
  g_autoptr (GPtrArray) aluminium = legs_for (self, "brush-compound", 1);
  TlStep *step;

  if (step_for (self, "brush-copper", copper,
                TL_N_ ("Brush {parts} bright with the brush kept for copper. Never brush a plated "
                       "or tinned face."))
      != NULL)
    tl_planner_tool (self, TL_N_ ("Hand brush kept for copper"), NULL);
  if (coated->len > 0 || aluminium->len > 0)
    use_up (self, TL_PART_COMPOUND, TL_N_ ("Jointing compound that pierces oxide"));
  step_for (self, "compound-copper", coated, TL_N_ ("Put a thin coat of compound on {parts}."));
  step_for (self, "compound", aluminium,
            TL_N_ ("Coat {parts} all round with compound before any brush touches it."));
  step = step_for (self, "brush-compound", aluminium,
                   TL_N_ ("Brush {parts} through the compound with the stainless brush kept for "
                          "aluminium. Do not wipe it off: the compound keeps the air away."));
  if (step == NULL)
    step = step_for (self, "brush", bare,
                     TL_N_ ("Brush {parts} bright with the stainless brush kept for aluminium and "
                            "go on at once: the oxide is back within minutes."));
  if (step == NULL)
    return;
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("strokes, all round")),
                     tl_planner_limit_text (self, "steps.brush-strokes"));
  tl_planner_figure (self, step, tl_planner_text (self, TL_N_ ("join within")),
                     tl_planner_limit_text (self, "practice.brush-to-close"));
  tl_planner_tool (self, TL_N_ ("Stainless hand brush kept for aluminium"), NULL);
  tl_planner_hold (
      self, "hold-bright",
      g_strdup (tl_planner_text (
          self, aluminium->len > 0
                    ? TL_N_ ("Aluminium bright all round under its compound, no nick.")
                    : TL_N_ ("Aluminium bright all round, no nick."))),
      g_strdup (tl_planner_text (
          self, TL_N_ ("brush again; a nicked or pitted end is cut back and started anew."))));
}

/* The leg that a ferrule or lug holds: the one it sits on, or the one in its barrel; (nullable). */
static const char *
leg_held (const TlPlanner *self, const TlLayer *layer)
{
  if (layer->seat.kind == TL_SEAT_ON)
    return layer->seat.of;
  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (self->joint->legs, i);

      if (leg->seat.kind == TL_SEAT_PORT && g_strcmp0 (leg->seat.of, layer->id) == 0)
        return leg->id;
    }
  return NULL;
}

/* Ferrules and lugs are pressed on before their leg goes anywhere. */
static void
press_on (TlPlanner *self)
{
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer   *layer = g_ptr_array_index (self->joint->layers, i);
      const char      *id = leg_held (self, layer);
      g_autofree char *part = NULL;
      g_autofree char *leg = NULL;
      TlStep          *step;

      if ((layer->kind != TL_PART_LUG && layer->kind != TL_PART_FERRULE) || id == NULL)
        continue;
      part = tl_planner_mark (self, layer->id);
      leg = tl_planner_mark (self, id);
      step = tl_planner_step (
          self, "press-on",
          tl_wording_fill (
              tl_planner_text (self, TL_N_ ("Press {part} onto {leg} with the die that belongs to "
                                            "it, the core fully inside.")),
              "part", part, "leg", leg, NULL));
      if (tl_layer_fact (layer, self->stock, TL_FIELD_DIE) != NULL)
        tl_planner_figure (
            self, step, tl_planner_text (self, TL_N_ ("die")),
            tl_planner_quantity (self, tl_layer_number (layer, self->stock, TL_FIELD_DIE, 0.0),
                                 "mm"));
      tl_planner_tool (self, TL_N_ ("Press tool with its die"), NULL);
    }
}

void
tl_steps_prepare (TlPlanner *self)
{
  degrease_ends (self);
  /* Strands are tinned straight and bent cold: hot solder cracks along them. */
  tin_ends (self);
  form_eyes (self);
  brush_ends (self);
  press_on (self);
}
