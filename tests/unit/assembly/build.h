/* build.h: joints for the tests of the assembly, put together from facts written as text.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"
#include "joint/edit.h"

/* The stock of the source tree; shared by all tests of a program. */
const TlStock *build_stock (void);

/* Facts from "outer=10 mm; bore=5.3 mm; material=steel". */
TlFacts *build_facts (const char *text);

/* Each replaces @joint by the joint with the new member and returns the new id (transfer full). */
char *build_layer (TlJoint **joint, TlPartKind kind, TlSeat seat, const char *facts);
char *build_leg (TlJoint **joint, TlSeat seat, const char *facts);
void  build_fact (TlJoint **joint, const char *owner, const char *facts);

/* A stack at its end: bolt, washers, legs and nut follow each other. */
char *build_next (TlJoint **joint, TlPartKind kind, const char *facts);
char *build_next_leg (TlJoint **joint, const char *facts);

/* The contact between two bodies; (nullable) */
const TlContact *build_contact (const TlAssembly *assembly, const char *body, const char *other);
/* The problem of @owner whose message holds @words; (nullable) */
const TlProblem *build_problem (const TlAssembly *assembly, const char *owner, const char *words);

/* M5 bolt and nut of the tests (ISO 4014 and ISO 4032 sizes, M5). */
#define BUILD_BOLT_M5                                                                              \
  "thread=5 mm; height=3.5 mm; across-flats=8 mm; bearing-diameter=6.88 mm; "                      \
  "length=25 mm; material=steel"
#define BUILD_NUT_M5                                                                               \
  "thread=5 mm; height=4.7 mm; across-flats=8 mm; bearing-diameter=6.88 mm; "                      \
  "material=steel"
