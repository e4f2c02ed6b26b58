/* known-by.h: how a fact is known: the small button below an entry, and what it opens.
 *
 * Shows range, source and default; lets the person say measured, marking, stock, stated or assumed, with a note
 * (instrument and date), or go back to the stock's figure.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_KNOWN_BY (tl_known_by_get_type ())
G_DECLARE_FINAL_TYPE (TlKnownByButton, tl_known_by, TL, KNOWN_BY, GtkWidget)

GtkWidget *tl_known_by_new (TlDocument *document, const char *owner, TlField field) G_GNUC_WARN_UNUSED_RESULT;
void       tl_known_by_refresh (TlKnownByButton *self);

G_END_DECLS
