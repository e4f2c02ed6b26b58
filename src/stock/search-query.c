/* search-query.c: what a person typed, cut into words and sizes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/search-private.h"

#include "base/quantity.h"

#include <string.h>

/* Longest query that is looked at; the rest is cut off. */
#define LONGEST_TEXT 256
#define MOST_TERMS 16

/* A size in another unit than the field's is printed rounded on parts: 12 AWG is 3.31 mm², 1/2 in is 12.7 mm. */
#define ROUNDING_RATIO 0.01
#define SAME_RATIO 1e-6

const char *const tl_size_units[TL_N_SIZES] = {
  [TL_SIZE_LENGTH] = "mm",
  [TL_SIZE_AREA] = "mm2",
  [TL_SIZE_VOLUME] = "cm3",
};

guint
tl_size_of_field (TlField field)
{
  const TlFieldInfo *info = tl_field_info (field);

  for (guint i = 0; info->kind == TL_FIELD_KIND_NUMBER && i < TL_N_SIZES; i++)
    if (strcmp (info->unit, tl_size_units[i]) == 0)
      return i;
  return TL_N_SIZES;
}

/* --- pieces --- */

static gboolean
is_times (gunichar c)
{
  return c == 'x' || c == 'X' || c == 0xd7;
}

static gboolean
begins_number (const char *p)
{
  return g_ascii_isdigit (*p) || ((*p == '.' || *p == ',') && g_ascii_isdigit (p[1]));
}

/* Text between spaces, without a comma or semicolon behind; "M5x20" and "10×5.3" are cut at the cross. */
static void
add_pieces (GPtrArray *pieces, const char *text, gsize length)
{
  g_autofree char *piece = NULL;
  char            *start;

  while (length > 0 && strchr (",;:()", text[length - 1]) != NULL)
    length--;
  piece = g_strndup (text, length);
  start = piece;
  for (char *p = piece; *p != '\0'; p = g_utf8_next_char (p))
    {
      char *next = g_utf8_next_char (p);

      if (p == start || !is_times (g_utf8_get_char (p)) || !g_ascii_isdigit (p[-1])
          || !begins_number (next))
        continue;
      g_ptr_array_add (pieces, g_strndup (start, (gsize) (p - start)));
      start = next;
    }
  if (*start != '\0' && !(is_times (g_utf8_get_char (start)) && *g_utf8_next_char (start) == '\0'))
    g_ptr_array_add (pieces, g_strdup (start));
}

static GPtrArray *
cut (const char *text)
{
  GPtrArray       *pieces = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *valid = g_utf8_make_valid (text, (gssize) strnlen (text, LONGEST_TEXT));
  const char      *start = NULL;

  for (const char *p = valid;; p = g_utf8_next_char (p))
    {
      gboolean is_space = *p == '\0' || g_unichar_isspace (g_utf8_get_char (p)) || *p == '('
                          || g_utf8_get_char (p) == 0x202f;

      if (is_space && start != NULL)
        add_pieces (pieces, start, (gsize) (p - start));
      if (*p == '\0')
        return pieces;
      if (is_space)
        start = NULL;
      else if (start == NULL)
        start = p;
    }
}

static char *
fold (const char *text)
{
  g_autofree char *plain = g_utf8_normalize (text, -1, G_NORMALIZE_ALL_COMPOSE);

  return g_utf8_casefold (plain != NULL ? plain : text, -1);
}

GPtrArray *
tl_search_words (const char *text)
{
  g_autoptr (GPtrArray) pieces = cut (text);
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < pieces->len; i++)
    {
      g_autofree char *folded = fold (g_ptr_array_index (pieces, i));
      g_auto (GStrv) parts = g_strsplit_set (folded, "-/,", -1);

      for (guint k = 0; parts[k] != NULL; k++)
        if (*parts[k] != '\0')
          g_ptr_array_add (words, g_strdup (parts[k]));
      if (parts[0] != NULL && parts[1] != NULL)
        g_ptr_array_add (words, g_steal_pointer (&folded));
    }
  return words;
}

/* --- terms --- */

static void
term_free (gpointer data)
{
  TlTerm *term = data;

  g_free (term->word);
  g_free (term);
}

static gboolean
is_number (const char *piece)
{
  return begins_number (piece) && piece[strspn (piece, "0123456789.,/")] == '\0';
}

static gboolean
is_fraction (const char *piece)
{
  return g_ascii_isdigit (*piece) && strchr (piece, '/') != NULL && is_number (piece);
}

static gboolean
is_awg (const char *piece)
{
  return g_ascii_strcasecmp (piece, "AWG") == 0;
}

