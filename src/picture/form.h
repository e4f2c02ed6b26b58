/* form.h: records that are described once: made, copied, compared, read and written from one table of their slots.
 *
 * Pictures, scales, measures, marks, readings, found values and custody entries are such records. A record is
 * reference counted, and immutable once it stands in an inspection; a change is made on a copy. What a newer minor
 * version wrote into its element and this one does not know is kept and written back.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"
#include "base/xml.h"

G_BEGIN_DECLS

/* A point in the upright picture, in pixels of the full resolution; the middle of the first pixel is 0, 0. */
typedef struct
{
  double x_px;
  double y_px;
} TlPixel;

typedef enum
{
  TL_SLOT_TEXT,    /* char *, never %NULL in a record; at most 4,000 letters */
  TL_SLOT_NUMBER,  /* double, from @low to @high */
  TL_SLOT_COUNT,   /* guint, from @low to @high */
  TL_SLOT_FLAG,    /* gboolean: yes | no */
  TL_SLOT_WORD,    /* int: index in @words */
  TL_SLOT_POINTS,  /* GArray of TlPixel, at most 5,000 */
  TL_SLOT_NUMBERS, /* GArray of double, from @low to @high, at most 200 */
} TlSlotKind;

typedef struct
{
  const char        *name; /* attribute in the file */
  TlSlotKind         kind;
  gsize              offset;
  double             low, high;
  const char *const *words;    /* (array zero-terminated=1) */
  gboolean           required; /* the file must give it */
} TlSlot;

typedef struct
{
  const char   *element;
  gsize         size;
  const TlSlot *slots; /* ended by a slot without name */
  GDestroyNotify more; /* (nullable): clears what the record holds beside its slots */
} TlForm;

/* What every record begins with. */
typedef struct
{
  const TlForm *form;
  TlXmlNode    *kept; /* (nullable): what only a newer version knows */
} TlRecord;

/* All texts "", all numbers 0, all lists empty. (transfer full) */
gpointer tl_record_new (const TlForm *form) G_GNUC_WARN_UNUSED_RESULT;
gpointer tl_record_ref (gconstpointer record);
void     tl_record_unref (gpointer record);
/* A copy of its own, to be changed before it is handed out. (transfer full) */
gpointer tl_record_copy (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;
gboolean tl_record_equal (gconstpointer a, gconstpointer b);
/* Replaces a text slot of a record that is still writable; %NULL is "". */
void     tl_record_text (char **slot, const char *text);

/* Message "line N: what is wrong; what would be right". (transfer full) (nullable) */
gpointer   tl_record_read (const TlForm *form, const TlXmlNode *node, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Ranges and texts as the reader would check them. */
gboolean   tl_record_check (gconstpointer record, GError **error);
TlXmlNode *tl_record_write (gconstpointer record, const char *ns) G_GNUC_WARN_UNUSED_RESULT;

/* --- nodes --- */
TlXmlNode *tl_node_new (const char *name, const char *ns) G_GNUC_WARN_UNUSED_RESULT;
/* Nothing for %NULL and "". */
void       tl_node_set (TlXmlNode *node, const char *name, const char *value);
/* Takes @child. */
void       tl_node_add (TlXmlNode *node, TlXmlNode *child);
/* The bytes that stand for @node wherever its fingerprint is taken; (transfer full) */
char      *tl_node_canonical (const TlXmlNode *node, gsize *length) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
