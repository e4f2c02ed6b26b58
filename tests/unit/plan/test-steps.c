/* test-steps.c: order, figures and prohibitions of the step sheet.
 *
 * The order is common practice, no source; figures name theirs. What is never printed comes from the project's
 * own rules on caution.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan-test.h"

#include "base/quantity.h"
#include "joint/edit.h"

#include <string.h>

#define PRESSED "socket-circuit-weaving-floor"
#define BOLTED "bolted-as-it-should-be"
#define REFUSED "copper-on-aluminium"
#define CHANGE "no-spring-washer"

static TlStepSheet *
sheet_of (TlJoint *joint)
{
  g_autoptr (TlVerdict) verdict = pt_judge (joint);

  return tl_steps_new (verdict, NULL, tl_language_plain ());
}

static gint
position (const TlStepSheet *sheet, const char *id)
{
  for (guint i = 0; i < sheet->steps->len; i++)
    if (strcmp (((TlStep *) g_ptr_array_index (sheet->steps, i))->id, id) == 0)
      return (gint) i;
  return -1;
}

static const TlStep *
step_of (const TlStepSheet *sheet, const char *id)
{
  gint at = position (sheet, id);

  g_assert_cmpint (at, >=, 0);
  return g_ptr_array_index (sheet->steps, at);
}

static const char *
figure_of (const TlStep *step, const char *label)
{
  for (guint i = 0; i < step->figures->len; i++)
    {
      const TlLine *line = g_ptr_array_index (step->figures, i);

      if (strcmp (line->label, label) == 0)
        return line->value;
    }
  return NULL;
}

/* All of @ids stand in the sheet, in that order. */
static void
assert_order (const TlStepSheet *sheet, const char *const *ids)
{
  gint before = -1;

  for (guint i = 0; ids[i] != NULL; i++)
    {
      gint at = position (sheet, ids[i]);

      if (at <= before)
        g_error ("step “%s” stands at %d, after %d is wanted", ids[i], at, before);
      before = at;
    }
}

/* --- order --- */

static void
test_order_pressed (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (PRESSED));
  static const char *const ids[] = {
    "slide-seal", "strip",     "compound",        "brush-compound",  "hold-bright", "insert",
    "press",      "hold-size", "deburr",          "hold-resistance", "centre-seal", "shrink",
    "cool",       "hold-bead", "hold-insulation", "dress",           "close",       "hold-warm",
    NULL
  };

  g_assert_cmpint (sheet->state, ==, TL_SHEET_STEPS);
  assert_order (sheet, ids);
  /* A sample is pulled apart before anything is pressed in the box. */
  g_assert_cmpint (position (sheet, "hold-sample"), <, position (sheet, "press"));
}

static void
test_order_bolted (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (BOLTED));
  static const char *const ids[] = { "strip",          "form-eye",    "brush-copper",    "compound",
                                     "brush-compound", "hold-bright", "stack",           "tighten",
                                     "witness",        "hold-clamp",  "hold-insulation", "dress",
                                     "close",          NULL };

  g_assert_cmpint (sheet->state, ==, TL_SHEET_STEPS);
  assert_order (sheet, ids);
}

/* The document's own order of acts may be wrong; the sheet's is not. */
static void
test_order_of_acts (void)
{
  static const char *const acts[] = { "brush-compound", "tin", "flux", "degrease", "strip", NULL };
  static const char *const ids[] = { "strip",      "degrease", "flux",     "tin",
                                     "clean-flux", "cool-tin", "compound", "brush-compound",
                                     "insert",     NULL };
  g_autoptr (TlJoint) joint = pt_example (PRESSED);
  g_autoptr (GError) error = NULL;
  TlJoint *edited = tl_edit_set_preparation (joint, "leg-2", acts, &error);
  g_autoptr (TlVerdict) verdict = NULL;
  g_autoptr (TlStepSheet) sheet = NULL;

  g_assert_no_error (error);
  verdict = pt_judge (edited);
  sheet = tl_steps_new (verdict, NULL, tl_language_plain ());
  g_assert_cmpint (sheet->state, !=, TL_SHEET_REFUSED);
  assert_order (sheet, ids);
}

