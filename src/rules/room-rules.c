/* room-rules.c: whether the joint and everything else goes into the box.
 *
 * Five looks: the published count of volumes (a rule in the NFPA 70-style practice, a comparison elsewhere), the length and
 * the depth that the joint wants with its bends, the volume that all joints take together, these joints laid down one by
 * one, and the free length that a practice wants of each conductor.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/box.h"
#include "base/quantity.h"
#include "rules/rule-help.h"

#include <math.h>

static const guint awg_sizes[] = { 18, 16, 14, 12, 10, 8, 6 };

/* The AWG size that a section counts as: the smallest that is not thinner. 0: larger than 6 AWG. */
static guint
awg_of_section (double section_mm2)
{
  /* Areas of ASTM B258; 2 % for sections that are printed rounded. */
  for (guint i = 0; i < G_N_ELEMENTS (awg_sizes); i++)
    {
      double diameter = 0.127 * pow (92.0, (36.0 - awg_sizes[i]) / 39.0);

      if (section_mm2 <= 1.02 * G_PI / 4.0 * diameter * diameter)
        return awg_sizes[i];
    }
  return 0;
}

static guint
joints_in_box (const TlAssembly *assembly)
{
  return 1 + (guint) MAX (tl_rule_site_number (assembly, TL_FIELD_SAME_JOINTS, 0.0), 0.0);
}

static double
box_volume_cm3 (const TlAssembly *assembly)
{
  double      volume = tl_rule_site_number (assembly, TL_FIELD_VOLUME, 0.0);
  double      width = tl_rule_site_number (assembly, TL_FIELD_INNER_WIDTH, 0.0);
  double      height = tl_rule_site_number (assembly, TL_FIELD_INNER_HEIGHT, width);
  double      depth = tl_rule_site_number (assembly, TL_FIELD_INNER_DEPTH, 0.0);
  const char *shape = tl_rule_site_word (assembly, TL_FIELD_SHAPE);

  if (volume > 0.0)
    return volume;
  if (shape != NULL && g_str_equal (shape, "round"))
    return G_PI / 4.0 * width * width * depth / 1000.0;
  return width * height * depth / 1000.0;
}

/* --- count of volumes --- */

typedef struct
{
  guint by_awg[19]; /* index: AWG */
  guint largest;    /* smallest AWG number = largest conductor */
} Count;

static gboolean
count_conductors (Count *count, double section_mm2, guint n)
{
  guint awg = awg_of_section (section_mm2);

  if (awg == 0)
    return FALSE;
  count->by_awg[awg] += n;
  if (n > 0 && (count->largest == 0 || awg < count->largest))
    count->largest = awg;
  return TRUE;
}

static gboolean
count_all (const TlAssembly *assembly, TlFindings *findings, Count *count)
{
  guint  others = (guint) MAX (tl_rule_site_number (assembly, TL_FIELD_OTHER_CONDUCTORS, 0.0), 0.0);
  double other_section = tl_rule_site_number (assembly, TL_FIELD_OTHER_SECTION, 0.0);

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      double       section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);

      if (section <= 0.0)
        return FALSE;
      if (!count_conductors (count, section, joints_in_box (assembly)))
        {
          /* Elsewhere the count is a comparison only: nothing is missed. */
          if (!g_str_equal (assembly->joint->practice, "nfpa70-style"))
            return FALSE;
          tl_findings_not_computed (findings,
                                    TL_N_ ("The count of volumes knows no conductor above 6 AWG."),
                                    leg->id, TL_FIELD_SECTION);
          return FALSE;
        }
    }
  if (others > 0 && other_section <= 0.0)
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("The section of the other conductors is not entered."),
                                "site", TL_FIELD_OTHER_SECTION);
      return FALSE;
    }
  return others == 0 || count_conductors (count, other_section, others);
}

