/* sheet.h: the step sheet on paper.
 *
 * One function draws one page on a cairo context in millimetres; preview, print and PDF all call it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing.h"

G_BEGIN_DECLS

typedef struct _TlSheet TlSheet;

/* @date: (nullable). (transfer full) */
TlSheet *tl_sheet_new (const TlVerdict *verdict, TlPaper paper, const char *date, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
void     tl_sheet_free (TlSheet *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlSheet, tl_sheet_free)

guint tl_sheet_pages (const TlSheet *self);
void  tl_sheet_size_mm (const TlSheet *self, double *width, double *height);
/* @page from 0; @cr in mm with the origin at the paper's corner. */
void  tl_sheet_paint (const TlSheet *self, cairo_t *cr, guint page);
const TlStepSheet *tl_sheet_steps (const TlSheet *self);
/* Of any sheet on this paper, in mm. */
void  tl_paper_size_mm (TlPaper paper, double *width, double *height);

/* Tagged PDF, black only; the creation date is @date (or 2020-01-01 if NULL), so that the same joint gives the same
 * bytes. Atomic. */
gboolean tl_sheet_save_pdf (const TlSheet *self, const char *path, GError **error);

G_END_DECLS
