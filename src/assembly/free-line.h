/* free-line.h: the shortest straight line between two shapes of one half plane that runs through
 * nothing else.
 *
 * The half plane is bounded by the axis of the bolt; r is the distance from it, z runs along it,
 * both in mm. Not here: which shapes a body shows in a half plane (distance.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double r, z;
} TlPoint;

/* Rectangle, or disc inside the rectangle r0..r1, z0..z1. */
typedef struct
{
  guint    body;
  gboolean is_disc;
  double   r0, r1, z0, z1;
} TlShape;

/**
 * tl_free_line:
 * @a, @b: two shapes
 * @others: (array length=n_others): what may stand between; shapes of the bodies of @a and @b do
 * not count
 * @limit_mm: only lines shorter than this are looked for
 * @from, @to: (out): ends of the line
 *
 * A disc that stands between is taken by the rectangle round it.
 * Returns: length in mm, 0 if the shapes touch, %G_MAXDOUBLE if there is no such line
 */
double tl_free_line (const TlShape *a, const TlShape *b, const TlShape *others, guint n_others,
                     double limit_mm, TlPoint *from, TlPoint *to);

G_END_DECLS
