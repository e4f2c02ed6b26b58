/* ways-form.h: the ways of joining that local rules forbid, ticked by the person.
 *
 * One button in the strip that says how many; its list opens above it. Each tick is an edit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_WAYS_FORM (tl_ways_form_get_type ())
G_DECLARE_FINAL_TYPE (TlWaysForm, tl_ways_form, TL, WAYS_FORM, GtkWidget)

GtkWidget *tl_ways_form_new (TlDocument *document) G_GNUC_WARN_UNUSED_RESULT;
void       tl_ways_form_refresh (TlWaysForm *self);

G_END_DECLS
