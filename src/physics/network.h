/* network.h: current and heat of one joint and its conductors, solved together.
 *
 * In: bodies (lines side by side on one axis), the interfaces between them, the surfaces that cool
 * them, one box of air, the current. Out: temperatures, potentials, where the heat arises and where
 * it goes, each with an estimate of the numerical error.
 *
 * Steady, or a current for some time after a steady state at another current. Resistivity rises
 * with temperature; surfaces lose by natural convection and radiation through a layer of
 * insulation; a closed box has its own balance. Not here: where the contact resistances come from
 * (constriction.c), the quick answer for search and dragging (lead.h), reading files
 * (network-cases.h).
 *
 * Source: conservation of charge and heat with Fourier's and Ohm's laws; textbook film laws. The
 * numbers are of class A for the stated inputs; the film law is uncertain by about 20 % of the rise.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"

G_BEGIN_DECLS

#define TL_NET_MAX_BODIES 32
#define TL_NET_MAX_INTERFACES 256
#define TL_NET_MAX_ZONES 512
/* Largest current that the model is asked for. */
#define TL_NET_MAX_CURRENT_A 1e5

/* One conductor or barrel as a line on [x0, x1]. */
typedef struct
{
  const char *name;                  /* (nullable): for messages */
  double      x0_m, x1_m;            /* x0 < x1 */
  double      section_m2;            /* metal, > 0 */
  double      resistivity_20_ohm_m;  /* at 20 degC, > 0 */
  double      coefficient_per_K;     /* of the resistivity at 20 degC, 0 to 0.1 */
  double      conductivity_W_per_mK; /* > 0 */
  double      capacity_J_per_m3K;    /* >= 0; > 0 where time counts */
} TlNetBody;

/* Two bodies in contact over [x0, x1], current and heat spread evenly along it. */
typedef struct
{
  guint  p, q; /* indices of bodies, different */
  double x0_m, x1_m;
  double resistance_20_ohm;   /* of the whole interface at 20 degC, > 0 */
  double coefficient_per_K;   /* of that resistance, with the mean of both temperatures */
  double conductance_W_per_K; /* for heat, of the whole interface, >= 0 */
} TlNetInterface;

/* A surface of a body on [x0, x1]: (T - Ts)/R' = P (C (|Ts - Ta|/D)^n (Ts - Ta) + eps sigma (Ts^4 - Ta^4)). */
typedef struct
{
  guint  body;
  double x0_m, x1_m;
  double perimeter_m;       /* P, > 0 */
  double size_m;            /* D, > 0 */
  double layer_mK_per_W;    /* R' between metal and outer surface, >= 0 */
  double film_constant;     /* C, SI, >= 0; with n = 0 the film itself in W/m2K */
  double film_exponent;     /* n, 0 to 1 */
  double emissivity;        /* 0 to 1 */
  double capacity_J_per_mK; /* heat capacity of the covering, counted with the metal, >= 0 */
} TlNetZone;

/* A whole case. Get one from tl_network_init_defaults(). */
typedef struct
{
  const TlNetBody      *bodies;     /* (array length=n_bodies) */
  const TlNetInterface *interfaces; /* (array length=n_interfaces) */
  const TlNetZone      *zones;      /* (array length=n_zones) */
  guint                 n_bodies, n_interfaces, n_zones;
  guint                 body_a;    /* its left end takes the current: leftmost of all */
  guint                 body_b;    /* its right end gives it back: rightmost of all */
  double                current_A; /* 0 to TL_NET_MAX_CURRENT_A */
  double                ambient_C;
  double                box_x0_m, box_x1_m;
  double                box_W_per_K; /* box to room; 0: no box */
  double                box_extra_W; /* other heat inside the box */
  double                box_J_per_K; /* heat capacity of the box */
  gboolean has_end_a, has_end_b;     /* outer end held at a temperature; else no heat passes */
  double   end_a_C, end_b_C;
  double   before_A;               /* steady current before, when duration_s > 0 */
  double   duration_s;             /* 0: steady state at current_A */
  double   joint_x0_m, joint_x1_m; /* zone of the joint, fine mesh */
  double   lead_a_x_m, lead_b_x_m; /* probes of temperature on A and B */
  double   volt_a_x_m, volt_b_x_m; /* probes of potential on A and B */
  double   mesh_m;                 /* cells in the joint zone; 0: 1 mm */
  double   wanted_K; /* halve on while the error estimate of the hot spot is above it */
  gboolean want_profile;
} TlNetwork;

