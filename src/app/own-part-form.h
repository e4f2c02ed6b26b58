/* own-part-form.h: one part of any stock: drawn live, its figures, and what the person notes about it.
 *
 * A part of one's own is edited here, each figure checked and saved as it is entered; a shipped part is shown and can be
 * copied. Figures entered here carry how the person knows them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/own-stock.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_OWN_PART_FORM (tl_own_part_form_get_type ())
G_DECLARE_FINAL_TYPE (TlOwnPartForm, tl_own_part_form, TL, OWN_PART_FORM, GtkWidget)

GtkWidget *tl_own_part_form_new (TlOwnStock *own, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* @id: (nullable): part of the laid stock or of the own pack */
void       tl_own_part_form_show (TlOwnPartForm *self, const char *id);
/* The keyboard goes to the first figure of the part. */
void       tl_own_part_form_begin (TlOwnPartForm *self);
/* (nullable) (transfer none) */
const char *tl_own_part_form_part (TlOwnPartForm *self);

G_END_DECLS
