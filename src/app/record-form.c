/* record-form.c: a form made from a table.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/record-form.h"

#include "app/figure-entry.h"
#include "app/labelled.h"
#include "base/quantity.h"

#include <glib/gi18n.h>
#include <string.h>

struct _TlRecordForm
{
  GtkWidget parent_instance;

  const TlRecordLine *lines;
  guint               n_lines;
  TlLanguage         *language;
  GtkWidget         **inputs; /* (array length=n_lines) */
  gboolean            is_showing;
};

G_DEFINE_FINAL_TYPE (TlRecordForm, tl_record_form, GTK_TYPE_WIDGET)

static guint edited_signal;

static const char *const LINE = "tl-line";
static const char *const SHOWN = "tl-shown";
static const int         LONG_HEIGHT = 46; /* px: three lines */

static const TlRecordLine *
line_of (gpointer input)
{
  return g_object_get_data (G_OBJECT (input), LINE);
}

static const TlSlot *
slot_of (const TlForm *form, const char *name)
{
  for (const TlSlot *slot = form->slots; slot->name != NULL; slot++)
    if (strcmp (slot->name, name) == 0)
      return slot;
  return NULL;
}

static void
edited (TlRecordForm *self, gpointer input, const char *text)
{
  if (!self->is_showing)
    g_signal_emit (self, edited_signal, 0, line_of (input)->slot, text);
}

/* --- numbers as people read them --- */

static char *
number_text (double value, const TlLanguage *language)
{
  g_autofree char *plain = tl_number_to_text (value), *mark = tl_language_number (language, 0.5, 1);
  g_autofree char *point = g_utf8_substring (mark, 1, 2);
  g_auto (GStrv) halves = g_strsplit (plain, ".", 2);

  return g_strjoinv (point, halves);
}

static const char *
known_unit (const TlRecordLine *line)
{
  return line->unit != NULL && tl_unit_is_known (line->unit) ? line->unit : "1";
}

static char *
numbers_text (const GArray *numbers, const TlLanguage *language)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < numbers->len; i++)
    {
      g_autofree char *one = number_text (g_array_index (numbers, double, i), language);

      g_string_append_printf (text, "%s%s", i == 0 ? "" : "; ", one);
    }
  return g_string_free (text, FALSE);
}

static char *
slot_text (const TlRecordLine *line, const TlSlot *slot, gconstpointer record,
           const TlLanguage *language)
{
  gconstpointer at = G_STRUCT_MEMBER_P (record, slot->offset);

  switch (slot->kind)
    {
    case TL_SLOT_TEXT:
      return g_strdup (*(char *const *) at);
    case TL_SLOT_NUMBER:
      if (*(const double *) at == 0.0 && line->kind == TL_LINE_NUMBER)
        return g_strdup ("");
      return number_text (*(const double *) at, language);
    case TL_SLOT_COUNT:
      return g_strdup_printf ("%u", *(const guint *) at);
    case TL_SLOT_FLAG:
      return g_strdup (*(const gboolean *) at ? "yes" : "no");
    case TL_SLOT_WORD:
      return g_strdup (slot->words[*(const int *) at]);
    case TL_SLOT_NUMBERS:
      return numbers_text (*(GArray *const *) at, language);
    case TL_SLOT_POINTS:
    default:
      return g_strdup ("");
    }
}

/* --- applying --- */

static gboolean
apply_numbers (const TlRecordLine *line, GArray *numbers, const char *text, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);

  g_array_set_size (numbers, 0);
  for (guint i = 0; parts[i] != NULL; i++)
    {
      double value;

      if (*g_strstrip (parts[i]) == '\0')
        continue;
      if (!tl_quantity_parse (parts[i], known_unit (line), &value, error))
        return FALSE;
      g_array_append_val (numbers, value);
    }
  return TRUE;
}

