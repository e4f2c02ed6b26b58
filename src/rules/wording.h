/* wording.h: from findings to sentences in the trade's words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/verdict.h"

G_BEGIN_DECLS

/* The sentence of a finding: part, figure, limit, what follows. All (transfer full). */
char *tl_wording_finding (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Why it matters, or "" */
char *tl_wording_why (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Button text of its mend. */
char *tl_wording_mend (const TlVerdict *verdict, const TlMend *mend, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
char *tl_wording_problem (const TlAssembly *assembly, const TlProblem *problem, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
char *tl_wording_not_computed (const TlVerdict *verdict, const TlNotComputed *row, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "1 to change, 2 to watch, 3 sound." or what is missing. */
char *tl_wording_summary (const TlVerdict *verdict, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* One side of a dispute with where it is from; @row: of tl_finding_disputes() */
char *tl_wording_dispute (const TlVerdict *verdict, const TlTableRow *row, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Source lines of a finding, one a line; where sources disagree, both sides last. */
char *tl_wording_sources (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Headline figure ("0.45 V", "open", "not computed") and its limit line ("limit 0.60 V"). */
char *tl_wording_margin (const TlVerdict *verdict, TlMargin margin, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
char *tl_wording_margin_limit (const TlVerdict *verdict, TlMargin margin, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* Lines of a working: the formula with numbers put in: (element-type TlWorkingLine) (transfer full) */
typedef struct
{
  char *name;   /* "clamping force" */
  char *text;   /* "= 2.0 N·m / (0.20 × 5 mm)" or "input" */
  char *value;  /* "2 000 N" */
  gboolean is_result;
} TlWorkingLine;
GPtrArray *tl_wording_working (const TlVerdict *verdict, const TlFinding *finding, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* Replaces {name} in @template by values: pairs name, value, ..., NULL. For the other edges (steps, places). */
char *tl_wording_fill (const char *template_text, ...) G_GNUC_NULL_TERMINATED G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
