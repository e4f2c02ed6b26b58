/* check.h: `tinlap-cli check [--json] [--language L] [--practice P] FILE`, `tinlap-cli check --rules`.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* @argv: (array length=argc) from the verb on. Returns: exit code of common.h */
int tl_cli_check (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
