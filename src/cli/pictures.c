/* pictures.c: tinlap-cli pictures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/pictures.h"

#include "cli/common.h"
#include "cli/pictures-private.h"
#include "draw/picture-report.h"
#include "picture/originals.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  char    *report, *annotated, *originals, *date, *tag, *paper, *inspection, *picture;
  gboolean as_json, as_csv, verify, with_position, criteria;
} Options;

static void
options_clear (Options *self)
{
  g_free (self->report);
  g_free (self->annotated);
  g_free (self->originals);
  g_free (self->date);
  g_free (self->tag);
  g_free (self->paper);
  g_free (self->inspection);
  g_free (self->picture);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static void
list_clear (TlPictureList *self)
{
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->joint, tl_joint_unref);
  g_clear_pointer (&self->inspections, tl_inspections_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (TlPictureList, list_clear)

static gboolean
is_day (const char *date)
{
  int  year, month, day;
  char rest;

  return strlen (date) == 10 && sscanf (date, "%4d-%2d-%2d%c", &year, &month, &day, &rest) == 3
         && year >= 1900 && month >= 1 && month <= 12 && day >= 1
         && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year);
}

static gboolean
is_same_file (const char *a, const char *b)
{
  g_autoptr (GFile) file_a = g_file_new_for_path (a), file_b = g_file_new_for_path (b);

  return g_file_equal (file_a, file_b);
}

static gboolean
load (const char *path, const Options *options, TlPictureList *list, GError **error)
{
  list->stock = tl_stock_load (NULL, error);
  list->joint = list->stock != NULL ? tl_joint_load (path, error) : NULL;
  if (list->joint == NULL)
    return FALSE;
  list->inspections = tl_joint_inspections (list->joint, error);
  if (list->inspections == NULL)
    {
      g_prefix_error (error, "%s: ", path);
      return FALSE;
    }
  list->inspection = options->inspection != NULL
                         ? tl_inspections_get (list->inspections, options->inspection)
                         : tl_inspections_latest (list->inspections);
  if (options->inspection == NULL || list->inspection != NULL)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("There is no inspection “%s”."),
               options->inspection);
  return FALSE;
}

static gboolean
write_report (const TlPictureList *list, const Options *options, TlPaper paper,
              const TlLanguage *language, GError **error)
{
  g_autoptr (TlPictureReport) report = NULL;

  if (list->inspection == NULL)
    {
      g_set_error_literal (
          error, TL_ERROR, TL_ERROR_STATE,
          _ ("No inspection was begun in this document; there is nothing to report."));
      return FALSE;
    }
  report = tl_picture_report_new (list->joint, list->inspections, list->inspection->id, list->stock,
                                  paper, options->date, language, error);
  if (report == NULL || !tl_picture_report_save_pdf (report, options->report, error))
    return FALSE;
  for (guint i = 0; i < tl_picture_report_objections (report)->len; i++)
    g_printerr ("%s\n",
                (const char *) g_ptr_array_index (tl_picture_report_objections (report), i));
  return TRUE;
}

static gboolean
write_annotated (const TlPictureList *list, const Options *options, const TlLanguage *language,
                 GError **error)
{
  const TlPhoto *photo =
      options->picture != NULL ? tl_inspections_photo (list->inspections, options->picture)
      : list->inspections->photos->len > 0 ? g_ptr_array_index (list->inspections->photos, 0)
                                           : NULL;

  if (photo == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("There is no picture “%s” in this document."),
                   options->picture != NULL ? options->picture : "");
      return FALSE;
    }
  return tl_picture_save_annotated (list->inspections, list->inspection, photo,
                                    list->joint->originals, options->annotated, language, error);
}

/* What is not in the document is told and is no reason to withhold the rest. */
static gboolean
write_originals (const TlPictureList *list, const Options *options, guint *missing, GError **error)
{
  if (!tl_originals_save (list->joint->originals, list->inspections, options->originals,
                          options->with_position, missing, error))
    return FALSE;
  if (*missing > 0)
    g_printerr (ngettext ("%u original is not in the document, or altered; see pictures.csv.\n",
                          "%u originals are not in the document, or altered; see pictures.csv.\n",
                          *missing),
                *missing);
  return TRUE;
}

/* Prints the chain and each check; %TRUE if all are good. */
static gboolean
verify (const TlPictureList *list, const TlLanguage *language)
{
  gboolean         good;
  g_autofree char *chain = tl_picture_list_chain (list);
  g_autoptr (GPtrArray) lines =
      tl_inspections_verify (list->inspections, list->joint->originals, language, &good);

  g_print ("%s", chain);
  for (guint i = 0; i < lines->len; i++)
    g_print ("%s\n", ((TlCheckLine *) g_ptr_array_index (lines, i))->text);
  g_print ("%s\n", good ? _ ("All that can be checked is unchanged.")
                        : _ ("Something was changed or is missing."));
  return good;
}

static int
run (const char *path, const Options *options, TlPaper paper, const TlLanguage *language)
{
  g_auto (TlPictureList) list = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *out = NULL;
  gboolean         good = TRUE;
  guint            missing = 0;

  /* The files first: where one fails nothing has been said yet. */
  if (!load (path, options, &list, &error)
      || (options->report != NULL && !write_report (&list, options, paper, language, &error))
      || (options->annotated != NULL && !write_annotated (&list, options, language, &error))
      || (options->originals != NULL && !write_originals (&list, options, &missing, &error)))
    return tl_cli_fail (error);
  if (options->as_json)
    out = tl_picture_list_json (&list);
  else if (options->as_csv)
    out = tl_picture_list_csv (&list);
  else if (!options->verify)
    out = tl_picture_list_text (&list, language);
  if (out != NULL)
    g_print ("%s", out);
  if (options->verify)
    good = verify (&list, language);
  if (list.inspection != NULL
      && tl_inspections_grade (list.inspections, list.inspection, list.stock) >= TL_GRADE_CHANGE
      && !options->verify)
    good = FALSE;
  return good && missing == 0 ? TL_CLI_GOOD : TL_CLI_WORSE;
}

