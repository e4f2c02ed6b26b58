/* galvanic-rules.c: every pair of metals that touch or may be bridged.
 *
 * A pair is judged with its coats whole; that decides. The worn case is a finding of its own, at most Watch unless
 * wear is to be expected. The severity comes from the data by surroundings, margin and closure.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>
#include <string.h>

/* --- one couple of the series --- */

typedef struct
{
  const char *a, *b; /* materials, in order of their ids */
  gint        difference_mV;
  gint        limit_mV;
  const char *outcome;  /* within | marginal | above */
  const char *anode;    /* the material that pays; %NULL if equal */
  TlKnownBy   known_by; /* the weaker of both potentials */
  const char *source;
  TlCall      call;
} Couple;

/* Weaker knowledge of the two: memory and dispute tell more than a figure that was read. */
static TlKnownBy
weaker (TlKnownBy one, TlKnownBy two)
{
  if (one == TL_KNOWN_DISPUTED || two == TL_KNOWN_DISPUTED)
    return TL_KNOWN_DISPUTED;
  if (one == TL_KNOWN_MEMORY || two == TL_KNOWN_MEMORY)
    return TL_KNOWN_MEMORY;
  return one;
}

static gboolean
couple_of (TlAssembly *assembly, TlFindings *findings, const char *one, const char *two,
           Couple *couple)
{
  const TlMaterial *p, *q;
  const TlFact     *potential_p, *potential_q;
  TlThreshold       limit, strip;

  couple->a = strcmp (one, two) <= 0 ? one : two;
  couple->b = couple->a == one ? two : one;
  p = tl_stock_material (assembly->stock, couple->a);
  q = tl_stock_material (assembly->stock, couple->b);
  potential_p = p != NULL ? tl_facts_get (p->facts, TL_FIELD_POTENTIAL_J) : NULL;
  potential_q = q != NULL ? tl_facts_get (q->facts, TL_FIELD_POTENTIAL_J) : NULL;
  if (potential_p == NULL || potential_q == NULL)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("A metal of the joint has no potential on the scale used."),
                                NULL, TL_N_FIELDS);
      return FALSE;
    }
  if (!tl_rule_limit (assembly, findings, "galvanic.limit-j", &limit)
      || !tl_rule_limit (assembly, findings, "galvanic.marginal-strip", &strip))
    return FALSE;

  tl_call_init (&couple->call, "galvanic-step");
  tl_call_set_exact (&couple->call, "potential_1", potential_p->value.best);
  tl_call_set_exact (&couple->call, "potential_2", potential_q->value.best);
  tl_call_set_exact (&couple->call, "limit", limit.value);
  tl_call_set_exact (&couple->call, "marginal_strip", strip.value);
  tl_call_set_word (&couple->call, "noble", "rising");
  if (!tl_call_run_quick (&couple->call))
    return FALSE;
  couple->difference_mV = (gint) lround (tl_call_get (&couple->call, "difference").best);
  couple->limit_mV = (gint) lround (limit.value);
  couple->outcome = tl_call_get_word (&couple->call, "outcome");
  couple->anode = NULL;
  if (g_str_equal (tl_call_get_word (&couple->call, "anode"), "first"))
    couple->anode = couple->a;
  else if (g_str_equal (tl_call_get_word (&couple->call, "anode"), "second"))
    couple->anode = couple->b;
  couple->known_by = weaker (potential_p->known_by, potential_q->known_by);
  couple->source = limit.source;
  return TRUE;
}

/* "in damp air" */
static const char *
air_of (const char *surroundings)
{
  if (g_str_equal (surroundings, "dry"))
    return TL_N_ ("in dry air");
  if (g_str_equal (surroundings, "damp"))
    return TL_N_ ("in damp air");
  if (g_str_equal (surroundings, "salt"))
    return TL_N_ ("in salt air");
  return TL_N_ ("outdoors or where water condenses");
}

static const char *
closure_word (TlClosure closure)
{
  static const char *const words[] = { "none", "compound", "adhesive" };

  return words[closure];
}

