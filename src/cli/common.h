/* common.h: what the verbs of the command line share: exit codes, one-line errors, loading.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint-file.h"
#include "rules/verdict.h"

G_BEGIN_DECLS

/* Exit codes, as the man page has them. */
enum
{
  TL_CLI_GOOD = 0,  /* nothing worse than Watch */
  TL_CLI_WORSE = 1, /* Change, Unsafe, Unfinished, or a case out of tolerance */
  TL_CLI_BAD = 2,   /* the input or the call is wrong: one line on standard error, nothing written */
};

/* Prints "tinlap-cli: message" in one line on standard error. Returns: TL_CLI_BAD */
int tl_cli_fail (const GError *error);
int tl_cli_fail_text (const char *format, ...) G_GNUC_PRINTF (1, 2);

/**
 * tl_cli_parse:
 * @entries: options of the verb; `--help` prints them and leaves the program
 * @usage: what stands behind the options in the usage line
 * Returns: %FALSE after the one line on standard error
 */
gboolean tl_cli_parse (int *argc, char ***argv, const GOptionEntry *entries, const char *verb,
                       const char *usage);

/* The one file of a verb that takes one; %NULL after the one line on standard error. (transfer none) */
const char *tl_cli_only_file (int argc, char **argv);

/**
 * tl_cli_judge:
 * @path: joint file
 * @practice: (nullable): practice in place of the document's own
 * Returns: (transfer full) (nullable): %NULL after the one line on standard error
 */
TlVerdict *tl_cli_judge (const char *path, const char *practice) G_GNUC_WARN_UNUSED_RESULT;

/* TL_CLI_GOOD or TL_CLI_WORSE */
int tl_cli_exit_of (const TlVerdict *verdict);

G_END_DECLS
