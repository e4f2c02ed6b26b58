/* window-files.c: opening, saving, exporting, and the questions about them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

#include "app/chooser.h"
#include "joint/joint-file.h"

#include <glib/gi18n.h>

/* --- messages --- */
AdwToast *
tl_window_toast (TlWindow *self, const char *text, guint seconds)
{
  /* Titles of toasts are markup in libadwaita 1.2; file names and messages are not. */
  g_autofree char *escaped = g_markup_escape_text (text, -1);
  AdwToast        *toast = adw_toast_new (escaped);

  g_free (self->last_message);
  self->last_message = g_strdup (text);
  adw_toast_set_timeout (toast, seconds);
  return toast;
}

void
tl_window_show_message (TlWindow *self, const char *text)
{
  g_free (self->last_message);
  self->last_message = g_strdup (text);
  gtk_label_set_text (self->notice_text, text);
  gtk_widget_set_visible (self->notice, TRUE);
}

void
tl_window_show_joint (TlWindow *self)
{
  self->has_joint = TRUE;
  self->is_stale_told = FALSE;
  gtk_widget_set_visible (self->notice, FALSE);
  gtk_stack_set_visible_child_name (self->outer, "joint");
  gtk_stack_set_visible_child_name (self->pages, "build");
  tl_window_update_actions (self);
  tl_window_focus_bench (self);
}

static void
remember (TlWindow *self, const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  g_autofree char *title = tl_document_title (self->document);
  GtkRecentData    data = { .display_name = title,
                            .mime_type = (char *) "application/x-tinlap",
                            .app_name = (char *) "Tinlap",
                            .app_exec = (char *) "tinlap %f" };

  if (uri != NULL)
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

/* --- what comes after the question --- */
static void
open_example (TlWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  g_autoptr (TlJoint) joint = NULL;

  if (bytes != NULL)
    joint = tl_joint_from_bytes (bytes, path, &error);
  if (joint == NULL)
    {
      tl_window_show_message (self, error->message);
      return;
    }
  tl_document_replace (self->document, joint, NULL);
  tl_window_show_joint (self);
}

static void
do_next (TlWindow *self)
{
  TlNext           next = self->next;
  g_autofree char *path = g_steal_pointer (&self->next_path);
  g_autoptr (TlJoint) joint = g_steal_pointer (&self->next_joint);

  self->next = TL_NEXT_NOTHING;
  switch (next)
    {
    case TL_NEXT_CLOSE:
      if (self->kept != NULL)
        tl_kept_work_end (self->kept);
      gtk_window_destroy (GTK_WINDOW (self));
      break;
    case TL_NEXT_OPEN:
      if (tl_window_open (self, path))
        remember (self, path);
      break;
    case TL_NEXT_EXAMPLE:
      open_example (self, path);
      break;
    case TL_NEXT_JOINT:
      tl_document_replace (self->document, joint, NULL);
      tl_window_show_joint (self);
      break;
    case TL_NEXT_NOTHING:
    default:
      break;
    }
}

static void
on_answer (AdwMessageDialog *dialog, const char *answer, TlWindow *self)
{
  if (g_str_equal (answer, "discard"))
    do_next (self);
  else if (g_str_equal (answer, "save"))
    {
      /* Without a file the chooser comes first, and goes on when it has one. */
      tl_window_save_asking (self);
      if (self->chooser == NULL && !tl_document_is_modified (self->document))
        do_next (self);
    }
  else
    self->next = TL_NEXT_NOTHING;
}

static void
ask_unsaved (TlWindow *self)
{
  g_autofree char *title = tl_document_title (self->document);
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self), _ ("Save the changes?"), NULL);

  adw_message_dialog_format_body (ADW_MESSAGE_DIALOG (dialog),
                                  _ ("“%s” has changes that are in no file."), title);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "discard",
                                    _ ("_Discard"), "save", _ ("_Save"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "discard",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "save",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "save");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
tl_window_ask_then (TlWindow *self, TlNext next, const char *path, const TlJoint *joint)
{
  g_autofree char *kept = g_strdup (path);

  self->next = next;
  g_free (self->next_path);
  self->next_path = g_steal_pointer (&kept);
  g_clear_pointer (&self->next_joint, tl_joint_unref);
  self->next_joint = joint == NULL ? NULL : tl_joint_ref (joint);
  if (self->has_joint && tl_document_is_modified (self->document))
    ask_unsaved (self);
  else
    do_next (self);
}

/* --- saving --- */
gboolean
tl_window_save (TlWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (!tl_document_save (self->document, path, &error))
    {
      tl_window_show_message (self, error->message);
      return FALSE;
    }
  self->is_stale_told = FALSE;
  gtk_widget_set_visible (self->notice, FALSE);
  remember (self, tl_document_path (self->document));
  adw_toast_overlay_add_toast (self->toasts, tl_window_toast (self, _ ("Saved."), 4));
  return TRUE;
}