/* "galvanic.damp.above.none" in the data: surroundings, step, closure. */
static gboolean
severity_of (TlAssembly *assembly, TlFindings *findings, const char *surroundings,
             const char *outcome, TlClosure closure, TlSeverity *severity)
{
  char id[96];

  g_snprintf (id, sizeof id, "galvanic.%s.%s.%s", surroundings, outcome, closure_word (closure));
  return tl_rule_severity (assembly, findings, id, severity);
}

/* --- steps: contacts of one couple, closeness and closure make one finding --- */

typedef struct
{
  Couple     couple;
  gboolean   bridges; /* apart, but may be bridged */
  TlClosure  closure;
  TlSeverity severity;
  GArray    *contacts; /* (element-type guint) */
} Group;

#define MAX_GROUPS 48

static Group *
group_of (Group *groups, guint *n, const char *a, const char *b, gboolean bridges,
          TlClosure closure)
{
  for (guint i = 0; i < *n; i++)
    if (groups[i].bridges == bridges && groups[i].closure == closure
        && ((g_str_equal (groups[i].couple.a, a) && g_str_equal (groups[i].couple.b, b))
            || (g_str_equal (groups[i].couple.a, b) && g_str_equal (groups[i].couple.b, a))))
      return &groups[i];
  return NULL;
}

static const char *
step_message (const Group *group)
{
  if (group->bridges)
    return g_str_equal (group->couple.outcome, "above")
               ? TL_N_ ("{one} stands {distance} off {other} and may bridge it: {a}–{b} "
                        "{difference} {air}, "
                        "limit {difference.limit}. The {anode} is eaten where they meet.")
               : TL_N_ ("{one} stands {distance} off {other} and may bridge it: {a}–{b} "
                        "{difference} {air}, "
                        "limit {difference.limit}.");
  if (g_str_equal (group->couple.outcome, "above"))
    return TL_N_ ("{a}–{b} {difference} {air}, limit {difference.limit}: {one} touches {other}. "
                  "The {anode} is eaten at the rim.");
  if (g_str_equal (group->couple.outcome, "marginal"))
    return TL_N_ (
        "{a}–{b} {difference} {air}, close to the limit of {difference.limit}: {one} touches "
        "{other}. The {anode} would go first.");
  return TL_N_ ("{a}–{b} {difference} {air}, limit {difference.limit}: {one} may lie on {other}.");
}

static const TlContact *
contact_at (const TlAssembly *assembly, guint index)
{
  return &g_array_index (assembly->contacts, TlContact, index);
}

/* The contact that is told in the sentence: the closest of a group. */
static const TlContact *
foremost (const TlAssembly *assembly, const GArray *contacts)
{
  const TlContact *best = NULL;

  for (guint i = 0; i < contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, g_array_index (contacts, guint, i));

      if (best == NULL || contact->distance_mm < best->distance_mm)
        best = contact;
    }
  return best;
}

static gboolean
is_leg_body (const TlBody *body)
{
  return body->is_leg && body->is_metal;
}

/* Two conductors lie on each other in a stack: a steel washer between them halves the step. */
static void
mend_step (TlAssembly *assembly, TlFinding *finding, const Group *group)
{
  if (assembly->family != TL_FAMILY_STACK || group->bridges)
    return;
  for (guint i = 0; i < group->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, g_array_index (group->contacts, guint, i));
      const TlBody    *a = tl_assembly_body (assembly, contact->a),
                   *b = tl_assembly_body (assembly, contact->b);
      const TlBody *washer = a->role == TL_BODY_WASHER ? a : b->role == TL_BODY_WASHER ? b : NULL;
      const char   *steel = tl_rule_find_washer (assembly, TL_PART_PLAIN_WASHER, "steel", "none",
                                                 assembly->stack.thread_mm);

      if (steel == NULL)
        return;
      if (is_leg_body (a) && is_leg_body (b))
        {
          const TlSeat *one = tl_joint_seat (assembly->joint, a->owner);
          const TlSeat *two = tl_joint_seat (assembly->joint, b->owner);

          tl_finding_mend_insert (finding, steel, tl_seat_stack (MAX (one->place, two->place)),
                                  TL_N_ ("Put {part} between the conductors"));
          return;
        }
      if (washer != NULL && !g_str_equal (washer->material, "steel"))
        {
          tl_finding_mend_replace (finding, washer->owner, steel,
                                   TL_N_ ("Put {part} in its place"));
          return;
        }
    }
}

