/* identify.h: what an old wire is: section, metal and class, from what can be measured and seen of it.
 *
 * Density of a length, resistivity of a length, and the product of both, which needs no diameter, are held against
 * the bands of the table "identify-metals"; looks speak against a metal but never decide alone, years are a hint.
 * Copper-clad aluminium looks like copper, tinned copper like aluminium: weight and resistance tell them apart.
 * Where the bands of two metals meet the measured one, the answer is "undecided", and what would decide is named.
 *
 * Not here: insulation, age and state of the wire; sizes that are not in the stock.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "physics/formula.h"
#include "stock/stock.h"

G_BEGIN_DECLS

typedef enum
{
  TL_MEASURED_DIAMETER,    /* mm: bare solid wire, or one strand if there are several */
  TL_MEASURED_LENGTH,      /* mm: of the piece that was weighed or measured */
  TL_MEASURED_MASS,        /* g: bare metal of that length */
  TL_MEASURED_RESISTANCE,  /* mohm: of that length */
  TL_MEASURED_TEMPERATURE, /* degC: of the wire at that time; 20 if not given */
  TL_N_MEASURED
} TlMeasured;

typedef struct
{
  gboolean    given[TL_N_MEASURED];
  TlRange     value[TL_N_MEASURED]; /* an exact figure gets the usual error of its instrument */
  guint       strands;              /* 1 for a solid wire; at least 1 */
  const char *surface;              /* (nullable): "red", "silver" or "dull" */
  const char *cut;                  /* (nullable): "red" or "silver": a fresh cut across the wire */
  guint       year;                 /* of installation, 0 if unknown */
  const char *practice;             /* "iec-style" | "nfpa70-style" */
} TlSighting;

void tl_sighting_init (TlSighting *self);
/* Unit in which @measured is kept; key of the table and of JSON. (transfer none) */
const char *tl_measured_unit (TlMeasured measured);
const char *tl_measured_key (TlMeasured measured);

typedef enum
{
  TL_EVIDENCE_PRODUCT,     /* resistivity times density, ohm_g/m2 */
  TL_EVIDENCE_DENSITY,     /* g/cm3 */
  TL_EVIDENCE_RESISTIVITY, /* ohm_mm2/m at 20 degC */
  TL_EVIDENCE_SURFACE,
  TL_EVIDENCE_CUT,
  TL_EVIDENCE_YEAR,
  TL_N_EVIDENCE
} TlEvidence;

/* One thing that speaks for or against a metal. */
typedef struct
{
  TlEvidence  evidence;
  gboolean    is_against;
  TlRange     measured; /* figures and years */
  TlRange     wanted;
  const char *unit;     /* static; "" for words */
  const char *seen;     /* (nullable) word of the sighting */
} TlEvidenceRow;

typedef struct
{
  const char *metal;       /* "copper", "tinned-copper", "copper-clad-aluminium", ...: id in the table */
  const char *name;        /* msgid */
  const char *source;      /* source id of its band */
  TlKnownBy   known_by;
  gboolean    is_possible; /* nothing speaks against it */
  guint       n_measured;  /* measured figures that speak for it */
  double      distance;    /* mean distance of those figures from the best of the band, in e-folds */
  GArray     *reasons;     /* (element-type TlEvidenceRow) */
} TlMetalCandidate;

/* A size of the stock in which the section lies. */
typedef struct
{
  const char *size;        /* "2.5 mm²", "12 AWG" */
  const char *class_word;  /* "class-1", "class-2", "class-5" */
  double      section_mm2; /* nominal */
  double      distance;    /* of the measured section from it, in e-folds */
} TlSizeCandidate;

typedef enum
{
  TL_IDENTITY_NOTHING,   /* nothing was given that tells a metal */
  TL_IDENTITY_DECIDED,   /* one metal is left, and a measured figure speaks for it */
  TL_IDENTITY_INDICATED, /* one metal is left, by its look alone */
  TL_IDENTITY_UNDECIDED, /* several are left */
  TL_IDENTITY_NONE,      /* none is left: a wrong figure, or another metal */
} TlIdentityState;

typedef struct
{
  TlIdentityState state;
  gboolean   has_section;
  TlRange    section_mm2;
  gboolean   section_by_metal; /* without a diameter: from weight or resistance, if it is the one metal left */
  GPtrArray *metals;          /* (element-type TlMetalCandidate) the likeliest first */
  GArray    *sizes;           /* (element-type TlSizeCandidate) the nearest first */
  GArray    *would_decide;    /* (element-type TlEvidence) what is not known yet and would tell those left apart */
  GArray    *assumed;         /* (element-type TlMeasured) figures that got the usual error of their instrument */
  GPtrArray *calls;           /* (element-type TlCall) the working */
  TlSighting sighting;        /* as reckoned with: errors put in; words borrowed from the caller's */
} TlIdentity;

/**
 * tl_identity_new:
 * Returns: (transfer full) (nullable): %NULL with %TL_ERROR_RANGE or %TL_ERROR_NAME for a figure or word out of
 *   range, or a weight or resistance without its length
 */
TlIdentity *tl_identity_new (const TlSighting *sighting, const TlStock *stock, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void        tl_identity_free (TlIdentity *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlIdentity, tl_identity_free)

/* "decided", "undecided", ... and "density", "cut", ...: for JSON. (transfer none) */
const char *tl_identity_state_word (TlIdentityState state);
const char *tl_evidence_word (TlEvidence evidence);

/* --- identify-text.c: sentences --- */
/* "Copper-clad aluminium." or why not; (transfer full) */
char *tl_identity_summary (const TlIdentity *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* All of it, for the terminal; (transfer full) */
char *tl_identity_to_text (const TlIdentity *self, const TlStock *stock, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
