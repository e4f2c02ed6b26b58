/* grip-stack-rules.c: whether a bolted stack clamps what it should, and goes on clamping.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>

static gboolean
is_stack (const TlAssembly *assembly)
{
  return assembly->family == TL_FAMILY_STACK && assembly->stack.has_bolt;
}

static const TlLayer *
bolt_of (const TlAssembly *assembly)
{
  return tl_joint_layer (assembly->joint, assembly->stack.bolt);
}

/* --- what could not be built --- */

static void
rule_built (TlAssembly *assembly, TlFindings *findings)
{
  for (guint i = 0; i < assembly->problems->len; i++)
    {
      const TlProblem *problem = &g_array_index (assembly->problems, TlProblem, i);

      if (problem->is_missing)
        continue;

      TlFinding *finding =
          tl_findings_add (findings, TL_SEVERITY_UNSAFE, TL_TRUST_A, problem->message);

      if (isfinite (problem->a))
        tl_finding_figure (finding, "a", tl_range_exact (problem->a), "mm", TL_TRUST_A);
      if (isfinite (problem->b))
        tl_finding_figure (finding, "b", tl_range_exact (problem->b), "mm", TL_TRUST_A);
      if (problem->owner != NULL && *problem->owner != '\0')
        {
          tl_finding_word (finding, "part", TL_WORD_OWNER, problem->owner);
          tl_finding_owner (finding, problem->owner);
        }
      if (problem->field < TL_N_FIELDS)
        tl_finding_word (finding, "field", TL_WORD_TEXT, tl_field_info (problem->field)->label);
    }
}

/* --- the eye and what bears on it --- */

typedef struct
{
  const TlLeg *leg;
  gint         place;
  double       bore_mm, wire_mm, crest_mm, outer_mm;
} Eye;

/* An eye of round wire at a place of the stack; flats of lugs are none. */
static gboolean
eye_at (const TlAssembly *assembly, gint place, Eye *eye)
{
  const TlLeg *leg = tl_rule_stack_leg (assembly, place);

  if (leg == NULL || tl_assembly_find_body (assembly, leg->id, TL_BODY_EYE, NULL) == NULL)
    return FALSE;
  eye->leg = leg;
  eye->place = place;
  eye->bore_mm = tl_leg_number (leg, assembly->stock, TL_FIELD_EYE_BORE, 0.0);
  eye->wire_mm = tl_rule_metal_diameter_mm (assembly, leg);
  eye->crest_mm = eye->bore_mm + eye->wire_mm;
  eye->outer_mm = eye->bore_mm + 2.0 * eye->wire_mm;
  return TRUE;
}

/* Diameter on which the neighbour at @place bears; 0 if it is no ring (another eye, or nothing). */
static double
bearing_at (const TlAssembly *assembly, gint place, const char **owner)
{
  const TlLayer *layer = tl_rule_stack_layer (assembly, place);

  if (layer == NULL)
    return 0.0;
  *owner = layer->id;
  if (layer->kind == TL_PART_BOLT || layer->kind == TL_PART_NUT)
    return tl_layer_number (layer, assembly->stock, TL_FIELD_BEARING_DIAMETER,
                            tl_layer_number (layer, assembly->stock, TL_FIELD_ACROSS_FLATS, 0.0));
  return tl_layer_number (layer, assembly->stock, TL_FIELD_OUTER, 0.0);
}

static void
mend_cover (TlAssembly *assembly, TlFinding *finding, gint eye_place, gboolean above,
            const char *neighbour)
{
  const TlLayer *layer = tl_joint_layer (assembly->joint, neighbour);
  const char    *plain = tl_rule_find_washer (assembly, TL_PART_PLAIN_WASHER, "steel", NULL,
                                              assembly->stack.thread_mm);
  const char    *large = tl_rule_find_washer (assembly, TL_PART_LARGE_WASHER, "steel", NULL,
                                              assembly->stack.thread_mm);

  if (layer->kind == TL_PART_PLAIN_WASHER && large != NULL)
    tl_finding_mend_replace (finding, neighbour, large, TL_N_ ("Put {part} in its place"));
  else if (plain != NULL)
    tl_finding_mend_insert (
        finding, plain, tl_seat_stack ((guint) (above ? eye_place : eye_place + 1)),
        above ? TL_N_ ("Put {part} above the eye") : TL_N_ ("Put {part} below the eye"));
}

