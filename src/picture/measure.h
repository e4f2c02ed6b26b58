/* measure.h: a length, width, gap, diameter, angle or area in a picture, with its uncertainty, against its limit.
 *
 * The uncertainty U is expanded, k = 2. It is propagated to first order from every click and the known sizes, with what
 * is systematic (tilt, distance off the plane, lens, corners) as rectangular terms. Inside U nothing is decided, and
 * nothing where nobody says that the thing lies in the plane of the reference.
 * Sources: GUM, first-order propagation; pinhole geometry (formula image-plane-error).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/scale.h"

G_BEGIN_DECLS

typedef enum
{
  TL_MEASURE_LENGTH,   /* two points */
  TL_MEASURE_WIDTH,    /* two points of an edge, one of the other edge */
  TL_MEASURE_GAP,      /* two points */
  TL_MEASURE_DIAMETER, /* three points on the rim */
  TL_MEASURE_ANGLE,    /* arm, apex, arm */
  TL_MEASURE_AREA,     /* three points and more around */
  TL_N_MEASURE_KINDS
} TlMeasureKind;

typedef enum
{
  TL_LIMIT_NONE,
  TL_LIMIT_LEAST,  /* must reach it */
  TL_LIMIT_MOST,   /* must not pass it */
  TL_LIMIT_BETWEEN,
} TlLimitKind;

typedef enum
{
  TL_DECISION_NONE,      /* no limit was given */
  TL_DECISION_UNDECIDED, /* the limit lies within U, or the plane is not assured */
  TL_DECISION_WITHIN,
  TL_DECISION_BEYOND,
} TlDecision;

typedef struct
{
  TlRecord      record;
  char         *id;         /* "measure-3" */
  char         *picture;
  char         *scale;      /* id of the scale it is made by */
  TlMeasureKind kind;
  GArray       *points;
  char         *what;       /* "bare aluminium at the right end" */
  double        lean_deg;   /* the line may lean out of its plane by up to this; reads short, is corrected by half */
  TlLimitKind   limit_kind;
  double        limit;      /* mm, mm2 or deg; the lower of BETWEEN */
  double        limit_most; /* the upper of BETWEEN */
  char         *limit_from; /* what gives the limit: rule with edition, or the design */
  char         *owner;      /* leg or layer of the design, or "" */
  char         *field;      /* key of the fact that was measured, or "" */
  char         *who, *when;
} TlMeasure;

extern const TlForm tl_measure_form;

typedef struct
{
  double   value;         /* mm, mm2 or deg */
  double   expanded;      /* U, k = 2 */
  double   click;         /* standard uncertainties by cause: all clicks and corners */
  double   reference;     /* the known size */
  double   plane;         /* tilt, distance off the plane, lean */
  double   lens;
  double   bias;          /* corners all to one side */
  gboolean plane_assured;
  gboolean is_outside;    /* a point lies outside the reference: trust it less */
  gboolean is_small;      /* spans fewer than ten pixels */
  double   distance_mm;   /* camera to reference, as used; 0: nobody knows */
  gboolean is_distance_estimated; /* from what the camera noted, not entered by a person */
} TlMeasureResult;

/* Points that @kind wants; @most 0 for any number. */
guint       tl_measure_points (TlMeasureKind kind, guint *most);
/* "mm", "mm2", "deg" */
const char *tl_measure_unit (TlMeasureKind kind);
/* msgid: "Length" */
const char *tl_measure_kind_label (TlMeasureKind kind);
/* "length" */
const char *tl_measure_kind_word (TlMeasureKind kind);
/* msgid: "within", "beyond", "undecided", "no limit" */
const char *tl_decision_word (TlDecision decision);

/**
 * tl_measure_run:
 * @width, @height: of the upright picture, pixels: the lens errs by distance from its middle
 * Returns: %FALSE with %TL_ERROR_RANGE if the points or the scale admit no figure
 */
gboolean   tl_measure_run (const TlMeasure *self, const TlScale *scale, guint width, guint height, TlMeasureResult *result, GError **error);
/* Value and U against the limit. */
TlDecision tl_measure_decide (const TlMeasure *self, const TlMeasureResult *result);
/* The same rule for any value with its U. */
TlDecision tl_decide (double value, double expanded, TlLimitKind kind, double limit, double limit_most);

/* "4.3 ± 0.3 mm", rounded to the second figure of U; (transfer full) */
char      *tl_measure_text (const TlMeasure *self, const TlMeasureResult *result, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "at least 2 mm", ""; (transfer full) */
char      *tl_measure_limit_text (const TlMeasure *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
