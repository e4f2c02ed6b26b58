/* overlay-bar.h: the three buttons of the bench's toolbar that lay heat, current or wet paths over the drawing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/bench.h"

G_BEGIN_DECLS

#define TL_TYPE_OVERLAY_BAR (tl_overlay_bar_get_type ())
G_DECLARE_FINAL_TYPE (TlOverlayBar, tl_overlay_bar, TL, OVERLAY_BAR, GtkWidget)

/* @bench: outlives the bar */
void tl_overlay_bar_set_bench (TlOverlayBar *self, TlBench *bench);

G_END_DECLS
