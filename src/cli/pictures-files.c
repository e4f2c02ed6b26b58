/* pictures-files.c: the chain and the list of criteria as text.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/pictures-private.h"
#include "picture/criterion.h"

/* --- the chain --- */

char *
tl_picture_list_chain (const TlPictureList *self)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < self->inspections->custody->len; i++)
    {
      const TlCustody *entry = g_ptr_array_index (self->inspections->custody, i);

      g_string_append_printf (out, "%u  %s  %s  %s %s  %s\n", entry->number, entry->when,
                              entry->who, entry->act, entry->object, entry->link);
    }
  return g_string_free (out, FALSE);
}

/* --- criteria --- */

char *
tl_picture_criteria_text (const TlStock *stock, const char *words, const TlLanguage *language)
{
  g_autoptr (GPtrArray) all = tl_criteria_new (stock);
  g_autoptr (GPtrArray) found = tl_criteria_search (all, words, stock, language);
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    {
      const TlCriterion *criterion = g_ptr_array_index (found, i);
      g_autofree char   *text = tl_criterion_text (criterion, language),
                      *limit = tl_criterion_limit_text (criterion, language),
                      *source = tl_source_citation (stock, criterion->source, criterion->known_by,
                                                    language);

      g_string_append_printf (out, "%s  %s  %s: %s [%s]\n", criterion->id,
                              tl_language_text (language, tl_grade_label (criterion->grade)), text,
                              limit, source);
      if (*criterion->note != '\0')
        g_string_append_printf (out, "    %s\n", tl_language_text (language, criterion->note));
    }
  return g_string_free (out, FALSE);
}
