/* test-examples.c: the verdict of each joint in data/examples, and the rule that leads to it.
 *
 * The joints are invented demo data; what is expected of each is common practice, no source, but for the potential steps,
 * which are those of IEC 60950-1, Annex J (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules-test.h"

typedef struct
{
  const char *name;
  const char *verdict;
  const char *rule;     /* that must be as bad as the verdict */
} Case;

static const Case cases[] = {
  { "bolted-as-it-should-be", "Watch", "practice.access" },
  { "copper-on-aluminium", "Unsafe", "galvanic.step" },
  { "zinc-washer", "Unsafe", "galvanic.step" },
  { "washer-too-small", "Change", "grip.eye-covered" },
  { "eye-wound-backwards", "Change", "grip.eye-closes" },
  { "no-spring-washer", "Change", "grip.spring" },
  { "stainless-between", "Unsafe", "galvanic.step" },
  { "socket-circuit-weaving-floor", "Watch", "practice.sleeve-pair" },
  { "socket-circuit-nfpa70", "Change", "practice.sleeve-pair" },
  { "bare-copper-sleeve", "Change", "practice.sleeve-pair" },
  { "wrong-press-profile", "Change", "grip.profile" },
  { "sleeve-without-adhesive", "Change", "seal.adhesive" },
  { "two-aluminium-one-copper", "Change", "seal.mouths" },
  { "three-joints-in-a-small-box", "Change", "room.fit" },
  { "stub-too-short", "Change", "room.stub" },
  { "lift-feed-aluminium", "Sound", NULL },
  { "screw-terminal-plated", "Watch", "practice.terminal-access" },
  { "screw-terminal-bare-brass", "Unsafe", "galvanic.step" },
  { "screw-terminal-closed-for-good", "Change", "practice.terminal-access" },
  { "screw-terminal-dipped-tail", "Change", "grip.dipped-end" },
  { "spring-terminal-marked", "Watch", "galvanic.disputed" },
  { "spring-terminal-unmarked", "Change", "grip.marked-for" },
  { "spring-terminal-socket-load", "Watch", "grip.terminal-spring" },
  { "spring-terminal-shared-mouth", "Change", "grip.shared-mouth" },
  { "twist-of-unlike-metals", "Unsafe", "grip.twist" },
  { "soldered-copper-splice", "Watch", "grip.solder" },
  { "soldered-aluminium", "Change", "grip.solder" },
  { "branch-clamp", "Watch", "practice.terminal-access" },
  { "branch-piercing-solid", "Watch", "grip.piercing" },
  { "branch-copper-only", "Change", "grip.marked-for" },
  { "branch-too-thick", "Change", "grip.terminal-conductor" },
  { "lugs-bolted", "Watch", "practice.access" },
  { "lug-wrong-die", "Change", "grip.compaction" },
  { "lugs-overtightened", "Change", "grip.bearing" },
  { "lugs-bare-copper", "Unsafe", "galvanic.step" },
  { "bimetal-sleeve", "Sound", "practice.bimetal" },
  { "bimetal-sleeve-small", "Change", "practice.bimetal" },
  { "bimetal-sleeve-turned", "Change", "practice.bimetal" },
  { "socket-terminal", "Watch", "practice.terminal-access" },
  { "socket-terminal-copper-only", "Change", "grip.marked-for" },
  { "socket-neutral-looped", "Watch", "roles.loop-through" },
  { "socket-flexible-tail", "Change", "grip.terminal-conductor" },
  { "welded-copper-splice", "Watch", "grip.solder" },
  { "twist-of-copper", "Change", "grip.twist" },
  { "butt-not-to-the-stop", "Change", "grip.insertion" },
  { "butt-die-too-small", "Change", "grip.compaction" },
  { "butt-other-section", "Change", "grip.marked-section" },
  { "lug-not-to-the-stop", "Change", "grip.insertion" },
  { "lug-bolt-too-small", "Change", "grip.bearing" },
  { "bimetal-washer", "Watch", "practice.access" },
  { "bimetal-washer-turned", "Unsafe", "galvanic.step" },
  { "screw-terminal-tunnel", "Watch", "practice.terminal-access" },
  { "screw-terminal-overtightened", "Change", "grip.terminal-torque" },
  { "screw-terminal-insulation", "Unsafe", "grip.terminal-reach" },
  { "spring-terminal-cage", "Watch", "galvanic.disputed" },
  { "spring-terminal-short-strip", "Change", "grip.terminal-reach" },
  { "branch-loose-screw", "Change", "grip.terminal-torque" },
  { "branch-unprotected-tap", "Change", "current.rating" },
  { "socket-terminal-loose", "Change", "grip.terminal-torque" },
  { "socket-terminal-too-thick", "Change", "grip.terminal-conductor" },
  { "socket-behind-32-amperes", "Change", "current.rating" },
  { "soldered-too-short", "Change", "grip.splice-overlap" },
  { "soldered-flux-left", "Change", "grip.solder" },
  { "soldered-near-the-board", "Unsafe", "heat.short-circuit" },
  { "soldered-pot-too-hot", "Watch", "grip.dip" },
  { "welded-unlike-metals", "Change", "grip.solder" },
  { "welded-too-short", "Change", "grip.splice-overlap" },
  { "welded-beside-old-rubber", "Change", "heat.insulation" },
  { "welded-cover-too-short", "Change", "seal.mouths" },
  { "twist-too-short", "Change", "grip.splice-overlap" },
  { "twist-at-full-load", "Change", "heat.against-conductor" },
};