/* Hot solder cracks along the strands: an end that was tinned is cold before its eye is bent. */
static void
test_cool_before_bending (void)
{
  static const char *const acts[] = { "form-eye", "tin", "flux", "strip", NULL };
  static const char *const ids[] = { "strip",    "flux",     "tin",   "clean-flux",
                                     "cool-tin", "form-eye", "stack", NULL };
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  g_autoptr (GError) error = NULL;
  TlJoint *edited = tl_edit_set_preparation (joint, "leg-2", acts, &error);
  g_autoptr (TlVerdict) verdict = NULL;
  g_autoptr (TlStepSheet) sheet = NULL;

  g_assert_no_error (error);
  verdict = pt_judge (edited);
  sheet = tl_steps_new (verdict, NULL, tl_language_plain ());
  assert_order (sheet, ids);
}

/* The best example of every family, and what must stand before what in it. Common practice, no source. */
#define BEGIN "strip", "compound", "brush-compound"
#define END "hold-insulation", "dress", "picture", "close", "hold-warm", NULL

static const struct
{
  const char *example;
  const char *ids[24];
} orders[] = {
  { "bolted-as-it-should-be",
    { "strip", "form-eye", "compound", "brush-compound", "stack", "tighten", "witness", END } },
  { "lift-feed-aluminium",
    { "slide-seal", BEGIN, "insert", "press", "deburr", "shrink", "cool", END } },
  { "socket-circuit-weaving-floor",
    { "slide-seal", BEGIN, "insert", "press", "deburr", "shrink", "cool", END } },
  { "bimetal-sleeve", { "slide-seal", BEGIN, "insert", "press", "deburr", "shrink", "cool", END } },
  { "lugs-bolted", { BEGIN, "press-on", "stack", "tighten", "witness", END } },
  { "bimetal-lug", { BEGIN, "press-on", "stack", "tighten", "witness", END } },
  { "bimetal-washer", { BEGIN, "press-on", "stack", "tighten", "witness", END } },
  { "screw-terminal-plated", { BEGIN, "insert", "tighten", "hold-tug", END } },
  { "screw-terminal-tunnel", { BEGIN, "insert", "tighten", "hold-tug", END } },
  { "spring-terminal-marked", { BEGIN, "insert", "hold-tug", END } },
  { "spring-terminal-cage", { BEGIN, "insert", "hold-tug", END } },
  { "branch-clamp", { BEGIN, "insert", "tighten", "hold-tug", END } },
  { "socket-terminal", { BEGIN, "insert", "tighten", "hold-tug", END } },
  { "soldered-copper-splice",
    { "slide-seal", "strip", "flux", "tin", "clean-flux", "cool-tin", "lay", "solder",
      "clean-splice", "hold-resistance", "shrink", "cool", END } },
  { "welded-copper-splice",
    { "slide-seal", "strip", "lay", "weld", "hold-resistance", "shrink", "cool", END } },
};

static void
test_order_of_families (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (orders[i].example));

      g_test_message ("%s", orders[i].example);
      for (guint k = 0; k < sheet->steps->len; k++)
        g_test_message ("  %s", ((TlStep *) g_ptr_array_index (sheet->steps, k))->id);
      g_assert_cmpint (sheet->state, ==, TL_SHEET_STEPS);
      assert_order (sheet, orders[i].ids);
    }
}

/* A bare twist is shown as what it is: nobody is told to solder what the drawing does not solder. */
static void
test_twist (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example ("twist-of-copper"));

  g_assert_cmpint (sheet->state, !=, TL_SHEET_STEPS);
  g_assert_cmpint (position (sheet, "solder"), <, 0);
  g_assert_cmpint (position (sheet, "weld"), <, 0);
}

/* A ferrule is pressed on before its leg goes into anything. */
static void
test_ferrule (void)
{
  static const char *const ids[] = { "strip", "press-on", "insert", NULL };
  g_autoptr (TlJoint) joint = pt_example (PRESSED);
  g_auto (TlSeat) seat = tl_seat_on ("leg-1");
  g_autoptr (GError) error = NULL;
  TlJoint *edited = tl_edit_add_own_layer (joint, TL_PART_FERRULE, NULL, &seat, NULL, &error);
  g_autoptr (TlVerdict) verdict = NULL;
  g_autoptr (TlStepSheet) sheet = NULL;

  g_assert_no_error (error);
  verdict = pt_judge (edited);
  /* The order is asked for, not whether a ferrule is wise here. */
  verdict->has_severity = TRUE;
  verdict->severity = TL_SEVERITY_WATCH;
  g_array_set_size (verdict->unfinished, 0);
  sheet = tl_steps_new (verdict, NULL, tl_language_plain ());
  assert_order (sheet, ids);
}

