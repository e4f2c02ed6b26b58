/* picture.c: the record of a picture, its pixels, and the originals of a document.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/picture-private.h"

#include "base/file.h"
#include "physics/formula.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define FEED_STEP 65536u

static const char *const kind_words[] = { "jpeg", "png", "tiff", "webp", NULL };

#define TEXT(name, field)                                                                          \
  {                                                                                                \
    name, TL_SLOT_TEXT, G_STRUCT_OFFSET (TlPhoto, field), 0, 0, NULL, FALSE                        \
  }

static const TlSlot slots[] = {
  { "id", TL_SLOT_TEXT, G_STRUCT_OFFSET (TlPhoto, id), 0, 0, NULL, TRUE },
  TEXT ("name", name),
  { "sha256", TL_SLOT_TEXT, G_STRUCT_OFFSET (TlPhoto, sha256), 0, 0, NULL, TRUE },
  { "kind", TL_SLOT_WORD, G_STRUCT_OFFSET (TlPhoto, kind), 0, 0, kind_words, TRUE },
  { "bytes", TL_SLOT_NUMBER, G_STRUCT_OFFSET (TlPhoto, bytes), 0, TL_PHOTO_MAX_BYTES, NULL, TRUE },
  { "width", TL_SLOT_COUNT, G_STRUCT_OFFSET (TlPhoto, width), 1, TL_PHOTO_MAX_EDGE, NULL, TRUE },
  { "height", TL_SLOT_COUNT, G_STRUCT_OFFSET (TlPhoto, height), 1, TL_PHOTO_MAX_EDGE, NULL, TRUE },
  { "orientation", TL_SLOT_COUNT, G_STRUCT_OFFSET (TlPhoto, orientation), 1, 8, NULL, TRUE },
  TEXT ("taken", taken),
  TEXT ("zone", zone),
  TEXT ("camera", camera),
  { "focal-35mm", TL_SLOT_NUMBER, G_STRUCT_OFFSET (TlPhoto, focal_mm), 0, 65535, NULL, FALSE },
  { "position", TL_SLOT_FLAG, G_STRUCT_OFFSET (TlPhoto, has_position), 0, 0, NULL, FALSE },
  TEXT ("imported", imported),
  TEXT ("importer", importer),
  { "clock-known", TL_SLOT_FLAG, G_STRUCT_OFFSET (TlPhoto, has_clock), 0, 0, NULL, FALSE },
  { "clock-offset-s", TL_SLOT_NUMBER, G_STRUCT_OFFSET (TlPhoto, clock_s), -1e9, 1e9, NULL, FALSE },
  { "rendered", TL_SLOT_FLAG, G_STRUCT_OFFSET (TlPhoto, is_rendered), 0, 0, NULL, FALSE },
  TEXT ("caption", caption),
  TEXT ("view", view),
  { NULL },
};

const TlForm tl_photo_form = { "picture", sizeof (TlPhoto), slots };

const char *
tl_photo_ending (TlPhotoKind kind)
{
  static const char *const endings[] = { "jpg", "png", "tif", "webp" };

  g_return_val_if_fail ((guint) kind < TL_N_PHOTO_KINDS, "");
  return endings[kind];
}

const char *
tl_photo_kind_label (TlPhotoKind kind)
{
  static const char *const labels[] = { "JPEG", "PNG", "TIFF", "WebP" };

  g_return_val_if_fail ((guint) kind < TL_N_PHOTO_KINDS, "");
  return labels[kind];
}

char *
tl_photo_hash (GBytes *bytes)
{
  return g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
}

char *
tl_photo_member (const TlPhoto *self)
{
  return g_strdup_printf ("pictures/%s.%s", self->sha256, tl_photo_ending (self->kind));
}

TlPhoto *
tl_photo_new (GBytes *bytes, const char *name, const char *importer, const char *imported,
              GError **error)
{
  TlPhoto         *self;
  TlPhotoHead      head;
  TlBytes          b;
  g_autofree char *last = NULL, *shown = NULL;

  g_return_val_if_fail (bytes != NULL && name != NULL, NULL);

  if (!tl_photo_probe (bytes, &head, error))
    return NULL;
  self = tl_record_new (&tl_photo_form);
  last = g_path_get_basename (name);
  shown = g_filename_display_name (last);
  b.data = g_bytes_get_data (bytes, &b.length);
  g_free (self->sha256);
  self->sha256 = tl_photo_hash (bytes);
  tl_record_text (&self->name, shown);
  tl_record_text (&self->importer, importer);
  tl_record_text (&self->imported, imported);
  self->kind = head.kind;
  self->bytes = (double) b.length;
  self->width = head.width;
  self->height = head.height;
  tl_photo_read_exif (self, b, &head);
  if (tl_record_check (self, error))
    return self;
  tl_record_unref (self);
  return NULL;
}

TlPhoto *
tl_photo_load (const char *path, const char *importer, const char *imported, GBytes **bytes,
               GError **error)
{
  g_autoptr (GBytes) read = NULL;
  g_autoptr (GError) cause = NULL;
  g_autofree char *shown = g_filename_display_name (path);
  TlPhoto         *self;
  char            *data;
  gsize            length;

  if (!tl_file_load (path, TL_PHOTO_MAX_BYTES, &data, &length, error))
    return NULL;
  read = g_bytes_new_take (data, length);
  self = tl_photo_new (read, path, importer, imported, &cause);
  if (self == NULL)
    {
      g_propagate_prefixed_error (error, g_steal_pointer (&cause), "%s: ", shown);
      return NULL;
    }
  *bytes = g_steal_pointer (&read);
  return self;
}

void
tl_photo_size (const TlPhoto *self, guint *width, guint *height)
{
  gboolean is_turned = self->orientation >= 5;

  *width = is_turned ? self->height : self->width;
  *height = is_turned ? self->width : self->height;
}

gboolean
tl_photo_upright (const TlPhoto *self, double x, double y, TlPixel *upright, GError **error)
{
  TlCall call;

  tl_call_init (&call, "image-orientation");
  tl_call_set_exact (&call, "code", self->orientation);
  tl_call_set_exact (&call, "width", self->width);
  tl_call_set_exact (&call, "height", self->height);
  tl_call_set_exact (&call, "x", x);
  tl_call_set_exact (&call, "y", y);
  if (!tl_call_run (&call, error))
    return FALSE;
  upright->x_px = tl_call_get (&call, "upright_x").best;
  upright->y_px = tl_call_get (&call, "upright_y").best;
  return TRUE;
}

gboolean
tl_photo_fits (const TlPhoto *self)
{
  return (guint64) self->width * self->height * 4u <= TL_PHOTO_MAX_PIXELS;
}

/* --- pixels --- */

