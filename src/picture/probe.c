/* probe.c: what the head of a picture file says, before anything is decoded.
 *
 * Sources: ISO/IEC 10918-1 Annex B (JPEG markers), ISO/IEC 15948 clause 11 (PNG chunks), TIFF revision 6.0 section 2,
 * WebP container specification (RIFF chunks); layouts from memory, checked with files of other programs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/picture-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_PIECES 20000u

guint
tl_bytes_u16 (TlBytes bytes, gsize offset, gboolean big)
{
  const guint8 *p = bytes.data + offset;

  if (offset + 2 < offset || offset + 2 > bytes.length)
    return 0;
  return big ? (guint) (p[0] << 8 | p[1]) : (guint) (p[1] << 8 | p[0]);
}

guint
tl_bytes_u32 (TlBytes bytes, gsize offset, gboolean big)
{
  guint high = tl_bytes_u16 (bytes, big ? offset : offset + 2, big);

  if (offset + 4 < offset || offset + 4 > bytes.length)
    return 0;
  return high << 16 | tl_bytes_u16 (bytes, big ? offset + 2 : offset, big);
}

gboolean
tl_bytes_begin (TlBytes bytes, gsize offset, const char *text, gsize length)
{
  return offset + length >= offset && offset + length <= bytes.length
         && memcmp (bytes.data + offset, text, length) == 0;
}

/* --- pieces --- */

gboolean
tl_jpeg_next (TlBytes bytes, TlPiece *piece)
{
  gsize at = piece->length == 0 ? 2 : piece->offset + piece->length;
  guint length;

  /* After the start of scan come pixels, no segments. */
  if (piece->length != 0 && piece->marker == 0xda)
    return FALSE;
  while (at + 1 < bytes.length && bytes.data[at] == 0xff && bytes.data[at + 1] == 0xff)
    at++;
  if (at + 4 > bytes.length || bytes.data[at] != 0xff)
    return FALSE;
  length = tl_bytes_u16 (bytes, at + 2, TRUE);
  if (length < 2 || at + 2 + length > bytes.length)
    return FALSE;
  piece->marker = bytes.data[at + 1];
  piece->offset = at;
  piece->length = 2 + (gsize) length;
  piece->body = at + 4;
  piece->body_length = length - 2;
  return TRUE;
}

gboolean
tl_png_next (TlBytes bytes, TlPiece *piece)
{
  gsize at = piece->length == 0 ? 8 : piece->offset + piece->length;
  guint length;

  if (at + 12 > bytes.length)
    return FALSE;
  length = tl_bytes_u32 (bytes, at, TRUE);
  if (length > G_MAXINT32 || at + 12 + length > bytes.length)
    return FALSE;
  memcpy (piece->name, bytes.data + at + 4, 4);
  piece->name[4] = '\0';
  piece->offset = at;
  piece->length = 12 + (gsize) length;
  piece->body = at + 8;
  piece->body_length = length;
  return TRUE;
}

gboolean
tl_webp_next (TlBytes bytes, TlPiece *piece)
{
  gsize at = piece->length == 0 ? 12 : piece->offset + piece->length;
  gsize length;

  if (at + 8 > bytes.length)
    return FALSE;
  length = tl_bytes_u32 (bytes, at + 4, FALSE);
  if (length > G_MAXINT32 || at + 8 + length > bytes.length)
    return FALSE;
  memcpy (piece->name, bytes.data + at, 4);
  piece->name[4] = '\0';
  piece->offset = at;
  piece->length = MIN (8 + length + (length & 1), bytes.length - at);
  piece->body = at + 8;
  piece->body_length = length;
  return TRUE;
}

/* --- heads --- */

static void
probe_jpeg (TlBytes bytes, TlPhotoHead *head)
{
  TlPiece piece = { 0 };

  head->kind = TL_PHOTO_JPEG;
  for (guint n = 0; n < MOST_PIECES && tl_jpeg_next (bytes, &piece); n++)
    {
      const guint8 m = piece.marker;

      if (m >= 0xc0 && m <= 0xcf && m != 0xc4 && m != 0xc8 && m != 0xcc && piece.body_length >= 6)
        {
          head->bits = bytes.data[piece.body];
          head->height = tl_bytes_u16 (bytes, piece.body + 1, TRUE);
          head->width = tl_bytes_u16 (bytes, piece.body + 3, TRUE);
          head->channels = bytes.data[piece.body + 5];
        }
      if (m == 0xe1 && head->exif_length == 0 && tl_bytes_begin (bytes, piece.body, "Exif\0\0", 6))
        {
          head->exif_offset = piece.body + 6;
          head->exif_length = piece.body_length - 6;
        }
    }
  /* Notes may follow the end of the picture: it is looked for from the back. */
  for (gsize at = bytes.length; at >= 2 && !head->is_complete; at--)
    head->is_complete = bytes.data[at - 2] == 0xff && bytes.data[at - 1] == 0xd9;
}

static void
probe_png (TlBytes bytes, TlPhotoHead *head)
{
  TlPiece piece = { 0 };

  head->kind = TL_PHOTO_PNG;
  for (guint n = 0; tl_png_next (bytes, &piece); n++)
    {
      if (n == 0 && strcmp (piece.name, "IHDR") == 0 && piece.body_length >= 13)
        {
          head->width = tl_bytes_u32 (bytes, piece.body, TRUE);
          head->height = tl_bytes_u32 (bytes, piece.body + 4, TRUE);
          head->bits = bytes.data[piece.body + 8];
          head->channels = bytes.data[piece.body + 9] & 2 ? 3 : 1;
        }
      head->is_animated = head->is_animated || strcmp (piece.name, "acTL") == 0;
      head->is_complete = head->is_complete || strcmp (piece.name, "IEND") == 0;
      if (strcmp (piece.name, "eXIf") == 0 && head->exif_length == 0)
        {
          head->exif_offset = piece.body;
          head->exif_length = piece.body_length;
        }
    }
  /* A cut file may still have its first chunk: the size is known, the end is not there. */
  if (head->width == 0 && tl_bytes_begin (bytes, 12, "IHDR", 4))
    {
      head->width = tl_bytes_u32 (bytes, 16, TRUE);
      head->height = tl_bytes_u32 (bytes, 20, TRUE);
    }
}

