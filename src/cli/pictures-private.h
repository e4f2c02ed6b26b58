/* pictures-private.h: what tinlap-cli pictures writes beside the lists.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/picture-list.h"

G_BEGIN_DECLS

/* Entries of the chain, one a line; (transfer full) */
char *tl_picture_list_chain (const TlPictureList *self) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_picture_list_originals:
 * Writes each original as FOLDER/picture-N.ENDING, without position and notes of the camera unless @with_position; beside them SHA256SUMS
 * and pictures.csv, which has the hash at import as well. Nothing that is there is written over.
 * @missing: (out): how many originals are not in the document, or altered since they were taken in; the table names them
 */
gboolean tl_picture_list_originals (const TlPictureList *self, const char *folder, gboolean with_position, guint *missing, GError **error);

/* What a joint can be judged by, those rows that hold all @words; (transfer full), "" if there is none */
char *tl_picture_criteria_text (const TlStock *stock, const char *words, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
