/* fact.h: one fact, and an immutable set of facts.
 *
 * A fact says what (field), how much (low, best, high, or a word), how it is known, and from where.
 * The same form serves parts, materials and thresholds (known_by seen, memory, ...; with a source) and
 * what a person states of a joint (known_by measured, marking, stock, stated, assumed; with a note).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"
#include "base/field.h"
#include "base/range.h"

G_BEGIN_DECLS

typedef enum
{
  TL_KNOWN_STATED = 0, /* the person says so */
  TL_KNOWN_MEASURED,   /* with instrument and date in the note */
  TL_KNOWN_MARKING,    /* read from the part */
  TL_KNOWN_STOCK,      /* taken over from the stock */
  TL_KNOWN_ASSUMED,    /* worst case or habit; listed on every sheet */
  TL_KNOWN_SEEN,       /* read in the source or a reprint of it */
  TL_KNOWN_MEMORY,     /* from memory */
  TL_KNOWN_DISPUTED,   /* sources print different figures */
  TL_KNOWN_COMPUTED,   /* closed form from other figures */
  TL_KNOWN_PRACTICE,   /* common practice, no source */
  TL_N_KNOWN
} TlKnownBy;

/* "stated", "measured", ... as in files; (transfer none) */
const char *tl_known_by_to_word (TlKnownBy known_by);
gboolean    tl_known_by_from_word (const char *word, TlKnownBy *known_by);

/**
 * TlFact:
 * @field: what
 * @value: figure in the field's unit; 0 for words
 * @word: (nullable): word or id, owned by the set
 * @known_by: how it is known
 * @source: (nullable): id of a source, owned by the set
 * @note: (nullable): owned by the set
 */
typedef struct
{
  TlField   field;
  TlRange   value;
  char     *word;
  TlKnownBy known_by;
  char     *source;
  char     *note;
} TlFact;

/* Immutable, reference-counted, sorted by field; shared by threads. */
typedef struct _TlFacts TlFacts;

TlFacts *tl_facts_new (void) G_GNUC_WARN_UNUSED_RESULT;
TlFacts *tl_facts_ref (const TlFacts *self);
void     tl_facts_unref (TlFacts *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlFacts, tl_facts_unref)

/* A new set with @fact put in or replaced; strings are copied. No range check: see tl_fact_check(). */
TlFacts *tl_facts_with (const TlFacts *self, const TlFact *fact) G_GNUC_WARN_UNUSED_RESULT;
TlFacts *tl_facts_without (const TlFacts *self, TlField field) G_GNUC_WARN_UNUSED_RESULT;

/* Short hands for tl_facts_with(). */
TlFacts *tl_facts_with_number (const TlFacts *self, TlField field, double value, TlKnownBy known_by) G_GNUC_WARN_UNUSED_RESULT;
TlFacts *tl_facts_with_word (const TlFacts *self, TlField field, const char *word, TlKnownBy known_by) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer none) (nullable) */
const TlFact *tl_facts_get (const TlFacts *self, TlField field);
guint         tl_facts_count (const TlFacts *self);
const TlFact *tl_facts_at (const TlFacts *self, guint index);
gboolean      tl_facts_equal (const TlFacts *a, const TlFacts *b);

/* Best value, or @fallback if the fact is not there. */
double      tl_facts_number (const TlFacts *self, TlField field, double fallback);
/* Word, or @fallback. */
const char *tl_facts_word (const TlFacts *self, TlField field, const char *fallback);
gboolean    tl_facts_has (const TlFacts *self, TlField field);
/* %TRUE if the word is "yes". */
gboolean    tl_facts_is (const TlFacts *self, TlField field);

/**
 * tl_fact_check:
 * Range, order, finiteness and word of one fact against the vocabulary.
 * Returns: %FALSE with %TL_ERROR_RANGE or %TL_ERROR_NAME; the message names field, value and what is permitted
 */
gboolean tl_fact_check (const TlFact *fact, GError **error);

/* Reads "2,5 mm²" or "12 AWG" (numbers) or a word into @fact->value / @fact->word; word is newly allocated. */
gboolean tl_fact_parse (TlField field, const char *text, TlFact *fact, GError **error);

G_END_DECLS
