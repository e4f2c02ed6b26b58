/* metadata.c: what a camera wrote into a picture file, and taking its position out of a copy.
 *
 * Tags after the Exif standard (JEITA CP-3451). Resolution tags are never read: dots per inch are no scale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/picture-private.h"

#include <glib/gi18n-lib.h>
#include <libexif/exif-data.h>
#include <string.h>

#define MOST_EXIF (1u << 20) /* larger blocks are not looked into */

/* --- reading --- */

/* (transfer full) */
static char *
text_of (ExifData *data, ExifIfd ifd, ExifTag tag)
{
  char             buffer[256] = "";
  ExifEntry       *entry = exif_content_get_entry (data->ifd[ifd], tag);
  g_autofree char *valid = NULL;

  if (entry != NULL && entry->data != NULL)
    exif_entry_get_value (entry, buffer, sizeof buffer);
  valid = g_utf8_make_valid (buffer, -1);
  for (char *p = valid; *p != '\0'; p++)
    if (g_ascii_iscntrl (*p))
      *p = ' ';
  return g_strdup (g_strstrip (valid));
}

/* "2026:03:03 10:12:05" -> "2026-03-03T10:12:05"; "" if it is no time. (transfer full) */
static char *
time_of (const char *exif)
{
  int  year, month, day, hour, minute, second;
  char rest;

  if (sscanf (exif, "%4d:%2d:%2d %2d:%2d:%2d%c", &year, &month, &day, &hour, &minute, &second,
              &rest)
          != 6
      || year < 1826 || month < 1 || month > 12 || day < 1
      || day > g_date_get_days_in_month ((GDateMonth) month, (GDateYear) year) || hour < 0
      || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 60)
    return g_strdup ("");
  return g_strdup_printf ("%04d-%02d-%02dT%02d:%02d:%02d", year, month, day, hour, minute, second);
}

/* "+02:00" or "" */
static char *
zone_of (const char *exif)
{
  if (strlen (exif) == 6 && (exif[0] == '+' || exif[0] == '-') && g_ascii_isdigit (exif[1])
      && g_ascii_isdigit (exif[2]) && exif[3] == ':' && g_ascii_isdigit (exif[4])
      && g_ascii_isdigit (exif[5]))
    return g_strdup (exif);
  return g_strdup ("");
}

static guint
short_of (ExifData *data, ExifIfd ifd, ExifTag tag)
{
  ExifEntry *entry = exif_content_get_entry (data->ifd[ifd], tag);

  if (entry == NULL || entry->format != EXIF_FORMAT_SHORT || entry->size < 2)
    return 0;
  return exif_get_short (entry->data, exif_data_get_byte_order (data));
}

static void
take_over (TlPhoto *self, ExifData *data)
{
  /* The change time of the file (0x0132) is not when the picture was taken. */
  g_autofree char *taken = text_of (data, EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL);
  g_autofree char *zone = text_of (data, EXIF_IFD_EXIF, (ExifTag) 0x9011);
  g_autofree char *make = text_of (data, EXIF_IFD_0, EXIF_TAG_MAKE);
  g_autofree char *model = text_of (data, EXIF_IFD_0, EXIF_TAG_MODEL);
  guint            orientation = short_of (data, EXIF_IFD_0, EXIF_TAG_ORIENTATION);

  g_free (self->taken);
  g_free (self->zone);
  g_free (self->camera);
  self->taken = time_of (taken);
  self->zone = zone_of (zone);
  self->camera =
      g_strdup_printf ("%s%s%s", make, *make != '\0' && *model != '\0' ? " " : "", model);
  self->orientation = orientation >= 1 && orientation <= 8 ? orientation : 1;
  self->focal_mm = short_of (data, EXIF_IFD_EXIF, EXIF_TAG_FOCAL_LENGTH_IN_35MM_FILM);
  self->has_position = data->ifd[EXIF_IFD_GPS]->count > 0;
}

void
tl_photo_read_exif (TlPhoto *self, TlBytes bytes, const TlPhotoHead *head)
{
  gsize     length = MIN (head->exif_length, MOST_EXIF);
  guint8   *block;
  ExifData *data;

  self->orientation = 1;
  if (length < 8)
    return;
  block = g_malloc (length + 6);
  memcpy (block, "Exif\0\0", 6);
  memcpy (block + 6, bytes.data + head->exif_offset, length);
  data = exif_data_new ();
  /* Unknown and odd entries stay as they are: nothing is mended, nothing is added. */
  exif_data_unset_option (data, EXIF_DATA_OPTION_FOLLOW_SPECIFICATION);
  exif_data_load_data (data, block, (unsigned int) (length + 6));
  take_over (self, data);
  exif_data_unref (data);
  g_free (block);
}

/* --- taking the position out --- */

static guint
size_of_type (guint type)
{
  static const guint sizes[] = { 0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8 };

  return type < G_N_ELEMENTS (sizes) ? sizes[type] : 0;
}

static void
blank (guint8 *data, gsize length, gsize offset, gsize count)
{
  if (offset < length)
    memset (data + offset, 0, MIN (count, length - offset));
}

