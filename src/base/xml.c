/* xml.c: reading XML that may be hostile.
 *
 * libxml2's SAX interface with handlers of our own builds our tree directly: there is no document
 * of libxml2 that an entity could be kept in, the parser is stopped at the first letter of a DTD,
 * and caps hold while reading. Lines come from the parser's input, which counts past 65535, where
 * the nodes of libxml2's own tree stop.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/xml.h"

#include "base/file.h"

#include <glib/gi18n-lib.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <libxml/relaxng.h>
#include <limits.h>
#include <string.h>

/* Longest piece of a message of libxml2 that is passed on, in bytes. */
#define MAX_MESSAGE 300

const TlXmlCaps tl_xml_caps_joint = { 8u * 1024 * 1024, 64, 10000 };
const TlXmlCaps tl_xml_caps_stock = { 64u * 1024 * 1024, 16, 1000000 };

typedef struct
{
  xmlParserCtxt   *parser;
  const char      *file;
  const TlXmlCaps *caps;
  TlXmlNode       *root;
  GPtrArray       *open;  /* (element-type TlXmlNode): from the root to where we are; not owned */
  GPtrArray       *texts; /* (element-type GString): character data of each of them */
  guint            elements;
  GError          *error;   /* the first thing that was wrong */
  gboolean         is_utf8; /* all bytes are */
} Reading;

/* --- trees --- */

void
tl_xml_node_free (TlXmlNode *node)
{
  g_return_if_fail (node != NULL);

  g_free (node->name);
  g_free (node->ns);
  g_free (node->text);
  g_strfreev (node->attributes);
  g_ptr_array_unref (node->children);
  g_free (node);
}

static GPtrArray *
children_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
}

TlXmlNode *
tl_xml_node_copy (const TlXmlNode *node)
{
  TlXmlNode *copy;

  g_return_val_if_fail (node != NULL, NULL);

  copy = g_new0 (TlXmlNode, 1);
  copy->name = g_strdup (node->name);
  copy->ns = g_strdup (node->ns);
  copy->line = node->line;
  copy->text = g_strdup (node->text);
  copy->attributes = g_strdupv (node->attributes);
  copy->children = children_new ();
  for (guint i = 0; i < node->children->len; i++)
    g_ptr_array_add (copy->children, tl_xml_node_copy (g_ptr_array_index (node->children, i)));
  return copy;
}

void
tl_xml_document_free (TlXmlDocument *self)
{
  g_return_if_fail (self != NULL);

  g_clear_pointer (&self->root, tl_xml_node_free);
  g_free (self->file);
  g_free (self);
}

const char *
tl_xml_attribute (const TlXmlNode *node, const char *name)
{
  g_return_val_if_fail (node != NULL && name != NULL, NULL);

  for (guint i = 0; node->attributes[i] != NULL; i += 2)
    if (strcmp (node->attributes[i], name) == 0)
      return node->attributes[i + 1];
  return NULL;
}

void
tl_xml_error (GError **error, const TlXmlDocument *document, const TlXmlNode *node, int code,
              const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list          arguments;

  g_return_if_fail (document != NULL && format != NULL);

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  if (node != NULL)
    g_set_error (error, TL_ERROR, code, "%s:%u: %s", document->file, node->line, message);
  else
    g_set_error (error, TL_ERROR, code, "%s: %s", document->file, message);
}

/* --- reading --- */

static guint
line_here (const Reading *self)
{
  const xmlParserInput *input = self->parser->input;

  return input != NULL && input->line > 0 ? (guint) input->line : 1;
}

/* Line of the "<" of the tag just read; the parser stands at the end of the tag by now. */
static guint
line_of_tag (const Reading *self)
{
  const xmlParserInput *input = self->parser->input;
  guint                 line = line_here (self);
  guint                 newlines = 0;

  if (input == NULL || input->base == NULL)
    return line;
  for (const xmlChar *c = input->cur; c > input->base; c--)
    {
      if (c[-1] == '\n')
        newlines++;
      if (c[-1] == '<')
        return newlines < line ? line - newlines : line;
    }
  return line;
}

static void
refuse (Reading *self, int code, guint line, const char *message)
{
  if (self->error == NULL)
    self->error = g_error_new (TL_ERROR, code, "%s:%u: %s", self->file, line, message);
  xmlStopParser (self->parser);
}

