/* job-sheet.h: a folder of joints on paper: the register, then each joint's step sheet, in one PDF.
 *
 * The register says of each joint its verdict and worst finding, what all of them take together, and when to look at them;
 * its lines lead to the sheets, which also stand in the outline. Sheets are those of sheet.h, laid out one at a time, so
 * that a large folder needs no more memory than its PDF.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/sheet.h"
#include "plan/job.h"

G_BEGIN_DECLS

/**
 * tl_job_sheet_pdf:
 * @stock: that of the job
 * @language: that of the job
 *
 * The creation date is the day of the job (2020-01-01 if it has none), so that the same folder gives the same bytes.
 * Returns: (transfer full) (nullable): the PDF; %NULL with %TL_ERROR_FILE if it cannot be made
 */
GByteArray *tl_job_sheet_pdf (const TlJob *job, const TlStock *stock, TlPaper paper, const TlLanguage *language, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
