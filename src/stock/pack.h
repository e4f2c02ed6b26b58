/* pack.h: a person's own stock: parts, materials, sources, prices, minutes, what is in the van.
 *
 * A pack is a file in the vocabulary of data/stock under a root <pack>. Any number of them are laid over the
 * system's stock in order, and none can change what stands already: an id of the system or of an earlier pack is a
 * conflict that is told with file and line, and the earlier row stays. Packs hold no tables and no limits.
 * A pack is an immutable, reference-counted value; an edit is a function from pack to pack.
 * Not here: adding up prices and minutes over a joint (plan).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/range.h"
#include "stock/stock.h"

G_BEGIN_DECLS

#define TL_PACK_FORMAT 1

/* Messages that one pack gives at most; the last one then says how many more there are. */
#define TL_PACK_MAX_PROBLEMS 100

typedef struct _TlPack TlPack;

/* What quantity and price of a mark are counted in. */
typedef enum
{
  TL_PER_PIECE,
  TL_PER_METRE,
  TL_PER_GRAM,
  TL_N_PERS
} TlPer;

/* What a person notes about a part, be it the system's or from a pack. */
typedef struct
{
  char    *part; /* id of the part */
  gboolean in_van;
  gboolean has_quantity;
  double   quantity; /* pieces, m or g by @per; 0 .. 1e6 */
  gboolean has_price;
  double   price; /* for one piece, m or g, in the currency of the pack; 0 .. 1e6 */
  TlPer    per;
  char    *note; /* (nullable) */
} TlPackMark;

/* How long one kind of step takes this person. */
typedef struct
{
  char   *step;        /* id of a kind of step, as in plan/steps.h: "press" */
  TlRange minutes_min; /* 0 .. 1440 */
} TlPackMinutes;

typedef enum
{
  TL_PACK_UNREADABLE, /* the whole file: nothing of it is in the stock */
  TL_PACK_REFUSED,    /* one element: left out of the stock, kept in the file */
  TL_PACK_CONFLICT,   /* its id stands already: the earlier row stays */
  TL_PACK_MISSING,    /* it names a part, material or source that is nowhere: left out of the stock */
} TlPackTrouble;

typedef struct
{
  TlPackTrouble trouble;
  char         *file;
  guint         line;    /* 0: the file as a whole, or a row made by an edit */
  char         *id;      /* (nullable): of the row */
  char         *message; /* "FILE:LINE: what; what would be right" */
} TlPackProblem;

/* @name: as a person reads it, not empty; (nullable): "Own parts" */
TlPack *tl_pack_new (const char *name) G_GNUC_WARN_UNUSED_RESULT;
TlPack *tl_pack_ref (const TlPack *self);
void    tl_pack_unref (TlPack *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPack, tl_pack_unref)

/* --- file --- */

/**
 * tl_pack_parse:
 * @file: name for messages
 *
 * An element that cannot be read is left out, told in tl_pack_problems(), and kept for tl_pack_to_text(), so that
 * saving loses nothing.
 * Returns: (transfer full) (nullable): %NULL with "FILE:LINE: what; what would be right" if it is no pack at all
 */
