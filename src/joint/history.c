/* history.c: undo and redo over immutable joints.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/history.h"

/* Steps that can be undone; older ones are forgotten. */
#define MAX_STEPS 1000

typedef struct
{
  TlJoint *joint;
  char    *label;    /* (nullable): of the change that led here */
  char    *selected; /* (nullable): id that the change was about */
  guint    merge_key;
} Step;

struct _TlHistory
{
  GPtrArray *steps;   /* (element-type Step): [0] is where the history begins */
  guint      current; /* number of the step that holds now */
  int        saved;   /* number of the step that the file holds; -1: none of these */
  gboolean   is_group_open;
};

static void
step_free (gpointer data)
{
  Step *step = data;

  tl_joint_unref (step->joint);
  g_free (step->label);
  g_free (step->selected);
  g_free (step);
}

static Step *
step_new (const TlJoint *joint, const char *label, const char *selected, guint merge_key)
{
  Step *step = g_new0 (Step, 1);

  step->joint = tl_joint_ref (joint);
  step->label = g_strdup (label);
  step->selected = g_strdup (selected);
  step->merge_key = merge_key;
  return step;
}

static Step *
step_at (const TlHistory *self, guint number)
{
  return g_ptr_array_index (self->steps, number);
}

TlHistory *
tl_history_new (const TlJoint *joint)
{
  TlHistory *self = g_new0 (TlHistory, 1);

  self->steps = g_ptr_array_new_with_free_func (step_free);
  g_ptr_array_add (self->steps, step_new (joint, NULL, NULL, 0));
  return self;
}

void
tl_history_free (TlHistory *self)
{
  g_ptr_array_unref (self->steps);
  g_free (self);
}

const TlJoint *
tl_history_joint (const TlHistory *self)
{
  return step_at (self, self->current)->joint;
}

/* Puts @joint in the place of the open group's; a group that changes nothing any more goes. */
static void
extend_group (TlHistory *self, const TlJoint *joint, const char *selected)
{
  Step    *step = step_at (self, self->current);
  TlJoint *old = step->joint;

  if (tl_joint_equal (step_at (self, self->current - 1)->joint, joint))
    {
      g_ptr_array_remove_index (self->steps, self->current);
      self->current--;
      self->is_group_open = FALSE;
      return;
    }
  step->joint = tl_joint_ref (joint);
  tl_joint_unref (old);
  g_free (step->selected);
  step->selected = g_strdup (selected);
}

static void
forget_oldest (TlHistory *self)
{
  g_ptr_array_remove_index (self->steps, 0);
  self->current--;
  self->saved = self->saved > 0 ? self->saved - 1 : -1;
}

void
tl_history_push (TlHistory *self, const TlJoint *joint, const char *label, const char *selected,
                 guint merge_key)
{
  const Step *now = step_at (self, self->current);

  if (tl_joint_equal (now->joint, joint))
    return;
  /* A saved step is never extended: the file holds it as it is. */
  if (self->is_group_open && merge_key != 0 && now->merge_key == merge_key
      && self->saved != (int) self->current)
    {
      extend_group (self, joint, selected);
      return;
    }

  g_ptr_array_set_size (self->steps, (int) self->current + 1);
  if (self->saved > (int) self->current)
    self->saved = -1;
  g_ptr_array_add (self->steps, step_new (joint, label, selected, merge_key));
  self->current++;
  self->is_group_open = merge_key != 0;
  if (self->current > MAX_STEPS)
    forget_oldest (self);
}

void
tl_history_close_group (TlHistory *self)
{
  self->is_group_open = FALSE;
}

gboolean
tl_history_can_undo (const TlHistory *self)
{
  return self->current > 0;
}

gboolean
tl_history_can_redo (const TlHistory *self)
{
  return self->current + 1 < self->steps->len;
}

const char *
tl_history_undo_label (const TlHistory *self)
{
  return tl_history_can_undo (self) ? step_at (self, self->current)->label : NULL;
}

const char *
tl_history_redo_label (const TlHistory *self)
{
  return tl_history_can_redo (self) ? step_at (self, self->current + 1)->label : NULL;
}

/* What to select now that @changed was undone or redone: its own thing if it is there, else the one
 * that the step now current was about, else nothing. */
static const char *
selection_after (const TlHistory *self, guint changed)
{
  const Step *candidates[] = { step_at (self, changed), step_at (self, self->current) };

  for (guint i = 0; i < G_N_ELEMENTS (candidates); i++)
    if (candidates[i]->selected != NULL
        && tl_joint_seat (tl_history_joint (self), candidates[i]->selected) != NULL)
      return candidates[i]->selected;
  return NULL;
}

gboolean
tl_history_undo (TlHistory *self, const char **selected)
{
  if (!tl_history_can_undo (self))
    return FALSE;
  self->current--;
  self->is_group_open = FALSE;
  if (selected != NULL)
    *selected = selection_after (self, self->current + 1);
  return TRUE;
}

gboolean
tl_history_redo (TlHistory *self, const char **selected)
{
  if (!tl_history_can_redo (self))
    return FALSE;
  self->current++;
  self->is_group_open = FALSE;
  if (selected != NULL)
    *selected = selection_after (self, self->current);
  return TRUE;
}

void
tl_history_forget (TlHistory *self)
{
  gboolean is_saved = tl_history_is_saved (self);
  Step    *now = g_ptr_array_steal_index (self->steps, self->current);

  g_ptr_array_set_size (self->steps, 0);
  g_ptr_array_add (self->steps, now);
  self->current = 0;
  self->saved = is_saved ? 0 : -1;
  self->is_group_open = FALSE;
}

void
tl_history_mark_saved (TlHistory *self)
{
  self->saved = (int) self->current;
}

gboolean
tl_history_is_saved (const TlHistory *self)
{
  return self->saved == (int) self->current;
}