static void
judge_cover (TlAssembly *assembly, TlFindings *findings, const Eye *eye, gboolean above)
{
  const char *owner = NULL;
  double      bearing = bearing_at (assembly, above ? eye->place - 1 : eye->place + 1, &owner);
  double      margin = bearing - eye->crest_mm;
  TlFinding  *finding;

  if (bearing <= 0.0 || eye->crest_mm <= 0.0)
    return;
  if (margin < 0.0)
    finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                               TL_N_ ("{one} bears on {bearing}, the crest of the eye of {other} "
                                      "lies at {crest}: it slides into the "
                                      "eye and spreads it."));
  else if (bearing < eye->outer_mm)
    finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                               TL_N_ ("{one}, {bearing}, does not cover the eye of {other}, "
                                      "{outer}: it bears on the crest, the rim "
                                      "stands out."));
  else
    finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                               TL_N_ ("{one}, {bearing}, covers the eye of {other}, {outer}."));

  tl_finding_owner (finding, owner);
  tl_finding_owner (finding, eye->leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, owner);
  tl_finding_word (finding, "other", TL_WORD_OWNER, eye->leg->id);
  tl_finding_limit (finding, "bearing", tl_range_exact (bearing), eye->crest_mm, TRUE, "mm",
                    TL_TRUST_A, TL_KNOWN_COMPUTED, NULL);
  tl_finding_figure (finding, "crest", tl_range_exact (eye->crest_mm), "mm", TL_TRUST_A);
  tl_finding_figure (finding, "outer", tl_range_exact (eye->outer_mm), "mm", TL_TRUST_A);
  tl_finding_why (finding,
                  TL_N_ ("An eye of round wire is lines, not a ring: what clamps it has to reach "
                         "past the middle of the "
                         "wire all round, else the wire is pushed outwards and the eye opens."));

  TlFigure figure = {
    "cover", tl_range_exact (margin), 0.0, TRUE, "mm", TL_TRUST_A, TL_KNOWN_COMPUTED,
    NULL,    finding->severity
  };

  tl_findings_margin (findings, TL_CONCERN_GRIP, &figure, margin / eye->crest_mm);
  if (margin < 0.0 && !tl_findings_is_quick (findings))
    mend_cover (assembly, finding, eye->place, above, owner);
}

static void
rule_eye_covered (TlAssembly *assembly, TlFindings *findings)
{
  Eye eye;

  if (!is_stack (assembly))
    return;
  for (gint i = 0; i < (gint) assembly->standing->len; i++)
    if (eye_at (assembly, i, &eye))
      {
        judge_cover (assembly, findings, &eye, TRUE);
        judge_cover (assembly, findings, &eye, FALSE);
      }
}

static void
rule_eye_closes (TlAssembly *assembly, TlFindings *findings)
{
  Eye eye;

  if (!is_stack (assembly))
    return;
  for (gint i = 0; i < (gint) assembly->standing->len; i++)
    {
      const char *closes;
      TlFinding  *finding;

      if (!eye_at (assembly, i, &eye))
        continue;
      closes = tl_leg_word (eye.leg, assembly->stock, TL_FIELD_EYE_CLOSES, NULL);
      if (closes == NULL)
        {
          tl_findings_not_computed (findings,
                                    TL_N_ ("Which way the eye of {part} is wound is not entered."),
                                    eye.leg->id, TL_FIELD_EYE_CLOSES);
          continue;
        }
      if (g_str_equal (closes, "with-nut"))
        finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                                   TL_N_ ("The eye of {one} closes as the nut turns."));
      else
        {
          finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                     TL_N_ ("The eye of {one} is wound against the nut: tightening "
                                            "opens it and pushes the wire out. Turn "
                                            "it over."));
          tl_finding_mend_word (finding, eye.leg->id, TL_FIELD_EYE_CLOSES, "with-nut",
                                TL_N_ ("Turn the eye over"));
        }
      tl_finding_owner (finding, eye.leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, eye.leg->id);
    }
}

