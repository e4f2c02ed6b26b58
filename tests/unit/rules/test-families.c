/* test-families.c: of every way of joining one example as it should be and at least three faulty ones, each with the
 * figure and the limit that decide.
 *
 * The joints are invented demo data. Each row says where its figure and its limit come from, so that both can be
 * reckoned without the program. A twist has no good example: its best is a plain twist of copper, which is Change.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules-test.h"

#include <math.h>

typedef struct
{
  const char *family;
  const char *example;
  gboolean    is_fault;
  const char *verdict;
  const char *rule;     /* the finding with the figure */
  const char *severity; /* of that finding */
  const char *figure;
  double      value, limit, tolerance; /* in the figure's unit; the limit is exact to 1e-6 of it */
  const char *source;
} Case;

#define BEST FALSE
#define FAULT TRUE

/* From memory, of IEC 60950-1, Annex J: aluminium to copper 0.65 V, to bare zinc 0.20 V, zinc to copper 0.85 V, zinc plated
 * steel to copper 0.80 V; 0.6 V is the limit. */
#define ANNEX_J "IEC 60950-1, Annex J (from memory)"
/* A hexagon of s across flats has 0.866 s2; compaction is 1 - hexagon / (ring + wire). 5 to 20 % is wanted. */
#define HEXAGON "geometry of the hexagon; 5 to 20 % is common practice, no source"
#define OVERLAP "8 diameters of 1.784 mm wire: common practice, no source"
/* 0.8 N m for 3.5 mm and 2.5 N m for 6 mm screws; half and double are chosen here. */
#define TORQUE "IEC 60947-1, Table 4, column II (seen); half and double of it: chosen here"
#define MARKING "range marked on the part, as IEC 60999-1 asks for (seen)"
#define LENGTH "length of the barrel, or marked on the part: common practice, no source"
#define BOX "geometry of the box"

