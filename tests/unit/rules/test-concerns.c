/* test-concerns.c: one change of a good joint at a time, and what each rule says to it.
 *
 * What is right or wrong is common practice, no source, unless the row names one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules-test.h"

#include "stock/pack.h"

#include <math.h>
#include <string.h>

#define BOLTED "bolted-as-it-should-be"
#define PRESSED "socket-circuit-weaving-floor"
#define CABLE "lift-feed-aluminium"
#define NFPA "socket-circuit-nfpa70"

typedef struct
{
  const char *name;
  const char *example;
  const char *owner;
  TlField     field;
  const char *word;    /* or %NULL: a number */
  double      value;
  const char *rule;
  const char *expected;
} Case;

static const Case cases[] = {
  /* grip of a stack */
  { "eye-closes", BOLTED, "leg-1", TL_FIELD_EYE_CLOSES, "with-nut", 0, "grip.eye-closes", "Sound" },
  { "eye-opens", BOLTED, "leg-2", TL_FIELD_EYE_CLOSES, "against-nut", 0, "grip.eye-closes", "Change" },
  { "strands", BOLTED, "leg-2", TL_FIELD_CLASS, "class-5", 0, "grip.strands", "Change" },
  { "solid", BOLTED, "leg-2", TL_FIELD_CLASS, "class-1", 0, "grip.strands", "none" },
  { "torque-right", BOLTED, "layer-1", TL_FIELD_TORQUE, NULL, 2.0, "grip.preload", "Sound" },
  /* ISO 898-1: proof stress 580 MPa for 8.8 up to 16 mm; 0.75 of it on 14.2 mm2 is 6177 N, and 7 N m with K 0.20 on M5 is 7000 N */
  { "torque-too-high", BOLTED, "layer-1", TL_FIELD_TORQUE, NULL, 7.0, "grip.preload", "Change" },
  /* 6 N m: 6000 N at best, above 6177 N only with K 0.16 */
  { "torque-high-if-slippery", BOLTED, "layer-1", TL_FIELD_TORQUE, NULL, 6.0, "grip.preload", "Watch" },
  { "conical-flat", BOLTED, "layer-1", TL_FIELD_TORQUE, NULL, 3.5, "grip.spring", "Watch" },
  { "conical-follows", BOLTED, "layer-1", TL_FIELD_TORQUE, NULL, 2.0, "grip.spring", "Sound" },
  { "bolt-too-short", BOLTED, "layer-1", TL_FIELD_LENGTH, NULL, 10.0, "grip.thread", "Unsafe" },
  { "bolt-just-full", BOLTED, "layer-1", TL_FIELD_LENGTH, NULL, 12.6, "grip.thread", "Watch" },
  { "bolt-long-enough", BOLTED, "layer-1", TL_FIELD_LENGTH, NULL, 16.0, "grip.thread", "Sound" },
  { "washer-covers", BOLTED, "layer-3", TL_FIELD_OUTER, NULL, 10.0, "grip.eye-covered", "Sound" },
  { "washer-on-the-crest", BOLTED, "layer-3", TL_FIELD_OUTER, NULL, 8.0, "grip.eye-covered", "Watch" },
  { "washer-in-the-eye", BOLTED, "layer-3", TL_FIELD_OUTER, NULL, 6.8, "grip.eye-covered", "Change" },
  { "washer-through-the-eye", BOLTED, "leg-1", TL_FIELD_EYE_BORE, NULL, 12.0, "grip.built", "Unsafe" },
  { "wide-thin-washer", BOLTED, "layer-2", TL_FIELD_THICKNESS, NULL, 0.5, "grip.dishing", "Watch" },
  /* preparation and bends */
  { "as-found", BOLTED, "leg-1", TL_FIELD_SURFACE, "brushed-compound", 0, "grip.oxide", "Sound" },
  { "bent-twice", BOLTED, "leg-1", TL_FIELD_BENDS, NULL, 2.0, "grip.bend", "Change" },
  { "bent-once", BOLTED, "leg-1", TL_FIELD_BENDS, NULL, 1.0, "grip.bend", "Watch" },
  /* 6 d of 1.784 mm is 10.7 mm */
  { "bend-too-tight", BOLTED, "leg-1", TL_FIELD_BEND_RADIUS, NULL, 10.0, "grip.bend", "Change" },
  { "bend-wide-enough", BOLTED, "leg-1", TL_FIELD_BEND_RADIUS, NULL, 11.0, "grip.bend", "Sound" },
  /* grip of a press */
  { "die-right", PRESSED, "layer-1", TL_FIELD_DIE, NULL, 4.5, "grip.die", "Sound" },
  { "die-wrong", PRESSED, "layer-1", TL_FIELD_DIE, NULL, 5.5, "grip.die", "Change" },
  { "die-hollow", PRESSED, "layer-1", TL_FIELD_DIE, NULL, 5.5, "grip.compaction", "Change" },
  { "die-solid", PRESSED, "layer-1", TL_FIELD_DIE, NULL, 4.5, "grip.compaction", "Sound" },
  { "die-tears", PRESSED, "layer-1", TL_FIELD_DIE, NULL, 3.8, "grip.compaction", "Change" },
  { "bore-wide", PRESSED, "layer-1", TL_FIELD_BORE, NULL, 5.4, "grip.bore", "Watch" },
  { "strands-twisted-in", PRESSED, "layer-1", TL_FIELD_BORE, NULL, 2.3, "grip.bore", "Sound" },
  { "bore-too-narrow", PRESSED, "layer-1", TL_FIELD_BORE, NULL, 3.0, "grip.built", "Unsafe" },
  { "not-far-enough", PRESSED, "leg-1", TL_FIELD_INSERTION, NULL, 20.0, "grip.insertion", "Change" },
  { "strip-too-short", PRESSED, "leg-1", TL_FIELD_STRIP, NULL, 25.0, "grip.insertion", "Change" },
  { "strip-too-long", PRESSED, "leg-1", TL_FIELD_STRIP, NULL, 40.0, "grip.insertion", "Watch" },
  { "marked-otherwise", PRESSED, "layer-1", TL_FIELD_STATED_SECTION, NULL, 10.0, "grip.marked-section", "Change" },
  { "profile-right", CABLE, "layer-1", TL_FIELD_PRESS_PROFILE, "hexagon", 0, "grip.profile", "none" },
  { "profile-wrong", CABLE, "layer-1", TL_FIELD_PRESS_PROFILE, "oval", 0, "grip.profile", "Change" },
  { "tested-pair", PRESSED, "layer-1", TL_FIELD_TESTED_PAIR, "yes", 0, "practice.sleeve-pair", "Sound" },
  /* seal */
  { "closed", PRESSED, "layer-3", TL_FIELD_HEAT_SOURCE, "hot-air", 0, "seal.closed", "Sound" },
  { "flame", PRESSED, "layer-3", TL_FIELD_HEAT_SOURCE, "flame", 0, "seal.handling", "Change" },
  { "slid-on-after", PRESSED, "layer-3", TL_FIELD_SLID_ON, "after", 0, "seal.handling", "Change" },
  { "short-sleeve", PRESSED, "layer-3", TL_FIELD_LENGTH, NULL, 40.0, "seal.mouths", "Change" },
  { "does-not-pass", PRESSED, "layer-3", TL_FIELD_EXPANDED, NULL, 5.0, "seal.passes", "Change" },
  { "hardly-passes", PRESSED, "layer-3", TL_FIELD_EXPANDED, NULL, 6.5, "seal.passes", "Watch" },
  { "does-not-grip", PRESSED, "layer-3", TL_FIELD_RECOVERED, NULL, 3.6, "seal.mouths", "Change" },
  { "grips-weakly", PRESSED, "layer-3", TL_FIELD_RECOVERED, NULL, 3.0, "seal.mouths", "Watch" },
  { "no-adhesive-damp", PRESSED, "layer-3", TL_FIELD_ADHESIVE, "no", 0, "seal.adhesive", "Change" },
  { "no-adhesive-open", PRESSED, "layer-3", TL_FIELD_ADHESIVE, "no", 0, "seal.closed", "Change" },
  /* room */
  { "stub", PRESSED, "leg-2", TL_FIELD_FREE_LENGTH, NULL, 60.0, "room.stub", "Change" },
  { "stub-broken-off", PRESSED, "leg-2", TL_FIELD_FREE_LENGTH, NULL, 20.0, "room.stub", "Unsafe" },
  { "stub-long", PRESSED, "leg-2", TL_FIELD_FREE_LENGTH, NULL, 150.0, "room.stub", "Sound" },
  { "box-narrow", PRESSED, "site", TL_FIELD_INNER_WIDTH, NULL, 94.0, "room.fit", "Sound" },
  { "box-shallow", PRESSED, "site", TL_FIELD_INNER_DEPTH, NULL, 12.0, "room.fit", "Change" },
  { "box-crowded", PRESSED, "site", TL_FIELD_SAME_JOINTS, NULL, 30.0, "room.space", "Change" },
  /* geometry: eight joints of 7 mm lie side by side in 94 mm; forty want four layers of 7 mm and 2 mm between, more than 36 mm */
  { "laid-alone", PRESSED, "site", TL_FIELD_SAME_JOINTS, NULL, 0.0, "room.packing", "none" },
  { "laid-eight", PRESSED, "site", TL_FIELD_SAME_JOINTS, NULL, 7.0, "room.packing", "Sound" },
  { "laid-forty", PRESSED, "site", TL_FIELD_SAME_JOINTS, NULL, 39.0, "room.packing", "Change" },
  /* NFPA 70-2020, 300.14: 6 in from where it leaves the sheath, 3 in beyond an opening under 8 in (seen) */
  { "free-length-iec", PRESSED, "leg-2", TL_FIELD_FREE_LENGTH, NULL, 120.0, "room.free-length", "none" },
  { "free-length-150", NFPA, "leg-2", TL_FIELD_FREE_LENGTH, NULL, 150.0, "room.free-length", "Sound" },
  { "free-length-149", NFPA, "leg-2", TL_FIELD_FREE_LENGTH, NULL, 149.0, "room.free-length", "Change" },
  { "free-length-opening", NFPA, "site", TL_FIELD_INNER_DEPTH, NULL, 75.0, "room.free-length", "Sound" },
  { "free-length-deep", NFPA, "site", TL_FIELD_INNER_DEPTH, NULL, 80.0, "room.free-length", "Change" },
  /* insulation: rubber 60 degC, IEC 60245-1 (from memory) */
  { "rubber-of-1974", PRESSED, "leg-2", TL_FIELD_INSULATION, "rubber", 0, "heat.insulation", "Watch" },
  { "pvc-of-1974", PRESSED, "leg-2", TL_FIELD_INSULATION, "pvc", 0, "heat.insulation", "none" },
  /* current: IEC 60364-5-52:2009, table B.52.2 and B.52.4, PVC, method B1, 2.5 mm2: copper 24 A, aluminium 18.5 A (seen) */
  { "device-20", BOLTED, "duty", TL_FIELD_DEVICE_RATING, NULL, 20.0, "current.rating", "Change" },
  { "device-16", BOLTED, "duty", TL_FIELD_DEVICE_RATING, NULL, 16.0, "current.rating", "Sound" },
  { "load-19", BOLTED, "duty", TL_FIELD_LOAD, NULL, 19.0, "current.rating", "Unsafe" },
  /* IEC 60364-5-52:2009, table B.52.17: three circuits bunched carry 0.70 (seen): 18.5 A becomes 12.95 A */
  { "bunched", BOLTED, "site", TL_FIELD_CIRCUITS, NULL, 3.0, "current.rating", "Change" },
  { "alone", BOLTED, "site", TL_FIELD_CIRCUITS, NULL, 1.0, "current.rating", "Sound" },
  { "load-above-device", BOLTED, "duty", TL_FIELD_LOAD, NULL, 17.0, "current.load", "Change" },
  /* heat: IEC 60364-5-52, PVC 70 degC; conventional tripping current 1.45 times the rating (from memory) */
  { "cool", PRESSED, "duty", TL_FIELD_LOAD, NULL, 10.0, "heat.hot-spot", "Sound" },
  { "hot", PRESSED, "duty", TL_FIELD_LOAD, NULL, 32.0, "heat.hot-spot", "Unsafe" },
  { "hot-air", PRESSED, "duty", TL_FIELD_AMBIENT, NULL, 69.0, "heat.hot-spot", "Unsafe" },
  { "overload", PRESSED, "duty", TL_FIELD_DEVICE_RATING, NULL, 32.0, "heat.overload", "Change" },
  { "overload-fair", PRESSED, "duty", TL_FIELD_DEVICE_RATING, NULL, 16.0, "heat.overload", "Sound" },
  /* ohm: 20 m of 2.5 mm2 copper at 10 A, 1.25 rho: 3.4 V of 230 V; 200 m: 15 % */
  { "drop-short", BOLTED, "duty", TL_FIELD_EXTENSION, NULL, 20.0, "current.voltage-drop", "Sound" },
  { "drop-long", BOLTED, "duty", TL_FIELD_EXTENSION, NULL, 200.0, "current.voltage-drop", "Watch" },
  { "short-circuit", BOLTED, "duty", TL_FIELD_PROSPECTIVE, NULL, 500.0, "heat.short-circuit", "Sound" },
  { "short-circuit-solder", "soldered-copper-splice", "duty", TL_FIELD_PROSPECTIVE, NULL, 1000.0, "heat.short-circuit", "Unsafe" },
  { "short-circuit-hard", BOLTED, "duty", TL_FIELD_PROSPECTIVE, NULL, 3000.0, "heat.short-circuit", "Unsafe" },
  /* roles */
  { "line-to-neutral", BOLTED, "leg-2", TL_FIELD_ROLE, "neutral", 0, "roles.alike", "Unsafe" },
  { "line-to-protective", BOLTED, "leg-2", TL_FIELD_ROLE, "protective", 0, "roles.alike", "Unsafe" },
  { "needs-protective", BOLTED, "site", TL_FIELD_ACCESSORY_NEEDS_PE, "no", 0, "roles.protective", "none" },
  /* access */
  { "screw-closed", BOLTED, "site", TL_FIELD_ACCESS, "closed", 0, "practice.access", "Change" },
  { "screw-cover", BOLTED, "site", TL_FIELD_ACCESS, "cover", 0, "practice.access", "Watch" },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->example);
  g_autoptr (TlVerdict) verdict = NULL;

  if (c->word != NULL)
    rt_word (&joint, c->owner, c->field, c->word);
  else
    rt_number (&joint, c->owner, c->field, c->value);
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (verdict, c->rule, c->expected);
}

