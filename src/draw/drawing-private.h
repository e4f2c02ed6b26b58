/* drawing-private.h: the display list, and what the files that fill it share.
 *
 * Points are in units of the area, y downwards; a view maps mm of the joint to units. Shapes are painted in the
 * order in which they were added.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing.h"
#include <math.h>

G_BEGIN_DECLS

typedef struct
{
  char   op; /* M move, L line, C one of the three points of a curve, Z close */
  double x, y;
} TlVertex;

typedef enum
{
  TL_SHAPE_BODY,  /* closed path with look and outline */
  TL_SHAPE_LINE,  /* open or closed path, stroked */
  TL_SHAPE_FILL,  /* closed path filled with one ink: arrow heads, dots, bars */
  TL_SHAPE_PLACE, /* a place for the dragged part: dashed frame, or wash and frame when open */
  TL_SHAPE_TEXT,
  TL_SHAPE_NUMBER,
  TL_SHAPE_MARK,
  TL_SHAPE_CONTACT, /* line between two points in the style of a verdict */
} TlShapeKind;

typedef enum
{
  TL_INK_INK,
  TL_INK_MUTED,
  TL_INK_DIM,
  TL_INK_CENTRE,
  TL_INK_HAIR,
  TL_INK_SELECT,
  TL_INK_PAPER,
  TL_INK_SEVERITY, /* of the shape's mark */
} TlInk;

/* Widths and dashes stand in drawing-paint.c. */
typedef enum
{
  TL_LINE_CUT,
  TL_LINE_EDGE,
  TL_LINE_DIMENSION,
  TL_LINE_THIN,
  TL_LINE_CENTRE,
  TL_LINE_PLANE,
  TL_LINE_PLACE,
  TL_LINE_HAIR,
  TL_LINE_BAR,
  TL_LINE_WATER_BED, /* paper under a double wave */
  TL_N_LINES
} TlLineStyle;

#define TL_VIEW_SHEET (-1)
#define TL_VIEW_SECTION 0
#define TL_VIEW_END 1

typedef struct
{
  TlShapeKind kind;
  const char *owner;   /* (nullable): owned by the assembly */
  gint        contact; /* -1 none */
  gint        place;   /* -1 none */
  gint        view;    /* TL_VIEW_… */
  TlInk       ink;
  TlLineStyle line;
  TlLook      look;
  gboolean    is_cut;
  gboolean    is_selected;
  gboolean    is_pale;
  gboolean    is_hovered;
  gboolean    has_coat;
  TlLook      coat;
  TlMark      mark;
  guint       number;
  double      x, y, size; /* text: baseline; number, mark: centre and diameter */
  double      align;
  double      turn_rad; /* text */
  gboolean    is_bold;
  char       *text;
  guint       first, count; /* vertices */
  /* fill by an overlay in place of the tint: values 0 to 1 on the scale, evenly from (x0, y0) to (x1, y1) */
  guint       heat_first, heat_count;
  gboolean    is_plain; /* pattern on bare paper */
  double      heat_x0, heat_y0, heat_x1, heat_y1;
} TlShape;

/* Where the joint's mm lie in the area. */
typedef struct
{
  double   x, y;  /* units: origin of the joint */
  double   scale; /* units for one mm of the joint */
  gboolean is_used;
} TlView;

/* A point of a body that its leader reaches. */
typedef struct
{
  const char *owner;
  guint       number;
  double      x, y;
} TlTarget;

/* A contact as the drawing has it. */
typedef struct
{
  guint    contact;
  double   x0, y0, x1, y1; /* units */
  gboolean has_mark;
  TlMark   mark;
} TlFace;

