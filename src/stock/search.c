/* search.c: the index of all parts, and the ranking of what fits.
 *
 * Every word that names a part stands once in a list of words; a part holds numbers of words and its sizes. A query
 * scores each word of the list once, so that a part costs some additions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/search-private.h"

#include "stock/pack.h"

#include <string.h>

/* What a fit is worth. A size that a part is named by stands above a word, a word of the name above one of its id. */
enum
{
  SCORE_MAIN_SIZE = 50,
  SCORE_SIZE = 25,
  SCORE_WORD = 10, /* times the weight of the word, doubled if it is the whole word */
  SCORE_SCALE = 2, /* so that being in the van only parts what fits alike */
};

/* Where a word comes from. */
enum
{
  WEIGHT_ASIDE = 1, /* class and form, id, size as printed, note of a pack */
  WEIGHT_NAME = 2,  /* kind and metal as a person calls them */
};

typedef struct
{
  guint word; /* number in the list of words */
  guint weight;
} IndexedWord;

typedef struct
{
  TlField  field;
  guint    size; /* place in tl_size_units */
  double   low, high;
  gboolean is_main;
} IndexedSize;

typedef struct
{
  guint    first_word, n_words;
  guint    first_size, n_sizes;
  gboolean in_van;
} IndexedPart;

struct _TlSearch
{
  TlStock    *stock;
  TlLanguage *language;
  GPtrArray  *words;  /* (element-type utf8): each once */
  GHashTable *number; /* word -> number + 1 */
  GArray     *indexed_words;
  GArray     *sizes;
  GArray     *parts; /* in the order of the stock */
};

/* The size that parts of a kind are named by. */
static TlField
main_size (TlPartKind kind)
{
  switch (kind)
    {
    case TL_PART_CONDUCTOR:
    case TL_PART_FERRULE:
      return TL_FIELD_SECTION;
    case TL_PART_SLEEVE:
    case TL_PART_LUG:
      return TL_FIELD_STATED_SECTION;
    case TL_PART_BOLT:
    case TL_PART_NUT:
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
      return TL_FIELD_THREAD;
    case TL_PART_SEAL:
    case TL_PART_CAP:
      return TL_FIELD_EXPANDED;
    case TL_PART_BOX:
      return TL_FIELD_INNER_WIDTH;
    case TL_PART_FILLER:
    case TL_PART_COMPOUND:
    case TL_PART_SOLDER:
    case TL_PART_TERMINAL:
    case TL_PART_BRANCH:
    case TL_N_PART_KINDS:
    default:
      return TL_N_FIELDS;
    }
}

/* --- the index --- */

static guint
number_of (TlSearch *self, const char *word)
{
  guint number = GPOINTER_TO_UINT (g_hash_table_lookup (self->number, word));
  char *own;

  if (number > 0)
    return number - 1;
  own = g_strdup (word);
  g_ptr_array_add (self->words, own);
  g_hash_table_insert (self->number, own, GUINT_TO_POINTER (self->words->len));
  return self->words->len - 1;
}

static void
add_words (TlSearch *self, IndexedPart *part, const char *text, guint weight)
{
  g_autoptr (GPtrArray) words = NULL;

  if (text == NULL || *text == '\0')
    return;
  words = tl_search_words (text);
  for (guint i = 0; i < words->len; i++)
    {
      IndexedWord entry = { number_of (self, g_ptr_array_index (words, i)), weight };
      gboolean    is_there = FALSE;

      for (guint k = 0; k < part->n_words && !is_there; k++)
        {
          IndexedWord *have =
              &g_array_index (self->indexed_words, IndexedWord, part->first_word + k);

          is_there = have->word == entry.word;
          if (is_there)
            have->weight = MAX (have->weight, weight);
        }
      if (is_there)
        continue;
      g_array_append_val (self->indexed_words, entry);
      part->n_words++;
    }
}

/* Metals also by their symbol and by their other spelling. */
static const char *
also_called (TlLook look)
{
  switch (look)
    {
    case TL_LOOK_COPPER:
      return "Cu";
    case TL_LOOK_ALUMINIUM:
      return "Al aluminum";
    case TL_LOOK_TIN:
      return "Sn";
    case TL_LOOK_ZINC:
      return "Zn galvanised galvanized";
    case TL_LOOK_NICKEL:
      return "Ni";
    case TL_LOOK_STAINLESS:
      return "inox";
    case TL_LOOK_STEEL:
    case TL_LOOK_BRASS:
    case TL_LOOK_POLYMER:
    case TL_LOOK_ADHESIVE:
    case TL_LOOK_INSULATION:
    case TL_LOOK_COMPOUND:
    case TL_LOOK_AIR:
    case TL_N_LOOKS:
    default:
      return NULL;
    }
}

