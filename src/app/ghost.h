/* ghost.h: the part that follows the pointer while it is dragged, in its true outline.
 *
 * Lies over the whole page and takes no events.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_GHOST (tl_ghost_get_type ())
G_DECLARE_FINAL_TYPE (TlGhost, tl_ghost, TL, GHOST, GtkWidget)

/* @scale: px for one mm of the joint */
void tl_ghost_show (TlGhost *self, const TlStock *stock, TlPartKind kind, const TlFacts *facts, double scale);
/* Position in the coordinates of @from. */
void tl_ghost_move (TlGhost *self, GtkWidget *from, double x, double y);
void tl_ghost_hide (TlGhost *self);

G_END_DECLS
