/* seal-rules.c: whether water can get at the metals.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>

static gboolean
is_wet (const char *surroundings)
{
  return surroundings != NULL && !g_str_equal (surroundings, "dry");
}

static const TlLayer *
seal_of (const TlAssembly *assembly)
{
  return assembly->seal.seal != NULL ? tl_joint_layer (assembly->joint, assembly->seal.seal) : NULL;
}

static void
about_seal (TlFinding *finding, const TlLayer *seal)
{
  tl_finding_owner (finding, seal->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, seal->id);
}

/* Another sleeve of the stock that passes and grips. */
static void
mend_seal (TlAssembly *assembly, TlFindings *findings, TlFinding *finding)
{
  const TlSealFigures *figures = &assembly->seal;
  double               smallest = 0.0;
  const char          *better;

  if (tl_findings_is_quick (findings))
    return;
  for (guint end = 0; end < 2; end++)
    if (figures->smallest_mm[end] > 0.0)
      smallest =
          smallest > 0.0 ? MIN (smallest, figures->smallest_mm[end]) : figures->smallest_mm[end];
  better = smallest > 0.0 ? tl_rule_find_seal (assembly, figures->largest_mm, smallest) : NULL;
  if (better != NULL)
    tl_finding_mend_replace (finding, figures->seal, better, TL_N_ ("Take {part}"));
}

/* --- open ends --- */

static void
rule_closed (TlAssembly *assembly, TlFindings *findings)
{
  const char    *surroundings = tl_rule_site_word (assembly, TL_FIELD_SURROUNDINGS);
  const TlLayer *seal = seal_of (assembly);
  guint          closed = (assembly->seal.closed[0] ? 1 : 0) + (assembly->seal.closed[1] ? 1 : 0);
  gboolean       wet = is_wet (surroundings);
  TlSeverity     severity = TL_SEVERITY_SOUND;
  TlFinding     *finding;

  if (surroundings == NULL || assembly->family == TL_FAMILY_NONE)
    return;
  if (closed < 2 && wet)
    severity = assembly->family == TL_FAMILY_SLEEVE ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH;

  if (closed == 2 && seal != NULL)
    {
      finding = tl_findings_add (
          findings, TL_SEVERITY_SOUND, TL_TRUST_A,
          TL_N_ ("{one} is closed at both ends: adhesive on the insulation, no water inside."));
      about_seal (finding, seal);
    }
  else if (wet)
    {
      const TlTable    *table = tl_stock_table (assembly->stock, "wet-hours");
      const TlTableRow *row = tl_stock_row (assembly->stock, "wet-hours", assembly->joint->practice,
                                            surroundings, NULL);
      double            hours;

      finding = tl_findings_add (
          findings, severity, TL_TRUST_A,
          assembly->family == TL_FAMILY_STACK
              ? TL_N_ ("The stack stands open: some {hours} wet a year reach the metals.")
          : assembly->family == TL_FAMILY_TERMINAL
              ? TL_N_ ("The terminal stands open: some {hours} wet a year reach the metals.")
          : closed == 0
              ? TL_N_ ("Both ends are open: some {hours} wet a year reach the metal.")
              : TL_N_ ("One end is open: it wicks and dries slowly, as if there were no sealing."));
      if (seal != NULL)
        tl_finding_owner (finding, seal->id);
      if (table != NULL && row != NULL && tl_table_number (table, row, "hours", &hours))
        tl_finding_limit (finding, "hours", tl_range_exact (hours), NAN, FALSE, "h", TL_TRUST_I,
                          row->known_by, row->source);
    }

  TlFigure figure = { "closed-ends",
                      tl_range_exact (closed),
                      wet ? 2.0 : 0.0,
                      TRUE,
                      "1",
                      TL_TRUST_A,
                      TL_KNOWN_COMPUTED,
                      NULL,
                      severity };

  tl_findings_margin (findings, TL_CONCERN_SEAL, &figure, wet ? closed / 2.0 - 1.0 : 1.0);
}

static void
rule_adhesive (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer *seal = seal_of (assembly);
  const char    *surroundings = tl_rule_site_word (assembly, TL_FIELD_SURROUNDINGS);

  if (seal == NULL || assembly->seal.has_adhesive)
    return;

  TlFinding *finding = tl_findings_add (
      findings, is_wet (surroundings) ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
      TL_N_ ("{one} has no adhesive: it insulates, and draws water in at both ends."));

  about_seal (finding, seal);
  mend_seal (assembly, findings, finding);
}

