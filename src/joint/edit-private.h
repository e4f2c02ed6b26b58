/* edit-private.h: what the edits of legs and layers share with those of facts and texts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint-private.h"

G_BEGIN_DECLS

/* Takes @fork over and gives it back if it keeps the rules of a joint. */
TlJoint *tl_edit_finish (TlJoint *fork, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Puts a copy in the place of a shared leg or layer of @fork; (transfer none) */
TlLeg   *tl_edit_writable_leg (TlJoint *fork, guint index);
TlLayer *tl_edit_writable_layer (TlJoint *fork, guint index);

/* Number of the member @id; %TL_ERROR_NAME if there is none. */
gboolean tl_edit_find (const TlJoint *joint, const char *id, guint *index, GError **error);

/* Forgets what a newer version wrote at @path and beneath. */
void tl_edit_drop_kept (TlJoint *fork, const char *path);

/* Checks facts that a person states; @facts may be %NULL. */
gboolean tl_edit_check_fact (const TlFact *fact, GError **error);
gboolean tl_edit_check_facts (const TlFacts *facts, GError **error);

G_END_DECLS
