/* reading-judge.c: readings against the rows of data/tables/inspection.xml.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/reading.h"

#include "physics/formula.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const TlReading *reading;
  const TlStock   *stock;
  GArray          *results;
} Judging;

/* --- rows --- */

static const TlTableRow *
limit_row (const TlStock *stock, const char *what, double *value)
{
  const TlTableRow *row = tl_stock_row (stock, "inspection-limits", "*", what, NULL);

  if (row == NULL
      || !tl_table_number (tl_stock_table (stock, "inspection-limits"), row, "value", value))
    {
      g_critical ("there is no inspection limit %s", what);
      *value = 0.0;
      return NULL;
    }
  return row;
}

static double
limit_of (const TlStock *stock, const char *what)
{
  double value;

  limit_row (stock, what, &value);
  return value;
}

static TlGrade
grade_of_row (const TlTable *table, const TlTableRow *row)
{
  TlGrade grade = TL_GRADE_NOTHING_SEEN;

  tl_grade_from_catalogue (tl_table_word (table, row, "severity"), &grade);
  return grade;
}

/* The band of @scale that @figure falls into: above its lower edge, or on it where the row says so, up to and with its upper
 * one. (nullable) */
static const TlTableRow *
band_of (const TlStock *stock, const char *scale, double figure)
{
  const TlTable *table = tl_stock_table (stock, "inspection-bands");

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      double            above, to = INFINITY;

      if (strcmp (tl_table_word (table, row, "scale"), scale) != 0
          || !tl_table_number (table, row, "above", &above))
        continue;
      if (!tl_table_number (table, row, "to", &to))
        to = INFINITY;
      if (figure <= to
          && (figure > above
              || (figure >= above && strcmp (tl_table_word (table, row, "edge"), "in") == 0)))
        return row;
    }
  return NULL;
}

/* --- results --- */

static void
not_computed (Judging *self, const char *criterion, const char *reason)
{
  TlReadingResult result = { .says = reason, .criterion = criterion, .limit = NAN, .unit = "1" };

  g_array_append_val (self->results, result);
}

static void
add_band (Judging *self, const char *scale, const char *criterion, TlRange figure, const char *unit)
{
  const TlTable    *table = tl_stock_table (self->stock, "inspection-bands");
  const TlTableRow *low = band_of (self->stock, scale, figure.low),
                   *best = band_of (self->stock, scale, figure.best),
                   *high = band_of (self->stock, scale, figure.high);
  const TlTableRow *any = best != NULL ? best : high;
  TlReadingResult   result = {
      .is_computed = TRUE,
      .criterion = criterion,
      .figure = figure,
      .unit = unit,
      .limit = NAN,
      .says = best != NULL ? tl_table_word (table, best, "says")
                           : TL_N_ ("below the first band: no finding"),
      .grade = low != NULL ? grade_of_row (table, low) : TL_GRADE_NOTHING_SEEN,
      .grade_most = high != NULL ? grade_of_row (table, high) : TL_GRADE_NOTHING_SEEN,
      .row = any != NULL ? any->id : NULL,
      .source = any != NULL ? any->source : NULL,
      .known_by = any != NULL ? any->known_by : TL_KNOWN_COMPUTED,
  };

  g_array_append_val (self->results, result);
}

/* A figure that must not pass (or must reach) the row of @what. */
static void
add_limit (Judging *self, const char *what, const char *criterion, double figure, double limit,
           const char *unit, gboolean is_beyond, const char *says)
{
  double            unused;
  const TlTableRow *row = limit_row (self->stock, what, &unused);
  const TlTable    *table = tl_stock_table (self->stock, "inspection-limits");
  TlReadingResult   result = {
      .is_computed = TRUE,
      .criterion = criterion,
      .figure = tl_range_exact (figure),
      .unit = unit,
      .limit = limit,
      .says = is_beyond ? says : TL_N_ ("within the limit"),
      .row = row != NULL ? row->id : NULL,
      .source = row != NULL ? row->source : NULL,
      .known_by = row != NULL ? row->known_by : TL_KNOWN_COMPUTED,
  };

  if (is_beyond && row != NULL)
    result.grade = result.grade_most = grade_of_row (table, row);
  g_array_append_val (self->results, result);
}

/* --- resistance and drop --- */

static void
judge_similar (Judging *self)
{
  const TlReading *r = self->reading;
  const char      *criterion = TL_N_ ("against the lowest of similar joints");
  double           lowest = INFINITY, limit;

  for (guint i = 0; i < r->similar->len; i++)
    lowest = MIN (lowest, g_array_index (r->similar, double, i));
  if (r->similar->len == 0)
    {
      not_computed (self, criterion, TL_N_ ("no similar joint was read"));
      return;
    }
  /* The joint itself is one of the group. */
  lowest = MIN (lowest, r->value);
  limit = lowest * limit_of (self->stock, "above-lowest");
  add_limit (self, "above-lowest", criterion, r->value, limit, tl_reading_unit (r->kind),
             r->value > limit,
             TL_N_ ("more than the permitted share above the lowest: look into it"));
}

