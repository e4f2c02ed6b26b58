/* search.h: finding parts by size, metal, kind and words: "2.5 al flexible", "m5 steel", "washer 10", "12 awg".
 *
 * A search is built once from a stock and a language and then only read. A query is cut into words and sizes, and
 * every one of them must fit a part; the better they fit, the further up the part stands. Of parts that fit alike those
 * in the van come first, then those that come first in the stock. A filter leaves only parts that fit a gap.
 * Not here: where a part can go (assembly/places.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/stock.h"

G_BEGIN_DECLS

#define TL_SEARCH_MAX_CONDITIONS 4

/* A figure that must lie within bounds, ends included, in the unit of the field. */
typedef struct
{
  TlField field;
  double  low;
  double  high;
} TlSearchCondition;

/* What a gap asks of a part. Plain data; from tl_search_filter_init_defaults(), which lets everything through. */
typedef struct
{
  guint32           kinds; /* bit (1 << TlPartKind) for each kind that fits; 0: every kind */
  guint             n_conditions;
  TlSearchCondition conditions[TL_SEARCH_MAX_CONDITIONS];
  const char       *metal;       /* (nullable): metal or material id */
  gboolean          only_in_van; /* marked so by a pack */
  gboolean          only_own;    /* from a pack */
} TlSearchFilter;

void tl_search_filter_init_defaults (TlSearchFilter *filter);
/* Another kind that fits. */
void tl_search_filter_add_kind (TlSearchFilter *filter, TlPartKind kind);
/* @field within @low .. @high; at most %TL_SEARCH_MAX_CONDITIONS. A part without the figure does not fit, but for an open
 * part, which the person measures. */
void tl_search_filter_add_condition (TlSearchFilter *filter, TlField field, double low, double high);

/* What a screw of @thread_mm passes with at most @clearance_ratio of the thread to spare (limit "geometry.hole-clearance"):
 * washers and lugs by their bore. */
void tl_search_filter_passes_thread (TlSearchFilter *filter, double thread_mm, double clearance_ratio);
/* What takes a conductor of @diameter_mm bare, at bore over conductor from @low_ratio to @high_ratio (limits
 * "grip.bore-ratio-low" and "-high"): sleeves and ferrules. */
void tl_search_filter_takes_conductor (TlSearchFilter *filter, double diameter_mm, double low_ratio, double high_ratio);
/* Heat-shrink sleeves that go over @largest_mm before shrinking and grip @smallest_mm after it. */
void tl_search_filter_shrinks (TlSearchFilter *filter, double largest_mm, double smallest_mm);

/* %TRUE if @part of @stock fits. */
gboolean tl_search_filter_fits (const TlSearchFilter *filter, const TlStock *stock, const TlPart *part);

typedef struct
{
  const TlPart *part; /* of the stock */
  guint         score;  /* the higher, the better it fits */
  guint         missed; /* words that do not fit: 0, or 1 in every hit if no part fits all of three or more */
  guint         order;  /* place in the stock */
} TlSearchHit;

typedef struct _TlSearch TlSearch;

/* @language: names are searched as they read there, and by their ids */
TlSearch *tl_search_new (const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
void      tl_search_free (TlSearch *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlSearch, tl_search_free)

/**
 * tl_search_find:
 * @text: (nullable): what a person typed; "" or %NULL: everything
 * @filter: (nullable): %NULL: everything
 *
 * A size is a number with or without a unit ("2.5", "2,5 mm²", "12 AWG", "1/2 in", "M5", "5..6 mm"); behind a word
 * that names a field ("bore 5.3") it is sought in that field alone. Without a unit it is in the unit of each field.
 * "al", "cu" and their like are metals.
 *
 * Returns: (array) (element-type TlSearchHit) (transfer full): best first; at most as many as the stock has parts
 */
GArray *tl_search_find (const TlSearch *self, const char *text, const TlSearchFilter *filter) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
