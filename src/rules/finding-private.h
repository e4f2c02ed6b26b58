/* finding-private.h: the collector that rules write into, and what the verdict reads out of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/heat-model.h"
#include "rules/verdict.h"

G_BEGIN_DECLS

struct _TlFindings
{
  TlVerdict    *verdict;
  const TlRule *rule;  /* the one that runs */
  gboolean      quick;
  double        slack[TL_N_MARGINS];
  TlHeatModel  *heat;  /* (nullable): built when first asked for */
  gboolean      heat_was_tried;
  const char   *heat_reason, *heat_owner;
  TlField       heat_field;
};

/* The electro-thermal model of the joint, built once for all rules; (nullable) (transfer none). */
TlHeatModel *tl_findings_heat (TlFindings *self);

/* @strings: takes the strings of the finding, and outlives it. */
TlFinding *tl_finding_new (const TlRule *rule, GStringChunk *strings) G_GNUC_WARN_UNUSED_RESULT;
void       tl_finding_free (TlFinding *self);
void       tl_not_computed_clear (TlNotComputed *row);

/* The rules of each concern: (array zero-terminated) by id == NULL. */
extern const TlRule tl_rules_galvanic[];
extern const TlRule tl_rules_grip_stack[];
extern const TlRule tl_rules_grip_press[];
extern const TlRule tl_rules_terminal[];
extern const TlRule tl_rules_splice[];
extern const TlRule tl_rules_leg[];
extern const TlRule tl_rules_seal[];
extern const TlRule tl_rules_room[];
extern const TlRule tl_rules_current[];
extern const TlRule tl_rules_roles[];
extern const TlRule tl_rules_circuit[];
extern const TlRule tl_rules_heat[];
extern const TlRule tl_rules_practice[];

G_END_DECLS
