/* identify-sizes.c: which sizes of the stock a section may be, and of which class.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/identify-private.h"

#include <math.h>
#include <string.h>

#define INSTRUMENTS "identify-instruments"

static double
section_of_diameter_mm2 (double diameter_mm)
{
  TlCall call;

  tl_call_init (&call, "section-from-diameter");
  tl_call_set_exact (&call, "diameter", diameter_mm);
  return tl_call_run_quick (&call) ? tl_call_get (&call, "section").best : 0.0;
}

/* A metre of one square millimetre would have that much more than the wire. */
static double
section_of_resistance_mm2 (double ohm_per_km, double resistivity)
{
  TlCall call;

  tl_call_init (&call, "conductor-resistance");
  tl_call_set_exact (&call, "resistivity", resistivity);
  tl_call_set_exact (&call, "length", 1.0);
  tl_call_set_exact (&call, "section", 1.0);
  return tl_call_run_quick (&call) ? tl_call_get (&call, "resistance").best / ohm_per_km
                                   : G_MAXDOUBLE;
}

/* How far a section may lie from the nominal one of @part: thinner, as long as its resistance is not passed; thicker,
 * up to the greatest diameter of the table. */
static TlRange
section_band (const TlStock *stock, const TlPart *part)
{
  double            nominal_mm2 = tl_facts_number (part->facts, TL_FIELD_SECTION, 0.0);
  double            most_ohm_per_km = tl_facts_number (part->facts, TL_FIELD_RESISTANCE_20, 0.0);
  const TlFact     *diameter = tl_facts_get (part->facts, TL_FIELD_METAL_DIAMETER);
  const char       *metal_id = tl_facts_word (part->facts, TL_FIELD_METAL, "");
  const TlMaterial *metal = tl_stock_material (stock, metal_id);
  double            resistivity =
      metal != NULL ? tl_facts_number (metal->facts, TL_FIELD_RESISTIVITY, 0.0) : 0.0;
  TlRange band = { nominal_mm2, nominal_mm2,
                   nominal_mm2 * (1.0 + tl_identify_instrument (stock, "section", "share")) };

  if (most_ohm_per_km > 0.0 && resistivity > 0.0)
    band.low = MIN (band.low, section_of_resistance_mm2 (most_ohm_per_km, resistivity));
  if (diameter != NULL && tl_facts_number (part->facts, TL_FIELD_STRANDS, 0.0) < 1.5
      && strcmp (tl_facts_word (part->facts, TL_FIELD_CLASS, ""), "class-1") == 0)
    band.high = MAX (band.high, section_of_diameter_mm2 (diameter->value.high));
  return band;
}

/* Fine strands make class 5, any others class 2, one wire class 1. */
static gboolean
class_fits (const TlIdentity *self, const TlStock *stock, const TlPart *part,
            const char *class_word)
{
  double strand_mm = tl_facts_number (part->facts, TL_FIELD_STRAND_DIAMETER, 0.0);
  double over = tl_identify_instrument (stock, "fine-strand", "share");

  if (self->sighting.strands == 1)
    return strcmp (class_word, "class-1") == 0;
  if (strcmp (class_word, "class-5") != 0)
    return strcmp (class_word, "class-2") == 0;
  return self->sighting.given[TL_MEASURED_DIAMETER] && strand_mm > 0.0
         && self->sighting.value[TL_MEASURED_DIAMETER].low <= strand_mm * (1.0 + over);
}

static gboolean
has_size (const GArray *sizes, const char *size, const char *class_word)
{
  for (guint i = 0; i < sizes->len; i++)
    {
      const TlSizeCandidate *row = &g_array_index (sizes, TlSizeCandidate, i);

      if (strcmp (row->size, size) == 0 && strcmp (row->class_word, class_word) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The finer class first, then the nearer size. */
static gint
compare_sizes (gconstpointer a, gconstpointer b)
{
  const TlSizeCandidate *one = a, *two = b;
  gint                   by_class = strcmp (two->class_word, one->class_word);

  if (by_class != 0)
    return by_class;
  if (one->distance != two->distance)
    return one->distance < two->distance ? -1 : 1;
  return strcmp (one->size, two->size);
}

/* Strands fine enough for class 5 are not looked for in class 2. */
static void
drop_coarse (GArray *sizes)
{
  guint keep = sizes->len;

  for (guint i = 0; i < sizes->len; i++)
    if (strcmp (g_array_index (sizes, TlSizeCandidate, 0).class_word, "class-5") == 0
        && strcmp (g_array_index (sizes, TlSizeCandidate, i).class_word, "class-5") != 0)
      keep = MIN (keep, i);
  g_array_set_size (sizes, keep);
}

void
tl_identify_sizes (TlIdentity *self, const TlStock *stock)
{
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; self->has_section && i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      const char   *word =
          part->kind == TL_PART_CONDUCTOR ? tl_facts_word (part->facts, TL_FIELD_CLASS, "") : "";
      double          nominal_mm2 = tl_facts_number (part->facts, TL_FIELD_SECTION, 0.0);
      TlSizeCandidate size = { part->size, word, nominal_mm2,
                               fabs (log (self->section_mm2.best / nominal_mm2)) };

      if (nominal_mm2 <= 0.0 || !class_fits (self, stock, part, word)
          || !tl_identify_overlap (self->section_mm2, section_band (stock, part))
          || has_size (self->sizes, part->size, word))
        continue;
      g_array_append_val (self->sizes, size);
    }
  g_array_sort (self->sizes, compare_sizes);
  drop_coarse (self->sizes);
}

double
tl_identify_instrument (const TlStock *stock, const char *quantity, const char *column)
{
  const TlTable    *table = tl_stock_table (stock, INSTRUMENTS);
  const TlTableRow *row =
      table != NULL ? tl_stock_row (stock, INSTRUMENTS, NULL, quantity, NULL) : NULL;
  double value;

  return row != NULL && tl_table_number (table, row, column, &value) ? value : 0.0;
}
