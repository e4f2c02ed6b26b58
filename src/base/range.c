/* range.c: low, best, high.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/range.h"

#include <math.h>

gboolean
tl_range_is_valid (TlRange range)
{
  return isfinite (range.low) && isfinite (range.best) && isfinite (range.high)
         && range.low <= range.best && range.best <= range.high;
}

TlRange
tl_range_around (double best, double share)
{
  g_return_val_if_fail (isfinite (best) && best >= 0.0, tl_range_exact (0.0));
  g_return_val_if_fail (isfinite (share) && share >= 0.0, tl_range_exact (best));

  return (TlRange){ best * (1.0 - share), best, best * (1.0 + share) };
}

TlRange
tl_range_union (TlRange a, TlRange b)
{
  return (TlRange){ MIN (a.low, b.low), a.best, MAX (a.high, b.high) };
}
