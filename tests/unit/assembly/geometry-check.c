/* geometry-check.c: who touches or may bridge whom, on random joints, found twice.
 *
 * The engine's contacts are held against space.c, which only knows the solids of the bodies and
 * tries lines in space. No published figures: the check is geometry against geometry. TINLAP_SEED
 * sets the seed, TINLAP_LONG=1 takes ten times as many joints.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "build.h"
#include "space.h"

#include <math.h>
#include <stdlib.h>

#define BRIDGE_MM                                                                                  \
  1.0 /* galvanic.bridge-distance of the data: 1 mm to start, common practice, no source */
#define TOLERANCE_MM                                                                               \
  0.04 /* ends of a tried line lie on a grid of thrown points, shaken to 0.002 mm */
/* The engine looks along planes through the bolt: past a lead, a tang or a washer off the axis a
 * line skew to it can be a little shorter. */
#define SKEW_MM 0.15
#define FACE_MM 0.03 /* two faces that lie on each other, tried */
#define CLAIM_MM 0.5
#define FEW 260
#define MANY 2600

typedef struct
{
  guint64 seed;
  guint   stacks, sleeves, terminals, splices;
} Run;

static double
between (GRand *random, double low, double high)
{
  return g_rand_double_range (random, low, high);
}

static const char *
one_of (GRand *random, const char *const *words, gint count)
{
  return words[g_rand_int_range (random, 0, count)];
}

static const char *const metals[] = { "steel", "zinc", "brass", "stainless-a2" };
static const char *const wires[] = { "copper", "aluminium" };

/* --- random stacks --- */

static char *
random_coating (GRand *random)
{
  static const char *const coats[] = { "; coating=none",
                                       "; coating=tin-plate; coating-thickness=0 um",
                                       "; coating=zinc-plate; coating-thickness=5 um", "" };

  return g_strdup (one_of (random, coats, G_N_ELEMENTS (coats)));
}

static void
add_washer (GRand *random, TlJoint **joint, double thread)
{
  double bore = thread * between (random, 1.0, 1.3), outer = thread * between (random, 1.5, 3.0);
  double clearance = (bore - thread) / 2.0, thickness = between (random, 0.3, 2.0);
  /* A thin washer that leans on the shank leaves a slit of no width there: nothing to try. */
  double offset = thickness >= BRIDGE_MM && g_rand_boolean (random)
                      ? clearance
                      : between (random, -0.8, 0.8) * clearance;
  g_autofree char *coat = random_coating (random);
  g_autofree char *text = g_strdup_printf (
      "bore=%.6f mm; outer=%.6f mm; thickness=%.4f mm; offset=%.6f mm; material=%s%s", bore,
      MAX (outer, bore + 0.4), thickness, offset, one_of (random, metals, G_N_ELEMENTS (metals)),
      coat);

  g_free (build_next (joint, TL_PART_PLAIN_WASHER, text));
}

static void
add_end (GRand *random, TlJoint **joint, double thread, guint index)
{
  double           wire = between (random, 1.0, 3.0);
  g_autofree char *text = g_strdup_printf (
      "metal=%s; section=%.6f mm2; metal-diameter=%.6f mm; role=line; end=%s; eye-bore=%.6f mm; "
      "eye-closes=%s; strip=%.3f mm; direction=%u deg; insulation=%s; insulation-diameter=%.6f mm",
      one_of (random, wires, 2), wire * wire * G_PI / 4.0, wire,
      g_rand_int_range (random, 0, 5) == 0 ? "hook" : "eye", thread * between (random, 1.0, 1.6),
      g_rand_boolean (random) ? "with-nut" : "against-nut", between (random, 15.0, 50.0),
      (180 + 120 * index + 30 * (guint) g_rand_int_range (random, 0, 2)) % 360,
      g_rand_boolean (random) ? "pvc" : "none", wire + between (random, 0.6, 2.0));
  g_autofree char *leg = build_next_leg (joint, text);

  if (g_rand_int_range (random, 0, 4) == 0)
    {
      double           hole = thread * between (random, 1.0, 1.2);
      g_autofree char *lug = g_strdup_printf (
          "eye-bore=%.6f mm; width=%.6f mm; thickness=%.4f mm; outer=%.4f mm; bore=%.4f mm; "
          "length=10 mm; material=copper; coating=tin-plate",
          hole, hole + between (random, 2.0, 6.0), between (random, 0.5, 2.5), wire + 1.6,
          wire + 0.2);

      g_free (build_layer (joint, TL_PART_LUG, tl_seat_on (leg), lug));
    }
}

