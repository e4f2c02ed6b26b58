/* test-history.c: undo, redo, groups, the saved position, the limit; and random edits back and forth.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

#include "joint/history.h"

#include <string.h>

/* Pushes a joint that differs by its name. */
static void
push_name (TlHistory *history, const char *name, guint merge_key)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) next = tl_edit_set_text (tl_history_joint (history), "name", name, &error);

  g_assert_no_error (error);
  tl_history_push (history, next, name, NULL, merge_key);
}

static const char *
name_of (const TlHistory *history)
{
  return tl_history_joint (history)->name;
}

static TlHistory *
history_new (void)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();

  return tl_history_new (joint);
}

static void
test_steps (void)
{
  g_autoptr (TlHistory) history = history_new ();

  g_assert_false (tl_history_undo (history, NULL));
  g_assert_false (tl_history_redo (history, NULL));
  g_assert_null (tl_history_undo_label (history));
  push_name (history, "one", 0);
  push_name (history, "two", 0);
  g_assert_cmpstr (tl_history_undo_label (history), ==, "two");
  g_assert_null (tl_history_redo_label (history));
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "one");
  g_assert_cmpstr (tl_history_redo_label (history), ==, "two");
  g_assert_true (tl_history_redo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "two");

  g_assert_true (tl_history_undo (history, NULL));
  push_name (history, "other", 0);
  g_assert_false (tl_history_can_redo (history));
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "");
  g_assert_false (tl_history_can_undo (history));
}

static void
test_equal_adds_nothing (void)
{
  g_autoptr (TlHistory) history = history_new ();

  push_name (history, "", 0);
  g_assert_false (tl_history_can_undo (history));
  push_name (history, "one", 0);
  g_assert_true (tl_history_undo (history, NULL));
  /* An equal joint also leaves what can be redone. */
  push_name (history, "", 0);
  g_assert_true (tl_history_can_redo (history));
}

static void
test_groups (void)
{
  g_autoptr (TlHistory) history = history_new ();

  push_name (history, "a", 7);
  push_name (history, "ab", 7);
  push_name (history, "abc", 7);
  push_name (history, "other", 8);
  tl_history_close_group (history);
  push_name (history, "again", 8);
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "other");
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "abc");
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "");
  g_assert_false (tl_history_can_undo (history));
}

/* A drag that ends where it began is no step. */
static void
test_group_back_to_start (void)
{
  g_autoptr (TlHistory) history = history_new ();

  push_name (history, "one", 0);
  push_name (history, "a", 7);
  push_name (history, "one", 7);
  g_assert_cmpstr (tl_history_undo_label (history), ==, "one");
  g_assert_false (tl_history_can_redo (history));
  push_name (history, "b", 7);
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_cmpstr (name_of (history), ==, "one");
}

static void
test_saved (void)
{
  g_autoptr (TlHistory) history = history_new ();

  g_assert_true (tl_history_is_saved (history));
  push_name (history, "a", 7);
  g_assert_false (tl_history_is_saved (history));
  tl_history_mark_saved (history);
  /* The open group does not swallow the saved step. */
  push_name (history, "ab", 7);
  g_assert_false (tl_history_is_saved (history));
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_true (tl_history_is_saved (history));
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_false (tl_history_is_saved (history));
  /* The saved step is cut off: nothing is saved any more. */
  push_name (history, "b", 0);
  g_assert_false (tl_history_is_saved (history));
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_false (tl_history_is_saved (history));
}

/* What was done is final; whether the file holds it stays as it was. */
static void
test_forget (void)
{
  g_autoptr (TlHistory) history = history_new ();

  push_name (history, "a", 0);
  push_name (history, "b", 0);
  g_assert_true (tl_history_undo (history, NULL));
  tl_history_forget (history);
  g_assert_cmpstr (name_of (history), ==, "a");
  g_assert_false (tl_history_can_undo (history));
  g_assert_false (tl_history_can_redo (history));
  g_assert_false (tl_history_is_saved (history));
  tl_history_mark_saved (history);
  tl_history_forget (history);
  g_assert_true (tl_history_is_saved (history));
  push_name (history, "c", 0);
  g_assert_true (tl_history_undo (history, NULL));
  g_assert_true (tl_history_is_saved (history));
}

