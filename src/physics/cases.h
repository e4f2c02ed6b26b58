/* cases.h: files of worked cases, and the registry's answer to each.
 *
 * A case file is CSV (RFC 4180, UTF-8) with the columns id, formula, inputs, expected, unit, tolerance, source,
 * known_by, note. All rows are read and computed before anything is reported: one bad row and there is no
 * result at all, only its place and what would be right.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "formula.h"

G_BEGIN_DECLS

/* A whole case file; more is refused before it is read. */
#define TL_CASES_MAX_BYTES (16u * 1024u * 1024u)
#define TL_CASES_MAX_FIELD_BYTES (64u * 1024u)

/**
 * TlCaseState:
 * @TL_CASE_IN: every figure within its tolerance
 * @TL_CASE_OUT: at least one figure outside
 * @TL_CASE_LEFT_OUT: the registry has no such formula; see the reason
 */
typedef enum
{
  TL_CASE_IN,
  TL_CASE_OUT,
  TL_CASE_LEFT_OUT,
} TlCaseState;

/**
 * TlCaseFigure:
 * @output: name of the output
 * @unit: unit of both ranges; "word" for words
 * @expected: what the source prints; a range only if the row gives one
 * @expected_word: (nullable): for words
 * @has_computed: %FALSE if the formula has no such result for these inputs
 * @computed: the registry's answer in @unit
 * @computed_word: (nullable): for words, owned by the registry
 * @fits: within the tolerance
 */
typedef struct
{
  char       *output;
  char       *unit;
  TlRange     expected;
  char       *expected_word;
  gboolean    has_computed;
  TlRange     computed;
  const char *computed_word;
  gboolean    fits;
} TlCaseFigure;

typedef struct
{
  guint       line;
  char       *id;
  char       *formula;
  char       *source;
  char       *known_by;
  char       *reason; /* (nullable): why it was left out */
  TlCaseState state;
  GArray     *figures; /* (element-type TlCaseFigure) */
} TlCase;

typedef struct
{
  GPtrArray *cases; /* (element-type TlCase) */
  guint      passed;
  guint      failed;
  guint      left_out;
} TlCases;

/**
 * tl_cases_parse:
 * @data: @length bytes
 * @file: name for messages
 *
 * Tolerances: "0.1 %" of the expected figure, "0.05" in the row's unit, "exact" (words equal; figures to
 * 1e-9 of themselves, which is the rounding of doubles).
 * Returns: (transfer full) (nullable): %NULL with "FILE:LINE: what is wrong; what would be right"
 */
TlCases *tl_cases_parse (const char *data, gsize length, const char *file,
                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Reads @path, at most %TL_CASES_MAX_BYTES, then tl_cases_parse(). */
TlCases *tl_cases_read (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void     tl_cases_free (TlCases *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlCases, tl_cases_free)

/**
 * tl_csv_parse:
 * Rows of fields; empty lines are passed over. Element i of @lines is the line on which row i begins.
 * Returns: (transfer full) (nullable) (element-type GStrv)
 */
GPtrArray *tl_csv_parse (const char *data, gsize length, const char *file, GArray **lines,
                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