static void
test_numbers (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint n = 0; n < names->len; n++)
    {
      g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (g_ptr_array_index (names, n)));
      guint number = 0, letter = 0;

      for (guint i = 0; i < sheet->steps->len; i++)
        {
          const TlStep *step = g_ptr_array_index (sheet->steps, i);

          g_assert_cmpstr (step->text, !=, "");
          g_assert_null (strchr (step->text, '{'));
          if (step->is_hold)
            {
              g_assert_cmpuint ((guint) *step->letter, ==, 'A' + letter++);
              g_assert_cmpuint (step->number, ==, 0);
              g_assert_cmpstr (step->if_not, !=, "");
            }
          else
            g_assert_cmpuint (step->number, ==, ++number);
        }
    }
}

/* A brush that has touched copper never touches aluminium: two brushes lie ready. Common practice, no source. */
static void
test_own_brushes (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (BOLTED));
  guint copper = 0, aluminium = 0;

  for (guint i = 0; i < sheet->tools->len; i++)
    {
      const char *tool = ((TlLine *) g_ptr_array_index (sheet->tools, i))->label;

      copper += strstr (tool, "brush kept for copper") != NULL;
      aluminium += strstr (tool, "brush kept for aluminium") != NULL;
    }
  g_assert_cmpuint (copper, ==, 1);
  g_assert_cmpuint (aluminium, ==, 1);
  g_assert_nonnull (strstr (step_of (sheet, "brush-compound")->text, "kept for aluminium"));
  g_assert_nonnull (strstr (step_of (sheet, "brush-copper")->text, "kept for copper"));
}

/* --- figures --- */

/* IEC 61238-1: 60 N for each mm² of copper, 40 N of aluminium (seen in a reprint). */
static void
test_bench_sample (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example (PRESSED));
  g_autoptr (TlStepSheet) sheet = tl_steps_new (verdict, NULL, tl_language_plain ());
  const TlStep *step = step_of (sheet, "hold-sample");
  static const struct
  {
    const char *leg;
    double      force_N;
  } cases[] = { { "leg-1", 60.0 * 2.5 }, { "leg-2", 40.0 * 2.5 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *label = g_strdup_printf (
          "holds at least (%u)", tl_assembly_number (verdict->assembly, cases[i].leg));
      g_autofree char *wanted = tl_quantity_format (cases[i].force_N, "N", tl_language_plain ());

      g_assert_cmpstr (figure_of (step, label), ==, wanted);
    }
  g_assert_nonnull (strstr (step->text, "at the bench"));
}

/* The gauge's tolerance keeps the pressed area, by the registry's own hexagon, within the stated share. */
static void
test_size_tolerance (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (PRESSED));
  const char *figure = figure_of (step_of (sheet, "hold-size"), "across flats");
  g_auto (GStrv) fields = g_strsplit (figure, " ± ", 2);
  double      width_mm, tolerance_mm, area[2];
  TlThreshold share;

  g_assert_true (tl_quantity_parse (fields[0], "mm", &width_mm, NULL));
  g_assert_true (tl_quantity_parse (fields[1], "mm", &tolerance_mm, NULL));
  g_assert_true (
      tl_stock_threshold (pt_stock (), "iec-style", "steps.press-area-tolerance", &share));
  for (guint i = 0; i < 2; i++)
    {
      TlCall call;

      tl_call_init (&call, "hexagon-area");
      tl_call_set_exact (&call, "width", width_mm + i * tolerance_mm);
      tl_call_set_word (&call, "across", "flats");
      g_assert_true (tl_call_run (&call, NULL));
      area[i] = tl_call_get (&call, "area").best;
    }
  g_assert_cmpfloat (area[1] / area[0], <=, 1.0 + share.value);
  g_assert_cmpfloat (area[1] / area[0], >, 1.0 + 0.8 * share.value);
}

/* IEC 60364-6, Table 6A: 500 V d.c. and 1 MΩ for circuits up to 500 V (from memory). */
static void
test_insulation (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (BOLTED));
  const TlStep    *step = step_of (sheet, "hold-insulation");
  g_autofree char *voltage = tl_quantity_format (500.0, "V", tl_language_plain ());
  g_autofree char *least = tl_quantity_format (1.0, "Mohm", tl_language_plain ());

  g_assert_cmpstr (figure_of (step, "test voltage, d.c."), ==, voltage);
  g_assert_cmpstr (figure_of (step, "at least"), ==, least);
  g_assert_nonnull (strstr (step->text, "still dead"));
}