/* How far a washer reaches past the crest of an eye has no limit but the crest: "at least 0 mm" is said of nothing. */
static void
test_margin_at_the_crest (void)
{
  static const struct { const char *example, *says; } rows[] = {
    { "zinc-washer", "past the crest of the eye" },
    { "washer-too-small", "has to reach past the crest of the eye" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TlJoint) joint = rt_example (rows[i].example);
      g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
      g_autofree char *limit = tl_wording_margin_limit (verdict, TL_MARGIN_GRIP, tl_language_plain ());

      g_assert_cmpstr (limit, ==, rows[i].says);
      g_assert_cmpint (verdict->margins[TL_MARGIN_GRIP].value.best < 0.0, ==, i == 1);
    }
}

/* Rubber laid before the year of the table is taken as brittle; without a year it is only watched. */
static void
test_old_rubber (void)
{
  g_autoptr (TlJoint) joint = rt_example (PRESSED);
  g_autoptr (TlVerdict) old = NULL, undated = NULL;
  const TlFinding *finding;

  rt_word (&joint, "leg-2", TL_FIELD_INSULATION, "rubber");
  rt_word (&joint, "leg-1", TL_FIELD_INSULATION, "rubber");
  undated = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  finding = rt_worst (undated, "heat.insulation");
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->severity, ==, TL_SEVERITY_WATCH);
  g_assert_cmpfloat_with_epsilon (g_array_index (finding->figures, TlFigure, 0).value.best, 60.0, 1e-9);
  rt_number (&joint, "leg-2", TL_FIELD_YEAR, 1938.0);
  old = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (old, "heat.insulation", "Change");
}

