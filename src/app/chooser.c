/* chooser.c: choosers of files and folders.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/chooser.h"

void
tl_chooser_close (GtkFileChooserNative **kept)
{
  if (*kept != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (*kept));
  g_clear_object (kept);
}

GtkFileChooserNative *
tl_chooser_new (GtkFileChooserNative **kept, GtkWidget *of, const char *title,
                GtkFileChooserAction action, const char *accept)
{
  GtkRoot *root = gtk_widget_get_root (of);

  tl_chooser_close (kept);
  *kept = gtk_file_chooser_native_new (title, GTK_WINDOW (root), action, accept, NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (*kept), TRUE);
  return *kept;
}

void
tl_chooser_add_kind (GtkFileChooserNative *chooser, const char *pattern, const char *name)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_filter_set_name (filter, name);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
}

char *
tl_chooser_take_path (GtkFileChooserNative **kept, int response, const char *ending)
{
  g_autoptr (GFile) file =
      response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (*kept)) : NULL;
  g_autofree char *path = file == NULL ? NULL : g_file_get_path (file);

  g_clear_object (kept);
  if (path != NULL && ending != NULL && !g_str_has_suffix (path, ending))
    return g_strconcat (path, ending, NULL);
  return g_steal_pointer (&path);
}
