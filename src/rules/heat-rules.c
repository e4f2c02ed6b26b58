/* heat-rules.c: how hot the joint gets, at its load, at the device's limit and in a short circuit.
 *
 * From the electro-thermal model of the assembly. A predicted contact resistance is of class B, so a limit passed only at
 * its unfavourable end is Watch; a joint that was measured is of class A.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>

/* Temperature of the hottest metal over the three cases of the contacts. */
typedef struct
{
  TlRange     hot_C;
  gboolean    runaway;      /* no steady state at the best estimate */
  gboolean    runaway_high; /* only at the unfavourable end */
  guint       hot_line;
  TlNetResult best;
} Answer;

static gboolean
solve_case (const TlHeatModel *model, TlHeatCase which, double current_A, TlNetResult *result)
{
  TlHeatChange change;

  tl_heat_change_init (&change);
  change.which = which;
  change.current_A = current_A;
  return tl_heat_model_solve (model, &change, NULL, result, NULL);
}

/* Quick: the best case alone, on one mesh. */
static gboolean
answer_quick (const TlHeatModel *model, Answer *answer)
{
  double hot;

  answer->runaway = !tl_heat_model_quick (model, &hot);
  answer->hot_C = tl_range_exact (answer->runaway ? 0.0 : hot);
  return TRUE;
}

static gboolean
answer_of (const TlHeatModel *model, double current_A, gboolean quick, Answer *answer)
{
  g_auto (TlNetResult) high = { 0 };

  *answer = (Answer){ .hot_line = G_MAXUINT };
  if (quick)
    return answer_quick (model, answer);
  if (!solve_case (model, TL_HEAT_BEST, current_A, &answer->best))
    return FALSE;
  answer->runaway = answer->best.status != TL_NET_OK;
  if (answer->runaway)
    return TRUE;
  answer->hot_line = answer->best.hot_body;
  answer->hot_C = tl_range_exact (answer->best.value[TL_NET_HOT_C]);
  if (tl_heat_model_is_measured (model))
    return TRUE;
  if (!solve_case (model, TL_HEAT_HIGH, current_A, &high))
    return FALSE;
  answer->runaway_high = high.status != TL_NET_OK;
  if (!answer->runaway_high)
    answer->hot_C.high = MAX (answer->hot_C.best, high.value[TL_NET_HOT_C]);
  return TRUE;
}

static const char *
owner_of_line (const TlHeatModel *model, guint line)
{
  const GArray *lines = tl_heat_model_lines (model);

  return line < lines->len ? g_array_index (lines, TlHeatLine, line).owner : NULL;
}

/* A figure of the whole joint is about the conductors that it joins. */
static void
about_leads (TlFinding *finding, const TlHeatModel *model)
{
  const GArray *lines = tl_heat_model_lines (model);

  for (guint i = 0; i < lines->len; i++)
    if (g_array_index (lines, TlHeatLine, i).is_lead)
      tl_finding_owner (finding, g_array_index (lines, TlHeatLine, i).owner);
}

/* --- hot spot at the load --- */

static void
report_runaway (TlFindings *findings, const TlHeatModel *model)
{
  TlFinding *finding =
      tl_findings_add (findings, TL_SEVERITY_UNSAFE, TL_TRUST_A,
                       TL_N_ ("No steady temperature at {current}: the joint heats faster than it "
                              "sheds heat. Do not energise."));

  tl_finding_figure (finding, "current", tl_range_exact (tl_heat_model_load_A (model)), "A",
                     TL_TRUST_A);
}

static void
about_hot_metal (TlFinding *finding, const TlHeatModel *model, const Answer *answer,
                 const char *limit_owner)
{
  const char *hot = owner_of_line (model, answer->hot_line);

  if (hot != NULL)
    {
      tl_finding_owner (finding, hot);
      tl_finding_word (finding, "one", TL_WORD_OWNER, hot);
    }
  if (limit_owner != NULL)
    tl_finding_owner (finding, limit_owner);
}

