/* joint-form.c: the joint's own texts and choices.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/joint-form.h"

#include "app/labelled.h"

#include <glib/gi18n.h>

/* One row of the form: what tl_edit_set_text() calls it. */
typedef struct
{
  const char *what;
  const char *label;
  gint        chars;
} Line;

static const Line lines[] = {
  { "name", N_ ("Name"), 18 },
  { "place", N_ ("Place"), 18 },
  { "prepared-by", N_ ("Prepared by"), 12 },
  { "date", N_ ("Date (year-month-day)"), 11 },
};

enum
{
  PRACTICE,
  BOX,
  UNITS,
  LANGUAGE,
  N_CHOICES
};

static const char *const choice_whats[N_CHOICES] = { "practice", "box", "units", "sheet-language" };
static const char *const choice_labels[N_CHOICES] = { N_ ("Practice"), N_ ("Box"),
                                                      N_ ("Units of the sheet"),
                                                      N_ ("Language of the sheet") };

struct _TlJointForm
{
  GtkWidget parent_instance;

  TlDocument  *document;
  GtkEntry    *entries[G_N_ELEMENTS (lines)];
  GtkDropDown *choices[N_CHOICES];
  gboolean     is_showing;
};

G_DEFINE_FINAL_TYPE (TlJointForm, tl_joint_form, GTK_TYPE_WIDGET)

static const char *
text_of (const TlJoint *joint, const char *what)
{
  const char *text = g_str_equal (what, "name")          ? joint->name
                     : g_str_equal (what, "place")       ? joint->place
                     : g_str_equal (what, "prepared-by") ? joint->prepared_by
                     : g_str_equal (what, "date")        ? joint->date
                     : g_str_equal (what, "practice")    ? joint->practice
                     : g_str_equal (what, "box")         ? joint->box
                     : g_str_equal (what, "units")       ? joint->units
                                                         : joint->sheet_language;

  return text == NULL ? "" : text;
}

static void
set_text (TlJointForm *self, const char *what, const char *label, const char *value)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *done = g_strdup_printf (_ ("Set %s"), label);
  TlJoint         *after;

  if (g_str_equal (text_of (tl_document_joint (self->document), what), value))
    return;
  after = tl_edit_set_text (tl_document_joint (self->document), what, value, &error);
  if (after == NULL)
    tl_document_refuse (self->document, error->message);
  else
    tl_document_take (self->document, after, done, tl_document_selected (self->document), 0);
}

static void
commit_entry (TlJointForm *self, GtkEntry *entry)
{
  for (guint i = 0; i < G_N_ELEMENTS (lines) && self->document != NULL; i++)
    if (self->entries[i] == entry)
      set_text (self, lines[i].what, _ (lines[i].label),
                gtk_editable_get_text (GTK_EDITABLE (entry)));
}

static void
on_activate (GtkEntry *entry, TlJointForm *self)
{
  commit_entry (self, entry);
}

static void
on_leave (GtkEventControllerFocus *controller, TlJointForm *self)
{
  commit_entry (self,
                GTK_ENTRY (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller))));
}

static void
on_choice (GtkDropDown *choice, GParamSpec *pspec, TlJointForm *self)
{
  for (guint i = 0; i < N_CHOICES && !self->is_showing; i++)
    if (self->choices[i] == choice)
      set_text (self, choice_whats[i], _ (choice_labels[i]), tl_choice_id (choice));
}

static void
tl_joint_form_dispose (GObject *object)
{
  TlJointForm *self = TL_JOINT_FORM (object);

  g_clear_object (&self->document);
  tl_widget_clear (GTK_WIDGET (self));
  G_OBJECT_CLASS (tl_joint_form_parent_class)->dispose (object);
}

static void
tl_joint_form_class_init (TlJointFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_joint_form_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
tl_joint_form_init (TlJointForm *self)
{
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                              12);
}

/* "round, 60 × 40 mm"; three sizes are those of a rectangular one, and short enough not to widen the form. */
static char *
box_choice (const TlPart *box, const char *size, const TlLanguage *language)
{
  const char *shape = tl_facts_word (box->facts, TL_FIELD_SHAPE, "");

  if (!g_str_equal (shape, "round"))
    return g_strdup (size);
  /* Translators: shape and size of a box */
  return g_strdup_printf (
      _ ("%s, %s"), tl_language_text (language, tl_field_word_label (TL_FIELD_SHAPE, shape)), size);
}

