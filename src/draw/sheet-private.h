/* sheet-private.h: the step sheet as blocks: what sheet.c, sheet-layout.c and the block files share.
 *
 * A block is drawn by one function that also measures it: without a context it only returns its height, so that
 * what was measured is what is drawn. Lengths in mm of the paper.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/box-view.h"
#include "draw/sheet.h"

G_BEGIN_DECLS

/* Text sizes, from points. */
#define TL_POINT_MM (25.4 / 72.0)
#define TL_SIZE_TEXT (8.8 * TL_POINT_MM)
#define TL_SIZE_TABLE (8.0 * TL_POINT_MM)
#define TL_SIZE_HEAD (10.0 * TL_POINT_MM)
#define TL_SIZE_NAME (13.0 * TL_POINT_MM)
#define TL_SIZE_LABEL (7.0 * TL_POINT_MM)

/* The paper: margins with a strip to punch, and the text column. */
#define TL_SHEET_LEFT 20.0
#define TL_SHEET_TOP 12.0
#define TL_SHEET_BOTTOM 11.0
#define TL_SHEET_WIDTH 178.0
#define TL_SHEET_HEAD 21.0
#define TL_SHEET_DRAWING 66.0
#define TL_SHEET_BOX 45.0
#define TL_SHEET_RULER 12.0

typedef struct _TlBlock TlBlock;

/* Draws the block with its top at @y, or with @cr NULL only measures; returns its height. */
typedef double (*TlBlockFunc) (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);

struct _TlBlock
{
  TlBlockFunc draw;
  guint       first, count; /* rows of a list, or the step */
  gboolean    keep;         /* stays on the page of the block before it */
  double      height;
  guint       page;
  double      y;
};

struct _TlSheet
{
  TlVerdict       *verdict;
  const TlPalette *palette;
  TlLanguage      *language;
  TlStepSheet     *steps;
  TlDrawing       *drawing;
  TlBoxLayout     *box;     /* (nullable): its inner sizes, or those of the joint, are not known */
  GPtrArray       *words;   /* (element-type utf8) the drawing in sentences */
  char            *date;    /* (nullable) ISO day of the PDF */
  double           width, height;
  GArray          *blocks;  /* (element-type TlBlock) */
  guint            n_pages;
  guint            ruler_page;
};

/* --- sheet-pen.c: text and lines that measure without a context --- */
const char *tl_sheet_text (const TlSheet *self, const char *msgid);
void   tl_pen_text (cairo_t *cr, const char *text, double x, double baseline, double size, gboolean bold, double align);
double tl_pen_paragraph (cairo_t *cr, const char *text, double x, double y, double width, double size, gboolean bold);
/* One line that fits @width, cut with an ellipsis if need be. */
void   tl_pen_fitted (cairo_t *cr, const char *text, double x, double baseline, double width, double size, gboolean bold);
void   tl_pen_line (cairo_t *cr, double x0, double y0, double x1, double y1, double width);
void   tl_pen_frame (cairo_t *cr, double x, double y, double width, double height, double line);
void   tl_pen_tick_box (cairo_t *cr, double x, double y);
/* Structure of a tagged PDF; nothing on other surfaces. */
void   tl_pen_begin (cairo_t *cr, const char *tag);
void   tl_pen_end (cairo_t *cr, const char *tag);
double tl_pen_heading (const TlSheet *self, cairo_t *cr, const char *msgid, double x, double y, double width);
/* First @most characters of a person's own text: paper has an end. (transfer full) */
char  *tl_pen_shorten (const char *text, glong most) G_GNUC_WARN_UNUSED_RESULT;

/* --- sheet-signs.c: signs and pictures of our own --- */
void tl_sign_electricity (cairo_t *cr, double x, double y, double size); /* ISO 7010 W012 */
void tl_sign_lock (cairo_t *cr, double x, double y, double size);        /* ISO 7010 M028 */
void tl_sign_scissors (cairo_t *cr, double x, double y, double size);
void tl_sign_ruler (const TlSheet *self, cairo_t *cr, double x, double y);

/* --- sheet-page.c: what every page has --- */
void tl_sheet_paint_frame (const TlSheet *self, cairo_t *cr, guint page);
/* Where blocks may stand on a page. */
double tl_sheet_body_top (const TlSheet *self);
double tl_sheet_body_bottom (const TlSheet *self);

/* --- blocks --- */
double tl_block_cautions (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_lists (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_drawing (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_box (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_words (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_steps_head (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_step (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_watch_head (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_watch (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_record (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_upkeep (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_assumed (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_refusal_head (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_refusal (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);
double tl_block_instead (const TlSheet *self, cairo_t *cr, const TlBlock *block, double y);

/* --- sheet-layout.c --- */
/* Lists the blocks, measures them, and gives each its page and place. */
void tl_sheet_lay_out (TlSheet *self);

G_END_DECLS