static const Case cases[] = {
  /* 2 N m / (0.20 * 5 mm) = 2000 N; 0.75 * 580 MPa * 14.2 mm2 = 6177 N */
  { "bolted stack", "bolted-as-it-should-be", BEST, "Watch", "grip.preload", "Sound", "preload", 2000, 6177, 1, "ISO 898-1, 580 MPa; M5: 14.2 mm2" },
  { "bolted stack", "copper-on-aluminium", FAULT, "Unsafe", "galvanic.step", "Unsafe", "difference", 650, 600, 0, ANNEX_J },
  { "bolted stack", "zinc-washer", FAULT, "Unsafe", "galvanic.step", "Unsafe", "difference", 850, 600, 0, ANNEX_J },
  /* an eye bent over 7.4 mm of wire 1.784 mm thick has its crest at 7.4 + 1.784 */
  { "bolted stack", "washer-too-small", FAULT, "Change", "grip.eye-covered", "Change", "bearing", 9, 9.184, 1e-6, "geometry of the eye" },

  { "butt sleeve", "lift-feed-aluminium", BEST, "Sound", "grip.compaction", "Sound", "compaction", 0.0895, 0.05, 5e-4, HEXAGON },
  { "butt sleeve", "butt-not-to-the-stop", FAULT, "Change", "grip.insertion", "Change", "inserted", 15, 27.5, 1e-6, LENGTH },
  { "butt sleeve", "butt-die-too-small", FAULT, "Change", "grip.compaction", "Change", "compaction", 0.3168, 0.20, 5e-4, HEXAGON },
  { "butt sleeve", "butt-other-section", FAULT, "Change", "grip.marked-section", "Change", "metal", 16, 25, 1e-6, "section marked on the sleeve" },

  { "parallel sleeve", "socket-circuit-weaving-floor", BEST, "Watch", "grip.compaction", "Sound", "compaction", 0.1099, 0.05, 5e-4, HEXAGON },
  /* 30 mm to strip, 40 mm for the head of the press (common practice), 30 mm for one more try */
  { "parallel sleeve", "stub-too-short", FAULT, "Change", "room.stub", "Change", "free", 55, 100, 1e-6, "common practice, no source" },
  /* 62 mm of sleeve less 10 % of shrinking, and bends of 12 mm with wires of 4.0 and 3.38 mm: 55.8 + 16 + 15.38 */
  { "parallel sleeve", "three-joints-in-a-small-box", FAULT, "Change", "room.fit", "Change", "length", 87.18, 60, 0.01, BOX },
  /* 4.0 mm over the insulation times 0.8 */
  { "parallel sleeve", "sleeve-without-adhesive", FAULT, "Change", "seal.mouths", "Change", "recovered", 4.75, 3.2, 1e-6, "80 % habit of heat-shrink tubes: common practice" },

  { "cable lug", "lugs-bolted", BEST, "Watch", "grip.compaction", "Sound", "compaction", 0.1510, 0.05, 5e-4, HEXAGON },
  { "cable lug", "lug-wrong-die", FAULT, "Change", "grip.compaction", "Change", "compaction", -0.2773, 0.05, 5e-4, HEXAGON },
  /* 12500 N on pi / 4 (13.91^2 - 8.4^2) mm2: a head of 11.6 mm and 30 degrees through a washer of 2 mm */
  { "cable lug", "lugs-overtightened", FAULT, "Change", "grip.bearing", "Change", "pressure", 129.5, 60, 0.5, "P. G. Slade (ed.), Electrical Contacts, 2nd ed. (seen)" },
  { "cable lug", "lugs-bare-copper", FAULT, "Unsafe", "galvanic.step", "Unsafe", "difference", 650, 600, 0, ANNEX_J },
  { "cable lug", "lug-not-to-the-stop", FAULT, "Change", "grip.insertion", "Change", "inserted", 12, 22, 1e-6, LENGTH },
  /* M6 and 15 % */
  { "cable lug", "lug-bolt-too-small", FAULT, "Change", "grip.lug-hole", "Watch", "hole", 8.4, 6.9, 1e-6, "chosen here" },

  { "bimetal part", "bimetal-sleeve", BEST, "Sound", "practice.bimetal", "Sound", "section", 16, 16, 1e-6, "from 16 mm2: common practice, no source" },
  { "bimetal part", "bimetal-lug", BEST, "Watch", "grip.compaction", "Sound", "compaction", 0.0895, 0.05, 5e-4, HEXAGON },
  { "bimetal part", "bimetal-washer", BEST, "Watch", "practice.bimetal", "Sound", "section", 16, 16, 1e-6, "from 16 mm2: common practice, no source" },
  { "bimetal part", "bimetal-sleeve-small", FAULT, "Change", "practice.bimetal", "Change", "section", 2.5, 16, 1e-6, "from 16 mm2: common practice, no source" },
  { "bimetal part", "bimetal-sleeve-turned", FAULT, "Change", "galvanic.step", "Watch", "difference", 650, 600, 0, ANNEX_J },
  { "bimetal part", "bimetal-washer-turned", FAULT, "Unsafe", "galvanic.step", "Unsafe", "difference", 650, 600, 0, ANNEX_J },

  { "screw terminal", "screw-terminal-plated", BEST, "Watch", "grip.terminal-torque", "Sound", "torque", 0.8, 0.56, 1e-6, TORQUE },
  { "screw terminal", "screw-terminal-tunnel", BEST, "Watch", "grip.terminal-torque", "Sound", "torque", 0.8, 0.56, 1e-6, TORQUE },
  { "screw terminal", "screw-terminal-bare-brass", FAULT, "Unsafe", "galvanic.step", "Unsafe", "difference", 650, 600, 0, ANNEX_J },
  { "screw terminal", "screw-terminal-overtightened", FAULT, "Change", "grip.terminal-torque", "Change", "torque", 2.5, 1.6, 1e-6, TORQUE },
  { "screw terminal", "screw-terminal-insulation", FAULT, "Unsafe", "grip.terminal-reach", "Unsafe", "inserted", 10, 7, 1e-6, LENGTH },

  { "spring terminal", "spring-terminal-marked", BEST, "Watch", "grip.terminal-spring", "Sound", "force", 25, 10, 1e-6, "10 to 50 N, from memory, weak" },
  { "spring terminal", "spring-terminal-cage", BEST, "Watch", "grip.terminal-spring", "Sound", "force", 25, 10, 1e-6, "10 to 50 N, from memory, weak" },
  { "spring terminal", "spring-terminal-short-strip", FAULT, "Change", "grip.terminal-reach", "Change", "strip", 8, 11, 1e-6, LENGTH },
  { "spring terminal", "spring-terminal-socket-load", FAULT, "Watch", "grip.terminal-spring", "Watch", "load", 10, 6, 1e-6, "chosen here" },
  /* the network's own figure; what is known from outside is the limit, a ratio of resistances */
  { "spring terminal", "spring-terminal-shared-mouth", FAULT, "Change", "heat.against-conductor", "Change", "factor", 2.3, 2.0, 0.25, "IEC 61238-1 compares so; 2 is chosen here" },

  { "branch connector", "branch-clamp", BEST, "Watch", "grip.terminal-conductor", "Sound", "section", 16, 25, 1e-6, MARKING },
  { "branch connector", "branch-too-thick", FAULT, "Change", "grip.terminal-conductor", "Change", "section", 16, 10, 1e-6, MARKING },
  { "branch connector", "branch-loose-screw", FAULT, "Change", "grip.terminal-torque", "Change", "torque", 1.0, 1.25, 1e-6, TORQUE },
  { "branch connector", "branch-unprotected-tap", FAULT, "Change", "current.rating", "Change", "device", 50, 24, 1e-6, "IEC 60364-5-52:2009, Table B.52.2, copper 2.5 mm2, B1 (seen)" },

  { "device terminal", "socket-terminal", BEST, "Watch", "grip.terminal-conductor", "Sound", "section", 2.5, 4, 1e-6, MARKING },
  { "device terminal", "socket-terminal-too-thick", FAULT, "Change", "grip.terminal-conductor", "Change", "section", 6, 4, 1e-6, MARKING },
  { "device terminal", "socket-terminal-loose", FAULT, "Change", "grip.terminal-torque", "Change", "torque", 0.3, 0.4, 1e-6, TORQUE },
  { "device terminal", "socket-behind-32-amperes", FAULT, "Change", "current.rating", "Change", "device", 32, 18.5, 1e-6, "IEC 60364-5-52:2009, Table B.52.2, aluminium 2.5 mm2, B1 (seen)" },

  { "soldered splice", "soldered-copper-splice", BEST, "Watch", "grip.splice-overlap", "Sound", "overlap", 20, 14.272, 1e-6, OVERLAP },
  { "soldered splice", "soldered-too-short", FAULT, "Change", "grip.splice-overlap", "Change", "overlap", 9, 14.272, 1e-6, OVERLAP },
  /* 1500 A for 0.1 s in 2.5 mm2 of copper from 70 degC: (1500 / 2.5)^2 * 0.1 = 226^2 ln ((234.5 + T) / 304.5) gives 382 degC */
  { "soldered splice", "soldered-near-the-board", FAULT, "Unsafe", "heat.short-circuit", "Unsafe", "end", 382, 160, 3, "IEC 60949, formula of 3; 160 degC for soldered joints, IEC 60724 (from memory)" },
  { "soldered splice", "soldered-pot-too-hot", FAULT, "Watch", "grip.dip", "Watch", "pot", 340, 280, 1e-6, "from memory, handbook" },

  { "welded splice", "welded-copper-splice", BEST, "Watch", "grip.splice-overlap", "Sound", "overlap", 20, 14.272, 1e-6, OVERLAP },
  { "welded splice", "welded-too-short", FAULT, "Change", "grip.splice-overlap", "Change", "overlap", 8, 14.272, 1e-6, OVERLAP },
  { "welded splice", "welded-beside-old-rubber", FAULT, "Change", "heat.insulation", "Change", "year", 1936, 1970, 1e-6, "common practice, no source" },
  { "welded splice", "welded-cover-too-short", FAULT, "Change", "seal.mouths", "Change", "cover", 0.3, 10, 0.05, "common practice, no source" },

  { "twist", "twist-of-copper", FAULT, "Change", "grip.splice-overlap", "Sound", "overlap", 25, 14.272, 1e-6, OVERLAP },
  { "twist", "twist-of-unlike-metals", FAULT, "Unsafe", "galvanic.step", "Unsafe", "difference", 650, 600, 0, ANNEX_J },
  { "twist", "twist-too-short", FAULT, "Change", "grip.splice-overlap", "Change", "overlap", 9, 14.272, 1e-6, OVERLAP },
  /* the network's own figure, four times what is fair; the limit is a ratio of resistances */
  { "twist", "twist-at-full-load", FAULT, "Change", "heat.against-conductor", "Change", "factor", 3.7, 2.0, 0.4, "IEC 61238-1 compares so; 2 is chosen here" },
};

