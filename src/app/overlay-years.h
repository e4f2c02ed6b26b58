/* overlay-years.h: the age for which heat and current are shown: new, 5, 10 or 20 years.
 *
 * Stands under the drawing while an overlay that ages is on.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/bench.h"

G_BEGIN_DECLS

#define TL_TYPE_OVERLAY_YEARS (tl_overlay_years_get_type ())
G_DECLARE_FINAL_TYPE (TlOverlayYears, tl_overlay_years, TL, OVERLAY_YEARS, GtkWidget)

/* @bench: outlives the slider */
void tl_overlay_years_set_bench (TlOverlayYears *self, TlBench *bench);

G_END_DECLS
