/* corpus-main.c: a fuzz target as a plain test: over every file of its corpus, and over each with pieces cut
 * off and bytes changed (the seed is printed; --seed repeats a run).
 *
 * usage: PROGRAM CORPUS-FOLDER
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"

/* Changed copies of each file. */
#define COPIES 200

static void
run (const char *data, gsize length)
{
  /* A copy of just that size, so that a sanitizer sees a byte too far. */
  g_autofree char *exact = g_memdup2 (data, length);

  LLVMFuzzerTestOneInput ((const uint8_t *) exact, length);
}

static void
test_file (gconstpointer path)
{
  g_autofree char *data = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  g_file_get_contents (path, &data, &length, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (length, >, 0);
  run (data, length);
  for (guint i = 0; i < COPIES; i++)
    {
      g_autofree char *copy = g_memdup2 (data, length);
      for (int n = g_test_rand_int_range (1, 4); n > 0; n--)
        copy[g_test_rand_int_range (0, (int) length)] = (char) g_test_rand_int_range (0, 256);
      run (copy, length);
      run (data, (gsize) g_test_rand_int_range (1, (int) length + 1));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);

  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) folder = g_dir_open (argv[1], 0, &error);
  g_assert_no_error (error);
  for (const char *name = g_dir_read_name (folder); name != NULL; name = g_dir_read_name (folder))
    {
      g_autofree char *test = g_strconcat ("/fuzz/", name, NULL);
      g_test_add_data_func_full (test, g_build_filename (argv[1], name, NULL), test_file, g_free);
    }
  return g_test_run ();
}
