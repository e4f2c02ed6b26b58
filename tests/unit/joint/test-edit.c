/* test-edit.c: every edit: what it does, what it leaves alone, what it refuses and in which words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

#include <string.h>

/* Bolt 0, washer 1, leg 2, leg 3, nut 4; ids in this order. */
static TlJoint *
small_stack (void)
{
  TlJoint *joint = tl_joint_new ();

  g_free (tj_add_layer (&joint, TL_PART_BOLT, tl_seat_stack (0)));
  g_free (tj_add_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_stack (1)));
  g_free (tj_add_leg (&joint, "aluminium", 2.5, tl_seat_stack (2)));
  g_free (tj_add_leg (&joint, "copper", 2.5, tl_seat_stack (3)));
  g_free (tj_add_layer (&joint, TL_PART_NUT, tl_seat_stack (4)));
  return joint;
}

static void
assert_stack (const TlJoint *joint, const char *expected)
{
  g_autoptr (GPtrArray) ids = tl_joint_stack (joint);
  g_ptr_array_add (ids, NULL);
  g_autofree char *joined = g_strjoinv (" ", (char **) ids->pdata);

  g_assert_cmpstr (joined, ==, expected);
  tj_assert_round_trip (joint);
}

/* @next must be %NULL with a message that holds @words. Clears @error. */
static void
assert_refused (TlJoint *next, GError **error, int code, const char *words)
{
  g_assert_null (next);
  g_assert_error (*error, TL_ERROR, code);
  if (strstr ((*error)->message, words) == NULL)
    g_error ("“%s” is not in “%s”", words, (*error)->message);
  g_clear_error (error);
}

static void
test_insert (void)
{
  g_autoptr (TlJoint) joint = small_stack ();

  assert_stack (joint, "layer-1 layer-2 leg-3 leg-4 layer-5");
  g_free (tj_add_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_stack (3)));
  assert_stack (joint, "layer-1 layer-2 leg-3 layer-6 leg-4 layer-5");
  g_free (tj_add_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_none ()));
  assert_stack (joint, "layer-1 layer-2 leg-3 layer-6 leg-4 layer-5");
}

static void
test_move (void)
{
  g_autoptr (TlJoint) joint = small_stack ();

  tj_move (&joint, "layer-2", tl_seat_stack (3));
  assert_stack (joint, "layer-1 leg-3 leg-4 layer-2 layer-5");
  tj_move (&joint, "layer-2", tl_seat_stack (0));
  assert_stack (joint, "layer-2 layer-1 leg-3 leg-4 layer-5");
  tj_move (&joint, "layer-2", tl_seat_stack (4));
  assert_stack (joint, "layer-1 leg-3 leg-4 layer-5 layer-2");
  tj_move (&joint, "leg-3", tl_seat_none ());
  assert_stack (joint, "layer-1 leg-4 layer-5 layer-2");
}

static void
test_remove_closes_stack (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  GError *error = NULL;

  TlJoint *next = tl_edit_remove (joint, "layer-2", &error);
  tj_take (&joint, next, error);
  assert_stack (joint, "layer-1 leg-3 leg-4 layer-5");
  /* The id of the removed washer is not given again, also after saving. */
  g_autofree char *text = tj_text (joint);
  g_autoptr (TlJoint) back = tj_parse (text);
  next = tl_edit_remove (back, "layer-5", &error);
  tj_take (&back, next, error);
  g_autofree char *id = tj_add_layer (&back, TL_PART_NUT, tl_seat_stack (3));
  g_assert_cmpstr (id, ==, "layer-6");
}

