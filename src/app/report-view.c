/* report-view.c: pages of the report.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/report-view.h"

#include "app/labelled.h"
#include "app/print.h"

#include <glib/gi18n.h>
#include <math.h>

/* --- one page --- */
#define TL_TYPE_REPORT_PAGE (tl_report_page_get_type ())
G_DECLARE_FINAL_TYPE (TlReportPage, tl_report_page, TL, REPORT_PAGE, GtkWidget)

struct _TlReportPage
{
  GtkWidget parent_instance;

  TlReportView *view;
  guint         page;
};

G_DEFINE_FINAL_TYPE (TlReportPage, tl_report_page, GTK_TYPE_WIDGET)

struct _TlReportView
{
  GtkWidget parent_instance;

  TlInspector     *inspector;
  GSettings       *settings;
  TlPictureReport *report;     /* (nullable) */
  gboolean         is_current; /* @report is of the document as it is */
  GtkBox          *box;
  GtkLabel        *objections;
  GtkBox          *pages;
};

G_DEFINE_FINAL_TYPE (TlReportView, tl_report_view, GTK_TYPE_WIDGET)

static const double PX_PER_MM = 96.0 / 25.4 * 0.9;

static void
tl_report_page_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlReportPage   *self = TL_REPORT_PAGE (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                             (float) gtk_widget_get_height (widget));
  cairo_t        *cr;

  if (self->view == NULL || self->view->report == NULL
      || self->page >= tl_picture_report_pages (self->view->report))
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  tl_picture_report_paint (self->view->report, cr, self->page);
  cairo_destroy (cr);
}

static void
tl_report_page_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  TlReportPage *self = TL_REPORT_PAGE (widget);
  double        width = 0, height = 0;

  if (self->view != NULL && self->view->report != NULL)
    tl_picture_report_size_mm (self->view->report, &width, &height);
  *minimum = *natural =
      (int) ceil ((orientation == GTK_ORIENTATION_HORIZONTAL ? width : height) * PX_PER_MM);
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_report_page_class_init (TlReportPageClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = tl_report_page_snapshot;
  GTK_WIDGET_CLASS (klass)->measure = tl_report_page_measure;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tl_report_page_init (TlReportPage *self)
{
  gtk_widget_add_css_class (GTK_WIDGET (self), "sheet");
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}

/* --- the report --- */

static void
drop (TlReportView *self)
{
  GtkWidget *page;

  while ((page = gtk_widget_get_first_child (GTK_WIDGET (self->pages))) != NULL)
    {
      TL_REPORT_PAGE (page)->view = NULL;
      gtk_box_remove (self->pages, page);
    }
  g_clear_pointer (&self->report, tl_picture_report_free);
}

static TlPictureReport *
make (TlReportView *self, GError **error)
{
  TlDocument         *document = tl_inspector_document (self->inspector);
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);
  const TlLanguage   *language = tl_document_language (document);
  gint                paper = g_settings_get_enum (self->settings, "paper");
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *day = g_date_time_format (now, "%Y-%m-%d");

  if (inspection == NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                           _ ("Nothing was inspected yet: there is nothing to report."));
      return NULL;
    }
  return tl_picture_report_new (tl_document_joint (document),
                                tl_inspector_inspections (self->inspector), inspection->id,
                                tl_document_stock (document),
                                paper == 0   ? tl_language_paper (language)
                                : paper == 1 ? TL_PAPER_A4
                                             : TL_PAPER_LETTER,
                                day, language, error);
}

static void
show_objections (TlReportView *self)
{
  const GPtrArray *objections =
      self->report == NULL ? NULL : tl_picture_report_objections (self->report);
  GString *text = g_string_new (NULL);

  for (guint i = 0; objections != NULL && i < objections->len; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : "\n",
                            (const char *) g_ptr_array_index (objections, i));
  gtk_label_set_text (self->objections, text->str);
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->objections)), text->len > 0);
  g_string_free (text, TRUE);
}

const TlPictureReport *
tl_report_view_report (TlReportView *self, GError **error)
{
  if (self->is_current && self->report != NULL)
    return self->report;
  drop (self);
  self->report = make (self, error);
  self->is_current = self->report != NULL;
  for (guint i = 0; self->report != NULL && i < tl_picture_report_pages (self->report); i++)
    {
      TlReportPage    *page = g_object_new (TL_TYPE_REPORT_PAGE, NULL);
      g_autofree char *name = g_strdup_printf (_ ("Page %u of %u of the report"), i + 1,
                                               tl_picture_report_pages (self->report));

      page->view = self;
      page->page = i;
      gtk_accessible_update_property (GTK_ACCESSIBLE (page), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                      -1);
      gtk_box_append (self->pages, GTK_WIDGET (page));
    }
  show_objections (self);
  return self->report;
}

static void
on_changed (TlReportView *self)
{
  self->is_current = FALSE;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    tl_report_view_report (self, NULL);
}

static void
tl_report_view_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tl_report_view_parent_class)->map (widget);
  tl_report_view_report (TL_REPORT_VIEW (widget), NULL);
}

/* --- printing --- */

static void
paint_page (cairo_t *cr, guint page, gpointer report)
{
  tl_picture_report_paint (report, cr, page);
}

void
tl_report_view_print (TlReportView *self, GtkWindow *parent)
{
  TlDocument      *document = tl_inspector_document (self->inspector);
  g_autofree char *title = tl_document_title (document);
  g_autoptr (GError) error = NULL;
  double width, height;

  if (tl_report_view_report (self, &error) != NULL)
    {
      tl_picture_report_size_mm (self->report, &width, &height);
      if (tl_print (parent, title, tl_picture_report_pages (self->report), width, paint_page,
                    self->report, &error))
        return;
    }
  tl_document_refuse (document, error == NULL ? _ ("Printing failed.") : error->message);
}

/* --- widget --- */

static void
tl_report_view_dispose (GObject *object)
{
  TlReportView *self = TL_REPORT_VIEW (object);

  if (self->pages != NULL)
    drop (self);
  self->pages = NULL;
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->inspector);
  g_clear_object (&self->settings);
  G_OBJECT_CLASS (tl_report_view_parent_class)->dispose (object);
}

static void
tl_report_view_class_init (TlReportViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_report_view_dispose;
  GTK_WIDGET_CLASS (klass)->map = tl_report_view_map;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_report_view_init (TlReportView *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new (),
            *notice = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  gtk_widget_set_margin_top (GTK_WIDGET (self->box), 12);
  gtk_widget_set_margin_bottom (GTK_WIDGET (self->box), 12);
  self->objections = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->objections, TRUE);
  gtk_label_set_xalign (self->objections, 0);
  gtk_widget_add_css_class (notice, "notice");
  gtk_widget_set_visible (notice, FALSE);
  gtk_box_append (GTK_BOX (notice), GTK_WIDGET (self->objections));
  gtk_box_append (self->box, notice);
  self->pages = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 16));
  gtk_box_append (self->box, GTK_WIDGET (self->pages));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->box));
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
}

void
tl_report_view_set_inspector (TlReportView *self, TlInspector *inspector, GSettings *settings)
{
  g_return_if_fail (self->inspector == NULL);
  self->inspector = g_object_ref (inspector);
  self->settings = g_object_ref (settings);
  g_signal_connect_object (inspector, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (settings, "changed::paper", G_CALLBACK (on_changed), self,
                           G_CONNECT_SWAPPED);
}
