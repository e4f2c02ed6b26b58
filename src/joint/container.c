/* container.c: a document with pictures as one ZIP.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/container.h"

#include "base/file.h"
#include "joint/joint-file.h"
#include "joint/pictures.h"

#include <archive.h>
#include <archive_entry.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include <sys/stat.h>

#define JOINT_NAME "joint.xml"
#define PICTURE_FOLDER "pictures/"
#define HASH_LETTERS 64u
#define READ_STEP 65536u

typedef struct archive Archive;

static void
archive_close_and_free (Archive *archive)
{
  archive_free (archive);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Archive, archive_close_and_free)

typedef struct archive_entry ArchiveEntry;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (ArchiveEntry, archive_entry_free)

gboolean
tl_container_is (const char *path)
{
  char     start[4] = "";
  gboolean is_zip = FALSE;
  FILE    *file;

  /* A pipe that nobody writes to would wait for ever, and what is read from it is gone. */
  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
    return FALSE;
  file = fopen (path, "rbe");
  if (file == NULL)
    return FALSE;
  is_zip = fread (start, 1, sizeof start, file) == sizeof start
           && (memcmp (start, "PK\3\4", 4) == 0 || memcmp (start, "PK\5\6", 4) == 0);
  fclose (file);
  return is_zip;
}

gboolean
tl_container_wants (const TlJoint *joint)
{
  for (guint i = 0; joint->originals != NULL && i < joint->reserved->len; i++)
    {
      const TlXmlNode *node = g_ptr_array_index (joint->reserved, i);

      if (strcmp (node->name, "pictures") != 0)
        continue;
      for (guint k = 0; k < node->children->len; k++)
        if (strcmp (((const TlXmlNode *) g_ptr_array_index (node->children, k))->name, "picture")
            == 0)
          return TRUE;
    }
  return FALSE;
}

/* --- reading --- */

typedef struct
{
  const char  *path; /* or NULL, and the whole file: */
  GBytes      *bytes;
  char        *shown;
  char        *text; /* joint.xml */
  gsize        text_length;
  TlOriginals *originals;
  GHashTable  *names;
  guint64      total;
} Reading;

static void
reading_clear (Reading *self)
{
  g_free (self->shown);
  g_free (self->text);
  g_clear_pointer (&self->originals, tl_originals_unref);
  g_clear_pointer (&self->names, g_hash_table_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reading, reading_clear)

static gboolean fail (Reading *self, int code, GError **error, const char *format, ...)
    G_GNUC_PRINTF (4, 5);

static gboolean
fail (Reading *self, int code, GError **error, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list          arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, TL_ERROR, code, "%s: %s", self->shown, message);
  return FALSE;
}

/* The hash of "pictures/HASH.jpg", else %NULL; (transfer full) */
static char *
hash_of (const char *name)
{
  static const char *const endings[] = { ".jpg", ".png", ".tif", ".webp", NULL };
  const char              *rest;

  if (!g_str_has_prefix (name, PICTURE_FOLDER))
    return NULL;
  name += strlen (PICTURE_FOLDER);
  if (strspn (name, "0123456789abcdef") != HASH_LETTERS)
    return NULL;
  rest = name + HASH_LETTERS;
  return g_strv_contains (endings, rest) ? g_strndup (name, HASH_LETTERS) : NULL;
}

/* Whole content of the entry at hand, never more than @most bytes; (transfer full) (nullable) */
static char *
read_entry (Reading *self, Archive *archive, ArchiveEntry *entry, const char *name, gsize most,
            gsize *length, GError **error)
{
  g_autofree char *shown = g_utf8_make_valid (name, -1);
  g_autoptr (GString) all = NULL;
  char   step[READ_STEP];
  gssize got;

  if (archive_entry_size_is_set (entry) && (guint64) archive_entry_size (entry) > most)
    {
      fail (self, TL_ERROR_LIMIT, error,
            _ ("“%s” in it is too large; at most %zu bytes are accepted."), shown, most);
      return NULL;
    }
  all = g_string_new (NULL);
  while ((got = archive_read_data (archive, step, sizeof step)) > 0)
    {
      if ((gsize) got > most - all->len)
        {
          fail (self, TL_ERROR_LIMIT, error, _ ("“%s” in it unpacks to more than %zu bytes."),
                shown, most);
          return NULL;
        }
      g_string_append_len (all, step, got);
    }
  if (got < 0)
    {
      fail (self, TL_ERROR_PARSE, error, _ ("“%s” in it is damaged: %s."), shown,
            archive_error_string (archive));
      return NULL;
    }
  if (archive_entry_size_is_set (entry) && (guint64) archive_entry_size (entry) != all->len)
    {
      fail (self, TL_ERROR_PARSE, error, _ ("“%s” in it has another size than the archive says."),
            shown);
      return NULL;
    }
  *length = all->len;
  return g_string_free (g_steal_pointer (&all), FALSE);
}

