/* plan-test.c: see plan-test.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan-test.h"

#include "joint/edit.h"

#include <string.h>

const TlStock *
pt_stock (void)
{
  static TlStock *stock = NULL;

  if (g_once_init_enter (&stock))
    {
      g_autoptr (GError) error = NULL;
      TlStock *loaded = tl_stock_load (NULL, &error);

      g_assert_no_error (error);
      g_once_init_leave (&stock, loaded);
    }
  return stock;
}

static char *
examples_folder (void)
{
  return g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", NULL);
}

TlJoint *
pt_example (const char *name)
{
  g_autofree char *folder = examples_folder ();
  g_autofree char *file = g_strconcat (name, ".tinlap", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autoptr (GError) error = NULL;
  TlJoint *joint = tl_joint_load (path, &error);

  g_assert_no_error (error);
  return joint;
}

static gint
compare_names (gconstpointer a, gconstpointer b)
{
  /* As the files stand in the folder: a dot sorts behind a hyphen. */
  g_autofree char *one = g_strconcat (*(const char *const *) a, ".", NULL);
  g_autofree char *other = g_strconcat (*(const char *const *) b, ".", NULL);

  return strcmp (one, other);
}

GPtrArray *
pt_example_names (void)
{
  g_autofree char *folder = examples_folder ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  GPtrArray  *names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".tinlap"))
      g_ptr_array_add (names, g_strndup (name, strlen (name) - strlen (".tinlap")));
  g_ptr_array_sort (names, compare_names);
  g_assert_cmpuint (names->len, >=, 12);
  return names;
}

TlVerdict *
pt_judge (TlJoint *joint)
{
  TlVerdict *verdict = tl_verdict_new (joint, pt_stock (), TL_VERDICT_FULL);

  tl_joint_unref (joint);
  return verdict;
}

TlJoint *
pt_unfinished (void)
{
  g_autoptr (TlJoint) empty = tl_joint_new ();
  g_auto (TlSeat) seat = tl_seat_none ();
  g_autoptr (GError) error = NULL;
  TlJoint *joint =
      tl_edit_add_leg (empty, pt_stock (), "cond-al-class1-2.5-pvc", NULL, &seat, NULL, &error);

  g_assert_no_error (error);
  return joint;
}
