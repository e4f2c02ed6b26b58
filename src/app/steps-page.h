/* steps-page.h: the step sheet as it will print, page by page; paper, print, PDF, and the same as text.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "draw/sheet.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_STEPS_PAGE (tl_steps_page_get_type ())
G_DECLARE_FINAL_TYPE (TlStepsPage, tl_steps_page, TL, STEPS_PAGE, GtkWidget)

void     tl_steps_page_set_document (TlStepsPage *self, TlDocument *document, GSettings *settings);
/* Prints through the desktop's dialog. */
void     tl_steps_page_print (TlStepsPage *self, GtkWindow *parent);
gboolean tl_steps_page_export (TlStepsPage *self, const char *path, GError **error);
guint    tl_steps_page_pages (TlStepsPage *self);

G_END_DECLS
