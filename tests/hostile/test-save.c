/* test-save.c: a program that is killed while it saves leaves the old file or the new one, whole.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/file.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define KILLS 20
#define SIZE 300000u

/* Each version is one letter, SIZE times over. */
static void
save_for_ever (const char *path)
{
  g_autofree char *data = g_malloc (SIZE);

  for (guint i = 0;; i++)
    {
      memset (data, 'a' + (int) (i % 26), SIZE);
      if (!tl_file_save (path, data, SIZE, NULL))
        _exit (1);
    }
}

static void
assert_whole (const char *path)
{
  g_autofree char *data = NULL;
  g_autoptr (GError) error = NULL;
  gsize length = 0;

  g_assert_true (tl_file_load (path, SIZE, &data, &length, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (length, ==, SIZE);
  for (gsize i = 1; i < length; i++)
    if (data[i] != data[0])
      g_error ("byte %" G_GSIZE_FORMAT " is %c among %c", i, data[i], data[0]);
}

/* Waits until the child has saved at least once since @before, so that the kill hits its work. */
static void
wait_for_change (const char *path, const char *before)
{
  for (;;)
    {
      g_autofree char *now = tl_file_stamp (path);

      if (g_strcmp0 (now, before) != 0)
        return;
      g_usleep (200);
    }
}

static void
test_kill (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.tinlap", NULL);
  g_autofree char *first = g_strnfill (SIZE, 'z');
  GRand           *random = g_rand_new_with_seed (11);
  GDir            *dir;
  const char      *name;

  g_assert_true (tl_file_save (path, first, SIZE, NULL));
  for (guint i = 0; i < KILLS; i++)
    {
      g_autofree char *before = tl_file_stamp (path);
      int              status = 0;
      pid_t            child = fork ();

      g_assert_cmpint (child, >=, 0);
      if (child == 0)
        save_for_ever (path);
      wait_for_change (path, before);
      g_usleep ((gulong) g_rand_int_range (random, 0, 5000));
      g_assert_cmpint (kill (child, SIGKILL), ==, 0);
      g_assert_cmpint (waitpid (child, &status, 0), ==, child);
      g_assert_true (WIFSIGNALED (status));
      assert_whole (path);
    }
  g_rand_free (random);

  dir = g_dir_open (folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *left = g_build_filename (folder, name, NULL);

      /* What a kill leaves beside is hidden and says whose it was. */
      g_assert_true (strcmp (name, "a.tinlap") == 0 || g_str_has_prefix (name, ".tinlap-"));
      g_unlink (left);
    }
  g_dir_close (dir);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hostile/save/kill", test_kill);
  return g_test_run ();
}