TlPack *tl_pack_parse (const char *data, gsize length, const char *file, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlPack *tl_pack_load (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Same pack, same bytes; (transfer full) */
char    *tl_pack_to_text (const TlPack *self, gsize *length) G_GNUC_WARN_UNUSED_RESULT;
/* Leaves the old file or the new one, whole. %TL_ERROR_LIMIT if it would be too large to be read again. */
gboolean tl_pack_save (const TlPack *self, const char *path, GError **error);

/* --- what it holds: (transfer none) --- */
const char          *tl_pack_name (const TlPack *self);
const char          *tl_pack_currency (const TlPack *self); /* "EUR", or "" */
const char          *tl_pack_file (const TlPack *self);     /* it was read from, or "" */
const TlPart        *tl_pack_part (const TlPack *self, const char *id);
const TlMaterial    *tl_pack_material (const TlPack *self, const char *id);
const TlPackMark    *tl_pack_mark (const TlPack *self, const char *part);
const TlPackMinutes *tl_pack_minutes (const TlPack *self, const char *step);
/* In file order: (array) (element-type TlPart), ...; (transfer container) */
GPtrArray           *tl_pack_parts (const TlPack *self) G_GNUC_WARN_UNUSED_RESULT;
GPtrArray           *tl_pack_materials (const TlPack *self) G_GNUC_WARN_UNUSED_RESULT;
GPtrArray           *tl_pack_marks (const TlPack *self) G_GNUC_WARN_UNUSED_RESULT;
GPtrArray           *tl_pack_all_minutes (const TlPack *self) G_GNUC_WARN_UNUSED_RESULT;
/* What could not be read: (element-type TlPackProblem) */
const GPtrArray     *tl_pack_problems (const TlPack *self);
/* %TRUE if both would write the same file. */
gboolean             tl_pack_equal (const TlPack *a, const TlPack *b);

/* --- edits: each returns a new pack (transfer full) or %NULL with @error; the old one is untouched --- */

/* @part is copied; its facts, sizes and id are checked as in a file. %TL_ERROR_STATE if its id is there already. */
TlPack *tl_pack_add_part (const TlPack *self, const TlPart *part, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Puts @part in the place of the part @id; another id of its own renames it, and its mark with it. */
TlPack *tl_pack_change_part (const TlPack *self, const char *id, const TlPart *part, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Takes the part out, and its mark. */
TlPack *tl_pack_remove_part (const TlPack *self, const char *id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Adds or replaces. */
TlPack *tl_pack_set_material (const TlPack *self, const TlMaterial *material, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* %TL_ERROR_STATE while a part of the pack is made of it. */
TlPack *tl_pack_remove_material (const TlPack *self, const char *id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Adds or replaces the mark of a part of any stock; one that says nothing takes it away. */
TlPack *tl_pack_set_mark (const TlPack *self, const TlPackMark *mark, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* @minutes_min: (nullable): %NULL takes it away */
TlPack *tl_pack_set_minutes (const TlPack *self, const char *step, const TlRange *minutes_min, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* @what: "name" or "currency" */
TlPack *tl_pack_set_text (const TlPack *self, const char *what, const char *value, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Drops what could not be read and was kept. */
TlPack *tl_pack_without_refused (const TlPack *self) G_GNUC_WARN_UNUSED_RESULT;

/* A new id for a part of @kind that neither @self nor @stock has: "own-plain-washer-1". (transfer full) */
char *tl_pack_free_id (const TlPack *self, const TlStock *stock, TlPartKind kind) G_GNUC_WARN_UNUSED_RESULT;

/* --- import and export --- */

/* A pack of these parts with their marks and what they are made of, as far as it comes from @self.
 * @ids: (array zero-terminated=1) */
TlPack *tl_pack_extract (const TlPack *self, const char *const *ids, const char *name, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* @self with the rows of @other that it has not. A row that stands in both and differs is a conflict: that of @self
 * stays. @problems: (nullable) (element-type TlPackProblem): conflicts are added */
TlPack *tl_pack_import (const TlPack *self, const TlPack *other, GPtrArray *problems) G_GNUC_WARN_UNUSED_RESULT;

/* --- laying over the stock --- */

/* An empty list for problems. (transfer full) */
GPtrArray *tl_pack_problems_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_stock_with_packs:
 * @packs: (element-type TlPack): in order
 * @problems: (nullable) (element-type TlPackProblem): conflicts and missing rows are added
 *
 * Never fails: what cannot stand is left out and told. Tables and limits are those of @self.
 * Returns: (transfer full): a stock in which the rows of the packs stand behind those of @self
 */
TlStock *tl_stock_with_packs (const TlStock *self, const GPtrArray *packs, GPtrArray *problems) G_GNUC_WARN_UNUSED_RESULT;

/* Reads the files in order and lays them over; one that cannot be read is told and left out.
 * @paths: (array zero-terminated=1)
 * @packs: (out) (optional) (transfer full): (element-type TlPack): those that were read
 * @problems: (nullable): gets all that went wrong */
TlStock *tl_stock_load_packs (const TlStock *self, const char *const *paths, GPtrArray **packs, GPtrArray *problems) G_GNUC_WARN_UNUSED_RESULT;

/* What the packs that are laid say; also through a document's own copies. (transfer none) (nullable)
 * @currency: (out) (optional): of its price: "EUR", or "" */
const TlPackMark    *tl_stock_mark (const TlStock *self, const char *part, const char **currency);
const TlPackMinutes *tl_stock_minutes (const TlStock *self, const char *step);
/* The pack that a part comes from; %NULL for the system's. */
const TlPack        *tl_stock_pack_of (const TlStock *self, const char *part);

/**
 * tl_part_told_apart:
 * @part: of @stock
 *
 * What is said beside name and dimensions of a part from a pack where they are those of another part too: the name of its
 * pack, or its own id where the other is of the same pack or of one of the same name.
 * Returns: (transfer full): "" for a part that nothing else looks like, and for the system's
 */
char *tl_part_told_apart (const TlPart *part, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* --- small values --- */
TlPackMark *tl_pack_mark_copy (const TlPackMark *mark) G_GNUC_WARN_UNUSED_RESULT;
void        tl_pack_mark_free (TlPackMark *mark);
const char *tl_per_word (TlPer per);  /* "piece", "m", "g", as in files */
const char *tl_per_label (TlPer per); /* msgid */

G_END_DECLS
