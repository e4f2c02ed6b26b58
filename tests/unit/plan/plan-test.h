/* plan-test.h: joints and verdicts for the tests of the step sheet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint-file.h"
#include "plan/steps.h"

G_BEGIN_DECLS

/* The stock compiled in; one for the whole program. (transfer none) */
const TlStock *pt_stock (void);
/* An example of data/examples, by name without ending; (transfer full) */
TlJoint *pt_example (const char *name);
/* Names of all examples, sorted: (element-type utf8) (transfer full) */
GPtrArray *pt_example_names (void);
/* Takes @joint. (transfer full) */
TlVerdict *pt_judge (TlJoint *joint);
/* A conductor of its own: nothing that holds it, so Unfinished. (transfer full) */
TlJoint *pt_unfinished (void);

G_END_DECLS
