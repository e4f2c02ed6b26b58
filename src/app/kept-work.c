/* kept-work.c: unsaved work put by, and found again.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/kept-work.h"

#include "base/file.h"
#include "joint/joint-file.h"
#include "joint/recovery.h"

#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

/* After the last change, so that a drag or a run of typing is written once. */
static const guint DELAY_MS = 1500;

static const char GROUP[] = "work";
static const char TEXT_ENDING[] = ".kept", LOCK_ENDING[] = ".lock", ABOUT_ENDING[] = ".about";

struct _TlKeptWork
{
  GObject parent_instance;

  TlDocument *document;
  char       *folder;
  char       *stem;    /* path without ending; NULL until something was written */
  int         lock;    /* -1: none */
  guint       delay;   /* source */
  TlJoint    *written; /* (nullable): what stands in the file */
  gboolean    is_writing, is_again, is_ended;
};

G_DEFINE_FINAL_TYPE (TlKeptWork, tl_kept_work, G_TYPE_OBJECT)

static char *
default_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "tinlap", "unsaved", NULL);
}

static char *
beside (const char *stem, const char *ending)
{
  return g_strconcat (stem, ending, NULL);
}

static void
remove_all (const char *stem)
{
  const char      *endings[] = { ABOUT_ENDING, LOCK_ENDING };
  g_autofree char *text = beside (stem, TEXT_ENDING);

  tl_recovery_remove (text, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *path = beside (stem, endings[i]);

      g_unlink (path);
    }
}

/* --- writing, in a thread --- */

typedef struct
{
  TlJoint *joint;
  char    *text;
  char    *about;
  char    *about_path;
} Job;

