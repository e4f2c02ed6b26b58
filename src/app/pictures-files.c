/* pictures-files.c: pictures in, reports out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/pictures-page-private.h"

#include "app/chooser.h"
#include "base/file.h"
#include "picture/originals.h"
#include "rules/picture-list.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <string.h>

static TlDocument *
document_of (TlPicturesPage *self)
{
  return tl_inspector_document (self->inspector);
}

static void
tell (TlPicturesPage *self, const GError *error)
{
  if (error != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.warn", "s", error->message);
}

/* --- pictures in --- */

gboolean
tl_pictures_page_takes (GFile *file)
{
  static const char *const endings[] = { ".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp" };
  g_autofree char         *name = g_file_get_basename (file), *low = g_ascii_strdown (name, -1);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (low, endings[i]))
      return TRUE;
  return FALSE;
}

/* Reads no more than a picture may have, so that a wrong file costs no memory. */
static void
run_read (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GFile  *file = data;
  GError *error = NULL;
  g_autoptr (GFileInputStream) stream = g_file_read (file, cancellable, &error);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  gsize got = 1;

  while (stream != NULL && got > 0 && bytes->len <= TL_PHOTO_MAX_BYTES)
    {
      static const guint CHUNK = 1u << 20;
      guint              before = bytes->len;

      g_byte_array_set_size (bytes, before + CHUNK);
      if (!g_input_stream_read_all (G_INPUT_STREAM (stream), bytes->data + before, CHUNK, &got,
                                    cancellable, &error))
        break;
      g_byte_array_set_size (bytes, before + (guint) got);
    }
  if (error != NULL)
    g_task_return_error (task, error);
  else if (bytes->len > TL_PHOTO_MAX_BYTES)
    {
      g_autofree char *name = g_file_get_basename (file);

      g_task_return_new_error (task, TL_ERROR, TL_ERROR_LIMIT,
                               _ ("“%s” is larger than 128 MB; a smaller copy can be taken in."),
                               name);
    }
  else
    g_task_return_pointer (task, g_byte_array_free_to_bytes (g_steal_pointer (&bytes)),
                           (GDestroyNotify) g_bytes_unref);
}

static void
on_read (GObject *source, GAsyncResult *result, gpointer data)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_task_propagate_pointer (G_TASK (result), &error);
  GFile           *file = g_task_get_task_data (G_TASK (result));
  g_autofree char *name = g_file_get_basename (file);

  self->reading--;
  if (self->inspector == NULL)
    return;
  if (bytes != NULL)
    tl_inspector_add_photo (self->inspector, bytes, name, &error);
  if (error != NULL && strstr (error->message, name) == NULL)
    g_prefix_error (&error, "“%s”: ", name);
  tell (self, error);
}

void
tl_pictures_page_add_file (TlPicturesPage *self, GFile *file)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, on_read, NULL);

  self->reading++;
  g_task_set_task_data (task, g_object_ref (file), g_object_unref);
  g_task_run_in_thread (task, run_read);
}

static gboolean
on_drop (GtkDropTarget *target, const GValue *value, double x, double y, TlPicturesPage *self)
{
  gboolean took = FALSE;

  if (!G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    return FALSE;
  for (GSList *files = g_value_get_boxed (value); files != NULL; files = files->next)
    if (tl_pictures_page_takes (files->data))
      {
        tl_pictures_page_add_file (self, files->data);
        took = TRUE;
      }
  return took;
}

static void
on_open_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  g_autoptr (GListModel) files = response == GTK_RESPONSE_ACCEPT
                                     ? gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog))
                                     : NULL;

  for (guint i = 0; files != NULL && i < g_list_model_get_n_items (files); i++)
    {
      g_autoptr (GFile) file = g_list_model_get_item (files, i);

      tl_pictures_page_add_file (self, file);
    }
  g_clear_object (&self->chooser);
}

static GtkFileChooserNative *
chooser_new (TlPicturesPage *self, const char *title, GtkFileChooserAction action,
             const char *accept, GCallback callback)
{
  tl_chooser_new (&self->chooser, GTK_WIDGET (self), title, action, accept);
  g_signal_connect_object (self->chooser, "response", callback, self, 0);
  return self->chooser;
}

