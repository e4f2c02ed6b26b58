/* test-places.c: where parts may go, and the sentence where they may not.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/places.h"
#include "build.h"

#include <string.h>

#define EYE "metal=copper; section=2.5 mm2; role=line; end=eye; eye-bore=5.3 mm; strip=30 mm; "

static const char *
first_part (TlPartKind kind, double least_thread)
{
  const GPtrArray *parts = tl_stock_parts (build_stock ());

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = parts->pdata[i];

      if (part->kind == kind
          && tl_facts_number (part->facts, TL_FIELD_THREAD, least_thread) == least_thread
          && !tl_facts_has (part->facts, TL_FIELD_OTHER_FACE))
        return part->id;
    }
  g_error ("the stock has no part of kind %s", tl_part_kind_word (kind));
}

static TlJoint *
small_stack (void)
{
  TlJoint *joint = tl_joint_new ();

  g_free (build_next (&joint, TL_PART_BOLT, BUILD_BOLT_M5));
  g_free (build_next_leg (&joint, EYE));
  g_free (build_next (&joint, TL_PART_PLAIN_WASHER,
                      "outer=10 mm; bore=5.3 mm; thickness=1 mm; material=steel"));
  g_free (build_next (&joint, TL_PART_NUT, BUILD_NUT_M5));
  return joint;
}

static const TlPlace *
place_at (const GArray *places, guint gap)
{
  for (guint i = 0; i < places->len; i++)
    {
      const TlPlace *place = &g_array_index (places, TlPlace, i);

      if (place->seat.kind == TL_SEAT_STACK && place->seat.place == gap)
        return place;
    }
  return NULL;
}

static void
check_refusal (const TlPlace *place, const char *sentence)
{
  g_autofree char *text = NULL;

  g_assert_nonnull (place);
  g_assert_false (place->takes);
  text = tl_place_refusal (place, tl_language_plain ());
  g_assert_cmpstr (text, ==, sentence);
}

static void
test_washer (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  g_autoptr (GArray) fits = tl_places_for (assembly, first_part (TL_PART_PLAIN_WASHER, 5.0), NULL);
  g_autoptr (GArray) small = tl_places_for (assembly, first_part (TL_PART_PLAIN_WASHER, 4.0), NULL);

  g_assert_cmpuint (fits->len, ==, 5);
  check_refusal (place_at (fits, 0), "Nothing goes above the head.");
  for (guint gap = 1; gap <= 3; gap++)
    g_assert_true (place_at (fits, gap)->takes);
  check_refusal (place_at (fits, 4), "Nothing goes outside the nut.");
  check_refusal (place_at (small, 1), "Not here: bore 4.3\u202fmm, bolt 5\u202fmm.");
}

static void
test_moving (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  g_autoptr (GArray) places = tl_places_for (assembly, NULL, "layer-3");

  /* Taken out, it leaves three: gaps 0 to 3, and gap 2 is where it came from. */
  g_assert_cmpuint (places->len, ==, 3);
  g_assert_null (place_at (places, 2));
  g_assert_true (place_at (places, 1)->takes);
  check_refusal (place_at (places, 3), "Nothing goes outside the nut.");
}

static void
test_bolt_and_nut (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (TlJoint) whole = small_stack ();
  g_autoptr (TlAssembly) assembly = NULL, complete = tl_assembly_new (whole, build_stock ());
  g_autoptr (GArray) bolts = NULL, nuts = NULL, second = NULL;

  g_free (build_next (&joint, TL_PART_PLAIN_WASHER,
                      "outer=10 mm; bore=5.3 mm; thickness=1 mm; material=steel"));
  assembly = tl_assembly_new (joint, build_stock ());
  bolts = tl_places_for (assembly, first_part (TL_PART_BOLT, 5.0), NULL);
  nuts = tl_places_for (assembly, first_part (TL_PART_NUT, 5.0), NULL);
  second = tl_places_for (complete, first_part (TL_PART_BOLT, 5.0), NULL);
  g_assert_true (place_at (bolts, 0)->takes);
  check_refusal (place_at (bolts, 1), "Not here: the head of the bolt comes first.");
  g_assert_true (place_at (nuts, 1)->takes);
  check_refusal (place_at (nuts, 0), "Not here: the nut comes last.");
  check_refusal (place_at (second, 0), "Not here: the stack has a bolt already.");
}

