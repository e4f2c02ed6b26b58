/* xml.h: reading XML that may be hostile, and writing XML that diffs well.
 *
 * One loader for all files: libxml2's parser, no network, no entities, no DTD, caps on size, depth and
 * element count checked first. Positions are true beyond line 65535.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"

G_BEGIN_DECLS

typedef struct
{
  gsize max_bytes;
  guint max_depth;
  guint max_elements;
} TlXmlCaps;

extern const TlXmlCaps tl_xml_caps_joint; /* 8 MB, depth 64, 10 000 elements */
extern const TlXmlCaps tl_xml_caps_stock; /* 64 MB, depth 16, 1 000 000 elements */

/* A parsed element: a plain tree of our own, so that nothing of libxml2 is seen outside this room.
 * An attribute of another namespace is named "{uri}name", but for "xml:lang" and its like. */
typedef struct _TlXmlNode TlXmlNode;

struct _TlXmlNode
{
  char       *name;      /* local name */
  char       *ns;        /* namespace URI, "" if none */
  guint       line;
  char       *text;      /* own character data, white space trimmed; "" if none */
  char      **attributes;/* (array zero-terminated=1) name, value, name, value, ... without xmlns */
  GPtrArray  *children;  /* (element-type TlXmlNode) in order */
};

typedef struct
{
  char      *file; /* name for messages */
  TlXmlNode *root;
} TlXmlDocument;

void tl_xml_document_free (TlXmlDocument *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlXmlDocument, tl_xml_document_free)

/**
 * tl_xml_parse:
 * @data: @length bytes, UTF-8 (or what the XML declaration says)
 * @file: name for messages
 *
 * Refuses DTDs, entities, processing of anything outside, and what passes @caps, each with a message
 * "FILE:LINE: what is wrong; what would be right".
 * Returns: (transfer full) (nullable)
 */
TlXmlDocument *tl_xml_parse (const char *data, gsize length, const char *file, const TlXmlCaps *caps, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Reads @path up to the cap (never more into memory), then tl_xml_parse(). "-" is not special. */
TlXmlDocument *tl_xml_read_file (const char *path, const TlXmlCaps *caps, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* (nullable) (transfer none) */
const char *tl_xml_attribute (const TlXmlNode *node, const char *name);

/* "FILE:LINE: message" as a #GError of @code. */
void tl_xml_error (GError **error, const TlXmlDocument *document, const TlXmlNode *node, int code, const char *format, ...) G_GNUC_PRINTF (5, 6);

/* Validates against a RELAX NG schema held in memory; message with file and line. For tests and tools. */
gboolean tl_xml_validate (const char *data, gsize length, const char *file, const char *schema, gsize schema_length, GError **error);

/* --- writing: two spaces, attributes in the order given, \n, UTF-8, same input same bytes --- */
typedef struct _TlXmlWriter TlXmlWriter;
TlXmlWriter *tl_xml_writer_new (void) G_GNUC_WARN_UNUSED_RESULT;
void         tl_xml_writer_free (TlXmlWriter *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlXmlWriter, tl_xml_writer_free)
void         tl_xml_writer_open (TlXmlWriter *self, const char *name);
/* %NULL value: nothing is written. */
void         tl_xml_writer_attribute (TlXmlWriter *self, const char *name, const char *value);
void         tl_xml_writer_number (TlXmlWriter *self, const char *name, double value);
void         tl_xml_writer_text (TlXmlWriter *self, const char *text);
void         tl_xml_writer_close (TlXmlWriter *self);
/* Writes a kept foreign element as it was read (namespaces, attributes, text, children). */
void         tl_xml_writer_node (TlXmlWriter *self, const TlXmlNode *node);
/* The document so far, closed; (transfer full) */
char        *tl_xml_writer_finish (TlXmlWriter *self, gsize *length);

TlXmlNode *tl_xml_node_copy (const TlXmlNode *node) G_GNUC_WARN_UNUSED_RESULT;
void       tl_xml_node_free (TlXmlNode *node);

G_END_DECLS