/* The finding of @rule that has the figure of the row, whatever place it takes among its like. */
static const TlFigure *
figure_of (const TlVerdict *verdict, const Case *c, const TlFinding **of)
{
  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = verdict->findings->pdata[i];

      for (guint k = 0; g_str_equal (finding->rule->id, c->rule) && k < finding->figures->len; k++)
        {
          const TlFigure *figure = &g_array_index (finding->figures, TlFigure, k);

          if (g_str_equal (figure->name, c->figure)
              && fabs (figure->value.best - c->value) <= c->tolerance
              && fabs (figure->limit - c->limit) <= 1e-6 * fabs (c->limit))
            {
              *of = finding;
              return figure;
            }
        }
    }
  return NULL;
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->example);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);
  const TlFinding *finding = NULL;
  const TlFigure *figure = figure_of (verdict, c, &finding);

  g_test_message ("%s, source of what is expected: %s", c->family, c->source);
  g_assert_cmpint (joint->fault_example, ==, c->is_fault);
  g_assert_cmpstr (joint->name, !=, "");
  g_assert_cmpstr (joint->note, !=, "");
  g_assert_true (g_str_has_prefix (joint->place, "Fennick Mill"));
  g_assert_cmpstr (tl_verdict_word (verdict), ==, c->verdict);
  g_assert_nonnull (figure);
  g_assert_cmpstr (tl_severity_word (finding->severity), ==, c->severity);
  /* A figure stands on the side of its limit that the finding tells of. */
  if (finding->severity == TL_SEVERITY_SOUND)
    g_assert_true (figure->limit_is_least ? figure->value.best >= figure->limit : figure->value.best <= figure->limit);
  else
    g_assert_true (figure->limit_is_least ? figure->value.best < figure->limit : figure->value.best > figure->limit);
}

