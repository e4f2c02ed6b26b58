/* read.c: the small steps of reading a joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/read-private.h"

#include "base/quantity.h"
#include "joint/joint-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

const char *const tl_read_only_facts[] = { "fact", NULL };
const char *const tl_read_nothing[] = { NULL };

gboolean
tl_read_fail (TlJointReader *reader, const TlXmlNode *node, int code, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_autofree char *message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  tl_xml_error (reader->error, reader->document, node, code, "%s", message);
  return FALSE;
}

/* --- attributes --- */

gboolean
tl_read_attributes (TlJointReader *reader, const TlXmlNode *node, const char *path,
                    const char *const *allowed)
{
  for (char **pair = node->attributes; pair != NULL && pair[0] != NULL; pair += 2)
    {
      if (g_strv_contains (allowed, pair[0]))
        continue;
      if (reader->is_newer)
        {
          TlKept *kept = tl_kept_at (&reader->kept, path);
          g_ptr_array_add (kept->attributes, g_strdup (pair[0]));
          g_ptr_array_add (kept->attributes, g_strdup (pair[1]));
          continue;
        }
      g_autofree char *names = g_strjoinv (", ", (char **) allowed);
      if (*names == '\0')
        return tl_read_fail (reader, node, TL_ERROR_PARSE,
                             _ ("<%s> has the attribute “%s”; it must have none."), node->name,
                             pair[0]);
      return tl_read_fail (reader, node, TL_ERROR_PARSE,
                           _ ("<%s> has the attribute “%s”; it can have: %s."), node->name, pair[0],
                           names);
    }
  return TRUE;
}

gboolean
tl_read_element (TlJointReader *reader, const TlXmlNode *node, const char *path,
                 const char *const *allowed)
{
  if (*node->text != '\0')
    return tl_read_fail (reader, node, TL_ERROR_PARSE,
                         _ ("<%s> holds text; only a note does, this element must have none."),
                         node->name);
  return tl_read_attributes (reader, node, path, allowed);
}

gboolean
tl_read_required (TlJointReader *reader, const TlXmlNode *node, const char *name)
{
  if (tl_xml_attribute (node, name) != NULL)
    return TRUE;
  return tl_read_fail (reader, node, TL_ERROR_PARSE, _ ("<%s> needs the attribute “%s”."),
                       node->name, name);
}

gboolean
tl_read_word (TlJointReader *reader, const TlXmlNode *node, const char *name,
              const char *const *words, const char **word)
{
  if (!tl_read_required (reader, node, name))
    return FALSE;
  *word = tl_xml_attribute (node, name);
  if (g_strv_contains (words, *word))
    return TRUE;

  g_autofree char *permitted = g_strjoinv (", ", (char **) words);
  return tl_read_fail (reader, node, TL_ERROR_NAME, _ ("“%s” is “%s”; it must be one of: %s."),
                       name, *word, permitted);
}

gboolean
tl_read_count (TlJointReader *reader, const TlXmlNode *node, const char *name, guint low,
               guint high, guint *count)
{
  if (!tl_read_required (reader, node, name))
    return FALSE;

  const char *text = tl_xml_attribute (node, name);
  guint64     value;
  if (!g_ascii_string_to_unsigned (text, 10, low, high, &value, NULL))
    return tl_read_fail (reader, node, TL_ERROR_RANGE,
                         _ ("“%s” is “%s”; it must be a whole number from %u to %u."), name, text,
                         low, high);
  *count = (guint) value;
  return TRUE;
}

gboolean
tl_read_known_by (TlJointReader *reader, const TlXmlNode *node, gboolean of_person,
                  TlKnownBy *known_by)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  const char *word = NULL;

  for (guint i = 0; i < TL_N_KNOWN; i++)
    if (!of_person || tl_known_by_person ((TlKnownBy) i))
      g_ptr_array_add (words, (gpointer) tl_known_by_to_word ((TlKnownBy) i));
  g_ptr_array_add (words, NULL);
  return tl_read_word (reader, node, "known-by", (const char *const *) words->pdata, &word)
         && tl_known_by_from_word (word, known_by);
}

gboolean
tl_read_part_kind (TlJointReader *reader, const TlXmlNode *node, TlPartKind *kind)
{
  const char *words[TL_N_PART_KINDS + 1] = { NULL };
  const char *word = NULL;

  for (guint i = 0; i < TL_N_PART_KINDS; i++)
    words[i] = tl_part_kind_word ((TlPartKind) i);
  return tl_read_word (reader, node, "kind", words, &word) && tl_part_kind_from_word (word, kind);
}

/* --- children --- */

