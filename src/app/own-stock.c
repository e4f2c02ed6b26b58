/* own-stock.c: packs of one folder, laid over the shipped stock; edits of the first of them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-stock.h"

#include "base/file.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

typedef struct
{
  TlPack *pack;
  char   *label; /* of the step that led here; NULL for the first */
} Step;

struct _TlOwnStock
{
  GObject parent_instance;

  TlStock   *system;
  TlStock   *laid;
  char      *folder;
  char      *file;     /* of the own pack */
  char      *stamp;    /* of @file as it was read or written; NULL: it was not there */
  char      *broken;   /* why the own file cannot be read; NULL: it can */
  GPtrArray *steps;    /* (element-type Step) */
  guint      now;      /* index of the present one */
  GPtrArray *others;   /* (element-type TlPack): read-only */
  GPtrArray *read;     /* (element-type TlPackProblem): from reading */
  GPtrArray *problems; /* the same, and those from laying */
};

G_DEFINE_FINAL_TYPE (TlOwnStock, tl_own_stock, G_TYPE_OBJECT)

static guint changed_signal;

static const char *const OWN_FILE = "own.xml";

static void
step_free (gpointer data)
{
  Step *step = data;

  tl_pack_unref (step->pack);
  g_free (step->label);
  g_free (step);
}

static Step *
step_at (TlOwnStock *self, guint index)
{
  return g_ptr_array_index (self->steps, index);
}

/* --- laying --- */
static TlPackProblem *
copy_problem (const TlPackProblem *problem)
{
  TlPackProblem *copy = g_new0 (TlPackProblem, 1);

  copy->trouble = problem->trouble;
  copy->file = g_strdup (problem->file);
  copy->line = problem->line;
  copy->id = g_strdup (problem->id);
  copy->message = g_strdup (problem->message);
  return copy;
}

static void
lay (TlOwnStock *self)
{
  g_autoptr (GPtrArray) packs = g_ptr_array_new ();
  TlStock *old = self->laid;

  g_ptr_array_add (packs, step_at (self, self->now)->pack);
  for (guint i = 0; i < self->others->len; i++)
    g_ptr_array_add (packs, g_ptr_array_index (self->others, i));
  g_clear_pointer (&self->problems, g_ptr_array_unref);
  self->problems = tl_pack_problems_new ();
  for (guint i = 0; i < self->read->len; i++)
    g_ptr_array_add (self->problems, copy_problem (g_ptr_array_index (self->read, i)));
  self->laid = tl_stock_with_packs (self->system, packs, self->problems);
  g_signal_emit (self, changed_signal, 0);
  if (old != NULL)
    tl_stock_unref (old);
}

/* --- reading --- */
static void
add_unreadable (TlOwnStock *self, const char *file, const char *message)
{
  TlPackProblem problem = { .trouble = TL_PACK_UNREADABLE,
                            .file = (char *) file,
                            .message = (char *) message };

  g_ptr_array_add (self->read, copy_problem (&problem));
}

static TlPack *
read_pack (TlOwnStock *self, const char *path, GError **error)
{
  TlPack *pack = tl_pack_load (path, error);

  for (guint i = 0; pack != NULL && i < tl_pack_problems (pack)->len; i++)
    g_ptr_array_add (self->read, copy_problem (g_ptr_array_index (tl_pack_problems (pack), i)));
  return pack;
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *) a, *(const char *const *) b);
}

static void
read_others (TlOwnStock *self)
{
  g_autoptr (GDir) directory = g_dir_open (self->folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (directory != NULL && (name = g_dir_read_name (directory)) != NULL)
    if (g_str_has_suffix (name, ".xml") && !g_str_equal (name, OWN_FILE))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (self->folder, g_ptr_array_index (names, i), NULL);
      g_autoptr (GError) error = NULL;
      TlPack *pack = read_pack (self, path, &error);

      if (pack != NULL)
        g_ptr_array_add (self->others, pack);
      else
        add_unreadable (self, path, error->message);
    }
}

