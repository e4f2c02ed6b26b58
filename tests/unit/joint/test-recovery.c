/* test-recovery.c: a joint put by with its pictures: cut off at any point, originals missing, damaged, unreadable.
 *
 * "Cut off" is a child that writes joint after joint and is killed (SIGKILL) at some moment; what stands there afterwards must
 * be one of its joints with all of its originals.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"
#include "joint/container.h"
#include "joint/joint-file.h"
#include "joint/pictures.h"
#include "joint/recovery.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const TlActor actor = { "A. Tester", "2026-03-03T12:00:00Z" };

typedef struct
{
  char    *folder, *path, *pictures;
  TlJoint *one, *two; /* with one picture, with two */
} Fixture;

static GBytes *
new_png (guint32 colour)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 40, 30);
  char *data;
  gsize length;

  gdk_pixbuf_fill (pixbuf, colour);
  g_assert_true (gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, "png", NULL, NULL));
  return g_bytes_new_take (data, length);
}

/* @joint with one more picture of this colour. (transfer full) */
static TlJoint *
with_picture (const TlJoint *joint, guint32 colour)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlInspections) old = tl_joint_inspections (joint, &error), next = NULL;
  g_autoptr (TlOriginals) originals = tl_originals_new ();
  g_autoptr (GBytes) bytes = new_png (colour);
  g_autofree char *name = g_strdup_printf ("%08x.png", colour);
  TlPhoto         *photo = tl_photo_new (bytes, name, actor.who, actor.when, &error);
  TlJoint         *result;

  g_assert_no_error (error);
  tl_originals_put (originals, photo->sha256, bytes);
  next = tl_inspections_add_photo (old, photo, &actor, NULL, &error);
  g_assert_no_error (error);
  result = tl_edit_set_inspections (joint, next, originals);
  tl_record_unref (photo);
  return result;
}

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) plain = tl_joint_new ();

  f->folder = g_dir_make_tmp ("tinlap-recovery-XXXXXX", NULL);
  f->path = g_build_filename (f->folder, "kept.tinlap", NULL);
  f->pictures = g_strconcat (f->path, ".pictures", NULL);
  f->one = with_picture (plain, 0xff0000ff);
  f->two = with_picture (f->one, 0x00ff00ff);
}

static void
empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  for (const char *name; dir != NULL && (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_chmod (path, 0700);
      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        empty (path);
      g_remove (path);
    }
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  empty (f->folder);
  g_rmdir (f->folder);
  tl_joint_unref (f->one);
  tl_joint_unref (f->two);
  g_free (f->folder);
  g_free (f->path);
  g_free (f->pictures);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint count = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    count++;
  return count;
}

static const TlPhoto *
photo_at (const TlInspections *inspections, guint i)
{
  return g_ptr_array_index (inspections->photos, i);
}

/* Path of an original beside the text; (transfer full) */
static char *
original_path (Fixture *f, const TlJoint *joint, guint i)
{
  g_autoptr (TlInspections) inspections = tl_joint_inspections (joint, NULL);
  g_autofree char *name = g_strconcat (photo_at (inspections, i)->sha256, ".png", NULL);

  return g_build_filename (f->pictures, name, NULL);
}

static gboolean
is_whole (const TlJoint *joint)
{
  g_autoptr (TlInspections) inspections = tl_joint_inspections (joint, NULL);
  g_autoptr (GPtrArray) lines = NULL;
  gboolean good;

  lines = tl_inspections_verify (inspections, joint->originals, tl_language_plain (), &good);
  return good;
}

static void
assert_comes_back (Fixture *f, const TlJoint *joint)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) missing = NULL;
  g_autoptr (TlJoint) again = tl_recovery_load (f->path, NULL, &missing, &error);

  g_assert_no_error (error);
  g_assert_true (tl_joint_equal (joint, again));
  g_assert_cmpuint (missing->len, ==, 0);
  g_assert_true (is_whole (again));
}