struct _TlDrawing
{
  TlVerdict        *verdict;
  const TlAssembly *assembly; /* of the verdict */
  TlLanguage       *language;
  TlDrawingOptions  options;  /* its pointers are valid while the list is made, not later */
  GArray           *vertices; /* TlVertex */
  GArray           *shapes;   /* TlShape */
  GArray           *hits;     /* TlItem: all that can be met, back to front */
  GArray           *items;    /* TlItem: one for each owner, number, contact, place */
  GArray           *targets;  /* TlTarget */
  GArray           *faces;    /* TlFace */
  GArray           *heat;     /* double: values of the fills */
  double            band_y;   /* units: where the band of the overlay begins */
  TlView            views[2];
  double            px;                    /* units for one px of the look; on paper 0.8 of that */
  double            mm;                    /* units for one mm of line work on the medium */
  double            text;                  /* units: captions and dimensions */
  gboolean          looks_cut[TL_N_LOOKS]; /* seen so far */
  gboolean          looks_seen[TL_N_LOOKS];
  gboolean          legend_is_band; /* along the foot instead of in the corner */
  double            legend_left;    /* band: what the scale bar takes */
  gboolean          has_plane;      /* a cutting plane A–A is drawn, */
  double            plane_x;        /* here */
  GPtrArray        *stack; /* owners in the stack without the lifted one, while places are shown */
  struct
  {
    gint   index; /* -1 none */
    double away, x, y;
  } refusal;          /* the nearest to the pointer */
  guint  lifted_from; /* its place in the stack */
  double opened_mm;   /* total length that open places add to the section */
  /* present path */
  guint  path_first;
  gint   view;
};

/* --- display-list.c --- */
void tl_path_begin (TlDrawing *d);
void tl_path_move (TlDrawing *d, double x, double y);
void tl_path_line (TlDrawing *d, double x, double y);
void tl_path_curve (TlDrawing *d, double x1, double y1, double x2, double y2, double x3, double y3);
void tl_path_close (TlDrawing *d);
void tl_path_rectangle (TlDrawing *d, double x0, double y0, double x1, double y1);
/* Angles in rad, y downwards; @start moves first, otherwise goes on by a line. */
void tl_path_arc (TlDrawing *d, double x, double y, double radius, double from_rad, double to_rad,
                  gboolean start);
void tl_path_circle (TlDrawing *d, double x, double y, double radius);
/* Shapes from the present path; borrowed until the next. */
TlShape *tl_shape_body (TlDrawing *d, const TlBody *body, gboolean is_cut, TlLineStyle line);
TlShape *tl_shape_look (TlDrawing *d, const char *owner, TlLook look, gboolean is_cut,
                        TlLineStyle line);
TlShape *tl_shape_line (TlDrawing *d, TlInk ink, TlLineStyle line);
TlShape *tl_shape_fill (TlDrawing *d, TlInk ink);
TlShape *tl_shape_segment (TlDrawing *d, TlInk ink, TlLineStyle line, double x0, double y0,
                           double x1, double y1);
TlShape *tl_shape_dot (TlDrawing *d, TlInk ink, double x, double y, double radius);
TlShape *tl_shape_text (TlDrawing *d, TlInk ink, const char *text, double x, double y, double size,
                        gboolean bold, double align);
TlShape *tl_shape_number (TlDrawing *d, const char *owner, guint number, double x, double y);
TlShape *tl_shape_mark (TlDrawing *d, TlMark mark, double x, double y, double size);
TlShape *tl_shape_contact (TlDrawing *d, TlMark mark, double x0, double y0, double x1, double y1);
void tl_drawing_add_item (TlDrawing *d, TlItemKind kind, const char *owner, guint index, double x,
                          double y, double width, double height);
/* Frontmost body at a point; (nullable) */
const TlShape *tl_drawing_body_at (const TlDrawing *d, double x, double y);
/* Bounds of a shape with its text; %FALSE if it is empty. */
gboolean    tl_shape_bounds (const TlDrawing *d, const TlShape *shape, double *x0, double *y0,
                             double *x1, double *y1);
void        tl_target_add (TlDrawing *d, const char *owner, double x, double y);
void        tl_shape_clear (TlShape *shape);
const char *tl_draw_text (const TlDrawing *d, const char *msgid) G_GNUC_FORMAT (2);