/* Whether sources disagree on the pair beyond its step; stainless steel has a rule of its own. Tin is disputed as a coat on
 * copper only. */
static const char *
dispute_of (const TlAssembly *assembly, const TlBody *a, const char *surface_a, const TlBody *b,
            const char *surface_b)
{
  gboolean      is_a = tl_rule_is_look (assembly, surface_a, TL_LOOK_ALUMINIUM);
  const TlBody *other = is_a ? b : a;
  const char   *surface = is_a ? surface_b : surface_a;

  if (is_a == tl_rule_is_look (assembly, surface_b, TL_LOOK_ALUMINIUM))
    return NULL;
  if (tl_rule_is_look (assembly, surface, TL_LOOK_NICKEL))
    return "nickel-on-aluminium";
  if (tl_rule_is_look (assembly, surface, TL_LOOK_TIN)
      && tl_rule_is_look (assembly, other->material, TL_LOOK_COPPER))
    return "tinned-copper-aluminium";
  return NULL;
}

static void
report_group (TlAssembly *assembly, TlFindings *findings, const Group *group,
              const char *surroundings)
{
  const TlContact *contact = foremost (assembly, group->contacts);
  const TlBody    *a = tl_assembly_body (assembly, contact->a),
               *b = tl_assembly_body (assembly, contact->b);
  TlFinding *finding =
      tl_findings_add (findings, group->severity, TL_TRUST_A, step_message (group));

  for (guint i = 0; i < group->contacts->len; i++)
    {
      guint            index = g_array_index (group->contacts, guint, i);
      const TlContact *each = contact_at (assembly, index);

      tl_finding_contact (finding, index);
      tl_finding_owner (finding, tl_assembly_body (assembly, each->a)->owner);
      tl_finding_owner (finding, tl_assembly_body (assembly, each->b)->owner);
    }
  tl_finding_limit (finding, "difference", tl_range_exact (group->couple.difference_mV),
                    group->couple.limit_mV, FALSE, "mV", TL_TRUST_A, group->couple.known_by,
                    group->couple.source);
  tl_finding_figure (finding, "distance", tl_range_exact (contact->distance_mm), "mm", TL_TRUST_A);
  tl_finding_word (finding, "a", TL_WORD_MATERIAL, group->couple.a);
  tl_finding_word (finding, "b", TL_WORD_MATERIAL, group->couple.b);
  tl_finding_word (finding, "anode", TL_WORD_MATERIAL,
                   group->couple.anode != NULL ? group->couple.anode : group->couple.a);
  tl_finding_word (finding, "one", TL_WORD_OWNER, a->owner);
  tl_finding_word (finding, "other", TL_WORD_OWNER, b->owner);
  tl_finding_word (finding, "air", TL_WORD_TEXT, air_of (surroundings));
  tl_finding_why (
      finding,
      TL_N_ (
          "Wet metals that touch are a cell: the less noble one dissolves beside the other. The "
          "step is "
          "taken on one scale only, in sea water or by another series the figures are others; the "
          "scale says whether a pair may stay together, not how fast it goes."));
  tl_finding_dispute (finding, dispute_of (assembly, a, contact->surface_a, b, contact->surface_b));
  tl_finding_call (finding, findings, &group->couple.call);
  if (group->severity >= TL_SEVERITY_CHANGE && !tl_findings_is_quick (findings))
    mend_step (assembly, finding, group);
}

static void
offer_margin (TlFindings *findings, const Group *group)
{
  TlFigure figure = { "difference",
                      tl_range_exact (group->couple.difference_mV),
                      group->couple.limit_mV,
                      FALSE,
                      "mV",
                      TL_TRUST_A,
                      group->couple.known_by,
                      group->couple.source,
                      group->severity };
  double   slack =
      (group->couple.limit_mV - group->couple.difference_mV) / (double) group->couple.limit_mV;

  /* A pair that is shut off from water does not lead, unless all are. */
  tl_findings_margin (findings, TL_CONCERN_GALVANIC, &figure, slack - 10.0 * group->severity);
}

