/* banded.h: symmetric matrices of a variable band factored as L D L^T without pivoting.
 *
 * Row i holds A[i][i], A[i][i+1] .. A[i][i+r] at [row[i]], with r = row[i+1] - row[i] - 1 its reach: so far right of
 * the diagonal it is filled in the end, within the matrix and at least one less than the row above. The pivots are
 * the witness of stability, so they are not exchanged.
 *
 * Source: Golub and Van Loan, Matrix Computations, band LDL^T (from memory)
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* A pivot below this share of its diagonal is rounding, not a pivot. */
#define TL_BANDED_ROUNDING 1e-13

/**
 * tl_banded_factor:
 * @a: (inout) (array length=row[n]): the matrix, replaced by 1/D on the diagonal and L^T
 * @row: (array length=n+1): where each row begins, and the end
 * @not_positive: (out): how many pivots were not above 0 (to rounding)
 * Returns: %FALSE if a pivot is 0 or not finite: singular, @a is spoilt
 */
gboolean tl_banded_factor (double *a, guint n, const guint *row, guint *not_positive);

/* Solves in place with a factored matrix. */
void tl_banded_solve (const double *a, guint n, const guint *row, double *b);

G_END_DECLS