static void
test_language (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example (PRESSED));
  g_autoptr (TlLanguage) german = tl_language_new ("de", TL_UNITS_METRIC);
  g_autoptr (TlStepSheet) sheet = tl_steps_new (verdict, NULL, german);
  g_autofree char *text = tl_steps_to_text (sheet, german);
  g_autofree char *section = tl_quantity_format (2.5, "mm2", german);

  g_assert_true (g_str_has_prefix (section, "2,5"));
  g_assert_nonnull (strstr (text, section));
}

/* --- parts --- */

static void
test_parts (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint n = 0; n < names->len; n++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (g_ptr_array_index (names, n)));
      g_autoptr (TlStepSheet) sheet = tl_steps_new (verdict, NULL, tl_language_plain ());
      g_autofree guint *seen = g_new0 (guint, verdict->assembly->order->len + 1);

      for (guint i = 0; i < sheet->parts->len; i++)
        {
          const TlPartLine *part = g_ptr_array_index (sheet->parts, i);

          g_assert_cmpuint (part->number, <=, verdict->assembly->order->len);
          g_assert_cmpstr (part->name, !=, "");
          seen[part->number]++;
        }
      for (guint i = 1; i <= verdict->assembly->order->len; i++)
        g_assert_cmpuint (seen[i], ==, 1);
    }
}

/* A box whose inside is not entered stands there by the size that it is sold by. */
static void
test_box_size (void)
{
  g_autoptr (TlJoint) joint = pt_example (PRESSED);
  TlJoint          *without = joint;
  const TlPartLine *box;
  g_autoptr (TlStepSheet) sheet = NULL;
  static const TlField inside[] = { TL_FIELD_INNER_WIDTH, TL_FIELD_INNER_HEIGHT,
                                    TL_FIELD_INNER_DEPTH };

  for (guint i = 0; i < G_N_ELEMENTS (inside); i++)
    {
      without = tl_edit_unset_fact (joint, "site", inside[i], NULL);
      if (without == NULL)
        continue;
      tl_joint_unref (joint);
      joint = without;
    }
  without = tl_edit_set_text (joint, "box", "box-surface-85", NULL);
  g_assert_nonnull (without);
  sheet = sheet_of (without);
  box = g_ptr_array_index (sheet->parts, sheet->parts->len - 1);
  g_assert_cmpstr (box->size, ==, "85 × 85 × 40 mm");
}

/* --- where no joint can be made --- */

static void
number_fact (TlJoint **joint, const char *owner, TlField field, double value)
{
  TlFact fact = { .field = field, .known_by = TL_KNOWN_MEASURED, .value = tl_range_exact (value) };
  g_autoptr (GError) error = NULL;
  TlJoint *next = tl_edit_set_fact (*joint, owner, &fact, &error);

  g_assert_no_error (error);
  tl_joint_unref (*joint);
  *joint = next;
}

static void
word_fact (TlJoint **joint, const char *owner, TlField field, const char *word)
{
  TlFact fact = { .field = field, .known_by = TL_KNOWN_STATED, .word = (char *) word };
  g_autoptr (GError) error = NULL;
  TlJoint *next = tl_edit_set_fact (*joint, owner, &fact, &error);

  g_assert_no_error (error);
  tl_joint_unref (*joint);
  *joint = next;
}

static gboolean
says (const TlStepSheet *sheet, const char *words)
{
  for (guint i = 0; i < sheet->instead->len; i++)
    if (strstr (g_ptr_array_index (sheet->instead, i), words) != NULL)
      return TRUE;
  return FALSE;
}

/* What every such half page names: the state that the circuit is left in, ways out, whom to call. */
static void
assert_half_page (const TlStepSheet *sheet)
{
  static const char *const wanted[] = {
    "locked and tagged", "No makeshift joint",        "Move the joint to the next box",
    "through terminals", "replace the run in copper", "licensed electrician"
  };

  g_assert_true (sheet->no_joint);
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    g_assert_true (says (sheet, wanted[i]));
}

