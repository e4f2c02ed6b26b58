/* splice-rules.c: soldered, welded and twisted splices shown as what they are, and preparation in its order.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <string.h>

/* --- splices --- */

static gboolean
is_splice (const TlAssembly *assembly)
{
  return assembly->family == TL_FAMILY_SPLICE;
}

static const TlLayer *
solder_of (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->kind == TL_PART_SOLDER && layer->seat.kind == TL_SEAT_AROUND)
        return layer;
    }
  return NULL;
}

static const char *
form_of (const TlAssembly *assembly)
{
  const TlLayer *solder = solder_of (assembly);

  return solder != NULL ? tl_layer_word (solder, assembly->stock, TL_FIELD_SPLICE_FORM, "soldered")
                        : "twisted";
}

static void
all_legs (const TlAssembly *assembly, TlFinding *finding)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    tl_finding_owner (finding, ((const TlLeg *) assembly->joint->legs->pdata[i])->id);
}

static void
rule_twist (TlAssembly *assembly, TlFindings *findings)
{
  const char *surroundings = tl_rule_site_word (assembly, TL_FIELD_SURROUNDINGS);
  gboolean    unlike = tl_rule_unlike_legs (assembly);
  gboolean    wet = surroundings != NULL && !g_str_equal (surroundings, "dry");
  TlFinding  *finding;

  if (!is_splice (assembly) || !g_str_equal (form_of (assembly), "twisted"))
    return;
  finding = tl_findings_add (
      findings, unlike && wet ? TL_SEVERITY_UNSAFE : TL_SEVERITY_CHANGE, TL_TRUST_A,
      unlike
          ? TL_N_ ("Copper twisted on aluminium: nothing keeps the force, the two metals slide on "
                   "each other with every warming, and the "
                   "aluminium is eaten where they touch. This is how such joints burn. Cut it out.")
          : TL_N_ ("A bare twist holds by the stiffness of the wire alone: it loosens. Press, "
                   "clamp or solder it."));
  all_legs (assembly, finding);
  tl_finding_why (finding,
                  TL_N_ ("Most of the old joints that are found charred were made this way."));
}

static void
rule_overlap (TlAssembly *assembly, TlFindings *findings)
{
  double      least_diameter = 0.0, overlap = assembly->splice.overlap_mm;
  TlThreshold diameters;

  if (!is_splice (assembly) || overlap <= 0.0
      || !tl_rule_limit (assembly, findings, "splice.overlap-diameters", &diameters))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      double own = tl_rule_metal_diameter_mm (assembly, assembly->joint->legs->pdata[i]);

      least_diameter = least_diameter > 0.0 ? MIN (least_diameter, own) : own;
    }

  double     need = diameters.value * least_diameter;
  TlSeverity severity = tl_severity_of_figure (tl_range_exact (overlap), need, TRUE, 0.0,
                                               TL_TRUST_A, TL_SEVERITY_CHANGE);
  TlFinding *finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      severity == TL_SEVERITY_CHANGE
          ? TL_N_ ("The conductors lie side by side over {overlap}, {overlap.limit} is wanted.")
          : TL_N_ ("The conductors lie side by side over {overlap}; {overlap.limit} is wanted."));

  all_legs (assembly, finding);
  tl_finding_limit (finding, "overlap", tl_range_exact (overlap), need, TRUE, "mm", TL_TRUST_A,
                    diameters.known_by, diameters.source);

  TlFigure figure = g_array_index (finding->figures, TlFigure, finding->figures->len - 1);

  tl_findings_margin (findings, TL_CONCERN_GRIP, &figure, overlap / need - 1.0);
}

static gboolean
has_act (const TlLeg *leg, const char *act)
{
  for (guint i = 0; i < leg->preparation->len; i++)
    if (g_str_equal (((const TlPreparation *) leg->preparation->pdata[i])->act, act))
      return TRUE;
  return FALSE;
}

