/* inspection-texts.c: the inspection as a whole.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/inspection-texts.h"

#include "app/labelled.h"
#include "app/record-lines.h"

#include <glib/gi18n.h>
#include <string.h>

struct _TlInspectionTexts
{
  GtkWidget parent_instance;

  TlInspector  *inspector;
  GtkBox       *box;
  GtkDropDown  *which;
  GtkLabel     *state;
  GtkWidget    *begin, *revise;
  TlRecordForm *form;
  GtkLabel     *changes_head, *changes;
  GtkLabel     *custody;
  GtkWidget    *verify;
  gboolean      is_showing;
};

G_DEFINE_FINAL_TYPE (TlInspectionTexts, tl_inspection_texts, GTK_TYPE_WIDGET)

static const TlLanguage *
language_of (TlInspectionTexts *self)
{
  return tl_document_language (tl_inspector_document (self->inspector));
}

static GtkLabel *
text_new (TlInspectionTexts *self, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 36);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (self->box, label);
  return GTK_LABEL (label);
}

/* --- which one --- */

static char *
inspection_name (const TlInspection *inspection)
{
  g_autofree char *day = g_strndup (inspection->begun, MIN (strlen (inspection->begun), 10));
  g_autofree char *number =
      *inspection->number != '\0' ? g_strdup (inspection->number) : g_strdup (_ ("without number"));

  return inspection->revision == 0
             ? g_strdup_printf ("%s · %s", day, number)
             : g_strdup_printf (_ ("%s · %s, revision %u"), day, number, inspection->revision);
}

static void
show_which (TlInspectionTexts *self)
{
  const TlInspections *all = tl_inspector_inspections (self->inspector);
  const TlInspection  *now = tl_inspector_inspection (self->inspector);
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_auto (GStrv) text = NULL, id = NULL;

  for (guint i = 0; i < all->inspections->len; i++)
    {
      const TlInspection *inspection = g_ptr_array_index (all->inspections, i);
      g_autofree char    *name = inspection_name (inspection);

      g_strv_builder_add (texts, name);
      g_strv_builder_add (ids, inspection->id);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  self->is_showing = TRUE;
  tl_choice_fill (self->which, (const char *const *) text, (const char *const *) id);
  if (now != NULL)
    tl_choice_select (self->which, now->id);
  self->is_showing = FALSE;
  gtk_widget_set_visible (GTK_WIDGET (self->which), all->inspections->len > 0);
}

static void
on_which (GtkDropDown *choice, GParamSpec *pspec, TlInspectionTexts *self)
{
  g_autofree char *id = g_strdup (tl_choice_id (choice));

  if (!self->is_showing && *id != '\0')
    tl_inspector_choose_inspection (self->inspector, id);
}

/* --- showing --- */

static void
show_state (TlInspectionTexts *self, const TlInspection *now)
{
  gboolean         is_closed = now != NULL && tl_inspection_is_closed (now);
  g_autofree char *text = NULL;

  if (now == NULL)
    text = g_strdup (_ ("No inspection was begun yet. The first scale, measure, mark or reading "
                        "begins one."));
  else if (is_closed)
    {
      g_autofree char *seal = g_strndup (now->seal, 16);

      text = g_strdup_printf (
          _ ("Closed: its report was issued %s. Fingerprint %s… What comes later is a revision."),
          now->issued, seal);
    }
  else
    text = g_strdup (_ ("Open. Issuing the report closes it."));
  gtk_label_set_text (self->state, text);
  gtk_widget_set_visible (self->begin, now == NULL || is_closed);
  gtk_widget_set_visible (self->revise, is_closed);
  gtk_widget_set_visible (GTK_WIDGET (self->form), now != NULL);
}

/* Against the look before, which need not be the one that is revised. */
static void
show_changes (TlInspectionTexts *self, const TlInspection *now)
{
  const TlInspections *all = tl_inspector_inspections (self->inspector);
  const TlInspection  *before = NULL;
  g_autoptr (GPtrArray) lines = NULL;
  g_autofree char *text = NULL;

  for (guint i = 0; now != NULL && i < all->inspections->len; i++)
    {
      const TlInspection *other = g_ptr_array_index (all->inspections, i);

      if (other == now)
        break;
      before = other;
    }
  gtk_widget_set_visible (GTK_WIDGET (self->changes_head), before != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->changes), before != NULL);
  if (before == NULL)
    return;
  lines = tl_inspections_changes (all, before, now, language_of (self));
  if (lines->len == 0)
    text = g_strdup (_ ("Nothing changed."));
  else
    {
      g_ptr_array_add (lines, NULL);
      text = g_strjoinv ("\n", (char **) lines->pdata);
    }
  gtk_label_set_text (self->changes, text);
}

void
tl_inspection_texts_refresh (TlInspectionTexts *self)
{
  const TlInspection *now = tl_inspector_inspection (self->inspector);

  show_which (self);
  show_state (self, now);
  show_changes (self, now);
  if (now != NULL)
    tl_record_form_show (self->form, now, !tl_inspection_is_closed (now));
}

