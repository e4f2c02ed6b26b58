/* window.h: one window, one joint: header, pages, files, toasts.
 *
 * Actions (win.): first-page, open, open-path (s), open-example (s), save, save-as, save-to (s), export-pdf,
 * export-to (s), print, undo, redo, page (s), next-pane, find-part, search-part (s), toggle-parts,
 * toggle-findings, zoom (s), shortcuts, close, own-parts, own-part (s), mark-van (s: part: in or out), copy-drawing (s:
 * "png", "svg"), enter (su: owner and field: shows where it is entered), tell (s: what was
 * done), warn (s: what was refused).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/ageing-page.h"
#include "app/build-page.h"
#include "app/first-page.h"
#include "app/own-stock.h"
#include "app/pictures-page.h"
#include "app/steps-page.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define TL_TYPE_WINDOW (tl_window_get_type ())
G_DECLARE_FINAL_TYPE (TlWindow, tl_window, TL, WINDOW, AdwApplicationWindow)

TlWindow    *tl_window_new (GtkApplication *application, TlOwnStock *own, const TlLanguage *language, GSettings *settings) G_GNUC_WARN_UNUSED_RESULT;
/* A bad file leaves the open joint and shows one message. */
gboolean     tl_window_open (TlWindow *self, const char *path);
/* Puts unsaved work by from now on. @folder: as tl_kept_work_new() */
void         tl_window_keep_work (TlWindow *self, const char *folder);
/* Asks about work that was left behind, one piece after another. */
void         tl_window_offer_left_work (TlWindow *self, const char *folder);
TlDocument  *tl_window_document (TlWindow *self);
/* The pages are made when they are first asked for. All (transfer none). */
TlBuildPage *tl_window_build (TlWindow *self);
TlStepsPage *tl_window_steps (TlWindow *self);
TlAgeingPage *tl_window_ageing (TlWindow *self);
TlPicturesPage *tl_window_pictures (TlWindow *self);
TlFirstPage *tl_window_first (TlWindow *self);
/* @page as tl_window_page(): %FALSE: nobody has wanted it yet. */
gboolean     tl_window_has_made (TlWindow *self, const char *page);
/* The window of the person's own parts, made when it is first wanted. */
GtkWidget   *tl_window_own_parts (TlWindow *self);
/* "first", "build", "steps", "ageing" or "pictures" */
const char  *tl_window_page (TlWindow *self);
/* The last message shown, for tests; (nullable) */
const char  *tl_window_last_message (TlWindow *self);

G_END_DECLS
