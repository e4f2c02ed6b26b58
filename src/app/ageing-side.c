/* ageing-side.c: look again, what drives the band, what is checked at each look.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-side.h"

#include "app/ageing-looks.h"
#include "app/chooser.h"
#include "app/labelled.h"
#include "base/file.h"
#include "base/quantity.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

/* What can be chosen in the list of drivers, as far as it was forecast. */
static const TlAgeingOutput choices[] = { TL_AGEING_HOT, TL_AGEING_GROWTH, TL_AGEING_FORCE };

struct _TlAgeingSide
{
  GtkWidget parent_instance;

  TlForecast           *forecast; /* that is shown; NULL at first */
  TlLanguage           *language;
  GtkLabel             *look_when;
  GtkLabel             *look_why;
  GtkLabel             *drivers_head;
  GtkDropDown          *of_what;
  GtkStack             *drivers; /* a list for each choice, named by its word */
  GtkGrid              *checks;
  GtkGrid              *table;
  GtkFileChooserNative *chooser; /* while it is open */
  gboolean              is_showing;
};

G_DEFINE_FINAL_TYPE (TlAgeingSide, tl_ageing_side, GTK_TYPE_WIDGET)

/* The list stays short. */
static const guint MOST_DRIVERS = 6;

static GtkWidget *
driver_row_new (const TlAgeingDriver *driver, double share, const TlLanguage *language)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3),
            *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8),
            *name =
                gtk_label_new (tl_language_text (language, tl_ageing_input_title (driver->input))),
            *meter = gtk_level_bar_new_for_interval (0.0, 1.0), *figure, *range;
  g_autofree char *percent = tl_quantity_format (round (100.0 * share), "%", language);
  g_autofree char *drawn = tl_ageing_driver_text (driver, language);

  figure = gtk_label_new (percent);
  range = gtk_label_new (drawn);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_set_valign (figure, GTK_ALIGN_START);
  gtk_widget_add_css_class (figure, "figure-words");
  gtk_label_set_xalign (GTK_LABEL (range), 0);
  gtk_label_set_wrap (GTK_LABEL (range), TRUE);
  gtk_widget_add_css_class (range, "caption-text");
  gtk_level_bar_set_value (GTK_LEVEL_BAR (meter), share);
  gtk_widget_add_css_class (meter, "share");
  gtk_accessible_update_property (GTK_ACCESSIBLE (meter), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  gtk_label_get_text (GTK_LABEL (name)),
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, percent, -1);
  gtk_box_append (GTK_BOX (head), name);
  gtk_box_append (GTK_BOX (head), figure);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), meter);
  gtk_box_append (GTK_BOX (box), range);
  return box;
}

static GtkWidget *
drivers_new (const TlAgeing *ageing, TlAgeingOutput output, const TlLanguage *language)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  guint      order[TL_N_AGEING_INPUTS], n = tl_ageing_drivers_of (ageing, output, order);

  for (guint i = 0; i < MIN (n, MOST_DRIVERS); i++)
    {
      const TlAgeingDriver *driver = &ageing->drivers[order[i]];

      gtk_box_append (GTK_BOX (box), driver_row_new (driver, driver->share[output], language));
    }
  if (n == 0)
    {
      GtkWidget *none = gtk_label_new (_ ("Nothing: the band has no width."));

      gtk_label_set_xalign (GTK_LABEL (none), 0);
      gtk_box_append (GTK_BOX (box), none);
    }
  return box;
}

static void
on_of_what (GtkDropDown *choice, GParamSpec *pspec, TlAgeingSide *self)
{
  if (!self->is_showing)
    gtk_stack_set_visible_child_name (self->drivers, tl_choice_id (choice));
}

/* --- calendar --- */

static const TlJoint *
joint_of (TlAgeingSide *self)
{
  return tl_forecast_verdict (self->forecast)->assembly->joint;
}

gboolean
tl_ageing_side_save_calendar (TlAgeingSide *self, const char *path, GError **error)
{
  const TlLooks *looks = self->forecast == NULL ? NULL : tl_forecast_looks (self->forecast);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *today = g_date_time_format (now, "%Y-%m-%d"), *text = NULL;

  if (looks == NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                           _ ("There are no looks to write before the years are reckoned."));
      return FALSE;
    }
  text = tl_looks_calendar (looks, tl_forecast_verdict (self->forecast),
                            joint_of (self)->date == NULL ? today : NULL, today, self->language,
                            error);
  return text != NULL && tl_file_save (path, text, strlen (text), error);
}

