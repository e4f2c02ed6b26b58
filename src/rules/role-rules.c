/* role-rules.c: what the conductors are for: who may be joined to whom, and what opens when this joint opens.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <string.h>

static const char *
role_of (const TlAssembly *assembly, const TlLeg *leg)
{
  return tl_leg_word (leg, assembly->stock, TL_FIELD_ROLE, NULL);
}

static gboolean
has_role (const TlAssembly *assembly, const char *role)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const char *own = role_of (assembly, assembly->joint->legs->pdata[i]);

      if (own != NULL && g_str_equal (own, role))
        return TRUE;
    }
  return FALSE;
}

static void
all_legs (const TlAssembly *assembly, TlFinding *finding)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    tl_finding_owner (finding, ((const TlLeg *) assembly->joint->legs->pdata[i])->id);
}

/* All conductors of one joint have one role; the combined conductor may part into its two. */
static void
rule_alike (TlAssembly *assembly, TlFindings *findings)
{
  gboolean line = has_role (assembly, "line"), neutral = has_role (assembly, "neutral");
  gboolean protective = has_role (assembly, "protective"),
           combined = has_role (assembly, "protective-neutral");
  const char *message = NULL;

  if (line && (neutral || protective || combined))
    message = TL_N_ ("A line conductor is joined to another role: that is a short circuit, or a "
                     "live earth. Find out which is which.");
  else if (neutral && protective && !combined)
    message = TL_N_ ("Neutral is joined to the protective conductor: never at a joint or at an "
                     "earth pin. When the neutral opens, every "
                     "metal case is live.");
  if (message != NULL)
    all_legs (assembly, tl_findings_add (findings, TL_SEVERITY_UNSAFE, TL_TRUST_A, message));
  else if (combined && (neutral || protective))
    all_legs (
        assembly,
        tl_findings_add (
            findings, TL_SEVERITY_WATCH, TL_TRUST_A,
            TL_N_ ("The combined conductor parts into neutral and protective here: once parted "
                   "they are never joined again "
                   "further on. A licensed person decides whether it may part at this place.")));
}

static void
rule_protective (TlAssembly *assembly, TlFindings *findings)
{
  const char *needs = tl_rule_site_word (assembly, TL_FIELD_ACCESSORY_NEEDS_PE);
  const char *present = tl_rule_site_word (assembly, TL_FIELD_PE_PRESENT);

  if (needs == NULL || !g_str_equal (needs, "yes"))
    return;
  if (present == NULL)
    tl_findings_not_computed (findings,
                              TL_N_ ("Whether a protective conductor is there is not entered."),
                              "site", TL_FIELD_PE_PRESENT);
  else if (g_str_equal (present, "no"))
    tl_findings_add (findings, TL_SEVERITY_UNSAFE, TL_TRUST_A,
                     TL_N_ ("The accessory needs a protective conductor and none is there. The "
                            "neutral never stands in for it. Run one, or leave "
                            "the accessory off."));
}

static void
rule_combined_section (TlAssembly *assembly, TlFindings *findings)
{
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      const char  *role = role_of (assembly, leg);
      gboolean     aluminium = tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM);
      double       section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);
      TlThreshold  least;

      if (role == NULL || !g_str_equal (role, "protective-neutral") || section <= 0.0
          || !tl_rule_limit (
              assembly, findings,
              aluminium ? "roles.combined-aluminium-least" : "roles.combined-copper-least", &least)
          || section >= least.value)
        continue;

      TlFinding *finding =
          tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                           TL_N_ ("{one}, {section}, serves as neutral and protective conductor at "
                                  "once; {section.limit} is the least for "
                                  "that. Part the two at the board, in copper."));

      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_limit (finding, "section", tl_range_exact (section), least.value, TRUE, "mm2",
                        TL_TRUST_A, least.known_by, least.source);
      if (least.source != NULL)
        tl_finding_source (finding, least.source);
    }
}

/* An opening neutral puts the full voltage of another line on what is connected; what is wrong with such a joint weighs
 * one severity more. Runs after the rules of force and metal, and reads what they found. */
static void
rule_opening (TlAssembly *assembly, TlFindings *findings)
{
  gboolean neutral = has_role (assembly, "neutral"),
           combined = has_role (assembly, "protective-neutral");
  const char *opens =
      tl_joint_site_fact (assembly->joint, assembly->stock, TL_FIELD_CIRCUIT_OPENS) != NULL
          ? tl_rule_site_word (assembly, TL_FIELD_CIRCUIT_OPENS)
          : tl_facts_word (assembly->joint->duty, TL_FIELD_CIRCUIT_OPENS, "no");
  TlSeverity worst = TL_SEVERITY_SOUND;

  if ((!neutral && !combined) || opens == NULL)
    return;
  for (guint i = 0; i < findings->verdict->findings->len; i++)
    {
      const TlFinding *finding = findings->verdict->findings->pdata[i];

      if (finding->rule->concern == TL_CONCERN_GRIP
          || finding->rule->concern == TL_CONCERN_GALVANIC)
        worst = MAX (worst, finding->severity);
    }
  if (worst < TL_SEVERITY_WATCH && !g_str_equal (opens, "yes"))
    return;
  all_legs (assembly, tl_findings_add (
                          findings, g_str_equal (opens, "yes") ? tl_severity_worse (worst) : worst,
                          TL_TRUST_A,
                          combined ? TL_N_ ("This joint carries the combined conductor: when it "
                                            "opens, metal cases are live. What is wrong with it "
                                            "weighs one step more.")
                                   : TL_N_ ("This joint carries the neutral: when it opens, "
                                            "devices see the wrong voltage. What is wrong with it "
                                            "weighs one step more.")));
}

const TlRule tl_rules_roles[] = {
  { "roles.alike", TL_CONCERN_ROLES, "common-practice", TL_N_ ("Roles of the conductors"),
    rule_alike },
  { "roles.protective", TL_CONCERN_ROLES, "common-practice",
    TL_N_ ("Protective conductor at the accessory"), rule_protective },
  { "roles.combined-section", TL_CONCERN_ROLES, "common-practice",
    TL_N_ ("Section of a combined conductor"), rule_combined_section },
  { "roles.opening", TL_CONCERN_ROLES, "common-practice",
    TL_N_ ("A joint that opens in the neutral"), rule_opening },
  { NULL }
};
