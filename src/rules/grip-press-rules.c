/* grip-press-rules.c: whether a pressed sleeve is pressed solid, with the right profile, on wire that is far enough in.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>

static const TlLayer *
sleeve_of (const TlAssembly *assembly)
{
  if (assembly->family != TL_FAMILY_SLEEVE || assembly->sleeve.sleeve == NULL)
    return NULL;
  return tl_joint_layer (assembly->joint, assembly->sleeve.sleeve);
}

/* Legs of both mouths lie in one section when they overlap; then one press takes them all, and metal_mm2 of either side
 * counts them all. */
static guint
sections_to_judge (const TlSleeveFigures *sleeve)
{
  return sleeve->overlaps || sleeve->legs[1] == 0 ? 1 : 2;
}

/* One press: what is in the barrel, and what closes on it. */
typedef struct
{
  const char  *owner; /* sleeve or lug */
  const TlLeg *legs[8];
  guint        n_legs;
  double       metal_mm2; /* of all wires in it */
  double       outer_mm, bore_mm;
  double       die_mm, wanted_die_mm;    /* 0: not entered, not asked for */
  double       marked_mm2;               /* 0: not marked */
  const char  *profile, *wanted_profile; /* (nullable) */
} Press;

#define MAX_PRESSES 10

/* --- collecting --- */

static void
add_leg (Press *press, const TlLeg *leg)
{
  if (press->n_legs < G_N_ELEMENTS (press->legs))
    press->legs[press->n_legs++] = leg;
}

/* The presses of a sleeve: one when the legs lie side by side, else one a mouth. */
static guint
sleeve_presses (const TlAssembly *assembly, Press *presses)
{
  const TlLayer         *layer = sleeve_of (assembly);
  const TlSleeveFigures *sleeve = &assembly->sleeve;
  guint                  n = 0;

  for (guint side = 0; layer != NULL && side < sections_to_judge (sleeve); side++)
    {
      Press *press = &presses[n++];

      *press = (Press){ .owner = layer->id,
                        .metal_mm2 = sleeve->metal_mm2[side],
                        .outer_mm = sleeve->outer_mm,
                        .bore_mm = sleeve->bore_mm,
                        .die_mm = sleeve->has_die ? sleeve->die_mm : 0.0,
                        .wanted_die_mm = sleeve->wanted_die_mm,
                        .marked_mm2 =
                            tl_layer_number (layer, assembly->stock, TL_FIELD_STATED_SECTION, 0.0),
                        .profile = sleeve->profile,
                        .wanted_profile = sleeve->wanted_profile };
      for (guint i = 0; i < assembly->joint->legs->len; i++)
        {
          const TlLeg *leg = assembly->joint->legs->pdata[i];

          if (leg->seat.kind == TL_SEAT_PORT && (sleeve->overlaps || leg->seat.place == side + 1))
            add_leg (press, leg);
        }
    }
  return n;
}

/* The leg whose lug this is: in its mouth, or carrying it. */
static const TlLeg *
leg_of_lug (const TlAssembly *assembly, const TlLayer *lug)
{
  if (lug->seat.kind == TL_SEAT_ON)
    return tl_joint_leg (assembly->joint, lug->seat.of);
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (leg->seat.kind == TL_SEAT_PORT && g_strcmp0 (leg->seat.of, lug->id) == 0)
        return leg;
    }
  return NULL;
}