/* (680 / 2.5)^2 * 0.1 = 148^2 ln ((228 + T) / 298) gives 190 degC for aluminium from 70 degC: over the 160 of PVC, under the
 * 200 of rubber. IEC 60949, IEC 60364-5-54 (from memory). */
static void
test_short_circuit_rubber (void)
{
  g_autoptr (TlJoint) joint = rt_example (BOLTED);
  g_autoptr (TlVerdict) pvc = NULL, rubber = NULL;

  rt_number (&joint, "duty", TL_FIELD_PROSPECTIVE, 680.0);
  pvc = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_word (&joint, "leg-1", TL_FIELD_INSULATION, "rubber");
  rubber = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (pvc, "heat.short-circuit", "Unsafe");
  rt_assert (rubber, "heat.short-circuit", "Sound");
}

/* Both conductors neutral: a joint that opens weighs one step more. */
static void
test_opening_neutral (void)
{
  g_autoptr (TlJoint) joint = rt_example (BOLTED);
  g_autoptr (TlVerdict) closed = NULL, opens = NULL;

  rt_word (&joint, "leg-1", TL_FIELD_ROLE, "neutral");
  rt_word (&joint, "leg-2", TL_FIELD_ROLE, "neutral");
  closed = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_word (&joint, "duty", TL_FIELD_CIRCUIT_OPENS, "yes");
  opens = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (closed, "roles.alike", "none");
  rt_assert (closed, "roles.opening", "Watch");
  rt_assert (opens, "roles.opening", "Change");
}

