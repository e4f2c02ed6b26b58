/* fact.c: facts and sets of facts.
 *
 * A set is one array sorted by field. Sets hold a dozen facts or two, so that copying one for an
 * edit costs less than sharing rows would.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/fact.h"

#include "base/quantity.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define ID_MAX_LENGTH 64

struct _TlFacts
{
  gint    ref_count; /* (atomic) */
  guint   count;
  TlFact *facts; /* (array length=count), by rising field */
  /* By field: place in @facts and one more, 0 for what is not there. A verdict asks hundreds of times. */
  guint8  places[TL_N_FIELDS];
};
G_STATIC_ASSERT (TL_N_FIELDS <= G_MAXUINT8);

static const char *const known_by_words[] = {
  [TL_KNOWN_STATED] = "stated",     [TL_KNOWN_MEASURED] = "measured",
  [TL_KNOWN_MARKING] = "marking",   [TL_KNOWN_STOCK] = "stock",
  [TL_KNOWN_ASSUMED] = "assumed",   [TL_KNOWN_SEEN] = "seen",
  [TL_KNOWN_MEMORY] = "memory",     [TL_KNOWN_DISPUTED] = "disputed",
  [TL_KNOWN_COMPUTED] = "computed", [TL_KNOWN_PRACTICE] = "practice",
};
G_STATIC_ASSERT (G_N_ELEMENTS (known_by_words) == TL_N_KNOWN);

const char *
tl_known_by_to_word (TlKnownBy known_by)
{
  g_return_val_if_fail ((guint) known_by < TL_N_KNOWN, "stated");

  return known_by_words[known_by];
}

gboolean
tl_known_by_from_word (const char *word, TlKnownBy *known_by)
{
  g_return_val_if_fail (word != NULL, FALSE);

  for (guint i = 0; i < TL_N_KNOWN; i++)
    if (strcmp (known_by_words[i], word) == 0)
      {
        if (known_by != NULL)
          *known_by = (TlKnownBy) i;
        return TRUE;
      }
  return FALSE;
}

static void
fact_copy (TlFact *to, const TlFact *from)
{
  *to = *from;
  to->word = g_strdup (from->word);
  to->source = g_strdup (from->source);
  to->note = g_strdup (from->note);
}

static void
fact_clear (TlFact *fact)
{
  g_free (fact->word);
  g_free (fact->source);
  g_free (fact->note);
}

static TlFacts *
facts_alloc (guint count)
{
  TlFacts *self = g_new0 (TlFacts, 1);

  self->ref_count = 1;
  self->count = count;
  self->facts = g_new0 (TlFact, MAX (count, 1));
  return self;
}

static void
facts_put (TlFacts *self, guint place, const TlFact *fact)
{
  fact_copy (&self->facts[place], fact);
  self->places[fact->field] = (guint8) (place + 1);
}

TlFacts *
tl_facts_new (void)
{
  return facts_alloc (0);
}

TlFacts *
tl_facts_ref (const TlFacts *self)
{
  TlFacts *mine = (TlFacts *) self;

  g_return_val_if_fail (self != NULL, NULL);

  /* The count is the one thing in a set that changes. */
  g_atomic_int_inc (&mine->ref_count);
  return mine;
}

void
tl_facts_unref (TlFacts *self)
{
  g_return_if_fail (self != NULL);

  if (!g_atomic_int_dec_and_test (&self->ref_count))
    return;
  for (guint i = 0; i < self->count; i++)
    fact_clear (&self->facts[i]);
  g_free (self->facts);
  g_free (self);
}

/* Place of @field, or where it would stand. */
static gboolean
facts_find (const TlFacts *self, TlField field, guint *place)
{
  guint above = 0;

  while (above < self->count && self->facts[above].field < field)
    above++;
  *place = above;
  return above < self->count && self->facts[above].field == field;
}

TlFacts *
tl_facts_with (const TlFacts *self, const TlFact *fact)
{
  guint    place;
  gboolean is_there;
  TlFacts *result;

  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail (fact != NULL && (guint) fact->field < TL_N_FIELDS, NULL);

  is_there = facts_find (self, fact->field, &place);
  result = facts_alloc (self->count + (is_there ? 0 : 1));
  for (guint i = 0; i < place; i++)
    facts_put (result, i, &self->facts[i]);
  facts_put (result, place, fact);
  for (guint i = place + (is_there ? 1 : 0), to = place + 1; i < self->count; i++, to++)
    facts_put (result, to, &self->facts[i]);
  return result;
}

TlFacts *
tl_facts_without (const TlFacts *self, TlField field)
{
  guint    place;
  TlFacts *result;

  g_return_val_if_fail (self != NULL, NULL);

  if (!facts_find (self, field, &place))
    return tl_facts_ref (self);

  result = facts_alloc (self->count - 1);
  for (guint i = 0, to = 0; i < self->count; i++)
    if (i != place)
      facts_put (result, to++, &self->facts[i]);
  return result;
}

TlFacts *
tl_facts_with_number (const TlFacts *self, TlField field, double value, TlKnownBy known_by)
{
  TlFact fact = { .field = field, .value = tl_range_exact (value), .known_by = known_by };

  return tl_facts_with (self, &fact);
}

TlFacts *
tl_facts_with_word (const TlFacts *self, TlField field, const char *word, TlKnownBy known_by)
{
  TlFact fact = { .field = field, .word = (char *) word, .known_by = known_by };

  return tl_facts_with (self, &fact);
}

const TlFact *
tl_facts_get (const TlFacts *self, TlField field)
{
  guint after;

  g_return_val_if_fail (self != NULL, NULL);

  after = (guint) field < TL_N_FIELDS ? self->places[field] : 0;
  return after > 0 ? &self->facts[after - 1] : NULL;
}