static void
test_round_trip (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) plain = tl_joint_new ();
  struct stat info;

  g_assert_true (tl_recovery_save (plain, f->path, NULL));
  assert_comes_back (f, plain);
  /* No folder for a joint without pictures. */
  g_assert_false (g_file_test (f->pictures, G_FILE_TEST_EXISTS));
  g_assert_true (tl_recovery_save (f->two, f->path, NULL));
  assert_comes_back (f, f->two);
  g_assert_cmpuint (count_files (f->pictures), ==, 2);
  g_assert_cmpint (stat (f->pictures, &info), ==, 0);
  g_assert_cmpuint (info.st_mode & 0777, ==, 0700);
  g_assert_true (tl_recovery_remove (f->path, NULL));
  g_assert_cmpuint (count_files (f->folder), ==, 0);
  g_assert_true (tl_recovery_remove (f->path, NULL));
}

/* An original is written once: the same file stands there after further edits; what is not named any more goes. */
static void
test_once (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) renamed = tl_edit_set_text (f->two, "name", "Renamed", NULL);
  g_autofree char *first = original_path (f, f->two, 0);
  struct stat      before, after;

  g_assert_true (tl_recovery_save (f->two, f->path, NULL));
  g_assert_cmpint (stat (first, &before), ==, 0);
  g_assert_true (tl_recovery_save (renamed, f->path, NULL));
  g_assert_cmpint (stat (first, &after), ==, 0);
  g_assert_cmpuint (before.st_ino, ==, after.st_ino);
  assert_comes_back (f, renamed);
  g_assert_true (tl_recovery_save (f->one, f->path, NULL));
  g_assert_cmpuint (count_files (f->pictures), ==, 1);
  assert_comes_back (f, f->one);
  /* Back by redo: its bytes are still in memory. */
  g_assert_true (tl_recovery_save (f->two, f->path, NULL));
  assert_comes_back (f, f->two);
}

/* A child puts joints by, each with one picture more, and is killed at some moment. */
static void
test_killed (Fixture *f, gconstpointer data)
{
  TlJoint *joints[13] = { tl_joint_new () };
  guint    come_back = 0;

  for (guint i = 1; i < G_N_ELEMENTS (joints); i++)
    joints[i] = with_picture (joints[i - 1], 0x010203ffu + (i << 16));
  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (TlJoint) again = NULL;
      pid_t child = fork ();
      int   status;

      if (child == 0)
        for (guint i = 0;; i = (i + 1) % G_N_ELEMENTS (joints))
          if (!tl_recovery_save (joints[i], f->path, NULL))
            _exit (1);
      g_usleep (300 + 900 * round);
      kill (child, SIGKILL);
      g_assert_cmpint (waitpid (child, &status, 0), ==, child);
      g_assert_true (WIFSIGNALED (status));
      if (!g_file_test (f->path, G_FILE_TEST_EXISTS))
        continue;
      again = tl_recovery_load (f->path, NULL, NULL, &error);
      g_assert_no_error (error);
      g_assert_true (is_whole (again));
      come_back++;
    }
  g_assert_cmpuint (come_back, >, 0);
  /* What a killed one left half written goes with the next. */
  g_assert_true (tl_recovery_save (joints[2], f->path, NULL));
  g_assert_cmpuint (count_files (f->pictures), ==, 2);
  assert_comes_back (f, joints[2]);
  for (guint i = 0; i < G_N_ELEMENTS (joints); i++)
    tl_joint_unref (joints[i]);
}