static gboolean
any_leg_did (const TlAssembly *assembly, const char *act)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    if (has_act (assembly->joint->legs->pdata[i], act))
      return TRUE;
  return FALSE;
}

static void
rule_solder (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer *solder = solder_of (assembly);
  const char    *form = form_of (assembly);
  TlFinding     *finding;

  if (!is_splice (assembly) || solder == NULL)
    return;
  if (g_str_equal (form, "welded"))
    {
      finding = tl_findings_add (
          findings, tl_rule_unlike_legs (assembly) ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH,
          TL_TRUST_A,
          tl_rule_unlike_legs (assembly)
              ? TL_N_ ("Copper and aluminium do not weld into a tough joint on site: a brittle "
                       "layer grows between. Take a part that was welded in a "
                       "works.")
              : TL_N_ ("A weld is as good as the person who made it: only by one who is trained "
                       "for it, and measured afterwards."));
      tl_finding_owner (finding, solder->id);
      return;
    }
  if (tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM))
    {
      finding =
          tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                           TL_N_ ("Solder on aluminium wants a flux that eats the oxide, and what "
                                  "is left of it eats the wire in a closed box. Press the joint."));
      tl_finding_owner (finding, solder->id);
      all_legs (assembly, finding);
    }
  else
    {
      finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                                 TL_N_ ("A soldered splice has to be held by its form as well: "
                                        "solder creeps under pull and softens near {melting}."));
      tl_finding_owner (finding, solder->id);
      tl_finding_figure (finding, "melting", tl_range_exact (assembly->splice.melting_C), "degC",
                         TL_TRUST_A);
      tl_finding_add_source (finding, "bs-7671-526");
    }
  if (any_leg_did (assembly, "flux") && !any_leg_did (assembly, "clean-flux"))
    {
      finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                 TL_N_ ("Flux was used and is not cleaned off: what stays draws "
                                        "water and eats the metal, above all near aluminium."));
      tl_finding_owner (finding, solder->id);
    }
}

/* --- preparation in its order --- */

/* What must stand before what, and what skipping or turning it round does. */
typedef struct
{
  const char *before, *after;
  gboolean    is_needed; /* @after without @before is wrong too */
  const char *message;
} Order;

static const Order orders[] = {
  { "strip", "brush", FALSE,
    TL_N_ ("{one} is brushed before it is stripped: the brush never meets the metal.") },
  { "strip", "brush-compound", FALSE,
    TL_N_ ("{one} is brushed before it is stripped: the brush never meets the metal.") },
  { "strip", "ferrule", FALSE,
    TL_N_ ("The ferrule of {one} is pressed before the wire is stripped.") },
  { "strip", "tin", FALSE, TL_N_ ("{one} is tinned before it is stripped.") },
  { "degrease", "brush", FALSE,
    TL_N_ ("{one} is degreased after brushing: the grease is rubbed into the metal, and the oxide "
           "is back before it is joined.") },
  { "degrease", "brush-compound", FALSE,
    TL_N_ ("{one} is degreased after the compound is on: it takes the compound off again.") },
  { "flux", "tin", TRUE,
    TL_N_ ("{one} is tinned without flux before it: solder runs off the oxide.") },
  { "tin", "clean-flux", FALSE, TL_N_ ("The flux of {one} is cleaned off before it is tinned.") },
  { "clean-flux", "cool", FALSE,
    TL_N_ ("{one} is cleaned after it has cooled: residues come off while they are warm.") },
  { "cool", "form-eye", FALSE,
    TL_N_ ("{one} is bent before it is cool: hot solder cracks along the strands.") },
  { "strip", "form-eye", FALSE, TL_N_ ("The eye of {one} is bent before the wire is stripped.") },
};

static gint
place_of (const TlLeg *leg, const char *act)
{
  for (guint i = 0; i < leg->preparation->len; i++)
    if (g_str_equal (((const TlPreparation *) leg->preparation->pdata[i])->act, act))
      return (gint) i;
  return -1;
}

