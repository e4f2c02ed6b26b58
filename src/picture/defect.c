/* defect.c: the catalogue of visible defects.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/defect.h"

#include "base/xml.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#define RESOURCE "/tinlap/data/defects.xml"
#define NAMESPACE "urn:tinlap:defects:1"

struct _TlDefects
{
  gatomicrefcount ref_count;
  GPtrArray      *rows;
  GPtrArray      *families;
  GHashTable     *by_id;
};

const char *
tl_grade_label (TlGrade grade)
{
  static const char *const labels[] = { TL_N_ ("nothing seen here"), TL_N_ ("Watch"),
                                        TL_N_ ("Change"), TL_N_ ("Unsafe") };

  g_return_val_if_fail ((guint) grade < TL_N_GRADES, "");
  return labels[grade];
}

const char *const *
tl_grade_words (void)
{
  static const char *const words[] = { "nothing-seen", "watch", "change", "unsafe", NULL };

  return words;
}

gboolean
tl_grade_from_catalogue (const char *word, TlGrade *grade)
{
  static const char *const words[] = { "", "note", "soon", "stop" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (words[i], word) == 0)
      {
        *grade = (TlGrade) i;
        return TRUE;
      }
  return FALSE;
}

static void
defect_free (gpointer data)
{
  TlDefect *self = data;

  g_free (self->id);
  g_free (self->family);
  g_free (self->seen);
  g_free (self->cause);
  g_free (self->follows);
  g_free (self->action);
  g_free (self->source);
  g_free (self);
}

static void
family_free (gpointer data)
{
  TlDefectFamily *self = data;

  g_free (self->id);
  g_free (self->title);
  g_free (self);
}

/* --- reading --- */

typedef struct
{
  const TlXmlDocument *document;
  const TlStock       *stock;
  TlDefects           *self;
} Reader;

static gboolean
take (const Reader *reader, const TlXmlNode *node, const char *name, char **slot, GError **error)
{
  const char *value = tl_xml_attribute (node, name);

  if (value == NULL || *value == '\0')
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE,
                    _ ("<%s> needs the attribute “%s”."), node->name, name);
      return FALSE;
    }
  *slot = g_strdup (value);
  return TRUE;
}

static gboolean
read_origin (const Reader *reader, const TlXmlNode *node, TlDefect *row, GError **error)
{
  g_autofree char *severity = NULL, *known_by = NULL;

  if (!take (reader, node, "severity", &severity, error)
      || !take (reader, node, "known-by", &known_by, error)
      || !take (reader, node, "source", &row->source, error))
    return FALSE;
  if (!tl_grade_from_catalogue (severity, &row->grade))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("“%s” is no severity; stop, soon and note are."), severity);
      return FALSE;
    }
  if (!tl_known_by_from_word (known_by, &row->known_by))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("“%s” is no way to know a thing; seen, memory and practice are."), known_by);
      return FALSE;
    }
  if (tl_stock_source (reader->stock, row->source) != NULL)
    return TRUE;
  tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                _ ("There is no source “%s” in sources.xml."), row->source);
  return FALSE;
}

static gboolean
read_defect (const Reader *reader, const char *family, const TlXmlNode *node, GError **error)
{
  TlDefect *row = g_new0 (TlDefect, 1);

  g_ptr_array_add (reader->self->rows, row);
  row->family = g_strdup (family);
  if (!take (reader, node, "id", &row->id, error) || !take (reader, node, "seen", &row->seen, error)
      || !take (reader, node, "cause", &row->cause, error)
      || !take (reader, node, "follows", &row->follows, error)
      || !take (reader, node, "do", &row->action, error) || !read_origin (reader, node, row, error))
    return FALSE;
  if (g_hash_table_insert (reader->self->by_id, row->id, row))
    return TRUE;
  tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                _ ("The id “%s” stands twice; give one of the two another."), row->id);
  return FALSE;
}

