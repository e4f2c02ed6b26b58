/* inspection-private.h: what the files about inspections share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/inspection.h"

G_BEGIN_DECLS

/* Its lists are its own, what is in them is shared; still writable. */
TlInspections *tl_inspections_fork (const TlInspections *self) G_GNUC_WARN_UNUSED_RESULT;
TlInspection  *tl_inspection_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* The same with its own lists; still writable. */
TlInspection  *tl_inspection_copy (const TlInspection *self) G_GNUC_WARN_UNUSED_RESULT;
/* Adds an entry to a fork. */
void           tl_inspections_note (TlInspections *self, const TlActor *actor, const char *act, const char *object, const char *content);
/* SHA-256 of an entry without its link; (transfer full) */
char          *tl_custody_hash (const TlCustody *self) G_GNUC_WARN_UNUSED_RESULT;
/* The element of one inspection; @with_seal: with what closing adds. */
TlXmlNode     *tl_inspection_write (const TlInspection *self, const char *ns, gboolean with_seal) G_GNUC_WARN_UNUSED_RESULT;
/* Any record with an id begins like this. */
char         **tl_record_id (gpointer record);

G_END_DECLS
