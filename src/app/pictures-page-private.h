/* pictures-page-private.h: what the page's files share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/photo-strip.h"
#include "app/pictures-page.h"
#include "app/report-view.h"

G_BEGIN_DECLS

struct _TlPicturesPage
{
  GtkWidget parent_instance;

  TlInspector          *inspector;
  TlPictureLevels      *levels;
  guint                 reading; /* files that are being read */
  GtkStack             *views;   /* picture, empty, report */
  GtkBox               *columns;
  TlPictureCanvas      *canvas;
  TlPhotoStrip         *strip;
  TlInspectorSide      *side;
  TlReportView         *report;
  GtkBox               *tools;
  GtkToggleButton      *select, *scale, *square, *report_button;
  GtkMenuButton        *measure, *mark;
  GtkLabel             *hint;
  GtkDropDown          *compare;
  GtkWidget            *report_tools;
  GtkWidget            *picture_tools;
  GtkWidget            *zoom_tools;
  GtkLabel             *empty_reason;
  GtkFileChooserNative *chooser;
  guint                 folding, focusing; /* sources */
  gboolean              is_showing;
};

/* Actions that bring pictures in and reports out. */
void tl_pictures_page_install_files (GtkWidgetClass *klass);
void tl_pictures_page_add_drop (TlPicturesPage *self);

G_END_DECLS
