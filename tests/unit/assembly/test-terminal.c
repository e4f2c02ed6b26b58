/* test-terminal.c: terminals, branch connectors, splices and bimetal parts.
 *
 * Figures come from the cases named beside them; where none is named the figure is plain geometry that the comment works
 * out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "families.h"
#include "assembly/heat-model.h"

#include <math.h>
#include <string.h>

/* --- each family complete --- */

static void
test_builds (gconstpointer data)
{
  const TestFamily *family = data;
  g_autoptr (TlJoint) joint = family->make ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());

  g_assert_cmpint (assembly->family, ==, family->family);
  for (guint i = 0; i < assembly->problems->len; i++)
    g_test_message ("%s: %s", g_array_index (assembly->problems, TlProblem, i).owner,
                    g_array_index (assembly->problems, TlProblem, i).message);
  g_assert_cmpuint (assembly->problems->len, ==, 0);
  /* All that was put in has its place and number. */
  g_assert_cmpuint (assembly->order->len, ==, joint->legs->len + joint->layers->len);
  g_assert_cmpfloat (assembly->packed_length_mm, >, 0.0);
}

/* Every conductor has a pressed contact, so that current gets to it. */
static void
test_is_pressed (gconstpointer data)
{
  const TestFamily *family = data;
  g_autoptr (TlJoint) joint = family->make ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlLeg *leg = joint->legs->pdata[i];
      gboolean     found = FALSE;

      for (guint k = 0; k < assembly->contacts->len; k++)
        {
          const TlContact *contact = &g_array_index (assembly->contacts, TlContact, k);

          found |= contact->kind == TL_CONTACT_PRESSED
                   && (g_str_equal (tl_assembly_body (assembly, contact->a)->owner, leg->id)
                       || g_str_equal (tl_assembly_body (assembly, contact->b)->owner, leg->id));
        }
      g_assert_true (found);
    }
}

/* Heat is reckoned; more current, more heat; nothing is colder than the air of the room. */
static void
test_heat (gconstpointer data)
{
  const TestFamily *family = data;
  g_autoptr (TlJoint) joint = family->make ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const char *reason = NULL, *owner = NULL;
  TlField     field;
  g_autoptr (TlHeatModel) model = tl_heat_model_new (assembly, &reason, &owner, &field);
  TlHeatChange change;
  double       hot_C[2];
  TlRange      ohm;

  if (model == NULL)
    g_error ("%s", reason);
  tl_heat_change_init (&change);
  for (guint i = 0; i < 2; i++)
    {
      g_auto (TlNetResult) result = { 0 };
      g_autoptr (GError) error = NULL;

      change.current_A = i == 0 ? 5.0 : 10.0;
      g_assert_true (tl_heat_model_solve (model, &change, NULL, &result, &error));
      g_assert_no_error (error);
      g_assert_cmpint (result.status, ==, TL_NET_OK);
      hot_C[i] = result.value[TL_NET_HOT_C];
    }
  g_assert_cmpfloat (hot_C[0], >, 30.0);
  g_assert_cmpfloat (hot_C[1], >, hot_C[0]);
  ohm = tl_heat_model_joint_ohm (model);
  g_assert_cmpfloat (ohm.low, <=, ohm.best);
  g_assert_cmpfloat (ohm.best, <, ohm.high);
}

/* --- screw terminals --- */