static TlJoint *
random_stack (GRand *random)
{
  static const double threads[] = { 3.0, 4.0, 5.0, 6.0, 8.0 };
  TlJoint            *joint = tl_joint_new ();
  double              thread = threads[g_rand_int_range (random, 0, G_N_ELEMENTS (threads))];
  guint               legs = (guint) g_rand_int_range (random, 2, 4);
  g_autofree char    *bolt = g_strdup_printf (
         "thread=%g mm; height=%g mm; across-flats=%g mm; bearing-diameter=%g mm; "
            "length=%.3f mm; material=%s",
         thread, thread * 0.7, thread * 1.6, thread * 1.4, between (random, 12.0, 40.0),
         one_of (random, metals, G_N_ELEMENTS (metals)));
  g_autofree char *nut = g_strdup_printf (
      "thread=%g mm; height=%g mm; across-flats=%g mm; bearing-diameter=%g mm; material=%s", thread,
      thread * 0.9, thread * 1.6, thread * 1.4, one_of (random, metals, G_N_ELEMENTS (metals)));

  g_free (build_next (&joint, TL_PART_BOLT, bolt));
  for (guint i = 0; i < legs; i++)
    {
      for (gint k = g_rand_int_range (random, 0, 3); k > 0; k--)
        add_washer (random, &joint, thread);
      add_end (random, &joint, thread, i);
    }
  for (gint k = g_rand_int_range (random, 0, 3); k > 0; k--)
    add_washer (random, &joint, thread);
  g_free (build_next (&joint, TL_PART_NUT, nut));
  return joint;
}

/* --- random sleeves --- */

static TlJoint *
random_sleeve (GRand *random)
{
  TlJoint         *joint = tl_joint_new ();
  guint            legs = (guint) g_rand_int_range (random, 2, 4);
  double           wire = between (random, 1.0, 4.0), length = between (random, 8.0, 40.0);
  double           bore = wire * between (random, 1.0, 3.0);
  g_autofree char *text =
      g_strdup_printf ("length=%.4f mm; outer=%.6f mm; bore=%.6f mm; material=%s%s", length,
                       bore + between (random, 0.8, 3.0), bore, one_of (random, wires, 2),
                       g_rand_int_range (random, 0, 4) == 0 ? "; die=4 mm" : "");
  g_autofree char *sleeve = build_layer (&joint, TL_PART_SLEEVE, tl_seat_none (), text);

  for (guint i = 0; i < legs; i++)
    {
      double metal = wire * between (random, 0.5, 1.0),
             inserted = between (random, 0.0, length * 1.05);
      g_autofree char *leg = NULL;

      if (g_rand_int_range (random, 0, 3) == 0)
        inserted = length / 2.0; /* butted */
      leg =
          g_strdup_printf ("metal=%s; section=%.6f mm2; metal-diameter=%.6f mm; role=line; "
                           "strands=%d; strip=%.6f mm; "
                           "insertion=%.6f mm; insulation=pvc; insulation-diameter=%.6f mm",
                           one_of (random, wires, 2), metal * metal * G_PI / 4.0, metal,
                           g_rand_boolean (random) ? 1 : 30, inserted + between (random, 0.0, 3.0),
                           inserted, metal + between (random, 0.6, 2.0));
      g_free (
          build_leg (&joint, tl_seat_port (sleeve, (guint) g_rand_int_range (random, 1, 3)), leg));
    }
  return joint;
}

/* --- random terminals and splices --- */

static void
add_ported (GRand *random, TlJoint **joint, const char *terminal, guint port, double most,
            double length)
{
  double           metal = most * between (random, 0.3, 1.02);
  g_autofree char *text = g_strdup_printf (
      "metal=%s; section=%.6f mm2; metal-diameter=%.6f mm; role=line; strands=1; strip=%.4f mm; "
      "insulation=pvc; insulation-diameter=%.6f mm",
      one_of (random, wires, 2), metal * metal * G_PI / 4.0, metal,
      length * between (random, 0.2, 1.1), metal + between (random, 0.3, 2.0));
  g_autofree char *leg = build_leg (joint, tl_seat_port (terminal, port), text);

  if (g_rand_int_range (random, 0, 4) == 0)
    build_fact (joint, leg, "insertion=2 mm");
}

