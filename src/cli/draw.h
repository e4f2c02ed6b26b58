/* draw.h: `tinlap-cli draw FILE --output OUT.{png,svg,pdf} [--width MM] [--height MM] [--scheme NAME]`.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"

G_BEGIN_DECLS

/* @argv: (array length=argc) from the verb on. Returns: exit code of common.h; a picture of a joint that is to be
 * changed is a good picture, so 1 is returned for the joint and the picture is written all the same. */
int tl_cli_draw (int argc, char **argv, const TlLanguage *language);

G_END_DECLS