static void
test_conductor (void)
{
  g_autoptr (TlJoint) empty = tl_joint_new ();
  g_autoptr (TlJoint) stack = small_stack ();
  g_autoptr (TlJoint) sleeve = tl_joint_new ();
  const char *part = first_part (TL_PART_CONDUCTOR, 0.0);
  g_autoptr (TlAssembly) nothing = tl_assembly_new (empty, build_stock ());
  g_autoptr (TlAssembly) bolted = tl_assembly_new (stack, build_stock ());
  g_autoptr (TlAssembly) pressed = NULL;
  g_autoptr (GArray) loose = tl_places_for (nothing, part, NULL);
  g_autoptr (GArray) gaps = tl_places_for (bolted, part, NULL);
  g_autoptr (GArray) mouths = NULL;

  g_assert_cmpuint (loose->len, ==, 1);
  g_assert_cmpint (g_array_index (loose, TlPlace, 0).seat.kind, ==, TL_SEAT_NONE);
  g_assert_true (g_array_index (loose, TlPlace, 0).takes);
  g_assert_true (place_at (gaps, 1)->takes);

  g_free (build_layer (&sleeve, TL_PART_SLEEVE, tl_seat_none (),
                       "length=30 mm; outer=60 mm; bore=50 mm; material=copper"));
  g_free (build_leg (&sleeve, tl_seat_port ("layer-1", 1),
                     "metal=copper; section=2.5 mm2; strip=15 mm"));
  pressed = tl_assembly_new (sleeve, build_stock ());
  mouths = tl_places_for (pressed, part, NULL);
  for (guint i = 0; i < mouths->len; i++)
    g_assert_cmpint (g_array_index (mouths, TlPlace, i).seat.kind, !=, TL_SEAT_STACK);
}

static void
test_ferrule (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (TlAssembly) assembly = NULL;
  g_autoptr (GArray) places = NULL;

  g_free (build_leg (&joint, tl_seat_none (), "metal=aluminium; section=2.5 mm2; class=class-1"));
  g_free (build_leg (&joint, tl_seat_none (), "metal=copper; section=2.5 mm2; class=class-5"));
  assembly = tl_assembly_new (joint, build_stock ());
  places = tl_places_for (assembly, first_part (TL_PART_FERRULE, 0.0), NULL);
  g_assert_cmpuint (places->len, ==, 2);
  check_refusal (&g_array_index (places, TlPlace, 0),
                 "Not here: a ferrule goes on strands, this wire is solid.");
  g_assert_true (g_array_index (places, TlPlace, 1).takes);
}

static void
test_box (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  g_autoptr (GArray) places = tl_places_for (assembly, first_part (TL_PART_BOX, 0.0), NULL);
  g_autoptr (GArray) unknown = tl_places_for (assembly, "no-such-part", NULL);

  check_refusal (&g_array_index (places, TlPlace, 0),
                 "Not on the bench: the box is chosen for the site.");
  g_assert_cmpuint (unknown->len, ==, 0);
}

/* A terminal of three mouths takes a conductor in each; one thicker than the bore is refused with both figures. */
static void
test_mouths (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (TlAssembly) assembly = NULL;
  g_autoptr (GArray) thin = NULL, thick = NULL;
  g_autofree char *fits = NULL, *broad = NULL;

  g_free (build_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0),
                       "terminal-form=tunnel; ports=3; bore=3 mm; length=18 mm; thread=3 mm; "
                       "material=brass"));
  fits =
      build_leg (&joint, tl_seat_none (), "metal=copper; section=2.5 mm2; metal-diameter=1.78 mm");
  broad =
      build_leg (&joint, tl_seat_none (), "metal=copper; section=16 mm2; metal-diameter=4.5 mm");
  assembly = tl_assembly_new (joint, build_stock ());
  thin = tl_places_for (assembly, NULL, fits);
  thick = tl_places_for (assembly, NULL, broad);
  g_assert_cmpuint (thin->len, ==, 3);
  g_assert_cmpuint (thick->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      const TlPlace *place = &g_array_index (thin, TlPlace, i);

      g_assert_true (place->takes);
      g_assert_cmpint (place->seat.kind, ==, TL_SEAT_PORT);
      g_assert_cmpuint (place->seat.place, ==, i + 1);
      check_refusal (&g_array_index (thick, TlPlace, i),
                     "Not here: metal 4.5\u202fmm, bore 3\u202fmm.");
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/places/washer", test_washer);
  g_test_add_func ("/places/moving", test_moving);
  g_test_add_func ("/places/bolt-and-nut", test_bolt_and_nut);
  g_test_add_func ("/places/conductor", test_conductor);
  g_test_add_func ("/places/ferrule", test_ferrule);
  g_test_add_func ("/places/box", test_box);
  g_test_add_func ("/places/mouths", test_mouths);
  return g_test_run ();
}
