/* ageing.h: `tinlap-cli ageing FILE`: how a joint may change over the years, as bands.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* Returns: exit code of the verdict; TL_CLI_WORSE as well where nothing could be computed */
int tl_cli_ageing (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
