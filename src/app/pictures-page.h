/* pictures-page.h: the inspector's page: pictures of the made joint, what is measured and marked in them, and the report.
 *
 * Actions: pictures.open, pictures.paste, pictures.tool (tool word and detail), pictures.report, pictures.issue,
 * pictures.save-report, pictures.print-report, pictures.save-annotated, pictures.save-findings, pictures.compare.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector-side.h"
#include "app/picture-canvas.h"

G_BEGIN_DECLS

#define TL_TYPE_PICTURES_PAGE (tl_pictures_page_get_type ())
G_DECLARE_FINAL_TYPE (TlPicturesPage, tl_pictures_page, TL, PICTURES_PAGE, GtkWidget)

void             tl_pictures_page_set_document (TlPicturesPage *self, TlDocument *document, GSettings *settings);
TlInspector     *tl_pictures_page_inspector (TlPicturesPage *self);
TlPictureCanvas *tl_pictures_page_canvas (TlPicturesPage *self);
TlInspectorSide *tl_pictures_page_side (TlPicturesPage *self);
/* %TRUE while a picture is read or decoded. */
gboolean         tl_pictures_page_is_busy (TlPicturesPage *self);
/* Takes a picture in, without blocking; what is wrong is told. */
void             tl_pictures_page_add_file (TlPicturesPage *self, GFile *file);
gboolean         tl_pictures_page_save_report (TlPicturesPage *self, const char *path, GError **error);
gboolean         tl_pictures_page_save_annotated (TlPicturesPage *self, const char *path, GError **error);
/* By the ending of @path: ".json", else CSV. */
gboolean         tl_pictures_page_save_findings (TlPicturesPage *self, const char *path, GError **error);
/* Into a folder, made if need be, without their position; how many went where is told. Nothing is written over. */
gboolean         tl_pictures_page_save_originals (TlPicturesPage *self, const char *folder, GError **error);
void             tl_pictures_page_zoom (TlPicturesPage *self, const char *how);
/* %TRUE for a name that ends as a picture does. */
gboolean         tl_pictures_page_takes (GFile *file);

G_END_DECLS
