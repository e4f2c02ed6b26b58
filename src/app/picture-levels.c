/* picture-levels.c: decoded copies at three sizes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/picture-levels.h"

#include "draw/picture-paint.h"

#include <glib/gi18n.h>

typedef enum
{
  SMALL,
  MIDDLE,
  WHOLE,
  N_SIZES
} Size;

/* Longest edges, px; 0: all there is. */
static const guint edges[N_SIZES] = { 256, 1600, 0 };
/* Copies kept of each size; the oldest goes. A hundred small ones are some 20 MB. */
static const guint most_kept[N_SIZES] = { 200, 6, 2 };

typedef struct
{
  char            *hash;
  Size             size;
  guint            age;         /* of its last use; the smallest is the oldest */
  cairo_surface_t *surface;     /* NULL: still being made, or not to be had */
  char            *problem;     /* (nullable) */
  GCancellable    *cancellable; /* (nullable): while it is being made */
} Copy;

struct _TlPictureLevels
{
  GObject parent_instance;

  GPtrArray *copies; /* (element-type Copy) */
  guint      clock;
};

G_DEFINE_FINAL_TYPE (TlPictureLevels, tl_picture_levels, G_TYPE_OBJECT)

static guint changed_signal;

static void
copy_free (gpointer data)
{
  Copy *self = data;

  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  g_free (self->hash);
  g_free (self->problem);
  g_free (self);
}

static Copy *
find (TlPictureLevels *self, const char *hash, Size size)
{
  for (guint i = 0; i < self->copies->len; i++)
    {
      Copy *copy = g_ptr_array_index (self->copies, i);

      if (copy->size == size && g_str_equal (copy->hash, hash))
        return copy;
    }
  return NULL;
}

static void
make_room (TlPictureLevels *self, Size size)
{
  Copy *oldest = NULL;
  guint n = 0;

  for (guint i = 0; i < self->copies->len; i++)
    {
      Copy *copy = g_ptr_array_index (self->copies, i);

      if (copy->size != size)
        continue;
      n++;
      if (oldest == NULL || copy->age < oldest->age)
        oldest = copy;
    }
  if (n >= most_kept[size])
    g_ptr_array_remove_fast (self->copies, oldest);
}

/* --- in a thread --- */

typedef struct
{
  TlPhoto *photo;
  GBytes  *bytes;
  Size     size;
} Job;

static void
job_free (gpointer data)
{
  Job *self = data;

  tl_record_unref (self->photo);
  g_bytes_unref (self->bytes);
  g_free (self);
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Job *job = data;
  GError    *error = NULL;
  g_autoptr (GdkPixbuf) pixbuf =
      tl_photo_decode (job->photo, job->bytes, edges[job->size], cancellable, &error);
  cairo_surface_t *surface;

  if (pixbuf == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  surface = tl_picture_surface (pixbuf);
  if (cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS)
    g_task_return_pointer (task, surface, (GDestroyNotify) cairo_surface_destroy);
  else
    {
      g_task_return_new_error (task, TL_ERROR, TL_ERROR_LIMIT,
                               _ ("“%s” has more pixels than can be shown at once."),
                               job->photo->name);
      cairo_surface_destroy (surface);
    }
}

static void
on_ready (GObject *source, GAsyncResult *result, gpointer data)
{
  TlPictureLevels *self = TL_PICTURE_LEVELS (source);
  const Job       *job = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  cairo_surface_t *surface = g_task_propagate_pointer (G_TASK (result), &error);
  Copy            *copy = find (self, job->photo->sha256, job->size);

  /* It may have made room for another meanwhile. */
  if (copy == NULL || copy->cancellable != g_task_get_cancellable (G_TASK (result)))
    {
      g_clear_pointer (&surface, cairo_surface_destroy);
      return;
    }
  g_clear_object (&copy->cancellable);
  copy->surface = surface;
  copy->problem = error == NULL ? NULL : g_strdup (error->message);
  g_signal_emit (self, changed_signal, 0);
}

static void
begin (TlPictureLevels *self, const TlPhoto *photo, TlOriginals *originals, Size size)
{
  g_autoptr (GBytes) bytes = originals == NULL ? NULL : tl_originals_get (originals, photo->sha256);
  g_autoptr (GTask) task = NULL;
  Copy *copy = g_new0 (Copy, 1);
  Job  *job;

  make_room (self, size);
  copy->hash = g_strdup (photo->sha256);
  copy->size = size;
  copy->age = self->clock;
  g_ptr_array_add (self->copies, copy);
  if (bytes == NULL)
    {
      copy->problem =
          g_strdup_printf (_ ("The original of “%s” is not in the document."), photo->name);
      return;
    }
  job = g_new0 (Job, 1);
  job->photo = tl_record_ref (photo);
  job->bytes = g_bytes_ref (bytes);
  job->size = size;
  copy->cancellable = g_cancellable_new ();
  task = g_task_new (self, copy->cancellable, on_ready, NULL);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run_job);
}

