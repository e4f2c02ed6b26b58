/* spice.h: a network written as a netlist for a general circuit simulator, and its answer read back.
 *
 * Temperatures are node voltages in degrees Celsius, heats are currents in watts. Cells are cut and
 * joined here anew: nothing of the solver's mesh or matrices is used.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "physics/network.h"

typedef struct
{
  double hot_C; /* hottest cell or edge of the joint zone */
  double lead_a_C, lead_b_C;
  double box_C;
  double joint_V;
} SpiceAnswer;

/* %TRUE if the simulator is installed. */
gboolean spice_is_there (void);

/**
 * spice_solve:
 * @folder: for the netlist and the simulator's output
 * Runs the simulator on @network with cells of @cell_m in the joint zone; the test fails if it does not answer.
 */
void spice_solve (const TlNetwork *network, double cell_m, const char *folder, SpiceAnswer *answer);
