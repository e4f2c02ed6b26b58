/* pack-file.c: a pack as text, and between disk and memory.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack-private.h"

#include "base/file.h"
#include "base/quantity.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- reading --- */

/* A figure of a mark or of minutes: %FALSE with @error if it is there and no number. */
static gboolean
read_number (const TlStockReader *reader, const TlXmlNode *node, const char *name, double *value,
             gboolean *is_there, GError **error)
{
  const char *text = tl_xml_attribute (node, name);
  g_autoptr (GError) cause = NULL;

  *is_there = text != NULL;
  if (text == NULL || tl_number_parse (text, value, &cause))
    return TRUE;
  tl_xml_error (error, reader->document, node, cause->code, _ ("“%s”: %s"), name, cause->message);
  return FALSE;
}

static gboolean
read_yes (const TlStockReader *reader, const TlXmlNode *node, const char *name, gboolean *is_yes,
          GError **error)
{
  const char *text = tl_xml_attribute (node, name);

  *is_yes = text != NULL && strcmp (text, "yes") == 0;
  if (text == NULL || *is_yes || strcmp (text, "no") == 0)
    return TRUE;
  tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                _ ("“%s” is “%s”; yes or no are right."), name, text);
  return FALSE;
}

static gboolean
read_per (const TlStockReader *reader, const TlXmlNode *node, TlPer *per, GError **error)
{
  const char *text = tl_xml_attribute (node, "per");

  *per = TL_PER_PIECE;
  for (guint i = 0; i < TL_N_PERS; i++)
    if (text == NULL || strcmp (text, tl_per_word ((TlPer) i)) == 0)
      {
        *per = (TlPer) i;
        return TRUE;
      }
  tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                _ ("“per” is “%s”; piece, m or g are right."), text);
  return FALSE;
}

static gpointer
read_mark (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  static const char *const allowed[] = {
    "part", "in-van", "quantity", "per", "price", "note", NULL
  };
  g_autoptr (TlPackMark) mark = g_new0 (TlPackMark, 1);
  const char *part;

  if (!tl_stock_only (reader, node, allowed, error)
      || (part = tl_stock_required (reader, node, "part", error)) == NULL
      || !read_yes (reader, node, "in-van", &mark->in_van, error)
      || !read_number (reader, node, "quantity", &mark->quantity, &mark->has_quantity, error)
      || !read_number (reader, node, "price", &mark->price, &mark->has_price, error)
      || !read_per (reader, node, &mark->per, error))
    return NULL;
  mark->part = g_strdup (part);
  mark->note = g_strdup (tl_xml_attribute (node, "note"));
  return g_steal_pointer (&mark);
}

static gpointer
read_minutes (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  static const char *const allowed[] = { "step", "value", "low", "high", NULL };
  g_autoptr (TlPackMinutes) minutes = g_new0 (TlPackMinutes, 1);
  TlRange    *range = &minutes->minutes_min;
  gboolean    has_value, has_low, has_high;
  const char *step;

  if (!tl_stock_only (reader, node, allowed, error)
      || (step = tl_stock_required (reader, node, "step", error)) == NULL
      || tl_stock_required (reader, node, "value", error) == NULL
      || !read_number (reader, node, "value", &range->best, &has_value, error)
      || !read_number (reader, node, "low", &range->low, &has_low, error)
      || !read_number (reader, node, "high", &range->high, &has_high, error))
    return NULL;
  if (!has_low)
    range->low = range->best;
  if (!has_high)
    range->high = range->best;
  minutes->step = g_strdup (step);
  return g_steal_pointer (&minutes);
}

static gpointer
read_item (const TlStockReader *reader, const TlXmlNode *node, TlPackSection section,
           GError **error)
{
  switch (section)
    {
    case TL_PACK_SOURCES:
      return tl_source_read (reader, node, error);
    case TL_PACK_MATERIALS:
      return tl_material_read (reader, node, error);
    case TL_PACK_PARTS:
      return tl_part_read (reader, node, error);
    case TL_PACK_MARKS:
      return read_mark (reader, node, error);
    case TL_PACK_MINUTES:
      return read_minutes (reader, node, error);
    case TL_N_PACK_SECTIONS:
    default:
      return NULL;
    }
}

static gboolean
check_item (TlPackSection section, gconstpointer item, GError **error)
{
  switch (section)
    {
    case TL_PACK_MATERIALS:
      return tl_pack_check_material (item, error);
    case TL_PACK_PARTS:
      return tl_pack_check_part (item, error);
    case TL_PACK_MARKS:
      return tl_pack_check_mark (item, error);
    case TL_PACK_MINUTES:
      return tl_pack_check_minutes (item, error);
    case TL_PACK_SOURCES:
    case TL_N_PACK_SECTIONS:
    default:
      return TRUE;
    }
}

