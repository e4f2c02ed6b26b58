/* terminal-rules.c: screw, spring and device terminals, branch connectors: what they are marked for, and how they hold.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/rule-help.h"

#include <math.h>
#include <stdio.h>

/* Of the ports, so that every rule walks them alike. */
typedef struct
{
  const TlLayer *terminal;
  const char    *form; /* (nullable) */
  gboolean       has_screw;
  gboolean       has_spring;
} Terminal;

static gboolean
terminal_of (const TlAssembly *assembly, Terminal *terminal)
{
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->kind != TL_PART_TERMINAL && layer->kind != TL_PART_BRANCH)
        continue;
      terminal->terminal = layer;
      terminal->form = tl_layer_word (layer, assembly->stock, TL_FIELD_TERMINAL_FORM, NULL);
      terminal->has_spring = terminal->form != NULL && g_str_has_suffix (terminal->form, "spring");
      terminal->has_screw = terminal->form != NULL && !terminal->has_spring;
      return assembly->family == TL_FAMILY_TERMINAL;
    }
  return FALSE;
}

static gboolean
is_in (const TlLeg *leg, const Terminal *terminal)
{
  return leg->seat.kind == TL_SEAT_PORT && g_strcmp0 (leg->seat.of, terminal->terminal->id) == 0;
}

static const TlLeg *
leg_at (const TlAssembly *assembly, guint index)
{
  return assembly->joint->legs->pdata[index];
}

static void
about (TlFinding *finding, const Terminal *terminal, const TlLeg *leg)
{
  tl_finding_owner (finding, terminal->terminal->id);
  tl_finding_word (finding, "part", TL_WORD_OWNER, terminal->terminal->id);
  if (leg == NULL)
    return;
  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
}

/* A ferrule, or any other part that holds the strands of a leg together. */
static gboolean
has_part_on (const TlAssembly *assembly, const TlLeg *leg, TlPartKind kind)
{
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->kind == kind
          && ((layer->seat.kind == TL_SEAT_ON && g_strcmp0 (layer->seat.of, leg->id) == 0)
              || (layer->seat.kind == TL_SEAT_AROUND
                  && g_strcmp0 (layer->seat.from, leg->id) == 0)))
        return TRUE;
    }
  for (guint i = 0; kind == TL_PART_FERRULE && i < leg->preparation->len; i++)
    if (g_str_equal (((const TlPreparation *) leg->preparation->pdata[i])->act, "ferrule"))
      return TRUE;
  return FALSE;
}

static gboolean
was_dipped (const TlLeg *leg)
{
  for (guint i = 0; i < leg->preparation->len; i++)
    if (g_str_equal (((const TlPreparation *) leg->preparation->pdata[i])->act, "tin"))
      return TRUE;
  return FALSE;
}

/* --- marks --- */

static void
rule_marked_for (TlAssembly *assembly, TlFindings *findings)
{
  Terminal    terminal;
  const char *marked;
  gboolean    aluminium, copper;
  TlFinding  *finding;

  if (!terminal_of (assembly, &terminal))
    return;
  marked = tl_layer_word (terminal.terminal, assembly->stock, TL_FIELD_MARKED_FOR, NULL);
  aluminium = tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM);
  copper = tl_rule_any_leg_is (assembly, TL_LOOK_COPPER);
  if (marked == NULL)
    {
      tl_findings_not_computed (
          findings, TL_N_ ("For which metals {part} is marked is not entered. Read the marking."),
          terminal.terminal->id, TL_FIELD_MARKED_FOR);
      return;
    }
  if (aluminium && !g_str_equal (marked, "aluminium") && !g_str_equal (marked, "both"))
    finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                               TL_N_ ("{part} is not marked for aluminium and holds it. Take one "
                                      "that is marked for aluminium and this kind of "
                                      "conductor."));
  else if (copper && g_str_equal (marked, "aluminium"))
    finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                               TL_N_ ("{part} is marked for aluminium only and holds copper."));
  else
    finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                               TL_N_ ("{part} is marked for the metals that it holds."));
  about (finding, &terminal, NULL);
}

static gboolean
class_is_marked (const char *marked, const char *own)
{
  if (g_str_equal (marked, "any"))
    return TRUE;
  if (g_str_equal (own, "class-1"))
    return g_str_equal (marked, "solid") || g_str_equal (marked, "stranded");
  if (g_str_equal (own, "class-2"))
    return g_str_equal (marked, "stranded");
  return g_str_equal (marked, "flexible");
}