static void
read_own (TlOwnStock *self)
{
  g_autoptr (GError) error = NULL;
  Step *step = g_new0 (Step, 1);

  g_clear_pointer (&self->broken, g_free);
  g_free (self->stamp);
  self->stamp = tl_file_stamp (self->file);
  if (self->stamp != NULL)
    {
      step->pack = read_pack (self, self->file, &error);
      if (step->pack == NULL)
        {
          self->broken = g_strdup (error->message);
          add_unreadable (self, self->file, error->message);
        }
    }
  if (step->pack == NULL)
    step->pack = tl_pack_new (NULL);
  g_ptr_array_set_size (self->steps, 0);
  g_ptr_array_add (self->steps, step);
  self->now = 0;
}

void
tl_own_stock_reload (TlOwnStock *self)
{
  g_ptr_array_set_size (self->others, 0);
  g_clear_pointer (&self->read, g_ptr_array_unref);
  self->read = tl_pack_problems_new ();
  read_own (self);
  read_others (self);
  lay (self);
}

/* --- object --- */
static void
tl_own_stock_finalize (GObject *object)
{
  TlOwnStock *self = TL_OWN_STOCK (object);

  g_clear_pointer (&self->laid, tl_stock_unref);
  g_clear_pointer (&self->system, tl_stock_unref);
  g_clear_pointer (&self->steps, g_ptr_array_unref);
  g_clear_pointer (&self->others, g_ptr_array_unref);
  g_clear_pointer (&self->read, g_ptr_array_unref);
  g_clear_pointer (&self->problems, g_ptr_array_unref);
  g_free (self->folder);
  g_free (self->file);
  g_free (self->stamp);
  g_free (self->broken);
  G_OBJECT_CLASS (tl_own_stock_parent_class)->finalize (object);
}

static void
tl_own_stock_class_init (TlOwnStockClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tl_own_stock_finalize;
  changed_signal = g_signal_new ("changed", TL_TYPE_OWN_STOCK, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
tl_own_stock_init (TlOwnStock *self)
{
  self->steps = g_ptr_array_new_with_free_func (step_free);
  self->others = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_pack_unref);
}

TlOwnStock *
tl_own_stock_new (const TlStock *system, const char *folder)
{
  TlOwnStock *self = g_object_new (TL_TYPE_OWN_STOCK, NULL);

  self->system = tl_stock_ref (system);
  self->folder = folder != NULL
                     ? g_strdup (folder)
                     : g_build_filename (g_get_user_data_dir (), "tinlap", "packs", NULL);
  self->file = g_build_filename (self->folder, OWN_FILE, NULL);
  tl_own_stock_reload (self);
  return self;
}

const TlStock *
tl_own_stock_stock (TlOwnStock *self)
{
  return self->laid;
}

const TlStock *
tl_own_stock_system (TlOwnStock *self)
{
  return self->system;
}

const TlPack *
tl_own_stock_pack (TlOwnStock *self)
{
  return step_at (self, self->now)->pack;
}

const GPtrArray *
tl_own_stock_problems (TlOwnStock *self)
{
  return self->problems;
}

const char *
tl_own_stock_file (TlOwnStock *self)
{
  return self->file;
}

/* --- edits --- */
static gboolean
may_write (TlOwnStock *self, GError **error)
{
  g_autofree char *stamp = tl_file_stamp (self->file);

  if (g_strcmp0 (stamp, self->stamp) != 0)
    {
      tl_own_stock_reload (self);
      g_set_error (error, TL_ERROR, TL_ERROR_STATE,
                   _ ("“%s” was changed by somebody else and is read anew; enter the change "
                      "again."),
                   self->file);
      return FALSE;
    }
  if (self->broken == NULL)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_STATE,
               _ ("%s Mend the file or move it away first, so that nothing in it is lost."),
               self->broken);
  return FALSE;
}

static gboolean
save (TlOwnStock *self, const TlPack *pack, GError **error)
{
  if (!may_write (self, error))
    return FALSE;
  if (g_mkdir_with_parents (self->folder, 0700) != 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE, _ ("The folder “%s” cannot be made: %s."),
                   self->folder, g_strerror (errno));
      return FALSE;
    }
  if (!tl_pack_save (pack, self->file, error))
    return FALSE;
  g_free (self->stamp);
  self->stamp = tl_file_stamp (self->file);
  return TRUE;
}

