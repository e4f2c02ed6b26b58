/* build-page.h: Parts, Bench and Findings side by side.
 *
 * Below 1000 px of width Findings folds into a drawer, below 720 px Parts too; the verdict then stands in a strip
 * above the bench.
 *
 * Actions: build.zoom (how), build.go-on (owner, field): the figure that Findings asked for is entered, on to the next.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/bench.h"
#include "app/facts-strip.h"
#include "app/findings-pane.h"
#include "app/parts-pane.h"

G_BEGIN_DECLS

#define TL_TYPE_BUILD_PAGE (tl_build_page_get_type ())
G_DECLARE_FINAL_TYPE (TlBuildPage, tl_build_page, TL, BUILD_PAGE, GtkWidget)

void         tl_build_page_set_document (TlBuildPage *self, TlDocument *document, GSettings *settings);
TlBench     *tl_build_page_bench (TlBuildPage *self);
TlPartsPane *tl_build_page_parts (TlBuildPage *self);
/* Puts the keyboard on @field of @owner ("leg-1", "site", "duty") below the bench. */
void         tl_build_page_enter (TlBuildPage *self, const char *owner, TlField field);
void         tl_build_page_find (TlBuildPage *self);
void         tl_build_page_next_pane (TlBuildPage *self);
void         tl_build_page_toggle_parts (TlBuildPage *self);
void         tl_build_page_toggle_findings (TlBuildPage *self);

G_END_DECLS
