/* picture-levels.h: decoded copies of pictures at a few sizes, made in threads, so that the window never waits.
 *
 * A picture is asked for at some size; what is there already is given at once, what would be better is begun. Small
 * copies stay, large ones make room for each other.
 *
 * Signal: "changed": a copy has come, or cannot be had.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/picture.h"
#include <cairo.h>

G_BEGIN_DECLS

#define TL_TYPE_PICTURE_LEVELS (tl_picture_levels_get_type ())
G_DECLARE_FINAL_TYPE (TlPictureLevels, tl_picture_levels, TL, PICTURE_LEVELS, GObject)

TlPictureLevels *tl_picture_levels_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_picture_levels_get:
 * @originals: (nullable)
 * @edge: longest edge wanted, pixels
 *
 * Returns: (transfer none) (nullable): the best copy there is, valid until the main loop runs again
 */
cairo_surface_t *tl_picture_levels_get (TlPictureLevels *self, const TlPhoto *photo, TlOriginals *originals, guint edge);
/* Why no copy, or no larger one, can be had: (nullable) */
const char *tl_picture_levels_problem (TlPictureLevels *self, const TlPhoto *photo);
gboolean    tl_picture_levels_is_busy (TlPictureLevels *self);

G_END_DECLS
