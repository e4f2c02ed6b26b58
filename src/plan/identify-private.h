/* identify-private.h: what the files of the identification share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/identify.h"

G_BEGIN_DECLS

static inline gboolean
tl_identify_overlap (TlRange a, TlRange b)
{
  return a.low <= b.high && b.low <= a.high;
}

/* Usual error of a measurement, by the table "identify-instruments": @column of the row @quantity; 0 if it has none. */
double tl_identify_instrument (const TlStock *stock, const char *quantity, const char *column);

/* identify-sizes.c: fills the sizes from section and sighting of @self. */
void tl_identify_sizes (TlIdentity *self, const TlStock *stock);

G_END_DECLS
