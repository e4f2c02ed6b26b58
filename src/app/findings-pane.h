/* findings-pane.h: the verdict, its four margins, and every finding, worst first.
 *
 * Actions: findings.show (owner), findings.enter (owner, field), findings.put-in (owner), findings.find (words).
 * Signals: "hover" (contact, -1 none), "show-owner" (owner), "enter" (owner, field), "put-in" (owner that lies beside
 * the joint), "find" (words to search Parts for).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_FINDINGS_PANE (tl_findings_pane_get_type ())
G_DECLARE_FINAL_TYPE (TlFindingsPane, tl_findings_pane, TL, FINDINGS_PANE, GtkWidget)

void tl_findings_pane_set_document (TlFindingsPane *self, TlDocument *document);
/* @verdict: (nullable): what would become of it while a part is dragged */
void tl_findings_pane_preview (TlFindingsPane *self, const TlVerdict *verdict);
/* Marks the rows about a contact; -1 none. */
void tl_findings_pane_hover (TlFindingsPane *self, gint contact);
/* Scrolls to and opens the first finding about it. */
void tl_findings_pane_open_contact (TlFindingsPane *self, guint contact);
void tl_findings_pane_open_owner (TlFindingsPane *self, const char *owner);
/* Asks for the first fact that is missing ("enter"); %FALSE if none is. */
gboolean tl_findings_pane_next_missing (TlFindingsPane *self);

G_END_DECLS
