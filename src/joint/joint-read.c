/* joint-read.c: from the tree of a .tinlap file to a joint.
 *
 * Strict for its own minor version: what it does not know is an error with its line. Of a newer
 * minor version it keeps what it does not know, under the path of the element that holds it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-file.h"
#include "joint/read-private.h"

#include "base/quantity.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- what an element may hold --- */

static const char *const root_children[] = { "about",    "legs",        "layers",   "site",
                                             "duty",     "used",        "variants", "pictures",
                                             "readings", "inspections", "exercise", NULL };
static const char *const variant_children[] = { "about", "legs", "layers", "site",
                                                "duty",  "used", NULL };
static const char *const leg_children[] = { "seat", "fact", "preparation", NULL };
static const char *const layer_children[] = { "seat", "fact", NULL };
static const char *const only_note[] = { "note", NULL };
static const char *const only_leg[] = { "leg", NULL };
static const char *const only_layer[] = { "layer", NULL };
static const char *const only_act[] = { "act", NULL };
static const char *const only_variant[] = { "variant", NULL };

#define ROOT_SECTIONS 7 /* of root_children that this version reads; the rest is reserved */

/* --- about --- */

static gboolean
read_text (TlJointReader *reader, const TlXmlNode *node, const char *name, char **slot)
{
  const char *value = tl_xml_attribute (node, name);

  if (value == NULL)
    return TRUE;
  if (!tl_text_is_storable (value))
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("The attribute “%s” holds control characters; it must be plain text."),
                         name);
  g_free (*slot);
  *slot = g_strdup (value);
  return TRUE;
}

static gboolean
read_choice (TlJointReader *reader, const TlXmlNode *node, const char *name,
             const char *const *words, char **slot)
{
  const char *value = tl_xml_attribute (node, name);

  if (value == NULL)
    return TRUE;
  if (!tl_read_word (reader, node, name, words, &value))
    return FALSE;
  g_free (*slot);
  *slot = g_strdup (value);
  return TRUE;
}

static gboolean
read_forms (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const yes_no[] = { "yes", "no", NULL };
  g_autofree char         *fault_example = g_strdup ("no");

  if (!read_text (reader, node, "date", &joint->date)
      || !read_text (reader, node, "sheet-language", &joint->sheet_language))
    return FALSE;
  if (!tl_date_is_valid (joint->date))
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("The date “%s” is no day; write it as 2026-03-14 or leave it out."),
                         joint->date);
  if (!tl_language_tag_is_valid (joint->sheet_language))
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("“%s” is no language; write a tag such as “de” or leave it out."),
                         joint->sheet_language);
  if (!read_choice (reader, node, "practice", tl_practice_words (), &joint->practice)
      || !read_choice (reader, node, "units", tl_unit_system_words (), &joint->units)
      || !read_choice (reader, node, "fault-example", yes_no, &fault_example))
    return FALSE;
  joint->fault_example = strcmp (fault_example, "yes") == 0;
  return TRUE;
}

static gboolean
read_note (TlJointReader *reader, const TlXmlNode *node, const char *path, TlJoint *joint)
{
  TlReadChildren none = { .names = tl_read_nothing };

  if (!tl_read_attributes (reader, node, path, tl_read_nothing)
      || !tl_read_skip_children (reader, node, path, &none))
    return FALSE;
  if (!tl_text_is_storable (node->text))
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("The note holds control characters; it must be plain text."));
  g_free (joint->note);
  joint->note = g_strdup (node->text);
  return TRUE;
}

static gboolean
read_about (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const attributes[] = { "name",           "place",         "prepared-by",
                                            "date",           "practice",      "units",
                                            "sheet-language", "fault-example", NULL };
  TlReadChildren           children = { .names = only_note };

  if (!tl_read_element (reader, node, "about", attributes)
      || !read_text (reader, node, "name", &joint->name)
      || !read_text (reader, node, "place", &joint->place)
      || !read_text (reader, node, "prepared-by", &joint->prepared_by)
      || !read_forms (reader, node, joint))
    return FALSE;
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, "about", &children, child);
      if (which == TL_READ_FAILED
          || (which >= 0 && !read_note (reader, child, "about/note", joint)))
        return FALSE;
    }
  return TRUE;
}

/* --- legs and layers --- */

static gboolean
read_seat_end (TlJointReader *reader, const TlXmlNode *node, const char *name, char **slot)
{
  const char *id = tl_xml_attribute (node, name);

  if (id == NULL)
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("The seat needs the attribute “%s” with the id of a leg or layer."),
                         name);
  *slot = g_strdup (id);
  return TRUE;
}