static gboolean
fill_call (TlAssembly *assembly, TlFindings *findings, const Count *count, double volume_in3,
           TlCall *call)
{
  double      protective = tl_rule_site_number (assembly, TL_FIELD_PROTECTIVE_CONDUCTORS, 0.0);
  double      devices = tl_rule_site_number (assembly, TL_FIELD_DEVICES, 0.0);
  TlThreshold edition;

  if (!tl_rule_limit (assembly, findings, "room.fill-edition", &edition))
    return FALSE;
  tl_call_init (call, "box-fill-nec");
  tl_call_set_exact (call, "edition", edition.value);
  tl_call_set_exact (call, "box_volume", volume_in3);
  for (guint i = 0; i < G_N_ELEMENTS (awg_sizes); i++)
    {
      char name[32];

      g_snprintf (name, sizeof name, "conductors_%u", awg_sizes[i]);
      if (count->by_awg[awg_sizes[i]] > 0)
        tl_call_set_exact (call, name, count->by_awg[awg_sizes[i]]);
    }
  if (protective > 0.0)
    {
      tl_call_set_exact (call, "egc", protective);
      tl_call_set_exact (call, "egc_awg", count->largest);
    }
  if (devices > 0.0)
    {
      char name[32];

      g_snprintf (name, sizeof name, "device_gangs_%u", count->largest);
      tl_call_set_exact (call, name, devices);
    }
  return tl_findings_is_quick (findings) ? tl_call_run_quick (call) : tl_call_run (call, NULL);
}

static void
rule_fill (TlAssembly *assembly, TlFindings *findings)
{
  double   volume = box_volume_cm3 (assembly);
  gboolean is_rule = g_str_equal (assembly->joint->practice, "nfpa70-style");
  Count    count = { { 0 }, 0 };
  double   volume_in3;
  TlCall   call;

  if (assembly->joint->legs->len == 0)
    return;
  if (volume <= 0.0)
    {
      tl_findings_not_computed (findings, TL_N_ ("The box has no volume and no inner sizes."),
                                "site", TL_FIELD_VOLUME);
      return;
    }
  if (!tl_quantity_convert (volume, "cm3", "in3", &volume_in3, NULL)
      || !count_all (assembly, findings, &count)
      || !fill_call (assembly, findings, &count, volume_in3, &call))
    return;

  double     total_cm3 = 0.0;
  TlSeverity severity;
  TlFinding *finding;

  if (!tl_quantity_convert (tl_call_get (&call, "total").best, "in3", "cm3", &total_cm3, NULL))
    return;
  /* Equality passes. */
  severity = total_cm3 <= volume * (1.0 + 1e-9) ? TL_SEVERITY_SOUND
             : is_rule                          ? TL_SEVERITY_CHANGE
                                                : TL_SEVERITY_WATCH;
  finding = tl_findings_add (
      findings, severity, is_rule ? TL_TRUST_A : TL_TRUST_I,
      severity == TL_SEVERITY_SOUND
          ? TL_N_ ("The conductors in the box count {total}; it holds {total.limit}.")
      : is_rule ? TL_N_ (
            "The conductors in the box count {total}, it holds {total.limit}. Take the next size.")
                : TL_N_ ("By the volumes of NFPA 70, no rule here, the conductors count {total} "
                         "and the box holds "
                         "{total.limit}: it will be tight."));
  tl_finding_limit (finding, "total", tl_range_exact (total_cm3), volume, FALSE, "cm3",
                    finding->trust, TL_KNOWN_SEEN, "nfpa-70-314-16-b");
  tl_finding_call (finding, findings, &call);
}

/* --- length and depth --- */

static double
largest_bend_mm (const TlAssembly *assembly, double *diameter)
{
  double radius = 0.0;

  *diameter = 0.0;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];

      radius = MAX (radius, tl_leg_number (leg, assembly->stock, TL_FIELD_BEND_RADIUS, 0.0));
      *diameter = MAX (*diameter, tl_leg_number (leg, assembly->stock, TL_FIELD_INSULATION_DIAMETER,
                                                 tl_rule_metal_diameter_mm (assembly, leg)));
    }
  return radius;
}

