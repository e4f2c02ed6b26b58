/* pictures.c: pictures, readings and inspections of a joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/pictures.h"

#include "joint/joint-file.h"
#include "joint/joint-private.h"

#include <string.h>

/* The reserved elements in the order of the schema. */
static const char *const order[] = { "pictures", "readings", "inspections", "exercise", NULL };

TlInspections *
tl_joint_inspections (const TlJoint *joint, GError **error)
{
  g_return_val_if_fail (joint != NULL, NULL);

  return tl_inspections_from_nodes (joint->reserved, error);
}

static const TlXmlNode *
named (const GPtrArray *nodes, const char *name)
{
  for (guint i = 0; i < nodes->len; i++)
    if (strcmp (((const TlXmlNode *) g_ptr_array_index (nodes, i))->name, name) == 0)
      return g_ptr_array_index (nodes, i);
  return NULL;
}

/* Bytes of the pictures in @inspections, from @added or those that the joint has; (transfer full) (nullable) */
static TlOriginals *
gather (const TlJoint *joint, const TlInspections *inspections, TlOriginals *added)
{
  TlOriginals *all =
      joint->originals != NULL ? tl_originals_ref (joint->originals) : tl_originals_new ();

  for (guint i = 0; added != NULL && added != all && i < inspections->photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (inspections->photos, i);
      g_autoptr (GBytes) bytes = tl_originals_get (added, photo->sha256);

      if (bytes != NULL)
        tl_originals_put (all, photo->sha256, bytes);
    }
  return all;
}

TlJoint *
tl_edit_set_inspections (const TlJoint *joint, const TlInspections *inspections,
                         TlOriginals *originals)
{
  g_autoptr (GPtrArray) nodes = NULL;
  GPtrArray *reserved;
  TlJoint   *fork;

  g_return_val_if_fail (joint != NULL && inspections != NULL, NULL);

  nodes = tl_inspections_to_nodes (inspections, TL_JOINT_NAMESPACE);
  reserved = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
  for (guint i = 0; order[i] != NULL; i++)
    {
      const TlXmlNode *node = strcmp (order[i], "exercise") == 0 ? named (joint->reserved, order[i])
                                                                 : named (nodes, order[i]);

      if (node != NULL)
        g_ptr_array_add (reserved, tl_xml_node_copy (node));
    }
  fork = tl_joint_fork (joint);
  g_ptr_array_unref (fork->reserved);
  fork->reserved = reserved;
  g_clear_pointer (&fork->originals, tl_originals_unref);
  fork->originals = gather (joint, inspections, originals);
  return fork;
}