/* A coat goes with what it lies on; what sat in a mouth or wore a lug lies beside the joint. */
static void
test_remove_takes_coats (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  GError          *error = NULL;
  g_autofree char *compound = tj_add_layer (&joint, TL_PART_COMPOUND, tl_seat_on ("leg-3"));
  g_autofree char *ferrule = tj_add_layer (&joint, TL_PART_FERRULE, tl_seat_on ("leg-3"));
  g_autofree char *tin = tj_add_layer (&joint, TL_PART_SOLDER, tl_seat_on (ferrule));
  g_autofree char *lug = tj_add_layer (&joint, TL_PART_LUG, tl_seat_on ("leg-3"));

  TlJoint *next = tl_edit_remove (joint, "leg-3", &error);
  tj_take (&joint, next, error);
  g_assert_null (tl_joint_layer (joint, compound));
  g_assert_null (tl_joint_layer (joint, ferrule));
  g_assert_null (tl_joint_layer (joint, tin));
  g_assert_cmpint (tl_joint_seat (joint, lug)->kind, ==, TL_SEAT_NONE);
  tj_assert_round_trip (joint);
}

static void
test_remove_empties_ports (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  GError          *error = NULL;
  g_autofree char *sleeve = tj_add_layer (&joint, TL_PART_SLEEVE, tl_seat_stack (0));
  g_autofree char *leg = tj_add_leg (&joint, "copper", 1.5, tl_seat_port (sleeve, 2));

  TlJoint *next = tl_edit_remove (joint, sleeve, &error);
  tj_take (&joint, next, error);
  g_assert_cmpint (tl_joint_seat (joint, leg)->kind, ==, TL_SEAT_NONE);
  tj_assert_round_trip (joint);
}

static void
remove_and_expect_range (TlJoint **joint, const char *id, const char *seal, const char *from,
                         const char *to)
{
  GError  *error = NULL;
  TlJoint *next = tl_edit_remove (*joint, id, &error);

  tj_take (joint, next, error);
  const TlSeat *seat = tl_joint_seat (*joint, seal);
  g_assert_cmpint (seat->kind, ==, from != NULL ? TL_SEAT_AROUND : TL_SEAT_NONE);
  g_assert_cmpstr (seat->from, ==, from);
  g_assert_cmpstr (seat->to, ==, to);
  tj_assert_round_trip (*joint);
}

static void
test_remove_shrinks_ranges (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  for (guint i = 0; i < 4; i++)
    g_free (tj_add_leg (&joint, "copper", 1.5, tl_seat_none ()));
  g_autofree char *seal = tj_add_layer (&joint, TL_PART_SEAL, tl_seat_around ("leg-1", "leg-4"));

  remove_and_expect_range (&joint, "leg-4", seal, "leg-1", "leg-3");
  remove_and_expect_range (&joint, "leg-2", seal, "leg-1", "leg-3");
  remove_and_expect_range (&joint, "leg-1", seal, "leg-3", "leg-3");
  remove_and_expect_range (&joint, "leg-3", seal, NULL, NULL);
}

/* A sleeve around the legs in its own mouths: said twice, no circle; and it shrinks too. */
static void
test_sleeve_around_its_legs (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_free (tj_add_leg (&joint, "aluminium", 2.5, tl_seat_none ()));
  g_free (tj_add_leg (&joint, "copper", 2.5, tl_seat_none ()));
  g_autofree char *sleeve =
      tj_add_layer (&joint, TL_PART_SLEEVE, tl_seat_around ("leg-1", "leg-2"));

  tj_move (&joint, "leg-1", tl_seat_port (sleeve, 1));
  tj_move (&joint, "leg-2", tl_seat_port (sleeve, 2));
  remove_and_expect_range (&joint, "leg-1", sleeve, "leg-2", "leg-2");
}

