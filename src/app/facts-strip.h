/* facts-strip.h: what can be edited about the selection, below the bench.
 *
 * A leg or layer: its facts (a leg also its place, its end, its preparation). Nothing selected: the joint, the
 * surroundings and the load.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_FACTS_STRIP (tl_facts_strip_get_type ())
G_DECLARE_FINAL_TYPE (TlFactsStrip, tl_facts_strip, TL, FACTS_STRIP, GtkWidget)

void tl_facts_strip_set_document (TlFactsStrip *self, TlDocument *document);
/* Puts the keyboard on the first entry. */
void tl_facts_strip_edit (TlFactsStrip *self);
/* Shows @owner ("leg-1", "site", "duty") and puts the keyboard on @field. */
void tl_facts_strip_edit_field (TlFactsStrip *self, const char *owner, TlField field);

G_END_DECLS
