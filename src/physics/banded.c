/* banded.c: see banded.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "banded.h"
#include <math.h>

gboolean
tl_banded_factor (double *a, guint n, guint w, const guint *reach, guint *not_positive)
{
  const guint stride = w + 1;
  guint       bad = 0;

  *not_positive = 0;
  for (guint i = 0; i < n; i++)
    {
      double      *row = a + (gsize) i * stride;
      const double pivot = row[0];
      const guint  last = reach[i];

      if (!(fabs (pivot) > G_MINDOUBLE && fabs (pivot) < G_MAXDOUBLE))
        return FALSE;
      bad += pivot < 0.0;
      const double inverse = 1.0 / pivot;
      row[0] = inverse;
      for (guint k = 1; k <= last; k++)
        {
          const double factor = row[k] * inverse;
          double      *below = row + (gsize) k * w;
          const double before = below[k];

          for (guint m = k; m <= last; m++)
            below[m] -= factor * row[m];
          if (fabs (below[k]) < TL_BANDED_ROUNDING * fabs (before))
            below[k] = -TL_BANDED_ROUNDING * fabs (before);
        }
      for (guint k = 1; k <= last; k++)
        row[k] *= inverse;
    }
  *not_positive = bad;
  return TRUE;
}

void
tl_banded_solve (const double *a, guint n, guint w, const guint *reach, double *b)
{
  const guint stride = w + 1;

  for (guint i = 0; i < n; i++)
    {
      const double *row = a + (gsize) i * stride;
      const double  value = b[i];
      double       *below = b + i;

      for (guint k = 1; k <= reach[i]; k++)
        below[k] -= row[k] * value;
      b[i] = value * row[0];
    }
  for (guint i = n; i-- > 0;)
    {
      const double *row = a + (gsize) i * stride, *below = b + i;
      double        value = b[i];

      for (guint k = 1; k <= reach[i]; k++)
        value -= row[k] * below[k];
      b[i] = value;
    }
}
