/* form.c: records made, copied, compared, read and written from the table of their slots.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/form.h"

#include "base/quantity.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define MOST_LETTERS 4000
#define MOST_POINTS 5000u
#define MOST_NUMBERS 200u
#define MOST_PIXEL 1e6

#define AT(record, slot, type) (*(type *) (gpointer) ((char *) (record) + (slot)->offset))

static GArray *
list_new (const TlSlot *slot)
{
  return g_array_new (FALSE, TRUE,
                      slot->kind == TL_SLOT_POINTS ? sizeof (TlPixel) : sizeof (double));
}

gpointer
tl_record_new (const TlForm *form)
{
  TlRecord *self = g_atomic_rc_box_alloc0 (form->size);

  self->form = form;
  for (const TlSlot *slot = form->slots; slot->name != NULL; slot++)
    if (slot->kind == TL_SLOT_TEXT)
      AT (self, slot, char *) = g_strdup ("");
    else if (slot->kind == TL_SLOT_POINTS || slot->kind == TL_SLOT_NUMBERS)
      AT (self, slot, GArray *) = list_new (slot);
  return self;
}

gpointer
tl_record_ref (gconstpointer record)
{
  return g_atomic_rc_box_acquire ((gpointer) record);
}

static void
clear (gpointer record)
{
  TlRecord *self = record;

  if (self->form->more != NULL)
    self->form->more (record);
  for (const TlSlot *slot = self->form->slots; slot->name != NULL; slot++)
    if (slot->kind == TL_SLOT_TEXT)
      g_free (AT (self, slot, char *));
    else if (slot->kind == TL_SLOT_POINTS || slot->kind == TL_SLOT_NUMBERS)
      g_array_unref (AT (self, slot, GArray *));
  g_clear_pointer (&self->kept, tl_xml_node_free);
}

void
tl_record_unref (gpointer record)
{
  g_atomic_rc_box_release_full (record, clear);
}

void
tl_record_text (char **slot, const char *text)
{
  g_free (*slot);
  *slot = g_strdup (text != NULL ? text : "");
}

gpointer
tl_record_copy (gconstpointer record)
{
  const TlRecord *self = record;
  TlRecord       *copy = tl_record_new (self->form);

  for (const TlSlot *slot = self->form->slots; slot->name != NULL; slot++)
    switch (slot->kind)
      {
      case TL_SLOT_TEXT:
        tl_record_text (&AT (copy, slot, char *), AT (self, slot, char *));
        break;
      case TL_SLOT_NUMBER:
        AT (copy, slot, double) = AT (self, slot, double);
        break;
      case TL_SLOT_COUNT:
      case TL_SLOT_FLAG:
      case TL_SLOT_WORD:
        AT (copy, slot, int) = AT (self, slot, int);
        break;
      case TL_SLOT_POINTS:
      case TL_SLOT_NUMBERS:
        g_array_append_vals (AT (copy, slot, GArray *), AT (self, slot, GArray *)->data,
                             AT (self, slot, GArray *)->len);
        break;
      default:
        g_assert_not_reached ();
      }
  copy->kept = self->kept != NULL ? tl_xml_node_copy (self->kept) : NULL;
  return copy;
}

gboolean
tl_record_equal (gconstpointer a, gconstpointer b)
{
  TlXmlNode       *node_a, *node_b;
  g_autofree char *text_a = NULL, *text_b = NULL;

  if (a == b)
    return TRUE;
  node_a = tl_record_write (a, "");
  node_b = tl_record_write (b, "");
  text_a = tl_node_canonical (node_a, NULL);
  text_b = tl_node_canonical (node_b, NULL);
  tl_xml_node_free (node_a);
  tl_xml_node_free (node_b);
  return strcmp (text_a, text_b) == 0;
}

/* --- nodes --- */

TlXmlNode *
tl_node_new (const char *name, const char *ns)
{
  TlXmlNode *node = g_new0 (TlXmlNode, 1);

  node->name = g_strdup (name);
  node->ns = g_strdup (ns);
  node->text = g_strdup ("");
  node->attributes = g_new0 (char *, 1);
  node->children = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_xml_node_free);
  return node;
}

