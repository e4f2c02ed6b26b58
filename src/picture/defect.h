/* defect.h: the catalogue of what can be seen wrong in a made joint, and the words for how bad it is.
 *
 * Read once from data/defects.xml, then read-only. What it proposes is a proposal: the inspector's own severity counts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/stock.h"

G_BEGIN_DECLS

/* Worst last. A picture alone never shows a joint to be sound: the least is that nothing was seen. */
typedef enum
{
  TL_GRADE_NOTHING_SEEN,
  TL_GRADE_WATCH,
  TL_GRADE_CHANGE,
  TL_GRADE_UNSAFE,
  TL_N_GRADES
} TlGrade;

/* msgid: "nothing seen here", "Watch", "Change", "Unsafe" */
const char        *tl_grade_label (TlGrade grade);
/* (array zero-terminated=1), by #TlGrade: "nothing-seen", "watch", "change", "unsafe" */
const char *const *tl_grade_words (void);
/* Of a catalogue's "stop", "soon", "note"; "" is nothing seen. */
gboolean           tl_grade_from_catalogue (const char *word, TlGrade *grade);

typedef struct
{
  char     *id;      /* "D40", never renamed */
  char     *family;  /* "screw" */
  char     *seen;    /* msgid: what is seen, not what is guessed */
  char     *cause;   /* msgid: what it is consistent with */
  char     *follows; /* msgid */
  char     *action;  /* msgid */
  TlGrade   grade;   /* proposed */
  TlKnownBy known_by;
  char     *source;  /* source id */
} TlDefect;

typedef struct
{
  char *id;
  char *title; /* msgid */
} TlDefectFamily;

typedef struct _TlDefects TlDefects;

/**
 * tl_defects_load:
 * @stock: its sources are those that rows may name
 * Returns: (transfer full) (nullable): on a bad file %NULL with "FILE:LINE: what; what would be right"
 */
TlDefects *tl_defects_load (const TlStock *stock, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The same from text, for tests. */
TlDefects *tl_defects_parse (const char *data, gsize length, const TlStock *stock, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlDefects *tl_defects_ref (TlDefects *self);
void       tl_defects_unref (TlDefects *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlDefects, tl_defects_unref)

/* In file order. (element-type TlDefect), (element-type TlDefectFamily); (transfer none) */
const GPtrArray *tl_defects_all (const TlDefects *self);
const GPtrArray *tl_defects_families (const TlDefects *self);
/* (transfer none) (nullable) */
const TlDefect  *tl_defects_find (const TlDefects *self, const char *id);

/**
 * tl_defects_search:
 * @family: (nullable): only this one
 * @words: words that must all stand somewhere in the row, in @language or in English; "" for all
 * Returns: (element-type TlDefect) (transfer container): in file order
 */
GPtrArray *tl_defects_search (const TlDefects *self, const char *family, const char *words, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