/* --- furniture.c --- */
void   tl_furniture_frame (TlDrawing *d);
void   tl_furniture_scale_bar (TlDrawing *d);
void   tl_furniture_legend (TlDrawing *d);
double tl_furniture_legend_width (const TlDrawing *d);
double tl_furniture_legend_height (const TlDrawing *d);
guint  tl_furniture_legend_columns (const TlDrawing *d);
/* Leaves the legend out where it would take the room of the drawing. */
void   tl_furniture_drop_legend (TlDrawing *d);
/* From the fitted views to the zoom asked for, about @x, @y (the middle of the section), and panned. */
void   tl_views_zoom (TlDrawing *d, double x, double y);
void   tl_furniture_caption (TlDrawing *d, const char *text, double x, double y, double align);
/* "4.3 : 1" for a scale in units per mm; (transfer full) */
char  *tl_furniture_ratio (const TlDrawing *d, double scale);
/* Length of a scale bar: the round one of 1, 2, 5, 10, ... mm nearest below @most_mm. */
double tl_scale_bar_mm (double most_mm);
/* On paper the greatest scale of ISO 5455 that is not above @scale, else @scale itself. */
double tl_standard_scale (const TlDrawing *d, double scale);

/* --- dimension.c --- */
/* Dimensions after ISO 129. @y the dimension line; extension lines start at @y_from. */
/* @share: where along the line the figure stands, 0.5 the middle. */
void  tl_dimension_level (TlDrawing *d, double x0, double x1, double y_from, double y,
                          double share, const char *text);
void  tl_dimension_upright (TlDrawing *d, double y0, double y1, double x_from, double x,
                            double share, const char *text);
/* Whether the figure of such a dimension stands beside no body of the end view; @top: (out): above those it meets. */
gboolean tl_dimension_upright_clear (const TlDrawing *d, double y0, double y1, double x,
                                     double share, const char *text, double *top);
/* The line runs on past @top and bears the figure there. */
void  tl_dimension_upright_above (TlDrawing *d, double y0, double y1, double x_from, double x,
                                  double top, const char *text);
char *tl_dimension_figure (const TlDrawing *d, double value_mm);

/* --- leaders.c --- */
/* Numbers in a column at @x between @top and @bottom (stack), or in a row at @y between @left and @right (sleeve). */
void tl_leaders_column (TlDrawing *d, double x, double bend_x, double top, double bottom);
void tl_leaders_row (TlDrawing *d, double y, double bend_y, double left, double right);
void tl_marks_column (TlDrawing *d, double x, double bend_x, double top, double bottom);
void tl_marks_row (TlDrawing *d, double y, double bend_y, double left, double right);

/* --- stack-layout.c, section-stack.c, end-view.c --- */
typedef struct
{
  double   top_mm, bottom_mm; /* along the axis, open places not counted */
  double   reach_mm;          /* largest radius of what is stacked */
  double   lead_mm;           /* where leads are broken off */
  gboolean leads_left, leads_right, leads_across;
  double   left_mm, right_mm; /* extent of the section */
} TlStackExtent;

/* Lead that is drawn beyond the stack at least. */
#define TL_LEAD_LEAST_MM 4.5
void   tl_stack_extent (TlDrawing *d, TlStackExtent *extent);
/* Length of insulation that is shown, and what is left out of a bare lead so that it can be. */
double tl_stack_shown_mm (const TlStackExtent *extent);
double tl_stack_left_out_mm (const TlStackExtent *extent, double insulation_from_mm);
/* Insulation of the lead that a core is, or that lies in the barrel of a lug; (nullable) */
const TlBody *tl_stack_cover (const TlDrawing *d, const TlBody *body);
void   tl_stack_section (TlDrawing *d, const TlStackExtent *extent);
void   tl_stack_end_view (TlDrawing *d, const TlStackExtent *extent);
void   tl_stack_faces (TlDrawing *d, const TlStackExtent *extent);
void   tl_stack_lay_out (TlDrawing *d);
/* Shift of an owner by open places, mm. */
double tl_stack_shift_mm (const TlDrawing *d, const char *owner);

/* --- sleeve-layout.c, sleeve-shape.c, section-sleeve.c --- */
#define TL_MOST_RODS 32
typedef struct
{
  const TlBody *body;
  double        start_mm, end_mm, radius_mm;
  double        across_mm; /* centre at its start, along the drawn way (downwards) */
  double        across_end_mm;
  double        away_mm; /* centre, out of the drawing */
} TlSleeveRod;

