/* labelled.c: small makers of inputs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/labelled.h"

#include <glib/gi18n.h>

GtkWidget *
tl_labelled_new (const char *label, GtkWidget *input)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3), *caption = gtk_label_new (label);

  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_widget_add_css_class (caption, "label-text");
  gtk_box_append (GTK_BOX (box), caption);
  gtk_box_append (GTK_BOX (box), input);
  gtk_accessible_update_property (GTK_ACCESSIBLE (input), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return box;
}

GtkWidget *
tl_icon_button_new (const char *icon, const char *label, const char *action)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "icon-only");
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  if (action != NULL)
    gtk_actionable_set_detailed_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

static const char *const IDS = "tl-ids";

GtkWidget *
tl_choice_new (const char *const *texts, const char *const *ids)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);

  tl_choice_fill (GTK_DROP_DOWN (choice), texts, ids);
  return choice;
}

void
tl_choice_fill (GtkDropDown *choice, const char *const *texts, const char *const *ids)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (texts);

  g_object_set_data_full (G_OBJECT (choice), IDS, g_strdupv ((char **) ids),
                          (GDestroyNotify) g_strfreev);
  gtk_drop_down_set_model (choice, G_LIST_MODEL (list));
}

const char *
tl_choice_id (GtkDropDown *choice)
{
  GStrv ids = g_object_get_data (G_OBJECT (choice), IDS);
  guint selected = gtk_drop_down_get_selected (choice);

  return ids == NULL || selected == GTK_INVALID_LIST_POSITION ? "" : ids[selected];
}

void
tl_choice_select (GtkDropDown *choice, const char *id)
{
  GStrv ids = g_object_get_data (G_OBJECT (choice), IDS);

  for (guint i = 0; ids != NULL && ids[i] != NULL; i++)
    if (g_strcmp0 (ids[i], id) == 0)
      {
        gtk_drop_down_set_selected (choice, i);
        return;
      }
}

void
tl_box_clear (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
on_narrow_setup (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer chars)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 8);
  gtk_label_set_max_width_chars (GTK_LABEL (label), GPOINTER_TO_INT (chars));
  gtk_list_item_set_child (item, label);
}

static void
on_narrow_bind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer chars)
{
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (item));
  GtkWidget  *label = gtk_list_item_get_child (item);

  gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_set_tooltip_text (label, text);
}

static GtkListItemFactory *
narrow_factory_new (int chars)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (on_narrow_setup), GINT_TO_POINTER (chars));
  g_signal_connect (factory, "bind", G_CALLBACK (on_narrow_bind), GINT_TO_POINTER (chars));
  return factory;
}

void
tl_choice_narrow (GtkDropDown *choice)
{
  g_autoptr (GtkListItemFactory) shown = narrow_factory_new (24), list = narrow_factory_new (60);

  gtk_drop_down_set_factory (choice, shown);
  gtk_drop_down_set_list_factory (choice, list);
}

const char *const *
tl_choice_ids (GtkDropDown *choice)
{
  return g_object_get_data (G_OBJECT (choice), IDS);
}

GStrv
tl_practice_choices (const TlLanguage *language)
{
  const char *const *practices = tl_stock_practices (NULL);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (guint i = 0; practices[i] != NULL; i++)
    g_strv_builder_add (builder, tl_language_text (language, tl_practice_label (practices[i])));
  return g_strv_builder_end (builder);
}

void
tl_widget_clear (GtkWidget *widget)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (widget)) != NULL)
    gtk_widget_unparent (child);
}

void
tl_undo_buttons_show (GtkWidget *undo_button, GtkWidget *redo_button, const char *undo,
                      const char *redo)
{
  g_autofree char *undo_text =
      undo == NULL ? g_strdup (_ ("Undo")) : g_strdup_printf (_ ("Undo: %s"), undo);
  g_autofree char *redo_text =
      redo == NULL ? g_strdup (_ ("Redo")) : g_strdup_printf (_ ("Redo: %s"), redo);

  gtk_widget_set_tooltip_text (undo_button, undo_text);
  gtk_widget_set_tooltip_text (redo_button, redo_text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (undo_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  undo_text, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (redo_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  redo_text, -1);
}
