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

/* The same with two rows at once: what is below is fetched and put back once for both. */
static inline void
subtract_two (double *restrict below, const double *restrict from, double factor,
              const double *restrict from_next, double factor_next, guint n)
{
  guint m = 0;

  for (; m + 1 < n; m += 2)
    {
      const double one = below[m] - factor * from[m] - factor_next * from_next[m];
      const double other = below[m + 1] - factor * from[m + 1] - factor_next * from_next[m + 1];

      below[m] = one;
      below[m + 1] = other;
    }
  if (m < n)
    below[m] -= factor * from[m] + factor_next * from_next[m];
}

/* A diagonal of which next to nothing is left is rounding; it counts as just below 0. */
static inline void
guard (double *diagonal, double before)
{
  if (fabs (*diagonal) < TL_BANDED_ROUNDING * fabs (before))
    *diagonal = -TL_BANDED_ROUNDING * fabs (before);
}

/* Replaces the pivot by its inverse; %FALSE if it has none. */
static inline gboolean
invert (double *pivot, guint *bad)
{
  if (!(fabs (*pivot) > G_MINDOUBLE && fabs (*pivot) < G_MAXDOUBLE))
    return FALSE;
  *bad += *pivot < 0.0;
  *pivot = 1.0 / *pivot;
  return TRUE;
}

/* Takes row @i with its pivot inverted off the rows below from the @k-th on; no later row reads its entries as they
 * were, so that each becomes its factor. */
static inline void
eliminate (double *a, const guint *row, guint i, guint k, guint end)
{
  double     *upper = a + row[i];
  const guint last = row[i + 1] - row[i] - 1;

  for (; k <= end; k++)
    {
      const double factor = upper[k] * upper[0];
      double      *below = a + row[i + k];
      const double before = below[0];

      subtract (below, upper + k, factor, last - k + 1);
      guard (below, before);
      upper[k] = factor;
    }
}

/* Takes rows @i and @i + 1, both pivots inverted, off the rows below them. The second reaches at least as far. */
static inline void
eliminate_two (double *a, const guint *row, guint i)
{
  double     *upper = a + row[i], *next = a + row[i + 1];
  const guint last = row[i + 1] - row[i] - 1, last_next = row[i + 2] - row[i + 1] - 1;

  for (guint k = 2; k <= last; k++)
    {
      const double factor = upper[k] * upper[0], factor_next = next[k - 1] * next[0];
      double      *below = a + row[i + k];
      const double before = below[0];
      const guint  both = last - k + 1;

      subtract_two (below, upper + k, factor, next + k - 1, factor_next, both);
      subtract (below + both, next + last, factor_next, last_next + 1 - last);
      guard (below, before);
      upper[k] = factor;
      next[k - 1] = factor_next;
    }
  eliminate (a, row, i + 1, last, last_next);
}

gboolean
tl_banded_factor (double *a, guint n, const guint *row, guint *not_positive)
{
  guint bad = 0, i = 0;

  *not_positive = 0;
  while (i < n)
    {
      const guint last = row[i + 1] - row[i] - 1;

      if (!invert (a + row[i], &bad))
        return FALSE;
      eliminate (a, row, i, 1, MIN (last, 1));
      if (last < 2)
        {
          i++;
          continue;
        }
      if (!invert (a + row[i + 1], &bad))
        return FALSE;
      eliminate_two (a, row, i);
      i += 2;
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
