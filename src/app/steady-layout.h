/* steady-layout.h: lays one child out over the whole widget, without asking it how wide it would like to be.
 *
 * For rows of a list whose width is given from outside: asking every wrapped text for its narrowest and its widest
 * form shapes it twice more than showing it does.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_STEADY_LAYOUT (tl_steady_layout_get_type ())
G_DECLARE_FINAL_TYPE (TlSteadyLayout, tl_steady_layout, TL, STEADY_LAYOUT, GtkLayoutManager)

/* @px: least width, and the one wished for; 0: the child is asked after all (the default) */
void tl_steady_layout_set_width (TlSteadyLayout *self, int px);

G_END_DECLS
