/* criterion.c: the rows of the tables of inspection as one list.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/criterion.h"

#include "base/quantity.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* --- from the tables --- */

static const TlTable *
table_of (const TlStock *stock, const char *id)
{
  const TlTable *table = tl_stock_table (stock, id);

  if (table == NULL)
    g_critical ("there is no table %s", id);
  return table;
}

static TlCriterion *
add (GPtrArray *list, const TlTable *table, const TlTableRow *row, TlCriterionUse use)
{
  TlCriterion *self = g_new0 (TlCriterion, 1);

  self->id = row->id;
  self->use = use;
  self->object = self->says = self->unit = self->of = "";
  self->low = self->most = self->floor_mm = NAN;
  self->note = row->note != NULL ? row->note : "";
  self->source = row->source;
  self->known_by = row->known_by;
  tl_grade_from_catalogue (tl_table_word (table, row, "severity"), &self->grade);
  g_ptr_array_add (list, self);
  return self;
}

static void
add_bands (GPtrArray *list, const TlStock *stock)
{
  const TlTable *table = table_of (stock, "inspection-bands"),
                *scales = table_of (stock, "inspection-scales");

  for (guint i = 0; table != NULL && scales != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      const TlTableRow *scale =
          tl_stock_row (stock, "inspection-scales", "*", tl_table_word (table, row, "scale"), NULL);
      TlCriterion *self = add (list, table, row, TL_CRITERION_BAND);

      self->object = scale != NULL ? tl_table_word (scales, scale, "object") : "";
      self->criterion = scale != NULL ? tl_table_word (scales, scale, "criterion") : "";
      self->says = tl_table_word (table, row, "says");
      self->unit = tl_table_word (table, row, "unit");
      if (!tl_table_number (table, row, "above", &self->low))
        self->low = NAN;
      if (!tl_table_number (table, row, "to", &self->most))
        self->most = NAN;
    }
}

static void
add_limits (GPtrArray *list, const TlStock *stock)
{
  const TlTable *table = table_of (stock, "inspection-limits");

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      TlCriterion      *self = add (list, table, row, TL_CRITERION_LIMIT);

      self->criterion = tl_table_word (table, row, "about");
      self->unit = tl_table_word (table, row, "unit");
      if (!tl_table_number (table, row, "value", &self->low))
        self->low = NAN;
    }
}

static TlMeasureKind
kind_of (const char *word)
{
  for (guint i = 0; i < TL_N_MEASURE_KINDS; i++)
    if (strcmp (tl_measure_kind_word (i), word) == 0)
      return i;
  g_critical ("no kind of measure is called %s", word);
  return TL_MEASURE_LENGTH;
}

static TlLimitKind
bound_of (const char *word)
{
  return strcmp (word, "least") == 0  ? TL_LIMIT_LEAST
         : strcmp (word, "most") == 0 ? TL_LIMIT_MOST
                                      : TL_LIMIT_BETWEEN;
}

static void
add_measures (GPtrArray *list, const TlStock *stock)
{
  const TlTable *table = table_of (stock, "inspection-measures");

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      TlCriterion      *self = add (list, table, row, TL_CRITERION_MEASURE);

      self->object = tl_table_word (table, row, "object");
      self->criterion = tl_table_word (table, row, "criterion");
      self->kind = kind_of (tl_table_word (table, row, "kind"));
      self->bound = bound_of (tl_table_word (table, row, "bound"));
      self->of = tl_table_word (table, row, "of");
      self->unit = tl_table_word (table, row, "unit");
      if (!tl_table_number (table, row, "low", &self->low))
        self->low = NAN;
      if (!tl_table_number (table, row, "most", &self->most))
        self->most = NAN;
      if (!tl_table_number (table, row, "floor", &self->floor_mm))
        self->floor_mm = NAN;
    }
}

static void
add_looks (GPtrArray *list, const TlStock *stock)
{
  const TlTable *table = table_of (stock, "inspection-criteria");

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      TlCriterion      *self = add (list, table, row, TL_CRITERION_LOOK);

      self->object = tl_table_word (table, row, "object");
      self->criterion = tl_table_word (table, row, "criterion");
      self->says = tl_table_word (table, row, "limit");
    }
}

GPtrArray *
tl_criteria_new (const TlStock *stock)
{
  GPtrArray *list;

  g_return_val_if_fail (stock != NULL, NULL);

  list = g_ptr_array_new_with_free_func (g_free);
  add_bands (list, stock);
  add_limits (list, stock);
  add_measures (list, stock);
  add_looks (list, stock);
  return list;
}

const TlCriterion *
tl_criteria_find (const GPtrArray *criteria, const char *id)
{
  for (guint i = 0; i < criteria->len; i++)
    if (strcmp (((const TlCriterion *) g_ptr_array_index (criteria, i))->id, id) == 0)
      return g_ptr_array_index (criteria, i);
  return NULL;
}

/* --- words --- */

static const char *
in (const TlLanguage *language, const char *msgid)
{
  return *msgid != '\0' ? tl_language_text (language, msgid) : "";
}

char *
tl_criterion_text (const TlCriterion *self, const TlLanguage *language)
{
  return g_strdup_printf ("%s%s%s", in (language, self->object), *self->object != '\0' ? ": " : "",
                          in (language, self->criterion));
}

static char *
band_text (const TlCriterion *self, const TlLanguage *language)
{
  g_autofree char *low = tl_quantity_format (self->low, self->unit, language), *most = NULL,
                  *range = NULL;

  if (!isfinite (self->most))
    range = g_strdup_printf (tl_language_text (language, TL_N_ ("above %s")), low);
  else
    {
      most = tl_quantity_format (self->most, self->unit, language);
      range = g_strdup_printf (tl_language_text (language, TL_N_ ("above %s to %s")), low, most);
    }
  return g_strdup_printf ("%s: %s", range, in (language, self->says));
}

