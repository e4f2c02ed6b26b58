/* test-identify.c: what an old wire is, by wires whose figures are published.
 *
 * Weights and resistances: wire tables of 12 AWG (19.77 lb and 1.588 ohm a thousand feet of copper at 20 °C, 6.01 lb and
 * 2.60 ohm of aluminium, from memory); IEC 60028 and IEC 60889; ASTM B566, copper-clad aluminium of 10 % copper,
 * 3.32 g/cm³ and 0.02743 ohm mm²/m at most (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/identify.h"
#include "plan-test.h"

#include <string.h>

/* A metre of 12 AWG: 3.309 mm², 2.053 mm. */
#define D_12 2.053
#define COPPER_G 29.42
#define COPPER_MOHM 5.21
#define ALUMINIUM_G 8.94
#define ALUMINIUM_MOHM 8.54
#define CLAD_G 10.99
#define CLAD_MOHM 8.1

typedef struct
{
  const char     *name;
  double          diameter_mm, mass_g, resistance_mohm; /* 0: not measured */
  const char     *surface, *cut;
  TlIdentityState state;
  const char     *first; /* (nullable) */
} Case;

static const Case cases[] = {
  { "aluminium-weighed", D_12, ALUMINIUM_G, 0, NULL, NULL, TL_IDENTITY_DECIDED, "aluminium" },
  { "aluminium-both", D_12, ALUMINIUM_G, ALUMINIUM_MOHM, "silver", "silver", TL_IDENTITY_DECIDED,
    "aluminium" },
  /* No diameter: resistivity times density alone, 0.0764 against 0.153 ohm g/m². */
  { "aluminium-without-gauge", 0, ALUMINIUM_G, ALUMINIUM_MOHM, NULL, NULL, TL_IDENTITY_DECIDED,
    "aluminium" },
  /* Tin is too thin to weigh: only the surface tells tinned copper from copper. */
  { "copper-or-tinned", D_12, COPPER_G, COPPER_MOHM, NULL, NULL, TL_IDENTITY_UNDECIDED, NULL },
  { "copper", D_12, COPPER_G, COPPER_MOHM, "red", NULL, TL_IDENTITY_DECIDED, "copper" },
  { "tinned-copper", D_12, COPPER_G, COPPER_MOHM, "silver", NULL, TL_IDENTITY_DECIDED,
    "tinned-copper" },
  /* The traps: what looks like copper is light, what looks like aluminium is heavy. */
  { "clad-looks-like-copper", D_12, CLAD_G, 0, "red", NULL, TL_IDENTITY_DECIDED,
    "copper-clad-aluminium" },
  { "clad-by-both", D_12, CLAD_G, CLAD_MOHM, NULL, NULL, TL_IDENTITY_DECIDED,
    "copper-clad-aluminium" },
  /* 0.0264 to 0.0274 against 0.0278 ohm mm²/m: closer than a diameter can be taken. */
  { "clad-or-aluminium", D_12, 0, CLAD_MOHM, NULL, NULL, TL_IDENTITY_UNDECIDED, NULL },
  { "looks-are-no-proof", 0, 0, 0, "red", "red", TL_IDENTITY_INDICATED, "copper" },
  { "red-outside-only", 0, 0, 0, "red", "silver", TL_IDENTITY_INDICATED, "copper-clad-aluminium" },
  { "dull-says-nothing", D_12, 0, 0, "dull", NULL, TL_IDENTITY_NOTHING, NULL },
  { "nothing", D_12, 0, 0, NULL, NULL, TL_IDENTITY_NOTHING, NULL },
  /* Lead: 11.3 g/cm³ */
  { "no-such-metal", D_12, 37.5, 0, NULL, NULL, TL_IDENTITY_NONE, NULL },
  { "contradiction", D_12, ALUMINIUM_G, COPPER_MOHM, NULL, NULL, TL_IDENTITY_NONE, NULL },
};

static void
set (TlSighting *sighting, TlMeasured measured, double value)
{
  if (value <= 0.0)
    return;
  sighting->given[measured] = TRUE;
  sighting->value[measured] = tl_range_exact (value);
}

