/* joint-test.c: see joint-test.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

#include <math.h>
#include <string.h>

const TlJoint *
tj_take (TlJoint **joint, TlJoint *next, GError *error)
{
  g_assert_no_error (error);
  g_assert_nonnull (next);
  tl_joint_unref (*joint);
  *joint = next;
  return next;
}

char *
tj_add_leg (TlJoint **joint, const char *metal, double section_mm2, TlSeat seat)
{
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_autoptr (TlFacts) metal_only =
      tl_facts_with_word (none, TL_FIELD_METAL, metal, TL_KNOWN_STATED);
  g_autoptr (TlFacts) facts =
      tl_facts_with_number (metal_only, TL_FIELD_SECTION, section_mm2, TL_KNOWN_MEASURED);
  GError *error = NULL;
  char   *id = NULL;

  TlJoint *next = tl_edit_add_leg (*joint, NULL, NULL, facts, &seat, &id, &error);
  tj_take (joint, next, error);
  tl_seat_clear (&seat);
  return id;
}

char *
tj_add_layer (TlJoint **joint, TlPartKind kind, TlSeat seat)
{
  GError *error = NULL;
  char   *id = NULL;

  TlJoint *next = tl_edit_add_own_layer (*joint, kind, NULL, &seat, &id, &error);
  tj_take (joint, next, error);
  tl_seat_clear (&seat);
  return id;
}

void
tj_move (TlJoint **joint, const char *id, TlSeat seat)
{
  GError *error = NULL;

  TlJoint *next = tl_edit_move (*joint, id, &seat, &error);
  tj_take (joint, next, error);
  tl_seat_clear (&seat);
}

char *
tj_text (const TlJoint *joint)
{
  gsize length;
  char *text = tl_joint_to_text (joint, &length);

  g_assert_cmpuint (strlen (text), ==, length);
  return text;
}

TlJoint *
tj_parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  TlJoint *joint = tl_joint_parse (text, strlen (text), "test.tinlap", &error);

  g_assert_no_error (error);
  g_assert_nonnull (joint);
  return joint;
}

/* --- comparing --- */

static void
assert_same_used (const TlUsed *a, const TlUsed *b)
{
  g_assert_true ((a == NULL) == (b == NULL));
  if (a == NULL)
    return;
  g_assert_cmpstr (a->data_version, ==, b->data_version);
  g_assert_cmpstr (a->practice, ==, b->practice);
  g_assert_cmpuint (a->parts->len, ==, b->parts->len);
  g_assert_cmpuint (a->materials->len, ==, b->materials->len);
  g_assert_cmpuint (a->thresholds->len, ==, b->thresholds->len);
  for (guint i = 0; i < a->parts->len; i++)
    {
      const TlPart *x = g_ptr_array_index (a->parts, i), *y = g_ptr_array_index (b->parts, i);
      g_assert_cmpstr (x->id, ==, y->id);
      g_assert_cmpstr (x->size, ==, y->size);
      g_assert_cmpint (x->kind, ==, y->kind);
      g_assert_cmpint (x->is_open, ==, y->is_open);
      g_assert_true (tl_facts_equal (x->facts, y->facts));
    }
  for (guint i = 0; i < a->materials->len; i++)
    {
      const TlMaterial *x = g_ptr_array_index (a->materials, i);
      const TlMaterial *y = g_ptr_array_index (b->materials, i);
      g_assert_cmpstr (x->id, ==, y->id);
      g_assert_cmpstr (x->name, ==, y->name);
      g_assert_cmpstr (x->kind, ==, y->kind);
      g_assert_cmpint (x->look, ==, y->look);
      g_assert_true (tl_facts_equal (x->facts, y->facts));
    }
  for (guint i = 0; i < a->thresholds->len; i++)
    {
      const TlTableRow *x = g_ptr_array_index (a->thresholds, i);
      const TlTableRow *y = g_ptr_array_index (b->thresholds, i);
      g_assert_cmpstr (x->id, ==, y->id);
      g_assert_cmpstr (x->practice, ==, y->practice);
      g_assert_cmpint (x->known_by, ==, y->known_by);
      g_assert_cmpstr (x->source, ==, y->source);
      g_assert_cmpstr (x->note, ==, y->note);
      g_assert_true (g_strv_equal ((const char *const *) x->cells, (const char *const *) y->cells));
    }
}

