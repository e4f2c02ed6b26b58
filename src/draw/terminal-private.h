/* terminal-private.h: the shape of a terminal in its section, for the files that draw it.
 *
 * The section runs along the bores. Usually it is upright, through the screws; where conductors lie beside each other
 * under one clamp it is level, through the conductors, and the screws are seen from their heads. Bores that do not lie in
 * the plane are drawn below it, each in its own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "draw/drawing-private.h"

G_BEGIN_DECLS

typedef struct
{
  double plane_mm;        /* where it is cut: y of an upright one, z of a level one */
  double middle_mm;       /* across, on the drawing's line of that plane */
  double low_mm, high_mm; /* across: what is drawn */
  double offset_mm;       /* of that line below the first one */
} TlTerminalStrip;

typedef struct
{
  gboolean        is_level;
  TlTerminalStrip strips[TL_JOINT_MAX_LEGS];
  guint           n;
  double          start_mm, end_mm;           /* extent along */
  double          height_mm;                  /* of all strips with their gaps */
  double          cut_mm;                     /* where A–A is taken */
  double          y0_mm, y1_mm, z0_mm, z1_mm; /* extent of A–A */
} TlTerminalShape;

void tl_terminal_shape (const TlDrawing *d, TlTerminalShape *shape);
void tl_terminal_section (TlDrawing *d, const TlTerminalShape *shape);
void tl_terminal_end_view (TlDrawing *d, const TlTerminalShape *shape);
void tl_terminal_faces (TlDrawing *d, const TlTerminalShape *shape);

G_END_DECLS
