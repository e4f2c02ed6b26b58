/* own-minutes.h: the person's pack as a whole: its name, its currency, and how long each kind of step takes.
 *
 * Lists the steps of the open joint, and those that have minutes already.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "app/own-stock.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_OWN_MINUTES (tl_own_minutes_get_type ())
G_DECLARE_FINAL_TYPE (TlOwnMinutes, tl_own_minutes, TL, OWN_MINUTES, GtkWidget)

GtkWidget *tl_own_minutes_new (TlOwnStock *own, TlDocument *document) G_GNUC_WARN_UNUSED_RESULT;
/* Shows what pack and joint say now. */
void       tl_own_minutes_refresh (TlOwnMinutes *self);

G_END_DECLS