static void
assert_same_members (const TlJoint *a, const TlJoint *b)
{
  g_assert_cmpuint (a->legs->len, ==, b->legs->len);
  for (guint i = 0; i < a->legs->len; i++)
    {
      const TlLeg *x = g_ptr_array_index (a->legs, i), *y = g_ptr_array_index (b->legs, i);
      g_assert_cmpstr (x->id, ==, y->id);
      g_assert_cmpstr (x->part, ==, y->part);
      g_assert_true (tl_seat_equal (&x->seat, &y->seat));
      g_assert_true (tl_facts_equal (x->facts, y->facts));
      g_assert_cmpuint (x->preparation->len, ==, y->preparation->len);
      for (guint k = 0; k < x->preparation->len; k++)
        {
          const TlPreparation *p = g_ptr_array_index (x->preparation, k);
          const TlPreparation *q = g_ptr_array_index (y->preparation, k);
          g_assert_cmpstr (p->act, ==, q->act);
          g_assert_true (tl_facts_equal (p->facts, q->facts));
        }
    }
  g_assert_cmpuint (a->layers->len, ==, b->layers->len);
  for (guint i = 0; i < a->layers->len; i++)
    {
      const TlLayer *x = g_ptr_array_index (a->layers, i), *y = g_ptr_array_index (b->layers, i);
      g_assert_cmpstr (x->id, ==, y->id);
      g_assert_cmpstr (x->part, ==, y->part);
      g_assert_cmpint (x->kind, ==, y->kind);
      g_assert_true (tl_seat_equal (&x->seat, &y->seat));
      g_assert_true (tl_facts_equal (x->facts, y->facts));
    }
}

void
tj_assert_same (const TlJoint *a, const TlJoint *b)
{
  g_assert_cmpstr (a->name, ==, b->name);
  g_assert_cmpstr (a->place, ==, b->place);
  g_assert_cmpstr (a->prepared_by, ==, b->prepared_by);
  g_assert_cmpstr (a->date, ==, b->date);
  g_assert_cmpstr (a->note, ==, b->note);
  g_assert_cmpstr (a->practice, ==, b->practice);
  g_assert_cmpstr (a->units, ==, b->units);
  g_assert_cmpstr (a->sheet_language, ==, b->sheet_language);
  g_assert_cmpint (a->fault_example, ==, b->fault_example);
  g_assert_cmpstr (a->box, ==, b->box);
  g_assert_true (tl_facts_equal (a->site, b->site));
  g_assert_true (tl_facts_equal (a->duty, b->duty));
  g_assert_cmpuint (a->minor, ==, b->minor);
  g_assert_cmpuint (a->next_id, ==, b->next_id);
  g_assert_cmpuint (a->reserved->len, ==, b->reserved->len);
  assert_same_members (a, b);
  assert_same_used (a->used, b->used);
  g_assert_cmpuint (a->variants->len, ==, b->variants->len);
  for (guint i = 0; i < a->variants->len; i++)
    {
      const TlVariant *x = g_ptr_array_index (a->variants, i);
      const TlVariant *y = g_ptr_array_index (b->variants, i);
      g_assert_cmpstr (x->name, ==, y->name);
      tj_assert_same (x->joint, y->joint);
    }
}

static void
assert_seat (const TlJoint *joint, const char *id, const TlSeat *seat, GHashTable *places)
{
  const char *others[] = { seat->of, seat->from, seat->to };

  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    if (others[i] != NULL)
      {
        g_assert_nonnull (tl_joint_seat (joint, others[i]));
        g_assert_cmpstr (others[i], !=, id);
      }
  if (seat->kind == TL_SEAT_STACK)
    g_assert_true (g_hash_table_add (places, GUINT_TO_POINTER (seat->place)));
  if (seat->kind == TL_SEAT_PORT)
    {
      const TlLayer *layer = tl_joint_layer (joint, seat->of);
      g_assert_nonnull (layer);
      g_assert_cmpuint (seat->place, >=, 1);
      g_assert_cmpuint (seat->place, <=, tl_part_kind_ports (layer->kind));
    }
}