static gboolean
check_entry (Reading *self, ArchiveEntry *entry, const char *name, GError **error)
{
  g_autofree char *shown = g_utf8_make_valid (name, -1);
  g_autofree char *hash = hash_of (name);

  if (g_hash_table_size (self->names) >= TL_CONTAINER_MAX_MEMBERS)
    return fail (self, TL_ERROR_LIMIT, error, _ ("it holds more than %u files."),
                 TL_CONTAINER_MAX_MEMBERS);
  if (archive_entry_filetype (entry) != AE_IFREG || archive_entry_is_encrypted (entry)
      || (strcmp (name, JOINT_NAME) != 0 && hash == NULL))
    return fail (self, TL_ERROR_PARSE, error,
                 _ ("it holds “%s”, which has no place in it; only joint.xml and pictures do."),
                 shown);
  /* One picture under two endings would be one picture with two contents. */
  if (g_hash_table_add (self->names, hash != NULL ? g_steal_pointer (&hash) : g_strdup (name)))
    return TRUE;
  return fail (self, TL_ERROR_PARSE, error, _ ("it holds “%s” twice."), shown);
}

static gboolean
take_entry (Reading *self, Archive *archive, ArchiveEntry *entry, GError **error)
{
  const char      *name = archive_entry_pathname_utf8 (entry);
  g_autofree char *hash = NULL, *data = NULL;
  g_autoptr (GBytes) bytes = NULL;
  gsize length;

  if (name == NULL)
    return fail (self, TL_ERROR_PARSE, error, _ ("it holds a file without a readable name."));
  /* A folder of its own is what other programs write for the pictures. */
  if (archive_entry_filetype (entry) == AE_IFDIR && strcmp (name, PICTURE_FOLDER) == 0)
    return TRUE;
  if (!check_entry (self, entry, name, error))
    return FALSE;
  hash = hash_of (name);
  if (hash == NULL)
    {
      self->text = read_entry (self, archive, entry, name, tl_xml_caps_joint.max_bytes,
                               &self->text_length, error);
      return self->text != NULL;
    }
  data = read_entry (self, archive, entry, name,
                     (gsize) MIN (TL_PHOTO_MAX_BYTES, TL_CONTAINER_MAX_BYTES - self->total),
                     &length, error);
  if (data == NULL)
    return FALSE;
  self->total += length;
  bytes = g_bytes_new_take (g_steal_pointer (&data), length);
  tl_originals_put (self->originals, hash, bytes);
  return TRUE;
}

/* --- the list at the end ---
 *
 * The library goes by what stands beside each file. Other programs go by the list: both must say the same. */

#define END_BYTES 22u
#define ENTRY_BYTES 46u
#define MOST_LIST (1u << 20)

static guint
little (const guint8 *p, guint bytes)
{
  guint value = 0;

  for (guint i = bytes; i > 0; i--)
    value = value << 8 | p[i - 1];
  return value;
}

/* The last @length bytes of the file and fewer; (transfer full) (nullable) */
static guint8 *
read_end (const Reading *self, gsize *length)
{
  FILE   *file;
  guint8 *data = NULL;
  long    size;

  if (self->bytes != NULL)
    {
      gsize         whole;
      const guint8 *from = g_bytes_get_data (self->bytes, &whole);

      *length = MIN (*length, whole);
      return g_memdup2 (from + whole - *length, *length);
    }
  file = fopen (self->path, "rbe");
  if (file == NULL)
    return NULL;
  if (fseek (file, 0, SEEK_END) == 0 && (size = ftell (file)) > 0)
    {
      *length = MIN (*length, (gsize) size);
      data = g_malloc (*length);
      if (fseek (file, -(long) *length, SEEK_END) != 0 || fread (data, 1, *length, file) != *length)
        g_clear_pointer (&data, g_free);
    }
  fclose (file);
  return data;
}

