/* fact-entry.c: one fact as an entry or a list of words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/fact-entry.h"

#include "app/labelled.h"
#include "app/known-by.h"
#include "app/owner-facts.h"
#include "base/quantity.h"

#include <glib/gi18n.h>

struct _TlFactEntry
{
  GtkWidget parent_instance;

  TlDocument       *document;
  char             *owner;
  TlField           field;
  GtkLabel         *label;
  GtkText          *text; /* a number */
  GtkWidget        *text_box;
  GtkLabel         *unit;
  GtkDropDown      *words;    /* a word */
  const TlLanguage *language; /* of @words, only compared */
  GStrv             ids;      /* of @words; "" for nothing chosen yet */
  GtkLabel         *wrong;    /* what is wrong with the entry */
  TlKnownByButton  *known;
  guint             going_on;   /* idle, 0 none */
  gboolean          is_showing; /* the document speaks, not the person */
};

G_DEFINE_FINAL_TYPE (TlFactEntry, tl_fact_entry, GTK_TYPE_WIDGET)

static void
show_error (TlFactEntry *self, const char *message)
{
  gtk_label_set_text (self->wrong, message == NULL ? "" : message);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->wrong), message);
  gtk_widget_set_visible (GTK_WIDGET (self->wrong), message != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->known), message == NULL);
  if (self->text == NULL)
    return;
  if (message != NULL)
    gtk_widget_add_css_class (self->text_box, "error");
  else
    gtk_widget_remove_css_class (self->text_box, "error");
  gtk_accessible_update_state (
      GTK_ACCESSIBLE (self->text), GTK_ACCESSIBLE_STATE_INVALID,
      message == NULL ? GTK_ACCESSIBLE_INVALID_FALSE : GTK_ACCESSIBLE_INVALID_TRUE, -1);
}

static char *
fact_text (TlFactEntry *self, const TlFact *fact)
{
  return tl_fact_entry_text (fact, tl_document_language (self->document));
}

static void
take (TlFactEntry *self, const TlFact *fact)
{
  g_autoptr (GError) error = NULL;
  const char *label =
      tl_language_text (tl_document_language (self->document), tl_field_info (self->field)->label);
  g_autofree char *done = g_strdup_printf (_ ("Set %s"), label);
  TlJoint *after = tl_edit_set_fact (tl_document_joint (self->document), self->owner, fact, &error);

  if (after == NULL)
    {
      show_error (self, error->message);
      return;
    }
  show_error (self, NULL);
  tl_document_take (self->document, after, done, tl_document_selected (self->document), 0);
}

/* The entry is read only where its text is another than the one shown. */
static void
commit_text (TlFactEntry *self)
{
  const TlFact    *now = tl_owner_fact (self->document, self->owner, self->field);
  g_autofree char *shown = fact_text (self, now);
  g_autofree char *typed =
      g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->text))));
  g_autoptr (GError) error = NULL;
  TlFact           fact = { .field = self->field };
  g_autofree char *word = NULL;

  if (g_str_equal (typed, shown))
    {
      show_error (self, NULL);
      return;
    }
  if (*typed == '\0')
    {
      TlJoint *after =
          tl_edit_unset_fact (tl_document_joint (self->document), self->owner, self->field, NULL);

      show_error (self, NULL);
      tl_document_take (self->document, after, _ ("Take back a figure"),
                        tl_document_selected (self->document), 0);
      tl_fact_entry_refresh (self);
      return;
    }
  if (!tl_fact_parse (self->field, typed, &fact, &error) || !tl_fact_check (&fact, &error))
    {
      word = fact.word;
      show_error (self, error->message);
      return;
    }
  word = fact.word;
  fact.known_by = TL_KNOWN_STATED;
  take (self, &fact);
}

/* If Findings asked for this fact, the next one is asked for; the entry may be gone then. */
static void
go_on (TlFactEntry *self)
{
  if (!gtk_widget_get_visible (GTK_WIDGET (self->wrong))
      && tl_owner_fact (self->document, self->owner, self->field) != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "build.go-on", "(su)", self->owner,
                                (guint) self->field);
}

