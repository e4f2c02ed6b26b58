/* joint-write.c: a joint as text.
 *
 * Writing walks the joint in the order of the schema. Each open element knows its path, so that
 * what a newer version had there is written back in its place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-file.h"
#include "joint/joint-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- elements with what is kept in them --- */

typedef struct
{
  gsize         path_length; /* of the parent's path */
  guint         known;       /* known children written */
  guint         next_kept;   /* first kept node not yet written */
  gboolean      is_open;     /* attributes can still be written */
  const TlKept *kept;
} Frame;

typedef struct
{
  TlXmlWriter *writer;
  GHashTable  *kept;
  GString     *path;
  GArray      *frames; /* (element-type Frame) */
  guint        elements;
} Out;

static Frame *
top (Out *out)
{
  return &g_array_index (out->frames, Frame, out->frames->len - 1);
}

static guint
count_elements (const TlXmlNode *node)
{
  guint count = 1;

  for (guint i = 0; i < node->children->len; i++)
    count += count_elements (g_ptr_array_index (node->children, i));
  return count;
}

static void
write_node (Out *out, const TlXmlNode *node)
{
  tl_xml_writer_node (out->writer, node);
  out->elements += count_elements (node);
}

/* An attribute as read: "{namespace}name" gets a prefix of its own. */
static void
write_kept_attribute (Out *out, const char *name, const char *value, guint number)
{
  const char *end = name[0] == '{' ? strchr (name, '}') : NULL;
  if (end == NULL)
    {
      tl_xml_writer_attribute (out->writer, name, value);
      return;
    }

  g_autofree char *ns = g_strndup (name + 1, (gsize) (end - name - 1));
  g_autofree char *declaration = g_strdup_printf ("xmlns:k%u", number);
  g_autofree char *prefixed = g_strdup_printf ("k%u:%s", number, end + 1);
  tl_xml_writer_attribute (out->writer, declaration, ns);
  tl_xml_writer_attribute (out->writer, prefixed, value);
}

/* Ends the attributes of the open element with those that are kept. */
static void
end_attributes (Out *out)
{
  Frame *frame = top (out);

  if (!frame->is_open)
    return;
  frame->is_open = FALSE;
  for (guint i = 0; frame->kept != NULL && i + 1 < frame->kept->attributes->len; i += 2)
    write_kept_attribute (out, g_ptr_array_index (frame->kept->attributes, i),
                          g_ptr_array_index (frame->kept->attributes, i + 1), i / 2 + 1);
}

/* Kept nodes that stood before the known child number @known. */
static void
write_kept_nodes (Out *out, guint known)
{
  Frame *frame = top (out);

  end_attributes (out);
  for (; frame->kept != NULL && frame->next_kept < frame->kept->nodes->len
         && g_array_index (frame->kept->positions, guint, frame->next_kept) <= known;
       frame->next_kept++)
    write_node (out, g_ptr_array_index (frame->kept->nodes, frame->next_kept));
}

/* @key: (nullable): what tells this element from others of its name */
static void
open_element (Out *out, const char *name, const char *key)
{
  Frame frame = { .path_length = out->path->len, .is_open = TRUE };

  if (out->frames->len > 0)
    {
      write_kept_nodes (out, top (out)->known);
      top (out)->known++;
      if (out->path->len > 0)
        g_string_append_c (out->path, '/');
      g_string_append (out->path, name);
      if (key != NULL)
        g_string_append_printf (out->path, "=%s", key);
    }
  frame.kept = tl_kept_get (out->kept, out->path->str);
  g_array_append_val (out->frames, frame);
  tl_xml_writer_open (out->writer, name);
  out->elements++;
}

static void
close_element (Out *out)
{
  write_kept_nodes (out, G_MAXUINT);
  g_string_truncate (out->path, top (out)->path_length);
  g_array_set_size (out->frames, out->frames->len - 1);
  tl_xml_writer_close (out->writer);
}

static void
attribute (Out *out, const char *name, const char *value)
{
  tl_xml_writer_attribute (out->writer, name, value);
}

/* Nothing for "". */
static void
attribute_if_any (Out *out, const char *name, const char *value)
{
  attribute (out, name, *value != '\0' ? value : NULL);
}

static void
attribute_count (Out *out, const char *name, guint value)
{
  g_autofree char *text = g_strdup_printf ("%u", value);

  attribute (out, name, text);
}

/* --- the parts of a joint --- */

static void
write_fact (Out *out, const TlFact *fact)
{
  const TlFieldInfo *info = tl_field_info (fact->field);

  open_element (out, "fact", info->key);
  attribute (out, "field", info->key);
  if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
    {
      tl_xml_writer_number (out->writer, "value", fact->value.best);
      attribute (out, "unit", info->unit);
      if (!tl_range_is_exact (fact->value))
        {
          tl_xml_writer_number (out->writer, "low", fact->value.low);
          tl_xml_writer_number (out->writer, "high", fact->value.high);
        }
    }
  else
    attribute (out, "word", fact->word);
  attribute (out, "known-by", tl_known_by_to_word (fact->known_by));
  attribute (out, "source", fact->source);
  attribute (out, "note", fact->note);
  close_element (out);
}