/* A character that XML forbids has the same code as bytes that are no UTF-8; a declared encoding is read as such. */
static gboolean
is_other_encoding (const Reading *self, int code)
{
  const xmlParserInput *input = self->parser->input;
  const char           *declared = (const char *) self->parser->encoding;

  /* libxml2 2.9 moves it there once it converts */
  if (declared == NULL && input != NULL)
    declared = (const char *) input->encoding;
  return (code == XML_ERR_INVALID_ENCODING || code == XML_ERR_INVALID_CHAR) && !self->is_utf8
         && (declared == NULL || g_ascii_strcasecmp (declared, "UTF-8") == 0);
}

static void
on_error (void *data, xmlErrorPtr problem)
{
  Reading         *self = data;
  g_autofree char *message = NULL;

  if (self->error != NULL || problem->level < XML_ERR_ERROR || problem->code == XML_ERR_USER_STOP)
    return;
  message = g_utf8_make_valid (
      problem->message != NULL ? problem->message : "",
      problem->message != NULL ? (gssize) strnlen (problem->message, MAX_MESSAGE) : 0);
  g_strdelimit (message, "\n\r", ' ');
  g_strchomp (message);
  if (is_other_encoding (self, problem->code))
    self->error = g_error_new (TL_ERROR, TL_ERROR_PARSE,
                               _ ("%s:%d: This is not written in UTF-8; save the file as UTF-8 "
                                  "and read it again."),
                               self->file, MAX (problem->line, 1));
  else
    self->error =
        g_error_new (TL_ERROR, TL_ERROR_PARSE, _ ("%s:%d: The file is not well-formed XML: %s"),
                     self->file, MAX (problem->line, 1), message);
  xmlStopParser (self->parser);
}

static void
on_doctype (void *data, const xmlChar *name, const xmlChar *external_id, const xmlChar *system_id)
{
  Reading *self = data;

  refuse (self, TL_ERROR_PARSE, line_here (self),
          _ ("A DOCTYPE is not accepted; leave out DTD and entities."));
}

/* The value between @begin and @end. libxml2 leaves "&" written as "&#38;" where it does not itself
 * replace entities, and nothing else. */
static char *
attribute_value (const char *begin, const char *end)
{
  g_autofree char *raw = g_strndup (begin, (gsize) (end - begin));
  GString         *value;

  if (strstr (raw, "&#38;") == NULL)
    return g_steal_pointer (&raw);
  value = g_string_new (raw);
  g_string_replace (value, "&#38;", "&", 0);
  return g_string_free (value, FALSE);
}

/* Names in another namespace read "{uri}name", but for "xml:lang" and its like. */
static char *
attribute_name (const char *local, const char *prefix, const char *uri)
{
  g_autofree char *plain = uri != NULL ? attribute_value (uri, uri + strlen (uri)) : NULL;

  if (prefix == NULL || uri == NULL)
    return g_strdup (local);
  if (strcmp (prefix, "xml") == 0)
    return g_strconcat ("xml:", local, NULL);
  return g_strconcat ("{", plain, "}", local, NULL);
}

static void
on_start (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri,
          int n_namespaces, const xmlChar **namespaces, int n_attributes, int n_defaulted,
          const xmlChar **attributes)
{
  Reading   *self = data;
  TlXmlNode *node;

  if (self->error != NULL)
    return;
  if (self->open->len >= self->caps->max_depth)
    {
      g_autofree char *message =
          g_strdup_printf (_ ("Elements are nested too deeply; at most %u levels are accepted."),
                           self->caps->max_depth);

      refuse (self, TL_ERROR_LIMIT, line_of_tag (self), message);
      return;
    }
  if (++self->elements > self->caps->max_elements)
    {
      g_autofree char *message = g_strdup_printf (
          _ ("There are too many elements; at most %u are accepted."), self->caps->max_elements);

      refuse (self, TL_ERROR_LIMIT, line_of_tag (self), message);
      return;
    }

  node = g_new0 (TlXmlNode, 1);
  node->name = g_strdup ((const char *) name);
  node->ns = uri != NULL ? attribute_value ((const char *) uri,
                                            (const char *) uri + strlen ((const char *) uri))
                         : g_strdup ("");
  node->line = line_of_tag (self);
  node->children = children_new ();
  node->attributes = g_new0 (char *, 2 * (gsize) n_attributes + 1);
  for (int i = 0; i < n_attributes; i++)
    {
      const char *const *row = (const char *const *) attributes + 5 * i;

      node->attributes[2 * i] = attribute_name (row[0], row[1], row[2]);
      node->attributes[2 * i + 1] = attribute_value (row[3], row[4]);
    }

  if (self->open->len > 0)
    {
      TlXmlNode *parent = g_ptr_array_index (self->open, self->open->len - 1);

      g_ptr_array_add (parent->children, node);
    }
  else
    self->root = node;
  g_ptr_array_add (self->open, node);
  g_ptr_array_add (self->texts, g_string_new (NULL));
}