static void
save_calendar_to_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlAgeingSide    *self = TL_AGEING_SIDE (widget);
  const char      *path = g_variant_get_string (target, NULL);
  g_autofree char *shown = g_filename_display_name (path), *told = NULL;
  g_autoptr (GError) error = NULL;

  if (!tl_ageing_side_save_calendar (self, path, &error))
    {
      gtk_widget_activate_action (widget, "win.warn", "s", error->message);
      return;
    }
  told = g_strdup_printf (
      joint_of (self)->date == NULL
          ? _ ("Written to %s. The joint says no day on which it was made: counted from today.")
          : _ ("Written to %s."),
      shown);
  gtk_widget_activate_action (widget, "win.tell", "s", told);
}

static void
on_calendar_chosen (GtkNativeDialog *dialog, int response, TlAgeingSide *self)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, NULL);

  if (path != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "looks.save-calendar-to", "s", path);
}

static void
save_calendar_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlAgeingSide    *self = TL_AGEING_SIDE (widget);
  g_autofree char *title = g_strdup (joint_of (self)->name), *file = NULL;

  if (self->chooser != NULL || self->forecast == NULL)
    return;
  tl_chooser_new (&self->chooser, widget, _ ("Calendar of the looks"), GTK_FILE_CHOOSER_ACTION_SAVE,
                  _ ("_Save"));
  if (title != NULL)
    g_strdelimit (title, "/", '-');
  file = g_strconcat (title != NULL && *title != '\0' ? title : "joint", ".ics", NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), file);
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (on_calendar_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* --- widget --- */

static void
tl_ageing_side_dispose (GObject *object)
{
  TlAgeingSide *self = TL_AGEING_SIDE (object);

  tl_chooser_close (&self->chooser);
  g_clear_pointer (&self->forecast, tl_forecast_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), TL_TYPE_AGEING_SIDE);
  tl_widget_clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (tl_ageing_side_parent_class)->dispose (object);
}

static void
tl_ageing_side_class_init (TlAgeingSideClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_ageing_side_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/ageing-side.ui");
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, look_when);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, look_why);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, drivers_head);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, of_what);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, drivers);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, checks);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingSide, table);
  gtk_widget_class_bind_template_callback (widget_class, on_of_what);
  gtk_widget_class_install_action (widget_class, "looks.save-calendar", NULL, save_calendar_action);
  gtk_widget_class_install_action (widget_class, "looks.save-calendar-to", "s",
                                   save_calendar_to_action);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tl_ageing_side_init (TlAgeingSide *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* The choice stays where the forecast still has it. */
static void
show_drivers (TlAgeingSide *self, const TlAgeing *ageing, const TlLanguage *language)
{
  const char      *texts[G_N_ELEMENTS (choices) + 1] = { NULL };
  const char      *ids[G_N_ELEMENTS (choices) + 1] = { NULL };
  const char      *before = gtk_stack_get_visible_child_name (self->drivers);
  g_autofree char *kept = g_strdup (before);
  GtkWidget       *old;
  guint            n = 0;

  while ((old = gtk_widget_get_first_child (GTK_WIDGET (self->drivers))) != NULL)
    gtk_stack_remove (self->drivers, old);
  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    if (ageing->has[choices[i]])
      {
        texts[n] = tl_language_text (language, tl_ageing_output_title (choices[i]));
        ids[n] = tl_ageing_output_word (choices[i]);
        gtk_stack_add_named (self->drivers, drivers_new (ageing, choices[i], language), ids[n++]);
      }
  self->is_showing = TRUE;
  tl_choice_fill (self->of_what, texts, ids);
  if (kept != NULL && g_strv_contains (ids, kept))
    tl_choice_select (self->of_what, kept);
  self->is_showing = FALSE;
  gtk_stack_set_visible_child_name (self->drivers, tl_choice_id (self->of_what));
}

void
tl_ageing_side_show (TlAgeingSide *self, const TlForecast *forecast, const TlLanguage *language)
{
  const TlAgeing  *ageing = tl_forecast_ageing (forecast);
  g_autofree char *why = tl_ageing_look_text (ageing, language);
  g_autofree char *year = tl_language_number (language, ageing->span_years, 0);
  g_autofree char *head = g_strdup_printf (_ ("share of the spread in year %s"), year);

  g_return_if_fail (ageing->is_computed);
  tl_forecast_ref ((TlForecast *) forecast);
  g_clear_pointer (&self->forecast, tl_forecast_unref);
  self->forecast = (TlForecast *) forecast;
  tl_language_ref ((TlLanguage *) language);
  g_clear_pointer (&self->language, tl_language_unref);
  self->language = (TlLanguage *) language;
  gtk_label_set_text (self->look_when,
                      tl_language_text (language, tl_ageing_look_title (ageing->look)));
  gtk_label_set_text (self->look_why, why);
  gtk_label_set_text (self->drivers_head, head);
  show_drivers (self, ageing, language);
  tl_ageing_looks_fill_checks (self->checks, tl_forecast_looks (forecast), language);
  tl_ageing_looks_fill_table (self->table, tl_forecast_looks (forecast), language);
}
