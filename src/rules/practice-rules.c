/* practice-rules.c: what the chosen practice says whatever the figures.
 *
 * The severities are rows of the data, by practice; where sources disagree both are cited.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

static const TlContact *
contact_at (const TlAssembly *assembly, guint index)
{
  return &g_array_index (assembly->contacts, TlContact, index);
}

static gboolean
are_of_looks (const TlAssembly *assembly, const char *one, const char *two, TlLook a, TlLook b)
{
  return (tl_rule_is_look (assembly, one, a) && tl_rule_is_look (assembly, two, b))
         || (tl_rule_is_look (assembly, one, b) && tl_rule_is_look (assembly, two, a));
}

static const TlLayer *
sleeve_of (const TlAssembly *assembly)
{
  return assembly->sleeve.sleeve != NULL ? tl_joint_layer (assembly->joint, assembly->sleeve.sleeve)
                                         : NULL;
}

static gboolean
is_tested (const TlAssembly *assembly, const TlLayer *sleeve)
{
  return sleeve != NULL
         && g_str_equal (tl_layer_word (sleeve, assembly->stock, TL_FIELD_TESTED_PAIR, "no"),
                         "yes");
}

/* --- conductors of unlike metals that touch directly --- */

static void
rule_unlike_direct (TlAssembly *assembly, TlFindings *findings)
{
  TlSeverity severity;

  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, i);
      const TlBody    *a = tl_assembly_body (assembly, contact->a),
                   *b = tl_assembly_body (assembly, contact->b);

      if (contact->kind == TL_CONTACT_MAY_BRIDGE || !contact->is_metallic || !a->is_leg
          || !b->is_leg
          || !are_of_looks (assembly, contact->surface_a, contact->surface_b, TL_LOOK_COPPER,
                            TL_LOOK_ALUMINIUM)
          || is_tested (assembly, sleeve_of (assembly))
          || !tl_rule_severity (assembly, findings, "practice.unlike-direct", &severity))
        continue;

      TlFinding *finding =
          tl_findings_add (findings, severity, TL_TRUST_A,
                           TL_N_ ("{one} and {other} touch directly in a part that is not made for "
                                  "it: not to be done, also in the dry."));

      tl_finding_contact (finding, i);
      tl_finding_owner (finding, a->owner);
      tl_finding_owner (finding, b->owner);
      tl_finding_word (finding, "one", TL_WORD_OWNER, a->owner);
      tl_finding_word (finding, "other", TL_WORD_OWNER, b->owner);
      tl_finding_add_source (finding, "nfpa-70-110-14");
      tl_finding_why (finding, TL_N_ ("The two metals expand by different amounts and the softer "
                                      "one creeps; where they lie on each other the joint "
                                      "works loose, and a film that does not conduct grows "
                                      "between. Parts made and tested for the pair "
                                      "deal with both."));
    }
}

/* --- copper and aluminium in one pressed sleeve --- */

/* An aluminium surface lies against bare copper somewhere inside. */
static gboolean
has_bare_couple (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, i);

      if (contact->is_metallic && contact->kind != TL_CONTACT_MAY_BRIDGE
          && are_of_looks (assembly, contact->surface_a, contact->surface_b, TL_LOOK_COPPER,
                           TL_LOOK_ALUMINIUM))
        return TRUE;
    }
  return FALSE;
}

static double
largest_section_mm2 (const TlAssembly *assembly)
{
  double largest = 0.0;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    largest = MAX (largest, tl_leg_number (assembly->joint->legs->pdata[i], assembly->stock,
                                           TL_FIELD_SECTION, 0.0));
  return largest;
}

static void
rule_sleeve_pair (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer *sleeve = sleeve_of (assembly);
  TlThreshold    standard;
  TlSeverity     severity;
  TlFinding     *finding;

  /* A part of two metals has a rule of its own. */
  if (assembly->family != TL_FAMILY_SLEEVE || sleeve == NULL || !assembly->sleeve.unlike_metals
      || tl_layer_word (sleeve, assembly->stock, TL_FIELD_OTHER_FACE, NULL) != NULL
      || !tl_rule_limit (assembly, findings, "grip.tinned-with-aluminium-section", &standard))
    return;
  if (is_tested (assembly, sleeve))
    finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                               TL_N_ ("{one} is marked as tested for copper and aluminium at this "
                                      "section. Keep the paper that says so."));
  else if (has_bare_couple (assembly))
    {
      if (!tl_rule_severity (assembly, findings, "practice.bare-copper-sleeve", &severity))
        return;
      finding = tl_findings_add (findings, severity, TL_TRUST_A,
                                 TL_N_ ("Bare copper lies on aluminium inside {one}, which was not "
                                        "tested for the pair. Take a part made for it."));
    }
  else
    {
      if (!tl_rule_severity (assembly, findings, "practice.tinned-in-sleeve", &severity))
        return;
      finding =
          tl_findings_add (findings, severity, TL_TRUST_A,
                           TL_N_ ("Tinned copper with bare aluminium in {one}: sources disagree on "
                                  "tin, and none lists the pair below {standard}. "
                                  "Use a set tested for this pair and section."));
      tl_finding_add_source (finding, "iec-60950-1-j");
      tl_finding_add_source (finding, "jackson");
      tl_finding_add_source (finding, "nfpa-70-110-14");
      tl_finding_dispute (finding, "tinned-copper-aluminium");
    }
  tl_finding_owner (finding, sleeve->id);
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    tl_finding_owner (finding, ((const TlLeg *) assembly->joint->legs->pdata[i])->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, sleeve->id);
  tl_finding_figure (finding, "section", tl_range_exact (largest_section_mm2 (assembly)), "mm2",
                     TL_TRUST_A);
  tl_finding_figure (finding, "standard", tl_range_exact (standard.value), "mm2", TL_TRUST_A);
  tl_finding_why (finding, TL_N_ ("By voltage tin lies between the two metals. Trials of bolted "
                                  "joints found thick soft tin harmful on aluminium and "
                                  "nickel better; others use tin with good results. The practice "
                                  "that was chosen decides."));
}