static void
on_end (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri)
{
  Reading   *self = data;
  TlXmlNode *node;
  GString   *text;

  if (self->open->len == 0)
    return;
  node = g_ptr_array_steal_index (self->open, self->open->len - 1);
  text = g_ptr_array_steal_index (self->texts, self->texts->len - 1);
  node->text = g_strstrip (g_string_free (text, FALSE));
}

static void
on_text (void *data, const xmlChar *text, int length)
{
  Reading *self = data;

  if (self->error == NULL && self->texts->len > 0)
    g_string_append_len (g_ptr_array_index (self->texts, self->texts->len - 1), (const char *) text,
                         length);
}

static void
free_text (gpointer text)
{
  g_string_free (text, TRUE);
}

/* NUL ends the text for libxml2 and would hide what follows. UTF-16 is full of them. */
static gboolean
check_bytes (const char *data, gsize length, const char *file, const TlXmlCaps *caps,
             GError **error)
{
  static const char *const wide_starts[] = { "\xfe\xff", "\xff\xfe" };
  gboolean                 is_wide = FALSE;

  if (length > MIN (caps->max_bytes, (gsize) INT_MAX))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
                   _ ("%s: The file has %lu bytes; at most %lu are accepted."), file,
                   (gulong) length, (gulong) caps->max_bytes);
      return FALSE;
    }
  if (length == 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("%s:1: The file is empty; an XML document is wanted."), file);
      return FALSE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (wide_starts); i++)
    is_wide = is_wide || (length >= 2 && memcmp (data, wide_starts[i], 2) == 0);
  if (!is_wide && memchr (data, '\0', length) != NULL)
    {
      const char *nul = memchr (data, '\0', length);
      guint       line = 1;

      for (const char *c = data; c < nul; c++)
        line += *c == '\n';
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("%s:%u: There is a zero byte; a text in UTF-8 is wanted."), file, line);
      return FALSE;
    }
  return TRUE;
}

static xmlSAXHandler
handlers (void)
{
  xmlSAXHandler sax = { 0 };

  sax.initialized = XML_SAX2_MAGIC;
  sax.internalSubset = on_doctype;
  sax.startElementNs = on_start;
  sax.endElementNs = on_end;
  sax.characters = on_text;
  sax.ignorableWhitespace = on_text;
  sax.cdataBlock = on_text;
  sax.serror = (xmlStructuredErrorFunc) on_error;
  return sax;
}

TlXmlDocument *
tl_xml_parse (const char *data, gsize length, const char *file, const TlXmlCaps *caps,
              GError **error)
{
  Reading        self = { .file = file, .caps = caps };
  xmlSAXHandler  sax = handlers ();
  TlXmlDocument *document = NULL;

  g_return_val_if_fail (data != NULL && file != NULL && caps != NULL, NULL);

  if (!check_bytes (data, length, file, caps, error))
    return NULL;

  self.is_utf8 = g_utf8_validate_len (data, length, NULL);
  xmlInitParser ();
  self.parser = xmlCreateMemoryParserCtxt (data, (int) length);
  if (self.parser == NULL)
    g_error ("libxml2 is out of memory");
  self.open = g_ptr_array_new ();
  self.texts = g_ptr_array_new_with_free_func (free_text);
  *self.parser->sax = sax;
  self.parser->userData = &self;
  xmlCtxtUseOptions (self.parser, XML_PARSE_NONET);
  xmlParseDocument (self.parser);

  if (self.error == NULL && (!self.parser->wellFormed || self.root == NULL || self.open->len > 0))
    self.error =
        g_error_new (TL_ERROR, TL_ERROR_PARSE, _ ("%s:%u: The file is not well-formed XML."), file,
                     line_here (&self));
  g_ptr_array_unref (self.texts);
  g_ptr_array_unref (self.open);
  /* Without our tree builder there is none, but a declaration may have made an empty one. */
  if (self.parser->myDoc != NULL)
    xmlFreeDoc (self.parser->myDoc);
  xmlFreeParserCtxt (self.parser);

  if (self.error != NULL)
    {
      g_clear_pointer (&self.root, tl_xml_node_free);
      g_propagate_error (error, self.error);
      return NULL;
    }
  document = g_new0 (TlXmlDocument, 1);
  document->file = g_strdup (file);
  document->root = self.root;
  return document;
}

