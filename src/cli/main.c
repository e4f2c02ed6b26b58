/* main.c: tinlap-cli: a verb and its file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/ageing.h"
#include "cli/calc.h"
#include "cli/check.h"
#include "cli/common.h"
#include "cli/draw.h"
#include "cli/identify.h"
#include "cli/job.h"
#include "cli/pictures.h"
#include "cli/sheet.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

typedef struct
{
  const char *name;
  int (*run) (int argc, char **argv, const TlLanguage *language);
  const char *usage;
  const char *summary; /* msgid */
} Verb;

static const Verb verbs[] = {
  { "check", tl_cli_check, "check [--json] [--language TAG] [--practice NAME] FILE",
    N_ ("judge a joint") },
  { "sheet", tl_cli_sheet, "sheet FILE --output OUT.pdf [--paper a4|letter] [--date DAY] [--text]",
    N_ ("write its step sheet") },
  { "draw", tl_cli_draw, "draw FILE --output OUT.png|OUT.svg|OUT.pdf", N_ ("draw it to scale") },
  { "ageing", tl_cli_ageing,
    "ageing FILE [--json] [--years N] [--samples N] [--chart OUT.png|OUT.svg|OUT.pdf]",
    N_ ("forecast how it may change over the years, as bands") },
  { "job", tl_cli_job,
    "job FOLDER [--json] [--sheet OUT.pdf] [--calendar OUT.ics] [--pack PACK] [--date DAY]",
    N_ ("judge a folder of joints: register, parts, upkeep") },
  { "identify", tl_cli_identify,
    "identify [--diameter D] [--length L --weight W --resistance R] [--surface WORD] [--cut WORD]",
    N_ ("tell metal, section and class of a wire that was found") },
  { "pictures", tl_cli_pictures,
    "pictures FILE [--report OUT.pdf] [--annotated OUT.png] [--json] [--csv] [--verify] [--date "
    "DAY]",
    N_ ("list, verify and report the pictures of a joint") },
  { "calc", tl_cli_calc, "calc ID NAME=\"VALUE UNIT\" ... | --list | --cases FILE.csv",
    N_ ("evaluate a formula, or a file of cases") },
};

static char *
verb_names (void)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", verbs[i].name);
  return g_string_free (names, FALSE);
}

static void
print_help (void)
{
  g_print ("%s\n\n", _ ("tinlap-cli: joints between aluminium and copper wiring, at the terminal"));
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    g_print ("  tinlap-cli %s\n      %s\n", verbs[i].usage, _ (verbs[i].summary));
  g_print ("\n%s\n", _ ("Exit: 0 nothing worse than Watch; 1 Change, Unsafe, Unfinished, or a case "
                        "out of tolerance; 2 the input or the call is wrong."));
}

/* A full disk or a closed pipe behind standard output is an error like any other. */
static int
finish (int code)
{
  if (fflush (stdout) == 0 && !ferror (stdout))
    return code;
  return tl_cli_fail_text (_ ("Standard output could not be written: %s."), g_strerror (errno));
}

int
main (int argc, char **argv)
{
  g_autoptr (TlLanguage) language = NULL;
  g_autofree char *names = verb_names ();

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, TL_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  language = tl_language_new (NULL, TL_UNITS_METRIC);
  if (argc < 2)
    return tl_cli_fail_text (_ ("No verb given; there are: %s. Try --help."), names);
  if (strcmp (argv[1], "--version") == 0)
    {
      g_print ("tinlap %s\n", TL_VERSION);
      return TL_CLI_GOOD;
    }
  if (strcmp (argv[1], "--help") == 0 || strcmp (argv[1], "-h") == 0)
    {
      print_help ();
      return TL_CLI_GOOD;
    }
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (strcmp (argv[1], verbs[i].name) == 0)
      return finish (verbs[i].run (argc - 1, argv + 1, language));
  return tl_cli_fail_text (_ ("There is no verb “%s”; there are: %s. Try --help."), argv[1], names);
}
