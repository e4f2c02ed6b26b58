/* parts-fit.h: what the selected place of the joint asks of a part, as a filter for the search.
 *
 * In a stack: what the bolt passes. On a conductor that goes into a barrel: sleeves and ferrules of its bore. On a
 * sleeve: heat-shrink sleeves that go over it and grip the insulation.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "stock/search.h"

G_BEGIN_DECLS

/* Adds to @filter what the selection of @document asks for.
 * Returns: (transfer full) (nullable): "washers and lugs for M5"; %NULL and nothing added if nothing can be said */
char *tl_parts_fit (TlDocument *document, TlSearchFilter *filter) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
