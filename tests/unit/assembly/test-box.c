/* test-box.c: where things lie in the box: lengths by hand, nothing through anything else, nothing through the wall.
 *
 * All of it is geometry in closed form; the sizes of the families are made up.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/box.h"
#include "families.h"

#include <math.h>

#define NEAR 1e-6

static TlBoxLayout *
layout_of (TlJoint *joint, const char *site)
{
  g_autoptr (TlAssembly) assembly = NULL;

  build_fact (&joint, "site", site);
  assembly = tl_assembly_new (joint, build_stock ());
  tl_joint_unref (joint);
  return tl_box_layout_new (assembly);
}

static const TlBoxThing *
thing_at (const TlBoxLayout *layout, guint index)
{
  return &g_array_index (layout->things, TlBoxThing, index);
}

/* Half chords of a circle of radius 30: 3-4-5. */
static void
test_chord (void)
{
  g_autoptr (TlBoxLayout) round = layout_of (families_spring (), "shape=round; inner-width=60 mm; inner-depth=40 mm");
  g_autoptr (TlBoxLayout) square = layout_of (families_spring (), "shape=rectangular; inner-width=60 mm; inner-height=80 mm; inner-depth=40 mm");

  g_assert_cmpfloat_with_epsilon (tl_box_half_length_mm (round, 0.0), 30.0, NEAR);
  g_assert_cmpfloat_with_epsilon (tl_box_half_length_mm (round, 18.0), 24.0, NEAR);
  g_assert_cmpfloat_with_epsilon (tl_box_half_length_mm (round, -24.0), 18.0, NEAR);
  g_assert_cmpfloat (tl_box_half_length_mm (round, 31.0), <, 0.0);
  /* joints lie along the longer side */
  g_assert_cmpfloat_with_epsilon (square->length_mm, 80.0, NEAR);
  g_assert_cmpfloat_with_epsilon (tl_box_half_length_mm (square, 30.0), 40.0, NEAR);
  g_assert_cmpfloat (tl_box_half_length_mm (square, 30.5), <, 0.0);
}

static TlJoint *
screw_with_bends (void)
{
  TlJoint *joint = families_screw ();

  build_fact (&joint, "leg-2", "bend-radius=12 mm");
  build_fact (&joint, "leg-3", "bend-radius=8 mm");
  return joint;
}

/* 12 + 3.4 at the left end, 8 + 3.1 at the right: the joint and 26.5 mm. */
static void
test_length (void)
{
  static const double lacks[] = { 0.0, 0.4 };
  g_autoptr (TlJoint) joint = screw_with_bends ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  double wanted = assembly->packed_length_mm + 12.0 + 3.4 + 8.0 + 3.1;

  g_assert_cmpfloat (assembly->packed_length_mm, >, 0.0);
  for (guint i = 0; i < G_N_ELEMENTS (lacks); i++)
    {
      g_autofree char *site = g_strdup_printf ("shape=rectangular; inner-width=%.6f mm; inner-height=30 mm; inner-depth=45 mm", wanted - lacks[i]);
      g_autoptr (TlBoxLayout) layout = layout_of (screw_with_bends (), site);

      g_assert_nonnull (layout);
      g_assert_cmpfloat_with_epsilon (layout->wanted_length_mm, wanted, NEAR);
      g_assert_cmpuint (layout->fitting, ==, lacks[i] > 0.0 ? 0 : 1);
      g_assert_cmpfloat_with_epsilon (layout->over_mm, lacks[i], 1e-3);
      g_assert_cmpint (layout->over_way, ==, lacks[i] > 0.0 ? TL_BOX_WAY_LENGTH : TL_BOX_WAY_NONE);
    }
}

/* A bend takes its radius and the conductor, along the joint and towards the back or the wall. */
static void
test_bend (void)
{
  static const char *const sites[] = { "shape=rectangular; inner-width=120 mm; inner-depth=60 mm",
                                       "shape=rectangular; inner-width=120 mm; inner-depth=18 mm" };

  for (guint i = 0; i < G_N_ELEMENTS (sites); i++)
    {
      g_autoptr (TlBoxLayout) layout = layout_of (screw_with_bends (), sites[i]);
      guint leads = 0;

      for (guint k = 0; k < layout->things->len; k++)
        {
          const TlBoxThing *lead = thing_at (layout, k);

          if (lead->kind != TL_BOX_LEAD)
            continue;
          leads++;
          g_assert_cmpint (lead->turns_back, ==, i == 0);
          g_assert_cmpfloat_with_epsilon (lead->x1_mm - lead->x0_mm, lead->straight_mm + lead->radius_mm + lead->diameter_mm, NEAR);
          g_assert_cmpfloat_with_epsilon (i == 0 ? lead->z1_mm - lead->z0_mm : lead->y1_mm - lead->y0_mm, lead->radius_mm + lead->diameter_mm, NEAR);
          g_assert_cmpfloat_with_epsilon (lead->radius_mm, lead->side < 0 ? 12.0 : 8.0, NEAR);
        }
      g_assert_cmpuint (leads, ==, 2);
    }
}

