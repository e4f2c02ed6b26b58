/* places.h: where a part would go in, and why it would not.
 *
 * For dragging and for the keyboard: every place of the present joint that could take a part of a kind, with a
 * refusal in one short sentence where it does not.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"

G_BEGIN_DECLS

typedef struct
{
  TlSeat      seat;
  gboolean    takes;
  const char *refusal; /* (nullable) msgid with {a} {b} (mm) when it does not */
  double      a, b;
} TlPlace;

/**
 * tl_places_for:
 * @part: id of a part in the stock
 * @moving: (nullable): id of the leg or layer that is being moved (its own place is then no place)
 *
 * Stack: the gap before place 0, between all, and after the last; a bolt only first, a nut only last; ports of
 * sleeves; around; on a leg. A washer whose bore does not pass the bolt is refused ("Not here: bore 5.3 mm,
 * bolt 6 mm."), a ferrule on a solid wire, anything outside the nut.
 * Returns: (transfer full) (element-type TlPlace), in the order of the drawing
 */
GArray *tl_places_for (const TlAssembly *assembly, const char *part, const char *moving) G_GNUC_WARN_UNUSED_RESULT;
void    tl_place_clear (TlPlace *place);

/* Smallest hole that the bare metal of @leg goes through, mm: loose strands twisted tight; 0 if its size is not known. */
double tl_places_least_hole_mm (const TlAssembly *assembly, const TlLeg *leg);

/* Sentence of a refusal in @language; (transfer full) */
char *tl_place_refusal (const TlPlace *place, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
