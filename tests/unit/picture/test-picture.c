/* test-picture.c: picture files: what they say, how they stand upright, what is refused, what leaves with them.
 *
 * Sources: Exif tag 0x0112 (orientation; where row 0 and column 0 lie), FIPS 180-4 (SHA-256 of nothing and of "abc"), the
 * sha256sum program.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "files.h"

#include <glib/gstdio.h>
#include <libexif/exif-data.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

static TlPhoto *
photo_of (GBytes *bytes, const char *name)
{
  g_autoptr (GError) error = NULL;
  TlPhoto *photo = tl_photo_new (bytes, name, "A. Tester", "2026-03-03T12:00:00+01:00", &error);

  if (photo == NULL)
    g_error ("%s: %s", name, error->message);
  return photo;
}

/* Exif: orientation N says where row 0 and column 0 of the stored picture are seen. The stored picture has red at row 0,
 * column 0, green at row 0's far end, blue at column 0's far end. */
static void
test_orientation (void)
{
  static const struct
  {
    const char *red, *green, *blue; /* corner: top/bottom and left/right */
  } wanted[] = {
    { "tl", "tr", "bl" }, { "tr", "tl", "br" }, { "br", "bl", "tr" }, { "bl", "br", "tl" },
    { "tl", "bl", "tr" }, { "tr", "br", "tl" }, { "br", "tr", "bl" }, { "bl", "tl", "br" },
  };

  for (guint code = 1; code <= 8; code++)
    {
      g_autoptr (GBytes) bytes = tf_exif_jpeg (96, 64, code, FALSE);
      g_autoptr (GError) error = NULL;
      TlPhoto *photo = photo_of (bytes, "a.jpg");
      g_autoptr (GdkPixbuf) pixbuf = tl_photo_decode (photo, bytes, 0, NULL, &error);
      const char *corners[] = { wanted[code - 1].red, wanted[code - 1].green,
                                wanted[code - 1].blue };
      guint       width, height;
      TlPixel     origin;

      g_assert_no_error (error);
      g_assert_cmpuint (photo->orientation, ==, code);
      tl_photo_size (photo, &width, &height);
      g_assert_cmpuint (width, ==, code >= 5 ? 64 : 96);
      g_assert_cmpint (gdk_pixbuf_get_width (pixbuf), ==, (int) width);
      g_assert_cmpint (gdk_pixbuf_get_height (pixbuf), ==, (int) height);
      for (guint i = 0; i < 3; i++)
        g_assert_cmpint (tf_colour (pixbuf, corners[i][1] == 'l' ? 4 : (int) width - 5,
                                    corners[i][0] == 't' ? 4 : (int) height - 5),
                         ==, "rgb"[i]);
      /* The point and the pixels agree. */
      g_assert_true (tl_photo_upright (photo, 0, 0, &origin, NULL));
      g_assert_cmpint ((int) origin.x_px, ==, corners[0][1] == 'l' ? 0 : (int) width - 1);
      g_assert_cmpint ((int) origin.y_px, ==, corners[0][0] == 't' ? 0 : (int) height - 1);
      tl_record_unref (photo);
    }
}

static void
test_exif (void)
{
  g_autoptr (GBytes) bytes = tf_exif_jpeg (96, 64, 6, TRUE), odd = tf_exif_jpeg (96, 64, 77, FALSE),
                     plain = tf_picture (96, 64, "png");
  TlPhoto *photo = photo_of (bytes, "/home/a/box open.jpg"), *other = photo_of (odd, "b.jpg"),
          *none = photo_of (plain, "c.png");

  g_assert_cmpstr (photo->name, ==, "box open.jpg");
  g_assert_cmpstr (photo->taken, ==, "2026-03-03T10:12:05");
  g_assert_cmpstr (photo->zone, ==, "+01:00");
  g_assert_cmpstr (photo->camera, ==, "Fennick Box 1");
  g_assert_cmpfloat (photo->focal_mm, ==, 26);
  g_assert_true (photo->has_position);
  /* Out of range means 1. */
  g_assert_cmpuint (other->orientation, ==, 1);
  g_assert_false (other->has_position);
  g_assert_cmpstr (none->taken, ==, "");
  g_assert_cmpuint (none->orientation, ==, 1);
  tl_record_unref (photo);
  tl_record_unref (other);
  tl_record_unref (none);
}