static void
judge_hot_spot (TlFindings *findings, const TlHeatModel *model, const Answer *answer)
{
  TlTrust     trust = tl_heat_model_is_measured (model) ? TL_TRUST_A : TL_TRUST_B;
  const char *owner = NULL, *material = NULL;
  double      limit;
  TlSeverity  severity;
  TlFinding  *finding;

  if (!tl_heat_model_limit_C (model, &limit, &owner, &material))
    {
      tl_findings_not_computed (
          findings, TL_N_ ("Nothing that touches the joint has a limit of temperature."), NULL,
          TL_FIELD_MAX_TEMPERATURE);
      return;
    }
  severity = tl_severity_of_figure (answer->hot_C, limit, FALSE, 0.0, trust, TL_SEVERITY_UNSAFE);
  if (answer->runaway_high)
    severity = MAX (severity, TL_SEVERITY_WATCH);
  finding = tl_findings_add (
      findings, severity, trust,
      severity == TL_SEVERITY_UNSAFE ? TL_N_ (
          "Hottest metal {hot} at {current}, {material} allows {hot.limit}. Do not energise.")
      : answer->runaway_high
          ? TL_N_ ("Hottest metal {hot} at {current}, {material} allows {hot.limit}; at the "
                   "unfavourable end of the "
                   "contact resistance there is no steady temperature. Measure the joint.")
      : severity == TL_SEVERITY_WATCH
          ? TL_N_ ("Hottest metal {hot} at {current}, {material} allows {hot.limit}: over it only "
                   "at the unfavourable "
                   "end of the estimate. Measure the joint.")
      : answer->hot_line == G_MAXUINT
          ? TL_N_ ("Hottest metal {hot} at {current}; {material} allows {hot.limit}.")
          : TL_N_ ("Hottest metal is {one}, {hot} at {current}; {material} allows {hot.limit}."));
  about_hot_metal (finding, model, answer, owner);
  tl_finding_limit (finding, "hot", answer->hot_C, limit, FALSE, "degC", trust, TL_KNOWN_COMPUTED,
                    "iec-60364-5-52");
  tl_finding_figure (finding, "current", tl_range_exact (tl_heat_model_load_A (model)), "A",
                     TL_TRUST_A);
  if (answer->hot_line != G_MAXUINT)
    tl_finding_figure (
        finding, "air-rise",
        tl_range_around (
            MAX (answer->best.value[TL_NET_BOX_C] - tl_heat_model_network (model)->ambient_C, 0.0),
            0.3),
        "K", TL_TRUST_B);
  tl_finding_word (finding, "material", TL_WORD_MATERIAL, material);
  tl_finding_why (finding, TL_N_ ("In most good joints the wire itself is the hottest metal and "
                                  "warms the joint; the box is warmed by all leads inside "
                                  "it. Film laws in still air are good to a fifth of the rise."));

  TlFigure figure = g_array_index (finding->figures, TlFigure, 0);

  tl_findings_margin (findings, TL_CONCERN_HEAT, &figure, (limit - answer->hot_C.best) / limit);
}

static void
rule_hot_spot (TlAssembly *assembly, TlFindings *findings)
{
  TlHeatModel *model;
  Answer       answer;

  if (assembly->family == TL_FAMILY_NONE)
    return;
  model = tl_findings_heat (findings);
  if (model == NULL)
    {
      tl_findings_not_computed (findings, findings->heat_reason, findings->heat_owner,
                                findings->heat_field);
      return;
    }
  if (!answer_of (model, -1.0, tl_findings_is_quick (findings), &answer))
    tl_findings_not_computed (findings,
                              TL_N_ ("The model of this joint is outside what can be reckoned."),
                              NULL, TL_N_FIELDS);
  else if (answer.runaway)
    report_runaway (findings, model);
  else
    judge_hot_spot (findings, model, &answer);
  tl_net_result_clear (&answer.best);
}

/* --- joint against its conductors --- */

