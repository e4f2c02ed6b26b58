/* window-left.c: unsaved work put by, and asked about after a crash.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

#include <glib/gi18n.h>

static void ask_next (TlWindow *self);

static void
bring_back (TlWindow *self, const TlLeftWork *left)
{
  g_autoptr (GPtrArray) missing = NULL;
  g_autoptr (GError) error = NULL;

  if (!tl_left_work_open (left, self->document, &missing, &error))
    {
      tl_window_show_message (self, error->message);
      return;
    }
  tl_window_show_joint (self);
  if (missing != NULL && missing->len > 0)
    {
      g_autofree char *names = NULL, *text = NULL;

      g_ptr_array_add (missing, NULL);
      names = g_strjoinv (", ", (char **) missing->pdata);
      text = g_strdup_printf (_ ("The originals of these pictures are nowhere: %s."), names);
      tl_window_show_message (self, text);
    }
}

static void
on_answer (AdwMessageDialog *dialog, const char *answer, TlWindow *self)
{
  const TlLeftWork *left;
  gboolean          is_open = g_str_equal (answer, "open");

  if (self->left == NULL || self->left->len == 0)
    return;
  left = g_ptr_array_index (self->left, 0);
  if (is_open)
    bring_back (self, left);
  else if (g_str_equal (answer, "discard"))
    tl_left_work_discard (left);
  g_ptr_array_remove_index (self->left, 0);
  /* One window holds one joint: what else there is stays for the next start. */
  if (!is_open)
    ask_next (self);
}

static void
ask_next (TlWindow *self)
{
  const TlLeftWork *left;
  g_autofree char  *body = NULL;
  GtkWidget        *dialog;

  if (self->left == NULL || self->left->len == 0)
    return;
  left = g_ptr_array_index (self->left, 0);
  body = g_strdup_printf (_ ("“%s” was changed and not saved when Tinlap ended, %s."), left->title,
                          left->when);
  dialog = adw_message_dialog_new (GTK_WINDOW (self), _ ("Bring unsaved work back?"), body);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "later", _ ("_Later"), "discard",
                                    _ ("_Discard"), "open", _ ("_Bring back"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "discard",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "open");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "later");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
tl_window_keep_work (TlWindow *self, const char *folder)
{
  g_return_if_fail (self->kept == NULL);
  self->kept = tl_kept_work_new (self->document, folder);
}

void
tl_window_offer_left_work (TlWindow *self, const char *folder)
{
  g_clear_pointer (&self->left, g_ptr_array_unref);
  self->left = tl_left_work_find (folder);
  ask_next (self);
}
