/* fact-entry.h: one fact of a leg, a layer, the site or the duty, to be read and typed.
 *
 * Label, entry with its unit (or a list of words), and below it how the figure is known and what is permitted.
 * A figure can be typed in any unit of its kind; it is taken on Enter and when the focus leaves.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_FACT_ENTRY (tl_fact_entry_get_type ())
G_DECLARE_FINAL_TYPE (TlFactEntry, tl_fact_entry, TL, FACT_ENTRY, GtkWidget)

/* @owner: leg id, layer id, "site" or "duty" */
GtkWidget *tl_fact_entry_new (TlDocument *document, const char *owner, TlField field) G_GNUC_WARN_UNUSED_RESULT;
TlField    tl_fact_entry_field (TlFactEntry *self);
/* Shows what the document says now, unless the person is typing here. */
void       tl_fact_entry_refresh (TlFactEntry *self);

G_END_DECLS
