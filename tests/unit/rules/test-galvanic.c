/* test-galvanic.c: what must be shown of the common couples.
 *
 * Steps in millivolt: IEC 60950-1:2005, Annex J (from memory; no second witness was found). What follows in dry or damp
 * air: the project's table, common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules-test.h"

/* The stack of the good example with another washer (layer-3) between its eyes. */
static TlVerdict *
judge_between (const char *part, const char *surroundings)
{
  g_autoptr (TlJoint) joint = rt_example ("bolted-as-it-should-be");

  rt_word (&joint, "site", TL_FIELD_SURROUNDINGS, surroundings);
  if (part == NULL)
    rt_remove (&joint, "layer-3");
  else
    rt_replace (&joint, "layer-3", part);
  if (part != NULL && g_str_has_suffix (part, "-zinc"))
    {
      rt_number (&joint, "layer-3", TL_FIELD_OUTER, 10.0);
      rt_number (&joint, "layer-3", TL_FIELD_BORE, 5.3);
      rt_number (&joint, "layer-3", TL_FIELD_THICKNESS, 1.0);
    }
  return tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
}

static void
assert_step (const TlVerdict *verdict, double difference_mV, const char *severity)
{
  const TlFinding *finding = rt_with_figure (verdict, "galvanic.step", "difference", difference_mV);

  g_assert_nonnull (finding);
  g_assert_cmpstr (tl_severity_word (finding->severity), ==, severity);
  g_assert_cmpfloat (g_array_index (finding->figures, TlFigure, 0).limit, ==, 600.0);
}

static void
test_direct (void)
{
  g_autoptr (TlVerdict) dry = judge_between (NULL, "dry");
  g_autoptr (TlVerdict) damp = judge_between (NULL, "damp");

  assert_step (dry, 650.0, "Watch");
  rt_assert (dry, "practice.unlike-direct", "Change");
  g_assert_cmpstr (tl_verdict_word (dry), ==, "Change");
  assert_step (damp, 650.0, "Unsafe");
  g_assert_cmpstr (tl_verdict_word (damp), ==, "Unsafe");
}

static void
test_steel (void)
{
  g_autoptr (TlVerdict) dry = judge_between ("washer-plain-m5-steel", "dry");
  g_autoptr (TlVerdict) damp = judge_between ("washer-plain-m5-steel", "damp");

  assert_step (dry, 200.0, "Sound");
  assert_step (dry, 450.0, "Sound");
  rt_assert (dry, "galvanic.separates", "Sound");
  rt_assert (dry, "galvanic.bare-steel", "none");
  rt_assert (damp, "galvanic.bare-steel", "Watch");
}

static void
test_zinc (void)
{
  g_autoptr (TlVerdict) verdict = judge_between ("washer-plain-m5-zinc", "damp");

  assert_step (verdict, 850.0, "Unsafe");
  rt_assert (verdict, "galvanic.separates", "Change");
}

/* Zinc on steel is the row of the coat (550), not that of bare zinc (500). */
static void
test_zinc_plated (void)
{
  g_autoptr (TlVerdict) verdict = judge_between ("washer-plain-m5-steel-zinc", "damp");

  assert_step (verdict, 800.0, "Unsafe");
  assert_step (verdict, 150.0, "Sound");
  g_assert_null (rt_with_figure (verdict, "galvanic.step", "difference", 850.0));
}

/* Over the limit by voltage, and kinder than copper in published trials: both are said, with both sources. */
static void
test_stainless (void)
{
  g_autoptr (TlVerdict) verdict = judge_between ("washer-plain-m5-stainless", "damp");
  const TlFinding *disputed = rt_worst (verdict, "galvanic.disputed");

  assert_step (verdict, 700.0, "Unsafe");
  g_assert_nonnull (disputed);
  g_assert_cmpint (disputed->severity, ==, TL_SEVERITY_WATCH);
  g_assert_cmpuint (disputed->sources->len, >=, 1);
}

/* Nickel fails the rule by voltage though joint trials favour it: the figure is 750. */
static void
test_nickel (void)
{
  g_autoptr (TlVerdict) verdict = judge_between ("washer-plain-m5-steel-nickel", "damp");

  assert_step (verdict, 750.0, "Unsafe");
}

/* Tinned copper beside aluminium: 450; copper beside tin: 200. */
static void
test_tinned (void)
{
  g_autoptr (TlJoint) joint = rt_example ("bolted-as-it-should-be");
  g_autoptr (TlVerdict) verdict = NULL;

  rt_word (&joint, "site", TL_FIELD_SURROUNDINGS, "damp");
  rt_remove (&joint, "layer-3");
  rt_word (&joint, "leg-2", TL_FIELD_COATING, "tin-plate");
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  assert_step (verdict, 450.0, "Sound");
  g_assert_null (rt_with_figure (verdict, "galvanic.step", "difference", 650.0));
  /* Worn, it is the bare couple: at most Watch while no wear is to be expected. */
  g_assert_nonnull (rt_with_figure (verdict, "galvanic.worn-coat", "difference", 650.0));
  rt_assert (verdict, "galvanic.worn-coat", "Watch");
}

static void
test_soldered (void)
{
  g_autoptr (TlJoint) joint = rt_example ("bolted-as-it-should-be");
  g_autoptr (TlVerdict) verdict = NULL;

  rt_remove (&joint, "layer-3");
  rt_word (&joint, "leg-2", TL_FIELD_COATING, "solder-sn60pb40");
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  assert_step (verdict, 400.0, "Sound");
}