static gboolean
read_family (const Reader *reader, const TlXmlNode *node, GError **error)
{
  TlDefectFamily *family = g_new0 (TlDefectFamily, 1);

  g_ptr_array_add (reader->self->families, family);
  if (!take (reader, node, "id", &family->id, error)
      || !take (reader, node, "title", &family->title, error))
    return FALSE;
  for (guint i = 0; i < node->children->len; i++)
    if (!read_defect (reader, family->id, g_ptr_array_index (node->children, i), error))
      return FALSE;
  return TRUE;
}

TlDefects *
tl_defects_parse (const char *data, gsize length, const TlStock *stock, GError **error)
{
  g_autoptr (TlXmlDocument) document =
      tl_xml_parse (data, length, "defects.xml", &tl_xml_caps_joint, error);
  g_autoptr (TlDefects) self = NULL;
  Reader reader;

  if (document == NULL)
    return NULL;
  if (strcmp (document->root->name, "defects") != 0 || strcmp (document->root->ns, NAMESPACE) != 0)
    {
      tl_xml_error (error, document, document->root, TL_ERROR_PARSE,
                    _ ("The file must open with <defects xmlns=\"%s\">."), NAMESPACE);
      return NULL;
    }
  self = g_new0 (TlDefects, 1);
  g_atomic_ref_count_init (&self->ref_count);
  self->rows = g_ptr_array_new_with_free_func (defect_free);
  self->families = g_ptr_array_new_with_free_func (family_free);
  self->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  reader = (Reader){ document, stock, self };
  for (guint i = 0; i < document->root->children->len; i++)
    if (!read_family (&reader, g_ptr_array_index (document->root->children, i), error))
      return NULL;
  return g_steal_pointer (&self);
}

TlDefects *
tl_defects_load (const TlStock *stock, GError **error)
{
  g_autoptr (GBytes) bytes =
      g_resources_lookup_data (RESOURCE, G_RESOURCE_LOOKUP_FLAGS_NONE, error);
  gsize       length;
  const char *data;

  if (bytes == NULL)
    return NULL;
  data = g_bytes_get_data (bytes, &length);
  return tl_defects_parse (data, length, stock, error);
}

TlDefects *
tl_defects_ref (TlDefects *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
tl_defects_unref (TlDefects *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_hash_table_unref (self->by_id);
  g_ptr_array_unref (self->rows);
  g_ptr_array_unref (self->families);
  g_free (self);
}

const GPtrArray *
tl_defects_all (const TlDefects *self)
{
  return self->rows;
}

const GPtrArray *
tl_defects_families (const TlDefects *self)
{
  return self->families;
}

const TlDefect *
tl_defects_find (const TlDefects *self, const char *id)
{
  return g_hash_table_lookup (self->by_id, id);
}

/* --- searching --- */

/* All that can be searched of a row, folded; (transfer full) */
static char *
haystack (const TlDefect *row, const TlLanguage *language)
{
  const char *texts[] = { row->seen, row->cause, row->follows, row->action };
  g_autoptr (GString) all = g_string_new (row->id);

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_string_append_printf (all, "\n%s\n%s", texts[i], tl_language_text (language, texts[i]));
  return g_utf8_casefold (all->str, -1);
}

GPtrArray *
tl_defects_search (const TlDefects *self, const char *family, const char *words,
                   const TlLanguage *language)
{
  GPtrArray       *found = g_ptr_array_new ();
  g_autofree char *folded = g_utf8_casefold (words, -1);
  g_auto (GStrv) each = g_strsplit (folded, " ", 20);

  for (guint i = 0; i < self->rows->len; i++)
    {
      TlDefect        *row = g_ptr_array_index (self->rows, i);
      g_autofree char *text = haystack (row, language);
      gboolean         fits = family == NULL || strcmp (family, row->family) == 0;

      for (guint k = 0; fits && each[k] != NULL; k++)
        fits = strstr (text, each[k]) != NULL;
      if (fits)
        g_ptr_array_add (found, row);
    }
  return found;
}