/* An original is gone: it comes from the document, else it is named; all else comes back. */
static void
test_missing (Fixture *f, gconstpointer data)
{
  g_autofree char *second = original_path (f, f->two, 1),
                  *document = g_build_filename (f->folder, "saved.tinlap", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) none = NULL, missing = NULL;
  g_autoptr (TlJoint) from_document = NULL, without = NULL;

  g_assert_true (tl_joint_save (f->two, document, NULL));
  g_assert_true (tl_recovery_save (f->two, f->path, NULL));
  g_assert_cmpint (g_unlink (second), ==, 0);
  from_document = tl_recovery_load (f->path, document, &none, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_true (is_whole (from_document));
  /* The document is gone as well, or is none. */
  g_assert_cmpint (g_unlink (document), ==, 0);
  without = tl_recovery_load (f->path, document, &missing, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (missing->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (missing, 0), ==, "00ff00ff.png");
  g_assert_true (tl_joint_equal (f->two, without));
  g_assert_false (is_whole (without));
}

/* Damaged, of the same size: the document's is taken; alone it is taken as it is and verifying tells it. */
static void
test_damaged (Fixture *f, gconstpointer data)
{
  g_autofree char *first = original_path (f, f->two, 0), *bytes = NULL,
                  *document = g_build_filename (f->folder, "saved.tinlap", NULL);
  g_autoptr (TlJoint) mended = NULL, damaged = NULL;
  g_autoptr (GPtrArray) missing = NULL;
  gsize length;

  g_assert_true (tl_joint_save (f->one, document, NULL));
  g_assert_true (tl_recovery_save (f->two, f->path, NULL));
  g_assert_true (g_file_get_contents (first, &bytes, &length, NULL));
  bytes[length / 2] ^= 1;
  g_assert_true (g_file_set_contents (first, bytes, (gssize) length, NULL));
  mended = tl_recovery_load (f->path, document, NULL, NULL);
  g_assert_true (is_whole (mended));
  damaged = tl_recovery_load (f->path, NULL, &missing, NULL);
  g_assert_cmpuint (missing->len, ==, 0);
  g_assert_false (is_whole (damaged));
  /* Cut short: written again with the next edit. */
  g_assert_true (g_file_set_contents (first, bytes, (gssize) length / 2, NULL));
  g_assert_true (tl_recovery_save (f->two, f->path, NULL));
  assert_comes_back (f, f->two);
}

/* The folder of the originals cannot be made or written: the joint put by before still stands, and the sentence says where. */
static void
test_no_room (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) plain = tl_joint_new ();

  g_assert_true (tl_recovery_save (plain, f->path, NULL));
  g_assert_true (g_file_set_contents (f->pictures, "a file, not a folder", -1, NULL));
  g_assert_false (tl_recovery_save (f->one, f->path, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, ".pictures"));
  assert_comes_back (f, plain);
}

/* What others put into the folder stays. */
static void
test_not_ours (Fixture *f, gconstpointer data)
{
  g_autofree char *other = g_build_filename (f->pictures, "letter.txt", NULL);

  g_assert_true (tl_recovery_save (f->one, f->path, NULL));
  g_assert_true (g_file_set_contents (other, "x", 1, NULL));
  g_assert_true (tl_recovery_remove (f->path, NULL));
  g_assert_true (g_file_test (other, G_FILE_TEST_EXISTS));
  g_assert_cmpuint (count_files (f->pictures), ==, 1);
}

/* A text that is damaged is refused with its place; one saved as a ZIP is read. */
static void
test_forms (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) none = NULL;

  g_assert_true (tl_joint_save (f->two, f->path, NULL));
  g_assert_true (tl_container_is (f->path));
  assert_comes_back (f, f->two);
  g_assert_true (g_file_set_contents (f->path, "<joint", -1, NULL));
  none = tl_recovery_load (f->path, NULL, NULL, &error);
  g_assert_null (none);
  g_assert_nonnull (strstr (error->message, "kept.tinlap"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, func) g_test_add ("/recovery/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("round-trip", test_round_trip);
  ADD ("once", test_once);
  ADD ("killed", test_killed);
  ADD ("missing", test_missing);
  ADD ("damaged", test_damaged);
  ADD ("no-room", test_no_room);
  ADD ("not-ours", test_not_ours);
  ADD ("forms", test_forms);
  return g_test_run ();
}
