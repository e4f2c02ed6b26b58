/* own-texts.h: what reading and taking in packs came to, as a person reads it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* A line for each of the first few, then how many more. @problems: (element-type TlPackProblem); (transfer full) */
char *tl_own_problems_text (const GPtrArray *problems) G_GNUC_WARN_UNUSED_RESULT;
/* How many parts came from the file @path, then what did not and why. (transfer full) */
char *tl_own_import_text (const char *path, guint came, const GPtrArray *problems) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
