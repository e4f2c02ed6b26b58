/* space.h: distances in space from the solids of bodies alone, found by trying.
 *
 * Shares no code with the engine: it knows only what assembly.h says a solid is. Points are thrown
 * near both bodies, moved onto their surfaces along numeric gradients, joined by straight lines,
 * and the shortest line that runs through no third body is then shaken until it gets no shorter.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"

/* Shortest free straight line between two bodies below @limit_mm, or @limit_mm; @samples a body. */
double space_free_distance (const TlAssembly *assembly, guint a, guint b, double limit_mm,
                            guint samples, GRand *random);
/* The same, looked for only where x and z are those given, within @around_mm: for a slit that
 * thrown points miss. */
double space_free_distance_at (const TlAssembly *assembly, guint a, guint b, double limit_mm,
                               guint samples, GRand *random, double x_mm, double z_mm,
                               double around_mm);
/* Shortest straight line, whatever stands between. */
double space_distance (const TlAssembly *assembly, guint a, guint b, double limit_mm, guint samples,
                       GRand *random);
