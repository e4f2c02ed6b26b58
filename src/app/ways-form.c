/* ways-form.c: what local rules forbid.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ways-form.h"

#include "app/labelled.h"

#include <glib/gi18n.h>

struct _TlWaysForm
{
  GtkWidget parent_instance;

  TlDocument    *document;
  GtkMenuButton *button;
  GPtrArray     *ticks; /* (element-type GtkCheckButton) in the order of tl_way_words() */
  gboolean       is_showing;
};

G_DEFINE_FINAL_TYPE (TlWaysForm, tl_ways_form, GTK_TYPE_WIDGET)

static void
on_tick (GtkCheckButton *tick, TlWaysForm *self)
{
  const char *const *words = tl_way_words ();
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  TlJoint *after;

  if (self->is_showing)
    return;
  for (guint i = 0; i < self->ticks->len; i++)
    if (gtk_check_button_get_active (g_ptr_array_index (self->ticks, i)))
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", words[i]);
  after = tl_edit_set_text (tl_document_joint (self->document), "forbidden", text->str, &error);
  if (after == NULL)
    tl_document_refuse (self->document, error->message);
  else
    tl_document_take (self->document, after, _ ("Set what local rules forbid"),
                      tl_document_selected (self->document), 0);
}

static void
tl_ways_form_dispose (GObject *object)
{
  TlWaysForm *self = TL_WAYS_FORM (object);

  g_clear_object (&self->document);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->ticks, g_ptr_array_unref);
  G_OBJECT_CLASS (tl_ways_form_parent_class)->dispose (object);
}

static void
tl_ways_form_class_init (TlWaysFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_ways_form_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_ways_form_init (TlWaysForm *self)
{
  self->ticks = g_ptr_array_new ();
}

GtkWidget *
tl_ways_form_new (TlDocument *document)
{
  TlWaysForm        *self = g_object_new (TL_TYPE_WAYS_FORM, NULL);
  const char *const *words = tl_way_words ();
  GtkWidget         *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  self->document = g_object_ref (document);
  for (guint i = 0; words[i] != NULL; i++)
    {
      GtkWidget *tick = gtk_check_button_new_with_label (
          tl_language_text (tl_document_language (document), tl_way_label (words[i])));

      g_signal_connect (tick, "toggled", G_CALLBACK (on_tick), self);
      gtk_box_append (GTK_BOX (box), tick);
      g_ptr_array_add (self->ticks, tick);
    }
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  self->button = GTK_MENU_BUTTON (gtk_menu_button_new ());
  gtk_menu_button_set_popover (self->button, popover);
  gtk_menu_button_set_direction (self->button, GTK_ARROW_UP);
  gtk_widget_add_css_class (GTK_WIDGET (self->button), "choice");
  gtk_widget_set_parent (tl_labelled_new (_ ("Local rules forbid"), GTK_WIDGET (self->button)),
                         GTK_WIDGET (self));
  tl_ways_form_refresh (self);
  return GTK_WIDGET (self);
}

void
tl_ways_form_refresh (TlWaysForm *self)
{
  const TlLanguage *language = tl_document_language (self->document);
  const char       *forbidden = tl_document_joint (self->document)->forbidden;
  g_auto (GStrv) now = g_strsplit (forbidden == NULL ? "" : forbidden, " ", -1);
  const char *const *words = tl_way_words ();
  guint              count = g_strv_length (now);
  g_autofree char   *text = NULL;

  self->is_showing = TRUE;
  for (guint i = 0; i < self->ticks->len; i++)
    gtk_check_button_set_active (g_ptr_array_index (self->ticks, i),
                                 g_strv_contains ((const char *const *) now, words[i]));
  self->is_showing = FALSE;
  text = count == 0   ? g_strdup (_ ("no way"))
         : count == 1 ? g_strdup (tl_language_text (language, tl_way_label (now[0])))
                      : g_strdup_printf (ngettext ("%u way", "%u ways", count), count);
  gtk_menu_button_set_label (self->button, text);
}
