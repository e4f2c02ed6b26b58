/* bench-private.h: what the bench's files share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/bench-item.h"
#include "app/bench.h"
#include "app/place-card.h"

G_BEGIN_DECLS

/* A drag, or the walk over the gaps by keyboard: places, and what each would do. */
typedef struct
{
  gboolean   is_active;
  gboolean   by_keyboard;
  gboolean   is_inside;     /* the pointer is over the bench */
  char      *part;          /* id in the stock, or NULL */
  char      *owner;         /* layer that is moved, or NULL */
  TlPartKind kind;
  TlFacts   *facts;
  GArray    *places;        /* (element-type TlPlace) */
  GPtrArray *previews;      /* (element-type TlPreview) with NULL where a place refuses */
  GPtrArray *notes;         /* (element-type utf8) couple at each place */
  GArray    *severities;    /* (element-type TlSeverity) */
  gint       open;          /* index, -1 none */
  double     x, y;          /* pointer */
} TlBenchDrag;

struct _TlBench
{
  GtkWidget    parent_instance;

  TlDocument  *document;
  TlGhost     *ghost;
  TlDrawing   *drawing;
  int          drawn_width, drawn_height;
  GPtrArray   *items;       /* (element-type TlBenchItem) children, in the order of the list */
  TlBenchItem *gap;         /* the gap on which the keyboard stands */
  TlPlaceCard *card;
  GtkLabel    *hint;        /* on an empty bench */
  GtkPopover  *menu;
  char        *chosen_part;
  gboolean     show_section, show_end_view;
  double       zoom;        /* 0: fit */
  double       pan_x, pan_y;
  gint         hovered_contact;
  TlBenchDrag  drag;
  guint        tick;        /* 0: none */
  guint        opening_tick; /* while a place opens; 0: none */
  gint64       opening_from_us;
  double       opening_ratio; /* of the open place, 0 .. 1 */
  /* gesture on the bench itself */
  gboolean     pans, lifts, drag_cancelled;
  double       pan_from_x, pan_from_y;
  double       zoom_from;
  /* overlay (bench-overlay.c) */
  TlOverlay     overlay;
  double        overlay_years;
  TlHeatField  *field;       /* (nullable): of the present verdict and age; NULL while it is reckoned */
  GCancellable *reckoning;   /* (nullable) */
  GtkLabel     *readout;     /* value at the pointer */
  double        readout_x, readout_y;
};

/* bench-view.c */
/* What of the overlay belongs in @options. */
void tl_bench_overlay_options (TlBench *self, TlDrawingOptions *options);
/* The drawing for that size and the present state; nothing is queued. */
void tl_bench_draw_anew (TlBench *self, int width, int height);
/* Lays the drawing out for the present size and state, and draws. */
void tl_bench_lay_out (TlBench *self);
void tl_bench_install_signals (void);
void tl_bench_emit_preview (TlBench *self, const TlVerdict *verdict);
void tl_bench_emit_edit (TlBench *self);
void tl_bench_emit_explain (TlBench *self, const char *owner);
void tl_bench_emit_contact (TlBench *self, guint contact);
void tl_bench_emit_hover (TlBench *self, gint contact);
void tl_bench_emit_overlay (TlBench *self);

/* bench.c */
/* Makes the children fit the verdict, then lays out. */
void tl_bench_rebuild (TlBench *self);

/* bench-items.c */
/* (transfer none) (nullable) */
TlBenchItem *tl_bench_find_item (TlBench *self, TlItemKind kind, const char *owner, guint index);
/* Names, descriptions and states of the children, for the present verdict and selection. */
void tl_bench_describe_items (TlBench *self);
/* Makes the children those of the drawing. */
void tl_bench_match_items (TlBench *self);

/* bench-drag.c */
void tl_bench_drag_init (TlBench *self);
void tl_bench_drag_clear (TlBench *self);
/* Opens the places for a part and the keyboard; %FALSE if none takes it. */
gboolean tl_bench_walk_gaps (TlBench *self);
/* The same for a leg or layer that is to move; %FALSE if there is nothing to move. */
gboolean tl_bench_walk_owner (TlBench *self, const char *owner);
void tl_bench_open_place (TlBench *self, gint place);
/* bench-overlay.c */
void tl_bench_overlay_init (TlBench *self);
void tl_bench_overlay_clear (TlBench *self);
void tl_bench_overlay_install (GtkWidgetClass *klass);
/* The joint is another one: what was reckoned is of no use any more. */
void tl_bench_overlay_renew (TlBench *self);
/* Shows what the overlay says at a point; nothing off the bench (negative). */
void tl_bench_overlay_point (TlBench *self, double x, double y);
/* Where the readout stands, if it is shown. */
gboolean tl_bench_overlay_place (TlBench *self, int width, int height, GdkRectangle *at);
/* bench-gestures.c */
void tl_bench_add_gestures (TlBench *self);
/* bench-keys.c */
void tl_bench_install_actions (GtkWidgetClass *klass);

G_END_DECLS
