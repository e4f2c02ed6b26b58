/* picture-private.h: bytes of picture files, for the files of this room that look into them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/picture.h"

G_BEGIN_DECLS

typedef struct
{
  const guint8 *data;
  gsize         length;
} TlBytes;

/* 0 beyond the end. */
guint tl_bytes_u16 (TlBytes bytes, gsize offset, gboolean big);
guint tl_bytes_u32 (TlBytes bytes, gsize offset, gboolean big);
gboolean tl_bytes_begin (TlBytes bytes, gsize offset, const char *text, gsize length);

/* One step through the segments of a JPEG up to the pixels, the chunks of a PNG, or those of a WebP. */
typedef struct
{
  gsize        offset, length; /* whole, with its head */
  gsize        body;           /* where its content begins */
  gsize        body_length;
  guint8       marker;         /* JPEG */
  char         name[5];        /* PNG, WebP */
} TlPiece;

gboolean tl_jpeg_next (TlBytes bytes, TlPiece *piece);
gboolean tl_png_next (TlBytes bytes, TlPiece *piece);
gboolean tl_webp_next (TlBytes bytes, TlPiece *piece);

/* Reads EXIF into a record that is still writable. */
void tl_photo_read_exif (TlPhoto *self, TlBytes bytes, const TlPhotoHead *head);

G_END_DECLS