static void
test_limit (void)
{
  g_autoptr (TlHistory) history = history_new ();
  guint undone = 0;

  for (guint i = 1; i <= 1100; i++)
    {
      g_autofree char *name = g_strdup_printf ("%u", i);
      push_name (history, name, 0);
    }
  while (tl_history_undo (history, NULL))
    {
      g_assert_false (tl_history_is_saved (history));
      undone++;
    }
  g_assert_cmpuint (undone, ==, 1000);
  g_assert_cmpstr (name_of (history), ==, "100");
}

static void
test_selection (void)
{
  g_autoptr (TlHistory) history = history_new ();
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autoptr (GError) error = NULL;
  const char      *selected = NULL;
  g_autofree char *one = tj_add_layer (&joint, TL_PART_BOLT, tl_seat_stack (0));
  tl_history_push (history, joint, "Add bolt", one, 0);
  g_autofree char *two = tj_add_layer (&joint, TL_PART_NUT, tl_seat_stack (1));
  tl_history_push (history, joint, "Add nut", two, 0);
  g_autoptr (TlJoint) without = tl_edit_remove (joint, one, &error);
  g_assert_no_error (error);
  tl_history_push (history, without, "Remove bolt", one, 0);

  g_assert_true (tl_history_undo (history, &selected));
  g_assert_cmpstr (selected, ==, one); /* what came back */
  g_assert_true (tl_history_undo (history, &selected));
  g_assert_cmpstr (selected, ==, one); /* the nut is gone: what the step before was about */
  g_assert_true (tl_history_undo (history, &selected));
  g_assert_null (selected);
  g_assert_true (tl_history_redo (history, &selected));
  g_assert_cmpstr (selected, ==, one);
}

/* Undo all gives the bytes of the beginning, redo all those of the end, and each step its own. */
static void
test_random (void)
{
  g_autoptr (TlJoint) joint = tj_random_joint (20);
  g_autoptr (TlHistory) history = tl_history_new (joint);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (texts, tj_text (joint));
  for (guint i = 0; i < 300; i++)
    {
      g_autoptr (TlJoint) next = tj_random_edit (tl_history_joint (history));
      char *text = tj_text (next);
      if (strcmp (text, g_ptr_array_index (texts, texts->len - 1)) == 0)
        g_free (text);
      else
        g_ptr_array_add (texts, text);
      tl_history_push (history, next, NULL, NULL, 0);
    }
  g_assert_cmpuint (texts->len, >, 50);
  for (guint i = texts->len; i > 0; i--)
    {
      g_autofree char *text = tj_text (tl_history_joint (history));
      g_assert_cmpstr (text, ==, g_ptr_array_index (texts, i - 1));
      g_assert_cmpint (tl_history_undo (history, NULL), ==, i > 1);
    }
  for (guint i = 0; i < texts->len; i++)
    {
      g_autofree char *text = tj_text (tl_history_joint (history));
      g_assert_cmpstr (text, ==, g_ptr_array_index (texts, i));
      g_assert_cmpint (tl_history_redo (history, NULL), ==, i + 1 < texts->len);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/history/steps", test_steps);
  g_test_add_func ("/history/equal-adds-nothing", test_equal_adds_nothing);
  g_test_add_func ("/history/groups", test_groups);
  g_test_add_func ("/history/groups/back-to-start", test_group_back_to_start);
  g_test_add_func ("/history/saved", test_saved);
  g_test_add_func ("/history/forget", test_forget);
  g_test_add_func ("/history/limit", test_limit);
  g_test_add_func ("/history/selection", test_selection);
  g_test_add_func ("/history/random", test_random);
  return g_test_run ();
}