void
tl_node_set (TlXmlNode *node, const char *name, const char *value)
{
  guint length = g_strv_length (node->attributes);

  if (value == NULL || *value == '\0')
    return;
  node->attributes = g_renew (char *, node->attributes, length + 3);
  node->attributes[length] = g_strdup (name);
  node->attributes[length + 1] = g_strdup (value);
  node->attributes[length + 2] = NULL;
}

void
tl_node_add (TlXmlNode *node, TlXmlNode *child)
{
  g_ptr_array_add (node->children, child);
}

char *
tl_node_canonical (const TlXmlNode *node, gsize *length)
{
  g_autoptr (TlXmlWriter) writer = tl_xml_writer_new ();

  tl_xml_writer_node (writer, node);
  return tl_xml_writer_finish (writer, length);
}

/* --- reading --- */

static gboolean fail (const TlXmlNode *node, int code, GError **error, const char *format, ...)
    G_GNUC_PRINTF (4, 5);

/* @node: (nullable): without it the message has no line. */
static gboolean
fail (const TlXmlNode *node, int code, GError **error, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list          arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  if (node != NULL && node->line > 0)
    g_set_error (error, TL_ERROR, code, _ ("line %u: %s"), node->line, message);
  else
    g_set_error_literal (error, TL_ERROR, code, message);
  return FALSE;
}

static gboolean
is_storable (const char *text)
{
  if (!g_utf8_validate (text, -1, NULL) || g_utf8_strlen (text, -1) > MOST_LETTERS)
    return FALSE;
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if ((c < 0x20 && c != '\n' && c != '\t') || c == 0x7f || c == 0xfffe || c == 0xffff)
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_text (const TlXmlNode *node, const TlSlot *slot, const char *text, GError **error)
{
  if (is_storable (text))
    return TRUE;
  return fail (node, TL_ERROR_PARSE, error, _ ("“%s” must be plain text of at most %d letters."),
               slot->name, MOST_LETTERS);
}

static gboolean
check_number (const TlXmlNode *node, const TlSlot *slot, double value, GError **error)
{
  if (isfinite (value) && value >= slot->low && value <= slot->high)
    return TRUE;
  return fail (node, TL_ERROR_RANGE, error, _ ("“%s” is %g; it must be from %g to %g."), slot->name,
               value, slot->low, slot->high);
}

static gboolean
read_number (const TlXmlNode *node, const TlSlot *slot, const char *text, double *value,
             GError **error)
{
  if (!tl_number_parse (text, value, NULL))
    return fail (node, TL_ERROR_PARSE, error, _ ("“%s” is “%s”; it must be a number."), slot->name,
                 text);
  return check_number (node, slot, *value, error);
}

static gboolean
read_word (const TlXmlNode *node, const TlSlot *slot, const char *text, int *value, GError **error)
{
  g_autofree char *right = NULL;

  for (int i = 0; slot->words[i] != NULL; i++)
    if (strcmp (slot->words[i], text) == 0)
      {
        *value = i;
        return TRUE;
      }
  right = g_strjoinv (", ", (char **) slot->words);
  return fail (node, TL_ERROR_NAME, error, _ ("“%s” is “%s”; it must be one of: %s."), slot->name,
               text, right);
}

/* "x,y x,y" */
static gboolean
read_points (const TlXmlNode *node, const TlSlot *slot, const char *text, GArray *list,
             GError **error)
{
  g_auto (GStrv) words = g_strsplit (text, " ", (int) MOST_POINTS + 2);

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_auto (GStrv) pair = g_strsplit (words[i], ",", 3);
      TlPixel point;

      if (*words[i] == '\0')
        continue;
      if (g_strv_length (pair) != 2 || !tl_number_parse (pair[0], &point.x_px, NULL)
          || !tl_number_parse (pair[1], &point.y_px, NULL))
        return fail (node, TL_ERROR_PARSE, error,
                     _ ("“%s” holds “%s”; a point is written like 12.5,40."), slot->name, words[i]);
      if (!(fabs (point.x_px) <= MOST_PIXEL && fabs (point.y_px) <= MOST_PIXEL))
        return fail (node, TL_ERROR_RANGE, error,
                     _ ("“%s” holds a point farther out than %g pixels."), slot->name, MOST_PIXEL);
      if (list->len >= MOST_POINTS)
        return fail (node, TL_ERROR_LIMIT, error, _ ("“%s” holds more than %u points."), slot->name,
                     MOST_POINTS);
      g_array_append_val (list, point);
    }
  return TRUE;
}