static gboolean
read_seat (TlJointReader *reader, const TlXmlNode *node, const char *owner_path, TlSeat *seat)
{
  static const char *const of_kind[][6] = {
    [TL_SEAT_NONE] = { "kind", NULL },
    [TL_SEAT_STACK] = { "kind", "place", NULL },
    [TL_SEAT_ON] = { "kind", "of", NULL },
    [TL_SEAT_AROUND] = { "kind", "from", "to", NULL },
    [TL_SEAT_PORT] = { "kind", "of", "port", NULL },
  };
  g_autofree char *path = g_strconcat (owner_path, "/seat", NULL);
  TlReadChildren   none = { .names = tl_read_nothing };
  const char      *word = NULL;
  guint            kind = 0;

  if (!tl_read_word (reader, node, "kind", tl_seat_words (), &word))
    return FALSE;
  while (strcmp (tl_seat_words ()[kind], word) != 0)
    kind++;
  seat->kind = (TlSeatKind) kind;
  if (!tl_read_element (reader, node, path, of_kind[kind])
      || !tl_read_skip_children (reader, node, path, &none))
    return FALSE;

  switch (seat->kind)
    {
    case TL_SEAT_STACK:
      return tl_read_count (reader, node, "place", 0, tl_xml_caps_joint.max_elements, &seat->place);
    case TL_SEAT_ON:
      return read_seat_end (reader, node, "of", &seat->of);
    case TL_SEAT_AROUND:
      return read_seat_end (reader, node, "from", &seat->from)
             && read_seat_end (reader, node, "to", &seat->to);
    case TL_SEAT_PORT:
      return read_seat_end (reader, node, "of", &seat->of)
             && tl_read_count (reader, node, "port", 1, TL_JOINT_MAX_LEGS, &seat->place);
    case TL_SEAT_NONE:
    default:
      return TRUE;
    }
}

static gboolean
read_preparation (TlJointReader *reader, const TlXmlNode *node, const char *owner_path,
                  GPtrArray *list)
{
  static const char *const act_attributes[] = { "name", NULL };
  g_autofree char         *path = g_strconcat (owner_path, "/preparation", NULL);
  TlReadChildren           children = { .names = only_act, .repeated = 1 };

  if (!tl_read_element (reader, node, path, tl_read_nothing))
    return FALSE;
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      g_autofree char *act_path = g_strdup_printf ("%s/act=%u", path, list->len);
      g_autoptr (TlFacts) facts = NULL;
      const char *act = NULL;
      int         which = tl_read_child (reader, node, path, &children, child);

      if (which == TL_READ_KEPT)
        continue;
      if (which == TL_READ_FAILED || !tl_read_element (reader, child, act_path, act_attributes)
          || !tl_read_word (reader, child, "name", tl_preparation_words (), &act)
          || !tl_read_facts (reader, child, act_path, TRUE, &facts))
        return FALSE;
      g_ptr_array_add (list, tl_preparation_new (act, facts));
    }
  return TRUE;
}

/* Attributes that a leg and a layer share; and enters the id. */
static gboolean
read_identity (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint, const char **part)
{
  const char *id = tl_xml_attribute (node, "id");

  *part = tl_xml_attribute (node, "part");
  if (!tl_id_is_valid (id))
    return tl_read_fail (
        reader, node, TL_ERROR_NAME,
        _ ("The id “%s” is not valid; it must be 1 to 64 lower-case letters, digits "
           "and hyphens, begin with a letter, and be neither “site” nor “duty”."),
        id);
  if (!g_hash_table_insert (reader->node_of_id, (gpointer) id, (gpointer) node))
    return tl_read_fail (reader, node, TL_ERROR_STATE,
                         _ ("The id “%s” is given twice; every leg and layer needs its own."), id);
  if (*part != NULL && !tl_part_id_is_valid (*part))
    return tl_read_fail (reader, node, TL_ERROR_NAME,
                         _ ("“%s” is no id of a part; it must be 1 to 128 letters, digits and "
                            "“._+-/”."),
                         *part);
  tl_joint_note_id (joint, id);
  return TRUE;
}