static void
test_duplicate (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  GError          *error = NULL;
  g_autofree char *leg = NULL, *layer = NULL;

  TlJoint *next = tl_edit_duplicate (joint, "leg-1", &leg, &error);
  tj_take (&joint, next, error);
  next = tl_edit_duplicate (joint, "layer-3", &layer, &error);
  tj_take (&joint, next, error);
  g_assert_cmpstr (leg, ==, "leg-40");
  g_assert_cmpstr (layer, ==, "layer-41");
  assert_stack (joint, "layer-3 layer-41 leg-1 leg-40 layer-5");

  const TlLeg *from = tl_joint_leg (joint, "leg-1"), *to = tl_joint_leg (joint, leg);
  g_assert_cmpstr (from->part, ==, to->part);
  g_assert_true (tl_facts_equal (from->facts, to->facts));
  g_assert_cmpuint (to->preparation->len, ==, from->preparation->len);
}

static void
test_shares_what_stays (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  g_autoptr (GError) error = NULL;
  TlFact           strip = { .field = TL_FIELD_STRIP, .value = { 11.0, 11.0, 11.0 } };
  g_autofree char *before = tj_text (joint);

  g_autoptr (TlJoint) next = tl_edit_set_fact (joint, "leg-3", &strip, &error);
  g_assert_no_error (error);
  g_assert_true (tl_joint_leg (next, "leg-4") == tl_joint_leg (joint, "leg-4"));
  g_assert_true (tl_joint_layer (next, "layer-1") == tl_joint_layer (joint, "layer-1"));
  g_assert_true (tl_joint_leg (next, "leg-3") != tl_joint_leg (joint, "leg-3"));

  g_autofree char *after = tj_text (joint);
  g_assert_cmpstr (before, ==, after);
}

static void
test_facts (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  GError                  *error = NULL;
  static const char *const owners[] = { "leg-3", "layer-1", "site", "duty" };
  TlFact                   load = { .field = TL_FIELD_LOAD,
                                    .value = { 9.0, 10.0, 11.0 },
                                    .known_by = TL_KNOWN_ASSUMED };

  for (guint i = 0; i < G_N_ELEMENTS (owners); i++)
    {
      TlJoint *next = tl_edit_set_fact (joint, owners[i], &load, &error);
      tj_take (&joint, next, error);
      tj_assert_round_trip (joint);
    }
  g_assert_cmpfloat (tl_facts_number (joint->duty, TL_FIELD_LOAD, 0.0), ==, 10.0);
  for (guint i = 0; i < G_N_ELEMENTS (owners); i++)
    {
      TlJoint *next = tl_edit_unset_fact (joint, owners[i], TL_FIELD_LOAD, &error);
      tj_take (&joint, next, error);
    }
  g_assert_false (tl_facts_has (joint->duty, TL_FIELD_LOAD));
}

static void
test_facts_refused (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  GError *error = NULL;
  TlFact  strip = { .field = TL_FIELD_STRIP, .value = { -1.0, -1.0, -1.0 } };
  TlFact  role = { .field = TL_FIELD_ROLE, .word = (char *) "captain" };
  TlFact  seen = { .field = TL_FIELD_STRIP, .value = { 9.0, 9.0, 9.0 }, .known_by = TL_KNOWN_SEEN };
  TlFact  bell = { .field = TL_FIELD_STRIP, .value = { 9.0, 9.0, 9.0 }, .note = (char *) "\a" };

  assert_refused (tl_edit_set_fact (joint, "leg-3", &strip, &error), &error, TL_ERROR_RANGE,
                  "strip");
  assert_refused (tl_edit_set_fact (joint, "leg-3", &role, &error), &error, TL_ERROR_NAME,
                  "captain");
  assert_refused (tl_edit_set_fact (joint, "leg-3", &seen, &error), &error, TL_ERROR_NAME, "seen");
  assert_refused (tl_edit_set_fact (joint, "leg-3", &bell, &error), &error, TL_ERROR_PARSE,
                  "UTF-8");
  assert_refused (tl_edit_set_fact (joint, "leg-9", &seen, &error), &error, TL_ERROR_NAME, "leg-9");
  assert_refused (tl_edit_unset_fact (joint, "box", TL_FIELD_STRIP, &error), &error, TL_ERROR_NAME,
                  "box");
}