static TlJoint *
random_terminal (GRand *random)
{
  static const char *const forms[] = { "tunnel",      "saddle", "leaf-spring", "cage-spring",
                                       "device", "clamp",  "piercing" };
  TlJoint         *joint = tl_joint_new ();
  gboolean         is_branch = g_rand_int_range (random, 0, 4) == 0;
  guint            ports = is_branch ? 3 : (guint) g_rand_int_range (random, 1, 7);
  double           bore = between (random, 2.0, 6.0), length = between (random, 8.0, 24.0);
  double           thread = bore * between (random, 0.4, 0.75);
  double           wall = between (random, 0.2, 1.5);
  g_autofree char *text = g_strdup_printf (
      "terminal-form=%s; ports=%u; bore=%.5f mm; length=%.4f mm; width=%.4f mm; height=%.4f mm; "
      "thread=%.4f mm; material=%s; screws=%d%s",
      one_of (random, forms, G_N_ELEMENTS (forms)), ports, bore, length,
      (bore + 2.0 * wall) * ((ports + 3) / 4), (bore + 2.0 * wall) * (ports > 2 ? 2 : 1), thread,
      one_of (random, metals, G_N_ELEMENTS (metals)), g_rand_int_range (random, 1, 3),
      g_rand_boolean (random) ? "; body-material=polyolefin" : "");
  g_autofree char *terminal = build_layer (
      &joint, is_branch ? TL_PART_BRANCH : TL_PART_TERMINAL, tl_seat_stack (0), text);

  for (guint port = 1; port <= ports; port++)
    {
      gint legs = is_branch ? port != 2 : g_rand_int_range (random, 0, 3);

      for (gint i = 0; i < legs && joint->legs->len < TL_JOINT_MAX_LEGS; i++)
        add_ported (random, &joint, terminal, port, legs > 1 ? bore / 2.0 : bore,
                    is_branch ? 1.2 * length : length);
    }
  return joint;
}

static TlJoint *
random_splice (GRand *random)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *first = NULL;

  for (gint i = g_rand_int_range (random, 2, 5); i > 0; i--)
    {
      double           metal = between (random, 1.0, 3.0);
      g_autofree char *text = g_strdup_printf (
          "metal=%s; section=%.6f mm2; metal-diameter=%.6f mm; role=line; strands=1; strip=%.4f "
          "mm; insulation=pvc; insulation-diameter=%.6f mm",
          one_of (random, wires, 2), metal * metal * G_PI / 4.0, metal,
          between (random, 8.0, 30.0), metal + between (random, 0.3, 2.0));

      if (first == NULL)
        first = build_leg (&joint, tl_seat_none (), text);
      else
        g_free (build_leg (&joint, tl_seat_around (first, first), text));
    }
  return joint;
}

/* --- comparing --- */

static const TlContact *
contact_of (const TlAssembly *assembly, guint a, guint b)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);

      if ((contact->a == a && contact->b == b) || (contact->a == b && contact->b == a))
        return contact;
    }
  return NULL;
}

static gboolean
lies_in_stack (const TlAssembly *assembly, guint body)
{
  TlBodyRole role = tl_assembly_body (assembly, body)->role;

  return role == TL_BODY_HEAD || role == TL_BODY_NUT || role == TL_BODY_WASHER
         || role == TL_BODY_EYE || role == TL_BODY_TANG;
}

static double
tolerance_of (const TlAssembly *assembly, guint a, guint b)
{
  /* Past plates and neighbours too, the engine's line starts or ends at a nearest point. */
  if (assembly->family == TL_FAMILY_TERMINAL)
    return SKEW_MM;
  for (guint i = 0; i < 2; i++)
    {
      const TlBody *body = tl_assembly_body (assembly, i == 0 ? a : b);

      if (assembly->family == TL_FAMILY_STACK
          && (body->role == TL_BODY_EYE || body->role == TL_BODY_TANG
              || body->role == TL_BODY_LUG_BARREL || body->role == TL_BODY_CORE
              || fabs (g_array_index (body->solids, TlSolid, 0).u_mm) > 0.0))
        return SKEW_MM;
    }
  return TOLERANCE_MM;
}