/* Strands under a bare screw spread; a lug or ferrule holds them together. */
static void
rule_strands (TlAssembly *assembly, TlFindings *findings)
{
  Eye eye;

  if (!is_stack (assembly))
    return;
  for (gint i = 0; i < (gint) assembly->standing->len; i++)
    {
      if (!eye_at (assembly, i, &eye)
          || g_str_equal (tl_leg_word (eye.leg, assembly->stock, TL_FIELD_CLASS, "class-1"),
                          "class-1"))
        continue;

      TlFinding *finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                            TL_N_ ("{one} is stranded and lies bare under the "
                                                   "screw: the strands spread. Press a cable lug "
                                                   "on it first."));

      tl_finding_owner (finding, eye.leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, eye.leg->id);
    }
}

/* --- order of washers, springs --- */

static gboolean
is_spring (TlPartKind kind)
{
  return kind == TL_PART_CONICAL_WASHER || kind == TL_PART_SPRING_RING
         || kind == TL_PART_SERRATED_WASHER;
}

static void
rule_washer_order (TlAssembly *assembly, TlFindings *findings)
{

  if (!is_stack (assembly))
    return;
  for (gint i = 0; i < (gint) assembly->standing->len; i++)
    {
      const TlLayer *layer = tl_rule_stack_layer (assembly, i);
      const TlLeg   *leg = tl_rule_stack_leg (assembly, i + 1);
      gint           before = i + 1;

      if (layer == NULL || !is_spring (layer->kind))
        continue;
      if (leg == NULL)
        {
          leg = tl_rule_stack_leg (assembly, i - 1);
          before = i;
        }
      if (leg == NULL)
        continue;

      TlFinding *finding = tl_findings_add (
          findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
          TL_N_ ("{one} lies straight on {other} and cuts into the soft metal. Put a plain washer "
                 "between."));
      const char *plain = tl_rule_find_washer (assembly, TL_PART_PLAIN_WASHER, "steel", NULL,
                                               assembly->stack.thread_mm);

      tl_finding_owner (finding, layer->id);
      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, layer->id);
      tl_finding_word (finding, "other", TL_WORD_OWNER, leg->id);
      if (plain != NULL)
        tl_finding_mend_insert (finding, plain, tl_seat_stack ((guint) before),
                                TL_N_ ("Put {part} between"));
    }
}

static const TlLayer *
first_of_kind (const TlAssembly *assembly, TlPartKind kind)
{
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->kind == kind && layer->seat.kind == TL_SEAT_STACK)
        return layer;
    }
  return NULL;
}

/* Place for a conical washer: under the nut, upon a plain washer. */
static void
mend_conical (TlAssembly *assembly, TlFinding *finding)
{
  const TlLayer *ring = first_of_kind (assembly, TL_PART_SPRING_RING);
  const char    *conical = tl_rule_find_washer (assembly, TL_PART_CONICAL_WASHER, "steel", NULL,
                                                assembly->stack.thread_mm);
  const TlSeat  *nut =
      assembly->stack.has_nut ? tl_joint_seat (assembly->joint, assembly->stack.nut) : NULL;

  if (conical == NULL)
    return;
  if (ring != NULL)
    tl_finding_mend_replace (finding, ring->id, conical, TL_N_ ("Put {part} in its place"));
  else if (nut != NULL)
    tl_finding_mend_insert (finding, conical, tl_seat_stack (nut->place),
                            TL_N_ ("Put {part} under the nut"));
}