/* What a kind is called on site besides its name; common practice, no source. */
static const char *
site_words (TlPartKind kind)
{
  switch (kind)
    {
    case TL_PART_CONDUCTOR:
      return TL_N_ ("wire cable core");
    case TL_PART_BOLT:
      return TL_N_ ("screw stud");
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
      return TL_N_ ("lock washer spring");
    case TL_PART_SLEEVE:
      return TL_N_ ("crimp press splice through connector");
    case TL_PART_LUG:
      return TL_N_ ("crimp press eye ring cable shoe");
    case TL_PART_FERRULE:
      return TL_N_ ("crimp bootlace wire end");
    case TL_PART_SEAL:
      return TL_N_ ("heatshrink shrink tube tubing cover");
    case TL_PART_CAP:
      return TL_N_ ("cover end");
    case TL_PART_FILLER:
      return TL_N_ ("glue adhesive");
    case TL_PART_COMPOUND:
      return TL_N_ ("paste grease gel antioxidant inhibitor");
    case TL_PART_TERMINAL:
      return TL_N_ ("connector strip block clamp");
    case TL_PART_BRANCH:
      return TL_N_ ("tap clamp splitter");
    case TL_PART_NUT:
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SOLDER:
    case TL_PART_BOX:
    case TL_N_PART_KINDS:
    default:
      return NULL;
    }
}

static void
add_facts (TlSearch *self, IndexedPart *indexed, const TlPart *part)
{
  for (guint i = 0; i < tl_facts_count (part->facts); i++)
    {
      const TlFact      *fact = tl_facts_at (part->facts, i);
      const TlFieldInfo *info = tl_field_info (fact->field);
      guint              size = tl_size_of_field (fact->field);

      if (size < TL_N_SIZES)
        {
          IndexedSize entry = { fact->field, size, fact->value.best, fact->value.best,
                                fact->field == main_size (part->kind) };

          g_array_append_val (self->sizes, entry);
          indexed->n_sizes++;
        }
      else if (info->kind == TL_FIELD_KIND_ID && strcmp (fact->word, "none") != 0)
        {
          const TlMaterial *material = tl_stock_material (self->stock, fact->word);

          add_words (self, indexed, fact->word, WEIGHT_NAME);
          add_words (self, indexed, tl_material_name (self->stock, fact->word, self->language),
                     WEIGHT_NAME);
          if (material != NULL)
            add_words (self, indexed, also_called (material->look), WEIGHT_NAME);
        }
      else if (info->kind == TL_FIELD_KIND_WORD && info->words[0] != NULL
               && strcmp (info->words[0], "yes") != 0)
        {
          add_words (self, indexed, fact->word, WEIGHT_ASIDE);
          add_words (
              self, indexed,
              tl_language_text (self->language, tl_field_word_label (fact->field, fact->word)),
              WEIGHT_ASIDE);
        }
    }
}

static void
add_part (TlSearch *self, const TlPart *part)
{
  const TlLanguage *plain = tl_language_plain ();
  const TlPackMark *mark = tl_stock_mark (self->stock, part->id, NULL);
  g_autofree char  *name = tl_part_name (part->kind, part->facts, self->stock, self->language);
  g_autofree char  *plain_name = tl_part_name (part->kind, part->facts, self->stock, plain);
  IndexedPart       indexed = {
          .first_word = self->indexed_words->len,
          .first_size = self->sizes->len,
          .in_van = mark != NULL && mark->in_van,
  };

  add_words (self, &indexed, name, WEIGHT_NAME);
  add_words (self, &indexed, plain_name, WEIGHT_NAME);
  add_words (self, &indexed, tl_part_kind_word (part->kind), WEIGHT_NAME);
  add_words (self, &indexed, site_words (part->kind), WEIGHT_ASIDE);
  if (site_words (part->kind) != NULL)
    add_words (self, &indexed, tl_language_text (self->language, site_words (part->kind)),
               WEIGHT_ASIDE);
  add_facts (self, &indexed, part);
  add_words (self, &indexed, part->size, WEIGHT_ASIDE);
  add_words (self, &indexed, part->id, WEIGHT_ASIDE);
  if (mark != NULL)
    add_words (self, &indexed, mark->note, WEIGHT_ASIDE);
  g_array_append_val (self->parts, indexed);
}

TlSearch *
tl_search_new (const TlStock *stock, const TlLanguage *language)
{
  TlSearch        *self;
  const GPtrArray *parts;

  g_return_val_if_fail (stock != NULL && language != NULL, NULL);

  self = g_new0 (TlSearch, 1);
  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref (language);
  self->words = g_ptr_array_new_with_free_func (g_free);
  self->number = g_hash_table_new (g_str_hash, g_str_equal);
  self->indexed_words = g_array_new (FALSE, FALSE, sizeof (IndexedWord));
  self->sizes = g_array_new (FALSE, FALSE, sizeof (IndexedSize));
  self->parts = g_array_new (FALSE, FALSE, sizeof (IndexedPart));
  parts = tl_stock_parts (stock);
  for (guint i = 0; i < parts->len; i++)
    add_part (self, g_ptr_array_index (parts, i));
  return self;
}

