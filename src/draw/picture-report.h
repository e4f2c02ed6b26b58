/* picture-report.h: the report of one inspection on paper: pictures with marks, measures, readings, findings, hashes.
 *
 * One function draws one page on a cairo context in millimetres; preview, print and PDF all call it. Facts stand apart from
 * opinion. Nothing is signed by the program: the block for it is filled in by hand.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/picture-paint.h"
#include "rules/as-found.h"

G_BEGIN_DECLS

typedef struct _TlPictureReport TlPictureReport;

/**
 * tl_picture_report_new:
 * @joint: the design, with its originals; pictures whose bytes are gone or cannot be decoded are shown as a grey field
 * @inspection: id
 * @date: (nullable): day to print
 *
 * Returns: (transfer full) (nullable): %NULL with @error if there is no such inspection
 */
TlPictureReport *tl_picture_report_new (const TlJoint *joint, const TlInspections *inspections, const char *inspection, const TlStock *stock, TlPaper paper, const char *date, const TlLanguage *language, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void             tl_picture_report_free (TlPictureReport *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPictureReport, tl_picture_report_free)

guint tl_picture_report_pages (const TlPictureReport *self);
void  tl_picture_report_size_mm (const TlPictureReport *self, double *width, double *height);
/* @page from 0; @cr in mm with the origin at the paper's corner. */
void  tl_picture_report_paint (const TlPictureReport *self, cairo_t *cr, guint page);
const TlAsFound *tl_picture_report_as_found (const TlPictureReport *self);
/* What should be mended before it is issued (words that a picture cannot carry): (element-type utf8) (transfer none) */
const GPtrArray *tl_picture_report_objections (const TlPictureReport *self);
/* Tagged PDF; same inspection and date, same bytes. Atomic. */
gboolean tl_picture_report_save_pdf (const TlPictureReport *self, const char *path, GError **error);

G_END_DECLS