static gboolean
read_numbers (const TlXmlNode *node, const TlSlot *slot, const char *text, GArray *list,
              GError **error)
{
  g_auto (GStrv) words = g_strsplit (text, " ", (int) MOST_NUMBERS + 2);

  for (guint i = 0; words[i] != NULL; i++)
    {
      double value;

      if (*words[i] == '\0')
        continue;
      if (!read_number (node, slot, words[i], &value, error))
        return FALSE;
      if (list->len >= MOST_NUMBERS)
        return fail (node, TL_ERROR_LIMIT, error, _ ("“%s” holds more than %u numbers."),
                     slot->name, MOST_NUMBERS);
      g_array_append_val (list, value);
    }
  return TRUE;
}

static gboolean
read_slot (const TlXmlNode *node, const TlSlot *slot, const char *text, TlRecord *self,
           GError **error)
{
  double value;
  int    flag;

  switch (slot->kind)
    {
    case TL_SLOT_TEXT:
      if (!check_text (node, slot, text, error))
        return FALSE;
      tl_record_text (&AT (self, slot, char *), text);
      return TRUE;
    case TL_SLOT_NUMBER:
      return read_number (node, slot, text, &AT (self, slot, double), error);
    case TL_SLOT_COUNT:
      if (!read_number (node, slot, text, &value, error))
        return FALSE;
      if (value != floor (value))
        return fail (node, TL_ERROR_RANGE, error, _ ("“%s” is %g; it must be a whole number."),
                     slot->name, value);
      AT (self, slot, guint) = (guint) value;
      return TRUE;
    case TL_SLOT_FLAG:
      {
        static const char *const words[] = { "no", "yes", NULL };
        TlSlot                   yes_no = *slot;

        yes_no.words = words;
        if (!read_word (node, &yes_no, text, &flag, error))
          return FALSE;
        AT (self, slot, gboolean) = flag;
        return TRUE;
      }
    case TL_SLOT_WORD:
      return read_word (node, slot, text, &AT (self, slot, int), error);
    case TL_SLOT_POINTS:
      return read_points (node, slot, text, AT (self, slot, GArray *), error);
    case TL_SLOT_NUMBERS:
      return read_numbers (node, slot, text, AT (self, slot, GArray *), error);
    default:
      g_assert_not_reached ();
    }
}

static const TlSlot *
slot_named (const TlForm *form, const char *name)
{
  for (const TlSlot *slot = form->slots; slot->name != NULL; slot++)
    if (strcmp (slot->name, name) == 0)
      return slot;
  return NULL;
}

static TlXmlNode *
kept_of (TlRecord *self, const TlXmlNode *node)
{
  if (self->kept == NULL)
    self->kept = tl_node_new (node->name, node->ns);
  return self->kept;
}

gpointer
tl_record_read (const TlForm *form, const TlXmlNode *node, GError **error)
{
  TlRecord *self = tl_record_new (form);

  for (char **attribute = node->attributes; *attribute != NULL; attribute += 2)
    {
      const TlSlot *slot = slot_named (form, attribute[0]);

      if (slot == NULL)
        tl_node_set (kept_of (self, node), attribute[0], attribute[1]);
      else if (!read_slot (node, slot, attribute[1], self, error))
        {
          tl_record_unref (self);
          return NULL;
        }
    }
  for (const TlSlot *slot = form->slots; slot->name != NULL; slot++)
    if (slot->required && tl_xml_attribute (node, slot->name) == NULL)
      {
        fail (node, TL_ERROR_PARSE, error, _ ("<%s> needs the attribute “%s”."), form->element,
              slot->name);
        tl_record_unref (self);
        return NULL;
      }
  for (guint i = 0; i < node->children->len; i++)
    tl_node_add (kept_of (self, node), tl_xml_node_copy (g_ptr_array_index (node->children, i)));
  return self;
}