static void
test_no_joint (void)
{
  TlJoint *broken = pt_example (PRESSED), *short_stub = pt_example ("stub-too-short"),
          *sound = pt_example (PRESSED);
  g_autoptr (TlStepSheet) refused = NULL, changed = NULL, good = NULL,
                          unfinished = sheet_of (pt_unfinished ());
  g_autofree char *text = NULL;

  number_fact (&broken, "leg-2", TL_FIELD_FREE_LENGTH, 15.0);
  refused = sheet_of (broken);
  g_assert_cmpint (refused->state, ==, TL_SHEET_REFUSED);
  assert_half_page (refused);
  /* 30 mm strip, 40 mm head, 30 mm for one more strip: the limit of room.stub */
  g_assert_true (says (refused, "open the chase until 100\u202fmm")
                 || says (refused, "open the chase until 100 mm"));
  g_assert_false (says (refused, "Box too small"));
  text = tl_steps_to_text (refused, tl_language_plain ());
  g_assert_nonnull (strstr (text, "No joint recommended"));

  changed = sheet_of (short_stub);
  g_assert_cmpint (changed->state, ==, TL_SHEET_CHANGE);
  assert_half_page (changed);

  good = sheet_of (sound);
  g_assert_false (good->no_joint);
  g_assert_cmpuint (good->instead->len, ==, 0);
  g_assert_false (unfinished->no_joint);
  g_assert_true (says (unfinished, "until the joint is drawn anew"));
}

static void
test_no_joint_in_box (void)
{
  TlJoint *joint = pt_example ("three-joints-in-a-small-box");
  g_autoptr (TlStepSheet) sheet = sheet_of (joint);

  assert_half_page (sheet);
  g_assert_true (says (sheet, "Box too small"));
  g_assert_false (says (sheet, "open the chase"));
}

/* Rubber is tried before it is stripped, and shielded before any heat. */
static void
test_rubber (void)
{
  TlJoint *joint = pt_example (PRESSED), *old = NULL;
  g_autoptr (TlStepSheet) plain = sheet_of (pt_example (PRESSED)), sheet = NULL, brittle = NULL;

  g_assert_cmpint (position (plain, "shield"), ==, -1);
  g_assert_cmpint (position (plain, "hold-rubber"), ==, -1);
  word_fact (&joint, "leg-2", TL_FIELD_INSULATION, "rubber");
  old = tl_joint_ref (joint);
  sheet = sheet_of (joint);
  g_assert_cmpint (position (sheet, "hold-rubber"), >=, 0);
  g_assert_cmpint (position (sheet, "hold-rubber"), <, position (sheet, "strip"));
  g_assert_cmpint (position (sheet, "shield"), ==, position (sheet, "shrink") - 1);
  g_assert_false (sheet->no_joint);
  number_fact (&old, "leg-2", TL_FIELD_YEAR, 1938.0);
  brittle = sheet_of (old);
  assert_half_page (brittle);
  g_assert_true (says (brittle, "cracks or crumbles"));
}

/* --- what is never printed --- */

static void
assert_refused (TlJoint *joint)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (joint);
  g_autofree char *text = tl_steps_to_text (sheet, tl_language_plain ());

  g_assert_cmpint (sheet->state, ==, TL_SHEET_REFUSED);
  g_assert_cmpuint (sheet->steps->len, ==, 0);
  g_assert_cmpuint (sheet->tools->len, ==, 0);
  g_assert_cmpuint (sheet->refusals->len, >, 0);
  g_assert_cmpuint (sheet->instead->len, >, 0);
  g_assert_nonnull (strstr (text, "Not to be made as drawn"));
  g_assert_nonnull (strstr (text, "What to do instead"));
  g_assert_null (strstr (text, "] 1 "));
  g_assert_null (strstr (text, "HOLD"));
}

static void
test_refused (void)
{
  assert_refused (pt_example (REFUSED));
  assert_refused (pt_unfinished ());
  assert_refused (tl_joint_new ());
}

static void
test_change (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (CHANGE));
  g_autofree char *text = tl_steps_to_text (sheet, tl_language_plain ());

  g_assert_cmpint (sheet->state, ==, TL_SHEET_CHANGE);
  g_assert_cmpstr (sheet->banner, ==, "To be changed before it is made");
  g_assert_nonnull (strstr (text, "To be changed before it is made"));
  g_assert_nonnull (strstr (text, "Mend: "));
}