static void
on_activate (GtkText *text, TlFactEntry *self)
{
  g_object_ref (self);
  commit_text (self);
  tl_fact_entry_refresh (self);
  go_on (self);
  g_object_unref (self);
}

static void
on_focus (GtkText *text, GParamSpec *pspec, TlFactEntry *self)
{
  if (!gtk_widget_has_focus (GTK_WIDGET (text)) && self->document != NULL)
    {
      commit_text (self);
      tl_fact_entry_refresh (self);
    }
}

static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        TlFactEntry *self)
{
  g_autofree char *shown = NULL;

  if (key != GDK_KEY_Escape)
    return FALSE;
  shown = fact_text (self, tl_owner_fact (self->document, self->owner, self->field));
  gtk_editable_set_text (GTK_EDITABLE (self->text), shown);
  show_error (self, NULL);
  return TRUE;
}

/* Once the list of words has closed and given the keyboard back. */
static gboolean
on_chosen (gpointer data)
{
  TlFactEntry *self = data;

  self->going_on = 0;
  tl_fact_entry_refresh (self);
  go_on (self);
  return G_SOURCE_REMOVE;
}

static void
on_word (GtkDropDown *words, GParamSpec *pspec, TlFactEntry *self)
{
  guint  selected = gtk_drop_down_get_selected (words);
  TlFact fact = { .field = self->field, .known_by = TL_KNOWN_STATED };

  if (self->is_showing || selected == GTK_INVALID_LIST_POSITION || *self->ids[selected] == '\0')
    return;
  fact.word = self->ids[selected];
  if (self->going_on == 0)
    self->going_on = g_idle_add (on_chosen, self);
  take (self, &fact);
}

/* --- making --- */
static void
add_text (TlFactEntry *self, GtkWidget *box, const TlFieldInfo *info)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->text_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  gtk_widget_add_css_class (self->text_box, "fact-box");
  self->text = GTK_TEXT (gtk_text_new ());
  gtk_editable_set_width_chars (GTK_EDITABLE (self->text), 6);
  gtk_widget_set_hexpand (GTK_WIDGET (self->text), TRUE);
  self->unit = GTK_LABEL (gtk_label_new (tl_unit_label (info->unit)));
  gtk_widget_add_css_class (GTK_WIDGET (self->unit), "caption-text");
  gtk_box_append (GTK_BOX (self->text_box), GTK_WIDGET (self->text));
  gtk_box_append (GTK_BOX (self->text_box), GTK_WIDGET (self->unit));
  gtk_box_append (GTK_BOX (box), self->text_box);
  g_signal_connect (self->text, "activate", G_CALLBACK (on_activate), self);
  g_signal_connect (self->text, "notify::has-focus", G_CALLBACK (on_focus), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self->text), keys);
}

static void
fill_words (TlFactEntry *self, const TlFieldInfo *info)
{
  const TlFact *fact = tl_owner_fact (self->document, self->owner, self->field);
  g_auto (GStrv) words = info->kind == TL_FIELD_KIND_ID
                             ? tl_owner_material_ids (self->document, self->owner, self->field)
                             : g_strdupv ((char **) info->words);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) ids = NULL;
  guint selected = 0;

  if (fact == NULL)
    g_strv_builder_add (builder, "");
  g_strv_builder_addv (builder, (const char **) words);
  ids = g_strv_builder_end (builder);
  for (guint i = 0; ids[i] != NULL; i++)
    if (fact != NULL && g_strcmp0 (fact->word, ids[i]) == 0)
      selected = i;
  /* The same choices stay as they are: the list may be open. */
  if (self->ids == NULL
      || !g_strv_equal ((const char *const *) ids, (const char *const *) self->ids)
      || self->language != tl_document_language (self->document))
    {
      g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);

      self->language = tl_document_language (self->document);
      for (guint i = 0; ids[i] != NULL; i++)
        gtk_string_list_append (list,
                                tl_word_choice_label (tl_document_effective_stock (self->document),
                                                      self->language, self->field, ids[i]));
      g_strfreev (self->ids);
      self->ids = g_steal_pointer (&ids);
      gtk_drop_down_set_model (self->words, G_LIST_MODEL (list));
    }
  if (gtk_drop_down_get_selected (self->words) != selected)
    gtk_drop_down_set_selected (self->words, selected);
}

