/* range.h: an estimate as low, best and high.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

/**
 * TlRange:
 * @low: lower bound of the estimate
 * @best: the figure shown first
 * @high: upper bound
 *
 * low <= best <= high, all finite. An exact figure has all three equal.
 */
typedef struct
{
  double low;
  double best;
  double high;
} TlRange;

/* An exact figure. */
static inline TlRange
tl_range_exact (double value)
{
  return (TlRange){ value, value, value };
}

static inline gboolean
tl_range_is_exact (TlRange range)
{
  return !(range.low < range.high);
}

/* %TRUE if all three are finite and in order. */
gboolean tl_range_is_valid (TlRange range);

/* @best with @share (0.3 for 30 %) taken off and on; @best >= 0. */
TlRange tl_range_around (double best, double share);

/* The smallest range that holds both; best is that of @a. */
TlRange tl_range_union (TlRange a, TlRange b);

G_END_DECLS