static void
judge_growth (Judging *self)
{
  const TlReading *r = self->reading;
  double           limit;

  if (r->initial <= 0.0)
    return;
  limit = r->initial * limit_of (self->stock, "growth");
  add_limit (self, "growth", TL_N_ ("against its value when new"), r->value, limit,
             tl_reading_unit (r->kind), r->value > limit,
             TL_N_ ("grown beyond what is permitted: make it anew"));
}

static void
judge_ratio (Judging *self)
{
  const TlReading *r = self->reading;
  const char      *criterion = TL_N_ ("against the same length of whole conductor");
  double           ratio, fresh, look, renew;

  if (r->conductor <= 0.0)
    {
      not_computed (self, criterion, TL_N_ ("the same length of whole conductor was not read"));
      return;
    }
  ratio = r->value / r->conductor;
  fresh = limit_of (self->stock, "ratio-new");
  look = limit_of (self->stock, "ratio-look");
  renew = limit_of (self->stock, "ratio-renew");
  if (ratio > renew)
    add_limit (self, "ratio-renew", criterion, ratio, renew, "1", TRUE, TL_N_ ("renew the joint"));
  else if (ratio >= look)
    add_limit (self, "ratio-look", criterion, ratio, look, "1", TRUE, TL_N_ ("look into it"));
  else
    add_limit (self, "ratio-new", criterion, ratio, fresh, "1", ratio > fresh,
               TL_N_ ("more than a new joint has: read it again at the next look"));
  add_band (self, "connector-ratio",
            TL_N_ ("against the same length of conductor, guideline for line connectors"),
            tl_range_exact (ratio), "1");
  add_band (self, "contact-class",
            TL_N_ ("against the same length of conductor, classes of contact joints when made"),
            tl_range_exact (ratio), "1");
}

/* What the reading comes to at a current: resistance, and heat in the joint; %FALSE without a current. */
static gboolean
resistance_and_heat (const TlReading *r, double *ohm, double *heat_W)
{
  gboolean is_drop = r->kind == TL_READING_DROP;
  double   current_A = is_drop ? r->current_A : r->load_A;
  double in[] = { is_drop ? r->value : r->value * current_A * 1e-3, current_A, current_A }, out[2];

  if (current_A <= 0.0 || !tl_formula_find ("drop-to-heat")->run (in, out, NULL))
    return FALSE;
  *ohm = out[0] * 1e-3;
  *heat_W = out[1];
  return TRUE;
}

/* The coarse limit of one contact, and the heat that the joint gives off. */
static void
judge_coarse (Judging *self)
{
  const TlReading *r = self->reading;
  double           ohm = r->value * 1e-6, heat_W, limit;
  gboolean         has_heat = resistance_and_heat (r, &ohm, &heat_W);
  TlReadingResult  heat = {
     .is_computed = TRUE,
     .criterion = TL_N_ ("heat that the joint gives off at this current"),
     .says = TL_N_ ("a small buried box warms markedly from a watt or two"),
     .unit = "W",
     .limit = NAN,
     .row = "ic046",
     .source = "arithmetic",
     .known_by = TL_KNOWN_COMPUTED,
  };

  limit = limit_of (self->stock, "continuity");
  add_limit (self, "continuity", TL_N_ ("coarse limit of one contact"), ohm, limit, "ohm",
             ohm > limit, TL_N_ ("beyond even the coarse limit of a protective conductor"));
  if (ohm <= limit)
    g_array_index (self->results, TlReadingResult, self->results->len - 1).says =
        TL_N_ ("within the coarse limit, which tells nothing of a joint that carries load");
  if (!has_heat)
    return;
  heat.figure = tl_range_exact (heat_W);
  g_array_append_val (self->results, heat);
}

static void
judge_contact (Judging *self)
{
  const TlReading *r = self->reading;

  if (r->kind == TL_READING_DROP && r->current_A <= 0.0)
    {
      not_computed (self, TL_N_ ("voltage drop"),
                    TL_N_ ("the current is missing: millivolts alone say nothing"));
      return;
    }
  if (r->value <= 0.0)
    {
      not_computed (self, TL_N_ ("resistance"),
                    TL_N_ ("a value of 0 or less is no reading of a joint"));
      return;
    }
  judge_similar (self);
  judge_ratio (self);
  judge_growth (self);
  judge_coarse (self);
}