static guint
lug_presses (const TlAssembly *assembly, Press *presses, guint n)
{
  for (guint i = 0; i < assembly->joint->layers->len && n < MAX_PRESSES; i++)
    {
      const TlLayer *lug = assembly->joint->layers->pdata[i];
      const TlLeg   *leg = lug->kind == TL_PART_LUG ? leg_of_lug (assembly, lug) : NULL;
      const TlPart  *part = lug->part != NULL ? tl_stock_part (assembly->stock, lug->part) : NULL;
      Press         *press = &presses[n];

      if (leg == NULL)
        continue;
      *press = (Press){
        .owner = lug->id,
        .metal_mm2 = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0),
        .outer_mm = tl_layer_number (lug, assembly->stock, TL_FIELD_OUTER, 0.0),
        .bore_mm = tl_layer_number (lug, assembly->stock, TL_FIELD_BORE, 0.0),
        .die_mm = tl_layer_number (lug, assembly->stock, TL_FIELD_DIE, 0.0),
        .wanted_die_mm = tl_layer_number (lug, assembly->stock, TL_FIELD_WANTED_DIE, 0.0),
        .marked_mm2 = tl_layer_number (lug, assembly->stock, TL_FIELD_STATED_SECTION, 0.0),
        .profile = tl_layer_word (lug, assembly->stock, TL_FIELD_PRESS_PROFILE, NULL),
        .wanted_profile =
            part != NULL ? tl_facts_word (part->facts, TL_FIELD_PRESS_PROFILE, NULL) : NULL
      };
      add_leg (press, leg);
      n++;
    }
  return n;
}

static guint
all_presses (const TlAssembly *assembly, Press *presses)
{
  return lug_presses (assembly, presses, sleeve_presses (assembly, presses));
}

static void
about (TlFinding *finding, const Press *press)
{
  tl_finding_owner (finding, press->owner);
  tl_finding_word (finding, "one", TL_WORD_OWNER, press->owner);
}

/* --- metal in the closed die --- */

static gboolean
compaction_call (const Press *press, gboolean quick, TlCall *call)
{
  if (press->metal_mm2 <= 0.0 || press->outer_mm <= press->bore_mm || press->bore_mm <= 0.0
      || press->die_mm <= 0.0)
    return FALSE;
  tl_call_init (call, "crimp-compaction");
  tl_call_set_exact (call, "conductor_area", press->metal_mm2);
  tl_call_set_exact (call, "barrel_outside", press->outer_mm);
  tl_call_set_exact (call, "barrel_bore", press->bore_mm);
  tl_call_set_exact (call, "die_width", press->die_mm);
  tl_call_set_word (call, "across", "flats");
  return quick ? tl_call_run_quick (call) : tl_call_run (call, NULL);
}

typedef struct
{
  TlThreshold least, most, over;
} Band;

static TlSeverity
compaction_severity (double compaction, const Band *band, const char **message)
{
  if (compaction < 0.0)
    {
      *message = TL_N_ ("The die of {die} leaves {closed} for {metal} of metal: hollows stay and "
                        "the wires are loose.");
      return TL_SEVERITY_CHANGE;
    }
  if (compaction < band->least.value)
    {
      *message = TL_N_ ("The die of {die} takes {compaction%} of the section away, at least "
                        "{compaction.limit%} is wanted: hardly "
                        "pressed solid.");
      return TL_SEVERITY_WATCH;
    }
  if (compaction > band->over.value)
    {
      *message = TL_N_ ("The die of {die} takes {compaction%} of the section away: strands are "
                        "thinned and the barrel tears.");
      return TL_SEVERITY_CHANGE;
    }
  if (compaction > band->most.value)
    {
      *message = TL_N_ ("The die of {die} takes {compaction%} of the section away, more than "
                        "usual: look for flash and cracks.");
      return TL_SEVERITY_WATCH;
    }
  *message = TL_N_ ("The die of {die} leaves {closed} for {metal} of metal: pressed solid.");
  return TL_SEVERITY_SOUND;
}