static void
rule_against_conductor (TlAssembly *assembly, TlFindings *findings)
{
  TlHeatModel *model;
  TlThreshold  look, poor;
  TlRange      ohm, factor;
  double       same;
  TlSeverity   severity;
  TlFinding   *finding;

  if (assembly->family == TL_FAMILY_NONE || tl_findings_is_quick (findings))
    return;
  model = tl_findings_heat (findings);
  if (model == NULL || !tl_rule_limit (assembly, findings, "heat.performance-look", &look)
      || !tl_rule_limit (assembly, findings, "heat.performance-poor", &poor))
    return;
  ohm = tl_heat_model_joint_ohm (model);
  same = tl_heat_model_conductor_ohm (model);
  factor = (TlRange){ ohm.low / same, ohm.best / same, ohm.high / same };
  severity =
      factor.best > poor.value
          ? TL_SEVERITY_CHANGE
          : tl_severity_of_figure (factor, look.value, FALSE, 0.0,
                                   tl_heat_model_is_measured (model) ? TL_TRUST_A : TL_TRUST_B,
                                   TL_SEVERITY_WATCH);
  finding = tl_findings_add (
      findings, severity, tl_heat_model_is_measured (model) ? TL_TRUST_A : TL_TRUST_B,
      severity == TL_SEVERITY_CHANGE ? TL_N_ ("The joint has {resistance}, {factor} times that of "
                                              "the same length of its conductors: remake it.")
                                     : TL_N_ ("The joint has {resistance}, {factor} times that of "
                                              "the same length of its conductors."));
  about_leads (finding, model);
  tl_finding_figure (finding, "resistance",
                     (TlRange){ 1e6 * ohm.low, 1e6 * ohm.best, 1e6 * ohm.high }, "uohm",
                     finding->trust);
  tl_finding_limit (finding, "factor", factor,
                    severity == TL_SEVERITY_CHANGE ? poor.value : look.value, FALSE, "1",
                    finding->trust, look.known_by, look.source);
}

/* --- what the meter should show --- */

static void
rule_expected_drop (TlAssembly *assembly, TlFindings *findings)
{
  TlHeatModel *model;
  TlThreshold  test;
  TlRange      ohm;
  TlFinding   *finding;

  if (assembly->family == TL_FAMILY_NONE || tl_findings_is_quick (findings))
    return;
  model = tl_findings_heat (findings);
  if (model == NULL || !tl_rule_limit (assembly, findings, "heat.drop-test-current", &test))
    return;
  ohm = tl_heat_model_joint_ohm (model);
  finding = tl_findings_add (findings, TL_SEVERITY_SOUND,
                             tl_heat_model_is_measured (model) ? TL_TRUST_A : TL_TRUST_B,
                             TL_N_ ("On the dead circuit, mouth to mouth, a four-wire meter should "
                                    "read {resistance}; with {test} the drop is {drop}."));
  about_leads (finding, model);
  tl_finding_figure (finding, "resistance",
                     (TlRange){ 1e6 * ohm.low, 1e6 * ohm.best, 1e6 * ohm.high }, "uohm",
                     finding->trust);
  tl_finding_figure (finding, "test", tl_range_exact (test.value), "A", TL_TRUST_A);
  tl_finding_figure (finding, "drop",
                     (TlRange){ 1e3 * ohm.low * test.value, 1e3 * ohm.best * test.value,
                                1e3 * ohm.high * test.value },
                     "mV", finding->trust);
}

/* --- overload --- */

