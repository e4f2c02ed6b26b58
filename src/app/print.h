/* print.h: pages of paper through the desktop's print dialog.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Paints one page, from 0; @cr in mm with the origin at the paper's corner. */
typedef void (*TlPrintFunc) (cairo_t *cr, guint page, gpointer data);

/**
 * tl_print:
 * @width_mm: of the paper, which is A4 or Letter
 *
 * Returns when all is printed: the pages must not change meanwhile. %FALSE with @error if printing failed; a cancel is no error.
 */
gboolean tl_print (GtkWindow *parent, const char *title, guint pages, double width_mm, TlPrintFunc paint, gpointer data, GError **error);

G_END_DECLS