/* A conductor that is not cut leaves a branch connector at both ends, each other leg at one. */
static void
test_sides (void)
{
  for (guint i = 0; test_families[i].name != NULL; i++)
    {
      g_autoptr (TlJoint) joint = test_families[i].make ();
      g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
      g_autoptr (TlBoxLayout) layout = tl_box_layout_new (assembly);
      guint leads = 0;

      g_assert_nonnull (layout);
      for (guint k = 0; k < layout->things->len; k++)
        leads += thing_at (layout, k)->kind == TL_BOX_LEAD && thing_at (layout, k)->joint == 0;
      g_assert_cmpuint (leads, ==, joint->legs->len + (assembly->terminal.is_branch ? 1 : 0));
    }
}

/* --- nothing through anything else --- */

static gboolean
meet (double a0, double a1, double b0, double b1)
{
  return a0 < b1 - NEAR && b0 < a1 - NEAR;
}

static gboolean
collide (const TlBoxThing *a, const TlBoxThing *b)
{
  return meet (a->x0_mm, a->x1_mm, b->x0_mm, b->x1_mm) && meet (a->y0_mm, a->y1_mm, b->y0_mm, b->y1_mm)
         && meet (a->z0_mm, a->z1_mm, b->z0_mm, b->z1_mm);
}

/* The straight run of a lead beyond its bend: to the back, or to the wall. */
static TlBoxThing
run_of (const TlBoxLayout *layout, const TlBoxThing *lead)
{
  TlBoxThing run = *lead;

  if (lead->side < 0)
    run.x1_mm = run.x0_mm + lead->diameter_mm;
  else
    run.x0_mm = run.x1_mm - lead->diameter_mm;
  if (lead->turns_back)
    run.z1_mm = MAX (layout->depth_mm, run.z1_mm);
  else if (lead->side < 0)
    run.y0_mm = MIN (-layout->width_mm / 2.0, run.y0_mm);
  else
    run.y1_mm = MAX (layout->width_mm / 2.0, run.y1_mm);
  return run;
}

static void
check_apart (const TlBoxLayout *layout)
{
  for (guint i = 0; i < layout->things->len; i++)
    for (guint k = 0; k < layout->things->len; k++)
      {
        const TlBoxThing *a = thing_at (layout, i), *b = thing_at (layout, k);
        TlBoxThing run;

        if (a->kind == TL_BOX_SPARE || b->kind == TL_BOX_SPARE || i == k || a->over_mm > 0.0 || b->over_mm > 0.0)
          continue;
        if (a->kind != TL_BOX_LEAD && b->kind != TL_BOX_LEAD)
          g_assert_false (collide (a, b));
        if (a->kind != TL_BOX_LEAD || (b->kind != TL_BOX_DEVICE && a->joint == b->joint) || (layout->is_round && !a->turns_back))
          continue;
        run = run_of (layout, a);
        if (b->kind != TL_BOX_LEAD)
          g_assert_false (collide (&run, b));
        else
          {
            TlBoxThing other = layout->is_round && !b->turns_back ? *b : run_of (layout, b);

            if (collide (&run, &other))
              g_error ("things %u and %u of %u in a box of %g by %g by %g mm", i, k, layout->things->len, layout->length_mm,
                       layout->width_mm, layout->depth_mm);
          }
      }
}

