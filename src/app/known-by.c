/* known-by.c: how a fact is known, and its popover.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/known-by.h"

#include "app/owner-facts.h"
#include "base/quantity.h"

#include <glib/gi18n.h>

struct _TlKnownByButton
{
  GtkWidget parent_instance;

  TlDocument    *document;
  char          *owner;
  TlField        field;
  GtkMenuButton *button;
  GtkLabel      *label;
  GtkBox        *box; /* in the popover, filled when it opens */
};

G_DEFINE_FINAL_TYPE (TlKnownByButton, tl_known_by, GTK_TYPE_WIDGET)

/* What a person can say; the other ways of knowing belong to the stock. */
static const TlKnownBy choices[] = { TL_KNOWN_MEASURED, TL_KNOWN_MARKING, TL_KNOWN_STOCK,
                                     TL_KNOWN_STATED, TL_KNOWN_ASSUMED };

static char *
range_text (TlKnownByButton *self)
{
  const TlFieldInfo *info = tl_field_info (self->field);
  const TlLanguage  *language = tl_document_language (self->document);
  g_autofree char   *low = NULL, *high = NULL;

  if (info->kind != TL_FIELD_KIND_NUMBER && info->kind != TL_FIELD_KIND_COUNT)
    return NULL;
  low = tl_quantity_format (info->low, info->unit, language);
  high = tl_quantity_format (info->high, info->unit, language);
  return g_strdup_printf (_ ("%s to %s"), low, high);
}

static void
choose (TlKnownByButton *self, TlKnownBy known_by, const char *note)
{
  const TlFact *fact = tl_owner_fact (self->document, self->owner, self->field);
  g_autoptr (GError) error = NULL;
  TlFact   changed;
  TlJoint *after;

  if (fact == NULL)
    return;
  changed = *fact;
  changed.known_by = known_by;
  changed.note = (char *) note;
  after = tl_edit_set_fact (tl_document_joint (self->document), self->owner, &changed, &error);
  if (after == NULL)
    tl_document_refuse (self->document, error->message);
  else
    tl_document_take (self->document, after, _ ("Say how a figure is known"),
                      tl_document_selected (self->document), 0);
}

static void
on_choice (GtkCheckButton *check, TlKnownByButton *self)
{
  const TlFact *fact = tl_owner_fact (self->document, self->owner, self->field);
  TlKnownBy     known_by =
      (TlKnownBy) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (check), "known-by"));
  g_autofree char *note = fact == NULL ? NULL : g_strdup (fact->note);

  if (gtk_check_button_get_active (check) && fact != NULL && fact->known_by != known_by)
    choose (self, known_by, note);
}

static void
on_note (GtkEntry *entry, TlKnownByButton *self)
{
  const TlFact *fact = tl_owner_fact (self->document, self->owner, self->field);

  if (fact != NULL)
    choose (self, fact->known_by, gtk_editable_get_text (GTK_EDITABLE (entry)));
  gtk_menu_button_popdown (self->button);
}

static void
on_back (GtkButton *button, TlKnownByButton *self)
{
  g_autoptr (GError) error = NULL;
  TlJoint *after =
      tl_edit_unset_fact (tl_document_joint (self->document), self->owner, self->field, &error);

  gtk_menu_button_popdown (self->button);
  if (after == NULL)
    tl_document_refuse (self->document, error->message);
  else
    tl_document_take (self->document, after, _ ("Take back a figure"),
                      tl_document_selected (self->document), 0);
}

static void
add_line (GtkBox *box, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 36);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (box, label);
}