static void
test_hash (void)
{
  g_autoptr (GBytes) nothing = g_bytes_new_static ("", 0), abc = g_bytes_new_static ("abc", 3),
                     bytes = tf_picture (50, 40, "png");
  g_autofree char *a = tl_photo_hash (nothing), *b = tl_photo_hash (abc),
                  *c = tl_photo_hash (bytes);
  g_autofree char *folder = g_dir_make_tmp ("tinlap-hash-XXXXXX", NULL),
                  *path = g_build_filename (folder, "p.png", NULL);
  g_autofree char *command = g_strdup_printf ("sha256sum %s", path), *printed = NULL;

  g_assert_cmpstr (a, ==, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  g_assert_cmpstr (b, ==, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  g_assert_true (g_file_set_contents (path, g_bytes_get_data (bytes, NULL),
                                      (gssize) g_bytes_get_size (bytes), NULL));
  g_assert_true (g_spawn_command_line_sync (command, &printed, NULL, NULL, NULL));
  g_assert_true (g_str_has_prefix (printed, c));
  g_unlink (path);
  g_rmdir (folder);
}

/* All kinds by their content, whatever the name says; the scaled level keeps the proportion. */
static void
test_kinds (void)
{
  static const struct
  {
    const char *kind, *name;
    TlPhotoKind found;
  } cases[] = { { "png", "a.jpg", TL_PHOTO_PNG },
                { "jpeg", "a.tif", TL_PHOTO_JPEG },
                { "tiff", "a", TL_PHOTO_TIFF } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GBytes) bytes = tf_picture (300, 200, cases[i].kind);
      g_autoptr (GError) error = NULL;
      TlPhoto *photo = photo_of (bytes, cases[i].name);
      g_autoptr (GdkPixbuf) full = tl_photo_decode (photo, bytes, 0, NULL, &error);
      g_autoptr (GdkPixbuf) small = tl_photo_decode (photo, bytes, 60, NULL, &error);

      g_assert_no_error (error);
      g_assert_cmpint (photo->kind, ==, cases[i].found);
      g_assert_cmpint (gdk_pixbuf_get_width (full), ==, 300);
      g_assert_cmpint (gdk_pixbuf_get_width (small), ==, 60);
      g_assert_cmpint (gdk_pixbuf_get_height (small), ==, 40);
      tl_record_unref (photo);
    }
}

/* 16 bits a sample and four inks are shown as well as the screen can; files from an image program. */
static void
test_deep (void)
{
  static const char *const files[] = { "-depth 16 -define png:bit-depth=16 png:",
                                       "-colorspace CMYK jpg:", "-depth 16 tif:" };
  g_autofree char         *folder = g_dir_make_tmp ("tinlap-deep-XXXXXX", NULL),
                  *path = g_build_filename (folder, "p", NULL);
  g_autofree char *program = g_find_program_in_path ("convert");

  g_assert_nonnull (program);
  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *command =
          g_strdup_printf ("%s -size 40x30 xc:red %s%s", program, files[i], path);
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (GdkPixbuf) pixbuf = NULL;
      TlPhoto *photo;

      g_assert_true (g_spawn_command_line_sync (command, NULL, NULL, NULL, &error));
      photo = tl_photo_load (path, "A", "2026-03-03T12:00:00Z", &bytes, &error);
      g_assert_no_error (error);
      pixbuf = tl_photo_decode (photo, bytes, 0, NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpint (tf_colour (pixbuf, 20, 15), ==, 'r');
      tl_record_unref (photo);
      g_unlink (path);
    }
  g_rmdir (folder);
}

static void
assert_refused (GBytes *bytes, int code)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (tl_photo_new (bytes, "p.jpg", "A", "2026-03-03", &error));
  g_assert_error (error, TL_ERROR, code);
  g_assert_cmpuint (strlen (error->message), >, 20);
}

