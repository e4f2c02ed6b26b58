/* main.c: tinlap [FILE...]
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/application.h"

#include <glib/gi18n.h>
#include <locale.h>

/* Where the software renderer is asked for, nothing is drawn by OpenGL; GTK loads its drivers all the same, which takes
 * longer and more memory than all of Tinlap, unless it is told. To be called before GTK is. */
static void
leave_gl_out (void)
{
  const char      *asked = g_getenv ("GDK_DEBUG");
  g_autofree char *flags =
      asked == NULL ? g_strdup ("gl-disable") : g_strconcat (asked, ",gl-disable", NULL);

  if (g_strcmp0 (g_getenv ("GSK_RENDERER"), "cairo") == 0)
    g_setenv ("GDK_DEBUG", flags, TRUE);
}

int
main (int argc, char **argv)
{
  g_autoptr (TlApplication) application = NULL;

  leave_gl_out ();
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, TL_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_application_name (_ ("Tinlap"));
  application = tl_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