/* Corners of what goes in lie inside the walls, whatever the layout says of itself. */
static void
check_inside (const TlBoxLayout *layout)
{
  for (guint i = 0; i < layout->things->len; i++)
    {
      const TlBoxThing *thing = thing_at (layout, i);

      g_assert_true (isfinite (thing->x0_mm + thing->y0_mm + thing->z0_mm + thing->x1_mm + thing->y1_mm + thing->z1_mm + thing->over_mm));
      g_assert_cmpfloat (thing->x0_mm, <, thing->x1_mm);
      if (thing->over_mm > 0.0 || thing->kind == TL_BOX_SPARE || thing->kind == TL_BOX_DEVICE)
        continue;
      g_assert_cmpfloat (thing->z0_mm, >=, -NEAR);
      g_assert_cmpfloat (thing->z1_mm, <=, layout->depth_mm + NEAR);
      for (guint corner = 0; corner < 4; corner++)
        {
          double x = corner & 1 ? thing->x1_mm : thing->x0_mm, y = corner & 2 ? thing->y1_mm : thing->y0_mm;

          if (layout->is_round)
            g_assert_cmpfloat (hypot (x, y), <=, layout->length_mm / 2.0 + NEAR);
          else
            {
              g_assert_cmpfloat (fabs (x), <=, layout->length_mm / 2.0 + NEAR);
              g_assert_cmpfloat (fabs (y), <=, layout->width_mm / 2.0 + NEAR);
            }
        }
    }
}

static void
test_all_families (void)
{
  static const char *const boxes[] = { "shape=round; inner-width=60 mm", "shape=round; inner-width=110 mm",
                                       "shape=rectangular; inner-width=100 mm; inner-height=94 mm",
                                       "shape=rectangular; inner-width=60 mm; inner-height=200 mm" };
  static const double depths[] = { 20.0, 36.0, 61.0, 120.0 };
  static const guint others[] = { 0, 2, 7, 40 };
  guint cases = 0, whole = 0, parts = 0;

  for (guint f = 0; test_families[f].name != NULL; f++)
    for (guint b = 0; b < G_N_ELEMENTS (boxes); b++)
      for (guint n = 0; n < G_N_ELEMENTS (others); n++)
        {
          guint before = 0;

          for (guint d = 0; d < G_N_ELEMENTS (depths); d++)
            {
              g_autofree char *site = g_strdup_printf ("%s; inner-depth=%g mm; same-joints=%u; devices=%u", boxes[b], depths[d], others[n], b % 2);
              g_autoptr (TlBoxLayout) layout = layout_of (test_families[f].make (), site);

              g_assert_nonnull (layout);
              g_assert_cmpuint (layout->joints, ==, 1 + others[n]);
              check_inside (layout);
              check_apart (layout);
              g_assert_cmpuint (layout->fitting + layout->left_out, <=, layout->joints);
              if (layout->over_mm <= 0.0)
                g_assert_cmpuint (layout->fitting, ==, layout->joints);
              /* a deeper box never takes fewer */
              g_assert_cmpuint (layout->fitting, >=, before);
              before = layout->fitting;
              cases++;
              whole += layout->fitting == layout->joints;
              parts += layout->fitting > 0 && layout->fitting < layout->joints;
            }
        }
  /* the boxes were chosen so that each of these happens */
  g_assert_cmpuint (whole, >, cases / 10);
  g_assert_cmpuint (parts, >, cases / 20);
}

static void
test_unknown (void)
{
  static const char *const sites[] = { "volume=100 cm3", "inner-width=60 mm", "inner-depth=40 mm" };
  g_autoptr (TlJoint) empty = tl_joint_new ();

  for (guint i = 0; i < G_N_ELEMENTS (sites); i++)
    {
      TlJoint *joint = tl_joint_new ();
      g_autofree char *sleeve = build_layer (&joint, TL_PART_SLEEVE, tl_seat_stack (0),
                                             "form=butt; length=30 mm; outer=6 mm; bore=4 mm; material=copper");
      g_autofree char *leg = build_leg (&joint, tl_seat_port (sleeve, 1),
                                        "metal=copper; section=2.5 mm2; class=class-1; metal-diameter=1.78 mm; insulation=pvc; "
                                        "insulation-diameter=3.4 mm; strip=12 mm; insertion=11 mm; surface=bright");

      g_assert_null (layout_of (joint, sites[i]));
    }
  build_fact (&empty, "site", "inner-width=60 mm; inner-depth=40 mm");
  {
    g_autoptr (TlAssembly) assembly = tl_assembly_new (empty, build_stock ());

    g_assert_null (tl_box_layout_new (assembly));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/assembly/box/chord", test_chord);
  g_test_add_func ("/assembly/box/length", test_length);
  g_test_add_func ("/assembly/box/bend", test_bend);
  g_test_add_func ("/assembly/box/sides", test_sides);
  g_test_add_func ("/assembly/box/all-families", test_all_families);
  g_test_add_func ("/assembly/box/unknown", test_unknown);
  return g_test_run ();
}