static void
judge_conical (TlAssembly *assembly, TlFindings *findings, const TlLayer *conical)
{
  double     flat = assembly->stack.conical_flat_N;
  TlRange    preload = assembly->stack.preload_N;
  TlSeverity severity;
  TlFinding *finding;

  if (flat <= 0.0)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("{part} has no force at which it lies flat. Enter it."),
                                conical->id, TL_FIELD_FLAT_FORCE);
      return;
    }
  if (!assembly->stack.has_torque)
    return; /* the rule of the torque says so */
  severity = tl_severity_of_figure (preload, flat, FALSE, 0.0, TL_TRUST_B, TL_SEVERITY_WATCH);
  finding = tl_findings_add (findings, severity, TL_TRUST_B,
                             severity == TL_SEVERITY_SOUND
                                 ? TL_N_ ("{one} follows creep: flat at {flat}, clamped with "
                                          "{preload}. The force up to flat is credited.")
                                 : TL_N_ ("{one} may lie flat: flat at {flat}, clamped with "
                                          "{preload}. Beyond flat it follows nothing."));
  tl_finding_owner (finding, conical->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, conical->id);
  tl_finding_limit (finding, "preload", preload, flat, FALSE, "N", TL_TRUST_B, TL_KNOWN_COMPUTED,
                    "din-6796");
  tl_finding_figure (finding, "flat", tl_range_exact (flat), "N", TL_TRUST_A);
  tl_finding_why (finding, TL_N_ ("Soft aluminium gives way for years. A spring with travel keeps "
                                  "most of the force while it does; the "
                                  "test force that is printed for these washers is about twice the "
                                  "force at which they lie flat."));
}

static void
rule_spring (TlAssembly *assembly, TlFindings *findings)
{
  const TlLayer *conical, *ring;
  TlFinding     *finding;

  if (!is_stack (assembly) || !tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM))
    return;
  conical = first_of_kind (assembly, TL_PART_CONICAL_WASHER);
  ring = first_of_kind (assembly, TL_PART_SPRING_RING);
  if (conical != NULL)
    judge_conical (assembly, findings, conical);
  if (ring != NULL)
    {
      TlSeverity severity;

      if (!tl_rule_severity (assembly, findings, "practice.split-ring", &severity))
        return;
      finding = tl_findings_add (findings, severity, TL_TRUST_B,
                                 TL_N_ ("{one} lies flat far below the clamping force: no force is "
                                        "credited to it. Sources disagree on "
                                        "split rings; both are cited."));
      tl_finding_owner (finding, ring->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, ring->id);
      tl_finding_add_source (finding, "common-practice");
      tl_finding_dispute (finding, "split-spring-ring");
      if (conical == NULL && !tl_findings_is_quick (findings))
        mend_conical (assembly, finding);
    }
  else if (conical == NULL)
    {
      finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                 TL_N_ ("Neither a conical washer nor a spring ring on aluminium: "
                                        "as the metal creeps the clamping force goes "
                                        "and nothing follows."));
      if (assembly->stack.nut != NULL)
        tl_finding_owner (finding, assembly->stack.nut);
      if (!tl_findings_is_quick (findings))
        mend_conical (assembly, finding);
    }
}

/* --- force --- */

static void
rule_preload (TlAssembly *assembly, TlFindings *findings)
{
  const TlStackFigures *stack = &assembly->stack;
  TlThreshold           share;
  TlSeverity            severity;
  TlFinding            *finding;
  TlCall                call;
  double                limit;

  if (!is_stack (assembly))
    return;
  if (!stack->has_torque)
    {
      tl_findings_not_computed (findings, TL_N_ ("The torque of {part} is not entered."),
                                stack->bolt, TL_FIELD_TORQUE);
      return;
    }
  if (!stack->has_proof || stack->stress_area_mm2 <= 0.0)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("{part} has no proof stress. Enter its property class."),
                                stack->bolt, TL_FIELD_PROOF_STRESS);
      return;
    }
  if (!tl_rule_limit (assembly, findings, "grip.preload-share", &share))
    return;
  limit = share.value * stack->proof_MPa * stack->stress_area_mm2;
  severity =
      tl_severity_of_figure (stack->preload_N, limit, FALSE, 0.0, TL_TRUST_B, TL_SEVERITY_CHANGE);
  finding = tl_findings_add (findings, severity, TL_TRUST_B,
                             severity == TL_SEVERITY_SOUND
                                 ? TL_N_ ("{torque} clamps with {preload} (estimate; friction is "
                                          "unknown); {one} bears {preload.limit}.")
                                 : TL_N_ ("{torque} clamps with {preload} (estimate; friction is "
                                          "unknown), more than the {preload.limit} that "
                                          "{one} should bear: it stretches or strips."));
  tl_finding_owner (finding, stack->bolt);
  tl_finding_word (finding, "one", TL_WORD_OWNER, stack->bolt);
  tl_finding_figure (finding, "torque", tl_range_exact (stack->torque_Nm.best), "N_m", TL_TRUST_A);
  tl_finding_limit (finding, "preload", stack->preload_N, limit, FALSE, "N", TL_TRUST_B,
                    share.known_by, share.source);
  tl_finding_why (finding, TL_N_ ("Most of a torque is spent on friction. The same torque gives a "
                                  "force that may differ by a third each "
                                  "way, so the force is a range and never one number."));

  tl_call_init (&call, "torque-to-preload");
  tl_call_set (&call, "torque", stack->torque_Nm);
  tl_call_set (&call, "nut_factor", stack->nut_factor);
  tl_call_set_exact (&call, "diameter", stack->thread_mm);
  if (!tl_findings_is_quick (findings) && tl_call_run (&call, NULL))
    tl_finding_call (finding, findings, &call);
}