/* F = T/(K d): 0.5 N m on M3 with K 0.2 presses with 833 N (short form of mechanical engineering handbooks). */
static void
test_screw_force (void)
{
  g_autoptr (TlJoint) joint = families_screw ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const TlContact *tip = build_contact (assembly, "layer-1/screw-1", "leg-2/core");
  const TlContact *floor = build_contact (assembly, "layer-1/metal", "leg-2/core");
  const TlContact *thread = build_contact (assembly, "layer-1/metal", "layer-1/screw-1");

  g_assert_nonnull (tip);
  g_assert_nonnull (floor);
  g_assert_nonnull (thread);
  g_assert_cmpint (tip->kind, ==, TL_CONTACT_PRESSED);
  g_assert_true (tip->is_line && floor->is_line);
  g_assert_cmpfloat_with_epsilon (tip->force_N.best, 0.5 / (0.2 * 0.003), 0.5);
  g_assert_cmpfloat_with_epsilon (floor->force_N.best, tip->force_N.best, 1e-9);
  g_assert_cmpfloat (tip->force_N.low, <, tip->force_N.best);
  g_assert_cmpstr (tip->surface_a, ==, "steel");
  g_assert_cmpstr (floor->surface_a, ==, "brass");
  /* the ferrule is what the other screw meets */
  g_assert_nonnull (build_contact (assembly, "layer-1/screw-2", "layer-4/ferrule"));
  g_assert_null (build_contact (assembly, "layer-1/screw-2", "leg-3/core"));
  g_assert_cmpfloat (assembly->terminal.clamp_N.best, ==, tip->force_N.best);
}

/* A plate stands between: then the screw meets no conductor. */
static void
test_saddle (void)
{
  g_autoptr (TlJoint) joint = families_screw ();
  g_autoptr (TlAssembly) assembly = NULL;

  build_fact (&joint, "layer-1", "terminal-form=saddle");
  assembly = tl_assembly_new (joint, build_stock ());
  g_assert_nonnull (build_contact (assembly, "layer-1/plate-1", "leg-2/core"));
  g_assert_nonnull (build_contact (assembly, "layer-1/plate-1", "layer-1/screw-1"));
  g_assert_null (build_contact (assembly, "layer-1/screw-1", "leg-2/core"));
}

/* Two under one plate share its force; they touch beside each other. */
static void
test_shared_clamp (void)
{
  g_autoptr (TlJoint) joint = families_device ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const TlContact *one = build_contact (assembly, "layer-1/plate-1", "leg-2/core");
  const TlContact *screw = build_contact (assembly, "layer-1/plate-1", "layer-1/screw-1");
  const TlContact *pair = build_contact (assembly, "leg-2/core", "leg-3/core");

  g_assert_nonnull (one);
  g_assert_nonnull (screw);
  g_assert_nonnull (pair);
  g_assert_cmpfloat_with_epsilon (2.0 * one->force_N.best, screw->force_N.best, 1e-9);
  g_assert_cmpint (pair->kind, ==, TL_CONTACT_TOUCHING);
  g_assert_cmpuint (assembly->terminal.legs[0], ==, 2);
}

/* Of two unequal ones under one flat plate the thin one is not held by it: its crest lies 1.78 - 1.2 = 0.58 mm lower. */
static void
test_unequal_under_plate (void)
{
  g_autoptr (TlJoint) joint = families_device ();
  g_autoptr (TlAssembly) assembly = NULL;
  const TlContact *thin;

  build_fact (&joint, "leg-3", "metal-diameter=1.2 mm");
  assembly = tl_assembly_new (joint, build_stock ());
  thin = build_contact (assembly, "layer-1/plate-1", "leg-3/core");
  g_assert_nonnull (thin);
  g_assert_cmpint (thin->kind, ==, TL_CONTACT_MAY_BRIDGE);
  g_assert_cmpfloat_with_epsilon (thin->distance_mm, 0.58, 1e-6);
}

static void
test_too_thick (void)
{
  g_autoptr (TlJoint) joint = families_screw ();
  g_autoptr (TlAssembly) assembly = NULL;
  const TlProblem *problem;

  build_fact (&joint, "leg-2", "metal-diameter=3.6 mm");
  assembly = tl_assembly_new (joint, build_stock ());
  problem = build_problem (assembly, "leg-2", "does not go into the terminal");
  g_assert_nonnull (problem);
  g_assert_false (problem->is_missing);
  g_assert_cmpfloat (problem->a, ==, 3.6);
  g_assert_cmpfloat (problem->b, ==, 3.4);
}