/* The facts that we know, then those that only a newer version knows. */
static void
write_facts (Out *out, const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    write_fact (out, tl_facts_at (facts, i));
  if (out->kept == NULL)
    return;

  g_autofree char *beside = g_strconcat (out->path->str, "/fact", NULL);
  const TlKept    *kept = tl_kept_get (out->kept, beside);
  for (guint i = 0; kept != NULL && i < kept->nodes->len; i++)
    {
      end_attributes (out);
      write_node (out, g_ptr_array_index (kept->nodes, i));
    }
}

static void
write_seat (Out *out, const TlSeat *seat)
{
  open_element (out, "seat", NULL);
  attribute (out, "kind", tl_seat_words ()[seat->kind]);
  attribute (out, "of", seat->of);
  attribute (out, "from", seat->from);
  attribute (out, "to", seat->to);
  if (seat->kind == TL_SEAT_STACK)
    attribute_count (out, "place", seat->place);
  if (seat->kind == TL_SEAT_PORT)
    attribute_count (out, "port", seat->place);
  close_element (out);
}

static void
write_leg (Out *out, const TlLeg *leg, gboolean has_kept_preparation)
{
  open_element (out, "leg", leg->id);
  attribute (out, "id", leg->id);
  attribute (out, "part", leg->part);
  write_seat (out, &leg->seat);
  write_facts (out, leg->facts);
  if (leg->preparation->len > 0 || has_kept_preparation)
    {
      open_element (out, "preparation", NULL);
      for (guint i = 0; i < leg->preparation->len; i++)
        {
          const TlPreparation *act = g_ptr_array_index (leg->preparation, i);
          g_autofree char     *key = g_strdup_printf ("%u", i);
          open_element (out, "act", key);
          attribute (out, "name", act->act);
          write_facts (out, act->facts);
          close_element (out);
        }
      close_element (out);
    }
  close_element (out);
}

static void
write_layer (Out *out, const TlLayer *layer)
{
  open_element (out, "layer", layer->id);
  attribute (out, "id", layer->id);
  attribute (out, "part", layer->part);
  attribute (out, "kind", tl_part_kind_word (layer->kind));
  write_seat (out, &layer->seat);
  write_facts (out, layer->facts);
  close_element (out);
}

static void
write_about (Out *out, const TlJoint *joint)
{
  open_element (out, "about", NULL);
  attribute (out, "name", joint->name);
  attribute_if_any (out, "place", joint->place);
  attribute_if_any (out, "prepared-by", joint->prepared_by);
  attribute_if_any (out, "date", joint->date);
  attribute (out, "practice", joint->practice);
  attribute (out, "units", joint->units);
  attribute_if_any (out, "sheet-language", joint->sheet_language);
  attribute (out, "fault-example", joint->fault_example ? "yes" : NULL);
  if (*joint->note != '\0' || tl_kept_get (joint->kept, "about/note") != NULL)
    {
      open_element (out, "note", NULL);
      end_attributes (out);
      tl_xml_writer_text (out->writer, joint->note);
      close_element (out);
    }
  close_element (out);
}

static void
write_used (Out *out, const TlUsed *used)
{
  open_element (out, "used", NULL);
  attribute (out, "data-version", used->data_version != NULL ? used->data_version : "");
  attribute (out, "practice", used->practice != NULL ? used->practice : "");
  for (guint i = 0; i < used->parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (used->parts, i);
      open_element (out, "part", part->id);
      attribute (out, "id", part->id);
      attribute (out, "kind", tl_part_kind_word (part->kind));
      attribute (out, "size", part->size);
      attribute (out, "open", part->is_open ? "yes" : "no");
      write_facts (out, part->facts);
      close_element (out);
    }
  for (guint i = 0; i < used->materials->len; i++)
    {
      const TlMaterial *material = g_ptr_array_index (used->materials, i);
      open_element (out, "material", material->id);
      attribute (out, "id", material->id);
      attribute (out, "name", material->name);
      attribute (out, "kind", material->kind);
      attribute (out, "look", tl_look_words ()[material->look]);
      write_facts (out, material->facts);
      close_element (out);
    }
  for (guint i = 0; i < used->thresholds->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (used->thresholds, i);
      g_autofree char  *key = g_strconcat (row->id, "@", row->practice, NULL);
      open_element (out, "threshold", key);
      attribute (out, "id", row->id);
      attribute (out, "practice", row->practice);
      attribute (out, "known-by", tl_known_by_to_word (row->known_by));
      attribute (out, "source", row->source);
      attribute (out, "note", row->note);
      for (guint k = 0; row->cells != NULL && row->cells[k] != NULL; k++)
        {
          g_autofree char *number = g_strdup_printf ("%u", k);
          open_element (out, "cell", number);
          attribute (out, "value", row->cells[k]);
          close_element (out);
        }
      close_element (out);
    }
  close_element (out);
}