static gboolean
is_listed (const Reading *self, const guint8 *entry, gsize name_length)
{
  g_autofree char *name = g_strndup ((const char *) entry + ENTRY_BYTES, name_length);
  g_autofree char *hash = hash_of (name);
  guint64          size = little (entry + 24, 4);
  GBytes          *bytes;
  gboolean         is_same;

  if (hash == NULL)
    return strcmp (name, JOINT_NAME) != 0 ? size == 0 : size == self->text_length;
  bytes = tl_originals_get (self->originals, hash);
  is_same = bytes != NULL && g_bytes_get_size (bytes) == size;
  g_clear_pointer (&bytes, g_bytes_unref);
  return is_same;
}

static gboolean
check_list (Reading *self, GError **error)
{
  gsize              length = MOST_LIST + END_BYTES;
  g_autofree guint8 *data = read_end (self, &length);
  gsize end = data != NULL && length >= END_BYTES ? length - END_BYTES + 1 : 0, at, list;

  while (end > 0 && memcmp (data + end - 1, "PK\5\6", 4) != 0)
    end--;
  if (end == 0)
    return fail (self, TL_ERROR_PARSE, error,
                 _ ("the archive has no list of its files at its end."));
  end--;
  list = little (data + end + 12, 4);
  if (list > end)
    return fail (self, TL_ERROR_PARSE, error, _ ("the list of its files is damaged."));
  for (at = end - list; at + ENTRY_BYTES <= end && memcmp (data + at, "PK\1\2", 4) == 0;)
    {
      gsize name_length = little (data + at + 28, 2);
      gsize whole =
          ENTRY_BYTES + name_length + little (data + at + 30, 2) + little (data + at + 32, 2);

      if (whole > end - at || !is_listed (self, data + at, name_length))
        return fail (self, TL_ERROR_PARSE, error,
                     _ ("the list at its end gives a file another size than it has."));
      at += whole;
    }
  return at == end || fail (self, TL_ERROR_PARSE, error, _ ("the list of its files is damaged."));
}

static gboolean
read_all (Reading *self, Archive *archive, GError **error)
{
  for (;;)
    {
      ArchiveEntry *entry;
      int           code = archive_read_next_header (archive, &entry);

      if (code == ARCHIVE_EOF)
        return TRUE;
      if (code != ARCHIVE_OK && code != ARCHIVE_WARN)
        return fail (self, TL_ERROR_PARSE, error, _ ("the archive is damaged: %s."),
                     archive_error_string (archive));
      if (!take_entry (self, archive, entry, error))
        return FALSE;
    }
}

static TlJoint *
to_joint (Reading *self, GError **error)
{
  g_autofree char *file = g_strdup_printf ("%s/%s", self->shown, JOINT_NAME);
  g_autoptr (TlJoint) joint = NULL;

  if (self->text == NULL)
    {
      fail (self, TL_ERROR_PARSE, error, _ ("it holds no joint.xml, so it is no joint."));
      return NULL;
    }
  joint = tl_joint_parse (self->text, self->text_length, file, error);
  if (joint != NULL)
    joint->originals = g_steal_pointer (&self->originals);
  return g_steal_pointer (&joint);
}

/* Only the reader that goes by the list at the end: what stands in no list is no part of the document. */
static TlJoint *
read_archive (Reading *self, Archive *archive, GError **error)
{
  int code;

  self->originals = tl_originals_new ();
  self->names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  archive_read_support_format_zip_seekable (archive);
  code = self->bytes != NULL ? archive_read_open_memory (
             archive, g_bytes_get_data (self->bytes, NULL), g_bytes_get_size (self->bytes))
                             : archive_read_open_filename (archive, self->path, READ_STEP);
  if (code != ARCHIVE_OK)
    {
      fail (self, TL_ERROR_FILE, error, _ ("it cannot be opened as an archive: %s."),
            archive_error_string (archive));
      return NULL;
    }
  return read_all (self, archive, error) && check_list (self, error) ? to_joint (self, error)
                                                                     : NULL;
}

TlJoint *
tl_container_parse (GBytes *bytes, const char *file, GError **error)
{
  g_auto (Reading) self = { .bytes = bytes };
  g_autoptr (Archive) archive = archive_read_new ();

  self.shown = g_strdup (file);
  return read_archive (&self, archive, error);
}

