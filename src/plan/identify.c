/* identify.c: what an old wire is: section and metal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/identify-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define METALS "identify-metals"
#define YEARS "identify-years"

static const struct
{
  const char *key, *unit;
  double      low, high; /* low itself is refused, but for the temperature */
} measured_rows[TL_N_MEASURED] = {
  [TL_MEASURED_DIAMETER] = { "diameter", "mm", 0.0, 50.0 },
  [TL_MEASURED_LENGTH] = { "length", "mm", 0.0, 1e6 },
  [TL_MEASURED_MASS] = { "mass", "g", 0.0, 1e6 },
  [TL_MEASURED_RESISTANCE] = { "resistance", "mohm", 0.0, 1e6 },
  [TL_MEASURED_TEMPERATURE] = { "temperature", "degC", -40.0, 120.0 },
};

static const char *const evidence_words[TL_N_EVIDENCE] = {
  [TL_EVIDENCE_PRODUCT] = "mass-resistivity",
  [TL_EVIDENCE_DENSITY] = "density",
  [TL_EVIDENCE_RESISTIVITY] = "resistivity",
  [TL_EVIDENCE_SURFACE] = "surface",
  [TL_EVIDENCE_CUT] = "cut",
  [TL_EVIDENCE_YEAR] = "year",
};

static const char *const surface_words[] = { "red", "silver", "dull", NULL };
static const char *const cut_words[] = { "red", "silver", NULL };

/* The sighting in figures that can be held against a band. */
typedef struct
{
  const TlStock *stock;
  TlIdentity    *identity;
  TlSighting     sighting; /* with the errors of the instruments in it */
  TlRange        lay;
  gboolean       has[TL_EVIDENCE_RESISTIVITY + 1];
  TlRange        figure[TL_EVIDENCE_RESISTIVITY + 1];
} Examiner;

void
tl_sighting_init (TlSighting *self)
{
  memset (self, 0, sizeof *self);
  self->strands = 1;
  self->practice = "iec-style";
}

const char *
tl_measured_unit (TlMeasured measured)
{
  return measured_rows[measured].unit;
}

const char *
tl_measured_key (TlMeasured measured)
{
  return measured_rows[measured].key;
}

const char *
tl_evidence_word (TlEvidence evidence)
{
  return evidence_words[evidence];
}

const char *
tl_identity_state_word (TlIdentityState state)
{
  static const char *const words[] = {
    [TL_IDENTITY_NOTHING] = "nothing",     [TL_IDENTITY_DECIDED] = "decided",
    [TL_IDENTITY_INDICATED] = "indicated", [TL_IDENTITY_UNDECIDED] = "undecided",
    [TL_IDENTITY_NONE] = "none",
  };

  return words[state];
}

static void
metal_free (gpointer data)
{
  TlMetalCandidate *metal = data;

  g_array_unref (metal->reasons);
  g_free (metal);
}

void
tl_identity_free (TlIdentity *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->metals);
  g_array_unref (self->sizes);
  g_array_unref (self->would_decide);
  g_array_unref (self->assumed);
  g_ptr_array_unref (self->calls);
  g_free (self);
}

/* --- what was given --- */

static gboolean
check_figure (const TlSighting *sighting, TlMeasured measured, GError **error)
{
  TlRange  value = sighting->value[measured];
  double   low = measured_rows[measured].low, high = measured_rows[measured].high;
  gboolean is_point = measured == TL_MEASURED_TEMPERATURE;

  if (!sighting->given[measured])
    return TRUE;
  if (tl_range_is_valid (value) && value.high <= high
      && (is_point ? value.low >= low : value.low > low))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               is_point ? _ ("%s is %g; it must lie from %g to %g %s.")
                        : _ ("%s is %g; it must lie above %g and up to %g %s."),
               measured_rows[measured].key, value.best, low, high, measured_rows[measured].unit);
  return FALSE;
}

static gboolean
check_word (const char *name, const char *word, const char *const *words, GError **error)
{
  g_autofree char *known = NULL;

  if (word == NULL || g_strv_contains (words, word))
    return TRUE;
  known = g_strjoinv (", ", (char **) words);
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("“%s” is no word for the %s; there are: %s."),
               word, name, known);
  return FALSE;
}

