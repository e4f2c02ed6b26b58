/* actions.c: the table of actions, and what is made from it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/actions.h"

#include <glib/gi18n.h>

static const TlAction actions[] = {
  { "win.first-page",
    { "<Control>n" },
    TL_KEYS_APPLICATION,
    N_ ("Joint"),
    N_ ("New joint and examples") },
  { "win.open", { "<Control>o" }, TL_KEYS_APPLICATION, N_ ("Joint"), N_ ("Open a file") },
  { "win.save", { "<Control>s" }, TL_KEYS_APPLICATION, N_ ("Joint"), N_ ("Save") },
  { "win.save-as",
    { "<Control><Shift>s" },
    TL_KEYS_APPLICATION,
    N_ ("Joint"),
    N_ ("Save under another name") },
  { "win.print", { "<Control>p" }, TL_KEYS_APPLICATION, N_ ("Joint"), N_ ("Print the step sheet") },
  { "win.export-pdf",
    { "<Control>e" },
    TL_KEYS_APPLICATION,
    N_ ("Joint"),
    N_ ("Step sheet as PDF") },
  { "win.close", { "<Control>w" }, TL_KEYS_APPLICATION, N_ ("Joint"), N_ ("Close the window") },
  { "win.undo", { "<Control>z" }, TL_KEYS_WINDOW, N_ ("Joint"), N_ ("Undo") },
  { "win.redo", { "<Control><Shift>z", "<Control>y" }, TL_KEYS_WINDOW, N_ ("Joint"), N_ ("Redo") },
  { "win.page::build", { "<Control>1" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Page Build") },
  { "win.page::steps", { "<Control>2" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Page Steps") },
  { "win.page::ageing", { "<Control>3" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Page Ageing") },
  { "win.page::pictures",
    { "<Control>4", "<Control>5" },
    TL_KEYS_APPLICATION,
    N_ ("Window"),
    N_ ("Page Pictures") },
  { "win.next-pane", { "F6" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Next pane") },
  { "win.find-part", { "<Control>f" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Find a part") },
  { "win.own-parts", { "<Control>m" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("My parts") },
  { "win.toggle-parts", { "F9" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Show or hide Parts") },
  { "win.toggle-findings",
    { "F10" },
    TL_KEYS_APPLICATION,
    N_ ("Window"),
    N_ ("Show or hide Findings") },
  { "win.shortcuts",
    { "<Control>question", "F1" },
    TL_KEYS_APPLICATION,
    N_ ("Window"),
    N_ ("Keys") },
  { "app.preferences",
    { "<Control>comma" },
    TL_KEYS_APPLICATION,
    N_ ("Window"),
    N_ ("Preferences") },
  { "app.quit", { "<Control>q" }, TL_KEYS_APPLICATION, N_ ("Window"), N_ ("Leave Tinlap") },
  { "win.copy-drawing::png",
    { "<Control><Shift>c" },
    TL_KEYS_WINDOW,
    N_ ("Bench"),
    N_ ("Copy the drawing as a picture") },
  { "win.zoom::in",
    { "<Control>plus", "<Control>equal" },
    TL_KEYS_WINDOW,
    N_ ("Bench"),
    N_ ("Larger") },
  { "win.zoom::out", { "<Control>minus" }, TL_KEYS_WINDOW, N_ ("Bench"), N_ ("Smaller") },
  { "win.zoom::fit", { "<Control>0" }, TL_KEYS_WINDOW, N_ ("Bench"), N_ ("Fit to the window") },
  { "bench.walk",
    { "Up", "Down" },
    TL_KEYS_BENCH,
    N_ ("Bench"),
    N_ ("Layer or gap before or after") },
  { "bench.insert",
    { "Return" },
    TL_KEYS_BENCH,
    N_ ("Bench"),
    N_ ("Put the chosen part into the gap") },
  { "bench.move", { "<Alt>Up", "<Alt>Down" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Move the layer") },
  { "bench.duplicate", { "<Control>d" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Copy the layer") },
  { "bench.remove", { "Delete" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Take the layer out") },
  { "bench.edit", { "F2" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Edit the layer's facts") },
  { "bench.explain",
    { "space" },
    TL_KEYS_BENCH,
    N_ ("Bench"),
    N_ ("Explain the layer or contact") },
  { "bench.overlay::heat", { "h" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Heat on the drawing") },
  { "bench.overlay::current", { "c" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Current on the drawing") },
  { "bench.overlay::wet", { "w" }, TL_KEYS_BENCH, N_ ("Bench"), N_ ("Wet paths on the drawing") },
  { "picture.scale",
    { "s", "q" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Scale, or four corners of a rectangle") },
  { "picture.length",
    { "l", "w", "g" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Measure a length, a width, a gap") },
  { "picture.round",
    { "d", "a", "e" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Measure a diameter, an angle, an area") },
  { "picture.mark",
    { "m", "b", "f" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Mark a point, a box, freehand") },
  { "picture.walk", { "n", "p" }, TL_KEYS_BENCH, N_ ("Picture"), N_ ("Next or last thing drawn") },
  { "picture.step",
    { "Left", "<Shift>Left", "<Control>Left" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Cross, point or thing by a step, ten, or a tenth of a pixel") },
  { "picture.point",
    { "Return" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Set a point; on the last point: end") },
  { "picture.handle", { "space" }, TL_KEYS_BENCH, N_ ("Picture"), N_ ("Next point of the thing") },
  { "picture.back",
    { "BackSpace" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Take the last point back") },
  { "picture.remove", { "Delete" }, TL_KEYS_BENCH, N_ ("Picture"), N_ ("Remove the thing") },
  { "pictures.paste", { "<Control>v" }, TL_KEYS_BENCH, N_ ("Picture"), N_ ("Paste a picture") },
  { "pictures.save-originals",
    { "<Control><Shift>o" },
    TL_KEYS_BENCH,
    N_ ("Picture"),
    N_ ("Save the original pictures") },
  { "bench.cancel",
    { "Escape" },
    TL_KEYS_BENCH,
    N_ ("Bench"),
    N_ ("Cancel a drag, or select nothing") },
};

const TlAction *
tl_actions (guint *count)
{
  *count = G_N_ELEMENTS (actions);
  return actions;
}

void
tl_actions_install (GtkApplication *application)
{
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    if (actions[i].place == TL_KEYS_APPLICATION)
      gtk_application_set_accels_for_action (application, actions[i].action,
                                             (const char *const *) actions[i].keys);
}

GtkEventController *
tl_actions_controller (void)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();

  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    for (guint k = 0; actions[i].place == TL_KEYS_WINDOW && actions[i].keys[k] != NULL; k++)
      {
        g_autofree char *name = NULL;
        g_autoptr (GVariant) target = NULL;
        GtkShortcut *shortcut;

        g_action_parse_detailed_name (actions[i].action, &name, &target, NULL);
        shortcut = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (actions[i].keys[k]),
                                     gtk_named_action_new (name));
        if (target != NULL)
          gtk_shortcut_set_arguments (shortcut, target);
        gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller), shortcut);
      }
  return controller;
}

/* The shortcuts window has no functions for its content: it is made from a description of itself. */
GtkWidget *
tl_actions_window (void)
{
  g_autoptr (GString) xml =
      g_string_new ("<interface><object class='GtkShortcutsWindow' id='window'>"
                    "<property name='modal'>1</property><child>"
                    "<object class='GtkShortcutsSection'>"
                    "<property name='section-name'>all</property>"
                    "<property name='max-height'>14</property>");
  g_autoptr (GtkBuilder) builder = NULL;
  const char *group = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      g_autofree char *keys = g_strjoinv (" ", (char **) actions[i].keys);
      g_autofree char *row =
          g_markup_printf_escaped ("<child><object class='GtkShortcutsShortcut'>"
                                   "<property name='accelerator'>%s</property>"
                                   "<property name='title'>%s</property></object></child>",
                                   keys, _ (actions[i].label));

      if (group == NULL || !g_str_equal (group, actions[i].group))
        {
          g_autofree char *head =
              g_markup_printf_escaped ("<child><object class='GtkShortcutsGroup'>"
                                       "<property name='title'>%s</property>",
                                       _ (actions[i].group));

          g_string_append (xml, group == NULL ? "" : "</object></child>");
          g_string_append (xml, head);
          group = actions[i].group;
        }
      g_string_append (xml, row);
    }
  g_string_append (xml, "</object></child></object></child></object></interface>");
  builder = gtk_builder_new_from_string (xml->str, (gssize) xml->len);
  return GTK_WIDGET (gtk_builder_get_object (builder, "window"));
}
