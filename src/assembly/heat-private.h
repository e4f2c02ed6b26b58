/* heat-private.h: the inside of a heat model, for its own files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/heat-model.h"

G_BEGIN_DECLS

#define TL_HEAT_MAX_LINES 16
#define TL_HEAT_MAX_INTERFACES 32
#define TL_HEAT_MAX_ZONES 96
#define TL_HEAT_N_STATES 7

/* Limits of the data that every line needs. */
typedef struct
{
  double film_constant, film_exponent;
  double emissivity_covered, emissivity_bare;
  double lead_m;
  double lorenz, gap_W_per_mK, gap_m;
} TlHeatLimits;

struct _TlHeatModel
{
  TlAssembly    *assembly; /* borrowed: outlives the model */
  TlHeatLimits   limits;
  TlRange        shares[TL_HEAT_N_STATES]; /* metallic, by state of surface; 0: not looked up yet */
  TlNetBody      bodies[TL_HEAT_MAX_LINES];
  TlNetInterface interfaces[TL_HEAT_MAX_INTERFACES];
  TlNetZone      zones[TL_HEAT_MAX_ZONES];
  TlNetwork      network;
  GArray        *rows;  /* (element-type TlHeatInterface) */
  GArray        *lines; /* (element-type TlHeatLine) */
  const TlLeg   *leg_a, *leg_b;
  double         load_A;
  TlNetWorkspace *workspace;       /* of the one mesh answers */
  double         resistance_ratio; /* from a measured joint; 1 without */
  gboolean       is_measured;
  TlRange        joint_ohm;        /* reckoned when first asked for */
  gboolean       has_joint_ohm;
  /* why it could not be built */
  const char    *reason;
  const char    *owner;
  TlField        field;
};

/* Each notes the reason and returns %FALSE (or a negative index) when it cannot go on. */
gboolean tl_heat_fail (TlHeatModel *self, const char *reason, const char *owner, TlField field);
gboolean tl_heat_limit (TlHeatModel *self, const char *id, double *value);
gint     tl_heat_add_line (TlHeatModel *self, const char *owner, guint body, const char *material, double x0_m, double x1_m, double section_m2);
gboolean tl_heat_add_zone (TlHeatModel *self, gint line, double x0_m, double x1_m, double metal_m, double outer_m, const char *cover);
/* A conductor outside the joint: bare from x0 to x1, insulated beyond as far as its line goes. */
gboolean tl_heat_add_lead_zones (TlHeatModel *self, gint line, const TlLeg *leg, double bare_x0_m, double bare_x1_m, gboolean leaves_left);
gboolean tl_heat_add_interface (TlHeatModel *self, guint contact, gint p, gint q, double x0_m, double x1_m, TlRange ohm, TlRange force_N, double area_mm2);
double   tl_heat_material_number (const TlHeatModel *self, const char *material, TlField field, double fallback);

/* Resistance of a pressed contact (heat-contact.c). @lumped_spread: the cluster term counts, since the network does not
 * resolve the spreading. */
gboolean tl_heat_contact_ohm (TlHeatModel *self, const TlBody *a, const TlBody *b, const char *surface_a, const char *surface_b, TlRange force_N, double area_mm2, double spots, gboolean lumped_spread, gboolean flowed, TlRange *ohm);

/* A conductor whose metal lies on in0 .. in1 within the joint on 0 .. @length_m. */
typedef struct
{
  const TlLeg *leg;
  guint        body;
  gint         line;
  gboolean     right;  /* leaves to the right */
  gboolean     passes; /* leaves to both sides */
  double       in0_m, in1_m;
  double       bare_m; /* beyond the joint */
  double       metal_m;
} TlHeatCore;

/* Cores of a terminal or splice, from their bodies: those with metal inside 0 .. @length_m. (heat-core.c) */
guint    tl_heat_find_cores (TlHeatModel *self, double length_m, TlHeatCore cores[TL_JOINT_MAX_LEGS]);
/* Which two carry the current; one that leaves on the side of the other is thought turned over, which changes no length. */
gboolean tl_heat_choose_ends (TlHeatModel *self, TlHeatCore *cores, guint n, double length_m, guint *a, guint *b);
gboolean tl_heat_add_core (TlHeatModel *self, TlHeatCore *core, double length_m, gboolean carries);
void     tl_heat_set_ends (TlHeatModel *self, const TlHeatCore *a, const TlHeatCore *b, double length_m);
/* The pressed contact of two bodies, or %NULL. */
const TlContact *tl_heat_pressed (const TlHeatModel *self, guint one, guint other, guint *index);

/* The families (heat-stack.c, heat-sleeve.c, heat-terminal.c, heat-splice.c). */
gboolean tl_heat_build_stack (TlHeatModel *self);
gboolean tl_heat_build_sleeve (TlHeatModel *self);
gboolean tl_heat_build_terminal (TlHeatModel *self);
gboolean tl_heat_build_splice (TlHeatModel *self);

G_END_DECLS