/* Round wire flattens until it bears; a flat part is judged by pressure. */
static void
judge_flattening (TlAssembly *assembly, TlFindings *findings, const Eye *eye)
{
  const char       *metal = tl_leg_word (eye->leg, assembly->stock, TL_FIELD_METAL, NULL);
  const TlMaterial *material = metal != NULL ? tl_stock_material (assembly->stock, metal) : NULL;
  double            hardness =
      material != NULL ? tl_facts_number (material->facts, TL_FIELD_HARDNESS, 0.0) : 0.0;
  TlThreshold most;
  TlSeverity  severity;
  TlCall      call;

  if (hardness <= 0.0)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("The hardness of the metal of {part} is not known."),
                                eye->leg->id, TL_FIELD_HARDNESS);
      return;
    }
  if (!tl_rule_limit (assembly, findings, "grip.eye-flattening-max", &most))
    return;
  tl_call_init (&call, "eye-flattening");
  tl_call_set (&call, "force", assembly->stack.preload_N);
  tl_call_set_exact (&call, "hardness", hardness);
  tl_call_set_exact (&call, "wire_diameter", eye->wire_mm);
  tl_call_set_exact (&call, "eye_diameter", eye->bore_mm);
  if (!(tl_findings_is_quick (findings) ? tl_call_run_quick (&call) : tl_call_run (&call, NULL)))
    return;

  TlRange share = tl_call_get (&call, "share");

  severity = tl_severity_of_figure (share, most.value, FALSE, 0.0, TL_TRUST_B, TL_SEVERITY_CHANGE);

  TlFinding *finding = tl_findings_add (
      findings, MAX (severity, TL_SEVERITY_WATCH), TL_TRUST_B,
      severity == TL_SEVERITY_CHANGE ? TL_N_ ("The eye of {one} is flattened by {depth} on each "
                                              "side: more than the wire stands (estimate). "
                                              "Tighten less.")
                                     : TL_N_ ("{torque} on the round wire of {one} is an estimate: "
                                              "it flattens by {depth} on each side and "
                                              "bears on lines."));

  tl_finding_owner (finding, eye->leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, eye->leg->id);
  tl_finding_limit (finding, "share", share, most.value, FALSE, "1", TL_TRUST_B, most.known_by,
                    most.source);
  tl_finding_figure (finding, "depth", tl_call_get (&call, "depth"), "mm", TL_TRUST_B);
  tl_finding_figure (finding, "torque", tl_range_exact (assembly->stack.torque_Nm.best), "N_m",
                     TL_TRUST_A);
  tl_finding_call (finding, findings, &call);
}