/* Only the first folder of entries is looked at; further pages are not shown. */
static void
probe_tiff (TlBytes bytes, TlPhotoHead *head)
{
  gboolean big = bytes.data[0] == 'M';
  gsize    at = tl_bytes_u32 (bytes, 4, big);
  guint    count = tl_bytes_u16 (bytes, at, big);

  head->kind = TL_PHOTO_TIFF;
  head->exif_length = bytes.length;
  head->bits = 8;
  head->is_complete = at + 2 + (gsize) count * 12 <= bytes.length;
  for (guint i = 0; i < count; i++)
    {
      gsize    entry = at + 2 + (gsize) i * 12;
      guint    tag = tl_bytes_u16 (bytes, entry, big);
      gboolean is_short = tl_bytes_u16 (bytes, entry + 2, big) == 3;
      guint    value =
          is_short ? tl_bytes_u16 (bytes, entry + 8, big) : tl_bytes_u32 (bytes, entry + 8, big);

      if (tag == 256)
        head->width = value;
      else if (tag == 257)
        head->height = value;
      else if (tag == 277)
        head->channels = value;
    }
}

static void
probe_webp (TlBytes bytes, TlPhotoHead *head)
{
  TlPiece piece = { 0 };

  head->kind = TL_PHOTO_WEBP;
  head->bits = 8;
  head->channels = 3;
  head->is_complete = (gsize) tl_bytes_u32 (bytes, 4, FALSE) + 8 <= bytes.length;
  for (guint n = 0; n < MOST_PIECES && tl_webp_next (bytes, &piece); n++)
    {
      const guint8 *p = bytes.data + piece.body;

      if (strcmp (piece.name, "VP8X") == 0 && piece.body_length >= 10)
        {
          head->is_animated = (p[0] & 2) != 0;
          head->width = 1u + (p[4] | (guint) p[5] << 8 | (guint) p[6] << 16);
          head->height = 1u + (p[7] | (guint) p[8] << 8 | (guint) p[9] << 16);
        }
      else if (strcmp (piece.name, "VP8 ") == 0 && piece.body_length >= 10 && head->width == 0)
        {
          head->width = tl_bytes_u16 (bytes, piece.body + 6, FALSE) & 0x3fff;
          head->height = tl_bytes_u16 (bytes, piece.body + 8, FALSE) & 0x3fff;
        }
      else if (strcmp (piece.name, "VP8L") == 0 && piece.body_length >= 5 && head->width == 0)
        {
          guint packed = tl_bytes_u32 (bytes, piece.body + 1, FALSE);

          head->width = (packed & 0x3fff) + 1;
          head->height = (packed >> 14 & 0x3fff) + 1;
        }
      else if (strcmp (piece.name, "EXIF") == 0 && head->exif_length == 0)
        {
          gsize skip = tl_bytes_begin (bytes, piece.body, "Exif\0\0", 6) ? 6 : 0;

          head->exif_offset = piece.body + skip;
          head->exif_length = piece.body_length - skip;
        }
    }
}

static gboolean
check_head (const TlPhotoHead *head, GError **error)
{
  if (head->width == 0 || head->height == 0)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_PARSE,
                           _ ("The picture has no size in its head; the file is cut or damaged."));
      return FALSE;
    }
  if (head->is_animated)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_PARSE,
                           _ ("This is a moving picture; take one frame of it as JPEG or PNG."));
      return FALSE;
    }
  if (head->width <= TL_PHOTO_MAX_EDGE && head->height <= TL_PHOTO_MAX_EDGE)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
               _ ("The head says %u × %u pixels; an edge may have at most %u."), head->width,
               head->height, TL_PHOTO_MAX_EDGE);
  return FALSE;
}

gboolean
tl_photo_probe (GBytes *bytes, TlPhotoHead *head, GError **error)
{
  TlBytes b;

  g_return_val_if_fail (bytes != NULL && head != NULL, FALSE);

  b.data = g_bytes_get_data (bytes, &b.length);
  *head = (TlPhotoHead){ 0 };
  if (b.length > TL_PHOTO_MAX_BYTES)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
                   _ ("The picture has %zu bytes; at most %u are accepted."), b.length,
                   TL_PHOTO_MAX_BYTES);
      return FALSE;
    }
  if (tl_bytes_begin (b, 0, "\xff\xd8\xff", 3))
    probe_jpeg (b, head);
  else if (tl_bytes_begin (b, 0, "\x89PNG\r\n\x1a\n", 8))
    probe_png (b, head);
  else if (tl_bytes_begin (b, 0, "II*\0", 4) || tl_bytes_begin (b, 0, "MM\0*", 4))
    probe_tiff (b, head);
  else if (tl_bytes_begin (b, 0, "RIFF", 4) && tl_bytes_begin (b, 8, "WEBP", 4))
    probe_webp (b, head);
  else
    {
      g_set_error_literal (
          error, TL_ERROR, TL_ERROR_PARSE,
          _ ("The file is no JPEG, PNG, TIFF or WebP picture, whatever its name says."));
      return FALSE;
    }
  return check_head (head, error);
}