static gboolean
check_sighting (const TlSighting *sighting, const TlStock *stock, GError **error)
{
  for (guint i = 0; i < TL_N_MEASURED; i++)
    if (!check_figure (sighting, (TlMeasured) i, error))
      return FALSE;
  if (sighting->strands < 1 || sighting->strands > 10000)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("%u strands are no wire; there must be from 1 to 10000."), sighting->strands);
      return FALSE;
    }
  if (sighting->year != 0 && (sighting->year < 1850 || sighting->year > 2200))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("%u is no year from 1850 to 2200."),
                   sighting->year);
      return FALSE;
    }
  if (!sighting->given[TL_MEASURED_LENGTH]
      && (sighting->given[TL_MEASURED_MASS] || sighting->given[TL_MEASURED_RESISTANCE]))
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_RANGE,
                           _ ("A weight or resistance says nothing without the length of the "
                              "piece; give the length as well."));
      return FALSE;
    }
  return check_word ("surface", sighting->surface, surface_words, error)
         && check_word ("cut", sighting->cut, cut_words, error)
         && check_word ("practice", sighting->practice, tl_stock_practices (stock), error);
}

static TlRange
with_usual_error (const TlStock *stock, TlMeasured measured, double value)
{
  const char *key = measured_rows[measured].key;
  double      error = value * tl_identify_instrument (stock, key, "share");

  if (measured == TL_MEASURED_TEMPERATURE)
    error = tl_identify_instrument (stock, key, "temperature");
  else if (error <= 0.0)
    error = MIN (tl_identify_instrument (stock, key, "length"), 0.5 * value);
  return (TlRange){ value - error, value, value + error };
}

static void
take_figures (Examiner *self)
{
  TlSighting *sighting = &self->sighting;
  double      lay_share = tl_identify_instrument (self->stock, "lay", "share");

  if (!sighting->given[TL_MEASURED_TEMPERATURE])
    sighting->value[TL_MEASURED_TEMPERATURE] = tl_range_exact (20.0);
  for (guint i = 0; i < TL_N_MEASURED; i++)
    if ((sighting->given[i]
         || (i == TL_MEASURED_TEMPERATURE && sighting->given[TL_MEASURED_RESISTANCE]))
        && tl_range_is_exact (sighting->value[i]))
      {
        TlMeasured measured = (TlMeasured) i;

        sighting->value[i] = with_usual_error (self->stock, measured, sighting->value[i].best);
        g_array_append_val (self->identity->assumed, measured);
      }
  self->lay = sighting->strands > 1 ? (TlRange){ 1.0, 1.0 + lay_share * 2.0 / 3.0, 1.0 + lay_share }
                                    : tl_range_exact (1.0);
}

/* --- from figures to evidence --- */

/* Runs @call and keeps it as working. */
static gboolean
run_kept (Examiner *self, TlCall *call, GError **error)
{
  if (!tl_call_run (call, error))
    return FALSE;
  g_ptr_array_add (self->identity->calls, g_memdup2 (call, sizeof *call));
  return TRUE;
}

static TlRange
length_m (const Examiner *self)
{
  TlRange length = self->sighting.value[TL_MEASURED_LENGTH];

  return (TlRange){ length.low * 1e-3, length.best * 1e-3, length.high * 1e-3 };
}

static gboolean
find_section (Examiner *self, GError **error)
{
  TlCall call;

  if (!self->sighting.given[TL_MEASURED_DIAMETER])
    return TRUE;
  tl_call_init (&call, "section-from-diameter");
  tl_call_set (&call, "diameter", self->sighting.value[TL_MEASURED_DIAMETER]);
  tl_call_set_exact (&call, "strands", self->sighting.strands);
  if (!run_kept (self, &call, error))
    return FALSE;
  self->identity->has_section = TRUE;
  self->identity->section_mm2 = tl_call_get (&call, "section");
  return TRUE;
}

static void
set_warmth (const Examiner *self, TlCall *call)
{
  tl_call_set (call, "resistance", self->sighting.value[TL_MEASURED_RESISTANCE]);
  tl_call_set (call, "temperature", self->sighting.value[TL_MEASURED_TEMPERATURE]);
}

