/* history.h: undo and redo over immutable joints.
 *
 * A step is the joint after it, a label, and the id that was selected. Steps with the same non-zero merge
 * key extend the open group (a drag, a run of typing is one step); "saved" is a position in the history.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"

G_BEGIN_DECLS

typedef struct _TlHistory TlHistory;

/* Begins with @joint, which counts as saved. At most 1000 steps can be undone; older ones are forgotten. */
TlHistory *tl_history_new (const TlJoint *joint) G_GNUC_WARN_UNUSED_RESULT;
void       tl_history_free (TlHistory *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlHistory, tl_history_free)

const TlJoint *tl_history_joint (const TlHistory *self);
/* @label: (nullable) msgid of what was done ("Move washer"); @selected: (nullable) id; equal joints add nothing. */
void           tl_history_push (TlHistory *self, const TlJoint *joint, const char *label, const char *selected, guint merge_key);
void           tl_history_close_group (TlHistory *self);
gboolean       tl_history_can_undo (const TlHistory *self);
gboolean       tl_history_can_redo (const TlHistory *self);
const char    *tl_history_undo_label (const TlHistory *self);
const char    *tl_history_redo_label (const TlHistory *self);
/* @selected: (out) (optional) (transfer none) (nullable): what the step was about if it is there now, else what
 * the step now current was about; valid until the next change of the history. */
gboolean       tl_history_undo (TlHistory *self, const char **selected);
gboolean       tl_history_redo (TlHistory *self, const char **selected);
/* What was done before now cannot be undone any more, nor done again; whether it is saved stays as it is. */
void           tl_history_forget (TlHistory *self);
void           tl_history_mark_saved (TlHistory *self);
gboolean       tl_history_is_saved (const TlHistory *self);

G_END_DECLS
