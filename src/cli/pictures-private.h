/* pictures-private.h: what tinlap-cli pictures writes beside the lists.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/picture-list.h"

G_BEGIN_DECLS

/* Entries of the chain, one a line; (transfer full) */
char *tl_picture_list_chain (const TlPictureList *self) G_GNUC_WARN_UNUSED_RESULT;

/* What a joint can be judged by, those rows that hold all @words; (transfer full), "" if there is none */
char *tl_picture_criteria_text (const TlStock *stock, const char *words, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
