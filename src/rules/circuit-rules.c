/* circuit-rules.c: what the extension does to the old circuit: voltage drop, loop impedance, the devices that it needs now.
 *
 * Judged only when the length of the extension is entered. A disconnection time is never guessed: without a measured loop
 * impedance it is not computed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

static const TlFact *
duty_fact (const TlAssembly *assembly, TlField field)
{
  return tl_facts_get (assembly->joint->duty, field);
}

/* The new run: the loose leg, copper first. */
static const TlLeg *
new_run (const TlAssembly *assembly)
{
  const TlLeg *loose = NULL;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      if (!g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_FIXED, "wall"), "loose"))
        continue;
      if (loose == NULL || tl_rule_leg_is (assembly, leg, TL_LOOK_COPPER))
        loose = leg;
    }
  return loose;
}

static double
resistivity_of (const TlAssembly *assembly, const TlLeg *leg)
{
  const TlMaterial *metal = tl_stock_material (
      assembly->stock, tl_leg_word (leg, assembly->stock, TL_FIELD_METAL, "copper"));

  return metal != NULL ? tl_facts_number (metal->facts, TL_FIELD_RESISTIVITY, 0.0) : 0.0;
}

static void
rule_voltage_drop (TlAssembly *assembly, TlFindings *findings)
{
  const TlFact *length = duty_fact (assembly, TL_FIELD_EXTENSION),
               *load = duty_fact (assembly, TL_FIELD_LOAD);
  const TlLeg *run = new_run (assembly);
  double section = run != NULL ? tl_leg_number (run, assembly->stock, TL_FIELD_SECTION, 0.0) : 0.0;
  TlThreshold most, voltage, warm;
  TlCall      call;

  if (length == NULL || load == NULL || section <= 0.0
      || !tl_rule_limit (assembly, findings, "current.drop-most", &most)
      || !tl_rule_limit (assembly, findings, "current.voltage", &voltage)
      || !tl_rule_limit (assembly, findings, "current.warm-ratio", &warm))
    return;
  tl_call_init (&call, "voltage-drop");
  tl_call_set_word (&call, "phases", "single");
  tl_call_set_exact (&call, "resistivity", warm.value * resistivity_of (assembly, run));
  tl_call_set_exact (&call, "length", length->value.best);
  tl_call_set_exact (&call, "section", section);
  tl_call_set_exact (&call, "current", load->value.best);
  tl_call_set_exact (&call, "voltage", voltage.value);
  if (!tl_call_run (&call, NULL))
    return;

  TlRange    share = tl_call_get (&call, "share");
  TlSeverity severity =
      tl_severity_of_figure (share, 100.0 * most.value, FALSE, 0.0, TL_TRUST_A, TL_SEVERITY_WATCH);
  TlFinding *finding =
      tl_findings_add (findings, severity, TL_TRUST_A,
                       TL_N_ ("The extension of {length} takes {drop} at {load}, {share}; "
                              "{share.limit} from board to end is the usual "
                              "limit, the old run included."));

  tl_finding_owner (finding, run->id);
  tl_finding_figure (finding, "length", length->value, "m", TL_TRUST_A);
  tl_finding_figure (finding, "load", load->value, "A", TL_TRUST_A);
  tl_finding_figure (finding, "drop", tl_call_get (&call, "drop"), "V", TL_TRUST_A);
  tl_finding_limit (finding, "share", share, 100.0 * most.value, FALSE, "%", TL_TRUST_A,
                    most.known_by, most.source);
  tl_finding_call (finding, findings, &call);
}