typedef struct
{
  double        length_mm, outer_mm, bore_mm; /* barrel */
  gboolean      has_barrel;
  const TlBody *barrel;
  double        die_mm; /* 0: not pressed */
  double        press_width_mm;
  guint         n_presses;
  double        press_mm[16]; /* middle of each */
  gboolean      upright_is_v; /* which of u, v is drawn downwards */
  TlSleeveRod   cores[TL_MOST_RODS];
  guint         n_cores;
  TlSleeveRod   insulations[TL_MOST_RODS];
  guint         n_insulations;
  double        start_mm, end_mm; /* extent of the section */
  double        half_mm;          /* largest half height */
  double        cut_mm;           /* where A–A is taken */
  double        metal_mm2;        /* in the press at A–A */
} TlSleeveShape;

void     tl_sleeve_shape (const TlDrawing *d, TlSleeveShape *shape);
/* Half height of the barrel outside and inside at @x_mm. */
double   tl_sleeve_outer_half_mm (const TlSleeveShape *shape, double x_mm);
double   tl_sleeve_inner_half_mm (const TlSleeveShape *shape, double x_mm);
/* Metal of the conductors over the hole of the press; 1 and more: pressed solid. */
double   tl_sleeve_fill_ratio (const TlSleeveShape *shape);
/* Centre of a rod at @x_mm. */
double   tl_sleeve_rod_at (const TlSleeveRod *rod, double x_mm);
double   tl_sleeve_press_share (const TlSleeveShape *shape, double x_mm);
/* A height inside the barrel as the press leaves it. */
double   tl_sleeve_squeezed_mm (const TlSleeveShape *shape, double x_mm, double across_mm);
void     tl_sleeve_section (TlDrawing *d, const TlSleeveShape *shape);
void     tl_sleeve_end_view (TlDrawing *d, const TlSleeveShape *shape);
/* Largest radius of A–A. */
double   tl_sleeve_end_half_mm (TlDrawing *d, const TlSleeveShape *shape);
void     tl_sleeve_faces (TlDrawing *d, const TlSleeveShape *shape);
/* --- seal-shape.c: sealing sleeves, adhesive and fillers over everything else of the section --- */
void     tl_seal_section (TlDrawing *d, const TlSleeveShape *shape);
void     tl_sleeve_lay_out (TlDrawing *d);
double   tl_seal_wall_mm (const TlDrawing *d, const TlBody *seal);
gboolean tl_seal_has_adhesive (const TlDrawing *d, const TlBody *seal);
double   tl_solid_start (const TlBody *body);
double   tl_solid_end (const TlBody *body);

/* --- terminal-layout.c, terminal-shape.c, section-terminal.c, terminal-end-view.c --- */
void tl_terminal_lay_out (TlDrawing *d);
/* A–A of a splice, which otherwise is drawn like a sleeve without barrel. */
void   tl_splice_end_view (TlDrawing *d, double cut_mm);
double tl_splice_end_half_mm (const TlDrawing *d);
/* Line of a contact if there is anything to be told about it (faces.c). */
void tl_face_add (TlDrawing *d, guint index, double x0, double y0, double x1, double y1);
/* Ends of the cutting plane A–A at @cut_mm of the section, above and below it (sleeve-layout.c). */
void tl_cutting_plane (TlDrawing *d, double cut_mm, double top, double bottom);
void tl_places_terminal (TlDrawing *d);

/* --- cells.c --- */
/* @count cells that fill a convex polygon (@n_corners points x, y); each is added as a line shape. */
void tl_cells_fill (TlDrawing *d, const double *corners, guint n_corners, guint count,
                    const TlBody *body);
/* @count round strands packed in a circle. */
void tl_cells_strands (TlDrawing *d, double x, double y, double radius, guint count,
                       const TlBody *body);

