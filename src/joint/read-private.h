/* read-private.h: the small steps of reading a joint: attributes, children in order, facts, own copies.
 *
 * Every step that returns %FALSE has set the reader's error to "FILE:LINE: what; what would be right".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint-private.h"

G_BEGIN_DECLS

typedef struct
{
  const TlXmlDocument *document;
  gboolean             is_newer;   /* minor version beyond ours: keep what is unknown */
  GHashTable          *kept;       /* (nullable): see tl_kept_at() */
  GHashTable          *node_of_id; /* id of a leg or layer -> its TlXmlNode */
  GError             **error;
} TlJointReader;

/* Children of one element while they are read. */
typedef struct
{
  const char *const *names;    /* (array zero-terminated=1) known ones, in their order */
  guint              repeated; /* bit i: names[i] may stand more than once */
  guint              known;    /* known children so far */
  guint              last;     /* number of the last known child + 1 */
} TlReadChildren;

enum
{
  TL_READ_KEPT = -1,
  TL_READ_FAILED = -2,
};

extern const char *const tl_read_only_facts[]; /* "fact" */
extern const char *const tl_read_nothing[];    /* no name at all */

/* Sets the error at @node; always %FALSE. */
gboolean tl_read_fail (TlJointReader *reader, const TlXmlNode *node, int code, const char *format,
                       ...) G_GNUC_PRINTF (4, 5);
/* No attribute but @allowed; what a newer version has more is kept at @path. */
gboolean tl_read_attributes (TlJointReader *reader, const TlXmlNode *node, const char *path,
                             const char *const *allowed);
/* The same, and no text. */
gboolean tl_read_element (TlJointReader *reader, const TlXmlNode *node, const char *path,
                          const char *const *allowed);
gboolean tl_read_required (TlJointReader *reader, const TlXmlNode *node, const char *name);
/* @word: (out) (transfer none): the attribute @name, one of @words */
gboolean tl_read_word (TlJointReader *reader, const TlXmlNode *node, const char *name,
                       const char *const *words, const char **word);
/* A whole number in decimal digits from @low to @high. */
gboolean tl_read_count (TlJointReader *reader, const TlXmlNode *node, const char *name, guint low,
                        guint high, guint *count);
gboolean tl_read_known_by (TlJointReader *reader, const TlXmlNode *node, gboolean of_person,
                           TlKnownBy *known_by);
gboolean tl_read_part_kind (TlJointReader *reader, const TlXmlNode *node, TlPartKind *kind);

/* Number of @child among the known names, %TL_READ_KEPT or %TL_READ_FAILED. */
int      tl_read_child (TlJointReader *reader, const TlXmlNode *parent, const char *path,
                        TlReadChildren *children, const TlXmlNode *child);
/* For elements that hold nothing known: keeps or refuses every child. */
gboolean tl_read_skip_children (TlJointReader *reader, const TlXmlNode *node, const char *path,
                                TlReadChildren *none);

/* One <fact>, put into *@facts. @of_person: facts of the joint, not of a copy of the stock. */
gboolean tl_read_fact (TlJointReader *reader, const TlXmlNode *parent, const TlXmlNode *node,
                       const char *owner_path, gboolean of_person, TlReadChildren *children,
                       TlFacts **facts);
/* All <fact> children of @node, which holds nothing else. *@facts is replaced. */
gboolean tl_read_facts (TlJointReader *reader, const TlXmlNode *node, const char *path,
                        gboolean of_person, TlFacts **facts);
gboolean tl_read_used (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint);

G_END_DECLS
