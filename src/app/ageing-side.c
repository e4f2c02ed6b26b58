/* ageing-side.c: look again, and what drives the band.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-side.h"

#include "app/labelled.h"
#include "base/quantity.h"

#include <glib/gi18n.h>
#include <math.h>

/* What can be chosen in the list of drivers, as far as it was forecast. */
static const TlAgeingOutput choices[] = { TL_AGEING_HOT, TL_AGEING_GROWTH, TL_AGEING_FORCE };

struct _TlAgeingSide
{
  GtkWidget parent_instance;

  GtkLabel    *look_when;
  GtkLabel    *look_why;
  GtkLabel    *drivers_head;
  GtkDropDown *of_what;
  GtkStack    *drivers; /* a list for each choice, named by its word */
  gboolean     is_showing;
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

static void
tl_ageing_side_dispose (GObject *object)
{
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
  gtk_widget_class_bind_template_callback (widget_class, on_of_what);
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
tl_ageing_side_show (TlAgeingSide *self, const TlAgeing *ageing, const TlLanguage *language)
{
  g_autofree char *why = tl_ageing_look_text (ageing, language);
  g_autofree char *year = tl_language_number (language, ageing->span_years, 0);
  g_autofree char *head = g_strdup_printf (_ ("share of the spread in year %s"), year);

  g_return_if_fail (ageing->is_computed);
  gtk_label_set_text (self->look_when,
                      tl_language_text (language, tl_ageing_look_title (ageing->look)));
  gtk_label_set_text (self->look_why, why);
  gtk_label_set_text (self->drivers_head, head);
  show_drivers (self, ageing, language);
}
