/* theme.h: which palette the drawings take: light, dark, high contrast.
 *
 * The style manager knows what the desktop and the person want; the drawing room knows the colours. This is
 * the only place where the two meet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/paint.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Palette of the present scheme. (transfer none) */
const TlPalette *tl_theme_palette (void);

/* Draws @widget again whenever the scheme changes. */
void tl_theme_watch (GtkWidget *widget);

/* @scheme: 0 as the desktop, 1 light, 2 dark: the values of the setting "scheme". */
void tl_theme_choose (gint scheme);

/* Style class of a severity: "unsafe", "change", "watch", "sound". (transfer none) */
const char *tl_theme_severity_class (TlSeverity severity);

/* Puts the style class of @severity on @widget and takes the three others off; off entirely if !@has. */
void tl_theme_set_severity (GtkWidget *widget, gboolean has, TlSeverity severity);

/* Mark of a verdict: that of its severity, or the one for Unfinished. */
TlMark tl_theme_mark (gboolean has_severity, TlSeverity severity);

G_END_DECLS
