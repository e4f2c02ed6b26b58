/* current-rules.c: each conductor's rating against the load and the overcurrent device.
 *
 * The tables are those of the chosen practice; the weakest conductor counts. Heat in the joint itself is not judged here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "rules/rule-help.h"

#include <math.h>

/* The words that lead each row of the table of ratings, in the order of its columns. */
typedef struct
{
  const char *system, *insulation, *method, *loaded, *metal;
} Key;

static gboolean
is_of_practice (const TlTableRow *row, const char *practice)
{
  return g_str_equal (row->practice, "*") || g_str_equal (row->practice, practice)
         || g_str_equal (row->practice, tl_practice_base (practice));
}

/* Row of the largest tabulated section that is not above @section_mm2. */
static const TlTableRow *
find_row (const TlTable *table, const char *practice, const Key *key, double section_mm2)
{
  const char *const words[] = { key->system, key->insulation, key->method,
                                key->loaded, key->metal,      NULL };
  const GPtrArray  *rows = tl_table_group (table, words);
  const TlTableRow *best = NULL;
  double            largest = 0.0;

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const TlTableRow *row = rows->pdata[i];
      double            section;

      /* Sections are printed rounded. */
      if (!is_of_practice (row, practice) || !tl_table_number (table, row, "section", &section)
          || section > 1.005 * section_mm2 || section <= largest)
        continue;
      largest = section;
      best = row;
    }
  return best;
}

static double
ambient_factor (const TlAssembly *assembly, const char *insulation, double ambient_C)
{
  const TlTable    *table = tl_stock_table (assembly->stock, "ambient-factor");
  const char *const words[] = { insulation, NULL };
  const GPtrArray  *rows = table != NULL ? tl_table_group (table, words) : NULL;
  double            nearest = G_MAXDOUBLE, factor = 0.0;

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const TlTableRow *row = rows->pdata[i];
      double            to, value;

      if (!is_of_practice (row, assembly->joint->practice)
          || !tl_table_number (table, row, "to", &to)
          || !tl_table_number (table, row, "factor", &value) || to < ambient_C || to >= nearest)
        continue;
      nearest = to;
      factor = value;
    }
  return factor;
}

/* Factor of the largest number in the table that is not above @n; 1 when nothing is bunched. */
static double
grouping_factor (const TlAssembly *assembly, const char *arrangement, double n)
{
  const TlTable    *table = tl_stock_table (assembly->stock, "grouping");
  const char *const words[] = { arrangement, NULL };
  const GPtrArray  *rows = table != NULL ? tl_table_group (table, words) : NULL;
  double            largest = 0.0, factor = 1.0;

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const TlTableRow *row = rows->pdata[i];
      double            from, value;

      if (!is_of_practice (row, assembly->joint->practice)
          || !tl_table_number (table, row, "from", &from)
          || !tl_table_number (table, row, "factor", &value) || from > n || from <= largest)
        continue;
      largest = from;
      factor = value;
    }
  return factor;
}

/* What the table has to be asked for; %FALSE and a note if something is missing. */
static gboolean
key_of (const TlAssembly *assembly, TlFindings *findings, const TlLeg *leg, Key *key)
{
  gboolean    american = g_str_equal (assembly->joint->practice, "nfpa70-style");
  const char *insulation = tl_leg_word (leg, assembly->stock, TL_FIELD_INSULATION, NULL);

  key->metal = tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM) ? "aluminium" : "copper";
  if (american)
    {
      /* Terminations up to 100 A are taken at 60 degC unless marked otherwise. */
      *key = (Key){ "nfpa70", "60", "raceway", "3", key->metal };
      return TRUE;
    }
  key->system = "iec";
  key->method = tl_rule_site_word (assembly, TL_FIELD_INSTALLATION);
  key->loaded =
      tl_facts_number (assembly->joint->duty, TL_FIELD_LOADED_CONDUCTORS, 3.0) < 2.5 ? "2" : "3";
  key->insulation = insulation;
  if (key->method == NULL)
    {
      tl_findings_not_computed (findings, TL_N_ ("The way the cable is laid is not entered."),
                                "site", TL_FIELD_INSTALLATION);
      return FALSE;
    }
  if (insulation == NULL || (!g_str_equal (insulation, "pvc") && !g_str_equal (insulation, "xlpe")))
    {
      tl_findings_not_computed (findings,
                                TL_N_ ("The tables know {part} with PVC or XLPE insulation only."),
                                leg->id, TL_FIELD_INSULATION);
      return FALSE;
    }
  return TRUE;
}