/* The figures of a result. */
typedef enum
{
  TL_NET_HOT_C, /* hottest metal in the joint zone, ends included */
  TL_NET_MAX_C, /* hottest metal anywhere */
  TL_NET_LEAD_A_C,
  TL_NET_LEAD_B_C,
  TL_NET_BOX_C,        /* air in the box; the room's without a box */
  TL_NET_JOINT_V,      /* A at its probe less B at its probe */
  TL_NET_INTERFACES_W, /* made in all interfaces */
  TL_NET_BODIES_W,     /* made in the bodies within the joint zone */
  TL_NET_LEAD_A_W, /* conducted out of the joint zone to the left; negative: the lead heats the joint */
  TL_NET_LEAD_B_W,
  TL_NET_SURFACE_W,   /* given off by surfaces within the joint zone */
  TL_NET_INTERFACE_V, /* largest drop over any interface */
  TL_NET_N_FIGURES
} TlNetFigure;

typedef enum
{
  TL_NET_OK,
  TL_NET_NO_STEADY_STATE, /* the heat outruns the cooling: no figure is valid */
} TlNetStatus;

/* Along one body: both ends and every cell between. */
typedef struct
{
  guint   n;
  double *x_m;
  double *temperature_C;
  double *potential_V;
} TlNetLine;

/* Filled on request; belongs to the result. */
typedef struct
{
  guint      n_bodies, n_interfaces;
  TlNetLine *lines;       /* (array length=n_bodies) */
  double    *body_W;      /* (array length=n_bodies): heat made in each, whole length */
  double    *interface_W; /* (array length=n_interfaces) */
  double    *interface_A; /* (array length=n_interfaces): from p to q, summed */
  double    *interface_V; /* (array length=n_interfaces): largest drop along it */
} TlNetProfile;

typedef struct
{
  TlNetStatus status;
  double      value[TL_NET_N_FIGURES];
  double      error[TL_NET_N_FIGURES]; /* estimate of the numerical error of each, >= 0 */
  guint       hot_body;                /* where the hottest metal of the zone is */
  double      hot_x_m;
  double      joint_ohm; /* joint drop over current; 0 without current */
  double      balance_W; /* heat made less heat gone, whole model, finest mesh */
  double      heat_W;    /* heat made in the whole model, finest mesh */
  double runaway_margin; /* least 1 - (dq/dT)/(dq'/dT) of the cooled cells; < 0: locally unstable */
  guint  levels;         /* meshes solved */
  guint  cells;          /* unknown temperatures of the finest */
  guint  passes;         /* Newton passes of all meshes (all time steps) */
  TlNetProfile *profile; /* (nullable) (transfer full) */
} TlNetResult;

/* Room to work in, kept between calls so that none is allocated in a search. Not shared by threads. */
typedef struct _TlNetWorkspace TlNetWorkspace;
TlNetWorkspace                *tl_net_workspace_new (void) G_GNUC_WARN_UNUSED_RESULT;
void                           tl_net_workspace_free (TlNetWorkspace *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlNetWorkspace, tl_net_workspace_free)

/* Nothing in it yet; no box, ends closed to heat, 1 mm mesh, 0.02 K wanted. */
void tl_network_init_defaults (TlNetwork *self);

/**
 * tl_network_check:
 * Every size above 0, intervals that rise and lie inside their bodies, all bodies joined by
 * interfaces, probes on their bodies, currents within %TL_NET_MAX_CURRENT_A.
 * Returns: %FALSE with %TL_ERROR_RANGE or %TL_ERROR_STATE; the message begins with the column of the
 *   case file ("bodies: LA: S: ...") that is wrong
 */
gboolean tl_network_check (const TlNetwork *self, GError **error);

/**
 * tl_network_solve:
 * @self: checked first by tl_network_check()
 * @workspace: (nullable): kept room
 * @result: (out caller-allocates): release with tl_net_result_clear()
 *
 * The mesh, its halving, and Richardson's extrapolation of every figure from the last two; halved
 * again (twice at most) while the hot spot's error estimate is above @wanted_K. A joint without a
 * steady state is a result, not an error.
 * Returns: %FALSE with @error from the check
 */
gboolean tl_network_solve (const TlNetwork *self, TlNetWorkspace *workspace, TlNetResult *result,
                           GError **error);

/* One mesh only, unchecked, no error estimate (all 0), for ranking. %FALSE if anything is not finite. */
gboolean tl_network_solve_quick (const TlNetwork *self, TlNetWorkspace *workspace,
                                 TlNetResult *result);

/* Resistance between the probes of potential with all metal at 20 degC, on the first mesh, unchecked: the potentials
 * alone are solved, for nothing is heated by the small current of a resistance meter. 0 if there is none. */
double tl_network_cold_ohm (const TlNetwork *self, TlNetWorkspace *workspace);

void tl_net_result_clear (TlNetResult *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (TlNetResult, tl_net_result_clear)

/* Name of a figure as in case files ("T_hot_C"), and its unit. (transfer none) */
const char *tl_net_figure_name (TlNetFigure figure);
const char *tl_net_figure_unit (TlNetFigure figure);

G_END_DECLS
