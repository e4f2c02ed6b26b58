/* network-private.h: what the files of the network solver share.
 *
 * network.c checks and steers; network-mesh.c cuts bodies into cells; network-kernel.c makes one
 * Newton pass; network-transient.c steps through time; network-figures.c reads the answer off.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "network.h"

#define TL_NET_SIGMA 5.670374419e-8
#define TL_NET_KELVIN 273.15
/* Breakpoints nearer than this are one. */
#define TL_NET_SAME_M 1e-9
#define TL_NET_NONE G_MAXUINT
/* More columns than this of a first mesh are refused; see tl_network_check(). */
#define TL_NET_MAX_COLUMNS 4000u

/* One piece of one body. */
typedef struct
{
  double dx_m;
  double ohm_20; /* along the cell at 20 degC */
  double coefficient_per_K;
  double right_W_per_K; /* to the next cell of the body */
  double capacity_J_per_K;
  guint  right; /* its unknown; TL_NET_NONE at the body's right end */
  guint  left;
  guint  body;
  guint  column;
} TlNetCell;

/* One column of an interface. */
typedef struct
{
  guint  p, q;  /* unknowns */
  guint  which; /* interface */
  double ohm_20;
  double coefficient_per_K;
  double W_per_K;
  double current_A; /* p to q, frozen during a Newton step */
} TlNetLink;

/* One column of a surface. */
typedef struct
{
  guint  cell;
  guint  zone;
  double dx_m;
  double surface_C; /* kept from pass to pass */
  double loss_W;
  double slope_W_per_K; /* by the metal's temperature */
  double air_W_per_K;   /* by the air's, mostly negative */
  double surface_slope; /* dTs/dT */
} TlNetSkin;

/* A zone's law with its constants multiplied out. */
typedef struct
{
  double film; /* P C / D^n */
  double exponent;
  double radiation; /* P eps sigma */
  double layer_mK_per_W;
} TlNetFilm;

/* All bodies cut by the same columns, unknowns numbered column by column. */
typedef struct
{
  guint      n_columns, n_cells, n_links, n_skins, n_bodies;
  double    *edge_m;     /* (array length=n_columns + 1) */
  guint     *cell_at;    /* (array length=n_columns * n_bodies): unknown or TL_NET_NONE */
  guint     *first_skin; /* (array length=n_columns + 1) */
  guint     *row;    /* (array length=n_cells + 1): where each matrix row begins, see banded.h */
  guint     *in_box; /* (array length=n_columns): booleans */
  TlNetCell *cells;
  TlNetLink *links;
  TlNetSkin *skins;
  gsize      column_room, cell_room, link_room, skin_room, at_room, row_room;
} TlNetMesh;

/* Temperatures and all that follows from them on one mesh. */
typedef struct
{
  double *temperature_C;
  double *potential_V;
  double *ohm;       /* of each cell at its temperature */
  double *face_A;    /* through the right face of each cell */
  double *square_A2; /* half the squares of both face currents: times ohm it is the heat */
  double *source;    /* Newton: residual, then step */
  double *border;    /* Newton: what a kelvin of the box changes */
  double *matrix;
  double *conductances; /* factored, of the potentials */
  double *start_C;      /* time step: temperatures at its begin */
  double *base_C;       /* time step: what the stage starts from */
  double  box_C, box_start_C, box_base_C;
  double  moved_K; /* at most, since @conductances was factored */
  gsize   room, matrix_room;
} TlNetState;

/* What one evaluation found. */
typedef struct
{
  double heat_W;    /* made in cells and interfaces, and other heat in the box */
  double balance_W; /* made less gone (stored included) */
  double box_residual_W, box_slope_W_per_K, box_air_W_per_K;
  double margin;
} TlNetSum;

/* One problem for Newton: steady, or one stage of a time step. */
typedef struct
{
  double current_A;
  double per_step_per_s; /* 1/(gamma dt); 0: steady */
} TlNetStage;

struct _TlNetWorkspace
{
  TlNetMesh  mesh[2]; /* the last and the one before */
  TlNetState state[2];
  TlNetFilm *films;
  guint      n_films;
  double    *marks_m; /* breakpoints */
  gsize      marks_room;
  guint      passes;
};

/* --- network-mesh.c --- */
gboolean tl_net_mesh_build (TlNetWorkspace *work, const TlNetwork *network, TlNetMesh *mesh);
void     tl_net_mesh_halve (const TlNetwork *network, const TlNetMesh *coarse, TlNetMesh *fine);
void     tl_net_mesh_clear (TlNetMesh *self);
/* Index of the edge at @x_m, which is a breakpoint. */
guint    tl_net_mesh_edge (const TlNetMesh *self, double x_m);
static inline guint
tl_net_cell_at (const TlNetMesh *self, guint column, guint body)
{
  return self->cell_at[(gsize) column * self->n_bodies + body];
}

/* --- network-kernel.c --- */
void     tl_net_state_fit (TlNetState *self, const TlNetMesh *mesh);
void     tl_net_state_clear (TlNetState *self);
/* All metal at @rise_K over the air, all surfaces too. */
void     tl_net_state_begin (TlNetState *self, TlNetMesh *mesh, const TlNetwork *network,
                             double rise_K);
/* The coarse answer as the start of the fine one. */
void     tl_net_state_refine (const TlNetMesh *coarse, const TlNetState *from, TlNetMesh *fine,
                              TlNetState *to);
/* Loss of one skin and its slopes; the surface temperature by Newton from its last value. */
void     tl_net_solve_skin (const TlNetFilm *film, TlNetSkin *skin, double metal_C, double air_C);
/* Newton until still and balanced; %FALSE: no solution or an unstable one. */
gboolean tl_net_newton (TlNetWorkspace *work, const TlNetwork *network, guint which,
                        const TlNetStage *stage, TlNetSum *sum);
/* Potentials and currents at the temperatures that stand, from nothing; %FALSE: a body hangs loose. */
gboolean tl_net_solve_potentials (const TlNetwork *network, TlNetMesh *mesh, TlNetState *state,
                                  double current_A);
double   tl_net_air_C (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                       guint column);

/* --- network-transient.c --- */
/* From the state at hand through @network's duration in @steps; %FALSE: it ran away. */
gboolean tl_net_march (TlNetWorkspace *work, const TlNetwork *network, guint which, guint steps,
                       TlNetSum *sum);

/* --- network-figures.c --- */
/* A at its probe of potential less B at its probe. */
double tl_net_joint_V (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                       double current_A);
void   tl_net_figures (const TlNetwork *network, const TlNetMesh *mesh, const TlNetState *state,
                       double current_A, double *value, guint *hot_body, double *hot_x_m);
TlNetProfile *tl_net_profile_new (const TlNetwork *network, const TlNetMesh *mesh,
                                  const TlNetState *state, double current_A);