/* Heads that lie, cut files, moving pictures, other things under a picture's name. */
static void
test_hostile (void)
{
  g_autoptr (GBytes) png = tf_picture (64, 64, "png"), jpeg = tf_picture (64, 64, "jpeg");
  g_autoptr (GBytes) huge =
      tf_patched (png, 16, "\x00\x01\x86\xa0\x00\x01\x86\xa0", 8); /* 100 000 by 100 000 */
  g_autoptr (GBytes) none = tf_patched (png, 16, "\0\0\0\0", 4);
  g_autoptr (GBytes) text = g_bytes_new_static ("not a picture at all", 20),
                     empty = g_bytes_new_static ("", 0);
  g_autoptr (GBytes) svg = g_bytes_new_static ("<svg xmlns='http://www.w3.org/2000/svg'/>", 41);
  g_autoptr (GBytes) gif = g_bytes_new_static ("GIF89a\x40\0\x40\0\x80\0\0", 13);
  g_autoptr (GBytes) head = g_bytes_new_from_bytes (jpeg, 0, 20);

  assert_refused (huge, TL_ERROR_LIMIT);
  assert_refused (none, TL_ERROR_PARSE);
  assert_refused (text, TL_ERROR_PARSE);
  assert_refused (empty, TL_ERROR_PARSE);
  assert_refused (svg, TL_ERROR_PARSE);
  assert_refused (gif, TL_ERROR_PARSE);
  assert_refused (head, TL_ERROR_PARSE);
}

/* Moving pictures of the two kinds that can move: told from their heads, since a frame chosen for the inspector is no evidence. */
static void
test_moving (void)
{
  static const guint8 webp[] = { 'R',  'I', 'F', 'F', 32,  0,   0,  0,  'W', 'E',
                                 'B',  'P', 'V', 'P', '8', 'X', 10, 0,  0,   0,
                                 0x02, 0,   0,   0,   63,  0,   0,  63, 0,   0,
                                 'A',  'N', 'I', 'M', 6,   0,   0,  0,  0,   0 };
  static const guint8 control[] = { 0, 0, 0, 8, 'a', 'c', 'T',  'L',  0,    0,
                                    0, 2, 0, 0, 0,   0,   0xf3, 0x8d, 0x93, 0x70 };
  const gsize         head = 8 + 12 + 13; /* signature, IHDR */
  g_autoptr (GBytes) png = tf_picture (64, 64, "png"), moving_png = NULL,
                     moving_webp = g_bytes_new_static (webp, sizeof webp);
  GByteArray *joined = g_byte_array_new ();
  GBytes     *both[2];

  g_byte_array_append (joined, g_bytes_get_data (png, NULL), (guint) head);
  g_byte_array_append (joined, control, sizeof control);
  g_byte_array_append (joined, (const guint8 *) g_bytes_get_data (png, NULL) + head,
                       (guint) (g_bytes_get_size (png) - head));
  moving_png = g_byte_array_free_to_bytes (joined);
  both[0] = moving_png;
  both[1] = moving_webp;
  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (tl_photo_new (both[i], "m", "A", "2026-03-03", &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
      g_assert_nonnull (strstr (error->message, "moving"));
    }
}

/* Gone, a folder, a device, larger than the cap: a sentence each. */
static void
test_no_file (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tinlap-gone-XXXXXX", NULL),
                  *gone = g_build_filename (folder, "gone.jpg", NULL),
                  *large = g_build_filename (folder, "large.jpg", NULL);
  const char *paths[] = { gone, folder, "/dev/zero", large };

  g_assert_true (g_file_set_contents (large, "x", 1, NULL));
  g_assert_cmpint (truncate (large, (off_t) TL_PHOTO_MAX_BYTES + 1), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) bytes = NULL;

      g_assert_null (tl_photo_load (paths[i], "A", "2026-03-03", &bytes, &error));
      g_assert_true (error != NULL && error->domain == TL_ERROR);
      g_assert_null (bytes);
    }
  g_unlink (large);
  g_rmdir (folder);
}

/* 60 000 by 60 000 in the head would be 14 GB of pixels: a child that may take 256 MB in all says no and lives, also when asked for
 * a small level. */
