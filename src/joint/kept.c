/* kept.c: what a newer minor version wrote and this one does not know, held by the path of its
 * owner.
 *
 * A path is that of the element in the file with its key: "legs/leg=leg-1/fact=strip". So what is
 * kept follows its owner through moves, and goes when its owner goes. The map is shared by the
 * joints of an edit history and never changed once its joint is handed out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-private.h"

#include <string.h>

static void
kept_clear (gpointer data)
{
  TlKept *self = data;

  g_ptr_array_unref (self->attributes);
  g_ptr_array_unref (self->nodes);
  g_array_unref (self->positions);
}

static void
kept_unref (gpointer data)
{
  g_atomic_rc_box_release_full (data, kept_clear);
}

static GHashTable *
kept_map_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, kept_unref);
}

TlKept *
tl_kept_at (GHashTable **map, const char *path)
{
  if (*map == NULL)
    *map = kept_map_new ();

  TlKept *kept = g_hash_table_lookup (*map, path);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TlKept);
      kept->attributes = g_ptr_array_new_with_free_func (g_free);
      kept->nodes = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
      kept->positions = g_array_new (FALSE, FALSE, sizeof (guint));
      g_hash_table_insert (*map, g_strdup (path), kept);
    }
  return kept;
}

const TlKept *
tl_kept_get (GHashTable *map, const char *path)
{
  return map != NULL ? g_hash_table_lookup (map, path) : NULL;
}

GHashTable *
tl_kept_without (GHashTable *map, const char *path)
{
  if (map == NULL)
    return NULL;

  GHashTable    *left = kept_map_new ();
  gsize          length = strlen (path);
  GHashTableIter iter;
  gpointer       key, value;

  g_hash_table_iter_init (&iter, map);
  while (g_hash_table_iter_next (&iter, &key, &value))
    {
      const char *other = key;
      gboolean    is_beneath =
          strncmp (other, path, length) == 0 && (other[length] == '\0' || other[length] == '/');
      if (!is_beneath)
        g_hash_table_insert (left, g_strdup (other), g_atomic_rc_box_acquire (value));
    }
  return left;
}
