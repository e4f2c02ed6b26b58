/* criterion.h: everything that a made joint can be judged by, as one list: bands and limits of readings, limits of measures, and
 * what is only looked for.
 *
 * Rows of data/tables/inspection.xml, with source and how they are known. Readings are judged by reading.h; a measure takes a
 * limit over from here; a mark takes words and source over. Rows of type tests and surveys stand here to be read: no reading
 * of one joint is judged by them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/mark.h"
#include "picture/measure.h"

G_BEGIN_DECLS

typedef enum
{
  TL_CRITERION_BAND,    /* of a reading */
  TL_CRITERION_LIMIT,   /* of a reading */
  TL_CRITERION_MEASURE, /* of a length or angle in a picture */
  TL_CRITERION_LOOK,    /* looked for, or only to be read */
} TlCriterionUse;

/* Strings are the stock's. Figures that a row has not are NAN. */
typedef struct
{
  const char    *id;        /* "ic078" */
  TlCriterionUse use;
  const char    *object;    /* msgid: "hexagon press"; "" where the criterion says it */
  const char    *criterion; /* msgid: "width over the flats" */
  const char    *says;      /* msgid: limit in words, or what follows; "" for none */
  TlGrade        grade;
  double         low, most; /* bounds, in @unit */
  double         floor_mm;  /* what a bound that is a ratio may not fall below */
  const char    *unit;
  TlMeasureKind  kind;      /* of a measure */
  TlLimitKind    bound;
  const char    *of;        /* msgid: what a measure's bounds are multiples of; "" for bounds of their own */
  const char    *note;
  const char    *source;
  TlKnownBy      known_by;
} TlCriterion;

/* All of them, in the order of the tables. (element-type TlCriterion) (transfer full) */
GPtrArray *tl_criteria_new (const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;
/* Those of @criteria with all @words somewhere in them, in @language or English, case aside; "" for all.
 * (element-type TlCriterion) (transfer container) */
GPtrArray *tl_criteria_search (const GPtrArray *criteria, const char *words, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer none) (nullable) */
const TlCriterion *tl_criteria_find (const GPtrArray *criteria, const char *id);

/* "hexagon press: width over the flats"; (transfer full) */
char *tl_criterion_text (const TlCriterion *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "1 to 1.03 times the width of the die over its flats", "above 3 K to 15 K: ..."; (transfer full) */
char *tl_criterion_limit_text (const TlCriterion *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_measure_set_criterion:
 * @self: still writable
 * @reference_mm: size of what @criterion is a multiple of, mm, above 0; not looked at where it has bounds of its own
 *
 * Sets limit and what gives it.
 * Returns: %FALSE with %TL_ERROR_RANGE if it is no criterion of a measure, of another kind of measure, or @reference_mm is missing
 */
gboolean tl_measure_set_criterion (TlMeasure *self, const TlCriterion *criterion, double reference_mm, const TlStock *stock, const TlLanguage *language, GError **error);

/* Words and source of a mark that is still writable; its severity stays the inspector's. */
void     tl_picture_mark_set_criterion (TlPictureMark *self, const TlCriterion *criterion, const TlLanguage *language);

G_END_DECLS
