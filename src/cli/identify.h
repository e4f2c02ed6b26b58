/* identify.h: `identify`: metal, section and class of a wire that was found.
 *
 *   tinlap-cli identify [--json] [--diameter "1.78 mm"] [--strands N] [--length L --weight W --resistance R] ...
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* Exit code: 0 decided, 1 not decided, 2 bad call. */
int tl_cli_identify (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
