/* files.c: picture files made for tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "files.h"

#include <string.h>

#define QUARTER 3 /* of an edge is coloured at the corners */

static GdkPixbuf *
pixels (guint width, guint height)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, (int) width, (int) height);
  int        w = (int) width / QUARTER, h = (int) height / QUARTER;

  gdk_pixbuf_fill (pixbuf, 0x808080ff);
  for (guint i = 0; i < 3; i++)
    {
      static const guint32 colours[] = { 0xff0000ff, 0x00ff00ff, 0x0000ffff };
      GdkPixbuf           *part = gdk_pixbuf_new_subpixbuf (pixbuf, i == 1 ? (int) width - w : 0,
                                                  i == 2 ? (int) height - h : 0, w, h);

      gdk_pixbuf_fill (part, colours[i]);
      g_object_unref (part);
    }
  return pixbuf;
}

GBytes *
tf_picture (guint width, guint height, const char *kind)
{
  g_autoptr (GdkPixbuf) pixbuf = pixels (width, height);
  g_autoptr (GError) error = NULL;
  char *data;
  gsize length;

  if (!gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, kind, &error, NULL))
    g_error ("%s", error->message);
  return g_bytes_new_take (data, length);
}

/* --- EXIF by hand: big-endian --- */

static void
put16 (GByteArray *out, guint value)
{
  guint8 bytes[] = { (guint8) (value >> 8), (guint8) value };

  g_byte_array_append (out, bytes, 2);
}

static void
put32 (GByteArray *out, guint value)
{
  put16 (out, value >> 16);
  put16 (out, value & 0xffff);
}

static void
entry (GByteArray *out, guint tag, guint type, guint count, guint value)
{
  put16 (out, tag);
  put16 (out, type);
  put32 (out, count);
  if (type == 3)
    {
      put16 (out, value);
      put16 (out, 0);
    }
  else
    put32 (out, value);
}

/* Layout: head 8, IFD0 at 8 with five entries (66 bytes), Exif IFD at 74 with three (42), GPS IFD at 116 with two (30), texts
 * from 146. */
static GByteArray *
tiff_block (guint orientation, gboolean position)
{
  GByteArray *out = g_byte_array_new ();

  g_byte_array_append (out, (const guint8 *) "MM\0*", 4);
  put32 (out, 8);
  put16 (out, 5);
  entry (out, 0x010f, 2, 8, 146); /* maker */
  entry (out, 0x0110, 2, 8, 154); /* model */
  entry (out, 0x0112, 3, 1, orientation);
  entry (out, 0x8769, 4, 1, 74);
  entry (out, position ? 0x8825 : 0x0131, position ? 4 : 2, 1, position ? 116 : 0);
  put32 (out, 0);
  put16 (out, 3);
  entry (out, 0x9003, 2, 20, 162); /* taken */
  entry (out, 0x9011, 2, 7, 182);  /* zone */
  entry (out, 0xa405, 3, 1, 26);   /* focal length as of 35 mm film */
  put32 (out, 0);
  put16 (out, 2);
  entry (out, 0x0001, 2, 2, 0x4e000000); /* "N" */
  entry (out, 0x0002, 5, 3, 190);
  put32 (out, 0);
  g_byte_array_append (out, (const guint8 *) "Fennick\0", 8);
  g_byte_array_append (out, (const guint8 *) "Box 1\0\0\0", 8);
  g_byte_array_append (out, (const guint8 *) "2026:03:03 10:12:05\0", 20);
  g_byte_array_append (out, (const guint8 *) "+01:00\0\0", 8);
  for (guint i = 0; i < 3; i++)
    {
      put32 (out, 51 + i);
      put32 (out, 1);
    }
  return out;
}

GBytes *
tf_exif_jpeg (guint width, guint height, guint orientation, gboolean position)
{
  g_autoptr (GBytes) plain = tf_picture (width, height, "jpeg");
  GByteArray   *block = tiff_block (orientation, position), *out = g_byte_array_new ();
  gsize         length;
  const guint8 *data = g_bytes_get_data (plain, &length);

  g_byte_array_append (out, data, 2);
  put16 (out, 0xffe1);
  put16 (out, block->len + 8);
  g_byte_array_append (out, (const guint8 *) "Exif\0\0", 6);
  g_byte_array_append (out, block->data, block->len);
  g_byte_array_append (out, data + 2, (guint) length - 2);
  g_byte_array_unref (block);
  return g_byte_array_free_to_bytes (out);
}

GBytes *
tf_patched (GBytes *bytes, gsize offset, const char *with, gsize length)
{
  gsize   size;
  guint8 *copy = g_memdup2 (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));

  size = g_bytes_get_size (bytes);
  g_assert_cmpuint (offset + length, <=, size);
  memcpy (copy + offset, with, length);
  return g_bytes_new_take (copy, size);
}

char
tf_colour (GdkPixbuf *pixbuf, int x, int y)
{
  const guint8 *p = gdk_pixbuf_read_pixels (pixbuf) + y * gdk_pixbuf_get_rowstride (pixbuf)
                    + x * gdk_pixbuf_get_n_channels (pixbuf);

  if (p[0] > 200 && p[1] < 90)
    return 'r';
  if (p[1] > 200 && p[0] < 90)
    return 'g';
  return p[2] > 200 && p[0] < 90 ? 'b' : '-';
}
