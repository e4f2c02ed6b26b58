/* defect-choice.c: the catalogue of defects in a popover.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/defect-choice.h"

#include "app/labelled.h"
#include "app/mark-view.h"
#include "draw/picture-paint.h"

#include <glib/gi18n.h>

struct _TlDefectChoice
{
  GtkWidget parent_instance;

  TlDefects      *defects;
  TlLanguage     *language;
  GtkMenuButton  *button;
  GtkDropDown    *family;
  GtkSearchEntry *words;
  GtkListBox     *list; /* NULL until it was first opened */
  GtkLabel       *empty;
  GtkStack       *stack;
};

G_DEFINE_FINAL_TYPE (TlDefectChoice, tl_defect_choice, GTK_TYPE_WIDGET)

static guint chosen_signal;

static const char *const ID = "tl-defect";

static GtkWidget *
row_new (const TlDefect *defect, const TlLanguage *language)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8),
            *mark = tl_mark_view_new (14), *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1),
            *seen = gtk_label_new (tl_language_text (language, defect->seen)),
            *follows = gtk_label_new (tl_language_text (language, defect->follows));

  tl_mark_view_show_mark (TL_MARK_VIEW (mark), tl_picture_grade_mark (defect->grade));
  gtk_widget_set_valign (mark, GTK_ALIGN_START);
  gtk_label_set_wrap (GTK_LABEL (seen), TRUE);
  gtk_label_set_xalign (GTK_LABEL (seen), 0);
  gtk_label_set_wrap (GTK_LABEL (follows), TRUE);
  gtk_label_set_xalign (GTK_LABEL (follows), 0);
  gtk_widget_add_css_class (follows, "caption-text");
  gtk_box_append (GTK_BOX (texts), seen);
  if (*defect->follows != '\0')
    gtk_box_append (GTK_BOX (texts), follows);
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), texts);
  gtk_widget_set_margin_top (box, 4);
  gtk_widget_set_margin_bottom (box, 4);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  g_object_set_data_full (G_OBJECT (row), ID, g_strdup (defect->id), g_free);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  tl_language_text (language, defect->seen), -1);
  return row;
}

static void
show (TlDefectChoice *self)
{
  const char *family = tl_choice_id (self->family);
  const char *words = gtk_editable_get_text (GTK_EDITABLE (self->words));
  g_autoptr (GPtrArray) found =
      tl_defects_search (self->defects, *family == '\0' ? NULL : family, words, self->language);
  g_autofree char *none =
      g_strdup_printf (_ ("No defect is called “%s”. Write it in your own words."), words);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->list))) != NULL)
    gtk_list_box_remove (self->list, child);
  for (guint i = 0; i < found->len; i++)
    gtk_list_box_append (self->list, row_new (g_ptr_array_index (found, i), self->language));
  gtk_label_set_text (self->empty, none);
  gtk_stack_set_visible_child_name (self->stack, found->len == 0 ? "empty" : "list");
}

static void
on_family (TlDefectChoice *self)
{
  if (self->list != NULL)
    show (self);
}

static void
on_activated (GtkListBox *list, GtkListBoxRow *row, TlDefectChoice *self)
{
  g_autofree char *id = g_strdup (g_object_get_data (G_OBJECT (row), ID));

  gtk_menu_button_popdown (self->button);
  g_signal_emit (self, chosen_signal, 0, id);
}

/* From the search a key goes on to the list. */
static void
on_search_activate (GtkSearchEntry *entry, TlDefectChoice *self)
{
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (self->list, 0);

  if (first != NULL)
    on_activated (self->list, first, self);
}

