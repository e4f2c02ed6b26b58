/* heat-field.h: heat and current of a joint as a drawing shows them: a temperature for each point of each body.
 *
 * From a verdict and an age: builds an assembly of its own, so that it may be made in any thread, solves the network
 * with its profile, and lays each body on a line of it: a body that is a line takes its own, what belongs to the same
 * owner (insulation) that of its metal, anything else the nearest by contact or by place. Immutable once made.
 *
 * Years ahead: the growth of the joint's resistance is the middle of the ageing forecast, of class I; all contacts take
 * the one ratio that gives this growth. Not here: colours, arrows (overlay.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/verdict.h"
#include <gio/gio.h>

G_BEGIN_DECLS

typedef enum
{
  TL_OVERLAY_NONE,
  TL_OVERLAY_HEAT,
  TL_OVERLAY_CURRENT,
  TL_OVERLAY_WET, /* wants no field */
  TL_N_OVERLAYS
} TlOverlay;

/* "none", "heat", "current", "wet". */
const char *tl_overlay_word (TlOverlay overlay);
gboolean    tl_overlay_from_word (const char *word, TlOverlay *overlay);

/* Ages that the window offers. */
#define TL_HEAT_FIELD_MOST_YEARS 40.0

/* Current through one contact, or through the bolt. */
typedef struct
{
  guint       contact;    /* index in the assembly, G_MAXUINT for the bolt's side path */
  guint       from, to;   /* bodies; along the current */
  const char *from_owner; /* leg or layer, owned by the field */
  const char *to_owner;
  double      share_ratio; /* of the load, 0 to 1 */
  double      x0_mm, x1_mm; /* where, along the axis of a sleeve as drawn; 0 in a stack */
} TlCurrentPath;

typedef struct _TlHeatField TlHeatField;

/**
 * tl_heat_field_new:
 * @verdict: of the joint; only read
 * @years: age, 0 (new) to %TL_HEAT_FIELD_MOST_YEARS; clamped to that
 * @cancellable: (nullable)
 *
 * Returns: (transfer full): also where nothing could be computed; then tl_heat_field_reason() says why
 */
TlHeatField *tl_heat_field_new (const TlVerdict *verdict, double years, GCancellable *cancellable) G_GNUC_WARN_UNUSED_RESULT;
TlHeatField *tl_heat_field_ref (const TlHeatField *self);
void         tl_heat_field_unref (TlHeatField *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlHeatField, tl_heat_field_unref)

/* Made of the joint of this very verdict? */
gboolean tl_heat_field_is_of (const TlHeatField *self, const TlVerdict *verdict);
/* (nullable): %NULL when computed, else a sentence; (transfer full) */
char    *tl_heat_field_reason (const TlHeatField *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
gboolean tl_heat_field_is_computed (const TlHeatField *self);

double tl_heat_field_years (const TlHeatField *self);
double tl_heat_field_load_A (const TlHeatField *self);
double tl_heat_field_ambient_C (const TlHeatField *self);
/* Resistance of the joint over its own when new; 1 when new. */
double tl_heat_field_growth_ratio (const TlHeatField *self);
/* The forecast goes beyond what can be reckoned: the growth is the last that can. */
gboolean tl_heat_field_is_open (const TlHeatField *self);

/* Temperature of a body in degC at a point of the joint in mm: (x, y) as seen from the head for a stack, (x along the
 * axis, y unused) for a sleeve. Of the metal; insulation and seals have that of the metal in them. */
double tl_heat_field_C (const TlHeatField *self, guint body, double x_mm, double y_mm);
/* Along which way in (x, y) the temperature of a body runs; %FALSE if it is the same all over. */
gboolean tl_heat_field_direction (const TlHeatField *self, guint body, double *x, double *y);

/* Lowest and highest in the joint and 10 mm of its leads. */
void tl_heat_field_range_C (const TlHeatField *self, double *low_C, double *high_C);
/* Hottest metal of the joint: its owner and temperature. */
const char *tl_heat_field_hottest (const TlHeatField *self, double *hot_C);

/* (element-type TlCurrentPath) (transfer none), in the order of the network */
const GArray *tl_heat_field_paths (const TlHeatField *self);
/* Leg by which the current comes, and that by which it leaves. (nullable) */
const char *tl_heat_field_source (const TlHeatField *self);
const char *tl_heat_field_sink (const TlHeatField *self);
/* Share of the load through a body where it is greatest: 1 for the two conductors. */
double tl_heat_field_body_share (const TlHeatField *self, guint body);

G_END_DECLS