/* IEC 60364-5-54, combined conductor: 10 mm2 copper, 16 mm2 aluminium (from memory). */
static void
test_combined (void)
{
  g_autoptr (TlJoint) joint = rt_example (BOLTED);
  g_autoptr (TlVerdict) verdict = NULL;

  rt_word (&joint, "leg-1", TL_FIELD_ROLE, "protective-neutral");
  rt_word (&joint, "leg-2", TL_FIELD_ROLE, "protective-neutral");
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (verdict, "roles.combined-section", "Change");
}

static void
test_protective_missing (void)
{
  g_autoptr (TlJoint) joint = rt_example (BOLTED);
  g_autoptr (TlVerdict) unknown = NULL, missing = NULL, present = NULL;

  rt_word (&joint, "site", TL_FIELD_ACCESSORY_NEEDS_PE, "yes");
  unknown = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_word (&joint, "site", TL_FIELD_PE_PRESENT, "no");
  missing = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_word (&joint, "site", TL_FIELD_PE_PRESENT, "yes");
  present = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (unknown, "roles.protective", "none");
  g_assert_cmpuint (unknown->not_computed->len, >, present->not_computed->len);
  rt_assert (missing, "roles.protective", "Unsafe");
  rt_assert (present, "roles.protective", "none");
}

/* The practice decides on the same joint: Watch in the one, Change in the other, both sides cited. */
static void
test_tinned_by_practice (void)
{
  g_autoptr (TlJoint) joint = rt_example (PRESSED);
  g_autoptr (TlVerdict) iec = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL), nfpa = NULL;

  rt_practice (&joint, "nfpa70-style");
  nfpa = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (iec, "practice.sleeve-pair", "Watch");
  rt_assert (nfpa, "practice.sleeve-pair", "Change");
  g_assert_cmpuint (rt_worst (iec, "practice.sleeve-pair")->sources->len, >=, 2);
}

