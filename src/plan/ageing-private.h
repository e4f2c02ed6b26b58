/* ageing-private.h: the inside of a forecast, for its own files and their tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/heat-model.h"
#include "plan/ageing.h"

G_BEGIN_DECLS

/* --- ageing-inputs.c: what is uncertain, and by how much --- */
typedef struct
{
  TlRange  range[TL_N_AGEING_INPUTS];
  gboolean is_ratio[TL_N_AGEING_INPUTS]; /* drawn by its logarithm */
  double   activation_K;
  double   hot_share;                    /* of the time under load */
  double   floor_share;                  /* of the first force */
  double   resistance_most;
  double   hottest_C;
} TlAgeingInputs;

/* %FALSE with @reason where the data lack a figure. */
gboolean tl_ageing_inputs_read (TlAgeingInputs *self, TlAssembly *assembly, const TlHeatModel *model, const char **reason);
/* Value of an input at @share of its samples, 0 to 1: best at one half, low and high at the ends. */
double   tl_ageing_inputs_draw (const TlAgeingInputs *self, TlAgeingInput input, double share);

/* First @n points of the Sobol sequence: (array length=n*TL_N_AGEING_INPUTS) (transfer full), point by point. */
double  *tl_ageing_points (guint n) G_GNUC_WARN_UNUSED_RESULT;

/* --- ageing-clamp.c: what holds the contacts together, as springs in series --- */
#define TL_CLAMP_NODES 96

typedef struct
{
  gboolean has_force;      /* a stack: the clamping force is known */
  gboolean creeps;         /* aluminium is clamped */
  double   rest_N_per_mm;  /* bolt and parts in series */
  double   stiffness_N_per_mm; /* with the conical washers, at the best force */
  double   force_N[TL_CLAMP_NODES];      /* elastic stretch of the whole against force, both rise */
  double   stretch_mm[TL_CLAMP_NODES];
  double   mismatch_mm_per_K;            /* parts less bolt */
  double   bearing_mm2, bearing_MPa;     /* least flat face on aluminium; 0: none */
  double   softening_K;
  guint    n_eyes;                       /* of aluminium wire */
  double   hardness_MPa;
  double   flat_N_per_MPa[TL_CLAMP_NODES]; /* flattening of one eye, both sides, against force over hardness */
  double   flat_mm[TL_CLAMP_NODES];
  double   aluminium_mm, aluminium_mm2;  /* what creeps: thickness, area that bears */
  double   pressed_MPa, pressed_strain;  /* other families: pressure on the core, elastic strain that keeps it */
} TlAgeingClamp;

gboolean tl_ageing_clamp_read (TlAgeingClamp *self, TlAssembly *assembly, const TlHeatModel *model, const char **reason);
/* Force when @set_mm of the stretch at @force_N is gone; never negative. */
double   tl_ageing_clamp_relax (const TlAgeingClamp *self, double force_N, double set_mm);
/* Cold force after settling by @settling_um and one cycle to @hot_C from 20 degC. */
double   tl_ageing_clamp_first_cycle (const TlAgeingClamp *self, double force_N, double settling_um, double hot_C);
/* Force that is left of @force_N when the aluminium has crept by @strain_per_MPa times the pressure on it. */
double   tl_ageing_clamp_creep (const TlAgeingClamp *self, double force_N, double strain_per_MPa);

/* --- ageing-surface.c: hottest metal and resistance against a common ratio of the contact resistances --- */
#define TL_SURFACE_NODES 24

typedef struct
{
  guint   n;                           /* nodes with a steady state below the hottest */
  double  ratio[TL_SURFACE_NODES];     /* rises */
  double  rise_K[TL_SURFACE_NODES];    /* hottest metal over the air of the room */
  double  joint_ohm[TL_SURFACE_NODES]; /* at 20 degC */
  /* Effects at each node: factor on the rise at the low and high end of cooling and load, K per K of the air. */
  double  cooling[2][TL_SURFACE_NODES], load[2][TL_SURFACE_NODES], air[TL_SURFACE_NODES];
  TlRange cooling_range, load_range, air_range;
  gboolean is_open;                    /* beyond the last node there is none */
  double  hottest_C;
  double  slope[TL_SURFACE_NODES];     /* of rise against ratio, by Steffen */
} TlAgeingSurface;

/* Solves the nodes. %FALSE with @reason or @error. */
gboolean tl_ageing_surface_read (TlAgeingSurface *self, const TlHeatModel *model, const TlAgeingInputs *inputs, GCancellable *cancellable, const char **reason, GError **error);
/* Hottest metal, degC; %FALSE when it is beyond what can be reckoned, then @hot_C is the hottest. */
gboolean tl_ageing_surface_hot (const TlAgeingSurface *self, double ratio, double cooling, double air_C, double load_A, double *hot_C);
double   tl_ageing_surface_ohm (const TlAgeingSurface *self, double ratio);

/* --- ageing-run.c: the samples, and what they tell --- */
typedef struct
{
  TlAgeingInputs  inputs;
  TlAgeingClamp   clamp;
  TlAgeingSurface surface;
  guint           n_samples;
  double         *points;                      /* (array length=n_samples*TL_N_AGEING_INPUTS) */
  double         *values[TL_N_AGEING_OUTPUTS]; /* (array length=n_years*n_samples), by year; infinite: open */
} TlAgeingRun;

/* %FALSE when cancelled. */
gboolean tl_ageing_run (TlAgeingRun *self, const TlAgeing *ageing, GCancellable *cancellable, GError **error);
/* Bands, drivers and look from the samples. */
void     tl_ageing_summarise (TlAgeing *ageing, const TlAgeingRun *run);
void     tl_ageing_run_clear (TlAgeingRun *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (TlAgeingRun, tl_ageing_run_clear)

G_END_DECLS