static gboolean
find_section (const TlStockReader *reader, const TlXmlNode *node, TlPackSection *section,
              GError **error)
{
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    if (strcmp (node->name, tl_pack_element ((TlPackSection) i)) == 0
        && strcmp (node->ns, TL_STOCK_NAMESPACE) == 0)
      {
        *section = (TlPackSection) i;
        return TRUE;
      }
  if (strcmp (node->name, "table") == 0)
    tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                  _ ("A pack cannot bring tables or limits; those are the system's alone."));
  else
    tl_xml_error (
        error, reader->document, node, TL_ERROR_NAME,
        _ ("<%s> does not belong in <pack>; source, material, part, mark and minutes do."),
        node->name);
  return FALSE;
}

/* One element into the pack; %FALSE with @error if it cannot be. */
static gboolean
read_element (TlPack *self, const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  TlPackSection    section;
  gpointer         item;
  TlPackRow       *row;
  const TlPackRow *first;
  g_autoptr (GError) cause = NULL;

  if (!find_section (reader, node, &section, error))
    return FALSE;
  item = read_item (reader, node, section, error);
  if (item == NULL)
    return FALSE;
  row = tl_pack_row_new (section, item, reader->document->file, node->line);
  if (!check_item (section, item, &cause))
    {
      tl_xml_error (error, reader->document, node, cause->code, "%s", cause->message);
      tl_pack_row_unref (row);
      return FALSE;
    }
  first = tl_pack_find (self, section, tl_pack_row_id (row));
  if (first != NULL)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                    _ ("The %s “%s” stands twice, first on line %u; the first one counts. Give one "
                       "of the two another id."),
                    node->name, tl_pack_row_id (row), first->line);
      tl_pack_row_unref (row);
      return FALSE;
    }
  tl_pack_append (self, row);
  return TRUE;
}

/* The line that "FILE:LINE: ..." names: that of a fact, which may stand below its element. */
static guint
line_of_message (const char *message, const char *file, guint otherwise)
{
  const char *place = g_str_has_prefix (message, file) ? message + strlen (file) : "";

  return place[0] == ':' && g_ascii_isdigit (place[1])
             ? (guint) g_ascii_strtoull (place + 1, NULL, 10)
             : otherwise;
}

/* Keeps the element for the file; tells what is wrong as long as there is room. */
static void
refuse (TlPack *self, const TlXmlNode *node, const GError *cause)
{
  guint line = line_of_message (cause->message, self->file, node->line);

  g_ptr_array_add (self->kept, tl_xml_node_copy (node));
  if (self->problems->len < TL_PACK_MAX_PROBLEMS)
    g_ptr_array_add (self->problems,
                     tl_pack_problem_new (TL_PACK_REFUSED, self->file, line,
                                          tl_xml_attribute (node, "id"), cause->message));
}

static void
tell_how_many_more (TlPack *self)
{
  g_autofree char *message = NULL;
  guint            more = self->kept->len - MIN (self->kept->len, TL_PACK_MAX_PROBLEMS);

  if (more == 0)
    return;
  message =
      g_strdup_printf (ngettext ("%s: %u more element is left out; mend the first ones.",
                                 "%s: %u more elements are left out; mend the first ones.", more),
                       self->file, more);
  g_ptr_array_add (self->problems,
                   tl_pack_problem_new (TL_PACK_REFUSED, self->file, 0, NULL, message));
}

static gboolean
read_root (TlPack *self, const TlStockReader *reader, GError **error)
{
  static const char *const allowed[] = { "format", "name", "currency", NULL };
  const TlXmlNode         *root = reader->document->root;
  const char              *format, *name, *currency = tl_xml_attribute (root, "currency");
  g_autoptr (GError) cause = NULL;
  double number;

  if (strcmp (root->name, "pack") != 0 || strcmp (root->ns, TL_STOCK_NAMESPACE) != 0)
    {
      tl_xml_error (error, reader->document, root, TL_ERROR_PARSE,
                    _ ("The file opens with <%s> of “%s”; a pack opens with <pack xmlns=\"%s\">."),
                    root->name, root->ns, TL_STOCK_NAMESPACE);
      return FALSE;
    }
  format = tl_stock_required (reader, root, "format", error);
  if (format == NULL)
    return FALSE;
  if (!tl_number_parse (format, &number, NULL) || number < 1.0 || number > TL_PACK_FORMAT)
    {
      tl_xml_error (error, reader->document, root, TL_ERROR_VERSION,
                    _ ("The pack has format “%s”; this program reads format %d."), format,
                    TL_PACK_FORMAT);
      return FALSE;
    }
  if (!tl_stock_only (reader, root, allowed, error)
      || (name = tl_stock_required (reader, root, "name", error)) == NULL)
    return FALSE;
  if (currency != NULL && !tl_pack_check_currency (currency, &cause))
    {
      tl_xml_error (error, reader->document, root, cause->code, "%s", cause->message);
      return FALSE;
    }
  g_free (self->name);
  self->name = g_strdup (name);
  g_free (self->currency);
  self->currency = g_strdup (currency != NULL ? currency : "");
  return TRUE;
}