static void
judge_class (TlAssembly *assembly, TlFindings *findings, const Terminal *terminal, const TlLeg *leg)
{
  const char *marked =
      tl_layer_word (terminal->terminal, assembly->stock, TL_FIELD_MARKED_CLASS, NULL);
  const char *own = tl_leg_word (leg, assembly->stock, TL_FIELD_CLASS, "class-1");
  gboolean    ferrule = has_part_on (assembly, leg, TL_PART_FERRULE);
  TlFinding  *finding;

  if (terminal->has_screw && g_str_equal (own, "class-5") && !ferrule
      && (marked == NULL || !class_is_marked (marked, own)))
    finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                               TL_N_ ("{one} is flexible and goes bare under the screw of {part}: "
                                      "strands are cut and spread. Press a ferrule on first."));
  else if (marked != NULL && !ferrule && !class_is_marked (marked, own))
    finding =
        tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                         TL_N_ ("{part} is not marked for the kind of conductor that {one} is."));
  else
    return;
  about (finding, terminal, leg);
}

static void
judge_section (TlAssembly *assembly, TlFindings *findings, const Terminal *terminal,
               const TlLeg *leg)
{
  double least = tl_layer_number (terminal->terminal, assembly->stock, TL_FIELD_SECTION_LEAST, 0.0);
  double most = tl_layer_number (terminal->terminal, assembly->stock, TL_FIELD_SECTION_MOST, 0.0);
  double section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);
  TlFinding *finding;

  if (section <= 0.0 || most <= 0.0)
    return;
  /* Wire sizes are printed rounded. */
  if (section > 1.01 * most || section < 0.99 * least)
    finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                               TL_N_ ("{one}, {section}, is outside the range that {part} is "
                                      "marked for: {least} to {most}."));
  else
    finding = tl_findings_add (
        findings, TL_SEVERITY_SOUND, TL_TRUST_A,
        TL_N_ (
            "{one}, {section}, is within the range that {part} is marked for: {least} to {most}."));
  about (finding, terminal, leg);
  tl_finding_limit (finding, "section", tl_range_exact (section), most, FALSE, "mm2", TL_TRUST_A,
                    TL_KNOWN_MARKING, NULL);
  tl_finding_figure (finding, "least", tl_range_exact (least), "mm2", TL_TRUST_A);
  tl_finding_figure (finding, "most", tl_range_exact (most), "mm2", TL_TRUST_A);
}

static void
rule_conductor (TlAssembly *assembly, TlFindings *findings)
{
  Terminal terminal;

  if (!terminal_of (assembly, &terminal))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    if (is_in (leg_at (assembly, i), &terminal))
      {
        judge_class (assembly, findings, &terminal, leg_at (assembly, i));
        judge_section (assembly, findings, &terminal, leg_at (assembly, i));
      }
}

/* --- how far the wire is stripped and goes in --- */

static void
judge_reach (TlAssembly *assembly, TlFindings *findings, const Terminal *terminal, const TlLeg *leg,
             double tolerance_mm)
{
  double        strip = tl_leg_number (leg, assembly->stock, TL_FIELD_STRIP, 0.0);
  double        inserted = tl_leg_number (leg, assembly->stock, TL_FIELD_INSERTION, 0.0);
  const TlFact *marked = tl_layer_fact (terminal->terminal, assembly->stock, TL_FIELD_STRIP);
  double        wanted = marked != NULL ? marked->value.best : 0.0;
  TlFinding    *finding;

  if (strip <= 0.0)
    return;
  if (inserted > strip)
    {
      finding = tl_findings_add (findings, TL_SEVERITY_UNSAFE, TL_TRUST_A,
                                 TL_N_ ("{one} is stripped {strip} and goes {inserted} into "
                                        "{part}: the clamp sits on insulation, which gives "
                                        "way, and touches metal by chance."));
      tl_finding_figure (finding, "strip", tl_range_exact (strip), "mm", TL_TRUST_A);
      tl_finding_limit (finding, "inserted", tl_range_exact (inserted), strip, FALSE, "mm",
                        TL_TRUST_A, TL_KNOWN_PRACTICE, "common-practice");
      tl_finding_mend_number (finding, leg->id, TL_FIELD_STRIP, MAX (inserted, wanted),
                              TL_N_ ("Strip {value}"));
    }
  else if (wanted > 0.0 && fabs (strip - wanted) > tolerance_mm)
    {
      finding = tl_findings_add (
          findings, strip < wanted ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
          strip < wanted ? TL_N_ ("{one} is stripped {strip}, and {strip.limit} is marked on "
                                  "{part}: the clamp holds the tip or bites "
                                  "insulation.")
                         : TL_N_ ("{one} is stripped {strip}, and {strip.limit} is marked on "
                                  "{part}: bare metal stands outside."));
      tl_finding_limit (finding, "strip", tl_range_exact (strip), wanted, strip < wanted, "mm",
                        TL_TRUST_A, marked->known_by, NULL);
      tl_finding_mend_number (finding, leg->id, TL_FIELD_STRIP, wanted, TL_N_ ("Strip {value}"));
    }
  else if (inserted > 0.0 && strip - inserted > 2.0 * tolerance_mm)
    {
      finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                                 TL_N_ ("{one} is stripped {strip} and goes {inserted} into "
                                        "{part}: the rest stands bare before the mouth."));
      tl_finding_figure (finding, "strip", tl_range_exact (strip), "mm", TL_TRUST_A);
      tl_finding_limit (finding, "inserted", tl_range_exact (inserted), strip - 2.0 * tolerance_mm,
                        TRUE, "mm", TL_TRUST_A, TL_KNOWN_PRACTICE, "common-practice");
    }
  else
    return;
  about (finding, terminal, leg);
}