/* --- diameters --- */

static void
rule_passes (TlAssembly *assembly, TlFindings *findings)
{
  const TlSealFigures *figures = &assembly->seal;
  const TlLayer       *seal = seal_of (assembly);
  TlThreshold          margin;
  TlSeverity           severity;
  TlFinding           *finding;

  if (seal == NULL || figures->largest_mm <= 0.0)
    return;
  if (figures->expanded_mm <= 0.0)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("The bore of {part} before shrinking is not entered."),
                                seal->id, TL_FIELD_EXPANDED);
      return;
    }
  if (!tl_rule_limit (assembly, findings, "seal.expanded-margin", &margin))
    return;
  severity = figures->expanded_mm < figures->largest_mm                  ? TL_SEVERITY_CHANGE
             : figures->expanded_mm < margin.value * figures->largest_mm ? TL_SEVERITY_WATCH
                                                                         : TL_SEVERITY_SOUND;
  finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      severity == TL_SEVERITY_CHANGE
          ? TL_N_ ("{one}, {expanded} wide, does not pass over {largest}.")
      : severity == TL_SEVERITY_WATCH ? TL_N_ (
            "{one}, {expanded} wide, hardly passes over {largest}; {expanded.limit} is usual.")
                                      : TL_N_ ("{one}, {expanded} wide, passes over {largest}."));
  about_seal (finding, seal);
  tl_finding_limit (finding, "expanded", tl_range_exact (figures->expanded_mm),
                    margin.value * figures->largest_mm, TRUE, "mm", TL_TRUST_A, margin.known_by,
                    margin.source);
  tl_finding_figure (finding, "largest", tl_range_exact (figures->largest_mm), "mm", TL_TRUST_A);
  if (severity > TL_SEVERITY_SOUND)
    mend_seal (assembly, findings, finding);
}

static void
judge_mouth (TlAssembly *assembly, TlFindings *findings, const TlLayer *seal, guint end,
             const TlThreshold *shrink, const TlThreshold *cover)
{
  const TlSealFigures *figures = &assembly->seal;
  double               smallest = figures->smallest_mm[end];
  TlSeverity           severity;
  TlFinding           *finding;

  if (smallest <= 0.0 || figures->recovered_mm <= 0.0)
    return;
  severity = figures->recovered_mm >= smallest                  ? TL_SEVERITY_CHANGE
             : figures->recovered_mm > shrink->value * smallest ? TL_SEVERITY_WATCH
                                                                : TL_SEVERITY_SOUND;
  finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      severity == TL_SEVERITY_CHANGE
          ? TL_N_ ("{one} recovers to {recovered} over {smallest}: it does not grip.")
      : severity == TL_SEVERITY_WATCH
          ? TL_N_ ("{one} recovers to {recovered} over {smallest}: it grips weakly, "
                   "{recovered.limit} is "
                   "usual.")
          : TL_N_ ("{one} recovers to {recovered} on {smallest}: it grips."));
  about_seal (finding, seal);
  tl_finding_limit (finding, "recovered", tl_range_exact (figures->recovered_mm),
                    shrink->value * smallest, FALSE, "mm", TL_TRUST_A, shrink->known_by,
                    shrink->source);
  tl_finding_figure (finding, "smallest", tl_range_exact (smallest), "mm", TL_TRUST_A);
  if (severity > TL_SEVERITY_SOUND)
    mend_seal (assembly, findings, finding);
  if (figures->cover_mm[end] >= cover->value)
    return;

  finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                             TL_N_ ("{one} covers {cover} of insulation at one end, {cover.limit} "
                                    "is wanted. Cut it longer."));
  about_seal (finding, seal);
  tl_finding_limit (finding, "cover", tl_range_exact (figures->cover_mm[end]), cover->value, TRUE,
                    "mm", TL_TRUST_A, cover->known_by, cover->source);
  /* Both ends take the same, since it is centred; what is added shrinks in length as well. */
  if (figures->recovered_length_mm > 0.0)
    tl_finding_mend_number (
        finding, seal->id, TL_FIELD_LENGTH,
        ceil ((figures->recovered_length_mm
               + 2.0 * (cover->value - MIN (figures->cover_mm[0], figures->cover_mm[1])))
              * figures->length_mm / figures->recovered_length_mm),
        TL_N_ ("Cut it {value} long"));
}

