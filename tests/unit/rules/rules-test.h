/* rules-test.h: examples to start from, and what to ask of a verdict.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint-file.h"
#include "rules/wording.h"

const TlStock *rt_stock (void);
/* data/examples/NAME.tinlap; (transfer full) */
TlJoint *rt_example (const char *name);
/* Each takes *@joint over and puts the edited one there. */
void rt_word (TlJoint **joint, const char *owner, TlField field, const char *word);
void rt_number (TlJoint **joint, const char *owner, TlField field, double value);
void rt_replace (TlJoint **joint, const char *id, const char *part);
void rt_remove (TlJoint **joint, const char *id);
void rt_insert (TlJoint **joint, const char *part, guint place);
void rt_practice (TlJoint **joint, const char *practice);

/* Worst finding of a rule; (nullable) */
const TlFinding *rt_worst (const TlVerdict *verdict, const char *rule);
/* Worst finding of a rule whose figure @name is @value within 1e-9; (nullable) */
const TlFinding *rt_with_figure (const TlVerdict *verdict, const char *rule, const char *name, double value);
/* That the rule's worst finding has this severity; "none": that it says nothing. */
void rt_assert (const TlVerdict *verdict, const char *rule, const char *severity);