static void
test_example (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->name);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);

  for (guint i = 0; i < verdict->findings->len; i++)
    {
      g_autofree char *text = tl_wording_finding (verdict, verdict->findings->pdata[i], tl_language_plain ());

      g_test_message ("%s", text);
      g_assert_null (g_strstr_len (text, -1, "{"));
      g_assert_null (g_strstr_len (text, -1, "nan"));
    }
  g_assert_cmpstr (tl_verdict_word (verdict), ==, c->verdict);
  if (c->rule != NULL)
    rt_assert (verdict, c->rule, c->verdict);
}

/* The findings of all concerns but heat, in their order: quick asks fewer questions about heat, and without a band. */
static GPtrArray *
without_heat (const TlVerdict *verdict)
{
  GPtrArray *rest = g_ptr_array_new ();

  for (guint i = 0; i < verdict->findings->len; i++)
    if (((const TlFinding *) verdict->findings->pdata[i])->rule->concern != TL_CONCERN_HEAT)
      g_ptr_array_add (rest, verdict->findings->pdata[i]);
  return rest;
}

/* Quick judges as full does, without workings. */
static void
test_quick (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->name);
  g_autoptr (TlVerdict) full = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  g_autoptr (TlVerdict) quick = tl_verdict_new (joint, rt_stock (), TL_VERDICT_QUICK);
  g_autoptr (GPtrArray) a = without_heat (full), b = without_heat (quick);

  g_assert_cmpuint (a->len, ==, b->len);
  for (guint i = 0; i < a->len; i++)
    {
      const TlFinding *one = a->pdata[i], *other = b->pdata[i];

      g_assert_true (one->rule == other->rule);
      g_assert_cmpint (one->severity, ==, other->severity);
      g_assert_cmpuint (other->calls->len, ==, 0);
    }
}

/* A mend, applied, takes its own finding away or makes it milder. */
static void
test_mends (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->name);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);

  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = verdict->findings->pdata[i];
      g_autoptr (TlJoint) mended = NULL;
      g_autoptr (TlVerdict) after = NULL;
      g_autoptr (GError) error = NULL;
      guint before = 0, left = 0;

      if (finding->mend == NULL)
        continue;
      mended = tl_mend_apply (finding->mend, joint, rt_stock (), &error);
      g_assert_no_error (error);
      after = tl_verdict_new (mended, rt_stock (), TL_VERDICT_QUICK);
      for (guint k = 0; k < verdict->findings->len; k++)
        {
          const TlFinding *other = verdict->findings->pdata[k];

          before += other->rule == finding->rule && other->severity >= finding->severity;
        }
      for (guint k = 0; k < after->findings->len; k++)
        {
          const TlFinding *other = after->findings->pdata[k];

          left += other->rule == finding->rule && other->severity >= finding->severity;
        }
      g_test_message ("%s: %s, %u before, %u left", finding->rule->id, finding->mend->label, before, left);
      g_assert_cmpuint (left, <, before);
    }
}

/* What the verdict used comes along with the document, and judges it alike. */
static void
test_used (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->name);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  g_autoptr (TlUsed) used = tl_verdict_dup_used (verdict);
  g_autoptr (TlJoint) kept = tl_edit_set_used (joint, used);
  g_autoptr (TlVerdict) again = tl_verdict_new (kept, rt_stock (), TL_VERDICT_FULL);

  g_assert_cmpuint (used->parts->len, >, 0);
  g_assert_cmpuint (used->materials->len, >, 0);
  g_assert_cmpuint (used->thresholds->len, >, 0);
  g_assert_cmpint (again->severity, ==, verdict->severity);
  g_assert_cmpuint (again->findings->len, ==, verdict->findings->len);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (gconstpointer);
  } tests[] = {
    { "/examples/verdict/", test_example },
    { "/examples/quick/", test_quick },
    { "/examples/mends/", test_mends },
    { "/examples/used/", test_used },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint t = 0; t < G_N_ELEMENTS (tests); t++)
    for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
      {
        g_autofree char *path = g_strconcat (tests[t].path, cases[i].name, NULL);

        g_test_add_data_func (path, &cases[i], tests[t].test);
      }
  return g_test_run ();
}