/* A branch connector lets its run pass and is opened over it: that is not stripped to a length. */
static void
rule_reach (TlAssembly *assembly, TlFindings *findings)
{
  TlThreshold tolerance;
  Terminal    terminal;

  if (!terminal_of (assembly, &terminal) || terminal.terminal->kind != TL_PART_TERMINAL
      || !tl_rule_limit (assembly, findings, "grip.strip-tolerance", &tolerance))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    if (is_in (leg_at (assembly, i), &terminal))
      judge_reach (assembly, findings, &terminal, leg_at (assembly, i), tolerance.value);
}

/* --- soft solder under pressure --- */

static void
rule_dipped_end (TlAssembly *assembly, TlFindings *findings)
{
  Terminal terminal;

  if (!terminal_of (assembly, &terminal))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = leg_at (assembly, i);

      if (!is_in (leg, &terminal) || !was_dipped (leg))
        continue;

      TlFinding *finding = tl_findings_add (
          findings, terminal.has_screw ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
          TL_N_ ("The end of {one} is dipped in solder and clamped in {part}: solder creeps at "
                 "room temperature and the "
                 "force goes. Sources disagree on how far; both are cited. A pressed ferrule in "
                 "its place."));

      about (finding, &terminal, leg);
      tl_finding_add_source (finding, "bs-7671-526");
      tl_finding_add_source (finding, "common-practice");
      tl_finding_dispute (finding, "solder-under-pressure");
    }
}

/* --- torque and force --- */

/* Row "over 3.6 to 4.1" of the table that fits a thread. */
static gboolean
size_fits (const char *size, double thread_mm)
{
  double low = 0.0, high = 0.0;

  if (sscanf (size, "over %lf to %lf", &low, &high) == 2)
    return thread_mm > low + 1e-9 && thread_mm <= high + 1e-9;
  return sscanf (size, "to %lf", &high) == 1 && thread_mm <= high + 1e-9;
}

static const TlTableRow *
torque_row (const TlAssembly *assembly, double thread_mm)
{
  const TlTable *table = tl_stock_table (assembly->stock, "torque");

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = table->rows->pdata[i];

      if (g_str_equal (tl_table_word (table, row, "standard"), "terminal-screw")
          && g_str_equal (tl_table_word (table, row, "condition"), "column II")
          && size_fits (tl_table_word (table, row, "size"), thread_mm))
        return row;
    }
  return NULL;
}

