/* picture.c: whatever bytes come as a picture: head, notes of the camera, and a copy without them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"
#include "picture/picture.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size), stripped = NULL;
  TlPhoto *photo = tl_photo_new (bytes, "fuzz", "", "", NULL);

  if (photo == NULL)
    return 0;
  stripped = tl_photo_without_position (bytes, NULL);
  g_assert_nonnull (stripped);
  g_assert_cmpuint (photo->orientation, >=, 1);
  g_assert_cmpuint (photo->orientation, <=, 8);
  tl_record_unref (photo);
  return 0;
}