static void
rule_overload (TlAssembly *assembly, TlFindings *findings)
{
  const TlFact    *rating = tl_facts_get (assembly->joint->duty, TL_FIELD_DEVICE_RATING);
  const char      *kind = tl_facts_word (assembly->joint->duty, TL_FIELD_DEVICE_KIND, "breaker");
  g_autofree char *id = g_strconcat ("heat.overload-ratio-", kind, NULL);
  TlHeatModel     *model;
  TlThreshold      ratio, limit;
  TlSeverity       severity;
  TlFinding       *finding;
  Answer           answer;

  if (assembly->family == TL_FAMILY_NONE || rating == NULL || tl_findings_is_quick (findings)
      || !tl_rule_limit (assembly, findings, id, &ratio)
      || !tl_rule_limit (assembly, findings, "heat.overload-most", &limit))
    return;
  model = tl_findings_heat (findings);
  if (model == NULL || !answer_of (model, ratio.value * rating->value.best, FALSE, &answer))
    return;
  severity = answer.runaway ? TL_SEVERITY_CHANGE
                            : tl_severity_of_figure (answer.hot_C, limit.value, FALSE, 0.0,
                                                     TL_TRUST_B, TL_SEVERITY_CHANGE);
  finding =
      tl_findings_add (findings, severity, TL_TRUST_B,
                       answer.runaway ? TL_N_ ("At {current}, which the device lets pass for up to "
                                               "an hour, there is no steady temperature.")
                       : severity == TL_SEVERITY_CHANGE
                           ? TL_N_ ("At {current}, which the device lets pass for up to an hour, "
                                    "the hottest metal reaches {hot}, limit {hot.limit} "
                                    "for so short. Take a smaller device.")
                           : TL_N_ ("At {current}, which the device lets pass for up to an hour, "
                                    "the hottest metal reaches {hot}, limit {hot.limit} "
                                    "for so short."));
  about_leads (finding, model);
  tl_finding_figure (finding, "current", tl_range_exact (ratio.value * rating->value.best), "A",
                     TL_TRUST_A);
  if (!answer.runaway)
    tl_finding_limit (finding, "hot", answer.hot_C, limit.value, FALSE, "degC", TL_TRUST_B,
                      limit.known_by, limit.source);
  tl_net_result_clear (&answer.best);
}

/* --- short circuit: each body for itself, no heat lost --- */

typedef struct
{
  double      current_A, time_s, start_C;
  TlThreshold limit; /* of what lies against the metal */
} Fault;

/* What the metal of an owner may reach: solder that has to stay solid below its melting, else the insulation. */
static gboolean
fault_limit (TlAssembly *assembly, TlFindings *findings, const char *owner, TlThreshold *limit)
{
  const TlLeg *leg = tl_joint_leg (assembly->joint, owner);
  const char  *insulation =
      leg != NULL ? tl_leg_word (leg, assembly->stock, TL_FIELD_INSULATION, "pvc") : "pvc";
  const char *row = g_str_equal (insulation, "xlpe")     ? "heat.short-most-xlpe"
                    : g_str_equal (insulation, "rubber") ? "heat.short-most-rubber"
                                                         : "heat.short-most-pvc";
  TlThreshold below;

  if (!tl_rule_limit (assembly, findings, row, limit))
    return FALSE;
  if (assembly->family == TL_FAMILY_SPLICE && assembly->splice.melting_C > 0.0
      && tl_rule_limit (assembly, findings, "heat.short-below-melting", &below))
    limit->value = MIN (limit->value, assembly->splice.melting_C - below.value);
  return TRUE;
}

static void
report_fault (TlFindings *findings, const char *owner, const Fault *fault, const TlCall *call,
              gboolean melts)
{
  TlRange    end = melts ? tl_range_exact (0.0) : tl_call_get (call, "temperature");
  TlSeverity severity = melts ? TL_SEVERITY_UNSAFE
                              : tl_severity_of_figure (end, fault->limit.value, FALSE, 0.0,
                                                       TL_TRUST_A, TL_SEVERITY_UNSAFE);
  TlFinding *finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      melts ? TL_N_ (
          "{one} would melt in a short circuit of {current} lasting {time}. Do not energise.")
      : severity == TL_SEVERITY_UNSAFE
          ? TL_N_ ("{one} reaches {end} in a short circuit of {current} lasting {time}, limit "
                   "{end.limit}. Do not energise.")
          : TL_N_ ("{one} reaches {end} in a short circuit of {current} lasting {time}, limit "
                   "{end.limit}."));

  tl_finding_owner (finding, owner);
  tl_finding_word (finding, "one", TL_WORD_OWNER, owner);
  tl_finding_figure (finding, "current", tl_range_exact (fault->current_A), "A", TL_TRUST_A);
  tl_finding_figure (finding, "time", tl_range_exact (fault->time_s), "s", TL_TRUST_A);
  if (melts)
    return;
  tl_finding_limit (finding, "end", end, fault->limit.value, FALSE, "degC", TL_TRUST_A,
                    fault->limit.known_by, fault->limit.source);
  tl_finding_call (finding, findings, call);
}

