/* steps.h: the step sheet as content: what to do, in the only order that works, with figures and holds.
 *
 * Built from a verdict in a given language; draw/sheet lays it out, `tinlap-cli sheet --text` prints it.
 * A joint that is Unsafe or Unfinished gets no steps: only why, and the mends.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/wording.h"

G_BEGIN_DECLS

/* What stands before a line of findings: a severity, or one of these. */
enum
{
  TL_LINE_PLAIN = -1,
  TL_LINE_UNFINISHED = -2,
  TL_LINE_NOT_COMPUTED = -3,
};

typedef struct
{
  char *label;
  char *value;
  gint  mark;  /* a TlSeverity, or TL_LINE_PLAIN and below */
} TlLine;

typedef struct
{
  char      *id;       /* stable kind of step: "slide-seal", "strip", "brush", "press", "shrink", "hold-tug" ... */
  guint      number;   /* 1, 2, ...; 0 for a hold */
  gboolean   is_hold;
  char      *letter;   /* "A", ... for a hold */
  char      *text;
  char      *if_not;   /* hold: what to do if it fails */
  GPtrArray *figures;  /* (element-type TlLine) */
} TlStep;

typedef struct
{
  guint number;        /* leader number, 0 for none */
  char *name;
  char *size;
} TlPartLine;

typedef enum
{
  TL_SHEET_STEPS,      /* may be made */
  TL_SHEET_CHANGE,     /* may be printed with the banner on every page */
  TL_SHEET_REFUSED,    /* not to be made as drawn */
} TlSheetState;

typedef struct
{
  TlSheetState state;
  gboolean     fault_example;
  char        *name, *subtitle, *place, *prepared_by, *date, *verdict_word;
  gboolean     has_severity;
  TlSeverity   severity;
  char        *banner;         /* "" or "To be changed before it is made" */
  GPtrArray   *cautions;       /* (element-type utf8) isolate, prove dead, lock off, ... */
  GPtrArray   *parts;          /* (element-type TlPartLine) */
  GPtrArray   *tools;          /* (element-type TlLine) */
  GPtrArray   *steps;          /* (element-type TlStep) */
  GPtrArray   *refusals;       /* (element-type TlLine) why, and the mend */
  gboolean     no_joint;       /* nothing passes here: the half page "No joint recommended" */
  GPtrArray   *instead;        /* (element-type utf8) refused, or the place forbids it: what to do in place of it */
  GPtrArray   *findings;       /* (element-type TlLine) severity word, sentence: what still is to be watched */
  GPtrArray   *record;         /* (element-type utf8) captions of the record block */
  char        *upkeep;         /* when to look again and why */
  char        *next_look;
  GPtrArray   *label;          /* (element-type utf8) lines of the label for the box cover */
  GPtrArray   *assumed;        /* (element-type utf8) */
  char        *foot;           /* "This joint only; ..." */
} TlStepSheet;

/* A kind of step, whatever the joint. */
typedef struct
{
  const char *id;   /* as in TlStep */
  const char *name; /* msgid: "Strip the ends" */
} TlStepKind;

/* All kinds, about in the order of the work. (array length=count) (transfer none) */
const TlStepKind *tl_step_kinds (guint *count);

/* @date: (nullable): day to print; NULL leaves the joint's own or a line to write on. (transfer full) */
TlStepSheet *tl_steps_new (const TlVerdict *verdict, const char *date, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
void         tl_steps_free (TlStepSheet *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlStepSheet, tl_steps_free)

/* The sheet as plain text, for the terminal and for tests. (transfer full) */
char *tl_steps_to_text (const TlStepSheet *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
