/* own-start.h: what My parts shows while no part is chosen: each kind of part, drawn, to begin one.
 *
 * A press on a kind activates "own.add" with its word.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/own-stock.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *tl_own_start_new (TlOwnStock *own, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