/* --- temperature --- */

gboolean
tl_reading_full_load_K (const TlStock *stock, double rise_K, double load_A, double full_load_A,
                        TlRange *full_K)
{
  double ratio;

  if (load_A <= 0.0 || full_load_A <= 0.0 || rise_K < 0.0
      || load_A < limit_of (stock, "least-load") * full_load_A)
    return FALSE;
  ratio = full_load_A / load_A;
  full_K->low =
      rise_K
      * pow (ratio, limit_of (stock, ratio >= 1.0 ? "load-exponent-low" : "load-exponent-high"));
  full_K->best = rise_K * pow (ratio, limit_of (stock, "load-exponent"));
  full_K->high =
      rise_K
      * pow (ratio, limit_of (stock, ratio >= 1.0 ? "load-exponent-high" : "load-exponent-low"));
  return TRUE;
}

/* Why the camera's figure is none; (nullable) if it is one. */
static const char *
missing_for_camera (const Judging *self)
{
  const TlReading *r = self->reading;

  if (r->is_contact)
    return NULL;
  if (r->emissivity <= 0.0)
    return TL_N_ ("the emissivity is missing");
  if (r->emissivity <= limit_of (self->stock, "least-emissivity"))
    return TL_N_ ("bright metal: its reading is worth nothing; read the insulation beside it");
  if (r->target_px <= 0.0)
    return TL_N_ ("the size of the spot in pixels of the camera is missing");
  if (r->target_px < limit_of (self->stock, "least-target"))
    return TL_N_ ("the spot is smaller than the camera can measure");
  return NULL;
}

/* Why no band can be given; (nullable) if one can. */
static const char *
missing_for_thermal (const Judging *self)
{
  const TlReading *r = self->reading;

  if (r->load_A <= 0.0 || r->full_load_A <= 0.0)
    return TL_N_ ("the load at the time and the full load are needed");
  if (r->load_A < limit_of (self->stock, "least-load") * r->full_load_A)
    return TL_N_ ("the load was below 40 % of the full load: no band");
  if (!r->has_ambient)
    return TL_N_ ("the temperature of the surroundings is missing");
  return missing_for_camera (self);
}

/* Scales beside the standard's: none of them is more severe than it at any rise. */
static void
add_other_scales (Judging *self, TlRange rise_K)
{
  add_band (self, "military",
            TL_N_ ("rise, by an older military scale that does not say above what"), rise_K, "K");
  add_band (self, "experience", TL_N_ ("rise, by a scale of experience: no standard"), rise_K, "K");
}

static void
judge_thermal (Judging *self)
{
  const TlReading *r = self->reading;
  gboolean         is_spot = r->kind == TL_READING_SPOT;
  const char      *scale = is_spot ? "ambient" : "similar";
  const char      *criterion =
      is_spot ? TL_N_ ("rise above the surroundings") : TL_N_ ("rise above a similar part");
  const char *reason = missing_for_thermal (self);
  double      rise_K = is_spot ? r->value - r->ambient_C : r->value;
  TlRange     full_K;

  if (reason == NULL && rise_K < 0.0)
    reason = TL_N_ ("it is colder than what it is compared with: read again");
  if (reason != NULL)
    {
      not_computed (self, criterion, reason);
      return;
    }
  add_band (self, scale, criterion, tl_range_exact (rise_K), "K");
  full_K = tl_range_exact (rise_K);
  if (r->load_A < r->full_load_A
      && tl_reading_full_load_K (self->stock, rise_K, r->load_A, r->full_load_A, &full_K))
    add_band (self, scale,
              is_spot ? TL_N_ ("rise above the surroundings, scaled to full load")
                      : TL_N_ ("rise above a similar part, scaled to full load"),
              full_K, "K");
  add_other_scales (self, full_K);
}

/* What the thing bears on which the spot was read; as it was, at the load of the time. */
static void
judge_surface (Judging *self)
{
  static const char *const scales[] = { NULL,        "pvc",      "copper",
                                        "aluminium", "soldered", "cover-plate" };
  const TlReading         *r = self->reading;
  const char              *criterion = TL_N_ ("what the material bears, at the load of the time");
  const char              *reason;

  G_STATIC_ASSERT (G_N_ELEMENTS (scales) == TL_N_SURFACES);
  if (r->kind != TL_READING_SPOT || r->surface == TL_SURFACE_UNKNOWN)
    return;
  reason = missing_for_camera (self);
  if (reason != NULL)
    not_computed (self, criterion, reason);
  else
    add_band (self, scales[r->surface], criterion, tl_range_exact (r->value), "degC");
}

/* --- insulation --- */

