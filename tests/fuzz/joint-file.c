/* joint-file.c: the reader of joints under any bytes.
 *
 * Refused: with one line that names file and line. Read: it writes itself, reads back, and writes the same.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"

#include "joint/joint-file.h"

#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = tl_joint_parse ((const char *) data, size, "fuzz.tinlap", &error);
  gsize length;

  if (joint == NULL)
    {
      g_assert_nonnull (error);
      g_assert_true (g_str_has_prefix (error->message, "fuzz.tinlap:"));
      g_assert_null (strchr (error->message, '\n'));
      return 0;
    }
  g_assert_no_error (error);

  g_autofree char *text = tl_joint_to_text (joint, &length);
  g_autoptr (TlJoint) back = tl_joint_parse (text, length, "back.tinlap", &error);
  /* What is read at the very cap may need a few elements more when written. */
  if (g_error_matches (error, TL_ERROR, TL_ERROR_LIMIT))
    return 0;
  g_assert_no_error (error);

  g_autofree char *again = tl_joint_to_text (back, NULL);
  g_assert_cmpstr (text, ==, again);
  return 0;
}