/* One body that carries the whole current: a conductor, a barrel, the metal of a terminal. */
static void
judge_fault (TlAssembly *assembly, TlFindings *findings, const char *owner, const char *material,
             double section_mm2, Fault *fault)
{
  const TlMaterial *row = tl_stock_material (assembly->stock, material);
  TlCall            call;

  if (row == NULL || section_mm2 <= 0.0 || !tl_facts_has (row->facts, TL_FIELD_ADIABATIC_CONSTANT)
      || !tl_facts_has (row->facts, TL_FIELD_BETA)
      || !fault_limit (assembly, findings, owner, &fault->limit))
    return;
  tl_call_init (&call, "adiabatic-final-temperature");
  tl_call_set_exact (&call, "current", fault->current_A);
  tl_call_set_exact (&call, "time", fault->time_s);
  tl_call_set_exact (&call, "section", section_mm2);
  tl_call_set_exact (&call, "constant",
                     tl_facts_number (row->facts, TL_FIELD_ADIABATIC_CONSTANT, 0.0));
  tl_call_set_exact (&call, "beta", tl_facts_number (row->facts, TL_FIELD_BETA, 0.0));
  tl_call_set_exact (&call, "start", fault->start_C);

  gboolean runs = tl_call_run (&call, NULL);
  gboolean melts = !runs
                   || tl_call_get (&call, "temperature").best
                          > tl_facts_number (row->facts, TL_FIELD_MELTING, G_MAXDOUBLE);

  report_fault (findings, owner, fault, &call, melts);
}

/* Softening of the spots at the peak of the current: beyond it they grow and the joint is another one. */
static void
judge_spots (TlAssembly *assembly, TlFindings *findings, TlHeatModel *model, const Fault *fault)
{
  TlRange           ohm = tl_heat_model_joint_ohm (model);
  double            contacts_ohm = MAX (ohm.best - tl_heat_model_conductor_ohm (model), 0.0);
  const TlMaterial *soft = tl_stock_material (
      assembly->stock, tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM) ? "aluminium" : "copper");
  double softening_mV =
      soft != NULL ? tl_facts_number (soft->facts, TL_FIELD_SOFTENING_VOLTAGE, 0.0) : 0.0;
  double     drop_mV = 1000.0 * G_SQRT2 * fault->current_A * contacts_ohm;
  TlFinding *finding;

  if (softening_mV <= 0.0 || drop_mV <= softening_mV)
    return;
  finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_I,
                             TL_N_ ("At the peak of the short circuit the contacts drop {spot}; "
                                    "metal softens at {spot.limit}. After such a fault the "
                                    "joint wants to be measured again (indicative)."));
  about_leads (finding, model);
  tl_finding_limit (finding, "spot", tl_range_exact (drop_mV), softening_mV, FALSE, "mV",
                    TL_TRUST_I, TL_KNOWN_COMPUTED, "holm");
}

