/* sheet-view.h: one page of the step sheet on screen, as it will print.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/sheet.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_SHEET_VIEW (tl_sheet_view_get_type ())
G_DECLARE_FINAL_TYPE (TlSheetView, tl_sheet_view, TL, SHEET_VIEW, GtkWidget)

/* @sheet must outlive the widget, or tl_sheet_view_forget() be called. @scale: px for one mm of paper */
GtkWidget *tl_sheet_view_new (const TlSheet *sheet, guint page, double scale) G_GNUC_WARN_UNUSED_RESULT;
void       tl_sheet_view_forget (TlSheetView *self);

G_END_DECLS