/* The strict practice: the limits of the IEC-style one, and Change where that one says Watch because sources disagree. */
static void
test_strict (void)
{
  g_autoptr (TlJoint) pressed = rt_example (PRESSED), bolted = rt_example (BOLTED);
  g_autoptr (TlVerdict) pair = NULL, ring = NULL, rated = NULL;

  rt_practice (&pressed, "strict");
  pair = tl_verdict_new (pressed, rt_stock (), TL_VERDICT_FULL);
  rt_assert (pair, "practice.sleeve-pair", "Change");
  rt_practice (&bolted, "strict");
  rated = tl_verdict_new (bolted, rt_stock (), TL_VERDICT_FULL);
  rt_assert (rated, "current.rating", "Sound");
  rt_replace (&bolted, "layer-5", "spring-ring-m5-steel");
  ring = tl_verdict_new (bolted, rt_stock (), TL_VERDICT_FULL);
  rt_assert (ring, "grip.spring", "Change");
}

/* A strict document keeps the IEC-style rows that it was judged by. */
static void
test_strict_own_copies (void)
{
  g_autoptr (TlJoint) joint = rt_example (PRESSED), kept = NULL;
  g_autoptr (TlVerdict) first = NULL, again = NULL;
  g_autoptr (TlUsed) used = NULL;
  gboolean of_base = FALSE;

  rt_practice (&joint, "strict");
  first = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  used = tl_verdict_dup_used (first);
  for (guint i = 0; i < used->thresholds->len; i++)
    of_base = of_base || g_str_equal (((const TlTableRow *) used->thresholds->pdata[i])->practice, "iec-style");
  g_assert_true (of_base);
  kept = tl_edit_set_used (joint, used);
  again = tl_verdict_new (kept, rt_stock (), TL_VERDICT_FULL);
  rt_assert (again, "practice.sleeve-pair", "Change");
}

/* What the person marked as forbidden is Unsafe whatever the figures; other ways stay as they were. */
static void
test_forbidden (void)
{
  static const struct
  {
    const char *example, *forbidden, *expected;
  } rows[] = {
    { BOLTED, "bolted-stack", "Unsafe" },   { BOLTED, "pressed-sleeve twist", "none" },
    { BOLTED, "", "none" },                 { PRESSED, "pressed-sleeve", "Unsafe" },
    { PRESSED, "bolted-stack welded", "none" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TlJoint) joint = rt_example (rows[i].example);
      g_autoptr (TlJoint) marked = tl_edit_set_text (joint, "forbidden", rows[i].forbidden, NULL);
      g_autoptr (TlVerdict) verdict = tl_verdict_new (marked, rt_stock (), TL_VERDICT_FULL);

      rt_assert (verdict, "practice.forbidden", rows[i].expected);
    }
}

/* A part of a person's own pack is judged like any other, and travels in the document to a machine without the pack. */
static void
test_own_part_travels (void)
{
  static const char text[] = "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"Van\">"
                             "<material id=\"own-brass\" name=\"red brass\" kind=\"metal\" look=\"brass\">"
                             "<fact field=\"potential-j\" value=\"1000\" unit=\"mV\"/></material>"
                             "<part id=\"own-washer\" kind=\"large-washer\" known-by=\"measured\">"
                             "<fact field=\"outer\" value=\"15\" unit=\"mm\"/><fact field=\"bore\" value=\"5.3\" unit=\"mm\"/>"
                             "<fact field=\"thickness\" value=\"1.5\" unit=\"mm\"/>"
                             "<fact field=\"material\" value=\"own-brass\"/></part></pack>";
  g_autoptr (TlPack) pack = tl_pack_parse (text, strlen (text), "van.xml", NULL);
  g_autoptr (GPtrArray) packs = g_ptr_array_new ();
  g_autoptr (TlStock) stock = NULL;
  g_autoptr (TlJoint) joint = rt_example (BOLTED), own = NULL, kept = NULL, back = NULL;
  g_autoptr (TlVerdict) here = NULL, there = NULL;
  g_autoptr (TlUsed) used = NULL;
  g_autofree char *file = NULL;
  gsize length;

  g_ptr_array_add (packs, pack);
  stock = tl_stock_with_packs (rt_stock (), packs, NULL);
  own = tl_edit_replace_part (joint, stock, "layer-3", "own-washer", NULL);
  g_assert_nonnull (own);
  here = tl_verdict_new (own, stock, TL_VERDICT_FULL);
  used = tl_verdict_dup_used (here);
  kept = tl_edit_set_used (own, used);
  file = tl_joint_to_text (kept, &length);
  back = tl_joint_parse (file, length, "travelled.tinlap", NULL);
  g_assert_nonnull (back);
  there = tl_verdict_new (back, rt_stock (), TL_VERDICT_FULL);
  g_assert_cmpuint (here->findings->len, ==, there->findings->len);
  g_assert_cmpuint (here->not_computed->len, ==, there->not_computed->len);
  g_assert_cmpint (here->severity, ==, there->severity);
  g_assert_cmpint (rt_worst (here, "galvanic.step")->severity, ==, rt_worst (there, "galvanic.step")->severity);
}