static void
test_preparation (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  GError                  *error = NULL;
  static const char *const acts[] = { "strip", "brush-compound", "form-eye", NULL };
  static const char *const wrong[] = { "strip", "pray", NULL };

  TlJoint *next = tl_edit_set_preparation (joint, "leg-1", acts, &error);
  tj_take (&joint, next, error);
  const TlLeg *leg = tl_joint_leg (joint, "leg-1");
  g_assert_cmpuint (leg->preparation->len, ==, 3);
  /* The act that stayed kept its figures. */
  const TlPreparation *strip = g_ptr_array_index (leg->preparation, 0);
  g_assert_cmpfloat (tl_facts_number (strip->facts, TL_FIELD_STRIP, 0.0), ==, 11.0);
  tj_assert_round_trip (joint);

  assert_refused (tl_edit_set_preparation (joint, "leg-1", wrong, &error), &error, TL_ERROR_NAME,
                  "pray");
  assert_refused (tl_edit_set_preparation (joint, "layer-3", acts, &error), &error, TL_ERROR_NAME,
                  "layer-3");
}

typedef struct
{
  const char *what, *value;
  const char *kept; /* NULL: refused */
} TextCase;

/* Days: ISO 8601:2004, 4.1.2.2. The rest is the contract of edit.h. */
static const TextCase text_cases[] = {
  { "name", "  Socket circuit \n", "Socket circuit" },
  { "name", "two\nlines", "two lines" },
  { "name", "bell \a", NULL },
  { "name", "\xff", NULL },
  { "note", "one\r\ntwo\rthree\n", "one\ntwo\nthree" },
  { "note", NULL, "" },
  { "date", "2026-02-28", "2026-02-28" },
  { "date", "2024-02-29", "2024-02-29" },
  { "date", "2026-02-29", NULL },
  { "date", "28.2.2026", NULL },
  { "date", "", "" },
  { "practice", "nfpa70-style", "nfpa70-style" },
  { "practice", "strict", "strict" },
  { "practice", "habit", NULL },
  { "forbidden", "twist", "twist" },
  { "forbidden", " welded  bolted-stack\nwelded ", "bolted-stack welded" },
  { "forbidden", "", "" },
  { "forbidden", "twist glue", NULL },
  { "units", "customary", "customary" },
  { "units", "cubits", NULL },
  { "sheet-language", "fr_CA", "fr_CA" },
  { "sheet-language", "../etc", NULL },
  { "fault-example", "yes", "yes" },
  { "fault-example", "perhaps", NULL },
  { "box", "box-round-60", "box-round-60" },
  { "box", "a box", NULL },
  { "colour", "red", NULL },
};

static const char *
text_of (const TlJoint *joint, const char *what)
{
  const struct
  {
    const char *what, *value;
  } rows[] = { { "name", joint->name },
               { "note", joint->note },
               { "date", joint->date },
               { "practice", joint->practice },
               { "units", joint->units },
               { "sheet-language", joint->sheet_language },
               { "fault-example", joint->fault_example ? "yes" : "no" },
               { "box", joint->box },
               { "forbidden", joint->forbidden } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (strcmp (rows[i].what, what) == 0)
      return rows[i].value;
  return NULL;
}

static void
test_text (gconstpointer data)
{
  const TextCase *c = data;
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) next = tl_edit_set_text (joint, c->what, c->value, &error);

  if (c->kept == NULL)
    {
      g_assert_null (next);
      g_assert_nonnull (error);
      g_assert_cmpint (error->domain, ==, TL_ERROR);
      return;
    }
  g_assert_no_error (error);
  g_assert_cmpstr (text_of (next, c->what), ==, c->kept);
  tj_assert_round_trip (next);
}

static void
test_box_dropped (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  GError  *error = NULL;
  TlJoint *next = tl_edit_set_text (joint, "box", "", &error);

  tj_take (&joint, next, error);
  g_assert_null (joint->box);
  tj_assert_round_trip (joint);
}

