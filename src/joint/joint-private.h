/* joint-private.h: what the files of this room share: making joints, checking them, keeping what is unknown.
 *
 * Only the edits, the reader and tests include it. A joint is writable from tl_joint_fork() or tl_joint_new()
 * until it is handed out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/edit.h"
#include "joint/joint.h"

G_BEGIN_DECLS

#define TL_JOINT_MAX_NUMBER 999999999u /* of an id; next_id never passes it */

TlLeg   *tl_leg_new (const char *id, const char *part, const TlSeat *seat,
                     const TlFacts *facts) G_GNUC_WARN_UNUSED_RESULT;
TlLeg   *tl_leg_copy (const TlLeg *leg) G_GNUC_WARN_UNUSED_RESULT;
TlLeg   *tl_leg_ref (TlLeg *leg);
void     tl_leg_unref (TlLeg *leg);
TlLayer *tl_layer_new (const char *id, const char *part, TlPartKind kind, const TlSeat *seat,
                       const TlFacts *facts) G_GNUC_WARN_UNUSED_RESULT;
TlLayer *tl_layer_copy (const TlLayer *layer) G_GNUC_WARN_UNUSED_RESULT;
TlLayer *tl_layer_ref (TlLayer *layer);
void     tl_layer_unref (TlLayer *layer);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlLeg, tl_leg_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlLayer, tl_layer_unref)

TlPreparation *tl_preparation_new (const char *act, const TlFacts *facts) G_GNUC_WARN_UNUSED_RESULT;
void           tl_preparation_free (TlPreparation *self);
GPtrArray     *tl_preparation_list_new (void) G_GNUC_WARN_UNUSED_RESULT;
TlVariant     *tl_variant_new (const char *name, const TlJoint *joint) G_GNUC_WARN_UNUSED_RESULT;

/* A joint with the same content, still writable; legs and layers are shared, the lists of them are its own. */
TlJoint *tl_joint_fork (const TlJoint *self) G_GNUC_WARN_UNUSED_RESULT;

/* Legs, then layers, as one row of members. */
guint         tl_joint_n_members (const TlJoint *self);
const char   *tl_joint_member_id (const TlJoint *self, guint index);
const TlSeat *tl_joint_member_seat (const TlJoint *self, guint index);
/* %FALSE if there is no member @id. */
gboolean      tl_joint_find_member (const TlJoint *self, const char *id, guint *index);

/* Raises next_id above the number at the end of @id. */
void tl_joint_note_id (TlJoint *self, const char *id);

/**
 * tl_joint_check:
 * @offender: (out) (transfer full) (nullable): id of the leg or layer that is wrong
 *
 * The rules between members: ids once each, seats that point to what is there, places 0..n-1 without gap,
 * ports that exist, no seat that comes back to itself, at most 8 legs.
 * Returns: %FALSE with %TL_ERROR_STATE, %TL_ERROR_NAME or %TL_ERROR_LIMIT
 */
gboolean tl_joint_check (const TlJoint *self, char **offender, GError **error);

/* Words of the file. "kind" of a seat, acts, practices, units; %NULL if @text is not one of them. */
const char *const *tl_seat_words (void);        /* (array zero-terminated=1), by #TlSeatKind */
const char *const *tl_preparation_words (void); /* (array zero-terminated=1) */
const char *const *tl_practice_words (void);    /* (array zero-terminated=1) */
const char *const *tl_unit_system_words (void); /* (array zero-terminated=1) */

/* @text, words of tl_way_words() with space between, in their order and once each; %NULL with %TL_ERROR_NAME.
 * (transfer full) */
char *tl_ways_settle (const char *text, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* %TRUE if @id can name a leg or layer: a lower-case letter, then letters, digits, "-", at most 64;
 * not "site" or "duty", which name themselves. */
gboolean tl_id_is_valid (const char *id);
/* %TRUE if @id can name a part of the stock: letters, digits and "._+-/", 1 to 128 of them. */
gboolean tl_part_id_is_valid (const char *id);
/* %TRUE for text that XML can hold and give back: UTF-8, no control characters but tab and line feed. */
gboolean tl_text_is_storable (const char *text);
/* %TRUE for "" and for a day "2026-03-14" that exists. */
gboolean tl_date_is_valid (const char *date);
/* %TRUE for "" and for a tag such as "de" or "fr_CA". */
gboolean tl_language_tag_is_valid (const char *tag);
/* How a person can know a fact of a joint: stated, measured, marking, stock, assumed. */
gboolean tl_known_by_person (TlKnownBy known_by);

/* --- unknown elements and attributes of a newer minor version, by the path of their owner --- */
typedef struct
{
  GPtrArray *attributes; /* (element-type utf8) name, value, name, value, ... */
  GPtrArray *nodes;      /* (element-type TlXmlNode) */
  GArray    *positions;  /* (element-type guint): known elements before each node */
} TlKept;

/* What is kept at @path, made when missing; @map may point to %NULL. (transfer none) */
TlKept       *tl_kept_at (GHashTable **map, const char *path);
/* (nullable) (transfer none) */
const TlKept *tl_kept_get (GHashTable *map, const char *path);
/* A map without @path and what lies beneath it; (nullable) (transfer full) */
GHashTable   *tl_kept_without (GHashTable *map, const char *path) G_GNUC_WARN_UNUSED_RESULT;

/* --- reading, for joint-read.c --- */
TlJoint *tl_joint_from_document (const TlXmlDocument *document,
                                 GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- writing, for what saves a joint --- */
/* As tl_joint_to_text(), or %NULL with %TL_ERROR_LIMIT beyond what the reader takes; @path is for the message. (transfer full) */
char *tl_joint_capped_text (const TlJoint *joint, const char *path, gsize *length, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Looks of materials as in files; by #TlLook, (array zero-terminated=1) */
const char *const *tl_look_words (void);

G_END_DECLS
