/* stock.h: what exists: materials, parts, published tables, sources.
 *
 * Loaded once from data/ (compiled in as a resource), then read-only and shared by threads. A document's own
 * copies (`used`) are laid over it with tl_stock_overlay(), so that an old document is judged by its own figures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/fact.h"
#include "base/language.h"

G_BEGIN_DECLS

/* --- sources --- */
typedef struct
{
  char *id;      /* "iec-60228" */
  char *kind;    /* standard | book | article | page | practice | memory | design */
  char *title;   /* "IEC 60228, Conductors of insulated cables" */
  char *edition; /* "2004", "" */
  char *clause;  /* "" if the rows name it */
} TlSource;

/* --- materials (metals, coats, insulations, compounds) --- */
typedef enum
{
  TL_LOOK_COPPER,
  TL_LOOK_ALUMINIUM,
  TL_LOOK_TIN,
  TL_LOOK_STEEL,
  TL_LOOK_STAINLESS,
  TL_LOOK_ZINC,
  TL_LOOK_NICKEL,
  TL_LOOK_BRASS,
  TL_LOOK_POLYMER,
  TL_LOOK_ADHESIVE,
  TL_LOOK_INSULATION,
  TL_LOOK_COMPOUND,
  TL_LOOK_AIR,
  TL_N_LOOKS
} TlLook;

typedef struct
{
  char    *id;      /* "copper", "aluminium", "tin-plate", "zinc-plate", "steel", "stainless-a2", "pvc" ... */
  char    *name;    /* msgid, lower case, as in a sentence: "aluminium", "tin plate" */
  char    *kind;    /* metal | coat | solder | polymer | compound */
  TlLook   look;    /* pattern in drawings */
  TlFacts *facts;
} TlMaterial;

/* --- parts --- */
typedef enum
{
  TL_PART_CONDUCTOR,
  TL_PART_BOLT,
  TL_PART_NUT,
  TL_PART_PLAIN_WASHER,
  TL_PART_LARGE_WASHER,
  TL_PART_SPRING_RING,    /* split spring lock washer */
  TL_PART_CONICAL_WASHER, /* conical spring washer */
  TL_PART_SERRATED_WASHER,
  TL_PART_SLEEVE,         /* butt or parallel, pressed */
  TL_PART_LUG,
  TL_PART_FERRULE,
  TL_PART_SEAL,           /* heat-shrink sleeve */
  TL_PART_CAP,            /* end cap */
  TL_PART_FILLER,         /* adhesive filler between two conductors in one mouth */
  TL_PART_COMPOUND,       /* jointing compound */
  TL_PART_SOLDER,
  TL_PART_TERMINAL,
  TL_PART_BRANCH,
  TL_PART_BOX,
  TL_N_PART_KINDS
} TlPartKind;

typedef enum
{
  TL_GROUP_CONDUCTORS,
  TL_GROUP_COATINGS,   /* coatings and pastes */
  TL_GROUP_SLEEVES,    /* sleeves and ferrules */
  TL_GROUP_FASTENERS,  /* washers and fasteners */
  TL_GROUP_TERMINALS,  /* clamps and terminals */
  TL_GROUP_SEALING,    /* sealing and insulation */
  TL_GROUP_BOXES,      /* not on the bench: chosen for the site */
  TL_N_GROUPS
} TlPartGroup;

typedef struct
{
  char      *id;     /* stable, as in files: "washer-plain-m5-steel" */
  TlPartKind kind;
  char      *size;   /* "M5", "2.5 mm²", "6.4/3.2"; "" */
  TlFacts   *facts;  /* each with source and known_by */
  gboolean   is_open;/* its figures are the user's entry (as measured) */
} TlPart;

/* --- tables: thresholds and published tables --- */
typedef struct
{
  char     *id;        /* row id, unique in its table */
  char     *practice;  /* "iec-style" | "nfpa70-style" | "strict" | "*" */
  char    **cells;     /* (array length=n_columns) text of each column */
  TlKnownBy known_by;
  char     *source;    /* source id */
  char     *note;
  double   *numbers;   /* (array length=n_columns) (nullable): each cell under a unit as a number, NAN if there is none;
                          %NULL in a row that did not come from a table of the stock */
} TlTableRow;

typedef struct _TlRowGroup TlRowGroup;

typedef struct
{
  char       *id;
  char       *title;   /* msgid */
  char      **columns; /* (array zero-terminated=1) keys */
  char      **units;   /* (array zero-terminated=1) unit of each column, "" for words */
  GPtrArray  *rows;    /* (element-type TlTableRow) */
  /*< private >*/
  guint       n_keys;  /* columns of words before the first column of figures */
  GHashTable *groups;  /* (nullable): rows by the words in those columns */
} TlTable;

/* One limit of the table "thresholds". */
typedef struct
{
  const char *id;       /* "grip.bearing-aluminium-max" */
  double      value;
  const char *unit;
  TlKnownBy   known_by;
  const char *source;   /* source id */
  const char *note;
} TlThreshold;

typedef struct _TlStock TlStock;

/**
 * tl_stock_load:
 * @directory: (nullable): a folder laid out like data/; %NULL: the figures compiled into the program
 *
 * Returns: (transfer full) (nullable): on a bad file %NULL with "FILE:LINE: what; what would be right"
 */