gboolean
tl_record_form_apply (TlRecordForm *self, gpointer record, const char *name, const char *text,
                      GError **error)
{
  const TlForm       *form = ((const TlRecord *) record)->form;
  const TlSlot       *slot = slot_of (form, name);
  const TlRecordLine *line = NULL;
  gpointer            at;
  double              value = 0.0;

  for (guint i = 0; i < self->n_lines; i++)
    if (strcmp (self->lines[i].slot, name) == 0)
      line = &self->lines[i];
  g_return_val_if_fail (slot != NULL && line != NULL, FALSE);
  at = G_STRUCT_MEMBER_P (record, slot->offset);
  switch (slot->kind)
    {
    case TL_SLOT_TEXT:
      tl_record_text (at, text);
      return TRUE;
    case TL_SLOT_NUMBER:
      if (*text != '\0' && !tl_quantity_parse (text, known_unit (line), &value, error))
        return FALSE;
      if (value < slot->low || value > slot->high)
        {
          g_autofree char *low = number_text (slot->low, self->language),
                          *high = number_text (slot->high, self->language);

          g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("From %s to %s."), low, high);
          return FALSE;
        }
      *(double *) at = value;
      return TRUE;
    case TL_SLOT_NUMBERS:
      return apply_numbers (line, *(GArray **) at, text, error);
    case TL_SLOT_FLAG:
      *(gboolean *) at = strcmp (text, "yes") == 0;
      return TRUE;
    case TL_SLOT_WORD:
      for (int i = 0; slot->words[i] != NULL; i++)
        if (strcmp (slot->words[i], text) == 0)
          *(int *) at = i;
      return TRUE;
    case TL_SLOT_COUNT:
    case TL_SLOT_POINTS:
    default:
      g_return_val_if_reached (FALSE);
    }
}

/* --- inputs --- */

static void
on_entered (GtkWidget *entry, const char *text, TlRecordForm *self)
{
  edited (self, entry, text);
}

static void
on_chosen (GtkDropDown *choice, GParamSpec *pspec, TlRecordForm *self)
{
  edited (self, choice, tl_choice_id (choice));
}

static void
on_flag (GtkCheckButton *button, TlRecordForm *self)
{
  edited (self, button, gtk_check_button_get_active (button) ? "yes" : "no");
}

static char *
long_text (GtkTextView *view)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (view);
  GtkTextIter    start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

static void
on_long_left (GtkEventControllerFocus *controller, TlRecordForm *self)
{
  GtkWidget       *view = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  g_autofree char *text = long_text (GTK_TEXT_VIEW (view));

  if (g_strcmp0 (text, g_object_get_data (G_OBJECT (view), SHOWN)) == 0)
    return;
  g_object_set_data_full (G_OBJECT (view), SHOWN, g_strdup (text), g_free);
  edited (self, view, text);
}

static GtkWidget *
long_input (TlRecordForm *self, const TlRecordLine *line, GtkWidget **input)
{
  GtkWidget          *view = gtk_text_view_new (), *frame = gtk_scrolled_window_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (view), 3);
  gtk_text_view_set_bottom_margin (GTK_TEXT_VIEW (view), 3);
  gtk_widget_add_css_class (view, "long-text");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (frame), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (frame), LONG_HEIGHT);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (frame), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (frame), 3 * LONG_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (frame), view);
  gtk_widget_add_css_class (frame, "fact-box");
  g_signal_connect (focus, "leave", G_CALLBACK (on_long_left), self);
  gtk_widget_add_controller (view, focus);
  *input = view;
  frame = tl_labelled_new (_ (line->label), frame);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (line->label), -1);
  return frame;
}

static GtkWidget *
choice_input (TlRecordForm *self, const TlRecordLine *line, GtkWidget **input)
{
  const char *none[] = { NULL };

  *input = tl_choice_new (none, none);
  tl_choice_narrow (GTK_DROP_DOWN (*input));
  g_signal_connect (*input, "notify::selected", G_CALLBACK (on_chosen), self);
  return tl_labelled_new (_ (line->label), *input);
}

