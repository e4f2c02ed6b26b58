/* owner-facts.h: the facts of whatever an id names: a leg, a layer, "site" or "duty".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"

G_BEGIN_DECLS

/* What is in force, the person's own or that of the stock; (nullable) (transfer none) */
const TlFact *tl_owner_fact (TlDocument *document, const char *owner, TlField field);
/* Only what the person stated; (nullable) (transfer none) */
const TlFact *tl_owner_own_fact (TlDocument *document, const char *owner, TlField field);
/* Ids of materials that a field of that owner can take, with the present one; (transfer full) */
GStrv         tl_owner_material_ids (TlDocument *document, const char *owner, TlField field) G_GNUC_WARN_UNUSED_RESULT;
/* The same by stock. @now: (nullable): present one; @kind: of materials where @now says nothing: "metal", "polymer" */
GStrv         tl_material_choices (const TlStock *stock, TlField field, const char *now, const char *kind) G_GNUC_WARN_UNUSED_RESULT;
/* A figure as it stands in an entry, without its unit: "5.3", "1.5..4", "". (transfer full) */
char         *tl_fact_entry_text (const TlFact *fact, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* A word or material as it stands in a list to choose from; "" reads "choose". (transfer none) */
const char   *tl_word_choice_label (const TlStock *stock, const TlLanguage *language, TlField field, const char *word);
/* "stated", "measured" ... as a person reads it; (transfer none) */
const char   *tl_known_by_label (TlKnownBy known_by);

G_END_DECLS