static gboolean
check_list (const TlSlot *slot, const GArray *list, GError **error)
{
  guint most = slot->kind == TL_SLOT_POINTS ? MOST_POINTS : MOST_NUMBERS;

  if (list->len > most)
    return fail (NULL, TL_ERROR_LIMIT, error, _ ("“%s” holds %u; at most %u are permitted."),
                 slot->name, list->len, most);
  for (guint i = 0; i < list->len; i++)
    if (slot->kind == TL_SLOT_NUMBERS)
      {
        if (!check_number (NULL, slot, g_array_index (list, double, i), error))
          return FALSE;
      }
    else
      {
        const TlPixel *point = &g_array_index (list, TlPixel, i);

        if (!(fabs (point->x_px) <= MOST_PIXEL && fabs (point->y_px) <= MOST_PIXEL))
          return fail (NULL, TL_ERROR_RANGE, error,
                       _ ("“%s” holds a point farther out than %g pixels."), slot->name,
                       MOST_PIXEL);
      }
  return TRUE;
}

gboolean
tl_record_check (gconstpointer record, GError **error)
{
  const TlRecord *self = record;

  for (const TlSlot *slot = self->form->slots; slot->name != NULL; slot++)
    if ((slot->kind == TL_SLOT_TEXT && !check_text (NULL, slot, AT (self, slot, char *), error))
        || (slot->kind == TL_SLOT_NUMBER
            && !check_number (NULL, slot, AT (self, slot, double), error))
        || (slot->kind == TL_SLOT_COUNT
            && !check_number (NULL, slot, AT (self, slot, guint), error))
        || ((slot->kind == TL_SLOT_POINTS || slot->kind == TL_SLOT_NUMBERS)
            && !check_list (slot, AT (self, slot, GArray *), error)))
      return FALSE;
  return TRUE;
}

/* --- writing --- */

static char *
list_to_text (const TlSlot *slot, const GArray *list)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++)
    {
      if (i > 0)
        g_string_append_c (text, ' ');
      if (slot->kind == TL_SLOT_NUMBERS)
        {
          g_autofree char *number = tl_number_to_text (g_array_index (list, double, i));

          g_string_append (text, number);
        }
      else
        {
          const TlPixel   *point = &g_array_index (list, TlPixel, i);
          g_autofree char *x = tl_number_to_text (point->x_px);
          g_autofree char *y = tl_number_to_text (point->y_px);

          g_string_append_printf (text, "%s,%s", x, y);
        }
    }
  return g_string_free (text, FALSE);
}

/* (transfer full) (nullable): %NULL for what need not be written */
static char *
slot_to_text (const TlRecord *self, const TlSlot *slot)
{
  switch (slot->kind)
    {
    case TL_SLOT_TEXT:
      return g_strdup (AT (self, slot, char *));
    case TL_SLOT_NUMBER:
      if (!slot->required && AT (self, slot, double) == 0.0)
        return NULL;
      return tl_number_to_text (AT (self, slot, double));
    case TL_SLOT_COUNT:
      if (!slot->required && AT (self, slot, guint) == 0)
        return NULL;
      return g_strdup_printf ("%u", AT (self, slot, guint));
    case TL_SLOT_FLAG:
      return AT (self, slot, gboolean) ? g_strdup ("yes") : NULL;
    case TL_SLOT_WORD:
      return g_strdup (slot->words[AT (self, slot, int)]);
    case TL_SLOT_POINTS:
    case TL_SLOT_NUMBERS:
      return list_to_text (slot, AT (self, slot, GArray *));
    default:
      g_assert_not_reached ();
    }
}

TlXmlNode *
tl_record_write (gconstpointer record, const char *ns)
{
  const TlRecord *self = record;
  TlXmlNode      *node = tl_node_new (self->form->element, ns);

  for (const TlSlot *slot = self->form->slots; slot->name != NULL; slot++)
    {
      g_autofree char *text = slot_to_text (self, slot);

      tl_node_set (node, slot->name, text);
    }
  if (self->kept == NULL)
    return node;
  for (char **attribute = self->kept->attributes; *attribute != NULL; attribute += 2)
    tl_node_set (node, attribute[0], attribute[1]);
  for (guint i = 0; i < self->kept->children->len; i++)
    tl_node_add (node, tl_xml_node_copy (g_ptr_array_index (self->kept->children, i)));
  return node;
}
