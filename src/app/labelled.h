/* labelled.h: small makers of labelled inputs, all alike in forms and strips.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/stock.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A column of a small label and @input below it; names @input for the screen reader. */
GtkWidget *tl_labelled_new (const char *label, GtkWidget *input) G_GNUC_WARN_UNUSED_RESULT;

/* An icon button with tooltip and name. @action: (nullable): detailed action name */
GtkWidget *tl_icon_button_new (const char *icon, const char *label, const char *action) G_GNUC_WARN_UNUSED_RESULT;

/* A list to choose from. @texts: (array zero-terminated=1); @ids: (array zero-terminated=1), kept beside it */
GtkWidget  *tl_choice_new (const char *const *texts, const char *const *ids) G_GNUC_WARN_UNUSED_RESULT;
void        tl_choice_fill (GtkDropDown *choice, const char *const *texts, const char *const *ids);
/* Ids of all rows; (transfer none) */
const char *const *tl_choice_ids (GtkDropDown *choice);
/* Id chosen, "" for the first row of a list that starts with "choose"; (transfer none) */
const char *tl_choice_id (GtkDropDown *choice);
void        tl_choice_select (GtkDropDown *choice, const char *id);

/* Long texts are cut short at the end instead of making the list wide; the tooltip has all of it. */
void        tl_choice_narrow (GtkDropDown *choice);

/* Names of the practices in the order of tl_stock_practices(). (array zero-terminated=1) (transfer full) */
GStrv tl_practice_choices (const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* Says on the buttons what they would undo and redo; @undo, @redo: (nullable): nothing. */
void tl_undo_buttons_show (GtkWidget *undo_button, GtkWidget *redo_button, const char *undo, const char *redo);

/* Unparents all children: for dispose, where the template lets go only of what it bound. */
void tl_widget_clear (GtkWidget *widget);

/* Takes all children out of a box. */
void tl_box_clear (GtkBox *box);

G_END_DECLS
