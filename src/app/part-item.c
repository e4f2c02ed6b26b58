/* part-item.c: a part or a group of parts as a list item.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/part-item.h"

#include <string.h>

struct _TlPartItem
{
  GObject parent_instance;

  const TlPart *part; /* owned by the stock, which outlives the window */
  TlPartGroup   group;
  GListModel   *parts;
  char         *name;
  char         *dimensions;
  char         *folded;
};

G_DEFINE_FINAL_TYPE (TlPartItem, tl_part_item, G_TYPE_OBJECT)

static void
tl_part_item_finalize (GObject *object)
{
  TlPartItem *self = TL_PART_ITEM (object);

  g_clear_object (&self->parts);
  g_free (self->name);
  g_free (self->dimensions);
  g_free (self->folded);
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
  TlPartItem      *self = g_object_new (TL_TYPE_PART_ITEM, NULL);
  g_autofree char *all = NULL;

  self->part = part;
  self->group = tl_part_kind_group (part->kind);
  self->name = row_name (part, stock, language);
  self->dimensions = tl_part_dimensions (part->kind, part->facts, language);
  all = g_strjoin (" ", self->name, part->size == NULL ? "" : part->size, self->dimensions, NULL);
  self->folded = g_utf8_casefold (all, -1);
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

const char *
tl_part_item_name (TlPartItem *self)
{
  return self->name;
}

const char *
tl_part_item_dimensions (TlPartItem *self)
{
  return self->dimensions;
}

gboolean
tl_part_item_matches (TlPartItem *self, const char *const *folded)
{
  for (guint i = 0; folded[i] != NULL; i++)
    if (strstr (self->folded, folded[i]) == NULL)
      return FALSE;
  return TRUE;
}
