/* heat-model.h: a joint as an electro-thermal network: where current flows and how hot each metal gets.
 *
 * From an assembly: the conductors, the parts between them and the bolt as lines side by side, each pressed contact as an
 * interface with its resistance as a range (class B; a resistance that was measured replaces the estimate), surfaces,
 * and the air of the box, which is warmed by all leads inside it. Solved by physics/network.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"
#include "physics/network.h"

G_BEGIN_DECLS

/* How worn or how bad: which end of every range goes into the network. */
typedef enum
{
  TL_HEAT_LOW,  /* the favourable end of all contact resistances */
  TL_HEAT_BEST,
  TL_HEAT_HIGH, /* the unfavourable end */
} TlHeatCase;

/* One interface of the network. */
typedef struct
{
  guint    contact;        /* index in the assembly, or G_MAXUINT for a lumped path (bolt) */
  guint    p, q;           /* indices of lines */
  TlRange  resistance_ohm; /* at 20 degC, without ageing */
  TlTrust  trust;          /* A when measured */
  TlRange  force_N;        /* that presses it; all 0 unknown */
  double   area_mm2;       /* that bears */
} TlHeatInterface;

/* One line of the network. */
typedef struct
{
  char    *owner;          /* leg or layer id; of the bolt for the bolt path */
  guint    body;           /* index in the assembly of its metal */
  gboolean is_lead;        /* runs on outside the joint */
} TlHeatLine;

/* Keeps room to work in: one thread at a time. Lives no longer than its assembly. */
typedef struct _TlHeatModel TlHeatModel;

/* What a solve may change of the model as built; init with tl_heat_change_init(). */
typedef struct
{
  TlHeatCase    which;
  double        current_A;          /* < 0: the load of the duty */
  double        ambient_C;          /* NAN: that of the duty */
  double        film_ratio;         /* 1: all surfaces lose this much of the reckoned heat */
  const double *resistance_ratio;   /* (nullable) (array length=n interfaces): growth of each */
  gboolean      want_profile;
} TlHeatChange;

void tl_heat_change_init (TlHeatChange *self);

/**
 * tl_heat_model_new:
 * Returns: (transfer full) (nullable): %NULL with @reason (msgid, for "not computed") and @field when something that it
 *   needs is missing (load, section, insulation, die, torque ...)
 */
TlHeatModel *tl_heat_model_new (TlAssembly *assembly, const char **reason, const char **owner, TlField *field) G_GNUC_WARN_UNUSED_RESULT;
void         tl_heat_model_free (TlHeatModel *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlHeatModel, tl_heat_model_free)

const GArray    *tl_heat_model_interfaces (const TlHeatModel *self); /* (element-type TlHeatInterface) */
const GArray    *tl_heat_model_lines (const TlHeatModel *self);      /* (element-type TlHeatLine) */
const TlNetwork *tl_heat_model_network (const TlHeatModel *self);    /* as built, best case */
double           tl_heat_model_load_A (const TlHeatModel *self);

/* The contacts were fitted to a resistance or drop that was measured: then they are of class A. */
gboolean         tl_heat_model_is_measured (const TlHeatModel *self);

/* Steady state. Clear @result with tl_net_result_clear(). %FALSE with @error for a model that the solver refuses. */
gboolean tl_heat_model_solve (const TlHeatModel *self, const TlHeatChange *change, TlNetWorkspace *workspace, TlNetResult *result, GError **error);
/* The fast evaluator, best case: hottest metal in degC; %FALSE when there is no steady state. */
gboolean tl_heat_model_quick (const TlHeatModel *self, double *hot_C);

/* Temperature of each conductor alone, far from the joint, with the same current: (out) in degC. %FALSE: no steady state. */
gboolean tl_heat_model_far_C (const TlHeatModel *self, double current_A, double *a_C, double *b_C);

/* Resistance between the sense points at 20 degC and of the same length of conductor: performance factor. */
TlRange tl_heat_model_joint_ohm (TlHeatModel *self);
double  tl_heat_model_conductor_ohm (const TlHeatModel *self);

/* Least continuous temperature of what touches the hot metal (insulation, seal), degC, and whose it is. */
gboolean tl_heat_model_limit_C (const TlHeatModel *self, double *limit_C, const char **owner, const char **material);

G_END_DECLS