static void
tl_fact_entry_dispose (GObject *object)
{
  TlFactEntry *self = TL_FACT_ENTRY (object);

  if (self->text != NULL)
    g_signal_handlers_disconnect_by_data (self->text, self);
  g_clear_handle_id (&self->going_on, g_source_remove);
  g_clear_object (&self->document);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->owner, g_free);
  g_clear_pointer (&self->ids, g_strfreev);
  G_OBJECT_CLASS (tl_fact_entry_parent_class)->dispose (object);
}

static gboolean
tl_fact_entry_grab_focus (GtkWidget *widget)
{
  TlFactEntry *self = TL_FACT_ENTRY (widget);

  return gtk_widget_grab_focus (self->text != NULL ? GTK_WIDGET (self->text)
                                                   : GTK_WIDGET (self->words));
}

static void
tl_fact_entry_class_init (TlFactEntryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_fact_entry_dispose;
  widget_class->grab_focus = tl_fact_entry_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
tl_fact_entry_init (TlFactEntry *self)
{
}

GtkWidget *
tl_fact_entry_new (TlDocument *document, const char *owner, TlField field)
{
  TlFactEntry       *self = g_object_new (TL_TYPE_FACT_ENTRY, NULL);
  const TlFieldInfo *info = tl_field_info (field);
  const char        *label = tl_language_text (tl_document_language (document), info->label);
  GtkWidget         *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3), *input;

  self->document = g_object_ref (document);
  self->owner = g_strdup (owner);
  self->field = field;
  self->label = GTK_LABEL (gtk_label_new (label));
  gtk_label_set_xalign (self->label, 0);
  gtk_label_set_ellipsize (self->label, PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (self->label, 24);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->label), label);
  gtk_widget_add_css_class (GTK_WIDGET (self->label), "label-text");
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->label));
  if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
    add_text (self, box, info);
  else
    {
      self->words = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
      gtk_widget_set_size_request (GTK_WIDGET (self->words), 100, -1);
      gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->words));
      g_signal_connect (self->words, "notify::selected", G_CALLBACK (on_word), self);
    }
  input = self->text != NULL ? GTK_WIDGET (self->text) : GTK_WIDGET (self->words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (input), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  self->known = TL_KNOWN_BY (tl_known_by_new (document, owner, field));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->known));
  self->wrong = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->wrong, 0);
  gtk_label_set_ellipsize (self->wrong, PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (self->wrong, 18);
  gtk_widget_add_css_class (GTK_WIDGET (self->wrong), "error-text");
  gtk_widget_set_visible (GTK_WIDGET (self->wrong), FALSE);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->wrong));
  gtk_widget_set_parent (box, GTK_WIDGET (self));
  tl_fact_entry_refresh (self);
  return GTK_WIDGET (self);
}

TlField
tl_fact_entry_field (TlFactEntry *self)
{
  return self->field;
}

void
tl_fact_entry_refresh (TlFactEntry *self)
{
  const TlFact *fact = tl_owner_fact (self->document, self->owner, self->field);
  gboolean      is_wrong = gtk_widget_get_visible (GTK_WIDGET (self->wrong));

  self->is_showing = TRUE;
  if (self->text != NULL && !is_wrong)
    {
      g_autofree char *text = fact_text (self, fact);

      if (!g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (self->text))))
        gtk_editable_set_text (GTK_EDITABLE (self->text), text);
    }
  else if (self->words != NULL && self->going_on == 0)
    fill_words (self, tl_field_info (self->field));
  self->is_showing = FALSE;
  tl_known_by_refresh (self->known);
}
