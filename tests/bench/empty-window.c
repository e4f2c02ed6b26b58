/* empty-window.c: a window of the same toolkit with nothing in it, to be compared with.
 *
 * Like the program itself it adds a line to TINLAP_STATUS_FILE once its first frame is painted.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <adwaita.h>
#include <stdio.h>

static void
on_frame (GdkFrameClock *clock, gpointer data)
{
  FILE *file = g_getenv ("TINLAP_STATUS_FILE") != NULL
                   ? fopen (g_getenv ("TINLAP_STATUS_FILE"), "a")
                   : NULL;

  if (file == NULL)
    return;
  fputs ("painted\n", file);
  fclose (file);
}

static void
on_realize (GtkWidget *window, gpointer data)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (on_frame),
                    NULL);
}

static void
on_activate (GApplication *application, gpointer data)
{
  GtkWidget *window = adw_application_window_new (GTK_APPLICATION (application));

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  g_signal_connect (window, "realize", G_CALLBACK (on_realize), NULL);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) application =
      adw_application_new ("org.tinlap.Empty", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (on_activate), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
