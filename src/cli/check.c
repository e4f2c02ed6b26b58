/* check.c: the verdict about a joint in the terminal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/check.h"

#include "cli/check-private.h"
#include "cli/common.h"
#include "rules/wording.h"

#include <glib/gi18n-lib.h>

static void
print_rules (const TlLanguage *language)
{
  guint                count;
  const TlRule *const *rules = tl_rules_all (&count);

  for (guint i = 0; i < count; i++)
    g_print ("%-32s %-10s %s\n", rules[i]->id,
             tl_language_text (language, tl_concern_word (rules[i]->concern)),
             tl_language_text (language, rules[i]->title));
}

/* @told: disputes that were told already: the same on several contacts is told once. */
static void
print_finding (const TlVerdict *verdict, const TlFinding *finding, GHashTable *told,
               const TlLanguage *language)
{
  g_autofree char *sentence = tl_wording_finding (verdict, finding, language);
  g_autofree char *mend =
      finding->mend != NULL ? tl_wording_mend (verdict, finding->mend, language) : NULL;
  g_autoptr (GPtrArray) disputes = tl_finding_disputes (finding, verdict->assembly->stock);

  g_print ("%s  %s  [%s]\n", tl_language_text (language, tl_severity_word (finding->severity)),
           sentence, finding->rule->id);
  for (guint i = 0; i < disputes->len && !g_hash_table_contains (told, finding->dispute); i++)
    {
      g_autofree char *line = tl_wording_dispute (verdict, disputes->pdata[i], language);

      g_print ("    %s\n", line);
    }
  if (finding->dispute != NULL)
    g_hash_table_add (told, (gpointer) finding->dispute);
  if (mend != NULL)
    g_print ("    %s %s\n", tl_language_text (language, TL_N_ ("Mend:")), mend);
}

static void
print_verdict (const TlVerdict *verdict, const TlLanguage *language)
{
  g_autofree char *summary = tl_wording_summary (verdict, language);
  g_autoptr (GHashTable) told = g_hash_table_new (g_str_hash, g_str_equal);

  g_print ("%s\n%s. %s\n", verdict->assembly->joint->name,
           tl_language_text (language, tl_verdict_word (verdict)), summary);
  for (guint i = 0; i < verdict->unfinished->len; i++)
    {
      g_autofree char *text = tl_wording_problem (
          verdict->assembly, &g_array_index (verdict->unfinished, TlProblem, i), language);

      g_print ("%s  %s\n", tl_language_text (language, TL_N_ ("Missing")), text);
    }
  for (guint i = 0; i < verdict->findings->len; i++)
    print_finding (verdict, g_ptr_array_index (verdict->findings, i), told, language);
  for (guint i = 0; i < verdict->not_computed->len; i++)
    {
      const TlNotComputed *row = &g_array_index (verdict->not_computed, TlNotComputed, i);
      g_autofree char     *reason = tl_wording_not_computed (verdict, row, language);

      g_print ("%s  %s  [%s]\n", tl_language_text (language, TL_N_ ("Not computed")), reason,
               row->rule->id);
    }
}

int
tl_cli_check (int argc, char **argv, const TlLanguage *language)
{
  gboolean           as_json = FALSE, rules = FALSE;
  g_autofree char   *tag = NULL;
  g_autofree char   *practice = NULL;
  const GOptionEntry entries[] = {
    { "json", 0, 0, G_OPTION_ARG_NONE, &as_json, N_ ("Print JSON for other programs"), NULL },
    { "language", 0, 0, G_OPTION_ARG_STRING, &tag, N_ ("Language of the text"), N_ ("TAG") },
    { "practice", 0, 0, G_OPTION_ARG_STRING, &practice,
      N_ ("Judge by this practice, not by the document's"), N_ ("NAME") },
    { "rules", 0, 0, G_OPTION_ARG_NONE, &rules, N_ ("List the rules and leave"), NULL },
    { NULL },
  };
  g_autoptr (TlLanguage) own = NULL;
  g_autoptr (TlVerdict) verdict = NULL;
  const char *path;

  if (!tl_cli_parse (&argc, &argv, entries, "check", N_ ("FILE")))
    return TL_CLI_BAD;
  if (tag != NULL)
    own = tl_language_new (tag, tl_language_units (language));
  if (rules)
    {
      print_rules (own != NULL ? own : language);
      return TL_CLI_GOOD;
    }
  path = tl_cli_only_file (argc, argv);
  if (path == NULL)
    return TL_CLI_BAD;
  verdict = tl_cli_judge (path, practice);
  if (verdict == NULL)
    return TL_CLI_BAD;
  if (as_json)
    {
      g_autofree char *json = tl_cli_check_json (verdict);

      g_print ("%s", json);
    }
  else
    print_verdict (verdict, own != NULL ? own : language);
  return tl_cli_exit_of (verdict);
}