static void
judge_compaction (TlFindings *findings, const Press *press, const Band *band)
{
  const char *message;
  TlCall      call;

  if (!compaction_call (press, tl_findings_is_quick (findings), &call))
    return;

  TlRange compaction = tl_call_get (&call, "compaction");
  double  ring = G_PI / 4.0 * (press->outer_mm * press->outer_mm - press->bore_mm * press->bore_mm);
  TlSeverity severity = compaction_severity (compaction.best, band, &message);
  TlFinding *finding = tl_findings_add (findings, severity, TL_TRUST_A, message);

  about (finding, press);
  for (guint i = 0; i < press->n_legs; i++)
    tl_finding_owner (finding, press->legs[i]->id);
  tl_finding_figure (finding, "die", tl_range_exact (press->die_mm), "mm", TL_TRUST_A);
  tl_finding_figure (finding, "metal", tl_range_exact (ring + press->metal_mm2), "mm2", TL_TRUST_A);
  tl_finding_figure (finding, "closed",
                     tl_range_exact (tl_call_get (&call, "ratio").best * (ring + press->metal_mm2)),
                     "mm2", TL_TRUST_A);
  tl_finding_limit (finding, "compaction", tl_range_exact (compaction.best),
                    compaction.best > band->most.value ? band->most.value : band->least.value,
                    compaction.best <= band->most.value, "1", TL_TRUST_A, band->least.known_by,
                    band->least.source);
  tl_finding_why (finding,
                  TL_N_ ("Only metal that has flowed touches metal. A sleeve that is not pressed "
                         "together leaves air and oxide "
                         "inside; one that is pressed too far is thin where it should hold."));
  tl_finding_call (finding, findings, &call);

  TlFigure figure = g_array_index (finding->figures, TlFigure, finding->figures->len - 1);
  double   middle = (band->least.value + band->most.value) / 2.0,
         half = (band->most.value - band->least.value) / 2.0;

  tl_findings_margin (findings, TL_CONCERN_GRIP, &figure,
                      (half - fabs (compaction.best - middle)) / half);
}

/* What a press cannot be judged without; each says so once. */
static gboolean
can_be_judged (TlFindings *findings, const Press *press)
{
  if (press->die_mm <= 0.0)
    tl_findings_not_computed (findings, TL_N_ ("The die that presses {part} is not entered."),
                              press->owner, TL_FIELD_DIE);
  else if (press->profile != NULL && !g_str_equal (press->profile, "hexagon"))
    tl_findings_not_computed (
        findings,
        TL_N_ (
            "For {part} only a hexagonal press is reckoned from the die; measure the indent depth "
            "against its maker's figure."),
        press->owner, TL_FIELD_PRESS_PROFILE);
  else if (press->outer_mm <= press->bore_mm)
    tl_findings_not_computed (findings,
                              TL_N_ ("{part} has no wall thickness. Enter outside and bore."),
                              press->owner, TL_FIELD_OUTER);
  else
    return TRUE;
  return FALSE;
}

static void
rule_compaction (TlAssembly *assembly, TlFindings *findings)
{
  Press presses[MAX_PRESSES];
  guint n = all_presses (assembly, presses);
  Band  band;

  if (n == 0 || !tl_rule_limit (assembly, findings, "grip.compaction-low", &band.least)
      || !tl_rule_limit (assembly, findings, "grip.compaction-high", &band.most)
      || !tl_rule_limit (assembly, findings, "grip.compaction-max", &band.over))
    return;
  for (guint i = 0; i < n; i++)
    if (can_be_judged (findings, &presses[i]))
      judge_compaction (findings, &presses[i], &band);
}

/* Smallest round hole that takes the wires of one side: exact for one and for two. */
static double
needed_bore_mm (const TlAssembly *assembly, guint side)
{
  double sum = 0.0;
  guint  n = 0;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (leg->seat.kind != TL_SEAT_PORT
          || (!assembly->sleeve.overlaps && leg->seat.place != side + 1))
        continue;
      sum += tl_rule_metal_diameter_mm (assembly, leg);
      n++;
    }
  return n <= 2 ? sum : 0.0;
}