/* Metals touch and all are alike: a step of nought, which is a figure too. */
static void
offer_one_metal (TlAssembly *assembly, TlFindings *findings)
{
  TlThreshold limit;

  for (guint i = 0; i < assembly->contacts->len; i++)
    if (contact_at (assembly, i)->is_metallic
        && tl_rule_limit (assembly, findings, "galvanic.limit-j", &limit))
      {
        TlFigure figure = {
          "difference",   tl_range_exact (0.0), limit.value,      FALSE, "mV", TL_TRUST_A,
          limit.known_by, limit.source,         TL_SEVERITY_SOUND
        };

        tl_findings_margin (findings, TL_CONCERN_GALVANIC, &figure, 1.0);
        return;
      }
}

static void
rule_step (TlAssembly *assembly, TlFindings *findings)
{
  const char *surroundings = tl_rule_site_word (assembly, TL_FIELD_SURROUNDINGS);
  Group       groups[MAX_GROUPS];
  guint       n = 0;

  if (surroundings == NULL)
    {
      if (assembly->contacts->len > 0)
        tl_findings_not_computed (findings, TL_N_ ("The surroundings are not entered."), "site",
                                  TL_FIELD_SURROUNDINGS);
      return;
    }
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, i);
      gboolean         bridges = contact->kind == TL_CONTACT_MAY_BRIDGE;
      Group           *group;

      if (!contact->is_metallic || contact->surface_a == NULL || contact->surface_b == NULL
          || g_str_equal (contact->surface_a, contact->surface_b))
        continue;
      group =
          group_of (groups, &n, contact->surface_a, contact->surface_b, bridges, contact->closure);
      if (group == NULL)
        {
          if (n == MAX_GROUPS)
            break;
          group = &groups[n];
          group->bridges = bridges;
          group->closure = contact->closure;
          if (!couple_of (assembly, findings, contact->surface_a, contact->surface_b,
                          &group->couple)
              || !severity_of (assembly, findings, surroundings, group->couple.outcome,
                               contact->closure, &group->severity))
            continue;
          group->contacts = g_array_new (FALSE, FALSE, sizeof (guint));
          n++;
        }
      g_array_append_val (group->contacts, i);
    }
  if (n == 0)
    offer_one_metal (assembly, findings);
  for (guint i = 0; i < n; i++)
    {
      report_group (assembly, findings, &groups[i], surroundings);
      offer_margin (findings, &groups[i]);
      g_array_unref (groups[i].contacts);
    }
}

/* --- worn coats --- */

static gboolean
is_turning_face (const TlBody *one, const TlBody *other)
{
  return one->role == TL_BODY_HEAD || one->role == TL_BODY_NUT || other->role == TL_BODY_HEAD
         || other->role == TL_BODY_NUT;
}

static gboolean
is_serrated (const TlAssembly *assembly, const TlBody *body)
{
  const TlLayer *layer = tl_joint_layer (assembly->joint, body->owner);

  return layer != NULL && layer->kind == TL_PART_SERRATED_WASHER;
}

static gboolean
is_reused (const TlAssembly *assembly, const TlBody *body)
{
  const TlLayer *layer = tl_joint_layer (assembly->joint, body->owner);
  const char    *word =
      layer != NULL ? tl_layer_word (layer, assembly->stock, TL_FIELD_REUSED, "no") : "no";

  return g_str_equal (word, "yes");
}

/* Why this coat is to be expected to go; %NULL if it is not. */
static const char *
wear_expected (TlAssembly *assembly, TlFindings *findings, const TlBody *coated,
               const TlBody *other, gboolean dry)
{
  TlThreshold least;

  if (is_serrated (assembly, other) || is_serrated (assembly, coated))
    return TL_N_ ("the teeth of the serrated washer cut it");
  if (is_reused (assembly, coated))
    return TL_N_ ("the part was used before");
  if (is_turning_face (coated, other))
    return TL_N_ ("the face turns on it while it is tightened");
  if (!dry && tl_rule_is_look (assembly, coated->coating, TL_LOOK_ZINC))
    return TL_N_ ("zinc gives itself up in damp air");
  if (coated->coating_known
      && tl_rule_limit (assembly, findings,
                        tl_rule_is_look (assembly, coated->coating, TL_LOOK_ZINC)
                            ? "galvanic.coating-least-zinc"
                            : "galvanic.coating-least-tin",
                        &least)
      && coated->coating_um < least.value)
    return TL_N_ ("it is thinner than the least thickness");
  return NULL;
}

