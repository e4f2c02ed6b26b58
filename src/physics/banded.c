/* banded.c: see banded.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "banded.h"
#include <math.h>

/* below -= factor * from, two by two: rows are short and compilers make one instruction of each pair. */
static inline void
subtract (double *restrict below, const double *restrict from, double factor, guint n)
{
  guint m = 0;

  for (; m + 1 < n; m += 2)
    {
      const double one = below[m] - factor * from[m], other = below[m + 1] - factor * from[m + 1];

      below[m] = one;
      below[m + 1] = other;
    }
  if (m < n)
    below[m] -= factor * from[m];
}

gboolean
tl_banded_factor (double *a, guint n, const guint *row, guint *not_positive)
{
  guint bad = 0;

  *not_positive = 0;
  for (guint i = 0; i < n; i++)
    {
      double      *upper = a + row[i];
      const double pivot = upper[0];
      const guint  last = row[i + 1] - row[i] - 1;

      if (!(fabs (pivot) > G_MINDOUBLE && fabs (pivot) < G_MAXDOUBLE))
        return FALSE;
      bad += pivot < 0.0;
      const double inverse = 1.0 / pivot;
      upper[0] = inverse;
      for (guint k = 1; k <= last; k++)
        {
          const double factor = upper[k] * inverse;
          double      *below = a + row[i + k];
          const double before = below[0];

          subtract (below, upper + k, factor, last - k + 1);
          if (fabs (below[0]) < TL_BANDED_ROUNDING * fabs (before))
            below[0] = -TL_BANDED_ROUNDING * fabs (before);
          /* No later row reads this entry as it was. */
          upper[k] = factor;
        }
    }
  *not_positive = bad;
  return TRUE;
}

void
tl_banded_solve (const double *a, guint n, const guint *row, double *b)
{
  for (guint i = 0; i < n; i++)
    {
      const double *upper = a + row[i];
      const double  value = b[i];
      const guint   last = row[i + 1] - row[i] - 1;
      double       *below = b + i;

      subtract (below + 1, upper + 1, value, last);
      b[i] = value * upper[0];
    }
  for (guint i = n; i-- > 0;)
    {
      const double *upper = a + row[i], *below = b + i;
      const guint   last = row[i + 1] - row[i] - 1;
      double        value = b[i];
      guint         k = 1;

      for (; k + 1 <= last; k += 2)
        value -= upper[k] * below[k] + upper[k + 1] * below[k + 1];
      b[i] = k <= last ? value - upper[k] * below[k] : value;
    }
}
