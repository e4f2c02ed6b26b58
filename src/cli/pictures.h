/* pictures.h: tinlap-cli pictures: hashes, verifying, report, annotated copy and findings of an inspection.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* Returns: exit code */
int tl_cli_pictures (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
