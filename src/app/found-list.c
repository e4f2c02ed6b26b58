/* found-list.c: as designed beside as found, figure by figure.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/found-list.h"

#include "app/labelled.h"
#include "app/mark-view.h"
#include "app/record-lines.h"
#include "base/quantity.h"

#include <glib/gi18n.h>
#include <string.h>

struct _TlFoundList
{
  GtkWidget parent_instance;

  TlInspector  *inspector;
  GtkBox       *box;
  GtkListBox   *list;
  GtkLabel     *empty;
  GtkWidget    *add;
  TlRecordForm *form;
  TlFound      *next; /* what the form holds */
  GtkExpander  *unchecked;
  GtkLabel     *unchecked_text;
};

G_DEFINE_FINAL_TYPE (TlFoundList, tl_found_list, GTK_TYPE_WIDGET)

static const char *const KEY = "tl-found";

static GtkWidget *
text_new (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 36);
  gtk_widget_set_hexpand (label, TRUE);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

static void
attach_pair (GtkGrid *grid, int column, const char *label, const char *value)
{
  gtk_grid_attach (grid, text_new (label, "label-text"), column, 1, 1, 1);
  gtk_grid_attach (grid, text_new (value, "figure-words"), column, 2, 1, 1);
}

static void
on_remove (GtkButton *button, TlFoundList *self)
{
  const char         *key = g_object_get_data (G_OBJECT (button), KEY);
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);
  g_auto (GStrv) words = g_strsplit (key, " ", 2);
  g_autoptr (GError) error = NULL;

  if (inspection != NULL
      && !tl_inspector_take (
          self->inspector,
          tl_inspections_remove_found (tl_inspector_inspections (self->inspector), inspection->id,
                                       words[0], words[1], &error),
          NULL, _ ("Remove a found value"), 0))
    tl_document_refuse (tl_inspector_document (self->inspector), error->message);
}

static TlMark
mark_of (const TlFoundRow *row)
{
  return row->error != NULL                    ? TL_MARK_NOT_COMPUTED
         : row->decision == TL_DECISION_WITHIN ? TL_MARK_SOUND
         : row->decision == TL_DECISION_BEYOND ? TL_MARK_CHANGE
                                               : TL_MARK_NOT_COMPUTED;
}

static GtkWidget *
row_new (TlFoundList *self, const TlAsFound *as_found, const TlFoundRow *row)
{
  TlDocument       *document = tl_inspector_document (self->inspector);
  const TlStock    *stock = tl_document_effective_stock (document);
  const TlLanguage *language = tl_document_language (document);
  g_autofree char  *owner = tl_owner_text (as_found->designed, row->found->owner, stock, language),
                  *design = tl_found_row_design_text (row, stock, language),
                  *value = tl_found_row_value_text (row, stock, language), *name = NULL,
                  *spoken = NULL;
  const char *decision = row->error != NULL
                             ? _ ("not used")
                             : tl_language_text (language, tl_decision_word (row->decision));
  GtkWidget  *whole = gtk_list_box_row_new (), *grid = gtk_grid_new (),
            *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 7), *mark = tl_mark_view_new (15),
            *remove =
                tl_icon_button_new ("tinlap-remove-symbolic", _ ("Remove this found value"), NULL);

  name = g_strdup_printf ("%s: %s", owner,
                          tl_language_text (language, tl_field_info (row->field)->label));
  spoken = g_strdup_printf (_ ("%s. Designed %s, found %s: %s"), name, design, value, decision);
  tl_mark_view_show_mark (TL_MARK_VIEW (mark), mark_of (row));
  gtk_box_append (GTK_BOX (head), mark);
  gtk_box_append (GTK_BOX (head), text_new (name, "name-bold"));
  gtk_widget_set_valign (remove, GTK_ALIGN_START);
  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_sensitive (remove, tl_inspector_is_open (self->inspector));
  g_object_set_data_full (G_OBJECT (remove), KEY,
                          g_strconcat (row->found->owner, " ", row->found->field, NULL), g_free);
  g_signal_connect_object (remove, "clicked", G_CALLBACK (on_remove), self, 0);
  gtk_box_append (GTK_BOX (head), remove);
  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 2);
  gtk_grid_attach (GTK_GRID (grid), head, 0, 0, 3, 1);
  attach_pair (GTK_GRID (grid), 0, _ ("as designed"), design);
  attach_pair (GTK_GRID (grid), 1, _ ("as found"), value);
  attach_pair (GTK_GRID (grid), 2, _ ("it is"), decision);
  if (row->error != NULL)
    gtk_grid_attach (GTK_GRID (grid), text_new (row->error, "error-text"), 0, 3, 3, 1);
  gtk_widget_set_margin_start (grid, 10);
  gtk_widget_set_margin_end (grid, 6);
  gtk_widget_set_margin_top (grid, 6);
  gtk_widget_set_margin_bottom (grid, 7);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (whole), grid);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (whole), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (whole), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                  -1);
  return whole;
}

static void
show_unchecked (TlFoundList *self, const TlAsFound *as_found)
{
  TlDocument *document = tl_inspector_document (self->inspector);
  GString    *text = g_string_new (NULL);

  for (guint i = 0; as_found != NULL && i < as_found->unchecked->len; i++)
    {
      g_autofree char *line = tl_unchecked_text (
          g_ptr_array_index (as_found->unchecked, i), as_found->designed,
          tl_document_effective_stock (document), tl_document_language (document));

      g_string_append_printf (text, "%s%s", i == 0 ? "" : "\n", line);
    }
  gtk_label_set_text (self->unchecked_text, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->unchecked), text->len > 0);
  g_string_free (text, TRUE);
}