/* The assembly has gathered the strands; the hand has to. */
static void
tell_twist (TlAssembly *assembly, TlFindings *findings, const TlLayer *layer)
{
  double bore_mm = assembly->sleeve.bore_mm;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      double       loose_mm = tl_rule_metal_diameter_mm (assembly, leg);
      TlFinding   *finding;

      if (leg->seat.kind != TL_SEAT_PORT || loose_mm <= bore_mm
          || tl_assembly_number (assembly, leg->id) == 0)
        continue;
      finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_B,
                                 TL_N_ ("Twist the strands of {one} tight: loose they are up to "
                                        "{loose} thick, the bore of {two} is {bore}. All of them "
                                        "go in."));
      tl_finding_owner (finding, leg->id);
      tl_finding_owner (finding, layer->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_word (finding, "two", TL_WORD_OWNER, layer->id);
      tl_finding_figure (finding, "loose", tl_range_exact (loose_mm), "mm", TL_TRUST_A);
      tl_finding_figure (finding, "bore", tl_range_exact (bore_mm), "mm", TL_TRUST_A);
    }
}

/* Loose wire in a wide bore: it lies on one side and is folded by the press. */
static void
rule_bore (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer         *layer = sleeve_of (assembly);
  const TlSleeveFigures *sleeve = &assembly->sleeve;
  TlThreshold            most;

  if (layer == NULL || sleeve->bore_mm <= 0.0
      || !tl_rule_limit (assembly, findings, "grip.bore-ratio-high", &most))
    return;
  tell_twist (assembly, findings, layer);
  for (guint side = 0; side < sections_to_judge (sleeve); side++)
    {
      double needed = needed_bore_mm (assembly, side);

      if (needed <= 0.0 || sleeve->bore_mm <= most.value * needed)
        continue;

      TlFinding *finding = tl_findings_add (
          findings, TL_SEVERITY_WATCH, TL_TRUST_A,
          TL_N_ ("The bore of {one}, {bore}, is wide for wire that needs {needed}; up to "
                 "{bore.limit} is usual: the wire "
                 "lies loose and folds. Take a narrower sleeve, or double the wire back."));

      tl_finding_owner (finding, layer->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, layer->id);
      tl_finding_limit (finding, "bore", tl_range_exact (sleeve->bore_mm), most.value * needed,
                        FALSE, "mm", TL_TRUST_A, most.known_by, most.source);
      tl_finding_figure (finding, "needed", tl_range_exact (needed), "mm", TL_TRUST_A);
    }
}

/* --- die, profile, mark --- */

static void
judge_die (TlFindings *findings, const Press *press, double tolerance_mm)
{
  TlFinding *finding;

  if (press->wanted_die_mm <= 0.0)
    finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                               TL_N_ ("{one} asks for no die that is known here. Read the marking, "
                                      "and try the press on a sample at the bench."));
  else if (fabs (press->die_mm - press->wanted_die_mm) <= tolerance_mm)
    finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                               TL_N_ ("Die {die} is the one that {one} asks for."));
  else
    {
      finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                 TL_N_ ("Die {die} on {one}, which wants {wanted}: the section "
                                        "comes out {share%} of what it should be."));
      tl_finding_mend_number (finding, press->owner, TL_FIELD_DIE, press->wanted_die_mm,
                              TL_N_ ("Take the die {value}"));
    }
  about (finding, press);
  if (press->wanted_die_mm <= 0.0)
    return;
  tl_finding_figure (finding, "die", tl_range_exact (press->die_mm), "mm", TL_TRUST_A);
  tl_finding_figure (finding, "wanted", tl_range_exact (press->wanted_die_mm), "mm", TL_TRUST_A);
  tl_finding_figure (finding, "share",
                     tl_range_exact (pow (press->die_mm / press->wanted_die_mm, 2.0)), "1",
                     TL_TRUST_A);
}

/* A sleeve has one die and one profile, however many mouths. */
static gboolean
is_first_of_owner (const Press *presses, guint index)
{
  return index == 0 || !g_str_equal (presses[index - 1].owner, presses[index].owner);
}

static void
rule_die (TlAssembly *assembly, TlFindings *findings)
{
  Press       presses[MAX_PRESSES];
  guint       n = all_presses (assembly, presses);
  TlThreshold tolerance;

  if (n == 0 || !tl_rule_limit (assembly, findings, "grip.die-tolerance", &tolerance))
    return;
  for (guint i = 0; i < n; i++)
    if (presses[i].die_mm > 0.0 && is_first_of_owner (presses, i))
      judge_die (findings, &presses[i], tolerance.value);
}

