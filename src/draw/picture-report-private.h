/* picture-report-private.h: the report as blocks: what its content, its layout and its drawing share. Lengths in mm.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/picture-report.h"

G_BEGIN_DECLS

typedef enum
{
  TL_REPORT_HEADING,
  TL_REPORT_TEXT,      /* cells[0] */
  TL_REPORT_PAIR,      /* label and text */
  TL_REPORT_ROW,       /* cells side by side, by the columns of its table */
  TL_REPORT_HEAD_ROW,  /* the same, bold, ruled below */
  TL_REPORT_PICTURE,   /* index of a picture */
  TL_REPORT_VERDICTS,  /* designed beside found */
  TL_REPORT_SIGNATURE,
  TL_REPORT_CAUTION,   /* cells[0] in a frame */
} TlReportKind;

#define TL_REPORT_MOST_CELLS 6u

typedef struct
{
  TlReportKind kind;
  char        *cells[TL_REPORT_MOST_CELLS]; /* owned; %NULL: none */
  double       widths[TL_REPORT_MOST_CELLS];
  guint        n;
  int          grade;  /* mark before the first cell; -1 none */
  guint        index;  /* picture */
  gboolean     keep;   /* stays with the block before it */
  gboolean     on_new_page;
  double       height;
  guint        page;
  double       y;
} TlReportBlock;

struct _TlPictureReport
{
  const TlPalette     *palette;
  TlLanguage          *language;
  TlStock             *stock;
  TlDefects           *defects;
  TlJoint             *joint;
  TlInspections       *inspections;
  const TlInspection  *inspection; /* of @inspections */
  TlAsFound           *as_found;
  GPtrArray           *surfaces;   /* (element-type cairo_surface_t) by picture; %NULL where there is none */
  GPtrArray           *objections; /* (element-type utf8) */
  GArray              *blocks;     /* (element-type TlReportBlock) */
  char                *date;       /* (nullable) */
  double               width, height;
  guint                n_pages;
};

/* picture-report-figures.c: what the report says, as blocks without place. */
void   tl_picture_report_compose (TlPictureReport *self);
/* picture-report-annex.c: what is no evidence: the forecast of the joint as found. */
void   tl_picture_report_annex (TlPictureReport *self);
/* picture-report-words.c: a picture and what is marked in it in sentences, for who cannot see it; (transfer full) */
char  *tl_picture_report_words (const TlPictureReport *self, guint index) G_GNUC_WARN_UNUSED_RESULT;
/* picture-report-rows.c: adding blocks; strings are copied. */
const char    *tl_report_text (const TlPictureReport *self, const char *msgid) G_GNUC_FORMAT (2);
TlReportBlock *tl_report_add (TlPictureReport *self, TlReportKind kind, const char *first);
/* The same; under a heading it stays with it. */
TlReportBlock *tl_report_add_first (TlPictureReport *self, TlReportKind kind, const char *first);
TlReportBlock *tl_report_add_heading (TlPictureReport *self, const char *msgid);
/* @label is a msgid; an empty @value is "not stated". */
void           tl_report_add_pair (TlPictureReport *self, const char *label, const char *value);
/* @cells: as many as @widths, which end with 0 */
TlReportBlock *tl_report_add_row (TlPictureReport *self, TlReportKind kind, const double *widths, const char *const *cells);
/* Head of a table from msgids. */
void   tl_report_add_head (TlPictureReport *self, const double *widths, const char *const *msgids);
/* picture-report-blocks.c: height of a block, drawn if @cr is not %NULL. */
double tl_picture_report_block (const TlPictureReport *self, cairo_t *cr, const TlReportBlock *block, double y);
void   tl_picture_report_frame (const TlPictureReport *self, cairo_t *cr, guint page);
double tl_picture_report_top (const TlPictureReport *self);
double tl_picture_report_bottom (const TlPictureReport *self);

G_END_DECLS