/* The screw stands at a quarter of 18 mm; 3 mm of wire do not get there. */
static void
test_not_held (void)
{
  g_autoptr (TlJoint) joint = families_screw ();
  g_autoptr (TlAssembly) assembly = NULL;
  const TlProblem *problem;

  build_fact (&joint, "leg-2", "insertion=3 mm");
  assembly = tl_assembly_new (joint, build_stock ());
  problem = build_problem (assembly, "leg-2", "is not held");
  g_assert_nonnull (problem);
  g_assert_cmpfloat_with_epsilon (problem->b, 4.5, 1e-9);
  g_assert_null (build_contact (assembly, "layer-1/screw-1", "leg-2/core"));
}

static void
test_missing (void)
{
  static const struct
  {
    TlField     field;
    const char *facts;
  } cases[] = {
    { TL_FIELD_TERMINAL_FORM, "bore=3 mm; length=18 mm; thread=3 mm; material=brass" },
    { TL_FIELD_BORE, "terminal-form=tunnel; length=18 mm; thread=3 mm; material=brass" },
    { TL_FIELD_LENGTH, "terminal-form=tunnel; bore=3 mm; thread=3 mm; material=brass" },
    { TL_FIELD_THREAD, "terminal-form=tunnel; bore=3 mm; length=18 mm; material=brass" },
    { TL_FIELD_MATERIAL, "terminal-form=tunnel; bore=3 mm; length=18 mm; thread=3 mm" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TlJoint) joint = tl_joint_new ();
      g_autoptr (TlAssembly) assembly = NULL;
      const TlProblem *problem;

      g_free (build_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0), cases[i].facts));
      assembly = tl_assembly_new (joint, build_stock ());
      problem = build_problem (assembly, "layer-1", "enter {field}");
      g_assert_nonnull (problem);
      g_assert_true (problem->is_missing);
      g_assert_cmpint (problem->field, ==, cases[i].field);
    }
}

/* --- springs --- */

static void
test_spring (void)
{
  g_autoptr (TlJoint) joint = families_spring ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const TlContact *spring = build_contact (assembly, "layer-1/spring-1", "leg-2/core");
  const TlContact *second = build_contact (assembly, "layer-1/spring-2", "leg-3/core");

  g_assert_nonnull (spring);
  g_assert_nonnull (second);
  g_assert_cmpfloat (spring->force_N.best, ==, 20.0);
  /* compound in mouth 1 closes that contact only */
  g_assert_cmpint (spring->closure, ==, TL_CLOSURE_COMPOUND);
  g_assert_cmpint (second->closure, ==, TL_CLOSURE_NONE);
}

/* --- branch --- */