static GtkWidget *
family_new (TlDefectChoice *self)
{
  const GPtrArray *families = tl_defects_families (self->defects);
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_auto (GStrv) text = NULL, id = NULL;

  g_strv_builder_add (texts, _ ("all kinds"));
  g_strv_builder_add (ids, "");
  for (guint i = 0; i < families->len; i++)
    {
      const TlDefectFamily *family = g_ptr_array_index (families, i);

      g_strv_builder_add (texts, tl_language_text (self->language, family->title));
      g_strv_builder_add (ids, family->id);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  return tl_choice_new ((const char *const *) text, (const char *const *) id);
}

static GtkWidget *
list_new (TlDefectChoice *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_BROWSE);
  g_signal_connect (self->list, "row-activated", G_CALLBACK (on_activated), self);
  self->empty = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->empty, TRUE);
  self->stack = GTK_STACK (gtk_stack_new ());
  gtk_stack_add_named (self->stack, GTK_WIDGET (self->list), "list");
  gtk_stack_add_named (self->stack, GTK_WIDGET (self->empty), "empty");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->stack));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_widget_set_size_request (scroller, 400, 340);
  return scroller;
}

static void
on_open (GtkMenuButton *button, TlDefectChoice *self)
{
  GtkWidget *popover, *box, *head;

  if (gtk_menu_button_get_popover (button) != NULL)
    return;
  popover = gtk_popover_new ();
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  self->words = GTK_SEARCH_ENTRY (gtk_search_entry_new ());
  g_object_set (self->words, "placeholder-text", _ ("Words of what is seen"), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->words), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Search the defects"), -1);
  gtk_widget_set_hexpand (GTK_WIDGET (self->words), TRUE);
  self->family = GTK_DROP_DOWN (family_new (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->family), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Kind of defect"), -1);
  gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->words));
  gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->family));
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), list_new (self));
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect_swapped (self->words, "search-changed", G_CALLBACK (show), self);
  g_signal_connect (self->words, "activate", G_CALLBACK (on_search_activate), self);
  g_signal_connect_swapped (self->family, "notify::selected", G_CALLBACK (on_family), self);
  gtk_menu_button_set_popover (button, popover);
  show (self);
}

/* The list has a hundred rows: it is made when somebody wants it. */
static void
on_create (GtkMenuButton *button, gpointer data)
{
  on_open (button, data);
}

static void
tl_defect_choice_dispose (GObject *object)
{
  TlDefectChoice *self = TL_DEFECT_CHOICE (object);

  self->list = NULL;
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->defects, tl_defects_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  G_OBJECT_CLASS (tl_defect_choice_parent_class)->dispose (object);
}

static void
tl_defect_choice_class_init (TlDefectChoiceClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_defect_choice_dispose;
  chosen_signal = g_signal_new ("chosen", TL_TYPE_DEFECT_CHOICE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_defect_choice_init (TlDefectChoice *self)
{
}

GtkWidget *
tl_defect_choice_new (const TlDefects *defects, const TlLanguage *language)
{
  TlDefectChoice *self = g_object_new (TL_TYPE_DEFECT_CHOICE, NULL);

  self->defects = tl_defects_ref ((TlDefects *) defects);
  self->language = tl_language_ref (language);
  self->button = GTK_MENU_BUTTON (gtk_menu_button_new ());
  gtk_menu_button_set_label (self->button, _ ("Defect from the list…"));
  gtk_menu_button_set_create_popup_func (self->button, on_create, self, NULL);
  gtk_widget_add_css_class (GTK_WIDGET (self->button), "chart-tool");
  gtk_widget_set_parent (GTK_WIDGET (self->button), GTK_WIDGET (self));
  return GTK_WIDGET (self);
}

void
tl_defect_choice_search (TlDefectChoice *self, const char *family, const char *words)
{
  on_open (self->button, self);
  tl_choice_select (self->family, family);
  gtk_editable_set_text (GTK_EDITABLE (self->words), words);
  show (self);
}

guint
tl_defect_choice_shown (TlDefectChoice *self)
{
  guint n = 0;

  while (self->list != NULL && gtk_list_box_get_row_at_index (self->list, (int) n) != NULL)
    n++;
  return n;
}
