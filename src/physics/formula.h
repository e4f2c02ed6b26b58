/* formula.h: the registry of formulas.
 *
 * A formula is described once, in a static table of its subject's file: id, what it gives, each input with
 * unit, permitted range and meaning, equation, source, trust class, its function. From that one row come
 * `tinlap-cli calc`, the working beside a finding, the range check, the reference tests and the handbook page.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/error.h"
#include "base/range.h"

G_BEGIN_DECLS

#define TL_FORMULA_MAX_INPUTS 72
#define TL_FORMULA_MAX_OUTPUTS 8

/* How the result moves when this input rises. NEITHER: the evaluator samples between the ends. */
typedef enum
{
  TL_TREND_NEITHER,
  TL_TREND_RISES,
  TL_TREND_FALLS,
} TlTrend;

/* Trust class of a figure: A rule or conservation law on stated inputs, B estimate with a band, I indication. */
typedef enum
{
  TL_TRUST_A,
  TL_TRUST_B,
  TL_TRUST_I,
} TlTrust;

typedef struct
{
  const char *name;    /* as in formulas.csv; a counted input is "part_" with count > 0 */
  const char *unit;    /* spelled as in formulas.csv; "word" for words */
  const char *meaning; /* msgid */
  double      low;     /* permitted range */
  double      high;
  gboolean    low_open; /* low itself is not permitted */
  gboolean    optional;
  double fallback; /* value when an optional input is left out and a default exists; else NAN */
  guint  first;    /* counted inputs: numbers first, first+step .. last; 0 if single */
  guint  last;
  guint  step;
  const char *const *words; /* words permitted; the value is the index */
  TlTrend            trend; /* of the first output; others are sampled at the corners too */
  guint              least; /* counted inputs: how many, from the first on, must be given */
  gboolean           whole; /* a count: fractions are refused */
} TlFormulaInput;

typedef struct
{
  const char        *name;
  const char        *unit;  /* "any": see tl_call_output_unit() */
  const char *const *words; /* the value is the index */
} TlFormulaOutput;

/**
 * TlFormulaFunc:
 * @in: all inputs, counted ones expanded in order; NAN where an optional one without default was left out
 * @out: outputs; a NAN output means "not asked for / not computable from what was given"
 * Returns: %FALSE with @error only for combinations that the per-input ranges cannot refuse
 */
typedef gboolean (*TlFormulaFunc) (const double *in, double *out, GError **error);

typedef struct
{
  const char            *id;       /* "torque-to-preload" */
  const char            *title;    /* msgid, a noun phrase */
  const char            *equation; /* plain text, as in formulas.csv "meaning" */
  const char            *source;
  TlTrust                trust;
  const TlFormulaInput  *inputs;  /* (array zero-terminated) by name == NULL */
  const TlFormulaOutput *outputs; /* (array zero-terminated) by name == NULL */
  TlFormulaFunc          run;
} TlFormula;

/* (transfer none) (nullable) */
const TlFormula        *tl_formula_find (const char *id);
/* All formulas in the order of their subjects: (array length=count) */
const TlFormula *const *tl_formula_all (guint *count);

/* --- one evaluation: the working of a figure --- */
typedef struct
{
  const TlFormula *formula;
  guint            n_inputs; /* expanded */
  TlRange          in[TL_FORMULA_MAX_INPUTS];
  gboolean         given[TL_FORMULA_MAX_INPUTS];
  TlRange          out[TL_FORMULA_MAX_OUTPUTS];
  gboolean         has_out[TL_FORMULA_MAX_OUTPUTS];
} TlCall;

/* Starts an evaluation of formula @id (must exist). */
void        tl_call_init (TlCall *self, const char *id);
/* Sets an input in the formula's own unit. @name must exist: programmer's mistake otherwise. */
void        tl_call_set (TlCall *self, const char *name, TlRange value);
void        tl_call_set_exact (TlCall *self, const char *name, double value);
void        tl_call_set_word (TlCall *self, const char *name, const char *word);
/* Checked: each input against its range, missing ones named. Ranges by corners and sampling. */
gboolean    tl_call_run (TlCall *self, GError **error);
/* Unchecked and best values only, for search and drag previews; %FALSE if anything is not finite. */
gboolean    tl_call_run_quick (TlCall *self);
/* Output after a run; programmer's mistake if @name does not exist or was not computed. */
TlRange     tl_call_get (const TlCall *self, const char *name);
gboolean    tl_call_has (const TlCall *self, const char *name);
const char *tl_call_get_word (const TlCall *self, const char *name);
/* Name of expanded input @index ("part_3"); (transfer full) */
char       *tl_call_input_name (const TlCall *self, guint index) G_GNUC_WARN_UNUSED_RESULT;
const TlFormulaInput *tl_call_input_info (const TlCall *self, guint index);

/* Unit of output @index: that of the table, or the unit asked for where the table says "any". */
const char *tl_call_output_unit (const TlCall *self, guint index);
/* "A", "B" or "I"; (transfer none) */
const char *tl_trust_to_word (TlTrust trust);

/* Sets an input from text: "20 N_m", "0.16..0.26", a bare word; converts units. */
gboolean tl_call_set_text (TlCall *self, const char *name, const char *text, GError **error);

G_END_DECLS
