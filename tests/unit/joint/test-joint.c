/* test-joint.c: the joint as a value: families, lookups, effective facts, what seats embrace.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

static void
test_family (gconstpointer data)
{
  const TjFamily *family = data;
  g_autoptr (TlJoint) joint = family->make ();

  g_assert_cmpuint (joint->legs->len, >=, 2);
  tj_assert_round_trip (joint);
}

static void
test_new (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (GPtrArray) stack = tl_joint_stack (joint);

  g_assert_cmpstr (joint->practice, ==, "iec-style");
  g_assert_cmpstr (joint->units, ==, "metric");
  g_assert_cmpuint (stack->len, ==, 0);
  g_assert_null (tl_joint_leg (joint, "leg-1"));
  g_assert_null (tl_joint_layer (joint, "layer-1"));
  g_assert_null (tl_joint_seat (joint, "leg-1"));
  tj_assert_round_trip (joint);
}

static void
assert_ids (GPtrArray *ids, const char *expected)
{
  g_ptr_array_add (ids, NULL);
  g_autofree char *joined = g_strjoinv (" ", (char **) ids->pdata);

  g_assert_cmpstr (joined, ==, expected);
  g_ptr_array_unref (ids);
}

static void
test_stack (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();

  assert_ids (tl_joint_stack (joint), "layer-3 leg-1 layer-5");
}

static void
assert_around (const TlJoint *joint, const char *from, const char *to, const char *expected)
{
  g_auto (TlSeat) seat = tl_seat_around (from, to);

  assert_ids (tl_joint_around (joint, &seat), expected);
}

static void
test_around (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  g_auto (TlSeat) none = tl_seat_none ();

  assert_around (joint, "leg-1", "leg-2", "leg-1 leg-2");
  assert_around (joint, "leg-2", "leg-2", "leg-2");
  assert_around (joint, "layer-5", "layer-3", "layer-3 leg-1 layer-5");
  assert_around (joint, "layer-3", "layer-6", "layer-3 layer-5 layer-6");
  assert_around (joint, "leg-2", "layer-6", "leg-2 layer-6");
  assert_ids (tl_joint_around (joint, &none), "");
}

static void
test_assumed (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autoptr (GArray) assumed = tl_joint_assumed (joint);

  g_assert_cmpuint (assumed->len, ==, 2);
  g_assert_cmpstr (g_array_index (assumed, TlAssumed, 0).owner, ==, "layer-3");
  g_assert_cmpint (g_array_index (assumed, TlAssumed, 0).fact->field, ==, TL_FIELD_TORQUE);
  g_assert_cmpstr (g_array_index (assumed, TlAssumed, 1).owner, ==, "duty");
}

static void
test_own_facts (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  const TlLeg   *leg = tl_joint_leg (joint, "leg-1");
  const TlLayer *layer = tl_joint_layer (joint, "layer-3");

  g_assert_cmpfloat (tl_leg_number (leg, NULL, TL_FIELD_SECTION, -1.0), ==, 2.5);
  g_assert_cmpfloat (tl_leg_number (leg, NULL, TL_FIELD_STRIP, -1.0), ==, -1.0);
  g_assert_cmpstr (tl_leg_word (leg, NULL, TL_FIELD_METAL, "?"), ==, "aluminium");
  g_assert_cmpstr (tl_leg_word (leg, NULL, TL_FIELD_TEMPER, "?"), ==, "?");
  g_assert_cmpfloat (tl_layer_number (layer, NULL, TL_FIELD_TORQUE, -1.0), ==, 2.0);
  g_assert_cmpstr (tl_layer_word (layer, NULL, TL_FIELD_COATING, "?"), ==, "?");
  g_assert_cmpstr (tl_joint_site_fact (joint, NULL, TL_FIELD_SURROUNDINGS)->word, ==, "damp");
  g_assert_null (tl_joint_site_fact (joint, NULL, TL_FIELD_SHAPE));
}

/* The stock fills what the person left open, and no more. */
static void
test_facts_of_the_stock (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (NULL, &error);
  g_assert_no_error (error);

  const GPtrArray *parts = tl_stock_parts (stock);
  const TlPart    *conductor = NULL;
  for (guint i = 0; i < parts->len && conductor == NULL; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      if (part->kind == TL_PART_CONDUCTOR && tl_facts_has (part->facts, TL_FIELD_SECTION)
          && tl_facts_has (part->facts, TL_FIELD_METAL))
        conductor = part;
    }
  g_assert_nonnull (conductor);

  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autofree char *id = NULL;
  g_auto (TlSeat) seat = tl_seat_stack (0);
  TlJoint *next = tl_edit_add_leg (joint, stock, conductor->id, NULL, &seat, &id, &error);
  tj_take (&joint, next, error);

  const TlLeg *leg = tl_joint_leg (joint, id);
  g_assert_cmpfloat (tl_leg_number (leg, stock, TL_FIELD_SECTION, -1.0), ==,
                     tl_facts_number (conductor->facts, TL_FIELD_SECTION, -2.0));
  g_assert_cmpfloat (tl_leg_number (leg, NULL, TL_FIELD_SECTION, -1.0), ==, -1.0);

  TlFact own = { .field = TL_FIELD_SECTION, .value = { 7.0, 7.0, 7.0 } };
  next = tl_edit_set_fact (joint, id, &own, &error);
  tj_take (&joint, next, error);
  g_assert_cmpfloat (tl_leg_number (tl_joint_leg (joint, id), stock, TL_FIELD_SECTION, -1.0), ==,
                     7.0);
}

static void
test_forms (void)
{
  const TlField *(*forms[]) (guint *) = { tl_leg_fields, tl_site_fields, tl_duty_fields };

  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      gboolean       seen[TL_N_FIELDS] = { FALSE };
      guint          count;
      const TlField *fields = forms[i](&count);
      g_assert_cmpuint (count, >, 0);
      for (guint k = 0; k < count; k++)
        {
          g_assert_false (seen[fields[k]]);
          seen[fields[k]] = TRUE;
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/joint/new", test_new);
  for (const TjFamily *family = tj_families; family->name != NULL; family++)
    {
      g_autofree char *path = g_strconcat ("/joint/family/", family->name, NULL);
      g_test_add_data_func (path, family, test_family);
    }
  g_test_add_func ("/joint/stack", test_stack);
  g_test_add_func ("/joint/around", test_around);
  g_test_add_func ("/joint/assumed", test_assumed);
  g_test_add_func ("/joint/facts/own", test_own_facts);
  g_test_add_func ("/joint/facts/of-the-stock", test_facts_of_the_stock);
  g_test_add_func ("/joint/forms", test_forms);
  return g_test_run ();
}
