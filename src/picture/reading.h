/* reading.h: a value read from an instrument at a made joint, and what published criteria make of it.
 *
 * Limits and bands are rows of data/tables/inspection.xml. What a criterion needs and nobody gave makes it "not
 * computed", never a guess: a temperature without load, surroundings, emissivity and size of the spot is kept and not
 * judged; below 40 % of the load there is no band; scaling to full load gives a range.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/range.h"
#include "picture/defect.h"
#include "picture/form.h"

G_BEGIN_DECLS

typedef enum
{
  TL_READING_RESISTANCE, /* uohm, between the mouths */
  TL_READING_DROP,       /* mV at a stated current */
  TL_READING_SPOT,       /* degC */
  TL_READING_DIFFERENCE, /* K above a similar part under similar load */
  TL_READING_INSULATION, /* Mohm */
  TL_READING_TORQUE,     /* N m at which it moved, or was tried up to */
  TL_N_READING_KINDS
} TlReadingKind;

typedef enum
{
  TL_CIRCUIT_UNKNOWN,
  TL_CIRCUIT_SELV,
  TL_CIRCUIT_LOW,   /* up to and including 500 V */
  TL_CIRCUIT_HIGH,  /* above 500 V */
  TL_CIRCUIT_SURGE, /* with surge protectors or electronics that stay connected */
  TL_CIRCUIT_US_250, /* equipment of 250 V, judged by the values recommended in the United States */
  TL_CIRCUIT_US_600,
  TL_N_CIRCUITS
} TlCircuit;

typedef enum
{
  TL_SCREW_UNKNOWN,
  TL_SCREW_BAR,        /* a bolt on solid bars or palms */
  TL_SCREW_CONDUCTOR,  /* a screw on a soft conductor */
  TL_SCREW_RECEPTACLE, /* a terminal screw of a socket outlet */
  TL_N_SCREWS
} TlScrew;

/* What a temperature was read on, for limits of the material. */
typedef enum
{
  TL_SURFACE_UNKNOWN,
  TL_SURFACE_PVC,
  TL_SURFACE_COPPER,      /* hard-drawn */
  TL_SURFACE_ALUMINIUM,   /* hard */
  TL_SURFACE_SOLDERED,
  TL_SURFACE_COVER_PLATE, /* screw of the cover plate, aluminium branch circuit */
  TL_N_SURFACES
} TlSurface;

/* Numbers that are 0 were not given, but for value. Temperatures have flags, since 0 degC can be read. */
typedef struct
{
  TlRecord      record;
  char         *id;             /* "reading-1" */
  char         *inspection;     /* id of the inspection it was made at */
  TlReadingKind kind;
  double        value;          /* in the unit of its kind */
  double        uncertainty;    /* U, k = 2, in the same unit; 0 if nobody says */
  double        current_A;      /* of a drop */
  GArray       *similar;        /* the same reading at similar joints, same unit */
  double        conductor;      /* the same reading on the same length of whole conductor */
  double        initial;        /* the same reading when the joint was made */
  gboolean      has_ambient;
  double        ambient_C;
  double        load_A;         /* at the time */
  double        full_load_A;
  double        emissivity;
  double        target_px;      /* edge of the thing in pixels of the thermal camera */
  gboolean      is_contact;     /* by a probe that touches: needs no emissivity nor size */
  TlSurface     surface;        /* of a spot */
  TlCircuit     circuit;
  double        test_V;
  TlScrew       screw;
  double        nominal_Nm;
  gboolean      has_moved;
  char         *tie;            /* leg, layer or contact of the design, or "" */
  char         *picture;        /* id, or "" */
  char         *instrument, *serial, *calibrated; /* calibration day */
  char         *who, *when;
  char         *note;
} TlReading;

extern const TlForm tl_reading_form;

/* "uohm", "mV", "degC", "K", "Mohm", "N_m" */
const char *tl_reading_unit (TlReadingKind kind);
const char *tl_reading_kind_word (TlReadingKind kind);
/* msgid: "Resistance of the joint" */
const char *tl_reading_kind_label (TlReadingKind kind);

/* msgids for a list to choose from: "Circuit up to 500 V", "Bolt on solid bars", "PVC insulation" */
const char *tl_circuit_label (TlCircuit circuit);
const char *tl_screw_label (TlScrew screw);
const char *tl_surface_label (TlSurface surface);

/* What one criterion says of a reading. */
typedef struct
{
  gboolean    is_computed;
  const char *says;        /* msgid: what follows, or why it was not computed */
  TlGrade     grade;       /* of the figure; of its lower end where it is a range */
  TlGrade     grade_most;  /* of its upper end */
  TlRange     figure;      /* what was judged */
  const char *unit;        /* of the figure */
  double      limit;       /* NAN if a band */
  const char *criterion;   /* msgid: what was compared with what */
  const char *row;         /* id of the row: (nullable) */
  const char *source;      /* source id: (nullable) */
  TlKnownBy   known_by;
} TlReadingResult;

/* Every criterion that applies, computed or not: (element-type TlReadingResult) (transfer full) */
GArray *tl_reading_judge (const TlReading *self, const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;
/* Worst grade of those that were computed; %FALSE if none was. */
gboolean tl_reading_grade (const TlReading *self, const TlStock *stock, TlGrade *grade);

/**
 * tl_reading_full_load_K:
 * @rise_K: rise at @load_A
 *
 * Rise at full load, rise (I2/I1)^x with x from 1.6 to 2.0.
 * Returns: %FALSE if a current is missing or the load is below the least share
 */
gboolean tl_reading_full_load_K (const TlStock *stock, double rise_K, double load_A, double full_load_A, TlRange *full_K);

/* "0.9 mΩ", "31 K"; (transfer full) */
char    *tl_reading_text (const TlReading *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* The figure of a result with its limit; (transfer full) */
char    *tl_reading_result_text (const TlReadingResult *result, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
