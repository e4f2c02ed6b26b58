/* ageing-side.h: when to look again and why, and what drives the band, beside the charts of the years.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/ageing.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_AGEING_SIDE (tl_ageing_side_get_type ())
G_DECLARE_FINAL_TYPE (TlAgeingSide, tl_ageing_side, TL, AGEING_SIDE, GtkWidget)

/* @ageing: computed */
void tl_ageing_side_show (TlAgeingSide *self, const TlAgeing *ageing, const TlLanguage *language);

G_END_DECLS
