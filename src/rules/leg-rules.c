/* leg-rules.c: what each conductor brings along: its bends, its oxide, its insulation, the length of its stub.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <string.h>

/* Diameter that bends: the wire when solid, one strand when stranded. */
static double
bending_diameter_mm (const TlAssembly *assembly, const TlLeg *leg)
{
  if (g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_CLASS, "class-1"), "class-1"))
    return tl_rule_metal_diameter_mm (assembly, leg);
  return tl_leg_number (leg, assembly->stock, TL_FIELD_STRAND_DIAMETER, 0.0);
}

static void
judge_bend (TlAssembly *assembly, TlFindings *findings, const TlLeg *leg)
{
  gboolean    aluminium = tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM);
  double      radius = tl_leg_number (leg, assembly->stock, TL_FIELD_BEND_RADIUS, 0.0);
  double      diameter = bending_diameter_mm (assembly, leg);
  TlThreshold diameters;
  TlCall      call;

  if (radius <= 0.0 || diameter <= 0.0
      || !tl_rule_limit (assembly, findings,
                         aluminium ? "grip.bend-radius-aluminium" : "grip.bend-radius-copper",
                         &diameters))
    return;
  tl_call_init (&call, "bend-strain");
  tl_call_set_exact (&call, "wire_diameter", diameter);
  tl_call_set_exact (&call, "inner_radius", radius);
  if (!(tl_findings_is_quick (findings) ? tl_call_run_quick (&call) : tl_call_run (&call, NULL)))
    return;

  double     least = diameters.value * diameter;
  TlSeverity severity = tl_severity_of_figure (tl_range_exact (radius), least, TRUE, 0.0,
                                               TL_TRUST_A, TL_SEVERITY_CHANGE);
  TlFinding *finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      severity == TL_SEVERITY_CHANGE
          ? TL_N_ ("{one} is bent round {radius}, {radius.limit} is the least: the outside is "
                   "stretched by {strain%}.")
          : TL_N_ ("{one} is bent round {radius}: the outside is stretched by {strain%}."));

  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
  tl_finding_limit (finding, "radius", tl_range_exact (radius), least, TRUE, "mm", TL_TRUST_A,
                    diameters.known_by, diameters.source);
  tl_finding_figure (finding, "strain", tl_call_get (&call, "strain"), "1", TL_TRUST_A);
  tl_finding_call (finding, findings, &call);
  if (severity == TL_SEVERITY_CHANGE)
    tl_finding_mend_number (finding, leg->id, TL_FIELD_BEND_RADIUS, least,
                            TL_N_ ("Bend it round {value}"));
}

/* Old hard aluminium breaks when it is bent back. */
static void
judge_former_bends (TlAssembly *assembly, TlFindings *findings, const TlLeg *leg)
{
  double      bends = tl_leg_number (leg, assembly->stock, TL_FIELD_BENDS, 0.0);
  TlThreshold most;

  if (bends <= 0.0 || !tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM)
      || !g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_CLASS, "class-1"), "class-1")
      || !tl_rule_limit (assembly, findings, "grip.bends-aluminium-max", &most))
    return;

  gboolean   too_many = bends > most.value;
  TlFinding *finding = tl_findings_add (
      findings, too_many ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
      too_many
          ? TL_N_ ("{one} was bent {bends} times at this place already: solid aluminium cracks at "
                   "the next bend. "
                   "Cut back to sound wire.")
          : TL_N_ ("{one} was bent at this place before: bend it once more at the most, slowly."));

  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
  tl_finding_limit (finding, "bends", tl_range_exact (bends), most.value, FALSE, "1", TL_TRUST_A,
                    most.known_by, most.source);
}

static void
rule_bends (TlAssembly *assembly, TlFindings *findings)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      judge_bend (assembly, findings, assembly->joint->legs->pdata[i]);
      judge_former_bends (assembly, findings, assembly->joint->legs->pdata[i]);
    }
}

/* --- oxide --- */

static gboolean
has_act (const TlLeg *leg, const char *prefix)
{
  for (guint i = 0; i < leg->preparation->len; i++)
    if (g_str_has_prefix (((const TlPreparation *) leg->preparation->pdata[i])->act, prefix))
      return TRUE;
  return FALSE;
}

static void
rule_oxide (TlAssembly *assembly, TlFindings *findings)
{
  const TlMaterial *aluminium = tl_stock_material (assembly->stock, "aluminium");
  double            metal =
      aluminium != NULL ? tl_facts_number (aluminium->facts, TL_FIELD_MELTING, 0.0) : 0.0;
  double oxide =
      aluminium != NULL ? tl_facts_number (aluminium->facts, TL_FIELD_OXIDE_MELTING, 0.0) : 0.0;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      const char  *surface;
      gboolean     brushed, under_compound;
      TlFinding   *finding;

      if (!tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM))
        continue;
      surface = tl_leg_word (leg, assembly->stock, TL_FIELD_SURFACE, "as-found");
      under_compound = has_act (leg, "brush-compound") || g_str_equal (surface, "brushed-compound");
      brushed = under_compound || has_act (leg, "brush") || g_str_has_prefix (surface, "brush");
      if (!brushed)
        finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                   TL_N_ ("{one} goes in as found: its oxide does not conduct and "
                                          "melts near {oxide}, the metal at {metal}. Brush it "
                                          "under compound first."));
      else if (under_compound)
        finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                                   TL_N_ ("{one} is brushed under compound: the oxide is off and "
                                          "cannot grow again before it is joined."));
      else
        finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                                   TL_N_ ("{one} is brushed dry: the oxide is back within seconds, "
                                          "thin. Join it at once, or brush under compound."));
      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_figure (finding, "oxide", tl_range_exact (oxide), "degC", TL_TRUST_A);
      tl_finding_figure (finding, "metal", tl_range_exact (metal), "degC", TL_TRUST_A);
      if (!brushed)
        tl_finding_mend_word (finding, leg->id, TL_FIELD_SURFACE, "brushed-compound",
                              TL_N_ ("Brush it under compound"));
    }
}

