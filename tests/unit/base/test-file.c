/* test-file.c: loading with a cap, saving whole or not at all.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/file.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#define NOBODY 65534

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp ("tinlap-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "a.tinlap", NULL);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint count = 0;

  while (g_dir_read_name (dir) != NULL)
    count++;
  return count;
}

static void
tear_down (Place *place, gconstpointer data)
{
  GDir       *dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      g_remove (path);
    }
  g_dir_close (dir);
  g_rmdir (place->folder);
  g_free (place->folder);
  g_free (place->path);
}

static void
assert_content (const char *path, const char *content)
{
  g_autofree char *data = NULL;

  g_assert_true (g_file_get_contents (path, &data, NULL, NULL));
  g_assert_cmpstr (data, ==, content);
}

static void
test_save (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *read = NULL;
  gsize            length;

  g_assert_true (tl_file_save (place->path, "one", 3, &error));
  assert_content (place->path, "one");
  g_assert_true (tl_file_save (place->path, "two", 3, &error));
  assert_content (place->path, "two");
  g_assert_true (tl_file_save (place->path, "", 0, &error));
  assert_content (place->path, "");
  g_assert_true (tl_file_save (place->path, "a\0b", 3, &error));
  g_assert_true (tl_file_load (place->path, 3, &read, &length, &error));
  g_assert_cmpmem (read, length, "a\0b", 3);
  g_assert_no_error (error);
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

static void
test_mode (Place *place, gconstpointer data)
{
  struct stat info;

  g_assert_true (tl_file_save (place->path, "one", 3, NULL));
  g_assert_cmpint (g_chmod (place->path, 0640), ==, 0);
  g_assert_true (tl_file_save (place->path, "two", 3, NULL));
  g_assert_cmpint (stat (place->path, &info), ==, 0);
  g_assert_cmpint (info.st_mode & 07777, ==, 0640);
}

static void
test_link (Place *place, gconstpointer data)
{
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);
  g_autofree char *second = g_build_filename (place->folder, "second", NULL);

  g_assert_true (tl_file_save (place->path, "one", 3, NULL));
  g_assert_cmpint (symlink ("a.tinlap", link), ==, 0);
  g_assert_cmpint (symlink (link, second), ==, 0);
  g_assert_true (tl_file_save (second, "two", 3, NULL));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (second, G_FILE_TEST_IS_SYMLINK));
  assert_content (place->path, "two");

  /* A link to nothing makes its target. */
  g_assert_cmpint (g_unlink (place->path), ==, 0);
  g_assert_true (tl_file_save (link, "three", 5, NULL));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  assert_content (place->path, "three");
}

static void
assert_refused (const char *path, const char *message)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (tl_file_save (path, "new", 3, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, message));
}

static void
test_circle (Place *place, gconstpointer data)
{
  g_autofree char *other = g_build_filename (place->folder, "b", NULL);

  g_assert_cmpint (symlink (other, place->path), ==, 0);
  g_assert_cmpint (symlink (place->path, other), ==, 0);
  assert_refused (place->path, "circle");
}

