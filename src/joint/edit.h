/* edit.h: every change of a joint as a function from joint to joint.
 *
 * Each returns a new joint (transfer full) or %NULL with @error; the old one is untouched. Ids are never reused.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"

G_BEGIN_DECLS

/* Seats are made with these; free with tl_seat_clear(). */
TlSeat tl_seat_stack (guint place);
TlSeat tl_seat_on (const char *of);
TlSeat tl_seat_around (const char *from, const char *to);
TlSeat tl_seat_port (const char *of, guint port);
TlSeat tl_seat_none (void);
TlSeat tl_seat_copy (const TlSeat *seat);
void   tl_seat_clear (TlSeat *seat);
gboolean tl_seat_equal (const TlSeat *a, const TlSeat *b);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (TlSeat, tl_seat_clear)

/* Puts a part of the stock in; what stands at or behind that place in the stack moves one on.
 * @new_id: (out) (optional) (transfer full): id of the new layer */
TlJoint *tl_edit_add_layer (const TlJoint *joint, const TlStock *stock, const char *part, const TlSeat *seat, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* A layer of a kind without a stock part (as measured). */
TlJoint *tl_edit_add_own_layer (const TlJoint *joint, TlPartKind kind, const TlFacts *facts, const TlSeat *seat, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* A conductor; @part may be NULL; at most 8 legs. */
TlJoint *tl_edit_add_leg (const TlJoint *joint, const TlStock *stock, const char *part, const TlFacts *facts, const TlSeat *seat, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Moves a leg or layer to another seat. A place in the stack is the one it has afterwards. */
TlJoint *tl_edit_move (const TlJoint *joint, const char *id, const TlSeat *seat, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Takes a leg or layer out; what sat on or in it becomes TL_SEAT_NONE (coats on it go with it); the stack closes up. */
TlJoint *tl_edit_remove (const TlJoint *joint, const char *id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* A copy with its own id, in the place behind (stack) or on the same seat. */
TlJoint *tl_edit_duplicate (const TlJoint *joint, const char *id, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Puts another part in the place of a layer or leg; the person's facts that the new kind has stay. */
TlJoint *tl_edit_replace_part (const TlJoint *joint, const TlStock *stock, const char *id, const char *part, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* @owner: leg id, layer id, "site" or "duty". The fact is checked; it must be known as a person can know it:
 * stated, measured, marking, stock or assumed. */
TlJoint *tl_edit_set_fact (const TlJoint *joint, const char *owner, const TlFact *fact, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlJoint *tl_edit_unset_fact (const TlJoint *joint, const char *owner, TlField field, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* @acts: (array zero-terminated=1) in order */
TlJoint *tl_edit_set_preparation (const TlJoint *joint, const char *leg, const char *const *acts, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* @what: "name" "place" "prepared-by" "date" "note" "practice" "units" "sheet-language" "box" "fault-example"
 * "forbidden" (words of tl_way_words() with spaces between; "" for none) */
TlJoint *tl_edit_set_text (const TlJoint *joint, const char *what, const char *value, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Lays in, or (NULL) drops, the document's own copies: "judge anew". @used: (nullable) (transfer none) */
TlJoint *tl_edit_set_used (const TlJoint *joint, TlUsed *used) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
