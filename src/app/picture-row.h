/* picture-row.h: a mark, measure, scale or reading as a row: what it says, and opened its form.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/record-form.h"

G_BEGIN_DECLS

#define TL_TYPE_PICTURE_ROW (tl_picture_row_get_type ())
G_DECLARE_FINAL_TYPE (TlPictureRow, tl_picture_row, TL, PICTURE_ROW, GtkListBoxRow)

/* @id: of the record; "" for the draft */
GtkWidget  *tl_picture_row_new (TlInspector *inspector, const char *id) G_GNUC_WARN_UNUSED_RESULT;
const char *tl_picture_row_id (TlPictureRow *self);
/* Shows the record as it is now; %FALSE if it is gone or has become one that needs another form. */
gboolean    tl_picture_row_refresh (TlPictureRow *self);
void        tl_picture_row_set_open (TlPictureRow *self, gboolean is_open);
/* "by NAME, DAY", as far as it was written down */
const char *tl_picture_row_whose (TlPictureRow *self);
/* Its form; (nullable): %NULL while it was never open */
TlRecordForm *tl_picture_row_form (TlPictureRow *self);

G_END_DECLS
