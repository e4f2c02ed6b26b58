/* gap.h: the shortest line between two bodies of a stack that are apart.
 *
 * Lengths in mm, angles in degrees from +x towards +y. In half planes through the axis: distance.c; between leads:
 * lead-gap.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly-private.h"

#include <math.h>

G_BEGIN_DECLS

typedef struct
{
  double
      distance_mm; /* the shortest so far; to begin with, that from which on nothing is of interest */
  double rim_mm;
  double x_mm, z_mm; /* middle of the line */
} TlGap;

/* The same angle from 0 up to 360. */
static inline double
tl_gap_turned (double degrees)
{
  double rest = fabs (degrees) < 360.0 ? degrees : fmod (degrees, 360.0);

  return rest < 0.0 ? rest + 360.0 : rest;
}

/* TRUE if both are the same direction. */
static inline gboolean
tl_gap_is_along (double direction_deg, double plane_deg)
{
  double away = tl_gap_turned (direction_deg - plane_deg);

  return away < 1e-6 || away > 360.0 - 1e-6;
}

/* Keeps the shortest line between the leads of bodies @a and @b in @nearest, if it is shorter. */
void tl_gap_of_leads (const TlAssembly *self, guint a, guint b, TlGap *nearest);

G_END_DECLS