static void
judge_length (TlAssembly *assembly, TlFindings *findings, double inner_mm)
{
  const char *const *limits = tl_box_layout_limits ();
  TlThreshold        limit;
  double             reach[2];
  TlCall             call;

  for (guint i = 0; limits[i] != NULL; i++)
    if (!tl_rule_limit (assembly, findings, limits[i], &limit))
      return;
  tl_box_reach_mm (assembly, reach);

  tl_call_init (&call, "box-length");
  tl_call_set_exact (&call, "joint_length", assembly->packed_length_mm);
  tl_call_set_exact (&call, "lead_1", reach[0]);
  tl_call_set_exact (&call, "lead_2", reach[1]);
  tl_call_set_exact (&call, "inner_width", inner_mm);
  if (!(tl_findings_is_quick (findings) ? tl_call_run_quick (&call) : tl_call_run (&call, NULL)))
    return;

  TlRange    length = tl_call_get (&call, "length");
  TlSeverity severity =
      tl_severity_of_figure (length, inner_mm, FALSE, 0.0, TL_TRUST_A, TL_SEVERITY_CHANGE);
  TlFinding *finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      severity <= TL_SEVERITY_WATCH ? TL_N_ (
          "The joint with a bend at either end wants {length}; the box is {length.limit} wide.")
                                    : TL_N_ ("The joint with a bend at either end wants {length}, "
                                             "the box is {length.limit} wide: it would be pressed "
                                             "in. Take a larger box or a shorter joint."));

  tl_finding_limit (finding, "length", length, inner_mm, FALSE, "mm", TL_TRUST_A, TL_KNOWN_COMPUTED,
                    NULL);
  tl_finding_call (finding, findings, &call);
}

static void
judge_depth (TlAssembly *assembly, TlFindings *findings, double depth_mm, double bend_mm,
             double diameter_mm)
{
  TlThreshold clearance;
  TlCall      call;

  if (!tl_rule_limit (assembly, findings, "room.wall-clearance", &clearance))
    return;
  tl_call_init (&call, "box-depth");
  tl_call_set_exact (&call, "joint_diameter",
                     MAX (assembly->packed_height_mm, assembly->packed_width_mm));
  tl_call_set_exact (&call, "bend_radius", bend_mm);
  tl_call_set_exact (&call, "conductor_diameter", diameter_mm);
  tl_call_set_exact (&call, "clearance", clearance.value);
  if (!(tl_findings_is_quick (findings) ? tl_call_run_quick (&call) : tl_call_run (&call, NULL)))
    return;

  TlRange    depth = tl_call_get (&call, "depth");
  TlSeverity severity =
      tl_severity_of_figure (depth, depth_mm, FALSE, 0.0, TL_TRUST_A, TL_SEVERITY_CHANGE);
  TlFinding *finding = tl_findings_add (
      findings, severity, TL_TRUST_A,
      severity <= TL_SEVERITY_WATCH
          ? TL_N_ ("Joint, bend and clearance want {depth} of depth; the box has {depth.limit}.")
          : TL_N_ ("Joint, bend and clearance want {depth} of depth, the box has {depth.limit}: "
                   "the cover would press on "
                   "the joint."));

  tl_finding_limit (finding, "depth", depth, depth_mm, FALSE, "mm", TL_TRUST_A, clearance.known_by,
                    clearance.source);
  tl_finding_call (finding, findings, &call);
}

static void
rule_fit (TlAssembly *assembly, TlFindings *findings)
{
  double width = tl_rule_site_number (assembly, TL_FIELD_INNER_WIDTH, 0.0);
  double height = tl_rule_site_number (assembly, TL_FIELD_INNER_HEIGHT, 0.0);
  double depth = tl_rule_site_number (assembly, TL_FIELD_INNER_DEPTH, 0.0);
  double diameter, bend = largest_bend_mm (assembly, &diameter);

  if (assembly->packed_length_mm <= 0.0)
    return;
  if (width <= 0.0 || depth <= 0.0)
    {
      tl_findings_not_computed (
          findings,
          TL_N_ ("The inner sizes of the box are not entered: only its volume is judged."), "site",
          TL_FIELD_INNER_WIDTH);
      return;
    }
  judge_length (assembly, findings, MAX (width, height));
  judge_depth (assembly, findings, depth, bend, diameter);
}

/* --- everything together --- */

/* Leads count with the length that stays in the box: the box's width, folded once. */
static double
wanted_cm3 (const TlAssembly *assembly, double lead_mm)
{
  double joint =
      assembly->packed_length_mm * assembly->packed_width_mm * assembly->packed_height_mm / 1000.0;
  double leads = 0.0;
  double others = tl_rule_site_number (assembly, TL_FIELD_OTHER_CONDUCTORS, 0.0);
  double other_section = tl_rule_site_number (assembly, TL_FIELD_OTHER_SECTION, 0.0);

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      double       d = tl_leg_number (leg, assembly->stock, TL_FIELD_INSULATION_DIAMETER,
                                      tl_rule_metal_diameter_mm (assembly, leg));

      leads += d * d * lead_mm / 1000.0; /* a square round each lead */
    }
  /* Insulated wire takes about four times its metal, in its square. */
  return joints_in_box (assembly) * (joint + leads)
         + others * 4.0 * other_section * lead_mm / 1000.0;
}

