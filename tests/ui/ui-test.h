/* ui-test.h: what the in-process window tests share: stock, a window on an example, widgets by type.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/window.h"

G_BEGIN_DECLS

const TlStock *ui_test_stock (void);
/* The same with packs, in the data folder of the test. */
TlOwnStock    *ui_test_own (void);
/* A presented window on data/examples/@name, drawn once. */
TlWindow      *ui_test_window (const char *name);
/* Runs the main loop until @done says so; fails after 10 s. */
typedef gboolean (*UiTestDone) (gpointer data);
void ui_test_wait (UiTestDone done, gpointer data);
/* Runs what is pending and waits for one painted frame. */
void ui_test_settle (TlWindow *window);
/* Calls @visit for @widget and all below it. */
typedef void (*UiTestVisit) (GtkWidget *widget, gpointer data);
void       ui_test_walk (GtkWidget *widget, UiTestVisit visit, gpointer data);
/* First descendant of @type; (nullable) */
GtkWidget *ui_test_find (GtkWidget *widget, GType type);
/* Asserts that a control that is seen is at least @least px wide and high and has a name; %FALSE for what is no control. */
gboolean   ui_test_check_control (GtkWidget *widget, int least);
/* Middle of an item of the bench's drawing; %FALSE if it is not drawn. */
gboolean   ui_test_item (TlBench *bench, TlItemKind kind, const char *owner, guint index, double *x,
                         double *y);
/* "path to" data/examples/@name; (transfer full) */
char      *ui_test_example (const char *name);

/* Sets up GTK, translations off, settings in memory. */
void ui_test_init (int *argc, char ***argv);

G_END_DECLS