static void
rule_loop (TlAssembly *assembly, TlFindings *findings)
{
  const TlFact *length = duty_fact (assembly, TL_FIELD_EXTENSION),
               *loop = duty_fact (assembly, TL_FIELD_LOOP_IMPEDANCE);
  const TlFact *rating = duty_fact (assembly, TL_FIELD_DEVICE_RATING);
  const char   *kind = tl_facts_word (assembly->joint->duty, TL_FIELD_DEVICE_KIND, "breaker");
  const TlLeg  *run = new_run (assembly);
  double section = run != NULL ? tl_leg_number (run, assembly->stock, TL_FIELD_SECTION, 0.0) : 0.0;
  TlThreshold voltage, warm, trip;
  TlCall      call;

  if (length == NULL || section <= 0.0 || rating == NULL)
    return;
  if (loop == NULL)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("Whether the device still trips in time needs the loop "
                                       "impedance measured at the end of the old run."),
                                "duty", TL_FIELD_LOOP_IMPEDANCE);
      return;
    }
  if (!g_str_equal (kind, "breaker"))
    {
      tl_findings_not_computed (
          findings,
          TL_N_ ("For a fuse the time comes from its own curve: look it up for the fault current."),
          "duty", TL_FIELD_DEVICE_KIND);
      return;
    }
  if (!tl_rule_limit (assembly, findings, "current.voltage", &voltage)
      || !tl_rule_limit (assembly, findings, "current.warm-ratio", &warm)
      || !tl_rule_limit (assembly, findings, "current.magnetic-trip", &trip))
    return;
  tl_call_init (&call, "loop-resistance");
  tl_call_set_exact (&call, "source", 1000.0 * loop->value.best);
  tl_call_set_exact (&call, "line", 1000.0 * resistivity_of (assembly, run) / section);
  tl_call_set_exact (&call, "back", 1000.0 * resistivity_of (assembly, run) / section);
  tl_call_set_exact (&call, "length", length->value.best);
  tl_call_set_exact (&call, "temperature_factor", warm.value);
  tl_call_set_exact (&call, "voltage", voltage.value);
  if (!tl_call_run (&call, NULL))
    return;

  TlRange    fault = tl_call_get (&call, "fault_current");
  double     need = trip.value * rating->value.best;
  TlSeverity severity =
      tl_severity_of_figure (fault, need, TRUE, 0.0, TL_TRUST_A, TL_SEVERITY_UNSAFE);
  TlFinding *finding =
      tl_findings_add (findings, severity, TL_TRUST_A,
                       severity == TL_SEVERITY_UNSAFE
                           ? TL_N_ ("With the extension a fault draws {fault}; the device trips at "
                                    "once from {fault.limit} on. It would not "
                                    "disconnect in time.")
                           : TL_N_ ("With the extension a fault draws {fault}; the device trips at "
                                    "once from {fault.limit} on."));

  tl_finding_limit (finding, "fault", fault, need, TRUE, "A", TL_TRUST_A, trip.known_by,
                    trip.source);
  tl_finding_call (finding, findings, &call);
}

/* Devices that a practice wants once an old circuit is extended. */
static void
judge_device (TlAssembly *assembly, TlFindings *findings, TlField field, const char *severity_id,
              const char *missing, const char *unknown)
{
  const TlFact *fact = duty_fact (assembly, field);
  TlThreshold   row;

  if (!tl_rule_limit (assembly, findings, severity_id, &row) || row.value <= 0.0)
    return;
  if (fact == NULL)
    tl_findings_not_computed (findings, unknown, "duty", field);
  else if (g_strcmp0 (fact->word, "yes") != 0)
    {
      TlFinding *finding =
          tl_findings_add (findings, (TlSeverity) CLAMP (row.value, 0.0, 3.0), TL_TRUST_A, missing);

      if (row.source != NULL)
        tl_finding_source (finding, row.source);
    }
}

static void
rule_devices (TlAssembly *assembly, TlFindings *findings)
{
  if (duty_fact (assembly, TL_FIELD_EXTENSION) == NULL)
    return;
  judge_device (assembly, findings, TL_FIELD_RESIDUAL_DEVICE, "roles.residual-device",
                TL_N_ ("An old circuit that is extended to socket outlets wants a residual current "
                       "device of 30 mA before it, by this practice."),
                TL_N_ ("Whether a residual current device protects the circuit is not entered."));
  judge_device (
      assembly, findings, TL_FIELD_ARC_DEVICE, "roles.arc-device",
      TL_N_ (
          "An old circuit that is extended wants an arc fault device before it, by this practice."),
      TL_N_ ("Whether an arc fault device protects the circuit is not entered."));
}

const TlRule tl_rules_circuit[] = { { "current.voltage-drop", TL_CONCERN_CURRENT, "iec-60364-5-52",
                                      TL_N_ ("Voltage drop of the extension"), rule_voltage_drop },
                                    { "current.loop", TL_CONCERN_CURRENT, "common-practice",
                                      TL_N_ ("Loop impedance with the extension"), rule_loop },
                                    { "roles.devices", TL_CONCERN_ROLES, "common-practice",
                                      TL_N_ ("Devices that an extension needs"), rule_devices },
                                    { NULL } };