static void
test_fault_example (void)
{
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  g_autoptr (GError) error = NULL;
  TlJoint *edited = tl_edit_set_text (joint, "fault-example", "yes", &error);
  g_autoptr (TlStepSheet) sheet = NULL;
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  sheet = sheet_of (edited);
  text = tl_steps_to_text (sheet, tl_language_plain ());
  g_assert_true (sheet->fault_example);
  g_assert_nonnull (strstr (text, "Example of a fault"));
}

/* Words that promise what no drawing can promise, and orders that do harm. */
static const char *const forbidden[] = {
  "guarantee",    "maintenance-free", "no need to test", "complies",         "is safe",
  "safe to",      "retighten",        "re-tighten",      "tighten it again", "test live",
  "open it live", "pull it until",    "naked flame is",
};

static void
test_forbidden (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint n = 0; n < names->len; n++)
    {
      g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (g_ptr_array_index (names, n)));
      g_autofree char *text = tl_steps_to_text (sheet, tl_language_plain ());
      g_autofree char *lower = g_utf8_strdown (text, -1);

      for (guint i = 0; i < G_N_ELEMENTS (forbidden); i++)
        if (strstr (lower, forbidden[i]) != NULL)
          g_error ("“%s” stands in %s", forbidden[i], (char *) g_ptr_array_index (names, n));
      g_assert_nonnull (
          strstr (text, "This joint only; the other old joints of the circuit are not judged."));
      g_assert_nonnull (strstr (text, "Prove dead with a two-pole tester"));
    }
}

/* No torque on a wire eye without the word estimate. */
static void
test_torque_is_estimate (void)
{
  g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (BOLTED));
  const TlStep    *step = step_of (sheet, "tighten");
  g_autofree char *text = tl_steps_to_text (sheet, tl_language_plain ());
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  guint torques = 0;

  g_assert_nonnull (strstr (step->text, "Hold the bolt"));
  g_assert_nonnull (figure_of (step, "torque"));
  for (guint i = 0; lines[i] != NULL; i++)
    if (strstr (lines[i], "N·m") != NULL && strstr (lines[i], "____") == NULL)
      {
        torques++;
        g_assert_nonnull (strstr (lines[i], "estimate"));
      }
  g_assert_cmpuint (torques, >=, 2);
}

/* Pulling apart is for the bench; the joint in place gets a light tug and a size check, on a dead circuit. */
static void
test_holds (void)
{
  static const char *const names[] = { PRESSED, BOLTED };

  for (guint n = 0; n < G_N_ELEMENTS (names); n++)
    {
      g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (names[n]));

      for (guint i = 0; i < sheet->steps->len; i++)
        {
          const TlStep *step = g_ptr_array_index (sheet->steps, i);

          if (strstr (step->text, "pulled apart") != NULL)
            g_assert_nonnull (strstr (step->text, "at the bench"));
          if (g_str_has_prefix (step->id, "hold-resistance")
              || g_str_has_prefix (step->id, "hold-insulation"))
            g_assert_nonnull (strstr (step->text, "still dead"));
        }
      g_assert_nonnull (
          strstr (step_of (sheet, n == 0 ? "hold-size" : "hold-clamp")->text, "light tug"));
      g_assert_nonnull (strstr (step_of (sheet, "hold-warm")->text, "Cover closed"));
    }
}

/* --- upkeep --- */

static void
test_next_look (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example (PRESSED));
  g_autoptr (TlStepSheet) dated = tl_steps_new (verdict, "2024-02-29", tl_language_plain ());
  g_autoptr (TlJoint) joint = pt_example (PRESSED);
  g_autoptr (GError) error = NULL;
  TlJoint *edited = tl_edit_set_text (joint, "date", "", &error);
  g_autoptr (TlStepSheet) open = NULL;

  g_assert_no_error (error);
  open = sheet_of (edited);
  g_assert_cmpstr (dated->date, ==, "2024-02-29");
  g_assert_cmpstr (dated->next_look, ==, "2025-02");
  g_assert_cmpstr (open->next_look, ==, "1 year after it was made");
  g_assert_cmpuint (open->label->len, ==, 6);
  g_assert_cmpstr (g_ptr_array_index (open->label, 0), ==, "COPPER–ALUMINIUM JOINT INSIDE");
  g_assert_nonnull (strstr (dated->upkeep, "no source"));
}

/* The label, the record and the rhythm go by what holds the conductors; the yearly look at a screw on aluminium is the
 * row "upkeep.screw-on-aluminium", common practice. */
