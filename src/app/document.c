/* document.c: one joint with verdict, history, file and selection.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/document.h"

#include "base/file.h"
#include "joint/joint-file.h"

#include <glib/gi18n.h>

struct _TlDocument
{
  GObject parent_instance;

  TlStock    *stock;
  TlLanguage *language;
  TlHistory  *history;
  TlVerdict  *verdict;
  char       *path;
  char       *stamp; /* of the file as it was read or written; NULL if it was not there */
  char       *selected;
};

G_DEFINE_FINAL_TYPE (TlDocument, tl_document, G_TYPE_OBJECT)

enum
{
  CHANGED,
  STOCK_CHANGED,
  SELECTION_CHANGED,
  DONE,
  REFUSED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static gboolean
has_owner (TlDocument *self, const char *owner)
{
  const TlJoint *joint = tl_document_joint (self);

  return tl_joint_leg (joint, owner) != NULL || tl_joint_layer (joint, owner) != NULL;
}

/* The verdict of the joint that is there now, made when somebody first asks. */
static TlVerdict *
verdict_of (TlDocument *self)
{
  if (self->verdict == NULL)
    self->verdict = tl_verdict_new (tl_document_joint (self), self->stock, TL_VERDICT_FULL);
  return self->verdict;
}

/* The joint is another one: tell everybody. */
static void
judge (TlDocument *self, const char *selected)
{
  g_autofree char *kept = g_strdup (selected);

  g_clear_pointer (&self->verdict, tl_verdict_unref);
  if (kept != NULL && !has_owner (self, kept))
    g_clear_pointer (&kept, g_free);
  g_free (self->selected);
  self->selected = g_steal_pointer (&kept);
  g_signal_emit (self, signals[CHANGED], 0);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

static void
tl_document_finalize (GObject *object)
{
  TlDocument *self = TL_DOCUMENT (object);

  g_clear_pointer (&self->verdict, tl_verdict_unref);
  g_clear_pointer (&self->history, tl_history_free);
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  g_free (self->path);
  g_free (self->stamp);
  g_free (self->selected);
  G_OBJECT_CLASS (tl_document_parent_class)->finalize (object);
}

static void
tl_document_class_init (TlDocumentClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tl_document_finalize;
  signals[CHANGED] = g_signal_new ("changed", TL_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  signals[STOCK_CHANGED] = g_signal_new ("stock-changed", TL_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SELECTION_CHANGED] =
      g_signal_new ("selection-changed", TL_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                    G_TYPE_NONE, 0);
  signals[REFUSED] = g_signal_new ("refused", TL_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[DONE] = g_signal_new ("done", TL_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
tl_document_init (TlDocument *self)
{
}

TlDocument *
tl_document_new (const TlStock *stock, const TlLanguage *language)
{
  TlDocument *self = g_object_new (TL_TYPE_DOCUMENT, NULL);
  g_autoptr (TlJoint) joint = tl_joint_new ();

  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref ((TlLanguage *) language);
  self->history = tl_history_new (joint);
  return self;
}

const TlStock *
tl_document_stock (TlDocument *self)
{
  return verdict_of (self)->assembly->stock;
}

const TlJoint *
tl_document_joint (TlDocument *self)
{
  return tl_history_joint (self->history);
}

const TlVerdict *
tl_document_verdict (TlDocument *self)
{
  return verdict_of (self);
}

const TlLanguage *
tl_document_language (TlDocument *self)
{
  return self->language;
}

const TlStock *
tl_document_effective_stock (TlDocument *self)
{
  return self->stock;
}

void
tl_document_set_language (TlDocument *self, const TlLanguage *language)
{
  TlLanguage *old = self->language;

  self->language = tl_language_ref ((TlLanguage *) language);
  tl_language_unref (old);
  g_signal_emit (self, signals[CHANGED], 0);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

void
tl_document_set_stock (TlDocument *self, const TlStock *stock)
{
  TlStock *old = self->stock;

  if (stock == old)
    return;
  self->stock = tl_stock_ref (stock);
  g_signal_emit (self, signals[STOCK_CHANGED], 0);
  judge (self, self->selected);
  tl_stock_unref (old);
}

/* --- file --- */
void
tl_document_replace (TlDocument *self, const TlJoint *joint, const char *path)
{
  g_autoptr (TlJoint) kept = tl_joint_ref (joint);
  g_autofree char *stamp = path == NULL ? NULL : tl_file_stamp (path);
  char            *copy = g_strdup (path);

  g_clear_pointer (&self->history, tl_history_free);
  self->history = tl_history_new (kept);
  g_free (self->path);
  self->path = copy;
  g_free (self->stamp);
  self->stamp = g_steal_pointer (&stamp);
  judge (self, NULL);
}

gboolean
tl_document_open (TlDocument *self, const char *path, GError **error)
{
  g_autoptr (TlJoint) joint = tl_joint_load (path, error);

  if (joint == NULL)
    return FALSE;
  tl_document_replace (self, joint, path);
  return TRUE;
}

gboolean
tl_document_save (TlDocument *self, const char *path, GError **error)
{
  g_autofree char *target = g_strdup (path != NULL ? path : self->path);
  g_autoptr (TlUsed) used = tl_verdict_dup_used (verdict_of (self));
  g_autoptr (TlJoint) whole = tl_edit_set_used (tl_document_joint (self), used);

  g_return_val_if_fail (target != NULL, FALSE);
  if (!tl_joint_save (whole, target, error))
    return FALSE;
  g_free (self->stamp);
  self->stamp = tl_file_stamp (target);
  g_free (self->path);
  self->path = g_steal_pointer (&target);
  tl_history_mark_saved (self->history);
  g_signal_emit (self, signals[CHANGED], 0);
  return TRUE;
}

const char *
tl_document_path (TlDocument *self)
{
  return self->path;
}

gboolean
tl_document_is_modified (TlDocument *self)
{
  return !tl_history_is_saved (self->history);
}

gboolean
tl_document_is_stale (TlDocument *self)
{
  g_autofree char *now = NULL;

  if (self->path == NULL)
    return FALSE;
  now = tl_file_stamp (self->path);
  return g_strcmp0 (now, self->stamp) != 0;
}

char *
tl_document_title (TlDocument *self)
{
  const TlJoint *joint = tl_document_joint (self);

  if (joint->name != NULL && *joint->name != '\0')
    return g_strdup (joint->name);
  if (self->path != NULL)
    return g_path_get_basename (self->path);
  return g_strdup (_ ("Unnamed joint"));
}

/* --- the document's own figures --- */
static gboolean
rows_differ (const TlTableRow *a, const TlTableRow *b)
{
  return !g_strv_equal ((const char *const *) a->cells, (const char *const *) b->cells);
}

/* Only what the document itself used counts: new rows elsewhere in the data are no difference. */
static gboolean
used_differs (const TlUsed *used, const TlStock *stock)
{
  const TlTable *thresholds = tl_stock_table (stock, "thresholds");

  for (guint i = 0; i < used->parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (used->parts, i),
                   *now = tl_stock_part (stock, part->id);

      if (now == NULL || !tl_facts_equal (part->facts, now->facts))
        return TRUE;
    }
  for (guint i = 0; i < used->materials->len; i++)
    {
      const TlMaterial *material = g_ptr_array_index (used->materials, i),
                       *now = tl_stock_material (stock, material->id);

      if (now == NULL || !tl_facts_equal (material->facts, now->facts))
        return TRUE;
    }
  for (guint i = 0; i < used->thresholds->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (used->thresholds, i);
      gboolean          found = FALSE;

      for (guint j = 0; thresholds != NULL && !found && j < thresholds->rows->len; j++)
        {
          const TlTableRow *now = g_ptr_array_index (thresholds->rows, j);

          found = g_strcmp0 (now->id, row->id) == 0 && g_strcmp0 (now->practice, row->practice) == 0
                  && !rows_differ (now, row);
        }
      if (!found)
        return TRUE;
    }
  return FALSE;
}

TlVerdict *
tl_document_judge_anew (TlDocument *self)
{
  const TlJoint *joint = tl_document_joint (self);
  g_autoptr (TlJoint) bare = NULL;

  if (joint->used == NULL || !used_differs (joint->used, self->stock))
    return NULL;
  bare = tl_edit_set_used (joint, NULL);
  return tl_verdict_new (bare, self->stock, TL_VERDICT_QUICK);
}

/* --- edits --- */
void
tl_document_take (TlDocument *self, TlJoint *joint, const char *label, const char *selected,
                  guint merge_key)
{
  g_autoptr (TlJoint) taken = joint;

  if (joint == NULL)
    return;
  tl_history_push (self->history, joint, label, selected, merge_key);
  judge (self, selected);
}

void
tl_document_tell (TlDocument *self, const char *sentence)
{
  g_signal_emit (self, signals[DONE], 0, sentence);
}

void
tl_document_refuse (TlDocument *self, const char *sentence)
{
  g_signal_emit (self, signals[REFUSED], 0, sentence);
}

void
tl_document_forget_steps (TlDocument *self)
{
  tl_history_forget (self->history);
  g_signal_emit (self, signals[CHANGED], 0);
}

void
tl_document_undo (TlDocument *self)
{
  const char *selected = NULL;

  if (tl_history_undo (self->history, &selected))
    judge (self, selected);
}

void
tl_document_redo (TlDocument *self)
{
  const char *selected = NULL;

  if (tl_history_redo (self->history, &selected))
    judge (self, selected);
}

const char *
tl_document_undo_label (TlDocument *self)
{
  return tl_history_can_undo (self->history) ? tl_history_undo_label (self->history) : NULL;
}

const char *
tl_document_redo_label (TlDocument *self)
{
  return tl_history_can_redo (self->history) ? tl_history_redo_label (self->history) : NULL;
}

/* --- selection --- */
const char *
tl_document_selected (TlDocument *self)
{
  return self->selected;
}

void
tl_document_select (TlDocument *self, const char *owner)
{
  if (g_strcmp0 (owner, self->selected) == 0)
    return;
  tl_history_close_group (self->history);
  g_free (self->selected);
  self->selected = g_strdup (owner);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

char *
tl_document_owner_name (TlDocument *self, const char *owner)
{
  return tl_assembly_owner_name (verdict_of (self)->assembly, owner, self->language);
}