/* --- places-view.c --- */
void   tl_places_stack (TlDrawing *d, const TlStackExtent *extent);
void   tl_places_sleeve (TlDrawing *d, const TlSleeveShape *shape);
void   tl_places_loose (TlDrawing *d, double x0, double y0, double x1, double y1);
/* Openings before stack place @place, mm. */
double tl_places_opening_mm (const TlDrawing *d, guint place);

/* --- overlay.c, overlay-heat.c, overlay-current.c, overlay-wet.c --- */
/* Height of the band at the foot that explains the overlay; 0 without. */
double tl_overlay_band_height (const TlDrawing *d);
/* Lays the overlay over the views and fills the band from @y down. */
void   tl_overlay_apply (TlDrawing *d, double y);
/* A line of text at a baseline, made smaller, then cut short, so that it stays left of @right. */
void   tl_overlay_text (TlDrawing *d, TlInk ink, const char *text, double x, double y, double right, gboolean bold);
/* Text on a patch of paper about x, y; %FALSE, and nothing is drawn, where it would cover other text or leave the area. */
gboolean tl_overlay_label (TlDrawing *d, const char *text, double x, double y, gboolean bold);
/* Body that a shape shows; G_MAXUINT if it shows none. */
guint  tl_overlay_body_of (const TlDrawing *d, const TlShape *shape);
/* "16", "2.5": one decimal only where it says something. */
char  *tl_overlay_number (const TlDrawing *d, double value);
/* "57 °C", in whole degrees or tenths. */
char  *tl_overlay_temperature (const TlDrawing *d, double value_C, gboolean fine);
/* "18 mm² aluminium conductor (3)" */
char  *tl_overlay_owner_name (const TlDrawing *d, const char *owner);
void   tl_overlay_heat (TlDrawing *d, double y);
/* Scale of the colours for @low..@high: moved out to whole steps of 2, 5 or 10 K (more above 200 K). */
void   tl_overlay_heat_scale (double *low_C, double *high_C, double *step_K);
/* Temperature where the leader of a number ends; %FALSE if that is not drawn. */
gboolean tl_overlay_heat_at_target (const TlDrawing *d, const char *owner, double *value_C);
/* Temperature at a point in units of a view. */
double tl_overlay_heat_at (const TlDrawing *d, guint body, gint view, double x, double y);
void   tl_overlay_current (TlDrawing *d, double y);
/* --- overlay-terminal.c --- */
void   tl_overlay_terminal_current (TlDrawing *d);
/* --- overlay-arrow.c --- */
#define TL_OVERLAY_MOST_PATHS 32

/* Units of the section. */
typedef struct
{
  double x, y;
} TlSheetPoint;

/* Along @points, at least two, as wide as @share of the load; nothing where the last piece is no longer than a pixel. */
void   tl_overlay_arrow (TlDrawing *d, const TlSheetPoint *points, guint n, double share);
void   tl_overlay_straight (TlDrawing *d, double x0, double y0, double x1, double y1, double share);
/* A share beside a point where there is room for it. */
void   tl_overlay_label_tenths (TlDrawing *d, guint tenths, double x, double y);
/* The load at the end of a lead, which lies to the side @into (1 right, -1 left); returns how much of the lead it takes. */
double tl_overlay_load_label (TlDrawing *d, double end, double y, int into);
/* Shares as they are printed: tenths of a per cent, rounded so that they add up to what their sum rounds to. */
void   tl_overlay_tenths (const double *shares, guint count, guint *tenths);
char  *tl_overlay_percent (const TlDrawing *d, guint tenths);
void   tl_overlay_wet (TlDrawing *d, double y);
guint  tl_overlay_wet_rows (const TlDrawing *d);
/* "2–3: 0.45 V, rim 31 mm, open to water"; %NULL for a contact without a couple. */
char  *tl_overlay_wet_text (const TlDrawing *d, guint contact);

/* --- loose.c --- */
void   tl_loose_empty (TlDrawing *d);
/* Legs and layers that are not in the joint yet, as stubs along the bottom; returns the height that they take. */
double tl_loose_height (const TlDrawing *d);
void   tl_loose_stubs (TlDrawing *d, double y);

G_END_DECLS
