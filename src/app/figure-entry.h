/* figure-entry.h: a small label, an entry with its unit, and what is wrong with what was typed.
 *
 * Taken on Enter and when the focus leaves, if the text is another than the one shown; Escape brings that back.
 * Knows nothing of facts: who shows a text also reads it.
 *
 * Signal: "entered" (text).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_FIGURE_ENTRY (tl_figure_entry_get_type ())
G_DECLARE_FINAL_TYPE (TlFigureEntry, tl_figure_entry, TL, FIGURE_ENTRY, GtkWidget)

/* @unit: "" for none; @chars: width */
GtkWidget *tl_figure_entry_new (const char *label, const char *unit, int chars) G_GNUC_WARN_UNUSED_RESULT;
/* Shows a text; what was wrong is forgotten. */
void       tl_figure_entry_show (TlFigureEntry *self, const char *text);
/* Says what is wrong; what was typed stays. */
void       tl_figure_entry_refuse (TlFigureEntry *self, const char *message);
void       tl_figure_entry_set_editable (TlFigureEntry *self, gboolean editable);
void       tl_figure_entry_set_unit (TlFigureEntry *self, const char *unit);
/* As if typed, with Enter. */
void       tl_figure_entry_type (TlFigureEntry *self, const char *text);
/* Takes what stands there once more, be it what is shown or what was refused. */
void       tl_figure_entry_retry (TlFigureEntry *self);
/* What is wrong; "" if nothing is. (transfer none) */
const char *tl_figure_entry_wrong (TlFigureEntry *self);

G_END_DECLS
