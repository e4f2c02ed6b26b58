/* heat-cases.h: the verb `calc heat-network`: files of electro-thermal cases.
 *
 *   tinlap-cli calc [--json] heat-network --cases FILE.csv
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/**
 * tl_cli_heat_cases:
 * @file: a case file as network-cases.h describes it
 *
 * One line for each case and figure, separated by tabs: case, figure, computed, expected, tolerance,
 * "in" or "out" ("-" where the file expects nothing). The last line counts the cases.
 * Returns: the exit code: 0 all within tolerance, 1 a figure or a status out of it, 2 the file is wrong
 */
int tl_cli_heat_cases (const char *file, gboolean json, const TlLanguage *language);

G_END_DECLS
