/* job.c: a folder of joints in the terminal: register, parts, upkeep, calendar, one PDF.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/job.h"

#include "base/file.h"
#include "cli/common.h"
#include "cli/job-private.h"
#include "draw/job-sheet.h"
#include "plan/calendar.h"

#include <glib/gi18n-lib.h>
#include <gio/gio.h>
#include <string.h>

typedef struct
{
  char    *sheet, *calendar, *paper, *date, *tag, *practice;
  char   **packs;
  gboolean as_json;
} Options;

static void
options_clear (Options *self)
{
  g_free (self->sheet);
  g_free (self->calendar);
  g_free (self->paper);
  g_free (self->date);
  g_free (self->tag);
  g_free (self->practice);
  g_strfreev (self->packs);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

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

/* What would overwrite a joint, or one output with the other. Code, or -1. */
static int
refuse_outputs (const Options *options, const TlJob *job)
{
  const char *outputs[] = { options->sheet, options->calendar };

  if (options->sheet != NULL && options->calendar != NULL
      && is_same_file (options->sheet, options->calendar))
    return tl_cli_fail_text (
        _ ("%s is named for both the sheets and the calendar; give two files."), options->sheet);
  for (guint i = 0; i < job->rows->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (outputs); k++)
      {
        const TlJobRow *row = g_ptr_array_index (job->rows, i);

        if (outputs[k] != NULL && is_same_file (outputs[k], row->path))
          return tl_cli_fail_text (_ ("%s is a joint of the folder; give another file to write."),
                                   outputs[k]);
      }
  return -1;
}

/* All is made before anything is written, and written before anything is said. */
static gboolean
write_outputs (const Options *options, const TlJob *job, const TlStock *stock, TlPaper paper,
               const TlLanguage *language, GError **error)
{
  g_autoptr (GByteArray) sheets = NULL;
  g_autofree char *calendar = NULL;

  if (options->sheet != NULL
      && (sheets = tl_job_sheet_pdf (job, stock, paper, language, error)) == NULL)
    return FALSE;
  if (options->calendar != NULL)
    {
      calendar = tl_job_calendar (job, language);
      if (!tl_file_save (options->calendar, calendar, strlen (calendar), error))
        return FALSE;
    }
  return sheets == NULL
         || tl_file_save (options->sheet, (const char *) sheets->data, sheets->len, error);
}

static int
fail_unread (const TlJob *job)
{
  const TlJobRow *first = g_ptr_array_index (job->rows, 0);

  return tl_cli_fail_text (_ ("None of the %u joints in %s could be read; the first: %s"),
                           job->rows->len, job->folder, first->message);
}

/* The stock with the packs laid; their conflicts go to standard error, one a line, and stop nothing. */
static TlStock *
load_stock (const Options *options, GError **error)
{
  g_autoptr (TlStock) system = tl_stock_load (NULL, error);
  g_autoptr (GPtrArray) problems = tl_pack_problems_new ();
  TlStock *stock;

  if (system == NULL || options->packs == NULL)
    return g_steal_pointer (&system);
  stock = tl_stock_load_packs (system, (const char *const *) options->packs, NULL, problems);
  for (guint i = 0; i < problems->len; i++)
    {
      const TlPackProblem *problem = g_ptr_array_index (problems, i);

      if (problem->trouble == TL_PACK_UNREADABLE)
        {
          g_set_error_literal (error, TL_ERROR, TL_ERROR_FILE, problem->message);
          tl_stock_unref (stock);
          return NULL;
        }
      g_printerr ("tinlap-cli: %s\n", problem->message);
    }
  return stock;
}

static gboolean
check_practice (const TlStock *stock, const char *practice, GError **error)
{
  g_autofree char *known = g_strjoinv (", ", (char **) tl_stock_practices (stock));

  if (practice == NULL || g_strv_contains (tl_stock_practices (stock), practice))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("There is no practice “%s”; there are: %s."),
               practice, known);
  return FALSE;
}

static int
do_job (const Options *options, const char *folder, TlPaper paper, const TlLanguage *language)
{
  const TlJobOptions job_options = { folder, options->practice, options->date };
  /* JSON holds English sentences, whoever reads it. */
  const TlLanguage  *own = options->as_json ? tl_language_plain () : language;
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) stock = load_stock (options, &error);
  g_autoptr (TlJob) job = NULL;
  g_autofree char *text = NULL;
  int              code;

  if (stock != NULL && check_practice (stock, options->practice, &error))
    job = tl_job_new (&job_options, stock, own, &error);
  if (job == NULL)
    return tl_cli_fail (error);
  if (job->n_read == 0)
    return fail_unread (job);
  code = refuse_outputs (options, job);
  if (code >= 0)
    return code;
  if (!write_outputs (options, job, stock, paper, own, &error))
    return tl_cli_fail (error);
  text = options->as_json ? tl_cli_job_json (job, stock) : tl_job_to_text (job, own);
  g_print ("%s", text);
  return tl_job_count_worse (job) > 0 ? TL_CLI_WORSE : TL_CLI_GOOD;
}

int
tl_cli_job (int argc, char **argv, const TlLanguage *language)
{
  g_auto (Options) options = { 0 };
  const GOptionEntry entries[] = {
    { "json", 0, 0, G_OPTION_ARG_NONE, &options.as_json, N_ ("Print JSON for other programs"),
      NULL },
    { "sheet", 0, 0, G_OPTION_ARG_FILENAME, &options.sheet,
      N_ ("Write register and step sheets in one PDF"), N_ ("OUT.pdf") },
    { "calendar", 0, 0, G_OPTION_ARG_FILENAME, &options.calendar,
      N_ ("Write the days to look again, iCalendar"), N_ ("OUT.ics") },
    { "pack", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options.packs,
      N_ ("Own stock with prices and minutes; may be repeated"), N_ ("PACK") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &options.paper, N_ ("Paper: a4 or letter"), N_ ("NAME") },
    { "date", 0, 0, G_OPTION_ARG_STRING, &options.date, N_ ("Day of the job, YYYY-MM-DD"),
      N_ ("DAY") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &options.tag, N_ ("Language of text and sheets"),
      N_ ("TAG") },
    { "practice", 0, 0, G_OPTION_ARG_STRING, &options.practice,
      N_ ("Judge by this practice, not by the documents'"), N_ ("NAME") },
    { NULL },
  };
  g_autoptr (TlLanguage) own = NULL;
  TlPaper paper = TL_PAPER_A4;
  GDate   day;

  if (!tl_cli_parse (&argc, &argv, entries, "job", N_ ("FOLDER")))
    return TL_CLI_BAD;
  if (argc != 2)
    return tl_cli_fail_text (_ ("%d folders named; give one folder of .tinlap files."), argc - 1);
  if (options.date != NULL && !tl_calendar_parse_day (options.date, &day))
    return tl_cli_fail_text (_ ("“%s” is no day; write it like 2024-03-31."), options.date);
  if (options.tag != NULL)
    own = tl_language_new (options.tag, tl_language_units (language));
  if (!paper_of (options.paper, own != NULL ? own : language, &paper))
    return tl_cli_fail_text (_ ("There is no paper “%s”; there are: a4, letter."), options.paper);
  return do_job (&options, argv[1], paper, own != NULL ? own : language);
}
