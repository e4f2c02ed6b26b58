/* sheet.c: the step sheet as a PDF file or as text in the terminal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/sheet.h"

#include "cli/common.h"
#include "draw/sheet.h"

#include <glib/gi18n-lib.h>
#include <gio/gio.h>
#include <string.h>

typedef struct
{
  char    *output, *paper, *date, *tag, *practice;
  gboolean as_text;
} Options;

static void
options_clear (Options *self)
{
  g_free (self->output);
  g_free (self->paper);
  g_free (self->date);
  g_free (self->tag);
  g_free (self->practice);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static gboolean
is_day (const char *date)
{
  g_auto (GStrv) fields = g_strsplit (date, "-", 4);
  guint64 year, month, day;

  return strlen (date) == 10 && g_strv_length (fields) == 3
         && g_ascii_string_to_unsigned (fields[0], 10, 1900, 9999, &year, NULL)
         && g_ascii_string_to_unsigned (fields[1], 10, 1, 12, &month, NULL)
         && g_ascii_string_to_unsigned (fields[2], 10, 1, 31, &day, NULL)
         && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year);
}

static gboolean
paper_of (const char *word, const TlLanguage *language, TlPaper *paper)
{
  if (word == NULL)
    *paper = tl_language_paper (language);
  else if (strcmp (word, "a4") == 0)
    *paper = TL_PAPER_A4;
  else if (strcmp (word, "letter") == 0)
    *paper = TL_PAPER_LETTER;
  else
    return FALSE;
  return TRUE;
}

static gboolean
is_same_file (const char *a, const char *b)
{
  g_autoptr (GFile) file_a = g_file_new_for_path (a);
  g_autoptr (GFile) file_b = g_file_new_for_path (b);

  return g_file_equal (file_a, file_b);
}

/* The language asked for, else that of the document's sheet, else that of the terminal. (transfer
 * full) */
static TlLanguage *
language_of (const Options *options, const TlJoint *joint, const TlLanguage *language)
{
  const char *tag = options->tag;
  TlUnits units = g_strcmp0 (joint->units, "customary") == 0 ? TL_UNITS_CUSTOMARY : TL_UNITS_METRIC;

  if (tag == NULL && joint->sheet_language != NULL && *joint->sheet_language != '\0')
    tag = joint->sheet_language;
  return tl_language_new (tag != NULL ? tag : tl_language_tag (language), units);
}

static int
write_sheet (const Options *options, const char *path, const TlLanguage *terminal)
{
  g_autoptr (TlVerdict) verdict = tl_cli_judge (path, options->practice);
  g_autoptr (TlLanguage) language = NULL;
  g_autoptr (GError) error = NULL;
  TlPaper paper = TL_PAPER_A4;

  if (verdict == NULL)
    return TL_CLI_BAD;
  language = language_of (options, verdict->assembly->joint, terminal);
  if (!paper_of (options->paper, language, &paper))
    return tl_cli_fail_text (_ ("There is no paper “%s”; there are: a4, letter."), options->paper);
  /* The file first: where it fails nothing has been said yet. */
  if (options->output != NULL)
    {
      g_autoptr (TlSheet) sheet = tl_sheet_new (verdict, paper, options->date, language);

      if (!tl_sheet_save_pdf (sheet, options->output, &error))
        return tl_cli_fail (error);
    }
  if (options->as_text)
    {
      g_autoptr (TlStepSheet) steps = tl_steps_new (verdict, options->date, language);
      g_autofree char *text = tl_steps_to_text (steps, language);

      g_print ("%s", text);
    }
  return tl_cli_exit_of (verdict);
}

int
tl_cli_sheet (int argc, char **argv, const TlLanguage *language)
{
  g_auto (Options) options = { 0 };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &options.output, N_ ("PDF file to write"),
      N_ ("OUT.pdf") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &options.paper, N_ ("Paper: a4 or letter"), N_ ("NAME") },
    { "date", 0, 0, G_OPTION_ARG_STRING, &options.date, N_ ("Day to print, YYYY-MM-DD"),
      N_ ("DAY") },
    { "text", 0, 0, G_OPTION_ARG_NONE, &options.as_text, N_ ("Print the sheet as plain text"),
      NULL },
    { "language", 0, 0, G_OPTION_ARG_STRING, &options.tag, N_ ("Language of the sheet"),
      N_ ("TAG") },
    { "practice", 0, 0, G_OPTION_ARG_STRING, &options.practice,
      N_ ("Judge by this practice, not by the document's"), N_ ("NAME") },
    { NULL },
  };
  const char *path;
  TlPaper     paper;

  if (!tl_cli_parse (&argc, &argv, entries, "sheet", N_ ("FILE")))
    return TL_CLI_BAD;
  path = tl_cli_only_file (argc, argv);
  if (path == NULL)
    return TL_CLI_BAD;
  if (options.output == NULL && !options.as_text)
    return tl_cli_fail_text (_ ("Nowhere to write; give --output OUT.pdf, or --text."));
  if (options.output != NULL && is_same_file (options.output, path))
    return tl_cli_fail_text (_ ("%s is the joint itself; give another file for the sheet."), path);
  if (options.date != NULL && !is_day (options.date))
    return tl_cli_fail_text (_ ("“%s” is no day; write it like 2024-03-31."), options.date);
  if (!paper_of (options.paper, language, &paper))
    return tl_cli_fail_text (_ ("There is no paper “%s”; there are: a4, letter."), options.paper);
  return write_sheet (&options, path, language);
}
