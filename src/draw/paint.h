/* paint.h: palettes, hatches, marks, lines: how anything of Tinlap looks on a cairo context.
 *
 * No GTK, no theme: the caller gives a palette. The four schemes and one ink are fixed in paint.c after the
 * drawing key; screen, PDF, SVG and PNG share this path.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/steps.h"
#include <cairo.h>
#include <pango/pangocairo.h>

G_BEGIN_DECLS

typedef struct
{
  double red, green, blue; /* 0 to 1 */
} TlColour;

typedef enum
{
  TL_SCHEME_LIGHT,
  TL_SCHEME_DARK,
  TL_SCHEME_CONTRAST,      /* light high contrast */
  TL_SCHEME_CONTRAST_DARK,
  TL_SCHEME_ONE_INK,       /* paper: black on white, no tints */
  TL_N_SCHEMES
} TlScheme;

typedef struct
{
  TlScheme scheme;
  TlColour ground, panel, paper, field, raised, ink, muted, dim, centre, hair, hair2, select, select_wash, on_select;
  TlColour pattern;       /* lines of the patterns on cut bodies */
  TlColour severity[4], severity_wash[4]; /* by TlSeverity */
  TlColour tint[TL_N_LOOKS];
  double   line_ratio;     /* 1; 1.4 in high contrast; 1.8 in projector mode */
} TlPalette;

const TlPalette *tl_palette_get (TlScheme scheme);
void tl_paint_set_colour (cairo_t *cr, TlColour colour);
/* Contrast ratio after WCAG 2.1, 1 to 21. */
double tl_colour_contrast (TlColour a, TlColour b);

/* Marks: severity, and the two states; @size edge length in units of @cr, centred on x, y. */
typedef enum
{
  TL_MARK_SOUND,
  TL_MARK_WATCH,
  TL_MARK_CHANGE,
  TL_MARK_UNSAFE,
  TL_MARK_UNFINISHED,
  TL_MARK_NOT_COMPUTED,
  TL_MARK_REFUSED,
} TlMark;

void tl_paint_mark (cairo_t *cr, const TlPalette *palette, TlMark mark, double x, double y, double size);
/* Edge of a finding's row: solid, slant bars, dots, thin line; x, y, width, height. */
void tl_paint_edge (cairo_t *cr, const TlPalette *palette, TlMark mark, double x, double y, double width, double height);
/* Fills the present path with tint and pattern of a look, and keeps the path. @unit: units of @cr for one mm on the
 * medium; @pitch_ratio 1 on screen, 0.6 on paper and for thin bodies. Pattern on one grid for the whole drawing. */
void tl_paint_look (cairo_t *cr, const TlPalette *palette, TlLook look, gboolean is_cut, double unit, double pitch_ratio);
/* Colour of heat at @ratio, 0 cool to 1 hot: seven stops, linear between; hot is farthest from the paper, and grey
 * changes the same way with every stop. One ink: greys that leave patterns and outlines legible. */
TlColour tl_paint_heat_colour (const TlPalette *palette, double ratio);
/* As tl_paint_look(), with @fill in place of the tint; @ratio: how hot it is on the whole, for the pattern's own tone. */
void tl_paint_look_heat (cairo_t *cr, const TlPalette *palette, TlLook look, gboolean is_cut, double unit, double pitch_ratio, cairo_pattern_t *fill, double ratio);
/* Contact line in the style of a verdict from x0,y0 to x1,y1. */
void tl_paint_contact (cairo_t *cr, const TlPalette *palette, TlMark mark, double unit, double x0, double y0, double x1, double y1);
/* Text at a baseline; @align 0 left, 0.5 centre, 1 right; @size in units of @cr; returns its width. */
double tl_paint_text (cairo_t *cr, const char *text, double x, double y, double size, gboolean bold, double align);
/* Paragraph wrapped to @width; returns its height. Draws only if @draw (@cr may be NULL otherwise). y is the top. */
double tl_paint_paragraph (cairo_t *cr, const char *text, double x, double y, double width, double size, gboolean bold, gboolean draw);
/* Width of a line of text at @size, without a context. */
double tl_paint_text_width (const char *text, double size, gboolean bold);
/* Circle with a leader number; @selected fills it. */
void tl_paint_number (cairo_t *cr, const TlPalette *palette, guint number, double x, double y, double diameter, gboolean selected);

G_END_DECLS
