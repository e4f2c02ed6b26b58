/* load.c: the files of data/ into one stock.
 *
 * Sources first, then materials, parts and tables, so that every id that a row names can be
 * checked at the line that names it. Files of a folder are read in the order of their names.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"
#include "stock-resource.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

/* Reads one element and puts it where it belongs. */
typedef struct
{
  const char *element;
  gboolean (*enter) (TlStock *self, const TlStockReader *reader, const TlXmlNode *node,
                     GError **error);
} Entry;

static gboolean
enter_id (GHashTable *by_id, GPtrArray *rows, const TlStockReader *reader, const TlXmlNode *node,
          char *id, gpointer row, GError **error)
{
  g_ptr_array_add (rows, row);
  if (g_hash_table_insert (by_id, id, row))
    return TRUE;
  tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                _ ("The id “%s” stands twice; give one of the two another."), id);
  return FALSE;
}

static gboolean
enter_source (TlStock *self, const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  TlSource *source = tl_source_read (reader, node, error);

  return source != NULL
         && enter_id (self->source_by_id, self->sources, reader, node, source->id, source, error);
}

static gboolean
enter_material (TlStock *self, const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  TlMaterial *material = tl_material_read (reader, node, error);

  return material != NULL
         && enter_id (self->material_by_id, self->materials, reader, node, material->id, material,
                      error);
}

static gboolean
enter_part (TlStock *self, const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  TlPart *part = tl_part_read (reader, node, error);

  return part != NULL
         && enter_id (self->part_by_id, self->parts, reader, node, part->id, part, error);
}

static gboolean
enter_table (TlStock *self, const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  TlTable *table = tl_table_read (reader, node, error);

  if (table == NULL
      || !enter_id (self->table_by_id, self->tables, reader, node, table->id, table, error))
    return FALSE;
  if (strcmp (table->id, TL_STOCK_THRESHOLDS) == 0)
    tl_stock_index_thresholds (self, table->rows);
  return TRUE;
}

static const Entry entries[] = {
  { "source", enter_source },
  { "material", enter_material },
  { "part", enter_part },
  { "table", enter_table },
};

/* Every <stock> file may hold any of the four; others are refused at their line. */
static gboolean
check_document (const TlXmlDocument *document, GError **error)
{
  const TlXmlNode *root = document->root;

  if (strcmp (root->name, "stock") != 0 || strcmp (root->ns, TL_STOCK_NAMESPACE) != 0)
    {
      tl_xml_error (error, document, root, TL_ERROR_PARSE,
                    _ ("The file opens with <%s> of “%s”; it must open with <stock xmlns=\"%s\">."),
                    root->name, root->ns, TL_STOCK_NAMESPACE);
      return FALSE;
    }
  for (guint i = 0; i < root->children->len; i++)
    {
      const TlXmlNode *node = g_ptr_array_index (root->children, i);
      gboolean         is_known = FALSE;

      for (guint k = 0; k < G_N_ELEMENTS (entries); k++)
        is_known = is_known || strcmp (node->name, entries[k].element) == 0;
      if (is_known)
        continue;
      tl_xml_error (error, document, node, TL_ERROR_NAME,
                    _ ("<%s> does not belong in <stock>; source, material, part and table do."),
                    node->name);
      return FALSE;
    }
  return TRUE;
}