TlStock *tl_stock_load (const char *directory, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlStock *tl_stock_ref (const TlStock *self);
void     tl_stock_unref (TlStock *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlStock, tl_stock_unref)

/* Version of the data, e.g. "2026.1": written into documents and JSON. */
const char *tl_stock_version (const TlStock *self);

/* All (transfer none) (nullable); O(1). */
const TlMaterial *tl_stock_material (const TlStock *self, const char *id);
const TlPart     *tl_stock_part (const TlStock *self, const char *id);
const TlSource   *tl_stock_source (const TlStock *self, const char *id);
const TlTable    *tl_stock_table (const TlStock *self, const char *id);

/* In file order: (element-type TlPart), (element-type TlMaterial), ...; (transfer none) */
const GPtrArray *tl_stock_parts (const TlStock *self);
const GPtrArray *tl_stock_materials (const TlStock *self);
const GPtrArray *tl_stock_sources (const TlStock *self);
const GPtrArray *tl_stock_tables (const TlStock *self);
/* Practices known: (array zero-terminated=1) "iec-style", "nfpa70-style", "strict" */
const char *const *tl_stock_practices (const TlStock *self);
/* The practice whose rows hold where @practice has none of its own: "iec-style" for "strict"; @practice itself for
 * one that stands alone. */
const char *tl_practice_base (const char *practice);
/* msgid: "IEC-style practice" */
const char *tl_practice_label (const char *practice);

/* The threshold @id for @practice (a row of that practice, else of its base, else the "*" row); %FALSE if there is
 * none. */
gboolean tl_stock_threshold (const TlStock *self, const char *practice, const char *id, TlThreshold *threshold);

/* The same without copying; (transfer none) (nullable) */
const TlThreshold *tl_stock_find_threshold (const TlStock *self, const char *practice, const char *id);

/* For hash tables whose keys are ids: quicker than g_str_hash(). */
guint tl_stock_id_hash (gconstpointer id);

/* First row of @table whose practice fits (its own, else its base's, else "*") and whose leading cells equal the given
 * words; (nullable).
 * Ends with NULL. */
const TlTableRow *tl_stock_row (const TlStock *self, const char *table, const char *practice, ...) G_GNUC_NULL_TERMINATED;
/* The rows, of any practice and in file order, that begin with these @words, one for each column before the first
 * column of figures: (array) (element-type TlTableRow) (transfer none) (nullable). O(1). */
const GPtrArray *tl_table_group (const TlTable *table, const char *const *words);
/* Cell as number in the unit of its column; %FALSE if the column or figure is not there. */
gboolean    tl_table_number (const TlTable *table, const TlTableRow *row, const char *column, double *value);
const char *tl_table_word (const TlTable *table, const TlTableRow *row, const char *column);

/* --- names for people --- */
TlPartGroup tl_part_kind_group (TlPartKind kind);
const char *tl_part_kind_word (TlPartKind kind);                 /* "plain-washer", as in files */
gboolean    tl_part_kind_from_word (const char *word, TlPartKind *kind);
const char *tl_part_group_label (TlPartGroup group);             /* msgid: "Washers and fasteners" */
/* "Plain washer, steel, zinc-plated" from kind and facts; (transfer full) */
char *tl_part_name (TlPartKind kind, const TlFacts *facts, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "10 × 5.3 × 1.0 mm" from kind and facts; (transfer full) */
char *tl_part_dimensions (TlPartKind kind, const TlFacts *facts, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Name of a material in @language, or its id; (transfer none) */
const char *tl_material_name (const TlStock *stock, const char *id, const TlLanguage *language);
/* "IEC 60228:2004, Table 1 (seen)" as a citation line; (transfer full) */
char *tl_source_citation (const TlStock *stock, const char *source_id, TlKnownBy known_by, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* Fields that a person may edit for a kind, in the order of the form: (array length=count) (transfer none) */
const TlField *tl_part_kind_fields (TlPartKind kind, guint *count);

/* --- overlay: the document's own copies win --- */
typedef struct
{
  GPtrArray *parts;      /* (element-type TlPart) */
  GPtrArray *materials;  /* (element-type TlMaterial) */
  GPtrArray *thresholds; /* (element-type TlTableRow): rows of table "thresholds" */
  char      *data_version;
  char      *practice;
} TlUsed;

TlUsed *tl_used_new (void) G_GNUC_WARN_UNUSED_RESULT;
TlUsed *tl_used_ref (const TlUsed *self);
void    tl_used_unref (TlUsed *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlUsed, tl_used_unref)

/* A stock in which the rows of @used stand in front of those of @self. */
TlStock *tl_stock_overlay (const TlStock *self, const TlUsed *used) G_GNUC_WARN_UNUSED_RESULT;

TlPart     *tl_part_copy (const TlPart *part) G_GNUC_WARN_UNUSED_RESULT;
void        tl_part_free (TlPart *part);
TlMaterial *tl_material_copy (const TlMaterial *material) G_GNUC_WARN_UNUSED_RESULT;
void        tl_material_free (TlMaterial *material);
TlTableRow *tl_table_row_copy (const TlTableRow *row) G_GNUC_WARN_UNUSED_RESULT;
void        tl_table_row_free (TlTableRow *row);

G_END_DECLS
