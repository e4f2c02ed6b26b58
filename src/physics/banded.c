/* banded.c: see banded.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "banded.h"
#include <math.h>

gboolean
tl_banded_factor (double *a, guint n, guint w, guint *not_positive)
{
  const guint stride = w + 1;
  guint       bad = 0;

  *not_positive = 0;
  for (guint i = 0; i < n; i++)
    {
      double      *row = a + (gsize) i * stride;
      const double pivot = row[0];

      if (!(fabs (pivot) > G_MINDOUBLE && fabs (pivot) < G_MAXDOUBLE))
        return FALSE;
      bad += pivot < 0.0;
      const double inverse = 1.0 / pivot;
      row[0] = inverse;
      for (guint k = 1; k <= w; k++)
        {
          /* Conductors outside the joint fill one place of the band only. */
          if (row[k] == 0.0)
            continue;
          const double factor = row[k] * inverse;
          double      *below = row + (gsize) k * stride;
          const double before = below[0];

          for (guint m = k; m <= w; m++)
            below[m - k] -= factor * row[m];
          if (fabs (below[0]) < TL_BANDED_ROUNDING * fabs (before))
            below[0] = -TL_BANDED_ROUNDING * fabs (before);
        }
      for (guint k = 1; k <= w; k++)
        row[k] *= inverse;
    }
  *not_positive = bad;
  return TRUE;
}

void
tl_banded_solve (const double *a, guint n, guint w, double *b)
{
  const guint stride = w + 1;

  for (guint k = 0; k < w; k++)
    b[n + k] = 0.0;
  for (guint i = 0; i < n; i++)
    {
      const double *row = a + (gsize) i * stride;
      const double  value = b[i];

      for (guint k = 1; k <= w; k++)
        b[i + k] -= row[k] * value;
      b[i] = value * row[0];
    }
  for (guint i = n; i-- > 0;)
    {
      const double *row = a + (gsize) i * stride;
      double        value = b[i];

      for (guint k = 1; k <= w; k++)
        value -= row[k] * b[i + k];
      b[i] = value;
    }
}