static void
judge_pressure (TlAssembly *assembly, TlFindings *findings, guint index)
{
  const TlContact *contact = &g_array_index (assembly->contacts, TlContact, index);
  const TlBody    *a = tl_assembly_body (assembly, contact->a),
               *b = tl_assembly_body (assembly, contact->b);
  const TlBody *soft = tl_rule_is_look (assembly, a->material, TL_LOOK_ALUMINIUM) ? a : b;
  const TlBody *other = soft == a ? b : a;
  TlThreshold   limit;
  TlRange       force = contact->force_N, pressure;

  if (!tl_rule_is_look (assembly, soft->material, TL_LOOK_ALUMINIUM) || contact->is_line
      || contact->loaded_area_mm2 <= 0.0
      || !tl_rule_limit (assembly, findings, "grip.bearing-aluminium-max", &limit))
    return;
  pressure = (TlRange){ force.low / contact->loaded_area_mm2, force.best / contact->loaded_area_mm2,
                        force.high / contact->loaded_area_mm2 };

  TlSeverity severity =
      tl_severity_of_figure (pressure, limit.value, FALSE, 0.0, TL_TRUST_B, TL_SEVERITY_CHANGE);
  TlFinding *finding = tl_findings_add (
      findings, severity, TL_TRUST_B,
      severity == TL_SEVERITY_SOUND ? TL_N_ ("{other} presses {one} with {pressure}, limit "
                                             "{pressure.limit}: soft aluminium stands that.")
                                    : TL_N_ ("{other} presses {one} with {pressure}, limit "
                                             "{pressure.limit}: soft aluminium gives way, the "
                                             "force goes. A larger, thick washer or less torque."));

  tl_finding_contact (finding, index);
  tl_finding_owner (finding, soft->owner);
  tl_finding_owner (finding, other->owner);
  tl_finding_word (finding, "one", TL_WORD_OWNER, soft->owner);
  tl_finding_word (finding, "other", TL_WORD_OWNER, other->owner);
  tl_finding_limit (finding, "pressure", pressure, limit.value, FALSE, "MPa", TL_TRUST_B,
                    limit.known_by, limit.source);

  TlFigure figure = g_array_index (finding->figures, TlFigure, finding->figures->len - 1);

  tl_findings_margin (findings, TL_CONCERN_GRIP, &figure,
                      (limit.value - pressure.best) / limit.value);
}

static void
rule_bearing (TlAssembly *assembly, TlFindings *findings)
{
  Eye eye;

  if (!is_stack (assembly) || !assembly->stack.has_torque)
    return;
  for (guint i = 0; i < assembly->contacts->len; i++)
    if (g_array_index (assembly->contacts, TlContact, i).kind == TL_CONTACT_PRESSED)
      judge_pressure (assembly, findings, i);
  for (gint i = 0; i < (gint) assembly->standing->len; i++)
    if (eye_at (assembly, i, &eye) && eye.wire_mm > 0.0 && eye.bore_mm > 0.0)
      judge_flattening (assembly, findings, &eye);
}

/* --- bolt and nut --- */

static void
rule_thread (TlAssembly *assembly, TlFindings *findings)
{
  const TlStackFigures *stack = &assembly->stack;
  TlThreshold           pitches;
  double                need;
  TlFinding            *finding;

  if (!is_stack (assembly) || !stack->has_nut || stack->bolt_length_mm <= 0.0
      || stack->nut_height_mm <= 0.0
      || !tl_rule_limit (assembly, findings, "grip.thread-protrusion-low", &pitches))
    return;
  need = pitches.value * stack->pitch_mm;
  if (stack->engaged_mm < stack->nut_height_mm)
    finding = tl_findings_add (findings, TL_SEVERITY_UNSAFE, TL_TRUST_A,
                               TL_N_ ("The nut holds on {engaged} of thread, its whole height of "
                                      "{height} is wanted: {one} is too short."));
  else if (stack->protrusion_mm < need)
    finding =
        tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                         TL_N_ ("{one} stands {protrusion} out of the nut, {protrusion.limit} is "
                                "wanted: whether the nut is full cannot "
                                "be seen."));
  else
    finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                               TL_N_ ("{one} fills the nut and stands {protrusion} out of it."));
  tl_finding_owner (finding, stack->bolt);
  tl_finding_owner (finding, stack->nut);
  tl_finding_word (finding, "one", TL_WORD_OWNER, stack->bolt);
  tl_finding_limit (finding, "engaged", tl_range_exact (MAX (stack->engaged_mm, 0.0)),
                    stack->nut_height_mm, TRUE, "mm", TL_TRUST_A, TL_KNOWN_COMPUTED, NULL);
  tl_finding_figure (finding, "height", tl_range_exact (stack->nut_height_mm), "mm", TL_TRUST_A);
  tl_finding_limit (finding, "protrusion", tl_range_exact (stack->protrusion_mm), need, TRUE, "mm",
                    TL_TRUST_A, pitches.known_by, pitches.source);
  if (finding->severity > TL_SEVERITY_SOUND && !tl_findings_is_quick (findings))
    {
      const char *longer = tl_rule_find_bolt (assembly, bolt_of (assembly),
                                              stack->grip_mm + stack->nut_height_mm + need);

      if (longer != NULL)
        tl_finding_mend_replace (finding, stack->bolt, longer, TL_N_ ("Take {part}"));
    }
}