static void
job_free (gpointer data)
{
  Job *self = data;

  tl_joint_unref (self->joint);
  g_free (self->text);
  g_free (self->about);
  g_free (self->about_path);
  g_free (self);
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Job *job = data;
  GError    *error = NULL;

  if (tl_file_save (job->about_path, job->about, strlen (job->about), &error)
      && tl_recovery_save (job->joint, job->text, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

/* Takes the lock of a name that nobody has. */
static gboolean
make_stem (TlKeptWork *self)
{
  static guint count;

  if (self->stem != NULL)
    return TRUE;
  if (g_mkdir_with_parents (self->folder, 0700) != 0)
    return FALSE;
  for (guint tries = 0; tries < 100; tries++)
    {
      g_autofree char *name = g_strdup_printf ("%d-%u", (int) getpid (), ++count);
      g_autofree char *stem = g_build_filename (self->folder, name, NULL);
      g_autofree char *path = beside (stem, LOCK_ENDING);
      int              lock = g_open (path, O_CREAT | O_EXCL | O_RDWR | O_CLOEXEC, 0600);

      if (lock < 0)
        continue;
      if (flock (lock, LOCK_EX | LOCK_NB) == 0)
        {
          self->lock = lock;
          self->stem = g_steal_pointer (&stem);
          return TRUE;
        }
      close (lock);
    }
  return FALSE;
}

static char *
about_text (TlKeptWork *self)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autofree char *title = tl_document_title (self->document);
  const char      *path = tl_document_path (self->document);

  g_key_file_set_string (file, GROUP, "title", title);
  if (path != NULL)
    g_key_file_set_string (file, GROUP, "document", path);
  return g_key_file_to_data (file, NULL, NULL);
}

static void take_away (TlKeptWork *self);
static void write_now (TlKeptWork *self);

static void
on_written (GObject *source, GAsyncResult *result, gpointer data)
{
  TlKeptWork *self = TL_KEPT_WORK (source);
  g_autoptr (GError) error = NULL;

  self->is_writing = FALSE;
  /* A full disk is told once, by the save that the person asks for; here it is tried again with the next change. */
  if (!g_task_propagate_boolean (G_TASK (result), &error))
    g_debug ("%s", error->message);
  if (self->is_ended || !tl_document_is_modified (self->document))
    take_away (self);
  else if (self->is_again)
    write_now (self);
}

static void
write_now (TlKeptWork *self)
{
  const TlJoint *joint = tl_document_joint (self->document);
  g_autoptr (GTask) task = NULL;
  Job *job;

  self->is_again = FALSE;
  if (joint == self->written || !make_stem (self))
    return;
  g_clear_pointer (&self->written, tl_joint_unref);
  self->written = tl_joint_ref ((TlJoint *) joint);
  job = g_new0 (Job, 1);
  job->joint = tl_joint_ref ((TlJoint *) joint);
  job->text = beside (self->stem, TEXT_ENDING);
  job->about_path = beside (self->stem, ABOUT_ENDING);
  job->about = about_text (self);
  self->is_writing = TRUE;
  task = g_task_new (self, NULL, on_written, NULL);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run_job);
}

static void
take_away (TlKeptWork *self)
{
  g_clear_handle_id (&self->delay, g_source_remove);
  self->is_again = FALSE;
  g_clear_pointer (&self->written, tl_joint_unref);
  if (self->stem == NULL || self->is_writing)
    return;
  remove_all (self->stem);
  g_clear_pointer (&self->stem, g_free);
  close (self->lock);
  self->lock = -1;
}

static gboolean
on_delay (gpointer data)
{
  TlKeptWork *self = data;

  self->delay = 0;
  if (self->is_writing)
    self->is_again = TRUE;
  else
    write_now (self);
  return G_SOURCE_REMOVE;
}

static void
on_changed (TlKeptWork *self)
{
  if (self->is_ended)
    return;
  if (!tl_document_is_modified (self->document))
    take_away (self);
  else if (self->delay == 0)
    self->delay = g_timeout_add (DELAY_MS, on_delay, self);
}

/* --- object --- */

static void
tl_kept_work_dispose (GObject *object)
{
  TlKeptWork *self = TL_KEPT_WORK (object);

  g_clear_handle_id (&self->delay, g_source_remove);
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (tl_kept_work_parent_class)->dispose (object);
}

static void
tl_kept_work_finalize (GObject *object)
{
  TlKeptWork *self = TL_KEPT_WORK (object);

  if (self->lock >= 0)
    close (self->lock);
  g_clear_pointer (&self->written, tl_joint_unref);
  g_free (self->folder);
  g_free (self->stem);
  G_OBJECT_CLASS (tl_kept_work_parent_class)->finalize (object);
}

static void
tl_kept_work_class_init (TlKeptWorkClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_kept_work_dispose;
  G_OBJECT_CLASS (klass)->finalize = tl_kept_work_finalize;
}

static void
tl_kept_work_init (TlKeptWork *self)
{
  self->lock = -1;
}

TlKeptWork *
tl_kept_work_new (TlDocument *document, const char *folder)
{
  TlKeptWork *self = g_object_new (TL_TYPE_KEPT_WORK, NULL);

  self->document = g_object_ref (document);
  self->folder = folder == NULL ? default_folder () : g_strdup (folder);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
  return self;
}

void
tl_kept_work_end (TlKeptWork *self)
{
  self->is_ended = TRUE;
  /* What is being written would else be left behind by a program that ends now. */
  while (self->is_writing)
    g_main_context_iteration (NULL, TRUE);
  take_away (self);
}

gboolean
tl_kept_work_is_busy (TlKeptWork *self)
{
  return self->delay != 0 || self->is_writing;
}

/* --- what was left behind --- */

void
tl_left_work_free (TlLeftWork *self)
{
  g_free (self->text);
  g_free (self->document);
  g_free (self->title);
  g_free (self->when);
  g_free (self);
}

/* The system lets go of the lock of whoever died. */
static gboolean
is_held (const char *stem)
{
  g_autofree char *path = beside (stem, LOCK_ENDING);
  int              lock = g_open (path, O_RDWR | O_CLOEXEC, 0);
  gboolean         is_free;

  if (lock < 0)
    return FALSE;
  is_free = flock (lock, LOCK_EX | LOCK_NB) == 0;
  close (lock);
  return !is_free;
}

static TlLeftWork *
left_work_new (const char *stem)
{
  TlLeftWork      *self = g_new0 (TlLeftWork, 1);
  g_autofree char *about = beside (stem, ABOUT_ENDING);
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autoptr (GDateTime) when = NULL;
  GStatBuf info;

  self->text = beside (stem, TEXT_ENDING);
  if (g_key_file_load_from_file (file, about, G_KEY_FILE_NONE, NULL))
    {
      self->title = g_key_file_get_string (file, GROUP, "title", NULL);
      self->document = g_key_file_get_string (file, GROUP, "document", NULL);
    }
  if (self->title == NULL)
    self->title = g_strdup (_ ("Unnamed joint"));
  if (g_stat (self->text, &info) == 0)
    when = g_date_time_new_from_unix_local (info.st_mtime);
  self->when = when == NULL ? g_strdup ("") : g_date_time_format (when, "%x %H:%M");
  return self;
}

GPtrArray *
tl_left_work_find (const char *folder)
{
  GPtrArray       *found = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_left_work_free);
  g_autofree char *own = folder == NULL ? default_folder () : g_strdup (folder);
  g_autoptr (GDir) dir = g_dir_open (own, 0, NULL);

  for (const char *name; dir != NULL && (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *stem = NULL;

      if (!g_str_has_suffix (name, TEXT_ENDING))
        continue;
      stem = g_build_filename (own, name, NULL);
      stem[strlen (stem) - strlen (TEXT_ENDING)] = '\0';
      if (!is_held (stem))
        g_ptr_array_add (found, left_work_new (stem));
    }
  return found;
}

gboolean
tl_left_work_open (const TlLeftWork *self, TlDocument *document, GPtrArray **missing,
                   GError **error)
{
  TlJoint *joint = tl_recovery_load (self->text, self->document, missing, error);
  g_autoptr (TlJoint) before = NULL;

  if (joint == NULL)
    return FALSE;
  before = self->document == NULL ? NULL : tl_joint_load (self->document, NULL);
  if (before != NULL)
    tl_document_replace (document, before, self->document);
  else
    {
      before = tl_joint_new ();
      tl_document_replace (document, before, NULL);
    }
  tl_document_take (document, joint, _ ("Bring unsaved work back"), NULL, 0);
  tl_left_work_discard (self);
  return TRUE;
}

void
tl_left_work_discard (const TlLeftWork *self)
{
  g_autofree char *stem = g_strndup (self->text, strlen (self->text) - strlen (TEXT_ENDING));

  remove_all (stem);
}