TlXmlDocument *
tl_xml_read_file (const char *path, const TlXmlCaps *caps, GError **error)
{
  g_autofree char *data = NULL;
  g_autofree char *shown = NULL;
  gsize            length;

  g_return_val_if_fail (path != NULL && caps != NULL, NULL);

  if (!tl_file_load (path, caps->max_bytes, &data, &length, error))
    return NULL;
  shown = g_filename_display_name (path);
  return tl_xml_parse (data, length, shown, caps, error);
}

/* --- validating --- */

typedef struct
{
  const char *file;
  GError     *error;
} Validating;

static void
on_invalid (void *data, xmlErrorPtr problem)
{
  Validating      *self = data;
  g_autofree char *message = NULL;
  long             line;

  if (self->error != NULL)
    return;
  line = problem->node != NULL ? xmlGetLineNo (problem->node) : problem->line;
  message = g_utf8_make_valid (problem->message != NULL ? problem->message : "", -1);
  g_strdelimit (message, "\n\r", ' ');
  g_strchomp (message);
  self->error = g_error_new (TL_ERROR, TL_ERROR_PARSE, _ ("%s:%ld: Not as the schema wants it: %s"),
                             self->file, MAX (line, 1), message);
}

static xmlRelaxNG *
read_schema (const char *schema, gsize length, Validating *self)
{
  xmlRelaxNGParserCtxt *parser = xmlRelaxNGNewMemParserCtxt (schema, (int) length);
  xmlRelaxNG           *result;

  xmlRelaxNGSetParserStructuredErrors (parser, (xmlStructuredErrorFunc) on_invalid, self);
  result = xmlRelaxNGParse (parser);
  xmlRelaxNGFreeParserCtxt (parser);
  return result;
}

gboolean
tl_xml_validate (const char *data, gsize length, const char *file, const char *schema,
                 gsize schema_length, GError **error)
{
  g_autoptr (TlXmlDocument) safe = NULL;
  Validating           self = { .file = "schema" };
  xmlRelaxNG          *rules;
  xmlRelaxNGValidCtxt *validator;
  xmlDoc              *document;
  int                  status = -1;

  g_return_val_if_fail (data != NULL && file != NULL && schema != NULL, FALSE);

  /* Once this has passed there is no DTD in it, and libxml2's own tree is safe to build. */
  safe = tl_xml_parse (data, length, file, &tl_xml_caps_stock, error);
  if (safe == NULL)
    return FALSE;
  rules = read_schema (schema, schema_length, &self);
  if (rules != NULL)
    {
      self.file = file;
      document = xmlReadMemory (data, (int) length, file, NULL,
                                XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING
                                    | XML_PARSE_BIG_LINES);
      validator = xmlRelaxNGNewValidCtxt (rules);
      xmlRelaxNGSetValidStructuredErrors (validator, (xmlStructuredErrorFunc) on_invalid, &self);
      if (document != NULL)
        status = xmlRelaxNGValidateDoc (validator, document);
      xmlRelaxNGFreeValidCtxt (validator);
      xmlFreeDoc (document);
      xmlRelaxNGFree (rules);
    }
  if (status != 0 && self.error == NULL)
    self.error =
        g_error_new (TL_ERROR, TL_ERROR_PARSE, _ ("%s:1: Not as the schema wants it."), file);
  if (self.error != NULL)
    {
      g_propagate_error (error, self.error);
      return FALSE;
    }
  return TRUE;
}
