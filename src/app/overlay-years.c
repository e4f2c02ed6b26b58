/* overlay-years.c: a slider with four ages.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/overlay-years.h"

#include "app/labelled.h"

#include <glib/gi18n.h>

static const double ages[] = { 0.0, 5.0, 10.0, 20.0 };

struct _TlOverlayYears
{
  GtkWidget parent_instance;

  TlBench  *bench;
  GtkScale *scale;
};

G_DEFINE_FINAL_TYPE (TlOverlayYears, tl_overlay_years, GTK_TYPE_WIDGET)

static guint
chosen (const TlOverlayYears *self)
{
  double value = gtk_range_get_value (GTK_RANGE (self->scale));

  return (guint) CLAMP (value + 0.5, 0.0, (double) G_N_ELEMENTS (ages) - 0.5);
}

static char *
age_text (guint index)
{
  gulong years = (gulong) ages[index];

  return years == 0 ? g_strdup (_ ("new"))
                    : g_strdup_printf (g_dngettext (NULL, "%lu year", "%lu years", years), years);
}

static void
on_value (TlOverlayYears *self)
{
  g_autofree char *text = age_text (chosen (self));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scale), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                  text, -1);
  if (self->bench != NULL)
    tl_bench_set_overlay_years (self->bench, ages[chosen (self)]);
}

static void
on_overlay (TlOverlayYears *self)
{
  TlOverlay overlay = tl_bench_overlay (self->bench);

  gtk_widget_set_visible (GTK_WIDGET (self),
                          overlay == TL_OVERLAY_HEAT || overlay == TL_OVERLAY_CURRENT);
  for (guint i = 0; i < G_N_ELEMENTS (ages); i++)
    if (ages[i] == tl_bench_overlay_years (self->bench) && i != chosen (self))
      gtk_range_set_value (GTK_RANGE (self->scale), i);
}

static void
tl_overlay_years_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TL_TYPE_OVERLAY_YEARS);
  tl_widget_clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (tl_overlay_years_parent_class)->dispose (object);
}

static void
tl_overlay_years_class_init (TlOverlayYearsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_overlay_years_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/overlay-years.ui");
  gtk_widget_class_bind_template_child (widget_class, TlOverlayYears, scale);
  gtk_widget_class_bind_template_callback (widget_class, on_value);
}

static void
tl_overlay_years_init (TlOverlayYears *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                              12);
  for (guint i = 0; i < G_N_ELEMENTS (ages); i++)
    {
      g_autofree char *text = age_text (i);

      gtk_scale_add_mark (self->scale, i, GTK_POS_BOTTOM, text);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

void
tl_overlay_years_set_bench (TlOverlayYears *self, TlBench *bench)
{
  g_return_if_fail (self->bench == NULL);
  self->bench = bench;
  g_signal_connect_object (bench, "overlay", G_CALLBACK (on_overlay), self, G_CONNECT_SWAPPED);
  on_overlay (self);
}
