/* part-item.c: a part or a group of parts as a list item.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/part-item.h"

#include <glib/gi18n.h>
#include <string.h>

struct _TlPartItem
{
  GObject parent_instance;

  TlStock      *stock; /* that @part belongs to */
  TlLanguage   *language;
  const TlPart *part;
  TlPartGroup   group;
  GListModel   *parts;
  char         *name; /* made when it is first asked for, as the two below */
  char         *dimensions;
  char         *mark;
};

G_DEFINE_FINAL_TYPE (TlPartItem, tl_part_item, G_TYPE_OBJECT)

static void
tl_part_item_finalize (GObject *object)
{
  TlPartItem *self = TL_PART_ITEM (object);

  g_clear_object (&self->parts);
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  g_free (self->name);
  g_free (self->dimensions);
  g_free (self->mark);
  G_OBJECT_CLASS (tl_part_item_parent_class)->finalize (object);
}

static void
tl_part_item_class_init (TlPartItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tl_part_item_finalize;
}

static void
tl_part_item_init (TlPartItem *self)
{
}

/* Under the heading of conductors the word itself says nothing: the rest comes first. */
static char *
row_name (const TlPart *part, const TlStock *stock, const TlLanguage *language)
{
  g_autofree char *name = tl_part_name (part->kind, part->facts, stock, language);
  const char      *rest = part->kind == TL_PART_CONDUCTOR ? strstr (name, ", ") : NULL;
  g_autofree char *first = NULL;

  if (rest == NULL)
    return g_steal_pointer (&name);
  rest += 2;
  first = g_utf8_strup (rest, g_utf8_next_char (rest) - rest);
  return g_strconcat (first, g_utf8_next_char (rest), NULL);
}

TlPartItem *
tl_part_item_new (const TlPart *part, const TlStock *stock, const TlLanguage *language)
{
  TlPartItem *self = g_object_new (TL_TYPE_PART_ITEM, NULL);

  self->part = part;
  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref ((TlLanguage *) language);
  self->group = tl_part_kind_group (part->kind);
  return self;
}

TlPartItem *
tl_part_item_new_group (TlPartGroup group, GListModel *parts, const TlLanguage *language)
{
  TlPartItem *self = g_object_new (TL_TYPE_PART_ITEM, NULL);

  self->group = group;
  self->parts = g_object_ref (parts);
  self->name = g_strdup (tl_language_text (language, tl_part_group_label (group)));
  return self;
}

const TlPart *
tl_part_item_part (TlPartItem *self)
{
  return self->part;
}

TlPartGroup
tl_part_item_group (TlPartItem *self)
{
  return self->group;
}

GListModel *
tl_part_item_parts (TlPartItem *self)
{
  return self->parts;
}

/* First, since a long name is cut at its end. */
static char *
told_apart_name (TlPartItem *self)
{
  g_autofree char *name = row_name (self->part, self->stock, self->language),
                  *apart = tl_part_told_apart (self->part, self->stock, self->language);

  if (*apart == '\0')
    return g_steal_pointer (&name);
  /* Translators: name or pack of a part of one's own, then what any such part is called */
  return g_strdup_printf (_ ("%s: %s"), apart, name);
}

const char *
tl_part_item_name (TlPartItem *self)
{
  if (self->name == NULL)
    self->name = told_apart_name (self);
  return self->name;
}

/* What tells terminals apart before their sizes are entered: "tunnel with screw, 2 screws". */
static char *
form_text (TlPartItem *self)
{
  const char *form = tl_facts_word (self->part->facts, TL_FIELD_TERMINAL_FORM, NULL);
  double      screws = tl_facts_number (self->part->facts, TL_FIELD_SCREWS, 1.0);
  const char *label;

  if (form == NULL)
    return g_strdup ("");
  label = tl_language_text (self->language, tl_field_word_label (TL_FIELD_TERMINAL_FORM, form));
  if (screws < 2.0)
    return g_strdup (label);
  /* Translators: form of a terminal, count of its screws (2 and more) a mouth */
  return g_strdup_printf (_ ("%s, %u screws"), label, (guint) screws);
}

const char *
tl_part_item_dimensions (TlPartItem *self)
{
  if (self->dimensions == NULL && self->part != NULL)
    self->dimensions = tl_part_dimensions (self->part->kind, self->part->facts, self->language);
  if (self->part != NULL && *self->dimensions == '\0')
    {
      g_free (self->dimensions);
      self->dimensions = form_text (self);
    }
  return self->dimensions;
}

static char *
mark_text (TlPartItem *self)
{
  const TlPackMark *mark = tl_stock_mark (self->stock, self->part->id, NULL);
  g_autofree char  *number = NULL;

  if (mark == NULL || !mark->in_van)
    return g_strdup ("");
  if (!mark->has_quantity)
    return g_strdup (_ ("van"));
  number = g_strdup_printf ("%g", mark->quantity);
  if (mark->per == TL_PER_PIECE)
    return g_strdup_printf (_ ("van\n%s"), number);
  return g_strdup_printf (_ ("van\n%s %s"), number, tl_per_word (mark->per));
}

const char *
tl_part_item_mark (TlPartItem *self)
{
  if (self->mark == NULL && self->part != NULL)
    self->mark = mark_text (self);
  return self->mark;
}

gboolean
tl_part_item_is_own (TlPartItem *self)
{
  return self->part != NULL && tl_stock_pack_of (self->stock, self->part->id) != NULL;
}