typedef struct
{
  const TlPhoto *photo;
  guint          most_edge;
  gboolean       is_lying; /* the pixels have another size than the head said */
} Decoding;

static void
on_size (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  Decoding *decoding = data;
  guint     longest = (guint) MAX (width, height);

  decoding->is_lying =
      (guint) width != decoding->photo->width || (guint) height != decoding->photo->height;
  if (decoding->is_lying)
    gdk_pixbuf_loader_set_size (loader, 0, 0);
  else if (decoding->most_edge > 0 && longest > decoding->most_edge)
    gdk_pixbuf_loader_set_size (loader,
                                MAX (1, (int) ((gint64) width * decoding->most_edge / longest)),
                                MAX (1, (int) ((gint64) height * decoding->most_edge / longest)));
}

/* Turns and mirrors as the orientation says; takes @pixbuf. */
static GdkPixbuf *
to_upright (GdkPixbuf *pixbuf, guint orientation)
{
  /* By orientation less one: mirrored left to right first, then turned. */
  static const struct
  {
    gboolean          is_mirrored;
    GdkPixbufRotation turn;
  } ways[] = {
    { FALSE, GDK_PIXBUF_ROTATE_NONE },
    { TRUE, GDK_PIXBUF_ROTATE_NONE },
    { FALSE, GDK_PIXBUF_ROTATE_UPSIDEDOWN },
    { TRUE, GDK_PIXBUF_ROTATE_UPSIDEDOWN },
    { TRUE, GDK_PIXBUF_ROTATE_COUNTERCLOCKWISE },
    { FALSE, GDK_PIXBUF_ROTATE_CLOCKWISE },
    { TRUE, GDK_PIXBUF_ROTATE_CLOCKWISE },
    { FALSE, GDK_PIXBUF_ROTATE_COUNTERCLOCKWISE },
  };
  GdkPixbuf *next;

  if (ways[orientation - 1].is_mirrored)
    {
      next = gdk_pixbuf_flip (pixbuf, TRUE);
      g_object_unref (pixbuf);
      pixbuf = next;
    }
  if (pixbuf != NULL && ways[orientation - 1].turn != GDK_PIXBUF_ROTATE_NONE)
    {
      next = gdk_pixbuf_rotate_simple (pixbuf, ways[orientation - 1].turn);
      g_object_unref (pixbuf);
      pixbuf = next;
    }
  return pixbuf;
}

/* Only the loader of the kind that the content has: no other may look at the bytes. */
static GdkPixbufLoader *
loader_for (TlPhotoKind kind, GError **error)
{
  static const char *const types[] = { "image/jpeg", "image/png", "image/tiff", "image/webp" };
  GdkPixbufLoader         *loader = gdk_pixbuf_loader_new_with_mime_type (types[kind], NULL);

  if (loader == NULL)
    g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                 _ ("This computer has no decoder for %s pictures; give the picture as JPEG or "
                    "PNG. The original can be kept all the same."),
                 tl_photo_kind_label (kind));
  return loader;
}

