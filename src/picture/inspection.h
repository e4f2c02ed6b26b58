/* inspection.h: pictures, readings and inspections of one joint over the years, with the chain of who did what.
 *
 * An immutable value: a change is a function from it to another, so undo swaps a pointer. An inspection is open until its
 * first report is issued; then it is closed, and what comes later is a new revision that names the fingerprint of the old
 * one. Import, issue and revision are entries of a chain in which each holds the fingerprint of the one before. A chain
 * alone can be rebuilt by whoever holds all of it: its last link is printed in the report.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/field.h"
#include "picture/mark.h"
#include "picture/measure.h"
#include "picture/picture.h"
#include "picture/reading.h"

G_BEGIN_DECLS

#define TL_INSPECTIONS_MAX_PICTURES 200u

/* A figure or word of the design as it was found. */
typedef struct
{
  TlRecord record;
  char    *owner;       /* leg id, layer id, "site" or "duty" */
  char    *field;       /* key of the vocabulary */
  char    *measure;     /* id of the measure or reading it comes from, or "" */
  double   value;       /* in the field's unit; used where there is no measure */
  double   expanded;    /* U, k = 2 */
  double   tolerance;   /* permitted way from the design's figure, both ways; 0: that of the design's own range */
  char    *word;        /* for words */
  char    *note;        /* instrument and date, or how it was seen */
} TlFound;

extern const TlForm tl_found_form;

/* One look at the joint. */
typedef struct
{
  TlRecord  record;
  char     *id;           /* "inspection-1" */
  char     *number;       /* of the report, as the inspector counts */
  guint     revision;     /* 0, 1, ... */
  char     *of;           /* id of the inspection this one revises, or "" */
  char     *previous;     /* its fingerprint when it was closed, or "" */
  char     *seal;         /* own fingerprint when closed; "" while open */
  char     *issued;       /* when; "" while open */
  char     *begun;        /* date and time with zone */
  char     *purpose;      /* purpose and question */
  char     *present;      /* who was there */
  char     *author;
  char     *qualification;
  char     *not_inspected;/* what was not inspected or could not be reached */
  char     *assumptions;
  char     *conclusion;   /* opinion */
  /* not slots: children */
  GPtrArray *scales;      /* (element-type TlScale) */
  GPtrArray *measures;    /* (element-type TlMeasure) */
  GPtrArray *marks;       /* (element-type TlPictureMark) in the order of their numbers */
  GPtrArray *found;       /* (element-type TlFound) */
} TlInspection;

extern const TlForm tl_inspection_form;

/* One entry of the chain. */
typedef struct
{
  TlRecord record;
  guint    number;   /* 1, 2, ... */
  char    *when;
  char    *who;
  char    *act;      /* "import", "remove", "issue", "revise" */
  char    *object;   /* id */
  char    *content;  /* SHA-256 of what it is about */
  char    *link;     /* SHA-256 of the link before and this entry's own hash */
} TlCustody;

extern const TlForm tl_custody_form;

typedef struct
{
  gatomicrefcount ref_count;
  GPtrArray *photos;      /* (element-type TlPhoto) */
  GPtrArray *readings;    /* (element-type TlReading) */
  GPtrArray *inspections; /* (element-type TlInspection) in order of time */
  GPtrArray *custody;     /* (element-type TlCustody) */
  guint      next_id;     /* number of the next new id: only grows */
  /*< private >*/
  GPtrArray *kept;        /* (element-type TlXmlNode): what only a newer version knows, by place */
} TlInspections;

TlInspections *tl_inspections_new (void) G_GNUC_WARN_UNUSED_RESULT;
TlInspections *tl_inspections_ref (const TlInspections *self);
void           tl_inspections_unref (TlInspections *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlInspections, tl_inspections_unref)

/* %TRUE if there is nothing in it. */
gboolean             tl_inspections_is_empty (const TlInspections *self);
/* All (transfer none) (nullable) */
const TlPhoto       *tl_inspections_photo (const TlInspections *self, const char *id);
const TlInspection  *tl_inspections_get (const TlInspections *self, const char *id);
/* The newest one, open or closed. */
const TlInspection  *tl_inspections_latest (const TlInspections *self);
const TlReading     *tl_inspections_reading (const TlInspections *self, const char *id);
const TlScale       *tl_inspection_scale (const TlInspection *self, const char *id);
const TlMeasure     *tl_inspection_measure (const TlInspection *self, const char *id);
const TlPictureMark *tl_inspection_mark (const TlInspection *self, const char *id);
gboolean             tl_inspection_is_closed (const TlInspection *self);
/* Worst grade of its marks, and of its readings by @stock. */
TlGrade              tl_inspections_grade (const TlInspections *self, const TlInspection *inspection, const TlStock *stock);
/* Runs a measure with its scale and picture; %FALSE with @error if one of them is gone or it has no figure. Where the scale has no
 * distance it is reckoned from the camera's note (tl_scale_distance_mm), and the result says so. */