/* --- edits --- */

static void
on_edited (TlRecordForm *form, const char *slot, const char *text, TlInspectionTexts *self)
{
  const TlInspection *now = tl_inspector_inspection (self->inspector);
  g_autofree char    *line = g_strdup (slot);
  g_autoptr (GError) error = NULL;
  TlInspection *changed;

  if (now == NULL)
    return;
  /* Its texts alone: children stay with the inspection they are of. */
  changed = tl_record_new (&tl_inspection_form);
  for (const TlSlot *s = tl_inspection_form.slots; s->name != NULL; s++)
    if (s->kind == TL_SLOT_TEXT)
      tl_record_text ((char **) G_STRUCT_MEMBER_P (changed, s->offset),
                      *(char *const *) G_STRUCT_MEMBER_P (now, s->offset));
  if (!tl_record_form_apply (form, changed, line, text, &error)
      || !tl_inspector_take (
          self->inspector,
          tl_inspections_set (tl_inspector_inspections (self->inspector), changed, &error), NULL,
          _ ("Set a text of the inspection"), 0))
    tl_record_form_refuse (form, line, error->message);
  tl_record_unref (changed);
}

static void
on_verify (GtkButton *button, TlInspectionTexts *self)
{
  const TlJoint *joint = tl_document_joint (tl_inspector_document (self->inspector));
  gboolean       is_good = FALSE;
  g_autoptr (GPtrArray) lines = tl_inspections_verify (
      tl_inspector_inspections (self->inspector), joint->originals, language_of (self), &is_good);
  GString *text = g_string_new (is_good ? _ ("All that can be checked is unchanged.")
                                        : _ ("Something was changed or is missing."));

  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (text, "\n%s", ((TlCheckLine *) g_ptr_array_index (lines, i))->text);
  gtk_label_set_text (self->custody, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->custody), TRUE);
  g_string_free (text, TRUE);
}

/* --- widget --- */

static void
tl_inspection_texts_dispose (GObject *object)
{
  TlInspectionTexts *self = TL_INSPECTION_TEXTS (object);

  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->inspector);
  G_OBJECT_CLASS (tl_inspection_texts_parent_class)->dispose (object);
}

static void
tl_inspection_texts_class_init (TlInspectionTextsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_inspection_texts_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_inspection_texts_init (TlInspectionTexts *self)
{
  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 8));
  gtk_widget_set_parent (GTK_WIDGET (self->box), GTK_WIDGET (self));
}

static GtkWidget *
button_new (const char *label, GCallback callback, gpointer data, GtkBox *box)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (button, "plain");
  g_signal_connect_swapped (button, "clicked", callback, data);
  gtk_box_append (box, button);
  return button;
}

void
tl_inspection_texts_set_inspector (TlInspectionTexts *self, TlInspector *inspector)
{
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *head;

  self->inspector = g_object_ref (inspector);
  self->which = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  tl_choice_narrow (self->which);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->which), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Inspection"), -1);
  g_signal_connect (self->which, "notify::selected", G_CALLBACK (on_which), self);
  gtk_box_append (self->box, GTK_WIDGET (self->which));
  self->state = text_new (self, "caption-text");
  self->begin = button_new (_ ("New inspection"), G_CALLBACK (tl_inspector_begin), inspector,
                            GTK_BOX (buttons));
  self->revise = button_new (_ ("New revision"), G_CALLBACK (tl_inspector_revise), inspector,
                             GTK_BOX (buttons));
  gtk_box_append (self->box, buttons);
  self->form =
      TL_RECORD_FORM (tl_record_form_new (tl_record_lines_inspection (), language_of (self)));
  g_signal_connect_object (self->form, "edited", G_CALLBACK (on_edited), self, 0);
  gtk_box_append (self->box, GTK_WIDGET (self->form));
  self->changes_head = text_new (self, "pane-title");
  gtk_label_set_text (self->changes_head, _ ("What changed since the look before"));
  self->changes = text_new (self, NULL);
  head = GTK_WIDGET (text_new (self, "pane-title"));
  gtk_label_set_text (GTK_LABEL (head), _ ("Originals"));
  buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->verify = gtk_button_new_with_label (_ ("Check the originals and the chain"));
  gtk_widget_add_css_class (self->verify, "plain");
  g_signal_connect (self->verify, "clicked", G_CALLBACK (on_verify), self);
  gtk_box_append (GTK_BOX (buttons), self->verify);
  gtk_box_append (self->box, buttons);
  self->custody = text_new (self, "caption-text");
  gtk_widget_set_visible (GTK_WIDGET (self->custody), FALSE);
  tl_inspection_texts_refresh (self);
}

TlRecordForm *
tl_inspection_texts_form (TlInspectionTexts *self)
{
  return self->form;
}