static void
keep_child (TlJointReader *reader, const char *path, const TlReadChildren *children,
            const TlXmlNode *child)
{
  TlKept *kept = tl_kept_at (&reader->kept, path);

  g_ptr_array_add (kept->nodes, tl_xml_node_copy (child));
  g_array_append_val (kept->positions, children->known);
}

int
tl_read_child (TlJointReader *reader, const TlXmlNode *parent, const char *path,
               TlReadChildren *children, const TlXmlNode *child)
{
  guint which = 0;

  while (children->names[which] != NULL && strcmp (children->names[which], child->name) != 0)
    which++;
  if (children->names[which] == NULL || strcmp (child->ns, TL_JOINT_NAMESPACE) != 0)
    {
      g_autofree char *names = g_strjoinv (", ", (char **) children->names);
      if (reader->is_newer)
        {
          keep_child (reader, path, children, child);
          return TL_READ_KEPT;
        }
      if (*names == '\0')
        tl_read_fail (reader, child, TL_ERROR_PARSE,
                      _ ("<%s> stands in <%s>, which must be empty."), child->name, parent->name);
      else
        tl_read_fail (reader, child, TL_ERROR_PARSE, _ ("<%s> stands in <%s>, which can hold: %s."),
                      child->name, parent->name, names);
      return TL_READ_FAILED;
    }
  if (which + 1 < children->last)
    {
      g_autofree char *names = g_strjoinv (", ", (char **) children->names);
      tl_read_fail (reader, child, TL_ERROR_PARSE,
                    _ ("<%s> stands too late in <%s>; the order is: %s."), child->name,
                    parent->name, names);
      return TL_READ_FAILED;
    }
  if (which + 1 == children->last && (children->repeated & (1u << which)) == 0)
    {
      tl_read_fail (reader, child, TL_ERROR_PARSE, _ ("<%s> stands twice in <%s>; one is right."),
                    child->name, parent->name);
      return TL_READ_FAILED;
    }
  children->last = which + 1;
  children->known++;
  return (int) which;
}

gboolean
tl_read_skip_children (TlJointReader *reader, const TlXmlNode *node, const char *path,
                       TlReadChildren *none)
{
  for (guint i = 0; i < node->children->len; i++)
    if (tl_read_child (reader, node, path, none, g_ptr_array_index (node->children, i))
        == TL_READ_FAILED)
      return FALSE;
  return TRUE;
}

/* --- facts --- */

/* Gauge numbers are no multiple of a unit; quantity.h reads them as text. */
static gboolean
is_gauge (const char *unit, const char *own_unit)
{
  return strcmp (unit, "AWG") == 0
         && (strcmp (own_unit, "mm") == 0 || strcmp (own_unit, "mm2") == 0);
}

static gboolean
convert (double number, const char *unit, const char *own_unit, double *result, GError **error)
{
  if (strcmp (unit, own_unit) == 0)
    *result = number;
  else if (is_gauge (unit, own_unit))
    {
      g_autofree char *figure = tl_number_to_text (number);
      g_autofree char *text = g_strconcat (figure, " AWG", NULL);
      return tl_quantity_parse (text, own_unit, result, error);
    }
  else
    return tl_quantity_convert (number, unit, own_unit, result, error);
  return TRUE;
}

/* The attribute @name in the unit of the field; %TRUE with @number untouched if it is not there. */
static gboolean
read_number (TlJointReader *reader, const TlXmlNode *node, const char *name, const char *unit,
             const char *own_unit, double *number)
{
  const char *text = tl_xml_attribute (node, name);
  g_autoptr (GError) cause = NULL;
  double read;

  if (text == NULL)
    return TRUE;
  if (tl_number_parse (text, &read, &cause) && convert (read, unit, own_unit, number, &cause))
    return TRUE;
  return tl_read_fail (reader, node, cause->code, "%s", cause->message);
}

static gboolean
read_range (TlJointReader *reader, const TlXmlNode *node, const TlFieldInfo *info, TlRange *range)
{
  const char *unit = tl_xml_attribute (node, "unit");

  if (unit == NULL && strcmp (info->unit, "1") == 0)
    unit = "1";
  if (!tl_read_required (reader, node, "value")
      || (unit == NULL && !tl_read_required (reader, node, "unit")))
    return FALSE;
  if (!tl_unit_converts (unit, info->unit) && !is_gauge (unit, info->unit))
    return tl_read_fail (reader, node, TL_ERROR_UNIT,
                         _ ("“%s” is given in “%s”; it must be in %s or a unit of its kind."),
                         info->key, unit, info->unit);
  if (!read_number (reader, node, "value", unit, info->unit, &range->best))
    return FALSE;
  range->low = range->high = range->best;
  if (!read_number (reader, node, "low", unit, info->unit, &range->low)
      || !read_number (reader, node, "high", unit, info->unit, &range->high))
    return FALSE;
  if (range->low > range->high)
    {
      /* Gauges fall as sections rise: then low and high change places. */
      double low = range->low;
      if (strcmp (unit, info->unit) != 0)
        {
          range->low = range->high;
          range->high = low;
        }
    }
  return TRUE;
}

