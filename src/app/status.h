/* status.h: what the window shows, as lines of JSON, for tests that drive it from outside.
 *
 * With TINLAP_STATUS_FILE set, a line is appended after each frame in which something differs: verdict, layers,
 * selection, page, undo label, file, message, and where layers, gaps and parts stand in the window. Without it
 * nothing is done.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/window.h"

G_BEGIN_DECLS

void tl_status_watch (TlWindow *window);

G_END_DECLS