/* --- access --- */

static void
rule_access (TlAssembly *assembly, TlFindings *findings)
{
  const char *access = tl_rule_site_word (assembly, TL_FIELD_ACCESS);
  TlSeverity  severity;
  TlFinding  *finding;

  if (assembly->family != TL_FAMILY_STACK || access == NULL
      || !tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM))
    return;
  if (!tl_rule_severity (assembly, findings,
                         g_str_equal (access, "closed") ? "practice.screw-closed"
                                                        : "practice.screw-reachable",
                         &severity))
    return;
  finding =
      tl_findings_add (findings, severity, TL_TRUST_A,
                       g_str_equal (access, "closed")
                           ? TL_N_ ("A screw on aluminium has to be looked at again, and this box "
                                    "is closed for good. Press the joint, or move it to "
                                    "a box that opens.")
                           : TL_N_ ("A screw on aluminium wants a look every 6 to 12 months "
                                    "(common practice, no source). Tightening again is no "
                                    "cure for metal that has crept."));
  if (assembly->stack.bolt != NULL)
    tl_finding_owner (finding, assembly->stack.bolt);
}

/* --- what local rules forbid --- */

/* @owner: the part that joins; %NULL: the conductors themselves */
static void
forbid (TlAssembly *assembly, TlFindings *findings, const char *way, const char *owner)
{
  TlSeverity severity;
  TlFinding *finding;

  if (!tl_joint_forbids (assembly->joint, way)
      || !tl_rule_severity (assembly, findings, "practice.forbidden", &severity))
    return;
  finding = tl_findings_add (findings, severity, TL_TRUST_A,
                             TL_N_ ("Local rules forbid this way of joining, {way}, as marked in "
                                    "this document. Join in another way."));
  if (owner != NULL)
    tl_finding_owner (finding, owner);
  for (guint i = 0; owner == NULL && i < assembly->joint->legs->len; i++)
    tl_finding_owner (finding, ((const TlLeg *) assembly->joint->legs->pdata[i])->id);
  tl_finding_word (finding, "way", TL_WORD_TEXT, tl_way_label (way));
  tl_finding_why (finding, TL_N_ ("The person who filled in the document marked it so. Local rules "
                                  "have the last word; no figure makes "
                                  "up for them."));
}

/* The way of a terminal by its kind; %NULL if the kind is not entered. */
static const char *
terminal_way (const TlAssembly *assembly, const TlLayer *terminal)
{
  const char *form = tl_layer_word (terminal, assembly->stock, TL_FIELD_TERMINAL_FORM, NULL);

  if (form == NULL)
    return NULL;
  if (g_str_equal (form, "device"))
    return "device-terminal";
  if (g_str_equal (form, "clamp") || g_str_equal (form, "piercing"))
    return "branch-connector";
  return g_str_has_suffix (form, "-spring") ? "spring-terminal" : "screw-terminal";
}

static void
forbid_terminal (TlAssembly *assembly, TlFindings *findings, const TlLayer *terminal)
{
  static const char *const ways[] = { "screw-terminal", "spring-terminal", "device-terminal" };
  const char              *way = terminal_way (assembly, terminal);

  if (way != NULL)
    {
      forbid (assembly, findings, way, terminal->id);
      return;
    }
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    if (tl_joint_forbids (assembly->joint, ways[i]))
      {
        tl_findings_not_computed (
            findings, TL_N_ ("The kind of {part} is not entered, and local rules forbid some."),
            terminal->id, TL_FIELD_TERMINAL_FORM);
        return;
      }
}

static void
forbid_splice (TlAssembly *assembly, TlFindings *findings)
{
  const char *form = assembly->splice.form;

  if (assembly->family != TL_FAMILY_SPLICE || form == NULL)
    return;
  forbid (assembly, findings, g_str_equal (form, "twisted") ? "twist" : form,
          assembly->splice.layer);
}