/* A terminal is forbidden by its kind; of one whose kind is not entered nobody can say. */
static void
test_forbidden_terminal (void)
{
  static const struct
  {
    TlPartKind kind;
    const char *form, *forbidden, *expected;
  } rows[] = {
    { TL_PART_TERMINAL, "tunnel", "screw-terminal", "Unsafe" },
    { TL_PART_TERMINAL, "saddle", "screw-terminal", "Unsafe" },
    { TL_PART_TERMINAL, "saddle", "spring-terminal branch-connector", "none" },
    { TL_PART_TERMINAL, "leaf-spring", "spring-terminal", "Unsafe" },
    { TL_PART_TERMINAL, "cage-spring", "spring-terminal", "Unsafe" },
    { TL_PART_TERMINAL, "device", "device-terminal", "Unsafe" },
    { TL_PART_TERMINAL, "device", "screw-terminal", "none" },
    { TL_PART_BRANCH, "clamp", "branch-connector", "Unsafe" },
    { TL_PART_TERMINAL, NULL, "branch-connector", "none" },
  };
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_auto (TlSeat) seat = tl_seat_stack (0);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TlJoint) empty = tl_joint_new ();
      g_autoptr (TlJoint) marked = tl_edit_set_text (empty, "forbidden", rows[i].forbidden, NULL);
      g_autoptr (TlFacts) facts = rows[i].form != NULL
                                      ? tl_facts_with_word (none, TL_FIELD_TERMINAL_FORM, rows[i].form, TL_KNOWN_STATED)
                                      : tl_facts_ref (none);
      g_autoptr (TlJoint) joint = tl_edit_add_own_layer (marked, rows[i].kind, facts, &seat, NULL, NULL);
      g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);

      rt_assert (verdict, "practice.forbidden", rows[i].expected);
    }
}

static void
test_forbidden_unknown_terminal (void)
{
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_auto (TlSeat) seat = tl_seat_stack (0);
  g_autoptr (TlJoint) empty = tl_joint_new ();
  g_autoptr (TlJoint) marked = tl_edit_set_text (empty, "forbidden", "spring-terminal", NULL);
  g_autoptr (TlJoint) joint = tl_edit_add_own_layer (marked, TL_PART_TERMINAL, none, &seat, NULL, NULL);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  gboolean told = FALSE;

  for (guint i = 0; i < verdict->not_computed->len; i++)
    {
      const TlNotComputed *row = &g_array_index (verdict->not_computed, TlNotComputed, i);

      told = told || (g_str_equal (row->rule->id, "practice.forbidden") && row->field == TL_FIELD_TERMINAL_FORM);
    }
  g_assert_true (told);
}

/* Where published sources disagree, both sides stand among the sources of the finding that turns on it, each source once; each
 * question of the table of disputes has such a finding. */
static void
test_disputes (void)
{
  static const struct
  {
    const char *example, *ring, *rule, *question;
  } turns[] = {
    { "bolted-as-it-should-be", "spring-ring-m5-steel", "grip.spring", "split-spring-ring" },
    { "screw-terminal-dipped-tail", NULL, "grip.dipped-end", "solder-under-pressure" },
    { "socket-circuit-weaving-floor", NULL, "practice.sleeve-pair", "tinned-copper-aluminium" },
    { "screw-terminal-tunnel", NULL, "galvanic.step", "nickel-on-aluminium" },
    { "stainless-between", NULL, "galvanic.disputed", "stainless-on-aluminium" },
  };
  const TlTable *table = tl_stock_table (rt_stock (), "disputes");
  g_autoptr (TlJoint) twist = rt_example ("twist-of-unlike-metals");
  g_autoptr (TlVerdict) bare = tl_verdict_new (twist, rt_stock (), TL_VERDICT_FULL);
  guint          n_told = 0;

  for (guint i = 0; i < G_N_ELEMENTS (turns); i++)
    {
      TlJoint *joint = rt_example (turns[i].example);
      g_autoptr (TlVerdict) verdict = NULL;
      g_autoptr (GPtrArray) rows = NULL;
      g_autofree char *sources = NULL;
      const TlFinding *finding = NULL;
      gboolean         has_for = FALSE, has_against = FALSE;

      g_test_message ("%s", turns[i].question);
      if (turns[i].ring != NULL)
        rt_replace (&joint, "layer-5", turns[i].ring);
      verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
      tl_joint_unref (joint);
      for (guint k = 0; k < verdict->findings->len && finding == NULL; k++)
        {
          const TlFinding *each = g_ptr_array_index (verdict->findings, k);

          if (strcmp (each->rule->id, turns[i].rule) == 0
              && g_strcmp0 (each->dispute, turns[i].question) == 0)
            finding = each;
        }
      g_assert_nonnull (finding);
      sources = tl_wording_sources (verdict, finding, tl_language_plain ());
      rows = tl_finding_disputes (finding, rt_stock ());
      g_assert_cmpuint (rows->len, >=, 2);
      for (guint k = 0; k < rows->len; k++)
        {
          const TlTableRow *row = g_ptr_array_index (rows, k);
          gboolean          is_for = strcmp (tl_table_word (table, row, "side"), "for") == 0;
          g_autofree char  *line =
              g_strconcat (is_for ? "\nDisputed, for it: " : "\nDisputed, against it: ",
                           tl_table_word (table, row, "text"), NULL);
          g_autofree char *cited =
              tl_source_citation (rt_stock (), row->source, row->known_by, tl_language_plain ());

          has_for |= is_for;
          has_against |= !is_for;
          g_assert_nonnull (strstr (sources, line));
          g_assert_nonnull (strstr (strstr (sources, line), cited));
        }
      g_assert_true (has_for && has_against);
      n_told += rows->len;
    }
  g_assert_cmpuint (n_told, ==, table->rows->len);
  /* No coat, no dispute about it. */
  g_assert_null (rt_worst (bare, "practice.unlike-direct")->dispute);
}

