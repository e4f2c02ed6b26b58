/* record-lines.h: which lines the form of a record has, and what its lists offer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/record-form.h"

G_BEGIN_DECLS

/* Line of a measure that is no slot of it: which fact of the design it checks. */
#define TL_LINE_CHECKS "checks"

/* Table for a scale, measure, mark or reading of its kind. (transfer none) */
const TlRecordLine *tl_record_lines (gconstpointer record);
/* Texts of an inspection, of a picture, and of a value found by other means. */
const TlRecordLine *tl_record_lines_inspection (void);
const TlRecordLine *tl_record_lines_photo (void);
const TlRecordLine *tl_record_lines_found (void);
/* Fills the lists of a form with what the joint and the inspection have now. */
void tl_record_lines_fill (TlRecordForm *form, TlInspector *inspector, gconstpointer record);

G_END_DECLS