static GtkWidget *
input_new (TlRecordForm *self, const TlRecordLine *line, GtkWidget **input)
{
  GtkWidget *whole;

  switch (line->kind)
    {
    case TL_LINE_LONG:
      whole = long_input (self, line, input);
      break;
    case TL_LINE_CHOICE:
    case TL_LINE_LIST:
      whole = choice_input (self, line, input);
      break;
    case TL_LINE_FLAG:
      whole = *input = gtk_check_button_new_with_label (_ (line->label));
      gtk_widget_set_valign (whole, GTK_ALIGN_END);
      g_signal_connect (*input, "toggled", G_CALLBACK (on_flag), self);
      break;
    case TL_LINE_TEXT:
    case TL_LINE_SHORT:
    case TL_LINE_NUMBER:
    case TL_LINE_ZERO:
    case TL_LINE_NUMBERS:
    default:
      whole = *input = tl_figure_entry_new (
          _ (line->label), line->unit == NULL ? "" : tl_unit_label (line->unit), 6);
      g_signal_connect (*input, "entered", G_CALLBACK (on_entered), self);
      break;
    }
  g_object_set_data (G_OBJECT (*input), LINE, (gpointer) line);
  return whole;
}

/* A label never makes the form wider: it is cut short, and the tooltip has all of it. */
static void
narrow_labels (GtkWidget *whole, const char *text)
{
  for (GtkWidget *child = gtk_widget_get_first_child (whole); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      if (GTK_IS_LABEL (child) && g_str_equal (gtk_label_get_text (GTK_LABEL (child)), text))
        {
          gtk_label_set_ellipsize (GTK_LABEL (child), PANGO_ELLIPSIZE_END);
          gtk_widget_set_tooltip_text (child, text);
        }
      narrow_labels (child, text);
    }
}

/* Figures stand two in a row, texts take the whole width. */
static gboolean
is_wide (const TlRecordLine *line)
{
  return line->kind == TL_LINE_TEXT || line->kind == TL_LINE_LONG || line->kind == TL_LINE_LIST
         || line->kind == TL_LINE_NUMBERS;
}

static void
fill (TlRecordForm *self)
{
  GtkWidget *grid = gtk_grid_new ();
  int        row = 0, column = 0;

  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  for (guint i = 0; i < self->n_lines; i++)
    {
      const TlRecordLine *line = &self->lines[i];
      GtkWidget          *whole = input_new (self, line, &self->inputs[i]);

      narrow_labels (whole, _ (line->label));
      gtk_widget_set_hexpand (whole, TRUE);
      if (is_wide (line) && column == 1)
        {
          row++;
          column = 0;
        }
      gtk_grid_attach (GTK_GRID (grid), whole, column, row, is_wide (line) ? 2 : 1, 1);
      if (is_wide (line) || column == 1)
        {
          row++;
          column = 0;
        }
      else
        column = 1;
    }
  gtk_widget_set_parent (grid, GTK_WIDGET (self));
}

/* --- showing --- */

static void
show_choice (TlRecordForm *self, GtkDropDown *choice, const TlRecordLine *line, const TlSlot *slot,
             const char *text)
{
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new ();
  g_auto (GStrv) labels = NULL;

  if (tl_choice_ids (choice)[0] == NULL)
    {
      for (guint i = 0; slot->words[i] != NULL; i++)
        g_strv_builder_add (texts, tl_language_text (self->language, line->word (i)));
      labels = g_strv_builder_end (texts);
      tl_choice_fill (choice, (const char *const *) labels, slot->words);
    }
  tl_choice_select (choice, text);
}

static void
show_long (GtkTextView *view, const char *text)
{
  g_autofree char *now = long_text (view);
  const char      *before = g_object_get_data (G_OBJECT (view), SHOWN);

  /* What is being typed stays. */
  if (gtk_widget_has_focus (GTK_WIDGET (view)) && g_strcmp0 (before, text) == 0)
    return;
  g_object_set_data_full (G_OBJECT (view), SHOWN, g_strdup (text), g_free);
  if (strcmp (now, text) != 0)
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (view), text, -1);
}

