/* picture.h: one picture of a real joint: its original bytes, what they say of themselves, and its pixels.
 *
 * The original is kept byte for byte and never drawn on; its SHA-256 shows that it is unchanged since import, not that
 * the scene was honest nor when it was taken. What EXIF says is a claim. Points are those of the upright picture.
 * The type is called photo, since draw/picture.h calls a drawing as a file a picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/form.h"
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

G_BEGIN_DECLS

#define TL_PHOTO_MAX_BYTES (128u * 1024u * 1024u)      /* of one original */
#define TL_PHOTO_MAX_PIXELS (512ull * 1024u * 1024u)   /* bytes of its pixels, four a pixel */
#define TL_PHOTO_MAX_EDGE 65000u                       /* pixels */

typedef enum
{
  TL_PHOTO_JPEG,
  TL_PHOTO_PNG,
  TL_PHOTO_TIFF,
  TL_PHOTO_WEBP,
  TL_N_PHOTO_KINDS
} TlPhotoKind;

/* What the head of a file says, read without decoding. */
typedef struct
{
  TlPhotoKind kind;
  guint       width, height;    /* as stored */
  guint       bits;             /* a sample: 8, 16 */
  guint       channels;         /* 4 in a JPEG: inks */
  gboolean    is_animated;
  gboolean    is_complete;      /* the end of the file is there */
  gsize       exif_offset, exif_length; /* of the TIFF block inside; 0 if none */
} TlPhotoHead;

typedef struct
{
  TlRecord    record;
  char       *id;          /* "picture-1" */
  char       *name;        /* of the file it came from, without folder */
  char       *sha256;      /* of the original, 64 hex digits */
  TlPhotoKind kind;        /* by content; the ending of the name is not trusted */
  double      bytes;
  guint       width, height; /* as stored */
  guint       orientation; /* 1 to 8 */
  char       *taken;       /* "2026-03-03T10:12:05" by the camera's clock, or "" */
  char       *zone;        /* "+01:00", or "" where the camera did not say */
  char       *camera;      /* maker and model, or "" */
  double      focal_mm;    /* in terms of 35 mm film; 0 if unknown */
  gboolean    has_position;
  char       *imported;    /* when, with zone */
  char       *importer;    /* who */
  gboolean    has_clock;   /* the offset was found */
  double      clock_s;     /* to be added to the camera's clock, s */
  gboolean    is_rendered; /* drawn by a program, no photograph */
  char       *caption;
  char       *view;        /* pictures of one view, earlier and later, have one word here */
} TlPhoto;

extern const TlForm tl_photo_form;

/**
 * tl_photo_probe:
 * Kind and size from the head alone: nothing is decoded, so that a size that lies costs nothing.
 * Refuses what is no JPEG, PNG, TIFF or WebP, what has no size, and moving pictures.
 * Returns: %FALSE with %TL_ERROR_PARSE or %TL_ERROR_LIMIT
 */
gboolean tl_photo_probe (GBytes *bytes, TlPhotoHead *head, GError **error);

/**
 * tl_photo_new:
 * @name: path or name of the file; only its last part is kept
 * @importer: who
 * @imported: when, "2026-03-03T10:30:00+01:00"
 *
 * The pixels may be more than this program decodes; the picture can be kept all the same.
 * Returns: (transfer full) (nullable): a picture without id, still writable
 */
TlPhoto *tl_photo_new (GBytes *bytes, const char *name, const char *importer, const char *imported, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Reads at most the cap, then tl_photo_new(). @bytes: (out) (transfer full) */
TlPhoto *tl_photo_load (const char *path, const char *importer, const char *imported, GBytes **bytes, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Width and height upright. */
void     tl_photo_size (const TlPhoto *self, guint *width, guint *height);
/* A stored pixel in the upright picture, by formula image-orientation. */
gboolean tl_photo_upright (const TlPhoto *self, double x, double y, TlPixel *upright, GError **error);
/* %TRUE if all pixels fit the limit. */
gboolean tl_photo_fits (const TlPhoto *self);

/**
 * tl_photo_decode:
 * @most_edge: longest edge wanted, pixels; 0 for the full size
 * @cancellable: (nullable)
 *
 * Pixels, upright. Beyond 512 MB of pixels the full size is refused; a JPEG can then still be had reduced. May run
 * in any thread.
 * Returns: (transfer full) (nullable): with %TL_ERROR_LIMIT, %TL_ERROR_PARSE, or a cancel
 */
GdkPixbuf *tl_photo_decode (const TlPhoto *self, GBytes *bytes, guint most_edge, GCancellable *cancellable, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The original without position, editing history and other embedded notes; its pixels are untouched. (transfer full) */
GBytes  *tl_photo_without_position (GBytes *bytes, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* SHA-256 in hex; (transfer full) */
char    *tl_photo_hash (GBytes *bytes) G_GNUC_WARN_UNUSED_RESULT;
/* Name inside a document: "pictures/HASH.jpg"; (transfer full) */
char    *tl_photo_member (const TlPhoto *self) G_GNUC_WARN_UNUSED_RESULT;
/* "jpg", "png", "tif", "webp" */
const char *tl_photo_ending (TlPhotoKind kind);
/* msgid: "JPEG" */
const char *tl_photo_kind_label (TlPhotoKind kind);

/* --- the originals of a document, by hash; only added to, shared by all versions of a joint --- */
typedef struct _TlOriginals TlOriginals;

TlOriginals *tl_originals_new (void) G_GNUC_WARN_UNUSED_RESULT;
TlOriginals *tl_originals_ref (TlOriginals *self);
void         tl_originals_unref (TlOriginals *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlOriginals, tl_originals_unref)
/* @hash: the name under which they are asked for: that of the record, which need not be theirs any more. */
void         tl_originals_put (TlOriginals *self, const char *hash, GBytes *bytes);
/* (transfer full) (nullable) */
GBytes      *tl_originals_get (TlOriginals *self, const char *hash);

G_END_DECLS
