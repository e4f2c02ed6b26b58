/* file.c: files read with a cap, and saved whole or not at all.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MAX_LINKS 40
#define READ_STEP 65536u

/* One sentence for each way in which the system says no; @path is the file the person named. */
static gboolean
fail (GError **error, const char *path, int number)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autofree char *folder_path = g_path_get_dirname (path);
  g_autofree char *folder = g_filename_display_name (folder_path);

  switch (number)
    {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” was not saved: the disk is full or a quota is reached; make room or "
                      "save elsewhere."),
                   shown);
      break;
    case EACCES:
    case EPERM:
    case EROFS:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” was not saved: the file or its folder “%s” is read-only for you; save "
                      "elsewhere."),
                   shown, folder);
      break;
    case ENOENT:
    case ENOTDIR:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” was not saved: there is no folder “%s”; choose one that exists."),
                   shown, folder);
      break;
    case EISDIR:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” is a folder and cannot be written over; name a file in it."), shown);
      break;
    case ENAMETOOLONG:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” was not saved: the name is too long; choose a shorter one."), shown);
      break;
    case ELOOP:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” was not saved: its symbolic links lead in a circle."), shown);
      break;
    default:
      g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("“%s” was not saved: %s."), shown,
                   g_strerror (number));
      break;
    }
  return FALSE;
}

/* What @path's symbolic links lead to, which need not exist. (transfer full) (nullable) */
static char *
follow_links (const char *path)
{
  g_autofree char *here = g_strdup (path);

  for (guint i = 0; i < MAX_LINKS; i++)
    {
      g_autofree char *target = NULL;
      struct stat      info;

      if (lstat (here, &info) != 0 || !S_ISLNK (info.st_mode))
        return g_steal_pointer (&here);
      target = g_file_read_link (here, NULL);
      if (target == NULL)
        return g_steal_pointer (&here);
      if (!g_path_is_absolute (target))
        {
          g_autofree char *folder = g_path_get_dirname (here);
          char            *absolute = g_build_filename (folder, target, NULL);

          g_free (target);
          target = absolute;
        }
      g_free (here);
      here = g_steal_pointer (&target);
    }
  return NULL;
}

static gboolean
write_all (int fd, const char *data, gsize length)
{
  while (length > 0)
    {
      gssize written = write (fd, data, length);

      if (written < 0 && errno == EINTR)
        continue;
      if (written < 0)
        return FALSE;
      data += written;
      length -= (gsize) written;
    }
  return TRUE;
}

/* Gives the new file what the old one had. */
static gboolean
keep_owner_and_mode (int fd, const struct stat *old)
{
  /* Only root can give a file away; the file of another then becomes ours, as the folder allows. */
  if ((old->st_uid != geteuid () || old->st_gid != getegid ())
      && fchown (fd, old->st_uid, old->st_gid) != 0 && errno != EPERM)
    return FALSE;
  return fchmod (fd, old->st_mode & 07777) == 0;
}

static void
sync_folder (const char *folder)
{
  int fd = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (fd < 0)
    return;
  /* The new file is in place by now; a file system that cannot sync folders changes nothing in
   * that. */
  if (fsync (fd) != 0)
    g_debug ("folder %s cannot be synced: %s", folder, g_strerror (errno));
  close (fd);
}

/* Returns: 0 or an errno; nothing is left behind on failure */
static int
replace (const char *target, const struct stat *old, const char *data, gsize length)
{
  g_autofree char *folder = g_path_get_dirname (target);
  g_autofree char *beside = g_build_filename (folder, ".tinlap-XXXXXX", NULL);
  int              number = 0;
  int              fd = g_mkstemp_full (beside, O_WRONLY | O_CLOEXEC, 0666);

  if (fd < 0)
    return errno;
  if (!write_all (fd, data, length) || (old != NULL && !keep_owner_and_mode (fd, old))
      || fsync (fd) != 0)
    number = errno;
  if (close (fd) != 0 && number == 0)
    number = errno;
  if (number == 0 && g_rename (beside, target) != 0)
    number = errno;
  if (number != 0)
    g_unlink (beside);
  else
    sync_folder (folder);
  return number;
}

