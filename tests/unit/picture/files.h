/* files.h: picture files made for tests: small ones, with EXIF written byte by byte, and hostile ones.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/picture.h"

G_BEGIN_DECLS

/* @width by @height, its upper left pixels red, upper right green, lower left blue, the rest grey. @kind: "png", "jpeg", "tiff".
 * (transfer full) */
GBytes *tf_picture (guint width, guint height, const char *kind) G_GNUC_WARN_UNUSED_RESULT;
/* The same as JPEG with EXIF: orientation, maker, model, time, zone, and a position if @position. (transfer full) */
GBytes *tf_exif_jpeg (guint width, guint height, guint orientation, gboolean position) G_GNUC_WARN_UNUSED_RESULT;
/* A copy with the bytes at @offset replaced. (transfer full) */
GBytes *tf_patched (GBytes *bytes, gsize offset, const char *with, gsize length) G_GNUC_WARN_UNUSED_RESULT;
/* Letters of "red", "green", "blue", "grey" nearest to the pixel: 'r', 'g', 'b', '-' */
char    tf_colour (GdkPixbuf *pixbuf, int x, int y);

G_END_DECLS
