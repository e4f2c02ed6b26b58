/* test-container.c: a document with pictures as a ZIP: whole and back, read by other programs, and hostile archives.
 *
 * Other programs: unzip and bsdtar. ZIPs of hostile kinds are written here with the library's writer, which takes any name.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"
#include "joint/container.h"
#include "joint/joint-file.h"
#include "joint/pictures.h"

#include <archive.h>
#include <archive_entry.h>
#include <glib/gstdio.h>
#include <string.h>

static const TlActor actor = { "A. Tester", "2026-03-03T12:00:00Z" };

typedef struct
{
  char    *folder, *path;
  TlJoint *joint;
  GBytes  *original;
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

/* @joint with one more picture. (transfer full) */
static TlJoint *
with_picture (const TlJoint *joint, GBytes *bytes)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlInspections) old = tl_joint_inspections (joint, &error), next = NULL;
  g_autoptr (TlOriginals) originals = tl_originals_new ();
  TlPhoto *photo = tl_photo_new (bytes, "a.png", actor.who, actor.when, &error);
  TlJoint *result;

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

  f->folder = g_dir_make_tmp ("tinlap-zip-XXXXXX", NULL);
  f->path = g_build_filename (f->folder, "a.tinlap", NULL);
  f->original = new_png (0xff0000ff);
  f->joint = with_picture (plain, f->original);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_unlink (f->path);
  g_rmdir (f->folder);
  tl_joint_unref (f->joint);
  g_bytes_unref (f->original);
  g_free (f->folder);
  g_free (f->path);
}

static void
run (const char *command, char **out)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *complaint = NULL;
  int              status;

  if (!g_spawn_command_line_sync (command, out, &complaint, &status, &error))
    g_error ("%s: %s", command, error->message);
  if (!g_spawn_check_wait_status (status, &error))
    g_error ("%s: %s %s", command, error->message, complaint);
}

static void
test_round_trip (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) again = NULL;
  g_autoptr (TlInspections) inspections = NULL;
  g_autoptr (GBytes) bytes = NULL;
  gboolean good;

  g_assert_true (tl_joint_save (f->joint, f->path, &error));
  g_assert_no_error (error);
  g_assert_true (tl_container_is (f->path));
  again = tl_joint_load (f->path, &error);
  g_assert_no_error (error);
  g_assert_true (tl_joint_equal (f->joint, again));
  inspections = tl_joint_inspections (again, &error);
  bytes = tl_originals_get (again->originals,
                            ((TlPhoto *) g_ptr_array_index (inspections->photos, 0))->sha256);
  g_assert_true (g_bytes_equal (bytes, f->original));
  {
    g_autoptr (GPtrArray) lines =
        tl_inspections_verify (inspections, again->originals, tl_language_plain (), &good);

    g_assert_true (good);
    g_assert_cmpuint (lines->len, >, 0);
  }
}

/* Same joint, same bytes; an edit of the joint keeps the pictures. */
static void
test_same_bytes (Fixture *f, gconstpointer data)
{
  g_autofree char *other = g_build_filename (f->folder, "b.tinlap", NULL), *a = NULL, *b = NULL;
  gsize            length_a, length_b;
  g_autoptr (TlJoint) again = NULL, edited = NULL;

  g_assert_true (tl_joint_save (f->joint, f->path, NULL));
  again = tl_joint_load (f->path, NULL);
  g_assert_true (tl_joint_save (again, other, NULL));
  g_assert_true (g_file_get_contents (f->path, &a, &length_a, NULL));
  g_assert_true (g_file_get_contents (other, &b, &length_b, NULL));
  g_assert_cmpmem (a, length_a, b, length_b);
  edited = tl_edit_set_text (again, "name", "Renamed", NULL);
  g_assert_true (tl_joint_save (edited, other, NULL));
  g_assert_true (tl_container_is (other));
  g_unlink (other);
}

static void
test_other_programs (Fixture *f, gconstpointer data)
{
  g_autofree char *unzip = g_strdup_printf ("unzip -t %s", f->path),
                  *list = g_strdup_printf ("bsdtar -tf %s", f->path),
                  *sum =
                      g_strdup_printf ("sh -c 'unzip -p %s \"pictures/*\" | sha256sum'", f->path);
  g_autofree char *tested = NULL, *names = NULL, *printed = NULL,
                  *hash = tl_photo_hash (f->original);

  g_assert_true (tl_joint_save (f->joint, f->path, NULL));
  run (unzip, &tested);
  g_assert_nonnull (strstr (tested, "No errors detected"));
  run (list, &names);
  g_assert_true (g_str_has_prefix (names, "joint.xml\npictures/"));
  run (sum, &printed);
  g_assert_true (g_str_has_prefix (printed, hash));
}

