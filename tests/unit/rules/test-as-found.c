/* test-as-found.c: found values against the design, and the verdict with them.
 *
 * The decisions follow the rule of measure.h (the whole band within or beyond); expected verdicts are those that the design
 * itself gets with the same figures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-file.h"
#include "rules/as-found.h"

#include <string.h>

static TlStock *stock;

static TlJoint *
example (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples",
                                            "socket-circuit-weaving-floor.tinlap", NULL);
  g_autoptr (GError) error = NULL;
  TlJoint *joint = tl_joint_load (path, &error);

  g_assert_no_error (error);
  return joint;
}

static const TlActor actor = { "A", "2027-03-03T10:00:00Z" };

/* One found value; rows point into the inspections, which therefore stay. */
typedef struct
{
  TlInspections *inspections;
  TlAsFound     *self;
} Case;

static void
case_clear (Case *self)
{
  tl_as_found_free (self->self);
  tl_inspections_unref (self->inspections);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Case, case_clear)

static Case
with_found (const char *owner, const char *field, double value, double expanded, double tolerance,
            const char *word)
{
  g_autoptr (TlJoint) joint = example ();
  g_autoptr (TlInspections) none = tl_inspections_new (), begun = NULL;
  g_autofree char *visit = NULL;
  g_autoptr (GError) error = NULL;
  TlFound *found = tl_record_new (&tl_found_form);
  Case     result;

  begun = tl_inspections_begin (none, &actor, &visit, &error);
  tl_record_text (&found->owner, owner);
  tl_record_text (&found->field, field);
  tl_record_text (&found->word, word);
  found->value = value;
  found->expanded = expanded;
  found->tolerance = tolerance;
  result.inspections = tl_inspections_put (begun, visit, found, NULL, &error);
  g_assert_no_error (error);
  result.self = tl_as_found_new (joint, result.inspections,
                                 tl_inspections_get (result.inspections, visit), stock);
  tl_record_unref (found);
  return result;
}

static const TlFoundRow *
row_of (const Case *c)
{
  return g_ptr_array_index (c->self->rows, 0);
}

/* The sleeve is 18 mm shorter than designed: the seal is open, as it is for a design of that length. */
static void
test_short_sleeve (void)
{
  g_auto (Case) c = with_found ("layer-3", "length", 44, 0.5, 2, NULL);

  g_assert_cmpint (c.self->designed->severity, ==, TL_SEVERITY_WATCH);
  g_assert_cmpint (c.self->found->severity, ==, TL_SEVERITY_CHANGE);
  g_assert_cmpint (row_of (&c)->decision, ==, TL_DECISION_BEYOND);
  g_assert_cmpfloat (row_of (&c)->design.best, ==, 62);
}

/* Within and undecided by the whole band against the tolerance. */
static void
test_tolerance (void)
{
  g_auto (Case) within = with_found ("layer-3", "length", 61.5, 0.5, 2, NULL),
                edge = with_found ("layer-3", "length", 63.8, 0.5, 2, NULL),
                exact = with_found ("layer-3", "length", 62.3, 0.5, 0, NULL);

  g_assert_cmpint (row_of (&within)->decision, ==, TL_DECISION_WITHIN);
  g_assert_cmpint (row_of (&edge)->decision, ==, TL_DECISION_UNDECIDED);
  g_assert_cmpint (row_of (&exact)->decision, ==, TL_DECISION_WITHIN);
  g_assert_cmpint (within.self->found->severity, ==, TL_SEVERITY_WATCH);
}

/* Words: another surrounding than designed. */
static void
test_word (void)
{
  g_auto (Case) same = with_found ("site", "surroundings", 0, 0, 0, "damp"),
                other = with_found ("site", "surroundings", 0, 0, 0, "salt");

  g_assert_cmpint (row_of (&same)->decision, ==, TL_DECISION_WITHIN);
  g_assert_cmpint (row_of (&other)->decision, ==, TL_DECISION_BEYOND);
}

/* What cannot be used is told and changes nothing. */
static void
test_unusable (void)
{
  g_auto (Case) negative = with_found ("layer-3", "length", -5, 0, 0, NULL),
                nobody = with_found ("layer-99", "length", 5, 0, 0, NULL);

  g_assert_nonnull (row_of (&negative)->error);
  g_assert_null (negative.self->found);
  g_assert_nonnull (row_of (&nobody)->error);
}

/* Every stated fact of the design but the one that was found is listed. */
static void
test_unchecked (void)
{
  g_auto (Case) c = with_found ("layer-3", "length", 62, 0.5, 2, NULL);
  gboolean has_die = FALSE;

  for (guint i = 0; i < c.self->unchecked->len; i++)
    {
      const TlUnchecked *unchecked = g_ptr_array_index (c.self->unchecked, i);
      g_autofree char   *text =
          tl_unchecked_text (unchecked, c.self->designed, stock, tl_language_plain ());

      g_assert_cmpstr (text, !=, "");
      g_assert_false (strcmp (unchecked->owner, "layer-3") == 0
                      && unchecked->field == TL_FIELD_LENGTH);
      has_die = has_die
                || (strcmp (unchecked->owner, "layer-1") == 0 && unchecked->field == TL_FIELD_DIE);
    }
  g_assert_true (has_die);
}

int
main (int argc, char **argv)
{
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
  g_test_add_func ("/as-found/short-sleeve", test_short_sleeve);
  g_test_add_func ("/as-found/tolerance", test_tolerance);
  g_test_add_func ("/as-found/word", test_word);
  g_test_add_func ("/as-found/unusable", test_unusable);
  g_test_add_func ("/as-found/unchecked", test_unchecked);
  code = g_test_run ();
  tl_stock_unref (stock);
  return code;
}