static void
judge_profile (TlFindings *findings, const Press *press)
{
  g_autofree char *used = NULL, *wanted = NULL;
  TlFinding       *finding;

  if (press->profile == NULL || press->wanted_profile == NULL
      || g_str_equal (press->profile, press->wanted_profile))
    return;
  finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                             TL_N_ ("{one} is made for a press of the form “{wanted}”, and "
                                    "“{used}” is used: the metal flows elsewhere than "
                                    "it was tried."));
  used = g_strconcat ("press-profile=", press->profile, NULL);
  wanted = g_strconcat ("press-profile=", press->wanted_profile, NULL);
  about (finding, press);
  tl_finding_word (finding, "used", TL_WORD_FIELD_WORD, used);
  tl_finding_word (finding, "wanted", TL_WORD_FIELD_WORD, wanted);
  tl_finding_mend_word (finding, press->owner, TL_FIELD_PRESS_PROFILE, press->wanted_profile,
                        TL_N_ ("Press as {value}"));
}

static void
rule_profile (TlAssembly *assembly, TlFindings *findings)
{
  Press presses[MAX_PRESSES];
  guint n = all_presses (assembly, presses);

  for (guint i = 0; i < n; i++)
    if (is_first_of_owner (presses, i))
      judge_profile (findings, &presses[i]);
}

/* The section marked on the barrel against the wire that goes in. */
static void
rule_marked_section (TlAssembly *assembly, TlFindings *findings)
{
  Press       presses[MAX_PRESSES];
  guint       n = all_presses (assembly, presses);
  TlThreshold tolerance;

  if (n == 0 || !tl_rule_limit (assembly, findings, "grip.section-tolerance", &tolerance))
    return;
  for (guint i = 0; i < n; i++)
    {
      const Press *press = &presses[i];

      if (press->marked_mm2 <= 0.0 || press->metal_mm2 <= 0.0
          || fabs (press->metal_mm2 - press->marked_mm2) <= tolerance.value * press->marked_mm2)
        continue;

      TlFinding *finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                            TL_N_ ("{one} is marked {marked}, and {metal} of wire "
                                                   "goes in: it was not made for that section."));

      about (finding, press);
      tl_finding_figure (finding, "marked", tl_range_exact (press->marked_mm2), "mm2", TL_TRUST_A);
      tl_finding_limit (finding, "metal", tl_range_exact (press->metal_mm2), press->marked_mm2,
                        press->metal_mm2 < press->marked_mm2, "mm2", TL_TRUST_A, tolerance.known_by,
                        tolerance.source);
    }
}

/* A hole much wider than its bolt bears on a thin ring. */
static void
rule_lug_hole (TlAssembly *assembly, TlFindings *findings)
{
  TlThreshold most;

  if (assembly->family != TL_FAMILY_STACK || assembly->stack.thread_mm <= 0.0
      || !tl_rule_limit (assembly, findings, "geometry.hole-clearance", &most))
    return;
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *lug = assembly->joint->layers->pdata[i];
      double         hole = lug->kind == TL_PART_LUG
                                ? tl_layer_number (lug, assembly->stock, TL_FIELD_EYE_BORE, 0.0)
                                : 0.0;
      TlFinding     *finding;

      if (hole <= (1.0 + most.value) * assembly->stack.thread_mm)
        continue;
      finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                                 TL_N_ ("The hole of {one}, {hole}, is wide for its bolt; up to "
                                        "{hole.limit} is usual: less of the flat bears."));
      tl_finding_owner (finding, lug->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, lug->id);
      tl_finding_limit (finding, "hole", tl_range_exact (hole),
                        (1.0 + most.value) * assembly->stack.thread_mm, FALSE, "mm", TL_TRUST_A,
                        most.known_by, most.source);
    }
}

/* --- wire in the barrel --- */