static void
judge_leg (TlAssembly *assembly, TlFindings *findings, const TlLeg *leg, const TlFact *device,
           const TlFact *load)
{
  const TlTable    *table = tl_stock_table (assembly->stock, "ampacity");
  double            section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);
  double            ambient = tl_facts_number (assembly->joint->duty, TL_FIELD_AMBIENT, 30.0);
  const TlTableRow *row;
  Key               key;
  double            current, factor, grouping, rating, counted;
  double            circuits = tl_rule_site_number (assembly, TL_FIELD_CIRCUITS, 1.0);
  TlThreshold       share;

  if (table == NULL || section <= 0.0 || !key_of (assembly, findings, leg, &key))
    return;
  row = find_row (table, assembly->joint->practice, &key, section);
  factor = ambient_factor (assembly, key.insulation, ambient);
  if (row == NULL || factor <= 0.0 || !tl_table_number (table, row, "current", &current))
    {
      tl_findings_not_computed (
          findings,
          TL_N_ ("The tables of this practice have no rating for {part} at this ambient."), leg->id,
          TL_FIELD_SECTION);
      return;
    }
  /* NFPA 70 counts the conductors that carry current, two of each circuit; the other table counts circuits. */
  grouping = g_str_equal (key.system, "nfpa70")
                 ? grouping_factor (assembly, "conductors", 2.0 * circuits)
                 : grouping_factor (assembly, "bunched", circuits);
  rating = current * factor * grouping;
  if (!tl_rule_limit (assembly, findings, "current.continuous-share", &share))
    return;
  counted =
      g_str_equal (tl_facts_word (assembly->joint->duty, TL_FIELD_PATTERN, "daily"), "continuous")
          ? share.value
          : 1.0;

  gboolean   overloaded = load != NULL && counted * load->value.best > rating * (1.0 + 1e-9);
  gboolean   unprotected = device->value.best > rating * (1.0 + 1e-9);
  TlFinding *finding = tl_findings_add (
      findings,
      overloaded    ? TL_SEVERITY_UNSAFE
      : unprotected ? TL_SEVERITY_CHANGE
                    : TL_SEVERITY_SOUND,
      TL_TRUST_A,
      overloaded ? TL_N_ (
          "{one} may carry {device.limit} here and is loaded with {load}. Do not energise.")
      : unprotected ? TL_N_ ("{one} may carry {device.limit} here, the device lets {device} pass: "
                             "take a smaller device.")
                    : TL_N_ ("{one} may carry {device.limit} here; the device opens at {device}."));

  tl_finding_owner (finding, leg->id);
  tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
  tl_finding_limit (finding, "device", device->value, rating, FALSE, "A", TL_TRUST_A, row->known_by,
                    row->source);
  if (load != NULL)
    tl_finding_limit (finding, "load", load->value, rating, FALSE, "A", TL_TRUST_A, row->known_by,
                      row->source);
  tl_finding_figure (finding, "table", tl_range_exact (current), "A", TL_TRUST_A);
  tl_finding_figure (finding, "ambient-factor", tl_range_exact (factor), "1", TL_TRUST_A);
  tl_finding_figure (finding, "grouping-factor", tl_range_exact (grouping), "1", TL_TRUST_A);
  if (row->source != NULL)
    tl_finding_source (finding, row->source);
}

static void
rule_rating (TlAssembly *assembly, TlFindings *findings)
{
  const TlFact *device = tl_facts_get (assembly->joint->duty, TL_FIELD_DEVICE_RATING);
  const TlFact *load = tl_facts_get (assembly->joint->duty, TL_FIELD_LOAD);

  if (device == NULL)
    return; /* Unfinished says so */
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    judge_leg (assembly, findings, assembly->joint->legs->pdata[i], device, load);
}

static void
rule_small_conductor (TlAssembly *assembly, TlFindings *findings)
{
  const TlTable *table = tl_stock_table (assembly->stock, "overcurrent-limit");
  const TlFact  *device = tl_facts_get (assembly->joint->duty, TL_FIELD_DEVICE_RATING);

  if (device == NULL || table == NULL || !g_str_equal (assembly->joint->practice, "nfpa70-style"))
    return;
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      const char  *metal =
          tl_rule_leg_is (assembly, leg, TL_LOOK_ALUMINIUM) ? "aluminium" : "copper";
      double            section = tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0);
      const TlTableRow *best = NULL;
      double            least = G_MAXDOUBLE, rating = 0.0;

      for (guint k = 0; k < table->rows->len; k++)
        {
          const TlTableRow *row = table->rows->pdata[k];
          double            own;

          if (g_str_equal (tl_table_word (table, row, "metal"), metal)
              && tl_table_number (table, row, "section", &own) && section <= 1.005 * own
              && own < least && tl_table_number (table, row, "rating", &rating))
            {
              least = own;
              best = row;
            }
        }
      if (best == NULL || section <= 0.0 || !tl_table_number (table, best, "rating", &rating)
          || device->value.best <= rating * (1.0 + 1e-9))
        continue;

      TlFinding *finding =
          tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                           TL_N_ ("{one}: the device of {device} is above the {device.limit} that "
                                  "a conductor this small may have "
                                  "before it."));

      tl_finding_owner (finding, leg->id);
      tl_finding_word (finding, "one", TL_WORD_OWNER, leg->id);
      tl_finding_limit (finding, "device", device->value, rating, FALSE, "A", TL_TRUST_A,
                        best->known_by, best->source);
    }
}

/* A load above its device is no danger of the joint, but the design is not what it says. */
static void
rule_load (TlAssembly *assembly, TlFindings *findings)
{
  const TlFact *device = tl_facts_get (assembly->joint->duty, TL_FIELD_DEVICE_RATING);
  const TlFact *load = tl_facts_get (assembly->joint->duty, TL_FIELD_LOAD);

  if (device == NULL || load == NULL || load->value.best <= device->value.best * (1.0 + 1e-9))
    return;

  TlFinding *finding = tl_findings_add (findings, TL_SEVERITY_CHANGE, TL_TRUST_A,
                                        TL_N_ ("The load of {load} is above the device's "
                                               "{load.limit}: one of the two is not as stated."));

  tl_finding_limit (finding, "load", load->value, device->value.best, FALSE, "A", TL_TRUST_A,
                    device->known_by, NULL);
}

const TlRule tl_rules_current[] = { { "current.rating", TL_CONCERN_CURRENT, "iec-60364-5-52",
                                      TL_N_ ("Rating of each conductor"), rule_rating },
                                    { "current.small-conductor", TL_CONCERN_CURRENT,
                                      "nfpa-70-240-4", TL_N_ ("Device before a small conductor"),
                                      rule_small_conductor },
                                    { "current.load", TL_CONCERN_CURRENT, "common-practice",
                                      TL_N_ ("Load against its device"), rule_load },
                                    { NULL } };