static gboolean
read_fact_texts (TlJointReader *reader, const TlXmlNode *node, TlFact *fact)
{
  fact->word = (char *) tl_xml_attribute (node, "word");
  fact->source = (char *) tl_xml_attribute (node, "source");
  fact->note = (char *) tl_xml_attribute (node, "note");

  const char *texts[] = { fact->word, fact->source, fact->note };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL && !tl_text_is_storable (texts[i]))
      return tl_read_fail (reader, node, TL_ERROR_PARSE,
                           _ ("The fact holds control characters; its texts must be plain text."));
  return TRUE;
}

/* Reads what @node says of the field of @fact, which is known. */
static gboolean
read_fact_content (TlJointReader *reader, const TlXmlNode *node, const char *path,
                   gboolean of_person, TlFact *fact)
{
  static const char *const of_number[] = { "field",    "value",  "unit", "low", "high",
                                           "known-by", "source", "note", NULL };
  static const char *const of_word[] = { "field", "word", "known-by", "source", "note", NULL };
  const TlFieldInfo       *info = tl_field_info (fact->field);
  gboolean is_number = info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT;
  TlReadChildren none = { .names = tl_read_nothing };
  g_autoptr (GError) cause = NULL;

  if (!tl_read_element (reader, node, path, is_number ? of_number : of_word)
      || !tl_read_skip_children (reader, node, path, &none) || !read_fact_texts (reader, node, fact)
      || !tl_read_known_by (reader, node, of_person, &fact->known_by))
    return FALSE;
  if (is_number ? !read_range (reader, node, info, &fact->value)
                : !tl_read_required (reader, node, "word"))
    return FALSE;
  if (!tl_fact_check (fact, &cause))
    return tl_read_fail (reader, node, cause->code, "%s", cause->message);
  return TRUE;
}

/* A newer version may know more fields and more words: such a fact is kept as it stands. */
static gboolean
is_beyond_us (const TlXmlNode *node)
{
  const char *key = tl_xml_attribute (node, "field");
  const char *word = tl_xml_attribute (node, "word");
  TlField     field;

  if (key == NULL)
    return FALSE;
  if (!tl_field_from_key (key, &field))
    return TRUE;

  const TlFieldInfo *info = tl_field_info (field);
  return info->kind == TL_FIELD_KIND_WORD && word != NULL && !g_strv_contains (info->words, word);
}

gboolean
tl_read_fact (TlJointReader *reader, const TlXmlNode *parent, const TlXmlNode *node,
              const char *owner_path, gboolean of_person, TlReadChildren *children, TlFacts **facts)
{
  if (reader->is_newer && is_beyond_us (node))
    {
      /* Beside the facts that are known, not among the children: they change their number with edits. */
      g_autofree char *beside = g_strconcat (owner_path, "/fact", NULL);
      TlReadChildren   none = { .known = 0 };
      children->known--;
      keep_child (reader, beside, &none, node);
      return TRUE;
    }
  if (!tl_read_required (reader, node, "field"))
    return FALSE;

  const char      *key = tl_xml_attribute (node, "field");
  g_autofree char *path = g_strconcat (owner_path, "/fact=", key, NULL);
  TlFact           fact = { 0 };
  if (!tl_field_from_key (key, &fact.field))
    return tl_read_fail (
        reader, node, TL_ERROR_NAME,
        _ ("There is no fact “%s”; name one of the vocabulary, such as “section”."), key);
  if (tl_facts_has (*facts, fact.field))
    return tl_read_fail (reader, node, TL_ERROR_STATE,
                         _ ("“%s” is given twice in one <%s>; one is right."), key, parent->name);
  if (!read_fact_content (reader, node, path, of_person, &fact))
    return FALSE;

  TlFacts *more = tl_facts_with (*facts, &fact);
  tl_facts_unref (*facts);
  *facts = more;
  return TRUE;
}

gboolean
tl_read_facts (TlJointReader *reader, const TlXmlNode *node, const char *path, gboolean of_person,
               TlFacts **facts)
{
  TlReadChildren children = { .names = tl_read_only_facts, .repeated = 1 };

  g_clear_pointer (facts, tl_facts_unref);
  *facts = tl_facts_new ();
  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      int              which = tl_read_child (reader, node, path, &children, child);
      if (which == TL_READ_FAILED
          || (which >= 0 && !tl_read_fact (reader, node, child, path, of_person, &children, facts)))
        return FALSE;
    }
  return TRUE;
}