static void
test_bare (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) plain = tl_joint_new (), again = NULL;

  g_assert_true (tl_joint_save (plain, f->path, NULL));
  g_assert_false (tl_container_is (f->path));
  again = tl_joint_load (f->path, NULL);
  g_assert_true (tl_joint_equal (plain, again));
}

/* --- hostile --- */

typedef struct
{
  const char   *name;
  gconstpointer data;
  gsize         length;
  mode_t        type;
} Member;

static void
write_zip (const char *path, const Member *members, guint n)
{
  struct archive *archive = archive_write_new ();

  archive_write_set_format_zip (archive);
  g_assert_cmpint (archive_write_open_filename (archive, path), ==, ARCHIVE_OK);
  for (guint i = 0; i < n; i++)
    {
      struct archive_entry *entry = archive_entry_new ();

      archive_entry_set_pathname (entry, members[i].name);
      archive_entry_set_size (entry, (la_int64_t) members[i].length);
      archive_entry_set_filetype (entry, members[i].type != 0 ? members[i].type : AE_IFREG);
      archive_entry_set_perm (entry, 0644);
      if (members[i].type == AE_IFLNK)
        archive_entry_set_symlink (entry, "/etc/passwd");
      g_assert_cmpint (archive_write_header (archive, entry), ==, ARCHIVE_OK);
      if (members[i].length > 0)
        archive_write_data (archive, members[i].data, members[i].length);
      archive_entry_free (entry);
    }
  archive_write_close (archive);
  archive_write_free (archive);
}

#define HASH "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"
static const char xml[] = "<joint xmlns=\"urn:tinlap:joint:1\" format=\"1\" minor=\"0\" "
                          "next-id=\"1\"><about name=\"\"/><legs/><layers/><site/><duty/></joint>";

static void
assert_refused (const char *path, int code)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = tl_joint_load (path, &error);

  g_assert_null (joint);
  g_assert_error (error, TL_ERROR, code);
  g_assert_nonnull (strstr (error->message, "a.tinlap"));
}

static void
test_names (Fixture *f, gconstpointer data)
{
  static const char *const names[] = {
    "../joint.xml",   "/etc/passwd",           "pictures/../../x.jpg",
    "pictures/x.jpg", "pictures/" HASH ".exe", "pictures/" HASH "0.jpg",
    "other.xml",      "joint.xml/x",           "PICTURES/" HASH ".jpg",
    "pictures/" HASH,
  };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      Member members[] = { { "joint.xml", xml, sizeof xml - 1 }, { names[i], "x", 1 } };

      write_zip (f->path, members, 2);
      assert_refused (f->path, TL_ERROR_PARSE);
    }
}

static void
test_twice (Fixture *f, gconstpointer data)
{
  Member joints[] = { { "joint.xml", xml, sizeof xml - 1 }, { "joint.xml", xml, sizeof xml - 1 } };
  Member pictures[] = { { "joint.xml", xml, sizeof xml - 1 },
                        { "pictures/" HASH ".jpg", "x", 1 },
                        { "pictures/" HASH ".png", "y", 1 } };

  write_zip (f->path, joints, 2);
  assert_refused (f->path, TL_ERROR_PARSE);
  write_zip (f->path, pictures, 3);
  assert_refused (f->path, TL_ERROR_PARSE);
}

static void
test_odd (Fixture *f, gconstpointer data)
{
  Member none[] = { { "pictures/" HASH ".jpg", "x", 1 } },
         link[] = { { "joint.xml", NULL, 0, AE_IFLNK } };
  Member folder[] = { { "pictures/", NULL, 0, AE_IFDIR }, { "joint.xml", xml, sizeof xml - 1 } };
  g_autoptr (TlJoint) fine = NULL;

  write_zip (f->path, none, 1);
  assert_refused (f->path, TL_ERROR_PARSE);
  write_zip (f->path, link, 1);
  assert_refused (f->path, TL_ERROR_PARSE);
  /* Packed again by another program: a folder of its own is no harm. */
  write_zip (f->path, folder, 2);
  fine = tl_joint_load (f->path, NULL);
  g_assert_nonnull (fine);
}

