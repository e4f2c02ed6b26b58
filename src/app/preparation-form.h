/* preparation-form.h: how a conductor's end is prepared: the acts in their order.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_PREPARATION_FORM (tl_preparation_form_get_type ())
G_DECLARE_FINAL_TYPE (TlPreparationForm, tl_preparation_form, TL, PREPARATION_FORM, GtkWidget)

GtkWidget *tl_preparation_form_new (TlDocument *document, const char *leg) G_GNUC_WARN_UNUSED_RESULT;
void       tl_preparation_form_refresh (TlPreparationForm *self);

G_END_DECLS