static void
rule_short_circuit (TlAssembly *assembly, TlFindings *findings)
{
  const TlFact    *prospective = tl_facts_get (assembly->joint->duty, TL_FIELD_PROSPECTIVE);
  const char      *kind = tl_facts_word (assembly->joint->duty, TL_FIELD_DEVICE_KIND, NULL);
  g_autofree char *id = kind != NULL ? g_strconcat ("heat.short-time-", kind, NULL) : NULL;
  TlHeatModel     *model;
  TlThreshold      time, start;
  Fault            fault;

  if (prospective == NULL || id == NULL || tl_findings_is_quick (findings))
    return; /* nothing stated, nothing judged: the fact is optional */
  if (!tl_rule_limit (assembly, findings, id, &time)
      || !tl_rule_limit (assembly, findings, "heat.short-start", &start))
    return;
  fault =
      (Fault){ .current_A = prospective->value.best, .time_s = time.value, .start_C = start.value };
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      judge_fault (assembly, findings, leg->id,
                   tl_leg_word (leg, assembly->stock, TL_FIELD_METAL, ""),
                   tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0), &fault);
    }
  model = tl_findings_heat (findings);
  if (model == NULL)
    return;
  for (guint i = 0; i < tl_heat_model_lines (model)->len; i++)
    {
      const TlHeatLine *line = &g_array_index (tl_heat_model_lines (model), TlHeatLine, i);

      if (tl_joint_leg (assembly->joint, line->owner) == NULL
          && g_strcmp0 (line->owner, assembly->stack.bolt) != 0)
        judge_fault (assembly, findings, line->owner,
                     tl_assembly_body (assembly, line->body)->material,
                     1e6 * tl_heat_model_network (model)->bodies[i].section_m2, &fault);
    }
  judge_spots (assembly, findings, model, &fault);
}

/* --- the layer in parts of two metals --- */

#define HOURS_A_YEAR 8766.0

typedef struct
{
  TlThreshold rate, reference, current_most, years, most, share;
  TlThreshold activation[3]; /* low, best, high */
} Growth;

static gboolean
read_growth (TlAssembly *assembly, TlFindings *findings, Growth *growth)
{
  const char      *pattern = tl_facts_word (assembly->joint->duty, TL_FIELD_PATTERN, "continuous");
  g_autofree char *share = g_strconcat ("ageing.hot-share-", pattern, NULL);

  return tl_rule_limit (assembly, findings, "heat.bonded-rate", &growth->rate)
         && tl_rule_limit (assembly, findings, "heat.bonded-reference", &growth->reference)
         && tl_rule_limit (assembly, findings, "heat.bonded-current-most", &growth->current_most)
         && tl_rule_limit (assembly, findings, "heat.bonded-years", &growth->years)
         && tl_rule_limit (assembly, findings, "heat.bonded-most", &growth->most)
         && tl_rule_limit (assembly, findings, "heat.bonded-activation-low", &growth->activation[0])
         && tl_rule_limit (assembly, findings, "heat.bonded-activation", &growth->activation[1])
         && tl_rule_limit (assembly, findings, "heat.bonded-activation-high",
                           &growth->activation[2])
         && tl_rule_limit (assembly, findings, share, &growth->share);
}

/* @faster: factor on the rate. um; %FALSE outside the formula's range. */
static gboolean
grow (const Growth *growth, double activation_kJ_per_mol, double faster, double hot_C, TlCall *call,
      double *thickness_um)
{
  tl_call_init (call, "intermetallic-thickness");
  tl_call_set_exact (call, "initial", 0.0);
  tl_call_set_exact (call, "rate", growth->rate.value * faster);
  tl_call_set_exact (call, "reference", growth->reference.value);
  tl_call_set_exact (call, "activation", activation_kJ_per_mol);
  tl_call_set_exact (call, "temperature", hot_C);
  tl_call_set_exact (call, "time", HOURS_A_YEAR * growth->years.value * growth->share.value);
  if (!tl_call_run (call, NULL))
    return FALSE;
  *thickness_um = tl_call_get (call, "thickness").best;
  return TRUE;
}

