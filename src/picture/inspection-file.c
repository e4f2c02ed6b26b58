/* inspection-file.c: inspections to and from the reserved elements of the document.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/inspection-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define MOST_RECORDS 5000u
#define MOST_NUMBER 999999999.0

/* Where a list of records stands in an inspection. */
static const struct
{
  const TlForm *form;
  gsize         offset;
} parts[] = {
  { &tl_scale_form, G_STRUCT_OFFSET (TlInspection, scales) },
  { &tl_measure_form, G_STRUCT_OFFSET (TlInspection, measures) },
  { &tl_picture_mark_form, G_STRUCT_OFFSET (TlInspection, marks) },
  { &tl_found_form, G_STRUCT_OFFSET (TlInspection, found) },
};

static GPtrArray *
part_of (const TlInspection *self, guint index)
{
  return *(GPtrArray **) (gpointer) ((char *) self + parts[index].offset);
}

static gboolean
fail_node (const TlXmlNode *node, int code, GError **error, const char *text)
{
  g_set_error (error, TL_ERROR, code, _ ("line %u: %s"), node->line, text);
  return FALSE;
}

/* --- reading --- */

static gboolean
check_id (GHashTable *ids, gpointer record, const TlXmlNode *node, GError **error)
{
  const char *id = *tl_record_id (record);

  if (*id == '\0' || strlen (id) > 64)
    return fail_node (node, TL_ERROR_NAME, error, _ ("The id must have 1 to 64 letters."));
  if (g_hash_table_size (ids) >= MOST_RECORDS)
    return fail_node (node, TL_ERROR_LIMIT, error,
                      _ ("There are too many pictures, marks and measures."));
  if (g_hash_table_add (ids, g_strdup (id)))
    return TRUE;
  return fail_node (node, TL_ERROR_NAME, error,
                    _ ("An id stands twice; give one of the two another."));
}

static gboolean
check_record (const TlForm *form, gconstpointer record, const TlXmlNode *node, GError **error)
{
  g_autoptr (GError) cause = NULL;
  guint most, least;

  if (form == &tl_scale_form && !tl_scale_check (record, &cause))
    return fail_node (node, TL_ERROR_RANGE, error, cause->message);
  if (form == &tl_picture_mark_form && !tl_picture_mark_check (record, &cause))
    return fail_node (node, TL_ERROR_RANGE, error, cause->message);
  if (form == &tl_measure_form)
    {
      const TlMeasure *measure = record;

      least = tl_measure_points (measure->kind, &most);
      if (measure->points->len < least || (most > 0 && measure->points->len > most))
        return fail_node (node, TL_ERROR_RANGE, error,
                          _ ("The measure has another number of points than its kind needs."));
    }
  return TRUE;
}

/* One child of an inspection; @is_known tells whether it was ours. */
static gboolean
read_part (TlInspection *self, const TlXmlNode *node, GHashTable *ids, gboolean *is_known,
           GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      gpointer record;

      if (strcmp (node->name, parts[i].form->element) != 0)
        continue;
      *is_known = TRUE;
      record = tl_record_read (parts[i].form, node, error);
      if (record == NULL)
        return FALSE;
      g_ptr_array_add (part_of (self, i), record);
      return check_record (parts[i].form, record, node, error)
             && (parts[i].form == &tl_found_form || check_id (ids, record, node, error));
    }
  *is_known = FALSE;
  return TRUE;
}

/* What is not ours stays in the record's kept children; ours is taken out of them. */
static gboolean
read_inspection (TlInspections *self, const TlXmlNode *node, GHashTable *ids, GError **error)
{
  TlInspection *inspection = tl_record_read (&tl_inspection_form, node, error);

  if (inspection == NULL)
    return FALSE;
  inspection->scales = g_ptr_array_new_with_free_func (tl_record_unref);
  inspection->measures = g_ptr_array_new_with_free_func (tl_record_unref);
  inspection->marks = g_ptr_array_new_with_free_func (tl_record_unref);
  inspection->found = g_ptr_array_new_with_free_func (tl_record_unref);
  g_ptr_array_add (self->inspections, inspection);
  if (!check_id (ids, inspection, node, error))
    return FALSE;
  if (inspection->record.kept != NULL)
    g_ptr_array_set_size (inspection->record.kept->children, 0);
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      gboolean         is_known;

      if (!read_part (inspection, child, ids, &is_known, error))
        return FALSE;
      if (!is_known)
        tl_node_add (inspection->record.kept, tl_xml_node_copy (child));
    }
  return TRUE;
}

static void
keep (TlInspections *self, const TlXmlNode *place, const TlXmlNode *child)
{
  TlXmlNode *holder = tl_node_new (place->name, place->ns);

  tl_node_add (holder, tl_xml_node_copy (child));
  g_ptr_array_add (self->kept, holder);
}