gboolean
tl_own_stock_take (TlOwnStock *self, TlPack *pack, const char *label, GError **error)
{
  g_autoptr (TlPack) taken = pack;
  Step *step;

  if (pack == NULL)
    return FALSE;
  if (tl_pack_equal (pack, tl_own_stock_pack (self)))
    return TRUE;
  if (!save (self, pack, error))
    return FALSE;
  step = g_new0 (Step, 1);
  step->pack = g_steal_pointer (&taken);
  step->label = g_strdup (label);
  g_ptr_array_set_size (self->steps, (gint) self->now + 1);
  g_ptr_array_add (self->steps, step);
  self->now++;
  lay (self);
  return TRUE;
}

static gboolean
go (TlOwnStock *self, guint index, GError **error)
{
  if (!save (self, step_at (self, index)->pack, error))
    return FALSE;
  self->now = index;
  lay (self);
  return TRUE;
}

gboolean
tl_own_stock_undo (TlOwnStock *self, GError **error)
{
  return self->now == 0 || go (self, self->now - 1, error);
}

gboolean
tl_own_stock_redo (TlOwnStock *self, GError **error)
{
  return self->now + 1 >= self->steps->len || go (self, self->now + 1, error);
}

const char *
tl_own_stock_undo_label (TlOwnStock *self)
{
  return self->now == 0 ? NULL : step_at (self, self->now)->label;
}

const char *
tl_own_stock_redo_label (TlOwnStock *self)
{
  return self->now + 1 >= self->steps->len ? NULL : step_at (self, self->now + 1)->label;
}

/* --- files --- */
gboolean
tl_own_stock_import (TlOwnStock *self, const char *path, GPtrArray *problems, GError **error)
{
  g_autoptr (TlPack) other = tl_pack_load (path, error);

  if (other == NULL)
    return FALSE;
  for (guint i = 0; problems != NULL && i < tl_pack_problems (other)->len; i++)
    g_ptr_array_add (problems, copy_problem (g_ptr_array_index (tl_pack_problems (other), i)));
  return tl_own_stock_take (self, tl_pack_import (tl_own_stock_pack (self), other, problems),
                            _ ("Take a pack in"), error);
}

gboolean
tl_own_stock_export (TlOwnStock *self, const char *path, GError **error)
{
  return tl_pack_save (tl_own_stock_pack (self), path, error);
}

/* --- short hands --- */
gboolean
tl_own_stock_has_part (TlOwnStock *self, const char *id)
{
  return tl_pack_part (tl_own_stock_pack (self), id) != NULL;
}

gboolean
tl_own_stock_is_in_van (TlOwnStock *self, const char *part)
{
  const TlPackMark *mark = tl_stock_mark (self->laid, part, NULL);

  return mark != NULL && mark->in_van;
}

gboolean
tl_own_stock_set_in_van (TlOwnStock *self, const char *part, gboolean in_van, GError **error)
{
  const TlPackMark *old = tl_pack_mark (tl_own_stock_pack (self), part);
  TlPackMark        mark = { .part = (char *) part };

  if (old != NULL)
    mark = *old;
  mark.in_van = in_van;
  return tl_own_stock_take (self, tl_pack_set_mark (tl_own_stock_pack (self), &mark, error),
                            in_van ? _ ("Put into the van") : _ ("Take out of the van"), error);
}

char *
tl_own_stock_copy_part (TlOwnStock *self, const char *part, GError **error)
{
  const TlPart    *old = tl_stock_part (self->laid, part);
  TlPart          *copy;
  gboolean         is_taken;
  g_autofree char *id = NULL;

  if (old == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("There is no part “%s” to copy."), part);
      return NULL;
    }
  copy = tl_part_copy (old);
  g_free (copy->id);
  copy->id = tl_pack_free_id (tl_own_stock_pack (self), self->laid, old->kind);
  id = g_strdup (copy->id);
  is_taken = tl_own_stock_take (self, tl_pack_add_part (tl_own_stock_pack (self), copy, error),
                                _ ("Copy a part"), error);
  tl_part_free (copy);
  return is_taken ? g_steal_pointer (&id) : NULL;
}