/* Each family has its best and three faults; the twist, which is never right, has its plain form in place of a best. */
static void
test_complete (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint best = 0, faults = 0;

      for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
        if (g_str_equal (cases[k].family, cases[i].family))
          {
            best += !cases[k].is_fault;
            faults += cases[k].is_fault;
          }
      if (g_str_equal (cases[i].family, "twist"))
        g_assert_cmpuint (faults, >=, 4);
      else
        {
          g_assert_cmpuint (best, >=, 1);
          g_assert_cmpuint (faults, >=, 3);
        }
    }
}

/* A best example has nothing to change, and no example that has is told as good. */
static void
test_best (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TlJoint) joint = rt_example (c->example);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, rt_stock (), TL_VERDICT_FULL);

  g_assert_true (verdict->has_severity);
  g_assert_cmpint (verdict->severity, <=, TL_SEVERITY_WATCH);
  g_assert_cmpuint (verdict->unfinished->len, ==, 0);
  g_assert_cmpuint (verdict->not_computed->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/families/complete", test_complete);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/families/%s/%s", cases[i].family, cases[i].example);
      g_autofree char *best = g_strdup_printf ("/families/best/%s", cases[i].example);

      g_test_add_data_func (path, &cases[i], test_case);
      if (!cases[i].is_fault)
        g_test_add_data_func (best, &cases[i], test_best);
    }
  return g_test_run ();
}
