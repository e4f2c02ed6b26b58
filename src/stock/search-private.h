/* search-private.h: a query cut into terms, for the files of the search.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/range.h"
#include "stock/search.h"

G_BEGIN_DECLS

/* Units of the sizes that a part can be sought by. */
enum
{
  TL_SIZE_LENGTH,  /* mm */
  TL_SIZE_AREA,    /* mm2 */
  TL_SIZE_VOLUME,  /* cm3 */
  TL_N_SIZES
};

extern const char *const tl_size_units[TL_N_SIZES];

/* Field of a size, and its place in tl_size_units; TL_N_SIZES if a part is not sought by it. */
guint tl_size_of_field (TlField field);

/* One thing that was typed: a word, and perhaps a size. */
typedef struct
{
  char    *word;               /* folded; "" if it can only be a size */
  gboolean has[TL_N_SIZES];    /* the size can be meant so */
  TlRange  size[TL_N_SIZES];   /* bounds, rounding included */
  TlField  only;               /* the one field it is sought in; TL_N_FIELDS: any */
} TlTerm;

/* The words of @text as they are compared: (element-type utf8) (transfer full) */
GPtrArray *tl_search_words (const char *text) G_GNUC_WARN_UNUSED_RESULT;
/* (element-type TlTerm) (transfer full) */
GPtrArray *tl_search_terms (const char *text, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
