/* sheet.h: `tinlap-cli sheet FILE --output OUT.pdf [--paper a4|letter] [--date YYYY-MM-DD] [--text]`.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* @argv: (array length=argc) from the verb on. Returns: exit code of common.h; 1 although the sheet was written
 * when the joint is not to be made as drawn or is to be changed first */
int tl_cli_sheet (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
