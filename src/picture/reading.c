/* reading.c: the record of a reading.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/reading.h"

#include "base/quantity.h"

#include <math.h>

static const char *const kind_words[] = { "resistance", "drop",   "spot", "difference",
                                          "insulation", "torque", NULL };
static const char *const circuit_words[] = { "unknown", "selv",   "low",    "high",
                                             "surge",   "us-250", "us-600", NULL };
static const char *const screw_words[] = { "unknown", "bar", "conductor", "receptacle", NULL };

static const char *const surface_words[] = { "unknown",  "pvc",         "copper", "aluminium",
                                             "soldered", "cover-plate", NULL };
G_STATIC_ASSERT (G_N_ELEMENTS (circuit_words) == TL_N_CIRCUITS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (screw_words) == TL_N_SCREWS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (surface_words) == TL_N_SURFACES + 1);

#define AT(field) G_STRUCT_OFFSET (TlReading, field)
#define TEXT(name, field)                                                                          \
  {                                                                                                \
    name, TL_SLOT_TEXT, AT (field), 0, 0, NULL, FALSE                                              \
  }
#define FLAG(name, field)                                                                          \
  {                                                                                                \
    name, TL_SLOT_FLAG, AT (field), 0, 0, NULL, FALSE                                              \
  }
#define NUMBER(name, field, low, high)                                                             \
  {                                                                                                \
    name, TL_SLOT_NUMBER, AT (field), low, high, NULL, FALSE                                       \
  }

static const TlSlot slots[] = {
  { "id", TL_SLOT_TEXT, AT (id), 0, 0, NULL, TRUE },
  TEXT ("inspection", inspection),
  { "kind", TL_SLOT_WORD, AT (kind), 0, 0, kind_words, TRUE },
  { "value", TL_SLOT_NUMBER, AT (value), -273.15, 1e12, NULL, TRUE },
  NUMBER ("uncertainty", uncertainty, 0, 1e12),
  NUMBER ("current-a", current_A, 0, 1e5),
  { "similar", TL_SLOT_NUMBERS, AT (similar), 0, 1e12, NULL, FALSE },
  NUMBER ("conductor", conductor, 0, 1e12),
  NUMBER ("initial", initial, 0, 1e12),
  FLAG ("ambient-known", has_ambient),
  NUMBER ("ambient-c", ambient_C, -80, 200),
  NUMBER ("load-a", load_A, 0, 1e5),
  NUMBER ("full-load-a", full_load_A, 0, 1e5),
  NUMBER ("emissivity", emissivity, 0, 1),
  NUMBER ("target-px", target_px, 0, 1e5),
  FLAG ("contact", is_contact),
  { "surface", TL_SLOT_WORD, AT (surface), 0, 0, surface_words, FALSE },
  { "circuit", TL_SLOT_WORD, AT (circuit), 0, 0, circuit_words, FALSE },
  NUMBER ("test-v", test_V, 0, 1e5),
  { "screw", TL_SLOT_WORD, AT (screw), 0, 0, screw_words, FALSE },
  NUMBER ("nominal-nm", nominal_Nm, 0, 1e4),
  FLAG ("moved", has_moved),
  TEXT ("tie", tie),
  TEXT ("picture", picture),
  TEXT ("instrument", instrument),
  TEXT ("serial", serial),
  TEXT ("calibrated", calibrated),
  TEXT ("who", who),
  TEXT ("when", when),
  TEXT ("note", note),
  { NULL },
};

const TlForm tl_reading_form = { "reading", sizeof (TlReading), slots };

const char *
tl_reading_unit (TlReadingKind kind)
{
  static const char *const units[] = { "uohm", "mV", "degC", "K", "Mohm", "N_m" };

  g_return_val_if_fail ((guint) kind < TL_N_READING_KINDS, "1");
  return units[kind];
}

const char *
tl_reading_kind_word (TlReadingKind kind)
{
  return kind_words[kind];
}

const char *
tl_reading_kind_label (TlReadingKind kind)
{
  static const char *const labels[] = {
    TL_N_ ("Resistance of the joint"), TL_N_ ("Voltage drop over the joint"),
    TL_N_ ("Temperature of a spot"),   TL_N_ ("Temperature above a similar part"),
    TL_N_ ("Insulation resistance"),   TL_N_ ("Torque when tried again"),
  };

  g_return_val_if_fail ((guint) kind < TL_N_READING_KINDS, "");
  return labels[kind];
}

const char *
tl_circuit_label (TlCircuit circuit)
{
  static const char *const labels[] = {
    TL_N_ ("Kind of circuit not stated"),
    TL_N_ ("SELV or PELV"),
    TL_N_ ("Circuit up to 500 V, FELV too"),
    TL_N_ ("Circuit above 500 V"),
    TL_N_ ("Circuit with surge protectors or electronics"),
    TL_N_ ("Equipment of 250 V, United States"),
    TL_N_ ("Equipment of 600 V, United States"),
  };

  G_STATIC_ASSERT (G_N_ELEMENTS (labels) == TL_N_CIRCUITS);
  g_return_val_if_fail ((guint) circuit < TL_N_CIRCUITS, "");
  return labels[circuit];
}

const char *
tl_screw_label (TlScrew screw)
{
  static const char *const labels[] = {
    TL_N_ ("What it clamps is not stated"),
    TL_N_ ("Bolt on solid bars"),
    TL_N_ ("Screw on a conductor"),
    TL_N_ ("Screw of a socket outlet"),
  };

  G_STATIC_ASSERT (G_N_ELEMENTS (labels) == TL_N_SCREWS);
  g_return_val_if_fail ((guint) screw < TL_N_SCREWS, "");
  return labels[screw];
}

const char *
tl_surface_label (TlSurface surface)
{
  static const char *const labels[] = {
    TL_N_ ("What it was read on is not stated"),
    TL_N_ ("PVC insulation"),
    TL_N_ ("Hard-drawn copper"),
    TL_N_ ("Hard aluminium"),
    TL_N_ ("Soldered joint"),
    TL_N_ ("Screw of a cover plate, aluminium circuit"),
  };

  G_STATIC_ASSERT (G_N_ELEMENTS (labels) == TL_N_SURFACES);
  g_return_val_if_fail ((guint) surface < TL_N_SURFACES, "");
  return labels[surface];
}

char *
tl_reading_text (const TlReading *self, const TlLanguage *language)
{
  g_autofree char *value = tl_quantity_format (self->value, tl_reading_unit (self->kind), language);
  g_autofree char *expanded = NULL;

  if (self->uncertainty <= 0.0)
    return g_steal_pointer (&value);
  expanded = tl_quantity_format (self->uncertainty,
                                 self->kind == TL_READING_SPOT ? "K" : tl_reading_unit (self->kind),
                                 language);
  return g_strdup_printf ("%s ± %s", value, expanded);
}

char *
tl_reading_result_text (const TlReadingResult *result, const TlLanguage *language)
{
  g_autofree char *figure = NULL, *limit = NULL;

  if (!result->is_computed)
    return g_strdup (tl_language_text (language, TL_N_ ("not computed")));
  figure = tl_range_format (result->figure, result->unit, language);
  if (!isfinite (result->limit))
    return g_steal_pointer (&figure);
  limit = tl_quantity_format (result->limit, result->unit, language);
  return g_strdup_printf (tl_language_text (language, TL_N_ ("%s, limit %s")), figure, limit);
}
