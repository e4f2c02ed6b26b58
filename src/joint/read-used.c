/* read-used.c: the document's own copies of parts, materials and thresholds.
 *
 * Copies are exact: each fact with how it is known, its source and its note, so that an old
 * document is judged by what stood in the stock then.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/read-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const used_children[] = { "part", "material", "threshold", NULL };
static const char *const only_cell[] = { "cell", NULL };

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPart, tl_part_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlMaterial, tl_material_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlTableRow, tl_table_row_free)

/* The id that must be there, be formed as one, and be new in @seen. */
static const char *
read_copy_id (TlJointReader *reader, const TlXmlNode *node, const char *key, GHashTable *seen)
{
  const char *id = tl_xml_attribute (node, "id");

  if (id == NULL || !tl_part_id_is_valid (id))
    tl_read_fail (reader, node, TL_ERROR_NAME,
                  _ ("The id of <%s> is “%s”; it must be 1 to 128 letters, digits and “._+-/”."),
                  node->name, id != NULL ? id : "");
  else if (!g_hash_table_add (seen, g_strdup (key)))
    tl_read_fail (reader, node, TL_ERROR_STATE,
                  _ ("<%s> “%s” is given twice in <used>; one copy is right."), node->name, id);
  else
    return id;
  return NULL;
}

static gboolean
texts_are_storable (TlJointReader *reader, const TlXmlNode *node)
{
  for (char **pair = node->attributes; pair != NULL && pair[0] != NULL; pair += 2)
    if (!tl_text_is_storable (pair[1]))
      return tl_read_fail (
          reader, node, TL_ERROR_PARSE,
          _ ("The attribute “%s” holds control characters; it must be plain text."), pair[0]);
  return TRUE;
}

static gboolean
read_part (TlJointReader *reader, const TlXmlNode *node, const char *path, const char *id,
           TlUsed *used)
{
  static const char *const attributes[] = { "id", "kind", "size", "open", NULL };
  static const char *const yes_no[] = { "yes", "no", NULL };
  g_autoptr (TlPart) part = g_new0 (TlPart, 1);
  const char *open = NULL;

  part->id = g_strdup (id);
  part->facts = tl_facts_new ();
  part->size = g_strdup (tl_xml_attribute (node, "size"));
  if (part->size == NULL)
    part->size = g_strdup ("");
  if (!tl_read_element (reader, node, path, attributes) || !texts_are_storable (reader, node)
      || !tl_read_part_kind (reader, node, &part->kind)
      || !tl_read_word (reader, node, "open", yes_no, &open)
      || !tl_read_facts (reader, node, path, FALSE, &part->facts))
    return FALSE;
  part->is_open = strcmp (open, "yes") == 0;
  g_ptr_array_add (used->parts, g_steal_pointer (&part));
  return TRUE;
}

static gboolean
read_material (TlJointReader *reader, const TlXmlNode *node, const char *path, const char *id,
               TlUsed *used)
{
  static const char *const attributes[] = { "id", "name", "kind", "look", NULL };
  static const char *const kinds[] = { "metal", "coat", "solder", "polymer", "compound", NULL };
  g_autoptr (TlMaterial) material = g_new0 (TlMaterial, 1);
  const char *kind = NULL, *look = NULL;
  guint       number = 0;

  material->id = g_strdup (id);
  material->facts = tl_facts_new ();
  if (!tl_read_element (reader, node, path, attributes) || !texts_are_storable (reader, node)
      || !tl_read_required (reader, node, "name")
      || !tl_read_word (reader, node, "kind", kinds, &kind)
      || !tl_read_word (reader, node, "look", tl_look_words (), &look)
      || !tl_read_facts (reader, node, path, FALSE, &material->facts))
    return FALSE;
  while (strcmp (tl_look_words ()[number], look) != 0)
    number++;
  material->name = g_strdup (tl_xml_attribute (node, "name"));
  material->kind = g_strdup (kind);
  material->look = (TlLook) number;
  g_ptr_array_add (used->materials, g_steal_pointer (&material));
  return TRUE;
}

static gboolean
read_cells (TlJointReader *reader, const TlXmlNode *node, const char *path, TlTableRow *row)
{
  static const char *const attributes[] = { "value", NULL };
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  TlReadChildren children = { .names = only_cell, .repeated = 1 };

  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      g_autofree char *cell_path = g_strdup_printf ("%s/cell=%u", path, cells->len);
      TlReadChildren   none = { .names = tl_read_nothing };
      int              which = tl_read_child (reader, node, path, &children, child);

      if (which == TL_READ_KEPT)
        continue;
      if (which == TL_READ_FAILED || !tl_read_element (reader, child, cell_path, attributes)
          || !tl_read_required (reader, child, "value") || !texts_are_storable (reader, child)
          || !tl_read_skip_children (reader, child, cell_path, &none))
        return FALSE;
      g_ptr_array_add (cells, g_strdup (tl_xml_attribute (child, "value")));
    }
  g_ptr_array_add (cells, NULL);
  row->cells = (char **) g_ptr_array_free (g_steal_pointer (&cells), FALSE);
  return TRUE;
}

static gboolean
read_threshold (TlJointReader *reader, const TlXmlNode *node, const char *path, const char *id,
                TlUsed *used)
{
  static const char *const attributes[] = { "id", "practice", "known-by", "source", "note", NULL };
  g_autoptr (TlTableRow) row = g_new0 (TlTableRow, 1);

  row->id = g_strdup (id);
  row->practice = g_strdup (tl_xml_attribute (node, "practice"));
  row->source = g_strdup (tl_xml_attribute (node, "source"));
  row->note = g_strdup (tl_xml_attribute (node, "note"));
  if (!tl_read_required (reader, node, "practice")
      || !tl_read_element (reader, node, path, attributes) || !texts_are_storable (reader, node)
      || !tl_read_known_by (reader, node, FALSE, &row->known_by)
      || !read_cells (reader, node, path, row))
    return FALSE;
  g_ptr_array_add (used->thresholds, g_steal_pointer (&row));
  return TRUE;
}

typedef gboolean (*ReadCopy) (TlJointReader *reader, const TlXmlNode *node, const char *path,
                              const char *id, TlUsed *used);

gboolean
tl_read_used (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const attributes[] = { "data-version", "practice", NULL };
  static const ReadCopy    read_copy[] = { read_part, read_material, read_threshold };
  TlReadChildren           children = { .names = used_children, .repeated = 7 };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  TlUsed *used = tl_used_new ();

  joint->used = used;
  if (!tl_read_element (reader, node, "used", attributes) || !texts_are_storable (reader, node)
      || !tl_read_required (reader, node, "data-version")
      || !tl_read_required (reader, node, "practice"))
    return FALSE;
  g_free (used->data_version);
  g_free (used->practice);
  used->data_version = g_strdup (tl_xml_attribute (node, "data-version"));
  used->practice = g_strdup (tl_xml_attribute (node, "practice"));
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, "used", &children, child);
      if (which == TL_READ_KEPT)
        continue;
      if (which == TL_READ_FAILED)
        return FALSE;

      const char *of = tl_xml_attribute (child, "id"), *practice = NULL;
      if (which == 2)
        practice = tl_xml_attribute (child, "practice");
      g_autofree char *path = g_strconcat ("used/", child->name, "=", of != NULL ? of : "",
                                           practice != NULL ? "@" : NULL, practice, NULL);
      const char      *id = read_copy_id (reader, child, path, seen);
      if (id == NULL || !read_copy[which](reader, child, path, id, used))
        return FALSE;
    }
  return TRUE;
}
