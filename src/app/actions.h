/* actions.h: everything a person can do, in one table: name, keys, words.
 *
 * Accelerators, the window's own shortcuts and the shortcuts window are made from it; menus and buttons refer to
 * the names.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  TL_KEYS_APPLICATION, /* seen before the focused widget: function keys, Ctrl+letter that no entry uses */
  TL_KEYS_WINDOW,      /* seen after it, so that an entry keeps its own Ctrl+Z */
  TL_KEYS_BENCH,       /* bound by the bench's class; listed here for the shortcuts window */
} TlKeysPlace;

typedef struct
{
  const char *action; /* "win.save"; detailed name, with its target if it has one */
  const char *keys[4]; /* ends with NULL */
  TlKeysPlace place;
  const char *group;  /* msgid of the heading in the shortcuts window */
  const char *label;  /* msgid */
} TlAction;

/* (array length=count) (transfer none) */
const TlAction *tl_actions (guint *count);

/* Accelerators of the table's application keys. */
void tl_actions_install (GtkApplication *application);
/* A controller with the table's window keys. (transfer full) */
GtkEventController *tl_actions_controller (void) G_GNUC_WARN_UNUSED_RESULT;
/* A window that lists them all; like every toplevel it belongs to GTK until it is closed. (transfer none) */
GtkWidget *tl_actions_window (void);

G_END_DECLS