static gboolean
has_word (const TlFinding *finding, const char *name, const char *text)
{
  for (guint i = 0; i < finding->words->len; i++)
    {
      const TlWord *word = &g_array_index (finding->words, TlWord, i);

      if (g_str_equal (word->name, name))
        return g_str_equal (word->text, text);
    }
  return FALSE;
}

/* A finding of this rule that says the same of another pair of owners; (nullable). */
static TlFinding *
same_story (const TlFindings *findings, TlSeverity severity, const char *coat, const char *a,
            const char *b)
{
  for (guint i = 0; i < findings->verdict->findings->len; i++)
    {
      TlFinding *finding = findings->verdict->findings->pdata[i];

      if (finding->rule == findings->rule && finding->severity == severity
          && has_word (finding, "coat", coat) && has_word (finding, "a", a)
          && has_word (finding, "b", b))
        return finding;
    }
  return NULL;
}

static void
report_worn (TlAssembly *assembly, TlFindings *findings, guint index, const TlBody *coated,
             const TlBody *other, const char *surroundings)
{
  const TlContact *contact = contact_at (assembly, index);
  const char      *whole_other = other->coating != NULL ? other->coating : other->material;
  gboolean         dry = g_str_equal (surroundings, "dry");
  const char      *cause = wear_expected (assembly, findings, coated, other, dry);
  Couple           whole, worn;
  TlSeverity       severity;

  if (g_str_equal (coated->material, whole_other)
      || !couple_of (assembly, findings, coated->material, whole_other, &worn)
      || !couple_of (assembly, findings, coated->coating, whole_other, &whole)
      || !severity_of (assembly, findings, surroundings, worn.outcome, contact->closure, &severity)
      || worn.difference_mV <= whole.difference_mV || severity == TL_SEVERITY_SOUND)
    return;
  if (cause == NULL)
    severity = MIN (severity, TL_SEVERITY_WATCH);

  TlFinding *finding = same_story (findings, severity, coated->coating, worn.a, worn.b);

  if (finding != NULL)
    {
      tl_finding_contact (finding, index);
      tl_finding_owner (finding, coated->owner);
      tl_finding_owner (finding, other->owner);
      return;
    }
  finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      cause != NULL
          ? TL_N_ ("Once the {coat} of {one} is through, and {cause}, the couple with {other} is "
                   "{a}–{b} "
                   "{difference}, limit {difference.limit}; whole it is {whole}.")
          : TL_N_ ("Once the {coat} of {one} is worn through, the couple with {other} is {a}–{b} "
                   "{difference}, limit {difference.limit}; whole it is {whole}."));

  tl_finding_contact (finding, index);
  tl_finding_owner (finding, coated->owner);
  tl_finding_owner (finding, other->owner);
  tl_finding_limit (finding, "difference", tl_range_exact (worn.difference_mV), worn.limit_mV,
                    FALSE, "mV", TL_TRUST_A, worn.known_by, worn.source);
  tl_finding_figure (finding, "whole", tl_range_exact (whole.difference_mV), "mV", TL_TRUST_A);
  tl_finding_word (finding, "coat", TL_WORD_MATERIAL, coated->coating);
  tl_finding_word (finding, "one", TL_WORD_OWNER, coated->owner);
  tl_finding_word (finding, "other", TL_WORD_OWNER, other->owner);
  tl_finding_word (finding, "a", TL_WORD_MATERIAL, worn.a);
  tl_finding_word (finding, "b", TL_WORD_MATERIAL, worn.b);
  if (cause != NULL)
    tl_finding_word (finding, "cause", TL_WORD_TEXT, cause);
  tl_finding_call (finding, findings, &worn.call);
}

