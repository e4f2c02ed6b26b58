/* application.c: start, settings, windows, and what concerns the whole program.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/application.h"

#include "app/actions.h"
#include "app/preferences.h"
#include "app/status.h"
#include "app/theme.h"
#include "app/window.h"

#include <glib/gi18n.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

struct _TlApplication
{
  AdwApplication parent_instance;

  TlOwnStock *stock; /* the shipped one with the person's packs */
  TlLanguage *language;
  GSettings  *settings;
  gboolean    has_offered;
};

G_DEFINE_FINAL_TYPE (TlApplication, tl_application, ADW_TYPE_APPLICATION)

GSettings *
tl_application_settings_new (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema =
      source == NULL ? NULL : g_settings_schema_source_lookup (source, TL_APPLICATION_ID, TRUE);

  if (schema == NULL)
    {
      g_autoptr (GSettingsSchemaSource) beside =
          g_settings_schema_source_new_from_directory (TL_SCHEMA_BUILD_DIR, source, FALSE, NULL);

      schema = beside == NULL ? NULL
                              : g_settings_schema_source_lookup (beside, TL_APPLICATION_ID, FALSE);
    }
  if (schema == NULL)
    g_error ("The settings schema %s is not installed.", TL_APPLICATION_ID);
  return g_settings_new_full (schema, NULL, NULL);
}

static void
make_language (TlApplication *self)
{
  g_clear_pointer (&self->language, tl_language_unref);
  self->language =
      tl_language_new (NULL, g_settings_get_enum (self->settings, "units") == 1 ? TL_UNITS_CUSTOMARY
                                                                                : TL_UNITS_METRIC);
}

static void
on_units (TlApplication *self)
{
  make_language (self);
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (self)); l != NULL; l = l->next)
    if (TL_IS_WINDOW (l->data))
      tl_document_set_language (tl_window_document (l->data), self->language);
}

static void
on_scheme (TlApplication *self)
{
  tl_theme_choose (g_settings_get_enum (self->settings, "scheme"));
}

/* --- actions --- */
static void
preferences_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  TlApplication *self = data;
  GtkWindow     *parent = gtk_application_get_active_window (GTK_APPLICATION (self));

  gtk_window_present (GTK_WINDOW (tl_preferences_new (self->settings, self->language, parent)));
}

static void
about_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  GtkWindow *parent = gtk_application_get_active_window (GTK_APPLICATION (data));

  adw_show_about_window (
      parent, "application-name", _ ("Tinlap"), "application-icon", TL_APPLICATION_ID, "version",
      TL_VERSION, "license-type", GTK_LICENSE_GPL_3_0, "comments",
      _ ("A workbench for joints between old aluminium wiring and new copper. It judges this joint "
         "only; a licensed person and the local code have the last word. Nothing is sent "
         "anywhere."),
      NULL);
}

/* Windows are asked one by one, so that each can keep its unsaved work. */
static void
quit_action (GSimpleAction *action, GVariant *target, gpointer data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (data)));

  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_close (l->data);
}

/* --- application --- */
static TlWindow *
new_window (TlApplication *self)
{
  TlWindow *window =
      tl_window_new (GTK_APPLICATION (self), self->stock, self->language, self->settings);

  tl_status_watch (window);
  tl_window_keep_work (window, NULL);
  return window;
}

/* Once a run: what the run before left behind. */
static void
offer_left_work (TlApplication *self, GtkWindow *window)
{
  if (self->has_offered)
    return;
  self->has_offered = TRUE;
  tl_window_offer_left_work (TL_WINDOW (window), NULL);
}

static void
tl_application_activate (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window == NULL)
    window = GTK_WINDOW (new_window (TL_APPLICATION (application)));
  gtk_window_present (window);
  if (TL_IS_WINDOW (window))
    offer_left_work (TL_APPLICATION (application), window);
}

static void
tl_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      g_autofree char *path = g_file_get_path (files[i]);
      TlWindow        *window = new_window (TL_APPLICATION (application));

      if (path == NULL)
        path = g_file_get_uri (files[i]);
      gtk_widget_activate_action (GTK_WIDGET (window), "win.open-path", "s", path);
      gtk_window_present (GTK_WINDOW (window));
      offer_left_work (TL_APPLICATION (application), GTK_WINDOW (window));
    }
}

/* Runs beside the opening of the display. Returns: (transfer full) */
static gpointer
load_stock (gpointer data)
{
  g_autoptr (GError) error = NULL;
  TlStock *stock = tl_stock_load (NULL, &error);

  if (stock == NULL)
    g_error ("%s", error->message);
#ifdef __GLIBC__
  malloc_trim (0); /* what reading needed stays with this thread otherwise */
#endif
  return stock;
}

static void
tl_application_startup (GApplication *application)
{
  static const GActionEntry entries[] = {
    { "preferences", preferences_action },
    { "about", about_action },
    { "quit", quit_action },
  };
  TlApplication *self = TL_APPLICATION (application);
  GThread       *loader = g_thread_new ("stock", load_stock, NULL);
  g_autoptr (TlStock) system = NULL;

  G_APPLICATION_CLASS (tl_application_parent_class)->startup (application);
  system = g_thread_join (loader);
  self->stock = tl_own_stock_new (system, NULL);
  self->settings = tl_application_settings_new ();
  make_language (self);
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  tl_actions_install (GTK_APPLICATION (self));
  g_signal_connect_swapped (self->settings, "changed::units", G_CALLBACK (on_units), self);
  g_signal_connect_swapped (self->settings, "changed::scheme", G_CALLBACK (on_scheme), self);
  on_scheme (self);
  gtk_window_set_default_icon_name (TL_APPLICATION_ID);
}

static void
tl_application_finalize (GObject *object)
{
  TlApplication *self = TL_APPLICATION (object);

  if (self->settings != NULL)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->language, tl_language_unref);
  g_clear_object (&self->stock);
  G_OBJECT_CLASS (tl_application_parent_class)->finalize (object);
}

static void
tl_application_class_init (TlApplicationClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tl_application_finalize;
  G_APPLICATION_CLASS (klass)->startup = tl_application_startup;
  G_APPLICATION_CLASS (klass)->activate = tl_application_activate;
  G_APPLICATION_CLASS (klass)->open = tl_application_open;
}

static void
tl_application_init (TlApplication *self)
{
}

TlApplication *
tl_application_new (void)
{
  GApplicationFlags flags = G_APPLICATION_HANDLES_OPEN;

  if (g_getenv ("TINLAP_TEST") != NULL)
    flags |= G_APPLICATION_NON_UNIQUE;
  return g_object_new (TL_TYPE_APPLICATION, "application-id", TL_APPLICATION_ID, "flags", flags,
                       "resource-base-path", "/tinlap", NULL);
}