static void
rule_forbidden (TlAssembly *assembly, TlFindings *findings)
{
  gboolean has_lug = FALSE;

  if (*assembly->joint->forbidden == '\0')
    return;
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->seat.kind == TL_SEAT_NONE)
        continue;
      if (layer->kind == TL_PART_BOLT)
        forbid (assembly, findings, "bolted-stack", layer->id);
      else if (layer->kind == TL_PART_SLEEVE)
        forbid (assembly, findings, "pressed-sleeve", layer->id);
      else if (layer->kind == TL_PART_BRANCH)
        forbid (assembly, findings, "branch-connector", layer->id);
      else if (layer->kind == TL_PART_TERMINAL)
        forbid_terminal (assembly, findings, layer);
      else if (layer->kind == TL_PART_LUG && !has_lug)
        {
          forbid (assembly, findings, "cable-lug", layer->id);
          has_lug = TRUE;
        }
    }
  forbid_splice (assembly, findings);
}

/* A conductor, or the lug on it, that a part of two metals lies against. */
static gboolean
carries_conductor (const TlAssembly *assembly, const TlBody *body)
{
  const TlLayer *layer = body->is_leg ? NULL : tl_joint_layer (assembly->joint, body->owner);

  return body->is_leg || (layer != NULL && layer->kind == TL_PART_LUG);
}

/* A conductor pressed against the copper side though it is of aluminium, or the other way round. */
static gboolean
meets_other_metal (const TlAssembly *assembly, const char *owner)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, i);
      const TlBody    *a = tl_assembly_body (assembly, contact->a),
                   *b = tl_assembly_body (assembly, contact->b);
      const TlBody *other = g_str_equal (a->owner, owner)   ? b
                            : g_str_equal (b->owner, owner) ? a
                                                            : NULL;

      if (contact->kind == TL_CONTACT_PRESSED && other != NULL
          && carries_conductor (assembly, other)
          && are_of_looks (assembly, contact->surface_a, contact->surface_b, TL_LOOK_COPPER,
                           TL_LOOK_ALUMINIUM))
        return TRUE;
    }
  return FALSE;
}

/* Parts of two metals are usual from a section on; below it only as a tested system. */
static void
rule_bimetal (TlAssembly *assembly, TlFindings *findings)
{
  TlThreshold least;
  double      section = largest_section_mm2 (assembly);

  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];
      TlFinding     *finding;

      if ((layer->kind != TL_PART_SLEEVE && layer->kind != TL_PART_LUG
           && layer->kind != TL_PART_PLAIN_WASHER)
          || tl_layer_word (layer, assembly->stock, TL_FIELD_OTHER_FACE, NULL) == NULL
          || section <= 0.0
          || !tl_rule_limit (assembly, findings, "grip.tinned-with-aluminium-section", &least))
        continue;
      gboolean turned = meets_other_metal (assembly, layer->id);

      if (turned)
        finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                   TL_N_ ("{one} lies the wrong way round: each conductor meets "
                                          "the other metal. Turn it over."));
      else if (section >= least.value)
        finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                                   TL_N_ ("{one} turns aluminium into copper inside its own welded "
                                          "seam: each conductor meets its own metal."));
      else if (is_tested (assembly, layer))
        finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                                   TL_N_ ("{one} below {least} is marked as a tested system. Keep "
                                          "the paper, and use the die that belongs to it."));
      else
        finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                   TL_N_ ("{one} below {least}: only as a tested system with the "
                                          "die that belongs to it, and it is not marked so."));
      tl_finding_owner (finding, layer->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, layer->id);
      tl_finding_figure (finding, "least", tl_range_exact (least.value), "mm2", TL_TRUST_A);
      if (!turned && !is_tested (assembly, layer))
        tl_finding_limit (finding, "section", tl_range_exact (section), least.value, TRUE, "mm2",
                          TL_TRUST_A, least.known_by, least.source);
    }
}

const TlRule tl_rules_practice[] = {
  { "practice.forbidden", TL_CONCERN_PRACTICE, "common-practice", TL_N_ ("What local rules forbid"),
    rule_forbidden },
  { "practice.unlike-direct", TL_CONCERN_PRACTICE, "common-practice",
    TL_N_ ("Unlike conductors in direct touch"), rule_unlike_direct },
  { "practice.sleeve-pair", TL_CONCERN_PRACTICE, "common-practice",
    TL_N_ ("Copper and aluminium in one sleeve"), rule_sleeve_pair },
  { "practice.bimetal", TL_CONCERN_PRACTICE, "common-practice", TL_N_ ("Parts of two metals"),
    rule_bimetal },
  { "practice.access", TL_CONCERN_PRACTICE, "common-practice", TL_N_ ("Access for a later look"),
    rule_access },
  { NULL }
};
