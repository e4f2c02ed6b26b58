/* stock-private.h: the inside of the stock, for its own files and its tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/xml.h"
#include "stock/stock.h"

G_BEGIN_DECLS

/* Namespace of every file under data/stock, data/tables and of data/sources.xml. */
#define TL_STOCK_NAMESPACE "urn:tinlap:stock:1"

/* Where the compiled-in files stand. */
#define TL_STOCK_RESOURCE "/tinlap/data"

/* The table whose rows are limits; its first two columns are "value" and "unit". */
#define TL_STOCK_THRESHOLDS "thresholds"

struct _TlStock
{
  gatomicrefcount ref_count;

  TlStock *below; /* (nullable): the stock that this one is laid over */
  TlUsed  *used;  /* (nullable): the rows that stand in front of it */

  char      *version;
  /* Of an overlay these lists are made when first asked for, behind tl_stock_parts() and its like: one verdict in a
   * drag needs none of them. */
  GPtrArray *sources;   /* (element-type TlSource) */
  GPtrArray *materials; /* (element-type TlMaterial) */
  GPtrArray *parts;     /* (element-type TlPart) */
  GPtrArray *tables;    /* (element-type TlTable) */
  TlTable   *merged;    /* (nullable): of an overlay: its own table of thresholds */

  /* Rows of this stock alone, not of the one below. Keys belong to the rows. */
  GHashTable *source_by_id;
  GHashTable *material_by_id;
  GHashTable *part_by_id;
  GHashTable *table_by_id;
  GHashTable *threshold_by_key; /* TlLimitKey, the first member of an owned TlLimit, as a set */

  /* Of packs laid over a stock; the rows are theirs. */
  GPtrArray  *packs;           /* (nullable) (element-type TlPack) */
  GHashTable *pack_of_part;    /* (nullable): id -> TlPack */
  GHashTable *pack_of_mark;    /* (nullable): id of the part -> TlPack */
  GHashTable *pack_of_minutes; /* (nullable): id of the step -> TlPack */
};

/* A limit under the practice and the id of its row, whose strings they are. */
typedef struct
{
  const char *practice;
  const char *id;
} TlLimitKey;

typedef struct
{
  TlLimitKey  key;
  TlThreshold threshold;
} TlLimit;

/* For hash tables (index.c). */
guint    tl_stock_limit_hash (gconstpointer key);
gboolean tl_stock_limit_equal (gconstpointer a, gconstpointer b);

/* A file being read into a stock; the stock answers which ids exist. A pack is read by itself: which materials and
 * sources exist is asked when it is laid over a stock, and a person may know a figure without a source. */
typedef struct
{
  const TlXmlDocument *document;
  const TlStock       *stock;   /* (nullable): of a pack */
  gboolean             is_pack;
} TlStockReader;

/* What facts and rows inherit when they do not say it themselves. */
typedef struct
{
  const char *source;   /* (nullable) */
  const char *known_by; /* (nullable) */
} TlStockDefaults;

TlStock *tl_stock_new_empty (void) G_GNUC_WARN_UNUSED_RESULT;
/* @below in its order with the rows of @over in the place of those of the same id, then what is new; @by_id gets
 * the rows of @over. Rows open with their id. */
void     tl_stock_merge (GPtrArray *merged, GHashTable *by_id, const GPtrArray *below, const GPtrArray *over);
/* Enters rows, which open with their id; a later one counts. */
void     tl_stock_index_rows (GHashTable *by_id, const GPtrArray *rows);
/* Enters the rows of table "thresholds" (array of TlTableRow) under their practice and id. */
void     tl_stock_index_thresholds (TlStock *self, const GPtrArray *rows);

/* Each reads one element and checks it; %NULL with "FILE:LINE: what; what would be right". */
TlSource   *tl_source_read (const TlStockReader *reader, const TlXmlNode *node, GError **error);
TlMaterial *tl_material_read (const TlStockReader *reader, const TlXmlNode *node, GError **error);
TlPart     *tl_part_read (const TlStockReader *reader, const TlXmlNode *node, GError **error);
TlTable    *tl_table_read (const TlStockReader *reader, const TlXmlNode *node, GError **error);
/* Enters the rows under their leading words, once all of them are there. */
void tl_table_index (TlTable *table);
/* The children <fact .../> of @node. */
TlFacts *tl_stock_read_facts (const TlStockReader *reader, const TlXmlNode *node, GError **error);

void tl_source_free (TlSource *source);
void tl_table_free (TlTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlSource, tl_source_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlTable, tl_table_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlMaterial, tl_material_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPart, tl_part_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlTableRow, tl_table_row_free)

/* Fields whose word is the id of a material, "none" apart: (array length=count) */
const TlField *tl_part_material_fields (guint *count);
/* Sizes that no part can have together; a sentence without file and line. */
gboolean       tl_part_check_sizes (const TlFacts *facts, GError **error);
/* "copper", ..., as in files. */
const char    *tl_material_look_word (TlLook look);
gboolean       tl_material_kind_is_known (const char *kind);
gboolean       tl_stock_id_is_valid (const char *id);
/* How a person can know a figure of a pack: stated, measured, marking, assumed. */
gboolean       tl_stock_known_by_person (TlKnownBy known_by);

/* Shared small checks: an attribute that must be there; no attribute beyond @allowed; the id's
 * form; @source exists; @word is a way of knowing that data may have. */
const char *tl_stock_required (const TlStockReader *reader, const TlXmlNode *node, const char *name,
                               GError **error);
gboolean    tl_stock_only (const TlStockReader *reader, const TlXmlNode *node,
                           const char *const *allowed, GError **error);
gboolean    tl_stock_id (const TlStockReader *reader, const TlXmlNode *node, const char **id,
                         GError **error);
gboolean    tl_stock_origin (const TlStockReader *reader, const TlXmlNode *node,
                             const TlStockDefaults *defaults, const char **source,
                             TlKnownBy *known_by, GError **error);

G_END_DECLS