void
tl_joint_form_boxes (const TlStock *stock, const TlLanguage *language, GStrv *texts, GStrv *ids)
{
  g_autoptr (GStrvBuilder) text = g_strv_builder_new (), id = g_strv_builder_new ();
  const GPtrArray *parts = tl_stock_parts (stock);

  g_strv_builder_add (text, _ ("choose"));
  g_strv_builder_add (id, "");
  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart    *part = g_ptr_array_index (parts, i);
      g_autofree char *size = NULL, *choice = NULL;

      if (part->kind != TL_PART_BOX)
        continue;
      size = part->size != NULL && *part->size != '\0'
                 ? g_strdup (part->size)
                 : tl_part_dimensions (part->kind, part->facts, language);
      choice = box_choice (part, size, language);
      g_strv_builder_add (text, choice);
      g_strv_builder_add (id, part->id);
    }
  *texts = g_strv_builder_end (text);
  *ids = g_strv_builder_end (id);
}

static void
add_choice (TlJointForm *self, guint which, const char *label, const char *const *texts,
            const char *const *ids)
{
  GtkWidget *choice = tl_choice_new (texts, ids);

  self->choices[which] = GTK_DROP_DOWN (choice);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_choice), self);
  gtk_widget_set_parent (tl_labelled_new (label, choice), GTK_WIDGET (self));
}

GtkWidget *
tl_joint_form_new (TlDocument *document)
{
  TlJointForm *self = g_object_new (TL_TYPE_JOINT_FORM, NULL);
  const char  *units[] = { _ ("metric"), _ ("customary"), NULL };
  const char  *unit_ids[] = { "metric", "customary", NULL };
  const char  *languages[] = { _ ("the reader's own"), "English", "Deutsch", "Français", NULL };
  const char  *language_ids[] = { "", "en", "de", "fr", NULL };
  g_auto (GStrv) boxes = NULL, box_ids = NULL;
  g_auto (GStrv) practices = tl_practice_choices (tl_document_language (document));

  self->document = g_object_ref (document);
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      GtkWidget          *entry = gtk_entry_new ();
      GtkEventController *focus = gtk_event_controller_focus_new ();

      self->entries[i] = GTK_ENTRY (entry);
      gtk_editable_set_width_chars (GTK_EDITABLE (entry), lines[i].chars);
      g_signal_connect (entry, "activate", G_CALLBACK (on_activate), self);
      g_signal_connect (focus, "leave", G_CALLBACK (on_leave), self);
      gtk_widget_add_controller (entry, focus);
      gtk_widget_set_parent (tl_labelled_new (_ (lines[i].label), entry), GTK_WIDGET (self));
    }
  self->is_showing = TRUE;
  tl_joint_form_boxes (tl_document_stock (document), tl_document_language (document), &boxes,
                       &box_ids);
  add_choice (self, PRACTICE, _ (choice_labels[PRACTICE]), (const char *const *) practices,
              tl_stock_practices (NULL));
  add_choice (self, BOX, _ (choice_labels[BOX]), (const char *const *) boxes,
              (const char *const *) box_ids);
  add_choice (self, UNITS, _ (choice_labels[UNITS]), units, unit_ids);
  add_choice (self, LANGUAGE, _ (choice_labels[LANGUAGE]), languages, language_ids);
  tl_joint_form_refresh (self);
  return GTK_WIDGET (self);
}

void
tl_joint_form_refresh (TlJointForm *self)
{
  const TlJoint *joint = tl_document_joint (self->document);

  self->is_showing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      const char *text = text_of (joint, lines[i].what);

      if (!g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (self->entries[i]))))
        gtk_editable_set_text (GTK_EDITABLE (self->entries[i]), text);
    }
  for (guint i = 0; i < N_CHOICES; i++)
    tl_choice_select (self->choices[i], text_of (joint, choice_whats[i]));
  self->is_showing = FALSE;
}