static char *
bound_text (const TlCriterion *self, const TlLanguage *language)
{
  g_autofree char *low =
      isfinite (self->low) ? tl_quantity_format (self->low, self->unit, language) : NULL;
  g_autofree char *most =
      isfinite (self->most) ? tl_quantity_format (self->most, self->unit, language) : NULL;

  switch (self->bound)
    {
    case TL_LIMIT_LEAST:
      return g_strdup_printf (tl_language_text (language, TL_N_ ("at least %s")), low);
    case TL_LIMIT_MOST:
      return g_strdup_printf (tl_language_text (language, TL_N_ ("at most %s")), most);
    case TL_LIMIT_BETWEEN:
      return g_strdup_printf (tl_language_text (language, TL_N_ ("%s to %s")), low, most);
    case TL_LIMIT_NONE:
    default:
      return g_strdup ("");
    }
}

static char *
measure_text (const TlCriterion *self, const TlLanguage *language)
{
  g_autofree char *bound = bound_text (self, language), *times = NULL, *least = NULL;

  if (*self->of == '\0')
    return g_steal_pointer (&bound);
  if (self->bound == TL_LIMIT_MOST && self->most == 1.0)
    return g_strdup_printf (tl_language_text (language, TL_N_ ("at most the %s")),
                            in (language, self->of));
  times = g_strdup_printf (tl_language_text (language, TL_N_ ("%s times the %s")), bound,
                           in (language, self->of));
  if (!isfinite (self->floor_mm))
    return g_steal_pointer (&times);
  least = tl_quantity_format (self->floor_mm, "mm", language);
  return g_strdup_printf (tl_language_text (language, TL_N_ ("%s, not below %s")), times, least);
}

char *
tl_criterion_limit_text (const TlCriterion *self, const TlLanguage *language)
{
  switch (self->use)
    {
    case TL_CRITERION_BAND:
      return band_text (self, language);
    case TL_CRITERION_LIMIT:
      return tl_quantity_format (self->low, self->unit, language);
    case TL_CRITERION_MEASURE:
      return measure_text (self, language);
    case TL_CRITERION_LOOK:
    default:
      return g_strdup (in (language, self->says));
    }
}

/* --- search --- */

static gboolean
has_words (const TlCriterion *self, char **words, const TlStock *stock, const TlLanguage *language)
{
  const TlLanguage *languages[] = { tl_language_plain (), language };
  g_autoptr (GString) all = g_string_new (self->id);
  g_autofree char *folded = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (languages); i++)
    {
      g_autofree char *text = tl_criterion_text (self, languages[i]);
      g_autofree char *limit = tl_criterion_limit_text (self, languages[i]);
      g_autofree char *source =
          tl_source_citation (stock, self->source, self->known_by, languages[i]);

      g_string_append_printf (all, " %s %s %s %s", text, limit, source,
                              in (languages[i], self->note));
    }
  folded = g_utf8_casefold (all->str, -1);
  for (; *words != NULL; words++)
    if (strstr (folded, *words) == NULL)
      return FALSE;
  return TRUE;
}

GPtrArray *
tl_criteria_search (const GPtrArray *criteria, const char *words, const TlStock *stock,
                    const TlLanguage *language)
{
  g_autofree char *folded = g_utf8_casefold (words, -1);
  g_auto (GStrv) list = g_strsplit (folded, " ", -1);
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < criteria->len; i++)
    {
      TlCriterion *self = g_ptr_array_index (criteria, i);

      if (has_words (self, list, stock, language))
        g_ptr_array_add (found, self);
    }
  return found;
}

/* --- taken over --- */

gboolean
tl_measure_set_criterion (TlMeasure *self, const TlCriterion *criterion, double reference_mm,
                          const TlStock *stock, const TlLanguage *language, GError **error)
{
  gboolean         is_ratio = *criterion->of != '\0';
  double           times = is_ratio ? reference_mm : 1.0;
  double           low = isfinite (criterion->low) ? criterion->low * times : 0.0;
  double           most = isfinite (criterion->most) ? criterion->most * times : 0.0;
  g_autofree char *text = tl_criterion_text (criterion, language);

  if (criterion->use != TL_CRITERION_MEASURE || criterion->kind != self->kind)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("“%s” is no criterion of a measure of this kind; choose another."), text);
      return FALSE;
    }
  if (is_ratio && !(isfinite (reference_mm) && reference_mm > 0.0))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("“%s” is judged by the %s, which is missing; give it in mm, above 0."), text,
                   in (language, criterion->of));
      return FALSE;
    }
  if (isfinite (criterion->floor_mm))
    low = MAX (low, criterion->floor_mm);
  self->limit_kind = criterion->bound;
  self->limit = criterion->bound == TL_LIMIT_MOST ? most : low;
  self->limit_most = criterion->bound == TL_LIMIT_BETWEEN ? most : 0.0;
  g_free (self->limit_from);
  self->limit_from = tl_source_citation (stock, criterion->source, criterion->known_by, language);
  return TRUE;
}

void
tl_picture_mark_set_criterion (TlPictureMark *self, const TlCriterion *criterion,
                               const TlLanguage *language)
{
  g_autofree char *text = tl_criterion_text (criterion, language);
  g_autofree char *limit = tl_criterion_limit_text (criterion, language);

  g_free (self->criterion);
  self->criterion = g_strdup_printf ("%s: %s", text, limit);
  tl_record_text (&self->source, criterion->source);
}