/* The main conductor runs through: metal on both sides, one lead each way. */
static void
test_branch (void)
{
  g_autoptr (TlJoint) joint = families_branch ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const TlBody  *core = tl_assembly_find_body (assembly, "leg-2", TL_BODY_CORE, NULL);
  const TlSolid *bare = &g_array_index (core->solids, TlSolid, 0);

  g_assert_true (assembly->terminal.is_branch);
  g_assert_cmpuint (core->solids->len, ==, 3);
  g_assert_cmpfloat_with_epsilon (bare->start_mm, -2.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (bare->end_mm, 26.0, 1e-9);
}

static void
test_piercing (void)
{
  g_autoptr (TlJoint) joint = families_branch ();
  g_autoptr (TlAssembly) assembly = NULL;

  build_fact (&joint, "layer-1", "terminal-form=piercing");
  assembly = tl_assembly_new (joint, build_stock ());
  g_assert_nonnull (build_contact (assembly, "layer-1/plate-1", "leg-2/core"));
  /* it lies on its insulation */
  g_assert_null (build_contact (assembly, "layer-1/metal", "leg-2/core"));
}

/* --- splices --- */

static void
test_soldered (void)
{
  g_autoptr (TlJoint) joint = families_soldered ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const TlContact *pair = build_contact (assembly, "leg-1/core", "leg-2/core");

  g_assert_cmpstr (assembly->splice.form, ==, "soldered");
  g_assert_cmpstr (assembly->splice.layer, ==, "layer-3");
  /* the shorter strip */
  g_assert_cmpfloat (assembly->splice.overlap_mm, ==, 20.0);
  /* SnPb eutectic: 183 degC in handbooks, Sn60Pb40 is pasty to about 190 */
  g_assert_cmpfloat (assembly->splice.melting_C, >=, 183.0);
  g_assert_cmpfloat (assembly->splice.melting_C, <=, 191.0);
  g_assert_nonnull (pair);
  g_assert_cmpfloat (pair->force_N.best, ==, 0.0);
  g_assert_nonnull (build_contact (assembly, "layer-3/solder", "leg-1/core"));
  g_assert_true (assembly->seal.capped[1]);
}

/* Without solder, along each other: that is a twist. */
static void
test_twisted (void)
{
  g_autoptr (TlJoint) joint = families_soldered ();
  g_autoptr (TlJoint) bare = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (TlAssembly) assembly = NULL;

  bare = tl_edit_remove (joint, "layer-3", &error);
  g_assert_no_error (error);
  assembly = tl_assembly_new (bare, build_stock ());
  g_assert_cmpint (assembly->family, ==, TL_FAMILY_SPLICE);
  g_assert_cmpstr (assembly->splice.form, ==, "twisted");
  g_assert_null (assembly->splice.layer);
}

/* --- bimetal --- */

/* Flat of copper, barrel of aluminium; the washer shows copper to the nut and steel to the head. */
static void
test_bimetal_lug_and_washer (void)
{
  g_autoptr (TlJoint) joint = families_lug ();
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, build_stock ());
  const TlContact *head = build_contact (assembly, "layer-1/head", "layer-2/tang");
  const TlContact *above = build_contact (assembly, "layer-2/tang", "layer-4/washer");
  const TlContact *below = build_contact (assembly, "layer-4/washer", "leg-5/eye");
  const TlContact *barrel = build_contact (assembly, "layer-2/barrel", "leg-3/core");

  g_assert_nonnull (head);
  g_assert_nonnull (above);
  g_assert_nonnull (below);
  g_assert_nonnull (barrel);
  g_assert_cmpstr (head->surface_b, ==, "copper");
  g_assert_cmpstr (above->surface_b, ==, "steel");
  g_assert_cmpstr (below->surface_a, ==, "copper");
  g_assert_cmpstr (barrel->surface_a, ==, "aluminium");
  g_assert_null (build_contact (assembly, "layer-2/tang", "leg-3/core"));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char   *name;
    GTestDataFunc test;
  } checks[] = { { "builds", test_builds },
                 { "is-pressed", test_is_pressed },
                 { "heat", test_heat } };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; test_families[i].name != NULL; i++)
    for (guint k = 0; k < G_N_ELEMENTS (checks); k++)
      {
        g_autofree char *path =
            g_strdup_printf ("/families/%s/%s", test_families[i].name, checks[k].name);

        g_test_add_data_func (path, &test_families[i], checks[k].test);
      }
  g_test_add_func ("/terminal/screw-force", test_screw_force);
  g_test_add_func ("/terminal/saddle", test_saddle);
  g_test_add_func ("/terminal/shared-clamp", test_shared_clamp);
  g_test_add_func ("/terminal/unequal-under-plate", test_unequal_under_plate);
  g_test_add_func ("/terminal/too-thick", test_too_thick);
  g_test_add_func ("/terminal/not-held", test_not_held);
  g_test_add_func ("/terminal/missing", test_missing);
  g_test_add_func ("/terminal/spring", test_spring);
  g_test_add_func ("/terminal/branch", test_branch);
  g_test_add_func ("/terminal/piercing", test_piercing);
  g_test_add_func ("/splice/soldered", test_soldered);
  g_test_add_func ("/splice/twisted", test_twisted);
  g_test_add_func ("/bimetal/lug-and-washer", test_bimetal_lug_and_washer);
  return g_test_run ();
}