static void
rule_torque (TlAssembly *assembly, TlFindings *findings)
{
  Terminal          terminal;
  double            thread, torque, table_torque;
  const TlTableRow *row;
  TlThreshold       share, far;

  if (!terminal_of (assembly, &terminal) || !terminal.has_screw)
    return;
  thread = tl_layer_number (terminal.terminal, assembly->stock, TL_FIELD_THREAD, 0.0);
  torque = tl_layer_number (terminal.terminal, assembly->stock, TL_FIELD_TORQUE, 0.0);
  if (torque <= 0.0 || thread <= 0.0)
    {
      tl_findings_not_computed (
          findings, TL_N_ ("The torque of {part} is not entered. It is on the part or its paper."),
          terminal.terminal->id, torque <= 0.0 ? TL_FIELD_TORQUE : TL_FIELD_THREAD);
      return;
    }
  row = torque_row (assembly, thread);
  if (row == NULL
      || !tl_table_number (tl_stock_table (assembly->stock, "torque"), row, "torque", &table_torque)
      || !tl_rule_limit (assembly, findings, "terminal.torque-share", &share)
      || !tl_rule_limit (assembly, findings, "terminal.torque-far", &far))
    return;

  gboolean low =
      torque<(1.0 - share.value) * table_torque, high = torque> (1.0 + share.value) * table_torque;
  gboolean   is_far = torque > far.value * table_torque || torque < table_torque / far.value;
  TlFinding *finding =
      tl_findings_add (findings,
                       is_far        ? TL_SEVERITY_CHANGE
                       : low || high ? TL_SEVERITY_WATCH
                                     : TL_SEVERITY_SOUND,
                       TL_TRUST_A,
                       low ? TL_N_ ("{torque} on a screw of {thread} is less than the {table} that "
                                    "it is tested with. The figure of its maker "
                                    "comes first.")
                       : high ? TL_N_ ("{torque} on a screw of {thread} is more than the {table} "
                                       "that it is tested with: it may strip or cut "
                                       "the wire. The figure of its maker comes first.")
                              : TL_N_ ("{torque} on a screw of {thread}: it is tested with "
                                       "{table}. The figure of its maker comes first."));

  about (finding, &terminal, NULL);
  tl_finding_limit (finding, "torque", tl_range_exact (torque),
                    high     ? (is_far ? far.value : 1.0 + share.value) * table_torque
                    : is_far ? table_torque / far.value
                             : (1.0 - share.value) * table_torque,
                    !high, "N_m", TL_TRUST_A, is_far ? far.known_by : share.known_by,
                    is_far ? far.source : share.source);
  tl_finding_figure (finding, "thread", tl_range_exact (thread), "mm", TL_TRUST_A);
  tl_finding_figure (finding, "table", tl_range_exact (table_torque), "N_m", TL_TRUST_A);
  if (row->source != NULL)
    tl_finding_source (finding, row->source);

  TlFigure figure = { "torque",
                      tl_range_exact (torque),
                      (1.0 - share.value) * table_torque,
                      TRUE,
                      "N_m",
                      TL_TRUST_A,
                      row->known_by,
                      row->source,
                      finding->severity };

  tl_findings_margin (findings, TL_CONCERN_GRIP, &figure,
                      torque / table_torque - 1.0 + share.value);
}

static void
judge_pull (TlAssembly *assembly, TlFindings *findings, const Terminal *terminal, const TlLeg *leg)
{
  double     section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);
  TlFinding *finding;
  TlCall     call;

  if (section <= 0.0)
    return;
  tl_call_init (&call, "pull-force-requirement");
  tl_call_set_word (&call, "rule", "clamping-unit");
  tl_call_set_exact (&call, "section", section);
  if (!(tl_findings_is_quick (findings) ? tl_call_run_quick (&call) : tl_call_run (&call, NULL)))
    return;
  finding = tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                             TL_N_ ("The test of a terminal asks {force} of {one}; that is no test "
                                    "of a pressed joint. In place a light tug is enough."));
  about (finding, terminal, leg);
  tl_finding_figure (finding, "force", tl_call_get (&call, "force"), "N", TL_TRUST_A);
  tl_finding_call (finding, findings, &call);
}

static void
rule_pull (TlAssembly *assembly, TlFindings *findings)
{
  Terminal terminal;

  if (!terminal_of (assembly, &terminal))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    if (is_in (leg_at (assembly, i), &terminal))
      judge_pull (assembly, findings, &terminal, leg_at (assembly, i));
}

/* --- springs --- */

static gboolean
has_compound (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    if (((const TlLayer *) assembly->joint->layers->pdata[i])->kind == TL_PART_COMPOUND)
      return TRUE;
  return FALSE;
}