/* 64 MB of zeros as joint.xml, deflated to next to nothing; more files than permitted. */
static void
test_bombs (Fixture *f, gconstpointer data)
{
  gsize            length = 64u << 20;
  g_autofree char *zeros = g_malloc0 (length);
  Member           bomb[] = { { "joint.xml", zeros, length } };
  GArray          *many = g_array_new (FALSE, TRUE, sizeof (Member));
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  write_zip (f->path, bomb, 1);
  assert_refused (f->path, TL_ERROR_LIMIT);
  for (guint i = 0; i < TL_CONTAINER_MAX_MEMBERS + 5; i++)
    {
      Member member = { g_strdup_printf ("pictures/%064x.jpg", i), "x", 1, 0 };

      g_ptr_array_add (names, (gpointer) member.name);
      g_array_append_val (many, member);
    }
  write_zip (f->path, (const Member *) (gpointer) many->data, many->len);
  assert_refused (f->path, TL_ERROR_LIMIT);
  g_array_unref (many);
}

/* The list at the end says another size than there is; the file is cut; its bytes are damaged at random. */
static void
test_lies (Fixture *f, gconstpointer data)
{
  g_autofree char *zip = NULL;
  g_autoptr (GRand) dice = g_rand_new_with_seed (3);
  gsize length, at;

  g_assert_true (tl_joint_save (f->joint, f->path, NULL));
  g_assert_true (g_file_get_contents (f->path, &zip, &length, NULL));
  for (at = 0; memcmp (zip + at, "PK\1\2", 4) != 0; at++)
    g_assert_cmpuint (at, <, length);
  zip[at + 24] = (char) (zip[at + 24] + 1);
  g_assert_true (g_file_set_contents (f->path, zip, (gssize) length, NULL));
  assert_refused (f->path, TL_ERROR_PARSE);
  zip[at + 24] = (char) (zip[at + 24] - 1);
  g_assert_true (g_file_set_contents (f->path, zip, (gssize) length / 2, NULL));
  {
    g_autoptr (GError) error = NULL;

    g_assert_null (tl_joint_load (f->path, &error));
    g_assert_nonnull (error);
  }
  for (guint i = 0; i < 300; i++)
    {
      g_autofree char *copy = g_memdup2 (zip, length);
      g_autoptr (GError) error = NULL;
      g_autoptr (TlJoint) joint = NULL;

      for (guint k = 0; k < 6; k++)
        copy[g_rand_int_range (dice, 4, (gint32) length)] = (char) g_rand_int_range (dice, 0, 256);
      g_assert_true (g_file_set_contents (f->path, copy, (gssize) length, NULL));
      joint = tl_joint_load (f->path, &error);
      g_assert_true ((joint == NULL) == (error != NULL));
    }
}

/* Bytes exchanged under the hash of the record: the document opens, verifying tells. */
static void
test_exchanged (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlInspections) inspections = tl_joint_inspections (f->joint, &error);
  g_autofree char *member = tl_photo_member (g_ptr_array_index (inspections->photos, 0)),
                  *text = NULL;
  g_autoptr (GBytes) other = new_png (0x00ff00ff);
  g_autoptr (TlJoint) again = NULL;
  gsize    length;
  gboolean good;

  text = tl_joint_to_text (f->joint, &length);
  {
    Member members[] = { { "joint.xml", text, length },
                         { member, g_bytes_get_data (other, NULL), g_bytes_get_size (other) } };

    write_zip (f->path, members, 2);
  }
  again = tl_joint_load (f->path, &error);
  g_assert_no_error (error);
  {
    g_autoptr (GPtrArray) lines =
        tl_inspections_verify (inspections, again->originals, tl_language_plain (), &good);

    g_assert_false (good);
    g_assert_cmpint (((TlCheckLine *) g_ptr_array_index (lines, 0))->check, ==, TL_CHECK_CHANGED);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, func) g_test_add ("/container/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("round-trip", test_round_trip);
  ADD ("same-bytes", test_same_bytes);
  ADD ("other-programs", test_other_programs);
  ADD ("bare", test_bare);
  ADD ("names", test_names);
  ADD ("twice", test_twice);
  ADD ("odd", test_odd);
  ADD ("bombs", test_bombs);
  ADD ("lies", test_lies);
  ADD ("exchanged", test_exchanged);
  return g_test_run ();
}
