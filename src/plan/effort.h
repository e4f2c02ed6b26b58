/* effort.h: what a joint, or many, takes: parts in number or length, tools, minutes, money.
 *
 * Prices and minutes are the person's own, from packs (stock/pack.h); none are built in. What has none is counted, so that
 * a sum never looks complete when it is not. Sums are by currency. Conductors that come out of the wall, and the box, are
 * listed as there already and cost nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/steps.h"
#include "stock/pack.h"

G_BEGIN_DECLS

typedef struct
{
  char      *part;      /* (nullable): id in the stock */
  TlPartKind kind;
  char      *name;
  char      *size;
  gboolean   is_there;  /* in the wall already: nothing to fetch or to pay */
  guint      count;     /* pieces */
  double     length_m;  /* of all pieces, where a length is stated; else 0 */
  double     amount_g;  /* likewise */
  guint      joints;    /* joints that take it */
  gboolean   has_price;
  double     price;     /* of all of it, in @currency */
  const char *currency; /* of the pack, "" if that names none; owned by the stock */
  gboolean   in_van;
  gboolean   has_stock; /* the pack says how much there is */
  double     stock;     /* pieces, m or g by @per */
  TlPer      per;
  gboolean   is_short;  /* there is less than is needed */
} TlEffortPart;

typedef struct
{
  char *name;
  guint joints; /* joints that need it */
} TlEffortTool;

typedef struct
{
  char  *currency;
  double price;
} TlEffortSum;

typedef struct
{
  GPtrArray *parts;          /* (element-type TlEffortPart): by kind, name, size */
  GPtrArray *tools;          /* (element-type TlEffortTool): by name */
  GPtrArray *sums;           /* (element-type TlEffortSum): by currency */
  guint      unpriced;       /* kinds of part to fetch that have no price */
  TlRange    minutes_min;    /* of the steps that have minutes */
  guint      timed_steps;
  guint      untimed_steps;  /* steps whose kind has no minutes in any pack */
  guint      joints;         /* added */
  guint      without_steps;  /* of these: refused, so they take no parts, tools or minutes */
  /*< private >*/
  GHashTable *part_by_key;
  GHashTable *tool_by_name;
  GHashTable *steps;         /* id of a kind of step -> how often */
} TlEffort;

TlEffort *tl_effort_new (void) G_GNUC_WARN_UNUSED_RESULT;
void      tl_effort_free (TlEffort *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlEffort, tl_effort_free)

/**
 * tl_effort_add:
 * @steps: sheet of @verdict in @language
 *
 * Adds one joint. A joint that is not to be made as drawn takes nothing. All joints of one effort are added in one
 * language. Lists and sums are there after tl_effort_finish().
 */
void tl_effort_add (TlEffort *self, const TlVerdict *verdict, const TlStepSheet *steps, const TlLanguage *language);
/* Adds what @other, not yet finished, has gathered. */
void tl_effort_merge (TlEffort *self, const TlEffort *other);
/* Sorts, prices and sums up; once, after the last joint. @stock: with its packs laid, must outlive @self. */
void tl_effort_finish (TlEffort *self, const TlStock *stock);

/* "3", "2, together 0.09 m", "4 g": how much of a part; (transfer full) */
char *tl_effort_quantity (const TlEffortPart *part, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "12.40 EUR and 3 parts without a price"; "" if nothing has a price. (transfer full) */
char *tl_effort_price_text (const TlEffort *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "35 to 70 min; 2 steps without minutes"; "" if no step has minutes. (transfer full) */
char *tl_effort_minutes_text (const TlEffort *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
