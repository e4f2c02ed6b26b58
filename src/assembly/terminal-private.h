/* terminal-private.h: what the files share that lay out a terminal.
 *
 * A terminal is a row of bores along x, two above each other: mouths 1 and 2 are the ends of the first bore, 3 and 4 of
 * the one below, which is turned over; further pairs stand beside (y). The axis of the first bore is the family axis,
 * x = 0 is the left end of its metal. Screws come from outside, conductors lie on the other side of the bore.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly-private.h"

G_BEGIN_DECLS

#define TL_MAX_SCREWS 4

typedef enum
{
  TL_CLAMP_TUNNEL, /* the tip of the screw on the conductor, in a round bore */
  TL_CLAMP_SADDLE, /* a plate between screw and conductor, in a square channel: saddle, device, clamp */
  TL_CLAMP_TEETH,  /* the same with teeth through the insulation */
  TL_CLAMP_SPRING, /* leaf or cage */
} TlClamp;

/* Half of a bore, or all of one that has no other mouth. Local heights run from the axis of the bore towards the side
 * where the conductors lie. */
typedef struct
{
  guint  port; /* from 1 */
  double from_mm, to_mm;
  double y_mm, z_mm; /* axis of the bore */
  double side;       /* 1: conductors lie towards +z, -1: towards -z */
  guint  screws;
  double screw_x_mm[TL_MAX_SCREWS];
  double tip_mm; /* local height of what presses: tip of the screw, face of plate or spring */
  guint  clamp;  /* body of screws or spring; TL_NO_BODY */
  guint  plate;  /* body; TL_NO_BODY */
  guint  legs;
} TlMouth;

typedef struct
{
  const TlLeg *leg;
  guint        mouth;        /* index */
  guint        body;         /* core */
  guint        ferrule;      /* body; TL_NO_BODY */
  gboolean     passes;       /* main conductor of a branch: leaves by both sides */
  double       wire_mm;      /* bare metal */
  double       metal_mm;     /* with a ferrule */
  double       held_mm;      /* what lies in the bore: metal, or insulation that is pierced */
  double       insulated_mm; /* 0: bare conductor */
  double       strip_mm, inserted_mm;
  double       y_mm, z_mm;       /* centre */
  double       start_mm, end_mm; /* bare metal */
  gboolean     is_held;          /* reaches under what presses */
} TlTerminalEntry;

typedef struct
{
  TlAssembly     *assembly;
  const TlLayer  *layer;
  TlClamp         clamp;
  gboolean        is_branch;
  guint           ports, rows, columns;
  double          length_mm, bore_mm;
  double          row_mm, column_mm; /* height and width of the metal about one bore */
  double          thread_mm;
  guint           metal; /* body */
  TlMouth         mouths[TL_MAX_LEGS];
  TlTerminalEntry entries[TL_MAX_LEGS];
  guint           n_entries;
} TlTerminalBuild;

/* Bodies of metal, screws, springs, plates, housing (terminal-bodies.c). */
void tl_terminal_lay_metal (TlTerminalBuild *build);
void tl_terminal_lay_housing (TlTerminalBuild *build);
void tl_terminal_lay_entries (TlTerminalBuild *build);
void tl_terminal_lay_compound (TlTerminalBuild *build);
void tl_terminal_contacts (TlTerminalBuild *build);
/* terminal-figures.c */
void tl_terminal_figures (TlTerminalBuild *build);
void tl_terminal_packed_sizes (TlTerminalBuild *build);
/* Lowest height that a plate of usual thickness leaves free above the conductors. */
#define TL_PLATE_DRAWN_MM 0.8

/* --- solid-gap.c: straight lines between bodies of blocks and rods --- */
typedef struct
{
  double distance_mm;      /* the limit if there is no free line below it */
  double x_mm, y_mm, z_mm; /* middle of the line */
} TlSolidGap;

/* Shortest free straight line between two solids of two bodies, below @limit_mm. Insulation and housings stand in the
 * way like metal; the two bodies do not. */
TlSolidGap tl_solid_gap (const TlAssembly *self, guint a, const TlSolid *of_a, guint b,
                         const TlSolid *of_b, double limit_mm);

G_END_DECLS
