/* job-text.c: a folder of joints as plain text: register, parts, tools, upkeep.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/job.h"

static const char *
text (const TlLanguage *language, const char *msgid)
{
  return tl_language_text (language, msgid);
}

static void
append_row (GString *out, const TlJobRow *row, const TlLanguage *language)
{
  g_string_append_printf (out, "%4u  %-10s  %s\n", row->number,
                          text (language, tl_job_row_word (row)), tl_job_row_name (row));
  if (row->joint == NULL)
    {
      g_string_append_printf (out, "      %s\n", row->message);
      return;
    }
  g_string_append_printf (out, "      %s%s%s\n", row->file, *row->steps->place != '\0' ? " · " : "",
                          row->steps->place);
  if (*row->reason != '\0')
    g_string_append_printf (out, "      %s\n", row->reason);
}

static void
append_parts (GString *out, const TlJob *self, const TlLanguage *language)
{
  gboolean there = FALSE;

  g_string_append_printf (out, "\n%s\n", text (language, TL_N_ ("Parts")));
  for (guint i = 0; i < self->effort->parts->len; i++)
    {
      const TlEffortPart *part = g_ptr_array_index (self->effort->parts, i);
      g_autofree char    *quantity = tl_effort_quantity (part, language);

      if (part->is_there && !there)
        g_string_append_printf (out, "  %s\n", text (language, TL_N_ ("There already:")));
      there = part->is_there;
      g_string_append_printf (out, "  %s  %s%s%s", quantity, part->name,
                              *part->size != '\0' ? ", " : "", part->size);
      if (part->has_price)
        {
          g_autofree char *price = tl_language_number (language, part->price, 2);

          g_string_append_printf (out, "  %s%s%s", price, *part->currency != '\0' ? " " : "",
                                  part->currency);
        }
      if (part->is_short)
        g_string_append_printf (out, "  (%s)", text (language, TL_N_ ("more than there is")));
      g_string_append_c (out, '\n');
    }
}

static void
append_tools (GString *out, const TlJob *self, const TlLanguage *language)
{
  if (self->effort->tools->len == 0)
    return;
  g_string_append_printf (out, "\n%s\n", text (language, TL_N_ ("Tools")));
  for (guint i = 0; i < self->effort->tools->len; i++)
    g_string_append_printf (out, "  %s\n",
                            ((TlEffortTool *) g_ptr_array_index (self->effort->tools, i))->name);
}

static void
append_effort (GString *out, const TlJob *self, const TlLanguage *language)
{
  g_autofree char *minutes = tl_effort_minutes_text (self->effort, language);
  g_autofree char *price = tl_effort_price_text (self->effort, language);
  g_autofree char *left_out = g_strdup_printf ("%u", self->effort->without_steps);

  if (*minutes != '\0')
    g_string_append_printf (out, "\n%s: %s\n", text (language, TL_N_ ("Work")), minutes);
  if (*price != '\0')
    g_string_append_printf (out, "\n%s: %s\n", text (language, TL_N_ ("Price of the parts")),
                            price);
  if (self->effort->without_steps > 0)
    {
      g_autofree char *line = tl_wording_fill (
          tl_language_plural (language,
                              "{n} joint is not to be made as drawn and takes no part here.",
                              "{n} joints are not to be made as drawn and take no part here.",
                              self->effort->without_steps),
          "n", left_out, NULL);

      g_string_append_printf (out, "\n%s\n", line);
    }
}

static void
append_upkeep (GString *out, const TlJob *self, const TlLanguage *language)
{
  guint undated = tl_job_count_undated (self);

  g_string_append_printf (out, "\n%s\n", text (language, TL_N_ ("Look again")));
  for (guint i = 0; i < self->rows->len; i++)
    {
      const TlJobRow *row = g_ptr_array_index (self->rows, i);

      if (!row->has_look)
        continue;
      g_string_append_printf (out, "  %04d-%02d-%02d  %s%s%s%s\n", g_date_get_year (&row->look),
                              (int) g_date_get_month (&row->look), g_date_get_day (&row->look),
                              row->steps->name, row->is_overdue ? " (" : "",
                              row->is_overdue ? text (language, TL_N_ ("overdue")) : "",
                              row->is_overdue ? ")" : "");
    }
  if (undated > 0)
    {
      g_autofree char *count = g_strdup_printf ("%u", undated);
      g_autofree char *line = tl_wording_fill (
          tl_language_plural (
              language,
              "{n} joint says no day on which it was made, and no day of the job was given.",
              "{n} joints say no day on which they were made, and no day of the job was given.",
              undated),
          "n", count, NULL);

      g_string_append_printf (out, "  %s\n", line);
    }
}

char *
tl_job_summary (const TlJob *self, const TlLanguage *language)
{
  g_autofree char *count = g_strdup_printf ("%u", self->rows->len);
  g_autofree char *worse = g_strdup_printf ("%u", tl_job_count_worse (self));
  const char      *msgid = tl_language_plural (
           language, "{n} joint in {folder}; to be changed, finished or read: {worse}.",
           "{n} joints in {folder}; to be changed, finished or read: {worse}.", self->rows->len);

  return tl_wording_fill (msgid, "n", count, "folder", self->folder, "worse", worse, NULL);
}

char *
tl_job_to_text (const TlJob *self, const TlLanguage *language)
{
  GString         *out = g_string_new (NULL);
  g_autofree char *head = tl_job_summary (self, language);

  g_string_append_printf (out, "%s\n", head);
  for (guint i = 0; i < self->rows->len; i++)
    append_row (out, g_ptr_array_index (self->rows, i), language);
  append_parts (out, self, language);
  append_tools (out, self, language);
  append_effort (out, self, language);
  append_upkeep (out, self, language);
  g_string_append_printf (
      out, "\n%s\n",
      text (language,
            TL_N_ ("These joints only; the other old joints of the circuits are not judged. "
                   "The local code and a licensed person have the last word.")));
  return g_string_free (out, FALSE);
}
