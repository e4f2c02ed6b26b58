/* document.h: the one open joint: its verdict, its history, its file, and what is selected in it.
 *
 * Widgets ask for edits here and draw again on "changed"; nobody else keeps a second truth. The joint itself is
 * immutable: an edit hands in the joint after it. Nothing here asks or shows anything.
 *
 * Signals: "changed" (joint, verdict or history), "stock-changed" (before "changed"), "selection-changed", "done" (what was done, as a sentence
 * for a toast that offers undo), "refused" (why nothing was done).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/edit.h"
#include "joint/history.h"
#include "rules/wording.h"

#include <glib-object.h>

G_BEGIN_DECLS

#define TL_TYPE_DOCUMENT (tl_document_get_type ())
G_DECLARE_FINAL_TYPE (TlDocument, tl_document, TL, DOCUMENT, GObject)

TlDocument *tl_document_new (const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* All (transfer none). */
const TlStock    *tl_document_stock (TlDocument *self);
const TlJoint    *tl_document_joint (TlDocument *self);
const TlVerdict  *tl_document_verdict (TlDocument *self);
const TlLanguage *tl_document_language (TlDocument *self);
/* The stock with the joint's own copies laid over it, as the verdict saw it. */
const TlStock    *tl_document_effective_stock (TlDocument *self);
void              tl_document_set_language (TlDocument *self, const TlLanguage *language);

/* Another stock: the joint stays and is judged anew. */
void              tl_document_set_stock (TlDocument *self, const TlStock *stock);

/* --- file --- */
/* Another joint takes the place of the open one, with a fresh history; @path: (nullable): not saved yet. */
void tl_document_replace (TlDocument *self, const TlJoint *joint, const char *path);
/* On a bad file the open joint stays as it is. */
gboolean tl_document_open (TlDocument *self, const char *path, GError **error);
/* Saves with the rows that the verdict used laid in. @path: (nullable): where it came from. */
gboolean tl_document_save (TlDocument *self, const char *path, GError **error);
/* (nullable) */
const char *tl_document_path (TlDocument *self);
gboolean    tl_document_is_modified (TlDocument *self);
/* %TRUE if somebody else wrote or removed the file since it was read. */
gboolean    tl_document_is_stale (TlDocument *self);
/* Name for the window: the joint's, else the file's, else "Unnamed joint"; (transfer full) */
char       *tl_document_title (TlDocument *self) G_GNUC_WARN_UNUSED_RESULT;

/* --- the document's own figures --- */
/* Verdict by the present data if the joint carries copies that differ from them; (nullable) (transfer full) */
TlVerdict *tl_document_judge_anew (TlDocument *self) G_GNUC_WARN_UNUSED_RESULT;

/* --- edits --- */
/**
 * tl_document_take:
 * @joint: (transfer full) (nullable): joint after the edit; %NULL: the edit failed, nothing happens
 * @label: what was done, for the undo button: "Put in washer"
 * @selected: (nullable): what is selected afterwards
 * @merge_key: 0, or the key of a group of edits that are one step
 */
void tl_document_take (TlDocument *self, TlJoint *joint, const char *label, const char *selected, guint merge_key);
/* Says in a toast what the last edit did. */
void tl_document_tell (TlDocument *self, const char *sentence);
/* Says in a toast why nothing was done: there is nothing to undo. */
void tl_document_refuse (TlDocument *self, const char *sentence);
/* From here on, what was done before cannot be undone. */
void tl_document_forget_steps (TlDocument *self);
void tl_document_undo (TlDocument *self);
void tl_document_redo (TlDocument *self);
/* (nullable): %NULL if there is nothing to undo or redo */
const char *tl_document_undo_label (TlDocument *self);
const char *tl_document_redo_label (TlDocument *self);

/* --- selection: a leg or a layer, or nothing --- */
const char *tl_document_selected (TlDocument *self);
void        tl_document_select (TlDocument *self, const char *owner);

/* "aluminium conductor 2.5 mm²", "plain washer, steel"; (transfer full) */
char *tl_document_owner_name (TlDocument *self, const char *owner) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