static void
judge_layer (TlFindings *findings, const char *owner, const Growth *growth, const Answer *answer)
{
  TlRange    layer;
  TlSeverity severity;
  TlFinding *finding;
  TlCall     low, best, high;

  if (!grow (growth, growth->activation[2].value, 1.0, answer->hot_C.best, &low, &layer.low)
      || !grow (growth, growth->activation[1].value, 1.0, answer->hot_C.best, &best, &layer.best)
      || !grow (growth, growth->activation[0].value, growth->current_most.value, answer->hot_C.high,
                &high, &layer.high))
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("The model of this joint is outside what can be reckoned."),
                                owner, TL_N_FIELDS);
      return;
    }
  severity =
      tl_severity_of_figure (layer, growth->most.value, FALSE, 0.0, TL_TRUST_I, TL_SEVERITY_WATCH);
  finding = tl_findings_add (
      findings, severity, TL_TRUST_I,
      severity == TL_SEVERITY_WATCH
          ? TL_N_ ("Where the metals of {one} are one piece a brittle layer grows: {layer} after "
                   "{years} years at {hot}, limit {layer.limit} (indicative). Less load or a "
                   "cooler place slows it.")
          : TL_N_ ("Where the metals of {one} are one piece a brittle layer grows: {layer} after "
                   "{years} years at {hot}, limit {layer.limit} (indicative)."));
  tl_finding_owner (finding, owner);
  tl_finding_word (finding, "one", TL_WORD_OWNER, owner);
  tl_finding_limit (finding, "layer", layer, growth->most.value, FALSE, "um", TL_TRUST_I,
                    growth->most.known_by, growth->most.source);
  tl_finding_figure (finding, "years", tl_range_exact (growth->years.value), "1", TL_TRUST_I);
  tl_finding_figure (finding, "hot", answer->hot_C, "degC", TL_TRUST_B);
  tl_finding_why (finding, TL_N_ ("The layer hardly resists the current; it breaks. Its growth was "
                                  "measured far hotter, so that the figure is good to a factor of "
                                  "a few."));
  tl_finding_call (finding, findings, &best);
}

/* Bonded in a works: pressed metals have no such layer, and in a weld made on site it is thick and brittle from the first
 * day. */
static gboolean
is_of_two_metals (const TlAssembly *assembly, const TlLayer *layer)
{
  return tl_assembly_number (assembly, layer->id) > 0
         && tl_layer_word (layer, assembly->stock, TL_FIELD_OTHER_FACE, NULL) != NULL;
}

static void
rule_bonded_layer (TlAssembly *assembly, TlFindings *findings)
{
  const GPtrArray *layers = assembly->joint->layers;
  TlHeatModel     *model;
  Growth           growth;
  Answer           answer;
  guint            first = 0;

  while (first < layers->len && !is_of_two_metals (assembly, layers->pdata[first]))
    first++;
  if (first == layers->len || tl_findings_is_quick (findings))
    return;
  model = tl_findings_heat (findings);
  if (model == NULL || !read_growth (assembly, findings, &growth)
      || !answer_of (model, -1.0, FALSE, &answer))
    return;
  for (guint i = first; i < layers->len && !answer.runaway; i++)
    {
      const TlLayer *layer = layers->pdata[i];

      if (is_of_two_metals (assembly, layer))
        judge_layer (findings, layer->id, &growth, &answer);
    }
  tl_net_result_clear (&answer.best);
}

const TlRule tl_rules_heat[] = {
  { "heat.hot-spot", TL_CONCERN_HEAT, "geometry", TL_N_ ("Temperature in the closed box"),
    rule_hot_spot },
  { "heat.against-conductor", TL_CONCERN_HEAT, "iec-61238-1",
    TL_N_ ("Joint against its conductors"), rule_against_conductor },
  { "heat.expected-drop", TL_CONCERN_HEAT, "geometry", TL_N_ ("What the meter should show"),
    rule_expected_drop },
  { "heat.overload", TL_CONCERN_HEAT, "common-practice",
    TL_N_ ("Current that the device lets pass for an hour"), rule_overload },
  { "heat.short-circuit", TL_CONCERN_HEAT, "iec-60949", TL_N_ ("Short circuit"),
    rule_short_circuit },
  { "heat.bonded-layer", TL_CONCERN_HEAT, "braunovic-alexandrov",
    TL_N_ ("Brittle layer in parts of two metals"), rule_bonded_layer },
  { NULL }
};
