/* preferences.h: what belongs to the person: look, units, paper, and how a new joint begins.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

#include <adwaita.h>

G_BEGIN_DECLS

/* Belongs to GTK until it is closed. (transfer none) */
GtkWidget *tl_preferences_new (GSettings *settings, const TlLanguage *language, GtkWindow *parent);

G_END_DECLS