static TlStock *
stock_from_documents (const GPtrArray *documents, GError **error)
{
  g_autoptr (TlStock) self = tl_stock_new_empty ();

  g_ptr_array_set_free_func (self->sources, (GDestroyNotify) tl_source_free);
  g_ptr_array_set_free_func (self->materials, (GDestroyNotify) tl_material_free);
  g_ptr_array_set_free_func (self->parts, (GDestroyNotify) tl_part_free);
  g_ptr_array_set_free_func (self->tables, (GDestroyNotify) tl_table_free);

  for (guint i = 0; i < documents->len; i++)
    {
      const TlXmlDocument *document = g_ptr_array_index (documents, i);
      const char          *version;

      if (!check_document (document, error))
        return NULL;
      version = tl_xml_attribute (document->root, "version");
      if (version != NULL)
        {
          g_free (self->version);
          self->version = g_strdup (version);
        }
    }
  if (self->version == NULL)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_VERSION,
                   _ ("No file of the stock says its version; sources.xml must have it."));
      return NULL;
    }
  for (guint k = 0; k < G_N_ELEMENTS (entries); k++)
    for (guint i = 0; i < documents->len; i++)
      {
        const TlStockReader reader = { g_ptr_array_index (documents, i), self, FALSE };
        const GPtrArray    *children = reader.document->root->children;

        for (guint n = 0; n < children->len; n++)
          {
            const TlXmlNode *node = g_ptr_array_index (children, n);

            if (strcmp (node->name, entries[k].element) == 0
                && !entries[k].enter (self, &reader, node, error))
              return NULL;
          }
      }
  return g_steal_pointer (&self);
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Names of the .xml files in @folder of @directory, or of the resource if that is %NULL; sorted. */
static GPtrArray *
list_files (const char *directory, const char *folder, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  if (directory == NULL)
    {
      g_autofree char *path = g_strconcat (TL_STOCK_RESOURCE "/", folder, NULL);
      g_auto (GStrv) children = g_resource_enumerate_children (tl_stock_get_resource (), path,
                                                               G_RESOURCE_LOOKUP_FLAGS_NONE, error);

      if (children == NULL)
        return NULL;
      for (char **child = children; *child != NULL; child++)
        g_ptr_array_add (names, g_strconcat (folder, "/", *child, NULL));
    }
  else
    {
      g_autofree char *path = g_build_filename (directory, folder, NULL);
      g_autoptr (GError) cause = NULL;
      g_autoptr (GDir) dir = g_dir_open (path, 0, &cause);

      if (dir == NULL)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                       _ ("%s: %s; a folder of stock data has sources.xml, stock and tables."),
                       path, cause->message);
          return NULL;
        }
      for (const char *child; (child = g_dir_read_name (dir)) != NULL;)
        if (g_str_has_suffix (child, ".xml") && child[0] != '.')
          g_ptr_array_add (names, g_strconcat (folder, "/", child, NULL));
    }
  g_ptr_array_sort (names, compare_names);
  return g_steal_pointer (&names);
}

static TlXmlDocument *
read_document (const char *directory, const char *name, GError **error)
{
  if (directory == NULL)
    {
      g_autofree char *path = g_strconcat (TL_STOCK_RESOURCE "/", name, NULL);
      g_autoptr (GBytes) bytes = g_resource_lookup_data (tl_stock_get_resource (), path,
                                                         G_RESOURCE_LOOKUP_FLAGS_NONE, error);
      gsize       length;
      const char *data;

      if (bytes == NULL)
        return NULL;
      data = g_bytes_get_data (bytes, &length);
      return tl_xml_parse (data, length, name, &tl_xml_caps_stock, error);
    }
  else
    {
      g_autofree char *path = g_build_filename (directory, name, NULL);

      return tl_xml_read_file (path, &tl_xml_caps_stock, error);
    }
}

TlStock *
tl_stock_load (const char *directory, GError **error)
{
  static const char *const folders[] = { "stock", "tables" };
  g_autoptr (GPtrArray) documents =
      g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_document_free);
  TlXmlDocument *document = read_document (directory, "sources.xml", error);

  if (document == NULL)
    return NULL;
  g_ptr_array_add (documents, document);
  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autoptr (GPtrArray) names = list_files (directory, folders[i], error);

      if (names == NULL)
        return NULL;
      for (guint k = 0; k < names->len; k++)
        {
          document = read_document (directory, g_ptr_array_index (names, k), error);
          if (document == NULL)
            return NULL;
          g_ptr_array_add (documents, document);
        }
    }
  return stock_from_documents (documents, error);
}
