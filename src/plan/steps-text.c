/* steps-text.c: the step sheet as plain text.
 *
 * The same content in the same order as on paper; for the terminal, the screen reader and tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps.h"

#include <string.h>

static void
heading (GString *out, const TlLanguage *language, const char *msgid)
{
  g_string_append_printf (out, "\n%s\n", tl_language_text (language, msgid));
}

static void
append_texts (GString *out, const GPtrArray *texts, const char *before)
{
  for (guint i = 0; i < texts->len; i++)
    g_string_append_printf (out, "%s%s\n", before, (const char *) g_ptr_array_index (texts, i));
}

static void
append_lines (GString *out, const GPtrArray *lines, const char *before)
{
  for (guint i = 0; i < lines->len; i++)
    {
      const TlLine *line = g_ptr_array_index (lines, i);

      if (*line->value != '\0')
        g_string_append_printf (out, "%s%s: %s\n", before, line->label, line->value);
      else
        g_string_append_printf (out, "%s%s\n", before, line->label);
    }
}

static void
append_head (GString *out, const TlStepSheet *self, const TlLanguage *language)
{
  g_string_append_printf (out, "%s\n%s\n", self->name, self->subtitle);
  if (*self->place != '\0')
    g_string_append_printf (out, "%s: %s\n", tl_language_text (language, TL_N_ ("Place")),
                            self->place);
  if (*self->prepared_by != '\0')
    g_string_append_printf (out, "%s: %s\n", tl_language_text (language, TL_N_ ("Prepared by")),
                            self->prepared_by);
  if (*self->date != '\0')
    g_string_append_printf (out, "%s: %s\n", tl_language_text (language, TL_N_ ("Date")),
                            self->date);
  g_string_append_printf (out, "%s: %s\n", tl_language_text (language, TL_N_ ("Verdict")),
                          self->verdict_word);
  if (self->fault_example)
    g_string_append_printf (out, "*** %s ***\n",
                            tl_language_text (language, TL_N_ ("Example of a fault")));
  if (*self->banner != '\0')
    g_string_append_printf (out, "*** %s ***\n", self->banner);
}

static void
append_parts (GString *out, const TlStepSheet *self, const TlLanguage *language)
{
  heading (out, language, TL_N_ ("Parts"));
  for (guint i = 0; i < self->parts->len; i++)
    {
      const TlPartLine *part = g_ptr_array_index (self->parts, i);

      if (part->number > 0)
        g_string_append_printf (out, "  (%u) ", part->number);
      else
        g_string_append (out, "  --- ");
      g_string_append_printf (out, *part->size != '\0' ? "%s, %s\n" : "%s%s\n", part->name,
                              part->size);
    }
}

static void
append_step (GString *out, const TlStep *step, const TlLanguage *language)
{
  if (step->is_hold)
    g_string_append_printf (out, "%s %s  [ ] %s\n      %s %s\n",
                            tl_language_text (language, TL_N_ ("HOLD")), step->letter, step->text,
                            tl_language_text (language, TL_N_ ("If not:")), step->if_not);
  else
    g_string_append_printf (out, "[ ] %u  %s\n", step->number, step->text);
  append_lines (out, step->figures, "      ");
  if (step->is_hold)
    g_string_append_printf (out, "      %s ____________\n",
                            tl_language_text (language, TL_N_ ("measured:")));
}

static void
append_plan (GString *out, const TlStepSheet *self, const TlLanguage *language)
{
  heading (out, language, TL_N_ ("Tools"));
  append_lines (out, self->tools, "  ");
  heading (out, language, TL_N_ ("Steps"));
  for (guint i = 0; i < self->steps->len; i++)
    append_step (out, g_ptr_array_index (self->steps, i), language);
  if (self->findings->len > 0)
    {
      heading (out, language, TL_N_ ("To be watched"));
      append_lines (out, self->findings, "  ");
    }
  heading (out, language, TL_N_ ("Record"));
  for (guint i = 0; i < self->record->len; i++)
    g_string_append_printf (out, "  %s: ____________\n",
                            (const char *) g_ptr_array_index (self->record, i));
  heading (out, language, TL_N_ ("Upkeep"));
  g_string_append_printf (out, "  %s\n  %s: %s\n", self->upkeep,
                          tl_language_text (language, TL_N_ ("Next look")), self->next_look);
  heading (out, language, TL_N_ ("Cut out for the box cover"));
  append_texts (out, self->label, "  ");
}

static void
append_instead (GString *out, const TlStepSheet *self, const TlLanguage *language)
{
  if (self->no_joint)
    heading (out, language, TL_N_ ("No joint recommended"));
  heading (out, language, TL_N_ ("What to do instead"));
  append_texts (out, self->instead, "  ");
}

char *
tl_steps_to_text (const TlStepSheet *self, const TlLanguage *language)
{
  GString *out = g_string_new (NULL);

  g_return_val_if_fail (self != NULL, g_string_free (out, FALSE));

  append_head (out, self, language);
  heading (out, language, TL_N_ ("First, and before any step"));
  append_texts (out, self->cautions, "[ ] ");
  append_parts (out, self, language);
  if (self->state == TL_SHEET_REFUSED)
    {
      heading (out, language, TL_N_ ("Not to be made as drawn"));
      append_lines (out, self->refusals, "  ");
      append_instead (out, self, language);
    }
  else
    {
      append_plan (out, self, language);
      if (self->no_joint)
        append_instead (out, self, language);
    }
  if (self->assumed->len > 0)
    {
      heading (out, language, TL_N_ ("Assumed, please check"));
      append_texts (out, self->assumed, "  ");
    }
  g_string_append_printf (out, "\n%s\n", self->foot);
  return g_string_free (out, FALSE);
}