static void
on_stale_answer (AdwMessageDialog *dialog, const char *answer, TlWindow *self)
{
  if (g_str_equal (answer, "overwrite"))
    {
      if (tl_window_save (self, NULL) && self->next != TL_NEXT_NOTHING)
        do_next (self);
    }
  else if (g_str_equal (answer, "other"))
    tl_window_choose_to_save (self);
  else
    self->next = TL_NEXT_NOTHING;
}

static void
ask_stale (TlWindow *self)
{
  GtkWidget *dialog =
      adw_message_dialog_new (GTK_WINDOW (self), _ ("The file was changed by somebody else"), NULL);

  adw_message_dialog_format_body (
      ADW_MESSAGE_DIALOG (dialog),
      _ ("“%s” is not the file that was opened here. Saving would put this joint in its place."),
      tl_document_path (self->document));
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"),
                                    "overwrite", _ ("_Replace it"), "other",
                                    _ ("Save under _another name"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "overwrite",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "other");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_stale_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
tl_window_save_asking (TlWindow *self)
{
  if (tl_document_path (self->document) == NULL)
    tl_window_choose_to_save (self);
  else if (tl_document_is_stale (self->document))
    ask_stale (self);
  else
    tl_window_save (self, NULL);
}

void
tl_window_check_stale (TlWindow *self)
{
  if (self->is_stale_told || self->document == NULL || !tl_document_is_stale (self->document))
    return;
  self->is_stale_told = TRUE;
  tl_window_show_message (self,
                          _ ("The file was changed by somebody else since it was opened here."));
}

/* --- choosers --- */
static GtkFileChooserNative *
new_chooser (TlWindow *self, const char *title, GtkFileChooserAction action, const char *accept,
             const char *pattern, const char *kind)
{
  GtkFileChooserNative *chooser =
      tl_chooser_new (&self->chooser, GTK_WIDGET (self), title, action, accept);

  tl_chooser_add_kind (chooser, pattern, kind);
  return chooser;
}

static void
on_open_chosen (GtkNativeDialog *dialog, int response, TlWindow *self)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, NULL);

  if (path != NULL)
    tl_window_ask_then (self, TL_NEXT_OPEN, path, NULL);
}

static void
on_save_chosen (GtkNativeDialog *dialog, int response, TlWindow *self)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, ".tinlap");

  if (path == NULL)
    self->next = TL_NEXT_NOTHING;
  else if (tl_window_save (self, path) && self->next != TL_NEXT_NOTHING)
    do_next (self);
}

static void
on_export_chosen (GtkNativeDialog *dialog, int response, TlWindow *self)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, ".pdf");

  if (path != NULL)
    tl_window_export (self, path);
}

void
tl_window_choose_to_open (TlWindow *self)
{
  GtkFileChooserNative *chooser =
      new_chooser (self, _ ("Open a joint"), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), "*.tinlap",
                   _ ("Tinlap joints"));

  g_signal_connect_object (chooser, "response", G_CALLBACK (on_open_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
suggest_name (TlWindow *self, GtkFileChooserNative *chooser, const char *suffix)
{
  g_autofree char *title = tl_document_title (self->document);
  g_autofree char *name = NULL;

  g_strdelimit (title, "/", '-');
  name = g_str_has_suffix (title, suffix) ? g_strdup (title) : g_strconcat (title, suffix, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
}

void
tl_window_choose_to_save (TlWindow *self)
{
  GtkFileChooserNative *chooser =
      new_chooser (self, _ ("Save the joint"), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"),
                   "*.tinlap", _ ("Tinlap joints"));

  suggest_name (self, chooser, ".tinlap");
  g_signal_connect_object (chooser, "response", G_CALLBACK (on_save_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
tl_window_choose_to_export (TlWindow *self)
{
  GtkFileChooserNative *chooser =
      new_chooser (self, _ ("Step sheet as PDF"), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"),
                   "*.pdf", _ ("PDF documents"));

  suggest_name (self, chooser, ".pdf");
  g_signal_connect_object (chooser, "response", G_CALLBACK (on_export_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

gboolean
tl_window_export (TlWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strdup_printf (_ ("Step sheet written to %s."), path);

  if (!tl_steps_page_export (tl_window_steps (self), path, &error))
    {
      tl_window_show_message (self, error->message);
      return FALSE;
    }
  adw_toast_overlay_add_toast (self->toasts, tl_window_toast (self, text, 4));
  return TRUE;
}

gboolean
tl_window_open (TlWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (!tl_document_open (self->document, path, &error))
    {
      tl_window_show_message (self, error->message);
      return FALSE;
    }
  tl_window_show_joint (self);
  return TRUE;
}