static void
test_used (void)
{
  g_autoptr (TlJoint) joint = tj_rich ();
  g_autoptr (TlJoint) without = tl_edit_set_used (joint, NULL);
  g_autoptr (TlJoint) with = tl_edit_set_used (without, joint->used);

  g_assert_null (without->used);
  tj_assert_round_trip (without);
  tj_assert_same (joint, with);
}

static void
test_seats_refused (void)
{
  g_autoptr (TlJoint) joint = small_stack ();
  GError          *error = NULL;
  g_autofree char *on = tj_add_layer (&joint, TL_PART_COMPOUND, tl_seat_on ("leg-3"));
  struct
  {
    const char *id;
    TlSeat      seat;
    int         code;
    const char *words;
  } cases[] = {
    { "layer-1", tl_seat_stack (9), TL_ERROR_RANGE, "9" },
    { "layer-1", tl_seat_on ("layer-1"), TL_ERROR_STATE, "itself" },
    { "layer-1", tl_seat_on ("leg-77"), TL_ERROR_NAME, "leg-77" },
    { "layer-1", tl_seat_around ("leg-3", "leg-77"), TL_ERROR_NAME, "leg-77" },
    { "leg-4", tl_seat_port ("layer-2", 1), TL_ERROR_STATE, "mouth" },
    { "leg-4", tl_seat_port ("leg-3", 1), TL_ERROR_STATE, "leg" },
    { "leg-3", tl_seat_on (on), TL_ERROR_STATE, "back" },
    { "leg-99", tl_seat_none (), TL_ERROR_NAME, "leg-99" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      assert_refused (tl_edit_move (joint, cases[i].id, &cases[i].seat, &error), &error,
                      cases[i].code, cases[i].words);
      tl_seat_clear (&cases[i].seat);
    }
}

static void
test_limits (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  GError *error = NULL;
  TlSeat  none = tl_seat_none ();

  for (guint i = 0; i < 8; i++)
    g_free (tj_add_leg (&joint, "copper", 1.5, tl_seat_none ()));
  assert_refused (tl_edit_add_leg (joint, NULL, NULL, NULL, &none, NULL, &error), &error,
                  TL_ERROR_LIMIT, "8");
  assert_refused (tl_edit_duplicate (joint, "leg-1", NULL, &error), &error, TL_ERROR_LIMIT, "8");
  assert_refused (tl_edit_add_own_layer (joint, TL_PART_CONDUCTOR, NULL, &none, NULL, &error),
                  &error, TL_ERROR_STATE, "leg");
  assert_refused (tl_edit_add_own_layer (joint, TL_PART_BOX, NULL, &none, NULL, &error), &error,
                  TL_ERROR_STATE, "site");
  assert_refused (tl_edit_remove (joint, "leg-99", &error), &error, TL_ERROR_NAME, "leg-99");
  assert_refused (tl_edit_duplicate (joint, "leg-99", NULL, &error), &error, TL_ERROR_NAME,
                  "leg-99");
}

static const TlPart *
first_of (const TlStock *stock, TlPartKind kind)
{
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; i < parts->len; i++)
    if (((TlPart *) g_ptr_array_index (parts, i))->kind == kind)
      return g_ptr_array_index (parts, i);
  g_error ("the stock has no %s", tl_part_kind_word (kind));
}

