/* ageing.h: how a joint may change over the years: clamping force, resistance, hottest metal, as bands.
 *
 * In: a joint whose heat can be reckoned, and how many years. Out: for each output and year the 5, 50 and 95 % of a
 * number of samples; which uncertain input drives the spread; when to look again, as a class with its reason. All of it
 * is of trust class I, an indication: never a life, never a date, read the band and not the line.
 *
 * Each sample draws every uncertain input from its stated range (half of the samples each side of the best value) by
 * the Sobol sequence, so that the same joint gives the same bytes on any machine and in any thread. A sample settles
 * its faces, takes its first hot cycle (one-step shakedown), then creeps against the springs in series while its
 * contacts grow films; temperature follows resistance and both follow temperature, step by step with the temperature
 * at the start of each step. The network is not solved for each: the hottest metal and the resistance of the joint are
 * first solved at some twenty common ratios of the contact resistances, the answers to the cooling, the air and
 * the load beside them, and interpolated monotonically. The load's share of the time follows its pattern.
 *
 * Not here: corrosion, judged as a class (rules/galvanic-rules.c); the layer in parts of two metals (rules/heat-rules.c);
 * what the heat is now (assembly/heat-model.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/wording.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define TL_AGEING_MAX_YEARS 24
#define TL_AGEING_LEAST_SAMPLES 16
#define TL_AGEING_MOST_SAMPLES 20000
/* Years that a forecast may reach. */
#define TL_AGEING_LEAST_SPAN 1.0
#define TL_AGEING_MOST_SPAN 40.0

typedef enum
{
  TL_AGEING_FORCE,      /* N: clamping force, cold; bolted stacks only */
  TL_AGEING_RESISTANCE, /* uohm: joint between its mouths at 20 degC */
  TL_AGEING_GROWTH,     /* 1: that resistance over its own value when new */
  TL_AGEING_HOT,        /* degC: hottest metal at the load */
  TL_N_AGEING_OUTPUTS
} TlAgeingOutput;

/* What is uncertain. */
typedef enum
{
  TL_AGEING_BY_TIGHTENING,     /* clamping force from the torque */
  TL_AGEING_BY_SETTLING,
  TL_AGEING_BY_CREEP,
  TL_AGEING_BY_CREEP_EXPONENT,
  TL_AGEING_BY_CONTACT,        /* contact resistance when new */
  TL_AGEING_BY_FORCE_EXPONENT, /* resistance against force */
  TL_AGEING_BY_GROWTH,         /* time constant of film growth */
  TL_AGEING_BY_GROWTH_EXPONENT,
  TL_AGEING_BY_COOLING,        /* film law of the surfaces */
  TL_AGEING_BY_AIR,
  TL_AGEING_BY_LOAD,
  TL_N_AGEING_INPUTS
} TlAgeingInput;

/* When to look again: classes, worst first. */
typedef enum
{
  TL_AGEING_CHANGE_DESIGN, /* no interval helps */
  TL_AGEING_FIRST_CYCLES,  /* after the first heat cycles */
  TL_AGEING_WITHIN_YEAR,
  TL_AGEING_ORDINARY,      /* at ordinary inspections */
} TlAgeingLook;

/* Why: what came first. */
typedef enum
{
  TL_AGEING_WHY_FORCE,      /* less than the share that has to stay */
  TL_AGEING_WHY_RESISTANCE, /* more than the ratio at which to remake */
  TL_AGEING_WHY_HEAT,       /* beyond the limit of what it touches, or no steady temperature */
  TL_AGEING_WHY_PRACTICE,   /* a screw on aluminium: common practice, no source */
  TL_AGEING_WHY_NOTHING,
} TlAgeingWhy;

/* 5, 50 and 95 % of the samples, finite. */
typedef struct
{
  TlRange  value;
  gboolean is_open[3]; /* low, middle, high lie beyond what can be reckoned: @value holds the most that can */
} TlAgeingBand;

typedef struct
{
  TlAgeingInput input;
  TlRange       range;                        /* as drawn */
  const char   *unit;
  double        share[TL_N_AGEING_OUTPUTS];   /* of the spread at the end, 0 to 1; they add up to 1 or are all 0 */
} TlAgeingDriver;

