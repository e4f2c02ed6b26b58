/* inspection-texts.h: texts of the inspection, which one is looked at, what it still lacks, custody, what changed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/record-form.h"

G_BEGIN_DECLS

#define TL_TYPE_INSPECTION_TEXTS (tl_inspection_texts_get_type ())
G_DECLARE_FINAL_TYPE (TlInspectionTexts, tl_inspection_texts, TL, INSPECTION_TEXTS, GtkWidget)

void          tl_inspection_texts_set_inspector (TlInspectionTexts *self, TlInspector *inspector);
void          tl_inspection_texts_refresh (TlInspectionTexts *self);
TlRecordForm *tl_inspection_texts_form (TlInspectionTexts *self);

G_END_DECLS