static void
test_held_by (void)
{
  static const struct
  {
    const char *example, *way, *record, *rhythm;
  } cases[] = {
    { PRESSED, "pressed", "Pressed across flats, mm", NULL },
    { BOLTED, "bolted", "Torque set, N·m", "again each time" },
    { "screw-terminal-plated", "screw terminal", "Torque set, N·m", "again each time" },
    { "spring-terminal-cage", "spring terminal", "Tug by hand, each conductor", "then every" },
    { "soldered-copper-splice", "soldered", "Tug by hand, each conductor", NULL },
    { "twist-of-copper", "twisted", "Tug by hand, each conductor", NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (cases[i].example));

      g_test_message ("%s", cases[i].example);
      g_assert_nonnull (strstr (g_ptr_array_index (sheet->label, 1), cases[i].way));
      g_assert_cmpstr (g_ptr_array_index (sheet->record, 0), ==, cases[i].record);
      if (cases[i].rhythm != NULL)
        g_assert_nonnull (strstr (sheet->upkeep, cases[i].rhythm));
    }
}

static void
test_same_text (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint n = 0; n < names->len; n++)
    {
      g_autoptr (TlStepSheet) a = sheet_of (pt_example (g_ptr_array_index (names, n)));
      g_autoptr (TlStepSheet) b = sheet_of (pt_example (g_ptr_array_index (names, n)));
      g_autofree char *text_a = tl_steps_to_text (a, tl_language_plain ());
      g_autofree char *text_b = tl_steps_to_text (b, tl_language_plain ());

      g_assert_cmpstr (text_a, ==, text_b);
    }
}

static gboolean
is_kind (const char *id)
{
  guint             count;
  const TlStepKind *kinds = tl_step_kinds (&count);

  for (guint i = 0; i < count; i++)
    if (strcmp (kinds[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

/* Whatever stands in a sheet can be given minutes by name, and no kind is told twice. */
static void
test_kinds (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint             count;
  const TlStepKind *kinds = tl_step_kinds (&count);

  for (guint i = 0; i < count; i++)
    g_assert_true (g_hash_table_add (seen, (gpointer) kinds[i].id));
  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlStepSheet) sheet = sheet_of (pt_example (g_ptr_array_index (names, i)));

      for (guint k = 0; k < sheet->steps->len; k++)
        {
          const TlStep *step = g_ptr_array_index (sheet->steps, k);

          if (!is_kind (step->id))
            g_error ("%s: step “%s” (%s) has no name", (char *) names->pdata[i], step->id,
                     step->text);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/steps/order/pressed", test_order_pressed);
  g_test_add_func ("/steps/order/bolted", test_order_bolted);
  g_test_add_func ("/steps/order/acts", test_order_of_acts);
  g_test_add_func ("/steps/order/cool-before-bending", test_cool_before_bending);
  g_test_add_func ("/steps/order/families", test_order_of_families);
  g_test_add_func ("/steps/order/twist", test_twist);
  g_test_add_func ("/steps/order/ferrule", test_ferrule);
  g_test_add_func ("/steps/order/numbers", test_numbers);
  g_test_add_func ("/steps/order/own-brushes", test_own_brushes);
  g_test_add_func ("/steps/figures/bench-sample", test_bench_sample);
  g_test_add_func ("/steps/figures/size-tolerance", test_size_tolerance);
  g_test_add_func ("/steps/figures/insulation", test_insulation);
  g_test_add_func ("/steps/figures/language", test_language);
  g_test_add_func ("/steps/parts", test_parts);
  g_test_add_func ("/steps/box-size", test_box_size);
  g_test_add_func ("/steps/never/refused", test_refused);
  g_test_add_func ("/steps/never/no-joint", test_no_joint);
  g_test_add_func ("/steps/never/no-joint-in-box", test_no_joint_in_box);
  g_test_add_func ("/steps/never/rubber", test_rubber);
  g_test_add_func ("/steps/never/change", test_change);
  g_test_add_func ("/steps/never/fault-example", test_fault_example);
  g_test_add_func ("/steps/never/forbidden", test_forbidden);
  g_test_add_func ("/steps/never/torque", test_torque_is_estimate);
  g_test_add_func ("/steps/never/holds", test_holds);
  g_test_add_func ("/steps/upkeep", test_next_look);
  g_test_add_func ("/steps/held-by", test_held_by);
  g_test_add_func ("/steps/kinds", test_kinds);
  g_test_add_func ("/steps/same-text", test_same_text);
  return g_test_run ();
}