static gboolean
find_figure (Examiner *self, TlEvidence evidence, const char *formula, GError **error)
{
  TlCall   call;
  gboolean by_mass = evidence != TL_EVIDENCE_RESISTIVITY;
  gboolean by_resistance = evidence != TL_EVIDENCE_DENSITY;
  gboolean by_section = evidence != TL_EVIDENCE_PRODUCT;

  if ((by_mass && !self->sighting.given[TL_MEASURED_MASS])
      || (by_resistance && !self->sighting.given[TL_MEASURED_RESISTANCE])
      || (by_section && !self->identity->has_section))
    return TRUE;
  tl_call_init (&call, formula);
  tl_call_set (&call, "length", length_m (self));
  tl_call_set (&call, "lay", self->lay);
  if (by_mass)
    tl_call_set (&call, "mass", self->sighting.value[TL_MEASURED_MASS]);
  if (by_resistance)
    set_warmth (self, &call);
  if (by_section)
    tl_call_set (&call, "section", self->identity->section_mm2);
  if (!run_kept (self, &call, error))
    return FALSE;
  self->has[evidence] = TRUE;
  self->figure[evidence] = tl_call_get (&call, call.formula->outputs[0].name);
  return TRUE;
}

/* Three figures of a row, @name-low, @name and @name-high. */
static gboolean
row_band (const TlTable *table, const TlTableRow *row, const char *name, TlRange *band)
{
  g_autofree char *low = g_strconcat (name, "-low", NULL);
  g_autofree char *high = g_strconcat (name, "-high", NULL);

  return tl_table_number (table, row, low, &band->low)
         && tl_table_number (table, row, name, &band->best)
         && tl_table_number (table, row, high, &band->high);
}

static gboolean
band_of (const TlTable *table, const TlTableRow *row, TlEvidence evidence, TlRange *band)
{
  TlRange density, resistivity;

  if (evidence == TL_EVIDENCE_DENSITY)
    return row_band (table, row, "density", band);
  if (evidence == TL_EVIDENCE_RESISTIVITY)
    return row_band (table, row, "resistivity", band);
  if (evidence != TL_EVIDENCE_PRODUCT || !row_band (table, row, "density", &density)
      || !row_band (table, row, "resistivity", &resistivity))
    return FALSE;
  *band = (TlRange){ density.low * resistivity.low, density.best * resistivity.best,
                     density.high * resistivity.high };
  return TRUE;
}

static void
weigh_figure (const Examiner *self, TlMetalCandidate *metal, const TlTable *table,
              const TlTableRow *row, TlEvidence evidence)
{
  static const char *const units[] = { [TL_EVIDENCE_PRODUCT] = "ohm_g/m2",
                                       [TL_EVIDENCE_DENSITY] = "g/cm3",
                                       [TL_EVIDENCE_RESISTIVITY] = "ohm_mm2/m" };
  TlEvidenceRow            reason = { .evidence = evidence, .unit = units[evidence] };

  if (!self->has[evidence] || !band_of (table, row, evidence, &reason.wanted))
    return;
  reason.measured = self->figure[evidence];
  reason.is_against = !tl_identify_overlap (reason.measured, reason.wanted);
  if (!reason.is_against)
    {
      metal->distance += fabs (log (reason.measured.best / reason.wanted.best));
      metal->n_measured++;
    }
  g_array_append_val (metal->reasons, reason);
}

/* A dull face tells nothing; a bright one of the wrong colour speaks against the metal. */
static void
weigh_look (TlMetalCandidate *metal, const TlTable *table, const TlTableRow *row,
            TlEvidence evidence, const char *seen)
{
  TlEvidenceRow reason = { .evidence = evidence, .unit = "", .seen = seen };
  const char   *wanted = tl_table_word (table, row, evidence_words[evidence]);

  if (seen == NULL || wanted == NULL || strcmp (seen, "dull") == 0)
    return;
  reason.is_against = strcmp (seen, wanted) != 0;
  g_array_append_val (metal->reasons, reason);
}

/* A year is a hint: it is told and speaks against nothing. */
static void
note_year (const Examiner *self, TlMetalCandidate *metal)
{
  const TlTable    *table = tl_stock_table (self->stock, YEARS);
  const TlTableRow *row =
      tl_stock_row (self->stock, YEARS, self->sighting.practice, metal->metal, NULL);
  double        from, to;
  TlEvidenceRow reason = { .evidence = TL_EVIDENCE_YEAR, .unit = "1" };

  if (self->sighting.year == 0 || row == NULL || !tl_table_number (table, row, "from", &from)
      || !tl_table_number (table, row, "to", &to))
    return;
  reason.measured = tl_range_exact (self->sighting.year);
  reason.wanted = (TlRange){ from, from, to };
  if (tl_identify_overlap (reason.measured, reason.wanted))
    g_array_append_val (metal->reasons, reason);
}