guint
tl_facts_count (const TlFacts *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->count;
}

const TlFact *
tl_facts_at (const TlFacts *self, guint index)
{
  g_return_val_if_fail (self != NULL && index < self->count, NULL);

  return &self->facts[index];
}

static gboolean
fact_equal (const TlFact *a, const TlFact *b)
{
  return a->field == b->field && a->known_by == b->known_by && a->value.low == b->value.low
         && a->value.best == b->value.best && a->value.high == b->value.high
         && g_strcmp0 (a->word, b->word) == 0 && g_strcmp0 (a->source, b->source) == 0
         && g_strcmp0 (a->note, b->note) == 0;
}

gboolean
tl_facts_equal (const TlFacts *a, const TlFacts *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  if (a == b)
    return TRUE;
  if (a->count != b->count)
    return FALSE;
  for (guint i = 0; i < a->count; i++)
    if (!fact_equal (&a->facts[i], &b->facts[i]))
      return FALSE;
  return TRUE;
}

double
tl_facts_number (const TlFacts *self, TlField field, double fallback)
{
  const TlFact *fact = tl_facts_get (self, field);

  return fact != NULL ? fact->value.best : fallback;
}

const char *
tl_facts_word (const TlFacts *self, TlField field, const char *fallback)
{
  const TlFact *fact = tl_facts_get (self, field);

  return fact != NULL && fact->word != NULL ? fact->word : fallback;
}

gboolean
tl_facts_has (const TlFacts *self, TlField field)
{
  return tl_facts_get (self, field) != NULL;
}

gboolean
tl_facts_is (const TlFacts *self, TlField field)
{
  return g_strcmp0 (tl_facts_word (self, field, NULL), "yes") == 0;
}

/* --- checking --- */

static gboolean
check_number (const TlFieldInfo *info, const TlRange *value, GError **error)
{
  const double figures[] = { value->low, value->best, value->high };

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      if (!isfinite (figures[i]) || figures[i] < info->low || figures[i] > info->high)
        {
          const char *label = tl_unit_label (info->unit);

          /* Translators: key of a fact, its figure and unit, then the permitted range and unit */
          g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                       _ ("“%s” is %g %s; it must be from %g to %g %s."), info->key, figures[i],
                       label, info->low, info->high, label);
          return FALSE;
        }
      if (info->kind == TL_FIELD_KIND_COUNT && figures[i] != floor (figures[i]))
        {
          g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                       _ ("“%s” is %g; it must be a whole number from %g to %g."), info->key,
                       figures[i], info->low, info->high);
          return FALSE;
        }
    }
  if (!tl_range_is_valid (*value))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("“%s” has low %g, best %g and high %g; they must rise in this order."),
                   info->key, value->low, value->best, value->high);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_word (const TlFieldInfo *info, const char *word, GError **error)
{
  g_autofree char *permitted = NULL;

  if (word != NULL && g_strv_contains (info->words, word))
    return TRUE;
  permitted = g_strjoinv (", ", (char **) info->words);
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("“%s” is “%s”; it must be one of: %s."),
               info->key, word != NULL ? word : "", permitted);
  return FALSE;
}

static gboolean
is_id (const char *word)
{
  gsize length = strlen (word);

  if (length == 0 || length > ID_MAX_LENGTH || !g_ascii_isalnum (word[0]))
    return FALSE;
  for (const char *c = word; *c != '\0'; c++)
    if (!g_ascii_isalnum (*c) && strchr ("-._", *c) == NULL)
      return FALSE;
  return TRUE;
}

static gboolean
check_id (const TlFieldInfo *info, const char *word, GError **error)
{
  if (word != NULL && is_id (word))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME,
               _ ("“%s” is “%s”; it must be the id of a material: letters, digits, hyphens and "
                  "dots, at most %d of them."),
               info->key, word != NULL ? word : "", ID_MAX_LENGTH);
  return FALSE;
}

gboolean
tl_fact_check (const TlFact *fact, GError **error)
{
  const TlFieldInfo *info;

  g_return_val_if_fail (fact != NULL, FALSE);

  if ((guint) fact->field >= TL_N_FIELDS)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("There is no fact number %d; the last one is %d."), (int) fact->field,
                   TL_N_FIELDS - 1);
      return FALSE;
    }
  info = tl_field_info (fact->field);
  switch (info->kind)
    {
    case TL_FIELD_KIND_NUMBER:
    case TL_FIELD_KIND_COUNT:
      return check_number (info, &fact->value, error);
    case TL_FIELD_KIND_WORD:
      return check_word (info, fact->word, error);
    case TL_FIELD_KIND_ID:
      return check_id (info, fact->word, error);
    default:
      g_assert_not_reached ();
    }
}

gboolean
tl_fact_parse (TlField field, const char *text, TlFact *fact, GError **error)
{
  const TlFieldInfo *info;
  g_autofree char   *word = NULL;
  TlFact             read = { .field = field };

  g_return_val_if_fail ((guint) field < TL_N_FIELDS, FALSE);
  g_return_val_if_fail (text != NULL && fact != NULL, FALSE);

  info = tl_field_info (field);
  if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
    {
      if (!tl_quantity_parse_range (text, info->unit, &read.value, error))
        {
          g_prefix_error (error, "“%s”: ", info->key);
          return FALSE;
        }
    }
  else
    {
      word = g_strstrip (g_strdup (text));
      read.word = word;
    }
  if (!tl_fact_check (&read, error))
    return FALSE;

  fact->field = field;
  fact->value = read.value;
  fact->word = g_steal_pointer (&word);
  return TRUE;
}
