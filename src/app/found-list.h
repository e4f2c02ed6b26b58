/* found-list.h: figures of the design beside what was found, and a form for one found by other means than a picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/record-form.h"

G_BEGIN_DECLS

#define TL_TYPE_FOUND_LIST (tl_found_list_get_type ())
G_DECLARE_FINAL_TYPE (TlFoundList, tl_found_list, TL, FOUND_LIST, GtkWidget)

void          tl_found_list_set_inspector (TlFoundList *self, TlInspector *inspector);
void          tl_found_list_refresh (TlFoundList *self);
/* (nullable): %NULL before there is an inspector */
TlRecordForm *tl_found_list_new_form (TlFoundList *self);
/* Puts what the form holds; as its button does. */
void          tl_found_list_add (TlFoundList *self);

G_END_DECLS
