/* inspector-side.h: beside the picture: designed beside found, and lists of marks, measures, readings, found values, texts.
 *
 * The lists keep step with the picture: what is selected there is open here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/part-view.h"
#include "app/picture-row.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_INSPECTOR_SIDE (tl_inspector_side_get_type ())
G_DECLARE_FINAL_TYPE (TlInspectorSide, tl_inspector_side, TL, INSPECTOR_SIDE, GtkWidget)

void tl_inspector_side_set_inspector (TlInspectorSide *self, TlInspector *inspector);
/* "marks", "measures", "readings", "found", "inspection" */
void tl_inspector_side_show (TlInspectorSide *self, const char *list);
const char *tl_inspector_side_shown (TlInspectorSide *self);
/* Row of a record in its list: (nullable) (transfer none) */
TlPictureRow *tl_inspector_side_row (TlInspectorSide *self, const char *id);
/* Form of the inspection's texts, and that of a new found value. (transfer none) */
TlRecordForm *tl_inspector_side_texts (TlInspectorSide *self);
TlRecordForm *tl_inspector_side_new_found (TlInspectorSide *self);

/* Draws the design at @px_per_mm on the screen, that of the picture; 0: fitted. It says which. */
void          tl_inspector_side_set_scale (TlInspectorSide *self, double px_per_mm);
TlPartView   *tl_inspector_side_drawing (TlInspectorSide *self);

G_END_DECLS