/* One finding for a coated body and what lies against it; the same pair of owners is told once. */
static void
rule_worn_coat (TlAssembly *assembly, TlFindings *findings)
{
  const char *surroundings = tl_rule_site_word (assembly, TL_FIELD_SURROUNDINGS);

  if (surroundings == NULL)
    return;
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, i);
      const TlBody    *a = tl_assembly_body (assembly, contact->a),
                   *b = tl_assembly_body (assembly, contact->b);

      if (!contact->is_metallic || contact->kind == TL_CONTACT_MAY_BRIDGE)
        continue;
      if (a->coating != NULL)
        report_worn (assembly, findings, i, a, b, surroundings);
      if (b->coating != NULL)
        report_worn (assembly, findings, i, b, a, surroundings);
    }
}

/* --- bare steel rusts --- */

static void
rule_bare_steel (TlAssembly *assembly, TlFindings *findings)
{
  const char *surroundings = tl_rule_site_word (assembly, TL_FIELD_SURROUNDINGS);
  TlFinding  *finding = NULL;

  if (surroundings == NULL || g_str_equal (surroundings, "dry"))
    return;
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = tl_assembly_body (assembly, i);

      if (!body->is_metal || body->coating != NULL
          || !tl_rule_is_look (assembly, body->material, TL_LOOK_STEEL)
          || (assembly->seal.closed[0] && assembly->seal.closed[1]))
        continue;
      if (finding == NULL)
        {
          finding = tl_findings_add (
              findings, TL_SEVERITY_WATCH, TL_TRUST_A,
              TL_N_ ("{one}: bare steel rusts {air}. Stainless or nickel-plated steel lasts "
                     "longer; look at it again."));
          tl_finding_word (finding, "one", TL_WORD_OWNER, body->owner);
          tl_finding_word (finding, "air", TL_WORD_TEXT, air_of (surroundings));
        }
      tl_finding_owner (finding, body->owner);
    }
}

/* --- where sources disagree --- */

static void
rule_disputed (TlAssembly *assembly, TlFindings *findings)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = contact_at (assembly, i);
      gboolean      stainless_a = tl_rule_is_look (assembly, contact->surface_a, TL_LOOK_STAINLESS);
      gboolean      stainless_b = tl_rule_is_look (assembly, contact->surface_b, TL_LOOK_STAINLESS);
      const char   *surface = stainless_a ? contact->surface_b : contact->surface_a;
      const TlBody *a = tl_assembly_body (assembly, contact->a),
                   *b = tl_assembly_body (assembly, contact->b);

      if (!contact->is_metallic || contact->kind != TL_CONTACT_PRESSED || stainless_a == stainless_b
          || !tl_rule_is_look (assembly, surface, TL_LOOK_ALUMINIUM))
        continue;

      TlFinding *finding = tl_findings_add (
          findings, TL_SEVERITY_WATCH, TL_TRUST_I,
          TL_N_ ("{one} against {other}: stainless on aluminium is over the limit by voltage, "
                 "yet in published trials it harmed aluminium less than copper did. The voltage "
                 "decides here; both are cited."));

      tl_finding_contact (finding, i);
      tl_finding_owner (finding, a->owner);
      tl_finding_owner (finding, b->owner);
      tl_finding_word (finding, "one", TL_WORD_OWNER, stainless_a ? a->owner : b->owner);
      tl_finding_word (finding, "other", TL_WORD_OWNER, stainless_a ? b->owner : a->owner);
      tl_finding_add_source (finding, "mansfeld");
      tl_finding_dispute (finding, "stainless-on-aluminium");
      return;
    }
}

/* --- a washer that keeps two metals apart, or makes it worse --- */