gboolean tl_inspections_run (const TlInspections *self, const TlInspection *inspection, const TlMeasure *measure, TlMeasureResult *result, GError **error);

/* --- edits: each (transfer full), or %NULL with @error; the old value is untouched --- */

/* Who does it, and when ("2026-03-03T10:30:00+01:00"); the engine reads no clock. */
typedef struct
{
  const char *who;
  const char *when;
} TlActor;

/* Takes a copy of @photo and gives it an id. The same bytes twice are refused. @new_id: (out) (optional) (transfer full) */
TlInspections *tl_inspections_add_photo (const TlInspections *self, const TlPhoto *photo, const TlActor *actor, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Refused while a closed inspection shows it; marks, scales and measures in it go with it. */
TlInspections *tl_inspections_remove_photo (const TlInspections *self, const char *id, const TlActor *actor, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Caption, view, clock offset: what is said about a picture, not what is in it. */
TlInspections *tl_inspections_set_photo (const TlInspections *self, const TlPhoto *photo, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* A new, open inspection. */
TlInspections *tl_inspections_begin (const TlInspections *self, const TlActor *actor, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Replaces the texts of an open inspection (its form); children stay. */
TlInspections *tl_inspections_set (const TlInspections *self, const TlInspection *texts, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_inspections_put:
 * @inspection: id of an open inspection
 * @record: a scale, measure, mark, found value or reading; one without id is new and gets one, one with an id replaces
 *
 * A mark without number gets the next one. Found values replace those of the same owner and field.
 */
TlInspections *tl_inspections_put (const TlInspections *self, const char *inspection, gconstpointer record, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Scale (with its measures), measure, mark or reading; numbers of marks close up. */
TlInspections *tl_inspections_remove (const TlInspections *self, const char *inspection, const char *id, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlInspections *tl_inspections_remove_found (const TlInspections *self, const char *inspection, const char *owner, const char *field, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Gives a mark another number; the others move on. */
TlInspections *tl_inspections_number_mark (const TlInspections *self, const char *inspection, const char *id, guint number, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Closes it: a report was issued. */
TlInspections *tl_inspections_issue (const TlInspections *self, const char *inspection, const TlActor *actor, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* A new revision of a closed one, with copies of all that is in it. */
TlInspections *tl_inspections_revise (const TlInspections *self, const char *inspection, const TlActor *actor, char **new_id, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- custody --- */

/* SHA-256, in hex, of the link before (64 zeros at the start) and a record's hash, both in hex. (transfer full) */
char *tl_custody_link (const char *previous, const char *record_hash) G_GNUC_WARN_UNUSED_RESULT;
/* The last link, or 64 zeros. (transfer none) */
const char *tl_inspections_last_link (const TlInspections *self);
/* Fingerprint of an inspection and the readings made at it. (transfer full) */
char *tl_inspections_seal (const TlInspections *self, const TlInspection *inspection) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  TL_CHECK_GOOD,
  TL_CHECK_MISSING, /* the original is not in the document */
  TL_CHECK_CHANGED, /* its hash is another */
} TlCheck;

typedef struct
{
  char    *object; /* id of a picture, inspection or entry */
  TlCheck  check;
  char    *text;   /* what was compared, and how it came out */
} TlCheckLine;

/**
 * tl_inspections_verify:
 * Every original against its hash, every link of the chain, every closed inspection against its seal.
 * Returns: (element-type TlCheckLine) (transfer full)
 */
GPtrArray *tl_inspections_verify (const TlInspections *self, TlOriginals *originals, const TlLanguage *language, gboolean *is_good) G_GNUC_WARN_UNUSED_RESULT;

/* --- before and after --- */
/* What changed from one inspection to a later one: (element-type utf8) sentences; (transfer full) */
GPtrArray *tl_inspections_changes (const TlInspections *self, const TlInspection *before, const TlInspection *after, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* --- in the document --- */

/* From its reserved elements (pictures, readings, inspections; others are passed over). */
TlInspections *tl_inspections_from_nodes (const GPtrArray *nodes, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (element-type TlXmlNode) (transfer full): those three, without the empty ones */
GPtrArray     *tl_inspections_to_nodes (const TlInspections *self, const char *ns) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
