/* common.c: exit codes, one-line errors, loading.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/common.h"

#include "joint/edit.h"

#include <glib/gi18n-lib.h>

/* One line, whatever stands in the message. */
static void
print_line (const char *message)
{
  g_autofree char *line = g_strdelimit (g_strdup (message), "\n\r", ' ');

  g_printerr ("tinlap-cli: %s\n", line);
}

int
tl_cli_fail (const GError *error)
{
  print_line (error->message);
  return TL_CLI_BAD;
}

int
tl_cli_fail_text (const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list          arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  print_line (message);
  return TL_CLI_BAD;
}

gboolean
tl_cli_parse (int *argc, char ***argv, const GOptionEntry *entries, const char *verb,
              const char *usage)
{
  g_autofree char *parameters = g_strdup_printf ("%s", usage);
  g_autoptr (GOptionContext) context = g_option_context_new (parameters);
  g_autofree char *program = g_strdup_printf ("tinlap-cli %s", verb);
  g_autoptr (GError) error = NULL;

  g_set_prgname (program);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  if (g_option_context_parse (context, argc, argv, &error))
    return TRUE;
  tl_cli_fail (error);
  return FALSE;
}

const char *
tl_cli_only_file (int argc, char **argv)
{
  if (argc == 2)
    return argv[1];
  if (argc < 2)
    tl_cli_fail_text (_ ("No joint file named; give one .tinlap file."));
  else
    tl_cli_fail_text (_ ("%d files named; give one .tinlap file."), argc - 1);
  return NULL;
}

static TlJoint *
load_joint (const char *path, const char *practice, GError **error)
{
  g_autoptr (TlJoint) joint = tl_joint_load (path, error);

  if (joint == NULL || practice == NULL)
    return g_steal_pointer (&joint);
  return tl_edit_set_text (joint, "practice", practice, error);
}

/* A practice that no table knows would silently judge by the common rows only. */
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

TlVerdict *
tl_cli_judge (const char *path, const char *practice)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlStock) stock = tl_stock_load (NULL, &error);
  g_autoptr (TlJoint) joint = NULL;

  if (stock != NULL && check_practice (stock, practice, &error))
    joint = load_joint (path, practice, &error);
  if (joint == NULL)
    {
      tl_cli_fail (error);
      return NULL;
    }
  return tl_verdict_new (joint, stock, TL_VERDICT_FULL);
}

int
tl_cli_exit_of (const TlVerdict *verdict)
{
  return verdict->has_severity && verdict->severity <= TL_SEVERITY_WATCH ? TL_CLI_GOOD
                                                                         : TL_CLI_WORSE;
}
