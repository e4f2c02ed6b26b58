/* verdict.h: all findings about a joint, its four headline margins and its worst severity.
 *
 * tl_verdict_new() is pure, needs no display, and is fast enough to run on every pointer motion of a drag.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/finding.h"

G_BEGIN_DECLS

typedef enum
{
  TL_MARGIN_GALVANIC,
  TL_MARGIN_HEAT,
  TL_MARGIN_GRIP,
  TL_MARGIN_SEAL,
  TL_N_MARGINS
} TlMargin;

typedef struct
{
  gatomicrefcount ref_count;
  TlAssembly *assembly;
  GPtrArray  *findings;     /* (element-type TlFinding) worst first, then in order of the drawing */
  GArray     *unfinished;   /* (element-type TlProblem) what is missing; empty when the joint is complete */
  GArray     *not_computed; /* (element-type TlNotComputed) */
  TlFigure    margins[TL_N_MARGINS];
  gboolean    has_margin[TL_N_MARGINS];
  gboolean    has_severity; /* FALSE while Unfinished */
  TlSeverity  severity;     /* worst; never Sound while something was not computed (then Watch) */
  /*< private >*/
  GStringChunk *strings;    /* of the findings */
} TlVerdict;

typedef enum
{
  TL_VERDICT_FULL,  /* with workings */
  TL_VERDICT_QUICK, /* severities, figures and margins only */
} TlVerdictDepth;

/* Judges by the joint's own copies (`used`) where it has them. (transfer full) */
TlVerdict *tl_verdict_new (const TlJoint *joint, const TlStock *stock, TlVerdictDepth depth) G_GNUC_WARN_UNUSED_RESULT;
TlVerdict *tl_verdict_ref (const TlVerdict *self);
void       tl_verdict_unref (TlVerdict *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlVerdict, tl_verdict_unref)

/* "Change", "Unfinished"; msgid. */
const char *tl_verdict_word (const TlVerdict *self);
/* Worst severity among the findings about a contact or an owner; %FALSE if none is about it. */
gboolean tl_verdict_of_contact (const TlVerdict *self, guint contact, TlSeverity *severity);
gboolean tl_verdict_of_owner (const TlVerdict *self, const char *owner, TlSeverity *severity);
guint    tl_verdict_count (const TlVerdict *self, TlSeverity severity);

/* Copies of the parts, materials and thresholds that this verdict used; (transfer full) */
TlUsed *tl_verdict_dup_used (const TlVerdict *self) G_GNUC_WARN_UNUSED_RESULT;

/* All rules in the order of their concerns: (array length=count) */
const TlRule *const *tl_rules_all (guint *count);

G_END_DECLS