static void
open_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  GtkFileChooserNative *chooser =
      chooser_new (self, _ ("Open a picture"), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"),
                   G_CALLBACK (on_open_chosen));
  const char *const endings[] = { "jpg", "jpeg", "png", "tif", "tiff", "webp" };

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    gtk_file_filter_add_suffix (filter, endings[i]);
  gtk_file_filter_set_name (filter, _ ("Pictures"));
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (chooser), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
open_path_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autoptr (GFile) file = g_file_new_for_path (g_variant_get_string (target, NULL));

  tl_pictures_page_add_file (TL_PICTURES_PAGE (widget), file);
}

/* What lies on the clipboard has no file: it is kept as PNG, and that is its original. */
static void
on_pasted (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (TlPicturesPage) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture =
      gdk_clipboard_read_texture_finish (GDK_CLIPBOARD (source), result, &error);
  g_autoptr (GBytes) bytes = NULL;

  if (self->inspector == NULL)
    return;
  if (texture == NULL)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s",
                                  _ ("There is no picture on the clipboard."));
      return;
    }
  bytes = gdk_texture_save_to_png_bytes (texture);
  tl_inspector_add_photo (self->inspector, bytes, _ ("pasted.png"), &error);
  tell (self, error);
}

static void
paste_action (GtkWidget *widget, const char *name, GVariant *target)
{
  gdk_clipboard_read_texture_async (gtk_widget_get_clipboard (widget), NULL, on_pasted,
                                    g_object_ref (widget));
}

/* --- report out --- */

gboolean
tl_pictures_page_save_report (TlPicturesPage *self, const char *path, GError **error)
{
  const TlPictureReport *report = tl_report_view_report (self->report, error);

  return report != NULL && tl_picture_report_save_pdf (report, path, error);
}

gboolean
tl_pictures_page_save_annotated (TlPicturesPage *self, const char *path, GError **error)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);

  if (photo == NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE, _ ("There is no picture to copy."));
      return FALSE;
    }
  return tl_picture_save_annotated (tl_inspector_inspections (self->inspector),
                                    tl_inspector_inspection (self->inspector), photo,
                                    tl_document_joint (document_of (self))->originals, path,
                                    tl_document_language (document_of (self)), error);
}

gboolean
tl_pictures_page_save_findings (TlPicturesPage *self, const char *path, GError **error)
{
  TlDocument      *document = document_of (self);
  TlPictureList    list = { .stock = (TlStock *) tl_document_stock (document),
                            .joint = (TlJoint *) tl_document_joint (document),
                            .inspections =
                                (TlInspections *) tl_inspector_inspections (self->inspector),
                            .inspection = tl_inspector_inspection (self->inspector) };
  g_autofree char *text =
      g_str_has_suffix (path, ".json") ? tl_picture_list_json (&list) : tl_picture_list_csv (&list);

  return tl_file_save (path, text, strlen (text), error);
}

gboolean
tl_pictures_page_save_originals (TlPicturesPage *self, const char *folder, GError **error)
{
  const TlInspections *inspections = tl_inspector_inspections (self->inspector);
  guint                missing, n = inspections->photos->len;
  g_autofree char     *shown = g_filename_display_name (folder), *written = NULL, *lacks = NULL,
                  *text = NULL;

  if (!tl_originals_save (tl_document_joint (document_of (self))->originals, inspections, folder,
                          FALSE, &missing, error))
    return FALSE;
  written = g_strdup_printf (ngettext ("%u original written to %s, without its position.",
                                       "%u originals written to %s, without their position.",
                                       n - missing),
                             n - missing, shown);
  if (missing == 0)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s", written);
      return TRUE;
    }
  /* What is gone must not pass by in three seconds. */
  lacks = g_strdup_printf (
      ngettext ("%u original is not in the document, or altered; see pictures.csv.",
                "%u originals are not in the document, or altered; see pictures.csv.", missing),
      missing);
  text = g_strdup_printf ("%s %s", written, lacks);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.warn", "s", text);
  return TRUE;
}

typedef gboolean (*SaveFunc) (TlPicturesPage *self, const char *path, GError **error);

