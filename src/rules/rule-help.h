/* rule-help.h: what several rules ask: limits, metals, neighbours in the stack, parts that would mend.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/finding-private.h"

G_BEGIN_DECLS

/* Limit @id; without it the rule is noted as not computed and %FALSE returned. */
gboolean tl_rule_limit (TlAssembly *assembly, TlFindings *findings, const char *id, TlThreshold *limit);
/* A severity kept in the data as 0 Sound, 1 Watch, 2 Change, 3 Unsafe, by practice. */
gboolean tl_rule_severity (TlAssembly *assembly, TlFindings *findings, const char *id, TlSeverity *severity);

/* Word of the site, or %NULL while it is not entered. */
const char *tl_rule_site_word (const TlAssembly *assembly, TlField field);
double      tl_rule_site_number (const TlAssembly *assembly, TlField field, double fallback);

/* What the metal looks like in the drawing tells its family: aluminium alloys are all "aluminium". */
gboolean tl_rule_is_look (const TlAssembly *assembly, const char *material, TlLook look);
gboolean tl_rule_leg_is (const TlAssembly *assembly, const TlLeg *leg, TlLook look);
/* %TRUE if any leg is of that metal. */
gboolean tl_rule_any_leg_is (const TlAssembly *assembly, TlLook look);
/* Legs of aluminium and of copper are both there. */
gboolean tl_rule_unlike_legs (const TlAssembly *assembly);

/* Diameter of the bare metal of a leg, mm: stated, else from section and round form; 0 if unknown. */
double tl_rule_metal_diameter_mm (const TlAssembly *assembly, const TlLeg *leg);

/* Layer or leg at a stack place; (nullable). The part of a leg's lug counts as the leg. */
const TlLayer *tl_rule_stack_layer (const TlAssembly *assembly, gint place);
const TlLeg   *tl_rule_stack_leg (const TlAssembly *assembly, gint place);

/* Smallest part of @kind and @material (coating "none" or an id; %NULL: any) whose bore passes @thread_mm without
 * slop; (nullable). */
const char *tl_rule_find_washer (const TlAssembly *assembly, TlPartKind kind, const char *material, const char *coating, double thread_mm);
/* Shortest bolt of the same thread and material that is at least @need_mm long; (nullable). */
const char *tl_rule_find_bolt (const TlAssembly *assembly, const TlLayer *bolt, double need_mm);
/* Adhesive sleeve that passes @largest_mm and grips @smallest_mm with the practice's margins; (nullable). */
const char *tl_rule_find_seal (TlAssembly *assembly, double largest_mm, double smallest_mm);

G_END_DECLS