/* A split ring is credited with nothing, a conical washer beside it changes that. */
static void
test_split_ring (void)
{
  g_autoptr (TlJoint) joint = rt_example (BOLTED);
  g_autoptr (TlVerdict) verdict = NULL;

  rt_replace (&joint, "layer-5", "spring-ring-m5-steel");
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (verdict, "grip.spring", "Watch");
  g_assert_nonnull (rt_worst (verdict, "grip.spring")->mend);
}

/* A conical washer straight on the eye cuts into it. */
static void
test_washer_order (void)
{
  g_autoptr (TlJoint) joint = rt_example (BOLTED);
  g_autoptr (TlVerdict) verdict = NULL;

  rt_remove (&joint, "layer-4");
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (verdict, "grip.washer-order", "Change");
}

/* NFPA 70, 314.16(B): 2.25 in3 for each 12 AWG (seen); four conductors in a box of 6.4 in3 count 9 in3. */
static void
test_fill_by_practice (void)
{
  g_autoptr (TlJoint) joint = rt_example ("socket-circuit-nfpa70");
  g_autoptr (TlVerdict) verdict = NULL, compared = NULL;
  const TlFinding *finding;
  double total = 0.0;

  rt_number (&joint, "site", TL_FIELD_SAME_JOINTS, 1.0);
  rt_number (&joint, "site", TL_FIELD_VOLUME, 105.0);
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  finding = rt_worst (verdict, "room.fill");
  g_assert_nonnull (finding);
  total = g_array_index (finding->figures, TlFigure, 0).value.best;
  g_assert_cmpfloat_with_epsilon (total, 9.0 * 16.387064, 1e-6);
  rt_assert (verdict, "room.fill", "Change");
  rt_practice (&joint, "iec-style");
  compared = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (compared, "room.fill", "Watch");
}

/* Nothing is Sound while a rule that applies was not computed. */
static void
test_never_sound_unless_computed (void)
{
  g_autoptr (TlJoint) joint = rt_example (CABLE);
  g_autoptr (TlVerdict) whole = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL), lacking = NULL;

  g_assert_cmpuint (whole->not_computed->len, ==, 0);
  g_assert_cmpint (whole->severity, ==, TL_SEVERITY_SOUND);
  rt_word (&joint, "leg-1", TL_FIELD_INSULATION, "rubber");
  lacking = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  g_assert_cmpuint (lacking->not_computed->len, >, 0);
  g_assert_cmpint (lacking->severity, >=, TL_SEVERITY_WATCH);
}

/* A joint that was measured is judged by the measurement, and is of class A. */
static void
test_measured (void)
{
  g_autoptr (TlJoint) joint = rt_example (PRESSED);
  g_autoptr (TlVerdict) good = NULL, bad = NULL;
  const TlFinding *finding;

  rt_number (&joint, "duty", TL_FIELD_JOINT_RESISTANCE, 200.0);
  good = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  finding = rt_worst (good, "heat.against-conductor");
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->trust, ==, TL_TRUST_A);
  g_assert_cmpfloat_with_epsilon (g_array_index (finding->figures, TlFigure, 0).value.best, 200.0, 1.0);
  rt_number (&joint, "duty", TL_FIELD_JOINT_RESISTANCE, 5000.0);
  bad = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (bad, "heat.against-conductor", "Change");
}

/* The layer of a part of two metals, 30 years at the temperature that the finding tells: parabolic with 4.992 um2/h at
 * 350 degC (2 to 50 um in 500 h, Cu/Al joints study, Materials Research, seen) and 107.9 kJ/mol (roll-bonded sheet, seen);
 * limit 2 um (Braunovic and Alexandrov 1994, seen). Pressed metals have none. */
