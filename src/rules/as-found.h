/* as-found.h: the joint as it was found beside the joint as designed: figures, and the verdict of each.
 *
 * Found values (inspection.h) replace those of the design and the joint is judged anew; what nobody checked is taken as designed,
 * and listed. A measure that says "plane not assured" gives no found value.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/pictures.h"
#include "rules/verdict.h"

G_BEGIN_DECLS

/* One fact, designed and found. */
typedef struct
{
  const TlFound *found;
  TlField        field;
  gboolean       has_design;
  TlRange        design;       /* in the field's unit; for numbers */
  char          *design_word;  /* for words: (nullable) */
  TlRange        value;        /* found, with its U; for numbers */
  TlDecision     decision;     /* within, beyond, undecided */
  char          *error;        /* (nullable): why it could not be used */
} TlFoundRow;

/* A fact of the design that was not checked. */
typedef struct
{
  char    *owner;
  TlField  field;
  TlRange  value;
  char    *word; /* (nullable) */
} TlUnchecked;

typedef struct
{
  TlVerdict *designed;
  TlVerdict *found;     /* (nullable): %NULL if nothing was found that could be used */
  TlJoint   *joint;     /* as found */
  GPtrArray *rows;      /* (element-type TlFoundRow) in the order of the inspection */
  GPtrArray *unchecked; /* (element-type TlUnchecked) */
} TlAsFound;

/* (transfer full) */
TlAsFound *tl_as_found_new (const TlJoint *joint, const TlInspections *inspections, const TlInspection *inspection, const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;
void       tl_as_found_free (TlAsFound *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlAsFound, tl_as_found_free)

/* "10 mm", "steel", "not stated"; all (transfer full) */
char *tl_found_row_design_text (const TlFoundRow *row, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
char *tl_found_row_value_text (const TlFoundRow *row, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "Sleeve (3): length 95 mm" */
char *tl_unchecked_text (const TlUnchecked *self, const TlVerdict *designed, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Name and number of a leg or layer, or of both sides of a contact by its id; (transfer full) */
char *tl_owner_text (const TlVerdict *designed, const char *owner, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
