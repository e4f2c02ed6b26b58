/* ageing-side.h: when to look again and why, what drives the band, and what is checked at each look, beside the charts.
 *
 * Actions: looks.save-calendar, looks.save-calendar-to (s: path).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/forecast.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_AGEING_SIDE (tl_ageing_side_get_type ())
G_DECLARE_FINAL_TYPE (TlAgeingSide, tl_ageing_side, TL, AGEING_SIDE, GtkWidget)

/* @forecast: with its years computed */
void tl_ageing_side_show (TlAgeingSide *self, const TlForecast *forecast, const TlLanguage *language);
/* The later looks as iCalendar; a joint that says no day on which it was made is made today. */
gboolean tl_ageing_side_save_calendar (TlAgeingSide *self, const char *path, GError **error);

G_END_DECLS
