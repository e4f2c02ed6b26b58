/* first-page.h: what the program opens with: a new joint, a file, an example, a recent file, how a verdict reads.
 *
 * Signals: "made" (joint), "example" (resource path). Files go through the action win.open-path.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/new-joint-form.h"

G_BEGIN_DECLS

#define TL_TYPE_FIRST_PAGE (tl_first_page_get_type ())
G_DECLARE_FINAL_TYPE (TlFirstPage, tl_first_page, TL, FIRST_PAGE, GtkWidget)

#define TL_EXAMPLES_PATH "/tinlap/data/examples"

void            tl_first_page_set_stock (TlFirstPage *self, const TlStock *stock, const TlLanguage *language, GSettings *settings);
/* Another stock: what is chosen in the form stays where it still exists. */
void            tl_first_page_change_stock (TlFirstPage *self, const TlStock *stock);
/* Reads the list of recent files again. */
void            tl_first_page_refresh (TlFirstPage *self);
TlNewJointForm *tl_first_page_form (TlFirstPage *self);
guint           tl_first_page_example_count (TlFirstPage *self);

G_END_DECLS