void
tj_assert_invariants (const TlJoint *joint)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);

  g_assert_cmpuint (joint->legs->len, <=, 8);
  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (joint->legs, i);
      g_assert_true (g_hash_table_add (ids, leg->id));
      assert_seat (joint, leg->id, &leg->seat, places);
    }
  for (guint i = 0; i < joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (joint->layers, i);
      g_assert_true (g_hash_table_add (ids, layer->id));
      assert_seat (joint, layer->id, &layer->seat, places);
    }
  for (guint i = 0; i < g_hash_table_size (places); i++)
    g_assert_true (g_hash_table_contains (places, GUINT_TO_POINTER (i)));
}

void
tj_assert_round_trip (const TlJoint *joint)
{
  g_autofree char *text = tj_text (joint);
  g_autoptr (TlJoint) back = tj_parse (text);
  g_autofree char *again = tj_text (back);

  tj_assert_invariants (joint);
  tj_assert_same (joint, back);
  g_assert_true (tl_joint_equal (joint, back));
  g_assert_cmpstr (text, ==, again);
}

const char *
tj_schema (gsize *length)
{
  static char *schema;
  static gsize schema_length;

  if (schema == NULL)
    {
      g_autofree char *path =
          g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "schema", "joint.rng", NULL);
      g_autoptr (GError) error = NULL;
      g_file_get_contents (path, &schema, &schema_length, &error);
      g_assert_no_error (error);
    }
  *length = schema_length;
  return schema;
}

/* --- random --- */

static const char *const texts[] = {
  "",
  "plain",
  "<b>&amp;\"quoted\" 'single'",
  "two\nlines\tand a tab",
  "Fennick Mill, box W-14",
  "größe 2,5 mm² ≤ 4",
  "\xf0\x9f\x94\xa7 \xe2\x80\xaf",
  "]]>",
  "&#38;#38;",
};

static const char *
random_text (void)
{
  return texts[g_test_rand_int_range (0, G_N_ELEMENTS (texts))];
}

static TlKnownBy
random_known_by (void)
{
  return (TlKnownBy) g_test_rand_int_range (TL_KNOWN_STATED, TL_KNOWN_ASSUMED + 1);
}

void
tj_fact_clear (TlFact *fact)
{
  g_free (fact->word);
  g_free (fact->source);
  g_free (fact->note);
}

static double
random_value (const TlFieldInfo *info)
{
  double share = g_test_rand_double ();
  double value = info->low * (1.0 - share) + info->high * share;

  return info->kind == TL_FIELD_KIND_COUNT ? floor (value) : value;
}

TlFact
tj_random_fact (void)
{
  TlFact             fact = { .field = (TlField) g_test_rand_int_range (0, TL_N_FIELDS) };
  const TlFieldInfo *info = tl_field_info (fact.field);

  fact.known_by = random_known_by ();
  if (g_test_rand_bit ())
    fact.note = g_strdup (random_text ());
  if (g_test_rand_int_range (0, 8) == 0)
    fact.source = g_strdup ("iec-60228");
  if (info->kind == TL_FIELD_KIND_ID)
    fact.word = g_strdup (g_test_rand_bit () ? "copper" : "aluminium-1350");
  else if (info->kind == TL_FIELD_KIND_WORD)
    fact.word = g_strdup (
        info->words[g_test_rand_int_range (0, (int) g_strv_length ((char **) info->words))]);
  else
    {
      double a = random_value (info), b = random_value (info), c = random_value (info);
      fact.value = tl_range_exact (a);
      if (g_test_rand_bit ())
        fact.value = (TlRange){ MIN (a, MIN (b, c)), a, MAX (a, MAX (b, c)) };
    }
  return fact;
}