static void
judge_spring_force (TlAssembly *assembly, TlFindings *findings, const Terminal *terminal)
{
  const TlFact *force = tl_layer_fact (terminal->terminal, assembly->stock, TL_FIELD_CLAMP_FORCE);
  TlThreshold   least;
  TlSeverity    severity;
  TlFinding    *finding;

  if (force == NULL)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("The force of the spring of {part} is not entered."),
                                terminal->terminal->id, TL_FIELD_CLAMP_FORCE);
      return;
    }
  if (!tl_rule_limit (assembly, findings, "terminal.spring-force-least", &least))
    return;
  severity =
      tl_severity_of_figure (force->value, least.value, TRUE, 0.0, TL_TRUST_B, TL_SEVERITY_WATCH);
  finding = tl_findings_add (
      findings, severity, TL_TRUST_B,
      severity == TL_SEVERITY_SOUND
          ? TL_N_ ("The spring of {part} presses with {force} and goes on pressing as the wire "
                   "gives way.")
          : TL_N_ ("The spring of {part} presses with {force}; {force.limit} is usual."));
  about (finding, terminal, NULL);
  tl_finding_limit (finding, "force", force->value, least.value, TRUE, "N", TL_TRUST_B,
                    least.known_by, least.source);

  TlFigure figure = g_array_index (finding->figures, TlFigure, finding->figures->len - 1);

  tl_findings_margin (findings, TL_CONCERN_GRIP, &figure, force->value.best / least.value - 1.0);
}

static void
rule_spring (TlAssembly *assembly, TlFindings *findings)
{
  const char *pattern = tl_facts_word (assembly->joint->duty, TL_FIELD_PATTERN, "daily");
  double      load = tl_facts_number (assembly->joint->duty, TL_FIELD_LOAD, 0.0);
  Terminal    terminal;
  TlThreshold light;
  TlFinding  *finding;

  if (!terminal_of (assembly, &terminal) || !terminal.has_spring)
    return;
  judge_spring_force (assembly, findings, &terminal);
  if (!tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM))
    return;
  if (!has_compound (assembly))
    {
      finding =
          tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                           TL_N_ ("Aluminium in {part} without compound: the oxide grows again "
                                  "under the small contact. Use the terminal that is filled "
                                  "for it, or compound if its maker says so."));
      about (finding, &terminal, NULL);
    }
  if (!tl_rule_limit (assembly, findings, "terminal.spring-load-light", &light) || load <= 0.0)
    return;
  if (load > light.value || g_str_equal (pattern, "continuous"))
    {
      finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                                 TL_N_ ("{part} carries {load}: a spring touches on a small spot, "
                                        "which warms and cools with such a load. Lighting up to "
                                        "{load.limit} is easier on it."));
      about (finding, &terminal, NULL);
      tl_finding_limit (finding, "load", tl_range_exact (load), light.value, FALSE, "A", TL_TRUST_A,
                        light.known_by, light.source);
    }
}

/* --- several conductors, closed box, piercing --- */

static void
rule_shared_mouth (TlAssembly *assembly, TlFindings *findings)
{
  Terminal terminal;

  if (!terminal_of (assembly, &terminal))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    for (guint k = i + 1; k < assembly->joint->legs->len; k++)
      {
        const TlLeg *one = leg_at (assembly, i), *other = leg_at (assembly, k);

        if (!is_in (one, &terminal) || !is_in (other, &terminal)
            || one->seat.place != other->seat.place)
          continue;

        gboolean unlike = tl_rule_leg_is (assembly, one, TL_LOOK_ALUMINIUM)
                          != tl_rule_leg_is (assembly, other, TL_LOOK_ALUMINIUM);
        TlFinding *finding =
            tl_findings_add (findings, unlike ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
                             unlike ? TL_N_ ("{one} and {other}, of unlike metals, share one clamp "
                                             "of {part}: they touch, and the softer one gives. One "
                                             "mouth each.")
                                    : TL_N_ ("{one} and {other} share one clamp of {part}: only if "
                                             "it is marked for two. One mouth each is better."));

        about (finding, &terminal, one);
        tl_finding_owner (finding, other->id);
        tl_finding_word (finding, "other", TL_WORD_OWNER, other->id);
      }
}