/* Zeroes the entries of the folder at @at with what they point to. */
static void
blank_folder (guint8 *data, gsize length, gsize at, gboolean big)
{
  TlBytes b = { data, length };
  guint   count = tl_bytes_u16 (b, at, big);

  for (guint i = 0; i < count; i++)
    {
      gsize entry = at + 2 + (gsize) i * 12;
      gsize size = (gsize) size_of_type (tl_bytes_u16 (b, entry + 2, big))
                   * tl_bytes_u32 (b, entry + 4, big);

      if (size > 4)
        blank (data, length, tl_bytes_u32 (b, entry + 8, big), size);
      blank (data, length, entry, 12);
    }
  blank (data, length, at, 2);
}

/* A TIFF block: the folder of positions (0x8825) and embedded notes (XMP 700, IPTC 33723, 34377) are zeroed. */
static void
blank_tiff (guint8 *data, gsize length)
{
  TlBytes  b = { data, length };
  gboolean big = length > 0 && data[0] == 'M';
  gsize    at = tl_bytes_u32 (b, 4, big);
  guint    count = tl_bytes_u16 (b, at, big);

  for (guint i = 0; i < count; i++)
    {
      gsize entry = at + 2 + (gsize) i * 12;
      guint tag = tl_bytes_u16 (b, entry, big);
      gsize value = tl_bytes_u32 (b, entry + 8, big);

      if (tag == 0x8825)
        blank_folder (data, length, value, big);
      else if (tag == 700 || tag == 33723 || tag == 34377)
        blank (data, length, value,
               (gsize) size_of_type (tl_bytes_u16 (b, entry + 2, big))
                   * tl_bytes_u32 (b, entry + 4, big));
      else
        continue;
      /* An entry of type byte with one value of zero: readers pass over it. */
      if (entry + 12 <= length)
        {
          memset (data + entry + 2, 0, 10);
          data[entry + (big ? 3 : 2)] = 1;
          data[entry + (big ? 7 : 4)] = 1;
        }
    }
}

static void
copy_jpeg (TlBytes bytes, GByteArray *out)
{
  TlPiece piece = { 0 };
  gsize   done = 2;

  g_byte_array_append (out, bytes.data, 2);
  while (tl_jpeg_next (bytes, &piece))
    {
      gboolean is_exif = piece.marker == 0xe1 && tl_bytes_begin (bytes, piece.body, "Exif\0\0", 6);
      gboolean is_note = (piece.marker >= 0xe1 && piece.marker <= 0xef && piece.marker != 0xee
                          && piece.marker != 0xe2)
                         || piece.marker == 0xfe;

      if (!is_note || is_exif)
        g_byte_array_append (out, bytes.data + piece.offset, (guint) piece.length);
      if (is_exif)
        blank_tiff (out->data + out->len - piece.body_length + 6, piece.body_length - 6);
      done = piece.offset + piece.length;
    }
  g_byte_array_append (out, bytes.data + done, (guint) (bytes.length - done));
}

static void
copy_png (TlBytes bytes, GByteArray *out)
{
  static const char *const notes[] = { "eXIf", "tEXt", "zTXt", "iTXt", "tIME", NULL };
  TlPiece                  piece = { 0 };

  g_byte_array_append (out, bytes.data, 8);
  while (tl_png_next (bytes, &piece))
    if (!g_strv_contains (notes, piece.name))
      g_byte_array_append (out, bytes.data + piece.offset, (guint) piece.length);
}

static void
copy_webp (TlBytes bytes, GByteArray *out)
{
  TlPiece piece = { 0 };

  g_byte_array_append (out, bytes.data, 12);
  while (tl_webp_next (bytes, &piece))
    {
      if (strcmp (piece.name, "EXIF") == 0 || strcmp (piece.name, "XMP ") == 0)
        continue;
      g_byte_array_append (out, bytes.data + piece.offset, (guint) piece.length);
      /* The flags for EXIF and XMP go with them. */
      if (strcmp (piece.name, "VP8X") == 0)
        out->data[out->len - piece.length + 8] &= (guint8) ~0x0c;
    }
  for (guint i = 0; i < 4; i++)
    out->data[4 + i] = (guint8) ((out->len - 8) >> (8 * i));
}

GBytes *
tl_photo_without_position (GBytes *bytes, GError **error)
{
  GByteArray *out = g_byte_array_new ();
  TlPhotoHead head;
  TlBytes     b;

  g_return_val_if_fail (bytes != NULL, NULL);

  b.data = g_bytes_get_data (bytes, &b.length);
  if (!tl_photo_probe (bytes, &head, error))
    {
      g_byte_array_unref (out);
      return NULL;
    }
  switch (head.kind)
    {
    case TL_PHOTO_JPEG:
      copy_jpeg (b, out);
      break;
    case TL_PHOTO_PNG:
      copy_png (b, out);
      break;
    case TL_PHOTO_WEBP:
      copy_webp (b, out);
      break;
    case TL_PHOTO_TIFF:
      g_byte_array_append (out, b.data, (guint) b.length);
      blank_tiff (out->data, out->len);
      break;
    case TL_N_PHOTO_KINDS:
    default:
      g_assert_not_reached ();
    }
  return g_byte_array_free_to_bytes (out);
}