gboolean
tl_file_save (const char *path, const char *data, gsize length, GError **error)
{
  g_autofree char *target = NULL;
  struct stat      old;
  gboolean         is_there;
  int              number;

  g_return_val_if_fail (path != NULL && (data != NULL || length == 0), FALSE);

  if (*path == '\0')
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_FILE,
                           _ ("There is no file name; name the file to save to."));
      return FALSE;
    }
  target = follow_links (path);
  if (target == NULL)
    return fail (error, path, ELOOP);

  is_there = stat (target, &old) == 0;
  if (!is_there && errno != ENOENT)
    return fail (error, path, errno);
  if (is_there && S_ISDIR (old.st_mode))
    return fail (error, path, EISDIR);
  if (is_there && !S_ISREG (old.st_mode))
    {
      g_autofree char *shown = g_filename_display_name (path);

      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("“%s” is a device or a pipe; name an ordinary file."), shown);
      return FALSE;
    }
  /* A rename would not ask: a file that is read-only for us stays as it is. */
  if (is_there && access (target, W_OK) != 0)
    return fail (error, path, errno);

  number = replace (target, is_there ? &old : NULL, data, length);
  if (number != 0)
    return fail (error, path, number);
  return TRUE;
}

/* --- reading --- */

static gboolean
fail_load (GError **error, const char *path, const char *reason)
{
  g_autofree char *shown = g_filename_display_name (path);

  g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("“%s” cannot be read: %s."), shown, reason);
  return FALSE;
}

static gboolean
fail_size (GError **error, const char *path, gsize max_bytes)
{
  g_autofree char *shown = g_filename_display_name (path);

  g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
               _ ("“%s” is too large; at most %lu bytes are accepted."), shown, (gulong) max_bytes);
  return FALSE;
}

/* Opens a file or pipe without waiting for a writer that may never come. Returns: fd or -1 */
static int
open_plain (const char *path, gsize max_bytes, GError **error)
{
  struct stat info;
  int         fd = g_open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY, 0);
  gboolean    is_good = FALSE;

  if (fd < 0 || fstat (fd, &info) != 0)
    fail_load (error, path, g_strerror (errno));
  else if (S_ISDIR (info.st_mode))
    fail_load (error, path, _ ("it is a folder; name a file"));
  else if (!S_ISREG (info.st_mode) && !S_ISFIFO (info.st_mode))
    fail_load (error, path, _ ("it is a device; name an ordinary file"));
  else if (S_ISREG (info.st_mode) && (guint64) info.st_size > max_bytes)
    fail_size (error, path, max_bytes);
  else if (fcntl (fd, F_SETFL, 0) != 0)
    fail_load (error, path, g_strerror (errno));
  else
    is_good = TRUE;

  if (!is_good && fd >= 0)
    close (fd);
  return is_good ? fd : -1;
}

gboolean
tl_file_load (const char *path, gsize max_bytes, char **data, gsize *length, GError **error)
{
  GString *read_so_far;
  int      fd;
  gboolean is_good = TRUE;

  g_return_val_if_fail (path != NULL && data != NULL && length != NULL, FALSE);

  fd = open_plain (path, max_bytes, error);
  if (fd < 0)
    return FALSE;

  read_so_far = g_string_new (NULL);
  for (;;)
    {
      char   step[READ_STEP];
      gssize got = read (fd, step, sizeof step);

      if (got < 0 && errno == EINTR)
        continue;
      if (got < 0)
        is_good = fail_load (error, path, g_strerror (errno));
      else if ((gsize) got > max_bytes - read_so_far->len)
        is_good = fail_size (error, path, max_bytes);
      if (got <= 0 || !is_good)
        break;
      g_string_append_len (read_so_far, step, got);
    }
  close (fd);
  if (!is_good)
    {
      g_string_free (read_so_far, TRUE);
      return FALSE;
    }
  *length = read_so_far->len;
  *data = g_string_free (read_so_far, FALSE);
  return TRUE;
}

char *
tl_file_stamp (const char *path)
{
  struct stat info;

  g_return_val_if_fail (path != NULL, NULL);

  if (stat (path, &info) != 0)
    return NULL;
  return g_strdup_printf ("%" G_GINT64_FORMAT "-%" G_GINT64_FORMAT ".%09ld-%" G_GUINT64_FORMAT,
                          (gint64) info.st_size, (gint64) info.st_mtim.tv_sec, info.st_mtim.tv_nsec,
                          (guint64) info.st_ino);
}

char *
tl_file_csv_field (const char *text)
{
  /* A table program runs what begins so. */
  gboolean is_formula = *text != '\0' && strchr ("=+-@\t\r", *text) != NULL;
  GString *out = g_string_new (is_formula ? "\"'" : "\"");

  for (const char *p = text; *p != '\0'; p++)
    {
      if (*p == '"')
        g_string_append_c (out, '"');
      g_string_append_c (out, *p);
    }
  g_string_append_c (out, '"');
  return g_string_free (out, FALSE);
}