static void
test_bad_targets (Place *place, gconstpointer data)
{
  g_autofree char *gone = g_build_filename (place->folder, "gone", "a.tinlap", NULL);
  g_autofree char *beneath = g_build_filename (place->path, "a.tinlap", NULL);
  g_autofree char *name = g_strnfill (300, 'x');
  g_autofree char *too_long = g_build_filename (place->folder, name, NULL);

  assert_refused ("", "name the file");
  assert_refused (place->folder, "is a folder");
  assert_refused (gone, "there is no folder");
  assert_refused ("/dev/null", "device");
  assert_refused (too_long, "too long");
  g_assert_true (tl_file_save (place->path, "one", 3, NULL));
  assert_refused (beneath, "there is no folder");
  assert_content (place->path, "one");
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

/* Root may write anywhere: the child steps down first. */
static void
test_read_only (void)
{
  if (g_test_subprocess ())
    {
      const char      *folder = g_getenv ("TINLAP_TEST_FOLDER");
      g_autofree char *path = g_build_filename (folder, "a.tinlap", NULL);
      g_autofree char *new_path = g_build_filename (folder, "new.tinlap", NULL);

      g_assert_true (geteuid () != 0 || (setgid (NOBODY) == 0 && setuid (NOBODY) == 0));
      assert_refused (path, "read-only");
      assert_refused (new_path, "read-only");
      return;
    }
  Place place;

  set_up (&place, NULL);
  g_assert_true (tl_file_save (place.path, "one", 3, NULL));
  g_assert_cmpint (g_chmod (place.path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (place.folder, 0555), ==, 0);
  g_setenv ("TINLAP_TEST_FOLDER", place.folder, TRUE);
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  assert_content (place.path, "one");
  g_assert_cmpint (g_chmod (place.folder, 0755), ==, 0);
  g_assert_cmpuint (count_files (place.folder), ==, 1);
  tear_down (&place, NULL);
}

/* A limit on the size of files stops a write half way, as a full disk does. */
static void
test_full_disk (void)
{
  if (g_test_subprocess ())
    {
      const char      *folder = g_getenv ("TINLAP_TEST_FOLDER");
      g_autofree char *path = g_build_filename (folder, "a.tinlap", NULL);
      g_autofree char *large = g_strnfill (100000, 'x');
      g_autoptr (GError) error = NULL;
      const struct rlimit limit = { 4096, 4096 };

      signal (SIGXFSZ, SIG_IGN);
      g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
      g_assert_false (tl_file_save (path, large, 100000, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
      g_assert_nonnull (strstr (error->message, "disk is full"));
      return;
    }
  Place place;

  set_up (&place, NULL);
  g_assert_true (tl_file_save (place.path, "one", 3, NULL));
  g_setenv ("TINLAP_TEST_FOLDER", place.folder, TRUE);
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  assert_content (place.path, "one");
  g_assert_cmpuint (count_files (place.folder), ==, 1);
  tear_down (&place, NULL);
}

static void
test_load_cap (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *read = NULL;
  gsize            length = 99;

  g_assert_true (g_file_set_contents (place->path, "12345", 5, NULL));
  g_assert_false (tl_file_load (place->path, 4, &read, &length, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
  g_assert_nonnull (strstr (error->message, "at most 4 bytes"));
  g_assert_null (read);
  g_clear_error (&error);
  g_assert_true (tl_file_load (place->path, 5, &read, &length, &error));
  g_assert_cmpstr (read, ==, "12345");
  g_assert_cmpuint (length, ==, 5);
}

static void
assert_not_loaded (const char *path, const char *message)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *read = NULL;
  gsize            length;

  g_assert_false (tl_file_load (path, 1000, &read, &length, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, message));
}

static void
test_load_bad (Place *place, gconstpointer data)
{
  g_autofree char *read = NULL;
  gsize            length = 99;

  assert_not_loaded (place->path, "cannot be read");
  assert_not_loaded (place->folder, "is a folder");
  assert_not_loaded ("/dev/zero", "is a device");
  /* A pipe that nobody writes to is empty, and no place to wait for ever. */
  g_assert_cmpint (mkfifo (place->path, 0600), ==, 0);
  g_assert_true (tl_file_load (place->path, 1000, &read, &length, NULL));
  g_assert_cmpuint (length, ==, 0);
}

/* /proc says 0 bytes of files that have some, as files do that grow while they are read. */
static void
test_load_grows (void)
{
  g_autofree char *read = NULL;
  g_autoptr (GError) error = NULL;
  gsize length = 0;

  g_assert_true (tl_file_load ("/proc/self/status", 100000, &read, &length, &error));
  g_assert_cmpuint (length, >, 10);
  g_clear_pointer (&read, g_free);
  g_assert_false (tl_file_load ("/proc/self/status", 10, &read, &length, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
}

static void
test_stamp (Place *place, gconstpointer data)
{
  g_autofree char *none = tl_file_stamp (place->path);
  g_autofree char *first = NULL;
  g_autofree char *again = NULL;
  g_autofree char *second = NULL;

  g_assert_null (none);
  g_assert_true (tl_file_save (place->path, "one", 3, NULL));
  first = tl_file_stamp (place->path);
  again = tl_file_stamp (place->path);
  g_assert_cmpstr (first, ==, again);
  g_assert_true (tl_file_save (place->path, "three", 5, NULL));
  second = tl_file_stamp (place->path);
  g_assert_cmpstr (first, !=, second);
}

/* RFC 4180, 2.7: a quote inside is doubled. An apostrophe before what a table program would run: common practice, no source. */
static void
test_csv_field (void)
{
  static const char *const cases[][2] = {
    { "", "\"\"" },          { "a,b", "\"a,b\"" }, { "5\" box", "\"5\"\" box\"" },
    { "=1+1", "\"'=1+1\"" }, { "1=1", "\"1=1\"" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *field = tl_file_csv_field (cases[i][0]);

      g_assert_cmpstr (field, ==, cases[i][1]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/file/save", Place, NULL, set_up, test_save, tear_down);
  g_test_add ("/file/mode", Place, NULL, set_up, test_mode, tear_down);
  g_test_add ("/file/link", Place, NULL, set_up, test_link, tear_down);
  g_test_add ("/file/circle", Place, NULL, set_up, test_circle, tear_down);
  g_test_add ("/file/bad-targets", Place, NULL, set_up, test_bad_targets, tear_down);
  g_test_add_func ("/file/read-only", test_read_only);
  g_test_add_func ("/file/csv-field", test_csv_field);
  g_test_add_func ("/file/full-disk", test_full_disk);
  g_test_add ("/file/load/cap", Place, NULL, set_up, test_load_cap, tear_down);
  g_test_add ("/file/load/bad", Place, NULL, set_up, test_load_bad, tear_down);
  g_test_add_func ("/file/load/grows", test_load_grows);
  g_test_add ("/file/stamp", Place, NULL, set_up, test_stamp, tear_down);
  return g_test_run ();
}
