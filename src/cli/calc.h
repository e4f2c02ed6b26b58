/* calc.h: the verb `calc`: one formula with its working, the list of formulas, files of cases.
 *
 *   tinlap-cli calc [--json] ID name="value unit" ...
 *   tinlap-cli calc [--json] --list
 *   tinlap-cli calc [--json] --cases FILE.csv
 *   tinlap-cli calc [--json] heat-network --cases FILE.csv
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/**
 * tl_cli_calc:
 * @argv: (array length=argc): the verb itself first, then its arguments
 *
 * Results go to standard output at once and whole; an error is one line on standard error and nothing else.
 * Returns: the exit code: 0 done, 1 a case out of its tolerance, 2 the call or a file is wrong
 */
int tl_cli_calc (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
