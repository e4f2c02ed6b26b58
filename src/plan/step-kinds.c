/* step-kinds.c: the kinds of step, each with a short name.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps.h"

/* About in the order of the work; a person puts minutes to each. */
static const TlStepKind kinds[] = {
  { "hold-rubber", TL_N_ ("Check the old rubber") },
  { "hold-sample", TL_N_ ("Make a bench sample and pull it") },
  { "slide-seal", TL_N_ ("Slide the sealing sleeve on") },
  { "cut", TL_N_ ("Cut the ends square") },
  { "strip", TL_N_ ("Strip the ends") },
  { "degrease", TL_N_ ("Degrease") },
  { "brush", TL_N_ ("Brush the aluminium") },
  { "brush-compound", TL_N_ ("Brush the aluminium under compound") },
  { "brush-copper", TL_N_ ("Brush the copper") },
  { "compound", TL_N_ ("Put compound on the aluminium") },
  { "compound-copper", TL_N_ ("Put compound on the copper") },
  { "hold-bright", TL_N_ ("Check that the metal is bright") },
  { "form-eye", TL_N_ ("Bend the eyes") },
  { "flux", TL_N_ ("Put flux on") },
  { "tin", TL_N_ ("Tin the ends") },
  { "cool-tin", TL_N_ ("Let the tin cool") },
  { "clean-flux", TL_N_ ("Clean the flux off") },
  { "press-on", TL_N_ ("Press ferrules or lugs on") },
  { "stack", TL_N_ ("Put the stack together") },
  { "insert", TL_N_ ("Push the conductors in") },
  { "lay", TL_N_ ("Lay the conductors together") },
  { "weld", TL_N_ ("Weld") },
  { "solder", TL_N_ ("Solder") },
  { "clean-splice", TL_N_ ("Clean the splice") },
  { "crown", TL_N_ ("Turn the conical washer crown outwards") },
  { "press", TL_N_ ("Press") },
  { "hold-size", TL_N_ ("Gauge the pressed place") },
  { "deburr", TL_N_ ("Take the burr off") },
  { "tighten", TL_N_ ("Tighten with the torque driver") },
  { "witness", TL_N_ ("Draw the witness mark") },
  { "hold-clamp", TL_N_ ("Check the clamp") },
  { "hold-tug", TL_N_ ("Tug at each wire") },
  { "hold-resistance", TL_N_ ("Measure the resistance of the joint") },
  { "filler", TL_N_ ("Fill the hollows") },
  { "shield", TL_N_ ("Shield old rubber from the heat") },
  { "centre-seal", TL_N_ ("Bring the sealing sleeve to the middle") },
  { "shrink", TL_N_ ("Shrink the sleeve") },
  { "hold-bead", TL_N_ ("Check the bead of adhesive") },
  { "cap", TL_N_ ("Put the end cap on") },
  { "insulate", TL_N_ ("Insulate the joint") },
  { "cool", TL_N_ ("Let it cool") },
  { "hold-insulation", TL_N_ ("Measure the insulation") },
  { "dress", TL_N_ ("Lay the joint into the box") },
  { "picture", TL_N_ ("Take a picture") },
  { "close", TL_N_ ("Close the box, label it, switch on") },
  { "hold-loop", TL_N_ ("Measure the loop impedance") },
  { "hold-warm", TL_N_ ("Check under load for an hour") },
};

const TlStepKind *
tl_step_kinds (guint *count)
{
  *count = G_N_ELEMENTS (kinds);
  return kinds;
}