static void
rule_space (TlAssembly *assembly, TlFindings *findings)
{
  double      volume = box_volume_cm3 (assembly);
  double      width = tl_rule_site_number (assembly, TL_FIELD_INNER_WIDTH, 0.0);
  TlThreshold share;

  if (assembly->packed_length_mm <= 0.0 || volume <= 0.0
      || !tl_rule_limit (assembly, findings, "room.packed-share", &share))
    return;

  double  wanted = wanted_cm3 (assembly, width > 0.0 ? 2.0 * width : 2.0 * cbrt (1000.0 * volume));
  double  free_cm3 = share.value * volume;
  TlRange band = tl_range_around (wanted, 0.25);
  TlSeverity severity =
      tl_severity_of_figure (band, free_cm3, FALSE, 0.0, TL_TRUST_B, TL_SEVERITY_CHANGE);
  TlFinding *finding =
      tl_findings_add (findings, severity, TL_TRUST_B,
                       severity == TL_SEVERITY_CHANGE
                           ? TL_N_ ("All joints in the box ({n}) with their leads want {wanted}, "
                                    "the box has {wanted.limit} to give: take the "
                                    "next size.")
                           : TL_N_ ("All joints in the box ({n}) with their leads want {wanted}; "
                                    "the box has {wanted.limit} to give "
                                    "(estimate)."));

  tl_finding_figure (finding, "n", tl_range_exact (joints_in_box (assembly)), "1", TL_TRUST_A);
  tl_finding_limit (finding, "wanted", band, free_cm3, FALSE, "cm3", TL_TRUST_B, share.known_by,
                    share.source);
}

/* --- all joints laid down --- */

static void
report_packing (TlFindings *findings, const TlBoxLayout *layout, const TlThreshold *spread)
{
  double length =
      layout->length_mm + (layout->over_way == TL_BOX_WAY_DEPTH ? 0.0 : layout->over_mm);
  gboolean   too_long = length / layout->length_mm > layout->wanted_depth_mm / layout->depth_mm;
  double     limit = too_long ? layout->length_mm : layout->depth_mm;
  double     wanted = too_long ? length : layout->wanted_depth_mm;
  TlRange    band = tl_range_around (wanted, spread->value);
  /* Too much only if a patient hand would not do it either. */
  TlSeverity severity = band.low > limit ? TL_SEVERITY_CHANGE : TL_SEVERITY_WATCH;
  TlFinding *finding;

  finding = tl_findings_add (
      findings, severity, TL_TRUST_B,
      severity == TL_SEVERITY_WATCH
          ? TL_N_ ("Laid down with their bends, {fitting} of the joints in the box ({n}) go in: "
                   "try it before the box is closed.")
      : too_long
          ? TL_N_ ("Laid down with their bends, {fitting} of the joints in the box ({n}) go in: "
                   "{wanted} would be wanted "
                   "lengthwise, the box has {wanted.limit}. Take a larger box, or part the joints.")
          : TL_N_ ("Laid down with their bends, {fitting} of the joints in the box ({n}) go in: "
                   "{wanted} of depth would be "
                   "wanted, the box has {wanted.limit}. Take a larger or deeper box, or part the "
                   "joints."));
  tl_finding_figure (finding, "n", tl_range_exact (layout->joints), "1", TL_TRUST_A);
  tl_finding_figure (finding, "fitting", tl_range_exact (layout->fitting), "1", TL_TRUST_B);
  tl_finding_limit (finding, "wanted", band, limit, FALSE, "mm", TL_TRUST_B, spread->known_by,
                    spread->source);
}

