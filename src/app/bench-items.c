/* bench-items.c: the bench's children: one for each layer and contact, named for the screen reader.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

#include <glib/gi18n.h>

TlBenchItem *
tl_bench_find_item (TlBench *self, TlItemKind kind, const char *owner, guint index)
{
  for (guint i = 0; i < self->items->len; i++)
    {
      TlBenchItem *item = g_ptr_array_index (self->items, i);

      if (tl_bench_item_kind (item) == kind
          && (kind == TL_ITEM_BODY ? g_strcmp0 (tl_bench_item_owner (item), owner) == 0
                                   : tl_bench_item_index (item) == index))
        return item;
    }
  return NULL;
}

static char *
body_description (TlBench *self, const char *owner)
{
  const TlVerdict  *verdict = tl_document_verdict (self->document);
  const TlLanguage *language = tl_document_language (self->document);

  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (verdict->findings, i);
      g_autofree char *sentence = NULL;

      if (!g_ptr_array_find_with_equal_func (finding->owners, owner, g_str_equal, NULL))
        continue;
      sentence = tl_wording_finding (verdict, finding, language);
      return g_strdup_printf (
          "%s. %s", tl_language_text (language, tl_severity_word (finding->severity)), sentence);
    }
  return g_strdup ("");
}

static char *
contact_name (TlBench *self, guint index)
{
  const TlVerdict  *verdict = tl_document_verdict (self->document);
  const TlAssembly *assembly = verdict->assembly;
  const TlContact  *contact = &g_array_index (assembly->contacts, TlContact, index);
  guint a = tl_assembly_number (assembly, tl_assembly_body (assembly, contact->a)->owner);
  guint b = tl_assembly_number (assembly, tl_assembly_body (assembly, contact->b)->owner);

  switch (contact->kind)
    {
    case TL_CONTACT_PRESSED:
      return g_strdup_printf (_ ("Pressed contact between %u and %u"), a, b);
    case TL_CONTACT_TOUCHING:
      return g_strdup_printf (_ ("Touching contact between %u and %u"), a, b);
    case TL_CONTACT_MAY_BRIDGE:
      return g_strdup_printf (_ ("Contact that may bridge between %u and %u"), a, b);
    default:
      g_return_val_if_reached (NULL);
    }
}

static char *
contact_description (TlBench *self, guint index)
{
  const TlVerdict *verdict = tl_document_verdict (self->document);
  TlSeverity       severity;

  if (!tl_verdict_of_contact (verdict, index, &severity))
    return g_strdup ("");
  return g_strdup (
      tl_language_text (tl_document_language (self->document), tl_severity_word (severity)));
}

void
tl_bench_describe_items (TlBench *self)
{
  const char       *selected = tl_document_selected (self->document);
  const TlAssembly *assembly = tl_document_verdict (self->document)->assembly;
  guint             layers = 0;
  g_autofree char  *label = NULL;

  for (guint i = 0; i < self->items->len; i++)
    {
      TlBenchItem     *item = g_ptr_array_index (self->items, i);
      const char      *owner = tl_bench_item_owner (item);
      gboolean         is_body = tl_bench_item_kind (item) == TL_ITEM_BODY;
      g_autofree char *name = NULL, *full = NULL, *description = NULL;

      layers += is_body;
      name = is_body ? tl_document_owner_name (self->document, owner)
                     : contact_name (self, tl_bench_item_index (item));
      full = is_body ? g_strdup_printf ("%u %s", tl_assembly_number (assembly, owner), name)
                     : g_strdup (name);
      description = is_body ? body_description (self, owner)
                            : contact_description (self, tl_bench_item_index (item));
      tl_bench_item_describe (item, full, description, i + 1, self->items->len,
                              is_body && g_strcmp0 (owner, selected) == 0);
    }
  label =
      g_strdup_printf (g_dngettext (NULL, "Bench, %u layer", "Bench, %u layers", layers), layers);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_widget_set_visible (GTK_WIDGET (self->hint), self->items->len == 0);
}

static void
on_item_focus (GtkWidget *item, GParamSpec *pspec, TlBench *self)
{
  TlBenchItem *child = TL_BENCH_ITEM (item);

  if (!gtk_widget_has_focus (item))
    return;
  if (tl_bench_item_kind (child) == TL_ITEM_BODY)
    tl_document_select (self->document, tl_bench_item_owner (child));
  else if (tl_bench_item_kind (child) == TL_ITEM_CONTACT)
    tl_bench_emit_hover (self, (gint) tl_bench_item_index (child));
}

static TlBenchItem *
add_item (TlBench *self, const TlItem *item)
{
  GtkWidget *child = tl_bench_item_new (item->kind, item->owner, item->index);

  g_signal_connect (child, "notify::has-focus", G_CALLBACK (on_item_focus), self);
  gtk_widget_insert_before (child, GTK_WIDGET (self), GTK_WIDGET (self->gap));
  return TL_BENCH_ITEM (child);
}

/* Children that stay keep their widget, and so the keyboard's place. */
void
tl_bench_match_items (TlBench *self)
{
  const GArray *wanted = tl_drawing_items (self->drawing);
  GPtrArray    *old = self->items, *items = g_ptr_array_new ();

  for (TlItemKind kind = TL_ITEM_BODY; kind <= TL_ITEM_CONTACT; kind++)
    for (guint i = 0; kind != TL_ITEM_NUMBER && i < wanted->len; i++)
      {
        const TlItem *item = &g_array_index (wanted, TlItem, i);
        TlBenchItem  *child;

        if (item->kind != kind)
          continue;
        child = tl_bench_find_item (self, kind, item->owner, item->index);
        if (child != NULL)
          g_ptr_array_remove (old, child);
        else
          child = add_item (self, item);
        g_ptr_array_add (items, child);
      }
  for (guint i = 0; i < old->len; i++)
    {
      GtkWidget *gone = g_ptr_array_index (old, i);

      if (gtk_widget_has_focus (gone))
        gtk_widget_grab_focus (GTK_WIDGET (self));
      gtk_widget_unparent (gone);
    }
  g_ptr_array_unref (old);
  self->items = items;
}

void
tl_bench_focus_owner (TlBench *self, const char *owner)
{
  TlBenchItem *item = tl_bench_find_item (self, TL_ITEM_BODY, owner, 0);

  gtk_widget_grab_focus (item == NULL ? GTK_WIDGET (self) : GTK_WIDGET (item));
}
