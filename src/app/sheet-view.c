/* sheet-view.c: a page of the sheet on screen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/sheet-view.h"

#include <glib/gi18n.h>
#include <math.h>

struct _TlSheetView
{
  GtkWidget parent_instance;

  const TlSheet *sheet;
  guint          page;
  double         scale;
};

G_DEFINE_FINAL_TYPE (TlSheetView, tl_sheet_view, GTK_TYPE_WIDGET)

static void
tl_sheet_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlSheetView    *self = TL_SHEET_VIEW (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                             (float) gtk_widget_get_height (widget));
  cairo_t        *cr;

  if (self->sheet == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  cairo_scale (cr, self->scale, self->scale);
  tl_sheet_paint (self->sheet, cr, self->page);
  cairo_destroy (cr);
}

static void
tl_sheet_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  TlSheetView *self = TL_SHEET_VIEW (widget);
  double       width = 0, height = 0;

  if (self->sheet != NULL)
    tl_sheet_size_mm (self->sheet, &width, &height);
  *minimum = *natural =
      (int) ceil ((orientation == GTK_ORIENTATION_HORIZONTAL ? width : height) * self->scale);
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_sheet_view_class_init (TlSheetViewClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = tl_sheet_view_snapshot;
  GTK_WIDGET_CLASS (klass)->measure = tl_sheet_view_measure;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tl_sheet_view_init (TlSheetView *self)
{
  gtk_widget_add_css_class (GTK_WIDGET (self), "sheet");
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_START);
}

GtkWidget *
tl_sheet_view_new (const TlSheet *sheet, guint page, double scale)
{
  TlSheetView     *self = g_object_new (TL_TYPE_SHEET_VIEW, NULL);
  g_autofree char *name = g_strdup_printf (_ ("Page %u of %u; “As text” reads it out"), page + 1,
                                           tl_sheet_pages (sheet));

  self->sheet = sheet;
  self->page = page;
  self->scale = scale;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return GTK_WIDGET (self);
}

void
tl_sheet_view_forget (TlSheetView *self)
{
  self->sheet = NULL;
}
