/* picture.h: anything that paints on a cairo context, as PNG, SVG or PDF, in a file or in memory.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing.h"

G_BEGIN_DECLS

/* Paints an area of @width by @height units on a ground already filled; @unit: units for one mm on the medium. */
typedef void (*TlPictureFunc) (cairo_t *cr, const TlPalette *palette, double width, double height, double unit, gpointer data);

/**
 * tl_picture_save:
 * @width_mm, @height_mm: 20 to 1200
 *
 * The picture is made in memory and saved in one piece, so that a failure leaves the old file. One ink is painted in
 * mm, the other schemes in px of 96 to the inch. Same input, same bytes: no clock in the file.
 * Returns: %FALSE with %TL_ERROR_RANGE or %TL_ERROR_FILE
 */
gboolean tl_picture_save (TlPictureFunc func, gpointer data, TlPictureKind kind, double width_mm, double height_mm, TlScheme scheme, const char *path, const TlLanguage *language, GError **error);

/* The same in memory, for the clipboard. (transfer full) (nullable): %NULL with %TL_ERROR_RANGE or %TL_ERROR_FILE */
GBytes *tl_picture_to_bytes (TlPictureFunc func, gpointer data, TlPictureKind kind, double width_mm, double height_mm, TlScheme scheme, const TlLanguage *language, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Kind by the ending of @path; %FALSE if it is none of .png, .svg, .pdf. */
gboolean tl_picture_kind_of (const char *path, TlPictureKind *kind);

G_END_DECLS
