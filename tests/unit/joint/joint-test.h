/* joint-test.h: joints to test with: the skeleton of each family, a rich one, random ones.
 *
 * Random ones draw from g_test_rand_int(), whose seed the test program prints and takes with --seed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/edit.h"
#include "joint/joint-file.h"

/* Puts @next in the place of *@joint; @error must be %NULL. Returns *@joint. */
const TlJoint *tj_take (TlJoint **joint, TlJoint *next, GError *error);

/* Take @seat over. (transfer full): the new id */
char *tj_add_leg (TlJoint **joint, const char *metal, double section_mm2, TlSeat seat);
char *tj_add_layer (TlJoint **joint, TlPartKind kind, TlSeat seat);
void  tj_move (TlJoint **joint, const char *id, TlSeat seat);

typedef struct
{
  const char *name;
  TlJoint *(*make) (void);
} TjFamily;

/* The nine families, and three legs in one stack and in one barrel; ends with a NULL name. */
extern const TjFamily tj_families[];

/* A joint with everything that a file can hold but what is unknown. */
TlJoint *tj_rich (void);

TlFact   tj_random_fact (void); /* clear with tj_fact_clear() */
void     tj_fact_clear (TlFact *fact);
/* One random edit, or a new reference to @joint if it did not apply. */
TlJoint *tj_random_edit (const TlJoint *joint);
TlJoint *tj_random_joint (guint edits);

/* Bytes of the joint as a string. */
char       *tj_text (const TlJoint *joint);
/* Parses @text, which must be valid. */
TlJoint    *tj_parse (const char *text);
/* Every field compared, not by way of the file. */
void        tj_assert_same (const TlJoint *a, const TlJoint *b);
/* What holds for every joint: ids once each, places 0..n-1, ports that exist, references that point to
 * something. Written without the room's own check. */
void        tj_assert_invariants (const TlJoint *joint);
/* Same, then there and back by way of the file, with the same bytes. */
void        tj_assert_round_trip (const TlJoint *joint);
/* The text of data/schema/joint.rng */
const char *tj_schema (gsize *length);