static TlIdentity *
identify (const TlSighting *sighting)
{
  g_autoptr (GError) error = NULL;
  TlIdentity *identity = tl_identity_new (sighting, pt_stock (), &error);

  g_assert_no_error (error);
  return identity;
}

static const TlMetalCandidate *
first_of (const TlIdentity *identity)
{
  return g_ptr_array_index (identity->metals, 0);
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlIdentity) identity = NULL;
  g_autofree char *text = NULL;
  TlSighting       sighting;

  tl_sighting_init (&sighting);
  set (&sighting, TL_MEASURED_DIAMETER, c->diameter_mm);
  set (&sighting, TL_MEASURED_LENGTH, 1000.0);
  set (&sighting, TL_MEASURED_MASS, c->mass_g);
  set (&sighting, TL_MEASURED_RESISTANCE, c->resistance_mohm);
  sighting.surface = c->surface;
  sighting.cut = c->cut;
  identity = identify (&sighting);
  text = tl_identity_to_text (identity, pt_stock (), tl_language_plain ());
  g_test_message ("%s", text);
  g_assert_cmpint (identity->state, ==, c->state);
  if (c->first != NULL)
    g_assert_cmpstr (first_of (identity)->metal, ==, c->first);
  /* What is undecided says what would decide. */
  if (c->state == TL_IDENTITY_UNDECIDED || c->state == TL_IDENTITY_INDICATED)
    g_assert_cmpuint (identity->would_decide->len, >, 0);
  for (guint i = 1; i < identity->metals->len; i++)
    if (((TlMetalCandidate *) g_ptr_array_index (identity->metals, i))->is_possible)
      g_assert_true (
          ((TlMetalCandidate *) g_ptr_array_index (identity->metals, i - 1))->is_possible);
}

/* A section from weight alone, where the metal is known: 12 AWG is 3.309 mm² (ASTM B258). */
static void
test_section_by_metal (void)
{
  g_autoptr (TlIdentity) by_both = NULL;
  g_autoptr (TlIdentity) by_resistance = NULL;
  TlSighting sighting;

  tl_sighting_init (&sighting);
  set (&sighting, TL_MEASURED_LENGTH, 1000.0);
  set (&sighting, TL_MEASURED_MASS, ALUMINIUM_G);
  set (&sighting, TL_MEASURED_RESISTANCE, ALUMINIUM_MOHM);
  by_both = identify (&sighting);
  g_assert_true (by_both->has_section && by_both->section_by_metal);
  g_assert_cmpfloat_with_epsilon (by_both->section_mm2.best, 3.309, 0.01);
  g_assert_cmpfloat (by_both->section_mm2.low, <, 3.309);
  g_assert_cmpfloat (by_both->section_mm2.high, >, 3.309);

  sighting.given[TL_MEASURED_MASS] = FALSE;
  sighting.value[TL_MEASURED_RESISTANCE] = tl_range_exact (COPPER_MOHM);
  sighting.surface = "red";
  sighting.cut = "red";
  by_resistance = identify (&sighting);
  g_assert_cmpint (by_resistance->state, ==, TL_IDENTITY_INDICATED);
  g_assert_cmpfloat_with_epsilon (by_resistance->section_mm2.best, 3.309, 0.01);
}