/* TRUE if tried lines agree with what the engine says of the pair. */
static gboolean
agrees (const TlAssembly *assembly, const TlContact *contact, double tried, double seen_through,
        double tolerance)
{
  gboolean is_eye = contact != NULL && lies_in_stack (assembly, contact->a)
                    && lies_in_stack (assembly, contact->b)
                    && (tl_assembly_body (assembly, contact->a)->role == TL_BODY_EYE
                        || tl_assembly_body (assembly, contact->b)->role == TL_BODY_EYE);

  if (contact == NULL)
    return tried >= BRIDGE_MM - tolerance;
  if (contact->kind == TL_CONTACT_MAY_BRIDGE)
    return fabs (tried - contact->distance_mm) <= tolerance
           || (tried >= BRIDGE_MM - tolerance && contact->distance_mm >= BRIDGE_MM - tolerance);
  /* A face that ends short of the crest of an eye lies on its slope. */
  if (is_eye && assembly->family == TL_FAMILY_STACK)
    return seen_through < BRIDGE_MM;
  /* A press closes what stands open before it; a thread and an eye that is spread give no flat
   * face. */
  if (contact->kind == TL_CONTACT_PRESSED)
    return assembly->family == TL_FAMILY_SLEEVE || seen_through < BRIDGE_MM;
  return seen_through <= FACE_MM;
}

static gboolean
compare_pair (const TlAssembly *assembly, guint a, guint b, GRand *random)
{
  const TlBody    *first = assembly->bodies->pdata[a], *second = assembly->bodies->pdata[b];
  const TlContact *contact = contact_of (assembly, a, b);
  gboolean         is_faced = contact != NULL && contact->kind != TL_CONTACT_MAY_BRIDGE;
  double tried = BRIDGE_MM, through = BRIDGE_MM, tolerance = tolerance_of (assembly, a, b);

  for (guint samples = FEW; samples <= MANY; samples *= 10)
    {
      if (is_faced)
        through = MIN (through, space_distance (assembly, a, b, BRIDGE_MM, samples, random));
      else
        tried = MIN (tried, space_free_distance (assembly, a, b, BRIDGE_MM, samples, random));
      if (agrees (assembly, contact, tried, through, tolerance))
        return TRUE;
    }
  /* A line that the engine claims is tried once more where it claims it, ever closer. */
  for (double around = CLAIM_MM; around > CLAIM_MM / 30.0; around /= 5.0)
    {
      if (contact != NULL && !is_faced)
        tried = MIN (tried, space_free_distance_at (assembly, a, b, BRIDGE_MM, MANY, random,
                                                    contact->at_x_mm, contact->at_z_mm, around));
      if (agrees (assembly, contact, tried, through, tolerance))
        return TRUE;
    }
  g_test_message ("%s and %s: engine %s %.4f mm, tried %.4f mm, seen through %.4f mm", first->id,
                  second->id, contact != NULL ? tl_contact_kind_word (contact->kind) : "nothing",
                  contact != NULL ? contact->distance_mm : -1.0, tried, through);
  return FALSE;
}

static void
show_bodies (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      for (guint k = 0; k < body->solids->len; k++)
        {
          const TlSolid *s = &g_array_index (body->solids, TlSolid, k);

          g_test_message (
              "%s kind %d: %.4f..%.4f inner %.4f outer %.4f at %.4f, %.4f; rod %.3f %.3f "
              "%.3f to %.3f %.3f %.3f; direction %.0f, arc from %.0f by %.2f, length %.3f",
              body->id, s->kind, s->start_mm, s->end_mm, s->inner_mm, s->outer_mm, s->u_mm, s->v_mm,
              s->x0_mm, s->y0_mm, s->z0_mm, s->x1_mm, s->y1_mm, s->z1_mm, s->direction_deg,
              s->arc_start_deg, s->turn_ratio, s->length_mm);
        }
    }
}

/* Conductors that do not go in beside each other lie in each other: nothing to compare. */
static gboolean
does_not_fit (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->problems->len; i++)
    if (g_array_index (assembly->problems, TlProblem, i).field == TL_FIELD_BORE)
      return TRUE;
  return FALSE;
}

