/* pane-edge.h: the edge between two panes, to be dragged, or moved with the arrow keys.
 *
 * Signal "pull": by how many px, to the end of the line positive.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_PANE_EDGE (tl_pane_edge_get_type ())
G_DECLARE_FINAL_TYPE (TlPaneEdge, tl_pane_edge, TL, PANE_EDGE, GtkWidget)

G_END_DECLS