/* --- old insulation --- */

/* Rubber bears less heat than anything laid today, and with the years it crumbles when it is moved. */
static void
rule_insulation (TlAssembly *assembly, TlFindings *findings)
{
  TlThreshold old;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg      *leg = assembly->joint->legs->pdata[i];
      const TlMaterial *rubber = tl_stock_material (assembly->stock, "rubber");
      const TlFact     *year = tl_leg_fact (leg, assembly->stock, TL_FIELD_YEAR);
      double            most =
          rubber != NULL ? tl_facts_number (rubber->facts, TL_FIELD_MAX_TEMPERATURE, 0.0) : 0.0;
      gboolean   brittle;
      TlFinding *finding;

      if (!g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_INSULATION, ""), "rubber")
          || !tl_rule_limit (assembly, findings, "heat.rubber-year", &old))
        continue;
      brittle = year != NULL && year->value.best < old.value;
      finding = tl_findings_add (
          findings, brittle ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
          brittle ? TL_N_ ("{one} has rubber insulation of {year}: rubber of that age crumbles "
                           "when it is moved. Cut back to where "
                           "it is whole and slip a sleeve over each core, or replace the run.")
                  : TL_N_ ("{one} has rubber insulation, good for {most}: bend it no more than "
                           "needed, stop if it cracks, and shield "
                           "it from hot air."));
      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_figure (finding, "most", tl_range_exact (most), "degC", TL_TRUST_A);
      if (year != NULL)
        tl_finding_limit (finding, "year", year->value, old.value, TRUE, "1", TL_TRUST_A,
                          old.known_by, old.source);
    }
}

/* --- stub from the wall --- */

static void
rule_stub (TlAssembly *assembly, TlFindings *findings)
{
  gboolean    pressed = assembly->family == TL_FAMILY_SLEEVE;
  double      clearance = tl_rule_site_number (assembly, TL_FIELD_TOOL_CLEARANCE, 0.0);
  TlThreshold remake, head;

  if (!tl_rule_limit (assembly, findings, "room.remake-length", &remake)
      || !tl_rule_limit (assembly, findings, "room.press-head-length", &head))
    return;
  if (pressed && clearance <= 0.0)
    clearance = head.value;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg  *leg = assembly->joint->legs->pdata[i];
      const TlFact *length = tl_leg_fact (leg, assembly->stock, TL_FIELD_FREE_LENGTH);
      double        strip = tl_leg_number (leg, assembly->stock, TL_FIELD_STRIP, 0.0);
      double        need;

      if (!g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_FIXED, "loose"), "wall"))
        continue;
      if (length == NULL)
        {
          tl_findings_not_computed (findings, TL_N_ ("The free length of {part} is not entered."),
                                    leg->id, TL_FIELD_FREE_LENGTH);
          continue;
        }
      if (strip <= 0.0)
        continue;
      need = strip + clearance + MAX (strip, remake.value);

      gboolean   broken = length->value.best < strip;
      TlSeverity severity =
          tl_severity_of_figure (length->value, need, TRUE, 0.0, TL_TRUST_A,
                                 broken ? TL_SEVERITY_UNSAFE : TL_SEVERITY_CHANGE);
      TlFinding *finding = tl_findings_add (
          findings, severity, TL_TRUST_A,
          broken ? TL_N_ ("{one} stands {free} out of the wall, less than it has to be stripped: "
                          "as if broken off. No joint can "
                          "be made on it; {free.limit} is wanted. Open the chase, or move the "
                          "joint to the next box.")
          : severity == TL_SEVERITY_SOUND
              ? TL_N_ ("{one} stands {free} out of the wall: enough to strip, to press and to make "
                       "it once more.")
              : TL_N_ ("{one} stands {free} out of the wall, {free.limit} is wanted for stripping, "
                       "the tool and one "
                       "more try. Open the chase, or move the joint to the next box."));

      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_limit (finding, "free", length->value, need, TRUE, "mm", TL_TRUST_A,
                        remake.known_by, remake.source);
    }
}

const TlRule tl_rules_leg[] = { { "grip.bend", TL_CONCERN_GRIP, "common-practice",
                                  TL_N_ ("Bends of the conductors"), rule_bends },
                                { "grip.oxide", TL_CONCERN_GRIP, "common-practice",
                                  TL_N_ ("Oxide on the aluminium"), rule_oxide },
                                { "heat.insulation", TL_CONCERN_HEAT, "common-practice",
                                  TL_N_ ("Old insulation"), rule_insulation },
                                { "room.stub", TL_CONCERN_ROOM, "common-practice",
                                  TL_N_ ("Free length at the wall"), rule_stub },
                                { NULL } };
