/* banded.h: symmetric band matrices factored as L D L^T without pivoting.
 *
 * Row i holds A[i][i], A[i][i+1] .. A[i][i+w] at [i (w + 1)]. The pivots are the witness
 * of stability, so they are not exchanged.
 *
 * Source: Golub and Van Loan, Matrix Computations, band LDL^T (from memory)
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Doubles that a matrix of @n rows and half-bandwidth @w takes. */
#define TL_BANDED_SIZE(n, w) ((gsize) (n) * ((gsize) (w) + 1))
/* A pivot below this share of its diagonal is rounding, not a pivot. */
#define TL_BANDED_ROUNDING 1e-13

/**
 * tl_banded_factor:
 * @a: (inout) (array length=TL_BANDED_SIZE): the matrix, replaced by 1/D on the diagonal and L^T
 * @reach: (array length=n): how far right of the diagonal each row is filled in the end, at most @w and
 *   within the matrix; at least one less than that of the row above
 * @not_positive: (out): how many pivots were not above 0 (to rounding)
 * Returns: %FALSE if a pivot is 0 or not finite: singular, @a is spoilt
 */
gboolean tl_banded_factor (double *a, guint n, guint w, const guint *reach, guint *not_positive);

/* Solves in place with a factored matrix. */
void tl_banded_solve (const double *a, guint n, guint w, const guint *reach, double *b);

G_END_DECLS
