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
/* "stated", "measured" ... as a person reads it; (transfer none) */
const char   *tl_known_by_label (TlKnownBy known_by);

G_END_DECLS