static void
save_to (TlPicturesPage *self, SaveFunc save, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *done = g_strdup_printf (_ ("Written to %s."), path);

  if (save (self, path, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s", done);
  tell (self, error);
}

static void
save_chosen (TlPicturesPage *self, GtkNativeDialog *dialog, int response, SaveFunc save,
             const char *ending)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, NULL);
  g_autofree char *whole = NULL;

  if (path == NULL)
    return;
  whole = g_str_has_suffix (path, ending) || g_str_has_suffix (path, ".json")
              ? g_strdup (path)
              : g_strconcat (path, ending, NULL);
  save_to (self, save, whole);
}

static void
on_report_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  save_chosen (self, dialog, response, tl_pictures_page_save_report, ".pdf");
}

static void
on_annotated_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  save_chosen (self, dialog, response, tl_pictures_page_save_annotated, ".png");
}

static void
on_findings_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  save_chosen (self, dialog, response, tl_pictures_page_save_findings, ".csv");
}

/* What can leave the page: its action, what the chooser says, how its name ends. */
static const struct
{
  const char *action, *title, *ending;
  GCallback   chosen;
} ways_out[] = {
  { "pictures.save-report", N_ ("Report as PDF"), ".pdf", G_CALLBACK (on_report_chosen) },
  { "pictures.save-annotated", N_ ("Annotated copy as PNG"), ".png",
    G_CALLBACK (on_annotated_chosen) },
  { "pictures.save-findings", N_ ("Findings as CSV or JSON"), ".csv",
    G_CALLBACK (on_findings_chosen) },
};

static void
save_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage       *self = TL_PICTURES_PAGE (widget);
  g_autofree char      *title = tl_document_title (document_of (self)), *file = NULL;
  GtkFileChooserNative *chooser;
  guint                 way = 0;

  while (strcmp (ways_out[way].action, name) != 0)
    way++;
  chooser = chooser_new (self, _ (ways_out[way].title), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"),
                         ways_out[way].chosen);
  g_strdelimit (title, "/", '-');
  file = g_strconcat (title, ways_out[way].ending, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), file);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
on_originals_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, NULL);
  g_autoptr (GError) error = NULL;

  if (path != NULL)
    tl_pictures_page_save_originals (self, path, &error);
  tell (self, error);
}

static void
save_originals_action (GtkWidget *widget, const char *name, GVariant *target)
{
  GtkFileChooserNative *chooser = chooser_new (
      TL_PICTURES_PAGE (widget), _ ("Folder for the originals"),
      GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Save"), G_CALLBACK (on_originals_chosen));

  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
print_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);

  tl_report_view_print (self->report, GTK_WINDOW (gtk_widget_get_root (widget)));
}

static void
on_issue_answer (AdwMessageDialog *dialog, const char *answer, TlPicturesPage *self)
{
  g_autoptr (GError) error = NULL;

  if (strcmp (answer, "issue") != 0)
    return;
  if (tl_inspector_issue (self->inspector, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s",
                                _ ("The report is issued; the inspection is closed."));
  tell (self, error);
}

/* Cannot be undone, so it is asked. */
static void
issue_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);
  GtkWidget      *dialog = adw_message_dialog_new (
           GTK_WINDOW (gtk_widget_get_root (widget)), _ ("Issue the report?"),
           _ ("The inspection is closed and gets a fingerprint. What was done before cannot be undone; "
                   "later changes are a new revision."));

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "issue",
                                    _ ("_Issue"), NULL);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_issue_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- for the page --- */

void
tl_pictures_page_add_drop (TlPicturesPage *self)
{
  GtkDropTarget *drop = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect (drop, "drop", G_CALLBACK (on_drop), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drop));
}

void
tl_pictures_page_install_files (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "pictures.open", NULL, open_action);
  gtk_widget_class_install_action (klass, "pictures.open-path", "s", open_path_action);
  gtk_widget_class_install_action (klass, "pictures.paste", NULL, paste_action);
  gtk_widget_class_install_action (klass, "pictures.issue", NULL, issue_action);
  gtk_widget_class_install_action (klass, "pictures.print-report", NULL, print_action);
  gtk_widget_class_install_action (klass, "pictures.save-originals", NULL, save_originals_action);
  for (guint i = 0; i < G_N_ELEMENTS (ways_out); i++)
    gtk_widget_class_install_action (klass, ways_out[i].action, NULL, save_action);
}
