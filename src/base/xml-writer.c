/* xml-writer.c: the writing half of xml.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "base/xml.h"

#include <string.h>

typedef struct
{
  char    *name;
  char    *ns; /* default namespace inside; NULL: that of the parent */
  gboolean has_children;
} Element;

struct _TlXmlWriter
{
  GString   *out;
  GPtrArray *open;        /* (element-type Element) */
  gboolean   is_tag_open; /* attributes may still come */
  guint      n_prefixes;  /* made up so far for attributes of other namespaces */
};

static void
element_free (gpointer data)
{
  Element *element = data;

  g_free (element->name);
  g_free (element->ns);
  g_free (element);
}

TlXmlWriter *
tl_xml_writer_new (void)
{
  TlXmlWriter *self = g_new0 (TlXmlWriter, 1);

  self->out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  self->open = g_ptr_array_new_with_free_func (element_free);
  return self;
}

void
tl_xml_writer_free (TlXmlWriter *self)
{
  g_return_if_fail (self != NULL);

  g_string_free (self->out, TRUE);
  g_ptr_array_unref (self->open);
  g_free (self);
}

static Element *
current (const TlXmlWriter *self)
{
  return self->open->len > 0 ? g_ptr_array_index (self->open, self->open->len - 1) : NULL;
}

static const char *
current_ns (const TlXmlWriter *self)
{
  for (guint i = self->open->len; i > 0; i--)
    {
      const Element *element = g_ptr_array_index (self->open, i - 1);

      if (element->ns != NULL)
        return element->ns;
    }
  return "";
}

static void
indent (TlXmlWriter *self, guint depth)
{
  for (guint i = 0; i < depth; i++)
    g_string_append (self->out, "  ");
}

/* Characters that XML 1.0 cannot hold become U+FFFD: a note must not make a file unreadable. */
static void
append_escaped (GString *out, const char *text, gboolean is_attribute)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);

  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (c == '&')
        g_string_append (out, "&amp;");
      else if (c == '<')
        g_string_append (out, "&lt;");
      else if (c == '>')
        g_string_append (out, "&gt;");
      else if (c == '"' && is_attribute)
        g_string_append (out, "&quot;");
      else if (c == '\r' || ((c == '\n' || c == '\t') && is_attribute))
        g_string_append_printf (out, "&#%u;", c);
      else if ((c < 0x20 && c != '\n' && c != '\t') || c == 0xfffe || c == 0xffff)
        g_string_append_unichar (out, 0xfffd);
      else
        g_string_append_unichar (out, c);
    }
}

static void
end_tag (TlXmlWriter *self)
{
  if (self->is_tag_open)
    g_string_append_c (self->out, '>');
  self->is_tag_open = FALSE;
}

void
tl_xml_writer_open (TlXmlWriter *self, const char *name)
{
  Element *parent;
  Element *element;

  g_return_if_fail (self != NULL && name != NULL && *name != '\0');

  end_tag (self);
  parent = current (self);
  if (parent != NULL)
    {
      parent->has_children = TRUE;
      g_string_append_c (self->out, '\n');
      indent (self, self->open->len);
    }
  g_string_append_printf (self->out, "<%s", name);
  element = g_new0 (Element, 1);
  element->name = g_strdup (name);
  g_ptr_array_add (self->open, element);
  self->is_tag_open = TRUE;
}

void
tl_xml_writer_attribute (TlXmlWriter *self, const char *name, const char *value)
{
  g_return_if_fail (self != NULL && name != NULL && self->is_tag_open);

  if (value == NULL)
    return;
  if (strcmp (name, "xmlns") == 0)
    {
      g_free (current (self)->ns);
      current (self)->ns = g_strdup (value);
    }
  g_string_append_printf (self->out, " %s=\"", name);
  append_escaped (self->out, value, TRUE);
  g_string_append_c (self->out, '"');
}

void
tl_xml_writer_number (TlXmlWriter *self, const char *name, double value)
{
  g_autofree char *text = tl_number_to_text (value);

  tl_xml_writer_attribute (self, name, text);
}

void
tl_xml_writer_text (TlXmlWriter *self, const char *text)
{
  g_return_if_fail (self != NULL && text != NULL && self->open->len > 0);

  if (*text == '\0')
    return;
  end_tag (self);
  append_escaped (self->out, text, FALSE);
}

void
tl_xml_writer_close (TlXmlWriter *self)
{
  const Element *element;

  g_return_if_fail (self != NULL && self->open->len > 0);

  element = current (self);
  if (self->is_tag_open)
    g_string_append (self->out, "/>");
  else
    {
      if (element->has_children)
        {
          g_string_append_c (self->out, '\n');
          indent (self, self->open->len - 1);
        }
      g_string_append_printf (self->out, "</%s>", element->name);
    }
  self->is_tag_open = FALSE;
  g_ptr_array_set_size (self->open, (int) self->open->len - 1);
  if (self->open->len == 0)
    g_string_append_c (self->out, '\n');
}

/* "{uri}name" as read gets a prefix of its own, declared where it is used. */
static void
write_foreign_attribute (TlXmlWriter *self, const char *name, const char *value)
{
  const char      *end = strchr (name, '}');
  g_autofree char *uri = NULL;
  g_autofree char *declaration = NULL;
  g_autofree char *prefixed = NULL;

  g_return_if_fail (end != NULL);

  uri = g_strndup (name + 1, (gsize) (end - name - 1));
  self->n_prefixes++;
  declaration = g_strdup_printf ("xmlns:n%u", self->n_prefixes);
  prefixed = g_strdup_printf ("n%u:%s", self->n_prefixes, end + 1);
  tl_xml_writer_attribute (self, declaration, uri);
  tl_xml_writer_attribute (self, prefixed, value);
}

void
tl_xml_writer_node (TlXmlWriter *self, const TlXmlNode *node)
{
  gboolean is_other_ns;

  g_return_if_fail (self != NULL && node != NULL);

  is_other_ns = strcmp (current_ns (self), node->ns) != 0;
  tl_xml_writer_open (self, node->name);
  if (is_other_ns)
    tl_xml_writer_attribute (self, "xmlns", node->ns);
  for (guint i = 0; node->attributes[i] != NULL; i += 2)
    if (node->attributes[i][0] == '{')
      write_foreign_attribute (self, node->attributes[i], node->attributes[i + 1]);
    else
      tl_xml_writer_attribute (self, node->attributes[i], node->attributes[i + 1]);
  tl_xml_writer_text (self, node->text);
  for (guint i = 0; i < node->children->len; i++)
    tl_xml_writer_node (self, g_ptr_array_index (node->children, i));
  tl_xml_writer_close (self);
}

char *
tl_xml_writer_finish (TlXmlWriter *self, gsize *length)
{
  char *result;

  g_return_val_if_fail (self != NULL, NULL);

  while (self->open->len > 0)
    tl_xml_writer_close (self);
  if (length != NULL)
    *length = self->out->len;
  result = g_string_free (self->out, FALSE);
  self->out = g_string_new (NULL);
  return result;
}