/* --- object --- */

static void
tl_picture_levels_dispose (GObject *object)
{
  g_ptr_array_set_size (TL_PICTURE_LEVELS (object)->copies, 0);
  G_OBJECT_CLASS (tl_picture_levels_parent_class)->dispose (object);
}

static void
tl_picture_levels_finalize (GObject *object)
{
  g_ptr_array_unref (TL_PICTURE_LEVELS (object)->copies);
  G_OBJECT_CLASS (tl_picture_levels_parent_class)->finalize (object);
}

static void
tl_picture_levels_class_init (TlPictureLevelsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_picture_levels_dispose;
  G_OBJECT_CLASS (klass)->finalize = tl_picture_levels_finalize;
  changed_signal = g_signal_new ("changed", TL_TYPE_PICTURE_LEVELS, G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
}

static void
tl_picture_levels_init (TlPictureLevels *self)
{
  self->copies = g_ptr_array_new_with_free_func (copy_free);
}

TlPictureLevels *
tl_picture_levels_new (void)
{
  return g_object_new (TL_TYPE_PICTURE_LEVELS, NULL);
}

/* The smallest size that has the edge; pictures that are no larger than a size need no larger one. */
static Size
size_for (const TlPhoto *photo, guint edge)
{
  guint whole = MAX (photo->width, photo->height);

  for (Size size = SMALL; size < WHOLE; size++)
    if (edge <= edges[size] || whole <= edges[size])
      return size;
  return WHOLE;
}

cairo_surface_t *
tl_picture_levels_get (TlPictureLevels *self, const TlPhoto *photo, TlOriginals *originals,
                       guint edge)
{
  Size             wanted = size_for (photo, edge);
  cairo_surface_t *best = NULL;

  self->clock++;
  if (find (self, photo->sha256, wanted) == NULL)
    begin (self, photo, originals, wanted);
  for (Size size = SMALL; size < N_SIZES; size++)
    {
      Copy *copy = find (self, photo->sha256, size);

      if (copy == NULL || copy->surface == NULL)
        continue;
      /* A larger one than wanted serves only where there is nothing nearer. */
      if (best == NULL || size <= wanted)
        {
          best = copy->surface;
          copy->age = self->clock;
        }
    }
  return best;
}

const char *
tl_picture_levels_problem (TlPictureLevels *self, const TlPhoto *photo)
{
  const char *problem = NULL;

  for (Size size = SMALL; size < N_SIZES; size++)
    {
      Copy *copy = find (self, photo->sha256, size);

      if (copy != NULL && copy->problem != NULL)
        problem = copy->problem;
    }
  return problem;
}

gboolean
tl_picture_levels_is_busy (TlPictureLevels *self)
{
  for (guint i = 0; i < self->copies->len; i++)
    if (((Copy *) g_ptr_array_index (self->copies, i))->cancellable != NULL)
      return TRUE;
  return FALSE;
}
