/* mark.h: a numbered mark in a picture: where, what is seen, by what it is judged, what it may come from, what to do.
 *
 * Facts and opinion are separate fields. Words that a picture cannot carry ("caused by", "complies" without a rule) are
 * objected to before a report is issued.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/defect.h"
#include "picture/form.h"

G_BEGIN_DECLS

typedef enum
{
  TL_OUTLINE_POINT,
  TL_OUTLINE_LINE,
  TL_OUTLINE_ARROW,
  TL_OUTLINE_BOX, /* two opposite corners */
  TL_OUTLINE_POLYGON,
  TL_OUTLINE_FREEHAND,
  TL_N_OUTLINES
} TlOutline;

typedef struct
{
  TlRecord    record;
  char       *id;       /* "mark-4" */
  guint       number;   /* as shown; 1, 2, ... in the order of the list */
  char       *picture;  /* id */
  TlOutline shape;
  GArray     *points;
  char       *colour;   /* "" by severity, or "blue", "yellow", "white", "black" */
  char       *defect;   /* id of the catalogue, or "" */
  TlGrade     grade;
  char       *seen;     /* what is seen */
  char       *measure;  /* id of a measure or reading, or "" */
  char       *criterion;/* by what it is judged, with rule and edition */
  char       *source;   /* id of that source, or "" */
  char       *cause;    /* opinion */
  char       *action;
  char       *deadline; /* day, or "" */
  char       *tie;      /* leg, layer or contact of the design, or "" */
  char       *who, *when;
} TlPictureMark;

extern const TlForm tl_picture_mark_form;

/* Points that a shape wants. @most: (out) (optional): 0 for any number */
guint       tl_outline_points (TlOutline shape, guint *most);
const char *tl_outline_word (TlOutline shape);
/* msgid */
const char *tl_outline_label (TlOutline shape);
gboolean    tl_picture_mark_check (const TlPictureMark *self, GError **error);

/* Fills seen, cause, action, severity and source of a mark that is still writable from the catalogue. */
void        tl_picture_mark_set_defect (TlPictureMark *self, const TlDefect *defect, const TlLanguage *language);

/* Where its number stands: the first point, or the upper left corner of a box. */
TlPixel     tl_picture_mark_anchor (const TlPictureMark *self);
/* Distance from @pixel to the mark, px. */
double      tl_picture_mark_distance_px (const TlPictureMark *self, TlPixel pixel);

/* What a report may not say: sentences for the inspector; (element-type utf8) (transfer full), empty if all is well. The words are
 * rows of data/tables/report-words.xml: those in English and those of @language. */
GPtrArray  *tl_picture_mark_objections_by (const TlPictureMark *self, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* The same by the words that are compiled in, for who has no stock at hand. */
GPtrArray  *tl_picture_mark_objections (const TlPictureMark *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
