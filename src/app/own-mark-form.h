/* own-mark-form.h: what a person notes about a part: in the van, how many, at what price.
 *
 * For parts of one's own and of the shipped stock alike; the shipped part itself is not touched.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/own-stock.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_OWN_MARK_FORM (tl_own_mark_form_get_type ())
G_DECLARE_FINAL_TYPE (TlOwnMarkForm, tl_own_mark_form, TL, OWN_MARK_FORM, GtkWidget)

GtkWidget *tl_own_mark_form_new (TlOwnStock *own, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* @part: (nullable): nothing to mark */
void       tl_own_mark_form_show (TlOwnMarkForm *self, const char *part);

G_END_DECLS
