/* report-view.h: the report of the inspection looked at, page by page as it will print.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "draw/picture-report.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_REPORT_VIEW (tl_report_view_get_type ())
G_DECLARE_FINAL_TYPE (TlReportView, tl_report_view, TL, REPORT_VIEW, GtkWidget)

void     tl_report_view_set_inspector (TlReportView *self, TlInspector *inspector, GSettings *settings);
/* The report as it is now: (nullable): %NULL without an inspection. Made anew when the document changed. */
const TlPictureReport *tl_report_view_report (TlReportView *self, GError **error);
void     tl_report_view_print (TlReportView *self, GtkWindow *parent);

G_END_DECLS