static void
show_line (TlRecordForm *self, guint index, gconstpointer record, gboolean is_editable)
{
  const TlRecordLine *line = &self->lines[index];
  const TlSlot       *slot = slot_of (((const TlRecord *) record)->form, line->slot);
  GtkWidget          *input = self->inputs[index];
  g_autofree char    *text = slot == NULL ? NULL : slot_text (line, slot, record, self->language);

  if (!TL_IS_FIGURE_ENTRY (input) && !GTK_IS_TEXT_VIEW (input))
    gtk_widget_set_sensitive (input, is_editable);
  if (text == NULL || line->kind == TL_LINE_LIST)
    return;
  if (line->kind == TL_LINE_CHOICE)
    show_choice (self, GTK_DROP_DOWN (input), line, slot, text);
  else if (line->kind == TL_LINE_FLAG)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (input), strcmp (text, "yes") == 0);
  else if (line->kind == TL_LINE_LONG)
    {
      show_long (GTK_TEXT_VIEW (input), text);
      gtk_text_view_set_editable (GTK_TEXT_VIEW (input), is_editable);
    }
  else
    {
      tl_figure_entry_show (TL_FIGURE_ENTRY (input), text);
      tl_figure_entry_set_editable (TL_FIGURE_ENTRY (input), is_editable);
    }
}

void
tl_record_form_show (TlRecordForm *self, gconstpointer record, gboolean is_editable)
{
  self->is_showing = TRUE;
  for (guint i = 0; i < self->n_lines; i++)
    show_line (self, i, record, is_editable);
  self->is_showing = FALSE;
}

GtkWidget *
tl_record_form_input (TlRecordForm *self, const char *slot)
{
  for (guint i = 0; i < self->n_lines; i++)
    if (strcmp (self->lines[i].slot, slot) == 0)
      return self->inputs[i];
  return NULL;
}

void
tl_record_form_fill (TlRecordForm *self, const char *slot, const char *const *texts,
                     const char *const *ids, const char *chosen)
{
  GtkWidget         *input = tl_record_form_input (self, slot);
  const char *const *before;

  g_return_if_fail (GTK_IS_DROP_DOWN (input));
  before = tl_choice_ids (GTK_DROP_DOWN (input));
  self->is_showing = TRUE;
  /* The same list stays: it may be open. */
  if (before == NULL || !g_strv_equal (before, ids))
    tl_choice_fill (GTK_DROP_DOWN (input), texts, ids);
  tl_choice_select (GTK_DROP_DOWN (input), chosen);
  self->is_showing = FALSE;
}

void
tl_record_form_refuse (TlRecordForm *self, const char *slot, const char *message)
{
  GtkWidget *input = tl_record_form_input (self, slot);

  if (TL_IS_FIGURE_ENTRY (input))
    tl_figure_entry_refuse (TL_FIGURE_ENTRY (input), message);
  else if (message != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s", message);
}

void
tl_record_form_enter (TlRecordForm *self, const char *slot, const char *text)
{
  g_signal_emit (self, edited_signal, 0, slot, text);
}

const TlRecordLine *
tl_record_form_lines (TlRecordForm *self)
{
  return self->lines;
}

/* --- widget --- */

/* Entries take what was typed when the focus leaves them, also when they go. */
static void
tl_record_form_dispose (GObject *object)
{
  TlRecordForm *self = TL_RECORD_FORM (object);

  self->is_showing = TRUE;
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->inputs, g_free);
  self->n_lines = 0;
  g_clear_pointer (&self->language, tl_language_unref);
  G_OBJECT_CLASS (tl_record_form_parent_class)->dispose (object);
}

static void
tl_record_form_class_init (TlRecordFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_record_form_dispose;
  edited_signal = g_signal_new ("edited", TL_TYPE_RECORD_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tl_record_form_init (TlRecordForm *self)
{
}

GtkWidget *
tl_record_form_new (const TlRecordLine *lines, const TlLanguage *language)
{
  TlRecordForm *self = g_object_new (TL_TYPE_RECORD_FORM, NULL);

  self->lines = lines;
  self->language = tl_language_ref (language);
  while (lines[self->n_lines].slot != NULL)
    self->n_lines++;
  self->inputs = g_new0 (GtkWidget *, self->n_lines);
  fill (self);
  return GTK_WIDGET (self);
}
