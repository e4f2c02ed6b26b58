/* sight.h: makes what is inside a widget of a long list only when it comes near the part of the list that is seen.
 *
 * Not here: when a list makes the widgets themselves.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (*TlSightFunc) (GtkWidget *widget, gpointer data);

/**
 * tl_sight_await:
 * @widget: inside a #GtkScrolledWindow by the time it is laid out; it must ask for about the room that it will need
 * @seen: called once, in the frame in which @widget first stands within a page's height of what is seen
 * @data: for @seen, which is not called any more once @widget is gone
 */
void tl_sight_await (GtkWidget *widget, TlSightFunc seen, gpointer data);

G_END_DECLS
