/* originals.h: the original picture files of a document out into a folder.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/inspection.h"

G_BEGIN_DECLS

/**
 * tl_originals_save:
 * @bytes: (nullable): the originals of the document; %NULL if it has none
 * @folder: made if it is not there; its parent has to be
 * @with_position: as they were taken in; else without position and notes of the camera
 * @missing: (out): how many originals are not in the document, or altered since they were taken in; the table names them
 *
 * Writes each original as FOLDER/picture-N.ENDING; beside them SHA256SUMS and pictures.csv, which has the hash at import
 * as well. Nothing that is there is written over: with %TL_ERROR_FILE nothing is written at all.
 */
gboolean tl_originals_save (TlOriginals *bytes, const TlInspections *inspections, const char *folder, gboolean with_position, guint *missing, GError **error);

G_END_DECLS