typedef struct
{
  gboolean       is_computed;
  const char    *reason; /* (nullable) msgid, with {part}: why not computed */
  char          *owner;  /* (nullable): leg or layer of the reason */
  TlField        field;  /* that is missing, or TL_N_FIELDS */

  double         span_years;
  guint          n_samples;
  guint          n_years;
  double         years[TL_AGEING_MAX_YEARS]; /* from 0, new */
  gboolean       has[TL_N_AGEING_OUTPUTS];
  TlAgeingBand   bands[TL_N_AGEING_OUTPUTS][TL_AGEING_MAX_YEARS];

  guint          n_drivers;
  TlAgeingDriver drivers[TL_N_AGEING_INPUTS]; /* by their share in the hottest metal, greatest first */

  gboolean       has_limit;
  double         limit_C;        /* of what touches the hot metal */
  char          *limit_material; /* (nullable): material id */
  double         force_floor_N;  /* 0 without a force */
  double         force_floor_ratio; /* of the first force */
  double         resistance_most; /* ratio at which to remake */
  double         hottest_C;      /* beyond it a band is open */
  double         load_A, ambient_C;

  TlAgeingLook   look;
  TlAgeingWhy    why;
  gboolean       has_screw_on_aluminium;
  double         screw_months_low, screw_months_high; /* common practice, no source */
} TlAgeing;

typedef struct
{
  double span_years; /* TL_AGEING_LEAST_SPAN to TL_AGEING_MOST_SPAN */
  guint  n_samples;  /* TL_AGEING_LEAST_SAMPLES to TL_AGEING_MOST_SAMPLES */
} TlAgeingOptions;

/* 20 years, 1000 samples. */
void tl_ageing_options_init (TlAgeingOptions *self);

/**
 * tl_ageing_new:
 * @assembly: only its joint and its stock are read, so that it may run in any thread beside others
 * @options: (nullable): defaults
 * @cancellable: (nullable)
 *
 * Returns: (transfer full): also where nothing could be computed; then is_computed is %FALSE and the reason is set.
 *   %NULL with %TL_ERROR_RANGE for options outside their range, %G_IO_ERROR_CANCELLED when cancelled
 */
TlAgeing *tl_ageing_new (const TlAssembly *assembly, const TlAgeingOptions *options, GCancellable *cancellable, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void      tl_ageing_free (TlAgeing *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlAgeing, tl_ageing_free)

/* Bands at any year from 0 to the span, interpolated between the years reckoned. */
TlAgeingBand tl_ageing_band_at (const TlAgeing *self, TlAgeingOutput output, double year);

/* Indices of the drivers by their share in @output, greatest first, those above half a per cent:
 * (array length=count) into @order, which has room for TL_N_AGEING_INPUTS. Returns: count */
guint tl_ageing_drivers_of (const TlAgeing *self, TlAgeingOutput output, guint *order);

/* --- words (ageing-text.c) --- */

/* msgids; units as in base/quantity.h. */
const char *tl_ageing_output_title (TlAgeingOutput output);
const char *tl_ageing_output_unit (TlAgeingOutput output);
const char *tl_ageing_output_word (TlAgeingOutput output); /* "force", "hot", as in JSON */
const char *tl_ageing_input_title (TlAgeingInput input);
const char *tl_ageing_input_word (TlAgeingInput input);
const char *tl_ageing_look_title (TlAgeingLook look); /* "Within a year" */
const char *tl_ageing_look_word (TlAgeingLook look);
const char *tl_ageing_why_word (TlAgeingWhy why);

/* One or two sentences: when to look again and why; all (transfer full). */
char *tl_ageing_look_text (const TlAgeing *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "7.5e-5 to 3e-4": the range of a driver. */
char *tl_ageing_driver_text (const TlAgeingDriver *driver, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "indicative: read the band, not the line" with load and air. */
char *tl_ageing_basis_text (const TlAgeing *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Why nothing was computed, or "". */
char *tl_ageing_reason_text (const TlAgeing *self, const TlAssembly *assembly, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* "57 °C (54 to 75 °C)", "above 200 °C" */
char *tl_ageing_band_text (const TlAgeing *self, TlAgeingOutput output, const TlAgeingBand *band, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* All as lines of text for the terminal. */
char *tl_ageing_to_text (const TlAgeing *self, const TlAssembly *assembly, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