/* What the document and each variant of it hold alike. */
static void
write_sections (Out *out, const TlJoint *joint)
{
  write_about (out, joint);

  open_element (out, "legs", NULL);
  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlLeg     *leg = g_ptr_array_index (joint->legs, i);
      g_autofree char *path = g_strconcat ("legs/leg=", leg->id, "/preparation", NULL);
      write_leg (out, leg, tl_kept_get (joint->kept, path) != NULL);
    }
  close_element (out);

  open_element (out, "layers", NULL);
  for (guint i = 0; i < joint->layers->len; i++)
    write_layer (out, g_ptr_array_index (joint->layers, i));
  close_element (out);

  open_element (out, "site", NULL);
  attribute (out, "box", joint->box);
  attribute_if_any (out, "forbidden", joint->forbidden);
  write_facts (out, joint->site);
  close_element (out);

  open_element (out, "duty", NULL);
  write_facts (out, joint->duty);
  close_element (out);

  if (joint->used != NULL)
    write_used (out, joint->used);
}

static void
write_variant (Out *out, const TlVariant *variant)
{
  /* A path of its own: what is kept in a variant belongs to the variant's joint. */
  Out inner = {
    .writer = out->writer,
    .kept = variant->joint->kept,
    .path = g_string_new (NULL),
    .frames = g_array_new (FALSE, FALSE, sizeof (Frame)),
  };

  write_kept_nodes (out, top (out)->known);
  top (out)->known++;
  open_element (&inner, "variant", NULL);
  attribute (&inner, "name", variant->name);
  attribute_count (&inner, "next-id", variant->joint->next_id);
  write_sections (&inner, variant->joint);
  close_element (&inner);
  out->elements += inner.elements;
  g_string_free (inner.path, TRUE);
  g_array_unref (inner.frames);
}

static char *
joint_to_text (const TlJoint *joint, gsize *length, guint *elements)
{
  g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();
  Out out = {
    .writer = writer,
    .kept = joint->kept,
    .path = g_string_new (NULL),
    .frames = g_array_new (FALSE, FALSE, sizeof (Frame)),
  };

  open_element (&out, "joint", NULL);
  attribute (&out, "xmlns", TL_JOINT_NAMESPACE);
  attribute_count (&out, "format", TL_JOINT_FORMAT);
  attribute_count (&out, "minor", joint->minor);
  attribute_count (&out, "next-id", joint->next_id);
  write_sections (&out, joint);
  if (joint->variants->len > 0 || tl_kept_get (joint->kept, "variants") != NULL)
    {
      open_element (&out, "variants", NULL);
      for (guint i = 0; i < joint->variants->len; i++)
        write_variant (&out, g_ptr_array_index (joint->variants, i));
      close_element (&out);
    }
  for (guint i = 0; i < joint->reserved->len; i++)
    {
      write_kept_nodes (&out, top (&out)->known);
      top (&out)->known++;
      write_node (&out, g_ptr_array_index (joint->reserved, i));
    }
  close_element (&out);
  *elements = out.elements;
  g_string_free (out.path, TRUE);
  g_array_unref (out.frames);
  return tl_xml_writer_finish (writer, length);
}

/* --- the whole --- */

char *
tl_joint_to_text (const TlJoint *joint, gsize *length)
{
  guint elements;
  gsize unused;

  return joint_to_text (joint, length != NULL ? length : &unused, &elements);
}

char *
tl_joint_capped_text (const TlJoint *joint, const char *path, gsize *length, GError **error)
{
  const TlXmlCaps *caps = &tl_xml_caps_joint;
  guint            elements;
  g_autofree char *text = joint_to_text (joint, length, &elements);

  if (*length <= caps->max_bytes && elements <= caps->max_elements)
    return g_steal_pointer (&text);
  g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
               _ ("%s: the joint needs %zu bytes and %u elements; a file holds "
                  "at most %zu bytes and %u elements."),
               path, *length, elements, caps->max_bytes, caps->max_elements);
  return NULL;
}

gboolean
tl_joint_equal (const TlJoint *a, const TlJoint *b)
{
  if (a == b)
    return TRUE;

  /* The file is the measure: what it does not hold does not count. */
  gsize            a_length, b_length;
  g_autofree char *a_text = tl_joint_to_text (a, &a_length);
  g_autofree char *b_text = tl_joint_to_text (b, &b_length);

  return a_length == b_length && memcmp (a_text, b_text, a_length) == 0;
}