static void
add_choices (TlKnownByButton *self, const TlFact *fact)
{
  GtkWidget *group = NULL, *note;

  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    {
      GtkWidget *check = gtk_check_button_new_with_label (tl_known_by_label (choices[i]));

      if (group != NULL)
        gtk_check_button_set_group (GTK_CHECK_BUTTON (check), GTK_CHECK_BUTTON (group));
      group = check;
      g_object_set_data (G_OBJECT (check), "known-by", GINT_TO_POINTER ((gint) choices[i]));
      gtk_check_button_set_active (GTK_CHECK_BUTTON (check), fact->known_by == choices[i]);
      g_signal_connect (check, "toggled", G_CALLBACK (on_choice), self);
      gtk_box_append (self->box, check);
    }
  note = gtk_entry_new ();
  gtk_entry_set_placeholder_text (GTK_ENTRY (note), _ ("Note: instrument, date"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (note), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Note: instrument, date"), -1);
  gtk_editable_set_text (GTK_EDITABLE (note), fact->note == NULL ? "" : fact->note);
  g_signal_connect (note, "activate", G_CALLBACK (on_note), self);
  gtk_box_append (self->box, note);
}

static void
on_open (GtkMenuButton *button, gpointer data)
{
  TlKnownByButton  *self = TL_KNOWN_BY (data);
  const TlFact     *fact = tl_owner_fact (self->document, self->owner, self->field);
  const TlLanguage *language = tl_document_language (self->document);
  g_autofree char  *range = range_text (self), *line = NULL;
  GtkWidget        *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->box))) != NULL)
    gtk_box_remove (self->box, child);
  add_line (self->box, tl_language_text (language, tl_field_info (self->field)->label),
            "name-bold");
  if (range != NULL)
    {
      line = g_strdup_printf (_ ("Permitted: %s. Any unit of the kind can be typed."), range);
      add_line (self->box, line, "muted");
    }
  if (fact == NULL)
    {
      add_line (self->box, _ ("Not entered yet."), "muted");
      return;
    }
  if (fact->source != NULL)
    {
      g_autofree char *citation = tl_source_citation (tl_document_effective_stock (self->document),
                                                      fact->source, fact->known_by, language);

      add_line (self->box, citation, "muted");
    }
  add_choices (self, fact);
  if (tl_owner_own_fact (self->document, self->owner, self->field) != NULL)
    {
      GtkWidget *back = gtk_button_new_with_label (_ ("Take this entry back"));

      gtk_widget_add_css_class (back, "plain");
      g_signal_connect (back, "clicked", G_CALLBACK (on_back), self);
      gtk_box_append (self->box, back);
    }
}

static void
tl_known_by_dispose (GObject *object)
{
  TlKnownByButton *self = TL_KNOWN_BY (object);

  if (self->button != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->button));
  self->button = NULL;
  g_clear_object (&self->document);
  g_clear_pointer (&self->owner, g_free);
  G_OBJECT_CLASS (tl_known_by_parent_class)->dispose (object);
}

static void
tl_known_by_class_init (TlKnownByButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_known_by_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_known_by_init (TlKnownByButton *self)
{
  GtkWidget *popover = gtk_popover_new (), *label = gtk_label_new (NULL),
            *button = gtk_menu_button_new ();

  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  self->button = GTK_MENU_BUTTON (button);
  self->label = GTK_LABEL (label);
  gtk_label_set_xalign (self->label, 0);
  gtk_label_set_ellipsize (self->label, PANGO_ELLIPSIZE_END);
  gtk_popover_set_child (GTK_POPOVER (popover), GTK_WIDGET (self->box));
  gtk_menu_button_set_popover (self->button, popover);
  gtk_menu_button_set_child (self->button, label);
  gtk_menu_button_set_has_frame (self->button, FALSE);
  gtk_menu_button_set_create_popup_func (self->button, on_open, self, NULL);
  gtk_widget_add_css_class (button, "known");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_set_parent (button, GTK_WIDGET (self));
}

GtkWidget *
tl_known_by_new (TlDocument *document, const char *owner, TlField field)
{
  TlKnownByButton *self = g_object_new (TL_TYPE_KNOWN_BY, NULL);

  self->document = g_object_ref (document);
  self->owner = g_strdup (owner);
  self->field = field;
  tl_known_by_refresh (self);
  return GTK_WIDGET (self);
}

void
tl_known_by_refresh (TlKnownByButton *self)
{
  const TlFact    *fact = tl_owner_fact (self->document, self->owner, self->field);
  gboolean         is_own = tl_owner_own_fact (self->document, self->owner, self->field) != NULL;
  g_autofree char *range = range_text (self), *tip = NULL, *name = NULL;
  const char      *known = fact == NULL ? _ ("not entered")
                           : is_own     ? tl_known_by_label (fact->known_by)
                                        : _ ("from the stock");

  tip = range == NULL ? g_strdup (known) : g_strdup_printf (_ ("%s; permitted %s"), known, range);
  name = g_strdup_printf (
      _ ("How %s is known: %s"),
      tl_language_text (tl_document_language (self->document), tl_field_info (self->field)->label),
      known);
  gtk_label_set_text (self->label, known);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
}