/* Wear is to be expected under teeth: the bare figure decides. */
static void
test_worn_by_teeth (void)
{
  g_autoptr (TlJoint) joint = rt_example ("bolted-as-it-should-be");
  g_autoptr (TlVerdict) verdict = NULL;

  rt_word (&joint, "site", TL_FIELD_SURROUNDINGS, "damp");
  rt_word (&joint, "leg-1", TL_FIELD_COATING, "tin-plate");
  rt_word (&joint, "leg-1", TL_FIELD_METAL, "copper");
  rt_replace (&joint, "layer-2", "serrated-m5-stainless");
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  g_assert_nonnull (rt_worst (verdict, "galvanic.step"));
  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = verdict->findings->pdata[i];

      if (g_str_equal (finding->rule->id, "galvanic.worn-coat"))
        g_assert_cmpint (finding->severity, <=, TL_SEVERITY_UNSAFE);
    }
}

/* Shank in both eyes: two more pairs, 0.15 mm apart at an eye of 5.3 mm. */
static void
test_shank (void)
{
  g_autoptr (TlVerdict) verdict = judge_between ("washer-plain-m5-steel", "dry");
  guint pairs = 0;

  for (guint i = 0; i < verdict->assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (verdict->assembly->contacts, TlContact, i);
      const TlBody *a = tl_assembly_body (verdict->assembly, contact->a), *b = tl_assembly_body (verdict->assembly, contact->b);

      if ((a->role == TL_BODY_SHANK && b->role == TL_BODY_EYE) || (b->role == TL_BODY_SHANK && a->role == TL_BODY_EYE))
        {
          g_assert_cmpint (contact->kind, ==, TL_CONTACT_MAY_BRIDGE);
          g_assert_cmpfloat_with_epsilon (contact->distance_mm, 0.15, 1e-9);
          pairs++;
        }
    }
  g_assert_cmpuint (pairs, ==, 2);
}

/* A washer of 9 mm between eyes of 11 mm: the eyes may bridge beyond it, as far apart as it is thick. */
static void
test_bridge_beyond_washer (void)
{
  g_autoptr (TlJoint) joint = rt_example ("washer-too-small");
  g_autoptr (TlVerdict) verdict = NULL;
  const TlFinding *finding;

  rt_word (&joint, "site", TL_FIELD_SURROUNDINGS, "damp");
  rt_number (&joint, "layer-3", TL_FIELD_THICKNESS, 0.8);
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  finding = rt_with_figure (verdict, "galvanic.step", "difference", 650.0);
  g_assert_nonnull (finding);
  g_assert_nonnull (rt_with_figure (verdict, "galvanic.step", "distance", 0.8));
  g_assert_cmpstr (tl_severity_word (finding->severity), ==, "Unsafe");
}

/* Butted in a bare copper sleeve: aluminium meets the wall. */
static void
test_wall (void)
{
  g_autoptr (TlJoint) joint = rt_example ("bare-copper-sleeve");
  g_autoptr (TlVerdict) verdict = NULL;
  gboolean found = FALSE;

  rt_number (&joint, "leg-1", TL_FIELD_INSERTION, 15.0);
  rt_number (&joint, "leg-2", TL_FIELD_INSERTION, 15.0);
  verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  for (guint i = 0; i < verdict->assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (verdict->assembly->contacts, TlContact, i);
      const TlBody *a = tl_assembly_body (verdict->assembly, contact->a), *b = tl_assembly_body (verdict->assembly, contact->b);

      found = found || ((a->role == TL_BODY_BARREL || b->role == TL_BODY_BARREL)
                        && (g_str_equal (a->material, "aluminium") || g_str_equal (b->material, "aluminium")));
    }
  g_assert_true (found);
  g_assert_nonnull (rt_with_figure (verdict, "galvanic.step", "difference", 650.0));
}

/* The scale's status is told with every verdict: its figures are from memory. */
static void
test_status (void)
{
  g_autoptr (TlVerdict) verdict = judge_between ("washer-plain-m5-steel", "dry");
  const TlFinding *finding = rt_worst (verdict, "galvanic.step");
  g_autofree char *sources = tl_wording_sources (verdict, finding, tl_language_plain ());

  g_assert_cmpint (g_array_index (finding->figures, TlFigure, 0).known_by, ==, TL_KNOWN_MEMORY);
  g_assert_nonnull (g_strstr_len (sources, -1, "memory"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/galvanic/direct", test_direct);
  g_test_add_func ("/galvanic/steel", test_steel);
  g_test_add_func ("/galvanic/zinc", test_zinc);
  g_test_add_func ("/galvanic/zinc-plated", test_zinc_plated);
  g_test_add_func ("/galvanic/stainless", test_stainless);
  g_test_add_func ("/galvanic/nickel", test_nickel);
  g_test_add_func ("/galvanic/tinned", test_tinned);
  g_test_add_func ("/galvanic/soldered", test_soldered);
  g_test_add_func ("/galvanic/worn-by-teeth", test_worn_by_teeth);
  g_test_add_func ("/galvanic/shank", test_shank);
  g_test_add_func ("/galvanic/bridge-beyond-washer", test_bridge_beyond_washer);
  g_test_add_func ("/galvanic/wall", test_wall);
  g_test_add_func ("/galvanic/status", test_status);
  return g_test_run ();
}