static TlPack *
pack_from_document (const TlXmlDocument *document, GError **error)
{
  const TlStockReader reader = { document, NULL, TRUE };
  g_autoptr (TlPack) self = tl_pack_new (NULL);
  const GPtrArray *children = document->root->children;

  if (!read_root (self, &reader, error))
    return NULL;
  g_free (self->file);
  self->file = g_strdup (document->file);
  for (guint i = 0; i < children->len; i++)
    {
      g_autoptr (GError) cause = NULL;

      if (!read_element (self, &reader, g_ptr_array_index (children, i), &cause))
        refuse (self, g_ptr_array_index (children, i), cause);
    }
  tell_how_many_more (self);
  return g_steal_pointer (&self);
}

TlPack *
tl_pack_parse (const char *data, gsize length, const char *file, GError **error)
{
  g_autoptr (TlXmlDocument) document = tl_xml_parse (data, length, file, &tl_xml_caps_stock, error);

  return document != NULL ? pack_from_document (document, error) : NULL;
}

TlPack *
tl_pack_load (const char *path, GError **error)
{
  g_autoptr (TlXmlDocument) document = tl_xml_read_file (path, &tl_xml_caps_stock, error);

  return document != NULL ? pack_from_document (document, error) : NULL;
}

/* --- writing --- */

static void
write_fact (TlXmlWriter *writer, const TlFact *fact)
{
  const TlFieldInfo *info = tl_field_info (fact->field);

  tl_xml_writer_open (writer, "fact");
  tl_xml_writer_attribute (writer, "field", info->key);
  if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
    {
      tl_xml_writer_number (writer, "value", fact->value.best);
      tl_xml_writer_attribute (writer, "unit", strcmp (info->unit, "1") != 0 ? info->unit : NULL);
      if (!tl_range_is_exact (fact->value))
        {
          tl_xml_writer_number (writer, "low", fact->value.low);
          tl_xml_writer_number (writer, "high", fact->value.high);
        }
    }
  else
    tl_xml_writer_attribute (writer, "value", fact->word);
  tl_xml_writer_attribute (writer, "known-by", tl_known_by_to_word (fact->known_by));
  tl_xml_writer_attribute (writer, "source", fact->source);
  tl_xml_writer_attribute (writer, "note", fact->note);
  tl_xml_writer_close (writer);
}

static void
write_facts (TlXmlWriter *writer, const TlFacts *facts)
{
  for (guint i = 0; i < tl_facts_count (facts); i++)
    write_fact (writer, tl_facts_at (facts, i));
}

static const char *
or_nothing (const char *text)
{
  return *text != '\0' ? text : NULL;
}

static void
write_source (TlXmlWriter *writer, const TlSource *source)
{
  tl_xml_writer_attribute (writer, "id", source->id);
  tl_xml_writer_attribute (writer, "kind", source->kind);
  tl_xml_writer_attribute (writer, "title", source->title);
  tl_xml_writer_attribute (writer, "edition", or_nothing (source->edition));
  tl_xml_writer_attribute (writer, "clause", or_nothing (source->clause));
}

static void
write_material (TlXmlWriter *writer, const TlMaterial *material)
{
  tl_xml_writer_attribute (writer, "id", material->id);
  tl_xml_writer_attribute (writer, "name", material->name);
  tl_xml_writer_attribute (writer, "kind", material->kind);
  tl_xml_writer_attribute (writer, "look", tl_material_look_word (material->look));
  write_facts (writer, material->facts);
}

static void
write_part (TlXmlWriter *writer, const TlPart *part)
{
  tl_xml_writer_attribute (writer, "id", part->id);
  tl_xml_writer_attribute (writer, "kind", tl_part_kind_word (part->kind));
  tl_xml_writer_attribute (writer, "size", or_nothing (part->size));
  tl_xml_writer_attribute (writer, "open", part->is_open ? "yes" : NULL);
  write_facts (writer, part->facts);
}