TlJoint *
tl_container_load (const char *path, GError **error)
{
  g_auto (Reading) self = { .path = path };
  g_autoptr (Archive) archive = archive_read_new ();
  struct stat info;

  self.shown = g_filename_display_name (path);
  if (stat (path, &info) == 0 && (guint64) info.st_size > TL_CONTAINER_MAX_BYTES)
    {
      fail (&self, TL_ERROR_LIMIT, error,
            _ ("the file is too large; at most %u bytes are accepted."), TL_CONTAINER_MAX_BYTES);
      return NULL;
    }
  return read_archive (&self, archive, error);
}

/* --- writing --- */

static la_ssize_t
append (Archive *archive, void *closure, const void *data, size_t length)
{
  g_byte_array_append (closure, data, (guint) length);
  return (la_ssize_t) length;
}

static gboolean
write_entry (Archive *archive, const char *name, gconstpointer data, gsize length)
{
  g_autoptr (ArchiveEntry) entry = archive_entry_new ();

  archive_entry_set_pathname (entry, name);
  archive_entry_set_size (entry, (la_int64_t) length);
  archive_entry_set_filetype (entry, AE_IFREG);
  archive_entry_set_perm (entry, 0644);
  /* No clock in the file: the first day that a ZIP knows. */
  archive_entry_set_mtime (entry, 315619200, 0);
  return archive_write_header (archive, entry) == ARCHIVE_OK
         && archive_write_data (archive, data, length) == (la_ssize_t) length;
}

/* The pictures that the joint names, each once, in its order. */
static gboolean
write_pictures (Archive *archive, const TlJoint *joint, const TlInspections *inspections)
{
  g_autoptr (GHashTable) written = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < inspections->photos->len; i++)
    {
      const TlPhoto   *photo = g_ptr_array_index (inspections->photos, i);
      g_autofree char *name = tl_photo_member (photo);
      g_autoptr (GBytes) bytes =
          joint->originals != NULL ? tl_originals_get (joint->originals, photo->sha256) : NULL;
      gsize         length;
      gconstpointer data;

      if (bytes == NULL || !g_hash_table_add (written, photo->sha256))
        continue;
      data = g_bytes_get_data (bytes, &length);
      if (!write_entry (archive, name, data, length))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_total (const TlJoint *joint, const TlInspections *inspections, const char *path,
             GError **error)
{
  guint64 total = 0;

  for (guint i = 0; i < inspections->photos->len; i++)
    {
      g_autoptr (GBytes) bytes =
          joint->originals == NULL
              ? NULL
              : tl_originals_get (joint->originals,
                                  ((TlPhoto *) g_ptr_array_index (inspections->photos, i))->sha256);

      total += bytes != NULL ? g_bytes_get_size (bytes) : 0;
    }
  /* Room for joint.xml and the list at the end. */
  if (total + 2 * tl_xml_caps_joint.max_bytes <= TL_CONTAINER_MAX_BYTES)
    return TRUE;
  g_set_error (
      error, TL_ERROR, TL_ERROR_LIMIT,
      _ ("%s: the pictures have %llu bytes together; a document holds at most %u. Take some "
         "out."),
      path, (unsigned long long) total, TL_CONTAINER_MAX_BYTES);
  return FALSE;
}

gboolean
tl_container_save (const TlJoint *joint, const char *text, gsize length, const char *path,
                   GError **error)
{
  g_autoptr (TlInspections) inspections = tl_joint_inspections (joint, error);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (Archive) archive = NULL;
  gboolean is_good;

  if (inspections == NULL || !check_total (joint, inspections, path, error))
    return FALSE;
  archive = archive_write_new ();
  is_good = archive_write_set_format_zip (archive) == ARCHIVE_OK
            && archive_write_set_bytes_per_block (archive, 0) == ARCHIVE_OK
            && archive_write_zip_set_compression_deflate (archive) == ARCHIVE_OK
            && archive_write_open2 (archive, bytes, NULL, append, NULL, NULL) == ARCHIVE_OK
            && write_entry (archive, JOINT_NAME, text, length)
            && archive_write_zip_set_compression_store (archive) == ARCHIVE_OK
            && write_pictures (archive, joint, inspections)
            && archive_write_close (archive) == ARCHIVE_OK;
  if (is_good)
    return tl_file_save (path, (const char *) bytes->data, bytes->len, error);
  g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("%s was not saved: %s."), path,
               archive_error_string (archive) != NULL ? archive_error_string (archive) : "zip");
  return FALSE;
}