static void
weigh_metal (const Examiner *self, const TlTable *table, const TlTableRow *row)
{
  TlMetalCandidate *metal = g_new0 (TlMetalCandidate, 1);

  metal->metal = tl_table_word (table, row, "metal");
  metal->name = tl_table_word (table, row, "name");
  metal->source = row->source;
  metal->known_by = row->known_by;
  metal->reasons = g_array_new (FALSE, FALSE, sizeof (TlEvidenceRow));
  metal->is_possible = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (self->has); i++)
    weigh_figure (self, metal, table, row, (TlEvidence) i);
  weigh_look (metal, table, row, TL_EVIDENCE_SURFACE, self->sighting.surface);
  weigh_look (metal, table, row, TL_EVIDENCE_CUT, self->sighting.cut);
  note_year (self, metal);
  for (guint i = 0; i < metal->reasons->len; i++)
    if (g_array_index (metal->reasons, TlEvidenceRow, i).is_against)
      metal->is_possible = FALSE;
  if (metal->n_measured > 0)
    metal->distance /= metal->n_measured;
  g_ptr_array_add (self->identity->metals, metal);
}

static guint
count_against (const TlMetalCandidate *metal)
{
  guint count = 0;

  for (guint i = 0; i < metal->reasons->len; i++)
    count += g_array_index (metal->reasons, TlEvidenceRow, i).is_against ? 1 : 0;
  return count;
}

/* Fewest objections first, then most figures for it, then the nearest; else the order of the table. */
static gint
compare_metals (gconstpointer a, gconstpointer b)
{
  const TlMetalCandidate *one = *(TlMetalCandidate *const *) a,
                         *two = *(TlMetalCandidate *const *) b;
  guint against_one = count_against (one), against_two = count_against (two);

  if (against_one != against_two)
    return against_one < against_two ? -1 : 1;
  if (one->n_measured != two->n_measured)
    return one->n_measured > two->n_measured ? -1 : 1;
  return one->distance < two->distance ? -1 : one->distance > two->distance;
}

/* --- what is left --- */

static gboolean
is_known (const Examiner *self, TlEvidence evidence)
{
  if (evidence == TL_EVIDENCE_SURFACE)
    return self->sighting.surface != NULL;
  if (evidence == TL_EVIDENCE_CUT)
    return self->sighting.cut != NULL;
  return evidence <= TL_EVIDENCE_RESISTIVITY && self->has[evidence];
}

static gboolean
tells_apart (const TlTable *table, const TlTableRow *a, const TlTableRow *b, TlEvidence evidence)
{
  TlRange band_a, band_b;

  if (evidence == TL_EVIDENCE_SURFACE || evidence == TL_EVIDENCE_CUT)
    return g_strcmp0 (tl_table_word (table, a, evidence_words[evidence]),
                      tl_table_word (table, b, evidence_words[evidence]))
           != 0;
  return band_of (table, a, evidence, &band_a) && band_of (table, b, evidence, &band_b)
         && !tl_identify_overlap (band_a, band_b);
}

static const TlTableRow *
row_of (const TlTable *table, const char *metal)
{
  for (guint i = 0; i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);

      if (strcmp (tl_table_word (table, row, "metal"), metal) == 0)
        return row;
    }
  return NULL;
}

/* Every look or figure that is not known yet and differs between two of the @n metals left. */
static void
find_what_would_decide (const Examiner *self, const TlTable *table, guint n)
{
  static const TlEvidence order[] = { TL_EVIDENCE_DENSITY, TL_EVIDENCE_RESISTIVITY, TL_EVIDENCE_CUT,
                                      TL_EVIDENCE_SURFACE };
  const GPtrArray        *metals = self->identity->metals;

  for (guint e = 0; e < G_N_ELEMENTS (order); e++)
    {
      gboolean helps = FALSE;

      for (guint i = 0; i < n && !is_known (self, order[e]); i++)
        for (guint k = i + 1; k < n; k++)
          {
            const TlMetalCandidate *a = g_ptr_array_index (metals, i);
            const TlMetalCandidate *b = g_ptr_array_index (metals, k);

            helps = helps
                    || tells_apart (table, row_of (table, a->metal), row_of (table, b->metal),
                                    order[e]);
          }
      if (helps)
        g_array_append_val (self->identity->would_decide, order[e]);
    }
}