void
tl_search_free (TlSearch *self)
{
  if (self == NULL)
    return;
  g_hash_table_unref (self->number);
  g_ptr_array_unref (self->words);
  g_array_unref (self->indexed_words);
  g_array_unref (self->sizes);
  g_array_unref (self->parts);
  tl_language_unref (self->language);
  tl_stock_unref (self->stock);
  g_free (self);
}

/* --- a query --- */

/* Worth of each word of the list for @term: 2 the whole word, 1 its beginning, 0 none. A number is no beginning. */
static guint8 *
score_words (const TlSearch *self, const TlTerm *term)
{
  guint8  *scores = g_new0 (guint8, self->words->len + 1);
  gsize    length = strlen (term->word);
  gboolean is_number = g_ascii_isdigit (*term->word);

  for (guint i = 0; length > 0 && i < self->words->len; i++)
    {
      const char *word = g_ptr_array_index (self->words, i);

      if (strncmp (word, term->word, length) == 0)
        scores[i] = word[length] == '\0' ? 2 : is_number ? 0 : 1;
    }
  return scores;
}

static guint
score_sizes (const TlSearch *self, const IndexedPart *part, const TlTerm *term)
{
  guint best = 0;

  for (guint i = 0; i < part->n_sizes; i++)
    {
      const IndexedSize *size = &g_array_index (self->sizes, IndexedSize, part->first_size + i);

      if (!term->has[size->size] || (term->only != TL_N_FIELDS && term->only != size->field)
          || size->high < term->size[size->size].low || size->low > term->size[size->size].high)
        continue;
      best = MAX (best, size->is_main ? SCORE_MAIN_SIZE : SCORE_SIZE);
    }
  return best;
}

static guint
score_term (const TlSearch *self, const IndexedPart *part, const TlTerm *term, const guint8 *scores)
{
  guint best = score_sizes (self, part, term);

  for (guint i = 0; i < part->n_words; i++)
    {
      const IndexedWord *word =
          &g_array_index (self->indexed_words, IndexedWord, part->first_word + i);

      best = MAX (best, SCORE_WORD * word->weight * scores[word->word]);
    }
  return best;
}

static int
compare_hits (gconstpointer a, gconstpointer b)
{
  const TlSearchHit *one = a, *two = b;

  if (one->score != two->score)
    return one->score > two->score ? -1 : 1;
  return one->order < two->order ? -1 : one->order > two->order;
}

/* Hits that miss at most @may_miss of the terms. */
static GArray *
collect (const TlSearch *self, const GPtrArray *terms, guint8 *const *scores, guint may_miss,
         const TlSearchFilter *filter)
{
  GArray          *hits = g_array_new (FALSE, FALSE, sizeof (TlSearchHit));
  const GPtrArray *parts = tl_stock_parts (self->stock);

  for (guint i = 0; i < self->parts->len; i++)
    {
      const IndexedPart *indexed = &g_array_index (self->parts, IndexedPart, i);
      TlSearchHit        hit = { g_ptr_array_index (parts, i), indexed->in_van ? 1 : 0, 0, i };

      for (guint k = 0; k < terms->len && hit.missed <= may_miss; k++)
        {
          guint score = score_term (self, indexed, g_ptr_array_index (terms, k), scores[k]);

          hit.score += SCORE_SCALE * score;
          hit.missed += score == 0;
        }
      if (hit.missed <= may_miss
          && (filter == NULL || tl_search_filter_fits (filter, self->stock, hit.part)))
        g_array_append_val (hits, hit);
    }
  return hits;
}

GArray *
tl_search_find (const TlSearch *self, const char *text, const TlSearchFilter *filter)
{
  g_autoptr (GPtrArray) terms = NULL;
  g_autoptr (GPtrArray) scores = g_ptr_array_new_with_free_func (g_free);
  GArray *hits;

  g_return_val_if_fail (self != NULL, NULL);

  terms = tl_search_terms (text != NULL ? text : "", self->language);
  for (guint i = 0; i < terms->len; i++)
    g_ptr_array_add (scores, score_words (self, g_ptr_array_index (terms, i)));
  hits = collect (self, terms, (guint8 *const *) scores->pdata, 0, filter);
  if (hits->len == 0 && terms->len >= 3)
    {
      g_array_unref (hits);
      hits = collect (self, terms, (guint8 *const *) scores->pdata, 1, filter);
    }
  g_array_sort (hits, compare_hits);
  return hits;
}