static guint
compare_joint (const TlJoint *joint, GRand *random)
{
  TlAssembly *assembly = tl_assembly_new (joint, build_stock ());
  guint       failed = 0;

  for (guint a = 0; a < assembly->bodies->len; a++)
    for (guint b = a + 1; b < assembly->bodies->len && !does_not_fit (assembly); b++)
      {
        const TlBody *first = assembly->bodies->pdata[a], *second = assembly->bodies->pdata[b];

        if (first->is_metal && second->is_metal && !g_str_equal (first->owner, second->owner)
            && !compare_pair (assembly, a, b, random))
          failed++;
      }
  if (failed > 0)
    show_bodies (assembly);
  tl_assembly_unref (assembly);
  return failed;
}

typedef TlJoint *(*MakeJoint) (GRand *random);

static void
compare_many (guint64 seed, guint count, MakeJoint make)
{
  guint failed = 0;

  g_test_message ("seed %" G_GUINT64_FORMAT, seed);
  for (guint i = 0; i < count; i++)
    {
      GRand *random = g_rand_new_with_seed ((guint32) (seed + i));
      g_autoptr (TlJoint) joint = make (random);
      guint wrong = compare_joint (joint, random);

      if (wrong > 0)
        g_test_message ("joint %u of seed %" G_GUINT64_FORMAT ": %u pairs differ", i, seed, wrong);
      failed += wrong;
      g_rand_free (random);
    }
  g_assert_cmpuint (failed, ==, 0);
}

static void
test_stacks (gconstpointer data)
{
  const Run *run = data;

  compare_many (run->seed, run->stacks, random_stack);
}

static void
test_sleeves (gconstpointer data)
{
  const Run *run = data;

  compare_many (run->seed, run->sleeves, random_sleeve);
}

static void
test_terminals (gconstpointer data)
{
  const Run *run = data;

  compare_many (run->seed, run->terminals, random_terminal);
}

static void
test_splices (gconstpointer data)
{
  const Run *run = data;

  compare_many (run->seed, run->splices, random_splice);
}

/* The trying itself, on solids whose distance anybody can work out. */
static void
test_trying (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  GRand      *random = g_rand_new_with_seed (1);
  TlAssembly *assembly;
  guint       upper, lower;

  g_free (build_next (&joint, TL_PART_BOLT, BUILD_BOLT_M5));
  g_free (build_next (&joint, TL_PART_LARGE_WASHER,
                      "outer=15 mm; bore=5.3 mm; thickness=1 mm; material=steel"));
  g_free (build_next (&joint, TL_PART_PLAIN_WASHER,
                      "outer=10 mm; bore=5.3 mm; thickness=0.5 mm; material=brass"));
  g_free (build_next (&joint, TL_PART_LARGE_WASHER,
                      "outer=15 mm; bore=5.3 mm; thickness=1 mm; material=zinc"));
  assembly = tl_assembly_new (joint, build_stock ());
  g_assert_nonnull (tl_assembly_find_body (assembly, "layer-2", TL_BODY_WASHER, &upper));
  g_assert_nonnull (tl_assembly_find_body (assembly, "layer-4", TL_BODY_WASHER, &lower));
  /* 0.5 mm of washer between two wider ones: they face each other at that distance. */
  g_assert_cmpfloat_with_epsilon (space_free_distance (assembly, upper, lower, 1.0, FEW, random),
                                  0.5, 0.01);
  g_assert_cmpfloat_with_epsilon (space_distance (assembly, upper, lower, 1.0, FEW, random), 0.5,
                                  0.01);
  tl_assembly_unref (assembly);
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  const char *seed = g_getenv ("TINLAP_SEED");
  guint       times = g_strcmp0 (g_getenv ("TINLAP_LONG"), "1") == 0 ? 10 : 1;
  Run         run = { seed != NULL ? g_ascii_strtoull (seed, NULL, 10) : 20260101, 250 * times,
              300 * times, 40 * times, 40 * times };

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/trying", test_trying);
  g_test_add_data_func ("/geometry/stacks", &run, test_stacks);
  g_test_add_data_func ("/geometry/sleeves", &run, test_sleeves);
  g_test_add_data_func ("/geometry/terminals", &run, test_terminals);
  g_test_add_data_func ("/geometry/splices", &run, test_splices);
  return g_test_run ();
}