void
tl_found_list_refresh (TlFoundList *self)
{
  const TlAsFound *as_found = tl_inspector_as_found (self->inspector);
  GtkListBoxRow   *row;
  gboolean         is_open = tl_inspector_is_open (self->inspector);

  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; as_found != NULL && i < as_found->rows->len; i++)
    gtk_list_box_append (self->list,
                         row_new (self, as_found, g_ptr_array_index (as_found->rows, i)));
  row = gtk_list_box_get_row_at_index (self->list, 0);
  gtk_widget_set_visible (GTK_WIDGET (self->list), row != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->empty), row == NULL);
  gtk_widget_set_sensitive (self->add, is_open && as_found != NULL);
  show_unchecked (self, as_found);
  tl_record_form_show (self->form, self->next, is_open);
  tl_record_lines_fill (self->form, self->inspector, self->next);
  if (*self->next->owner != '\0')
    {
      g_autofree char *id = g_strconcat (self->next->owner, " ", self->next->field, NULL);

      tl_choice_select (GTK_DROP_DOWN (tl_record_form_input (self->form, TL_LINE_CHECKS)), id);
    }
}

/* --- one found by other means --- */

static void
on_edited (TlRecordForm *form, const char *slot, const char *text, TlFoundList *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *line = g_strdup (slot);

  if (strcmp (slot, TL_LINE_CHECKS) == 0)
    {
      g_auto (GStrv) words = g_strsplit (text, " ", 2);

      tl_record_text (&self->next->owner, words[0] == NULL ? "" : words[0]);
      tl_record_text (&self->next->field, words[0] == NULL || words[1] == NULL ? "" : words[1]);
    }
  else
    {
      TlField field;

      /* Typed in any unit of the fact, kept in its own. */
      if (strcmp (slot, "value") == 0 && *text != '\0'
          && tl_field_from_key (self->next->field, &field) && tl_field_info (field)->unit != NULL)
        {
          double value;

          if (tl_quantity_parse (text, tl_field_info (field)->unit, &value, &error))
            self->next->value = value;
        }
      else
        tl_record_form_apply (form, self->next, slot, text, &error);
    }
  if (error != NULL)
    tl_record_form_refuse (form, line, error->message);
  else
    tl_record_form_show (form, self->next, TRUE);
}

void
tl_found_list_add (TlFoundList *self)
{
  g_autoptr (GError) error = NULL;

  if (*self->next->owner == '\0')
    {
      tl_document_refuse (tl_inspector_document (self->inspector),
                          _ ("Choose the fact of the design that was checked."));
      return;
    }
  if (!tl_inspector_put (self->inspector, self->next, _ ("Add a found value"), 0, &error))
    {
      tl_document_refuse (tl_inspector_document (self->inspector), error->message);
      return;
    }
  tl_record_unref (self->next);
  self->next = tl_record_new (&tl_found_form);
  tl_found_list_refresh (self);
}

/* --- widget --- */

static void
tl_found_list_dispose (GObject *object)
{
  TlFoundList *self = TL_FOUND_LIST (object);

  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->inspector);
  g_clear_pointer (&self->next, tl_record_unref);
  G_OBJECT_CLASS (tl_found_list_parent_class)->dispose (object);
}

static void
tl_found_list_class_init (TlFoundListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_found_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_found_list_init (TlFoundList *self)
{
  self->next = tl_record_new (&tl_found_form);
  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 8));
  gtk_widget_set_parent (GTK_WIDGET (self->box), GTK_WIDGET (self));
}

void
tl_found_list_set_inspector (TlFoundList *self, TlInspector *inspector)
{
  GtkWidget *heading = text_new (_ ("Found by other means"), "pane-title");

  self->inspector = g_object_ref (inspector);
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_NONE);
  gtk_box_append (self->box, GTK_WIDGET (self->list));
  self->empty = GTK_LABEL (text_new (
      _ ("Nothing of the design was checked yet. Tie a measure to a figure of the design, or enter "
         "what was found by caliper or by eye."),
      "muted"));
  gtk_box_append (self->box, GTK_WIDGET (self->empty));
  self->unchecked = GTK_EXPANDER (gtk_expander_new (_ ("Assumed as designed")));
  self->unchecked_text = GTK_LABEL (text_new ("", "caption-text"));
  gtk_expander_set_child (self->unchecked, GTK_WIDGET (self->unchecked_text));
  gtk_box_append (self->box, GTK_WIDGET (self->unchecked));
  gtk_box_append (self->box, heading);
  self->form = TL_RECORD_FORM (tl_record_form_new (
      tl_record_lines_found (), tl_document_language (tl_inspector_document (inspector))));
  g_signal_connect_object (self->form, "edited", G_CALLBACK (on_edited), self, 0);
  gtk_box_append (self->box, GTK_WIDGET (self->form));
  self->add = gtk_button_new_with_label (_ ("Add found value"));
  gtk_widget_add_css_class (self->add, "plain");
  gtk_widget_set_halign (self->add, GTK_ALIGN_START);
  g_signal_connect_swapped (self->add, "clicked", G_CALLBACK (tl_found_list_add), self);
  gtk_box_append (self->box, self->add);
  tl_found_list_refresh (self);
}

TlRecordForm *
tl_found_list_new_form (TlFoundList *self)
{
  return self->form;
}
