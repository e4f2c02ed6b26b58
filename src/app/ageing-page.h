/* ageing-page.h: the joint over the years as bands, what drives them, when to look again; and the charts of it as built.
 *
 * The forecast runs beside the window on the immutable joint; a result for a joint that is no longer current is dropped.
 * All of it is indicative: a band, never a date of failure.
 *
 * Actions: ageing.view (s: "years" or "now"), ageing.cancel (Escape), ageing.reckon.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "app/forecast.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_AGEING_PAGE (tl_ageing_page_get_type ())
G_DECLARE_FINAL_TYPE (TlAgeingPage, tl_ageing_page, TL, AGEING_PAGE, GtkWidget)

void tl_ageing_page_set_document (TlAgeingPage *self, TlDocument *document);
/* A forecast is being reckoned. */
gboolean tl_ageing_page_is_busy (TlAgeingPage *self);
/* The forecast that is shown; (nullable) */
const TlForecast *tl_ageing_page_forecast (TlAgeingPage *self);

G_END_DECLS