/* An id of the joint, or one that is not there. */
static const char *
random_id (const TlJoint *joint)
{
  guint n = joint->legs->len + joint->layers->len;
  guint which = (guint) g_test_rand_int_range (0, (int) n + 1);

  if (which == n)
    return "layer-none";
  if (which < joint->legs->len)
    return ((TlLeg *) g_ptr_array_index (joint->legs, which))->id;
  return ((TlLayer *) g_ptr_array_index (joint->layers, which - joint->legs->len))->id;
}

static TlSeat
random_seat (const TlJoint *joint)
{
  switch (g_test_rand_int_range (0, 8))
    {
    case 0:
      return tl_seat_none ();
    case 1:
      return tl_seat_on (random_id (joint));
    case 2:
      return tl_seat_around (random_id (joint), random_id (joint));
    case 3:
      return tl_seat_port (random_id (joint), (guint) g_test_rand_int_range (0, 4));
    default:
      return tl_seat_stack ((guint) g_test_rand_int_range (0, 8));
    }
}

static TlJoint *
random_fact_edit (const TlJoint *joint)
{
  const char *owners[] = { "site", "duty", random_id (joint), random_id (joint) };
  const char *owner = owners[g_test_rand_int_range (0, G_N_ELEMENTS (owners))];
  TlFact      fact = tj_random_fact ();
  TlJoint    *next = g_test_rand_int_range (0, 4) == 0
                         ? tl_edit_unset_fact (joint, owner, fact.field, NULL)
                         : tl_edit_set_fact (joint, owner, &fact, NULL);

  tj_fact_clear (&fact);
  return next;
}

static TlJoint *
random_text_edit (const TlJoint *joint)
{
  static const char *const whats[] = { "name", "place",         "prepared-by", "date",
                                       "note", "practice",      "units",       "sheet-language",
                                       "box",  "fault-example", "forbidden" };
  static const char *const words[] = { "2026-03-14", "nfpa70-style", "customary",    "de",
                                       "box-60",     "yes",          "twist welded", "strict" };
  const char              *what = whats[g_test_rand_int_range (0, G_N_ELEMENTS (whats))];
  const char              *value =
      g_test_rand_bit () ? random_text () : words[g_test_rand_int_range (0, G_N_ELEMENTS (words))];

  return tl_edit_set_text (joint, what, value, NULL);
}

TlJoint *
tj_random_edit (const TlJoint *joint)
{
  static const char *const acts[][4] = { { "degrease", "brush", NULL },
                                         { "flux", "tin", "clean-flux", NULL },
                                         { NULL } };
  g_auto (TlSeat) seat = random_seat (joint);
  TlJoint *next = NULL;

  switch (g_test_rand_int_range (0, 9))
    {
    case 0:
      next = tl_edit_add_leg (joint, NULL, NULL, NULL, &seat, NULL, NULL);
      break;
    case 1:
    case 2:
      next = tl_edit_add_own_layer (joint, (TlPartKind) g_test_rand_int_range (0, TL_N_PART_KINDS),
                                    NULL, &seat, NULL, NULL);
      break;
    case 3:
      next = tl_edit_move (joint, random_id (joint), &seat, NULL);
      break;
    case 4:
      next = tl_edit_remove (joint, random_id (joint), NULL);
      break;
    case 5:
      next = tl_edit_duplicate (joint, random_id (joint), NULL, NULL);
      break;
    case 6:
      next = tl_edit_set_preparation (joint, random_id (joint),
                                      acts[g_test_rand_int_range (0, G_N_ELEMENTS (acts))], NULL);
      break;
    case 7:
      next = random_text_edit (joint);
      break;
    default:
      next = random_fact_edit (joint);
      break;
    }
  return next != NULL ? next : tl_joint_ref (joint);
}

TlJoint *
tj_random_joint (guint edits)
{
  TlJoint *joint = tl_joint_new ();

  for (guint i = 0; i < edits; i++)
    tj_take (&joint, tj_random_edit (joint), NULL);
  return joint;
}