/* Simple children of @node, all of @form, into @list. */
static gboolean
read_list (TlInspections *self, const TlXmlNode *node, const TlForm *form, GPtrArray *list,
           GHashTable *ids, GError **error)
{
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      gpointer         record;

      if (strcmp (child->name, form->element) != 0)
        {
          keep (self, node, child);
          continue;
        }
      record = tl_record_read (form, child, error);
      if (record == NULL)
        return FALSE;
      g_ptr_array_add (list, record);
      if (!check_id (ids, record, child, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_photos (const TlInspections *self, const TlXmlNode *node, GError **error)
{
  if (self->photos->len > TL_INSPECTIONS_MAX_PICTURES)
    return fail_node (node, TL_ERROR_LIMIT, error, _ ("There are more than 200 pictures."));
  for (guint i = 0; i < self->photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (self->photos, i);

      if (strlen (photo->sha256) != 64 || strspn (photo->sha256, "0123456789abcdef") != 64)
        return fail_node (node, TL_ERROR_PARSE, error,
                          _ ("A SHA-256 has 64 digits 0 to 9 and a to f."));
    }
  return TRUE;
}

static gboolean
read_inspections (TlInspections *self, const TlXmlNode *node, GHashTable *ids, GError **error)
{
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);

      if (strcmp (child->name, "inspection") == 0)
        {
          if (!read_inspection (self, child, ids, error))
            return FALSE;
        }
      else if (strcmp (child->name, "entry") == 0)
        {
          gpointer entry = tl_record_read (&tl_custody_form, child, error);

          if (entry == NULL)
            return FALSE;
          g_ptr_array_add (self->custody, entry);
          if (self->custody->len > MOST_RECORDS)
            return fail_node (child, TL_ERROR_LIMIT, error, _ ("The chain has too many entries."));
        }
      else
        keep (self, node, child);
    }
  return TRUE;
}

static gboolean
is_blank (const TlXmlNode *node)
{
  return node->children->len == 0 && node->attributes[0] == NULL;
}

TlInspections *
tl_inspections_from_nodes (const GPtrArray *nodes, GError **error)
{
  g_autoptr (TlInspections) self = tl_inspections_new ();
  g_autoptr (GHashTable) ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GHashTableIter iter;
  gpointer       id;

  for (guint i = 0; i < nodes->len; i++)
    {
      const TlXmlNode *node = g_ptr_array_index (nodes, i);

      if (is_blank (node))
        continue;
      if (strcmp (node->name, "pictures") == 0
          && (!read_list (self, node, &tl_photo_form, self->photos, ids, error)
              || !check_photos (self, node, error)))
        return NULL;
      if (strcmp (node->name, "readings") == 0
          && !read_list (self, node, &tl_reading_form, self->readings, ids, error))
        return NULL;
      if (strcmp (node->name, "inspections") == 0 && !read_inspections (self, node, ids, error))
        return NULL;
    }
  g_hash_table_iter_init (&iter, ids);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    {
      const char *dash = strrchr (id, '-');
      double      number = dash != NULL ? g_ascii_strtod (dash + 1, NULL) : 0.0;

      if (number >= 0.0 && number < MOST_NUMBER)
        self->next_id = MAX (self->next_id, (guint) floor (number) + 1);
    }
  return g_steal_pointer (&self);
}

/* --- writing --- */

TlXmlNode *
tl_inspection_write (const TlInspection *self, const char *ns, gboolean with_seal)
{
  TlInspection *plain = tl_record_copy (self);
  TlXmlNode    *node;

  if (!with_seal)
    {
      tl_record_text (&plain->seal, "");
      tl_record_text (&plain->issued, "");
    }
  node = tl_record_write (plain, ns);
  tl_record_unref (plain);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    for (guint k = 0; k < part_of (self, i)->len; k++)
      tl_node_add (node, tl_record_write (g_ptr_array_index (part_of (self, i), k), ns));
  return node;
}

static void
put_kept (const TlInspections *self, TlXmlNode *node)
{
  for (guint i = 0; i < self->kept->len; i++)
    {
      const TlXmlNode *holder = g_ptr_array_index (self->kept, i);

      if (strcmp (holder->name, node->name) == 0)
        tl_node_add (node, tl_xml_node_copy (g_ptr_array_index (holder->children, 0)));
    }
}

static void
add_unless_blank (GPtrArray *nodes, TlXmlNode *node)
{
  if (is_blank (node))
    tl_xml_node_free (node);
  else
    g_ptr_array_add (nodes, node);
}

GPtrArray *
tl_inspections_to_nodes (const TlInspections *self, const char *ns)
{
  GPtrArray *nodes = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
  TlXmlNode *pictures = tl_node_new ("pictures", ns), *readings = tl_node_new ("readings", ns),
            *inspections = tl_node_new ("inspections", ns);

  for (guint i = 0; i < self->photos->len; i++)
    tl_node_add (pictures, tl_record_write (g_ptr_array_index (self->photos, i), ns));
  for (guint i = 0; i < self->readings->len; i++)
    tl_node_add (readings, tl_record_write (g_ptr_array_index (self->readings, i), ns));
  for (guint i = 0; i < self->inspections->len; i++)
    tl_node_add (inspections,
                 tl_inspection_write (g_ptr_array_index (self->inspections, i), ns, TRUE));
  for (guint i = 0; i < self->custody->len; i++)
    tl_node_add (inspections, tl_record_write (g_ptr_array_index (self->custody, i), ns));
  put_kept (self, pictures);
  put_kept (self, readings);
  put_kept (self, inspections);
  add_unless_blank (nodes, pictures);
  add_unless_blank (nodes, readings);
  add_unless_blank (nodes, inspections);
  return nodes;
}
