/* job.h: `job`: a folder of joints: register with verdicts, combined parts list, upkeep calendar, one PDF.
 *
 *   tinlap-cli job FOLDER [--json] [--sheet OUT.pdf] [--calendar OUT.ics] [--pack PACK] [--date YYYY-MM-DD] ...
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* Exit code: 0 nothing worse than Watch; 1 a joint is Change, Unsafe, Unfinished or could not be read; 2 none could be
 * read, or a bad call: nothing written. */
int tl_cli_job (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