static void
judge_insulation (Judging *self)
{
  static const char *const limits[] = { NULL,
                                        "insulation-selv",
                                        "insulation-low",
                                        "insulation-high",
                                        "insulation-surge",
                                        "insulation-us-250",
                                        "insulation-us-600" };
  const TlReading         *r = self->reading;
  const char      *criterion = TL_N_ ("insulation resistance; it does not show a joint to be good");
  const char      *limit_id = limits[r->circuit];
  g_autofree char *test_id = NULL;
  double           limit, search;

  if (limit_id == NULL)
    {
      not_computed (self, criterion, TL_N_ ("the kind of circuit is missing"));
      return;
    }
  test_id = g_strconcat (limit_id, "-test", NULL);
  if (r->test_V <= 0.0 || r->test_V < limit_of (self->stock, test_id))
    {
      not_computed (self, criterion,
                    r->test_V <= 0.0 ? TL_N_ ("the test voltage is missing")
                                     : TL_N_ ("the test voltage is lower than the rule asks for"));
      return;
    }
  limit = limit_of (self->stock, limit_id);
  search = limit_of (self->stock, "insulation-search");
  add_limit (self, limit_id, criterion, r->value, limit, "Mohm", r->value < limit,
             r->circuit < TL_CIRCUIT_US_250
                 ? TL_N_ ("below the least permitted value")
                 : TL_N_ ("below what is recommended for acceptance in the United States"));
  if (r->value >= limit && r->circuit < TL_CIRCUIT_US_250)
    add_limit (self, "insulation-search", TL_N_ ("insulation worth a search"), r->value, search,
               "Mohm", r->value < search, TL_N_ ("permitted, yet low: search for the reason"));
}

/* --- torque --- */

static void
judge_torque (Judging *self)
{
  const TlReading *r = self->reading;
  const char      *criterion = TL_N_ ("torque without movement, in the sense of tightening");
  double           limit;

  if (r->screw == TL_SCREW_RECEPTACLE)
    {
      limit = limit_of (self->stock, "receptacle-torque");
      if (!r->has_moved)
        not_computed (self, criterion, TL_N_ ("it did not move: its torque is not known"));
      else if (r->load_A <= 0.0)
        not_computed (self, criterion, TL_N_ ("the load is missing"));
      else
        add_limit (self, "receptacle-torque", criterion, r->value, limit, "N_m",
                   r->value < limit && r->load_A >= limit_of (self->stock, "receptacle-load"),
                   TL_N_ ("so loose that screws like it overheated in trials"));
    }
  else if (r->screw != TL_SCREW_BAR)
    not_computed (self, criterion,
                  r->screw == TL_SCREW_CONDUCTOR
                      ? TL_N_ ("a screw on a soft conductor is not tried again: creep is allowed "
                               "for in the first torque")
                      : TL_N_ ("what the screw clamps is missing"));
  else if (r->nominal_Nm <= 0.0)
    not_computed (self, criterion, TL_N_ ("the nominal torque is missing"));
  else
    {
      limit = limit_of (self->stock, "torque-share") * r->nominal_Nm;
      if (!r->has_moved && r->value < limit)
        not_computed (self, criterion,
                      TL_N_ ("it was not tried up to the share of the nominal torque that counts"));
      else
        add_limit (self, "torque-share", criterion, r->value, limit, "N_m",
                   r->has_moved && r->value < limit,
                   TL_N_ ("it moved early: loosened or settled; find out why"));
    }
}

GArray *
tl_reading_judge (const TlReading *self, const TlStock *stock)
{
  Judging judging = { self, stock, g_array_new (FALSE, TRUE, sizeof (TlReadingResult)) };

  switch (self->kind)
    {
    case TL_READING_RESISTANCE:
    case TL_READING_DROP:
      judge_contact (&judging);
      break;
    case TL_READING_SPOT:
    case TL_READING_DIFFERENCE:
      judge_thermal (&judging);
      judge_surface (&judging);
      break;
    case TL_READING_INSULATION:
      judge_insulation (&judging);
      break;
    case TL_READING_TORQUE:
      judge_torque (&judging);
      break;
    case TL_N_READING_KINDS:
    default:
      g_assert_not_reached ();
    }
  return judging.results;
}

gboolean
tl_reading_grade (const TlReading *self, const TlStock *stock, TlGrade *grade)
{
  g_autoptr (GArray) results = tl_reading_judge (self, stock);
  gboolean is_any = FALSE;

  *grade = TL_GRADE_NOTHING_SEEN;
  for (guint i = 0; i < results->len; i++)
    {
      const TlReadingResult *result = &g_array_index (results, TlReadingResult, i);

      is_any = is_any || result->is_computed;
      if (result->is_computed)
        *grade = MAX (*grade, result->grade);
    }
  return is_any;
}
