/* source.c: published works that figures come from, and the checks that every reader here shares.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define ID_LONGEST 64

static const char *const source_kinds[] = { "standard", "book",   "article", "page",
                                            "practice", "memory", "design",  NULL };

const char *
tl_stock_required (const TlStockReader *reader, const TlXmlNode *node, const char *name,
                   GError **error)
{
  const char *value = tl_xml_attribute (node, name);

  if (value == NULL || *value == '\0')
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE,
                    _ ("<%s> has no “%s”; write %s=\"…\"."), node->name, name, name);
      return NULL;
    }
  return value;
}

gboolean
tl_stock_only (const TlStockReader *reader, const TlXmlNode *node, const char *const *allowed,
               GError **error)
{
  for (char **attribute = node->attributes; *attribute != NULL; attribute += 2)
    if (!g_strv_contains (allowed, attribute[0]))
      {
        g_autofree char *list = g_strjoinv (", ", (char **) allowed);

        tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                      _ ("<%s> has an unknown attribute “%s”; it may have: %s."), node->name,
                      attribute[0], list);
        return FALSE;
      }
  return TRUE;
}

gboolean
tl_stock_id_is_valid (const char *id)
{
  return *id != '\0' && strlen (id) <= ID_LONGEST
         && id[strspn (id, "abcdefghijklmnopqrstuvwxyz0123456789-.")] == '\0';
}

gboolean
tl_stock_id (const TlStockReader *reader, const TlXmlNode *node, const char **id, GError **error)
{
  const char *value = tl_stock_required (reader, node, "id", error);

  if (value == NULL)
    return FALSE;
  if (!tl_stock_id_is_valid (value))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The id “%s” is not well formed; small letters, digits, hyphens and dots "
                       "are right, at most %d of them."),
                    value, ID_LONGEST);
      return FALSE;
    }
  *id = value;
  return TRUE;
}

gboolean
tl_stock_known_by_person (TlKnownBy known_by)
{
  return known_by == TL_KNOWN_STATED || known_by == TL_KNOWN_MEASURED
         || known_by == TL_KNOWN_MARKING || known_by == TL_KNOWN_ASSUMED;
}

/* In a pack: what a person knows needs no source, and what stands without a word is stated. */
static gboolean
pack_origin (const TlStockReader *reader, const TlXmlNode *node, const char *word, const char *id,
             TlKnownBy *known_by, GError **error)
{
  *known_by = TL_KNOWN_STATED;
  if (word != NULL
      && (!tl_known_by_from_word (word, known_by)
          || (*known_by < TL_KNOWN_SEEN && !tl_stock_known_by_person (*known_by))))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("known-by is “%s”; in a pack it must be stated, measured, marking, assumed, "
                       "seen, memory, disputed, computed or practice."),
                    word);
      return FALSE;
    }
  if (id == NULL && !tl_stock_known_by_person (*known_by))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE,
                    _ ("<%s> is known by “%s” and names no source; write source=\"…\", or "
                       "known-by=\"measured\" if you measured it."),
                    node->name, word);
      return FALSE;
    }
  return TRUE;
}

gboolean
tl_stock_origin (const TlStockReader *reader, const TlXmlNode *node,
                 const TlStockDefaults *defaults, const char **source, TlKnownBy *known_by,
                 GError **error)
{
  const char *id = tl_xml_attribute (node, "source");
  const char *word = tl_xml_attribute (node, "known-by");

  if (id == NULL && defaults != NULL)
    id = defaults->source;
  if (word == NULL && defaults != NULL)
    word = defaults->known_by;
  if (reader->is_pack)
    {
      *source = id;
      return pack_origin (reader, node, word, id, known_by, error);
    }
  if (id == NULL)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE,
                    _ ("<%s> names no source; write source=\"…\" with an id of sources.xml."),
                    node->name);
      return FALSE;
    }
  if (tl_stock_source (reader->stock, id) == NULL)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The source “%s” does not exist; enter it in sources.xml."), id);
      return FALSE;
    }
  if (word == NULL || !tl_known_by_from_word (word, known_by) || *known_by < TL_KNOWN_SEEN)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("known-by is “%s”; it must be seen, memory, disputed, computed or "
                       "practice."),
                    word != NULL ? word : "");
      return FALSE;
    }
  *source = id;
  return TRUE;
}

TlSource *
tl_source_read (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  static const char *const allowed[] = { "id", "kind", "title", "edition", "clause", NULL };
  const char              *id, *kind, *title, *edition, *clause;
  TlSource                *source;

  if (!tl_stock_only (reader, node, allowed, error) || !tl_stock_id (reader, node, &id, error)
      || (kind = tl_stock_required (reader, node, "kind", error)) == NULL
      || (title = tl_stock_required (reader, node, "title", error)) == NULL)
    return NULL;
  if (!g_strv_contains (source_kinds, kind))
    {
      g_autofree char *list = g_strjoinv (", ", (char **) source_kinds);

      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The kind of source is “%s”; it must be one of: %s."), kind, list);
      return NULL;
    }

  edition = tl_xml_attribute (node, "edition");
  clause = tl_xml_attribute (node, "clause");
  source = g_new0 (TlSource, 1);
  source->id = g_strdup (id);
  source->kind = g_strdup (kind);
  source->title = g_strdup (title);
  source->edition = g_strdup (edition != NULL ? edition : "");
  source->clause = g_strdup (clause != NULL ? clause : "");
  return source;
}

void
tl_source_free (TlSource *source)
{
  if (source == NULL)
    return;
  g_free (source->id);
  g_free (source->kind);
  g_free (source->title);
  g_free (source->edition);
  g_free (source->clause);
  g_free (source);
}