static gboolean
read_leg (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const attributes[] = { "id", "part", NULL };
  TlReadChildren           children = { .names = leg_children, .repeated = 1 << 1 };
  g_auto (TlSeat) seat = tl_seat_none ();
  g_autoptr (TlFacts) facts = tl_facts_new ();
  g_autoptr (GPtrArray) preparation = tl_preparation_list_new ();
  g_autofree char *path = NULL;
  const char      *part;

  if (!tl_read_required (reader, node, "id"))
    return FALSE;
  path = g_strconcat ("legs/leg=", tl_xml_attribute (node, "id"), NULL);
  if (!read_identity (reader, node, joint, &part)
      || !tl_read_element (reader, node, path, attributes))
    return FALSE;
  if (joint->legs->len >= TL_JOINT_MAX_LEGS)
    return tl_read_fail (reader, node, TL_ERROR_LIMIT,
                         _ ("This is leg %u of the joint; a joint can have at most %d."),
                         joint->legs->len + 1, TL_JOINT_MAX_LEGS);
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, path, &children, child);
      if (which == TL_READ_FAILED || (which == 0 && !read_seat (reader, child, path, &seat))
          || (which == 1 && !tl_read_fact (reader, node, child, path, TRUE, &children, &facts))
          || (which == 2 && !read_preparation (reader, child, path, preparation)))
        return FALSE;
    }

  TlLeg *leg = tl_leg_new (tl_xml_attribute (node, "id"), part, &seat, facts);
  g_ptr_array_unref (leg->preparation);
  leg->preparation = g_steal_pointer (&preparation);
  g_ptr_array_add (joint->legs, leg);
  return TRUE;
}

static gboolean
read_layer (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const attributes[] = { "id", "part", "kind", NULL };
  TlReadChildren           children = { .names = layer_children, .repeated = 1 << 1 };
  g_auto (TlSeat) seat = tl_seat_none ();
  g_autoptr (TlFacts) facts = tl_facts_new ();
  g_autofree char *path = NULL;
  const char      *part;
  TlPartKind       kind;

  if (!tl_read_required (reader, node, "id"))
    return FALSE;
  path = g_strconcat ("layers/layer=", tl_xml_attribute (node, "id"), NULL);
  if (!read_identity (reader, node, joint, &part)
      || !tl_read_element (reader, node, path, attributes)
      || !tl_read_part_kind (reader, node, &kind))
    return FALSE;
  if (kind == TL_PART_CONDUCTOR || kind == TL_PART_BOX)
    return tl_read_fail (reader, node, TL_ERROR_STATE,
                         _ ("A layer cannot be of the kind “%s”; a conductor is a leg, and a box "
                            "belongs to the site."),
                         tl_part_kind_word (kind));
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, path, &children, child);
      if (which == TL_READ_FAILED || (which == 0 && !read_seat (reader, child, path, &seat))
          || (which == 1 && !tl_read_fact (reader, node, child, path, TRUE, &children, &facts)))
        return FALSE;
    }
  g_ptr_array_add (joint->layers,
                   tl_layer_new (tl_xml_attribute (node, "id"), part, kind, &seat, facts));
  return TRUE;
}

typedef gboolean (*ReadMember) (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint);

static gboolean
read_members (TlJointReader *reader, const TlXmlNode *node, const char *const *name,
              ReadMember read_member, TlJoint *joint)
{
  TlReadChildren children = { .names = name, .repeated = 1 };

  if (!tl_read_element (reader, node, node->name, tl_read_nothing))
    return FALSE;
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, node->name, &children, child);
      if (which == TL_READ_FAILED || (which >= 0 && !read_member (reader, child, joint)))
        return FALSE;
    }
  return TRUE;
}

/* --- the sections --- */

static gboolean
read_forbidden (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  const char *text = tl_xml_attribute (node, "forbidden");
  g_autoptr (GError) cause = NULL;
  char *settled;

  if (text == NULL)
    return TRUE;
  settled = tl_ways_settle (text, &cause);
  if (settled == NULL)
    return tl_read_fail (reader, node, cause->code, "%s", cause->message);
  g_free (joint->forbidden);
  joint->forbidden = settled;
  return TRUE;
}

static gboolean
read_site (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const attributes[] = { "box", "forbidden", NULL };

  if (!tl_read_element (reader, node, "site", attributes)
      || !read_text (reader, node, "box", &joint->box) || !read_forbidden (reader, node, joint))
    return FALSE;
  if (joint->box != NULL && !tl_part_id_is_valid (joint->box))
    return tl_read_fail (reader, node, TL_ERROR_NAME,
                         _ ("“%s” is no id of a box; it must be 1 to 128 letters, digits and "
                            "“._+-/”, or be left out."),
                         joint->box);
  return tl_read_facts (reader, node, "site", TRUE, &joint->site);
}

static gboolean read_variants (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint);

static gboolean
read_section (TlJointReader *reader, guint which, const TlXmlNode *node, TlJoint *joint)
{
  switch (which)
    {
    case 0:
      return read_about (reader, node, joint);
    case 1:
      return read_members (reader, node, only_leg, read_leg, joint);
    case 2:
      return read_members (reader, node, only_layer, read_layer, joint);
    case 3:
      return read_site (reader, node, joint);
    case 4:
      return tl_read_element (reader, node, "duty", tl_read_nothing)
             && tl_read_facts (reader, node, "duty", TRUE, &joint->duty);
    case 5:
      return tl_read_used (reader, node, joint);
    case 6:
      return read_variants (reader, node, joint);
    default:
      g_ptr_array_add (joint->reserved, tl_xml_node_copy (node));
      return TRUE;
    }
}

