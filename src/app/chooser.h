/* chooser.h: choosers of files and folders. A widget keeps at most one, and everything but ACCEPT is a cancel.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

/**
 * tl_chooser_new:
 * @kept: where the widget keeps its chooser; one that is still there is closed first
 * @of: the widget, already in a window
 * @accept: (nullable): label of the button, with its mnemonic
 *
 * A modal chooser that is not yet shown. Returns: (transfer none): also in @kept.
 */
GtkFileChooserNative *tl_chooser_new (GtkFileChooserNative **kept, GtkWidget *of, const char *title,
                                      GtkFileChooserAction action, const char *accept);

/**
 * tl_chooser_add_kind:
 *
 * Let only files of @pattern be seen, called @name.
 */
void tl_chooser_add_kind (GtkFileChooserNative *chooser, const char *pattern, const char *name);

/**
 * tl_chooser_take_path:
 * @kept: the chooser that answered; let go
 * @response: its answer
 * @ending: (nullable): put after the name where it is missing
 *
 * Returns: (nullable): what was chosen, in the file system's encoding; %NULL if nothing was.
 */
char *tl_chooser_take_path (GtkFileChooserNative **kept, int response, const char *ending);

/**
 * tl_chooser_close:
 *
 * For the dispose of the widget: nothing is left on the screen.
 */
void tl_chooser_close (GtkFileChooserNative **kept);