static void
test_stock_parts (void)
{
  GError *error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (NULL, &error);
  g_assert_no_error (error);
  const char *washer = first_of (stock, TL_PART_PLAIN_WASHER)->id;
  const char *bolt = first_of (stock, TL_PART_BOLT)->id;
  const char *wire = first_of (stock, TL_PART_CONDUCTOR)->id;
  g_autoptr (TlJoint) joint = tl_joint_new ();
  TlSeat seat = tl_seat_stack (0);
  TlFact torque = { .field = TL_FIELD_TORQUE, .value = { 2.0, 2.0, 2.0 } };
  TlFact reused = { .field = TL_FIELD_REUSED, .word = (char *) "yes" };

  TlJoint *next = tl_edit_add_layer (joint, stock, bolt, &seat, NULL, &error);
  tj_take (&joint, next, error);
  next = tl_edit_set_fact (joint, "layer-1", &torque, &error);
  tj_take (&joint, next, error);
  next = tl_edit_set_fact (joint, "layer-1", &reused, &error);
  tj_take (&joint, next, error);
  next = tl_edit_replace_part (joint, stock, "layer-1", washer, &error);
  tj_take (&joint, next, error);

  const TlLayer *layer = tl_joint_layer (joint, "layer-1");
  g_assert_cmpint (layer->kind, ==, TL_PART_PLAIN_WASHER);
  g_assert_cmpstr (layer->part, ==, washer);
  g_assert_false (tl_facts_has (layer->facts, TL_FIELD_TORQUE));
  g_assert_true (tl_facts_is (layer->facts, TL_FIELD_REUSED));
  tj_assert_round_trip (joint);

  assert_refused (tl_edit_replace_part (joint, stock, "layer-1", wire, &error), &error,
                  TL_ERROR_STATE, "leg");
  assert_refused (tl_edit_add_leg (joint, stock, bolt, NULL, &seat, NULL, &error), &error,
                  TL_ERROR_STATE, "conductor");
  assert_refused (tl_edit_add_layer (joint, stock, "no-such-part", &seat, NULL, &error), &error,
                  TL_ERROR_NAME, "no-such-part");
}

static void
test_replace_empties_ports (void)
{
  GError *error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (NULL, &error);
  g_assert_no_error (error);
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autofree char *sleeve = tj_add_layer (&joint, TL_PART_SLEEVE, tl_seat_stack (0));
  g_autofree char *leg = tj_add_leg (&joint, "copper", 1.5, tl_seat_port (sleeve, 1));

  TlJoint *next = tl_edit_replace_part (joint, stock, sleeve,
                                        first_of (stock, TL_PART_PLAIN_WASHER)->id, &error);
  tj_take (&joint, next, error);
  g_assert_cmpint (tl_joint_seat (joint, leg)->kind, ==, TL_SEAT_NONE);
  tj_assert_round_trip (joint);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edit/insert", test_insert);
  g_test_add_func ("/edit/move", test_move);
  g_test_add_func ("/edit/remove/closes-stack", test_remove_closes_stack);
  g_test_add_func ("/edit/remove/takes-coats", test_remove_takes_coats);
  g_test_add_func ("/edit/remove/empties-ports", test_remove_empties_ports);
  g_test_add_func ("/edit/remove/shrinks-ranges", test_remove_shrinks_ranges);
  g_test_add_func ("/edit/remove/sleeve-around-its-legs", test_sleeve_around_its_legs);
  g_test_add_func ("/edit/duplicate", test_duplicate);
  g_test_add_func ("/edit/shares-what-stays", test_shares_what_stays);
  g_test_add_func ("/edit/facts", test_facts);
  g_test_add_func ("/edit/facts/refused", test_facts_refused);
  g_test_add_func ("/edit/preparation", test_preparation);
  for (guint i = 0; i < G_N_ELEMENTS (text_cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/edit/text/%s-%u", text_cases[i].what, i);
      g_test_add_data_func (path, &text_cases[i], test_text);
    }
  g_test_add_func ("/edit/text/box-dropped", test_box_dropped);
  g_test_add_func ("/edit/used", test_used);
  g_test_add_func ("/edit/seats-refused", test_seats_refused);
  g_test_add_func ("/edit/limits", test_limits);
  g_test_add_func ("/edit/stock-parts", test_stock_parts);
  g_test_add_func ("/edit/replace-empties-ports", test_replace_empties_ports);
  return g_test_run ();
}
