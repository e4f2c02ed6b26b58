/* drawing.h: a joint as a drawing: a display list of shapes with ids.
 *
 * verdict -> display list in the units of a given area (px on screen, mm on paper) -> cairo. Hit testing, the
 * screen reader's children and the tests read the same list. First-angle, to true scale; only opened places move
 * bodies, along their axis, and the drawing then says so.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/places.h"
#include "draw/heat-field.h"
#include "draw/paint.h"

G_BEGIN_DECLS

typedef struct
{
  double      width, height;  /* area in units */
  double      unit;           /* units for one mm on the medium: 96/25.4 on screen, 1 on paper in mm */
  double      zoom;           /* 0: fit; else units for one mm of the joint */
  double      pan_x, pan_y;   /* units */
  gboolean    paper;          /* line widths x 0.7, patterns x 0.6 */
  gboolean    show_section, show_end_view, show_numbers, show_dimensions, show_legend, show_contacts, show_scale_bar, show_frame;
  const char *selected;       /* (nullable) owner id */
  gint        selected_contact; /* -1 none */
  gint        hovered_contact;  /* -1 none: halo */
  /* places while a part is dragged */
  const GArray *places;       /* (nullable) (element-type TlPlace) */
  gint        open_place;     /* index of the place under the pointer, -1 none */
  double      open_thickness_mm; /* of the dragged part */
  const char *const *place_notes; /* (nullable) (array length=places) "aluminium–zinc 0.20 V" at each place's end */
  const TlSeverity *place_severities; /* (nullable) (array length=places) verdict mark at each place */
  double      pointer_x, pointer_y; /* refusals within 60 px of it only */
  const char *lifted;         /* (nullable) owner id that is being dragged: drawn pale */
  double      text_size;      /* units, of dimensions and captions; 0: default 11.5 px or 2.6 mm */
  TlOverlay   overlay;        /* none while places are shown */
  const TlHeatField *field;   /* (nullable): of this verdict, for heat and current; %NULL: still being reckoned */
} TlDrawingOptions;

void tl_drawing_options_init (TlDrawingOptions *options);

typedef struct _TlDrawing TlDrawing;

typedef enum
{
  TL_ITEM_BODY,    /* an owner: union of its shapes */
  TL_ITEM_NUMBER,  /* its leader circle */
  TL_ITEM_CONTACT, /* its mark */
  TL_ITEM_PLACE,   /* a place for the dragged part, index into places */
} TlItemKind;

typedef struct
{
  TlItemKind  kind;
  const char *owner;   /* body, number */
  guint       index;   /* contact or place */
  double      x, y, width, height;
} TlItem;

TlDrawing *tl_drawing_new (const TlVerdict *verdict, const TlDrawingOptions *options, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
void       tl_drawing_free (TlDrawing *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlDrawing, tl_drawing_free)

void tl_drawing_paint (const TlDrawing *self, cairo_t *cr, const TlPalette *palette);
/* What a person meets there, front first: contact marks, numbers, bodies; %FALSE for empty paper. */
gboolean tl_drawing_pick (const TlDrawing *self, double x, double y, TlItem *item);
/* Nearest place for the dragged part within reach; -1 if none. */
gint tl_drawing_place_at (const TlDrawing *self, double x, double y);
/* Items for the screen reader and for walking by keyboard: (element-type TlItem) (transfer none) */
const GArray *tl_drawing_items (const TlDrawing *self);
/* What the overlay has to say at a point: temperature, share of the current, couple and length; %NULL: nothing.
 * (transfer full) */
char *tl_drawing_overlay_at (const TlDrawing *self, double x, double y) G_GNUC_WARN_UNUSED_RESULT;
/* What the overlay's band says, a sentence a line, then number and temperature of each part; "" without an overlay.
 * (transfer full) */
char *tl_drawing_overlay_describe (const TlDrawing *self) G_GNUC_WARN_UNUSED_RESULT;
/* Units for one mm of the joint as laid out (after fitting). */
double tl_drawing_scale (const TlDrawing *self);
/* The display list as text, for golden tests: one shape a line, in mm of the joint. (transfer full) */
char *tl_drawing_to_text (const TlDrawing *self) G_GNUC_WARN_UNUSED_RESULT;
/* Sentences that tell the drawing to who cannot see it: bodies in order, contacts. (transfer full) */
char *tl_drawing_describe (const TlVerdict *verdict, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* --- small drawings --- */
/* A part true in proportion in an area: rows of Parts. */
void tl_part_paint (cairo_t *cr, const TlPalette *palette, const TlStock *stock, TlPartKind kind, const TlFacts *facts, double width, double height);
/* The ghost under the pointer: the part's true outline at @scale units per mm, centred at 0,0. */
void tl_part_paint_ghost (cairo_t *cr, const TlPalette *palette, const TlStock *stock, TlPartKind kind, const TlFacts *facts, double scale);

/* --- to files --- */
typedef enum
{
  TL_PICTURE_PNG,
  TL_PICTURE_SVG,
  TL_PICTURE_PDF,
} TlPictureKind;
/* As tl_drawing_save(), with an overlay; @field as in the options. */
gboolean tl_drawing_save_overlay (const TlVerdict *verdict, TlOverlay overlay, const TlHeatField *field, TlPictureKind kind, double width_mm, double height_mm, TlScheme scheme, const char *path, const TlLanguage *language, GError **error);
gboolean tl_drawing_save (const TlVerdict *verdict, TlPictureKind kind, double width_mm, double height_mm, TlScheme scheme, const char *path, const TlLanguage *language, GError **error);

G_END_DECLS