static void
rule_mouths (TlAssembly *assembly, TlFindings *findings)
{
  const TlSealFigures *figures = &assembly->seal;
  const TlLayer       *seal = seal_of (assembly);
  TlThreshold          shrink, cover;

  if (seal == NULL || !tl_rule_limit (assembly, findings, "seal.recovered-margin", &shrink)
      || !tl_rule_limit (assembly, findings, "seal.cover-least", &cover))
    return;
  for (guint end = 0; end < 2; end++)
    {
      if (figures->capped[end])
        continue;
      /* Two like ends are one story. */
      if (end == 0 || figures->capped[0] || figures->smallest_mm[0] != figures->smallest_mm[1]
          || fabs (figures->cover_mm[0] - figures->cover_mm[1]) > 1e-6)
        judge_mouth (assembly, findings, seal, end, &shrink, &cover);
      if (figures->conductors[end] <= 1 || figures->filler[end])
        continue;

      TlFinding *finding = tl_findings_add (
          findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
          TL_N_ (
              "{n} conductors leave {one} by one mouth with no filler between: that end is open."));

      about_seal (finding, seal);
      tl_finding_figure (finding, "n", tl_range_exact (figures->conductors[end]), "1", TL_TRUST_A);
    }
}

/* --- how it is put on --- */

static void
rule_handling (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer *seal = seal_of (assembly);

  if (seal == NULL)
    return;
  if (g_str_equal (tl_layer_word (seal, assembly->stock, TL_FIELD_HEAT_SOURCE, "hot-air"), "flame"))
    {
      TlFinding *finding =
          tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                           TL_N_ ("{one} is shrunk with a flame: it chars on one side and the "
                                  "adhesive stays cold on the other."));

      about_seal (finding, seal);
      tl_finding_mend_word (finding, seal->id, TL_FIELD_HEAT_SOURCE, "hot-air",
                            TL_N_ ("Use hot air"));
    }
  if (g_str_equal (tl_layer_word (seal, assembly->stock, TL_FIELD_SLID_ON, "before"), "after")
      && assembly->sleeve.legs[0] > 0 && assembly->sleeve.legs[1] > 0)
    {
      TlFinding *finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                            TL_N_ ("{one} is to go on after pressing: with wire at "
                                                   "both ends there is no way on any more."));

      about_seal (finding, seal);
      tl_finding_mend_word (finding, seal->id, TL_FIELD_SLID_ON, "before",
                            TL_N_ ("Slide it on before pressing"));
    }
}

/* A live joint needs a cover of its own inside the box. */
static void
rule_insulated (TlAssembly *assembly, TlFindings *findings)
{
  if (assembly->family == TL_FAMILY_NONE || assembly->seal.seal != NULL)
    return;
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    if (((const TlLayer *) assembly->joint->layers->pdata[i])->kind == TL_PART_CAP)
      return;
  for (guint i = 0; i < assembly->bodies->len; i++)
    if (tl_assembly_body (assembly, i)->role == TL_BODY_HOUSING)
      return;
  tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                   TL_N_ ("The joint stands bare in the box. Give it an insulating cover before "
                          "the circuit is made live."));
}

const TlRule tl_rules_seal[] = { { "seal.closed", TL_CONCERN_SEAL, "common-practice",
                                   TL_N_ ("Open ends"), rule_closed },
                                 { "seal.adhesive", TL_CONCERN_SEAL, "common-practice",
                                   TL_N_ ("Adhesive in the sealing sleeve"), rule_adhesive },
                                 { "seal.passes", TL_CONCERN_SEAL, "common-practice",
                                   TL_N_ ("Sealing sleeve over the joint"), rule_passes },
                                 { "seal.mouths", TL_CONCERN_SEAL, "common-practice",
                                   TL_N_ ("Grip and cover at each mouth"), rule_mouths },
                                 { "seal.handling", TL_CONCERN_SEAL, "common-practice",
                                   TL_N_ ("How the sealing sleeve is put on"), rule_handling },
                                 { "seal.insulated", TL_CONCERN_SEAL, "common-practice",
                                   TL_N_ ("Insulating cover"), rule_insulated },
                                 { NULL } };
