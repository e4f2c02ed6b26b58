/* finding-row.h: one finding: mark, word, numbers, sentence; opened: why, working, source, mend.
 *
 * Also used for what is missing (Unfinished), what cannot be built so, and what was not computed.
 *
 * Actions of the row: finding.mend, finding.show. The row asks through signals: "mend", "show" (of the pane).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_FINDING_ROW (tl_finding_row_get_type ())
G_DECLARE_FINAL_TYPE (TlFindingRow, tl_finding_row, TL, FINDING_ROW, GtkListBoxRow)

GtkWidget *tl_finding_row_new_finding (TlDocument *document, const TlFinding *finding) G_GNUC_WARN_UNUSED_RESULT;
GtkWidget *tl_finding_row_new_problem (TlDocument *document, const TlProblem *problem) G_GNUC_WARN_UNUSED_RESULT;
GtkWidget *tl_finding_row_new_not_computed (TlDocument *document, const TlNotComputed *row) G_GNUC_WARN_UNUSED_RESULT;

/* Names the finding across edits: rule and owners. (transfer none) */
const char      *tl_finding_row_key (TlFindingRow *self);
/* (nullable): in the document's present verdict */
const TlFinding *tl_finding_row_finding (TlFindingRow *self);
gboolean         tl_finding_row_is_about (TlFindingRow *self, const char *owner);
gboolean         tl_finding_row_has_contact (TlFindingRow *self, guint contact);
/* First contact it is about, -1 none. */
gint             tl_finding_row_contact (TlFindingRow *self);
void             tl_finding_row_set_open (TlFindingRow *self, gboolean is_open);
gboolean         tl_finding_row_is_open (TlFindingRow *self);
/* Does what the button in its head does; %FALSE if there is none. */
gboolean         tl_finding_row_lead_on (TlFindingRow *self);

G_END_DECLS