static void
conclude (const Examiner *self, const TlTable *table)
{
  TlIdentity             *identity = self->identity;
  const TlMetalCandidate *first = g_ptr_array_index (identity->metals, 0);
  guint                   n_left = 0;

  for (guint i = 0; i < identity->metals->len; i++)
    n_left += ((TlMetalCandidate *) g_ptr_array_index (identity->metals, i))->is_possible ? 1 : 0;
  if (n_left == 0)
    identity->state = TL_IDENTITY_NONE;
  else if (n_left == 1)
    identity->state = first->n_measured > 0 ? TL_IDENTITY_DECIDED : TL_IDENTITY_INDICATED;
  else if (n_left < identity->metals->len || first->n_measured > 0)
    identity->state = TL_IDENTITY_UNDECIDED;
  else
    identity->state = TL_IDENTITY_NOTHING;
  if (n_left > 1)
    find_what_would_decide (self, table, n_left);
  else if (identity->state == TL_IDENTITY_INDICATED)
    find_what_would_decide (self, table, identity->metals->len);
}

/* Without a diameter: the figure that a wire of one square millimetre would show, against that of the metal. */
static gboolean
find_section_by_metal (Examiner *self, const TlTable *table, GError **error)
{
  const TlMetalCandidate *metal = g_ptr_array_index (self->identity->metals, 0);
  gboolean                by_mass = self->sighting.given[TL_MEASURED_MASS];
  TlEvidence              evidence = by_mass ? TL_EVIDENCE_DENSITY : TL_EVIDENCE_RESISTIVITY;
  TlRange                 band, found, low, high;
  TlCall                  call;

  if (self->identity->has_section
      || (self->identity->state != TL_IDENTITY_DECIDED
          && self->identity->state != TL_IDENTITY_INDICATED)
      || (!by_mass && !self->sighting.given[TL_MEASURED_RESISTANCE])
      || !band_of (table, row_of (table, metal->metal), evidence, &band))
    return TRUE;
  tl_call_init (&call, by_mass ? "density-from-weight" : "resistivity-from-resistance");
  tl_call_set (&call, "length", length_m (self));
  tl_call_set (&call, "lay", self->lay);
  tl_call_set_exact (&call, "section", 1.0);
  if (by_mass)
    tl_call_set (&call, "mass", self->sighting.value[TL_MEASURED_MASS]);
  else
    set_warmth (self, &call);
  if (!run_kept (self, &call, error))
    return FALSE;
  found = tl_call_get (&call, call.formula->outputs[0].name);
  high = by_mass ? found : band;
  low = by_mass ? band : found;
  self->identity->section_mm2 =
      (TlRange){ high.low / low.high, high.best / low.best, high.high / low.low };
  self->identity->has_section = self->identity->section_by_metal = TRUE;
  return TRUE;
}

static TlIdentity *
identity_alloc (void)
{
  TlIdentity *self = g_new0 (TlIdentity, 1);

  self->metals = g_ptr_array_new_with_free_func (metal_free);
  self->sizes = g_array_new (FALSE, FALSE, sizeof (TlSizeCandidate));
  self->would_decide = g_array_new (FALSE, FALSE, sizeof (TlEvidence));
  self->assumed = g_array_new (FALSE, FALSE, sizeof (TlMeasured));
  self->calls = g_ptr_array_new_with_free_func (g_free);
  return self;
}

TlIdentity *
tl_identity_new (const TlSighting *sighting, const TlStock *stock, GError **error)
{
  g_autoptr (TlIdentity) identity = identity_alloc ();
  const TlTable *table = tl_stock_table (stock, METALS);
  Examiner       self = { .stock = stock, .identity = identity, .sighting = *sighting };

  if (!check_sighting (sighting, stock, error))
    return NULL;
  if (table == NULL || table->rows->len == 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("The stock has no table “%s”."), METALS);
      return NULL;
    }
  take_figures (&self);
  if (!find_section (&self, error)
      || !find_figure (&self, TL_EVIDENCE_PRODUCT, "mass-resistivity", error)
      || !find_figure (&self, TL_EVIDENCE_DENSITY, "density-from-weight", error)
      || !find_figure (&self, TL_EVIDENCE_RESISTIVITY, "resistivity-from-resistance", error))
    return NULL;
  for (guint i = 0; i < table->rows->len; i++)
    weigh_metal (&self, table, g_ptr_array_index (table->rows, i));
  g_ptr_array_sort (identity->metals, compare_metals);
  conclude (&self, table);
  if (!find_section_by_metal (&self, table, error))
    return NULL;
  identity->sighting = self.sighting;
  tl_identify_sizes (identity, stock);
  return g_steal_pointer (&identity);
}