static void
test_bounded_memory (void)
{
  g_autoptr (GBytes) png = tf_picture (64, 64, "png");
  g_autoptr (GBytes) large = tf_patched (png, 16, "\x00\x00\xea\x60\x00\x00\xea\x60", 8);
  pid_t child;
  int   status;

#ifdef __SANITIZE_ADDRESS__
  g_test_skip ("the sanitizer itself takes more than the limit");
  return;
#endif
  child = fork ();
  if (child == 0)
    {
      struct rlimit limit = { 256u << 20, 256u << 20 };
      TlPhoto      *photo;

      setrlimit (RLIMIT_AS, &limit);
      photo = tl_photo_new (large, "l.png", "A", "2026-03-03", NULL);
      _exit (photo != NULL && tl_photo_decode (photo, large, 0, NULL, NULL) == NULL
                     && tl_photo_decode (photo, large, 200, NULL, NULL) == NULL
                 ? 0
                 : 1);
    }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
}

/* 60 000 by 60 000 in the head: kept, and not decoded; no memory is taken for it. */
static void
test_lying_size (void)
{
  g_autoptr (GBytes) png = tf_picture (64, 64, "png");
  g_autoptr (GBytes) large = tf_patched (png, 16, "\x00\x00\xea\x60\x00\x00\xea\x60", 8);
  g_autoptr (GBytes) near_size = tf_patched (png, 16, "\x00\x00\x00\x48\x00\x00\x00\x48", 8);
  g_autoptr (GError) error = NULL, cause = NULL;
  TlPhoto *photo = photo_of (large, "l.png"), *honest = photo_of (png, "h.png"),
          *other = photo_of (near_size, "o.png");

  g_assert_false (tl_photo_fits (photo));
  g_assert_null (tl_photo_decode (photo, large, 0, NULL, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_LIMIT);
  g_assert_nonnull (strstr (error->message, "reduced copy"));
  /* The record says 64, the bytes say 72. */
  g_assert_null (tl_photo_decode (honest, near_size, 0, NULL, &cause));
  g_assert_nonnull (cause);
  tl_record_unref (photo);
  tl_record_unref (honest);
  tl_record_unref (other);
}

static void
test_cut (void)
{
  static const char *const kinds[] = { "png", "jpeg" };

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (GBytes) whole = tf_picture (200, 150, kinds[i]);
      g_autoptr (GBytes) cut = g_bytes_new_from_bytes (whole, 0, g_bytes_get_size (whole) * 3 / 4);
      g_autoptr (GError) error = NULL;
      TlPhoto *photo = photo_of (cut, "cut");

      g_assert_null (tl_photo_decode (photo, cut, 0, NULL, &error));
      g_assert_error (error, TL_ERROR, TL_ERROR_PARSE);
      tl_record_unref (photo);
    }
}

/* A folder of entries that points to itself, and one that claims four thousand million values. */
static void
test_exif_bomb (void)
{
  g_autoptr (GBytes) bytes = tf_exif_jpeg (96, 64, 1, TRUE);
  gsize at = 2 + 4 + 6; /* start of the TIFF block */
  g_autoptr (GBytes) circle = tf_patched (bytes, at + 8 + 2 + 3 * 12 + 8, "\0\0\0\x08", 4);
  g_autoptr (GBytes) many = tf_patched (bytes, at + 8 + 2 + 4, "\xff\xff\xff\xff", 4);
  g_autoptr (GBytes) far = tf_patched (bytes, at + 4, "\x7f\xff\xff\xff", 4);
  g_autoptr (GBytes) clean = NULL;
  GBytes *all[] = { circle, many, far };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      TlPhoto *photo = photo_of (all[i], "bomb.jpg");
      g_autoptr (GBytes) stripped = tl_photo_without_position (all[i], NULL);

      g_assert_cmpuint (photo->width, ==, 96);
      g_assert_nonnull (stripped);
      tl_record_unref (photo);
    }
}