static void
write_mark (TlXmlWriter *writer, const TlPackMark *mark)
{
  tl_xml_writer_attribute (writer, "part", mark->part);
  tl_xml_writer_attribute (writer, "in-van", mark->in_van ? "yes" : NULL);
  if (mark->has_quantity)
    tl_xml_writer_number (writer, "quantity", mark->quantity);
  if (mark->has_price)
    tl_xml_writer_number (writer, "price", mark->price);
  tl_xml_writer_attribute (writer, "per",
                           mark->per != TL_PER_PIECE ? tl_per_word (mark->per) : NULL);
  tl_xml_writer_attribute (writer, "note", mark->note != NULL ? or_nothing (mark->note) : NULL);
}

static void
write_minutes (TlXmlWriter *writer, const TlPackMinutes *minutes)
{
  tl_xml_writer_attribute (writer, "step", minutes->step);
  tl_xml_writer_number (writer, "value", minutes->minutes_min.best);
  if (tl_range_is_exact (minutes->minutes_min))
    return;
  tl_xml_writer_number (writer, "low", minutes->minutes_min.low);
  tl_xml_writer_number (writer, "high", minutes->minutes_min.high);
}

static void
write_row (TlXmlWriter *writer, const TlPackRow *row)
{
  tl_xml_writer_open (writer, tl_pack_element (row->section));
  switch (row->section)
    {
    case TL_PACK_SOURCES:
      write_source (writer, row->item);
      break;
    case TL_PACK_MATERIALS:
      write_material (writer, row->item);
      break;
    case TL_PACK_PARTS:
      write_part (writer, row->item);
      break;
    case TL_PACK_MARKS:
      write_mark (writer, row->item);
      break;
    case TL_PACK_MINUTES:
      write_minutes (writer, row->item);
      break;
    case TL_N_PACK_SECTIONS:
    default:
      break;
    }
  tl_xml_writer_close (writer);
}

char *
tl_pack_to_text (const TlPack *self, gsize *length)
{
  g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();
  g_autofree char *format = g_strdup_printf ("%d", TL_PACK_FORMAT);
  gsize            unused;

  g_return_val_if_fail (self != NULL, NULL);

  tl_xml_writer_open (writer, "pack");
  tl_xml_writer_attribute (writer, "xmlns", TL_STOCK_NAMESPACE);
  tl_xml_writer_attribute (writer, "format", format);
  tl_xml_writer_attribute (writer, "name", self->name);
  tl_xml_writer_attribute (writer, "currency", or_nothing (self->currency));
  for (guint i = 0; i < TL_N_PACK_SECTIONS; i++)
    for (guint k = 0; k < self->rows[i]->len; k++)
      write_row (writer, g_ptr_array_index (self->rows[i], k));
  for (guint i = 0; i < self->kept->len; i++)
    tl_xml_writer_node (writer, g_ptr_array_index (self->kept, i));
  tl_xml_writer_close (writer);
  return tl_xml_writer_finish (writer, length != NULL ? length : &unused);
}

gboolean
tl_pack_save (const TlPack *self, const char *path, GError **error)
{
  gsize            length;
  g_autofree char *text = NULL;

  g_return_val_if_fail (self != NULL && path != NULL, FALSE);

  text = tl_pack_to_text (self, &length);
  if (length > tl_xml_caps_stock.max_bytes)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
                   _ ("%s: the pack needs %zu bytes; a file holds at most "
                      "%zu. Split it in two."),
                   path, length, tl_xml_caps_stock.max_bytes);
      return FALSE;
    }
  return tl_file_save (path, text, length, error);
}

/* --- comparing --- */

static char *
row_text (const TlPackRow *row)
{
  g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();
  gsize length;

  write_row (writer, row);
  return tl_xml_writer_finish (writer, &length);
}

gboolean
tl_pack_row_equal (const TlPackRow *a, const TlPackRow *b)
{
  g_autofree char *one = NULL, *two = NULL;

  if (a == b)
    return TRUE;
  one = row_text (a);
  two = row_text (b);
  return strcmp (one, two) == 0;
}

gboolean
tl_pack_equal (const TlPack *a, const TlPack *b)
{
  g_autofree char *one = NULL, *two = NULL;

  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  one = tl_pack_to_text (a, NULL);
  two = tl_pack_to_text (b, NULL);
  return strcmp (one, two) == 0;
}