static void
judge_order (TlFindings *findings, const TlLeg *leg, const Order *order)
{
  gint       before = place_of (leg, order->before), after = place_of (leg, order->after);
  TlFinding *finding;

  if (after < 0 || (before >= 0 && before < after) || (before < 0 && !order->is_needed))
    return;
  finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A, order->message);
  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
}

static void
rule_order (TlAssembly *assembly, TlFindings *findings)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (orders); k++)
      judge_order (findings, assembly->joint->legs->pdata[i], &orders[k]);
}

/* A hot pot and the time in it: numbers where the person entered them. */
static void
judge_dip (TlAssembly *assembly, TlFindings *findings, const TlLeg *leg, const TlPreparation *act)
{
  const TlFact *pot = tl_facts_get (act->facts, TL_FIELD_MELTING);
  TlThreshold   low, high;

  if (pot == NULL || !tl_rule_limit (assembly, findings, "prepare.pot-least", &low)
      || !tl_rule_limit (assembly, findings, "prepare.pot-most", &high))
    return;

  gboolean cold = pot->value.best<low.value, hot = pot->value.best> high.value;
  TlFinding                                                        *finding = tl_findings_add (
                                                             findings, cold || hot ? TL_SEVERITY_WATCH : TL_SEVERITY_SOUND, TL_TRUST_A,
      cold ? TL_N_ (
                                                                 "The pot for {one} is at {pot}: below {low} solder does not run into the strands.")
                                                             : hot ? TL_N_ (
                                                                   "The pot for {one} is at {pot}: above {high} flux chars and insulation shrinks back.")
                                                                   : TL_N_ ("The pot for {one} is at {pot}, between {low} and {high}."));

  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
  tl_finding_limit (finding, "pot", pot->value, cold ? low.value : high.value, cold, "degC",
                    TL_TRUST_A, low.known_by, low.source);
  tl_finding_figure (finding, "low", tl_range_exact (low.value), "degC", TL_TRUST_A);
  tl_finding_figure (finding, "high", tl_range_exact (high.value), "degC", TL_TRUST_A);
  if (low.source != NULL)
    tl_finding_source (finding, low.source);
}

static void
rule_dip (TlAssembly *assembly, TlFindings *findings)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      for (guint k = 0; k < leg->preparation->len; k++)
        {
          const TlPreparation *act = leg->preparation->pdata[k];

          if (g_str_equal (act->act, "tin"))
            judge_dip (assembly, findings, leg, act);
        }
    }
}

/* Strand that was dipped in solder is no strand for a press: it cracks and creeps. */
static void
rule_dipped_press (TlAssembly *assembly, TlFindings *findings)
{
  if (assembly->family != TL_FAMILY_SLEEVE)
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      TlFinding   *finding;

      if (!has_act (leg, "tin")
          || g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_CLASS, "class-1"), "class-1"))
        continue;
      finding =
          tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                           TL_N_ ("{one} was dipped in solder and is pressed: solder creeps in the "
                                  "barrel. Press it undipped; strand that was plated wire by "
                                  "wire is another thing."));
      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_add_source (finding, "nasa-8739-4");
      tl_finding_dispute (finding, "solder-under-pressure");
    }
}

const TlRule tl_rules_splice[] = {
  { "grip.twist", TL_CONCERN_GRIP, "common-practice", TL_N_ ("A twist"), rule_twist },
  { "grip.splice-overlap", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Length of a splice"),
    rule_overlap },
  { "grip.solder", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Soldered or welded splice"),
    rule_solder },
  { "grip.preparation-order", TL_CONCERN_GRIP, "common-practice",
    TL_N_ ("Order of the preparation"), rule_order },
  { "grip.dip", TL_CONCERN_GRIP, "nasa-8739-4", TL_N_ ("Tinning by dipping"), rule_dip },
  { "grip.dipped-press", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Dipped strand in a press"),
    rule_dipped_press },
  { NULL }
};
