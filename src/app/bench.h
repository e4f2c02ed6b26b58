/* bench.h: the drawing sheet on which the joint is put together.
 *
 * Shows the joint of a document through draw/drawing; layers, contacts and gaps are real child widgets. Parts come
 * in by dragging (from Parts, or a layer of the bench itself) or by keyboard; both take the same road: places open,
 * a preview of the verdict shows, a drop is one edit.
 *
 * Actions: bench.walk, bench.insert, bench.move, bench.remove, bench.duplicate, bench.edit, bench.explain,
 * bench.cancel, bench.menu, bench.overlay.
 * Signals: "edit" (a layer's facts are wanted), "explain" (owner), "contact" (a contact was chosen), "hover"
 * (contact under the pointer, -1 none), "preview" (quick verdict of the place chosen, or NULL), "overlay" (another overlay or age is shown).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "app/ghost.h"
#include "draw/drawing.h"

G_BEGIN_DECLS

#define TL_TYPE_BENCH (tl_bench_get_type ())
G_DECLARE_FINAL_TYPE (TlBench, tl_bench, TL, BENCH, GtkWidget)

void tl_bench_set_document (TlBench *self, TlDocument *document);
void tl_bench_set_ghost (TlBench *self, TlGhost *ghost);
/* Part chosen in Parts: what Enter puts into a gap. (nullable) */
void tl_bench_set_chosen_part (TlBench *self, const char *part);
/* Puts a part where it does best; a refusal goes to the document as a sentence. */
void tl_bench_add_part (TlBench *self, const char *part);
/* The same for a leg or layer that lies beside the joint. */
void tl_bench_put_in (TlBench *self, const char *owner);

/* --- views and scale --- */
void   tl_bench_set_views (TlBench *self, gboolean section, gboolean end_view);
/* @how: "in", "out", "fit" */
void   tl_bench_zoom (TlBench *self, const char *how);
/* px for one mm of the joint */
double tl_bench_scale (TlBench *self);
void   tl_bench_set_hovered_contact (TlBench *self, gint contact);
void   tl_bench_focus_owner (TlBench *self, const char *owner);

/* --- overlay: reckoned in a thread, shown when it is there --- */
void      tl_bench_set_overlay (TlBench *self, TlOverlay overlay);
TlOverlay tl_bench_overlay (TlBench *self);
/* @years: age that heat and current are shown for, 0 new */
void      tl_bench_set_overlay_years (TlBench *self, double years);
double    tl_bench_overlay_years (TlBench *self);
/* %TRUE when everything that the overlay needs is there. */
gboolean  tl_bench_overlay_is_ready (TlBench *self);

/* --- dragging, in the bench's coordinates --- */
/* Either a part of the stock or a layer that is there. %FALSE if there is nothing to drag. */
gboolean tl_bench_drag_begin (TlBench *self, const char *part, const char *owner);
void     tl_bench_drag_motion (TlBench *self, double x, double y);
void     tl_bench_drag_drop (TlBench *self);
void     tl_bench_drag_cancel (TlBench *self);
gboolean tl_bench_is_dragging (TlBench *self);

/* Word of the verdict that the open place would give; (nullable) (transfer none) */
const char *tl_bench_preview_word (TlBench *self);
/* (nullable) */
const char *tl_bench_chosen_part (TlBench *self);

/* The present display list; (nullable) (transfer none) */
const TlDrawing *tl_bench_drawing (TlBench *self);

G_END_DECLS