static gboolean
check_options (const Options *options, const char *path, TlPaper *paper)
{
  const char *outputs[] = { options->report, options->annotated };

  for (guint i = 0; i < G_N_ELEMENTS (outputs); i++)
    if (outputs[i] != NULL && is_same_file (outputs[i], path))
      {
        tl_cli_fail_text (_ ("%s is the joint itself; give another file to write."), path);
        return FALSE;
      }
  if (options->with_position && options->originals == NULL)
    tl_cli_fail_text (_ ("--with-position goes with --originals only."));
  else if (options->as_json + options->as_csv + options->verify > 1)
    tl_cli_fail_text (_ ("Only one of --json, --csv and --verify can be printed at a time."));
  else if (options->annotated != NULL && !g_str_has_suffix (options->annotated, ".png"))
    tl_cli_fail_text (_ ("“%s”: an annotated copy is written as .png, which loses nothing."),
                      options->annotated);
  else if (options->date != NULL && !is_day (options->date))
    tl_cli_fail_text (_ ("“%s” is no day; write it like 2024-03-31."), options->date);
  else if (options->paper != NULL && strcmp (options->paper, "a4") != 0
           && strcmp (options->paper, "letter") != 0)
    tl_cli_fail_text (_ ("There is no paper “%s”; there are: a4, letter."), options->paper);
  else
    {
      if (options->paper != NULL)
        *paper = strcmp (options->paper, "a4") == 0 ? TL_PAPER_A4 : TL_PAPER_LETTER;
      return TRUE;
    }
  return FALSE;
}

/* Without a document: the rows with all the words behind the options. */
static int
list_criteria (int argc, char **argv, const Options *options, const TlLanguage *language)
{
  g_autoptr (TlLanguage) own = tl_language_new (
      options->tag != NULL ? options->tag : tl_language_tag (language), TL_UNITS_METRIC);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (NULL, &error);
  g_autofree char *words = argc > 1 ? g_strjoinv (" ", argv + 1) : g_strdup (""), *out = NULL;

  if (stock == NULL)
    return tl_cli_fail (error);
  out = tl_picture_criteria_text (stock, words, own);
  if (*out == '\0')
    return tl_cli_fail_text (_ ("There is no criterion with “%s”."), words);
  g_print ("%s", out);
  return TL_CLI_GOOD;
}

int
tl_cli_pictures (int argc, char **argv, const TlLanguage *language)
{
  g_auto (Options) options = { 0 };
  const GOptionEntry entries[] = {
    { "report", 0, 0, G_OPTION_ARG_FILENAME, &options.report, N_ ("Write the report"),
      N_ ("OUT.pdf") },
    { "annotated", 0, 0, G_OPTION_ARG_FILENAME, &options.annotated,
      N_ ("Write a copy of a picture with its marks"), N_ ("OUT.png") },
    { "originals", 0, 0, G_OPTION_ARG_FILENAME, &options.originals,
      N_ ("Write the originals, without their position, and their hashes"), N_ ("FOLDER") },
    { "with-position", 0, 0, G_OPTION_ARG_NONE, &options.with_position,
      N_ ("Write them as imported, with position and notes"), NULL },
    { "criteria", 0, 0, G_OPTION_ARG_NONE, &options.criteria,
      N_ ("List what a joint can be judged by, or those rows with the words given"), NULL },
    { "picture", 0, 0, G_OPTION_ARG_STRING, &options.picture,
      N_ ("Picture for the copy; without it the first"), N_ ("ID") },
    { "inspection", 0, 0, G_OPTION_ARG_STRING, &options.inspection,
      N_ ("Inspection; without it the latest"), N_ ("ID") },
    { "json", 0, 0, G_OPTION_ARG_NONE, &options.as_json, N_ ("Print JSON"), NULL },
    { "csv", 0, 0, G_OPTION_ARG_NONE, &options.as_csv, N_ ("Print the findings as CSV"), NULL },
    { "verify", 0, 0, G_OPTION_ARG_NONE, &options.verify, N_ ("Check hashes and chain"), NULL },
    { "date", 0, 0, G_OPTION_ARG_STRING, &options.date, N_ ("Day to print, YYYY-MM-DD"),
      N_ ("DAY") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &options.paper, N_ ("Paper: a4 or letter"), N_ ("NAME") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &options.tag, N_ ("Language of the report"),
      N_ ("TAG") },
    { NULL },
  };
  g_autoptr (TlLanguage) chosen = NULL;
  const char *path;
  TlPaper     paper;

  if (!tl_cli_parse (&argc, &argv, entries, "pictures", N_ ("FILE")))
    return TL_CLI_BAD;
  if (options.criteria)
    return list_criteria (argc, argv, &options, language);
  path = tl_cli_only_file (argc, argv);
  if (path == NULL)
    return TL_CLI_BAD;
  chosen = tl_language_new (options.tag != NULL ? options.tag : tl_language_tag (language),
                            TL_UNITS_METRIC);
  paper = tl_language_paper (chosen);
  if (!check_options (&options, path, &paper))
    return TL_CLI_BAD;
  return run (path, &options, paper, chosen);
}