/* Washer between two conductors of unlike metals at stack places i-1, i+1. */
static void
judge_separator (TlAssembly *assembly, TlFindings *findings, const TlLayer *washer,
                 const TlLeg *above, const TlLeg *below)
{
  const TlBody *middle = tl_assembly_find_body (assembly, washer->id, TL_BODY_WASHER, NULL);
  const char   *metal_above = tl_leg_word (above, assembly->stock, TL_FIELD_METAL, NULL);
  const char   *metal_below = tl_leg_word (below, assembly->stock, TL_FIELD_METAL, NULL);
  const char   *surface;
  Couple        direct, up, down;

  if (middle == NULL || metal_above == NULL || metal_below == NULL
      || g_str_equal (metal_above, metal_below))
    return;
  surface = middle->coating != NULL ? middle->coating : middle->material;
  if (!couple_of (assembly, findings, metal_above, metal_below, &direct)
      || !couple_of (assembly, findings, metal_above, surface, &up)
      || !couple_of (assembly, findings, metal_below, surface, &down))
    return;

  gint        worst = MAX (up.difference_mV, down.difference_mV);
  gboolean    helps = worst < direct.difference_mV;
  const char *anode = up.difference_mV >= down.difference_mV ? up.anode : down.anode;
  TlFinding  *finding = tl_findings_add (
       findings, helps ? TL_SEVERITY_SOUND : TL_SEVERITY_CHANGE, TL_TRUST_A,
      helps
           ? TL_N_ ("{one} keeps {a} and {b} apart: steps of {up} and {down} in place of {direct}.")
           : TL_N_ (
               "{one} is worse than none: steps of {up} and {down} in place of {direct} without it. "
                "The {anode} goes first."));

  tl_finding_owner (finding, washer->id);
  tl_finding_owner (finding, above->id);
  tl_finding_owner (finding, below->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, washer->id);
  tl_finding_word (finding, "a", TL_WORD_MATERIAL, metal_above);
  tl_finding_word (finding, "b", TL_WORD_MATERIAL, metal_below);
  tl_finding_word (finding, "anode", TL_WORD_MATERIAL, anode != NULL ? anode : surface);
  tl_finding_figure (finding, "up", tl_range_exact (up.difference_mV), "mV", TL_TRUST_A);
  tl_finding_figure (finding, "down", tl_range_exact (down.difference_mV), "mV", TL_TRUST_A);
  tl_finding_figure (finding, "direct", tl_range_exact (direct.difference_mV), "mV", TL_TRUST_A);
  tl_finding_call (finding, findings, &up.call);
  tl_finding_call (finding, findings, &down.call);
  if (!helps && !tl_findings_is_quick (findings))
    {
      const char *steel = tl_rule_find_washer (assembly, TL_PART_PLAIN_WASHER, "steel", "none",
                                               assembly->stack.thread_mm);

      if (steel != NULL)
        tl_finding_mend_replace (finding, washer->id, steel, TL_N_ ("Put {part} in its place"));
    }
}

static void
rule_separates (TlAssembly *assembly, TlFindings *findings)
{

  if (assembly->family != TL_FAMILY_STACK)
    return;
  for (gint i = 1; i + 1 < (gint) assembly->standing->len; i++)
    {
      const TlLayer *washer = tl_rule_stack_layer (assembly, i);
      const TlLeg   *above = tl_rule_stack_leg (assembly, i - 1),
                  *below = tl_rule_stack_leg (assembly, i + 1);

      if (washer != NULL && above != NULL && below != NULL)
        judge_separator (assembly, findings, washer, above, below);
    }
}

const TlRule tl_rules_galvanic[] = {
  { "galvanic.step", TL_CONCERN_GALVANIC, "iec-60950-1-j",
    TL_N_ ("Potential step of each pair of metals"), rule_step },
  { "galvanic.worn-coat", TL_CONCERN_GALVANIC, "iec-60950-1-j",
    TL_N_ ("The same pairs with a coat worn through"), rule_worn_coat },
  { "galvanic.bare-steel", TL_CONCERN_GALVANIC, "common-practice", TL_N_ ("Bare steel in damp air"),
    rule_bare_steel },
  { "galvanic.disputed", TL_CONCERN_GALVANIC, "iec-60950-1-j",
    TL_N_ ("Pairs on which sources disagree"), rule_disputed },
  { "galvanic.separates", TL_CONCERN_GALVANIC, "iec-60950-1-j",
    TL_N_ ("Washer between unlike conductors"), rule_separates },
  { NULL }
};