static gboolean
check_pixels (const TlPhoto *self, guint most_edge, GError **error)
{
  if (tl_photo_fits (self) || (self->kind == TL_PHOTO_JPEG && most_edge > 0 && most_edge <= 8192))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
               _ ("The picture has %u × %u pixels, which is more than 512 MB when decoded; open a "
                  "reduced copy of at most 8192 pixels an edge instead."),
               self->width, self->height);
  return FALSE;
}

static gboolean
feed (GdkPixbufLoader *loader, GBytes *bytes, Decoding *decoding, GCancellable *cancellable,
      GError **error)
{
  gsize         length;
  const guchar *data = g_bytes_get_data (bytes, &length);

  for (gsize at = 0; at < length && !decoding->is_lying; at += FEED_STEP)
    if (g_cancellable_set_error_if_cancelled (cancellable, error)
        || !gdk_pixbuf_loader_write (loader, data + at, MIN (FEED_STEP, length - at), error))
      return FALSE;
  return TRUE;
}

static GdkPixbuf *
fail_decode (GError **error, const GError *cause, gboolean is_lying)
{
  if (is_lying)
    g_set_error_literal (error, TL_ERROR, TL_ERROR_PARSE,
                         _ ("The pixels have another size than the head of the picture says; the "
                            "file is damaged."));
  else
    g_set_error (error, TL_ERROR, TL_ERROR_PARSE, _ ("The picture cannot be decoded: %s"),
                 cause != NULL ? cause->message : _ ("it has no pixels."));
  return NULL;
}

GdkPixbuf *
tl_photo_decode (const TlPhoto *self, GBytes *bytes, guint most_edge, GCancellable *cancellable,
                 GError **error)
{
  g_autoptr (GdkPixbufLoader) loader = NULL;
  g_autoptr (GError) cause = NULL, close_cause = NULL;
  Decoding    decoding = { self, most_edge, FALSE };
  GdkPixbuf  *pixbuf = NULL;
  TlPhotoHead head;
  gboolean    is_fed, is_closed;

  g_return_val_if_fail (self != NULL && bytes != NULL, NULL);

  if (!check_pixels (self, most_edge, error) || !tl_photo_probe (bytes, &head, error))
    return NULL;
  if (!head.is_complete || head.kind != self->kind)
    {
      g_set_error_literal (
          error, TL_ERROR, TL_ERROR_PARSE,
          _ ("The picture is cut: its end is missing. Import it again from the camera."));
      return NULL;
    }
  loader = loader_for (self->kind, error);
  if (loader == NULL)
    return NULL;
  g_signal_connect (loader, "size-prepared", G_CALLBACK (on_size), &decoding);
  is_fed = feed (loader, bytes, &decoding, cancellable, &cause);
  is_closed = gdk_pixbuf_loader_close (loader, is_fed ? &close_cause : NULL);
  if (g_error_matches (cause, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_propagate_error (error, g_steal_pointer (&cause));
      return NULL;
    }
  if (is_fed && is_closed && !decoding.is_lying)
    pixbuf = gdk_pixbuf_loader_get_pixbuf (loader);
  if (pixbuf == NULL)
    return fail_decode (error, cause != NULL ? cause : close_cause, decoding.is_lying);
  return to_upright (g_object_ref (pixbuf), self->orientation);
}

/* --- originals --- */

struct _TlOriginals
{
  gatomicrefcount ref_count;
  GMutex          lock; /* the window adds while a thread saves */
  GHashTable     *by_hash;
};

TlOriginals *
tl_originals_new (void)
{
  TlOriginals *self = g_new0 (TlOriginals, 1);

  g_atomic_ref_count_init (&self->ref_count);
  g_mutex_init (&self->lock);
  self->by_hash =
      g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_bytes_unref);
  return self;
}

TlOriginals *
tl_originals_ref (TlOriginals *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
tl_originals_unref (TlOriginals *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_hash_table_unref (self->by_hash);
  g_mutex_clear (&self->lock);
  g_free (self);
}

void
tl_originals_put (TlOriginals *self, const char *hash, GBytes *bytes)
{
  g_mutex_lock (&self->lock);
  if (!g_hash_table_contains (self->by_hash, hash))
    g_hash_table_insert (self->by_hash, g_strdup (hash), g_bytes_ref (bytes));
  g_mutex_unlock (&self->lock);
}

GBytes *
tl_originals_get (TlOriginals *self, const char *hash)
{
  GBytes *bytes;

  g_mutex_lock (&self->lock);
  bytes = g_hash_table_lookup (self->by_hash, hash);
  if (bytes != NULL)
    g_bytes_ref (bytes);
  g_mutex_unlock (&self->lock);
  return bytes;
}