/* Where more than one thing lies in the box. That it goes in is shown by the layout; that it does not is an estimate. */
static void
rule_packing (TlAssembly *assembly, TlFindings *findings)
{
  g_autoptr (TlBoxLayout) layout = NULL;
  const char *const *limits = tl_box_layout_limits ();
  TlThreshold        spread, limit;
  TlFinding         *finding;

  if (joints_in_box (assembly) < 2 && tl_rule_site_number (assembly, TL_FIELD_DEVICES, 0.0) < 1.0)
    return;
  layout = tl_box_layout_new (assembly);
  if (layout == NULL || !tl_rule_limit (assembly, findings, "room.packing-spread", &spread))
    return;
  for (guint i = 0; limits[i] != NULL; i++)
    if (!tl_rule_limit (assembly, findings, limits[i], &limit))
      return;
  if (layout->over_mm > 0.0)
    {
      report_packing (findings, layout, &spread);
      return;
    }
  finding =
      tl_findings_add (findings, TL_SEVERITY_SOUND, TL_TRUST_A,
                       TL_N_ ("Laid down with their bends, all joints in the box ({n}) go in."));
  tl_finding_figure (finding, "n", tl_range_exact (layout->joints), "1", TL_TRUST_A);
  tl_finding_limit (finding, "wanted",
                    tl_range_exact (MIN (layout->wanted_depth_mm, layout->depth_mm)),
                    layout->depth_mm, FALSE, "mm", TL_TRUST_A, TL_KNOWN_COMPUTED, NULL);
}

/* --- free length --- */

/* Where a practice has a least length for the work: from the sheath to the end, and beyond a small opening. */
static void
rule_free_length (TlAssembly *assembly, TlFindings *findings)
{
  double      deep = tl_rule_site_number (assembly, TL_FIELD_INNER_DEPTH, 0.0);
  double      opening = MIN (tl_rule_site_number (assembly, TL_FIELD_INNER_WIDTH, HUGE_VAL),
                             tl_rule_site_number (assembly, TL_FIELD_INNER_HEIGHT, HUGE_VAL));
  TlThreshold least, beyond, small;

  if (!tl_stock_threshold (assembly->stock, assembly->joint->practice, "room.free-length-least",
                           &least)
      || !tl_rule_limit (assembly, findings, "room.free-length-least", &least)
      || !tl_rule_limit (assembly, findings, "room.free-length-opening", &beyond)
      || !tl_rule_limit (assembly, findings, "room.free-length-opening-size", &small))
    return;

  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg  *leg = assembly->joint->legs->pdata[i];
      const TlFact *length = tl_leg_fact (leg, assembly->stock, TL_FIELD_FREE_LENGTH);
      double     need = opening < small.value && deep > 0.0 ? MAX (least.value, deep + beyond.value)
                                                            : least.value;
      TlSeverity severity;
      TlFinding *finding;

      /* That it is not entered is told by the rule about the stub. */
      if (length == NULL
          || !g_str_equal (tl_leg_word (leg, assembly->stock, TL_FIELD_FIXED, "loose"), "wall"))
        continue;
      /* Equality passes. */
      severity = tl_severity_of_figure (length->value, need * (1.0 - 1e-9), TRUE, 0.0, TL_TRUST_A,
                                        TL_SEVERITY_CHANGE);
      finding = tl_findings_add (
          findings, severity, TL_TRUST_A,
          severity <= TL_SEVERITY_WATCH
              ? TL_N_ ("{one} has {free} of free conductor; {free.limit} is the least here.")
              : TL_N_ ("{one} has {free} of free conductor, {free.limit} is the least here, with "
                       "what has to stand beyond the "
                       "opening: open the chase, or move the joint to the next box."));
      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_limit (finding, "free", length->value, need, TRUE, "mm", TL_TRUST_A,
                        least.known_by, least.source);
    }
}

const TlRule tl_rules_room[] = { { "room.fill", TL_CONCERN_ROOM, "nfpa-70-314-16-b",
                                   TL_N_ ("Count of volumes in the box"), rule_fill },
                                 { "room.fit", TL_CONCERN_ROOM, "geometry",
                                   TL_N_ ("Length and depth of the joint in the box"), rule_fit },
                                 { "room.space", TL_CONCERN_ROOM, "chosen-here",
                                   TL_N_ ("All joints in the box together"), rule_space },
                                 { "room.packing", TL_CONCERN_ROOM, "geometry",
                                   TL_N_ ("Joints laid down in the box"), rule_packing },
                                 { "room.free-length", TL_CONCERN_ROOM, "nfpa-70-300-14",
                                   TL_N_ ("Free length of the conductors"), rule_free_length },
                                 { NULL } };
