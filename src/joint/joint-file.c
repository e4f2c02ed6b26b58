/* joint-file.c: a joint between disk and memory: XML alone, or with its pictures in a container.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-file.h"

#include "base/file.h"
#include "joint/container.h"
#include "joint/joint-private.h"

#include <string.h>

gboolean
tl_joint_save (const TlJoint *joint, const char *path, GError **error)
{
  gsize            length;
  g_autofree char *text = tl_joint_capped_text (joint, path, &length, error);

  if (text == NULL)
    return FALSE;
  if (tl_container_wants (joint))
    return tl_container_save (joint, text, length, path, error);
  return tl_file_save (path, text, length, error);
}

TlJoint *
tl_joint_from_bytes (GBytes *bytes, const char *file, GError **error)
{
  gsize       length;
  const char *data = g_bytes_get_data (bytes, &length);

  if (length >= 4 && memcmp (data, "PK\3\4", 4) == 0)
    return tl_container_parse (bytes, file, error);
  return tl_joint_parse (data, length, file, error);
}

TlJoint *
tl_joint_load (const char *path, GError **error)
{
  g_autoptr (TlXmlDocument) document = NULL;

  if (tl_container_is (path))
    return tl_container_load (path, error);
  document = tl_xml_read_file (path, &tl_xml_caps_joint, error);
  return document != NULL ? tl_joint_from_document (document, error) : NULL;
}
