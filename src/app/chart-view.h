/* chart-view.h: one chart of the drawing room on screen, with the table behind it.
 *
 * The picture has a name and a description for the screen reader and takes the keyboard; "As table" holds the same
 * figures as text. It leaves the window as a picture: copied, dragged out, or saved.
 *
 * Actions: chart.table, chart.copy (Ctrl+C on the picture), chart.save, chart.save-to (path). What happened is told by the
 * window's actions win.tell and win.warn.
 *
 * Properties: "file-name" (without ending, for saving), "note" (sentence that the screen reader adds to the name).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/picture.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_CHART_VIEW (tl_chart_view_get_type ())
G_DECLARE_FINAL_TYPE (TlChartView, tl_chart_view, TL, CHART_VIEW, GtkWidget)

/**
 * tl_chart_view_show:
 * @table: the chart as text: its title as the first line, then rows of cells with tabs between
 * @paint: paints it
 * @data: (transfer full): for @paint; given to @destroy when another chart takes its place
 */
void tl_chart_view_show (TlChartView *self, const TlLanguage *language, const char *table, TlPictureFunc paint, gpointer data, GDestroyNotify destroy);
/* Nothing to show: @title and @reason stand in its place. */
void tl_chart_view_refuse (TlChartView *self, const char *title, const char *reason);

gboolean    tl_chart_view_has_chart (TlChartView *self);
/* First line of the table. */
const char *tl_chart_view_title (TlChartView *self);
const char *tl_chart_view_table (TlChartView *self);
/* Picture (PNG), SVG and table as one; (transfer full) (nullable): %NULL with @error, or without a chart */
GdkContentProvider *tl_chart_view_content (TlChartView *self, GError **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean            tl_chart_view_save (TlChartView *self, const char *path, GError **error);

G_END_DECLS
