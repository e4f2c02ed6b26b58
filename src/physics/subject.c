/* subject.c: what the files of the subjects share: their words, and how a formula refuses.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "formula-private.h"

const char *const tl_yes_no_words[] = { "no", "yes", NULL };
const char *const tl_metal_words[] = { "copper", "aluminium", NULL };

gboolean
tl_formula_refuse (GError **error, const char *message)
{
  g_set_error_literal (error, TL_ERROR, TL_ERROR_RANGE, message);
  return FALSE;
}