/* A washer much wider than what bears on it dishes, and its rim carries nothing. */
static void
rule_dishing (TlAssembly *assembly, TlFindings *findings)
{
  TlThreshold ratio;

  if (!is_stack (assembly) || !tl_rule_limit (assembly, findings, "grip.washer-stiffness", &ratio))
    return;
  for (gint i = 0; i < (gint) assembly->standing->len; i++)
    {
      const TlLayer *washer = tl_rule_stack_layer (assembly, i);
      const char    *owner = NULL;
      double         outer, thickness, bearing;

      if (washer == NULL
          || (washer->kind != TL_PART_PLAIN_WASHER && washer->kind != TL_PART_LARGE_WASHER))
        continue;
      outer = tl_layer_number (washer, assembly->stock, TL_FIELD_OUTER, 0.0);
      thickness = tl_layer_number (washer, assembly->stock, TL_FIELD_THICKNESS, 0.0);
      bearing = MAX (bearing_at (assembly, i - 1, &owner), bearing_at (assembly, i + 1, &owner));
      if (bearing <= 0.0 || thickness <= 0.0 || thickness >= ratio.value * (outer - bearing))
        continue;

      TlFinding *finding =
          tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_B,
                           TL_N_ ("{one} stands {overhang} past what presses it and is {thickness} "
                                  "thick: it dishes, and its rim "
                                  "carries nothing."));

      tl_finding_owner (finding, washer->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, washer->id);
      tl_finding_limit (finding, "overhang", tl_range_exact ((outer - bearing) / 2.0),
                        thickness / (2.0 * ratio.value), FALSE, "mm", TL_TRUST_B, ratio.known_by,
                        ratio.source);
      tl_finding_figure (finding, "thickness", tl_range_exact (thickness), "mm", TL_TRUST_A);
    }
}

const TlRule tl_rules_grip_stack[] = {
  { "grip.built", TL_CONCERN_GRIP, "geometry", TL_N_ ("Whether the parts fit together at all"),
    rule_built },
  { "grip.eye-covered", TL_CONCERN_GRIP, "geometry", TL_N_ ("Bearing faces on each eye"),
    rule_eye_covered },
  { "grip.eye-closes", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Way the eye is wound"),
    rule_eye_closes },
  { "grip.strands", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Strands under a screw"),
    rule_strands },
  { "grip.washer-order", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Order of washers"),
    rule_washer_order },
  { "grip.spring", TL_CONCERN_GRIP, "din-6796", TL_N_ ("Spring that follows creep"), rule_spring },
  { "grip.preload", TL_CONCERN_GRIP, "iso-898-1", TL_N_ ("Clamping force from torque"),
    rule_preload },
  { "grip.bearing", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Pressure on aluminium"),
    rule_bearing },
  { "grip.thread", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Thread in the nut"), rule_thread },
  { "grip.dishing", TL_CONCERN_GRIP, "chosen-here", TL_N_ ("Washers wider than their load"),
    rule_dishing },
  { NULL }
};
