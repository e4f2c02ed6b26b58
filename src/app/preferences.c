/* preferences.c: the window of preferences.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/preferences.h"

#include "app/labelled.h"

#include <glib/gi18n.h>

/* A row whose choice is a word of an enumerated setting. */
typedef struct
{
  GSettings *settings;
  char      *key;
  GStrv      nicks; /* word of each row */
} Choice;

static void
choice_free (gpointer data, GClosure *closure)
{
  Choice *choice = data;

  g_object_unref (choice->settings);
  g_free (choice->key);
  g_strfreev (choice->nicks);
  g_free (choice);
}

static void
on_choice (AdwComboRow *row, GParamSpec *pspec, Choice *choice)
{
  g_settings_set_string (choice->settings, choice->key,
                         choice->nicks[adw_combo_row_get_selected (row)]);
}

static GtkWidget *
choice_row (GSettings *settings, const char *key, const char *title, const char *const *nicks,
            const char *const *texts)
{
  GtkWidget *row = adw_combo_row_new ();
  g_autoptr (GtkStringList) list = gtk_string_list_new (texts);
  g_autofree char *now = g_settings_get_string (settings, key);
  Choice          *choice = g_new0 (Choice, 1);

  choice->settings = g_object_ref (settings);
  choice->key = g_strdup (key);
  choice->nicks = g_strdupv ((char **) nicks);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (list));
  for (guint i = 0; nicks[i] != NULL; i++)
    if (g_str_equal (nicks[i], now))
      adw_combo_row_set_selected (ADW_COMBO_ROW (row), i);
  g_signal_connect_data (row, "notify::selected", G_CALLBACK (on_choice), choice, choice_free, 0);
  return row;
}

static GtkWidget *
text_row (GSettings *settings, const char *key, const char *title)
{
  GtkWidget *row = adw_entry_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  g_settings_bind (settings, key, row, "text", G_SETTINGS_BIND_DEFAULT);
  return row;
}

static AdwPreferencesGroup *
add_group (GtkWidget *page, const char *title)
{
  GtkWidget *group = adw_preferences_group_new ();

  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), title);
  adw_preferences_page_add (ADW_PREFERENCES_PAGE (page), ADW_PREFERENCES_GROUP (group));
  return ADW_PREFERENCES_GROUP (group);
}

GtkWidget *
tl_preferences_new (GSettings *settings, const TlLanguage *language, GtkWindow *parent)
{
  const char *schemes[] = { _ ("As the desktop"), _ ("Light"), _ ("Dark"), NULL };
  const char *scheme_nicks[] = { "follow", "light", "dark", NULL };
  const char *units[] = { _ ("Metric: mm², N·m, °C"), _ ("Customary: AWG, in, lbf·in"), NULL };
  const char *unit_nicks[] = { "metric", "customary", NULL };
  const char *papers[] = { _ ("By the language of the sheet"), _ ("A4"), _ ("Letter"), NULL };
  const char *paper_nicks[] = { "language", "a4", "letter", NULL };
  g_auto (GStrv) practices = tl_practice_choices (language);
  GtkWidget           *window = adw_preferences_window_new (), *page = adw_preferences_page_new ();
  AdwPreferencesGroup *look = add_group (page, _ ("Window")),
                      *joint = add_group (page, _ ("A new joint"));

  adw_preferences_group_add (
      look, choice_row (settings, "scheme", _ ("Light or dark"), scheme_nicks, schemes));
  adw_preferences_group_add (look,
                             choice_row (settings, "units", _ ("Units shown"), unit_nicks, units));
  adw_preferences_group_add (
      look, choice_row (settings, "paper", _ ("Paper of the step sheet"), paper_nicks, papers));
  adw_preferences_group_add (joint, choice_row (settings, "practice", _ ("Practice"),
                                                tl_stock_practices (NULL),
                                                (const char *const *) practices));
  adw_preferences_group_add (joint, text_row (settings, "prepared-by", _ ("Prepared by")));
  adw_preferences_group_add (
      joint, text_row (settings, "sheet-language", _ ("Language of the sheet (en, de, fr…)")));
  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (window), ADW_PREFERENCES_PAGE (page));
  adw_preferences_window_set_search_enabled (ADW_PREFERENCES_WINDOW (window), FALSE);
  gtk_window_set_title (GTK_WINDOW (window), _ ("Preferences"));
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  return window;
}
