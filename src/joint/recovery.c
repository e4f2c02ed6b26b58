/* recovery.c: a joint put by, with its originals beside its text.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/recovery.h"

#include "base/file.h"
#include "joint/joint-file.h"
#include "joint/joint-private.h"
#include "joint/pictures.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#define HASH_LETTERS 64u

/* "PATH.pictures"; (transfer full) */
static char *
folder_of (const char *path)
{
  return g_strconcat (path, ".pictures", NULL);
}

/* "HASH.jpg" of a picture: the last part of its name in a document; (transfer full) */
static char *
name_of (const TlPhoto *photo)
{
  g_autofree char *member = tl_photo_member (photo);

  return g_path_get_basename (member);
}

/* A name that we give to an original, or to a file that was being written. */
static gboolean
is_ours (const char *name)
{
  return (strspn (name, "0123456789abcdef") == HASH_LETTERS && name[HASH_LETTERS] == '.')
         || g_str_has_prefix (name, ".tinlap-");
}

/* --- writing --- */

static gboolean
make_folder (const char *folder, GError **error)
{
  g_autofree char *shown = NULL;
  int              number;

  /* What others may not see in the document's folder they may not see here. */
  if (g_mkdir (folder, 0700) == 0 || (errno == EEXIST && g_file_test (folder, G_FILE_TEST_IS_DIR)))
    return TRUE;
  number = errno;
  shown = g_filename_display_name (folder);
  g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("The folder “%s” cannot be made: %s."), shown,
               g_strerror (number));
  return FALSE;
}

/* Files are replaced whole, so that one of the right size is the original; a shorter one was cut by something else. */
static gboolean
stands (const char *path, gsize length)
{
  struct stat info;

  return stat (path, &info) == 0 && S_ISREG (info.st_mode) && (guint64) info.st_size == length;
}

static gboolean
put_original (const TlJoint *joint, const TlPhoto *photo, const char *folder, GHashTable *names,
              GError **error)
{
  g_autoptr (GBytes) bytes =
      joint->originals != NULL ? tl_originals_get (joint->originals, photo->sha256) : NULL;
  char            *name = name_of (photo);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  gsize            length;
  gconstpointer    data;

  g_hash_table_add (names, name);
  if (bytes == NULL)
    return TRUE;
  data = g_bytes_get_data (bytes, &length);
  return stands (path, length)
         || (make_folder (folder, error) && tl_file_save (path, data, length, error));
}

/* Takes away what is ours and not in @names. */
static void
prune (const char *folder, GHashTable *names)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  for (const char *name; dir != NULL && (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (is_ours (name) && (names == NULL || !g_hash_table_contains (names, name)))
        g_unlink (path);
    }
  /* Only an empty one goes. */
  g_rmdir (folder);
}

gboolean
tl_recovery_save (const TlJoint *joint, const char *path, GError **error)
{
  g_autoptr (TlInspections) inspections = NULL;
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *folder = NULL, *text = NULL;
  gsize            length;

  g_return_val_if_fail (joint != NULL && path != NULL, FALSE);

  inspections = tl_joint_inspections (joint, error);
  text = inspections != NULL ? tl_joint_capped_text (joint, path, &length, error) : NULL;
  if (text == NULL)
    return FALSE;
  folder = folder_of (path);
  for (guint i = 0; i < inspections->photos->len; i++)
    if (!put_original (joint, g_ptr_array_index (inspections->photos, i), folder, names, error))
      return FALSE;
  if (!tl_file_save (path, text, length, error))
    return FALSE;
  prune (folder, names);
  return TRUE;
}

/* --- reading --- */

typedef struct
{
  const char  *folder, *document;
  TlOriginals *found;
  TlJoint     *saved; /* (nullable): of the document, read when first asked for */
  gboolean     is_asked;
  guint64      total;
} Finding;

static gboolean
is_true (const TlPhoto *photo, GBytes *bytes)
{
  g_autofree char *hash = bytes != NULL ? tl_photo_hash (bytes) : NULL;

  return g_strcmp0 (hash, photo->sha256) == 0;
}

/* (transfer full) (nullable) */
static GBytes *
beside (Finding *self, const TlPhoto *photo)
{
  g_autofree char *name = name_of (photo);
  g_autofree char *path = g_build_filename (self->folder, name, NULL);
  char            *data;
  gsize            length;

  if (!tl_file_load (path, (gsize) MIN (TL_PHOTO_MAX_BYTES, TL_RECOVERY_MAX_BYTES - self->total),
                     &data, &length, NULL))
    return NULL;
  return g_bytes_new_take (data, length);
}

/* (transfer full) (nullable) */
static GBytes *
in_document (Finding *self, const TlPhoto *photo)
{
  if (!self->is_asked && self->document != NULL)
    self->saved = tl_joint_load (self->document, NULL);
  self->is_asked = TRUE;
  return self->saved != NULL && self->saved->originals != NULL
             ? tl_originals_get (self->saved->originals, photo->sha256)
             : NULL;
}

/* %FALSE: nowhere */
static gboolean
find_original (Finding *self, const TlPhoto *photo)
{
  g_autoptr (GBytes) put_by = beside (self, photo), saved = NULL;
  GBytes *best = put_by;

  if (!is_true (photo, put_by))
    saved = in_document (self, photo);
  if (saved != NULL && (put_by == NULL || is_true (photo, saved)))
    best = saved;
  if (best == NULL || g_bytes_get_size (best) > TL_RECOVERY_MAX_BYTES - self->total)
    return FALSE;
  self->total += g_bytes_get_size (best);
  tl_originals_put (self->found, photo->sha256, best);
  return TRUE;
}

TlJoint *
tl_recovery_load (const char *path, const char *document, GPtrArray **missing, GError **error)
{
  g_autoptr (TlJoint) joint = tl_joint_load (path, error);
  g_autoptr (TlInspections) inspections = NULL;
  g_autoptr (GPtrArray) nowhere = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *folder = folder_of (path);
  Finding          self = { .folder = folder, .document = document };

  inspections = joint != NULL ? tl_joint_inspections (joint, error) : NULL;
  if (inspections == NULL)
    return NULL;
  /* A ZIP brings its own. */
  self.found = joint->originals != NULL ? tl_originals_ref (joint->originals) : tl_originals_new ();
  for (guint i = 0; i < inspections->photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (inspections->photos, i);
      g_autoptr (GBytes) own = tl_originals_get (self.found, photo->sha256);

      if (own == NULL && !find_original (&self, photo))
        g_ptr_array_add (nowhere, g_strdup (photo->name));
    }
  g_clear_pointer (&joint->originals, tl_originals_unref);
  joint->originals = self.found;
  g_clear_pointer (&self.saved, tl_joint_unref);
  if (missing != NULL)
    *missing = g_steal_pointer (&nowhere);
  return g_steal_pointer (&joint);
}

gboolean
tl_recovery_remove (const char *path, GError **error)
{
  g_autofree char *folder = NULL;

  g_return_val_if_fail (path != NULL, FALSE);

  /* The text first: originals without it are lumber, a text without them would be offered with a loss. */
  if (g_unlink (path) != 0 && errno != ENOENT)
    {
      g_autofree char *shown = g_filename_display_name (path);
      int              number = errno;

      g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("“%s” cannot be taken away: %s."), shown,
                   g_strerror (number));
      return FALSE;
    }
  folder = folder_of (path);
  prune (folder, NULL);
  return TRUE;
}