/* On export the position is gone by another reader's judgement, the rest and the pixels are not. */
static void
test_strip (void)
{
  g_autoptr (GBytes) bytes = tf_exif_jpeg (96, 64, 6, TRUE),
                     stripped = tl_photo_without_position (bytes, NULL);
  gsize         length;
  const guint8 *data = g_bytes_get_data (stripped, &length);
  ExifData     *exif = exif_data_new_from_data (data, (unsigned int) length);
  TlPhoto      *before = photo_of (bytes, "a.jpg"), *after = photo_of (stripped, "a.jpg");
  g_autoptr (GdkPixbuf) a = tl_photo_decode (before, bytes, 0, NULL, NULL),
                        b = tl_photo_decode (after, stripped, 0, NULL, NULL);

  g_assert_nonnull (exif);
  g_assert_null (exif_content_get_entry (exif->ifd[EXIF_IFD_GPS], (ExifTag) 0x0002));
  g_assert_nonnull (exif_content_get_entry (exif->ifd[EXIF_IFD_EXIF], EXIF_TAG_DATE_TIME_ORIGINAL));
  g_assert_true (before->has_position);
  g_assert_false (after->has_position);
  g_assert_cmpuint (after->orientation, ==, 6);
  g_assert_cmpmem (gdk_pixbuf_read_pixels (a), gdk_pixbuf_get_byte_length (a),
                   gdk_pixbuf_read_pixels (b), gdk_pixbuf_get_byte_length (b));
  /* The original is as it was. */
  {
    g_autofree char *hash = tl_photo_hash (bytes);

    g_assert_cmpstr (hash, ==, before->sha256);
  }
  exif_data_unref (exif);
  tl_record_unref (before);
  tl_record_unref (after);
}

/* Random damage: a message or a picture, never a crash. */
static void
test_random_damage (void)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (77);
  g_autoptr (GBytes) jpeg = tf_exif_jpeg (96, 64, 3, TRUE), png = tf_picture (48, 32, "png"),
                     tiff = tf_picture (24, 16, "tiff");
  GBytes *sources[] = { jpeg, png, tiff };

  for (guint i = 0; i < 600; i++)
    {
      GBytes *source = sources[i % 3];
      gsize   size = g_bytes_get_size (source);
      guint8 *copy = g_memdup2 (g_bytes_get_data (source, NULL), size);
      g_autoptr (GBytes) bytes = NULL;
      TlPhoto *photo;

      for (guint k = 0; k < 8; k++)
        copy[g_rand_int_range (dice, 0, (gint32) MIN (size, 400))] =
            (guint8) g_rand_int_range (dice, 0, 256);
      bytes = g_bytes_new_take (copy, size);
      photo = tl_photo_new (bytes, "x", "A", "2026-03-03", NULL);
      if (photo != NULL)
        {
          g_autoptr (GBytes) stripped = tl_photo_without_position (bytes, NULL);
          g_autoptr (GdkPixbuf) pixbuf = (guint64) photo->width * photo->height < 4000000
                                             ? tl_photo_decode (photo, bytes, 0, NULL, NULL)
                                             : NULL;

          g_assert_nonnull (stripped);
          g_assert_true (pixbuf == NULL || gdk_pixbuf_get_width (pixbuf) > 0);
          tl_record_unref (photo);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/picture/orientation", test_orientation);
  g_test_add_func ("/picture/exif", test_exif);
  g_test_add_func ("/picture/hash", test_hash);
  g_test_add_func ("/picture/kinds", test_kinds);
  g_test_add_func ("/picture/deep", test_deep);
  g_test_add_func ("/picture/hostile", test_hostile);
  g_test_add_func ("/picture/moving", test_moving);
  g_test_add_func ("/picture/no-file", test_no_file);
  g_test_add_func ("/picture/bounded-memory", test_bounded_memory);
  g_test_add_func ("/picture/lying-size", test_lying_size);
  g_test_add_func ("/picture/cut", test_cut);
  g_test_add_func ("/picture/exif-bomb", test_exif_bomb);
  g_test_add_func ("/picture/strip", test_strip);
  g_test_add_func ("/picture/random-damage", test_random_damage);
  return g_test_run ();
}
