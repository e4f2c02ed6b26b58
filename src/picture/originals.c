/* originals.c: the originals of a document in a folder, with their hashes beside them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/originals.h"

#include "base/file.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#define SUMS "SHA256SUMS"
#define TABLE "pictures.csv"

typedef struct
{
  const TlInspections *inspections;
  TlOriginals         *bytes; /* (nullable): a document without any */
} Originals;

/* "picture-1.jpg", by its place in the document: what a camera or a document calls a picture need not be the name of a file,
 * and could lead out of the folder. (transfer full) */
static char *
file_of (const Originals *self, guint index)
{
  const TlPhoto *photo = g_ptr_array_index (self->inspections->photos, index);

  return g_strdup_printf ("picture-%u.%s", index + 1, tl_photo_ending (photo->kind));
}

/* Nothing that stands in the folder is written over. */
static gboolean
check_free (const char *folder, const char *name, GError **error)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  if (!g_file_test (path, G_FILE_TEST_EXISTS) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_FILE,
               _ ("“%s” is there already; name a folder that is empty or new."), path);
  return FALSE;
}

static gboolean
check_folder (const Originals *self, const char *folder, GError **error)
{
  if (g_mkdir (folder, 0777) != 0 && errno != EEXIST)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("The folder “%s” cannot be made: %s."),
                   folder, g_strerror (errno));
      return FALSE;
    }
  for (guint i = 0; i < self->inspections->photos->len; i++)
    {
      g_autofree char *name = file_of (self, i);

      if (!check_free (folder, name, error))
        return FALSE;
    }
  return check_free (folder, SUMS, error) && check_free (folder, TABLE, error);
}

/* What is to be written of a picture; %NULL without @error: its original is not there, or no longer the one that was taken in,
 * which @is_altered says. (transfer full) */
static GBytes *
bytes_of (const Originals *self, const TlPhoto *photo, gboolean with_position, gboolean *is_altered,
          GError **error)
{
  g_autoptr (GBytes) original =
      self->bytes != NULL ? tl_originals_get (self->bytes, photo->sha256) : NULL;
  g_autofree char *hash = original != NULL ? tl_photo_hash (original) : NULL;
  GBytes          *stripped;

  *is_altered = hash != NULL && strcmp (hash, photo->sha256) != 0;
  if (*is_altered)
    return NULL;
  if (original == NULL || with_position)
    return g_steal_pointer (&original);
  stripped = tl_photo_without_position (original, error);
  if (stripped == NULL)
    g_prefix_error (error, _ ("%s: its position cannot be taken out, so nothing is written: "),
                    photo->name);
  return stripped;
}

static void
add_line (GString *table, const TlPhoto *photo, const char *file, const char *written,
          gboolean is_altered)
{
  g_autofree char *hash = tl_file_csv_field (photo->sha256);
  g_autofree char *id = tl_file_csv_field (photo->id), *name = tl_file_csv_field (photo->name),
                  *shown = tl_file_csv_field (file), *now = tl_file_csv_field (written);

  g_string_append_printf (table, "%s,%s,%s,%s,%s,\"%s\"\r\n", id, name, hash, shown, now,
                          is_altered                             ? "altered"
                          : *written == '\0'                     ? "missing"
                          : strcmp (written, photo->sha256) == 0 ? "as imported"
                                                                 : "other bytes");
}

static gboolean
write_one (const Originals *self, const char *folder, guint index, gboolean with_position,
           GString *sums, GString *table, guint *missing, GError **error)
{
  const TlPhoto *photo = g_ptr_array_index (self->inspections->photos, index);
  g_autoptr (GError) cause = NULL;
  gboolean is_altered;
  g_autoptr (GBytes) bytes = bytes_of (self, photo, with_position, &is_altered, &cause);
  g_autofree char *name = file_of (self, index), *path = g_build_filename (folder, name, NULL),
                  *hash = NULL;

  if (cause != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&cause));
      return FALSE;
    }
  if (bytes == NULL)
    {
      (*missing)++;
      add_line (table, photo, "", "", is_altered);
      return TRUE;
    }
  if (!tl_file_save (path, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), error))
    return FALSE;
  hash = tl_photo_hash (bytes);
  g_string_append_printf (sums, "%s  %s\n", hash, name);
  add_line (table, photo, name, hash, FALSE);
  return TRUE;
}

/* Before anything is written: whether all can be. */
static gboolean
check_all (const Originals *self, const char *folder, gboolean with_position, GError **error)
{
  for (guint i = 0; i < self->inspections->photos->len; i++)
    {
      g_autoptr (GError) cause = NULL;
      gboolean is_altered;
      g_autoptr (GBytes) bytes = bytes_of (self, g_ptr_array_index (self->inspections->photos, i),
                                           with_position, &is_altered, &cause);

      if (cause != NULL)
        {
          g_propagate_error (error, g_steal_pointer (&cause));
          return FALSE;
        }
    }
  return check_folder (self, folder, error);
}

gboolean
tl_originals_save (TlOriginals *bytes, const TlInspections *inspections, const char *folder,
                   gboolean with_position, guint *missing, GError **error)
{
  Originals self = { inspections, bytes };
  g_autoptr (GString) sums = g_string_new (NULL),
                      table =
                          g_string_new ("id,name,sha256_at_import,file,sha256_of_file,what\r\n");
  g_autofree char *sums_path = g_build_filename (folder, SUMS, NULL),
                  *table_path = g_build_filename (folder, TABLE, NULL);

  *missing = 0;
  if (!check_all (&self, folder, with_position, error))
    return FALSE;
  for (guint i = 0; i < inspections->photos->len; i++)
    if (!write_one (&self, folder, i, with_position, sums, table, missing, error))
      return FALSE;
  return tl_file_save (sums_path, sums->str, sums->len, error)
         && tl_file_save (table_path, table->str, table->len, error);
}