static void
test_bonded_layer (void)
{
  g_autoptr (TlJoint) joint = rt_example ("bimetal-sleeve"), pressed = rt_example (PRESSED);
  g_autoptr (TlVerdict) cool = NULL, hot = NULL;
  g_autoptr (TlVerdict) none = tl_verdict_new (pressed, rt_stock (), TL_VERDICT_FULL);
  const TlFinding *finding;
  const TlFigure  *layer, *at;
  double           rate;

  rt_word (&joint, "duty", TL_FIELD_PATTERN, "continuous");
  cool = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  finding = rt_worst (cool, "heat.bonded-layer");
  g_assert_null (rt_worst (none, "heat.bonded-layer"));
  rt_assert (cool, "heat.bonded-layer", "Sound");
  layer = &g_array_index (finding->figures, TlFigure, 0);
  at = &g_array_index (finding->figures, TlFigure, 2);
  rate = 4.992 * exp (-107.9e3 / 8.314462618 * (1.0 / (at->value.best + 273.15) - 1.0 / 623.15));
  g_assert_cmpfloat_with_epsilon (layer->value.best, sqrt (rate * 8766.0 * 30.0), 1e-6);
  g_assert_cmpfloat (layer->value.high, >, 3.16 * layer->value.best);
  g_assert_cmpfloat (layer->value.low, <, layer->value.best);
  g_assert_cmpint (finding->trust, ==, TL_TRUST_I);

  rt_number (&joint, "duty", TL_FIELD_LOAD, 140.0);
  hot = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  rt_assert (hot, "heat.bonded-layer", "Watch"); /* an indication: never worse */
}

/* An empty joint is Unfinished and says what is missing; nothing crashes. */
static void
test_empty (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);

  g_assert_cmpstr (tl_verdict_word (verdict), ==, "Unfinished");
  g_assert_cmpuint (verdict->unfinished->len, >, 0);
  for (guint i = 0; i < verdict->unfinished->len; i++)
    {
      g_autofree char *text = tl_wording_problem (verdict->assembly, &g_array_index (verdict->unfinished, TlProblem, i),
                                                  tl_language_plain ());

      g_assert_null (g_strstr_len (text, -1, "{"));
    }
}

/* Rule ids are "concern.what", once each, with a source that exists. */
static void
test_rule_ids (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint count;
  const TlRule *const *rules = tl_rules_all (&count);

  for (guint i = 0; i < count; i++)
    {
      g_autofree char *prefix = g_strconcat (tl_concern_word (rules[i]->concern), ".", NULL);

      g_assert_true (g_hash_table_add (seen, (gpointer) rules[i]->id));
      g_assert_nonnull (tl_stock_source (rt_stock (), rules[i]->source));
      g_assert_cmpuint (strlen (rules[i]->title), >, 3);
      g_assert_true (g_str_has_prefix (rules[i]->id, prefix) || g_str_equal (rules[i]->id, "room.stub"));
    }
}

/* Every source that a finding cites is in data/sources.xml. */
static void
test_sources_exist (void)
{
  for (guint c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (TlJoint) joint = rt_example (cases[c].example);
      g_autoptr (TlVerdict) verdict = NULL;

      if (cases[c].word != NULL)
        rt_word (&joint, cases[c].owner, cases[c].field, cases[c].word);
      else
        rt_number (&joint, cases[c].owner, cases[c].field, cases[c].value);
      verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
      for (guint i = 0; i < verdict->findings->len; i++)
        {
          const TlFinding *finding = verdict->findings->pdata[i];

          g_assert_nonnull (tl_stock_source (rt_stock (), finding->source));
          for (guint k = 0; k < finding->sources->len; k++)
            g_assert_nonnull (tl_stock_source (rt_stock (), finding->sources->pdata[k]));
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/concerns/", cases[i].rule, "/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/concerns/opening-neutral", test_opening_neutral);
  g_test_add_func ("/concerns/margin-at-the-crest", test_margin_at_the_crest);
  g_test_add_func ("/concerns/old-rubber", test_old_rubber);
  g_test_add_func ("/concerns/short-circuit-rubber", test_short_circuit_rubber);
  g_test_add_func ("/concerns/combined", test_combined);
  g_test_add_func ("/concerns/protective-missing", test_protective_missing);
  g_test_add_func ("/concerns/tinned-by-practice", test_tinned_by_practice);
  g_test_add_func ("/concerns/strict", test_strict);
  g_test_add_func ("/concerns/strict-own-copies", test_strict_own_copies);
  g_test_add_func ("/concerns/own-part-travels", test_own_part_travels);
  g_test_add_func ("/concerns/forbidden", test_forbidden);
  g_test_add_func ("/concerns/forbidden-terminal", test_forbidden_terminal);
  g_test_add_func ("/concerns/forbidden-unknown-terminal", test_forbidden_unknown_terminal);
  g_test_add_func ("/concerns/split-ring", test_split_ring);
  g_test_add_func ("/concerns/disputes", test_disputes);
  g_test_add_func ("/concerns/washer-order", test_washer_order);
  g_test_add_func ("/concerns/fill-by-practice", test_fill_by_practice);
  g_test_add_func ("/concerns/never-sound-unless-computed", test_never_sound_unless_computed);
  g_test_add_func ("/concerns/measured", test_measured);
  g_test_add_func ("/concerns/bonded-layer", test_bonded_layer);
  g_test_add_func ("/concerns/empty", test_empty);
  g_test_add_func ("/concerns/rule-ids", test_rule_ids);
  g_test_add_func ("/concerns/sources-exist", test_sources_exist);
  return g_test_run ();
}