static void
judge_insertion (TlAssembly *assembly, TlFindings *findings, const TlLeg *leg, double wanted,
                 const TlThreshold *tolerance)
{
  double     inserted = tl_leg_number (leg, assembly->stock, TL_FIELD_INSERTION, 0.0);
  double     strip = tl_leg_number (leg, assembly->stock, TL_FIELD_STRIP, 0.0);
  TlFinding *finding = NULL;

  if (strip > 0.0 && inserted > strip)
    {
      finding = tl_findings_add (
          findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
          TL_N_ ("{one} is stripped {strip} and goes {inserted} in: insulation would be pressed."));
      tl_finding_mend_number (finding, leg->id, TL_FIELD_STRIP, inserted + tolerance->value,
                              TL_N_ ("Strip {value}"));
    }
  else if (inserted > 0.0 && inserted < wanted - tolerance->value)
    {
      finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                 TL_N_ ("{one} goes {inserted} in, {inserted.limit} is wanted: "
                                        "part of the press closes on nothing."));
      /* Where the strip is too short for it as well, one edit does not mend. */
      if (strip >= wanted)
        tl_finding_mend_number (finding, leg->id, TL_FIELD_INSERTION, wanted,
                                TL_N_ ("Push it in {value}"));
    }
  else if (strip > 0.0 && inserted > 0.0 && strip - inserted > 2.0 * tolerance->value)
    finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                               TL_N_ ("{one} is stripped {strip} and goes {inserted} in: the rest "
                                      "stands bare before the mouth."));
  if (finding == NULL)
    return;
  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
  tl_finding_figure (finding, "strip", tl_range_exact (strip), "mm", TL_TRUST_A);
  tl_finding_limit (finding, "inserted", tl_range_exact (inserted), wanted, TRUE, "mm", TL_TRUST_A,
                    tolerance->known_by, tolerance->source);
}

/* A lug takes the wire over the whole length of its barrel. */
static void
judge_lug_insertion (TlAssembly *assembly, TlFindings *findings, const TlThreshold *tolerance)
{
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *lug = assembly->joint->layers->pdata[i];
      const TlLeg   *leg = lug->kind == TL_PART_LUG ? leg_of_lug (assembly, lug) : NULL;
      double         length = tl_layer_number (lug, assembly->stock, TL_FIELD_LENGTH, 0.0);

      if (leg != NULL && length > 0.0)
        judge_insertion (assembly, findings, leg, length, tolerance);
    }
}

static void
rule_insertion (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer         *layer = sleeve_of (assembly);
  const TlSleeveFigures *sleeve = &assembly->sleeve;
  TlThreshold            tolerance;
  gboolean               butt;

  if (!tl_rule_limit (assembly, findings, "grip.strip-tolerance", &tolerance))
    return;
  judge_lug_insertion (assembly, findings, &tolerance);
  if (layer == NULL || sleeve->length_mm <= 0.0)
    return;
  butt = g_str_equal (tl_layer_word (layer, assembly->stock, TL_FIELD_FORM, "butt"), "butt");
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (leg->seat.kind == TL_SEAT_PORT)
        judge_insertion (assembly, findings, leg,
                         butt ? sleeve->length_mm / 2.0 : sleeve->length_mm, &tolerance);
    }
}

const TlRule tl_rules_grip_press[] = {
  { "grip.compaction", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Metal in the closed die"),
    rule_compaction },
  { "grip.bore", TL_CONCERN_GRIP, "chosen-here", TL_N_ ("Wire in the bore"), rule_bore },
  { "grip.die", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Die against sleeve"), rule_die },
  { "grip.profile", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Form of the press"), rule_profile },
  { "grip.insertion", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Length of wire inside"),
    rule_insertion },
  { "grip.lug-hole", TL_CONCERN_GRIP, "chosen-here", TL_N_ ("Hole of a lug"), rule_lug_hole },
  { "grip.marked-section", TL_CONCERN_GRIP, "common-practice",
    TL_N_ ("Section marked on the sleeve"), rule_marked_section },
  { NULL }
};
