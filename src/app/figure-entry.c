/* figure-entry.c: a labelled entry that says what is wrong.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/figure-entry.h"

#include "app/labelled.h"

struct _TlFigureEntry
{
  GtkWidget parent_instance;

  GtkText   *text;
  GtkWidget *box;
  GtkLabel  *unit, *wrong;
  char      *shown;
};

G_DEFINE_FINAL_TYPE (TlFigureEntry, tl_figure_entry, GTK_TYPE_WIDGET)

static guint entered_signal;

static void
commit (TlFigureEntry *self)
{
  g_autofree char *typed = NULL;

  if (self->text == NULL)
    return;
  typed = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->text))));
  if (g_str_equal (typed, self->shown))
    {
      tl_figure_entry_refuse (self, NULL);
      return;
    }
  /* Whoever hears it may show another text or take this widget away. */
  g_object_ref (self);
  g_signal_emit (self, entered_signal, 0, typed);
  g_object_unref (self);
}

static void
on_focus (GtkText *text, GParamSpec *pspec, TlFigureEntry *self)
{
  if (!gtk_widget_has_focus (GTK_WIDGET (text)))
    commit (self);
}

static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        TlFigureEntry *self)
{
  g_autofree char *shown = NULL;

  if (key != GDK_KEY_Escape
      || g_str_equal (self->shown, gtk_editable_get_text (GTK_EDITABLE (self->text))))
    return FALSE;
  shown = g_strdup (self->shown);
  tl_figure_entry_show (self, shown);
  return TRUE;
}

static gboolean
tl_figure_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (TL_FIGURE_ENTRY (widget)->text));
}

static void
tl_figure_entry_dispose (GObject *object)
{
  TlFigureEntry *self = TL_FIGURE_ENTRY (object);

  if (self->text != NULL)
    g_signal_handlers_disconnect_by_data (self->text, self);
  self->text = NULL;
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (tl_figure_entry_parent_class)->dispose (object);
}

static void
tl_figure_entry_class_init (TlFigureEntryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_figure_entry_dispose;
  widget_class->grab_focus = tl_figure_entry_grab_focus;
  entered_signal = g_signal_new ("entered", TL_TYPE_FIGURE_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
tl_figure_entry_init (TlFigureEntry *self)
{
  self->shown = g_strdup ("");
}

GtkWidget *
tl_figure_entry_new (const char *label, const char *unit, int chars)
{
  TlFigureEntry      *self = g_object_new (TL_TYPE_FIGURE_ENTRY, NULL);
  GtkWidget          *column, *wrong = gtk_label_new (NULL);
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  gtk_widget_add_css_class (self->box, "fact-box");
  self->text = GTK_TEXT (gtk_text_new ());
  gtk_editable_set_width_chars (GTK_EDITABLE (self->text), chars);
  gtk_widget_set_hexpand (GTK_WIDGET (self->text), TRUE);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->text));
  self->unit = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->unit), "caption-text");
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->unit));
  tl_figure_entry_set_unit (self, unit);
  column = tl_labelled_new (label, self->box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->text), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  self->wrong = GTK_LABEL (wrong);
  gtk_label_set_xalign (self->wrong, 0);
  gtk_label_set_wrap (self->wrong, TRUE);
  gtk_label_set_max_width_chars (self->wrong, 20);
  gtk_widget_add_css_class (wrong, "error-text");
  gtk_widget_set_visible (wrong, FALSE);
  gtk_box_append (GTK_BOX (column), wrong);
  gtk_widget_set_parent (column, GTK_WIDGET (self));
  g_signal_connect_swapped (self->text, "activate", G_CALLBACK (commit), self);
  g_signal_connect (self->text, "notify::has-focus", G_CALLBACK (on_focus), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self->text), keys);
  return GTK_WIDGET (self);
}

void
tl_figure_entry_show (TlFigureEntry *self, const char *text)
{
  char *kept = g_strdup (text);

  g_free (self->shown);
  self->shown = kept;
  if (!g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (self->text))))
    gtk_editable_set_text (GTK_EDITABLE (self->text), self->shown);
  tl_figure_entry_refuse (self, NULL);
}

void
tl_figure_entry_refuse (TlFigureEntry *self, const char *message)
{
  gtk_label_set_text (self->wrong, message == NULL ? "" : message);
  gtk_widget_set_visible (GTK_WIDGET (self->wrong), message != NULL);
  if (message != NULL)
    gtk_widget_add_css_class (self->box, "error");
  else
    gtk_widget_remove_css_class (self->box, "error");
  gtk_accessible_update_state (
      GTK_ACCESSIBLE (self->text), GTK_ACCESSIBLE_STATE_INVALID,
      message == NULL ? GTK_ACCESSIBLE_INVALID_FALSE : GTK_ACCESSIBLE_INVALID_TRUE, -1);
}

void
tl_figure_entry_set_editable (TlFigureEntry *self, gboolean editable)
{
  gtk_widget_set_sensitive (self->box, editable);
}

void
tl_figure_entry_set_unit (TlFigureEntry *self, const char *unit)
{
  gtk_label_set_text (self->unit, unit);
  gtk_widget_set_visible (GTK_WIDGET (self->unit), *unit != '\0');
}

void
tl_figure_entry_type (TlFigureEntry *self, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->text), text);
  commit (self);
}

void
tl_figure_entry_retry (TlFigureEntry *self)
{
  commit (self);
}

const char *
tl_figure_entry_wrong (TlFigureEntry *self)
{
  return gtk_label_get_text (self->wrong);
}