static void
rule_closed_box (TlAssembly *assembly, TlFindings *findings)
{
  const char *access = tl_rule_site_word (assembly, TL_FIELD_ACCESS);
  Terminal    terminal;
  gboolean    aluminium = tl_rule_any_leg_is (assembly, TL_LOOK_ALUMINIUM);
  TlSeverity  severity;
  TlFinding  *finding;

  if (!terminal_of (assembly, &terminal) || access == NULL)
    return;
  if (terminal.has_screw && aluminium)
    {
      if (!tl_rule_severity (assembly, findings,
                             g_str_equal (access, "closed") ? "practice.screw-closed"
                                                            : "practice.screw-reachable",
                             &severity))
        return;
      finding = tl_findings_add (
          findings, severity, TL_TRUST_A,
          g_str_equal (access, "closed")
              ? TL_N_ ("A screw on aluminium has to be looked at again, and this box is closed for "
                       "good, whatever the figures say. Press the joint, "
                       "or move it to a box that opens.")
              : TL_N_ ("A screw on aluminium wants a look every 6 to 12 months (common practice, "
                       "no source). Tightening again is no cure for metal "
                       "that has crept."));
    }
  else if (g_str_equal (access, "closed"))
    finding = tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                               TL_N_ ("{part} in a box that is closed for good: most rules want a "
                                      "terminal to stay reachable. Ask the local one."));
  else
    return;
  about (finding, &terminal, NULL);
}

static void
rule_piercing (TlAssembly *assembly, TlFindings *findings)
{
  Terminal terminal;

  if (!terminal_of (assembly, &terminal) || terminal.form == NULL
      || !g_str_equal (terminal.form, "piercing"))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = leg_at (assembly, i);

      if (!is_in (leg, &terminal) || !tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM)
          || !g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_CLASS, "class-1"),
                           "class-1"))
        continue;

      TlFinding *finding =
          tl_findings_add (findings, TL_SEVERITY_WATCH, TL_TRUST_A,
                           TL_N_ ("The teeth of {part} notch {one}: a notch in solid aluminium is "
                                  "where it breaks. No bend near it, no pull on it."));

      about (finding, &terminal, leg);
    }
}

/* A device terminal that loops the neutral or the protective conductor through opens it when the device is taken out. */
static void
rule_loop_through (TlAssembly *assembly, TlFindings *findings)
{
  Terminal terminal;

  if (!terminal_of (assembly, &terminal) || g_strcmp0 (terminal.form, "device") != 0)
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = leg_at (assembly, i);
      const char  *role = tl_leg_word (leg, assembly->stock, TL_FIELD_ROLE, "other");

      if (!is_in (leg, &terminal) || assembly->joint->legs->len < 2 || g_str_equal (role, "line")
          || g_str_equal (role, "other"))
        continue;

      gboolean   earth = !g_str_equal (role, "neutral");
      TlFinding *finding = tl_findings_add (
          findings, earth ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH, TL_TRUST_A,
          earth ? TL_N_ ("The protective conductor is looped through {part}: it opens for all that "
                         "follows when the device is taken out. "
                         "Branch it outside the device.")
                : TL_N_ ("The neutral is looped through {part}: it opens for all that follows when "
                         "the device is taken out."));

      about (finding, &terminal, leg);
      return;
    }
}

const TlRule tl_rules_terminal[] = {
  { "grip.marked-for", TL_CONCERN_GRIP, "common-practice",
    TL_N_ ("Metals that a terminal is marked for"), rule_marked_for },
  { "grip.terminal-conductor", TL_CONCERN_GRIP, "iec-60999-1",
    TL_N_ ("Conductors that a terminal is marked for"), rule_conductor },
  { "grip.terminal-reach", TL_CONCERN_GRIP, "common-practice",
    TL_N_ ("Stripped length in a terminal"), rule_reach },
  { "grip.dipped-end", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Solder under pressure"),
    rule_dipped_end },
  { "grip.terminal-torque", TL_CONCERN_GRIP, "iec-60947-1-t4", TL_N_ ("Torque of a terminal screw"),
    rule_torque },
  { "grip.terminal-pull", TL_CONCERN_GRIP, "iec-60999-1",
    TL_N_ ("Pull that a terminal is tested with"), rule_pull },
  { "grip.terminal-spring", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Aluminium under a spring"),
    rule_spring },
  { "grip.shared-mouth", TL_CONCERN_GRIP, "common-practice",
    TL_N_ ("Several conductors in one mouth"), rule_shared_mouth },
  { "grip.piercing", TL_CONCERN_GRIP, "common-practice", TL_N_ ("Teeth in solid aluminium"),
    rule_piercing },
  { "practice.terminal-access", TL_CONCERN_PRACTICE, "common-practice",
    TL_N_ ("Access to a terminal"), rule_closed_box },
  { "roles.loop-through", TL_CONCERN_ROLES, "common-practice",
    TL_N_ ("Conductors looped through a device"), rule_loop_through },
  { NULL }
};