/* Sizes and classes: make-up of strands as in DIN VDE 0295 practice, NFPA 70 chapter 9 Table 8, IEC 60228 Table 1. */
static void
test_sizes (void)
{
  static const struct
  {
    guint       strands;
    double      diameter_mm;
    const char *size, *class_word;
  } wires[] = {
    { 1, 1.784, "2.5 mm²", "class-1" }, { 1, 1.38, "1.5 mm²", "class-1" },
    { 1, D_12, "12 AWG", "class-1" },   { 30, 0.25, "1.5 mm²", "class-5" },
    { 50, 0.25, "2.5 mm²", "class-5" }, { 56, 0.30, "4 mm²", "class-5" },
    { 7, 0.67, "2.5 mm²", "class-2" },  { 7, 1.70, "16 mm²", "class-2" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (wires); i++)
    {
      g_autoptr (TlIdentity) identity = NULL;
      const TlSizeCandidate *size;
      TlSighting             sighting;

      tl_sighting_init (&sighting);
      sighting.strands = wires[i].strands;
      sighting.given[TL_MEASURED_DIAMETER] = TRUE;
      sighting.value[TL_MEASURED_DIAMETER] = tl_range_around (wires[i].diameter_mm, 0.005);
      identity = identify (&sighting);
      g_assert_cmpuint (identity->sizes->len, >, 0);
      size = &g_array_index (identity->sizes, TlSizeCandidate, 0);
      g_test_message ("%u x %g mm: %s %s", wires[i].strands, wires[i].diameter_mm, size->size,
                      size->class_word);
      g_assert_cmpstr (size->size, ==, wires[i].size);
      g_assert_cmpstr (size->class_word, ==, wires[i].class_word);
    }
}

/* A year is told and moves nothing. */
static void
test_year (void)
{
  g_autoptr (TlIdentity) identity = NULL;
  g_autofree char *text = NULL;
  TlSighting       sighting;

  tl_sighting_init (&sighting);
  sighting.year = 1970;
  sighting.practice = "nfpa70-style";
  identity = identify (&sighting);
  text = tl_identity_to_text (identity, pt_stock (), tl_language_plain ());
  g_assert_cmpint (identity->state, ==, TL_IDENTITY_NOTHING);
  g_assert_nonnull (strstr (text, "a hint only: usual from 1965 to 1973"));
}

/* Heat: 12 AWG copper at 75 °C has 1.93 ohm a thousand feet (NFPA 70 chapter 9 Table 8), 6.33 mohm a metre. */
static void
test_warm (void)
{
  g_autoptr (TlIdentity) identity = NULL;
  TlSighting sighting;

  tl_sighting_init (&sighting);
  set (&sighting, TL_MEASURED_DIAMETER, D_12);
  set (&sighting, TL_MEASURED_LENGTH, 1000.0);
  set (&sighting, TL_MEASURED_RESISTANCE, 6.332);
  set (&sighting, TL_MEASURED_TEMPERATURE, 75.0);
  sighting.surface = "red";
  identity = identify (&sighting);
  g_assert_cmpint (identity->state, ==, TL_IDENTITY_DECIDED);
  g_assert_cmpstr (first_of (identity)->metal, ==, "copper");
}

static void
assert_refused (const TlSighting *sighting, const char *wanted)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (tl_identity_new (sighting, pt_stock (), &error));
  g_assert_nonnull (error);
  g_assert_cmpint (error->domain, ==, TL_ERROR);
  if (strstr (error->message, wanted) == NULL)
    g_error ("“%s” is not in: %s", wanted, error->message);
}

static void
test_refused (void)
{
  TlSighting sighting;

  tl_sighting_init (&sighting);
  set (&sighting, TL_MEASURED_MASS, 1.0);
  assert_refused (&sighting, "length");

  tl_sighting_init (&sighting);
  sighting.given[TL_MEASURED_DIAMETER] = TRUE;
  assert_refused (&sighting, "diameter is 0");
  sighting.value[TL_MEASURED_DIAMETER] = (TlRange){ -1.0, 1.0, 2.0 };
  assert_refused (&sighting, "diameter is 1");
  sighting.value[TL_MEASURED_DIAMETER] = tl_range_exact (1e9);
  assert_refused (&sighting, "50 mm");
  sighting.value[TL_MEASURED_DIAMETER] = tl_range_exact (G_MAXDOUBLE * 2.0);
  assert_refused (&sighting, "diameter");

  tl_sighting_init (&sighting);
  sighting.surface = "green";
  assert_refused (&sighting, "red, silver, dull");
  tl_sighting_init (&sighting);
  sighting.practice = "home-style";
  assert_refused (&sighting, "iec-style");
  tl_sighting_init (&sighting);
  sighting.strands = 0;
  assert_refused (&sighting, "0 strands");
  tl_sighting_init (&sighting);
  sighting.year = 3;
  assert_refused (&sighting, "1850");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/identify/metal/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/identify/section-by-metal", test_section_by_metal);
  g_test_add_func ("/identify/sizes", test_sizes);
  g_test_add_func ("/identify/year", test_year);
  g_test_add_func ("/identify/warm", test_warm);
  g_test_add_func ("/identify/refused", test_refused);
  return g_test_run ();
}