/* The sections of @node into @joint, then the rules between its members. */
static gboolean
read_sections (TlJointReader *reader, const TlXmlNode *node, const char *const *names,
               TlJoint *joint)
{
  TlReadChildren children = { .names = names };
  g_autoptr (GError) cause = NULL;
  g_autofree char *offender = NULL;

  if (tl_xml_attribute (node, "next-id") != NULL
      && !tl_read_count (reader, node, "next-id", 1, TL_JOINT_MAX_NUMBER, &joint->next_id))
    return FALSE;
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, "", &children, child);
      if (which == TL_READ_FAILED
          || (which >= 0 && !read_section (reader, (guint) which, child, joint)))
        return FALSE;
    }
  if (!tl_joint_check (joint, &offender, &cause))
    return tl_read_fail (reader, g_hash_table_lookup (reader->node_of_id, offender), cause->code,
                         "%s", cause->message);
  joint->kept = g_steal_pointer (&reader->kept);
  return TRUE;
}

static gboolean
read_variant (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  static const char *const attributes[] = { "name", "next-id", NULL };
  g_autoptr (GHashTable) node_of_id = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (TlJoint) own = tl_joint_new ();
  /* What is kept in a variant belongs to its own joint. */
  TlJointReader inner = { reader->document, reader->is_newer, NULL, node_of_id, reader->error };
  gboolean      is_read;

  is_read = tl_read_required (&inner, node, "name")
            && tl_read_element (&inner, node, "", attributes)
            && read_sections (&inner, node, variant_children, own);
  g_clear_pointer (&inner.kept, g_hash_table_unref);
  if (!is_read)
    return FALSE;

  const char *name = tl_xml_attribute (node, "name");
  for (guint i = 0; i < joint->variants->len; i++)
    if (strcmp (((const TlVariant *) g_ptr_array_index (joint->variants, i))->name, name) == 0)
      return tl_read_fail (reader, node, TL_ERROR_STATE,
                           _ ("The variant “%s” is given twice; every variant needs its own name."),
                           name);
  if (!tl_text_is_storable (name))
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("The attribute “%s” holds control characters; it must be plain text."),
                         "name");
  own->minor = joint->minor;
  g_ptr_array_add (joint->variants, tl_variant_new (name, own));
  return TRUE;
}

static gboolean
read_variants (TlJointReader *reader, const TlXmlNode *node, TlJoint *joint)
{
  return read_members (reader, node, only_variant, read_variant, joint);
}

/* --- the root --- */

static gboolean
read_versions (TlJointReader *reader, const TlXmlNode *root, TlJoint *joint)
{
  guint format;

  if (strcmp (root->name, "joint") != 0 || strcmp (root->ns, TL_JOINT_NAMESPACE) != 0)
    return tl_read_fail (reader, root, TL_ERROR_PARSE,
                         _ ("The file begins with <%s> of the namespace “%s”; a joint begins with "
                            "<joint xmlns=\"%s\">."),
                         root->name, root->ns, TL_JOINT_NAMESPACE);
  if (!tl_read_count (reader, root, "format", 1, G_MAXINT, &format))
    return FALSE;
  if (format > TL_JOINT_FORMAT)
    return tl_read_fail (reader, root, TL_ERROR_VERSION,
                         _ ("The file has format %u; this program reads format %d. Open it with a "
                            "newer version of Tinlap."),
                         format, TL_JOINT_FORMAT);
  return tl_read_count (reader, root, "minor", 0, G_MAXINT, &joint->minor);
}

TlJoint *
tl_joint_from_document (const TlXmlDocument *document, GError **error)
{
  static const char *const attributes[] = { "format", "minor", "next-id", NULL };
  g_autoptr (GHashTable) node_of_id = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (TlJoint) joint = tl_joint_new ();
  TlJointReader reader = { document, FALSE, NULL, node_of_id, error };
  gboolean      is_read = read_versions (&reader, document->root, joint);

  reader.is_newer = joint->minor > TL_JOINT_MINOR;
  is_read = is_read && tl_read_element (&reader, document->root, "", attributes)
            && read_sections (&reader, document->root, root_children, joint);
  g_clear_pointer (&reader.kept, g_hash_table_unref);
  return is_read ? g_steal_pointer (&joint) : NULL;
}

TlJoint *
tl_joint_parse (const char *data, gsize length, const char *file, GError **error)
{
  g_autoptr (TlXmlDocument) document = tl_xml_parse (data, length, file, &tl_xml_caps_joint, error);

  return document != NULL ? tl_joint_from_document (document, error) : NULL;
}