static gboolean
is_unit (const char *piece)
{
  return is_awg (piece) || (strcmp (piece, "1") != 0 && tl_unit_is_known (piece));
}

/* Bounds of @text in the unit of @size, widened by rounding where it stands in another unit. */
static gboolean
parse_size (const char *text, guint size, TlRange *range)
{
  gsize  digits = strspn (text, "0123456789.,/ ");
  double share = SAME_RATIO;

  if (!tl_quantity_parse_range (text, tl_size_units[size], range, NULL) || range->low < 0.0)
    return FALSE;
  if (text[digits] != '\0' && strcmp (tl_unit_label (tl_size_units[size]), text + digits) != 0
      && strcmp (tl_size_units[size], text + digits) != 0)
    share = ROUNDING_RATIO;
  range->low *= 1.0 - share;
  range->high *= 1.0 + share;
  return TRUE;
}

static TlTerm *
term_new (const char *text)
{
  TlTerm *term = g_new0 (TlTerm, 1);

  term->word = fold (text);
  term->only = TL_N_FIELDS;
  if (begins_number (text))
    for (guint i = 0; i < TL_N_SIZES; i++)
      term->has[i] = parse_size (text, i, &term->size[i]);
  return term;
}

/* "M5": a thread. */
static gboolean
read_thread (TlTerm *term, const char *text)
{
  if ((*text != 'm' && *text != 'M') || !is_number (text + 1)
      || !parse_size (text + 1, TL_SIZE_LENGTH, &term->size[TL_SIZE_LENGTH]))
    return FALSE;
  term->has[TL_SIZE_LENGTH] = TRUE;
  term->only = TL_FIELD_THREAD;
  return TRUE;
}

/* The field of a size that @piece names by its key or its label. */
static gboolean
names_field (const char *piece, const TlLanguage *language, TlField *field)
{
  g_autofree char *folded = fold (piece);

  for (guint i = 0; i < TL_N_FIELDS; i++)
    {
      const TlFieldInfo *info = tl_field_info ((TlField) i);
      g_autofree char   *label = NULL;

      if (tl_size_of_field ((TlField) i) == TL_N_SIZES)
        continue;
      label = fold (tl_language_text (language, info->label));
      if (strcmp (folded, info->key) != 0 && strcmp (folded, label) != 0)
        continue;
      *field = (TlField) i;
      return TRUE;
    }
  return FALSE;
}

/* How many pieces from @at on make one size, and its text: "1 1/2 in", "12 AWG", "AWG 12", "2.5". */
static guint
join_size (const GPtrArray *pieces, guint at, char **text)
{
  const char *const *piece = (const char *const *) pieces->pdata + at;
  guint              left = pieces->len - at, n = 1;
  g_autoptr (GString) joined = NULL;

  *text = NULL;
  if (left > 1 && is_awg (piece[0]) && is_number (piece[1]))
    {
      *text = g_strconcat (piece[1], " AWG", NULL);
      return 2;
    }
  if (!begins_number (piece[0]))
    return 0;
  joined = g_string_new (piece[0]);
  if (left > n && is_number (piece[0]) && !is_fraction (piece[0]) && is_fraction (piece[n]))
    g_string_append_printf (joined, " %s", piece[n++]);
  if (left > n && is_unit (piece[n]))
    g_string_append_printf (joined, " %s", piece[n++]);
  *text = g_string_free (g_steal_pointer (&joined), FALSE);
  return n;
}

GPtrArray *
tl_search_terms (const char *text, const TlLanguage *language)
{
  g_autoptr (GPtrArray) pieces = cut (text);
  GPtrArray *terms = g_ptr_array_new_with_free_func (term_free);

  for (guint i = 0; i < pieces->len && terms->len < MOST_TERMS;)
    {
      const char      *piece = g_ptr_array_index (pieces, i);
      g_autofree char *size = NULL;
      TlField          field;
      guint            n = join_size (pieces, i, &size);
      TlTerm          *term;

      if (n > 0)
        {
          g_ptr_array_add (terms, term_new (size));
          i += n;
          continue;
        }
      if (i + 1 < pieces->len && begins_number (g_ptr_array_index (pieces, i + 1))
          && names_field (piece, language, &field))
        {
          n = join_size (pieces, i + 1, &size);
          term = term_new (size);
          term->only = field;
          g_clear_pointer (&term->word, g_free);
          term->word = g_strdup ("");
          g_ptr_array_add (terms, term);
          i += 1 + n;
          continue;
        }
      term = term_new (piece);
      read_thread (term, piece);
      g_ptr_array_add (terms, term);
      i++;
    }
  return terms;
}
